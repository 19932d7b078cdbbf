//! Who is at risk by a suspect lot: a case drawn by hand, and random books against a search that tries every way.

use std::collections::BTreeMap;

use proptest::prelude::*;
use velamen_core::command::{Batch, Command, CountedPieces, RecordTreatment, Sanitise};
use velamen_core::event::*;
use velamen_core::id::{ClumpId, LotId, TreatmentId};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::Heap;
use velamen_core::time::Stamp;
use velamen_core::trace::{self, COST_MAX, Rank, Thing, Why};
use velamen_tests::{Phone, treatment};

use crate::reuse::{a_pot, disinfect, in_pots, move_on, turns_up};

/// Pots so many pieces of a clump as one lot and ends the clump.
pub(crate) fn potted(phone: &mut Phone, clump: ClumpId, plants: i32) -> LotId {
    let class = PieceClass::Starter;
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![CountedPieces {
            class,
            plants,
            bulbs: None,
        }],
    });
    let count = plants.unsigned_abs();
    let batch = Batch {
        class,
        code: None,
        name: None,
        plants: count,
        stands: count,
        with: None,
        potting: Potting::default(),
        place: None,
    };
    let done = phone.act(Command::PotPieces {
        clump,
        batches: vec![batch],
    });
    phone.act(Command::CloseDivision {
        clump,
        how: ClosedHow::Done,
        dirty_pots: 1,
        note: String::new(),
    });
    match &done.events[0] {
        Event::PiecesPotted(it) => it.lot,
        other => panic!("{other:?}"),
    }
}

fn bath(phone: &mut Phone, lots: &[LotId], same: Option<TreatmentId>) -> TreatmentId {
    let parts = lots.iter().map(|lot| TreatedPart::Lot {
        lot: *lot,
        plants: 1,
    });
    let product = ProductCopy {
        label_name: "Wash".to_owned(),
        ..ProductCopy::default()
    };
    let record = RecordTreatment {
        same_mix_as: same,
        ..treatment(parts.collect(), AgentClass::Insect, product)
    };
    match &phone.act(Command::RecordTreatment(record)).events[0] {
        Event::Treated(it) => it.treatment,
        other => panic!("{other:?}"),
    }
}

fn nursery() -> (Phone, velamen_core::id::PlaceId) {
    let mut phone = Phone::new(1, "2027-03-01");
    phone.open_book(Hemisphere::North);
    let bench = phone.place("Bench", Warmth::Cool);
    (phone, bench)
}

fn cost(phone: &Phone, source: LotId, lot: LotId) -> Option<u16> {
    let risks = trace::at_risk(&phone.state, source);
    risks
        .iter()
        .find(|risk| risk.lot == lot)
        .map(|risk| risk.cost)
}

/// Drawn by hand. One blade, cut in this order: A, M, B, C. M gives M1; B gives B1. Before that A was dipped with E;
/// after it, M1 with F. G stands beside M1.
#[test]
fn the_case_drawn_by_hand_comes_out_as_it_was_drawn() {
    let (mut phone, bench) = nursery();
    let corner = phone.place("Corner", Warmth::Cool);
    let names = ["A", "M", "B", "C", "E", "F", "G"];
    let [a, m, b, c, e, f, g] =
        names.map(|name| phone.lot(&format!("Cymbidium \"{name}\""), 3, bench));
    bath(&mut phone, &[a, e], None);
    let mut children = BTreeMap::new();
    for lot in [a, m, b, c] {
        let clump = phone.open_clump(&[lot]);
        children.insert(lot, potted(&mut phone, clump, 2));
    }
    for lot in [e, f] {
        phone.act(Command::MoveLot { lot, to: corner });
    }
    let (m1, b1, c1) = (children[&m], children[&b], children[&c]);
    let first = bath(&mut phone, &[m1], None);
    bath(&mut phone, &[f], Some(first));
    phone.act(Command::MoveLot { lot: m1, to: bench });
    let risks = trace::at_risk(&phone.state, m1);
    let found: BTreeMap<LotId, (u16, Rank)> = risks
        .iter()
        .map(|risk| (risk.lot, (risk.cost, risk.rank)))
        .collect();
    let expected = BTreeMap::from([
        // Its parent, which may have had it before.
        (m, (2, Rank::Near)),
        // The next on the blade, and what was potted from them.
        (b, (5, Rank::Likely)),
        (b1, (4, Rank::Likely)),
        (c, (5, Rank::Likely)),
        (c1, (4, Rank::Likely)),
        // In its bath, later.
        (f, (3, Rank::Near)),
        // Only a neighbour.
        (g, (7, Rank::Possible)),
    ]);
    // A was cut before it and E dipped before that: neither is at risk, and nor is what came of A.
    assert_eq!(found, expected);
    let way: Vec<Why> = risks
        .iter()
        .find(|risk| risk.lot == b1)
        .map(|risk| risk.path.iter().map(|step| step.why.clone()).collect())
        .unwrap();
    let blade = Why::SameBlade {
        nth: 1,
        changed: false,
    };
    assert_eq!(way, [Why::CameFrom, blade, Why::PottedFrom]);
}

