//! Pictures where people would rather look: the pot in section, where a lot comes from, the year, counts with their ranges.
//!
//! Invariants: plain numbers and words come in, one SVG goes out, drawn with the same ink line and
//! two tints, the number at the thing itself. A drawing is 288 units wide and shown at least 288 px
//! wide, so its 15-unit text never falls under 15 px. Each has a sentence for who cannot see it. The plan alone is made of
//! boxes of the page.

pub mod bars;
pub mod beads;
pub mod lineage;
pub mod month;
pub mod plan;
pub mod pot;
pub mod sketch;
pub mod trend;
pub mod weather;
pub mod year;

pub use bars::{Bar, Bars};
pub use beads::{Bead, BeadKind, Beads};
pub use lineage::{Child, ChildKind, Lineage, Parent};
pub use plan::{Plan, PlanBench, PlanHouse};
pub use pot::{Layer, LayerKind, PotSection};
pub use trend::{Mark, Trend};
pub use weather::WeatherBand;
pub use year::{Span, SpanKind, YearStrip};

/// Width of every drawing, in its own units.
pub(crate) const WIDE: f64 = 288.0;

/// About how wide a text of 15 units is. Only used to keep words apart, so it errs on the wide side.
pub(crate) fn text_width(text: &str) -> f64 {
    f64::from(u32::try_from(text.chars().count()).unwrap_or(u32::MAX)) * 8.2
}

/// A number for a path, to a tenth of a unit.
pub(crate) fn n(value: f64) -> String {
    format!("{value:.1}")
}
