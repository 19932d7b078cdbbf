//! One of each part, on one page: the swatch book of the look, opened at `#/kit`.
//!
//! Invariant: every figure and word here is invented for the picture and is no advice. The page
//! records nothing.

use super::drawing::{
    Child, ChildKind, Layer, LayerKind, Lineage, Parent, PotSection, Span, SpanKind, YearStrip,
};
use super::gallery_look::{Palette, PlanSwatch, TypeAndSpace, Warnings};
use super::gallery_rows::{Counting, Photographs, Rows, WordsAndChoices};
use super::*;
use leptos::prelude::*;

fn rooms() -> Vec<Room> {
    [
        ("Round", Glyph::Round, true),
        ("Repot", Glyph::Repot, false),
        ("Treat", Glyph::Treat, false),
        ("Stock", Glyph::Stock, false),
        ("Book", Glyph::Book, false),
    ]
    .into_iter()
    .map(|(label, glyph, current)| Room {
        href: "#/kit".to_owned(),
        label: label.to_owned(),
        glyph,
        current,
    })
    .collect()
}

/// An italic name in one run, or with a roman ending.
pub(super) fn name(italic: &str, roman: &str) -> Vec<(String, bool)> {
    let mut runs = vec![(italic.to_owned(), true)];
    if !roman.is_empty() {
        runs.push((format!(" {roman}"), false));
    }
    runs
}

/// The whole swatch page.
#[component]
pub fn Gallery() -> impl IntoView {
    let told = RwSignal::new(None::<NoticeKind>);
    let busy = RwSignal::new(false);
    let sheet_open = RwSignal::new(false);
    let notice = move || {
        told.get().map(|kind| {
            let close = Callback::new(move |()| told.set(None));
            let (words, key, stays_s) = match kind {
                NoticeKind::Ok => ("First water recorded for 12 pots.", "Undo", 10),
                NoticeKind::Refusal => (
                    "Not recorded: the label's maximum is 2 mL per L. Measure less.",
                    "Close",
                    0,
                ),
                NoticeKind::Warning => (
                    "Outside the season you set. It is recorded; look again at night lows.",
                    "Close",
                    0,
                ),
                NoticeKind::News => ("Something new is ready. It can wait.", "Take it", 0),
            };
            view! { <Notice kind words key_label=key on_key=close stays_s on_gone=close /> }
        })
    };
    let actions = move || {
        view! {
            <PlainAction label="Amount" on_press=Callback::new(move |()| sheet_open.set(true)) />
            <MainAction
                label="Record"
                busy
                busy_label="Writing…"
                on_press=Callback::new(move |()| told.set(Some(NoticeKind::Ok)))
            />
        }
    };
    view! {
        <Screen
            title="Swatches"
            over="Wednesday 11 March"
            back=|| view! { <TopBack href="#/kit" label="Back to Stock" /> }
            side=|| view! { "cool house, night" <strong>"7.5 to 16 °C"</strong> }
            notice
            actions
            rooms=|| view! { <RoomBar rooms=rooms() label="Rooms" /> }
        >
            <Palette />
            <TypeAndSpace />
            <Rows told />
            <Shapes />
            <Warnings />
            <Counting />
            <Figures />
            <Drawings />
            <PlanSwatch />
            <WordsAndChoices />
            <Photographs />
            <div class="edge stack">
                <PlainAction
                    label="Refuse"
                    glyph=Glyph::Cross
                    on_press=Callback::new(move |()| told.set(Some(NoticeKind::Refusal)))
                />
                <PlainAction
                    label="Warn"
                    glyph=Glyph::Warning
                    on_press=Callback::new(move |()| told.set(Some(NoticeKind::Warning)))
                />
                <PlainAction
                    label="Offer"
                    on_press=Callback::new(move |()| told.set(Some(NoticeKind::News)))
                />
                <PlainAction
                    label="Pretend to write"
                    on_press=Callback::new(move |()| busy.update(|busy| *busy = !*busy))
                />
            </div>
            <Glyphs />
            <AmountSheet open=sheet_open />
        </Screen>
    }
}

#[component]
fn AmountSheet(open: RwSignal<bool>) -> impl IntoView {
    let text = RwSignal::new("5,6".to_owned());
    view! {
        <Sheet
            title="Measured"
            open
            on_close=Callback::new(move |()| open.set(false))
            close_label="Close"
        >
            <NumberPad
                label="Measured, in millilitres"
                text
                on_text=Callback::new(move |next| text.set(next))
                unit="mL"
                mark=','
                erase_label="Wipe one"
                mark_label="Comma"
            />
            <div class="actions">
                <MainAction label="Take it" on_press=Callback::new(move |()| open.set(false)) />
            </div>
        </Sheet>
    }
}

