//! Putting one event of an entry right: both wordings in sight, the fields the event has, and why.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::correction::{Correctable, Correction, correctable};
use velamen_core::id::{EntryRef, PlaceId};
use velamen_core::record::RecordTexts;
use velamen_core::view;
use velamen_core::view::book::row_of;

use super::entry::{EntryDraft, draft_key};
use super::lot_parts::{Count, Refusal, one_of};
use crate::ledger::{Act, Ledger};
use crate::screens::names::sentence;
use crate::ui::{Field, Keys, MainAction, PlainAction, Toggle};
use crate::words::{entry as words, record, rejection, shed, treat, water};

/// The form of a correction.
#[component]
pub fn CorrectForm(entry: EntryRef, index: u16, draft: Memo<EntryDraft>) -> impl IntoView {
    let ledger = Ledger::here();
    let refused = RwSignal::new(String::new());
    let event = ledger.ask(move |state, _| {
        row_of(state, entry)?
            .events
            .get(usize::from(index))
            .cloned()
    });
    let typed =
        Memo::new(move |_| draft.with(|draft| draft.correction.clone().unwrap_or_default()));
    let change = move |how: &dyn Fn(&mut Correction)| {
        refused.set(String::new());
        ledger.change_draft(&draft_key(entry), |draft: &mut EntryDraft| {
            if let Some(correction) = &mut draft.correction {
                how(correction);
            }
        });
    };
    let before = move || {
        event
            .get()
            .map(|event| ledger.look(|state, _| sentence(state, &event)))
    };
    let after = move || {
        let typed = typed.get();
        let event = event.get()?;
        Some(ledger.look(|state, _| sentence(state, &typed.applied(&event))))
    };
    let keep = Callback::new(move |()| {
        let (typed, Some(event)) = (typed.get_untracked(), event.get_untracked()) else {
            return;
        };
        let unreadable = typed.record.unreadable();
        if !unreadable.is_empty() {
            refused.set(record::unreadable(&unreadable));
            return;
        }
        let command = Command::Amend {
            target: entry,
            index,
            event: typed.applied(&event),
            why: typed.why.clone(),
        };
        let act = Act::new(command, words::CORRECTED).ends_draft(draft_key(entry));
        ledger.act(act.otherwise(move |no| refused.set(rejection::say(&no))));
    });
    let leave = Callback::new(move |()| ledger.drop_draft(&draft_key(entry)));
    let fields = move || {
        let can = event.with(|event| event.as_ref().map(correctable))?;
        Some(fields(ledger, can, typed, change))
    };
    view! {
        <div class="form">
            <p class="out">{before}</p>
            <p aria-live="polite">{after}</p>
        </div>
        {fields}
        <div class="form">
            <Field
                label=words::WHY
                hint=words::WHY_HINT
                value=Signal::derive(move || typed.with(|typed| typed.why.clone()))
                on_input=Callback::new(move |why: String| change(&|draft| draft.why.clone_from(&why)))
                max_chars=4000
            />
            <Refusal words=refused />
            <p class="soft">{words::CORRECT_HINT}</p>
        </div>
        <div class="actions">
            <PlainAction label=shed::DISCARD.to_owned() on_press=leave />
            <MainAction label=words::KEEP.to_owned() on_press=keep busy=ledger.busy() />
        </div>
    }
}

