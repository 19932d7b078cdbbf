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

pub const TITLE: &str = "Before the cut";
pub const BEFORE: &str = "What would it become?";
pub const NOTHING: &str = "Choose what comes to the bench first.";
pub const KNOWN: &str = "What you see";
pub const KNOWN_NOTE: &str = "a guess is enough; nothing is unpotted or counted for it";
pub const LEADS: &str = "Leads";
pub const OFFSHOOTS_SEEN: &str = "Offshoots with roots";
pub const SIZE: &str = "How full is each pot?";
pub const REPOT_NOW: &str = "Repot now?";
pub const SIDE_BY_SIDE: &str = "Side by side";
pub const SIDE_NOTE: &str = "likely, and between what";
pub const WHICH: &str = "What do you want?";
pub const OWN_NUMBERS: &str = "Your own numbers";
pub const WHEN: &str = "When, if not today";
pub const PLAN_IT: &str = "Plan it so";
pub const PLANNED: &str = "Planned. It comes along to the bench.";
pub const DROP: &str = "Drop the plan";
pub const DROPPED: &str = "The plan is dropped.";
pub const NOT_SEEN: &str = "not looked";
pub const POTS: &str = "Pots";
pub const MIX: &str = "Mix, loose";
pub const STONE: &str = "Stone";
pub const MINUTES: &str = "Minutes at the bench";
pub const BENCH: &str = "Bench, rim to rim";
pub const WHOLE: &str = "Whole plants";
pub const IS_PLANNED: &str = "planned";
pub const THE_LOT: &str = "the lot";
pub const THE_CLUMP: &str = "the clump";
pub const THE_BENCH: &str = "the bench";
pub const NONE: &str = "–";
pub const ORIGIN: &str = "Sizes of pieces by their sources in the list of origins; room in the pot, minutes and what a size means: common practice, no source. Flowers and sale: what is usual for a class, moved by what this book has seen. A piece that is cut small flowers later, and a clump that was cut flowers less the season after.";
pub const ONE_STEM: &str =
    "A plant of one stem: it is not divided. Offshoots and a top come off with live roots.";

/// A way, as a heading and a choice.
#[must_use]
pub fn way(way: Way) -> &'static str {
    match way {
        Way::KeepWhole => "Keep whole",
        Way::FewLarge => "Few large",
        Way::ManySmall => "Many small",
        Way::Offshoots => "Offshoots",
        Way::TopCut => "Top cut",
        Way::Own => "My own",
    }
}

/// What is guessed at: bulbs, growths.
#[must_use]
pub fn growths_roughly(unit: Unit) -> &'static str {
    match unit {
        Unit::Bulbs => "Bulbs, roughly",
        Unit::Canes => "Canes, roughly",
        Unit::Leaves => "Leaves, roughly",
        Unit::Growths | Unit::Roots => "Growths, roughly",
    }
}

/// How full a pot is.
#[must_use]
pub fn size(size: RoughSize) -> &'static str {
    match size {
        RoughSize::Small => "Room left",
        RoughSize::Middling => "Full",
        RoughSize::Large => "Over the rim",
    }
}

/// What lies there, in a line: "3 pots grown together", "6 plants in 6 pots".
#[must_use]
pub fn there(wholes: u32, pots: u32) -> String {
    if wholes == 1 && pots > 1 {
        super::repot::grown_together(u64::from(pots))
    } else {
        format!(
            "{} in {}",
            trade::plants(i64::from(wholes)),
            trade::pots(i64::from(pots))
        )
    }
}

/// What that comes to: "12 bulbs (9 to 15), 3 leads".
#[must_use]
pub fn reckoned(growths: Span, leads: Span, unit: Unit) -> String {
    let what = match unit {
        Unit::Bulbs => "bulbs",
        Unit::Canes => "canes",
        Unit::Leaves => "leaves",
        Unit::Growths | Unit::Roots => "growths",
    };
    format!(
        "Taken as {} {what} and {} leads.",
        span(growths),
        span(leads)
    )
}

/// A number with its range for a narrow column: "3" over "2 to 4".
#[must_use]
pub fn range(span: Span) -> Option<String> {
    (span.low != span.high).then(|| format!("{} to {}", span.low, span.high))
}

