//! What of the book is looked for: a lot by name or code, a place, a kind of event.
//!
//! An entry about a clump belongs to the lots that went into it and came out of it; an entry that corrects or
//! withdraws another belongs where that one does.

use std::collections::BTreeSet;

use crate::entry::Entry;
use crate::event::{Event, SeenOn};
use crate::id::{PlaceId, Subject};
use crate::state::State;
use crate::text::{Question, fold};

use super::book::{Filter, lot_called};

/// Kinds of event a grower looks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Lots that came, moved, were counted, lost or sold.
    Lots,
    /// Work at the bench: clumps, pieces, pots.
    Potting,
    /// Water and feed.
    Water,
    Treated,
    /// Findings, and what plants do of themselves.
    Seen,
    /// Tasks decided, and the grower's own.
    Work,
    /// Places, pots, mixes, products, protocols, the nursery and its phones.
    Shed,
    /// What was corrected or withdrawn, and the entries that did it.
    PutRight,
}

impl Kind {
    pub const ALL: [Self; 8] = [
        Self::Lots,
        Self::Potting,
        Self::Water,
        Self::Treated,
        Self::Seen,
        Self::Work,
        Self::Shed,
        Self::PutRight,
    ];

    /// The kind of an event.
    #[must_use]
    pub fn of(event: &Event) -> Self {
        match event {
            Event::LotReceived(_)
            | Event::LotSplit(_)
            | Event::LotNamed(_)
            | Event::LotCoded(_)
            | Event::Moved(_)
            | Event::Counted(_)
            | Event::Lost(_)
            | Event::Sold(_)
            | Event::Gained(_)
            | Event::Reserved(_)
            | Event::Released(_) => Self::Lots,
            Event::Repotted(_)
            | Event::DivisionPlanned(_)
            | Event::DivisionOpened(_)
            | Event::PiecesTaken(_)
            | Event::PiecesPotted(_)
            | Event::DivisionClosed(_)
            | Event::HygieneConfirmed(_)
            | Event::Sanitised(_)
            | Event::MaterialsMoved(_) => Self::Potting,
            Event::Watered(_) | Event::Fed(_) => Self::Water,
            Event::Treated(_) | Event::BathTopped(_) | Event::BathEnded(_) => Self::Treated,
            Event::Found(_)
            | Event::Observed(_)
            | Event::ClimateRead(_)
            | Event::QuarantineEntered(_)
            | Event::QuarantineReleased(_)
            | Event::VirusTested(_) => Self::Seen,
            Event::TaskDecided(_) | Event::TaskNoted(_) => Self::Work,
            Event::BookOpened(_)
            | Event::BookSet(_)
            | Event::PhoneJoined(_)
            | Event::PhoneLeft(_)
            | Event::PlaceSet(_)
            | Event::PotSet(_)
            | Event::MixSet(_)
            | Event::MeasureSet(_)
            | Event::FeedSet(_)
            | Event::ProductSet(_)
            | Event::ContainerSet(_)
            | Event::ContainerCounted(_)
            | Event::ContainerUsed(_)
            | Event::GroupSet(_)
            | Event::RotationSet(_)
            | Event::PriceSet(_)
            | Event::ProtocolAdopted(_) => Self::Shed,
            Event::ClockCorrected(_)
            | Event::Amended(_)
            | Event::Withdrawn(_)
            | Event::Settled(_) => Self::PutRight,
        }
    }
}

/// A filter made ready: what was typed and chosen as the things it stands for.
pub(super) struct Sieve {
    /// Lots and clumps looked for; `None` when nothing was typed.
    lots: Option<BTreeSet<Subject>>,
    /// A place, with the lots that stand there now.
    place: Option<(PlaceId, BTreeSet<Subject>)>,
    kind: Option<Kind>,
}

