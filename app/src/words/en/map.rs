//! The plan of the nursery.

use super::format::counted;
use super::stock::grouped;

pub const TITLE: &str = "The nursery";
pub const LINK: &str = "Plan";
pub const HOW: &str =
    "In the order of the walk. On a foot is late, filled without one is due, hatched has to wait.";
pub const NONE: &str = "No places yet";
pub const NONE_HINT: &str =
    "Name the places in the order you walk them, in the Shed, and they stand here as a plan.";

/// A bench by its whole name.
#[must_use]
pub fn in_house(house: &str, name: &str) -> String {
    if house.is_empty() {
        name.to_owned()
    } else {
        format!("{house}, {name}")
    }
}

#[must_use]
pub fn stands(lots: usize) -> String {
    match lots {
        0 => "empty".to_owned(),
        1 => "1 lot".to_owned(),
        lots => format!("{} lots", grouped(i64::try_from(lots).unwrap_or(i64::MAX))),
    }
}

/// A bench in words: how many rows of work are late, due, held.
#[must_use]
pub fn bench(name: &str, lots: usize, plants: i64, [late, due, held]: [usize; 3]) -> String {
    let plants = counted(plants, "plant", "plants");
    let mut said = format!("{name}: {}, {plants}", stands(lots));
    for (count, what) in [(late, "late"), (due, "due"), (held, "to wait")] {
        if count > 0 {
            said.push_str(&format!(", {count} {what}"));
        }
    }
    said
}

/// The whole plan in a sentence.
#[must_use]
pub fn whole(places: usize, [late, due, held]: [usize; 3]) -> String {
    let places = counted(i64::try_from(places).unwrap_or(i64::MAX), "place", "places");
    format!(
        "A plan of {places} in walking order: work late at {late}, due at {due}, waiting at {held}."
    )
}
