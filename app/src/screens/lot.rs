//! A lot's page: what it is, what is due, where it comes from, what was done.

use leptos::prelude::*;
use velamen_core::id::LotId;
use velamen_core::view::lot::{LotView, lot as lot_view};
use velamen_core::view::round::RowState;
use velamen_core::view::year::{Year, YearMark, year};

use super::labels::LotPaperKeys;
use super::lot_apart::KeptApart;
use super::lot_change::ChangeSheet;
use super::lot_lineage::ComesFrom;
use super::lot_reserved::ReservedHere;
use super::lot_signs::LotSigns;
use super::lot_water::LotWater;
use super::lot_work::{History, Line, OpenWork, Work, history, work};
use super::reentry::LotBound;
use super::rotation::HadBefore;
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::drawing::{Span, SpanKind, YearStrip};
use crate::ui::{Fact, Facts, Glyph, Lesson, MainAction, PlainLink, Screen, Slat, Stake, TopBack};
use crate::words::{cut, format, rooms, stock as words, task, trade};

/// Everything the page shows.
#[derive(Clone, PartialEq)]
struct Page {
    view: LotView,
    year: Year,
    work: Vec<Work>,
    history: Vec<Line>,
}

/// A lot's page.
#[component]
pub fn Lot(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let page = ledger.ask(move |state, at| {
        let view = lot_view(state, lot, at.today)?;
        let year = year(&view, at.today);
        let work = work(state, &view);
        let history = history(state, &view);
        Some(Page {
            view,
            year,
            work,
            history,
        })
    });
    let menu = RwSignal::new(false);
    let title = Signal::derive(move || {
        let code = page.with(|page| page.as_ref()?.view.label.code);
        code.map_or_else(|| words::LOT.to_owned(), |code| code.to_string())
    });
    let over = Signal::derive(move || {
        let place = page.with(|page| {
            page.as_ref()?
                .view
                .place
                .as_ref()
                .map(|place| place.name.clone())
        });
        place.unwrap_or_else(|| words::NO_PLACE.to_owned())
    });
    let locked =
        Memo::new(move |_| page.with(|page| page.as_ref().is_none_or(|page| page.view.locked)));
    let actions = move || {
        view! {
            <PlainLink href=Route::SeenLot(lot).href() label=words::SEEN_HERE glyph=Glyph::Magnifier />
            <MainAction label=words::CHANGE.to_owned() on_press=Callback::new(move |()| menu.set(true)) disabled=locked />
        }
    };
    let body = move || match page.get() {
        Some(page) => view! { <Body page /> }.into_any(),
        None => {
            view! { <Lesson glyph=Glyph::Stock title=words::UNKNOWN words=words::UNKNOWN_HINT /> }
                .into_any()
        }
    };
    view! {
        <Screen
            title
            over
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <LotBound lot />
            <LotSigns lot />
            {body}
            <ChangeSheet lot menu />
        </Screen>
    }
}

#[component]
fn Body(page: Page) -> impl IntoView {
    let view = page.view;
    let said = if view.locked {
        Some(words::LOCKED)
    } else if view.born.is_none() {
        Some(words::WITHDRAWN)
    } else {
        None
    };
    let season = season(&view, &page.year);
    let lot = view.label.lot;
    let plan = view
        .plan
        .as_ref()
        .map(|plan| view! { <p class="strong">{cut::plan(plan)}</p> });
    let planned = (view.label.plants > 0).then(|| {
        view! {
            <div class="form">
                {plan}
                <PlainLink href=Route::CutLot(lot).href() label=cut::BEFORE />
            </div>
        }
    });
    view! {
        <p class="edge">
            <Stake name=trade::name_runs(&view.label.name) large=true />
        </p>
        {said.map(|said| view! { <p class="edge strong">{said}</p> })}
        <ThreeFacts view=view.clone() />
        <ReservedHere view=view.clone() />
        <KeptApart lot=view.label.lot />
        <OpenWork work=page.work />
        {planned}
        <LotWater lot />
        {season}
        <ComesFrom view />
        <HadBefore lot />
        <LotPaperKeys lot />
        <History lines=page.history />
    }
}

/// How many, what kind and when it flowers, and what comes next.
#[component]
fn ThreeFacts(view: LotView) -> impl IntoView {
    let today = Ledger::here().today();
    let count = words::grouped(view.label.plants);
    let plants = if view.label.plants == 1 {
        words::PLANT_UNIT
    } else {
        words::PLANTS_UNIT
    };
    let benched: u32 = view.on_bench.iter().map(|(_, plants)| *plants).sum();
    let stands = if benched > 0 {
        words::benched(view.label.stands, benched)
    } else {
        words::in_pots(view.label.stands)
    };
    let kind = view.class.map_or(words::CLASS_OPEN, words::class_short);
    let flowers = view
        .flowering_windows
        .first()
        .map(|window| words::flowers(&format::window(window)));
    let held = view.tasks.iter().find_map(|(task, stands)| match stands {
        Some(RowState::Held { until }) => Some((task.kind, *until)),
        _ => None,
    });
    let (when, what) = match (held, view.tasks.first()) {
        (Some((kind, until)), _) => (format::near_day(until, today), words::not_before(kind)),
        (None, Some((task, _))) => (
            format::near_day(task.due_on, today),
            task::kind(task.kind).to_lowercase(),
        ),
        (None, None) => (words::NOTHING_DUE.to_owned(), words::NEXT.to_owned()),
    };
    view! {
        <Facts>
            <Fact value=count unit=plants words=stands />
            <Fact value=kind words=flowers.unwrap_or_else(|| words::KIND.to_owned()) />
            <Fact value=when words=what />
        </Facts>
    }
}

/// The year as a strip, with the whole of it in a sentence.
pub(super) fn strip(year: &Year, text: String) -> impl IntoView + use<> {
    let today = Ledger::here().today();
    let spans = year
        .spans
        .iter()
        .map(|span| Span {
            kind: match span.mark {
                YearMark::RepotWindow | YearMark::RootWindow => SpanKind::Window,
                YearMark::RestWindow => SpanKind::Cause,
                YearMark::FloweringWindow => SpanKind::Flowering,
                YearMark::Potted | YearMark::Seen(_) => SpanKind::Done,
                YearMark::Work(_) => SpanKind::ToCome,
            },
            from_day: span.from_day,
            to_day: span.to_day,
            words: words::mark(span.mark, &format::short_day(span.from_on, today)),
        })
        .collect::<Vec<_>>();
    let months = year
        .months
        .iter()
        .map(|month| words::month_letter(*month))
        .collect::<Vec<_>>();
    view! { <YearStrip months today_day=year.today_day today_words=words::TODAY spans text /> }
}

fn season(view: &LotView, year: &Year) -> impl IntoView + use<> {
    let today = Ledger::here().today();
    let named = |windows: &[velamen_core::season::Window]| {
        windows.iter().map(format::window).collect::<Vec<_>>()
    };
    let text = words::year_sentence(&named(&view.repot_windows), &named(&view.flowering_windows));
    let of = view.seen_of.as_ref();
    let of = of.and_then(|lot| lot.code.map(|code| code.to_string()));
    let said = |from| words::season_from(from, of.as_deref(), today);
    let note = format!("{} {}", words::REPOTTED, said(view.repot_from));
    let flowers = (view.flowering_from != view.repot_from).then(|| {
        let said = said(view.flowering_from);
        view! { <p class="edge soft">{words::FLOWERS} " " {said}</p> }
    });
    view! {
        <section>
            <Slat name=words::THE_YEAR note />
            {flowers}
            {strip(year, text)}
        </section>
    }
}
