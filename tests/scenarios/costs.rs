//! What pieces have cost: worked out by hand beside, with what is not in the sum; and bags of the grower's own size.

use velamen_core::command::{Batch, Command, ProductTraits};
use velamen_core::event::{
    AgentClass, BookSet, ClosedHow, LossCause, MixShare, Pack, PieceClass, Potting, PriceOf,
    PriceSet, ProductCopy, TreatedPart,
};
use velamen_core::id::{ClumpId, LotId, MixId, PlaceId, PotId, ProductId};
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::view::cost::{Cost, LeftOut, divisions, of_clump, of_lot};
use velamen_core::view::prepare::{Bags, Item, preparing};
use velamen_core::view::prices::prices;
use velamen_tests::{Phone, treatment};

use crate::scene::{batch, close, nursery, pieces};

struct Shop {
    pot: PotId,
    mix: MixId,
    product: ProductId,
}

fn shop(phone: &mut Phone) -> Shop {
    let traits = ProductTraits {
        label_name: Some("copper bath".to_owned()),
        ..ProductTraits::default()
    };
    phone.act(Command::SetProduct {
        product: None,
        traits,
    });
    let facts = phone.state.facts();
    Shop {
        pot: *facts.pots.keys().next().unwrap(),
        mix: *facts.mixes.keys().next().unwrap(),
        product: *facts.products.keys().next().unwrap(),
    }
}

fn pays(phone: &mut Phone, of: PriceOf, pack: Option<Pack>, cents: i64) {
    let cents = Some(cents);
    phone.act(Command::SetPrice(PriceSet { of, pack, cents }));
}

fn all_prices(phone: &mut Phone, shop: &Shop) {
    phone.act(Command::SetBook(BookSet {
        money: Some("€".to_owned()),
        ..BookSet::default()
    }));
    pays(phone, PriceOf::Pot(shop.pot), None, 30);
    pays(
        phone,
        PriceOf::Mix(shop.mix),
        Some(Pack::Ul(60_000_000)),
        1_500,
    );
    pays(phone, PriceOf::Stone, Some(Pack::Ul(20_000_000)), 400);
    pays(phone, PriceOf::Hour, None, 1_800);
    pays(phone, PriceOf::BenchMonth, None, 365);
    pays(phone, PriceOf::Label, Some(Pack::Pieces(1_000)), 1_000);
    pays(
        phone,
        PriceOf::Product(shop.product),
        Some(Pack::Ul(250_000)),
        2_000,
    );
}

fn potted(shop: &Shop, plants: u32, bench: PlaceId) -> Batch {
    let each = i64::from(plants);
    Batch {
        potting: Potting {
            pot: Some(shop.pot),
            mix: Some(shop.mix),
            mix_ul: each * 1_400_000,
            stone_ul: each * 250_000,
            ..Potting::default()
        },
        ..batch(PieceClass::Flowering, plants, bench)
    }
}

/// Four pieces in a bath of 10 mL, potted; the clump and its lot.
fn division(phone: &mut Phone, shop: &Shop, bench: PlaceId) -> (ClumpId, LotId) {
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let clump = phone.open_clump(&[lot]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Flowering, 4)],
    });
    let mut bath = treatment(
        vec![TreatedPart::Pieces {
            clump,
            class: PieceClass::Flowering,
            plants: 4,
        }],
        AgentClass::Fungus,
        ProductCopy {
            product: Some(shop.product),
            label_name: "copper bath".to_owned(),
            ..ProductCopy::default()
        },
    );
    bath.water_ul = Some(10_000_000);
    bath.amount_ul = Some(10_000);
    phone.act(Command::RecordTreatment(bath));
    phone.act(Command::PotPieces {
        clump,
        batches: vec![potted(shop, 4, bench)],
    });
    phone.wait_min(30);
    close(phone, clump, ClosedHow::Done);
    (clump, phone.state.facts().clumps[&clump].lots[0])
}

fn cents(cost: &Cost, of: &PriceOf) -> Option<i64> {
    let line = cost.lines.iter().find(|line| line.of == *of);
    line.map(|line| line.cents)
}

