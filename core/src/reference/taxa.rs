//! What is usual for a group of orchids: habit, nights, windows for repotting and flowering, sizes of pieces.
//!
//! These are starting figures for a book that has seen nothing yet. A lot's own flowering beats the table, a grower's
//! figure beats both, and a season only ever warns. Windows stand as they fall in the north and are turned on asking.
//! Each row names where its figures come from; much is common practice or memory and says so.

use crate::season::{Hemisphere, Warmth, Window};
use serde::{Deserialize, Serialize};

mod rows;

/// A group of orchids that are divided, potted and kept alike.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Group {
    Cymbidium,
    /// Miniatures of *Cymbidium ensifolium* blood, which need no cool spell.
    CymbidiumWarm,
    Cattleya,
    Laelia,
    /// A Dendrobium whose kind is not known.
    Dendrobium,
    DendrobiumNobile,
    DendrobiumPhalaenopsis,
    DendrobiumSpeciosum,
    Oncidium,
    /// Thick-bulbed Oncidium kinds that flower from spring into summer; only a grower can tell.
    OncidiumSummer,
    /// Odontoglossum and Miltoniopsis.
    Odontoglossum,
    Zygopetalum,
    Coelogyne,
    /// Lycaste and Anguloa.
    Lycaste,
    Paphiopedilum,
    /// Paphiopedilum with mottled leaves, of the Maudiae type.
    PaphiopedilumMottled,
    Phragmipedium,
    /// Masdevallia, Pleurothallis and kin.
    Masdevallia,
    Phalaenopsis,
    Vanda,
    Sarcochilus,
    /// An orchid the table does not know.
    Other,
}

/// How the plant grows, which decides how it can be divided.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Habit {
    Bulbs,
    Canes,
    /// Sympodial without bulbs.
    Growths,
    /// One stem that goes on; not divided.
    Monopodial,
}

/// How much of the aftercare a group needs: tough kinds get the light protocol.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Strength {
    Light,
    Full,
}

/// What is counted on a piece.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Unit {
    Bulbs,
    Canes,
    Growths,
    Leaves,
    /// Live roots on a keiki or top cut.
    Roots,
}

/// Sizes of pieces, as ranges from the least to the usual.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Pieces {
    pub unit: Unit,
    /// Enough to flower next season; `None` where the plant is not divided.
    pub flowering: Option<(u8, u8)>,
    /// Enough to live and grow on.
    pub starter: (u8, u8),
}

/// Why a window for repotting is one.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Why {
    AfterFlowering,
    NewRoots,
    NewGrowth,
    /// Deciduous kinds, as the buds break.
    BudBreak,
    /// Kinds that root again in autumn.
    AutumnRoots,
    /// After a summer flowering, while nights stay mild.
    MildNights,
    /// Kinds that must not be disturbed in heat.
    AwayFromHeat,
}

/// A window for repotting.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Repot {
    pub window: Window,
    /// Only in a house at least this warm; `None` in every house.
    pub house_at_least: Option<Warmth>,
    pub why: Why,
}

/// What is usual for one group.
#[derive(Debug)]
pub struct GroupRow {
    pub group: Group,
    /// Genera that belong here unless `kinds` of another row says otherwise.
    pub genera: &'static [&'static str],
    /// Their usual abbreviations in the trade.
    pub short: &'static [&'static str],
    /// Genus with species or grex, where one genus falls into several groups.
    pub kinds: &'static [&'static str],
    pub habit: Habit,
    pub strength: Strength,
    pub warmth: Warmth,
    /// Night minimum from and to, in thousandths of a degree Celsius. Authors differ by 3 degrees.
    pub night_mc: (i32, i32),
    /// As they fall in the north.
    pub repot: &'static [Repot],
    /// As they fall in the north; empty where no figure is worth giving.
    pub flowering: &'static [Window],
    /// How long the usual mix holds.
    pub media_life_months: (u8, u8),
    pub repot_months: (u8, u8),
    pub pieces: Pieces,
    /// Where the figures come from.
    pub source: &'static str,
}

/// Every row, in the order of the list a grower picks from.
pub fn groups() -> &'static [GroupRow] {
    rows::ROWS
}

