//! Entries as sentences.

use velamen_core::event::{
    BookSet, ClosedHow, Event, GainWhy, Method, PlaceSet, Source, SplitWhy, TaskAnswer, Treated,
    TreatedPart, WithdrawWhy,
};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::season::Hemisphere;
use velamen_core::view::book_sieve::Kind;

use super::format::{counted, full_day, litres};
use super::{apart, clean, climate, measure, shed, task, trade};

pub const HAND_OVER: &str = "Hand over or take in";
pub const SHED: &str = "The Shed";
pub const MORE: &str = "Show older";
/// The key at the end of what is drawn of the list.
pub const MORE_ROWS: &str = "More of these";
pub const AMENDED: &str = "corrected";
pub const LOCKED: &str = "Written by a newer version. It is kept, and shown after an update.";
pub const KEPT: &str = "The browser has promised to keep the book.";
pub const NOT_KEPT: &str = "The browser may clear the book when space runs short. Put the program on the home screen, and hand over often.";
pub const FILES: &str = "Hand over, take in";
pub const HAND_OVER_HINT: &str = "In one file, without the photographs. Without a passphrase, anyone who has the file can read it.";
pub const SAVE: &str = "Save as a file";
pub const SHARE: &str = "Share";
pub const TAKE_IN_HINT: &str = "Files from other phones of this nursery, several at once if you like. First you see what they would bring.";
pub const CHOOSE_FILE: &str = "Choose a file";
pub const CHOOSE_FILES: &str = "Choose files";
pub const READING: &str = "Reading the file";
pub const TAKE_IN: &str = "Take it in";

pub const LOOK_FOR: &str = "Look for";
pub const WHICH_LOT: &str = "A lot, by name or code";
pub const AT_PLACE: &str = "At a place";
pub const AT_PLACE_HINT: &str = "What was done there, and to the lots that stand there now.";
pub const ANY_PLACE: &str = "Anywhere";
pub const KIND: &str = "What happened";
pub const ANY_KIND: &str = "Everything";
pub const SLIPS: &str = "Show slips";
pub const SLIPS_HINT: &str = "What was undone at once, and its undoing.";
pub const NARROWED: &str = "Only a part is shown.";
pub const SHOW_ALL: &str = "Show all";
pub const NOTHING_FOUND: &str = "Nothing in the book is like that.";

/// A kind of event, as a choice.
#[must_use]
pub fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Lots => "Lots and counts",
        Kind::Potting => "Potting",
        Kind::Water => "Water and feed",
        Kind::Treated => "Treatments",
        Kind::Seen => "Seen",
        Kind::Work => "Tasks",
        Kind::Shed => "Shed and nursery",
        Kind::PutRight => "Put right",
    }
}

/// When and by which phone something was recorded.
#[must_use]
pub fn recorded(minute: &str, phone: &str) -> String {
    if phone.is_empty() {
        minute.to_owned()
    } else {
        format!("{minute} · {phone}")
    }
}

/// What an entry says beyond the sentences shown.
#[must_use]
pub fn more_said(count: usize) -> String {
    format!("and {count} more")
}

