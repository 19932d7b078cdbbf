//! The command that changes how products are rotated.

use crate::event::RotationSet;
use crate::limits;
use crate::rejection::{Input, Rejection};
use crate::rotation::RotationRules;

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn set_rotation(&mut self, rules: RotationRules) -> Done {
        Self::rotation_holds(&rules)?;
        if rules != self.state.facts().book.rotation() {
            self.push(RotationSet { rules });
        }
        Ok(())
    }

    /// A table of rotation is within the limits.
    pub(super) fn rotation_holds(rules: &RotationRules) -> Done {
        if rules.rows.len() > limits::ROTATION_ROWS_MAX {
            return Err(Rejection::TooMany {
                input: Input::Code,
                most: u64::try_from(limits::ROTATION_ROWS_MAX).unwrap_or(u64::MAX),
            });
        }
        for row in &rules.rows {
            Self::needed(Input::Code, &row.code)?;
            // A limit of no use at all would be a ban, and that is the label's to say.
            if [row.in_a_row, row.per_year].contains(&Some(0)) {
                return Err(Rejection::OutOfRange {
                    input: Input::Code,
                    least: 1,
                    most: i64::from(u16::MAX),
                });
            }
        }
        Ok(())
    }
}
