//! Help, a page for each kind of screen: what it is for, how it is used, and what to take care of.

use crate::help::Topic;

pub use crate::words::parts::HelpPage as Page;

pub const LINK: &str = "Ayuda de esta pantalla";
pub const TITLE: &str = "Ayuda";
pub const BACK: &str = "Volver a donde estabas";
pub const CARE: &str = "Cuidado";
pub const MORE: &str = "Otras páginas de ayuda";

/// The page about something.
#[must_use]
pub fn page(topic: Topic) -> Page {
    match topic {
        Topic::Start => Page {
            title: "Para empezar",
            says: &[
                "Pon al libro el nombre de tu vivero y di en qué mitad del mundo estás: de ahí salen las épocas.",
                "Para mirar primero, abre el ejemplo. Es inventado, tiene su propio sitio en este teléfono y se va sin dejar rastro.",
                "¿Hay un libro en otro teléfono? Entrégalo allí como archivo y recíbelo aquí.",
                "Después: las bancadas como lugares, en el orden en que las recorres, y las primeras plantas. Una lista de una hoja de cálculo entra de una vez.",
            ],
            care: &[
                "Todo se queda en este teléfono. Entrega el libro de vez en cuando, o teléfono perdido será libro perdido.",
            ],
        },
        Topic::Round => Page {
            title: "La Ronda",
            says: &[
                "Lo atrasado va primero, luego lo que toca, luego lo que viene, en el orden de tu recorrido.",
                "Una fila es una clase de trabajo en un lugar. Toca el botón de su extremo cuando esté hecho; toca la fila para dejar algo fuera, para aplazarlo con un motivo o para decir que no hace falta.",
                "Una fila rayada es algo que todavía no se hace, como no regar antes de un día.",
                "Deshacer queda a mano unos segundos; más tarde, en el Libro se retira cualquier entrada.",
                "«¿Qué cabe?» elige el trabajo que más vale en los minutos que tienes.",
                "«Plano» dibuja las bancadas en el orden de tu recorrido, con lo atrasado, lo que toca y lo que espera en cada una.",
            ],
            care: &[
                "El trabajo no se olvida por ir atrasado: se queda hasta que esté hecho, se aplace o se diga que no hace falta.",
            ],
        },
        Topic::Seen => Page {
            title: "Algo visto",
            says: &[
                "Di qué ves y en qué parte de la planta; lo que pueda ser es solo una conjetura, y así se llama.",
                "Cuenta si puedes: tantas con ello, de tantas miradas. De ahí sale una línea a lo largo de las semanas.",
                "Luego elige qué sigue: apartar, tratar, mirar otra vez, analizar. Nada se hace solo.",
                "Desde una planta con virus, el programa sigue hojas de corte, baños, macetas y parentesco hasta las que corren riesgo.",
            ],
            care: &[
                "Aparta primero la planta sospechosa, y lávate las manos antes de la siguiente.",
                "Una foto y una señal no son un diagnóstico; donde importa, lo da un laboratorio.",
            ],
        },
        Topic::Weather => Page {
            title: "Mínima y máxima",
            says: &[
                "Dos números por invernadero y día, del termómetro que los recuerda. El archivo de un registrador trae muchos días de una vez.",
                "De ellos salen la sequedad del aire, las noches frescas y el calor acumulado; un día que nadie leyó se queda en hueco.",
                "El frío aplaza el primer riego, el calor acerca la siguiente generación de una plaga: la Ronda lo dice donde ocurre.",
            ],
            care: &[],
        },
        Topic::Repot => Page {
            title: "Dividir",
            says: &[
                "Confirma una vez al día que herramientas y guantes están limpios. Luego lleva a la mesa uno o varios lotes, o una mata que nunca se anotó, con una marca de bandeja.",
                "Puede haber varias matas abiertas a la vez. Cada una sigue en el toque donde se dejó, aunque se acabe la batería.",
                "El orden de corte deja lo sospechoso para el final.",
                "«Cómo lo hacen las manos» enseña los cortes.",
            ],
            care: &[
                "Una hoja de corte nueva o flameada y guantes limpios para cada mata. Deja enfriar la hoja flameada, lejos del alcohol.",
                "La corteza seca suelta polvo: mójala antes de volcarla, al aire libre o con mascarilla.",
                "Levanta las macetas llenas con la espalda recta, o entre dos personas.",
            ],
        },
        Topic::Bench => Page {
            title: "Una mata en la mesa",
            says: &[
                "Cuenta las piezas según lo que será de ellas: botones grandes, un toque por pieza, una menos con el botón de al lado.",
                "¿Manchas en las hojas? «Visto aquí» lo deja anotado, y las piezas pueden pasar por un baño y volver.",
                "Elige maceta, piedra y sustrato para cada clase de pieza: los litros y kilos salen solos. El código de la etiqueta está ahí al momento; escríbelo a mano.",
                "Al cerrar la mata, lo vaciado va al lavado y las tareas a la Ronda.",
            ],
            care: &["Etiqueta antes de soltar una pieza. Después ya no lo sabe nadie."],
        },
        Topic::Treat => Page {
            title: "Tratar",
            says: &[
                "Empieza por el producto y contra qué es. La cantidad sale de la dosis de la etiqueta y de tu agua.",
                "Un baño, un riego dirigido, una pulverización, un toque con torunda o un espolvoreo sobre un corte: cada uno pide sus propias cantidades.",
                "Lo que estas plantas llevaron antes está en una tira de códigos, con el motivo donde toca cambiar.",
                "Un tratamiento ya hecho también se anota aquí. El registro se juzga según las normas que elegiste y se completa más tarde.",
            ],
            care: &[
                "La etiqueta y la ley local van antes que todo lo que se dice aquí; donde se exige práctica autorizada, esta va antes que ambas.",
                "Guantes, ojos, aire: lo que pide la etiqueta, antes de abrir el envase.",
            ],
        },
        Topic::Bath => Page {
            title: "Un tratamiento entre manos",
            says: &[
                "Mide lo que está ahí en cifras grandes; al lado, las llenadas de tus propias jeringas y balanzas.",
                "El remojo cuenta desde que entra la última pieza, y sigue contando mientras el teléfono duerme.",
                "Una misma mezcla admite varias tandas. Se ven su edad y la concentración que queda; se rellena a la concentración del principio.",
                "Al final, di adónde fue el resto. «No entrar hasta» sigue a la etiqueta.",
            ],
            care: &[
                "Nunca por encima de la dosis más alta de la etiqueta; el programa la rechaza.",
                "Lo que nunca debe juntarse se busca en la cubeta, en los medidores y en las plantas. Lee la etiqueta de todos modos.",
                "¿Algo ha ido mal? Primero los primeros auxilios de la etiqueta y el teléfono de toxicología; el registro, después.",
            ],
        },
        Topic::Stock => Page {
            title: "Plantas",
            says: &[
                "Un lote es lo que comparte una etiqueta: la misma planta, en macetas iguales, en un lugar.",
                "Búscalo por cualquier parte de su nombre, su lugar, su código o su número viejo; un desliz del dedo se perdona.",
                "«Lo que viene» cuenta lo que puede florecer o venderse, con márgenes, según lo que este libro ha visto.",
                "En una ventana ancha las plantas son una tabla: toca la cabeza de una columna para ordenarla, marca lotes para moverlos, responder por ellos o imprimir sus etiquetas a la vez.",
            ],
            care: &[],
        },
        Topic::Lot => Page {
            title: "Un lote",
            says: &[
                "Qué toca, de dónde viene, qué se hizo, si está apartado.",
                "Mover, contar, separar, dar de baja o vender, en «Cambiar». Un recuento que no cuadra se muestra, nunca se disimula.",
                "Se pueden guardar plantas para alguien, hasta un día o sin él. Vender más de las libres pregunta antes.",
                "Lo que ha costado una pieza se calcula con los precios del Almacén, y dice qué no está incluido.",
                "Sus propias fechas de raíces, flor y reposo, una vez vistas, van antes que cualquier tabla.",
            ],
            care: &[
                "Un lote en cuarentena no se vende, ni se mueve, ni se divide hasta que se cumplan días, revisiones y pruebas.",
            ],
        },
        Topic::List => Page {
            title: "Una lista que ya tienes",
            says: &[
                "En la hoja de cálculo, guarda la hoja como CSV. Una fila es un lote.",
                "Di qué trae cada columna; varias columnas pueden ser partes del nombre. No hace falta más que un nombre o un número.",
                "Cada fila que no entraría dice por qué. Las filas que ya están en el libro se quedan fuera.",
                "Para el último trasplante basta un mes, o un año: se toma su primer día.",
            ],
            care: &[],
        },
        Topic::Book => Page {
            title: "El Libro",
            says: &[
                "Todas las entradas, la más nueva primero. No se sobrescribe nada: una corrección añade una línea; una entrada retirada sigue legible.",
                "Lo que dos teléfonos dicen distinto se pregunta, con ambas versiones a la vista.",
            ],
            care: &[],
        },
        Topic::Files => Page {
            title: "Entregar y recibir",
            says: &[
                "Un archivo es el libro entero o una parte. Envíalo como quieras.",
                "Al recibir se ve primero qué traería el archivo; el orden, las repeticiones y los archivos perdidos no hacen daño.",
                "Si no hay otra manera entre dos teléfonos, unas pocas anotaciones pasan como cuadrados de la pantalla a la cámara.",
                "Un teléfono nuevo recibe el archivo y se une al libro con un comienzo de códigos propio.",
            ],
            care: &[
                "Un archivo guardado en el teléfono se pierde con él: envíalo a otro sitio y toca «Ya está en otro sitio». El Libro dice cuánto hace del último.",
            ],
        },
        Topic::Shed => Page {
            title: "El Almacén",
            says: &[
                "Todo lo que se prepara una vez: lugares, macetas, sustratos, medidores, productos, protocolos, este teléfono.",
                "Los protocolos dicen qué trabajo sigue a qué, a los cuántos días y en qué época. Antes de guardar un cambio ves qué movería.",
                "Lo marcado «Ya no se usa» no se borra: las entradas viejas lo siguen nombrando.",
            ],
            care: &[],
        },
        Topic::Install => Page {
            title: "En la pantalla de inicio",
            says: &[
                "No hace falta ninguna tienda: esta misma página se convierte en el programa y se queda en el teléfono con toda su ayuda.",
                "Una versión nueva se ofrece en las salas, con una línea sobre lo nuevo, y entra cuando dices que sí o cuando se cerraron todas sus ventanas. Nada de lo empezado se pierde.",
            ],
            care: &[
                "Al borrar los datos de navegación se va también el libro. Entrégalo antes de limpiar el teléfono.",
            ],
        },
        Topic::Wash => Page {
            title: "El lavado",
            says: &[
                "Macetas y piedra pasan de sucias a lavadas, desinfectadas y limpias, y cada paso se cuenta.",
                "El desinfectante se calcula con la concentración que dice su envase; el tiempo cuenta desde que entra la última maceta.",
                "Lo que viene de una planta con virus se aparta; una parte se tira.",
            ],
            care: &[
                "El cloro con un ácido, amoniaco o alcohol forma veneno: no los mezcles nunca, y nunca uno tras otro en la misma cubeta sin enjuagarla.",
                "La piedra caliente revienta si está mojada, y quema. Gafas de protección, y déjala enfriar.",
            ],
        },
        Topic::Products => Page {
            title: "Productos",
            says: &[
                "Un producto se anota una vez, tal como dice su etiqueta: materias activas, dosis, para qué es cada uso y con qué método.",
                "Cada envase tiene su partida, sus fechas y lo que queda. Si se usa más de lo que tenía, se dice, y se anota de todos modos.",
                "La tabla de rotación dice cuántas veces seguidas se puede repetir un modo de acción.",
            ],
            care: &[
                "Nada de aquí dice que un producto esté permitido donde estás. Eso lo dicen la etiqueta y el registro oficial.",
            ],
        },
    }
}
