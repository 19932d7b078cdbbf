//! The small forms of a lot's changes.

use leptos::prelude::*;
use velamen_core::event::{GainWhy, LossCause, PieceClass, SplitWhy};
use velamen_core::lot_draft::{Change, ChangeDraft};
use velamen_core::name::PlantName;
use velamen_core::view::shed;

use super::lot_change::{At, InHand};
use super::lot_parts::{Count, PlaceChoice, Refusal, one_of};
use super::lot_signs::LotSigns;
use super::reentry::LotBound;
use crate::ui::{DayField, Field, Keys, MainAction, PlainAction, Stake};
use crate::words::{repot, stock as words, trade};

const SPLITS: [SplitWhy; 4] = [
    SplitWhy::Sorted,
    SplitWhy::Moved,
    SplitWhy::Quarantined,
    SplitWhy::Ill,
];
const GAINS: [GainWhy; 4] = [
    GainWhy::Offshoot,
    GainWhy::CameApart,
    GainWhy::Returned,
    GainWhy::Found,
];

/// The form of one change, with the key that records it.
#[component]
pub fn ChangeForm(hand: InHand, what: Change) -> impl IntoView {
    let counts = match what {
        Change::Move | Change::Name => None,
        Change::PotOn => Some(view! { <Pots hand /> }.into_any()),
        Change::Reserve => Some(view! { <Plants hand what /> }.into_any()),
        _ => Some(view! { <Counts hand what /> }.into_any()),
    };
    let rest = match what {
        Change::Move => view! { <Place hand /> }.into_any(),
        Change::Split => view! { {why_split(hand)} <Place hand /> }.into_any(),
        Change::Lose => view! { {why_lost(hand)} <Note hand /> }.into_any(),
        Change::Sell => view! { {sell_anyway(hand)} <Sale hand /> <Note hand /> }.into_any(),
        Change::Reserve => view! { <Keep hand /> <Note hand /> }.into_any(),
        Change::Gain => view! { {why_gained(hand)} <Note hand /> }.into_any(),
        Change::PotOn => view! { <PotAndMix hand /> }.into_any(),
        Change::Name => view! { <Name hand /> }.into_any(),
        Change::Count => ().into_any(),
    };
    let press = Callback::new(move |()| hand.record());
    // A name is changed without touching the plant.
    let bound = (what != Change::Name).then(|| view! { <LotBound lot=hand.lot /> });
    let signs = (what == Change::Sell).then(|| view! { <LotSigns lot=hand.lot /> });
    view! {
        {bound}
        {signs}
        {counts}
        <div class="form">
            <Refusal words=hand.refused(At::Counts) />
            {rest}
            <Refusal words=hand.refused(At::Foot) />
        </div>
        <div class="actions">
            <MainAction label=words::record(what).to_owned() on_press=press busy=hand.ledger.busy() />
        </div>
    }
}

#[component]
fn Counts(hand: InHand, what: Change) -> impl IntoView {
    view! {
        <Plants hand what />
        <Pots hand />
    }
}

#[component]
fn Plants(hand: InHand, what: Change) -> impl IntoView {
    let plants = Signal::derive(move || i64::from(hand.draft.with(|draft| draft.plants)));
    let on_count = Callback::new(move |count: i64| {
        hand.change(|draft| {
            draft.plants = u32::try_from(count).unwrap_or(0);
            draft.anyway = false;
        });
    });
    let of = hand.ledger.ask({
        let lot = hand.lot;
        move |state, _| state.facts().lots.get(&lot).map_or(0, |lot| lot.plants)
    });
    // Where some of the lot are meant, how many there are stands beside.
    let some = matches!(
        what,
        Change::Sell | Change::Reserve | Change::Lose | Change::Split
    );
    let hint = Signal::derive(move || match some {
        true => repot::of_all(of.get()),
        false => String::new(),
    });
    view! { <Count label=words::how_many(what) hint count=plants on_count /> }
}

/// Whom they are kept for, and until when.
#[component]
fn Keep(hand: InHand) -> impl IntoView {
    let to = hand.part(|draft| draft.to.clone());
    let on_to = Callback::new(move |to| hand.change(|draft| draft.to = to));
    let until = hand.part(|draft| draft.until_on.map(|on| on.to_string()).unwrap_or_default());
    let on_day = Callback::new(move |on: String| {
        hand.change(|draft| draft.until_on = on.parse().ok());
    });
    view! {
        <Refusal words=hand.refused(At::Free) />
        <Field label=words::FOR_WHOM hint=words::FOR_WHOM_HINT value=to on_input=on_to max_chars=200 />
        <DayField label=words::UNTIL value=until on_day />
        <p class="small soft">{words::UNTIL_HINT}</p>
    }
}

/// More than are free were to be sold: said, and sold all the same only by a key of its own.
fn sell_anyway(hand: InHand) -> impl IntoView {
    let refused = hand.refused(At::Free);
    let kept = hand.part(|draft| draft.reserved.is_some());
    let press = Callback::new(move |()| {
        hand.change(|draft| draft.anyway = true);
        hand.record();
    });
    move || {
        let asked = refused.with(|said| !said.is_empty()) && !kept.get();
        let key = asked.then(|| {
            view! { <PlainAction label=words::SELL_ANYWAY.to_owned() on_press=press busy=hand.ledger.busy() /> }
        });
        view! { <Refusal words=refused /> {key} }
    }
}

