//! A drain test of one's own: two or three amounts of water, and what air and water the mix holds.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::id::MixId;
use velamen_core::potting::{Drained, drained};
use velamen_core::quantity::{Volume, parse_volume};

use crate::ledger::Ledger;
use crate::ui::Field;
use crate::words::drain as words;

/// What was typed; a reckoning and no entry, kept until it is typed over.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct DrainDraft {
    #[serde(default)]
    mix: String,
    #[serde(default)]
    went_in: String,
    #[serde(default)]
    ran_out: String,
}

impl DrainDraft {
    /// Nothing until both amounts are there; else what they say, or what is wrong.
    fn said(&self) -> Option<Result<Drained, String>> {
        if self.mix.trim().is_empty() || self.ran_out.trim().is_empty() {
            return None;
        }
        let read = |typed: &str| -> Result<Volume, String> {
            parse_volume(typed)
                .map(|(volume, _)| volume)
                .map_err(|_| words::UNREADABLE.to_owned())
        };
        let all = || {
            let went_in = match self.went_in.trim() {
                "" => None,
                typed => Some(read(typed)?),
            };
            drained(read(&self.mix)?, went_in, read(&self.ran_out)?)
                .map_err(|fault| words::fault(fault).to_owned())
        };
        Some(all())
    }
}

/// The test of one mix.
#[component]
pub fn DrainTest(mix: MixId) -> impl IntoView {
    let ledger = Ledger::here();
    let key = StoredValue::new(format!("drain-{mix}"));
    let draft = ledger.draft_at::<DrainDraft>(key.get_value());
    let field = move |label: &'static str, of: fn(&mut DrainDraft) -> &mut String| {
        let value = Signal::derive(move || {
            let mut draft = draft.get();
            std::mem::take(of(&mut draft))
        });
        let on_input = Callback::new(move |typed: String| {
            ledger.change_draft(&key.get_value(), |draft: &mut DrainDraft| {
                *of(draft) = typed
            });
        });
        view! { <Field label value on_input max_chars=40 /> }
    };
    let said = move || {
        draft.with(DrainDraft::said).map(|said| match said {
            Ok(drained) => view! { <p class="strong">{words::drained(drained)}</p> }.into_any(),
            Err(fault) => view! { <p class="warn" role="alert">{fault}</p> }.into_any(),
        })
    };
    view! {
        <details class="more-of-it">
            <summary>{words::TITLE}</summary>
            <div class="form">
                <p>{words::HOW}</p>
                {field(words::MIX, |draft| &mut draft.mix)}
                {field(words::WENT_IN, |draft| &mut draft.went_in)}
                {field(words::RAN_OUT, |draft| &mut draft.ran_out)}
                {said}
                <p class="soft">{words::TARGETS}</p>
                <p class="soft">{words::CLIMATE}</p>
            </div>
        </details>
    }
}
