//! What work is called.

use velamen_core::task::weather::WeatherMove;
use velamen_core::task::{TaskKind, Trigger};

use super::format::{celsius, counted};

pub(crate) use crate::words::parts::{done, then};

pub const MIX_SPENT: &str = "fuera de su época: el sustrato estaría pasado antes de que empiece";

/// What the weather did to a day: "3 días más tarde: frío, 12,4 °C en 6 de 7 días".
#[must_use]
pub fn moved(moved: &WeatherMove) -> String {
    let days = counted(i64::from(moved.days.abs()), "día", "días");
    let (how, why) = if moved.days > 0 {
        ("más tarde", "frío")
    } else {
        ("antes", "calor")
    };
    let mean = moved.mean;
    format!(
        "{days} {how}: {why}, {} en {} de {} días",
        celsius(mean.mc),
        mean.read,
        mean.of
    )
}

/// Work as a verb, for a row.
#[must_use]
pub fn kind(kind: TaskKind) -> &'static str {
    match kind {
        TaskKind::KeepShaded => "Mantener a la sombra",
        TaskKind::FirstWater => "Primer riego",
        TaskKind::RotCheck => "Buscar podredumbre",
        TaskKind::NormalLight => "Volver a la luz normal",
        TaskKind::FirstFeed => "Primer abono flojo",
        TaskKind::RootCheck => "Tirar un poco: ¿han enraizado?",
        TaskKind::Restake => "Poner tutor otra vez",
        TaskKind::Repot => "Trasplantar",
        TaskKind::PotOn => "Cambiar de maceta",
        TaskKind::ShootCheck => "Buscar brotes",
        TaskKind::PotShoots => "Poner en maceta lo que brotó y enraizó",
        TaskKind::WriteOff => "Tirar lo que nunca brotó",
        TaskKind::MossCheck => "¿Está húmedo el musgo?",
        TaskKind::ResultLook => "¿Sirvió el tratamiento?",
        TaskKind::RepeatTreatment => "Tratar otra vez, con otro tipo de producto",
        TaskKind::ToTheBench => "A la mesa",
        TaskKind::LookAgain => "Mirar otra vez",
        TaskKind::LookOver => "Revisar",
        TaskKind::QuarantineLook => "Revisar en cuarentena",
        TaskKind::VirusTest => "Hacer la prueba de virus",
        TaskKind::ReleaseReview => "Sacar de la cuarentena",
        TaskKind::Own => "Tarea",
    }
}

/// What set the work going, before a day: "dividido hace 7 días".
#[must_use]
pub fn since(trigger: Trigger, when: &str) -> String {
    let what = match trigger {
        Trigger::Divided => "dividido",
        Trigger::Repotted => "cambiado de maceta",
        Trigger::Treated => "tratado",
        Trigger::Received => "llegó",
        Trigger::Standing => "puesto en maceta",
        Trigger::WantsBench => "visto",
        Trigger::Found => "hallado",
    };
    format!("{what} {when}")
}

/// The same of a place that is open to rain, where not watering is not enough.
#[must_use]
pub fn held_in_rain(kind: TaskKind, until: &str) -> Option<String> {
    (kind == TaskKind::FirstWater).then(|| super::water::held(until, true))
}

/// What must not be done yet: "No regar hasta el sábado".
#[must_use]
pub fn held(kind: TaskKind, until: &str) -> String {
    match kind {
        TaskKind::FirstWater => format!("No regar hasta {until}"),
        other => format!("{}: esperar hasta {until}", self::kind(other)),
    }
}