/// The row of a group.
pub fn row(group: Group) -> &'static GroupRow {
    static OTHER: GroupRow = rows::OTHER;
    rows::ROWS
        .iter()
        .find(|row| row.group == group)
        .unwrap_or(&OTHER)
}

/// The group of a genus (in full or abbreviated), given its species or grex when known. Case and stops do not matter.
pub fn group_of(genus: &str, kind: Option<&str>) -> Group {
    let Some(genus_row) = genus_row(genus) else {
        return Group::Other;
    };
    let of_kind = kind.and_then(|kind| {
        rows::ROWS.iter().find(|row| {
            row.kinds.iter().any(|known| {
                // From the end: nearly all of them are told apart by their length.
                let at = known.len().saturating_sub(kind.len());
                known.is_char_boundary(at)
                    && known.split_at(at).1.eq_ignore_ascii_case(kind)
                    && known
                        .split_at(at)
                        .0
                        .strip_suffix(' ')
                        .is_some_and(|in_genus| {
                            !in_genus.contains(' ') && genus_row.genera.contains(&in_genus)
                        })
            })
        })
    });
    of_kind.unwrap_or(genus_row).group
}

/// Whether the table knows a genus by this name or abbreviation.
pub fn knows(genus: &str) -> bool {
    genus_row(genus).is_some()
}

fn genus_row(genus: &str) -> Option<&'static GroupRow> {
    let genus = genus.trim_end_matches('.');
    rows::ROWS.iter().find(|row| {
        let mut names = row.genera.iter().chain(row.short);
        names.any(|known| {
            let plain = known.strip_suffix('.').unwrap_or(known);
            plain.eq_ignore_ascii_case(genus)
        })
    })
}

/// When to repot a group, as it falls in a hemisphere.
///
/// Windows that ask for a warm house are left out when the house is cooler or not known.
pub fn repot_windows(group: Group, hemisphere: Hemisphere, house: Option<Warmth>) -> Vec<Repot> {
    let fits = |repot: &&Repot| {
        repot
            .house_at_least
            .is_none_or(|least| house >= Some(least))
    };
    row(group)
        .repot
        .iter()
        .filter(fits)
        .map(|repot| Repot {
            window: repot.window.seen_from(hemisphere),
            ..*repot
        })
        .collect()
}

