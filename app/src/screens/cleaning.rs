//! A bath of disinfectant in hand, resumed at the step it stopped at; its first step, from the bottle to the mixture.

use leptos::prelude::*;
use velamen_core::clean::{CleanFault, CleanStep, CleaningDraft, weighed_whole};
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::event::{Material, Object, Stage};
use velamen_core::id::Subject;
use velamen_core::limits::SOAK_S_MAX;
use velamen_core::quantity::Unit;
use velamen_core::reference::sanitizers::{self, Means};
use velamen_core::view::wash::wash;

use super::cleaning_lie::{lie, load};
use super::lot_parts::{Count, Refusal, one_of};
use super::mixing::never_after;
use super::own_units;
use super::wash::{Never, Poisons};
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{Amount, Field, Keys, MainAction, PlainAction, Screen, Slat, Toggle, TopBack};
use crate::words::format::{self, sign};
use crate::words::{bath, clean as words, rooms, treat, virus};

/// Under what the drafts are kept.
const CLEANINGS: &str = "cleaning-";

/// Key of one draft.
pub(super) fn draft_key(number: u32) -> String {
    format!("{CLEANINGS}{number}")
}

/// What the steps share.
#[derive(Clone, Copy)]
pub(super) struct Trough {
    pub(super) ledger: Ledger,
    pub(super) number: u32,
    pub(super) draft: Memo<CleaningDraft>,
    pub(super) fault: RwSignal<Option<CleanFault>>,
}

impl Trough {
    /// Changes the draft and keeps it; what was in the way is looked at anew.
    pub(super) fn change(self, how: impl FnOnce(&mut CleaningDraft)) {
        let _ = self.fault.try_set(None);
        self.ledger
            .change_draft(&draft_key(self.number), |draft: &mut CleaningDraft| {
                draft.version = DRAFT_VERSION;
                how(draft);
            });
    }

    pub(super) fn part<T>(self, get: fn(&CleaningDraft) -> T) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.draft.with(get))
    }

    /// The sentence for a fault of that kind; empty when there is none.
    pub(super) fn says(self, of: fn(&CleanFault) -> bool) -> Signal<String> {
        Signal::derive(move || {
            self.fault
                .with(|fault| fault.as_ref().filter(|fault| of(fault)).map(words::fault))
                .unwrap_or_default()
        })
    }

    pub(super) fn back(self) -> impl IntoView {
        view! { <TopBack href=Route::Wash.href() label=rooms::back_to(words::WASH) /> }
    }

    /// "Pots · Chlorine (bleach)".
    pub(super) fn over(self) -> Signal<String> {
        Signal::derive(move || {
            self.draft.with(|draft| {
                let with = draft.agent().map(|agent| words::agent(agent.key));
                let what = words::object(draft.object).to_owned();
                [Some(what), with]
                    .into_iter()
                    .flatten()
                    .collect::<Vec<_>>()
                    .join(" · ")
            })
        })
    }

    /// Throws it away and leaves.
    pub(super) fn end(self) {
        self.ledger.drop_draft(&draft_key(self.number));
        Route::Wash.replace();
    }
}

/// The screen.
#[component]
pub fn Cleaning(number: u32) -> impl IntoView {
    let ledger = Ledger::here();
    let trough = Trough {
        ledger,
        number,
        draft: ledger.draft_at::<CleaningDraft>(draft_key(number)),
        fault: RwSignal::new(None),
    };
    let step = trough.part(|draft| draft.step);
    move || match step.get() {
        CleanStep::Make => make(trough).into_any(),
        CleanStep::Load => load(trough).into_any(),
        CleanStep::Contact => lie(trough).into_any(),
    }
}

/// Cleanings in hand on this phone, oldest first.
pub(crate) fn in_hand(ledger: Ledger) -> Vec<(u32, CleaningDraft)> {
    let mut known: Vec<(u32, CleaningDraft)> = ledger
        .drafts_under(CLEANINGS)
        .into_iter()
        .filter_map(|(key, text)| {
            let number = key.strip_prefix(CLEANINGS)?.parse().ok()?;
            Some((number, velamen_core::draft::read(&text)?))
        })
        .collect();
    known.sort_by_key(|(number, _)| *number);
    known
}

/// What is to be cleaned.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wanted {
    pub(super) object: Object,
    pub(super) apart: Option<Subject>,
}

