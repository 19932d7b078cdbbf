//! The entries of one name, one after the other, in pages.
//!
//! One long vector is copied whole whenever it outgrows its place, and on a phone the memory it leaves behind is never
//! given back. Pages stay where they are.

use super::Node;

/// Entries on a page.
const PAGE: usize = 256;

#[derive(Clone, Debug, Default)]
pub(super) struct Nodes {
    /// All but the last are full; none is empty.
    pages: Vec<Vec<Node>>,
}

impl Nodes {
    pub(super) fn push(&mut self, node: Node) {
        match self.pages.last_mut() {
            Some(page) if page.len() < PAGE => page.push(node),
            _ => self.pages.push(vec![node]),
        }
    }

    pub(super) fn get(&self, at: usize) -> Option<&Node> {
        self.pages.get(at / PAGE)?.get(at % PAGE)
    }

    pub(super) fn get_mut(&mut self, at: usize) -> Option<&mut Node> {
        self.pages.get_mut(at / PAGE)?.get_mut(at % PAGE)
    }

    pub(super) fn last(&self) -> Option<&Node> {
        self.pages.last()?.last()
    }

    pub(super) fn len(&self) -> usize {
        let full = self.pages.len().saturating_sub(1).saturating_mul(PAGE);
        full.saturating_add(self.pages.last().map_or(0, Vec::len))
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = &Node> {
        self.pages.iter().flatten()
    }

    /// Entries from a place on.
    pub(super) fn from(&self, at: usize) -> impl Iterator<Item = &Node> {
        let pages = self.pages.get(at / PAGE..).unwrap_or_default();
        pages.iter().flatten().skip(at % PAGE)
    }
}
