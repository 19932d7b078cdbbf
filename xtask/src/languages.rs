//! The page in each language: one build of the app a language, and the lines in index.html that start the right one.
//!
//! Trunk builds the first language and writes how it is started; the further ones are built as trunk builds, laid
//! beside it under names of their own, and trunk's own start is replaced by `assets/start.js`, which knows them all.

use std::fs::File;
use std::path::{Path, PathBuf};
use std::time::Duration;

use crate::folders::Folders;
use crate::{Outcome, digest, run};

/// What trunk builds.
const FIRST: &str = "en";

/// Each is a feature of the app.
const FURTHER: [&str; 1] = ["es"];

const SOURCE: &str = include_str!("../../assets/start.js");

/// Letters of a file's name that stand for its bytes.
const NAME_LETTERS: usize = 16;

const LIMIT: Duration = Duration::from_secs(60 * 60);

/// Builds the page in every further language into a finished folder of trunk's.
pub(crate) fn build(folders: &Folders, log: Option<&File>) -> Outcome {
    FURTHER
        .iter()
        .try_for_each(|language| build_one(folders, language, log))
}

fn build_one(folders: &Folders, language: &str, log: Option<&File>) -> Outcome {
    // A folder of its own: with a changed feature cargo would write over what trunk has left.
    let target = folders.target.join("languages");
    step(
        folders
            .command("cargo")
            .args(["build", "--locked", "--offline", "--package"])
            .args(["velamen-app", "--bin", "velamen", "--features", language])
            .args(["--target", "wasm32-unknown-unknown"])
            .args(["--profile", "wasm-release"]),
        log,
    )?;
    let built = folders
        .target
        .join("wasm32-unknown-unknown/wasm-release/velamen.wasm");
    step(
        folders
            .command("wasm-bindgen")
            .args([
                "--target",
                "web",
                "--no-typescript",
                "--out-name",
                language,
                "--out-dir",
            ])
            .arg(&target)
            .arg(&built),
        log,
    )?;
    let script = read(&target.join(format!("{language}.js")))?;
    let module = read(&target.join(format!("{language}_bg.wasm")))?;
    let sum = digest::hex(&module);
    let stem = format!(
        "velamen-{language}-{}",
        sum.get(..NAME_LETTERS).unwrap_or(&sum)
    );
    for earlier in files_of(&folders.dist(), language)? {
        std::fs::remove_file(&earlier)
            .map_err(|error| format!("{} cannot be removed: {error}.", earlier.display()))?;
    }
    for (name, bytes) in [
        (format!("{stem}.js"), script),
        (format!("{stem}_bg.wasm"), module),
    ] {
        let path = folders.dist().join(name);
        std::fs::write(&path, bytes)
            .map_err(|error| format!("{} cannot be written: {error}.", path.display()))?;
    }
    Ok(())
}

fn step(command: &mut std::process::Command, log: Option<&File>) -> Outcome {
    match log {
        None => run::shown(command),
        Some(log) if run::logged(command, log, LIMIT)? => Ok(()),
        Some(_) => Err("The page in a further language could not be built.".into()),
    }
}

fn read(path: &Path) -> Outcome<Vec<u8>> {
    std::fs::read(path).map_err(|error| format!("{} cannot be read: {error}.", path.display()))
}

/// The language a file of a build belongs to alone; none for what every language needs, and the first comes with these.
pub(crate) fn of_file(name: &str) -> Option<&'static str> {
    FURTHER
        .into_iter()
        .find(|language| name.starts_with(&format!("velamen-{language}-")))
}

fn files_of(folder: &Path, language: &str) -> Outcome<Vec<PathBuf>> {
    let entries = std::fs::read_dir(folder)
        .map_err(|error| format!("{} cannot be read: {error}.", folder.display()))?;
    Ok(entries
        .flatten()
        .filter(|entry| of_file(&entry.file_name().to_string_lossy()) == Some(language))
        .map(|entry| entry.path())
        .collect())
}

