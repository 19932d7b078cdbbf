//! Event of the rules by which products are rotated.

use serde::{Deserialize, Serialize};

use crate::id::Subject;
use crate::rotation::RotationRules;

/// The table by which runs of one mode of action are judged was changed; the whole of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RotationSet {
    pub rules: RotationRules,
}

impl RotationSet {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Book]
    }
}
