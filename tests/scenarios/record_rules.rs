//! What rules of records ask for, held against what they say; a list of rules is the nursery's to change.

use velamen_core::command::{Command, PlaceTraits};
use velamen_core::event::{
    AgentClass, BookSet, Coordinates, Cover, Method, ProductCopy, RecordRule, TreatedPart,
};
use velamen_core::id::PlaceId;
use velamen_core::record::{Field, PROFILES, csv, judge, rows, rule};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_tests::{Phone, day, treatment};

use crate::records::{bathed, choose, fill, missing};
use crate::scene::nursery;

/// Key, fields, fields where a condition holds, hours to write it down, months to keep it.
type Asked<'a> = (&'a str, Vec<Field>, &'a [Field], Option<u32>, u16);

/// Lists of fields as the publications have them, in this test's own words, held against the tables field by field.
#[test]
fn the_tables_hold_the_fields_of_the_rules_they_name_and_no_others() {
    use Field::{
        Actives, Amount, Coordinates, Crop, Date, EndTime, GrowthStage, Licence, Method, Person,
        Place, PlantCode, Product, Quantity, Rate, Reentry, Registration, StartTime, UseType,
        Weather, WindOutdoors,
    };
    let au = [Product, Rate, Amount, Crop, Place, Quantity, Date, Person];
    let and = |more: &[Field]| [&au[..], more].concat();
    let us = [Product, Registration, Crop, Place, Date];
    let us = |more: &[Field]| [&us[..], more].concat();
    let years = |years: u16| years * 12;
    let days = |days: u32| Some(days * 24);
    let rules: [Asked<'_>; 9] = [
        // 7 CFR 110.3, text of 2006: brand, registration number, total amount, size treated, crop or site, location,
        // date, name and certificate of the applicator; within 14 days; kept two years.
        (
            "us_states",
            us(&[Amount, Quantity, Person, Licence]),
            &[],
            days(14),
            years(2),
        ),
        // 40 CFR 170.311: product, registration number, active ingredient, crop or site, location, date, start and
        // end, re-entry interval; displayed within 24 hours; kept two years.
        (
            "us_workers",
            us(&[Actives, StartTime, EndTime, Reentry]),
            &[],
            days(1),
            years(2),
        ),
        // (EU) 2023/564: type of use, product, number, date and start time, dose, area or quantity, location, crop; the
        // code of the plant where one exists, the growth stage where the approval is bound to it, geodata or what the
        // state provides instead; three years by (EC) 1107/2009.
        (
            "eu",
            us(&[StartTime, Rate, Quantity, UseType]),
            &[PlantCode, GrowthStage, Coordinates],
            None,
            years(3),
        ),
        // (EC) 1107/2009, article 67: name of the product, time and dose, area and crop; three years.
        (
            "gb",
            vec![Product, Date, Rate, Quantity, Crop],
            &[],
            None,
            years(3),
        ),
        // New South Wales: 48 hours, three years, wind for spraying outdoors, other weather where the label names it.
        (
            "au_nsw",
            and(&[StartTime, EndTime, Method, WindOutdoors]),
            &[Weather],
            days(2),
            years(3),
        ),
        // Victoria: 48 hours, two years, wind outdoors.
        ("au_vic", and(&[WindOutdoors]), &[], days(2), years(2)),
        // Queensland: two days, two years.
        ("au_qld", au.to_vec(), &[Weather], days(2), years(2)),
        // Western Australia: seven days, two years, with time and method.
        (
            "au_wa",
            and(&[StartTime, Method]),
            &[Weather],
            days(7),
            years(2),
        ),
        // Northern Territory: two years.
        ("au_nt", au.to_vec(), &[Weather], None, years(2)),
    ];
    for (key, mut fields, where_asked, hours, months) in rules {
        let found = PROFILES.iter().find(|profile| profile.key == key).unwrap();
        let mut of_table = found.fields.to_vec();
        of_table.sort_unstable();
        fields.sort_unstable();
        assert_eq!(of_table, fields, "{key}");
        assert_eq!(found.where_asked, where_asked, "{key}");
        let times = (found.made_within_h, found.keep_months);
        assert_eq!(times, (hours, months), "{key}");
    }
}

