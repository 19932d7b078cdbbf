//! The ways to cut a clump: pieces by class, with the range that follows from what is not known.
//!
//! Every piece that is to grow on needs a lead and the growths of its size; what is left of a kind with bulbs are
//! back-bulbs, what is left of others stays on the pieces. Plants of one stem are not divided: offshoots with roots of
//! their own and a top with live roots come off them.

use crate::event::{CutPlan, PieceClass, PlannedPieces, Way};
use crate::outlook::Span;

use super::known::Known;

/// One way, with what comes of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    pub way: Way,
    /// By class, in the order of the bench; classes nothing comes of are left out.
    pub pieces: Vec<(PieceClass, Span)>,
    /// Plants that stay whole.
    pub whole: u32,
    /// Growths on a piece that is to flower, and on a starter.
    pub sizes: Option<(u32, u32)>,
}

impl Choice {
    /// Pieces of a class.
    #[must_use]
    pub fn of(&self, class: PieceClass) -> Span {
        let row = self.pieces.iter().find(|(it, _)| *it == class);
        row.map(|(_, span)| *span).unwrap_or_default()
    }

    /// As it is kept, with what was known of the clump.
    #[must_use]
    pub fn plan(&self, known: &Known) -> CutPlan {
        CutPlan {
            way: self.way,
            pieces: self
                .pieces
                .iter()
                .map(|(class, span)| PlannedPieces {
                    class: *class,
                    plants: span.middle,
                    low: (span.low != span.middle).then_some(span.low),
                    high: (span.high != span.middle).then_some(span.high),
                })
                .collect(),
            whole: self.whole,
            leads: known.leads,
            growths: known.growths,
            size: (known.leads.is_none() && known.growths.is_none()).then_some(known.size),
            by_on: None,
        }
    }
}

/// The ways open to a plant of this habit, the gentlest first.
#[must_use]
pub fn choices(known: &Known) -> Vec<Choice> {
    let ways: &[Way] = if known.divides() {
        &[Way::KeepWhole, Way::FewLarge, Way::ManySmall]
    } else {
        &[Way::KeepWhole, Way::Offshoots, Way::TopCut]
    };
    ways.iter().map(|way| choice(known, *way)).collect()
}

/// One way; the grower's own begins as nothing.
#[must_use]
pub fn choice(known: &Known, way: Way) -> Choice {
    let pieces = known.row().pieces;
    let exact = |count: u32| Span {
        low: count,
        middle: count,
        high: count,
    };
    let none = |whole: u32, rows: Vec<(PieceClass, Span)>| Choice {
        way,
        pieces: rows,
        whole,
        sizes: None,
    };
    let (few, small) = (pieces.flowering.unwrap_or(pieces.starter), pieces.starter);
    match way {
        Way::KeepWhole => none(known.wholes, Vec::new()),
        Way::Own => none(0, Vec::new()),
        // As many as were seen; a plant of one stem has no leads, so the count of leads stands for offshoots.
        Way::Offshoots => {
            let seen = known.leads.unwrap_or(known.wholes);
            none(known.wholes, vec![(PieceClass::Keiki, exact(seen))])
        }
        Way::TopCut => none(
            0,
            vec![
                (PieceClass::BackBulb, exact(known.wholes)),
                (PieceClass::Keiki, exact(known.wholes)),
            ],
        ),
        Way::FewLarge => {
            // Between the least that flowers and the usual, rounded up.
            let large = u32::from(few.0)
                .saturating_add(u32::from(few.1))
                .div_ceil(2);
            cut(known, way, large, u32::from(small.1), true)
        }
        Way::ManySmall => cut(known, way, u32::from(few.1), u32::from(small.0), false),
    }
}

fn cut(known: &Known, way: Way, large: u32, small: u32, to_flower: bool) -> Choice {
    let (growths, leads) = (known.growths(), known.leads());
    let corners = [
        (growths.low, leads.low),
        (growths.middle, leads.middle),
        (growths.high, leads.high),
    ];
    let counts = corners.map(|(growths, leads)| {
        let first = if to_flower { large } else { small };
        share(known, growths, leads, (first, small), to_flower)
    });
    let of = |pick: fn(&Share) -> u32| {
        let [low, middle, high] = [0, 1, 2].map(|at: usize| counts.get(at).map_or(0, pick));
        Span {
            low: low.min(middle).min(high),
            middle,
            high: low.max(middle).max(high),
        }
    };
    let rows = [
        (PieceClass::Flowering, of(|share| share.large)),
        (PieceClass::Starter, of(|share| share.small)),
        (PieceClass::BackBulb, of(|share| share.back)),
    ];
    Choice {
        way,
        pieces: rows.into_iter().filter(|(_, span)| span.high > 0).collect(),
        whole: 0,
        sizes: Some((large, small)),
    }
}

/// How a number of growths is shared out.
#[derive(Clone, Copy, Debug, Default)]
struct Share {
    large: u32,
    small: u32,
    back: u32,
}

fn share(
    known: &Known,
    growths: u32,
    leads: u32,
    (first, small): (u32, u32),
    to_flower: bool,
) -> Share {
    let (first, small) = (first.max(1), small.max(1));
    let mut share = Share::default();
    let fit = (growths / first).min(leads);
    let (mut left, mut open) = (growths, leads);
    if to_flower {
        share.large = fit;
    } else {
        share.small = fit;
    }
    left = left.saturating_sub(fit.saturating_mul(first));
    open = open.saturating_sub(fit);
    if to_flower {
        let more = (left / small).min(open);
        share.small = more;
        left = left.saturating_sub(more.saturating_mul(small));
    }
    if share.large + share.small == 0 {
        // Less than one piece is one piece, and the smaller kind.
        share.small = known.wholes.max(1);
        left = 0;
    }
    // One or two that are left stay on the pieces they hang on.
    if known.has_back_bulbs() && left >= 2 {
        share.back = left;
    }
    share
}