#[component]
fn Shapes() -> impl IntoView {
    view! {
        <Slat name="The four shapes" />
        <div class="edge stack">
            <Stake name=name("Cymbidium lowianum", "") large=true />
            <Stake name=name("Dendrobium", "Saltmarsh gx") code="K3-077" count="22 pots" />
            <Stake name=Vec::new() code="K3-204" count="4 pots" />
            <div class="run">
                <TrayTag number="7" word="Tray" />
                <span>
                    <b>"14 pieces bare"</b>
                    <br />
                    <span class="small soft">"since 10:40"</span>
                </span>
            </div>
            <Bottle
                name="Spot fungicide B"
                rate="1.6 mL per L"
                note="FRAC 3 · label of 2024 · 35 L tub"
            >
                <Amount value="56" unit="mL, wanted 56" />
            </Bottle>
            <div class="digits">"4:12"</div>
            <div class="digits-note">"lift out at 11:47"</div>
        </div>
    }
}

#[component]
fn Figures() -> impl IntoView {
    view! {
        <Slat name="Figures" />
        <Facts>
            <Fact value="4" words="pots, 17 cm" />
            <Fact value="to flower" words="Jan to Mar" />
            <Fact value="5.8" unit="L" words="bark for 4, settling counted" />
        </Facts>
        <Progress label="Labels" pct=24 words="120 of 500">
            <PlainAction label="Stop" on_press=Callback::new(|()| ()) />
        </Progress>
        <Lesson
            glyph=Glyph::Stock
            title="No lots yet"
            words="Write the first label: a name, a place and how many pots."
        >
            <PlainLink href="#/kit" label="First lot" glyph=Glyph::Plus main=true />
        </Lesson>
    }
}

#[component]
fn Drawings() -> impl IntoView {
    let layer = |kind, depth_mm, value: &str, words: &str| Layer {
        kind,
        depth_mm,
        value: value.to_owned(),
        words: words.to_owned(),
    };
    let span = |kind, from_day, to_day, words: &str| Span {
        kind,
        from_day,
        to_day,
        words: words.to_owned(),
    };
    let child = |kind, code: &str, words: &str| Child {
        kind,
        code: code.to_owned(),
        words: words.to_owned(),
    };
    let parent = |code: &str| Parent {
        code: code.to_owned(),
        words: "3 pots".to_owned(),
    };
    let months = "MAMJJASONDJF".chars().map(String::from).collect::<Vec<_>>();
    view! {
        <Slat name="The pot, to scale" note="17 cm, 2.2 L" />
        <PotSection
            top_mm=170
            base_mm=120
            height_mm=150
            layers=vec![
                layer(LayerKind::Stone, 38, "0.41 L", "stone, 0.57 kg"),
                layer(LayerKind::Mix, 97, "1.44 L", "coarse bark"),
                layer(LayerKind::Headspace, 15, "1.5 cm", "headspace"),
            ]
            width_words="17 cm"
            text="Pot of 17 cm: 0.41 L of stone, 1.44 L of coarse bark, 1.5 cm of headspace."
        />
        <Slat name="Where it comes from" />
        <Lineage
            parents=vec![parent("K3-118"), parent("K3-119")]
            tag="7"
            tag_words="11 Mar"
            children_of=vec![
                child(ChildKind::Here, "K3-204", "4 pots"),
                child(ChildKind::Lot, "K3-205", "6 pots"),
                child(ChildKind::Lot, "K3-206", "2 trays"),
                child(ChildKind::Gone, "3", "thrown away"),
            ]
            text="K3-118 and K3-119 were opened together on tray 7 and gave K3-204, K3-205 and K3-206; 3 pieces were thrown away."
        />
        <Slat name="The year from here" />
        <YearStrip
            months
            today_day=10
            today_words="today"
            spans=vec![
                span(SpanKind::Window, 0, 80, "repot"),
                span(SpanKind::Cause, 160, 265, "nights below 13 °C"),
                span(SpanKind::Done, 10, 10, "divided"),
                span(SpanKind::ToCome, 96, 96, "look at roots"),
                span(SpanKind::Flowering, 290, 360, "in flower"),
            ]
            text="Repot until the end of May, cold nights from August set spikes, in flower from January."
        />
    }
}

#[component]
fn Glyphs() -> impl IntoView {
    let all = [
        Glyph::Round,
        Glyph::Repot,
        Glyph::Treat,
        Glyph::Stock,
        Glyph::Book,
        Glyph::Drop,
        Glyph::Magnifier,
        Glyph::Pot,
        Glyph::Scissors,
        Glyph::Check,
        Glyph::Plus,
        Glyph::Minus,
        Glyph::Back,
        Glyph::Onward,
        Glyph::Warning,
        Glyph::Cross,
        Glyph::Undo,
        Glyph::Camera,
        Glyph::Spike,
        Glyph::Flower,
        Glyph::Stone,
        Glyph::Tag,
        Glyph::Bottle,
        Glyph::Clock,
        Glyph::Help,
        Glyph::Print,
        Glyph::Bin,
        Glyph::Sun,
        Glyph::Moon,
        Glyph::Thermometer,
        Glyph::Erase,
        Glyph::Note,
        Glyph::Ring,
        Glyph::Bulb,
        Glyph::Feed,
        Glyph::HandOver,
    ];
    view! {
        <Slat name="Icons" />
        <div class="edge run">
            {all
                .map(|glyph| {
                    view! {
                        <span class="chip">
                            <Icon glyph />
                            {format!("{glyph:?}")}
                        </span>
                    }
                })
                .into_iter()
                .collect_view()}
        </div>
    }
}
