//! The nursery as a plan: houses beside each other where there is room, their benches left and right of the aisle in the
//! order of the walk.
//!
//! Invariants: what is late is a block of ink on a foot, what is due is filled, what is held is hatched, each with its
//! number in it; a bench with nothing to do is bare. Every bench leads somewhere and says in words what it shows. The
//! benches are boxes of the page and no drawing, so that names are whole whatever the letters, doubled text doubles, and
//! paper breaks between benches.

use leptos::prelude::*;

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
    /// Lots without a place: drawn with a broken line.
    pub loose: bool,
}

/// A house.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanHouse {
    pub name: String,
    pub benches: Vec<PlanBench>,
}

/// The mark of so many rows in one state.
fn mark(count: usize, class: &'static str) -> Option<AnyView> {
    (count > 0).then(|| view! { <span class=class>{count}</span> }.into_any())
}

fn bench(bench: PlanBench) -> AnyView {
    let kinds = [
        (bench.late, "plan-mark plan-late"),
        (bench.due, "plan-mark plan-due"),
        (bench.held, "plan-mark plan-held"),
    ];
    let marks: Vec<AnyView> = kinds
        .into_iter()
        .filter_map(|(count, class)| mark(count, class))
        .collect();
    let stands = marks
        .is_empty()
        .then(|| view! { <span>{bench.stands}</span> });
    let class = if bench.loose {
        "plan-bench plan-loose"
    } else {
        "plan-bench"
    };
    view! {
        <a class=class href=bench.href aria-label=bench.label>
            <span class="plan-name">{bench.name}</span>
            <span class="plan-marks">{marks}{stands}</span>
        </a>
    }
    .into_any()
}

fn house(house: PlanHouse) -> AnyView {
    let name = (!house.name.is_empty()).then(|| view! { <p class="plan-head">{house.name}</p> });
    let benches: Vec<AnyView> = house.benches.into_iter().map(bench).collect();
    view! {
        <div class="plan-house">
            {name}
            <div class="plan-benches">{benches}</div>
        </div>
    }
    .into_any()
}

/// The plan.
#[component]
pub fn Plan(
    /// In walking order.
    houses: Vec<PlanHouse>,
    /// The whole plan in a sentence.
    #[prop(into)]
    text: String,
) -> impl IntoView {
    let houses: Vec<AnyView> = houses.into_iter().map(house).collect();
    view! { <figure class="plan" aria-label=text>{houses}</figure> }
}
