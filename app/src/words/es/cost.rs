//! What pieces have cost, in words.

use velamen_core::event::PriceOf;
use velamen_core::view::cost::{Cost, CostLine, LeftOut};

use super::format::{counted, decimal, litres, money};
use super::{prices, trade};

pub const TITLE: &str = "Lo que ha costado";
pub const LINK: &str = "Lo que ha costado hasta ahora";
pub const NONE: &str = "Nada de lo que llevó tiene precio todavía.";
pub const NONE_HINT: &str = "Di en el Almacén lo que cuestan macetas, sustratos, una hora de trabajo y la bancada. Nada se supone.";
pub const THIS_LOT: &str = "Este lote";
pub const WITH_PARTS: &str = "con lo que se separó de él";
pub const ALIVE: &str = "una planta que vive";
pub const PIECE: &str = "una pieza en maceta";
pub const NOBODY_ALIVE: &str = "no vive ninguna";
pub const NOT_IN_IT: &str = "No está en estas sumas";
pub const BASIS: &str = "Cada maceta se cuenta a su precio, también las usadas. Lo que muchas comparten, una cuba o los minutos de una mata, se reparte por el número de plantas. Las que murieron las pagan las que viven; lo vendido vivía.";

#[must_use]
pub fn division(tray: u32) -> String {
    format!("La división de la bandeja {tray}")
}

/// "7 de 12 plantas viven o se vendieron".
#[must_use]
pub fn lived(cost: &Cost) -> String {
    format!(
        "{} de {} viven o se vendieron",
        cost.alive,
        trade::plants(i64::from(cost.plants))
    )
}

#[must_use]
pub fn sum(cost: &Cost) -> String {
    format!("Todo junto: {}", money(cost.cents, &cost.money))
}

/// One line: "Maceta 9 cm, 12: 3,60 €".
#[must_use]
pub fn line(line: &CostLine, sign: &str) -> String {
    let what = prices::of(&line.of, &line.name);
    let much = match &line.of {
        PriceOf::Pot(_) | PriceOf::Label => format!("{what}, {}", line.amount),
        PriceOf::Hour => format!("{what}, {}", counted(line.amount, "minuto", "minutos")),
        PriceOf::BenchMonth => {
            format!("{what}, {} m² durante un mes", decimal(line.amount, 2))
        }
        PriceOf::Product(_) if line.weighs => format!("{what}, {} g", decimal(line.amount, 3)),
        PriceOf::Product(_) => format!("{what}, {} mL", decimal(line.amount, 3)),
        _ => format!(
            "{what}, {}",
            litres(velamen_core::quantity::Volume::from_ul(line.amount))
        ),
    };
    format!("{much}: {}", money(line.cents, sign))
}

/// Something that is not in the sum.
#[must_use]
pub fn left_out(left: &LeftOut) -> String {
    match left {
        LeftOut::NoPrice { of, name } => {
            format!("{}: sin precio, no se cuenta.", prices::of(of, name))
        }
        LeftOut::NoSize { of, name } => format!(
            "{}: sin el tamaño de su envase en esa unidad, no se cuenta.",
            prices::of(of, name)
        ),
        LeftOut::NotMeasured { stands } => format!(
            "{} sin medir: no se cuentan su bancada ni quizá el sustrato y la piedra.",
            counted(i64::from(*stands), "maceta o bandeja", "macetas o bandejas")
        ),
        LeftOut::NoMix => "Macetas de las que no se dijo el sustrato: no se cuenta.".to_owned(),
        LeftOut::NoAmount { treatments } => format!(
            "{} sin cantidad medida: no se cuenta.",
            counted(i64::from(*treatments), "tratamiento", "tratamientos")
        ),
        LeftOut::NoTime => "Los minutos de una mata sin terminar o sin tiempo medido.".to_owned(),
        LeftOut::Plant => "Lo que costó comprar la planta.".to_owned(),
        LeftOut::Care => "Regar, abonar, la ronda y el trabajo posterior.".to_owned(),
    }
}
