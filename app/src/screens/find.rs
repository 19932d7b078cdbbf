//! A lot by the label in one's hand: through the camera, or by typing its code.

use leptos::prelude::*;
use velamen_core::code::LotCode;
use velamen_core::id::Subject;
use velamen_core::state::State;
use velamen_core::view::LotLabel;
use velamen_core::view::labels::by_code;

use super::through::{Through, ThroughWords};
use crate::frame::{notices, room_bar};
use crate::ledger::{Ledger, Seen};
use crate::route::Route;
use crate::ui::{Field, MainAction, Screen, Stake, TopBack};
use crate::words::{labels::find as words, rooms, trade};

/// What a label says.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Label {
    /// The way to a thing of this book.
    Known(Route),
    /// A lot's code, with the lots that carry it.
    Lots(LotCode, Vec<LotLabel>),
    /// One of this program's, but nothing of this book.
    Stranger,
    /// None of this program's.
    None,
}

/// Reads what a code says: the end of a link, whichever address it was printed at, or a code in letters.
fn read(state: &State, text: &str) -> Label {
    if let Ok(code) = LotCode::parse(text) {
        return Label::Lots(code, by_code(state, code));
    }
    let Some((_, fragment)) = text.rsplit_once('#') else {
        return Label::None;
    };
    let facts = state.facts();
    let (route, known) = match Route::parse(fragment) {
        Route::Lot(lot) => (Route::Lot(lot), facts.lots.contains_key(&lot)),
        Route::Clump(clump) => (Route::Clump(clump), facts.clumps.contains_key(&clump)),
        Route::Place(place) => (Route::Place(place), facts.places.contains_key(&place)),
        _ => return Label::None,
    };
    // What a newer version wrote may lock a thing; it is known all the same.
    let locked = match route {
        Route::Lot(lot) => facts.locked.contains_key(&Subject::Lot(lot)),
        _ => false,
    };
    if known || locked {
        Label::Known(route)
    } else {
        Label::Stranger
    }
}

/// The screen.
#[component]
pub fn Find() -> impl IntoView {
    let ledger = Ledger::here();
    let typed = RwSignal::new(String::new());
    let error = RwSignal::new(String::new());
    let found = RwSignal::new(Vec::<LotLabel>::new());
    let said = RwSignal::new(String::new());
    let saw = Callback::new(move |seen: Seen| saw(ledger, &seen, said, found));
    let words_for = ThroughWords {
        looking: words::LOOKING,
        refused: words::REFUSED,
        missing: words::MISSING,
    };
    let open_it = Callback::new(move |()| {
        found.set(Vec::new());
        match LotCode::parse(&typed.get_untracked()) {
            Err(fault) => error.set(words::fault(fault)),
            Ok(code) => {
                let lots = ledger.look(|state, _| by_code(state, code));
                match lots.as_slice() {
                    [] => error.set(words::unknown(&code.to_string())),
                    [only] => Route::Lot(only.lot).go(),
                    _ => found.set(lots),
                }
            }
        }
    });
    let on_input = Callback::new(move |text: String| {
        error.set(String::new());
        found.set(Vec::new());
        typed.set(text);
    });
    let actions = move || view! { <MainAction label=words::OPEN.to_owned() on_press=open_it /> };
    let several = move || {
        let lots = found.get();
        (!lots.is_empty()).then(|| {
            let rows = lots.into_iter().map(row).collect_view();
            view! { <p class="edge strong">{words::SEVERAL}</p> {rows} }
        })
    };
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <Through words_for said saw />
            <div class="form">
                <Field label=words::TYPE hint=words::TYPE_HINT value=typed on_input error max_chars=40 />
            </div>
            {several}
        </Screen>
    }
}

fn row(label: LotLabel) -> impl IntoView {
    let code = label.code.map(|code| code.to_string()).unwrap_or_default();
    let count = trade::plants_in_pots(label.plants, label.stands);
    view! {
        <a class="lot-row" href=Route::Lot(label.lot).href()>
            <Stake name=trade::name_runs(&label.name) code count />
        </a>
    }
}

/// What a look through the camera leads to; `true` when it is enough.
fn saw(
    ledger: Ledger,
    seen: &Seen,
    said: RwSignal<String>,
    found: RwSignal<Vec<LotLabel>>,
) -> bool {
    let text = match seen {
        Seen::Nothing => return false,
        Seen::CannotRead => {
            said.try_set(words::CANNOT_READ.to_owned());
            return true;
        }
        Seen::Text(text) => text,
    };
    match ledger.look(|state, _| read(state, text)) {
        Label::Known(route) => route.go(),
        Label::Lots(code, lots) => match lots.as_slice() {
            [] => drop(said.try_set(words::unknown(&code.to_string()))),
            [only] => Route::Lot(only.lot).go(),
            _ => drop(found.try_set(lots)),
        },
        Label::Stranger => drop(said.try_set(words::STRANGER.to_owned())),
        Label::None => drop(said.try_set(words::NO_LABEL.to_owned())),
    }
    true
}
