//! Where in the program one is: the fragment of the address, so that it works on any host, under any folder, offline,
//! and on a printed label.

use std::cell::RefCell;

use crate::help::Topic;
use leptos::prelude::*;
use velamen_core::id::{
    ClumpId, ContainerId, Dev, EntryRef, FeedId, FindingId, LotId, MeasureId, MixId, PlaceId,
    PotId, ProductId, ProtocolId, TreatmentId,
};
use wasm_bindgen::{JsCast, closure::Closure};

/// A screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Route {
    Round,
    /// The nursery as a plan.
    Map,
    /// "Seen here", for a lot or a clump.
    SeenLot(LotId),
    SeenClump(ClumpId),
    /// What was found, and what may follow.
    Finding(FindingId),
    /// A test for viruses being written down.
    LotTest(LotId),
    /// Who is at risk by a lot.
    Trace(LotId),
    Repot,
    /// How the hands do it.
    Cards,
    OpenClump,
    Clump(ClumpId),
    /// What a lot, a clump or what is chosen for the bench may become.
    CutLot(LotId),
    CutClump(ClumpId),
    CutOpening,
    /// What to bring to the bench.
    ToPrepare,
    /// The whole line of a lot.
    LotLine(LotId),
    /// What a lot and its divisions have cost.
    LotCost(LotId),
    /// How full the benches are.
    Benches,
    Treat,
    /// Writing down a treatment that was done.
    TreatRecord,
    /// The record of treatments, as a rule wants to see it.
    RecordLog,
    /// A drench, a spray, a swab or a dusting in hand.
    Apply,
    /// The paper on the door after a treatment.
    DoorNotice(TreatmentId),
    /// A bath in hand, by its number on this phone.
    Bath(u32),
    Stock,
    NewLot,
    /// A stock list from elsewhere.
    StockList,
    /// What may flower and be sold.
    Outlook,
    /// Labels to be printed.
    Labels,
    /// A lot by the code on its label.
    Find,
    /// Stock, divisions and losses as tables.
    Lists,
    /// What papers that go with a lot say.
    LotPapers(LotId),
    Lot(LotId),
    Book,
    Entry(EntryRef),
    Files,
    /// A file as squares on the screen: the whole book, or what a phone lacks; and the camera that reads them.
    ShowReel(Option<Dev>),
    ReadReel,
    /// Photographs on their way between phones.
    Photographs,
    /// A shared folder in place of a server.
    Folder,
    /// The phones that write in the book.
    Phones,
    Questions,
    Shed,
    Places,
    Place(PlaceId),
    Pots,
    Pot(PotId),
    Mixes,
    Mix(MixId),
    Measures,
    Measure(MeasureId),
    Products,
    Product(ProductId),
    /// A container of a product for the shelf, and one that stands there.
    NewContainer(ProductId),
    Container(ContainerId),
    /// What to buy before the next treatments.
    ToBuy,
    /// What things cost, and in what size they are bought.
    Prices,
    Protocols,
    Protocol(ProtocolId),
    Preferences,
    /// How often one way of acting may be used.
    Rotation,
    Origins,
    /// Pots and stone on their way from dirty to clean.
    Wash,
    /// A bath of disinfectant in hand, by its number on this phone.
    Cleaning(u32),
    /// Bags, loads and bottles, and where they went.
    Batches,
    /// Something seen on the walk: where comes first.
    SeenWhere,
    /// Something seen on a place.
    SeenPlace(PlaceId),
    NewTask,
    /// What fits into the minutes there are.
    DayPlan,
    /// Minimum and maximum of every house.
    Readings,
    /// Readings out of a logger's file.
    LoggerFile,
    /// Water and feed of every bench; one bench; its feed. A bench is `None` for lots without a place.
    Water,
    WaterBench(Option<PlaceId>),
    Feeding(Option<PlaceId>),
    /// Feeds of the shelf, and one of them or a new one.
    Feeds,
    FeedLabel(Option<FeedId>),
    /// The weather of a place.
    PlaceClimate(PlaceId),
    /// A page of help.
    Help(Topic),
    /// The swatches of the look; not in a release.
    #[cfg(debug_assertions)]
    Kit,
}

impl Route {
    /// The route of a fragment such as `#/lot/…`; the Round for anything unknown.
    #[must_use]
    pub fn parse(fragment: &str) -> Self {
        let path = fragment.trim_start_matches('#').trim_matches('/');
        let mut parts = path.split('/');
        let (room, id, more) = (parts.next().unwrap_or(""), parts.next(), parts.next());
        Self::of_parts(room, id, more).unwrap_or(Self::Round)
    }

