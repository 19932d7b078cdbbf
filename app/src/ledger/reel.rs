//! A file as squares on this screen, and what the camera read of another's.

use leptos::prelude::*;
use velamen_core::entry::Marks;
use velamen_core::exchange::reel::{ReelFault, squares};
use velamen_core::id::Dev;
use velamen_core::limits::REEL_BYTES_MAX;

use super::files::entries_of;
use super::{Arrival, Drawn, Ledger};
use crate::platform::{files, paperwork, streams};
use crate::words;

/// Packing makes a book ten times smaller, never so many times: what is larger is not even packed.
const PACKED_TIMES_MAX: usize = 40;
/// No entry packs into so few bytes.
const ENTRY_BYTES_MIN: usize = 8;

/// Squares to be shown one after the other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reel {
    pub squares: Vec<Drawn>,
    /// Entries in it, where it is only what a phone lacks.
    pub entries: Option<usize>,
    heads: Marks,
}

/// Why there are no squares to show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoReel {
    /// The other phone lacks nothing, as far as is known.
    Nothing,
    /// More than squares are for.
    TooMuch,
    /// What draws them cannot be had just now.
    NotDrawn,
}

impl From<ReelFault> for NoReel {
    fn from(fault: ReelFault) -> Self {
        match fault {
            ReelFault::Empty => Self::Nothing,
            ReelFault::TooLarge => Self::TooMuch,
        }
    }
}

impl Ledger {
    /// The whole book, or what one phone lacks, as squares.
    pub async fn reel_for(self, to: Option<Dev>) -> Result<Reel, NoReel> {
        let (all, heads) = self.look(|state, _| (state.log().len(), state.log().marks()));
        if to.is_none() && all > REEL_BYTES_MAX / ENTRY_BYTES_MIN {
            return Err(NoReel::TooMuch);
        }
        let text = self.text_for(to).ok_or(NoReel::Nothing)?;
        let entries = to.and_then(|_| entries_of(&text));
        if entries == Some(0) {
            return Err(NoReel::Nothing);
        }
        if text.len() > REEL_BYTES_MAX.saturating_mul(PACKED_TIMES_MAX) {
            return Err(NoReel::TooMuch);
        }
        let packed = streams::pack(text.as_bytes()).await;
        let bytes = packed.unwrap_or_else(|| text.into_bytes());
        let texts = squares(&bytes)?;
        let squares = paperwork::draw(&texts, true)
            .await
            .ok_or(NoReel::NotDrawn)?;
        Ok(Reel {
            squares,
            entries,
            heads,
        })
    }

    /// The other phone has read them all, as its person says.
    pub fn reel_was_read(self, reel: &Reel) {
        self.handed_over(reel.heads.clone(), words::reel::HANDED_OVER.to_owned());
    }

    /// Looks at a file that came as squares, like at one that was chosen.
    pub fn look_at_reel(self, file: &[u8], arrival: RwSignal<Arrival>) {
        match files::file_of(file, words::reel::NAME) {
            Some(file) => self.look_at_files(vec![file], "", arrival),
            None => arrival.set(Arrival::Fault(words::files::unreadable())),
        }
    }
}
