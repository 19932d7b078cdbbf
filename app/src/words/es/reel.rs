//! A file as squares from one phone's screen to another's camera.

use super::format::many;
use crate::ledger::NoReel;

pub const SHOW: &str = "Mostrar como cuadrados";
pub const READ: &str = "Leer cuadrados";
pub const READ_HINT: &str =
    "Sin red ni cable: unas pocas anotaciones desde la pantalla del otro teléfono, con la cámara.";
/// What the file is called that came as squares.
pub const NAME: &str = "cuadrados";
pub const MAKING: &str = "Dibujando los cuadrados";
pub const HOW: &str = "En el otro teléfono: Libro, Entregar o recibir, Leer cuadrados. Mantén su cámara sobre esta pantalla hasta que los tenga todos; el orden no importa.";
pub const NEXT: &str = "Cuadrado siguiente";
pub const BY_ITSELF: &str = "Cambia solo";
pub const WAS_READ: &str = "El otro teléfono los tiene todos";
pub const HANDED_OVER: &str = "Entregado por cuadrados.";
pub const BY_FILE: &str = "Entregar como archivo";
pub const READING: &str = "Cuadrados";
pub const LOOKING: &str =
    "Pon el cuadrado del otro teléfono dentro de la imagen, hasta que se lean todos.";
pub const REFUSED: &str = "La cámara no está permitida aquí. Pide un archivo, o permítela en los ajustes de esta página en el navegador.";
pub const MISSING: &str = "Aquí no hay cámara disponible. Pide un archivo.";
pub const CANNOT_READ: &str = "Este teléfono no puede leer cuadrados ahora mismo. Pide un archivo.";
pub const FOREIGN: &str =
    "Ese cuadrado es de otra cosa. El otro teléfono muestra los suyos en «Mostrar como cuadrados».";
pub const NEWER: &str = "Una versión más nueva del programa muestra estos cuadrados. Actualiza el programa en este teléfono, o pide un archivo.";
pub const DAMAGED: &str = "Ese cuadrado salió mal. Mantén quieta la cámara; volverá a pasar.";

/// Which square is shown.
#[must_use]
pub fn square(number: usize, of: usize) -> String {
    format!("Cuadrado {number} de {of}")
}

/// What lies in the squares.
#[must_use]
pub fn entries(count: usize) -> String {
    many(count, "anotación", "anotaciones")
}

/// How many were read.
#[must_use]
pub fn read(count: usize, of: usize) -> String {
    format!("{count} de {of} leídos")
}

/// Which are missing; they are named once they are few.
#[must_use]
pub fn missing(numbers: &[usize]) -> String {
    match numbers {
        [] => String::new(),
        some if some.len() > 5 => format!("Faltan {}", some.len()),
        some => {
            let some: Vec<String> = some.iter().map(ToString::to_string).collect();
            format!("Faltan: {}", some.join(", "))
        }
    }
}

/// Why there are no squares.
#[must_use]
pub fn none(none: NoReel) -> &'static str {
    match none {
        NoReel::Nothing => "Al otro teléfono no le falta nada, que se sepa aquí.",
        NoReel::TooMuch => {
            "Es más de lo que llevan los cuadrados: son para unas docenas de anotaciones, y nadie mantiene quieta la cámara más tiempo. Guárdalo como archivo o compártelo."
        }
        NoReel::NotDrawn => {
            "Ahora mismo no se pudieron dibujar los cuadrados. Guarda un archivo o compártelo."
        }
    }
}
