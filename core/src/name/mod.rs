//! Names of plants, held as fields.
//!
//! No general rule reads an orchid name from a line of text: a capital second word is a grex, a small one a species. So a
//! name is stored in its parts, a typed line is only split as a proposal ([`PlantName::from_typed`]), and the printed form
//! is made from the parts. Nothing is required: a plant without a name, and one whose name waits for its flower, are normal.
//!
//! Print follows the codes: the International Code of Nomenclature (ICN, appendix on hybrids) for genus, species and
//! ranks, the International Code of Nomenclature for Cultivated Plants (ICNCP) for grex, Group and cultivar, both from memory.

mod epithet;
mod format;
mod typed;

pub use epithet::{EPITHET_MAX, EpithetWarning, epithet_warnings};
pub use format::Run;
pub use typed::clean;

use crate::reference::taxa::{self, Group};
use crate::text::{Lines, TextFault, check_text};
use serde::{Deserialize, Serialize};

/// Longest single part of a name, in characters. Twice what the codes allow, for what stands on old labels.
pub const PART_MAX: usize = 60;
/// Longest note beside a name, in characters.
pub const NOTE_MAX: usize = 200;
/// Most ranks below the species.
pub const RANKS_MAX: usize = 2;
/// How deep crosses of crosses may be written out; give the cross its own grex beyond that.
pub const FORMULA_DEPTH_MAX: usize = 3;

/// The name of a plant. All parts may be absent.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Default, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct PlantName {
    /// Genus, in full or abbreviated as typed (`Cym.`).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub genus: Option<String>,
    /// The genus is a nothogenus: × before it.
    #[serde(skip_serializing_if = "is_not")]
    pub genus_hybrid: bool,
    /// `cf.`, `aff.`, `sp.`
    #[serde(skip_serializing_if = "Option::is_none")]
    pub qualifier: Option<Qualifier>,
    /// Species epithet, without sign.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub species: Option<String>,
    /// The species is a nothospecies: × before its epithet.
    #[serde(skip_serializing_if = "is_not")]
    pub species_hybrid: bool,
    /// Ranks below the species, from the higher to the lower.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub infraspecific: Vec<Infraspecific>,
    /// Grex: what every plant of a cross is called.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grex: Option<String>,
    /// The sign `gx` is written after the grex.
    #[serde(skip_serializing_if = "is_not")]
    pub grex_sign: bool,
    /// Cultivar Group, without the word.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub group: Option<String>,
    /// Cultivar epithet, without quotes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cultivar: Option<String>,
    /// The two parents, for a cross without a name.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub formula: Option<Formula>,
    /// What stands beside the name in trade: an award, a breeder's number, whatever could not be split.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// The name waits for the flower.
    #[serde(skip_serializing_if = "is_not")]
    pub to_confirm: bool,
}

#[allow(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands a reference to the test that leaves a field out"
)]
fn is_not(flag: &bool) -> bool {
    !flag
}

/// How sure the species is.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Qualifier {
    /// To be compared with.
    Cf,
    /// Near to, but not.
    Aff,
    /// Some species.
    Sp,
}

/// A rank below the species.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rank {
    Subspecies,
    Variety,
    Subvariety,
    Form,
    Subform,
}

/// A rank below the species with its epithet.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Infraspecific {
    pub rank: Rank,
    pub epithet: String,
    /// A hybrid of this rank, printed `nothosubsp.` and so on.
    #[serde(default, skip_serializing_if = "is_not")]
    pub hybrid: bool,
}

/// A cross written by its parents: the pod parent first, then the pollen parent.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Formula {
    pub pod: Box<PlantName>,
    pub pollen: Box<PlantName>,
}

/// A part of a name, for pointing at it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Part {
    Genus,
    Species,
    Infraspecific,
    Grex,
    Group,
    Cultivar,
    Formula,
    Note,
}

/// Why a name cannot be stored.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NameFault {
    /// A part is too long or holds control characters.
    Text { part: Part, fault: TextFault },
    /// A part is there and empty.
    EmptyPart { part: Part },
    /// More than [`RANKS_MAX`] ranks.
    TooManyRanks { found: usize },
    /// Crosses of crosses deeper than [`FORMULA_DEPTH_MAX`].
    FormulaTooDeep,
}