#[test]
fn wind_is_asked_for_a_spray_in_the_open_alone() {
    let (mut phone, bench) = nursery(Hemisphere::South, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 12, bench);
    choose(&mut phone, "au_vic", &[]);
    let done = |phone: &mut Phone, method| {
        let copy = ProductCopy {
            label_name: "Thirty".to_owned(),
            rate_typed: "1 mL/L".to_owned(),
            ..ProductCopy::default()
        };
        let parts = vec![TreatedPart::Lot { lot, plants: 12 }];
        let mut done = treatment(parts, AgentClass::Fungus, copy);
        done.method = method;
        done.amount_ul = Some(5_000);
        done.person = "A. Grower".to_owned();
        phone.act(Command::RecordTreatment(done)).entry
    };
    done(&mut phone, Method::Spray);
    assert_eq!(missing(&phone), [], "under a roof");
    place_says(
        &mut phone,
        bench,
        PlaceTraits {
            cover: Some(Cover::OpenToRain),
            ..PlaceTraits::default()
        },
    );
    done(&mut phone, Method::Drench);
    assert_eq!(missing(&phone), [], "a drench");
    let entry = done(&mut phone, Method::Spray);
    assert_eq!(missing(&phone), [Field::WindOutdoors]);
    fill(&mut phone, entry, |correction| {
        correction.record.weather = "SW 2 m/s, dry".to_owned();
    });
    assert_eq!(missing(&phone), []);
}

fn place_says(phone: &mut Phone, place: PlaceId, about: PlaceTraits) {
    phone.act(Command::SetPlace {
        place: Some(place),
        name: None,
        walk: None,
        about,
    });
}

#[test]
fn what_is_asked_for_on_a_condition_is_named_and_does_not_make_a_line_incomplete() {
    let (mut phone, _, entry) = bathed();
    choose(&mut phone, "eu", &[]);
    let judged = |phone: &Phone| {
        let lines = rows(&phone.state);
        judge(lines.last().unwrap(), &rule(phone.state.facts()))
    };
    assert_eq!(
        judged(&phone).where_asked,
        [Field::PlantCode, Field::GrowthStage, Field::Coordinates]
    );
    fill(&mut phone, entry, |correction| {
        correction.record.registration = "R 1".to_owned();
        correction.record.plant_code = "1CYBG".to_owned();
        correction.record.growth_stage = "65".to_owned();
    });
    let bench = *phone.state.facts().places.keys().next().unwrap();
    let at = PlaceTraits {
        coordinates: Coordinates::parse("40.41678, -3.70379"),
        ..PlaceTraits::default()
    };
    place_says(&mut phone, bench, at);
    let judged = judged(&phone);
    assert_eq!((judged.missing, judged.where_asked), (vec![], vec![]));
    let table = csv(&rows(&phone.state), &rule(phone.state.facts()));
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let names = reader.headers().unwrap().clone();
    let last = reader.records().last().unwrap().unwrap();
    let cell = |name: &str| {
        let at = names.iter().position(|known| known == name).unwrap();
        last.get(at).unwrap().to_owned()
    };
    assert_eq!(cell("plant_code"), "1CYBG");
    assert_eq!(cell("growth_stage"), "65");
    assert_eq!(cell("coordinates"), "40.41678, -3.70379");
}

#[test]
fn a_list_is_the_nurserys_to_change() {
    let (mut phone, ..) = bathed();
    assert_eq!(missing(&phone), [Field::Person]);
    phone.act(Command::SetBook(BookSet {
        record: Some(RecordRule {
            profile: "good_practice".to_owned(),
            more: vec!["batch".to_owned()],
            less: vec!["person".to_owned()],
            made_within_h: Some(1),
            keep_months: Some(60),
        }),
        ..BookSet::default()
    }));
    assert_eq!(missing(&phone), [Field::Batch]);
    let line = rows(&phone.state).remove(0);
    let judged = judge(&line, &rule(phone.state.facts()));
    assert_eq!(judged.keep_until, day("2032-03-01"));
}

#[test]
fn degrees_are_read_as_a_map_writes_them() {
    let read = |text: &str| Coordinates::parse(text).map(|at| at.to_string());
    let same = "40.41678, -3.70379";
    assert_eq!(read(same).as_deref(), Some(same));
    let short = read("-33.6,150.75");
    assert_eq!(short.as_deref(), Some("-33.60000, 150.75000"));
    let small = read("-0.00001, 0");
    assert_eq!(small.as_deref(), Some("-0.00001, 0.00000"));
    for wrong in [
        "",
        "40.4",
        "91, 0",
        "0, 181",
        "N 40, W 3",
        "40.4x, 3",
        "1,2,3",
    ] {
        assert_eq!(read(wrong), None, "{wrong}");
    }
}
