//! Kept apart: quarantine, tests for viruses, and who is at risk.

use chrono::NaiveDate;
use velamen_core::event::{QuarantineWhy, TestMethod, TestResult, Tissue, Virus, VirusTested};
use velamen_core::quarantine::{Progress, Suspicion};
use velamen_core::trace::{Followed, Rank, Why};

use super::format::{counted, full_day, near_day};
use super::{task, trade};

pub const QUARANTINE: &str = "Cuarentena";
pub const IN_QUARANTINE: &str = "En cuarentena";
pub const SUSPECT: &str = "Sospechoso: virus";
pub const APART: &str = "Poner en cuarentena";
pub const ARRIVAL: &str =
    "Viene de otra persona. Tenlo apartado hasta que haya enseñado lo que trae.";
pub const RELEASE: &str = "Sacar de la cuarentena";
pub const RELEASE_EARLY: &str = "Sacar antes";
pub const EARLY_HINT: &str =
    "Aún no se cumple todo. Puede salir de todos modos, si escribes por qué.";
pub const EARLY_WHY: &str = "Por qué sale antes";
pub const STAYS: &str =
    "Mientras esté dentro: ni se vende, ni se mueve, ni se divide o se pone en maceta con otros.";
pub const NO_CURE: &str = "Se le detectó un virus. Eso no lo curan los días.";
pub const PRACTICE: &str = "Los días y las revisiones son práctica común, sin fuente. Las normas locales para plantas compradas van primero.";
pub const CLEAN: &str = "Revisado: limpio";
pub const SOMETHING: &str = "Algo hay";
pub const HOW_LOOKS: &str = "¿Qué aspecto tiene?";
pub const TEST: &str = "Anotar una prueba";
pub const TESTS: &str = "Pruebas de virus";
pub const NO_TESTS: &str = "Ninguna todavía.";
pub const TRACE: &str = "¿Quién más corre riesgo?";
pub const TEST_TITLE: &str = "Una prueba de virus";
pub const HOW: &str = "Cómo";
pub const SAMPLED: &str = "Muestra de";
pub const POOLED: &str = "Plantas en esta muestra";
pub const POOLED_HINT: &str = "varias juntas: detectado quiere decir que al menos una lo tiene";
pub const LABORATORY: &str = "Laboratorio";
pub const OPTIONAL: &str = "Puede quedar en blanco.";
pub const NOTE: &str = "Nota";
pub const RECORD: &str = "Anotar la prueba";
pub const NOT_TESTED: &str = "Sin prueba";
pub const NOT_PROOF: &str = "Que no se detecte nada no demuestra que esté sano: tras un contacto, hazle la prueba el día 30 o después, y otra vez el día 240 o después.";
pub const DAYS: &str = "Días, como mínimo";
pub const LOOKS: &str = "Revisiones limpias seguidas";
pub const SERIES: &str = "Tratamientos";
pub const WITH_TESTS: &str = "Dos pruebas, a los 30 y a los 240 días";
pub const WHERE: &str = "Dónde se pone";
pub const STAYS_HERE: &str = "Se queda donde está";
pub const AT_RISK: &str = "En riesgo";
pub const NOBODY: &str = "El libro no sabe de ningún lote que estuviera en contacto con él.";
pub const NOBODY_HINT: &str = "Sigue hojas de corte, baños, padres e hijos, y vecinos.";
pub const ORDER: &str = "Primero el que corre más riesgo. El orden no es una probabilidad: sale de cómo fue el contacto.";
pub const GONE: &str = "Ya no está aquí";
pub const TEST_THEM: &str = "Hacerle la prueba";
pub const LOOK_AT: &str = "Revisarlo";
pub const CLEAR: &str = "Descartarlo";
pub const CLEAR_WHY: &str = "Por qué no corre riesgo";
pub const MARK_ALL: &str = "Prueba a todos los cercanos";
pub const FOLLOWED: &str = "Anotado.";

