//! The record of treatments: complete or not under a rule, corrected without losing a word, out as a file.

use velamen_core::command::Command;
use velamen_core::correction::Correction;
use velamen_core::event::{
    ActiveCopy, AgentClass, Airing, BookSet, Event, Method, ProductCopy, RecordRule, TreatedPart,
    WithdrawWhy,
};
use velamen_core::id::{EntryRef, LotId};
use velamen_core::record::{COLUMNS, Field, PROFILES, Standing, csv, json, judge, rows, rule};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::view::reentry::bound_lot;
use velamen_tests::{Phone, day, treatment};

use crate::scene::nursery;

const HOUR_MS: i64 = 3_600_000;

pub(crate) fn bathed() -> (Phone, LotId, EntryRef) {
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

pub(crate) fn choose(phone: &mut Phone, profile: &str, more: &[&str]) {
    phone.act(Command::SetBook(BookSet {
        record: Some(RecordRule {
            profile: profile.to_owned(),
            more: more.iter().map(|key| (*key).to_owned()).collect(),
            ..RecordRule::default()
        }),
        ..BookSet::default()
    }));
}

pub(crate) fn missing(phone: &Phone) -> Vec<Field> {
    let lines = rows(&phone.state);
    judge(lines.last().unwrap(), &rule(phone.state.facts())).missing
}

pub(crate) fn fill(phone: &mut Phone, entry: EntryRef, how: impl Fn(&mut Correction)) {
    let lines = rows(&phone.state);
    let now = Event::from(lines.last().unwrap().treated.clone());
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
    let until = now.ended_ms.unwrap() + 12 * HOUR_MS;
    assert_eq!(now.until_ms, Some(until));
    assert_eq!(bound_until(&phone, lot, until - 1), Some(until));
    assert_eq!(bound_until(&phone, lot, until), None);
    let actives: Vec<_> = now
        .product
        .actives
        .iter()
        .map(|one| (one.name.as_str(), one.content_typed.as_str()))
        .collect();
    assert_eq!(actives, [("triforine", "190 g/L"), ("captan", "")]);
}

fn bound_until(phone: &Phone, lot: LotId, at_ms: i64) -> Option<i64> {
    bound_lot(&phone.state, lot, at_ms).map(|bound| bound.until_ms)
}

/// A spray of one lot that ended when it was written down.
fn sprayed(reentry_h: Option<u32>, airing: Option<Airing>, end: bool) -> (Phone, LotId, EntryRef) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 12, bench);
    phone.on("2027-03-02");
    let product = ProductCopy {
        label_name: "Bottle B".to_owned(),
        reentry_h,
        ..ProductCopy::default()
    };
    let parts = vec![TreatedPart::Lot { lot, plants: 12 }];
    let mut spray = treatment(parts, AgentClass::Mite, product);
    spray.method = Method::Spray;
    spray.airing = airing;
    spray.ended_ms = end.then_some(phone.now_ms);
    let hours = reentry_h.max(airing.map(velamen_core::reference::airing::hours));
    spray.until_ms = hours
        .filter(|_| end)
        .map(|hours| phone.now_ms + i64::from(hours) * HOUR_MS);
    let done = phone.act(Command::RecordTreatment(spray));
    phone.wait_min(60);
    (phone, lot, done.entry)
}

#[test]
fn hours_until_re_entry_that_are_put_right_bind_from_the_end_of_the_treatment() {
    let (mut phone, lot, entry) = sprayed(Some(2), None, true);
    let now = |phone: &Phone| rows(&phone.state).last().unwrap().treated.clone();
    let ended = now(&phone).ended_ms.unwrap();
    for hours in [24, 4, 0, 48] {
        fill(&mut phone, entry, |correction| {
            correction.record.reentry = hours.to_string();
        });
        let until = ended + hours * HOUR_MS;
        assert_eq!(now(&phone).until_ms, Some(until), "{hours} h");
        let binding = |now_ms| phone.state.facts().binding_after(now_ms).count();
        assert_eq!((binding(until - 1), binding(until)), (1, 0));
        let bound = (hours > 0).then_some(until);
        assert_eq!(bound_until(&phone, lot, ended), bound, "{hours} h");
    }
    // A box that is emptied says nothing else than before, and neither does another word of the record.
    fill(&mut phone, entry, |correction| {
        correction.record.reentry.clear();
        correction.record.person = "A. Grower".to_owned();
    });
    let said = now(&phone);
    assert_eq!(said.product.reentry_h, Some(48));
    assert_eq!(said.until_ms, Some(ended + 48 * HOUR_MS));
}

#[test]
fn an_end_that_is_put_right_takes_the_bound_along_and_airing_outlasts_fewer_hours() {
    let (mut phone, lot, entry) = sprayed(Some(1), Some(Airing::Vents), true);
    let line = rows(&phone.state).remove(0);
    let ended = line.treated.ended_ms.unwrap();
    // Nine in the morning where the phone is; it was eleven.
    for (clock, later) in [("11:00", 2), ("8:00", -1)] {
        fill(&mut phone, entry, |correction| {
            correction.record.day = Some((line.on, line.off_min));
            correction.record.end = clock.to_owned();
        });
        let until = ended + (later + 4) * HOUR_MS;
        assert_eq!(bound_until(&phone, lot, ended), Some(until), "{clock}");
    }
    for (hours, out) in [("6", 6), ("3", 4)] {
        fill(&mut phone, entry, |correction| {
            correction.record.reentry = hours.to_owned();
        });
        let until = ended + (out - 1) * HOUR_MS;
        assert_eq!(bound_until(&phone, lot, ended), Some(until), "{hours} h");
    }
    // Taken out altogether, they leave the airing.
    let mut without = rows(&phone.state).last().unwrap().treated.clone();
    without.product.reentry_h = None;
    phone.act(Command::Amend {
        target: entry,
        index: 0,
        event: without.into(),
        why: String::new(),
    });
    let until = ended + 3 * HOUR_MS;
    assert_eq!(bound_until(&phone, lot, ended), Some(until));
}

#[test]
fn a_treatment_without_an_end_binds_from_when_it_was_written_down_once_its_hours_are_known() {
    let (mut phone, lot, entry) = sprayed(None, None, false);
    let made_ms = rows(&phone.state)[0].made_ms;
    assert_eq!(bound_until(&phone, lot, made_ms), None);
    fill(&mut phone, entry, |correction| {
        correction.record.reentry = "24".to_owned();
    });
    let until = made_ms + 24 * HOUR_MS;
    assert_eq!(bound_until(&phone, lot, made_ms), Some(until));
}

#[test]
fn figures_that_cannot_be_read_are_named_and_those_left_alone_stay_exact() {
    let (phone, ..) = bathed();
    let was = rows(&phone.state)[0].treated.clone();
    let mut correction = Correction::of(0, &Event::from(was.clone()));
    assert_eq!(
        correction.applied(&Event::from(was.clone())),
        Event::from(was.clone())
    );
    correction.record.day = Some((day("2027-03-01"), 60));
    correction.record.amount = "a handful".to_owned();
    correction.record.water = "8".to_owned();
    correction.record.start = "noon".to_owned();
    assert_eq!(
        correction.record.unreadable(),
        [Field::Amount, Field::Water, Field::StartTime]
    );
    for (hours, reads) in [("8759", true), ("8760", true), ("8761 h", false)] {
        correction.record.reentry = hours.to_owned();
        let unreadable = correction.record.unreadable();
        assert_eq!(!unreadable.contains(&Field::Reentry), reads, "{hours}");
    }
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
