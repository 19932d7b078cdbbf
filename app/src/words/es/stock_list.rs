//! A stock list from elsewhere in words: its columns, what it comes to, what of it is not taken and why.

use chrono::NaiveDate;
use velamen_core::rejection::{Input, Rejection};
use velamen_core::stock_list::{Comes, Holds, Listed, RowFault};

use super::format::{full_day, many, short_day};
use super::{rejection, trade};

pub const TITLE: &str = "Una lista que tienes";
pub const LINK: &str = "De una lista que tienes";
pub const HINT: &str = "Una tabla con una fila por lote, guardada como CSV o texto. Primero se muestra lo que hay en ella; nada entra en el libro hasta que tocas.";
pub const COLUMNS: &str = "Qué llevan sus columnas";
pub const HEADED: &str = "La primera fila nombra las columnas";
pub const SIZES: &str = "Qué quieren decir sus tamaños";
pub const NO_SIZE: &str = "Sin decir";
pub const COMES_TO: &str = "En qué queda";
pub const AGAIN: &str = "Recibir otra vez lo que ya está en el libro";

/// What a column holds.
#[must_use]
pub fn holds(holds: Holds) -> &'static str {
    match holds {
        Holds::Nothing => "Dejarla fuera",
        Holds::Name => "Nombre, o una parte",
        Holds::Plants => "Cuántas plantas",
        Holds::Pots => "Cuántas macetas o bandejas",
        Holds::Place => "Lugar",
        Holds::Potted => "Último trasplante",
        Holds::Size => "Tamaño",
        Holds::Number => "Número antiguo",
        Holds::From => "De quién",
        Holds::Note => "Nota",
    }
}

/// A column by its head, or by its place where the first row is none.
#[must_use]
pub fn column(head: Option<&str>, at: usize) -> String {
    match head.filter(|head| !head.is_empty()) {
        Some(head) => cut(head),
        None => format!("Columna {}", at + 1),
    }
}

/// What stands in a column.
#[must_use]
pub fn sample(cells: &[&str]) -> String {
    cells
        .iter()
        .map(|cell| cut(cell))
        .collect::<Vec<_>>()
        .join(", ")
}

/// The main key.
#[must_use]
pub fn take(lots: usize) -> String {
    format!("Recibir {}", many(lots, "lote", "lotes"))
}

/// That they are in the book.
#[must_use]
pub fn taken(lots: usize) -> String {
    format!("{} de la lista", many(lots, "lote", "lotes"))
}

/// What the list comes to, a sentence each.
#[must_use]
pub fn comes_to(comes: &Comes) -> Vec<String> {
    if comes.lots.is_empty() {
        return vec!["Con estas columnas no se puede leer ningún lote.".to_owned()];
    }
    let mut said = vec![format!(
        "{} con {} plantas.",
        many(comes.lots.len(), "lote", "lotes"),
        comes.plants
    )];
    match comes.new_places.as_slice() {
        [] => {}
        places => {
            let named: Vec<String> = places.iter().take(6).map(|name| cut(name)).collect();
            let more = places.len().saturating_sub(named.len());
            let more = if more > 0 {
                format!(" y {more} más")
            } else {
                String::new()
            };
            said.push(format!(
                "{} al final del recorrido: {}{more}.",
                many(
                    places.len(),
                    "lugar nuevo se pondrá",
                    "lugares nuevos se pondrán"
                ),
                named.join(", ")
            ));
        }
    }
    if comes.counted_one > 0 {
        said.push(format!(
            "{} número: una planta en cada fila.",
            many(comes.counted_one, "fila sin", "filas sin")
        ));
    }
    if comes.left_over > 0 {
        said.push(format!(
            "{} son el máximo de una vez: elige luego otra vez el archivo, y siguen las {} restantes.",
            comes.lots.len(),
            comes.left_over
        ));
    }
    said
}

/// A lot as it would stand in the book.
#[must_use]
pub fn lot(lot: &Listed, today: NaiveDate) -> String {
    let mut said = vec![
        trade::name_plain(&lot.name),
        trade::plants_in_pots(i64::from(lot.plants), i64::from(lot.stands)),
    ];
    said.extend(lot.place.as_deref().map(cut));
    said.extend(lot.class.map(|class| trade::class(class).to_owned()));
    said.extend(
        lot.potted_on
            .map(|on| format!("en maceta desde el {}", short_day(on, today))),
    );
    if !lot.number.is_empty() {
        said.push(format!("número antiguo {}", cut(&lot.number)));
    }
    said.join(" · ")
}

/// How many more there are than are shown.
#[must_use]
pub fn and_more(more: usize) -> String {
    format!("Y {more} más.")
}

/// How many rows were refused.
#[must_use]
pub fn refused_count(count: usize) -> String {
    format!(
        "{}, y por qué",
        many(count, "fila no se recibe", "filas no se reciben")
    )
}

/// A refused row.
#[must_use]
pub fn refused(line: usize, why: &RowFault) -> String {
    let why = match why {
        RowFault::SaysNothing => "no lleva nombre, ni número, ni cuántas.".to_owned(),
        RowFault::NotACount { text } => format!("«{}» no dice cuántas.", cut(text)),
        RowFault::None => "no queda ninguna.".to_owned(),
        RowFault::TooMany { most } => format!("{most} es el máximo para un lote."),
        RowFault::NotADay { text } => {
            format!("«{}» no es un día. Basta un mes o un año solo.", cut(text))
        }
        RowFault::DayOutOfRange { on } => {
            format!("el {} no puede ser su último trasplante.", full_day(*on))
        }
        RowFault::Text { holds, fault } => {
            let input = if *holds == Holds::Note {
                Input::Note
            } else {
                Input::Text
            };
            let fault = *fault;
            rejection::say(&Rejection::BadText { input, fault })
        }
        RowFault::Name(fault) => rejection::say(&Rejection::BadName(*fault)),
        RowFault::InTheBook => "este nombre, lugar y número ya están en el libro.".to_owned(),
    };
    format!("Línea {line}: {why}")
}

/// A cell short enough for a sentence.
fn cut(text: &str) -> String {
    text.chars()
        .take(40)
        .map(|sign| if sign == '\n' { ' ' } else { sign })
        .collect()
}
