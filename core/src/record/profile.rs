//! What rules ask to be written down, as tables: each with its source and the day it was read.
//!
//! The tables are starting points. A nursery chooses one, and may ask itself for more; the label and local rules decide.

use crate::event::RecordRule;
use crate::state::Facts;

/// Something a record may be asked to hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Field {
    Product,
    Registration,
    Actives,
    Amount,
    Rate,
    Water,
    Quantity,
    Crop,
    Place,
    Date,
    StartTime,
    EndTime,
    Reentry,
    Person,
    Licence,
    UseType,
    Batch,
    Target,
    Method,
    Gear,
    Weather,
    /// Wind and weather, where a spray was in the open.
    WindOutdoors,
    Disposal,
    /// Code of the plant in the list of the European plant protection organisation.
    PlantCode,
    /// Growth stage of the plants, by the BBCH scale.
    GrowthStage,
    /// Where it was, as latitude and longitude.
    Coordinates,
}

impl Field {
    pub const ALL: [Self; 26] = [
        Self::Product,
        Self::Registration,
        Self::Actives,
        Self::Amount,
        Self::Rate,
        Self::Water,
        Self::Quantity,
        Self::Crop,
        Self::Place,
        Self::Date,
        Self::StartTime,
        Self::EndTime,
        Self::Reentry,
        Self::Person,
        Self::Licence,
        Self::UseType,
        Self::Batch,
        Self::Target,
        Self::Method,
        Self::Gear,
        Self::Weather,
        Self::WindOutdoors,
        Self::Disposal,
        Self::PlantCode,
        Self::GrowthStage,
        Self::Coordinates,
    ];

    /// Its name in the book; fixed for ever.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Product => "product",
            Self::Registration => "registration",
            Self::Actives => "actives",
            Self::Amount => "amount",
            Self::Rate => "rate",
            Self::Water => "water",
            Self::Quantity => "quantity",
            Self::Crop => "crop",
            Self::Place => "place",
            Self::Date => "date",
            Self::StartTime => "start_time",
            Self::EndTime => "end_time",
            Self::Reentry => "reentry",
            Self::Person => "person",
            Self::Licence => "licence",
            Self::UseType => "use_type",
            Self::Batch => "batch",
            Self::Target => "target",
            Self::Method => "method",
            Self::Gear => "gear",
            Self::Weather => "weather",
            Self::WindOutdoors => "wind_outdoors",
            Self::Disposal => "disposal",
            Self::PlantCode => "plant_code",
            Self::GrowthStage => "growth_stage",
            Self::Coordinates => "coordinates",
        }
    }

    /// The field of a key; `None` for one a later version may know.
    #[must_use]
    pub fn of_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|field| field.key() == key)
    }
}

/// One table of a rule.
#[derive(Clone, Copy, Debug)]
pub struct Profile {
    /// Its name in the book; fixed for ever.
    pub key: &'static str,
    pub fields: &'static [Field],
    /// Asked for only where the rule's own condition holds, which the book cannot know.
    pub where_asked: &'static [Field],
    /// Hours after the treatment within which the record is made; `None` where the rule says no more than "at once".
    pub made_within_h: Option<u32>,
    pub keep_months: u16,
    /// Counted from the first day of the year after.
    pub keep_from_new_year: bool,
    pub source: &'static str,
    pub as_of: &'static str,
}

use Field::{
    Actives, Amount, Coordinates, Crop, Date, EndTime, GrowthStage, Licence, Method, Person, Place,
    PlantCode, Product, Quantity, Rate, Reentry, Registration, StartTime, Target, UseType, Weather,
    WindOutdoors,
};

