//! Why the book refuses, in the grower's words: what is wrong, and what to do.

use velamen_core::name::NameFault;
use velamen_core::potting::PottingRejection;
use velamen_core::quantity::QuantityError;
use velamen_core::rejection::{Caution, Input, Rejection};
use velamen_core::task::ProtocolFault;
use velamen_core::text::TextFault;

use super::format::{full_day, short_day};
use super::trade;

fn input(input: Input) -> &'static str {
    match input {
        Input::Nursery => "the nursery's name",
        Input::Name => "the name",
        Input::Code => "the code",
        Input::Plants => "the number of plants",
        Input::Pots => "the number of pots",
        Input::Pieces => "the number of pieces",
        Input::Note => "the note",
        Input::Text => "the text",
        Input::Date => "the day",
        Input::Latitude => "the latitude",
        Input::Walk => "the order on the walk",
        Input::Tray => "the tray tag",
        Input::Pot => "the pot",
        Input::Mix => "the mix",
        Input::Rate => "the amount",
        Input::Photo => "photographs",
        Input::Good => "how good it was",
        Input::Person => "the person",
        Input::Soak => "the minutes of soaking",
        Input::Active => "the active ingredient",
        Input::Threshold => "the share of plants, in a hundred",
        Input::Severity => "how bad it is",
        Input::Test => "what the test said",
        Input::KeepMonths => "the months a record is kept",
        Input::Stone => "the litres of stone",
        Input::Strength => "the strength",
        Input::Tools => "the number of tools",
        Input::Measure => "the measure",
        Input::Coordinates => "the degrees of latitude or longitude",
        Input::Water => "the water in the tub",
        Input::Container => "what a container holds",
        Input::Days => "the days between",
        Input::Nitrogen => "the nitrogen, in mg a litre",
        Input::Injector => "the setting of the injector",
        Input::Ec => "the conductivity, in µS/cm",
        Input::Feed => "feeds",
        Input::Lots => "lots",
        Input::Price => "the price",
        Input::Size => "the size, in pieces, litres or kilograms",
        Input::Money => "the sign or word of your money",
    }
}

fn text(fault: &TextFault, field: &str) -> String {
    match fault {
        TextFault::TooLong { max, found } => {
            format!("Shorten {field}: it has {found} characters, {max} are the most.")
        }
        TextFault::ControlCharacter { at } => {
            format!("Type {field} again: character {} cannot be kept.", at + 1)
        }
    }
}

/// The unit of a range, where the name of what is typed does not say it.
fn unit(input: Input) -> &'static str {
    match input {
        Input::Measure => " mL or g",
        Input::Container => " L or kg",
        Input::Water => " L",
        _ => "",
    }
}

