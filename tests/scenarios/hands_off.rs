//! Whom nobody waters: what was treated and is not to be touched yet, what has a sign that water feeds, and what was cut
//! from rot.

use velamen_core::command::{Command, RecordFinding};
use velamen_core::entry::{Header, read_header, write_line};
use velamen_core::event::{
    AgentClass, Event, LotSplit, PieceClass, ProductCopy, SeenOn, SplitWhy, TaskAnswer,
    TreatedPart, Urgency,
};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::task::looks::unlooked;
use velamen_core::time::Stamp;
use velamen_core::view::water::{BenchLot, BenchState, benches_to_look, one_bench};
use velamen_core::water::{Hold, Stand};
use velamen_core::water_draft::WateringDraft;
use velamen_tests::{Phone, day, treatment};

use crate::scene::{batch, nursery, pieces, tasks};
use crate::water::{bench_of, last_of, water};

const HOUR_MS: i64 = 3_600_000;

fn lots(phone: &Phone, place: PlaceId) -> Vec<BenchLot> {
    one_bench(&phone.state, Some(place), phone.today, phone.now_ms)
        .unwrap()
        .1
}

fn lot_of(phone: &Phone, place: PlaceId, lot: LotId) -> BenchLot {
    let mut lots = lots(phone, place).into_iter();
    lots.find(|row| row.label.lot == lot).unwrap()
}

fn seen(lot: LotId, sign: &str) -> Command {
    Command::RecordFinding(RecordFinding {
        on: SeenOn::Lot(lot),
        sign: sign.to_owned(),
        part: String::new(),
        agent: None,
        affected: Some(1),
        looked_at: Some(1),
        severity: None,
        urgency: Urgency::Today,
        photos: Vec::new(),
        note: String::new(),
    })
}

#[test]
fn what_was_treated_is_left_out_of_the_bench_until_hands_may_touch_it() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let wet = phone.lot("Cattleya labiata", 3, bench);
    let dry = phone.lot("Cattleya trianae", 2, bench);
    assert_eq!(bench_of(&phone, bench).look, 2);
    let until_ms = phone.now_ms + 24 * HOUR_MS;
    let parts = vec![TreatedPart::Lot {
        lot: wet,
        plants: 3,
    }];
    let product = ProductCopy {
        label_name: "Copper".to_owned(),
        reentry_h: Some(24),
        ..ProductCopy::default()
    };
    let mut bath = treatment(parts, AgentClass::Fungus, product);
    bath.until_ms = Some(until_ms);
    phone.act(Command::RecordTreatment(bath));
    let now = bench_of(&phone, bench);
    assert_eq!((now.look, now.bound.len()), (1, 1));
    assert_eq!(now.bound[0].1.until_ms, until_ms);
    let row = lot_of(&phone, bench, wet);
    assert!(row.is_held(false) && row.is_held(true) && !row.is_to_look());
    assert!(!lot_of(&phone, bench, dry).is_held(false));
    // The walk with the hose writes nothing down for the wet one, as the screen does it.
    let held: Vec<(LotId, bool)> = lots(&phone, bench)
        .iter()
        .map(|row| (row.label.lot, row.is_held(false)))
        .collect();
    phone.act(WateringDraft::default().water(Some(bench), &held));
    assert_eq!(last_of(&phone, wet), None);
    assert!(last_of(&phone, dry).is_some());
    assert_eq!(
        benches_to_look(&phone.state, phone.today, phone.now_ms),
        Some(0)
    );
    assert_ne!(bench_of(&phone, bench).state, BenchState::Look);
    phone.now_ms = until_ms;
    assert_eq!(bench_of(&phone, bench).bound, Vec::new());
    assert!(lot_of(&phone, bench, wet).is_to_look());
}

