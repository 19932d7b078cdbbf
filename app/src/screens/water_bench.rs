//! One bench with the hose: who gets some and who does not, how, and the grower's own days.

use leptos::prelude::*;
use velamen_core::command::{Command, PlaceTraits};
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::event::WaterHow;
use velamen_core::id::PlaceId;
use velamen_core::view::water::{Bench, BenchLot, one_bench};
use velamen_core::water_draft::WateringDraft;

use super::lot_parts::{Refusal, one_of};
use super::reentry::until;
use super::water::{called, draft_key, order, water};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{
    Field, Glyph, Keys, Lesson, MainAction, PlainAction, PlainLink, Screen, Slat, Stake, Toggle,
    TopBack,
};
use crate::words::{rejection, rooms, trade, treat, water as words};

/// A bench in hand.
#[derive(Clone, Copy, Debug)]
pub struct BenchHand {
    pub(super) ledger: Ledger,
    pub(super) place: Option<PlaceId>,
    pub(super) draft: Memo<WateringDraft>,
    pub(super) view: Memo<Option<(Bench, Vec<BenchLot>)>>,
}

impl BenchHand {
    pub(super) fn of(place: Option<PlaceId>) -> Self {
        let ledger = Ledger::here();
        Self {
            ledger,
            place,
            draft: ledger.draft_at::<WateringDraft>(draft_key(place)),
            view: ledger.ask(move |state, at| one_bench(state, place, at.today, at.now_ms)),
        }
    }

    pub(super) fn change(self, how: impl FnOnce(&mut WateringDraft)) {
        let key = draft_key(self.place);
        self.ledger.change_draft(&key, |draft: &mut WateringDraft| {
            draft.version = DRAFT_VERSION;
            how(draft);
        });
    }

    pub(super) fn title(self) -> Signal<String> {
        Signal::derive(move || {
            self.view
                .with(|view| view.as_ref().map(|(bench, _)| called(bench)))
                .unwrap_or_default()
        })
    }

    /// "10 of 12 lots".
    pub(super) fn getting(self, feeding: bool) -> Signal<String> {
        Signal::derive(move || {
            let draft = self.draft.get();
            self.view.with(|view| {
                let lots = view.as_ref().map(|(_, lots)| lots.as_slice());
                let lots = lots.unwrap_or_default();
                let gets = |lot: &&BenchLot| draft.gets(lot.label.lot, lot.is_held(feeding));
                words::getting(lots.iter().filter(gets).count(), lots.len())
            })
        })
    }
}

