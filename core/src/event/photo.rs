//! Photographs as the book names them: by the digest of their bytes, which lie outside the book.
//!
//! Invariants: a photograph's name never changes, and two phones that hold the same bytes hold the same photograph.
//! What names one is found in any line, also in one of a newer version: a picture that somebody still speaks of is
//! never taken for a leftover.

use sha2::{Digest, Sha256};

use super::{Event, PhotoRef};

/// Hexadecimal digits of a SHA-256.
const DIGEST_DIGITS: usize = 64;

impl PhotoRef {
    /// The name of these bytes; `None` when there are 4 GB of them or more.
    #[must_use]
    pub fn of(bytes: &[u8], media_type: &str) -> Option<Self> {
        let digest = Sha256::digest(bytes);
        Some(Self {
            sha256: digest.iter().map(|byte| format!("{byte:02x}")).collect(),
            bytes: u32::try_from(bytes.len()).ok()?,
            media_type: media_type.to_owned(),
        })
    }
}

impl Event {
    /// Digests of the photographs this event shows, in its order.
    #[must_use]
    pub fn photos(&self) -> Vec<&str> {
        match self {
            Self::Found(found) => found
                .photos
                .iter()
                .map(|photo| photo.sha256.as_str())
                .collect(),
            Self::ProductSet(set) => set.label_photo.as_deref().into_iter().collect(),
            Self::Amended(amended) => amended.event.photos(),
            _ => Vec::new(),
        }
    }
}

/// Everything in a line or a draft that can be the digest of a photograph.
pub fn digests_in(text: &str) -> impl Iterator<Item = &str> {
    let bytes = text.as_bytes();
    let is_digit = |at: &usize| {
        let byte = bytes.get(*at);
        matches!(byte, Some(b'0'..=b'9' | b'a'..=b'f'))
    };
    let mut from = 0;
    std::iter::from_fn(move || {
        // Where the last place a digest would take holds no digit, none begins before it.
        while from + DIGEST_DIGITS <= bytes.len() {
            let upto = from + DIGEST_DIGITS;
            if let Some(other) = (from..upto).rev().find(|at| !is_digit(at)) {
                from = other + 1;
                continue;
            }
            let ends = (upto..bytes.len()).find(|at| !is_digit(at));
            let run = from..ends.unwrap_or(bytes.len());
            from = run.end + 1;
            if run.len() == DIGEST_DIGITS {
                return text.get(run);
            }
        }
        None
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_photograph_is_named_after_its_bytes() {
        let photo = PhotoRef::of(b"abc", "image/jpeg").unwrap();
        // FIPS 180-2, appendix B.1.
        let digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!((photo.sha256.as_str(), photo.bytes), (digest, 3));
        let line = serde_json::to_string(&photo).unwrap();
        assert_eq!(digests_in(&line).collect::<Vec<_>>(), [digest]);
    }

    #[test]
    fn a_digest_is_found_in_a_line_of_a_newer_version_and_nothing_else_is() {
        let (one, other) = ("ab".repeat(32), "01".repeat(32));
        let line =
            format!("{{\"scanned\":{{\"by\":\"{one}\",\"x\":[\"{other}\",\"{one}0\",\"ab\"]}}}}");
        assert_eq!(digests_in(&line).collect::<Vec<_>>(), [one, other]);
    }

    #[test]
    fn runs_of_other_lengths_are_none_wherever_they_stand() {
        let digits = |count: usize| "0123456789abcdef".chars().cycle().take(count);
        let run = |count: usize| digits(count).collect::<String>();
        let lengths = [0, 1, 2, 63, 64, 65, 127, 128, 129, 64];
        for between in ["x", " \"", "é", "G,,"] {
            for skipped in 0..lengths.len() {
                let runs: Vec<String> = lengths.iter().skip(skipped).map(|it| run(*it)).collect();
                let text = runs.join(between);
                let plainly = text
                    .split(|letter: char| !matches!(letter, '0'..='9' | 'a'..='f'))
                    .filter(|run| run.len() == DIGEST_DIGITS);
                assert!(digests_in(&text).eq(plainly), "{text}");
            }
        }
    }
}
