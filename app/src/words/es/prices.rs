//! What things cost and in what size they are bought, in words.

use velamen_core::event::{Pack, PriceOf, PriceSet};
use velamen_core::price_draft::{PriceBox, SizeIn, size_in};
use velamen_core::view::prices::PriceRow;

use super::format::{counted, decimal, in_litres, litres_exact, money};
use super::shed;

pub const TITLE: &str = "Lo que cuestan las cosas";
pub const HINT: &str = "El tamaño en que compras, y lo que cuesta uno de ese tamaño. Los sacos de «Qué llevar» se cuentan en estos tamaños; con estos precios se calcula lo que ha costado una planta.";
pub const MONEY: &str = "Tu moneda";
pub const MONEY_HINT: &str = "Su signo o palabra, como lo pones tras un número";
pub const NO_MONEY: &str = "Aún sin signo ni palabra";
pub const NO_PRICE: &str = "Aún sin precio";
pub const PRICE: &str = "Precio de uno";
pub const HOURLY: &str = "Precio de una hora";
pub const MONTHLY: &str = "Un metro cuadrado durante un mes";
pub const EMPTY: &str = "Vacío: no se sabe";
pub const PIECES: &str = "Piezas por paquete";
pub const PIECES_HINT: &str = "Vacío: se compran de una en una";
pub const BAG_HINT: &str = "Vacío: el precio es de un litro";
pub const BOTTLE: &str = "Un envase contiene";
pub const BOTTLE_HINT: &str = "Sin esto, el producto no se cuenta";
pub const MEASURED_BY: &str = "Se vende por";
pub const BY_VOLUME: &str = "Volumen";
pub const BY_WEIGHT: &str = "Peso";
pub const MILLILITRES: &str = "mL";
pub const GRAMS: &str = "g";
pub const KEEP: &str = "Guardar esto";
pub const KEPT: &str = "Guardado.";

/// The box for the size of a bag; the unit stands beside it.
#[must_use]
pub fn bag() -> &'static str {
    in_litres("Litros por saco", "Un saco tiene")
}

/// What has a price.
#[must_use]
pub fn of(of: &PriceOf, name: &str) -> String {
    match of {
        PriceOf::Pot(_) => format!("Maceta {name}"),
        PriceOf::Label => "Etiquetas".to_owned(),
        PriceOf::Mix(_) => format!("Sustrato {name}, comprado hecho"),
        PriceOf::Part(key) => shed::component(key),
        PriceOf::Stone => "Piedra de drenaje".to_owned(),
        PriceOf::Hour => "Trabajo".to_owned(),
        PriceOf::BenchMonth => "Bancada".to_owned(),
        PriceOf::Product(_) => name.to_owned(),
    }
}

/// The size of a bag, a box or a bottle.
#[must_use]
pub fn size(of: &PriceOf, pack: Pack) -> String {
    match (pack, size_in(of)) {
        (Pack::Pieces(pieces), _) => counted(pieces, "pieza", "piezas"),
        (Pack::Ul(ul), SizeIn::Bottle) => format!("{} {MILLILITRES}", decimal(ul, 3)),
        (Pack::Ul(ul), _) => litres_exact(velamen_core::quantity::Volume::from_ul(ul)),
        (Pack::Mg(mg), _) => format!("{} {GRAMS}", decimal(mg, 3)),
    }
}

/// What stands under a row: "60 L: 14,50 €".
#[must_use]
pub fn said(row: &PriceRow, sign: &str) -> String {
    let each = match size_in(&row.of) {
        SizeIn::One if row.of == PriceOf::Hour => "la hora",
        SizeIn::One => "el metro cuadrado y mes",
        SizeIn::Pieces => "cada una",
        SizeIn::Litres => "el litro",
        SizeIn::Bottle => "un envase de tamaño no dicho",
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
        PriceBox::Size => "Escribe un número mayor que cero; un paquete lleva piezas enteras.",
        PriceBox::Price => "Escribe el precio como número, con dos cifras tras la coma como mucho.",
    }
}

/// A price as an entry.
#[must_use]
pub fn set(it: &PriceSet) -> String {
    let what = match &it.of {
        PriceOf::Pot(_) => "una maceta".to_owned(),
        PriceOf::Mix(_) => "un sustrato".to_owned(),
        PriceOf::Product(_) => "un producto".to_owned(),
        other => of(other, "").to_lowercase(),
    };
    let price = match it.cents {
        Some(cents) if cents >= 0 => Some(money(cents, "")),
        Some(_) => Some("sin precio".to_owned()),
        None => None,
    };
    let pack = it.pack.filter(|pack| pack.figure() > 0);
    let parts: Vec<String> = pack
        .map(|pack| size(&it.of, pack))
        .into_iter()
        .chain(price)
        .collect();
    format!("Lo que cuesta ({what}): {}.", parts.join(", "))
}
