//! What must never meet: in a tub, in a measure, on a tool, or on plants within days.
//!
//! Pairs, not permissions: a pair that is not here is not thereby safe, and the label goes before every row. Each row
//! says where it was read, or that it is from memory.

use std::collections::BTreeSet;

use super::actives;
use crate::event::ActiveCopy;

const HOUSEHOLD: &str = "fire protection association, safety note on mixing household chemicals, April 2020; state department of health, list of what is never mixed";
const HEALTH: &str = "state department of health, list of what is never mixed";
const UMASS: &str = "UMass Extension, cleaning and disinfecting the greenhouse";
const DELAWARE: &str = "Delaware Extension (Kent County), notes on oils and on phosphonates, 2008";
const LABORATORY: &str = "university list of incompatible chemicals";
const MEMORY: &str = "from memory";

/// A kind of stuff, as far as what it must not meet goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stuff {
    Hypochlorite,
    /// Vinegar, an acid cleaner, an acid fertiliser.
    Acid,
    /// Ammonia, urea, an ammonium fertiliser.
    Ammonia,
    /// Alcohol or acetone.
    Alcohol,
    /// Hydrogen peroxide or peracetic acid.
    Peroxide,
    Peroxymonosulfate,
    /// Quaternary ammonium.
    Quat,
    /// Soap or an anionic detergent.
    Soap,
    /// Any product for plants, and what is left of it in a tub or a measure.
    Pesticide,
    /// Trisodium phosphate or caustic soda.
    Caustic,
    /// A flame or a heater.
    Flame,
    MetalPowder,
    Copper,
    Phosphonate,
    /// A spreader or sticker.
    Spreader,
    Mancozeb,
    Chlorothalonil,
    /// Mineral oil or neem oil.
    Oil,
    Sulfur,
    Captan,
    /// Water of a pH below 6.
    AcidWater,
    /// Water above 300 mg of lime in a litre.
    HardWater,
}

impl Stuff {
    pub const ALL: [Self; 22] = [
        Self::Hypochlorite,
        Self::Acid,
        Self::Ammonia,
        Self::Alcohol,
        Self::Peroxide,
        Self::Peroxymonosulfate,
        Self::Quat,
        Self::Soap,
        Self::Pesticide,
        Self::Caustic,
        Self::Flame,
        Self::MetalPowder,
        Self::Copper,
        Self::Phosphonate,
        Self::Spreader,
        Self::Mancozeb,
        Self::Chlorothalonil,
        Self::Oil,
        Self::Sulfur,
        Self::Captan,
        Self::AcidWater,
        Self::HardWater,
    ];
}

/// What comes of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Harm {
    ChlorineGas,
    /// Chloramines and other toxic gas.
    ToxicGas,
    /// Chloroform and other irritants.
    Irritants,
    /// Gas comes off violently, and both are lost.
    ViolentGas,
    /// One takes away the other's effect.
    Inactivated,
    /// Nobody can say which gas.
    UnknownGas,
    /// Peracetic acid, which burns.
    PeraceticAcid,
    HeatAndSpatter,
    Fire,
    Decomposes,
    CopperBurn,
    /// Not safe with some products: read the label.
    ReadTheLabel,
    LeafBurn,
    ScumAndBurn,
}

/// Two kinds that must not meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pair {
    pub a: Stuff,
    pub b: Stuff,
    pub harm: Harm,
    /// Days apart on the same plants, least and most as read; `None` where only tub, measure and tool matter.
    pub days: Option<(u16, u16)>,
    pub source: &'static str,
}

const fn pair(a: Stuff, b: Stuff, harm: Harm, source: &'static str) -> Pair {
    Pair {
        a,
        b,
        harm,
        days: None,
        source,
    }
}

impl Pair {
    const fn apart(self, least: u16, most: u16) -> Self {
        Self {
            days: Some((least, most)),
            ..self
        }
    }

    /// The other one of the two, whichever way round it is asked.
    #[must_use]
    pub fn other(&self, one: Stuff) -> Option<Stuff> {
        if self.a == one {
            Some(self.b)
        } else if self.b == one {
            Some(self.a)
        } else {
            None
        }
    }
}

use Stuff::{
    Acid, AcidWater, Alcohol, Ammonia, Captan, Caustic, Chlorothalonil, Copper, Flame, HardWater,
    Hypochlorite, Mancozeb, MetalPowder, Oil, Peroxide, Peroxymonosulfate, Pesticide, Phosphonate,
    Quat, Soap, Spreader, Sulfur,
};

