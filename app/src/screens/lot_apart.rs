//! What a lot's page says of quarantine and viruses, and the test that is written down.

use leptos::prelude::*;
use velamen_core::command::{Command, EnterQuarantine};
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::event::{QuarantineWhy, TestMethod, TestResult, Tissue};
use velamen_core::id::LotId;
use velamen_core::quarantine::usual;
use velamen_core::test_draft::TestDraft;
use velamen_core::view::apart::{ApartView, StayRow, apart};
use velamen_core::view::lot_label;

use super::lot_parts::{Count, Refusal, one_of};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Field, Glyph, Icon, MainAction, PlainAction, PlainLink, Screen, Slat, TopBack};
use crate::words::{apart as words, rejection, rooms, stock, trade};

/// The section on a lot's page.
#[component]
pub fn KeptApart(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let view = ledger.ask(move |state, at| apart(state, lot, at.today));
    move || {
        let view = view.get();
        let suspect = view.suspicion.as_ref().map(|(why, of)| {
            let code = of
                .code
                .map(|code| code.to_string())
                .filter(|_| of.lot != lot);
            let said = words::suspicion(why, code.as_deref());
            view! { <p class="warn"><strong>{words::SUSPECT}</strong>" · "{said}</p> }
        });
        let stays = view.stays.iter().map(stay).collect_view();
        let keys = keys(lot, &view);
        let tests = view.tests.iter().map(|row| {
            view! {
                <a class="lot-row" href=Route::Entry(row.entry).href()>
                    <span>{words::tested(&row.test, row.on)}</span>
                </a>
            }
        });
        let tests = tests.collect_view();
        let any_test = !view.tests.is_empty();
        let open = any_test || !view.stays.is_empty() || view.suspicion.is_some() || view.arrival;
        view! {
            <section>
                {suspect}
                {stays}
                {view.arrival.then(|| view! { <Slat name=words::QUARANTINE note="" /><p class="edge">{words::ARRIVAL}</p> })}
                {any_test.then(|| view! { <Slat name=words::TESTS note="" /> {tests} })}
                <details class="more-of-it" open=open>
                    <summary>{words::QUARANTINE}" · "{words::TESTS}</summary>
                    <div class="form">{keys}</div>
                </details>
            </section>
        }
    }
}

/// One stay: why, since when, and each thing it waits for.
fn stay(row: &StayRow) -> impl IntoView + use<> {
    let today = Ledger::here().today();
    let note = words::since(row.progress.since_on, today);
    let why = words::why(row.why, row.sign.as_deref());
    let came = row.came_with.as_ref().and_then(|label| {
        let code = label.code?.to_string();
        Some(words::came_with(&code))
    });
    let found = row.progress.found.is_some();
    let waits = words::waits(&row.progress, today)
        .into_iter()
        .map(|(holds, said)| {
            let glyph = if holds { Glyph::Check } else { Glyph::Warning };
            view! {
                <li class="wait">
                    <Icon glyph />
                    <span>{said}</span>
                    <span class="soft">{words::holds(holds)}</span>
                </li>
            }
        });
    view! {
        <Slat name=words::IN_QUARANTINE note />
        <div class="edge">
            <p class="strong">{why}</p>
            {came.map(|came| view! { <p>{came}</p> })}
            {found.then(|| view! { <p class="strong">{words::NO_CURE}</p> })}
            <ul class="waits">{waits.collect_view()}</ul>
            <p class="small soft">{words::STAYS}</p>
        </div>
    }
}

fn keys(lot: LotId, view: &ApartView) -> impl IntoView + use<> {
    let ledger = Ledger::here();
    let why = if view.arrival {
        QuarantineWhy::Arrival
    } else {
        QuarantineWhy::Caution
    };
    let enter = Callback::new(move |()| {
        let enter = EnterQuarantine {
            lots: vec![lot],
            why,
            terms: usual(why, None),
            ..EnterQuarantine::default()
        };
        let command = Command::EnterQuarantine(enter);
        ledger.act(Act::new(command, words::IN_QUARANTINE));
    });
    let inside = !view.stays.is_empty();
    let out = view.may_come_out;
    view! {
        {(!inside).then(|| view! { <PlainAction label=words::APART.to_owned() on_press=enter busy=ledger.busy() /> })}
        <PlainLink href=Route::LotTest(lot).href() label=words::TEST />
        <PlainLink href=Route::Trace(lot).href() label=words::TRACE />
        {inside.then(|| view! { <Release lot out /> })}
        <p class="small soft">{words::PRACTICE}</p>
    }
}

