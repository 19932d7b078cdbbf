//! Labels, the sheets they are printed on, and finding a lot by what stands on one.

use chrono::NaiveDate;
use velamen_core::code::CodeFault;
use velamen_core::label_sheet::{Caution, SheetFault, SheetField};
use velamen_core::time::{civil_day, minute_of_day};

use super::format::{clock, counted, full_day, millimetres};

pub const TITLE: &str = "Etiquetas";
pub const WHICH: &str = "Qué lotes";
pub const SEARCH: &str = "Añadir un lote";
pub const NOT_PRINTED: &str = "Todos sin etiqueta impresa";
pub const ALL: &str = "Todas las plantas";
pub const NO_LOTS: &str = "Quitar todos";
pub const FROM_DIVISION: &str = "De una división";
pub const PLACES: &str = "Para un lugar";
pub const TRAYS: &str = "Para una bandeja en la mesa";
pub const HOW_MANY: &str = "Cuántas de cada uno";
pub const SHEET: &str = "Hoja";
pub const MEASURES: &str = "Medidas de la hoja";
pub const MEASURES_HINT: &str =
    "Las impresas en su paquete, o con una regla. Imprime al 100 %, sin ajustar a la página.";
pub const ON_IT: &str = "En la etiqueta";
pub const DAY: &str = "Día";
pub const POT: &str = "Maceta";
pub const CAUTION: &str = "Aviso tras un tratamiento";
pub const CAUTION_HINT: &str = "Mientras dure el plazo del producto";
pub const YES: &str = "sí";
pub const NO: &str = "no";
pub const PREVIEW: &str = "La primera";
pub const NOTHING_YET: &str = "Elige un lote arriba: una etiqueta por cada maceta suya.";
pub const NO_CODE_HERE: &str = "Esta etiqueta es demasiado pequeña para un código que lea un teléfono. Lleva el código en letras.";
pub const CODES_AWAY: &str = "Ahora mismo no se pudieron dibujar los códigos. No se ha impreso nada; prueba de nuevo cuando el programa esté guardado en este teléfono.";
pub const TOO_MANY: &str = "No más de 2000 etiquetas a la vez.";
pub const PRINTING: &str = "Preparando etiquetas";
pub const STOP: &str = "Parar";
pub const UNNAMED: &str = "Sin nombre";
pub const PRINT_ONE: &str = "Imprimir una etiqueta";
pub const PRINT_TAG: &str = "Imprimir su marca de bandeja";
pub const PRINT_THESE: &str = "Imprimir estas etiquetas";

#[must_use]
pub fn print(labels: u32) -> String {
    format!(
        "Imprimir {}",
        counted(i64::from(labels), "etiqueta", "etiquetas")
    )
}

#[must_use]
pub fn pages(labels: u32, pages: u32) -> String {
    format!(
        "{} en {}",
        counted(i64::from(labels), "etiqueta", "etiquetas"),
        counted(i64::from(pages), "página", "páginas")
    )
}

#[must_use]
pub fn done(done: u32, of: u32) -> String {
    format!("{done} de {of} etiquetas")
}

#[must_use]
pub fn handed(labels: u32) -> String {
    counted(
        i64::from(labels),
        "etiqueta entregada a la impresora.",
        "etiquetas entregadas a la impresora.",
    )
}

/// The tag on a tray.
#[must_use]
pub fn tray(tray: u32) -> String {
    format!("Bandeja {tray}")
}

/// A tray with what lies in it.
#[must_use]
pub fn tray_of(tray: u32, name: &str) -> String {
    format!("Bandeja {tray}, {name}")
}

/// What is on the list.
#[must_use]
pub fn things(count: usize) -> String {
    format!("{count} en la lista")
}

#[must_use]
pub fn lots(count: usize) -> String {
    counted(i64::try_from(count).unwrap_or(0), "lote", "lotes")
}

#[must_use]
pub fn division(tray: u32, on: &str, lots: usize) -> String {
    format!("Bandeja {tray}, terminada {on} · {}", self::lots(lots))
}

#[must_use]
pub fn printed_on(day: &str) -> String {
    format!("impresa {day}")
}

/// Names that do not fit.
#[must_use]
pub fn too_long(codes: &[String]) -> String {
    let named = codes.iter().take(3).cloned().collect::<Vec<_>>().join(", ");
    let more = codes.len().saturating_sub(3);
    let more = if more > 0 {
        format!(" y {more} más")
    } else {
        String::new()
    };
    format!(
        "Lo que va en la etiqueta de {named}{more} no cabe, y nada se corta. Usa una etiqueta mayor, o quita el día o la maceta."
    )
}

/// The day on a label.
#[must_use]
pub fn on_label(potted: bool, tray: bool, day: Option<NaiveDate>, pot: Option<&str>) -> String {
    let day = day.map(|day| {
        let word = match (potted, tray) {
            (true, _) => "en maceta:",
            (false, true) => "en la mesa desde el",
            (false, false) => "aquí desde el",
        };
        format!("{word} {}", full_day(day))
    });
    let pot = pot.filter(|pot| !pot.is_empty()).map(str::to_owned);
    day.into_iter().chain(pot).collect::<Vec<_>>().join(" · ")
}

/// What to heed, as the product's label and the record said.
#[must_use]
pub fn caution(it: &Caution) -> String {
    let day = civil_day(it.until_ms, it.off_min)
        .map(full_day)
        .unwrap_or_default();
    let time = clock(minute_of_day(it.until_ms, it.off_min));
    let gear = if it.gear.is_empty() {
        "no tocar"
    } else {
        it.gear.as_str()
    };
    format!(
        "tratado el {}: {gear} hasta el {day}, {time}",
        full_day(it.on)
    )
}

