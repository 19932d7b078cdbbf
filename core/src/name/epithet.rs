//! What the code for cultivated plants asks of the epithet of a grex, Group or cultivar.
//!
//! Source: a summary for orchids of the ICNCP, 9th edition; the list of words is filled up from memory. These are
//! warnings: a registrar would refuse the epithet, a nursery still has the plant and its label.

/// The longest epithet, in characters, spaces counted.
pub const EPITHET_MAX: usize = 30;

/// Marks that may stand in an epithet beside letters, digits and spaces.
const MARKS: &str = "'!,.-/\\";
/// Exclamation marks an epithet may hold, never side by side.
const EXCLAMATIONS_MAX: usize = 2;

/// Words that say what kind of name it is and may not be part of one.
const RESERVED: &[&str] = &[
    "cross",
    "crosses",
    "cultivar",
    "cultivars",
    "form",
    "forms",
    "grex",
    "grexes",
    "group",
    "groups",
    "hybrid",
    "hybrids",
    "improved",
    "maintenance",
    "mixture",
    "mixtures",
    "selection",
    "selections",
    "series",
    "sport",
    "sports",
    "strain",
    "strains",
    "transformed",
    "variety",
    "varieties",
];

/// Superlatives, which exaggerate merit.
const SUPERLATIVES: &[&str] = &[
    "best",
    "biggest",
    "earliest",
    "finest",
    "greatest",
    "largest",
    "longest",
    "loveliest",
    "perfect",
];

/// Something the code would not allow.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum EpithetWarning {
    /// More than [`EPITHET_MAX`] characters.
    TooLong { found: usize },
    /// One letter or digit only.
    SingleLetter,
    /// Does not begin with a capital.
    SmallInitial,
    /// A sign that may not stand in an epithet.
    Mark { found: char },
    /// More than two exclamation marks, or two side by side.
    Exclamations,
    /// A word that names a kind of name.
    ReservedWord { word: &'static str },
    /// A superlative.
    ExaggeratesMerit { word: &'static str },
    /// The genus stands in the epithet again.
    RepeatsGenus,
}

/// Checks an epithet without its quotes. Empty when the code has nothing against it.
pub fn epithet_warnings(epithet: &str, genus: Option<&str>) -> Vec<EpithetWarning> {
    let mut warnings = Vec::new();
    let found = epithet.chars().count();
    if found > EPITHET_MAX {
        warnings.push(EpithetWarning::TooLong { found });
    }
    if found == 1 {
        warnings.push(EpithetWarning::SingleLetter);
    }
    if epithet.chars().next().is_some_and(char::is_lowercase) {
        warnings.push(EpithetWarning::SmallInitial);
    }
    let allowed = |c: char| {
        c.is_alphabetic() || c.is_ascii_digit() || c == ' ' || c == '\u{2019}' || MARKS.contains(c)
    };
    if let Some(found) = epithet.chars().find(|c| !allowed(*c)) {
        warnings.push(EpithetWarning::Mark { found });
    }
    if epithet.contains("!!") || epithet.matches('!').count() > EXCLAMATIONS_MAX {
        warnings.push(EpithetWarning::Exclamations);
    }
    let words = || epithet.split(|c: char| !c.is_alphanumeric());
    let listed = |list: &'static [&'static str]| {
        list.iter()
            .find(|listed| words().any(|word| word.eq_ignore_ascii_case(listed)))
    };
    if let Some(word) = listed(RESERVED) {
        warnings.push(EpithetWarning::ReservedWord { word });
    }
    if let Some(word) = listed(SUPERLATIVES) {
        warnings.push(EpithetWarning::ExaggeratesMerit { word });
    }
    if genus.is_some_and(|genus| words().any(|word| word.eq_ignore_ascii_case(genus))) {
        warnings.push(EpithetWarning::RepeatsGenus);
    }
    warnings
}

#[cfg(test)]
mod tests {
    use super::*;

    fn warned(epithet: &str) -> Vec<EpithetWarning> {
        epithet_warnings(epithet, Some("Cymbidium"))
    }

    #[test]
    fn thirty_characters_pass_and_thirty_one_warn() {
        assert_eq!(warned(&format!("A{}", "b".repeat(28))), []);
        assert_eq!(warned(&format!("A{}", "b".repeat(29))), []);
        let long = format!("A{}", "b".repeat(30));
        assert_eq!(warned(&long), [EpithetWarning::TooLong { found: 31 }]);
    }

    #[test]
    fn each_warning_names_what_it_found() {
        assert_eq!(
            warned("Star Hybrid"),
            [EpithetWarning::ReservedWord { word: "hybrid" }]
        );
        assert_eq!(
            warned("Best of All"),
            [EpithetWarning::ExaggeratesMerit { word: "best" }]
        );
        assert_eq!(warned("Red & White"), [EpithetWarning::Mark { found: '&' }]);
        assert_eq!(warned("Wow! Red! Yes!"), [EpithetWarning::Exclamations]);
        assert_eq!(warned("morning mist"), [EpithetWarning::SmallInitial]);
        assert_eq!(warned("cymbidium Red").len(), 2);
    }

    #[test]
    fn a_reserved_word_inside_another_word_is_no_reason_to_warn() {
        assert_eq!(warned("Formosa Groupie"), []);
        assert_eq!(warned("Éclair d'Été"), []);
    }
}