/// All tables; the first is what a new book keeps to.
pub const PROFILES: [Profile; 11] = [
    Profile {
        key: "good_practice",
        fields: &[
            Product, Rate, Amount, Quantity, Crop, Place, Date, Target, Method, Person,
        ],
        where_asked: &[],
        made_within_h: Some(24),
        keep_months: 36,
        keep_from_new_year: false,
        source: "common practice, no source",
        as_of: "2026-11",
    },
    Profile {
        key: "us_states",
        fields: &[
            Product,
            Registration,
            Amount,
            Quantity,
            Crop,
            Place,
            Date,
            Person,
            Licence,
        ],
        where_asked: &[],
        made_within_h: Some(14 * 24),
        keep_months: 24,
        keep_from_new_year: false,
        source: "fields of the former federal rule 7 CFR 110.3 (text of 2006), withdrawn on 11 July 2025; each state decides, many by this list",
        as_of: "2026-11",
    },
    Profile {
        key: "us_workers",
        fields: &[
            Product,
            Registration,
            Actives,
            Crop,
            Place,
            Date,
            StartTime,
            EndTime,
            Reentry,
        ],
        where_asked: &[],
        made_within_h: Some(24),
        keep_months: 24,
        keep_from_new_year: false,
        source: "40 CFR 170.311 as told by extension pages on central posting; to be displayed until 30 days after re-entry, with the safety data sheet beside it",
        as_of: "2026-11",
    },
    Profile {
        key: "eu",
        fields: &[
            Product,
            Registration,
            Date,
            StartTime,
            Rate,
            Quantity,
            Crop,
            Place,
            UseType,
        ],
        where_asked: &[PlantCode, GrowthStage, Coordinates],
        made_within_h: None,
        keep_months: 36,
        keep_from_new_year: true,
        source: "Regulation (EC) 1107/2009, Article 67, with Implementing Regulation (EU) 2023/564; electronic from 2026 or, where the state waits (2025/2203), from 2027; the time counted from new year is the German reading",
        as_of: "2026-11",
    },
    Profile {
        key: "gb",
        fields: &[Product, Date, Rate, Quantity, Crop],
        where_asked: &[],
        made_within_h: None,
        keep_months: 36,
        keep_from_new_year: false,
        source: "Article 67 of Regulation (EC) 1107/2009 as kept in the law of Great Britain; three years from memory; the later EU list (2023/564) does not apply there",
        as_of: "2026-11",
    },
    Profile {
        key: "au_nsw",
        fields: &[
            Product,
            Rate,
            Amount,
            Crop,
            Place,
            Quantity,
            Date,
            StartTime,
            EndTime,
            Person,
            Method,
            WindOutdoors,
        ],
        where_asked: &[Weather],
        made_within_h: Some(48),
        keep_months: 36,
        keep_from_new_year: false,
        source: "NSW Pesticides Regulation 2017, clause 36: 48 hours, three years, wind for spraying outdoors, other weather where the label names it; the rest of the list from memory",
        as_of: "2026-11",
    },
    Profile {
        key: "au_vic",
        fields: &[
            Product,
            Rate,
            Amount,
            Crop,
            Place,
            Quantity,
            Date,
            Person,
            WindOutdoors,
        ],
        where_asked: &[],
        made_within_h: Some(48),
        keep_months: 24,
        keep_from_new_year: false,
        source: "48 hours, two years, wind outdoors, as told by a page on record keeping by state; the rest of the list from memory",
        as_of: "2026-11",
    },
    Profile {
        key: "au_qld",
        fields: &[Product, Rate, Amount, Crop, Place, Quantity, Date, Person],
        where_asked: &[Weather],
        made_within_h: Some(48),
        keep_months: 24,
        keep_from_new_year: false,
        source: "two days, two years, as told by a page on record keeping by state; the list of fields from memory",
        as_of: "2026-11",
    },
    Profile {
        key: "au_wa",
        fields: &[
            Product, Rate, Amount, Crop, Place, Quantity, Date, StartTime, Person, Method,
        ],
        where_asked: &[Weather],
        made_within_h: Some(7 * 24),
        keep_months: 24,
        keep_from_new_year: false,
        source: "seven days, two years, with time and method, as told by a page on record keeping by state; the rest of the list from memory",
        as_of: "2026-11",
    },
    Profile {
        key: "au_nt",
        fields: &[Product, Rate, Amount, Crop, Place, Quantity, Date, Person],
        where_asked: &[Weather],
        made_within_h: None,
        keep_months: 24,
        keep_from_new_year: false,
        source: "two years, as told by a page on record keeping by state; the list of fields from memory, no time limit found",
        as_of: "2026-11",
    },
    Profile {
        key: "au_states",
        fields: &[
            Product, Rate, Amount, Crop, Place, Quantity, Date, StartTime, EndTime, Person, Method,
            Weather,
        ],
        where_asked: &[],
        made_within_h: Some(48),
        keep_months: 36,
        keep_from_new_year: false,
        source: "the strictest of the states found: times by the NSW Pesticides Regulation 2017, clause 36; the list of fields is from memory",
        as_of: "2026-11",
    },
];

