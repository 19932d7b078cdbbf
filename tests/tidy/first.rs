//! What stands on the glass before the program: the page can read no words of the program, so it carries its own copy,
//! in every language, and the copy is the same.

use crate::Complaints;
use crate::files::File;

const PAGE: &str = "assets/first.html";
const ICONS: &str = "app/src/ui/icon.rs";
const WORDS: [(&str, &str); 8] = [
    ("start", "WELCOME"),
    ("start", "ABOUT"),
    ("start", "OPENING"),
    ("rooms", "ROUND"),
    ("rooms", "REPOT"),
    ("rooms", "TREAT"),
    ("rooms", "STOCK"),
    ("rooms", "BOOK"),
];

pub(crate) fn says_what_the_program_says(files: &[File]) -> Complaints {
    let text = |path: &str| {
        let file = files.iter().find(|file| file.path == path);
        file.map_or("", |file| file.text.as_str())
    };
    let page = text(PAGE);
    let languages = files.iter().filter_map(|file| {
        let language = file.path.strip_prefix("app/src/words/")?;
        language.strip_suffix("/rooms.rs")
    });
    let wanted = languages.flat_map(|language| {
        WORDS.iter().map(move |(part, name)| {
            let words = text(&format!("app/src/words/{language}/{part}.rs"));
            let said = said(words, name).unwrap_or_default();
            format!("<span lang=\"{language}\">{said}</span>")
        })
    });
    let words = wanted
        .filter(|span| !page.contains(span))
        .map(|span| format!("{PAGE} lacks {span}"));
    let icons = page
        .split("<path d=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .filter(|path| !text(ICONS).contains(&format!("\"{path}\"")))
        .map(|path| format!("{PAGE} draws {path}, which is no icon"));
    words.chain(icons).collect()
}

/// The sentence a name stands for.
fn said<'a>(words: &'a str, name: &str) -> Option<&'a str> {
    let (_, after) = words.split_once(&format!("pub const {name}: &str ="))?;
    after.split('"').nth(1)
}

#[test]
fn another_word_or_icon_is_seen() {
    let file = |path: &str, text: &str| File {
        path: path.into(),
        text: text.into(),
    };
    let program = [
        file(
            "app/src/words/xx/rooms.rs",
            "pub const BOOK: &str = \"Buch\";",
        ),
        file(ICONS, "Self::Book => \"M5 4\","),
        file(PAGE, "<path d=\"M5 5\"/><span lang=\"xx\">Book</span>"),
    ];
    let complaints = says_what_the_program_says(&program);
    for wanted in ["lacks <span lang=\"xx\">Buch</span>", "draws M5 5"] {
        assert!(
            complaints.iter().any(|one| one.contains(wanted)),
            "{complaints:?}"
        );
    }
}
