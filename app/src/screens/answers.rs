//! How work is drawn and answered, wherever it is shown: on the Round and on a lot's own page.

use velamen_core::command::Command;
use velamen_core::event::TaskAnswer;
use velamen_core::task::TaskKind;
use velamen_core::task::derive::Task;

use crate::ledger::{Act, Ledger};
use crate::ui::Glyph;
use crate::words::{format, round, task, told};

/// What a kind of work looks like.
pub(super) fn glyph(kind: TaskKind) -> Glyph {
    match kind {
        TaskKind::FirstWater | TaskKind::FirstFeed | TaskKind::MossCheck => Glyph::Drop,
        TaskKind::Repot | TaskKind::PotOn | TaskKind::PotShoots | TaskKind::ToTheBench => {
            Glyph::Pot
        }
        TaskKind::RepeatTreatment => Glyph::Treat,
        TaskKind::Own => Glyph::Check,
        _ => Glyph::Magnifier,
    }
}

/// The key that ends work done by treating, and why it may: without a treatment on record that is said.
pub(super) fn done_by_treating(treated: bool) -> (&'static str, &'static str) {
    if treated {
        (round::ALL_DONE, "")
    } else {
        (round::DONE_UNTREATED, round::UNTREATED)
    }
}

/// Records one answer for these tasks, and says so.
pub(super) fn answer(ledger: Ledger, tasks: Vec<Task>, title: &str, answer: TaskAnswer) {
    answer_because(ledger, tasks, title, answer, "");
}

/// The same, with the reason where one was given.
pub(super) fn answer_because(
    ledger: Ledger,
    tasks: Vec<Task>,
    title: &str,
    answer: TaskAnswer,
    why: &str,
) {
    let today = ledger.moment().today;
    let said = match answer {
        TaskAnswer::Done { outcome } => {
            let kind = tasks.first().map_or(TaskKind::Own, |task| task.kind);
            let said = task::done(title, kind, outcome, why);
            told::done(said.as_deref().unwrap_or(title))
        }
        TaskAnswer::PutOff { to } => told::put_off(&format::near_day(to, today)),
        TaskAnswer::NotNeeded => told::not_needed(),
    };
    let why = why.to_owned();
    ledger.act(Act::new(Command::DecideTasks { tasks, answer, why }, said));
}
