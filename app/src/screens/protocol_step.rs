//! What a step of a protocol holds beside its days: season, weather, which lots, repeat, rank, time.

use leptos::prelude::*;
use velamen_core::event::{Outcome, PieceClass};
use velamen_core::limits::{OFFSET_DAYS_MAX, WEATHER_DAYS_MAX};
use velamen_core::reference::taxa::Habit;
use velamen_core::season::Warmth;
use velamen_core::task::{AfterStep, Repeat, SeasonRule, Step, WeatherShift};

use super::lot_parts::one_of;
use super::protocol::InHand;
use crate::ui::{Stepper, Toggle};
use crate::words::{protocol as words, repot, shed, trade};

/// Seconds in a tenth of a minute.
const TENTH_S: i64 = 6;

/// Everything but the days.
pub(super) fn step_more(hand: InHand, at: usize) -> impl IntoView {
    let step = hand.step(at);
    let season = Signal::derive(move || step.get().map_or(SeasonRule::None, |step| step.season));
    let rank = Signal::derive(move || step.get().map_or(2, |step| step.priority));
    let seasons = [
        SeasonRule::None,
        SeasonRule::IntoRepotWindow,
        SeasonRule::AfterRest,
    ]
    .map(|rule| (rule, words::season(rule).to_owned()));
    let ranks = [1, 2, 3].map(|rank| (rank, words::rank(rank).to_owned()));
    view! {
        <details class="more-of-it">
            <summary>{words::MORE}</summary>
            <div class="form">
                {one_of(words::SEASON, seasons.to_vec(), season, move |rule| hand.edit(at, |step| step.season = rule))}
                {one_of(words::RANK, ranks.to_vec(), rank, move |rank| hand.edit(at, |step| step.priority = rank))}
            </div>
            <Number
                hand
                at
                label=words::SECONDS
                get=|step| i64::from(step.minutes_tenths) * TENTH_S
                set=|step, seconds| step.minutes_tenths = u16::try_from(seconds / TENTH_S).unwrap_or(0)
                by=TENTH_S
                max=3_600
            />
            <Again hand at />
            {after(hand, at)}
            <Weather hand at />
            <Only hand at />
        </details>
    }
}

/// A number of one step.
#[component]
fn Number(
    hand: InHand,
    at: usize,
    label: &'static str,
    get: fn(&Step) -> i64,
    set: fn(&mut Step, i64),
    #[prop(default = 0)] min: i64,
    max: i64,
    #[prop(default = 1)] by: i64,
) -> impl IntoView {
    let step = hand.step(at);
    let count = Signal::derive(move || step.get().map_or(0, |step| get(&step)));
    let on_count = Callback::new(move |count: i64| hand.edit(at, |step| set(step, count)));
    view! {
        <Stepper
            label
            count
            on_count
            less_label=repot::one_less(label)
            more_label=repot::one_more(label)
            min
            max
            by
        />
    }
}

/// A yes or no of one step.
#[component]
fn Switch(
    hand: InHand,
    at: usize,
    label: &'static str,
    get: fn(&Step) -> bool,
    set: fn(&mut Step, bool),
) -> impl IntoView {
    let step = hand.step(at);
    let on = Signal::derive(move || step.get().is_some_and(|step| get(&step)));
    let on_switch = Callback::new(move |on: bool| hand.edit(at, |step| set(step, on)));
    view! { <div class="form"><Toggle label on on_switch on_word=shed::ON off_word=shed::OFF /></div> }
}

#[component]
fn Again(hand: InHand, at: usize) -> impl IntoView {
    let step = hand.step(at);
    let repeats = Memo::new(move |_| step.get().is_some_and(|step| step.repeat.is_some()));
    let days = move || {
        repeats.get().then(|| {
            view! {
                <Number
                    hand
                    at
                    label=words::EVERY
                    get=|step| step.repeat.map_or(1, |repeat| i64::from(repeat.every_days))
                    set=|step, days| repeat(step).every_days = u16::try_from(days).unwrap_or(1)
                    min=1
                    max=i64::from(OFFSET_DAYS_MAX)
                />
                <Number
                    hand
                    at
                    label=words::UNTIL
                    get=|step| step.repeat.map_or(0, |repeat| i64::from(repeat.until_days))
                    set=|step, days| repeat(step).until_days = i32::try_from(days).unwrap_or(0)
                    max=i64::from(OFFSET_DAYS_MAX)
                />
            }
        })
    };
    view! {
        <Switch
            hand
            at
            label=words::REPEATS
            get=|step| step.repeat.is_some()
            set=|step, on| step.repeat = on.then_some(Repeat { every_days: 7, until_days: step.when.due_days.saturating_add(28) })
        />
        {days}
    }
}

