//! The parts under a hand, in a real browser.

use super::*;
use leptos::mount::{UnmountHandle, mount_to};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_test::wasm_bindgen_test;
use web_sys::{Element, HtmlDialogElement, HtmlElement, MouseEvent};

async fn wait_ms(ms: i32) {
    let promise = js_sys::Promise::new(&mut |resolve, _| {
        window()
            .set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, ms)
            .unwrap();
    });
    JsFuture::from(promise).await.unwrap();
}

/// A part on the page, taken off when dropped.
struct Bench<M: Mountable> {
    root: HtmlElement,
    _handle: UnmountHandle<M>,
}

impl<M: Mountable> Drop for Bench<M> {
    fn drop(&mut self) {
        self.root.remove();
    }
}

impl<M: Mountable> Bench<M> {
    fn find(&self, selector: &str) -> Option<Element> {
        self.root.query_selector(selector).unwrap()
    }

    fn tap(&self, selector: &str) {
        let key = self.find(selector).unwrap();
        key.dispatch_event(&MouseEvent::new("click").unwrap())
            .unwrap();
    }

    fn text(&self, selector: &str) -> String {
        self.find(selector)
            .and_then(|part| part.text_content())
            .unwrap_or_default()
    }
}

fn bench(part: impl FnOnce() -> AnyView + 'static) -> Bench<impl Mountable> {
    let root: HtmlElement = document().create_element("div").unwrap().unchecked_into();
    document().body().unwrap().append_child(&root).unwrap();
    let handle = mount_to(root.clone(), part);
    Bench {
        root,
        _handle: handle,
    }
}

fn counter() -> (RwSignal<u32>, Callback<()>) {
    let count = RwSignal::new(0_u32);
    (
        count,
        Callback::new(move |()| count.update(|count| *count += 1)),
    )
}

#[wasm_bindgen_test]
async fn a_double_tap_on_done_records_once_and_a_later_tap_records_again() {
    let owner = Owner::new();
    owner.set();
    let (count, on_press) = counter();
    let bench = bench(move || view! { <MainAction label="Record" on_press /> }.into_any());
    bench.tap("button");
    bench.tap("button");
    assert_eq!(count.get_untracked(), 1);
    wait_ms(400).await;
    bench.tap("button");
    assert_eq!(count.get_untracked(), 2);
}

#[wasm_bindgen_test]
async fn a_busy_action_says_so_and_records_nothing() {
    let owner = Owner::new();
    owner.set();
    let (count, on_press) = counter();
    let bench = bench(move || {
        view! { <MainAction label="Record" on_press busy=true busy_label="Writing" /> }.into_any()
    });
    wait_ms(0).await;
    bench.tap("button");
    assert_eq!(count.get_untracked(), 0);
    assert_eq!(bench.text("button"), "Writing");
    assert!(
        bench
            .find("button[aria-busy=true][aria-disabled=true]")
            .is_some()
    );
}

#[wasm_bindgen_test]
async fn quick_counting_counts_every_tap_and_stops_at_the_bounds() {
    let owner = Owner::new();
    owner.set();
    let count = RwSignal::new(0_i64);
    let bench = bench(move || {
        view! {
            <Stepper
                label="Starters"
                count
                on_count=Callback::new(move |next| count.set(next))
                less_label="One less"
                more_label="One more"
                five_label="+5"
                max=12
            />
        }
        .into_any()
    });
    for _ in 0..6 {
        bench.tap(".count-more");
    }
    assert_eq!(count.get_untracked(), 6);
    bench.tap(".chip");
    bench.tap(".chip");
    wait_ms(0).await;
    assert_eq!(bench.text("output"), "12");
    assert!(bench.find(".count-more[aria-disabled=true]").is_some());
    for _ in 0..14 {
        bench.tap(".count-less");
    }
    assert_eq!(count.get_untracked(), 0);
}

#[wasm_bindgen_test]
async fn a_held_row_has_no_key_and_says_its_state_in_words() {
    let bench = bench(|| {
        view! {
            <WorkRow state=WorkState::Held state_words="Held" glyph=Glyph::Drop what="No water">
                <Stake name=Vec::new() code="K3-211" />
            </WorkRow>
        }
        .into_any()
    });
    assert!(bench.find("button").is_none());
    assert!(bench.text(".work-body").starts_with("Held"));
}

