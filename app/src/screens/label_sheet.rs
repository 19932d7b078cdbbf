//! The sheet labels are printed on, and what stands on them: two parts of the screen of labels.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::event::BookSet;
use velamen_core::label_sheet::{LabelsDraft, PRESETS, SheetField};
use velamen_core::papers::{PassportFault, PassportForm, operator_number, passport_terms};

use super::lot_parts::{Refusal, one_of};
use crate::ledger::{Act, Ledger};
use crate::ui::{Field, Keys, PlainAction, Toggle};
use crate::words::{labels as words, papers, rejection};

/// Key of the draft.
pub(super) const LABELS: &str = "labels";

/// Measures of the sheet.
#[component]
pub fn SheetForm() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<LabelsDraft>(LABELS);
    let presets = PRESETS.map(|preset| (preset.key, words::preset(preset.key).to_owned()));
    let chosen = Signal::derive(move || draft.with(|draft| draft.sheet.preset()));
    let fault = Memo::new(move |_| draft.with(|draft| draft.sheet.read().err()));
    let several = Memo::new(move |_| {
        let sheet = draft.with(|draft| draft.sheet.read());
        // A wrong first place still belongs to a sheet with several.
        sheet.map_or(true, |(sheet, _)| sheet.places() > 1)
    });
    let field = move |field: SheetField| {
        let value = Signal::derive(move || draft.with(|draft| draft.sheet.shown(field)));
        let error = Signal::derive(move || {
            let here = fault
                .get()
                .filter(|fault| words::fault_field(*fault) == Some(field));
            here.map(words::sheet_fault).unwrap_or_default()
        });
        let on_input = Callback::new(move |typed: String| {
            ledger.change_draft::<LabelsDraft>(LABELS, |draft| draft.sheet.set(field, typed));
        });
        let hint = if field == SheetField::Start {
            words::START_HINT
        } else {
            ""
        };
        let label = words::field(field);
        if field.is_count() {
            view! { <Field label value error on_input keys=Keys::Digits hint max_chars=10 /> }
                .into_any()
        } else {
            view! { <Field label value error on_input keys=Keys::Decimal unit="mm" hint max_chars=10 /> }.into_any()
        }
    };
    let measures = SheetField::ALL
        .into_iter()
        .filter(|at| *at != SheetField::Start)
        .map(field)
        .collect_view();
    let together = Signal::derive(move || {
        let whole = fault
            .get()
            .filter(|fault| words::fault_field(*fault).is_none());
        whole.map(words::sheet_fault).unwrap_or_default()
    });
    view! {
        <div class="form">
            {one_of(words::SHEET, presets.to_vec(), chosen, move |key: &'static str| {
                ledger.change_draft::<LabelsDraft>(LABELS, |draft| draft.sheet.begin_from(key));
            })}
            {move || several.get().then(|| field(SheetField::Start))}
        </div>
        <details class="more-of-it">
            <summary>{words::MEASURES}</summary>
            <div class="form">
                <p class="soft">{words::MEASURES_HINT}</p>
                <div class="pair">{measures}</div>
            </div>
        </details>
        <div class="edge-error"><Refusal words=together /></div>
    }
}

/// What stands on every label.
#[component]
pub fn OnTheLabel() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<LabelsDraft>(LABELS);
    let toggle = move |label: &'static str,
                       hint: &'static str,
                       off: fn(&mut LabelsDraft) -> &mut bool| {
        let on = Signal::derive(move || !*off(&mut draft.get()));
        let on_switch = Callback::new(move |on: bool| {
            ledger.change_draft::<LabelsDraft>(LABELS, |draft| *off(draft) = !on);
        });
        view! { <Toggle label hint=hint.to_owned() on on_switch on_word=words::YES off_word=words::NO /> }
    };
    view! {
        <div class="form">
            {toggle(words::DAY, "", |draft| &mut draft.no_day)}
            {toggle(words::POT, "", |draft| &mut draft.no_pot)}
            {toggle(words::CAUTION, words::CAUTION_HINT, |draft| &mut draft.no_caution)}
            <PassportForms />
        </div>
    }
}

/// Which passport, and what it needs.
#[component]
pub fn PassportForms() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<LabelsDraft>(LABELS);
    let chosen = Memo::new(move |_| draft.with(|draft| draft.passport));
    let options = [PassportForm::None, PassportForm::Eu, PassportForm::Uk]
        .map(|form| (form, papers::form(form).to_owned()));
    let kept = ledger.ask(|state, _| operator_number(state.facts()));
    let typed = RwSignal::new(None::<String>);
    let number = Signal::derive(move || typed.get().unwrap_or_else(|| kept.get()));
    let refused = RwSignal::new(String::new());
    let keep = Callback::new(move |()| {
        let command = Command::SetBook(BookSet {
            operator_number: Some(number.get_untracked().trim().to_owned()),
            ..BookSet::default()
        });
        let act = Act::new(command, papers::OPERATOR_KEPT).then(move |_| typed.set(None));
        ledger.act(act.otherwise(move |no| refused.set(rejection::say(&no))));
    });
    let origin = Signal::derive(move || draft.with(|draft| draft.origin.clone()));
    let fault = Memo::new(move |_| {
        let (form, origin) = draft.with(|draft| (draft.passport, draft.origin.clone()));
        let terms = ledger.follow(|state, _| passport_terms(state.facts(), form, &origin));
        terms.err()
    });
    let wrong = Signal::derive(move || {
        fault
            .get()
            .map(papers::passport_fault)
            .unwrap_or_default()
            .to_owned()
    });
    let details = move || {
        (chosen.get() != PassportForm::None).then(|| {
            let on_number = Callback::new(move |text: String| {
                refused.set(String::new());
                typed.set(Some(text));
            });
            let on_origin = Callback::new(move |text: String| {
                ledger.change_draft::<LabelsDraft>(LABELS, |draft| draft.origin = text);
            });
            view! {
                <p class="warn">{papers::PASSPORT_CAUTION}</p>
                <Field label=papers::OPERATOR hint=papers::OPERATOR_HINT value=number on_input=on_number error=refused max_chars=60 />
                {move || typed.get().is_some().then(|| view! {
                    <PlainAction label=papers::KEEP_OPERATOR.to_owned() on_press=keep busy=ledger.busy() />
                })}
                {move || (fault.get() != Some(PassportFault::NoOperator)).then(|| view! {
                    <Field label=papers::ORIGIN hint=papers::ORIGIN_HINT value=origin on_input=on_origin max_chars=80 />
                })}
                <Refusal words=wrong />
            }
        })
    };
    view! {
        {one_of(papers::PASSPORT, options.to_vec(), chosen.into(), move |form| {
            ledger.change_draft::<LabelsDraft>(LABELS, |draft| draft.passport = form);
        })}
        {details}
    }
}
