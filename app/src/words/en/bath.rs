//! A bath's own words. The cautions are common practice, no source, unless a label or local rule says more.

use velamen_core::bath::{BathFault, Side, TubFault, TubShape};
use velamen_core::event::Method;
use velamen_core::potting::PottingRejection;
use velamen_core::quantity::{Amount, QuantityError};

use super::format::{self, counted, in_litres};
use super::mixing;

pub const MAKE: &str = "Make a bath";
pub const IN_HAND: &str = "Baths in hand";
pub const BOTTLE: &str = "The bottle";
pub const WHICH: &str = "Which bottle?";
pub const ANOTHER: &str = "Another bottle";
pub const CHANGE: &str = "Take another bottle";
pub const NAME: &str = "Name on the label";
pub const RATE: &str = "The label's rate";
pub const RATE_HINT: &str = "With both units: 12.5 mL per 10 L, 2 g/L";
pub const RATE_LATER: &str = "May be added later; then nothing can be measured yet.";
pub const PHOTO: &str = "Photograph of the label";
pub const PHOTO_HINT: &str = "The rest can be typed from it later.";
pub const TO_THE_SHELF: &str = "Put it on the shelf";
pub const ON_THE_SHELF: &str = "bottle on the shelf";
pub const REASON: &str = "Why it is done all the same";
pub const SOAK: &str = "Minutes in it";
pub const SOAK_OF_LABEL: &str = "As its label says.";
pub const SOAK_OWN: &str = "Your own: no time was typed from the label.";
pub const REENTRY: &str = "Hours until bare hands";
pub const REENTRY_HINT: &str = "Re-entry or handling time of the label.";
pub const REENTRY_MISSING: &str = "Not typed from the label yet: no time can be given until it is.";
pub const WATER: &str = "Water in the tub";
pub const MEASURED_BY: &str = "Measured by";
pub const SAFETY_FIRST: &str = "Safety, then mix";
pub const MEASURE: &str = "Measure";
pub const LAW: &str = "The label is the law and beats this program.";
pub const HALF_FULL: &str = "Half the water takes half of it.";
pub const BEFORE: &str = "Before you open it";
pub const CHANGE_MIX: &str = "Change the mix";
pub const BATHED: &str = "had a bath";
pub const MIXED: &str = "All so: mixed";
pub const PUT_IN: &str = "What goes in";
pub const HEALTHY_FIRST: &str = "Healthy pieces first, spotted ones last. Nothing with a virus suspected goes into a shared bath.";
pub const OTHER_LOTS: &str = "A lot from the book";
pub const DELAY: &str = "Starts";
pub const LAST_IN: &str = "Last piece goes in";
pub const NEXT_IN: &str = "The same mixture takes the next pieces.";
pub const IN_THE_TUB: &str = "In the tub";
pub const MINUTE_MORE: &str = "+1 min";
pub const NOT_IN: &str = "Nothing went in";
pub const OUT: &str = "Out now";
pub const OUT_WORD: &str = "Out";
pub const INTO_CALENDAR: &str = "Alarm in the calendar";

/// The label of the box for so much water.
#[must_use]
pub fn litres() -> &'static str {
    in_litres("Litres", "Gallons")
}

/// What a calendar says when the time is up.
#[must_use]
pub fn out_of(product: &str) -> String {
    if product.is_empty() {
        "Out of the bath".to_owned()
    } else {
        format!("Out of the bath: {product}")
    }
}

pub const OUT_ON_TIME: &str = "Out on time";
pub const RINGS: &str = "It rings while this page is open. No page can ring while the phone is locked: set a kitchen timer as well.";
pub const CLOCK_BEHIND: &str = "The phone's clock stands before this soak began, so it cannot say how long the pieces lie. Look at another clock, then take them out.";
pub const CLOCK_MOVED: &str =
    "The phone's clock was put back during the soak; the time left was kept.";
pub const TAKEN_OUT: &str = "bath";
pub const DRYING: &str = "On the drying table";
pub const DRIPS: &str = "What drips from them is spent bath: catch it, gloves on.";
pub const TO_THE_POTS: &str = "To the pots";
pub const EMPTY_TUB: &str = "Empty the tub";
pub const TUB_EMPTY: &str = "tub empty";
pub const EMPTY_TITLE: &str = "The tub";
pub const EMPTY_HOW: &str = "Fresh each day. Spent bath goes where its label and local rules allow: never into a drain, a ditch or a pond. Rinse tub and measures three times.";
pub const EMPTIED: &str = "It is empty";
pub const GIVE_UP: &str = "Give this bath up";
pub const KEEP: &str = "Keep it";
pub const TABLE_AND_TUB: &str = "Drying table and tub";
pub const BOUND: &str = "Hands off until";
pub const BATH: &str = "A bath first";
pub const SAME_MIX: &str = "The mixture of an earlier bath; nothing was measured anew.";

