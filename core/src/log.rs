//! The log: every entry there is, by phone and in one order.
//!
//! Invariants. Joining two logs is the union of their lines: no order of arrival, repetition or detour changes what
//! the log holds or in which order it reads. Of each phone only the run without a gap is in the log proper; lines
//! beyond a gap are parked until the gap closes. Nothing is ever taken out.
//!
//! A phone that was copied together with its book writes on under the same name, and two different lines claim one
//! number. From there the numbering is a tree. The branch whose first line comes earlier keeps the name; the other is
//! kept under [`Dev::of_branch`]. Names depend on the lines alone, so every phone finds the same ones; ids in entries
//! that mean the renamed branch are renamed as they are read. This is rare, so it is done by reading the whole log anew.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::entry::{self, Entry, Header, LineHash, Marks, NotAnEntry};
use crate::event::{Event, Withdrawn};
use crate::id::{Dev, EntryRef, Subject};
use crate::time::Stamp;

/// Where an entry stands in the one order of all entries.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    pub order: Stamp,
    pub id: EntryRef,
}

/// An event where it counts: in its entry, as it reads after corrections.
#[derive(Clone, Copy, Debug)]
pub struct Fact<'a> {
    pub entry: &'a Entry,
    pub index: u16,
    pub event: &'a Event,
}

impl Fact<'_> {
    /// Whether the writer of this fact knew that entry.
    #[must_use]
    pub fn knew(&self, other: EntryRef) -> bool {
        knew(self.entry, other)
    }
}

/// Whether the writer of `entry` knew `other`.
#[must_use]
pub fn knew(entry: &Entry, other: EntryRef) -> bool {
    entry.id.dev == other.dev && entry.id.seq >= other.seq
        || entry
            .seen
            .get(&other.dev)
            .is_some_and(|(seq, _)| *seq >= other.seq)
}

#[derive(Clone, Debug)]
struct Node {
    line: Arc<str>,
    hash: LineHash,
    entry: Entry,
    /// What the phone had seen, under the names it used; `entry.seen` has the names of this log.
    named: Arc<Marks>,
}

/// The entries kept under one name.
#[derive(Clone, Debug)]
struct Chain {
    /// Name the lines themselves carry.
    root: Dev,
    /// Last entry shared with the branch this one left, if it did.
    base: Option<EntryRef>,
    /// Number of the first node.
    first: u32,
    nodes: Vec<Node>,
}

impl Chain {
    fn at(&self, seq: u32) -> Option<&Node> {
        self.nodes
            .get(usize::try_from(seq.checked_sub(self.first)?).ok()?)
    }

    fn next_seq(&self) -> u32 {
        self.first
            .saturating_add(u32::try_from(self.nodes.len()).unwrap_or(u32::MAX))
    }
}

/// What became of a line that was put in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Inserted {
    /// It was there already.
    Known,
    /// It and perhaps parked ones after it are in the log now.
    Added(Vec<EntryRef>),
    /// Entries before it are missing; it waits.
    Parked,
    /// A copied phone was found: names changed and everything must be folded anew.
    Forked,
}

/// Entries missing between what is known of a phone and what waits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Gap {
    pub dev: Dev,
    pub from_seq: u32,
    pub to_seq: u32,
}

/// All entries.
#[derive(Clone, Debug, Default)]
pub struct Log {
    chains: BTreeMap<Dev, Chain>,
    parked: BTreeMap<(Dev, u32, LineHash), Arc<str>>,
    order: BTreeSet<Place>,
    about: BTreeMap<Subject, BTreeSet<Place>>,
    withdrawals: BTreeMap<EntryRef, BTreeSet<Place>>,
    amendments: BTreeMap<(EntryRef, u16), BTreeSet<(Place, u16)>>,
}

impl Log {
    /// Puts a line in.
    ///
    /// # Errors
    /// [`NotAnEntry`] when it is not an entry; the log is unchanged.
    pub fn insert(&mut self, line: &str) -> Result<Inserted, NotAnEntry> {
        let header = entry::read_header(line)?;
        let mut added = Vec::new();
        match self.attach(line, &header) {
            Attached::Known => return Ok(Inserted::Known),
            Attached::Parked => return Ok(Inserted::Parked),
            Attached::Fork => {
                self.rebuild_with(line);
                return Ok(Inserted::Forked);
            }
            Attached::To(id) => added.push(id),
        }
        while let Some((line, header)) = self.take_ready(&mut added) {
            match self.attach(&line, &header) {
                Attached::To(id) => added.push(id),
                Attached::Fork => {
                    self.rebuild_with(&line);
                    return Ok(Inserted::Forked);
                }
                Attached::Known | Attached::Parked => {}
            }
        }
        Ok(Inserted::Added(added))
    }

