//! The screens, one file each: they ask the ledger, show what it answers, and raise commands.

pub mod book;
pub mod clump;
pub mod entry;
pub mod files;
pub mod lot;
pub mod lot_change;
pub mod lot_forms;
pub mod lot_lineage;
pub mod lot_parts;
pub mod lot_work;
pub mod mixes;
pub mod new_lot;
pub mod new_task;
pub mod open_clump;
pub mod phone;
pub mod places;
pub mod pots;
pub mod protocols;
pub mod questions;
pub mod repot;
pub mod round;
pub mod seen;
pub mod shed;
pub mod start;
pub mod stock;
pub mod treat;
