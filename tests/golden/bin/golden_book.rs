//! Writes a small book that says everything the vocabulary can say, once, into the folder that is named.
//!
//! What it wrote is kept beside the golden tests and never edited: a book in somebody's phone is not edited either.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a script: what goes wrong has to stop it"
)]

use velamen_core::code::Prefix;
use velamen_core::command::{
    Batch, Command, CountedPieces, OpenBook, PlaceTraits, ProductTraits, ReceiveLot, RecordFinding,
    RecordTreatment,
};
use velamen_core::event::*;
use velamen_core::exchange;
use velamen_core::id::{LotId, PlaceId, ProductId};
use velamen_core::name::PlantName;
use velamen_core::potting::Layers;
use velamen_core::quantity::Length;
use velamen_core::reference::taxa::Group;
use velamen_core::season::{Hemisphere, Warmth, Window};
use velamen_core::state::RULES;
use velamen_core::task::derive;
use velamen_tests::{Phone, day, named, opening};

fn main() {
    let folder = std::env::args().nth(1).unwrap();
    let mut phone = Phone::new(7, "2027-03-11");
    phone.act(Command::OpenBook(OpenBook {
        latitude_cdeg: Some(-3_350),
        ..opening(Hemisphere::South, 7)
    }));
    let bench = shelf(&mut phone);
    let lot = lots(&mut phone, bench);
    at_the_bench(&mut phone, bench, lot);
    care(&mut phone, bench, lot);
    book(&mut phone, lot);
    bare(&mut phone);
    let lines: String = phone
        .state
        .log()
        .lines()
        .map(|line| format!("{line}\n"))
        .collect();
    let file = exchange::write(&phone.state, &phone.moment()).unwrap();
    let facts = format!("{RULES} {}\n", phone.state.digest());
    for (name, text) in [("jsonl", lines), ("txt", file), ("digest", facts)] {
        std::fs::write(format!("{folder}/book-1.{name}"), text).unwrap();
    }
}

fn shelf(phone: &mut Phone) -> PlaceId {
    let bench = phone.place("Cool house, bench 2 🌿", Warmth::Cool);
    let about = PlaceTraits {
        cover: Some(Cover::OpenToRain),
        shade: Some(Shade::Deep),
        warmth: Some(Warmth::Warm),
        act_permille: None,
        coordinates: None,
        area_cm2: Some(24_000),
        retired: Some(false),
        ..PlaceTraits::default()
    };
    phone.act(Command::SetPlace {
        place: None,
        name: Some("בית קר".to_owned()),
        walk: Some(5),
        about,
    });
    phone.act(Command::SetBook(BookSet {
        nursery: Some("Under the Ashes".to_owned()),
        hemisphere: Some(Hemisphere::South),
        latitude_cdeg: Some(-3_360),
        poisons_number: Some("000".to_owned()),
        operator_number: Some("17".to_owned()),
        ..BookSet::default()
    }));
    let (pot, mix) = {
        let facts = phone.state.facts();
        (
            *facts.pots.keys().next().unwrap(),
            *facts.mixes.keys().next().unwrap(),
        )
    };
    phone.act(Command::SetPot {
        pot: Some(pot),
        name: Some("17 cm, tall".to_owned()),
        form: None,
        retired: Some(false),
    });
    let share = |component: &str, permille| MixShare {
        component: component.to_owned(),
        permille,
    };
    phone.act(Command::SetMix {
        mix: Some(mix),
        name: None,
        shares: Some(vec![share("bark_coarse", 700), share("own moss", 300)]),
        life_months: Some(30),
        retired: None,
    });
    phone.act(Command::SetProduct {
        product: None,
        traits: ProductTraits {
            label_name: Some("Copper, as labelled".to_owned()),
            registration: Some("R 1".to_owned()),
            actives: Some(vec![active()]),
            rate_typed: Some("2 g/L".to_owned()),
            reentry_h: Some(24),
            label_photo: Some("00ff".to_owned()),
            retired: Some(false),
            ..ProductTraits::default()
        },
    });
    phone.act(Command::SetGroup(GroupSet {
        group: Group::Cymbidium,
        repot_windows: Some(vec![Window::months(8, 11)]),
        flowering_windows: Some(vec![Window::months(6, 10)]),
        light: Some(true),
        water_days: None,
    }));
    let (id, known) = phone.state.facts().protocols.iter().next().unwrap();
    let (protocol, mut content) = (Some(*id), known.current().unwrap().content.clone());
    content.steps[0].off = true;
    phone.act(Command::AdoptProtocol { protocol, content });
    bench
}

