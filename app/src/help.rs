//! Which page of help belongs to a screen, and how every screen's head comes to it.

use leptos::prelude::*;

use crate::route::Route;
use crate::ui::HelpLink;
use crate::words::help as words;

/// What a page of help is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Topic {
    Start,
    Round,
    Seen,
    Weather,
    Repot,
    Bench,
    Treat,
    Bath,
    Stock,
    Lot,
    List,
    Book,
    Files,
    Shed,
    Wash,
    Products,
    Install,
}

impl Topic {
    pub const ALL: [Self; 17] = [
        Self::Start,
        Self::Round,
        Self::Seen,
        Self::Weather,
        Self::Repot,
        Self::Bench,
        Self::Treat,
        Self::Bath,
        Self::Stock,
        Self::Lot,
        Self::List,
        Self::Book,
        Self::Files,
        Self::Shed,
        Self::Wash,
        Self::Products,
        Self::Install,
    ];

    /// Its word in an address.
    #[must_use]
    pub fn slug(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Round => "round",
            Self::Seen => "seen",
            Self::Weather => "weather",
            Self::Repot => "repot",
            Self::Bench => "bench",
            Self::Treat => "treat",
            Self::Bath => "bath",
            Self::Stock => "stock",
            Self::Lot => "lot",
            Self::List => "list",
            Self::Book => "book",
            Self::Files => "files",
            Self::Shed => "shed",
            Self::Wash => "wash",
            Self::Products => "products",
            Self::Install => "install",
        }
    }

    #[must_use]
    pub fn of_slug(slug: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|topic| topic.slug() == slug)
    }

    /// The page for a screen; screens without one of their own have their room's.
    #[must_use]
    pub fn of(route: &Route) -> Self {
        match route {
            Route::SeenLot(_)
            | Route::SeenClump(_)
            | Route::SeenWhere
            | Route::SeenPlace(_)
            | Route::Finding(_)
            | Route::Trace(_) => Self::Seen,
            Route::Readings | Route::LoggerFile | Route::PlaceClimate(_) => Self::Weather,
            Route::Repot | Route::OpenClump | Route::Cards => Self::Repot,
            Route::Clump(_) => Self::Bench,
            Route::Bath(_) | Route::Apply | Route::DoorNotice(_) => Self::Bath,
            Route::Treat | Route::TreatRecord | Route::RecordLog => Self::Treat,
            Route::Stock | Route::NewLot | Route::Outlook => Self::Stock,
            Route::StockList => Self::List,
            Route::Lot(_) | Route::LotTest(_) | Route::LotCost(_) => Self::Lot,
            Route::Book | Route::Entry(_) | Route::Questions => Self::Book,
            Route::Files | Route::ShowReel(_) | Route::ReadReel => Self::Files,
            Route::Wash | Route::Cleaning(_) | Route::Batches => Self::Wash,
            Route::Products
            | Route::Product(_)
            | Route::NewContainer(_)
            | Route::Container(_)
            | Route::ToBuy
            | Route::Rotation => Self::Products,
            Route::Help(topic) => *topic,
            Route::Round | Route::Map | Route::NewTask | Route::DayPlan => Self::Round,
            _ => Self::Shed,
        }
    }
}

/// Where help was asked for, so that one tap leads back.
#[derive(Clone, Copy, Debug)]
pub struct CameFrom(pub ReadSignal<String>);

/// Gives every screen's head its way to help.
pub(crate) fn provide(route: ReadSignal<Route>, started: Signal<bool>) {
    let (before, set_before) = signal(Route::Round.href());
    Effect::new(move |_| {
        route.with(|route| {
            if !matches!(route, Route::Help(_)) {
                set_before.set(route.href());
            }
        });
    });
    provide_context(CameFrom(before));
    let href = Signal::derive(move || {
        route.with(|route| match route {
            Route::Help(_) => String::new(),
            _ if !started.get() => Route::Help(Topic::Start).href(),
            route => Route::Help(Topic::of(route)).href(),
        })
    });
    provide_context(HelpLink {
        href,
        label: words::LINK,
    });
}
