//! Pots and stone from dirty to clean, what a virus keeps apart, and which tool cut what.

use velamen_core::clean::{cut_order, next_tool};
use velamen_core::command::{Command, RecordFinding, Sanitise};
use velamen_core::event::{
    AgentClass, ClosedHow, Event, Material, Object, PieceClass, Potting, SeenOn, Stage, ToolChange,
    Urgency, WithdrawWhy,
};
use velamen_core::id::{LotId, PlaceId, PotId, Subject};
use velamen_core::potting::Layers;
use velamen_core::quantity::Length;
use velamen_core::rejection::{Caution, Rejection};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::view::potting::potting_of;
use velamen_core::view::wash::{self, WashView};
use velamen_tests::Phone;

use crate::scene::{batch, nursery, pieces};

fn day_one() -> (Phone, PlaceId, PotId) {
    let (phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-03-15");
    let pot = *phone.state.facts().pots.keys().next().unwrap();
    (phone, bench, pot)
}

/// Three pots of a kind with a finger of stone in each.
fn potted(phone: &mut Phone, pot: PotId, bench: PlaceId, plants: u32) -> (LotId, i64) {
    let lot = phone.lot("Cymbidium Showgirl", plants, bench);
    let layers = Layers {
        stone: Length::from_mm(20),
        headspace: Length::from_mm(10),
    };
    let potting = potting_of(phone.state.facts(), Some(pot), None, layers, plants).unwrap();
    let stone_ul = potting.stone_ul;
    phone.act(Command::RepotLot {
        lot,
        stands: plants,
        potting,
        class: None,
    });
    (lot, stone_ul)
}

/// Divides all of a lot and closes the clump; its pots are dirty.
fn divide(
    phone: &mut Phone,
    lot: LotId,
    bench: PlaceId,
    potting: &Potting,
) -> (Subject, Vec<Event>) {
    let plants = u32::try_from(phone.state.facts().lots[&lot].plants).unwrap();
    let clump = phone.open_clump(&[lot]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Starter, 4)],
    });
    let mut of = batch(PieceClass::Starter, 4, bench);
    of.potting = potting.clone();
    phone.act(Command::PotPieces {
        clump,
        batches: vec![of],
    });
    let closed = phone.act(Command::CloseDivision {
        clump,
        how: ClosedHow::Done,
        dirty_pots: plants,
        note: String::new(),
    });
    (Subject::Clump(clump), closed.events)
}

fn go_on(moved: Vec<Material>, from: Stage, to: Stage, apart: Option<Subject>) -> Command {
    Command::MoveMaterials {
        moved,
        from,
        to,
        apart,
        note: String::new(),
    }
}

fn at(view: &WashView, stage: Stage) -> Vec<Material> {
    let row = view.stages.iter().find(|row| row.stage == stage).unwrap();
    row.piles.iter().map(|pile| pile.material.clone()).collect()
}

fn chlorine(materials: Vec<Material>, contact_s: u32, apart: Option<Subject>) -> Command {
    Command::Sanitise(Sanitise {
        what: Object::Pots,
        materials,
        agent: "chlorine".to_owned(),
        strength_ppm: Some(5_000),
        wanted_s: Some(1_800),
        contact_s: Some(contact_s),
        cleaned_first: true,
        apart,
        ..Sanitise::default()
    })
}

fn suspect(phone: &mut Phone, lot: LotId) {
    phone.act(Command::RecordFinding(RecordFinding {
        on: SeenOn::Lot(lot),
        sign: "streaks".to_owned(),
        part: String::new(),
        agent: Some(AgentClass::Virus),
        affected: None,
        looked_at: None,
        severity: None,
        urgency: Urgency::Today,
        photos: Vec::new(),
        note: String::new(),
    }));
}

