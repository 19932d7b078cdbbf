//! Commands on a bath as it is used.

use crate::event::{BathEnded, BathTopped, Held};
use crate::id::{ContainerId, Subject, TreatmentId};
use crate::limits::TUB_UL_MAX;
use crate::quantity::{Amount, Volume};
use crate::rejection::{Input, Rejection};
use crate::state::Treatment;

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn top_up_bath(
        &mut self,
        bath: TreatmentId,
        water: Volume,
        amount: Amount,
        container: Option<ContainerId>,
    ) -> Done {
        let known = self.standing_bath(bath)?;
        let product = known.event.product.clone();
        Self::in_a_tub(water.ul(), 1)?;
        let (amount_ul, amount_mg) = match amount {
            Amount::Volume(volume) => Held::Ul(volume.ul()).fields(),
            Amount::Mass(mass) => Held::Mg(mass.mg()).fields(),
        };
        for figure in amount_ul.into_iter().chain(amount_mg) {
            Self::in_a_container(figure, 0)?;
        }
        let from = crate::event::ProductCopy {
            container,
            ..product
        };
        self.taken_from(&from, (amount_ul, amount_mg))?;
        self.push(BathTopped {
            bath,
            water_ul: water.ul(),
            amount_ul,
            amount_mg,
            container,
        });
        Ok(())
    }

    pub(super) fn end_bath(
        &mut self,
        bath: TreatmentId,
        left: Option<Volume>,
        disposal: &str,
    ) -> Done {
        self.standing_bath(bath)?;
        let left_ul = left.map(Volume::ul);
        if let Some(ul) = left_ul {
            Self::in_a_tub(ul, 0)?;
        }
        let disposal = Self::note(disposal)?;
        self.push(BathEnded {
            bath,
            left_ul,
            disposal,
        });
        Ok(())
    }

    /// A bath in the book that is not over.
    fn standing_bath(&self, bath: TreatmentId) -> Result<&Treatment, Rejection> {
        let known = self.state.facts().treatments.get(&bath);
        let known = known.ok_or(Rejection::NotInTheBook {
            subject: Subject::Treatment(bath),
        })?;
        if known.ended.is_some() {
            return Err(Rejection::BathOver);
        }
        Ok(known)
    }

    pub(super) fn in_a_tub(ul: i64, least: i64) -> Done {
        if (least..=TUB_UL_MAX).contains(&ul) {
            Ok(())
        } else {
            Err(Rejection::OutOfRange {
                input: Input::Water,
                least,
                most: TUB_UL_MAX / 1_000_000,
            })
        }
    }
}
