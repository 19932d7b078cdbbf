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

mod ask;
mod branches;
mod nodes;
mod places;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::entry::{self, Entry, Header, LineHash, Marks, NotAnEntry, Read};
use crate::event::Event;
use crate::id::{Dev, EntryRef, Subject};
use crate::limits::CLOCK_ASTRAY_MS;
use crate::time::Stamp;

use nodes::Nodes;
use places::Places;

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
    knew_by(entry.id, &entry.seen, other)
}

/// The same, of an entry of which only its name and what it had seen are at hand.
pub(crate) fn knew_by(id: EntryRef, seen: &Marks, other: EntryRef) -> bool {
    id.dev == other.dev && id.seq >= other.seq
        || seen
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
    nodes: Nodes,
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
    about: BTreeMap<Subject, Places>,
    /// Marks of a forked log whose line is not here yet: when it comes, what was seen reads differently.
    unplaced: BTreeSet<(Dev, u32, LineHash)>,
    withdrawals: BTreeMap<EntryRef, BTreeSet<Place>>,
    amendments: BTreeMap<(EntryRef, u16), BTreeSet<(Place, u16)>>,
    clocks: Clocks,
}

/// Whether any phone's clock may have been astray, so that a book in good order need not be walked to find that out.
#[derive(Clone, Debug, Default)]
struct Clocks {
    /// Each phone's last stamp, and the latest its clock said.
    latest: BTreeMap<Dev, (Stamp, i64)>,
    in_doubt: bool,
}

impl Clocks {
    /// Entries of a phone come in the order of their numbers.
    fn note(&mut self, dev: Dev, header: &Header) {
        let here = (header.order, header.at_ms);
        let (order, at_ms) = self.latest.entry(dev).or_insert(here);
        let falls_back = at_ms.saturating_sub(header.at_ms) > CLOCK_ASTRAY_MS;
        let is_behind = header.order.ms.saturating_sub(header.at_ms) > CLOCK_ASTRAY_MS;
        self.in_doubt |= falls_back || is_behind || *order > header.order;
        *order = header.order;
        *at_ms = header.at_ms.max(*at_ms);
    }
}

impl Log {
    /// Puts a line in.
    ///
    /// # Errors
    /// [`NotAnEntry`] when it is not an entry; the log is unchanged.
    pub fn insert(&mut self, line: &str) -> Result<Inserted, NotAnEntry> {
        self.insert_hashed(line, LineHash::of(line))
    }

    /// The same for a line whose hash was worked out before.
    ///
    /// # Errors
    /// As [`Self::insert`].
    pub fn insert_hashed(&mut self, line: &str, hash: LineHash) -> Result<Inserted, NotAnEntry> {
        let read = entry::read(line)?;
        let (dev, seq) = (read.header.dev, read.header.seq);
        let mut added = Vec::new();
        match self.attach(line, hash, read) {
            Attached::Known => return Ok(Inserted::Known),
            Attached::Parked => return Ok(Inserted::Parked),
            Attached::Fork => {
                self.rebuild_with(line);
                return Ok(Inserted::Forked);
            }
            Attached::To(id) => added.push(id),
        }
        if self.was_missed(dev, seq, hash) {
            self.rebuild();
            return Ok(Inserted::Forked);
        }
        let mut at = 0;
        while let Some(id) = added.get(at).copied() {
            let Some((line, header)) = self.take_ready(id) else {
                at += 1;
                continue;
            };
            let hash = LineHash::of(&line);
            let (dev, seq) = (header.dev, header.seq);
            match self.attach(&line, hash, Read::header_of(header)) {
                Attached::To(id) => added.push(id),
                Attached::Fork => {
                    self.rebuild_with(&line);
                    return Ok(Inserted::Forked);
                }
                Attached::Known | Attached::Parked => {}
            }
            if self.was_missed(dev, seq, hash) {
                self.rebuild();
                return Ok(Inserted::Forked);
            }
        }
        Ok(Inserted::Added(added))
    }

    /// Whether an entry read before had seen this line without it being here to tell its branch by.
    fn was_missed(&self, dev: Dev, seq: u32, hash: LineHash) -> bool {
        !self.unplaced.is_empty() && self.unplaced.contains(&(self.root_of(dev), seq, hash))
    }

    /// The name a phone's lines carried before any copy was known.
    fn root_of(&self, dev: Dev) -> Dev {
        self.chains.get(&dev).map_or(dev, |chain| chain.root)
    }

