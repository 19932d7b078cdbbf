//! Digests in the forms a content-security policy and an integrity value want them.

use sha2::{Digest, Sha256, Sha384};

/// `sha384-<base64>` of the bytes, as a link or a script carries it.
pub(crate) fn integrity(bytes: &[u8]) -> String {
    format!("sha384-{}", base64(&Sha384::digest(bytes)))
}

/// `sha256-<base64>` of the bytes.
pub(crate) fn policy_hash(bytes: &[u8]) -> String {
    format!("sha256-{}", base64(&Sha256::digest(bytes)))
}

/// SHA-256 in lower-case hex.
pub(crate) fn hex(bytes: &[u8]) -> String {
    Sha256::digest(bytes)
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

/// Standard alphabet with padding (RFC 4648, section 4).
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for chunk in bytes.chunks(3) {
        let group = (0..3).fold(0_u32, |sum, at| {
            (sum << 8) | u32::from(chunk.get(at).copied().unwrap_or(0))
        });
        for place in 0..4_usize {
            let letter = LETTERS
                .get((group >> (18 - 6 * place)) as usize & 63)
                .copied()
                .unwrap_or(b'=');
            text.push(if place <= chunk.len() {
                char::from(letter)
            } else {
                '='
            });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn base64_agrees_with_the_vectors_of_rfc_4648() {
        let vectors = [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ];
        for (plain, coded) in vectors {
            assert_eq!(base64(plain.as_bytes()), coded, "{plain}");
        }
    }

    #[test]
    fn the_hash_of_nothing_is_the_known_one() {
        assert_eq!(
            policy_hash(b""),
            "sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU="
        );
        assert_eq!(
            hex(b"abc"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
    }
}
