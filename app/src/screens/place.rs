//! One place: its name, its stop on the walk, its roof, light and warmth.

use leptos::prelude::*;
use velamen_core::command::{Command, PlaceTraits};
use velamen_core::event::{Cover, Shade};
use velamen_core::id::PlaceId;
use velamen_core::label_sheet::LabelOf;
use velamen_core::quantity::Unit;
use velamen_core::season::Warmth;
use velamen_core::shed_draft::area_cm2;
use velamen_core::view::{place_label, walk_beside};

use super::labels::print_labels_of;
use super::lot_parts::one_of;
use super::own_units;
use super::place_at::PlaceAt;
use super::place_seen::SeenInPlace;
use super::reentry::PlaceBound;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Field, Glyph, Keys, PlainAction, PlainLink, Screen, TopBack};
use crate::words::format::{self, sign};
use crate::words::{labels, rejection, rooms, round, shed as words, water};

/// A change of a place.
fn set(place: PlaceId, name: Option<String>, walk: Option<u32>, about: PlaceTraits) -> Act {
    let command = Command::SetPlace {
        place: Some(place),
        name,
        walk,
        about,
    };
    Act::new(command, words::CHANGED)
}

/// The screen.
#[component]
pub fn Place(place: PlaceId) -> impl IntoView {
    let ledger = Ledger::here();
    let label = ledger.ask(move |state, _| place_label(state.facts(), place));
    let title = Signal::derive(move || label.get().map(|label| label.name).unwrap_or_default());
    let step = move |earlier: bool| {
        Callback::new(move |()| {
            if let Some(walk) = ledger.look(|state, _| walk_beside(state.facts(), place, earlier)) {
                ledger.act(set(place, None, Some(walk), PlaceTraits::default()));
            }
        })
    };
    let paper = Callback::new(move |()| print_labels_of(ledger, &[LabelOf::Place(place)]));
    let retire = Callback::new(move |()| {
        let about = PlaceTraits {
            retired: Some(true),
            ..PlaceTraits::default()
        };
        ledger.act(set(place, None, None, about).then(|_| Route::Places.replace()));
    });
    view! {
        <Screen
            title
            back=|| view! { <TopBack href=Route::Places.href() label=rooms::back_to(words::PLACES) /> }
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            <PlaceBound place />
            <div class="form">
                <PlainLink href=Route::SeenPlace(place).href() label=round::SEEN_HERE glyph=Glyph::Magnifier main=true />
                <PlainLink href=Route::WaterBench(Some(place)).href() label=water::THE_BENCH glyph=Glyph::Drop />
                <Name place />
                <div class="pair">
                    <PlainAction label=words::EARLIER.to_owned() on_press=step(true) busy=ledger.busy() />
                    <PlainAction label=words::LATER.to_owned() on_press=step(false) busy=ledger.busy() />
                </div>
                <Traits place />
                <Area place />
                <PlaceAt place />
                <PlainAction label=labels::PRINT_ONE.to_owned() glyph=Glyph::Tag on_press=paper />
                <PlainAction label=words::RETIRE.to_owned() on_press=retire busy=ledger.busy() />
            </div>
            <SeenInPlace place />
        </Screen>
    }
}

#[component]
fn Name(place: PlaceId) -> impl IntoView {
    let ledger = Ledger::here();
    let key = format!("place-{place}");
    let known = ledger.ask(move |state, _| {
        place_label(state.facts(), place)
            .map(|label| label.name)
            .unwrap_or_default()
    });
    let draft = ledger.draft_at::<Option<String>>(key.clone());
    let shown = Signal::derive(move || draft.get().unwrap_or_else(|| known.get()));
    let error = RwSignal::new(String::new());
    let typing = key.clone();
    let on_input = Callback::new(move |name: String| {
        error.set(String::new());
        ledger.keep_draft(&typing, &Some(name));
    });
    let rename = Callback::new(move |()| {
        let act = set(
            place,
            Some(shown.get_untracked()),
            None,
            PlaceTraits::default(),
        );
        ledger.act(
            act.ends_draft(key.clone())
                .otherwise(move |no| error.set(rejection::say(&no))),
        );
    });
    let changed = move || draft.get().is_some();
    view! {
        <Field label=words::PLACE_NAME value=shown on_input error max_chars=200 />
        {move || changed().then(|| view! {
            <PlainAction label=words::RENAME.to_owned() on_press=rename busy=ledger.busy() />
        })}
    }
}

/// The area that sprays are worked out by.
#[component]
fn Area(place: PlaceId) -> impl IntoView {
    let ledger = Ledger::here();
    let key = format!("area-{place}");
    let known = ledger.ask(move |state, _| {
        let cm2 = state.facts().places.get(&place)?.area_cm2.get().copied()?;
        Some(format::area(cm2))
    });
    let draft = ledger.draft_at::<Option<String>>(key.clone());
    let shown = Signal::derive(move || {
        let typed = draft.get();
        typed.unwrap_or_else(|| known.get().unwrap_or_default())
    });
    let error = RwSignal::new(String::new());
    let typing = key.clone();
    let on_input = Callback::new(move |text: String| {
        error.set(String::new());
        ledger.keep_draft(&typing, &Some(text));
    });
    let keep = Callback::new(move |()| {
        match area_cm2(&own_units::typed(shown.get_untracked(), Unit::SquareMetre)) {
            None => error.set(words::NO_AREA.to_owned()),
            Some(cm2) => {
                let about = PlaceTraits {
                    area_cm2: Some(cm2),
                    ..PlaceTraits::default()
                };
                let act = set(place, None, None, about).ends_draft(key.clone());
                ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
            }
        }
    });
    view! {
        <Field label=words::AREA hint=words::AREA_HINT value=shown on_input error unit=sign(Unit::SquareMetre) keys=Keys::Decimal max_chars=24 />
        {move || draft.get().is_some().then(|| view! {
            <PlainAction label=words::KEEP_AREA.to_owned() on_press=keep busy=ledger.busy() />
        })}
    }
}

#[component]
fn Traits(place: PlaceId) -> impl IntoView {
    let ledger = Ledger::here();
    let known = ledger.ask(move |state, _| {
        let facts = state.facts().places.get(&place)?;
        Some((
            facts.warmth.get().copied(),
            facts.cover.get().copied(),
            facts.shade.get().copied(),
        ))
    });
    let part = move |about: PlaceTraits| ledger.act(set(place, None, None, about));
    let warmth = Signal::derive(move || known.get().and_then(|(warmth, _, _)| warmth));
    let cover = Signal::derive(move || known.get().and_then(|(_, cover, _)| cover));
    let shade = Signal::derive(move || known.get().and_then(|(_, _, shade)| shade));
    let warmths = [Warmth::Cool, Warmth::Intermediate, Warmth::Warm]
        .map(|warmth| (Some(warmth), words::warmth(warmth).to_owned()));
    let covers = [Cover::Roofed, Cover::OpenToRain]
        .map(|cover| (Some(cover), words::cover(cover).to_owned()));
    let shades = [Shade::Bright, Shade::Medium, Shade::Deep]
        .map(|shade| (Some(shade), words::shade(shade).to_owned()));
    view! {
        {one_of(words::WARMTH, warmths.to_vec(), warmth, move |warmth| part(PlaceTraits { warmth, ..PlaceTraits::default() }))}
        {one_of(words::COVER, covers.to_vec(), cover, move |cover| part(PlaceTraits { cover, ..PlaceTraits::default() }))}
        {one_of(words::LIGHT_HERE, shades.to_vec(), shade, move |shade| part(PlaceTraits { shade, ..PlaceTraits::default() }))}
    }
}
