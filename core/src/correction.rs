//! A correction in hand: what an entry should have said.
//!
//! A correction replaces one event whole, with the same kind and about the same things; its day cannot be corrected.
//! Invariants: only the fields an event has are offered; a name left as it was typed keeps every part it had.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::climate::milli_of;
use crate::event::{Event, Fed};
use crate::id::PlaceId;
use crate::name::PlantName;
use crate::quantity::{Amount, Volume};
use crate::record::RecordTexts;
use crate::water::{MixedFor, mixed};

/// What a grower may put right in an event.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Correctable {
    pub plants: bool,
    pub stands: bool,
    pub name: bool,
    pub place: bool,
    pub note: bool,
    /// The words of a treatment's record.
    pub record: bool,
    /// Whether water ran through and took salts along.
    pub flush: bool,
    /// Parts of nitrogen and conductivity.
    pub fed: bool,
}

impl Correctable {
    /// Whether there is anything to put right.
    #[must_use]
    pub fn is_any(self) -> bool {
        self != Self::default()
    }
}

/// A correction being typed. Fields the event does not have are ignored.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Correction {
    #[serde(default)]
    pub version: u16,
    /// Which event of the entry.
    #[serde(default)]
    pub index: u16,
    #[serde(default)]
    pub plants: u32,
    #[serde(default)]
    pub stands: u32,
    #[serde(default)]
    pub name_typed: String,
    #[serde(default)]
    pub place: Option<PlaceId>,
    #[serde(default)]
    pub note: String,
    #[serde(default)]
    pub record: RecordTexts,
    #[serde(default)]
    pub flush: bool,
    #[serde(default)]
    pub ppm: String,
    #[serde(default)]
    pub ec: String,
    #[serde(default)]
    pub why: String,
}

/// What of an event may be put right here.
#[must_use]
pub fn correctable(event: &Event) -> Correctable {
    let counts = Correctable {
        plants: true,
        stands: true,
        ..Correctable::default()
    };
    match event {
        Event::LotReceived(_) => Correctable {
            name: true,
            place: true,
            note: true,
            ..counts
        },
        Event::PiecesPotted(_) => Correctable {
            name: true,
            place: true,
            ..counts
        },
        Event::LotSplit(_) => Correctable {
            place: true,
            ..counts
        },
        Event::Lost(_) | Event::Sold(_) | Event::Gained(_) => Correctable {
            note: true,
            ..counts
        },
        Event::Counted(_) => counts,
        Event::Repotted(_) => Correctable {
            stands: true,
            ..Correctable::default()
        },
        Event::LotNamed(_) => Correctable {
            name: true,
            ..Correctable::default()
        },
        Event::Moved(_) => Correctable {
            place: true,
            ..Correctable::default()
        },
        Event::Treated(_) => Correctable {
            note: true,
            record: true,
            ..Correctable::default()
        },
        Event::Watered(_) => Correctable {
            note: true,
            flush: true,
            ..Correctable::default()
        },
        Event::Fed(_) => Correctable {
            note: true,
            fed: true,
            ..Correctable::default()
        },
        Event::Found(_) | Event::Observed(_) | Event::DivisionClosed(_) => Correctable {
            note: true,
            ..Correctable::default()
        },
        _ => Correctable::default(),
    }
}

impl Correction {
    /// A correction that begins with what the event says now.
    #[must_use]
    pub fn of(index: u16, event: &Event) -> Self {
        let mut draft = Self {
            version: crate::draft::DRAFT_VERSION,
            index,
            ..Self::default()
        };
        match event {
            Event::LotReceived(it) => {
                draft.counts(it.plants, it.stands).named(&it.name);
                draft.place = it.place;
                draft.note.clone_from(&it.note);
            }
            Event::PiecesPotted(it) => {
                draft.counts(it.plants, it.stands).named(&it.name);
                draft.place = it.place;
            }
            Event::LotSplit(it) => {
                draft.counts(it.plants, it.stands);
                draft.place = it.place;
            }
            Event::Lost(it) => draft.counts(it.plants, it.stands).note.clone_from(&it.note),
            Event::Sold(it) => draft.counts(it.plants, it.stands).note.clone_from(&it.note),
            Event::Gained(it) => draft.counts(it.plants, it.stands).note.clone_from(&it.note),
            Event::Counted(it) => drop(draft.counts(it.plants, it.stands)),
            Event::Repotted(it) => draft.stands = it.stands,
            Event::LotNamed(it) => drop(draft.named(&it.name)),
            Event::Moved(it) => draft.place = Some(it.to),
            Event::Found(it) => draft.note.clone_from(&it.note),
            Event::Observed(it) => draft.note.clone_from(&it.note),
            Event::Treated(it) => {
                draft.note.clone_from(&it.note);
                draft.record = RecordTexts::of(it);
            }
            Event::DivisionClosed(it) => draft.note.clone_from(&it.note),
            Event::Watered(it) => {
                draft.note.clone_from(&it.note);
                draft.flush = it.flush;
            }
            Event::Fed(it) => {
                draft.note.clone_from(&it.note);
                draft.ppm = it
                    .nitrogen_ppm
                    .map_or_else(String::new, |it| it.to_string());
                draft.ec = it.ec_us_cm.map_or_else(String::new, ec_typed);
            }
            _ => {}
        }
        draft
    }

