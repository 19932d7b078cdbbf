//! The nursery's book, without a phone around it.

pub mod code;
pub mod name;
pub mod potting;
pub mod quantity;
pub mod reference;
pub mod season;
pub mod text;