fn active() -> ActiveCopy {
    ActiveCopy {
        name: "copper hydroxide".to_owned(),
        content_mg: Some(300_000),
        content_typed: "300 g/kg".to_owned(),
        codes: vec!["M01".to_owned()],
    }
}

fn lots(phone: &mut Phone, bench: PlaceId) -> LotId {
    let lot = phone.receive(ReceiveLot {
        plants: 12,
        stands: 9,
        place: Some(bench),
        class: Some(PieceClass::Flowering),
        source: Source::Bought,
        from: "somebody".to_owned(),
        outside_ref: "A 12".to_owned(),
        potted_on: Some(day("2025-09-30")),
        note: "two lines\nof it".to_owned(),
        ..named("Cymbidium lowianum var. concolor 'Dawn'")
    });
    let note = String::new();
    let name = PlantName::from_typed("× Brassocattleya gx 'First Light'");
    phone.act(Command::SplitLot {
        from: lot,
        plants: 2,
        stands: 2,
        place: Some(bench),
        why: SplitWhy::Quarantined,
    });
    phone.act(Command::NameLot { lot, name });
    phone.act(Command::RecodeLot { lot, code: None });
    let to = *phone.state.facts().places.keys().last().unwrap();
    phone.act(Command::MoveLot { lot, to });
    phone.act(Command::CountLot {
        lot,
        plants: 11,
        stands: 8,
    });
    phone.act(Command::LoseFromLot {
        lot,
        plants: 1,
        stands: 1,
        cause: LossCause::Rot,
        note: "soft".to_owned(),
    });
    phone.act(Command::SellFromLot {
        lot,
        plants: 1,
        stands: 1,
        to: "somebody else".to_owned(),
        price_cents: Some(2_450),
        note: note.clone(),
    });
    phone.act(Command::GainInLot {
        lot,
        plants: 2,
        stands: 0,
        why: GainWhy::Offshoot,
        note,
    });
    lot
}

fn potting(phone: &Phone, stands: u32) -> Potting {
    let facts = phone.state.facts();
    let (pot, mix) = (facts.pots.keys().next(), facts.mixes.keys().next());
    let layers = Layers {
        stone: Length::from_mm(32),
        headspace: Length::from_mm(15),
    };
    let potting =
        velamen_core::view::potting::potting_of(facts, pot.copied(), mix.copied(), layers, stands);
    Potting {
        mix_batch: "M 3".to_owned(),
        stone_batch: "S 1".to_owned(),
        ..potting.unwrap()
    }
}

fn at_the_bench(phone: &mut Phone, bench: PlaceId, lot: LotId) {
    let in_pots = potting(phone, 5);
    phone.act(Command::OnDay {
        on: day("2027-03-01"),
        command: Box::new(Command::RepotLot {
            lot,
            stands: 5,
            potting: in_pots,
            class: Some(PieceClass::Starter),
        }),
    });
    phone.act(Command::ConfirmHygiene {
        tool_change: ToolChange::BetweenPlants,
        tools: None,
    });
    let clump = phone.open_clump(&[lot]);
    let pieces = PieceClass::ALL.map(|class| CountedPieces {
        class,
        plants: 4,
        bulbs: (class == PieceClass::BackBulb).then_some(5),
    });
    phone.act(Command::TakePieces {
        clump,
        pieces: pieces.to_vec(),
    });
    let kept = PieceClass::ALL.into_iter().filter(|class| class.is_kept());
    let batches = kept.map(|class| Batch {
        class,
        code: None,
        name: None,
        plants: 4,
        stands: if class == PieceClass::BrokenShoot {
            0
        } else {
            2
        },
        with: (class == PieceClass::BrokenShoot).then_some(lot),
        potting: potting(phone, 2),
        place: Some(bench),
    });
    let batches: Vec<Batch> = batches.collect();
    phone.act(Command::PotPieces { clump, batches });
    phone.act(Command::CloseDivision {
        clump,
        how: ClosedHow::Done,
        dirty_pots: 8,
        note: "old roots".to_owned(),
    });
}