#[test]
fn emptied_pots_and_their_stone_are_counted_and_go_through_the_wash_to_the_next_repot() {
    let (mut phone, bench, pot) = day_one();
    let (lot, stone_ul) = potted(&mut phone, pot, bench, 3);
    // Potting on emptied three pots of which nobody knew the kind.
    assert_eq!(
        at(&wash::wash(&phone.state), Stage::Dirty),
        [Material::pots_called("", 3)]
    );
    divide(&mut phone, lot, bench, &Potting::default());
    let dirty = at(&wash::wash(&phone.state), Stage::Dirty);
    let (pots, stone) = (Material::pots_of(pot, 3), Material::stone(stone_ul));
    assert_eq!(dirty, [pots.clone(), Material::pots_called("", 3), stone]);
    assert_eq!(
        wash::clean_pots(&phone.state, pot),
        None,
        "nobody counts them yet"
    );

    let row = || vec![Material::pots_of(pot, 3)];
    phone.act(go_on(row(), Stage::Dirty, Stage::Washed, None));
    phone.act(chlorine(row(), 900, None));
    let view = wash::wash(&phone.state);
    assert_eq!(
        at(&view, Stage::Washed),
        row(),
        "too short: they go in again"
    );
    phone.act(chlorine(row(), 1_860, None));
    assert_eq!(at(&wash::wash(&phone.state), Stage::Disinfected), row());
    phone.act(go_on(row(), Stage::Disinfected, Stage::Clean, None));
    assert_eq!(wash::clean_pots(&phone.state, pot), Some(3));
    assert_eq!(wash::wash(&phone.state).reused_pots, 3);

    // The next clump takes four: only three are counted, and nothing stands in the way.
    let next = phone.lot("Zygopetalum maculatum", 1, bench);
    let potting = Potting {
        pot: Some(pot),
        ..Potting::default()
    };
    let clump = phone.open_clump(&[next]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Starter, 4)],
    });
    let mut of = batch(PieceClass::Starter, 4, bench);
    of.potting = potting;
    let done = phone.act(Command::PotPieces {
        clump,
        batches: vec![of],
    });
    let few = Caution::FewCleanPots {
        pot,
        clean: 3,
        wanted: 4,
    };
    assert_eq!(done.cautions, [few]);
    assert_eq!(wash::clean_pots(&phone.state, pot), Some(0));
    phone.act(Command::Withdraw {
        targets: vec![done.entry],
        with_dependents: true,
        why: WithdrawWhy::Undone,
        note: String::new(),
    });
    assert_eq!(
        wash::clean_pots(&phone.state, pot),
        Some(3),
        "undone, they stand there again"
    );
}

#[test]
fn new_pots_go_straight_to_the_clean_ones_and_more_than_there_are_is_refused() {
    let (mut phone, _, pot) = day_one();
    phone.act(go_on(
        vec![Material::pots_of(pot, 50)],
        Stage::New,
        Stage::Clean,
        None,
    ));
    assert_eq!(wash::clean_pots(&phone.state, pot), Some(50));
    let view = wash::wash(&phone.state);
    assert_eq!(view.reused_pots, 0, "what is new saved nothing");
    let more = phone.refusal(go_on(
        vec![Material::pots_of(pot, 30), Material::pots_of(pot, 30)],
        Stage::Clean,
        Stage::Discarded,
        None,
    ));
    let few = Rejection::FewerThere {
        stage: Stage::Clean,
        left: 50,
        stone: false,
    };
    assert_eq!(more, few);
    let nothing = go_on(
        vec![Material::pots_of(pot, 0)],
        Stage::New,
        Stage::Clean,
        None,
    );
    assert!(matches!(phone.refusal(nothing), Rejection::Missing { .. }));
    let nowhere = go_on(
        vec![Material::pots_of(pot, 1)],
        Stage::New,
        Stage::InUse,
        None,
    );
    assert_eq!(phone.refusal(nowhere), Rejection::NothingToDo);
    phone.act(go_on(
        vec![Material::stone(4_000_000)],
        Stage::New,
        Stage::Clean,
        None,
    ));
    let lake = go_on(
        vec![Material::stone(9_000_000_000)],
        Stage::New,
        Stage::Clean,
        None,
    );
    assert!(matches!(phone.refusal(lake), Rejection::OutOfRange { .. }));
    assert_eq!(wash::clean_stone(&phone.state).unwrap().ul(), 4_000_000);
}

