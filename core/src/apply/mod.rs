//! Putting a product on plants, whatever the way: the bottle and its label, the mixture, what it is for, and what holds it.
//!
//! Invariants: the amount follows from the label's rate and the water and from nothing else; a rate above the label's
//! highest is refused, everything else that speaks against it is said with its reason and goes on only by saying why.

mod container;
mod drench;
mod dust;
mod mixing;
mod never;
mod pair;
mod rotated;
mod spray;
mod strength;
mod swab;
mod target;
mod work;

pub use container::TakenFrom;
pub use drench::{Drench, OF_POT_PERMILLE};
pub use mixing::{BottleDraft, MixFault, Mixing, Mixture, RateRead};
pub use never::{Before, Meeting, VESSEL_DAYS, Where, meetings};
pub use pair::{TankFault, ThenDraft, USUAL_DAYS, between_products, not_allowing};
pub use rotated::Rotated;
pub use spray::{ML_PER_M2, area_of};
pub use strength::LabelRange;
pub use swab::CUP_UL;
pub use target::{Fit, Held, WhyHeld, fit};
pub use work::{Aired, ApplyDraft, ApplyFault, ApplyStep, Measured, WaterDraft, WaterFault};
