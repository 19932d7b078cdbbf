//! A product's label, in words. What the table says of an active is a help to type; the label goes first.

use velamen_core::event::{LabelUse, Method, ProductSet};
use velamen_core::label_draft::{LabelFault, UseNumber};
use velamen_core::quantity::{ContentFault, Meaning};
use velamen_core::reference::actives::{Active, Level, Minding, Risk};
use velamen_core::view::treat::StillMissing;

use super::format::decimal;
use super::treat;

pub const PRODUCTS: &str = "Productos";
pub const NONE_YET: &str = "Aún no hay ningún envase en el estante.";
pub const NEW: &str = "Otro envase";
pub const ADD: &str = "Poner en el estante";
pub const KEEP: &str = "Guardar así la etiqueta";
pub const RETIRE: &str = "Ya no está en el estante";
pub const RETIRE_HINT: &str = "Lo anotado de su uso queda como está.";
pub const MISSING: &str = "Aún falta";
pub const PHOTO_REPLACE: &str = "Otra foto de la etiqueta";
pub const PHOTO_HINT: &str = "Ocupa el lugar de la anterior.";
pub const REGISTRATION: &str = "Número de registro";
pub const REGISTRATION_HINT: &str = "Como en la etiqueta; el registro lo pide.";
pub const FORMULATION: &str = "Formulación";
pub const FORMULATION_HINT: &str = "Las letras tras el nombre: EC, SC, WG, WP, SL.";
pub const RATE_FOR_ALL: &str = "La dosis de la etiqueta, si da una para todo";
pub const ACTIVES: &str = "Materias activas";
pub const ACTIVE: &str = "Nombre de la materia activa";
pub const CONTENT: &str = "Contenido";
pub const CONTENT_HINT: &str = "Con su unidad: 190 g/L, 500 g/kg, 50 % w/w (p/p)";
pub const CODES: &str = "Códigos del modo de acción";
pub const CODES_HINT: &str = "Como en la etiqueta; van antes que la tabla. Con comas entre ellos.";
pub const ANOTHER_ACTIVE: &str = "Añadir una materia activa";
pub const ANOTHER_ACTIVE_HINT: &str = "Empieza a escribir su nombre; la tabla lo tiene en inglés.";
pub const USES: &str = "Lo que permite la etiqueta";
pub const USES_HINT: &str = "Uso por uso, cada uno con sus formas de aplicar: una dosis de pulverización no vale para un baño.";
pub const ANOTHER_USE: &str = "Añadir un uso de la etiqueta";
pub const METHODS: &str = "Formas que nombra la etiqueta";
pub const RATE_LEAST: &str = "Dosis; si da dos, la más baja";
pub const RATE_MOST: &str = "Dosis más alta";
pub const RATE_MOST_HINT: &str = "No se mezcla nada más fuerte.";
pub const GEAR: &str = "Equipo de protección";
pub const MIX_WITH: &str = "Permitido en un mismo tanque con";
pub const CALLS_FOR_AIRING: &str = "Pide ventilar: niebla, nebulización, mascarilla con filtro";
pub const NEVER_WITH: &str = "Nunca junto con";
pub const WHICH_MEANT: &str = "¿Cuál es?";
pub const TO_THE_LABEL: &str = "Su etiqueta en el Almacén";
pub const OWN_RATE: &str = "Otra dosis dentro de la etiqueta";
pub const BATCH: &str = "Número de partida del envase";
pub const BATCH_HINT: &str = "Va al registro; puede quedar vacío.";
pub const BELOW: &str = "Más flojo que la dosis más baja de la etiqueta: quizá no haga nada, y la plaga o el hongo se acostumbra.";

/// A way of applying, on a chip.
#[must_use]
pub fn method(method: Method) -> &'static str {
    match method {
        Method::Bath => "Baño (inmersión)",
        Method::Plunge => "Inmersión de macetas",
        Method::Drench => "Riego dirigido",
        Method::Spray => "Pulverización",
        Method::Swab => "Toque con torunda",
        Method::DustCut => "Espolvoreo en cortes",
    }
}

/// "Para baño (inmersión), pulverización".
#[must_use]
pub fn use_title(methods: &[Method]) -> String {
    if methods.is_empty() {
        return "Un uso; aún sin forma de aplicar".to_owned();
    }
    let ways: Vec<String> = methods
        .iter()
        .map(|way| method(*way).to_lowercase())
        .collect();
    format!("Para {}", ways.join(", "))
}

