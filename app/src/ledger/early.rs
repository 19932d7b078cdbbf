//! The first screen of a large book: shown from what was kept of the Round, while the rest of the book is read behind it.
//!
//! What was kept stands for a number of lines and for one build of the program; where either differs it is not shown. It
//! is written after the lines it stands for, never with them: at worst a start is slow, never wrong.

use std::ops::Range;

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::state::State;
use velamen_core::view::kept::{Basis, Keeper, Kept};
use velamen_core::view::reentry::Bound;
use velamen_core::view::round::Row;
use velamen_core::view::walk::Walk;

use super::{Ledger, Phase, Role};
use crate::platform::{clock, program, room};
use crate::rest::{self, doors};
use crate::storage::{First, Indexed, Piece, SEGMENT_LINES, Storage};

/// Names of the pieces in the snapshot. All begin alike, and a start reads those of the first two.
pub(super) const BEGINNING: &str = "round.";
const FIRST: &str = "round.0";
const TAIL: &str = "round.1.";
const PART: &str = "part.";
/// Tails after which they are gathered into one, or the Round is written whole again.
const TAILS_MAX: u32 = 200;
/// Lines folded before it is asked whether the page should breathe, where something is shown already.
const LINES_AT_ONCE: usize = 200;

/// What is kept of the Round, and how far it was written.
#[derive(Debug, Default)]
pub(super) struct KeptRound {
    keeper: Keeper,
    tails: u32,
    on_its_way: bool,
    /// Something changed while other work was in hand.
    wanted: bool,
}

fn part_name(number: usize) -> String {
    format!("{PART}{number:06}")
}

/// The Round as the program gives it to its screens.
#[derive(Clone, Copy)]
struct TheRound(Memo<(Walk, bool)>);

impl Ledger {
    /// Puts the Round at hand for every screen: laid out once for as long as nothing changes, however often it is gone to.
    pub fn provide_round(self) {
        let memo = Memo::new(move |_| {
            let today = self.today.get();
            let early = self.phase.get() == Phase::Early;
            self.revision.track();
            let kept = self.early.with_value(|kept| {
                let kept = kept.as_ref().filter(|_| early)?;
                Some((kept.walk(today), kept.no_lots()))
            });
            kept.or_else(|| rest::soon(doors::the_walk(self, today)))
                .unwrap_or_default()
        });
        provide_context(TheRound(memo));
    }

    /// The Round of today and whether there are no lots yet; from what was kept, while the book is still being read.
    #[must_use]
    pub fn round(self) -> Memo<(Walk, bool)> {
        expect_context::<TheRound>().0
    }

