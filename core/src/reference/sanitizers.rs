//! What disinfects: how strong, how long, what it reaches and what it does not.
//!
//! Defaults a grower edits. No row says that a thing is permitted anywhere: the label on the bottle and local rules come
//! first. Invariant: an agent that is not known to reach both orchid viruses is never the answer to a suspected one.

use crate::event::Object;

use super::Kind;

/// Whether an agent reaches a kind of life, at its strength and contact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    Yes,
    /// Reduced or reached under conditions; not to be relied on alone.
    Partly,
    No,
    /// Nobody said.
    Unknown,
}

/// What an agent reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reaches {
    pub fungi: Reach,
    pub bacteria: Reach,
    pub spores: Reach,
    /// Odontoglossum ringspot virus, a tobamovirus.
    pub orsv: Reach,
    /// Cymbidium mosaic virus, a potexvirus.
    pub cymmv: Reach,
}

impl Reaches {
    /// Whether it is known to reach both orchid viruses.
    #[must_use]
    pub fn viruses(&self) -> bool {
        self.orsv == Reach::Yes && self.cymmv == Reach::Yes
    }
}

/// How an agent is brought to its strength.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Means {
    /// A liquid, diluted: milligrams of active per litre, lowest and highest of its use.
    Liquid { ppm: (u32, u32) },
    /// A powder or salt, weighed: milligrams per litre of bath.
    Powder { ppm: (u32, u32) },
    /// As its own label says: strengths differ by product.
    AsLabel,
    /// Heat: thousandths of a degree Celsius, lowest and highest.
    Heat { mc: (i32, i32) },
    /// Open flame.
    Flame,
}

/// What spoils it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpoiltBy {
    Dirt,
    Soap,
    Light,
}

/// What to mind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mind {
    /// Added to the water, never the water to it.
    IntoWater,
    Ventilate,
    /// Chlorine gas with acids, fumes with ammonia, alcohol, peroxide.
    NeverWithAcid,
    NoAluminiumOrBrass,
    CorrodesSteel,
    Caustic,
    Flammable,
    /// Never after an alcohol dip or near the alcohol.
    FlameAwayFromAlcohol,
    Burns,
    /// Wet stones may burst.
    DryStoneOnly,
    /// From cold, dense stone alone.
    FromCold,
    SoftensPlastic,
    Fades,
}

/// An agent.
#[derive(Debug)]
pub struct Agent {
    /// The name in stored entries; never changes.
    pub key: &'static str,
    pub means: Means,
    /// Seconds of contact as published, shortest and longest; `None` as the label says.
    pub contact_s: Option<(u32, u32)>,
    pub reaches: Reaches,
    /// Made anew after so many minutes.
    pub remade_min: Option<u32>,
    pub spoilt_by: &'static [SpoiltBy],
    /// Rinsed off afterwards.
    pub rinse: bool,
    pub mind: &'static [Mind],
    pub kind: Kind,
    pub source: &'static str,
}

impl Agent {
    /// Whether it is heat: what a suspected batch needs before it joins the others.
    #[must_use]
    pub const fn is_heat(&self) -> bool {
        matches!(self.means, Means::Heat { .. })
    }

    /// The lowest strength of its use, where it is diluted or weighed.
    #[must_use]
    pub const fn least_ppm(&self) -> Option<u32> {
        match self.means {
            Means::Liquid { ppm } | Means::Powder { ppm } => Some(ppm.0),
            Means::AsLabel | Means::Heat { .. } | Means::Flame => None,
        }
    }

    /// Whether both orchid viruses are known to have been reached by it so strong and for so long: the lowest strength
    /// of its use and the shortest contact that was published. What nobody noted does not count.
    #[must_use]
    pub fn reached_viruses(&self, strength_ppm: Option<u32>, contact_s: Option<u32>) -> bool {
        let strong = self
            .least_ppm()
            .is_none_or(|least| strength_ppm.is_some_and(|used| used >= least));
        let long = self
            .contact_s
            .is_some_and(|(shortest, _)| contact_s.is_some_and(|lay| lay >= shortest));
        self.reaches.viruses() && strong && long
    }

