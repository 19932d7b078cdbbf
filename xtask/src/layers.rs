//! `cargo xtask test`: every check there is, layer by layer, each into its own file.
//!
//! The last line is the sum. A layer that ran nothing has failed; a layer that cannot start says
//! why and the others still run.

use std::fs::File;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};
use std::time::{Duration, Instant};

use crate::folders::Folders;
use crate::options::Pages;
use crate::tally::{self, Tally};
use crate::{Outcome, blame, build, run, server, tools};

/// No test has a limit of its own; this one only ends a layer that hangs.
const LAYER_LIMIT: Duration = Duration::from_secs(60 * 60);
/// After this a file of browser tests, which takes one or two minutes, hangs: the others still run.
const HUNG_TEST: Duration = Duration::from_secs(10 * 60);

const TAIL_LINES: usize = 80;

/// The layers in the order they run: the quick ones first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Layer {
    Fmt,
    Clippy,
    Native,
    Storage,
    Build,
    EndToEnd,
}

impl Layer {
    pub(crate) const ALL: [Self; 6] = [
        Self::Fmt,
        Self::Clippy,
        Self::Native,
        Self::Storage,
        Self::Build,
        Self::EndToEnd,
    ];

    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Fmt => "fmt",
            Self::Clippy => "clippy",
            Self::Native => "native",
            Self::Storage => "storage",
            Self::Build => "build",
            Self::EndToEnd => "e2e",
        }
    }

    fn run(self, folders: &Folders, log: &Log) -> Outcome<Tally> {
        match self {
            Self::Fmt => fmt(folders, log),
            Self::Clippy => clippy(folders, log),
            Self::Native => native(folders, log),
            Self::Storage => storage(folders, log),
            Self::Build => {
                build::release(folders, Some(&log.file), Pages::All).map(|()| Tally::of(true))
            }
            Self::EndToEnd => end_to_end(folders, log),
        }
    }
}

/// The file a layer's children write to.
#[derive(Debug)]
struct Log {
    path: PathBuf,
    file: File,
}

impl Log {
    fn create(folders: &Folders, layer: Layer) -> Outcome<Self> {
        let path = folders.test_output().join(format!("{}.txt", layer.name()));
        let file = File::create(&path)
            .map_err(|error| format!("{} cannot be written: {error}.", path.display()))?;
        Ok(Self { path, file })
    }

    fn run(&self, command: &mut Command) -> Outcome<bool> {
        run::logged(command, &self.file, LAYER_LIMIT)
    }

    fn text(&self) -> String {
        String::from_utf8_lossy(&std::fs::read(&self.path).unwrap_or_default()).into_owned()
    }
}

/// Runs the layers, prints a line for each and the sum last.
pub(crate) fn test(folders: &Folders, wanted: &[Layer]) -> Outcome<ExitCode> {
    let output = folders.test_output();
    std::fs::create_dir_all(&output)
        .map_err(|error| format!("{} cannot be made: {error}.", output.display()))?;
    let mut sum = Tally::default();
    let mut blamed = Vec::new();
    for &layer in wanted {
        sum = sum.plus(run_layer(folders, layer, &mut blamed)?);
    }
    // Once more at the end, where whoever reads only the end finds it.
    for (layer, fault) in blamed {
        println!("failed in {layer}: {}", fault.name);
        for line in fault.lines {
            println!("  | {line}");
        }
    }
    println!("{} passed, {} failed", sum.passed, sum.failed);
    let held = sum.failed == 0 && sum.passed > 0;
    Ok(if held {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    })
}

