//! Where the figures come from, in words.

use velamen_core::reference::labour::Work;
use velamen_core::view::origins::{Assumed, Row, Table};

use super::format::decimal;
use super::{book, shed};

pub const TITLE: &str = "De dónde salen las cifras";
pub const HINT: &str = "Todas las cifras que trae el programa, con su fuente. Todas son un comienzo: lo que cambies en el libro va antes que ellas.";
pub const CAUTIONS: &str = "Avisos en la mesa";
pub const CAUTIONS_HINT: &str = "Son práctica común, sin fuente.";
pub const CHEMISTRY: &str = "Los avisos de Tratar son práctica común, sin fuente, donde no nombran ninguna. La etiqueta y las normas locales van primero, siempre.";

#[must_use]
pub fn table(table: Table) -> &'static str {
    match table {
        Table::Groups => "Grupos de plantas",
        Table::Components => "Qué entra en un sustrato",
        Table::Pots => "Macetas",
        Table::PrintedLitres => "Litros impresos de macetas",
        Table::ContainerClasses => "Clases de contenedores",
        Table::Protocols => "Protocolos",
        Table::Sanitizers => "Qué desinfecta",
        Table::Units => "Unidades",
        Table::Actives => "Materias activas",
        Table::Never => "Nunca juntos",
        Table::Airing => "Ventilación tras una pulverización",
        Table::Courses => "Raíces, reposo y noches frescas",
        Table::Thirst => "Días entre riegos, y abono",
        Table::Assumed => "Supuesto donde no has dicho nada",
        Table::Sheets => "Hojas de etiquetas",
        Table::Appendix => "Apéndice I de CITES",
        Table::Labour => "Minutos en la mesa",
        Table::Spacing => "De brote a brote",
        Table::Classes => "Cuántas viven, y cuándo se venden",
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
            format!(
                "{} % del sustrato suelto que se pierde al asentarse",
                permille / 10
            )
        }
        Row::Assumed(Assumed::StoneLayer { percent }) => {
            format!("una capa de piedra del {percent} % del alto de la maceta")
        }
        Row::Assumed(Assumed::MixLife { months }) => format!("un sustrato aguanta {months} meses"),
        Row::Labour(it) => format!(
            "{}: {} min, de {} a {}",
            work(it.work),
            tenths(it.tenths),
            tenths(it.low),
            tenths(it.high)
        ),
        Row::Spacing(group, (from, to)) => {
            format!("{}: de {from} a {to} mm", apart(&format!("{group:?}")))
        }
        Row::PieceClass(it) => format!(
            "{}: viven de {} a {} de cada 100; para vender, de {} a {} meses después",
            super::trade::class(it.class),
            it.alive_pct.0,
            it.alive_pct.1,
            it.months.0,
            it.months.1
        ),
    }
}

/// Tenths of a minute: "1,5".
fn tenths(tenths: u32) -> String {
    decimal(i64::from(tenths), 1)
}

/// A piece of work at the bench.
fn work(work: Work) -> &'static str {
    match work {
        Work::StripLitre => "sacar y limpiar de sustrato, un litro de maceta",
        Work::DividePot => "dividir lo que llenaba una maceta de 15 a 20 cm",
        Work::CleanPiece => "limpiar una pieza",
        Work::ToolChange => "cambiar de herramienta",
        Work::PotPiece => "poner una pieza en maceta",
        Work::PotOn => "cambiar de maceta, sin limpiar",
        Work::SetInMoss => "poner un bulbo trasero en musgo",
        Work::Label => "escribir una etiqueta",
        Work::WashPot => "lavar y desinfectar una maceta",
        Work::WashStone => "lavar diez litros de piedra",
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
        "Cualquier otra orquídea".to_owned()
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
