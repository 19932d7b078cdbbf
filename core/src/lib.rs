//! The nursery's book, without a phone around it.

pub mod code;
pub mod quantity;
pub mod season;
pub mod text;