/// The table of a key, the first one for a key that is not known.
#[must_use]
pub fn profile(key: &str) -> &'static Profile {
    static KEPT: [Profile; 11] = PROFILES;
    let found = KEPT.iter().find(|profile| profile.key == key);
    found.unwrap_or(&KEPT[0])
}

/// The rule a nursery keeps to: a table, and what it asks of itself beyond.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rule {
    pub profile: &'static str,
    pub fields: Vec<Field>,
    /// Asked for where the rule's condition holds.
    pub where_asked: Vec<Field>,
    pub made_within_h: Option<u32>,
    pub keep_months: u16,
    pub keep_from_new_year: bool,
}

impl Rule {
    fn of(chosen: &RecordRule) -> Self {
        let table = profile(&chosen.profile);
        let more = chosen.more.iter().filter_map(|key| Field::of_key(key));
        let mut fields: Vec<Field> = table.fields.iter().copied().chain(more).collect();
        fields.retain(|field| !chosen.less.iter().any(|key| key == field.key()));
        fields.sort_unstable();
        fields.dedup();
        let where_asked = table.where_asked.iter().copied();
        Self {
            profile: table.key,
            where_asked: where_asked
                .filter(|field| !fields.contains(field))
                .collect(),
            fields,
            made_within_h: chosen.made_within_h.or(table.made_within_h),
            keep_months: chosen.keep_months.unwrap_or(table.keep_months),
            keep_from_new_year: table.keep_from_new_year,
        }
    }
}

/// The rule in force.
#[must_use]
pub fn rule(facts: &Facts) -> Rule {
    let chosen = facts.book.record.get().cloned();
    Rule::of(&chosen.unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_fixed_and_stand_once() {
        for field in Field::ALL {
            assert_eq!(Field::of_key(field.key()), Some(field));
        }
        let keys: Vec<&str> = PROFILES.iter().map(|profile| profile.key).collect();
        assert_eq!(
            keys,
            [
                "good_practice",
                "us_states",
                "us_workers",
                "eu",
                "gb",
                "au_nsw",
                "au_vic",
                "au_qld",
                "au_wa",
                "au_nt",
                "au_states"
            ]
        );
        for one in &PROFILES {
            assert_eq!(profile(one.key).key, one.key);
            assert!(!one.source.is_empty() && !one.as_of.is_empty());
        }
        assert_eq!(profile("of a later version").key, "good_practice");
    }

    #[test]
    fn what_a_nursery_asks_beyond_the_table_is_added_once_and_what_it_does_not_ask_is_left_out() {
        let rule = Rule::of(&RecordRule {
            profile: "eu".to_owned(),
            more: ["person", "rate", "not known here"]
                .map(str::to_owned)
                .to_vec(),
            less: vec!["start_time".to_owned()],
            made_within_h: Some(48),
            keep_months: Some(120),
        });
        assert_eq!(rule.fields.len(), profile("eu").fields.len());
        assert!(!rule.fields.contains(&Field::StartTime));
        assert!(rule.fields.contains(&Field::Person));
        assert_eq!((rule.made_within_h, rule.keep_months), (Some(48), 120));
    }
}