#[test]
fn what_comes_of_a_suspected_clump_stays_apart_until_the_oven_or_the_bin() {
    let (mut phone, bench, pot) = day_one();
    let (lot, stone_ul) = potted(&mut phone, pot, bench, 2);
    suspect(&mut phone, lot);
    let (source, _) = divide(&mut phone, lot, bench, &Potting::default());
    let view = wash::wash(&phone.state);
    let [apart] = view.apart.as_slice() else {
        panic!("one batch apart: {view:?}")
    };
    assert_eq!(apart.source, source);
    assert!(!at(&view, Stage::Dirty).contains(&Material::pots_of(pot, 2)));

    let stone = || vec![Material::stone(stone_ul)];
    let apart = Some(source);
    phone.act(go_on(stone(), Stage::Dirty, Stage::Washed, apart));
    let mut bleach = Sanitise {
        what: Object::Stone,
        materials: stone(),
        agent: "chlorine".to_owned(),
        wanted_s: Some(1_800),
        contact_s: Some(1_800),
        apart,
        ..Sanitise::default()
    };
    phone.act(Command::Sanitise(bleach.clone()));
    let joined = phone.refusal(go_on(stone(), Stage::Disinfected, Stage::Clean, apart));
    assert_eq!(joined, kept_apart(0, true), "chlorine is not enough for it");

    phone.act(go_on(stone(), Stage::Disinfected, Stage::Washed, apart));
    bleach.agent = "oven".to_owned();
    bleach.wanted_s = Some(3_600);
    bleach.contact_s = Some(600);
    phone.act(Command::Sanitise(bleach.clone()));
    let early = phone.refusal(go_on(stone(), Stage::Washed, Stage::Clean, apart));
    assert_eq!(early, kept_apart(0, true), "ten minutes are not an hour");
    bleach.contact_s = Some(3_600);
    phone.act(Command::Sanitise(bleach));
    phone.act(go_on(stone(), Stage::Disinfected, Stage::Clean, apart));
    assert_eq!(wash::clean_stone(&phone.state).unwrap().ul(), stone_ul);

    let pots = vec![Material::pots_of(pot, 2)];
    phone.act(go_on(pots, Stage::Dirty, Stage::Discarded, apart));
    let view = wash::wash(&phone.state);
    assert_eq!((view.apart.len(), view.discarded_pots), (0, 2));
}

fn kept_apart(freed: i64, stone: bool) -> Rejection {
    Rejection::KeptApart { freed, stone }
}

#[test]
fn of_a_suspected_batch_only_so_many_join_the_clean_ones_as_went_through_the_heat() {
    let (mut phone, bench, pot) = day_one();
    let (lot, _) = potted(&mut phone, pot, bench, 30);
    suspect(&mut phone, lot);
    let (source, _) = divide(&mut phone, lot, bench, &Potting::default());
    let apart = Some(source);
    let pots = |count| vec![Material::pots_of(pot, count)];
    phone.act(go_on(pots(30), Stage::Dirty, Stage::Washed, apart));
    let oven = |contact_s| {
        Command::Sanitise(Sanitise {
            what: Object::Pots,
            materials: pots(10),
            agent: "oven".to_owned(),
            wanted_s: Some(contact_s),
            contact_s: Some(contact_s),
            apart,
            ..Sanitise::default()
        })
    };
    // Ten minutes, though nobody wanted more, reach nothing.
    phone.act(oven(600));
    let join = |count| go_on(pots(count), Stage::Disinfected, Stage::Clean, apart);
    assert_eq!(phone.refusal(join(1)), kept_apart(0, false));
    phone.act(go_on(pots(10), Stage::Disinfected, Stage::Washed, apart));
    phone.act(oven(3_600));
    phone.act(chlorine(pots(20), 1_800, apart));
    for count in [30, 11] {
        assert_eq!(phone.refusal(join(count)), kept_apart(10, false));
    }
    let rows = vec![Material::pots_of(pot, 6), Material::pots_of(pot, 5)];
    let in_rows = go_on(rows, Stage::Disinfected, Stage::Clean, apart);
    assert_eq!(phone.refusal(in_rows), kept_apart(10, false));
    let from_the_wash = go_on(pots(1), Stage::Uncounted, Stage::Clean, apart);
    assert_eq!(phone.refusal(from_the_wash), kept_apart(0, false));
    let mut taken_away = phone.clone();
    phone.act(join(10));
    assert_eq!(wash::clean_pots(&phone.state, pot), Some(10));
    assert_eq!(phone.refusal(join(1)), kept_apart(0, false));
    // What is taken off the pile may be what was heated: nobody can tell.
    taken_away.act(go_on(pots(4), Stage::Disinfected, Stage::Discarded, apart));
    assert_eq!(taken_away.refusal(join(7)), kept_apart(6, false));
    taken_away.act(join(6));
}

#[test]
fn a_suspicion_that_comes_late_says_whose_pots_are_among_the_others() {
    let (mut phone, bench, pot) = day_one();
    let (lot, _) = potted(&mut phone, pot, bench, 2);
    divide(&mut phone, lot, bench, &Potting::default());
    assert_eq!(wash::wash(&phone.state).among, []);
    suspect(&mut phone, lot);
    let view = wash::wash(&phone.state);
    assert_eq!(view.among, [(1, phone.today)]);
    assert!(view.apart.is_empty());
}

