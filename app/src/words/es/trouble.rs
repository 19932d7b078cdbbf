//! When something goes wrong with the phone: what happened, what is safe, what to do.

use crate::platform::failure::FailureWords;
use crate::storage::StorageError;

pub const FAILURE: FailureWords = FailureWords {
    stopped: "Esta pantalla se ha parado.",
    safe: "Todo lo que se mostró como anotado está a salvo.",
    reload: "Abrir otra vez",
    carry_out: "Guardar el libro en un archivo",
};

/// The phone's clock is in doubt: the day it shows, and the day of what was recorded last where that is later.
#[must_use]
pub fn clock_in_doubt(day: &str, last: Option<&str>) -> String {
    match last {
        None => format!(
            "El reloj del teléfono marca el {day}: ponlo en hora en los ajustes del teléfono. Cada entrada toma de él su día."
        ),
        Some(last) => format!(
            "El reloj del teléfono marca el {day}, pero la última entrada de aquí dice {last}. Mira el reloj en los ajustes del teléfono antes de anotar."
        ),
    }
}

/// The program ended while it opened the book.
#[must_use]
pub fn stopped_opening(words: &str) -> String {
    format!("el programa se paró mientras abría el libro ({words})")
}

#[must_use]
pub fn other_window_writes() -> String {
    "Otra ventana tiene el libro abierto para escribir. Ciérrala, o elige «Trabajar aquí»."
        .to_owned()
}

#[must_use]
pub fn work_here() -> String {
    "Trabajar aquí".to_owned()
}

#[must_use]
pub fn follows() -> String {
    "Otra ventana está escribiendo. Esta solo muestra.".to_owned()
}

#[must_use]
pub fn stopped() -> String {
    "Una ventana más nueva abrió el libro. Carga esta otra vez.".to_owned()
}

/// Why a record did not reach the disk.
#[must_use]
pub fn not_recorded(error: &StorageError) -> String {
    format!("No anotado. {} Lo que tocaste sigue aquí.", why(error))
}

#[must_use]
pub fn draft_not_kept(error: &StorageError) -> String {
    format!("{} Este paso está solo en la pantalla.", why(error))
}

#[must_use]
pub fn storage_lost() -> String {
    "El teléfono ha cerrado el libro. Abre el programa otra vez antes de seguir.".to_owned()
}

#[must_use]
pub fn preferences_not_kept() -> String {
    "Este navegador no deja que el programa guarde esa elección.".to_owned()
}

/// Headline of the screen shown when the book cannot be opened.
#[must_use]
pub fn cannot_open() -> String {
    "No se puede abrir el libro".to_owned()
}

#[must_use]
pub fn try_again() -> String {
    "Probar otra vez".to_owned()
}

/// Headline of a screen whose part of the program could not be had.
#[must_use]
pub fn part_missing() -> String {
    "Falta una parte del programa".to_owned()
}

pub const REST_LATE: &str = "Esta es la Ronda tal como se guardó. El resto del programa aún no se puede traer; lo que toques se anotará cuando llegue.";

pub const PART_MISSING_HINT: &str = "El libro está a salvo. Una parte del programa no se pudo leer de este teléfono ni traer; con conexión, prueba otra vez.";

/// Why, as a sentence.
#[must_use]
pub fn why(error: &StorageError) -> String {
    match error {
        StorageError::Full => "El teléfono está lleno. Libera espacio y prueba otra vez.".to_owned(),
        StorageError::Blocked => {
            "Otra ventana tiene abierta una versión anterior. Cierra todas las demás ventanas de este programa.".to_owned()
        }
        StorageError::Newer => {
            "Este libro lo escribió una versión más nueva del programa. Actualiza el programa en este teléfono.".to_owned()
        }
        StorageError::Refused => {
            "El navegador no permite guardar aquí. Las ventanas privadas a menudo no: abre el programa en una normal."
                .to_owned()
        }
        StorageError::Closed => "Se ha perdido la conexión con el libro. Abre el programa otra vez.".to_owned(),
        StorageError::Duplicate => "Esto ya estaba anotado.".to_owned(),
        StorageError::NoReader => PART_MISSING_HINT.to_owned(),
        StorageError::Other(words) => format!("El navegador dice: {words}."),
    }
}
