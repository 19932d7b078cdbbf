//! The year from here as a strip: windows, cold nights, flowering, work done and to come, today.
//!
//! Invariants: one unit of width is the same time all along. Every span carries its own words; no
//! two of them cover each other: a span that would is set one row lower.

use super::{WIDE, n, text_width};
use leptos::prelude::*;
use std::fmt::Write;

const HEAD: f64 = 28.0;
const ROW_HIGH: f64 = 44.0;
const DAYS: f64 = 365.0;

/// What a span stands for, told by its shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpanKind {
    /// A window in which work belongs: a bar.
    Window,
    /// A time that does something, such as cold nights: a dashed line.
    Cause,
    /// In flower: a wave.
    Flowering,
    /// Work done on a day: a filled dot.
    Done,
    /// Work to come on a day: a ring.
    ToCome,
}

/// One thing on the strip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    /// What it stands for.
    pub kind: SpanKind,
    /// First day, counted from the strip's first.
    pub from_day: u32,
    /// Last day; the same as the first for work on a day.
    pub to_day: u32,
    /// Its words.
    pub words: String,
}

fn x_of(day: u32) -> f64 {
    (f64::from(day) / DAYS).min(1.0) * (WIDE - 2.0) + 1.0
}

/// Where a span's words start: under its beginning, or pushed back from the right edge.
fn words_x(span: &Span) -> f64 {
    x_of(span.from_day)
        .min(WIDE - text_width(&span.words))
        .max(0.0)
}

/// The row of each span: the first in which neither its shape nor its words cover another's.
fn rows(spans: &[Span]) -> Vec<usize> {
    let mut taken: Vec<Vec<(f64, f64)>> = Vec::new();
    spans
        .iter()
        .map(|span| {
            let start = words_x(span).min(x_of(span.from_day) - 7.0);
            let end = x_of(span.to_day).max(words_x(span) + text_width(&span.words)) + 8.0;
            let free =
                |row: &Vec<(f64, f64)>| row.iter().all(|(from, to)| end <= *from || start >= *to);
            let row = taken.iter().position(free).unwrap_or(taken.len());
            match taken.get_mut(row) {
                Some(spans) => spans.push((start, end)),
                None => taken.push(vec![(start, end)]),
            }
            row
        })
        .collect()
}

fn shape(span: &Span, y: f64) -> (&'static str, String) {
    let (from, to) = (x_of(span.from_day), x_of(span.to_day));
    match span.kind {
        SpanKind::Window => (
            "d-wash",
            format!(
                "M{} {}H{}V{}H{}Z",
                n(from),
                n(y),
                n(to.max(from + 4.0)),
                n(y + 14.0),
                n(from)
            ),
        ),
        SpanKind::Cause => ("d-dash", format!("M{} {}H{}", n(from), n(y + 7.0), n(to))),
        SpanKind::Flowering => ("d-green", wave(from, to, y + 7.0)),
        SpanKind::Done => ("d-root", dot(from, y + 7.0)),
        SpanKind::ToCome => ("d-paper", dot(from, y + 7.0)),
    }
}

fn dot(x: f64, y: f64) -> String {
    format!("M{} {}a6 6 0 1 0 12 0a6 6 0 1 0-12 0Z", n(x - 6.0), n(y))
}

/// A wave of whole half-turns from one end to the other.
fn wave(from: f64, to: f64, y: f64) -> String {
    let wide = (to - from).max(12.0);
    let turns = (wide / 12.0).round().max(1.0);
    let step = wide / turns;
    let mut path = format!("M{} {}", n(from), n(y));
    let mut turn = 0.0;
    let mut up = true;
    while turn < turns {
        let _ = write!(
            path,
            "q{} {} {} 0",
            n(step / 2.0),
            if up { "-13" } else { "13" },
            n(step)
        );
        up = !up;
        turn += 1.0;
    }
    path
}

/// Twelve months with what belongs in them.
#[component]
pub fn YearStrip(
    /// The twelve months' letters or short names, from the strip's first.
    months: Vec<String>,
    /// Today, counted in days from the strip's first.
    today_day: u32,
    /// The word for today.
    #[prop(into)]
    today_words: String,
    /// What to show, in order of importance.
    spans: Vec<Span>,
    /// The whole drawing in a sentence.
    #[prop(into)]
    text: String,
) -> impl IntoView {
    let rows = rows(&spans);
    let row_count = rows
        .iter()
        .max()
        .map_or(0_u32, |row| u32::try_from(*row + 1).unwrap_or(0));
    let foot = HEAD + 6.0 + f64::from(row_count) * ROW_HIGH;
    let month_wide = (WIDE - 2.0) / 12.0;
    let heads = (0_u32..)
        .zip(months.into_iter().take(12))
        .map(|(place, letter)| {
            let left = 1.0 + f64::from(place) * month_wide;
            view! {
                <path class="d-hair" d=format!("M{} {}V{}", n(left), n(HEAD - 6.0), n(foot)) />
                <text class="d-soft" x=n(left + month_wide / 2.0) y="15" text-anchor="middle">
                    {letter}
                </text>
            }
        })
        .collect_view();
    let drawn = spans
        .into_iter()
        .zip(rows)
        .map(|(span, row)| {
            let y = HEAD + 2.0 + f64::from(u32::try_from(row).unwrap_or(0)) * ROW_HIGH;
            let (class, path) = shape(&span, y);
            let x = words_x(&span);
            view! {
                <path class=class d=path />
                <text class="d-halo" x=n(x) y=n(y + 31.0)>{span.words}</text>
            }
        })
        .collect_view();
    let today_x = x_of(today_day);
    let (anchor, word_x) = if today_x > WIDE / 2.0 {
        ("end", today_x - 6.0)
    } else {
        ("start", today_x + 6.0)
    };
    view! {
        <figure class="drawing" tabindex="0" aria-label=text>
            <svg viewBox=format!("0 0 {WIDE} {}", n(foot + 20.0)) aria-hidden="true" focusable="false">
                {heads}
                <path class="d-hair" d=format!("M0 {}H{WIDE}", n(HEAD - 6.0)) />
                <path class="d-thick" d=format!("M{} {}V{}", n(today_x), n(HEAD - 6.0), n(foot + 18.0)) />
                {drawn}
                <text class="d-code" x=n(word_x) y=n(foot + 15.0) text-anchor=anchor>
                    {today_words}
                </text>
            </svg>
        </figure>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn span(from_day: u32, to_day: u32, words: &str) -> Span {
        Span {
            kind: SpanKind::Window,
            from_day,
            to_day,
            words: words.to_owned(),
        }
    }

    #[wasm_bindgen_test]
    fn spans_whose_words_would_meet_take_different_rows() {
        let rows = rows(&[
            span(0, 60, "repot"),
            span(20, 20, "first water"),
            span(250, 300, "in flower"),
        ]);
        assert_eq!(rows, [0, 1, 0]);
    }

    #[wasm_bindgen_test]
    fn words_at_the_year_s_end_stay_on_the_strip() {
        let late = span(350, 364, "nights below 13");
        assert!(words_x(&late) + text_width(&late.words) <= WIDE);
        assert!(x_of(9999) <= WIDE);
    }
}
