//! The door through which `cargo xtask bench` measures the program: rows of text in and out, over the ledger every
//! screen uses. Nothing here is done otherwise than a screen would do it; the page that loads it is not in the release.

mod rows;

use std::cell::{Cell, RefCell};

use js_sys::{Function, Promise};
use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::exchange;
use velamen_core::season::Hemisphere;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::ledger::{Act, Arrival, Ledger, Phase};
use crate::rest::{self, doors};
use rows::Names;
use velamen_core::command::Command;

/// Attribute of the page's root by which a page asks to be left empty.
const WANTED: &str = "data-bench";

thread_local! {
    static LEDGER: Cell<Option<Ledger>> = const { Cell::new(None) };
    static NAMES: RefCell<Names> = RefCell::new(Names::default());
}

/// Whether this page measures instead of showing.
#[must_use]
pub fn is_wanted() -> bool {
    document()
        .document_element()
        .is_some_and(|root| root.has_attribute(WANTED))
}

fn ledger() -> Result<Ledger, JsValue> {
    LEDGER.get().ok_or_else(|| JsValue::from_str("not open"))
}

fn fault(error: impl std::fmt::Debug) -> JsValue {
    JsValue::from_str(&format!("{error:?}"))
}

/// A promise, and what settles it.
fn pending() -> (Promise, Function, Function) {
    let mut ends = None;
    let promise = Promise::new(&mut |done, failed| ends = Some((done, failed)));
    let (done, failed) = ends.unwrap_or_default();
    (promise, done, failed)
}

fn settle(end: &Function, value: &JsValue) {
    // A promise's own end does not fail.
    let _ = end.call1(&JsValue::UNDEFINED, value);
}

/// Opens the book as the program does at its start; done when the Round can be shown.
#[wasm_bindgen]
pub fn bench_open() -> Promise {
    let (promise, done, failed) = pending();
    mount_to_body(move || {
        let ledger = Ledger::start();
        LEDGER.set(Some(ledger));
        Effect::new(move |_| match ledger.phase() {
            Phase::Opening | Phase::Making => {}
            Phase::Trouble(error) => settle(&failed, &fault(error)),
            Phase::NoBook | Phase::Early | Phase::Ready => settle(&done, &JsValue::UNDEFINED),
        });
    });
    promise
}

/// Free tasks due before a day, a row each.
///
/// # Errors
/// Before the book is open, or for a day that is none.
#[wasm_bindgen]
pub fn bench_late(before: &str) -> Result<Promise, JsValue> {
    let before = before.parse().map_err(fault)?;
    let ledger = ledger()?;
    let (promise, done, _) = pending();
    spawn_local(async move {
        let early = ledger
            .ask_early(before, |kept| rows::late_of(kept, before))
            .await;
        let late = match early {
            Some(late) => JsValue::from_str(&late),
            None => {
                let day = Some(before.to_string());
                let late = doors::measure(ledger, "late".to_owned(), day).await;
                late.unwrap_or_else(|fault| fault)
            }
        };
        settle(&done, &late);
    });
    Ok(promise)
}

/// Asks for something else by its name: a promise of it, or the answer.
///
/// # Errors
/// Before the book is open, or what the asked one says.
#[wasm_bindgen]
pub fn bench_ask(what: String, text: Option<String>) -> Result<Promise, JsValue> {
    let ledger = ledger()?;
    let (promise, done, failed) = pending();
    spawn_local(async move {
        if !rest::fetch().await {
            settle(&failed, &JsValue::from_str("no rest"));
            return;
        }
        match doors::measure(ledger, what, text).await {
            // A promise settles another by itself.
            Ok(answer) => settle(&done, &answer),
            Err(fault) => settle(&failed, &fault),
        }
    });
    Ok(promise)
}

/// What is asked for by a name, in the second part of the program.
pub(crate) fn asked(ledger: Ledger, what: &str, text: Option<String>) -> Result<JsValue, JsValue> {
    let given = text.clone().unwrap_or_default();
    match what {
        "late" => {
            let before = given.parse().map_err(fault)?;
            Ok(ledger.look(|state, _| rows::late(state, before)).into())
        }
        "ready" => Ok(ready(ledger).into()),
        "seed" => Ok(seed(ledger, given).into()),
        "record" => record(ledger, &given).map(Into::into),
        "record_many" => Ok(record_many(ledger, given).into()),
        "mark" => mark(ledger).map(Into::into),
        "last_line" => Ok(last_line(ledger).into()),
        "file" => file(ledger, text.as_deref()).map(Into::into),
        "take_in" => take_in(ledger, &given).map(Into::into),
        "dump" => Ok(ledger.look(|state, _| rows::dump(state)).into()),
        _ => Err(JsValue::from_str("asked for nothing that there is")),
    }
}