/// Trunk's page with the start that knows every language. Errors: the page does not start as trunk writes it.
pub(crate) fn with_start(page: &str, folder: &Path) -> Outcome<String> {
    let (before, rest) = page
        .split_once("<script type=\"module\">")
        .ok_or("index.html has no script that starts the app.")?;
    let (own, after) = rest
        .split_once("</script>")
        .ok_or("index.html has a script without an end.")?;
    let script = between(own, "from '", "'")?;
    let module = between(own, "module_or_path: '", "'")?;
    let mut pages = vec![row(FIRST, folder, script, module)?];
    for language in FURTHER {
        let files = files_of(folder, language)?;
        let named = |ending: &str| {
            files
                .iter()
                .filter_map(|path| path.file_name()?.to_str())
                .find(|name| name.ends_with(ending))
        };
        if let (Some(script), Some(module)) = (named(".js"), named("_bg.wasm")) {
            let (script, module) = (format!("./{script}"), format!("./{module}"));
            pages.push(row(language, folder, &script, &module)?);
        }
    }
    if SOURCE.matches("@PAGES@").count() != 1 {
        return Err("assets/start.js holds @PAGES@ not once.".into());
    }
    let start = SOURCE.replace("@PAGES@", &format!("{{\n{}\n}}", pages.join("\n")));
    let after = without_links(after, script)?;
    Ok(format!(
        "{before}<script type=\"module\">\n{start}</script>{after}"
    ))
}

/// Trunk's links would load the first language whatever is spoken.
fn without_links(page: &str, script: &str) -> Outcome<String> {
    let from = page
        .find("<link rel=\"modulepreload\"")
        .ok_or("index.html loads no script ahead.")?;
    let to = page
        .rfind("type=\"application/wasm\">")
        .map(|at| at + "type=\"application/wasm\">".len())
        .ok_or("index.html loads no module ahead.")?;
    let links = page
        .get(from..to)
        .filter(|links| links.contains(script) && links.matches("<link").count() == 2)
        .ok_or("index.html loads ahead what its script does not start.")?;
    Ok(page.replace(links, ""))
}

fn between<'a>(text: &'a str, before: &str, after: &str) -> Outcome<&'a str> {
    text.split_once(before)
        .and_then(|(_, rest)| rest.split_once(after))
        .map(|(found, _)| found)
        .ok_or_else(|| format!("The script of index.html has no {before}...{after}."))
}

fn row(language: &str, folder: &Path, script: &str, module: &str) -> Outcome<String> {
    let file = |name: &str| -> Outcome<String> {
        let sum = digest::integrity(&read(&folder.join(name.trim_start_matches("./")))?);
        Ok(format!("['{name}', '{sum}']"))
    };
    Ok(format!(
        "  {language}: {{ script: {}, module: {} }},",
        file(script)?,
        file(module)?
    ))
}

/// What trunk writes to start the app.
#[cfg(test)]
pub(crate) const TRUNKS: &str = "<script type=\"module\">\nimport init from './velamen-1a.js';\n\
    const wasm = await init({ module_or_path: './velamen-1a_bg.wasm' });</script>\n\
    <link rel=\"modulepreload\" href=\"./velamen-1a.js\"><link rel=\"preload\" href=\"./velamen-1a_bg.wasm\" \
    as=\"fetch\" type=\"application/wasm\">";

#[cfg(test)]
mod tests {
    use super::*;

    fn folder(name: &str, files: &[&str]) -> PathBuf {
        let path =
            std::env::temp_dir().join(format!("velamen-languages-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        for file in files {
            std::fs::write(path.join(file), "abc").unwrap();
        }
        path
    }

    #[test]
    fn the_page_starts_what_there_is_and_loads_nothing_else_ahead() {
        let both = folder(
            "both",
            &[
                "velamen-1a.js",
                "velamen-1a_bg.wasm",
                "velamen-es-2b.js",
                "velamen-es-2b_bg.wasm",
            ],
        );
        let page = with_start(TRUNKS, &both).unwrap();
        // printf abc | openssl dgst -sha384 -binary | base64
        let sum = "sha384-ywB1P0WjXou1oD1pmsZQBycsMqsO3tFjGotgWkP/W+2AhgcroefMI1i67KE0yCWn";
        assert!(
            page.contains(&format!("en: {{ script: ['./velamen-1a.js', '{sum}'],")),
            "{page}"
        );
        assert!(page.contains(&format!("module: ['./velamen-es-2b_bg.wasm', '{sum}'] }},")));
        assert!(!page.contains("<link"), "{page}");
        let one = folder("one", &["velamen-1a.js", "velamen-1a_bg.wasm"]);
        assert!(!with_start(TRUNKS, &one).unwrap().contains("velamen-es"));
        assert!(with_start("<head></head>", &one).is_err());
        for made in [both, one] {
            std::fs::remove_dir_all(made).unwrap();
        }
    }

    #[test]
    fn a_file_belongs_to_its_language_by_its_name() {
        assert_eq!(of_file("velamen-es-2b.js"), Some("es"));
        assert_eq!(of_file("velamen-1a.js"), None);
        assert_eq!(of_file("app-es-1.css"), None);
    }
}
