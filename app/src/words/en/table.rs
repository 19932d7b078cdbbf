//! The stock as a table, and what is done with many lots at once.

use velamen_core::view::stock_table::{Column, Pressing};

use super::stock::grouped;

pub const TABLE: &str = "All lots";
pub const CHOOSE_ALL: &str = "Choose all shown";
pub const KIND: &str = "Kind";
pub const ANY_KIND: &str = "Every kind";
pub const ANY_PLACE: &str = "Every place";
pub const WORK: &str = "Work";
pub const OPEN_SIEVE: &str = "Show every lot";
pub const MOVE: &str = "Move";
pub const MOVE_HERE: &str = "Move them here";
pub const ANSWER: &str = "Work";
pub const NO_WORK: &str = "Nothing open on these that can be answered from here.";
pub const SEEN: &str = "Seen";
pub const LABELS: &str = "Labels";
pub const NONE: &str = "None of them";
pub const DONE: &str = "Done";
pub const SAME_PLACE: &str = "They all stand there already.";

#[must_use]
pub const fn column(column: Column) -> &'static str {
    match column {
        Column::Name => "Name",
        Column::Code => "Code",
        Column::Place => "Place",
        Column::Kind => "Kind",
        Column::Plants => "Plants",
        Column::Pots => "Pots",
        Column::Next => "Next",
        Column::Potted => "Potted",
    }
}

#[must_use]
pub const fn pressing(pressing: Pressing) -> &'static str {
    match pressing {
        Pressing::Any => "Any work or none",
        Pressing::Late => "Late",
        Pressing::Due => "Late or due",
        Pressing::Held => "Has to wait",
        Pressing::Nothing => "Nothing to come",
    }
}

fn lots_of(lots: usize) -> String {
    let number = i64::try_from(lots).unwrap_or(i64::MAX);
    format!(
        "{} {}",
        grouped(number),
        if lots == 1 { "lot" } else { "lots" }
    )
}

fn plants_of(plants: i64) -> String {
    let word = if plants == 1 { "plant" } else { "plants" };
    format!("{} {word}", grouped(plants))
}

/// What is shown, of all there is.
#[must_use]
pub fn shown(found: usize, all: usize, plants: i64) -> String {
    let plants = plants_of(plants);
    if found == all {
        format!("{}, {plants}", lots_of(all))
    } else {
        format!(
            "{} of {}, {plants}",
            grouped(i64::try_from(found).unwrap_or(i64::MAX)),
            lots_of(all)
        )
    }
}

#[must_use]
pub fn chosen(lots: usize, plants: i64) -> String {
    format!("{} chosen, {}", lots_of(lots), plants_of(plants))
}

#[must_use]
pub fn choose(name: &str) -> String {
    format!("Choose {name}")
}

#[must_use]
pub fn too_many(most: usize) -> String {
    format!("At most {most} lots at once. Choose fewer, or take them in two goes.")
}

#[must_use]
pub fn moved(lots: usize) -> String {
    format!("{} moved.", lots_of(lots))
}

#[must_use]
pub fn kind_of_work(kind: &str, lots: usize) -> String {
    format!("{kind}: {}", lots_of(lots))
}

/// Said on paper where not every line is printed.
#[must_use]
pub fn printed(shown: usize, all: usize) -> String {
    format!("The first {shown} of {}.", lots_of(all))
}
