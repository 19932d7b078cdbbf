//! The release build: trunk makes dist/, the page in each language is cut into it, the dist step finishes it.

use std::fs::File;
use std::time::Duration;

use crate::folders::Folders;
use crate::options::Pages;
use crate::{Outcome, dist, languages, parts, run, tools};

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
            .args(["build", "--release", "--offline", "--locked", "--features"])
            .arg(parts::FEATURE)
            .env("NO_COLOR", "true"),
        log,
    )?;
    let weight = languages::build(folders, log, pages)?;
    dist::finish(&folders.dist())?;
    println!("The page: {weight}.");
    // A quick look may be built without what makes it small.
    if log.is_some() && weight.first_kb > parts::FIRST_MAX_KB {
        return Err(format!(
            "The first part of the page is too heavy: {weight}."
        ));
    }
    Ok(())
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
