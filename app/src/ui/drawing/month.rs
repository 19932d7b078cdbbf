//! Days side by side as columns, against the one line of what there is.
//!
//! Invariants: every day has the same width, an empty one too; the scale begins at nothing and holds the line and the
//! highest column; what lies above the line is filled darker, so that too much is seen without reading; the highest
//! column says its number, and the days written below stand a week apart.

use super::{WIDE, n, text_width};
use leptos::prelude::*;

const TOP: f64 = 22.0;
const HIGH: f64 = 110.0;
const FOOT: f64 = TOP + HIGH;
/// Days between two that are written.
const WRITTEN: usize = 7;

/// One day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// The day, short.
    pub words: String,
    pub amount: u32,
    /// The amount as it is written.
    pub number: String,
}

/// The columns.
#[component]
pub fn Columns(
    /// In the order of days.
    columns: Vec<Column>,
    /// The line across, and its word.
    line: u32,
    #[prop(into)] line_word: String,
    /// The whole drawing in a sentence.
    #[prop(into)]
    text: String,
) -> impl IntoView {
    let count = f64::from(u32::try_from(columns.len()).unwrap_or(1).max(1));
    let step = WIDE / count;
    let most = columns
        .iter()
        .map(|column| column.amount)
        .max()
        .unwrap_or(0);
    let top = f64::from(most.max(line).max(1));
    let y = move |amount: u32| FOOT - f64::from(amount) / top * HIGH;
    let x = move |at: usize| f64::from(u32::try_from(at).unwrap_or(0)) * step;
    let bar = move |at: usize, from: u32, to: u32| {
        let (left, right) = (n(x(at) + 1.0), n(x(at) + step - 1.0));
        format!(
            "M{left} {}V{}H{right}V{}Z",
            n(y(from)),
            n(y(to)),
            n(y(from))
        )
    };
    let highest = columns
        .iter()
        .position(|column| column.amount == most && most > 0);
    let number = highest.and_then(|at| {
        let column = columns.get(at)?;
        let wide = text_width(&column.number);
        let left = (x(at) + step / 2.0 - wide / 2.0).clamp(0.0, (WIDE - wide).max(0.0));
        Some(view! { <text class="d-value" x=n(left) y=n(y(most) - 5.0)>{column.number.clone()}</text> })
    });
    let drawn = (0usize..)
        .zip(columns)
        .map(|(at, column)| {
            let within = column.amount.min(line);
            let below =
                (within > 0).then(|| view! { <path class="d-wash" d=bar(at, 0, within) /> });
            let above = (column.amount > line)
                .then(|| view! { <path class="d-ink" d=bar(at, line, column.amount) /> });
            // One that would run into the one before is left out.
            let fits = x(at) + text_width(&column.words) <= WIDE;
            let written = (at % WRITTEN == 0 && fits).then(|| {
                view! { <text class="d-soft" x=n(x(at)) y=n(FOOT + 18.0)>{column.words}</text> }
            });
            view! { {below} {above} {written} }
        })
        .collect_view();
    let level = n(y(line));
    let word_at = n(WIDE - text_width(&line_word));
    view! {
        <figure class="drawing" tabindex="0" aria-label=text>
            <svg viewBox=format!("0 0 {WIDE} {}", n(FOOT + 24.0)) aria-hidden="true" focusable="false">
                <path class="d-hair" d=format!("M0 {}H{WIDE}", n(FOOT)) />
                {drawn}
                <path class="d-dash" d=format!("M0 {level}H{WIDE}") />
                <text class="d-halo" x=word_at y=n(y(line) - 4.0)>{line_word}</text>
                {number}
            </svg>
        </figure>
    }
}
