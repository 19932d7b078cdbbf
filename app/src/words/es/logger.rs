//! A logger's file in words: its columns, what it comes to, what of it was not taken and why.

use chrono::NaiveDate;
use velamen_core::climate::{DayOrder, Logged, RowFault};

use super::climate;
use super::format::{celsius, full_day, many, short_day};

pub const TITLE: &str = "Del archivo de un registrador";
pub const HINT: &str = "Un archivo de texto cuya primera fila nombra las columnas. De él se toman la mínima y la máxima de cada día; los días con menos de 18 horas registradas se dejan fuera.";
pub const WHERE: &str = "Dónde colgaba";
pub const FIRST_ROWS: &str = "Las primeras filas";
pub const NO_COLUMN: &str = "Ninguna";
pub const DAY_COLUMN: &str = "Día, o día y hora";
pub const CLOCK_COLUMN: &str = "Hora, si va aparte";
pub const DAY_ORDER: &str = "Los días se escriben";
pub const TEMPERATURE_COLUMN: &str = "Temperatura, o la mínima";
pub const MAX_COLUMN: &str = "Máxima, si hay dos";
pub const UNIT: &str = "En";
pub const HUMIDITY_COLUMN: &str = "Humedad";
pub const COMES_TO: &str = "Lo que resulta";

/// An order of day, month and year.
#[must_use]
pub fn order(order: DayOrder) -> &'static str {
    match order {
        DayOrder::YearFirst => "2026-10-31",
        DayOrder::DayFirst => "31/10/2026",
        DayOrder::MonthFirst => "10/31/2026",
    }
}

/// How many rows there are.
#[must_use]
pub fn rows(count: usize, too_many: bool) -> String {
    let rows = many(count, "fila", "filas");
    if too_many {
        format!("{rows}; el resto del archivo es más de lo que se puede leer de una vez.")
    } else {
        format!("{rows}.")
    }
}

/// The main key.
#[must_use]
pub fn take(days: usize) -> String {
    format!("Tomar {}", many(days, "día", "días"))
}

/// That they are in the book.
#[must_use]
pub fn taken(days: usize) -> String {
    format!("{} del registrador", many(days, "día", "días"))
}

/// Days that were read already with other numbers.
#[must_use]
pub fn replaces(count: usize) -> String {
    format!(
        "{} con otros números: valen los del registrador. Los viejos se quedan en el Libro.",
        many(count, "día ya estaba leído", "días ya estaban leídos")
    )
}

/// What a file comes to, a sentence each.
#[must_use]
pub fn comes_to(logged: &Logged, today: NaiveDate) -> Vec<String> {
    let mut said = Vec::new();
    match (logged.days.first(), logged.days.last()) {
        (Some(first), Some(last)) => {
            let low = logged.days.iter().map(|day| day.reading.min_mc).min();
            let high = logged.days.iter().map(|day| day.reading.max_mc).max();
            said.push(format!(
                "{}, del {} al {}: de {} a {}.",
                many(logged.days.len(), "día", "días"),
                short_day(first.on, today),
                short_day(last.on, today),
                celsius(low.unwrap_or(0)),
                celsius(high.unwrap_or(0))
            ));
        }
        _ => said.push("Con estas columnas no se puede leer ningún día.".to_owned()),
    }
    for (from, to) in logged.gaps.iter().take(6) {
        said.push(if from == to {
            format!("Nada el {}: queda un hueco.", short_day(*from, today))
        } else {
            format!(
                "Nada del {} al {}: queda un hueco.",
                short_day(*from, today),
                short_day(*to, today)
            )
        });
    }
    if logged.gaps.len() > 6 {
        said.push(format!(
            "Y {}.",
            many(logged.gaps.len() - 6, "hueco más", "huecos más")
        ));
    }
    for part in logged.part_days.iter().take(6) {
        said.push(format!(
            "{}: {} de 24 horas, se deja fuera.",
            short_day(part.on, today),
            part.hours
        ));
    }
    if logged.part_days.len() > 6 {
        said.push(format!(
            "Y {}.",
            many(logged.part_days.len() - 6, "día más así", "días más así")
        ));
    }
    if logged.repeated > 0 {
        said.push(format!(
            "{} con los mismos números: se cuenta una vez.",
            many(
                logged.repeated,
                "fila está repetida",
                "filas están repetidas"
            )
        ));
    }
    if logged.twice > 0 {
        said.push(format!(
            "{} a una hora que ya estaba, como al atrasar el reloj: no se quita ninguna.",
            many(logged.twice, "fila cae", "filas caen")
        ));
    }
    said
}

/// How many rows were refused.
#[must_use]
pub fn refused_count(count: usize) -> String {
    format!(
        "{}, y por qué",
        many(count, "fila no se tomó", "filas no se tomaron")
    )
}

/// The rows refused, with their lines.
#[must_use]
pub fn refused(logged: &Logged) -> Vec<String> {
    let mut said: Vec<String> = logged
        .refused
        .iter()
        .map(|(line, why)| format!("Línea {line}: {}", row_fault(why)))
        .collect();
    let more = logged.refused_count.saturating_sub(logged.refused.len());
    if more > 0 {
        said.push(format!("Y {more} más."));
    }
    said
}

fn row_fault(why: &RowFault) -> String {
    match why {
        RowFault::Short { cells } => {
            format!("tiene solo {}.", many(*cells, "celda", "celdas"))
        }
        RowFault::NotADay { text } => format!("«{}» no es un día en este orden.", cut(text)),
        RowFault::NotANumber { text } => format!("«{}» no es un número.", cut(text)),
        RowFault::Humidity { text } => format!("«{}» no es una humedad de 0 a 100.", cut(text)),
        RowFault::Reading(fault) => climate::fault(fault),
        RowFault::Ahead { on } => format!("el {} aún no ha llegado.", full_day(*on)),
    }
}

/// A cell short enough for a sentence.
fn cut(text: &str) -> String {
    text.chars().take(30).collect()
}
