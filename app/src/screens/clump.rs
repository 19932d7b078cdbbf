//! A clump in work, resumed at the step it stopped at.

use leptos::prelude::*;
use velamen_core::draft::{BenchDraft, BenchStep};
use velamen_core::id::ClumpId;
use velamen_core::view::repot::{self, ClumpView};

use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::{clump_labels, clump_pieces, clump_pots};
use crate::ui::{Screen, TopBack, TrayTag};
use crate::words::{repot as words, rooms, trade};

/// What the steps of one clump share.
#[derive(Clone, Copy)]
pub(super) struct Bench {
    pub(super) ledger: Ledger,
    pub(super) clump: ClumpId,
    pub(super) view: Memo<Option<ClumpView>>,
    pub(super) draft: Memo<BenchDraft>,
}

/// Key of a clump's draft.
pub(super) fn draft_key(clump: ClumpId) -> String {
    format!("bench-{clump}")
}

impl Bench {
    /// Changes the draft and keeps it.
    pub(super) fn change(self, how: impl FnOnce(&mut BenchDraft)) {
        self.ledger.change_draft(&draft_key(self.clump), how);
    }

    pub(super) fn view(self) -> Option<ClumpView> {
        self.view.get()
    }

    /// The tray tag, for the head of a step.
    pub(super) fn tag(self) -> impl IntoView {
        self.view()
            .map(|view| view! { <TrayTag number=view.tray.to_string() word=rooms::TRAY /> })
    }

    pub(super) fn back(self) -> impl IntoView {
        view! { <TopBack href=Route::Repot.href() label=rooms::back_to(rooms::REPOT) /> }
    }

    /// The clump's name as plain text.
    pub(super) fn name(self) -> Signal<String> {
        Signal::derive(move || {
            self.view()
                .map(|view| trade::name_plain(&view.name))
                .unwrap_or_default()
        })
    }
}

/// The screen.
#[component]
pub fn Clump(clump: ClumpId) -> impl IntoView {
    let ledger = Ledger::here();
    let view = ledger.ask(move |state, _| repot::clump(state, clump));
    let draft = ledger.draft_at::<BenchDraft>(draft_key(clump));
    let bench = Bench {
        ledger,
        clump,
        view,
        draft,
    };
    let shown = Memo::new(move |_| {
        let open = view.with(|view| view.as_ref().map(|view| view.is_open));
        (open, draft.with(|draft| draft.step))
    });
    move || match shown.get() {
        (None, _) => view! {
            <Screen title=rooms::REPOT back=move || bench.back()>
                <p class="edge">{words::EMPTY}</p>
            </Screen>
        }
        .into_any(),
        (Some(false), _) | (_, BenchStep::Labels) => clump_labels::labels(bench).into_any(),
        (_, BenchStep::Pieces) => clump_pieces::pieces(bench).into_any(),
        (_, BenchStep::Pots) => clump_pots::pots(bench).into_any(),
    }
}
