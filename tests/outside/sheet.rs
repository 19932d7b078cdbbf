//! Reading sheets of outside values by name.
//!
//! Invariants: every row is checked, whoever added it; a missing sheet fails in the built-in folder and is reported as
//! not run in a folder given from outside; how many rows of which source were checked is printed.

use std::collections::BTreeMap;
use std::path::PathBuf;

/// One row: its line in the file and its cells by column name.
#[derive(Debug)]
pub(crate) struct Row {
    line: u64,
    cells: BTreeMap<String, String>,
}

impl Row {
    /// The text in this column; a sheet without the column is of another form.
    pub(crate) fn text(&self, column: &str) -> &str {
        self.cells
            .get(column)
            .unwrap_or_else(|| panic!("no column {column}"))
            .trim()
    }

    /// The number in this column.
    pub(crate) fn number(&self, column: &str) -> f64 {
        let text = self.text(column);
        text.parse()
            .unwrap_or_else(|_| panic!("line {}: {column} is {text:?}, not a number", self.line))
    }
}

/// Where sheets are read from, and whether that is the built-in folder.
fn folder() -> (PathBuf, bool) {
    match std::env::var_os("OUTSIDE_DIR") {
        Some(given) => (PathBuf::from(given), false),
        None => (velamen_tests::folder().join("outside"), true),
    }
}

/// The rows of a sheet; none when a folder given from outside does not hold it.
pub(crate) fn rows(file: &str) -> Option<Vec<Row>> {
    let (folder, built_in) = folder();
    let path = folder.join(file);
    if !built_in && !path.exists() {
        println!("{file}: NOT RUN, {} does not hold it", folder.display());
        return None;
    }
    let mut reader =
        csv::Reader::from_path(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
    let columns = reader.headers().expect("a header row").clone();
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.unwrap_or_else(|why| panic!("{}: {why}", path.display()));
        let line = record.position().map_or(0, csv::Position::line);
        let cells = columns
            .iter()
            .zip(record.iter())
            .map(|(column, cell)| (column.to_owned(), cell.to_owned()))
            .collect();
        rows.push(Row { line, cells });
    }
    assert!(!built_in || !rows.is_empty(), "{file} is empty");
    Some(rows)
}

/// Holds every row of a sheet against `check`, says how many of which source passed, and fails with all that did not.
pub(crate) fn check_each(file: &str, check: impl Fn(&Row) -> Result<(), String>) {
    check_taken(file, |_| true, check);
}

fn check_taken(
    file: &str,
    takes: impl Fn(&Row) -> bool,
    check: impl Fn(&Row) -> Result<(), String>,
) {
    let Some(mut rows) = rows(file) else { return };
    let all = rows.len();
    rows.retain(takes);
    if rows.len() < all {
        println!("{file}: {} rows not taken", all - rows.len());
    }
    let mut passed: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    let mut failed = Vec::new();
    for row in &rows {
        match check(row) {
            Ok(()) => {
                *passed
                    .entry((row.text("kind"), row.text("source")))
                    .or_default() += 1
            }
            Err(why) => failed.push(format!("line {}: {why} [{}]", row.line, row.text("source"))),
        }
    }
    println!(
        "{file}: {} of {} rows hold",
        rows.len() - failed.len(),
        rows.len()
    );
    for ((kind, source), count) in passed {
        println!("  {count:4} {kind}: {source}");
    }
    assert!(
        failed.is_empty(),
        "{file}: {} rows do not hold\n{}",
        failed.len(),
        failed.join("\n")
    );
}

/// The same for a sheet that may only lie in a folder given from outside; where it does not, that is said. Rows that
/// `takes` passes over speak of what the core does not work out: they count for nothing.
pub(crate) fn check_each_given(
    file: &str,
    takes: impl Fn(&Row) -> bool,
    check: impl Fn(&Row) -> Result<(), String>,
) {
    let (folder, _) = folder();
    if folder.join(file).exists() {
        check_taken(file, takes, check);
    } else {
        println!("{file}: NOT RUN, {} does not hold it", folder.display());
    }
}

/// Whether two numbers differ by no more than `most`.
pub(crate) fn within(ours: f64, theirs: f64, most: f64) -> Result<(), String> {
    if (ours - theirs).abs() <= most {
        Ok(())
    } else {
        Err(format!("{ours} against {theirs}"))
    }
}

/// Whether two numbers agree within a relative tolerance.
pub(crate) fn close(ours: f64, theirs: f64, relative: f64) -> Result<(), String> {
    let scale = theirs.abs().max(f64::MIN_POSITIVE);
    if (ours - theirs).abs() <= relative * scale {
        Ok(())
    } else {
        Err(format!(
            "{ours} against {theirs}, off by {:e}",
            (ours - theirs).abs() / scale
        ))
    }
}
