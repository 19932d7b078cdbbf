//! A lot by the label in one's hand: through the camera, or by typing its code.

use std::rc::Rc;

use leptos::html::Video;
use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::code::LotCode;
use velamen_core::id::Subject;
use velamen_core::state::State;
use velamen_core::view::LotLabel;
use velamen_core::view::labels::by_code;
use wasm_bindgen::JsValue;

use crate::frame::{notices, room_bar};
use crate::ledger::{Camera, CameraFault, Ledger, Seen};
use crate::route::Route;
use crate::ui::{Field, Glyph, MainAction, PlainAction, Screen, Stake, Toggle, TopBack};
use crate::words::{labels, labels::find as words, rooms, trade};

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

/// How the camera stands.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Eye {
    Shut,
    Opening,
    Open,
    Fault(CameraFault),
}

/// The screen.
#[component]
pub fn Find() -> impl IntoView {
    let ledger = Ledger::here();
    let typed = RwSignal::new(String::new());
    let error = RwSignal::new(String::new());
    let found = RwSignal::new(Vec::<LotLabel>::new());
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
            <Through found />
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

/// What the camera sees, until it sees a label of this book.
#[component]
pub fn Through(found: RwSignal<Vec<LotLabel>>) -> impl IntoView {
    let ledger = Ledger::here();
    let video = NodeRef::<Video>::new();
    let eye = RwSignal::new(Eye::Shut);
    let said = RwSignal::new(String::new());
    let has_light = RwSignal::new(false);
    let lit = RwSignal::new(false);
    let camera = StoredValue::new_local(None::<Rc<Camera>>);
    let going = StoredValue::new(false);
    let look = move |opened: Rc<Camera>| {
        going.set_value(true);
        ledger.watch(opened, going, move |seen| saw(ledger, &seen, said, found));
    };
    let begin = move || {
        if eye.get_untracked() == Eye::Opening {
            return;
        }
        eye.set(Eye::Opening);
        spawn_local(async move {
            // The element is there from the start; it is shown when the camera is.
            let Some(element) = video.get_untracked() else {
                eye.try_set(Eye::Shut);
                return;
            };
            let opened = Camera::open(&JsValue::from(element)).await;
            match opened {
                Ok(opened) => {
                    let opened = Rc::new(opened);
                    has_light.try_set(opened.has_light());
                    if camera
                        .try_update_value(|kept| *kept = Some(Rc::clone(&opened)))
                        .is_some()
                    {
                        eye.try_set(Eye::Open);
                        look(opened);
                    }
                }
                Err(fault) => drop(eye.try_set(Eye::Fault(fault))),
            }
        });
    };
    Effect::new(move |_| {
        if video.get().is_some() && eye.get_untracked() == Eye::Shut {
            spawn_local(async move {
                if ledger.camera_allowed().await && eye.try_get_untracked() == Some(Eye::Shut) {
                    begin();
                }
            });
        }
    });
    let press = Callback::new(move |()| begin());
    let again = Callback::new(move |()| {
        said.set(String::new());
        if let Some(opened) = camera.get_value() {
            look(opened);
        }
    });
    let switch = Callback::new(move |on: bool| {
        lit.set(on);
        camera.with_value(|camera| {
            if let Some(camera) = camera {
                camera.light(on);
            }
        });
    });
    let state = move || {
        match eye.get() {
        Eye::Shut => view! {
            <div class="form"><PlainAction label=words::CAMERA.to_owned() glyph=Glyph::Camera on_press=press /></div>
        }
        .into_any(),
        Eye::Opening => ().into_any(),
        Eye::Open if said.with(String::is_empty) => {
            view! { <p class="edge">{words::LOOKING}</p> }.into_any()
        }
        Eye::Open => view! {
            <p class="warn">{said.get()}</p>
            <div class="form"><PlainAction label=words::AGAIN.to_owned() glyph=Glyph::Camera on_press=again /></div>
        }
        .into_any(),
        Eye::Fault(CameraFault::Refused) => view! { <p class="edge">{words::REFUSED}</p> }.into_any(),
        Eye::Fault(CameraFault::Missing) => view! { <p class="edge">{words::MISSING}</p> }.into_any(),
    }
    };
    let light = move || {
        (has_light.get() && eye.get() == Eye::Open).then(|| {
            view! {
                <div class="form">
                    <Toggle label=words::LIGHT on=lit on_switch=switch on_word=labels::YES off_word=labels::NO />
                </div>
            }
        })
    };
    view! {
        <video
            class="scan-picture"
            class:scan-shut=move || eye.get() != Eye::Open
            node_ref=video
            aria-label=words::VIDEO
            prop:muted=true
            playsinline
        ></video>
        <div aria-live="polite">{state}</div>
        {light}
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
