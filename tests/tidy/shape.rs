//! How files look: short, headed, sourced, in their place, and used.

use crate::Complaints;
use crate::bare::{bare, words};
use crate::files::File;

/// Beside these, only files whose name begins with LICENSE.
const TOP_LEVEL: [&str; 16] = [
    ".cargo",
    ".ci",
    ".gitignore",
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "README.md",
    "Trunk.toml",
    "app",
    "assets",
    "clippy.toml",
    "core",
    "index.html",
    "rust-toolchain.toml",
    "tests",
    "xtask",
];

pub(crate) fn short_enough(path: &str, text: &str) -> Complaints {
    let lines_max = match path.rsplit_once('.').map(|(_, ending)| ending) {
        Some("rs" | "mjs" | "js") => 600,
        Some("css") => 900,
        _ => return Vec::new(),
    };
    let lines = text.lines().count();
    if lines < lines_max {
        Vec::new()
    } else {
        vec![format!("has {lines} lines; the most is under {lines_max}")]
    }
}

/// A file of tests says by its names what it is for.
pub(crate) fn has_module_head(path: &str, text: &str) -> Complaints {
    let headed = text.trim_start().starts_with("//!") || text.trim().is_empty();
    let exempt = !path.ends_with(".rs") || path.ends_with("tests.rs");
    if headed || exempt {
        Vec::new()
    } else {
        vec!["begins without //! saying why it exists".into()]
    }
}

/// Figures live in rows with a `source`; an empty or one-letter source is none.
pub(crate) fn figures_have_sources(path: &str, text: &str) -> Complaints {
    if !(path.starts_with("core/src/reference") && path.ends_with(".rs")) {
        return Vec::new();
    }
    let code = bare(text);
    let mut complaints = Vec::new();
    for (at, _) in code.match_indices("source:") {
        let after = at + "source:".len();
        let Some(value) = code
            .get(after..)
            .map(str::trim_start)
            .filter(|value| value.starts_with('"'))
        else {
            continue;
        };
        let begin = code.len() - value.len() + 1;
        let length = value
            .get(1..)
            .and_then(|inside| inside.find('"'))
            .unwrap_or(0);
        let source = text.get(begin..begin + length).unwrap_or_default();
        if source.trim().chars().count() < 4 {
            let line = text.get(..at).map_or(0, |before| before.lines().count());
            complaints.push(format!("line {line}: a figure without a source"));
        }
    }
    complaints
}

pub(crate) fn top_level(path: &str, _: &str) -> Complaints {
    let name = path.split('/').next().unwrap_or_default();
    let license = name.starts_with("LICENSE") && name == path;
    if license || TOP_LEVEL.contains(&name) {
        Vec::new()
    } else {
        vec![format!("{name} does not belong at the top level")]
    }
}

/// Every source file is declared by the file above it, or nothing compiles it.
pub(crate) fn dead_modules(files: &[File]) -> Complaints {
    let rust: Vec<&File> = files
        .iter()
        .filter(|file| file.path.ends_with(".rs"))
        .collect();
    let dead = rust
        .iter()
        .filter(|file| !is_root(&file.path) && !is_declared(&file.path, &rust));
    dead.map(|file| format!("{}: no file declares this module", file.path))
        .collect()
}

fn is_root(path: &str) -> bool {
    ["/main.rs", "/lib.rs"]
        .iter()
        .any(|name| path.ends_with(name))
        || path.contains("/bin/")
        || path.contains("/benches/")
        // A package's build script; one of that name among its sources is a module.
        || path.ends_with("/build.rs") && !path.contains("/src/")
}

fn is_declared(path: &str, rust: &[&File]) -> bool {
    let inner = path
        .strip_suffix("/mod.rs")
        .or_else(|| path.strip_suffix(".rs"))
        .unwrap_or(path);
    let Some((folder, name)) = inner.rsplit_once('/') else {
        return false;
    };
    let above = ["/mod.rs", ".rs", "/lib.rs", "/main.rs"].map(|ending| format!("{folder}{ending}"));
    let by_path = format!("#[path = \"{name}.rs\"]");
    rust.iter().any(|file| {
        let beside = file
            .path
            .rsplit_once('/')
            .is_some_and(|(place, _)| place == folder);
        let declares = || {
            words(&bare(&file.text))
                .collect::<Vec<_>>()
                .windows(2)
                .any(|pair| pair == ["mod", name])
        };
        (beside && file.text.contains(&by_path)) || (above.contains(&file.path) && declares())
    })
}

#[test]
fn long_files_are_seen() {
    assert_eq!(short_enough("core/src/lib.rs", &"a\n".repeat(600)).len(), 1);
    assert_eq!(
        short_enough("core/src/lib.rs", &"a\n".repeat(599)),
        Complaints::new()
    );
    assert_eq!(short_enough("assets/app.css", &"a\n".repeat(900)).len(), 1);
    assert_eq!(
        short_enough("Cargo.lock", &"a\n".repeat(9000)),
        Complaints::new()
    );
}

#[test]
fn headless_modules_are_seen() {
    assert_eq!(
        has_module_head("core/src/lot.rs", "use a;\n//! late").len(),
        1
    );
    assert_eq!(
        has_module_head("core/src/lot.rs", "//! Lots.\nuse a;"),
        Complaints::new()
    );
}

#[test]
fn unsourced_figures_are_seen() {
    let row = "Row { figure: 3, source: \"\" }\nRow { source:\n    \" - \" }";
    assert_eq!(
        figures_have_sources("core/src/reference/mix.rs", row).len(),
        2
    );
    let good =
        "struct Row { source: &'static str }\nRow { source: \"common practice, no source\" }";
    assert_eq!(
        figures_have_sources("core/src/reference/mix.rs", good),
        Complaints::new()
    );
    assert_eq!(
        figures_have_sources("core/src/lot.rs", row),
        Complaints::new()
    );
}

#[test]
fn strangers_at_the_top_level_are_seen() {
    for path in ["notes.md", "scripts/a.sh", "LICENSES/MIT", "package.json"] {
        assert_eq!(top_level(path, "").len(), 1, "{path}");
    }
    for path in ["LICENSE", "LICENSE-MIT", "core/src/lib.rs", ".ci/run"] {
        assert_eq!(top_level(path, ""), Complaints::new(), "{path}");
    }
}

#[test]
fn dead_modules_are_seen() {
    let file = |path: &str, text: &str| File {
        path: path.into(),
        text: text.into(),
    };
    let files = [
        file(
            "core/src/lib.rs",
            "//! pub mod ghost;\npub mod lot;\npub(crate) mod code;",
        ),
        file("core/src/lot/mod.rs", "mod stage;"),
        file("core/src/lot/stage.rs", ""),
        file(
            "core/src/code.rs",
            "#[path = \"code_tests.rs\"]\nmod tests;",
        ),
        file("core/src/code_tests.rs", ""),
        file("core/src/ghost.rs", ""),
    ];
    assert_eq!(
        dead_modules(&files),
        ["core/src/ghost.rs: no file declares this module"]
    );
}
