//! The suite on both storages, and what only a browser's database can go through.

use std::cell::RefCell;
use std::future::{Future, poll_fn};
use std::pin::pin;
use std::rc::Rc;
use std::task::Poll;

use indexed_db_futures::database::Database;
use indexed_db_futures::internals::SystemRepr;
use indexed_db_futures::prelude::*;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

use super::schema::{STEPS, Step};
use super::suite::{fresh, held, line, of_lines, texts};
use super::{Indexed, Line, Lost, Memory, Record, Storage, StorageError, suite};

wasm_bindgen_test_configure!(run_in_browser);

macro_rules! on_both {
    ($($scene:ident)+) => {
        mod in_the_browser {
            use super::*;
            $(#[wasm_bindgen_test] async fn $scene() {
                suite::$scene::<Indexed>(concat!("test-", stringify!($scene))).await;
            })+
        }
        mod in_memory {
            use super::*;
            $(#[wasm_bindgen_test] async fn $scene() {
                suite::$scene::<Memory>(concat!("test-", stringify!($scene))).await;
            })+
        }
    };
}

on_both! {
    recorded_lines_are_there_after_opening_again
    a_second_line_of_the_same_identity_is_refused_and_nothing_is_written
    a_photograph_its_entry_and_the_finished_draft_are_one_record
    a_draft_outlives_closing_and_goes_when_it_is_removed
    photographs_are_listed_and_orphans_can_be_removed
    a_photograph_that_nobody_names_goes_after_a_day_and_one_that_is_named_stays
    sealing_changes_neither_the_lines_nor_their_order_nor_their_identity
    many_lines_at_once_stand_between_those_before_and_after
    a_reading_window_gets_what_arrived_since
    a_record_without_lines_keeps_its_marks_and_the_last_arrival
    what_could_not_be_given_back_faithfully_is_refused
    a_snapshot_is_kept_in_pieces_and_thrown_away_whole
    an_erased_book_is_gone_and_a_closed_one_answers_nothing
}

/// The stores of a later program: the released steps and one more.
const LATER: &[Step] = &[STEPS[0], STEPS[1], |database| {
    database.create_object_store("later").build().map(|_| ())
}];

/// Waits for a future, but no further than its `polls`-th look; `None` when it was given up there.
async fn up_to<T>(future: impl Future<Output = T>, polls: usize) -> Option<T> {
    let mut future = pin!(future);
    let mut count = 0;
    poll_fn(|context| {
        count += 1;
        match future.as_mut().poll(context) {
            Poll::Ready(value) => Poll::Ready(Some(value)),
            Poll::Pending if count == polls => Poll::Ready(None),
            Poll::Pending => Poll::Pending,
        }
    })
    .await
}

#[wasm_bindgen_test]
async fn a_record_given_up_at_any_moment_is_there_whole_or_not_at_all() {
    let lines = [line(1, 1), line(1, 2), line(1, 3)];
    let mut given_up = 0;
    loop {
        let storage: Indexed = fresh("test-given-up").await;
        storage.put_draft("repot", "3 pots").await.unwrap();
        let drafts_done = ["repot".to_owned()];
        let record = Record {
            drafts_done: &drafts_done,
            ..of_lines(&lines)
        };
        let answer = up_to(storage.append(&record), given_up + 1).await;
        let stored = storage.load().await.unwrap();
        let there = held(&stored.arrived).len();
        assert!(
            (there, stored.drafts.len()) == (0, 1) || (there, stored.drafts.len()) == (3, 0),
            "half a record after {given_up}: {stored:?}"
        );
        if there == 0 {
            assert_eq!(storage.append(&record).await, Ok(3));
        }
        storage.close();
        if answer.is_some() {
            break;
        }
        given_up += 1;
    }
    assert!(given_up > 1, "it was given up with requests on their way");
}

