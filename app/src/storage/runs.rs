//! Which identities lie in sealed segments, as runs of consecutive numbers for each device.
//!
//! Rows have an index that refuses a second line of the same identity. A sealed line has left that index, so its
//! identity is kept here. A device numbers its lines without gaps, so a book of any age needs a run or two a device.
//!
//! The kept form is one run a line, `device first last`: the device as 16 hexadecimal digits, the numbers in decimal.

use std::collections::BTreeMap;
use std::fmt::Write;

/// Runs of identities, kept merged: no two runs of a device touch.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Runs {
    by_dev: BTreeMap<u64, BTreeMap<u64, u64>>,
}

impl Runs {
    /// Reads the kept form; `None` when it is damaged.
    pub(crate) fn parse(text: &str) -> Option<Self> {
        let mut runs = Self::default();
        for line in text.lines() {
            let mut words = line.split(' ');
            let dev = u64::from_str_radix(words.next()?, 16).ok()?;
            let first: u64 = words.next()?.parse().ok()?;
            let last: u64 = words.next()?.parse().ok()?;
            if words.next().is_some() || first > last {
                return None;
            }
            runs.by_dev.entry(dev).or_default().insert(first, last);
        }
        Some(runs)
    }

    /// Writes the kept form.
    pub(crate) fn text(&self) -> String {
        let mut text = String::new();
        for (dev, runs) in &self.by_dev {
            for (first, last) in runs {
                // Writing to a string cannot fail.
                let _ = writeln!(text, "{dev:016x} {first} {last}");
            }
        }
        text
    }

    /// Whether this identity is among them.
    pub(crate) fn holds(&self, dev: u64, seq: u64) -> bool {
        self.by_dev
            .get(&dev)
            .and_then(|runs| runs.range(..=seq).next_back())
            .is_some_and(|(_, last)| seq <= *last)
    }

    /// Each run as device, first and last number.
    pub(crate) fn each(&self) -> impl Iterator<Item = (u64, u64, u64)> {
        let runs = self.by_dev.iter();
        runs.flat_map(|(dev, runs)| runs.iter().map(|(first, last)| (*dev, *first, *last)))
    }

    /// Adds an identity, joining the runs it touches.
    pub(crate) fn add(&mut self, dev: u64, seq: u64) {
        if self.holds(dev, seq) {
            return;
        }
        let runs = self.by_dev.entry(dev).or_default();
        let first = runs
            .range(..seq)
            .next_back()
            .filter(|(_, last)| last.checked_add(1) == Some(seq))
            .map_or(seq, |(first, _)| *first);
        let last = seq
            .checked_add(1)
            .and_then(|next| runs.remove(&next))
            .unwrap_or(seq);
        runs.insert(first, last);
    }
}

#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests {
    use super::Runs;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn runs_that_touch_become_one_in_whatever_order_they_come() {
        let mut runs = Runs::default();
        for seq in [5, 3, 1, 2, 4] {
            runs.add(0xab, seq);
        }
        runs.add(0xab, 9);
        runs.add(0x1, 1);
        assert_eq!(
            runs.text(),
            "0000000000000001 1 1\n00000000000000ab 1 5\n00000000000000ab 9 9\n"
        );
        assert!(runs.holds(0xab, 3) && runs.holds(0xab, 9) && runs.holds(1, 1));
        assert!(!runs.holds(0xab, 0) && !runs.holds(0xab, 6) && !runs.holds(2, 1));
        assert_eq!(Runs::parse(&runs.text()), Some(runs));
    }

    #[wasm_bindgen_test]
    fn damaged_runs_are_not_taken_for_an_empty_list() {
        assert_eq!(Runs::parse("zz 1 2"), None);
        assert_eq!(Runs::parse("01 2 1"), None);
        assert_eq!(Runs::parse("01 2"), None);
        assert_eq!(Runs::parse(""), Some(Runs::default()));
    }
}
