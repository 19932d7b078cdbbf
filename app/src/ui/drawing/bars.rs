//! Counts with their ranges, one row each: a bar to the middle, a line over the range, the number at its end.
//!
//! Invariants: all rows share one scale from nothing on, so that twice the plants is twice the bar; a row of nothing
//! has no bar and says 0; numbers stand beside the bars, never on a scale to be read off.

use super::{WIDE, n, text_width};
use leptos::prelude::*;

const ROW_HIGH: f64 = 30.0;
const BAR_HIGH: f64 = 14.0;

/// One row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bar {
    /// What it is for, short.
    pub words: String,
    pub low: u32,
    pub middle: u32,
    pub high: u32,
    /// The number as it is written, such as "12 to 18".
    pub number: String,
}

/// Where the bars begin and how long the longest may be: what words and numbers leave.
fn room(bars: &[Bar]) -> (f64, f64) {
    let widest = |text: fn(&Bar) -> &str| {
        bars.iter()
            .map(|bar| text_width(text(bar)))
            .fold(0.0, f64::max)
    };
    let left = widest(|bar| &bar.words) + 10.0;
    let right = widest(|bar| &bar.number) + 10.0;
    (left, (WIDE - left - right).max(20.0))
}

/// Rows of bars.
#[component]
pub fn Bars(
    /// The rows, from top to bottom.
    bars: Vec<Bar>,
    /// The whole drawing in a sentence.
    #[prop(into)]
    text: String,
) -> impl IntoView {
    let (left, long) = room(&bars);
    let most = bars.iter().map(|bar| bar.high).max().unwrap_or(0).max(1);
    let x = move |count: u32| left + f64::from(count) / f64::from(most) * long;
    let high = ROW_HIGH * f64::from(u32::try_from(bars.len()).unwrap_or(0));
    let rows = (0_u32..)
        .zip(bars)
        .map(|(row, bar)| {
            let middle = ROW_HIGH * f64::from(row) + ROW_HIGH / 2.0;
            let top = middle - BAR_HIGH / 2.0;
            let filled = (bar.middle > 0).then(|| {
                let d = format!("M{} {}H{}V{}H{}Z", n(left), n(top), n(x(bar.middle)), n(top + BAR_HIGH), n(left));
                view! { <path class="d-wash" d=d /> }
            });
            let range = (bar.high > bar.low).then(|| {
                let (low, high) = (n(x(bar.low)), n(x(bar.high)));
                let (up, down) = (n(middle - 5.0), n(middle + 5.0));
                let y = n(middle);
                view! { <path class="d-line" d=format!("M{low} {up}V{down}M{low} {y}H{high}M{high} {up}V{down}") /> }
            });
            let number_x = x(bar.high.max(bar.middle)) + 8.0;
            view! {
                <text x="0" y=n(middle + 5.0)>{bar.words}</text>
                {filled}
                {range}
                <text class="d-soft" x=n(number_x) y=n(middle + 5.0)>{bar.number}</text>
            }
        })
        .collect_view();
    view! {
        <figure class="drawing" tabindex="0" aria-label=text>
            <svg viewBox=format!("0 0 {WIDE} {}", n(high)) aria-hidden="true" focusable="false">
                {rows}
            </svg>
        </figure>
    }
}
