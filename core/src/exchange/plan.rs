//! Planning what taking a file in would do. Nothing here changes the book.

use std::collections::{BTreeMap, BTreeSet};

use crate::entry::{LineHash, Marks};
use crate::event::VOCABULARY;
use crate::id::{Dev, EntryRef, Subject};
use crate::limits::{BOOK_ENTRIES_MAX, CLOCK_ASTRAY_MS};
use crate::log::{Inserted, Log};
use crate::state::State;
use crate::time::Moment;

use super::read::{FileFault, Incoming};
use super::write::FileHead;

/// What taking a file in would do.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// Lines to store, in the file's order.
    pub new: Vec<String>,
    /// Who wrote each of them, under the name it carries, and its hash.
    pub marks: Vec<(EntryRef, LineHash)>,
    pub known: usize,
    /// New ones that wait for others that are missing.
    pub waiting: usize,
    /// New ones written by a newer version: kept, passed on, not read.
    pub newer: usize,
    /// New ones dated later than this phone's clock by more than a day.
    pub from_the_future: usize,
    /// A phone was copied with its book and both wrote on.
    pub copied_phone: bool,
    /// Phones in the file that this book does not know yet.
    pub new_phones: usize,
    /// The book is empty: the file becomes the book.
    pub first: bool,
    /// It is the example: kept apart from real books wherever it goes.
    pub example: bool,
    /// Who wrote the file, and how far that phone held the book.
    pub by: Option<Dev>,
    pub heads: Marks,
    /// Work in hand that a rescued book brings along, for a phone that has none.
    pub drafts: BTreeMap<String, String>,
}

/// Whether a file is of this book, or there is none yet.
///
/// # Errors
/// [`FileFault::OtherBook`] or [`FileFault::Demo`] when it does not belong here.
pub fn belongs(state: &State, head: &FileHead) -> Result<(), FileFault> {
    let book = &state.facts().book;
    if state.log().is_empty() || book.book == Some(head.book) {
        return Ok(());
    }
    Err(if head.demo != book.demo {
        FileFault::Demo
    } else {
        FileFault::OtherBook {
            nursery: head.nursery.clone(),
        }
    })
}

/// What taking the file in would do to this book.
///
/// # Errors
/// Those of [`belongs`]; [`FileFault::OnlyAPart`] on a phone without a book; [`FileFault::TooManyEntries`].
pub fn plan(state: &State, at: &Moment, incoming: Incoming) -> Result<Plan, FileFault> {
    plan_within(state, at, incoming, BOOK_ENTRIES_MAX)
}

/// The same with another most of entries than a book's own.
///
/// # Errors
/// As [`plan`].
pub fn plan_within(
    state: &State,
    at: &Moment,
    incoming: Incoming,
    most: usize,
) -> Result<Plan, FileFault> {
    belongs(state, &incoming.head)?;
    let first = state.log().is_empty();
    let mut plan = Plan {
        first,
        example: incoming.head.demo,
        by: Some(incoming.head.by),
        heads: incoming.head.heads.clone(),
        ..Plan::default()
    };
    let now_ms = at.now_ms;
    let log = state.log();
    let told = went_on(log, &incoming);
    debug_assert!(
        told.as_ref()
            .is_none_or(|told| *told == tried_out(log, &incoming))
    );
    let tried = told.unwrap_or_else(|| tried_out(log, &incoming));
    let nothing_counts = tried.waiting == tried.new.len();
    if first && (nothing_counts || incoming.head.part && tried.waiting > 0) {
        return Err(FileFault::OnlyAPart);
    }
    let all = log.len().saturating_add(log.parked());
    if all.saturating_add(tried.new.len()) > most {
        return Err(FileFault::TooManyEntries { most });
    }
    if first {
        plan.drafts.clone_from(&incoming.head.drafts);
    }
    plan.known = incoming.lines.len().saturating_sub(tried.new.len());
    plan.copied_phone = tried.copied_phone;
    plan.waiting = tried.waiting;
    plan.new_phones = tried.new_phones;
    let mut new = tried.new.into_iter().peekable();
    for (at, (mark, line)) in incoming.marks.into_iter().zip(incoming.lines).enumerate() {
        if new.next_if_eq(&at).is_none() {
            continue;
        }
        plan.newer += usize::from(mark.needs > VOCABULARY);
        let ahead_ms = mark.at_ms.saturating_sub(now_ms);
        plan.from_the_future += usize::from(ahead_ms > CLOCK_ASTRAY_MS);
        plan.marks.push((mark.id, mark.hash));
        plan.new.push(line);
    }
    Ok(plan)
}

/// What putting the lines of a file into a log comes to.
#[derive(Debug, Default, PartialEq, Eq)]
struct Tried {
    /// Which lines are new, in their order.
    new: Vec<usize>,
    waiting: usize,
    new_phones: usize,
    copied_phone: bool,
}

/// The usual case, told without trying: no phone was ever copied, nothing waits, and each line is known or follows the
/// last one of its phone. `None` where that is not so.
fn went_on(log: &Log, incoming: &Incoming) -> Option<Tried> {
    if log.parked() > 0 || !log.copied_phones().is_empty() {
        return None;
    }
    let mut tried = Tried::default();
    let mut heads = log.marks();
    for (at, (mark, line)) in incoming.marks.iter().zip(&incoming.lines).enumerate() {
        if let Some(known) = log.line(mark.id) {
            if known != line {
                return None;
            }
            continue;
        }
        let follows = match heads.get(&mark.id.dev) {
            Some((seq, hash)) => seq.checked_add(1) == Some(mark.id.seq) && *hash == mark.prev,
            None => mark.id.seq == 1,
        };
        if !follows {
            return None;
        }
        let before = heads.insert(mark.id.dev, (mark.id.seq, mark.hash));
        tried.new_phones += usize::from(before.is_none());
        tried.new.push(at);
    }
    Some(tried)
}

/// Any case, tried on a copy of the log.
fn tried_out(log: &Log, incoming: &Incoming) -> Tried {
    let mut tried = Tried::default();
    let mut copy = log.clone();
    for (at, line) in incoming.lines.iter().enumerate() {
        match copy.insert(line) {
            Ok(Inserted::Known) | Err(_) => continue,
            Ok(Inserted::Forked) => tried.copied_phone = true,
            Ok(Inserted::Added(_) | Inserted::Parked) => {}
        }
        tried.new.push(at);
    }
    tried.waiting = copy.parked().saturating_sub(log.parked());
    let known: BTreeSet<Dev> = log.phones().collect();
    tried.new_phones = copy.phones().filter(|dev| !known.contains(dev)).count();
    tried
}

/// How many questions the book would ask anew, were these lines taken in.
#[must_use]
pub fn would_ask(state: &State, plan: &Plan) -> usize {
    let asked = |state: &State| -> BTreeSet<(Subject, String)> {
        let all = state.anomalies().into_iter();
        all.map(|anomaly| (anomaly.subject(), anomaly.key()))
            .collect()
    };
    if plan.new.is_empty() {
        return 0;
    }
    let mut then = state.clone();
    then.take_all(plan.new.iter().map(String::as_str));
    asked(&then).difference(&asked(state)).count()
}
