//! The first days of the example: places, products, the plants that were there already, and those bought later.

use crate::command::{Command, PlaceTraits, ProductTraits, ReceiveLot};
use crate::event::{ActiveCopy, Event, PieceClass, ProductCopy, Source};
use crate::id::{LotId, PlaceId};
use crate::name::PlantName;
use crate::potting::Layers;
use crate::quantity::Length;
use crate::time::plus_days;
use crate::view::potting::potting_of;

use super::{DAYS, Nursery, table};

impl Nursery {
    /// Everything that stands around, and every plant, in the first week.
    pub(super) fn set_up(&mut self) {
        let phrases = self.phrases;
        for (name, place) in phrases.places.into_iter().zip(table::PLACES) {
            let (warmth, shade, cover, area_cm2) = place;
            let about = PlaceTraits {
                cover: Some(cover),
                shade: Some(shade),
                warmth: Some(warmth),
                area_cm2: Some(area_cm2),
                ..PlaceTraits::default()
            };
            let name = Some(name.to_owned());
            let set = self.act(Command::SetPlace {
                place: None,
                name,
                walk: None,
                about,
            });
            self.places
                .extend(set.iter().filter_map(|event| match event {
                    Event::PlaceSet(set) => Some(set.place),
                    _ => None,
                }));
        }
        for ((label_name, active), product) in phrases.products.into_iter().zip(table::PRODUCTS) {
            let (content, content_mg, code, rate, reentry_h) = product;
            let codes = [code].into_iter().filter(|code| !code.is_empty());
            let active = ActiveCopy {
                name: active.to_owned(),
                content_mg: Some(content_mg),
                content_typed: content.to_owned(),
                codes: codes.map(str::to_owned).collect(),
            };
            let traits = ProductTraits {
                label_name: Some(label_name.to_owned()),
                actives: Some(vec![active]),
                rate_typed: Some(rate.to_owned()),
                reentry_h: Some(reentry_h),
                ..ProductTraits::default()
            };
            let set = self.act(Command::SetProduct {
                product: None,
                traits,
            });
            self.products
                .extend(set.iter().filter_map(|event| match event {
                    Event::ProductSet(set) => Some(set.product),
                    _ => None,
                }));
        }
        self.first_plants();
    }

    /// Plants that were there before the book, place by place as they are walked past.
    fn first_plants(&mut self) {
        for (at, place) in self.places.clone().into_iter().enumerate() {
            let ago = DAYS.saturating_sub(i64::try_from(at).unwrap_or(0));
            self.on(ago, 10 * 60);
            let here = table::PLANTS.into_iter().filter(|row| row.1 == at);
            for (name, _, lots, most) in here {
                for _ in 0..lots {
                    let plants = 1 + self.chance.below(most);
                    let potted = 30 + i64::from(self.chance.below(720));
                    self.plants_come(name, plants, place, Some(potted), Source::Here);
                }
            }
            if at == table::COOL_RIGHT {
                self.grown_together =
                    self.plants_come(table::GROWN_TOGETHER, 3, place, None, Source::Here);
                self.left_alone.extend(self.grown_together);
            }
        }
    }

    /// A lot comes in, potted so many days before if that is known.
    fn plants_come(
        &mut self,
        name: &str,
        plants: u32,
        place: PlaceId,
        potted: Option<i64>,
        source: Source,
    ) -> Option<LotId> {
        let bought = source == Source::Bought;
        let come = self.act(Command::ReceiveLot(ReceiveLot {
            name: PlantName::from_typed(name),
            plants,
            stands: plants,
            place: Some(place),
            class: Some(if bought {
                PieceClass::Starter
            } else {
                PieceClass::Flowering
            }),
            source,
            potted_on: potted.map(|days| plus_days(self.today(), -days)),
            potting: self.potting(plants, bought),
            ..ReceiveLot::default()
        }));
        come.iter().find_map(|event| match event {
            Event::LotReceived(received) => Some(received.lot),
            _ => None,
        })
    }

    /// A few young plants of a kind that is grown already; they stand apart at first.
    pub(super) fn buy(&mut self) {
        let kind = self.chance.pick(&table::PLANTS).copied();
        if let (Some((name, ..)), Some(apart)) = (kind, self.place(table::APART)) {
            let plants = 2 + self.chance.below(4);
            self.plants_come(name, plants, apart, Some(60), Source::Bought);
        }
    }

    /// What so many pots are filled with: large ones in coarse bark, small ones in the next mix.
    pub(super) fn potting(&self, stands: u32, small: bool) -> crate::event::Potting {
        let facts = self.state.facts();
        let nth = usize::from(!small);
        let pot = facts.pots.keys().nth(nth * 2).copied();
        let mix = facts.mixes.keys().nth(1 - nth).copied();
        let layers = Layers {
            stone: Length::from_mm(if small { 0 } else { 20 }),
            headspace: Length::from_mm(15),
        };
        potting_of(facts, pot, mix, layers, stands).unwrap_or_default()
    }

    /// A product as its label says, for a treatment.
    pub(super) fn label(&self, at: usize) -> ProductCopy {
        let id = self.products.get(at).copied();
        let product = id.and_then(|id| self.state.facts().products.get(&id));
        product.map_or_else(ProductCopy::default, |product| ProductCopy {
            product: id,
            label_name: product.label_name.or_default(),
            actives: product.actives.or_default(),
            rate_typed: product.rate_typed.or_default(),
            reentry_h: product.reentry_h.get().copied(),
            ..ProductCopy::default()
        })
    }
}
