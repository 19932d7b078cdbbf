//! Every limit has a test at its edge: a figure that no test names is one nobody would miss.

use std::collections::BTreeSet;

use crate::Complaints;
use crate::bare::{bare, without_tests, words};
use crate::files::File;

const LIMITS: &str = "core/src/limits.rs";

/// Limits that no test names, and why.
const NOT_NAMED: [(&str, &str); 0] = [];

/// A limit that no code of a test names, in whatever language; a comment names nothing.
pub(crate) fn each_is_tested(files: &[File]) -> Complaints {
    let mut named: BTreeSet<String> = BTreeSet::new();
    for file in files {
        named.extend(words(&test_code(file)).map(str::to_owned));
    }
    let limits = files.iter().find(|file| file.path == LIMITS);
    let limits = limits.map_or(String::new(), |file| bare(&file.text));
    let all = words(&limits).collect::<Vec<_>>();
    let consts = all.windows(3).filter_map(|three| match three {
        ["pub", "const", name] => Some(*name),
        _ => None,
    });
    let excused = |name: &str| NOT_NAMED.iter().any(|(excused, _)| *excused == name);
    let missing = consts.filter(|name| !named.contains(*name) && !excused(name));
    missing
        .map(|name| format!("{LIMITS}: no test is about {name}"))
        .collect()
}

/// What of a file is there to test, without its comments. Rows that only import a name are none of it.
fn test_code(file: &File) -> String {
    let path = file.path.as_str();
    if path.starts_with("tests/browser/") && path.ends_with(".test.mjs") {
        let code = file.text.lines();
        return code
            .filter(|line| !line.trim_start().starts_with("//"))
            .collect::<Vec<_>>()
            .join("\n");
    }
    if !path.ends_with(".rs") {
        return String::new();
    }
    let code = bare(&file.text);
    let whole = path.starts_with("tests/") || path.ends_with("tests.rs");
    let tests = if whole {
        code.as_str()
    } else {
        code.get(without_tests(&code).len()..).unwrap_or_default()
    };
    let used = tests.split_inclusive(';').filter(|statement| {
        let last = statement.rsplit(['{', '}']).next().unwrap_or_default();
        !statement.trim_start().starts_with("use ") && !last.trim_start().starts_with("use ")
    });
    used.collect()
}

#[test]
fn a_limit_nobody_tests_is_seen() {
    let file = |path: &str, text: &str| File {
        path: path.into(),
        text: text.into(),
    };
    let limits = "pub const A_MAX: u32 = 1;\npub const B_MAX: u32 = 2;\npub const C_MAX: u32 = 3;\n\
        pub const D_MAX: u32 = 4;\npub const E_MAX: u32 = 5;\n";
    let files = [
        file(LIMITS, limits),
        file(
            "core/src/lot.rs",
            "fn f() { A_MAX; }\n#[cfg(test)]\nmod tests { fn t() { B_MAX; } }",
        ),
        file(
            "tests/scenarios/lot.rs",
            "use x::{A_MAX, C_MAX};\n// A_MAX\nfn t() { C_MAX; }",
        ),
        file("tests/browser/lot.test.mjs", "// A_MAX\nconst D_MAX = 4;"),
        file("tests/browser/hand.mjs", "const A_MAX = 1;"),
        file("app/src/lot_tests.rs", "fn t() { E_MAX; }"),
    ];
    assert_eq!(
        each_is_tested(&files),
        ["core/src/limits.rs: no test is about A_MAX"]
    );
}
