//! A drench, a spray, a swab or a dusting in hand, resumed at the step it stopped at.

use leptos::prelude::*;
use velamen_core::apply::{ApplyDraft, ApplyFault, ApplyStep, Measured, Mixing};
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::event::{Event, Method};
use velamen_core::id::LotId;
use velamen_core::rotation::Target;
use velamen_core::time::minute_of_day;

use super::apply_mix::mix;
use super::apply_what::what;
use super::bath::{Wanted, to_a_bath};
use super::lot_parts::{Refusal, each_step_from_its_top};
use super::mixing::{Hand, before_it};
use super::mixing_pair::with_next;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger, ToldKind};
use crate::route::Route;
use crate::ui::{MainAction, PlainAction, Screen, TopBack};
use crate::words::{apply as words, bath, format, rejection, rooms, told};

/// Under what the draft is kept.
pub(super) const DRAFT: &str = "apply";

/// What the steps share.
#[derive(Clone, Copy)]
pub(super) struct Work {
    pub(super) ledger: Ledger,
    pub(super) draft: Memo<ApplyDraft>,
    /// What is in the way, shown where it is.
    pub(super) fault: RwSignal<Option<ApplyFault>>,
}

impl Work {
    /// Changes the draft and keeps it; what was in the way is looked at anew.
    pub(super) fn change(self, how: impl FnOnce(&mut ApplyDraft)) {
        let _ = self.fault.try_set(None);
        self.ledger.change_draft(DRAFT, |draft: &mut ApplyDraft| {
            draft.version = DRAFT_VERSION;
            how(draft);
        });
    }

    pub(super) fn part<T>(self, get: fn(&ApplyDraft) -> T) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.draft.with(get))
    }

    /// The sentence for a fault of that kind; empty when there is none.
    pub(super) fn says(self, of: fn(&ApplyFault) -> bool) -> Signal<String> {
        Signal::derive(move || {
            let method = self.draft.with(|draft| draft.method);
            self.fault
                .with(|fault| {
                    let fault = fault.as_ref().filter(|fault| of(fault));
                    fault.map(|fault| words::fault(fault, method))
                })
                .unwrap_or_default()
        })
    }

    /// The mixing part of it.
    pub(super) fn mixing(self) -> Hand {
        Hand {
            ledger: self.ledger,
            method: Signal::derive(move || {
                self.draft
                    .with(|draft| draft.method.unwrap_or(Method::Spray))
            }),
            mixing: self.part(|draft| draft.mixing.clone()),
            amount: Memo::new(move |_| {
                let draft = self.draft.get();
                let measured = self.ledger.follow(|state, _| draft.measured(state));
                measured.ok().map(|measured| match measured {
                    Measured::Mixed(mixture) => mixture.amount,
                    Measured::AsItIs(amount) => amount,
                })
            }),
            fault: Signal::derive(move || match self.fault.get() {
                Some(ApplyFault::Mix(fault)) => Some(fault),
                _ => None,
            }),
            change: Callback::new(move |how: Box<dyn FnOnce(&mut Mixing)>| {
                self.change(|draft| how(&mut draft.mixing));
            }),
        }
    }

    /// What is treated, as what has a history.
    pub(super) fn targets(self) -> Memo<Vec<Target>> {
        Memo::new(move |_| {
            let draft = self.draft.get();
            self.ledger.follow(|state, _| draft.targets(state))
        })
    }

    pub(super) fn back(self) -> impl IntoView {
        view! { <TopBack href=Route::Treat.href() label=rooms::back_to(rooms::TREAT) /> }
    }

    pub(super) fn step(self, step: ApplyStep) -> Callback<()> {
        Callback::new(move |()| self.change(|draft| draft.step = step))
    }

    /// Throws it away and leaves.
    pub(super) fn give_up(self) -> Callback<()> {
        Callback::new(move |()| {
            self.ledger.drop_draft(DRAFT);
            Route::Treat.replace();
        })
    }

    /// "Spray to run-off · 12 plants of 3 lots".
    pub(super) fn over(self) -> Signal<String> {
        Signal::derive(move || {
            let draft = self.draft.get();
            let parts = self.ledger.follow(|state, _| draft.parts(state));
            let plants = parts.iter().map(|part| i64::from(part.plants())).sum();
            let method = words::in_hand(draft.method);
            if parts.is_empty() {
                method
            } else {
                format!("{method} · {}", words::chosen(plants, parts.len()))
            }
        })
    }
}

/// The screen.
#[component]
pub fn Apply() -> impl IntoView {
    let ledger = Ledger::here();
    let work = Work {
        ledger,
        draft: ledger.draft::<ApplyDraft>(DRAFT),
        fault: RwSignal::new(None),
    };
    let step = work.part(|draft| draft.step);
    each_step_from_its_top(step);
    move || match step.get() {
        ApplyStep::How => how(work).into_any(),
        ApplyStep::What => what(work).into_any(),
        ApplyStep::Mix => mix(work).into_any(),
        ApplyStep::Safety => safety(work).into_any(),
        ApplyStep::Work => at_work(work).into_any(),
    }
}

