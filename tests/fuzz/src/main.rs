//! Feeds one reader, named by `VELAMEN_READER`, with what reaches further into it each time.
#![no_main]

use std::sync::OnceLock;

use libfuzzer_sys::fuzz_target;
use velamen_tests::readers::{READERS, Reader};

static READER: OnceLock<Reader> = OnceLock::new();

fuzz_target!(|bytes: &[u8]| {
    let (_, read) = READER.get_or_init(|| {
        let named = std::env::var("VELAMEN_READER").unwrap_or_default();
        let found = READERS.into_iter().find(|(name, _)| *name == named);
        found.unwrap_or_else(|| panic!("VELAMEN_READER names none of the readers: {named:?}"))
    });
    read(bytes);
});
