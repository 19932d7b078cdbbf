//! The Treat room: writing down a treatment that was done.
//!
//! The safety lines are common practice, no source, unless a label or local rule says more.

use velamen_core::event::{AgentClass, Aim, Treated};
use velamen_core::quantity::{Amount, Mass, Meaning, QuantityError, Volume};
use velamen_core::treat_draft::TreatFault;
use velamen_core::view::treat::StillMissing;

use super::bath;
use super::format::{counted, litres_exact};

pub const RECORD: &str = "Anotar un tratamiento";
pub const RECORD_HINT: &str = "Para lo que se hizo lejos del teléfono. Aquí no se calcula nada.";
pub const ADD: &str = "Anotar este tratamiento";
pub const ADDED: &str = "tratamiento";
pub const LAW: &str = "La etiqueta es la ley y manda más que este programa.";
pub const LAW_MORE: &str = "Una dosis de pulverización no es una dosis de baño: donde la etiqueta calla sobre el baño, la dosis y el tiempo no sirven para él, y las normas locales pueden prohibirlo.";
pub const SAFETY: &str = "Al contacto, y mientras se seca";
pub const CONTACT: &str = "Si toca la piel o los ojos: fuera la ropa, enjuaga de 15 a 20 minutos, llama al teléfono de toxicología, lleva la etiqueta contigo.";
pub const HANDLE: &str = "Los guantes siguen puestos para las piezas tratadas y para lo que gotean: recógelo. Lejos de niños, animales de casa, estanques y abejas.";
pub const ORIGIN: &str = "Práctica común; la etiqueta y las normas locales van primero.";
pub const NO_POISONS: &str =
    "Aún sin teléfono de toxicología: añádelo en el Almacén, Este teléfono.";
pub const WHAT: &str = "Qué se trató";
pub const BARE: &str = "Sin maceta en la mesa";
pub const FIND_HINT: &str = "Nombre, código o lugar";
pub const PRODUCT: &str = "Producto";
pub const PRODUCT_HINT: &str = "El nombre como está en la etiqueta";
pub const RATE: &str = "Dosis como la mezclaste";
pub const RATE_HINT: &str = "Tal como se escribe, con su unidad; puede quedar vacío.";
pub const METHOD: &str = "Cómo";
pub const AGAINST: &str = "Contra";
pub const PREVENTING: &str = "Para prevenir, no se vio nada";
pub const YES: &str = "sí";
pub const NO: &str = "no";
pub const SOAKED: &str = "Minutos dentro";
pub const REENTRY: &str = "Horas hasta la reentrada";
pub const REENTRY_HINT: &str = "Como dice la etiqueta.";
pub const REENTRY_NOT_SAID: &str = "Aún sin escribir de la etiqueta.";
pub const NOTE: &str = "Nota";
pub const ON_RECORD: &str = "Lo anotado";
pub const EMPTY: &str = "Aún no hay tratamientos anotados.";

/// What a treatment was against, as a chip.
#[must_use]
pub fn agent(agent: AgentClass) -> &'static str {
    match agent {
        AgentClass::Fungus => "Hongos",
        AgentClass::WaterMould => "Oomicetos",
        AgentClass::Bacterium => "Bacterias",
        AgentClass::Insect => "Insectos",
        AgentClass::Mite => "Ácaros",
        AgentClass::Mollusc => "Babosas, caracoles",
        AgentClass::Virus => "Virus",
        AgentClass::Culture => "Un fallo de cultivo",
        AgentClass::Unknown => "No se sabe",
    }
}

/// "Contra: insectos; no se vio nada, para prevenir."
#[must_use]
pub fn against(agent: AgentClass, aim: Aim) -> String {
    let what = self::agent(agent).to_lowercase();
    match aim {
        Aim::Curing => format!("Contra: {what}."),
        Aim::Preventing => format!("Contra: {what}; no se vio nada, para prevenir."),
    }
}

