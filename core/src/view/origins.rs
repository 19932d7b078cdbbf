//! Where the built-in figures come from, table by table: what a grower may trust, and how far.
//!
//! Rows of one source stand together; each table says everything it holds.

use crate::event::{Airing, Object};
use crate::label_sheet::PRESETS;
use crate::outlook::{ClassRow, classes};
use crate::quantity::Unit;
use crate::reference::labour::{self, LabourRow};
use crate::reference::taxa::{self, Group};
use crate::reference::{
    actives, airing, cites, courses, media, never, pots, protocols, sanitizers, spacing, thirst,
};

/// A table of built-in figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Table {
    /// Groups of plants: seasons, sizes of pieces, nights.
    Groups,
    /// What goes into a mix.
    Components,
    Pots,
    /// Litres as printed for pots by their width.
    PrintedLitres,
    ContainerClasses,
    /// Days after potting and other events.
    Protocols,
    /// What disinfects, and what is usual for an object.
    Sanitizers,
    Units,
    /// Active ingredients: codes, groups, what they act on.
    Actives,
    /// What must never meet.
    Never,
    /// How a house is aired after a spray.
    Airing,
    /// Days between waterings of a group.
    Thirst,
    /// Roots, rest and cool nights of a group.
    Courses,
    /// What is assumed where the grower has not said.
    Assumed,
    /// Sheets of labels to begin from.
    Sheets,
    /// Orchids of appendix I.
    Appendix,
    /// Minutes at the bench.
    Labour,
    /// How far one growth stands from the next.
    Spacing,
    /// How many pieces of a class live, and when they can be sold.
    Classes,
}

impl Table {
    pub const ALL: [Self; 19] = [
        Self::Groups,
        Self::Components,
        Self::Pots,
        Self::PrintedLitres,
        Self::ContainerClasses,
        Self::Protocols,
        Self::Sanitizers,
        Self::Units,
        Self::Actives,
        Self::Courses,
        Self::Assumed,
        Self::Never,
        Self::Airing,
        Self::Sheets,
        Self::Appendix,
        Self::Thirst,
        Self::Labour,
        Self::Spacing,
        Self::Classes,
    ];
}

/// What is assumed where the grower has not said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Assumed {
    /// Share of loose mix lost to settling.
    Settling {
        permille: u32,
    },
    /// A stone layer of so many hundredths of the pot's height.
    StoneLayer {
        percent: u32,
    },
    MixLife {
        months: u16,
    },
}

