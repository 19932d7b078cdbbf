//! A book whose rows cannot all be read: what can be is taken out row by row, and put back as a book that can.
//!
//! Reading leaves everything as it is. Putting back is one transaction; photographs and work in hand stay where they are,
//! and the identity of the device goes, because a number it had given may be among what was lost.

use std::collections::BTreeMap;

use indexed_db_futures::database::Database;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::TransactionDurability;
use wasm_bindgen::JsValue;

use super::fault::Fault;
use super::indexed::{Indexed, commit, reading, writing};
use super::rows::{Segment, counter_row, entry_arrival, entry_text, number};
use super::runs::Runs;
use super::schema::{DRAFTS, ENTRIES, META, SEGMENTS, SNAPSHOT};
use super::{Line, SEALED_MARK, SEGMENT_LINES, StorageError};

/// What could be read.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Salvaged {
    /// Lines in the order of their arrival.
    pub lines: Vec<String>,
    pub drafts: BTreeMap<String, String>,
    /// Rows that could not be read.
    pub lost_rows: usize,
}

impl Indexed {
    /// Reads what can be read.
    pub async fn salvage(&self) -> Result<Salvaged, StorageError> {
        self.connection
            .run(async |database, _| salvage(&database).await)
            .await
    }

    /// Puts these lines and drafts in place of all there are, and forgets the identity kept under this mark.
    pub async fn rebuild(
        &self,
        lines: &[Line],
        drafts: &BTreeMap<String, String>,
        identity: &str,
    ) -> Result<(), StorageError> {
        self.connection
            .run(async |database, _| rebuild(&database, lines, drafts, identity).await)
            .await
    }
}

async fn salvage(database: &Database) -> Result<Salvaged, Fault> {
    let mut found = Salvaged::default();
    let mut arrived: BTreeMap<u64, Vec<String>> = BTreeMap::new();
    for row in rows(database, SEGMENTS, &mut found.lost_rows).await? {
        match Segment::of_row(&row.1) {
            Ok(segment) => {
                let lines = segment.text.lines().map(str::to_owned).collect();
                arrived.insert(segment.last, lines);
            }
            Err(_) => found.lost_rows = found.lost_rows.saturating_add(1),
        }
    }
    for row in rows(database, ENTRIES, &mut found.lost_rows).await? {
        match (entry_arrival(&row.1), entry_text(&row.1)) {
            (Ok(arrival), Ok(text)) => arrived.entry(arrival).or_default().push(text),
            _ => found.lost_rows = found.lost_rows.saturating_add(1),
        }
    }
    found.lines = arrived.into_values().flatten().collect();
    for (key, text) in rows(database, DRAFTS, &mut found.lost_rows).await? {
        match (key.as_string(), text.as_string()) {
            (Some(key), Some(text)) => drop(found.drafts.insert(key, text)),
            _ => found.lost_rows = found.lost_rows.saturating_add(1),
        }
    }
    Ok(found)
}

/// The rows of a store: all at once, or where one of them cannot be read, one after the other.
async fn rows(
    database: &Database,
    store: &str,
    lost: &mut usize,
) -> Result<Vec<(JsValue, JsValue)>, Fault> {
    if let Ok(rows) = all_rows(database, store).await {
        return Ok(rows);
    }
    let transaction = reading(database, &[store])?;
    let keys = transaction
        .object_store(store)?
        .get_all_keys::<JsValue>()
        .primitive()?;
    let keys = keys
        .await?
        .collect::<indexed_db_futures::Result<Vec<_>>>()?;
    let mut rows = Vec::with_capacity(keys.len());
    for key in keys {
        match one_row(database, store, &key).await {
            Ok(Some(row)) => rows.push((key, row)),
            _ => *lost = lost.saturating_add(1),
        }
    }
    Ok(rows)
}

async fn all_rows(database: &Database, store: &str) -> Result<Vec<(JsValue, JsValue)>, Fault> {
    let transaction = reading(database, &[store])?;
    let store = transaction.object_store(store)?;
    let keys = store.get_all_keys::<JsValue>().primitive()?;
    let values = store.get_all::<JsValue>().primitive()?;
    let mut rows = Vec::new();
    for (key, value) in keys.await?.zip(values.await?) {
        rows.push((key?, value?));
    }
    Ok(rows)
}

async fn one_row(
    database: &Database,
    store: &str,
    key: &JsValue,
) -> Result<Option<JsValue>, Fault> {
    let transaction = reading(database, &[store])?;
    let store = transaction.object_store(store)?;
    let row = store.get::<JsValue, _, _>(key.clone()).primitive()?;
    Ok(row.await?)
}

async fn rebuild(
    database: &Database,
    lines: &[Line],
    drafts: &BTreeMap<String, String>,
    identity: &str,
) -> Result<(), Fault> {
    let mut marks = BTreeMap::new();
    for (key, text) in rows(database, META, &mut 0).await? {
        if let (Some(key), Some(text)) = (key.as_string(), text.as_string()) {
            marks.insert(key, text);
        }
    }
    marks.remove(identity);
    let mut sealed = Runs::default();
    let mut segments = Vec::new();
    let mut end = 0_u64;
    for chunk in lines.chunks(SEGMENT_LINES) {
        let first = end.saturating_add(1);
        end = end.saturating_add(u64::try_from(chunk.len()).unwrap_or(u64::MAX));
        let mut text = String::new();
        for line in chunk {
            text.push_str(&line.text);
            text.push('\n');
            sealed.add(line.dev, line.seq);
        }
        let last = end;
        segments.push(Segment { first, last, text }.row());
    }
    marks.insert(SEALED_MARK.to_owned(), sealed.text());
    let stores = [ENTRIES, SEGMENTS, META, SNAPSHOT, DRAFTS];
    let transaction = writing(database, &stores, TransactionDurability::Strict)?;
    for name in stores {
        let _request = transaction.object_store(name)?.clear()?;
    }
    let store = transaction.object_store(SEGMENTS)?;
    for segment in segments {
        store.add(segment).primitive()?;
    }
    // The browser numbers rows on from the greatest number it was ever given; a new row comes after these at any rate.
    let entries = transaction.object_store(ENTRIES)?;
    entries
        .add(counter_row(end))
        .with_key_type::<JsValue>()
        .primitive()?;
    entries.delete::<JsValue, _>(number(end)).primitive()?;
    for (name, texts) in [(META, &marks), (DRAFTS, drafts)] {
        let kept = transaction.object_store(name)?;
        for (key, text) in texts {
            kept.put(text.as_str())
                .with_key(key.as_str())
                .without_key_type()
                .primitive()?;
        }
    }
    drop((store, entries));
    commit(transaction).await
}
