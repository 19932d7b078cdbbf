//! Where the figures come from, in words.

use velamen_core::reference::labour::Work;
use velamen_core::view::origins::{Assumed, Row, Table};

use super::format::decimal;
use super::{book, shed};

pub const TITLE: &str = "Where the figures come from";
pub const HINT: &str = "Every figure the program brings along, with its source. All of them are a beginning: what you change in the book goes before them.";
pub const CAUTIONS: &str = "Cautions at the bench";
pub const CAUTIONS_HINT: &str = "These are common practice, no source.";
pub const CHEMISTRY: &str = "The cautions of the Treat room are common practice, no source, wherever they name none. The label and local rules come first, always.";

#[must_use]
pub fn table(table: Table) -> &'static str {
    match table {
        Table::Groups => "Groups of plants",
        Table::Components => "What goes into a mix",
        Table::Pots => "Pots",
        Table::PrintedLitres => "Litres printed for pots",
        Table::ContainerClasses => "Container classes",
        Table::Protocols => "Protocols",
        Table::Sanitizers => "What disinfects",
        Table::Units => "Units",
        Table::Actives => "Active ingredients",
        Table::Never => "Never together",
        Table::Airing => "Airing after a spray",
        Table::Courses => "Roots, rest and cool nights",
        Table::Thirst => "Days between waterings, and feed",
        Table::Assumed => "Assumed where you have not said",
        Table::Sheets => "Sheets of labels",
        Table::Appendix => "CITES Appendix I",
        Table::Labour => "Minutes at the bench",
        Table::Spacing => "From growth to growth",
        Table::Classes => "How many live, and when they sell",
    }
}

/// One row by the name it is known under.
#[must_use]
pub fn row(row: &Row) -> String {
    match row {
        Row::Group { group, genera } => {
            let name = apart(&format!("{group:?}"));
            let others = genera.iter().filter(|genus| **genus != name);
            let others: Vec<&str> = others.copied().collect();
            if others.is_empty() {
                name
            } else {
                format!("{name} ({})", others.join(", "))
            }
        }
        Row::Component(key) => shed::component(key),
        Row::Pot([top, base, height]) => format!("{top} / {base} / {height} mm"),
        Row::Width { mm } => format!("{mm} mm"),
        Row::Class(class) => (*class).to_owned(),
        Row::Protocol(key) => book::protocol(key),
        Row::Unit(name) | Row::Active(name) => (*name).to_owned(),
        Row::Pair(pair) => super::mixing::pair_in_short(pair),
        Row::Airing(how) => super::apply::airing(*how),
        Row::Sheet(key) => super::labels::preset(key).to_owned(),
        Row::Listed(genus, None) => (*genus).to_owned(),
        Row::Listed(genus, Some(species)) => format!("{genus} {species}"),
        Row::Sanitizer(key) => super::clean::agent(key),
        Row::Cleaned(object) => super::clean::object(*object).to_owned(),
        Row::Assumed(Assumed::Settling { permille }) => {
            format!("{} % of loose mix lost to settling", permille / 10)
        }
        Row::Assumed(Assumed::StoneLayer { percent }) => {
            format!("a stone layer of {percent} % of the pot's height")
        }
        Row::Assumed(Assumed::MixLife { months }) => format!("a mix holds {months} months"),
        Row::Labour(it) => format!(
            "{}: {} min, {} to {}",
            work(it.work),
            tenths(it.tenths),
            tenths(it.low),
            tenths(it.high)
        ),
        Row::Spacing(group, (from, to)) => {
            format!("{}: {from} to {to} mm", apart(&format!("{group:?}")))
        }
        Row::PieceClass(it) => format!(
            "{}: {} to {} of 100 live, to sell after {} to {} months",
            super::trade::class(it.class),
            it.alive_pct.0,
            it.alive_pct.1,
            it.months.0,
            it.months.1
        ),
    }
}

/// Tenths of a minute: "1.5".
fn tenths(tenths: u32) -> String {
    decimal(i64::from(tenths), 1)
}

/// A piece of work at the bench.
fn work(work: Work) -> &'static str {
    match work {
        Work::StripLitre => "knock out and strip, a litre of pot",
        Work::DividePot => "divide what filled a pot of 15 to 20 cm",
        Work::CleanPiece => "clean a piece",
        Work::ToolChange => "change the tool",
        Work::PotPiece => "pot a piece",
        Work::PotOn => "pot on, no cleaning",
        Work::SetInMoss => "set a back-bulb in moss",
        Work::Label => "write a label",
        Work::WashPot => "wash and disinfect a pot",
        Work::WashStone => "wash ten litres of stone",
    }
}

/// A group's name with its words apart: "Dendrobium nobile".
fn apart(name: &str) -> String {
    let mut apart = String::new();
    for letter in name.chars() {
        if letter.is_uppercase() && !apart.is_empty() {
            apart.push(' ');
            apart.extend(letter.to_lowercase());
        } else {
            apart.push(letter);
        }
    }
    if apart == "Other" {
        "Any other orchid".to_owned()
    } else {
        apart
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use velamen_core::view::origins::origins;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn every_row_has_a_name_a_grower_can_read() {
        for table in Table::ALL {
            for origin in origins(table) {
                for of in &origin.rows {
                    let name = row(of);
                    assert!(!name.is_empty() && !name.contains('_'), "{name}");
                }
            }
        }
        assert_eq!(apart("DendrobiumNobile"), "Dendrobium nobile");
    }
}
