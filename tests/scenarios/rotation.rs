//! What the plants had before follows them through the knife: runs of one mode of action over every possible parent.
//!
//! Rules held against: University of California's rule of thumb (groups 1, 4, 9, 11, 17 once and then a change, all others
//! twice), IRAC's principle of one mode of action a generation.

use velamen_core::bath::{copy, label_for};
use velamen_core::command::{Command, CountedPieces, ProductTraits};
use velamen_core::event::{
    ActiveCopy, AgentClass, Event, LabelUse, Method, PieceClass, TreatedPart,
};
use velamen_core::id::{ClumpId, LotId, PlaceId, ProductId};
use velamen_core::rotation::{
    Advice, Judged, Target, history, judge, proposed, true_changes, usual,
};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::State;
use velamen_tests::Phone;

use crate::scene::{batch, close, divide, pieces};

fn label(against: AgentClass) -> LabelUse {
    LabelUse {
        key: "use-1".to_owned(),
        methods: vec![Method::Bath],
        against: vec![against],
        ..LabelUse::default()
    }
}

fn bottle(phone: &mut Phone, name: &str, codes: &[&str], used: LabelUse) -> ProductId {
    let actives = codes.iter().map(|code| ActiveCopy {
        name: format!("active of {code}"),
        codes: vec![(*code).to_owned()],
        ..ActiveCopy::default()
    });
    let done = phone.act(Command::SetProduct {
        product: None,
        traits: ProductTraits {
            label_name: Some(name.to_owned()),
            actives: Some(actives.collect()),
            uses: Some(vec![used]),
            ..ProductTraits::default()
        },
    });
    match done.events.first() {
        Some(Event::ProductSet(set)) => set.product,
        other => panic!("{other:?}"),
    }
}

/// A shelf of fungicides by their codes, for tests alone.
struct Shelf {
    three: ProductId,
    one: ProductId,
    contact: ProductId,
    oil: ProductId,
    mixed: ProductId,
}

fn shelf(phone: &mut Phone) -> Shelf {
    let fungus = || label(AgentClass::Fungus);
    Shelf {
        three: bottle(phone, "Three", &["3"], fungus()),
        one: bottle(phone, "One", &["FRAC 1"], fungus()),
        contact: bottle(phone, "Contact", &["M5"], fungus()),
        oil: bottle(phone, "Oil", &["IRAC UNM"], fungus()),
        mixed: bottle(phone, "Mixed", &["3", "11"], fungus()),
    }
}

fn part(state: &State, lot: LotId) -> TreatedPart {
    let plants = u32::try_from(state.facts().lots[&lot].plants).unwrap();
    TreatedPart::Lot { lot, plants }
}

fn treat_parts(
    phone: &mut Phone,
    parts: Vec<TreatedPart>,
    product: ProductId,
    against: AgentClass,
) {
    let known = &phone.state.facts().products[&product];
    let copied = copy(product, known, &label_for(known, Method::Bath, None));
    let record = velamen_tests::treatment(parts, against, copied);
    phone.act(Command::RecordTreatment(record));
}

fn treat(phone: &mut Phone, lot: LotId, product: ProductId, on: &str) {
    phone.on(on);
    let part = part(&phone.state, lot);
    treat_parts(phone, vec![part], product, AgentClass::Fungus);
}

fn judged(phone: &Phone, target: Target, product: ProductId, against: AgentClass) -> Judged {
    let new = proposed(&phone.state, product, Method::Bath, against, phone.today).unwrap();
    let mut judged = judge(&phone.state, &[target], &new);
    assert_eq!(judged.len(), 1);
    judged.remove(0)
}

fn advice(phone: &Phone, lot: LotId, product: ProductId) -> Vec<Advice> {
    judged(phone, Target::Lot(lot), product, AgentClass::Fungus).advice
}

/// The run a piece of advice tells of: uses so far, and how many are allowed.
fn run(advice: &[Advice]) -> Option<(u16, u16)> {
    advice.iter().find_map(|one| match one {
        Advice::Run { used, most, .. } => Some((*used, *most)),
        _ => None,
    })
}

