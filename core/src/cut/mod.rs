//! Before the cut: what a clump may become, side by side, and whether to touch it at all.
//!
//! Nobody counts bulbs in an unopened clump: what is not known is a range, and every number that follows from it is one
//! too. A plan is advice with its reason; the grower's own numbers are taken as they are, and told what speaks against
//! them. Whole numbers only; what will live and flower is asked of [`crate::outlook`].

mod known;
mod needs;
mod own;
mod room;
mod ways;
mod when;

pub use known::{Known, of_clump, of_lots, of_opening};
pub use needs::{Needs, PotNeed, first_mix, first_pot, needs};
pub use own::{Against, against};
pub use room::{pot_for, room_mm};
pub use ways::{Choice, choice, choices};
pub use when::{Due, RepotNow, repot_now};