/// Whether a step waits for what comes of another.
fn after(hand: InHand, at: usize) -> impl IntoView {
    let asking = Memo::new(move |_| hand.asking(at));
    let step = hand.step(at);
    let chosen = Signal::derive(move || step.get().and_then(|step| step.only.after));
    move || {
        let asking = asking.get();
        let known = chosen.get_untracked().is_some();
        (known || !asking.is_empty()).then(|| {
            let of = asking.into_iter().flat_map(|(step, kind)| {
                [Outcome::NeedsMore, Outcome::Well].map(|outcome| {
                    let step = step.clone();
                    (
                        Some(AfterStep { step, outcome }),
                        words::after(kind, outcome),
                    )
                })
            });
            let options = std::iter::once((None, words::AT_ONCE.to_owned())).chain(of);
            let choose =
                move |after: Option<AfterStep>| hand.edit(at, |step| step.only.after = after);
            view! {
                <div class="form">{one_of(words::AFTER, options.collect(), chosen, choose)}</div>
            }
        })
    }
}

fn repeat(step: &mut Step) -> &mut Repeat {
    step.repeat.get_or_insert(Repeat {
        every_days: 1,
        until_days: 0,
    })
}

/// Later in the cold, earlier in the heat.
#[component]
fn Weather(hand: InHand, at: usize) -> impl IntoView {
    view! {
        <Shift hand at cold=true />
        <Shift hand at cold=false />
    }
}

/// The bound that says which of the two a shift is.
fn bound(shift: &mut WeatherShift, cold: bool) -> &mut Option<i32> {
    if cold {
        &mut shift.below_mc
    } else {
        &mut shift.above_mc
    }
}

fn find(step: &Step, cold: bool) -> Option<&WeatherShift> {
    step.weather.iter().find(|shift| {
        if cold {
            shift.below_mc.is_some()
        } else {
            shift.above_mc.is_some()
        }
    })
}

fn change(step: &mut Step, cold: bool, how: impl FnOnce(&mut WeatherShift)) {
    let mut shifts = step.weather.iter_mut();
    if let Some(shift) = shifts.find_map(|shift| bound(shift, cold).is_some().then_some(shift)) {
        how(shift);
    }
}

#[component]
fn Shift(hand: InHand, at: usize, cold: bool) -> impl IntoView {
    let step = hand.step(at);
    let there = Memo::new(move |_| step.get().is_some_and(|step| find(&step, cold).is_some()));
    let (label, bound_label, days_label) = if cold {
        (words::LATER_IN_COLD, words::COLD_BELOW, words::DAYS_LATER)
    } else {
        (
            words::EARLIER_IN_HEAT,
            words::HOT_ABOVE,
            words::DAYS_EARLIER,
        )
    };
    let switch = Callback::new(move |on: bool| {
        hand.edit(at, |step| {
            step.weather
                .retain_mut(|shift| bound(shift, cold).is_none());
            if on {
                let mut shift = WeatherShift {
                    below_mc: None,
                    above_mc: None,
                    days: if cold { 3 } else { -2 },
                };
                *bound(&mut shift, cold) = Some(if cold { 15_000 } else { 28_000 });
                step.weather.push(shift);
            }
        });
    });
    let degrees = Signal::derive(move || {
        let mut shift = step.get().and_then(|step| find(&step, cold).copied());
        let mc = shift.as_mut().and_then(|shift| *bound(shift, cold));
        i64::from(mc.unwrap_or(0) / 1_000)
    });
    let days = Signal::derive(move || {
        let shift = step.get().and_then(|step| find(&step, cold).copied());
        i64::from(shift.map_or(0, |shift| shift.days.abs()))
    });
    let on_degrees = Callback::new(move |degrees: i64| {
        let mc = i32::try_from(degrees).unwrap_or(0).saturating_mul(1_000);
        hand.edit(at, |step| {
            change(step, cold, |shift| *bound(shift, cold) = Some(mc))
        });
    });
    let on_days = Callback::new(move |days: i64| {
        let days = i32::try_from(days).unwrap_or(1) * if cold { 1 } else { -1 };
        hand.edit(at, |step| change(step, cold, |shift| shift.days = days));
    });
    let more = move || {
        there.get().then(|| {
            view! {
                <Stepper
                    label=bound_label
                    count=degrees
                    on_count=on_degrees
                    less_label=repot::one_less(bound_label)
                    more_label=repot::one_more(bound_label)
                    min=-20
                    max=50
                />
                <Stepper
                    label=days_label
                    count=days
                    on_count=on_days
                    less_label=repot::one_less(days_label)
                    more_label=repot::one_more(days_label)
                    min=1
                    max=i64::from(WEATHER_DAYS_MAX)
                />
            }
        })
    };
    view! {
        <div class="form">
            <Toggle label on=there on_switch=switch on_word=shed::ON off_word=shed::OFF />
        </div>
        {more}
    }
}

