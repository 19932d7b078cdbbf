//! What to bring to the bench, in words.

use chrono::NaiveDate;
use velamen_core::quantity::Volume;
use velamen_core::view::prepare::{Bags, Item, PrepareRow, PreparedWork, Preparing};

use super::format::{self, counted, litres, litres_exact, near_day, whole_millimetres};
use super::outlook::span;
use super::{cut, shed, trade};

pub const TITLE: &str = "To the bench";
pub const LINK: &str = "What to bring";
pub const HINT: &str = "For what is planned or due in the next four weeks. Tap what is ready.";
pub const NONE: &str = "Nothing is planned or due at the bench.";
pub const NONE_HINT: &str = "Plan a cut from a lot's page, or wait for the Round.";
pub const FOR_WHAT: &str = "For this work";
pub const SIZES: &str = "Sizes of bags and packs";
pub const THERE: &str = "ready";
pub const ORIGIN: &str = "A lot without a plan is reckoned whole. Pots with two years' room, parts before mixing, settling and minutes: common practice, no source.";

fn amount(item: &Item, amount: i64) -> String {
    if item.is_volume() {
        litres(Volume::from_ul(amount))
    } else {
        amount.to_string()
    }
}

/// A row's head: "12 × 17 cm", "4.2 L Medium bark".
#[must_use]
pub fn item(row: &PrepareRow) -> String {
    let needed = amount(&row.item, row.needed);
    match &row.item {
        Item::Pot(_) => format!("{needed} × {}", row.name),
        Item::Width(mm) => format!(
            "{needed} pots of {}",
            whole_millimetres(i64::from(*mm) * 1_000)
        ),
        Item::Trays => counted(row.needed, "tray", "trays"),
        Item::Mix(_) => format!("{needed} {}", row.name),
        Item::Part(key) => format!("{needed} {}", shed::component(key)),
        Item::AnyMix => format!("{needed} of mix"),
        Item::Stone => format!("{needed} stone, washed"),
        Item::Labels => counted(row.needed, "label", "labels"),
    }
}

/// What stands there: "5 clean, 4 to wash, 3 missing".
#[must_use]
pub fn stands(row: &PrepareRow) -> Option<String> {
    let mut said = Vec::new();
    if let Some(ready) = row.ready {
        said.push(format!("{} clean", amount(&row.item, ready)));
    }
    if row.to_wash > 0 {
        said.push(format!("{} to wash", amount(&row.item, row.to_wash)));
    }
    match row.short {
        Some(0) => said.push("enough".to_owned()),
        Some(short) => said.push(format!("{} missing", amount(&row.item, short))),
        None if matches!(row.item, Item::Pot(_) | Item::Stone) => {
            said.push("nobody counted them".to_owned());
        }
        None => {}
    }
    if let Some(it) = row.bags {
        said.push(bags(&row.item, it));
    }
    (!said.is_empty()).then(|| said.join(", "))
}

/// "2 bags of 60 L".
fn bags(item: &Item, bags: Bags) -> String {
    let count = i64::from(bags.bags);
    if item.is_volume() {
        let holds = litres_exact(Volume::from_ul(bags.holds));
        format!("{} of {holds}", counted(count, "bag", "bags"))
    } else {
        format!("{} of {}", counted(count, "pack", "packs"), bags.holds)
    }
}

/// Minutes and ground.
#[must_use]
pub fn sums(list: &Preparing) -> Vec<String> {
    let mut said = vec![format!("{} minutes at the bench", span(list.minutes))];
    if list.wash_minutes > 0 {
        said.push(format!(
            "{} for the wash before",
            counted(i64::from(list.wash_minutes), "minute", "minutes")
        ));
    }
    said.push(format!(
        "{} of bench, rim to rim; the old pots leave {}",
        format::square_metres(list.bench_cm2),
        format::square_metres(list.freed_cm2)
    ));
    if list.unmeasured > 0 {
        said.push(format!(
            "{} nobody measured: in no litres and no ground",
            counted(i64::from(list.unmeasured), "pot or tray", "pots or trays")
        ));
    }
    said
}

/// One job: "Saturday, few large, 9 pieces".
#[must_use]
pub fn job(work: &PreparedWork, today: NaiveDate) -> String {
    let how = if work.planned {
        cut::way(work.way).to_lowercase()
    } else {
        "due, no plan yet: whole".to_owned()
    };
    format!(
        "{}, {how}, {}",
        near_day(work.on, today),
        trade::pieces(i64::from(work.pieces))
    )
}
