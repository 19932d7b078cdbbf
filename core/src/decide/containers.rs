//! Commands on the containers of the shelf.

use crate::command::ContainerTraits;
use crate::event::{
    ContainerCounted, ContainerSet, ContainerUsed, Event, Held, ProductCopy, UsedWhy,
};
use crate::id::{ContainerId, ProductId, Subject};
use crate::limits::{CONTAINER_MAX, CONTAINERS_MAX};
use crate::quantity::Amount;
use crate::rejection::{Caution, Input, Rejection};
use crate::state::{Container, levels};

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn set_container(
        &mut self,
        container: Option<ContainerId>,
        traits: ContainerTraits,
    ) -> Done {
        let batch = traits
            .batch
            .map(|batch| Self::short(Input::Text, &batch))
            .transpose()?;
        let known = container.map(|id| self.container(id)).transpose()?;
        let product = known.and_then(|known| known.product).or(traits.product);
        let product = product.ok_or(Rejection::Missing {
            input: Input::Container,
        })?;
        if !self.state.facts().products.contains_key(&product) {
            return Err(Rejection::NotInTheBook {
                subject: Subject::Product(product),
            });
        }
        let gone = known.is_none_or(|it| it.retired.or_default());
        if gone && (known.is_none() || traits.retired == Some(false)) {
            let all = &self.state.facts().containers;
            let here = all.values().filter(|it| !it.retired.or_default());
            let new = |event: &&Event| matches!(event, Event::ContainerSet(it) if !all.contains_key(&it.container));
            let here = here.count() + self.events.iter().filter(new).count();
            Self::one_more(Input::Container, here, CONTAINERS_MAX)?;
        }
        if known.is_none() && traits.held.is_none() {
            return Err(Rejection::Missing {
                input: Input::Container,
            });
        }
        let held = traits.held;
        let stands = held.or_else(|| known.and_then(|it| it.held.get().copied()));
        for figure in held.into_iter().map(Held::figure) {
            Self::in_a_container(figure, 1)?;
        }
        let left = traits
            .left
            .map(|left| in_its_unit(stands, left))
            .transpose()?;
        let opened_on = traits.opened_on.map(|on| self.day(on)).transpose()?;
        let expires_on = traits.expires_on.map(|on| self.day_ahead(on)).transpose()?;
        let id = container.unwrap_or_else(|| ContainerId(self.thing()));
        let (amount_ul, amount_mg) = held.map_or((None, None), Held::fields);
        let set = ContainerSet {
            container: id,
            product,
            batch,
            opened_on,
            expires_on,
            amount_ul,
            amount_mg,
            retired: traits.retired,
        };
        self.push(set);
        match left {
            Some(left) => self.push_count(id, left, None),
            None => Ok(()),
        }
    }

    pub(super) fn count_container(&mut self, id: ContainerId, left: Amount) -> Done {
        let held = self.container(id)?.held.get().copied();
        let left = in_its_unit(held, left)?;
        let believed = levels(self.state).get(&id).and_then(|it| it.left);
        self.push_count(id, left, believed)
    }

    fn push_count(&mut self, container: ContainerId, left: Held, believed: Option<i64>) -> Done {
        Self::in_a_container(left.figure(), 0)?;
        let (amount_ul, amount_mg) = left.fields();
        self.push(ContainerCounted {
            container,
            amount_ul,
            amount_mg,
            believed,
        });
        Ok(())
    }

    pub(super) fn use_from_container(
        &mut self,
        id: ContainerId,
        amount: Amount,
        why: UsedWhy,
        note: &str,
    ) -> Done {
        let held = self.container(id)?.held.get().copied();
        let amount = in_its_unit(held, amount)?;
        Self::in_a_container(amount.figure(), 1)?;
        self.more_than_held(id, amount.figure());
        let (amount_ul, amount_mg) = amount.fields();
        self.push(ContainerUsed {
            container: id,
            amount_ul,
            amount_mg,
            why,
            note: Self::note(note)?,
        });
        Ok(())
    }

    /// The container a treatment names is one of its product. More than it held is said and recorded all the same: the
    /// level is an estimate.
    pub(super) fn taken_from(
        &mut self,
        product: &ProductCopy,
        (ul, mg): (Option<i64>, Option<i64>),
    ) -> Done {
        let Some(id) = product.container else {
            return Ok(());
        };
        let known = self.container_is_of(id, product.product)?;
        let taken = match known.held.get() {
            Some(Held::Mg(_)) => mg,
            Some(Held::Ul(_)) => ul,
            None => None,
        };
        let expired_on = known.expires_on.get().copied().filter(|on| *on < self.on);
        if let Some(on) = expired_on {
            self.cautions.push(Caution::Expired { container: id, on });
        }
        if let Some(taken) = taken {
            self.more_than_held(id, taken);
        }
        Ok(())
    }

    /// A container of that product.
    pub(super) fn container_is_of(
        &self,
        id: ContainerId,
        product: Option<ProductId>,
    ) -> Result<&Container, Rejection> {
        let known = self.container(id)?;
        if known.product == product {
            Ok(known)
        } else {
            Err(Rejection::NotInTheBook {
                subject: Subject::Container(id),
            })
        }
    }

    fn more_than_held(&mut self, container: ContainerId, taken: i64) {
        let held = self.state.facts().containers.get(&container);
        let held = held.and_then(|it| it.held.get().copied());
        let left = levels(self.state).get(&container).and_then(|it| it.left);
        if let (Some(held), Some(left)) = (held, left)
            && taken > left
        {
            self.cautions.push(Caution::MoreThanHeld {
                container,
                left: held.amount(left.max(0)),
            });
        }
    }

    fn container(&self, id: ContainerId) -> Result<&Container, Rejection> {
        let known = self.state.facts().containers.get(&id);
        known
            .filter(|it| it.product.is_some())
            .ok_or(Rejection::NotInTheBook {
                subject: Subject::Container(id),
            })
    }

    pub(super) fn in_a_container(figure: i64, least: i64) -> Done {
        if (least..=CONTAINER_MAX).contains(&figure) {
            Ok(())
        } else {
            Err(Rejection::OutOfRange {
                input: Input::Container,
                least,
                most: CONTAINER_MAX / 1_000_000,
            })
        }
    }

    /// Whether a container put right afterwards can still be read.
    pub(super) fn container_holds(&self, it: &ContainerSet) -> Done {
        Self::short(Input::Text, it.batch.as_deref().unwrap_or_default())?;
        it.opened_on.map(|on| self.day(on)).transpose()?;
        it.expires_on.map(|on| self.day_ahead(on)).transpose()?;
        let figures = it.amount_ul.into_iter().chain(it.amount_mg);
        figures
            .into_iter()
            .try_for_each(|figure| Self::in_a_container(figure, 1))
    }
}

/// An amount in a container's own unit.
fn in_its_unit(held: Option<Held>, amount: Amount) -> Result<Held, Rejection> {
    match (held, amount) {
        (Some(Held::Ul(_)) | None, Amount::Volume(volume)) => Ok(Held::Ul(volume.ul())),
        (Some(Held::Mg(_)), Amount::Mass(mass)) => Ok(Held::Mg(mass.mg())),
        (held, _) => Err(Rejection::OtherUnit {
            weighs: held.is_some_and(Held::weighs),
        }),
    }
}