/// Which lots a step is for: nothing chosen of a kind means all.
#[component]
fn Only(hand: InHand, at: usize) -> impl IntoView {
    let classes = PieceClass::ALL.map(|class| (class, trade::class(class).to_owned()));
    let habits = [
        Habit::Bulbs,
        Habit::Canes,
        Habit::Growths,
        Habit::Monopodial,
    ]
    .map(|habit| (habit, words::habit(habit).to_owned()));
    let warmths = [Warmth::Cool, Warmth::Intermediate, Warmth::Warm]
        .map(|warmth| (warmth, words::kinds(warmth).to_owned()));
    view! {
        <p class="edge soft">{words::ONLY_HINT}</p>
        {several(hand, at, words::CLASSES, classes.to_vec(), |step| &mut step.only.classes)}
        {several(hand, at, words::HABITS, habits.to_vec(), |step| &mut step.only.habits)}
        {several(hand, at, words::WARMTHS, warmths.to_vec(), |step| &mut step.only.warmths)}
        <Switch
            hand
            at
            label=words::ONLY_COLD
            get=|step| step.only.mean_below_mc.is_some()
            set=|step, on| step.only.mean_below_mc = on.then_some(15_000)
        />
        {mean(hand, at, words::COLD_BELOW, |step| &mut step.only.mean_below_mc)}
        <Switch
            hand
            at
            label=words::ONLY_WARM
            get=|step| step.only.mean_above_mc.is_some()
            set=|step, on| step.only.mean_above_mc = on.then_some(15_000)
        />
        {mean(hand, at, words::HOT_ABOVE, |step| &mut step.only.mean_above_mc)}
        <p class="edge soft">{words::MEAN_HINT}</p>
    }
}

/// The mean a step asks for, in whole degrees.
fn mean(
    hand: InHand,
    at: usize,
    label: &'static str,
    part: fn(&mut Step) -> &mut Option<i32>,
) -> impl IntoView {
    let step = hand.step(at);
    let mc = Memo::new(move |_| step.get().and_then(|mut step| *part(&mut step)));
    let there = Memo::new(move |_| mc.get().is_some());
    let count = Signal::derive(move || i64::from(mc.get().unwrap_or(0) / 1_000));
    let on_count = Callback::new(move |degrees: i64| {
        let mc = i32::try_from(degrees).unwrap_or(0).saturating_mul(1_000);
        hand.edit(at, |step| *part(step) = Some(mc));
    });
    move || {
        there.get().then(|| {
            view! {
                <Stepper
                    label
                    count
                    on_count
                    less_label=repot::one_less(label)
                    more_label=repot::one_more(label)
                    min=-20
                    max=50
                />
            }
        })
    }
}

/// Several of a few words.
fn several<T>(
    hand: InHand,
    at: usize,
    legend: &'static str,
    options: Vec<(T, String)>,
    part: fn(&mut Step) -> &mut Vec<T>,
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let step = hand.step(at);
    let keys = options.into_iter().map(move |(value, label)| {
        let on = move || {
            step.get()
                .is_some_and(|mut step| part(&mut step).contains(&value))
        };
        let flip = move |_| {
            hand.edit(at, |step| {
                let chosen = part(step);
                match chosen.iter().position(|it| *it == value) {
                    Some(place) => drop(chosen.remove(place)),
                    None => chosen.push(value),
                }
            });
        };
        view! {
            <button type="button" class="choose" aria-pressed=move || on().to_string() on:click=flip>
                {label}
            </button>
        }
    });
    view! {
        <div role="group" aria-label=legend>
            <p class="edge strong">{legend}</p>
            {keys.collect_view()}
        </div>
    }
}