    fn of_parts(room: &str, id: Option<&str>, more: Option<&str>) -> Option<Self> {
        Some(match (room, id, more) {
            ("repot", None, _) => Self::Repot,
            ("repot", Some("prepare"), _) => Self::ToPrepare,
            ("stock", Some("benches"), _) => Self::Benches,
            ("lot", Some(id), Some("cost")) => Self::LotCost(id.parse().ok()?),
            ("lot", Some(id), Some("line")) => Self::LotLine(id.parse().ok()?),
            ("repot", Some("new"), Some("cut")) => Self::CutOpening,
            ("repot", Some("new"), _) => Self::OpenClump,
            ("repot", Some("hands"), _) => Self::Cards,
            ("help", Some(topic), _) => Self::Help(Topic::of_slug(topic)?),
            ("repot", Some(id), None) => Self::Clump(id.parse().ok()?),
            ("repot", Some(id), Some("cut")) => Self::CutClump(id.parse().ok()?),
            ("repot", Some(id), Some(_)) => Self::SeenClump(id.parse().ok()?),
            ("treat", None, _) => Self::Treat,
            ("treat", Some("record"), _) => Self::TreatRecord,
            ("treat", Some("log"), _) => Self::RecordLog,
            ("treat", Some("apply"), _) => Self::Apply,
            ("treat", Some("notice"), Some(id)) => Self::DoorNotice(id.parse().ok()?),
            ("treat", Some("bath"), Some(number)) => Self::Bath(number.parse().ok()?),
            ("stock", None, _) => Self::Stock,
            ("stock", Some("new"), _) => Self::NewLot,
            ("stock", Some("list"), _) => Self::StockList,
            ("stock", Some("outlook"), _) => Self::Outlook,
            ("stock", Some("labels"), _) => Self::Labels,
            ("stock", Some("find"), _) => Self::Find,
            ("stock", Some("lists"), _) => Self::Lists,
            ("lot", Some(id), None) => Self::Lot(id.parse().ok()?),
            ("lot", Some(id), Some("test")) => Self::LotTest(id.parse().ok()?),
            ("lot", Some(id), Some("cut")) => Self::CutLot(id.parse().ok()?),
            ("lot", Some(id), Some("trace")) => Self::Trace(id.parse().ok()?),
            ("lot", Some(id), Some("papers")) => Self::LotPapers(id.parse().ok()?),
            ("finding", Some(id), _) => Self::Finding(id.parse().ok()?),
            ("lot", Some(id), Some(_)) => Self::SeenLot(id.parse().ok()?),
            ("book", None, _) => Self::Book,
            ("book", Some("files"), _) => Self::Files,
            ("book", Some("show"), None) => Self::ShowReel(None),
            ("book", Some("show"), Some(dev)) => Self::ShowReel(Some(dev.parse().ok()?)),
            ("book", Some("read"), _) => Self::ReadReel,
            ("book", Some("photographs"), _) => Self::Photographs,
            ("book", Some("folder"), _) => Self::Folder,
            ("book", Some("phones"), _) => Self::Phones,
            ("book", Some("questions"), _) => Self::Questions,
            ("entry", Some(id), _) => Self::Entry(id.parse().ok()?),
            ("shed", None, _) => Self::Shed,
            ("shed", Some("places"), None) => Self::Places,
            ("shed", Some("places"), Some(id)) => Self::Place(id.parse().ok()?),
            ("shed", Some("pots"), None) => Self::Pots,
            ("shed", Some("pots"), Some(id)) => Self::Pot(id.parse().ok()?),
            ("shed", Some("mixes"), None) => Self::Mixes,
            ("shed", Some("mixes"), Some(id)) => Self::Mix(id.parse().ok()?),
            ("shed", Some("measures"), None) => Self::Measures,
            ("shed", Some("measures"), Some(id)) => Self::Measure(id.parse().ok()?),
            ("shed", Some("products"), None) => Self::Products,
            ("shed", Some("products"), Some(id)) => Self::Product(id.parse().ok()?),
            ("shelf", Some(id), None) => Self::Container(id.parse().ok()?),
            ("shelf", Some("new"), Some(id)) => Self::NewContainer(id.parse().ok()?),
            ("shed", Some("buy"), _) => Self::ToBuy,
            ("shed", Some("prices"), _) => Self::Prices,
            ("shed", Some("protocols"), None) => Self::Protocols,
            ("shed", Some("protocols"), Some(id)) => Self::Protocol(id.parse().ok()?),
            ("shed", Some("batches"), _) => Self::Batches,
            ("place", Some(id), _) => Self::SeenPlace(id.parse().ok()?),
            ("shed", Some("rotation"), _) => Self::Rotation,
            ("shed", Some("phone"), _) => Self::Preferences,
            ("shed", Some("origins"), _) => Self::Origins,
            ("shed", Some("wash"), None) => Self::Wash,
            ("shed", Some("wash"), Some(number)) => Self::Cleaning(number.parse().ok()?),
            ("round", Some("plan"), _) => Self::Map,
            ("round", Some("seen"), _) => Self::SeenWhere,
            ("round", Some("task"), _) => Self::NewTask,
            ("round", Some("day"), _) => Self::DayPlan,
            ("round", Some("water"), None) => Self::Water,
            ("round", Some("water"), Some(id)) => Self::WaterBench(maybe(id)?),
            ("round", Some("feed"), Some(id)) => Self::Feeding(maybe(id)?),
            ("shed", Some("feeds"), None) => Self::Feeds,
            ("shed", Some("feeds"), Some(id)) => Self::FeedLabel(maybe(id)?),
            ("round", Some("climate"), None) => Self::Readings,
            ("round", Some("climate"), Some("file")) => Self::LoggerFile,
            ("round", Some("climate"), Some(id)) => Self::PlaceClimate(id.parse().ok()?),
            #[cfg(debug_assertions)]
            ("kit", ..) => Self::Kit,
            _ => return None,
        })
    }