/// The screen.
#[component]
pub fn WaterBench(place: Option<PlaceId>) -> impl IntoView {
    let hand = BenchHand::of(place);
    let ledger = hand.ledger;
    let any = Memo::new(move |_| {
        hand.view
            .with(|view| view.as_ref().is_some_and(|(_, lots)| !lots.is_empty()))
    });
    let done = Callback::new(move |()| water(ledger, place, || Route::Water.replace()));
    let actions = move || {
        view! {
            <PlainLink href=Route::Feeding(place).href() label=words::FEED glyph=Glyph::Feed />
            <MainAction label=words::WATERED.to_owned() on_press=done busy=ledger.busy() glyph=Glyph::Drop />
        }
    };
    let body = move || {
        if any.get() {
            view! {
                <Who hand feeding=false />
                <How hand />
                <OwnDays hand />
            }
            .into_any()
        } else {
            view! { <Lesson glyph=Glyph::Drop title=words::NO_BENCH words=words::NO_BENCH_HINT /> }
                .into_any()
        }
    };
    view! {
        <Screen
            title=hand.title()
            over=hand.getting(false)
            back=|| view! { <TopBack href=Route::Water.href() label=rooms::back_to(words::TITLE) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            {body}
        </Screen>
    }
}

/// Every lot of the bench: marked, it gets some.
#[component]
pub fn Who(hand: BenchHand, feeding: bool) -> impl IntoView {
    let rows = move || {
        let today = hand.ledger.today();
        let mut lots = hand.view.get().map(|(_, lots)| lots).unwrap_or_default();
        lots.sort_by_key(order);
        let rows = lots.into_iter().map(|lot| {
            let id = lot.label.lot;
            let held = lot.is_held(feeding);
            let gets = move || hand.draft.with(|draft| draft.gets(id, held)).to_string();
            let turn = move |_| hand.change(|draft| draft.turn(id, held));
            let said = match &lot.bound {
                Some(by) => words::hands_off(&until(by, today)),
                None => words::lot(&lot.water, lot.no_feed, feeding, today),
            };
            view! {
                <button type="button" class="choose" aria-pressed=gets on:click=turn>
                    <Stake
                        name=trade::name_runs(&lot.label.name)
                        code=lot.label.code.map(|code| code.to_string()).unwrap_or_default()
                        count=trade::plants_in_pots(lot.label.plants, lot.label.stands)
                    />
                    <span class="small">{said}</span>
                </button>
            }
        });
        rows.collect_view()
    };
    view! {
        <section>
            <Slat name=words::WHO />
            <p class="edge soft">{words::WHO_HINT}</p>
            {rows}
        </section>
    }
}

/// How the water comes, and whether it runs through.
#[component]
fn How(hand: BenchHand) -> impl IntoView {
    let open = Memo::new(move |_| {
        hand.view
            .with(|view| view.as_ref().is_some_and(|(bench, _)| bench.open_to_rain))
    });
    let flush = Signal::derive(move || hand.draft.with(|draft| draft.flush));
    view! {
        <div class="form">
            {move || ways(hand, open.get())}
            <Toggle
                label=words::FLUSH
                hint=words::FLUSH_HINT
                on=flush
                on_switch=Callback::new(move |on: bool| hand.change(|draft| draft.flush = on))
                on_word=treat::YES
                off_word=treat::NO
            />
        </div>
    }
}

/// The ways water comes; the rain only where it can.
pub(super) fn ways(hand: BenchHand, open_to_rain: bool) -> impl IntoView {
    let ways = WaterHow::ALL.into_iter();
    let ways = ways
        .filter(|how| *how != WaterHow::Rain || open_to_rain)
        .map(|how| (how, words::how(how).to_owned()))
        .collect();
    let chosen = Signal::derive(move || hand.draft.with(|draft| draft.how));
    one_of(words::HOW, ways, chosen, move |how| {
        hand.change(|draft| draft.how = how);
    })
}

/// The days of this bench: what they rest on, and the grower's own.
#[component]
fn OwnDays(hand: BenchHand) -> impl IntoView {
    let rests_on = move || {
        hand.view.with(|view| {
            let lots = view.as_ref().map(|(_, lots)| lots.as_slice());
            let lots = lots.unwrap_or_default().iter();
            let first = lots.min_by_key(|lot| lot.water.rhythm.days);
            first.map(|lot| words::rhythm(&lot.water.rhythm))
        })
    };
    let own = hand.place.map(|place| {
        view! { <Days place feeds=false /> <Days place feeds=true /> }
    });
    view! {
        <div class="form">
            <p>{rests_on}</p>
            {own}
            <p class="small soft">{words::PRACTICE}</p>
        </div>
    }
}

/// Own days between waterings, or between feeds.
#[component]
fn Days(place: PlaceId, feeds: bool) -> impl IntoView {
    let ledger = Ledger::here();
    let known = ledger.ask(move |state, _| {
        let place = state.facts().places.get(&place)?;
        let days = if feeds {
            &place.feed_days
        } else {
            &place.water_days
        };
        days.get().copied().filter(|days| *days > 0)
    });
    let typed: RwSignal<Option<String>> = RwSignal::new(None);
    let error = RwSignal::new(String::new());
    let shown = Signal::derive(move || {
        let known = known.get().map(|days| days.to_string());
        typed.get().unwrap_or_else(|| known.unwrap_or_default())
    });
    let keep = Callback::new(move |()| {
        let text = shown.get_untracked();
        let days = match text.trim() {
            "" => Some(0),
            text => text.parse::<u16>().ok(),
        };
        let Some(days) = days else {
            error.set(words::NOT_DAYS.to_owned());
            return;
        };
        let about = PlaceTraits {
            water_days: (!feeds).then_some(days),
            feed_days: feeds.then_some(days),
            ..PlaceTraits::default()
        };
        let command = Command::SetPlace {
            place: Some(place),
            name: None,
            walk: None,
            about,
        };
        let act = Act::new(command, crate::words::shed::CHANGED).then(move |_| typed.set(None));
        ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
    });
    let (label, hint) = if feeds {
        (words::OWN_FEED_DAYS, "")
    } else {
        (words::OWN_DAYS, words::OWN_DAYS_HINT)
    };
    let on_input = Callback::new(move |text: String| {
        error.set(String::new());
        typed.set(Some(text));
    });
    view! {
        <Field label hint value=shown on_input unit=crate::words::round::DAYS keys=Keys::Digits max_chars=3 />
        <Refusal words=error />
        {move || typed.get().is_some().then(|| view! {
            <PlainAction label=words::KEEP_DAYS.to_owned() on_press=keep busy=ledger.busy() />
        })}
    }
}
