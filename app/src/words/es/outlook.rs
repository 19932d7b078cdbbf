//! What is to come, in words.

use velamen_core::outlook::Span;
use velamen_core::reference::taxa::{self, Group};

use super::format::counted;

pub const TITLE: &str = "Lo que viene";
pub const IN_FLOWER: &str = "Pueden estar en flor";
pub const SALEABLE: &str = "Pueden tener tamaño de venta";
pub const SALEABLE_NOTE: &str = "si no se vende ninguna";
pub const WHICH: &str = "Qué clases, por mes";
pub const IF_CUT: &str = "Si se corta lo previsto";
pub const IF_CUT_HOW: &str = "Una mata que se corta deja sus macetas ese día, y sus piezas tardan en hacerse: menos para vender al principio, más al final.";
pub const LIVING: &str = "Cuántas viven";
pub const LOSSES: &str = "Lo que se perdió";
pub const NONE: &str = "En el libro no hay nada que pueda florecer o venderse.";
pub const NONE_HINT: &str = "Aquí se cuentan los lotes con nombre y clase.";
pub const NO_LOSSES: &str = "En el libro no hay bajas.";
pub const NOTHING_LEARNED: &str =
    "Nada se puso en maceta hace noventa días o más; hasta entonces valen los márgenes usuales.";
pub const HOW: &str = "Las plantas viven y se hacen como es usual en su clase (práctica común, sin fuente), corregido por lo que este libro ha visto. La línea marca dónde caerían cuatro de cada cinco años así. Es una previsión, no una promesa: no entran el tiempo, el abono ni los compradores.";
pub const LIVING_NOTE: &str = "de piezas puestas en maceta hace noventa días o más";

pub const BY_MIX: &str = "En qué están";
pub const BY_TREATMENT: &str = "Con qué se trataron";
pub const APART_NOTE: &str = "de piezas puestas en maceta hace noventa días o más";
pub const APART_WARN: &str = "Nadie sorteó sustratos ni tratamientos: una diferencia aquí es un motivo para mirar, no una prueba.";
pub const NO_MIX: &str = "un sustrato que no se dijo";
pub const NO_TREATMENT: &str = "nada";
pub const TO_FLOWER: &str = "De la maceta a la primera flor";
pub const TO_FLOWER_NOTE: &str = "según lo visto en este libro";
pub const MINUTES: &str = "Minutos en la mesa";
pub const MINUTES_NOTE: &str = "por mata, según lo tocado";
pub const CUTTING: &str = "Cortar y contar";
pub const POTTING: &str = "Hasta la última maceta, con el baño dentro";
pub const LABELLING: &str = "Etiquetas y recoger";

/// How long until the first flower: always with the number of lots.
#[must_use]
pub fn took_to_flower(days: [i64; 3], lots: u32) -> String {
    let months = days.map(|days| days.saturating_mul(12).saturating_add(182) / 365);
    let [least, middle, most] = months;
    let of = counted(i64::from(lots), "lote", "lotes");
    if lots == 1 {
        format!("{}, un solo lote", counted(middle, "mes", "meses"))
    } else {
        format!(
            "{} en el centro, de {least} a {most}; {of}",
            counted(middle, "mes", "meses")
        )
    }
}

/// Minutes of a step over so many clumps.
#[must_use]
pub fn step_took([least, middle, most]: [i64; 3], clumps: usize) -> String {
    let clumps = i64::try_from(clumps).unwrap_or(i64::MAX);
    format!(
        "{} en el centro, de {least} a {most}; {}",
        counted(middle, "minuto", "minutos"),
        counted(clumps, "mata", "matas")
    )
}

/// A count with its range.
#[must_use]
pub fn span(span: Span) -> String {
    if span.low == span.high {
        span.middle.to_string()
    } else {
        format!("{} (de {} a {})", span.middle, span.low, span.high)
    }
}

/// The bars in a sentence.
#[must_use]
pub fn sentence(what: &str, rows: &[(String, Span)]) -> String {
    let rows: Vec<String> = rows
        .iter()
        .map(|(month, count)| format!("{month} {}", span(*count)))
        .collect();
    format!("{what}: {}.", rows.join(", "))
}

/// Planned cuts, and what they are to give.
#[must_use]
pub fn cuts(cuts: u32, pieces: u32) -> String {
    format!(
        "{}, {}",
        counted(i64::from(cuts), "mata", "matas"),
        counted(i64::from(pieces), "pieza", "piezas")
    )
}

/// A count as it is and as it would be.
#[must_use]
pub fn changes(what: &str, now: Span, then: Span) -> String {
    format!("{what}: {} en vez de {}", span(then), span(now))
}

/// A group of plants by its first genus.
#[must_use]
pub fn group(group: Group) -> &'static str {
    match group {
        Group::Other => "otras",
        group => taxa::row(group)
            .genera
            .first()
            .copied()
            .unwrap_or(match group {
                Group::CymbidiumWarm => "Cymbidium de calor",
                Group::DendrobiumNobile => "Dendrobium de tipo nobile",
                Group::DendrobiumPhalaenopsis => "Dendrobium de tipo phalaenopsis",
                Group::DendrobiumSpeciosum => "Dendrobium de tipo speciosum",
                Group::OncidiumSummer => "Oncidium de verano",
                Group::PaphiopedilumMottled => "Paphiopedilum de hoja moteada",
                _ => "otras",
            }),
    }
}

/// Plants without flowering months.
#[must_use]
pub fn no_season(plants: u32) -> String {
    format!(
        "{} de clases sin meses de flor conocidos: no se cuentan aquí.",
        counted(i64::from(plants), "planta", "plantas")
    )
}

/// What was seen of a class: always with the number of cases.
#[must_use]
pub fn lived(alive: u32, of: u32) -> String {
    format!("{alive} de {of} siguieron vivas")
}

/// What is believed, with its range and the table's.
#[must_use]
pub fn believed(middle: u32, low: u32, high: u32, table: (u8, u8)) -> String {
    format!(
        "se cree ahora: {middle} de cada 100, entre {low} y {high}; usual, de {} a {}",
        table.0, table.1
    )
}

/// One cause of loss.
#[must_use]
pub fn lost(plants: u64, times: u32) -> String {
    format!(
        "{}, {}",
        counted(
            i64::try_from(plants).unwrap_or(i64::MAX),
            "planta",
            "plantas"
        ),
        counted(i64::from(times), "vez", "veces")
    )
}
