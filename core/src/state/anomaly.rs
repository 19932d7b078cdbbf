//! What the facts contradict: questions for the grower, as data. The words are the screens'.
//!
//! An anomaly is computed, never stored; its key is a text that stays the same while the question does, so that an
//! answer (`Settled`) finds it on every phone. No anomaly is raised on subjects that are locked.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::code::{LotCode, Prefix};
use crate::event::{Event, PieceClass};
use crate::id::{ClumpId, ContainerId, Dev, EntryRef, LotId, Subject};

use super::shelf::settled_key;
use super::{Clump, Field, Lot, State};

/// A field two phones may set differently.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum FieldKey {
    Name,
    Code,
    Place,
    Walk,
    Nursery,
    Hemisphere,
    Latitude,
    Warmth,
    Form,
    Shares,
    Rate,
    Uses,
    Reentry,
    Actives,
    Registration,
    Formulation,
    Protocol,
    Windows,
    Reading,
    Marks,
    Batch,
    Expiry,
    Held,
    OpenBag,
    OpenLoad,
    WaterDays,
    FeedDays,
    Nitrogen,
    Price,
    Money,
}

/// Something only a person can answer.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum Anomaly {
    /// More left the lot than there was.
    Overdrawn {
        lot: LotId,
        plants: i64,
        stands: i64,
    },
    /// More is kept for somebody than there is.
    ReservedTooMany {
        lot: LotId,
        plants: i64,
        reserved: i64,
        by: Vec<EntryRef>,
    },
    /// A count and a change did not know of each other: was the change before or after the count?
    CountCrossed {
        lot: LotId,
        count: EntryRef,
        change: EntryRef,
    },
    /// Two phones set a field differently without knowing of each other.
    Disputed {
        subject: Subject,
        field: FieldKey,
        kept: EntryRef,
        other: EntryRef,
    },
    /// More pieces were potted than came off.
    PottedMoreThanTaken {
        clump: ClumpId,
        class: PieceClass,
        taken: u64,
        potted: u64,
    },
    /// One code on two lots.
    CodeTwice { code: LotCode, lots: Vec<LotId> },
    /// One prefix on two phones: codes may clash.
    PrefixTwice { prefix: Prefix, phones: Vec<Dev> },
    /// An entry speaks of a thing whose beginning was withdrawn.
    RestsOnWithdrawn { subject: Subject, entry: EntryRef },
    /// More was taken from a container than it held, in its own unit: it wants to be counted again.
    ContainerOverdrawn { container: ContainerId, over: i64 },
    /// A phone's clock was far from the order of its entries.
    ClockAstray {
        dev: Dev,
        from_seq: u32,
        to_seq: u32,
        off_ms: i64,
    },
    /// A phone that was taken off the book wrote on: before it knew, or in other hands.
    WroteAfterLeaving {
        dev: Dev,
        by: EntryRef,
        from_seq: u32,
        to_seq: u32,
    },
    /// A phone was copied together with its book and both wrote on.
    PhoneCopied { dev: Dev, branch: Dev },
}

impl Anomaly {
    /// Text key by which an answer finds the question.
    #[must_use]
    pub fn key(&self) -> String {
        match self {
            // The amount is part of it: overdrawn by another two is a new question.
            Self::Overdrawn { plants, stands, .. } => format!("overdrawn {plants} {stands}"),
            Self::ReservedTooMany {
                plants, reserved, ..
            } => format!("reserved_too_many {plants} {reserved}"),
            Self::CountCrossed { count, change, .. } => format!("count_crossed {count} {change}"),
            Self::Disputed {
                field, kept, other, ..
            } => format!("disputed {field:?} {kept} {other}"),
            Self::PottedMoreThanTaken {
                class,
                taken,
                potted,
                ..
            } => format!("potted_more {class:?} {taken} {potted}"),
            Self::CodeTwice { code, .. } => format!("code_twice {code}"),
            Self::PrefixTwice { prefix, .. } => format!("prefix_twice {prefix}"),
            Self::RestsOnWithdrawn { entry, .. } => format!("rests_on_withdrawn {entry}"),
            Self::ContainerOverdrawn { over, .. } => format!("container_overdrawn {over}"),
            Self::ClockAstray {
                from_seq, to_seq, ..
            } => format!("clock_astray {from_seq} {to_seq}"),
            Self::WroteAfterLeaving { by, .. } => format!("wrote_after_leaving {by}"),
            Self::PhoneCopied { branch, .. } => format!("phone_copied {branch}"),
        }
    }

