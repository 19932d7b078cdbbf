//! How a label is divided: a code on one side, the words on the other.

use super::Size;

/// Between what is printed and the edge of the label, and between code and words; printers are off by half of it.
pub const EDGE_UM: u32 = 1_500;
/// Light modules around a code that ISO/IEC 18004 asks for.
pub const QUIET_MODULES: u32 = 4;
/// Least side of a module that a phone held over a label reads: common practice, no source.
const MODULE_LEAST_UM: u32 = 250;
/// A code is no larger than this.
const CODE_MOST_UM: u32 = 24_000;

/// What a label is divided into, micrometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Room {
    /// Side of the code with its quiet zone; `None` where it would be too small to be read.
    pub code: Option<u32>,
    /// The words.
    pub words: Size,
    /// The code stands over the words, on a label that is higher than wide.
    pub over: bool,
}

/// Divides a label for a code of so many modules; `None` where none is wanted.
#[must_use]
pub fn room(label: Size, modules: Option<u32>) -> Room {
    let inner = |length: u32| length.saturating_sub(2 * EDGE_UM);
    let (across, down) = (inner(label.across), inner(label.down));
    let over = label.down > label.across;
    let side = if over {
        across.min(down / 2)
    } else {
        down.min(across * 9 / 20)
    };
    let side = side.min(CODE_MOST_UM);
    let code = modules
        .map(|modules| modules.saturating_add(2 * QUIET_MODULES))
        .filter(|modules| side / (*modules).max(1) >= MODULE_LEAST_UM)
        .map(|_| side);
    let taken = code.map_or(0, |side| side.saturating_add(EDGE_UM));
    let words = if over {
        Size {
            across,
            down: down.saturating_sub(taken),
        }
    } else {
        Size {
            across: across.saturating_sub(taken),
            down,
        }
    };
    Room { code, words, over }
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn size(across: u32, down: u32) -> Size {
        Size { across, down }
    }

    #[test]
    fn a_code_takes_less_than_half_of_a_wide_label_and_half_of_a_high_one() {
        let wide = room(size(50_000, 25_000), Some(37));
        assert_eq!(
            (wide.code, wide.words),
            (Some(21_150), size(24_350, 22_000))
        );
        let high = room(size(25_000, 50_000), Some(37));
        assert_eq!(
            (high.code, high.words),
            (Some(22_000), size(22_000, 23_500))
        );
        assert!(high.over && !wide.over);
    }

    #[test]
    fn a_code_too_small_to_be_read_is_left_out() {
        let small = room(size(30_000, 12_000), Some(37));
        assert_eq!((small.code, small.words), (None, size(27_000, 9_000)));
        assert_eq!(room(size(50_000, 25_000), None).code, None);
        assert_eq!(room(size(1_000, 1_000), Some(21)).code, None);
    }
}