fn strip(phone: &Phone, target: Target) -> Vec<String> {
    let lines = history(&phone.state, target);
    let longest = lines.into_iter().max_by_key(Vec::len).unwrap();
    let codes = longest.iter().map(|one| {
        let codes: Vec<&str> = one.codes.iter().map(|code| code.code.as_str()).collect();
        codes.join("+")
    });
    codes.collect()
}

fn nursery() -> (Phone, PlaceId, Shelf) {
    let mut phone = Phone::new(1, "2027-01-02");
    phone.open_book(Hemisphere::North);
    let place = phone.place("Cool house", Warmth::Cool);
    let shelf = shelf(&mut phone);
    (phone, place, shelf)
}

#[test]
fn a_third_use_of_one_code_running_is_advised_against_and_a_second_of_a_risky_one() {
    let (mut phone, place, shelf) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    treat(&mut phone, lot, shelf.three, "2027-01-10");
    assert_eq!(run(&advice(&phone, lot, shelf.three)), None);
    treat(&mut phone, lot, shelf.three, "2027-02-10");
    phone.on("2027-03-10");
    assert_eq!(run(&advice(&phone, lot, shelf.three)), Some((2, 2)));

    let other = phone.lot("Cymbidium lowianum", 3, place);
    treat(&mut phone, other, shelf.one, "2027-03-10");
    phone.on("2027-04-10");
    assert_eq!(run(&advice(&phone, other, shelf.one)), Some((1, 1)));
    assert_eq!(advice(&phone, other, shelf.three), []);
}

#[test]
fn a_contact_fungicide_between_breaks_the_run_and_an_oil_or_another_target_does_not() {
    let (mut phone, place, shelf) = nursery();
    let water = bottle(&mut phone, "Water", &["28"], label(AgentClass::WaterMould));
    let lot = |phone: &mut Phone| phone.lot("Cymbidium tracyanum", 3, place);
    for (between, expected) in [
        (Some((shelf.contact, AgentClass::Fungus)), None),
        (Some((shelf.oil, AgentClass::Fungus)), Some((2, 2))),
        (Some((water, AgentClass::WaterMould)), Some((2, 2))),
        (None, Some((2, 2))),
    ] {
        let lot = lot(&mut phone);
        treat(&mut phone, lot, shelf.three, "2027-01-10");
        treat(&mut phone, lot, shelf.three, "2027-02-10");
        if let Some((product, against)) = between {
            phone.on("2027-02-20");
            let part = part(&phone.state, lot);
            treat_parts(&mut phone, vec![part], product, against);
        }
        phone.on("2027-03-10");
        assert_eq!(
            run(&advice(&phone, lot, shelf.three)),
            expected,
            "{between:?}"
        );
    }
}

#[test]
fn a_mixture_of_two_counts_for_both_its_codes() {
    let (mut phone, place, shelf) = nursery();
    let eleven = bottle(&mut phone, "Eleven", &["11"], label(AgentClass::Fungus));
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    treat(&mut phone, lot, shelf.three, "2027-01-10");
    treat(&mut phone, lot, shelf.mixed, "2027-02-10");
    phone.on("2027-03-10");
    assert_eq!(run(&advice(&phone, lot, shelf.three)), Some((2, 2)));
    assert_eq!(run(&advice(&phone, lot, eleven)), Some((1, 1)));
    assert_eq!(advice(&phone, lot, shelf.mixed).len(), 2);
}

