//! Words for a bath as it is used: its age, its level, and why it is thrown out. Common practice, no source.

use velamen_core::bath::{Age, BathFault, StrengthLeft, ThrowOut, TubFault};
use velamen_core::event::{BathEnded, BathTopped, Held};
use velamen_core::quantity::{Amount, Volume};

use super::bath;
use super::format::{counted, in_litres, litres_exact};
use super::measure;

pub const LEVEL_AND_DIRT: &str = "Su nivel y su suciedad";
pub const STANDS_NOW: &str = "Altura del agua ahora";
pub const READ: &str = "Ese es el nivel";
pub const DIRTY: &str = "Está sucio: tierra, raíces, espuma";
pub const HIGHER: &str = "Es más de lo que había antes. Vuelve a leerlo.";
pub const HEALTHY_AFTER: &str = "Piezas sanas con las manchadas o después de ellas: lo que esas tenían está en el agua. Mezcla de nuevo para ellas.";

pub const OVER: &str = "Ese baño ya se vació, quizá en otro teléfono.";
pub const ENDED: &str = "Se vació un baño.";
pub const TOP_UP_HINT: &str =
    "A la concentración con que se mezcló: el producto al agua, y luego a la cubeta.";
pub const TOPPED: &str = "baño rellenado";
pub const ELSEWHERE: &str = "Baños que están en otro teléfono";
pub const REST: &str = "Adónde va el resto";
pub const REST_HINT: &str = "Con tus palabras; pasa al registro.";
pub const REST_RULES: &str =
    "Lo que goteó bajo la rejilla también es baño gastado: va al mismo sitio.";
pub const ON_PLANTS: &str = "Sobre plantas de la etiqueta";
pub const COLLECTED: &str = "Recogido, para entregarlo";
pub const POTS_ALLOWED: &str = "Permite macetas vacías en el baño de las plantas";
pub const POTS_TOO: &str = "Macetas vacías que entran con ellas";
pub const POTS_TOO_HINT: &str = "Su etiqueta lo permite. Salen empapadas de fungicida y no están limpias: igual van al lavado. Las herramientas no entran nunca.";

/// The label of the box for so much water.
#[must_use]
pub fn litres_now() -> &'static str {
    in_litres("Litros que hay ahora", "Galones que hay ahora")
}

/// "Rellenado: 3 mL en 2 L".
#[must_use]
pub fn top_up(water: Volume, amount: Amount) -> String {
    format!(
        "Rellenado: {} en {}",
        measure::amount(amount),
        litres_exact(water)
    )
}

/// "Con ellas estuvieron dentro 6 macetas vacías: empapadas de fungicida, no limpias."
#[must_use]
pub fn pots(pots: u32) -> Option<String> {
    match pots {
        0 => None,
        1 => Some(
            "Con ellas estuvo dentro 1 maceta vacía: empapada de fungicida, no limpia.".to_owned(),
        ),
        pots => Some(format!(
            "Con ellas estuvieron dentro {pots} macetas vacías: empapadas de fungicida, no limpias."
        )),
    }
}

/// What an entry says of a top-up.
#[must_use]
pub fn topped(it: &BathTopped) -> String {
    let water = litres_exact(Volume::from_ul(it.water_ul));
    match Held::of(it.amount_ul, it.amount_mg) {
        Some(held) => format!(
            "Se rellenó un baño con {water}: {} de producto.",
            measure::amount(held.amount(held.figure()))
        ),
        None => format!("Se rellenó un baño con {water}."),
    }
}

/// What was left of a bath and where it went.
#[must_use]
pub fn ended_with(it: &BathEnded) -> Option<String> {
    let left = it.left_ul.map(Volume::from_ul).map(litres_exact);
    match (left, it.disposal.as_str()) {
        (None, "") => None,
        (Some(left), "") => Some(format!("Quedaban {left}.")),
        (None, gone) => Some(format!("El resto: {gone}.")),
        (Some(left), gone) => Some(format!("Quedaban {left}: {gone}.")),
    }
}

/// "Primera salida 10:40, 34 piezas hasta ahora".
#[must_use]
pub fn elsewhere(clock: &str, pieces: u32, topped: usize) -> String {
    let pieces = counted(i64::from(pieces), "pieza", "piezas");
    let topped = match topped {
        0 => String::new(),
        times => format!(
            ", rellenado {}",
            counted(i64::try_from(times).unwrap_or(i64::MAX), "vez", "veces")
        ),
    };
    format!("Primera salida {clock}, {pieces} hasta ahora{topped}")
}

/// Why it is thrown out now.
#[must_use]
pub const fn throw_out(why: ThrowOut) -> &'static str {
    match why {
        ThrowOut::DayOver => "Tíralo: se mezcló otro día. Nuevo cada día.",
        ThrowOut::Dirty => "Tíralo: la suciedad se lleva el producto.",
        ThrowOut::SymptomsDipped => {
            "Tíralo: en él estuvieron piezas con síntomas. Nada sano después de ellas."
        }
        ThrowOut::VirusDipped => {
            "Tíralo ya: se sospecha un virus en lo que estuvo en él. No entra nada más."
        }
    }
}

/// "Mezclado hace 3 horas; dentro han estado 34 piezas."
#[must_use]
pub fn age(age: Age, pieces: u32) -> String {
    let age = match age {
        Age::Minutes(0) => "Recién mezclado".to_owned(),
        Age::Minutes(minutes @ 1..60) => {
            format!(
                "Mezclado hace {}",
                counted(i64::from(minutes), "minuto", "minutos")
            )
        }
        Age::Minutes(minutes) => {
            let hours = i64::from(minutes / 60);
            format!("Mezclado hace {}", counted(hours, "hora", "horas"))
        }
        Age::ClockBehind => {
            "El reloj del teléfono está en una hora anterior a la mezcla, así que no se sabe su edad".to_owned()
        }
        Age::Unknown => "No se sabe cuándo se mezcló".to_owned(),
    };
    match pieces {
        0 => format!("{age}."),
        1 => format!("{age}; dentro ha estado 1 pieza."),
        pieces => format!("{age}; dentro han estado {pieces} piezas."),
    }
}

/// "Las piezas se llevaron 5 L, unos 0,05 L cada una. Concentración que queda, calculada y no medida: alrededor del 100 %, o del 94 % si las plantas sacan el producto un quinto más deprisa que el agua."
#[must_use]
pub fn strength(left: StrengthLeft, fell: Option<Volume>, each: Option<Volume>) -> String {
    let fell = fell.map_or_else(String::new, |fell| {
        let each = each.map_or_else(String::new, |each| {
            format!(", unos {} cada una", litres_exact(each))
        });
        format!("Las piezas se llevaron {}{each}. ", litres_exact(fell))
    });
    let per_cent = |permille: u32| (permille + 5) / 10;
    format!(
        "{fell}Concentración que queda, calculada y no medida: alrededor del {} %, o del {} % si las plantas sacan el producto un quinto más deprisa que el agua.",
        per_cent(left.alike_permille),
        per_cent(left.faster_permille)
    )
}

#[must_use]
pub fn level_fault(fault: &TubFault) -> String {
    match fault {
        TubFault::Missing(_) => "Escribe hasta dónde llega el agua ahora.".to_owned(),
        other => bath::fault(&BathFault::Tub(other.clone())),
    }
}
