//! The book as a list: what was recorded, newest first, with what was corrected shown as such.

use chrono::NaiveDate;

use crate::code::{LotCode, Prefix};
use crate::entry::Locked;
use crate::event::{Event, WithdrawWhy};
use crate::id::{EntryRef, LotId, PlaceId, Subject};
use crate::name::PlantName;
use crate::state::State;
use crate::time::{Stamp, minute_of_day};

use super::book_sieve::{Kind, Sieve};

/// One entry as the Book shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    pub entry: EntryRef,
    pub order: Stamp,
    pub on: NaiveDate,
    /// Corrected instant, and the civil minute of the day it was recorded.
    pub at_ms: i64,
    pub minute: u16,
    pub phone: Option<Prefix>,
    /// As it reads now; empty when locked.
    pub events: Vec<Event>,
    /// What it said first, where it was amended.
    pub amended_from: Vec<(u16, Event)>,
    pub withdrawn: Option<(EntryRef, WithdrawWhy)>,
    pub locked: Option<Locked>,
}

/// Which entries to show: all that is said here holds for each of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Filter<'a> {
    pub subject: Option<Subject>,
    /// Lots by any part of their name or by their code; empty for all.
    pub typed: &'a str,
    /// What was done at a place, and to the lots that stand there now.
    pub place: Option<PlaceId>,
    pub kind: Option<Kind>,
    /// Slips undone at once are folded away.
    pub hide_undone: bool,
}

/// The newest `most` entries that pass the filter.
#[must_use]
pub fn rows(state: &State, filter: Filter<'_>, most: usize) -> Vec<Row> {
    let log = state.log();
    let ids: Box<dyn Iterator<Item = EntryRef>> = match filter.subject {
        Some(subject) => Box::new(log.about(subject).rev().map(|place| place.id)),
        None => Box::new(log.in_order().rev().map(|entry| entry.id)),
    };
    let sieve = Sieve::new(state, filter);
    let shown = ids
        .filter(|id| {
            let entry = log.entry(*id);
            entry.is_some_and(|entry| sieve.lets_through(state, entry))
        })
        .filter_map(|id| row_of(state, id))
        .filter(|row| !filter.hide_undone || !is_slip(row));
    shown.take(most).collect()
}

/// Whether the entry is a slip of the finger or its undoing.
fn is_slip(row: &Row) -> bool {
    let undoes = |event: &Event| matches!(event, Event::Withdrawn(withdrawn) if withdrawn.why == WithdrawWhy::Undone);
    matches!(row.withdrawn, Some((_, WithdrawWhy::Undone)))
        || !row.events.is_empty() && row.events.iter().all(undoes)
}

/// One entry as a row; `None` when it is not in the log.
#[must_use]
pub fn row_of(state: &State, id: EntryRef) -> Option<Row> {
    let log = state.log();
    let entry = log.entry(id)?;
    let header = &entry.header;
    let phone = state.facts().phones.get(&id.dev);
    let mut events = Vec::new();
    let mut amended_from = Vec::new();
    for (index, event) in (0u16..).zip(entry.events.iter().flatten()) {
        match log.amendment(id, index) {
            Some((_, amended)) => {
                amended_from.push((index, event.clone()));
                events.push(amended.clone());
            }
            None => events.push(event.clone()),
        }
    }
    let at_ms = phone.map_or(header.at_ms, |phone| {
        phone.corrected_ms(id.seq, header.at_ms)
    });
    Some(Row {
        entry: id,
        order: header.order,
        on: header.on,
        at_ms,
        minute: minute_of_day(at_ms, header.off_min),
        phone: phone.and_then(|phone| phone.prefix.get().copied()),
        events,
        amended_from,
        withdrawn: withdrawn(state, id),
        locked: entry.events.as_ref().err().copied(),
    })
}

fn withdrawn(state: &State, id: EntryRef) -> Option<(EntryRef, WithdrawWhy)> {
    let log = state.log();
    if !log.is_withdrawn(id) {
        return None;
    }
    log.withdrawn_by(id)
        .filter(|by| !log.is_withdrawn(*by))
        .find_map(|by| {
            log.entry(by)?
                .events
                .iter()
                .flatten()
                .find_map(|event| match event {
                    Event::Withdrawn(withdrawn) if withdrawn.targets.contains(&id) => {
                        Some((by, withdrawn.why))
                    }
                    _ => None,
                })
        })
}

/// What a lot is called: as it stands, or as the entry that brought it in said, when that was withdrawn.
#[must_use]
pub fn lot_called(state: &State, id: LotId) -> (PlantName, Option<LotCode>) {
    let known = state.facts().lots.get(&id);
    if let Some(lot) = known.filter(|lot| lot.born.is_some()) {
        return (lot.name.or_default(), lot.code.get().copied());
    }
    let began = events_of(state, id.0.entry).find_map(|event| match event {
        Event::LotReceived(it) if it.lot == id => Some((it.name.clone(), Some(it.code))),
        Event::PiecesPotted(it) if it.lot == id => Some((it.name.clone(), Some(it.code))),
        Event::LotSplit(it) if it.lot == id => Some((it.name.clone(), Some(it.code))),
        _ => None,
    });
    began.unwrap_or_default()
}

/// What a place is called: as it stands, or as the entry that brought it in said, when that was withdrawn.
#[must_use]
pub fn place_called(state: &State, id: PlaceId) -> String {
    let known = state.facts().places.get(&id);
    if let Some(name) = known.and_then(|place| place.name.get()) {
        return name.clone();
    }
    let began = events_of(state, id.0.entry).find_map(|event| match event {
        Event::PlaceSet(it) if it.place == id => it.name.clone(),
        _ => None,
    });
    began.unwrap_or_default()
}

fn events_of(state: &State, id: EntryRef) -> impl Iterator<Item = &Event> {
    let entry = state.log().entry(id).into_iter();
    entry.flat_map(|entry| entry.events.iter().flatten())
}
