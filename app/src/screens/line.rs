//! The whole line of a lot, both ways, each with what was done; what became of its division, and what it has cost.

use leptos::prelude::*;
use velamen_core::event::PieceClass;
use velamen_core::id::{ClumpId, LotId};
use velamen_core::outlook::{YieldRow, yields};
use velamen_core::state::Born;
use velamen_core::view::line::{Kin, Line, line};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{PlainLink, Screen, Slat, Stake, TopBack};
use crate::words::{cost, cut, line as words, rooms, stock, trade};

/// The screen.
#[component]
pub fn LotLine(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(move |state, _| line(state, lot));
    let became = ledger.ask(move |state, at| {
        let clumps = divided(state, lot);
        let rows = clumps
            .into_iter()
            .map(|(clump, tray)| (tray, yields(state, Some(clump), at.today)));
        rows.filter(|(_, rows)| !rows.is_empty())
            .collect::<Vec<_>>()
    });
    let body = move || match shown.get() {
        Some(line) => kin(ledger, lot, line).into_any(),
        None => view! { <p class="edge">{stock::UNKNOWN}</p> }.into_any(),
    };
    let gave = move || {
        let clumps = became.get().into_iter().map(|(tray, rows)| {
            view! {
                <section>
                    <Slat name=words::gave(tray) note="" />
                    {yield_rows(&rows)}
                </section>
            }
        });
        clumps.collect_view()
    };
    view! {
        <Screen
            title=words::TITLE
            back=move || view! { <TopBack href=Route::Lot(lot).href() label=rooms::back_to(cut::THE_LOT) /> }
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            {body}
            {gave}
            <div class="form"><PlainLink href=Route::LotCost(lot).href() label=cost::LINK /></div>
        </Screen>
    }
}

/// Clumps the lot came off or went into, with their trays.
fn divided(state: &velamen_core::state::State, lot: LotId) -> Vec<(ClumpId, u32)> {
    let facts = state.facts();
    let born = facts.lots.get(&lot).and_then(|lot| match &lot.born {
        Some(Born::Potted { clump, .. }) => Some(*clump),
        _ => None,
    });
    let clumps = facts.clumps.iter().filter_map(|(id, clump)| {
        let concerns = born == Some(*id) || clump.parents().contains(&lot);
        let opened = clump.opened.as_ref().filter(|_| concerns)?;
        Some((*id, opened.tray))
    });
    clumps.collect()
}

fn kin(ledger: Ledger, here: LotId, line: Line) -> impl IntoView {
    let today = ledger.today();
    let short = line
        .cut_short
        .then(|| view! { <p class="edge strong">{words::CUT_SHORT}</p> });
    let mut last = None;
    let rows: Vec<AnyView> = line
        .kin
        .iter()
        .map(|kin| {
            let head = (last != Some(kin.steps))
                .then(|| view! { <Slat name=words::steps(kin.steps) note="" /> });
            last = Some(kin.steps);
            view! { {head} {one(kin, here, &line, today)} }.into_any()
        })
        .collect();
    view! { {short} {rows} }
}

fn one(kin: &Kin, here: LotId, line: &Line, today: chrono::NaiveDate) -> impl IntoView + use<> {
    let code_of = |lot: &LotId| {
        let found = line.kin.iter().find(|kin| kin.label.lot == *lot)?;
        found.label.code.map(|code| code.to_string())
    };
    let codes = |lots: &[LotId]| lots.iter().filter_map(code_of).collect::<Vec<_>>();
    let said = words::about(kin, &codes(&kin.parents), today);
    let stake = view! {
        <Stake
            name=trade::name_runs(&kin.label.name)
            code=kin.label.code.map(|code| code.to_string()).unwrap_or_default()
            count=trade::plants_in_pots(kin.label.plants, kin.label.stands)
        />
    };
    let at = (kin.label.lot == here).then(|| view! { <span class="strong">{words::HERE}</span> });
    view! {
        <a class="lot-row" href=Route::Lot(kin.label.lot).href()>
            {stake}
            {at}
            <span class="soft">{said}</span>
        </a>
    }
}

/// What became of pieces, class by class.
pub fn yield_rows(rows: &[YieldRow]) -> impl IntoView + use<> {
    let rows = rows.iter().map(|row| {
        let class: PieceClass = row.class;
        let said = words::yielded(row);
        view! {
            <div class="entry">
                <strong>{trade::class(class)}</strong>
                {said.into_iter().map(|said| view! { <span>{said}</span> }).collect_view()}
            </div>
        }
    });
    rows.collect_view()
}