#[wasm_bindgen_test]
async fn many_lines_given_up_at_any_moment_are_there_whole_or_not_at_all() {
    let rows: Vec<Line> = (1..=5).map(|seq| line(1, seq)).collect();
    let many: Vec<Line> = (1..=1_200).map(|seq| line(2, seq)).collect();
    let mut given_up = 0;
    loop {
        let storage: Indexed = fresh("test-many-given-up").await;
        storage.append(&of_lines(&rows)).await.unwrap();
        let answer = up_to(storage.append(&of_lines(&many)), given_up + 1).await;
        let mut whole = texts(&rows);
        let before = whole.clone();
        whole.extend(texts(&many));
        let stored = held(&storage.load().await.unwrap().arrived);
        assert!(stored == before || stored == whole, "{}", stored.len());
        if stored == before {
            assert_eq!(storage.append(&of_lines(&many)).await, Ok(1_205));
        }
        // Sealing given up half way moves all it was about to move, or nothing.
        storage
            .append(&of_lines(&[line(3, 1), line(3, 2)]))
            .await
            .unwrap();
        let _ = up_to(storage.seal(1), given_up + 1).await;
        whole.extend(texts(&[line(3, 1), line(3, 2)]));
        assert_eq!(held(&storage.load().await.unwrap().arrived), whole);
        let twice = storage.append(&of_lines(&[line(3, 1)])).await;
        assert_eq!(twice, Err(StorageError::Duplicate));
        storage.close();
        if answer.is_some() {
            break;
        }
        given_up += 1;
    }
    assert!(given_up > 1, "it was given up with requests on their way");
}

#[wasm_bindgen_test]
async fn an_older_book_is_brought_up_and_keeps_its_rows() {
    let name = "test-older";
    let storage: Indexed = fresh(name).await;
    let lines = [line(1, 1), line(1, 2)];
    storage.append(&of_lines(&lines)).await.unwrap();
    storage.put_draft("repot", "bench 4").await.unwrap();
    storage.close();

    let opened = Indexed::open_with(name, LATER).await.unwrap();
    assert_eq!((opened.schema_before, opened.schema), (Some(2), 3));
    let stored = opened.storage.load().await.unwrap();
    assert_eq!(held(&stored.arrived), texts(&lines));
    assert_eq!(stored.drafts["repot"], "bench 4");
    assert_eq!(opened.storage.append(&of_lines(&[line(1, 3)])).await, Ok(3));
}

#[wasm_bindgen_test]
async fn a_book_made_by_a_newer_program_is_refused_and_stays_as_it_is() {
    let name = "test-newer";
    Indexed::erase(name).await.unwrap();
    let newer = Indexed::open_with(name, LATER).await.unwrap().storage;
    newer.append(&of_lines(&[line(1, 1)])).await.unwrap();
    newer.close();
    assert_eq!(Indexed::open(name).await.unwrap_err(), StorageError::Newer);
    let newer = Indexed::open_with(name, LATER).await.unwrap().storage;
    assert_eq!(held(&newer.load().await.unwrap().arrived).len(), 1);
}

#[wasm_bindgen_test]
async fn a_window_with_an_older_program_lets_go_when_a_newer_one_opens() {
    let name = "test-superseded";
    let older: Indexed = fresh(name).await;
    let told = Rc::new(RefCell::new(Vec::new()));
    older.on_lost(Box::new({
        let told = Rc::clone(&told);
        move |lost| told.borrow_mut().push(lost)
    }));
    let newer = Indexed::open_with(name, LATER).await.unwrap().storage;
    newer.append(&of_lines(&[line(1, 1)])).await.unwrap();
    assert_eq!(
        older.append(&of_lines(&[line(1, 2)])).await,
        Err(StorageError::Closed)
    );
    assert_eq!(*told.borrow(), [Lost::Superseded]);
    assert_eq!(older.connection.times_opened(), 1);
}

#[wasm_bindgen_test]
async fn a_window_that_does_not_let_go_is_told_as_blocked() {
    let name = "test-blocked";
    let storage: Indexed = fresh(name).await;
    storage.append(&of_lines(&[line(1, 1)])).await.unwrap();
    storage.close();
    let stubborn = Database::open(name).await.unwrap();
    let refused = Indexed::open_with(name, LATER).await.unwrap_err();
    assert_eq!(refused, StorageError::Blocked);
    stubborn.as_sys().close();
    // The first request runs on and its late connection closes itself; a second opening gets through.
    let opened = Indexed::open_with(name, LATER).await.unwrap();
    assert_eq!(opened.schema, 3);
    assert_eq!(opened.storage.load().await.unwrap().arrived.last, 1);
    opened.storage.put_draft("repot", "1").await.unwrap();
}