/// The refusal as a sentence.
#[must_use]
pub fn say(no: &Rejection) -> String {
    match no {
        Rejection::NoBook => "There is no book on this phone yet.".to_owned(),
        Rejection::BookAlreadyOpen => "There is a book on this phone already.".to_owned(),
        Rejection::PhoneNotJoined => {
            "This phone has not joined the book yet. Join it in the Shed, under \"This phone\"."
                .to_owned()
        }
        Rejection::NotInTheBook { .. } => {
            "The book does not know that. It may have been withdrawn.".to_owned()
        }
        Rejection::NeedsNewerVersion { .. } => {
            "A newer version wrote about this. Update the program on this phone first.".to_owned()
        }
        Rejection::Missing { input: field } => format!("Fill in {}.", input(*field)),
        Rejection::BadText {
            input: field,
            fault,
        } => text(fault, input(*field)),
        Rejection::BadName(fault) => name(fault),
        Rejection::BadPot(fault) => pot(fault),
        Rejection::BadRate(fault) => super::treat::rate_fault(fault),
        Rejection::TooMany { input: field, most } => {
            format!("Too many: {most} is the most for {}.", input(*field))
        }
        Rejection::OutOfRange {
            input: field,
            least,
            most,
        } => {
            format!(
                "For {}, choose from {least} to {most}{}.",
                input(*field),
                unit(*field)
            )
        }
        Rejection::DayOutOfRange { first, last } => {
            format!(
                "Choose a day from {} to {}.",
                full_day(*first),
                full_day(*last)
            )
        }
        Rejection::NothingToDo => "Nothing would change.".to_owned(),
        Rejection::MoreThanThereAre { plants, stands, .. } => {
            format!(
                "There are only {}.",
                trade::plants_in_pots(*plants, *stands)
            )
        }
        Rejection::MoreThanFree { free, reserved, .. } => format!(
            "Only {free} are free: {reserved} are kept for somebody. Sell those from where they stand kept, or let some of them go."
        ),
        Rejection::NotReserved => "They are not kept any more: sold, or let go.".to_owned(),
        Rejection::AllOnTheBench { .. } => "All of this lot is on the bench already.".to_owned(),
        Rejection::LotTwice { .. } => "That lot is chosen twice.".to_owned(),
        Rejection::ClumpClosed => "This clump is done already.".to_owned(),
        Rejection::MorePottedThanPieces {
            class,
            taken,
            potted,
        } => format!(
            "{}: {potted} would be potted, but {taken} came off. Count the pieces again first.",
            trade::class(*class)
        ),
        Rejection::FewerThanPotted { class, potted } => {
            format!("{}: {potted} are potted already.", trade::class(*class))
        }
        Rejection::PiecesBare { pieces } => format!(
            "{} still bare. Pot them, or count them as thrown away.",
            trade::pieces(i64::try_from(*pieces).unwrap_or(i64::MAX))
        ),
        Rejection::AlreadyCut => {
            "Pieces were counted already, so it cannot go back whole.".to_owned()
        }
        Rejection::CodeTaken { code, .. } => format!("The code {code} is on another lot."),
        Rejection::NoCodesLeft => "This phone has no codes left.".to_owned(),
        Rejection::TrayInUse { tray } => {
            format!("Tray tag {tray} lies beside another clump. Take another tag.")
        }
        Rejection::FewerThere { stage, left, stone } => super::clean::fewer(*stage, *left, *stone),
        Rejection::KeptApart { freed, stone } => super::virus::kept_apart(*freed, *stone),
        Rejection::Reading(fault) => super::climate::fault(fault),
        Rejection::Protocol(fault) => protocol(fault),
        Rejection::TaskNotOpen => "That was decided already.".to_owned(),
        Rejection::PutOffToThePast { .. } => "Choose a day after today.".to_owned(),
        Rejection::NotTheSameEvent => "A correction must stay with the same lot.".to_owned(),
        Rejection::AlreadyWithdrawn { .. } => "That was withdrawn already.".to_owned(),
        Rejection::PlaceInUse { lots, .. } => format!(
            "{} here. Move them first, or say in the Shed that the place is no longer used.",
            super::format::counted(
                i64::try_from(*lots).unwrap_or(i64::MAX),
                "lot stands",
                "lots stand"
            )
        ),
        Rejection::OthersRestOnIt { entries } if entries.len() == 1 => {
            "A later entry rests on this one. Withdraw them together, or leave it.".to_owned()
        }
        Rejection::OthersRestOnIt { entries } => format!(
            "{} later entries rest on this one. Withdraw them together, or leave it.",
            entries.len()
        ),
        Rejection::MoreAffectedThanLookedAt {
            affected,
            looked_at,
        } => {
            format!("{affected} cannot be affected when {looked_at} were looked at.")
        }
        Rejection::NoMarkBetween => {
            "Between the least and the most there is no mark. Look at the three figures again."
                .to_owned()
        }
        Rejection::InQuarantine { since_on, .. } => format!(
            "It is in quarantine since {}: it stays where it is, and alone. Let it out first.",
            full_day(*since_on)
        ),
        Rejection::NotInQuarantine { .. } => "It is not in quarantine.".to_owned(),
        Rejection::QuarantineHolds { .. } => {
            "Not everything holds yet. Write down why it comes out early.".to_owned()
        }
        Rejection::MorePooledThanPlants { pooled, plants } => {
            format!("{pooled} plants cannot be in the sample: the lot has {plants}.")
        }
        Rejection::BathOver => super::bath_life::OVER.to_owned(),
        Rejection::OtherUnit { weighs } => super::containers::other_unit(*weighs).to_owned(),
        Rejection::EntryTooLarge => "Too much at once. Do it in two parts.".to_owned(),
    }
}

fn name(fault: &NameFault) -> String {
    match fault {
        NameFault::Text { fault, .. } => text(fault, "the name"),
        NameFault::EmptyPart { .. } => "A part of the name is empty.".to_owned(),
        NameFault::TooManyRanks { .. } => "The name has too many parts.".to_owned(),
        NameFault::FormulaTooDeep => "The cross has too many generations for one name.".to_owned(),
    }
}

