//! How often a group of orchids is usually looked at for water, and what makes that sooner or later.
//!
//! All of it is common practice without a source: a first figure for a bench nobody has timed yet. It never says that
//! a pot is dry; it says when to lift one. A grower's own days for a bench or a group beat every figure here.

use crate::season::{Season, Warmth};

use super::taxa::Group;

/// Where the figures come from.
pub const THIRST_SOURCE: &str =
    "days between waterings, and what makes them more or fewer: common practice, no source";

/// What is usual for a group: growing, in a 13 cm pot of medium bark, at about twenty degrees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Thirst {
    pub group: Group,
    pub days: u8,
    /// Days between looks while it rests.
    pub rest_days: u8,
}

const fn thirst(group: Group, days: u8, rest_days: u8) -> Thirst {
    Thirst {
        group,
        days,
        rest_days,
    }
}

const ROWS: &[Thirst] = &[
    thirst(Group::Cymbidium, 4, 14),
    thirst(Group::CymbidiumWarm, 4, 14),
    thirst(Group::Cattleya, 6, 14),
    thirst(Group::Laelia, 6, 14),
    thirst(Group::Dendrobium, 5, 14),
    thirst(Group::DendrobiumNobile, 4, 21),
    thirst(Group::DendrobiumPhalaenopsis, 5, 14),
    thirst(Group::DendrobiumSpeciosum, 6, 14),
    thirst(Group::Oncidium, 4, 14),
    thirst(Group::OncidiumSummer, 4, 14),
    thirst(Group::Odontoglossum, 3, 7),
    thirst(Group::Zygopetalum, 3, 7),
    thirst(Group::Coelogyne, 4, 14),
    thirst(Group::Lycaste, 4, 21),
    thirst(Group::Paphiopedilum, 4, 7),
    thirst(Group::PaphiopedilumMottled, 4, 7),
    thirst(Group::Phragmipedium, 2, 7),
    thirst(Group::Masdevallia, 2, 7),
    thirst(Group::Phalaenopsis, 6, 14),
    thirst(Group::Vanda, 1, 7),
    thirst(Group::Sarcochilus, 3, 7),
];
const OTHER: Thirst = thirst(Group::Other, 5, 14);

/// Every group with figures, in the order of the table.
pub fn all() -> impl Iterator<Item = Group> {
    ROWS.iter().map(|row| row.group)
}

/// The row of a group.
#[must_use]
pub fn of(group: Group) -> Thirst {
    ROWS.iter()
        .copied()
        .find(|row| row.group == group)
        .unwrap_or(OTHER)
}

/// A pot dries the slower the wider it is: hundredths, by its width in millimetres.
#[must_use]
pub const fn of_pot(top_mm: i64) -> u16 {
    match top_mm {
        ..=90 => 70,
        91..=130 => 100,
        131..=170 => 120,
        171..=250 => 150,
        _ => 180,
    }
}

/// By the water held, in thousandths, of what most of the mix is.
#[must_use]
pub const fn of_mix(water_permille: u32) -> u16 {
    match water_permille {
        ..=130 => 90,
        131..=250 => 100,
        251..=400 => 125,
        _ => 150,
    }
}

/// By the season, where nobody reads a thermometer.
#[must_use]
pub const fn of_season(season: Season) -> u16 {
    match season {
        Season::Summer => 75,
        Season::Spring | Season::Autumn => 100,
        Season::Winter => 160,
    }
}

/// By the class of the house, beside the season.
#[must_use]
pub const fn of_house(warmth: Warmth) -> u16 {
    match warmth {
        Warmth::Cool => 120,
        Warmth::Intermediate => 100,
        Warmth::Warm => 85,
    }
}

/// By the mean of the house over its last days, in thousandths of a degree Celsius.
#[must_use]
pub const fn of_mean(mc: i32) -> u16 {
    match mc {
        ..12_000 => 170,
        12_000..16_000 => 135,
        16_000..22_000 => 100,
        22_000..26_000 => 80,
        _ => 60,
    }
}

/// Rain of a day that counts as a watering, in thousandths of a millimetre.
pub const RAIN_WATERS_UM: u32 = 5_000;
/// Most days between two looks, whatever the figures say.
pub const MOST_DAYS: u16 = 30;
/// Days between feeds while plants grow, and in winter.
pub const FEED_DAYS: u16 = 14;
pub const FEED_WINTER_DAYS: u16 = 28;
/// Nitrogen in milligrams a litre: usual, and the weakest, which goes to plants that were divided.
pub const FEED_PPM: u32 = 100;
pub const FEED_WEAK_PPM: u32 = 50;
/// More than this is strong for orchids.
pub const FEED_STRONG_PPM: u32 = 200;
/// Days after dividing in which the weakest feed is given.
pub const WEAK_DAYS: i64 = 90;
/// Feeds after which salts are washed out with plain water.
pub const FEEDS_TO_FLUSH: usize = 4;
/// More feed than this in a litre of stock may not dissolve, in grams.
pub const STOCK_G_PER_L: i64 = 250;

#[cfg(test)]
mod tests {
    use super::super::taxa;
    use super::*;

    #[test]
    fn every_group_of_the_table_has_a_row_and_rests_longer_than_it_grows() {
        for row in taxa::groups() {
            let thirst = of(row.group);
            assert_eq!(thirst.group, row.group);
            assert!(thirst.days >= 1 && thirst.rest_days > thirst.days);
        }
    }

    #[test]
    fn warmer_smaller_and_coarser_is_sooner() {
        assert!(of_mean(8_000) > of_mean(14_000) && of_mean(14_000) > of_mean(27_000));
        assert!(of_pot(85) < of_pot(130) && of_pot(130) < of_pot(300));
        assert!(of_mix(90) < of_mix(200) && of_mix(200) < of_mix(900));
        assert!(of_season(Season::Winter) > of_season(Season::Summer));
        assert!(of_house(Warmth::Cool) > of_house(Warmth::Warm));
    }
}
