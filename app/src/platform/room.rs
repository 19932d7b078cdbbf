//! Memory asked for in good time.
//!
//! The allocator asks the browser for 64 kB whenever it runs out, and the browser takes about as long over that as over
//! eight megabytes (measured in Chromium: 0.4 ms each, a second for a book of ten thousand lots). So who is about to fill
//! much asks for it at once and hands it back: from then on it is the allocator's, and costs nothing before it is used.

/// What the first screen of a small book fills.
pub const START_BYTES: usize = 4 << 20;
/// The most that is asked for ahead.
const STEP_BYTES: usize = 8 << 20;
/// What a byte of the book's text becomes in the book.
const TEXT_BECOMES: usize = 4;

/// Makes room for so many bytes. Where there is none, it shows when they are needed.
pub fn make(bytes: usize) {
    let mut room: Vec<u8> = Vec::new();
    if room.try_reserve_exact(bytes.min(STEP_BYTES)).is_ok() {
        // Else the compiler finds out that nothing is done with it.
        std::hint::black_box(&mut room);
    }
}

/// Makes room for what so many bytes of lines, or what is left of them, become.
pub fn for_text(bytes: usize) {
    make(bytes.saturating_mul(TEXT_BECOMES));
}
