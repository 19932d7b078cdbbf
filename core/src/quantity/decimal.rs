//! The number as the grower typed it.
//!
//! A dose is copied from a label, so what was typed is kept digit for digit beside what it came to. Invariants: at
//! most [`MOST_DIGITS`] digits, at most [`MOST_PLACES`] of them after the mark; the stored text has a point and no grouping.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};
use std::fmt;

use super::{QuantityError, Ratio};

/// Digits a typed number may have, leading zeros not counted.
pub const MOST_DIGITS: u32 = 15;
/// Digits a typed number may have after its decimal mark.
pub const MOST_PLACES: u32 = 12;
/// Characters looked at before a text is refused as a number.
const MOST_CHARS: usize = 32;

/// An exact decimal number, trailing zeros kept: `2.50` and `2.5` are the same amount but not the same typing.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Decimal {
    mantissa: i64,
    scale: u8,
}

impl Decimal {
    /// A whole number; for constants and counts.
    #[must_use]
    pub const fn whole(n: i32) -> Self {
        Self {
            mantissa: n as i64,
            scale: 0,
        }
    }

    /// `mantissa` with its last `places` digits after the mark; `None` when it is longer than a typed number may be.
    #[must_use]
    pub fn new(mantissa: i64, places: u8) -> Option<Self> {
        let fits =
            mantissa.unsigned_abs() < 10_u64.pow(MOST_DIGITS) && u32::from(places) <= MOST_PLACES;
        fits.then_some(Self {
            mantissa,
            scale: places,
        })
    }

    /// Reads what a person typed.
    ///
    /// Comma and point both serve as decimal mark; spaces and apostrophes group thousands. Where both marks occur the
    /// last one is the decimal mark (`1,234.5` and `1.234,5` are the same number). A single comma before exactly three digits
    /// (`1,250`) is thousands to one reader and a decimal to the next: that is asked about, never guessed. A single point is
    /// always the decimal mark.
    ///
    /// # Errors
    /// `Empty`, `NotANumber`, `TooManyDigits`, or `AmbiguousNumber` with both readings.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let text = text.trim();
        if text.is_empty() {
            return Err(QuantityError::Empty);
        }
        if text.chars().nth(MOST_CHARS).is_some() {
            return Err(QuantityError::NotANumber);
        }
        let (negative, body) = match text.strip_prefix(['-', '\u{2212}']) {
            Some(rest) => (true, rest),
            None => (false, text.strip_prefix('+').unwrap_or(text)),
        };
        let mark = decimal_mark(body)?;
        let (whole, places) = match mark.and_then(|mark| body.rsplit_once(mark)) {
            // "5." is a number somebody has not finished.
            Some((_, "")) => return Err(QuantityError::NotANumber),
            Some((whole, places)) => (whole, places),
            None => (body, ""),
        };
        if !places.chars().all(|c| c.is_ascii_digit()) {
            return Err(QuantityError::NotANumber);
        }
        let digits = ungroup(whole)?;
        if digits.is_empty() && places.is_empty() {
            return Err(QuantityError::NotANumber);
        }
        let number = Self::from_digits(negative, &digits, places)?;
        let readable_as_thousands = mark == Some(',')
            && digits == whole
            && places.len() == 3
            && (1..=3).contains(&digits.len())
            && !digits.starts_with('0');
        if readable_as_thousands {
            let grouped = Self {
                mantissa: number.mantissa,
                scale: 0,
            };
            return Err(QuantityError::AmbiguousNumber {
                meanings: vec![number, grouped],
            });
        }
        Ok(number)
    }

    fn from_digits(negative: bool, whole: &str, places: &str) -> Result<Self, QuantityError> {
        let too_many = QuantityError::TooManyDigits { most: MOST_DIGITS };
        let mut mantissa: i64 = 0;
        for digit in whole.chars().chain(places.chars()) {
            let digit = digit.to_digit(10).ok_or(QuantityError::NotANumber)?;
            mantissa = mantissa
                .checked_mul(10)
                .and_then(|m| m.checked_add(digit.into()))
                .ok_or_else(|| too_many.clone())?;
        }
        let scale = u8::try_from(places.len()).map_err(|_| too_many.clone())?;
        Self::new(if negative { -mantissa } else { mantissa }, scale).ok_or(too_many)
    }

    /// Reads the stored form: digits, one point, nothing else.
    fn from_stored(text: &str) -> Option<Self> {
        let (negative, body) = text
            .strip_prefix('-')
            .map_or((false, text), |rest| (true, rest));
        let (whole, places) = body.split_once('.').unwrap_or((body, ""));
        let number = Self::from_digits(negative, whole, places).ok()?;
        (number.to_string() == text).then_some(number)
    }

    /// Below zero.
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.mantissa < 0
    }

    /// Exactly zero, however many zeros were typed.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.mantissa == 0
    }

    /// Hundredths, for money; `None` where the number does not come to whole ones.
    #[must_use]
    pub fn hundredths(self) -> Option<i64> {
        match self.scale.checked_sub(2) {
            None => self
                .mantissa
                .checked_mul(10_i64.pow(u32::from(2_u8.saturating_sub(self.scale)))),
            Some(more) => {
                let parts = 10_i64.pow(u32::from(more));
                (self.mantissa % parts == 0).then_some(self.mantissa / parts)
            }
        }
    }

    /// The exact value.
    #[must_use]
    pub fn ratio(self) -> Ratio {
        Ratio::of(self.mantissa.into(), 10_i128.pow(self.scale.into()))
    }
}

