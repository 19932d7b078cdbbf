//! What the book learns of itself: survival by mix and by treatment, the time to a first flower, minutes of each step at
//! the bench; and where a mix stays wet for longer.

use velamen_core::climate::Reading;
use velamen_core::command::{Batch, Command, PlaceTraits};
use velamen_core::event::{
    AgentClass, ClosedHow, Cover, Event, LossCause, PieceClass, Potting, ProductCopy, Sight,
    TreatedPart,
};
use velamen_core::id::{LotId, MixId, PlaceId};
use velamen_core::outlook::{By, flowered, learn_by};
use velamen_core::plan::{StepMinutes, learned_steps, steps_of};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::time::plus_days;
use velamen_core::view::potting::{Wet, wet};
use velamen_tests::{Phone, treatment};

use crate::scene::{batch, close, nursery, pieces};

fn mix(phone: &mut Phone, name: &str) -> MixId {
    let done = phone.act(Command::SetMix {
        mix: None,
        name: Some(name.to_owned()),
        shares: None,
        life_months: None,
        retired: None,
    });
    match done.events.first() {
        Some(Event::MixSet(set)) => set.mix,
        other => panic!("{other:?}"),
    }
}

/// So many starters off a plant into a mix, bathed before that or not.
fn cut(phone: &mut Phone, plants: u32, mix: MixId, bathed: bool, bench: PlaceId) -> LotId {
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let clump = phone.open_clump(&[lot]);
    phone.wait_min(11);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Starter, i32::try_from(plants).unwrap())],
    });
    if bathed {
        let parts = vec![TreatedPart::Pieces {
            clump,
            class: PieceClass::Starter,
            plants,
        }];
        let product = ProductCopy {
            label_name: "copper bath".to_owned(),
            ..ProductCopy::default()
        };
        phone.act(Command::RecordTreatment(treatment(
            parts,
            AgentClass::Fungus,
            product,
        )));
    }
    phone.wait_min(19);
    phone.act(Command::PotPieces {
        clump,
        batches: vec![Batch {
            potting: Potting {
                mix: Some(mix),
                ..Potting::default()
            },
            ..batch(PieceClass::Starter, plants, bench)
        }],
    });
    phone.wait_min(4);
    close(phone, clump, ClosedHow::Done);
    phone.state.facts().clumps[&clump].lots[0]
}

fn die(phone: &mut Phone, lot: LotId, plants: u32) {
    phone.act(Command::LoseFromLot {
        lot,
        plants,
        stands: plants,
        cause: LossCause::Rot,
        note: String::new(),
    });
}

#[test]
fn what_lived_is_set_apart_by_mix_and_by_bath_with_its_cases() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let (coarse, moss) = (mix(&mut phone, "coarse"), mix(&mut phone, "moss"));
    let first = cut(&mut phone, 10, coarse, true, bench);
    assert_eq!(learn_by(&phone.state, phone.today, By::Mix), Vec::new());
    let second = cut(&mut phone, 20, moss, false, bench);
    phone.on("2027-04-01");
    die(&mut phone, first, 1);
    die(&mut phone, second, 8);
    phone.on("2027-06-01");
    let said = |phone: &Phone, by| {
        let rows = learn_by(&phone.state, phone.today, by).into_iter();
        rows.map(|it| (it.word, it.row.alive, it.row.of))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        said(&phone, By::Mix),
        [("coarse".to_owned(), 9, 10), ("moss".to_owned(), 12, 20)]
    );
    assert_eq!(
        said(&phone, By::Treatment),
        [(String::new(), 12, 20), ("copper bath".to_owned(), 9, 10)]
    );
    // The table's range stays the prior: twelve of twenty are believed to be more than sixty in a hundred.
    let rows = learn_by(&phone.state, phone.today, By::Mix);
    let [low, middle, high] = rows[1].row.per_hundred();
    assert!(
        low < middle && middle < high && (61..86).contains(&middle),
        "{low} {middle} {high}"
    );
}