/// Two mothers, one of them treated twice; their clump divided, a daughter divided again.
fn three_generations(phone: &mut Phone, place: PlaceId, shelf: &Shelf) -> (Vec<LotId>, ClumpId) {
    let treated = phone.lot("Cymbidium tracyanum", 2, place);
    let untreated = phone.lot("Cymbidium tracyanum", 2, place);
    treat(phone, treated, shelf.three, "2027-01-10");
    treat(phone, treated, shelf.contact, "2027-01-20");
    treat(phone, treated, shelf.three, "2027-02-10");
    phone.on("2027-03-01");
    let clump = phone.open_clump(&[treated, untreated]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![
            pieces(PieceClass::Flowering, 4),
            pieces(PieceClass::Starter, 3),
        ],
    });
    phone.on("2027-03-02");
    let bathed = TreatedPart::Pieces {
        clump,
        class: PieceClass::Flowering,
        plants: 4,
    };
    treat_parts(phone, vec![bathed], shelf.three, AgentClass::Fungus);
    let potted = phone.act(Command::PotPieces {
        clump,
        batches: vec![
            batch(PieceClass::Flowering, 4, place),
            batch(PieceClass::Starter, 3, place),
        ],
    });
    close(phone, clump, velamen_core::event::ClosedHow::Done);
    let lots: Vec<LotId> = potted
        .events
        .iter()
        .filter_map(|event| match event {
            Event::PiecesPotted(event) => Some(event.lot),
            _ => None,
        })
        .collect();
    (lots, clump)
}

#[test]
fn a_division_carries_the_history_of_all_its_possible_parents_to_the_third_generation() {
    let (mut phone, place, shelf) = nursery();
    let (lots, _) = three_generations(&mut phone, place, &shelf);
    let (bathed, dry) = (lots[0], lots[1]);
    // The bathed class: mother's 3, M05, 3 and its own 3 on the bench.
    assert_eq!(strip(&phone, Target::Lot(bathed)), ["3", "M05", "3", "3"]);
    assert_eq!(strip(&phone, Target::Lot(dry)), ["3", "M05", "3"]);
    assert_eq!(history(&phone.state, Target::Lot(bathed)).len(), 2);
    phone.on("2027-06-01");
    assert_eq!(run(&advice(&phone, bathed, shelf.three)), Some((2, 2)));
    assert_eq!(advice(&phone, dry, shelf.three), []);

    let daughters = divide(&mut phone, bathed, &[(PieceClass::Starter, 6)], place);
    phone.on("2027-06-02");
    let granddaughter = daughters[0];
    let judged = judged(
        &phone,
        Target::Lot(granddaughter),
        shelf.three,
        AgentClass::Fungus,
    );
    assert_eq!(run(&judged.advice), Some((2, 2)));
    assert!(judged.several && judged.line.iter().all(|one| one.inherited));
    // What it gets itself comes after what it inherited.
    treat(&mut phone, granddaughter, shelf.contact, "2027-06-03");
    assert_eq!(
        strip(&phone, Target::Lot(granddaughter)),
        ["3", "M05", "3", "3", "M05"]
    );
    phone.on("2027-07-01");
    assert_eq!(advice(&phone, granddaughter, shelf.three), []);
}

#[test]
fn uses_of_two_possible_parents_are_not_laid_into_one_run() {
    let (mut phone, place, shelf) = nursery();
    let threes = phone.lot("Cymbidium tracyanum", 2, place);
    let contacts = phone.lot("Cymbidium tracyanum", 2, place);
    treat(&mut phone, threes, shelf.three, "2027-01-10");
    treat(&mut phone, contacts, shelf.contact, "2027-01-20");
    treat(&mut phone, threes, shelf.three, "2027-02-10");
    // Of the other mother: a break there is none here.
    treat(&mut phone, contacts, shelf.contact, "2027-02-20");
    phone.on("2027-03-01");
    let clump = phone.open_clump(&[threes, contacts]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Starter, 4)],
    });
    let bare = Target::Pieces(clump, PieceClass::Starter);
    let judged = judged(&phone, bare, shelf.three, AgentClass::Fungus);
    assert_eq!(run(&judged.advice), Some((2, 2)));
    assert_eq!(history(&phone.state, bare).len(), 2);
}