#[test]
fn black_rot_gets_no_water_before_somebody_looks_again() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = phone.lot("Cattleya labiata", 3, bench);
    assert_eq!(
        benches_to_look(&phone.state, phone.today, phone.now_ms),
        Some(1)
    );
    phone.act(seen(lot, "black_rot"));
    let held = Stand::Held(Hold::KeptDry(day("2027-04-10")));
    assert_eq!(lot_of(&phone, bench, lot).water.stand, held);
    let now = bench_of(&phone, bench);
    assert_eq!((now.state, now.look), (BenchState::Nothing, 0));
    assert_eq!(now.kept_dry.len(), 1);
    assert_eq!(
        benches_to_look(&phone.state, phone.today, phone.now_ms),
        Some(0)
    );
    assert_eq!(unlooked(phone.state.facts(), lot, phone.today).len(), 1);
    // Another sign is no look at this one.
    phone.on("2027-04-11");
    phone.act(seen(lot, "scale"));
    assert_eq!(unlooked(phone.state.facts(), lot, phone.today).len(), 2);
    phone.on("2027-04-15");
    assert_eq!(lot_of(&phone, bench, lot).water.stand, held);
    let look = tasks(&phone, lot, TaskKind::LookAgain);
    phone.act(Command::DecideTasks {
        tasks: look,
        answer: TaskAnswer::Done { outcome: None },
        why: String::new(),
    });
    assert_eq!(unlooked(phone.state.facts(), lot, phone.today), Vec::new());
    assert!(lot_of(&phone, bench, lot).is_to_look());
    phone.act(water(bench));
}

#[test]
fn a_part_of_a_lot_with_black_rot_is_kept_dry_too_and_other_signs_hold_nothing() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = phone.lot("Cattleya labiata", 3, bench);
    phone.act(seen(lot, "leaf_spots"));
    assert!(lot_of(&phone, bench, lot).is_to_look());
    assert_eq!(
        unlooked(phone.state.facts(), lot, phone.today).len(),
        1,
        "but it is told"
    );
    phone.act(seen(lot, "black_rot"));
    let done = phone.act(Command::SplitLot {
        from: lot,
        plants: 1,
        stands: 1,
        place: Some(bench),
        why: SplitWhy::Sorted,
    });
    let Event::LotSplit(split) = &done.events[0] else {
        panic!("{:?}", done.events);
    };
    let split = split.lot;
    assert!(matches!(
        lot_of(&phone, bench, split).water.stand,
        Stand::Held(Hold::KeptDry(_))
    ));
}

/// A tough plant cut at the bench, with something seen on the clump before it was potted.
fn cut_with(sign: Option<&str>) -> (Phone, LotId) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let clump = phone.open_clump(&[lot]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Starter, 3)],
    });
    if let Some(sign) = sign {
        let Command::RecordFinding(mut found) = seen(lot, sign) else {
            panic!("no finding");
        };
        found.on = SeenOn::Clump(clump);
        phone.act(Command::RecordFinding(found));
    }
    let potted = phone.act(Command::PotPieces {
        clump,
        batches: vec![batch(PieceClass::Starter, 3, bench)],
    });
    let Event::PiecesPotted(potted) = &potted.events[0] else {
        panic!("{:?}", potted.events);
    };
    (phone, potted.lot)
}

#[test]
fn what_was_cut_from_rot_stays_dry_longer_and_is_looked_at_however_tough_its_kind() {
    let due = |phone: &Phone, lot, kind| {
        let tasks = tasks(phone, lot, kind);
        tasks.first().map(|task| task.due_on)
    };
    for sign in [None, Some("leaf_spots")] {
        let (phone, lot) = cut_with(sign);
        assert_eq!(due(&phone, lot, TaskKind::RotCheck), None);
        let water = due(&phone, lot, TaskKind::FirstWater);
        assert_eq!(water, Some(day("2027-03-14")));
    }
    for sign in ["soft_rot", "black_rot", "root_rot", "collar_rot"] {
        let (phone, lot) = cut_with(Some(sign));
        let look = due(&phone, lot, TaskKind::RotCheck);
        assert_eq!(look, Some(day("2027-03-21")), "{sign}");
        let water = due(&phone, lot, TaskKind::FirstWater);
        assert_eq!(water, Some(day("2027-03-18")), "{sign}");
        assert_eq!(due(&phone, lot, TaskKind::Restake), None, "{sign}");
    }
}