/// Pots of one kind: "3 × 17 cm", "1 tray".
#[must_use]
pub fn pots(need: &PotNeed) -> String {
    if need.tray {
        return counted(i64::from(need.stands), "tray", "trays");
    }
    if need.name.is_empty() {
        return format!(
            "{} of {}",
            need.stands,
            whole_millimetres(i64::from(need.room_mm) * 1_000)
        );
    }
    let narrow = if need.narrow { ", narrow" } else { "" };
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
    format!("In flower, {}", super::format::month_year(month))
}

/// The head of a year's row.
#[must_use]
pub fn saleable_in(years: u8) -> String {
    format!("To sell, in {}", counted(i64::from(years), "year", "years"))
}

/// What speaks against the plan.
#[must_use]
pub fn against(it: &Against) -> String {
    match it {
        Against::MoreThanGrowths { needed, there } => format!(
            "Pieces of the least size take {needed}, and there are {}. Some will be too small to live or to flower.",
            span(*there)
        ),
        Against::MoreThanLeads { pieces, there } => format!(
            "{pieces} pieces want a lead each, and there are {} leads. A piece without one is a back-bulb.",
            span(*there)
        ),
        Against::OneStem => ONE_STEM.to_owned(),
        Against::NoBackBulbs => {
            "Old growths of this kind make no shoot; leave them on the pieces.".to_owned()
        }
        Against::Nothing => "Nothing would be kept.".to_owned(),
    }
}

/// Whether to repot, in a line.
#[must_use]
pub fn due(it: &RepotNow, today: NaiveDate) -> String {
    match it.due {
        Due::Now => "Yes: it is time, and its window is open.".to_owned(),
        Due::NowOutOfSeason { opens_on: Some(on) } => format!(
            "Yes, out of its season: the mix is past waiting for {}.",
            near_day(on, today)
        ),
        Due::NowOutOfSeason { opens_on: None } => "Yes: it is time.".to_owned(),
        Due::Wait { opens_on } => format!(
            "It is time; better when its window opens, {}.",
            near_day(opens_on, today)
        ),
        Due::NotYet => "Nothing asks for it yet.".to_owned(),
        Due::NotKnown => "Nobody wrote down when it was potted: look at the mix.".to_owned(),
    }
}

/// The reasons, in a line.
#[must_use]
pub fn reasons(it: &RepotNow, today: NaiveDate) -> String {
    let mut said = Vec::new();
    if let (Some(on), Some(months), Some(pct)) = (it.potted_on, it.months, it.life_pct) {
        let whose = if it.own_life { "its mix" } else { "such mix" };
        said.push(format!(
            "Potted {}, {} ago: {pct} % of the {} months {whose} holds",
            short_day(on, today),
            counted(i64::from(months), "month", "months"),
            it.life_months
        ));
        said.push(format!(
            "its kind is repotted every {} to {} months",
            it.usual_months.0, it.usual_months.1
        ));
    }
    if let Some(on) = it.outgrown_on {
        said.push(format!("out of its pot since {}", short_day(on, today)));
    }
    if it.window_open && !it.windows.is_empty() {
        said.push("its window is open".to_owned());
    }
    said.join("; ")
}

/// What was said of a class: "said 6", "said 6 (4 to 8)".
#[must_use]
pub fn said(plan: &CutPlan, class: PieceClass) -> Option<String> {
    let (low, plants, high) = plan.of_class(class)?;
    let said = span(Span {
        low,
        middle: plants,
        high,
    });
    Some(format!("said {said}"))
}

/// Said and come off, at the end.
#[must_use]
pub fn compared(plan: &CutPlan, class: PieceClass, off: u64) -> Option<String> {
    let said = said(plan, class);
    if said.is_none() && off == 0 {
        return None;
    }
    let said = said.unwrap_or_else(|| "said none".to_owned());
    Some(format!("{}: {said}, came off {off}", trade::class(class)))
}

/// A plan in a line: "Few large: 3 to flower, 6 back-bulbs, on 11 March 2027".
#[must_use]
pub fn plan(plan: &CutPlan) -> String {
    let mut parts: Vec<String> = plan
        .pieces
        .iter()
        .map(|row| format!("{} {}", row.plants, trade::class(row.class).to_lowercase()))
        .collect();
    if plan.whole > 0 {
        parts.push(format!("{} whole", trade::plants(i64::from(plan.whole))));
    }
    let on = plan
        .by_on
        .map(|on| format!(", on {}", full_day(on)))
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
        Some(kept) => format!("{of}planned, {}.", plan(kept)),
        None => format!("{of}the plan was dropped."),
    }
}
