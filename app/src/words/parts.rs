//! What words are put together in, whatever the language.

use velamen_core::event::Outcome;
use velamen_core::task::TaskKind;

use super::round;

/// Each language in its own words, by the two letters it is known by.
pub const LANGUAGES: [(&str, &str); 2] = [("en", "English"), ("es", "Español")];

/// The same beginning with a capital letter.
#[must_use]
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Work that was done, where more is to be said of it: "Did the treatment work? Needs more".
#[must_use]
pub(crate) fn done(
    what: &str,
    kind: TaskKind,
    outcome: Option<Outcome>,
    why: &str,
) -> Option<String> {
    if kind.def().treats && !why.is_empty() {
        return Some(format!("{what}: {why}"));
    }
    let outcome = outcome.filter(|_| kind.def().asks_outcome)?;
    let (_, more, well) = round::outcome(kind);
    let answer = match outcome {
        Outcome::NeedsMore => more,
        Outcome::Well => well,
    };
    let stop = if what.ends_with('?') { "" } else { ":" };
    Some(format!("{what}{stop} {answer}"))
}

/// Work and what became of it: "First water, done"; after a question in a sentence of its own: "Is the moss moist? Done".
#[must_use]
pub(crate) fn then(what: &str, became: &str) -> String {
    if what.ends_with('?') {
        format!("{what} {}", capital(became))
    } else {
        format!("{what}, {became}")
    }
}

/// Why work is put off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Because {
    NoTime,
    Weather,
    NotReady,
    Missing,
}

impl Because {
    pub const ALL: [Self; 4] = [Self::NoTime, Self::Weather, Self::NotReady, Self::Missing];
}

/// What a card says.
#[derive(Clone, Copy, Debug)]
pub struct Card {
    pub title: &'static str,
    /// What the drawing shows, for who cannot see it.
    pub seen: &'static str,
    pub steps: &'static [&'static str],
}

/// A step of work one is led through.
#[derive(Clone, Copy, Debug)]
pub struct Led {
    /// What the hands do now.
    pub hands: &'static str,
    /// What the book asks.
    pub asks: &'static str,
}

/// A page of help.
#[derive(Clone, Copy, Debug)]
pub struct HelpPage {
    pub title: &'static str,
    pub says: &'static [&'static str],
    pub care: &'static [&'static str],
}

/// What a key does at a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Deed {
    Rooms,
    Look,
    Next,
    Before,
    Choose,
    Done,
    Across,
    Undo,
    Print,
    Back,
    Keys,
}

impl Deed {
    pub const ALL: [Self; 11] = [
        Self::Rooms,
        Self::Look,
        Self::Next,
        Self::Before,
        Self::Choose,
        Self::Done,
        Self::Across,
        Self::Undo,
        Self::Print,
        Self::Back,
        Self::Keys,
    ];

    /// The key, as it stands on the keyboard.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Rooms => "1 … 5, 0",
            Self::Look => "/",
            Self::Next => "J",
            Self::Before => "K",
            Self::Choose => "X",
            Self::Done => "D",
            Self::Across => "O",
            Self::Undo => "U",
            Self::Print => "P",
            Self::Back => "Esc",
            Self::Keys => "?",
        }
    }

    /// Whether it is this key, by the name the browser gives it.
    #[must_use]
    pub fn hears(self, key: &str) -> bool {
        match self {
            Self::Rooms => matches!(key, "0" | "1" | "2" | "3" | "4" | "5"),
            Self::Back => key == "Escape",
            _ => key.eq_ignore_ascii_case(self.key()),
        }
    }
}
