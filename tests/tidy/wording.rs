//! What no text of the repository may hold. The needles are put together from halves, so that
//! this file is not its own offender.

use crate::Complaints;
use crate::bare::bare;
use crate::files::File;

/// Lock files are written by tools and name registries as they must.
const LOCKS: [&str; 2] = ["Cargo.lock", "tests/browser/package-lock.json"];

fn joined(halves: &[(&str, &str)]) -> Vec<String> {
    halves
        .iter()
        .map(|(first, second)| format!("{first}{second}"))
        .collect()
}

fn found(text: &str, needles: Vec<String>) -> Complaints {
    needles
        .into_iter()
        .filter(|needle| text.contains(needle))
        .map(|needle| format!("holds \"{needle}\""))
        .collect()
}

pub(crate) fn nothing_left_over(path: &str, text: &str) -> Complaints {
    // Enciphered letters may spell anything.
    if LOCKS.contains(&path) || path.starts_with("tests/golden/envelope-") {
        return Vec::new();
    }
    let mut complaints = found(
        text,
        joined(&[("TO", "DO"), ("FIX", "ME"), ("XX", "X"), ("HA", "CK:")]),
    );
    if path.ends_with(".rs") {
        complaints.extend(found(
            &bare(text),
            joined(&[("dbg", "!("), ("todo", "!("), ("unimplemented", "!(")]),
        ));
    }
    if path.ends_with(".mjs") || path.ends_with(".js") {
        complaints.extend(found(
            text,
            joined(&[("debug", "ger;"), ("console", ".log(")]),
        ));
    }
    complaints
}

pub(crate) fn no_test_skipped(path: &str, text: &str) -> Complaints {
    if path.ends_with(".rs") {
        found(
            &bare(text),
            joined(&[("#[ign", "ore"), ("should", "_panic")]),
        )
    } else if path.ends_with(".mjs") {
        let needles = [("t.", "skip"), ("t.", "todo"), ("t.", "only")];
        let options = [("skip", ": "), ("todo", ": "), ("only", ": ")];
        found(text, joined(&needles))
            .into_iter()
            .chain(found(text, joined(&options)))
            .collect()
    } else {
        Vec::new()
    }
}

pub(crate) fn no_registry(path: &str, text: &str) -> Complaints {
    // Cargo writes the index into its lock file; npm is told not to.
    if path == "Cargo.lock" {
        return Vec::new();
    }
    found(
        text,
        joined(&[
            ("crates", ".io"),
            ("registry.", "npmjs"),
            ("registry.", "yarnpkg"),
            ("deb.", "debian.org"),
            ("pypi.", "org"),
            ("unpkg", ".com"),
            ("jsdelivr", ".net"),
        ]),
    )
}

pub(crate) fn no_strange_words(path: &str, text: &str) -> Complaints {
    if LOCKS.contains(&path) {
        return Vec::new();
    }
    let lower = text.to_lowercase();
    found(
        &lower,
        joined(&[
            ("sha", "red/"),
            ("fac", "ts.md"),
            ("hel", "per"),
            ("sub", "agent"),
            ("sub-", "agent"),
            ("the br", "ief "),
            ("language ", "model"),
            ("seed ", "document"),
            ("/wo", "rk/"),
        ]),
    )
}

/// A title, then a paragraph: what this is, before any other heading.
pub(crate) fn readme_opens_with_a_paragraph(path: &str, text: &str) -> Complaints {
    if path != "README.md" {
        return Vec::new();
    }
    let mut lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    let titled = lines.next().is_some_and(|line| line.starts_with("# "));
    let opening = lines.next().unwrap_or_default();
    let paragraph = opening.starts_with(char::is_alphabetic);
    if titled && paragraph {
        Vec::new()
    } else {
        vec!["begins without a title and a paragraph under it".into()]
    }
}

/// A sentence that reads the same in two sets of words was forgotten in one of them. Names and units are alike in both.
pub(crate) fn left_in_the_first_language(files: &[File]) -> Complaints {
    let text_of = |path: &str| files.iter().find(|file| file.path == path);
    let mut complaints = Vec::new();
    for file in files {
        let Some((_, theme)) = file.path.split_once("app/src/words/es/") else {
            continue;
        };
        let Some(first) = text_of(&format!("app/src/words/en/{theme}")) else {
            complaints.push(format!("{} stands in no other language", file.path));
            continue;
        };
        let said = sentences(&first.text);
        let same = sentences(&file.text).filter(|word| said.clone().any(|other| other == *word));
        complaints.extend(same.map(|(name, _)| format!("{}: {name} is not translated", file.path)));
    }
    complaints
}

/// The example's phrases in the first language stand in core, which makes it: none of them is another language's too.
pub(crate) fn example_in_the_first_language(files: &[File]) -> Complaints {
    let first = files.iter().find(|file| file.path == EXAMPLE);
    let said: Vec<&str> = first.map_or_else(Vec::new, |file| quoted(&file.text).collect());
    let others = files.iter().filter(|file| {
        let theme = file.path.strip_prefix("app/src/words/");
        theme.is_some_and(|theme| theme.ends_with("/demo.rs") && !theme.starts_with("en/"))
    });
    others
        .flat_map(|file| {
            let same = quoted(&file.text).filter(|text| said.contains(text));
            same.map(|text| format!("{}: \"{text}\" is not translated", file.path))
                .collect::<Vec<_>>()
        })
        .collect()
}