    /// The subject an answer is written on.
    #[must_use]
    pub fn subject(&self) -> Subject {
        match self {
            Self::Overdrawn { lot, .. }
            | Self::ReservedTooMany { lot, .. }
            | Self::CountCrossed { lot, .. } => Subject::Lot(*lot),
            Self::Disputed { subject, .. } | Self::RestsOnWithdrawn { subject, .. } => *subject,
            Self::PottedMoreThanTaken { clump, .. } => Subject::Clump(*clump),
            Self::ContainerOverdrawn { container, .. } => Subject::Container(*container),
            Self::CodeTwice { .. } | Self::PrefixTwice { .. } => Subject::Book,
            Self::ClockAstray { dev, .. }
            | Self::WroteAfterLeaving { dev, .. }
            | Self::PhoneCopied { dev, .. } => Subject::Phone(*dev),
        }
    }
}

pub(super) fn all(state: &State) -> Vec<Anomaly> {
    let mut found = Vec::new();
    of_lots(state, &mut found);
    of_clumps(state, &mut found);
    of_shelf(state, &mut found);
    of_containers(state, &mut found);
    of_phones(state, &mut found);
    rests_on_withdrawn(state, &mut found);
    found.retain(|anomaly| {
        !state.facts.locked.contains_key(&anomaly.subject()) && !is_settled(state, anomaly)
    });
    found
}

/// Whether a lot's own facts contradict each other: only such a lot is asked about.
pub(super) fn is_odd(lot: &Lot) -> bool {
    lot.plants < 0
        || lot.stands < 0
        || lot.reserved() > lot.plants
        || !lot.crossed.is_empty()
        || lot.name.disputed_by().next().is_some()
        || lot.code.disputed_by().next().is_some()
        || lot.place.disputed_by().next().is_some()
}

/// The same of a clump.
pub(super) fn is_odd_clump(clump: &Clump) -> bool {
    let mut classes = clump.potted.keys();
    classes.any(|class| clump.potted_of(*class) > clump.taken_of(*class))
}

fn of_lots(state: &State, found: &mut Vec<Anomaly>) {
    let facts = &state.facts;
    let live = |id: &LotId| facts.lots.get(id).filter(|lot| lot.born.is_some());
    for (id, lot) in facts.odd_lots().filter_map(|id| Some((id, live(&id)?))) {
        if lot.plants < 0 || lot.stands < 0 {
            found.push(Anomaly::Overdrawn {
                lot: id,
                plants: lot.plants,
                stands: lot.stands,
            });
        }
        // Below nothing is a question of its own.
        let reserved = lot.reserved();
        if lot.plants >= 0 && reserved > lot.plants {
            found.push(Anomaly::ReservedTooMany {
                lot: id,
                plants: lot.plants,
                reserved,
                by: lot.reserved.keys().copied().collect(),
            });
        }
        let crossed = lot.crossed.iter();
        found.extend(crossed.map(|(count, change)| Anomaly::CountCrossed {
            lot: id,
            count: *count,
            change: *change,
        }));
        let subject = Subject::Lot(id);
        dispute(found, subject, FieldKey::Name, &lot.name);
        dispute(found, subject, FieldKey::Code, &lot.code);
        dispute(found, subject, FieldKey::Place, &lot.place);
    }
    for code in facts.codes_twice() {
        let lots = facts.lots_coded(code).filter(|id| live(id).is_some());
        let lots: Vec<LotId> = lots.collect();
        if lots.len() > 1 {
            found.push(Anomaly::CodeTwice { code, lots });
        }
    }
}

fn of_clumps(state: &State, found: &mut Vec<Anomaly>) {
    let clumps = &state.facts.clumps;
    let odd = state.facts.odd_clumps();
    for (id, clump) in odd.filter_map(|id| Some((id, clumps.get(&id)?))) {
        for class in PieceClass::ALL {
            let (taken, potted) = (clump.taken_of(class), clump.potted_of(class));
            if potted > taken {
                found.push(Anomaly::PottedMoreThanTaken {
                    clump: id,
                    class,
                    taken,
                    potted,
                });
            }
        }
    }
}

