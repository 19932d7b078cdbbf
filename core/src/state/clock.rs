//! Which phones' clocks were astray, and over which of their entries.
//!
//! A phone is judged first against its own neighbours: its entries follow one another, so a clock that falls back was
//! wrong before or after, and the entries that break the longest run in good order are the ones in doubt. Only what is
//! in order within its own phone is then compared between phones: who took an entry in wrote later than it was
//! written. Where that is contradicted, the phone that contradicts most of the others is asked about; one fast clock
//! does not put the phones in doubt that took its entries in. Between two phones nothing tells who is right, and the
//! one that wrote less is asked about.

use std::collections::{BTreeMap, BTreeSet};

use crate::id::Dev;
use crate::limits::CLOCK_ASTRAY_MS;

use super::{Anomaly, State};

/// One entry's clock.
#[derive(Clone, Copy)]
struct Reading {
    seq: u32,
    /// With the corrections of its phone's clock.
    at_ms: i64,
    /// The fastest clock known when it was written.
    order_ms: i64,
    astray: bool,
}

/// An entry that was taken in before another was written, and yet says a later time.
#[derive(Clone, Copy)]
struct Clash {
    ahead: (Dev, i64),
    behind: (Dev, u32, i64),
}

impl Clash {
    fn off_ms(&self) -> i64 {
        self.ahead.1.saturating_sub(self.behind.2)
    }

    fn is_about(&self, dev: Dev) -> bool {
        self.ahead.0 == dev || self.behind.0 == dev
    }
}

type Phones = BTreeMap<Dev, Vec<Reading>>;

/// One question for each run of entries in doubt.
pub(super) fn astray(state: &State) -> Vec<Anomaly> {
    let corrected = |phone: &super::Phone| !phone.clock.is_empty();
    if !state.log.clocks_in_doubt() && !state.facts.phones.values().any(corrected) {
        debug_assert_eq!(walked(state), Vec::new());
        return Vec::new();
    }
    walked(state)
}

/// The same, found by walking the whole log.
fn walked(state: &State) -> Vec<Anomaly> {
    let mut phones: Phones = BTreeMap::new();
    // Whose clock a stamp was read from; no clock, no number of its own.
    let mut read_from: BTreeMap<i64, (Dev, usize)> = BTreeMap::new();
    for entry in state.log.in_order() {
        let (id, header) = (entry.id, &entry.header);
        let phone = state.facts.phones.get(&id.dev);
        let at_ms = phone.map_or(header.at_ms, |phone| {
            phone.corrected_ms(id.seq, header.at_ms)
        });
        let readings = phones.entry(id.dev).or_default();
        if header.order.count == 0 && header.order.ms == header.at_ms {
            let here = (id.dev, readings.len());
            read_from.entry(header.order.ms).or_insert(here);
        }
        readings.push(Reading {
            seq: id.seq,
            at_ms,
            order_ms: header.order.ms,
            astray: false,
        });
    }
    let mut found = Vec::new();
    for (dev, readings) in &mut phones {
        let runs = against_itself(readings);
        found.extend(runs.into_iter().map(|run| run.of(*dev)));
    }
    let mut clashes = clashes(&phones, &read_from);
    while let Some(dev) = most_contradicted(&phones, &clashes) {
        let readings = phones.get(&dev).map(Vec::as_slice).unwrap_or_default();
        let runs = against_others(dev, readings, &clashes);
        found.extend(runs.into_iter().map(|run| run.of(dev)));
        clashes.retain(|clash| !clash.is_about(dev));
    }
    found
}

/// Entries in doubt, and by how much at least their clock was off.
struct Run {
    from_seq: u32,
    to_seq: u32,
    off_ms: i64,
}

impl Run {
    fn of(self, dev: Dev) -> Anomaly {
        Anomaly::ClockAstray {
            dev,
            from_seq: self.from_seq,
            to_seq: self.to_seq,
            off_ms: self.off_ms,
        }
    }
}

/// Runs of a phone's entries that do not fit between those around them, marked as astray on the way.
fn against_itself(readings: &mut [Reading]) -> Vec<Run> {
    let at: Vec<i64> = readings.iter().map(|reading| reading.at_ms).collect();
    if in_good_order(&at) {
        return Vec::new();
    }
    let kept = longest_in_order(&at);
    let mut next = None;
    let mut afters: Vec<Option<i64>> = Vec::new();
    for (kept, at_ms) in kept.iter().zip(&at).rev() {
        next = kept.then_some(*at_ms).or(next);
        afters.push(next);
    }
    let mut runs: Vec<Run> = Vec::new();
    let mut before: Option<i64> = None;
    let mut open = false;
    let around = kept.into_iter().zip(afters.into_iter().rev());
    for (reading, (kept, after)) in readings.iter_mut().zip(around) {
        let here = kept.then_some(reading.at_ms);
        let ahead = after.map_or(0, |after| reading.at_ms.saturating_sub(after));
        let behind = before.map_or(0, |before| before.saturating_sub(reading.at_ms));
        before = here.or(before);
        reading.astray = here.is_none() && ahead.max(behind) > CLOCK_ASTRAY_MS;
        if !reading.astray {
            open = open && here.is_none();
            continue;
        }
        match runs
            .last_mut()
            .filter(|run| open && (run.off_ms > 0) == (ahead > behind))
        {
            Some(run) => {
                run.to_seq = reading.seq;
                // The last of a fast run is nearest to what came after it, the first of a slow one to what came before.
                run.off_ms = if ahead > behind { ahead } else { run.off_ms };
            }
            None => runs.push(Run {
                from_seq: reading.seq,
                to_seq: reading.seq,
                off_ms: if ahead > behind { ahead } else { -behind },
            }),
        }
        open = true;
    }
    runs
}

