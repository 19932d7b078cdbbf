//! What is put right afterwards meets the limits it met when it was said.

use velamen_core::command::{
    Command, CountedPieces, EnterQuarantine, OpenDivision, PlaceTraits, ProductTraits, RecordTest,
    Sanitise,
};
use velamen_core::event::{
    ActiveCopy, AgentClass, BookSet, Event, LabelUse, PhotoRef, PieceClass, ProductCopy,
    RecordRule, SeenOn, TestMethod, TestResult, Tissue, ToolChange, TreatedPart, Virus,
};
use velamen_core::finding_draft::FindingDraft;
use velamen_core::id::{ClumpId, EntryRef, LotId};
use velamen_core::limits;
use velamen_core::quantity::{Amount, Volume};
use velamen_core::reference::actives::CodeList;
use velamen_core::rejection::{Input, Rejection};
use velamen_core::rotation::{CodeRule, RotationRules};
use velamen_core::time::plus_days;
use velamen_tests::{Phone, day, treatment};

use super::{Edge, Row, bench, each, hold, many, most, of, product, range, row};

/// An event of the book, as it reads.
#[derive(Clone)]
struct Said {
    entry: EntryRef,
    index: u16,
    event: Event,
}

/// Records something, and keeps the first event of that name it became.
fn said(phone: &mut Phone, name: &str, command: Command) -> Said {
    let done = phone.act(command);
    let mut events = (0u16..).zip(done.events);
    let found = events.find(|(_, event)| event.wire_name() == name);
    let (index, event) = found.unwrap();
    Said {
        entry: done.entry,
        index,
        event,
    }
}

/// The correction that makes a figure of an event another one.
macro_rules! again {
    ($said:expr, $variant:ident, |$it:ident, $figure:ident| $change:expr) => {{
        let said: Said = $said.clone();
        move |$figure: i64| {
            let mut event = said.event.clone();
            let Event::$variant($it) = &mut event else {
                panic!("{event:?}")
            };
            $change;
            Command::Amend {
                target: said.entry,
                index: said.index,
                event,
                why: String::new(),
            }
        }
    }};
}

#[test]
fn what_was_set_of_the_nursery_and_its_shelf() {
    let (mut phone, place, _) = bench();
    let thirty = product(&mut phone);
    let label = said(
        &mut phone,
        "product_set",
        Command::SetProduct {
            product: Some(thirty),
            traits: ProductTraits {
                registration: Some("00-17".to_owned()),
                ..ProductTraits::default()
            },
        },
    );
    let bench = said(
        &mut phone,
        "place_set",
        Command::SetPlace {
            place: Some(place),
            name: None,
            walk: Some(7),
            about: PlaceTraits::default(),
        },
    );
    let money = BookSet {
        money: Some("EUR".to_owned()),
        ..BookSet::default()
    };
    let book = said(&mut phone, "book_set", Command::SetBook(money));
    let rule = |at: i64| CodeRule {
        list: CodeList::Frac,
        code: format!("{at}"),
        in_a_row: None,
        per_year: None,
        together_days: None,
        breaks_no_run: false,
    };
    let table = Command::SetRotation(RotationRules {
        rows: vec![rule(0)],
    });
    let table = said(&mut phone, "rotation_set", table);
    let used = |at| LabelUse {
        key: format!("use-{at}"),
        ..LabelUse::default()
    };
    let active = |at: i64| ActiveCopy {
        name: format!("active {at}"),
        ..ActiveCopy::default()
    };
    let rows = vec![
        row(
            "USES_MAX, put right",
            most(limits::USES_MAX),
            many(Input::Text, limits::USES_MAX),
            again!(label, ProductSet, |it, n| it.uses = Some(each(n, used))),
        ),
        row(
            "SOAK_S_MAX, on a label, put right",
            most(limits::SOAK_S_MAX),
            range(Input::Soak, 0, limits::SOAK_S_MAX / 60),
            again!(label, ProductSet, |it, n| {
                it.uses = Some(vec![LabelUse {
                    soak_s: Some(of(n)),
                    ..used(0)
                }]);
            }),
        ),
        row(
            "ACTIVES_MAX, put right",
            most(limits::ACTIVES_MAX),
            many(Input::Text, limits::ACTIVES_MAX),
            again!(label, ProductSet, |it, n| it.actives =
                Some(each(n, active))),
        ),
        row(
            "OWN_DAYS_MAX, put right",
            most(limits::OWN_DAYS_MAX),
            range(Input::Days, 0, limits::OWN_DAYS_MAX),
            again!(bench, PlaceSet, |it, n| it.water_days = Some(of(n))),
        ),
        row(
            "how far a walk goes, put right",
            Edge::Most(1_000_000),
            range(Input::Walk, 0, 1_000_000),
            again!(bench, PlaceSet, |it, n| it.walk = Some(of(n))),
        ),
        row(
            "KEEP_MONTHS_MAX, put right",
            most(limits::KEEP_MONTHS_MAX),
            range(Input::KeepMonths, 0, limits::KEEP_MONTHS_MAX),
            again!(book, BookSet, |it, n| {
                it.record = Some(RecordRule {
                    keep_months: Some(of(n)),
                    ..RecordRule::default()
                });
            }),
        ),
        row(
            "how far north a book is, put right",
            Edge::Most(9_000),
            range(Input::Latitude, -90, 90),
            again!(book, BookSet, |it, n| it.latitude_cdeg = Some(of(n))),
        ),
        row(
            "ROTATION_ROWS_MAX, put right",
            most(limits::ROTATION_ROWS_MAX),
            many(Input::Code, limits::ROTATION_ROWS_MAX),
            again!(table, RotationSet, |it, n| it.rules.rows = each(n, rule)),
        ),
    ];
    hold(&phone, rows);
}

