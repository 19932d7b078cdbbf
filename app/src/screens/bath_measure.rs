//! An amount as fills of the measures on the shelf.

use leptos::prelude::*;
use velamen_core::measure::{Dose, Plan};
use velamen_core::quantity::{Amount, Volume};
use velamen_core::view::measures::{Measuring, MeasuringStep, measuring};

use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::PlainLink;
use crate::words::measure as words;

/// Under the amount: which measure how often, or what is in the way.
pub(super) fn fills(ledger: Ledger, dose: Memo<Option<(Dose, Volume)>>) -> impl IntoView {
    let found = Memo::new(move |_| {
        let (dose, water) = dose.get()?;
        ledger.follow(|state, _| Some(measuring(state, &dose, water)))
    });
    move || {
        Some(match found.get()? {
            Measuring::NoMeasures => quiet().into_any(),
            Measuring::Steps { steps, plan, total } => said(&steps, &plan, total).into_any(),
            why => view! {
                <div class="card stack">
                    <p class="warn">{words::cannot(&why)}</p>
                    <PlainLink href=Route::Measures.href() label=words::TITLE />
                </div>
            }
            .into_any(),
        })
    }
}

/// One line that leads to the shelf.
fn quiet() -> impl IntoView {
    view! {
        <div class="form">
            <p class="soft">{words::QUIET}</p>
            <PlainLink href=Route::Measures.href() label=words::TO_SHELF />
        </div>
    }
}

fn said(steps: &[MeasuringStep], plan: &Plan, total: Amount) -> impl IntoView + use<> {
    let rows = steps
        .iter()
        .map(|step| view! { <li>{words::step(step)}</li> })
        .collect_view();
    let sum = words::sum(total, plan.exact, plan.over, plan.off_permille);
    let below = plan
        .below_least
        .then(|| view! { <p class="warn">{words::BELOW}</p> });
    let range = plan
        .in_range_permille
        .filter(|_| !plan.below_least)
        .map(|permille| view! { <p class="soft">{words::in_range(permille)}</p> });
    view! {
        <div class="card stack">
            <p class="soft">{words::WITH}</p>
            <ul class="fills">{rows}</ul>
            <p class="strong">{sum}</p>
            {below}
            {range}
        </div>
    }
}
