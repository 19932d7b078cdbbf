//! En la mesa: las teclas y la impresora.

pub use crate::words::parts::Deed;

pub const TITLE: &str = "Teclas";
pub const PRINT: &str = "Imprimir";
pub const HINT: &str = "Las teclas esperan mientras escribes en un campo. Tab pasa de una cosa a la siguiente, Intro la abre.";
pub const LETTERS: &str = "Las letras sueltas hacen cosas";
pub const LETTERS_HINT: &str = "Solo en una ventana ancha.";

#[must_use]
pub const fn does(deed: Deed) -> &'static str {
    match deed {
        Deed::Rooms => "Ronda, Trasplante, Tratar, Plantas, Libro; el Almacén",
        Deed::Look => "Buscar un lote",
        Deed::Next => "Lo siguiente de la lista",
        Deed::Before => "Lo anterior",
        Deed::Choose => "Elegir el lote, o dejarlo",
        Deed::Done => "El trabajo de esta fila está hecho",
        Deed::Across => "De la lista a lo que está abierto, y vuelta",
        Deed::Undo => "Deshacer, mientras se ofrece",
        Deed::Print => "Imprimir esta página",
        Deed::Back => "Salir de un campo; volver a la lista",
        Deed::Keys => "Estas teclas",
    }
}
