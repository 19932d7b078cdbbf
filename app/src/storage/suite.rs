//! What every storage does, said once and tried on both.
//!
//! Each scene gets the name of a book that no other scene uses, and starts from nothing.

use super::{
    Arrived, Line, Photo, Record, SEALED_LEAST, SEALED_MARK, Storage, StorageError, UNNAMED,
    sweep_photos,
};

pub(crate) fn line(dev: u64, seq: u64) -> Line {
    Line {
        dev,
        seq,
        text: format!("{{\"dev\":\"{dev:016x}\",\"seq\":{seq},\"note\":\"Blüten, 3 Töpfe\"}}"),
    }
}

pub(crate) fn held(arrived: &Arrived) -> Vec<String> {
    arrived.lines().map(str::to_owned).collect()
}

pub(crate) fn texts(lines: &[Line]) -> Vec<String> {
    lines.iter().map(|line| line.text.clone()).collect()
}

fn photo(sha256: &str) -> Photo {
    Photo {
        sha256: sha256.into(),
        media_type: "image/jpeg".into(),
        bytes: vec![0xff, 0xd8, 0, 1, 2, 255],
    }
}

/// A fresh book under this name.
pub(crate) async fn fresh<S: Storage>(name: &str) -> S {
    S::erase(name).await.unwrap();
    let opened = S::open(name).await.unwrap();
    assert_eq!(opened.schema_before, None, "the book was not there before");
    opened.storage
}

/// Closes a book and opens it again.
async fn again<S: Storage>(storage: S, name: &str) -> S {
    storage.close();
    drop(storage);
    let opened = S::open(name).await.unwrap();
    assert_eq!(opened.schema_before, Some(opened.schema));
    opened.storage
}

pub(crate) fn of_lines(lines: &[Line]) -> Record<'_> {
    Record {
        lines,
        ..Record::default()
    }
}

pub(crate) async fn recorded_lines_are_there_after_opening_again<S: Storage>(name: &str) {
    let storage: S = fresh(name).await;
    assert_eq!(storage.load().await.unwrap(), super::Stored::default());
    // The second device sorts before the first: what counts is the order of arrival.
    let lines = [line(9, 1), line(9, 2), line(3, 1)];
    assert_eq!(storage.append(&of_lines(&lines[..1])).await, Ok(1));
    assert_eq!(storage.append(&of_lines(&lines[1..])).await, Ok(3));
    let storage = again(storage, name).await;
    let stored = storage.load().await.unwrap();
    assert_eq!(held(&stored.arrived), texts(&lines));
    assert_eq!(stored.arrived.last, 3);
}

pub(crate) async fn a_second_line_of_the_same_identity_is_refused_and_nothing_is_written<
    S: Storage,
>(
    name: &str,
) {
    let storage: S = fresh(name).await;
    let first = [line(1, 1)];
    storage.append(&of_lines(&first)).await.unwrap();
    storage.put_draft("count", "3 of 5").await.unwrap();
    let group = [line(1, 2), line(1, 3), line(1, 1)];
    let record = Record {
        lines: &group,
        photos: &[photo("aa")],
        drafts_done: &["count".into()],
        drafts_left: &[("bench".into(), "nothing counted".into())],
        marks: &[("head".into(), "3".into())],
    };
    assert_eq!(storage.append(&record).await, Err(StorageError::Duplicate));
    let other_bytes = [Line {
        text: "{}".into(),
        ..line(1, 1)
    }];
    assert_eq!(
        storage.append(&of_lines(&other_bytes)).await,
        Err(StorageError::Duplicate)
    );
    let twice = [line(1, 4), line(1, 4)];
    assert_eq!(
        storage.append(&of_lines(&twice)).await,
        Err(StorageError::Duplicate)
    );
    let stored = storage.load().await.unwrap();
    assert_eq!(held(&stored.arrived), texts(&first));
    assert_eq!(stored.drafts.keys().collect::<Vec<_>>(), ["count"]);
    assert!(stored.marks.is_empty());
    assert_eq!(storage.list_photo_keys().await, Ok(vec![]));
    // And the numbers of arrival have no gap from the refused ones.
    assert_eq!(storage.append(&of_lines(&[line(1, 2)])).await, Ok(2));
}

