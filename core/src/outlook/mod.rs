//! What will become of it: survival learned from the book, and what may flower or be sold, month by month.
//!
//! Invariants: no share without its number of cases and its interval; what the book has seen joins the table's range
//! and never replaces it at once; a forecast never counts more plants than there are. Computed in `f64` when it is asked
//! for, rounded in what is given out; nothing of it is stored.

mod beta;
mod by;
mod cohort;
mod forecast;
mod lead;
mod learn;
mod planned;
mod stage;
mod yields;

pub use beta::Beta;
pub use by::{By, Flowered, LearnedBy, flowered, learn_by};
pub use forecast::{AsPlanned, Forecast, Month, Span, forecast, forecast_as_planned};
pub use lead::{ClassRow, class_row, classes};
pub use learn::{Learned, Lost as LostPlants, learn, loss_ledger};
pub use planned::{Ahead, Season, ahead, spans, windows_of};
pub use stage::step;
pub use yields::{Alive, BathHelp, YIELD_DAYS, YieldRow, bath_help, yields};
