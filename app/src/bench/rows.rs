//! Rows of another program as commands, and the book as such rows.
//!
//! A row is one line, its fields between tabs, its first field a letter: `L` a lot, `G` a line of its journal, `T` a
//! task; `C`, `R`, `M`, `F`, `N` and `D` what an action changes: count, pot, place, treatment, note, a task done.

use std::collections::BTreeMap;
use std::fmt::Write;

use chrono::NaiveDate;
use velamen_core::command::{Command, PlaceTraits, ReceiveLot, RecordTreatment};
use velamen_core::event::{
    AgentClass, Aim, Event, GainWhy, LossCause, Method, PieceClass, Potting, ProductCopy, Sight,
    TaskAnswer, TreatedPart,
};
use velamen_core::id::{LotId, NoteTaskId, PlaceId};
use velamen_core::name::PlantName;
use velamen_core::state::{Born, Facts, Lot, State};
use velamen_core::task::derive;
use velamen_core::view::kept::Kept;

const STAGES: [(&str, PieceClass); 6] = [
    ("backbulb", PieceClass::BackBulb),
    ("starter", PieceClass::Starter),
    ("growing", PieceClass::Keiki),
    ("near-size", PieceClass::BrokenShoot),
    ("flowering", PieceClass::Flowering),
    ("stock", PieceClass::Thrown),
];
const KINDS: [(&str, Sight); 6] = [
    ("repot", Sight::RootTips),
    ("treatment", Sight::Resting),
    ("move", Sight::NewGrowth),
    ("count", Sight::SpikeSeen),
    ("note", Sight::FirstOpen),
    ("inspect", Sight::FlowerOver),
];
/// Between the parts of a note.
const BAR: &str = " | ";

/// What things are called elsewhere.
#[derive(Debug, Default)]
pub(super) struct Names {
    lots: BTreeMap<String, LotId>,
    tasks: BTreeMap<String, NoteTaskId>,
    places: BTreeMap<String, PlaceId>,
}

impl Names {
    /// What an entry brought in.
    pub(super) fn learn(&mut self, events: &[Event]) {
        for event in events {
            match event {
                Event::LotReceived(lot) => {
                    self.lots.insert(lot.outside_ref.clone(), lot.lot);
                }
                Event::TaskNoted(task) => {
                    self.tasks.insert(task.outside_ref.clone(), task.task);
                }
                Event::PlaceSet(place) => {
                    if let Some(name) = &place.name {
                        self.places.insert(name.clone(), place.place);
                    }
                }
                _ => {}
            }
        }
    }

    /// Reads them off a book, once.
    pub(super) fn learn_all(&mut self, state: &State) {
        if !self.lots.is_empty() {
            return;
        }
        let facts = state.facts();
        let lots = facts.lots.iter();
        self.lots = lots
            .filter_map(|(id, lot)| Some((outside(lot)?.to_owned(), *id)))
            .collect();
        let tasks = facts.note_tasks.iter();
        self.tasks = tasks
            .filter_map(|(id, task)| Some((task.noted.as_ref()?.1.outside_ref.clone(), *id)))
            .collect();
        let places = facts.places.iter();
        self.places = places
            .map(|(id, place)| (place.name.or_default(), *id))
            .collect();
    }

    /// Rows as one command; rows that say nothing are one the book refuses.
    pub(super) fn command_of(&self, state: &State, rows: &[&str]) -> Command {
        let nothing = || Command::Together(Vec::new());
        self.command(state, rows).unwrap_or_else(nothing)
    }

    /// Rows as one command.
    pub(super) fn command(&self, state: &State, rows: &[&str]) -> Option<Command> {
        let commands = rows.iter().map(|row| self.one(state, row));
        let mut commands = commands.collect::<Option<Vec<_>>>()?;
        if commands.len() == 1 {
            return commands.pop();
        }
        // Several belong to one day: that of the journal's line.
        let on = rows.iter().find_map(|row| row.strip_prefix("G\t"));
        let on = on.and_then(|row| day(row.split('\t').nth(2)?))?;
        Some(Command::OnDay {
            on,
            command: Box::new(Command::Together(commands)),
        })
    }