#[test]
fn a_piece_costs_its_pot_mix_stone_label_bath_minutes_and_bench_and_the_living_pay_for_the_dead() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let shop = shop(&mut phone);
    all_prices(&mut phone, &shop);
    let (clump, lot) = division(&mut phone, &shop, bench);
    // 73 days: a fifth of a year.
    phone.on("2027-05-23");
    phone.act(Command::LoseFromLot {
        lot,
        plants: 1,
        stands: 1,
        cause: LossCause::Rot,
        note: String::new(),
    });
    let cost = of_clump(&phone.state, clump, phone.today);
    let took = phone.state.facts().clumps[&clump].closed.as_ref().unwrap();
    let minutes = i64::from(took.took_min.unwrap());
    assert!(minutes >= 30, "{minutes}");
    assert_eq!(cents(&cost, &PriceOf::Pot(shop.pot)), Some(4 * 30));
    // 5.6 L at 25 a litre; 1 L at 20; 10 mL at 8.
    assert_eq!(cents(&cost, &PriceOf::Mix(shop.mix)), Some(140));
    assert_eq!(cents(&cost, &PriceOf::Stone), Some(20));
    assert_eq!(cents(&cost, &PriceOf::Product(shop.product)), Some(80));
    assert_eq!(cents(&cost, &PriceOf::Label), Some(4));
    assert_eq!(cents(&cost, &PriceOf::Hour), Some(minutes * 30));
    // Four pots of 17 cm, 0.1156 m², for 2.4 months of 3.65: 101.27 hundredths.
    assert_eq!(cents(&cost, &PriceOf::BenchMonth), Some(101));
    let sum = 120 + 140 + 20 + 80 + 4 + 101 + minutes * 30;
    assert_eq!((cost.cents, cost.plants, cost.alive), (sum, 4, 3));
    assert_eq!(cost.a_piece(), Some((sum + 2) / 4));
    assert_eq!(cost.a_plant_alive(), Some((2 * sum + 3) / 6));
    // What is never in it is said even where all has a price.
    assert_eq!(cost.left_out, vec![LeftOut::Plant, LeftOut::Care]);
    assert_eq!(cost.money, "€");
    assert_eq!(of_lot(&phone.state, lot, phone.today), cost);
    assert_eq!(divisions(phone.state.facts(), lot), vec![(clump, 1)]);
}

#[test]
fn a_clump_that_took_no_minute_by_the_clock_was_not_timed() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let shop = shop(&mut phone);
    all_prices(&mut phone, &shop);
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let clump = phone.open_clump(&[lot]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Flowering, 4)],
    });
    phone.act(Command::PotPieces {
        clump,
        batches: vec![potted(&shop, 4, bench)],
    });
    // All of it within a minute.
    phone.wait_min(-3);
    close(&mut phone, clump, ClosedHow::Done);
    let closed = phone.state.facts().clumps[&clump].closed.as_ref().unwrap();
    assert_eq!(closed.took_min, Some(0));
    let cost = of_clump(&phone.state, clump, phone.today);
    assert_eq!(cents(&cost, &PriceOf::Hour), None);
    assert!(cost.left_out.contains(&LeftOut::NoTime), "{cost:?}");
}

#[test]
fn what_has_no_price_is_told_and_never_guessed() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let shop = shop(&mut phone);
    let (clump, lot) = division(&mut phone, &shop, bench);
    let cost = of_clump(&phone.state, clump, phone.today);
    assert_eq!((cost.lines.len(), cost.cents), (0, 0));
    let no = |of: PriceOf| {
        let told = cost.left_out.iter();
        told.filter(|left| matches!(left, LeftOut::NoPrice { of: no, .. } if *no == of))
            .count()
    };
    for of in [
        PriceOf::Pot(shop.pot),
        PriceOf::Mix(shop.mix),
        PriceOf::Stone,
        PriceOf::Label,
        PriceOf::Hour,
        PriceOf::Product(shop.product),
    ] {
        assert_eq!(no(of.clone()), 1, "{of:?}");
    }
    // A price of a bottle of no known size pays for nothing.
    pays(&mut phone, PriceOf::Product(shop.product), None, 2_000);
    let cost = of_clump(&phone.state, clump, phone.today);
    assert_eq!(cost.lines, Vec::new());
    assert!(
        cost.left_out
            .iter()
            .any(|left| matches!(left, LeftOut::NoSize { .. }))
    );
    // A price that was said may be taken back.
    pays(&mut phone, PriceOf::Label, None, 5);
    assert_eq!(of_clump(&phone.state, clump, phone.today).cents, 20);
    pays(&mut phone, PriceOf::Label, None, -1);
    assert_eq!(of_clump(&phone.state, clump, phone.today).cents, 0);
    // A lot that came as it is: nothing of its own, and the bench where its pot is measured.
    let bought = phone.lot("Cymbidium lowianum", 2, bench);
    let cost = of_lot(&phone.state, bought, phone.today);
    assert!(cost.left_out.contains(&LeftOut::NotMeasured { stands: 2 }));
    assert!(cost.left_out.contains(&LeftOut::Plant));
    assert_ne!(bought, lot);
}

