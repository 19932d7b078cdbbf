//! A bath from the bottle to the drying table: measured, soaked, recorded, and not gone near before its time.
//!
//! Rates and times here are common practice, no source, for tests alone: 12.5 mL per 10 L, five minutes.

use velamen_core::apply::{ApplyDraft, MixFault, Mixing};
use velamen_core::bath::{
    BathDraft, BathFault, BathStep, BottleDraft, SoakState, TubDraft, TubFault,
};
use velamen_core::code::Prefix;
use velamen_core::command::{Command, CountedPieces};
use velamen_core::draft;
use velamen_core::event::{AgentClass, Event, Method, PieceClass, Treated, TreatedPart};
use velamen_core::id::{ClumpId, ProductId};
use velamen_core::limits::SOAK_S_MAX;
use velamen_core::quantity::{Amount, Mass, QuantityError, Volume};
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::view::reentry::{BoundWhat, bound};
use velamen_core::view::treat::{drying, products};
use velamen_tests::Phone;

fn shelf(phone: &mut Phone, name: &str, rate: &str) -> ProductId {
    let bottle = BottleDraft {
        name: name.to_owned(),
        rate: rate.to_owned(),
        label_photo: None,
    };
    match phone.act(bottle.command()).events.first() {
        Some(Event::ProductSet(set)) => set.product,
        other => panic!("{other:?}"),
    }
}

/// A clump with six large and four small pieces lying bare.
fn bench() -> (Phone, ClumpId) {
    let mut phone = Phone::new(1, "2027-03-11");
    phone.open_book(Hemisphere::North);
    let place = phone.place("Cool house", Warmth::Cool);
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    let clump = phone.open_clump(&[lot]);
    let piece = |class, plants| CountedPieces {
        class,
        plants,
        bulbs: None,
    };
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![
            piece(PieceClass::Flowering, 6),
            piece(PieceClass::Starter, 4),
        ],
    });
    (phone, clump)
}

fn bath(product: ProductId, litres: &str) -> BathDraft {
    BathDraft {
        mixing: Mixing {
            product: Some(product),
            against: Some(AgentClass::Fungus),
            method_named: Some(true),
            reentry_h: Some(4),
            ..Mixing::default()
        },
        soak_s: Some(300),
        tub: TubDraft {
            litres: litres.to_owned(),
            ..TubDraft::default()
        },
        ..BathDraft::default()
    }
}

