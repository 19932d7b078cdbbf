//! A bath as it is used: what may share it, how strong the rest is, and when it is thrown out.
//!
//! The balance of the product is held against a simulation of its own, piece by piece in floats. Figures of levels and
//! pieces are examples for tests alone.

use velamen_core::bath::{
    Age, BathDraft, BathFault, Level, LevelFault, Life, SoakState, Suspicion, ThrowOut, TubDraft,
};
use velamen_core::command::{Command, RecordFinding};
use velamen_core::event::{AgentClass, SeenOn, SplitWhy, Urgency};
use velamen_core::id::{Dev, LotId, PlaceId};
use velamen_core::quantity::Volume;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_tests::{Phone, day};

const MS_OF_HOUR: i64 = 3_600_000;

fn tub(litres: &str, levels: Vec<Level>) -> BathDraft {
    BathDraft {
        soak_s: Some(300),
        delay_s: Some(0),
        tub: TubDraft {
            litres: litres.to_owned(),
            ..TubDraft::default()
        },
        life: Life {
            levels,
            ..Life::default()
        },
        ..BathDraft::default()
    }
}

/// What is left of the strength after pieces that each carry out so much, at so many times the bath's strength; filled
/// up to the old level after each piece where that is asked.
fn simulated(litres: f64, pieces: u32, each: f64, k: f64, fill_up: bool) -> f64 {
    let (mut volume, mut product) = (litres, litres);
    // Each piece takes its share in a thousand sips: the strength falls while it drips.
    let sip = each / 1_000.0;
    for _ in 0..pieces {
        for _ in 0..1_000 {
            product -= k * product / volume * sip;
            volume -= sip;
            if fill_up {
                product += sip;
                volume += sip;
            }
        }
    }
    product / volume
}

fn near(permille: u32, share: f64) -> bool {
    (f64::from(permille) - share * 1_000.0).abs() <= 1.0
}

#[test]
fn the_strength_left_is_what_a_simulation_piece_by_piece_comes_to() {
    for (left_ul, pieces) in [(15_000_000, 100), (19_000_000, 20), (4_000_000, 320)] {
        let draft = tub("20", vec![Level::Read { ul: left_ul }]);
        let left = draft.strength_left().expect("a level was read");
        assert!(
            near(
                left.alike_permille,
                simulated(20.0, pieces, 0.05, 1.0, false)
            ),
            "{left:?}"
        );
        assert!(
            near(
                left.faster_permille,
                simulated(20.0, pieces, 0.05, 1.2, false)
            ),
            "{left:?}"
        );
    }
    let hundred = tub("20", vec![Level::Read { ul: 15_000_000 }]).strength_left();
    let left = hundred.expect("a level was read");
    assert_eq!((left.alike_permille, left.faster_permille), (1_000, 944));
}

#[test]
fn filled_up_again_and_again_the_strength_comes_to_rest_at_a_fifth_less() {
    // Five millilitres fall and are filled up, many times over: 1 / 1.2 of the strength is where it stays.
    let mut levels = Vec::new();
    for _ in 0..20_000 {
        levels.push(Level::Read { ul: 19_995_000 });
        levels.push(Level::Added { ul: 5_000 });
    }
    let left = tub("20", levels).strength_left().expect("levels were read");
    assert_eq!((left.alike_permille, left.faster_permille), (1_000, 834));
    assert!(
        near(
            left.faster_permille,
            simulated(20.0, 20_000, 0.005, 1.2, true)
        ),
        "{left:?}"
    );
}

#[test]
fn a_level_is_read_in_litres_or_on_the_side_and_never_above_the_last_one() {
    let mut draft = tub("20", Vec::new());
    assert_eq!((draft.strength_left(), draft.fell()), (None, None));
    draft.life.level_typed = "21".to_owned();
    assert_eq!(draft.read_level(), Err(LevelFault::Higher));
    assert_eq!(draft.life.level_typed, "21", "nothing typed is lost");
    draft.life.level_typed = "16,5".to_owned();
    assert_eq!(draft.read_level(), Ok(()));
    draft.life.pieces = 70;
    assert_eq!(draft.fell(), Some(Volume::from_ul(3_500_000)));
    assert_eq!(draft.per_piece(), Some(Volume::from_ul(50_000)));
    draft.life.level_typed = "0".to_owned();
    assert!(matches!(draft.read_level(), Err(LevelFault::Tub(_))));
}

#[test]
fn a_bath_is_fresh_each_day_and_a_clock_put_back_says_that_its_age_is_unknown() {
    let mut draft = tub("20", Vec::new());
    assert_eq!(draft.age(0), Age::Unknown);
    let mixed_ms = 20_000 * 24 * MS_OF_HOUR + 8 * MS_OF_HOUR;
    draft.mixed(mixed_ms, Dev(1));
    let on = velamen_core::time::civil_day(mixed_ms, 60).expect("a day");
    assert_eq!(draft.age(mixed_ms + 3 * MS_OF_HOUR), Age::Minutes(180));
    assert_eq!(draft.age(mixed_ms - 60_000), Age::ClockBehind);
    assert_eq!(draft.throw_out(on, 60), Vec::new());
    draft.life.dirty = true;
    assert_eq!(draft.throw_out(on, 60), [ThrowOut::Dirty]);
    let next = velamen_core::time::plus_days(on, 1);
    assert_eq!(
        draft.throw_out(next, 60),
        [ThrowOut::DayOver, ThrowOut::Dirty]
    );
    draft.mixed(mixed_ms, Dev(1));
    assert_eq!(
        draft.throw_out(on, 60),
        Vec::new(),
        "mixed anew, it begins anew"
    );
}

