//! Shares over time: a line through what was counted on each day, with how sure each is, and one's own line across.
//!
//! Invariants: the scale begins at nothing and ends above everything drawn; days stand as far apart as they were; the
//! first and last day and the highest share are written, for a line alone says no number.

use super::{WIDE, n, text_width};
use leptos::prelude::*;

const HIGH: f64 = 120.0;
const LEFT: f64 = 44.0;
const FOOT: f64 = 22.0;

/// What was counted on one day, in thousandths.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// Days since the first.
    pub day: u32,
    /// The day in words.
    pub words: String,
    pub low: u32,
    pub middle: u32,
    pub high: u32,
}

/// The line.
#[component]
pub fn Trend(
    /// In the order of days.
    marks: Vec<Mark>,
    /// One's own line across, in thousandths, and its word.
    #[prop(optional_no_strip)]
    limit: Option<(u32, String)>,
    /// The whole drawing in a sentence.
    #[prop(into)]
    text: String,
) -> impl IntoView {
    let across = limit.as_ref().map_or(0, |(at, _)| *at);
    let most = marks.iter().map(|mark| mark.high).max().unwrap_or(0);
    let most = f64::from(most.max(across).max(1));
    let last = f64::from(marks.last().map_or(0, |mark| mark.day).max(1));
    let wide = WIDE - LEFT - 10.0;
    let x = move |day: u32| LEFT + f64::from(day) / last * wide;
    let y = move |permille: u32| 8.0 + (1.0 - f64::from(permille) / most) * (HIGH - 8.0);
    let path: String = marks
        .iter()
        .enumerate()
        .map(|(at, mark)| {
            let letter = if at == 0 { 'M' } else { 'L' };
            format!("{letter}{} {}", n(x(mark.day)), n(y(mark.middle)))
        })
        .collect();
    let points = marks
        .iter()
        .map(|mark| {
            let (px, low, high) = (n(x(mark.day)), n(y(mark.low)), n(y(mark.high)));
            let middle = n(y(mark.middle));
            view! {
                <path class="d-lead" d=format!("M{px} {low}V{high}") />
                <circle class="d-ink" cx=px cy=middle r="3.5" />
            }
        })
        .collect_view();
    let limit = limit.map(|(at, word)| {
        let (level, start) = (n(y(at)), n(WIDE - text_width(&word)));
        view! {
            <path class="d-dash" d=format!("M{LEFT} {level}H{WIDE}") />
            <text class="d-halo" x=start y=n(y(at) - 4.0)>{word}</text>
        }
    });
    let first = marks.first().map(|mark| mark.words.clone());
    let end = marks.last().filter(|mark| mark.day > 0);
    let end = end.map(|mark| {
        let at = n(WIDE - text_width(&mark.words));
        view! { <text class="d-soft" x=at y=n(HIGH + FOOT)>{mark.words.clone()}</text> }
    });
    let top = format!("{} %", (most / 10.0).round());
    view! {
        <figure class="drawing" tabindex="0" aria-label=text>
            <svg viewBox=format!("0 0 {WIDE} {}", n(HIGH + FOOT + 6.0)) aria-hidden="true" focusable="false">
                <path class="d-hair" d=format!("M{LEFT} {HIGH}H{WIDE}") />
                <text class="d-soft" x="0" y="16">{top}</text>
                <text class="d-soft" x="0" y=n(HIGH)>"0"</text>
                {limit}
                <path class="d-line" d=path />
                {points}
                <text class="d-soft" x=LEFT.to_string() y=n(HIGH + FOOT)>{first}</text>
                {end}
            </svg>
        </figure>
    }
}
