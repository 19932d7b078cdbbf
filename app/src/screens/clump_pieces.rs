//! Step one at the bench: pieces by class, counted with the thumb.

use leptos::prelude::*;
use velamen_core::draft::BenchStep;
use velamen_core::event::PieceClass;
use velamen_core::label_sheet::LabelOf;
use velamen_core::limits::PIECES_MAX;
use velamen_core::view::repot::ClumpView;

use crate::frame::{notices, room_bar};
use crate::ledger::Act;
use crate::route::Route;
use crate::screens::clump::{Bench, draft_key};
use crate::screens::first_repot::{Step, first_step};
use crate::screens::labels::print_labels_of;
use crate::ui::{Glyph, MainAction, PlainAction, PlainLink, Screen, Stepper};
use crate::words::labels::PRINT_TAG;
use crate::words::{cut, rejection, repot as words, signs, trade};

/// Counts of a class as the grower sees them: recorded, and tapped since.
fn counted(bench: Bench, class: PieceClass) -> i64 {
    let taken = line(bench.view(), class).map_or(0, |line| line.0);
    i64::try_from(bench.draft.with(|draft| draft.count(taken, class))).unwrap_or(0)
}

fn line(view: Option<ClumpView>, class: PieceClass) -> Option<(u64, u64)> {
    let view = view?;
    view.classes
        .iter()
        .find(|line| line.class == class)
        .map(|line| (line.taken, line.potted))
}

/// What belongs in a class, or how many of it were expected.
fn hint(bench: Bench, class: PieceClass) -> String {
    let view = bench.view();
    let plan = view.and_then(|view| view.plan);
    plan.and_then(|plan| cut::said(&plan, class))
        .unwrap_or_else(|| trade::class_hint(class).to_owned())
}

pub(super) fn pieces(bench: Bench) -> impl IntoView {
    let steppers = PieceClass::ALL
        .into_iter()
        .map(|class| {
            let set = Callback::new(move |count: i64| {
                let (taken, potted) = line(bench.view.get_untracked(), class).unwrap_or((0, 0));
                bench.change(|draft| {
                    let now = i64::try_from(draft.count(taken, class)).unwrap_or(0);
                    let by = i32::try_from(count.saturating_sub(now)).unwrap_or(0);
                    draft.step_by(taken, potted, class, by);
                });
            });
            let label = trade::class(class);
            view! {
                <Stepper
                    label
                    hint=Signal::derive(move || hint(bench, class))
                    count=Signal::derive(move || counted(bench, class))
                    on_count=set
                    less_label=words::one_less(label)
                    more_label=words::one_more(label)
                    max=i64::from(PIECES_MAX)
                />
            }
        })
        .collect_view();
    let sum = move |kept: bool| {
        let classes = PieceClass::ALL
            .into_iter()
            .filter(|class| class.is_kept() == kept);
        u64::try_from(classes.map(|class| counted(bench, class)).sum::<i64>()).unwrap_or(0)
    };
    let balance = move || {
        bench.view().map(|view| {
            let (opened, kept) = words::kept(view.pots, sum(true), sum(false));
            view! { <p class="balance"><span>{opened}</span><strong>{kept}</strong></p> }
        })
    };
    let seen = move || {
        bench
            .view()
            .filter(|view| !view.findings.is_empty())
            .map(|view| {
                let signs: Vec<String> = view
                    .findings
                    .iter()
                    .map(|(_, key)| trade::sign(key).to_lowercase())
                    .collect();
                let first = view.findings.last().map(|(finding, key)| {
                    let href = Route::Finding(*finding).href();
                    view! {
                        {signs::first(key).map(|first| view! { <p class="edge">{first}</p> })}
                        <p class="edge"><PlainLink href label=words::WHAT_MAY_FOLLOW /></p>
                    }
                });
                view! {
                    <p class="edge strong">{words::seen(&signs.join(", "))}</p>
                    {first}
                }
            })
    };
    let parents = move || {
        bench.view().map(|view| {
            let codes: Vec<String> = view
                .parents
                .iter()
                .filter_map(|lot| lot.code)
                .map(|code| code.to_string())
                .collect();
            match codes.len() {
                0 => words::grown_together(view.pots),
                1 => codes.join(", "),
                _ => words::which_not_known(&codes.join(", ")),
            }
        })
    };
    let bulbs =
        Signal::derive(move || i64::from(bench.draft.with(|draft| draft.bulbs).unwrap_or(0)));
    let caution = move || {
        let command = bench.draft.get().take(bench.clump)?;
        let cautions = bench.ledger.try_out(command).ok()?;
        cautions
            .first()
            .map(|caution| rejection::caution(caution, bench.ledger.today()))
    };
    let warning = move || caution().map(|words| view! { <p class="warn">{words}</p> });
    let whole = Signal::derive(move || sum(true) + sum(false) == 0);
    let put_back = Callback::new(move |()| {
        let command = bench.draft.get_untracked().put_back(bench.clump);
        let act = Act::new(command, words::PUT_BACK_DONE).ends_draft(draft_key(bench.clump));
        bench.ledger.act(act.then(|_| Route::Repot.replace()));
    });
    let actions = move || {
        view! {
            <PlainLink href=Route::SeenClump(bench.clump).href() label=words::SEEN_HERE />
            <MainAction
                label=words::TO_THE_POTS.to_owned()
                on_press=Callback::new(move |()| to_the_pots(bench))
                busy=bench.ledger.busy()
                disabled=whole
            />
        }
    };
    let over = Signal::derive(move || parents().unwrap_or_default());
    let tag = Callback::new(move |()| {
        print_labels_of(bench.ledger, &[LabelOf::Clump(bench.clump)]);
    });
    view! {
        <Screen
            title=bench.name()
            over
            back=move || bench.back()
            side=move || bench.tag()
            actions
            notice=notices
            rooms=|| room_bar(Route::Repot)
        >
            {first_step(bench.ledger, Step::Pieces)}
            {warning}
            {seen}
            <div class="steppers">{steppers}</div>
            {balance}
            <details class="more-of-it">
                <summary>{words::BULBS}</summary>
                <Stepper
                    label=words::BULBS
                    count=bulbs
                    on_count=Callback::new(move |count: i64| bench.change(|draft| draft.bulbs = u32::try_from(count).ok().filter(|bulbs| *bulbs > 0)))
                    less_label=words::one_less(words::BULBS)
                    more_label=words::one_more(words::BULBS)
                    five_label=words::FIVE
                    max=1_000
                />
            </details>
            <p class="edge soft">{words::SAFETY}</p>
            <div class="form"><PlainAction label=PRINT_TAG.to_owned() glyph=Glyph::Tag on_press=tag /></div>
            {move || whole.get().then(|| view! {
                <div class="form">
                    <PlainLink href=Route::CutClump(bench.clump).href() label=cut::BEFORE />
                    <PlainAction label=words::PUT_BACK.to_owned() on_press=put_back busy=bench.ledger.busy() />
                </div>
            })}
        </Screen>
    }
}

/// Records what was counted, and goes on to the pots. Both at once: a battery that dies in between would have the
/// pieces counted twice.
fn to_the_pots(bench: Bench) {
    let mut next = bench.draft.get_untracked();
    let take = next.take(bench.clump);
    next.taken();
    next.step = BenchStep::Pots;
    let key = draft_key(bench.clump);
    match take {
        Some(command) => {
            let act = Act::new(command, "").for_good();
            bench.ledger.act(act.leaves_draft(key, &next));
        }
        None => bench.ledger.keep_draft(&key, &next),
    }
}