#[test]
fn a_mix_without_a_price_costs_its_parts_and_a_shared_bath_is_shared() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let shop = shop(&mut phone);
    let share = |component: &str, permille| MixShare {
        component: component.to_owned(),
        permille,
    };
    phone.act(Command::SetMix {
        mix: Some(shop.mix),
        name: None,
        shares: Some(vec![share("bark_coarse", 700), share("pumice", 300)]),
        life_months: None,
        retired: None,
    });
    let litre = Some(Pack::Ul(1_000_000));
    pays(
        &mut phone,
        PriceOf::Part("bark_coarse".to_owned()),
        litre,
        100,
    );
    pays(
        &mut phone,
        PriceOf::Product(shop.product),
        Some(Pack::Ul(250_000)),
        2_000,
    );
    let (first, lot) = division(&mut phone, &shop, bench);
    let cost = of_clump(&phone.state, first, phone.today);
    // 5.6 L of mix are 6.054 L of parts, 7.5 % lost in mixing; seven tenths of them bark: 4.238 L.
    let bark = cents(&cost, &PriceOf::Part("bark_coarse".to_owned()));
    assert_eq!(bark, Some(424));
    assert!(cost.left_out.iter().any(|left| matches!(
        left,
        LeftOut::NoPrice { of: PriceOf::Part(key), .. } if key == "pumice"
    )));
    assert_eq!(cents(&cost, &PriceOf::Product(shop.product)), Some(80));
    // The same mixture for as many again: each has half of it.
    let root = *phone.state.facts().treatments.keys().next().unwrap();
    let mut again = treatment(
        vec![TreatedPart::Lot { lot, plants: 4 }],
        AgentClass::Fungus,
        ProductCopy {
            product: Some(shop.product),
            label_name: "copper bath".to_owned(),
            ..ProductCopy::default()
        },
    );
    again.same_mix_as = Some(root);
    let other = phone.lot("Cymbidium lowianum", 4, bench);
    again.treated = vec![TreatedPart::Lot {
        lot: other,
        plants: 4,
    }];
    phone.act(Command::RecordTreatment(again));
    let cost = of_clump(&phone.state, first, phone.today);
    assert_eq!(cents(&cost, &PriceOf::Product(shop.product)), Some(40));
    let cost = of_lot(&phone.state, other, phone.today);
    assert_eq!(cents(&cost, &PriceOf::Product(shop.product)), Some(40));
}

#[test]
fn a_part_that_was_split_off_stays_in_the_sum_and_what_was_sold_lived() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let shop = shop(&mut phone);
    all_prices(&mut phone, &shop);
    let (clump, lot) = division(&mut phone, &shop, bench);
    phone.act(Command::SplitLot {
        from: lot,
        plants: 2,
        stands: 2,
        place: None,
        why: velamen_core::event::SplitWhy::Sorted,
    });
    let part = *phone.state.facts().lots[&lot].parts.keys().next().unwrap();
    phone.on("2027-05-23");
    for (lot, plants) in [(lot, 1), (part, 1)] {
        phone.act(Command::SellFromLot {
            lot,
            plants,
            stands: plants,
            to: String::new(),
            price_cents: None,
            note: String::new(),
        });
    }
    let cost = of_clump(&phone.state, clump, phone.today);
    assert_eq!((cost.plants, cost.alive), (4, 4));
    assert_eq!(
        cents(&cost, &PriceOf::BenchMonth),
        Some(101),
        "all four stood to that day"
    );
    assert_eq!(
        of_lot(&phone.state, part, phone.today),
        cost,
        "a part is counted with its whole"
    );
}

