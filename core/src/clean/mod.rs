//! Cleaning: what is made of the bottle, what lies in it how long, and what becomes of pots and stone.
//!
//! Invariants: the amount follows from the strength on the bottle and the strength wanted, and is rounded once; the
//! strength wanted is made *up to* the bath's volume, not added to it; a contact time is a stored instant.

mod cuts;
mod dilution;
mod draft;
mod wash_draft;

pub use cuts::{Cut, Session, Tool, cut_order, last_cut, next_tool, session};
pub use dilution::{
    Dilution, DilutionFault, Form, PPM_WHOLE, dilute, parse_strength, parts_of_water,
};
pub use draft::{CleanFault, CleanStep, CleaningDraft, Standing, weighed_whole};
pub use wash_draft::{PutIn, TakenUp, WashDraft, next_stage};
