//! The parts of the swatch page that answer taps: rows of work, counting, words and choices, photographs.

use super::gallery::name;
use super::*;
use leptos::prelude::*;

/// A few rows in walking order, one of each state.
#[component]
pub fn Rows(told: RwSignal<Option<NoticeKind>>) -> impl IntoView {
    let done = Callback::new(move |()| told.set(Some(NoticeKind::Ok)));
    view! {
        <div class="walk">
            <Slat name="Cool house, bench 2" note="4 to do" />
            <WorkRow
                state=WorkState::Late { days: 19 }
                state_words="19 days late"
                unit="days"
                glyph=Glyph::Pot
                what="To the bench: outgrown"
                why="K3-118 · 3 pots · two growths over the rim"
                href="#/kit"
                on_done=done
                done_label="Done: to the bench, K3-118"
            >
                <Stake name=name("Cymbidium lowianum", "") />
            </WorkRow>
            <WorkRow
                state=WorkState::Due
                state_words="Due"
                glyph=Glyph::Drop
                what="First water, 12 pots"
                why="K3-204 · divided 7 days ago"
                on_done=done
                done_label="Done: first water, K3-204"
            >
                <Stake name=name("Zygopetalum maculatum", "") />
            </WorkRow>
            <WorkRow
                state=WorkState::Held
                state_words="Held"
                glyph=Glyph::Drop
                what="No water before Saturday"
                why="K3-211 · 9 pots, divided 3 days ago"
            >
                <Stake name=name("Coelogyne cristata", "") />
            </WorkRow>
        </div>
        <div class="walk">
            <Slat name="Rain bench" note="2 to do" />
            <WorkRow
                state=WorkState::Due
                state_words="Due"
                glyph=Glyph::Magnifier
                what="Look at the spots again"
                why="K3-077 · 22 pots, bathed 7 days ago"
                on_done=done
                done_label="Done: look again, K3-077"
                busy=true
            >
                <Stake name=name("Dendrobium", "Saltmarsh gx") />
            </WorkRow>
            <WorkRow
                state=WorkState::Coming { days: 3 }
                state_words="In 3 days"
                unit="days"
                glyph=Glyph::Pot
                what="Pot on starters, 40 pots"
                why="K3-150 · divided last March"
                on_done=done
                done_label="Done: pot on, K3-150"
            >
                <Stake name=name("Sarcochilus hartmannii", "") />
            </WorkRow>
        </div>
    }
}

/// Counting the pieces of a clump.
#[component]
pub fn Counting() -> impl IntoView {
    let flower = RwSignal::new(4_i64);
    let starters = RwSignal::new(6_i64);
    let gone = RwSignal::new(0_i64);
    view! {
        <Slat name="Counting" note="21 pieces kept" />
        <Stepper
            label="To flower"
            hint="3 bulbs and a lead"
            count=flower
            on_count=Callback::new(move |count| flower.set(count))
            less_label="One less: to flower"
            more_label="One more: to flower"
        />
        <Stepper
            label="Starters"
            hint="a lead, smaller"
            count=starters
            on_count=Callback::new(move |count| starters.set(count))
            less_label="One less: starters"
            more_label="One more: starters"
            five_label="+5"
        />
        <Stepper
            label="Thrown away"
            hint="soft or hollow"
            count=gone
            on_count=Callback::new(move |count| gone.set(count))
            less_label="One less: thrown away"
            more_label="One more: thrown away"
        />
    }
}

/// A box of text, choices and a switch.
#[component]
pub fn WordsAndChoices() -> impl IntoView {
    let code = RwSignal::new("K3-2O4".to_owned());
    let note = RwSignal::new(String::new());
    let chosen = RwSignal::new("bark".to_owned());
    let size = RwSignal::new("bench".to_owned());
    let on = RwSignal::new(true);
    let choice = |key: &str, label: &str, hint: Option<&str>| Choice {
        key: key.to_owned(),
        label: label.to_owned(),
        hint: hint.map(str::to_owned),
    };
    view! {
        <Slat name="Words and choices" />
        <div class="edge stack">
            <Field
                label="Code on the label"
                value=code
                on_input=Callback::new(move |text| code.set(text))
                hint="Four or more characters; the last one checks the others."
                error="The check letter does not fit. Look again at the letter O and the nought."
            />
            <Field
                label="Note"
                value=note
                on_input=Callback::new(move |text| note.set(text))
                tall=true
            />
            <Choices
                legend="Mix"
                choices=vec![
                    choice("bark", "Coarse bark", Some("12 clean pots on the shelf")),
                    choice("moss", "Sphagnum moss", Some("scratches: gloves on")),
                ]
                chosen
                on_choose=Callback::new(move |key| chosen.set(key))
            />
            <Choices
                legend="Size of keys"
                choices=vec![choice("bench", "Bench", None), choice("table", "Table", None)]
                chosen=size
                on_choose=Callback::new(move |key| size.set(key))
                look=ChoicesLook::Chips
            />
            <Toggle
                label="Keep the screen awake"
                hint="while a soak runs"
                on
                on_switch=Callback::new(move |state| on.set(state))
                on_word="on"
                off_word="off"
            />
        </div>
    }
}

/// A photograph that was picked, one that is elsewhere, and the keys for more.
#[component]
pub fn Photographs() -> impl IntoView {
    const SPOT: &str = "data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 4 3'%3E%3Cpath \
        fill='%237fae4f' d='M0 0h4v3H0z'/%3E%3Ccircle fill='%232a1a10' cx='2' cy='1.5' r='.6'/%3E%3C/svg%3E";
    let there = RwSignal::new(true);
    let picture = Signal::stored(Picture::Here(SPOT.to_owned()));
    let picked = move || {
        there.get().then(|| {
            view! {
                <PickedPhoto
                    picture
                    name="A spot"
                    open_label="Open the spot large"
                    close_label="Close"
                    away="Not here."
                    remove="Remove"
                    remove_label="Remove the spot"
                    on_remove=Callback::new(move |()| there.set(false))
                />
            }
        })
    };
    view! {
        <Slat name="Photographs" />
        <div class="edge stack">
            <PhotoPick
                label="What it looks like"
                hint="From an arm's length, in the shade."
                take_label="Take one"
                choose_label="Choose one"
                on_file=Callback::new(|_| ())
            >
                {picked}
            </PhotoPick>
            <Photo
                picture=Signal::stored(Picture::Away)
                name="The label"
                open_label="Open the label large"
                close_label="Close"
                away="Not on this phone."
            />
        </div>
    }
}
