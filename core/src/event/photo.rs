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
    text.split(|letter: char| !matches!(letter, '0'..='9' | 'a'..='f'))
        .filter(|run| run.len() == DIGEST_DIGITS)
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
}
