//! Values worked out elsewhere (publications, libraries, definitions), held against the core's own.
//!
//! Each sheet is a CSV beside this file. `OUTSIDE_DIR` names another folder with sheets of the same form; what is not there
//! is reported as not run.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test binary: the lints' allowance for tests does not reach functions beside them"
)]

mod calendar;
mod calendar_files;
mod chlorine;
mod climate;
mod codes;
mod feeds;
mod names;
mod plans;
mod pots;
mod proportions;
mod qr;
mod rates;
mod shares;
mod sheet;
mod stages;
mod topple;
mod units;
mod volumes;
