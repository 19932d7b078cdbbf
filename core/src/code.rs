//! Lot codes for people: short enough for a wet pencil, and safe against a slip of it.
//!
//! A code is a phone's prefix (a letter and a digit), a counter and a check letter: `K3-118R`. It names a lot to people;
//! the book itself knows a lot by another identity, so a prefix two phones share is a question, never a lost record.
//!
//! Each place in a code takes either a letter or a digit, never both, so `O` for `0` cannot mislead. The letters are the
//! seventeen that pass neither for a digit nor, with U gone, easily for one another: no B G I L O Q S U Z.
//!
//! The check letter follows the pure systems of ISO 7064 (the arithmetic of MOD 37-2 and MOD 97-10: every place weighs a
//! power of a radix, the sum is 1 for a right code) with modulus 17 and radix 3. MOD 37-2 itself would ask for `*`, `O`
//! and digits as check characters; seventeen is the prime that fits the letters. Three is a primitive root of 17, so
//! every wrong character and every two exchanged digits are caught, adjacent or not. A digit left out or doubled is
//! caught about sixteen times in seventeen. The counter is weighed as six digits, so leading zeros do not matter.

use core::fmt;
use serde::{Deserialize, Serialize};

/// Letters one can tell apart in pencil, in the order of their check value.
pub(crate) const LETTERS: &str = "ACDEFHJKMNPRTVWXY";
/// Digits of a prefix: no 0 or 1, which pass for letters when a code is read aloud.
const PREFIX_DIGITS: core::ops::RangeInclusive<u8> = 2..=9;
const MODULUS: u32 = 17;
const RADIX: u32 = 3;
const COUNTER_DIGITS: u32 = 6;
/// The highest counter a prefix can carry.
pub const COUNTER_MAX: u32 = 999_999;
/// Printed counters have at least this many digits, so that codes line up on a tray.
const COUNTER_PRINTED: usize = 3;
/// Longest typed text that is looked at, in characters.
const TYPED_MAX: usize = 32;

/// The sum of a pure ISO 7064 system: `values` from the left, each smaller than `modulus`. A right code gives 1.
pub fn iso7064_sum(values: impl IntoIterator<Item = u32>, modulus: u32, radix: u32) -> u32 {
    let modulus = u64::from(modulus.max(1));
    let sum = values.into_iter().fold(0_u64, |sum, value| {
        (sum * u64::from(radix) + u64::from(value)) % modulus
    });
    u32::try_from(sum).unwrap_or(0)
}

/// The value of the one check character of a pure ISO 7064 system.
pub fn iso7064_check(body: impl IntoIterator<Item = u32>, modulus: u32, radix: u32) -> u32 {
    let modulus = modulus.max(1);
    let body = iso7064_sum(body.into_iter().chain([0]), modulus, radix);
    (modulus + 1 - body) % modulus
}

/// The letter and digit a phone writes before its counters.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct Prefix {
    letter: char,
    digit: u8,
}

impl Prefix {
    /// How many prefixes there are.
    pub const COUNT: usize = 136;

    /// Every prefix, in order.
    pub fn all() -> impl Iterator<Item = Prefix> {
        LETTERS
            .chars()
            .flat_map(|letter| PREFIX_DIGITS.map(move |digit| Prefix { letter, digit }))
    }

    /// A prefix from a seed: the same seed gives the same prefix, neighbouring seeds give unlike ones.
    pub fn pick(seed: u64) -> Prefix {
        let at = spread(seed) % Self::COUNT as u64;
        let at = usize::try_from(at).unwrap_or(0);
        Self::all().nth(at).unwrap_or(FIRST)
    }

    /// A prefix from a seed that no other phone of the book has; `None` when all are taken.
    pub fn pick_free(seed: u64, taken: &std::collections::BTreeSet<Prefix>) -> Option<Prefix> {
        let start = Self::all().position(|prefix| prefix == Self::pick(seed))?;
        Self::all()
            .chain(Self::all())
            .skip(start)
            .take(Self::COUNT)
            .find(|prefix| !taken.contains(prefix))
    }

