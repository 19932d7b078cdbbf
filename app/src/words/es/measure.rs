//! Measures, and how an amount is measured with them.

use velamen_core::event::{MeasureKind, MeasureSet};
use velamen_core::measure::{MeasureFault, in_its_unit};
use velamen_core::quantity::{Amount, QuantityError};
use velamen_core::view::measures::{MeasureRow, Measuring, MeasuringStep};

use super::format::{decimal, litres_exact};
use super::rejection;

pub const TITLE: &str = "Medidores";
pub const HINT: &str =
    "Solo para el estante de los productos químicos: ninguno vuelve a una cocina.";
pub const COMMON: &str = "Tamaños corrientes";
pub const COMMON_HINT: &str =
    "Un toque lo pone en el estante. Mira sus marcas: si son otras, cámbialo.";
pub const OWN: &str = "Por sus propias marcas";
pub const KIND: &str = "Qué es";
pub const NAME: &str = "Cómo lo llamas";
pub const NAME_HINT: &str = "Puede quedar vacío: lo nombra su tamaño.";
pub const MOST: &str = "Lo más que admite";
pub const GRADUATION: &str = "De una marca a la siguiente";
pub const LEAST: &str = "Lo menos que mide bien";
pub const LEAST_HINT: &str = "La décima parte de lo que cabe es una buena regla. Vacío: su primera marca. Práctica común, sin fuente.";
pub const ADD: &str = "Poner este medidor en el estante";
pub const ADDED: &str = "medidor en el estante";
pub const NONE_YET: &str = "Aún no hay medidores.";
pub const WITH: &str = "Con tus medidores";
pub const TO_SHELF: &str = "Pon tus medidores en el estante";
pub const QUIET: &str = "Con tus jeringas y balanzas en el estante, aquí se calculan las llenadas.";
pub const BELOW: &str = "Eso es menos que la dosis más baja de la etiqueta.";

#[must_use]
pub fn kind(kind: MeasureKind) -> &'static str {
    match kind {
        MeasureKind::Syringe => "Jeringa",
        MeasureKind::Cylinder => "Probeta",
        MeasureKind::Spoon => "Cuchara",
        MeasureKind::Jug => "Jarra",
        MeasureKind::Scale => "Balanza",
    }
}

/// The unit its boxes say.
#[must_use]
pub const fn unit(kind: MeasureKind) -> &'static str {
    if kind.weighs() { "g" } else { "mL" }
}

/// An amount without rounding: "12,34 mL", "1,25 L", "0,1 g".
#[must_use]
pub fn amount(amount: Amount) -> String {
    let (thousandths, small, large) = match amount {
        Amount::Volume(volume) => (volume.ul(), "mL", "L"),
        Amount::Mass(mass) => (mass.mg(), "g", "kg"),
    };
    // A litre is said where no more than two digits follow it.
    if thousandths >= 1_000_000 && thousandths % 10_000 == 0 {
        format!("{} {large}", decimal(thousandths / 1_000, 3))
    } else {
        format!("{} {small}", decimal(thousandths, 3))
    }
}

/// "Jeringa de 5 mL", "Balanza de 0,1 g": a scale goes by its steps, the others by what they hold.
#[must_use]
pub fn size(kind: MeasureKind, most: i64, graduation: i64) -> String {
    let figure = if kind.weighs() { graduation } else { most };
    let figure = amount(in_its_unit(kind.weighs(), figure));
    format!("{} de {figure}", self::kind(kind))
}

/// What it is called here, or its size.
#[must_use]
pub fn name(row: &MeasureRow) -> String {
    if row.name.is_empty() {
        size(row.measure.kind, row.measure.most, row.measure.graduation)
    } else {
        row.name.clone()
    }
}

/// "de 0,6 mL a 5 mL, marcas cada 0,2 mL".
#[must_use]
pub fn marks(row: &MeasureRow) -> String {
    let it = &row.measure;
    let figure = |smallest| amount(in_its_unit(it.kind.weighs(), smallest));
    if it.least == it.most {
        return format!("{} cada vez", figure(it.most));
    }
    let steps = if it.kind.weighs() {
        "pasos de"
    } else {
        "marcas cada"
    };
    format!(
        "de {} a {}, {steps} {}",
        figure(it.least),
        figure(it.most),
        figure(it.graduation)
    )
}

/// "Jeringa de 5 mL: 4 × 5 mL, luego 1 × 3,4 mL".
#[must_use]
pub fn step(step: &MeasuringStep) -> String {
    let fills: Vec<String> = step
        .fills
        .iter()
        .map(|(times, each)| format!("{times} × {}", amount(*each)))
        .collect();
    format!("{}: {}", name(&step.row), fills.join(", luego "))
}