/// What was said of a product, as far as it was said: two phones may have said different things.
#[must_use]
pub fn set(it: &ProductSet) -> String {
    let named = it.label_name.as_deref().filter(|name| !name.is_empty());
    let text = |text: &Option<String>| text.clone().filter(|text| !text.is_empty());
    let mut said: Vec<String> = Vec::new();
    said.extend(text(&it.registration).map(|text| format!("registro {text}")));
    said.extend(text(&it.formulation).map(|text| format!("formulación {text}")));
    said.extend(it.actives.as_ref().map(|actives| {
        let names: Vec<String> = actives
            .iter()
            .map(|active| format!("{} {}", active.name, active.content_typed))
            .map(|one| one.trim_end().to_owned())
            .collect();
        match names.as_slice() {
            [] => "ninguna materia activa".to_owned(),
            names => format!("materia activa: {}", names.join(", ")),
        }
    }));
    said.extend(text(&it.rate_typed).map(|text| format!("dosis {text}")));
    said.extend(
        it.reentry_h
            .map(|hours| format!("reentrada a las {hours} h")),
    );
    match it.uses.as_deref() {
        Some([]) => said.push("ningún uso de la etiqueta".to_owned()),
        Some(uses) => said.extend(uses.iter().map(one_use)),
        None => {}
    }
    let said = said.join("; ");
    match (named, said.is_empty()) {
        (Some(name), true) => format!("Producto: {name}."),
        (Some(name), false) => format!("Producto: {name}; {said}."),
        (None, true) => "Producto: cambiado.".to_owned(),
        (None, false) => format!("Producto: {said}."),
    }
}

/// "for dipping (5 mL/L, re-entry after 48 h)".
fn one_use(it: &LabelUse) -> String {
    let title = use_title(&it.methods).to_lowercase();
    let rate = match (it.rate_typed.as_str(), it.most_typed.as_str()) {
        ("", most) => most.to_owned(),
        (least, "") => least.to_owned(),
        (least, most) => format!("de {least} a {most}"),
    };
    let agents = it.against.iter().map(|agent| treat::agent(*agent));
    let agents = agents.collect::<Vec<_>>().join(", ").to_lowercase();
    let against = (!agents.is_empty()).then(|| format!("contra {agents}"));
    let said = [
        Some(rate).filter(|rate| !rate.is_empty()),
        against,
        it.soak_s
            .map(|s| format!("{} de inmersión", super::bath::minutes(s))),
        it.interval_days
            .map(|days| format!("{days} días entre usos")),
        it.most_per_year
            .map(|most| format!("{most} veces al año como máximo")),
        it.reentry_h
            .map(|hours| format!("reentrada a las {hours} h")),
        Some(&it.gear)
            .filter(|text| !text.is_empty())
            .map(|text| format!("equipo: {text}")),
        ph(it),
        it.pots_too
            .then(|| "macetas vaciadas en el mismo baño".to_owned()),
        it.airing.then(|| CALLS_FOR_AIRING.to_lowercase()),
        (!it.mix_with.is_empty()).then(|| {
            format!(
                "permitido en un mismo tanque con otros {}",
                it.mix_with.len()
            )
        }),
        Some(&it.never_with)
            .filter(|text| !text.is_empty())
            .map(|text| format!("{} {text}", NEVER_WITH.to_lowercase())),
        Some(it.note.clone()).filter(|text| !text.is_empty()),
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    if said.is_empty() {
        title
    } else {
        format!("{title} ({})", said.join(", "))
    }
}

fn ph(it: &LabelUse) -> Option<String> {
    let tenths = |ph: u8| decimal(i64::from(ph), 1);
    let said = match (it.ph_least.map(tenths), it.ph_most.map(tenths)) {
        (None, None) => return None,
        (Some(least), Some(most)) => format!("de {least} a {most}"),
        (one, other) => one.or(other).unwrap_or_default(),
    };
    Some(format!("pH {said}"))
}

#[must_use]
pub fn remove_use(title: &str) -> String {
    format!("Quitar: {}", title.to_lowercase())
}

#[must_use]
pub fn remove_active(name: &str) -> String {
    format!("Quitar: {name}")
}

#[must_use]
pub fn as_typed(name: &str) -> String {
    format!("Añadir «{name}» tal cual")
}

/// The number of a use.
#[must_use]
pub fn number(which: UseNumber) -> &'static str {
    match which {
        UseNumber::SoakMin => "Minutos de baño, según la etiqueta",
        UseNumber::IntervalDays => "Días entre dos usos",
        UseNumber::MostPerYear => "Usos al año, como mucho",
        UseNumber::ReentryHours => "Horas hasta la reentrada, en este uso",
        UseNumber::PhLeast => "pH del agua, mínimo",
        UseNumber::PhMost => "pH del agua, máximo",
    }
}

/// What to type, as a key that leads there.
#[must_use]
pub fn missing(what: StillMissing) -> &'static str {
    match what {
        StillMissing::Rate => "La dosis",
        StillMissing::Actives => "La materia activa",
        StillMissing::Registration => "El número de registro",
        StillMissing::Reentry => "El plazo de reentrada",
        StillMissing::Uses => "Para qué se puede usar",
    }
}

