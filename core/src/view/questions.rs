//! What the book asks, with the entries on both sides and the commands that answer.
//!
//! Invariants: an answer is an ordinary command; saying a value again, knowing of both, ends a dispute on every phone.

use std::collections::BTreeSet;

use crate::command::{Command, ContainerTraits, PlaceTraits, ProductTraits};
use crate::event::{BookSet, ContainerSet, Event, GroupSet, ProductSet};
use crate::id::{EntryRef, LotId, Subject};
use crate::state::{Anomaly, FieldKey, State};

use super::book::{Row, row_of};

/// A question with what it rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    pub anomaly: Anomaly,
    pub sides: Vec<Side>,
    /// Lots to look at.
    pub lots: Vec<LotId>,
    /// Commands that would end the question, each by itself.
    pub mends: Vec<Command>,
}

/// One side of a question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Side {
    pub row: Row,
    /// Says this side's value again, knowing of both. `None` for the side that counts now: there settling is enough.
    pub again: Option<Command>,
}

/// Everything the book asks.
#[must_use]
pub fn questions(state: &State) -> Vec<Question> {
    let ask = |anomaly: Anomaly| {
        let (entries, field): (Vec<EntryRef>, _) = match &anomaly {
            Anomaly::CountCrossed { count, change, .. } => (vec![*count, *change], None),
            Anomaly::Disputed {
                field, kept, other, ..
            } => (vec![*kept, *other], Some(*field)),
            Anomaly::RestsOnWithdrawn { subject, entry } => {
                let begun = subject.thing().map(|thing| thing.entry);
                (begun.into_iter().chain([*entry]).collect(), None)
            }
            Anomaly::ClockAstray {
                dev,
                from_seq,
                to_seq,
                ..
            } => {
                let ends = BTreeSet::from([*from_seq, *to_seq]);
                let entry = |seq| EntryRef { dev: *dev, seq };
                (ends.into_iter().map(entry).collect(), None)
            }
            Anomaly::WroteAfterLeaving {
                dev,
                by,
                from_seq,
                to_seq,
            } => {
                let ends = BTreeSet::from([*from_seq, *to_seq]);
                let wrote = ends.into_iter().map(|seq| EntryRef { dev: *dev, seq });
                (std::iter::once(*by).chain(wrote).collect(), None)
            }
            Anomaly::ReservedTooMany { by, .. } => (by.clone(), None),
            Anomaly::Overdrawn { .. }
            | Anomaly::ContainerOverdrawn { .. }
            | Anomaly::PottedMoreThanTaken { .. }
            | Anomaly::CodeTwice { .. }
            | Anomaly::PrefixTwice { .. }
            | Anomaly::PhoneCopied { .. } => (Vec::new(), None),
        };
        let sides = entries.into_iter().filter_map(|entry| {
            let row = row_of(state, entry)?;
            let again = field
                .filter(|_| !matches!(&anomaly, Anomaly::Disputed { kept, .. } if *kept == entry))
                .and_then(|field| say_again(&row, anomaly.subject(), field));
            Some(Side { row, again })
        });
        Question {
            sides: sides.collect(),
            lots: lots(&anomaly),
            mends: mends(&anomaly),
            anomaly,
        }
    };
    state.anomalies().into_iter().map(ask).collect()
}

fn lots(anomaly: &Anomaly) -> Vec<LotId> {
    match anomaly {
        Anomaly::CodeTwice { lots, .. } => lots.clone(),
        other => match other.subject() {
            Subject::Lot(lot) => vec![lot],
            _ => Vec::new(),
        },
    }
}

/// Another code for either lot; a run of entries put back by what its clock was off.
fn mends(anomaly: &Anomaly) -> Vec<Command> {
    match anomaly {
        Anomaly::CodeTwice { lots, .. } => {
            let another = |lot: &LotId| Command::RecodeLot {
                lot: *lot,
                code: None,
            };
            lots.iter().map(another).collect()
        }
        Anomaly::ClockAstray {
            dev,
            from_seq,
            to_seq,
            off_ms,
        } => vec![Command::CorrectClock {
            dev: *dev,
            from_seq: *from_seq,
            to_seq: *to_seq,
            shift_ms: off_ms.saturating_neg(),
        }],
        _ => Vec::new(),
    }
}

