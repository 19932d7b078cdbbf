//! Measures as they are commonly sold: one tap puts one on the shelf.
//!
//! Common sizes, no source: the marks of a measure in the hand are the ones that count, and can be typed over.

use crate::event::MeasureKind;

/// A common size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Size {
    pub kind: MeasureKind,
    /// Microlitres, or milligrams on a scale.
    pub least: i64,
    pub most: i64,
    pub graduation: i64,
}

const fn size(kind: MeasureKind, least: i64, most: i64, graduation: i64) -> Size {
    Size {
        kind,
        least,
        most,
        graduation,
    }
}

/// The ready-made ones, small to large. The least is a tenth of what it holds, or for a scale twenty of its steps.
pub const SIZES: [Size; 9] = [
    size(MeasureKind::Syringe, 100, 1_000, 10),
    size(MeasureKind::Syringe, 600, 5_000, 200),
    size(MeasureKind::Syringe, 1_000, 10_000, 500),
    size(MeasureKind::Syringe, 6_000, 60_000, 1_000),
    size(MeasureKind::Cylinder, 10_000, 100_000, 1_000),
    size(MeasureKind::Jug, 100_000, 1_000_000, 50_000),
    size(MeasureKind::Spoon, 5_000, 5_000, 5_000),
    size(MeasureKind::Scale, 200, 200_000, 10),
    size(MeasureKind::Scale, 2_000, 500_000, 100),
];
