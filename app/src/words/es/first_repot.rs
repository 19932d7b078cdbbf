//! The first repot, led step by step.

pub use crate::words::parts::Led;

pub const TITLE: &str = "La primera mata";
pub const OFFER: &str =
    "Te acompaño en una mata tuya: en cada paso, qué hacen las manos y qué pregunta el libro.";
pub const BEGIN: &str = "Acompáñame";
pub const NOT_NOW: &str = "Ahora no";
pub const SHOW: &str = "Ver cómo";
pub const PUT_AWAY: &str = "Seguir sin ayuda";

pub const BARE: Led = Led {
    hands: "Hay piezas sin maceta: a sus macetas con ellas, antes de la mata siguiente.",
    asks: "«A las macetas», abajo, sigue donde lo dejaste.",
};
pub const GO_ON: Led = Led {
    hands: "Ya hay una mata en la mesa: acábala antes de la siguiente.",
    asks: "«Seguir», abajo, lleva a donde lo dejaste.",
};
pub const CLEAN: Led = Led {
    hands: "Repasa hojas de corte, guantes y mesa, y deja que el alcohol se seque.",
    asks: "El libro pregunta cada cuánto usas una hoja limpia. Un botón de abajo lo dice para hoy.",
};
pub const BRING: Led = Led {
    hands: "Elige una mata que llene su maceta; si está mojada, levántala con las dos manos.",
    asks: "Luego «Una mata a la mesa»: el libro pregunta qué planta era.",
};
pub const OPEN: Led = Led {
    hands: "Fuera varas pasadas y hojas viejas, fuera la maceta, y la marca de bandeja junto a la mata.",
    asks: "El libro pregunta el lote, o cuántas macetas crecieron juntas si nunca se anotó.",
};
pub const PIECES: Led = Led {
    hands: "Separa la mata a mano; corta solo el rizoma entre dos bulbos. Fuera las raíces muertas.",
    asks: "El libro pregunta cuántas piezas hay de cada clase. Un toque por cada una, según sale.",
};
pub const POTS: Led = Led {
    hands: "Primero la piedra. El extremo viejo contra el borde, sustrato húmedo entre las raíces, el rizoma encima.",
    asks: "El libro pregunta cuántas piezas, qué maceta y sustrato, y adónde van. Escribe el código en la etiqueta.",
};
pub const BACK_BULBS: Led = Led {
    hands: "Los bulbos traseros comparten bandeja: hasta un tercio en mezcla gruesa, la yema por encima.",
    asks: "El libro pregunta cuántas piezas y bandejas, y adónde van. Escribe el código en la etiqueta.",
};
pub const LABELS: Led = Led {
    hands: "Una etiqueta en cada maceta. Sombra, y nada de agua hasta que lo diga la Ronda.",
    asks: "El libro pregunta qué etiquetas están escritas. «Hecho» cierra la mata; lo que sigue está en la Ronda.",
};
