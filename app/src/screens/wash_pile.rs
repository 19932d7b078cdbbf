//! A pile taken up at the wash, to go on or away; and pots or stone being put in.

use leptos::prelude::*;
use velamen_core::clean::{PutIn, TakenUp, next_stage};
use velamen_core::command::Command;
use velamen_core::event::{Material, Stage};
use velamen_core::state::MaterialKind;
use velamen_core::view::shed;

use super::cleaning::{Wanted, to_a_cleaning};
use super::lot_parts::{Count, Refusal, one_of};
use super::wash::{Tray, WASH, told_moved};
use crate::frame::{notices, room_bar};
use crate::ledger::Act;
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Field, MainAction, PlainAction, Screen, Stepper};
use crate::words::{clean as words, rejection, repot, stock};

/// One tap of stone, in millilitres.
const STONE_STEP_ML: i64 = 500;

/// A pile taken up: how many of it, and where they go.
pub(super) fn pile(tray: Tray) -> impl IntoView {
    let ledger = tray.ledger;
    let Some(first) = tray.draft.get_untracked().taken else {
        return ().into_any();
    };
    let (stage, apart, stone) = (first.stage, first.apart, first.material.is_stone());
    let name = ledger.look(|state, _| {
        let pot = first
            .material
            .pot
            .and_then(|pot| state.facts().pots.get(&pot));
        pot.map_or_else(
            || first.material.pot_name.clone(),
            |pot| pot.name.or_default(),
        )
    });
    let taken = move || tray.draft.get_untracked().taken;
    let moving = move |to: Stage| {
        let Some(taken) = taken() else { return };
        let said = told_moved(&words::on_to(to, &going(&taken)));
        act(tray, taken.to(to), said);
    };
    let on = move |to: Stage| Callback::new(move |()| moving(to));
    let into = Callback::new(move |()| {
        tray.change(|draft| draft.taken = None);
        let object = if stone {
            velamen_core::event::Object::Stone
        } else {
            velamen_core::event::Object::Pots
        };
        to_a_cleaning(ledger, Wanted { object, apart });
    });
    let leave = Callback::new(move |()| tray.change(|draft| draft.taken = None));
    let label = Signal::derive(move || {
        let to = next_stage(stage)?;
        tray.draft
            .with(|draft| Some(words::on_to(to, &going(draft.taken.as_ref()?))))
    });
    let actions = move || {
        let main = match (stage, next_stage(stage)) {
            (Stage::Washed, _) => {
                view! { <MainAction label=words::DISINFECT.to_owned() on_press=into /> }.into_any()
            }
            (_, Some(to)) => view! {
                <MainAction label=Signal::derive(move || label.get().unwrap_or_default()) on_press=on(to) busy=ledger.busy() />
            }
            .into_any(),
            (_, None) => ().into_any(),
        };
        view! { <PlainAction label=words::LEAVE.to_owned() on_press=leave /> {main} }
    };
    let back_to_dirty = (stage != Stage::Dirty).then(|| {
        view! { <PlainAction label=words::AGAIN.to_owned() on_press=on(Stage::Dirty) busy=ledger.busy() /> }
    });
    let title = words::kind(&first.material, &name);
    view! {
        <Screen
            title=title.clone()
            over=words::where_it_is(stage, "")
            back=back_to_shed
            actions
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            <Refusal words=tray.error />
            {apart.map(|_| view! { <p class="warn">{words::APART_HINT}</p> })}
            {amount(tray, title, &first)}
            <div class="form">
                {back_to_dirty}
                <PlainAction label=words::THROW.to_owned() on_press=on(Stage::Discarded) busy=ledger.busy() />
                <PlainAction label=words::NOT_THERE.to_owned() on_press=on(Stage::Uncounted) busy=ledger.busy() />
            </div>
        </Screen>
    }
    .into_any()
}

/// How much of it goes, as a row.
fn going(taken: &TakenUp) -> Material {
    MaterialKind::of(&taken.material).0.row(taken.going())
}

/// Pots by the piece, stone by the half litre; at the start all of it.
fn amount(tray: Tray, name: String, first: &TakenUp) -> impl IntoView + use<> {
    let scale = if first.material.is_stone() { 1_000 } else { 1 };
    let count = Signal::derive(move || {
        tray.draft
            .with(|draft| draft.taken.as_ref().map_or(0, TakenUp::going))
            / scale
    });
    let most = first.most();
    let on_count = Callback::new(move |count: i64| {
        tray.change(|draft| {
            if let Some(taken) = draft.taken.as_mut() {
                // All of it stays all of it, to the last microlitre.
                let all = count.saturating_mul(scale) / scale == most / scale;
                taken.amount = (!all).then(|| count.saturating_mul(scale));
            }
        });
    });
    let stone = first.material.is_stone();
    let label = if stone {
        words::HOW_MUCH.to_owned()
    } else {
        name
    };
    view! {
        <div class="steppers">
            <Stepper
                label=label.clone()
                count
                on_count
                less_label=repot::one_less(&label)
                more_label=repot::one_more(&label)
                min=1
                max=most / scale
                by=if stone { STONE_STEP_ML } else { 1 }
            />
        </div>
    }
}

