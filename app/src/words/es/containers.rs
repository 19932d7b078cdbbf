//! Words for bottles, jars and bags on the shelf, what is left in them, and what to buy.

use chrono::NaiveDate;
use velamen_core::container_draft::ContainerFault;
use velamen_core::event::{ContainerCounted, ContainerSet, ContainerUsed, Held, UsedWhy};
use velamen_core::quantity::{Amount, QuantityError};
use velamen_core::view::buying::{BuyRow, Shelf};
use velamen_core::view::containers::{ContainerRow, Dated};

use super::format::{counted, full_day, near_day, short_day};
use super::measure::amount;
use crate::words::parts::capital;

pub const TITLE: &str = "En el estante";
pub const NEW: &str = "Poner un envase en el estante";
pub const NEW_TITLE: &str = "Un envase para el estante";
pub const NONE_YET: &str = "Ninguno todavía. Con sus envases aquí, cada baño toma de uno, y lo que se acaba se dice a tiempo.";
pub const HELD: &str = "Contiene, según dice";
pub const HELD_HINT: &str = "Con su unidad: 500 mL, 1 L, 250 g, 1 kg";
pub const LEFT_NOW: &str = "Lo que queda ahora";
pub const LEFT_NOW_HINT: &str = "En blanco si está lleno.";
pub const BATCH: &str = "Número de partida que lleva";
pub const OPENED: &str = "Abierto el";
pub const EXPIRES: &str = "Sirve hasta el";
pub const COUNT: &str = "Volver a contarlo";
pub const COUNT_HINT: &str =
    "Míralo a contraluz, o pésalo. Lo que se calcula aquí es una estimación.";
pub const COUNTED: &str = "Eso es lo que queda";
pub const GONE: &str = "Salió algo sin tratar ninguna planta";
pub const GONE_HOW_MUCH: &str = "Cuánto";
pub const SPILT: &str = "Se derramó";
pub const TAKE_OFF: &str = "Descontarlo";
pub const STANDS_ON_IT: &str = "Lo que pone en él";
pub const EMPTY: &str = "Está vacío, o ya no está";
pub const EMPTY_HINT: &str = "Enjuágalo tres veces enseguida, salvo que su etiqueta diga otra cosa: escúrrelo medio minuto, llena una cuarta parte, ciérralo, agita medio minuto, échalo al baño. Luego llévalo adonde diga la etiqueta. Sus usos siguen en el registro.";
pub const ADDED: &str = "envase en el estante";
pub const TAKEN_FROM: &str = "Tomado de";
pub const ANOTHER: &str = "Otro envase";
pub const SPILL_CAUTION: &str = "Con guantes. Recógelo con arena o tierra absorbente, en una bolsa aparte; nada por un desagüe.";

pub const BUY: &str = "Qué comprar";
pub const BUY_HINT: &str =
    "Para los tratamientos previstos en las próximas cuatro semanas. Marca lo que ya has comprado.";
pub const BUY_NONE: &str = "No hay ningún tratamiento previsto en las próximas cuatro semanas.";
pub const BUY_ORIGIN: &str = "Lo que gastará un tratamiento es la mediana de los últimos usos, llevada a esas plantas. Deciden la etiqueta y la cubeta.";
pub const BOUGHT: &str = "comprado";
pub const PRINT: &str = "Imprimir esta lista";

/// "quedan 340 mL de 500 mL".
#[must_use]
pub fn left(row: &ContainerRow) -> String {
    let held = amount(row.held.amount(row.held.figure()));
    match row.left {
        Some(left) => format!("quedan {} de {held}", amount(left)),
        None => format!("{held}; no se contó lo que queda"),
    }
}

/// "mL que quedan de 500 mL".
#[must_use]
pub fn left_of(unit: &str, held: Amount) -> String {
    format!("{unit} que quedan de {}", amount(held))
}