fn house() -> (Phone, PlaceId) {
    let mut phone = Phone::new(1, "2027-03-11");
    phone.open_book(Hemisphere::North);
    let place = phone.place("Cool house", Warmth::Cool);
    (phone, place)
}

fn find(phone: &mut Phone, lot: LotId, agent: AgentClass) {
    phone.act(Command::RecordFinding(RecordFinding {
        on: SeenOn::Lot(lot),
        sign: "streaks".to_owned(),
        part: String::new(),
        agent: Some(agent),
        affected: None,
        looked_at: None,
        severity: None,
        urgency: Urgency::Today,
        photos: Vec::new(),
        note: String::new(),
    }));
}

fn with(lots: &[LotId]) -> BathDraft {
    BathDraft {
        lots: lots.to_vec(),
        ..tub("20", Vec::new())
    }
}

#[test]
fn a_virus_suspect_is_refused_a_shared_bath_and_ends_one_of_its_own() {
    let (mut phone, place) = house();
    let sound = phone.lot("Cymbidium tracyanum", 3, place);
    let streaked = phone.lot("Cymbidium lowianum", 2, place);
    find(&mut phone, streaked, AgentClass::Virus);
    let mut shared = with(&[sound, streaked]);
    assert_eq!(shared.start(&phone.state, 0), Err(BathFault::VirusShared));
    assert_eq!(shared.soak, None, "nothing went in");
    let mut used = with(&[streaked]);
    used.dips = 1;
    assert_eq!(used.start(&phone.state, 0), Err(BathFault::VirusShared));

    let mut own = with(&[streaked]);
    assert_eq!(own.start(&phone.state, 0), Ok(()));
    assert!(matches!(
        own.soak.map(|soak| soak.at(0)),
        Some(SoakState::Runs { .. })
    ));
    own.taken_out();
    own.lots = vec![sound];
    assert_eq!(own.start(&phone.state, 0), Err(BathFault::AfterVirus));
    assert_eq!(
        own.throw_out(day("2027-03-11"), 60),
        [ThrowOut::VirusDipped]
    );
}

#[test]
fn a_part_of_a_suspected_lot_is_suspected_and_so_is_what_was_set_apart_as_ill() {
    let (mut phone, place) = house();
    let streaked = phone.lot("Cymbidium lowianum", 4, place);
    let sound = phone.lot("Cymbidium tracyanum", 4, place);
    let mut apart = |from: LotId, why| {
        let done = phone.act(Command::SplitLot {
            from,
            plants: 1,
            stands: 1,
            place: None,
            why,
        });
        done.events.iter().find_map(|event| match event {
            velamen_core::event::Event::LotSplit(it) => Some(it.lot),
            _ => None,
        })
    };
    let part = apart(streaked, SplitWhy::Moved).expect("a part");
    let ill = apart(sound, SplitWhy::Ill).expect("a part");
    find(&mut phone, streaked, AgentClass::Virus);
    let of = |lot| {
        let parts = with(&[lot]).parts(&phone.state);
        velamen_core::bath::suspicion(&phone.state, &parts[0])
    };
    assert_eq!(of(part), Suspicion::Virus);
    assert_eq!(of(ill), Suspicion::Symptoms);
    assert_eq!(of(sound), Suspicion::Nothing);
}

#[test]
fn spotted_plants_go_in_last_and_end_the_bath() {
    let (mut phone, place) = house();
    let sound = phone.lot("Cymbidium tracyanum", 3, place);
    let spotted = phone.lot("Cymbidium lowianum", 2, place);
    find(&mut phone, spotted, AgentClass::Fungus);
    let mut draft = with(&[sound]);
    assert!(!draft.healthy_after_spotted(&phone.state));
    assert_eq!(draft.start(&phone.state, 0), Ok(()));
    draft.taken_out();
    assert_eq!(
        (draft.life.pieces, draft.life.worst_in),
        (3, Suspicion::Nothing)
    );
    draft.lots = vec![spotted];
    assert!(!draft.healthy_after_spotted(&phone.state));
    assert_eq!(draft.start(&phone.state, 0), Ok(()));
    draft.stop();
    assert_eq!(
        draft.life.worst_in,
        Suspicion::Nothing,
        "nothing went in after all"
    );
    assert_eq!(draft.start(&phone.state, 0), Ok(()));
    draft.taken_out();
    draft.lots = vec![sound];
    assert!(draft.healthy_after_spotted(&phone.state));
    assert_eq!(
        draft.throw_out(day("2027-03-11"), 60),
        [ThrowOut::SymptomsDipped]
    );
}
