//! The program itself: whether it opens without a network, and its next version.

use crate::ledger::Keeping;

pub const LANGUAGE_TITLE: &str = "Idioma";
pub const LANGUAGE_AS_PHONE: &str = "Como el teléfono";
pub const LANGUAGE_NOT_HERE: &str = "Ese idioma aún no está en este teléfono y no se ha podido traer. Elígelo una vez con conexión.";
pub const UNITS: &str = "Unidades";
pub const METRIC: &str = "Métricas";
pub const US: &str = "De EE. UU.";
pub const IMPERIAL: &str = "Imperiales";
pub const UNITS_HINT: &str =
    "Lo que se mide para una cubeta sigue en mL y g, como van marcadas jeringas y balanzas.";
pub const WITHOUT_NETWORK: &str = "Sin conexión";
const NEXT: &str = "Hay una versión nueva. Nada de lo empezado se pierde.";
pub const PUT_IN: &str = "Ponerla";

/// A next version lies ready, with what is new in it where that is known.
#[must_use]
pub fn next(news: &str) -> String {
    if news.is_empty() {
        return NEXT.to_owned();
    }
    format!("Hay una versión nueva. {news} Nada de lo empezado se pierde.")
}

/// What is new in the version that is in use.
#[must_use]
pub fn in_this(news: &str) -> String {
    format!("Nuevo en esta versión: {news}")
}

/// Whether the program is kept on this phone, or why not and what to do.
#[must_use]
pub fn kept(keeping: Keeping) -> &'static str {
    match keeping {
        Keeping::OnItsWay => "Se está guardando: sigue con conexión hasta que aquí diga que está.",
        Keeping::Kept => "Guardado en este teléfono: se abre sin conexión.",
        Keeping::NotInThisBuild => "No guardado: esta copia del programa no se puede guardar.",
        Keeping::OpenAddress => {
            "No guardado: su dirección no empieza por https. Solo se abre donde se llegue a esa dirección."
        }
        Keeping::Forbidden => {
            "No guardado: este navegador no lo permite aquí. Las ventanas privadas a menudo no: ábrelo en una normal."
        }
        Keeping::Incomplete => {
            "No guardado: no llegó todo entero, o el teléfono no tiene sitio. Libera espacio y ábrelo otra vez con conexión."
        }
    }
}