    fn one(&self, state: &State, row: &str) -> Option<Command> {
        let mut fields = row.split('\t');
        let kind = fields.next()?;
        let fields: Vec<&str> = fields.collect();
        Some(match (kind, fields.as_slice()) {
            ("P", [name]) => Command::SetPlace {
                place: None,
                name: Some((*name).to_owned()),
                walk: None,
                about: PlaceTraits::default(),
            },
            (
                "L",
                [
                    id,
                    name,
                    parent,
                    count,
                    place,
                    stage,
                    pot,
                    media,
                    acquired,
                    repotted,
                    treated,
                    notes,
                ],
            ) => {
                let lot = ReceiveLot {
                    name: typed(name),
                    plants: count.parse().ok()?,
                    stands: count.parse().ok()?,
                    place: self.places.get(*place).copied(),
                    class: STAGES
                        .iter()
                        .find(|(word, _)| word == stage)
                        .map(|(_, class)| *class),
                    from: (*parent).to_owned(),
                    outside_ref: (*id).to_owned(),
                    potted_on: day(repotted),
                    potting: potting(pot, media),
                    note: format!("{treated}{BAR}{notes}"),
                    ..ReceiveLot::default()
                };
                Command::OnDay {
                    on: day(acquired)?,
                    command: Box::new(Command::ReceiveLot(lot)),
                }
            }
            ("G", [id, lot, on, kind, by, qty, what]) => {
                let command = Command::Observe {
                    lots: vec![*self.lots.get(*lot)?],
                    what: KINDS.iter().find(|(word, _)| word == kind)?.1,
                    good: None,
                    note: [*id, *by, *qty, *what].join(BAR),
                };
                Command::OnDay {
                    on: day(on)?,
                    command: Box::new(command),
                }
            }
            ("T", [id, lot, kind, due]) => Command::FromOutside {
                outside_ref: (*id).to_owned(),
                command: Box::new(Command::NoteTask {
                    task: None,
                    text: (*kind).to_owned(),
                    due_on: day(due)?,
                    repeat_days: None,
                    lot: Some(*self.lots.get(*lot)?),
                    place: None,
                }),
            },
            ("C", [lot, delta]) => {
                let delta: i32 = delta.parse().ok()?;
                let (lot, plants) = (*self.lots.get(*lot)?, delta.unsigned_abs());
                if delta < 0 {
                    Command::LoseFromLot {
                        lot,
                        plants,
                        stands: plants,
                        cause: LossCause::Unknown,
                        note: String::new(),
                    }
                } else {
                    Command::GainInLot {
                        lot,
                        plants,
                        stands: plants,
                        why: GainWhy::Found,
                        note: String::new(),
                    }
                }
            }
            ("R", [lot, pot, media]) => {
                let lot = *self.lots.get(*lot)?;
                let facts = state.facts().lots.get(&lot)?;
                Command::RepotLot {
                    lot,
                    stands: u32::try_from(facts.stands).ok()?,
                    potting: potting(pot, media),
                    class: facts.class,
                }
            }
            ("M", [lot, place]) => {
                let (lot, to) = (*self.lots.get(*lot)?, *self.places.get(*place)?);
                let here = state.facts().lots.get(&lot)?.place.get() == Some(&to);
                // Put where it stands: nothing moved.
                if here {
                    Command::Together(Vec::new())
                } else {
                    Command::MoveLot { lot, to }
                }
            }
            ("F", [lot]) => self.treatment(state, lot)?,
            ("N", [lot, notes]) => Command::Observe {
                lots: vec![*self.lots.get(*lot)?],
                what: Sight::NewGrowth,
                good: None,
                note: (*notes).to_owned(),
            },
            ("D", [task]) => {
                let id = *self.tasks.get(*task)?;
                let facts = state.facts();
                let task = derive::of_note(facts, id, facts.note_tasks.get(&id)?)?;
                Command::DecideTasks {
                    tasks: vec![task],
                    answer: TaskAnswer::Done { outcome: None },
                    why: String::new(),
                }
            }
            _ => return None,
        })
    }

