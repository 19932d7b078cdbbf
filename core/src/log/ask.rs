//! What can be asked of a log.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::entry::{Entry, LineHash, Marks};
use crate::event::{Amended, Event};
use crate::id::{Dev, EntryRef, Subject};
use crate::time::Stamp;

use super::{Chain, Fact, Gap, Log, Place};

impl Log {
    /// Number of entries in the log proper.
    #[must_use]
    pub fn len(&self) -> usize {
        self.order.len()
    }

    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.order.is_empty()
    }

    #[must_use]
    pub fn entry(&self, id: EntryRef) -> Option<&Entry> {
        self.chains.get(&id.dev)?.at(id.seq).map(|node| &node.entry)
    }

    /// The stored line of an entry, byte for byte.
    #[must_use]
    pub fn line(&self, id: EntryRef) -> Option<&str> {
        self.chains.get(&id.dev)?.at(id.seq).map(|node| &*node.line)
    }

    /// Entries from first to last.
    pub fn in_order(&self) -> impl DoubleEndedIterator<Item = &Entry> {
        self.order.iter().filter_map(|place| self.entry(place.id))
    }

    /// Places of the entries about a subject, from first to last.
    pub fn about(&self, subject: Subject) -> impl DoubleEndedIterator<Item = Place> + '_ {
        let places = self.about.get(&subject);
        places.into_iter().flat_map(|places| places.iter())
    }

    /// Whether any clock may have been astray; never false where one was, as long as no clock was corrected.
    pub(crate) fn clocks_in_doubt(&self) -> bool {
        self.clocks.in_doubt
    }

    /// Entries that any other speaks of withdrawing, whether or not that stands.
    pub(crate) fn spoken_of(&self) -> impl Iterator<Item = EntryRef> + '_ {
        self.withdrawals.keys().copied()
    }

    /// Every subject any entry is about.
    pub fn subjects(&self) -> impl Iterator<Item = Subject> + '_ {
        self.about.keys().copied()
    }

    /// Whether this is the last entry about the subject.
    #[must_use]
    pub fn is_last_about(&self, subject: Subject, id: EntryRef) -> bool {
        self.about
            .get(&subject)
            .and_then(|places| places.last())
            .is_some_and(|place| place.id == id)
    }

    /// The greatest stamp there is: what a new entry must exceed.
    #[must_use]
    pub fn latest(&self) -> Stamp {
        self.order
            .last()
            .map(|place| place.order)
            .unwrap_or_default()
    }

    /// Per phone, how far its entries are known without a gap.
    #[must_use]
    pub fn marks(&self) -> Marks {
        let last = |chain: &Chain| {
            chain
                .nodes
                .last()
                .map(|node| (node.entry.id.seq, node.hash))
        };
        self.chains
            .iter()
            .filter_map(|(name, chain)| Some((*name, last(chain)?)))
            .collect()
    }

    /// What a phone's next entry carries: its number, the hash before it, and what it has newly seen of others.
    #[must_use]
    pub fn next_of(&self, dev: Dev) -> (u32, LineHash, Marks) {
        let last = self.chains.get(&dev).and_then(|chain| chain.nodes.last());
        let known = last
            .map(|node| Arc::clone(&node.entry.seen))
            .unwrap_or_default();
        let news = self
            .marks()
            .into_iter()
            .filter(|(other, mark)| *other != dev && known.get(other) != Some(mark));
        match last {
            Some(node) => (
                node.entry.id.seq.saturating_add(1),
                node.hash,
                news.collect(),
            ),
            None => (1, LineHash(0), news.collect()),
        }
    }

    /// The name in this log of the branch that holds a phone's line of that number and hash.
    ///
    /// A phone that learns it was copied goes on under this name.
    #[must_use]
    pub fn name_of(&self, dev: Dev, seq: u32, hash: LineHash) -> Option<Dev> {
        let root = self.chains.get(&dev).map_or(dev, |chain| chain.root);
        self.branch_at(root, (seq, hash))
    }

    /// All stored lines by phone, parked ones last; the whole book.
    pub fn lines(&self) -> impl Iterator<Item = &str> {
        let kept = self
            .chains
            .values()
            .flat_map(|chain| chain.nodes.iter())
            .map(|node| &*node.line);
        kept.chain(self.parked.values().map(|line| &**line))
    }

    /// The first and the last number kept under a name.
    #[must_use]
    pub fn span_of(&self, dev: Dev) -> Option<(u32, u32)> {
        let chain = self.chains.get(&dev)?;
        chain.nodes.last()?;
        Some((chain.first, chain.next_seq().saturating_sub(1)))
    }

    /// Lines that wait for others.
    pub fn parked_lines(&self) -> impl Iterator<Item = &str> {
        self.parked.values().map(|line| &**line)
    }

    /// Lines of one phone from a number on.
    pub fn lines_of(&self, dev: Dev, from_seq: u32) -> impl Iterator<Item = &str> {
        let chain = self.chains.get(&dev);
        let nodes = chain.into_iter().flat_map(move |chain| {
            let before = from_seq.saturating_sub(chain.first);
            chain
                .nodes
                .from(usize::try_from(before).unwrap_or(usize::MAX))
        });
        nodes.map(|node| &*node.line)
    }

    /// Phones that have entries here, under the names of this log.
    pub fn phones(&self) -> impl Iterator<Item = Dev> + '_ {
        self.chains.keys().copied()
    }

    /// Whether a phone was copied together with its book.
    #[must_use]
    pub fn copied_phones(&self) -> Vec<(Dev, Dev)> {
        self.chains
            .iter()
            .filter(|(name, chain)| **name != chain.root)
            .map(|(name, chain)| (chain.root, *name))
            .collect()
    }

    #[must_use]
    pub fn parked(&self) -> usize {
        self.parked.len()
    }

    /// What is missing before parked entries.
    #[must_use]
    pub fn gaps(&self) -> Vec<Gap> {
        let mut gaps: BTreeMap<Dev, Gap> = BTreeMap::new();
        for (dev, seq, _) in self.parked.keys() {
            let from_seq = self.chains.get(dev).map_or(1, Chain::next_seq);
            let to_seq = seq.saturating_sub(1).max(from_seq);
            gaps.entry(*dev).or_insert(Gap {
                dev: *dev,
                from_seq,
                to_seq,
            });
        }
        gaps.into_values().collect()
    }

    /// Entries that withdraw this one, from first to last, whether or not they still stand.
    pub fn withdrawn_by(&self, id: EntryRef) -> impl Iterator<Item = EntryRef> + '_ {
        self.withdrawals
            .get(&id)
            .into_iter()
            .flatten()
            .map(|place| place.id)
    }

    /// Whether an entry is out of the reckoning. Only a later entry can withdraw; a withdrawal can be withdrawn.
    #[must_use]
    pub fn is_withdrawn(&self, id: EntryRef) -> bool {
        // Hardly any entry is spoken of.
        let (Some(places), Some(entry)) = (self.withdrawals.get(&id), self.entry(id)) else {
            return false;
        };
        let here = Place {
            order: entry.header.order,
            id,
        };
        places
            .iter()
            .any(|place| *place > here && !self.is_withdrawn(place.id))
    }

    /// The amendment in force for an event, if any.
    #[must_use]
    pub fn amendment(&self, id: EntryRef, index: u16) -> Option<(EntryRef, &Event)> {
        let amendments = self.amendments.get(&(id, index))?;
        let entry = self.entry(id)?;
        let here = Place {
            order: entry.header.order,
            id,
        };
        let original = entry.events.as_ref().ok()?.get(usize::from(index))?;
        amendments
            .iter()
            .rev()
            .filter(|(place, _)| *place > here && !self.is_withdrawn(place.id))
            .find_map(|(place, at)| {
                match self
                    .entry(place.id)?
                    .events
                    .as_ref()
                    .ok()?
                    .get(usize::from(*at))?
                {
                    Event::Amended(amended) if original.may_become(&amended.event) => {
                        Some((place.id, &*amended.event))
                    }
                    _ => None,
                }
            })
    }

    /// Everything an event was amended to, first to last; withdrawn amendments are left out.
    pub fn amendments_of(
        &self,
        id: EntryRef,
        index: u16,
    ) -> impl Iterator<Item = (EntryRef, &Amended)> {
        let entry = self.entry(id);
        let here = entry.map(|entry| Place {
            order: entry.header.order,
            id,
        });
        let original = entry
            .and_then(|entry| entry.events.as_ref().ok())
            .and_then(|events| events.get(usize::from(index)));
        let amendments = self.amendments.get(&(id, index)).into_iter().flatten();
        amendments
            .filter(move |(place, _)| here.is_some_and(|here| *place > here))
            .filter(|(place, _)| !self.is_withdrawn(place.id))
            .filter_map(move |(place, at)| {
                let events = self.entry(place.id)?.events.as_ref().ok()?;
                match events.get(usize::from(*at))? {
                    Event::Amended(amended) if original?.may_become(&amended.event) => {
                        Some((place.id, &**amended))
                    }
                    _ => None,
                }
            })
    }

    /// The events of an entry as they count now: nothing when withdrawn or locked, amended ones in their new form.
    pub fn facts(&self, id: EntryRef) -> impl Iterator<Item = Fact<'_>> {
        let entry = self.entry(id).filter(|_| !self.is_withdrawn(id));
        entry.into_iter().flat_map(move |entry| {
            (0u16..)
                .zip(entry.events.iter().flatten())
                .map(move |(index, event)| {
                    let event = self
                        .amendment(id, index)
                        .map_or(event, |(_, amended)| amended);
                    Fact {
                        entry,
                        index,
                        event,
                    }
                })
        })
    }

    /// Subjects whose facts change when this entry comes in, reaching through corrections to what they correct.
    #[must_use]
    pub fn touched_by(&self, id: EntryRef) -> BTreeSet<Subject> {
        let about = self.entry(id).map(|entry| &entry.header.about[..]);
        let about = about.unwrap_or_default();
        if !about
            .iter()
            .any(|subject| matches!(subject, Subject::Entry(_)))
        {
            return about.iter().copied().collect();
        }
        let mut touched = BTreeSet::new();
        let mut open = vec![id];
        let mut done = BTreeSet::new();
        while let Some(id) = open.pop() {
            if !done.insert(id) {
                continue;
            }
            for subject in self
                .entry(id)
                .map(|entry| &entry.header.about[..])
                .unwrap_or_default()
            {
                match subject {
                    Subject::Entry(target) => open.push(*target),
                    other => {
                        touched.insert(*other);
                    }
                }
            }
        }
        touched
    }

    /// Entries that speak of things an entry brought into the book: they cannot stand without it.
    #[must_use]
    pub fn resting_on(&self, id: EntryRef) -> BTreeSet<EntryRef> {
        let named_here = |subject: &Subject| subject.thing().is_some_and(|thing| thing.entry == id);
        let things = self
            .entry(id)
            .map(|entry| entry.header.about.iter().copied().filter(named_here));
        let places = things
            .into_iter()
            .flatten()
            .flat_map(|subject| self.about(subject));
        places
            .map(|place| place.id)
            .filter(|other| *other != id && !self.is_withdrawn(*other))
            .collect()
    }
}