/// What is wrong with a typed amount.
#[must_use]
pub fn quantity(fault: &QuantityError) -> String {
    match fault {
        QuantityError::Empty => "Fill this in, with its unit: 17 cm, 170 mm.".to_owned(),
        QuantityError::NoUnit { .. } => "Add the unit: 17 cm, 170 mm.".to_owned(),
        QuantityError::Negative | QuantityError::Zero => {
            "It has to be more than nothing.".to_owned()
        }
        QuantityError::TooLarge { .. } => "That is too large.".to_owned(),
        QuantityError::WrongUnit { .. } => {
            "That is another kind of measure. Type a length: 17 cm, 170 mm.".to_owned()
        }
        _ => "That is not a measure. Type a number and its unit: 17 cm, 170 mm.".to_owned(),
    }
}

/// What is wrong with a pot or its layers.
#[must_use]
pub fn pot(fault: &PottingRejection) -> String {
    match fault {
        PottingRejection::NotAboveZero(_) | PottingRejection::BelowZero(_) => {
            "Every measure of the pot has to be more than nothing.".to_owned()
        }
        PottingRejection::TooLarge(_) => {
            "That is larger than any pot. Measures are in millimetres.".to_owned()
        }
        PottingRejection::BaseWiderThanTop => {
            "The base is wider than the top. Swap them.".to_owned()
        }
        PottingRejection::LayersDeeperThanPot => {
            "Stone and headspace leave no room for mix. Use less stone.".to_owned()
        }
        PottingRejection::ShapeNotMeasured => {
            "Only the water it holds is known. Measure top, base and height to use a stone layer."
                .to_owned()
        }
        PottingRejection::DeeperThanTub => "That is deeper than the tub.".to_owned(),
        PottingRejection::TooManyPots => {
            "That is more pots than can be reckoned at once.".to_owned()
        }
        PottingRejection::SettlesTooMuch => {
            "A mix that loses more than half is not one.".to_owned()
        }
        PottingRejection::OutOfRange => "The amount is too large to reckon.".to_owned(),
    }
}

fn protocol(fault: &ProtocolFault) -> String {
    match fault {
        ProtocolFault::NoSteps => "A protocol needs at least one step.".to_owned(),
        ProtocolFault::TooManySteps { most } => format!("A protocol may have {most} steps."),
        ProtocolFault::SameKeyTwice { .. } => "Two steps have the same name.".to_owned(),
        ProtocolFault::KeyUsedBefore { .. } => {
            "The name of a step stood for other work before. Add it as a new step.".to_owned()
        }
        ProtocolFault::TooFar { most_days, .. } => {
            format!("A step may lie up to {most_days} days away.")
        }
        ProtocolFault::WindowTurned { .. } => {
            "The day has to lie between the first and the last day of its window.".to_owned()
        }
        ProtocolFault::NeverEnds { .. } => {
            "A step that repeats needs at least a day between, and an end.".to_owned()
        }
        ProtocolFault::EmptyRepeat { .. } => {
            "The last repeat has to lie after the first day of the step.".to_owned()
        }
        ProtocolFault::NoSuchStep { .. } => {
            "A step waits for another that is not in this protocol.".to_owned()
        }
        ProtocolFault::Loop { .. } => "A step waits for itself: it would never begin.".to_owned(),
        ProtocolFault::BadWeather { most_days, .. } => format!(
            "The weather may move a step by 1 to {most_days} days, at a temperature a house can have."
        ),
        ProtocolFault::BadPriority { .. } => "A step comes first, second or third.".to_owned(),
    }
}

/// Something to think about.
#[must_use]
pub fn caution(caution: &Caution, today: chrono::NaiveDate) -> String {
    match caution {
        Caution::MorePiecesThanBulbs { pieces, bulbs } => format!(
            "{pieces} pieces from {bulbs} bulbs counted. A broken shoot has no bulb; is the count right?"
        ),
        Caution::OutsideWindow { next_opening, .. } => match next_opening {
            Some(opening) => format!(
                "Outside its season here; it opens {}. Past its mix or sick, it can be done now.",
                short_day(*opening, today)
            ),
            None => "Outside its season here.".to_owned(),
        },
        Caution::FewCleanPots { clean, wanted, .. } => super::clean::few(*clean, *wanted),
        Caution::Suspect { .. } => {
            "A virus was found in it, or in what it comes from. Tell whoever gets it.".to_owned()
        }
        Caution::OutEarly { .. } => "It comes out before everything holds.".to_owned(),
        Caution::MoreThanHeld { left, .. } => super::containers::more_than_held(*left),
        Caution::Expired { on, .. } => super::containers::expired(*on),
        Caution::LongAgo { on } => format!("That is {}.", full_day(*on)),
    }
}
