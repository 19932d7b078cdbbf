//! Stock: the list, a lot's page, adding a lot and changing one.

use chrono::NaiveDate;
use velamen_core::event::{GainWhy, PieceClass, Source, SplitWhy};
use velamen_core::lot_draft::{Change, ChangeFault, PottedWhen};
use velamen_core::task::TaskKind;
use velamen_core::task::windows::WindowsFrom;
use velamen_core::view::lot::ReservedRow;
use velamen_core::view::year::YearMark;

use super::format::{counted, days_ago, short_day};
use super::{rejection, task, trade};

pub const SEARCH: &str = "Buscar un lote";
pub const SEARCH_HINT: &str = "Una parte del nombre, el lugar o el código";
pub const CLEAR: &str = "Ver todos";
pub const ADD_LOT: &str = "Añadir un lote";
pub const NO_PLACE: &str = "Sin lugar";
pub const EMPTY: &str = "Aún no hay plantas en el libro.";
pub const EMPTY_HINT: &str = "Un lote es lo que comparte una etiqueta: la misma planta, en macetas iguales, en un lugar. Empieza por el primero de una bancada.";
pub const NOTHING_FOUND: &str = "Nada se llama así.";
pub const NOTHING_FOUND_HINT: &str = "Prueba con menos letras, o con el código de la etiqueta.";
pub const ON_THE_BENCH: &str = "en la mesa";

pub const NEW_LOT: &str = "Un lote nuevo";
pub const NAME: &str = "Nombre de la planta";
pub const NAME_HINT: &str = "Como en la etiqueta vieja, o déjalo vacío";
pub const LABEL: &str = "En la etiqueta";
pub const NAME_REST: &str = "Se guarda junto al nombre:";
pub const PLANTS: &str = "Plantas";
pub const POTS: &str = "Macetas o bandejas";
pub const POTS_HINT: &str = "tantas como plantas hasta que lo cambies";
pub const FIVE: &str = "+5";
pub const TYPE_NUMBER: &str = "Escribir el número";
pub const NUMBER_DONE: &str = "Ese es el número";
pub const ERASE: &str = "Borrar una cifra";
pub const POINT: &str = "Coma";
pub const PLACE: &str = "Lugar";
pub const NEW_PLACE: &str = "Un lugar nuevo";
pub const NEW_PLACE_NAME: &str = "Nombre del lugar nuevo";
pub const NEW_PLACE_HINT: &str = "Invernadero y bancada, como tú los llamas";
pub const CLASS: &str = "Qué clase de plantas";
pub const CLASS_OPEN: &str = "Sin decir";
pub const POTTED: &str = "Último trasplante";
pub const POTTED_ON: &str = "Día en que se puso en maceta";
pub const SOURCE: &str = "De dónde";
pub const FROM: &str = "De quién";
pub const RECORD: &str = "Añadir este lote";
pub const WRITE_LABEL: &str = "Escribe esto en su etiqueta.";
pub const ANOTHER: &str = "Otro igual";
pub const OPEN_LOT: &str = "Abrir el lote";
pub const ADDED: &str = "En el libro";

pub const LOT: &str = "Lote";
pub const UNKNOWN: &str = "Este lote no está en el libro.";
pub const UNKNOWN_HINT: &str = "Puede venir de otro teléfono cuyo archivo aún no se ha recibido.";
pub const WITHDRAWN: &str = "La entrada que trajo este lote se retiró.";
pub const LOCKED: &str = "Una versión más nueva del programa escribió sobre este lote. Actualiza este teléfono y se podrá cambiar aquí.";
pub const SEEN_HERE: &str = "Visto aquí";
pub const CHANGE: &str = "Cambiar";
pub const CHANGE_WHAT: &str = "¿Qué ha cambiado?";
pub const TO_THE_BENCH: &str = "A la mesa, para dividir";
pub const THE_YEAR: &str = "Su año";
pub const REPOTTED: &str = "trasplante";
pub const FLOWERS: &str = "En flor";
pub const OWN_SEASON: &str = "según tus propias épocas";
pub const USUAL_SEASON: &str = "según lo habitual en su grupo";
pub const TODAY: &str = "hoy";
pub const COMES_FROM: &str = "De dónde viene";
pub const PARENTS: &str = "Dividido de";
pub const SIBLINGS: &str = "De la misma mata";
pub const SPLIT_FROM: &str = "Se separó de este lote";
pub const PARTS: &str = "Separados de él";
pub const CHILDREN: &str = "Divididos de él";
pub const WORK: &str = "Trabajo";
pub const NO_WORK: &str = "No le toca nada.";
pub const DONE_KEY: &str = "Hecho";
pub const OTHER_ANSWER: &str = "Aplazar, o no hace falta";
pub const HISTORY: &str = "Lo que se hizo";
pub const UNDONE: &str = "retirada";
pub const NEWER: &str = "Escrito por una versión más nueva";
pub const NO_LABEL: &str = "sin etiqueta";
pub const CLASS_SAME: &str = "Como antes";
pub const PLANT_UNIT: &str = "planta";
pub const PLANTS_UNIT: &str = "plantas";
pub const NOTHING_DUE: &str = "nada";
pub const NEXT: &str = "trabajo";
pub const KIND: &str = "clase";
pub const AT_POTTING: &str =
    "Humedece el sustrato para no respirar polvo. Guantes para el musgo: araña. (Práctica común.)";

