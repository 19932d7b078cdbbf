//! Who may know whom: core knows nothing outside itself, screens speak to the ledger only, pieces
//! of the screen know no domain type.

use crate::Complaints;
use crate::bare::{bare, without_tests, words};

/// Names that would bring the browser, chance or hash order into core.
const OUTSIDE: [&str; 12] = [
    "leptos",
    "wasm_bindgen",
    "js_sys",
    "web_sys",
    "gloo",
    "gloo_storage",
    "indexed_db",
    "indexed_db_futures",
    "getrandom",
    "HashMap",
    "HashSet",
    "SystemTime",
];

/// Parts of the standard library that read the world.
const WORLD: [&str; 7] = ["time", "fs", "env", "thread", "net", "process", "io"];

/// Where core may compute with floats on the way to a figure that is shown, or rounded to a whole
/// number before anything uses it.
const FLOATS: [&str; 7] = [
    "core/src/bath/fine.rs",
    "core/src/climate",
    "core/src/outlook",
    "core/src/potting/stability",
    "core/src/potting/tub.rs",
    "core/src/season/daylength",
    "core/src/stats.rs",
];

fn is_core(path: &str) -> bool {
    path.starts_with("core/src/")
        && path.ends_with(".rs")
        && !path.ends_with("tests.rs")
        && !path.contains("/tests/")
}

pub(crate) fn core_is_pure(path: &str, text: &str) -> Complaints {
    if !is_core(path) {
        return Vec::new();
    }
    let code = bare(text);
    let code = without_tests(&code);
    let named = words(code)
        .filter(|word| OUTSIDE.contains(word))
        .map(|word| format!("core names {word}"));
    named
        .chain(
            std_parts(code)
                .into_iter()
                .map(|part| format!("core names std::{part}")),
        )
        .collect()
}

/// The parts of `std` that read the world, by full path or out of a `std::{...}` list.
fn std_parts(code: &str) -> Vec<&str> {
    let mut found = Vec::new();
    for after in code.split("std::").skip(1) {
        let named: Vec<&str> = match after.strip_prefix('{') {
            Some(list) => words(list.split(';').next().unwrap_or_default()).collect(),
            None => words(after).take(1).collect(),
        };
        found.extend(named.into_iter().filter(|word| WORLD.contains(word)));
    }
    found
}

pub(crate) fn core_has_no_floats(path: &str, text: &str) -> Complaints {
    if !is_core(path) || FLOATS.iter().any(|allowed| path.starts_with(allowed)) {
        return Vec::new();
    }
    let code = bare(text);
    let code = without_tests(&code);
    let types = words(code).filter(|word| word.ends_with("f32") || word.ends_with("f64"));
    types
        .chain(float_literals(code))
        .map(|word| format!("core computes with the float {word}"))
        .collect()
}

/// Numbers with a decimal point. `pair.0.1` and `0..1` are not among them.
fn float_literals(code: &str) -> impl Iterator<Item = &str> {
    let not_number = |letter: char| !letter.is_alphanumeric() && letter != '_' && letter != '.';
    code.split(not_number).filter(|piece| {
        let mut parts = piece.split('.');
        let digits = |part: Option<&str>| {
            part.is_some_and(|part| part.starts_with(|letter: char| letter.is_ascii_digit()))
        };
        digits(parts.next()) && digits(parts.next())
    })
}

pub(crate) fn screens_know_no_storage(path: &str, text: &str) -> Complaints {
    if !path.starts_with("app/src/screens") {
        return Vec::new();
    }
    let code = bare(text);
    let layers = ["storage", "platform"]
        .into_iter()
        .filter(|layer| names_module(&code, layer));
    layers
        .map(|layer| format!("a screen names {layer}; the ledger stands between them"))
        .collect()
}

/// Whether a path or a `use` names this module; a variable of the same name is none.
fn names_module(code: &str, module: &str) -> bool {
    let tight: String = code
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .replace(" ::", "::")
        .replace(":: ", "::");
    tight.split(';').any(|statement| {
        let imports = statement
            .rsplit_once("use ")
            .is_some_and(|(_, tree)| words(tree).any(|word| word == module));
        let in_path = statement.match_indices(module).any(|(at, _)| {
            let (before, after) = (statement.get(..at), statement.get(at + module.len()..));
            let whole = before.is_some_and(|text| {
                !text.ends_with(|letter: char| letter.is_alphanumeric() || letter == '_')
            });
            whole && after.is_some_and(|text| text.starts_with("::"))
        });
        imports && statement.contains("use ") || in_path
    })
}

pub(crate) fn ui_knows_no_core(path: &str, text: &str) -> Complaints {
    if !path.starts_with("app/src/ui") || !words(&bare(text)).any(|word| word == "velamen_core") {
        return Vec::new();
    }
    vec!["a piece of the screen names velamen_core".into()]
}