#[test]
fn at_least_the_next_twenty_are_named_whatever_was_changed_and_more_where_nothing_was() {
    for (changes, last) in [(true, 20), (false, 25)] {
        let (mut phone, bench) = nursery();
        let lots: Vec<LotId> = (0..26).map(|_| phone.lot("Cymbidium", 1, bench)).collect();
        let mut children = Vec::new();
        for lot in &lots {
            if changes {
                let tool_change = ToolChange::BetweenClumps;
                phone.act(Command::ConfirmHygiene {
                    tool_change,
                    tools: None,
                });
            }
            let clump = phone.open_clump(&[*lot]);
            children.push(potted(&mut phone, clump, 1));
        }
        let risks = trace::at_risk(&phone.state, lots[0]);
        let at_risk = |lot: &LotId| {
            let by_blade = |risk: &&trace::Risk| {
                risk.path
                    .iter()
                    .any(|step| matches!(step.why, Why::SameBlade { .. }))
            };
            risks.iter().filter(by_blade).any(|risk| risk.lot == *lot)
        };
        let reached = (1..26).filter(|at| at_risk(&children[*at])).count();
        assert_eq!(reached, last, "changes confirmed: {changes}");
        let first = cost(&phone, lots[0], children[1]).unwrap();
        assert!(first < cost(&phone, lots[0], children[20]).unwrap());
    }
}

#[test]
fn a_blade_disinfected_with_what_reaches_both_viruses_as_strong_and_as_long_as_it_takes_ends_the_run()
 {
    let agents = [
        ("chlorine", Some(5_000), Some(60), true, 0),
        ("chlorine", Some(4_999), Some(60), true, 1),
        ("chlorine", Some(500), Some(60), true, 1),
        ("chlorine", Some(5_000), Some(59), true, 1),
        ("chlorine", Some(5_000), Some(60), false, 1),
        ("chlorine", None, Some(60), true, 1),
        ("chlorine", Some(5_000), None, true, 1),
        ("peroxymonosulfate", Some(10_000), Some(10), true, 0),
        ("flame", None, Some(20), true, 0),
        ("alcohol", Some(700_000), Some(60), true, 1),
    ];
    for (agent, strength_ppm, contact_s, cleaned_first, reached) in agents {
        let (mut phone, bench) = nursery();
        let ill = phone.lot("Cymbidium", 1, bench);
        let next = phone.lot("Cymbidium", 1, bench);
        let clump = phone.open_clump(&[ill]);
        potted(&mut phone, clump, 1);
        phone.act(Command::Sanitise(Sanitise {
            what: Object::Tools,
            agent: agent.to_owned(),
            strength_ppm,
            contact_s,
            cleaned_first,
            suspect_source: true,
            ..Sanitise::default()
        }));
        let clump = phone.open_clump(&[next]);
        let child = potted(&mut phone, clump, 1);
        let risks = trace::at_risk(&phone.state, ill);
        let found = risks.iter().filter(|risk| risk.lot == child).count();
        assert_eq!(found, reached, "{agent} {strength_ppm:?} {contact_s:?}");
    }
}

