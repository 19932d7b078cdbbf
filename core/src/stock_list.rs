//! A stock list the grower has already, as a table: which column is what, what each row would become, and why not.
//!
//! Nothing is recorded here: [`listed`] judges every row against the book, [`places`] and [`lots`] make the commands.
//! Invariants: no row is dropped without a reason; taking the same list twice adds nothing unless that is asked for.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{Datelike, NaiveDate};

use crate::cells::Cells;
use crate::climate::{DayOrder, when};
use crate::command::{Command, PlaceTraits, ReceiveLot};
use crate::event::PieceClass;
use crate::id::PlaceId;
use crate::limits::{self, EVENTS_MAX, LISTED_ROWS_MAX, NOTE_CHARS_MAX, PLANTS_MAX};
use crate::name::{NameFault, PlantName};
use crate::state::{Born, Facts};
use crate::text::{Lines, TextFault, check_text, fold};

/// What a column holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Holds {
    /// Nothing that is wanted.
    #[default]
    Nothing,
    /// The name, or a part of it: several such columns are joined.
    Name,
    Plants,
    Pots,
    Place,
    /// When it was last potted.
    Potted,
    /// How far the plants are: each word of the column is given its class.
    Size,
    /// The grower's own number, or the one it came with.
    Number,
    /// Whom it came from.
    From,
    Note,
}

impl Holds {
    pub const ALL: [Self; 10] = [
        Self::Nothing,
        Self::Name,
        Self::Plants,
        Self::Pots,
        Self::Place,
        Self::Potted,
        Self::Size,
        Self::Number,
        Self::From,
        Self::Note,
    ];

    /// Words that head such a column, folded.
    fn heads(self) -> &'static [&'static str] {
        match self {
            Self::Nothing => &[],
            Self::Name => &[
                "name", "plant", "genus", "species", "epithet", "taxon", "variety", "cultivar",
                "grex",
            ],
            Self::Plants => &[
                "plants",
                "quantity",
                "qty",
                "count",
                "number of",
                "how many",
                "amount",
            ],
            Self::Pots => &["pots", "trays"],
            Self::Place => &["place", "bench", "house", "where", "location", "shelf"],
            Self::Potted => &["potted", "repot", "date"],
            Self::Size => &["size", "stage", "class"],
            Self::Number => &["no", "number", "code", "ref", "label", "id"],
            Self::From => &["from", "source", "supplier", "origin"],
            Self::Note => &["note", "remark", "comment"],
        }
    }
}

/// How the table is read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reading {
    pub holds: Vec<Holds>,
    /// The first row names the columns.
    pub headed: bool,
    pub order: DayOrder,
    /// The class each word of the column of sizes stands for; a word without one says nothing.
    pub sizes: BTreeMap<String, Option<PieceClass>>,
    /// Rows that are in the book already are taken all the same.
    pub again: bool,
}

/// A row that can become a lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listed {
    /// Its line in the file, counted from 1.
    pub line: usize,
    pub name: PlantName,
    /// Its row had no count: one plant is taken.
    pub counted_one: bool,
    pub plants: u32,
    pub stands: u32,
    pub place: Option<String>,
    pub potted_on: Option<NaiveDate>,
    pub class: Option<PieceClass>,
    pub number: String,
    pub from: String,
    pub note: String,
}

/// Why a row becomes no lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RowFault {
    /// It names no plant, has no number and no count.
    SaysNothing,
    NotACount {
        text: String,
    },
    /// None are left.
    None,
    TooMany {
        most: u32,
    },
    NotADay {
        text: String,
    },
    /// The day lies ahead, or before any day the book takes.
    DayOutOfRange {
        on: NaiveDate,
    },
    Text {
        holds: Holds,
        fault: TextFault,
    },
    Name(NameFault),
    /// The same name, place, number of plants and own number are in the book.
    InTheBook,
}

/// What a list comes to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Comes {
    pub lots: Vec<Listed>,
    pub refused: Vec<(usize, RowFault)>,
    /// Places that are not in the book, in the order they are first named.
    pub new_places: Vec<String>,
    pub plants: u64,
    /// Rows without a count, taken as one plant each.
    pub counted_one: usize,
    /// Rows beyond the most that are taken at once.
    pub left_over: usize,
}

