//! At a table: where the window is wide, the list stands beside what is opened from it, and keys do what the thumb does.
//!
//! Invariants: nothing of this on a phone. A screen is the same component alone and beside another. A key never takes
//! what is typed into a field, nor what belongs to the browser; single letters can be switched off.

use leptos::context::Provider;
use leptos::either::Either;
use leptos::ev;
use leptos::prelude::*;
use leptos::web_sys::{Element, FocusOptions, HtmlElement, KeyboardEvent};
use wasm_bindgen::JsCast;

use crate::ledger::{Ledger, Phase};
use crate::platform::window_size::is_wide;
use crate::rest::{self, Wanted};
use crate::route::Route;
use crate::ui::{Beside, Sheet};
use crate::words::desk::{self as words, Deed};
use crate::words::told;

/// Rows of lists, one under the other, that the keys step through.
const ROWS: &str = ".stock-line, .lot-row, .entry, .work, .bench-row, .pick, .choose, .form > .action, .grid > .action";

/// What the window is and what the person likes of it.
#[derive(Clone, Copy, Debug)]
pub struct Table {
    pub wide: RwSignal<bool>,
    /// Whether single letters are heard.
    pub keys: RwSignal<bool>,
    /// Whether the list of keys is open.
    asked: RwSignal<bool>,
    /// Whether all of a list is on the page, for the printer.
    pub printing: RwSignal<bool>,
    /// Raised whenever more of a list was drawn.
    drawn: RwSignal<u32>,
    route: ReadSignal<Route>,
}

impl Table {
    pub(crate) fn here() -> Self {
        expect_context::<Self>()
    }
}

/// Follows the window and the keyboard, as long as the page lives.
pub(crate) fn provide(ledger: Ledger, route: ReadSignal<Route>) {
    let table = Table {
        wide: RwSignal::new(is_wide()),
        keys: RwSignal::new(!ledger.preferences().no_letters),
        asked: RwSignal::new(false),
        printing: RwSignal::new(false),
        drawn: RwSignal::new(0),
        route,
    };
    provide_context(table);
    window_event_listener(ev::resize, move |_| {
        if table.wide.get_untracked() != is_wide() {
            table.wide.update(|wide| *wide = !*wide);
        }
    });
    window_event_listener(
        ev::Custom::<leptos::web_sys::Event>::new("beforeprint"),
        move |_| table.printing.set(true),
    );
    window_event_listener(
        ev::Custom::<leptos::web_sys::Event>::new("afterprint"),
        move |_| table.printing.set(false),
    );
    window_event_listener(ev::keydown, move |event| {
        if table.wide.get_untracked() && ledger.phase() == Phase::Ready {
            table.hear(ledger, &event);
        }
    });
}

/// The list a screen is opened from; a room's first screen stands alone.
fn list_of(route: Route) -> Option<Route> {
    match route {
        Route::SeenLot(_)
        | Route::LotTest(_)
        | Route::Trace(_)
        | Route::CutLot(_)
        | Route::LotLine(_)
        | Route::LotPapers(_)
        | Route::Lot(_) => Some(Route::Stock),
        Route::SeenPlace(_)
        | Route::SeenWhere
        | Route::Map
        | Route::NewTask
        | Route::DayPlan
        | Route::Readings
        | Route::Water => Some(Route::Round),
        Route::WaterBench(_) | Route::Feeding(_) => Some(Route::Water),
        Route::PlaceClimate(_) | Route::LoggerFile => Some(Route::Readings),
        Route::Clump(_) | Route::SeenClump(_) | Route::CutClump(_) | Route::ToPrepare => {
            Some(Route::Repot)
        }
        Route::Entry(_)
        | Route::Files
        | Route::ShowReel(_)
        | Route::ReadReel
        | Route::Photographs
        | Route::Folder
        | Route::Phones
        | Route::Questions => Some(Route::Book),
        Route::Place(_) => Some(Route::Places),
        Route::Pot(_) => Some(Route::Pots),
        Route::Mix(_) => Some(Route::Mixes),
        Route::Measure(_) => Some(Route::Measures),
        Route::Product(_) => Some(Route::Products),
        Route::Protocol(_) => Some(Route::Protocols),
        Route::FeedLabel(_) => Some(Route::Feeds),
        Route::Places
        | Route::Pots
        | Route::Mixes
        | Route::Measures
        | Route::Wash
        | Route::Batches
        | Route::Products
        | Route::Feeds
        | Route::ToBuy
        | Route::Protocols
        | Route::Rotation
        | Route::Preferences
        | Route::Origins => Some(Route::Shed),
        _ => None,
    }
}

/// How the window is shared out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Shape {
    /// The list, and what was opened from it.
    Two(Route),
    /// A list from which nothing is opened yet.
    List,
    One,
}

