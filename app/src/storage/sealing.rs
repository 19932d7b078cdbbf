//! Moving older rows into segments.
//!
//! Reading a book of a hundred thousand small rows takes many times as long as reading the same bytes in a hundred
//! rows (measured in a desktop browser: 27 times). The move is one transaction, so a line is always in exactly one
//! place, and its identity goes along into the list of sealed ones.

use indexed_db_futures::KeyRange;
use indexed_db_futures::database::Database;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::TransactionDurability;
use wasm_bindgen::JsValue;

use super::fault::Fault;
use super::indexed::{commit, runs_of, writing};
use super::rows::{Segment, entry_arrival, entry_identity, entry_text, number};
use super::schema::{ENTRIES, META, SEGMENTS};
use super::{SEALED_MARK, SEGMENT_LINES};

/// Moves all but the newest `keep` rows; answers how many.
pub(crate) async fn seal(database: &Database, keep: usize) -> Result<usize, Fault> {
    let stores = [ENTRIES, SEGMENTS, META];
    let transaction = writing(database, &stores, TransactionDurability::Strict)?;
    let entries = transaction.object_store(ENTRIES)?;
    let meta = transaction.object_store(META)?;
    let rows = entries.get_all::<JsValue>().primitive()?;
    let mark = meta.get::<String, _, _>(SEALED_MARK).primitive()?;
    let mut rows = rows
        .await?
        .collect::<indexed_db_futures::Result<Vec<_>>>()?;
    let mut sealed = runs_of(mark.await?)?;

    let count = rows.len().saturating_sub(keep);
    rows.truncate(count);
    let segments = transaction.object_store(SEGMENTS)?;
    let mut last = None;
    for chunk in rows.chunks(SEGMENT_LINES) {
        let Some(segment) = segment_of(chunk)? else {
            continue;
        };
        for row in chunk {
            let (dev, seq) = entry_identity(row)?;
            sealed.add(dev, seq);
        }
        last = Some(segment.last);
        segments.add(segment.row()).primitive()?;
    }
    let Some(last) = last else {
        return Ok(0);
    };
    let moved = KeyRange::UpperBound(number(last), false);
    entries.delete::<JsValue, _>(moved).primitive()?;
    meta.put(sealed.text())
        .with_key(SEALED_MARK)
        .without_key_type()
        .primitive()?;
    drop((entries, segments, meta));
    commit(transaction).await?;
    Ok(count)
}

fn segment_of(rows: &[JsValue]) -> Result<Option<Segment>, Fault> {
    let (Some(first), Some(last)) = (rows.first(), rows.last()) else {
        return Ok(None);
    };
    let mut text = String::new();
    for row in rows {
        text.push_str(&entry_text(row)?);
        text.push('\n');
    }
    Ok(Some(Segment {
        first: entry_arrival(first)?,
        last: entry_arrival(last)?,
        text,
    }))
}
