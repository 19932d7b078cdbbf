use super::*;
use crate::event::AgentClass::*;

fn typed(name: &str, codes: &[&str]) -> ActiveCopy {
    ActiveCopy {
        name: name.to_owned(),
        codes: codes.iter().map(|code| (*code).to_owned()).collect(),
        ..ActiveCopy::default()
    }
}

fn said(codes: &[Code]) -> Vec<String> {
    codes.iter().map(ToString::to_string).collect()
}

#[test]
fn an_active_is_found_however_the_label_writes_it() {
    for (label, row) in [
        ("TRIFORINE", "triforine"),
        ("Thiophanate methyl", "thiophanate-methyl"),
        ("thiophanatemethyl", "thiophanate-methyl"),
        ("propamocarb hydrochloride", "propamocarb"),
        ("Propamocarb-HCl", "propamocarb"),
        ("Fosetyl-Aluminum", "fosetyl-Al"),
        ("fosetyl aluminium", "fosetyl-Al"),
        ("fosetyl Al", "fosetyl-Al"),
        ("Sulphur", "sulfur"),
        ("copper (II) hydroxide", "copper"),
        ("copper sulphate pentahydrate", "copper"),
        (
            "fatty acids, potassium salts",
            "potassium salts of fatty acids",
        ),
        ("potassium bicarbonate", "potassium bicarbonate"),
        ("mefenoxam", "metalaxyl-M"),
        ("metalaxyl m", "metalaxyl-M"),
        ("metalaxyl", "metalaxyl"),
        ("streptomycin sulfate", "streptomycin"),
        ("Metil-tiofanato", "thiophanate-methyl"),
        ("Fosetil-Al", "fosetyl-Al"),
        ("Oxicloruro de cobre", "copper"),
        ("HIDROXIDO DE COBRE", "copper"),
        ("jabón potásico", "potassium salts of fatty acids"),
    ] {
        assert_eq!(find(label).map(|found| found.name), Some(row), "{label}");
    }
    assert_eq!(find(""), None);
    assert_eq!(find("water"), None);
    assert_eq!(find("hydrochloride"), None);
}

#[test]
fn no_two_rows_answer_to_one_name_and_each_says_where_it_was_read() {
    let mut names = BTreeSet::new();
    for row in all() {
        for name in super::names(row) {
            assert!(names.insert(folded(name)), "{name} twice");
            assert_eq!(find(name).map(|found| found.name), Some(row.name), "{name}");
        }
        for source in [row.origin, row.acts_origin, row.minding_origin] {
            assert!(!source.is_empty(), "{}", row.name);
        }
        for code in row.codes {
            let read = Code::read(code).expect("a code");
            assert_eq!(read.to_string(), *code, "one spelling in the table");
            assert!(read.list.is_some());
        }
    }
    assert!(all().count() > 85);
}

#[test]
fn every_spanish_name_is_of_a_row() {
    for (name, row) in super::spanish::NAMES {
        assert_eq!(find(name).map(|found| found.name), Some(*row), "{name}");
    }
    assert!(super::spanish::NAMES.len() > 90);
}

#[test]
fn insecticides_have_no_risk_because_their_list_gives_none() {
    for row in pests::ROWS {
        assert_eq!(row.risk, None, "{}", row.name);
    }
}

#[test]
fn a_dmi_does_not_reach_black_rot_and_a_phosphonate_does() {
    let triforine = acts_on(&[typed("Triforine", &[])]);
    assert_eq!(triforine.acts_on(WaterMould), Some(false));
    assert_eq!(triforine.acts_on(Fungus), Some(true));
    let phosphonate = acts_on(&[typed("potassium phosphonate", &[])]);
    assert_eq!(phosphonate.acts_on(WaterMould), Some(true));
    assert_eq!(phosphonate.acts_on(Fungus), Some(false));
    let strobilurin = acts_on(&[typed("azoxystrobin", &[])]);
    assert!(strobilurin.partly.contains(&WaterMould));
    for agent in AgentClass::ALL {
        let reached =
            all().filter(|row| row.acts_on.contains(&agent) || row.partly_on.contains(&agent));
        assert_eq!(
            reached.count() == 0,
            matches!(agent, Virus | Culture | Unknown)
        );
    }
}

