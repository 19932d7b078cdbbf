//! The whole program: one ledger, one route, one screen at a time.

use leptos::prelude::*;

use crate::desk::{self, Desk};
use crate::help;
use crate::ledger::{LEFT_AT, Ledger, Phase};
use crate::route::{self, Route};
use crate::screens;
use crate::soaks::{SoakBell, soak_words};
#[cfg(debug_assertions)]
use crate::ui::Gallery;
use crate::ui::{Pocket, PocketLock};
use crate::words::shed;

/// The program in the page.
#[component]
pub fn App() -> impl IntoView {
    let ledger = Ledger::start();
    provide_context(ledger);
    let route = route::current();
    desk::provide(ledger, route);
    go_on_where_it_was_left(ledger, route);
    let started = Signal::derive(move || !matches!(ledger.phase(), Phase::NoBook));
    help::provide(route, started);
    // What was shown early goes on being shown once the book is there.
    let phase = Memo::new(move |_| match ledger.phase() {
        Phase::Early if route.get() == Route::Round => Phase::Ready,
        Phase::Early => Phase::Opening,
        phase => phase,
    });
    let lock = PocketLock {
        locked: RwSignal::new(false),
        label: shed::LOCK_NOW,
    };
    provide_context(lock);
    let shown = move || {
        #[cfg(debug_assertions)]
        if route.get() == Route::Kit {
            return Gallery().into_any();
        }
        match phase.get() {
            Phase::Opening | Phase::Early => screens::start::Opening().into_any(),
            Phase::Trouble(error) => view! { <screens::start::Trouble error /> }.into_any(),
            Phase::NoBook => match route.get() {
                Route::Files => screens::files::Files().into_any(),
                Route::Help(topic) => view! { <screens::help::Help topic /> }.into_any(),
                Route::Folder => screens::folder::SharedFolder().into_any(),
                _ => screens::start::FirstStart().into_any(),
            },
            Phase::Making => screens::start::Making().into_any(),
            Phase::Ready => view! { <SoakBell /> <Desk route show=screen /> }.into_any(),
        }
    };
    view! {
        <div class="under-lock" inert=move || lock.locked.get()>{shown}</div>
        <Pocket lock title=shed::LOCKED hint=shed::LOCKED_HINT key_label=shed::unlock_key>
            {soak_words()}
        </Pocket>
    }
}

/// Opened without an address, the program goes on at the screen it was left at: kept as a draft, so that it outlives
/// a flat battery.
fn go_on_where_it_was_left(ledger: Ledger, route: ReadSignal<Route>) {
    let bare = StoredValue::new(route::is_bare());
    Effect::new(move |_| {
        let here = route.get();
        if ledger.phase() != Phase::Ready {
            return;
        }
        let left_at: Option<String> = ledger.peek_draft(LEFT_AT);
        if bare.get_value() {
            bare.set_value(false);
            if let Some(left_at) = left_at {
                Route::parse(&left_at).replace();
                return;
            }
        }
        if left_at.as_deref() != Some(here.href().as_str()) {
            ledger.keep_draft(LEFT_AT, &here.href());
        }
    });
}

fn cut(before: screens::before_cut::Before) -> AnyView {
    view! { <screens::before_cut::BeforeTheCut before /> }.into_any()
}