    /// The code of this prefix with a counter of 1 to [`COUNTER_MAX`].
    pub fn code(self, counter: u32) -> Option<LotCode> {
        (1..=COUNTER_MAX).contains(&counter).then_some(LotCode {
            prefix: self,
            counter,
        })
    }

    /// Reads a prefix as typed: case does not matter.
    pub fn parse(typed: &str) -> Option<Prefix> {
        let mut chars = typed.trim().chars();
        let letter = letter(chars.next()?)?;
        let digit = digit(chars.next()?)?;
        (chars.next().is_none() && PREFIX_DIGITS.contains(&digit))
            .then_some(Prefix { letter, digit })
    }
}

const FIRST: Prefix = Prefix {
    letter: 'A',
    digit: 2,
};

/// The finishing steps of SplitMix64: a fixed mixing of bits, no chance in it.
pub(crate) fn spread(seed: u64) -> u64 {
    let mixed = seed.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    mixed ^ (mixed >> 31)
}

impl fmt::Display for Prefix {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.letter, self.digit)
    }
}

impl From<Prefix> for String {
    fn from(prefix: Prefix) -> String {
        prefix.to_string()
    }
}

impl TryFrom<String> for Prefix {
    type Error = NotAsStored;
    fn try_from(stored: String) -> Result<Prefix, NotAsStored> {
        Prefix::parse(&stored)
            .filter(|prefix| prefix.to_string() == stored)
            .ok_or(NotAsStored)
    }
}

/// A stored code or prefix that is not in its printed form.
#[derive(Clone, Copy, PartialEq, Eq, Debug, thiserror::Error)]
#[error("not a lot code in its stored form")]
pub struct NotAsStored;

/// A lot's code for people, printed `K3-118R`. Stored as that text. Sorts by prefix, then counter.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct LotCode {
    prefix: Prefix,
    counter: u32,
}

/// Why a typed code was not taken. `at` counts characters of the typed text from 0.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum CodeFault {
    /// Nothing but spaces and hyphens.
    Empty,
    /// Too little for prefix, counter and check letter.
    TooShort,
    /// More characters than any code has.
    TooLong,
    /// A character that cannot stand in this place.
    BadCharacter { at: usize, found: char },
    /// The counter is nought.
    NoCounter,
    /// No check letter at the end; with this one the code would hold.
    MissingCheck { expected: char },
    /// The check letter does not fit the rest; something was misread.
    BadCheck { expected: char },
}

impl LotCode {
    /// The phone's letter and digit.
    pub fn prefix(self) -> Prefix {
        self.prefix
    }

    /// The phone's running number, 1 to [`COUNTER_MAX`].
    pub fn counter(self) -> u32 {
        self.counter
    }

    /// The code as search folds it: what [`crate::text::fold`] makes of its print, for many of them.
    pub fn folded(self) -> String {
        let mut counter = [b'0'; COUNTER_DIGITS as usize];
        let mut rest = self.counter;
        for digit in counter.iter_mut().rev() {
            *digit += u8::try_from(rest % 10).unwrap_or(0);
            rest /= 10;
        }
        let unprinted = counter.len() - COUNTER_PRINTED;
        let nought = counter.iter().take_while(|digit| **digit == b'0').count();
        let mut text = String::with_capacity(12);
        text.push(self.prefix.letter.to_ascii_lowercase());
        text.push(char::from(b'0' + self.prefix.digit));
        text.push(' ');
        let printed = counter.iter().skip(nought.min(unprinted));
        text.extend(printed.map(|digit| char::from(*digit)));
        text.push(self.check().to_ascii_lowercase());
        text
    }

