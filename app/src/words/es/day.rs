//! The day's plan in words.

use velamen_core::plan::{LeftOutWhy, WALK_TENTHS, Why};

use super::format::{clock, counted};

pub const TITLE: &str = "Qué cabe hoy";
pub const OPEN: &str = "¿Qué cabe?";
pub const ROOM: &str = "Tiempo que hay";
pub const BENCH: &str = "En la mesa";
pub const BATH: &str = "Tratamientos";
pub const LEFT_OUT: &str = "Para otro día";
pub const NOTHING: &str = "Nada de lo pendiente cabe en este tiempo.";
pub const NOTHING_HINT: &str = "Dale más minutos, o recorre la Ronda.";
pub const ALL_DONE: &str = "Hoy no queda nada pendiente.";
pub const HOW: &str = "Lo atrasado va lo primero, luego los plazos a punto de cerrarse; más macetas cuentan más. Ninguna otra cosa que quepa valdría más. Los tiempos son práctica común, sin fuente, salvo donde se nombran los tuyos.";
pub const BEGIN_AGAIN: &str = "Empezar de nuevo";
pub const CALENDAR: &str = "Al calendario";
pub const CALENDAR_HINT: &str = "Un archivo para el calendario del teléfono: el trabajo pendiente de tres meses, con aviso a las siete. Si lo recibe otra vez más tarde, mueve lo que se haya movido; lo hecho entretanto se queda hasta que lo borres allí.";
pub const SOAK_FILE: &str = "remojo.ics";

/// Name of the calendar file.
#[must_use]
pub fn calendar_name(today: chrono::NaiveDate) -> String {
    format!("trabajo-{today}.ics")
}

/// That it was written.
#[must_use]
pub fn calendar_written(rows: usize) -> String {
    let rows = i64::try_from(rows).unwrap_or(i64::MAX);
    format!(
        "Un archivo de calendario con {}.",
        counted(rows, "línea", "líneas")
    )
}

/// Tenths of a minute as a time.
#[must_use]
pub fn minutes(tenths: u32) -> String {
    let minutes = tenths.div_ceil(10);
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

/// The figure over the plan.
#[must_use]
pub fn of_room(tenths: u32, room_tenths: u32) -> String {
    format!("{} de {}", minutes(tenths), minutes(room_tenths))
}

/// What was done of it already.
#[must_use]
pub fn spent(tenths: u32) -> String {
    format!("Hecho ya: {}", minutes(tenths))
}

/// Minutes of a stop, with what it takes to begin there where that is more than walking up.
#[must_use]
pub fn stop(tenths: u32, set_up_tenths: u32) -> String {
    let all = minutes(tenths.saturating_add(set_up_tenths));
    if set_up_tenths <= WALK_TENTHS {
        all
    } else {
        format!("{all}, con {} para empezar", minutes(set_up_tenths))
    }
}

/// Why it was chosen.
#[must_use]
pub fn why(why: Why) -> String {
    match why {
        Why::Late { days } => format!("{} de retraso", counted(days, "día", "días")),
        Why::Closing { days: 0 } => "último día".to_owned(),
        Why::Closing { days } => format!("{} de margen", counted(days, "día", "días")),
        Why::Due => "toca".to_owned(),
        Why::Room { days } => format!("toca en {}, y sobra tiempo", counted(days, "día", "días")),
    }
}

/// That a part of the row does not fit.
#[must_use]
pub fn part(left_out: usize) -> String {
    let left_out = i64::try_from(left_out).unwrap_or(i64::MAX);
    format!("{} para otro día", counted(left_out, "lote", "lotes"))
}

/// Why it was left out.
#[must_use]
pub fn left_out(why: LeftOutWhy) -> String {
    match why {
        LeftOutWhy::NoTime { tenths } => {
            format!("pide {}, y lo demás vale más", minutes(tenths))
        }
        LeftOutWhy::Bound { until_ms, off_min } => format!(
            "tratado: no antes de {}",
            clock(velamen_core::time::minute_of_day(until_ms, off_min))
        ),
    }
}

/// Times learned from the program's own timers.
#[must_use]
pub fn learned(tenths: u32, clumps: usize) -> String {
    let clumps = i64::try_from(clumps).unwrap_or(i64::MAX);
    format!(
        "En la mesa: {} por maceta, la mediana de lo último que hiciste ({}).",
        minutes(tenths),
        counted(clumps, "mata", "matas")
    )
}
