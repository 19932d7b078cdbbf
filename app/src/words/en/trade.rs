//! The trade's own words: classes of pieces, what is seen, causes, methods.

use velamen_core::event::{LossCause, PieceClass, Sight};
use velamen_core::name::PlantName;

use super::format::counted;

/// A class of pieces, as a heading.
#[must_use]
pub fn class(class: PieceClass) -> &'static str {
    match class {
        PieceClass::Flowering => "To flower",
        PieceClass::Starter => "Starters",
        PieceClass::BackBulb => "Back-bulbs",
        PieceClass::BrokenShoot => "Broken shoots",
        PieceClass::Keiki => "Offshoots with roots",
        PieceClass::Thrown => "Thrown away",
    }
}

/// What belongs in a class.
#[must_use]
pub fn class_hint(class: PieceClass) -> &'static str {
    match class {
        PieceClass::Flowering => "large, with a lead",
        PieceClass::Starter => "a lead, smaller",
        PieceClass::BackBulb => "firm, no lead",
        PieceClass::BrokenShoot => "few or no roots",
        PieceClass::Keiki => "own roots, or a top cut",
        PieceClass::Thrown => "soft, hollow or dead",
    }
}

/// A plant's course, as it is tapped.
#[must_use]
pub fn sight(sight: Sight) -> &'static str {
    match sight {
        Sight::Outgrown => "Outgrown its pot",
        Sight::FallenOver => "Fallen over",
        Sight::SpikeSeen => "Spike seen",
        Sight::FirstOpen => "First flower open",
        Sight::FlowerOver => "Flowers over",
        Sight::NewGrowth => "New growth",
        Sight::RootTips => "New root tips",
        Sight::Resting => "Resting",
    }
}

/// Why plants were lost.
#[must_use]
pub fn cause(cause: LossCause) -> &'static str {
    match cause {
        LossCause::Rot => "Rot",
        LossCause::Pest => "Pest",
        LossCause::Virus => "Virus",
        LossCause::Dried => "Dried up",
        LossCause::Cold => "Cold",
        LossCause::Heat => "Heat",
        LossCause::NoShoot => "Never shot",
        LossCause::Broken => "Broken",
        LossCause::Missing => "Missing",
        LossCause::Discarded => "Thrown out",
        LossCause::Unknown => "Not known",
    }
}

/// A name as runs of text, `true` for italic; a plant without a name says so.
#[must_use]
pub fn name_runs(name: &PlantName) -> Vec<(String, bool)> {
    let runs: Vec<(String, bool)> = name
        .runs()
        .into_iter()
        .map(|run| (run.text, run.italic))
        .collect();
    if runs.is_empty() {
        vec![("Unnamed".to_owned(), false)]
    } else {
        runs
    }
}

/// A name as plain text.
#[must_use]
pub fn name_plain(name: &PlantName) -> String {
    let plain = name.plain();
    if plain.is_empty() {
        "Unnamed".to_owned()
    } else {
        plain
    }
}

#[must_use]
pub fn pots(count: i64) -> String {
    counted(count, "pot", "pots")
}

#[must_use]
pub fn plants(count: i64) -> String {
    counted(count, "plant", "plants")
}

#[must_use]
pub fn pieces(count: i64) -> String {
    counted(count, "piece", "pieces")
}

/// Plants and the pots they stand in: "4 pots", or "9 in 2 pots" where they share.
#[must_use]
pub fn plants_in_pots(plants: i64, stands: i64) -> String {
    if plants == stands {
        pots(plants)
    } else {
        format!("{plants} in {}", pots(stands))
    }
}

/// A sign's words; a sign of the grower's own stands as typed.
#[must_use]
pub fn sign(key: &str) -> String {
    super::signs::name(key).map_or_else(|| key.to_owned(), str::to_owned)
}
