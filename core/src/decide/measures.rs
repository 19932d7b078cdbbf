//! Commands on the measures of the shelf.

use crate::command::MeasureTraits;
use crate::event::{Event, MeasureKind, MeasureSet};
use crate::id::{MeasureId, Subject};
use crate::limits::{MEASURE_MAX, MEASURES_MAX};
use crate::measure::Measure;
use crate::rejection::{Input, Rejection};
use crate::view::measures;

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn set_measure(
        &mut self,
        measure: Option<MeasureId>,
        traits: MeasureTraits,
    ) -> Done {
        let name = traits
            .name
            .map(|name| Self::short(Input::Name, &name))
            .transpose()?;
        let known = &self.state.facts().measures;
        let before = match measure {
            Some(id) => Some(known.get(&id).ok_or(Rejection::NotInTheBook {
                subject: Subject::Measure(id),
            })?),
            None => None,
        };
        let gone = before.is_none_or(|it| it.retired.or_default());
        if gone && (before.is_none() || traits.retired == Some(false)) {
            let here = measures::measures(self.state).len();
            let new = |event: &&Event| matches!(event, Event::MeasureSet(it) if !known.contains_key(&it.measure));
            let here = here + self.events.iter().filter(new).count();
            Self::one_more(Input::Measure, here, MEASURES_MAX)?;
        }
        let kind_before = before.map(|known| known.kind.or_default());
        let kind = traits.kind.or(kind_before);
        // Microlitres do not become milligrams by another word for the thing.
        let turned = kind_before.map(MeasureKind::weighs) != kind.map(MeasureKind::weighs);
        let kept = before.filter(|_| !turned);
        let figure = |typed: Option<i64>, was: Option<i64>| {
            let figure = typed.or(was).ok_or(Rejection::Missing {
                input: Input::Measure,
            })?;
            if (1..=MEASURE_MAX).contains(&figure) {
                Ok(figure)
            } else {
                Err(Rejection::OutOfRange {
                    input: Input::Measure,
                    least: 1,
                    most: MEASURE_MAX / 1_000,
                })
            }
        };
        let id = measure.unwrap_or_else(|| MeasureId(self.thing()));
        let whole = Measure {
            id,
            kind: kind.ok_or(Rejection::Missing {
                input: Input::Measure,
            })?,
            least: figure(traits.least, kept.and_then(|one| one.least.get().copied()))?,
            most: figure(traits.most, kept.and_then(|one| one.most.get().copied()))?,
            graduation: figure(
                traits.graduation,
                kept.and_then(|one| one.graduation.get().copied()),
            )?,
        };
        if !whole.is_sound() {
            return Err(Rejection::NoMarkBetween);
        }
        self.push(MeasureSet {
            measure: id,
            name,
            kind: traits.kind,
            least: traits.least,
            most: traits.most,
            graduation: traits.graduation,
            retired: traits.retired,
        });
        Ok(())
    }

    /// Whether a measure put right afterwards can still be read.
    pub(super) fn measure_holds(&self, it: &MeasureSet) -> Done {
        if let Some(name) = &it.name {
            Self::short(Input::Name, name)?;
        }
        for figure in [it.least, it.most, it.graduation].into_iter().flatten() {
            if !(1..=MEASURE_MAX).contains(&figure) {
                return Err(Rejection::OutOfRange {
                    input: Input::Measure,
                    least: 1,
                    most: MEASURE_MAX / 1_000,
                });
            }
        }
        let whole = (it.kind, it.least, it.most, it.graduation);
        if let (Some(kind), Some(least), Some(most), Some(graduation)) = whole {
            let measure = Measure {
                id: it.measure,
                kind,
                least,
                most,
                graduation,
            };
            if !measure.is_sound() {
                return Err(Rejection::NoMarkBetween);
            }
        }
        Ok(())
    }
}