/// A clump of two pots nobody booked, with three pieces off it.
fn clump(phone: &mut Phone) -> (ClumpId, Said, Said) {
    let opened = said(
        phone,
        "division_opened",
        Command::OpenDivision(OpenDivision {
            tray: 9,
            unbooked_pots: 2,
            ..OpenDivision::default()
        }),
    );
    let Event::DivisionOpened(it) = &opened.event else {
        panic!("{:?}", opened.event)
    };
    let clump = it.clump;
    let taken = Command::TakePieces {
        clump,
        pieces: vec![CountedPieces {
            class: PieceClass::Starter,
            plants: 3,
            bulbs: None,
        }],
    };
    (clump, opened, said(phone, "pieces_taken", taken))
}

#[test]
fn what_was_done_at_the_bench_and_in_the_wash() {
    let (mut phone, ..) = bench();
    let tools = Command::ConfirmHygiene {
        tool_change: ToolChange::BetweenPlants,
        tools: None,
    };
    let tools = said(&mut phone, "hygiene_confirmed", tools);
    let (_, opened, taken) = clump(&mut phone);
    let wash = said(
        &mut phone,
        "sanitised",
        Command::Sanitise(Sanitise {
            agent: "heat".to_owned(),
            ..Sanitise::default()
        }),
    );
    let pieces = most(limits::PIECES_MAX);
    let soak = most(limits::SOAK_S_MAX);
    let long = range(Input::Soak, 0, limits::SOAK_S_MAX / 60);
    let rows = vec![
        row(
            "TOOLS_MAX, put right",
            most(limits::TOOLS_MAX),
            range(Input::Tools, 2, limits::TOOLS_MAX),
            again!(tools, HygieneConfirmed, |it, n| it.tools = Some(of(n))),
        ),
        row(
            "PIECES_MAX, pots nobody booked, put right",
            pieces,
            many(Input::Pots, limits::PIECES_MAX),
            again!(opened, DivisionOpened, |it, n| it.unbooked_pots = of(n)),
        ),
        row(
            "a tag on the tray, put right",
            Edge::Least(1),
            Rejection::Missing { input: Input::Tray },
            again!(opened, DivisionOpened, |it, n| it.tray = of(n)),
        ),
        row(
            "PIECES_MAX, taken off, put right",
            pieces,
            many(Input::Pieces, limits::PIECES_MAX),
            again!(taken, PiecesTaken, |it, n| it.plants = of(n)),
        ),
        row(
            "PIECES_MAX, of another class, put right",
            pieces,
            many(Input::Pieces, limits::PIECES_MAX),
            again!(taken, PiecesTaken, |it, n| {
                (it.class, it.plants) = (PieceClass::Flowering, of(n));
            }),
        ),
        row(
            "SOAK_S_MAX, wanted, put right",
            soak,
            long.clone(),
            again!(wash, Sanitised, |it, n| it.wanted_s = Some(of(n))),
        ),
        row(
            "SOAK_S_MAX, lain, put right",
            soak,
            long,
            again!(wash, Sanitised, |it, n| it.contact_s = Some(of(n))),
        ),
    ];
    hold(&phone, rows);
}