impl Shape {
    fn of(route: Route) -> Self {
        match (list_of(route), route) {
            (Some(list), _) => Self::Two(list),
            (None, Route::Round | Route::Book | Route::Shed | Route::Repot) => Self::List,
            (None, _) => Self::One,
        }
    }

    const fn class(self) -> &'static str {
        match self {
            Self::Two(_) => "desk desk-two",
            Self::List => "desk desk-two desk-list",
            Self::One => "desk",
        }
    }
}

/// The screens of a book: one at a time, or the list beside what is opened where the window is wide.
#[component]
pub fn Desk(route: ReadSignal<Route>, show: fn(Route) -> AnyView) -> impl IntoView {
    let table = Table::here();
    let ledger = Ledger::here();
    let shape = Memo::new(move |_| Shape::of(route.get()));
    let list = Memo::new(move |_| match shape.get() {
        Shape::Two(list) => Some(list),
        Shape::List | Shape::One => None,
    });
    // Which row of the list is open, said on the row itself.
    let entries = ledger.ask(|state, _| state.log().len());
    Effect::new(move |_| {
        entries.track();
        table.drawn.track();
        let open = route.get().href();
        if table.wide.get() {
            request_animation_frame(move || mark_open(&open));
        }
    });
    let beside = move || {
        list.get().map(|list| {
            view! {
                <aside class="beside"><Provider value=Beside>{show(list)}</Provider></aside>
            }
        })
    };
    let alone = move || {
        let round = route.get() == Route::Round;
        (shape.get() == Shape::List).then(|| {
            let inside = if round {
                rest::later(Wanted::Plan).into_any()
            } else {
                Keys().into_any()
            };
            view! { <aside class="desk-aside">{inside}</aside> }
        })
    };
    let shown = move || anew(move || show(route.get()));
    move || {
        if table.wide.get() {
            view! {
                <div class=move || shape.get().class()>
                    {beside}
                    {shown()}
                    {alone}
                    <Foot />
                </div>
            }
            .into_any()
        } else {
            shown().into_any()
        }
    }
}

/// A screen takes the place of another whole: to make the one out of the other, attribute by attribute, takes longer than
/// to draw it, and its links lose where they lead in between.
fn anew(screen: impl Fn() -> AnyView + Send + 'static) -> impl IntoView {
    let mut turn = false;
    move || {
        turn = !turn;
        match turn {
            true => Either::Left(screen()),
            false => Either::Right(screen()),
        }
    }
}

/// Under the rooms: the keys and the printer.
#[component]
fn Foot() -> impl IntoView {
    let table = Table::here();
    let ledger = Ledger::here();
    let asked = table.asked;
    let close = Callback::new(move |()| asked.set(false));
    view! {
        <div class="desk-keys">
            <button type="button" class="quiet" on:click=move |_| table.print(ledger)>{words::PRINT}</button>
            <button type="button" class="quiet" on:click=move |_| asked.set(true)>{words::TITLE}</button>
        </div>
        <Sheet open=asked on_close=close title=words::TITLE close_label=told::close()>
            <Keys />
        </Sheet>
    }
}

/// What the keys do.
#[component]
pub fn Keys() -> impl IntoView {
    let rows = Deed::ALL
        .map(|deed| {
            view! { <dt><kbd>{deed.key()}</kbd></dt><dd>{words::does(deed)}</dd> }
        })
        .collect_view();
    view! {
        <section class="keys">
            <h2>{words::TITLE}</h2>
            <dl>{rows}</dl>
            <p class="small soft">{words::HINT}</p>
        </section>
    }
}

impl Table {
    fn hear(self, ledger: Ledger, event: &KeyboardEvent) {
        let with_another = event.ctrl_key() || event.alt_key() || event.meta_key();
        if with_another
            || event.default_prevented()
            || event.is_composing()
            || one("dialog[open]").is_some()
        {
            return;
        }
        let Some(deed) = Deed::ALL.into_iter().find(|deed| deed.hears(&event.key())) else {
            return;
        };
        if let Some(field) = typing() {
            if deed == Deed::Back {
                // Out of the field; what was typed stays.
                let _ = field.blur();
            }
            return;
        }
        if !self.keys.get_untracked() && deed != Deed::Back {
            return;
        }
        event.prevent_default();
        self.carry_out(ledger, deed, &event.key());
    }

    /// What a list tells when more of it was drawn: the row that is open may be among it.
    #[must_use]
    pub fn on_drawn(self) -> Callback<()> {
        Callback::new(move |()| {
            if self.wide.get_untracked() {
                self.drawn.update(|drawn| *drawn = drawn.wrapping_add(1));
            }
        })
    }

    /// Puts all of a list on the page before the printer looks at it.
    fn print(self, ledger: Ledger) {
        self.printing.set(true);
        request_animation_frame(move || {
            ledger.print();
            self.printing.set(false);
        });
    }

