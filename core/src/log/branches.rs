//! Copied phones: the log built anew as a tree, when two lines claim one number.

use std::sync::Arc;

use crate::entry::{self, Entry, Header, LineHash};
use crate::id::{Dev, EntryRef};
use crate::time::Stamp;

use super::nodes::Nodes;
use super::{Chain, Log, Node};

impl Log {
    /// Builds the whole log anew with one more line, forks included.
    pub(super) fn rebuild_with(&mut self, line: &str) {
        if let Ok(header) = entry::read_header(line) {
            let key = (header.dev, header.seq, LineHash::of(line));
            self.parked.insert(key, line.into());
        }
        self.rebuild();
    }

    /// Builds the whole log anew from its own lines.
    pub(super) fn rebuild(&mut self) {
        let mut lines: Vec<(u32, Stamp, Arc<str>)> = Vec::new();
        let nodes = self
            .chains
            .values()
            .flat_map(|chain| chain.nodes.iter())
            .map(|node| Arc::clone(&node.line));
        for line in nodes.chain(self.parked.values().cloned()) {
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
        let root = self.root_of(header.dev);
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
                // From the family's first name: a branch found later above this one must not change it.
                (
                    root.of_branch(line),
                    Some(Chain {
                        root,
                        base,
                        first: header.seq,
                        nodes: Nodes::default(),
                    }),
                )
            }
            None if header.seq == 1 => (
                header.dev,
                Some(Chain {
                    root: header.dev,
                    base: None,
                    first: 1,
                    nodes: Nodes::default(),
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
                let Ok(read) = entry::read(&node.line) else {
                    continue;
                };
                let before = before.and_then(|id| self.node(id));
                let (entry, named) = self.read(name, &Arc::clone(&node.line), read, before);
                self.note_unplaced(&entry.header);
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