/// The boundary where the types of screens end.
fn screen(route: Route) -> AnyView {
    match route {
        Route::Round => screens::round::Round().into_any(),
        Route::SeenLot(lot) => view! { <screens::seen::SeenLot lot /> }.into_any(),
        Route::SeenClump(clump) => view! { <screens::seen::SeenClump clump /> }.into_any(),
        Route::Finding(finding_id) => view! { <screens::finding::Finding finding_id /> }.into_any(),
        Route::LotTest(lot) => view! { <screens::lot_apart::LotTest lot /> }.into_any(),
        Route::Trace(lot) => view! { <screens::trace::Trace lot /> }.into_any(),
        Route::Batches => screens::batches::Batches().into_any(),
        Route::SeenPlace(place) => view! { <screens::seen::SeenPlace place /> }.into_any(),
        Route::NewTask => screens::new_task::NewTask().into_any(),
        Route::DayPlan => screens::day_plan::DayPlanned().into_any(),
        Route::Readings => screens::readings::Readings().into_any(),
        Route::Water => screens::water::Water().into_any(),
        Route::WaterBench(place) => view! { <screens::water_bench::WaterBench place /> }.into_any(),
        Route::Feeding(place) => view! { <screens::feeding::Feeding place /> }.into_any(),
        Route::Feeds => screens::feeds::Feeds().into_any(),
        Route::FeedLabel(feed) => view! { <screens::feeds::FeedLabel feed /> }.into_any(),
        Route::LoggerFile => screens::logger_file::LoggerFile().into_any(),
        Route::PlaceClimate(place) => {
            view! { <screens::place_climate::PlaceClimate place /> }.into_any()
        }
        Route::Repot => screens::repot::Repot().into_any(),
        Route::OpenClump => screens::open_clump::OpenClump().into_any(),
        Route::Clump(clump) => view! { <screens::clump::Clump clump /> }.into_any(),
        Route::CutLot(lot) => cut(screens::before_cut::Before::Lot(lot)),
        Route::CutClump(clump) => cut(screens::before_cut::Before::Clump(clump)),
        Route::ToPrepare => screens::preparing::ToPrepare().into_any(),
        Route::LotLine(lot) => view! { <screens::line::LotLine lot /> }.into_any(),
        Route::LotCost(lot) => view! { <screens::lot_cost::LotCost lot /> }.into_any(),
        Route::Benches => screens::benches::Benches().into_any(),
        Route::CutOpening => cut(screens::before_cut::Before::Opening),
        Route::Treat => screens::treat::Treat().into_any(),
        Route::TreatRecord => screens::treat_form::TreatRecord().into_any(),
        Route::RecordLog => screens::record_log::RecordLog().into_any(),
        Route::Apply => screens::apply::Apply().into_any(),
        Route::DoorNotice(treatment) => {
            view! { <screens::door_notice::DoorNotice treatment /> }.into_any()
        }
        Route::Bath(number) => view! { <screens::bath::Bath number /> }.into_any(),
        Route::Stock => screens::stock_table::StockRoom().into_any(),
        Route::Map => screens::map::Map().into_any(),
        Route::Outlook => screens::outlook::Outlook().into_any(),
        Route::Labels => screens::labels::Labels().into_any(),
        Route::Find => screens::find::Find().into_any(),
        Route::Lists => screens::lists::Lists().into_any(),
        Route::LotPapers(lot) => view! { <screens::lot_papers::LotPapers lot /> }.into_any(),
        Route::NewLot => screens::new_lot::NewLot().into_any(),
        Route::Cards => screens::cards::Cards().into_any(),
        Route::Help(topic) => view! { <screens::help::Help topic /> }.into_any(),
        Route::StockList => screens::stock_list::StockList().into_any(),
        Route::Lot(lot) => view! { <screens::lot::Lot lot /> }.into_any(),
        Route::Book => screens::book::Book().into_any(),
        Route::Entry(entry) => view! { <screens::entry::Entry entry /> }.into_any(),
        Route::Files => screens::files::Files().into_any(),
        Route::Photographs => screens::photographs::Photographs().into_any(),
        Route::Folder => screens::folder::SharedFolder().into_any(),
        Route::Phones => screens::phones::Phones().into_any(),
        Route::Questions => screens::questions::Questions().into_any(),
        Route::Shed => screens::shed::Shed().into_any(),
        Route::Places => screens::places::Places().into_any(),
        Route::Place(place) => view! { <screens::place::Place place /> }.into_any(),
        Route::Pots => screens::pots::Pots().into_any(),
        Route::Pot(pot) => view! { <screens::pots::Pot pot /> }.into_any(),
        Route::Measures => screens::measures::Measures().into_any(),
        Route::Measure(measure) => view! { <screens::measures::Measure measure /> }.into_any(),
        Route::Mix(mix) => view! { <screens::mixes::Mix mix /> }.into_any(),
        Route::Mixes => screens::mixes::Mixes().into_any(),
        Route::Products => screens::products::Products().into_any(),
        Route::Product(product) => view! { <screens::product::Product product /> }.into_any(),
        Route::NewContainer(product) => {
            view! { <screens::containers::NewContainer product /> }.into_any()
        }
        Route::Container(container) => {
            view! { <screens::containers::Container container /> }.into_any()
        }
        Route::ToBuy => screens::buying::ToBuy().into_any(),
        Route::Prices => screens::prices::Prices().into_any(),
        Route::Protocols => screens::protocols::Protocols().into_any(),
        Route::Protocol(protocol) => view! { <screens::protocol::Protocol protocol /> }.into_any(),
        Route::Rotation => screens::rotation_rules::Rotation().into_any(),
        Route::Preferences => screens::phone::Phone().into_any(),
        Route::Origins => screens::origins::Origins().into_any(),
        Route::Wash => screens::wash::Wash().into_any(),
        Route::Cleaning(number) => view! { <screens::cleaning::Cleaning number /> }.into_any(),
        #[cfg(debug_assertions)]
        Route::Kit => Gallery().into_any(),
    }
}
