//! The shapes of the rows as the browser keeps them.
//!
//! A row of `entries` is `{arrival, dev, seq, line}`, of `segments` `{first, last, bytes}` with one line a line in UTF-8 (`text`, a
//! string, in older ones), of
//! `photos` `{type, bytes}`. The device is kept as 16 hexadecimal digits, because a browser's number has no room for
//! 64 bits. These names are stored and never change.

use js_sys::{Array, Object, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};

use super::{Line, Photo, StorageError};
use crate::platform::whole as whole_number;

/// A device as it is kept.
pub(crate) fn dev_text(dev: u64) -> String {
    format!("{dev:016x}")
}

/// The key of a line in the index over identities.
pub(crate) fn identity(line: &Line) -> JsValue {
    identity_of(line.dev, line.seq)
}

/// The same from its parts.
pub(crate) fn identity_of(dev: u64, seq: u64) -> JsValue {
    Array::of2(&dev_text(dev).into(), &number(seq)).into()
}

/// A row without a line, put and removed at once: the browser numbers rows on from it. It has no device, so that it meets
/// no identity.
pub(crate) fn counter_row(arrival: u64) -> JsValue {
    object(&[("arrival", number(arrival))])
}

/// A row of `entries`, without the arrival number, which the browser adds.
pub(crate) fn entry_row(line: &Line) -> JsValue {
    object(&[
        ("dev", dev_text(line.dev).into()),
        ("seq", number(line.seq)),
        ("line", JsValue::from_str(&line.text)),
    ])
}

/// The line of a row of `entries`.
pub(crate) fn entry_text(row: &JsValue) -> Result<String, StorageError> {
    text(row, "line")
}

/// The arrival number of a row of `entries`.
pub(crate) fn entry_arrival(row: &JsValue) -> Result<u64, StorageError> {
    whole(row, "arrival")
}

/// The identity of a row of `entries`.
pub(crate) fn entry_identity(row: &JsValue) -> Result<(u64, u64), StorageError> {
    let dev = u64::from_str_radix(&text(row, "dev")?, 16).map_err(|_| damaged("dev"))?;
    Ok((dev, whole(row, "seq")?))
}

/// Many lines in one row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Segment {
    pub(crate) first: u64,
    pub(crate) last: u64,
    pub(crate) text: String,
}

impl Segment {
    /// The text of the lines that arrived after `arrival`; of all of them when the numbers have a gap, so that none is left
    /// out.
    pub(crate) fn after(self, arrival: u64) -> String {
        if arrival < self.first {
            return self.text;
        }
        let count = self.text.lines().count();
        let gapless = usize::try_from(self.last.saturating_sub(self.first))
            .ok()
            .and_then(|span| span.checked_add(1))
            == Some(count);
        if !gapless {
            return self.text;
        }
        let known = arrival.saturating_sub(self.first).saturating_add(1);
        let known = usize::try_from(known).unwrap_or(usize::MAX);
        let mut lines = self.text.split_inclusive('\n');
        lines.by_ref().take(known).for_each(drop);
        lines.collect()
    }

    pub(crate) fn row(&self) -> JsValue {
        object(&[
            ("first", number(self.first)),
            ("last", number(self.last)),
            ("bytes", Uint8Array::from(self.text.as_bytes()).into()),
        ])
    }

    pub(crate) fn of_row(row: &JsValue) -> Result<Self, StorageError> {
        Ok(Self {
            first: whole(row, "first")?,
            last: whole(row, "last")?,
            text: match field(row, "bytes")?.dyn_into::<Uint8Array>() {
                Ok(bytes) => String::from_utf8(bytes.to_vec()).map_err(|_| damaged("bytes"))?,
                // Written so before bytes were found to be read in a fraction of the time.
                Err(_) => text(row, "text")?,
            },
        })
    }
}

/// A row of `photos`.
pub(crate) fn photo_row(photo: &Photo) -> JsValue {
    object(&[
        ("type", JsValue::from_str(&photo.media_type)),
        ("bytes", Uint8Array::from(photo.bytes.as_slice()).into()),
    ])
}

/// The photograph of a row of `photos`.
pub(crate) fn photo_of_row(sha256: &str, row: &JsValue) -> Result<Photo, StorageError> {
    let bytes: Uint8Array = field(row, "bytes")?
        .dyn_into()
        .map_err(|_| damaged("bytes"))?;
    Ok(Photo {
        sha256: sha256.to_owned(),
        media_type: text(row, "type")?,
        bytes: bytes.to_vec(),
    })
}

/// A whole number as the browser keeps it; exact below 2^53, which is checked before.
#[allow(clippy::cast_precision_loss)]
pub(crate) fn number(value: u64) -> JsValue {
    JsValue::from_f64(value as f64)
}

fn object(fields: &[(&str, JsValue)]) -> JsValue {
    let object = Object::new();
    for (name, value) in fields {
        // Setting a field of a fresh plain object cannot fail.
        let _ = Reflect::set(&object, &JsValue::from_str(name), value);
    }
    object.into()
}

fn field(row: &JsValue, name: &str) -> Result<JsValue, StorageError> {
    Reflect::get(row, &JsValue::from_str(name)).map_err(|_| damaged(name))
}

fn text(row: &JsValue, name: &str) -> Result<String, StorageError> {
    field(row, name)?.as_string().ok_or_else(|| damaged(name))
}

fn whole(row: &JsValue, name: &str) -> Result<u64, StorageError> {
    whole_number(&field(row, name)?).ok_or_else(|| damaged(name))
}

pub(crate) fn damaged(name: &str) -> StorageError {
    StorageError::Other(format!("a stored row is damaged: {name}"))
}

#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn segment(last: u64, text: &str) -> Segment {
        Segment {
            first: 5,
            last,
            text: text.to_owned(),
        }
    }

    #[wasm_bindgen_test]
    fn a_segment_of_text_is_read_like_one_of_bytes() {
        let known = segment(6, "{\"a\":\"Ñandú\"}\n{\"b\":\"בית\"}\n");
        assert_eq!(Segment::of_row(&known.row()), Ok(known.clone()));
        let older = object(&[
            ("first", number(5)),
            ("last", number(6)),
            ("text", JsValue::from_str(&known.text)),
        ]);
        assert_eq!(Segment::of_row(&older), Ok(known));
        let not_text = Uint8Array::from([0xff_u8, 0xfe].as_slice());
        let broken = object(&[
            ("first", number(5)),
            ("last", number(6)),
            ("bytes", not_text.into()),
        ]);
        assert_eq!(Segment::of_row(&broken), Err(damaged("bytes")));
        let empty = object(&[("first", number(5)), ("last", number(6))]);
        assert_eq!(Segment::of_row(&empty), Err(damaged("text")));
    }

    #[wasm_bindgen_test]
    fn of_a_segment_only_the_lines_that_came_after_are_given() {
        let text = "a\nb\nc\n";
        for (known, left) in [(0, text), (4, text), (5, "b\nc\n"), (6, "c\n"), (7, "")] {
            assert_eq!(segment(7, text).after(known), left, "{known}");
        }
        // Numbers with a gap: none is left out.
        assert_eq!(segment(9, text).after(6), text);
        // The last line may stand without its end.
        assert_eq!(segment(7, "a\nb\nc").after(6), "c");
    }
}
