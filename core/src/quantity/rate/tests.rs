use super::*;
use proptest::prelude::*;

fn rate(text: &str) -> Rate {
    parse_rate(text).unwrap_or_else(|why| panic!("{text}: {why:?}"))
}

#[test]
fn the_usual_label_forms_are_read() {
    let exact = |text: &str| rate(text).exact();
    assert_eq!(
        exact("1.5 mL/L"),
        Ok((RateKind::MlPerLitre, Ratio::of(3, 2)))
    );
    assert_eq!(
        exact("25 mL per 10 L"),
        Ok((RateKind::MlPerLitre, Ratio::of(5, 2)))
    );
    assert_eq!(
        exact("25 ml por 10 litros"),
        Ok((RateKind::MlPerLitre, Ratio::of(5, 2)))
    );
    assert_eq!(
        exact("25 mL/(10 L)"),
        Ok((RateKind::MlPerLitre, Ratio::of(5, 2)))
    );
    assert_eq!(
        exact("150ml/100l"),
        Ok((RateKind::MlPerLitre, Ratio::of(3, 2)))
    );
    assert_eq!(
        exact("0,75 % v/v"),
        Ok((RateKind::MlPerLitre, Ratio::of(15, 2)))
    );
    assert_eq!(
        exact("2% w/v"),
        Ok((RateKind::GramsPerLitre, Ratio::whole(20)))
    );
    assert_eq!(
        exact("200 ppm"),
        Ok((RateKind::GramsPerLitre, Ratio::of(1, 5)))
    );
    assert_eq!(
        exact("16 US fl oz/100 US gal"),
        Ok((RateKind::MlPerLitre, Ratio::of(5, 4)))
    );
    assert_eq!(
        exact("5 g/m²"),
        Ok((RateKind::GramsPerSquareMetre, Ratio::whole(5)))
    );
}

#[test]
fn one_to_a_hundred_and_a_bare_percentage_are_asked_about() {
    let hundred = Decimal::whole(100);
    let ratio = vec![Meaning::PartsOfWater, Meaning::PartsInTotal];
    assert_eq!(
        parse_rate("1:100"),
        Err(QuantityError::AmbiguousUnit {
            value: hundred,
            meanings: ratio
        })
    );
    let percent = vec![Meaning::PercentByVolume, Meaning::PercentWeightInVolume];
    assert_eq!(
        parse_rate("2 %"),
        Err(QuantityError::AmbiguousUnit {
            value: Decimal::whole(2),
            meanings: percent
        })
    );
}

#[test]
fn an_ounce_on_a_label_may_be_weight_or_either_fluid_ounce() {
    let Err(QuantityError::AmbiguousUnit { meanings, .. }) = parse_rate("8 oz/100 US gal") else {
        panic!("an ounce was guessed at")
    };
    let three = [
        Unit::UsFluidOunce,
        Unit::ImperialFluidOunce,
        Unit::OunceAvoirdupois,
    ]
    .map(Meaning::Unit);
    assert_eq!(meanings, three);
    for text in ["2 tbsp/US gal", "1 US tsp/gal", "5 pt/100 imp gal"] {
        assert!(
            matches!(parse_rate(text), Err(QuantityError::AmbiguousUnit { .. })),
            "{text}"
        );
    }
}

#[test]
fn what_is_no_rate_says_why() {
    assert_eq!(parse_rate(""), Err(QuantityError::Empty));
    assert_eq!(parse_rate("5 mL"), Err(QuantityError::NotARate));
    assert_eq!(
        parse_rate("5/100"),
        Err(QuantityError::NoUnit {
            value: Decimal::whole(5)
        })
    );
    assert_eq!(parse_rate("0 mL/L"), Err(QuantityError::Zero));
    assert_eq!(parse_rate("5 mL/0 L"), Err(QuantityError::Zero));
    assert_eq!(parse_rate("-5 mL/L"), Err(QuantityError::Negative));
    assert_eq!(parse_rate("5 mL/-1 L"), Err(QuantityError::Negative));
    assert_eq!(
        parse_rate("5 L/mL"),
        Err(QuantityError::TooLarge {
            most: MOST_ML_PER_LITRE
        })
    );
    assert_eq!(
        parse_rate("101 % v/v"),
        Err(QuantityError::TooLarge {
            most: MOST_ML_PER_LITRE
        })
    );
    assert_eq!(
        parse_rate("5 mL/kg"),
        Err(QuantityError::WrongUnit { wanted: TARGET })
    );
    assert_eq!(
        parse_rate("5 m/L"),
        Err(QuantityError::WrongUnit { wanted: PRODUCT })
    );
    for text in [
        "1:",
        ":",
        "1:0",
        "🌱/L",
        "5 mL/L/L",
        "5 mL/🌱",
        "% v/v",
        "0:100",
        "1:2:3",
    ] {
        assert!(parse_rate(text).is_err(), "{text}");
    }
    assert!(parse_rate(&"1 mL/L".repeat(2_000)).is_err());
}

