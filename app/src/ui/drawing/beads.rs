//! What was given one after another, as beads on a thread: a code in each, when it was given under it.
//!
//! Invariants: beads go from first to last, row under row, so that nothing is cut off on the narrowest phone; the kind of
//! a bead shows in its shape, not by colour alone; the text says all of it.

use super::{WIDE, n, text_width};
use leptos::prelude::*;

const BEAD_HIGH: f64 = 30.0;
const ROW_HIGH: f64 = 62.0;
const GAP: f64 = 12.0;

/// What a bead stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeadKind {
    /// Given to these themselves.
    Own,
    /// Given to an ancestor: cut off at its left end.
    Inherited,
    /// Not given yet.
    Asked,
}

/// One bead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bead {
    pub code: String,
    pub when: String,
    pub kind: BeadKind,
    /// Filled: it is of the kind that is asked about.
    pub same: bool,
}

/// Left end, row and width of each bead.
fn laid(beads: &[Bead]) -> Vec<(f64, f64, f64)> {
    let (mut x, mut row) = (0.0, 0.0);
    beads
        .iter()
        .map(|bead| {
            let text = text_width(&bead.code) + 22.0;
            let wide = text.max(text_width(&bead.when)).clamp(44.0, WIDE);
            if x > 0.0 && x + wide > WIDE {
                (x, row) = (0.0, row + 1.0);
            }
            let at = (x, row, wide);
            x += wide + GAP;
            at
        })
        .collect()
}

fn outline(kind: BeadKind, left: f64, top: f64, wide: f64) -> String {
    let (right, low, middle) = (left + wide, top + BEAD_HIGH, top + BEAD_HIGH / 2.0);
    let round = BEAD_HIGH / 2.0;
    let right_side = format!(
        "H{}A{} {} 0 0 1 {} {}",
        n(right - round),
        n(round),
        n(round),
        n(right - round),
        n(low)
    );
    match kind {
        BeadKind::Inherited => format!(
            "M{} {}{right_side}H{}L{} {}Z",
            n(left),
            n(top),
            n(left),
            n(left + 9.0),
            n(middle)
        ),
        BeadKind::Own | BeadKind::Asked => format!(
            "M{} {}{right_side}H{}A{} {} 0 0 1 {} {}Z",
            n(left + round),
            n(top),
            n(left + round),
            n(round),
            n(round),
            n(left + round),
            n(top)
        ),
    }
}

/// Beads on their thread.
#[component]
pub fn Beads(
    /// From first to last.
    beads: Vec<Bead>,
    /// The whole drawing in a sentence.
    #[prop(into)]
    text: String,
) -> impl IntoView {
    let laid = laid(&beads);
    let rows = laid.last().map_or(0.0, |(_, row, _)| row + 1.0);
    let drawn = laid
        .into_iter()
        .zip(beads)
        .map(|((x, row, wide), bead)| {
            let top = row * ROW_HIGH + 4.0;
            let middle = n(top + BEAD_HIGH / 2.0);
            let thread = (x > 0.0).then(|| {
                view! { <path class="d-line" d=format!("M{} {middle}H{}", n(x - GAP), n(x + 4.0)) /> }
            });
            let class = match (bead.kind, bead.same) {
                (BeadKind::Asked, _) => "d-dash",
                (_, true) => "d-wash",
                (_, false) => "d-paper",
            };
            let at = n(x + wide / 2.0);
            view! {
                {thread}
                <path class=class d=outline(bead.kind, x, top, wide) />
                <text class="d-code" text-anchor="middle" x=at.clone() y=n(top + 20.0)>{bead.code}</text>
                <text class="d-soft" text-anchor="middle" x=at y=n(top + BEAD_HIGH + 18.0)>{bead.when}</text>
            }
        })
        .collect_view();
    view! {
        <figure class="drawing" tabindex="0" aria-label=text>
            <svg viewBox=format!("0 0 {WIDE} {}", n(rows * ROW_HIGH)) aria-hidden="true" focusable="false">
                {drawn}
            </svg>
        </figure>
    }
}