fn fields(
    ledger: Ledger,
    can: Correctable,
    typed: Memo<Correction>,
    change: impl Fn(&dyn Fn(&mut Correction)) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let number = |count: i64| u32::try_from(count).unwrap_or(0);
    let plants = can.plants.then(|| {
        view! {
            <Count
                label=words::PLANTS
                count=Signal::derive(move || i64::from(typed.with(|typed| typed.plants)))
                on_count=Callback::new(move |count| change(&|draft| draft.plants = number(count)))
            />
        }
    });
    let stands = can.stands.then(|| {
        view! {
            <Count
                label=words::POTS
                count=Signal::derive(move || i64::from(typed.with(|typed| typed.stands)))
                on_count=Callback::new(move |count| change(&|draft| draft.stands = number(count)))
            />
        }
    });
    let name = can.name.then(|| {
        view! {
            <Field
                label=words::NAME
                value=Signal::derive(move || typed.with(|typed| typed.name_typed.clone()))
                on_input=Callback::new(move |name: String| change(&|draft| draft.name_typed.clone_from(&name)))
                max_chars=200
            />
        }
    });
    let place = can.place.then(|| {
        let known = ledger.look(|state, _| view::places(state.facts()));
        let known = known
            .into_iter()
            .map(|place| (Some(place.place), place.name));
        let options: Vec<(Option<PlaceId>, String)> = [(None, words::NOT_SAID.to_owned())]
            .into_iter()
            .chain(known)
            .collect();
        let chosen = Signal::derive(move || typed.with(|typed| typed.place));
        one_of(words::PLACE, options, chosen, move |place| {
            change(&|draft| draft.place = place)
        })
    });
    let note = can.note.then(|| {
        view! {
            <Field
                label=words::NOTE
                value=Signal::derive(move || typed.with(|typed| typed.note.clone()))
                on_input=Callback::new(move |note: String| change(&|draft| draft.note.clone_from(&note)))
                tall=true
                max_chars=4000
            />
        }
    });
    let flush = can.flush.then(|| {
        view! {
            <Toggle
                label=water::FLUSH
                on=Signal::derive(move || typed.with(|typed| typed.flush))
                on_switch=Callback::new(move |on: bool| change(&|draft| draft.flush = on))
                on_word=treat::YES
                off_word=treat::NO
            />
        }
    });
    let fed = can.fed.then(|| {
        view! {
            <Field
                label=water::PPM
                value=Signal::derive(move || typed.with(|typed| typed.ppm.clone()))
                on_input=Callback::new(move |ppm: String| change(&|draft| draft.ppm.clone_from(&ppm)))
                unit=water::PPM_UNIT
                keys=Keys::Digits
                max_chars=4
            />
            <Field
                label=water::EC
                value=Signal::derive(move || typed.with(|typed| typed.ec.clone()))
                on_input=Callback::new(move |ec: String| change(&|draft| draft.ec.clone_from(&ec)))
                unit=water::EC_UNIT
                keys=Keys::Decimal
                max_chars=6
            />
        }
    });
    let record = can.record.then(|| record_fields(typed, change));
    view! {
        {plants}
        {stands}
        <div class="form">{name} {place} {record} {flush} {fed} {note}</div>
    }
}

/// The words of a treatment's record.
fn record_fields(
    typed: Memo<Correction>,
    change: impl Fn(&dyn Fn(&mut Correction)) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    type Text = fn(&mut RecordTexts) -> &mut String;
    let fields: [(&str, &str, Text); 16] = [
        (record::PERSON_THEN, "", |texts| &mut texts.person),
        (record::LICENCE, "", |texts| &mut texts.licence),
        (record::REGISTRATION, "", |texts| &mut texts.registration),
        (record::ACTIVES, record::ACTIVES_HINT, |texts| {
            &mut texts.actives
        }),
        (record::BATCH, "", |texts| &mut texts.batch),
        (record::RATE, "", |texts| &mut texts.rate),
        (record::AMOUNT, record::AMOUNT_HINT, |texts| {
            &mut texts.amount
        }),
        (record::WATER, record::WATER_HINT, |texts| &mut texts.water),
        (record::START, record::TIME_HINT, |texts| &mut texts.start),
        (record::END, record::TIME_HINT, |texts| &mut texts.end),
        (record::REENTRY, record::REENTRY_HINT, |texts| {
            &mut texts.reentry
        }),
        (record::GEAR, "", |texts| &mut texts.gear),
        (record::WEATHER, "", |texts| &mut texts.weather),
        (record::DISPOSAL, "", |texts| &mut texts.disposal),
        (record::PLANT_CODE, record::PLANT_CODE_HINT, |texts| {
            &mut texts.plant_code
        }),
        (record::GROWTH_STAGE, record::GROWTH_STAGE_HINT, |texts| {
            &mut texts.growth_stage
        }),
    ];
    fields
        .map(|(label, hint, text)| {
            let value =
                Signal::derive(move || typed.with(|typed| text(&mut typed.record.clone()).clone()));
            let on_input = Callback::new(move |now: String| {
                change(&|draft| text(&mut draft.record).clone_from(&now));
            });
            view! { <Field label hint value on_input max_chars=200 /> }
        })
        .collect_view()
}
