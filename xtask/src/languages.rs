//! The page in each language: one build of the app a language, and the lines in index.html that start the right one.
//!
//! Trunk links the first language and writes how it is started; the further ones are linked as trunk links. Each is cut
//! into its parts and laid into the folder under names of its own, and trunk's own start is replaced by
//! `assets/start.js`, which knows them all.

use std::fs::File;
use std::path::{Path, PathBuf};
use std::time::Duration;

use crate::folders::Folders;
use crate::options::Pages;
use crate::parts::Weight;
use crate::{Outcome, digest, parts, run};

/// What trunk builds.
const FIRST: &str = "en";

/// Each is a feature of the app.
const FURTHER: [&str; 1] = ["es"];

const SOURCE: &str = include_str!("../../assets/start.js");

const LIMIT: Duration = Duration::from_secs(60 * 60);

/// Lays the page in every language into a folder trunk has just written: the first from what trunk had linked, the
/// further ones, where they are asked for, from builds of their own.
pub(crate) fn build(folders: &Folders, log: Option<&File>, pages: Pages) -> Outcome<Weight> {
    let weight = parts::lay(folders, log, FIRST)?;
    if pages == Pages::All {
        for language in FURTHER {
            link(folders, log, language)?;
            parts::lay(folders, log, language)?;
        }
    }
    Ok(weight)
}

fn link(folders: &Folders, log: Option<&File>, language: &str) -> Outcome {
    step(
        folders
            .command("cargo")
            .args(["build", "--locked", "--offline", "--package"])
            .args(["velamen-app", "--bin", "velamen", "--features"])
            .arg(format!("{},{language}", parts::FEATURE))
            .args(["--target", "wasm32-unknown-unknown"])
            .args(["--profile", "wasm-release"]),
        log,
    )
}

fn step(command: &mut std::process::Command, log: Option<&File>) -> Outcome {
    match log {
        None => run::shown(command),
        Some(log) if run::logged(command, log, LIMIT)? => Ok(()),
        Some(_) => Err("The page in a further language could not be built.".into()),
    }
}

/// The language a file of a build belongs to alone; none for what every language needs, and the first comes with these.
pub(crate) fn of_file(name: &str) -> Option<&'static str> {
    FURTHER.into_iter().find(|language| belongs(name, language))
}

fn belongs(name: &str, language: &str) -> bool {
    name.starts_with(&format!("velamen-{language}-"))
}

fn files_of(folder: &Path, language: &str) -> Outcome<Vec<PathBuf>> {
    let entries = std::fs::read_dir(folder)
        .map_err(|error| format!("{} cannot be read: {error}.", folder.display()))?;
    Ok(entries
        .flatten()
        .filter(|entry| belongs(&entry.file_name().to_string_lossy(), language))
        .map(|entry| entry.path())
        .collect())
}

/// Trunk's page with the start that knows every language. Trunk's own uncut module goes. Errors: the page does not
/// start as trunk writes it, or the first language was not laid beside it.
pub(crate) fn with_start(page: &str, folder: &Path) -> Outcome<String> {
    let (before, rest) = page
        .split_once("<script type=\"module\">")
        .ok_or("index.html has no script that starts the app.")?;
    let (own, after) = rest
        .split_once("</script>")
        .ok_or("index.html has a script without an end.")?;
    let script = between(own, "from '", "'")?;
    let module = between(own, "module_or_path: '", "'")?;
    let mut pages = Vec::new();
    for language in [FIRST].into_iter().chain(FURTHER) {
        pages.extend(row(language, folder)?);
    }
    if pages.is_empty() {
        return Err("The page was built in no language.".into());
    }
    if SOURCE.matches("@PAGES@").count() != 1 {
        return Err("assets/start.js holds @PAGES@ not once.".into());
    }
    let start = SOURCE.replace("@PAGES@", &format!("{{\n{}\n}}", pages.join("\n")));
    let after = without_links(after, script)?;
    for uncut in [script, module] {
        let path = folder.join(uncut.trim_start_matches("./"));
        std::fs::remove_file(&path)
            .map_err(|error| format!("{} cannot be removed: {error}.", path.display()))?;
    }
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

/// How the page starts in a language; nothing where it was not built in it.
fn row(language: &str, folder: &Path) -> Outcome<Option<String>> {
    let files = files_of(folder, language)?;
    let named = |ending: &str| -> Outcome<Option<String>> {
        let found = files.iter().find_map(|path| {
            let name = path.file_name()?.to_str()?;
            let stem = name.strip_suffix(ending)?;
            (!stem.ends_with("-parts")).then_some((path, name))
        });
        let Some((path, name)) = found else {
            return Ok(None);
        };
        let bytes = std::fs::read(path)
            .map_err(|error| format!("{} cannot be read: {error}.", path.display()))?;
        Ok(Some(format!(
            "['./{name}', '{}']",
            digest::integrity(&bytes)
        )))
    };
    let (script, loader) = (named(".js")?, named("-parts.js")?);
    let (module, rest) = (named("_bg.wasm")?, named(parts::REST)?);
    let files = script.zip(loader).zip(module.zip(rest));
    Ok(files.map(|((script, loader), (module, rest))| {
        format!(
            "  {language}: {{ script: {script}, parts: {loader}, module: {module}, rest: {rest} }},"
        )
    }))
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

    const UNCUT: [&str; 2] = ["velamen-1a.js", "velamen-1a_bg.wasm"];
    const ENGLISH: [&str; 4] = [
        "velamen-en-2b.js",
        "velamen-en-2b-parts.js",
        "velamen-en-2b_bg.wasm",
        "velamen-en-2b-split_rest.wasm",
    ];

    #[test]
    fn the_page_starts_what_there_is_and_loads_nothing_else_ahead() {
        let spanish = ENGLISH.map(|name| name.replace("-en-", "-es-"));
        let files: Vec<&str> = UNCUT
            .into_iter()
            .chain(ENGLISH)
            .chain(spanish.iter().map(String::as_str))
            .collect();
        let both = folder("both", &files);
        let page = with_start(TRUNKS, &both).unwrap();
        // printf abc | openssl dgst -sha384 -binary | base64
        let sum = "sha384-ywB1P0WjXou1oD1pmsZQBycsMqsO3tFjGotgWkP/W+2AhgcroefMI1i67KE0yCWn";
        assert!(
            page.contains(&format!("en: {{ script: ['./velamen-en-2b.js', '{sum}'], parts: ['./velamen-en-2b-parts.js', '{sum}'],")),
            "{page}"
        );
        assert!(page.contains(&format!(
            "rest: ['./velamen-es-2b-split_rest.wasm', '{sum}'] }},"
        )));
        assert!(!page.contains("<link"), "{page}");
        assert!(
            !both.join("velamen-1a_bg.wasm").exists(),
            "the uncut module is laid out beside its parts"
        );
        let one = folder("one", &[UNCUT.as_slice(), &ENGLISH].concat());
        assert!(!with_start(TRUNKS, &one).unwrap().contains("velamen-es"));
        assert!(with_start("<head></head>", &one).is_err());
        let none = folder("none", &UNCUT);
        assert!(with_start(TRUNKS, &none).is_err());
        for made in [both, one, none] {
            std::fs::remove_dir_all(made).unwrap();
        }
    }

    #[test]
    fn a_file_belongs_to_its_language_by_its_name() {
        assert_eq!(of_file("velamen-es-2b.js"), Some("es"));
        assert_eq!(of_file("velamen-en-1a.js"), None);
        assert_eq!(of_file("app-es-1.css"), None);
    }
}