    /// The fragment that leads here.
    #[must_use]
    pub fn href(self) -> String {
        match self {
            Self::Round => "#/".to_owned(),
            Self::Map => "#/round/plan".to_owned(),
            Self::SeenLot(id) => format!("#/lot/{id}/seen"),
            Self::SeenClump(id) => format!("#/repot/{id}/seen"),
            Self::Finding(id) => format!("#/finding/{id}"),
            Self::LotTest(id) => format!("#/lot/{id}/test"),
            Self::Trace(id) => format!("#/lot/{id}/trace"),
            Self::Repot => "#/repot".to_owned(),
            Self::OpenClump => "#/repot/new".to_owned(),
            Self::Clump(id) => format!("#/repot/{id}"),
            Self::CutLot(id) => format!("#/lot/{id}/cut"),
            Self::CutClump(id) => format!("#/repot/{id}/cut"),
            Self::CutOpening => "#/repot/new/cut".to_owned(),
            Self::ToPrepare => "#/repot/prepare".to_owned(),
            Self::LotLine(id) => format!("#/lot/{id}/line"),
            Self::LotCost(id) => format!("#/lot/{id}/cost"),
            Self::Benches => "#/stock/benches".to_owned(),
            Self::Treat => "#/treat".to_owned(),
            Self::TreatRecord => "#/treat/record".to_owned(),
            Self::RecordLog => "#/treat/log".to_owned(),
            Self::Apply => "#/treat/apply".to_owned(),
            Self::DoorNotice(id) => format!("#/treat/notice/{id}"),
            Self::Bath(number) => format!("#/treat/bath/{number}"),
            Self::Stock => "#/stock".to_owned(),
            Self::NewLot => "#/stock/new".to_owned(),
            Self::Cards => "#/repot/hands".to_owned(),
            Self::Help(topic) => format!("#/help/{}", topic.slug()),
            Self::StockList => "#/stock/list".to_owned(),
            Self::Outlook => "#/stock/outlook".to_owned(),
            Self::Labels => "#/stock/labels".to_owned(),
            Self::Find => "#/stock/find".to_owned(),
            Self::Lists => "#/stock/lists".to_owned(),
            Self::LotPapers(id) => format!("#/lot/{id}/papers"),
            Self::Lot(id) => format!("#/lot/{id}"),
            Self::Book => "#/book".to_owned(),
            Self::Entry(id) => format!("#/entry/{id}"),
            Self::Files => "#/book/files".to_owned(),
            Self::ShowReel(None) => "#/book/show".to_owned(),
            Self::ShowReel(Some(dev)) => format!("#/book/show/{dev}"),
            Self::ReadReel => "#/book/read".to_owned(),
            Self::Photographs => "#/book/photographs".to_owned(),
            Self::Folder => "#/book/folder".to_owned(),
            Self::Phones => "#/book/phones".to_owned(),
            Self::Questions => "#/book/questions".to_owned(),
            Self::Shed => "#/shed".to_owned(),
            Self::Places => "#/shed/places".to_owned(),
            Self::Place(id) => format!("#/shed/places/{id}"),
            Self::Pots => "#/shed/pots".to_owned(),
            Self::Pot(id) => format!("#/shed/pots/{id}"),
            Self::Mixes => "#/shed/mixes".to_owned(),
            Self::Mix(id) => format!("#/shed/mixes/{id}"),
            Self::Measures => "#/shed/measures".to_owned(),
            Self::Measure(id) => format!("#/shed/measures/{id}"),
            Self::Products => "#/shed/products".to_owned(),
            Self::Product(id) => format!("#/shed/products/{id}"),
            Self::NewContainer(id) => format!("#/shelf/new/{id}"),
            Self::Container(id) => format!("#/shelf/{id}"),
            Self::ToBuy => "#/shed/buy".to_owned(),
            Self::Prices => "#/shed/prices".to_owned(),
            Self::Protocols => "#/shed/protocols".to_owned(),
            Self::Protocol(id) => format!("#/shed/protocols/{id}"),
            Self::Rotation => "#/shed/rotation".to_owned(),
            Self::Preferences => "#/shed/phone".to_owned(),
            Self::Origins => "#/shed/origins".to_owned(),
            Self::Wash => "#/shed/wash".to_owned(),
            Self::Cleaning(number) => format!("#/shed/wash/{number}"),
            Self::Batches => "#/shed/batches".to_owned(),
            Self::SeenPlace(id) => format!("#/place/{id}/seen"),
            Self::SeenWhere => "#/round/seen".to_owned(),
            Self::NewTask => "#/round/task".to_owned(),
            Self::DayPlan => "#/round/day".to_owned(),
            Self::Water => "#/round/water".to_owned(),
            Self::WaterBench(id) => format!("#/round/water/{}", or_none(id)),
            Self::Feeding(id) => format!("#/round/feed/{}", or_none(id)),
            Self::Feeds => "#/shed/feeds".to_owned(),
            Self::FeedLabel(id) => format!("#/shed/feeds/{}", or_none(id)),
            Self::Readings => "#/round/climate".to_owned(),
            Self::LoggerFile => "#/round/climate/file".to_owned(),
            Self::PlaceClimate(id) => format!("#/round/climate/{id}"),
            #[cfg(debug_assertions)]
            Self::Kit => "#/kit".to_owned(),
        }
    }

