//! Before the cut: what a clump may become, kept as a plan, carried to the bench and compared with what came off.

use velamen_core::command::{Command, OpenDivision};
use velamen_core::cut::{
    Against, Due, against, choice, choices, first_mix, first_pot, needs, of_lots, repot_now,
};
use velamen_core::cut_draft::{CutDraft, CutWhat};
use velamen_core::event::{
    ClosedHow, CutPlan, Event, MixShare, PieceClass, PlannedPieces, Potting, Sight, Way,
};
use velamen_core::id::{ClumpId, LotId};
use velamen_core::outlook::{forecast, forecast_as_planned};
use velamen_core::reference::taxa::Group;
use velamen_core::rejection::{Input, Rejection};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::view::cut::{before_cut, chosen, plan_of_lots};
use velamen_core::view::repot;
use velamen_tests::{Phone, day};

use crate::scene::{batch, close, nursery, pieces};

fn three_pots() -> (Phone, velamen_core::id::PlaceId, Vec<LotId>) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lots = (0..3)
        .map(|_| phone.lot("Cymbidium lowianum", 1, bench))
        .collect();
    (phone, bench, lots)
}

fn plan(way: Way, pieces: &[(PieceClass, u32)]) -> CutPlan {
    let row = |(class, plants): &(PieceClass, u32)| PlannedPieces {
        class: *class,
        plants: *plants,
        low: None,
        high: None,
    };
    CutPlan {
        way,
        pieces: pieces.iter().map(row).collect(),
        whole: 0,
        leads: None,
        growths: None,
        size: None,
        by_on: None,
    }
}

fn keep(lots: &[LotId], plan: Option<CutPlan>) -> Command {
    Command::PlanDivision {
        lots: lots.to_vec(),
        clump: None,
        plan,
    }
}

#[test]
fn eighteen_bulbs_and_three_leads_are_three_that_flower_and_six_back_bulbs() {
    let (phone, _, lots) = three_pots();
    let mut known = of_lots(phone.state.facts(), &lots).unwrap();
    assert_eq!((known.wholes, known.pots), (1, 3), "they grew together");
    known.leads = Some(3);
    known.growths = Some(18);
    let ways: Vec<Way> = choices(&known).iter().map(|it| it.way).collect();
    assert_eq!(ways, [Way::KeepWhole, Way::FewLarge, Way::ManySmall]);
    let few = choice(&known, Way::FewLarge);
    // Four bulbs a piece, between the three and five that flower; 18 - 12 are left.
    assert_eq!(few.of(PieceClass::Flowering).middle, 3);
    assert_eq!(few.of(PieceClass::BackBulb).middle, 6);
    assert_eq!(few.of(PieceClass::Starter).high, 0);
    let small = choice(&known, Way::ManySmall);
    assert_eq!(small.of(PieceClass::Starter).middle, 3, "a lead each");
    assert_eq!(small.of(PieceClass::BackBulb).middle, 12);
    // A guess of eighteen may be thirteen, and one bulb that is left stays on its piece.
    assert_eq!(few.of(PieceClass::BackBulb).low, 0);
}

#[test]
fn an_unopened_clump_is_a_range_and_a_size_is_enough() {
    let (phone, _, lots) = three_pots();
    let known = of_lots(phone.state.facts(), &lots).unwrap();
    let growths = known.growths();
    assert!(growths.low < growths.middle && growths.middle < growths.high);
    let few = choice(&known, Way::FewLarge);
    let flowering = few.of(PieceClass::Flowering);
    assert!(flowering.low < flowering.high, "{flowering:?}");
    for choice in choices(&known) {
        for (_, span) in &choice.pieces {
            assert!(span.low <= span.middle && span.middle <= span.high);
        }
    }
}

#[test]
fn the_habit_decides_what_is_possible() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let slipper = phone.lot("Paphiopedilum insigne", 1, bench);
    let moth = phone.lot("Phalaenopsis amabilis", 2, bench);
    let facts = phone.state.facts();
    let mut known = of_lots(facts, &[slipper]).unwrap();
    known.growths = Some(7);
    for choice in choices(&known) {
        assert_eq!(
            choice.of(PieceClass::BackBulb).high,
            0,
            "no bulbs, no back-bulbs"
        );
    }
    assert_eq!(
        choice(&known, Way::FewLarge)
            .of(PieceClass::Flowering)
            .middle,
        2
    );
    let said = against(&known, &plan(Way::Own, &[(PieceClass::BackBulb, 2)]));
    assert_eq!(said, [Against::NoBackBulbs]);

    let known = of_lots(facts, &[moth]).unwrap();
    let ways: Vec<Way> = choices(&known).iter().map(|it| it.way).collect();
    assert_eq!(ways, [Way::KeepWhole, Way::Offshoots, Way::TopCut]);
    let top = choice(&known, Way::TopCut);
    assert_eq!(
        (
            top.of(PieceClass::Keiki).middle,
            top.of(PieceClass::BackBulb).middle
        ),
        (2, 2),
        "a top and a stump each"
    );
    let said = against(&known, &plan(Way::Own, &[(PieceClass::Starter, 4)]));
    assert_eq!(said, [Against::OneStem]);
}