/// What is wrong at a field of the label.
#[must_use]
pub fn fault(fault: &LabelFault) -> String {
    match fault {
        LabelFault::Missing => "Indica el nombre.".to_owned(),
        LabelFault::Rate(fault) => treat::rate_fault(fault),
        LabelFault::Content(ContentFault::WhichPercent { .. }) => {
            "¿Por ciento del peso, o peso en el volumen? Elige abajo.".to_owned()
        }
        LabelFault::Content(ContentFault::MoreThanWhole) => {
            "Eso es más materia activa que producto. Mira otra vez la etiqueta.".to_owned()
        }
        LabelFault::Content(ContentFault::Unreadable(_)) => {
            "Escribe el contenido con su unidad: 190 g/L, 500 g/kg, 50 % w/w.".to_owned()
        }
        LabelFault::Number { most } => format!("Escribe un número de 0 a {most}."),
        LabelFault::MostBelowLeast => "La dosis más alta es menor que la más baja.".to_owned(),
        LabelFault::RatesDiffer => {
            "Las dos dosis cuentan cosas distintas: escribe las dos en las mismas unidades."
                .to_owned()
        }
        LabelFault::PhTurned => "El máximo está por debajo del mínimo.".to_owned(),
    }
}

/// One meaning of an unclear rate, as a key.
#[must_use]
pub fn meaning(meaning: Meaning, text: &str) -> String {
    match meaning {
        Meaning::PartsOfWater => format!("Una parte, y tantas de agua: {text}"),
        Meaning::PartsInTotal => format!("Una parte en tantas de la mezcla acabada: {text}"),
        Meaning::PercentByVolume => format!("{text}: mL en 100 mL, para un líquido"),
        Meaning::PercentWeightInVolume => format!("{text}: g en 100 mL, para un polvo"),
        Meaning::Unit(_) => text.to_owned(),
    }
}

/// "50 % w/w: g en 100 g".
#[must_use]
pub fn percent_meaning(text: &str) -> String {
    if text.ends_with("w/w") {
        format!("{text}: g en 100 g de producto")
    } else {
        format!("{text}: g en 100 mL de producto")
    }
}

/// "FRAC 3 · DMI".
#[must_use]
pub fn codes_and_group(row: &Active) -> String {
    if row.codes.is_empty() {
        format!("sin código · {}", row.group)
    } else {
        format!("{} · {}", row.codes.join(", "), row.group)
    }
}

/// What the table says of an active, line by line, its origin last.
#[must_use]
pub fn of_the_table(row: &Active) -> Vec<String> {
    let mut lines = vec![codes_and_group(row)];
    if let Some(risk) = row.risk {
        lines.push(format!("Riesgo de resistencia: {}.", risk_words(risk)));
    }
    let named = |agents: &[velamen_core::event::AgentClass]| {
        let words: Vec<String> = agents
            .iter()
            .map(|agent| treat::agent(*agent).to_lowercase())
            .collect();
        words.join(", ")
    };
    if !row.acts_on.is_empty() {
        lines.push(format!("Actúa sobre: {}.", named(row.acts_on)));
    }
    if !row.partly_on.is_empty() {
        lines.push(format!("Solo sobre algunos: {}.", named(row.partly_on)));
    }
    lines.extend(row.minding.iter().map(|what| minding(*what).to_owned()));
    lines.push(format!(
        "De la tabla incluida ({}). No dice nada de lo que está permitido.",
        row.sources()
    ));
    lines
}

fn risk_words(risk: Risk) -> String {
    let word = |level: Level| match level {
        Level::Low => "bajo",
        Level::Medium => "medio",
        Level::High => "alto",
    };
    if risk.least == risk.most {
        word(risk.least).to_owned()
    } else {
        format!("de {} a {}", word(risk.least), word(risk.most))
    }
}

/// What to mind with an active.
#[must_use]
pub fn minding(what: Minding) -> &'static str {
    match what {
        Minding::GrowthRegulating => {
            "Los riegos dirigidos repetidos pueden acortar el crecimiento."
        }
        Minding::OneUseThenChange => "Un uso, y luego otro grupo.",
        Minding::NotWithOil => "No junto con aceite.",
        Minding::NotInHeat => "No con calor ni a pleno sol.",
        Minding::NotNearCopper => "No a menos de unas semanas del cobre.",
        Minding::NotNearPhosphonate => "No a menos de unas semanas de un fosfonato.",
        Minding::AlkalineWater => "Se descompone en agua alcalina: mide su pH.",
        Minding::TenderPlants => {
            "Puede dañar Dendrobium, y flores y capullos de Phalaenopsis y Paphiopedilum."
        }
        Minding::MarksFlowers => "Sus disolventes pueden marcar flores y brotes tiernos.",
        Minding::HostDefence => "Despierta la defensa de la planta; por sí mismo no mata nada.",
        Minding::Living => "Está vivo: no en un baño con lo que lo mata.",
        Minding::PartnerAsked => "La etiqueta puede pedir un compañero de otro código.",
        Minding::OftenRestricted => "A menudo restringido por ley: míralo dos veces.",
        Minding::Bees => "Peligroso para las abejas.",
        Minding::HighHazard => {
            "Muy peligroso para las personas: mira el equipo de protección de la etiqueta."
        }
        Minding::MiteFlare => "Después pueden multiplicarse los ácaros.",
        Minding::YoungStagesOnly => "Llega a huevos o a formas jóvenes, no a los adultos.",
        Minding::ContactOnly => "Solo donde toca el líquido.",
        Minding::SameMainGroup => {
            "Del mismo grupo principal que sus vecinos de letra: no es un cambio frente a ellos."
        }
    }
}
