//! Packing and unpacking with gzip, by the browser's own streams.
//!
//! Unpacking stops as soon as more comes out than the caller allows: a small file may hold gigabytes of nothing.

use js_sys::{Array, Function, Promise, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::{call, member};

/// Why a packed file could not be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnpackError {
    /// More came out than is allowed.
    TooLarge,
    /// It is damaged or ends early.
    Damaged,
    /// This browser cannot unpack.
    Unavailable,
}

/// Whether this browser packs.
pub fn can_pack() -> bool {
    member(&js_sys::global(), "CompressionStream").is_some()
}

/// Packs bytes; `None` where the browser cannot.
pub async fn pack(bytes: &[u8]) -> Option<Vec<u8>> {
    let parts = Array::of1(&Uint8Array::from(bytes));
    let blob = web_sys::Blob::new_with_u8_array_sequence(&parts).ok()?;
    let out = through(&blob, "CompressionStream")?;
    collect(&out, |_| true).await.ok()
}

/// Unpacks; `may_become` says whether so many bytes may have come out.
pub async fn unpack(
    blob: &web_sys::Blob,
    may_become: impl Fn(usize) -> bool,
) -> Result<Vec<u8>, UnpackError> {
    let out = through(blob, "DecompressionStream").ok_or(UnpackError::Unavailable)?;
    collect(&out, may_become).await
}

/// What comes out of a stream that a blob is led through, as its reader.
fn through(blob: &web_sys::Blob, name: &str) -> Option<JsValue> {
    let make: Function = member(&js_sys::global(), name)?.dyn_into().ok()?;
    let way = Reflect::construct(&make, &Array::of1(&"gzip".into())).ok()?;
    let stream = call(blob, "stream", &[])?;
    let out = call(&stream, "pipeThrough", &[way])?;
    call(&out, "getReader", &[])
}

async fn collect(
    reader: &JsValue,
    may_become: impl Fn(usize) -> bool,
) -> Result<Vec<u8>, UnpackError> {
    let mut bytes = Vec::new();
    loop {
        let promise: Promise = call(reader, "read", &[])
            .and_then(|promise| promise.dyn_into().ok())
            .ok_or(UnpackError::Unavailable)?;
        let step = JsFuture::from(promise)
            .await
            .map_err(|_| UnpackError::Damaged)?;
        if member(&step, "done").is_some_and(|done| done.is_truthy()) {
            return Ok(bytes);
        }
        let piece: Uint8Array = member(&step, "value")
            .and_then(|value| value.dyn_into().ok())
            .ok_or(UnpackError::Damaged)?;
        let more = usize::try_from(piece.length()).unwrap_or(usize::MAX);
        if !may_become(bytes.len().saturating_add(more)) {
            // Nothing more is wanted; whether that is heard changes nothing here.
            let _ = call(reader, "cancel", &[]);
            return Err(UnpackError::TooLarge);
        }
        bytes.extend(piece.to_vec());
    }
}

#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn blob(bytes: &[u8]) -> web_sys::Blob {
        let parts = Array::of1(&Uint8Array::from(bytes));
        web_sys::Blob::new_with_u8_array_sequence(&parts).unwrap()
    }

    #[wasm_bindgen_test]
    async fn what_was_packed_is_unpacked_again_and_a_bomb_is_not() {
        let zeros = vec![0; 20 << 20];
        let packed = pack(&zeros).await.unwrap();
        assert!(packed.len() < 100_000);
        let most = zeros.len();
        let told = unpack(&blob(&packed), |bytes| bytes <= most).await;
        assert_eq!(told.map(|bytes| bytes == zeros), Ok(true));
        let told = unpack(&blob(&packed), |bytes| bytes < most).await;
        assert_eq!(told, Err(UnpackError::TooLarge));
        let cut = packed.get(..packed.len() - 1).unwrap();
        let told = unpack(&blob(cut), |_| true).await;
        assert_eq!(told, Err(UnpackError::Damaged));
        let told = unpack(&blob(b"milk"), |_| true).await;
        assert_eq!(told, Err(UnpackError::Damaged));
    }
}
