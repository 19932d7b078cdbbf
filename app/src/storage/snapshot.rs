//! What a start needs first, and the snapshot: pieces of a cache that may be thrown away at any time.
//!
//! A start reads the snapshot's pieces under a beginning, the drafts and the marks, and how far the book goes, in one
//! transaction and without a line of the book. Whether the pieces stand for these lines is for who wrote them to say.

use indexed_db_futures::KeyRange;
use indexed_db_futures::cursor::CursorDirection;
use indexed_db_futures::database::Database;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{Transaction, TransactionDurability};
use js_sys::Uint8Array;
use wasm_bindgen::{JsCast, JsValue};

use super::fault::Fault;
use super::indexed::{commit, reading, writing};
use super::rows::damaged;
use super::schema::{DRAFTS, ENTRIES, META, SEGMENTS, SNAPSHOT};
use super::{First, OWN_MARK, Piece, StorageError};
use crate::platform::whole;

/// Reads what a start needs first, with the pieces whose names begin so.
pub(crate) async fn first(database: &Database, beginning: &str) -> Result<First, Fault> {
    let transaction = reading(database, &[ENTRIES, SEGMENTS, DRAFTS, META, SNAPSHOT])?;
    let mut first = First::default();
    let store = transaction.object_store(SNAPSHOT)?;
    let range = beginning_so(beginning);
    let keys = store
        .get_all_keys::<String>()
        .with_query::<String, _>(range.clone())
        .primitive()?;
    let values = store
        .get_all::<JsValue>()
        .with_query::<String, _>(range)
        .primitive()?;
    for (key, value) in keys.await?.zip(values.await?) {
        first.pieces.push((key?, bytes(value?)?));
    }
    for (name, texts) in [(DRAFTS, &mut first.drafts), (META, &mut first.marks)] {
        let store = transaction.object_store(name)?;
        let keys = store.get_all_keys::<String>().primitive()?;
        let values = store.get_all::<String>().primitive()?;
        for (key, value) in keys.await?.zip(values.await?) {
            texts.insert(key?, value?);
        }
    }
    first.marks.retain(|key, _| !key.starts_with(OWN_MARK));
    let sealed = newest(&transaction, SEGMENTS).await?;
    first.last = newest(&transaction, ENTRIES).await?.max(sealed);
    first.rows = first.last.saturating_sub(sealed);
    Ok(first)
}

/// The names that begin so.
fn beginning_so(beginning: &str) -> KeyRange<String> {
    KeyRange::Bound(beginning.to_owned(), false, format!("{beginning}~"), false)
}

/// The arrival number of the newest line; 0 for an empty book.
pub(crate) async fn last_arrival(transaction: &Transaction<'_>) -> Result<u64, Fault> {
    let sealed = newest(transaction, SEGMENTS).await?;
    Ok(newest(transaction, ENTRIES).await?.max(sealed))
}

/// The last key of a store of lines.
async fn newest(transaction: &Transaction<'_>, store: &str) -> Result<u64, Fault> {
    let store = transaction.object_store(store)?;
    let cursor = store
        .open_key_cursor()
        .with_direction(CursorDirection::Prev)
        .primitive()?;
    let key = match cursor.await? {
        Some(cursor) => cursor.primary_key::<JsValue>()?,
        None => None,
    };
    key.map_or(Ok(0), |key| {
        whole(&key).ok_or_else(|| damaged("arrival").into())
    })
}

/// Reads pieces by name; one that is not there is left out.
pub(crate) async fn pieces(database: &Database, names: &[String]) -> Result<Vec<Piece>, Fault> {
    let transaction = reading(database, &[SNAPSHOT])?;
    let store = transaction.object_store(SNAPSHOT)?;
    let mut requests = Vec::with_capacity(names.len());
    for name in names {
        requests.push(store.get::<JsValue, _, _>(name.as_str()).primitive()?);
    }
    let mut pieces = Vec::with_capacity(names.len());
    for (name, request) in names.iter().zip(requests) {
        if let Some(value) = request.await? {
            pieces.push((name.clone(), bytes(value)?));
        }
    }
    Ok(pieces)
}

/// Keeps pieces, all or none of them, instead of those whose names begin so.
pub(crate) async fn keep(
    database: &Database,
    pieces: &[Piece],
    instead: Option<&str>,
) -> Result<(), Fault> {
    let transaction = writing(database, &[SNAPSHOT], TransactionDurability::Relaxed)?;
    let store = transaction.object_store(SNAPSHOT)?;
    match instead {
        Some("") => drop(store.clear()?),
        Some(beginning) => {
            store
                .delete::<String, _>(beginning_so(beginning))
                .primitive()?;
        }
        None => {}
    }
    for (name, bytes) in pieces {
        let value: JsValue = Uint8Array::from(bytes.as_slice()).into();
        store
            .put(&value)
            .with_key(name.as_str())
            .without_key_type()
            .primitive()?;
    }
    drop(store);
    commit(transaction).await
}

fn bytes(value: JsValue) -> Result<Vec<u8>, StorageError> {
    let bytes: Uint8Array = value.dyn_into().map_err(|_| damaged("snapshot"))?;
    Ok(bytes.to_vec())
}