/// The same with a small first letter, for the middle of a sentence; what is written in capitals stays so.
pub(super) fn lowered(text: &str) -> String {
    let mut letters = text.chars();
    let Some(first) = letters.next() else {
        return String::new();
    };
    let rest = letters.as_str();
    if rest.starts_with(char::is_uppercase) {
        text.to_owned()
    } else {
        first.to_lowercase().chain(rest.chars()).collect()
    }
}

#[must_use]
pub fn virus(virus: Virus) -> &'static str {
    match virus {
        Virus::Cymmv => "Mosaico de Cymbidium",
        Virus::Orsv => "Mancha anular de Odontoglossum",
        Virus::Other => "Otro virus",
    }
}

#[must_use]
pub fn method(method: TestMethod) -> &'static str {
    match method {
        TestMethod::Strip => "Tira reactiva",
        TestMethod::Elisa => "ELISA",
        TestMethod::Pcr => "PCR",
        TestMethod::Other => "Otro",
    }
}

#[must_use]
pub fn tissue(tissue: Tissue) -> &'static str {
    match tissue {
        Tissue::Leaf => "Hoja",
        Tissue::Root => "Raíz",
        Tissue::Flower => "Flor",
        Tissue::Other => "Otro",
    }
}

#[must_use]
pub fn result(result: TestResult) -> &'static str {
    match result {
        TestResult::NotDetected => "No detectado",
        TestResult::Detected => "Detectado",
        TestResult::Unclear => "Dudoso",
    }
}

/// "Mosaico de Cymbidium: prueba, no detectado, el 3 de marzo de 2027 (tira reactiva, hoja, 3 plantas juntas)".
#[must_use]
pub fn tested(it: &VirusTested, on: NaiveDate) -> String {
    let what = match it.result {
        TestResult::NotDetected => "prueba, no detectado",
        TestResult::Detected => "prueba, DETECTADO",
        TestResult::Unclear => "prueba, dudoso",
    };
    let pooled = match it.pooled {
        0 | 1 => String::new(),
        more => format!(", {more} plantas juntas"),
    };
    format!(
        "{}: {what}, el {} ({}, {}{pooled})",
        virus(it.virus),
        full_day(on),
        lowered(method(it.method)),
        lowered(tissue(it.tissue))
    )
}

/// Why it is kept apart.
#[must_use]
pub fn why(why: QuarantineWhy, sign: Option<&str>) -> String {
    match (why, sign) {
        (QuarantineWhy::Finding, Some(sign)) => trade::sign(sign),
        (QuarantineWhy::Finding, None) => "Se vio algo".to_owned(),
        (QuarantineWhy::Arrival, _) => "Vino de fuera".to_owned(),
        (QuarantineWhy::Virus, _) => "Se detectó un virus".to_owned(),
        (QuarantineWhy::Exposed, _) => "Contacto con un lote sospechoso".to_owned(),
        (QuarantineWhy::Caution, _) => "Apartado por precaución".to_owned(),
    }
}

#[must_use]
pub fn since(on: NaiveDate, today: NaiveDate) -> String {
    format!("desde {}", near_day(on, today))
}

#[must_use]
pub fn came_with(code: &str) -> String {
    format!("Vino con {code}.")
}

/// Each thing that is waited for, whether it holds, and how far it is.
#[must_use]
pub fn waits(it: &Progress, today: NaiveDate) -> Vec<(bool, String)> {
    let of = |done: u32, wanted: u32, one: &str, many: &str| {
        (wanted > 0).then(|| {
            let what = if wanted == 1 { one } else { many };
            (
                done >= wanted,
                format!("{} de {wanted} {what}", done.min(wanted)),
            )
        })
    };
    let days = if it.days_left > 0 {
        let left = counted(it.days_left, "día más", "días más");
        format!("{left}, hasta el {}", full_day(it.until_on))
    } else {
        format!("Los días se cumplieron el {}", full_day(it.until_on))
    };
    let next = it.next_test_on.map_or_else(String::new, |on| {
        format!("; la próxima cuenta desde {}", near_day(on, today))
    });
    let (test, tests) = (
        format!("prueba limpia{next}"),
        format!("pruebas limpias{next}"),
    );
    let all = [
        Some((it.days_left <= 0, days)),
        of(
            it.clean,
            it.clean_wanted,
            "revisión limpia",
            "revisiones limpias seguidas",
        ),
        of(it.treated, it.treated_wanted, "tratamiento", "tratamientos"),
        of(it.tests, it.tests_wanted, &test, &tests),
    ];
    all.into_iter().flatten().collect()
}