/// The character that separates whole from parts, or none; an impossible mixture is no number.
fn decimal_mark(body: &str) -> Result<Option<char>, QuantityError> {
    let points = body.matches('.').count();
    let commas = body.matches(',').count();
    match (points, commas) {
        (0, 0) => Ok(None),
        (1, 0) => Ok(Some('.')),
        (0, 1) => Ok(Some(',')),
        // Several of one kind only: they group thousands.
        (_, 0) | (0, _) => Ok(None),
        _ => {
            let last = body.rfind('.') > body.rfind(',');
            match (last, points, commas) {
                (true, 1, _) => Ok(Some('.')),
                (false, _, 1) => Ok(Some(',')),
                _ => Err(QuantityError::NotANumber),
            }
        }
    }
}

/// The digits of the whole part without the marks that group them by three.
fn ungroup(whole: &str) -> Result<String, QuantityError> {
    let kind = |c: char| match c {
        ' ' | '\u{a0}' | '\u{2009}' | '\u{202f}' => Some(' '),
        '\'' | '\u{2019}' => Some('\''),
        ',' | '.' => Some(c),
        _ => None,
    };
    let mut used = None;
    let mut groups: Vec<String> = vec![String::new()];
    for c in whole.chars() {
        if c.is_ascii_digit() {
            if let Some(group) = groups.last_mut() {
                group.push(c);
            }
        } else if kind(c).is_some() && (used.is_none() || used == kind(c)) {
            used = kind(c);
            groups.push(String::new());
        } else {
            return Err(QuantityError::NotANumber);
        }
    }
    let well_grouped = groups.iter().skip(1).all(|group| group.len() == 3)
        && groups
            .first()
            .is_some_and(|first| (1..=3).contains(&first.len()) && !first.starts_with('0'));
    if groups.len() > 1 && !well_grouped {
        return Err(QuantityError::NotANumber);
    }
    Ok(groups.concat())
}

impl fmt::Display for Decimal {
    /// The stored form: a point, no grouping, the typed zeros.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let scale = usize::from(self.scale);
        let digits = format!(
            "{:0width$}",
            self.mantissa.unsigned_abs(),
            width = scale + 1
        );
        let (whole, places) = digits
            .split_at_checked(digits.len().saturating_sub(scale))
            .unwrap_or((&digits, ""));
        let sign = if self.mantissa < 0 { "-" } else { "" };
        if places.is_empty() {
            write!(f, "{sign}{whole}")
        } else {
            write!(f, "{sign}{whole}.{places}")
        }
    }
}

