//! Writing down a treatment that was done. No rate is worked out here.

use leptos::prelude::*;
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::event::{AgentClass, Method};
use velamen_core::treat_draft::{TreatDraft, TreatFault};
use velamen_core::view::treat::bare_pieces;

use super::lot_parts::{Count, Refusal, one_of};
use super::pick_plants::{PickLots, PickPieces};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Field, MainAction, Screen, Toggle, TopBack};
use crate::words::{book, rejection, rooms, told, treat as words};

const DRAFT: &str = "treat";
const METHODS: [Method; 6] = [
    Method::Bath,
    Method::Plunge,
    Method::Drench,
    Method::Spray,
    Method::Swab,
    Method::DustCut,
];

/// What is missing, and its sentence; with no fault it is a refusal of the whole.
type Refused = RwSignal<(Option<TreatFault>, String)>;

#[derive(Clone, Copy)]
struct InHand {
    ledger: Ledger,
    draft: Memo<TreatDraft>,
    refused: Refused,
}

impl InHand {
    fn change(self, how: impl FnOnce(&mut TreatDraft)) {
        self.refused.set((None, String::new()));
        self.ledger.change_draft(DRAFT, |draft: &mut TreatDraft| {
            draft.version = DRAFT_VERSION;
            how(draft);
        });
    }

    fn part<T>(self, get: fn(&TreatDraft) -> T) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.draft.with(get))
    }

    fn refused_at(self, at: Option<TreatFault>) -> Signal<String> {
        Signal::derive(move || {
            self.refused.with(|(here, words)| {
                if *here == at {
                    words.clone()
                } else {
                    String::new()
                }
            })
        })
    }

    fn record(self) {
        let draft = self.draft.get_untracked();
        match self
            .ledger
            .look(|state, at| draft.command(state, at.now_ms))
        {
            Ok(command) => {
                let act = Act::new(command, told::done(words::ADDED))
                    .ends_draft(DRAFT)
                    .then(|_| Route::Treat.replace());
                let refused = self.refused;
                self.ledger
                    .act(act.otherwise(move |no| refused.set((None, rejection::say(&no)))));
            }
            Err(fault) => self
                .refused
                .set((Some(fault), words::fault(fault).to_owned())),
        }
    }
}

/// The screen.
#[component]
pub fn TreatRecord() -> impl IntoView {
    let back = || view! { <TopBack href=Route::Treat.href() label=rooms::back_to(rooms::TREAT) /> };
    view! {
        <Screen title=words::RECORD back notice=notices rooms=|| room_bar(Route::Treat)>
            <TreatForm />
        </Screen>
    }
}

#[component]
fn TreatForm() -> impl IntoView {
    let ledger = Ledger::here();
    let hand = InHand {
        ledger,
        draft: ledger.draft::<TreatDraft>(DRAFT),
        refused: RwSignal::new((None, String::new())),
    };
    let product = hand.part(|draft| draft.product.clone());
    let rate = hand.part(|draft| draft.rate_typed.clone());
    let note = hand.part(|draft| draft.note.clone());
    let preventing = hand.part(|draft| draft.preventing);
    let against = hand.part(|draft| draft.against);
    let agents = AgentClass::ALL
        .map(|agent| (Some(agent), words::agent(agent).to_owned()))
        .to_vec();
    let press = Callback::new(move |()| hand.record());
    view! {
        <p class="edge soft">{words::RECORD_HINT}</p>
        <What hand />
        <div class="form">
            <Field
                label=words::PRODUCT
                hint=words::PRODUCT_HINT
                value=product
                on_input=Callback::new(move |product| hand.change(|draft| draft.product = product))
                error=hand.refused_at(Some(TreatFault::NoProduct))
                max_chars=200
            />
            <Field
                label=words::RATE
                hint=words::RATE_HINT
                value=rate
                on_input=Callback::new(move |rate| hand.change(|draft| draft.rate_typed = rate))
                max_chars=200
            />
            {one_of(words::AGAINST, agents, against.into(), move |agent| hand.change(|draft| draft.against = agent))}
            <Refusal words=hand.refused_at(Some(TreatFault::NoAgent)) />
            <Toggle
                label=words::PREVENTING
                on=preventing
                on_switch=Callback::new(move |on: bool| hand.change(|draft| draft.preventing = on))
                on_word=words::YES
                off_word=words::NO
            />
        </div>
        <How hand />
        <div class="form">
            <Field
                label=words::NOTE
                value=note
                on_input=Callback::new(move |note| hand.change(|draft| draft.note = note))
                max_chars=4000
            />
            <Refusal words=hand.refused_at(None) />
            <MainAction label=words::ADD.to_owned() on_press=press busy=ledger.busy() />
        </div>
    }
}

/// Pieces lying bare, and lots found by name.
#[component]
fn What(hand: InHand) -> impl IntoView {
    let any = hand.ledger.ask(|state, _| !bare_pieces(state).is_empty());
    view! {
        {move || any.get().then(|| view! { <p class="edge strong">{words::BARE}</p> })}
        <PickPieces
            chosen=hand.part(|draft| draft.pieces.clone())
            on_flip=Callback::new(move |(clump, class)| hand.change(|draft| draft.switch_pieces(clump, class)))
        />
        <PickLots
            label=words::WHAT
            search=hand.part(|draft| draft.search.clone())
            on_search=Callback::new(move |search| hand.change(|draft| draft.search = search))
            chosen=hand.part(|draft| draft.lots.clone())
            on_flip=Callback::new(move |lot| hand.change(|draft| draft.switch_lot(lot)))
            refused=hand.refused_at(Some(TreatFault::NothingTreated))
        />
    }
}

#[component]
fn How(hand: InHand) -> impl IntoView {
    let method = hand.part(|draft| draft.method);
    let methods = METHODS
        .map(|method| (Some(method), book::method(method).to_owned()))
        .to_vec();
    let soaks = hand.part(TreatDraft::soaks);
    let soak = Signal::derive(move || i64::from(hand.draft.with(|draft| draft.soak_min)));
    let reentry = Signal::derive(move || {
        hand.draft
            .with(|draft| i64::from(draft.reentry_h.unwrap_or(0)))
    });
    let reentry_hint = Signal::derive(move || {
        let typed = hand.draft.with(|draft| draft.reentry_h.is_some());
        if typed {
            words::REENTRY_HINT.to_owned()
        } else {
            words::REENTRY_NOT_SAID.to_owned()
        }
    });
    view! {
        <div class="form">
            {one_of(words::METHOD, methods, method.into(), move |method| hand.change(|draft| draft.method = method))}
            <Refusal words=hand.refused_at(Some(TreatFault::NoMethod)) />
        </div>
        {move || soaks.get().then(|| view! {
            <Count
                label=words::SOAKED
                count=soak
                on_count=Callback::new(move |count| hand.change(|draft| draft.soak_min = u32::try_from(count).unwrap_or(0)))
            />
        })}
        <Count
            label=words::REENTRY
            hint=reentry_hint
            count=reentry
            unknown=Signal::derive(move || hand.draft.with(|draft| draft.reentry_h.is_none()))
            on_count=Callback::new(move |count| hand.change(|draft| draft.reentry_h = u32::try_from(count).ok()))
        />
    }
}
