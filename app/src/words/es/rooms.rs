//! Names of rooms and what is said on every screen.

pub const ROUND: &str = "Ronda";
pub const REPOT: &str = "Dividir";
pub const TREAT: &str = "Tratar";
pub const STOCK: &str = "Plantas";
pub const BOOK: &str = "Libro";
pub const SHED: &str = "Almacén";
pub const START: &str = "inicio";
pub const TRAY: &str = "bandeja";
pub const ROOMS: &str = "Salas";

#[must_use]
pub fn back_to(room: &str) -> String {
    format!("Volver a {room}")
}
