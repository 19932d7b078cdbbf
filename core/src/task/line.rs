//! A lot and those it was split from: what was done to the whole counts for a part up to the place where it left.

use crate::id::LotId;
use crate::state::{Facts, Lot};
use crate::time::Stamp;

/// One of them, with the place in the order up to which it speaks for the lot; the lot itself does so without end.
pub(super) type Before<'a> = (LotId, &'a Lot, Option<Stamp>);

/// The line of a lot, itself first; empty where the book does not know it.
pub(super) fn line(facts: &Facts, id: LotId) -> Vec<Before<'_>> {
    let mut line: Vec<Before<'_>> = Vec::new();
    let mut next = Some((id, None::<Stamp>));
    while let Some((id, limit)) = next {
        let Some(lot) = facts.lots.get(&id) else {
            break;
        };
        // A lot split from itself cannot be; the guard keeps even a made-up book from going round.
        if line.iter().any(|(known, ..)| *known == id) {
            break;
        }
        line.push((id, lot, limit));
        next = lot.split_from().map(|from| {
            let left = facts.lots.get(&from).and_then(|from| from.parts.get(&id));
            let limit = match (limit, left.copied()) {
                (Some(a), Some(b)) => Some(a.min(b)),
                (a, b) => a.or(b),
            };
            (from, limit)
        });
    }
    line
}