#[test]
fn what_a_parent_got_after_the_division_stays_with_the_parent_and_a_part_keeps_what_was_before() {
    let (mut phone, place, shelf) = nursery();
    let mother = phone.lot("Cymbidium tracyanum", 6, place);
    treat(&mut phone, mother, shelf.three, "2027-01-10");
    phone.on("2027-02-01");
    let split = phone.act(Command::SplitLot {
        from: mother,
        plants: 2,
        stands: 2,
        place: None,
        why: velamen_core::event::SplitWhy::Sorted,
    });
    let part = match split.events.first() {
        Some(Event::LotSplit(split)) => split.lot,
        other => panic!("{other:?}"),
    };
    treat(&mut phone, mother, shelf.contact, "2027-02-10");
    treat(&mut phone, part, shelf.one, "2027-02-11");
    assert_eq!(strip(&phone, Target::Lot(mother)), ["3", "M05"]);
    assert_eq!(strip(&phone, Target::Lot(part)), ["3", "1"]);
    // Written down late, for a day when they were still one.
    let three = &phone.state.facts().products[&shelf.three];
    let late = velamen_tests::treatment(
        vec![self::part(&phone.state, mother)],
        AgentClass::Fungus,
        copy(shelf.three, three, &label_for(three, Method::Bath, None)),
    );
    phone.act(Command::OnDay {
        on: velamen_tests::day("2027-01-20"),
        command: Box::new(Command::RecordTreatment(late)),
    });
    assert_eq!(strip(&phone, Target::Lot(part)), ["3", "3", "1"]);
}

#[test]
fn two_phones_judge_alike_whichever_way_the_books_were_joined() {
    let (mut first, place, shelf) = nursery();
    let lot = first.lot("Cymbidium tracyanum", 4, place);
    let mut second = Phone::new(2, "2027-01-05");
    second.take_in(&first.hand_over());
    second.act(Command::JoinPhone {
        prefix: velamen_core::code::Prefix::pick(2),
        name: "second".to_owned(),
    });
    // Each treats the mother without knowing of the other; the second divides her.
    treat(&mut first, lot, shelf.three, "2027-01-10");
    treat(&mut second, lot, shelf.three, "2027-01-20");
    second.on("2027-02-01");
    let potted = divide(&mut second, lot, &[(PieceClass::Starter, 5)], place);
    let daughter = potted[0];
    second.on("2027-02-02");
    assert_eq!(advice(&second, daughter, shelf.three), []);

    let (from_first, from_second) = (first.hand_over(), second.hand_over());
    first.take_in(&from_second);
    second.take_in(&from_first);
    first.on("2027-02-02");
    for phone in [&first, &second] {
        assert_eq!(strip(phone, Target::Lot(daughter)), ["3", "3"]);
        assert_eq!(run(&advice(phone, daughter, shelf.three)), Some((2, 2)));
    }
    assert_eq!(
        history(&first.state, Target::Lot(daughter)),
        history(&second.state, Target::Lot(daughter))
    );
}

#[test]
fn batches_of_one_mixture_are_one_use() {
    let (mut phone, place, shelf) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 40, place);
    treat(&mut phone, lot, shelf.three, "2027-01-10");
    let measured = *phone.state.facts().treatments.keys().next().unwrap();
    let known = &phone.state.facts().products[&shelf.three];
    let again = velamen_core::command::RecordTreatment {
        same_mix_as: Some(measured),
        ..velamen_tests::treatment(
            vec![part(&phone.state, lot)],
            AgentClass::Fungus,
            copy(shelf.three, known, &label_for(known, Method::Bath, None)),
        )
    };
    phone.on("2027-01-11");
    phone.act(Command::RecordTreatment(again));
    assert_eq!(strip(&phone, Target::Lot(lot)), ["3"]);
}

#[test]
fn a_second_batch_on_one_day_is_no_second_use() {
    let (mut phone, place, shelf) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 40, place);
    treat(&mut phone, lot, shelf.one, "2027-01-10");
    assert_eq!(advice(&phone, lot, shelf.one), []);
    let sister = bottle(&mut phone, "One too", &["1"], label(AgentClass::Fungus));
    assert_eq!(run(&advice(&phone, lot, sister)), Some((1, 1)));
    phone.on("2027-01-11");
    assert_eq!(run(&advice(&phone, lot, shelf.one)), Some((1, 1)));
}

