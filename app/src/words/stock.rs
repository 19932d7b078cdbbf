//! Stock and lots.

use super::format::counted;

pub const OPEN_LOT: &str = "Open the lot";
pub const SEARCH: &str = "Name, place or code";
pub const EMPTY: &str = "No plants in the book yet.";
pub const EMPTY_HINT: &str =
    "Add what stands on one bench, lot by lot. A lot is plants of one name, counted together.";
pub const NONE_FOUND: &str = "Nothing by that name or code.";
pub const ADD_LOT: &str = "Add a lot";
pub const ADD_THIS: &str = "Add this lot";
pub const ADDED: &str = "lot added";
pub const NAME: &str = "Name, if you know it";
pub const PLANTS: &str = "Plants";
pub const POTS: &str = "Pots";
pub const PLACE: &str = "Where they stand";
pub const NEW_PLACE: &str = "A new place";
pub const ADD_PLACE: &str = "Add this place";
pub const CLASS: &str = "What they are";
pub const POTTED: &str = "Last potted";
pub const NOT_KNOWN: &str = "Not known";
pub const THIS_MONTH: &str = "This month";
pub const A_YEAR_AGO: &str = "A year ago";
pub const TWO_YEARS_AGO: &str = "Two years ago";
pub const LONGER_AGO: &str = "Longer ago";
pub const CODE: &str = "Write this on the label";
pub const SEEN_HERE: &str = "Seen here";
pub const CHANGE: &str = "Change";
pub const TO_DO: &str = "To do";
pub const NOTHING_TO_DO: &str = "Nothing is due.";
pub const HISTORY: &str = "What was done";
pub const FROM: &str = "Where it comes from";
pub const WHICH: &str = "Which one, not known.";
pub const CAME_FROM_IT: &str = "Came from it";
pub const SEASONS: &str = "Its year here";
pub const REPOT_SEASON: &str = "repot";
pub const FLOWER_SEASON: &str = "in flower";
pub const MOVE: &str = "Move it";
pub const MOVED: &str = "Moved.";
pub const COUNT: &str = "Counted: this many";
pub const COUNTED: &str = "Counted.";
pub const LOSE: &str = "Lost";
pub const LOST: &str = "Recorded as lost.";
pub const SELL: &str = "Sold";
pub const SOLD: &str = "Recorded as sold.";
pub const SPLIT: &str = "Split off";
pub const SPLIT_DONE: &str = "Split. Both parts keep their history and what is due.";
pub const MORE_CAME: &str = "More came";
pub const GAINED: &str = "Recorded.";
pub const HOW_MANY: &str = "How many";
pub const WHY: &str = "Why";
pub const TO_THE_BENCH: &str = "To the bench";
pub const LOCKED: &str =
    "A newer version wrote about this lot. Update the program on this phone to change it.";

#[must_use]
pub fn summary(lots: usize, plants: i64) -> String {
    format!(
        "{}, {}",
        counted(i64::try_from(lots).unwrap_or(i64::MAX), "lot", "lots"),
        super::trade::plants(plants)
    )
}
