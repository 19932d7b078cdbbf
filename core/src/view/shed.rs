//! The Shed: pots, mixes, places, protocols and what the book knows of the nursery.

use crate::event::MixShare;
use crate::id::{MixId, PotId, ProtocolId};
use crate::potting::Pot;
use crate::season::Hemisphere;
use crate::state::State;
use crate::task::Protocol;

/// A pot on the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PotRow {
    pub pot: PotId,
    pub name: String,
    pub form: Option<Pot>,
}

/// A mix.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MixRow {
    pub mix: MixId,
    pub name: String,
    /// Shares by volume before mixing; empty where nobody said.
    pub shares: Vec<MixShare>,
    pub life_months: Option<u16>,
}

/// A protocol as it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ProtocolRow {
    pub protocol: ProtocolId,
    pub revision: u16,
    pub content: Protocol,
}

/// What the book says of the nursery itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Nursery {
    pub name: String,
    pub hemisphere: Hemisphere,
    /// Whom to call after contact with a product; empty until it is typed.
    pub poisons_number: String,
}

/// The nursery as the book knows it.
#[must_use]
pub fn nursery(state: &State) -> Nursery {
    let book = &state.facts().book;
    Nursery {
        name: book.nursery.or_default(),
        hemisphere: book.hemisphere(),
        poisons_number: book.poisons_number.or_default(),
    }
}

/// Pots in use, in the order they were named in.
#[must_use]
pub fn pots(state: &State) -> Vec<PotRow> {
    let pots = state
        .facts()
        .pots
        .iter()
        .filter(|(_, pot)| !pot.retired.or_default());
    pots.map(|(id, pot)| PotRow {
        pot: *id,
        name: pot.name.or_default(),
        form: pot.form.get().copied(),
    })
    .collect()
}

/// Mixes in use.
#[must_use]
pub fn mixes(state: &State) -> Vec<MixRow> {
    let mixes = state
        .facts()
        .mixes
        .iter()
        .filter(|(_, mix)| !mix.retired.or_default());
    mixes
        .map(|(id, mix)| MixRow {
            mix: *id,
            name: mix.name.or_default(),
            shares: mix.shares.or_default(),
            life_months: mix.life_months.get().copied(),
        })
        .collect()
}

/// All protocols as they stand.
#[must_use]
pub fn protocols(state: &State) -> Vec<ProtocolRow> {
    let known = state.facts().protocols.iter();
    known
        .filter_map(|(id, protocol)| {
            let current = protocol.current()?;
            Some(ProtocolRow {
                protocol: *id,
                revision: current.revision,
                content: current.content.clone(),
            })
        })
        .collect()
}
