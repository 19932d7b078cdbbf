//! What the browser does for us, tried in one.

use std::cell::{Cell, RefCell};
use std::future::Future;
use std::pin::pin;
use std::rc::Rc;
use std::task::{Context, Waker};

use js_sys::Array;
use velamen_core::quantity::System;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_test::wasm_bindgen_test;

use super::channel::Channel;
use super::failure::{self, BAR_ID, FailureWords};
use super::files::{self, FileError, Shared};
use super::locks::{self, Claim, Lock};
use super::preferences::{self, Hand, Preferences, Theme};
use super::{clock, feedback, lifecycle, persist, random};

async fn a_moment() {
    let promise = js_sys::Promise::new(&mut |resolve, _| {
        web_sys::window()
            .unwrap()
            .set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, 50)
            .unwrap();
    });
    JsFuture::from(promise).await.unwrap();
}

fn held(claim: Claim) -> Lock {
    match claim {
        Claim::Held(lock) => lock,
        other => panic!("not held: {other:?}"),
    }
}

fn document() -> web_sys::Document {
    web_sys::window().unwrap().document().unwrap()
}

#[wasm_bindgen_test]
async fn only_one_window_writes_and_the_next_gets_the_lock_when_it_is_given_back() {
    let name = "test-one-writer";
    let first = held(locks::claim(name).await);
    assert!(matches!(locks::claim(name).await, Claim::Taken));
    let second = Rc::new(RefCell::new(None));
    wasm_bindgen_futures::spawn_local({
        let second = Rc::clone(&second);
        async move {
            *second.borrow_mut() = Some(locks::wait_for(name).await);
        }
    });
    a_moment().await;
    assert!(second.borrow().is_none());
    drop(first);
    a_moment().await;
    let second = held(second.borrow_mut().take().unwrap());
    assert!(matches!(locks::claim(name).await, Claim::Taken));
    drop(second);
    a_moment().await;
    assert!(matches!(locks::claim(name).await, Claim::Held(_)));
}

#[wasm_bindgen_test]
async fn a_window_whose_lock_is_taken_over_is_told() {
    let name = "test-taken-over";
    let first = held(locks::claim(name).await);
    let told = Rc::new(Cell::new(0));
    first.on_stolen({
        let told = Rc::clone(&told);
        move || told.set(told.get() + 1)
    });
    let second = held(locks::take_over(name).await);
    a_moment().await;
    assert_eq!(told.get(), 1);
    assert!(first.is_stolen() && !second.is_stolen());
    drop(first);
    a_moment().await;
    assert!(
        matches!(locks::claim(name).await, Claim::Taken),
        "giving back a stolen lock takes nothing from its new holder"
    );
}

#[wasm_bindgen_test]
async fn a_window_that_stopped_waiting_does_not_get_the_lock_later() {
    let name = "test-stopped-waiting";
    let first = held(locks::claim(name).await);
    {
        let mut waiting = pin!(locks::wait_for(name));
        let mut context = Context::from_waker(Waker::noop());
        assert!(waiting.as_mut().poll(&mut context).is_pending());
    }
    drop(first);
    a_moment().await;
    assert!(matches!(locks::claim(name).await, Claim::Held(_)));
}

#[wasm_bindgen_test]
async fn other_windows_hear_how_far_the_book_is_written() {
    let heard = Rc::new(RefCell::new(Vec::new()));
    let listener = {
        let heard = Rc::clone(&heard);
        Channel::join("test-channel", move |arrival| {
            heard.borrow_mut().push(arrival)
        })
        .unwrap()
    };
    let echoes = Rc::new(Cell::new(0));
    let teller = {
        let echoes = Rc::clone(&echoes);
        Channel::join("test-channel", move |_| echoes.set(echoes.get() + 1)).unwrap()
    };
    teller.tell_written(7);
    teller.tell_written(9_007_199_254_740_991);
    a_moment().await;
    assert_eq!(*heard.borrow(), [7, 9_007_199_254_740_991]);
    assert_eq!(echoes.get(), 0);
    drop(listener);
    teller.tell_written(8);
    a_moment().await;
    assert_eq!(heard.borrow().len(), 2);
}

#[wasm_bindgen_test]
fn two_random_numbers_differ() {
    let (one, two) = (random::word().unwrap(), random::word().unwrap());
    assert_ne!(one, two);
}

