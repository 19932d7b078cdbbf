//! What to buy before the next planned treatments: a list to tick off and to print.

use std::collections::BTreeSet;

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::id::ProductId;
use velamen_core::view::buying::{BuyRow, to_buy};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{PlainAction, Screen};
use crate::words::containers as words;

const DRAFT: &str = "to_buy";

/// What was ticked off.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct Ticked {
    #[serde(default)]
    bought: BTreeSet<ProductId>,
}

/// The screen.
#[component]
pub fn ToBuy() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, at| to_buy(state, at.today));
    let ticked = ledger.draft::<Ticked>(DRAFT);
    let list = move || {
        let list = shown.get();
        if list.rows.is_empty() && list.open.is_empty() {
            return view! { <p class="edge soft">{words::BUY_NONE}</p> }.into_any();
        }
        let today = ledger.moment().today;
        let rows = list.rows.iter().map(|row| line(ledger, ticked, row));
        let open = list.open.iter().map(|(on, plants)| {
            view! { <p class="edge">{words::open(*on, *plants, today)}</p> }
        });
        view! {
            {rows.collect_view()}
            {open.collect_view()}
            <p class="edge soft">{words::BUY_ORIGIN}</p>
        }
        .into_any()
    };
    let print = Callback::new(move |()| ledger.print());
    view! {
        <Screen title=words::BUY back=back_to_shed notice=notices rooms=|| room_bar(Route::Book)>
            <p class="edge">{words::BUY_HINT}</p>
            {list}
            <div class="form">
                <PlainAction label=words::PRINT.to_owned() on_press=print />
            </div>
        </Screen>
    }
}

fn line(ledger: Ledger, ticked: Memo<Ticked>, row: &BuyRow) -> impl IntoView + use<> {
    let product = row.product;
    let today = ledger.moment().today;
    let bought = move || ticked.with(|ticked| ticked.bought.contains(&product));
    let flip = move |_| {
        ledger.change_draft(DRAFT, |ticked: &mut Ticked| {
            if !ticked.bought.remove(&product) {
                ticked.bought.insert(product);
            }
        });
    };
    let short = row.short.is_some();
    view! {
        <button type="button" class="choose" aria-pressed=move || bought().to_string() on:click=flip>
            <span class="strong">{row.label_name.clone()}</span>
            <span>{words::needs(row, today)}</span>
            <span class:strong=short>{words::shelf(row)}</span>
            {move || bought().then(|| view! { <span class="soft">{words::BOUGHT}</span> })}
        </button>
    }
}
