//! Photographs: taken, kept at once, shown on demand.
//!
//! A photograph is on disk before anything names it, so that neither a draft nor an entry speaks of one that was lost
//! in the same step. What is left behind is swept at a later start.

use std::collections::BTreeSet;

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::event::{PhotoRef, photo::digests_in};
use velamen_core::limits;

use super::{Ledger, Role};
use crate::platform::photo::{Address, Bounds, PhotoError, shrink};
use crate::storage::{First, Indexed, Photo, Storage, StorageError, UNNAMED, sweep_photos};

const BOUNDS: Bounds = Bounds {
    source_bytes: limits::PHOTO_SOURCE_BYTES_MAX,
    result_bytes: limits::PHOTO_BYTES_MAX,
    side_px: limits::PHOTO_SIDE_PX_MAX,
};

/// Why a photograph is not kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PhotoFault {
    TooLarge,
    /// The file is no picture this browser reads.
    NotAPicture,
    /// This browser draws no pictures.
    Unavailable,
    NotKept(StorageError),
}

impl From<PhotoError> for PhotoFault {
    fn from(error: PhotoError) -> Self {
        match error {
            PhotoError::TooLarge => Self::TooLarge,
            PhotoError::NotAPicture => Self::NotAPicture,
            PhotoError::Unavailable => Self::Unavailable,
        }
    }
}

/// What there is of a photograph on this phone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PhotoShown {
    /// It is being read.
    Looking,
    /// Its address on the page.
    Here(String),
    /// It is not on this phone: photographs travel apart from the book.
    Missing,
}

impl Ledger {
    /// Makes a chosen or taken picture small, keeps it, and tells its name. `then` runs even when the screen that asked
    /// is gone by then, so that a photograph still finds its draft.
    pub fn take_photo(
        self,
        file: web_sys::File,
        then: impl FnOnce(Result<PhotoRef, PhotoFault>) + 'static,
    ) {
        spawn_local(async move { then(self.keep_photo(&file).await) });
    }

    async fn keep_photo(self, file: &web_sys::File) -> Result<PhotoRef, PhotoFault> {
        let picture = shrink(file, BOUNDS).await?;
        let named =
            PhotoRef::of(&picture.bytes, &picture.media_type).ok_or(PhotoFault::TooLarge)?;
        let photo = Photo {
            sha256: named.sha256.clone(),
            media_type: picture.media_type,
            bytes: picture.bytes,
        };
        let storage = self
            .storage()
            .ok_or(PhotoFault::NotKept(StorageError::Closed))?;
        storage
            .put_photo(&photo)
            .await
            .map_err(PhotoFault::NotKept)?;
        self.ask_to_be_kept();
        Ok(named)
    }

    /// A photograph to show. Its address lives as long as the part of the screen that asked.
    #[must_use]
    pub fn photo_url(self, sha256: String) -> Signal<PhotoShown> {
        let shown = RwSignal::new(PhotoShown::Looking);
        let kept: StoredValue<Option<Address>> = StoredValue::new(None);
        spawn_local(async move {
            let found = match self.storage() {
                Some(storage) => storage.get_photo(&sha256).await.ok().flatten(),
                None => None,
            };
            let address = found.and_then(|photo| Address::of(&photo.bytes, &photo.media_type));
            let there = address.as_ref().map_or(PhotoShown::Missing, |address| {
                PhotoShown::Here(address.as_str().to_owned())
            });
            // A screen that is gone by now hands the address back, and it is given up.
            if kept.try_set_value(address).is_none() {
                let _ = shown.try_set(there);
            }
        });
        shown.into()
    }

    /// Removes photographs that neither an entry nor a draft has named for a day.
    pub(super) async fn sweep(self, storage: &Indexed, first: &First) {
        if self.role.get_untracked() != Role::Writes {
            return;
        }
        let noted = first.marks.get(UNNAMED).map_or("", String::as_str);
        // Where there are none, nobody has to be asked for them.
        let here = storage.list_photo_keys().await.unwrap_or_default();
        if here.is_empty() && noted.is_empty() {
            return;
        }
        let named: BTreeSet<String> = self.state.with_value(|state| {
            let drafts = first.drafts.values().map(String::as_str);
            let texts = state.log().lines().chain(drafts);
            texts.flat_map(digests_in).map(str::to_owned).collect()
        });
        let now_ms = self.moment().now_ms;
        // Should it fail, the next start sweeps.
        let _ = sweep_photos(storage, noted, &named, now_ms).await;
    }
}
