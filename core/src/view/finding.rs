//! A finding, what the book proposes after it, and how often a sign was seen in a place as days went by.
//!
//! A proposal is taken with a tap or left; nothing follows from a finding by itself but the look the protocol asks for.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::{AgentClass, Found, QuarantineWhy, SeenOn};
use crate::id::{FindingId, LotId, PlaceId};
use crate::quarantine::{self, Terms};
use crate::reference::signs::{self, Apart};
use crate::state::{Finding, State};
use crate::stats::{self, Share};
use crate::task::generation::{self, GenerationDay};

use super::{LotLabel, PlaceLabel, lot_label, place_label};

/// What may follow, in the order it helps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Proposal {
    Treat {
        against: AgentClass,
    },
    /// It was seen on a place: what stands there is sprayed or drenched as a whole, but for exceptions.
    TreatPlace {
        place: PlaceId,
        against: AgentClass,
    },
    LookAgain {
        days: Vec<u16>,
    },
    /// For each of a pest's generations, on days that follow the warmth of the house.
    LookByGeneration {
        looks: Vec<GenerationDay>,
    },
    /// It was seen on a place: which of the lots there have it?
    LookAtLots {
        lots: Vec<LotLabel>,
    },
    Apart {
        terms: Terms,
    },
    ToTheBench,
    /// A test for viruses.
    Test,
}

/// A finding as its page shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FindingView {
    pub on: NaiveDate,
    pub event: Found,
    pub lot: Option<LotLabel>,
    pub place: Option<PlaceLabel>,
    /// Of those looked at.
    pub share: Option<Share>,
    /// The grower's own threshold in that place, when this is at or above it.
    pub reached: Option<u16>,
    pub proposals: Vec<Proposal>,
    pub source: Option<&'static str>,
}

/// A finding's page; `None` when the book does not know it.
#[must_use]
pub fn finding(state: &State, id: FindingId) -> Option<FindingView> {
    let facts = state.facts();
    let known = facts.findings.get(&id)?;
    let event = known.event.clone();
    let lot = match event.on {
        SeenOn::Lot(lot) => Some(lot),
        SeenOn::Clump(_) | SeenOn::Place(_) => None,
    };
    let place = place_of(state, known);
    let share = event
        .affected
        .zip(event.looked_at)
        .and_then(|(found, looked_at)| stats::share(found, looked_at));
    let threshold = place
        .and_then(|place| facts.places.get(&place))
        .and_then(|place| place.act_permille.get().copied());
    Some(FindingView {
        on: known.on,
        lot: lot.map(|lot| lot_label(facts, lot)),
        place: place.and_then(|place| place_label(facts, place)),
        share,
        reached: threshold.filter(|act| share.is_some_and(|share| share.permille >= *act)),
        proposals: proposals(state, id, &event, lot),
        source: signs::sign(&event.sign).map(|row| row.source),
        event,
    })
}

fn proposals(state: &State, id: FindingId, event: &Found, lot: Option<LotId>) -> Vec<Proposal> {
    let Some(row) = signs::sign(&event.sign) else {
        return Vec::new();
    };
    let mut proposals = Vec::new();
    if let Some(against) = row.treat
        && !matches!(event.on, SeenOn::Place(_))
    {
        proposals.push(Proposal::Treat { against });
    }
    if let Some(lot) = lot
        && row.apart != Apart::No
        && !quarantine::is_held(state.facts(), lot)
    {
        let terms = quarantine::usual(QuarantineWhy::Finding, Some(row.key));
        proposals.push(Proposal::Apart { terms });
    }
    if lot.is_some() && row.apart == Apart::UntilTested {
        proposals.push(Proposal::Test);
    }
    if row.to_the_bench && lot.is_some() {
        proposals.push(Proposal::ToTheBench);
    }
    if let SeenOn::Place(place) = event.on {
        let facts = state.facts();
        let here = facts.live_lots().filter(|(_, lot)| {
            let stands = lot.place.get().copied();
            lot.is_stocked() && stands == Some(place)
        });
        let lots: Vec<LotLabel> = here.map(|(lot, _)| lot_label(facts, lot)).collect();
        if !lots.is_empty() {
            if let Some(against) = row.treat {
                proposals.push(Proposal::TreatPlace { place, against });
            }
            proposals.push(Proposal::LookAtLots { lots });
        }
    }
    if !matches!(event.on, SeenOn::Clump(_)) {
        proposals.push(match row.series {
            0 => Proposal::LookAgain {
                days: row.again_days.to_vec(),
            },
            _ => Proposal::LookByGeneration {
                looks: generation::looks(state.facts(), id),
            },
        });
    }
    proposals
}

/// Where it was seen: as recorded then, else where the lot stands now.
fn place_of(state: &State, finding: &Finding) -> Option<PlaceId> {
    match finding.event.on {
        SeenOn::Place(place) => Some(place),
        SeenOn::Lot(lot) => finding.event.place.or_else(|| {
            let lot = state.facts().lots.get(&lot)?;
            lot.place.get().copied()
        }),
        SeenOn::Clump(_) => None,
    }
}

/// What was counted of a sign in a place on one day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Point {
    pub on: NaiveDate,
    pub found: u32,
    pub looked_at: u32,
    pub share: Share,
}

/// A sign in a place over time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Incidence {
    pub sign: String,
    pub points: Vec<Point>,
    /// Times it was seen without a count.
    pub uncounted: u32,
}

/// A sign's counts by day, the times without a count, and when it was seen last.
type Counted = (BTreeMap<NaiveDate, (u32, u32)>, u32, NaiveDate);

/// Every sign seen in a place since a day, the one seen last first. Counts of one day add up.
#[must_use]
pub fn incidence(state: &State, place: PlaceId, since_on: NaiveDate) -> Vec<Incidence> {
    let mut signs: BTreeMap<&str, Counted> = BTreeMap::new();
    for finding in state.facts().findings.values() {
        if finding.on < since_on || place_of(state, finding) != Some(place) {
            continue;
        }
        let event = &finding.event;
        let row = signs
            .entry(&event.sign)
            .or_insert((BTreeMap::new(), 0, finding.on));
        row.2 = row.2.max(finding.on);
        match event
            .affected
            .zip(event.looked_at)
            .filter(|(_, of)| *of > 0)
        {
            Some((found, looked_at)) => {
                let day = row.0.entry(finding.on).or_default();
                *day = (day.0.saturating_add(found), day.1.saturating_add(looked_at));
            }
            None => row.1 = row.1.saturating_add(1),
        }
    }
    let mut rows: Vec<(NaiveDate, Incidence)> = signs
        .into_iter()
        .map(|(sign, (days, uncounted, last_on))| {
            let point = |(on, (found, looked_at)): (NaiveDate, (u32, u32))| {
                let share = stats::share(found, looked_at)?;
                Some(Point {
                    on,
                    found,
                    looked_at,
                    share,
                })
            };
            let incidence = Incidence {
                sign: sign.to_owned(),
                points: days.into_iter().filter_map(point).collect(),
                uncounted,
            };
            (last_on, incidence)
        })
        .collect();
    rows.sort_by(|a, b| (b.0, &a.1.sign).cmp(&(a.0, &b.1.sign)));
    rows.into_iter().map(|(_, incidence)| incidence).collect()
}
