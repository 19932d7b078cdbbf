//! What every way of using a product says: the label's silence, the right target, what must never meet.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use velamen_core::apply::{Before, Held, Meeting, MixFault, TankFault, Where, WhyHeld};
use velamen_core::event::{AgentClass, Method};
use velamen_core::reference::never::{Harm, Pair, Stuff};

use super::treat::rate_fault;
use super::{clean, format, treat};
use crate::words::parts::capital;

pub const TARGET_REASON: &str = "Por qué se usa de todos modos";
pub const TARGET_REASON_HINT: &str =
    "La palabra de un laboratorio, una podredumbre mixta, nada más a mano.";
pub const TARGET_NOT_KNOWN: &str = "No se puede decir si actúa contra eso: falta escribir una materia activa de su etiqueta, o aquí no se conoce.";
pub const TARGET_PARTLY: &str =
    "Actúa solo contra algunas clases de eso, o en parte: lee su etiqueta.";
pub const NEVER: &str = "Nunca juntos";
pub const NEVER_BESIDE: &str = "Lo que nunca debe juntarse con él";
pub const RINSE: &str = "Antes, enjuaga tres veces cubeta, regadera y medidores.";

/// "¿Su etiqueta nombra la inmersión?"
#[must_use]
pub fn label_says(method: Method) -> &'static str {
    match method {
        Method::Bath | Method::Plunge => "¿Su etiqueta nombra la inmersión?",
        Method::Drench => "¿Su etiqueta nombra el riego dirigido?",
        Method::Spray => "¿Su etiqueta nombra la pulverización?",
        Method::Swab => "¿Su etiqueta nombra el toque con torunda o pincel?",
        Method::DustCut => "¿Su etiqueta nombra el espolvoreo?",
    }
}

/// "Sí, inmersión".
#[must_use]
pub fn label_names(method: Method) -> &'static str {
    match method {
        Method::Bath | Method::Plunge => "Sí, inmersión",
        Method::Drench => "Sí, riego dirigido",
        Method::Spray => "Sí, pulverización",
        Method::Swab => "Sí, torunda",
        Method::DustCut => "Sí, espolvoreo",
    }
}

pub const SILENT: &str = "No, no lo dice";

/// What a label's silence means for this way.
#[must_use]
pub fn silent_warning(method: Method) -> &'static str {
    match method {
        Method::Bath | Method::Plunge => {
            "La dosis y el tiempo de una pulverización no valen para una inmersión, y las normas locales pueden prohibirla. Pregunta al fabricante o a un asesor; prueba primero con unas piezas."
        }
        Method::Drench => {
            "Una dosis de pulverización o de inmersión no vale para un riego dirigido, y las normas locales pueden prohibirlo. Pregunta al fabricante o a un asesor; prueba primero con tres macetas."
        }
        Method::Spray => {
            "Una dosis de inmersión o de riego dirigido no vale para una pulverización, y las normas locales pueden prohibirla. Pregunta al fabricante o a un asesor; prueba primero con tres plantas."
        }
        Method::Swab | Method::DustCut => {
            "Las normas locales pueden prohibir lo que la etiqueta no nombra. Pregunta al fabricante o a un asesor; prueba primero con tres plantas."
        }
    }
}

fn agents(of: &BTreeSet<AgentClass>) -> String {
    let words: Vec<String> = of
        .iter()
        .map(|agent| treat::agent(*agent).to_lowercase())
        .collect();
    words.join(", ")
}

/// Why a product is held: "Lo que lleva actúa contra: hongos. …".
#[must_use]
pub fn held(held: &Held) -> String {
    let against = treat::agent(held.against).to_lowercase();
    match &held.why {
        WhyHeld::ActsOnOthers(others) if others.is_empty() => {
            format!("De nada de lo que lleva se sabe que actúe contra: {against}.")
        }
        WhyHeld::ActsOnOthers(others) => format!(
            "Lo que lleva actúa contra: {}. No se sabe que actúe contra: {against}. Ahí no haría nada.",
            agents(others)
        ),
        WhyHeld::LabelNamesOthers(others) => {
            format!(
                "Su etiqueta nombra: {}. No nombra: {against}.",
                agents(others)
            )
        }
        WhyHeld::NothingCures => {
            "Ningún producto cura un virus. Aparta las plantas y analízalas.".to_owned()
        }
        WhyHeld::NoAgent => "Ahí no vive nada contra lo que actuar: corrige el cultivo.".to_owned(),
    }
}