#[test]
fn a_tub_gets_its_product_rounded_once() {
    let tub = Volume::from_ul(12_500_000);
    assert_eq!(
        rate("2.5 mL/L").amount_for(tub),
        Ok(Amount::Volume(Volume::from_ul(31_250)))
    );
    assert_eq!(
        rate("1.5 lb/100 US gal").amount_for(tub),
        Ok(Amount::Mass(Mass::from_mg(22_467)))
    );
    assert_eq!(
        rate("5 g/m²").amount_for(tub),
        Err(QuantityError::RateIsPer {
            per: Dimension::Area
        })
    );
    assert_eq!(
        rate("5 g/m²").amount_for_area(Area::from_mm2(2_500_000)),
        Ok(Amount::Mass(Mass::from_mg(12_500)))
    );
    assert_eq!(
        rate("1 g/L").amount_for(Volume::from_ul(-1)),
        Err(QuantityError::Negative)
    );
}

#[test]
fn active_ingredient_is_worked_out_only_where_no_density_is_needed() {
    let strength = Strength::GramsPerLitre(Decimal::whole(190));
    assert_eq!(
        rate("1.5 mL/L").active_mg_per_litre(strength),
        Some(Ratio::whole(285))
    );
    assert_eq!(rate("1 g/L").active_mg_per_litre(strength), None);
    let powder = Strength::PercentByWeight(Decimal::whole(70));
    assert_eq!(
        rate("1 g/L").active_mg_per_litre(powder),
        Some(Ratio::whole(700))
    );
    assert_eq!(rate("1 mL/L").active_mg_per_litre(powder), None);
}

#[test]
fn a_stored_rate_keeps_what_was_typed() {
    let json = serde_json::to_string(&rate("6.0 US fl oz/100 US gal")).expect("json");
    assert_eq!(
        json,
        r#"{"amount":{"product":{"value":"6.0","unit":"us_fluid_ounce"},"per":{"value":"100","unit":"us_gallon"}}}"#
    );
    assert_eq!(
        serde_json::from_str::<Rate>(&json).expect("stored"),
        rate("6.0 US fl oz/100 US gal")
    );
    assert_eq!(
        serde_json::to_string(&rate("0.75 % v/v")).expect("json"),
        r#"{"percent_by_volume":{"value":"0.75"}}"#
    );
    assert!(
        serde_json::from_str::<Rate>(r#"{"percent_by_volume":{"value":"1","note":"x"}}"#).is_err()
    );
    let amount = Amount::Volume(Volume::from_ul(7));
    assert_eq!(
        serde_json::to_string(&amount).expect("json"),
        r#"{"volume":7}"#
    );
}

proptest! {
    #[test]
    fn a_rate_from_the_book_with_any_units_never_panics(a in 0..58_usize, b in 0..58_usize, v in -999_999_999_999_999_i64..=999_999_999_999_999, p in 0_u8..=12) {
        let units: Vec<Unit> = Unit::all().collect();
        let number = Decimal::new(v, p).expect("in range");
        let odd = Rate::Amount { product: Typed::new(number, units[a]), per: Typed::new(number, units[b]) };
        let _ = (odd.exact(), odd.checked(), odd.amount_for(Volume::from_ul(i64::MAX)), odd.amount_for_area(Area::from_mm2(i64::MAX)));
    }

    #[test]
    fn the_same_rate_in_other_units_asks_for_the_same_product(oz in 1_i32..64, tub in 1_i64..1_000_000_000) {
        let per = |value, unit| Typed::new(Decimal::whole(value), unit);
        let gallons = Rate::per(per(oz, Unit::UsFluidOunce), per(100, Unit::UsGallon)).expect("a rate");
        let quarts = Rate::per(per(oz * 6, Unit::UsTeaspoon), per(400, Unit::UsQuart)).expect("a rate");
        prop_assert_eq!(gallons.amount_for(Volume::from_ul(tub)), quarts.amount_for(Volume::from_ul(tub)));
    }

    #[test]
    fn any_text_is_a_rate_or_an_error(text in ".{0,80}") {
        let _ = parse_rate(&text);
    }
}
