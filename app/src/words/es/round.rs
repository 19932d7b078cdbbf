//! The Round's own words, in Spanish.

use velamen_core::task::TaskKind;
use velamen_core::view::round::RowState;

use super::apart;
use super::format::counted;
use super::stock::grouped;

pub use crate::words::parts::Because;

pub const SEEN_HERE: &str = "Visto aquí";
pub const NO_PLACE: &str = "Sin lugar";
pub const NOT_YET: &str = "aún no";
pub const DAYS: &str = "días";
pub const DAY: &str = "día";
pub const POT_THEM: &str = "A las macetas";
pub const GO_ON: &str = "Seguir";
pub const NOTHING_DUE: &str = "Hoy no toca nada.";
pub const NOTHING_DUE_HINT: &str = "Da la vuelta igual: lo que ves se hace trabajo.";
pub const FIRST_LOT: &str = "Aún no hay plantas en el libro.";
pub const FIRST_LOT_HINT: &str = "Empieza por una bancada y el primer lote que hay en ella.";
pub const ADD_LOT: &str = "Añadir un lote";
pub const ADD_TASK: &str = "Añadir una tarea";
pub const CHANGE: &str = "Cambiar";
pub const NOT_NEEDED: &str = "No hace falta";
pub const TREAT_THEM: &str = "Tratarlas";
pub const DONE_UNTREATED: &str = "Dar por hecho sin tratar";
/// Kept as the reason why it counts as done.
pub const UNTREATED: &str = "hecho sin tratamiento";
pub const ALL_DONE: &str = "Todo hecho";
pub const MORE_OF_THE_WALK: &str = "Más de la ronda";
pub const EXCEPT: &str = "Estas no";
pub const EXCEPT_HINT: &str = "Toca lo que quedó fuera.";
pub const LOOKS_WELL: &str = "Tiene buen aspecto";
pub const NEEDS_MORE: &str = "Necesita más";
pub const DID_IT_WORK: &str = "¿Qué aspecto tiene?";

pub const MONTH: &str = "El mes que viene";
pub const MONTH_SHOW: &str = "Ver el mes que viene";
pub const MONTH_HOW: &str = "El trabajo abierto ahora, en el día que toca, con andar y preparar. Los minutos que hay se ponen en «¿Qué cabe?».";
pub const BECAUSE: &str = "Si lo aplazas: ¿por qué?";
pub const NO_REASON: &str = "Sin motivo";

/// The reason as it is kept.
#[must_use]
pub fn because(why: Because) -> &'static str {
    match why {
        Because::NoTime => "Falta de tiempo",
        Because::Weather => "Mal tiempo",
        Because::NotReady => "Las plantas no están listas",
        Because::Missing => "Falta algo",
    }
}

/// The way to a finding on a place.
#[must_use]
pub fn seen_at(place: &str) -> String {
    format!("Visto en {place}")
}

#[must_use]
pub fn month_line(minutes: u32) -> String {
    format!("hay {}", super::day::minutes(minutes.saturating_mul(10)))
}

/// The columns in words.
#[must_use]
pub fn month_text(days: &[(String, String)]) -> String {
    let said: Vec<String> = days
        .iter()
        .map(|(on, minutes)| format!("{on}, {minutes}"))
        .collect();
    if said.is_empty() {
        "Sin trabajo abierto en el mes que viene.".to_owned()
    } else {
        format!("Trabajo abierto: {}.", said.join("; "))
    }
}

/// Which days ask for more than there is.
#[must_use]
pub fn month_over(named: &[(String, String)], all: usize, minutes: u32) -> String {
    let room = super::day::minutes(minutes.saturating_mul(10));
    if named.is_empty() {
        return format!("Ningún día pide más de {room}.");
    }
    let said: Vec<String> = named
        .iter()
        .map(|(on, minutes)| format!("{on} ({minutes})"))
        .collect();
    let more = match all.saturating_sub(named.len()) {
        0 => String::new(),
        more => format!(
            " y {}",
            counted(
                i64::try_from(more).unwrap_or(i64::MAX),
                "día más",
                "días más"
            )
        ),
    };
    format!("Más de {room}: {}{more}.", said.join(", "))
}

#[must_use]
pub fn month_late(tasks: u32) -> String {
    format!(
        "Hoy lleva además {}.",
        counted(i64::from(tasks), "tarea atrasada", "tareas atrasadas")
    )
}

#[must_use]
pub fn put_off_days(days: i64) -> String {
    match days {
        1 => "Aplazar a mañana".to_owned(),
        7 => "Aplazar una semana".to_owned(),
        days => format!("Aplazar {days} días"),
    }
}

#[must_use]
pub fn to_do(count: usize) -> String {
    format!("{count} por hacer")
}

#[must_use]
pub fn bare(pieces: u64, since: &str) -> (String, String) {
    (
        format!(
            "{} sin maceta",
            counted(i64::try_from(pieces).unwrap_or(i64::MAX), "pieza", "piezas")
        ),
        format!("desde {since}"),
    )
}

#[must_use]
pub fn on_the_bench(pots: u64) -> String {
    format!(
        "{} en la mesa",
        super::trade::pots(i64::try_from(pots).unwrap_or(i64::MAX))
    )
}

#[must_use]
pub fn summary(late: usize, due: usize, bare: u64) -> String {
    let late_said = if late == 1 { "atrasada" } else { "atrasadas" };
    let due_said = if due == 1 { "toca" } else { "tocan" };
    let say = |count: usize| grouped(i64::try_from(count).unwrap_or(i64::MAX));
    match (late, due) {
        (0, 0) if bare > 0 => self::bare(bare, "").0,
        (0, 0) => "todo al día".to_owned(),
        (0, due) => format!("{due_said} {}", say(due)),
        (late, 0) => format!("{} {late_said}", say(late)),
        (late, due) => format!("{} {late_said}, {due_said} {}", say(late), say(due)),
    }
}

/// The state of a row for a screen reader.
#[must_use]
pub fn state(state: RowState) -> String {
    match state {
        RowState::Late { days } => format!("{} de atraso", counted(days, "día", "días")),
        RowState::Due => "toca hoy".to_owned(),
        RowState::MayStart { days } | RowState::Coming { days } => {
            format!("en {}", counted(days, "día", "días"))
        }
        RowState::Held { .. } => NOT_YET.to_owned(),
    }
}

#[must_use]
pub fn questions(count: usize) -> String {
    counted(
        i64::try_from(count).unwrap_or(i64::MAX),
        "pregunta",
        "preguntas",
    )
}

/// What a look asks, and its two answers: something to do, and well.
#[must_use]
pub fn outcome(kind: TaskKind) -> (&'static str, &'static str, &'static str) {
    match kind {
        TaskKind::QuarantineLook => (apart::HOW_LOOKS, apart::SOMETHING, apart::CLEAN),
        _ => (DID_IT_WORK, NEEDS_MORE, LOOKS_WELL),
    }
}
