//! The record of treatments, in words.

use chrono::NaiveDate;
use velamen_core::record::{Field, Judged};

use super::format::{counted, full_day};

pub const TITLE: &str = "Registro de tratamientos";
pub const RULE: &str = "Se lleva según";
pub const NO_LAW: &str = "Una ayuda, no asesoramiento legal: las normas difieren por lugares y cambian. La etiqueta, las normas locales y, donde se exija, el trabajo con licencia o carné van primero.";
pub const TABLE: &str = "Guardar como tabla";
pub const JSON: &str = "Guardar como JSON";
pub const PRINT: &str = "Imprimirlo";
pub const EMPTY: &str = "Aún no hay ningún tratamiento anotado.";
pub const COMPLETE: &str = "completo";
pub const FILL_IN: &str = "Completar";
pub const REPLACED: &str = "primero decía:";
pub const CHANGED: &str = "El registro se lleva según otra lista.";
pub const OPEN: &str = "Todo el registro: completo o no, como tabla, en papel";
pub const PERSON: &str = "Quién trabaja con este teléfono";
pub const PERSON_HINT: &str = "Va a cada tratamiento que se escribe en él.";
pub const LICENCE: &str = "Número de licencia o carné";
pub const REGISTRATION: &str = "Número de registro del producto";
pub const BATCH: &str = "Partida";
pub const GEAR: &str = "Equipo de protección usado";
pub const WEATHER: &str = "Tiempo que hacía";
pub const DISPOSAL: &str = "Adónde fue el resto";
pub const PLANT_CODE: &str = "Código EPPO de la planta";
pub const PLANT_CODE_HINT: &str = "Si tu norma lo pide y la planta lo tiene.";
pub const GROWTH_STAGE: &str = "Estado de desarrollo (BBCH)";
pub const GROWTH_STAGE_HINT: &str = "Si la autorización vale solo para ciertos estados.";
pub const WITHIN: &str = "Anotar antes de";
pub const MONTHS: &str = "meses";
pub const KEEP: &str = "Guardar durante";
pub const EDIT: &str = "Cambiar esta lista";
pub const EDIT_HINT: &str = "Lo que quiera ver tu región, la etiqueta o el comprador. Horas y meses vacíos son los de la lista.";
pub const EDIT_NUMBERS: &str = "Guardar estos plazos";
pub const NOT_A_NUMBER: &str = "Escribe números enteros, o déjalo vacío.";
pub const ACTIVES: &str = "Materias activas";
pub const ACTIVES_HINT: &str = "Cada una con su contenido: triforine 190 g/L; captan 50 %";
pub const RATE: &str = "Dosis";
pub const AMOUNT: &str = "Producto usado, sin diluir";
pub const AMOUNT_HINT: &str = "Con su unidad: 25 mL, 12 g";
pub const WATER: &str = "Agua";
pub const WATER_HINT: &str = "Con su unidad: 20 L";
pub const START: &str = "Inicio";
pub const END: &str = "Fin";
pub const TIME_HINT: &str = "Así: 14:10";
pub const REENTRY: &str = "Horas hasta la reentrada";
pub const REENTRY_HINT: &str = "Un número entero";
pub const PERSON_THEN: &str = "Quién lo hizo";
pub const CSV_TYPE: &str = "text/csv";
pub const JSON_TYPE: &str = "application/json";

/// Figures that cannot be read, by name.
#[must_use]
pub fn unreadable(fields: &[Field]) -> String {
    let names: Vec<&str> = fields.iter().map(|one| field(*one)).collect();
    format!(
        "No se puede leer como está escrito: {}. Las cantidades van con su unidad, las horas se escriben 14:10.",
        names.join(", ")
    )
}

/// A list of rules by its key.
#[must_use]
pub fn profile(key: &str) -> &'static str {
    match key {
        "us_states" => "EE. UU.: normas de los estados",
        "us_workers" => "EE. UU.: protección de trabajadores",
        "eu" => "UE: fitosanitarios",
        "gb" => "Gran Bretaña",
        "au_nsw" => "Nueva Gales del Sur",
        "au_vic" => "Victoria",
        "au_qld" => "Queensland",
        "au_wa" => "Australia Occidental",
        "au_nt" => "Territorio del Norte",
        "au_states" => "Australia: el estado más estricto",
        _ => "Buena práctica",
    }
}

