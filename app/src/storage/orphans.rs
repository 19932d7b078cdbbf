//! Photographs that nothing speaks of any more.
//!
//! A photograph is kept the moment it is taken, before the draft that names it. When the program ends in between, or
//! the draft is thrown away, it stays behind. It is noted when it is first found so, and removed when it still is a day
//! later. So nothing is removed that was taken a moment ago, and no clock has to be trusted with when it was taken.

use std::collections::{BTreeMap, BTreeSet};

use super::{Storage, StorageError};

/// The mark that notes them: the digest and since when, in milliseconds, a line each.
pub const UNNAMED: &str = "photos_unnamed";

/// How long they stay. Common practice, no source.
const STAY_MS: i64 = 24 * 3_600_000;

/// Removes what nobody has named for a day and answers how many. `noted` is the mark as it was read, `named` everything
/// that is spoken of.
pub async fn sweep_photos<S: Storage>(
    storage: &S,
    noted: &str,
    named: &BTreeSet<String>,
    now_ms: i64,
) -> Result<usize, StorageError> {
    let since = read(noted);
    let (mut gone, mut waiting) = (Vec::new(), BTreeMap::new());
    for key in storage.list_photo_keys().await? {
        if named.contains(key.as_str()) {
            continue;
        }
        let since_ms = since.get(key.as_str()).copied().unwrap_or(now_ms);
        if now_ms.saturating_sub(since_ms) >= STAY_MS {
            gone.push(key);
        } else {
            waiting.insert(key, since_ms);
        }
    }
    if !gone.is_empty() {
        storage.remove_photos(&gone).await?;
    }
    let text = write(&waiting);
    if text != noted {
        storage.put_mark(UNNAMED, &text).await?;
    }
    Ok(gone.len())
}

fn read(noted: &str) -> BTreeMap<&str, i64> {
    let lines = noted.lines().filter_map(|line| line.split_once(' '));
    lines
        .filter_map(|(key, since)| Some((key, since.parse().ok()?)))
        .collect()
}

fn write(waiting: &BTreeMap<String, i64>) -> String {
    waiting
        .iter()
        .map(|(key, since_ms)| format!("{key} {since_ms}\n"))
        .collect()
}
