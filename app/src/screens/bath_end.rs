//! The end of a bath: where the rest may go, written down with it.

use leptos::prelude::*;
use velamen_core::view::treat::standing_baths;

use super::bath::{Tub, draft_key, in_hand};
use super::lot_parts::Refusal;
use crate::ledger::{Act, Ledger, ToldKind};
use crate::route::Route;
use crate::ui::{Bottle, Field, MainAction, PlainAction, Sheet, Slat};
use crate::words::{bath, bath_life as words, format, rejection, told};

/// It cannot be put back, so it is asked; what is typed of the rest stays in the draft.
pub(super) fn end_of_bath(tub: Tub, open: RwSignal<bool>) -> impl IntoView {
    let close = Callback::new(move |()| open.set(false));
    let rest = tub.part(|draft| draft.life.rest.clone());
    let say = move |text: String| tub.change(|draft| draft.life.rest = text);
    let refused = RwSignal::new(String::new());
    let empty = Callback::new(move |()| {
        let draft = tub.draft.get_untracked();
        let command = tub
            .ledger
            .look(|state, _| draft.ending(state, &draft.life.rest));
        let Some(command) = command else {
            open.set(false);
            tub.ledger.say(told::done(bath::TUB_EMPTY), ToldKind::Done);
            tub.end();
            return;
        };
        let act = Act::new(command, told::done(bath::TUB_EMPTY))
            .ends_draft(draft_key(tub.number))
            .then(|_| Route::Treat.replace());
        tub.ledger
            .act(act.otherwise(move |no| refused.set(rejection::say(&no))));
    });
    let thrown_out = tub.thrown_out();
    let ready = move || {
        // What is thrown out goes on no plants.
        let plants = (!thrown_out.get()).then_some(words::ON_PLANTS);
        let ready = plants.into_iter().chain([words::COLLECTED]).map(|text| {
            let press = Callback::new(move |()| say(text.to_owned()));
            view! { <PlainAction label=text.to_owned() on_press=press /> }
        });
        ready.collect_view()
    };
    view! {
        <Sheet title=bath::EMPTY_TITLE open on_close=close close_label=told::close()>
            <div class="form">
                <p>{bath::EMPTY_HOW}</p>
                <p>{words::REST_RULES}</p>
                <Field
                    label=words::REST
                    hint=words::REST_HINT
                    value=rest
                    on_input=Callback::new(say)
                    max_chars=4000
                />
                {ready}
                <Refusal words=refused />
                <MainAction label=bath::EMPTIED.to_owned() on_press=empty busy=tub.ledger.busy() />
                <PlainAction label=bath::KEEP.to_owned() on_press=close />
            </div>
        </Sheet>
    }
}

/// Baths of today that the book knows of and this phone has not in hand.
#[component]
pub fn Elsewhere() -> impl IntoView {
    let ledger = Ledger::here();
    let rows = ledger.ask(|state, at| standing_baths(state, at.today));
    let here = Memo::new(move |_| {
        let baths = in_hand(ledger).into_iter();
        ledger.follow(|state, _| {
            baths
                .filter_map(|(_, draft)| draft.bath(state))
                .collect::<Vec<_>>()
        })
    });
    move || {
        let mut rows = rows.get();
        rows.retain(|row| here.with(|here| !here.contains(&row.bath)));
        (!rows.is_empty()).then(|| {
            let rows = rows.into_iter().map(|row| {
                let clock = row
                    .out_ms
                    .map(|ms| format::clock(velamen_core::time::minute_of_day(ms, row.off_min)));
                let note = words::elsewhere(&clock.unwrap_or_default(), row.pieces, row.topped);
                view! {
                    <a class="pick" href=Route::Entry(row.entry).href()>
                        <Bottle name=row.label_name note />
                    </a>
                }
            });
            view! { <Slat name=words::ELSEWHERE /> {rows.collect_view()} }
        })
    }
}