impl Reading {
    /// What the columns seem to be, by their heads and first rows.
    #[must_use]
    pub fn guess(cells: &Cells) -> Self {
        let width = cells
            .rows
            .iter()
            .take(50)
            .map(|(_, row)| row.len())
            .max()
            .unwrap_or(0);
        let first: Vec<String> = cells
            .rows
            .first()
            .map(|(_, row)| row.iter().map(|cell| fold(cell)).collect())
            .unwrap_or_default();
        let headed = first.iter().all(|cell| count_of(cell).is_none())
            && first
                .iter()
                .any(|cell| Holds::ALL.iter().any(|holds| names(*holds, cell)));
        let mut holds = vec![Holds::Nothing; width];
        if headed {
            for (at, holds) in holds.iter_mut().enumerate() {
                let head = first.get(at).map_or("", String::as_str);
                *holds = guess_head(head);
            }
            keep_one_each(&mut holds);
        } else {
            let body = |at: usize| {
                cells
                    .rows
                    .iter()
                    .take(50)
                    .filter_map(move |(_, row)| row.get(at))
            };
            for (at, holds) in holds.iter_mut().enumerate() {
                let numbers = body(at).all(|cell| count_of(cell).is_some());
                *holds = if numbers {
                    Holds::Plants
                } else {
                    Holds::Nothing
                };
            }
            keep_one_each(&mut holds);
            if let Some(first) = holds.iter_mut().find(|holds| **holds == Holds::Nothing) {
                *first = Holds::Name;
            }
        }
        let mut reading = Self {
            holds,
            headed,
            ..Self::default()
        };
        reading.guess_order(cells);
        reading.take_sizes(cells);
        reading
    }

    fn column(&self, wanted: Holds) -> Option<usize> {
        self.holds.iter().position(|holds| *holds == wanted)
    }

    fn body<'a>(
        &self,
        cells: &'a Cells,
    ) -> impl Iterator<Item = &'a (usize, Vec<String>)> + use<'a> {
        cells.rows.iter().skip(usize::from(self.headed))
    }

    /// Gives a column its meaning; one that may be there only once leaves the column that had it.
    pub fn set(&mut self, column: usize, holds: Holds, cells: &Cells) {
        if !matches!(holds, Holds::Nothing | Holds::Name | Holds::Note) {
            for other in &mut self.holds {
                if *other == holds {
                    *other = Holds::Nothing;
                }
            }
        }
        if let Some(column) = self.holds.get_mut(column) {
            *column = holds;
        }
        if holds == Holds::Potted {
            self.guess_order(cells);
        }
        self.take_sizes(cells);
    }

    /// The order in which most of the days can be read: lists are untidy.
    fn guess_order(&mut self, cells: &Cells) {
        let Some(at) = self.column(Holds::Potted) else {
            return;
        };
        let days = || {
            self.body(cells)
                .filter_map(|(_, row)| row.get(at))
                .take(200)
        };
        let mut best = (0, DayOrder::default());
        for order in DayOrder::ALL {
            let read = days().filter(|day| when(day, order).is_some()).count();
            if read > best.0 {
                best = (read, order);
            }
        }
        self.order = best.1;
    }

    /// The words of the column of sizes; those known before keep their class.
    fn take_sizes(&mut self, cells: &Cells) {
        let Some(at) = self.column(Holds::Size) else {
            self.sizes.clear();
            return;
        };
        let mut found = BTreeMap::new();
        for (_, row) in self.body(cells) {
            let word = row.get(at).map_or("", String::as_str);
            if word.is_empty() || found.len() >= SIZES_MOST {
                continue;
            }
            let known = self.sizes.get(word).copied();
            found
                .entry(word.to_owned())
                .or_insert_with(|| known.unwrap_or_else(|| class_of(word)));
        }
        self.sizes = found;
    }
}

/// Different words of sizes that are asked about; a column with more is none of sizes.
const SIZES_MOST: usize = 12;

/// Whether a folded head speaks of it: by the beginning of one of its words, short ones as a whole ("no" is not "notes").
fn names(holds: Holds, head: &str) -> bool {
    let words = || head.split(|sign: char| !sign.is_alphanumeric());
    holds.heads().iter().any(|wanted| match wanted.len() {
        0..=3 => words().any(|word| word == *wanted),
        _ if wanted.contains(' ') => head.contains(wanted),
        _ => words().any(|word| word.starts_with(wanted)),
    })
}

/// What a column of this head holds. Numbers come before plants, because "number of plants" and "plant number" differ by
/// order alone, and whole words before parts.
fn guess_head(head: &str) -> Holds {
    let whole = Holds::ALL
        .into_iter()
        .find(|holds| holds.heads().contains(&head));
    let order = [
        Holds::Plants,
        Holds::Potted,
        Holds::Pots,
        Holds::Number,
        Holds::Place,
        Holds::Size,
        Holds::From,
        Holds::Note,
        Holds::Name,
    ];
    whole
        .or_else(|| order.into_iter().find(|holds| names(*holds, head)))
        .unwrap_or_default()
}

