use super::*;
use proptest::prelude::*;
use std::collections::BTreeMap;

fn split_to(typed: &str) -> (String, String) {
    let name = PlantName::from_typed(typed);
    (name.plain(), name.note.unwrap_or_default())
}

fn assert_split(typed: &str, plain: &str, note: &str) {
    assert_eq!(split_to(typed), (plain.into(), note.into()), "{typed:?}");
}

#[test]
fn a_capital_second_word_is_a_grex_and_keeps_its_capital() {
    let name = PlantName::from_typed("Cymbidium Sinense 'Pale Cup'");
    assert_eq!(name.species, None);
    assert_eq!(name.grex.as_deref(), Some("Sinense"));
    assert_eq!(name.cultivar.as_deref(), Some("Pale Cup"));
    let name = PlantName::from_typed("cymbidium sinense");
    assert_eq!(name.genus.as_deref(), Some("Cymbidium"));
    assert_eq!(name.species.as_deref(), Some("sinense"));
    assert_eq!(name.grex, None);
}

#[test]
fn a_letter_x_is_a_sign_between_names_but_xylobium_keeps_its_own() {
    assert_split("Dendrobium X delicatum", "Dendrobium × delicatum", "");
    assert_split("xBrassocattleya", "× Brassocattleya", "");
    assert_split("XBrassocattleya Dawn", "× Brassocattleya Dawn", "");
    assert_split("Xylobium squalens", "Xylobium squalens", "");
    assert_split("XYLOBIUM squalens", "Xylobium squalens", "");
    assert_split(
        "Polypodium vulgare subsp. x mantoniae",
        "Polypodium vulgare nothosubsp. mantoniae",
        "",
    );
}

#[test]
fn a_cross_is_split_into_its_parents() {
    let name = PlantName::from_typed("Cattleya labiata 'Dusk' x C. warneri");
    let formula = name.formula.unwrap();
    assert_eq!(formula.pod.cultivar.as_deref(), Some("Dusk"));
    assert_eq!(formula.pollen.genus.as_deref(), Some("C."));
    assert_split(
        "Cymbidium tracyanum × lowianum",
        "Cymbidium tracyanum × lowianum",
        "",
    );
    assert_split(
        "Pleione El Pico x Pleione Shantung (4n)",
        "Pleione El Pico × Pleione Shantung",
        "(4n)",
    );
}

#[test]
fn quotes_of_every_kind_hold_a_cultivar() {
    for typed in [
        "Vanda 'Pale Cup'",
        "Vanda ‘Pale Cup’",
        "Vanda \"Pale Cup\"",
        "Vanda “Pale  Cup”",
        "Vanda 'Pale Cup",
        "Vanda cv. Pale Cup",
    ] {
        assert_split(typed, "Vanda 'Pale Cup'", "");
    }
    assert_split(
        "Sarracenia 'Vintner's Treasure'",
        "Sarracenia 'Vintner's Treasure'",
        "",
    );
    assert_split(
        "Vanda 'Dancers' Choice' AM",
        "Vanda 'Dancers' Choice'",
        "AM",
    );
    assert_split("Vanda 'One' 'Two'", "Vanda 'One'", "'Two'");
}

#[test]
fn what_does_not_fit_stays_as_a_note() {
    assert_split(
        "Vanda coerulea alba 6\" pot",
        "Vanda coerulea",
        "alba 6\" pot",
    );
    assert_split(
        "Vanda Morning Mist from shed",
        "Vanda Morning Mist",
        "from shed",
    );
    assert_split("Vanda coerulea Pale Cup", "Vanda coerulea", "Pale Cup");
    assert_split(
        "Vanda a x Vanda b x Vanda c",
        "Vanda",
        "a x Vanda b x Vanda c",
    );
    assert_split(
        "Cattleya (labiata x warneri)",
        "Cattleya",
        "(labiata x warneri)",
    );
    assert_split(
        "white one from the old house",
        "",
        "white one from the old house",
    );
    assert_split("noid", "", "noid");
    assert_split("123", "", "123");
    assert_split("шафран 🌱 שלום", "", "шафран 🌱 שלום");
    assert_split(" \t ", "", "");
}

