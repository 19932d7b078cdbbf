//! What papers that go with plants say: the elements of a plant passport, and how a taxon stands in the convention on
//! trade in endangered species.
//!
//! Nothing here says that a paper is not needed, or that one is enough. Sources: (EU) 2016/2031, annex VII A, with the
//! form of (EU) 2017/2313; the form of the United Kingdom is the retained one; 50 CFR 23.40 to 23.47 for the codes.

use crate::code::LotCode;
use crate::id::LotId;
use crate::name::PlantName;
use crate::reference::cites::{FIRST, FirstAppendix};
use crate::state::{Born, Facts};

/// Longest place of origin, in characters.
pub const ORIGIN_CHARS_MAX: usize = 60;

/// Which passport.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PassportForm {
    #[default]
    None,
    /// The union's: with its flag, the state's code before the number.
    Eu,
    /// The United Kingdom's: no flag, the number alone.
    Uk,
}

/// The elements, in the order they are printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passport {
    pub form: PassportForm,
    /// A: the botanical name.
    pub name: PlantName,
    /// B: the operator's registration number.
    pub operator: String,
    /// C: the code it is traced by.
    pub code: LotCode,
    /// D: where it was grown.
    pub origin: String,
}

/// Why no passport can be printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassportFault {
    /// No operator's number is set: nobody without one may issue it.
    NoOperator,
    /// The number does not begin with the code of a state and a hyphen.
    OperatorForm,
    /// The lot has no botanical name.
    NoName,
    NoCode,
    NoOrigin,
    OriginTooLong,
}

/// The operator's number of the book; empty until it is set.
#[must_use]
pub fn operator_number(facts: &Facts) -> String {
    facts.book.operator_number.or_default().trim().to_owned()
}

/// Where plants of this nursery were grown, by its own number; empty where that does not say it.
#[must_use]
pub fn origin_of(operator: &str) -> String {
    match operator.split_once('-') {
        Some((state, _)) if is_state(state) => state.to_ascii_uppercase(),
        _ => String::new(),
    }
}

fn is_state(text: &str) -> bool {
    text.chars().count() == 2 && text.chars().all(|letter| letter.is_ascii_alphabetic())
}

/// What everything printed at a time shares: the number, and the origin as typed or as it follows from the number.
///
/// # Errors
/// What is missing.
pub fn passport_terms(
    facts: &Facts,
    form: PassportForm,
    origin: &str,
) -> Result<(String, String), PassportFault> {
    let operator = operator_number(facts);
    if operator.is_empty() {
        return Err(PassportFault::NoOperator);
    }
    let state = origin_of(&operator);
    if form == PassportForm::Eu && state.is_empty() {
        return Err(PassportFault::OperatorForm);
    }
    let typed = origin.trim();
    let origin = match (typed, form) {
        ("", PassportForm::Uk) => "GB".to_owned(),
        ("", _) => state,
        (typed, _) if is_state(typed) => typed.to_ascii_uppercase(),
        (typed, _) => typed.to_owned(),
    };
    if origin.is_empty() {
        return Err(PassportFault::NoOrigin);
    }
    if origin.chars().count() > ORIGIN_CHARS_MAX {
        return Err(PassportFault::OriginTooLong);
    }
    Ok((operator, origin))
}

/// The passport of a lot.
///
/// # Errors
/// What is missing.
pub fn passport(
    facts: &Facts,
    lot: LotId,
    form: PassportForm,
    origin: &str,
) -> Result<Passport, PassportFault> {
    let (operator, origin) = passport_terms(facts, form, origin)?;
    let known = facts.lots.get(&lot);
    let name = known.map(|lot| lot.name.or_default()).unwrap_or_default();
    if name.is_unnamed() {
        return Err(PassportFault::NoName);
    }
    let code = known.and_then(|lot| lot.code.get().copied());
    Ok(Passport {
        form,
        name,
        operator,
        code: code.ok_or(PassportFault::NoCode)?,
        origin,
    })
}

/// An appendix of the convention.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Appendix {
    First,
    Second,
}

/// How a name stands in the convention.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Listing {
    pub appendix: Appendix,
    /// A hybrid, which stands as the strictest of its parents does.
    pub hybrid: bool,
    /// A hybrid of a genus in which a species stands in appendix I: with that one among its ancestors it stands there.
    pub first_if_ancestor: bool,
    pub source: &'static str,
}

/// How plants came to be, as the papers write it.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum SourceCode {
    /// Artificially propagated.
    A,
    /// Of appendix I, artificially propagated for trade.
    D,
    /// Taken from the wild.
    W,
}

impl SourceCode {
    pub const ALL: [Self; 3] = [Self::A, Self::D, Self::W];

    /// As it is printed.
    #[must_use]
    pub fn letter(self) -> &'static str {
        match self {
            Self::A => "A",
            Self::D => "D",
            Self::W => "W",
        }
    }
}

const FAMILY: &str = "CITES Appendices: all Orchidaceae are listed, in II unless they are in I";

/// How a name stands; `None` for a plant whose genus nobody wrote down.
#[must_use]
pub fn listing(name: &PlantName) -> Option<Listing> {
    listing_within(name, crate::name::FORMULA_DEPTH_MAX)
}

