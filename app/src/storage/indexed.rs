//! The book in the browser's own database.
//!
//! Inside a transaction nothing is awaited but the transaction's own requests: the browser ends a transaction that has
//! nothing to do. So rows are shaped before it opens, and each read is built before the first is awaited.

use indexed_db_futures::KeyRange;
use indexed_db_futures::database::Database;
use indexed_db_futures::internals::SystemRepr;
use indexed_db_futures::object_store::ObjectStore;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{
    Transaction, TransactionDurability, TransactionMode, TransactionOptions,
};
use wasm_bindgen::JsValue;

use super::connection::{Attempt, Connection, erase_database};
use super::fault::{Fault, of_exception};
use super::rows::{
    Segment, damaged, entry_arrival, entry_row, entry_text, identity, number, photo_of_row,
    photo_row,
};
use super::runs::Runs;
use super::schema::{DRAFTS, ENTRIES, IDENTITY, META, PHOTOS, SEGMENTS, SNAPSHOT, STEPS, Step};
use super::sealing::{append_sealed, seal};
use super::snapshot::{self, last_arrival};
use super::{
    Arrived, First, Lost, OWN_MARK, Opened, Photo, Piece, Record, SEALED_LEAST, SEALED_MARK,
    Storage, StorageError, Stored, check_mark, check_record,
};
use crate::platform::whole;

/// The book in IndexedDB.
#[derive(Debug)]
pub struct Indexed {
    pub(crate) connection: Connection,
}

impl Indexed {
    /// Opens the book with other steps than the released ones; tests stand in for older and newer programs with it.
    pub(crate) async fn open_with(
        name: &str,
        steps: &'static [Step],
    ) -> Result<Opened<Self>, StorageError> {
        let (connection, schema_before) = Connection::open(name, steps).await?;
        Ok(Opened {
            schema: connection.schema(),
            schema_before,
            storage: Self { connection },
        })
    }

    /// Appends as after a lost connection.
    #[cfg(test)]
    pub(crate) async fn append_again(&self, record: &Record<'_>) -> Result<u64, StorageError> {
        self.connection
            .run(async |database, _| append(&database, record, Attempt::Again).await)
            .await
    }

    async fn put(
        &self,
        store: &str,
        key: &str,
        value: JsValue,
        durability: TransactionDurability,
    ) -> Result<(), StorageError> {
        self.connection
            .run(async |database, _| {
                let transaction = writing(&database, &[store], durability)?;
                transaction
                    .object_store(store)?
                    .put(&value)
                    .with_key(key)
                    .without_key_type()
                    .primitive()?;
                commit(transaction).await
            })
            .await
    }

    async fn get(&self, store: &str, key: &str) -> Result<Option<JsValue>, StorageError> {
        self.connection
            .run(async |database, _| {
                let transaction = reading(&database, &[store])?;
                let row = transaction.object_store(store)?.get(key).primitive()?;
                Ok(row.await?)
            })
            .await
    }
}

impl Storage for Indexed {
    async fn open(name: &str) -> Result<Opened<Self>, StorageError> {
        Self::open_with(name, STEPS).await
    }

    async fn erase(name: &str) -> Result<(), StorageError> {
        erase_database(name).await
    }

    async fn load(&self) -> Result<Stored, StorageError> {
        self.connection
            .run(async |database, _| load(&database).await)
            .await
    }

    async fn load_first(&self, beginning: &str) -> Result<First, StorageError> {
        self.connection
            .run(async |database, _| snapshot::first(&database, beginning).await)
            .await
    }

    async fn lines_after(&self, arrival: u64) -> Result<Arrived, StorageError> {
        self.connection
            .run(async |database, _| {
                let transaction = reading(&database, &[ENTRIES, SEGMENTS])?;
                arrived_after(&transaction, arrival).await
            })
            .await
    }

    async fn append(&self, record: &Record<'_>) -> Result<u64, StorageError> {
        check_record(record)?;
        self.connection
            .run(async |database, attempt| {
                if record.lines.len() >= SEALED_LEAST {
                    append_sealed(&database, record, attempt).await
                } else {
                    append(&database, record, attempt).await
                }
            })
            .await
    }

    async fn put_draft(&self, key: &str, text: &str) -> Result<(), StorageError> {
        self.put(DRAFTS, key, text.into(), TransactionDurability::Relaxed)
            .await
    }

