//! The release build: trunk makes dist/, the further languages come beside it, the dist step finishes it.

use std::fs::File;
use std::time::Duration;

use crate::folders::Folders;
use crate::options::Pages;
use crate::{Outcome, dist, languages, run, tools};

/// A first release build with link-time optimisation stays far below this.
const BUILD_LIMIT: Duration = Duration::from_secs(60 * 60);

/// Builds dist/. The output goes to `log`, or to the terminal where there is none.
pub(crate) fn release(folders: &Folders, log: Option<&File>, pages: Pages) -> Outcome {
    // A build that fails must not leave an older one looking finished.
    let _ = std::fs::remove_file(folders.dist().join("_headers"));
    tools::for_building(folders)?;
    // Trunk is kept off the network, so what it compiles must be here first.
    step(folders.command("cargo").args(["fetch", "--locked"]), log)?;
    if log.is_none() {
        println!("Building the app (about 10 minutes where the code has changed, else seconds).");
    }
    step(
        folders
            .command("trunk")
            .args(["build", "--release", "--offline", "--locked"])
            .env("NO_COLOR", "true"),
        log,
    )?;
    if pages == Pages::All {
        languages::build(folders, log)?;
    }
    dist::finish(&folders.dist())
}

fn step(command: &mut std::process::Command, log: Option<&File>) -> Outcome {
    let Some(log) = log else {
        return run::shown(command);
    };
    if run::logged(command, log, BUILD_LIMIT)? {
        Ok(())
    } else {
        Err("The release build failed.".into())
    }
}