fn treated(phone: &mut Phone, draft: &BathDraft, out_ms: i64) -> Treated {
    let command = draft.record(&phone.state, out_ms).unwrap();
    match phone.act(command).events.into_iter().next() {
        Some(Event::Treated(treated)) => *treated,
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_amount_follows_from_the_rate_and_the_water() {
    let (mut phone, _) = bench();
    let product = shelf(&mut phone, "Bottle A", "12.5 mL per 10 L");
    let amount = |litres| {
        bath(product, litres)
            .mixture(&phone.state)
            .map(|mix| mix.amount)
    };
    let ml = |ul| Ok(Amount::Volume(Volume::from_ul(ul)));
    assert_eq!(amount("20"), ml(25_000));
    assert_eq!(amount("10"), ml(12_500), "half a tub");
    assert_eq!(amount("0"), Err(BathFault::Tub(TubFault::Empty)));
    assert_eq!(amount("10000"), Err(BathFault::Tub(TubFault::TooMuch)));
    let powder = shelf(&mut phone, "Powder B", "2 g/L");
    let mixed = bath(powder, "20").mixture(&phone.state).unwrap();
    assert_eq!(mixed.amount, Amount::Mass(Mass::from_mg(40_000)));
}

#[test]
fn a_bottle_without_a_rate_stands_on_the_shelf_and_says_what_is_missing() {
    let (mut phone, _) = bench();
    let product = shelf(&mut phone, "Bottle C", "");
    let mut draft = bath(product, "20");
    assert_eq!(
        draft.ready_to_mix(&phone.state),
        Err(BathFault::Mix(MixFault::NoRate))
    );
    let by_hand = |rate: &str| {
        let bottle = BottleDraft {
            name: "Bottle D".to_owned(),
            rate: rate.to_owned(),
            label_photo: None,
        };
        bottle.command()
    };
    assert!(matches!(
        phone.refusal(by_hand("12.5")),
        Rejection::BadRate(QuantityError::NoUnit { .. } | QuantityError::NotARate)
    ));
    assert!(matches!(
        phone.refusal(by_hand("1:100")),
        Rejection::BadRate(QuantityError::AmbiguousUnit { .. })
    ));
    // Typed at the bath it goes onto the bottle for next time.
    draft.mixing.rate = "12.5 mL per 10 L".to_owned();
    let keep = draft
        .mixing
        .to_the_bottle(&phone.state, Method::Bath)
        .unwrap();
    phone.act(keep);
    let row = products(&phone.state)
        .into_iter()
        .find(|row| row.product == product)
        .unwrap();
    assert_eq!(row.rate_typed, "12.5 mL per 10 L");
    assert!(draft.ready_to_mix(&phone.state).is_ok());
}

#[test]
fn a_label_silent_on_dipping_wants_a_reason() {
    let (mut phone, _) = bench();
    let product = shelf(&mut phone, "Bottle A", "12.5 mL per 10 L");
    let mut draft = bath(product, "20");
    draft.mixing.method_named = None;
    assert_eq!(
        draft.ready_to_mix(&phone.state),
        Err(BathFault::Mix(MixFault::MethodNotSaid))
    );
    draft.mixing.method_named = Some(false);
    assert_eq!(
        draft.ready_to_mix(&phone.state),
        Err(BathFault::Mix(MixFault::NoReason))
    );
    draft.mixing.reason = "Asked the adviser; three test pieces last week.".to_owned();
    assert!(draft.ready_to_mix(&phone.state).is_ok());
    assert_eq!(
        draft.mixing.to_the_bottle(&phone.state, Method::Bath).map(
            |keep| matches!(keep, Command::SetProduct { traits, .. } if traits.uses.is_none())
        ),
        Some(true),
        "a silent label gets no use for dipping"
    );
    draft.soak_s = Some(0);
    assert_eq!(draft.ready_to_mix(&phone.state), Err(BathFault::NoSoak));
    for (soak_s, fits) in [
        (SOAK_S_MAX - 1, true),
        (SOAK_S_MAX, true),
        (SOAK_S_MAX + 1, false),
    ] {
        draft.soak_s = Some(soak_s);
        let told = draft.ready_to_mix(&phone.state).map(|_| ());
        let expected = fits.then_some(()).ok_or(BathFault::SoakTooLong);
        assert_eq!(told, expected, "{soak_s}");
    }
}

#[test]
fn one_tub_takes_pieces_of_two_clumps_and_is_measured_once() {
    let (mut phone, clump) = bench();
    let place = phone.place("Bench", Warmth::Cool);
    let lot = phone.lot("Coelogyne cristata", 5, place);
    let product = shelf(&mut phone, "Bottle A", "12.5 mL per 10 L");
    let mut draft = bath(product, "20");
    assert_eq!(
        draft.start(&phone.state, phone.now_ms),
        Err(BathFault::NothingIn)
    );
    draft.switch_pieces(clump, PieceClass::Flowering);
    draft.switch_pieces(clump, PieceClass::Starter);
    draft.start(&phone.state, phone.now_ms).unwrap();
    let soak = draft.soak.unwrap();
    assert_eq!(soak.at(phone.now_ms), SoakState::Starts { in_s: 10 });
    // The phone dies and comes back: the draft as stored says the same.
    let stored = draft::write(&draft);
    let mut draft: BathDraft = draft::read(&stored).unwrap();
    assert_eq!(
        draft.soak.unwrap().at(soak.in_ms + 60_000),
        SoakState::Runs { left_s: 240 }
    );
    let out_ms = soak.out_ms() + 12 * 60_000;
    assert_eq!(
        draft.soak.unwrap().at(out_ms),
        SoakState::Over { since_s: 720 }
    );
    let first = treated(&mut phone, &draft, out_ms);
    assert_eq!(
        (first.amount_ul, first.water_ul),
        (Some(25_000), Some(20_000_000))
    );
    assert_eq!((first.soak_s, first.soaked_s), (Some(300), Some(1_020)));
    assert!(first.soak_own, "the label gave no time");
    assert_eq!(first.until_ms, Some(out_ms + 4 * 3_600_000));
    assert_eq!(
        first.parts,
        vec![
            TreatedPart::Pieces {
                clump,
                class: PieceClass::Flowering,
                plants: 6
            },
            TreatedPart::Pieces {
                clump,
                class: PieceClass::Starter,
                plants: 4
            },
        ]
    );
    draft.taken_out();
    assert_eq!((draft.step, draft.dips), (BathStep::Load, 1));
    // The next dip in the same mixture: nothing is measured anew.
    draft.switch_lot(lot);
    draft.start(&phone.state, phone.now_ms).unwrap();
    let second = treated(&mut phone, &draft, draft.soak.unwrap().out_ms());
    assert_eq!((second.amount_ul, second.water_ul), (None, None));
    assert_eq!(second.same_mix_as, Some(first.treatment));
}

#[test]
fn treated_pieces_lie_on_the_drying_table_and_stay_bound_when_they_are_potted() {
    let (mut phone, clump) = bench();
    let product = shelf(&mut phone, "Bottle A", "12.5 mL per 10 L");
    let mut draft = bath(product, "20");
    draft.switch_pieces(clump, PieceClass::Starter);
    draft.start(&phone.state, phone.now_ms).unwrap();
    let out_ms = draft.soak.unwrap().out_ms();
    phone.now_ms = out_ms;
    treated(&mut phone, &draft, out_ms);
    let dry = drying(&phone.state);
    assert_eq!(dry.len(), 1);
    assert_eq!(
        (dry[0].clump, dry[0].plants, dry[0].out_ms),
        (clump, 4, out_ms),
        "the pieces kept out of the bath are not among them"
    );
    let what = |phone: &Phone, ms| -> Vec<BoundWhat> {
        bound(&phone.state, ms)
            .into_iter()
            .map(|row| row.what)
            .collect()
    };
    assert_eq!(
        what(&phone, out_ms),
        vec![BoundWhat::Clump(clump), BoundWhat::TableAndTub]
    );
    let potted = phone.act(Command::PotPieces {
        clump,
        batches: vec![velamen_core::command::Batch {
            class: PieceClass::Starter,
            code: None,
            name: None,
            plants: 4,
            stands: 4,
            with: None,
            potting: velamen_core::event::Potting::default(),
            place: None,
        }],
    });
    let Some(Event::PiecesPotted(potted)) = potted.events.first() else {
        panic!("{:?}", potted.events);
    };
    assert!(drying(&phone.state).is_empty());
    assert!(what(&phone, out_ms).contains(&BoundWhat::Lot(potted.lot)));
    assert_eq!(what(&phone, out_ms + 4 * 3_600_000), Vec::new());
    // The bath was before there was a lot: the look at its result is the lot's all the same, and so is its record.
    let page = velamen_core::view::lot::lot(&phone.state, potted.lot, phone.today).unwrap();
    let look = page
        .tasks
        .iter()
        .find(|(task, _)| task.kind == TaskKind::ResultLook)
        .map(|(task, _)| task.due_on);
    assert_eq!(look, Some(velamen_tests::day("2027-03-18")), "a week later");
    let baths = |row: &velamen_core::view::book::Row| {
        row.events
            .iter()
            .any(|event| matches!(event, Event::Treated(_)))
    };
    assert!(page.history.iter().any(baths));
}

#[test]
fn a_bath_in_a_mixture_nobody_made_is_refused() {
    let (mut phone, clump) = bench();
    let product = shelf(&mut phone, "Bottle A", "12.5 mL per 10 L");
    let mut draft = bath(product, "20");
    draft.switch_pieces(clump, PieceClass::Starter);
    draft.start(&phone.state, phone.now_ms).unwrap();
    draft.mixed_for = Some(velamen_core::id::TreatmentId(clump.0));
    let command = draft.record(&phone.state, phone.now_ms + 400_000).unwrap();
    assert!(matches!(
        phone.refusal(command),
        Rejection::NotInTheBook { .. }
    ));
}

#[test]
fn a_phone_that_died_after_its_first_dip_takes_no_spray_and_no_bath_of_another_phone_for_its_own() {
    let (mut phone, clump) = bench();
    let product = shelf(&mut phone, "Bottle A", "12.5 mL per 10 L");
    let lots = [1, 2].map(|plants| {
        let place = phone.place("Bench", Warmth::Cool);
        phone.lot("Coelogyne cristata", plants, place)
    });
    let mut other = Phone::new(9, "2027-03-11");
    other.take_in(&phone.hand_over());
    other.act(Command::JoinPhone {
        prefix: Prefix::pick(9),
        name: String::new(),
    });

    let mut draft = bath(product, "20");
    draft.mixed(phone.now_ms, phone.dev);
    draft.switch_pieces(clump, PieceClass::Flowering);
    draft.start(&phone.state, phone.now_ms).unwrap();
    let own = treated(&mut phone, &draft, draft.soak.unwrap().out_ms());
    draft.taken_out();
    // It died before it had written down which treatment that was. Later the same bottle is sprayed with here, and
    // mixed for a tub by the other phone.
    draft.mixed_for = None;
    phone.wait_min(30);
    let mut spray = ApplyDraft {
        method: Some(Method::Spray),
        mixing: draft.mixing.clone(),
        lots: vec![lots[0]],
        ..ApplyDraft::default()
    };
    spray.water.litres = "2".to_owned();
    let command = spray.command(&phone.state, phone.now_ms).unwrap();
    phone.act(command);
    other.wait_min(90);
    let mut theirs = bath(product, "10");
    theirs.mixed(other.now_ms, other.dev);
    theirs.switch_lot(lots[0]);
    theirs.start(&other.state, other.now_ms).unwrap();
    let theirs = treated(&mut other, &theirs, theirs.soak.unwrap().out_ms());
    phone.take_in(&other.hand_over());

    draft.switch_lot(lots[1]);
    draft.start(&phone.state, phone.now_ms).unwrap();
    let second = treated(&mut phone, &draft, draft.soak.unwrap().out_ms());
    assert_eq!(second.same_mix_as, Some(own.treatment));
    assert_ne!(second.same_mix_as, Some(theirs.treatment));
}