    fn treatment(&self, state: &State, lot: &str) -> Option<Command> {
        let lot = *self.lots.get(lot)?;
        let plants = state.facts().lots.get(&lot)?.plants;
        Some(Command::RecordTreatment(RecordTreatment {
            treated: vec![TreatedPart::Lot {
                lot,
                plants: u32::try_from(plants).ok()?,
            }],
            method: Method::Spray,
            against: AgentClass::Unknown,
            aim: Aim::default(),
            product: ProductCopy {
                label_name: "spray".to_owned(),
                ..ProductCopy::default()
            },
            place: None,
            finding: None,
            water_ul: None,
            amount_ul: None,
            amount_mg: None,
            same_mix_as: None,
            started_ms: None,
            ended_ms: None,
            soak_s: None,
            soaked_s: None,
            soak_own: false,
            pots: 0,
            airing: None,
            tank: None,
            then: None,
            until_ms: None,
            person: String::new(),
            licence: String::new(),
            gear: String::new(),
            reason: String::new(),
            note: String::new(),
        }))
    }
}

fn day(text: &str) -> Option<NaiveDate> {
    text.parse().ok()
}

/// Genus and species as such, what follows beside them.
fn typed(name: &str) -> PlantName {
    let mut words = name.splitn(3, ' ').map(|word| Some(word.to_owned()));
    PlantName {
        genus: words.next().flatten(),
        species: words.next().flatten(),
        note: words.next().flatten(),
        ..PlantName::default()
    }
}

fn untyped(name: &PlantName) -> String {
    let parts = [&name.genus, &name.species, &name.note];
    let parts: Vec<&str> = parts.into_iter().flatten().map(String::as_str).collect();
    parts.join(" ")
}

fn potting(pot: &str, media: &str) -> Potting {
    Potting {
        pot_name: pot.to_owned(),
        mix_name: media.to_owned(),
        ..Potting::default()
    }
}

fn outside(lot: &Lot) -> Option<&str> {
    match &lot.born {
        Some(Born::Received { outside_ref, .. }) => Some(outside_ref),
        _ => None,
    }
}

fn place_name(facts: &Facts, place: Option<PlaceId>) -> String {
    let place = place.and_then(|id| facts.places.get(&id));
    place
        .map(|place| place.name.or_default())
        .unwrap_or_default()
}

/// Free tasks due before a day, by day and name: name, day, words, and the lot's name, plant and place.
pub(super) fn late(state: &State, before: NaiveDate) -> String {
    let facts = state.facts();
    let mut late: Vec<(NaiveDate, String, String)> = Vec::new();
    state.each_task(|task| {
        let noted = task
            .note_task
            .and_then(|id| facts.note_tasks.get(&id)?.noted.as_ref());
        let Some((_, noted)) = noted.filter(|_| task.due_on < before) else {
            return;
        };
        let Some(lot) = task.lot.and_then(|id| facts.lots.get(&id)) else {
            return;
        };
        let rest = format!(
            "{}\t{}\t{}\t{}",
            noted.text,
            outside(lot).unwrap_or_default(),
            untyped(&lot.name.or_default()),
            place_name(facts, task.place),
        );
        late.push((task.due_on, noted.outside_ref.clone(), rest));
    });
    written(late)
}

/// The same from what was kept of the Round.
pub(super) fn late_of(kept: &Kept, before: NaiveDate) -> String {
    let mut late: Vec<(NaiveDate, String, String)> = Vec::new();
    let places = kept.places().iter();
    let places: BTreeMap<PlaceId, &str> = places
        .map(|place| (place.place, place.name.as_str()))
        .collect();
    for kept_task in kept.tasks() {
        let task = &kept_task.task;
        let (Some((words, ..)), Some(lot)) = (&kept_task.words, &kept_task.lot) else {
            continue;
        };
        if task.due_on >= before {
            continue;
        }
        let rest = format!(
            "{words}\t{}\t{}\t{}",
            kept_task.lot_outside_ref,
            untyped(&lot.label.name),
            task.place
                .and_then(|place| places.get(&place))
                .copied()
                .unwrap_or_default(),
        );
        late.push((task.due_on, kept_task.outside_ref.clone(), rest));
    }
    written(late)
}