/// Goes to a cleaning of that: the mixture that stands, or a new one, with all that is washed put in.
pub(super) fn to_a_cleaning(ledger: Ledger, wanted: Wanted) {
    let known = untrack(|| in_hand(ledger));
    let standing = known.iter().find(|(_, draft)| {
        draft.object == wanted.object && draft.apart == wanted.apart && draft.soak.is_none()
    });
    let number = standing.map_or_else(
        || {
            let taken = |number: &u32| known.iter().any(|(known, _)| known == number);
            (1..).find(|number| !taken(number)).unwrap_or(1)
        },
        |(number, _)| *number,
    );
    let ready = washed(ledger, wanted);
    ledger.change_draft(&draft_key(number), |draft: &mut CleaningDraft| {
        draft.version = DRAFT_VERSION;
        draft.object = wanted.object;
        draft.apart = wanted.apart;
        draft.load = ready;
    });
    Route::Cleaning(number).go();
}

/// What stands washed of that kind.
pub(super) fn washed(ledger: Ledger, wanted: Wanted) -> Vec<Material> {
    let stone = wanted.object == Object::Stone;
    if !stone && wanted.object != Object::Pots {
        return Vec::new();
    }
    ledger.look(|state, _| {
        let view = wash(state);
        let stages = match wanted.apart {
            None => view.stages,
            Some(source) => view
                .apart
                .into_iter()
                .find(|row| row.source == source)
                .map(|row| row.stages)
                .unwrap_or_default(),
        };
        let washed = stages.into_iter().filter(|row| row.stage == Stage::Washed);
        let piles = washed.flat_map(|row| row.piles).map(|pile| pile.material);
        piles
            .filter(|material| material.is_stone() == stone)
            .collect()
    })
}

/// Step one: with what, from which bottle, how much water.
fn make(trough: Trough) -> impl IntoView {
    let diluted = Memo::new(move |_| {
        trough.draft.with(|draft| {
            draft.agent().is_some_and(|agent| {
                matches!(agent.means, Means::Liquid { .. } | Means::Powder { .. })
            })
        })
    });
    let made = Callback::new(move |()| {
        let mut draft = trough.draft.get_untracked();
        match draft.made(trough.ledger.moment().now_ms) {
            Err(fault) => trough.fault.set(Some(fault)),
            Ok(()) => trough.change(|kept| *kept = draft),
        }
    });
    let give_up = Callback::new(move |()| trough.end());
    let label = Signal::derive(move || {
        let words = if diluted.get() {
            words::MADE
        } else {
            words::HEATED
        };
        words.to_owned()
    });
    let actions = move || {
        view! {
            <PlainAction label=words::GIVE_UP.to_owned() on_press=give_up />
            <MainAction label on_press=made />
        }
    };
    let bottle = move || diluted.get().then(|| view! { <Bottle trough /> });
    let over = trough.over();
    let agent = trough.part(|draft| {
        let agent = draft.agent();
        agent.map(|agent| agent.key.to_owned()).unwrap_or_default()
    });
    view! {
        <Screen title=words::DISINFECT over back=move || trough.back() actions notice=notices rooms=|| room_bar(Route::Book)>
            <With trough />
            {never_after(agent)}
            <Safety trough />
            {bottle}
            <Contact trough />
            <p class="edge strong">{words::LABEL_LAW}</p>
            <Never />
        </Screen>
    }
}

/// The agents that serve, what the chosen one reaches, and whether a virus is suspected.
#[component]
fn With(trough: Trough) -> impl IntoView {
    let object = trough.draft.get_untracked().object;
    let apart = trough.part(|draft| draft.apart.is_some());
    let agents = move || {
        let mut keys = words::agents_for(object);
        if apart.get() {
            keys.retain(|key| sanitizers::agent(key).is_some_and(sanitizers::Agent::frees));
            if keys.is_empty() {
                keys.push("oven");
            }
        }
        let rows = keys
            .into_iter()
            .map(|key| (key.to_owned(), words::agent(key)))
            .collect();
        let chosen = Signal::derive(move || {
            trough.draft.with(|draft| {
                draft
                    .agent()
                    .map(|agent| agent.key.to_owned())
                    .unwrap_or_default()
            })
        });
        one_of(words::WITH, rows, chosen, move |key: String| {
            trough.change(|draft| {
                draft.agent = key;
                draft.contact_s = None;
            });
        })
    };
    let reaches = move || trough.draft.with(|draft| draft.agent().map(words::reaches));
    let short = move || {
        let short = trough.draft.with(CleaningDraft::falls_short);
        short.then(|| view! { <p class="warn" role="alert">{virus::FALLS_SHORT}</p> })
    };
    // A blade carries sap from clump to clump whether or not anybody suspects it.
    let weak = move || {
        trough.draft.with(|draft| {
            let asked = draft.object == Object::Tools || draft.suspected();
            let agent = draft
                .agent()
                .filter(|_| asked && draft.too_weak_for_virus())?;
            Some(view! { <p class="warn" role="alert">{virus::reaches_from(agent)}</p> })
        })
    };
    let suspect = trough.part(|draft| draft.suspect);
    let asks = move || {
        (!apart.get()).then(|| {
            view! {
                <Toggle
                    label=words::SUSPECT
                    on=suspect
                    on_switch=Callback::new(move |on: bool| trough.change(|draft| {
                        draft.suspect = on;
                        draft.contact_s = None;
                    }))
                    on_word=treat::YES
                    off_word=treat::NO
                />
            }
        })
    };
    view! {
        <div class="form">
            {asks}
            {agents}
            <p class="soft">{reaches}</p>
        </div>
        {short}
        {weak}
    }
}