/// Every pair, the most dangerous first.
pub const PAIRS: &[Pair] = &[
    pair(Hypochlorite, Acid, Harm::ChlorineGas, HOUSEHOLD),
    pair(Hypochlorite, Peroxymonosulfate, Harm::ChlorineGas, MEMORY),
    pair(Hypochlorite, Ammonia, Harm::ToxicGas, HOUSEHOLD),
    pair(Hypochlorite, Quat, Harm::ToxicGas, MEMORY),
    pair(
        Hypochlorite,
        Alcohol,
        Harm::Irritants,
        "fire protection association, safety note on mixing household chemicals, April 2020 (alcohol); acetone from memory",
    ),
    pair(
        Hypochlorite,
        Peroxide,
        Harm::ViolentGas,
        "state department of health, list of what is never mixed; what comes of it from memory",
    ),
    pair(Hypochlorite, Pesticide, Harm::UnknownGas, HEALTH),
    pair(
        Peroxide,
        Acid,
        Harm::PeraceticAcid,
        "fire protection association, safety note on mixing household chemicals, April 2020",
    ),
    pair(Caustic, Acid, Harm::HeatAndSpatter, MEMORY),
    pair(Alcohol, Flame, Harm::Fire, MEMORY),
    pair(Peroxide, MetalPowder, Harm::Decomposes, MEMORY),
    pair(Peroxide, Copper, Harm::Decomposes, LABORATORY),
    pair(Quat, Soap, Harm::Inactivated, UMASS),
    pair(Copper, Phosphonate, Harm::CopperBurn, DELAWARE).apart(14, 20),
    pair(Copper, AcidWater, Harm::CopperBurn, MEMORY),
    pair(Phosphonate, Spreader, Harm::ReadTheLabel, DELAWARE),
    pair(Phosphonate, Chlorothalonil, Harm::ReadTheLabel, DELAWARE),
    pair(Phosphonate, Mancozeb, Harm::ReadTheLabel, DELAWARE),
    pair(
        Oil,
        Sulfur,
        Harm::LeafBurn,
        "Delaware Extension (Kent County), notes on oils and on phosphonates, 2008; 30 days: an oil maker's advice page, 2021; 14 days from memory",
    )
    .apart(14, 30),
    pair(
        Oil,
        Captan,
        Harm::LeafBurn,
        "Delaware Extension (Kent County), notes on oils and on phosphonates, 2008; the days from memory",
    )
    .apart(14, 30),
    pair(Oil, Chlorothalonil, Harm::LeafBurn, MEMORY).apart(14, 30),
    pair(Soap, HardWater, Harm::ScumAndBurn, MEMORY),
    pair(Soap, Copper, Harm::ScumAndBurn, MEMORY),
];

/// What a mixture, a bottle or a bath holds.
pub type Stuffs = BTreeSet<Stuff>;

/// Pairs between two mixtures, each with what is of the first; the same pairs whichever comes first.
#[must_use]
pub fn between(one: &Stuffs, other: &Stuffs) -> Vec<(&'static Pair, Stuff)> {
    let met = |pair: &'static Pair| {
        let of = |stuff: Stuff| Some(stuff).filter(|stuff| one.contains(stuff));
        let first = |a: Stuff, b: Stuff| of(a).filter(|_| other.contains(&b));
        let found = first(pair.a, pair.b).or_else(|| first(pair.b, pair.a))?;
        Some((pair, found))
    };
    PAIRS.iter().filter_map(met).collect()
}

/// What must never meet this, for what no record can know: acids, hard water, a sticker.
#[must_use]
pub fn of(stuffs: &Stuffs) -> Vec<(&'static Pair, Stuff)> {
    let with = |pair: &'static Pair| {
        let own = [pair.a, pair.b].into_iter();
        let own = own.into_iter().find(|one| stuffs.contains(one))?;
        Some((pair, pair.other(own)?))
    };
    PAIRS.iter().filter_map(with).collect()
}

/// Parts of names, small letters, that tell a kind.
const BY_NAME: [(&str, Stuff); 18] = [
    ("hypochlor", Hypochlorite),
    ("bleach", Hypochlorite),
    ("peroxymonosulf", Peroxymonosulfate),
    ("peroxide", Peroxide),
    ("hydrogen dioxide", Peroxide),
    ("peracetic", Peroxide),
    ("peroxyacetic", Peroxide),
    ("quaternary", Quat),
    ("benzalkonium", Quat),
    ("didecyldimethylammonium", Quat),
    ("trisodium phosphate", Caustic),
    ("caustic", Caustic),
    ("vinegar", Acid),
    ("acetic acid", Acid),
    ("citric acid", Acid),
    ("urea", Ammonia),
    ("alcohol", Alcohol),
    ("ethanol", Alcohol),
];

