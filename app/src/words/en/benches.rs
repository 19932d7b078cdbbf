//! How full the benches are, in words.

use velamen_core::view::benches::BenchFill;

use super::format::{self, counted};
use super::trade;

pub const TITLE: &str = "How full the benches are";
pub const LINK: &str = "Bench room";
pub const NONE: &str = "No place is in the book yet.";
pub const NONE_HINT: &str = "Places come with the first lot that stands there.";
pub const GIVE_AREA: &str = "Give its area";
pub const ORIGIN: &str = "By area, every pot by its own width, rim against rim: edges, paths and room for the hand are not in it. Staggered rows of round pots take 87 of 100 of square ones (geometry).";

/// The head of a place: "61 % full".
#[must_use]
pub fn percent(fill: &BenchFill) -> String {
    fill.percent()
        .map(|(square, _)| format!("{square} % full"))
        .unwrap_or_default()
}

/// What stands there and what would still go there.
#[must_use]
pub fn fill(fill: &BenchFill) -> Vec<String> {
    let mut said = vec![format!(
        "{}, {} of ground square, {} staggered",
        trade::pots(i64::from(fill.pots)),
        format::square_metres(fill.square_mm2 / 100),
        format::square_metres(fill.staggered_mm2 / 100)
    )];
    match (fill.area_cm2, fill.percent()) {
        (Some(area), Some((square, staggered))) => said.push(format!(
            "{square} % of {} square, {staggered} % staggered",
            format::square_metres(u64::from(area))
        )),
        _ => said.push("Nobody gave its area.".to_owned()),
    }
    if let Some(more) = &fill.more {
        said.push(format!(
            "room for {} more of {}, {} staggered",
            more.square, more.name, more.staggered
        ));
    }
    if fill.unmeasured > 0 {
        said.push(format!(
            "{} nobody measured, not in the ground",
            counted(i64::from(fill.unmeasured), "pot", "pots")
        ));
    }
    said
}