#[test]
fn insecticides_are_counted_by_generations_of_the_pest_and_by_main_group() {
    let (mut phone, place, _) = nursery();
    let insect = || label(AgentClass::Insect);
    let one = bottle(&mut phone, "A", &["4A"], insect());
    let sister = bottle(&mut phone, "C", &["4C"], insect());
    let lot = phone.lot("Cattleya mossiae", 3, place);
    let spray = |phone: &mut Phone, on: &str| {
        phone.on(on);
        let part = part(&phone.state, lot);
        treat_parts(phone, vec![part], one, AgentClass::Insect);
    };
    let asked = |phone: &Phone, product| {
        run(&judged(phone, Target::Lot(lot), product, AgentClass::Insect).advice)
    };
    spray(&mut phone, "2027-05-01");
    phone.on("2027-05-11");
    assert_eq!(asked(&phone, one), None, "within one generation");
    spray(&mut phone, "2027-05-11");
    phone.on("2027-05-30");
    assert_eq!(asked(&phone, one), Some((1, 1)), "the next generation");
    assert_eq!(
        asked(&phone, sister),
        Some((1, 1)),
        "4C is no change from 4A"
    );
}

#[test]
fn the_labels_interval_and_uses_a_year_are_told_and_so_is_the_table_once_it_has_a_number() {
    let (mut phone, place, _) = nursery();
    let used = LabelUse {
        interval_days: Some(14),
        most_per_year: Some(2),
        ..label(AgentClass::Fungus)
    };
    let product = bottle(&mut phone, "Multi-site", &["M03"], used);
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    treat(&mut phone, lot, product, "2027-01-10");
    phone.on("2027-01-23");
    assert_eq!(
        advice(&phone, lot, product),
        [Advice::TooSoon {
            last_on: velamen_tests::day("2027-01-10"),
            days: 14,
            again_on: velamen_tests::day("2027-01-24"),
        }]
    );
    treat(&mut phone, lot, product, "2027-01-24");
    phone.on("2027-03-01");
    assert_eq!(
        advice(&phone, lot, product),
        [Advice::LabelYear { used: 2, most: 2 }]
    );
    phone.on("2028-01-10");
    assert_eq!(advice(&phone, lot, product), [], "a year after the first");

    let mut rules = usual();
    for row in rules.rows.iter_mut().filter(|row| row.code == "M*") {
        row.per_year = Some(1);
    }
    phone.act(Command::SetRotation(rules));
    let told = advice(&phone, lot, product);
    assert!(
        matches!(
            told[..],
            [Advice::Year {
                used: 1,
                most: 1,
                ..
            }]
        ),
        "{told:?}"
    );
}

#[test]
fn a_table_that_would_forbid_a_code_outright_is_refused_and_the_same_table_is_nothing_new() {
    let (phone, ..) = nursery();
    let mut rules = usual();
    rules.rows[0].in_a_row = Some(0);
    assert!(phone.decide(Command::SetRotation(rules)).is_err());
    assert!(phone.decide(Command::SetRotation(usual())).is_err());
}

#[test]
fn the_shelf_offers_only_what_would_be_a_true_change() {
    let (mut phone, place, shelf) = nursery();
    bottle(&mut phone, "Nothing typed", &[], label(AgentClass::Fungus));
    bottle(&mut phone, "For mites", &["6"], label(AgentClass::Mite));
    bottle(
        &mut phone,
        "Three again",
        &["FRAC 3"],
        label(AgentClass::Fungus),
    );
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    treat(&mut phone, lot, shelf.one, "2027-01-05");
    treat(&mut phone, lot, shelf.three, "2027-01-10");
    treat(&mut phone, lot, shelf.three, "2027-02-10");
    phone.on("2027-03-10");
    let state = &phone.state;
    let new = proposed(
        state,
        shelf.three,
        Method::Bath,
        AgentClass::Fungus,
        phone.today,
    )
    .unwrap();
    let changes = true_changes(state, &[Target::Lot(lot)], &new, Method::Bath);
    let names: Vec<&str> = changes.iter().map(|one| one.label_name.as_str()).collect();
    assert_eq!(names, ["One", "Contact"]);
}