    /// The same, with times of day on the day of the entry.
    #[must_use]
    pub fn on_day(mut self, event: &Event, day: Option<(NaiveDate, i16)>) -> Self {
        if let (Event::Treated(it), Some((on, off_min))) = (event, day) {
            self.record = self.record.on_day(it, on, off_min);
        }
        self
    }

    fn counts(&mut self, plants: u32, stands: u32) -> &mut Self {
        (self.plants, self.stands) = (plants, stands);
        self
    }

    fn named(&mut self, name: &PlantName) -> &mut Self {
        self.name_typed = name.plain();
        self
    }

    fn name(&self, before: &PlantName) -> PlantName {
        if self.name_typed == before.plain() {
            before.clone()
        } else {
            PlantName::from_typed(&self.name_typed)
        }
    }

    /// The event as corrected; as it was where nothing of it can be corrected.
    #[must_use]
    pub fn applied(&self, event: &Event) -> Event {
        let mut event = event.clone();
        let note = self.note.trim();
        match &mut event {
            Event::LotReceived(it) => {
                (it.plants, it.stands) = (self.plants, self.stands);
                (it.name, it.place) = (self.name(&it.name), self.place);
                note.clone_into(&mut it.note);
            }
            Event::PiecesPotted(it) => {
                (it.plants, it.stands) = (self.plants, self.stands);
                (it.name, it.place) = (self.name(&it.name), self.place);
            }
            Event::LotSplit(it) => {
                (it.plants, it.stands) = (self.plants, self.stands);
                it.place = self.place;
            }
            Event::Lost(it) => {
                (it.plants, it.stands) = (self.plants, self.stands);
                note.clone_into(&mut it.note);
            }
            Event::Sold(it) => {
                (it.plants, it.stands) = (self.plants, self.stands);
                note.clone_into(&mut it.note);
            }
            Event::Gained(it) => {
                (it.plants, it.stands) = (self.plants, self.stands);
                note.clone_into(&mut it.note);
            }
            Event::Counted(it) => (it.plants, it.stands) = (self.plants, self.stands),
            Event::Repotted(it) => it.stands = self.stands,
            Event::LotNamed(it) => it.name = self.name(&it.name),
            Event::Moved(it) => it.to = self.place.unwrap_or(it.to),
            Event::Found(it) => note.clone_into(&mut it.note),
            Event::Observed(it) => note.clone_into(&mut it.note),
            Event::Treated(it) => {
                note.clone_into(&mut it.note);
                self.record.put_into(it);
            }
            Event::DivisionClosed(it) => note.clone_into(&mut it.note),
            Event::Watered(it) => {
                note.clone_into(&mut it.note);
                it.flush = self.flush;
            }
            Event::Fed(it) => {
                note.clone_into(&mut it.note);
                let ppm = read_again(&self.ppm, it.nitrogen_ppm, |text| text.parse().ok());
                if ppm != it.nitrogen_ppm {
                    it.nitrogen_ppm = ppm;
                    measured_again(it);
                }
                it.ec_us_cm = read_again(&self.ec, it.ec_us_cm, |text| {
                    u32::try_from(milli_of(text)?).ok()
                });
            }
            _ => {}
        }
        event
    }
}

/// What was measured for other parts of nitrogen was another amount.
fn measured_again(it: &mut Fed) {
    let (Some(nitrogen), Some(ppm), Some(ul)) = (it.feed.nitrogen, it.nitrogen_ppm, it.water_ul)
    else {
        return;
    };
    let made_up_to = Volume::from_ul(ul);
    let into = match it.injector {
        Some(times) => MixedFor::Stock { made_up_to, times },
        None => MixedFor::Can(made_up_to),
    };
    let amount = mixed(nitrogen, ppm, into).ok().map(|mixed| mixed.amount);
    (it.amount_ul, it.amount_mg) = match amount {
        Some(Amount::Volume(volume)) => (Some(volume.ul()), None),
        Some(Amount::Mass(mass)) => (None, Some(mass.mg())),
        None => (None, None),
    };
}

/// Microsiemens as they are typed, in millisiemens.
fn ec_typed(us_cm: u32) -> String {
    format!("{}.{:03}", us_cm / 1_000, us_cm % 1_000)
}

/// A figure as typed: none where the box was emptied, as it was where it cannot be read.
fn read_again(text: &str, was: Option<u32>, read: impl Fn(&str) -> Option<u32>) -> Option<u32> {
    match text.trim() {
        "" => None,
        text => read(text).or(was),
    }
}
