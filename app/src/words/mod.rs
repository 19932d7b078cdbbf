//! Every sentence the program says, in one place. Core speaks in data; screens ask here for the words.
//!
//! Plain English, the trade's own words, short. One file per theme; a further language is a further set of files.

pub mod apart;
pub mod apply;
pub mod batches;
pub mod bath;
pub mod bath_life;
pub mod book;
pub mod clean;
pub mod climate;
pub mod containers;
pub mod day;
pub mod entry;
pub mod files;
pub mod format;
pub mod logger;
pub mod measure;
pub mod mixing;
pub mod origins;
pub mod outlook;
pub mod photo;
pub mod place_at;
pub mod product;
pub mod program;
pub mod protocol;
pub mod questions;
pub mod record;
pub mod rejection;
pub mod repot;
pub mod rooms;
pub mod rotation;
pub mod round;
pub mod seen;
pub mod shed;
pub mod signs;
pub mod start;
pub mod stock;
pub mod task;
pub mod told;
pub mod trade;
pub mod treat;
pub mod trouble;
pub mod water;
