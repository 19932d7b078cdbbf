//! A price being typed: the size something is bought in, and what that costs.
//!
//! What was typed stays as typed until the book accepts it; an empty box says that nothing is known.

use serde::{Deserialize, Serialize};

use crate::draft::{DRAFT_VERSION, Versioned};
use crate::event::{Pack, PriceOf, PriceSet};
use crate::quantity::{Decimal, Ratio, parse_mass, parse_volume};
use crate::view::prices::PriceRow;

/// A price in hand.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PriceDraft {
    #[serde(default)]
    pub version: u16,
    /// What is being priced; nothing while the sheet is shut.
    #[serde(default)]
    pub of: Option<PriceOf>,
    #[serde(default)]
    pub size: String,
    /// A product sold by weight.
    #[serde(default)]
    pub weighs: bool,
    #[serde(default)]
    pub price: String,
    /// The sign or word of the money, where that is being typed.
    #[serde(default)]
    pub money: Option<String>,
}

impl Versioned for PriceDraft {
    fn touch(&mut self) {
        self.version = DRAFT_VERSION;
    }
}

/// A box of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PriceBox {
    Size,
    Price,
}

/// How the size of a thing is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizeIn {
    /// An hour, or a square metre of bench for a month: one of it.
    One,
    Pieces,
    Litres,
    /// Millilitres, or grams where it is weighed.
    Bottle,
}

/// How the size of a thing is said.
#[must_use]
pub const fn size_in(of: &PriceOf) -> SizeIn {
    match of {
        PriceOf::Hour | PriceOf::BenchMonth => SizeIn::One,
        PriceOf::Pot(_) | PriceOf::Label => SizeIn::Pieces,
        PriceOf::Mix(_) | PriceOf::Part(_) | PriceOf::Stone => SizeIn::Litres,
        PriceOf::Product(_) => SizeIn::Bottle,
    }
}

impl PriceDraft {
    /// As the book has it. `decimal` writes a number of which so many last digits are parts, as it is written here.
    #[must_use]
    pub fn of(row: &PriceRow, decimal: impl Fn(i64, u32) -> String) -> Self {
        let (size, weighs) = match row.pack {
            None => (String::new(), false),
            Some(Pack::Pieces(pieces)) => (pieces.to_string(), false),
            Some(Pack::Ul(ul)) if size_in(&row.of) == SizeIn::Bottle => (decimal(ul, 3), false),
            Some(Pack::Ul(ul)) => (decimal(ul, 6), false),
            Some(Pack::Mg(mg)) => (decimal(mg, 3), true),
        };
        Self {
            version: DRAFT_VERSION,
            of: Some(row.of.clone()),
            size,
            weighs,
            price: row.cents.map(|cents| decimal(cents, 2)).unwrap_or_default(),
            money: None,
        }
    }

    /// What is to be recorded; `None` while nothing is being priced.
    ///
    /// # Errors
    /// The box that cannot be read.
    pub fn command(&self) -> Result<Option<PriceSet>, PriceBox> {
        let Some(of) = &self.of else {
            return Ok(None);
        };
        let pack = match size_in(of) {
            SizeIn::One => None,
            SizeIn::Pieces => Some(Pack::Pieces(figure(&self.size, 1)?)),
            SizeIn::Litres => Some(Pack::Ul(measured(&self.size, 1_000_000, false)?)),
            SizeIn::Bottle if self.weighs => Some(Pack::Mg(measured(&self.size, 1_000, true)?)),
            SizeIn::Bottle => Some(Pack::Ul(measured(&self.size, 1_000, false)?)),
        };
        let cents = if self.price.trim().is_empty() {
            -1
        } else {
            let typed = Decimal::parse(&self.price).map_err(|_| PriceBox::Price)?;
            let cents = typed.hundredths().filter(|cents| *cents >= 0);
            cents.ok_or(PriceBox::Price)?
        };
        Ok(Some(PriceSet {
            of: of.clone(),
            pack,
            cents: Some(cents),
        }))
    }
}

/// A size in its smallest unit, where the grower may say another one than the box has.
fn measured(typed: &str, times: i128, weighs: bool) -> Result<i64, PriceBox> {
    if typed.trim().is_empty() || Decimal::parse(typed).is_ok() {
        return figure(typed, times);
    }
    let size = if weighs {
        parse_mass(typed).map(|(mass, _)| mass.mg())
    } else {
        parse_volume(typed).map(|(volume, _)| volume.ul())
    };
    size.ok().filter(|size| *size > 0).ok_or(PriceBox::Size)
}

/// A size in its smallest unit; nothing typed is none.
fn figure(typed: &str, times: i128) -> Result<i64, PriceBox> {
    if typed.trim().is_empty() {
        return Ok(0);
    }
    let typed = Decimal::parse(typed).map_err(|_| PriceBox::Size)?;
    let exact = typed.ratio().checked_mul(Ratio::whole(times));
    let whole = exact
        .filter(|exact| exact.den() == 1)
        .and_then(Ratio::round_i64);
    whole.filter(|whole| *whole > 0).ok_or(PriceBox::Size)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn draft(of: PriceOf, size: &str, price: &str) -> Result<Option<PriceSet>, PriceBox> {
        PriceDraft {
            of: Some(of),
            size: size.to_owned(),
            price: price.to_owned(),
            ..PriceDraft::default()
        }
        .command()
    }

    #[test]
    fn a_bag_is_typed_in_litres_and_an_empty_box_says_nothing_is_known() {
        let set = draft(PriceOf::Stone, "12,5", "3.40");
        let set = set.ok().flatten();
        assert_eq!(
            set.map(|set| (set.pack, set.cents)),
            Some((Some(Pack::Ul(12_500_000)), Some(340)))
        );
        let none = draft(PriceOf::Label, "", " ").ok().flatten();
        assert_eq!(
            none.map(|set| (set.pack, set.cents)),
            Some((Some(Pack::Pieces(0)), Some(-1)))
        );
        let gallons = draft(PriceOf::Stone, "5 US gal", "8").ok().flatten();
        assert_eq!(gallons.and_then(|set| set.pack), Some(Pack::Ul(18_927_059)));
        assert_eq!(draft(PriceOf::Stone, "5 kg", "8"), Err(PriceBox::Size));
        assert_eq!(draft(PriceOf::Label, "2 L", "1"), Err(PriceBox::Size));
        assert_eq!(draft(PriceOf::Label, "2.5", "1"), Err(PriceBox::Size));
        assert_eq!(draft(PriceOf::Label, "0", "1"), Err(PriceBox::Size));
        assert_eq!(draft(PriceOf::Hour, "", "-3"), Err(PriceBox::Price));
        assert_eq!(draft(PriceOf::Hour, "", "1.005"), Err(PriceBox::Price));
    }
}
