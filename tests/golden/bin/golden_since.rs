//! Writes what was added to the vocabulary after the kept book: a line or two by a further phone that took the kept
//! book in, under the event's wire name, into the folder that is named. Never run again for an event that has its file.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a script: what goes wrong has to stop it"
)]

use velamen_core::climate::Reading;
use velamen_core::code::Prefix;
use velamen_core::command::Command;
use velamen_core::id::PlaceId;
use velamen_core::state::State;
use velamen_tests::{Phone, day};

const LINES: &str = include_str!("../book-1.jsonl");

fn main() {
    let mut args = std::env::args().skip(1);
    let (folder, name) = (args.next().unwrap(), args.next().unwrap());
    // A phone of its own for every event, so that no file depends on another.
    let (dev, prefix) = match name.as_str() {
        "climate_read" => (101, "X2"),
        other => panic!("no lines for {other}"),
    };
    let mut phone = Phone::new(dev, "2027-03-13");
    phone.state = State::of_lines(LINES.lines()).0;
    let joined = phone.act(Command::JoinPhone {
        prefix: Prefix::parse(prefix).unwrap(),
        name: name.clone(),
    });
    let place = *phone.state.facts().places.keys().next().unwrap();
    let mut lines = vec![joined.line];
    for command in said(&name, place) {
        lines.push(phone.act(command).line);
    }
    let text: String = lines.iter().map(|line| format!("{line}\n")).collect();
    std::fs::write(format!("{folder}/{name}.jsonl"), text).unwrap();
    let digest = format!("{}\n", phone.state.digest());
    std::fs::write(format!("{folder}/{name}.digest"), digest).unwrap();
}

fn said(name: &str, place: PlaceId) -> Vec<Command> {
    match name {
        "climate_read" => {
            let whole = Reading {
                humidity_min_permille: Some(540),
                humidity_max_permille: Some(820),
                rain_um: Some(4_200),
                ..Reading::of(-1_500, 24_300)
            };
            let days = vec![
                (day("2027-03-13"), Reading::of(9_000, 21_000)),
                (day("2027-03-12"), whole),
            ];
            vec![Command::ReadClimate { place, days }]
        }
        other => panic!("no lines for {other}"),
    }
}
