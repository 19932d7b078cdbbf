//! Pots as measured, drawn in section with what they hold.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::id::PotId;
use velamen_core::potting;
use velamen_core::quantity::Length;
use velamen_core::shed_draft::{PotDraft, PotFault, PotField, PotShape};
use velamen_core::view::shed::{self, PotRow};

use super::falls_over::FallsOver;
use super::in_hand::{InHand, Wrong};
use super::lot_parts::{Refusal, one_of};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::drawing::PotSection;
use crate::ui::{Field, MainAction, PlainLink, Screen, Slat, TopBack};
use crate::words::{format, rejection, rooms, shed as words, told};

const DRAFT: &str = "new_pot";

/// A pot being typed, new or of the shelf; a refusal may be about one of its measures.
type PotInHand = InHand<PotDraft, PotField>;

fn wrong(fault: PotFault) -> Wrong<PotField> {
    match fault {
        PotFault::Typed(field, fault) => (Some(field), rejection::quantity(&fault)),
        PotFault::Shape(fault) => (None, rejection::pot(&fault)),
    }
}

/// The pots of the shelf, and the form for a new one.
#[component]
pub fn Pots() -> impl IntoView {
    let ledger = Ledger::here();
    let hand = PotInHand::new(ledger, DRAFT.to_owned(), PotDraft::default);
    let shown = ledger.ask(|state, _| shed::pots(state));
    let add = Callback::new(move |()| {
        let command = hand.shown.with_untracked(PotDraft::command);
        hand.record(command.map_err(wrong), told::done(words::POT_ADDED), || {});
    });
    let rows = move || {
        let rows = shown.get().into_iter();
        rows.map(|row| pot_row(ledger, row)).collect_view()
    };
    let actions = move || view! { <MainAction label=words::ADD_POT.to_owned() on_press=add busy=ledger.busy() /> };
    view! {
        <Screen title=words::POTS back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <PotForm hand />
            <Slat name=words::POTS />
            {rows}
        </Screen>
    }
}

/// One pot of the shelf, measured or named again.
#[component]
pub fn Pot(pot: PotId) -> impl IntoView {
    let ledger = Ledger::here();
    let row = ledger.ask(move |state, _| shed::pots(state).into_iter().find(|row| row.pot == pot));
    let hand = PotInHand::new(ledger, format!("pot-{pot}"), move || {
        row.get().map(|row| PotDraft::of(&row)).unwrap_or_default()
    });
    let unchanged = Signal::derive(move || {
        row.with(|row| {
            let row = row.as_ref();
            row.is_none_or(|row| hand.shown.with(|draft| draft.change(row)) == Ok(None))
        })
    });
    let keep = Callback::new(move |()| {
        let Some(row) = row.get_untracked() else {
            return;
        };
        if let Some(command) = hand
            .shown
            .with_untracked(|draft| draft.change(&row))
            .transpose()
        {
            hand.record(command.map_err(wrong), words::CHANGED.to_owned(), || {
                Route::Pots.replace()
            });
        }
    });
    let actions = move || {
        view! { <MainAction label=words::KEEP_CHANGE.to_owned() on_press=keep busy=ledger.busy() disabled=unchanged /> }
    };
    let title = Signal::derive(move || {
        row.with(|row| row.as_ref().map(|row| row.name.clone()))
            .unwrap_or_default()
    });
    let back = || view! { <TopBack href=Route::Pots.href() label=rooms::back_to(words::POTS) /> };
    view! {
        <Screen title back actions notice=notices rooms=|| room_bar(Route::Book)>
            <p class="edge soft">{words::AS_POTTED}</p>
            <PotForm hand />
        </Screen>
    }
}

