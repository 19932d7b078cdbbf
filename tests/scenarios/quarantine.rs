//! Kept apart: what came from elsewhere or showed something, until days, looks, treatments and tests all hold.

use velamen_core::bath::{self, BathDraft};
use velamen_core::command::{
    Command, EnterQuarantine, OpenDivision, ReceiveLot, RecordFinding, RecordTest, TraceAnswer,
};
use velamen_core::event::*;
use velamen_core::finding_draft::FindingDraft;
use velamen_core::id::{LotId, PlaceId};
use velamen_core::quarantine::{Suspicion, clump_is_suspect, held, is_held, suspicion, usual};
use velamen_core::rejection::{Caution, Rejection};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::task::derive::{self, Task};
use velamen_core::task::generation::{By, GenerationDay};
use velamen_core::time::plus_days;
use velamen_core::trace::{self, Followed};
use velamen_core::view::apart::apart;
use velamen_core::view::finding::{Proposal, finding, incidence};
use velamen_tests::{Phone, day, named};

struct Greenhouse {
    phone: Phone,
    bench: PlaceId,
    corner: PlaceId,
}

fn greenhouse(today: &str) -> Greenhouse {
    let mut phone = Phone::new(1, today);
    phone.open_book(Hemisphere::North);
    let bench = phone.place("Bench", Warmth::Cool);
    let corner = phone.place("Corner", Warmth::Cool);
    Greenhouse {
        phone,
        bench,
        corner,
    }
}

fn bought(phone: &mut Phone, place: PlaceId) -> LotId {
    phone.receive(ReceiveLot {
        plants: 6,
        stands: 6,
        place: Some(place),
        source: Source::Bought,
        ..named("Cymbidium lowianum")
    })
}

pub(crate) fn enter(lot: LotId, why: QuarantineWhy) -> Command {
    Command::EnterQuarantine(EnterQuarantine {
        lots: vec![lot],
        why,
        terms: usual(why, None),
        ..EnterQuarantine::default()
    })
}

fn release(lot: LotId, early: &str) -> Command {
    Command::ReleaseQuarantine {
        lot,
        early: early.to_owned(),
    }
}

pub(crate) fn tested(lot: LotId, result: TestResult) -> Command {
    Command::RecordTest(RecordTest {
        lot,
        method: TestMethod::Strip,
        results: Virus::BOTH.map(|virus| (virus, result)).to_vec(),
        tissue: Tissue::Leaf,
        pooled: 1,
        laboratory: String::new(),
        note: String::new(),
    })
}

fn open(phone: &Phone, lot: LotId, kind: TaskKind) -> Option<Task> {
    let tasks = derive::of_lot(phone.state.facts(), lot);
    tasks.into_iter().find(|task| task.kind == kind)
}

fn look(phone: &mut Phone, lot: LotId, outcome: Outcome) {
    let task = open(phone, lot, TaskKind::QuarantineLook).expect("a look is due");
    phone.act(Command::DecideTasks {
        tasks: vec![task],
        answer: TaskAnswer::Done {
            outcome: Some(outcome),
        },
        why: String::new(),
    });
}

#[test]
fn an_arrival_is_proposed_and_comes_out_after_thirty_days_and_three_clean_looks() {
    let Greenhouse {
        mut phone, corner, ..
    } = greenhouse("2027-03-01");
    let lot = bought(&mut phone, corner);
    assert!(apart(&phone.state, lot, phone.today).arrival);
    phone.act(enter(lot, QuarantineWhy::Arrival));
    assert!(!apart(&phone.state, lot, phone.today).arrival);
    for on in ["2027-03-08", "2027-03-15", "2027-03-22"] {
        phone.on(on);
        look(&mut phone, lot, Outcome::Well);
    }
    let view = apart(&phone.state, lot, phone.today);
    let progress = &view.stays[0].progress;
    assert_eq!((progress.clean, progress.days_left), (3, 9));
    assert_eq!(
        phone.refusal(release(lot, "")),
        Rejection::QuarantineHolds { lot }
    );
    let review = open(&phone, lot, TaskKind::ReleaseReview).expect("only days are left");
    assert_eq!(review.due_on, day("2027-03-31"));
    phone.on("2027-03-31");
    let out = phone.act(release(lot, "never said"));
    assert_eq!(out.cautions, Vec::new());
    assert!(
        matches!(&out.events[0], Event::QuarantineReleased(it) if it.early.is_empty() && it.inspections == 3)
    );
    assert!(!is_held(phone.state.facts(), lot));
    assert_eq!(open(&phone, lot, TaskKind::QuarantineLook), None);
}

