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
pub const NEXT: &str = "Hay una versión nueva. Nada de lo empezado se pierde.";
pub const PUT_IN: &str = "Ponerla";

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
