//! Plant names as the codes of nomenclature want them: italic and roman runs in order.
//!
//! Invariant: the name stands apart from the direction of the sentence around it, so a Latin name
//! inside right-to-left text keeps its order. A browser's translation leaves it alone.

use leptos::prelude::*;

/// A name as runs of text, each with whether it is italic. Spaces are part of the runs.
#[component]
pub fn PlantNameRuns(
    /// The runs, in order; `true` is italic.
    runs: Vec<(String, bool)>,
) -> impl IntoView {
    let parts = runs
        .into_iter()
        .map(|(text, italic)| {
            if italic {
                view! { <i lang="la">{text}</i> }.into_any()
            } else {
                view! { <span>{text}</span> }.into_any()
            }
        })
        .collect_view();
    view! { <bdi class="plant" dir="ltr" translate="no">{parts}</bdi> }
}
