//! A drawing that never changes: lines given as they are, with a few words at the thing itself.

use super::WIDE;
use leptos::prelude::*;

/// Some lines in one manner of drawing.
#[derive(Clone, Copy, Debug)]
pub struct Lines {
    /// A class of the drawings' sheet.
    pub class: &'static str,
    /// A path.
    pub d: &'static str,
}

/// A drawing, [`WIDE`] units wide.
#[derive(Clone, Copy, Debug)]
pub struct Sketch {
    pub high: u16,
    pub lines: &'static [Lines],
    /// Words in the drawing: where from left and top, to which side they run (`start`, `middle`, `end`), and what.
    pub notes: &'static [(u16, u16, &'static str, &'static str)],
}

impl Sketch {
    /// Draws it; `label` says what is to be seen for who cannot see it.
    pub fn draw(self, label: &'static str) -> impl IntoView {
        let lines = self
            .lines
            .iter()
            .map(|lines| view! { <path class=lines.class d=lines.d></path> })
            .collect_view();
        let notes = self
            .notes
            .iter()
            .map(|(x, y, side, words)| {
                view! { <text class="d-halo" x=x.to_string() y=y.to_string() text-anchor=*side>{*words}</text> }
            })
            .collect_view();
        view! {
            <div class="drawing">
                <svg viewBox=format!("0 0 {WIDE} {}", self.high) role="img" aria-label=label>{lines}{notes}</svg>
            </div>
        }
    }
}