pub(crate) async fn a_photograph_its_entry_and_the_finished_draft_are_one_record<S: Storage>(
    name: &str,
) {
    let storage: S = fresh(name).await;
    storage.put_draft("finding", "mealy").await.unwrap();
    storage.put_draft("repot", "bench 4").await.unwrap();
    let lines = [line(1, 1)];
    let record = Record {
        lines: &lines,
        photos: &[photo("bb")],
        drafts_done: &["finding".into()],
        drafts_left: &[("repot".into(), "to the pots".into())],
        marks: &[("device".into(), "01".into())],
    };
    storage.append(&record).await.unwrap();
    let storage = again(storage, name).await;
    let stored = storage.load().await.unwrap();
    assert_eq!(held(&stored.arrived), texts(&lines));
    let drafts = stored.drafts.iter();
    assert_eq!(
        drafts.collect::<Vec<_>>(),
        [(&"repot".to_owned(), &"to the pots".to_owned())]
    );
    assert_eq!(stored.marks["device"], "01");
    assert_eq!(storage.get_photo("bb").await, Ok(Some(photo("bb"))));
    assert_eq!(storage.get_photo("cc").await, Ok(None));
}

pub(crate) async fn a_draft_outlives_closing_and_goes_when_it_is_removed<S: Storage>(name: &str) {
    let storage: S = fresh(name).await;
    storage.put_draft("repot", "pot 1").await.unwrap();
    storage.put_draft("repot", "pots 1 and 2").await.unwrap();
    let storage = again(storage, name).await;
    assert_eq!(
        storage.load().await.unwrap().drafts["repot"],
        "pots 1 and 2"
    );
    storage.remove_draft("repot").await.unwrap();
    storage.remove_draft("never there").await.unwrap();
    assert!(storage.load().await.unwrap().drafts.is_empty());
}

pub(crate) async fn photographs_are_listed_and_orphans_can_be_removed<S: Storage>(name: &str) {
    let storage: S = fresh(name).await;
    for key in ["dd", "aa", "cc"] {
        storage.put_photo(&photo(key)).await.unwrap();
    }
    storage.put_photo(&photo("aa")).await.unwrap();
    let keys = storage.list_photo_keys().await.unwrap();
    assert_eq!(keys, ["aa", "cc", "dd"]);
    storage
        .remove_photos(&["cc".into(), "ee".into()])
        .await
        .unwrap();
    assert_eq!(storage.list_photo_keys().await.unwrap(), ["aa", "dd"]);
}

pub(crate) async fn a_photograph_that_nobody_names_goes_after_a_day_and_one_that_is_named_stays<
    S: Storage,
>(
    name: &str,
) {
    const DAY_MS: i64 = 24 * 3_600_000;
    let mut storage: S = fresh(name).await;
    for key in ["aa", "bb", "cc"] {
        storage.put_photo(&photo(key)).await.unwrap();
    }
    let start_ms = 1_800_000_000_000;
    // At each start: when, what is named, how many are removed, and what is left.
    let starts: [(i64, &[&str], usize, &[&str]); 5] = [
        (start_ms, &["aa"], 0, &["aa", "bb", "cc"]),
        (start_ms + DAY_MS - 1, &["aa"], 0, &["aa", "bb", "cc"]),
        // Named again in time, by a draft that came late.
        (start_ms + DAY_MS, &["aa", "cc"], 1, &["aa", "cc"]),
        (start_ms + DAY_MS * 2, &["aa"], 0, &["aa", "cc"]),
        (start_ms + DAY_MS * 3, &["aa"], 1, &["aa"]),
    ];
    for (now_ms, named, removed, left) in starts {
        storage = again(storage, name).await;
        let marks = storage.load().await.unwrap().marks;
        let noted = marks.get(UNNAMED).map_or("", String::as_str);
        let named = named.iter().map(|key| (*key).to_owned()).collect();
        let swept = sweep_photos(&storage, noted, &named, now_ms).await;
        assert_eq!(swept, Ok(removed), "at {now_ms}");
        assert_eq!(storage.list_photo_keys().await.unwrap(), left);
    }
    assert_eq!(storage.get_photo("aa").await, Ok(Some(photo("aa"))));
    assert_eq!(storage.load().await.unwrap().marks[UNNAMED], "");
}

pub(crate) async fn sealing_changes_neither_the_lines_nor_their_order_nor_their_identity<
    S: Storage,
