//! A bath in hand, resumed at the step it stopped at.

use leptos::prelude::*;
use velamen_core::apply::Mixing;
use velamen_core::bath::{BathDraft, BathFault, BathStep};
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::event::{AgentClass, Method, PieceClass};
use velamen_core::id::{ClumpId, FindingId, LotId};
use velamen_core::rotation::Target;

use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::lot_parts::each_step_from_its_top;
use crate::screens::mixing::Hand;
use crate::screens::{bath_load, bath_mix, bath_soak};
use crate::ui::TopBack;
use crate::words::{bath as words, rooms};

/// Under what the drafts of baths are kept.
pub const BATHS: &str = "bath-";

/// Key of a bath's draft.
pub(super) fn draft_key(number: u32) -> String {
    format!("{BATHS}{number}")
}

/// What the steps of one bath share.
#[derive(Clone, Copy)]
pub(super) struct Tub {
    pub(super) ledger: Ledger,
    pub(super) number: u32,
    pub(super) draft: Memo<BathDraft>,
    /// What is in the way, shown where it is.
    pub(super) fault: RwSignal<Option<BathFault>>,
}

impl Tub {
    /// Changes the draft and keeps it; what was in the way is looked at anew.
    pub(super) fn change(self, how: impl FnOnce(&mut BathDraft)) {
        let _ = self.fault.try_set(None);
        self.ledger
            .change_draft(&draft_key(self.number), |draft: &mut BathDraft| {
                draft.version = DRAFT_VERSION;
                how(draft);
            });
    }

    pub(super) fn part<T>(self, get: fn(&BathDraft) -> T) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.draft.with(get))
    }

    /// The sentence for a fault of that kind; empty when there is none.
    pub(super) fn says(self, of: fn(&BathFault) -> bool) -> Signal<String> {
        Signal::derive(move || {
            self.fault
                .with(|fault| fault.as_ref().filter(|fault| of(fault)).map(words::fault))
                .unwrap_or_default()
        })
    }

    /// The mixing part of it.
    pub(super) fn mixing(self) -> Hand {
        Hand {
            ledger: self.ledger,
            method: Signal::stored(Method::Bath),
            mixing: self.part(|draft| draft.mixing.clone()),
            amount: Memo::new(move |_| {
                let draft = self.draft.get();
                let mixture = self.ledger.follow(|state, _| draft.mixture(state));
                mixture.ok().map(|mixture| mixture.amount)
            }),
            fault: Signal::derive(move || match self.fault.get() {
                Some(BathFault::Mix(fault)) => Some(fault),
                _ => None,
            }),
            change: Callback::new(move |how: Box<dyn FnOnce(&mut Mixing)>| {
                self.change(|draft| how(&mut draft.mixing));
            }),
        }
    }

    /// Whether the mixture is to be thrown out and takes nothing healthy any more.
    pub(super) fn thrown_out(self) -> Memo<bool> {
        Memo::new(move |_| {
            let draft = self.draft.get();
            self.ledger
                .follow(|_, at| !draft.throw_out(at.today, at.off_min).is_empty())
        })
    }

    /// What was chosen to go in, as what has a history.
    pub(super) fn targets(self) -> Memo<Vec<Target>> {
        Memo::new(move |_| {
            let draft = self.draft.get();
            self.ledger.follow(|state, _| draft.targets(state))
        })
    }

    pub(super) fn back(self) -> impl IntoView {
        view! { <TopBack href=Route::Treat.href() label=rooms::back_to(rooms::TREAT) /> }
    }

    /// Throws the bath away and leaves.
    pub(super) fn end(self) {
        self.ledger.drop_draft(&draft_key(self.number));
        Route::Treat.replace();
    }
}

/// The screen.
#[component]
pub fn Bath(number: u32) -> impl IntoView {
    let ledger = Ledger::here();
    let tub = Tub {
        ledger,
        number,
        draft: ledger.draft_at::<BathDraft>(draft_key(number)),
        fault: RwSignal::new(None),
    };
    let step = tub.part(|draft| draft.step);
    each_step_from_its_top(step);
    move || match step.get() {
        BathStep::Mix => bath_mix::mix(tub).into_any(),
        BathStep::Safety => bath_mix::safety(tub).into_any(),
        BathStep::Load => bath_load::load(tub).into_any(),
        BathStep::Soak => bath_soak::soak(tub).into_any(),
    }
}

/// Baths in hand on this phone, oldest first.
pub(crate) fn in_hand(ledger: Ledger) -> Vec<(u32, BathDraft)> {
    let mut baths: Vec<(u32, BathDraft)> = ledger
        .drafts_under(BATHS)
        .into_iter()
        .filter_map(|(key, text)| {
            let number = key.strip_prefix(BATHS)?.parse().ok()?;
            Some((number, velamen_core::draft::read(&text)?))
        })
        .collect();
    baths.sort_by_key(|(number, _)| *number);
    baths
}

/// What the pieces of a clump are to be bathed for.
#[derive(Clone, Debug, Default)]
pub(super) struct Wanted {
    pub(super) pieces: Vec<(ClumpId, PieceClass)>,
    pub(super) lots: Vec<LotId>,
    pub(super) finding: Option<FindingId>,
    pub(super) against: Option<AgentClass>,
}

/// Goes to a bath that takes these: the mixture that stands, or a new one.
pub(super) fn to_a_bath(ledger: Ledger, wanted: Wanted) {
    let baths = untrack(|| in_hand(ledger));
    let at = ledger.moment();
    let takes_more = |draft: &BathDraft| {
        draft.step == BathStep::Load && draft.throw_out(at.today, at.off_min).is_empty()
    };
    let standing = baths
        .iter()
        .find(|(_, draft)| takes_more(draft))
        .map(|(number, _)| *number);
    let number = standing.unwrap_or_else(|| {
        let taken = |number: &u32| baths.iter().any(|(known, _)| known == number);
        (1..).find(|number| !taken(number)).unwrap_or(1)
    });
    ledger.change_draft(&draft_key(number), |draft: &mut BathDraft| {
        draft.version = DRAFT_VERSION;
        for piece in wanted.pieces {
            if !draft.pieces.contains(&piece) {
                draft.pieces.push(piece);
            }
        }
        for lot in wanted.lots {
            if !draft.lots.contains(&lot) {
                draft.lots.push(lot);
            }
        }
        let mixing = &mut draft.mixing;
        mixing.finding = mixing.finding.or(wanted.finding);
        mixing.against = mixing.against.or(wanted.against);
        if standing.is_none() && wanted.finding.is_none() && !draft.pieces.is_empty() {
            draft.mixing.preventing = true;
        }
    });
    Route::Bath(number).go();
}
