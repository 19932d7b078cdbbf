//! Child processes: shown on the terminal while tools are set up, kept in a file while checks run.

use std::collections::BTreeMap;
use std::fs::File;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use crate::Outcome;

/// Runs to the end with the terminal as its output. Errors: it could not start, or it failed.
pub(crate) fn shown(command: &mut Command) -> Outcome {
    let name = name(command);
    let status = command
        .status()
        .map_err(|error| format!("{name} could not be started: {error}."))?;
    if status.success() {
        Ok(())
    } else {
        Err(format!("{name} stopped with {status}."))
    }
}

/// What a child prints when asked for something short, or nothing where it is absent or fails.
pub(crate) fn answer(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).output().ok()?;
    output
        .status
        .success()
        .then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

/// Runs to the end with both outputs added to `log`; true where it succeeded.
///
/// Errors: it could not start, or it ran longer than `limit` and was ended with all it had started.
pub(crate) fn logged(command: &mut Command, log: &File, limit: Duration) -> Outcome<bool> {
    let name = name(command);
    let trouble = |error: std::io::Error| format!("{name} could not be started: {error}.");
    let mut child = command
        .stdin(Stdio::null())
        .stdout(log.try_clone().map_err(trouble)?)
        .stderr(log.try_clone().map_err(trouble)?)
        .spawn()
        .map_err(trouble)?;
    let began = Instant::now();
    loop {
        if let Some(status) = child
            .try_wait()
            .map_err(|error| format!("{name} was lost: {error}."))?
        {
            return Ok(status.success());
        }
        if began.elapsed() > limit {
            end(&mut child);
            return Err(format!(
                "{name} was ended after {} minutes.",
                limit.as_secs() / 60
            ));
        }
        std::thread::sleep(Duration::from_millis(50));
    }
}

fn name(command: &Command) -> String {
    let words: Vec<_> = std::iter::once(command.get_program())
        .chain(command.get_args().take(3))
        .collect();
    words
        .iter()
        .map(|word| word.to_string_lossy())
        .collect::<Vec<_>>()
        .join(" ")
}

/// Ends a child and what it started, so that no browser or test stays behind.
fn end(child: &mut Child) {
    let mut doomed = descendants(child.id(), &parents());
    doomed.push(child.id());
    let ids: Vec<String> = doomed.iter().map(u32::to_string).collect();
    let _ = Command::new("kill")
        .arg("-KILL")
        .args(ids)
        .stderr(Stdio::null())
        .status();
    let _ = child.kill();
    let _ = child.wait();
}

/// Parent of every running process, by its number; empty where the system has no /proc.
fn parents() -> BTreeMap<u32, u32> {
    let mut parents = BTreeMap::new();
    for entry in std::fs::read_dir("/proc").into_iter().flatten().flatten() {
        let Ok(id) = entry.file_name().to_string_lossy().parse::<u32>() else {
            continue;
        };
        let Ok(stat) = std::fs::read_to_string(entry.path().join("stat")) else {
            continue;
        };
        if let Some(parent) = parent_in(&stat) {
            parents.insert(id, parent);
        }
    }
    parents
}

/// The name in a stat line stands in brackets and may hold spaces, so the line is read from its end.
fn parent_in(stat: &str) -> Option<u32> {
    stat.rsplit_once(") ")?.1.split(' ').nth(1)?.parse().ok()
}

fn descendants(of: u32, parents: &BTreeMap<u32, u32>) -> Vec<u32> {
    let mut found = Vec::new();
    let mut open = vec![of];
    while let Some(parent) = open.pop() {
        for (&id, _) in parents.iter().filter(|&(id, of)| *of == parent && id != of) {
            found.push(id);
            open.push(id);
        }
    }
    found
}

/// The last `count` lines of a file, each marked so that none can be read as a line of our own.
pub(crate) fn tail(path: &Path, count: usize) -> String {
    let bytes = std::fs::read(path).unwrap_or_default();
    let text = String::from_utf8_lossy(&bytes);
    let lines: Vec<&str> = text.lines().collect();
    let from = lines.len().saturating_sub(count);
    lines
        .iter()
        .skip(from)
        .map(|line| format!("  | {line}\n"))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stat_line_gives_the_parent_even_where_the_name_has_brackets() {
        assert_eq!(parent_in("41 (a b) c) S 7 41 41 0"), Some(7));
        assert_eq!(parent_in("nonsense"), None);
    }

    #[test]
    fn descendants_are_found_through_generations() {
        let parents = BTreeMap::from([(2, 1), (3, 2), (4, 3), (5, 1), (6, 6)]);
        let mut found = descendants(2, &parents);
        found.sort_unstable();
        assert_eq!(found, [3, 4]);
    }

    #[test]
    fn a_child_past_its_limit_is_ended_with_its_own_children() {
        let folder = std::env::temp_dir().join(format!("velamen-run-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let log = File::create(folder.join("log.txt")).unwrap();
        let mut sleeper = Command::new("sh");
        sleeper.args(["-c", "sleep 3600 & echo $!; wait"]);
        let outcome = logged(&mut sleeper, &log, Duration::from_millis(300));
        assert!(outcome.unwrap_err().contains("was ended"));
        let grandchild: u32 = std::fs::read_to_string(folder.join("log.txt"))
            .unwrap()
            .trim()
            .parse()
            .unwrap();
        let stat = format!("/proc/{grandchild}/stat");
        let alive = || std::fs::read_to_string(&stat).is_ok_and(|line| !line.contains(") Z "));
        // A killed process may take a moment to go; this one would otherwise sleep for an hour.
        let began = Instant::now();
        while alive() && began.elapsed() < Duration::from_secs(60) {
            std::thread::sleep(Duration::from_millis(10));
        }
        assert!(!alive(), "the sleeping grandchild is still there");
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn a_tail_is_marked_and_short() {
        let path = std::env::temp_dir().join(format!("velamen-tail-{}.txt", std::process::id()));
        std::fs::write(&path, "one\ntwo\n3 passed, 0 failed\n").unwrap();
        assert_eq!(tail(&path, 2), "  | two\n  | 3 passed, 0 failed\n");
        std::fs::remove_file(path).unwrap();
    }
}
