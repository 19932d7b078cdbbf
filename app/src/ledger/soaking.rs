//! What a soak needs of the phone: a screen that stays on, a ring, and a counter that no clock setting moves.

use super::Ledger;
use crate::platform::{awake, clock, feedback};

impl Ledger {
    /// Keeps the screen on while the answer lives.
    #[must_use]
    pub fn keep_awake(self) -> awake::Awake {
        awake::keep()
    }

    /// Rings once, and taps the motor.
    pub fn ring(self) {
        feedback::sound(feedback::Tone::Ring);
        feedback::tap(feedback::Tone::Ring);
    }

    /// To be called in a tap: afterwards a ring may sound on its own.
    pub fn may_ring(self) {
        feedback::sound(feedback::Tone::Recorded);
    }

    /// Milliseconds on the phone's own counter: only differences mean anything, and a sleeping phone may not count.
    #[must_use]
    pub fn counter_ms(self) -> i64 {
        clock::counter_ms()
    }
}