#[test]
fn two_actives_reach_what_either_does() {
    let both = acts_on(&[typed("triforine", &[]), typed("metalaxyl-M", &[])]);
    assert_eq!(both.acts_on(Fungus), Some(true));
    assert_eq!(both.acts_on(WaterMould), Some(true));
    assert_eq!(both.acts_on(Mite), Some(false));
}

#[test]
fn an_active_nobody_knows_is_not_judged_unless_the_label_gives_its_code() {
    let unknown = acts_on(&[typed("a new one", &[])]);
    assert_eq!(unknown.acts_on(Fungus), None);
    assert_eq!(unknown.unknown, ["a new one"]);
    let coded = acts_on(&[typed("a new one", &["FRAC 3"])]);
    assert_eq!(coded.acts_on(Fungus), Some(true));
    assert_eq!(coded.acts_on(WaterMould), Some(false));
    // A bare number may be of either list: 3 would be a pyrethroid elsewhere.
    assert_eq!(acts_on(&[typed("a new one", &["3"])]).acts_on(Fungus), None);
    assert_eq!(acts_on(&[]).acts_on(Fungus), None);
}

#[test]
fn the_code_on_the_label_goes_before_the_table() {
    assert_eq!(said(&codes(&typed("triforine", &[]))), ["FRAC 3"]);
    assert_eq!(said(&codes(&typed("triforine", &["FRAC 49"]))), ["FRAC 49"]);
    assert_eq!(said(&codes(&typed("triforine", &["3"]))), ["FRAC 3"]);
    assert_eq!(
        said(&codes(&typed("imidacloprid", &["Group 4A"]))),
        ["IRAC 4A"]
    );
    assert_eq!(said(&codes(&typed("a new one", &["7"]))), ["7"]);
    assert!(codes(&typed("a new one", &[])).is_empty());
}

#[test]
fn a_code_has_one_spelling() {
    let read = |text: &str| Code::read(text).map(|code| code.to_string());
    for text in ["FRAC M01", "frac m1", "M 01", "FRAC code M1", "m01"] {
        assert_eq!(read(text).as_deref(), Some("FRAC M01"), "{text}");
    }
    assert_eq!(read("FRAC 33").as_deref(), Some("FRAC P07"));
    assert_eq!(read("P7").as_deref(), Some("FRAC P07"));
    assert_eq!(read("BM 2").as_deref(), Some("FRAC BM02"));
    assert_eq!(read("4a").as_deref(), Some("IRAC 4A"));
    assert_eq!(read("irac 28").as_deref(), Some("IRAC 28"));
    assert_eq!(read("UNM").as_deref(), Some("IRAC UNM"));
    assert_eq!(read("03").as_deref(), Some("3"));
    for text in ["", "  ", "Group", "FRAC", "🌱"] {
        assert_eq!(read(text), None, "{text}");
    }
}

#[test]
fn a_neighbour_by_letter_is_no_change_and_a_number_of_the_other_list_is() {
    let code = |text: &str| Code::read(text).expect("a code");
    assert!(code("IRAC 4A").same_group(&code("IRAC 4D")));
    assert!(!code("IRAC 4A").same_group(&code("FRAC 4")));
    assert!(!code("FRAC M01").same_group(&code("FRAC M05")));
    assert!(code("3").same_group(&code("FRAC 3")));
    assert!(!code("FRAC 3").same_group(&code("FRAC 11")));
    assert!(!code("IRAC UN").same_group(&code("IRAC UNM")));
}

#[test]
fn what_is_typed_finds_names_that_begin_with_it_first() {
    let names = |typed: &str| -> Vec<&str> { like(typed, 4).iter().map(|row| row.name).collect() };
    assert_eq!(
        names("tri"),
        ["triforine", "triflumizole", "trifloxystrobin", "copper"]
    );
    assert_eq!(names("copper ox"), ["copper"]);
    assert!(names("").is_empty());
}