/// What an entry says of a measure.
#[must_use]
pub fn set(it: &MeasureSet) -> String {
    if it.retired == Some(true) {
        return "Un medidor ya no se usa.".to_owned();
    }
    let name = it.name.clone().filter(|name| !name.is_empty());
    let size = match (it.kind, it.most, it.graduation) {
        (Some(kind), Some(most), Some(graduation)) => Some(size(kind, most, graduation)),
        _ => None,
    };
    match name.or(size) {
        Some(name) => format!("Medidor: {name}."),
        None => "Se leyeron de nuevo las marcas de un medidor.".to_owned(),
    }
}

fn per_cent(permille: i64) -> String {
    let permille = permille.abs();
    if permille == 0 {
        return "menos del 0,1 %".to_owned();
    }
    format!("{} %", decimal(permille, 1))
}

/// "23,4 mL en total: 0,6 % de menos."
#[must_use]
pub fn sum(total: Amount, exact: bool, over: bool, off_permille: i64) -> String {
    let total = amount(total);
    if exact {
        return format!("{total} en total: justo lo que toca.");
    }
    let side = if over { "de más" } else { "de menos" };
    format!("{total} en total: {} {side}.", per_cent(off_permille))
}

/// Where it lies between the label's lowest and highest rate.
#[must_use]
pub fn in_range(permille: i64) -> String {
    match permille {
        ..=0 => "La dosis más baja de la etiqueta.".to_owned(),
        1000.. => "La dosis más alta de la etiqueta.".to_owned(),
        within => format!(
            "Al {} del camino entre la dosis más baja de la etiqueta y la más alta.",
            per_cent(within)
        ),
    }
}

/// Why no fills are named, and what helps.
#[must_use]
pub fn cannot(why: &Measuring) -> String {
    match why {
        Measuring::NoMeasures | Measuring::Steps { .. } => QUIET.to_owned(),
        Measuring::NoScale => {
            "El polvo se pesa, y en el estante no hay balanza. Una cuchara no pesa.".to_owned()
        }
        Measuring::OnlyScales => {
            "El líquido se mide, y en el estante solo hay balanzas.".to_owned()
        }
        Measuring::TooOften => {
            "Tu medidor más grande se llenaría más de 20 veces: se pierde la cuenta. Usa uno mayor."
                .to_owned()
        }
        Measuring::TooCoarse {
            off_permille,
            water,
        } => {
            let off = off_permille.map_or_else(
                || "Ningún medidor del estante baja tanto.".to_owned(),
                |off| {
                    let off = per_cent(off);
                    format!("Ningún medidor del estante es bastante fino; el que más se acerca se desvía: {off}.")
                },
            );
            let water = water.map_or_else(String::new, |water| {
                let water = litres_exact(water);
                format!(" En {water} de agua se podría medir; o usa un medidor más fino.")
            });
            format!("{off}{water}")
        }
    }
}

/// What is wrong with a figure as typed.
#[must_use]
pub fn fault(fault: &MeasureFault) -> String {
    match &fault.fault {
        QuantityError::Empty => "Escribe lo que pone en él.".to_owned(),
        other => rejection::quantity(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use velamen_core::quantity::{Mass, Volume};
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_fill_keeps_every_digit_of_its_mark() {
        let ml = |ul| amount(Amount::Volume(Volume::from_ul(ul)));
        assert_eq!(ml(12_340), "12,34 mL");
        assert_eq!(ml(5_000), "5 mL");
        assert_eq!(ml(1_250_000), "1,25 L");
        assert_eq!(ml(1_251_000), "1251 mL");
        assert_eq!(amount(Amount::Mass(Mass::from_mg(100))), "0,1 g");
        assert_eq!(size(MeasureKind::Scale, 500_000, 100), "Balanza de 0,1 g");
    }

    #[wasm_bindgen_test]
    fn an_error_is_said_in_per_cent_and_small_ones_too() {
        let ml = |ul| Amount::Volume(Volume::from_ul(ul));
        assert_eq!(
            sum(ml(23_400), false, false, -6),
            "23,4 mL en total: 0,6 % de menos."
        );
        assert_eq!(
            sum(ml(23_400), false, true, 0),
            "23,4 mL en total: menos del 0,1 % de más."
        );
        assert_eq!(
            sum(ml(25_000), true, false, 0),
            "25 mL en total: justo lo que toca."
        );
    }
}