/// A field by its plain name.
#[must_use]
pub fn field(field: Field) -> &'static str {
    match field {
        Field::Product => "producto",
        Field::Registration => "número de registro",
        Field::Actives => "materias activas",
        Field::Amount => "cantidad de producto",
        Field::Rate => "dosis",
        Field::Water => "cantidad de agua",
        Field::Quantity => "cuántas plantas",
        Field::Crop => "nombres de las plantas",
        Field::Place => "lugar",
        Field::Date => "fecha",
        Field::StartTime => "hora de inicio",
        Field::EndTime => "hora de fin",
        Field::Reentry => "plazo de reentrada",
        Field::Person => "quién lo hizo",
        Field::Licence => "número de licencia o carné",
        Field::UseType => "espacio cerrado o abierto",
        Field::Batch => "partida",
        Field::Target => "contra qué",
        Field::Method => "forma de aplicar",
        Field::Gear => "equipo de protección usado",
        Field::Weather => "tiempo que hacía",
        Field::WindOutdoors => "viento, si se pulverizó al aire libre",
        Field::Disposal => "adónde fue el resto",
        Field::PlantCode => "código EPPO de la planta",
        Field::GrowthStage => "estado de desarrollo",
        Field::Coordinates => "latitud y longitud",
    }
}

/// How many are complete.
#[must_use]
pub fn figure(complete: usize, all: usize) -> String {
    format!("{complete} de {all} completos")
}

/// What a line lacks, or that it lacks nothing.
#[must_use]
pub fn judged(judged: &Judged) -> String {
    let mut said = Vec::new();
    if !judged.missing.is_empty() {
        let fields: Vec<&str> = judged.missing.iter().copied().map(field).collect();
        said.push(format!("falta: {}", fields.join(", ")));
    }
    if let Some(hours) = judged.late_h {
        said.push(format!(
            "anotado {} después",
            counted(hours, "hora", "horas")
        ));
    }
    if said.is_empty() {
        said.push(COMPLETE.to_owned());
    }
    if !judged.where_asked.is_empty() {
        let fields: Vec<&str> = judged.where_asked.iter().copied().map(field).collect();
        said.push(format!("donde se pida: {}", fields.join(", ")));
    }
    said.join("; ")
}

/// How long a line is kept.
#[must_use]
pub fn kept_until(on: NaiveDate) -> String {
    format!("se guarda hasta el {}", full_day(on))
}

/// What the chosen list says of itself.
#[must_use]
pub fn asks(fields: &[Field], within_h: Option<u32>, keep_months: u16) -> String {
    let fields: Vec<&str> = fields.iter().copied().map(field).collect();
    let within = match within_h {
        Some(hours) if hours % 24 == 0 => {
            format!(
                "en un plazo de {}",
                counted(i64::from(hours / 24), "día", "días")
            )
        }
        Some(hours) => format!(
            "en un plazo de {}",
            counted(i64::from(hours), "hora", "horas")
        ),
        None => "sin demora".to_owned(),
    };
    format!(
        "Pide: {}. Se anota {within} y se guarda {}.",
        fields.join(", "),
        counted(i64::from(keep_months), "mes", "meses")
    )
}

/// Where the list is from.
#[must_use]
pub fn source(source: &str, as_of: &str) -> String {
    format!("De: {source}. Leído: {as_of}.")
}

/// Name of a file of the record.
#[must_use]
pub fn file_name(today: NaiveDate, ending: &str) -> String {
    format!("tratamientos-{today}.{ending}")
}

/// That a file was written.
#[must_use]
pub fn written(rows: usize) -> String {
    let rows = i64::try_from(rows).unwrap_or(i64::MAX);
    format!("Un archivo con {}.", counted(rows, "línea", "líneas"))
}
