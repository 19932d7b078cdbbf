//! How entries call lots and places on every screen that shows them.

use velamen_core::event::Event;
use velamen_core::id::{LotId, PlaceId};
use velamen_core::state::State;
use velamen_core::view::book::{lot_called, place_called};

use crate::words::{book, trade};

/// A lot by its name and code.
pub(super) fn lot(state: &State, id: LotId) -> String {
    let (name, code) = lot_called(state, id);
    let name = trade::name_plain(&name);
    match code {
        Some(code) => format!("{name} {code}"),
        None => name,
    }
}

/// An event as a sentence.
pub(super) fn sentence(state: &State, event: &Event) -> String {
    let lots = |id: LotId| lot(state, id);
    let places = |id: PlaceId| place_called(state, id);
    book::event(event, &lots, &places)
}