/// A sheet to begin from.
#[must_use]
pub fn preset(key: &str) -> &'static str {
    match key {
        "roll_50_25" => "Rollo, 50 × 25 mm",
        "roll_57_32" => "Rollo, 57 × 32 mm",
        "a4_70_37" => "A4, 24 de 70 × 37 mm",
        "a4_63_38" => "A4, 21 de 63,5 × 38,1 mm",
        "a4_48_25" => "A4, 40 de 48,5 × 25,4 mm",
        "a4_38_21" => "A4, 65 de 38,1 × 21,2 mm",
        _ => "Propia",
    }
}

#[must_use]
pub fn field(field: SheetField) -> &'static str {
    match field {
        SheetField::LabelAcross => "Etiqueta, ancho",
        SheetField::LabelDown => "Etiqueta, alto",
        SheetField::Columns => "Columnas",
        SheetField::Rows => "Filas",
        SheetField::GapAcross => "Separación entre columnas",
        SheetField::GapDown => "Separación entre filas",
        SheetField::Left => "Margen izquierdo",
        SheetField::Top => "Margen superior",
        SheetField::PageAcross => "Página, ancho",
        SheetField::PageDown => "Página, alto",
        SheetField::Start => "Primer sitio libre",
    }
}

pub const START_HINT: &str =
    "En una hoja empezada: cuenta desde arriba a la izquierda, fila a fila";

/// Which field a fault is about; `None` where several do not go together.
#[must_use]
pub fn fault_field(fault: SheetFault) -> Option<SheetField> {
    match fault {
        SheetFault::NotANumber(field) | SheetFault::OutOfBounds { field, .. } => Some(field),
        SheetFault::StartBeyond { .. } => Some(SheetField::Start),
        SheetFault::TooWide { .. } | SheetFault::TooHigh { .. } => None,
    }
}

#[must_use]
pub fn sheet_fault(fault: SheetFault) -> String {
    let mm = |um: u32| millimetres(i64::from(um));
    match fault {
        SheetFault::NotANumber(at) if at.is_count() => {
            format!("{}: hace falta un número entero.", field(at))
        }
        SheetFault::NotANumber(at) => format!("{}: hace falta un número de milímetros.", field(at)),
        SheetFault::OutOfBounds {
            field: at,
            least,
            most,
        } if at.is_count() => {
            format!("{}: entre {least} y {most}.", field(at))
        }
        SheetFault::OutOfBounds {
            field: at,
            least,
            most,
        } => {
            format!("{}: entre {} y {}.", field(at), mm(least), mm(most))
        }
        SheetFault::TooWide { needs, page } => format!(
            "Las columnas piden {} y la página tiene {} de ancho.",
            mm(needs),
            mm(page)
        ),
        SheetFault::TooHigh { needs, page } => format!(
            "Las filas piden {} y la página tiene {} de alto.",
            mm(needs),
            mm(page)
        ),
        SheetFault::StartBeyond { places } => format!("Esta hoja tiene {places} sitios."),
    }
}

/// Finding a lot by its label.
pub mod find {
    use super::CodeFault;

    pub const TITLE: &str = "Buscar por código";
    pub const TYPE: &str = "Código de la etiqueta";
    pub const TYPE_HINT: &str = "Como K3-118R; dan igual las mayúsculas y el guion";
    pub const OPEN: &str = "Abrir";
    pub const CAMERA: &str = "Usar la cámara";
    pub const LOOKING: &str = "Pon el cuadrado de la etiqueta dentro de la imagen.";
    pub const VIDEO: &str = "Lo que ve la cámara";
    pub const LIGHT: &str = "Luz";
    pub const REFUSED: &str = "La cámara no está permitida aquí. No pasa nada: escribe el código abajo. Para permitirla, usa los ajustes de esta página en el navegador.";
    pub const MISSING: &str = "Aquí no hay cámara disponible. Escribe el código abajo.";
    pub const CANNOT_READ: &str =
        "Este teléfono no puede leer el cuadrado ahora mismo. Escribe el código que está al lado.";
    pub const NO_LABEL: &str = "Esa no es una etiqueta de este programa.";
    pub const STRANGER: &str = "Esa etiqueta es ajena: este libro no sabe nada de ella. Puede ser de otro vivero, o de un teléfono cuyo archivo aún no se ha recibido.";
    pub const SEVERAL: &str = "Varios lotes llevan este código. ¿Cuál es?";
    pub const AGAIN: &str = "Mirar otra vez";

    #[must_use]
    pub fn unknown(code: &str) -> String {
        format!("Ningún lote de este libro tiene el código {code}.")
    }

    /// Why a code was not taken. Never what it may have been: a lot that was guessed is worse than none.
    #[must_use]
    pub fn fault(fault: CodeFault) -> String {
        match fault {
            CodeFault::Empty => "Escribe el código que está en la etiqueta.".to_owned(),
            CodeFault::TooShort => "Es demasiado corto para un código: una letra, una cifra, un número y una letra.".to_owned(),
            CodeFault::TooLong => "Es demasiado largo para un código.".to_owned(),
            CodeFault::BadCharacter { found, .. } => {
                format!("«{found}» no puede ir ahí. Mira otra vez la etiqueta.")
            }
            CodeFault::NoCounter => "El número del código es cero. Mira otra vez la etiqueta.".to_owned(),
            CodeFault::MissingCheck { .. } => "Falta la letra del final.".to_owned(),
            CodeFault::BadCheck { .. } => {
                "La letra del final no cuadra con el resto: algo se leyó mal o se cambió de sitio. Mira otra vez la etiqueta.".to_owned()
            }
        }
    }
}
