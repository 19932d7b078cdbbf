//! A box whose bare numbers mean the unit this phone is set to, over a draft in which a bare number is metric.

use leptos::prelude::*;
use velamen_core::quantity::Unit;

use crate::words::system;

/// What the box of this metric unit shows.
pub(super) fn shown(value: impl Into<Signal<String>>, metric: Unit) -> Signal<String> {
    let value: Signal<String> = value.into();
    Signal::derive(move || value.with(|text| system().shown(text, metric)))
}

/// What is typed into it.
pub(super) fn typed(text: String, metric: Unit) -> String {
    system().typed(text, metric)
}