/// What to mind with it, before it is opened.
#[component]
fn Safety(trough: Trough) -> impl IntoView {
    let rows = move || {
        let chlorine = trough.draft.with(|draft| {
            draft
                .agent()
                .is_some_and(|agent| agent.key.starts_with("chlorine"))
        });
        if chlorine {
            return words::CAUTIONS
                .map(|row| view! { <li>{row}</li> })
                .into_iter()
                .collect_view();
        }
        let minds = trough
            .draft
            .with(|draft| draft.agent().map(|agent| agent.mind).unwrap_or_default());
        minds
            .iter()
            .map(|mind| view! { <li>{words::mind(*mind)}</li> })
            .collect_view()
    };
    view! {
        <ul class="before-it">{rows}</ul>
        <Poisons />
    }
}

/// The strength on the bottle, the bath, and what it comes to.
#[component]
fn Bottle(trough: Trough) -> impl IntoView {
    let stock = trough.part(|draft| draft.stock.clone());
    let strength = trough.part(|draft| draft.strength.clone());
    let litres = trough.part(|draft| draft.bath.litres.clone());
    let typed = Memo::new(move |_| {
        trough
            .draft
            .with(|draft| draft.agent().is_some_and(|agent| !weighed_whole(agent)))
    });
    let hint = move || {
        trough
            .draft
            .with_untracked(|draft| draft.agent().map(words::stock_hint).unwrap_or_default())
    };
    let usual = move || {
        let ppm = trough.draft.with(|draft| draft.wanted_ppm());
        ppm.ok().flatten().map(words::usual)
    };
    let bottle =
        move || {
            typed.get().then(|| view! {
            <Field
                label=words::STOCK
                hint=hint()
                value=stock
                on_input=Callback::new(move |text| trough.change(|draft| draft.stock = text))
                error=trough.says(|fault| matches!(fault, CleanFault::Dilution(_)))
                unit="%"
                keys=Keys::Decimal
                max_chars=24
            />
        })
        };
    view! {
        <div class="form">
            {bottle}
            <Field
                label=bath::litres()
                value=own_units::shown(litres, Unit::Litre)
                on_input=Callback::new(move |text| {
                    let text = own_units::typed(text, Unit::Litre);
                    trough.change(|draft| draft.bath.litres = text);
                })
                error=trough.says(|fault| matches!(fault, CleanFault::Bath(_)))
                unit=sign(Unit::Litre)
                keys=Keys::Decimal
                max_chars=24
            />
            <Field
                label=words::STRENGTH
                value=strength
                on_input=Callback::new(move |text| trough.change(|draft| draft.strength = text))
                unit="%"
                keys=Keys::Decimal
                max_chars=24
            />
            <p class="soft">{usual}</p>
        </div>
        <Worked trough />
    }
}

/// What it comes to, as soon as it can be worked out.
#[component]
fn Worked(trough: Trough) -> impl IntoView {
    move || {
        let mixture = trough.draft.with(CleaningDraft::mixture).ok().flatten()?;
        let (figure, unit) = words::measured(mixture.stock);
        let unit = words::into_bath(unit, &format::litres_exact(mixture.bath));
        Some(view! {
            <Slat name=words::MEASURE />
            <div class="edge"><Amount value=figure unit /></div>
        })
    }
}

/// How long it lies.
#[component]
fn Contact(trough: Trough) -> impl IntoView {
    let minutes = Signal::derive(move || {
        i64::from(
            trough
                .draft
                .with(|draft| draft.wanted_s().unwrap_or(0))
                .div_ceil(60),
        )
    });
    let set = Callback::new(move |minutes: i64| {
        let seconds = u32::try_from(minutes.saturating_mul(60)).unwrap_or(SOAK_S_MAX);
        trough.change(|draft| draft.contact_s = Some(seconds.min(SOAK_S_MAX)));
    });
    view! {
        <Count label=words::CONTACT count=minutes on_count=set />
        <div class="form">
            <Refusal words=trough.says(|fault| matches!(fault, CleanFault::NoContact | CleanFault::ContactTooLong | CleanFault::NoAgent)) />
        </div>
    }
}