>(
    name: &str,
) {
    let storage: S = fresh(name).await;
    let lines: Vec<Line> = (1..=2503).map(|seq| line(seq % 2, seq)).collect();
    for some in lines.chunks(SEALED_LEAST - 1) {
        storage.append(&of_lines(some)).await.unwrap();
    }
    assert_eq!(storage.seal(3).await, Ok(2500));
    assert_eq!(storage.seal(3).await, Ok(0));
    let storage = again(storage, name).await;
    let stored = storage.load().await.unwrap();
    assert_eq!(held(&stored.arrived), texts(&lines));
    assert_eq!(stored.arrived.last, 2503);
    assert!(
        stored.marks.is_empty(),
        "the storage's own marks stay inside"
    );
    assert_eq!(
        storage.append(&of_lines(&[line(1, 7)])).await,
        Err(StorageError::Duplicate)
    );
    assert_eq!(storage.append(&of_lines(&[line(7, 1)])).await, Ok(2504));
    assert_eq!(storage.seal(0).await, Ok(4));
    assert_eq!(storage.append(&of_lines(&[line(7, 2)])).await, Ok(2505));
    assert_eq!(held(&storage.load().await.unwrap().arrived).len(), 2505);
}

pub(crate) async fn many_lines_at_once_stand_between_those_before_and_after<S: Storage>(
    name: &str,
) {
    let storage: S = fresh(name).await;
    let mut lines: Vec<Line> = (1..=3).map(|seq| line(1, seq)).collect();
    storage.append(&of_lines(&lines)).await.unwrap();
    let many: Vec<Line> = (1..=2_100).map(|seq| line(2, seq)).collect();
    let marks = [("head".to_owned(), "2".to_owned())];
    let record = Record {
        marks: &marks,
        ..of_lines(&many)
    };
    assert_eq!(storage.append(&record).await, Ok(2_103));
    let after = [line(1, 4)];
    assert_eq!(storage.append(&of_lines(&after)).await, Ok(2_104));
    lines.extend(many.clone());
    lines.extend(after);
    let storage = again(storage, name).await;
    let stored = storage.load().await.unwrap();
    assert_eq!(held(&stored.arrived), texts(&lines));
    assert_eq!(stored.arrived.last, 2_104);
    assert_eq!(stored.marks["head"], "2");
    for known in [0, 2, 3, 4, 1_003, 2_103, 2_104] {
        let arrived = storage.lines_after(known).await.unwrap();
        let from = usize::try_from(known).unwrap();
        assert!(held(&arrived).ends_with(&texts(&lines[from..])), "{known}");
        assert_eq!(arrived.last, 2_104);
    }
    // One known line among many, in a segment or in a row: none of them is written.
    for known in [line(2, 2_100), line(1, 4), line(1, 1)] {
        let mut mixed: Vec<Line> = (1..=500).map(|seq| line(3, seq)).collect();
        mixed.push(known);
        let refused = storage.append(&of_lines(&mixed)).await;
        assert_eq!(refused, Err(StorageError::Duplicate));
    }
    assert_eq!(held(&storage.load().await.unwrap().arrived).len(), 2_104);
    let once_more: Vec<Line> = (1..=SEALED_LEAST as u64).map(|seq| line(3, seq)).collect();
    assert_eq!(storage.append(&of_lines(&once_more)).await, Ok(2_304));
    assert_eq!(storage.append(&of_lines(&[line(1, 5)])).await, Ok(2_305));
}

pub(crate) async fn a_reading_window_gets_what_arrived_since<S: Storage>(name: &str) {
    let storage: S = fresh(name).await;
    let lines: Vec<Line> = (1..=10).map(|seq| line(1, seq)).collect();
    storage.append(&of_lines(&lines)).await.unwrap();
    for sealed in [0, 6, 10] {
        storage.seal(10 - sealed).await.unwrap();
        for known in [0, 3, 6, 8, 10, 12] {
            let arrived = storage.lines_after(known).await.unwrap();
            let from = usize::try_from(known).unwrap().min(10);
            assert_eq!(held(&arrived), texts(&lines[from..]), "{sealed} {known}");
            assert_eq!(arrived.last, known.max(10));
        }
    }
}

