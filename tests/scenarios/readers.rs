//! What the readers were fed once: read again, and cut off and altered at every few bytes.

use velamen_tests::readers::READERS;

/// Steps between the bytes at which a file is cut off or altered.
const STEPS: usize = 24;

#[test]
fn every_reader_takes_or_refuses_what_it_was_fed_before() {
    for (name, read) in READERS {
        let folder = velamen_tests::folder().join("fuzz/corpus").join(name);
        let files = std::fs::read_dir(&folder).expect("a reader has its folder");
        let mut count = 0;
        for file in files {
            let path = file.expect("a folder can be read").path();
            let bytes = std::fs::read(&path).expect("a file can be read");
            read(&bytes);
            let step = bytes.len() / STEPS + 1;
            for at in (0..bytes.len()).step_by(step) {
                read(&bytes[..at]);
                let mut altered = bytes.clone();
                altered[at] ^= 1 << (at % 8);
                read(&altered);
            }
            count += 1;
        }
        assert!(count > 0, "{name} was fed nothing");
    }
}
