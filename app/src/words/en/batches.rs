//! Bags, loads, baths and bottles, and where they went.

use chrono::NaiveDate;
use velamen_core::event::Method;
use velamen_core::trace::{How, Thing};

use super::format::{counted, full_day};
use super::product;

pub const TITLE: &str = "Bags and batches";
pub const HINT: &str =
    "What a bag of mix, a load of stone, a bath or a bottle met, if it turns out bad.";
pub const IN_USE: &str = "In use now";
pub const IN_USE_HINT: &str =
    "As the bag says, or a word of your own. What is potted from now on carries it.";
pub const STONE: &str = "Load of stone";
pub const KEEP: &str = "Keep these";
pub const KEPT: &str = "Kept for what is potted next.";
pub const WHERE: &str = "Where did it go?";
pub const NOTHING: &str = "Nothing to follow yet.";
pub const NOTHING_HINT: &str =
    "Write down the bag in use here, and a product's batch with its bath.";
pub const MIXES: &str = "Bags of mix";
pub const STONES: &str = "Loads of stone";
pub const BOTTLES: &str = "Bottles and bags of products";
pub const FILLINGS: &str = "Baths and fillings";
pub const ALL: &str = "All bags and batches";
pub const NOBODY: &str = "It met nothing.";
pub const NOBODY_HINT: &str = "No lot was potted from it or treated with it.";
pub const AGAIN_HINT: &str =
    "Washed stone is mixed: a lot said to be potted into it again may have got other stone.";

#[must_use]
pub fn bag_of(mix: &str) -> String {
    format!("Bag of {mix}")
}

/// What a thing is called, in a list under its heading.
#[must_use]
pub fn name(thing: &Thing, filling: Option<&(NaiveDate, Method, String)>) -> String {
    match thing {
        Thing::MixBatch(batch) | Thing::StoneBatch(batch) => batch.clone(),
        Thing::ProductBatch { name, batch } => format!("{name}, batch {batch}"),
        Thing::Bath(_) => filling
            .map(|(on, method, product)| {
                format!(
                    "{product}, {}, {}",
                    product::method(*method).to_lowercase(),
                    full_day(*on)
                )
            })
            .unwrap_or_default(),
    }
}

/// How it got there, with the code of the lot a part was split from.
#[must_use]
pub fn how(how: How, of: &str) -> String {
    match how {
        How::Potted => "potted from it".to_owned(),
        How::PartOf(_) => format!("a part of {of}"),
        How::UsedAgain => "potted into washed stone that may be of it".to_owned(),
        How::Treated => "treated with it".to_owned(),
    }
}

pub const STILL: &str = "stands in it still";
pub const POTTED_SINCE: &str = "potted anew since";
pub const GONE: &str = "no longer here";

#[must_use]
pub fn met(lots: usize) -> String {
    let lots = i64::try_from(lots).unwrap_or(i64::MAX);
    format!(
        "It met {}.",
        counted(lots, "lot or place", "lots and places")
    )
}
