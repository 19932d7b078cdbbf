//! Label rates and the product a tub gets.

use velamen_core::quantity::{
    Amount, Content, ContentBy, Decimal, Mass, QuantityError, Rate, RateKind, Ratio, Strength,
    Typed, Unit, Volume, parse_rate,
};

use crate::sheet::{check_each, close};
use crate::units::{float, fraction};

/// The sheets' wording in the core's: notes in brackets are dropped, and units that a grower would have to be asked about
/// (the sheets mean the US measure and the ounce by weight) are written out.
fn label(text: &str) -> String {
    let mut text = without_notes(text).replace(" water", "");
    for (theirs, ours) in [
        ("imperial_fluid_ounce", "imp fl oz"),
        ("imperial_pint", "imp pt"),
        ("imperial_quart", "imp qt"),
        ("imperial_gallon", "imp gal"),
        ("teaspoon", "US tsp"),
        ("tablespoon", "US tbsp"),
        ("floz", "US fl oz"),
        ("gallon", "US gal"),
    ] {
        text = text.replace(theirs, ours);
    }
    let (product, per) = text.split_once('/').unwrap_or((&text, ""));
    let product = product.trim();
    let product = match product.strip_suffix(" oz") {
        Some(number) if !number.ends_with("fl") => format!("{number} oz wt"),
        _ => match product {
            "oz" => "oz wt".to_owned(),
            other => other.to_owned(),
        },
    };
    if per.is_empty() {
        product
    } else {
        format!("{product}/{}", per.trim())
    }
}

/// The text without its bracketed remarks; "(US)" and "(10 L)" are no remarks.
fn without_notes(text: &str) -> String {
    let mut kept = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('(') {
        let (inside, behind) = after.split_once(')').unwrap_or((after, ""));
        kept.push_str(before);
        let is_part = inside.starts_with(|c: char| c.is_ascii_digit())
            || ["US", "imp", "UK", "AU", "metric", "wt"].contains(&inside);
        if is_part {
            kept.push_str(&format!("({inside})"));
        }
        rest = behind;
    }
    kept.push_str(rest);
    kept.trim().to_owned()
}

fn read(text: &str) -> Result<Rate, String> {
    parse_rate(text).map_err(|why| format!("{text}: {why:?}"))
}

#[test]
fn every_label_form_is_the_exact_fraction() {
    check_each("a_rate_conversion.csv", |row| {
        let text = label(row.text("label_rate"));
        let rate = read(&format!("1 {text}"))?;
        let (kind, ours) = rate.exact().map_err(|why| format!("{text}: {why:?}"))?;
        let unit = match kind {
            RateKind::MlPerLitre => "mL/L",
            RateKind::GramsPerLitre => "g/L",
            RateKind::MlPerSquareMetre => "mL/m2",
            RateKind::GramsPerSquareMetre => "g/m2",
        };
        if unit != row.text("canonical") {
            return Err(format!("{text} counts {unit}"));
        }
        let theirs = fraction(row.text("exact_fraction"))?;
        if ours == theirs {
            Ok(())
        } else {
            Err(format!("{text} is {ours:?}, expected {theirs:?}"))
        }
    });
}

#[test]
fn every_tub_gets_the_amount_a_units_library_gives() {
    check_each("a_dose_cases.csv", |row| {
        let rate = read(&label(row.text("label_rate")))?;
        let tub = label(row.text("tub_volume"));
        let (number, unit) = tub.split_once(' ').ok_or("a tub without a unit")?;
        let unit = match unit {
            "L" => Unit::Litre,
            "mL" => Unit::Millilitre,
            "US gal" => Unit::UsGallon,
            "imp gal" => Unit::ImperialGallon,
            other => return Err(format!("a tub in {other}")),
        };
        let typed = Typed::new(
            Decimal::parse(number).map_err(|why| format!("{why:?}"))?,
            unit,
        );
        let exact = rate
            .amount_for_typed(&typed)
            .map_err(|why| format!("{why:?}"))?;
        let base = Ratio::new(1, 1_000).ok_or("a thousandth")?;
        let ours = float(exact.checked_mul(base).ok_or("out of range")?);
        close(ours, row.number("product_amount"), 1e-12)?;

        // And what is recorded, from the tub in whole microlitres, is within a microlitre or milligram of that.
        let tub = Volume::from_typed(&typed).map_err(|why| format!("{why:?}"))?;
        let (stored, unit) = match rate.amount_for(tub).map_err(|why| format!("{why:?}"))? {
            Amount::Volume(volume) => (volume.ul(), "mL"),
            Amount::Mass(mass) => (mass.mg(), "g"),
        };
        if unit != row.text("amount_unit") {
            return Err(format!("measured out in {unit}"));
        }
        if (stored as f64 - ours * 1_000.0).abs() > 1.0 {
            Err(format!("recorded {stored}, exactly {ours}"))
        } else {
            Ok(())
        }
    });
}

/// The rate of a label to four significant digits, in mL/L or g/L.
fn four_digits(text: &str) -> String {
    let exact = float(read(text).expect("a rate").exact().expect("a rate").1);
    let places = (3.0 - exact.abs().log10().floor()) as usize;
    format!("{exact:.places$}")
}

#[test]
fn american_label_rates_in_metric() {
    // Own arithmetic from the definitions in NIST Handbook 44 Appendix C, printed to three decimals or four digits.
    assert_eq!(four_digits("1 lb/100 US gal"), "1.198");
    let ounce = read("1 US fl oz/100 US gal").expect("a rate").exact();
    assert_eq!(
        ounce,
        Ok((RateKind::MlPerLitre, fraction("5/64").expect("0.078125")))
    );
    assert_eq!(four_digits("1 US tsp/US gal"), "1.302");
    assert_eq!(four_digits("8 oz wt/100 US gal"), "0.5991");
}