#[test]
fn a_lot_that_was_never_treated_has_one_empty_line_and_nothing_against_anything() {
    let (mut phone, place, shelf) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    assert_eq!(history(&phone.state, Target::Lot(lot)), [Vec::new()]);
    assert_eq!(advice(&phone, lot, shelf.one), []);
    let clump = phone.open_clump(&[lot]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![CountedPieces {
            class: PieceClass::Starter,
            plants: 3,
            bulbs: None,
        }],
    });
    let bare = Target::Pieces(clump, PieceClass::Starter);
    assert_eq!(
        judged(&phone, bare, shelf.one, AgentClass::Fungus).advice,
        []
    );
}

#[test]
fn a_bath_advised_against_goes_on_with_a_reason_and_the_reason_is_on_record() {
    use velamen_core::apply::{MixFault, Mixing};
    use velamen_core::bath::{BathDraft, BathFault, TubDraft};
    let (mut phone, place, _) = nursery();
    let used = LabelUse {
        rate_typed: "2 mL/L".to_owned(),
        soak_s: Some(300),
        ..label(AgentClass::Fungus)
    };
    let product = bottle(&mut phone, "Rate and all", &["FRAC 11"], used);
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    let mut draft = BathDraft {
        mixing: Mixing {
            product: Some(product),
            against: Some(AgentClass::Fungus),
            rotation_reason: "left over from another lot".to_owned(),
            ..Mixing::default()
        },
        tub: TubDraft {
            litres: "10".to_owned(),
            ..TubDraft::default()
        },
        lots: vec![lot],
        ..BathDraft::default()
    };
    assert_eq!(draft.go_on_rotated(&phone.state, phone.today), Ok(()));
    assert_eq!(
        draft.mixing.rotation_reason, "",
        "a reason for nothing is dropped"
    );
    treat(&mut phone, lot, product, "2027-01-10");
    phone.on("2027-02-10");
    let no = draft.go_on_rotated(&phone.state, phone.today);
    assert_eq!(no, Err(BathFault::Mix(MixFault::NoRotationReason)));
    draft.mixing.reason = "label silent, tried on three".to_owned();
    draft.mixing.rotation_reason = "nothing else is left on the shelf".to_owned();
    draft.go_on_rotated(&phone.state, phone.today).unwrap();
    draft.start(&phone.state, phone.now_ms).unwrap();
    let command = draft.record(&phone.state, phone.now_ms + 300_000).unwrap();
    let done = phone.act(command);
    let Some(Event::Treated(treated)) = done.events.first() else {
        panic!("{:?}", done.events)
    };
    assert_eq!(
        treated.reason,
        "label silent, tried on three\nnothing else is left on the shelf"
    );
}

#[test]
fn a_code_gets_a_row_of_its_own_with_what_held_for_it_and_once_only() {
    use velamen_core::rotation::RulesDraft;
    let (phone, ..) = nursery();
    let mut draft = RulesDraft::default();
    for no in ["", "7", "FRAC 11"] {
        draft.code = no.to_owned();
        assert!(!draft.add(&phone.state), "{no}");
    }
    draft.code = "irac 4a".to_owned();
    assert!(draft.add(&phone.state));
    let table = draft.table(&phone.state);
    let first = &table.rows[0];
    assert_eq!(
        (first.code.as_str(), first.in_a_row, first.together_days),
        ("4", Some(1), Some(21))
    );
    draft.code = "IRAC 4C".to_owned();
    assert!(!draft.add(&phone.state), "4C is of the same group");
}