#[wasm_bindgen_test]
async fn a_sheet_opens_closes_and_gives_the_focus_back() {
    let owner = Owner::new();
    owner.set();
    let open = RwSignal::new(false);
    let bench = bench(move || {
        view! {
            <button type="button" id="opener">"Open"</button>
            <Sheet
                title="Measured"
                open
                on_close=Callback::new(move |()| open.set(false))
                close_label="Close"
            >
                <p>"inside"</p>
            </Sheet>
        }
        .into_any()
    });
    let opener: HtmlElement = bench.find("#opener").unwrap().unchecked_into();
    let dialog: HtmlDialogElement = bench.find("dialog").unwrap().unchecked_into();
    opener.focus().unwrap();
    assert!(bench.find("dialog p").is_none());
    open.set(true);
    wait_ms(20).await;
    assert!(dialog.open());
    assert!(bench.find("dialog p").is_some());
    let focused = document().active_element().unwrap();
    assert!(dialog.contains(Some(&focused)), "the focus is inside");
    bench.tap(".sheet-close");
    wait_ms(20).await;
    assert!(!dialog.open());
    assert_eq!(document().active_element().unwrap().id(), "opener");
}

#[wasm_bindgen_test]
async fn a_done_notice_leaves_after_its_seconds() {
    let owner = Owner::new();
    owner.set();
    let (gone, on_gone) = counter();
    let bench = bench(move || {
        view! { <Notice kind=NoticeKind::Ok words="Recorded." stays_s=1 on_gone /> }.into_any()
    });
    assert!(bench.find("[role=status]").is_some());
    wait_ms(500).await;
    assert_eq!(gone.get_untracked(), 0);
    wait_ms(700).await;
    assert_eq!(gone.get_untracked(), 1);
}

#[wasm_bindgen_test]
async fn a_wrong_field_ties_its_sentence_to_the_box() {
    let owner = Owner::new();
    owner.set();
    let error = RwSignal::new(String::new());
    let bench = bench(move || {
        view! { <Field label="Code" value="K3" on_input=Callback::new(|_| ()) error /> }.into_any()
    });
    assert!(bench.find("input[aria-invalid]").is_none());
    error.set("The check letter does not fit.".to_owned());
    wait_ms(20).await;
    let described = bench
        .find("input[aria-invalid=true]")
        .unwrap()
        .get_attribute("aria-describedby");
    let sentence = described
        .unwrap()
        .split(' ')
        .filter_map(|id| document().get_element_by_id(id))
        .filter_map(|part| part.text_content())
        .collect::<String>();
    assert!(sentence.contains("check letter"));
}

const DOT: &str = "data:image/gif;base64,R0lGODlhAQABAAAAACwAAAAAAQABAAA=";

#[wasm_bindgen_test]
async fn a_photograph_opens_large_once_it_is_there_and_gives_the_focus_back() {
    let owner = Owner::new();
    owner.set();
    let picture = RwSignal::new(Picture::Looking);
    let bench = bench(move || {
        view! { <Photo picture name="Spots" open_label="Open" close_label="Close" away="Elsewhere" /> }
            .into_any()
    });
    let key: HtmlElement = bench.find(".photo").unwrap().unchecked_into();
    let dialog: HtmlDialogElement = bench.find("dialog").unwrap().unchecked_into();
    key.focus().unwrap();
    bench.tap(".photo");
    wait_ms(20).await;
    assert!(!dialog.open(), "there is nothing to see yet");
    picture.set(Picture::Here(DOT.to_owned()));
    wait_ms(20).await;
    bench.tap(".photo");
    wait_ms(20).await;
    assert!(dialog.open());
    let large = bench.find("dialog img").unwrap();
    assert_eq!(large.get_attribute("alt").unwrap(), "Spots");
    bench.tap(".sheet-close");
    wait_ms(20).await;
    assert!(!dialog.open());
    assert_eq!(document().active_element().unwrap().class_name(), "photo");
}

#[wasm_bindgen_test]
async fn a_photograph_that_is_elsewhere_is_a_sentence_and_no_key() {
    let owner = Owner::new();
    owner.set();
    let bench = bench(move || {
        view! {
            <Photo
                picture=Signal::stored(Picture::Away)
                name="Spots"
                open_label="Open"
                close_label="Close"
                away="Elsewhere"
            />
        }
        .into_any()
    });
    wait_ms(0).await;
    assert!(bench.find(".photo").is_none());
    assert_eq!(bench.text(".photo-away"), "Elsewhere");
}
