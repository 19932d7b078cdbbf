//! The phone's side of the book.

pub mod platform;
pub mod storage;
