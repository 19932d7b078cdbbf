//! The first repot, led: on a clump of the grower's own, at each step a sentence of what the hands do and one of what the
//! book asks, with the drawings a tap away. It is offered until a clump was finished, and put away at any time.

use leptos::prelude::*;
use velamen_core::event::PieceClass;
use velamen_core::first_draft::{FirstDraft, Led, none_finished};

use super::cards::card;
use super::cards_drawn as drawn;
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::drawing::sketch::Sketch;
use crate::ui::{MainAction, PlainAction, Sheet};
use crate::words::{cards, first_repot as words, told};

/// Key of its draft.
pub(super) const FIRST: &str = "first_repot";

/// Where on the way one is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Pieces lie bare, or a clump stands open: that comes first.
    Bare,
    GoOn,
    Clean,
    Bring,
    Open,
    Pieces,
    Pots(PieceClass),
    Labels,
}

type Card = (Sketch, cards::Words);

impl Step {
    fn said(self) -> words::Led {
        match self {
            Self::Bare => words::BARE,
            Self::GoOn => words::GO_ON,
            Self::Clean => words::CLEAN,
            Self::Bring => words::BRING,
            Self::Open => words::OPEN,
            Self::Pieces => words::PIECES,
            Self::Pots(PieceClass::BackBulb) => words::BACK_BULBS,
            Self::Pots(_) => words::POTS,
            Self::Labels => words::LABELS,
        }
    }

    fn cards(self) -> &'static [Card] {
        match self {
            Self::Clean | Self::GoOn => &[],
            Self::Bare => &[(drawn::WAY, cards::WAY), (drawn::SHORT, cards::SHORT)],
            Self::Bring | Self::Open => &[(drawn::SPIKE, cards::SPIKE), (drawn::LEAF, cards::LEAF)],
            Self::Pieces => &[(drawn::CUT, cards::CUT), (drawn::ROOTS, cards::ROOTS)],
            Self::Pots(PieceClass::BackBulb) => &[(drawn::BACK, cards::BACK)],
            Self::Pots(_) => &[(drawn::WAY, cards::WAY), (drawn::SHORT, cards::SHORT)],
            Self::Labels => &[(drawn::SHORT, cards::SHORT)],
        }
    }
}

/// How far it is, as long as no clump of the book is finished.
fn led(ledger: Ledger) -> Memo<Led> {
    let none = ledger.ask(|state, _| none_finished(state.facts()));
    let draft = ledger.draft::<FirstDraft>(FIRST);
    Memo::new(move |_| {
        if none.get() {
            draft.with(|draft| draft.led)
        } else {
            Led::Over
        }
    })
}

fn set(ledger: Ledger, led: Led) -> Callback<()> {
    Callback::new(move |()| ledger.keep_draft(FIRST, &FirstDraft::of(led)))
}

/// On the Repot room: the offer, and the way to the bench once it was taken.
#[component]
pub fn FirstRepot(
    /// What comes first in the room as it is.
    step: Memo<Step>,
) -> impl IntoView {
    let ledger = Ledger::here();
    let led = led(ledger);
    move || match led.get() {
        Led::Over => ().into_any(),
        Led::Offered => view! {
            <section class="card">
                <h2>{words::TITLE}</h2>
                <p>{words::OFFER}</p>
                <div class="pair">
                    <PlainAction label=words::NOT_NOW.to_owned() on_press=set(ledger, Led::Over) />
                    <MainAction label=words::BEGIN.to_owned() on_press=set(ledger, Led::UnderWay) />
                </div>
            </section>
        }
        .into_any(),
        Led::UnderWay => (move || sentence(ledger, step.get())).into_any(),
    }
}

/// At a step of the work: what the hands do now and what the book asks, while one is led.
pub(super) fn first_step(ledger: Ledger, step: Step) -> impl IntoView {
    let led = led(ledger);
    move || (led.get() == Led::UnderWay).then(|| sentence(ledger, step))
}

fn sentence(ledger: Ledger, step: Step) -> AnyView {
    let said = step.said();
    let open = RwSignal::new(false);
    let show = Callback::new(move |()| open.set(true));
    let close = Callback::new(move |()| open.set(false));
    let away = set(ledger, Led::Over);
    let drawings = move || {
        let one = |(sketch, words): &Card| card(*sketch, *words);
        step.cards().iter().map(one).collect_view()
    };
    let shown = (!step.cards().is_empty()).then(|| {
        view! {
            <button type="button" class="quiet" on:click=move |_| show.run(())>{words::SHOW}</button>
            <Sheet open on_close=close title=cards::TITLE close_label=told::close()>
                <p class="edge warn">{cards::CARE}</p>
                {drawings()}
            </Sheet>
        }
    });
    view! {
        <section class="card led">
            <h2 class="hidden-text">{words::TITLE}</h2>
            <p class="strong">{said.hands}</p>
            <p class="soft">{said.asks}</p>
            <div class="led-keys">
                {shown}
                <button type="button" class="quiet" on:click=move |_| away.run(())>{words::PUT_AWAY}</button>
            </div>
        </section>
    }
    .into_any()
}

/// From the cards back to being led, for who put it away.
#[component]
pub fn LeadMe() -> impl IntoView {
    let ledger = Ledger::here();
    let led = led(ledger);
    let none = ledger.ask(|state, _| none_finished(state.facts()));
    let begin = set(ledger, Led::UnderWay);
    move || {
        let offered = none.get() && led.get() != Led::UnderWay;
        offered.then(|| {
            let go = Callback::new(move |()| {
                begin.run(());
                Route::Repot.go();
            });
            view! {
                <div class="form">
                    <p>{words::OFFER}</p>
                    <PlainAction label=words::BEGIN.to_owned() on_press=go />
                </div>
            }
        })
    }
}
