//! The program on this phone: whether it opens without a network, and a next version, which waits to be agreed to.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{Ledger, Phase, Role};
use crate::platform::program;

pub use crate::platform::program::Keeping;

impl Ledger {
    /// Has the program kept on this phone, and follows how it stands.
    pub(super) fn keep_program(self) {
        spawn_local(async move {
            let program = program::keep(move |standing| self.program.set(standing)).await;
            self.inside.update_value(|inside| inside.program = program);
        });
    }

    /// Whether the program opens without a network.
    #[must_use]
    pub fn program_kept(self) -> Keeping {
        self.program.get().keeping
    }

    /// Whether a next version may be offered now: it is whole, and nothing is on its way to the book. Only the window
    /// that writes offers it, because all windows load again; one that cannot open the book has nothing to lose.
    #[must_use]
    pub fn next_version(self) -> bool {
        let free = self.role.get() == Role::Writes && !self.busy.get() && self.told.get().is_none();
        self.program.get().next_is_ready && (free || matches!(self.phase.get(), Phase::Trouble(_)))
    }

    /// Puts the next version in. The person has agreed.
    pub fn put_in_next_version(self) {
        self.inside.with_value(|inside| {
            if let Some(program) = &inside.program {
                program.put_in();
            }
        });
    }
}