#[test]
fn a_price_stays_within_what_can_be_paid_and_is_of_something_in_the_book() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let set = |of, pack, cents| Command::SetPrice(PriceSet { of, pack, cents });
    let most = velamen_core::limits::PRICE_CENTS_MAX;
    phone.act(set(PriceOf::Stone, None, Some(most)));
    let refused = phone.refusal(set(PriceOf::Stone, None, Some(most + 1)));
    assert!(
        matches!(refused, Rejection::OutOfRange { .. }),
        "{refused:?}"
    );
    let refused = phone.refusal(set(PriceOf::Stone, Some(Pack::Ul(-1)), None));
    assert!(
        matches!(refused, Rejection::OutOfRange { .. }),
        "{refused:?}"
    );
    assert_eq!(
        phone.refusal(set(PriceOf::Stone, None, None)),
        Rejection::NothingToDo
    );
    let shop = shop(&mut phone);
    let nowhere = MixId(shop.product.0);
    let refused = phone.refusal(set(PriceOf::Mix(nowhere), None, Some(1)));
    assert!(
        matches!(refused, Rejection::NotInTheBook { .. }),
        "{refused:?}"
    );
    let rows = prices(&phone.state).rows;
    let stone = rows.iter().find(|row| row.of == PriceOf::Stone).unwrap();
    assert_eq!((stone.pack, stone.cents), (None, Some(most)));
    assert!(rows.iter().any(|row| row.of == PriceOf::Pot(shop.pot)));
}

#[test]
fn two_phones_with_two_prices_are_asked_which_one_holds() {
    let (mut first, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let mut second = first.clone();
    second.dev = velamen_core::id::Dev(8);
    second.act(Command::JoinPhone {
        prefix: velamen_core::code::Prefix::pick(8),
        name: "second".to_owned(),
    });
    pays(&mut first, PriceOf::Stone, None, 300);
    pays(&mut second, PriceOf::Stone, None, 400);
    first.take_in(&second.hand_over());
    let asked = velamen_core::view::questions::questions(&first.state);
    assert_eq!(asked.len(), 1, "{asked:?}");
    let again = asked[0].sides[1].again.clone().unwrap();
    first.act(again);
    assert_eq!(first.state.anomalies(), Vec::new());
}

#[test]
fn parts_are_brought_in_bags_of_the_size_the_grower_buys() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let shop = shop(&mut phone);
    let share = |component: &str, permille| MixShare {
        component: component.to_owned(),
        permille,
    };
    phone.act(Command::SetMix {
        mix: Some(shop.mix),
        name: None,
        shares: Some(vec![share("bark_coarse", 700), share("pumice", 300)]),
        life_months: None,
        retired: None,
    });
    crate::preparing::plan(&mut phone, lot, &[(PieceClass::Flowering, 10)], None);
    let bags = |phone: &Phone, item: &Item| {
        let list = preparing(&phone.state, phone.today);
        let row = list.rows.iter().find(|row| row.item == *item).unwrap();
        (row.needed, row.bags)
    };
    let bark = Item::Part("bark_coarse".to_owned());
    assert_eq!(bags(&phone, &bark).1, None, "nobody said the size");
    let five = Pack::Ul(5_000_000);
    let of = PriceOf::Part("bark_coarse".to_owned());
    phone.act(Command::SetPrice(PriceSet {
        of,
        pack: Some(five),
        cents: None,
    }));
    let (needed, counted) = bags(&phone, &bark);
    let whole = u32::try_from(needed.div_euclid(5_000_000) + 1).unwrap();
    assert_eq!(
        counted,
        Some(Bags {
            bags: whole,
            holds: 5_000_000
        })
    );
    assert_eq!(bags(&phone, &Item::Part("pumice".to_owned())).1, None);
    // Labels come in packs: ten of fifty are one.
    phone.act(Command::SetPrice(PriceSet {
        of: PriceOf::Label,
        pack: Some(Pack::Pieces(50)),
        cents: None,
    }));
    assert_eq!(
        bags(&phone, &Item::Labels),
        (10, Some(Bags { bags: 1, holds: 50 }))
    );
}