#[wasm_bindgen_test]
async fn the_room_for_the_book_is_known() {
    let room = persist::estimate().await.unwrap();
    assert!(room.allowed_bytes > room.used_bytes);
    assert!(persist::persisted().await.is_some());
}

#[wasm_bindgen_test]
fn preferences_are_kept_and_unknown_ones_do_no_harm() {
    let wanted = Preferences {
        theme: Theme::Dark,
        hand: Hand::Left,
        bench_size: true,
        no_letters: true,
        quiet: true,
        stay_awake: true,
        lock_key: true,
        language: "es".to_owned(),
        units: System::Us,
        last_room: "#/round".into(),
    };
    assert!(preferences::write(&wanted));
    assert_eq!(preferences::read(), wanted);
    let storage = preferences::raw().unwrap();
    storage
        .set_item("velamen.preferences", r#"{"hand":"left","scent":3}"#)
        .unwrap();
    let read = preferences::read();
    assert_eq!((read.hand, read.theme), (Hand::Left, Theme::AsPhone));
    storage.set_item("velamen.preferences", "{").unwrap();
    assert_eq!(preferences::read(), Preferences::default());
}

#[wasm_bindgen_test]
fn the_page_seen_again_is_told_until_nobody_listens() {
    let count = Rc::new(Cell::new(0));
    let listening = lifecycle::on_visible({
        let count = Rc::clone(&count);
        move || count.set(count.get() + 1)
    });
    let event = || web_sys::Event::new("visibilitychange").unwrap();
    document().dispatch_event(&event()).unwrap();
    assert_eq!(count.get(), 1);
    drop(listening);
    document().dispatch_event(&event()).unwrap();
    assert_eq!(count.get(), 1);
}

#[wasm_bindgen_test]
fn the_same_day_seen_again_is_no_new_day() {
    let days = Rc::new(Cell::new(0));
    let watch = clock::on_new_day({
        let days = Rc::clone(&days);
        move |_| days.set(days.get() + 1)
    });
    let before = clock::read().today;
    document()
        .dispatch_event(&web_sys::Event::new("visibilitychange").unwrap())
        .unwrap();
    // Midnight may pass between the two looks.
    assert!(days.get() == 0 || clock::read().today != before);
    drop(watch);
}

fn file(bytes: &[u8]) -> web_sys::File {
    let parts = Array::of1(&js_sys::Uint8Array::from(bytes));
    web_sys::File::new_with_u8_array_sequence(&parts, "book.txt").unwrap()
}

#[wasm_bindgen_test]
async fn a_chosen_file_is_read_as_text_or_refused() {
    let text = "Masdevallia × Dracula\n3 µl\n";
    assert_eq!(
        files::read_text(&file(text.as_bytes()), 100).await,
        Ok(text.to_owned())
    );
    let size = u32::try_from(text.len()).unwrap();
    assert!(files::read_text(&file(text.as_bytes()), size).await.is_ok());
    assert_eq!(
        files::read_text(&file(text.as_bytes()), size - 1).await,
        Err(FileError::TooLarge)
    );
    assert_eq!(
        files::read_text(&file(&[0xff, 0xfe, 0x41]), 100).await,
        Err(FileError::NotText)
    );
}

#[wasm_bindgen_test]
async fn a_download_has_its_name_and_its_bytes() {
    let seen = Rc::new(RefCell::new(None));
    let on_click = Closure::<dyn FnMut(web_sys::Event)>::new({
        let seen = Rc::clone(&seen);
        move |event: web_sys::Event| {
            event.prevent_default();
            let link: web_sys::HtmlAnchorElement = event.target().unwrap().dyn_into().unwrap();
            *seen.borrow_mut() = Some((link.download(), link.href()));
        }
    });
    let callback = on_click.as_ref().unchecked_ref();
    document()
        .add_event_listener_with_callback("click", callback)
        .unwrap();
    assert!(files::download("book.txt", "text/plain", "pot 1\n"));
    document()
        .remove_event_listener_with_callback("click", callback)
        .unwrap();
    let (name, address) = seen.borrow_mut().take().unwrap();
    assert_eq!(name, "book.txt");
    let response = JsFuture::from(web_sys::window().unwrap().fetch_with_str(&address)).await;
    let text: js_sys::Promise = super::call(&response.unwrap(), "text", &[])
        .unwrap()
        .dyn_into()
        .unwrap();
    assert_eq!(
        JsFuture::from(text).await.unwrap().as_string().unwrap(),
        "pot 1\n"
    );
}

#[wasm_bindgen_test]
async fn sharing_is_offered_only_where_the_browser_can_and_says_how_it_ended() {
    let navigator: JsValue = web_sys::window().unwrap().navigator().into();
    let set = |name: &str, body: &str| {
        let function = js_sys::Function::new_with_args("data", body);
        js_sys::Reflect::set(&navigator, &name.into(), &function).unwrap();
    };
    set("canShare", "return data.files[0].name.endsWith('.txt')");
    set(
        "share",
        "return data.files[0].text().then(t => { globalThis.handedOver = t })",
    );
    assert!(files::can_share("book.txt") && !files::can_share("book.zip"));
    assert_eq!(files::share("book.txt", "pot 1\n").await, Shared::Done);
    let handed = super::member(&js_sys::global(), "handedOver").unwrap();
    assert_eq!(handed.as_string().unwrap(), "pot 1\n");
    assert_eq!(files::share("book.zip", "").await, Shared::Unavailable);
    set(
        "share",
        "return Promise.reject(new DOMException('', 'AbortError'))",
    );
    assert_eq!(files::share("book.txt", "").await, Shared::Cancelled);
    js_sys::Reflect::set(&navigator, &"share".into(), &JsValue::UNDEFINED).unwrap();
    assert_eq!(files::share("book.txt", "").await, Shared::Unavailable);
}

#[wasm_bindgen_test]
fn each_tone_taps_the_motor_in_its_own_way_and_a_missing_motor_stops_nothing() {
    let navigator: JsValue = web_sys::window().unwrap().navigator().into();
    let patterns = Array::new();
    js_sys::Reflect::set(&js_sys::global(), &"tapped".into(), &patterns).unwrap();
    let record = js_sys::Function::new_with_args("pattern", "tapped.push(pattern.join())");
    let tones = [
        feedback::Tone::Recorded,
        feedback::Tone::Undone,
        feedback::Tone::Refused,
    ];
    for motor in [record.into(), JsValue::UNDEFINED] {
        js_sys::Reflect::set(&navigator, &"vibrate".into(), &motor).unwrap();
        for tone in tones {
            feedback::sound(tone);
            feedback::tap(tone);
        }
    }
    let patterns: Vec<_> = patterns
        .iter()
        .filter_map(|text| text.as_string())
        .collect();
    assert_eq!(patterns, ["30", "30,60,30", "120,80,120"]);
}

#[wasm_bindgen_test]
fn a_failure_is_said_once_on_the_page_with_a_button_to_load_again() {
    let words = FailureWords {
        stopped: "This screen stopped.",
        safe: "What is recorded is safe.",
        reload: "Load again",
        carry_out: "Save the book",
    };
    failure::show(words, "#/book/files").unwrap();
    failure::show(words, "#/book/files").unwrap();
    let bars = document()
        .query_selector_all(&format!("#{BAR_ID}"))
        .unwrap();
    assert_eq!(bars.length(), 1);
    let bar = document().get_element_by_id(BAR_ID).unwrap();
    let text = bar.text_content().unwrap();
    for part in [words.stopped, words.safe, words.reload, words.carry_out] {
        assert!(text.contains(part), "{text}");
    }
    let button: web_sys::HtmlElement = bar
        .query_selector("button")
        .unwrap()
        .unwrap()
        .dyn_into()
        .unwrap();
    assert!(button.onclick().is_some());
    assert_eq!(bar.get_attribute("role").unwrap(), "alert");
    bar.remove();
    preferences::raw()
        .unwrap()
        .set_item("velamen.last_failure", "index out of bounds")
        .unwrap();
    assert_eq!(failure::take_last().unwrap(), "index out of bounds");
    assert_eq!(failure::take_last(), None);
}

#[wasm_bindgen_test]
fn only_what_ended_the_program_while_it_opened_the_book_is_told_at_the_next_start() {
    let ended = || {
        preferences::raw()
            .unwrap()
            .set_item("velamen.last_failure", "index out of bounds")
            .unwrap();
    };
    failure::note_opening(true);
    assert_eq!(
        failure::stopped_opening(),
        None,
        "a battery that died is no failure"
    );
    ended();
    assert_eq!(failure::stopped_opening().unwrap(), "index out of bounds");
    assert_eq!(failure::stopped_opening(), None);
    failure::note_opening(false);
    ended();
    assert_eq!(failure::stopped_opening(), None);
}
