//! How words fit into the room there is: smaller first, then on several lines, never cut.
//!
//! The widths of the words come in, in thousandths of the size they are written in; what comes out is a size and the
//! words of each line. Words are not broken.

/// Words that go together and are written in one size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Block {
    /// Width of each word at a size of 1, in thousandths.
    pub words: Vec<u32>,
    /// Size to begin with, and the least that is still read, micrometres.
    pub largest: u32,
    pub least: u32,
    /// It is made no smaller than this for the sake of one line: then two lines are better.
    pub one_line_least: u32,
}

/// A block as it is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fitted {
    /// Micrometres.
    pub size: u32,
    /// Words of each line: from, and up to but not including.
    pub lines: Vec<(usize, usize)>,
}

/// Micrometres by which a size is made smaller at a time.
const STEP: u32 = 50;
/// Height of a line, thousandths of its size.
const LINE: u32 = 1_200;

/// Fits blocks one under the other. The first gives way last: the others go down to their least before it is written
/// smaller than is well read. `None` where they do not fit at their least.
#[must_use]
pub fn fit(blocks: &[Block], space: u32, across: u32, down: u32) -> Option<Vec<Fitted>> {
    let Some((first, others)) = blocks.split_first() else {
        return Some(Vec::new());
    };
    let well_read = first.one_line_least.max(first.least);
    let steps = shrinks(others);
    let ways = (0..=steps).map(|smaller| (well_read, smaller));
    let ways = ways.chain([(first.least, steps)]);
    for (floor, smaller) in ways {
        let Some(rest) = others
            .iter()
            .map(|block| {
                let size = block.largest.saturating_sub(smaller.saturating_mul(STEP));
                at_size(block, size.max(block.least), space, across)
            })
            .collect::<Option<Vec<Fitted>>>()
        else {
            continue;
        };
        let taken: u32 = rest.iter().map(height).sum();
        let Some(left) = down.checked_sub(taken) else {
            continue;
        };
        if let Some(first) = largest(first, floor, space, across, left) {
            return Some(std::iter::once(first).chain(rest).collect());
        }
    }
    None
}

/// How often the sizes of these blocks can be made smaller.
fn shrinks(blocks: &[Block]) -> u32 {
    let steps = |block: &Block| block.largest.saturating_sub(block.least).div_ceil(STEP);
    blocks.iter().map(steps).max().unwrap_or(0)
}

/// On one line as long as that is not too small, else on as many as it needs, as large as fits.
fn largest(block: &Block, floor: u32, space: u32, across: u32, down: u32) -> Option<Fitted> {
    let sizes = |least: u32| {
        let steps = block.largest.saturating_sub(least).div_ceil(STEP);
        (0..=steps).map(move |step| block.largest.saturating_sub(step * STEP).max(least))
    };
    let fits =
        |size: u32| at_size(block, size, space, across).filter(|fitted| height(fitted) <= down);
    sizes(block.one_line_least.max(block.least))
        .filter_map(fits)
        .find(|fitted| fitted.lines.len() <= 1)
        .or_else(|| sizes(floor).find_map(fits))
}

fn height(fitted: &Fitted) -> u32 {
    let lines = u32::try_from(fitted.lines.len()).unwrap_or(u32::MAX);
    scaled(fitted.size, LINE).saturating_mul(lines)
}

fn scaled(size: u32, thousandths: u32) -> u32 {
    let product = u64::from(size).saturating_mul(u64::from(thousandths));
    u32::try_from(product.div_ceil(1_000)).unwrap_or(u32::MAX)
}

