//! The Repot room's own words.

use velamen_core::quantity::Volume;
use velamen_core::view::potting::Wet;

use super::format::counted;

pub const WHAT_MAY_FOLLOW: &str = "What may follow: bath, looks, apart";
pub const CLUMP_TO_THE_BENCH: &str = "A clump to the bench";
pub const ON_THE_BENCH: &str = "On the bench";
pub const MORE_WAIT: &str = "More that want the bench";
pub const WANTS_THE_BENCH: &str = "Wants the bench";
pub const EMPTY: &str = "Nothing is on the bench.";
pub const EMPTY_HINT: &str = "Bring a clump: from a lot in the book, or one that was never booked.";
pub const CLEAN: &str = "Tools and gloves clean";
pub const CLEAN_HINT: &str = "Once a session. Blades, gloves and table wiped before the first clump; flame never near alcohol.";
pub const CLEAN_BETWEEN_CLUMPS: &str = "Clean, new blade each clump";
pub const CLEAN_BETWEEN_PLANTS: &str = "Clean, new blade each plant";
pub const WHICH_LOTS: &str = "Which lots grew together?";
pub const WHICH_HINT: &str =
    "Choose all that grew together. Which piece came from which may stay unknown; all are kept.";
pub const SEARCH: &str = "Name or code";
pub const NOT_IN_BOOK: &str = "Not in the book";
pub const IN_BOOK: &str = "From the book";
pub const POTS_GROWN_TOGETHER: &str = "Pots grown together";
pub const PLANTS_TO_BENCH: &str = "Plants to the bench";
pub const NAME: &str = "Name, if you know it";
pub const TRAY_TAG: &str = "Tray tag";
pub const TRAY_HINT: &str = "Lay it beside the clump before the first cut.";
pub const OPEN_IT: &str = "Open it";
pub const OPENED: &str = "On the bench. Lay the old label by the tray tag.";
pub const TO_THE_POTS: &str = "To the pots";
pub const BACK_TO_PIECES: &str = "Count again";
pub const SEEN_HERE: &str = "Seen here";
pub const PUT_BACK: &str = "Put it back whole";
pub const PUT_BACK_DONE: &str = "Back as it came.";
pub const BULBS: &str = "Bulbs on them, if counted";
pub const FIVE: &str = "+5";
pub const SAFETY: &str =
    "Damp the mix before you handle it. Gloves for sphagnum. Lift wet clumps with two hands.";
pub const POTS: &str = "Pots";
pub const TRAYS: &str = "Pots or trays";
pub const PLANTS_NOW: &str = "Pieces now";
pub const POT_KIND: &str = "Pot";
pub const MIX: &str = "Mix";
pub const PLACE: &str = "Where they go";
pub const STONE: &str = "Stone below";
pub const LESS_STONE: &str = "Less stone";
pub const MORE_STONE: &str = "More stone";
pub const HOW_TO: &str =
    "Oldest end against the rim, the lead across the pot. Stone is weight and air.";
pub const POTTED: &str = "Potted";
pub const LATER: &str = "Later";
pub const WRITE: &str = "Write this on the label";
pub const WRITTEN: &str = "Written";
pub const LABELS: &str = "Labels";
pub const ALL_POTTED: &str = "All kept pieces are potted.";
pub const DONE: &str = "Done";
pub const DONE_SAID: &str = "The clump is done. The Round remembers what comes next.";
pub const NEXT: &str = "Next";
pub const NOTHING_TAKEN: &str = "Count the pieces first.";
pub const STILL_BARE: &str = "still bare";
pub const MIX_LABEL: &str = "mix, settling counted";
pub const STONE_LABEL: &str = "stone";
pub const HEADSPACE: &str = "headspace";

#[must_use]
pub fn kept(pots: u64, kept: u64, thrown: u64) -> (String, String) {
    let opened = format!(
        "{} opened",
        super::trade::pots(i64::try_from(pots).unwrap_or(0))
    );
    let kept = format!(
        "{} kept",
        super::trade::pieces(i64::try_from(kept).unwrap_or(0))
    );
    (
        opened,
        if thrown > 0 {
            format!("{kept}, {thrown} thrown away")
        } else {
            kept
        },
    )
}

#[must_use]
pub fn one_less(of: &str) -> String {
    format!("One less: {of}")
}

#[must_use]
pub fn one_more(of: &str) -> String {
    format!("One more: {of}")
}

#[must_use]
pub fn of_all(plants: i64) -> String {
    format!("of {plants}")
}

#[must_use]
pub fn grown_together(pots: u64) -> String {
    match pots {
        1 => "one pot".to_owned(),
        pots => format!("{pots} pots grown together"),
    }
}

#[must_use]
pub fn which_not_known(codes: &str) -> String {
    format!("{codes} · which one, not known")
}

#[must_use]
pub fn seen(signs: &str) -> String {
    format!("Seen here: {signs}.")
}

#[must_use]
pub fn labels_to_write(stands: i64) -> String {
    counted(stands, "label to write", "labels to write")
}

#[must_use]
pub fn potted(what: &str, count: u32) -> String {
    format!("{what}: {count} potted.")
}

/// The work a clump leaves behind: "Wash and disinfect 3 dirty pots, 1.2 L of stone (tray 2)".
#[must_use]
pub fn wash(pots: u32, stone: Volume, tray: u32) -> String {
    let pots = counted(i64::from(pots), "dirty pot", "dirty pots");
    let stone = if stone == Volume::ZERO {
        " and their stone".to_owned()
    } else {
        format!(" and {} of stone", super::format::litres(stone))
    };
    format!("Wash, then disinfect {pots}{stone} (tray {tray})")
}

#[must_use]
pub fn next_on(day: &str) -> String {
    format!("back to the bench {day}")
}

/// Where a mix stays wet for longer than usual.
#[must_use]
pub fn wet(wet: Wet) -> String {
    let why = match wet {
        Wet::Rain => "Open to rain",
        Wet::Humid => "The air here was damper than 80 % of late",
    };
    format!(
        "{why}: bark a grade coarser, or 10 to 20 % more pumice or stone in the mix; in clay a grade finer than in plastic. (Common practice, no source.)"
    )
}