pub const WHY: &str = "Por qué";
pub const TO_WHOM: &str = "A quién";
pub const OPTIONAL: &str = "Puede quedar vacío";
pub const PRICE: &str = "Precio de todo junto";
pub const NOTE: &str = "Nota";
pub const POT: &str = "Maceta";
pub const MIX: &str = "Sustrato";
pub const NOT_SAID: &str = "Sin decir";
pub const RESERVED: &str = "Guardadas para alguien";
pub const SELL_THESE: &str = "Vender estas";
pub const RELEASE: &str = "Dejarlas libres";
pub const RELEASED: &str = "Vuelven a ser para cualquiera.";
pub const UNTIL: &str = "Hasta el";
pub const FOR_WHOM: &str = "Para quién";
pub const FOR_WHOM_HINT: &str = "Un nombre, un pedido, cualquier palabra";
pub const SELL_ANYWAY: &str = "Venderlas de todos modos";
pub const UNTIL_HINT: &str =
    "No hace falta un día. Nada queda libre por sí solo: pasado el día, aquí se dice.";

/// "1 430", with a narrow space between thousands.
#[must_use]
pub fn grouped(number: i64) -> String {
    let digits = number.unsigned_abs().to_string();
    let mut out = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push('\u{202f}');
        }
        out.push(digit);
    }
    if number < 0 { format!("-{out}") } else { out }
}

/// "212 lotes, 1 430 plantas".
#[must_use]
pub fn summary(lots: usize, plants: i64) -> String {
    let lots = i64::try_from(lots).unwrap_or(i64::MAX);
    let word = |number: i64, one, many| {
        format!(
            "{} {}",
            grouped(number),
            if number == 1 { one } else { many }
        )
    };
    format!(
        "{}, {}",
        word(lots, "lote", "lotes"),
        word(plants, "planta", "plantas")
    )
}

/// "3 hallados" of what was typed.
#[must_use]
pub fn found(found: usize) -> String {
    format!(
        "{} {}",
        grouped(i64::try_from(found).unwrap_or(i64::MAX)),
        if found == 1 { "hallado" } else { "hallados" }
    )
}

/// The key at the end of what is drawn of a list.
pub const MORE_ROWS: &str = "Más lotes";

/// Under a list that does not show all.
#[must_use]
pub fn more(hidden: usize) -> String {
    let hidden = i64::try_from(hidden).unwrap_or(i64::MAX);
    format!(
        "{} más. Escribe parte de un nombre para verlos.",
        grouped(hidden)
    )
}

#[must_use]
pub fn lots(count: usize) -> String {
    counted(i64::try_from(count).unwrap_or(i64::MAX), "lote", "lotes")
}

#[must_use]
pub fn less_of(what: &str) -> String {
    format!("Uno menos: {what}")
}

#[must_use]
pub fn more_of(what: &str) -> String {
    format!("Uno más: {what}")
}

#[must_use]
pub fn gets_code(code: &str) -> String {
    format!("Recibe el código {code}.")
}

#[must_use]
pub fn added(code: &str) -> String {
    format!("{code} está en el libro.")
}

#[must_use]
pub fn potted_when(when: PottedWhen) -> &'static str {
    match when {
        PottedWhen::NotKnown => "No se sabe",
        PottedWhen::ThisMonth => "Este mes",
        PottedWhen::LastYear => "El año pasado",
        PottedWhen::TwoYearsAgo => "Hace dos años",
        PottedWhen::On => "Un día",
    }
}

#[must_use]
pub fn source(source: Source) -> &'static str {
    match source {
        Source::Here => "Ya estaba aquí",
        Source::Bought => "Comprado",
        Source::Exchanged => "Cambiado con otro",
        Source::Seed => "Semilla propia",
        Source::Flask => "De un frasco",
    }
}