    /// Whether a batch kept apart may join the clean ones after it: heat that reaches both viruses.
    #[must_use]
    pub fn frees(&self) -> bool {
        self.is_heat() && self.reaches.viruses()
    }
}

const fn reaches(of: [Reach; 5]) -> Reaches {
    let [fungi, bacteria, spores, orsv, cymmv] = of;
    Reaches {
        fungi,
        bacteria,
        spores,
        orsv,
        cymmv,
    }
}

use Reach::{No, Partly, Unknown, Yes};

/// Every built-in agent.
pub const AGENTS: &[Agent] = &[
    Agent {
        key: "chlorine",
        means: Means::Liquid {
            ppm: (5_000, 6_000),
        },
        contact_s: Some((60, 3_600)),
        reaches: reaches([Yes, Yes, Partly, Yes, Yes]),
        remade_min: Some(120),
        spoilt_by: &[SpoiltBy::Dirt, SpoiltBy::Light],
        rinse: true,
        mind: &[
            Mind::IntoWater,
            Mind::Ventilate,
            Mind::NeverWithAcid,
            Mind::NoAluminiumOrBrass,
            Mind::CorrodesSteel,
        ],
        kind: Kind::Published,
        source: "Penn State Extension, disinfecting tools, pots and benches (0.5 %, 10 min); Georgia agricultural education newsletter, August 2011 (30 min for pots, half-life 2 h); Lewandowski, Hayes & Adkins 2010, Plant Disease 94:542 and Li et al. 2015, Virology Journal 12:5 (related viruses on blades); spores from memory",
    },
    Agent {
        key: "chlorine_powder",
        means: Means::Powder {
            ppm: (5_000, 6_000),
        },
        contact_s: Some((60, 3_600)),
        reaches: reaches([Yes, Yes, Partly, Yes, Yes]),
        remade_min: Some(120),
        spoilt_by: &[SpoiltBy::Dirt, SpoiltBy::Light],
        rinse: true,
        mind: &[
            Mind::IntoWater,
            Mind::Ventilate,
            Mind::NeverWithAcid,
            Mind::NoAluminiumOrBrass,
            Mind::CorrodesSteel,
        ],
        kind: Kind::Published,
        source: "CDC, appendix on preparing chlorine solutions (powder by its available chlorine); contact as liquid chlorine, Penn State Extension",
    },
    Agent {
        key: "peroxymonosulfate",
        means: Means::Powder {
            ppm: (10_000, 20_000),
        },
        contact_s: Some((10, 60)),
        reaches: reaches([Yes, Yes, Unknown, Yes, Yes]),
        remade_min: Some(7 * 24 * 60),
        spoilt_by: &[SpoiltBy::Dirt],
        rinse: true,
        mind: &[Mind::Ventilate, Mind::NeverWithAcid, Mind::CorrodesSteel],
        kind: Kind::Published,
        source: "Li et al. 2015, Virology Journal 12:5 (2 %, potex- and tobamoviruses); Lewandowski, Hayes & Adkins 2010, Plant Disease 94:542 (1 %); life of the bath from memory",
    },
    Agent {
        key: "trisodium_phosphate",
        means: Means::Powder {
            ppm: (100_000, 164_000),
        },
        contact_s: Some((60, 600)),
        reaches: reaches([Unknown, Unknown, Unknown, Partly, Partly]),
        remade_min: None,
        spoilt_by: &[SpoiltBy::Dirt],
        rinse: true,
        mind: &[Mind::Caustic, Mind::IntoWater],
        kind: Kind::Memory,
        source: "from memory (10 %, minutes); Hu et al. 1994, Plant Disease 78:633 found the agents they tried incomplete against Cymbidium mosaic",
    },
    Agent {
        key: "quaternary_ammonium",
        means: Means::AsLabel,
        contact_s: Some((600, 3_600)),
        reaches: reaches([Partly, Yes, No, No, Unknown]),
        remade_min: None,
        spoilt_by: &[SpoiltBy::Dirt, SpoiltBy::Soap],
        rinse: false,
        mind: &[Mind::NeverWithAcid],
        kind: Kind::Published,
        source: "UMass Extension, cleaning and disinfecting the greenhouse (soap and dirt); Fera 2023, Viruses 15:2076 (a tobamovirus needed an hour); spores from memory",
    },
    Agent {
        key: "peroxide",
        means: Means::AsLabel,
        contact_s: Some((60, 600)),
        reaches: reaches([Partly, Yes, Unknown, Unknown, Unknown]),
        remade_min: None,
        spoilt_by: &[SpoiltBy::Dirt],
        rinse: false,
        mind: &[Mind::Ventilate, Mind::NeverWithAcid, Mind::Fades],
        kind: Kind::Published,
        source: "University of Minnesota Extension, October 2018 (a second's dip failed, a minute worked, one blend never cleared the fungus)",
    },
    Agent {
        key: "alcohol",
        means: Means::Liquid {
            ppm: (700_000, 700_000),
        },
        contact_s: Some((30, 60)),
        reaches: reaches([Yes, Yes, No, No, No]),
        remade_min: None,
        spoilt_by: &[SpoiltBy::Dirt],
        rinse: false,
        mind: &[Mind::Flammable, Mind::FlameAwayFromAlcohol],
        kind: Kind::Published,
        source: "Penn State Extension, disinfecting tools, pots and benches (70 %, no rinse); seconds, spores and viruses from memory",
    },
    Agent {
        key: "milk",
        means: Means::Powder {
            ppm: (200_000, 200_000),
        },
        contact_s: Some((60, 60)),
        reaches: reaches([No, No, No, Partly, No]),
        remade_min: None,
        spoilt_by: &[],
        rinse: true,
        mind: &[],
        kind: Kind::Published,
        source: "Li et al. 2015, Virology Journal 12:5 (tobamoviruses; partial against a potexvirus); Hu et al. 1994, Plant Disease 78:633 (failed against Cymbidium mosaic)",
    },
    Agent {
        key: "flame",
        means: Means::Flame,
        contact_s: Some((10, 20)),
        reaches: reaches([Yes, Yes, Yes, Yes, Yes]),
        remade_min: None,
        spoilt_by: &[],
        rinse: false,
        mind: &[Mind::FlameAwayFromAlcohol, Mind::Burns],
        kind: Kind::Memory,
        source: "from memory",
    },
    Agent {
        key: "pasteurised",
        means: Means::Heat {
            mc: (60_000, 60_000),
        },
        contact_s: Some((1_800, 1_800)),
        reaches: reaches([Yes, Partly, No, No, Partly]),
        remade_min: None,
        spoilt_by: &[],
        rinse: false,
        mind: &[Mind::Burns, Mind::SoftensPlastic],
        kind: Kind::Published,
        source: "UW-Extension Kenosha 2016 (60 °C, 30 min); Kamińska & Malinowski 1992, Folia Horticulturae IV/1:23 (ORSV in sap stands up to 92 to 94 °C)",
    },
    Agent {
        key: "steam",
        means: Means::Heat {
            mc: (82_000, 93_000),
        },
        contact_s: Some((1_800, 1_800)),
        reaches: reaches([Yes, Yes, Partly, No, Yes]),
        remade_min: None,
        spoilt_by: &[],
        rinse: false,
        mind: &[Mind::Burns, Mind::SoftensPlastic],
        kind: Kind::Published,
        source: "Penn State Extension, disinfecting tools, pots and benches (82 to 93 °C, 30 min under cover); Kamińska & Malinowski 1992, Folia Horticulturae IV/1:23 (ORSV)",
    },
    Agent {
        key: "boiled",
        means: Means::Heat {
            mc: (100_000, 100_000),
        },
        contact_s: Some((1_800, 1_800)),
        reaches: reaches([Yes, Yes, Partly, Yes, Yes]),
        remade_min: None,
        spoilt_by: &[],
        rinse: false,
        mind: &[Mind::Burns, Mind::FromCold, Mind::SoftensPlastic],
        kind: Kind::Published,
        source: "30-minute moist heat table as reposted from extension (100 °C, heat-resistant viruses); stone from memory",
    },
    Agent {
        key: "oven",
        means: Means::Heat {
            mc: (150_000, 180_000),
        },
        contact_s: Some((3_600, 3_600)),
        reaches: reaches([Yes, Yes, Yes, Yes, Yes]),
        remade_min: None,
        spoilt_by: &[],
        rinse: false,
        mind: &[Mind::Burns, Mind::DryStoneOnly, Mind::SoftensPlastic],
        kind: Kind::Memory,
        source: "from memory",
    },
];

