//! What can change about a lot: where it stands, how many there are, what became of them.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::event::{GainWhy, LossCause, SplitWhy};
use velamen_core::id::LotId;
use velamen_core::view::{lot_label, places};

use crate::ledger::{Act, Ledger};
use crate::ui::{Choice, Choices, ChoicesLook, PlainAction, Stepper};
use crate::words::{rejection, repot, stock as words, trade};

/// The form under a lot's head.
#[component]
pub fn Change(lot: LotId, changing: RwSignal<bool>) -> impl IntoView {
    let ledger = Ledger::here();
    let (label, walk) =
        ledger.look(|state, _| (lot_label(state.facts(), lot), places(state.facts())));
    let count = RwSignal::new(label.plants.max(1));
    let cause = RwSignal::new(format!("{:?}", LossCause::Unknown));
    let error = RwSignal::new(String::new());
    let act = move |command: Command, said: &str| {
        let act = Act::new(command, said);
        ledger.act(
            act.then(move |_| changing.set(false))
                .otherwise(move |no| error.set(rejection::say(&no))),
        );
    };
    let stands_for = move |plants: u32| {
        // Where every plant has its own pot, the pots go with the plants.
        if label.plants == label.stands {
            plants
        } else {
            0
        }
    };
    let number = move || u32::try_from(count.get_untracked()).unwrap_or(0);
    let key = move |label: &'static str, work: Callback<()>| {
        view! { <PlainAction label=label.to_owned() on_press=work busy=ledger.busy() /> }
    };
    let counted = Callback::new(move |()| {
        let plants = number();
        let stands = if label.plants == label.stands {
            plants
        } else {
            u32::try_from(label.stands).unwrap_or(0)
        };
        act(
            Command::CountLot {
                lot,
                plants,
                stands,
            },
            words::COUNTED,
        );
    });
    let lost = Callback::new(move |()| {
        let chosen = cause.get_untracked();
        let cause = LossCause::ALL
            .into_iter()
            .find(|known| format!("{known:?}") == chosen)
            .unwrap_or(LossCause::Unknown);
        let (plants, stands) = (number(), stands_for(number()));
        act(
            Command::LoseFromLot {
                lot,
                plants,
                stands,
                cause,
                note: String::new(),
            },
            words::LOST,
        );
    });
    let sold = Callback::new(move |()| {
        let (plants, stands) = (number(), stands_for(number()));
        act(
            Command::SellFromLot {
                lot,
                plants,
                stands,
                to: String::new(),
                price_cents: None,
                note: String::new(),
            },
            words::SOLD,
        );
    });
    let split = Callback::new(move |()| {
        let (plants, stands) = (number(), stands_for(number()));
        act(
            Command::SplitLot {
                from: lot,
                plants,
                stands,
                place: None,
                why: SplitWhy::Sorted,
            },
            words::SPLIT_DONE,
        );
    });
    let gained = Callback::new(move |()| {
        let (plants, stands) = (number(), stands_for(number()));
        act(
            Command::GainInLot {
                lot,
                plants,
                stands,
                why: GainWhy::Found,
                note: String::new(),
            },
            words::GAINED,
        );
    });
    let move_to = Callback::new(move |chosen: String| {
        if let Ok(to) = chosen.parse() {
            act(Command::MoveLot { lot, to }, words::MOVED);
        }
    });
    let stops: Vec<Choice> = walk
        .into_iter()
        .map(|stop| Choice {
            key: stop.place.to_string(),
            label: stop.name,
            hint: None,
        })
        .collect();
    let here = ledger.look(|state, _| {
        state
            .facts()
            .lots
            .get(&lot)
            .and_then(|lot| lot.place.get().map(ToString::to_string))
    });
    let causes: Vec<Choice> = LossCause::ALL
        .into_iter()
        .map(|cause| Choice {
            key: format!("{cause:?}"),
            label: trade::cause(cause).to_owned(),
            hint: None,
        })
        .collect();
    let problem = move || {
        let error = error.get();
        (!error.is_empty()).then(|| view! { <p class="warn" role="alert">{error}</p> })
    };
    view! {
        {problem}
        <Stepper
            label=words::HOW_MANY
            count
            on_count=Callback::new(move |now: i64| { error.set(String::new()); count.set(now) })
            less_label=repot::one_less(words::HOW_MANY)
            more_label=repot::one_more(words::HOW_MANY)
            five_label=repot::FIVE
            max=100_000
        />
        <div class="form">
            <div class="pair">{key(words::COUNT, counted)} {key(words::SELL, sold)}</div>
            <div class="pair">{key(words::SPLIT, split)} {key(words::MORE_CAME, gained)}</div>
            <Choices
                legend=words::WHY
                choices=causes
                chosen=cause
                on_choose=Callback::new(move |key| cause.set(key))
                look=ChoicesLook::Chips
            />
            {key(words::LOSE, lost)}
            {(!stops.is_empty()).then(|| view! {
                <Choices
                    legend=words::MOVE
                    choices=stops
                    chosen=Signal::derive(move || here.clone().unwrap_or_default())
                    on_choose=move_to
                    look=ChoicesLook::Chips
                />
            })}
        </div>
    }
}
