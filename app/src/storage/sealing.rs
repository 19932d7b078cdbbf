//! Moving older rows into segments.
//!
//! Reading a book of a hundred thousand small rows takes many times as long as reading the same bytes in a hundred
//! rows (measured in a desktop browser: 27 times). The move is one transaction, so a line is always in exactly one
//! place, and its identity goes along into the list of sealed ones. Many lines that come at once, as from a file, are
//! segments from the first; the rows before them go along, so that what lies in segments is always the older part.

use indexed_db_futures::KeyRange;
use indexed_db_futures::database::Database;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{Transaction, TransactionDurability};
use wasm_bindgen::JsValue;

use super::connection::Attempt;
use super::fault::Fault;
use super::indexed::{commit, runs_of, write_beside, writing};
use super::rows::{
    Segment, counter_row, entry_arrival, entry_identity, entry_text, identity_of, number, photo_row,
};
use super::runs::Runs;
use super::schema::{DRAFTS, ENTRIES, IDENTITY, META, PHOTOS, SEGMENTS};
use super::snapshot::last_arrival;
use super::{Line, Record, SEALED_MARK, SEGMENT_LINES, StorageError};

/// Moves all but the newest `keep` rows; answers how many.
pub(crate) async fn seal(database: &Database, keep: usize) -> Result<usize, Fault> {
    let stores = [ENTRIES, SEGMENTS, META];
    let transaction = writing(database, &stores, TransactionDurability::Strict)?;
    let mut sealed = sealed_of(&transaction).await?;
    let count = move_rows(&transaction, keep, &mut sealed).await?;
    if count == 0 {
        return Ok(0);
    }
    keep_sealed(&transaction, &sealed)?;
    commit(transaction).await?;
    Ok(count)
}

/// Appends so many lines that they are segments at once, after the rows there are: reading keeps the order of arrival.
pub(crate) async fn append_sealed(
    database: &Database,
    record: &Record<'_>,
    attempt: Attempt,
) -> Result<u64, Fault> {
    let stores = [ENTRIES, SEGMENTS, META, PHOTOS, DRAFTS];
    let photos: Vec<JsValue> = record.photos.iter().map(photo_row).collect();
    let transaction = writing(database, &stores, TransactionDurability::Strict)?;
    let last = last_arrival(&transaction).await?;
    let mut sealed = sealed_of(&transaction).await?;
    let holds = |line: &&Line| sealed.holds(line.dev, line.seq);
    let known = record.lines.iter().filter(holds).count();
    if known > 0 {
        // The first attempt had reached the disk before the connection was lost.
        let all = known == record.lines.len() && attempt == Attempt::Again;
        return if all && is_newest(&transaction, record.lines).await? {
            Ok(last)
        } else {
            Err(StorageError::Duplicate.into())
        };
    }
    if are_rows(&transaction, record.lines).await? {
        return Err(StorageError::Duplicate.into());
    }
    move_rows(&transaction, 0, &mut sealed).await?;
    let segments = transaction.object_store(SEGMENTS)?;
    let mut end = last;
    for lines in record.lines.chunks(SEGMENT_LINES) {
        let first = end.saturating_add(1);
        end = end.saturating_add(u64::try_from(lines.len()).unwrap_or(u64::MAX));
        let segment = Segment {
            first,
            last: end,
            text: text_of(lines.iter().map(|line| line.text.as_str())),
        };
        segments.add(segment.row()).primitive()?;
        for line in lines {
            sealed.add(line.dev, line.seq);
        }
    }
    // The browser numbers rows on from the greatest number it was ever given.
    let entries = transaction.object_store(ENTRIES)?;
    entries
        .add(counter_row(end))
        .with_key_type::<JsValue>()
        .primitive()?;
    entries.delete::<JsValue, _>(number(end)).primitive()?;
    keep_sealed(&transaction, &sealed)?;
    write_beside(&transaction, record, photos)?;
    drop((entries, segments));
    commit(transaction).await?;
    Ok(end)
}

async fn sealed_of(transaction: &Transaction<'_>) -> Result<Runs, Fault> {
    let meta = transaction.object_store(META)?;
    let mark = meta.get::<String, _, _>(SEALED_MARK).primitive()?;
    Ok(runs_of(mark.await?)?)
}

fn keep_sealed(transaction: &Transaction<'_>, sealed: &Runs) -> Result<(), Fault> {
    let meta = transaction.object_store(META)?;
    meta.put(sealed.text())
        .with_key(SEALED_MARK)
        .without_key_type()
        .primitive()?;
    Ok(())
}

/// Puts all but the newest `keep` rows into segments, and adds their identities to the sealed ones.
async fn move_rows(
    transaction: &Transaction<'_>,
    keep: usize,
    sealed: &mut Runs,
) -> Result<usize, Fault> {
    let entries = transaction.object_store(ENTRIES)?;
    let rows = entries.get_all::<JsValue>().primitive()?;
    let mut rows = rows
        .await?
        .collect::<indexed_db_futures::Result<Vec<_>>>()?;
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
    if let Some(last) = last {
        let moved = KeyRange::UpperBound(number(last), false);
        entries.delete::<JsValue, _>(moved).primitive()?;
    }
    Ok(count)
}

/// Whether any of these identities is a row already: a question for each run of numbers, not for each line.
async fn are_rows(transaction: &Transaction<'_>, lines: &[Line]) -> Result<bool, Fault> {
    let mut runs = Runs::default();
    for line in lines {
        runs.add(line.dev, line.seq);
    }
    let entries = transaction.object_store(ENTRIES)?;
    let index = entries.index(IDENTITY)?;
    let mut requests = Vec::new();
    for (dev, first, last) in runs.each() {
        let range = KeyRange::Bound(
            identity_of(dev, first),
            false,
            identity_of(dev, last),
            false,
        );
        requests.push(index.count().with_query::<JsValue, _>(range).primitive()?);
    }
    let mut found = false;
    for request in requests {
        found |= request.await? > 0;
    }
    Ok(found)
}

/// Whether the newest segments end with these very lines.
async fn is_newest(transaction: &Transaction<'_>, lines: &[Line]) -> Result<bool, Fault> {
    let segments = transaction.object_store(SEGMENTS)?;
    let rows = segments.get_all::<JsValue>().primitive()?.await?;
    let mut texts = Vec::new();
    for row in rows {
        let segment = Segment::of_row(&row?)?;
        texts.extend(segment.text.lines().map(str::to_owned));
    }
    let newest = texts.iter().rev().zip(lines.iter().rev());
    Ok(texts.len() >= lines.len() && newest.into_iter().all(|(a, b)| *a == b.text))
}

fn segment_of(rows: &[JsValue]) -> Result<Option<Segment>, Fault> {
    let (Some(first), Some(last)) = (rows.first(), rows.last()) else {
        return Ok(None);
    };
    let texts = rows.iter().map(entry_text);
    let texts = texts.collect::<Result<Vec<String>, _>>()?;
    Ok(Some(Segment {
        first: entry_arrival(first)?,
        last: entry_arrival(last)?,
        text: text_of(texts.iter().map(String::as_str)),
    }))
}

/// Lines as one text.
fn text_of<'a>(lines: impl Iterator<Item = &'a str> + Clone) -> String {
    let bytes = lines.clone().map(|line| line.len().saturating_add(1)).sum();
    let mut text = String::with_capacity(bytes);
    for line in lines {
        text.push_str(line);
        text.push('\n');
    }
    text
}
