//! Days until plants are looked at for water again, and what they rest on.

use chrono::NaiveDate;

use crate::climate::{Mean, recent_mean};
use crate::potting::Pot;
use crate::reference::media;
use crate::reference::thirst::{self, MOST_DAYS};
use crate::season::{Season, Warmth, season_of};
use crate::state::{Facts, Lot};
use crate::task::derive::group_row;
use crate::time::plus_days;

/// Days a mean is taken over, how many of them have to be read, and how old the last may be.
const MEAN_DAYS: u32 = 7;
const READ_LEAST: u32 = 3;
const FRESH_DAYS: i64 = 4;

/// Something that made the days more or fewer, in hundredths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Factor {
    /// Width of the pot at the top, in millimetres.
    Pot {
        mm: i64,
        percent: u16,
    },
    /// Water most of the mix holds, in thousandths.
    Mix {
        permille: u32,
        percent: u16,
    },
    /// Read in the house: stands for season and class of house.
    Read {
        mean: Mean,
        percent: u16,
    },
    Season {
        season: Season,
        percent: u16,
    },
    House {
        warmth: Warmth,
        percent: u16,
    },
}

impl Factor {
    /// Hundredths of the days.
    #[must_use]
    pub const fn percent(&self) -> u16 {
        match self {
            Self::Pot { percent, .. }
            | Self::Mix { percent, .. }
            | Self::Read { percent, .. }
            | Self::Season { percent, .. }
            | Self::House { percent, .. } => *percent,
        }
    }
}

/// Who says how many days.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RhythmFrom {
    OwnBench,
    OwnGroup,
    /// What is usual for the group, and what changed it.
    Usual {
        days: u8,
        by: Vec<Factor>,
    },
}

/// Days between two looks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rhythm {
    pub days: u16,
    pub from: RhythmFrom,
}

/// The days of a lot where it stands, on a day.
#[must_use]
pub fn rhythm(facts: &Facts, lot: &Lot, on: NaiveDate) -> Rhythm {
    let group = group_row(lot).group;
    let place = lot.place.get().and_then(|place| facts.places.get(place));
    let own = |days: Option<&u16>| days.copied().filter(|days| *days > 0);
    if let Some(days) = place.and_then(|place| own(place.water_days.get())) {
        return Rhythm {
            days,
            from: RhythmFrom::OwnBench,
        };
    }
    let known = facts.book.groups.get(&group);
    if let Some(days) = known.and_then(|known| own(known.water_days.get())) {
        return Rhythm {
            days,
            from: RhythmFrom::OwnGroup,
        };
    }
    let mut by = Vec::new();
    by.extend(pot(facts, lot));
    by.extend(mix(facts, lot));
    let read = place.and_then(|place| {
        let since = plus_days(on, -FRESH_DAYS);
        recent_mean(&place.house.readings, since, on, MEAN_DAYS)
    });
    match read.filter(|mean| mean.read >= READ_LEAST) {
        Some(mean) => by.push(Factor::Read {
            mean,
            percent: thirst::of_mean(mean.mc),
        }),
        None => {
            let season = season_of(on, facts.book.hemisphere()).0;
            by.push(Factor::Season {
                season,
                percent: thirst::of_season(season),
            });
            let warmth = place.and_then(|place| place.warmth.get().copied());
            by.extend(warmth.map(|warmth| Factor::House {
                warmth,
                percent: thirst::of_house(warmth),
            }));
        }
    }
    by.retain(|factor| factor.percent() != 100);
    let usual = thirst::of(group).days;
    let hundredths = by.iter().fold(u64::from(usual) * 100, |days, factor| {
        days.saturating_mul(u64::from(factor.percent())) / 100
    });
    let days = u16::try_from((hundredths + 50) / 100).unwrap_or(MOST_DAYS);
    Rhythm {
        days: days.clamp(1, MOST_DAYS),
        from: RhythmFrom::Usual { days: usual, by },
    }
}

fn pot(facts: &Facts, lot: &Lot) -> Option<Factor> {
    let pot = lot.potted.as_ref()?.potting.pot?;
    let top = match facts.pots.get(&pot)?.form.get()? {
        Pot::Round { top, .. } | Pot::Square { top, .. } => top,
        Pot::Holds { .. } => return None,
    };
    let mm = top.um() / 1_000;
    Some(Factor::Pot {
        mm,
        percent: thirst::of_pot(mm),
    })
}

/// By what most of the mix is: water held is not averaged over a mix.
fn mix(facts: &Facts, lot: &Lot) -> Option<Factor> {
    let mix = lot.potted.as_ref()?.potting.mix?;
    let shares = facts.mixes.get(&mix)?.shares.get()?;
    let most = shares.iter().max_by_key(|share| share.permille)?;
    let permille = media::component(&most.component)?.water_permille_middle();
    Some(Factor::Mix {
        permille,
        percent: thirst::of_mix(permille),
    })
}
