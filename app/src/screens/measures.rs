//! The measures on the shelf: common sizes in one tap, others by their marks.

use leptos::prelude::*;
use velamen_core::command::{Command, MeasureTraits};
use velamen_core::event::MeasureKind;
use velamen_core::id::MeasureId;
use velamen_core::measure::{MeasureDraft, MeasureFault, MeasureField, SIZES, ready_made};
use velamen_core::view::measures::{self, MeasureRow};

use super::in_hand::{InHand, Wrong};
use super::lot_parts::{Refusal, one_of};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Field, Keys, MainAction, PlainLink, Screen, Slat, TopBack};
use crate::words::{measure as words, rooms, shed, told};

const DRAFT: &str = "new_measure";

/// A measure being typed, new or of the shelf; a refusal may be about one of its figures.
type MeasureInHand = InHand<MeasureDraft, MeasureField>;

fn wrong(fault: MeasureFault) -> Wrong<MeasureField> {
    (Some(fault.at), words::fault(&fault))
}

/// The measures of the shelf, common sizes, and the form for another.
#[component]
pub fn Measures() -> impl IntoView {
    let ledger = Ledger::here();
    let hand = MeasureInHand::new(ledger, DRAFT.to_owned(), MeasureDraft::default);
    let shown = ledger.ask(|state, _| measures::measures(state));
    let add = Callback::new(move |()| {
        let command = hand.shown.with_untracked(MeasureDraft::command);
        hand.record(command.map_err(wrong), told::done(words::ADDED), || {});
    });
    let rows = move || {
        let rows = shown.get();
        if rows.is_empty() {
            return view! { <p class="edge soft">{words::NONE_YET}</p> }.into_any();
        }
        let rows = rows.into_iter().map(|row| measure_row(ledger, row));
        rows.collect_view().into_any()
    };
    let sizes = SIZES.iter().enumerate().map(move |(at, size)| {
        let label = words::size(size.kind, size.most, size.graduation);
        let put = move |_| {
            if let Some(command) = ready_made(at) {
                ledger.act(Act::new(command, told::done(words::ADDED)));
            }
        };
        view! { <button type="button" class="size" on:click=put>{label}</button> }
    });
    view! {
        <Screen title=words::TITLE back=back_to_shed notice=notices rooms=|| room_bar(Route::Book)>
            <p class="edge soft">{words::HINT}</p>
            {rows}
            <Slat name=words::COMMON />
            <p class="edge soft">{words::COMMON_HINT}</p>
            <div class="sizes">{sizes.collect_view()}</div>
            <Slat name=words::OWN />
            <MeasureForm hand />
            <div class="form">
                <MainAction label=words::ADD.to_owned() on_press=add busy=ledger.busy() />
            </div>
        </Screen>
    }
}

/// One measure of the shelf, its marks read again.
#[component]
pub fn Measure(measure: MeasureId) -> impl IntoView {
    let ledger = Ledger::here();
    let row = ledger.ask(move |state, _| measures::one_of(state, measure));
    let hand = MeasureInHand::new(ledger, format!("measure-{measure}"), move || {
        row.get()
            .map(|row| MeasureDraft::of(&row))
            .unwrap_or_default()
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
        let change = hand.shown.with_untracked(|draft| draft.change(&row));
        if let Some(command) = change.transpose() {
            hand.record(command.map_err(wrong), shed::CHANGED.to_owned(), || {
                Route::Measures.replace()
            });
        }
    });
    let actions = move || {
        view! { <MainAction label=shed::KEEP_CHANGE.to_owned() on_press=keep busy=ledger.busy() disabled=unchanged /> }
    };
    let title = Signal::derive(move || {
        row.with(|row| row.as_ref().map(words::name))
            .unwrap_or_default()
    });
    let back =
        || view! { <TopBack href=Route::Measures.href() label=rooms::back_to(words::TITLE) /> };
    view! {
        <Screen title back actions notice=notices rooms=|| room_bar(Route::Book)>
            <MeasureForm hand />
        </Screen>
    }
}

#[component]
fn MeasureForm(hand: MeasureInHand) -> impl IntoView {
    let draft = hand.shown;
    let kind = Memo::new(move |_| draft.with(|draft| draft.kind));
    let kinds = MeasureKind::ALL
        .map(|kind| (kind, words::kind(kind).to_owned()))
        .to_vec();
    let figure = move |at: MeasureField,
                       label: &'static str,
                       hint: Option<&'static str>,
                       get: fn(&mut MeasureDraft) -> &mut String| {
        let value = Signal::derive(move || get(&mut draft.get()).clone());
        let on_input = Callback::new(move |typed| hand.change(|draft| *get(draft) = typed));
        let unit = words::unit(kind.get());
        let hint = hint.unwrap_or_default();
        view! { <Field label hint value on_input unit error=hand.wrong(Some(at)) keys=Keys::Decimal max_chars=20 /> }
    };
    let figures = move || {
        view! {
            {figure(MeasureField::Most, words::MOST, None, |draft| &mut draft.most)}
            {figure(MeasureField::Graduation, words::GRADUATION, None, |draft| &mut draft.graduation)}
            {figure(MeasureField::Least, words::LEAST, Some(words::LEAST_HINT), |draft| &mut draft.least)}
        }
    };
    let name = Signal::derive(move || draft.with(|draft| draft.name.clone()));
    view! {
        <div class="form">
            {one_of(words::KIND, kinds, kind.into(), move |kind| hand.change(|draft| draft.kind = kind))}
            {figures}
            <Field
                label=words::NAME
                hint=words::NAME_HINT
                value=name
                on_input=Callback::new(move |typed| hand.change(|draft| draft.name = typed))
                max_chars=200
            />
            <Refusal words=hand.wrong(None) />
        </div>
    }
}

fn measure_row(ledger: Ledger, row: MeasureRow) -> impl IntoView {
    let id = row.measure.id;
    let retire = move |_| {
        let traits = MeasureTraits {
            retired: Some(true),
            ..MeasureTraits::default()
        };
        let command = Command::SetMeasure {
            measure: Some(id),
            traits,
        };
        ledger.act(Act::new(command, shed::CHANGED));
    };
    view! {
        <details class="more-of-it">
            <summary><bdi>{words::name(&row)}</bdi> " " <span class="soft">{words::marks(&row)}</span></summary>
            <div class="form"><PlainLink href=Route::Measure(id).href() label=shed::CHANGE_IT /></div>
            <button type="button" class="quiet" on:click=retire>{shed::RETIRE}</button>
        </details>
    }
}
