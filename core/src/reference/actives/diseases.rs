//! Rows against fungi, water moulds and bacteria, and the plant's own defence.
//!
//! Codes without a publication are from memory: the lists of 2018 to 2025 opened here on their front matter alone.

use crate::event::AgentClass::{Bacterium, Fungus, WaterMould};

use super::Level::{High, Low, Medium};
use super::Minding::*;
use super::{Active, MEMORY};

const UC_FLORICULTURE: &str =
    "University of California IPM, floriculture and ornamental nurseries, properties of fungicides";
const UC_PISTACHIO: &str = "University of California IPM, pistachio, fungicide properties";
const UC_LETTUCE: &str = "University of California IPM, lettuce, properties of fungicides";
const UC_NECTARINE: &str = "University of California IPM, nectarine, properties of fungicides";
const FRAC_2025: &str = "FRAC code list 2025, a subset";
const FRAC_2018: &str = "FRAC code list 2018, first table";
const DMI_2010: &str = "greenhouse trade press 2010, DMI fungicides";
const GEORGIA: &str = "University of Georgia Extension, new fungicides for ornamentals";
const DELAWARE: &str = "Delaware Extension (Kent County), notes on oils and on phosphonates, 2008";
const PH_COLUMNS: &str = "Kansas extension column and a Hawaii garden column on spray-water pH";
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
    row("triforine", &["FRAC 3"], "DMI, piperazine", DMI_2010)
        .risk(Medium, Medium, DMI_2010)
        .on(&[Fungus], &[])
        .mind(&[MarksFlowers]),
    row("propiconazole", &["FRAC 3"], "DMI", FRAC_2025)
        .risk(Medium, Medium, FRAC_2025)
        .elsewhere(High, UC_NECTARINE)
        .on(&[Fungus], &[])
        .mind(&[GrowthRegulating]),
    row("tebuconazole", &["FRAC 3"], "DMI", FRAC_2025)
        .risk(Medium, Medium, FRAC_2025)
        .elsewhere(High, UC_PISTACHIO)
        .on(&[Fungus], &[])
        .mind(&[GrowthRegulating]),
    row("myclobutanil", &["FRAC 3"], "DMI", FRAC_2025)
        .risk(Medium, Medium, FRAC_2025)
        .elsewhere(High, UC_NECTARINE)
        .on(&[Fungus], &[])
        .mind(&[GrowthRegulating]),
    row("difenoconazole", &["FRAC 3"], "DMI", FRAC_2025)
        .risk(Medium, Medium, FRAC_2025)
        .on(&[Fungus], &[])
        .mind(&[GrowthRegulating]),
    row("prochloraz", &["FRAC 3"], "DMI, imidazole", MEMORY)
        .risk(Medium, Medium, MEMORY)
        .on(&[Fungus], &[]),
    row("imazalil", &["FRAC 3"], "DMI, imidazole", DMI_2010)
        .risk(Medium, Medium, MEMORY)
        .on(&[Fungus], &[]),
    row("triflumizole", &["FRAC 3"], "DMI, imidazole", DMI_2010)
        .risk(Medium, Medium, MEMORY)
        .on(&[Fungus], &[]),
    row("thiophanate-methyl", &["FRAC 1"], "MBC", UC_PISTACHIO)
        .risk(High, High, UC_PISTACHIO)
        .on(&[Fungus], &[])
        .mind(&[OneUseThenChange])
        .mind_by(UC_PISTACHIO),
    row("carbendazim", &["FRAC 1"], "MBC", MEMORY)
        .risk(High, High, MEMORY)
        .on(&[Fungus], &[])
        .mind(&[OneUseThenChange])
        .mind_by(UC_PISTACHIO),
    row("iprodione", &["FRAC 2"], "dicarboximide", UC_FLORICULTURE)
        .risk(Medium, High, UC_FLORICULTURE)
        .elsewhere(Low, UC_NECTARINE)
        .on(&[Fungus], &[]),
    row("metalaxyl-M", &["FRAC 4"], "phenylamide", FRAC_2018)
        .also(&["mefenoxam"])
        .risk(High, High, UC_FLORICULTURE)
        .on(&[WaterMould], &[])
        .mind(&[OneUseThenChange])
        .mind_by(UC_PISTACHIO),
    row("metalaxyl", &["FRAC 4"], "phenylamide", FRAC_2018)
        .risk(High, High, UC_FLORICULTURE)
        .on(&[WaterMould], &[])
        .mind(&[OneUseThenChange])
        .mind_by(UC_PISTACHIO),
    row("boscalid", &["FRAC 7"], "SDHI", UC_LETTUCE)
        .risk(Medium, High, UC_LETTUCE)
        .elsewhere(High, UC_PISTACHIO)
        .on(&[Fungus], &[]),
    row("cyprodinil", &["FRAC 9"], "anilinopyrimidine", UC_PISTACHIO)
        .risk(Medium, Medium, MEMORY)
        .elsewhere(High, UC_PISTACHIO)
        .on(&[Fungus], &[])
        .mind(&[OneUseThenChange])
        .mind_by(UC_PISTACHIO),
    row(
        "pyrimethanil",
        &["FRAC 9"],
        "anilinopyrimidine",
        UC_PISTACHIO,
    )
    .risk(Medium, Medium, MEMORY)
    .elsewhere(High, UC_PISTACHIO)
    .on(&[Fungus], &[])
    .mind(&[OneUseThenChange])
    .mind_by(UC_PISTACHIO),
    row("azoxystrobin", &["FRAC 11"], "QoI", UC_FLORICULTURE)
        .risk(High, High, UC_FLORICULTURE)
        .on(&[Fungus], &[WaterMould])
        .mind(&[OneUseThenChange])
        .mind_by(UC_PISTACHIO),
    row("trifloxystrobin", &["FRAC 11"], "QoI", UC_FLORICULTURE)
        .risk(High, High, UC_FLORICULTURE)
        .on(&[Fungus], &[WaterMould])
        .mind(&[OneUseThenChange])
        .mind_by(UC_PISTACHIO),
    row("pyraclostrobin", &["FRAC 11"], "QoI", UC_FLORICULTURE)
        .risk(High, High, UC_FLORICULTURE)
        .on(&[Fungus], &[WaterMould])
        .mind(&[OneUseThenChange])
        .mind_by(UC_PISTACHIO),
    row(
        "fludioxonil",
        &["FRAC 12"],
        "phenylpyrrole",
        UC_FLORICULTURE,
    )
    .risk(Low, Medium, UC_FLORICULTURE)
    .elsewhere(Medium, UC_LETTUCE)
    .on(&[Fungus], &[]),
    row(
        "etridiazole",
        &["FRAC 14"],
        "aromatic hydrocarbon",
        UC_FLORICULTURE,
    )
    .risk(Low, Medium, UC_FLORICULTURE)
    .on(&[WaterMould], &[]),
    row(
        "tolclofos-methyl",
        &["FRAC 14"],
        "aromatic hydrocarbon",
        MEMORY,
    )
    .risk(Low, Medium, MEMORY)
    .on(&[], &[Fungus]),
    row(
        "quintozene",
        &["FRAC 14"],
        "aromatic hydrocarbon",
        UC_FLORICULTURE,
    )
    .also(&["PCNB", "pentachloronitrobenzene"])
    .risk(Low, Medium, MEMORY)
    .on(&[], &[Fungus]),
    row("fenhexamid", &["FRAC 17"], "KRI", UC_FLORICULTURE)
        .risk(Low, Medium, UC_FLORICULTURE)
        .elsewhere(High, UC_PISTACHIO)
        .on(&[Fungus], &[])
        .mind(&[OneUseThenChange])
        .mind_by(UC_PISTACHIO),
    row("polyoxin D", &["FRAC 19"], "chitin synthase", MEMORY)
        .risk(Medium, Medium, MEMORY)
        .on(&[Fungus], &[]),
    row("cyazofamid", &["FRAC 21"], "QiI", UC_FLORICULTURE)
        .risk(Medium, High, UC_FLORICULTURE)
        .on(&[WaterMould], &[]),
    row("kasugamycin", &["FRAC 24"], "antibiotic", MEMORY)
        .risk(Medium, Medium, MEMORY)
        .on(&[Bacterium], &[])
        .mind(&[OftenRestricted]),
    row("streptomycin", &["FRAC 25"], "antibiotic", MEMORY)
        .risk(High, High, MEMORY)
        .on(&[Bacterium], &[])
        .mind(&[OftenRestricted]),
    row("propamocarb", &["FRAC 28"], "carbamate", MEMORY)
        .risk(Low, Medium, MEMORY)
        .on(&[WaterMould], &[]),
    row("dimethomorph", &["FRAC 40"], "CAA", UC_FLORICULTURE)
        .risk(Low, Medium, UC_FLORICULTURE)
        .on(&[WaterMould], &[]),
    row("mandipropamid", &["FRAC 40"], "CAA", UC_FLORICULTURE)
        .risk(Low, Medium, UC_FLORICULTURE)
        .on(&[WaterMould], &[]),
    row("oxytetracycline", &["FRAC 41"], "antibiotic", MEMORY)
        .risk(High, High, MEMORY)
        .on(&[Bacterium], &[])
        .mind(&[OftenRestricted]),
    row("fluopicolide", &["FRAC 43"], "benzamide", UC_FLORICULTURE)
        .risk(Low, Low, UC_FLORICULTURE)
        .on(&[WaterMould], &[])
        .mind(&[PartnerAsked])
        .mind_by(GEORGIA),
    row("oxathiapiprolin", &["FRAC 49"], "OSBPI", MEMORY)
        .risk(Medium, High, MEMORY)
        .on(&[WaterMould], &[]),
    row("copper", &["FRAC M01"], "inorganic", UC_FLORICULTURE)
        .also(&[
            "copper hydroxide",
            "copper oxychloride",
            "copper sulfate",
            "tribasic copper sulfate",
            "basic copper sulfate",
            "copper octanoate",
            "cuprous oxide",
            "cupric hydroxide",
            "copper II hydroxide",
        ])
        .risk(Low, Low, UC_FLORICULTURE)
        .on(&[Bacterium, Fungus, WaterMould], &[])
        .mind(&[TenderPlants, NotNearPhosphonate, ContactOnly]),
    row("sulfur", &["FRAC M02"], "inorganic", UC_LETTUCE)
        .also(&["wettable sulfur"])
        .risk(Low, Low, UC_LETTUCE)
        .on(&[Fungus], &[super::AgentClass::Mite])
        .mind(&[NotWithOil, NotInHeat]),
    row(
        "mancozeb",
        &["FRAC M03"],
        "dithiocarbamate",
        UC_FLORICULTURE,
    )
    .risk(Low, Low, UC_FLORICULTURE)
    .on(&[Fungus, WaterMould], &[])
    .mind(&[ContactOnly]),
    row("thiram", &["FRAC M03"], "dithiocarbamate", MEMORY)
        .risk(Low, Low, UC_FLORICULTURE)
        .on(&[Fungus, WaterMould], &[])
        .mind(&[ContactOnly]),
    row("captan", &["FRAC M04"], "phthalimide", UC_FLORICULTURE)
        .risk(Low, Low, UC_FLORICULTURE)
        .on(&[Fungus, WaterMould], &[])
        .mind(&[AlkalineWater, NotWithOil])
        .mind_by(PH_COLUMNS),
    row(
        "chlorothalonil",
        &["FRAC M05"],
        "chloronitrile",
        UC_FLORICULTURE,
    )
    .risk(Low, Low, UC_FLORICULTURE)
    .on(&[Fungus], &[]),
    row(
        "acibenzolar-S-methyl",
        &["FRAC P01"],
        "host plant defence",
        UC_LETTUCE,
    )
    .risk(Low, Low, UC_LETTUCE)
    .mind(&[HostDefence]),
    row("fosetyl-Al", &["FRAC P07"], "phosphonate", UC_NECTARINE)
        .also(&["fosetyl", "fosetyl-aluminium", "aluminium tris"])
        .risk(Low, Low, UC_LETTUCE)
        .on(&[WaterMould], &[])
        .mind(&[NotNearCopper])
        .mind_by(DELAWARE),
    row(
        "potassium phosphonate",
        &["FRAC P07"],
        "phosphonate",
        UC_NECTARINE,
    )
    .also(&[
        "potassium phosphite",
        "potassium phosphonates",
        "mono- and dipotassium salts of phosphorous acid",
        "phosphorous acid",
        "phosphonic acid",
    ])
    .risk(Low, Low, UC_LETTUCE)
    .on(&[WaterMould], &[])
    .mind(&[NotNearCopper])
    .mind_by(DELAWARE),
    row(
        "Bacillus amyloliquefaciens",
        &["FRAC BM02"],
        "biological",
        MEMORY,
    )
    .risk(Low, Low, MEMORY)
    .on(&[Fungus], &[WaterMould])
    .mind(&[Living])
    .mind_by(PRACTICE),
    row("Bacillus subtilis", &["FRAC BM02"], "biological", MEMORY)
        .risk(Low, Low, MEMORY)
        .on(&[Fungus], &[WaterMould])
        .mind(&[Living])
        .mind_by(PRACTICE),
    row("Trichoderma", &["FRAC BM02"], "biological", MEMORY)
        .also(&[
            "Trichoderma harzianum",
            "Trichoderma asperellum",
            "Trichoderma viride",
        ])
        .risk(Low, Low, MEMORY)
        .on(&[Fungus], &[WaterMould])
        .mind(&[Living])
        .mind_by(PRACTICE),
    row("Streptomyces", &["FRAC BM02"], "biological", MEMORY)
        .also(&["Streptomyces lydicus", "Streptomyces griseoviridis"])
        .risk(Low, Low, MEMORY)
        .on(&[Fungus], &[WaterMould])
        .mind(&[Living])
        .mind_by(PRACTICE),
    row("potassium bicarbonate", &[], "not classed", MEMORY)
        .also(&["potassium hydrogen carbonate"])
        .on(&[], &[Fungus])
        .mind(&[ContactOnly]),
    row("hydrogen peroxide", &[], "not classed", MEMORY)
        .also(&["hydrogen dioxide", "peroxide"])
        .on(&[Bacterium, Fungus, WaterMould], &[])
        .mind(&[ContactOnly]),
];
