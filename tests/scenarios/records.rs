//! The record of treatments: complete or not under a rule, corrected without losing a word, out as a file.

use velamen_core::command::{Command, PlaceTraits};
use velamen_core::correction::Correction;
use velamen_core::event::{
    ActiveCopy, AgentClass, BookSet, Coordinates, Cover, Event, Method, ProductCopy, RecordRule,
    TreatedPart, WithdrawWhy,
};
use velamen_core::id::{EntryRef, LotId, PlaceId};
use velamen_core::record::{COLUMNS, Field, PROFILES, Standing, csv, json, judge, rows, rule};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_tests::{Phone, day, treatment};

use crate::scene::nursery;

fn bathed() -> (Phone, LotId, EntryRef) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 12, bench);
    let product = ProductCopy {
        label_name: "=Test powder, \"fine\"".to_owned(),
        actives: vec![ActiveCopy {
            name: "copper hydroxide".to_owned(),
            content_mg: Some(500_000),
            content_typed: "500 g/kg".to_owned(),
            codes: vec!["M01".to_owned()],
        }],
        rate_typed: "2.5 g/L".to_owned(),
        reentry_h: Some(4),
        ..ProductCopy::default()
    };
    let parts = vec![TreatedPart::Lot { lot, plants: 12 }];
    let mut bath = treatment(parts, AgentClass::Fungus, product);
    bath.water_ul = Some(8_000_000);
    bath.amount_mg = Some(20_000);
    bath.started_ms = Some(phone.now_ms - 600_000);
    bath.ended_ms = Some(phone.now_ms);
    let done = phone.act(Command::RecordTreatment(bath));
    (phone, lot, done.entry)
}

fn choose(phone: &mut Phone, profile: &str, more: &[&str]) {
    phone.act(Command::SetBook(BookSet {
        record: Some(RecordRule {
            profile: profile.to_owned(),
            more: more.iter().map(|key| (*key).to_owned()).collect(),
            ..RecordRule::default()
        }),
        ..BookSet::default()
    }));
}

fn missing(phone: &Phone) -> Vec<Field> {
    let lines = rows(&phone.state);
    judge(lines.last().unwrap(), &rule(phone.state.facts())).missing
}

fn fill(phone: &mut Phone, entry: EntryRef, how: impl Fn(&mut Correction)) {
    let lines = rows(&phone.state);
    let now = Event::Treated(lines.last().unwrap().treated.clone());
    let mut correction = Correction::of(0, &now);
    how(&mut correction);
    phone.act(Command::Amend {
        target: entry,
        index: 0,
        event: correction.applied(&now),
        why: "filled in".to_owned(),
    });
}

