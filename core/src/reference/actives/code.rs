//! Mode-of-action codes as they stand on labels.
//!
//! FRAC numbers what acts on diseases, IRAC what acts on insects and mites; the same number means different things in
//! the two. Where a label names no list and the code's form does not tell, the list stays unknown.

use std::fmt;

use serde::{Deserialize, Serialize};

/// Who gave the code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CodeList {
    Frac,
    Irac,
}

/// One code, in one spelling: `FRAC M01`, `IRAC 4A`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Code {
    pub list: Option<CodeList>,
    /// Capital letters and digits: `3`, `M01`, `4A`, `UN`.
    pub code: String,
}

impl Code {
    /// Reads a code as typed: `FRAC M01`, `frac m1`, `Group 4A`, `11`. Nothing where there is none in it.
    #[must_use]
    pub fn read(typed: &str) -> Option<Self> {
        let mut letters: String = typed
            .chars()
            .filter(char::is_ascii_alphanumeric)
            .map(|c| c.to_ascii_uppercase())
            .collect();
        let mut list = None;
        for (name, of) in [
            ("FRAC", Some(CodeList::Frac)),
            ("IRAC", Some(CodeList::Irac)),
            ("GROUP", None),
            ("CODE", None),
        ] {
            if let Some(rest) = letters.strip_prefix(name) {
                let rest = rest.to_owned();
                list = list.or(of);
                letters = rest;
            }
        }
        if letters.is_empty() {
            return None;
        }
        let code = one_spelling(&letters);
        let list = list.or_else(|| list_of(&code));
        // FRAC printed 33 for the phosphonates before it printed P07.
        let code = if list == Some(CodeList::Frac) && code == "33" {
            "P07".to_owned()
        } else {
            code
        };
        Some(Self { list, code })
    }

    /// The group a change has to leave: `4` of IRAC 4A, 4C and 4D; a FRAC code is its own.
    #[must_use]
    pub fn main_group(&self) -> &str {
        let digits = self
            .code
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(self.code.len());
        match self.code.get(..digits) {
            Some(number) if !number.is_empty() => number,
            _ => &self.code,
        }
    }

    /// Whether going from one to the other is no change. Codes whose list is not known count as of one list.
    #[must_use]
    pub fn same_group(&self, other: &Self) -> bool {
        let lists_differ = matches!((self.list, other.list), (Some(one), Some(two)) if one != two);
        !lists_differ && self.main_group() == other.main_group()
    }
}

impl fmt::Display for Code {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.list {
            Some(CodeList::Frac) => write!(out, "FRAC {}", self.code),
            Some(CodeList::Irac) => write!(out, "IRAC {}", self.code),
            None => out.write_str(&self.code),
        }
    }
}

/// `M1` and `M01` are one code, as `P7` and `P07`, `BM2` and `BM02`; `03` is `3`.
fn one_spelling(code: &str) -> String {
    for letters in ["BM", "M", "P"] {
        if let Some(number) = code.strip_prefix(letters)
            && let Ok(number) = number.parse::<u8>()
        {
            return format!("{letters}{number:02}");
        }
    }
    let without = code.trim_start_matches('0');
    if without.is_empty() { code } else { without }.to_owned()
}

/// The list a code's form gives away; a bare number gives nothing away.
fn list_of(code: &str) -> Option<CodeList> {
    let number = |rest: &str| !rest.is_empty() && rest.chars().all(|c| c.is_ascii_digit());
    if ["BM", "M", "P"]
        .iter()
        .any(|letters| code.strip_prefix(letters).is_some_and(number))
    {
        return Some(CodeList::Frac);
    }
    let sub_group = code.chars().next().is_some_and(|c| c.is_ascii_digit())
        && code.ends_with(|c: char| c.is_ascii_uppercase());
    let physical = ["UN", "UNE", "UNM", "UNF", "UNB", "UNV", "UNP"].contains(&code);
    (sub_group || physical).then_some(CodeList::Irac)
}
