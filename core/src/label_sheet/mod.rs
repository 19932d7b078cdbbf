//! Labels for pots on paper: what stands on one, how its words fit, and where it lies on the sheet.
//!
//! What holds: every length is in whole micrometres; a name is made smaller, then put on several lines, and never cut;
//! what does not fit is said and not printed.

mod choice;
mod fit;
mod room;
mod sheet;
mod text;

pub use choice::{LabelOf, LabelsDraft, Pick, Printed, SheetTyped};
pub use fit::{Block, Fitted, fit};
pub use room::{EDGE_UM, QUIET_MODULES, Room, room};
pub use sheet::{Cell, PRESETS, Preset, Sheet, SheetFault, SheetField, Size};
pub use text::{Caution, LabelText, Word, label_texts, name_words};

/// Most labels printed at a time.
pub const LABELS_MAX: u32 = 2_000;
