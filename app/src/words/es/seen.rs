//! "Visto aquí".

use chrono::NaiveDate;
use velamen_core::stats::Share;
use velamen_core::task::generation::{By, GenerationDay};

use super::format::{celsius, counted, short_day};

pub const ON_WHICH_LOT: &str = "En qué lote";
pub const OR_WHICH_PLACE: &str = "O en un lugar entero";
pub const THE_PLANT: &str = "La planta";
pub const DISEASE_OR_PEST: &str = "Enfermedad o plaga";
pub const OWN_WORDS: &str = "Con tus palabras";
pub const RECORD: &str = "Anotar esto";
pub const MORE_SIGNS: &str = "Más señales";
pub const HOW_MANY: &str = "Cuántas, dónde, cómo de grave";
pub const LOOKED_AT: &str = "Plantas miradas";
pub const AFFECTED: &str = "De ellas, lo tienen";
pub const WHICH_PART: &str = "Parte de la planta";
pub const NOT_SAID: &str = "Sin decir";
pub const BAD: &str = "La peor de ellas";
pub const FIRST: &str = "Primero";
pub const NEXT: &str = "¿Y ahora?";
pub const NEXT_HINT: &str = "Cada cosa es un toque. Ninguna es obligada.";
pub const TREAT: &str = "Preparar un baño";
pub const TREAT_PLACE: &str = "Pulverizar o riego dirigido aquí";
pub const BENCH: &str = "Llevar a la mesa";
pub const DONE: &str = "Al lote";
pub const TO_PLACE: &str = "Al lugar";
pub const ON_A_PLACE: &str = "Para el lugar entero: cuántas de sus plantas miraste, y cuántas lo tienen. Luego toca la señal.";
pub const WHICH_LOTS: &str = "¿Qué lotes lo tienen?";
pub const BACK_TO_BENCH: &str = "Volver a la mata";
pub const LABEL_FIRST: &str = "La etiqueta y las normas locales deciden qué se puede usar.";
pub const TAKEN: &str = "Apuntado para la Ronda.";
pub const OVER_TIME: &str = "Visto aquí con el tiempo";
pub const THRESHOLD: &str = "Actuar desde, de cada cien plantas";
pub const THRESHOLD_HINT: &str = "Tu propia línea. Vacío: ninguna.";
pub const NOT_A_SHARE: &str = "Escribe un número de 0 a 100.";
pub const KEEP: &str = "Guardar";
pub const LINE: &str = "tu línea";

/// "3 de 20 miradas."
#[must_use]
pub fn of_looked_at(affected: Option<u32>, looked_at: Option<u32>) -> Option<String> {
    Some(format!("{} de {} miradas.", affected?, looked_at?))
}

/// "15 de cada cien; lo probable, entre 5 y 36."
#[must_use]
pub fn share(share: &Share) -> String {
    format!(
        "{} de cada cien; lo probable, entre {} y {}.",
        hundredth(share.permille),
        hundredth(share.low),
        hundredth(share.high)
    )
}

fn hundredth(permille: u16) -> u16 {
    (permille + 5) / 10
}

/// How bad, 1 to 5.
#[must_use]
pub fn how_bad(severity: u8) -> String {
    bad(severity).to_owned()
}

#[must_use]
pub fn bad(severity: u8) -> &'static str {
    match severity {
        1 => "Un indicio",
        2 => "Leve",
        3 => "Claro",
        4 => "Grave",
        _ => "Se muere",
    }
}

#[must_use]
pub fn reached(permille: u16) -> String {
    format!(
        "En tu línea para este lugar o por encima: {} de cada cien.",
        hundredth(permille)
    )
}

#[must_use]
pub fn look_again(days: &[u16]) -> String {
    let days: Vec<String> = days.iter().map(u16::to_string).collect();
    match days.split_last() {
        Some((last, [])) => format!("Mirar otra vez en {last} días"),
        Some((last, before)) => {
            format!("Mirar otra vez a los {} y {last} días", before.join(", "))
        }
        None => String::new(),
    }
}

/// When a pest's generations are looked for, and what the days rest on.
#[must_use]
pub fn by_generation(looks: &[GenerationDay], today: NaiveDate) -> String {
    let days: Vec<String> = looks
        .iter()
        .map(|look| format!("el {}", short_day(look.on, today)))
        .collect();
    match days.split_last() {
        Some((last, [])) => format!("Mirar otra vez hacia {last}"),
        Some((last, before)) => {
            format!("Mirar otra vez hacia {} y {last}", before.join(", "))
        }
        None => String::new(),
    }
}

/// What the day of a look rests on.
#[must_use]
pub fn rests_on(by: &By) -> String {
    match by {
        By::Warmth {
            so_far,
            wanted_mk,
            lower_mc,
            at_last,
        } => {
            let whole = |mk: i64| mk.div_euclid(1_000);
            let read = format!("{} de {} días leídos", so_far.read, so_far.of);
            let late = if *at_last {
                "; hace demasiado frío para la plaga, así que el día más tardío"
            } else {
                ""
            };
            format!(
                "por calor: {} de {} grados-día sobre {}, {read}{late}",
                whole(so_far.sum),
                whole(*wanted_mk),
                celsius(*lower_mc)
            )
        }
        By::NoFigure => "por días: no se sabe cuánto calor necesita".to_owned(),
        By::FewRead { read: 0, .. } => "por días: el invernadero no se leyó".to_owned(),
        By::FewRead { read, of } => {
            format!("por días: de {of} días, leídos solo {read}")
        }
    }
}

pub const GENERATION_HOW: &str = "Los días sin leer cuentan como la media de los siete últimos leídos. Una mirada llega, lo más tarde, al triple de sus días.";

#[must_use]
pub fn look_for(sign: &str) -> String {
    format!("Mirar otra vez: {}", sign.to_lowercase())
}

#[must_use]
pub fn bench_for(sign: &str) -> String {
    format!("A la mesa: {}", sign.to_lowercase())
}

#[must_use]
pub fn apart(days: u16, tests: bool) -> String {
    if tests {
        "Cuarentena hasta dos pruebas".to_owned()
    } else {
        format!("Cuarentena, {days} días")
    }
}

#[must_use]
pub fn series(treatments: u8) -> String {
    format!("Hacen falta {treatments} tratamientos: uno no llega a todas las generaciones.")
}

#[must_use]
pub fn source(source: &str) -> String {
    format!("De: {source}.")
}

/// A line in words, for who cannot see it.
#[must_use]
pub fn line(sign: &str, points: &[(String, u16)]) -> String {
    let said: Vec<String> = points
        .iter()
        .map(|(on, permille)| format!("{on}, {} de cada cien", hundredth(*permille)))
        .collect();
    format!("{sign}: {}.", said.join("; "))
}

#[must_use]
pub fn uncounted(times: u32) -> String {
    format!("{} sin contar.", counted(i64::from(times), "vez", "veces"))
}
