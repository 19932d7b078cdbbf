//! What changed on a lot: a sheet of what may have happened, then one small form, kept at every tap.

use leptos::prelude::*;
use velamen_core::draft::{DRAFT_VERSION, OpeningDraft};
use velamen_core::event::Event;
use velamen_core::id::LotId;
use velamen_core::lot_draft::{Change, ChangeDraft, ChangeFault};
use velamen_core::rejection::{Input, Rejection};

use super::lot_forms::ChangeForm;
use super::lot_parts::with_place;
use super::open_clump::OPENING;
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Glyph, PlainAction, Sheet};
use crate::words::{rejection, stock as words, told};

/// In the order they are tapped most.
const CHANGES: [Change; 9] = [
    Change::Move,
    Change::Count,
    Change::Sell,
    Change::Reserve,
    Change::Lose,
    Change::Split,
    Change::Gain,
    Change::PotOn,
    Change::Name,
];

/// Where in a form a refusal belongs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum At {
    #[default]
    Foot,
    Counts,
    /// Others are kept for somebody.
    Free,
    Place,
    Why,
    Price,
    Name,
}

/// A change in hand: the lot, the draft and what was refused.
#[derive(Clone, Copy, Debug)]
pub struct InHand {
    pub ledger: Ledger,
    pub lot: LotId,
    pub draft: Memo<ChangeDraft>,
    refused: RwSignal<(At, String)>,
}

impl InHand {
    fn key(self) -> String {
        format!("change-{}", self.lot)
    }

    /// Changes the draft; what was refused is no longer said.
    pub fn change(self, how: impl FnOnce(&mut ChangeDraft)) {
        self.refused.set((At::Foot, String::new()));
        self.ledger
            .change_draft(&self.key(), |draft: &mut ChangeDraft| {
                draft.version = DRAFT_VERSION;
                how(draft);
            });
    }

    /// One part of the draft, followed by itself.
    pub fn part<T>(self, get: fn(&ChangeDraft) -> T) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.draft.with(get))
    }

    /// The refusal that belongs here.
    pub fn refused(self, at: At) -> Signal<String> {
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

    /// Goes on with a change that was begun, or begins it.
    fn begin(self, what: Change) {
        let kept = self.draft.with_untracked(|draft| draft.what == Some(what));
        let fresh = self
            .ledger
            .look(|state, _| ChangeDraft::begin(state, self.lot, what));
        self.change(|draft| {
            if kept {
                draft.open = true
            } else {
                *draft = fresh
            }
        });
    }

    /// Records the change, a new place first where one was typed.
    pub fn record(self) {
        self.refused.set((At::Foot, String::new()));
        let place = self.draft.with_untracked(|draft| draft.place.clone());
        with_place(
            self.ledger,
            &place,
            move |place| self.change(|draft| draft.place.recorded(place)),
            move || self.decide(),
            move |no| self.refused.set((At::Place, no)),
        );
    }

    fn decide(self) {
        let draft: ChangeDraft = self.ledger.peek_draft(&self.key()).unwrap_or_default();
        let command = match self.ledger.look(|state, _| draft.command(state, self.lot)) {
            Ok(command) => command,
            Err(fault) => {
                self.refused
                    .set((place_of_fault(&fault), words::fault(&fault)));
                return;
            }
        };
        let (Some(command), Some(what)) = (command, draft.what) else {
            return;
        };
        let act = Act::new(command, told::done(words::change(what)))
            .ends_draft(self.key())
            .then(|decision| {
                if let Some(Event::LotSplit(split)) = decision.events.first() {
                    Route::Lot(split.lot).go();
                }
            });
        self.ledger
            .act(act.otherwise(move |no| self.refused.set((place_of(&no), rejection::say(&no)))));
    }
}

fn place_of_fault(fault: &ChangeFault) -> At {
    match fault {
        ChangeFault::NoPlace => At::Place,
        ChangeFault::NoCause => At::Why,
        ChangeFault::NotAPrice => At::Price,
        ChangeFault::Pot(_) => At::Foot,
    }
}

fn place_of(no: &Rejection) -> At {
    match no {
        Rejection::MoreThanFree { .. } => At::Free,
        Rejection::MoreThanThereAre { .. }
        | Rejection::TooMany { .. }
        | Rejection::Missing {
            input: Input::Plants,
        } => At::Counts,
        Rejection::BadName(_)
        | Rejection::BadText {
            input: Input::Name, ..
        } => At::Name,
        Rejection::NothingToDo => At::Place,
        _ => At::Foot,
    }
}

/// What the sheet shows.
#[derive(Clone, Copy, PartialEq)]
enum Shown {
    Nothing,
    Menu,
    Form(Change),
}

/// The sheet of changes.
#[component]
pub fn ChangeSheet(lot: LotId, menu: RwSignal<bool>) -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft_at::<ChangeDraft>(format!("change-{lot}"));
    let refused = RwSignal::new((At::Foot, String::new()));
    let hand = InHand {
        ledger,
        lot,
        draft,
        refused,
    };
    let shown = Memo::new(
        move |_| match draft.with(|draft| draft.what.filter(|_| draft.open)) {
            Some(what) => Shown::Form(what),
            None if menu.get() => Shown::Menu,
            None => Shown::Nothing,
        },
    );
    let open = Memo::new(move |_| shown.get() != Shown::Nothing);
    let title = Signal::derive(move || match shown.get() {
        Shown::Form(what) => words::change(what).to_owned(),
        Shown::Menu | Shown::Nothing => words::CHANGE_WHAT.to_owned(),
    });
    let close = Callback::new(move |()| {
        menu.set(false);
        if draft.with_untracked(|draft| draft.open) {
            hand.change(|draft| draft.open = false);
        }
    });
    view! {
        <Sheet open on_close=close title close_label=told::close()>
            {move || match shown.get() {
                Shown::Nothing => ().into_any(),
                Shown::Menu => view! { <Menu hand menu /> }.into_any(),
                Shown::Form(what) => view! { <ChangeForm hand what /> }.into_any(),
            }}
        </Sheet>
    }
}

#[component]
fn Menu(hand: InHand, menu: RwSignal<bool>) -> impl IntoView {
    let keys = CHANGES
        .into_iter()
        .map(|what| {
            let press = Callback::new(move |()| {
                menu.set(false);
                hand.begin(what);
            });
            view! { <PlainAction label=words::change(what).to_owned() on_press=press /> }
        })
        .collect_view();
    let bench = Callback::new(move |()| {
        menu.set(false);
        let lot = hand.lot;
        hand.ledger
            .change_draft(OPENING, |draft: &mut OpeningDraft| {
                if !draft.lots.contains(&lot) {
                    draft.lots.push(lot);
                }
            });
        Route::OpenClump.go();
    });
    view! {
        <div class="grid">{keys}</div>
        <div class="form">
            <PlainAction label=words::TO_THE_BENCH.to_owned() glyph=Glyph::Repot on_press=bench />
        </div>
    }
}
