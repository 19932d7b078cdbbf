//! The core as a grower meets it: a date, something done, and what the book then says.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test binary: the lints' allowance for tests does not reach functions beside them"
)]

mod bad_input;
mod files;
mod newer;
mod questions;
mod three_pots;