#[test]
fn a_bath_and_a_batch_of_bark_are_followed_to_the_lots_they_met() {
    let (mut phone, bench) = nursery();
    let lots: Vec<LotId> = (0..4).map(|_| phone.lot("Cymbidium", 2, bench)).collect();
    let first = bath(&mut phone, &lots[..1], None);
    let second = bath(&mut phone, &lots[1..2], Some(first));
    bath(&mut phone, &lots[2..3], None);
    let went = |phone: &Phone, thing| {
        let met = trace::went(&phone.state, &thing).into_iter();
        met.map(|row| row.met).collect::<Vec<_>>()
    };
    let met = |lots: &[LotId]| {
        lots.iter()
            .copied()
            .map(trace::Met::Lot)
            .collect::<Vec<_>>()
    };
    assert_eq!(went(&phone, Thing::Bath(second)), met(&lots[..2]));
    let potting = Potting {
        mix_batch: "March bark".to_owned(),
        ..Potting::default()
    };
    phone.act(Command::RepotLot {
        lot: lots[3],
        stands: 2,
        potting,
        class: None,
    });
    let bark = Thing::MixBatch("March bark".to_owned());
    assert!(trace::things(&phone.state).contains(&bark));
    assert_eq!(went(&phone, bark), met(&lots[3..]));
}

/// What the naive search knows: the events in their order, and nothing else.
#[derive(Clone, Debug)]
pub(crate) struct Told {
    pub(crate) order: Stamp,
    dev: velamen_core::id::Dev,
    pub(crate) event: Event,
}

/// Every way from a lot that is not dearer than the most, tried one after the other.
fn naive(
    told: &[Told],
    at: &Spot,
    since: Option<Stamp>,
    spent: u16,
    found: &mut BTreeMap<LotId, u16>,
) {
    if spent > COST_MAX {
        return;
    }
    if let Spot::Lot(lot) = at {
        let best = found.entry(*lot).or_insert(spent);
        *best = (*best).min(spent);
    }
    for (to, since, cost) in steps(told, at, since) {
        naive(told, &to, since, spent + cost, found);
    }
}

#[derive(Clone, Debug, PartialEq)]
enum Spot {
    Lot(LotId),
    Cut(ClumpId),
    Bath(TreatmentId),
    /// What came off in a move, by where it is told and its row.
    Off(usize, usize),
}

/// Whose pots came off in the move told there: the nearest potting anew or end of a clump before it in its entry.
fn whose(told: &[Told], at: usize) -> Option<Spot> {
    let before = told[..at].iter().rev();
    let mut same = before.take_while(|it| it.order == told[at].order);
    same.find_map(|it| match &it.event {
        Event::Repotted(it) => Some(Spot::Lot(it.lot)),
        Event::DivisionClosed(it) => Some(Spot::Cut(it.clump)),
        _ => None,
    })
}