    /// A parked line that was waiting for this entry; two when the phone was copied there.
    ///
    /// Lines of that number which follow another branch go on waiting.
    fn take_ready(&mut self, before: EntryRef) -> Option<(Arc<str>, Header)> {
        if self.parked.is_empty() {
            return None;
        }
        let root = self.chains.get(&before.dev)?.root;
        let hash = self.node(before)?.hash;
        let next = before.seq.checked_add(1)?;
        // The writer may not have known yet under which of the family's names its branch is kept.
        let family: Vec<Dev> = self
            .chains
            .iter()
            .filter(|(_, chain)| chain.root == root)
            .map(|(name, _)| *name)
            .collect();
        for name in family {
            let waiting = self
                .parked
                .range((name, next, LineHash(0))..=(name, next, LineHash(u32::MAX)));
            let ready = waiting
                .filter_map(|(key, line)| Some((*key, entry::read_header(line).ok()?)))
                .find(|(_, header)| header.prev == hash);
            if let Some((key, header)) = ready {
                return Some((self.parked.remove(&key)?, header));
            }
        }
        None
    }

    fn attach(&mut self, line: &str, hash: LineHash, read: Read) -> Attached {
        let header = &read.header;
        let root = self.root_of(header.dev);
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
            Some((name, false)) => self.push(name, line, hash, read),
            None if header.seq == 1 => {
                let chain = Chain {
                    root: header.dev,
                    base: None,
                    first: 1,
                    nodes: Nodes::default(),
                };
                let name = header.dev;
                self.chains.insert(name, chain);
                self.push(name, line, hash, read)
            }
            None => {
                self.parked
                    .insert((header.dev, header.seq, hash), line.into());
                Attached::Parked
            }
        }
    }

    fn push(&mut self, name: Dev, line: &str, hash: LineHash, read: Read) -> Attached {
        let before = self
            .chains
            .get(&name)
            .and_then(|chain| match chain.nodes.last() {
                Some(node) => Some(node),
                None => self.node(chain.base?),
            });
        let (entry, named) = self.read(name, line, read, before);
        let id = entry.id;
        self.note_unplaced(&entry.header);
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
        read: Read,
        before: Option<&Node>,
    ) -> (Entry, Arc<Marks>) {
        let (mut header, events) = read.parts();
        let id = EntryRef {
            dev: name,
            seq: header.seq,
        };
        let named = before
            .map(|node| Arc::clone(&node.named))
            .unwrap_or_default();
        let mut seen = before
            .map(|node| Arc::clone(&node.entry.seen))
            .unwrap_or_default();
        if let Some(shared) = before.filter(|node| node.entry.id.dev != name) {
            // What a copied phone wrote before it was copied, the copy knew.
            let base = Marks::from([(shared.entry.id.dev, (shared.entry.id.seq, shared.hash))]);
            seen = Arc::new(joined(&seen, &base));
        }
        let forked = self.is_forked();
        let (named, seen) = if header.seen.is_empty() {
            (named, seen)
        } else {
            let marks = if forked {
                self.rename_marks(&header.seen)
            } else {
                header.seen.clone()
            };
            // What a name meant to the writer last counts, even if it meant a longer branch before.
            let mut now_named = Marks::clone(&named);
            now_named.extend(&header.seen);
            (Arc::new(now_named), Arc::new(joined(&seen, &marks)))
        };
        let rename = |target: EntryRef| self.branch_of(name, &named, target);
        if forked {
            entry::rename_about(&mut header.about, &rename);
        }
        let rename: entry::Rename<'_> = if forked { Some(&rename) } else { None };
        let events = Read::events(events, line, &header, rename);
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

    /// Whether any phone was copied with its book.
    fn is_forked(&self) -> bool {
        self.chains.iter().any(|(name, chain)| *name != chain.root)
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

    fn note_unplaced(&mut self, header: &Header) {
        if self.is_forked() {
            for (dev, mark) in &header.seen {
                let root = self.root_of(*dev);
                if self.branch_at(root, *mark).is_none() {
                    self.unplaced.insert((root, mark.0, mark.1));
                }
            }
        }
    }

    fn index(&mut self, entry: &Entry) {
        let place = Place {
            order: entry.header.order,
            id: entry.id,
        };
        self.order.insert(place);
        self.clocks.note(entry.id.dev, &entry.header);
        for subject in &entry.header.about {
            self.about.entry(*subject).or_default().insert(place);
        }
        for (index, event) in (0u16..).zip(entry.events.iter().flatten()) {
            match event {
                Event::Withdrawn(withdrawn) => {
                    for target in &withdrawn.targets {
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