/// The agent with this stored name.
#[must_use]
pub fn agent(key: &str) -> Option<&'static Agent> {
    AGENTS.iter().find(|row| row.key == key)
}

/// What is done where a source lot is suspected of a virus.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Suspected {
    /// The same, for so many seconds, or longer.
    Longer {
        contact_s: u32,
    },
    /// This agent, or it is thrown away.
    HeatOrDiscard {
        agent: &'static str,
    },
    Discard,
    /// A fresh one for each plant.
    FreshEach,
}

/// What is usual for an object: cleaned first, agent, contact.
#[derive(Debug)]
pub struct Usual {
    pub object: Object,
    /// `None` where it is changed, not disinfected.
    pub agent: Option<&'static str>,
    pub strength_ppm: Option<u32>,
    pub contact_s: u32,
    /// Other agents that serve.
    pub others: &'static [&'static str],
    pub rinses: u8,
    pub suspected: Suspected,
    pub kind: Kind,
    pub source: &'static str,
}

const CHLORINE_PPM: u32 = 5_000;

/// What for what.
pub const USUAL: &[Usual] = &[
    Usual {
        object: Object::Tools,
        agent: Some("chlorine"),
        strength_ppm: Some(CHLORINE_PPM),
        contact_s: 60,
        others: &["peroxymonosulfate", "chlorine_powder", "flame", "alcohol"],
        rinses: 1,
        suspected: Suspected::Longer { contact_s: 600 },
        kind: Kind::Published,
        source: "Penn State Extension, disinfecting tools, pots and benches (two tools in turn); Li et al. 2015, Virology Journal 12:5 (a minute on blades)",
    },
    Usual {
        object: Object::Gloves,
        agent: None,
        strength_ppm: None,
        contact_s: 0,
        others: &[],
        rinses: 0,
        suspected: Suspected::FreshEach,
        kind: Kind::Published,
        source: "Fera 2023, Viruses 15:2076 (two hours and more on gloves; washing hands was not reliable)",
    },
    Usual {
        object: Object::Pots,
        agent: Some("chlorine"),
        strength_ppm: Some(CHLORINE_PPM),
        contact_s: 1_800,
        others: &[
            "chlorine_powder",
            "peroxymonosulfate",
            "steam",
            "quaternary_ammonium",
            "peroxide",
        ],
        rinses: 1,
        suspected: Suspected::HeatOrDiscard { agent: "oven" },
        kind: Kind::Published,
        source: "Georgia agricultural education newsletter, August 2011 (30 min, rinse, air); suspected pots thrown away: orchid society virus pages; an oven is for clay alone, common practice, no source",
    },
    Usual {
        object: Object::Stone,
        agent: Some("chlorine"),
        strength_ppm: Some(CHLORINE_PPM),
        contact_s: 1_800,
        others: &["chlorine_powder", "steam", "oven", "boiled"],
        rinses: 2,
        suspected: Suspected::HeatOrDiscard { agent: "oven" },
        kind: Kind::CommonPractice,
        source: "Penn State Extension (stone by heat); minutes, rinses and the oven common practice, no source",
    },
    Usual {
        object: Object::Bench,
        agent: Some("quaternary_ammonium"),
        strength_ppm: None,
        contact_s: 600,
        others: &["peroxide", "chlorine"],
        rinses: 0,
        suspected: Suspected::Longer { contact_s: 3_600 },
        kind: Kind::Published,
        source: "UMass Extension, cleaning and disinfecting the greenhouse; an hour after a tobamovirus: Fera 2023, Viruses 15:2076",
    },
    Usual {
        object: Object::Tub,
        agent: Some("chlorine"),
        strength_ppm: Some(CHLORINE_PPM),
        contact_s: 600,
        others: &["chlorine_powder"],
        rinses: 3,
        suspected: Suspected::Longer { contact_s: 1_800 },
        kind: Kind::CommonPractice,
        source: "common practice, no source",
    },
];

