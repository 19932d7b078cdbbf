//! The parts every screen is built from, and the look they share.
//!
//! Invariants: no part knows a lot, a dose or a task; words, numbers and callbacks come in as
//! props. No part stores anything. A part never sets a `style` attribute from text (the page's
//! policy drops those); it uses classes and single properties. Shapes carry the meaning: stake,
//! tray tag, slat and bottle; see `assets/app.css` for the palette and the measures.
//!
//! In reading order: [`shell`] frames a screen, [`shapes`] name a thing, [`row`] is work to do,
//! [`stepper`] counts, [`button`] acts, [`field`] and [`pad`] take words and amounts, [`photo`] takes pictures, [`sheet`]
//! and [`notice`] speak up, [`drawing`] shows. The gallery holds one of each; a release leaves it out.

pub mod button;
pub mod day;
pub mod drawing;
pub mod fact;
pub mod field;
#[cfg(debug_assertions)]
pub mod gallery;
#[cfg(debug_assertions)]
pub mod gallery_look;
#[cfg(debug_assertions)]
pub mod gallery_rows;
pub mod guard;
pub mod icon;
pub mod notice;
pub mod pad;
pub mod photo;
pub mod pick;
pub mod plain;
pub mod pocket;
pub mod row;
pub mod several;
pub mod shapes;
pub mod sheet;
pub mod shell;
pub mod stepper;
#[cfg(test)]
mod tests;
pub mod windowed;

pub use button::{MainAction, PlainAction, PlainLink};
pub use day::DayField;
pub use fact::{Amount, Fact, Facts, Lesson, Progress};
pub use field::{Choice, Choices, ChoicesLook, Field, Keys, Toggle, what_is_wrong};
#[cfg(debug_assertions)]
pub use gallery::Gallery;
pub use icon::{Glyph, Icon};
pub use notice::{Notice, NoticeKind};
pub use pad::NumberPad;
pub use photo::{Photo, PhotoPick, PickedPhoto, Picture};
pub use pick::Pick;
pub use plain::PlantNameRuns;
pub use pocket::{Pocket, PocketLock};
pub use row::{WorkRow, WorkState};
pub use several::Several;
pub use shapes::{Bottle, Slat, Stake, TrayTag};
pub use sheet::Sheet;
pub use shell::{Beside, HelpLink, Room, RoomBar, Screen, TopBack, stands_first};
pub use stepper::Stepper;
pub use windowed::Windowed;

use std::cell::Cell;

thread_local! {
    static LAST_ID: Cell<u32> = const { Cell::new(0) };
}

/// A page-wide unique element id, for labels and descriptions that point at each other.
pub(crate) fn fresh_id(stem: &str) -> String {
    LAST_ID.with(|last| {
        let next = last.get().wrapping_add(1);
        last.set(next);
        format!("{stem}-{next}")
    })
}