/// Whether a clock never falls back by more than is let pass.
fn in_good_order(at: &[i64]) -> bool {
    let mut latest = i64::MIN;
    at.iter().all(|at_ms| {
        latest = latest.max(*at_ms);
        latest.saturating_sub(*at_ms) <= CLOCK_ASTRAY_MS
    })
}

/// Marks the longest choice of readings that never falls back.
fn longest_in_order(at: &[i64]) -> Vec<bool> {
    // For each length, where the choice of that length with the smallest end stops.
    let mut ends: Vec<usize> = Vec::new();
    let mut before: Vec<Option<usize>> = Vec::new();
    for (place, at_ms) in at.iter().enumerate() {
        let length = ends.partition_point(|end| at.get(*end).is_some_and(|end| end <= at_ms));
        before.push(
            length
                .checked_sub(1)
                .and_then(|last| ends.get(last).copied()),
        );
        match ends.get_mut(length) {
            Some(end) => *end = place,
            None => ends.push(place),
        }
    }
    let mut kept = vec![false; at.len()];
    let mut next = ends.last().copied();
    while let Some(place) = next {
        if let Some(kept) = kept.get_mut(place) {
            *kept = true;
        }
        next = before.get(place).copied().flatten();
    }
    kept
}

fn clashes(phones: &Phones, read_from: &BTreeMap<i64, (Dev, usize)>) -> Vec<Clash> {
    let mut clashes = Vec::new();
    for (dev, readings) in phones {
        for reading in readings.iter().filter(|reading| !reading.astray) {
            let Some((other, place)) = read_from.get(&reading.order_ms) else {
                continue;
            };
            let origin = phones.get(other).and_then(|readings| readings.get(*place));
            let Some(origin) = origin.filter(|origin| !origin.astray && other != dev) else {
                continue;
            };
            let clash = Clash {
                ahead: (*other, origin.at_ms),
                behind: (*dev, reading.seq, reading.at_ms),
            };
            if clash.off_ms() > CLOCK_ASTRAY_MS {
                clashes.push(clash);
            }
        }
    }
    clashes
}

/// The phone that contradicts most others; of several the one that wrote least.
fn most_contradicted(phones: &Phones, clashes: &[Clash]) -> Option<Dev> {
    let mut others: BTreeMap<Dev, BTreeSet<Dev>> = BTreeMap::new();
    for clash in clashes {
        let (ahead, behind) = (clash.ahead.0, clash.behind.0);
        others.entry(ahead).or_default().insert(behind);
        others.entry(behind).or_default().insert(ahead);
    }
    let wrote = |dev: &Dev| phones.get(dev).map_or(0, Vec::len);
    let most = others
        .iter()
        .max_by_key(|(dev, others)| (others.len(), std::cmp::Reverse(wrote(dev)), **dev));
    most.map(|(dev, _)| *dev)
}

fn against_others(dev: Dev, readings: &[Reading], clashes: &[Clash]) -> Vec<Run> {
    let mut runs = Vec::new();
    let fast: Vec<&Clash> = clashes
        .iter()
        .filter(|clash| clash.ahead.0 == dev)
        .collect();
    if let (Some(earliest), Some(off_ms)) = (
        fast.iter().map(|clash| clash.behind.2).min(),
        fast.iter().map(|clash| clash.off_ms()).max(),
    ) {
        // Once it ran ahead, what it wrote since is ahead with it.
        let ahead = readings.iter().filter(|reading| {
            !reading.astray && reading.at_ms.saturating_sub(earliest) > CLOCK_ASTRAY_MS
        });
        let seqs: Vec<u32> = ahead.map(|reading| reading.seq).collect();
        runs.extend(run(&seqs, off_ms));
    }
    let slow: Vec<&Clash> = clashes
        .iter()
        .filter(|clash| clash.behind.0 == dev)
        .collect();
    if let Some(off_ms) = slow.iter().map(|clash| clash.off_ms()).max() {
        let seqs: Vec<u32> = slow.iter().map(|clash| clash.behind.1).collect();
        runs.extend(run(&seqs, -off_ms));
    }
    runs
}

fn run(seqs: &[u32], off_ms: i64) -> Option<Run> {
    Some(Run {
        from_seq: *seqs.iter().min()?,
        to_seq: *seqs.iter().max()?,
        off_ms,
    })
}
