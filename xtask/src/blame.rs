//! What failed, taken out of what a runner printed.
//!
//! A log of a thousand lines ends with what went well: whoever reads only the end must still see the fault.

/// Lines kept of one fault: enough for its message and where it happened.
const LINES_EACH: usize = 40;

/// Faults shown of a layer; more are rarely faults of their own.
const FAULTS: usize = 8;

/// A failed test, its name first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Fault {
    pub(crate) name: String,
    pub(crate) lines: Vec<String>,
}

impl Fault {
    fn keep(&mut self, line: &str) {
        if self.lines.len() < LINES_EACH {
            self.lines.push(line.to_owned());
        }
    }
}

/// The faults of a log, at most a few; none where the log has no form that is known.
pub(crate) fn faults(log: &str) -> Vec<Fault> {
    let mut found = tap(log);
    found.extend(cargo(log));
    found.truncate(FAULTS);
    found
}

/// `not ok N - name`, up to the next test.
fn tap(log: &str) -> Vec<Fault> {
    let mut found: Vec<Fault> = Vec::new();
    let mut open = false;
    for line in log.lines() {
        let text = line.trim_start();
        if let Some(name) = text.strip_prefix("not ok ") {
            let name = name.split_once(" - ").map_or(name, |(_, name)| name);
            found.push(Fault {
                name: name.to_owned(),
                lines: Vec::new(),
            });
            open = true;
        } else if text.starts_with("ok ")
            || text.starts_with("# Subtest")
            || text.starts_with("1..")
        {
            open = false;
        } else if let (true, Some(fault)) = (open, found.last_mut()) {
            fault.keep(line);
        }
    }
    found
}

/// `---- name stdout ----` of `cargo test`, up to the next one or the list of names; and `error` of a compiler.
fn cargo(log: &str) -> Vec<Fault> {
    let mut found: Vec<Fault> = Vec::new();
    let mut open = false;
    for line in log.lines() {
        let heading = line
            .strip_prefix("---- ")
            .and_then(|rest| rest.strip_suffix(" ----"));
        if heading.is_some() || line.starts_with("error") {
            found.push(Fault {
                name: heading.unwrap_or(line).to_owned(),
                lines: Vec::new(),
            });
            open = true;
        } else if line == "failures:" || line.starts_with("test result:") {
            open = false;
        } else if let (true, Some(fault)) = (open, found.last_mut()) {
            fault.keep(line);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failed_browser_test_is_found_among_good_ones() {
        let log = "ok 1 - starts\n# Subtest: a clump is divided\nnot ok 2 - a clump is divided\n  ---\n  error: 'seven pieces'\n  ...\n\
            # Subtest: later\nok 3 - later\n  duration_ms: 4\n1..3\n";
        assert_eq!(
            faults(log),
            [Fault {
                name: "a clump is divided".into(),
                lines: vec![
                    "  ---".into(),
                    "  error: 'seven pieces'".into(),
                    "  ...".into()
                ],
            }]
        );
    }

    #[test]
    fn a_failed_native_test_and_an_error_of_the_compiler_are_found() {
        let log = "test a ... ok\n\nfailures:\n\n---- fold::keeps stdout ----\nleft: 1\nright: 2\n\nfailures:\n    fold::keeps\n\n\
            test result: FAILED. 1 passed; 1 failed\nerror[E0308]: mismatched types\n  --> core/src/lib.rs\n";
        let names: Vec<String> = faults(log).into_iter().map(|fault| fault.name).collect();
        assert_eq!(
            names,
            ["fold::keeps stdout", "error[E0308]: mismatched types"]
        );
    }

    #[test]
    fn a_log_of_good_tests_blames_none_and_a_flood_is_cut() {
        assert!(faults("ok 1 - starts\n1..1\ntest result: ok. 2 passed\n").is_empty());
        let flood = "not ok 1 - x\n".repeat(50) + &"  line\n".repeat(500);
        let found = faults(&flood);
        assert_eq!(found.len(), FAULTS);
        assert!(found.iter().all(|fault| fault.lines.len() <= LINES_EACH));
    }
}
