//! Rows against insects, mites, slugs and snails.
//!
//! Codes without a publication are from memory: every edition of the scheme opened here on its front matter alone. The
//! list of insecticides gives no risk of resistance, so none is made up.

use crate::event::AgentClass::{Insect, Mite, Mollusc};

use super::Minding::*;
use super::{Active, MEMORY};

const UC_ENEMIES: &str =
    "University of California IPM, floriculture, toxicities to natural enemies";
const FLORIDA: &str = "UF/IFAS IN1379";
const GROUPS_9_29: &str = "greenhouse trade press, mode-of-action groups 9 and 29";
const MITE_GROWTH: &str = "Cloyd, Kansas State University, mite growth inhibitors";
const MITE_BREATH: &str = "Cloyd, Kansas State University, respiration-blocking miticides";
const HAYASHI: &str = "Hayashi et al. 2013, Pest Management Science, cyflumetofen";
const GROWTH_ARTICLE: &str = "encyclopedia article on insect growth regulators";
const PRACTICE: &str = "common practice, no source";

const fn row(
    name: &'static str,
    codes: &'static [&'static str],
    group: &'static str,
    origin: &'static str,
) -> Active {
    Active::new(name, codes, group, origin)
}

pub(super) static ROWS: &[Active] = &[
    row("acephate", &["IRAC 1B"], "organophosphate", UC_ENEMIES)
        .on(&[Insect], &[])
        .mind(&[HighHazard]),
    row("malathion", &["IRAC 1B"], "organophosphate", UC_ENEMIES)
        .on(&[Insect], &[Mite])
        .mind(&[HighHazard]),
    row("dimethoate", &["IRAC 1B"], "organophosphate", UC_ENEMIES)
        .on(&[Insect], &[Mite])
        .mind(&[HighHazard]),
    row("carbaryl", &["IRAC 1A"], "carbamate", UC_ENEMIES)
        .on(&[Insect], &[])
        .mind(&[HighHazard, Bees, MiteFlare]),
    row("deltamethrin", &["IRAC 3A"], "pyrethroid", MEMORY)
        .on(&[Insect], &[])
        .mind(&[MiteFlare, Bees]),
    row("bifenthrin", &["IRAC 3A"], "pyrethroid", MEMORY)
        .on(&[Insect], &[Mite])
        .mind(&[MiteFlare, Bees]),
    row("pyrethrins", &["IRAC 3A"], "pyrethrins", MEMORY)
        .also(&["pyrethrum", "pyrethrin"])
        .on(&[Insect], &[])
        .mind(&[ContactOnly, Bees]),
    row("imidacloprid", &["IRAC 4A"], "neonicotinoid", UC_ENEMIES)
        .on(&[Insect], &[])
        .mind(&[Bees]),
    row("acetamiprid", &["IRAC 4A"], "neonicotinoid", UC_ENEMIES)
        .on(&[Insect], &[])
        .mind(&[Bees]),
    row("thiamethoxam", &["IRAC 4A"], "neonicotinoid", UC_ENEMIES)
        .on(&[Insect], &[])
        .mind(&[Bees]),
    row("dinotefuran", &["IRAC 4A"], "neonicotinoid", MEMORY)
        .on(&[Insect], &[])
        .mind(&[Bees]),
    row("sulfoxaflor", &["IRAC 4C"], "sulfoximine", MEMORY)
        .on(&[Insect], &[])
        .mind(&[SameMainGroup, Bees]),
    row("flupyradifurone", &["IRAC 4D"], "butenolide", FLORIDA)
        .on(&[Insect], &[])
        .mind(&[SameMainGroup]),
    row("spinosad", &["IRAC 5"], "spinosyn", MEMORY)
        .on(&[Insect], &[])
        .mind(&[Bees]),
    row("abamectin", &["IRAC 6"], "avermectin", UC_ENEMIES)
        .on(&[Insect, Mite], &[])
        .mind(&[Bees]),
    row(
        "pyriproxyfen",
        &["IRAC 7C"],
        "juvenile hormone mimic",
        GROWTH_ARTICLE,
    )
    .on(&[Insect], &[])
    .mind(&[YoungStagesOnly]),
    row(
        "pymetrozine",
        &["IRAC 9B"],
        "TRPV channel modulator",
        GROUPS_9_29,
    )
    .on(&[Insect], &[]),
    row(
        "pyrifluquinazon",
        &["IRAC 9B"],
        "TRPV channel modulator",
        GROUPS_9_29,
    )
    .on(&[Insect], &[]),
    row(
        "hexythiazox",
        &["IRAC 10A"],
        "mite growth inhibitor",
        MITE_GROWTH,
    )
    .on(&[Mite], &[])
    .on_by(MITE_GROWTH)
    .mind(&[YoungStagesOnly, ContactOnly])
    .mind_by(MITE_GROWTH),
    row(
        "clofentezine",
        &["IRAC 10A"],
        "mite growth inhibitor",
        MITE_GROWTH,
    )
    .on(&[Mite], &[])
    .on_by(MITE_GROWTH)
    .mind(&[YoungStagesOnly, ContactOnly])
    .mind_by(MITE_GROWTH),
    row(
        "etoxazole",
        &["IRAC 10B"],
        "mite growth inhibitor",
        MITE_GROWTH,
    )
    .on(&[Mite], &[])
    .on_by(MITE_GROWTH)
    .mind(&[YoungStagesOnly, ContactOnly])
    .mind_by(MITE_GROWTH),
    row(
        "Bacillus thuringiensis",
        &["IRAC 11A"],
        "microbial",
        UC_ENEMIES,
    )
    .also(&[
        "Bacillus thuringiensis israelensis",
        "Bacillus thuringiensis kurstaki",
        "Bacillus thuringiensis aizawai",
        "Bacillus thuringiensis subsp. israelensis",
        "Bacillus thuringiensis subsp. kurstaki",
        "Bacillus thuringiensis subsp. aizawai",
        "Bt",
    ])
    .on(&[], &[Insect])
    .mind(&[YoungStagesOnly]),
    row("chlorfenapyr", &["IRAC 13"], "uncoupler", MEMORY).on(&[Insect, Mite], &[]),
    row("diflubenzuron", &["IRAC 15"], "benzoylurea", GROWTH_ARTICLE)
        .on(&[Insect], &[])
        .mind(&[YoungStagesOnly])
        .mind_by(GROWTH_ARTICLE),
    row("buprofezin", &["IRAC 16"], "moulting inhibitor", UC_ENEMIES)
        .on(&[Insect], &[])
        .on_by(UC_ENEMIES)
        .mind(&[YoungStagesOnly]),
    row(
        "cyromazine",
        &["IRAC 17"],
        "moulting disruptor of flies",
        MEMORY,
    )
    .on(&[], &[Insect])
    .mind(&[YoungStagesOnly]),
    row("acequinocyl", &["IRAC 20B"], "complex III", UC_ENEMIES)
        .on(&[Mite], &[])
        .mind(&[ContactOnly])
        .mind_by(MITE_BREATH),
    row("bifenazate", &["IRAC 20D"], "complex III", UC_ENEMIES)
        .on(&[Mite], &[])
        .mind(&[ContactOnly])
        .mind_by(MITE_BREATH),
    row("fenpyroximate", &["IRAC 21A"], "complex I", MITE_BREATH)
        .on(&[Mite], &[])
        .mind(&[ContactOnly])
        .mind_by(MITE_BREATH),
    row("pyridaben", &["IRAC 21A"], "complex I", MITE_BREATH)
        .on(&[Mite], &[Insect])
        .mind(&[ContactOnly])
        .mind_by(MITE_BREATH),
    row(
        "spirotetramat",
        &["IRAC 23"],
        "acetyl CoA carboxylase inhibitor",
        MEMORY,
    )
    .on(&[Insect], &[]),
    row(
        "spiromesifen",
        &["IRAC 23"],
        "acetyl CoA carboxylase inhibitor",
        MEMORY,
    )
    .on(&[Insect, Mite], &[]),
    row("cyflumetofen", &["IRAC 25A"], "complex II", HAYASHI)
        .on(&[Mite], &[])
        .on_by(HAYASHI)
        .mind(&[ContactOnly])
        .mind_by(MITE_BREATH),
    row("chlorantraniliprole", &["IRAC 28"], "diamide", MEMORY).on(&[Insect], &[]),
    row("cyantraniliprole", &["IRAC 28"], "diamide", MEMORY).on(&[Insect], &[]),
    row(
        "flonicamid",
        &["IRAC 29"],
        "chordotonal organ modulator",
        GROUPS_9_29,
    )
    .on(&[Insect], &[]),
    row("azadirachtin", &["IRAC UN"], "unknown", MEMORY)
        .on(&[Insect], &[])
        .mind(&[YoungStagesOnly]),
    row("neem oil", &["IRAC UNE"], "botanical oil", MEMORY)
        .on(&[Insect, Mite], &[])
        .mind(&[ContactOnly, NotInHeat]),
    row("mineral oil", &["IRAC UNM"], "physical", MEMORY)
        .also(&[
            "paraffinic oil",
            "paraffin oil",
            "petroleum oil",
            "white oil",
            "horticultural oil",
        ])
        .on(&[Insect, Mite], &[])
        .mind(&[ContactOnly, NotInHeat]),
    row("diatomaceous earth", &["IRAC UNM"], "physical", MEMORY)
        .also(&["kieselguhr"])
        .on(&[Insect], &[])
        .mind(&[ContactOnly]),
    row(
        "potassium salts of fatty acids",
        &["IRAC UNM"],
        "physical",
        MEMORY,
    )
    .also(&[
        "fatty acids potassium salts",
        "fatty acids",
        "insecticidal soap",
        "soft soap",
        "potassium soap",
    ])
    .on(&[Insect, Mite], &[])
    .mind(&[ContactOnly]),
    row("Beauveria bassiana", &["IRAC UNF"], "fungal", MEMORY)
        .on(&[Insect], &[])
        .mind(&[Living])
        .mind_by(PRACTICE),
    row("iron phosphate", &[], "molluscicide", MEMORY)
        .also(&["ferric phosphate", "iron III phosphate"])
        .on(&[Mollusc], &[]),
    row("metaldehyde", &[], "molluscicide", MEMORY)
        .on(&[Mollusc], &[])
        .mind(&[HighHazard]),
];
