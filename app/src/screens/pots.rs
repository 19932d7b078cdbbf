//! Pots as measured, drawn in section with what they hold.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::id::PotId;
use velamen_core::potting::Pot;
use velamen_core::quantity::Length;
use velamen_core::shed_draft::{PotDraft, PotFault, PotField, PotShape};
use velamen_core::view::shed::{self, PotRow};

use super::lot_parts::{Refusal, one_of};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::drawing::PotSection;
use crate::ui::{Field, MainAction, Screen, Slat};
use crate::words::{format, rejection, shed as words, told};

const DRAFT: &str = "new_pot";

/// Where a refusal belongs: a measure, or the name and the whole.
type Refused = RwSignal<(Option<PotField>, String)>;

fn change(ledger: Ledger, refused: Refused, how: impl FnOnce(&mut PotDraft)) {
    refused.set((None, String::new()));
    ledger.change_draft(DRAFT, |draft: &mut PotDraft| {
        draft.version = velamen_core::draft::DRAFT_VERSION;
        how(draft);
    });
}

/// The screen.
#[component]
pub fn Pots() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<PotDraft>(DRAFT);
    let shown = ledger.ask(|state, _| shed::pots(state));
    let refused: Refused = RwSignal::new((None, String::new()));
    let add = Callback::new(move |()| match draft.with_untracked(PotDraft::command) {
        Ok(command) => {
            let act = Act::new(command, told::done(words::POT_ADDED)).ends_draft(DRAFT);
            ledger.act(act.otherwise(move |no| refused.set((None, rejection::say(&no)))));
        }
        Err(PotFault::Typed(field, fault)) => {
            refused.set((Some(field), rejection::quantity(&fault)));
        }
        Err(PotFault::Shape(fault)) => refused.set((None, rejection::pot(&fault))),
    });
    let rows = move || {
        let rows = shown.get().into_iter();
        rows.map(|row| pot_row(ledger, row)).collect_view()
    };
    let actions = move || view! { <MainAction label=words::ADD_POT.to_owned() on_press=add busy=ledger.busy() /> };
    view! {
        <Screen title=words::POTS back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <NewPot draft refused />
            <Slat name=words::POTS />
            {rows}
        </Screen>
    }
}

#[component]
fn NewPot(draft: Memo<PotDraft>, refused: Refused) -> impl IntoView {
    let ledger = Ledger::here();
    let shape = Signal::derive(move || draft.with(|draft| draft.shape));
    let shapes = vec![
        (PotShape::Round, words::ROUND_POT.to_owned()),
        (PotShape::Square, words::SQUARE_POT.to_owned()),
        (PotShape::Holds, words::BY_WATER.to_owned()),
    ];
    let error = move |at: PotField| {
        Signal::derive(move || {
            refused.with(|(here, words)| {
                if *here == Some(at) {
                    words.clone()
                } else {
                    String::new()
                }
            })
        })
    };
    let whole = Signal::derive(move || {
        refused.with(|(here, words)| {
            if here.is_none() {
                words.clone()
            } else {
                String::new()
            }
        })
    });
    let measure = move |label: &'static str,
                        at: PotField,
                        get: fn(&PotDraft) -> &String,
                        set: fn(&mut PotDraft, String)| {
        let value = Signal::derive(move || draft.with(|draft| get(draft).clone()));
        let on_input =
            Callback::new(move |typed| change(ledger, refused, |draft| set(draft, typed)));
        view! { <Field label value on_input error=error(at) max_chars=20 /> }
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
                on_input=Callback::new(move |typed| change(ledger, refused, |draft| draft.name = typed))
                max_chars=200
            />
            {one_of(words::SHAPE, shapes, shape, move |shape| change(ledger, refused, |draft| draft.shape = shape))}
            {measures}
            <Refusal words=whole />
        </div>
        {move || form.get().map(section)}
    }
}

fn mm(length: Length) -> String {
    format::millimetres(length.um())
}

/// A pot in section; one known by its water alone has only its figure.
fn section(pot: Pot) -> impl IntoView {
    let litres = pot.brimful().map(format::litres).unwrap_or_default();
    let brimful = format!("{litres} {}", words::BRIMFUL);
    let (Pot::Round { top, base, height } | Pot::Square { top, base, height }) = pot else {
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

fn measures(pot: Pot) -> String {
    let litres = pot.brimful().map(format::litres).unwrap_or_default();
    let square = matches!(pot, Pot::Square { .. });
    match pot {
        Pot::Round { top, base, height } | Pot::Square { top, base, height } => {
            let measures = words::pot_measures(square, [top.um(), base.um(), height.um()]);
            format!("{measures} · {litres}")
        }
        Pot::Holds { .. } => litres,
    }
}