/// All but names and notes are read from one column: the first.
fn keep_one_each(holds: &mut [Holds]) {
    let mut seen = BTreeSet::new();
    for holds in holds {
        let many = matches!(holds, Holds::Nothing | Holds::Name | Holds::Note);
        if !many && !seen.insert(*holds) {
            *holds = Holds::Nothing;
        }
    }
}

/// The class a word of the trade stands for.
fn class_of(word: &str) -> Option<PieceClass> {
    let word = fold(word);
    let table = [
        (
            PieceClass::Flowering,
            ["flower", "bloom", "fs", "large", "mature"].as_slice(),
        ),
        (PieceClass::BackBulb, ["back"].as_slice()),
        (PieceClass::Keiki, ["keiki"].as_slice()),
        (PieceClass::BrokenShoot, ["shoot"].as_slice()),
        (
            PieceClass::Starter,
            ["start", "small", "young", "seedling", "nfs", "division"].as_slice(),
        ),
    ];
    // "Near flowering size" and "not flowering" are starters.
    if ["near", "not ", "nfs", "pre"]
        .iter()
        .any(|sign| word.starts_with(sign))
    {
        return Some(PieceClass::Starter);
    }
    table
        .into_iter()
        .find(|(_, words)| words.iter().any(|sign| word.contains(sign)))
        .map(|(class, _)| class)
}

/// A whole number as spreadsheets write it: `12`, `12.0`, ` 12 `.
fn count_of(text: &str) -> Option<u64> {
    let text = text.trim();
    let whole = text
        .strip_suffix(".0")
        .or_else(|| text.strip_suffix(",0"))
        .unwrap_or(text);
    let digits =
        !whole.is_empty() && whole.len() <= 12 && whole.bytes().all(|byte| byte.is_ascii_digit());
    digits.then(|| whole.parse().ok()).flatten()
}

/// A day, a month (its first day) or a year (its first day): what is less sure is taken as long ago, so that the plant
/// is looked at sooner.
fn day_of(text: &str, order: DayOrder) -> Option<NaiveDate> {
    if let Some((on, _)) = when(text, order) {
        return Some(on);
    }
    let parts: Vec<&str> = text.split(['-', '/', '.']).map(str::trim).collect();
    let number = |text: &str| count_of(text).and_then(|number| i32::try_from(number).ok());
    let (year, month) = match parts.as_slice() {
        [year] if year.len() == 4 => (number(year)?, 1),
        [year, month] if year.len() == 4 => (number(year)?, number(month)?),
        [month, year] if year.len() == 4 => (number(year)?, number(month)?),
        _ => return None,
    };
    NaiveDate::from_ymd_opt(year, u32::try_from(month).ok()?, 1)
}

/// What is compared to know a lot again: name, place, number of plants, own number.
type Known = (String, String, i64, String);

fn known_lots(facts: &Facts) -> BTreeSet<Known> {
    facts
        .live_lots()
        .filter(|(_, lot)| lot.is_stocked())
        .map(|(_, lot)| {
            let place = lot.place.get().and_then(|place| facts.places.get(place));
            let place = place
                .and_then(|place| place.name.get())
                .map_or(String::new(), |name| fold(name));
            let number = match &lot.born {
                Some(Born::Received { outside_ref, .. }) => outside_ref.clone(),
                _ => String::new(),
            };
            (
                fold(&lot.name.or_default().plain()),
                place,
                lot.plants,
                number,
            )
        })
        .collect()
}

/// Judges every row.
#[must_use]
pub fn listed(cells: &Cells, reading: &Reading, facts: &Facts, today: NaiveDate) -> Comes {
    let known = known_lots(facts);
    let mut places: BTreeSet<String> = facts
        .places
        .values()
        .filter_map(|place| place.name.get().map(|name| fold(name)))
        .collect();
    let mut comes = Comes::default();
    for (line, row) in reading.body(cells) {
        if comes.lots.len() >= LISTED_ROWS_MAX {
            comes.left_over += 1;
            continue;
        }
        match one(*line, row, reading, today) {
            Err(why) => comes.refused.push((*line, why)),
            Ok(lot) => {
                let place = lot.place.as_deref().map_or(String::new(), fold);
                let same = (
                    fold(&lot.name.plain()),
                    place.clone(),
                    i64::from(lot.plants),
                    lot.number.clone(),
                );
                if !reading.again && known.contains(&same) {
                    comes.refused.push((*line, RowFault::InTheBook));
                    continue;
                }
                if let Some(name) = lot.place.as_ref().filter(|_| !places.contains(&place)) {
                    // They are one entry: a row whose place finds no room there waits, and does not come without it.
                    if comes.new_places.len() >= EVENTS_MAX {
                        comes.left_over += 1;
                        continue;
                    }
                    comes.new_places.push(name.clone());
                    places.insert(place);
                }
                comes.counted_one += usize::from(lot.counted_one);
                comes.plants += u64::from(lot.plants);
                comes.lots.push(lot);
            }
        }
    }
    comes
}

