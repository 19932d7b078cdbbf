//! The places of the entries about one thing, in order.
//!
//! Most things are spoken of once or a few times and come in order, a few (a bench, the book) by thousands in any order.
//! A tree takes room for eleven places for the first one and a list moves all that come after one put in between, so few
//! are a list and many a tree.

use std::collections::BTreeSet;

use super::Place;

/// Places that are a list; one more and they are a tree.
const FEW: usize = 64;

#[derive(Clone, Debug)]
pub(super) enum Places {
    /// In order, each once.
    Few(Vec<Place>),
    Many(BTreeSet<Place>),
}

impl Default for Places {
    fn default() -> Self {
        Self::Few(Vec::new())
    }
}

impl Places {
    pub(super) fn insert(&mut self, place: Place) {
        match self {
            Self::Many(many) => drop(many.insert(place)),
            Self::Few(few) => {
                let Err(at) = few.binary_search(&place) else {
                    return;
                };
                if few.len() < FEW {
                    // Most are never spoken of again: room for just this one.
                    if few.is_empty() {
                        few.reserve_exact(1);
                    }
                    few.insert(at, place);
                } else {
                    let mut many: BTreeSet<Place> = few.drain(..).collect();
                    many.insert(place);
                    *self = Self::Many(many);
                }
            }
        }
    }

    pub(super) fn last(&self) -> Option<&Place> {
        match self {
            Self::Few(few) => few.last(),
            Self::Many(many) => many.last(),
        }
    }

    /// From first to last.
    pub(super) fn iter(&self) -> impl DoubleEndedIterator<Item = Place> + '_ {
        let (few, many) = match self {
            Self::Few(few) => (Some(few), None),
            Self::Many(many) => (None, Some(many)),
        };
        let few = few.into_iter().flatten();
        few.chain(many.into_iter().flatten()).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::id::{Dev, EntryRef};
    use crate::time::Stamp;

    #[test]
    fn few_or_many_they_are_a_set_in_order() {
        let place = |at: u32| Place {
            order: Stamp {
                ms: i64::from(at % 7),
                count: 0,
            },
            id: EntryRef {
                dev: Dev(1),
                seq: at,
            },
        };
        for count in [0, 1, 2, 5, FEW - 1, FEW, FEW + 1, 3 * FEW] {
            let (mut places, mut set) = (Places::default(), BTreeSet::new());
            // Every one of them twice, in an order that is none.
            for step in 0..2 * count {
                let at = place(u32::try_from((step * 31) % count.max(1)).unwrap());
                places.insert(at);
                set.insert(at);
                assert_eq!(places.last(), set.last());
            }
            assert!(places.iter().eq(set.iter().copied()), "{count}");
            assert!(places.iter().rev().eq(set.iter().rev().copied()));
            assert_eq!(matches!(places, Places::Many(_)), set.len() > FEW);
        }
    }
}
