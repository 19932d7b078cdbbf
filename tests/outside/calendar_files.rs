//! Calendar files, against RFC 5545 as two independent libraries read it.

use icalendar::{Calendar, CalendarComponent, Component};
use velamen_core::calendar::{Appointment, When, escaped, folded, uid, write};
use velamen_core::id::Dev;
use velamen_tests::day;

use crate::sheet::{Row, check_each};

fn json(row: &Row, column: &str) -> Result<String, String> {
    serde_json::from_str(row.text(column)).map_err(|why| format!("{column}: {why}"))
}

#[test]
fn texts_are_escaped_and_folded_as_elsewhere() {
    check_each("f_ical_text.csv", |row| {
        let text = json(row, "text_json")?;
        let ours = escaped(&text);
        let theirs = json(row, "escaped_json")?;
        if ours != theirs {
            return Err(format!("{ours:?} against {theirs:?}"));
        }
        let line = folded(&format!("SUMMARY:{ours}"));
        if let Some(long) = line.split("\r\n").find(|part| part.len() > 75) {
            return Err(format!("{} octets: {long:?}", long.len()));
        }
        let unfolded = json(row, "folded_summary_line_json")?.replace("\r\n ", "");
        if line.replace("\r\n ", "") == unfolded {
            Ok(())
        } else {
            Err(format!("{line:?} unfolds to another text"))
        }
    });
}

#[test]
fn an_independent_reader_finds_every_day_and_every_word() {
    let long = format!(
        "{}; rock, \\ and \"moss\"\nsecond line",
        "Zygopetalum × Hübner 🌱 ".repeat(8)
    );
    let appointments = [
        Appointment {
            uid: uid(Dev(7), &["water"]),
            when: When::Day {
                on: day("2028-02-29"),
                alarm_min: Some(420),
            },
            summary: "First water".to_owned(),
            description: long.clone(),
            location: "Cool house, bench 2".to_owned(),
        },
        Appointment {
            uid: uid(Dev(7), &["soak"]),
            when: When::Instant {
                at_ms: 1_803_292_261_000,
            },
            summary: "Out of the bath".to_owned(),
            description: String::new(),
            location: String::new(),
        },
    ];
    let file = write(&appointments, 1_803_290_000_000);
    assert!(file.ends_with("END:VCALENDAR\r\n"));
    let calendar: Calendar = file.parse().expect("a calendar");
    let events: Vec<_> = calendar
        .components
        .iter()
        .filter_map(|component| match component {
            CalendarComponent::Event(event) => Some(event),
            _ => None,
        })
        .collect();
    assert_eq!(events.len(), 2);
    assert_eq!(events[0].get_uid(), Some(appointments[0].uid.as_str()));
    assert_eq!(events[0].get_summary(), Some("First water"));
    let words = |text: &str| {
        text.replace("\\n", "\n")
            .replace("\\,", ",")
            .replace("\\;", ";")
            .replace("\\\\", "\\")
    };
    assert_eq!(events[0].get_description().map(words), Some(long));
    assert_eq!(events[0].property_value("DTSTART"), Some("20280229"));
    assert_eq!(events[0].property_value("DTEND"), Some("20280301"));
    assert_eq!(
        events[1].property_value("DTSTART"),
        Some("20270222T103101Z")
    );
}