    /// What these rows of it say now.
    #[must_use]
    pub fn rows_of_round(self, rows: Range<usize>) -> Vec<Row> {
        self.revision.track();
        let walk = self.round();
        walk.track();
        let kept = self.early.with_value(|kept| {
            let early = self.phase.get() == Phase::Early;
            let kept = kept.as_ref().filter(|_| early)?;
            Some(walk.with(|(walk, _)| walk.say(rows.clone(), kept)))
        });
        kept.or_else(|| rest::soon(doors::say_rows(self, walk, rows)))
            .unwrap_or_default()
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
        let bytes = tails.iter().map(|tail| tail.len()).sum::<usize>();
        room::for_text(head.map_or(0, |(_, head)| head.len()).saturating_add(bytes));
        let kept = head.and_then(|(_, head)| Kept::open(head, &tails, basis));
        let Some(kept) = kept.filter(|_| !build.is_empty()) else {
            return false;
        };
        self.inside.update_value(|inside| {
            inside.kept_round.keeper = Keeper::going_on(&kept, basis);
            inside.kept_round.tails = u32::try_from(tails.len()).unwrap_or(u32::MAX);
        });
        if !kept.says_all() {
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
        room::for_text(pieces.iter().map(|(_, bytes)| bytes.len()).sum());
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

    /// Folds the lines of a book, and tells how many are no entries; where something is shown already, the page breathes
    /// in between. A text is given up as soon as the book holds its lines: two of each would be most of the memory.
    pub(super) async fn fold(self, texts: Vec<String>, early: bool) -> (State, usize) {
        let mut state = State::default();
        let mut strange = 0;
        let mut stretch = clock::Stretch::begin();
        let whole: usize = texts.iter().map(String::len).sum();
        let mut left = whole;
        for text in texts {
            room::for_text(left);
            left = left.saturating_sub(text.len());
            let mut lines = text.lines().peekable();
            while lines.peek().is_some() {
                strange += state.take_all(lines.by_ref().take(LINES_AT_ONCE));
                if early && stretch.is_long() {
                    stretch.rest().await;
                }
            }
        }
        room::make(whole);
        state.keep_work();
        (state, strange)
    }

    /// What the Round says is bound: of what was kept while that is shown, of the book as soon as it is read.
    pub fn bounds_of_round(self) -> Memo<Vec<Bound>> {
        let read = self.ask_later(doors::bounds);
        Memo::new(move |_| {
            if self.phase.get() != Phase::Early {
                return read.get();
            }
            let now_ms = self.moment().now_ms;
            self.early.with_value(|kept| {
                let kept = kept.as_ref();
                kept.map(|kept| kept.bounds(now_ms)).unwrap_or_default()
            })
        })
    }

    /// Keeps what changed of the Round, after the screen has had its turn; what is being recorded goes first.
    pub(super) fn keep_round(self) {
        let starts = self.inside.try_update_value(|inside| {
            let kept_round = &mut inside.kept_round;
            kept_round.wanted = true;
            !std::mem::replace(&mut kept_round.on_its_way, true)
        });
        if starts != Some(true) {
            return;
        }
        spawn_local(async move {
            clock::breathe().await;
            let busy = self.busy.get_untracked();
            self.inside.update_value(|inside| {
                inside.kept_round.on_its_way = false;
                inside.kept_round.wanted = busy;
            });
            if busy
                || self.role.get_untracked() != Role::Writes
                || self.phase.get_untracked() != Phase::Ready
            {
                return;
            }
            if let (Some(storage), Some((pieces, instead))) = (self.storage(), self.pieces_now()) {
                // What is not kept is missed at the next start, which is slower then.
                let _ = storage.keep_pieces(&pieces, instead).await;
            }
        });
    }

    /// The same once nothing is being recorded any more, where it was put off for that.
    pub(crate) fn keep_round_after_work(self) {
        if self.inside.with_value(|inside| inside.kept_round.wanted) {
            self.keep_round();
        }
    }

    /// The pieces that are to be written now, and the beginning of the names of those they replace.
    fn pieces_now(self) -> Option<(Vec<Piece>, Option<&'static str>)> {
        let build = program::build();
        let arrival = self.inside.with_value(|inside| inside.last_arrival);
        let now_ms = self.moment().now_ms;
        let renewed = self.state.try_update_value(State::take_renewed)?;
        if build.is_empty() {
            return None;
        }
        self.inside.try_update_value(|inside| {
            let kept_round = &mut inside.kept_round;
            if renewed.is_empty() && kept_round.keeper.stands_at(arrival) {
                return None;
            }
            self.state.with_value(|state| {
                let full = kept_round.tails >= TAILS_MAX;
                let tail = match full {
                    true => kept_round.keeper.gathered(state, now_ms, &renewed, arrival),
                    false => kept_round.keeper.tail(state, now_ms, &renewed, arrival),
                };
                if let Some(tail) = tail {
                    kept_round.tails = if full { 1 } else { kept_round.tails + 1 };
                    let name = format!("{TAIL}{:06}", kept_round.tails);
                    return Some((vec![(name, tail)], full.then_some(TAIL)));
                }
                kept_round.tails = 0;
                let basis = Basis {
                    arrival,
                    build: &build,
                };
                let whole = kept_round.keeper.whole(state, now_ms, basis);
                let parts = (0..).zip(whole.parts);
                let mut pieces = vec![(FIRST.to_owned(), whole.head)];
                pieces.extend(parts.map(|(number, bytes)| (part_name(number), bytes)));
                Some((pieces, Some("")))
            })
        })?
    }

    /// Puts lines that are rows of their own together, once there are many: they are read faster then.
    pub(super) async fn seal(self, storage: &Indexed) {
        if self.role.get_untracked() == Role::Writes {
            // Should it fail, the next start is slower, and tries again.
            let _ = storage.seal(SEGMENT_LINES).await;
        }
    }
}
