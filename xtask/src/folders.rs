//! Where things are, and a child process started in the right place.
//!
//! Tools live under CARGO_HOME in a folder named by their versions: a fresh clone finds them
//! built, and a person's own trunk or wasm-bindgen is left alone.

use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::Outcome;

/// trunk 0.22 asks for a newer compiler than rust-toolchain.toml names.
pub(crate) const TRUNK_VERSION: &str = "0.21.14";

/// The folders every step works in.
#[derive(Debug)]
pub(crate) struct Folders {
    pub(crate) root: PathBuf,
    pub(crate) target: PathBuf,
    pub(crate) tools: PathBuf,
    pub(crate) wasm_bindgen_version: String,
}

impl Folders {
    /// Errors: Cargo.lock names no wasm-bindgen, or no home folder is known.
    pub(crate) fn find() -> Outcome<Self> {
        // Asked of cargo at run time: with a target folder shared by several checkouts, this
        // program may have been built in another one.
        let own = std::env::var_os("CARGO_MANIFEST_DIR")
            .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
        let root = own
            .parent()
            .ok_or("xtask lies outside its workspace.")?
            .to_path_buf();
        let lock_path = root.join("Cargo.lock");
        let lock = std::fs::read_to_string(&lock_path)
            .map_err(|error| format!("{} cannot be read: {error}.", lock_path.display()))?;
        let wasm_bindgen_version =
            locked_version(&lock, "wasm-bindgen").ok_or("Cargo.lock names no wasm-bindgen.")?;
        let cargo_home = std::env::var_os("CARGO_HOME")
            .map(PathBuf::from)
            .or_else(|| std::env::var_os("HOME").map(|home| Path::new(&home).join(".cargo")))
            .ok_or("Neither CARGO_HOME nor HOME is set.")?;
        let tools = cargo_home.join("velamen-tools").join(format!(
            "trunk-{TRUNK_VERSION}+wasm-bindgen-{wasm_bindgen_version}"
        ));
        let target = std::env::var_os("CARGO_TARGET_DIR")
            .map_or_else(|| root.join("target"), |dir| root.join(dir));
        Ok(Self {
            root,
            target,
            tools,
            wasm_bindgen_version,
        })
    }

    pub(crate) fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }

    pub(crate) fn browser_tests(&self) -> PathBuf {
        self.root.join("tests/browser")
    }

    pub(crate) fn test_output(&self) -> PathBuf {
        self.root.join("test-output")
    }

    /// A child at the top of the repository, with the project's tools first on PATH and one
    /// target folder for all.
    pub(crate) fn command(&self, program: &str) -> Command {
        let mut command = Command::new(program);
        command
            .current_dir(&self.root)
            .env("PATH", self.path())
            .env("CARGO_TARGET_DIR", &self.target);
        command
    }

    fn path(&self) -> OsString {
        let own = [
            self.tools.join("bin"),
            self.browser_tests().join("node_modules/.bin"),
        ];
        let old = std::env::var_os("PATH").unwrap_or_default();
        let all = own.into_iter().chain(std::env::split_paths(&old));
        std::env::join_paths(all).unwrap_or(old.clone())
    }
}

/// The version of a package in a lock file; the first one where there are several.
fn locked_version(lock: &str, package: &str) -> Option<String> {
    let name_line = format!("name = \"{package}\"");
    let mut lines = lock.lines().skip_while(|line| *line != name_line);
    lines
        .nth(1)?
        .strip_prefix("version = \"")?
        .strip_suffix('"')
        .map(str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_locked_version_is_that_of_the_package_itself() {
        let lock = "[[package]]\nname = \"wasm-bindgen-futures\"\nversion = \"0.4.79\"\n\n\
                    [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.129\"\n";
        assert_eq!(
            locked_version(lock, "wasm-bindgen").as_deref(),
            Some("0.2.129")
        );
        assert_eq!(locked_version(lock, "wasm"), None);
    }

    #[test]
    fn the_tools_folder_names_both_versions() {
        let folders = Folders::find().unwrap();
        let name = folders
            .tools
            .file_name()
            .unwrap()
            .to_string_lossy()
            .into_owned();
        assert_eq!(
            name,
            format!(
                "trunk-{TRUNK_VERSION}+wasm-bindgen-{}",
                folders.wasm_bindgen_version
            )
        );
        assert!(folders.root.join("Trunk.toml").is_file());
    }
}
