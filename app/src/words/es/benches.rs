//! How full the benches are, in words.

use velamen_core::view::benches::BenchFill;

use super::format::{self, counted};
use super::trade;

pub const TITLE: &str = "Ocupación de las bancadas";
pub const LINK: &str = "Sitio en las bancadas";
pub const NONE: &str = "Aún no hay ningún lugar en el libro.";
pub const NONE_HINT: &str = "Los lugares vienen con el primer lote que está allí.";
pub const GIVE_AREA: &str = "Dar su superficie";
pub const ORIGIN: &str = "Por superficie, cada maceta con su ancho, borde con borde: no entran orillas, pasillos ni sitio para la mano. Las filas al tresbolillo de macetas redondas ocupan 87 de 100 de las filas en cuadro (geometría).";

/// The head of a place: "61 % lleno".
#[must_use]
pub fn percent(fill: &BenchFill) -> String {
    fill.percent()
        .map(|(square, _)| format!("{square} % lleno"))
        .unwrap_or_default()
}

/// What stands there and what would still go there.
#[must_use]
pub fn fill(fill: &BenchFill) -> Vec<String> {
    let mut said = vec![format!(
        "{}, {} de suelo en cuadro, {} al tresbolillo",
        trade::pots(i64::from(fill.pots)),
        format::square_metres(fill.square_mm2 / 100),
        format::square_metres(fill.staggered_mm2 / 100)
    )];
    match (fill.area_cm2, fill.percent()) {
        (Some(area), Some((square, staggered))) => said.push(format!(
            "{square} % de {} en cuadro, {staggered} % al tresbolillo",
            format::square_metres(u64::from(area))
        )),
        _ => said.push("Nadie dio su superficie.".to_owned()),
    }
    if let Some(more) = &fill.more {
        said.push(format!(
            "sitio para {} más de {}, {} al tresbolillo",
            more.square, more.name, more.staggered
        ));
    }
    if fill.unmeasured > 0 {
        said.push(format!(
            "{} que nadie midió, fuera de la cuenta",
            counted(i64::from(fill.unmeasured), "maceta", "macetas")
        ));
    }
    said
}
