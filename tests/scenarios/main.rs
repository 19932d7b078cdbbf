//! The core as a grower meets it: a date, something done, and what the book then says.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test binary: the lints' allowance for tests does not reach functions beside them"
)]

mod answers;
mod bad_input;
mod bath_life;
mod bath_use;
mod baths;
mod bench;
mod chemistry;
mod cleaning;
mod climate;
mod clocks;
mod containers;
mod corrections;
mod costs;
mod cuts;
mod days;
mod demo;
mod feeding;
mod files;
mod findings;
mod generations;
mod handing_over;
mod hands_off;
mod label_uses;
mod labels;
mod learned;
mod limits;
mod loads;
mod looking_back;
mod methods;
mod newer;
mod outlooks;
mod pairs;
mod papers;
mod parts;
mod preparing;
mod protocols;
mod quarantine;
mod questions;
mod readers;
mod record_rules;
mod records;
mod reserves;
mod reuse;
mod rotation;
mod scene;
mod seasons;
mod stays;
mod stock_lists;
mod tables;
mod targets;
mod three_pots;
mod traces;
mod water;
mod whole_year;
mod windows;
