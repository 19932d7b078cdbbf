//! Passports, the convention on trade in endangered species, and lists as tables.

use velamen_core::lists::List;
use velamen_core::papers::{Appendix, Listing, PassportFault, PassportForm, SourceCode};

pub const PASSPORT: &str = "Pasaporte fitosanitario";
pub const OPERATOR: &str = "Número de registro del operador";
pub const OPERATOR_HINT: &str = "Como te lo dio tu servicio de sanidad vegetal, por ejemplo ES-123456. Sin él no se imprime ningún pasaporte.";
pub const KEEP_OPERATOR: &str = "Guardar el número";
pub const OPERATOR_KEPT: &str = "Número guardado.";
pub const ORIGIN: &str = "Dónde se cultivaron las plantas";
pub const ORIGIN_HINT: &str = "Dos letras del Estado, o el nombre del país; vacío si es el tuyo";
pub const PASSPORT_CAUTION: &str = "Solo un operador autorizado por el servicio de sanidad vegetal puede expedir un pasaporte, y para plantas que se hayan examinado. Qué plantas lo necesitan, y qué más debe decir, lo deciden el servicio y la ley de tu país; van antes que este programa.";

#[must_use]
pub fn form(form: PassportForm) -> &'static str {
    match form {
        PassportForm::None => "Ninguno",
        PassportForm::Eu => "Unión Europea",
        PassportForm::Uk => "Reino Unido",
    }
}

/// The words in the upper right corner, fixed by the law: in the union, in an official language and in English.
#[must_use]
pub fn heading(form: PassportForm) -> &'static str {
    match form {
        PassportForm::Uk => "UK Plant Passport",
        PassportForm::Eu | PassportForm::None => "Pasaporte fitosanitario / Plant Passport",
    }
}

#[must_use]
pub fn passport_fault(fault: PassportFault) -> &'static str {
    match fault {
        PassportFault::NoOperator => "Un pasaporte necesita antes tu número de operador.",
        PassportFault::OperatorForm => {
            "El pasaporte de la Unión pide el número con el Estado delante: dos letras, un guion, el número."
        }
        PassportFault::NoName => {
            "Un pasaporte necesita un nombre botánico, y uno de estos lotes no lo tiene."
        }
        PassportFault::NoCode => {
            "Un pasaporte necesita el código del lote, y uno de estos lotes no lo tiene."
        }
        PassportFault::NoOrigin => "Di dónde se cultivaron las plantas.",
        PassportFault::OriginTooLong => "Dónde se cultivaron las plantas: no más de 60 letras.",
    }
}

/// What goes with one lot.
pub mod lot {
    use super::{Appendix, Listing, SourceCode};

    pub const TITLE: &str = "Papeles";
    pub const LINK: &str = "Papeles que van con él";
    pub const PRINT: &str = "Imprimir";
    pub const NAME: &str = "Nombre";
    pub const CODE: &str = "Lote";
    pub const PLANTS: &str = "Plantas";
    pub const APPENDIX: &str = "Apéndice de CITES";
    pub const SOURCE: &str = "Código de origen";
    pub const WHICH: &str = "Código de origen, según lo que sabes";
    pub const NOT_SAID: &str = "sin decir";
    pub const COMES_FROM: &str = "Viene de";
    pub const NURSERY: &str = "Vivero";
    pub const DAY: &str = "Impreso";
    pub const NO_GENUS: &str = "no se sabe sin un género";
    pub const NO_PERMIT: &str = "Este papel no es un permiso ni un certificado. Lo que un envío necesita antes de cruzar una frontera lo dicen la autoridad CITES y el servicio de sanidad vegetal de ambos países.";
    pub const LOOK_UP: &str = "Las listas cambian: busca el nombre en los apéndices vigentes.";
    pub const HYBRID: &str = "Un híbrido está donde el más estricto de sus progenitores.";
    pub const IF_ANCESTOR: &str =
        "Si entre sus antepasados hay una especie del Apéndice I, está en el Apéndice I.";
    pub const FIRST_HYBRID: &str = "En un híbrido del Apéndice I, la autoridad dice si es A o D.";
    pub const FROM_BOOK: &str = "El libro sabe que estas se criaron aquí.";
    pub const GONE: &str = "Este lote no está en el libro.";

