//! Before the cut, in words.

use chrono::NaiveDate;
use velamen_core::cut::{Against, Due, Needs, PotNeed, RepotNow};
use velamen_core::event::{CutPlan, DivisionPlanned, PieceClass, RoughSize, Way};
use velamen_core::outlook::Span;
use velamen_core::quantity::Volume;
use velamen_core::reference::taxa::Unit;

use super::format::{counted, full_day, kilograms, litres, near_day, short_day, whole_millimetres};
use super::outlook::span;
use super::trade;

pub const TITLE: &str = "Antes del corte";
pub const BEFORE: &str = "¿En qué se convertiría?";
pub const NOTHING: &str = "Elige antes lo que viene a la mesa.";
pub const KNOWN: &str = "Lo que ves";
pub const KNOWN_NOTE: &str =
    "basta con calcular a ojo; no hace falta sacarla de la maceta ni contar";
pub const LEADS: &str = "Guías";
pub const OFFSHOOTS_SEEN: &str = "Hijuelos con raíces";
pub const SIZE: &str = "¿Cómo de llena está cada maceta?";
pub const REPOT_NOW: &str = "¿Trasplantar ahora?";
pub const SIDE_BY_SIDE: &str = "Lado a lado";
pub const SIDE_NOTE: &str = "lo probable, y entre cuánto";
pub const WHICH: &str = "¿Qué quieres?";
pub const OWN_NUMBERS: &str = "Tus propios números";
pub const WHEN: &str = "Cuándo, si no es hoy";
pub const PLAN_IT: &str = "Preverlo así";
pub const PLANNED: &str = "Previsto. Irá también a la mesa.";
pub const DROP: &str = "Quitar el plan";
pub const DROPPED: &str = "El plan se ha quitado.";
pub const NOT_SEEN: &str = "sin mirar";
pub const POTS: &str = "Macetas";
pub const MIX: &str = "Sustrato, suelto";
pub const STONE: &str = "Piedra";
pub const MINUTES: &str = "Minutos en la mesa";
pub const BENCH: &str = "Bancada, borde con borde";
pub const WHOLE: &str = "Plantas enteras";
pub const IS_PLANNED: &str = "previsto";
pub const THE_LOT: &str = "este lote";
pub const THE_CLUMP: &str = "esta mata";
pub const THE_BENCH: &str = "la mesa";
pub const NONE: &str = "–";
pub const ORIGIN: &str = "Tamaños de las piezas según sus fuentes en la lista de orígenes; sitio en la maceta, minutos y lo que quiere decir cada tamaño: práctica común, sin fuente. Flores y venta: lo habitual en una clase, corregido por lo que ha visto este libro. Una pieza cortada pequeña florece más tarde, y una mata cortada florece menos en la época siguiente.";
pub const ONE_STEM: &str = "Una planta de un solo tallo: no se divide. Los hijuelos y el esqueje de punta se separan con raíces vivas.";

/// A way, as a heading and a choice.
#[must_use]
pub fn way(way: Way) -> &'static str {
    match way {
        Way::KeepWhole => "Dejar entera",
        Way::FewLarge => "Pocas grandes",
        Way::ManySmall => "Muchas pequeñas",
        Way::Offshoots => "Hijuelos",
        Way::TopCut => "Esqueje de punta",
        Way::Own => "A mi modo",
    }
}

/// What is guessed at: bulbs, growths.
#[must_use]
pub fn growths_roughly(unit: Unit) -> &'static str {
    match unit {
        Unit::Bulbs => "Bulbos, más o menos",
        Unit::Canes => "Cañas, más o menos",
        Unit::Leaves => "Hojas, más o menos",
        Unit::Growths | Unit::Roots => "Brotes, más o menos",
    }
}

/// How full a pot is.
#[must_use]
pub fn size(size: RoughSize) -> &'static str {
    match size {
        RoughSize::Small => "Con sitio",
        RoughSize::Middling => "Llena",
        RoughSize::Large => "Se sale",
    }
}

/// What lies there, in a line: "3 macetas crecidas juntas", "6 plantas en 6 macetas".
#[must_use]
pub fn there(wholes: u32, pots: u32) -> String {
    if wholes == 1 && pots > 1 {
        super::repot::grown_together(u64::from(pots))
    } else {
        format!(
            "{} en {}",
            trade::plants(i64::from(wholes)),
            trade::pots(i64::from(pots))
        )
    }
}

/// What that comes to: "Se cuenta con 12 (de 9 a 15) bulbos y 3 guías."
#[must_use]
pub fn reckoned(growths: Span, leads: Span, unit: Unit) -> String {
    let what = |count: Span, one: &'static str, many: &'static str| {
        let word = if (count.low, count.high) == (1, 1) {
            one
        } else {
            many
        };
        format!("{} {word}", span(count))
    };
    let growths = match unit {
        Unit::Bulbs => what(growths, "bulbo", "bulbos"),
        Unit::Canes => what(growths, "caña", "cañas"),
        Unit::Leaves => what(growths, "hoja", "hojas"),
        Unit::Growths | Unit::Roots => what(growths, "brote", "brotes"),
    };
    format!(
        "Se cuenta con {growths} y {}.",
        what(leads, "guía", "guías")
    )
}

/// A number with its range for a narrow column: "3" over "2 a 4".
#[must_use]
pub fn range(span: Span) -> Option<String> {
    (span.low != span.high).then(|| format!("{} a {}", span.low, span.high))
}

/// Pots of one kind: "3 × 17 cm", "1 bandeja".
#[must_use]
pub fn pots(need: &PotNeed) -> String {
    if need.tray {
        return counted(i64::from(need.stands), "bandeja", "bandejas");
    }
    if need.name.is_empty() {
        return format!(
            "{} de {}",
            need.stands,
            whole_millimetres(i64::from(need.room_mm) * 1_000)
        );
    }
    let narrow = if need.narrow { ", justa" } else { "" };
    format!("{} × {}{narrow}", need.stands, need.name)
}

