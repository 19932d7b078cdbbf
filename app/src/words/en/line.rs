//! The line of a lot, in words.

use chrono::NaiveDate;
use velamen_core::outlook::{Alive, BathHelp, YIELD_DAYS, YieldRow};
use velamen_core::view::line::{Began, Kin};

use super::format::{counted, short_day};
use super::{stock, trade};

pub const TITLE: &str = "The whole line";
pub const LINK: &str = "The whole line, and what came of it";
pub const HERE: &str = "this lot";
pub const CUT_SHORT: &str = "There is more of this line than fits here.";
pub const YIELDS: &str = "What divisions gave";
pub const YIELDS_NOTE: &str = "pieces alive after a month, a quarter and a year";
pub const BATHS: &str = "Did the bath help?";
pub const BATHS_NOTE: &str = "alive after ninety days, with and without";
pub const BATHS_WARN: &str = "Nobody drew lots who was bathed: pieces go into a bath because they look ill, or because a careful day had time for it. A difference here is a reason to look, not a proof. Leave a few of the same clump out next time, by the toss of a coin, and this list can say more.";

/// Steps up or down the line.
#[must_use]
pub fn steps(steps: i32) -> String {
    match steps {
        0 => "Here".to_owned(),
        -1 => "Comes from".to_owned(),
        1 => "Came of it".to_owned(),
        up if up < 0 => format!("{} steps before", up.unsigned_abs()),
        down => format!("{down} steps after"),
    }
}

/// A lot of the line in a sentence.
#[must_use]
pub fn about(kin: &Kin, parents: &[String], today: NaiveDate) -> String {
    let on = kin.on.map(|on| short_day(on, today)).unwrap_or_default();
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
            let tray = tray.map_or_else(String::new, |tray| format!(" (tray {tray})"));
            let which = if *of > 1 {
                ", which one, not known"
            } else {
                ""
            };
            let parents = if parents.is_empty() {
                String::new()
            } else {
                format!(" from {}", parents.join(" or "))
            };
            said.push(format!("cut {on}{tray}{parents}{which}"));
        }
        Began::Part => said.push(format!("split off {on} from {}", parents.join(""))),
        Began::NotKnown => {}
    }
    if let Some(class) = kin.class {
        said.push(trade::class(class).to_lowercase());
    }
    let count = |of: usize| i64::try_from(of).unwrap_or(i64::MAX);
    if kin.treatments > 0 {
        said.push(counted(count(kin.treatments), "treatment", "treatments"));
    }
    if kin.detected {
        said.push("a virus was found".to_owned());
    } else if kin.tests > 0 {
        let tests = counted(count(kin.tests), "test", "tests");
        said.push(format!("{tests}, not detected"));
    }
    if let Some(on) = kin.flowered_on {
        said.push(format!("in flower {}", short_day(on, today)));
    }
    said.join("; ")
}

/// What a clump gave, as a heading.
#[must_use]
pub fn gave(tray: u32) -> String {
    format!("What tray {tray} gave")
}

fn alive(alive: Alive) -> Option<String> {
    let share = alive.share()?;
    Some(format!(
        "{} of {} alive (95 % between {} and {} of 100)",
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
    days.filter_map(|(after, days)| Some(format!("after {days} days: {}", alive(*after)?)))
        .collect()
}

/// Two groups beside one another.
#[must_use]
pub fn helped(row: &BathHelp) -> [String; 2] {
    let of = |group: Alive| alive(group).unwrap_or_default();
    [
        format!("with a bath: {}", of(row.bathed)),
        format!("without: {}", of(row.bare)),
    ]
}