#[test]
fn pieces_are_not_put_right_to_fewer_than_are_potted_nor_a_lot_to_more_than_there_is() {
    let (mut phone, place, lot) = bench();
    let (id, _, taken) = clump(&mut phone);
    phone.act(Command::PotPieces {
        clump: id,
        batches: vec![velamen_core::command::Batch {
            class: PieceClass::Starter,
            code: None,
            name: None,
            plants: 2,
            stands: 2,
            with: None,
            potting: velamen_core::event::Potting::default(),
            place: Some(place),
        }],
    });
    let opened = said(
        &mut phone,
        "division_opened",
        Command::OpenDivision(OpenDivision {
            tray: 10,
            lots: vec![velamen_core::event::OpenedLot {
                lot,
                plants: 4,
                stands: 4,
            }],
            ..OpenDivision::default()
        }),
    );
    let potted = Rejection::FewerThanPotted {
        class: PieceClass::Starter,
        potted: 2,
    };
    let there = Rejection::MoreThanThereAre {
        lot,
        plants: 6,
        stands: 6,
    };
    let rows = vec![
        row(
            "pieces that are potted",
            Edge::Least(2),
            potted,
            again!(taken, PiecesTaken, |it, n| {
                (it.plants, it.bulbs) = (of(n), Some(9));
            }),
        ),
        row(
            "plants brought to the bench",
            Edge::Most(10),
            there,
            again!(opened, DivisionOpened, |it, n| it.lots[0].plants = of(n)),
        ),
    ];
    hold(&phone, rows);
}

/// A dip of one plant, and what became of its bath.
fn treated(phone: &mut Phone, lot: LotId) -> [Said; 3] {
    let copy = ProductCopy {
        label_name: "Thirty".to_owned(),
        ..ProductCopy::default()
    };
    let parts = vec![TreatedPart::Lot { lot, plants: 1 }];
    let record = Command::RecordTreatment(treatment(parts, AgentClass::Fungus, copy));
    let dipped = said(phone, "treated", record);
    let Event::Treated(it) = &dipped.event else {
        panic!("{:?}", dipped.event)
    };
    let bath = it.treatment;
    let top_up = Command::TopUpBath {
        bath,
        water: Volume::from_ul(7),
        amount: Amount::Volume(Volume::from_ul(7)),
        container: None,
    };
    let topped = said(phone, "bath_topped", top_up);
    let end = Command::EndBath {
        bath,
        left: None,
        disposal: String::new(),
    };
    let ended = said(phone, "bath_ended", end);
    [dipped, topped, ended]
}