/// Stone with its weight.
#[must_use]
pub fn stone(needs: &Needs) -> String {
    if needs.stone == Volume::ZERO {
        return NONE.to_owned();
    }
    format!("{}, {}", litres(needs.stone), kilograms(needs.stone_mass))
}

#[must_use]
pub fn mix(needs: &Needs) -> String {
    if needs.mix == Volume::ZERO {
        NONE.to_owned()
    } else {
        litres(needs.mix)
    }
}

/// The head of a season's row.
#[must_use]
pub fn flowers_in(month: NaiveDate) -> String {
    format!("En flor, {}", super::format::month_year(month))
}

/// The head of a year's row.
#[must_use]
pub fn saleable_in(years: u8) -> String {
    format!(
        "Para vender, en {}",
        counted(i64::from(years), "año", "años")
    )
}

/// What speaks against the plan.
#[must_use]
pub fn against(it: &Against) -> String {
    match it {
        Against::MoreThanGrowths { needed, there } => format!(
            "Las piezas del tamaño mínimo se llevan {needed}, y hay {}. Algunas serán demasiado pequeñas para vivir o para florecer.",
            span(*there)
        ),
        Against::MoreThanLeads { pieces, there } => format!(
            "Piezas que quieren una guía cada una: {pieces}; guías que hay: {}. Una pieza sin guía es un bulbo trasero.",
            span(*there)
        ),
        Against::OneStem => ONE_STEM.to_owned(),
        Against::NoBackBulbs => {
            "Los brotes viejos de este tipo no dan brote nuevo; déjalos en las piezas.".to_owned()
        }
        Against::Nothing => "No se conservaría nada.".to_owned(),
    }
}

/// Whether to repot, in a line.
#[must_use]
pub fn due(it: &RepotNow, today: NaiveDate) -> String {
    match it.due {
        Due::Now => "Sí: ya toca, y está en su época.".to_owned(),
        Due::NowOutOfSeason { opens_on: Some(on) } => format!(
            "Sí, fuera de su época: el sustrato ya no aguanta hasta que empiece, {}.",
            near_day(on, today)
        ),
        Due::NowOutOfSeason { opens_on: None } => "Sí: ya toca.".to_owned(),
        Due::Wait { opens_on } => format!(
            "Ya toca; mejor cuando empiece su época, {}.",
            near_day(opens_on, today)
        ),
        Due::NotYet => "Aún no lo pide nada.".to_owned(),
        Due::NotKnown => "Nadie anotó cuándo se puso en maceta: mira el sustrato.".to_owned(),
    }
}

/// The reasons, in a line.
#[must_use]
pub fn reasons(it: &RepotNow, today: NaiveDate) -> String {
    let mut said = Vec::new();
    if let (Some(on), Some(months), Some(pct)) = (it.potted_on, it.months, it.life_pct) {
        let whose = if it.own_life {
            "su sustrato"
        } else {
            "un sustrato así"
        };
        said.push(format!(
            "En maceta desde el {}, hace {}: {pct} % de los {} meses que aguanta {whose}",
            short_day(on, today),
            counted(i64::from(months), "mes", "meses"),
            it.life_months
        ));
        said.push(format!(
            "los de su tipo se trasplantan cada {} a {} meses",
            it.usual_months.0, it.usual_months.1
        ));
    }
    if let Some(on) = it.outgrown_on {
        said.push(format!(
            "no cabe en su maceta desde el {}",
            short_day(on, today)
        ));
    }
    if it.window_open && !it.windows.is_empty() {
        said.push("está en su época".to_owned());
    }
    said.join("; ")
}

/// What was said of a class: "previsto 6", "previsto 6 (de 4 a 8)".
#[must_use]
pub fn said(plan: &CutPlan, class: PieceClass) -> Option<String> {
    let (low, plants, high) = plan.of_class(class)?;
    let said = span(Span {
        low,
        middle: plants,
        high,
    });
    Some(format!("previsto {said}"))
}

/// Said and come off, at the end.
#[must_use]
pub fn compared(plan: &CutPlan, class: PieceClass, off: u64) -> Option<String> {
    let said = said(plan, class);
    if said.is_none() && off == 0 {
        return None;
    }
    let said = said.unwrap_or_else(|| "sin prever".to_owned());
    let came = if off == 1 { "salió" } else { "salieron" };
    Some(format!("{}: {said}, {came} {off}", trade::class(class)))
}

/// A plan in a line: "Pocas grandes: 3 para florecer, 6 bulbos traseros, el 11 de marzo de 2027".
#[must_use]
pub fn plan(plan: &CutPlan) -> String {
    let mut parts: Vec<String> = plan
        .pieces
        .iter()
        .map(|row| format!("{} {}", row.plants, trade::class(row.class).to_lowercase()))
        .collect();
    match plan.whole {
        0 => {}
        1 => parts.push(format!("{} entera", trade::plants(1))),
        whole => parts.push(format!("{} enteras", trade::plants(i64::from(whole)))),
    }
    let on = plan
        .by_on
        .map(|on| format!(", el {}", full_day(on)))
        .unwrap_or_default();
    format!("{}: {}{on}", way(plan.way), parts.join(", "))
}

/// The entry as a sentence.
#[must_use]
pub fn planned(it: &DivisionPlanned, lots: &str) -> String {
    let of = if lots.is_empty() {
        String::new()
    } else {
        format!("{lots}: ")
    };
    match &it.plan {
        Some(kept) => format!("{of}previsto, {}.", plan(kept)),
        None => format!("{of}se quitó el plan."),
    }
}
