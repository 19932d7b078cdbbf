//! `cargo xtask bench`: the program measured in Chromium, beside what raw storage takes in the same run.
//!
//! The pages that measure are put beside a copy of dist/, never into it: they load the very script and module that
//! index.html names.

use std::path::Path;

use crate::folders::Folders;
use crate::options::{Measuring, Pages};
use crate::{Outcome, build, dist, run, server, tools};

/// Builds unless told not to, measures, and lets the script print its table.
pub(crate) fn run(folders: &Folders, measuring: &Measuring) -> Outcome {
    if !measuring.as_built {
        build::release(folders, None, Pages::All)?;
    }
    tools::npm_packages(folders)?;
    let browser = tools::browser(folders)?;
    let site = folders.target.join("bench-site");
    lay_out(&folders.dist(), &folders.root.join("tests/bench"), &site)?;
    let server = server::Server::bind(0, site, None)?;
    let url = server.url();
    std::thread::spawn(move || server.run());
    let sizes: Vec<String> = measuring.sizes.iter().map(u32::to_string).collect();
    run::shown(
        folders
            .command("node")
            .arg(if measuring.hand {
                "tests/bench/hand.mjs"
            } else {
                "tests/bench/run.mjs"
            })
            .env("VELAMEN_URL", url)
            .env("VELAMEN_SIZES", sizes.join(","))
            .env("VELAMEN_DIST", folders.dist())
            .env("CHROMIUM", &browser.chromium),
    )
}

/// A copy of the build with the measuring pages beside it.
fn lay_out(built: &Path, pages: &Path, site: &Path) -> Outcome {
    let index = dist::read(&built.join("index.html"))?;
    let _ = std::fs::remove_dir_all(site);
    std::fs::create_dir_all(site)
        .map_err(|error| format!("{} cannot be made: {error}.", site.display()))?;
    for folder in [built, pages] {
        let entries = std::fs::read_dir(folder)
            .map_err(|error| format!("{} cannot be read: {error}.", folder.display()))?;
        for entry in entries.flatten().filter(|entry| entry.path().is_file()) {
            let to = site.join(entry.file_name());
            std::fs::copy(entry.path(), &to)
                .map_err(|error| format!("{} cannot be written: {error}.", to.display()))?;
        }
    }
    let bench = site.join("bench.html");
    let page = dist::read(&bench)?;
    dist::write(
        &bench,
        &page
            .replace("{glue}", named(&index, ".js")?)
            .replace("{wasm}", named(&index, "_bg.wasm")?),
    )
}

/// The file of this ending that index.html starts in the first language.
fn named<'a>(index: &'a str, ending: &str) -> Outcome<&'a str> {
    index
        .split('\'')
        .find(|quoted| quoted.starts_with("./velamen-") && quoted.ends_with(ending))
        .ok_or_else(|| format!("index.html starts no {ending} file: build it first."))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bench_page_names_the_files_of_the_index() {
        let index = "en: { script: ['./velamen-1.js', 'sha384-a'], module: ['./velamen-1_bg.wasm', 'sha384-b'] },\n\
            es: { script: ['./velamen-es-2.js', 'sha384-c'] },";
        assert_eq!(named(index, ".js").unwrap(), "./velamen-1.js");
        assert_eq!(named(index, "_bg.wasm").unwrap(), "./velamen-1_bg.wasm");
        assert!(named("<p>", ".js").is_err());
    }
}