/// One event as a sentence, with lots and places as the caller calls them.
#[must_use]
pub fn event(
    event: &Event,
    lots: &dyn Fn(LotId) -> String,
    places: &dyn Fn(PlaceId) -> String,
) -> String {
    let number =
        |plants: u32, stands: u32| trade::plants_in_pots(i64::from(plants), i64::from(stands));
    match event {
        Event::BookOpened(it) => format!("The book of {} was opened.", it.nursery),
        Event::BookSet(it) => book_set(it),
        Event::PhoneJoined(it) => format!("A phone joined; its codes begin with {}.", it.prefix),
        Event::PhoneLeft(it) if it.note.is_empty() => "A phone was taken off the book.".to_owned(),
        Event::PhoneLeft(it) => format!("A phone was taken off the book: {}.", it.note),
        Event::PlaceSet(it) => place_set(it, places),
        Event::PotSet(it) => match (&it.name, it.retired) {
            (_, Some(true)) => "A pot is no longer used.".to_owned(),
            (Some(name), _) => format!("Pot: {name}."),
            (None, _) => "A pot was measured again.".to_owned(),
        },
        Event::MixSet(it) => match (&it.name, it.retired) {
            (_, Some(true)) => "A mix is no longer used.".to_owned(),
            (Some(name), _) => format!("Mix: {name}."),
            (None, _) => "A mix was changed.".to_owned(),
        },
        Event::ClimateRead(it) => {
            let day = it.read_on.map(|on| format!(" on {}", full_day(on)));
            let (place, said) = (places(it.place), climate::reading(&it.reading()));
            format!("{place}: {said}{}.", day.unwrap_or_default())
        }
        Event::MeasureSet(it) => measure::set(it),
        Event::ProductSet(it) => super::product::set(it),
        Event::ContainerSet(it) => super::containers::set(it),
        Event::ContainerCounted(it) => super::containers::counted_again(it),
        Event::ContainerUsed(it) => super::containers::used(it),
        Event::BathTopped(it) => super::bath_life::topped(it),
        Event::BathEnded(_) => super::bath_life::ENDED.to_owned(),
        Event::FeedSet(it) => super::water::feed_set(it),
        Event::Watered(it) => super::water::watered(it, lots, places),
        Event::Fed(it) => super::water::fed(it, lots, places),
        Event::GroupSet(_) => "Seasons of a group of plants were changed.".to_owned(),
        Event::PriceSet(it) => super::prices::set(it),
        Event::RotationSet(_) => "The rules for changing products were changed.".to_owned(),
        Event::LotReceived(it) => format!(
            "{}: {}, {}.",
            lots(it.lot),
            number(it.plants, it.stands),
            source(it.source)
        ),
        Event::LotSplit(it) => format!(
            "{} split off {}: {}, {}.",
            lots(it.lot),
            lots(it.from),
            number(it.plants, it.stands),
            split(it.why)
        ),
        Event::LotNamed(it) => format!(
            "{} is now called {}.",
            lots(it.lot),
            trade::name_plain(&it.name)
        ),
        Event::LotCoded(it) => format!("{} got the code {}.", lots(it.lot), it.code),
        Event::Moved(it) => format!("{} moved to {}.", lots(it.lot), places(it.to)),
        Event::Counted(it) => format!(
            "{} counted: {} (the book said {}).",
            lots(it.lot),
            number(it.plants, it.stands),
            trade::plants_in_pots(it.believed_plants, it.believed_stands)
        ),
        Event::Lost(it) => {
            format!(
                "{} lost {}: {}.",
                lots(it.lot),
                number(it.plants, it.stands),
                trade::cause(it.cause).to_lowercase()
            )
        }
        Event::Sold(it) if it.to.is_empty() => {
            format!("{}: {} sold.", lots(it.lot), number(it.plants, it.stands))
        }
        Event::Sold(it) => format!(
            "{}: {} sold to {}.",
            lots(it.lot),
            number(it.plants, it.stands),
            it.to
        ),
        Event::Reserved(it) => {
            let plants = trade::plants(i64::from(it.plants));
            let until = it.until_on.map(|on| format!(", until {}", full_day(on)));
            let until = until.unwrap_or_default();
            if it.to.is_empty() {
                format!("{}: {plants} kept{until}.", lots(it.lot))
            } else {
                format!("{}: {plants} kept for {}{until}.", lots(it.lot), it.to)
            }
        }
        Event::Released(it) => format!(
            "{}: {} kept no longer.",
            lots(it.lot),
            trade::plants(i64::from(it.plants))
        ),
        Event::Gained(it) => format!(
            "{}: {} more, {}.",
            lots(it.lot),
            number(it.plants, it.stands),
            gain(it.why)
        ),
        Event::Repotted(it) => format!(
            "{} potted on: {}.",
            lots(it.lot),
            in_pot(i64::from(it.stands), &it.potting.pot_name)
        ),
        Event::DivisionPlanned(it) => {
            let of: Vec<String> = it.lots.iter().map(|lot| lots(*lot)).collect();
            super::cut::planned(it, &of.join(", "))
        }
        Event::DivisionOpened(it) => {
            let from: Vec<String> = it.lots.iter().map(|opened| lots(opened.lot)).collect();
            let from = if from.is_empty() {
                trade::name_plain(&it.name)
            } else {
                from.join(", ")
            };
            let pots = trade::pots(i64::try_from(it.pots()).unwrap_or(0));
            format!("To the bench under tray tag {}: {from}, {pots}.", it.tray)
        }
        Event::PiecesTaken(it) if it.plants == 0 => {
            let bulbs = i64::from(it.bulbs.unwrap_or(0));
            format!("{} counted.", counted(bulbs, "bulb", "bulbs"))
        }
        Event::PiecesTaken(it) => format!(
            "{}: {} came off.",
            trade::class(it.class),
            trade::pieces(i64::from(it.plants))
        ),
        Event::PiecesPotted(it) => {
            let mix = velamen_core::quantity::Volume::from_ul(it.potting.mix_ul);
            let mix = if it.potting.mix_ul > 0 {
                format!(", {} of mix", litres(mix))
            } else {
                String::new()
            };
            let pot = in_pot(i64::from(it.stands), &it.potting.pot_name);
            format!(
                "{}: {} potted as {}, {pot}{mix}.",
                trade::class(it.class),
                it.plants,
                it.code
            )
        }
        Event::DivisionClosed(it) => match it.how {
            ClosedHow::Done => format!(
                "A clump was done; {} to wash.",
                trade::pots(i64::from(it.dirty_pots))
            ),
            ClosedHow::PutBack => "A clump was put back whole.".to_owned(),
        },
        Event::HygieneConfirmed(_) => "Tools and gloves clean.".to_owned(),
        Event::Sanitised(it) => clean::sanitised(it),
        Event::MaterialsMoved(it) => clean::moved(it),
        Event::Treated(it) => treated(it, lots),
        Event::Found(it) => match it.on {
            velamen_core::event::SeenOn::Lot(lot) => {
                format!("{}: {}.", lots(lot), trade::sign(&it.sign).to_lowercase())
            }
            velamen_core::event::SeenOn::Place(place) => format!(
                "{}: {}.",
                places(place),
                trade::sign(&it.sign).to_lowercase()
            ),
            velamen_core::event::SeenOn::Clump(_) => {
                format!("On the bench: {}.", trade::sign(&it.sign).to_lowercase())
            }
        },
        Event::QuarantineEntered(it) => format!(
            "{}: into quarantine, {}.",
            lots(it.lot),
            apart::why(it.why, None).to_lowercase()
        ),
        Event::QuarantineReleased(it) => {
            let early = if it.early.is_empty() { "" } else { ", early" };
            format!("{}: out of quarantine{early}.", lots(it.lot))
        }
        Event::VirusTested(it) => {
            let (virus, said) = (apart::virus(it.virus), apart::result(it.result));
            format!(
                "{}: tested for {virus}, {}.",
                lots(it.lot),
                said.to_lowercase()
            )
        }
        Event::Observed(it) => format!(
            "{}: {}.",
            lots(it.lot),
            trade::sight(it.what).to_lowercase()
        ),
        Event::TaskDecided(it) => {
            let what = task::kind(it.kind);
            let of = match it.task.subject {
                velamen_core::id::Subject::Lot(lot) => format!("{}: ", lots(lot)),
                _ => String::new(),
            };
            let became = match it.answer {
                TaskAnswer::Done { outcome } => task::done(what, it.kind, outcome, &it.why)
                    .unwrap_or_else(|| task::then(what, "done")),
                TaskAnswer::PutOff { to } => {
                    let put_off = format!("put off to {}", full_day(to));
                    let put_off = task::then(what, &put_off);
                    if it.why.is_empty() {
                        put_off
                    } else {
                        format!("{put_off}: {}", it.why)
                    }
                }
                TaskAnswer::NotNeeded => task::then(what, "not needed"),
            };
            format!("{of}{became}.")
        }
        Event::TaskNoted(it) => format!("To do on {}: {}.", full_day(it.due_on), it.text),
        Event::ProtocolAdopted(it) => format!(
            "Protocol \"{}\", revision {}.",
            protocol(&it.content.key),
            it.revision
        ),
        Event::ClockCorrected(_) => "A phone's clock was put right.".to_owned(),
        Event::Amended(it) => format!("Corrected: {}", self::event(&it.event, lots, places)),
        Event::Withdrawn(it) => match it.why {
            WithdrawWhy::Restored => "An entry was restored.".to_owned(),
            WithdrawWhy::Undone => "Undone.".to_owned(),
            WithdrawWhy::Mistake | WithdrawWhy::Twice => "An entry was withdrawn.".to_owned(),
        },
        Event::Settled(_) => "A question was settled: right as it stands.".to_owned(),
    }
}