#[test]
fn a_look_that_was_noted_for_the_signs_own_days_is_a_look_and_one_put_off_is_none() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = phone.lot("Cattleya labiata", 3, bench);
    phone.act(seen(lot, "black_rot"));
    for due_on in ["2027-04-11", "2027-04-12"] {
        phone.act(Command::NoteTask {
            task: None,
            text: "Look again".to_owned(),
            due_on: day(due_on),
            repeat_days: None,
            lot: Some(lot),
            place: None,
        });
    }
    let decide = |phone: &mut Phone, due_on: &str, answer: TaskAnswer| {
        let mut tasks = phone.state.tasks_noted_for(lot);
        tasks.retain(|task| task.due_on == day(due_on));
        assert_eq!(tasks.len(), 1);
        phone.act(Command::DecideTasks {
            tasks,
            answer,
            why: String::new(),
        });
    };
    let done = TaskAnswer::Done { outcome: None };
    phone.on("2027-04-12");
    // The second day after is none of the sign's own: some other note of this plant.
    decide(&mut phone, "2027-04-12", done);
    let to = day("2027-04-13");
    decide(&mut phone, "2027-04-11", TaskAnswer::PutOff { to });
    assert_eq!(unlooked(phone.state.facts(), lot, phone.today).len(), 1);
    decide(&mut phone, "2027-04-13", done);
    assert_eq!(unlooked(phone.state.facts(), lot, phone.today), Vec::new());
    assert!(lot_of(&phone, bench, lot).is_to_look());
}

#[test]
fn a_sign_nobody_looks_at_again_is_old_news_after_its_own_days() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = phone.lot("Cattleya labiata", 3, bench);
    phone.act(seen(lot, "black_rot"));
    phone.on("2027-04-24");
    assert!(lot_of(&phone, bench, lot).is_held(false));
    phone.on("2027-04-25");
    assert!(lot_of(&phone, bench, lot).is_to_look());
    assert_eq!(unlooked(phone.state.facts(), lot, phone.today), Vec::new());
}

#[test]
fn a_look_for_rot_that_was_left_out_until_now_comes_no_more_once_a_later_step_is_decided() {
    let (mut phone, lot) = cut_with(Some("root_rot"));
    assert_eq!(tasks(&phone, lot, TaskKind::RotCheck).len(), 1);
    phone.on("2027-04-08");
    let light = tasks(&phone, lot, TaskKind::NormalLight);
    assert_eq!(light.len(), 1);
    phone.act(Command::DecideTasks {
        tasks: light,
        answer: TaskAnswer::Done { outcome: None },
        why: String::new(),
    });
    assert_eq!(tasks(&phone, lot, TaskKind::RotCheck), Vec::new());
}

#[test]
fn a_made_up_book_in_which_two_lots_are_parts_of_each_other_goes_round_nowhere() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = phone.lot("Cattleya labiata", 3, bench);
    phone.act(seen(lot, "black_rot"));
    let done = phone.act(Command::SplitLot {
        from: lot,
        plants: 1,
        stands: 1,
        place: Some(bench),
        why: SplitWhy::Sorted,
    });
    let header = read_header(&done.line).unwrap();
    let Event::LotSplit(split) = &done.events[0] else {
        panic!("{:?}", done.events);
    };
    let back = LotSplit {
        from: split.lot,
        lot,
        ..(**split).clone()
    };
    let (seq, prev, _) = phone.state.log().next_of(phone.dev);
    let header = Header {
        seq,
        prev,
        order: Stamp {
            ms: header.order.ms + 1,
            count: 0,
        },
        ..header
    };
    phone.take(&write_line(&header, &[back.into()]).unwrap());
    for row in lots(&phone, bench) {
        assert!(!row.is_to_look());
    }
}