pub(crate) async fn a_record_without_lines_keeps_its_marks_and_the_last_arrival<S: Storage>(
    name: &str,
) {
    let storage: S = fresh(name).await;
    let marks = [("exported".to_owned(), "2026-11-25".to_owned())];
    let record = Record {
        marks: &marks,
        ..Record::default()
    };
    assert_eq!(storage.append(&record).await, Ok(0));
    storage
        .append(&of_lines(&[line(1, 1), line(1, 2)]))
        .await
        .unwrap();
    assert_eq!(storage.append(&record).await, Ok(2));
    storage.seal(0).await.unwrap();
    assert_eq!(storage.append(&record).await, Ok(2));
    storage.put_mark("exported", "2026-11-26").await.unwrap();
    let stored = storage.load().await.unwrap();
    assert_eq!(stored.marks["exported"], "2026-11-26");
    assert_eq!(stored.marks.len(), 1);
    for _ in 0..2 {
        assert_eq!(storage.remove_mark("exported").await, Ok(()));
        assert!(storage.load().await.unwrap().marks.is_empty());
    }
}

pub(crate) async fn what_could_not_be_given_back_faithfully_is_refused<S: Storage>(name: &str) {
    let storage: S = fresh(name).await;
    let broken = [Line {
        text: "{\n}".into(),
        ..line(1, 1)
    }];
    let too_large = [line(1, 9_007_199_254_740_992)];
    for lines in [&broken, &too_large] {
        let answer = storage.append(&of_lines(lines)).await;
        assert!(matches!(answer, Err(StorageError::Other(_))), "{answer:?}");
    }
    for answer in [
        storage.put_mark(SEALED_MARK, "").await,
        storage.remove_mark(SEALED_MARK).await,
    ] {
        assert!(matches!(answer, Err(StorageError::Other(_))));
    }
    storage
        .append(&of_lines(&[line(u64::MAX, 9_007_199_254_740_991)]))
        .await
        .unwrap();
    assert_eq!(held(&storage.load().await.unwrap().arrived).len(), 1);
}

pub(crate) async fn a_snapshot_is_kept_in_pieces_and_thrown_away_whole<S: Storage>(name: &str) {
    let storage: S = fresh(name).await;
    let piece = |name: &str, bytes: &[u8]| (name.to_owned(), bytes.to_vec());
    let lines = [line(9, 1), line(9, 2)];
    storage.append(&of_lines(&lines)).await.unwrap();
    storage.put_draft("count", "3 of 5").await.unwrap();
    storage.put_mark("head", "7").await.unwrap();
    let kept = [
        piece("a.round", &[1, 2, 0]),
        piece("a.lots", &[]),
        piece("b.lots", &[3]),
    ];
    storage.keep_pieces(&kept, None).await.unwrap();
    let names = ["b.lots", "a.none", "a.round"].map(str::to_owned);
    let found = storage.pieces(&names).await.unwrap();
    assert_eq!(found, [piece("b.lots", &[3]), piece("a.round", &[1, 2, 0])]);
    let storage = again(storage, name).await;
    let first = storage.load_first("a.").await.unwrap();
    assert_eq!(
        first.pieces,
        [piece("a.lots", &[]), piece("a.round", &[1, 2, 0])]
    );
    assert_eq!(first.last, 2);
    assert_eq!(first.drafts, storage.load().await.unwrap().drafts);
    assert_eq!(first.marks, storage.load().await.unwrap().marks);
    storage
        .keep_pieces(&[piece("a.lots", &[5])], Some("a."))
        .await
        .unwrap();
    let first = storage.load_first("").await.unwrap();
    assert_eq!(first.pieces, [piece("a.lots", &[5]), piece("b.lots", &[3])]);
    storage
        .keep_pieces(&[piece("a.new", &[4])], Some(""))
        .await
        .unwrap();
    let first = storage.load_first("").await.unwrap();
    assert_eq!(first.pieces, [piece("a.new", &[4])]);
    assert_eq!(storage.seal(0).await, Ok(2));
    assert_eq!(storage.load_first("a.").await.unwrap().last, 2);
    storage.clear_snapshots().await.unwrap();
    assert_eq!(
        storage.load_first("").await.unwrap().pieces,
        Vec::<super::Piece>::new()
    );
}

pub(crate) async fn an_erased_book_is_gone_and_a_closed_one_answers_nothing<S: Storage>(
    name: &str,
) {
    let storage: S = fresh(name).await;
    storage.append(&of_lines(&[line(1, 1)])).await.unwrap();
    // The window that holds it open lets go by itself.
    S::erase(name).await.unwrap();
    assert_eq!(
        storage.append(&of_lines(&[line(1, 2)])).await,
        Err(StorageError::Closed)
    );
    let storage: S = fresh(name).await;
    assert!(held(&storage.load().await.unwrap().arrived).is_empty());
    storage.check().await.unwrap();
    storage.close();
    assert_eq!(storage.check().await, Err(StorageError::Closed));
}
