//! Las plantas como tabla, y lo que se hace con muchos lotes a la vez.

use velamen_core::view::stock_table::{Column, Pressing};

use super::stock::grouped;

pub const TABLE: &str = "Todos los lotes";
pub const CHOOSE_ALL: &str = "Elegir todo lo que se ve";
pub const KIND: &str = "Tipo";
pub const ANY_KIND: &str = "Todos los tipos";
pub const ANY_PLACE: &str = "Todos los lugares";
pub const WORK: &str = "Trabajo";
pub const OPEN_SIEVE: &str = "Ver todos los lotes";
pub const MOVE: &str = "Mover";
pub const MOVE_HERE: &str = "Moverlos aquí";
pub const ANSWER: &str = "Trabajo";
pub const NO_WORK: &str = "No tienen nada pendiente que se pueda responder desde aquí.";
pub const SEEN: &str = "Visto";
pub const LABELS: &str = "Etiquetas";
pub const NONE: &str = "Ninguno";
pub const DONE: &str = "Hecho";
pub const SAME_PLACE: &str = "Ya están todos ahí.";

#[must_use]
pub const fn column(column: Column) -> &'static str {
    match column {
        Column::Name => "Nombre",
        Column::Code => "Código",
        Column::Place => "Lugar",
        Column::Kind => "Tipo",
        Column::Plants => "Plantas",
        Column::Pots => "Macetas",
        Column::Next => "Lo siguiente",
        Column::Potted => "En maceta",
    }
}

#[must_use]
pub const fn pressing(pressing: Pressing) -> &'static str {
    match pressing {
        Pressing::Any => "Con trabajo o sin él",
        Pressing::Late => "Atrasado",
        Pressing::Due => "Atrasado o para hoy",
        Pressing::Held => "Tiene que esperar",
        Pressing::Nothing => "Sin nada por venir",
    }
}

fn lots_of(lots: usize) -> String {
    let number = i64::try_from(lots).unwrap_or(i64::MAX);
    format!(
        "{} {}",
        grouped(number),
        if lots == 1 { "lote" } else { "lotes" }
    )
}

fn plants_of(plants: i64) -> String {
    let word = if plants == 1 { "planta" } else { "plantas" };
    format!("{} {word}", grouped(plants))
}

/// What is shown, of all there is.
#[must_use]
pub fn shown(found: usize, all: usize, plants: i64) -> String {
    let plants = plants_of(plants);
    if found == all {
        format!("{}, {plants}", lots_of(all))
    } else {
        format!(
            "{} de {}, {plants}",
            grouped(i64::try_from(found).unwrap_or(i64::MAX)),
            lots_of(all)
        )
    }
}

#[must_use]
pub fn chosen(lots: usize, plants: i64) -> String {
    let word = if lots == 1 { "elegido" } else { "elegidos" };
    format!("{} {word}, {}", lots_of(lots), plants_of(plants))
}

#[must_use]
pub fn choose(name: &str) -> String {
    format!("Elegir {name}")
}

#[must_use]
pub fn too_many(most: usize) -> String {
    format!("Como mucho {most} lotes a la vez. Elige menos, o hazlo en dos veces.")
}

#[must_use]
pub fn moved(lots: usize) -> String {
    format!(
        "{} {}.",
        lots_of(lots),
        if lots == 1 { "movido" } else { "movidos" }
    )
}

#[must_use]
pub fn kind_of_work(kind: &str, lots: usize) -> String {
    format!("{kind}: {}", lots_of(lots))
}

/// Said on paper where not every line is printed.
#[must_use]
pub fn printed(shown: usize, all: usize) -> String {
    format!("Los primeros {shown} de {}.", lots_of(all))
}