const EXAMPLE: &str = "core/src/demo/phrases.rs";

/// What stands in quotes.
fn quoted(text: &str) -> impl Iterator<Item = &str> {
    text.split('"').skip(1).step_by(2)
}

/// Names and texts of the constants of several words.
fn sentences(text: &str) -> impl Iterator<Item = (&str, &str)> + Clone {
    text.split("pub const ").skip(1).filter_map(|rest| {
        let (name, rest) = rest.split_once(": &str =")?;
        let text = rest.trim_start().strip_prefix('"')?.split('"').next()?;
        let words = text.split_whitespace();
        let long = words.filter(|word| word.len() > 2 && word.chars().all(char::is_alphabetic));
        (long.count() > 2).then_some((name, text))
    })
}

#[test]
fn a_forgotten_sentence_is_seen() {
    let file = |language: &str, text: &str| File {
        path: format!("app/src/words/{language}/round.rs"),
        text: text.to_owned(),
    };
    let english =
        "pub const A: &str = \"Nothing has been seen here.\";\npub const B: &str = \"mL\";";
    let both = [file("en", english), file("es", english)];
    assert_eq!(left_in_the_first_language(&both).len(), 1);
    let done = english.replace("Nothing has been seen here.", "No se ha visto nada.");
    assert!(left_in_the_first_language(&[file("en", english), file("es", &done)]).is_empty());
    assert_eq!(left_in_the_first_language(&[file("es", &done)]).len(), 1);
}

#[test]
fn a_forgotten_phrase_of_the_example_is_seen() {
    let file = |path: &str, text: &str| File {
        path: path.to_owned(),
        text: text.to_owned(),
    };
    let first = file(
        EXAMPLE,
        "wash: \"Wash the pots\", soap: (\"Soap\", \"acids\"),",
    );
    let other = "wash: \"Lavar las macetas\", soap: (\"Soap\", \"ácidos\"),";
    let both = [first, file("app/src/words/es/demo.rs", other)];
    assert_eq!(example_in_the_first_language(&both).len(), 1);
    let done = other.replace("Soap", "Jabón");
    let [first, _] = both;
    let both = [first, file("app/src/words/es/demo.rs", &done)];
    assert!(example_in_the_first_language(&both).is_empty());
}

#[test]
fn left_over_markers_are_seen() {
    let marker = ["TO", "DO"].concat();
    assert_eq!(
        nothing_left_over("DEVELOPERS.md", &format!("{marker}: later")).len(),
        1
    );
    assert_eq!(
        nothing_left_over("core/src/lib.rs", &["dbg", "!(a)"].concat()).len(),
        1
    );
    assert_eq!(
        nothing_left_over("core/src/lib.rs", &["todo", "!()"].concat()).len(),
        1
    );
    assert_eq!(
        nothing_left_over("tests/browser/a.mjs", &["console", ".log(1)"].concat()).len(),
        1
    );
    assert_eq!(
        nothing_left_over("core/src/lib.rs", "// what is to do next is a task"),
        Complaints::new()
    );
}

#[test]
fn skipped_tests_are_seen() {
    assert_eq!(
        no_test_skipped("core/src/lib.rs", &["#[ign", "ore]\n#[test]"].concat()).len(),
        1
    );
    assert_eq!(
        no_test_skipped("core/src/lib.rs", &["#[ign", "ore = \"slow\"]"].concat()).len(),
        1
    );
    assert_eq!(
        no_test_skipped("tests/browser/a.mjs", &["test.", "skip('a')"].concat()).len(),
        1
    );
    assert_eq!(
        no_test_skipped(
            "tests/browser/a.mjs",
            &["test('a', { sk", "ip: true })"].concat()
        )
        .len(),
        1
    );
    assert_eq!(
        no_test_skipped("core/src/lib.rs", "fn skip() {}"),
        Complaints::new()
    );
}

#[test]
fn registry_addresses_are_seen() {
    let address = ["https://registry.", "npmjs.org/axe-core"].concat();
    assert_eq!(
        no_registry("tests/browser/package-lock.json", &address).len(),
        1
    );
    assert_eq!(
        no_registry("README.md", &["see crates", ".io"].concat()).len(),
        1
    );
    assert_eq!(no_registry("README.md", "cargo install"), Complaints::new());
}

#[test]
fn strange_words_are_seen() {
    for word in [
        ["see sha", "red/x"],
        ["Hel", "pers live here"],
        ["FAC", "TS.md"],
        ["as the br", "ief asks"],
    ] {
        assert_eq!(
            no_strange_words("app/src/lib.rs", &word.concat()).len(),
            1,
            "{word:?}"
        );
    }
    assert_eq!(
        no_strange_words("app/src/lib.rs", "a shared bench, the briefest note"),
        Complaints::new()
    );
}

#[test]
fn a_readme_that_begins_with_headings_is_seen() {
    for text in [
        "",
        "# A\n\n## B\n\nwords",
        "Words first",
        "# A\n\n- list",
        "# A\n\n![badge](x)",
    ] {
        assert_eq!(
            readme_opens_with_a_paragraph("README.md", text).len(),
            1,
            "{text}"
        );
    }
    assert_eq!(
        readme_opens_with_a_paragraph("README.md", "# A\n\nA book.\n\n## B"),
        Complaints::new()
    );
}
