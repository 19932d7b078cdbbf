//! What words are put together in, whatever the language.

/// Each language in its own words, by the two letters it is known by.
pub const LANGUAGES: [(&str, &str); 2] = [("en", "English"), ("es", "Español")];

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

/// A page of help.
#[derive(Clone, Copy, Debug)]
pub struct HelpPage {
    pub title: &'static str,
    pub says: &'static [&'static str],
    pub care: &'static [&'static str],
}