fn by_name(name: &str) -> impl Iterator<Item = Stuff> {
    let small = name.to_lowercase();
    BY_NAME
        .into_iter()
        .filter(move |(part, _)| small.contains(part))
        .map(|(_, stuff)| stuff)
}

/// What a product for plants holds, from its actives.
#[must_use]
pub fn of_product(actives: &[ActiveCopy]) -> Stuffs {
    let mut stuffs = Stuffs::from([Pesticide]);
    for active in actives {
        stuffs.extend(by_name(&active.name));
        let row = actives::find(&active.name);
        let known = match row.map_or("", |row| row.name) {
            "copper" => Some(Copper),
            "fosetyl-Al" | "potassium phosphonate" => Some(Phosphonate),
            "mancozeb" => Some(Mancozeb),
            "chlorothalonil" => Some(Chlorothalonil),
            "mineral oil" | "neem oil" => Some(Oil),
            "sulfur" => Some(Sulfur),
            "captan" => Some(Captan),
            "potassium salts of fatty acids" => Some(Soap),
            "hydrogen peroxide" => Some(Peroxide),
            _ => None,
        };
        stuffs.extend(known);
    }
    stuffs
}

/// What a disinfectant holds, by its key in the table or the grower's own word for it.
#[must_use]
pub fn of_agent(key: &str) -> Stuffs {
    match key {
        "chlorine" | "chlorine_powder" => Stuffs::from([Hypochlorite]),
        "peroxymonosulfate" => Stuffs::from([Peroxymonosulfate]),
        "trisodium_phosphate" => Stuffs::from([Caustic]),
        "quaternary_ammonium" => Stuffs::from([Quat]),
        "peroxide" => Stuffs::from([Peroxide]),
        "alcohol" => Stuffs::from([Alcohol]),
        "flame" => Stuffs::from([Flame]),
        own => by_name(own).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(stuff: Stuff) -> Stuffs {
        Stuffs::from([stuff])
    }

    fn product(active: &str) -> Stuffs {
        of_product(&[ActiveCopy {
            name: active.to_owned(),
            ..ActiveCopy::default()
        }])
    }

    #[test]
    fn every_pair_is_found_both_ways_round_and_once() {
        for pair in PAIRS {
            let there = between(&one(pair.a), &one(pair.b));
            let back = between(&one(pair.b), &one(pair.a));
            assert_eq!(there, [(pair, pair.a)], "{pair:?}");
            assert_eq!(back, [(pair, pair.b)], "{pair:?}");
            assert_eq!(pair.other(pair.a), Some(pair.b));
            assert_eq!(pair.other(pair.b), Some(pair.a));
            assert!(!pair.source.is_empty() && pair.a != pair.b);
            assert!(
                pair.days
                    .is_none_or(|(least, most)| 0 < least && least <= most)
            );
        }
    }

    #[test]
    fn every_kind_is_in_some_pair_and_no_pair_stands_twice() {
        for stuff in Stuff::ALL {
            assert!(!of(&one(stuff)).is_empty(), "{stuff:?}");
        }
        for (nth, pair) in PAIRS.iter().enumerate() {
            let same = |other: &Pair| other.other(pair.a) == Some(pair.b);
            assert!(!PAIRS.iter().skip(nth + 1).any(same), "{pair:?}");
        }
    }

    #[test]
    fn what_may_meet_gives_no_pair() {
        assert!(between(&one(Copper), &one(Sulfur)).is_empty());
        assert!(between(&one(Copper), &one(Copper)).is_empty());
        assert!(between(&product("triforine"), &product("abamectin")).is_empty());
    }

    #[test]
    fn names_of_labels_are_known_for_what_they_hold() {
        assert!(product("Copper oxychloride").contains(&Copper));
        assert!(product("aluminium tris").contains(&Phosphonate));
        assert!(product("Paraffinic oil").contains(&Oil));
        assert!(product("insecticidal soap").contains(&Soap));
        assert!(product("didecyldimethylammonium chloride").contains(&Quat));
        assert_eq!(product("triforine"), one(Pesticide));
        assert!(of_agent("chlorine_powder").contains(&Hypochlorite));
        assert!(of_agent("household bleach").contains(&Hypochlorite));
        assert!(of_agent("milk").is_empty());
    }
}