impl PlantName {
    /// Splits a typed line into parts, as a proposal the grower can mend. Whatever does not fit becomes the note.
    pub fn from_typed(typed: &str) -> PlantName {
        typed::split(typed)
    }

    /// No part at all: a plant without a name. A note alone is not a name.
    pub fn is_unnamed(&self) -> bool {
        let named = [
            &self.genus,
            &self.species,
            &self.grex,
            &self.group,
            &self.cultivar,
        ];
        named.iter().all(|part| part.is_none())
            && self.infraspecific.is_empty()
            && self.formula.is_none()
    }

    /// The group of orchids the plant is kept with; by the pod parent for a cross without a genus.
    pub fn plant_group(&self) -> Group {
        self.group_within(FORMULA_DEPTH_MAX)
    }

    fn group_within(&self, depth: usize) -> Group {
        let kind = self.species.as_deref().or(self.grex.as_deref());
        match (&self.genus, &self.formula) {
            (Some(genus), _) => taxa::group_of(genus, kind),
            (None, Some(formula)) if depth > 0 => formula.pod.group_within(depth - 1),
            (None, _) => Group::Other,
        }
    }

    /// Everything that keeps the name from being stored; empty when it can be.
    pub fn faults(&self) -> Vec<NameFault> {
        let mut faults = Vec::new();
        self.collect_faults(0, &mut faults);
        faults
    }

    fn collect_faults(&self, depth: usize, faults: &mut Vec<NameFault>) {
        let parts = [
            (Part::Genus, &self.genus, PART_MAX),
            (Part::Species, &self.species, PART_MAX),
            (Part::Grex, &self.grex, PART_MAX),
            (Part::Group, &self.group, PART_MAX),
            (Part::Cultivar, &self.cultivar, PART_MAX),
            (Part::Note, &self.note, NOTE_MAX),
        ];
        let given = parts
            .into_iter()
            .filter_map(|(part, text, max)| Some((part, text.as_deref()?, max)));
        let ranks = self
            .infraspecific
            .iter()
            .map(|below| (Part::Infraspecific, below.epithet.as_str(), PART_MAX));
        for (part, text, max) in given.chain(ranks) {
            if text.trim().is_empty() {
                faults.push(NameFault::EmptyPart { part });
            } else if let Err(fault) = check_text(text, max, Lines::One) {
                faults.push(NameFault::Text { part, fault });
            }
        }
        let found = self.infraspecific.len();
        if found > RANKS_MAX {
            faults.push(NameFault::TooManyRanks { found });
        }
        match &self.formula {
            Some(_) if depth >= FORMULA_DEPTH_MAX => faults.push(NameFault::FormulaTooDeep),
            Some(formula) => {
                formula.pod.collect_faults(depth + 1, faults);
                formula.pollen.collect_faults(depth + 1, faults);
            }
            None => {}
        }
    }

