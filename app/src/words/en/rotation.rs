//! What plants had before, and whether a product may follow it.

use chrono::NaiveDate;
use velamen_core::reference::actives::{Code, CodeList};
use velamen_core::rotation::{Advice, CodeRule, Use};

use super::format::{counted, full_day, short_day};
use super::stock;

pub const HAD_BEFORE: &str = "What they had before";
pub const NOTHING: &str = "Nothing on record, neither theirs nor their parents'.";
pub const FINE: &str = "This product may follow.";
pub const ADVISED_AGAINST: &str = "Advised against";
pub const BEADS: &str = "A bead for each use, first to last, with the code of its way of acting. Cut off at the left: a parent had it. Dashed: the one you are about to use.";
pub const LOT_BEADS: &str = "A bead for each use, first to last, with the code of its way of acting. Cut off at the left: a parent had it.";
pub const SEVERAL: &str = "Several possible parents: the one with most against it is shown.";
pub const CHANGES: &str = "A true change, from your shelf:";
pub const NO_CHANGE: &str =
    "No other bottle on the shelf with known codes would be a true change against this.";
pub const REASON: &str = "Why it is used all the same";
pub const REASON_HINT: &str = "Goes into the record. Nothing is refused.";
pub const NO_REASON: &str = "Say why it is used all the same, or take another bottle.";
pub const RULES: &str = "Change of products";
pub const RULES_LEAD: &str =
    "How often one way of acting may be used before it has to change. The label goes first.";
pub const RULES_SOURCE: &str = "The table to begin with: University of California, fungicides by resistance potential, written for crops of the field; insecticides by the principle of one way of acting for one generation of the pest, three weeks as common practice. Change it as your adviser says.";
pub const IN_A_ROW: &str = "Uses in a row";
pub const GENERATIONS: &str = "Generations in a row";
pub const PER_YEAR: &str = "Uses a year";
pub const NO_LIMIT: &str = "None: no limit";
pub const TOGETHER: &str = "Days that count as one use";
pub const TOGETHER_HINT: &str = "A generation of the pest; none: each use counts.";
pub const BREAKS: &str = "Breaks the run of others";
pub const OWN_CODE: &str = "Another code";
pub const OWN_CODE_HINT: &str = "As on the label: FRAC 7, IRAC 4A";
pub const ADD: &str = "Add this code";
pub const BAD_CODE: &str = "Type a code with its list: FRAC 7, or IRAC 23.";
pub const KEEP: &str = "Keep these rules";
pub const KEPT: &str = "Rules kept.";
pub const USUAL: &str = "Back to the table to begin with";

/// A code in a bead: short, the list left out.
#[must_use]
pub fn codes(codes: &[Code]) -> String {
    if codes.is_empty() {
        return "?".to_owned();
    }
    let each: Vec<&str> = codes.iter().map(|code| code.code.as_str()).collect();
    each.join("+")
}

/// Codes with their lists: "FRAC 3 + FRAC 11".
#[must_use]
pub fn codes_named(codes: &[Code]) -> String {
    let each: Vec<String> = codes.iter().map(Code::to_string).collect();
    each.join(" + ")
}

/// The strip in words: "3 on 10 January 2027 (a parent), M05 on …".
#[must_use]
pub fn strip(line: &[Use]) -> String {
    let each = line.iter().map(|one| {
        let codes = if one.codes.is_empty() {
            format!("{}, no code known", one.label_name)
        } else {
            codes_named(&one.codes)
        };
        let whose = if one.inherited { " (a parent)" } else { "" };
        format!("{codes} on {}{whose}", full_day(one.on))
    });
    let said: Vec<String> = each.collect();
    format!("{HAD_BEFORE}: {}.", said.join(", "))
}

/// Uses before the first one shown.
#[must_use]
pub fn earlier(count: usize) -> String {
    let count = i64::try_from(count).unwrap_or(i64::MAX);
    format!("{} before these.", counted(count, "use", "uses"))
}

/// For how many plants it is said: "3 lots" or "2 kinds of pieces".
#[must_use]
pub fn for_so_many(lots: usize, pieces: usize) -> String {
    let count = |count: usize| i64::try_from(count).unwrap_or(i64::MAX);
    let lots_said = (lots > 0).then(|| counted(count(lots), "lot", "lots"));
    let pieces_said =
        (pieces > 0).then(|| counted(count(pieces), "kind of piece", "kinds of pieces"));
    [lots_said, pieces_said]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join(", ")
}

/// Why it is advised against.
#[must_use]
pub fn advice(advice: &Advice, today: NaiveDate) -> String {
    match advice {
        Advice::Run {
            code,
            used,
            most,
            last_on,
            generations,
        } => {
            let (one, many) = if *generations {
                ("generation of the pest", "generations of the pest")
            } else {
                ("use", "uses")
            };
            let used = counted(i64::from(*used), one, many);
            let most = counted(i64::from(*most), one, many);
            format!(
                "{code}: {used} in a row already, the last on {}. After {most} it has to change, or the pest learns to live with it.",
                short_day(*last_on, today)
            )
        }
        Advice::Year { code, used, most } => format!(
            "{code}: {} within a year already; your rules allow {most}.",
            counted(i64::from(*used), "use", "uses")
        ),
        Advice::TooSoon {
            last_on,
            days,
            again_on,
        } => format!(
            "Used on {}; the label wants {} between. Again from {}.",
            short_day(*last_on, today),
            counted(i64::from(*days), "day", "days"),
            short_day(*again_on, today)
        ),
        Advice::LabelYear { used, most } => format!(
            "{} within a year already; the label allows {most}.",
            counted(i64::from(*used), "use", "uses")
        ),
    }
}

/// Nothing is known of these actives.
#[must_use]
pub fn unknown(names: &[String]) -> String {
    format!(
        "No code known for {}: it cannot be judged. Type it from the label, on the product.",
        names.join(", ")
    )
}

/// A rule's head: "FRAC 3", "FRAC, every other", "FRAC M…".
#[must_use]
pub fn rule(rule: &CodeRule) -> String {
    let list = match rule.list {
        CodeList::Frac => "FRAC",
        CodeList::Irac => "IRAC",
    };
    match rule.code.strip_suffix('*') {
        Some("") => format!("{list}, every other"),
        Some(begin) => format!("{list} {begin}…"),
        None => format!("{list} {}", rule.code),
    }
}

/// What a rule says, in a line.
#[must_use]
pub fn rule_says(rule: &CodeRule) -> String {
    let run = match (rule.in_a_row, rule.together_days) {
        (None, _) => "no limit in a row".to_owned(),
        (Some(most), None) => format!("{} in a row", stock::grouped(i64::from(most))),
        (Some(most), Some(days)) => {
            let generations = counted(i64::from(most), "generation", "generations");
            format!("{generations} in a row, {days} days each")
        }
    };
    let year = rule
        .per_year
        .map(|most| format!(", {most} a year"))
        .unwrap_or_default();
    let breaks = if rule.breaks_no_run {
        ", breaks no run"
    } else {
        ""
    };
    format!("{run}{year}{breaks}")
}
