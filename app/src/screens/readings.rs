//! Minimum and maximum of every house: two numbers each, typed with the thumb, the day before's beside them.

use leptos::prelude::*;
use velamen_core::climate_draft::{ClimateDraft, Figure};
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::id::PlaceId;
use velamen_core::view::climate::{HouseRow, houses};

use super::lot_parts::{Refusal, one_of};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{
    Glyph, Lesson, MainAction, NumberPad, PlainAction, PlainLink, Screen, Sheet, Slat, Toggle,
    TopBack,
};
use crate::words::{climate as words, rejection, rooms, shed, stock, system, told, treat};

const DRAFT: &str = "climate";

/// A house and what is wrong with its numbers; no house, and it is about all of them.
type Refused = RwSignal<(Option<PlaceId>, String)>;

#[derive(Clone, Copy)]
struct InHand {
    ledger: Ledger,
    draft: Memo<ClimateDraft>,
    refused: Refused,
    /// Whether the pad is up.
    typing: RwSignal<bool>,
}

impl InHand {
    fn change(self, how: impl FnOnce(&mut ClimateDraft)) {
        self.refused.set((None, String::new()));
        self.ledger.change_draft(DRAFT, |draft: &mut ClimateDraft| {
            draft.version = DRAFT_VERSION;
            how(draft);
        });
    }

    fn open(self, at: (PlaceId, Figure)) {
        self.change(|draft| draft.at = Some(at));
        self.typing.set(true);
    }

    fn refused_at(self, place: Option<PlaceId>) -> Signal<String> {
        Signal::derive(move || {
            self.refused.with(|(at, words)| {
                if *at == place {
                    words.clone()
                } else {
                    String::new()
                }
            })
        })
    }

    fn keep(self) {
        let today = self.ledger.moment().today;
        let refused = self.refused;
        match self.draft.with_untracked(|draft| draft.command(today)) {
            Err((place, fault)) => refused.set((Some(place), words::typed_fault(&fault))),
            Ok(command) => {
                let act = Act::new(command, told::done(words::KEPT)).ends_draft(DRAFT);
                self.ledger
                    .act(act.otherwise(move |no| refused.set((None, rejection::say(&no)))));
            }
        }
    }
}

/// The screen.
#[component]
pub fn Readings() -> impl IntoView {
    let ledger = Ledger::here();
    let hand = InHand {
        ledger,
        draft: ledger.draft::<ClimateDraft>(DRAFT),
        refused: RwSignal::new((None, String::new())),
        typing: RwSignal::new(false),
    };
    let day = Memo::new(move |_| hand.draft.with(|draft| draft.day(ledger.today())));
    let shown = Memo::new(move |_| ledger.follow(|state, _| houses(state.facts(), day.get())));
    let others = RwSignal::new(false);
    let yesterday = Signal::derive(move || day.get() != ledger.today());
    let humidity = Signal::derive(move || hand.draft.with(|draft| draft.humidity));
    let days = vec![
        (false, words::TODAY.to_owned()),
        (true, words::YESTERDAY.to_owned()),
    ];
    let keep = Callback::new(move |()| hand.keep());
    let actions = move || {
        view! { <MainAction label=words::KEEP.to_owned() on_press=keep busy=ledger.busy() /> }
    };
    let rows = move || {
        let (first, rest) = shown.get();
        if first.is_empty() {
            return view! {
                <Lesson glyph=Glyph::Round title=words::NO_PLACE words=words::NO_PLACE_HINT />
                <p class="edge"><PlainLink href=Route::Places.href() label=shed::PLACES main=true /></p>
            }
            .into_any();
        }
        let more = (!rest.is_empty()).then(|| {
            let rows = move || {
                others
                    .get()
                    .then(|| rest.clone().into_iter().map(|row| house(hand, row)).collect_view())
            };
            let open = Callback::new(move |()| others.update(|open| *open = !*open));
            view! {
                {rows}
                <p class="edge"><PlainAction label=words::OTHER_PLACES.to_owned() on_press=open /></p>
            }
        });
        let rows = first.into_iter().map(|row| house(hand, row)).collect_view();
        view! { {rows} {more} }.into_any()
    };
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Round.href() label=rooms::back_to(rooms::ROUND) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            {rows}
            <div class="form">
                <Refusal words=hand.refused_at(None) />
                {one_of(words::OF_DAY, days, yesterday, move |yesterday| {
                    let today = ledger.moment().today;
                    hand.change(|draft| draft.set_day(today, yesterday));
                })}
                <Toggle
                    label=words::HUMIDITY_TOO
                    on=humidity
                    on_switch=Callback::new(move |on: bool| hand.change(|draft| draft.humidity = on))
                    on_word=treat::YES
                    off_word=treat::NO
                />
                <p class="soft">{words::HINT}</p>
                <PlainLink href=Route::LoggerFile.href() label=words::FROM_FILE glyph=Glyph::Plus />
            </div>
            <Pad hand shown />
        </Screen>
    }
}