fn run_layer(
    folders: &Folders,
    layer: Layer,
    blamed: &mut Vec<(&'static str, blame::Fault)>,
) -> Outcome<Tally> {
    let log = Log::create(folders, layer)?;
    println!("{} ...", layer.name());
    let began = Instant::now();
    let (tally, sentence) = match layer.run(folders, &log) {
        Ok(tally) => (tally.judged(true), None),
        Err(sentence) => (Tally::of(false), Some(sentence)),
    };
    let verdict = if tally.failed == 0 { "ok" } else { "FAILED" };
    println!(
        "{:<8} {verdict}: {} good, {} bad, {} s, in {}",
        layer.name(),
        tally.passed,
        tally.failed,
        began.elapsed().as_secs(),
        shown(&log.path, &folders.root),
    );
    if tally.failed > 0 {
        let faults = blame::faults(&log.text());
        if faults.is_empty() {
            print!("{}", run::tail(&log.path, TAIL_LINES));
        }
        blamed.extend(faults.into_iter().map(|fault| (layer.name(), fault)));
    }
    if let Some(sentence) = sentence {
        println!("  {sentence}");
    }
    Ok(tally)
}

fn shown(path: &Path, root: &Path) -> String {
    path.strip_prefix(root)
        .unwrap_or(path)
        .display()
        .to_string()
}

fn fmt(folders: &Folders, log: &Log) -> Outcome<Tally> {
    tools::for_linting(folders)?;
    log.run(folders.command("cargo").args(["fmt", "--all", "--check"]))
        .map(Tally::of)
}

/// Core is linted alone: together with others Cargo would unify features, and chrono would bring
/// a clock.
fn clippy(folders: &Folders, log: &Log) -> Outcome<Tally> {
    tools::for_linting(folders)?;
    tools::for_storage_tests(folders)?;
    let runs: [&[&str]; 4] = [
        &["-p", "velamen-core"],
        &[
            "-p",
            "velamen-tests",
            "-p",
            "velamen-paperwork",
            "-p",
            "xtask",
        ],
        &["-p", "velamen-app", "--target", "wasm32-unknown-unknown"],
        &[
            "-p",
            "velamen-app",
            "--target",
            "wasm32-unknown-unknown",
            "--features",
            "es,parts",
        ],
    ];
    let mut sum = Tally::default();
    for packages in runs {
        let mut command = folders.command("cargo");
        command
            .args(["clippy", "--locked", "--all-targets"])
            .args(packages)
            .args(["--", "-D", "warnings"]);
        sum = sum.plus(Tally::of(log.run(&mut command)?));
    }
    Ok(sum)
}

fn native(folders: &Folders, log: &Log) -> Outcome<Tally> {
    let packages = [
        "-p",
        "velamen-core",
        "-p",
        "velamen-tests",
        "-p",
        "velamen-paperwork",
        "-p",
        "xtask",
    ];
    let mut command = folders.command("cargo");
    // Without traces, the tail of a failure shows what failed.
    command
        .args(["test", "--locked", "--no-fail-fast"])
        .args(packages)
        .env("RUST_BACKTRACE", "0");
    let held = log.run(&mut command)?;
    Ok(tally::cargo(&log.text()).judged(held))
}

/// The app's own tests inside Chromium, and those of the words in every language. Never quiet: the runner does not understand `-q`.
fn storage(folders: &Folders, log: &Log) -> Outcome<Tally> {
    tools::for_storage_tests(folders)?;
    let browser = tools::browser(folders)?;
    let runs: [&[&str]; 2] = [&["--lib"], &["--lib", "--features", "es", "words::"]];
    let mut held = true;
    for which in runs {
        held &= log.run(
            folders
                .command("cargo")
                .args(["test", "--locked", "--target", "wasm32-unknown-unknown"])
                .args(["-p", "velamen-app"])
                .args(which)
                .env("CHROMEDRIVER", &browser.driver)
                .env("WASM_BINDGEN_TEST_TIMEOUT", "300"),
        )?;
    }
    Ok(tally::cargo(&log.text()).judged(held))
}

/// tests/browser against the release build, at the top of an origin and under a folder of one.
fn end_to_end(folders: &Folders, log: &Log) -> Outcome<Tally> {
    tools::npm_packages(folders)?;
    let browser = tools::browser(folders)?;
    let dist = folders.dist();
    if !dist.join("_headers").is_file() {
        return Err("There is no finished release build in dist/.".into());
    }
    let scripts = browser_tests(&folders.browser_tests())?;
    let serve = |under| -> Outcome<String> {
        let server = server::Server::bind(0, dist.clone(), under)?;
        let url = server.url();
        std::thread::spawn(move || server.run());
        Ok(url)
    };
    let own =
        std::env::current_exe().map_err(|error| format!("xtask does not find itself: {error}."))?;
    let pictures = folders.test_output().join("pictures");
    std::fs::create_dir_all(&pictures)
        .map_err(|error| format!("{} cannot be made: {error}.", pictures.display()))?;
    let held = log.run(
        folders
            .command("node")
            .args(["--test", "--test-concurrency=1", "--test-reporter=tap"])
            .arg(format!("--test-timeout={}", HUNG_TEST.as_millis()))
            .args(scripts)
            .env("VELAMEN_URL", serve(None)?)
            .env("VELAMEN_SUB_URL", serve(Some("nursery/book"))?)
            .env("VELAMEN_XTASK", own)
            .env("CHROMIUM", &browser.chromium),
    )?;
    Ok(tally::tap(&log.text()).judged(held))
}

/// Every `*.test.mjs` of the folder, by name.
fn browser_tests(folder: &Path) -> Outcome<Vec<PathBuf>> {
    let entries = std::fs::read_dir(folder)
        .map_err(|error| format!("{} cannot be read: {error}.", folder.display()))?;
    let mut scripts: Vec<PathBuf> = entries
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.to_string_lossy().ends_with(".test.mjs"))
        .collect();
    scripts.sort();
    if scripts.is_empty() {
        Err("tests/browser holds no *.test.mjs.".into())
    } else {
        Ok(scripts)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn layer_names_are_unique() {
        let mut names: Vec<&str> = Layer::ALL.iter().map(|layer| layer.name()).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), Layer::ALL.len());
    }

    #[test]
    fn only_test_scripts_are_run_in_order_of_name() {
        let folder = std::env::temp_dir().join(format!("velamen-scripts-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        assert!(browser_tests(&folder).is_err());
        for name in ["b.test.mjs", "a.test.mjs", "harness.mjs"] {
            std::fs::write(folder.join(name), "").unwrap();
        }
        let found = browser_tests(&folder).unwrap();
        assert_eq!(
            found,
            [folder.join("a.test.mjs"), folder.join("b.test.mjs")]
        );
        std::fs::remove_dir_all(folder).unwrap();
    }
}