/// Cautions before a bottle is opened, in the order they are seen to.
pub const CAUTIONS: [&str; 5] = [
    "Gloves to the elbow, goggles, apron. Some concentrates burn eyes and carry solvent: read the label.",
    "Open air or a wide door. A dust mask stops no vapour.",
    "Tub and measures rinsed; nothing else in the tub that the label forbids beside it.",
    "Children, pets, ponds and bees kept away; no measure goes back to a kitchen.",
    "Pieces by tongs or basket, gloves on all the while.",
];

/// An amount to measure and its unit: "25" and "mL".
#[must_use]
pub fn amount(amount: Amount) -> (String, &'static str) {
    match amount {
        Amount::Volume(volume) => format::measured(volume.ul(), "mL", "L"),
        Amount::Mass(mass) => format::measured(mass.mg(), "g", "kg"),
    }
}

/// "mL, made up with water to 20 L".
#[must_use]
pub fn into_water(unit: &str, litres: &str) -> String {
    format!("{unit}, made up with water to {litres}")
}

/// "12.5 mL per 10 L, for 20 L."
#[must_use]
pub fn how(rate: &str, litres: &str) -> String {
    format!("{rate}, for {litres}.")
}

/// "Copper: 500 mg in each litre."
#[must_use]
pub fn active(name: &str, mg: i64) -> String {
    format!("{name}: {mg} mg in each litre of bath.")
}

/// "On the label: 2 g/L to 3 g/L."
#[must_use]
pub fn label_range(least: &str, most: &str) -> String {
    if least == most {
        format!("On the label: {least}. Empty takes that.")
    } else {
        format!("On the label: {least} to {most}. Empty takes the lowest.")
    }
}

#[must_use]
pub fn shape(shape: TubShape) -> &'static str {
    match shape {
        TubShape::Litres => litres(),
        TubShape::Rectangle => "Box",
        TubShape::Round => "Round",
        TubShape::TaperedRectangle => "Tapered box",
        TubShape::TaperedRound => "Tapered round",
    }
}

#[must_use]
pub fn side(side: Side) -> &'static str {
    match side {
        Side::Length => "Length inside",
        Side::Width => "Width inside",
        Side::Across => "Across, inside",
        Side::BaseLength => "Length at the base",
        Side::BaseWidth => "Width at the base",
        Side::BaseAcross => "Across the base",
        Side::Height => "Height of the tub",
        Side::Water => "Water stands",
    }
}

/// "in 10 s", "at once".
#[must_use]
pub fn delay(seconds: u32) -> String {
    match seconds {
        0 => "at once".to_owned(),
        seconds => format!("in {seconds} s"),
    }
}

/// "4:12", or "1:04:12".
#[must_use]
pub fn digits(seconds: u32) -> String {
    let (hours, minutes, seconds) = (seconds / 3_600, seconds / 60 % 60, seconds % 60);
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}

#[must_use]
pub fn starts(seconds: u32) -> String {
    format!("Counts in {seconds} s: put the last one in")
}

#[must_use]
pub fn out_at(clock: &str) -> String {
    format!("Take them out at {clock}")
}

/// "+1:45", the time that is over already.
#[must_use]
pub fn overrun(since_s: u32) -> String {
    format!("+{}", digits(since_s))
}

/// "Time was up 12 minutes ago: take them out".
#[must_use]
pub fn over(since_s: u32) -> String {
    match since_s {
        0..60 => "Time is up: take them out".to_owned(),
        since_s => format!("Time was up {} ago: take them out", minutes(since_s)),
    }
}

#[must_use]
pub fn minutes(seconds: u32) -> String {
    counted(i64::from(seconds / 60), "minute", "minutes")
}

/// "Out now: 17 min in it".
#[must_use]
pub fn lay(label: &str, seconds: u32) -> String {
    format!("{label} · {} min", seconds.saturating_add(30) / 60)
}

/// A bath in the line over the actions: "Bath: 3:12 left".
#[must_use]
pub fn running(seconds: u32) -> String {
    format!("Bath: {} left", digits(seconds))
}

#[must_use]
pub fn to_take_out(since_s: u32) -> String {
    match since_s {
        0..60 => "Bath: take them out now".to_owned(),
        since_s => format!("Bath: take them out, over since {}", minutes(since_s)),
    }
}