fn of_shelf(state: &State, found: &mut Vec<Anomaly>) {
    let facts = &state.facts;
    dispute(found, Subject::Book, FieldKey::Nursery, &facts.book.nursery);
    dispute(
        found,
        Subject::Book,
        FieldKey::Hemisphere,
        &facts.book.hemisphere,
    );
    dispute(
        found,
        Subject::Book,
        FieldKey::Latitude,
        &facts.book.latitude_cdeg,
    );
    for open in facts.book.mix_open.values() {
        dispute(found, Subject::Book, FieldKey::OpenBag, open);
    }
    let load = &facts.book.stone_open;
    dispute(found, Subject::Book, FieldKey::OpenLoad, load);
    dispute(found, Subject::Book, FieldKey::Money, &facts.book.money);
    for price in facts.book.prices.values() {
        dispute(found, Subject::Book, FieldKey::Price, &price.pack);
        dispute(found, Subject::Book, FieldKey::Price, &price.cents);
    }
    for group in facts.book.groups.values() {
        dispute(found, Subject::Book, FieldKey::WaterDays, &group.water_days);
        dispute(
            found,
            Subject::Book,
            FieldKey::Windows,
            &group.repot_windows,
        );
    }
    for (id, place) in &facts.places {
        dispute(found, Subject::Place(*id), FieldKey::Name, &place.name);
        dispute(found, Subject::Place(*id), FieldKey::Walk, &place.walk);
        dispute(found, Subject::Place(*id), FieldKey::Warmth, &place.warmth);
        dispute(
            found,
            Subject::Place(*id),
            FieldKey::WaterDays,
            &place.water_days,
        );
        dispute(
            found,
            Subject::Place(*id),
            FieldKey::FeedDays,
            &place.feed_days,
        );
        let read = place.house.disputed().into_iter();
        found.extend(read.map(|(kept, other)| Anomaly::Disputed {
            subject: Subject::Place(*id),
            field: FieldKey::Reading,
            kept,
            other,
        }));
    }
    for (id, pot) in &facts.pots {
        dispute(found, Subject::Pot(*id), FieldKey::Name, &pot.name);
        dispute(found, Subject::Pot(*id), FieldKey::Form, &pot.form);
    }
    for (id, mix) in &facts.mixes {
        dispute(found, Subject::Mix(*id), FieldKey::Name, &mix.name);
        dispute(found, Subject::Mix(*id), FieldKey::Shares, &mix.shares);
    }
    for (id, measure) in &facts.measures {
        let subject = Subject::Measure(*id);
        dispute(found, subject, FieldKey::Name, &measure.name);
        dispute(found, subject, FieldKey::Marks, &measure.graduation);
    }
    for (id, feed) in &facts.feeds {
        dispute(found, Subject::Feed(*id), FieldKey::Name, &feed.name);
        dispute(
            found,
            Subject::Feed(*id),
            FieldKey::Nitrogen,
            &feed.nitrogen,
        );
    }
    for (id, product) in &facts.products {
        let subject = Subject::Product(*id);
        dispute(found, subject, FieldKey::Name, &product.label_name);
        dispute(found, subject, FieldKey::Rate, &product.rate_typed);
        // The hours until somebody may go back in, and what it does to whom, rest on these.
        dispute(found, subject, FieldKey::Uses, &product.uses);
        dispute(found, subject, FieldKey::Reentry, &product.reentry_h);
        dispute(found, subject, FieldKey::Actives, &product.actives);
        let registration = &product.registration;
        dispute(found, subject, FieldKey::Registration, registration);
        let formulation = &product.formulation;
        dispute(found, subject, FieldKey::Formulation, formulation);
    }
    for (id, protocol) in &facts.protocols {
        if let Some(current) = protocol.current() {
            let others = protocol.disputed.iter();
            found.extend(others.map(|other| Anomaly::Disputed {
                subject: Subject::Protocol(*id),
                field: FieldKey::Protocol,
                kept: current.entry,
                other: *other,
            }));
        }
    }
}

fn of_containers(state: &State, found: &mut Vec<Anomaly>) {
    if state.facts.containers.is_empty() {
        return;
    }
    for (id, level) in super::containers::levels(state) {
        let Some(known) = state.facts.containers.get(&id) else {
            continue;
        };
        let subject = Subject::Container(id);
        dispute(found, subject, FieldKey::Batch, &known.batch);
        dispute(found, subject, FieldKey::Expiry, &known.expires_on);
        dispute(found, subject, FieldKey::Held, &known.held);
        let over = level.left.map_or(0, i64::saturating_neg);
        if over > 0 && !known.retired.or_default() {
            found.push(Anomaly::ContainerOverdrawn {
                container: id,
                over,
            });
        }
    }
}