/// How a lot came, as a sentence.
#[must_use]
pub fn came(source: Source, from: &str, on: &str) -> String {
    let (what, whose) = match source {
        Source::Here => ("Aquí desde antes del libro", "de"),
        Source::Bought => ("Comprado", "a"),
        Source::Exchanged => ("Cambiado", "con"),
        Source::Seed => ("De semilla propia", "de"),
        Source::Flask => ("Sacado de un frasco", "de"),
    };
    let from = if from.is_empty() {
        String::new()
    } else {
        format!(" {whose} {from}")
    };
    format!("{what}{from}, anotado el {on}.")
}

/// "Podredumbre negra: vista ayer, y sin volver a mirar desde entonces."
#[must_use]
pub fn not_looked_at_since(sign: &str, on: NaiveDate, today: NaiveDate) -> String {
    format!(
        "{sign}: se vio {}, y nadie ha vuelto a mirar desde entonces.",
        days_ago(on, today)
    )
}

/// How many of a lot are nobody's, beside those that are kept.
#[must_use]
pub fn free(plants: i64) -> String {
    match plants {
        0 => "ninguna libre".to_owned(),
        1 => "1 libre".to_owned(),
        plants => format!("{} libres", grouped(plants)),
    }
}

/// "4 plantas para Ana, hasta el 3 may".
#[must_use]
pub fn reserved(row: &ReservedRow, today: NaiveDate) -> String {
    let plants = trade::plants(i64::from(row.plants));
    let whom = if row.to.is_empty() {
        String::new()
    } else {
        format!(" para {}", row.to)
    };
    let until = match row.until_on {
        Some(on) if row.is_past => format!(", hasta el {}: ese día ya pasó", short_day(on, today)),
        Some(on) => format!(", hasta el {}", short_day(on, today)),
        None => String::new(),
    };
    format!("{plants}{whom}{until}")
}

/// In the list: "4 guardadas para Ana".
#[must_use]
pub fn kept_for(plants: i64, names: &[String]) -> String {
    let kept = counted(plants, "guardada", "guardadas");
    if names.is_empty() {
        kept
    } else {
        format!("{kept} para {}", names.join(", "))
    }
}

/// The head of a sale out of what was kept.
#[must_use]
pub fn out_of_kept(to: &str) -> String {
    if to.is_empty() {
        "De las que estaban guardadas.".to_owned()
    } else {
        format!("De las guardadas para {to}.")
    }
}

/// A kind of plants, short enough for a fact.
#[must_use]
pub fn class_short(class: PieceClass) -> &'static str {
    match class {
        PieceClass::Flowering => "Para florecer",
        PieceClass::Starter => "Plantones",
        PieceClass::BackBulb => "Traseros",
        PieceClass::BrokenShoot => "Brotes",
        PieceClass::Keiki => "Hijuelos",
        PieceClass::Thrown => "Tiradas",
    }
}

/// The pots of a lot beside its plants.
#[must_use]
pub fn in_pots(stands: i64) -> String {
    format!("en {}", trade::pots(stands))
}

/// The same, with plants that lie on the bench.
#[must_use]
pub fn benched(stands: i64, plants: u32) -> String {
    format!("en {}, {plants} {ON_THE_BENCH}", trade::pots(stands))
}

/// What must wait, over the day it waits for.
#[must_use]
pub fn not_before(kind: TaskKind) -> String {
    match kind {
        TaskKind::FirstWater => "no regar antes".to_owned(),
        other => format!("{}: no antes", task::kind(other).to_lowercase()),
    }
}

/// A month's letter over the year.
#[must_use]
pub fn month_letter(month: u8) -> String {
    let at = usize::from(month.saturating_sub(1));
    "EFMAMJJASOND"
        .chars()
        .nth(at)
        .map(String::from)
        .unwrap_or_default()
}

#[must_use]
pub fn flowers(window: &str) -> String {
    format!("florece {window}")
}

/// Several lots went into one clump.
#[must_use]
pub fn parents_unsure(parents: usize, unbooked_pots: u32) -> Option<String> {
    let known = match parents {
        0 | 1 => None,
        _ => Some("No se sabe de cuál de estos vino.".to_owned()),
    };
    let unbooked = (unbooked_pots > 0).then(|| {
        let pots = counted(
            i64::from(unbooked_pots),
            "maceta sin etiqueta fue",
            "macetas sin etiqueta fueron",
        );
        format!("También {pots} a la mata.")
    });
    let said: Vec<String> = known.into_iter().chain(unbooked).collect();
    (!said.is_empty()).then(|| said.join(" "))
}

/// The drawing of a lineage in a sentence.
#[must_use]
pub fn lineage_sentence(parents: &[String], tray: &str, siblings: usize) -> String {
    let from = if parents.is_empty() {
        "plantas sin etiqueta".to_owned()
    } else {
        parents.join(" o ")
    };
    let others = match siblings {
        0 => String::new(),
        count => format!(", junto con {}", lots(count)),
    };
    format!("Dividido de {from} con la marca de bandeja {tray}{others}.")
}