    /// A parked line that the newest added entry was waiting for.
    fn take_ready(&mut self, added: &mut [EntryRef]) -> Option<(Arc<str>, Header)> {
        let last = added.last()?;
        let root = self.chains.get(&last.dev)?.root;
        let next = last.seq.checked_add(1)?;
        for name in [last.dev, root] {
            let key = self
                .parked
                .range((name, next, LineHash(0))..=(name, next, LineHash(u32::MAX)))
                .next()
                .map(|(key, _)| *key);
            if let Some(key) = key {
                let line = self.parked.remove(&key)?;
                let header = entry::read_header(&line).ok()?;
                return Some((line, header));
            }
        }
        None
    }

    fn attach(&mut self, line: &str, header: &Header) -> Attached {
        let hash = LineHash::of(line);
        let root = self
            .chains
            .get(&header.dev)
            .map_or(header.dev, |chain| chain.root);
        let family = self.chains.iter().filter(|(_, chain)| chain.root == root);
        let mut home = None;
        for (name, chain) in family {
            if chain
                .at(header.seq)
                .is_some_and(|node| node.hash == hash && *node.line == *line)
            {
                return Attached::Known;
            }
            let before = header.seq.checked_sub(1).filter(|seq| *seq > 0);
            let follows = match before {
                Some(before) => chain
                    .at(before)
                    .is_some_and(|node| node.hash == header.prev),
                None => chain.base.is_none(),
            };
            if follows {
                home = Some((*name, chain.next_seq() > header.seq));
            }
        }
        match home {
            Some((_, true)) => Attached::Fork,
            Some((name, false)) => self.push(name, line, hash, header.clone()),
            None if header.seq == 1 => {
                let chain = Chain {
                    root: header.dev,
                    base: None,
                    first: 1,
                    nodes: Vec::new(),
                };
                self.chains.insert(header.dev, chain);
                self.push(header.dev, line, hash, header.clone())
            }
            None => {
                self.parked
                    .insert((header.dev, header.seq, hash), line.into());
                Attached::Parked
            }
        }
    }

    fn push(&mut self, name: Dev, line: &str, hash: LineHash, header: Header) -> Attached {
        let before = self
            .chains
            .get(&name)
            .and_then(|chain| match chain.nodes.last() {
                Some(node) => Some(node),
                None => self.node(chain.base?),
            });
        let (entry, named) = self.read(name, line, header, before);
        let id = entry.id;
        self.index(&entry);
        if let Some(chain) = self.chains.get_mut(&name) {
            chain.nodes.push(Node {
                line: line.into(),
                hash,
                entry,
                named,
            });
        }
        Attached::To(id)
    }

    /// Reads a line that follows `before` in the chain of that name.
    fn read(
        &self,
        name: Dev,
        line: &str,
        mut header: Header,
        before: Option<&Node>,
    ) -> (Entry, Arc<Marks>) {
        let id = EntryRef {
            dev: name,
            seq: header.seq,
        };
        let named = before
            .map(|node| Arc::clone(&node.named))
            .unwrap_or_default();
        let seen = before
            .map(|node| Arc::clone(&node.entry.seen))
            .unwrap_or_default();
        let forked = self.chains.values().any(|chain| chain.base.is_some());
        let (named, seen) = if header.seen.is_empty() {
            (named, seen)
        } else {
            let marks = if forked {
                self.rename_marks(&header.seen)
            } else {
                header.seen.clone()
            };
            (
                Arc::new(joined(&named, &header.seen)),
                Arc::new(joined(&seen, &marks)),
            )
        };
        let rename = |target: EntryRef| self.branch_of(name, &named, target);
        if forked {
            entry::rename_about(&mut header.about, &rename);
        }
        let events = entry::read_events(line, &header, if forked { Some(&rename) } else { None });
        (
            Entry {
                id,
                header,
                seen,
                events,
            },
            named,
        )
    }

    fn node(&self, id: EntryRef) -> Option<&Node> {
        self.chains.get(&id.dev)?.at(id.seq)
    }