    fn carry_out(self, ledger: Ledger, deed: Deed, key: &str) {
        match deed {
            Deed::Rooms => match key {
                "1" => Route::Round.go(),
                "2" => Route::Repot.go(),
                "3" => Route::Treat.go(),
                "4" => Route::Stock.go(),
                "5" => Route::Book.go(),
                _ => Route::Shed.go(),
            },
            Deed::Look => look_for(),
            Deed::Next => step(true),
            Deed::Before => step(false),
            Deed::Choose => press(".stock-line:focus-within input, .stock-line:has(:focus) input"),
            Deed::Done => press(".work:focus-within .work-do"),
            Deed::Across => across(),
            Deed::Undo => press(".notice-ok .notice-key"),
            Deed::Print => self.print(ledger),
            Deed::Back => {
                if let Some(list) = list_of(self.route.get_untracked()) {
                    list.go();
                }
            }
            Deed::Keys => self.asked.set(true),
        }
    }
}

fn one(selector: &str) -> Option<HtmlElement> {
    document().query_selector(selector).ok()??.dyn_into().ok()
}

/// The field that has the keyboard.
fn typing() -> Option<HtmlElement> {
    let active: HtmlElement = document().active_element()?.dyn_into().ok()?;
    let takes_letters = match active.tag_name().to_ascii_uppercase().as_str() {
        "TEXTAREA" | "SELECT" => true,
        "INPUT" => !matches!(
            active.get_attribute("type").as_deref(),
            Some("checkbox" | "radio" | "file")
        ),
        _ => active.get_attribute("contenteditable").is_some(),
    };
    takes_letters.then_some(active)
}

/// What cannot be seen is not pressed: beside what is opened the list shows no boxes.
fn press(selector: &str) {
    if let Some(key) = one(selector).filter(|key| key.offset_width() > 0) {
        key.click();
    }
}

/// To the field that looks for something; Stock has one.
fn look_for() {
    let field = || one(".beside .field-box input").or_else(|| one("main .field-box input"));
    if let Some(field) = field() {
        // A field that cannot be reached leaves the keyboard where it was.
        let _ = field.focus();
        return;
    }
    Route::Stock.go();
    set_timeout(
        move || {
            if let Some(field) = field() {
                let _ = field.focus();
            }
        },
        std::time::Duration::from_millis(100),
    );
}

/// The side that has the keyboard: the list where there is one, unless one is in what was opened.
fn side() -> Option<HtmlElement> {
    let active = document().active_element();
    let inside = |side: &HtmlElement| side.contains(active.as_deref());
    let opened = one("main");
    match one(".beside .screen-body") {
        Some(list) if !opened.as_ref().is_some_and(inside) => Some(list),
        _ => opened,
    }
}

/// One row on, or back.
fn step(on: bool) {
    let Some(side) = side() else { return };
    let Ok(found) = side.query_selector_all(ROWS) else {
        return;
    };
    let rows: Vec<HtmlElement> = (0..found.length())
        .filter_map(|at| found.item(at)?.dyn_into().ok())
        .collect();
    let active = document().active_element();
    let at = rows.iter().position(|row| row.contains(active.as_deref()));
    let to = match (at, on) {
        (Some(at), true) => at.saturating_add(1),
        (Some(at), false) => at.saturating_sub(1),
        (None, _) => 0,
    };
    if let Some(row) = rows.get(to) {
        focus_on(row);
    }
}

fn focus_on(row: &HtmlElement) {
    let first = row
        .query_selector("a[href], button")
        .ok()
        .flatten()
        .and_then(|inside| inside.dyn_into::<HtmlElement>().ok());
    let itself = matches!(row.tag_name().as_str(), "A" | "BUTTON");
    let target = if itself { Some(row.clone()) } else { first };
    if let Some(target) = target {
        let _ = target.focus();
    }
}

/// From the list into what is open, and back.
fn across() {
    let inside = one(".beside:focus-within").is_some();
    let target = if inside {
        one(".desk > .screen h1")
    } else {
        one(".beside [aria-current=true]").or_else(|| one(".beside a[href]"))
    };
    if let Some(target) = target {
        let still = FocusOptions::new();
        still.set_prevent_scroll(inside);
        let _ = target.focus_with_options(&still);
    }
}

/// Says on the row of the list which one is open.
fn mark_open(href: &str) {
    let Ok(links) = document().query_selector_all(".beside .screen-body a[href]") else {
        return;
    };
    for at in 0..links.length() {
        let Some(link) = links
            .item(at)
            .and_then(|link| link.dyn_into::<Element>().ok())
        else {
            continue;
        };
        let open = link.get_attribute("href").as_deref() == Some(href);
        // A link that takes no attribute is not marked.
        let _ = if open {
            link.set_attribute("aria-current", "true")
        } else {
            link.remove_attribute("aria-current")
        };
    }
}