/// What a container is called where several are told apart: its batch, or when it was opened.
#[must_use]
pub fn name(row: &ContainerRow, today: NaiveDate) -> String {
    let opened = match row.opened_on {
        Some(on) => format!("abierto el {}", short_day(on, today)),
        None => "sin abrir".to_owned(),
    };
    if row.batch.is_empty() {
        capital(&opened)
    } else {
        format!("Partida {}; {opened}", row.batch)
    }
}

/// What is wrong with a container, worst first.
#[must_use]
pub fn warnings(row: &ContainerRow) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(on) = row.expires_on {
        match row.dated {
            Dated::Expired => said.push(format!(
                "Caducado: servía hasta el {}. Pregunta dónde se puede entregar.",
                full_day(on)
            )),
            Dated::Soon => said.push(format!("Sirve solo hasta el {}.", full_day(on))),
            Dated::Good => {}
        }
    }
    if row.overdrawn {
        said.push("Se tomó más de lo que contenía. Vuelve a contarlo.".to_owned());
    } else if row.low {
        said.push(
            "Queda poco: menos de lo que gasta un uso corriente, o una décima parte.".to_owned(),
        );
    }
    match row.other_unit {
        0 => {}
        1 => said.push("1 uso medido en la otra unidad no descontó nada.".to_owned()),
        uses => said.push(format!(
            "{uses} usos medidos en la otra unidad no descontaron nada."
        )),
    }
    said
}

/// Less in it than is to be measured.
#[must_use]
pub fn lacks(row: &ContainerRow) -> String {
    let left = row.left.map(amount).unwrap_or_default();
    format!(
        "Según el cálculo solo quedan {left}. Vuelve a contarlo, o toma el resto de otro; se anota de todos modos."
    )
}

/// "Anotado. Según el libro solo quedaban 40 mL…".
#[must_use]
pub fn more_than_held(left: Amount) -> String {
    format!(
        "Anotado. Según el libro solo quedaban {} en ese envase: vuelve a contarlo.",
        amount(left)
    )
}

#[must_use]
pub fn expired(on: NaiveDate) -> String {
    format!("Anotado. Ese envase servía hasta el {}.", full_day(on))
}

/// The grams or millilitres that were wanted.
#[must_use]
pub const fn other_unit(weighs: bool) -> &'static str {
    if weighs {
        "Se llenó por peso: escribe gramos."
    } else {
        "Se llenó por volumen: escribe mililitros."
    }
}

/// What is wrong with a figure as typed.
#[must_use]
pub fn fault(fault: &ContainerFault) -> String {
    let words = match fault {
        ContainerFault::OtherUnit { weighs } => other_unit(*weighs),
        ContainerFault::MoreThanItHolds => {
            "Es más de lo que contiene. Corrige lo que contiene, o cuenta otra vez."
        }
        ContainerFault::Typed(QuantityError::Empty) => {
            "Escribe cuánto, con su unidad: 500 mL, 1 kg."
        }
        ContainerFault::Typed(QuantityError::NoUnit { .. }) => "Añade la unidad: 500 mL, 1 kg.",
        ContainerFault::Typed(QuantityError::Negative | QuantityError::Zero) => {
            "Tiene que ser más de cero."
        }
        ContainerFault::Typed(QuantityError::TooLarge { .. }) => "Es demasiado grande.",
        ContainerFault::Typed(QuantityError::AmbiguousUnit { .. }) => {
            "Esa unidad significa varias cosas: escribe mL, L, g o kg."
        }
        ContainerFault::Typed(_) => "No es una cantidad. Escríbela con su unidad: 500 mL, 1 kg.",
    };
    words.to_owned()
}