/// A house with its boxes.
fn house(hand: InHand, row: HouseRow) -> impl IntoView {
    let place = row.place;
    let name = row.name.clone();
    let before = row
        .day_before
        .as_ref()
        .map(words::day_before)
        .unwrap_or_default();
    let boxes = move || {
        let figures = Figure::all(hand.draft.with(|draft| draft.humidity), row.open_to_rain);
        let name = name.clone();
        let one = move |figure: &Figure| {
            let figure = *figure;
            let name = name.clone();
            let text = Memo::new(move |_| hand.draft.with(|draft| draft.text(place, figure)));
            let kept = row.read.as_ref().and_then(|read| words::kept(read, figure));
            let shown = {
                let kept = kept.clone();
                move || match (text.get(), &kept) {
                    (text, Some(kept)) if text.is_empty() => kept.clone(),
                    (text, _) => text,
                }
            };
            let label = {
                let shown = shown.clone();
                move || words::box_label(&name, figure, &shown())
            };
            view! {
                <button
                    type="button"
                    class="reading"
                    class:soft=move || text.with(String::is_empty)
                    aria-label=label
                    on:click=move |_| hand.open((place, figure))
                >
                    <span class="small">{words::figure(figure)}</span>
                    <span><bdi class="reading-figure">{shown}</bdi> <span class="unit">{words::unit(figure)}</span></span>
                </button>
            }
        };
        figures.iter().map(one).collect_view()
    };
    let href = Route::PlaceClimate(place).href();
    let link = words::weeks_of(&row.name);
    view! {
        <section>
            <Slat name=row.name note=before />
            <div class="reading-boxes">{boxes}</div>
            <div class="edge">
                <Refusal words=hand.refused_at(Some(place)) />
                <a class="quiet" href=href>{link}</a>
            </div>
        </section>
    }
}

/// The pad that goes from box to box.
#[component]
fn Pad(hand: InHand, shown: Memo<(Vec<HouseRow>, Vec<HouseRow>)>) -> impl IntoView {
    let at = Memo::new(move |_| hand.draft.with(|draft| draft.at));
    let row_of = move |place: PlaceId| {
        shown.with(|(first, rest)| {
            let mut rows = first.iter().chain(rest);
            rows.find(|row| row.place == place).cloned()
        })
    };
    let title = Signal::derive(move || {
        at.get()
            .and_then(|(place, figure)| Some(words::typing(&row_of(place)?.name, figure)))
            .unwrap_or_default()
    });
    let close = Callback::new(move |()| hand.typing.set(false));
    let next = move |(place, figure): (PlaceId, Figure)| {
        let houses: Vec<(PlaceId, bool)> = shown.with(|(first, rest)| {
            let in_use = first.iter().any(|row| row.place == place);
            let rows = if in_use { first } else { rest };
            rows.iter()
                .map(|row| (row.place, row.open_to_rain))
                .collect()
        });
        hand.draft
            .with(|draft| draft.next_box(&houses, (place, figure)))
    };
    let body = move || {
        let (place, figure) = at.get()?;
        let before = row_of(place).and_then(|row| row.day_before);
        let before = before.as_ref().map(words::day_before);
        let then = next((place, figure));
        let go = Callback::new(move |()| match then {
            Some(then) => hand.change(|draft| draft.at = Some(then)),
            None => hand.typing.set(false),
        });
        let on_text = Callback::new(move |text: String| {
            let today = hand.ledger.moment().today;
            hand.change(|draft| {
                draft.system = system();
                draft.put(place, figure, text, today);
            });
        });
        let label = match then {
            Some((house, next)) if house == place => words::figure(next).to_owned(),
            Some((house, _)) => row_of(house).map(|row| row.name).unwrap_or_default(),
            None => stock::NUMBER_DONE.to_owned(),
        };
        let sign = matches!(figure, Figure::Min | Figure::Max).then_some(words::BELOW_NOUGHT);
        Some(view! {
            {before.map(|before| view! { <p class="edge soft">{before}</p> })}
            {pad(title.get_untracked(), hand, place, figure, on_text, sign)}
            <div class="actions"><MainAction label on_press=go /></div>
        })
    };
    view! {
        <Sheet open=hand.typing on_close=close title close_label=told::close()>
            {body}
        </Sheet>
    }
}

fn pad(
    label: String,
    hand: InHand,
    place: PlaceId,
    figure: Figure,
    on_text: Callback<String>,
    sign: Option<&'static str>,
) -> impl IntoView {
    let text = Signal::derive(move || hand.draft.with(|draft| draft.text(place, figure)));
    let unit = words::unit(figure);
    match sign {
        Some(sign_label) => view! {
            <NumberPad label text on_text unit sign_label erase_label=stock::ERASE mark_label=stock::POINT />
        }
        .into_any(),
        None => view! {
            <NumberPad label text on_text unit erase_label=stock::ERASE mark_label=stock::POINT />
        }
        .into_any(),
    }
}