fn written(mut late: Vec<(NaiveDate, String, String)>) -> String {
    late.sort_unstable();
    let mut text = String::new();
    for (due_on, id, rest) in late {
        // Writing to a string cannot fail.
        let _ = writeln!(text, "{id}\t{due_on}\t{rest}");
    }
    text
}

/// Every lot, journal line and task as the row it came as; `T` with whether it is done.
pub(super) fn dump(state: &State) -> String {
    let facts = state.facts();
    let mut text = String::new();
    let mut notes: BTreeMap<LotId, &str> = BTreeMap::new();
    let mut received: BTreeMap<LotId, &str> = BTreeMap::new();
    for entry in state.log().in_order() {
        for event in entry.events.iter().flatten() {
            match event {
                Event::LotReceived(lot) => {
                    received.insert(lot.lot, &lot.note);
                }
                Event::Observed(seen) => {
                    let lot = facts
                        .lots
                        .get(&seen.lot)
                        .and_then(|lot| outside(lot))
                        .unwrap_or_default();
                    let parts: Vec<&str> = seen.note.splitn(4, BAR).collect();
                    let kind = KINDS.iter().find(|(_, sight)| *sight == seen.what);
                    let kind = kind.map(|(word, _)| *word).unwrap_or_default();
                    let on = entry.header.on;
                    if let [id, by, qty, what] = parts.as_slice() {
                        let _ = writeln!(text, "G\t{id}\t{lot}\t{on}\t{kind}\t{by}\t{qty}\t{what}");
                    } else {
                        notes.insert(seen.lot, &seen.note);
                    }
                }
                _ => {}
            }
        }
    }
    for (id, lot) in &facts.lots {
        let (treated, first) = received
            .get(id)
            .and_then(|note| note.split_once(BAR))
            .unwrap_or_default();
        let treated_on = lot
            .treatments
            .iter()
            .filter_map(|id| facts.treatments.get(id));
        let treated_on = treated_on.map(|treatment| treatment.on.to_string()).max();
        let treated_on = treated_on.unwrap_or_else(|| treated.to_owned());
        let parent = match &lot.born {
            Some(Born::Received { from, .. }) => from.as_str(),
            _ => "",
        };
        let stage = STAGES.iter().find(|(_, class)| Some(*class) == lot.class);
        let stage = stage.map(|(word, _)| *word).unwrap_or_default();
        let potted = lot.potted.as_ref();
        let _ = writeln!(
            text,
            "L\t{}\t{}\t{parent}\t{}\t{}\t{stage}\t{}\t{}\t{}\t{}\t{treated_on}\t{}",
            outside(lot).unwrap_or_default(),
            untyped(&lot.name.or_default()),
            lot.plants,
            place_name(facts, lot.place.get().copied()),
            potted.map_or("", |potted| &potted.potting.pot_name),
            potted.map_or("", |potted| &potted.potting.mix_name),
            lot.born_on.unwrap_or_default(),
            potted.map(|potted| potted.on).unwrap_or_default(),
            notes.get(id).unwrap_or(&first),
        );
    }
    for (id, task) in &facts.note_tasks {
        let Some((_, noted)) = &task.noted else {
            continue;
        };
        let lot = noted
            .lot
            .and_then(|lot| facts.lots.get(&lot))
            .and_then(|lot| outside(lot));
        let done = i32::from(derive::of_note(facts, *id, task).is_none());
        let _ = writeln!(
            text,
            "T\t{}\t{}\t{}\t{}\t{done}",
            noted.outside_ref,
            lot.unwrap_or_default(),
            noted.text,
            noted.due_on,
        );
    }
    text
}
