//! Numbers as a thermometer or a logger's file shows them, to thousandths; exact, without floating point.

/// Digits that count after the decimal sign; more are rounded.
const PLACES: usize = 3;
/// Digits before it.
const WHOLE_DIGITS: usize = 6;

/// Reads `-9,5`, `21.25`, `+3` as thousandths. Comma and point both stand for the decimal sign; anything else is `None`.
#[must_use]
pub fn milli_of(text: &str) -> Option<i32> {
    let text = text.trim();
    let (sign, digits) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (-1, rest),
        None => (1, text.strip_prefix('+').unwrap_or(text)),
    };
    let (whole, part) = digits.split_once(['.', ',']).unwrap_or((digits, ""));
    let all_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if !all_digits(whole)
        || !all_digits(part)
        || whole.len() > WHOLE_DIGITS
        || (whole.is_empty() && part.is_empty())
    {
        return None;
    }
    let whole: i64 = if whole.is_empty() {
        0
    } else {
        whole.parse().ok()?
    };
    let mut thousandths = whole.checked_mul(1_000)?;
    let mut step = 100;
    for digit in part.bytes().take(PLACES) {
        thousandths += i64::from(digit - b'0') * step;
        step /= 10;
    }
    if part
        .as_bytes()
        .get(PLACES)
        .is_some_and(|digit| *digit >= b'5')
    {
        thousandths += 1;
    }
    i32::try_from(sign * thousandths).ok()
}

/// Thousandths of a degree Fahrenheit as thousandths of a degree Celsius, rounded once.
#[must_use]
pub fn celsius_of_fahrenheit(mf: i32) -> i32 {
    let ninths = (i64::from(mf) - 32_000) * 5;
    let rounded = (ninths.abs() * 2 + 9) / 18 * ninths.signum();
    i32::try_from(rounded).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comma_and_point_are_both_read_and_words_are_not() {
        assert_eq!(milli_of("-9,5"), Some(-9_500));
        assert_eq!(milli_of(" 21.25 "), Some(21_250));
        assert_eq!(milli_of("+3"), Some(3_000));
        assert_eq!(milli_of(".5"), Some(500));
        assert_eq!(milli_of("0.0005"), Some(1));
        assert_eq!(milli_of("\u{2212}2"), Some(-2_000));
        for bad in [
            "", "-", ".", "1.2.3", "12a", "1 000", "1e3", "--1", "9999999",
        ] {
            assert_eq!(milli_of(bad), None, "{bad}");
        }
    }

    #[test]
    fn fahrenheit_is_turned_and_rounded_once() {
        assert_eq!(celsius_of_fahrenheit(32_000), 0);
        assert_eq!(celsius_of_fahrenheit(50_000), 10_000);
        assert_eq!(celsius_of_fahrenheit(55_000), 12_778);
        assert_eq!(celsius_of_fahrenheit(-40_000), -40_000);
        assert_eq!(celsius_of_fahrenheit(31_999), -1);
    }
}
