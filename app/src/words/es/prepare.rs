//! What to bring to the bench, in words.

use chrono::NaiveDate;
use velamen_core::quantity::Volume;
use velamen_core::view::prepare::{Bags, Item, PrepareRow, PreparedWork, Preparing};

use super::format::{self, counted, litres, litres_exact, near_day, whole_millimetres};
use super::outlook::span;
use super::{cut, shed, trade};

pub const TITLE: &str = "A la mesa";
pub const LINK: &str = "Qué llevar";
pub const HINT: &str =
    "Para lo previsto o lo que toca en las próximas cuatro semanas. Toca lo que ya esté listo.";
pub const NONE: &str = "En la mesa no hay nada previsto ni toca nada.";
pub const NONE_HINT: &str = "Prevé un corte desde la página de un lote, o espera a la Ronda.";
pub const FOR_WHAT: &str = "Para este trabajo";
pub const SIZES: &str = "Tamaños de sacos y paquetes";
pub const THERE: &str = "listo";
pub const ORIGIN: &str = "Un lote sin plan se cuenta entero. Macetas con sitio para dos años, partes antes de mezclar, asentamiento y minutos: práctica común, sin fuente.";

fn amount(item: &Item, amount: i64) -> String {
    if item.is_volume() {
        litres(Volume::from_ul(amount))
    } else {
        amount.to_string()
    }
}

/// A row's head: "12 × 17 cm", "4,2 L Corteza mediana".
#[must_use]
pub fn item(row: &PrepareRow) -> String {
    let needed = amount(&row.item, row.needed);
    match &row.item {
        Item::Pot(_) => format!("{needed} × {}", row.name),
        Item::Width(mm) => format!(
            "{} de {}",
            counted(row.needed, "maceta", "macetas"),
            whole_millimetres(i64::from(*mm) * 1_000)
        ),
        Item::Trays => counted(row.needed, "bandeja", "bandejas"),
        Item::Mix(_) => format!("{needed} {}", row.name),
        Item::Part(key) => format!("{needed} {}", shed::component(key)),
        Item::AnyMix => format!("{needed} de sustrato"),
        Item::Stone => format!("{needed} de piedra, lavada"),
        Item::Labels => counted(row.needed, "etiqueta", "etiquetas"),
    }
}

/// What stands there: "5 limpias, 4 por lavar, faltan 3".
#[must_use]
pub fn stands(row: &PrepareRow) -> Option<String> {
    let mut said = Vec::new();
    if let Some(ready) = row.ready {
        said.push(if row.item.is_volume() {
            format!("{} limpios", amount(&row.item, ready))
        } else {
            counted(ready, "limpia", "limpias")
        });
    }
    if row.to_wash > 0 {
        said.push(format!("{} por lavar", amount(&row.item, row.to_wash)));
    }
    match row.short {
        Some(0) => said.push("basta".to_owned()),
        Some(short) => {
            let missing = amount(&row.item, short);
            said.push(if missing == "1" {
                "falta 1".to_owned()
            } else {
                format!("faltan {missing}")
            });
        }
        None if matches!(row.item, Item::Pot(_) | Item::Stone) => {
            said.push("nadie lo ha contado".to_owned());
        }
        None => {}
    }
    if let Some(it) = row.bags {
        said.push(bags(&row.item, it));
    }
    (!said.is_empty()).then(|| said.join(", "))
}

/// "2 sacos de 60 L".
fn bags(item: &Item, bags: Bags) -> String {
    let count = i64::from(bags.bags);
    if item.is_volume() {
        let holds = litres_exact(Volume::from_ul(bags.holds));
        format!("{} de {holds}", counted(count, "saco", "sacos"))
    } else {
        format!(
            "{} de {}",
            counted(count, "paquete", "paquetes"),
            bags.holds
        )
    }
}

/// Minutes and ground.
#[must_use]
pub fn sums(list: &Preparing) -> Vec<String> {
    let mut said = vec![format!("{} minutos en la mesa", span(list.minutes))];
    if list.wash_minutes > 0 {
        said.push(format!(
            "{} de lavado antes",
            counted(i64::from(list.wash_minutes), "minuto", "minutos")
        ));
    }
    said.push(format!(
        "{} de bancada, borde con borde; las macetas viejas dejan {}",
        format::square_metres(list.bench_cm2),
        format::square_metres(list.freed_cm2)
    ));
    if list.unmeasured > 0 {
        said.push(format!(
            "{} sin medir: no entra en litros ni en sitio",
            counted(
                i64::from(list.unmeasured),
                "maceta o bandeja",
                "macetas o bandejas"
            )
        ));
    }
    said
}

/// One job: "el sábado, pocas grandes, 9 piezas".
#[must_use]
pub fn job(work: &PreparedWork, today: NaiveDate) -> String {
    let how = if work.planned {
        cut::way(work.way).to_lowercase()
    } else {
        "toca, aún sin plan: entera".to_owned()
    };
    format!(
        "{}, {how}, {}",
        near_day(work.on, today),
        trade::pieces(i64::from(work.pieces))
    )
}
