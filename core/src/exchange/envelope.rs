//! A file under a passphrase: its form, and what may stand in it. The ciphers themselves are the browser's.
//!
//! The first line says how the key is made of the passphrase; each further line is one chunk, enciphered and
//! authenticated, in base64. What holds: a chunk fits only in its own place, the last one is marked as the last, and every
//! chunk is bound to the first line. So nothing can be left out, put elsewhere, cut off or swapped, and the parameters
//! cannot be changed, without the file being refused. Nothing of a file is used before all of it was opened.

use serde::{Deserialize, Serialize};

use crate::limits::{
    CHUNK_BYTES_MAX, CHUNK_BYTES_MIN, FILE_BYTES_MAX, PASSPHRASE_CHARS_MAX, PASSPHRASE_CHARS_MIN,
    ROUNDS_MAX, ROUNDS_MIN,
};

/// What the first line begins with.
pub const BEGINNING: &str = "{\"velamen_envelope\":";
/// Version of the form.
const FORMAT: u16 = 1;
/// Rounds of a new file: what was advised for this hash in 2023 (from memory); under a second on a slow phone.
pub const ROUNDS: u32 = 600_000;
/// Bytes of one chunk of a new file.
pub const CHUNK_BYTES: usize = 1 << 16;
pub const SALT_BYTES: usize = 16;
pub const NONCE_BYTES: usize = 12;
/// Bytes a chunk grows by: the cipher's tag.
const TAG_BYTES: usize = 16;
const KEY_BY: &str = "PBKDF2-HMAC-SHA-256";
const CIPHER: &str = "AES-256-GCM";

/// The first line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Head {
    pub velamen_envelope: u16,
    pub key: String,
    pub rounds: u32,
    /// Base64.
    pub salt: String,
    pub cipher: String,
    pub chunk: usize,
    /// What lies inside is packed with gzip.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub packed: bool,
}

/// Why a file under a passphrase is not even tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EnvelopeFault {
    NotOne,
    NewerFormat,
    /// Parameters no careful writer would choose, or that would keep a phone busy for minutes.
    Absurd,
    TooLarge,
    /// A line is not what a chunk looks like.
    Damaged {
        line: usize,
    },
}

/// Why a passphrase is not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unfit {
    Short,
    Long,
}

/// Whether a passphrase may be used.
///
/// # Errors
/// [`Unfit`].
pub fn fits(passphrase: &str) -> Result<(), Unfit> {
    match passphrase.chars().count() {
        count if count < PASSPHRASE_CHARS_MIN => Err(Unfit::Short),
        count if count > PASSPHRASE_CHARS_MAX => Err(Unfit::Long),
        _ => Ok(()),
    }
}

/// A file whose parameters are fit to be tried.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Envelope<'a> {
    pub rounds: u32,
    pub salt: Vec<u8>,
    pub packed: bool,
    /// The first line: what every chunk is bound to.
    pub bound_to: &'a str,
    chunk: usize,
    chunks: Vec<&'a str>,
}

impl Envelope<'_> {
    /// How many chunks there are: one at least.
    #[must_use]
    pub fn len(&self) -> usize {
        self.chunks.len()
    }

    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.chunks.is_empty()
    }

    /// One chunk as it was enciphered.
    ///
    /// # Errors
    /// [`EnvelopeFault::Damaged`] when the line is none.
    pub fn chunk(&self, at: usize) -> Result<Vec<u8>, EnvelopeFault> {
        let damaged = EnvelopeFault::Damaged {
            line: at.saturating_add(2),
        };
        let line = self.chunks.get(at).ok_or(damaged)?;
        let bytes = from_base64(line).ok_or(damaged)?;
        let most = self.chunk.saturating_add(TAG_BYTES);
        if bytes.len() < TAG_BYTES || bytes.len() > most {
            return Err(damaged);
        }
        Ok(bytes)
    }

    /// What makes a chunk fit in its place alone.
    #[must_use]
    pub fn nonce(&self, at: usize) -> [u8; NONCE_BYTES] {
        nonce(at, at.saturating_add(1) == self.chunks.len())
    }
}