fn act(tray: Tray, command: Command, said: String) {
    let error = tray.error;
    let act = Act::new(command, said)
        .ends_draft(WASH)
        .otherwise(move |no| error.set(rejection::say(&no)));
    tray.ledger.act(act);
}

/// Pots or stone put in: bought ones are clean, found ones dirty.
pub(super) fn put_in(tray: Tray) -> impl IntoView {
    let ledger = tray.ledger;
    let part = move |get: fn(&PutIn) -> (Material, bool, bool)| {
        Memo::new(move |_| {
            tray.draft
                .with(|draft| draft.put_in.as_ref().map(get).unwrap_or_default())
        })
    };
    let now = part(|put| (put.material.clone(), put.stone, put.dirty));
    let change = move |how: &dyn Fn(&mut PutIn)| {
        tray.change(|draft| how(draft.put_in.get_or_insert_default()));
    };
    let pots = ledger.look(|state, _| shed::pots(state));
    // Nothing is chosen until the grower says what: a pot by its place in the list, then another, then stone.
    let kinds: Vec<(Kind, String)> = pots
        .into_iter()
        .map(|row| (Kind::Pot(row.pot), row.name))
        .chain([
            (Kind::Other, words::OTHER_POT.to_owned()),
            (Kind::Stone, words::STONE.to_owned()),
        ])
        .collect();
    let kind = Signal::derive(move || {
        let (material, stone, _) = now.get();
        match (stone, material.pot) {
            (true, _) => Kind::Stone,
            (false, Some(pot)) => Kind::Pot(pot),
            (false, None) => Kind::Other,
        }
    });
    let stone = Memo::new(move |_| now.with(|(_, stone, _)| *stone));
    let other = Memo::new(move |_| kind.get() == Kind::Other);
    let name = Signal::derive(move || now.with(|(material, ..)| material.pot_name.clone()));
    let dirty = Signal::derive(move || now.with(|(.., dirty)| *dirty));
    let put = Callback::new(move |()| {
        let put = tray.draft.get_untracked().put_in.unwrap_or_default();
        if put.amount == 0 {
            return tray.error.set(words::NOTHING_SAID.to_owned());
        }
        act(tray, put.command(), told_moved(words::PUT_IN));
    });
    let leave = Callback::new(move |()| tray.change(|draft| draft.put_in = None));
    let actions = move || {
        view! {
            <PlainAction label=words::LEAVE.to_owned() on_press=leave />
            <MainAction label=words::PUT_IN.to_owned() on_press=put busy=ledger.busy() />
        }
    };
    let choose = move |kind: Kind| {
        change(&|put| {
            put.amount = 0;
            put.stone = kind == Kind::Stone;
            put.material.pot = match kind {
                Kind::Pot(pot) => Some(pot),
                Kind::Other | Kind::Stone => None,
            };
        });
    };
    let states = vec![
        (false, words::NEW.to_owned()),
        (true, words::FOUND_DIRTY.to_owned()),
    ];
    view! {
        <Screen title=words::ADD back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <div class="form">
                {one_of(words::WHICH, kinds, kind, choose)}
                {move || other.get().then(|| view! {
                    <Field
                        label=words::POT_NAME
                        value=name
                        on_input=Callback::new(move |text: String| change(&|put| put.material.pot_name.clone_from(&text)))
                        max_chars=200
                    />
                })}
                {one_of(words::HOW, states, dirty, move |dirty| change(&|put| put.dirty = dirty))}
            </div>
            {move || how_many(tray, stone.get())}
            <div class="form"><Refusal words=tray.error /></div>
        </Screen>
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Pot(velamen_core::id::PotId),
    Other,
    Stone,
}

fn how_many(tray: Tray, stone: bool) -> impl IntoView {
    let scale = if stone { 1_000 } else { 1 };
    let count = Signal::derive(move || {
        let amount = tray
            .draft
            .with(|draft| draft.put_in.as_ref().map_or(0, |put| put.amount));
        amount / scale
    });
    let set = Callback::new(move |count: i64| {
        tray.change(|draft| {
            draft.put_in.get_or_insert_default().amount = count.saturating_mul(scale);
        });
    });
    let label = if stone {
        words::HOW_MUCH
    } else {
        words::HOW_MANY
    };
    if stone {
        view! {
            <Stepper
                label
                count
                on_count=set
                less_label=stock::less_of(label)
                more_label=stock::more_of(label)
                min=0
                max=1_000_000
                by=STONE_STEP_ML
            />
        }
        .into_any()
    } else {
        view! { <Count label count on_count=set /> }.into_any()
    }
}
