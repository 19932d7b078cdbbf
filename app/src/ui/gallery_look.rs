//! The look itself, in swatches: colours with what is written on them, sizes of type, spaces, warnings, the plan. Every
//! figure is read from the style sheet by its own name, so that the page shows what the program wears.

use super::drawing::{Plan, PlanBench, PlanHouse};
use super::*;
use leptos::prelude::*;

/// A ground, what is written on it, and what it is for.
const GROUNDS: [(&str, &str, &str); 9] = [
    ("stock", "ink", "label stock: the ground of every screen"),
    ("paper", "ink", "paper: what is written on, keys, labels"),
    ("shade", "ink", "shade: slats, what is shut"),
    ("wash", "ink", "wash: chosen, one more"),
    ("bark-wash", "ink", "bark wash: mix in a drawing"),
    ("ink", "stock", "ink: late, refusals"),
    ("root", "on-root", "root green: due, the main key, done"),
    ("hazard", "on-hazard", "hazard: only in stripes and edges"),
    ("stock", "bark", "bark: what is wrong in a field"),
];

/// Lines, by what they mean.
const LINES: [(&str, &str); 4] = [
    ("ink", "an edge"),
    ("hair", "between rows of one kind"),
    ("silver", "resting: what is to come, what can be tapped"),
    ("root", "growing"),
];

const SIZES: [(&str, &str); 5] = [
    ("small", "15 px: what stands beside"),
    ("body", "17 px: text"),
    ("value", "22 px: amounts"),
    ("title", "26 px: the screen's name"),
    ("big", "38 px: counted at arm's length"),
];

const SPACES: [(&str, &str); 6] = [
    ("gap", "between things that are tapped"),
    ("edge", "from the screen's edge"),
    ("hit-room", "a room"),
    ("hit", "a row's key"),
    ("hit-main", "a main key"),
    ("hit-count", "a count"),
];

fn var(name: &str) -> String {
    format!("var(--{name})")
}

#[component]
pub fn Palette() -> impl IntoView {
    let grounds = GROUNDS
        .map(|(ground, text, words)| {
            view! {
                <p class="edge" style:background=var(ground) style:color=var(text)>
                    <b>"--" {ground}</b>
                    " "
                    {words}
                </p>
            }
        })
        .collect_view();
    let lines = LINES
        .map(|(line, words)| {
            view! { <p style:border-top=format!("3px solid {}", var(line))><b>"--" {line}</b> " " {words}</p> }
        })
        .collect_view();
    view! {
        <Slat name="Colours, each with what is written on it" note="7:1 in light and in dark" />
        {grounds}
        <Slat name="Lines" note="3:1 where they mean something" />
        <div class="edge stack">{lines}</div>
    }
}

#[component]
pub fn TypeAndSpace() -> impl IntoView {
    let sizes = SIZES
        .map(|(size, words)| view! { <p style:font-size=var(size)><b>"--" {size}</b> " " {words}</p> })
        .collect_view();
    let spaces = SPACES
        .map(|(space, words)| {
            view! {
                <p class="run">
                    <span class="chip" style:min-width=var(space) style:width=var(space) style:min-height=var(space) style:padding="0"></span>
                    <span><b>"--" {space}</b> " " {words}</span>
                </p>
            }
        })
        .collect_view();
    view! {
        <Slat name="Type" note="the system's own face" />
        <div class="edge stack">{sizes}</div>
        <Slat name="Space and touch" note="bench, or table with a mouse" />
        <div class="edge stack">{spaces}</div>
    }
}

#[component]
pub fn Warnings() -> impl IntoView {
    view! {
        <Slat name="Warnings" note="striped or edged, never merely tinted" />
        <p class="warn">"Keep out until 14:10: a spray is drying here."</p>
        <p class="edge field-error"><Icon glyph=Glyph::Warning /><span>"Above the label's maximum of 2 mL per L."</span></p>
        <p class="edge"><span class="held-mark"><Icon glyph=Glyph::Warning /><span>"In quarantine"</span></span></p>
    }
}

#[component]
pub fn PlanSwatch() -> impl IntoView {
    let bench = |name: &str, late, due, held| PlanBench {
        href: "#/kit".to_owned(),
        name: name.to_owned(),
        stands: "14 lots".to_owned(),
        late,
        due,
        held,
        label: format!("{name}: {late} late, {due} due, {held} to wait"),
        loose: false,
    };
    let houses = vec![
        PlanHouse {
            name: "Cool house".to_owned(),
            benches: vec![
                bench("bench 1", 2, 1, 0),
                bench("bench 2", 0, 3, 12),
                bench("the long bench under the north window", 0, 0, 0),
            ],
        },
        PlanHouse {
            name: String::new(),
            benches: vec![bench("Kitchen window", 0, 0, 1)],
        },
    ];
    view! {
        <Slat name="The nursery as one walks it" />
        <Plan houses text="Four places: work late at one, due at two, waiting at two." />
    }
}