    #[must_use]
    pub fn appendix(listing: &Listing) -> &'static str {
        match listing.appendix {
            Appendix::First => "I",
            Appendix::Second => "II",
        }
    }

    #[must_use]
    pub fn source_code(code: SourceCode) -> &'static str {
        match code {
            SourceCode::A => "A, reproducida artificialmente",
            SourceCode::D => "D, Apéndice I, reproducida con fines comerciales",
            SourceCode::W => "W, tomada del medio silvestre",
        }
    }

    #[must_use]
    pub fn read_in(source: &str) -> String {
        format!("Listado según: {source}.")
    }

    #[must_use]
    pub fn received(how: &str, number: &str) -> String {
        if number.is_empty() {
            how.to_owned()
        } else {
            format!("{how} Número de origen: {number}.")
        }
    }

    #[must_use]
    pub fn divided(on: &str, parents: &str) -> String {
        let on = on_day(on);
        if parents.is_empty() {
            format!("dividido aquí{on}")
        } else {
            format!("dividido aquí{on} de {parents}")
        }
    }

    #[must_use]
    pub fn split(on: &str, from: &str) -> String {
        format!("parte de {from}, separada{}", on_day(on))
    }

    fn on_day(on: &str) -> String {
        if on.is_empty() {
            String::new()
        } else {
            format!(" el {on}")
        }
    }
}

/// The tables.
pub mod lists {
    use super::List;
    use crate::words::format::counted;
    use chrono::NaiveDate;

    pub const TITLE: &str = "Listas";
    pub const WHICH: &str = "Qué lista";
    pub const TABLE: &str = "Guardar como tabla";
    pub const PRINT: &str = "Imprimir";
    pub const EMPTY: &str = "Aún no hay nada en ella.";
    pub const TYPE: &str = "text/csv";
    pub const HINT: &str = "La tabla en papel y la del archivo tienen las mismas líneas.";

    #[must_use]
    pub fn name(list: List) -> &'static str {
        match list {
            List::Stock => "Plantas",
            List::Yields => "Divisiones",
            List::Losses => "Bajas",
        }
    }

    #[must_use]
    pub fn lines(count: usize) -> String {
        counted(i64::try_from(count).unwrap_or(0), "línea", "líneas")
    }

    #[must_use]
    pub fn shown_of(shown: usize, all: usize) -> String {
        format!("{shown} de {all} líneas; el archivo las tiene todas.")
    }

    #[must_use]
    pub fn file_name(list: List, on: NaiveDate) -> String {
        format!("velamen-{}-{on}.csv", list.key())
    }

    #[must_use]
    pub fn written(lines: usize) -> String {
        counted(
            i64::try_from(lines).unwrap_or(0),
            "línea escrita.",
            "líneas escritas.",
        )
    }

    /// A column as a heading; one that has no words here stands by its name, the underscores read as spaces.
    #[must_use]
    pub fn column(name: &str) -> String {
        let known = match name {
            "date" => "fecha",
            "code" => "código",
            "name" => "nombre",
            "kind" => "clase",
            "plants" => "plantas",
            "pots" => "macetas",
            "on_the_bench" => "en la mesa",
            "place" => "lugar",
            "since" => "desde",
            "potted_on" => "último trasplante",
            "pot" => "maceta",
            "mix" => "sustrato",
            "origin" => "procedencia",
            "from" => "de quién",
            "their_number" => "número de origen",
            "in_quarantine" => "en cuarentena",
            "virus_suspect" => "sospechoso de virus",
            "cause" => "causa",
            "place_now" => "lugar actual",
            "note" => "nota",
            "opened" => "abierta",
            "tray" => "bandeja",
            "from_lots" => "de los lotes",
            "unbooked_pots" => "macetas sin anotar",
            "flowering" => "para florecer",
            "starter" => "para crecer",
            "back_bulb" => "bulbos traseros",
            "broken_shoot" => "brotes rotos",
            "keiki" => "hijuelos",
            "thrown" => "desechadas",
            "potted" => "en maceta",
            "into_lots" => "a los lotes",
            "alive_30_days" => "vivas a 30 días",
            "alive_90_days" => "vivas a 90 días",
            "alive_365_days" => "vivas a 365 días",
            "in_stock" => "quedan",
            "sold" => "vendidas",
            "lost" => "bajas",
            "minutes" => "minutos",
            other => return other.replace('_', " "),
        };
        known.to_owned()
    }
}