#[test]
fn a_190_gram_concentrate_at_one_and_a_half_millilitres_in_20_litres() {
    // Own arithmetic: 1.5 x 20 = 30 mL of product; 1.5 x 190 = 285 mg/L of active ingredient.
    let rate = read("1.5 mL/L").expect("a rate");
    assert_eq!(
        rate.amount_for(Volume::from_ul(20_000_000)),
        Ok(Amount::Volume(Volume::from_ul(30_000)))
    );
    assert_eq!(
        rate.active_mg_per_litre(Strength::GramsPerLitre(Decimal::whole(190))),
        Some(Ratio::whole(285))
    );
}

#[test]
fn a_70_per_cent_powder_at_one_gram_a_litre() {
    // Own arithmetic: 1 g/L x 0.70 = 700 mg/L.
    let rate = read("1 g/L").expect("a rate");
    assert_eq!(
        rate.active_mg_per_litre(Strength::PercentByWeight(Decimal::whole(70))),
        Some(Ratio::whole(700))
    );
    assert_eq!(
        rate.amount_for(Volume::from_ul(20_000_000)),
        Ok(Amount::Mass(Mass::from_mg(20_000)))
    );
}

/// A product without a density is one by weight; with one, its content by volume is the two figures' product.
#[test]
fn parts_per_million_of_active_come_out_of_the_content() {
    check_each("a_ppm_ai_cases.csv", |row| {
        let percent = row.number("pct_ai_w_w");
        let density = row.text("density_g_per_mL").parse::<f64>().ok();
        let liquid = row.text("formulation") == "liquid";
        let (by, each) = match density.filter(|_| liquid) {
            Some(density) => (ContentBy::Litre, percent * 10_000.0 * density),
            None => (ContentBy::Kilogram, percent * 10_000.0),
        };
        let content = Content {
            by,
            mg: each.round() as i64,
        };
        close(content.mg as f64, each, 1e-9)?;
        let value =
            Decimal::parse(row.text("target_ppm_ai_mg_per_L")).map_err(|why| format!("{why:?}"))?;
        let litres = row.number("mix_volume_L");
        let rate = match (Rate::PartsPerMillion { value }).through(content) {
            Ok(rate) => rate,
            // So weak a product that there would be more of it than of the mixture: refused, and rightly.
            Err(QuantityError::TooLarge { .. })
                if row.number("product_amount") > litres * 1_000.0 =>
            {
                return Ok(());
            }
            Err(why) => return Err(format!("{why:?}")),
        };
        let (kind, exact) = rate.exact().map_err(|why| format!("{why:?}"))?;
        let unit = if kind == RateKind::MlPerLitre {
            "mL"
        } else {
            "g"
        };
        if unit != row.text("unit") {
            return Err(format!("measured out in {unit}"));
        }
        close(float(exact) * litres, row.number("product_amount"), 1e-12)
    });
}

/// mg/L of active in a mixture of this rate.
fn mg_per_litre(rate: &str, strength: Strength) -> f64 {
    let rate = read(rate).expect("a rate");
    float(
        rate.active_mg_per_litre(strength)
            .expect("figures that meet"),
    )
}

#[test]
fn bleach_and_fertiliser_as_extension_services_print_them() {
    // Kansas KDHE: an ounce of 5.25 % in a gallon is 410 ppm; 50 ppm in 1,000 gallons at that rate 122 ounces.
    let ounce = mg_per_litre(
        "1 US fl oz/US gal",
        Strength::GramsPerLitre(Decimal::new(525, 1).expect("52.5")),
    );
    assert_eq!(format!("{ounce:.2}"), "410.16");
    assert_eq!(format!("{:.0}", 50.0 * 1_000.0 / ounce), "122");
    // Fertiliser pages: 1 g/L of 20 % N is 200 ppm.
    let nitrogen = mg_per_litre("1 g/L", Strength::PercentByWeight(Decimal::whole(20)));
    assert_eq!(format!("{nitrogen:.3}"), "200.000");
}

#[test]
fn fertiliser_by_the_parts_per_million_wanted() {
    let grams = |ppm: i32, percent: i64| {
        let rate = Rate::PartsPerMillion {
            value: Decimal::whole(ppm),
        };
        let content = Content {
            by: ContentBy::Kilogram,
            mg: percent * 100,
        };
        float(
            rate.through(content)
                .expect("a rate")
                .exact()
                .expect("a rate")
                .1,
        )
    };
    // Own arithmetic: 44 % K2O x 0.83 = 36.52 % K; 62 % P2O5 x 0.44 = 27.28 % P.
    assert_eq!(format!("{:.3}", grams(200, 3_652)), "0.548");
    assert_eq!(format!("{:.3}", grams(100, 2_728)), "0.367");
    // Cornell floriculture and an injector chart, in ounces to the gallon of stock; they reckon 75 mg/L to the ounce in
    // 100 gallons where it is 74.89, so theirs are 0.14 % lower.
    let ounces =
        |grams_per_litre: f64, fold: f64| grams_per_litre * fold * 3.785_411_784 / 28.349_523_125;
    for (ours, printed) in [
        (ounces(grams(150, 2_000), 200.0), 20.0),
        (ounces(grams(200, 1_500), 100.0), 17.78),
    ] {
        assert!(
            (ours / printed - 1.0).abs() < 0.002,
            "{ours} against {printed}"
        );
    }
}
