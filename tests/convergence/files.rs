//! Phones that hand each other files, whole, in part, packed together, lost, repeated, cut off and altered.
//!
//! The oracle is a set of lines a phone: what came in a file that was taken is in it, and nothing else. No number, mark
//! or order of the core's own is used.

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;
use velamen_core::entry::Marks;
use velamen_core::exchange::lack::{count_missing, held_by};
use velamen_core::exchange::{self, Incoming};
use velamen_core::id::Dev;
use velamen_core::state::State;

use crate::gardener::{Deed, Gardener};
use crate::{deed, phones, same_book};

/// How a file fares on its way.
#[derive(Clone, Copy, Debug)]
enum Fate {
    Arrives,
    Lost,
    CutAt(u32),
    Flipped(u32, u8),
    /// It comes once more, later.
    Again,
}

#[derive(Clone, Debug)]
enum Turn {
    Work(usize, Deed),
    HandOver {
        from: usize,
        to: usize,
        whole: bool,
        fate: Fate,
    },
    /// Everything that ever arrived at a phone is chosen at once.
    AllAtOnce(usize),
}

fn fate() -> impl Strategy<Value = Fate> {
    prop_oneof![
        5 => Just(Fate::Arrives),
        1 => Just(Fate::Lost),
        1 => any::<u32>().prop_map(Fate::CutAt),
        2 => (any::<u32>(), 0_u8..7).prop_map(|(at, bit)| Fate::Flipped(at, bit)),
        2 => Just(Fate::Again),
    ]
}

fn turn() -> impl Strategy<Value = Turn> {
    prop_oneof![
        6 => (0_usize..5, deed()).prop_map(|(who, deed)| Turn::Work(who, deed)),
        6 => (0_usize..5, 0_usize..5, any::<bool>(), fate())
            .prop_map(|(from, to, whole, fate)| Turn::HandOver { from, to, whole, fate }),
        1 => (0_usize..5).prop_map(Turn::AllAtOnce),
    ]
}

struct Nursery {
    phones: Vec<Gardener>,
    /// What each phone must hold, line by line.
    held: Vec<BTreeSet<String>>,
    /// What files told a phone of another's marks.
    told: Vec<BTreeMap<Dev, Marks>>,
    /// Sound files that reached a phone.
    mail: Vec<Vec<String>>,
}

impl Nursery {
    fn new(count: usize) -> Self {
        let phones = phones(count);
        let held = phones.iter().map(|it| it.lines().into_iter().collect());
        Self {
            held: held.collect(),
            told: vec![BTreeMap::new(); count],
            mail: vec![Vec::new(); count],
            phones,
        }
    }

    fn check(&self, who: usize) {
        let lines: BTreeSet<String> = self.phones[who].lines().into_iter().collect();
        assert_eq!(lines, self.held[who], "phone {who}");
    }

    /// What a phone writes for another.
    fn file(&self, from: usize, to: usize, whole: bool) -> String {
        let phone = &self.phones[from].phone;
        if whole {
            return phone.hand_over();
        }
        let dev = self.phones[to].phone.dev;
        let told = self.told[from].get(&dev).cloned().unwrap_or_default();
        let marks = held_by(phone.state.log(), dev, &told);
        let file = exchange::write_since(&phone.state, &phone.moment(), &marks).unwrap();
        // What is left out, the other has.
        let read = exchange::read(&file).unwrap();
        let lines: BTreeSet<&str> = read.lines.iter().map(String::as_str).collect();
        for line in self.held[from]
            .iter()
            .filter(|it| !lines.contains(it.as_str()))
        {
            assert!(self.held[to].contains(line), "left out and lacking: {line}");
        }
        assert!(count_missing(phone.state.log(), phone.dev, &marks) <= lines.len());
        file
    }

    fn take(&mut self, to: usize, incoming: &Incoming) {
        let phone = &self.phones[to].phone;
        let plan = exchange::plan(&phone.state, &phone.moment(), incoming.clone()).unwrap();
        let new = incoming
            .lines
            .iter()
            .filter(|it| !self.held[to].contains(*it));
        assert_eq!(plan.new.len(), new.collect::<BTreeSet<_>>().len());
        self.phones[to].take_all(plan.new.iter().map(String::as_str));
        self.held[to].extend(incoming.lines.iter().cloned());
        let heads = incoming.head.heads.clone();
        self.told[to].insert(incoming.head.by, heads);
        self.check(to);
    }

    fn turn(&mut self, turn: &Turn) {
        let count = self.phones.len();
        match turn {
            Turn::Work(who, deed) => {
                let who = who % count;
                self.phones[who].carry_out(*deed);
                self.held[who].extend(self.phones[who].lines());
                self.check(who);
            }
            Turn::HandOver {
                from,
                to,
                whole,
                fate,
            } => {
                let (from, to) = (from % count, to % count);
                let file = self.file(from, to, *whole);
                match fate {
                    Fate::Lost => {}
                    Fate::Arrives => self.arrive(to, &file),
                    Fate::Again => {
                        self.arrive(to, &file);
                        self.arrive(to, &file);
                    }
                    Fate::CutAt(at) => {
                        let at = *at as usize % file.trim_end().len();
                        let cut = String::from_utf8_lossy(&file.as_bytes()[..at]);
                        assert!(exchange::read(&cut).is_err(), "cut at {at}");
                        self.check(to);
                    }
                    Fate::Flipped(at, bit) => {
                        let mut bytes = file.clone().into_bytes();
                        let at = *at as usize % bytes.len();
                        bytes[at] ^= 1 << bit;
                        let text = String::from_utf8_lossy(&bytes);
                        // In the header's free words a bit may go unseen; no entry ever changes by it.
                        if let Ok(read) = exchange::read(&text) {
                            let sound = exchange::read(&file).unwrap();
                            assert_eq!(read.lines, sound.lines, "flipped at {at}");
                        }
                    }
                }
            }
            Turn::AllAtOnce(who) => {
                let who = who % count;
                let files = self.mail[who].iter().rev();
                let files = files.map(|file| exchange::read(file).unwrap()).collect();
                if let Some(all) = Incoming::joined(files).unwrap() {
                    self.take(who, &all);
                }
            }
        }
    }

    fn arrive(&mut self, to: usize, file: &str) {
        self.mail[to].push(file.to_owned());
        self.take(to, &exchange::read(file).unwrap());
    }

    /// Each gives each what it lacks, round after round, until nothing is lacking.
    fn settle(&mut self) {
        let count = self.phones.len();
        for _ in 0..3 {
            for from in 0..count {
                for to in (0..count).filter(|to| *to != from) {
                    let file = self.file(from, to, false);
                    self.arrive(to, &file);
                }
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn phones_that_hand_over_only_what_is_lacking_end_with_one_book(
        turns in prop::collection::vec(turn(), 10..40), count in 2_usize..=5
    ) {
        let mut nursery = Nursery::new(count);
        for turn in &turns {
            nursery.turn(turn);
        }
        nursery.settle();
        let all: BTreeSet<String> = nursery.held.iter().flatten().cloned().collect();
        let (anew, refused) = State::of_lines(all.iter().map(String::as_str));
        prop_assert_eq!((refused, anew.log().parked()), (0, 0));
        for (at, phone) in nursery.phones.iter().enumerate() {
            prop_assert_eq!(&nursery.held[at], &all);
            same_book(&phone.phone.state, &anew);
        }
    }
}