/// One row of a table, by what it is known as.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Row {
    Group {
        group: Group,
        genera: &'static [&'static str],
    },
    Component(&'static str),
    /// Across the top, across the base and height, in millimetres.
    Pot([u32; 3]),
    Width {
        mm: u32,
    },
    Class(&'static str),
    Protocol(String),
    /// An agent by its key.
    Sanitizer(&'static str),
    /// What is usual for an object.
    Cleaned(Object),
    Unit(&'static str),
    Active(&'static str),
    /// Two kinds that must not meet.
    Pair(&'static never::Pair),
    Airing(Airing),
    Assumed(Assumed),
    /// A sheet by its key.
    Sheet(&'static str),
    /// A genus, and a species of it where not the whole is meant.
    Listed(&'static str, Option<&'static str>),
    Labour(LabourRow),
    /// Millimetres from growth to growth, from and to.
    Spacing(Group, (u32, u32)),
    PieceClass(ClassRow),
}

/// Rows of one table that have one source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origin {
    pub source: String,
    pub rows: Vec<Row>,
}

const PRACTICE: &str = "common practice, no source";

/// The sources of a table, in the order of its rows.
#[must_use]
pub fn origins(table: Table) -> Vec<Origin> {
    let mut origins: Vec<Origin> = Vec::new();
    for (source, row) in rows(table) {
        match origins.iter_mut().find(|origin| origin.source == source) {
            Some(origin) => origin.rows.push(row),
            None => origins.push(Origin {
                source,
                rows: vec![row],
            }),
        }
    }
    origins
}

fn rows(table: Table) -> Vec<(String, Row)> {
    let of = |source: &str, row| (source.to_owned(), row);
    match table {
        Table::Groups => {
            let group = |row: &'static taxa::GroupRow| Row::Group {
                group: row.group,
                genera: row.genera,
            };
            let rows = taxa::groups().iter();
            rows.map(|row| of(row.source, group(row))).collect()
        }
        Table::Components => {
            let rows = media::COMPONENTS.iter();
            rows.map(|row| of(row.source, Row::Component(row.key)))
                .collect()
        }
        Table::Pots => {
            let rows = pots::POTS.iter();
            rows.map(|row| {
                of(
                    row.source,
                    Row::Pot([row.top_mm, row.base_mm, row.height_mm]),
                )
            })
            .collect()
        }
        Table::PrintedLitres => {
            let rows = pots::PRINTED_LITRES.iter();
            rows.map(|row| of(row.source, Row::Width { mm: row.width_mm }))
                .collect()
        }
        Table::ContainerClasses => {
            let rows = pots::CONTAINER_CLASSES.iter();
            rows.map(|row| of(row.source, Row::Class(row.class)))
                .collect()
        }
        Table::Protocols => {
            let rows = protocols::built_in().into_iter();
            rows.map(|protocol| (protocol.source, Row::Protocol(protocol.key)))
                .collect()
        }
        Table::Sanitizers => {
            let agents = sanitizers::AGENTS.iter();
            let agents = agents.map(|row| of(row.source, Row::Sanitizer(row.key)));
            let usual = sanitizers::USUAL.iter();
            agents
                .chain(usual.map(|row| of(row.source, Row::Cleaned(row.object))))
                .collect()
        }
        Table::Units => {
            let rows = Unit::all().map(Unit::def);
            rows.map(|row| of(row.source, Row::Unit(row.symbol)))
                .collect()
        }
        Table::Actives => actives::all()
            .map(|row| (row.sources(), Row::Active(row.name)))
            .collect(),
        Table::Never => never::PAIRS
            .iter()
            .map(|pair| of(pair.source, Row::Pair(pair)))
            .collect(),
        Table::Airing => airing::AIRINGS
            .iter()
            .map(|row| of(row.source, Row::Airing(row.how)))
            .collect(),
        Table::Thirst => thirst::all()
            .map(|group| {
                let genera = &[];
                of(thirst::THIRST_SOURCE, Row::Group { group, genera })
            })
            .collect(),
        Table::Courses => courses::sources()
            .map(|(group, source)| {
                let genera = &[];
                of(source, Row::Group { group, genera })
            })
            .collect(),
        Table::Labour => labour::LABOUR
            .iter()
            .map(|row| of(labour::LABOUR_SOURCE, Row::Labour(*row)))
            .collect(),
        Table::Spacing => spacing::spaced()
            .map(|group| {
                let mm = spacing::spacing_mm(group);
                of(spacing::SPACING_SOURCE, Row::Spacing(group, mm))
            })
            .collect(),
        Table::Classes => classes()
            .iter()
            .map(|row| of(row.source, Row::PieceClass(*row)))
            .collect(),
        Table::Assumed => assumed()
            .map(|assumed| of(PRACTICE, Row::Assumed(assumed)))
            .to_vec(),
        Table::Sheets => PRESETS
            .map(|preset| of(PRACTICE, Row::Sheet(preset.key)))
            .to_vec(),
        Table::Appendix => cites::FIRST
            .map(|row| of(row.source, Row::Listed(row.genus, row.species)))
            .to_vec(),
    }
}

fn assumed() -> [Assumed; 3] {
    [
        Assumed::Settling {
            permille: crate::potting::DEFAULT_SETTLE_PERMILLE,
        },
        Assumed::StoneLayer { percent: 25 },
        Assumed::MixLife {
            months: crate::shed_draft::MIX_LIFE_MONTHS,
        },
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_built_in_row_has_its_origin_once() {
        let count = |table| -> usize {
            let origins = origins(table);
            assert!(origins.iter().all(|origin| !origin.source.is_empty()));
            origins.iter().map(|origin| origin.rows.len()).sum()
        };
        let counts: Vec<usize> = Table::ALL.map(count).to_vec();
        assert_eq!(counts[1], media::COMPONENTS.len());
        assert_eq!(counts[2], pots::POTS.len());
        assert_eq!(counts[3], pots::PRINTED_LITRES.len());
        assert_eq!(counts[4], pots::CONTAINER_CLASSES.len());
        assert_eq!(counts[5], protocols::built_in().len());
        assert_eq!(
            counts[6],
            sanitizers::AGENTS.len() + sanitizers::USUAL.len()
        );
        assert_eq!(counts[7], Unit::all().count());
        assert_eq!(counts[8], actives::all().count());
        assert_eq!(counts[9], courses::sources().count());
        assert_eq!(counts[0], taxa::groups().len());
        assert_eq!(counts[11], never::PAIRS.len());
        assert_eq!(counts[12], airing::AIRINGS.len());
        assert_eq!(
            (counts[13], counts[14]),
            (PRESETS.len(), cites::FIRST.len())
        );
        assert_eq!(counts[15], thirst::all().count());
        assert_eq!(counts[16], labour::LABOUR.len());
        assert_eq!(counts[17], spacing::spaced().count());
        assert_eq!(counts[18], classes().len());
    }

    #[test]
    fn rows_of_one_source_stand_together() {
        let origins = origins(Table::Units);
        let sources: std::collections::BTreeSet<&str> = origins
            .iter()
            .map(|origin| origin.source.as_str())
            .collect();
        assert_eq!(sources.len(), origins.len());
        assert!(origins.len() < Unit::all().count() / 3);
    }
}