#[test]
fn choosing_against_the_sizes_is_allowed_and_said() {
    let (mut phone, _, lots) = three_pots();
    let mut known = of_lots(phone.state.facts(), &lots).unwrap();
    known.leads = Some(3);
    known.growths = Some(9);
    let own = plan(Way::Own, &[(PieceClass::Flowering, 5)]);
    let said = against(&known, &own);
    assert!(matches!(
        said[0],
        Against::MoreThanGrowths { needed: 15, .. }
    ));
    assert!(matches!(said[1], Against::MoreThanLeads { pieces: 5, .. }));
    phone.act(keep(&lots, Some(own.clone())));
    assert_eq!(plan_of_lots(phone.state.facts(), &lots), Some(own));
}

#[test]
fn a_plan_goes_to_the_bench_and_says_how_many_were_expected() {
    let (mut phone, bench, lots) = three_pots();
    let wanted = plan(
        Way::FewLarge,
        &[(PieceClass::Flowering, 3), (PieceClass::BackBulb, 6)],
    );
    phone.act(keep(&lots, Some(wanted.clone())));
    let opened = phone.act(Command::OpenDivision(OpenDivision {
        tray: 1,
        lots: lots
            .iter()
            .map(|lot| velamen_core::event::OpenedLot {
                lot: *lot,
                plants: 1,
                stands: 1,
            })
            .collect(),
        plan: plan_of_lots(phone.state.facts(), &lots),
        ..OpenDivision::default()
    }));
    let Event::DivisionOpened(event) = &opened.events[0] else {
        panic!("{opened:?}")
    };
    let clump = event.clump;
    assert!(
        lots.iter()
            .all(|lot| phone.state.facts().lots[lot].plan.is_none()),
        "the plan went along"
    );
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![
            pieces(PieceClass::Flowering, 4),
            pieces(PieceClass::BackBulb, 5),
        ],
    });
    phone.act(Command::PotPieces {
        clump,
        batches: vec![
            batch(PieceClass::Flowering, 4, bench),
            batch(PieceClass::BackBulb, 5, bench),
        ],
    });
    close(&mut phone, clump, ClosedHow::Done);
    let view = repot::clump(&phone.state, clump).unwrap();
    let said = view.plan.unwrap();
    assert_eq!(said, wanted);
    let off = |class| {
        view.classes
            .iter()
            .find(|it| it.class == class)
            .unwrap()
            .taken
    };
    assert_eq!(said.of_class(PieceClass::Flowering), Some((3, 3, 3)));
    assert_eq!(off(PieceClass::Flowering), 4);
    assert_eq!(off(PieceClass::BackBulb), 5);
}

#[test]
fn a_clump_on_the_bench_is_planned_until_the_first_piece_is_off() {
    let (mut phone, _, lots) = three_pots();
    let clump = phone.open_clump(&lots);
    let command = |plan| Command::PlanDivision {
        lots: Vec::new(),
        clump: Some(clump),
        plan,
    };
    let first = plan(Way::ManySmall, &[(PieceClass::Starter, 6)]);
    phone.act(command(Some(first.clone())));
    assert_eq!(phone.state.facts().clumps[&clump].plan, Some(first.clone()));
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Starter, 1)],
    });
    assert_eq!(phone.refusal(command(None)), Rejection::AlreadyCut);
    assert_eq!(phone.state.facts().clumps[&clump].plan, Some(first));
}

#[test]
fn bad_plans_are_told_in_one_word_and_nothing_is_lost() {
    let (mut phone, _, lots) = three_pots();
    let good = plan(Way::Own, &[(PieceClass::Starter, 2)]);
    assert_eq!(
        phone.refusal(keep(&[], Some(good.clone()))),
        Rejection::Missing { input: Input::Pots }
    );
    assert_eq!(
        phone.refusal(keep(&[lots[0], lots[0]], Some(good.clone()))),
        Rejection::LotTwice { lot: lots[0] }
    );
    assert_eq!(
        phone.refusal(keep(&lots, Some(plan(Way::Own, &[])))),
        Rejection::Missing {
            input: Input::Pieces
        }
    );
    let many = plan(Way::Own, &[(PieceClass::Starter, 5_000)]);
    assert!(matches!(
        phone.refusal(keep(&lots, Some(many))),
        Rejection::TooMany { .. }
    ));
    let far = CutPlan {
        by_on: Some(day("2099-01-01")),
        ..good.clone()
    };
    assert!(matches!(
        phone.refusal(keep(&lots, Some(far))),
        Rejection::DayOutOfRange { .. }
    ));
    phone.act(keep(&lots, Some(good)));
    phone.act(keep(&lots, None));
    assert_eq!(phone.state.facts().lots[&lots[0]].plan, None);
}