    /// Goes there; back leads here again.
    pub fn go(self) {
        if is_elsewhere() {
            return;
        }
        // A page that cannot change its own fragment has no history either; there is nothing to do.
        let _ = window().location().set_hash(&self.href());
    }

    /// Goes there in place of this screen: back does not lead here again.
    pub fn replace(self) {
        if is_elsewhere() {
            return;
        }
        let _ = window().location().replace(&self.href());
    }
}

/// Stands in the address for what has no id: lots without a place, a feed not yet on the shelf.
const NONE: &str = "none";

fn maybe<T: std::str::FromStr>(id: &str) -> Option<Option<T>> {
    if id == NONE {
        Some(None)
    } else {
        id.parse().ok().map(Some)
    }
}

fn or_none(id: Option<impl std::fmt::Display>) -> String {
    id.map_or_else(|| NONE.to_owned(), |id| id.to_string())
}

thread_local! {
    /// Where the tap was whose record is being followed up.
    static TAPPED_AT: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// Where the page is, to be remembered with a tap.
#[must_use]
pub fn address() -> String {
    window().location().hash().unwrap_or_default()
}

/// Does what follows a record. A record may reach the disk when its person has gone on to another screen: then nothing
/// in `work` leads away from that one.
pub fn follow_up(tapped_at: String, work: impl FnOnce()) {
    TAPPED_AT.set(Some(tapped_at));
    work();
    TAPPED_AT.set(None);
}

fn is_elsewhere() -> bool {
    TAPPED_AT.with_borrow(|at| at.as_ref().is_some_and(|at| *at != address()))
}

/// Whether the page was opened without a fragment.
#[must_use]
pub fn is_bare() -> bool {
    window().location().hash().unwrap_or_default().is_empty()
}

/// The address as it is this moment.
pub(crate) fn here() -> Route {
    Route::parse(&window().location().hash().unwrap_or_default())
}

/// The route of the page, following its address.
#[must_use]
pub fn current() -> ReadSignal<Route> {
    let (route, set_route) = signal(here());
    let on_change = Closure::<dyn Fn()>::new(move || {
        set_route.set(here());
        window().scroll_to_with_x_and_y(0.0, 0.0);
    });
    // The program lives as long as the page, and so does this listener.
    let _ =
        window().add_event_listener_with_callback("hashchange", on_change.as_ref().unchecked_ref());
    on_change.forget();
    route
}
