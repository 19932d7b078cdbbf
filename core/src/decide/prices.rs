//! The command that says what something costs, and in what size it is bought.

use crate::event::{Pack, PriceOf, PriceSet};
use crate::id::Subject;
use crate::limits::{CONTAINER_MAX, PACK_PIECES_MAX, PRICE_CENTS_MAX};
use crate::rejection::{Input, Rejection};

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn set_price(&mut self, price: PriceSet) -> Done {
        self.price_holds(&price)?;
        self.push(price);
        Ok(())
    }

    pub(super) fn price_holds(&self, price: &PriceSet) -> Done {
        let facts = self.state.facts();
        let unknown = match &price.of {
            PriceOf::Pot(id) => (!facts.pots.contains_key(id)).then_some(Subject::Pot(*id)),
            PriceOf::Mix(id) => (!facts.mixes.contains_key(id)).then_some(Subject::Mix(*id)),
            PriceOf::Product(id) => {
                (!facts.products.contains_key(id)).then_some(Subject::Product(*id))
            }
            PriceOf::Part(key) => {
                Self::needed(Input::Text, key)?;
                None
            }
            PriceOf::Label | PriceOf::Stone | PriceOf::Hour | PriceOf::BenchMonth => None,
        };
        if let Some(subject) = unknown {
            return Err(Rejection::NotInTheBook { subject });
        }
        if price.pack.is_none() && price.cents.is_none() {
            return Err(Rejection::NothingToDo);
        }
        if let Some(cents) = price.cents
            && !(-1..=PRICE_CENTS_MAX).contains(&cents)
        {
            return Err(Rejection::OutOfRange {
                input: Input::Price,
                least: 0,
                most: PRICE_CENTS_MAX / 100,
            });
        }
        if let Some(pack) = price.pack {
            let most = match pack {
                Pack::Pieces(_) => PACK_PIECES_MAX,
                Pack::Ul(_) | Pack::Mg(_) => CONTAINER_MAX,
            };
            if !(0..=most).contains(&pack.figure()) {
                return Err(Rejection::OutOfRange {
                    input: Input::Size,
                    least: 0,
                    most: match pack {
                        Pack::Pieces(_) => most,
                        Pack::Ul(_) | Pack::Mg(_) => most / 1_000_000,
                    },
                });
            }
        }
        Ok(())
    }
}
