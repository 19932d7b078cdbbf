//! The kept book in a browser: the same entries give the same facts there, to the last bit.

use velamen_core::state::{RULES, State};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_test]
fn the_kept_book_reads_to_the_same_facts_in_a_browser() {
    let (state, refused) = State::of_lines(include_str!("../../tests/golden/book-1.jsonl").lines());
    assert_eq!((refused, state.log().parked()), (0, 0));
    let facts = include_str!("../../tests/golden/book-1.digest");
    assert_eq!(format!("{RULES} {}\n", state.digest()), facts);
}
