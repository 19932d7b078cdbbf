//! The first start: one question, and a book with pots, mixes and protocols to begin with.

use leptos::prelude::*;
use velamen_core::code::Prefix;
use velamen_core::command::{Command, OpenBook};
use velamen_core::event::MixShare;
use velamen_core::id::Dev;
use velamen_core::reference::{media, pots};
use velamen_core::season::Hemisphere;

use crate::frame::{next_version, notices};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Choice, Choices, Field, MainAction, PlainLink, Screen};
use crate::words::{rejection, start, trouble};

const NORTH: &str = "north";
const SOUTH: &str = "south";

/// While the book is being opened.
#[component]
pub fn Opening() -> impl IntoView {
    view! {
        <Screen title=start::WELCOME>
            <p class="edge">{start::OPENING}</p>
        </Screen>
    }
}

/// The book cannot be opened.
#[component]
pub fn Trouble(error: crate::ledger::StorageError) -> impl IntoView {
    let ledger = Ledger::here();
    let again = Callback::new(move |()| ledger.open_again());
    let actions = move || view! { <MainAction label=trouble::try_again() on_press=again /> };
    let why = trouble::why(&error);
    view! {
        <Screen title=trouble::cannot_open() actions=actions notice=next_version>
            <p class="edge">{why}</p>
        </Screen>
    }
}

/// No book on this phone yet.
#[component]
pub fn FirstStart() -> impl IntoView {
    let ledger = Ledger::here();
    let nursery = RwSignal::new(String::new());
    let hemisphere = RwSignal::new(NORTH.to_owned());
    let error = RwSignal::new(String::new());
    let open = Callback::new(move |()| {
        let south = hemisphere.get_untracked() == SOUTH;
        let hemisphere = if south {
            Hemisphere::South
        } else {
            Hemisphere::North
        };
        let command = Command::OpenBook(opening(ledger, nursery.get_untracked(), hemisphere));
        let act = Act::new(command, start::OPENED).for_good();
        ledger.act(
            act.then(|_| Route::Round.replace())
                .otherwise(move |no| error.set(rejection::say(&no))),
        );
    });
    let busy = ledger.busy();
    let actions = move || {
        view! {
            <PlainLink href=Route::Files.href() label=start::TAKE_IN />
            <MainAction label=start::OPEN.to_owned() on_press=open busy />
        }
    };
    let choices = vec![
        Choice {
            key: NORTH.to_owned(),
            label: start::NORTH.to_owned(),
            hint: None,
        },
        Choice {
            key: SOUTH.to_owned(),
            label: start::SOUTH.to_owned(),
            hint: None,
        },
    ];
    view! {
        <Screen title=start::WELCOME actions=actions notice=notices>
            <div class="form">
                <p>{start::ABOUT}</p>
                <Field
                    label=start::NURSERY
                    value=nursery
                    on_input=Callback::new(move |text| {
                        error.set(String::new());
                        nursery.set(text);
                    })
                    error
                    max_chars=200
                />
                <Choices
                    legend=start::WHERE
                    choices
                    chosen=hemisphere
                    on_choose=Callback::new(move |key| hemisphere.set(key))
                />
            </div>
        </Screen>
    }
}

fn opening(ledger: Ledger, nursery: String, hemisphere: Hemisphere) -> OpenBook {
    let chance = ledger.chance();
    OpenBook {
        book: Dev(chance),
        nursery,
        hemisphere,
        latitude_cdeg: None,
        demo: false,
        prefix: Prefix::pick(chance.rotate_left(32)),
        phone_name: String::new(),
        pots: pots::POTS
            .iter()
            .map(|row| (start::pot_name(row.top_mm), row.pot()))
            .collect(),
        mixes: mixes(),
    }
}

/// Mixes of one component to begin with; the grower's own follow.
fn mixes() -> Vec<(String, Vec<MixShare>, u16)> {
    let rows = [
        ("bark_coarse", start::COARSE_BARK),
        ("bark_medium", start::MEDIUM_BARK),
        ("sphagnum_long", start::MOSS),
    ];
    rows.into_iter()
        .map(|(key, name)| {
            let life = media::component(key)
                .and_then(|row| row.life_months)
                .map_or(0, |(least, _)| least);
            (
                name.to_owned(),
                vec![MixShare {
                    component: key.to_owned(),
                    permille: 1_000,
                }],
                life,
            )
        })
        .collect()
}