/// "En el estante, y actúa contra ello: …".
#[must_use]
pub fn instead(names: &[String]) -> String {
    if names.is_empty() {
        "De nada del estante se sabe que actúe contra ello.".to_owned()
    } else {
        format!("En el estante, y actúa contra ello: {}.", names.join(", "))
    }
}

/// A kind of stuff.
#[must_use]
pub fn stuff(stuff: Stuff) -> &'static str {
    match stuff {
        Stuff::Hypochlorite => "lejía",
        Stuff::Acid => "vinagre, limpiador ácido o abono ácido",
        Stuff::Ammonia => "amoniaco, urea o abono amónico",
        Stuff::Alcohol => "alcohol o acetona",
        Stuff::Peroxide => "peróxido o ácido peracético",
        Stuff::Peroxymonosulfate => "peroximonosulfato",
        Stuff::Quat => "amonio cuaternario",
        Stuff::Soap => "jabón o detergente",
        Stuff::Pesticide => "un producto para plantas, o lo que queda de él",
        Stuff::Caustic => "fosfato trisódico o sosa cáustica",
        Stuff::Flame => "llama o estufa",
        Stuff::MetalPowder => "polvo de metal",
        Stuff::Copper => "cobre",
        Stuff::Phosphonate => "fosetil o fosfonato",
        Stuff::Spreader => "un mojante o adherente",
        Stuff::Mancozeb => "mancozeb",
        Stuff::Chlorothalonil => "clortalonil",
        Stuff::Oil => "aceite",
        Stuff::Sulfur => "azufre",
        Stuff::Captan => "captan",
        Stuff::AcidWater => "agua por debajo de pH 6",
        Stuff::HardWater => "agua dura, más de 300 mg de cal por litro",
    }
}

fn harm(harm: Harm) -> &'static str {
    match harm {
        Harm::ChlorineGas => "gas cloro",
        Harm::ToxicGas => "gas venenoso",
        Harm::Irritants => "cloroformo y vapores que queman ojos y pulmones",
        Harm::ViolentGas => "sale gas con violencia, y se pierden los dos",
        Harm::Inactivated => "uno anula al otro",
        Harm::UnknownGas => "gas que nadie puede prever",
        Harm::PeraceticAcid => "ácido peracético, que quema",
        Harm::HeatAndSpatter => "calor y salpicaduras",
        Harm::Fire => "fuego",
        Harm::Decomposes => "se descompone, con calor y gas",
        Harm::CopperBurn => "el cobre quema las plantas",
        Harm::ReadTheLabel => "no es seguro con algunos productos: lee las dos etiquetas",
        Harm::LeafBurn => "se queman las hojas",
        Harm::ScumAndBurn => "grumos, y se queman las hojas",
    }
}

/// "Cobre con fosetil o fosfonato: el cobre quema las plantas."
#[must_use]
pub fn pair(of: &Pair) -> String {
    let days = of.days.map(|(least, most)| {
        let days = if least == most {
            most.to_string()
        } else {
            format!("de {least} a {most}")
        };
        format!(" En una misma planta, deja pasar {days} días.")
    });
    format!(
        "{} con {}: {}.{}",
        capital(stuff(of.a)),
        stuff(of.b),
        harm(of.harm),
        days.unwrap_or_default()
    )
}

/// One pair in short, for a list of what the built-in table holds.
#[must_use]
pub fn pair_in_short(of: &Pair) -> String {
    format!("{} con {}", stuff(of.a), stuff(of.b))
}

