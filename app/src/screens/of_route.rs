//! Which screen stands at which place in the program.

use leptos::prelude::*;

use super::before_cut::Before;
use crate::route::Route;
#[cfg(debug_assertions)]
use crate::ui::Gallery;

/// A screen where there is no book yet.
pub(crate) fn before_a_book(route: Route) -> AnyView {
    match route {
        Route::Files => super::files::Files().into_any(),
        Route::ReadReel => super::reel_read::ReadReel().into_any(),
        Route::Help(topic) => view! { <super::help::Help topic /> }.into_any(),
        Route::Folder => super::folder::SharedFolder().into_any(),
        _ => super::start::FirstStart().into_any(),
    }
}

fn cut(before: Before) -> AnyView {
    view! { <super::before_cut::BeforeTheCut before /> }.into_any()
}

/// A screen of a book. The boundary where the types of screens end.
pub(crate) fn screen(route: Route) -> AnyView {
    match route {
        Route::Round => super::round::Round().into_any(),
        Route::SeenLot(lot) => view! { <super::seen::SeenLot lot /> }.into_any(),
        Route::SeenClump(clump) => view! { <super::seen::SeenClump clump /> }.into_any(),
        Route::Finding(finding_id) => view! { <super::finding::Finding finding_id /> }.into_any(),
        Route::LotTest(lot) => view! { <super::lot_apart::LotTest lot /> }.into_any(),
        Route::Trace(lot) => view! { <super::trace::Trace lot /> }.into_any(),
        Route::Batches => super::batches::Batches().into_any(),
        Route::SeenPlace(place) => view! { <super::seen::SeenPlace place /> }.into_any(),
        Route::SeenWhere => super::seen_where::SeenWhere().into_any(),
        Route::NewTask => super::new_task::NewTask().into_any(),
        Route::DayPlan => super::day_plan::DayPlanned().into_any(),
        Route::Readings => super::readings::Readings().into_any(),
        Route::Water => super::water::Water().into_any(),
        Route::WaterBench(place) => view! { <super::water_bench::WaterBench place /> }.into_any(),
        Route::Feeding(place) => view! { <super::feeding::Feeding place /> }.into_any(),
        Route::Feeds => super::feeds::Feeds().into_any(),
        Route::FeedLabel(feed) => view! { <super::feeds::FeedLabel feed /> }.into_any(),
        Route::LoggerFile => super::logger_file::LoggerFile().into_any(),
        Route::PlaceClimate(place) => {
            view! { <super::place_climate::PlaceClimate place /> }.into_any()
        }
        Route::Repot => super::repot::Repot().into_any(),
        Route::OpenClump => super::open_clump::OpenClump().into_any(),
        Route::Clump(clump) => view! { <super::clump::Clump clump /> }.into_any(),
        Route::CutLot(lot) => cut(Before::Lot(lot)),
        Route::CutClump(clump) => cut(Before::Clump(clump)),
        Route::ToPrepare => super::preparing::ToPrepare().into_any(),
        Route::LotLine(lot) => view! { <super::line::LotLine lot /> }.into_any(),
        Route::LotCost(lot) => view! { <super::lot_cost::LotCost lot /> }.into_any(),
        Route::Benches => super::benches::Benches().into_any(),
        Route::CutOpening => cut(Before::Opening),
        Route::Treat => super::treat::Treat().into_any(),
        Route::TreatRecord => super::treat_form::TreatRecord().into_any(),
        Route::RecordLog => super::record_log::RecordLog().into_any(),
        Route::Apply => super::apply::Apply().into_any(),
        Route::DoorNotice(treatment) => {
            view! { <super::door_notice::DoorNotice treatment /> }.into_any()
        }
        Route::Bath(number) => view! { <super::bath::Bath number /> }.into_any(),
        Route::Stock => super::stock_table::StockRoom().into_any(),
        Route::Map => super::map::Map().into_any(),
        Route::Outlook => super::outlook::Outlook().into_any(),
        Route::Labels => super::labels::Labels().into_any(),
        Route::Find => super::find::Find().into_any(),
        Route::Lists => super::lists::Lists().into_any(),
        Route::LotPapers(lot) => view! { <super::lot_papers::LotPapers lot /> }.into_any(),
        Route::NewLot => super::new_lot::NewLot().into_any(),
        Route::Cards => super::cards::Cards().into_any(),
        Route::Help(topic) => view! { <super::help::Help topic /> }.into_any(),
        Route::StockList => super::stock_list::StockList().into_any(),
        Route::Lot(lot) => view! { <super::lot::Lot lot /> }.into_any(),
        Route::Book => super::book::Book().into_any(),
        Route::Entry(entry) => view! { <super::entry::Entry entry /> }.into_any(),
        Route::Files => super::files::Files().into_any(),
        Route::ShowReel(to) => view! { <super::reel_show::ShowReel to /> }.into_any(),
        Route::ReadReel => super::reel_read::ReadReel().into_any(),
        Route::Photographs => super::photographs::Photographs().into_any(),
        Route::Folder => super::folder::SharedFolder().into_any(),
        Route::Phones => super::phones::Phones().into_any(),
        Route::Questions => super::questions::Questions().into_any(),
        Route::Shed => super::shed::Shed().into_any(),
        Route::Places => super::places::Places().into_any(),
        Route::Place(place) => view! { <super::place::Place place /> }.into_any(),
        Route::Pots => super::pots::Pots().into_any(),
        Route::Pot(pot) => view! { <super::pots::Pot pot /> }.into_any(),
        Route::Measures => super::measures::Measures().into_any(),
        Route::Measure(measure) => view! { <super::measures::Measure measure /> }.into_any(),
        Route::Mix(mix) => view! { <super::mixes::Mix mix /> }.into_any(),
        Route::Mixes => super::mixes::Mixes().into_any(),
        Route::Products => super::products::Products().into_any(),
        Route::Product(product) => view! { <super::product::Product product /> }.into_any(),
        Route::NewContainer(product) => {
            view! { <super::containers::NewContainer product /> }.into_any()
        }
        Route::Container(container) => {
            view! { <super::containers::Container container /> }.into_any()
        }
        Route::ToBuy => super::buying::ToBuy().into_any(),
        Route::Prices => super::prices::Prices().into_any(),
        Route::Protocols => super::protocols::Protocols().into_any(),
        Route::Protocol(protocol) => view! { <super::protocol::Protocol protocol /> }.into_any(),
        Route::Rotation => super::rotation_rules::Rotation().into_any(),
        Route::Preferences => super::phone::Phone().into_any(),
        Route::Origins => super::origins::Origins().into_any(),
        Route::Wash => super::wash::Wash().into_any(),
        Route::Cleaning(number) => view! { <super::cleaning::Cleaning number /> }.into_any(),
        #[cfg(debug_assertions)]
        Route::Kit => Gallery().into_any(),
    }
}
