//! The look can be read in the sun: contrast, type sizes and flat surfaces, from the style sheets
//! as they stand. The ratio is the one of WCAG 2.2, "relative luminance" and "contrast ratio".
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test binary: the lints' allowance for tests does not reach functions beside them"
)]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    velamen_tests::folder().join("..")
}

/// All style sheets, in the order the page loads them.
fn sheet() -> String {
    let page = fs::read_to_string(root().join("index.html")).expect("the page is there");
    let named = page.lines().filter_map(|line| {
        let (_, after) = line.split_once("rel=\"css\" href=\"")?;
        after.split_once('"').map(|(path, _)| path)
    });
    let sheets: Vec<String> = named
        .map(|path| fs::read_to_string(root().join(path)).expect("a style sheet is there"))
        .collect();
    assert!(!sheets.is_empty(), "the page loads no style sheet");
    sheets.concat()
}

/// Colours set in the block that opens after `head`.
fn palette(sheet: &str, head: &str) -> BTreeMap<String, [u8; 3]> {
    let at = sheet
        .find(head)
        .unwrap_or_else(|| panic!("no block {head}"));
    let block = &sheet[at + head.len()..];
    let block = &block[..block.find('}').expect("the block ends")];
    block.lines().filter_map(colour_of).collect()
}

fn colour_of(line: &str) -> Option<(String, [u8; 3])> {
    let (name, hex) = line.trim().strip_prefix("--")?.split_once(": #")?;
    let value = u32::from_str_radix(hex.trim_end_matches(';'), 16).ok()?;
    let [_, red, green, blue] = value.to_be_bytes();
    Some((name.to_owned(), [red, green, blue]))
}

fn luminance(colour: [u8; 3]) -> f64 {
    let [red, green, blue] = colour.map(|part| {
        let part = f64::from(part) / 255.0;
        if part <= 0.040_45 {
            part / 12.92
        } else {
            ((part + 0.055) / 1.055).powf(2.4)
        }
    });
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

fn contrast(one: [u8; 3], other: [u8; 3]) -> f64 {
    let (one, other) = (luminance(one) + 0.05, luminance(other) + 0.05);
    one.max(other) / one.min(other)
}

const THEMES: [&str; 3] = [
    ":root {",
    ":root:not([data-theme=\"light\"]) {",
    ":root[data-theme=\"dark\"] {",
];

/// Text colours with every ground they are set on.
const TEXT: [(&str, &[&str]); 8] = [
    ("ink", &["stock", "paper", "shade", "wash", "bark-wash"]),
    ("soft", &["stock", "paper", "shade", "wash"]),
    ("stock", &["ink"]),
    ("on-root", &["root"]),
    ("root", &["stock"]),
    ("bark", &["stock", "paper"]),
    ("on-hazard", &["hazard"]),
    ("paper", &["ink"]),
];

#[test]
fn the_ratio_is_that_of_the_standard() {
    assert!((contrast([0, 0, 0], [255, 255, 255]) - 21.0).abs() < 1e-9);
    assert!((contrast([0x77, 0x77, 0x77], [255, 255, 255]) - 4.48).abs() < 0.01);
}

#[test]
fn every_text_is_read_at_seven_to_one_in_both_themes() {
    let sheet = sheet();
    for theme in THEMES {
        let colours = palette(&sheet, theme);
        for (text, grounds) in TEXT {
            for ground in grounds {
                let ratio = contrast(colours[text], colours[*ground]);
                assert!(ratio >= 7.0, "{theme} {text} on {ground}: {ratio:.2}");
            }
        }
    }
}

#[test]
fn outlines_that_mean_something_are_seen_at_three_to_one() {
    let sheet = sheet();
    for theme in THEMES {
        let colours = palette(&sheet, theme);
        for line in ["silver", "root", "bark", "ink"] {
            for ground in ["stock", "paper", "shade"] {
                let ratio = contrast(colours[line], colours[ground]);
                assert!(ratio >= 3.0, "{theme} {line} on {ground}: {ratio:.2}");
            }
        }
    }
}

#[test]
fn dark_by_choice_and_dark_by_the_phone_are_one_theme() {
    let sheet = sheet();
    let [light, system, chosen] = THEMES.map(|theme| palette(&sheet, theme));
    assert_eq!(system, chosen);
    assert!(
        light.keys().eq(chosen.keys()),
        "a colour is missing in one theme"
    );
    assert_ne!(light, chosen);
}

/// A length in px; `None` for lengths that follow something else.
fn px(length: &str) -> Option<f64> {
    let length = length.trim();
    let rem = length
        .strip_suffix("rem")
        .and_then(|rem| rem.parse::<f64>().ok());
    let px = length
        .strip_suffix("px")
        .and_then(|px| px.parse::<f64>().ok());
    rem.map(|rem| rem * 16.0).or(px)
}

#[test]
fn no_type_is_smaller_than_fifteen_px() {
    let sheet = sheet();
    let mut seen = 0;
    for name in ["--small: ", "--body: ", "font-size: "] {
        for rest in sheet.split(name).skip(1) {
            let length = rest.split([';', '}']).next().expect("a length");
            if let Some(px) = px(length) {
                assert!(px >= 15.0, "{name}{length}");
                seen += 1;
            }
        }
    }
    assert!(seen >= 10, "only {seen} sizes found");
}

#[test]
fn surfaces_are_flat() {
    let sheet = sheet();
    assert!(!sheet.contains("box-shadow"));
    let gradients = sheet.matches("gradient(").count();
    let hatches = sheet.matches("repeating-linear-gradient(").count();
    assert_eq!(
        gradients, hatches,
        "only hatches and stripes may use a gradient"
    );
    for rest in sheet.split("border-radius: ").skip(1) {
        let radius = rest.split([';', '}']).next().expect("a radius").trim();
        assert!(["0", "50%"].contains(&radius), "border-radius: {radius}");
    }
}

/// Every Rust file under the app's source.
fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("the folder opens") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
}

#[test]
fn no_part_writes_a_style_attribute_or_raw_markup() {
    let mut files = Vec::new();
    sources(&root().join("app/src"), &mut files);
    assert!(files.len() > 15, "only {} files found", files.len());
    for file in files {
        let text = fs::read_to_string(&file).expect("a source file");
        for banned in [" style=", "inner_html=", "\"style\""] {
            assert!(!text.contains(banned), "{} has {banned}", file.display());
        }
    }
}

#[test]
fn every_class_a_part_uses_is_in_the_style_sheet() {
    let sheet = sheet();
    let mut files = Vec::new();
    sources(&root().join("app/src/ui"), &mut files);
    let mut seen = 0;
    for file in files {
        let text = fs::read_to_string(&file).expect("a source file");
        for rest in text.split("class=\"").skip(1) {
            let names = rest.split('"').next().expect("a class list");
            for name in names.split_whitespace() {
                let known = sheet.match_indices(&format!(".{name}")).any(|(at, found)| {
                    let next = sheet[at + found.len()..].chars().next();
                    next.is_none_or(|next| !next.is_alphanumeric() && next != '-')
                });
                assert!(known, "{} uses .{name}", file.display());
                seen += 1;
            }
        }
    }
    assert!(seen > 40, "only {seen} classes found");
}