/// Markup set as text is a door for foreign script; style attributes are dropped by the policy.
pub(crate) fn markup_is_safe(path: &str, text: &str) -> Complaints {
    if path.ends_with(".html") {
        let found = ["style=", "<style", "onclick=", "onload="]
            .into_iter()
            .filter(|needle| text.contains(needle));
        return found
            .map(|needle| format!("{needle} does not pass the content-security policy"))
            .collect();
    }
    if !(path.starts_with("app/") && path.ends_with(".rs")) {
        return Vec::new();
    }
    let code = bare(text);
    let mut complaints = Vec::new();
    for name in [
        "inner_html",
        "set_inner_html",
        "set_outer_html",
        "insert_adjacent_html",
        "document_write",
    ] {
        if words(&code).any(|word| word == name) {
            complaints.push(format!("{name} takes markup as text"));
        }
    }
    // rustfmt puts a space before the sign of an assignment; an attribute has none.
    if code
        .split([' ', '\n', '\t'])
        .any(|piece| piece.starts_with("style=") && !piece.starts_with("style=="))
    {
        complaints
            .push("a style attribute is dropped by the policy: use a class or style:name=".into());
    }
    complaints
}

#[test]
fn an_impure_core_is_seen() {
    let offenders = [
        "use leptos::prelude::*;",
        "use std::collections::HashMap;",
        "fn f() { std::time::Instant::now(); }",
        "use std::{collections::BTreeMap, fs, time::Duration};",
        "let now = SystemTime::now();",
        "getrandom::fill(&mut bytes);",
    ];
    for text in offenders {
        assert!(
            !core_is_pure("core/src/lot/mod.rs", text).is_empty(),
            "{text}"
        );
        assert!(core_is_pure("app/src/main.rs", text).is_empty(), "{text}");
    }
    let innocent = "//! No HashMap, no std::time here.\nuse crate::time::Moment;\nuse std::collections::BTreeMap;\n\
        #[cfg(test)]\nmod tests { use std::fs; }";
    assert_eq!(
        core_is_pure("core/src/lot/mod.rs", innocent),
        Complaints::new()
    );
}

#[test]
fn a_float_in_core_is_seen() {
    for text in [
        "let a: f64 = b;",
        "let a = 1.5;",
        "let a = 2f32;",
        "const A: i64 = 1_000.25 as i64;",
    ] {
        assert!(
            !core_has_no_floats("core/src/quantity/mass.rs", text).is_empty(),
            "{text}"
        );
        assert!(
            core_has_no_floats("core/src/climate/vpd.rs", text).is_empty(),
            "{text}"
        );
    }
    let innocent =
        "// 1.5 ml\nlet a = pair.0.1; for b in 0..12 {} let c = \"2.5\"; let d = 3.max(4);";
    assert_eq!(
        core_has_no_floats("core/src/quantity/mass.rs", innocent),
        Complaints::new()
    );
}

#[test]
fn a_screen_that_reaches_past_the_ledger_is_seen() {
    for text in [
        "use crate::storage::Store;",
        "use crate::{ledger, platform};",
        "let a = crate::platform::share();",
    ] {
        assert_eq!(
            screens_know_no_storage("app/src/screens/round.rs", text).len(),
            1,
            "{text}"
        );
    }
    let innocent =
        "use crate::ledger::Ledger;\nlet storage = 3; // crate::storage\nlet a = storage + 1;";
    assert_eq!(
        screens_know_no_storage("app/src/screens/round.rs", innocent),
        Complaints::new()
    );
    assert_eq!(
        screens_know_no_storage("app/src/ledger.rs", "use crate::storage::Store;"),
        Complaints::new()
    );
}

#[test]
fn a_ui_piece_with_a_domain_type_is_seen() {
    assert_eq!(
        ui_knows_no_core("app/src/ui/button.rs", "use velamen_core::lot::Lot;").len(),
        1
    );
    assert_eq!(
        ui_knows_no_core("app/src/screens/lot.rs", "use velamen_core::lot::Lot;"),
        Complaints::new()
    );
}

#[test]
fn unsafe_markup_is_seen() {
    for text in [
        "view! { <p inner_html=note/> }",
        "view! { <p style=\"color: red\"/> }",
        "<p style=move || a()/>",
    ] {
        assert_eq!(
            markup_is_safe("app/src/screens/lot.rs", text).len(),
            1,
            "{text}"
        );
    }
    let innocent = "let style = 1; view! { <p style:width=w data-style=s/> }";
    assert_eq!(
        markup_is_safe("app/src/screens/lot.rs", innocent),
        Complaints::new()
    );
    assert_eq!(markup_is_safe("index.html", "<p style=\"a\">").len(), 1);
}