fn steps(told: &[Told], at: &Spot, since: Option<Stamp>) -> Vec<(Spot, Option<Stamp>, u16)> {
    let mut out = Vec::new();
    let early = Some(Stamp::default());
    let root = |it: &Treated| it.same_mix_as.unwrap_or(it.treatment);
    for (n, told_now) in told.iter().enumerate() {
        let now = Some(told_now.order);
        match (&told_now.event, at) {
            (Event::DivisionOpened(it), Spot::Lot(lot))
                if it.lots.iter().any(|opened| opened.lot == *lot) && since < now =>
            {
                out.push((Spot::Cut(it.clump), since.or(early), 0));
            }
            (Event::DivisionOpened(it), Spot::Cut(clump)) if it.clump == *clump => {
                for opened in &it.lots {
                    match since {
                        None => out.push((Spot::Lot(opened.lot), None, 1)),
                        Some(_) => out.push((Spot::Lot(opened.lot), since.max(now), 2)),
                    }
                }
                if since < now {
                    let mut changed = false;
                    let mut nth = 0;
                    for later in &told[n + 1..] {
                        match &later.event {
                            Event::HygieneConfirmed(_) if later.dev == told_now.dev => {
                                changed = true
                            }
                            Event::DivisionOpened(next) if later.dev == told_now.dev => {
                                changed |= next.cut_before == Some(0);
                                nth += 1;
                                if nth > 20 && changed {
                                    break;
                                }
                                let cost = 2 + (nth - 1) / 4 + if changed { 3 } else { 0 };
                                out.push((Spot::Cut(next.clump), Some(later.order), cost));
                            }
                            _ => {}
                        }
                    }
                }
            }
            (Event::PiecesPotted(it), Spot::Cut(clump)) if it.clump == *clump && since <= now => {
                out.push((Spot::Lot(it.lot), now, 1));
            }
            (Event::PiecesPotted(it), Spot::Lot(lot)) if it.lot == *lot && since.is_none() => {
                out.push((Spot::Cut(it.clump), None, 1));
            }
            (Event::LotSplit(it), Spot::Lot(lot)) if it.from == *lot && since <= now => {
                out.push((Spot::Lot(it.lot), since, 1));
            }
            (Event::LotSplit(it), Spot::Lot(lot)) if it.lot == *lot && since < now => {
                out.push((Spot::Lot(it.from), since, 1));
            }
            (Event::Treated(it), Spot::Lot(lot)) if since <= now => {
                let holds = |part: &TreatedPart| matches!(part, TreatedPart::Lot { lot: of, .. } if of == lot);
                if it.parts.iter().any(holds) {
                    out.push((Spot::Bath(root(it)), now, 1));
                }
            }
            (Event::Treated(it), Spot::Bath(bath)) if root(it) == *bath && since <= now => {
                for part in &it.parts {
                    if let TreatedPart::Lot { lot, .. } = part {
                        out.push((Spot::Lot(*lot), now, 2));
                    }
                }
            }
            (Event::MaterialsMoved(it), Spot::Lot(_) | Spot::Cut(_))
                if it.from == Stage::InUse
                    && since <= now
                    && whose(told, n).as_ref() == Some(at) =>
            {
                out.extend((0..it.moved.len()).map(|row| (Spot::Off(n, row), now, 1)));
            }
            (Event::MaterialsMoved(_), Spot::Off(from, row)) if *from == n => {
                for (lot, then, disinfected) in turns_up(told, n, *row) {
                    let cost = if disinfected { 6 } else { 3 };
                    out.push((Spot::Lot(lot), Some(told[then].order), cost));
                }
            }
            _ => {}
        }
    }
    out
}

/// One thing that happens in a random book.
#[derive(Clone, Debug)]
enum Deed {
    Divide(usize, usize),
    Bathe(usize, usize),
    Split(usize),
    Clean,
    /// A lot into counted pots and stone.
    Pot(usize),
    /// Some or all of a heap at the wash, one stage on.
    Wash(usize, bool),
    Disinfect(bool),
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        4 => (0usize..20, 0usize..20).prop_map(|(a, b)| Deed::Divide(a, b)),
        2 => (0usize..20, 0usize..20).prop_map(|(a, b)| Deed::Bathe(a, b)),
        1 => (0usize..20).prop_map(Deed::Split),
        1 => Just(Deed::Clean),
        4 => (0usize..20).prop_map(Deed::Pot),
        6 => (0usize..20, any::<bool>()).prop_map(|(a, all)| Deed::Wash(a, all)),
        2 => any::<bool>().prop_map(Deed::Disinfect),
    ]
}

