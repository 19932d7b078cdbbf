//! Randomness, for the identity of a device and the seed of a draw.

/// A random number of 64 bits; `None` when the browser has no source that can be trusted with an identity.
pub fn word() -> Option<u64> {
    let crypto = web_sys::window()?.crypto().ok()?;
    let mut bytes = [0; 8];
    crypto.get_random_values_with_u8_array(&mut bytes).ok()?;
    Some(u64::from_le_bytes(bytes))
}
