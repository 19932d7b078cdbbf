//! A soak: a stored instant and a length, counted from the last piece in.
//!
//! A timer that runs is a fault waiting for a flat battery. What is kept is when the last piece went in and how long
//! it was to lie; how far it is follows from the clock whenever somebody looks. A clock that was moved is noticed and
//! said, never guessed at.

use serde::{Deserialize, Serialize};

/// How far before the last piece a clock may stand: the delay so that no wet glove touches the glass.
const DELAY_MAX_MS: i64 = 120_000;
/// A clock that falls behind the phone's own counter by more than this was moved.
const MOVED_MS: i64 = 5_000;

/// A soak in hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Soak {
    /// The last piece is in, by the phone's clock.
    pub in_ms: i64,
    pub wanted_s: u32,
    /// The clock was moved while it ran; `in_ms` was moved with it.
    #[serde(default)]
    pub clock_moved: bool,
}

/// How far a soak is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SoakState {
    /// The last pieces are still going in.
    Starts {
        in_s: u32,
    },
    Runs {
        left_s: u32,
    },
    /// Time to take them out, since so many seconds.
    Over {
        since_s: u32,
    },
    /// The clock stands before the soak began: it was put back, and there is no telling.
    ClockBehind,
}

impl Soak {
    /// A soak whose last piece is in at that instant.
    #[must_use]
    pub const fn new(in_ms: i64, wanted_s: u32) -> Self {
        Self {
            in_ms,
            wanted_s,
            clock_moved: false,
        }
    }

    /// How far it is. Part seconds count as whole ones still to go.
    #[must_use]
    pub fn at(&self, now_ms: i64) -> SoakState {
        let before = self.in_ms.saturating_sub(now_ms);
        if before > DELAY_MAX_MS {
            return SoakState::ClockBehind;
        }
        if before > 0 {
            return SoakState::Starts {
                in_s: seconds_up(before),
            };
        }
        let left = self.out_ms().saturating_sub(now_ms);
        if left > 0 {
            SoakState::Runs {
                left_s: seconds_up(left),
            }
        } else {
            SoakState::Over {
                since_s: seconds(left.saturating_neg()),
            }
        }
    }

    /// When the pieces come out.
    #[must_use]
    pub fn out_ms(&self) -> i64 {
        self.in_ms
            .saturating_add(i64::from(self.wanted_s).saturating_mul(1_000))
    }

    /// Lets it last longer, up to the most a soak may last.
    pub fn lengthen(&mut self, by_s: u32) {
        self.wanted_s = self
            .wanted_s
            .saturating_add(by_s)
            .min(crate::limits::SOAK_S_MAX);
    }

    /// How long they lay in it when they came out at that instant; `None` when the clock cannot say.
    #[must_use]
    pub fn soaked_s(&self, out_ms: i64) -> Option<u32> {
        let lay = out_ms.saturating_sub(self.in_ms);
        (lay >= 0).then(|| seconds(lay).min(crate::limits::SOAK_S_MAX))
    }

    /// Follows a clock that was moved while the page was awake: `clock_ms` and `counter_ms` are what the clock and the
    /// phone's own counter went on by since the last look. Says whether it was moved.
    ///
    /// Only a clock put back is told apart: a phone that slept looks like one put forward, since the counter of most
    /// stands still in sleep.
    pub fn follow(&mut self, clock_ms: i64, counter_ms: i64) -> bool {
        let moved = clock_ms.saturating_sub(counter_ms);
        if moved >= -MOVED_MS {
            return false;
        }
        self.in_ms = self.in_ms.saturating_add(moved);
        self.clock_moved = true;
        true
    }
}

fn seconds(ms: i64) -> u32 {
    u32::try_from(ms / 1_000).unwrap_or(u32::MAX)
}

fn seconds_up(ms: i64) -> u32 {
    seconds(ms.saturating_add(999))
}

#[cfg(test)]
mod tests {
    use super::*;

    const IN: i64 = 1_800_000_000_000;

    #[test]
    fn a_soak_counts_from_the_last_piece_and_says_how_long_it_has_been_over() {
        let soak = Soak::new(IN, 300);
        assert_eq!(soak.at(IN - 10_000), SoakState::Starts { in_s: 10 });
        assert_eq!(soak.at(IN), SoakState::Runs { left_s: 300 });
        assert_eq!(soak.at(IN + 299_001), SoakState::Runs { left_s: 1 });
        assert_eq!(soak.at(IN + 300_000), SoakState::Over { since_s: 0 });
        assert_eq!(
            soak.at(IN + 300_000 + 12 * 60_000),
            SoakState::Over { since_s: 720 }
        );
    }

    #[test]
    fn a_minute_more_is_a_minute_more_and_never_without_end() {
        let mut soak = Soak::new(IN, 300);
        soak.lengthen(60);
        assert_eq!(soak.out_ms(), IN + 360_000);
        soak.lengthen(u32::MAX);
        assert_eq!(soak.wanted_s, crate::limits::SOAK_S_MAX);
    }

    #[test]
    fn a_clock_put_back_over_a_restart_is_said_and_not_guessed_at() {
        let soak = Soak::new(IN, 300);
        assert_eq!(soak.at(IN - 3_600_000), SoakState::ClockBehind);
        assert_eq!(soak.soaked_s(IN - 1), None);
    }

    #[test]
    fn a_clock_moved_under_an_open_page_leaves_the_time_to_go_as_it_was() {
        let mut soak = Soak::new(IN, 300);
        assert!(!soak.follow(1_000, 1_003));
        assert!(
            !soak.follow(1_200_000, 1_000),
            "it slept for twenty minutes"
        );
        // A second passed, and the clock went an hour back.
        assert!(soak.follow(1_000 - 3_600_000, 1_000));
        assert!(soak.clock_moved);
        assert_eq!(
            soak.at(IN + 1_000 - 3_600_000),
            SoakState::Runs { left_s: 299 }
        );
    }
}