#[test]
fn what_was_seen_and_treated() {
    let (mut phone, _, lot) = bench();
    let [dipped, topped, ended] = treated(&mut phone, lot);
    let draft = FindingDraft::default();
    let seen = Command::RecordFinding(draft.finding(SeenOn::Lot(lot), Some("leaf_spots")));
    let seen = said(&mut phone, "found", seen);
    let long = range(Input::Soak, 0, limits::SOAK_S_MAX / 60);
    let soak = most(limits::SOAK_S_MAX);
    let tub = |least| range(Input::Water, least, limits::TUB_UL_MAX / 1_000_000);
    let rows: Vec<Row<'_>> = vec![
        row(
            "SOAK_S_MAX, wanted in a bath, put right",
            soak,
            long.clone(),
            again!(dipped, Treated, |it, n| it.soak_s = Some(of(n))),
        ),
        row(
            "SOAK_S_MAX, lain in a bath, put right",
            soak,
            long,
            again!(dipped, Treated, |it, n| it.soaked_s = Some(of(n))),
        ),
        row(
            "PLANTS_MAX, pots in a bath, put right",
            most(limits::PLANTS_MAX),
            many(Input::Pots, limits::PLANTS_MAX),
            again!(dipped, Treated, |it, n| it.pots = of(n)),
        ),
        row(
            "TUB_UL_MAX, topped up, put right",
            most(limits::TUB_UL_MAX),
            tub(1),
            again!(topped, BathTopped, |it, n| it.water_ul = n),
        ),
        row(
            "CONTAINER_MAX, topped up, put right",
            most(limits::CONTAINER_MAX),
            range(Input::Container, 0, limits::CONTAINER_MAX / 1_000_000),
            again!(topped, BathTopped, |it, n| it.amount_ul = Some(n)),
        ),
        row(
            "TUB_UL_MAX, left, put right",
            most(limits::TUB_UL_MAX),
            tub(0),
            again!(ended, BathEnded, |it, n| it.left_ul = Some(n)),
        ),
        row(
            "PHOTOS_MAX, put right",
            most(limits::PHOTOS_MAX),
            many(Input::Photo, limits::PHOTOS_MAX),
            again!(seen, Found, |it, n| {
                it.photos = each(n, |at: i64| {
                    PhotoRef::of(&at.to_be_bytes(), "image/jpeg").unwrap()
                });
            }),
        ),
        row(
            "how bad it is, put right",
            Edge::Most(5),
            range(Input::Severity, 1, 5),
            again!(seen, Found, |it, n| it.severity = Some(of(n))),
        ),
    ];
    hold(&phone, rows);
}

#[test]
fn what_is_waited_for_and_what_is_still_to_be_done() {
    let (mut phone, _, lot) = bench();
    let stay = Command::EnterQuarantine(EnterQuarantine {
        lots: vec![lot],
        ..EnterQuarantine::default()
    });
    let stay = said(&mut phone, "quarantine_entered", stay);
    let test = Command::RecordTest(RecordTest {
        lot,
        method: TestMethod::Pcr,
        results: vec![(Virus::Orsv, TestResult::Unclear)],
        tissue: Tissue::Leaf,
        pooled: 1,
        laboratory: String::new(),
        note: String::new(),
    });
    let test = said(&mut phone, "virus_tested", test);
    let (today, first) = (phone.today, day(&format!("{}-01-01", limits::FIRST_YEAR)));
    let note = Command::NoteTask {
        task: None,
        text: "order labels".to_owned(),
        due_on: today,
        repeat_days: None,
        lot: None,
        place: None,
    };
    let note = said(&mut phone, "task_noted", note);
    let stays = range(Input::Date, 0, limits::QUARANTINE_DAYS_MAX);
    let last = plus_days(today, limits::AHEAD_DAYS_MAX);
    let rows = vec![
        row(
            "QUARANTINE_DAYS_MAX, put right",
            most(limits::QUARANTINE_DAYS_MAX),
            stays.clone(),
            again!(stay, QuarantineEntered, |it, n| it.until_on =
                Some(plus_days(today, n))),
        ),
        row(
            "QUARANTINE_DAYS_MAX, a test, put right",
            most(limits::QUARANTINE_DAYS_MAX),
            stays,
            again!(stay, QuarantineEntered, |it, n| it.test_days = vec![of(n)]),
        ),
        row(
            "plants in one test, put right",
            Edge::Most(10),
            Rejection::MorePooledThanPlants {
                pooled: 11,
                plants: 10,
            },
            again!(test, VirusTested, |it, n| it.pooled = of(n)),
        ),
        row(
            "AHEAD_DAYS_MAX, due, put right",
            most(limits::AHEAD_DAYS_MAX),
            Rejection::DayOutOfRange { first, last },
            again!(note, TaskNoted, |it, n| it.due_on = plus_days(today, n)),
        ),
        row(
            "AHEAD_DAYS_MAX, repeated, put right",
            most(limits::AHEAD_DAYS_MAX),
            range(Input::Date, 1, limits::AHEAD_DAYS_MAX),
            again!(note, TaskNoted, |it, n| it.repeat_days = Some(of(n))),
        ),
    ];
    hold(&phone, rows);
}
