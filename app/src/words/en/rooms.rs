//! Names of rooms and what is said on every screen.

pub const ROUND: &str = "Round";
pub const REPOT: &str = "Repot";
pub const TREAT: &str = "Treat";
pub const STOCK: &str = "Stock";
pub const BOOK: &str = "Book";
pub const SHED: &str = "Shed";
pub const START: &str = "the start";
pub const TRAY: &str = "tray";
pub const ROOMS: &str = "Rooms";

#[must_use]
pub fn back_to(room: &str) -> String {
    format!("Back to {room}")
}