/// When a group usually flowers, as it falls in a hemisphere. Empty when no figure is worth giving.
pub fn flowering_windows(group: Group, hemisphere: Hemisphere) -> Vec<Window> {
    let windows = row(group).flowering.iter();
    windows.map(|window| window.seen_from(hemisphere)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::NaiveDate;
    use std::collections::BTreeSet;

    const NORTH: Hemisphere = Hemisphere::North;
    const SOUTH: Hemisphere = Hemisphere::South;

    fn mid(month: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, month, 15).unwrap()
    }

    fn in_bloom(group: Group, hemisphere: Hemisphere, month: u32) -> bool {
        let windows = flowering_windows(group, hemisphere);
        windows.iter().any(|window| window.contains(mid(month)))
    }

    #[test]
    fn december_bloom_south_of_the_line_is_june_bloom_north_of_it() {
        assert!(in_bloom(Group::Odontoglossum, NORTH, 6));
        assert!(in_bloom(Group::Odontoglossum, SOUTH, 12));
        assert!(!in_bloom(Group::Odontoglossum, SOUTH, 6));
        for row in groups() {
            for month in 1..=12 {
                let turned = (month + 5) % 12 + 1;
                assert_eq!(
                    in_bloom(row.group, NORTH, month),
                    in_bloom(row.group, SOUTH, turned),
                    "{:?} in month {month}",
                    row.group
                );
            }
        }
    }

    #[test]
    fn spring_repotting_falls_in_september_to_november_south_of_the_line() {
        let windows = repot_windows(Group::Coelogyne, SOUTH, None);
        assert_eq!(windows[0].window, Window::months(9, 11));
        assert_eq!(
            flowering_windows(Group::Laelia, SOUTH),
            [Window::months(5, 7)]
        );
    }

    #[test]
    fn autumn_repotting_of_oncidium_asks_for_a_house_with_mild_nights() {
        let october = mid(10);
        let open = |house| {
            repot_windows(Group::Oncidium, NORTH, house)
                .iter()
                .any(|repot| repot.window.contains(october))
        };
        assert!(!open(None));
        assert!(!open(Some(Warmth::Cool)));
        assert!(open(Some(Warmth::Intermediate)));
        assert!(open(Some(Warmth::Warm)));
    }

    #[test]
    fn cymbidium_is_not_divided_in_the_hot_months() {
        for hot in [7, 8] {
            for repot in repot_windows(Group::Cymbidium, NORTH, Some(Warmth::Warm)) {
                assert!(!repot.window.contains(mid(hot)));
            }
        }
    }

    #[test]
    fn every_genus_and_abbreviation_stands_once() {
        let mut seen = BTreeSet::new();
        for row in groups() {
            for name in row.genera.iter().chain(row.short).chain(row.kinds) {
                assert!(seen.insert(name.to_lowercase()), "{name} stands twice");
            }
            for kind in row.kinds {
                let (genus, kind) = kind.split_once(' ').unwrap();
                assert_eq!(group_of(genus, Some(kind)), row.group, "{genus} {kind}");
            }
        }
    }

    #[test]
    fn every_group_has_one_row_a_source_and_sound_figures() {
        let mut seen = BTreeSet::new();
        for row in groups() {
            assert!(seen.insert(row.group), "{:?} stands twice", row.group);
            assert_eq!(super::row(row.group).group, row.group);
            assert!(row.source.len() > 20, "{:?} has no source", row.group);
            assert!(row.night_mc.0 < row.night_mc.1);
            assert!(row.repot_months.0 >= 6 && row.repot_months.0 <= row.repot_months.1);
            assert!(row.media_life_months.0 <= row.media_life_months.1);
            let starter = row.pieces.starter;
            assert!(0 < starter.0 && starter.0 <= starter.1);
            if let Some(flowering) = row.pieces.flowering {
                assert!(starter.0 < flowering.0 && flowering.0 <= flowering.1);
            }
            assert!(row.repot.iter().any(|repot| repot.house_at_least.is_none()));
        }
        // The list above must grow with the enum.
        let last = Group::Other as usize;
        assert_eq!(seen.len(), last + 1);
    }

    #[test]
    fn windows_of_one_group_do_not_overlap() {
        for row in groups() {
            for month in 1..=12 {
                let open = row.repot.iter().filter(|r| r.window.contains(mid(month)));
                assert!(open.count() <= 1, "{:?} in month {month}", row.group);
                let open = row.flowering.iter().filter(|w| w.contains(mid(month)));
                assert!(open.count() <= 1, "{:?} in month {month}", row.group);
            }
        }
    }

    #[test]
    fn a_genus_is_found_in_full_abbreviated_and_by_its_kind() {
        assert_eq!(group_of("Cymbidium", None), Group::Cymbidium);
        assert_eq!(group_of("cym.", Some("ensifolium")), Group::CymbidiumWarm);
        assert_eq!(group_of("Dendrobium", None), Group::Dendrobium);
        assert_eq!(
            group_of("Dendrobium", Some("kingianum")),
            Group::DendrobiumSpeciosum
        );
        assert_eq!(
            group_of("Paphiopedilum", Some("Maudiae")),
            Group::PaphiopedilumMottled
        );
        assert_eq!(
            group_of("Phalaenopsis", Some("nobile")),
            Group::Phalaenopsis
        );
        assert_eq!(group_of("Den", None), Group::Dendrobium);
        assert_eq!(group_of("Brassocattleya", None), Group::Cattleya);
        assert_eq!(group_of("Bletilla", Some("striata")), Group::Other);
        assert!(knows("Vanda") && !knows("Bletilla"));
    }

    #[test]
    fn the_names_written_in_books_never_change() {
        let wire: Vec<String> = groups()
            .iter()
            .map(|row| serde_json::to_string(&row.group).unwrap())
            .collect();
        assert_eq!(
            wire.join(" ").replace('"', ""),
            "cymbidium cymbidium_warm cattleya laelia dendrobium dendrobium_nobile dendrobium_phalaenopsis \
             dendrobium_speciosum oncidium oncidium_summer odontoglossum zygopetalum coelogyne lycaste \
             paphiopedilum paphiopedilum_mottled phragmipedium masdevallia phalaenopsis vanda sarcochilus other"
        );
    }
}