    /// The check letter.
    pub fn check(self) -> char {
        let digits = (0..COUNTER_DIGITS)
            .rev()
            .map(|place| self.counter / 10_u32.pow(place) % 10);
        let body = [
            letter_value(self.prefix.letter),
            u32::from(self.prefix.digit),
        ];
        let check = iso7064_check(body.into_iter().chain(digits), MODULUS, RADIX);
        usize::try_from(check)
            .ok()
            .and_then(|at| LETTERS.chars().nth(at))
            .unwrap_or('A')
    }

    /// Reads a code as people type it: any case, with or without hyphen and spaces, `O` for `0`, `I` or `l` for `1`.
    pub fn parse(typed: &str) -> Result<LotCode, CodeFault> {
        if typed.chars().count() > TYPED_MAX {
            return Err(CodeFault::TooLong);
        }
        let kept: Vec<(usize, char)> = typed
            .chars()
            .enumerate()
            .filter(|(_, c)| !is_gap(*c))
            .collect();
        let [(letter_at, l), (digit_at, d), rest @ ..] = kept.as_slice() else {
            return Err(if kept.is_empty() {
                CodeFault::Empty
            } else {
                CodeFault::TooShort
            });
        };
        let bad = |at: usize, found: char| CodeFault::BadCharacter { at, found };
        let prefix = Prefix {
            letter: letter(*l).ok_or(bad(*letter_at, *l))?,
            digit: digit(*d)
                .filter(|digit| PREFIX_DIGITS.contains(digit))
                .ok_or(bad(*digit_at, *d))?,
        };
        let (check, digits) = match rest.split_last() {
            None => return Err(CodeFault::TooShort),
            Some(((_, last), before)) => match letter(*last) {
                Some(check) => (Some(check), before),
                None => (None, rest),
            },
        };
        let code = prefix.code(counter(digits)?).ok_or(CodeFault::NoCounter)?;
        let expected = code.check();
        match check {
            None => Err(CodeFault::MissingCheck { expected }),
            Some(check) if check != expected => Err(CodeFault::BadCheck { expected }),
            Some(_) => Ok(code),
        }
    }
}

/// Reads the digits of a counter; each comes with its place in the typed text.
fn counter(digits: &[(usize, char)]) -> Result<u32, CodeFault> {
    if digits.is_empty() {
        return Err(CodeFault::TooShort);
    }
    let mut counter = 0_u32;
    for (at, found) in digits {
        let Some(digit) = digit(*found) else {
            return Err(CodeFault::BadCharacter {
                at: *at,
                found: *found,
            });
        };
        counter = counter
            .checked_mul(10)
            .and_then(|counter| counter.checked_add(u32::from(digit)))
            .filter(|counter| *counter <= COUNTER_MAX)
            .ok_or(CodeFault::TooLong)?;
    }
    Ok(counter)
}

/// Spaces and the several hyphens a keyboard or a mended label puts in.
fn is_gap(c: char) -> bool {
    c.is_whitespace() || matches!(c, '-' | '_' | '\u{2010}'..='\u{2015}' | '\u{2212}')
}

/// The letter meant in a letter's place.
fn letter(c: char) -> Option<char> {
    let c = c.to_ascii_uppercase();
    LETTERS.contains(c).then_some(c)
}

/// The digit meant in a digit's place. None of the letters taken for digits is in [`LETTERS`].
fn digit(c: char) -> Option<u8> {
    match c {
        'O' | 'o' | 'Q' | 'q' => Some(0),
        'I' | 'i' | 'L' | 'l' | '|' => Some(1),
        'Z' | 'z' => Some(2),
        'S' | 's' => Some(5),
        'G' | 'g' => Some(6),
        'B' | 'b' => Some(8),
        _ => c.to_digit(10).and_then(|digit| u8::try_from(digit).ok()),
    }
}

fn letter_value(c: char) -> u32 {
    let at = LETTERS.chars().position(|letter| letter == c).unwrap_or(0);
    u32::try_from(at).unwrap_or(0)
}