#[test]
fn each_rule_misses_what_it_asks_for_and_nothing_else() {
    let (mut phone, ..) = bathed();
    assert_eq!(
        missing(&phone),
        [Field::Person],
        "a new book keeps good practice"
    );
    for (profile, expected) in [
        (
            "us_states",
            vec![Field::Registration, Field::Person, Field::Licence],
        ),
        ("us_workers", vec![Field::Registration]),
        ("eu", vec![Field::Registration]),
        ("au_states", vec![Field::Person, Field::Weather]),
    ] {
        choose(&mut phone, profile, &[]);
        assert_eq!(missing(&phone), expected, "{profile}");
    }
    choose(&mut phone, "eu", &["batch", "disposal"]);
    assert_eq!(
        missing(&phone),
        [Field::Registration, Field::Batch, Field::Disposal]
    );
}

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
    let rules: [(&str, Vec<Field>, &[Field], Option<u32>, u16); 9] = [
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

#[test]
fn what_is_filled_in_later_stands_beside_what_was_said_first() {
    let (mut phone, _, entry) = bathed();
    fill(&mut phone, entry, |correction| {
        correction.record.person = " A. Grower ".to_owned();
    });
    assert!(missing(&phone).is_empty());
    let lines = rows(&phone.state);
    let stands: Vec<_> = lines.iter().map(|row| row.standing).collect();
    assert_eq!(stands, [Standing::Replaced, Standing::Counts]);
    assert_eq!(lines[0].treated.person, "");
    assert_eq!(lines[1].treated.person, "A. Grower");
    phone.act(Command::Withdraw {
        targets: vec![entry],
        with_dependents: true,
        why: WithdrawWhy::Mistake,
        note: String::new(),
    });
    let last = rows(&phone.state).last().unwrap().standing;
    assert_eq!(last, Standing::Withdrawn(WithdrawWhy::Mistake));
}

#[test]
fn a_record_made_too_late_says_by_how_much_and_all_say_how_long_they_are_kept() {
    let (mut phone, _, entry) = bathed();
    let rule_now = |phone: &Phone| rule(phone.state.facts());
    let line = rows(&phone.state).remove(0);
    assert_eq!(judge(&line, &rule_now(&phone)).late_h, None);
    assert_eq!(
        judge(&line, &rule_now(&phone)).keep_until,
        day("2030-03-01")
    );
    choose(&mut phone, "eu", &[]);
    let line = rows(&phone.state).remove(0);
    assert_eq!(
        judge(&line, &rule_now(&phone)).keep_until,
        day("2031-01-01")
    );
    let mut late = line.clone();
    late.made_ms += 30 * 3_600_000;
    choose(&mut phone, "good_practice", &[]);
    assert_eq!(judge(&late, &rule_now(&phone)).late_h, Some(30));
    assert_eq!(line.entry, entry);
}

#[test]
fn the_file_reads_back_word_for_word_and_no_cell_is_a_formula() {
    let (mut phone, _, entry) = bathed();
    fill(&mut phone, entry, |correction| {
        correction.record.disposal = "kept for the next bath;\nthen handed in".to_owned();
        correction.record.person = "+44 person".to_owned();
    });
    let lines = rows(&phone.state);
    let rule = rule(phone.state.facts());
    let text = csv(&lines, &rule);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let heads = reader.headers().unwrap().clone();
    assert_eq!(heads.iter().collect::<Vec<_>>(), COLUMNS);
    let records: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(records.len(), 2);
    let cell = |row: usize, column: &str| {
        let at = COLUMNS.iter().position(|name| *name == column).unwrap();
        records[row].get(at).unwrap().to_owned()
    };
    assert_eq!(cell(0, "standing"), "replaced");
    assert_eq!(cell(1, "standing"), "counts");
    assert_eq!(cell(1, "product"), "'=Test powder, \"fine\"");
    assert_eq!(cell(1, "person"), "'+44 person");
    assert_eq!(
        cell(1, "disposal"),
        "kept for the next bath;\nthen handed in"
    );
    assert_eq!(
        (cell(1, "amount"), cell(1, "amount_unit")),
        ("20".into(), "g".into())
    );
    assert_eq!(cell(1, "water_l"), "8");
    assert_eq!(cell(1, "date"), "2027-03-01");
    assert!(cell(1, "start").ends_with("+01:00"), "{}", cell(1, "start"));
    assert_eq!(cell(1, "crop"), "Cymbidium lowianum");
    assert_eq!(cell(1, "use_type"), "closed space");
    assert_eq!(cell(1, "codes"), "M01");
    for record in &records {
        for text in record {
            assert!(!text.starts_with(['=', '+', '-', '@']), "{text}");
        }
    }

    let list: Vec<serde_json::Value> = serde_json::from_str(&json(&lines, &rule)).unwrap();
    assert_eq!(list.len(), 2);
    assert_eq!(list[1]["product"], "=Test powder, \"fine\"");
    assert_eq!(list[1]["plants"], 12);
    assert_eq!(list[1]["reentry_h"], 4);
    assert_eq!(list[0]["missing"], "person");
    assert!(list[1].get("missing").is_none());
}

#[test]
fn a_batch_of_one_mixture_is_not_missing_what_was_measured_once() {
    let (mut phone, lot, _) = bathed();
    let first = *phone.state.facts().treatments.keys().next().unwrap();
    let parts = vec![TreatedPart::Lot { lot, plants: 2 }];
    let product = rows(&phone.state)[0].treated.product.clone();
    let mut again = treatment(parts, AgentClass::Fungus, product);
    again.same_mix_as = Some(first);
    phone.act(Command::RecordTreatment(again));
    choose(&mut phone, "good_practice", &["water"]);
    assert_eq!(missing(&phone), [Field::Person]);
}

#[test]
fn every_reading_stays_in_the_record_with_when_and_why_it_was_corrected() {
    let (mut phone, _, entry) = bathed();
    for name in ["A. Grower", "B. Grower"] {
        phone.wait_min(60);
        fill(&mut phone, entry, |correction| {
            name.clone_into(&mut correction.record.person);
        });
    }
    let lines = rows(&phone.state);
    let said: Vec<(&str, Standing)> = lines
        .iter()
        .map(|row| (row.treated.person.as_str(), row.standing))
        .collect();
    assert_eq!(
        said,
        [
            ("", Standing::Replaced),
            ("A. Grower", Standing::Replaced),
            ("B. Grower", Standing::Counts)
        ]
    );
    assert_eq!(lines[0].corrected, None);
    let (at_ms, why) = lines[1].corrected.clone().unwrap();
    assert!(at_ms > lines[0].made_ms && why == "filled in");
    assert!(lines.iter().all(|row| row.made_ms == lines[0].made_ms));
}

#[test]
fn a_lot_that_was_moved_afterwards_was_still_treated_where_it_stood() {
    let (mut phone, lot, _) = bathed();
    let away = phone.place("Rain bench", Warmth::Cool);
    phone.on("2027-03-09");
    phone.act(Command::MoveLot { lot, to: away });
    assert_eq!(rows(&phone.state).last().unwrap().places, ["The house"]);
    // Written down late, for a day before the move, and for a day after it.
    let product = ProductCopy {
        label_name: "Bottle B".to_owned(),
        ..ProductCopy::default()
    };
    for (on, place) in [("2027-03-05", "The house"), ("2027-03-09", "Rain bench")] {
        let parts = vec![TreatedPart::Lot { lot, plants: 12 }];
        phone.act(Command::OnDay {
            on: day(on),
            command: Box::new(Command::RecordTreatment(treatment(
                parts,
                AgentClass::Fungus,
                product.clone(),
            ))),
        });
        assert_eq!(rows(&phone.state).last().unwrap().places, [place], "{on}");
    }
}

#[test]
fn a_treatment_written_down_by_hand_can_be_filled_in_until_it_is_complete() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 12, bench);
    let product = ProductCopy {
        label_name: "Bottle B".to_owned(),
        ..ProductCopy::default()
    };
    let parts = vec![TreatedPart::Lot { lot, plants: 12 }];
    let done = phone.act(Command::RecordTreatment(treatment(
        parts,
        AgentClass::Fungus,
        product,
    )));
    choose(&mut phone, "us_workers", &["amount", "water", "rate"]);
    assert_eq!(
        missing(&phone),
        [
            Field::Registration,
            Field::Actives,
            Field::Amount,
            Field::Rate,
            Field::Water,
            Field::StartTime,
            Field::EndTime,
            Field::Reentry
        ]
    );
    let lines = rows(&phone.state);
    let (on, off_min) = (lines[0].on, lines[0].off_min);
    fill(&mut phone, done.entry, |correction| {
        let texts = &mut correction.record;
        texts.day = Some((on, off_min));
        texts.registration = "00-17".to_owned();
        texts.actives = "triforine 190 g/L; captan".to_owned();
        texts.amount = "12.5 mL".to_owned();
        texts.water = "10 L".to_owned();
        texts.rate = "1.25 mL/L".to_owned();
        texts.start = "23:50".to_owned();
        texts.end = "0.05".to_owned();
        texts.reentry = "12 h".to_owned();
        assert_eq!(texts.unreadable(), []);
    });
    assert_eq!(missing(&phone), []);
    let now = rows(&phone.state).last().unwrap().treated.clone();
    assert_eq!(
        (now.amount_ul, now.water_ul),
        (Some(12_500), Some(10_000_000))
    );
    assert_eq!(now.ended_ms.unwrap() - now.started_ms.unwrap(), 15 * 60_000);
    let actives: Vec<_> = now
        .product
        .actives
        .iter()
        .map(|one| (one.name.as_str(), one.content_typed.as_str()))
        .collect();
    assert_eq!(actives, [("triforine", "190 g/L"), ("captan", "")]);
}