    /// What a phone in branch `writer`, knowing `seen`, meant by an entry's name.
    fn branch_of(&self, writer: Dev, seen: &Marks, target: EntryRef) -> EntryRef {
        let Some(root) = self.chains.get(&target.dev).map(|chain| chain.root) else {
            return target;
        };
        let own = self
            .chains
            .get(&writer)
            .is_some_and(|chain| chain.root == root);
        let start = if own {
            Some(writer)
        } else {
            seen.get(&target.dev)
                .and_then(|mark| self.branch_at(root, *mark))
        };
        let mut at = start;
        while let Some((name, chain)) = at.and_then(|name| Some((name, self.chains.get(&name)?))) {
            if target.seq >= chain.first {
                return EntryRef {
                    dev: name,
                    seq: target.seq,
                };
            }
            at = chain.base.map(|base| base.dev);
        }
        target
    }

    fn branch_at(&self, root: Dev, (seq, hash): (u32, LineHash)) -> Option<Dev> {
        let in_family = |chain: &Chain| {
            chain.root == root && chain.at(seq).is_some_and(|node| node.hash == hash)
        };
        self.chains
            .iter()
            .find(|(_, chain)| in_family(chain))
            .map(|(name, _)| *name)
    }

    /// Marks under the names of this log: knowing a branch is knowing what it left at that point.
    fn rename_marks(&self, seen: &Marks) -> Marks {
        let mut renamed = Marks::new();
        for (dev, mark) in seen {
            let root = self.chains.get(dev).map_or(*dev, |chain| chain.root);
            let mut at = Some((self.branch_at(root, *mark).unwrap_or(*dev), *mark));
            while let Some((name, mark)) = at {
                let kept = renamed.entry(name).or_insert(mark);
                if mark.0 > kept.0 {
                    *kept = mark;
                }
                at = self
                    .chains
                    .get(&name)
                    .and_then(|chain| chain.base)
                    .and_then(|base| {
                        let hash = self.chains.get(&base.dev)?.at(base.seq)?.hash;
                        Some((base.dev, (base.seq, hash)))
                    });
            }
        }
        renamed
    }

    fn index(&mut self, entry: &Entry) {
        let place = Place {
            order: entry.header.order,
            id: entry.id,
        };
        self.order.insert(place);
        for subject in &entry.header.about {
            self.about.entry(*subject).or_default().insert(place);
        }
        for (index, event) in (0u16..).zip(entry.events.iter().flatten()) {
            match event {
                Event::Withdrawn(Withdrawn { targets, .. }) => {
                    for target in targets {
                        self.withdrawals.entry(*target).or_default().insert(place);
                    }
                }
                Event::Amended(amended) => {
                    self.amendments
                        .entry((amended.target, amended.index))
                        .or_default()
                        .insert((place, index));
                }
                _ => {}
            }
        }
    }

    /// Builds the whole log anew with one more line, forks included.
    fn rebuild_with(&mut self, line: &str) {
        let mut lines: Vec<(u32, Stamp, Arc<str>)> = Vec::new();
        let nodes = self
            .chains
            .values()
            .flat_map(|chain| &chain.nodes)
            .map(|node| Arc::clone(&node.line));
        for line in nodes
            .chain(self.parked.values().cloned())
            .chain(std::iter::once(line.into()))
        {
            if let Ok(header) = entry::read_header(&line) {
                lines.push((header.seq, header.order, line));
            }
        }
        lines.sort();
        *self = Self::default();
        let mut headers: Vec<(Header, Arc<str>)> = lines
            .into_iter()
            .filter_map(|(_, _, line)| entry::read_header(&line).ok().map(|header| (header, line)))
            .collect();
        // First the shape of the tree, then the reading: an entry may mean a branch that is found later.
        loop {
            let before = headers.len();
            headers.retain(|(header, line)| !self.grow(line, header));
            if headers.len() == before {
                break;
            }
        }
        for (header, line) in headers {
            self.parked
                .insert((header.dev, header.seq, LineHash::of(&line)), line);
        }
        self.read_all_anew();
    }

