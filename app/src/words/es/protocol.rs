//! A step of a protocol beside its days.

use velamen_core::event::Outcome;
use velamen_core::reference::taxa::Habit;
use velamen_core::season::Warmth;
use velamen_core::task::{SeasonRule, TaskKind};

use super::format::counted;

pub const MORE: &str = "Época, tiempo, qué lotes, minutos";
pub const SEASON: &str = "Época";
pub const RANK: &str = "Cuando falta tiempo";
pub const SECONDS: &str = "Segundos por planta";
pub const REPEATS: &str = "Una y otra vez";
pub const EVERY: &str = "Cada cuántos días";
pub const UNTIL: &str = "Hasta el día";
pub const LATER_IN_COLD: &str = "Más tarde con frío";
pub const EARLIER_IN_HEAT: &str = "Antes con calor";
pub const COLD_BELOW: &str = "Media por debajo de, °C";
pub const HOT_ABOVE: &str = "Media por encima de, °C";
pub const DAYS_LATER: &str = "Días más tarde";
pub const DAYS_EARLIER: &str = "Días antes";
pub const ONLY_HINT: &str = "Solo para estos lotes; sin elegir ninguno, para todos.";
pub const CLASSES: &str = "Piezas";
pub const HABITS: &str = "Cómo crecen";
pub const WARMTHS: &str = "Qué calor quieren";
pub const ONLY_COLD: &str = "Solo con frío";
pub const ONLY_WARM: &str = "Solo con calor";
pub const MEAN_HINT: &str = "La media del invernadero donde están, en la semana anterior. Con menos de tres días leídos, nada se mueve y ningún paso se omite.";
pub const ADD: &str = "Añadir un paso";
pub const ADD_HINT: &str = "¿Qué hay que hacer? Sus días y lo demás se ponen después.";
pub const REMOVE: &str = "Quitar este paso";
pub const AFTER: &str = "Solo si un paso anterior lo dice";
pub const AT_ONCE: &str = "En todo caso";
pub const YEAR: &str = "El año con estos días";

/// Another step with what has to come of it.
#[must_use]
pub fn after(kind: TaskKind, outcome: Outcome) -> String {
    let answers = super::round::outcome(kind);
    let answer = match outcome {
        Outcome::NeedsMore => answers.1,
        Outcome::Well => answers.2,
    };
    format!("{} {answer}", super::task::kind(kind))
}

/// What the season does to a step.
#[must_use]
pub fn season(rule: SeasonRule) -> &'static str {
    match rule {
        SeasonRule::None => "En cualquier momento",
        SeasonRule::IntoRepotWindow => "En su época de trasplante",
        SeasonRule::AfterRest => "Tras su reposo",
    }
}

/// How much a step matters.
#[must_use]
pub fn rank(rank: u8) -> &'static str {
    match rank {
        1 => "Primero",
        2 => "Segundo",
        _ => "Último",
    }
}

/// How a plant grows.
#[must_use]
pub fn habit(habit: Habit) -> &'static str {
    match habit {
        Habit::Bulbs => "Con bulbos",
        Habit::Canes => "Con cañas",
        Habit::Growths => "Sin bulbos",
        Habit::Monopodial => "De un solo tallo",
    }
}

/// Kinds by the nights they like.
#[must_use]
pub fn kinds(warmth: Warmth) -> &'static str {
    match warmth {
        Warmth::Cool => "De noches frescas",
        Warmth::Intermediate => "De noches templadas",
        Warmth::Warm => "De noches cálidas",
    }
}

/// What the strip shows.
#[must_use]
pub fn as_if_today(lot: Option<&str>, later: usize) -> String {
    let later = match later {
        0 => String::new(),
        count => format!(
            " {} después de lo que se ve.",
            counted(
                i64::try_from(count).unwrap_or(i64::MAX),
                "paso cae",
                "pasos caen"
            )
        ),
    };
    match lot {
        Some(lot) => format!("Como si pasara hoy, en las épocas de {lot}.{later}"),
        None => format!("Como si pasara hoy.{later}"),
    }
}