impl fmt::Debug for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl Serialize for Decimal {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Decimal {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::from_stored(&text).ok_or_else(|| D::Error::custom("not a stored decimal number"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read(text: &str) -> String {
        Decimal::parse(text).expect("a number").to_string()
    }

    #[test]
    fn comma_and_point_both_mark_the_decimals() {
        assert_eq!(read("2,5"), "2.5");
        assert_eq!(read(" 2.50 "), "2.50");
        assert_eq!(read("0,125"), "0.125");
        assert_eq!(read(".5"), "0.5");
        assert_eq!(read("-3,25"), "-3.25");
        assert_eq!(read("\u{2212}4"), "-4");
        assert_eq!(read("-0"), "0");
        assert_eq!(read("1.250"), "1.250");
    }

    #[test]
    fn thousands_may_be_grouped() {
        for text in ["12 345", "12\u{a0}345", "12\u{202f}345", "12'345", "12345"] {
            assert_eq!(read(text), "12345", "{text}");
        }
        assert_eq!(read("1,234.5"), "1234.5");
        assert_eq!(read("1.234,5"), "1234.5");
        assert_eq!(read("1,234,567"), "1234567");
        assert_eq!(read("1 234,567"), "1234.567");
    }

    #[test]
    fn one_comma_before_three_digits_is_asked_about() {
        let Err(QuantityError::AmbiguousNumber { meanings }) = Decimal::parse("1,250") else {
            panic!("1,250 was guessed at")
        };
        assert_eq!(
            meanings.iter().map(Decimal::to_string).collect::<Vec<_>>(),
            ["1.250", "1250"]
        );
        assert_eq!(read("1,25"), "1.25");
        assert_eq!(read("1250,125"), "1250.125");
    }

    #[test]
    fn garbage_is_no_number() {
        for text in [
            "-",
            ".",
            ",",
            "5.",
            "1,23,4",
            "1.2.3",
            "1 00",
            "1  000",
            "1e6",
            "five",
            "1,234.5,6",
            "0 123",
            "--1",
            "1-",
            "½",
            "12 3456",
        ] {
            assert_eq!(
                Decimal::parse(text),
                Err(QuantityError::NotANumber),
                "{text}"
            );
        }
        for text in ["", "   ", "\u{a0}"] {
            assert_eq!(Decimal::parse(text), Err(QuantityError::Empty));
        }
    }

    #[test]
    fn emoji_right_to_left_full_width_and_endless_text_are_errors() {
        let endless = "9".repeat(10_000);
        for text in [
            "🌱",
            "٣",
            "\u{200f}5",
            "\u{ff15}",
            "1\u{0}",
            "٢٫٥",
            &endless,
        ] {
            assert!(Decimal::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn fifteen_digits_are_kept_and_sixteen_refused() {
        assert_eq!(read("99999999999999"), "99999999999999");
        assert_eq!(read("999999999999999"), "999999999999999");
        assert_eq!(
            Decimal::parse("1000000000000000"),
            Err(QuantityError::TooManyDigits { most: 15 })
        );
        assert_eq!(
            Decimal::parse("9".repeat(30).as_str()),
            Err(QuantityError::TooManyDigits { most: 15 })
        );
        assert_eq!(read("0.000000000001"), "0.000000000001");
        assert!(Decimal::parse("0.0000000000001").is_err());
    }

    #[test]
    fn only_the_canonical_text_is_read_back_from_the_book() {
        assert_eq!(
            serde_json::to_string(&Decimal::parse("2,50").expect("a number")).expect("json"),
            "\"2.50\""
        );
        for text in [
            "\"2,5\"",
            "\"02.5\"",
            "\"2.\"",
            "\"-0\"",
            "\"+1\"",
            "\"1 000\"",
            "2.5",
            "\"\"",
        ] {
            assert!(serde_json::from_str::<Decimal>(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn what_is_written_reads_back_the_same(mantissa in -999_999_999_999_999_i64..=999_999_999_999_999, places in 0_u8..=12) {
            let number = Decimal::new(mantissa, places).expect("in range");
            let stored = serde_json::to_string(&number).expect("json");
            prop_assert_eq!(serde_json::from_str::<Decimal>(&stored).expect("stored"), number);
            prop_assert_eq!(Decimal::parse(&number.to_string()), Ok(number));
        }

        #[test]
        fn any_text_is_a_number_or_an_error(text in any::<String>()) {
            if let Ok(number) = Decimal::parse(&text) {
                prop_assert_eq!(Decimal::parse(&number.to_string()), Ok(number));
            }
        }
    }
}