/// What an entry says of a container.
#[must_use]
pub fn set(it: &ContainerSet) -> String {
    if it.retired == Some(true) {
        return "Un envase está vacío o ya no está.".to_owned();
    }
    let mut said = Vec::new();
    if let Some(held) = it.held() {
        said.push(figure(held));
    }
    if let Some(batch) = it.batch.as_ref().filter(|batch| !batch.is_empty()) {
        said.push(format!("partida {batch}"));
    }
    if let Some(on) = it.opened_on {
        said.push(format!("abierto el {}", full_day(on)));
    }
    if let Some(on) = it.expires_on {
        said.push(format!("sirve hasta el {}", full_day(on)));
    }
    if said.is_empty() {
        "Se cambió un envase.".to_owned()
    } else {
        format!("Envase: {}.", said.join(", "))
    }
}

fn figure(held: Held) -> String {
    amount(held.amount(held.figure()))
}

/// "Se contó un envase: quedan 120 mL, se habían calculado 150 mL."
#[must_use]
pub fn counted_again(it: &ContainerCounted) -> String {
    let left = it.held();
    let reckoned = it.believed.map_or_else(String::new, |believed| {
        let believed = figure(left.with(believed.max(0)));
        format!(", se habían calculado {believed}")
    });
    format!("Se contó un envase: quedan {}{reckoned}.", figure(left))
}

#[must_use]
pub fn used(it: &ContainerUsed) -> String {
    let why = match it.why {
        UsedWhy::Spilt => "se derramó",
        UsedWhy::MixedUnused => "se mezcló y se tiró sin usar",
        UsedWhy::Other => "salió sin tratar ninguna planta",
    };
    format!("{} de un envase: {why}.", figure(it.held()))
}

/// What a question says of a container that more was taken from than it held.
#[must_use]
pub fn overdrawn(product: &str) -> String {
    format!(
        "De un envase de {product} se tomó más de lo que contenía. Cuenta lo que queda en él, o di cuál era."
    )
}

/// "Unos 30 mL para 10 plantas, primero el 15 mar; la mediana de 3 usos."
#[must_use]
pub fn needs(row: &BuyRow, today: NaiveDate) -> String {
    let plants = counted(i64::from(row.plants), "planta", "plantas");
    let when = near_day(row.first_on, today);
    let times = if row.times > 1 {
        format!(", {} tratamientos", row.times)
    } else {
        String::new()
    };
    match row.needed {
        Some(needed) => format!(
            "Unos {} para {plants}{times}, primero {when}; la mediana de {}.",
            amount(needed),
            counted(i64::from(row.uses), "uso", "usos")
        ),
        None => {
            format!("Para {plants}{times}, primero {when}; aún no se ha medido nada de él.")
        }
    }
}

/// What stands on the shelf of it.
#[must_use]
pub fn shelf(row: &BuyRow) -> String {
    match (row.shelf, row.short) {
        (Shelf::NotKept, _) => "Aquí no se lleva ningún envase de él: mira.".to_owned(),
        (Shelf::Unknown, _) => "No se sabe lo que queda: cuéntalo.".to_owned(),
        (Shelf::Left(left), None) => format!("Basta: quedan {} sin caducar.", amount(left)),
        (Shelf::Left(left), Some(short)) => {
            format!(
                "Faltan {}; quedan {} sin caducar.",
                amount(short),
                amount(left)
            )
        }
    }
}

/// Planned treatments without a product.
#[must_use]
pub fn open(on: NaiveDate, plants: u32, today: NaiveDate) -> String {
    format!(
        "Para {}: un tratamiento de {} aún sin producto elegido.",
        near_day(on, today),
        counted(i64::from(plants), "planta", "plantas")
    )
}

/// The row of the Round.
#[must_use]
pub fn missing_soon(rows: &[BuyRow], today: NaiveDate) -> String {
    let names: Vec<&str> = rows.iter().map(|row| row.label_name.as_str()).collect();
    let first = rows.iter().map(|row| row.first_on).min();
    let when = first.map_or_else(String::new, |on| format!(" para {}", near_day(on, today)));
    format!("No hay bastante en el estante{when}: {}", names.join(", "))
}