fn book_set(it: &BookSet) -> String {
    let said = [
        it.nursery
            .as_ref()
            .map(|name| format!("the nursery is called {name}")),
        it.hemisphere.map(|half| match half {
            Hemisphere::North => "north of the equator".to_owned(),
            Hemisphere::South => "south of the equator".to_owned(),
        }),
        it.latitude_cdeg.map(|_| "the latitude".to_owned()),
        it.poisons_number
            .as_ref()
            .map(|number| format!("poisons number {number}")),
        it.operator_number
            .as_ref()
            .map(|number| format!("operator number {number}")),
        it.record
            .as_ref()
            .map(|_| "what the record of treatments must hold".to_owned()),
        it.mix_open
            .as_ref()
            .map(|open| in_use("the bag of mix", &open.batch)),
        it.stone_open
            .as_ref()
            .map(|load| in_use("the load of stone", load)),
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    format!("About the nursery: {}.", said.join(", "))
}

fn in_use(what: &str, batch: &str) -> String {
    if batch.is_empty() {
        format!("{what} in use is not noted any more")
    } else {
        format!("{what} in use is {batch}")
    }
}

fn place_set(it: &PlaceSet, places: &dyn Fn(PlaceId) -> String) -> String {
    if it.retired == Some(true) {
        return format!("{}: no longer used.", places(it.place));
    }
    let said = [
        it.warmth.map(|warmth| shed::warmth(warmth).to_lowercase()),
        it.cover.map(|cover| shed::cover(cover).to_lowercase()),
        it.shade.map(|shade| shed::shade(shade).to_lowercase()),
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    match (&it.name, said.is_empty()) {
        (Some(name), true) => format!("Place: {name}."),
        (Some(name), false) => format!("Place: {name}, {}.", said.join(", ")),
        (None, false) => format!("{}: {}.", places(it.place), said.join(", ")),
        (None, true) if it.walk.is_some() => {
            format!("{}: another place on the walk.", places(it.place))
        }
        (None, true) => format!("{}: changed.", places(it.place)),
    }
}

fn treated(it: &Treated, lots: &dyn Fn(LotId) -> String) -> String {
    let parts: Vec<String> = it
        .parts
        .iter()
        .map(|part| match part {
            TreatedPart::Lot { lot, plants } => {
                format!("{}, {}", lots(*lot), trade::plants(i64::from(*plants)))
            }
            TreatedPart::Pieces { class, plants, .. } => format!(
                "{} on the bench ({})",
                trade::pieces(i64::from(*plants)),
                trade::class(*class).to_lowercase()
            ),
        })
        .collect();
    let how = method(it.method);
    let product = &it.product.label_name;
    if parts.is_empty() {
        format!("{how} with {product}.")
    } else {
        format!("{how} with {product}: {}.", parts.join("; "))
    }
}

fn in_pot(stands: i64, pot: &str) -> String {
    if pot.is_empty() {
        trade::pots(stands)
    } else {
        format!("{} of {pot}", trade::pots(stands))
    }
}

fn source(source: Source) -> &'static str {
    match source {
        Source::Here => "here already",
        Source::Bought => "bought",
        Source::Exchanged => "exchanged",
        Source::Seed => "from seed",
        Source::Flask => "from a flask",
    }
}

fn split(why: SplitWhy) -> &'static str {
    match why {
        SplitWhy::Moved => "moved",
        SplitWhy::Quarantined => "set apart",
        SplitWhy::Ill => "ill",
        SplitWhy::Sorted => "sorted out",
    }
}

fn gain(why: GainWhy) -> &'static str {
    match why {
        GainWhy::Offshoot => "an offshoot",
        GainWhy::CameApart => "came apart",
        GainWhy::Returned => "came back",
        GainWhy::Found => "found",
    }
}

/// How a product met the plants.
#[must_use]
pub fn method(method: Method) -> &'static str {
    match method {
        Method::Bath => "Bathed",
        Method::Plunge => "Plunged",
        Method::Drench => "Drenched",
        Method::Spray => "Sprayed",
        Method::Swab => "Swabbed",
        Method::DustCut => "Cuts dusted",
    }
}

/// A built-in protocol's name; the grower's own stands as typed.
#[must_use]
pub fn protocol(key: &str) -> String {
    match key {
        "after_dividing" => "After dividing".to_owned(),
        "after_potting_on" => "After potting on".to_owned(),
        "next_repot" => "Next repot of what stands here".to_owned(),
        "after_treatment" => "After a treatment".to_owned(),
        "bring_to_the_bench" => "Bring to the bench".to_owned(),
        "after_finding" => "After something was found".to_owned(),
        own => own.to_owned(),
    }
}
