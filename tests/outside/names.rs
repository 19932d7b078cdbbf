//! Names, held against rules of the codes and published examples.

use crate::sheet::{Row, check_each};
use velamen_core::label_sheet::name_words;
use velamen_core::name::{Formula, Infraspecific, PlantName, Qualifier, epithet_warnings};

fn equal(ours: &str, theirs: &str) -> Result<(), String> {
    if ours == theirs {
        Ok(())
    } else {
        Err(format!("{ours:?} against {theirs:?}"))
    }
}

#[test]
fn epithets_warn_where_the_code_refuses_them() {
    check_each("h_epithet_rules.csv", |row| {
        let warnings = epithet_warnings(row.text("epithet"), Some("Cymbidium"));
        if warnings.is_empty() == (row.text("valid") == "1") {
            Ok(())
        } else {
            Err(format!("{}: {warnings:?}", row.text("epithet")))
        }
    });
}

#[test]
fn typed_names_are_put_in_order() {
    check_each("h_name_normalise.csv", |row| {
        let name = PlantName::from_typed(row.text("input"));
        equal(name.note.as_deref().unwrap_or(""), "")?;
        equal(&name.plain(), row.text("expected"))
    });
}

/// The parts of a name as this sheet writes them.
fn fields(json: &serde_json::Value) -> PlantName {
    let text = |key: &str| json.get(key).and_then(|v| v.as_str()).map(String::from);
    let notho = text("notho");
    let is_notho = |rank: &str| notho.as_deref() == Some(rank);
    let open = text("species").filter(|species| species == "sp.");
    let qualifier = match text("qualifier").or_else(|| open.clone()).as_deref() {
        Some("cf.") => Some(Qualifier::Cf),
        Some("aff.") => Some(Qualifier::Aff),
        Some("sp.") => Some(Qualifier::Sp),
        _ => None,
    };
    let parents = json.get("formula").and_then(|v| v.as_array());
    PlantName {
        genus: text("genus"),
        genus_hybrid: is_notho("genus"),
        qualifier,
        species: text("species").filter(|_| open.is_none()),
        species_hybrid: is_notho("species"),
        infraspecific: below(text("rank"), text("infra")),
        grex: text("grex"),
        grex_sign: json.get("grex_marker").is_some(),
        group: text("group"),
        cultivar: text("cultivar"),
        formula: parents.map(|parents| {
            let parent = |at: usize| {
                Box::new(PlantName::from_typed(
                    parents[at].as_str().expect("a parent's name"),
                ))
            };
            Formula {
                pod: parent(0),
                pollen: parent(1),
            }
        }),
        ..PlantName::default()
    }
}

fn below(rank: Option<String>, epithet: Option<String>) -> Vec<Infraspecific> {
    let (Some(rank), Some(epithet)) = (rank, epithet) else {
        return Vec::new();
    };
    let typed = PlantName::from_typed(&format!("Genus species {rank} {epithet}"));
    typed.infraspecific
}

fn italics(name: &PlantName) -> String {
    name.runs()
        .into_iter()
        .map(|run| match run.italic {
            true => format!("<i>{}</i>", run.text),
            false => run.text,
        })
        .collect()
}

fn printed_as_published(row: &Row) -> Result<(), String> {
    let json = serde_json::from_str(row.text("structured_json")).map_err(|why| why.to_string())?;
    let name = fields(&json);
    equal(&name.plain(), row.text("plain"))?;
    equal(&italics(&name), row.text("html_italics"))
}

/// A label puts a name together from words: the same letters, each leaning or standing as published.
fn on_a_label(row: &Row) -> Result<(), String> {
    let json = serde_json::from_str(row.text("structured_json")).map_err(|why| why.to_string())?;
    let words = name_words(&fields(&json));
    let plain: Vec<String> = words
        .iter()
        .map(|word| word.iter().map(|part| part.text.as_str()).collect())
        .collect();
    equal(&plain.join(" ").replace('\u{a0}', " "), row.text("plain"))?;
    let faces = |html: &str| {
        let mut lean = false;
        let mut letters = Vec::new();
        for piece in html.split_inclusive('>') {
            let text = piece.strip_suffix("<i>").or(piece.strip_suffix("</i>"));
            letters.extend(
                text.unwrap_or(piece)
                    .chars()
                    .filter(|letter| *letter != ' ')
                    .map(|letter| (letter, lean)),
            );
            lean = piece.ends_with("<i>");
        }
        letters
    };
    let ours: Vec<(char, bool)> = words
        .iter()
        .flatten()
        .flat_map(|part| part.text.chars().map(|letter| (letter, part.italic)))
        .filter(|(letter, _)| *letter != '\u{a0}')
        .collect();
    if ours == faces(row.text("html_italics")) {
        Ok(())
    } else {
        Err(format!("{ours:?} against {}", row.text("html_italics")))
    }
}

#[test]
fn labels_write_names_as_the_codes_do() {
    check_each("h_name_format.csv", on_a_label);
}

#[test]
fn names_print_as_the_codes_write_them() {
    check_each("h_name_format.csv", printed_as_published);
}
