//! "Seen here".

pub const THE_PLANT: &str = "The plant";
pub const DISEASE_OR_PEST: &str = "Disease or pest";
pub const OWN_WORDS: &str = "In your own words";
pub const RECORD: &str = "Record this";
