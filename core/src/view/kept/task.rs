//! A task of a kept Round as bytes, with what its row says.

use crate::climate::Mean;
use crate::code::Prefix;
use crate::event::{PieceClass, Sight, TaskKey};
use crate::id::{LotId, NoteTaskId, PlaceId, ProtocolId, Subject};
use crate::name::PlantName;
use crate::pack::{Packer, Unpacker};
use crate::state::{Born, State, Washing};
use crate::task::derive::Task;
use crate::task::weather::WeatherMove;
use crate::task::{KINDS, Trigger};
use crate::view::LotLabel;
use crate::view::round::{OnRound, Words, on_round, words};

/// A task with what its row says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptTask {
    pub task: Task,
    pub lot: Option<OnRound>,
    /// What the grower wrote down, and whether it is the washing-up a clump left.
    pub words: Option<Words<String>>,
    /// What another program calls the task and its lot.
    pub outside_ref: String,
    pub lot_outside_ref: String,
    /// Its number among the tasks of its lot.
    pub(super) number: u16,
}

pub(super) fn pack_name(packer: &mut Packer, name: &PlantName) {
    // A name always is JSON.
    packer.text(&serde_json::to_string(name).unwrap_or_default());
}

pub(super) fn name(reader: &mut Unpacker<'_>) -> Option<PlantName> {
    serde_json::from_str(reader.text()?).ok()
}

fn place_of<T: PartialEq>(all: &[T], one: &T) -> usize {
    all.iter().position(|it| it == one).unwrap_or(usize::MAX)
}

pub(super) fn pack_task(packer: &mut Packer, state: &State, number: u16, task: &Task) {
    let facts = state.facts();
    packer.num(number);
    packer.maybe(task.lot, |packer, lot| packer.thing(lot.0));
    packer.maybe(task.note_task, |packer, note| packer.thing(note.0));
    packer.entry(task.key.anchor);
    packer.num(task.key.event);
    let own = own_subject(task.lot, task.note_task);
    let other = (own != Some(task.key.subject)).then_some(task.key.subject);
    packer.maybe(other, |packer, other| packer.once(&other.to_string()));
    packer.text(&task.key.step);
    packer.num(task.key.repeat);
    packer.size(
        KINDS
            .iter()
            .position(|row| row.kind == task.kind)
            .unwrap_or(usize::MAX),
    );
    packer.maybe(task.place, |packer, place| packer.thing(place.0));
    packer.day(task.due_on);
    packer.day(task.from_on);
    packer.day(task.until_on);
    packer.day(task.anchor_on);
    packer.maybe(task.trigger, |packer, trigger| {
        packer.size(place_of(&Trigger::ALL, &trigger))
    });
    packer.maybe(task.protocol, |packer, protocol| packer.thing(protocol.0));
    packer.num(task.revision);
    packer.num(task.priority);
    packer.num(task.minutes_tenths);
    let marks = [task.put_off, task.moved_by_season, task.mix_spent];
    packer.num(
        marks
            .iter()
            .fold(0u8, |bits, mark| bits << 1 | u8::from(*mark)),
    );
    packer.maybe(task.weather, |packer, moved| {
        packer.int(i64::from(moved.days));
        packer.int(i64::from(moved.mean.mc));
        packer.num(moved.mean.read);
        packer.num(moved.mean.of);
        packer.day(moved.mean.last_on);
    });
    packer.maybe(on_round(facts, task), |packer, lot| {
        packer.maybe(lot.label.code, |packer, code| {
            packer.text(&code.prefix().to_string());
            packer.num(code.counter());
        });
        pack_name(packer, &lot.label.name);
        packer.int(lot.label.plants);
        packer.int(lot.label.stands);
        packer.maybe(lot.class, |packer, class| {
            packer.size(place_of(&PieceClass::ALL, &class))
        });
        packer.maybe(lot.last_sight, |packer, sight| {
            packer.size(place_of(&Sight::ALL, &sight))
        });
    });
    packer.maybe(words(facts, task), |packer, (text, washes_up, washing)| {
        packer.text(text);
        packer.num(u8::from(washes_up));
        packer.maybe(washing, |packer, washing| {
            packer.num(washing.pots);
            packer.int(washing.stone_ul);
            packer.num(washing.tray);
        });
    });
    let noted = task
        .note_task
        .and_then(|id| facts.note_tasks.get(&id)?.noted.as_ref());
    packer.once(noted.map_or("", |(_, noted)| &noted.outside_ref));
    let lot = task.lot.and_then(|id| facts.lots.get(&id)?.born.as_ref());
    packer.once(match lot {
        Some(Born::Received { outside_ref, .. }) if noted.is_some() => outside_ref,
        _ => "",
    });
}