/// Reads the first line and finds the chunks.
///
/// # Errors
/// [`EnvelopeFault`].
pub fn read(text: &str) -> Result<Envelope<'_>, EnvelopeFault> {
    if text.len() > FILE_BYTES_MAX {
        return Err(EnvelopeFault::TooLarge);
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    let first = lines.next().ok_or(EnvelopeFault::NotOne)?;
    let value: serde_json::Value =
        serde_json::from_str(first).map_err(|_| EnvelopeFault::NotOne)?;
    let format = value
        .get("velamen_envelope")
        .and_then(serde_json::Value::as_u64)
        .ok_or(EnvelopeFault::NotOne)?;
    if format > u64::from(FORMAT) {
        return Err(EnvelopeFault::NewerFormat);
    }
    let head: Head = serde_json::from_str(first).map_err(|_| EnvelopeFault::Absurd)?;
    let salt = from_base64(&head.salt).ok_or(EnvelopeFault::Absurd)?;
    let sane = head.key == KEY_BY
        && head.cipher == CIPHER
        && (ROUNDS_MIN..=ROUNDS_MAX).contains(&head.rounds)
        && (CHUNK_BYTES_MIN..=CHUNK_BYTES_MAX).contains(&head.chunk)
        && salt.len() == SALT_BYTES;
    if !sane {
        return Err(EnvelopeFault::Absurd);
    }
    let chunks: Vec<&str> = lines.collect();
    if chunks.is_empty() {
        return Err(EnvelopeFault::Damaged { line: 2 });
    }
    Ok(Envelope {
        rounds: head.rounds,
        salt,
        packed: head.packed,
        bound_to: first,
        chunk: head.chunk,
        chunks,
    })
}

/// The first line of a new file.
#[must_use]
pub fn first_line(salt: &[u8], packed: bool) -> Option<String> {
    let head = Head {
        velamen_envelope: FORMAT,
        key: KEY_BY.to_owned(),
        rounds: ROUNDS,
        salt: base64(salt),
        cipher: CIPHER.to_owned(),
        chunk: CHUNK_BYTES,
        packed,
    };
    serde_json::to_string(&head).ok()
}

/// What makes a chunk fit in its place alone: its number, and whether it is the last. A key is used for one file only.
#[must_use]
pub fn nonce(at: usize, last: bool) -> [u8; NONCE_BYTES] {
    let [a, b, c, d, e, f, g, h] = u64::try_from(at).unwrap_or(u64::MAX).to_be_bytes();
    [0, 0, 0, a, b, c, d, e, f, g, h, u8::from(last)]
}

/// Letters of base64, RFC 4648 section 4.
const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// Bytes as base64, with padding.
#[must_use]
pub fn base64(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(3).saturating_mul(4));
    for three in bytes.chunks(3) {
        let at = |at: usize| u32::from(three.get(at).copied().unwrap_or(0));
        let word = at(0) << 16 | at(1) << 8 | at(2);
        for place in 0..4_u32 {
            let used = usize::try_from(place).is_ok_and(|place| place <= three.len());
            let sextet = usize::try_from(word >> (18 - 6 * place) & 63).unwrap_or(0);
            let letter = LETTERS.get(sextet).copied().unwrap_or(b'=');
            text.push(char::from(if used { letter } else { b'=' }));
        }
    }
    text
}

/// The bytes of base64; `None` for anything that is not exactly what [`base64`] writes.
#[must_use]
pub fn from_base64(text: &str) -> Option<Vec<u8>> {
    let bytes = text.as_bytes();
    if !bytes.len().is_multiple_of(4) {
        return None;
    }
    let padding = bytes.iter().rev().take_while(|byte| **byte == b'=').count();
    let letters = bytes.get(..bytes.len().checked_sub(padding)?)?;
    if padding > 2 {
        return None;
    }
    let mut out = Vec::with_capacity(letters.len().saturating_mul(3) / 4);
    let (mut held, mut bits) = (0_u32, 0_u32);
    for letter in letters {
        held = held << 6 | u32::from(sextet_of(*letter)?);
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            out.push(u8::try_from(held >> bits & 0xff).ok()?);
            held &= (1 << bits) - 1;
        }
    }
    // What is left over is nothing: one text for the same bytes.
    (held == 0).then_some(out)
}

