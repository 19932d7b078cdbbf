//! The nursery's book, without a phone around it.