#[component]
fn PotForm(hand: PotInHand) -> impl IntoView {
    let draft = hand.shown;
    let shape = Signal::derive(move || draft.with(|draft| draft.shape));
    let shapes = vec![
        (PotShape::Round, words::ROUND_POT.to_owned()),
        (PotShape::Square, words::SQUARE_POT.to_owned()),
        (PotShape::Holds, words::BY_WATER.to_owned()),
    ];
    let measure = move |label: &'static str,
                        at: PotField,
                        get: fn(&PotDraft) -> &String,
                        set: fn(&mut PotDraft, String)| {
        let value = Signal::derive(move || draft.with(|draft| get(draft).clone()));
        let on_input = Callback::new(move |typed| hand.change(|draft| set(draft, typed)));
        view! { <Field label value on_input error=hand.wrong(Some(at)) max_chars=20 /> }
    };
    let is_holds = Memo::new(move |_| shape.get() == PotShape::Holds);
    let measures = move || {
        if is_holds.get() {
            view! {
                <p>{words::HOLDS_HINT}</p>
                {measure(words::HOLDS, PotField::Holds, |draft| &draft.holds, |draft, typed| draft.holds = typed)}
            }
            .into_any()
        } else {
            view! {
                <p>{words::INSIDE}</p>
                {measure(words::TOP, PotField::Top, |draft| &draft.top, |draft, typed| draft.top = typed)}
                {measure(words::BASE, PotField::Base, |draft| &draft.base, |draft, typed| draft.base = typed)}
                {measure(words::HEIGHT, PotField::Height, |draft| &draft.height, |draft, typed| draft.height = typed)}
            }
            .into_any()
        }
    };
    let name = Signal::derive(move || draft.with(|draft| draft.name.clone()));
    let form = Memo::new(move |_| draft.with(PotDraft::form).ok());
    view! {
        <div class="form">
            <Field
                label=words::POT_NAME
                value=name
                on_input=Callback::new(move |typed| hand.change(|draft| draft.name = typed))
                max_chars=200
            />
            {one_of(words::SHAPE, shapes, shape, move |shape| hand.change(|draft| draft.shape = shape))}
            {measures}
            <Refusal words=hand.wrong(None) />
        </div>
        {move || form.get().map(section)}
    }
}

fn mm(length: Length) -> String {
    format::millimetres(length.um())
}

/// A pot in section; one known by its water alone has only its figure.
fn section(pot: potting::Pot) -> impl IntoView {
    let litres = pot.brimful().map(format::litres).unwrap_or_default();
    let brimful = format!("{litres} {}", words::BRIMFUL);
    let (potting::Pot::Round { top, base, height } | potting::Pot::Square { top, base, height }) =
        pot
    else {
        return view! { <p class="edge strong">{brimful}</p> }.into_any();
    };
    let whole = |length: Length| u32::try_from(length.um() / 1_000).unwrap_or(0);
    let text = words::pot_text(&mm(top), &mm(base), &mm(height), &litres);
    view! {
        <PotSection
            top_mm=whole(top)
            base_mm=whole(base)
            height_mm=whole(height)
            layers=Vec::new()
            width_words=mm(top)
            text
        />
        <p class="edge strong">{brimful}</p>
    }
    .into_any()
}

fn pot_row(ledger: Ledger, row: PotRow) -> impl IntoView {
    let id = row.pot;
    let retire = move |_| {
        ledger.act(Act::new(retired(id), words::CHANGED));
    };
    view! {
        <details class="more-of-it">
            <summary><bdi>{row.name}</bdi> " " <span class="soft">{row.form.map(measures)}</span></summary>
            {row.form.map(section)}
            {row.form.map(|form| view! { <FallsOver form /> })}
            <div class="form"><PlainLink href=Route::Pot(id).href() label=words::CHANGE_IT /></div>
            <button type="button" class="quiet" on:click=retire>{words::RETIRE}</button>
        </details>
    }
}

fn retired(pot: PotId) -> Command {
    Command::SetPot {
        pot: Some(pot),
        name: None,
        form: None,
        retired: Some(true),
    }
}

fn measures(pot: potting::Pot) -> String {
    let litres = pot.brimful().map(format::litres).unwrap_or_default();
    let square = matches!(pot, potting::Pot::Square { .. });
    match pot {
        potting::Pot::Round { top, base, height } | potting::Pot::Square { top, base, height } => {
            let measures = words::pot_measures(square, [top.um(), base.um(), height.um()]);
            format!("{measures} · {litres}")
        }
        potting::Pot::Holds { .. } => litres,
    }
}