    async fn remove_draft(&self, key: &str) -> Result<(), StorageError> {
        self.connection
            .run(async |database, _| {
                let transaction = writing(&database, &[DRAFTS], TransactionDurability::Relaxed)?;
                transaction.object_store(DRAFTS)?.delete(key).primitive()?;
                commit(transaction).await
            })
            .await
    }

    async fn put_photo(&self, photo: &Photo) -> Result<(), StorageError> {
        let row = photo_row(photo);
        self.put(PHOTOS, &photo.sha256, row, TransactionDurability::Strict)
            .await
    }

    async fn get_photo(&self, sha256: &str) -> Result<Option<Photo>, StorageError> {
        self.get(PHOTOS, sha256)
            .await?
            .map(|row| photo_of_row(sha256, &row))
            .transpose()
    }

    async fn list_photo_keys(&self) -> Result<Vec<String>, StorageError> {
        self.connection
            .run(async |database, _| {
                let transaction = reading(&database, &[PHOTOS])?;
                let keys = transaction
                    .object_store(PHOTOS)?
                    .get_all_keys::<String>()
                    .primitive()?
                    .await?;
                Ok(keys.collect::<indexed_db_futures::Result<Vec<_>>>()?)
            })
            .await
    }

    async fn remove_photos(&self, keys: &[String]) -> Result<(), StorageError> {
        self.connection
            .run(async |database, _| {
                let transaction = writing(&database, &[PHOTOS], TransactionDurability::Strict)?;
                let photos = transaction.object_store(PHOTOS)?;
                for key in keys {
                    photos.delete(key.as_str()).primitive()?;
                }
                drop(photos);
                commit(transaction).await
            })
            .await
    }

    async fn put_mark(&self, key: &str, text: &str) -> Result<(), StorageError> {
        check_mark(key)?;
        self.put(META, key, text.into(), TransactionDurability::Strict)
            .await
    }

    async fn remove_mark(&self, key: &str) -> Result<(), StorageError> {
        check_mark(key)?;
        self.connection
            .run(async |database, _| {
                let transaction = writing(&database, &[META], TransactionDurability::Strict)?;
                transaction.object_store(META)?.delete(key).primitive()?;
                commit(transaction).await
            })
            .await
    }

    async fn keep_pieces(
        &self,
        pieces: &[Piece],
        instead: Option<&str>,
    ) -> Result<(), StorageError> {
        self.connection
            .run(async |database, _| snapshot::keep(&database, pieces, instead).await)
            .await
    }

    async fn pieces(&self, names: &[String]) -> Result<Vec<Piece>, StorageError> {
        self.connection
            .run(async |database, _| snapshot::pieces(&database, names).await)
            .await
    }

    async fn clear_snapshots(&self) -> Result<(), StorageError> {
        self.connection
            .run(async |database, _| {
                let transaction = writing(&database, &[SNAPSHOT], TransactionDurability::Relaxed)?;
                let _request = transaction.object_store(SNAPSHOT)?.clear()?;
                commit(transaction).await
            })
            .await
    }

    async fn seal(&self, keep: usize) -> Result<usize, StorageError> {
        self.connection
            .run(async |database, _| seal(&database, keep).await)
            .await
    }

    async fn check(&self) -> Result<(), StorageError> {
        self.connection
            .run(async |database, _| {
                let transaction = reading(&database, &[META])?;
                transaction.object_store(META)?.count().primitive()?.await?;
                Ok(())
            })
            .await
    }

    fn on_lost(&self, listener: Box<dyn Fn(Lost)>) {
        self.connection.on_lost(listener);
    }

    fn close(&self) {
        self.connection.close();
    }
}

/// A transaction that reads.
pub(crate) fn reading<'a>(
    database: &'a Database,
    stores: &[&str],
) -> Result<Transaction<'a>, Fault> {
    Ok(database
        .transaction(stores)
        .with_mode(TransactionMode::Readonly)
        .build()?)
}

/// A transaction that writes.
pub(crate) fn writing<'a>(
    database: &'a Database,
    stores: &[&str],
    durability: TransactionDurability,
) -> Result<Transaction<'a>, Fault> {
    let options = TransactionOptions::new().with_durability(durability);
    Ok(database
        .transaction(stores)
        .with_mode(TransactionMode::Readwrite)
        .with_options(options)
        .build()?)
}

