//! Many commands at once, each an entry of its own, all in one transaction: rows that come from another program.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::decide::{Decision, decide};
use velamen_core::rejection::Rejection;
use velamen_core::state::State;
use velamen_core::time::Moment;

use super::Ledger;
use crate::storage::{Line, Record, StorageError};

/// Why nothing was recorded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoneKept {
    Refused(Rejection),
    Storage(StorageError),
}

impl Ledger {
    /// Records commands one after another; `next` gives each from the book as it then stands, and `None` at the end.
    ///
    /// # Errors
    /// The first refusal, or the storage's; nothing is recorded then.
    pub async fn record_all(
        self,
        mut next: impl FnMut(&State, Option<&Decision>) -> Option<Command>,
    ) -> Result<usize, NoneKept> {
        let started = self.moment();
        let mut state = self.state.with_value(Clone::clone);
        let mut lines = Vec::new();
        let mut last = None;
        while let Some(command) = next(&state, last.as_ref()) {
            let after_ms = i64::try_from(lines.len()).unwrap_or(i64::MAX);
            let at = Moment {
                now_ms: started.now_ms.saturating_add(after_ms),
                ..started
            };
            let decision = decide(&state, &at, command).map_err(NoneKept::Refused)?;
            // What was decided is an entry.
            let _ = state.take(&decision.line);
            lines.push(Line {
                dev: decision.entry.dev.0,
                seq: u64::from(decision.entry.seq),
                text: decision.line.clone(),
            });
            last = Some(decision);
        }
        let record = Record {
            lines: &lines,
            ..Record::default()
        };
        self.write(&record).await.map_err(NoneKept::Storage)?;
        self.stand_at(state);
        Ok(lines.len())
    }
}
