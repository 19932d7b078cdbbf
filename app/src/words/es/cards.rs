//! Handwork at the bench in words: what is done, how, and why there. The drawings stand in `screens/cards_drawn.rs`.

pub use crate::words::parts::Card as Words;

pub const TITLE: &str = "Cómo lo hacen las manos";
pub const LINK: &str = "Cómo lo hacen las manos";
pub const ORIGIN: &str = "Práctica común de cultivadores, sin fuente, salvo donde se nombre una. Lo que enseña la planta que tienes delante va primero.";
pub const CARE: &str = "Corta alejándote de la mano que sujeta. Una hoja de corte limpia y guantes limpios para cada mata; la savia lleva virus.";

pub const CUT_HERE: &str = "cortar aquí";
pub const SPENT: &str = "flores pasadas";
pub const SPLIT: &str = "rajar";
pub const EYES: &str = "yemas";
pub const SIDEWAYS: &str = "pelar de lado";
pub const WHITE: &str = "blanca: se queda";
pub const HOLLOW: &str = "parda, hueca";
pub const OFF_HERE: &str = "quitar aquí";
pub const FEW_ROOTS: &str = "pocas raíces";
pub const OLDEST: &str = "el más viejo al borde";
pub const LEAD_ROOM: &str = "sitio para crecer";
pub const BACK_BULBS: &str = "bulbos traseros";
pub const WITH_LEAD: &str = "bulbos con guía";
pub const EYE: &str = "yema por encima";
pub const MIX: &str = "mezcla gruesa";

pub const SPIKE: Words = Words {
    title: "La vara pasada se corta baja",
    seen: "Dos bulbos con una vara entre ellos de flores pasadas; una línea discontinua cruza la vara cerca de su pie.",
    steps: &[
        "Cuando cuelgue la última flor, sigue la vara hacia abajo hasta donde sale del bulbo.",
        "Corta dos o tres centímetros por encima, para que la hoja de corte no toque el bulbo ni sus yemas.",
        "El tocón se seca y se suelta solo unas semanas después.",
    ],
};
pub const CUT: Words = Words {
    title: "Por dónde se corta una mata",
    seen: "Bulbos en fila sobre un rizoma; una línea discontinua entre los de atrás, sin hojas, y los que tienen hojas y la guía.",
    steps: &[
        "Primero separa la mata a mano a lo largo de sus rizomas; la mayor parte sale sin cortar.",
        "Corta solo el rizoma, entre dos bulbos, recto hacia abajo.",
        "Deja a la pieza que va a florecer su guía y al menos los bulbos que pide su grupo; la mesa dice cuántos.",
    ],
};
pub const ROOTS: Words = Words {
    title: "Raíces muertas fuera, las vivas se quedan",
    seen: "Raíces bajo un bulbo: dos blancas con la punta verde, dos pardas con una línea discontinua en su arranque.",
    steps: &[
        "Aprieta cada raíz: blanca y firme vive; parda y hueca está muerta, sea cual sea su largo.",
        "Corta las muertas en el rizoma. El hilo que queda de una raíz indica dónde puede salir otra; no hace daño.",
        "Deja largas las vivas. Se rompen menos si antes se mojan.",
    ],
};
pub const LEAF: Words = Words {
    title: "Una hoja vieja, sin dañar las yemas",
    seen: "Un bulbo con una hoja rajada por el medio; unas flechas señalan las mitades peladas a los dos lados; una yema a cada lado del pie del bulbo.",
    steps: &[
        "Raja la hoja amarilla por el medio, desde la punta hasta el bulbo.",
        "Pela una mitad de lado, rodeando el bulbo, y luego la otra en sentido contrario.",
        "Si se tira recto hacia abajo, se lleva las yemas del pie: los brotes del año que viene.",
    ],
};
pub const SHORT: Words = Words {
    title: "Un brote con pocas raíces",
    seen: "Un brote con cuatro hojas y dos raíces cortas; una línea discontinua cruza las hojas a unos dos tercios de su largo.",
    steps: &[
        "Pocas raíces no mantienen todas sus hojas: quita a cada una alrededor de un tercio, con una hoja de corte limpia.",
        "Deja secar los cortes. Tenlo a la sombra y con aire húmedo hasta que se vean raíces; riega poco.",
    ],
};
pub const WAY: Words = Words {
    title: "Hacia dónde crece",
    seen: "Una maceta desde arriba: tres bulbos en fila desde el borde, el más viejo tocándolo, y la guía verde apuntando al otro lado de la maceta.",
    steps: &[
        "Pon el bulbo más viejo contra el borde, la guía hacia el lado libre.",
        "Deja sitio para unos dos años de crecimiento y no más; una maceta demasiado grande se queda mojada.",
        "El rizoma va encima del sustrato, nunca debajo.",
    ],
};
pub const BACK: Words = Words {
    title: "Un bulbo trasero, puesto para dar un hijuelo",
    seen: "Un bulbo medio metido en el sustrato, con una yema justo por encima de la que sale un brote.",
    steps: &[
        "Un bulbo firme está vivo; uno blando o hueco está muerto.",
        "Ponlo en mezcla gruesa hasta un tercio, con la yema por encima. Sombra, aire húmedo, sustrato apenas húmedo.",
        "Va a su maceta definitiva cuando se ven brote y raíz: de tres a seis meses en un cymbidium.",
    ],
};
