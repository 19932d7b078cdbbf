//! The Repot room's own words.

use velamen_core::quantity::Volume;
use velamen_core::view::potting::Wet;

use super::format::counted;

pub const WHAT_MAY_FOLLOW: &str = "Qué puede seguir: baño, miradas, aparte";
pub const CLUMP_TO_THE_BENCH: &str = "Una mata a la mesa";
pub const ON_THE_BENCH: &str = "En la mesa";
pub const MORE_WAIT: &str = "Más que piden la mesa";
pub const WANTS_THE_BENCH: &str = "Piden mesa";
pub const EMPTY: &str = "No hay nada en la mesa.";
pub const EMPTY_HINT: &str = "Trae una mata: de un lote del libro, o una que nunca se anotó.";
pub const CLEAN: &str = "Herramientas y guantes limpios";
pub const CLEAN_HINT: &str = "Una vez por sesión. Hojas de corte, guantes y mesa repasados antes de la primera mata; la llama, nunca cerca del alcohol.";
pub const CLEAN_BETWEEN_CLUMPS: &str = "Limpio, hoja nueva por mata";
pub const CLEAN_BETWEEN_PLANTS: &str = "Limpio, hoja nueva por planta";
pub const WHICH_LOTS: &str = "¿Qué lotes crecieron juntos?";
pub const WHICH_HINT: &str = "Elige todos los que crecieron juntos. De cuál salió cada pieza puede quedar sin saber; se guardan todos.";
pub const SEARCH: &str = "Nombre o código";
pub const NOT_IN_BOOK: &str = "No está en el libro";
pub const IN_BOOK: &str = "Del libro";
pub const POTS_GROWN_TOGETHER: &str = "Macetas crecidas juntas";
pub const PLANTS_TO_BENCH: &str = "Plantas a la mesa";
pub const NAME: &str = "Nombre, si lo sabes";
pub const TRAY_TAG: &str = "Marca de bandeja";
pub const TRAY_HINT: &str = "Ponla junto a la mata antes del primer corte.";
pub const OPEN_IT: &str = "Abrirla";
pub const OPENED: &str = "En la mesa. Deja la etiqueta vieja junto a la marca de bandeja.";
pub const TO_THE_POTS: &str = "A las macetas";
pub const BACK_TO_PIECES: &str = "Contar otra vez";
pub const SEEN_HERE: &str = "Visto aquí";
pub const PUT_BACK: &str = "Devolverla entera";
pub const PUT_BACK_DONE: &str = "Devuelta como vino.";
pub const BULBS: &str = "Bulbos que llevan, si se contaron";
pub const FIVE: &str = "+5";
pub const SAFETY: &str = "Humedece el sustrato antes de tocarlo. Guantes para el musgo. Levanta las matas mojadas con las dos manos.";
pub const POTS: &str = "Macetas";
pub const TRAYS: &str = "Macetas o bandejas";
pub const PLANTS_NOW: &str = "Piezas ahora";
pub const POT_KIND: &str = "Maceta";
pub const MIX: &str = "Sustrato";
pub const PLACE: &str = "Adónde van";
pub const STONE: &str = "Piedra debajo";
pub const LESS_STONE: &str = "Menos piedra";
pub const MORE_STONE: &str = "Más piedra";
pub const HOW_TO: &str =
    "El extremo más viejo contra el borde, la guía hacia el otro lado. La piedra da peso y aire.";
pub const POTTED: &str = "En maceta";
pub const LATER: &str = "Después";
pub const WRITE: &str = "Escribe esto en la etiqueta";
pub const WRITTEN: &str = "Escrita";
pub const LABELS: &str = "Etiquetas";
pub const ALL_POTTED: &str = "Todas las piezas que se quedan están en maceta.";
pub const DONE: &str = "Hecho";
pub const DONE_SAID: &str = "La mata está terminada. La Ronda recuerda lo que sigue.";
pub const NEXT: &str = "Siguiente";
pub const NOTHING_TAKEN: &str = "Cuenta antes las piezas.";
pub const STILL_BARE: &str = "aún sin maceta";
pub const MIX_LABEL: &str = "sustrato, contando lo que asienta";
pub const STONE_LABEL: &str = "piedra";
pub const HEADSPACE: &str = "hueco arriba";

#[must_use]
pub fn kept(pots: u64, kept: u64, thrown: u64) -> (String, String) {
    let opened = counted(
        i64::try_from(pots).unwrap_or(0),
        "maceta abierta",
        "macetas abiertas",
    );
    let kept = counted(
        i64::try_from(kept).unwrap_or(0),
        "pieza se queda",
        "piezas se quedan",
    );
    (
        opened,
        if thrown > 0 {
            let thrown = i64::try_from(thrown).unwrap_or(i64::MAX);
            format!("{kept}, {}", counted(thrown, "tirada", "tiradas"))
        } else {
            kept
        },
    )
}

#[must_use]
pub fn one_less(of: &str) -> String {
    format!("Uno menos: {of}")
}

#[must_use]
pub fn one_more(of: &str) -> String {
    format!("Uno más: {of}")
}

#[must_use]
pub fn of_all(plants: i64) -> String {
    format!("de {plants}")
}

#[must_use]
pub fn grown_together(pots: u64) -> String {
    match pots {
        1 => "una maceta".to_owned(),
        pots => format!("{pots} macetas crecidas juntas"),
    }
}

#[must_use]
pub fn which_not_known(codes: &str) -> String {
    format!("{codes} · no se sabe cuál")
}

#[must_use]
pub fn seen(signs: &str) -> String {
    format!("Visto aquí: {signs}.")
}

#[must_use]
pub fn labels_to_write(stands: i64) -> String {
    counted(stands, "etiqueta por escribir", "etiquetas por escribir")
}

#[must_use]
pub fn potted(what: &str, count: u32) -> String {
    format!("{what}: {count} en maceta.")
}

/// The work a clump leaves behind: "Lavar y luego desinfectar 3 macetas sucias y 1,2 L de piedra (bandeja 2)".
#[must_use]
pub fn wash(pots: u32, stone: Volume, tray: u32) -> String {
    let pots = counted(i64::from(pots), "maceta sucia", "macetas sucias");
    let stone = if stone == Volume::ZERO {
        " y su piedra".to_owned()
    } else {
        format!(" y {} de piedra", super::format::litres(stone))
    };
    format!("Lavar y luego desinfectar {pots}{stone} (bandeja {tray})")
}

#[must_use]
pub fn next_on(day: &str) -> String {
    format!("vuelve a la mesa {day}")
}

/// Where a mix stays wet for longer than usual.
#[must_use]
pub fn wet(wet: Wet) -> String {
    let why = match wet {
        Wet::Rain => "Abierto a la lluvia",
        Wet::Humid => "El aire aquí pasó últimamente del 80 % de humedad",
    };
    format!(
        "{why}: corteza un grado más gruesa, o de un 10 a un 20 % más de pómez o piedra en el sustrato; en barro, un grado más fina que en plástico. (Práctica común, sin fuente.)"
    )
}