fn book_of(deeds: &[Deed]) -> (Phone, Vec<LotId>) {
    let (mut phone, _) = nursery();
    let pot = a_pot(&phone);
    for bought in [Material::pots_of(pot, 30), Material::stone(3_000_000)] {
        move_on(&mut phone, bought, (Stage::New, Stage::Clean), None);
    }
    let mut lots: Vec<LotId> = (0..4)
        .map(|_| {
            phone.receive(velamen_core::command::ReceiveLot {
                plants: 40,
                stands: 40,
                potting: in_pots(pot),
                potted_on: Some(phone.today),
                ..velamen_tests::named("Cymbidium")
            })
        })
        .collect();
    let mut mixture = None;
    for deed in deeds {
        let pick = |n: &usize| lots[n % lots.len()];
        match deed {
            Deed::Divide(a, b) => {
                let (a, b) = (pick(a), pick(b));
                let opened = |lot| OpenedLot {
                    lot,
                    plants: 1,
                    stands: 1,
                };
                let mut both = vec![opened(a)];
                if b != a {
                    both.push(opened(b));
                }
                let stocked = both
                    .iter()
                    .all(|it| phone.state.facts().lots[&it.lot].plants > 0);
                if stocked {
                    let open = velamen_core::command::OpenDivision {
                        tray: 1,
                        lots: both,
                        ..Default::default()
                    };
                    let done = phone.act(Command::OpenDivision(open));
                    let Event::DivisionOpened(it) = &done.events[0] else {
                        panic!("not opened")
                    };
                    let clump = it.clump;
                    lots.push(potted(&mut phone, clump, 2));
                }
            }
            Deed::Bathe(a, b) => {
                let both = [pick(a), pick(b)];
                if both
                    .iter()
                    .all(|lot| phone.state.facts().lots[lot].plants > 0)
                {
                    let same = mixture.filter(|_| a % 2 == 0);
                    let done = bath(&mut phone, &both, same);
                    mixture = mixture.filter(|_| same.is_some()).or(Some(done));
                }
            }
            Deed::Split(a) => {
                let from = pick(a);
                if phone.state.facts().lots[&from].plants > 1 {
                    let done = phone.act(Command::SplitLot {
                        from,
                        plants: 1,
                        stands: 1,
                        place: None,
                        why: SplitWhy::Sorted,
                    });
                    if let Event::LotSplit(it) = &done.events[0] {
                        lots.push(it.lot);
                    }
                }
            }
            Deed::Clean => {
                let tool_change = ToolChange::BetweenPlants;
                phone.act(Command::ConfirmHygiene {
                    tool_change,
                    tools: None,
                });
            }
            Deed::Pot(a) => {
                let lot = pick(a);
                if phone.state.facts().lots[&lot].plants > 0 {
                    phone.act(Command::RepotLot {
                        lot,
                        stands: 8,
                        potting: in_pots(pot),
                        class: None,
                    });
                }
            }
            Deed::Wash(a, all) => wash(&mut phone, *a, *all),
            Deed::Disinfect(heat) => {
                let agent = if *heat { "oven" } else { "chlorine" };
                if let Some((heap, _, amount)) = heaps(&phone, |at| at == Stage::Washed).first() {
                    let materials = vec![heap.kind.row(*amount)];
                    disinfect(&mut phone, agent, materials, heap.apart);
                }
            }
        }
    }
    (phone, lots)
}

fn heaps(phone: &Phone, at: impl Fn(Stage) -> bool) -> Vec<(Heap, Stage, i64)> {
    let heaps = phone.state.facts().book.materials.heaps.iter();
    let piles = heaps.flat_map(|(heap, standing)| {
        let stages = Stage::COUNTED.into_iter();
        stages.map(move |stage| (heap.clone(), stage, standing.at(stage)))
    });
    let piles = piles.filter(|(_, stage, amount)| at(*stage) && *amount > 0);
    piles.collect()
}

/// Takes some or all of one heap on, past the disinfection.
fn wash(phone: &mut Phone, which: usize, all: bool) {
    let going = heaps(phone, |at| at != Stage::Clean);
    let Some((heap, from, amount)) = going.get(which % going.len().max(1)) else {
        return;
    };
    let to = match from {
        Stage::Dirty => Stage::Washed,
        _ => Stage::Clean,
    };
    let part = if all { *amount } else { (*amount + 1) / 2 };
    move_on(phone, heap.kind.row(part), (*from, to), heap.apart);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn in_any_book_the_trace_finds_what_trying_every_way_finds(
        deeds in prop::collection::vec(deed(), 1..12),
        source in 0usize..12,
    ) {
        let (phone, lots) = book_of(&deeds);
        let source = lots[source % lots.len()];
        let told: Vec<Told> = phone
            .state
            .log()
            .in_order()
            .flat_map(|entry| {
                let events = entry.events.iter().flatten().cloned();
                events.map(|event| Told { order: entry.header.order, dev: entry.id.dev, event })
            })
            .collect();
        let mut expected = BTreeMap::new();
        naive(&told, &Spot::Lot(source), None, 0, &mut expected);
        expected.remove(&source);
        let found: BTreeMap<LotId, u16> = trace::at_risk(&phone.state, source)
            .into_iter()
            .map(|risk| (risk.lot, risk.cost))
            .collect();
        prop_assert_eq!(found, expected);
    }
}