/// Done when the whole book was read, this phone has joined it, and everything can be asked and recorded.
fn ready(ledger: Ledger) -> Promise {
    let (promise, done, _) = pending();
    let is_there = move |joined: Memo<bool>| {
        let phase = ledger.phase();
        phase == Phase::NoBook || phase == Phase::Ready && joined.get()
    };
    // Nothing is left to watch where there is nothing to wait for: every tap would wake all that watch since those before.
    let now = Owner::new();
    let there = now.with(|| untrack(|| is_there(ledger.joined())));
    now.cleanup();
    if there {
        settle(&done, &JsValue::UNDEFINED);
    } else {
        let joined = ledger.joined();
        Effect::new(move |_| {
            if is_there(joined) {
                settle(&done, &JsValue::UNDEFINED);
            }
        });
    }
    promise
}

/// Fills an empty book with rows, an entry a row.
fn seed(ledger: Ledger, text: String) -> Promise {
    let (promise, done, failed) = pending();
    spawn_local(async move {
        let mut names = Names::default();
        let mut open = Some(ledger.opening("Bench".to_owned(), Hemisphere::North));
        let mut lines = text.lines();
        let kept = ledger
            .record_all(|state, last| {
                if let Some(last) = last {
                    names.learn(&last.events);
                }
                match open.take() {
                    Some(open) => Some(Command::OpenBook(open)),
                    None => lines.next().map(|row| names.command_of(state, &[row])),
                }
            })
            .await;
        match kept {
            Ok(count) => settle(&done, &JsValue::from(u32::try_from(count).unwrap_or(0))),
            Err(error) => settle(&failed, &fault(error)),
        }
    });
    promise
}

/// Records rows as one command: done when it is on disk and counts.
fn record(ledger: Ledger, text: &str) -> Result<Promise, JsValue> {
    let lines: Vec<&str> = text.lines().collect();
    let command = NAMES.with_borrow_mut(|names| {
        ledger.look(|state, _| {
            names.learn_all(state);
            names.command(state, &lines)
        })
    });
    let command = command.ok_or_else(|| JsValue::from_str("rows that say nothing"))?;
    let (promise, done, failed) = pending();
    let act = Act::new(command, "")
        .then(move |decision| {
            NAMES.with_borrow_mut(|names| names.learn(&decision.events));
            settle(&done, &JsValue::UNDEFINED);
        })
        .otherwise(move |no| settle(&failed, &fault(no)));
    ledger.act(act);
    Ok(promise)
}

/// Records many such commands, an empty line between them, in one transaction.
fn record_many(ledger: Ledger, text: String) -> Promise {
    let (promise, done, failed) = pending();
    spawn_local(async move {
        let mut names = Names::default();
        ledger.look(|state, _| names.learn_all(state));
        let mut deeds = text.split("\n\n");
        let kept = ledger
            .record_all(|state, last| {
                if let Some(last) = last {
                    names.learn(&last.events);
                }
                let rows: Vec<&str> = deeds.next()?.lines().collect();
                Some(names.command_of(state, &rows))
            })
            .await;
        NAMES.set(names);
        match kept {
            Ok(_) => settle(&done, &JsValue::UNDEFINED),
            Err(error) => settle(&failed, &fault(error)),
        }
    });
    promise
}

/// What this phone has now, as marks for a file.
fn mark(ledger: Ledger) -> Result<String, JsValue> {
    let marks = ledger.look(|state, _| state.log().marks());
    serde_json::to_string(&marks).map_err(fault)
}

/// The line this phone wrote last.
fn last_line(ledger: Ledger) -> String {
    ledger.look(|state, at| {
        let (seq, _, _) = state.log().next_of(at.dev);
        let mut own = state.log().lines_of(at.dev, seq.saturating_sub(1));
        own.next().unwrap_or_default().to_owned()
    })
}

/// The book as the text of a file, or what came after marks.
fn file(ledger: Ledger, since: Option<&str>) -> Result<String, JsValue> {
    let marks = since.map(|text| serde_json::from_str(text).map_err(fault));
    let marks = marks.transpose()?;
    let text = ledger.look(|state, at| match &marks {
        Some(marks) => exchange::write_since(state, at, marks),
        None => exchange::write(state, at),
    });
    text.ok_or_else(|| JsValue::from_str("no book"))
}

/// Takes the text of a file in; done when it is on disk and counts.
fn take_in(ledger: Ledger, text: &str) -> Result<Promise, JsValue> {
    let incoming = match ledger.judge(text) {
        Arrival::Ready(incoming) => *incoming,
        other => return Err(fault(other)),
    };
    let (promise, done, failed) = pending();
    let arrival = RwSignal::new(Arrival::Nothing);
    spawn_local(async move {
        ledger
            .taken_in(incoming, arrival, move || {
                settle(&done, &JsValue::UNDEFINED)
            })
            .await;
        if let Arrival::Fault(words) = arrival.get_untracked() {
            settle(&failed, &JsValue::from_str(&words));
        }
    });
    Ok(promise)
}
