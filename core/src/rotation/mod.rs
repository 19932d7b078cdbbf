//! Whether a product may follow what the plants had before: one way of killing, used again and again, breeds what it
//! no longer kills.
//!
//! A division carries the history of all its possible parents, so a lot has one line of uses for each way it may have
//! come about, and the worst of them is what is judged. Invariants: codes come from the label as copied into the entry,
//! and only where that is silent from the table of actives; what has no known code neither counts nor breaks a run;
//! every judgement is advice with its reason, never a refusal.

mod codes;
mod draft;
mod judge;
mod lines;
mod rules;

pub use codes::{Known, codes_of};
pub use draft::RulesDraft;
pub use judge::{Advice, Judged, Proposed, TrueChange, judge, proposed, true_changes};
pub use lines::{Line, Target, Use, history};
pub use rules::{CodeRule, RotationRules, usual};
