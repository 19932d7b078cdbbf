//! What a virus asks of the wash, in words: what stays apart, and from when on a blade counts as free of it.

use velamen_core::quantity::Volume;
use velamen_core::reference::sanitizers::Agent;

use super::clean::percent;
use super::format::litres;
use super::{bath, trade};

pub const KEPT_APART: &str = "Viene de plantas con sospecha de virus. La piedra se une a la demás tras una hora en el horno, de 150 a 180 °C, limpia y seca, o media hora hirviendo; si no, se tira.";
pub const NOT_FREE: &str = "Anotado. Fue demasiado flojo, demasiado corto o sin medir el tiempo: esta hoja de corte no cuenta como libre de virus.";
pub const FALLS_SHORT: &str =
    "No se sabe que alcance los dos virus de las orquídeas. Usa otro, o calor.";

/// Why what was kept apart may not join the others, or how much of it may.
#[must_use]
pub fn kept_apart(freed: i64, stone: bool) -> String {
    match (freed, stone) {
        (..=0, _) => KEPT_APART.to_owned(),
        (freed, true) => format!(
            "De esta, por el calor pasó solo esto: {}. Lo demás sigue aparte: aún puede tener el virus.",
            litres(Volume::from_ul(freed))
        ),
        (freed, false) => format!(
            "De estas, por el calor pasó solo esto: {}. Las demás siguen aparte: aún pueden tener el virus.",
            trade::pots(freed)
        ),
    }
}

/// From when on an agent reaches both viruses.
#[must_use]
pub fn reaches_from(agent: &Agent) -> String {
    let strength = agent.least_ppm().map(|ppm| format!("{} %", percent(ppm)));
    let contact = agent.contact_s.map(|(shortest, _)| match shortest {
        0..120 => format!("{shortest} s"),
        s => bath::minutes(s),
    });
    let both: Vec<String> = [strength, contact].into_iter().flatten().collect();
    format!(
        "Alcanza los dos virus de las orquídeas desde {}. Más flojo o más corto no cuenta como libre de virus.",
        both.join(" y ")
    )
}
