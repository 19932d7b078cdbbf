//! The first screen of a large book: shown from what was kept of the Round, while the rest of the book is read behind it.
//!
//! What was kept stands for a number of lines and for one build of the program; where either differs it is not shown. It
//! is written after the lines it stands for, never with them: at worst a start is slow, never wrong.

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::state::State;
use velamen_core::view::kept::{Basis, Keeper, Kept};
use velamen_core::view::round::{RoundView, round};

use super::{Ledger, Phase, Role};
use crate::platform::{clock, program};
use crate::storage::{First, Indexed, Piece, SEGMENT_LINES, Storage};

/// Names of the pieces in the snapshot. All begin alike, and a start reads those of the first two.
pub(super) const BEGINNING: &str = "round.";
const FIRST: &str = "round.0";
const TAIL: &str = "round.1.";
const PART: &str = "part.";
/// Tails after which the Round is written whole again.
const TAILS_MAX: u32 = 200;
/// Lines folded before the page may breathe, where something is shown already.
const LINES_AT_ONCE: usize = 400;

/// What is kept of the Round, and how far it was written.
#[derive(Debug, Default)]
pub(super) struct KeptRound {
    keeper: Keeper,
    tails: u32,
    on_its_way: bool,
}

fn part_name(number: usize) -> String {
    format!("{PART}{number:06}")
}

impl Ledger {
    /// The Round of today and whether there are no lots yet; from what was kept, while the book is still being read.
    pub fn round(self) -> Memo<(RoundView, bool)> {
        Memo::new(move |_| {
            let today = self.today.get();
            let early = self.phase.get() == Phase::Early;
            self.revision.track();
            let kept = self.early.with_value(|kept| {
                let kept = kept.as_ref().filter(|_| early)?;
                Some((kept.round(today), kept.no_lots()))
            });
            kept.unwrap_or_else(|| {
                self.look(|state, _| (round(state, today), state.facts().lots.is_empty()))
            })
        })
    }

    /// Open tasks due before a day, while the book is still being read; `None` once it is there.
    pub async fn ask_early<T>(
        self,
        before: chrono::NaiveDate,
        ask: impl FnOnce(&Kept) -> T,
    ) -> Option<T> {
        if self.phase.get_untracked() == Phase::Early {
            self.read_parts(before).await;
        }
        if self.phase.get_untracked() != Phase::Early {
            return None;
        }
        self.early.with_value(|kept| kept.as_ref().map(ask))
    }

    /// Shows the Round from what was kept, if that stands for the lines there are.
    pub(super) async fn show_early(self, first: &First) -> bool {
        let build = program::build();
        let basis = Basis {
            arrival: first.last,
            build: &build,
        };
        let head = first.pieces.iter().find(|(name, _)| name == FIRST);
        let tails = first
            .pieces
            .iter()
            .filter(|(name, _)| name.starts_with(TAIL));
        let tails: Vec<&[u8]> = tails.map(|(_, bytes)| bytes.as_slice()).collect();
        let kept = head.and_then(|(_, head)| Kept::open(head, &tails, basis));
        let Some(kept) = kept.filter(|_| !build.is_empty()) else {
            return false;
        };
        self.inside.update_value(|inside| {
            inside.kept_round.keeper = Keeper::going_on(&kept, basis);
            inside.kept_round.tails = u32::try_from(tails.len()).unwrap_or(u32::MAX);
        });
        if !kept.says_all(self.moment().now_ms) {
            return false;
        }
        self.early.set_value(Some(kept));
        self.read_parts(self.today.get_untracked()).await
    }

    /// Reads the parts that the Round of a day needs; false where one is missing or damaged.
    async fn read_parts(self, on: chrono::NaiveDate) -> bool {
        let missing = self
            .early
            .with_value(|kept| kept.as_ref().map(|kept| kept.missing(on)));
        let (Some(missing), Some(storage)) = (missing, self.storage()) else {
            return false;
        };
        let names: Vec<String> = missing.iter().map(|number| part_name(*number)).collect();
        let pieces = match names.is_empty() {
            true => Vec::new(),
            false => storage.pieces(&names).await.unwrap_or_default(),
        };
        let whole = pieces.len() == missing.len();
        let added = self.early.try_update_value(|kept| {
            let kept = kept.as_mut()?;
            missing
                .iter()
                .zip(&pieces)
                .try_for_each(|(number, (_, bytes))| kept.add(*number, bytes))
        });
        whole && added.flatten().is_some()
    }

    /// Folds the lines of a book; where something is shown already, the page breathes in between.
    pub(super) async fn fold(self, lines: &[String], early: bool) -> State {
        let mut state = State::default();
        if early {
            for some in lines.chunks(LINES_AT_ONCE) {
                state.take_all(some.iter().map(String::as_str));
                clock::breathe().await;
            }
        } else {
            state.take_all(lines.iter().map(String::as_str));
        }
        state.keep_work();
        state
    }

    /// Keeps what changed of the Round, after the screen has had its turn.
    pub(super) fn keep_round(self) {
        let waits = self
            .inside
            .try_update_value(|inside| std::mem::replace(&mut inside.kept_round.on_its_way, true));
        if waits != Some(false) {
            return;
        }
        spawn_local(async move {
            clock::breathe().await;
            self.inside
                .update_value(|inside| inside.kept_round.on_its_way = false);
            if self.role.get_untracked() != Role::Writes
                || self.phase.get_untracked() != Phase::Ready
            {
                return;
            }
            if let (Some(storage), Some((pieces, anew))) = (self.storage(), self.pieces_now()) {
                // What is not kept is missed at the next start, which is slower then.
                let _ = storage.keep_pieces(&pieces, anew).await;
            }
        });
    }

    /// The pieces that are to be written now, and whether they replace all others.
    fn pieces_now(self) -> Option<(Vec<Piece>, bool)> {
        let build = program::build();
        let renewed = self.state.try_update_value(State::take_renewed)?;
        if build.is_empty() {
            return None;
        }
        self.inside.try_update_value(|inside| {
            let arrival = inside.last_arrival;
            let kept_round = &mut inside.kept_round;
            self.state.with_value(|state| {
                let tail = kept_round
                    .keeper
                    .tail(state, &renewed, arrival)
                    .filter(|_| kept_round.tails < TAILS_MAX);
                if let Some(tail) = tail {
                    kept_round.tails += 1;
                    return (
                        vec![(format!("{TAIL}{:06}", kept_round.tails), tail)],
                        false,
                    );
                }
                kept_round.tails = 0;
                let basis = Basis {
                    arrival,
                    build: &build,
                };
                let whole = kept_round.keeper.whole(state, basis);
                let parts = (0..).zip(whole.parts);
                let mut pieces = vec![(FIRST.to_owned(), whole.head)];
                pieces.extend(parts.map(|(number, bytes)| (part_name(number), bytes)));
                (pieces, true)
            })
        })
    }

    /// Puts lines that are rows of their own together, once there are many: they are read faster then.
    pub(super) async fn seal(self, storage: &Indexed) {
        if self.role.get_untracked() == Role::Writes {
            // Should it fail, the next start is slower, and tries again.
            let _ = storage.seal(SEGMENT_LINES).await;
        }
    }
}
