//! What plants had before, and whether a product may follow it.

use chrono::NaiveDate;
use velamen_core::reference::actives::{Code, CodeList};
use velamen_core::rotation::{Advice, CodeRule, Use};

use super::format::{counted, full_day, short_day};
use super::stock;

pub const HAD_BEFORE: &str = "Lo que tuvieron antes";
pub const NOTHING: &str = "Nada anotado, ni de ellas ni de sus padres.";
pub const FINE: &str = "Este producto puede seguir.";
pub const ADVISED_AGAINST: &str = "No se aconseja";
pub const BEADS: &str = "Una bolita por cada uso, del primero al último, con el código de su modo de acción. Cortada a la izquierda: lo tuvo un padre. A trazos: el que vas a usar.";
pub const LOT_BEADS: &str = "Una bolita por cada uso, del primero al último, con el código de su modo de acción. Cortada a la izquierda: lo tuvo un padre.";
pub const SEVERAL: &str = "Varios padres posibles: se muestra el que más tiene en contra.";
pub const CHANGES: &str = "Un cambio de verdad, de tu estante:";
pub const NO_CHANGE: &str =
    "Ningún otro envase del estante con códigos conocidos sería un cambio de verdad frente a esto.";
pub const REASON: &str = "Por qué se usa de todos modos";
pub const REASON_HINT: &str = "Va al registro. No se niega nada.";
pub const NO_REASON: &str = "Di por qué se usa de todos modos, o toma otro envase.";
pub const RULES: &str = "Cambio de productos";
pub const RULES_LEAD: &str = "Cuántas veces se puede usar un modo de acción antes de que haya que cambiar. La etiqueta va primero.";
pub const RULES_SOURCE: &str = "La tabla de partida: Universidad de California, fungicidas según su riesgo de resistencia, escrita para cultivos de campo; insecticidas según el principio de un modo de acción por generación de la plaga, tres semanas por práctica común. Cámbiala como diga tu asesor.";
pub const IN_A_ROW: &str = "Usos seguidos";
pub const GENERATIONS: &str = "Generaciones seguidas";
pub const PER_YEAR: &str = "Usos al año";
pub const NO_LIMIT: &str = "Nada: sin límite";
pub const TOGETHER: &str = "Días que cuentan como un uso";
pub const TOGETHER_HINT: &str = "Una generación de la plaga; nada: cada uso cuenta.";
pub const BREAKS: &str = "Corta la serie de otros";
pub const OWN_CODE: &str = "Otro código";
pub const OWN_CODE_HINT: &str = "Como en la etiqueta: FRAC 7, IRAC 4A";
pub const ADD: &str = "Añadir este código";
pub const BAD_CODE: &str = "Escribe un código con su lista: FRAC 7, o IRAC 23.";
pub const KEEP: &str = "Guardar estas reglas";
pub const KEPT: &str = "Reglas guardadas.";
pub const USUAL: &str = "Volver a la tabla de partida";

/// A code in a bead: short, the list left out.
#[must_use]
pub fn codes(codes: &[Code]) -> String {
    if codes.is_empty() {
        return "?".to_owned();
    }
    let each: Vec<&str> = codes.iter().map(|code| code.code.as_str()).collect();
    each.join("+")
}

/// Codes with their lists: "FRAC 3 + FRAC 11".
#[must_use]
pub fn codes_named(codes: &[Code]) -> String {
    let each: Vec<String> = codes.iter().map(Code::to_string).collect();
    each.join(" + ")
}

/// The strip in words: "3 el 10 de enero de 2027 (un padre), M05 el …".
#[must_use]
pub fn strip(line: &[Use]) -> String {
    let each = line.iter().map(|one| {
        let codes = if one.codes.is_empty() {
            format!("{}, sin código conocido", one.label_name)
        } else {
            codes_named(&one.codes)
        };
        let whose = if one.inherited { " (un padre)" } else { "" };
        format!("{codes} el {}{whose}", full_day(one.on))
    });
    let said: Vec<String> = each.collect();
    format!("{HAD_BEFORE}: {}.", said.join(", "))
}