fn listing_within(name: &PlantName, depth: usize) -> Option<Listing> {
    if let (Some(formula), Some(deeper)) = (&name.formula, depth.checked_sub(1)) {
        let parents = [
            listing_within(&formula.pod, deeper),
            listing_within(&formula.pollen, deeper),
        ];
        let parents: Vec<Listing> = parents.into_iter().flatten().collect();
        let strictest = parents.iter().min_by_key(|parent| parent.appendix).copied();
        let unsure = parents.iter().any(|parent| parent.first_if_ancestor);
        let strictest = strictest.map(|parent| Listing {
            hybrid: true,
            first_if_ancestor: unsure && parent.appendix == Appendix::Second,
            ..parent
        });
        if strictest.is_some() {
            return strictest;
        }
    }
    let genus = name.genus.as_deref()?;
    let hybrid = name.genus_hybrid || name.species_hybrid || name.grex.is_some();
    let species = name.species.as_deref().unwrap_or_default();
    let found = FIRST.iter().find(|row| matches_row(row, genus, species));
    Some(match found {
        Some(row) => Listing {
            appendix: Appendix::First,
            hybrid,
            first_if_ancestor: false,
            source: row.source,
        },
        None => Listing {
            appendix: Appendix::Second,
            hybrid,
            first_if_ancestor: (hybrid || species.is_empty())
                && FIRST.iter().any(|row| may_descend(row, genus)),
            source: FAMILY,
        },
    })
}

fn same(a: &str, b: &str) -> bool {
    a.eq_ignore_ascii_case(b)
}

fn is_genus(row: &FirstAppendix, genus: &str) -> bool {
    same(row.genus, genus) || same(row.short, genus) || same(row.short.trim_end_matches('.'), genus)
}

fn matches_row(row: &FirstAppendix, genus: &str, species: &str) -> bool {
    let now = is_genus(row, genus) && row.species.is_none_or(|listed| same(listed, species));
    let once = row
        .once
        .is_some_and(|(was, called)| same(was, genus) && same(called, species));
    now || once
}

fn may_descend(row: &FirstAppendix, genus: &str) -> bool {
    is_genus(row, genus) || row.once.is_some_and(|(was, _)| same(was, genus))
}

/// The code that what the book knows speaks for, where it speaks for one: plants raised here from seed, flask or by
/// dividing. `W` is never proposed, and nothing for what came from others: they know.
#[must_use]
pub fn proposed_code(facts: &Facts, lot: LotId, listing: Listing) -> Option<SourceCode> {
    use crate::event::Source;
    let mut known = facts.lots.get(&lot)?;
    // A part was raised as the whole was.
    for _ in 0..crate::limits::CLUMP_LOTS_MAX {
        match known.split_from().and_then(|from| facts.lots.get(&from)) {
            Some(whole) => known = whole,
            None => break,
        }
    }
    let raised_here = match known.born.as_ref()? {
        Born::Potted { .. } => true,
        Born::Received { source, .. } => matches!(source, Source::Seed | Source::Flask),
        Born::Split { .. } => false,
    };
    match (raised_here, listing.appendix, listing.hybrid) {
        (false, ..) | (true, Appendix::First, true) => None,
        (true, Appendix::First, false) => Some(SourceCode::D),
        (true, Appendix::Second, _) if listing.first_if_ancestor => None,
        (true, Appendix::Second, _) => Some(SourceCode::A),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(typed: &str) -> Option<(Appendix, bool)> {
        listing(&PlantName::from_typed(typed)).map(|it| (it.appendix, it.first_if_ancestor))
    }

    #[test]
    fn slipper_orchids_and_a_few_species_stand_in_the_first_appendix() {
        for first in [
            "Paphiopedilum Maudiae",
            "Paph. rothschildianum",
            "Phragmipedium besseae",
            "Renanthera imschootiana",
            "Laelia lobata",
            "Cattleya jongheana 'Rose'",
            "Dendrobium cruentum",
            "Cattleya labiata × Paphiopedilum insigne",
        ] {
            assert_eq!(of(first), Some((Appendix::First, false)), "{first}");
        }
        for second in [
            "Cymbidium lowianum",
            "Cattleya labiata",
            "Dendrobium nobile",
            "Pleione Fujiyama",
        ] {
            assert_eq!(of(second), Some((Appendix::Second, false)), "{second}");
        }
    }

    #[test]
    fn a_hybrid_may_descend_from_a_species_of_the_first_appendix() {
        for name in [
            "Cattleya Morning Mist",
            "Laelia Bright",
            "Renanthera Red Lantern",
        ] {
            assert_eq!(of(name), Some((Appendix::Second, true)), "{name}");
        }
        assert_eq!(of(""), None);
        assert_eq!(of("'Snow'"), None);
    }

    #[test]
    fn the_origin_follows_from_the_number_or_is_typed() {
        assert_eq!(origin_of("nl-123456"), "NL");
        for number in ["", "NL123456", "123-456", "NLD-1", "é1-2"] {
            assert_eq!(origin_of(number), "", "{number}");
        }
    }
}
