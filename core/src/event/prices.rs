//! What things cost, and in what size they are bought.
//!
//! Money is in hundredths of the nursery's own currency, whose sign or word stands in `book_set`. A price is for one
//! bag, bottle, box or pack as it is bought; an hour and a square metre of bench for a month are bought one at a time.

use serde::{Deserialize, Serialize};

use crate::id::{MixId, PotId, ProductId, Subject};

/// What has a price.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PriceOf {
    Pot(PotId),
    Label,
    /// A mix that is bought ready.
    Mix(MixId),
    /// A part of mixes, by its key.
    Part(String),
    Stone,
    /// An hour of work.
    Hour,
    /// A square metre of bench for a month.
    BenchMonth,
    Product(ProductId),
}

/// What one bag, bottle, box or pack holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Pack {
    Pieces(i64),
    Ul(i64),
    Mg(i64),
}

impl Pack {
    #[must_use]
    pub const fn figure(self) -> i64 {
        match self {
            Self::Pieces(figure) | Self::Ul(figure) | Self::Mg(figure) => figure,
        }
    }
}

/// Something is bought in this size, or costs so much; each field that is there is a change.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PriceSet {
    pub of: PriceOf,
    /// What it is bought in; nothing of it says that no size is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pack: Option<Pack>,
    /// Price of one of them in hundredths; below nothing says that no price is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cents: Option<i64>,
}

impl PriceSet {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Book]
    }
}
