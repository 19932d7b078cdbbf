//! Feeding a bench: the nitrogen wanted, so many grams to a can or to an injector's stock, and who gets none.

use leptos::prelude::*;
use velamen_core::event::Nitrogen;
use velamen_core::id::{FeedId, PlaceId};
use velamen_core::quantity::{Unit, Volume};
use velamen_core::reference::thirst::FEED_STRONG_PPM;
use velamen_core::rejection::Rejection;
use velamen_core::view::water::{FeedRow, feeds};
use velamen_core::water::{Mixed, MixedFor, expected_ec, mixed};
use velamen_core::water_draft::{
    BoxFault, CAN_LITRES, FeedFigures, INJECTOR_TIMES, WaterBox, WateringDraft,
};

use super::lot_parts::{Refusal, one_of};
use super::own_units;
use super::water::{draft_key, held_or_not};
use super::water_bench::{BenchHand, Who, ways};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Amount, Field, Glyph, Keys, MainAction, PlainLink, Screen, TopBack};
use crate::words::format::sign;
use crate::words::{rejection, rooms, water as words};

/// What stands under the boxes: what to measure, or what is wrong.
#[derive(Clone, PartialEq)]
struct Reckoned {
    mixed: Option<Result<Mixed, Rejection>>,
    made_up_to: Option<Volume>,
    expected: Option<(u32, bool)>,
    strong: bool,
    fault: Option<BoxFault>,
}

/// Nitrogen the boxes begin with.
fn usual_ppm(hand: BenchHand) -> u32 {
    hand.view.with(|view| {
        let bench = view.as_ref().map(|(bench, _)| bench.feed.ppm);
        bench.unwrap_or(velamen_core::reference::thirst::FEED_PPM)
    })
}

fn chosen(ledger: Ledger, feed: Option<FeedId>) -> Option<FeedRow> {
    let rows = ledger.follow(|state, _| feeds(state.facts()));
    rows.into_iter().find(|row| Some(row.feed) == feed)
}

fn reckon(draft: &WateringDraft, feed: Option<&FeedRow>, usual: u32) -> Reckoned {
    let figures = draft.figures(usual);
    let read = figures.unwrap_or_default();
    let nitrogen: Option<Nitrogen> = feed.and_then(|feed| feed.nitrogen);
    let FeedFigures {
        ppm,
        water,
        times,
        water_ec_us_cm,
        ..
    } = read;
    let into = water.map(|made_up_to| match times {
        Some(times) => MixedFor::Stock { made_up_to, times },
        None => MixedFor::Can(made_up_to),
    });
    let whole = nitrogen.zip(ppm).zip(into);
    let each = feed.map_or(0, |feed| feed.ec_us_cm);
    let expected = nitrogen
        .zip(ppm)
        .and_then(|(nitrogen, ppm)| expected_ec(nitrogen, ppm, each, water_ec_us_cm));
    Reckoned {
        mixed: whole.map(|((nitrogen, ppm), into)| mixed(nitrogen, ppm, into)),
        made_up_to: water,
        expected: expected.map(|ec| (ec, water_ec_us_cm.is_some())),
        strong: ppm.is_some_and(|ppm| ppm > FEED_STRONG_PPM),
        fault: figures.err(),
    }
}