fn sextet_of(letter: u8) -> Option<u8> {
    match letter {
        b'A'..=b'Z' => letter.checked_sub(b'A'),
        b'a'..=b'z' => letter.checked_sub(b'a')?.checked_add(26),
        b'0'..=b'9' => letter.checked_sub(b'0')?.checked_add(52),
        b'+' => Some(62),
        b'/' => Some(63),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn base64_is_that_of_the_standard() {
        // RFC 4648, section 10.
        let rows = [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ];
        for (plain, text) in rows {
            assert_eq!(base64(plain.as_bytes()), text);
            assert_eq!(from_base64(text).as_deref(), Some(plain.as_bytes()));
        }
        for wrong in [
            "Zg=", "Zg", "Zh==", "Z===", "Zg==Zg==", "Zm9 ", "Zm9\n", "====",
        ] {
            assert_eq!(from_base64(wrong), None, "{wrong:?}");
        }
        let all: Vec<u8> = (0..=255).collect();
        assert_eq!(from_base64(&base64(&all)), Some(all));
    }

    fn file(change: impl FnOnce(&mut serde_json::Value)) -> String {
        let mut head: serde_json::Value =
            serde_json::from_str(&first_line(&[7; SALT_BYTES], true).unwrap()).unwrap();
        change(&mut head);
        format!("{head}\n{}\n", base64(&[0; 40]))
    }

    #[test]
    fn absurd_parameters_are_refused_before_anything_is_tried() {
        assert!(read(&file(|_| {})).is_ok());
        let bounds = [
            ("rounds", u64::from(ROUNDS_MIN), u64::from(ROUNDS_MAX)),
            ("chunk", CHUNK_BYTES_MIN as u64, CHUNK_BYTES_MAX as u64),
        ];
        for (name, least, most) in bounds {
            for (value, fits) in [
                (least - 1, false),
                (least, true),
                (least + 1, true),
                (most - 1, true),
                (most, true),
                (most + 1, false),
                (u64::from(u32::MAX) + 1, false),
            ] {
                let told = read(&file(|head| head[name] = value.into())).map(|_| ());
                let expected = fits.then_some(()).ok_or(EnvelopeFault::Absurd);
                assert_eq!(told, expected, "{name} {value}");
            }
        }
        for bytes in [0, SALT_BYTES - 1, SALT_BYTES + 1] {
            let salt = base64(&vec![1; bytes]);
            let told = read(&file(|head| head["salt"] = salt.into())).map(|_| ());
            assert_eq!(told, Err(EnvelopeFault::Absurd));
        }
        for (name, value) in [("key", "scrypt"), ("cipher", "AES-128-CBC"), ("salt", "?")] {
            let told = read(&file(|head| head[name] = value.into())).map(|_| ());
            assert_eq!(told, Err(EnvelopeFault::Absurd), "{name}");
        }
        let newer = read(&file(|head| head["velamen_envelope"] = 2.into())).map(|_| ());
        assert_eq!(newer, Err(EnvelopeFault::NewerFormat));
        assert_eq!(read("{}\nAAAA\n").map(|_| ()), Err(EnvelopeFault::NotOne));
        assert_eq!(read("").map(|_| ()), Err(EnvelopeFault::NotOne));
    }

    #[test]
    fn a_chunk_is_bound_to_its_place_and_to_being_the_last() {
        let text = format!("{}{}\n", file(|_| {}), base64(&[1; 20]));
        let two = read(&text).unwrap();
        assert_eq!(two.len(), 2);
        assert_eq!(two.nonce(0), nonce(0, false));
        assert_eq!(two.nonce(1), nonce(1, true));
        assert_ne!(nonce(1, true), nonce(1, false));
        assert_eq!(two.chunk(1), Ok(vec![1; 20]));
        assert_eq!(two.chunk(2), Err(EnvelopeFault::Damaged { line: 4 }));
        let windows = text.replace('\n', "\r\n");
        assert_eq!(read(&format!("\u{feff}{windows}")).unwrap(), two);
        let short = format!("{}\nAAAA\n", first_line(&[7; SALT_BYTES], true).unwrap());
        let short = read(&short).unwrap();
        assert_eq!(short.chunk(0), Err(EnvelopeFault::Damaged { line: 2 }));
    }

    #[test]
    fn a_chunk_is_no_longer_than_it_says() {
        for (bytes, fits) in [(CHUNK_BYTES_MIN, true), (CHUNK_BYTES_MIN + 1, false)] {
            let head = file(|head| head["chunk"] = CHUNK_BYTES_MIN.into());
            let head = head.lines().next().unwrap();
            let text = format!("{head}\n{}\n", base64(&vec![0; bytes + TAG_BYTES]));
            assert_eq!(read(&text).unwrap().chunk(0).is_ok(), fits, "{bytes}");
        }
    }

    #[test]
    fn a_passphrase_has_its_least_and_its_most() {
        let told = |count: usize| fits(&"é".repeat(count));
        assert_eq!(told(PASSPHRASE_CHARS_MIN - 1), Err(Unfit::Short));
        assert_eq!(told(PASSPHRASE_CHARS_MIN), Ok(()));
        assert_eq!(told(PASSPHRASE_CHARS_MAX), Ok(()));
        assert_eq!(told(PASSPHRASE_CHARS_MAX + 1), Err(Unfit::Long));
    }
}