    /// Adds a line to the shape of the tree, opening a branch where needed; false when its predecessor is missing.
    fn grow(&mut self, line: &Arc<str>, header: &Header) -> bool {
        let hash = LineHash::of(line);
        let root = self
            .chains
            .get(&header.dev)
            .map_or(header.dev, |chain| chain.root);
        let mut home = None;
        for (name, chain) in self.chains.iter().filter(|(_, chain)| chain.root == root) {
            if chain.at(header.seq).is_some_and(|node| node.hash == hash) {
                return true;
            }
            let follows = match header.seq {
                1 => chain.base.is_none(),
                seq => chain
                    .at(seq - 1)
                    .is_some_and(|node| node.hash == header.prev),
            };
            if follows {
                home = Some((*name, chain.next_seq() == header.seq));
            }
        }
        let (name, fresh) = match home {
            Some((name, true)) => (name, None),
            Some((name, false)) => {
                let base = header
                    .seq
                    .checked_sub(1)
                    .filter(|seq| *seq > 0)
                    .map(|seq| EntryRef { dev: name, seq });
                (
                    name.of_branch(line),
                    Some(Chain {
                        root,
                        base,
                        first: header.seq,
                        nodes: Vec::new(),
                    }),
                )
            }
            None if header.seq == 1 => (
                header.dev,
                Some(Chain {
                    root: header.dev,
                    base: None,
                    first: 1,
                    nodes: Vec::new(),
                }),
            ),
            None => return false,
        };
        if let Some(chain) = fresh {
            self.chains.insert(name, chain);
        }
        let id = EntryRef {
            dev: name,
            seq: header.seq,
        };
        let entry = Entry {
            id,
            header: header.clone(),
            seen: Arc::default(),
            events: Ok(Vec::new()),
        };
        if let Some(chain) = self.chains.get_mut(&name) {
            chain.nodes.push(Node {
                line: Arc::clone(line),
                hash,
                entry,
                named: Arc::default(),
            });
        }
        true
    }

    /// Reads every line again, now that all branches are known.
    fn read_all_anew(&mut self) {
        // A branch after the one it left: what its phone had seen builds on the shared part.
        let mut names: Vec<Dev> = self.chains.keys().copied().collect();
        names.sort_by_key(|name| self.chains.get(name).map(|chain| (chain.first, *name)));
        for name in names {
            let Some(chain) = self.chains.get(&name) else {
                continue;
            };
            let (first, base) = (chain.first, chain.base);
            for seq in first..chain.next_seq() {
                let before = if seq == first {
                    base
                } else {
                    seq.checked_sub(1).map(|seq| EntryRef { dev: name, seq })
                };
                let Some(node) = self.node(EntryRef { dev: name, seq }) else {
                    continue;
                };
                let Ok(header) = entry::read_header(&node.line) else {
                    continue;
                };
                let before = before.and_then(|id| self.node(id));
                let (entry, named) = self.read(name, &Arc::clone(&node.line), header, before);
                self.index(&entry);
                let at = usize::try_from(seq - first).unwrap_or(usize::MAX);
                if let Some(node) = self
                    .chains
                    .get_mut(&name)
                    .and_then(|chain| chain.nodes.get_mut(at))
                {
                    node.entry = entry;
                    node.named = named;
                }
            }
        }
    }
}

/// Both marks, the further one where both have a phone.
fn joined(a: &Marks, b: &Marks) -> Marks {
    let mut joined = a.clone();
    for (dev, mark) in b {
        let kept = joined.entry(*dev).or_insert(*mark);
        if mark.0 >= kept.0 {
            *kept = *mark;
        }
    }
    joined
}

enum Attached {
    Known,
    To(EntryRef),
    Parked,
    Fork,
}

/// Reading.
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
        self.about.get(&subject).into_iter().flatten().copied()
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
            .flat_map(|chain| &chain.nodes)
            .map(|node| &*node.line);
        kept.chain(self.parked.values().map(|line| &**line))
    }

    /// Lines of one phone from a number on.
    pub fn lines_of(&self, dev: Dev, from_seq: u32) -> impl Iterator<Item = &str> {
        let nodes = self
            .chains
            .get(&dev)
            .map(|chain| &chain.nodes[..])
            .unwrap_or_default();
        nodes
            .iter()
            .filter(move |node| node.entry.id.seq >= from_seq)
            .map(|node| &*node.line)
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
        let Some(entry) = self.entry(id) else {
            return false;
        };
        let here = Place {
            order: entry.header.order,
            id,
        };
        self.withdrawals.get(&id).is_some_and(|places| {
            places
                .iter()
                .any(|place| *place > here && !self.is_withdrawn(place.id))
        })
    }

    /// The amendment in force for an event, if any.
    #[must_use]
    pub fn amendment(&self, id: EntryRef, index: u16) -> Option<(EntryRef, &Event)> {
        let entry = self.entry(id)?;
        let here = Place {
            order: entry.header.order,
            id,
        };
        let original = entry.events.as_ref().ok()?.get(usize::from(index))?;
        let amendments = self.amendments.get(&(id, index))?;
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
