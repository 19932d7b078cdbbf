//! The shelf of products: each with what its label still lacks, and a new one begun with its name.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::command::{Command, ProductTraits};
use velamen_core::event::Event;
use velamen_core::view::containers;
use velamen_core::view::treat::products;

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Bottle, Field, MainAction, Screen, Slat};
use crate::words::{bath, containers as shelf, product as words, rejection, told, treat};

const DRAFT: &str = "new_product";

#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct NewProduct {
    #[serde(default)]
    name: String,
}

/// The list, and a new one.
#[component]
pub fn Products() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, at| {
        let bottles = containers::all(state, at.today);
        let rows = products(state).into_iter();
        rows.map(|row| {
            let of_it = bottles.iter().filter(|it| it.product == row.product);
            let mut said: Vec<String> = of_it.flat_map(shelf::warnings).collect();
            said.insert(0, treat::still_missing(&row.missing));
            said.retain(|one| !one.is_empty());
            (row, said.join(" "))
        })
        .collect::<Vec<_>>()
    });
    let draft = ledger.draft::<NewProduct>(DRAFT);
    let error = RwSignal::new(String::new());
    let add = Callback::new(move |()| {
        let command = Command::SetProduct {
            product: None,
            traits: ProductTraits {
                label_name: Some(draft.get_untracked().name),
                ..ProductTraits::default()
            },
        };
        let act = Act::new(command, told::done(bath::ON_THE_SHELF))
            .ends_draft(DRAFT)
            .then(|done| {
                if let Some(Event::ProductSet(set)) = done.events.first() {
                    Route::Product(set.product).go();
                }
            });
        ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
    });
    let rows = move || {
        let rows = shown.get();
        if rows.is_empty() {
            return view! { <p class="edge soft">{words::NONE_YET}</p> }.into_any();
        }
        rows.into_iter()
            .map(|(row, note)| {
                view! {
                    <a class="pick" href=Route::Product(row.product).href()>
                        <Bottle name=row.label_name rate=row.rate_typed note />
                    </a>
                }
            })
            .collect_view()
            .into_any()
    };
    let actions = move || view! { <MainAction label=words::ADD.to_owned() on_press=add busy=ledger.busy() /> };
    view! {
        <Screen title=words::PRODUCTS back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <p class="edge">{treat::LAW}</p>
            {rows}
            <Slat name=words::NEW />
            <div class="form">
                <Field
                    label=bath::NAME
                    value=Signal::derive(move || draft.get().name)
                    on_input=Callback::new(move |name: String| {
                        error.set(String::new());
                        ledger.keep_draft(DRAFT, &NewProduct { name });
                    })
                    error
                    max_chars=200
                />
            </div>
        </Screen>
    }
}
