//! Step three at the bench: a label for every lot, and what comes next for it.

use leptos::prelude::*;
use velamen_core::draft::BenchStep;
use velamen_core::first_draft::{FirstDraft, Led};
use velamen_core::label_sheet::LabelOf;
use velamen_core::view::lot_label;
use velamen_core::view::repot::{PottedLot, next_repot_on};

use crate::frame::{notices, room_bar};
use crate::ledger::Act;
use crate::route::Route;
use crate::screens::clump::{Bench, draft_key};
use crate::screens::first_repot::{FIRST, Step, first_step};
use crate::screens::labels::print_labels_of;
use crate::ui::{Glyph, MainAction, PlainAction, Screen, Stake};
use crate::words::{cut, format, labels::PRINT_THESE, repot as words, trade};

pub(super) fn labels(bench: Bench) -> impl IntoView {
    let rows = move || {
        let lots = bench
            .view()
            .map(|view| view.potted_lots)
            .unwrap_or_default();
        lots.into_iter().map(|lot| label(bench, lot)).collect_view()
    };
    let compared = move || {
        let view = bench.view()?;
        let plan = view.plan?;
        let lines = view
            .classes
            .iter()
            .filter_map(|line| cut::compared(&plan, line.class, line.taken))
            .map(|said| view! { <li>{said}</li> });
        Some(view! { <ul class="plain-list">{lines.collect_view()}</ul> })
    };
    let open = Signal::derive(move || bench.view().is_some_and(|view| view.is_open));
    let bare = Memo::new(move |_| bench.view().map_or(0, |view| view.bare));
    let done = Callback::new(move |()| {
        let Some(view) = bench.view.get_untracked() else {
            return;
        };
        let dirty_pots = u32::try_from(view.pots).unwrap_or(0);
        let wash = words::wash(dirty_pots, view.dirty_stone, view.tray);
        let draft = bench.draft.get_untracked();
        let today = bench.ledger.moment().today;
        let command = draft.close_and_wash(bench.clump, dirty_pots, wash, today);
        let act = Act::new(command, words::DONE_SAID)
            .ends_draft(draft_key(bench.clump))
            .leaves_draft(FIRST, &FirstDraft::of(Led::Over));
        bench.ledger.act(act.then(|_| Route::Repot.replace()));
    });
    let step = move |step| Callback::new(move |()| bench.change(|draft| draft.step = step));
    let actions = move || {
        if !open.get() {
            return ().into_any();
        }
        if bare.get() > 0 {
            let label = words::TO_THE_POTS.to_owned();
            return view! { <MainAction label on_press=step(BenchStep::Pots) /> }.into_any();
        }
        view! {
            <PlainAction label=words::BACK_TO_PIECES.to_owned() on_press=step(BenchStep::Pieces) />
            <MainAction label=words::DONE.to_owned() on_press=done busy=bench.ledger.busy() />
        }
        .into_any()
    };
    let state = move || match bare.get() {
        0 => view! { <p class="edge">{words::ALL_POTTED}</p> }.into_any(),
        bare => {
            let pieces = trade::pieces(i64::try_from(bare).unwrap_or(0));
            view! { <p class="warn">{format!("{pieces} {}", words::STILL_BARE)}</p> }.into_any()
        }
    };
    let print = Callback::new(move |()| {
        let lots = bench.view().map(|view| view.potted_lots);
        let lots: Vec<_> = lots
            .into_iter()
            .flatten()
            .map(|potted| LabelOf::Lot(potted.lot))
            .collect();
        print_labels_of(bench.ledger, &lots);
    });
    let printing = move || {
        let any = bench
            .view()
            .is_some_and(|view| !view.potted_lots.is_empty());
        any.then(|| view! {
            <div class="form"><PlainAction label=PRINT_THESE.to_owned() glyph=Glyph::Tag on_press=print /></div>
        })
    };
    view! {
        <Screen
            title=words::LABELS
            over=bench.name()
            back=move || bench.back()
            side=move || bench.tag()
            actions
            notice=notices
            rooms=|| room_bar(Route::Repot)
        >
            {move || open.get().then(|| first_step(bench.ledger, Step::Labels))}
            {state}
            {rows}
            {compared}
            {printing}
        </Screen>
    }
}

fn label(bench: Bench, potted: PottedLot) -> impl IntoView {
    let lot = potted.lot;
    let (label, next) = bench
        .ledger
        .look(|state, _| (lot_label(state.facts(), lot), next_repot_on(state, lot)));
    let written = Signal::derive(move || {
        bench
            .draft
            .with(|draft| draft.labels_written.contains(&lot))
    });
    let flip = move |_| {
        bench.change(
            |draft| match draft.labels_written.iter().position(|known| *known == lot) {
                Some(at) => drop(draft.labels_written.remove(at)),
                None => draft.labels_written.push(lot),
            },
        );
    };
    let class = potted.class.map(trade::class).unwrap_or_default();
    let next = next.map(|on| words::next_on(&format::near_day(on, bench.ledger.today())));
    let about = [
        Some(class.to_owned()),
        Some(words::labels_to_write(potted.stands.max(1))),
        next,
    ];
    let about: Vec<String> = about.into_iter().flatten().collect();
    view! {
        <div class="label-row">
            <Stake
                name=trade::name_runs(&label.name)
                code=label.code.map(|code| code.to_string()).unwrap_or_default()
                count=trade::plants_in_pots(label.plants, label.stands)
                large=true
            />
            <p class="soft">{about.join(" · ")}</p>
            <button type="button" class="choose" aria-pressed=move || written.get().to_string() on:click=flip>
                {words::WRITTEN}
            </button>
        </div>
    }
}
