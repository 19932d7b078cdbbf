//! The first start: one question, and a book with pots, mixes and protocols to begin with; or an example.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::season::Hemisphere;

use crate::frame::{next_version, notices, room_bar, told_here};
use crate::ledger::{Act, Ledger, Phase, StorageError};
use crate::rest::{self, Wanted};
use crate::route::{self, Route};
use crate::screens::phone::Languages;
use crate::ui::{
    Choice, Choices, Field, Glyph, MainAction, PlainAction, PlainLink, Progress, Screen, Slat,
    stands_first,
};
use crate::words::{files, rejection, start, trouble};

const NORTH: &str = "north";
const SOUTH: &str = "south";

/// While the book is being opened. What the page showed first says the same, and stays where it stands. Where there is
/// a book, its rooms lead away.
#[component]
pub fn Opening() -> impl IntoView {
    let ledger = Ledger::here();
    let rooms = move || {
        let is_book = matches!(ledger.phase(), Phase::Early | Phase::Ready);
        is_book.then(|| room_bar(route::here()))
    };
    (!stands_first()).then(|| {
        view! {
            <Screen title=start::WELCOME rooms>
                <p class="edge">{start::OPENING}</p>
            </Screen>
        }
    })
}

/// While the example is being written.
#[component]
pub fn Making() -> impl IntoView {
    let pct = Ledger::here().made_pct();
    let words = Signal::derive(move || start::made(pct.get()));
    view! {
        <Screen title=start::MAKING>
            <div class="form">
                <p>{start::MAKING_HINT}</p>
                <Progress label=start::MAKING pct words />
            </div>
        </Screen>
    }
}

/// The book cannot be opened.
#[component]
pub fn Trouble(error: StorageError) -> impl IntoView {
    let ledger = Ledger::here();
    let again = Callback::new(move |()| ledger.open_again());
    let actions = move || view! { <MainAction label=trouble::try_again() on_press=again /> };
    let why = trouble::why(&error);
    // What another window, a newer version or a private window stand in the way of is not damaged.
    let damaged = matches!(error, StorageError::Other(_) | StorageError::Closed);
    if damaged {
        // Nothing is opened any more that would bring it.
        rest::ask_for();
    }
    let notice = move || view! { {next_version()} {told_here()} };
    view! {
        <Screen title=trouble::cannot_open() actions=actions notice>
            <p class="edge">{why}</p>
            {damaged.then(|| rest::later(Wanted::Rescue(ledger)))}
        </Screen>
    }
}

/// Saves what can be read, and then builds the book anew from it.
pub(crate) fn rescue(ledger: Ledger) -> impl IntoView {
    let saved = RwSignal::new(false);
    let save = Callback::new(move |()| ledger.save_rescue(saved));
    let build = Callback::new(move |()| ledger.rebuild());
    view! {
        <div class="form">
            <p>{files::RESCUE_HINT}</p>
            <PlainAction label=files::SAVE_RESCUE on_press=save />
            {move || saved.get().then(|| view! { <PlainAction label=files::REBUILD on_press=build /> })}
        </div>
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
        let command = Command::OpenBook(ledger.opening(nursery.get_untracked(), hemisphere));
        let act = Act::new(command, start::OPENED).for_good();
        ledger.act(
            act.then(|_| Route::Round.replace())
                .otherwise(move |no| error.set(rejection::say(&no))),
        );
    });
    // What was looked for in another book is not looked for in this one.
    super::stock::look_for_nothing();
    let look = Callback::new(move |()| {
        ledger.look_around();
        Route::Round.replace();
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
                <p class="opening-line">{start::ABOUT}</p>
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
            <Slat name=start::OR_LOOK />
            <div class="form">
                <p>{start::ABOUT_EXAMPLE}</p>
                <PlainAction label=start::LOOK_AROUND glyph=Glyph::Magnifier on_press=look busy />
                <Languages />
            </div>
        </Screen>
    }
}
