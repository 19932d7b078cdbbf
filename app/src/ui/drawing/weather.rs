//! Minimum and maximum of a house over weeks, as a band between two lines.
//!
//! Invariants: every day has the same width; a day without a reading leaves the band open, and no line is drawn across
//! it. The numbers at the edge are the coldest and the hottest of what is shown.

use super::{WIDE, n};
use leptos::prelude::*;
use std::fmt::Write;

const TOP: f64 = 24.0;
const HIGH: f64 = 120.0;
const FOOT: f64 = TOP + HIGH;
/// Room at the left for the two numbers.
const LEFT: f64 = 44.0;

/// A day's two numbers in thousandths, or nothing.
pub type WeatherDay = Option<(i32, i32)>;

/// Runs of days that follow one another without a gap: where each begins, and its days.
fn runs(days: &[WeatherDay]) -> Vec<(usize, Vec<(i32, i32)>)> {
    let mut runs: Vec<(usize, Vec<(i32, i32)>)> = Vec::new();
    let mut open = false;
    for (at, day) in days.iter().enumerate() {
        match (day, runs.last_mut()) {
            (Some(pair), Some((_, run))) if open => run.push(*pair),
            (Some(pair), _) => runs.push((at, vec![*pair])),
            (None, _) => {}
        }
        open = day.is_some();
    }
    runs
}

/// The coldest and the hottest, with a little room; never a flat line.
fn bounds(days: &[WeatherDay]) -> Option<(i32, i32)> {
    let low = days.iter().flatten().map(|(low, _)| *low).min()?;
    let high = days.iter().flatten().map(|(_, high)| *high).max()?;
    Some((low, high.max(low.saturating_add(1_000))))
}

struct Scale {
    low: f64,
    span: f64,
    step: f64,
}

impl Scale {
    fn x(&self, day: usize) -> f64 {
        let day = f64::from(u32::try_from(day).unwrap_or(0));
        LEFT + (day + 0.5) * self.step
    }

    fn y(&self, value: i32) -> f64 {
        FOOT - (f64::from(value) - self.low) / self.span * HIGH
    }
}

/// The band of one run: along the maxima and back along the minima, half a day wide at each end.
fn band(scale: &Scale, from: usize, run: &[(i32, i32)]) -> String {
    let half = scale.step / 2.0;
    let mut path = String::new();
    let mut put = |x: f64, value: i32| {
        let sign = if path.is_empty() { 'M' } else { 'L' };
        let _ = write!(path, "{sign}{} {}", n(x), n(scale.y(value)));
    };
    let last = from + run.len().saturating_sub(1);
    if let (Some(first), Some(end)) = (run.first(), run.last()) {
        put(scale.x(from) - half, first.1);
        for (at, (_, high)) in (from..).zip(run) {
            put(scale.x(at), *high);
        }
        put(scale.x(last) + half, end.1);
        put(scale.x(last) + half, end.0);
        for (at, (low, _)) in (from..).zip(run).collect::<Vec<_>>().into_iter().rev() {
            put(scale.x(at), *low);
        }
        put(scale.x(from) - half, first.0);
    }
    path.push('Z');
    path
}

/// The drawing.
#[component]
pub fn WeatherBand(
    /// The days in order, the last one last.
    days: Vec<WeatherDay>,
    /// Words for the coldest and the hottest, such as "-1.5".
    low_words: String,
    high_words: String,
    /// Words under the first day and under the last.
    #[prop(into)]
    from_words: String,
    #[prop(into)] to_words: String,
    /// The whole drawing in a sentence.
    #[prop(into)]
    text: String,
) -> impl IntoView {
    let (low, high) = bounds(&days).unwrap_or((0, 1_000));
    let count = f64::from(u32::try_from(days.len().max(1)).unwrap_or(1));
    let scale = Scale {
        low: f64::from(low),
        span: f64::from(high) - f64::from(low),
        step: (WIDE - LEFT - 2.0) / count,
    };
    let bands: Vec<String> = runs(&days)
        .iter()
        .map(|(from, run)| band(&scale, *from, run))
        .collect();
    let bands = bands
        .into_iter()
        .map(|path| view! { <path class="d-wash" d=path /> })
        .collect_view();
    let frost = (low < 0 && high > 0).then(|| {
        let y = n(scale.y(0));
        view! { <path class="d-dash" d=format!("M{} {y}H{WIDE}", n(LEFT)) /> }
    });
    let line = |y: f64| format!("M{} {}H{WIDE}", n(LEFT), n(y));
    view! {
        <figure class="drawing" tabindex="0" aria-label=text>
            <svg viewBox=format!("0 0 {WIDE} {}", n(FOOT + 26.0)) aria-hidden="true" focusable="false">
                <path class="d-hair" d=line(TOP) />
                <path class="d-hair" d=line(FOOT) />
                {frost}
                {bands}
                <text x="0" y=n(TOP + 5.0)>{high_words}</text>
                <text x="0" y=n(FOOT + 5.0)>{low_words}</text>
                <text class="d-soft" x=n(LEFT) y=n(FOOT + 22.0)>{from_words}</text>
                <text class="d-soft" x=n(WIDE) y=n(FOOT + 22.0) text-anchor="end">{to_words}</text>
            </svg>
        </figure>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_day_nobody_read_leaves_the_band_open() {
        let days = [Some((1, 2)), Some((1, 2)), None, Some((3, 4))];
        let runs = runs(&days);
        assert_eq!(runs.len(), 2);
        assert_eq!(
            runs.first().map(|(from, run)| (*from, run.len())),
            Some((0, 2))
        );
        assert_eq!(
            runs.get(1).map(|(from, run)| (*from, run.len())),
            Some((3, 1))
        );
    }

    #[wasm_bindgen_test]
    fn one_and_the_same_number_every_day_is_still_a_drawing() {
        assert_eq!(bounds(&[Some((5, 5)), None]), Some((5, 1_005)));
        assert_eq!(bounds(&[None, None]), None);
    }
}
