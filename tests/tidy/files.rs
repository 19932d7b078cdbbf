//! The text files of the repository: those git tracks and those it would.

use std::path::Path;
use std::process::Command;

/// A file by its path from the top, with `/` between folders.
#[derive(Debug)]
pub(crate) struct File {
    pub(crate) path: String,
    pub(crate) text: String,
}

/// Folders that hold what tools make, where git is not there to say so.
const MADE: [&str; 5] = [".git", "target", "dist", "node_modules", "test-output"];

/// Every file that is text, by path.
pub(crate) fn all() -> Vec<File> {
    let root = velamen_tests::folder().join("..");
    let mut paths = listed(&root).unwrap_or_else(|| {
        let mut found = Vec::new();
        walk(&root, "", &mut found);
        found
    });
    paths.sort_unstable();
    paths.dedup();
    let read = |path: String| {
        let text = std::fs::read_to_string(root.join(&path)).ok()?;
        Some(File { path, text })
    };
    paths.into_iter().filter_map(read).collect()
}

fn listed(root: &Path) -> Option<Vec<String>> {
    let mut git = Command::new("git");
    git.args([
        "ls-files",
        "-z",
        "--cached",
        "--others",
        "--exclude-standard",
    ])
    .current_dir(root);
    let output = git.output().ok().filter(|output| output.status.success())?;
    let text = String::from_utf8(output.stdout).ok()?;
    let paths: Vec<String> = text
        .split('\0')
        .filter(|path| !path.is_empty())
        .map(str::to_owned)
        .collect();
    (!paths.is_empty()).then_some(paths)
}

fn walk(root: &Path, folder: &str, found: &mut Vec<String>) {
    for entry in std::fs::read_dir(root.join(folder))
        .into_iter()
        .flatten()
        .flatten()
    {
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = if folder.is_empty() {
            name.clone()
        } else {
            format!("{folder}/{name}")
        };
        match entry.file_type() {
            Ok(kind) if kind.is_dir() && !MADE.contains(&name.as_str()) => walk(root, &path, found),
            Ok(kind) if kind.is_file() => found.push(path),
            _ => {}
        }
    }
}

#[test]
fn the_walk_finds_what_git_lists() {
    let root = velamen_tests::folder().join("..");
    let mut walked = Vec::new();
    walk(&root, "", &mut walked);
    assert!(
        walked.iter().any(|path| path == "tests/tidy/files.rs"),
        "{walked:?}"
    );
    assert!(
        walked
            .iter()
            .all(|path| !path.contains("node_modules") && !path.starts_with("target/"))
    );
}
