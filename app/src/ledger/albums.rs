//! Photographs on their way between phones: out into a ZIP, and in from one.
//!
//! One photograph is in memory at a time. What comes in is kept only when its bytes have the digest it is named after,
//! and when the book or work in hand speaks of it: anything else would be swept away again.

use std::collections::{BTreeSet, VecDeque};

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::event::photo::digests_in;
use velamen_core::exchange::album::{Album, END_BYTES_MAX, Item, directory, directory_at};
use velamen_core::limits::{ALBUM_BYTES_MAX, ALBUM_PHOTOS_MAX};

use super::arriving::percent;
use super::{Arrival, Ledger, ToldKind};
use crate::platform::clock;
use crate::platform::files::{self, Pieces};
use crate::storage::{Photo, Storage, StorageError};
use crate::words;

const JPEG: &str = "image/jpeg";
const ZIP: &str = "application/zip";
/// Room for a photograph's heads in a ZIP.
const HEADS_BYTES: usize = 256;

/// The photographs the book speaks of, on this phone.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Photographs {
    /// Those that are here, in the parts in which they are handed over.
    pub parts: Vec<Vec<String>>,
    pub here: usize,
    pub missing: usize,
}

impl Ledger {
    /// Counts the photographs the book speaks of.
    pub fn count_photographs(self, counted: RwSignal<Option<Photographs>>) {
        spawn_local(async move {
            let told = self.photographs().await;
            // The screen that asked may be gone.
            let _ = counted.try_set(told);
        });
    }

    async fn photographs(self) -> Option<Photographs> {
        let storage = self.storage()?;
        let named = self.named_photos();
        let keys = storage.list_photo_keys().await.ok()?;
        let mut here: VecDeque<String> =
            keys.into_iter().filter(|key| named.contains(key)).collect();
        let mut told = Photographs {
            here: here.len(),
            missing: named.len().saturating_sub(here.len()),
            parts: Vec::new(),
        };
        let (mut part, mut bytes) = (Vec::new(), 0_usize);
        while let Some(key) = here.pop_front() {
            let photo = storage.get_photo(&key).await.ok().flatten();
            let more = photo.map_or(0, |photo| photo.bytes.len());
            let more = more.saturating_add(HEADS_BYTES);
            let full = bytes.saturating_add(more) > ALBUM_BYTES_MAX / 2;
            if full || part.len() >= ALBUM_PHOTOS_MAX {
                told.parts.push(std::mem::take(&mut part));
                bytes = 0;
            }
            bytes = bytes.saturating_add(more);
            part.push(key);
        }
        if !part.is_empty() {
            told.parts.push(part);
        }
        Some(told)
    }

    /// The digests of all photographs that an entry or a draft speaks of.
    fn named_photos(self) -> BTreeSet<String> {
        let mut named = BTreeSet::new();
        self.look(|state, _| {
            for line in state.log().lines() {
                named.extend(digests_in(line).map(str::to_owned));
            }
        });
        self.drafts.with_value(|drafts| {
            for text in drafts.values() {
                named.extend(digests_in(text).map(str::to_owned));
            }
        });
        named
    }

    /// Saves one part of the photographs as a ZIP.
    pub fn save_photographs(self, part: Vec<String>, number: usize, of: usize) {
        spawn_local(async move {
            let said = match self.album_of(&part).await {
                Some((pieces, count)) => {
                    let name = words::files::album_name(self.moment().today, number, of);
                    pieces.download(&name, ZIP).then_some(count)
                }
                None => None,
            };
            match said {
                Some(count) => self.say(words::files::album_saved(count), ToldKind::Done),
                None => self.say(words::files::not_written(), ToldKind::Refused),
            }
        });
    }

    async fn album_of(self, keys: &[String]) -> Option<(Pieces, usize)> {
        let storage = self.storage()?;
        let (mut album, pieces) = (Album::default(), Pieces::default());
        for key in keys {
            // One that cannot be read is left out; it is counted as missing on the other phone.
            if let Ok(Some(photo)) = storage.get_photo(key).await {
                pieces.push(&album.head(key, &photo.bytes)?);
                pieces.push(&photo.bytes);
            }
        }
        let count = album.len();
        pieces.push(&album.end()?);
        Some((pieces, count))
    }

    /// Keeps the photographs of the ZIPs that were looked at; answers how many.
    pub(super) async fn take_photos_in(
        self,
        arrival: RwSignal<Arrival>,
    ) -> Result<usize, StorageError> {
        let albums = self
            .inside
            .try_update_value(|inside| std::mem::take(&mut inside.albums));
        let albums = albums.unwrap_or_default();
        let all: usize = albums.iter().map(|(_, items)| items.len()).sum();
        if all == 0 {
            return Ok(0);
        }
        let storage = self.storage().ok_or(StorageError::Closed)?;
        let named = self.named_photos();
        let here: BTreeSet<String> = storage.list_photo_keys().await?.into_iter().collect();
        let (mut done, mut kept) = (0_usize, 0_usize);
        for (file, items) in &albums {
            for item in items {
                done = done.saturating_add(1);
                if here.contains(&item.sha256) || !named.contains(&item.sha256) {
                    continue;
                }
                if let Some(bytes) = bytes_of(file, item).await {
                    let photo = Photo {
                        sha256: item.sha256.clone(),
                        media_type: JPEG.to_owned(),
                        bytes,
                    };
                    storage.put_photo(&photo).await?;
                    kept = kept.saturating_add(1);
                }
                arrival.set(Arrival::TakingIn(percent(done, all)));
                clock::breathe().await;
            }
        }
        Ok(kept)
    }
}

/// What a ZIP holds for the book, or why nothing.
pub(super) async fn directory_of(file: &web_sys::File) -> Result<Vec<Item>, String> {
    let bytes = usize::try_from(files::size(file)).unwrap_or(usize::MAX);
    let unreadable = |_| words::files::unreadable();
    let tail = bytes.saturating_sub(END_BYTES_MAX);
    let end = files::part(file, tail as u64, bytes as u64).await;
    let place = directory_at(&end.map_err(unreadable)?, bytes);
    let (from, to) = place.map_err(words::files::album_fault)?;
    let rows = files::part(file, from as u64, to as u64).await;
    let found = directory(&rows.map_err(unreadable)?).map_err(words::files::album_fault)?;
    if found.items.is_empty() {
        return Err(words::files::no_photographs());
    }
    Ok(found.items)
}

/// A photograph's bytes, if they are what it is named after.
async fn bytes_of(file: &web_sys::File, item: &Item) -> Option<Vec<u8>> {
    let (from, to) = item.head();
    let head = files::part(file, from as u64, to as u64).await.ok()?;
    let (from, to) = item.body(&head)?;
    let bytes = files::part(file, from as u64, to as u64).await.ok()?;
    item.is(&bytes).then_some(bytes)
}
