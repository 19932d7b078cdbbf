//! Components of mixes: weight, water, air and how long they last.
//!
//! Density mixes by volume; water and air do not, because fines fill the gaps, so those two are shown as ranges and never
//! averaged over a mix.

use super::Kind;

/// One component. Ranges are (lowest, highest) and equal where one figure was printed.
#[derive(Debug)]
pub struct Component {
    /// The name in stored entries; never changes.
    pub key: &'static str,
    /// Particle size in mm, where it is graded.
    pub grade_mm: Option<(u16, u16)>,
    /// Dry bulk density in g per litre.
    pub dry_g_per_l: (u32, u32),
    /// Water held after draining, in thousandths of the volume.
    pub water_permille: (u32, u32),
    /// Air after draining, in thousandths of the volume.
    pub air_permille: (u32, u32),
    /// Months until it should be replaced; none for stone and the like, or where nothing is known.
    pub life_months: Option<(u16, u16)>,
    /// Does not rot: can be washed and used again.
    pub inert: bool,
    /// How far the row can be trusted, by its weakest figure.
    pub kind: Kind,
    /// Where the figures come from.
    pub source: &'static str,
}

impl Component {
    /// The middle of the density range in g per litre, for a default.
    #[must_use]
    pub const fn dry_g_per_l_middle(&self) -> u32 {
        self.dry_g_per_l.0.midpoint(self.dry_g_per_l.1)
    }

    /// The middle of the water range, in thousandths, for a default.
    #[must_use]
    pub const fn water_permille_middle(&self) -> u32 {
        self.water_permille.0.midpoint(self.water_permille.1)
    }
}

/// The component with this stored name.
#[must_use]
pub fn component(key: &str) -> Option<&'static Component> {
    COMPONENTS.iter().find(|row| row.key == key)
}

const MEASURED: &str = "Pacific Bulb Society wiki, Growing Medium table (members' measurements)";
const PRACTICE: &str = "common practice, no source";
const MEMORY: &str = "from memory";