#[test]
fn what_a_way_takes_follows_from_the_shelf() {
    let (phone, _, lots) = three_pots();
    let mut known = of_lots(phone.state.facts(), &lots).unwrap();
    known.leads = Some(3);
    known.growths = Some(18);
    let few = needs(&phone.state, &known, &choice(&known, Way::FewLarge));
    // A piece of four bulbs wants 150 mm; the shelf has 17 cm and 9 cm.
    let large = &few.pots[0];
    assert_eq!(
        (large.name.as_str(), large.stands, large.narrow),
        ("17 cm", 3, false)
    );
    // Three such pots with stone to a quarter and 15 mm of room: 1.43 L each and a ninth for settling.
    let each = large.mix_volume.ul() / 3;
    assert!((1_550_000..1_650_000).contains(&each), "{each}");
    // 0.407 L of stone, as worked out by hand for this pot.
    assert_eq!((large.stone.ul() / 3 + 500) / 1_000, 407);
    let tray = &few.pots[1];
    assert!(tray.tray && tray.stands == 1 && tray.class == Some(PieceClass::BackBulb));
    assert_eq!(few.labels, 4);
    // 17 cm square three times.
    assert_eq!(few.bench_cm2, 3 * 17 * 17);
    assert_eq!(few.unmeasured, 1, "nobody measured a tray");
    let small = needs(&phone.state, &known, &choice(&known, Way::ManySmall));
    let whole = needs(&phone.state, &known, &choice(&known, Way::KeepWhole));
    assert!(whole.minutes.middle < few.minutes.middle);
    assert!(small.minutes.low < small.minutes.middle && small.minutes.middle < small.minutes.high);
    assert!(whole.pots[0].narrow, "eighteen bulbs want more than 17 cm");
}

#[test]
fn the_screen_sets_flowers_and_sale_side_by_side() {
    let (phone, _, lots) = three_pots();
    let draft = CutDraft {
        leads: Some(3),
        growths: Some(18),
        way: Some(Way::FewLarge),
        ..CutDraft::default()
    };
    let what = CutWhat::Lots(lots.clone());
    let view = before_cut(&phone.state, &what, &draft, phone.today).unwrap();
    let [whole, few, small] = [0, 1, 2].map(|at| &view.ways[at]);
    assert_eq!(whole.ahead.seasons.len(), 3);
    assert_eq!(whole.ahead.seasons[0].in_flower.middle, 1, "it flowers on");
    // Ready between 6 and 18 months after March: in the second season nearly all of those that live.
    assert!(few.ahead.seasons[1].in_flower.middle >= 2);
    assert_eq!(
        small.ahead.seasons[0].in_flower.middle, 0,
        "small pieces flower later"
    );
    assert!(small.ahead.saleable[4].1.middle > few.ahead.saleable[0].1.middle);
    for way in &view.ways {
        for (_, span) in &way.ahead.saleable {
            let most: u32 = way.choice.pieces.iter().map(|(_, span)| span.high).sum();
            assert!(span.high <= most + way.choice.whole, "{span:?} of {most}");
        }
    }
    let plan = chosen(&phone.state, &what, &draft).unwrap();
    assert_eq!(plan.of_class(PieceClass::Flowering).unwrap().1, 3);
    assert_eq!(plan.growths, Some(18));
}

#[test]
fn what_is_planned_changes_the_forecast_and_a_clump_counts_once() {
    let (mut phone, _, lots) = three_pots();
    assert_eq!(forecast_as_planned(&phone.state, phone.today), None);
    let wanted = plan(
        Way::FewLarge,
        &[(PieceClass::Flowering, 3), (PieceClass::BackBulb, 6)],
    );
    let later = CutPlan {
        by_on: Some(day("2027-06-01")),
        ..wanted
    };
    phone.act(keep(&lots, Some(later)));
    let now = forecast(&phone.state, phone.today);
    let planned = forecast_as_planned(&phone.state, phone.today).unwrap();
    assert_eq!((planned.cuts, planned.pieces), (1, 9));
    let of = |months: &[velamen_core::outlook::Month], on: &str| {
        *months
            .iter()
            .find(|it| it.first == day(on))
            .map(|it| &it.saleable)
            .unwrap()
    };
    // Until it is cut the clump's three pots stand there; then none of its pieces is of a size.
    assert_eq!(
        of(&now.months, "2027-04-01"),
        of(&planned.forecast.months, "2027-04-01")
    );
    assert_eq!(of(&planned.forecast.months, "2027-07-01").middle, 0);
    assert_eq!(of(&now.months, "2027-07-01").middle, 3);
    for month in &planned.forecast.months {
        assert!(month.saleable.high <= 9 && month.in_flower.high <= 9);
    }
    // On the bench the plan goes on counting, and nothing else of it does.
    let clump: ClumpId = {
        let opened = phone.act(Command::OpenDivision(OpenDivision {
            tray: 1,
            lots: lots
                .iter()
                .map(|lot| velamen_core::event::OpenedLot {
                    lot: *lot,
                    plants: 1,
                    stands: 1,
                })
                .collect(),
            name: phone.state.facts().lots[&lots[0]].name.or_default(),
            plan: plan_of_lots(phone.state.facts(), &lots),
            ..OpenDivision::default()
        }));
        match &opened.events[0] {
            Event::DivisionOpened(event) => event.clump,
            other => panic!("{other:?}"),
        }
    };
    let planned = forecast_as_planned(&phone.state, phone.today).unwrap();
    assert_eq!((planned.cuts, planned.pieces), (1, 9));
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Flowering, 2)],
    });
    assert_eq!(forecast_as_planned(&phone.state, phone.today), None);
}

