//! Splitting a typed line into the parts of a name.
//!
//! Only what is certain by its form is split: a capital second word is a grex and keeps its capital, a small one a
//! species, quotes hold a cultivar, ranks and signs are known words. The rest becomes the note. No letter or digit the
//! grower typed is lost; signs and abbreviations are written one way (`ssp` becomes `subsp.`, a letter x between
//! names the hybrid sign).

use super::{Formula, Infraspecific, PlantName, Qualifier, Rank};
use crate::reference::taxa;

/// Longest line that is split, in characters; a longer one is a note.
const TYPED_MAX: usize = 200;

/// Spaces and quotes put in order: one space between words, none around, straight quotes, control characters gone.
///
/// A pair of double quotes around words becomes single ones; an inch sign stays.
pub fn clean(typed: &str) -> String {
    let straight: String = typed
        .chars()
        .map(|c| match c {
            '\u{2018}'..='\u{201B}' | '\u{02BC}' | '`' | '´' => '\'',
            '\u{201C}'..='\u{201F}' | '«' | '»' => '"',
            c if c.is_control() => ' ',
            c => c,
        })
        .collect();
    let mut words: Vec<String> = straight.split_whitespace().map(String::from).collect();
    let mut opened = None;
    for at in 0..words.len() {
        let Some(word) = words.get(at) else { break };
        let opens = opened.is_none() && word.starts_with('"');
        let closes = word.ends_with('"') && (word.len() > 1 || !opens);
        if opens {
            opened = Some(at);
        }
        if let (true, Some(from)) = (closes, opened.take_if(|_| closes)) {
            if let Some(word) = words.get_mut(from) {
                word.replace_range(..1, "'");
            }
            if let Some(word) = words.get_mut(at) {
                word.truncate(word.len() - 1);
                word.push('\'');
            }
        }
    }
    words.join(" ")
}

/// A word of the line, or what stands in quotes, or a hybrid sign as it was typed.
#[derive(Clone, PartialEq, Eq, Debug)]
enum Token {
    Word(String),
    Quoted(String),
    Cross(String),
}

impl Token {
    /// The token as it goes into a note.
    fn noted(&self) -> String {
        match self {
            Token::Word(text) | Token::Cross(text) => text.clone(),
            Token::Quoted(text) => format!("'{text}'"),
        }
    }

    fn word(&self) -> Option<&str> {
        match self {
            Token::Word(word) => Some(word),
            Token::Quoted(_) | Token::Cross(_) => None,
        }
    }

    fn is_small_word(&self) -> bool {
        self.word().is_some_and(is_epithet)
    }

    fn is_cross(&self) -> bool {
        matches!(self, Token::Cross(_))
    }
}

fn tokens(cleaned: &str) -> Vec<Token> {
    let words: Vec<&str> = cleaned.split(' ').filter(|word| !word.is_empty()).collect();
    let mut tokens = Vec::new();
    let mut at = 0;
    while let Some(word) = words.get(at) {
        if word.starts_with('\'') {
            let last = closing(&words, at).unwrap_or(words.len() - 1);
            let quoted = words.get(at..=last).unwrap_or_default().join(" ");
            let inside = quoted.strip_prefix('\'').unwrap_or(&quoted);
            let inside = inside.strip_suffix('\'').unwrap_or(inside).trim();
            if !inside.is_empty() {
                tokens.push(Token::Quoted(inside.to_owned()));
            }
            at = last;
        } else if let Some((sign, rest)) = split_cross(word, at == 0) {
            tokens.push(Token::Cross(sign.to_owned()));
            if !rest.is_empty() {
                tokens.push(Token::Word(rest.to_owned()));
            }
        } else {
            tokens.push(Token::Word((*word).to_owned()));
        }
        at += 1;
    }
    tokens
}

/// The word that closes the quotes opened at `from`. A plural's apostrophe closes only when no other quote follows.
fn closing(words: &[&str], from: usize) -> Option<usize> {
    let closes = |at: usize| {
        words
            .get(at)
            .is_some_and(|word| word.ends_with('\'') && (at > from || word.len() > 1))
    };
    let opens = |at: usize| words.get(at).is_some_and(|word| word.starts_with('\''));
    let first = (from..words.len()).find(|at| closes(*at))?;
    if !words.get(first).is_some_and(|word| word.ends_with("s'")) {
        return Some(first);
    }
    let later = (first + 1..words.len())
        .take_while(|at| !opens(*at))
        .find(|at| closes(*at));
    Some(later.unwrap_or(first))
}