#[test]
fn a_question_mark_after_the_name_means_to_confirm_in_flower() {
    let name = PlantName::from_typed("Vanda coerulea ?");
    assert!(name.to_confirm);
    assert_eq!((name.plain().as_str(), name.note), ("Vanda coerulea", None));
    assert!(!PlantName::from_typed("Vanda coerulea").to_confirm);
}

#[test]
fn a_line_too_long_for_a_name_is_kept_whole() {
    let fits = "Vanda ".to_owned() + &"B".repeat(TYPED_MAX - 6);
    assert!(!PlantName::from_typed(&fits).is_unnamed());
    let long = fits + "B";
    assert_eq!(PlantName::from_typed(&long).note, Some(long));
}

/// Words that are signs of form, written anew when printed.
const SIGNS: &[&str] = &[
    "x",
    "cv",
    "gx",
    "grex",
    "group",
    "gp",
    "forma",
    "form",
    "fo",
    "fma",
    "variety",
    "varietas",
    "subspec",
    "subspecies",
    "subforma",
    "ssp",
    "notho",
    "nothoform",
    "nothoforma",
    "nothofo",
    "nothofma",
    "nothovariety",
    "nothovarietas",
    "nothossp",
    "nothosubspecies",
    "nothosubspec",
    "nothosubforma",
];

/// How often each letter or digit stands in a text, signs of form left out.
fn letters(text: &str) -> BTreeMap<char, usize> {
    let mut letters = BTreeMap::new();
    let words = text.split_whitespace().filter(|word| {
        let bare: String = word.chars().filter(|c| c.is_alphanumeric()).collect();
        !SIGNS.iter().any(|sign| bare.eq_ignore_ascii_case(sign))
    });
    for c in words.flat_map(str::chars).flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            *letters.entry(c).or_default() += 1;
        }
    }
    letters
}

fn assert_nothing_lost(typed: &str) -> Result<(), TestCaseError> {
    let (plain, note) = split_to(typed);
    // A sign taken off the front of a word is the one letter that is written differently.
    let kept = letters(&format!("{plain} {note}").replace('×', "x"));
    for (c, count) in letters(typed) {
        let signs = usize::from(c == 'x');
        let kept = kept.get(&c).copied().unwrap_or(0) + signs;
        prop_assert!(
            kept >= count,
            "{c} lost from {typed:?}: {plain:?} and {note:?}"
        );
    }
    Ok(())
}

proptest! {
    #[test]
    fn no_letter_of_any_line_is_lost(typed in "\\PC{0,60}") {
        assert_nothing_lost(&typed)?;
    }

    #[test]
    fn no_letter_of_a_line_of_name_like_words_is_lost(words in prop::collection::vec(
        prop::sample::select(vec![
            "Vanda", "vanda", "Den.", "xVanda", "coerulea", "Mist", "of", "x", "×", "X", "×alba", "var.", "ssp", "f.",
            "subsp.", "nothovar.", "'Pale", "Cup'", "'One'", "'", "Dancers'", "\"Two\"", "\"", "cv.", "gx", "grex",
            "Group", "(4n)", "#3", "?", "cf.", "sp.", "aff", "6\"", "AM/AOS", "Xylobium",
        ]), 0..10,
    )) {
        let typed = words.join(" ");
        assert_nothing_lost(&typed)?;
    }

    #[test]
    fn a_printed_name_typed_again_prints_the_same(
        species in "[a-z]{5,9}ense", grex in "[A-Z][a-z]{3,8}", cultivar in "[A-Z][a-z]{1,8}( [A-Z][a-z]{1,8})?",
        kind in 0..4,
    ) {
        let typed = match kind {
            0 => format!("Cymbidium {species} '{cultivar}'"),
            1 => format!("Cymbidium {grex} '{cultivar}'"),
            2 => format!("Cymbidium × {species} var. {species}"),
            _ => format!("Cymbidium {species} × Cymbidium {grex} '{cultivar}'"),
        };
        prop_assert_eq!(split_to(&typed), (typed.clone(), String::new()));
    }
}
