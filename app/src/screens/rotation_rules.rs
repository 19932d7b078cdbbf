//! The table of rotation: how often one way of acting may be used before it has to change.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::rotation::{CodeRule, RotationRules, RulesDraft, usual};

use super::lot_parts::{Count, Refusal};
use super::shed::back_to_shed;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Field, MainAction, PlainAction, Screen, Toggle};
use crate::words::{rejection, rotation as words, shed, treat};

const KEY: &str = "rotation";

/// What the rows share.
#[derive(Clone, Copy)]
struct Hand {
    ledger: Ledger,
    table: Memo<RotationRules>,
}

impl Hand {
    fn change(self, at: usize, how: impl FnOnce(&mut CodeRule)) {
        self.edit(|state, draft| draft.change(state, at, how));
    }

    fn edit(self, how: impl FnOnce(&velamen_core::state::State, &mut RulesDraft)) {
        self.ledger.change_draft(KEY, |draft: &mut RulesDraft| {
            draft.version = DRAFT_VERSION;
            self.ledger.look(|state, _| how(state, draft));
        });
    }
}

/// The screen.
#[component]
pub fn Rotation() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft_at::<RulesDraft>(KEY.to_owned());
    let table = Memo::new(move |_| {
        let draft = draft.get();
        ledger.follow(|state, _| draft.table(state))
    });
    let hand = Hand { ledger, table };
    let in_force = ledger.ask(|state, _| state.facts().book.rotation());
    let unchanged = Signal::derive(move || table.get() == in_force.get());
    let refused = RwSignal::new(String::new());
    let keep = Callback::new(move |()| {
        let act = Act::new(Command::SetRotation(table.get_untracked()), words::KEPT);
        let act = act.ends_draft(KEY);
        ledger.act(act.otherwise(move |no| refused.set(rejection::say(&no))));
    });
    let discard = Callback::new(move |()| ledger.drop_draft(KEY));
    let back_to_usual = Callback::new(move |()| hand.edit(|_, draft| draft.rules = Some(usual())));
    let code = Signal::derive(move || draft.with(|draft| draft.code.clone()));
    let typed = Callback::new(move |text: String| {
        refused.set(String::new());
        hand.edit(|_, draft| draft.code = text);
    });
    let add = Callback::new(move |()| {
        hand.edit(|state, draft| {
            if !draft.add(state) {
                refused.set(words::BAD_CODE.to_owned());
            }
        });
    });
    let count = Memo::new(move |_| table.with(|table| table.rows.len()));
    let rows = move || {
        let rows = 0..count.get();
        rows.map(|at| view! { <RuleForm hand at /> }).collect_view()
    };
    let actions = move || {
        view! {
            {move || (!unchanged.get()).then(|| view! { <PlainAction label=shed::DISCARD.to_owned() on_press=discard /> })}
            <MainAction label=words::KEEP.to_owned() on_press=keep busy=ledger.busy() disabled=unchanged />
        }
    };
    view! {
        <Screen title=words::RULES back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <p class="edge">{words::RULES_LEAD}</p>
            <div class="form">
                <Field label=words::OWN_CODE hint=words::OWN_CODE_HINT value=code on_input=typed max_chars=24 />
                <Refusal words=refused />
                <PlainAction label=words::ADD.to_owned() on_press=add />
            </div>
            {rows}
            <p class="edge soft">{words::RULES_SOURCE}</p>
            <div class="form"><PlainAction label=words::USUAL.to_owned() on_press=back_to_usual /></div>
        </Screen>
    }
}

/// One row: closed, a line; open, its numbers.
#[component]
fn RuleForm(hand: Hand, at: usize) -> impl IntoView {
    let row = Memo::new(move |_| hand.table.with(|table| table.rows.get(at).cloned()));
    let part = move |get: fn(&CodeRule) -> i64| {
        Signal::derive(move || row.with(|row| row.as_ref().map_or(0, get)))
    };
    let number = |count: i64| u16::try_from(count).ok().filter(|count| *count > 0);
    let set = move |how: fn(&mut CodeRule, Option<u16>)| {
        Callback::new(move |count: i64| hand.change(at, |row| how(row, number(count))))
    };
    let by_generation = Memo::new(move |_| {
        row.with(|row| row.as_ref().is_some_and(|row| row.together_days.is_some()))
    });
    let breaks =
        Signal::derive(move || row.with(|row| row.as_ref().is_some_and(|row| !row.breaks_no_run)));
    let head = move || row.with(|row| row.as_ref().map(words::rule));
    let says = move || row.with(|row| row.as_ref().map(words::rule_says));
    let in_a_row = move || {
        let label = if by_generation.get() {
            words::GENERATIONS
        } else {
            words::IN_A_ROW
        };
        view! {
            <Count
                label
                hint=words::NO_LIMIT
                count=part(|row| i64::from(row.in_a_row.unwrap_or(0)))
                on_count=set(|row, count| row.in_a_row = count)
            />
        }
    };
    view! {
        <details class="more-of-it">
            <summary><span class="strong">{head}</span> ": " {says}</summary>
            {in_a_row}
            <Count
                label=words::PER_YEAR
                hint=words::NO_LIMIT
                count=part(|row| i64::from(row.per_year.unwrap_or(0)))
                on_count=set(|row, count| row.per_year = count)
            />
            <Count
                label=words::TOGETHER
                hint=words::TOGETHER_HINT
                count=part(|row| i64::from(row.together_days.unwrap_or(0)))
                on_count=set(|row, count| row.together_days = count)
            />
            <div class="form">
                <Toggle
                    label=words::BREAKS
                    on=breaks
                    on_switch=Callback::new(move |on: bool| hand.change(at, |row| row.breaks_no_run = !on))
                    on_word=treat::YES
                    off_word=treat::NO
                />
            </div>
        </details>
    }
}
