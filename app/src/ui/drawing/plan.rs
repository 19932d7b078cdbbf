//! The nursery as a plan: houses one under the other, their benches left and right of the aisle in the order of the walk.
//!
//! Invariants: what is late is a block of ink on a foot, what is due is filled, what is held is hatched, each with its
//! number in it; a bench with nothing to do is bare. Every bench leads somewhere and says in words what it shows. Names
//! run over two lines; what does not fit ends in an ellipsis here and is whole in the words.

use super::{WIDE, n, text_width};
use leptos::prelude::*;

const BENCH_WIDE: f64 = 132.0;
const BENCH_HIGH: f64 = 84.0;
const GAP: f64 = 10.0;
const MARK_WIDE: f64 = 34.0;
const MARK_HIGH: f64 = 24.0;
const NAME_HIGH: f64 = 26.0;

/// A bench.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanBench {
    /// Where it leads, as a fragment.
    pub href: String,
    pub name: String,
    /// What stands there, short.
    pub stands: String,
    pub late: usize,
    pub due: usize,
    pub held: usize,
    /// The bench in words.
    pub label: String,
    /// The one that is open beside the plan, or lots without a place: drawn with a broken line.
    pub loose: bool,
}

/// A house.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanHouse {
    pub name: String,
    pub benches: Vec<PlanBench>,
}

/// A name in at most two lines that fit on a bench.
pub(crate) fn in_two_lines(name: &str) -> (String, String) {
    let fits = |text: &str| text_width(text) <= BENCH_WIDE - 12.0;
    let mut lines = [String::new(), String::new()];
    let mut at = 0_usize;
    for word in name.split_whitespace() {
        let Some(line) = lines.get_mut(at) else { break };
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if fits(&longer) || line.is_empty() {
            *line = longer;
        } else if at == 0 {
            at = 1;
            if let Some(next) = lines.get_mut(1) {
                word.clone_into(next);
            }
        } else {
            *line = longer;
        }
    }
    let cut = |line: String| {
        if fits(&line) {
            return line;
        }
        let mut kept = line;
        while !kept.is_empty() && !fits(&format!("{kept}…")) {
            kept.pop();
        }
        format!("{}…", kept.trim_end())
    };
    let [first, second] = lines;
    (cut(first), cut(second))
}

/// The mark of so many rows in one state.
fn mark(x: f64, y: f64, count: usize, kind: &'static str) -> Option<AnyView> {
    if count == 0 {
        return None;
    }
    let (left, right, top, foot) = (x, x + MARK_WIDE, y, y + MARK_HIGH);
    let block = format!(
        "M{} {}H{}V{}H{}Z",
        n(left),
        n(top),
        n(right),
        n(foot),
        n(left)
    );
    let ground = if kind == "held" {
        "d-paper"
    } else if kind == "late" {
        "d-ink"
    } else {
        "d-root"
    };
    // Held is hatched; late stands on a foot that reaches past it.
    let over = match kind {
        "held" => (1_u32..5)
            .map(|step| {
                let from = left + f64::from(step) * MARK_WIDE / 5.0;
                format!(
                    "M{} {}L{} {}",
                    n(from),
                    n(top),
                    n(from - MARK_WIDE / 5.0),
                    n(foot)
                )
            })
            .collect(),
        "late" => format!("M{} {}H{}", n(left - 3.0), n(foot + 3.0), n(right + 3.0)),
        _ => String::new(),
    };
    let words = if kind == "held" {
        "d-code d-halo"
    } else {
        "d-code d-turned"
    };
    Some(
        view! {
            <path class=ground d=block />
            <path class=if kind == "late" { "d-thick" } else { "d-lead" } d=over />
            <text class=words text-anchor="middle" x=n(left + MARK_WIDE / 2.0) y=n(top + 17.5)>{count}</text>
        }
        .into_any(),
    )
}

fn bench(bench: PlanBench, x: f64, y: f64) -> AnyView {
    let (first, second) = in_two_lines(&bench.name);
    let slat = format!(
        "M{} {}h{}v{}h-{}Z",
        n(x),
        n(y),
        n(BENCH_WIDE),
        n(BENCH_HIGH),
        n(BENCH_WIDE)
    );
    let marks_y = y + BENCH_HIGH - MARK_HIGH - 8.0;
    let kinds = [
        (bench.late, "late"),
        (bench.due, "due"),
        (bench.held, "held"),
    ];
    let bare = kinds.iter().all(|(count, _)| *count == 0);
    let mut at = x + 8.0;
    let marks: Vec<AnyView> = kinds
        .into_iter()
        .filter_map(|(count, kind)| {
            let drawn = mark(at, marks_y, count, kind);
            if drawn.is_some() {
                at += MARK_WIDE + 8.0;
            }
            drawn
        })
        .collect();
    let stands = bare.then(|| {
        view! { <text class="d-soft" x=n(x + 8.0) y=n(marks_y + 18.0)>{bench.stands}</text> }
    });
    view! {
        <g><a href=bench.href aria-label=bench.label>
            <path class=if bench.loose { "d-dash" } else { "d-paper" } d=slat />
            <text class="d-code" x=n(x + 8.0) y=n(y + 19.0)>{first}</text>
            <text class="d-code" x=n(x + 8.0) y=n(y + 37.0)>{second}</text>
            {marks}
            {stands}
        </a></g>
    }
    .into_any()
}

/// The plan.
#[component]
pub fn Plan(
    /// In walking order.
    houses: Vec<PlanHouse>,
    /// The whole drawing in a sentence.
    #[prop(into)]
    text: String,
) -> impl IntoView {
    let mut y = 2.0;
    let mut drawn: Vec<AnyView> = Vec::new();
    for house in houses {
        if !house.name.is_empty() {
            drawn.push(
                view! { <text class="d-value" x="0" y=n(y + 18.0)>{house.name}</text> }.into_any(),
            );
            y += NAME_HIGH;
        }
        let top = y;
        let many = house.benches.len() > 1;
        let mut left = true;
        for it in house.benches {
            let x = if left { 1.0 } else { WIDE - BENCH_WIDE - 1.0 };
            drawn.push(bench(it, x, y));
            if !left {
                y += BENCH_HIGH + GAP;
            }
            left = !left;
        }
        if !left {
            y += BENCH_HIGH + GAP;
        }
        // The walk down the aisle.
        if many {
            let (middle, foot) = (WIDE / 2.0, y - GAP);
            let aisle = format!(
                "M{} {}V{}M{} {}l5 -7M{} {}l-5 -7",
                n(middle),
                n(top),
                n(foot),
                n(middle),
                n(foot),
                n(middle),
                n(foot)
            );
            drawn.push(view! { <path class="d-line d-aisle" d=aisle /> }.into_any());
        }
        y += GAP;
    }
    view! {
        <figure class="drawing plan" aria-label=text>
            <svg viewBox=format!("0 0 {WIDE} {}", n(y.max(10.0)))>{drawn}</svg>
        </figure>
    }
}

#[cfg(test)]
mod tests {
    use super::in_two_lines;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_name_runs_over_two_lines_and_is_cut_only_at_the_end() {
        assert_eq!(
            in_two_lines("bench 2"),
            ("bench 2".to_owned(), String::new())
        );
        let (first, second) = in_two_lines("the long bench under the north window by the door");
        assert_eq!(first, "the long bench");
        assert!(
            second.starts_with("under the") && second.ends_with('…'),
            "{second}"
        );
        let (one, none) = in_two_lines("Aufzuchtgewächshausabteilung");
        assert!(one.ends_with('…') && none.is_empty(), "{one}");
    }
}
