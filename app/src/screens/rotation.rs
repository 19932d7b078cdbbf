//! What plants had before, as a strip of codes, on a bath and on a lot's page; why a product is advised against, and what
//! on the shelf would be a true change.

use leptos::prelude::*;
use velamen_core::apply::{MixFault, Rotated};
use velamen_core::id::LotId;
use velamen_core::rotation::{Judged, Proposed, Target, Use, history};

use super::mixing::Hand;
use crate::ledger::Ledger;
use crate::ui::drawing::{Bead, BeadKind, Beads};
use crate::ui::{Field, Slat};
use crate::words::{format, rotation as words};

/// Uses shown, the newest of them.
const SHOWN: usize = 7;

/// The strip of a line, with the product that is asked about at its end.
fn strip(line: &[Use], asked: Option<&Proposed>) -> impl IntoView + use<> {
    let today = Ledger::here().today();
    let hidden = line.len().saturating_sub(SHOWN);
    let same = |one: &Use| {
        asked.is_some_and(|asked| {
            let alike = |code| asked.codes.iter().any(|known| known.same_group(code));
            one.codes.iter().any(alike)
        })
    };
    let given = line.iter().skip(hidden).map(|one| Bead {
        code: words::codes(&one.codes),
        when: format::short_day(one.on, today),
        kind: if one.inherited {
            BeadKind::Inherited
        } else {
            BeadKind::Own
        },
        same: same(one),
    });
    let asked = asked.map(|asked| Bead {
        code: words::codes(&asked.codes),
        when: format::short_day(asked.on, today),
        kind: BeadKind::Asked,
        same: true,
    });
    let beads: Vec<Bead> = given.chain(asked).collect();
    view! {
        <Beads beads text=words::strip(line) />
        {(hidden > 0).then(|| view! { <p class="edge soft">{words::earlier(hidden)}</p> })}
    }
}

/// The plants chosen, judged by what they had before.
pub(super) fn had_before(hand: Hand, targets: Memo<Vec<Target>>) -> impl IntoView {
    let rotated = Memo::new(move |_| {
        let (mixing, method) = (hand.mixing.get(), hand.method.get());
        let targets = targets.get();
        hand.ledger
            .follow(|state, at| mixing.rotated(state, method, &targets, at.today))
    });
    let advised = Memo::new(move |_| {
        rotated.with(|rotated| rotated.as_ref().is_some_and(Rotated::is_advised_against))
    });
    let reason = hand.part(|mixing| mixing.rotation_reason.clone());
    let said = move || {
        let rotated = rotated.get()?;
        let unknown = (!rotated.new.unknown.is_empty()).then(|| {
            view! { <p class="edge soft">{words::unknown(&rotated.new.unknown)}</p> }
        });
        let groups: Vec<_> = rotated
            .judged
            .iter()
            .map(|judged| group(judged, &rotated.new))
            .collect();
        Some(view! {
            <Slat name=words::HAD_BEFORE note="" />
            {unknown}
            {groups}
            <p class="edge soft">{words::BEADS}</p>
            {changes(&rotated)}
        })
    };
    let why = move || {
        advised.get().then(|| {
            view! {
                <div class="form">
                    <Field
                        label=words::REASON
                        hint=words::REASON_HINT
                        value=reason
                        on_input=Callback::new(move |text| hand.change(|mixing| mixing.rotation_reason = text))
                        error=hand.says(|fault| *fault == MixFault::NoRotationReason)
                        max_chars=1000
                    />
                </div>
            }
        })
    };
    view! {
        {said}
        {why}
    }
}

/// Plants that stand alike: their strip, and what is said of them.
fn group(judged: &Judged, new: &Proposed) -> impl IntoView + use<> {
    let today = Ledger::here().today();
    let lots = judged
        .targets
        .iter()
        .filter(|target| matches!(target, Target::Lot(_)))
        .count();
    let who = words::for_so_many(lots, judged.targets.len().saturating_sub(lots));
    let advice: Vec<_> = judged
        .advice
        .iter()
        .map(|advice| view! { <p class="warn">{words::advice(advice, today)}</p> })
        .collect();
    let fine = (advice.is_empty() && new.unknown.is_empty())
        .then(|| view! { <p class="edge">{words::FINE}</p> });
    let none = judged
        .line
        .is_empty()
        .then(|| view! { <p class="edge soft">{words::NOTHING}</p> });
    view! {
        <p class="edge strong">{who}</p>
        {strip(&judged.line, Some(new))}
        {none}
        {judged.several.then(|| view! { <p class="edge soft">{words::SEVERAL}</p> })}
        {advice}
        {fine}
    }
}

/// What on the shelf would be a true change.
fn changes(rotated: &Rotated) -> impl IntoView + use<> {
    rotated.is_advised_against().then(|| {
        if rotated.changes.is_empty() {
            return view! { <p class="edge">{words::NO_CHANGE}</p> }.into_any();
        }
        let rows = rotated.changes.iter().map(|change| {
            let codes = words::codes_named(&change.codes);
            view! { <li>{change.label_name.clone()} " · " {codes}</li> }
        });
        view! {
            <div class="edge stack">
                <p class="strong">{words::CHANGES}</p>
                <ul>{rows.collect_view()}</ul>
            </div>
        }
        .into_any()
    })
}

/// A lot's strip, over every possible parent.
#[component]
pub fn HadBefore(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let lines = ledger.ask(move |state, _| {
        let lines = history(state, Target::Lot(lot));
        let several = lines.len() > 1;
        let longest = lines.into_iter().max_by_key(Vec::len).unwrap_or_default();
        (longest, several)
    });
    move || {
        let (line, several) = lines.get();
        (!line.is_empty()).then(|| {
            view! {
                <section>
                    <Slat name=words::HAD_BEFORE note="" />
                    {strip(&line, None)}
                    {several.then(|| view! { <p class="edge soft">{words::SEVERAL}</p> })}
                    <p class="edge soft">{words::LOT_BEADS}</p>
                </section>
            }
        })
    }
}