#[test]
fn what_is_seen_on_the_way_begins_the_looks_anew() {
    let Greenhouse {
        mut phone, corner, ..
    } = greenhouse("2027-03-01");
    let lot = bought(&mut phone, corner);
    phone.act(enter(lot, QuarantineWhy::Arrival));
    phone.on("2027-03-08");
    look(&mut phone, lot, Outcome::Well);
    phone.on("2027-03-15");
    look(&mut phone, lot, Outcome::NeedsMore);
    phone.on("2027-03-22");
    look(&mut phone, lot, Outcome::Well);
    let clean = |phone: &Phone| {
        apart(&phone.state, lot, phone.today).stays[0]
            .progress
            .clean
    };
    assert_eq!(clean(&phone), 1);
    phone.on("2027-03-23");
    phone.act(Command::RecordFinding(
        FindingDraft::default().finding(SeenOn::Lot(lot), Some("mites")),
    ));
    assert_eq!(clean(&phone), 0);
}

#[test]
fn what_is_kept_apart_is_not_sold_moved_or_divided_with_others_but_may_go_early_with_a_reason() {
    let Greenhouse {
        mut phone,
        bench,
        corner,
    } = greenhouse("2027-03-01");
    let lot = bought(&mut phone, bench);
    let other = phone.lot("Cymbidium lowianum", 2, bench);
    phone.act(Command::EnterQuarantine(EnterQuarantine {
        lots: vec![lot],
        place: Some(corner),
        ..EnterQuarantine::default()
    }));
    let no = Rejection::InQuarantine {
        lot,
        since_on: day("2027-03-01"),
    };
    let sell = || Command::SellFromLot {
        lot,
        plants: 1,
        stands: 1,
        to: String::new(),
        price_cents: None,
        note: String::new(),
    };
    assert_eq!(phone.refusal(sell()), no);
    assert_eq!(phone.refusal(Command::MoveLot { lot, to: bench }), no);
    let opened = |lot| OpenedLot {
        lot,
        plants: 2,
        stands: 2,
    };
    let together = Command::OpenDivision(OpenDivision {
        tray: 1,
        lots: vec![opened(other), opened(lot)],
        ..OpenDivision::default()
    });
    assert_eq!(phone.refusal(together), no);
    let part = Command::SplitLot {
        from: lot,
        plants: 1,
        stands: 1,
        place: Some(bench),
        why: SplitWhy::Sorted,
    };
    assert_eq!(phone.refusal(part), no);
    // The terms here wait for nothing, so it may simply come out.
    phone.act(release(lot, ""));
    phone.act(enter(lot, QuarantineWhy::Caution));
    let early = phone.act(release(lot, "a friend waits for it"));
    assert_eq!(early.cautions, [Caution::OutEarly { lot }]);
    phone.act(sell());
}

