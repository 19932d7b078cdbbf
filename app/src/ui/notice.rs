//! What just happened, across the full width: done (with Undo in reach), refused, take care, or news that can wait.
//!
//! Invariants: sign, word and shape tell the kind, not the tint alone: a warning is striped. A
//! done notice leaves after its seconds; taking it back stays possible from the history. A refusal
//! or a warning stays until answered.

use super::guard::TapGuard;
use super::icon::{Glyph, Icon};
use leptos::prelude::*;
use std::time::Duration;

/// The kind of a notice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoticeKind {
    /// Recorded.
    Ok,
    /// Not recorded, and why.
    Refusal,
    /// Recorded or not, take care.
    Warning,
    /// Something new; it can wait.
    News,
}

impl NoticeKind {
    const fn class(self) -> &'static str {
        match self {
            Self::Ok => "notice notice-ok",
            Self::Refusal => "notice notice-refusal",
            Self::Warning => "notice notice-warning",
            Self::News => "notice notice-news",
        }
    }

    const fn glyph(self) -> Glyph {
        match self {
            Self::Ok => Glyph::Check,
            Self::Refusal => Glyph::Cross,
            Self::Warning => Glyph::Warning,
            Self::News => Glyph::Onward,
        }
    }

    const fn role(self) -> &'static str {
        match self {
            Self::Ok | Self::News => "status",
            Self::Refusal | Self::Warning => "alert",
        }
    }
}

/// A full-width notice with at most one key.
#[component]
pub fn Notice(
    /// Which kind.
    kind: NoticeKind,
    /// One sentence.
    #[prop(into)]
    words: String,
    /// The key's word, such as "Undo" or "Close".
    #[prop(optional, into)]
    key_label: Option<String>,
    /// Runs on the key.
    #[prop(optional)]
    on_key: Option<Callback<()>>,
    /// Seconds until it leaves by itself; 0 stays.
    #[prop(default = 0)]
    stays_s: u32,
    /// Runs when the seconds have passed.
    #[prop(optional)]
    on_gone: Option<Callback<()>>,
) -> impl IntoView {
    if let (Some(on_gone), true) = (on_gone, stays_s > 0) {
        let wait = Duration::from_secs(u64::from(stays_s));
        if let Ok(handle) = set_timeout_with_handle(
            move || {
                on_gone.try_run(());
            },
            wait,
        ) {
            on_cleanup(move || handle.clear());
        }
    }
    let guard = TapGuard::new();
    let glyph = if key_label.is_some() && kind == NoticeKind::Ok {
        Some(Glyph::Undo)
    } else {
        None
    };
    let key = key_label.zip(on_key).map(|(label, on_key)| {
        view! {
            <button
                type="button"
                class="notice-key"
                on:click=move |event| {
                    if guard.takes(&event) {
                        on_key.run(());
                    }
                }
            >
                {glyph.map(|glyph| view! { <Icon glyph /> })}
                {label}
            </button>
        }
    });
    let time = (stays_s > 0).then(|| {
        view! {
            <span
                class="notice-time"
                aria-hidden="true"
                style:animation-duration=format!("{stays_s}s")
            ></span>
        }
    });
    view! {
        <div class=kind.class() role=kind.role()>
            <Icon glyph=kind.glyph() />
            <p>{words}</p>
            {key} {time}
        </div>
    }
}
