//! What another phone lacks, and what would be lost with this one.
//!
//! How far a phone holds the book is known from two places: its own entries say what it had seen when it wrote them, and
//! the files it wrote say so in their headers. Both are marks without a gap and with a hash, so that a mark of a copied
//! phone's other branch is not taken for one of this branch: where the hash does not fit, everything is sent again. Nobody
//! can be further with a phone's entries than that phone itself: a mark beyond this phone's own last number is of a copy
//! of it, though nothing here says yet that there is one.

use std::collections::{BTreeMap, BTreeSet};

use crate::code::Prefix;
use crate::entry::{LineHash, Marks};
use crate::id::{Dev, EntryRef};
use crate::log::Log;
use crate::state::State;
use crate::time::Moment;

use super::read::Incoming;

/// Another phone of the book, and what it lacks as far as is known here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Other {
    pub dev: Dev,
    pub prefix: Option<Prefix>,
    pub name: String,
    /// It was taken off the book.
    pub left: bool,
    pub lacks: usize,
    pub holds: Marks,
}

/// How far a phone is known to hold the book, by its own entries and by what a file it wrote told.
#[must_use]
pub fn held_by(log: &Log, dev: Dev, told: &Marks) -> Marks {
    let mut held = told.clone();
    if let Some((seq, hash)) = log.marks().get(&dev).copied() {
        let last = log.entry(EntryRef { dev, seq });
        let seen = last.map(|entry| Marks::clone(&entry.seen));
        join(&mut held, &seen.unwrap_or_default());
        join(&mut held, &Marks::from([(dev, (seq, hash))]));
    }
    held
}

/// Adds marks to marks, the further one where both have a phone.
pub fn join(held: &mut Marks, more: &Marks) {
    for (dev, mark) in more {
        let kept = held.entry(*dev).or_insert(*mark);
        if mark.0 > kept.0 {
            *kept = *mark;
        }
    }
}

/// From which number on each phone's lines are missing from what is held so far; `own` is this phone.
pub(super) fn missing_from(log: &Log, own: Dev, held: &Marks) -> Vec<(Dev, u32)> {
    let copied = !log.copied_phones().is_empty();
    let from = log.marks().into_iter().filter_map(|(dev, (last, _))| {
        let Some((seq, hash)) = held.get(&dev).copied() else {
            return Some((dev, 0));
        };
        let ours = log.line(EntryRef { dev, seq }).map(LineHash::of);
        match ours {
            Some(ours) if ours == hash => (seq < last).then(|| (dev, seq.saturating_add(1))),
            // It is further than this phone knows, on the only branch there is.
            None if seq > last && !copied && dev != own => None,
            _ => Some((dev, 0)),
        }
    });
    from.collect()
}

/// How many entries are not held so far.
#[must_use]
pub fn count_missing(log: &Log, own: Dev, held: &Marks) -> usize {
    count(log, missing_from(log, own, held))
}

fn count(log: &Log, missing: impl IntoIterator<Item = (Dev, u32)>) -> usize {
    let counts = missing.into_iter().filter_map(|(dev, from_seq)| {
        let (first, last) = log.span_of(dev)?;
        let count = last.checked_sub(from_seq.max(first))?.checked_add(1)?;
        usize::try_from(count).ok()
    });
    counts.sum()
}

/// Which entries lie in a file or a folder, under the names of a log.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Coverage(BTreeMap<Dev, BTreeSet<u32>>);

impl Coverage {
    /// Adds what a file holds, once its lines are in the log.
    pub fn add(&mut self, log: &Log, file: &Incoming) {
        for mark in &file.marks {
            let EntryRef { dev, seq } = mark.id;
            if let Some(name) = log.name_of(dev, seq, mark.hash) {
                self.0.entry(name).or_default().insert(seq);
            }
        }
    }

    /// Adds another's.
    pub fn join(&mut self, other: &Self) {
        for (dev, numbers) in &other.0 {
            self.0.entry(*dev).or_default().extend(numbers);
        }
    }

    /// How far it goes without a gap.
    #[must_use]
    pub fn marks(&self, log: &Log) -> Marks {
        let runs = self.0.iter().filter_map(|(dev, numbers)| {
            let (first, last) = log.span_of(*dev)?;
            let end = (first..=last)
                .take_while(|seq| numbers.contains(seq))
                .last()?;
            let entry = EntryRef {
                dev: *dev,
                seq: end,
            };
            Some((*dev, (end, LineHash::of(log.line(entry)?))))
        });
        runs.collect()
    }
}

/// The other phones of the book; `told` gives what a phone's last file told.
pub fn others(state: &State, at: &Moment, told: impl Fn(Dev) -> Marks) -> Vec<Other> {
    let log = state.log();
    let phones = state.facts().phones.iter();
    phones
        .filter(|(dev, _)| **dev != at.dev)
        .map(|(dev, phone)| {
            let holds = held_by(log, *dev, &told(*dev));
            Other {
                dev: *dev,
                prefix: phone.prefix.get().copied(),
                name: phone.name.clone(),
                left: phone.has_left(),
                lacks: count_missing(log, at.dev, &holds),
                holds,
            }
        })
        .collect()
}

/// How many entries lie on this phone alone: in no file it handed over, and on no other phone as far as is known.
#[must_use]
pub fn at_stake(state: &State, own: Dev, handed_over: &Marks, others: &[Other]) -> usize {
    let log = state.log();
    let others = others.iter().filter(|other| !other.left);
    let held = std::iter::once(handed_over).chain(others.map(|other| &other.holds));
    // Each by itself: the mark of a copy, though further, takes nothing from what is safe elsewhere.
    let missing = held.map(|held| -> BTreeMap<Dev, u32> {
        let missing = missing_from(log, own, held);
        missing.into_iter().collect()
    });
    let nowhere = missing.reduce(|all, these| {
        let from = all.into_iter();
        let both = from.filter_map(|(dev, seq)| Some((dev, seq.max(*these.get(&dev)?))));
        both.collect()
    });
    count(log, nowhere.unwrap_or_default())
}

/// How urgent it is to hand over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Urgency {
    /// Nothing would be lost with this phone.
    Nothing,
    Some,
    /// A day's work, or some of it for a week.
    Much,
}

/// A day's work in entries, and the days after which a single one is worth a word.
const MUCH_ENTRIES: usize = 40;
const MUCH_DAYS: i64 = 7;

/// How urgent it is, by what is at stake and the days since the last hand-over.
#[must_use]
pub fn urgency(at_stake: usize, days: Option<i64>) -> Urgency {
    match at_stake {
        0 => Urgency::Nothing,
        entries if entries >= MUCH_ENTRIES => Urgency::Much,
        _ if days.is_some_and(|days| days >= MUCH_DAYS) => Urgency::Much,
        _ => Urgency::Some,
    }
}