#[test]
fn pieces_and_parts_carry_it_and_come_out_by_themselves() {
    let Greenhouse {
        mut phone, corner, ..
    } = greenhouse("2027-03-01");
    let lot = bought(&mut phone, corner);
    phone.act(enter(lot, QuarantineWhy::Arrival));
    let split = phone.act(Command::SplitLot {
        from: lot,
        plants: 2,
        stands: 2,
        place: None,
        why: SplitWhy::Sorted,
    });
    let Event::LotSplit(split) = &split.events[0] else {
        panic!("no part")
    };
    let (part, facts) = (split.lot, phone.state.facts());
    assert_eq!(held(facts, part)[0].began_as, lot);
    phone.act(release(part, "looked at by the inspector"));
    assert!(!is_held(phone.state.facts(), part));
    assert!(is_held(phone.state.facts(), lot));
    // A clump of the lot alone is divided in quarantine; the pieces are in it too, even once the parent is out.
    let clump = phone.open_clump(&[lot]);
    let child = crate::traces::potted(&mut phone, clump, 3);
    phone.act(release(lot, "empty now"));
    assert!(is_held(phone.state.facts(), child));
}

#[test]
fn a_part_set_apart_is_in_quarantine_at_once() {
    let Greenhouse {
        mut phone,
        bench,
        corner,
    } = greenhouse("2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 4, bench);
    let split = phone.act(Command::SplitLot {
        from: lot,
        plants: 1,
        stands: 1,
        place: Some(corner),
        why: SplitWhy::Quarantined,
    });
    let Event::LotSplit(split) = &split.events[0] else {
        panic!("no part")
    };
    assert!(is_held(phone.state.facts(), split.lot));
    assert!(!is_held(phone.state.facts(), lot));
}

#[test]
fn a_release_on_another_phone_does_not_end_a_stay_it_did_not_know_of() {
    let Greenhouse {
        mut phone, corner, ..
    } = greenhouse("2027-03-01");
    let lot = bought(&mut phone, corner);
    phone.act(enter(lot, QuarantineWhy::Arrival));
    let mut second = Phone::new(2, "2027-03-02");
    second.take_in(&phone.hand_over());
    second.act(Command::JoinPhone {
        prefix: velamen_core::code::Prefix::pick(9),
        name: "second".to_owned(),
    });
    phone.on("2027-03-02");
    phone.act(enter(lot, QuarantineWhy::Exposed));
    second.wait_min(60);
    second.act(release(lot, "looks well"));
    phone.take_in(&second.hand_over());
    second.take_in(&phone.hand_over());
    for phone in [&phone, &second] {
        let held = held(phone.state.facts(), lot);
        assert_eq!(held.len(), 1);
        assert_eq!(held[0].stay.terms.why, QuarantineWhy::Exposed);
    }
}

#[test]
fn an_exposed_lot_is_tested_after_thirty_and_after_240_days_and_one_early_test_is_no_all_clear() {
    let Greenhouse {
        mut phone, corner, ..
    } = greenhouse("2027-01-01");
    let lot = bought(&mut phone, corner);
    phone.act(enter(lot, QuarantineWhy::Exposed));
    let due = |phone: &Phone| open(phone, lot, TaskKind::VirusTest).map(|task| task.due_on);
    assert_eq!(due(&phone), Some(day("2027-01-31")));
    phone.on("2027-01-10");
    phone.act(tested(lot, TestResult::NotDetected));
    assert_eq!(
        due(&phone),
        Some(day("2027-01-31")),
        "too early to say anything"
    );
    phone.on("2027-02-02");
    phone.act(tested(lot, TestResult::NotDetected));
    assert_eq!(due(&phone), Some(day("2027-08-29")));
    phone.on("2027-09-01");
    phone.act(tested(lot, TestResult::NotDetected));
    assert_eq!(due(&phone), None);
    let progress = apart(&phone.state, lot, phone.today).stays[0]
        .progress
        .clone();
    assert_eq!(
        (progress.tests, progress.tests_wanted, progress.clean),
        (2, 2, 0)
    );
    assert!(!progress.holds(), "nobody looked at it yet");
}

#[test]
fn a_virus_that_was_found_makes_the_lot_and_all_it_becomes_suspect() {
    let Greenhouse {
        mut phone, bench, ..
    } = greenhouse("2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 3, bench);
    let clump = phone.open_clump(&[lot]);
    let child = crate::traces::potted(&mut phone, clump, 2);
    phone.act(tested(child, TestResult::NotDetected));
    assert_eq!(suspicion(phone.state.facts(), child), None);
    let again = phone.lot("Cymbidium lowianum", 3, bench);
    phone.act(tested(again, TestResult::Unclear));
    assert_eq!(suspicion(phone.state.facts(), again), None);
    phone.act(tested(again, TestResult::Detected));
    let of = suspicion(phone.state.facts(), again);
    assert!(matches!(of, Some(Suspicion::Detected { of, .. }) if of == again));
    phone.act(enter(again, QuarantineWhy::Virus));
    phone.on("2028-03-01");
    phone.act(tested(again, TestResult::NotDetected));
    let progress = apart(&phone.state, again, phone.today).stays[0]
        .progress
        .clone();
    assert!(progress.found.is_some() && !progress.holds());
}

#[test]
fn more_samples_than_plants_cannot_be_pooled() {
    let Greenhouse {
        mut phone, bench, ..
    } = greenhouse("2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 3, bench);
    let Command::RecordTest(mut test) = tested(lot, TestResult::NotDetected) else {
        panic!("not a test")
    };
    test.pooled = 4;
    let no = phone.refusal(Command::RecordTest(test));
    assert_eq!(
        no,
        Rejection::MorePooledThanPlants {
            pooled: 4,
            plants: 3
        }
    );
}

#[test]
fn a_sign_proposes_and_its_counts_make_a_line_with_a_threshold() {
    let Greenhouse {
        mut phone, bench, ..
    } = greenhouse("2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 40, bench);
    let seen = |phone: &mut Phone, affected| {
        let draft = FindingDraft {
            affected: Some(affected),
            looked_at: Some(20),
            ..FindingDraft::default()
        };
        let done = phone.act(Command::RecordFinding(
            draft.finding(SeenOn::Lot(lot), Some("scale")),
        ));
        match &done.events[0] {
            Event::Found(found) => found.finding,
            other => panic!("{other:?}"),
        }
    };
    seen(&mut phone, 1);
    phone.on("2027-03-08");
    let second = seen(&mut phone, 5);
    let view = finding(&phone.state, second).unwrap();
    assert_eq!(view.reached, None);
    let terms = usual(QuarantineWhy::Finding, Some("scale"));
    let looks = [12, 24, 36, 50].map(|table_days| GenerationDay {
        on: plus_days(day("2027-03-08"), i64::from(table_days)),
        by: By::NoFigure,
        table_days,
    });
    let looks = looks.to_vec();
    assert_eq!(
        view.proposals,
        [
            Proposal::Treat {
                against: AgentClass::Insect
            },
            Proposal::Apart { terms },
            Proposal::LookByGeneration { looks },
        ]
    );
    phone.act(Command::SetPlace {
        place: Some(bench),
        name: None,
        walk: None,
        about: velamen_core::command::PlaceTraits {
            act_permille: Some(100),
            ..Default::default()
        },
    });
    assert_eq!(finding(&phone.state, second).unwrap().reached, Some(100));
    let line = incidence(&phone.state, bench, day("2027-01-01"));
    let shares: Vec<u16> = line[0]
        .points
        .iter()
        .map(|point| point.share.permille)
        .collect();
    assert_eq!((line[0].sign.as_str(), shares), ("scale", vec![50, 250]));
    // The plants move on; what was seen stays with the bench.
    let corner = phone.place("Elsewhere", Warmth::Cool);
    phone.act(Command::MoveLot { lot, to: corner });
    assert_eq!(
        incidence(&phone.state, bench, day("2027-01-01"))[0]
            .points
            .len(),
        2
    );
}

#[test]
fn a_risk_becomes_two_tests_or_is_cleared_with_a_reason() {
    let Greenhouse {
        mut phone, bench, ..
    } = greenhouse("2027-03-01");
    let ill = phone.lot("Cymbidium lowianum", 3, bench);
    let beside = phone.lot("Cymbidium tracyanum", 3, bench);
    let follow = |answer| Command::FollowTrace {
        source: ill,
        lots: vec![beside],
        answer,
    };
    let state_of = |phone: &Phone| trace::at_risk(&phone.state, ill)[0].followed.clone();
    assert_eq!(state_of(&phone), Followed::Open);
    phone.act(follow(TraceAnswer::Test));
    let kind = TaskKind::VirusTest;
    assert_eq!(
        state_of(&phone),
        Followed::ToDo {
            kind,
            on: day("2027-03-31")
        }
    );
    phone.on("2027-04-02");
    phone.act(tested(beside, TestResult::NotDetected));
    assert!(matches!(state_of(&phone), Followed::ToDo { on, .. } if on > day("2027-10-01")));
    let silent = phone.refusal(follow(TraceAnswer::Clear {
        why: " ".to_owned(),
    }));
    assert!(matches!(silent, Rejection::Missing { .. }));
    phone.act(follow(TraceAnswer::Clear {
        why: "a metre between them".to_owned(),
    }));
    assert_eq!(state_of(&phone), Followed::Cleared);
    assert_eq!(open(&phone, beside, kind), None);
}

fn streaks(on: SeenOn, agent: Option<AgentClass>) -> Command {
    Command::RecordFinding(RecordFinding {
        on,
        sign: "streaks".to_owned(),
        part: String::new(),
        agent,
        affected: None,
        looked_at: None,
        severity: None,
        urgency: Urgency::Today,
        photos: Vec::new(),
        note: String::new(),
    })
}

/// What quarantine and the bath say of a lot: asked in two places, they answer alike.
fn suspected(phone: &Phone, lot: LotId) -> [bool; 2] {
    let bath = BathDraft {
        lots: vec![lot],
        ..BathDraft::default()
    };
    let parts = bath.parts(&phone.state);
    [
        suspicion(phone.state.facts(), lot).is_some(),
        bath::suspicion(&phone.state, &parts[0]) == bath::Suspicion::Virus,
    ]
}

#[test]
fn streaks_seen_on_a_clump_follow_its_pieces_until_two_tests_find_nothing() {
    let Greenhouse {
        mut phone, bench, ..
    } = greenhouse("2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 3, bench);
    let clump = phone.open_clump(&[lot]);
    phone.act(streaks(SeenOn::Clump(clump), None));
    let child = crate::traces::potted(&mut phone, clump, 2);
    assert!(clump_is_suspect(phone.state.facts(), clump));
    assert_eq!(suspected(&phone, child), [true, true]);
    assert_eq!(
        suspicion(phone.state.facts(), lot),
        None,
        "never up the line"
    );
    for date in ["2027-04-05", "2027-12-01"] {
        phone.on(date);
        phone.act(tested(child, TestResult::NotDetected));
    }
    assert_eq!(suspected(&phone, child), [false, false]);
}

#[test]
fn a_sign_is_a_virus_until_somebody_says_what_else_it_is() {
    let Greenhouse {
        mut phone, bench, ..
    } = greenhouse("2027-03-01");
    let guesses = [
        (None, true),
        (Some(AgentClass::Unknown), true),
        (Some(AgentClass::Virus), true),
        (Some(AgentClass::Insect), false),
    ];
    for (agent, virus) in guesses {
        let lot = phone.lot("Cymbidium lowianum", 3, bench);
        phone.act(streaks(SeenOn::Lot(lot), agent));
        assert_eq!(suspected(&phone, lot), [virus, virus], "{agent:?}");
        let clump = phone.open_clump(&[lot]);
        assert_eq!(clump_is_suspect(phone.state.facts(), clump), virus);
    }
}
