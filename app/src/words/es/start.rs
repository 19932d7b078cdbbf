//! First start, and the example to look around in.

use super::format::decimal;
use super::trouble;
use crate::storage::StorageError;

pub const WELCOME: &str = "El libro del vivero";
pub const ABOUT: &str = "Lo que dividiste, pusiste en maceta y trataste, y lo que le toca. Todo se queda en este teléfono.";
pub const NURSERY: &str = "Nombre del vivero";
pub const WHERE: &str = "¿Dónde estás?";
pub const NORTH: &str = "Al norte del ecuador";
pub const SOUTH: &str = "Al sur del ecuador";
pub const OPEN: &str = "Empezar mi libro";
pub const TAKE_IN: &str = "De un archivo";
pub const OPENING: &str = "Abriendo el libro";
pub const OPENED: &str = "Tu libro está abierto.";
pub const OR_LOOK: &str = "O mira antes";
pub const ABOUT_EXAMPLE: &str =
    "Un vivero inventado con dos temporadas en su libro. Prueba todo; se va sin dejar rastro.";
pub const LOOK_AROUND: &str = "Mirar un ejemplo";
pub const EXAMPLE_NURSERY: &str = "Vivero de ejemplo";
pub const MAKING: &str = "Escribiendo el ejemplo";
pub const MAKING_HINT: &str =
    "Dos temporadas de un vivero inventado, día a día, hasta ayer por la tarde.";
pub const IN_EXAMPLE: &str = "Un ejemplo, no tu libro";
pub const START_OWN: &str = "Empezar el mío";
pub const END_EXAMPLE: &str = "Empezar tu propio libro";
pub const END_HINT: &str = "El ejemplo se va, con todo lo tocado en él. No se puede recuperar.";
pub const END_IT: &str = "Tirarlo y empezar";
pub const KEEP_LOOKING: &str = "Seguir mirando";
pub const COARSE_BARK: &str = "Corteza gruesa";
pub const MEDIUM_BARK: &str = "Corteza mediana";
pub const MOSS: &str = "Musgo de fibra larga";

/// A round pot by its width across the top.
#[must_use]
pub fn pot_name(top_mm: u32) -> String {
    format!("{} cm", decimal(i64::from(top_mm), 1))
}

/// How far the example is written.
#[must_use]
pub fn made(pct: u32) -> String {
    format!("{pct} %")
}

/// Why there is no example.
#[must_use]
pub fn no_example(error: &StorageError) -> String {
    format!("No se pudo guardar el ejemplo. {}", trouble::why(error))
}