fn one(
    line: usize,
    row: &[String],
    reading: &Reading,
    today: NaiveDate,
) -> Result<Listed, RowFault> {
    let joined = |wanted: Holds, between: &str| {
        let cells = reading
            .holds
            .iter()
            .zip(row)
            .filter(|(holds, cell)| **holds == wanted && !cell.is_empty());
        cells
            .map(|(_, cell)| cell.as_str())
            .collect::<Vec<_>>()
            .join(between)
    };
    let cell = |wanted: Holds| joined(wanted, " ");
    let short = |wanted: Holds| {
        let text = cell(wanted);
        match check_text(&text, limits::TEXT_CHARS_MAX, Lines::One) {
            Ok(()) => Ok(text),
            Err(fault) => Err(RowFault::Text {
                holds: wanted,
                fault,
            }),
        }
    };
    let count = |wanted: Holds| {
        let text = cell(wanted);
        if text.is_empty() {
            return Ok(None);
        }
        match count_of(&text) {
            None => Err(RowFault::NotACount { text }),
            Some(0) => Err(RowFault::None),
            Some(many) => match u32::try_from(many) {
                Ok(many) if many <= PLANTS_MAX => Ok(Some(many)),
                _ => Err(RowFault::TooMany { most: PLANTS_MAX }),
            },
        }
    };
    let name = PlantName::from_typed(&cell(Holds::Name));
    let number = short(Holds::Number)?;
    let (plants, stands) = (count(Holds::Plants)?, count(Holds::Pots)?);
    if name == PlantName::default() && number.is_empty() && plants.is_none() && stands.is_none() {
        return Err(RowFault::SaysNothing);
    }
    if let Some(fault) = name.faults().into_iter().next() {
        return Err(RowFault::Name(fault));
    }
    let potted = cell(Holds::Potted);
    let potted_on = match potted.as_str() {
        "" => None,
        text => {
            let on = day_of(text, reading.order).ok_or_else(|| RowFault::NotADay {
                text: text.to_owned(),
            })?;
            if on > today || on.year() < limits::FIRST_YEAR {
                return Err(RowFault::DayOutOfRange { on });
            }
            Some(on)
        }
    };
    let place = short(Holds::Place)?;
    let note = joined(Holds::Note, "\n");
    check_text(&note, NOTE_CHARS_MAX, Lines::Many).map_err(|fault| RowFault::Text {
        holds: Holds::Note,
        fault,
    })?;
    let from = short(Holds::From)?;
    let size = cell(Holds::Size);
    let counted_one = plants.is_none() && stands.is_none();
    let plants = plants.or(stands).unwrap_or(1);
    Ok(Listed {
        line,
        name,
        counted_one,
        plants,
        stands: stands.unwrap_or(plants),
        place: (!place.is_empty()).then_some(place),
        potted_on,
        class: reading.sizes.get(&size).copied().flatten(),
        number,
        from,
        note,
    })
}

/// The command that brings in the places a list names first; nothing where all are known.
#[must_use]
pub fn places(comes: &Comes) -> Option<Command> {
    let set = |name: &String| Command::SetPlace {
        place: None,
        name: Some(name.clone()),
        walk: None,
        about: PlaceTraits::default(),
    };
    let new: Vec<Command> = comes.new_places.iter().map(set).collect();
    (!new.is_empty()).then_some(Command::Together(new))
}

/// Lots of one entry: far below what an entry holds, so that one slip is undone as a whole and none is too long a line.
const TOGETHER: usize = 500;

/// The commands that bring the lots in, after their places.
#[must_use]
pub fn lots(comes: &Comes, facts: &Facts) -> Vec<Command> {
    let by_name: BTreeMap<String, PlaceId> = facts
        .places
        .iter()
        .filter_map(|(place, it)| Some((fold(it.name.get()?), *place)))
        .collect();
    let receive = |lot: &Listed| {
        Command::ReceiveLot(ReceiveLot {
            name: lot.name.clone(),
            plants: lot.plants,
            stands: lot.stands,
            place: lot
                .place
                .as_ref()
                .and_then(|name| by_name.get(&fold(name)).copied()),
            class: lot.class,
            from: lot.from.clone(),
            outside_ref: lot.number.clone(),
            potted_on: lot.potted_on,
            note: lot.note.clone(),
            ..ReceiveLot::default()
        })
    };
    comes
        .lots
        .chunks(TOGETHER)
        .map(|some| Command::Together(some.iter().map(receive).collect()))
        .collect()
}