fn care(phone: &mut Phone, bench: PlaceId, lot: LotId) {
    let lot = *phone
        .state
        .facts()
        .lots
        .keys()
        .find(|id| **id != lot)
        .unwrap();
    let product = phone.state.facts().products.keys().next().copied();
    let treated = TreatedPart::Lot { lot, plants: 2 };
    let done = phone.act(Command::RecordTreatment(RecordTreatment {
        place: Some(bench),
        water_ul: Some(10_000_000),
        amount_mg: Some(20_000),
        started_ms: Some(phone.now_ms),
        ended_ms: Some(phone.now_ms + 900_000),
        soak_s: Some(600),
        soaked_s: Some(615),
        until_ms: Some(phone.now_ms + 86_400_000),
        person: "A.".to_owned(),
        reason: "spreads".to_owned(),
        ..velamen_tests::treatment(vec![treated], AgentClass::Bacterium, copy(product))
    }));
    let Event::Treated(mut event) = done.events[0].clone() else {
        panic!("a treatment");
    };
    (event.licence, event.gear) = ("L 1".to_owned(), "gloves".to_owned());
    (event.weather, event.disposal) = ("still".to_owned(), "none left".to_owned());
    phone.act(Command::Amend {
        target: done.entry,
        index: 0,
        event: Event::Treated(event),
        why: "the rest of the record".to_owned(),
    });
    phone.act(Command::RecordFinding(RecordFinding {
        on: SeenOn::Lot(lot),
        sign: "soft_spot".to_owned(),
        part: "leaf".to_owned(),
        agent: Some(AgentClass::Bacterium),
        affected: Some(1),
        looked_at: Some(2),
        severity: None,
        urgency: Urgency::Today,
        photos: vec![PhotoRef {
            sha256: "ab".repeat(32),
            bytes: 81_234,
            media_type: "image/jpeg".to_owned(),
        }],
        note: String::new(),
    }));
    phone.act(Command::Observe {
        lots: vec![lot],
        what: Sight::FirstOpen,
        good: Some(4),
        note: String::new(),
    });
    phone.act(Command::NoteTask {
        task: None,
        text: "order labels".to_owned(),
        due_on: day("2027-04-01"),
        repeat_days: Some(30),
        lot: Some(lot),
        place: Some(bench),
    });
    let put_off = TaskAnswer::PutOff {
        to: day("2027-05-01"),
    };
    let outcome = Some(Outcome::NeedsMore);
    for answer in [put_off, TaskAnswer::Done { outcome }, TaskAnswer::NotNeeded] {
        let tasks: Vec<_> = derive::of_lot(phone.state.facts(), lot);
        phone.act(Command::DecideTasks {
            tasks: tasks.into_iter().take(2).collect(),
            answer,
            why: "as seen".to_owned(),
        });
    }
}

fn copy(product: Option<ProductId>) -> ProductCopy {
    ProductCopy {
        product,
        label_name: "Copper, as labelled".to_owned(),
        registration: "R 1".to_owned(),
        actives: vec![active()],
        rate_typed: "2 g/L".to_owned(),
        batch: "B 9".to_owned(),
        reentry_h: Some(24),
        container: None,
    }
}