pub const THROWN: &str = "tiradas";

/// What a mark on the year says.
#[must_use]
pub fn mark(mark: YearMark, day: &str) -> String {
    match mark {
        YearMark::RepotWindow => "trasplante".to_owned(),
        YearMark::FloweringWindow => "en flor".to_owned(),
        YearMark::RestWindow => "reposo".to_owned(),
        YearMark::RootWindow => "raíces".to_owned(),
        YearMark::Potted => format!("en maceta {day}"),
        YearMark::Seen(sight) => format!("{} {day}", trade::sight(sight).to_lowercase()),
        YearMark::Work(kind) => format!("{} {day}", task::kind(kind).to_lowercase()),
    }
}

/// Who says when it flowers and is repotted.
#[must_use]
pub fn season_from(from: WindowsFrom, of: Option<&str>, today: NaiveDate) -> String {
    match from {
        WindowsFrom::Own => OWN_SEASON.to_owned(),
        WindowsFrom::Table => USUAL_SEASON.to_owned(),
        WindowsFrom::Seen { what, on, of: lot } => {
            let what = trade::sight(what).to_lowercase();
            let when = short_day(on, today);
            match lot.and(of) {
                Some(code) => {
                    format!("según lo visto el {when} en {code}, de donde viene: {what}")
                }
                None => format!("según lo visto el {when}: {what}"),
            }
        }
    }
}

/// The year in a sentence.
#[must_use]
pub fn year_sentence(repot: &[String], flowering: &[String]) -> String {
    let part = |what: &str, windows: &[String]| match windows {
        [] => format!("{what}: no se sabe."),
        windows => format!("{what}: {}.", windows.join(", ")),
    };
    format!(
        "{} {}",
        part("Trasplante", repot),
        part("Floración", flowering)
    )
}

#[must_use]
pub fn change(change: Change) -> &'static str {
    match change {
        Change::Move => "Movido",
        Change::Count => "Contado",
        Change::Split => "Separado",
        Change::Lose => "Baja",
        Change::Sell => "Vendido",
        Change::Gain => "Hay más",
        Change::PotOn => "Cambiado de maceta",
        Change::Name => "Nombre",
        Change::Reserve => "Guardar para alguien",
    }
}

/// The key that records a change.
#[must_use]
pub fn record(change: Change) -> &'static str {
    match change {
        Change::Move => "Anotar el traslado",
        Change::Count => "Anotar el recuento",
        Change::Split => "Separarlas",
        Change::Lose => "Anotar la baja",
        Change::Sell => "Anotar la venta",
        Change::Gain => "Anotar lo que hay de más",
        Change::PotOn => "Anotar el cambio de maceta",
        Change::Name => "Guardar este nombre",
        Change::Reserve => "Guardarlas",
    }
}

/// What is asked for in a change's count of plants.
#[must_use]
pub fn how_many(change: Change) -> &'static str {
    match change {
        Change::Sell => "Plantas vendidas",
        Change::Lose => "Plantas perdidas",
        Change::Split => "Plantas separadas",
        Change::Gain => "Plantas de más",
        Change::Reserve => "Plantas guardadas",
        _ => PLANTS,
    }
}

#[must_use]
pub fn split_why(why: SplitWhy) -> &'static str {
    match why {
        SplitWhy::Moved => "A otro lugar",
        SplitWhy::Quarantined => "Apartadas para vigilar",
        SplitWhy::Ill => "Enfermas",
        SplitWhy::Sorted => "Clasificadas",
    }
}

#[must_use]
pub fn gain_why(why: GainWhy) -> &'static str {
    match why {
        GainWhy::Offshoot => "Hijuelos",
        GainWhy::CameApart => "Se separaron solas",
        GainWhy::Returned => "Volvieron",
        GainWhy::Found => "Halladas",
    }
}

/// What is missing from a change.
#[must_use]
pub fn fault(fault: &ChangeFault) -> String {
    match fault {
        ChangeFault::NoPlace => "Elige un lugar.".to_owned(),
        ChangeFault::NoCause => "Elige por qué.".to_owned(),
        ChangeFault::NotAPrice => {
            "Escribe el precio como número, con dos cifras tras la coma como mucho.".to_owned()
        }
        ChangeFault::Pot(fault) => rejection::pot(fault),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn thousands_stand_apart() {
        assert_eq!(grouped(7), "7");
        assert_eq!(grouped(1_430), "1\u{202f}430");
        assert_eq!(grouped(-12_000), "-12\u{202f}000");
        assert_eq!(summary(1, 2), "1 lote, 2 plantas");
    }
}