#[must_use]
pub fn holds(holds: bool) -> &'static str {
    if holds { "se cumple" } else { "aún no" }
}

#[must_use]
pub fn suspicion(it: &Suspicion, of: Option<&str>) -> String {
    let whose = of.map_or_else(String::new, |code| format!(" en {code}, de donde procede,"));
    match it {
        Suspicion::Detected {
            virus: found, on, ..
        } => {
            format!(
                "Se detectó {}{whose} el {}.",
                lowered(virus(*found)),
                full_day(*on)
            )
        }
        Suspicion::Sign { on, .. } => format!(
            "Se vio una señal de virus{whose} el {}. Dos pruebas que no detecten nada acaban con la sospecha.",
            full_day(*on)
        ),
    }
}

#[must_use]
pub fn rank(rank: Rank) -> &'static str {
    match rank {
        Rank::Near => "Cercano",
        Rank::Likely => "Probable",
        Rank::Possible => "Posible",
    }
}

/// One step of a way.
#[must_use]
pub fn step(why: &Why) -> String {
    match why {
        Why::WasCut => "se cortó en la mesa".to_owned(),
        Why::CameFrom => "salió de una mata a su maceta".to_owned(),
        Why::PottedFrom => "salió de él a su maceta".to_owned(),
        Why::Together => "en la mesa en la misma mata".to_owned(),
        Why::SameBlade { nth, changed } => {
            let nth = match nth {
                1 => "la mata siguiente".to_owned(),
                more => format!("{more} matas después"),
            };
            let changed = if *changed {
                ", con cambio de herramienta entretanto"
            } else {
                ""
            };
            format!("{nth} con la misma hoja de corte{changed}")
        }
        Why::Part => "una parte de las mismas plantas".to_owned(),
        Why::Whole => "el lote del que es parte".to_owned(),
        Why::IntoBath => "estuvo en un baño".to_owned(),
        Why::SameBath => "en ese baño, entonces o después".to_owned(),
        Why::Emptied => "sus macetas o su piedra fueron al lavado".to_owned(),
        Why::UsedAgain { stone, disinfected } => match (*stone, *disinfected) {
            (true, true) => "quizá en esa piedra, lavada y desinfectada entretanto",
            (true, false) => "quizá en esa piedra, lavada entretanto",
            (false, true) => "quizá en esas macetas, lavadas y desinfectadas entretanto",
            (false, false) => "quizá en esas macetas, lavadas entretanto",
        }
        .to_owned(),
        Why::Neighbour { .. } => "está en el mismo lugar".to_owned(),
    }
}

#[must_use]
pub fn followed(it: &Followed, today: NaiveDate) -> Option<String> {
    match it {
        Followed::Open => None,
        Followed::ToDo { kind, on } => {
            Some(format!("{}: {}", task::kind(*kind), near_day(*on, today)))
        }
        Followed::Done => Some("Comprobado.".to_owned()),
        Followed::Cleared => Some("Descartado.".to_owned()),
    }
}

#[must_use]
pub fn gone(lots: usize) -> String {
    match lots {
        1 => "1 lote con el que estuvo en contacto ya no está aquí.".to_owned(),
        lots => format!("{lots} lotes con los que estuvo en contacto ya no están aquí."),
    }
}

#[must_use]
pub fn at_risk(lots: usize) -> String {
    counted(i64::try_from(lots).unwrap_or(i64::MAX), "lote", "lotes")
}