#[test]
fn whether_to_repot_now_is_told_with_its_reasons() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2025-03-01");
    let lot = phone.lot("Coelogyne cristata", 1, bench);
    let due = |phone: &Phone| repot_now(&phone.state, lot, phone.today).unwrap().due;
    assert_eq!(due(&phone), Due::NotKnown);
    phone.act(Command::RepotLot {
        lot,
        stands: 1,
        potting: Potting {
            mix_life_months: 24,
            ..Potting::default()
        },
        class: None,
    });
    phone.on("2026-03-01");
    assert_eq!(due(&phone), Due::NotYet);
    // Two years on the mix is at its end: in its window now, out of it when the window opens.
    phone.on("2027-03-20");
    assert_eq!(due(&phone), Due::Now);
    phone.on("2027-08-01");
    let told = repot_now(&phone.state, lot, phone.today).unwrap();
    assert_eq!(
        told.due,
        Due::Wait {
            opens_on: day("2028-03-01")
        }
    );
    assert_eq!(
        (told.months, told.life_pct, told.own_life),
        (Some(29), Some(120), true)
    );
    // Past 130 % it does not wait.
    phone.on("2027-12-01");
    assert!(matches!(due(&phone), Due::NowOutOfSeason { .. }));
    // What left its pot is due however young its mix is.
    phone.on("2026-03-20");
    phone.act(Command::Observe {
        lots: vec![lot],
        what: Sight::Outgrown,
        good: None,
        note: String::new(),
    });
    assert_eq!(due(&phone), Due::Now);
}

#[test]
fn pieces_nobody_potted_before_begin_in_the_pot_and_mix_of_their_kind() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let of = |phone: &Phone, group, class, plants| {
        let facts = phone.state.facts();
        let pot = first_pot(facts, group, class, plants).unwrap();
        facts.pots[&pot].name.or_default()
    };
    let first = |phone: &Phone, group, class| of(phone, group, class, 1);
    let cymbidium = Group::Cymbidium;
    assert_eq!(first(&phone, cymbidium, PieceClass::Flowering), "17 cm");
    assert_eq!(first(&phone, cymbidium, PieceClass::Keiki), "9 cm");
    // What shares a tray takes more room the more there are.
    for (plants, name) in [(1, "9 cm"), (4, "9 cm"), (5, "17 cm"), (u32::MAX, "17 cm")] {
        let pot = of(&phone, cymbidium, PieceClass::BackBulb, plants);
        assert_eq!(pot, name, "{plants}");
    }
    assert_eq!(
        first(&phone, Group::DendrobiumNobile, PieceClass::Starter),
        "9 cm"
    );
    let mix = |phone: &Phone, class| first_mix(phone.state.facts(), class);
    assert_eq!(mix(&phone, PieceClass::BrokenShoot), None, "no moss yet");
    let share = |component: &str, permille| MixShare {
        component: component.to_owned(),
        permille,
    };
    let mixes = [
        vec![share("bark_coarse", 800), share("sphagnum_long", 200)],
        vec![share("sphagnum_long", 1_000)],
    ];
    for (nth, shares) in mixes.into_iter().enumerate() {
        phone.act(Command::SetMix {
            mix: None,
            name: Some(format!("mix {nth}")),
            shares: Some(shares),
            life_months: None,
            retired: None,
        });
    }
    for class in [PieceClass::BrokenShoot, PieceClass::Keiki] {
        let of_moss = mix(&phone, class).unwrap();
        let name = phone.state.facts().mixes[&of_moss].name.or_default();
        assert_eq!(name, "mix 1");
    }
    assert_eq!(mix(&phone, PieceClass::Flowering), None);
}