#[test]
fn two_phones_that_wash_the_same_pots_agree_and_never_show_less_than_nothing() {
    let (mut phone, _, pot) = day_one();
    let row = || vec![Material::pots_of(pot, 5)];
    phone.act(go_on(row(), Stage::Uncounted, Stage::Dirty, None));
    let mut other = Phone::new(9, "2027-03-15");
    other.take_in(&phone.hand_over());
    other.act(Command::JoinPhone {
        prefix: velamen_core::code::Prefix::pick(9),
        name: "second".to_owned(),
    });
    phone.act(go_on(row(), Stage::Dirty, Stage::Washed, None));
    other.act(go_on(row(), Stage::Dirty, Stage::Washed, None));
    phone.take_in(&other.hand_over());
    other.take_in(&phone.hand_over());
    assert_eq!(phone.state.digest(), other.state.digest());
    let view = wash::wash(&phone.state);
    assert_eq!(at(&view, Stage::Dirty), []);
    // Ten stand there by the book: somebody counts and says that five are missing.
    phone.act(go_on(row(), Stage::Washed, Stage::Uncounted, None));
    assert_eq!(at(&wash::wash(&phone.state), Stage::Washed), row());
}

#[test]
fn tools_alternate_between_clumps_and_the_exception_is_tapped() {
    let (mut phone, bench, _) = day_one();
    let lots: Vec<LotId> = (0..4)
        .map(|_| phone.lot("Lycaste skinneri", 1, bench))
        .collect();
    let first = next_tool(&phone.state, &phone.moment(), false);
    assert_eq!(first.cut_before, None, "nobody said the tools were clean");
    phone.act(Command::ConfirmHygiene {
        tool_change: ToolChange::BetweenClumps,
        tools: Some(2),
    });
    let open = |phone: &mut Phone, at: usize, same_tool: bool| {
        let opening = velamen_core::command::OpenDivision {
            tray: u32::try_from(at + 1).unwrap(),
            lots: vec![velamen_core::event::OpenedLot {
                lot: lots[at],
                plants: 1,
                stands: 1,
            }],
            same_tool,
            ..Default::default()
        };
        phone.act(Command::OpenDivision(opening));
    };
    open(&mut phone, 0, false);
    open(&mut phone, 1, false);
    open(&mut phone, 2, true);
    open(&mut phone, 3, false);
    let order: Vec<(u32, String, Option<u32>)> = cut_order(&phone.state, phone.today)
        .into_iter()
        .map(|cut| (cut.tray, cut.tool.mark, cut.tool.cut_before))
        .collect();
    let tool = |tray, mark: &str, before| (tray, mark.to_owned(), Some(before));
    assert_eq!(
        order,
        [
            tool(1, "1", 0),
            tool(2, "2", 0),
            tool(3, "2", 1),
            tool(4, "1", 0)
        ]
    );
}

#[test]
fn without_a_word_about_tools_every_clump_is_cut_with_what_cut_the_one_before() {
    let (mut phone, bench, _) = day_one();
    for _ in 0..3 {
        let lot = phone.lot("Lycaste skinneri", 1, bench);
        phone.open_clump(&[lot]);
    }
    let before: Vec<Option<u32>> = cut_order(&phone.state, phone.today)
        .into_iter()
        .map(|cut| cut.tool.cut_before)
        .collect();
    assert_eq!(before, [None, Some(1), Some(2)]);
}

#[test]
fn a_strength_over_the_whole_and_a_contact_of_three_days_are_refused() {
    let (mut phone, _, _) = day_one();
    let tools = |strength_ppm, wanted_s| {
        Command::Sanitise(Sanitise {
            what: Object::Tools,
            agent: "chlorine".to_owned(),
            strength_ppm: Some(strength_ppm),
            wanted_s: Some(wanted_s),
            ..Sanitise::default()
        })
    };
    for (ppm, s) in [(1_000_001, 60), (0, 60), (5_000, 3 * 86_400)] {
        assert!(matches!(
            phone.refusal(tools(ppm, s)),
            Rejection::OutOfRange { .. }
        ));
    }
    phone.act(tools(5_000, 60));
    assert_eq!(wash::cleanings(&phone.state, 9).len(), 1);
}