#[component]
fn Pots(hand: InHand) -> impl IntoView {
    let stands = Signal::derive(move || i64::from(hand.draft.with(ChangeDraft::stands)));
    let hint = Signal::derive(move || {
        let follows = hand.draft.with(|draft| draft.stands.is_none());
        if follows {
            words::POTS_HINT.to_owned()
        } else {
            String::new()
        }
    });
    let on_count = Callback::new(move |count: i64| {
        hand.change(|draft| draft.stands = u32::try_from(count).ok())
    });
    view! { <Count label=words::POTS hint count=stands on_count /> }
}

#[component]
fn Place(hand: InHand) -> impl IntoView {
    let place = hand.part(|draft| draft.place.clone());
    let on_place = Callback::new(move |place| hand.change(|draft| draft.place = place));
    view! { <PlaceChoice place on_place error=hand.refused(At::Place) /> }
}

#[component]
fn Note(hand: InHand) -> impl IntoView {
    let note = hand.part(|draft| draft.note.clone());
    let on_input = Callback::new(move |note| hand.change(|draft| draft.note = note));
    view! { <Field label=words::NOTE hint=words::OPTIONAL value=note on_input tall=true max_chars=4000 /> }
}

fn why_split(hand: InHand) -> impl IntoView {
    let options = SPLITS
        .map(|why| (why, words::split_why(why).to_owned()))
        .to_vec();
    let chosen = hand.part(|draft| draft.split.unwrap_or(SplitWhy::Sorted));
    one_of(words::WHY, options, chosen.into(), move |why| {
        hand.change(|draft| draft.split = Some(why))
    })
}

fn why_lost(hand: InHand) -> impl IntoView {
    let options = LossCause::ALL
        .map(|cause| (Some(cause), trade::cause(cause).to_owned()))
        .to_vec();
    let chosen = hand.part(|draft| draft.cause);
    view! {
        {one_of(words::WHY, options, chosen.into(), move |cause| hand.change(|draft| draft.cause = cause))}
        <Refusal words=hand.refused(At::Why) />
    }
}

fn why_gained(hand: InHand) -> impl IntoView {
    let options = GAINS
        .map(|why| (why, words::gain_why(why).to_owned()))
        .to_vec();
    let chosen = hand.part(|draft| draft.gain.unwrap_or(GainWhy::Offshoot));
    one_of(words::WHY, options, chosen.into(), move |why| {
        hand.change(|draft| draft.gain = Some(why))
    })
}

#[component]
fn Sale(hand: InHand) -> impl IntoView {
    let to = hand.part(|draft| draft.to.clone());
    let price = hand.part(|draft| draft.price_typed.clone());
    let on_to = Callback::new(move |to| hand.change(|draft| draft.to = to));
    let on_price = Callback::new(move |price| hand.change(|draft| draft.price_typed = price));
    let whom = move || {
        if hand.draft.with(|draft| draft.reserved.is_some()) {
            let said = words::out_of_kept(&to.get());
            return view! { <p class="strong">{said}</p> }.into_any();
        }
        view! {
            <Field label=words::TO_WHOM hint=words::OPTIONAL value=to on_input=on_to max_chars=200 />
        }
        .into_any()
    };
    view! {
        {whom}
        <Field
            label=words::PRICE
            hint=words::OPTIONAL
            value=price
            on_input=on_price
            error=hand.refused(At::Price)
            keys=Keys::Decimal
            max_chars=15
        />
    }
}

#[component]
fn Name(hand: InHand) -> impl IntoView {
    let typed = hand.part(|draft| draft.name_typed.clone());
    let on_input = Callback::new(move |typed| hand.change(|draft| draft.name_typed = typed));
    let label = move || {
        let name = typed.with(|typed| PlantName::from_typed(typed));
        view! { <Stake name=trade::name_runs(&name) large=true /> }
    };
    view! {
        <Field label=words::NAME hint=words::NAME_HINT value=typed on_input error=hand.refused(At::Name) max_chars=200 />
        <div class="on-label" aria-live="polite">{label}</div>
    }
}

#[component]
fn PotAndMix(hand: InHand) -> impl IntoView {
    let (pots, mixes) = hand
        .ledger
        .look(|state, _| (shed::pots(state), shed::mixes(state)));
    let pots = pots.into_iter().map(|row| (Some(row.pot), row.name));
    let mixes = mixes.into_iter().map(|row| (Some(row.mix), row.name));
    let pots = [(None, words::NOT_SAID.to_owned())]
        .into_iter()
        .chain(pots)
        .collect();
    let mixes = [(None, words::NOT_SAID.to_owned())]
        .into_iter()
        .chain(mixes)
        .collect();
    let kept = [PieceClass::Flowering, PieceClass::Starter];
    let classes = kept.map(|class| (Some(class), trade::class(class).to_owned()));
    let classes = [(None, words::CLASS_SAME.to_owned())]
        .into_iter()
        .chain(classes)
        .collect();
    let pot = hand.part(|draft| draft.pot);
    let mix = hand.part(|draft| draft.mix);
    let class = hand.part(|draft| draft.class);
    view! {
        {one_of(words::POT, pots, pot.into(), move |pot| hand.change(|draft| draft.pot = pot))}
        {one_of(words::MIX, mixes, mix.into(), move |mix| hand.change(|draft| draft.mix = mix))}
        {one_of(words::CLASS, classes, class.into(), move |class| hand.change(|draft| draft.class = class))}
        <p class="small soft">{words::AT_POTTING}</p>
    }
}
