//! The browser's own ciphers: a key out of a passphrase, and chunks enciphered and opened with it.
//!
//! Which key, which chunk and which nonce are for the caller to say; see the form in the core.

use js_sys::{Array, Uint8Array};
use wasm_bindgen::JsValue;

use super::{member, object, promised};

/// A key, usable for enciphering and opening.
#[derive(Debug, Clone)]
pub struct Key(JsValue);

fn subtle() -> Option<JsValue> {
    member(&member(&js_sys::global(), "crypto")?, "subtle")
}

/// Whether this browser has ciphers here: an address that does not begin with https has none.
pub fn can_encipher() -> bool {
    subtle().is_some()
}

/// Random bytes.
pub fn random<const N: usize>() -> Option<[u8; N]> {
    let crypto = web_sys::window()?.crypto().ok()?;
    let mut bytes = [0; N];
    crypto.get_random_values_with_u8_array(&mut bytes).ok()?;
    Some(bytes)
}

/// One text for what looks the same: keyboards write letters with accents in more than one way.
pub fn composed(text: &str) -> String {
    js_sys::JsString::from(text).normalize("NFC").into()
}

/// The key of a passphrase: PBKDF2 with HMAC-SHA-256, for AES-256-GCM.
pub async fn key_of(passphrase: &str, salt: &[u8], rounds: u32) -> Option<Key> {
    let subtle = subtle()?;
    let words: JsValue = Uint8Array::from(composed(passphrase).as_bytes()).into();
    let arguments = [
        "raw".into(),
        words,
        "PBKDF2".into(),
        JsValue::FALSE,
        list(&["deriveKey"]),
    ];
    let raw = promised(&subtle, "importKey", &arguments).await?;
    let how = object(&[
        ("name", "PBKDF2".into()),
        ("hash", "SHA-256".into()),
        ("salt", Uint8Array::from(salt).into()),
        ("iterations", rounds.into()),
    ]);
    let cipher = object(&[("name", "AES-GCM".into()), ("length", 256.into())]);
    let uses = list(&["encrypt", "decrypt"]);
    let arguments = [how, raw, cipher, JsValue::FALSE, uses];
    let key = promised(&subtle, "deriveKey", &arguments).await;
    key.map(Key)
}

impl Key {
    /// Enciphers a chunk and binds it to other bytes.
    pub async fn encipher(&self, nonce: &[u8], bound_to: &[u8], bytes: &[u8]) -> Option<Vec<u8>> {
        self.carry_out("encrypt", nonce, bound_to, bytes).await
    }

    /// Opens a chunk; `None` when anything about it is not as it was.
    pub async fn open(&self, nonce: &[u8], bound_to: &[u8], bytes: &[u8]) -> Option<Vec<u8>> {
        self.carry_out("decrypt", nonce, bound_to, bytes).await
    }

    async fn carry_out(
        &self,
        what: &str,
        nonce: &[u8],
        bound_to: &[u8],
        bytes: &[u8],
    ) -> Option<Vec<u8>> {
        let how = object(&[
            ("name", "AES-GCM".into()),
            ("iv", Uint8Array::from(nonce).into()),
            ("additionalData", Uint8Array::from(bound_to).into()),
            ("tagLength", 128.into()),
        ]);
        let bytes: JsValue = Uint8Array::from(bytes).into();
        let answer = promised(&subtle()?, what, &[how, self.0.clone(), bytes]).await?;
        Some(Uint8Array::new(&answer).to_vec())
    }
}

fn list(words: &[&str]) -> JsValue {
    let list: Array = words.iter().map(|word| JsValue::from_str(word)).collect();
    list.into()
}

#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    async fn a_chunk_opens_with_the_same_key_nonce_and_bond_alone() {
        let salt: [u8; 16] = random().unwrap();
        let key = key_of("wet gloves", &salt, 100_000).await.unwrap();
        let hidden = key.encipher(&[1; 12], b"head", b"leaf").await.unwrap();
        assert_eq!(hidden.len(), 4 + 16);
        let opened = key.open(&[1; 12], b"head", &hidden).await;
        assert_eq!(opened.as_deref(), Some(&b"leaf"[..]));
        assert_eq!(key.open(&[2; 12], b"head", &hidden).await, None);
        assert_eq!(key.open(&[1; 12], b"heap", &hidden).await, None);
        let mut flipped = hidden.clone();
        flipped[2] ^= 1;
        assert_eq!(key.open(&[1; 12], b"head", &flipped).await, None);
        let other = key_of("wet glove", &salt, 100_000).await.unwrap();
        assert_eq!(other.open(&[1; 12], b"head", &hidden).await, None);
        let again = key_of("wet gloves", &salt, 100_000).await.unwrap();
        assert!(again.open(&[1; 12], b"head", &hidden).await.is_some());
    }

    #[wasm_bindgen_test]
    fn an_accent_is_one_letter_however_it_was_typed() {
        assert_eq!(composed("e\u{301}"), "\u{e9}");
    }
}