/// The command that sets a field of a subject to what an entry said of it.
fn say_again(row: &Row, subject: Subject, field: FieldKey) -> Option<Command> {
    if field == FieldKey::Reading {
        return readings_again(row, subject);
    }
    let mut events = row.events.iter().rev();
    events.find_map(|event| {
        event
            .subjects()
            .contains(&subject)
            .then(|| command_of(event, subject, field))
            .flatten()
    })
}

/// Everything an entry read of a house, again.
fn readings_again(row: &Row, subject: Subject) -> Option<Command> {
    let Subject::Place(place) = subject else {
        return None;
    };
    let days: Vec<_> = row
        .events
        .iter()
        .filter_map(|event| match event {
            Event::ClimateRead(it) if it.place == place => {
                Some((it.read_on.unwrap_or(row.on), it.reading()))
            }
            _ => None,
        })
        .collect();
    (!days.is_empty()).then_some(Command::ReadClimate { place, days })
}

fn command_of(event: &Event, subject: Subject, field: FieldKey) -> Option<Command> {
    match (subject, field) {
        (Subject::Lot(lot), _) => of_lot(event, lot, field),
        (Subject::Place(_), _) => of_place(event, field),
        (Subject::Book, _) => of_book(event, field),
        (Subject::Pot(_), _) => match event {
            Event::PotSet(it) => Some(Command::SetPot {
                pot: Some(it.pot),
                name: it.name.clone().filter(|_| field == FieldKey::Name),
                form: it.form.filter(|_| field == FieldKey::Form),
                retired: None,
            }),
            _ => None,
        },
        (Subject::Measure(_), _) => match event {
            Event::MeasureSet(it) => Some(Command::SetMeasure {
                measure: Some(it.measure),
                traits: crate::command::MeasureTraits {
                    name: it.name.clone().filter(|_| field == FieldKey::Name),
                    graduation: it.graduation.filter(|_| field == FieldKey::Marks),
                    ..crate::command::MeasureTraits::default()
                },
            }),
            _ => None,
        },
        (Subject::Feed(_), _) => match event {
            Event::FeedSet(it) => Some(Command::SetFeed {
                feed: Some(it.feed),
                traits: crate::command::FeedTraits {
                    name: it.name.clone().filter(|_| field == FieldKey::Name),
                    nitrogen: it.nitrogen.filter(|_| field == FieldKey::Nitrogen),
                    ..crate::command::FeedTraits::default()
                },
            }),
            _ => None,
        },
        (Subject::Container(_), _) => match event {
            Event::ContainerSet(it) => Some(Command::SetContainer {
                container: Some(it.container),
                traits: container_again(it, field),
            }),
            _ => None,
        },
        (Subject::Product(_), _) => match event {
            Event::ProductSet(it) => product_again(it, field),
            _ => None,
        },
        (Subject::Mix(_), _) => match event {
            Event::MixSet(it) => Some(Command::SetMix {
                mix: Some(it.mix),
                name: it.name.clone().filter(|_| field == FieldKey::Name),
                shares: it.shares.clone().filter(|_| field == FieldKey::Shares),
                life_months: None,
                retired: None,
            }),
            _ => None,
        },
        _ => None,
    }
}

fn container_again(it: &ContainerSet, field: FieldKey) -> ContainerTraits {
    ContainerTraits {
        batch: it.batch.clone().filter(|_| field == FieldKey::Batch),
        expires_on: it.expires_on.filter(|_| field == FieldKey::Expiry),
        held: it.held().filter(|_| field == FieldKey::Held),
        ..ContainerTraits::default()
    }
}

fn product_again(it: &ProductSet, field: FieldKey) -> Option<Command> {
    let label_name = it.label_name.clone();
    let traits = ProductTraits {
        label_name: label_name.filter(|_| field == FieldKey::Name),
        rate_typed: it.rate_typed.clone().filter(|_| field == FieldKey::Rate),
        uses: it.uses.clone().filter(|_| field == FieldKey::Uses),
        reentry_h: it.reentry_h.filter(|_| field == FieldKey::Reentry),
        actives: it.actives.clone().filter(|_| field == FieldKey::Actives),
        registration: it
            .registration
            .clone()
            .filter(|_| field == FieldKey::Registration),
        formulation: it
            .formulation
            .clone()
            .filter(|_| field == FieldKey::Formulation),
        ..ProductTraits::default()
    };
    (traits != ProductTraits::default()).then_some(Command::SetProduct {
        product: Some(it.product),
        traits,
    })
}