#[test]
fn the_time_to_a_first_flower_is_the_books_own() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let coarse = mix(&mut phone, "coarse");
    let lots = [(); 3].map(|()| cut(&mut phone, 2, coarse, false, bench));
    assert_eq!(flowered(&phone.state), Vec::new());
    let open = |phone: &mut Phone, on: &str, lot| {
        phone.on(on);
        phone.act(Command::Observe {
            lots: vec![lot],
            what: Sight::FirstOpen,
            good: None,
            note: String::new(),
        });
    };
    open(&mut phone, "2028-03-01", lots[0]);
    open(&mut phone, "2028-05-01", lots[1]);
    // The second time says nothing of how long it took.
    open(&mut phone, "2029-03-01", lots[0]);
    open(&mut phone, "2029-05-01", lots[2]);
    let rows = flowered(&phone.state);
    assert_eq!(rows.len(), 1);
    assert_eq!(
        (rows[0].class, rows[0].lots, rows[0].days),
        (PieceClass::Starter, 3, [366, 427, 792])
    );
}

#[test]
fn minutes_of_each_step_come_from_what_was_tapped_and_a_night_is_no_work() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let coarse = mix(&mut phone, "coarse");
    for _ in 0..3 {
        assert_eq!(learned_steps(&phone.state), None);
        cut(&mut phone, 4, coarse, false, bench);
    }
    let clump = *phone.state.facts().clumps.keys().next().unwrap();
    // Every entry takes a minute of its own.
    let steps = StepMinutes {
        cut: 12,
        pot: 20,
        label: 5,
    };
    assert_eq!(steps_of(&phone.state, clump), Some(steps));
    let learned = learned_steps(&phone.state).unwrap();
    assert_eq!(
        (learned.clumps, learned.cut, learned.pot, learned.label),
        (3, [12; 3], [20; 3], [5; 3])
    );
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let left = phone.open_clump(&[lot]);
    phone.act(Command::TakePieces {
        clump: left,
        pieces: vec![pieces(PieceClass::Starter, 2)],
    });
    phone.wait_min(16 * 60);
    phone.act(Command::PotPieces {
        clump: left,
        batches: vec![batch(PieceClass::Starter, 2, bench)],
    });
    close(&mut phone, left, ClosedHow::Done);
    assert_eq!(steps_of(&phone.state, left), None);
    assert_eq!(learned_steps(&phone.state).unwrap().clumps, 3);
}

#[test]
fn a_mix_stays_wet_where_rain_falls_or_where_the_air_was_damp_for_a_week() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-20");
    assert_eq!(wet(phone.state.facts(), bench), None);
    let damp = |days: i64, permille: u16| {
        let reading = Reading {
            min_mc: 8_000,
            max_mc: 18_000,
            humidity_min_permille: Some(permille - 100),
            humidity_max_permille: Some(permille + 50),
            rain_um: None,
        };
        let first = velamen_tests::day("2027-03-05");
        let days = (0..days).map(|day| (plus_days(first, day), reading));
        Command::ReadClimate {
            place: bench,
            days: days.collect(),
        }
    };
    phone.act(damp(6, 900));
    assert_eq!(
        wet(phone.state.facts(), bench),
        None,
        "six days are no week"
    );
    phone.act(damp(8, 900));
    assert_eq!(wet(phone.state.facts(), bench), Some(Wet::Humid));
    phone.act(damp(8, 780));
    assert_eq!(wet(phone.state.facts(), bench), None);
    phone.act(Command::SetPlace {
        place: Some(bench),
        name: None,
        walk: None,
        about: PlaceTraits {
            cover: Some(Cover::OpenToRain),
            ..PlaceTraits::default()
        },
    });
    assert_eq!(wet(phone.state.facts(), bench), Some(Wet::Rain));
}
