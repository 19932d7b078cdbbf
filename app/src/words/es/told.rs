//! What is told once something is recorded.

use super::format::counted;

#[must_use]
pub fn undone() -> String {
    "Deshecho. Queda en el Libro como deshecho.".to_owned()
}

#[must_use]
pub fn undo() -> String {
    "Deshacer".to_owned()
}

#[must_use]
pub fn close() -> String {
    "Cerrar".to_owned()
}

#[must_use]
pub fn done(what: &str) -> String {
    let stop = if what.ends_with('?') { "" } else { "." };
    format!("Anotado: {what}{stop}")
}

#[must_use]
pub fn put_off(to: &str) -> String {
    format!("Aplazado hasta {to}.")
}

#[must_use]
pub fn not_needed() -> String {
    "Anotado que no hace falta.".to_owned()
}

#[must_use]
pub fn seen(lots: usize) -> String {
    format!(
        "Anotado para {}.",
        counted(i64::try_from(lots).unwrap_or(i64::MAX), "lote", "lotes")
    )
}