/// A second phone with the first one's prefix, a slip undone, a clock put right, a question answered.
fn book(phone: &mut Phone, lot: LotId) {
    let mut second = Phone::new(8, "2027-03-12");
    second.take_in(&phone.hand_over());
    second.act(Command::JoinPhone {
        prefix: Prefix::pick(7),
        name: "second".to_owned(),
    });
    let slip = second.act(Command::CountLot {
        lot,
        plants: 3,
        stands: 1,
    });
    second.act(Command::Withdraw {
        targets: vec![slip.entry],
        with_dependents: false,
        why: WithdrawWhy::Undone,
        note: "wrong lot".to_owned(),
    });
    phone.take_in(&second.hand_over());
    phone.act(Command::CorrectClock {
        dev: second.dev,
        from_seq: 1,
        to_seq: 2,
        shift_ms: -60_000,
    });
    let open = phone.state.anomalies();
    phone.act(Command::Settle {
        subject: open[0].subject(),
        anomaly: open[0].key(),
        note: "she takes another".to_owned(),
    });
}

/// The same with everything left out that may be, since what is not said is not written either.
fn bare(phone: &mut Phone) {
    let lot = phone.receive(named(""));
    let bench = phone.place("Warm house", Warmth::Warm);
    phone.act(Command::SetProduct {
        product: None,
        traits: ProductTraits {
            label_name: Some("Soap".to_owned()),
            ..ProductTraits::default()
        },
    });
    let product = ProductCopy {
        label_name: "Soap".to_owned(),
        ..ProductCopy::default()
    };
    let parts = vec![TreatedPart::Lot { lot, plants: 1 }];
    let treatment = velamen_tests::treatment(parts, AgentClass::Insect, product);
    phone.act(Command::RecordTreatment(treatment));
    phone.act(Command::RecordFinding(RecordFinding {
        on: SeenOn::Place(bench),
        sign: "web".to_owned(),
        part: String::new(),
        agent: None,
        affected: None,
        looked_at: None,
        severity: None,
        urgency: Urgency::Watch,
        photos: Vec::new(),
        note: String::new(),
    }));
    phone.act(Command::NoteTask {
        task: None,
        text: "sweep".to_owned(),
        due_on: day("2027-04-01"),
        repeat_days: None,
        lot: None,
        place: None,
    });
    phone.act(Command::Observe {
        lots: vec![lot],
        what: Sight::Resting,
        good: None,
        note: String::new(),
    });
    let open = velamen_core::command::OpenDivision {
        tray: 30,
        unbooked_pots: 1,
        ..velamen_core::command::OpenDivision::default()
    };
    let opened = phone.act(Command::OpenDivision(open));
    let Event::DivisionOpened(opened) = &opened.events[0] else {
        panic!("a clump");
    };
    let clump = opened.clump;
    let class = PieceClass::Starter;
    let pieces = CountedPieces {
        class,
        plants: 1,
        bulbs: None,
    };
    let batch = Batch {
        class,
        code: None,
        name: None,
        plants: 1,
        stands: 1,
        with: None,
        potting: Potting::default(),
        place: None,
    };
    let pieces = vec![pieces];
    let batches = vec![batch];
    phone.act(Command::TakePieces { clump, pieces });
    phone.act(Command::PotPieces { clump, batches });
    phone.act(Command::CloseDivision {
        clump,
        how: ClosedHow::Done,
        dirty_pots: 0,
        note: String::new(),
    });
    let to = bench;
    phone.act(Command::MoveLot { lot, to });
    phone.act(Command::SellFromLot {
        lot,
        plants: 1,
        stands: 1,
        to: String::new(),
        price_cents: None,
        note: String::new(),
    });
    let sold = phone.state.log().in_order().next_back().unwrap().id;
    phone.act(Command::Withdraw {
        targets: vec![sold],
        with_dependents: false,
        why: WithdrawWhy::Twice,
        note: String::new(),
    });
}
