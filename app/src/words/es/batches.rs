//! Bags, loads, baths and bottles, and where they went.

use chrono::NaiveDate;
use velamen_core::event::Method;
use velamen_core::trace::{How, Thing};

use super::format::{counted, full_day};
use super::product;

pub const TITLE: &str = "Sacos y partidas";
pub const HINT: &str = "Con qué estuvo en contacto un saco de sustrato, una carga de piedra, un baño o un envase, si resulta que estaba mal.";
pub const IN_USE: &str = "En uso ahora";
pub const IN_USE_HINT: &str =
    "Como dice el saco, o una palabra tuya. Lo lleva todo lo que se enmacete desde ahora.";
pub const STONE: &str = "Carga de piedra";
pub const KEEP: &str = "Guardar estos";
pub const KEPT: &str = "Guardado para lo próximo que se enmacete.";
pub const WHERE: &str = "¿Adónde fue?";
pub const NOTHING: &str = "Aún no hay nada que seguir.";
pub const NOTHING_HINT: &str =
    "Anota aquí el saco en uso, y la partida de un producto con su baño.";
pub const MIXES: &str = "Sacos de sustrato";
pub const STONES: &str = "Cargas de piedra";
pub const BOTTLES: &str = "Envases y sacos de productos";
pub const FILLINGS: &str = "Baños y preparaciones";
pub const ALL: &str = "Todos los sacos y partidas";
pub const NOBODY: &str = "No estuvo en contacto con nada.";
pub const NOBODY_HINT: &str = "Ningún lote se enmacetó con esto ni se trató con esto.";
pub const AGAIN_HINT: &str = "La piedra lavada se mezcla: un lote que figura como enmacetado otra vez en ella puede haber recibido otra piedra.";

#[must_use]
pub fn bag_of(mix: &str) -> String {
    format!("Saco de {mix}")
}

/// What a thing is called, in a list under its heading.
#[must_use]
pub fn name(thing: &Thing, filling: Option<&(NaiveDate, Method, String)>) -> String {
    match thing {
        Thing::MixBatch(batch) | Thing::StoneBatch(batch) => batch.clone(),
        Thing::ProductBatch { name, batch } => format!("{name}, partida {batch}"),
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
        How::Potted => "enmacetado con esto".to_owned(),
        How::PartOf(_) => format!("una parte de {of}"),
        How::UsedAgain => "enmacetado en piedra lavada que puede ser de esta".to_owned(),
        How::Treated => "tratado con esto".to_owned(),
    }
}

pub const STILL: &str = "sigue en ello";
pub const POTTED_SINCE: &str = "enmacetado de nuevo desde entonces";
pub const GONE: &str = "ya no está aquí";

#[must_use]
pub fn met(lots: usize) -> String {
    let lots = i64::try_from(lots).unwrap_or(i64::MAX);
    format!(
        "Estuvo en contacto con {}.",
        counted(lots, "lote o lugar", "lotes y lugares")
    )
}