/// Commits and answers when the browser says that it is done. A failure is explained by the transaction itself, which
/// alone knows of a full disk.
pub(crate) async fn commit(transaction: Transaction<'_>) -> Result<(), Fault> {
    let raw = transaction.as_sys().clone();
    match transaction.commit().await {
        Ok(()) => Ok(()),
        Err(error) => Err(match raw.error() {
            Some(reason) => of_exception(&reason),
            None => error.into(),
        }),
    }
}

/// The identities in sealed segments, as kept in this mark.
pub(crate) fn runs_of(mark: Option<String>) -> Result<Runs, StorageError> {
    Runs::parse(&mark.unwrap_or_default()).ok_or_else(|| damaged(SEALED_MARK))
}

async fn load(database: &Database) -> Result<Stored, Fault> {
    let transaction = reading(database, &[ENTRIES, SEGMENTS, DRAFTS, META])?;
    let mut stored = Stored {
        arrived: arrived_after(&transaction, 0).await?,
        ..Stored::default()
    };
    for (name, texts) in [(DRAFTS, &mut stored.drafts), (META, &mut stored.marks)] {
        let store = transaction.object_store(name)?;
        let keys = store.get_all_keys::<String>().primitive()?;
        let values = store.get_all::<String>().primitive()?;
        for (key, value) in keys.await?.zip(values.await?) {
            texts.insert(key?, value?);
        }
    }
    stored.marks.retain(|key, _| !key.starts_with(OWN_MARK));
    Ok(stored)
}

async fn arrived_after(transaction: &Transaction<'_>, arrival: u64) -> Result<Arrived, Fault> {
    let after = KeyRange::LowerBound(number(arrival), true);
    let segments = transaction
        .object_store(SEGMENTS)?
        .get_all::<JsValue>()
        .with_query::<JsValue, _>(after.clone())
        .primitive()?;
    let rows = transaction
        .object_store(ENTRIES)?
        .get_all::<JsValue>()
        .with_query::<JsValue, _>(after)
        .primitive()?;
    let mut arrived = Arrived {
        texts: Vec::new(),
        last: arrival,
    };
    for row in segments.await? {
        let segment = Segment::of_row(&row?)?;
        arrived.last = segment.last;
        arrived.texts.push(segment.after(arrival));
    }
    let mut newest = None;
    for row in rows.await? {
        let row = row?;
        arrived.texts.push(entry_text(&row)?);
        newest = Some(row);
    }
    if let Some(row) = newest {
        arrived.last = entry_arrival(&row)?;
    }
    Ok(arrived)
}

async fn append(database: &Database, record: &Record<'_>, attempt: Attempt) -> Result<u64, Fault> {
    match attempt {
        Attempt::First if !record.lines.is_empty() => append_first(database, record).await,
        _ => append_after_looking(database, record, attempt).await,
    }
}

/// The usual append, in one go: the index refuses an identity that is a row already, and one that is sealed is found
/// while the rows are on their way.
async fn append_first(database: &Database, record: &Record<'_>) -> Result<u64, Fault> {
    let rows: Vec<JsValue> = record.lines.iter().map(entry_row).collect();
    let photos: Vec<JsValue> = record.photos.iter().map(photo_row).collect();
    let mut stores = vec![ENTRIES, META];
    if !photos.is_empty() {
        stores.push(PHOTOS);
    }
    if !record.drafts_done.is_empty() || !record.drafts_left.is_empty() {
        stores.push(DRAFTS);
    }
    let transaction = writing(database, &stores, TransactionDurability::Strict)?;
    let mark = transaction
        .object_store(META)?
        .get::<String, _, _>(SEALED_MARK)
        .primitive()?;
    let entries = transaction.object_store(ENTRIES)?;
    let mut newest = None;
    for row in rows {
        newest = Some(entries.add(row).with_key_type::<JsValue>().primitive()?);
    }
    write_beside(&transaction, record, photos)?;
    let sealed = runs_of(mark.await?)?;
    let mut lines = record.lines.iter();
    if lines.any(|line| sealed.holds(line.dev, line.seq)) {
        // Given up without a commit, the transaction leaves nothing behind.
        return Err(StorageError::Duplicate.into());
    }
    drop(entries);
    commit(transaction).await?;
    match newest {
        Some(request) => whole(&request.await?).ok_or_else(|| damaged("arrival").into()),
        None => Err(damaged("arrival").into()),
    }
}

