//! The service worker of a build: its source from `assets/`, filled with the list of everything the build is made of.
//!
//! Each file carries the SHA-256 of its own bytes, because trunk takes the hash in a file's name before wasm-bindgen
//! and wasm-opt have run: two builds may give one name to different bytes. The build's own name is the hash of the
//! filled source, so that another list, another policy or another worker is another build with a cache of its own.

use std::path::Path;

use crate::{Outcome, digest, dist, languages, server};

const SOURCE: &str = include_str!("../../assets/service-worker.js");

/// The worker's name in dist/: never hashed, because a browser asks for it by this name for ever.
pub(crate) const WORKER: &str = "service-worker.js";

/// What a host reads, and the worker itself.
const LEFT_OUT: [&str; 2] = [dist::HEADERS, WORKER];

const PAGE: &str = "index.html";

/// Letters of a build's name: enough that no two builds of one host meet.
const BUILD_LETTERS: usize = 16;

/// Writes the service worker of a finished folder; a page that has changed since is listed anew.
/// Errors: the page has no policy, a file cannot be read, or its name would need escaping.
pub(crate) fn write(folder: &Path) -> Outcome {
    let page = dist::read(&folder.join(PAGE))?;
    let policy = dist::policy_of(&page)
        .ok_or("index.html carries no content-security policy: build it with cargo xtask build.")?;
    let mut paths = Vec::new();
    walk(folder, "", &mut paths)?;
    paths.sort_unstable();
    let rows = paths
        .iter()
        .filter(|path| !LEFT_OUT.contains(&path.as_str()))
        .map(|path| row(folder, path))
        .collect::<Outcome<Vec<String>>>()?;
    dist::write(
        &folder.join(WORKER),
        &filled(&dist::whole_policy(policy), &rows.join("\n"))?,
    )
}

/// One line of the list. The page stands under the folder's own address: some hosts answer its file name with a
/// redirect.
fn row(folder: &Path, path: &str) -> Outcome<String> {
    let file = folder.join(path);
    let bytes = std::fs::read(&file)
        .map_err(|error| format!("{} cannot be read: {error}.", file.display()))?;
    let address = if path == PAGE { "./" } else { path };
    let (hash, kind) = (digest::hex(&bytes), server::kind(&file));
    let language = languages::of_file(path).unwrap_or_default();
    Ok(format!(
        "  [\"{address}\", \"{hash}\", \"{kind}\", \"{language}\"],"
    ))
}

fn filled(policy: &str, rows: &str) -> Outcome<String> {
    if policy.contains(['"', '\\', '\n']) {
        return Err("The policy cannot stand in a script as it is.".into());
    }
    let listed = replaced(&replaced(SOURCE, "@POLICY@", policy)?, "@FILES@", rows)?;
    let hash = digest::hex(listed.as_bytes());
    let build = hash.get(..BUILD_LETTERS).unwrap_or(&hash);
    replaced(&listed, "@BUILD@", build)
}

fn replaced(text: &str, mark: &str, by: &str) -> Outcome<String> {
    if text.matches(mark).count() == 1 {
        Ok(text.replace(mark, by))
    } else {
        Err(format!(
            "assets/{WORKER} holds {mark} not once but {} times.",
            text.matches(mark).count()
        ))
    }
}

fn walk(root: &Path, inner: &str, found: &mut Vec<String>) -> Outcome {
    let folder = root.join(inner);
    let trouble = |error| format!("{} cannot be read: {error}.", folder.display());
    for entry in std::fs::read_dir(&folder).map_err(trouble)? {
        let entry = entry.map_err(trouble)?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let plain = |letter: char| letter.is_ascii_alphanumeric() || "._-".contains(letter);
        if !name.chars().all(plain) {
            return Err(format!(
                "{name} cannot be listed: plain letters, digits, dot, dash and underscore only."
            ));
        }
        let path = if inner.is_empty() {
            name
        } else {
            format!("{inner}/{name}")
        };
        if entry.path().is_dir() {
            walk(root, &path, found)?;
        } else {
            found.push(path);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::*;

    struct Folder(PathBuf);

    impl Folder {
        fn new(name: &str) -> Self {
            let path =
                std::env::temp_dir().join(format!("velamen-list-{name}-{}", std::process::id()));
            std::fs::create_dir_all(path.join("icons")).unwrap();
            let page =
                "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'\">";
            std::fs::write(path.join(PAGE), page).unwrap();
            std::fs::write(path.join("icons/a.png"), "abc").unwrap();
            std::fs::write(path.join(dist::HEADERS), "/*").unwrap();
            Self(path)
        }

        fn worker(&self) -> String {
            write(&self.0).unwrap();
            std::fs::read_to_string(self.0.join(WORKER)).unwrap()
        }
    }

    impl Drop for Folder {
        fn drop(&mut self) {
            std::fs::remove_dir_all(&self.0).unwrap();
        }
    }

    #[test]
    fn every_file_is_listed_with_the_hash_of_its_bytes_and_its_type() {
        let folder = Folder::new("rows");
        // Twice: the worker of before is not a part of what it lists.
        folder.worker();
        let worker = folder.worker();
        let abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert!(
            worker.contains(&format!(
                "  [\"icons/a.png\", \"{abc}\", \"image/png\", \"\"],\n"
            )),
            "{worker}"
        );
        assert!(worker.contains("  [\"./\", \""), "{worker}");
        assert_eq!(worker.matches("\n  [\"").count(), 2, "{worker}");
        assert!(worker.contains("const POLICY = \"default-src 'none'; frame-ancestors 'none'\";"));
        assert!(!worker.contains('@'), "{worker}");
    }

    #[test]
    fn the_same_bytes_are_the_same_build_and_others_are_not() {
        let folder = Folder::new("build");
        let first = folder.worker();
        assert_eq!(folder.worker(), first);
        std::fs::write(folder.0.join("icons/a.png"), "abd").unwrap();
        let line = |worker: &str| {
            let found = worker.lines().find(|line| line.starts_with("const BUILD"));
            found.unwrap().to_owned()
        };
        assert_ne!(line(&folder.worker()), line(&first));
    }

    #[test]
    fn a_folder_that_is_not_finished_is_not_listed() {
        let folder = Folder::new("bare");
        std::fs::write(folder.0.join(PAGE), "<p>book</p>").unwrap();
        assert!(write(&folder.0).unwrap_err().contains("policy"));
        let folder = Folder::new("name");
        std::fs::write(folder.0.join("a\"b.js"), "").unwrap();
        assert!(write(&folder.0).unwrap_err().contains("a\"b.js"));
    }
}
