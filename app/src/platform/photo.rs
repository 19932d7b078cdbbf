//! Pictures from the camera or the phone's album, made small enough to keep.
//!
//! A picture is drawn anew and written as JPEG. So what is kept has a bounded size, stands upright, and holds nothing
//! but what is seen on it: where it was taken is gone. What the browser cannot read is refused; the picture itself
//! stays where it was.

use js_sys::{Array, Object, Promise, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, HtmlCanvasElement};

use super::{call, member, whole};

/// What a photograph is kept as.
const JPEG: &str = "image/jpeg";

/// JPEG qualities tried until the result is small enough. Common practice, no source.
const QUALITIES: [f64; 3] = [0.8, 0.6, 0.4];

/// The most a picture may have.
#[derive(Debug, Clone, Copy)]
pub struct Bounds {
    /// Bytes of the chosen file.
    pub source_bytes: u32,
    /// Bytes of the result.
    pub result_bytes: u32,
    /// Longer side of the result.
    pub side_px: u32,
}

/// A picture as it can be kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    pub bytes: Vec<u8>,
    pub media_type: String,
}

/// Why a picture could not be had.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PhotoError {
    /// It has more bytes than allowed.
    TooLarge,
    /// The browser cannot read it as a picture.
    NotAPicture,
    /// The browser can read pictures and draws none here.
    Unavailable,
}

/// Reads a chosen file as a picture and makes it fit the bounds.
pub async fn shrink(file: &web_sys::File, bounds: Bounds) -> Result<Picture, PhotoError> {
    if file.size() > f64::from(bounds.source_bytes) {
        return Err(PhotoError::TooLarge);
    }
    let bitmap = decode(file).await?;
    let drawn = draw(&bitmap, bounds.side_px);
    // The memory of a large picture is wanted back now, not at some later sweep.
    let _ = call(&bitmap, "close", &[]);
    let canvas = drawn.ok_or(PhotoError::Unavailable)?;
    let picture = encode(&canvas, bounds.result_bytes).await;
    canvas.set_width(0);
    picture
}

async fn decode(file: &web_sys::File) -> Result<JsValue, PhotoError> {
    let window: JsValue = web_sys::window().ok_or(PhotoError::Unavailable)?.into();
    if member(&window, "createImageBitmap").is_none() {
        return Err(PhotoError::Unavailable);
    }
    let upright = Object::new();
    let _ = Reflect::set(&upright, &"imageOrientation".into(), &"from-image".into());
    // Older browsers do not know the word, and turn the picture upright without it.
    let ways: [&[JsValue]; 2] = [&[file.into(), upright.into()], &[file.into()]];
    for arguments in ways {
        let promise = call(&window, "createImageBitmap", arguments)
            .and_then(|promise| promise.dyn_into::<Promise>().ok());
        if let Some(promise) = promise
            && let Ok(bitmap) = JsFuture::from(promise).await
        {
            return Ok(bitmap);
        }
    }
    Err(PhotoError::NotAPicture)
}

fn draw(bitmap: &JsValue, side_px: u32) -> Option<HtmlCanvasElement> {
    let side = |name| u32::try_from(whole(&member(bitmap, name)?)?).ok();
    let (width, height) = fit(side("width")?, side("height")?, side_px);
    let document = web_sys::window()?.document()?;
    let canvas: HtmlCanvasElement = document.create_element("canvas").ok()?.dyn_into().ok()?;
    canvas.set_width(width);
    canvas.set_height(height);
    let pen: JsValue = canvas.get_context("2d").ok()??.into();
    let size: [JsValue; 4] = [0.into(), 0.into(), width.into(), height.into()];
    // JPEG has no see-through: a drawing without a ground gets a white one, not a black one.
    let _ = Reflect::set(&pen, &"fillStyle".into(), &"#fff".into());
    call(&pen, "fillRect", &size)?;
    let _ = Reflect::set(&pen, &"imageSmoothingQuality".into(), &"high".into());
    let [left, top, right, bottom] = size;
    call(
        &pen,
        "drawImage",
        &[bitmap.clone(), left, top, right, bottom],
    )?;
    Some(canvas)
}

/// Width and height within a longest side, in proportion; nothing is made larger.
fn fit(width: u32, height: u32, side_px: u32) -> (u32, u32) {
    let longest = width.max(height).max(1);
    if longest <= side_px {
        return (width.max(1), height.max(1));
    }
    let scaled = |length: u32| {
        let half = u64::from(longest / 2);
        let scaled = u64::from(length)
            .saturating_mul(u64::from(side_px))
            .saturating_add(half)
            / u64::from(longest);
        u32::try_from(scaled).unwrap_or(side_px).max(1)
    };
    (scaled(width), scaled(height))
}

async fn encode(canvas: &HtmlCanvasElement, result_bytes: u32) -> Result<Picture, PhotoError> {
    for quality in QUALITIES {
        let blob = blob_of(canvas, quality)
            .await
            .filter(|blob| blob.type_() == JPEG)
            .ok_or(PhotoError::Unavailable)?;
        if blob.size() <= f64::from(result_bytes) {
            let buffer = JsFuture::from(blob.array_buffer())
                .await
                .map_err(|_| PhotoError::Unavailable)?;
            return Ok(Picture {
                bytes: Uint8Array::new(&buffer).to_vec(),
                media_type: JPEG.to_owned(),
            });
        }
    }
    Err(PhotoError::TooLarge)
}

