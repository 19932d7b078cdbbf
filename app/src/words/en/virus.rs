//! What a virus asks of the wash, in words: what stays apart, and from when on a blade counts as free of it.

use velamen_core::quantity::Volume;
use velamen_core::reference::sanitizers::Agent;

use super::clean::percent;
use super::format::litres;
use super::{bath, trade};

pub const KEPT_APART: &str = "It came of plants suspected of a virus. Stone joins the others after an hour in the oven at 150 to 180 °C, clean and dry, or half an hour boiled; else it is thrown away.";
pub const NOT_FREE: &str = "Recorded. It was too weak, too short or not timed, so this blade does not count as free of virus.";
pub const FALLS_SHORT: &str = "Not known to reach both orchid viruses. Take another, or heat.";

/// Why what was kept apart may not join the others, or how much of it may.
#[must_use]
pub fn kept_apart(freed: i64, stone: bool) -> String {
    match (freed, stone) {
        (..=0, _) => KEPT_APART.to_owned(),
        (freed, true) => format!(
            "Only {} of it went through the heat. The rest stays apart: it may still have the virus.",
            litres(Volume::from_ul(freed))
        ),
        (freed, false) => format!(
            "Only {} of these went through the heat. The others stay apart: they may still have the virus.",
            trade::pots(freed)
        ),
    }
}

/// From when on an agent reaches both viruses: "Both orchid viruses from 0.5 % and 60 s on".
#[must_use]
pub fn reaches_from(agent: &Agent) -> String {
    let strength = agent.least_ppm().map(|ppm| format!("{} %", percent(ppm)));
    let contact = agent.contact_s.map(|(shortest, _)| match shortest {
        0..120 => format!("{shortest} s"),
        s => bath::minutes(s),
    });
    let both: Vec<String> = [strength, contact].into_iter().flatten().collect();
    format!(
        "It reaches both orchid viruses from {} on. Weaker or shorter does not count as free of virus.",
        both.join(" and ")
    )
}
