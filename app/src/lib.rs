//! The phone's side of the book.

pub mod platform;
mod settle;
pub mod storage;
pub mod ui;