/// A hybrid sign at the beginning of a word, and what follows it.
fn split_cross(word: &str, first: bool) -> Option<(&str, &str)> {
    if let Some(rest) = word.strip_prefix(['×', '✕', '⨯']) {
        return Some((word.strip_suffix(rest).unwrap_or(word), rest));
    }
    if word.eq_ignore_ascii_case("x") {
        return Some((word, ""));
    }
    // `xBrassocattleya`: a genus does not begin with a small letter before a capital. With a capital X only
    // when what is left is known, for Xylobium is a genus too.
    let (sign, rest) = word.split_at_checked(1)?;
    let capital = rest.chars().next().is_some_and(char::is_uppercase);
    let attached = first && capital && (sign == "x" || (sign == "X" && taxa::knows(rest)));
    attached.then_some((sign, rest))
}

pub(super) fn split(typed: &str) -> PlantName {
    let cleaned = clean(typed);
    if cleaned.chars().count() > TYPED_MAX {
        return noted(&cleaned);
    }
    let mut tokens = tokens(&cleaned);
    let to_confirm = tokens.last() == Some(&Token::Word("?".into()));
    if to_confirm {
        tokens.pop();
    }
    let crosses: Vec<usize> = (0..tokens.len())
        .filter(|at| joins_parents(&tokens, *at))
        .collect();
    let name = match crosses.as_slice() {
        [] => split_one(&tokens, false),
        [at] => split_formula(&tokens, *at),
        _ => genus_and_note(&tokens),
    };
    PlantName { to_confirm, ..name }
}

fn noted(text: &str) -> PlantName {
    PlantName {
        note: Some(text.to_owned()).filter(|text| !text.is_empty()),
        ..PlantName::default()
    }
}

fn note_of(tokens: &[Token]) -> Option<String> {
    let words: Vec<String> = tokens.iter().map(Token::noted).collect();
    Some(words.join(" ")).filter(|note| !note.is_empty())
}

/// For what cannot be split: the genus when it is known, all else in the note.
fn genus_and_note(tokens: &[Token]) -> PlantName {
    match tokens.split_first() {
        Some((Token::Word(genus), rest)) if taxa::knows(genus) => PlantName {
            genus: Some(capital_first(genus)),
            note: note_of(rest),
            ..PlantName::default()
        },
        _ => PlantName {
            note: note_of(tokens),
            ..PlantName::default()
        },
    }
}

/// Whether the sign at `at` stands between two parents rather than before an epithet.
fn joins_parents(tokens: &[Token], at: usize) -> bool {
    let (before, after) = (tokens.get(..at).unwrap_or(&[]), tokens.get(at + 1));
    let before = match before.split_first() {
        Some((Token::Cross(_), rest)) => rest,
        _ => before,
    };
    let (Some(Token::Cross(_)), Some(last), Some(after)) = (tokens.get(at), before.last(), after)
    else {
        return false;
    };
    let nothospecies = before.len() == 1 && after.is_small_word();
    let below = last.word().and_then(rank).is_some() && after.is_small_word();
    !nothospecies && !below
}

fn split_formula(tokens: &[Token], at: usize) -> PlantName {
    let pod = tokens.get(..at).unwrap_or(&[]);
    let pollen = tokens.get(at + 1..).unwrap_or(&[]);
    let (mut pod, mut pollen) = (split_one(pod, false), split_one(pollen, true));
    if pod.is_unnamed() || pollen.is_unnamed() {
        return genus_and_note(tokens);
    }
    let notes: Vec<String> = [pod.note.take(), pollen.note.take()]
        .into_iter()
        .flatten()
        .collect();
    PlantName {
        note: Some(notes.join(" ")).filter(|note| !note.is_empty()),
        formula: Some(Formula {
            pod: Box::new(pod),
            pollen: Box::new(pollen),
        }),
        ..PlantName::default()
    }
}