/// Goes to the choice of a way, with these lots chosen.
pub(crate) fn treat_these(ledger: Ledger, lots: &[LotId]) {
    let mut taken = false;
    ledger.change_draft(DRAFT, |draft: &mut ApplyDraft| {
        draft.version = DRAFT_VERSION;
        taken = draft.take_lots(lots);
    });
    if !taken {
        ledger.say(words::ANOTHER_IN_HAND.to_owned(), ToldKind::Warning);
    }
    Route::Apply.go();
}

/// Which way; a bath has screens of its own.
fn how(work: Work) -> impl IntoView {
    let ways = std::iter::once(Method::Bath).chain(ApplyDraft::METHODS);
    let rows = ways.map(move |method| {
        let take = move |_| {
            if method == Method::Bath {
                let lots = work.draft.with_untracked(|draft| draft.lots.clone());
                work.ledger.drop_draft(DRAFT);
                to_a_bath(
                    work.ledger,
                    Wanted {
                        lots,
                        ..Wanted::default()
                    },
                );
            } else {
                work.ledger
                    .look(|state, _| work.change(|draft| draft.take_way(state, method)));
            }
        };
        view! {
            <button type="button" class="choose" on:click=take>
                <strong>{words::method(method)}</strong>
                <span class="soft">{words::method_hint(method)}</span>
            </button>
        }
    });
    view! {
        <Screen title=words::HOW back=move || work.back() notice=notices rooms=|| room_bar(Route::Treat)>
            {rows.collect_view()}
        </Screen>
    }
}

/// Before anything is opened.
fn safety(work: Work) -> impl IntoView {
    let begin = Callback::new(move |()| {
        work.ledger.look(|state, at| {
            work.change(|draft| {
                draft.mixing.settle_container(state, at.today);
                draft.begin(at.now_ms);
            });
        });
    });
    let actions = move || {
        view! {
            <PlainAction label=bath::CHANGE_MIX.to_owned() on_press=work.step(ApplyStep::Mix) />
            <MainAction label=words::BEGIN.to_owned() on_press=begin />
        }
    };
    let method = work.part(|draft| draft.method);
    let cautions = move || {
        before_it(
            work.ledger,
            words::cautions(method.get().unwrap_or(Method::Spray)),
        )
    };
    view! {
        <Screen
            title=bath::BEFORE
            over=work.over()
            back=move || work.back()
            actions
            notice=notices
            rooms=|| room_bar(Route::Treat)
        >
            {cautions}
            {super::apply_mix::worked(work)}
        </Screen>
    }
}

/// It is being done; at the end it goes on record.
fn at_work(work: Work) -> impl IntoView {
    let ledger = work.ledger;
    let refused = RwSignal::new(String::new());
    let done = Callback::new(move |()| {
        let draft = work.draft.get_untracked();
        let command = ledger.look(|state, at| draft.command(state, at.now_ms));
        match command {
            Err(fault) => refused.set(words::fault(&fault, draft.method)),
            Ok(command) => {
                let command = with_next(ledger, &draft.mixing, command);
                let act = Act::new(command, told::done(words::RECORDED))
                    .ends_draft(DRAFT)
                    .then(|done| match done.events.first() {
                        Some(Event::Treated(treated)) if binds_a_door(treated.method) => {
                            Route::DoorNotice(treated.treatment).replace();
                        }
                        _ => Route::Treat.replace(),
                    });
                ledger.act(act.otherwise(move |no| refused.set(rejection::say(&no))));
            }
        }
    });
    let actions = move || {
        view! {
            <PlainAction label=words::NOT_DONE.to_owned() on_press=work.step(ApplyStep::Mix) />
            <MainAction label=words::DONE.to_owned() on_press=done busy=ledger.busy() />
        }
    };
    let title = Signal::derive(move || work.draft.with(|draft| words::in_hand(draft.method)));
    let since = move || {
        let started = work.draft.with(|draft| draft.started_ms)?;
        let minute = minute_of_day(started, ledger.moment().off_min);
        Some(view! { <p class="edge">{words::since(&format::clock(minute))}</p> })
    };
    view! {
        <Screen
            title
            over=work.over()
            back=move || work.back()
            actions
            notice=notices
            rooms=|| room_bar(Route::Treat)
        >
            <Refusal words=refused />
            {since}
            {super::apply_mix::worked(work)}
        </Screen>
    }
}

/// A spray or a drench is somewhere: its notice goes on that door.
fn binds_a_door(method: Method) -> bool {
    matches!(method, Method::Spray | Method::Drench)
}