/// The screen.
#[component]
pub fn Feeding(place: Option<PlaceId>) -> impl IntoView {
    let hand = BenchHand::of(place);
    let ledger = hand.ledger;
    let refused = RwSignal::new(String::new());
    let reckoned = Memo::new(move |_| {
        let draft = hand.draft.get();
        let feed = chosen(ledger, draft.feed);
        reckon(&draft, feed.as_ref(), usual_ppm(hand))
    });
    let done = Callback::new(move |()| {
        refused.set(String::new());
        let draft = hand.draft.get_untracked();
        let lots = hand.view.get_untracked().map(|(_, lots)| lots);
        let lots = held_or_not(&lots.unwrap_or_default(), true);
        let gets = lots.iter().filter(|(lot, held)| draft.gets(*lot, *held));
        let left_out = lots.len().saturating_sub(gets.count());
        let usual = untrack(|| usual_ppm(hand));
        match draft.feeding(place, &lots, usual) {
            Err(fault) => {
                refused.set(words::fault(fault));
            }
            Ok(command) => {
                let name = hand.title().get_untracked();
                let said = words::said(words::FED, &name, left_out);
                // The feed and how it is mixed stay for the next bench of this place; the exceptions end with this one.
                let next = WateringDraft {
                    except: Vec::new(),
                    also: Vec::new(),
                    flush: false,
                    ppm: None,
                    ec: String::new(),
                    ..draft
                };
                let act = Act::new(command, said).leaves_draft(draft_key(place), &next);
                let act = act.then(|_| Route::Water.replace());
                ledger.act(act.otherwise(move |no| {
                    refused.set(rejection::say(&no));
                }));
            }
        }
    });
    let actions = move || {
        view! { <MainAction label=words::FED.to_owned() on_press=done busy=ledger.busy() glyph=Glyph::Feed /> }
    };
    view! {
        <Screen
            title=words::FEED
            over=hand.title()
            back=move || view! { <TopBack href=Route::WaterBench(place).href() label=rooms::back_to(words::TITLE) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            {move || before(hand)}
            <div class="form">
                {move || which(hand)}
                <PlainLink href=Route::FeedLabel(None).href() label=words::ANOTHER glyph=Glyph::Plus />
                <Boxes hand reckoned />
            </div>
            <Result reckoned />
            <div class="form">
                <Refusal words=refused />
                <MeasuredEc hand />
                {ways(hand, false)}
                <p class="small soft">{words::CHLORINE}</p>
            </div>
            <Who hand feeding=true />
        </Screen>
    }
}

/// What comes before a feed: plain water, after several of them.
fn before(hand: BenchHand) -> impl IntoView {
    hand.view.with(|view| {
        let due = view.as_ref().is_some_and(|(bench, _)| bench.feed.flush_due);
        due.then(|| view! { <p class="warn">{words::FLUSH_DUE}</p> })
    })
}

fn which(hand: BenchHand) -> impl IntoView {
    let rows = hand.ledger.follow(|state, _| feeds(state.facts()));
    let none = (None, words::NO_FEED.to_owned());
    let options: Vec<(Option<FeedId>, String)> = rows
        .into_iter()
        .map(|row| (Some(row.feed), row.name))
        .chain([none])
        .collect();
    let chosen = Signal::derive(move || hand.draft.with(|draft| draft.feed));
    one_of(words::WHICH, options, chosen, move |feed| {
        hand.change(|draft| draft.feed = feed);
    })
}

/// Nitrogen wanted, and what it is mixed in.
#[component]
fn Boxes(hand: BenchHand, reckoned: Memo<Reckoned>) -> impl IntoView {
    let wrong = move |of: WaterBox| {
        Signal::derive(move || {
            let fault = reckoned.with(|it| it.fault);
            let here =
                matches!(fault, Some(BoxFault::NotANumber(at) | BoxFault::Missing(at)) if at == of);
            fault.filter(|_| here).map(words::fault).unwrap_or_default()
        })
    };
    let ppm = Signal::derive(move || {
        let typed = hand.draft.with(|draft| draft.ppm.clone());
        typed.unwrap_or_else(|| usual_ppm(hand).to_string())
    });
    let hint = hand.view.with_untracked(|view| {
        let feed = view.as_ref().map(|(bench, _)| &bench.feed);
        feed.map(|feed| words::ppm_hint(feed.weak, feed.last_ppm))
    });
    let kinds = vec![
        (false, words::A_CAN.to_owned()),
        (true, words::AN_INJECTOR.to_owned()),
    ];
    let injector = Signal::derive(move || hand.draft.with(|draft| draft.injector));
    let shown = move |get: fn(&WateringDraft) -> &Option<String>, usual: &'static str| {
        Signal::derive(move || {
            let typed = hand.draft.with(|draft| get(draft).clone());
            typed.unwrap_or_else(|| usual.to_owned())
        })
    };
    let mixed_in = move || {
        let label = if injector.get() {
            words::STOCK
        } else {
            words::CAN
        };
        let set = injector.get().then(|| {
            view! {
                <Field
                    label=words::TIMES
                    hint=words::TIMES_HINT
                    value=shown(|draft| &draft.times, INJECTOR_TIMES)
                    on_input=Callback::new(move |typed| hand.change(|draft| draft.times = Some(typed)))
                    error=wrong(WaterBox::Times)
                    keys=Keys::Digits
                    max_chars=4
                />
            }
        });
        view! {
            <Field
                label
                value=own_units::shown(shown(|draft| &draft.litres, CAN_LITRES), Unit::Litre)
                on_input=Callback::new(move |typed| {
                    let typed = own_units::typed(typed, Unit::Litre);
                    hand.change(|draft| draft.litres = Some(typed));
                })
                error=wrong(WaterBox::Litres)
                unit=sign(Unit::Litre)
                keys=Keys::Decimal
                max_chars=8
            />
            {set}
        }
    };
    view! {
        <Field
            label=words::PPM
            hint=hint.unwrap_or_default()
            value=ppm
            on_input=Callback::new(move |typed| hand.change(|draft| draft.ppm = Some(typed)))
            error=wrong(WaterBox::Nitrogen)
            unit=words::PPM_UNIT
            keys=Keys::Digits
            max_chars=4
        />
        {one_of(words::INTO, kinds, injector, move |on| hand.change(|draft| draft.injector = on))}
        {mixed_in}
    }
}

