//! The table of rotation being changed.

use serde::{Deserialize, Serialize};

use super::{CodeRule, RotationRules};
use crate::reference::actives::Code;
use crate::state::State;

/// The table being changed; the one in force until something is.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulesDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub rules: Option<RotationRules>,
    /// A code being typed for a row of its own.
    #[serde(default)]
    pub code: String,
}

impl RulesDraft {
    /// The table as it stands in this draft.
    #[must_use]
    pub fn table(&self, state: &State) -> RotationRules {
        let kept = self.rules.clone();
        kept.unwrap_or_else(|| state.facts().book.rotation())
    }

    /// Changes one row.
    pub fn change(&mut self, state: &State, at: usize, how: impl FnOnce(&mut CodeRule)) {
        let mut rules = self.table(state);
        if let Some(row) = rules.rows.get_mut(at) {
            how(row);
        }
        self.rules = Some(rules);
    }

    /// Gives the typed code a row of its own before all others, with what held for it until now; `false` when it is no
    /// code, names no list, or has its row.
    pub fn add(&mut self, state: &State) -> bool {
        let mut rules = self.table(state);
        let read = Code::read(&self.code);
        let Some((code, list)) = read.and_then(|code| Some((code.clone(), code.list?))) else {
            return false;
        };
        let main = code.main_group().to_owned();
        if rules
            .rows
            .iter()
            .any(|row| row.list == list && row.code == main)
        {
            return false;
        }
        let before = rules.of(&code).cloned();
        let row = CodeRule {
            list,
            code: main,
            ..before.unwrap_or(CodeRule {
                list,
                code: String::new(),
                in_a_row: None,
                per_year: None,
                together_days: None,
                breaks_no_run: false,
            })
        };
        rules.rows.insert(0, row);
        self.rules = Some(rules);
        self.code.clear();
        true
    }
}