/// What is usual for an object; every object has a row.
#[must_use]
pub fn usual(object: Object) -> Option<&'static Usual> {
    USUAL.iter().find(|row| row.object == object)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_object_has_its_usual_agent_and_every_agent_named_is_in_the_table() {
        for object in Object::ALL {
            let row = usual(object).unwrap();
            for key in row.agent.iter().chain(row.others) {
                assert!(agent(key).is_some(), "{key}");
            }
        }
    }

    #[test]
    fn milk_alcohol_and_warm_water_are_never_the_answer_to_a_virus() {
        for key in [
            "milk",
            "alcohol",
            "pasteurised",
            "steam",
            "quaternary_ammonium",
        ] {
            assert!(!agent(key).unwrap().reaches.viruses(), "{key}");
        }
        for key in ["chlorine", "flame", "boiled", "oven"] {
            assert!(agent(key).unwrap().reaches.viruses(), "{key}");
        }
    }

    #[test]
    fn what_reaches_a_virus_does_so_from_its_lowest_strength_and_its_shortest_contact_on() {
        for (key, ppm, s) in [
            ("chlorine", Some(5_000), 60),
            ("chlorine_powder", Some(5_000), 60),
            ("peroxymonosulfate", Some(10_000), 10),
            ("flame", None, 10),
            ("boiled", None, 1_800),
            ("oven", None, 3_600),
        ] {
            let row = agent(key).unwrap();
            assert!(row.reached_viruses(ppm, Some(s)), "{key}");
            assert!(!row.reached_viruses(ppm, Some(s - 1)), "{key}");
            assert!(!row.reached_viruses(ppm, None), "{key}");
            if let Some(ppm) = ppm {
                assert!(!row.reached_viruses(Some(ppm - 1), Some(s)), "{key}");
                assert!(!row.reached_viruses(None, Some(s)), "{key}");
            }
        }
        let alcohol = agent("alcohol").unwrap();
        assert!(!alcohol.reached_viruses(Some(700_000), Some(3_600)));
    }

    #[test]
    fn what_was_suspected_joins_the_others_after_an_oven_or_boiling_alone() {
        let free: Vec<&str> = AGENTS
            .iter()
            .filter(|row| row.frees())
            .map(|row| row.key)
            .collect();
        assert_eq!(free, ["boiled", "oven"]);
        for row in USUAL {
            if let Suspected::HeatOrDiscard { agent: key } = row.suspected {
                assert!(agent(key).unwrap().frees());
            }
        }
    }

    #[test]
    fn chlorine_is_made_anew_at_two_hours() {
        assert_eq!(agent("chlorine").unwrap().remade_min, Some(120));
    }
}
