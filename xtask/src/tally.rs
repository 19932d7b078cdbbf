//! Counting: what each runner says about its own tests, read from what it printed.
//!
//! A skipped, ignored or unfinished test counts as failed: nothing may pass by not running.

/// Tests that held and tests that did not.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    pub(crate) passed: u64,
    pub(crate) failed: u64,
}

impl Tally {
    pub(crate) fn of(held: bool) -> Self {
        Self {
            passed: u64::from(held),
            failed: u64::from(!held),
        }
    }

    pub(crate) fn plus(self, other: Self) -> Self {
        Self {
            passed: self.passed + other.passed,
            failed: self.failed + other.failed,
        }
    }

    /// A runner that failed without a failed test (it did not compile, or it crashed) and a layer
    /// in which nothing ran are both failures.
    pub(crate) fn judged(self, runner_held: bool) -> Self {
        let silent = self.failed == 0 && (!runner_held || self.passed == 0);
        Self {
            failed: self.failed + u64::from(silent),
            ..self
        }
    }
}

/// Sums the `test result:` lines of `cargo test`, native or in the browser.
pub(crate) fn cargo(output: &str) -> Tally {
    let results = output
        .lines()
        .filter_map(|line| line.trim().strip_prefix("test result: "));
    results.fold(Tally::default(), |sum, result| {
        let count = |what: &str| {
            let part = result
                .split([';', '.'])
                .find_map(|part| part.trim().strip_suffix(what));
            part.and_then(|number| number.trim().parse::<u64>().ok())
                .unwrap_or(0)
        };
        sum.plus(Tally {
            passed: count(" passed"),
            failed: count(" failed") + count(" ignored"),
        })
    })
}

/// Sums the closing lines of node's TAP report.
pub(crate) fn tap(output: &str) -> Tally {
    let count = |what: &str| {
        let number = output
            .lines()
            .rev()
            .find_map(|line| line.strip_prefix("# ")?.strip_prefix(what));
        number
            .and_then(|number| number.trim().parse::<u64>().ok())
            .unwrap_or(0)
    };
    Tally {
        passed: count("pass "),
        failed: count("fail ") + count("cancelled ") + count("skipped ") + count("todo "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cargo_results_are_summed_over_all_suites() {
        let output = "running 2 tests\ntest a ... ok\n\
            test result: ok. 2 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.00s\n\
            noise 9 passed; 9 failed\n\
            test result: FAILED. 3 passed; 1 failed; 2 ignored; 0 measured; 0 filtered out; finished in 0.1s\n";
        assert_eq!(
            cargo(output),
            Tally {
                passed: 5,
                failed: 3
            }
        );
        assert_eq!(cargo("error: could not compile"), Tally::default());
    }

    #[test]
    fn the_closing_lines_of_tap_are_read() {
        let output = "TAP version 13\nok 1 - starts\n1..1\n# tests 6\n# suites 0\n# pass 2\n# fail 1\n# cancelled 1\n\
            # skipped 1\n# todo 1\n# duration_ms 812.5\n";
        assert_eq!(
            tap(output),
            Tally {
                passed: 2,
                failed: 4
            }
        );
        assert_eq!(tap(""), Tally::default());
    }

    #[test]
    fn a_layer_in_which_nothing_ran_has_failed() {
        assert_eq!(
            Tally::default().judged(true),
            Tally {
                passed: 0,
                failed: 1
            }
        );
        assert_eq!(
            Tally {
                passed: 4,
                failed: 0
            }
            .judged(true),
            Tally {
                passed: 4,
                failed: 0
            }
        );
        assert_eq!(
            Tally {
                passed: 4,
                failed: 0
            }
            .judged(false),
            Tally {
                passed: 4,
                failed: 1
            }
        );
        assert_eq!(
            Tally {
                passed: 4,
                failed: 2
            }
            .judged(false),
            Tally {
                passed: 4,
                failed: 2
            }
        );
    }
}
