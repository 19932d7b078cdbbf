//! Bytes in the 45 characters of which a square holds eleven bits for every two: RFC 9285.

/// The characters in their order, RFC 9285, table 1.
const LETTERS: &[u8; 45] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

/// Writes bytes: three characters for two, two for one that is left over.
pub(super) fn base45(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().saturating_mul(3).div_ceil(2));
    for pair in bytes.chunks(2) {
        let value = pair
            .iter()
            .fold(0u32, |value, byte| value * 256 + u32::from(*byte));
        let most = if pair.len() == 2 { 3 } else { 2 };
        let mut left = value;
        for _ in 0..most {
            let letter = usize::try_from(left % 45).ok();
            let letter = letter.and_then(|at| LETTERS.get(at)).copied();
            text.push(char::from(letter.unwrap_or(b'0')));
            left /= 45;
        }
    }
    text
}

/// Reads them back; `None` for what no bytes were written as. There is one text for the same bytes.
pub(super) fn from_base45(text: &str) -> Option<Vec<u8>> {
    let mut bytes = Vec::with_capacity(text.len().saturating_mul(2).div_ceil(3));
    for some in text.as_bytes().chunks(3) {
        let mut value = 0u32;
        for letter in some.iter().rev() {
            let at = LETTERS.iter().position(|known| known == letter)?;
            value = value * 45 + u32::try_from(at).ok()?;
        }
        match some.len() {
            3 => bytes.extend(u16::try_from(value).ok()?.to_be_bytes()),
            2 => bytes.push(u8::try_from(value).ok()?),
            _ => return None,
        }
    }
    Some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn it_is_that_of_the_standard() {
        // RFC 9285, sections 4.3 and 4.4.
        for (plain, text) in [
            ("", ""),
            ("AB", "BB8"),
            ("Hello!!", "%69 VD92EX0"),
            ("base-45", "UJCLQE7W581"),
            ("ietf!", "QED8WEX0"),
        ] {
            assert_eq!(base45(plain.as_bytes()), text);
            assert_eq!(from_base45(text).as_deref(), Some(plain.as_bytes()));
        }
        // Three characters may say more than two bytes hold, two more than one; section 6 has the first of these.
        for wrong in ["GGW", ":::", "::", "A", "AB8A", "ab8", "é12", "BB8\n"] {
            assert_eq!(from_base45(wrong), None, "{wrong:?}");
        }
        assert_eq!(from_base45("FGW"), Some(vec![255, 255]));
        assert_eq!(from_base45("U5"), Some(vec![255]));
    }

    proptest! {
        #[test]
        fn what_is_written_is_read(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
            let text = base45(&bytes);
            prop_assert_eq!(from_base45(&text), Some(bytes));
        }

        #[test]
        fn what_can_be_read_is_what_would_be_written(text in "[0-9A-Z $%*+./:-]{0,40}") {
            if let Some(bytes) = from_base45(&text) {
                prop_assert_eq!(base45(&bytes), text);
            }
        }
    }
}