/// What the label itself says it must not meet.
#[must_use]
pub fn never_by_label(said: &str) -> String {
    format!("Nunca juntos, dice su etiqueta: {said}")
}

/// What would meet, where, and how long to wait.
#[must_use]
pub fn meeting(met: &Meeting, today: NaiveDate) -> String {
    let before = match &met.before {
        Before::Product(name) => name.clone(),
        Before::Agent(key) => clean::agent(key),
    };
    let when = format::near_day(met.on, today);
    let what = pair(met.pair);
    match (met.at, met.wait_until) {
        (Where::Plants, Some(until)) => format!(
            "{what} Estas plantas llevaron {before} ({when}): espera hasta {}.",
            format::near_day(until, today)
        ),
        _ => format!("{what} En la cubeta o los medidores hubo {before} ({when}). {RINSE}"),
    }
}

/// Why two products do not go into one tank.
#[must_use]
pub fn tank(fault: &TankFault, method: Method) -> String {
    match fault {
        TankFault::Same => "Es dos veces el mismo envase.".to_owned(),
        TankFault::NotAllowed { labels } => {
            format!(
                "No en un mismo tanque: no está escrito que la etiqueta de {} admita el otro a su lado. Escríbelo de la etiqueta en el Almacén si lo pone, o trata con uno tras otro.",
                labels.join(" y la de ")
            )
        }
        TankFault::Never(of) => format!("No en un mismo tanque. {}", pair(of)),
        TankFault::Mix(fault) => format!("El segundo producto: {}", self::fault(fault, method)),
    }
}

/// What is in the way of a mixture.
#[must_use]
pub fn fault(fault: &MixFault, method: Method) -> String {
    match fault {
        MixFault::NoProduct => "Elige el envase.".to_owned(),
        MixFault::NoRate => {
            "Escribe la dosis de la etiqueta: sin ella no se puede medir nada.".to_owned()
        }
        MixFault::BadRate(fault) => rate_fault(fault),
        MixFault::RateByArea => match method {
            Method::Spray | Method::Drench => {
                "Esa dosis es por superficie. Elige un lugar con su superficie escrita en el Almacén, o escribe la dosis de la etiqueta por cantidad de agua."
                    .to_owned()
            }
            _ => "Esa dosis es por superficie. Una cubeta pide la dosis de la etiqueta por cantidad de agua."
                .to_owned(),
        },
        MixFault::NoContent => "La dosis cuenta la materia activa: escribe cuánta lleva el producto, en su etiqueta en el Almacén.".to_owned(),
        MixFault::AboveLabel { most_typed } => {
            format!("Eso es más fuerte de lo que permite la etiqueta: el máximo es {most_typed}.")
        }
        MixFault::NotTheLabels { most_typed } => {
            format!("Escribe la dosis como la cuenta la etiqueta: {most_typed}.")
        }
        MixFault::NoAgent => "Di contra qué es.".to_owned(),
        MixFault::MethodNotSaid => match method {
            Method::Bath | Method::Plunge => "Di si la etiqueta nombra la inmersión.".to_owned(),
            _ => "Di si la etiqueta nombra esta manera.".to_owned(),
        },
        MixFault::NoReason => match method {
            Method::Bath | Method::Plunge => {
                "La etiqueta no dice nada de la inmersión: escribe por qué se hace de todos modos.".to_owned()
            }
            _ => "La etiqueta no dice nada de esta manera: escribe por qué se hace de todos modos.".to_owned(),
        },
        MixFault::NoTargetReason => {
            "No se sabe que actúe contra eso: escribe por qué se usa de todos modos, o toma otro envase.".to_owned()
        }
        MixFault::Tank(fault) => tank(fault, method),
        MixFault::NoRotationReason => super::rotation::NO_REASON.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use velamen_core::reference::never::PAIRS;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn every_pair_reads_as_a_sentence() {
        for one in PAIRS {
            let said = pair(one);
            assert!(said.ends_with('.') && said.contains(" con "), "{said}");
        }
    }
}