/// Splits a name that is no cross; `bare` allows a species without its genus, as after a hybrid sign.
fn split_one(tokens: &[Token], bare: bool) -> PlantName {
    let mut name = PlantName::default();
    let mut rest = tokens;
    if let [Token::Cross(_), Token::Word(_), ..] = rest {
        name.genus_hybrid = true;
        rest = rest.get(1..).unwrap_or(&[]);
    }
    match rest {
        [Token::Word(word), ..]
            if bare && !name.genus_hybrid && is_epithet(word) && !taxa::knows(word) => {}
        [Token::Word(word), after @ ..] if is_genus(word, after) => {
            name.genus = Some(capital_first(word));
            rest = after;
        }
        _ => return genus_and_note(tokens),
    }
    rest = take_species(&mut name, rest);
    rest = take_ranks(&mut name, rest);
    let mut note = Vec::new();
    take_cultivated(&mut name, rest, &mut note);
    name.note = note_of(&note);
    name
}

fn take_species<'t>(name: &mut PlantName, mut rest: &'t [Token]) -> &'t [Token] {
    if let [Token::Word(word), after @ ..] = rest
        && let Some(found) = qualifier(word)
    {
        name.qualifier = Some(found);
        rest = after;
    }
    match rest {
        [Token::Cross(_), Token::Word(word), after @ ..] if is_epithet(word) => {
            name.species_hybrid = true;
            name.species = Some(small(word));
            after
        }
        [Token::Word(word), after @ ..] if is_epithet(word) => {
            name.species = Some(small(word));
            after
        }
        _ => rest,
    }
}

fn take_ranks<'t>(name: &mut PlantName, mut rest: &'t [Token]) -> &'t [Token] {
    while let [Token::Word(word), after @ ..] = rest {
        let Some((rank, notho)) = rank(word) else {
            break;
        };
        if name.infraspecific.len() >= super::RANKS_MAX {
            break;
        }
        let (epithet, hybrid) = match after {
            [Token::Cross(_), Token::Word(epithet), ..] if is_epithet(epithet) => (epithet, true),
            [Token::Word(epithet), ..] if is_epithet(epithet) => (epithet, notho),
            // An epithet that is the letter x and nothing more.
            [Token::Cross(epithet)] if epithet == "x" => (epithet, notho),
            _ => break,
        };
        name.infraspecific.push(Infraspecific {
            rank,
            epithet: small(epithet),
            hybrid,
        });
        let used = if after.first().is_some_and(Token::is_cross) && after.len() > 1 {
            2
        } else {
            1
        };
        rest = after.get(used..).unwrap_or(&[]);
    }
    rest
}

/// Grex, Group and cultivar; what is none of them goes to the note.
fn take_cultivated(name: &mut PlantName, rest: &[Token], note: &mut Vec<Token>) {
    let words = rest
        .iter()
        .take_while(|token| token.word().is_some_and(|word| !opens_note(word)))
        .count();
    let (words, after) = rest.split_at_checked(words).unwrap_or((rest, &[]));
    let mut words: Vec<&str> = words.iter().filter_map(Token::word).collect();
    let unquoted = words.iter().position(|word| is_one_of(word, &["cv"]));
    if let Some(at) = unquoted {
        let cultivar = words.split_off(at).split_off(1).join(" ");
        name.cultivar = Some(cultivar).filter(|cultivar| !cultivar.is_empty());
    }
    if let Some(at) = words
        .iter()
        .position(|word| is_one_of(word, &["gx", "grex"]))
        && name.species.is_none()
        && at > 0
    {
        let after_sign = words.split_off(at).split_off(1);
        name.grex = Some(words.join(" "));
        name.grex_sign = true;
        words = after_sign;
    }
    if let Some((last, group)) = words.split_last()
        && is_one_of(last, &["group", "gp"])
        && group.first().is_some_and(|word| begins_large(word))
    {
        name.group = Some(group.join(" "));
        words.clear();
    }
    if name.species.is_none() && name.grex.is_none() && name.group.is_none() {
        let large = words.iter().rposition(|word| begins_large(word));
        if let (true, Some(last)) = (words.first().is_some_and(|w| begins_large(w)), large) {
            let left = words.split_off(last + 1);
            name.grex = Some(words.join(" "));
            words = left;
        }
    }
    note.extend(words.into_iter().map(|word| Token::Word(word.to_owned())));
    for token in after {
        match token {
            Token::Quoted(epithet) if name.cultivar.is_none() => {
                name.cultivar = Some(epithet.clone());
            }
            other => note.push(other.clone()),
        }
    }
}

