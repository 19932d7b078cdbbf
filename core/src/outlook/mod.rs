//! What will become of it: survival learned from the book, and what may flower or be sold, month by month.
//!
//! Invariants: no share without its number of cases and its interval; what the book has seen joins the table's range
//! and never replaces it at once; a forecast never counts more plants than there are. Computed in `f64` when it is asked
//! for, rounded in what is given out; nothing of it is stored.

mod beta;
mod forecast;
mod lead;
mod learn;

pub use beta::Beta;
pub use forecast::{Forecast, Month, Span, forecast};
pub use lead::{ClassRow, class_row, classes};
pub use learn::{Learned, Lost as LostPlants, learn, loss_ledger};