/// Out of quarantine: one tap when all holds, else with a reason that is kept.
#[component]
fn Release(lot: LotId, out: bool) -> impl IntoView {
    let ledger = Ledger::here();
    let key = format!("apart-{lot}");
    let reason = ledger.draft_at::<String>(key.clone());
    let error = RwSignal::new(String::new());
    let typing = key.clone();
    let on_input = Callback::new(move |text: String| {
        error.set(String::new());
        ledger.keep_draft(&typing, &text);
    });
    let press = Callback::new(move |()| {
        let early = if out {
            String::new()
        } else {
            reason.get_untracked()
        };
        let command = Command::ReleaseQuarantine { lot, early };
        let act = Act::new(command, words::RELEASE).ends_draft(key.clone());
        ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
    });
    let label = if out {
        words::RELEASE
    } else {
        words::RELEASE_EARLY
    };
    view! {
        {(!out).then(|| view! {
            <p class="soft">{words::EARLY_HINT}</p>
            <Field label=words::EARLY_WHY value=reason on_input error max_chars=4000 />
        })}
        <PlainAction label=label.to_owned() on_press=press busy=ledger.busy() />
    }
}

/// A test, written down.
#[component]
pub fn LotTest(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft_at::<TestDraft>(TestDraft::key(lot));
    let error = RwSignal::new(String::new());
    let change = move |how: Box<dyn FnOnce(&mut TestDraft)>| {
        error.set(String::new());
        ledger.change_draft(&TestDraft::key(lot), |draft: &mut TestDraft| {
            draft.version = DRAFT_VERSION;
            how(draft);
        });
    };
    let over = Signal::derive(move || {
        ledger.follow(|state, _| {
            let label = lot_label(state.facts(), lot);
            let code = label.code.map(|code| code.to_string()).unwrap_or_default();
            format!("{} {code}", trade::name_plain(&label.name))
        })
    });
    let methods = [
        TestMethod::Strip,
        TestMethod::Elisa,
        TestMethod::Pcr,
        TestMethod::Other,
    ]
    .map(|it| (it, words::method(it).to_owned()));
    let tissues = [Tissue::Leaf, Tissue::Root, Tissue::Flower, Tissue::Other]
        .map(|it| (it, words::tissue(it).to_owned()));
    let results = || {
        let said = [
            TestResult::NotDetected,
            TestResult::Detected,
            TestResult::Unclear,
        ]
        .map(|it| (Some(it), words::result(it).to_owned()));
        let none = [(None, words::NOT_TESTED.to_owned())];
        said.into_iter().chain(none).collect::<Vec<_>>()
    };
    let part =
        move |get: fn(&TestDraft) -> Option<TestResult>| Signal::derive(move || draft.with(get));
    let method = Signal::derive(move || draft.with(|draft| draft.method));
    let tissue = Signal::derive(move || draft.with(|draft| draft.tissue));
    let pooled = Signal::derive(move || i64::from(draft.with(TestDraft::pooled)));
    let laboratory = Signal::derive(move || draft.with(|draft| draft.laboratory.clone()));
    let note = Signal::derive(move || draft.with(|draft| draft.note.clone()));
    let on_pooled = Callback::new(move |count: i64| {
        change(Box::new(move |draft| {
            draft.pooled = u32::try_from(count).ok()
        }));
    });
    let record = Callback::new(move |()| {
        let test = draft.with_untracked(|draft| draft.test(lot));
        let act = Act::new(Command::RecordTest(test), words::FOLLOWED)
            .ends_draft(TestDraft::key(lot))
            .then(move |_| Route::Lot(lot).replace());
        ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
    });
    let actions = move || {
        view! { <MainAction label=words::RECORD.to_owned() on_press=record busy=ledger.busy() /> }
    };
    view! {
        <Screen
            title=words::TEST_TITLE
            over
            back=move || view! { <TopBack href=Route::Lot(lot).href() label=rooms::back_to(stock::LOT) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <div class="form">
                {one_of(words::virus(velamen_core::event::Virus::Cymmv), results(), part(|draft| draft.cymmv), move |it| change(Box::new(move |draft| draft.cymmv = it)))}
                {one_of(words::virus(velamen_core::event::Virus::Orsv), results(), part(|draft| draft.orsv), move |it| change(Box::new(move |draft| draft.orsv = it)))}
                <Refusal words=error />
                {one_of(words::HOW, methods.to_vec(), method, move |it| change(Box::new(move |draft| draft.method = it)))}
                {one_of(words::SAMPLED, tissues.to_vec(), tissue, move |it| change(Box::new(move |draft| draft.tissue = it)))}
            </div>
            <Count label=words::POOLED hint=Signal::derive(|| words::POOLED_HINT.to_owned()) count=pooled on_count=on_pooled min=1 />
            <div class="form">
                <Field label=words::LABORATORY hint=words::OPTIONAL value=laboratory max_chars=200
                    on_input=Callback::new(move |text| change(Box::new(move |draft| draft.laboratory = text))) />
                <Field label=words::NOTE hint=words::OPTIONAL value=note max_chars=4000 tall=true
                    on_input=Callback::new(move |text| change(Box::new(move |draft| draft.note = text))) />
                <p class="small soft">{words::NOT_PROOF}</p>
            </div>
        </Screen>
    }
}
