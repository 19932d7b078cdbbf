//! Where a lot comes from and what came of it: parents, the clump in work, children.
//!
//! Invariants: every parent and child has its own stake; a clump of several parents shows all of
//! them. Pieces that left the book hang on a dashed line without a stake. The lot looked at is
//! filled.

use super::{WIDE, n};
use leptos::prelude::*;

const STAKE_WIDE: f64 = 98.0;
const STAKE_HIGH: f64 = 46.0;
const STAKE_LOW: f64 = 30.0;
const GAP: f64 = 12.0;
const TAG_X: f64 = 121.0;
const TAG_WIDE: f64 = 46.0;
const TAG_HIGH: f64 = 32.0;
const CHILD_X: f64 = 190.0;

/// A lot that was opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parent {
    /// Its code.
    pub code: String,
    /// Under it, such as "3 pots"; empty for none.
    pub words: String,
}

/// What became of the pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChildKind {
    /// A lot of its own.
    Lot,
    /// The lot this drawing belongs to.
    Here,
    /// Thrown away, sold bare or lost: no lot.
    Gone,
}

/// One outcome of the division.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Child {
    /// What became of it.
    pub kind: ChildKind,
    /// The code; for pieces that are gone, the number.
    pub code: String,
    /// Under it, such as "4 pots".
    pub words: String,
}

/// A stake's outline.
fn stake(x: f64, y: f64, high: f64) -> String {
    let point = 12.0;
    format!(
        "M{x0} {y0}H{shoulder}L{tip} {mid}L{shoulder} {low}H{x0}Z",
        x0 = n(x),
        y0 = n(y),
        shoulder = n(x + STAKE_WIDE - point),
        tip = n(x + STAKE_WIDE),
        mid = n(y + high / 2.0),
        low = n(y + high),
    )
}

/// A line that leaves and arrives level.
fn branch(from: (f64, f64), to: (f64, f64)) -> String {
    let middle = (from.0 + to.0) / 2.0;
    format!(
        "M{} {}C{m} {} {m} {} {} {}",
        n(from.0),
        n(from.1),
        n(from.1),
        n(to.1),
        n(to.0),
        n(to.1),
        m = n(middle),
    )
}

fn high_of(words: &str) -> f64 {
    if words.is_empty() {
        STAKE_LOW
    } else {
        STAKE_HIGH
    }
}

/// Tops of a column of stakes, centred on `middle`.
fn column(heights: &[f64], middle: f64) -> Vec<f64> {
    let gaps = GAP * f64::from(u32::try_from(heights.len().saturating_sub(1)).unwrap_or(0));
    let mut y = middle - (heights.iter().sum::<f64>() + gaps) / 2.0;
    heights
        .iter()
        .map(|high| {
            let top = y;
            y += high + GAP;
            top
        })
        .collect()
}

fn tall(heights: &[f64]) -> f64 {
    heights.iter().map(|high| high + GAP).sum::<f64>() - GAP
}

fn words_at(x: f64, y: f64, high: f64, code: String, words: String, turned: bool) -> impl IntoView {
    let base = if words.is_empty() {
        y + high / 2.0 + 5.0
    } else {
        y + high / 2.0 - 3.0
    };
    let code_class = if turned { "d-code d-turned" } else { "d-code" };
    let words_class = if turned { "d-turned" } else { "d-soft" };
    view! {
        <text class=code_class x=n(x) y=n(base)>{code}</text>
        <text class=words_class x=n(x) y=n(base + 18.0)>{words}</text>
    }
}

/// Parents, the clump, children, from left to right.
#[component]
pub fn Lineage(
    /// The lots that were opened.
    parents: Vec<Parent>,
    /// The number on the clump's tray tag.
    #[prop(into)]
    tag: String,
    /// Under the tag, such as the date.
    #[prop(optional, into)]
    tag_words: String,
    /// What became of the pieces.
    children_of: Vec<Child>,
    /// The whole drawing in a sentence.
    #[prop(into)]
    text: String,
) -> impl IntoView {
    let parent_heights: Vec<f64> = parents
        .iter()
        .map(|parent| high_of(&parent.words))
        .collect();
    let child_heights: Vec<f64> = children_of
        .iter()
        .map(|child| high_of(&child.words))
        .collect();
    let high = tall(&parent_heights)
        .max(tall(&child_heights))
        .max(TAG_HIGH + 44.0)
        + 8.0;
    let middle = high / 2.0;
    let left = parents
        .into_iter()
        .zip(column(&parent_heights, middle))
        .zip(parent_heights)
        .map(|((parent, y), tall)| {
            let line = branch((STAKE_WIDE + 2.0, y + tall / 2.0), (TAG_X, middle));
            view! {
                <path class="d-line" d=line />
                <path class="d-paper" d=stake(2.0, y, tall) />
                {words_at(10.0, y, tall, parent.code, parent.words, false)}
            }
        })
        .collect_view();
    let right = children_of
        .into_iter()
        .zip(column(&child_heights, middle))
        .zip(child_heights)
        .map(|((child, y), tall)| {
            let gone = child.kind == ChildKind::Gone;
            let line = branch((TAG_X + TAG_WIDE, middle), (CHILD_X, y + tall / 2.0));
            let body = (!gone).then(|| {
                let class = if child.kind == ChildKind::Here {
                    "d-ink"
                } else {
                    "d-paper"
                };
                view! { <path class=class d=stake(CHILD_X, y, tall) /> }
            });
            let turned = child.kind == ChildKind::Here;
            view! {
                <path class=if gone { "d-dash" } else { "d-line" } d=line />
                {body}
                {words_at(CHILD_X + 8.0, y, tall, child.code, child.words, turned)}
            }
        })
        .collect_view();
    let tag_y = middle - TAG_HIGH / 2.0;
    view! {
        <figure class="drawing" tabindex="0" aria-label=text>
            <svg viewBox=format!("0 0 {WIDE} {}", n(high)) aria-hidden="true" focusable="false">
                {left} {right}
                <rect
                    class="d-paper"
                    x=n(TAG_X)
                    y=n(tag_y)
                    width=n(TAG_WIDE)
                    height=n(TAG_HIGH)
                />
                <circle class="d-paper" cx=n(TAG_X + 11.0) cy=n(middle) r="4.5" />
                <text class="d-value" x=n(TAG_X + 30.0) y=n(middle + 6.0) text-anchor="middle">
                    {tag}
                </text>
                <text
                    class="d-soft"
                    x=n(TAG_X + TAG_WIDE / 2.0)
                    y=n(tag_y + TAG_HIGH + 19.0)
                    text-anchor="middle"
                >
                    {tag_words}
                </text>
            </svg>
        </figure>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn stakes_of_a_column_stand_apart_around_the_middle() {
        let tops = column(&[46.0, 30.0, 46.0], 100.0);
        assert!((tops[1] - (tops[0] + 46.0 + GAP)).abs() < 1e-9);
        assert!((tops[2] - (tops[1] + 30.0 + GAP)).abs() < 1e-9);
        assert!(((tops[0] + tops[2] + 46.0) / 2.0 - 100.0).abs() < 1e-9);
    }

    #[wasm_bindgen_test]
    fn a_clump_without_parents_has_an_empty_column() {
        assert!(column(&[], 50.0).is_empty());
    }
}