impl Sieve {
    pub(super) fn new(state: &State, filter: Filter<'_>) -> Self {
        let facts = state.facts();
        let question = Question::new(filter.typed);
        let lots = (!question.is_empty()).then(|| lots_found(state, &question));
        let place = filter.place.map(|place| {
            let here = facts
                .live_lots()
                .filter(|(_, lot)| lot.place.get() == Some(&place));
            (place, here.map(|(id, _)| Subject::Lot(id)).collect())
        });
        Self {
            lots,
            place,
            kind: filter.kind,
        }
    }

    /// Whether an entry is one of those looked for.
    pub(super) fn lets_through(&self, state: &State, entry: &Entry) -> bool {
        self.of_lots(state, entry) && self.of_place(state, entry) && self.of_kind(state, entry)
    }

    fn of_lots(&self, state: &State, entry: &Entry) -> bool {
        let Some(lots) = &self.lots else { return true };
        entry.header.about.iter().any(|subject| match subject {
            Subject::Entry(target) => state
                .log()
                .entry(*target)
                .is_some_and(|target| target.header.about.iter().any(|one| lots.contains(one))),
            subject => lots.contains(subject),
        })
    }

    fn of_place(&self, state: &State, entry: &Entry) -> bool {
        let Some((place, lots)) = &self.place else {
            return true;
        };
        entry.header.about.iter().any(|one| lots.contains(one))
            || events(state, entry).any(|event| names(event, *place))
    }

    fn of_kind(&self, state: &State, entry: &Entry) -> bool {
        let Some(kind) = self.kind else { return true };
        events(state, entry).any(|event| Kind::of(event) == kind)
            || kind == Kind::PutRight && is_put_right(state, entry)
    }
}

/// Lots a question finds, by name or code, sold out and withdrawn ones too; and the clumps they were part of.
fn lots_found(state: &State, question: &Question) -> BTreeSet<Subject> {
    let facts = state.facts();
    let mut found: BTreeSet<Subject> = BTreeSet::new();
    for subject in state.log().subjects() {
        let Subject::Lot(id) = subject else { continue };
        let (name, code) = lot_called(state, id);
        let code = code.map(|code| code.to_string()).unwrap_or_default();
        let text = fold(&format!("{} {code}", name.plain()));
        if question.find_in(&text).is_some() {
            found.insert(subject);
        }
    }
    for (id, clump) in &facts.clumps {
        let into = clump.opened.iter().flat_map(|opened| &opened.lots);
        let mut lots = into
            .map(|opened| opened.lot)
            .chain(clump.lots.iter().copied());
        if lots.any(|lot| found.contains(&Subject::Lot(lot))) {
            found.insert(Subject::Clump(*id));
        }
    }
    found
}

/// The events of an entry as they read now.
fn events<'a>(state: &'a State, entry: &'a Entry) -> impl Iterator<Item = &'a Event> {
    let said = (0u16..).zip(entry.events.iter().flatten());
    said.map(|(index, event)| {
        let amended = state.log().amendment(entry.id, index);
        amended.map_or(event, |(_, amended)| amended)
    })
}

fn is_put_right(state: &State, entry: &Entry) -> bool {
    let log = state.log();
    let events = entry.events.iter().flatten();
    log.is_withdrawn(entry.id)
        || (0u16..)
            .zip(events)
            .any(|(index, _)| log.amendment(entry.id, index).is_some())
}

fn names(event: &Event, place: PlaceId) -> bool {
    let named = match event {
        Event::PlaceSet(it) => Some(it.place),
        Event::ClimateRead(it) => Some(it.place),
        Event::Watered(it) => it.place,
        Event::Fed(it) => it.place,
        Event::LotReceived(it) => it.place,
        Event::LotSplit(it) => it.place,
        Event::Moved(it) => Some(it.to),
        Event::DivisionOpened(it) => it.place,
        Event::PiecesPotted(it) => it.place,
        Event::Treated(it) => it.place,
        Event::TaskNoted(it) => it.place,
        Event::Found(it) => match it.on {
            SeenOn::Place(place) => Some(place),
            SeenOn::Lot(_) | SeenOn::Clump(_) => None,
        },
        Event::Amended(it) => return names(&it.event, place),
        _ => None,
    };
    named == Some(place)
}