/// Brackets and numbers of a breeder end a name.
fn opens_note(word: &str) -> bool {
    word.starts_with(['(', '[', '{', '#', '=', '-', '/'])
}

/// Compares a word with abbreviations, with or without their stop, in any case.
fn is_one_of(word: &str, known: &[&str]) -> bool {
    let word = word.strip_suffix('.').unwrap_or(word);
    known.iter().any(|known| word.eq_ignore_ascii_case(known))
}

fn qualifier(word: &str) -> Option<Qualifier> {
    if is_one_of(word, &["cf"]) {
        Some(Qualifier::Cf)
    } else if is_one_of(word, &["aff"]) {
        Some(Qualifier::Aff)
    } else if is_one_of(word, &["sp"]) {
        Some(Qualifier::Sp)
    } else {
        None
    }
}

/// A rank and whether it is one of hybrids. A capital F or V is an initial, not a rank.
fn rank(word: &str) -> Option<(Rank, bool)> {
    let (word, notho) = match word.strip_prefix("notho") {
        Some(word) => (word, true),
        None => (word, false),
    };
    if !word.starts_with(|c: char| c.is_ascii_lowercase()) {
        return None;
    }
    let rank = match word.strip_suffix('.').unwrap_or(word) {
        "subsp" | "ssp" | "subspec" | "subspecies" => Rank::Subspecies,
        "var" | "variety" | "varietas" => Rank::Variety,
        "subvar" => Rank::Subvariety,
        "f" | "fo" | "fma" | "form" | "forma" => Rank::Form,
        "subf" | "subforma" => Rank::Subform,
        _ => return None,
    };
    Some((rank, notho))
}

fn begins_large(word: &str) -> bool {
    let first = word.chars().next();
    first.is_some_and(|c| c.is_alphanumeric() && !c.is_lowercase())
}

/// The letters a Latin name is written with; a diaeresis is allowed, a hyphen joins words.
fn is_latin(c: char) -> bool {
    c.is_ascii_alphabetic() || matches!(c, '-' | 'ä' | 'ë' | 'ï' | 'ö' | 'ü')
}

/// A word in the form of a species epithet that is no abbreviation of something else.
fn is_epithet(word: &str) -> bool {
    word.starts_with(|c: char| c.is_ascii_lowercase())
        && word.chars().all(is_latin)
        && qualifier(word).is_none()
        && rank(word).is_none()
        && !is_one_of(word, &["cv", "gx", "grex", "group", "gp", "x"])
}

/// A word that can be a genus. Typed small it must be known, or look as Latin as the word after it.
fn is_genus(word: &str, after: &[Token]) -> bool {
    let stem = word.strip_suffix('.').unwrap_or(word);
    if stem.is_empty() || !stem.chars().all(is_latin) || stem.starts_with('-') {
        return false;
    }
    if stem.starts_with(|c: char| c.is_ascii_uppercase()) {
        return true;
    }
    let genus_endings = ["a", "um", "us", "is", "ys", "on", "es", "as"];
    let looks = |word: &str, endings: &[&str]| {
        word.len() > 4 && endings.iter().any(|ending| word.ends_with(ending))
    };
    let next_fits = match after {
        [] => true,
        [Token::Word(next)] => looks(
            next,
            &["a", "um", "us", "is", "i", "ae", "e", "ens", "oides"],
        ),
        _ => false,
    };
    taxa::knows(stem) || (word == stem && looks(stem, &genus_endings) && next_fits)
}

fn capital_first(word: &str) -> String {
    let mut letters = word.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters.flat_map(char::to_lowercase)).collect()
}

fn small(word: &str) -> String {
    word.chars().flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
#[path = "typed_tests.rs"]
mod tests;
