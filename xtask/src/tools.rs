//! What has to be on the machine, and how it gets there.
//!
//! Each step is skipped where the right version is found, and announces itself with its usual
//! time where it is not. Times are for two cores.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::folders::{Folders, TRUNK_VERSION};
use crate::{Outcome, digest, run};

/// Compiler target, trunk, wasm-bindgen and the npm packages.
pub(crate) fn for_building(folders: &Folders) -> Outcome {
    wasm_target(folders)?;
    cargo_tool(folders, "trunk", TRUNK_VERSION, "trunk", "8 minutes")?;
    for_storage_tests(folders)?;
    npm_packages(folders)
}

/// Compiler target and wasm-bindgen with its test runner.
pub(crate) fn for_storage_tests(folders: &Folders) -> Outcome {
    wasm_target(folders)?;
    cargo_tool(
        folders,
        "wasm-bindgen-cli",
        &folders.wasm_bindgen_version,
        "wasm-bindgen-test-runner",
        "3 minutes",
    )
}

/// rustfmt and clippy, where the toolchain came without them.
pub(crate) fn for_linting(folders: &Folders) -> Outcome {
    for component in ["rustfmt", "clippy"] {
        let name = if component == "rustfmt" {
            "fmt"
        } else {
            component
        };
        if run::answer(folders.command("cargo").args([name, "--version"])).is_none() {
            println!("Adding {component} to the toolchain (seconds).");
            run::shown(
                folders
                    .command("rustup")
                    .args(["component", "add", component]),
            )?;
        }
    }
    Ok(())
}

fn wasm_target(folders: &Folders) -> Outcome {
    let target = "wasm32-unknown-unknown";
    let library = run::answer(folders.command("rustc").args([
        "--print",
        "target-libdir",
        "--target",
        target,
    ]));
    if library.is_some_and(|path| Path::new(&path).is_dir()) {
        return Ok(());
    }
    println!("Adding the compiler target {target} (seconds).");
    run::shown(folders.command("rustup").args(["target", "add", target]))
}

/// Builds a cargo tool into the project's tool folder unless `binary` answers with this version.
fn cargo_tool(
    folders: &Folders,
    package: &str,
    version: &str,
    binary: &str,
    time: &str,
) -> Outcome {
    let answer = run::answer(folders.command(binary).arg("--version"));
    if answer.is_some_and(|line| line.split(' ').nth(1) == Some(version)) {
        return Ok(());
    }
    println!("Building {package} {version}, once: about {time}.");
    // Its own target folder, so that a build broken off goes on where it stopped.
    let build = folders.tools.join("build");
    run::shown(
        folders
            .command("cargo")
            .args([
                "install",
                "--locked",
                "--no-default-features",
                "--version",
                version,
                "--root",
            ])
            .arg(&folders.tools)
            .arg(package)
            .env("CARGO_TARGET_DIR", &build),
    )?;
    let _ = std::fs::remove_dir_all(build);
    Ok(())
}

/// Installs exactly the lock file's packages unless the same lock file was installed before.
pub(crate) fn npm_packages(folders: &Folders) -> Outcome {
    let folder = folders.browser_tests();
    let lock = std::fs::read(folder.join("package-lock.json"))
        .map_err(|error| format!("tests/browser/package-lock.json cannot be read: {error}."))?;
    let wanted = digest::hex(&lock);
    let mark = folder.join("node_modules/.velamen-lock");
    if std::fs::read_to_string(&mark).is_ok_and(|installed| installed == wanted) {
        return Ok(());
    }
    println!("Installing the npm packages of tests/browser (seconds).");
    run::shown(
        folders
            .command("npm")
            .args(["ci", "--no-audit", "--no-fund"])
            .current_dir(&folder),
    )?;
    std::fs::write(&mark, wanted)
        .map_err(|error| format!("{} cannot be written: {error}.", mark.display()))
}

/// The browser and its driver.
#[derive(Debug)]
pub(crate) struct Browser {
    pub(crate) chromium: PathBuf,
    pub(crate) driver: PathBuf,
}

/// Debian's Chromium with its driver, or those named by CHROMIUM and CHROMEDRIVER.
///
/// Errors: one is missing and cannot be installed without root; the sentence is the command to run.
pub(crate) fn browser(folders: &Folders) -> Outcome<Browser> {
    if let Some(browser) = installed_browser() {
        return Ok(browser);
    }
    let by_hand = "apt-get update && apt-get install -y chromium chromium-driver";
    if run::answer(Command::new("id").arg("-u")).as_deref() != Some("0") {
        return Err(format!(
            "Chromium and its driver are missing. Install them with: sudo sh -c '{by_hand}'"
        ));
    }
    println!("Installing Chromium and its driver (about a minute).");
    run::shown(
        folders
            .command("sh")
            .args(["-c", by_hand])
            .env("DEBIAN_FRONTEND", "noninteractive"),
    )?;
    installed_browser().ok_or_else(|| format!("Chromium is still missing after: {by_hand}"))
}

fn installed_browser() -> Option<Browser> {
    let chromium = named_or_found("CHROMIUM", "chromium")?;
    let driver = named_or_found("CHROMEDRIVER", "chromedriver")?;
    Some(Browser { chromium, driver })
}

fn named_or_found(variable: &str, program: &str) -> Option<PathBuf> {
    let named = std::env::var_os(variable).map(PathBuf::from);
    let path = std::env::var_os("PATH").unwrap_or_default();
    let found = std::env::split_paths(&path).map(|folder| folder.join(program));
    named
        .into_iter()
        .chain(found)
        .find(|candidate| candidate.is_file())
}