    /// What the code for cultivated plants would not register, part by part. Warnings: old labels stand as they are.
    pub fn warnings(&self) -> Vec<(Part, EpithetWarning)> {
        let genus = self.genus.as_deref();
        [
            (Part::Grex, &self.grex),
            (Part::Group, &self.group),
            (Part::Cultivar, &self.cultivar),
        ]
        .into_iter()
        .filter_map(|(part, epithet)| Some((part, epithet.as_deref()?)))
        .flat_map(|(part, epithet)| {
            let warnings = epithet_warnings(epithet, genus).into_iter();
            warnings.map(move |warning| (part, warning))
        })
        .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(genus: &str) -> PlantName {
        PlantName {
            genus: Some(genus.into()),
            ..PlantName::default()
        }
    }

    #[test]
    fn a_plant_without_a_name_is_stored_as_nothing() {
        let unnamed = PlantName::default();
        assert!(unnamed.is_unnamed() && unnamed.faults().is_empty());
        assert_eq!(serde_json::to_string(&unnamed).unwrap(), "{}");
        assert_eq!(serde_json::from_str::<PlantName>("{}").unwrap(), unnamed);
        let only_a_note = PlantName {
            note: Some("white, from the old house".into()),
            to_confirm: true,
            ..PlantName::default()
        };
        assert!(only_a_note.is_unnamed());
    }

    #[test]
    fn the_stored_form_of_a_full_name_never_changes() {
        let name = PlantName::from_typed("Cymbidium × ensifolium var. album 'Night Tide' AM");
        let stored = r#"{"genus":"Cymbidium","species":"ensifolium","species_hybrid":true,"infraspecific":[{"rank":"variety","epithet":"album"}],"cultivar":"Night Tide","note":"AM"}"#;
        assert_eq!(serde_json::to_string(&name).unwrap(), stored);
        assert_eq!(serde_json::from_str::<PlantName>(stored).unwrap(), name);
        assert!(serde_json::from_str::<PlantName>(r#"{"colour":"white"}"#).is_err());
    }

    #[test]
    fn parts_are_held_to_their_limits() {
        let with_note = |length: usize| PlantName {
            note: Some("n".repeat(length)),
            ..named("Vanda")
        };
        assert_eq!(with_note(NOTE_MAX - 1).faults(), []);
        assert_eq!(with_note(NOTE_MAX).faults(), []);
        assert_eq!(
            with_note(NOTE_MAX + 1).faults(),
            [NameFault::Text {
                part: Part::Note,
                fault: TextFault::TooLong {
                    max: 200,
                    found: 201
                }
            }]
        );
        assert_eq!(named(&"a".repeat(PART_MAX - 1)).faults(), []);
        assert_eq!(named(&"a".repeat(PART_MAX)).faults(), []);
        assert_eq!(named(&"a".repeat(PART_MAX + 1)).faults().len(), 1);
        assert_eq!(
            named(" ").faults(),
            [NameFault::EmptyPart { part: Part::Genus }]
        );
        assert_eq!(named("Van\nda").faults().len(), 1);
        let below = Infraspecific {
            rank: Rank::Variety,
            epithet: "alba".into(),
            hybrid: false,
        };
        let ranks = |count| PlantName {
            infraspecific: vec![below.clone(); count],
            ..named("Vanda")
        };
        assert_eq!(ranks(RANKS_MAX - 1).faults(), []);
        assert_eq!(ranks(RANKS_MAX).faults(), []);
        assert_eq!(
            ranks(RANKS_MAX + 1).faults(),
            [NameFault::TooManyRanks { found: 3 }]
        );
    }

    #[test]
    fn crosses_of_crosses_end_at_a_stated_depth() {
        let cross = |pod: PlantName| PlantName {
            formula: Some(Formula {
                pod: Box::new(pod),
                pollen: Box::new(named("Vanda")),
            }),
            ..PlantName::default()
        };
        let mut name = named("Aerides");
        for depth in 1..=FORMULA_DEPTH_MAX {
            name = cross(name);
            assert_eq!(name.faults(), [], "depth {depth}");
        }
        assert_eq!(name.plant_group(), Group::Vanda);
        assert_eq!(cross(name).faults(), [NameFault::FormulaTooDeep]);
    }

    #[test]
    fn a_plant_is_kept_with_its_genus_or_its_pod_parent() {
        let group = |typed| PlantName::from_typed(typed).plant_group();
        assert_eq!(
            group("Dendrobium kingianum 'Pale Rim'"),
            Group::DendrobiumSpeciosum
        );
        assert_eq!(group("Den. Morning Mist"), Group::Dendrobium);
        assert_eq!(group("Paphiopedilum Maudiae"), Group::PaphiopedilumMottled);
        assert_eq!(
            group("Cattleya labiata x Cattleya warneri"),
            Group::Cattleya
        );
        assert_eq!(group("Bletilla striata"), Group::Other);
        assert_eq!(group(""), Group::Other);
    }

    #[test]
    fn a_doubtful_epithet_warns_and_is_kept() {
        let name = PlantName::from_typed("Cymbidium Cymbidium Red 'A'");
        assert_eq!(
            name.warnings(),
            [
                (Part::Grex, EpithetWarning::RepeatsGenus),
                (Part::Cultivar, EpithetWarning::SingleLetter),
            ]
        );
        assert!(name.faults().is_empty());
    }
}