/// What to measure out.
#[component]
fn Result(reckoned: Memo<Reckoned>) -> impl IntoView {
    move || {
        let it = reckoned.get();
        let strong = it
            .strong
            .then(|| view! { <p class="warn">{words::STRONG}</p> });
        let said = it
            .mixed
            .zip(it.made_up_to)
            .map(|(mixed, made_up_to)| match mixed {
                Err(no) => view! { <Refusal words=rejection::say(&no) /> }.into_any(),
                Ok(mixed) => {
                    let (figure, unit) = words::amount(mixed.amount);
                    let unit = words::made_up(unit, made_up_to);
                    let far = (mixed.reaches != made_up_to).then(|| words::reaches(mixed.reaches));
                    let lumps = mixed
                        .may_not_dissolve
                        .then(|| view! { <p class="warn">{words::MAY_NOT_DISSOLVE}</p> });
                    view! {
                        <Amount value=figure unit />
                        {far.map(|said| view! { <p>{said}</p> })}
                        {lumps}
                    }
                    .into_any()
                }
            });
        let expected = it
            .expected
            .map(|(ec, water)| view! { <p>{words::expected(ec, water)}</p> });
        view! { <div class="card">{said}{expected}{strong}</div> }
    }
}

/// Conductivity: of the water, and of what the plants got.
#[component]
fn MeasuredEc(hand: BenchHand) -> impl IntoView {
    let ec = Signal::derive(move || hand.draft.with(|draft| draft.ec.clone()));
    let water = Signal::derive(move || hand.draft.with(|draft| draft.water_ec.clone()));
    view! {
        <Field
            label=words::WATER_EC
            value=water
            on_input=Callback::new(move |typed| hand.change(|draft| draft.water_ec = typed))
            unit=words::EC_UNIT
            keys=Keys::Decimal
            max_chars=6
        />
        <Field
            label=words::EC
            value=ec
            on_input=Callback::new(move |typed| hand.change(|draft| draft.ec = typed))
            unit=words::EC_UNIT
            keys=Keys::Decimal
            max_chars=6
        />
    }
}
