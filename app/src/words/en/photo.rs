//! Photographs: taking them, keeping them, and where they are not.

use velamen_core::limits;

use super::trouble;
use crate::ledger::PhotoFault;

pub const TAKE: &str = "Take a photograph";
pub const CHOOSE: &str = "Choose a photograph";
pub const READING: &str = "Reading the photograph…";
pub const REMOVE: &str = "Remove";
pub const PUT_BACK: &str = "Put the photograph back";
pub const AWAY: &str = "Not on this phone. Another phone hands its photographs over in a ZIP.";
pub const OF_A_FINDING: &str = "Photographs";
pub const OF_A_FINDING_HINT: &str =
    "Take them first: they go with the finding you tap below. Where they were taken is not kept.";

/// A photograph's name among others: which of how many.
#[must_use]
pub fn name(number: usize, count: usize) -> String {
    if count == 1 {
        "Photograph".to_owned()
    } else {
        format!("Photograph {number} of {count}")
    }
}

#[must_use]
pub fn open(name: &str) -> String {
    format!("{name}: open it large")
}

#[must_use]
pub fn remove(name: &str) -> String {
    format!("{REMOVE}: {name}")
}

/// That there is no room for another.
#[must_use]
pub fn full(most: usize) -> String {
    if most == 1 {
        "One photograph is enough here. Remove it to take another.".to_owned()
    } else {
        format!("{most} photographs are the most for one finding. Remove one to take another.")
    }
}

/// Why a photograph is not kept, and what to do. What was typed and taken before stays.
#[must_use]
pub fn fault(fault: &PhotoFault) -> String {
    match fault {
        PhotoFault::TooLarge => format!(
            "This picture is too large: {} MB are the most. Take it with the camera, or choose a smaller one.",
            limits::PHOTO_SOURCE_BYTES_MAX >> 20
        ),
        PhotoFault::NotAPicture => {
            "The phone cannot read this file as a picture. Choose another, or take it with the camera.".to_owned()
        }
        PhotoFault::Unavailable => {
            "This browser cannot prepare photographs. Record without one; nothing else is lost.".to_owned()
        }
        PhotoFault::NotKept(error) => {
            format!("The photograph is not kept. {}", trouble::why(error))
        }
    }
}