#[wasm_bindgen_test]
async fn an_erasure_that_another_window_holds_up_is_told_as_blocked() {
    let name = "test-erasure-blocked";
    let storage: Indexed = fresh(name).await;
    storage.close();
    let stubborn = Database::open(name).await.unwrap();
    assert_eq!(Indexed::erase(name).await, Err(StorageError::Blocked));
    stubborn.as_sys().close();
    assert_eq!(Indexed::erase(name).await, Ok(()));
}

#[wasm_bindgen_test]
async fn a_connection_closed_underneath_is_opened_again_and_the_record_written_once() {
    let name = "test-dropped";
    let storage: Indexed = fresh(name).await;
    storage.append(&of_lines(&[line(1, 1)])).await.unwrap();
    storage.connection.drop_underneath();
    assert_eq!(storage.append(&of_lines(&[line(1, 2)])).await, Ok(2));
    assert_eq!(storage.connection.times_opened(), 2);
    storage.connection.drop_underneath();
    storage.check().await.unwrap();
    assert_eq!(storage.connection.times_opened(), 3);
    let stored = storage.load().await.unwrap();
    assert_eq!(held(&stored.arrived), texts(&[line(1, 1), line(1, 2)]));
    // A refusal is no reason to try again.
    assert_eq!(
        storage.append(&of_lines(&[line(1, 2)])).await,
        Err(StorageError::Duplicate)
    );
    assert_eq!(storage.connection.times_opened(), 3);
}

#[wasm_bindgen_test]
async fn trying_again_takes_the_same_bytes_for_recorded_and_other_bytes_for_a_clash() {
    let name = "test-again";
    let storage: Indexed = fresh(name).await;
    let lines = [line(1, 1), line(1, 2)];
    storage.append(&of_lines(&lines)).await.unwrap();
    // The first attempt reached the disk, the answer did not reach us.
    assert_eq!(storage.append_again(&of_lines(&lines)).await, Ok(2));
    assert_eq!(held(&storage.load().await.unwrap().arrived), texts(&lines));

    let mut altered = lines.clone();
    altered[1].text = "{}".into();
    assert_eq!(
        storage.append_again(&of_lines(&altered)).await,
        Err(StorageError::Duplicate)
    );
    let partly = [line(1, 2), line(1, 3)];
    assert_eq!(
        storage.append_again(&of_lines(&partly)).await,
        Err(StorageError::Duplicate)
    );
    assert_eq!(held(&storage.load().await.unwrap().arrived), texts(&lines));
}

#[wasm_bindgen_test]
async fn two_that_find_the_connection_gone_both_get_through() {
    let storage: Indexed = fresh("test-both").await;
    storage.connection.drop_underneath();
    let (lines, others) = ([line(1, 1)], [line(2, 1)]);
    let (record, other) = (of_lines(&lines), of_lines(&others));
    let mut first = pin!(storage.append(&record));
    let mut second = pin!(storage.append(&other));
    let (mut one, mut two) = (None, None);
    poll_fn(|context| {
        for (answer, future) in [(&mut one, &mut first), (&mut two, &mut second)] {
            if answer.is_none()
                && let Poll::Ready(done) = future.as_mut().poll(context)
            {
                *answer = Some(done);
            }
        }
        if one.is_some() && two.is_some() {
            Poll::Ready(())
        } else {
            Poll::Pending
        }
    })
    .await;
    assert!(matches!((one, two), (Some(Ok(_)), Some(Ok(_)))));
    assert_eq!(held(&storage.load().await.unwrap().arrived).len(), 2);
}

#[wasm_bindgen_test]
async fn a_book_that_vanished_is_not_taken_for_an_empty_one() {
    let name = "test-vanished";
    let storage: Indexed = fresh(name).await;
    storage.append(&of_lines(&[line(1, 1)])).await.unwrap();
    storage.connection.drop_underneath();
    Indexed::erase(name).await.unwrap();
    assert_eq!(
        storage.append(&of_lines(&[line(1, 2)])).await,
        Err(StorageError::Closed)
    );
    let opened = Indexed::open(name).await.unwrap();
    assert_eq!(opened.schema_before, None, "nothing was made in its place");
}