#[must_use]
pub fn dips(dips: u32) -> String {
    match dips {
        0 => "not used yet".to_owned(),
        dips => format!(
            "{} out of it so far",
            counted(i64::from(dips), "batch", "batches")
        ),
    }
}

/// "dry since 10:42".
#[must_use]
pub fn drying_since(clock: &str) -> String {
    format!("out since {clock}")
}

/// "Treated with …: hands off until 14:10, or only as label and local rule allow, with the label's gear."
#[must_use]
pub fn bound(label_name: &str, until: &str) -> String {
    format!(
        "Treated with {label_name}. Wait until {until}, or go on only as label and local rule allow, with the label's gear."
    )
}

/// What was seen at the bench is what the bath is for.
#[must_use]
pub fn seen(signs: &str) -> String {
    format!("Seen at the bench: {signs}.")
}

/// "25 mL in 20 L."
#[must_use]
pub fn in_water(amount: &str, unit: &str, litres: &str) -> String {
    format!("{amount} {unit} in {litres}.")
}

#[must_use]
pub fn fault(fault: &BathFault) -> String {
    match fault {
        BathFault::Mix(fault) => mixing::fault(fault, Method::Bath),
        BathFault::NoSoak => "Say how many minutes they lie in it.".to_owned(),
        BathFault::SoakTooLong => "Two days is the longest a soak may last.".to_owned(),
        BathFault::Tub(fault) => tub(fault),
        BathFault::NothingIn => "Pick what goes in: pieces on the bench, or a lot.".to_owned(),
        BathFault::NotSoaking => "Nothing lies in it.".to_owned(),
        BathFault::VirusShared => "A virus is suspected in what you chose: it goes into no bath that others share. Give it a fresh one of its own, thrown out after it.".to_owned(),
        BathFault::AfterVirus => "A virus suspect lay in this bath: nothing more goes in. Empty the tub.".to_owned(),
    }
}

#[must_use]
pub fn tub(fault: &TubFault) -> String {
    match fault {
        TubFault::Missing(None) => "Type the litres of water.".to_owned(),
        TubFault::Missing(Some(side)) => format!("Measure: {}.", self::side(*side).to_lowercase()),
        TubFault::Unreadable(None, fault) => volume(fault),
        TubFault::Unreadable(Some(side), fault) => {
            let side = self::side(*side);
            match fault {
                QuantityError::Negative => format!("{side}: it has to be more than nothing."),
                _ => format!("{side}: type a length, such as 60 cm or 24 in."),
            }
        }
        TubFault::Impossible(PottingRejection::DeeperThanTub) => {
            "The water stands higher than the tub.".to_owned()
        }
        TubFault::Impossible(_) => {
            "Every measure of the tub has to be more than nothing, and none over 5 m.".to_owned()
        }
        TubFault::Empty => "There is no water in it yet.".to_owned(),
        TubFault::TooMuch => "2 000 litres is the most for one tub.".to_owned(),
    }
}

fn volume(fault: &QuantityError) -> String {
    match fault {
        QuantityError::Negative | QuantityError::Zero => {
            "The water has to be more than nothing.".to_owned()
        }
        QuantityError::AmbiguousUnit { .. } => {
            "Whose gallon or pint? Write US gal or imp gal, or litres.".to_owned()
        }
        QuantityError::TooLarge { .. } => "2 000 litres is the most for one tub.".to_owned(),
        _ => "Type the water as an amount: 20 L, 5 US gal.".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_countdown_reads_like_a_clock() {
        assert_eq!(digits(252), "4:12");
        assert_eq!(digits(9), "0:09");
        assert_eq!(digits(3_852), "1:04:12");
    }

    #[wasm_bindgen_test]
    fn an_amount_keeps_the_digits_a_measure_has() {
        use velamen_core::quantity::{Mass, Volume};
        let ml = |ul| amount(Amount::Volume(Volume::from_ul(ul)));
        assert_eq!(ml(12_500), ("12.5".to_owned(), "mL"));
        assert_eq!(ml(25_000), ("25".to_owned(), "mL"));
        assert_eq!(ml(312), ("0.312".to_owned(), "mL"));
        assert_eq!(ml(3_126), ("3.13".to_owned(), "mL"));
        assert_eq!(ml(1_250_000), ("1.25".to_owned(), "L"));
        assert_eq!(amount(Amount::Mass(Mass::from_mg(40_000))).1, "g");
    }
}
