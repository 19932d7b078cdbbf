//! A finding in hand: photographs taken and words typed before the tap that says what it is.
//!
//! Like every draft it is stored at every step and says nothing to other phones. Nothing typed is dropped by the tap:
//! beside a sign that is chosen, the grower's own words become the note.

use serde::{Deserialize, Serialize};

use crate::command::RecordFinding;
use crate::event::{PhotoRef, SeenOn, Urgency};
use crate::limits;
use crate::reference::signs;

/// What was seen so far.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct FindingDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub own: String,
    #[serde(default)]
    pub photos: Vec<PhotoRef>,
    /// So many of so many looked at.
    #[serde(default)]
    pub affected: Option<u32>,
    #[serde(default)]
    pub looked_at: Option<u32>,
    #[serde(default)]
    pub severity: Option<u8>,
    #[serde(default)]
    pub part: Option<String>,
}

impl FindingDraft {
    /// Key of the draft for what is looked at.
    #[must_use]
    pub fn key(on: SeenOn) -> String {
        format!("seen-{}", on.subject())
    }

    /// Puts a photograph in; one that is there already, or one too many, changes nothing.
    pub fn add_photo(&mut self, photo: PhotoRef) {
        let there = self.photos.iter().any(|kept| kept.sha256 == photo.sha256);
        if !there && self.photos.len() < limits::PHOTOS_MAX {
            self.photos.push(photo);
        }
    }

    /// So many were looked at; of none, nothing was counted.
    pub fn count_looked_at(&mut self, number: i64) {
        self.looked_at = u32::try_from(number).ok().filter(|number| *number > 0);
        self.affected = self.looked_at.map(|_| self.affected.unwrap_or(0));
    }

    /// So many of them have it.
    pub fn count_affected(&mut self, number: i64) {
        self.affected = u32::try_from(number).ok();
        if self.looked_at.is_none() {
            self.looked_at = self.affected;
        }
    }

    /// Takes a photograph out again.
    pub fn remove_photo(&mut self, sha256: &str) {
        self.photos.retain(|kept| kept.sha256 != sha256);
    }

    /// The finding, under a sign of the vocabulary, or in the grower's own words when there is none.
    #[must_use]
    pub fn finding(&self, on: SeenOn, sign: Option<&str>) -> RecordFinding {
        let own = self.own.trim();
        let (sign, note) = match sign {
            Some(sign) => (sign, own),
            None => (own, ""),
        };
        let row = signs::sign(sign);
        RecordFinding {
            on,
            sign: sign.to_owned(),
            part: self.part.clone().unwrap_or_default(),
            agent: row.map(|row| row.agent),
            affected: self.affected,
            looked_at: self.looked_at,
            severity: self.severity,
            urgency: row.map_or_else(Urgency::default, |row| row.urgency),
            photos: self.photos.clone(),
            note: note.to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draft::{read, write};
    use crate::id::{Dev, EntryRef, LotId, ThingId};

    fn on() -> SeenOn {
        let entry = EntryRef {
            dev: Dev(1),
            seq: 1,
        };
        SeenOn::Lot(LotId(ThingId { entry, n: 1 }))
    }

    fn photo(n: usize) -> PhotoRef {
        PhotoRef::of(&n.to_be_bytes(), "image/jpeg").unwrap()
    }

    #[test]
    fn words_typed_before_a_sign_is_tapped_become_its_note() {
        let draft = FindingDraft {
            own: " under the old leaves ".to_owned(),
            photos: vec![photo(1)],
            ..FindingDraft::default()
        };
        let tapped = draft.finding(on(), Some("scale"));
        assert_eq!(
            (tapped.sign.as_str(), tapped.note.as_str()),
            ("scale", "under the old leaves")
        );
        let own = draft.finding(on(), None);
        assert_eq!(
            (own.sign.as_str(), own.note.as_str()),
            ("under the old leaves", "")
        );
        assert_eq!(own.photos, [photo(1)]);
    }

    #[test]
    fn the_same_photograph_counts_once_and_there_is_an_end_to_them() {
        let mut draft = FindingDraft::default();
        for n in [0, 0].into_iter().chain(1..20) {
            draft.add_photo(photo(n));
        }
        assert_eq!(draft.photos.len(), limits::PHOTOS_MAX);
        assert_eq!(draft.photos.first(), Some(&photo(0)));
        draft.remove_photo(&photo(0).sha256);
        assert_eq!(draft.photos.first(), Some(&photo(1)));
        assert_eq!(read::<FindingDraft>(&write(&draft)), Some(draft));
    }

    #[test]
    fn a_draft_of_an_older_version_is_read() {
        assert_eq!(read::<FindingDraft>("{}"), Some(FindingDraft::default()));
    }
}
