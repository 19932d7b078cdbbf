//! Files out of the program and into it.
//!
//! A file to be shared is plain text and ends in `.txt`: share sheets refuse most other kinds. Sharing works only in
//! the moment of a tap, so the text has to be ready before.

use js_sys::{Array, Uint8Array};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::{call, of_navigator};

/// Why a file could not be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileError {
    /// It has more bytes than allowed.
    TooLarge,
    /// It is not text, or cut in the middle of a letter.
    NotText,
    /// The browser could not read it.
    Unreadable,
}

/// What came of sharing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shared {
    /// The file was handed over.
    Done,
    /// The person closed the share sheet.
    Cancelled,
    /// Not possible here; offer the download.
    Unavailable,
}

/// How long the browser may take to fetch a download from memory, in milliseconds.
const DOWNLOAD_MS: i32 = 60_000;

/// Offers a text as a download under this name; `false` when the browser refuses.
pub fn download(name: &str, media_type: &str, text: &str) -> bool {
    try_download(name, media_type, &Array::of1(&JsValue::from_str(text))).is_some()
}

/// The same for bytes that come in pieces, so that they need not lie in one place first.
#[derive(Debug, Default)]
pub struct Pieces(Array);

impl Pieces {
    pub fn push(&self, bytes: &[u8]) {
        self.0.push(&Uint8Array::from(bytes));
    }

    /// Offers them as a download; `false` when the browser refuses.
    pub fn download(&self, name: &str, media_type: &str) -> bool {
        try_download(name, media_type, &self.0).is_some()
    }
}

fn try_download(name: &str, media_type: &str, parts: &Array) -> Option<()> {
    let window = web_sys::window()?;
    let document = window.document()?;
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(media_type);
    let blob = web_sys::Blob::new_with_buffer_source_sequence_and_options(parts, &options).ok()?;
    let address = web_sys::Url::create_object_url_with_blob(&blob).ok()?;
    let link: web_sys::HtmlAnchorElement = document.create_element("a").ok()?.dyn_into().ok()?;
    link.set_href(&address);
    link.set_download(name);
    // Some browsers follow only links that are on the page.
    let body = document.body()?;
    body.append_child(&link).ok()?;
    link.click();
    link.remove();
    let forget = Closure::once_into_js(move || {
        let _ = web_sys::Url::revoke_object_url(&address);
    });
    let _ = window
        .set_timeout_with_callback_and_timeout_and_arguments_0(forget.unchecked_ref(), DOWNLOAD_MS);
    Some(())
}

/// Opens the print dialogue; `false` when there is none.
pub fn print() -> bool {
    web_sys::window().is_some_and(|window| window.print().is_ok())
}

/// Reads a chosen file as text, if it has at most `max_bytes`.
pub async fn read_text(file: &web_sys::File, max_bytes: u32) -> Result<String, FileError> {
    let bytes = read_bytes(file, max_bytes).await?;
    String::from_utf8(bytes).map_err(|_| FileError::NotText)
}

/// Reads a chosen file, if it has at most `max_bytes`.
pub async fn read_bytes(file: &web_sys::File, max_bytes: u32) -> Result<Vec<u8>, FileError> {
    if file.size() > f64::from(max_bytes) {
        return Err(FileError::TooLarge);
    }
    bytes_of(file).await
}

async fn bytes_of(blob: &web_sys::Blob) -> Result<Vec<u8>, FileError> {
    let buffer = JsFuture::from(blob.array_buffer())
        .await
        .map_err(|_| FileError::Unreadable)?;
    Ok(Uint8Array::new(&buffer).to_vec())
}

/// Bytes as something the browser can read in pieces.
pub fn blob_of(bytes: &[u8]) -> Option<web_sys::Blob> {
    let parts = Array::of1(&Uint8Array::from(bytes));
    web_sys::Blob::new_with_u8_array_sequence(&parts).ok()
}

/// Bytes as a file of this name.
pub fn file_of(bytes: &[u8], name: &str) -> Option<web_sys::File> {
    let parts = Array::of1(&blob_of(bytes)?.into());
    web_sys::File::new_with_blob_sequence(&parts, name).ok()
}

/// How many bytes a file has.
pub fn size(file: &web_sys::Blob) -> u64 {
    super::whole(&file.size().into()).unwrap_or(u64::MAX)
}

/// A part of a file; ends before `to`.
pub async fn part(file: &web_sys::Blob, from: u64, to: u64) -> Result<Vec<u8>, FileError> {
    // Files are far below the size at which a number loses a byte.
    #[allow(clippy::cast_precision_loss)]
    let part = file.slice_with_f64_and_f64(from as f64, to as f64);
    bytes_of(&part.map_err(|_| FileError::Unreadable)?).await
}

/// Whether a text file can be handed to the phone's share sheet.
pub fn can_share(name: &str) -> bool {
    share_data(name, "").is_some_and(|data| shareable(&data))
}

/// Hands a text file to the phone's share sheet.
pub async fn share(name: &str, text: &str) -> Shared {
    let Some(data) = share_data(name, text).filter(shareable) else {
        return Shared::Unavailable;
    };
    let promise = navigator_call("share", &data)
        .and_then(|promise| promise.dyn_into::<js_sys::Promise>().ok());
    let Some(promise) = promise else {
        return Shared::Unavailable;
    };
    match JsFuture::from(promise).await {
        Ok(_) => Shared::Done,
        Err(error) => match error.dyn_ref::<web_sys::DomException>() {
            Some(exception) if exception.name() == "AbortError" => Shared::Cancelled,
            _ => Shared::Unavailable,
        },
    }
}

fn share_data(name: &str, text: &str) -> Option<JsValue> {
    let options = web_sys::FilePropertyBag::new();
    options.set_type("text/plain");
    let parts = Array::of1(&JsValue::from_str(text));
    let file = web_sys::File::new_with_str_sequence_and_options(&parts, name, &options).ok()?;
    let data = web_sys::ShareData::new();
    data.set_files(&Array::of1(&file));
    Some(data.into())
}

fn shareable(data: &JsValue) -> bool {
    of_navigator("share").is_some()
        && navigator_call("canShare", data).is_some_and(|answer| answer.is_truthy())
}

fn navigator_call(method: &str, data: &JsValue) -> Option<JsValue> {
    let navigator: JsValue = web_sys::window()?.navigator().into();
    call(&navigator, method, std::slice::from_ref(data))
}
