//! El plano del vivero.

use super::format::counted;
use super::stock::grouped;

pub const TITLE: &str = "El vivero";
pub const LINK: &str = "Plano";
pub const HOW: &str = "En el orden del recorrido. Con pie es atrasado, relleno sin pie es lo que toca, rayado tiene que esperar.";
pub const NONE: &str = "Aún no hay lugares";
pub const NONE_HINT: &str = "Pon nombre a los lugares en el orden en que los recorres, en el Almacén, y aquí salen como plano.";

/// A bench by its whole name.
#[must_use]
pub fn in_house(house: &str, name: &str) -> String {
    if house.is_empty() {
        name.to_owned()
    } else {
        format!("{house}, {name}")
    }
}

#[must_use]
pub fn stands(lots: usize) -> String {
    match lots {
        0 => "vacío".to_owned(),
        1 => "1 lote".to_owned(),
        lots => format!("{} lotes", grouped(i64::try_from(lots).unwrap_or(i64::MAX))),
    }
}

/// A bench in words: how many rows of work are late, due, held.
#[must_use]
pub fn bench(name: &str, lots: usize, plants: i64, [late, due, held]: [usize; 3]) -> String {
    let plants = counted(plants, "planta", "plantas");
    let mut said = format!("{name}: {}, {plants}", stands(lots));
    for (count, what) in [
        (late, "con retraso"),
        (due, "para hoy"),
        (held, "en espera"),
    ] {
        if count > 0 {
            said.push_str(&format!(", {count} {what}"));
        }
    }
    said
}

/// The whole plan in a sentence.
#[must_use]
pub fn whole(places: usize, [late, due, held]: [usize; 3]) -> String {
    let places = counted(
        i64::try_from(places).unwrap_or(i64::MAX),
        "lugar",
        "lugares",
    );
    format!(
        "Un plano de {places} en el orden del recorrido: trabajo atrasado en {late}, para hoy en {due}, en espera en {held}."
    )
}
