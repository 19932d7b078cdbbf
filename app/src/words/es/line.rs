//! The line of a lot, in words.

use chrono::NaiveDate;
use velamen_core::outlook::{Alive, BathHelp, YIELD_DAYS, YieldRow};
use velamen_core::view::line::{Began, Kin};

use super::format::{counted, short_day};
use super::{stock, trade};

pub const TITLE: &str = "La línea entera";
pub const LINK: &str = "La línea entera, y lo que salió de él";
pub const HERE: &str = "este lote";
pub const CUT_SHORT: &str = "De esta línea hay más de lo que cabe aquí.";
pub const YIELDS: &str = "Lo que dieron las divisiones";
pub const YIELDS_NOTE: &str = "piezas vivas al mes, a los tres meses y al año";
pub const BATHS: &str = "¿Sirvió el baño?";
pub const BATHS_NOTE: &str = "vivas a los noventa días, con él y sin él";
pub const BATHS_WARN: &str = "Nadie echó a suertes qué se bañaba: las piezas van al baño porque parecen enfermas, o porque hubo tiempo un día de más cuidado. Una diferencia aquí es un motivo para mirar, no una prueba. La próxima vez deja fuera unas cuantas de la misma mata, a cara o cruz, y esta lista podrá decir más.";

/// Steps up or down the line.
#[must_use]
pub fn steps(steps: i32) -> String {
    match steps {
        0 => "Aquí".to_owned(),
        -1 => "Viene de".to_owned(),
        1 => "Salió de él".to_owned(),
        up if up < 0 => format!("{} pasos antes", up.unsigned_abs()),
        down => format!("{down} pasos después"),
    }
}

/// A lot of the line in a sentence.
#[must_use]
pub fn about(kin: &Kin, parents: &[String], today: NaiveDate) -> String {
    let on = kin.on.map(|on| short_day(on, today)).unwrap_or_default();
    let on_day = if on.is_empty() {
        String::new()
    } else {
        format!(" el {on}")
    };
    let mut said = Vec::new();
    match &kin.began {
        Began::Came { source, from } => {
            said.push(
                stock::came(*source, from, &on)
                    .trim_end_matches('.')
                    .to_owned(),
            );
        }
        Began::Cut { tray, parents: of } => {
            let tray = tray.map_or_else(String::new, |tray| format!(" (bandeja {tray})"));
            let which = if *of > 1 { ", no se sabe de cuál" } else { "" };
            let parents = if parents.is_empty() {
                String::new()
            } else {
                format!(" de {}", parents.join(" o "))
            };
            said.push(format!("cortado{on_day}{tray}{parents}{which}"));
        }
        Began::Part => said.push(format!("separado{on_day} de {}", parents.join(""))),
        Began::NotKnown => {}
    }
    if let Some(class) = kin.class {
        said.push(trade::class(class).to_lowercase());
    }
    let count = |of: usize| i64::try_from(of).unwrap_or(i64::MAX);
    if kin.treatments > 0 {
        said.push(counted(
            count(kin.treatments),
            "tratamiento",
            "tratamientos",
        ));
    }
    if kin.detected {
        said.push("se encontró un virus".to_owned());
    } else if kin.tests > 0 {
        let tests = counted(count(kin.tests), "prueba", "pruebas");
        said.push(format!("{tests}, no detectado"));
    }
    if let Some(on) = kin.flowered_on {
        said.push(format!("en flor el {}", short_day(on, today)));
    }
    said.join("; ")
}

/// What a clump gave, as a heading.
#[must_use]
pub fn gave(tray: u32) -> String {
    format!("Lo que dio la bandeja {tray}")
}

fn alive(alive: Alive) -> Option<String> {
    let share = alive.share()?;
    Some(format!(
        "{} de {} vivas (95 %: entre {} y {} de cada 100)",
        alive.alive,
        alive.of,
        (share.low + 5) / 10,
        (share.high + 5) / 10
    ))
}

/// One class over its days.
#[must_use]
pub fn yielded(row: &YieldRow) -> Vec<String> {
    let days = row.after.iter().zip(YIELD_DAYS);
    days.filter_map(|(after, days)| Some(format!("a los {days} días: {}", alive(*after)?)))
        .collect()
}

/// Two groups beside one another.
#[must_use]
pub fn helped(row: &BathHelp) -> [String; 2] {
    let of = |group: Alive| alive(group).unwrap_or_default();
    [
        format!("con baño: {}", of(row.bathed)),
        format!("sin baño: {}", of(row.bare)),
    ]
}