/// Every built-in component.
pub const COMPONENTS: &[Component] = &[
    Component {
        key: "bark_seedling",
        grade_mm: Some((3, 6)),
        dry_g_per_l: (210, 210),
        water_permille: (150, 150),
        air_permille: (640, 640),
        life_months: Some((18, 24)),
        inert: false,
        kind: Kind::CommonPractice,
        source: "Pacific Bulb Society wiki, Growing Medium table (density, water, air); grade from an orchid media guide; life common practice, no source",
    },
    Component {
        key: "bark_small",
        grade_mm: Some((6, 9)),
        dry_g_per_l: (200, 200),
        water_permille: (130, 130),
        air_permille: (660, 660),
        life_months: Some((24, 24)),
        inert: false,
        kind: Kind::CommonPractice,
        source: "grade from an orchid media guide; the rest common practice, no source",
    },
    Component {
        key: "bark_medium",
        grade_mm: Some((9, 15)),
        dry_g_per_l: (200, 200),
        water_permille: (100, 120),
        air_permille: (680, 700),
        life_months: Some((24, 36)),
        inert: false,
        kind: Kind::CommonPractice,
        source: PRACTICE,
    },
    Component {
        key: "bark_coarse",
        grade_mm: Some((15, 25)),
        dry_g_per_l: (180, 200),
        water_permille: (80, 100),
        air_permille: (700, 750),
        life_months: Some((36, 48)),
        inert: false,
        kind: Kind::CommonPractice,
        source: PRACTICE,
    },
    Component {
        key: "bark_with_fines",
        grade_mm: Some((0, 12)),
        dry_g_per_l: (180, 180),
        water_permille: (480, 480),
        air_permille: (310, 310),
        life_months: None,
        inert: false,
        kind: Kind::Published,
        source: "International Journal of Agronomy 2012, article 978528, Table 1",
    },
    Component {
        key: "coir_chunk",
        grade_mm: Some((6, 20)),
        dry_g_per_l: (130, 130),
        water_permille: (200, 200),
        air_permille: (630, 630),
        life_months: Some((36, 48)),
        inert: false,
        kind: Kind::CommonPractice,
        source: "Pacific Bulb Society wiki, Growing Medium table (density, water, air); life common practice, no source",
    },
    Component {
        key: "coir_fines",
        grade_mm: Some((0, 6)),
        dry_g_per_l: (160, 160),
        water_permille: (720, 720),
        air_permille: (70, 70),
        life_months: Some((24, 24)),
        inert: false,
        kind: Kind::Published,
        source: MEASURED,
    },
    Component {
        key: "sphagnum_long",
        grade_mm: None,
        dry_g_per_l: (20, 40),
        water_permille: (450, 650),
        air_permille: (300, 450),
        life_months: Some((9, 18)),
        inert: false,
        kind: Kind::Memory,
        source: MEMORY,
    },
    Component {
        key: "perlite_coarse",
        grade_mm: Some((4, 10)),
        dry_g_per_l: (100, 130),
        water_permille: (150, 250),
        air_permille: (550, 650),
        life_months: None,
        inert: true,
        kind: Kind::Memory,
        source: MEMORY,
    },
    Component {
        key: "pumice",
        grade_mm: Some((5, 15)),
        dry_g_per_l: (450, 650),
        water_permille: (200, 300),
        air_permille: (400, 500),
        life_months: None,
        inert: true,
        kind: Kind::Memory,
        source: MEMORY,
    },
    Component {
        key: "lava",
        grade_mm: Some((6, 15)),
        dry_g_per_l: (810, 810),
        water_permille: (150, 150),
        air_permille: (520, 520),
        life_months: None,
        inert: true,
        kind: Kind::Published,
        source: MEASURED,
    },
    Component {
        key: "gravel",
        grade_mm: Some((6, 13)),
        dry_g_per_l: (1_390, 1_390),
        water_permille: (100, 100),
        air_permille: (340, 340),
        life_months: None,
        inert: true,
        kind: Kind::Published,
        source: MEASURED,
    },
    Component {
        key: "granite_grit",
        grade_mm: Some((2, 5)),
        dry_g_per_l: (1_340, 1_340),
        water_permille: (130, 130),
        air_permille: (280, 280),
        life_months: None,
        inert: true,
        kind: Kind::Published,
        source: MEASURED,
    },
    Component {
        key: "charcoal",
        grade_mm: Some((6, 15)),
        dry_g_per_l: (220, 300),
        water_permille: (100, 150),
        air_permille: (550, 650),
        life_months: Some((48, 48)),
        inert: false,
        kind: Kind::Memory,
        source: "from memory; 48 months or more",
    },
    Component {
        key: "expanded_clay",
        grade_mm: Some((8, 16)),
        dry_g_per_l: (350, 450),
        water_permille: (80, 120),
        air_permille: (450, 500),
        life_months: None,
        inert: true,
        kind: Kind::Memory,
        source: MEMORY,
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_component_has_a_name_of_its_own_and_a_source() {
        let mut keys = std::collections::BTreeSet::new();
        for row in COMPONENTS {
            assert!(keys.insert(row.key), "{} twice", row.key);
            assert!(!row.source.is_empty(), "{} without a source", row.key);
            let ranges = [row.dry_g_per_l, row.water_permille, row.air_permille];
            assert!(
                ranges.iter().all(|(low, high)| low <= high && *high > 0),
                "{}",
                row.key
            );
            assert!(
                row.water_permille.0 + row.air_permille.0 <= 1_000,
                "{} holds more than itself",
                row.key
            );
            assert!(
                row.inert || row.life_months.is_some() || row.key == "bark_with_fines",
                "{}",
                row.key
            );
            assert_eq!(component(row.key).map(|found| found.key), Some(row.key));
        }
    }

    #[test]
    fn a_figure_without_a_publication_is_not_called_published() {
        for row in COMPONENTS {
            if row.source.contains("common practice") {
                assert_eq!(row.kind, Kind::CommonPractice, "{}", row.key);
            }
            if row.source.contains("from memory") {
                assert_eq!(row.kind, Kind::Memory, "{}", row.key);
            }
        }
    }
}