/// Uses before the first one shown.
#[must_use]
pub fn earlier(count: usize) -> String {
    let count = i64::try_from(count).unwrap_or(i64::MAX);
    format!("{} antes de estos.", counted(count, "uso", "usos"))
}

/// For how many plants it is said: "3 lotes" or "2 clases de piezas".
#[must_use]
pub fn for_so_many(lots: usize, pieces: usize) -> String {
    let count = |count: usize| i64::try_from(count).unwrap_or(i64::MAX);
    let lots_said = (lots > 0).then(|| counted(count(lots), "lote", "lotes"));
    let pieces_said =
        (pieces > 0).then(|| counted(count(pieces), "clase de piezas", "clases de piezas"));
    [lots_said, pieces_said]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join(", ")
}

/// Why it is advised against.
#[must_use]
pub fn advice(advice: &Advice, today: NaiveDate) -> String {
    match advice {
        Advice::Run {
            code,
            used,
            most,
            last_on,
            generations,
        } => {
            let ((one, many), (most_one, most_many), last) = if *generations {
                (
                    (
                        "generación seguida de la plaga",
                        "generaciones seguidas de la plaga",
                    ),
                    ("generación", "generaciones"),
                    "la última",
                )
            } else {
                (
                    ("uso seguido", "usos seguidos"),
                    ("uso", "usos"),
                    "el último",
                )
            };
            let used = counted(i64::from(*used), one, many);
            let most = counted(i64::from(*most), most_one, most_many);
            format!(
                "{code}: ya {used}, {last} el {}. Tras {most} hay que cambiar, o la plaga aprende a vivir con ello.",
                short_day(*last_on, today)
            )
        }
        Advice::Year { code, used, most } => format!(
            "{code}: ya {} en un año; tus reglas permiten {most}.",
            counted(i64::from(*used), "uso", "usos")
        ),
        Advice::TooSoon {
            last_on,
            days,
            again_on,
        } => format!(
            "Usado el {}; la etiqueta quiere {} entre medias. Otra vez desde el {}.",
            short_day(*last_on, today),
            counted(i64::from(*days), "día", "días"),
            short_day(*again_on, today)
        ),
        Advice::LabelYear { used, most } => format!(
            "Ya {} en un año; la etiqueta permite {most}.",
            counted(i64::from(*used), "uso", "usos")
        ),
    }
}

/// Nothing is known of these actives.
#[must_use]
pub fn unknown(names: &[String]) -> String {
    format!(
        "Sin código conocido para {}: no se puede juzgar. Escríbelo de la etiqueta, en el producto.",
        names.join(", ")
    )
}

/// A rule's head: "FRAC 3", "FRAC, todos los demás", "FRAC M…".
#[must_use]
pub fn rule(rule: &CodeRule) -> String {
    let list = match rule.list {
        CodeList::Frac => "FRAC",
        CodeList::Irac => "IRAC",
    };
    match rule.code.strip_suffix('*') {
        Some("") => format!("{list}, todos los demás"),
        Some(begin) => format!("{list} {begin}…"),
        None => format!("{list} {}", rule.code),
    }
}

/// What a rule says, in a line.
#[must_use]
pub fn rule_says(rule: &CodeRule) -> String {
    let run = match (rule.in_a_row, rule.together_days) {
        (None, _) => "sin límite seguidos".to_owned(),
        (Some(most), None) => {
            let word = if most == 1 { "seguido" } else { "seguidos" };
            format!("{} {word}", stock::grouped(i64::from(most)))
        }
        (Some(most), Some(days)) => {
            let generations = counted(
                i64::from(most),
                "generación seguida",
                "generaciones seguidas",
            );
            format!("{generations}, de {days} días")
        }
    };
    let year = rule
        .per_year
        .map(|most| format!(", {most} al año"))
        .unwrap_or_default();
    let breaks = if rule.breaks_no_run {
        ", no corta ninguna serie"
    } else {
        ""
    };
    format!("{run}{year}{breaks}")
}