fn of_phones(state: &State, found: &mut Vec<Anomaly>) {
    let mut prefixes: BTreeMap<Prefix, Vec<Dev>> = BTreeMap::new();
    for (dev, phone) in &state.facts.phones {
        if let Some(prefix) = phone.prefix.get() {
            prefixes.entry(*prefix).or_default().push(*dev);
        }
    }
    let twice = prefixes.into_iter().filter(|(_, phones)| phones.len() > 1);
    found.extend(twice.map(|(prefix, phones)| Anomaly::PrefixTwice { prefix, phones }));
    found.extend(
        state
            .log
            .copied_phones()
            .into_iter()
            .map(|(dev, branch)| Anomaly::PhoneCopied { dev, branch }),
    );
    found.extend(after_leaving(state));
    found.extend(super::clock::astray(state));
}

fn after_leaving(state: &State) -> Vec<Anomaly> {
    let left = state.facts.phones.iter();
    let left = left.filter_map(|(dev, phone)| Some((*dev, phone.left?)));
    let left: Vec<_> = left.collect();
    if left.is_empty() {
        return Vec::new();
    }
    let marks = state.log.marks();
    let wrote = left.into_iter().filter_map(|(dev, left)| {
        let to_seq = marks.get(&dev).map(|(seq, _)| *seq)?;
        (to_seq > left.known).then(|| Anomaly::WroteAfterLeaving {
            dev,
            by: left.by,
            from_seq: left.known.saturating_add(1),
            to_seq,
        })
    });
    wrote.collect()
}

fn rests_on_withdrawn(state: &State, found: &mut Vec<Anomaly>) {
    let log = &state.log;
    let withdrawn = log.spoken_of().filter(|id| log.is_withdrawn(*id));
    let brought: BTreeSet<Subject> = withdrawn
        .filter_map(|id| log.entry(id))
        .flat_map(|entry| {
            let about = entry.header.about.iter().copied();
            about.filter(|subject| subject.thing().is_some_and(|thing| thing.entry == entry.id))
        })
        .collect();
    for subject in brought {
        let Some(thing) = subject.thing() else {
            continue;
        };
        let standing = log
            .about(subject)
            .map(|place| place.id)
            .filter(|id| *id != thing.entry && !log.is_withdrawn(*id))
            .filter(|id| !only_settles(state, *id));
        found.extend(standing.map(|entry| Anomaly::RestsOnWithdrawn { subject, entry }));
    }
}

/// An answer to a question does not itself rest on what it is about.
fn only_settles(state: &State, id: EntryRef) -> bool {
    let mut events = state
        .log
        .entry(id)
        .into_iter()
        .flat_map(|entry| entry.events.iter().flatten());
    events.next().is_some_and(|first| {
        std::iter::once(first)
            .chain(events)
            .all(|event| matches!(event, Event::Settled(_)))
    })
}

fn dispute<T: Clone + PartialEq>(
    found: &mut Vec<Anomaly>,
    subject: Subject,
    field: FieldKey,
    value: &Field<T>,
) {
    if let Some(kept) = value.set_by() {
        found.extend(value.disputed_by().map(|other| Anomaly::Disputed {
            subject,
            field,
            kept,
            other,
        }));
    }
}

fn is_settled(state: &State, anomaly: &Anomaly) -> bool {
    let facts = &state.facts;
    let key = anomaly.key();
    let settled = match anomaly.subject() {
        Subject::Lot(id) => facts.lots.get(&id).map(|lot| &lot.settled),
        Subject::Clump(id) => facts.clumps.get(&id).map(|clump| &clump.settled),
        Subject::Place(id) => facts.places.get(&id).map(|place| &place.settled),
        Subject::Protocol(id) => facts.protocols.get(&id).map(|protocol| &protocol.settled),
        Subject::Phone(dev) => facts.phones.get(&dev).map(|phone| &phone.settled),
        other => {
            let key = settled_key(other, &key);
            return facts.book.settled.contains(&key);
        }
    };
    settled.is_some_and(|settled| settled.contains(&key))
}
