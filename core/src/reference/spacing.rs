//! How far one growth stands from the next, and how many growths a clump has when nobody counted: what the room in a
//! pot and a guess at a clump are worked out from.

use crate::event::RoughSize;

use super::taxa::{Group, Unit};

pub const SPACING_SOURCE: &str = "common practice, no source";

/// Growths that have a spacing of their own in the table; what is not named stands like the bulbs of most.
const ROWS: [(Group, (u32, u32)); 16] = [
    (Group::Cymbidium, (30, 40)),
    (Group::CymbidiumWarm, (20, 30)),
    (Group::Cattleya, (25, 40)),
    (Group::Laelia, (25, 40)),
    (Group::DendrobiumNobile, (10, 20)),
    (Group::Dendrobium, (10, 20)),
    (Group::DendrobiumPhalaenopsis, (10, 20)),
    (Group::DendrobiumSpeciosum, (20, 40)),
    (Group::Oncidium, (20, 30)),
    (Group::OncidiumSummer, (20, 30)),
    (Group::Zygopetalum, (30, 60)),
    (Group::Paphiopedilum, (15, 25)),
    (Group::PaphiopedilumMottled, (15, 25)),
    (Group::Phragmipedium, (15, 25)),
    (Group::Masdevallia, (8, 12)),
    (Group::Sarcochilus, (15, 25)),
];

/// Groups that have a row.
pub fn spaced() -> impl Iterator<Item = Group> {
    ROWS.iter().map(|(group, _)| *group)
}

/// Millimetres of rhizome from one growth to the next, from and to.
#[must_use]
pub fn spacing_mm(group: Group) -> (u32, u32) {
    let found = ROWS.iter().find(|(known, _)| *known == group);
    found.map_or((25, 40), |(_, spacing)| *spacing)
}

/// Growths in one pot of a clump of a rough size: fewest, likely, most (our own reading; a guess and nothing more).
#[must_use]
pub fn growths_in_a_pot(size: RoughSize, unit: Unit) -> (u32, u32, u32) {
    let (low, middle, high) = match size {
        RoughSize::Small => (2, 3, 5),
        RoughSize::Middling => (4, 6, 9),
        RoughSize::Large => (8, 12, 18),
    };
    // Leaves are counted where a growth is hardly more than one.
    let each = if unit == Unit::Leaves { 3 } else { 1 };
    (low * each, middle * each, high * each)
}

/// Growths behind one lead: fewest, likely, most. A lead makes about one a year, and what is older than five years is
/// leafless or gone.
#[must_use]
pub fn growths_behind_a_lead(unit: Unit) -> (u32, u32, u32) {
    match unit {
        Unit::Leaves => (3, 4, 6),
        Unit::Growths => (1, 2, 3),
        Unit::Bulbs | Unit::Canes | Unit::Roots => (3, 4, 6),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_larger_clump_has_more_in_it_and_every_range_is_one() {
        for unit in [Unit::Bulbs, Unit::Leaves] {
            let [small, middling, large] =
                [RoughSize::Small, RoughSize::Middling, RoughSize::Large]
                    .map(|size| growths_in_a_pot(size, unit));
            assert!(small.1 < middling.1 && middling.1 < large.1);
            for (low, middle, high) in [small, middling, large, growths_behind_a_lead(unit)] {
                assert!(low < middle && middle < high);
            }
        }
        let groups: std::collections::BTreeSet<_> = spaced().collect();
        assert_eq!(groups.len(), ROWS.len());
    }
}
