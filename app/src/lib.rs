//! The phone's side of the book.
//!
//! Screens ask the ledger and act through it; the ledger alone knows storage and platform; the ui parts know nothing of
//! the nursery; the words stand in one place.

pub mod app;
pub mod bench;
pub mod desk;
mod frame;
#[cfg(test)]
mod golden;
pub mod help;
pub mod ledger;
pub mod platform;
mod rest;
pub mod route;
pub mod screens;
mod settle;
pub mod soaks;
pub mod storage;
pub mod ui;
pub mod words;

pub use app::App;
