//! How the program comes onto the home screen, in words. The drawings stand in `screens/install_drawn.rs`.

pub use crate::words::parts::Card as Words;

pub const LINK: &str = "Ponerlo en la pantalla de inicio";

pub const ANDROID: Words = Words {
    title: "Un teléfono con Android",
    seen: "Dos teléfonos: en el primero, tres puntos arriba y una lista con una línea marcada; en el segundo, el signo del programa entre otros.",
    steps: &[
        "Toca los tres puntos junto a la dirección.",
        "Toca «Añadir a la pantalla de inicio» o «Instalar aplicación», y acepta.",
        "Desde ahora ábrelo por su signo: tiene toda la pantalla y funciona sin conexión.",
    ],
};

pub const IOS: Words = Words {
    title: "Un iPhone o iPad",
    seen: "Dos teléfonos: en el primero, una caja con una flecha que sale, abajo, y una lista con una línea marcada; en el segundo, el signo del programa entre otros.",
    steps: &[
        "Toca la caja con la flecha, abajo o arriba.",
        "Baja por la lista hasta «Añadir a pantalla de inicio», luego «Añadir». ¿No está? Abre la dirección en el navegador propio del teléfono.",
        "Abre el libro ahí y en ningún otro sitio: la pantalla de inicio guarda un libro aparte. Uno empezado antes viene como archivo.",
    ],
};

pub const DESKTOP: Words = Words {
    title: "Un ordenador",
    seen: "Una ventana con una dirección; al final de la dirección una pantalla con una flecha, y debajo una pregunta con una tecla marcada.",
    steps: &[
        "Pulsa la pantalla con la flecha al final de la dirección, o busca «Instalar» en el menú del navegador.",
        "Acepta. Se abre en una ventana propia y queda entre los demás programas.",
        "Un navegador sin eso guarda el programa igualmente: basta un marcador.",
    ],
};
