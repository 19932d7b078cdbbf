//! The facts of a measure on the shelf.

use serde::Serialize;

use crate::event::{Event, MeasureKind};
use crate::log::Fact;

use super::field::Field;

/// A measure on the shelf; amounts in microlitres, or milligrams on a scale.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct MeasureFacts {
    pub name: Field<String>,
    pub kind: Field<MeasureKind>,
    pub least: Field<i64>,
    pub most: Field<i64>,
    pub graduation: Field<i64>,
    pub retired: Field<bool>,
}

impl MeasureFacts {
    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        if let Event::MeasureSet(event) = fact.event {
            self.name.set_if(event.name.as_ref(), fact);
            self.kind.set_if(event.kind.as_ref(), fact);
            self.least.set_if(event.least.as_ref(), fact);
            self.most.set_if(event.most.as_ref(), fact);
            self.graduation.set_if(event.graduation.as_ref(), fact);
            self.retired.set_if(event.retired.as_ref(), fact);
        }
    }
}