/// Words on lines at a size; `None` where one word alone is too wide.
fn at_size(block: &Block, size: u32, space: u32, across: u32) -> Option<Fitted> {
    let mut lines: Vec<(usize, usize)> = Vec::new();
    let mut used = 0_u32;
    for (at, width) in block.words.iter().enumerate() {
        let width = scaled(size, *width);
        if width > across {
            return None;
        }
        let with = used
            .saturating_add(scaled(size, space))
            .saturating_add(width);
        match lines.last_mut() {
            Some(line) if with <= across => {
                line.1 = at + 1;
                used = with;
            }
            _ => {
                lines.push((at, at + 1));
                used = width;
            }
        }
    }
    Some(Fitted { size, lines })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn name(words: &[u32]) -> Block {
        Block {
            words: words.to_vec(),
            largest: 3_600,
            least: 1_800,
            one_line_least: 2_600,
        }
    }

    fn small(words: &[u32]) -> Block {
        Block {
            words: words.to_vec(),
            largest: 2_400,
            least: 1_700,
            one_line_least: 1_700,
        }
    }

    #[test]
    fn a_short_name_is_written_large_on_one_line() {
        let fitted = fit(&[name(&[4_000, 3_000])], 250, 30_000, 20_000).unwrap();
        assert_eq!(
            (fitted[0].size, fitted[0].lines.as_slice()),
            (3_600, &[(0, 2)][..])
        );
    }

    #[test]
    fn a_longer_one_is_made_smaller_before_it_wraps() {
        // 10 250 thousandths: one line of 30 mm at 2.9 mm.
        let fitted = fit(&[name(&[5_000, 5_000])], 250, 30_000, 20_000).unwrap();
        assert_eq!((fitted[0].size, fitted[0].lines.len()), (2_900, 1));
        let fitted = fit(&[name(&[6_000, 6_000])], 250, 30_000, 20_000).unwrap();
        assert_eq!((fitted[0].size, fitted[0].lines.len()), (3_600, 2));
    }

    #[test]
    fn what_stands_below_gives_way_to_the_name() {
        let blocks = [
            name(&[5_000, 5_000, 5_000]),
            small(&[3_000]),
            small(&[8_000]),
        ];
        let fitted = fit(&blocks, 250, 30_000, 11_000).unwrap();
        assert!(
            fitted[1].size < 2_400 && fitted[0].size >= 2_600,
            "{fitted:?}"
        );
        let fitted = fit(&blocks, 250, 30_000, 9_000).unwrap();
        assert!(
            fitted[1].size == 1_700 && fitted[0].size < 2_600,
            "{fitted:?}"
        );
        assert!(fitted.iter().map(height).sum::<u32>() <= 9_000);
        assert_eq!(fit(&blocks, 250, 30_000, 6_000), None);
    }

    #[test]
    fn a_word_wider_than_the_label_at_its_smallest_does_not_fit() {
        assert_eq!(fit(&[name(&[20_000])], 250, 30_000, 90_000), None);
        assert!(fit(&[name(&[16_600])], 250, 30_000, 90_000).is_some());
        assert_eq!(fit(&[], 250, 0, 0), Some(Vec::new()));
    }

    proptest! {
        #[test]
        fn no_word_is_lost_and_nothing_hangs_over(
            words in prop::collection::vec(100_u32..9_000, 1..12),
            below in prop::collection::vec(100_u32..9_000, 0..6),
            across in 8_000_u32..80_000,
            down in 4_000_u32..40_000,
        ) {
            let blocks = [name(&words), small(&below)];
            if let Some(fitted) = fit(&blocks, 250, across, down) {
                prop_assert!(fitted.iter().map(height).sum::<u32>() <= down);
                for (fitted, block) in fitted.iter().zip(&blocks) {
                    prop_assert!((block.least..=block.largest).contains(&fitted.size));
                    let mut next = 0;
                    for (from, to) in &fitted.lines {
                        prop_assert_eq!(*from, next);
                        prop_assert!(to > from);
                        next = *to;
                        let widths: u64 = block.words[*from..*to].iter().map(|word| u64::from(*word)).sum();
                        let spaces = 250 * u64::try_from(to - from - 1).unwrap();
                        prop_assert!((widths + spaces) * u64::from(fitted.size) <= 1_000 * u64::from(across));
                    }
                    prop_assert_eq!(next, block.words.len());
                }
            }
        }
    }
}