fn of_lot(event: &Event, lot: LotId, field: FieldKey) -> Option<Command> {
    let (name, code, place) = match event {
        Event::LotReceived(it) => (Some(&it.name), Some(it.code), it.place),
        Event::PiecesPotted(it) => (Some(&it.name), Some(it.code), it.place),
        Event::LotSplit(it) => (Some(&it.name), Some(it.code), it.place),
        Event::LotNamed(it) => (Some(&it.name), None, None),
        Event::LotCoded(it) => (None, Some(it.code), None),
        Event::Moved(it) => (None, None, Some(it.to)),
        _ => return None,
    };
    match field {
        FieldKey::Name => name.map(|name| Command::NameLot {
            lot,
            name: name.clone(),
        }),
        FieldKey::Code => code.map(|code| Command::RecodeLot {
            lot,
            code: Some(code),
        }),
        FieldKey::Place => place.map(|to| Command::MoveLot { lot, to }),
        _ => None,
    }
}

fn of_place(event: &Event, field: FieldKey) -> Option<Command> {
    let Event::PlaceSet(it) = event else {
        return None;
    };
    let days = |water_days, feed_days| Command::SetPlace {
        place: Some(it.place),
        name: None,
        walk: None,
        about: PlaceTraits {
            water_days,
            feed_days,
            ..PlaceTraits::default()
        },
    };
    let set = |name, walk, warmth| Command::SetPlace {
        place: Some(it.place),
        name,
        walk,
        about: PlaceTraits {
            warmth,
            ..PlaceTraits::default()
        },
    };
    match field {
        FieldKey::Name => it.name.clone().map(|name| set(Some(name), None, None)),
        FieldKey::Walk => it.walk.map(|walk| set(None, Some(walk), None)),
        FieldKey::Warmth => it.warmth.map(|warmth| set(None, None, Some(warmth))),
        FieldKey::WaterDays => it.water_days.map(|it| days(Some(it), None)),
        FieldKey::FeedDays => it.feed_days.map(|it| days(None, Some(it))),
        _ => None,
    }
}

fn of_book(event: &Event, field: FieldKey) -> Option<Command> {
    match (event, field) {
        (Event::BookSet(it), FieldKey::OpenBag) => {
            return it.mix_open.clone().map(|open| {
                Command::SetBook(BookSet {
                    mix_open: Some(open),
                    ..BookSet::default()
                })
            });
        }
        (Event::BookSet(it), FieldKey::OpenLoad) => {
            return it.stone_open.clone().map(|load| {
                Command::SetBook(BookSet {
                    stone_open: Some(load),
                    ..BookSet::default()
                })
            });
        }
        (Event::BookSet(it), FieldKey::Money) => {
            return it.money.clone().map(|money| {
                Command::SetBook(BookSet {
                    money: Some(money),
                    ..BookSet::default()
                })
            });
        }
        (Event::PriceSet(it), FieldKey::Price) => {
            return Some(Command::SetPrice((**it).clone()));
        }
        (Event::GroupSet(it), FieldKey::WaterDays) => {
            let days = it.water_days?;
            return Some(Command::SetGroup(GroupSet {
                group: it.group,
                repot_windows: None,
                flowering_windows: None,
                light: None,
                water_days: Some(days),
            }));
        }
        _ => {}
    }
    let (nursery, hemisphere, latitude_cdeg) = match event {
        Event::BookOpened(it) => (
            Some(it.nursery.clone()),
            Some(it.hemisphere),
            it.latitude_cdeg,
        ),
        Event::BookSet(it) => (it.nursery.clone(), it.hemisphere, it.latitude_cdeg),
        _ => return None,
    };
    let set = match field {
        FieldKey::Nursery => BookSet {
            nursery,
            ..BookSet::default()
        },
        FieldKey::Hemisphere => BookSet {
            hemisphere,
            ..BookSet::default()
        },
        FieldKey::Latitude => BookSet {
            latitude_cdeg,
            ..BookSet::default()
        },
        _ => return None,
    };
    (set != BookSet::default()).then_some(Command::SetBook(set))
}