fn own_subject(lot: Option<LotId>, note: Option<NoteTaskId>) -> Option<Subject> {
    note.map(Subject::NoteTask).or(lot.map(Subject::Lot))
}

fn written(reader: &mut Unpacker<'_>) -> Option<Words<String>> {
    let text = reader.text()?.to_owned();
    let washes_up = reader.num()? == 1;
    let washing = reader.maybe(|reader| {
        Some(Washing {
            pots: reader.small()?,
            stone_ul: reader.int()?,
            tray: reader.small()?,
        })
    })?;
    Some((text, washes_up, washing))
}

pub(super) fn task(reader: &mut Unpacker<'_>) -> Option<KeptTask> {
    let number = reader.small()?;
    let lot = reader.maybe(|reader| reader.thing().map(LotId))?;
    let note_task = reader.maybe(|reader| reader.thing().map(NoteTaskId))?;
    let anchor = reader.entry()?;
    let event = reader.small()?;
    let other = reader.maybe(Unpacker::parsed::<Subject>)?;
    let key = TaskKey {
        anchor,
        event,
        subject: other.or_else(|| own_subject(lot, note_task))?,
        step: reader.text()?.to_owned(),
        repeat: reader.small()?,
    };
    let mut kept = Task {
        key,
        kind: KINDS.get(reader.small::<usize>()?)?.kind,
        lot,
        note_task,
        place: reader.maybe(|reader| reader.thing().map(PlaceId))?,
        due_on: reader.day()?,
        from_on: reader.day()?,
        until_on: reader.day()?,
        anchor_on: reader.day()?,
        trigger: reader.maybe(|reader| Trigger::ALL.get(reader.small::<usize>()?).copied())?,
        protocol: reader.maybe(|reader| reader.thing().map(ProtocolId))?,
        revision: reader.small()?,
        priority: reader.small()?,
        minutes_tenths: reader.small()?,
        put_off: false,
        moved_by_season: false,
        weather: None,
        mix_spent: false,
        generation: None,
    };
    let marks = reader.num()?;
    kept.put_off = marks & 4 != 0;
    kept.moved_by_season = marks & 2 != 0;
    kept.mix_spent = marks & 1 != 0;
    kept.weather = reader.maybe(|reader| {
        Some(WeatherMove {
            days: i32::try_from(reader.int()?).ok()?,
            mean: Mean {
                mc: i32::try_from(reader.int()?).ok()?,
                read: reader.small()?,
                of: reader.small()?,
                last_on: reader.day()?,
            },
        })
    })?;
    let on_round = reader.maybe(|reader| {
        Some(OnRound {
            label: LotLabel {
                lot: lot?,
                code: reader
                    .maybe(|reader| Prefix::parse(reader.text()?)?.code(reader.small()?))?,
                name: name(reader)?,
                plants: reader.int()?,
                stands: reader.int()?,
            },
            class: reader.maybe(|reader| PieceClass::ALL.get(reader.small::<usize>()?).copied())?,
            last_sight: reader.maybe(|reader| Sight::ALL.get(reader.small::<usize>()?).copied())?,
        })
    })?;
    Some(KeptTask {
        task: kept,
        lot: on_round,
        words: reader.maybe(written)?,
        outside_ref: reader.once()?.to_owned(),
        lot_outside_ref: reader.once()?.to_owned(),
        number,
    })
}
