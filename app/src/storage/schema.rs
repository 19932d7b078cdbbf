//! The stores, and how older ones become the newest.
//!
//! The version rises when a store or an index is added, or a row's own shape changes. The meaning of a line has its own versions, in the core.
//! A step is never edited after a release: it is what books in the field were made with.

use indexed_db_futures::database::Database;
use indexed_db_futures::prelude::*;

/// Recent lines as rows, by arrival.
pub(crate) const ENTRIES: &str = "entries";
/// The index over (device, sequence) that refuses a second line of the same identity.
pub(crate) const IDENTITY: &str = "identity";
/// Older lines, many to a row, by the arrival number of the last one.
pub(crate) const SEGMENTS: &str = "segments";
/// Parts of a cache of the state, by name.
pub(crate) const SNAPSHOT: &str = "snapshot";
/// Photographs, by the digest of their bytes.
pub(crate) const PHOTOS: &str = "photos";
/// Work in hand, by key.
pub(crate) const DRAFTS: &str = "drafts";
/// The device's identity and other marks, by key.
pub(crate) const META: &str = "meta";

/// One step from a version to the next.
pub(crate) type Step = fn(&Database) -> indexed_db_futures::Result<()>;

/// All steps; the version of the stores is their number.
pub(crate) const STEPS: &[Step] = &[first, segments_of_bytes];

fn first(database: &Database) -> indexed_db_futures::Result<()> {
    database
        .create_object_store(ENTRIES)
        .with_key_path("arrival".into())
        .with_auto_increment(true)
        .build()?
        .create_index(IDENTITY, ["dev", "seq"].into())
        .with_unique(true)
        .build()?;
    database
        .create_object_store(SEGMENTS)
        .with_key_path("last".into())
        .build()?;
    for name in [SNAPSHOT, PHOTOS, DRAFTS, META] {
        database.create_object_store(name).build()?;
    }
    Ok(())
}

/// Nothing to do: from here on new segments are bytes, which a program of before would take for damage. It finds a newer
/// book instead, and leaves it alone.
#[allow(clippy::unnecessary_wraps)]
fn segments_of_bytes(_: &Database) -> indexed_db_futures::Result<()> {
    Ok(())
}

/// Takes the stores from `before` to the end of `steps`.
pub(crate) fn upgrade(
    database: &Database,
    before: u32,
    steps: &[Step],
) -> indexed_db_futures::Result<()> {
    let done = usize::try_from(before).unwrap_or(usize::MAX);
    steps.iter().skip(done).try_for_each(|step| step(database))
}