impl fmt::Display for LotCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (prefix, counter, check) = (self.prefix, self.counter, self.check());
        write!(f, "{prefix}-{counter:0COUNTER_PRINTED$}{check}")
    }
}

impl From<LotCode> for String {
    fn from(code: LotCode) -> String {
        code.to_string()
    }
}

impl TryFrom<String> for LotCode {
    type Error = NotAsStored;
    fn try_from(stored: String) -> Result<LotCode, NotAsStored> {
        LotCode::parse(&stored)
            .ok()
            .filter(|code| code.to_string() == stored)
            .ok_or(NotAsStored)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    const ALL: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";

    fn code(prefix: &str, counter: u32) -> LotCode {
        Prefix::parse(prefix).unwrap().code(counter).unwrap()
    }

    /// Every reading of `written` with one character wrong or two neighbours exchanged.
    fn slips(written: &str) -> Vec<String> {
        let chars: Vec<char> = written.chars().collect();
        let mut slips = Vec::new();
        for at in 0..chars.len() {
            for other in ALL.chars().filter(|c| *c != chars[at]) {
                let mut slip = chars.clone();
                slip[at] = other;
                slips.push(slip.iter().collect());
            }
            if at + 1 < chars.len() && chars[at] != chars[at + 1] {
                let mut slip = chars.clone();
                slip.swap(at, at + 1);
                slips.push(slip.iter().collect());
            }
        }
        slips
    }

    /// The code itself (a look-alike read right) or a refusal; never another lot.
    fn assert_no_slip_names_another_lot(code: LotCode) {
        let written = code.to_string().replace('-', "");
        for slip in slips(&written) {
            if let Ok(read) = LotCode::parse(&slip) {
                assert_eq!(read, code, "{slip} for {written}");
            }
        }
    }

    #[test]
    fn a_folded_code_is_its_print_folded() {
        for counter in [1, 9, 10, 118, 999, 1_000, 34_567, COUNTER_MAX] {
            for prefix in [FIRST, Prefix::parse("Y9").unwrap()] {
                let code = prefix.code(counter).unwrap();
                assert_eq!(code.folded(), crate::text::fold(&code.to_string()));
            }
        }
    }

    #[test]
    fn every_single_slip_on_every_prefix_is_caught() {
        for prefix in Prefix::all() {
            for counter in [1, 9, 10, 77, 118, 909, 1_000, 54_321, COUNTER_MAX] {
                assert_no_slip_names_another_lot(prefix.code(counter).unwrap());
            }
        }
    }

    #[test]
    fn every_single_slip_on_the_first_three_thousand_lots_is_caught() {
        for counter in 1..=3_000 {
            assert_no_slip_names_another_lot(code("K3", counter));
        }
    }

    #[test]
    fn exchanging_any_two_digits_is_caught_also_when_they_are_not_neighbours() {
        for counter in 100_000..101_500 {
            let code = code("T7", counter);
            let chars: Vec<char> = code.to_string().replace('-', "").chars().collect();
            for (i, j) in (1..=7).flat_map(|i| (i + 1..=7).map(move |j| (i, j))) {
                let mut slip = chars.clone();
                slip.swap(i, j);
                let slip: String = slip.iter().collect();
                if chars[i] != chars[j] {
                    assert!(LotCode::parse(&slip).is_err(), "{slip} for {code}");
                }
            }
        }
    }

    #[test]
    fn a_digit_left_out_is_caught_most_of_the_time() {
        let (mut tried, mut caught) = (0, 0);
        for counter in 1_000..3_000 {
            let written = code("K3", counter).to_string();
            for at in 3..7 {
                let mut slip = written.clone();
                slip.remove(at);
                tried += 1;
                caught += usize::from(LotCode::parse(&slip).is_err());
            }
        }
        assert!(caught * 100 >= tried * 93, "{caught} of {tried}");
        assert!(caught < tried, "the module head says some are not caught");
    }

    #[test]
    fn a_code_is_read_back_however_it_was_typed() {
        let code = code("K3", 110);
        let printed = code.to_string();
        let check = code.check();
        assert_eq!(printed, format!("K3-110{check}"));
        for typed in [
            printed.clone(),
            printed.to_lowercase(),
            format!("k3 110 {check}"),
            format!("  K3110{check} "),
            format!("K3\u{2013}110{check}"),
            format!("K3-IlO{check}"),
            format!("K3-000110{check}"),
        ] {
            assert_eq!(LotCode::parse(&typed), Ok(code), "{typed}");
        }
    }

    #[test]
    fn short_counters_are_padded_to_three_digits() {
        let code = code("A2", 7);
        assert!(code.to_string().starts_with("A2-007"), "{code}");
        assert_eq!(LotCode::parse(&format!("A27{}", code.check())), Ok(code));
    }

    #[test]
    fn each_fault_says_what_is_wrong() {
        let expected = code("K3", 118).check();
        let wrong = if expected == 'A' { 'C' } else { 'A' };
        let parse = LotCode::parse;
        assert_eq!(parse(" - "), Err(CodeFault::Empty));
        assert_eq!(parse("K"), Err(CodeFault::TooShort));
        assert_eq!(parse("K3"), Err(CodeFault::TooShort));
        assert_eq!(parse("K3R"), Err(CodeFault::TooShort));
        assert_eq!(parse("K3-1000000A"), Err(CodeFault::TooLong));
        assert_eq!(parse(&"K".repeat(33)), Err(CodeFault::TooLong));
        assert_eq!(parse("K3-000A"), Err(CodeFault::NoCounter));
        assert_eq!(parse("K3-118"), Err(CodeFault::MissingCheck { expected }));
        assert_eq!(
            parse(&format!("K3-118{wrong}")),
            Err(CodeFault::BadCheck { expected })
        );
        let bad = |at, found| Err(CodeFault::BadCharacter { at, found });
        assert_eq!(parse("U3-118A"), bad(0, 'U'));
        assert_eq!(parse("K1-118A"), bad(1, '1'));
        assert_eq!(parse("K3-1?8A"), bad(4, '?'));
    }

    #[test]
    fn there_are_136_prefixes_and_each_reads_back() {
        let all: BTreeSet<Prefix> = Prefix::all().collect();
        assert_eq!(all.len(), Prefix::COUNT);
        for prefix in all {
            assert_eq!(Prefix::parse(&prefix.to_string()), Some(prefix));
        }
    }

    #[test]
    fn seeds_reach_every_prefix_and_always_the_same_one() {
        let reached: BTreeSet<Prefix> = (0..3_000).map(Prefix::pick).collect();
        assert_eq!(reached.len(), Prefix::COUNT);
        assert_eq!(Prefix::pick(42), Prefix::pick(42));
    }

    #[test]
    fn a_joining_phone_gets_a_prefix_no_other_phone_has() {
        let mut taken = BTreeSet::new();
        for seed in 0..Prefix::COUNT as u64 {
            assert!(taken.insert(Prefix::pick_free(seed, &taken).unwrap()));
        }
        assert_eq!(Prefix::pick_free(1, &taken), None);
    }

    #[test]
    fn the_stored_form_is_the_printed_one_and_nothing_else() {
        let code = code("K3", 118);
        let stored = serde_json::to_string(&code).unwrap();
        assert_eq!(stored, format!("\"{code}\""));
        assert_eq!(serde_json::from_str::<LotCode>(&stored).unwrap(), code);
        assert!(serde_json::from_str::<LotCode>(&stored.to_lowercase()).is_err());
        assert!(serde_json::from_str::<Prefix>("\"k3\"").is_err());
    }

    proptest::proptest! {
        #[test]
        fn any_typed_text_is_answered_without_a_panic(typed in "\\PC{0,40}") {
            if let Ok(code) = LotCode::parse(&typed) {
                proptest::prop_assert_eq!(LotCode::parse(&code.to_string()), Ok(code));
            }
        }
    }
}