#[test]
fn figures_that_cannot_be_read_are_named_and_those_left_alone_stay_exact() {
    let (phone, ..) = bathed();
    let was = rows(&phone.state)[0].treated.clone();
    let mut correction = Correction::of(0, &Event::Treated(was.clone()));
    assert_eq!(
        correction.applied(&Event::Treated(was.clone())),
        Event::Treated(was.clone())
    );
    correction.record.day = Some((day("2027-03-01"), 60));
    correction.record.amount = "a handful".to_owned();
    correction.record.water = "8".to_owned();
    correction.record.start = "noon".to_owned();
    assert_eq!(
        correction.record.unreadable(),
        [Field::Amount, Field::Water, Field::StartTime]
    );
}

/// The lists of the publications, field by field and in their own order.
#[test]
fn each_table_asks_for_the_fields_of_its_rule_and_no_other() {
    use Field::*;
    let lists: [(&str, &[Field]); 3] = [
        // 7 CFR 110.3 (a) (1) to (5).
        (
            "us_states",
            &[
                Product,
                Registration,
                Amount,
                Place,
                Quantity,
                Crop,
                Date,
                Person,
                Licence,
            ],
        ),
        // 40 CFR 170.311 (b) (1) (ii): the sheet beside it is no field.
        (
            "us_workers",
            &[
                Product,
                Registration,
                Actives,
                Crop,
                Place,
                Date,
                StartTime,
                EndTime,
                Reentry,
            ],
        ),
        // (EU) 2023/564: without the code of the crop and its stage, which are asked for only where there are any.
        (
            "eu",
            &[
                UseType,
                Product,
                Registration,
                Date,
                StartTime,
                Rate,
                Quantity,
                Place,
                Crop,
            ],
        ),
    ];
    for (key, list) in lists {
        let table = PROFILES.iter().find(|profile| profile.key == key).unwrap();
        for field in Field::ALL {
            assert_eq!(
                table.fields.contains(&field),
                list.contains(&field),
                "{key}: {field:?}"
            );
        }
    }
}
