//! The trade's own words: classes of pieces, what is seen, causes, methods.

use velamen_core::event::{LossCause, PieceClass, Sight};
use velamen_core::name::PlantName;

use super::format::counted;

/// A class of pieces, as a heading.
#[must_use]
pub fn class(class: PieceClass) -> &'static str {
    match class {
        PieceClass::Flowering => "Para florecer",
        PieceClass::Starter => "Plantones",
        PieceClass::BackBulb => "Bulbos traseros",
        PieceClass::BrokenShoot => "Brotes rotos",
        PieceClass::Keiki => "Hijuelos con raíces",
        PieceClass::Thrown => "Tiradas",
    }
}

/// What belongs in a class.
#[must_use]
pub fn class_hint(class: PieceClass) -> &'static str {
    match class {
        PieceClass::Flowering => "grandes, con guía",
        PieceClass::Starter => "más pequeñas, con guía",
        PieceClass::BackBulb => "firmes, sin guía",
        PieceClass::BrokenShoot => "pocas raíces o ninguna",
        PieceClass::Keiki => "raíces propias, o esqueje de punta",
        PieceClass::Thrown => "blandas, huecas o muertas",
    }
}

/// A plant's course, as it is tapped.
#[must_use]
pub fn sight(sight: Sight) -> &'static str {
    match sight {
        Sight::Outgrown => "No cabe en su maceta",
        Sight::FallenOver => "Se ha volcado",
        Sight::SpikeSeen => "Vara a la vista",
        Sight::FirstOpen => "Primera flor abierta",
        Sight::FlowerOver => "Flores pasadas",
        Sight::NewGrowth => "Brote nuevo",
        Sight::RootTips => "Puntas de raíz nuevas",
        Sight::Resting => "En reposo",
    }
}

/// Why plants were lost.
#[must_use]
pub fn cause(cause: LossCause) -> &'static str {
    match cause {
        LossCause::Rot => "Podredumbre",
        LossCause::Pest => "Plaga",
        LossCause::Virus => "Virus",
        LossCause::Dried => "Sequedad",
        LossCause::Cold => "Frío",
        LossCause::Heat => "Calor",
        LossCause::NoShoot => "Nunca brotó",
        LossCause::Broken => "Rotura",
        LossCause::Missing => "Falta",
        LossCause::Discarded => "Tirada",
        LossCause::Unknown => "No se sabe",
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
        vec![("Sin nombre".to_owned(), false)]
    } else {
        runs
    }
}

/// A name as plain text.
#[must_use]
pub fn name_plain(name: &PlantName) -> String {
    let plain = name.plain();
    if plain.is_empty() {
        "Sin nombre".to_owned()
    } else {
        plain
    }
}

#[must_use]
pub fn pots(count: i64) -> String {
    counted(count, "maceta", "macetas")
}

#[must_use]
pub fn plants(count: i64) -> String {
    counted(count, "planta", "plantas")
}

#[must_use]
pub fn pieces(count: i64) -> String {
    counted(count, "pieza", "piezas")
}

/// Plants and the pots they stand in: "4 macetas", or "9 en 2 macetas" where they share.
#[must_use]
pub fn plants_in_pots(plants: i64, stands: i64) -> String {
    if plants == stands {
        pots(plants)
    } else {
        format!("{plants} en {}", pots(stands))
    }
}

/// A sign's words; a sign of the grower's own stands as typed.
#[must_use]
pub fn sign(key: &str) -> String {
    super::signs::name(key).map_or_else(|| key.to_owned(), str::to_owned)
}
