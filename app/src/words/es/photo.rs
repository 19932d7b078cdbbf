//! Photographs: taking them, keeping them, and where they are not.

use velamen_core::limits;

use super::trouble;
use crate::ledger::PhotoFault;

pub const TAKE: &str = "Hacer una foto";
pub const CHOOSE: &str = "Elegir una foto";
pub const READING: &str = "Leyendo la foto…";
pub const REMOVE: &str = "Quitar";
pub const PUT_BACK: &str = "Volver a poner la foto";
pub const AWAY: &str = "No está en este teléfono. Otro teléfono entrega sus fotos en un ZIP.";
pub const OF_A_FINDING: &str = "Fotos";
pub const OF_A_FINDING_HINT: &str =
    "Hazlas antes: van con el hallazgo que toques abajo. No se guarda dónde se hicieron.";

/// A photograph's name among others: which of how many.
#[must_use]
pub fn name(number: usize, count: usize) -> String {
    if count == 1 {
        "Foto".to_owned()
    } else {
        format!("Foto {number} de {count}")
    }
}

#[must_use]
pub fn open(name: &str) -> String {
    format!("{name}: abrir en grande")
}

#[must_use]
pub fn remove(name: &str) -> String {
    format!("{REMOVE}: {name}")
}

/// That there is no room for another.
#[must_use]
pub fn full(most: usize) -> String {
    if most == 1 {
        "Aquí basta una foto. Quítala para hacer otra.".to_owned()
    } else {
        format!("Un hallazgo admite como mucho {most} fotos. Quita una para hacer otra.")
    }
}

/// Why a photograph is not kept, and what to do. What was typed and taken before stays.
#[must_use]
pub fn fault(fault: &PhotoFault) -> String {
    match fault {
        PhotoFault::TooLarge => format!(
            "Esta imagen es demasiado grande: el máximo son {} MB. Hazla con la cámara, o elige una más pequeña.",
            limits::PHOTO_SOURCE_BYTES_MAX >> 20
        ),
        PhotoFault::NotAPicture => {
            "El teléfono no puede leer este archivo como imagen. Elige otro, o hazla con la cámara."
                .to_owned()
        }
        PhotoFault::Unavailable => {
            "Este navegador no puede preparar fotos. Anota sin ella; no se pierde nada más."
                .to_owned()
        }
        PhotoFault::NotKept(error) => {
            format!("La foto no se ha guardado. {}", trouble::why(error))
        }
    }
}
