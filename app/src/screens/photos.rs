//! Photographs on any screen: shown where an entry names them, picked where a draft holds them.

use leptos::prelude::*;
use velamen_core::event::PhotoRef;

use crate::ledger::{Ledger, PhotoShown};
use crate::ui::{Photo, PhotoPick, PickedPhoto, Picture, PlainAction};
use crate::words::{photo as words, told};

fn picture(ledger: Ledger, sha256: String) -> Signal<Picture> {
    let shown = ledger.photo_url(sha256);
    Signal::derive(move || match shown.get() {
        PhotoShown::Looking => Picture::Looking,
        PhotoShown::Here(address) => Picture::Here(address),
        PhotoShown::Missing => Picture::Away,
    })
}

/// Photographs an entry names, by their digests; nothing when there are none.
#[component]
pub fn Photos(photos: Vec<String>) -> impl IntoView {
    let ledger = Ledger::here();
    let count = photos.len();
    let shown = (1..)
        .zip(photos)
        .map(|(number, sha256)| {
            let name = words::name(number, count);
            let open_label = words::open(&name);
            let picture = picture(ledger, sha256);
            view! { <Photo picture name open_label close_label=told::close() away=words::AWAY /> }
        })
        .collect_view();
    (count > 0).then(|| view! { <div class="photo-strip">{shown}</div> })
}

/// Picks photographs for a draft, at most `most`; one is a fit number too. Both callbacks change the draft through the
/// ledger, so that a photograph finds its draft even after the screen was left.
#[component]
pub fn PickPhotos<A, R>(
    label: &'static str,
    hint: &'static str,
    /// Those in the draft.
    #[prop(into)]
    photos: Signal<Vec<PhotoRef>>,
    most: usize,
    /// Puts one into the draft.
    on_add: A,
    /// Takes the one with this digest out of the draft.
    on_remove: R,
) -> impl IntoView
where
    A: Fn(PhotoRef) + Clone + Send + Sync + 'static,
    R: Fn(String) + Clone + Send + Sync + 'static,
{
    let ledger = Ledger::here();
    let error = RwSignal::new(String::new());
    let reading = RwSignal::new(0_usize);
    let removed: RwSignal<Option<PhotoRef>> = RwSignal::new(None);
    let add = on_add.clone();
    let on_file = Callback::new(move |file| {
        error.set(String::new());
        removed.set(None);
        reading.update(|count| *count += 1);
        let add = add.clone();
        ledger.take_photo(file, move |taken| {
            let _ = reading.try_update(|count| *count = count.saturating_sub(1));
            match taken {
                Ok(photo) => add(photo),
                Err(fault) => {
                    let _ = error.try_set(words::fault(&fault));
                }
            }
        });
    });
    let reading = Signal::derive(move || {
        let words = if reading.get() > 0 {
            words::READING
        } else {
            ""
        };
        words.to_owned()
    });
    let full = Signal::derive(move || {
        let full = photos.with(Vec::len) >= most;
        if full {
            words::full(most)
        } else {
            String::new()
        }
    });
    let picked = move |photo: PhotoRef| {
        let (key, on_remove) = (photo.sha256.clone(), on_remove.clone());
        let name = Signal::derive(move || {
            photos.with(|photos| {
                let at = photos.iter().position(|kept| kept.sha256 == key);
                words::name(at.unwrap_or(0).saturating_add(1), photos.len())
            })
        });
        let remove = Callback::new({
            let photo = photo.clone();
            move |()| {
                removed.set(Some(photo.clone()));
                on_remove(photo.sha256.clone());
            }
        });
        view! {
            <PickedPhoto
                picture=picture(ledger, photo.sha256)
                name
                open_label=Signal::derive(move || words::open(&name.get()))
                close_label=told::close()
                away=words::AWAY
                remove=words::REMOVE
                remove_label=Signal::derive(move || words::remove(&name.get()))
                on_remove=remove
            />
        }
    };
    let put_back = move || {
        let on_add = on_add.clone();
        removed.get().map(|photo| {
            let back = Callback::new(move |()| {
                removed.set(None);
                on_add(photo.clone());
            });
            view! { <PlainAction label=words::PUT_BACK.to_owned() on_press=back /> }
        })
    };
    view! {
        <PhotoPick
            label
            hint
            take_label=words::TAKE
            choose_label=words::CHOOSE
            on_file
            reading
            full
            error
        >
            <For each=move || photos.get() key=|photo| photo.sha256.clone() children=picked />
            {put_back}
        </PhotoPick>
    }
}
