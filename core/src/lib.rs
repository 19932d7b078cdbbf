//! The nursery's book, without a phone around it.
//!
//! A nursery's record is its book: a set of immutable entries, joined by union. Everything a screen shows is computed
//! from them. This crate is a function: no clock, no chance, no storage, no locale, no hash order. What it needs of the
//! outside world comes in as an argument ([`time::Moment`]).
//!
//! Reading order: [`id`] and [`time`] say what things are called and in which order they happen; [`event`] is the
//! vocabulary; [`entry`] its stored form; [`log`] joins entries; [`state`] folds them into facts; [`task`] derives what
//! is due; [`decide`] turns a command into an entry or refuses it; [`view`] answers the screens' questions;
//! [`exchange`] carries a book between phones.
//!
//! Invariants. `State::take` is total. What is stored holds no float. A stored form is never taken back. Nothing in the
//! book is overwritten or dropped; what phones contradict becomes a question.

pub mod apply;
pub mod bath;
pub mod calendar;
pub mod cells;
pub mod clean;
pub mod climate;
pub mod climate_draft;
pub mod code;
pub mod command;
pub mod container_draft;
pub mod correction;
pub mod cut;
pub mod cut_draft;
pub mod decide;
pub mod demo;
pub mod draft;
pub mod entry;
pub mod event;
pub mod exchange;
pub mod finding_draft;
pub mod first_draft;
pub mod id;
pub mod label_draft;
pub mod label_sheet;
pub mod limits;
pub mod lists;
pub mod log;
pub mod lot_draft;
pub mod measure;
pub mod name;
pub mod outlook;
mod pack;
pub mod papers;
pub mod plan;
pub mod potting;
pub mod price_draft;
pub mod quantity;
pub mod quarantine;
pub mod record;
pub mod reference;
pub mod rejection;
pub mod rotation;
mod scan;
pub mod season;
pub mod shed_draft;
pub mod state;
pub mod stats;
pub mod stock_list;
pub mod task;
pub mod test_draft;
pub mod text;
pub mod time;
pub mod trace;
pub mod treat_draft;
pub mod upcast;
pub mod view;
pub mod water;
pub mod water_draft;