/// What is wrong with a label's rate, and how to write it.
#[must_use]
pub fn rate_fault(fault: &QuantityError) -> String {
    match fault {
        QuantityError::NoUnit { .. } => {
            "Escribe las dos unidades como las da la etiqueta: 12,5 mL/10 L, 2 g/L.".to_owned()
        }
        QuantityError::AmbiguousUnit { meanings, .. }
            if meanings.contains(&Meaning::PartsOfWater) =>
        {
            "¿Una parte por tantas de agua, o en tantas en total? Mejor escríbelo en mL/L."
                .to_owned()
        }
        QuantityError::AmbiguousUnit { meanings, .. }
            if meanings.contains(&Meaning::PercentByVolume) =>
        {
            "¿Por ciento de qué? Escribe % v/v para un líquido, % w/v para un polvo.".to_owned()
        }
        QuantityError::AmbiguousUnit { .. } => {
            "¿De qué país es la cuchara, la onza, la pinta o el galón? Escribe US o imp delante, o usa mL.".to_owned()
        }
        QuantityError::Zero | QuantityError::Negative => {
            "Una dosis tiene que ser más que nada.".to_owned()
        }
        QuantityError::TooLarge { .. } => {
            "Eso es más producto que agua. Mira otra vez la etiqueta.".to_owned()
        }
        _ => "Eso no es una dosis. Escríbela con las dos unidades: 12,5 mL/10 L, 2 g/L.".to_owned(),
    }
}

/// "Aún falta: materia activa, reentrada." Nothing when all is there.
#[must_use]
pub fn still_missing(missing: &[StillMissing]) -> String {
    let words: Vec<&str> = missing
        .iter()
        .map(|what| match what {
            StillMissing::Rate => "dosis",
            StillMissing::Actives => "materia activa",
            StillMissing::Registration => "número de registro",
            StillMissing::Reentry => "reentrada",
            StillMissing::Uses => "para qué se puede usar",
        })
        .collect();
    if words.is_empty() {
        String::new()
    } else {
        format!("Aún falta: {}.", words.join(", "))
    }
}

/// "25 mL en 20 L.", or that nothing was measured anew.
#[must_use]
pub fn mixed(it: &Treated) -> Option<String> {
    if it.same_mix_as.is_some() {
        return Some(bath::SAME_MIX.to_owned());
    }
    let amount = match (it.amount_ul, it.amount_mg) {
        (Some(ul), _) => Some(Amount::Volume(Volume::from_ul(ul))),
        (None, Some(mg)) => Some(Amount::Mass(Mass::from_mg(mg))),
        (None, None) => None,
    };
    let water = it.water_ul.map(|ul| litres_exact(Volume::from_ul(ul)));
    match (amount.map(bath::amount), water) {
        (Some((figure, unit)), Some(water)) => Some(bath::in_water(&figure, unit, &water)),
        (Some((figure, unit)), None) => Some(format!("{figure} {unit}.")),
        (None, Some(water)) => Some(format!("En {water}.")),
        (None, None) => None,
    }
}

/// "17 minutos dentro, se querían 5 minutos; la etiqueta no da tiempo."
#[must_use]
pub fn soaked(it: &Treated) -> Option<String> {
    let lay = it.soaked_s?;
    let time = |seconds: u32| match seconds {
        0..60 => counted(i64::from(seconds), "segundo", "segundos"),
        _ => bath::minutes(seconds.saturating_add(30)),
    };
    let wanted = it
        .soak_s
        .filter(|wanted| *wanted != lay)
        .map(|wanted| format!(", se querían {}", time(wanted)));
    let own = it.soak_own.then_some("; la etiqueta no da tiempo");
    Some(format!(
        "{} dentro{}{}.",
        time(lay),
        wanted.unwrap_or_default(),
        own.unwrap_or_default()
    ))
}

/// That a second product was in the same tank.
#[must_use]
pub fn in_one_tank(it: &Treated) -> Option<String> {
    it.tank_with
        .map(|_| "En un mismo tanque con el otro producto de esta entrada.".to_owned())
}

/// "Ventilación: ventiladores en marcha, 2 h."
#[must_use]
pub fn aired(it: &Treated) -> Option<String> {
    it.airing
        .map(|how| format!("Ventilación: {}.", super::apply::airing(how).to_lowercase()))
}

/// What the label said of re-entry.
#[must_use]
pub fn reentry(hours: u32) -> String {
    format!(
        "Reentrada tras {}, como decía la etiqueta.",
        counted(i64::from(hours), "hora", "horas")
    )
}

/// Whom to call.
#[must_use]
pub fn poisons(number: &str) -> String {
    format!("Teléfono de toxicología: {number}")
}

/// What is still missing.
#[must_use]
pub fn fault(fault: TreatFault) -> &'static str {
    match fault {
        TreatFault::NothingTreated => "Elige qué se trató: un lote, o piezas en la mesa.",
        TreatFault::NoProduct => "Escribe el producto como lo nombra su etiqueta.",
        TreatFault::NoMethod => "Di cómo se hizo.",
        TreatFault::NoAgent => "Di contra qué fue.",
    }
}