async fn blob_of(canvas: &HtmlCanvasElement, quality: f64) -> Option<Blob> {
    let promise = Promise::new(&mut |resolve, reject| {
        let asked = canvas.to_blob_with_type_and_encoder_options(&resolve, JPEG, &quality.into());
        if let Err(error) = asked {
            let _ = reject.call1(&JsValue::UNDEFINED, &error);
        }
    });
    JsFuture::from(promise).await.ok()?.dyn_into().ok()
}

/// An address under which the page can show bytes; given back when dropped.
#[derive(Debug)]
pub struct Address(String);

impl Address {
    /// An address for a picture; `None` when the browser refuses.
    pub fn of(bytes: &[u8], media_type: &str) -> Option<Self> {
        let options = web_sys::BlobPropertyBag::new();
        options.set_type(media_type);
        let parts = Array::of1(&Uint8Array::from(bytes));
        let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &options).ok()?;
        web_sys::Url::create_object_url_with_blob(&blob)
            .ok()
            .map(Self)
    }

    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl Drop for Address {
    fn drop(&mut self) {
        let _ = web_sys::Url::revoke_object_url(&self.0);
    }
}

#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    const BOUNDS: Bounds = Bounds {
        source_bytes: 4 << 20,
        result_bytes: 200_000,
        side_px: 1_600,
    };

    /// A picture of chance dots, which no encoder makes small, as a file.
    async fn dots(width: u32, height: u32) -> web_sys::File {
        let text = format!(
            "const c = document.createElement('canvas'); c.width = {width}; c.height = {height}; \
             const p = c.getContext('2d'), d = p.createImageData({width}, {height}); let x = 9; \
             for (let i = 0; i < d.data.length; i += 1) {{ x = (x * 48271) % 2147483647; \
             d.data[i] = i % 4 === 3 ? 255 : x % 256; }} p.putImageData(d, 0, 0); \
             return new Promise((done) => c.toBlob((b) => done(new File([b], 'dots.png')), 'image/png'));"
        );
        let made = js_sys::Function::new_no_args(&text);
        let promise: Promise = made.call0(&JsValue::NULL).unwrap().dyn_into().unwrap();
        JsFuture::from(promise).await.unwrap().dyn_into().unwrap()
    }

    fn file(bytes: &[u8], name: &str) -> web_sys::File {
        let parts = Array::of1(&Uint8Array::from(bytes));
        web_sys::File::new_with_u8_array_sequence(&parts, name).unwrap()
    }

    #[wasm_bindgen_test]
    fn a_picture_is_made_smaller_in_proportion_and_never_larger() {
        assert_eq!(fit(3000, 2000, 1600), (1600, 1067));
        assert_eq!(fit(2000, 3000, 1600), (1067, 1600));
        assert_eq!(fit(1600, 900, 1600), (1600, 900));
        assert_eq!(fit(20_000, 1, 1600), (1600, 1));
        assert_eq!(fit(0, 0, 1600), (1, 1));
    }

    #[wasm_bindgen_test]
    async fn a_large_picture_is_kept_within_its_bounds() {
        let tight = Bounds {
            side_px: 400,
            ..BOUNDS
        };
        let picture = shrink(&dots(900, 600).await, tight).await.unwrap();
        assert_eq!(picture.media_type, JPEG);
        assert_eq!(picture.bytes.get(..3), Some(&[0xff, 0xd8, 0xff][..]));
        assert!(picture.bytes.len() <= 200_000);
        let again = file(&picture.bytes, "again.jpg");
        let bitmap = decode(&again).await.unwrap();
        let side = |name| whole(&member(&bitmap, name).unwrap());
        assert_eq!((side("width"), side("height")), (Some(400), Some(267)));
    }

    #[wasm_bindgen_test]
    async fn what_is_too_large_before_or_after_is_refused() {
        let picture = dots(300, 300).await;
        let small = Bounds {
            source_bytes: 1_000,
            ..BOUNDS
        };
        assert_eq!(shrink(&picture, small).await, Err(PhotoError::TooLarge));
        let small = Bounds {
            result_bytes: 1_000,
            ..BOUNDS
        };
        assert_eq!(shrink(&picture, small).await, Err(PhotoError::TooLarge));
        assert!(shrink(&picture, BOUNDS).await.is_ok());
    }

    #[wasm_bindgen_test]
    async fn a_text_under_the_name_of_a_picture_is_refused() {
        for bytes in [&b"leaf spots, pot 4"[..], b"", b"\xff\xd8\xff\xe0 cut off"] {
            let refused = shrink(&file(bytes, "spots.jpg"), BOUNDS).await;
            assert_eq!(refused, Err(PhotoError::NotAPicture));
        }
    }

    #[wasm_bindgen_test]
    async fn an_address_shows_the_bytes_until_it_is_dropped() {
        let address = Address::of(b"abc", "image/jpeg").unwrap();
        let text = address.as_str().to_owned();
        let fetch = async |text: &str| {
            JsFuture::from(web_sys::window().unwrap().fetch_with_str(text))
                .await
                .is_ok()
        };
        assert!(fetch(&text).await);
        drop(address);
        assert!(!fetch(&text).await);
    }
}
