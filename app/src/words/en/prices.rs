//! What things cost and in what size they are bought, in words.

use velamen_core::event::{Pack, PriceOf, PriceSet};
use velamen_core::price_draft::{PriceBox, SizeIn, size_in};
use velamen_core::view::prices::PriceRow;

use super::format::{counted, decimal, in_litres, litres_exact, money};
use super::shed;

pub const TITLE: &str = "What things cost";
pub const HINT: &str = "The size you buy in, and what one of that size costs. Bags in \"What to bring\" are counted in these sizes; what a plant has cost is reckoned from these prices.";
pub const MONEY: &str = "Your money";
pub const MONEY_HINT: &str = "Its sign or word, as you write it behind a number";
pub const NO_MONEY: &str = "No sign or word yet";
pub const NO_PRICE: &str = "No price yet";
pub const PRICE: &str = "Price of one";
pub const HOURLY: &str = "Price of an hour";
pub const MONTHLY: &str = "A square metre for a month";
pub const EMPTY: &str = "Empty: not known";
pub const PIECES: &str = "Pieces in a pack";
pub const PIECES_HINT: &str = "Empty: bought one by one";
pub const BAG_HINT: &str = "Empty: the price is for a litre";
pub const BOTTLE: &str = "A bottle holds";
pub const BOTTLE_HINT: &str = "Without it the product is not counted";
pub const MEASURED_BY: &str = "Sold by";
pub const BY_VOLUME: &str = "Volume";
pub const BY_WEIGHT: &str = "Weight";
pub const MILLILITRES: &str = "mL";
pub const GRAMS: &str = "g";
pub const KEEP: &str = "Keep this";
pub const KEPT: &str = "Kept.";

/// The box for the size of a bag; the unit stands beside it.
#[must_use]
pub fn bag() -> &'static str {
    in_litres("Litres in a bag", "A bag holds")
}

/// What has a price.
#[must_use]
pub fn of(of: &PriceOf, name: &str) -> String {
    match of {
        PriceOf::Pot(_) => format!("Pot {name}"),
        PriceOf::Label => "Labels".to_owned(),
        PriceOf::Mix(_) => format!("Mix {name}, bought ready"),
        PriceOf::Part(key) => shed::component(key),
        PriceOf::Stone => "Drainage stone".to_owned(),
        PriceOf::Hour => "Work".to_owned(),
        PriceOf::BenchMonth => "Bench".to_owned(),
        PriceOf::Product(_) => name.to_owned(),
    }
}

/// The size of a bag, a box or a bottle.
#[must_use]
pub fn size(of: &PriceOf, pack: Pack) -> String {
    match (pack, size_in(of)) {
        (Pack::Pieces(pieces), _) => counted(pieces, "piece", "pieces"),
        (Pack::Ul(ul), SizeIn::Bottle) => format!("{} {MILLILITRES}", decimal(ul, 3)),
        (Pack::Ul(ul), _) => litres_exact(velamen_core::quantity::Volume::from_ul(ul)),
        (Pack::Mg(mg), _) => format!("{} {GRAMS}", decimal(mg, 3)),
    }
}

/// What stands under a row: "60 L: 14.50 €".
#[must_use]
pub fn said(row: &PriceRow, sign: &str) -> String {
    let each = match size_in(&row.of) {
        SizeIn::One if row.of == PriceOf::Hour => "an hour",
        SizeIn::One => "a square metre for a month",
        SizeIn::Pieces => "each",
        SizeIn::Litres => "a litre",
        SizeIn::Bottle => "a bottle of a size not known",
    };
    let size = row.pack.map(|pack| size(&row.of, pack));
    match (size, row.cents) {
        (Some(size), Some(cents)) => format!("{size}: {}", money(cents, sign)),
        (None, Some(cents)) => format!("{} {each}", money(cents, sign)),
        (Some(size), None) => format!("{size}. {NO_PRICE}"),
        (None, None) => NO_PRICE.to_owned(),
    }
}

/// What a box of the form cannot take.
#[must_use]
pub fn fault(at: PriceBox) -> &'static str {
    match at {
        PriceBox::Size => "Type a number above nothing; a pack holds whole pieces.",
        PriceBox::Price => "Type the price as a number, with two digits after the mark at most.",
    }
}

/// A price as an entry.
#[must_use]
pub fn set(it: &PriceSet) -> String {
    let what = match &it.of {
        PriceOf::Pot(_) => "a pot".to_owned(),
        PriceOf::Mix(_) => "a mix".to_owned(),
        PriceOf::Product(_) => "a product".to_owned(),
        other => of(other, "").to_lowercase(),
    };
    let price = match it.cents {
        Some(cents) if cents >= 0 => Some(money(cents, "")),
        Some(_) => Some("no price".to_owned()),
        None => None,
    };
    let pack = it.pack.filter(|pack| pack.figure() > 0);
    let parts: Vec<String> = pack
        .map(|pack| size(&it.of, pack))
        .into_iter()
        .chain(price)
        .collect();
    format!("What {what} costs: {}.", parts.join(", "))
}