/// Looks first whether the lines are there already, as after a lost connection.
async fn append_after_looking(
    database: &Database,
    record: &Record<'_>,
    attempt: Attempt,
) -> Result<u64, Fault> {
    let rows: Vec<JsValue> = record.lines.iter().map(entry_row).collect();
    let keys: Vec<JsValue> = record.lines.iter().map(identity).collect();
    let photos: Vec<JsValue> = record.photos.iter().map(photo_row).collect();

    let stores = [ENTRIES, PHOTOS, DRAFTS, META, SEGMENTS];
    let transaction = writing(database, &stores, TransactionDurability::Strict)?;
    let entries = transaction.object_store(ENTRIES)?;
    match found(&transaction, &entries, record, keys).await? {
        Found::None => {}
        // The first attempt had reached the disk before the connection was lost.
        Found::SameBytes(last) if attempt == Attempt::Again => return Ok(last),
        Found::SameBytes(_) | Found::Others => return Err(StorageError::Duplicate.into()),
    }

    let mut newest = None;
    for row in rows {
        newest = Some(entries.add(row).with_key_type::<JsValue>().primitive()?);
    }
    write_beside(&transaction, record, photos)?;
    let last_before = match newest {
        Some(_) => None,
        None => Some(last_arrival(&transaction).await?),
    };
    drop(entries);
    commit(transaction).await?;
    match (newest, last_before) {
        (Some(request), _) => whole(&request.await?).ok_or_else(|| damaged("arrival").into()),
        (None, last) => Ok(last.unwrap_or_default()),
    }
}

/// Everything of a record but its lines.
pub(crate) fn write_beside(
    transaction: &Transaction<'_>,
    record: &Record<'_>,
    photos: Vec<JsValue>,
) -> Result<(), Fault> {
    for (photo, row) in record.photos.iter().zip(photos) {
        let store = transaction.object_store(PHOTOS)?;
        store
            .put(row)
            .with_key(photo.sha256.as_str())
            .without_key_type()
            .primitive()?;
    }
    for key in record.drafts_done {
        let drafts = transaction.object_store(DRAFTS)?;
        drafts.delete(key.as_str()).primitive()?;
    }
    for (key, text) in record.drafts_left {
        let drafts = transaction.object_store(DRAFTS)?;
        drafts
            .put(text.as_str())
            .with_key(key.as_str())
            .without_key_type()
            .primitive()?;
    }
    for (key, text) in record.marks {
        let meta = transaction.object_store(META)?;
        meta.put(text.as_str())
            .with_key(key.as_str())
            .without_key_type()
            .primitive()?;
    }
    Ok(())
}

/// What the book already holds under the identities of a record.
enum Found {
    None,
    /// All of them, byte for byte; the arrival number of the last.
    SameBytes(u64),
    /// Some of them, or with other bytes.
    Others,
}

async fn found(
    transaction: &Transaction<'_>,
    entries: &ObjectStore<'_>,
    record: &Record<'_>,
    keys: Vec<JsValue>,
) -> Result<Found, Fault> {
    let index = entries.index(IDENTITY)?;
    let mark = transaction
        .object_store(META)?
        .get::<String, _, _>(SEALED_MARK)
        .primitive()?;
    let mut requests = Vec::with_capacity(keys.len());
    for key in keys {
        requests.push(index.get::<JsValue, _, _>(key).primitive()?);
    }
    let sealed = runs_of(mark.await?)?;
    let mut same = 0_usize;
    let mut others = false;
    let mut last = 0;
    for (line, request) in record.lines.iter().zip(requests) {
        match request.await? {
            Some(row) if entry_text(&row)? == line.text => {
                same = same.saturating_add(1);
                last = entry_arrival(&row)?;
            }
            Some(_) => others = true,
            None => others |= sealed.holds(line.dev, line.seq),
        }
    }
    Ok(match same {
        _ if others => Found::Others,
        0 => Found::None,
        count if count == record.lines.len() => Found::SameBytes(last),
        _ => Found::Others,
    })
}
