//! A table from elsewhere as rows of cells, whatever stands between them: a logger's file, a stock list.
//!
//! After RFC 4180, with semicolon and tab beside the comma. Total: any text gives rows.

/// Bytes of a file that is read: a logger's year of ten minutes.
pub const FILE_BYTES_MAX: u32 = 8 << 20;
/// Rows that are read; more are said to be too many.
pub(crate) const ROWS_MAX: usize = 200_000;

/// The rows of a file, each with its line number counted from 1.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cells {
    pub rows: Vec<(usize, Vec<String>)>,
    /// Rows beyond the most that are read.
    pub too_many: bool,
}

/// The text of a file: UTF-8, UTF-16 with its mark, else the one-byte letters older spreadsheets write (windows-1252, by
/// the index of the Encoding Standard). `None` where it is no text at all.
#[must_use]
pub fn decoded(bytes: &[u8]) -> Option<String> {
    let wide = |rest: &[u8], unit: fn([u8; 2]) -> u16| {
        let units = rest.chunks_exact(2).map(|pair| match pair {
            [a, b] => unit([*a, *b]),
            _ => 0,
        });
        let text: String = char::decode_utf16(units)
            .map(|sign| sign.unwrap_or(char::REPLACEMENT_CHARACTER))
            .collect();
        Some(text)
    };
    match bytes {
        [0xFF, 0xFE, rest @ ..] => return wide(rest, u16::from_le_bytes),
        [0xFE, 0xFF, rest @ ..] => return wide(rest, u16::from_be_bytes),
        _ if bytes.contains(&0) => return None,
        _ => {}
    }
    if let Ok(text) = std::str::from_utf8(bytes) {
        return Some(text.to_owned());
    }
    let high = "€\u{81}‚ƒ„…†‡ˆ‰Š‹Œ\u{8D}Ž\u{8F}\u{90}‘’“”•–—˜™š›œ\u{9D}žŸ";
    let sign = |byte: &u8| match byte {
        0x80..=0x9F => high
            .chars()
            .nth(usize::from(byte - 0x80))
            .unwrap_or(char::REPLACEMENT_CHARACTER),
        byte => char::from(*byte),
    };
    Some(bytes.iter().map(sign).collect())
}

/// The sign between cells: the one that splits the most lines alike.
fn between(text: &str) -> char {
    let lines: Vec<&str> = text.lines().take(40).collect();
    let score = |sign: char| {
        let counts: Vec<usize> = lines
            .iter()
            .map(|line| line.matches(sign).count())
            .collect();
        let most = counts.iter().copied().max().unwrap_or(0);
        let alike = counts.iter().filter(|count| **count == most).count();
        (if most == 0 { 0 } else { alike }, most)
    };
    // A decimal comma beside semicolons must not win: the comma is asked last.
    let mut best = (',', score(','));
    for sign in ['\t', ';'] {
        let found = score(sign);
        if found.1 > 0 && found.0 >= best.1.0 {
            best = (sign, found);
        }
    }
    best.0
}

/// Reads the cells of a text.
#[must_use]
pub fn cells(text: &str) -> Cells {
    let text = text.trim_start_matches('\u{feff}');
    let between = between(text);
    let mut cells = Cells::default();
    let mut row: Vec<String> = Vec::new();
    let mut cell = String::new();
    let (mut line, mut began) = (1, 1);
    let mut quoted = false;
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        if quoted {
            match sign {
                '"' if signs.peek() == Some(&'"') => {
                    signs.next();
                    cell.push('"');
                }
                '"' => quoted = false,
                '\r' => {}
                _ => {
                    line += usize::from(sign == '\n');
                    cell.push(sign);
                }
            }
            continue;
        }
        match sign {
            '"' if cell.trim().is_empty() => {
                cell.clear();
                quoted = true;
            }
            '\r' => {}
            '\n' => {
                line += 1;
                row.push(std::mem::take(&mut cell));
                if !end_row(&mut cells, began, &mut row) {
                    return cells;
                }
                began = line;
            }
            _ if sign == between => row.push(std::mem::take(&mut cell)),
            _ => cell.push(sign),
        }
    }
    row.push(cell);
    end_row(&mut cells, began, &mut row);
    cells
}

/// Keeps a row that says something; `false` at the most there may be.
fn end_row(cells: &mut Cells, line: usize, row: &mut Vec<String>) -> bool {
    let row: Vec<String> = std::mem::take(row)
        .into_iter()
        .map(|cell| cell.trim().to_owned())
        .collect();
    if row.iter().all(String::is_empty) {
        return true;
    }
    if cells.rows.len() >= ROWS_MAX {
        cells.too_many = true;
        return false;
    }
    cells.rows.push((line, row));
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_of_old_and_new_spreadsheets_are_read() {
        assert_eq!(
            decoded("Pépinière".as_bytes()).as_deref(),
            Some("Pépinière")
        );
        assert_eq!(
            decoded(b"P\xE9pini\xE8re \x80 5").as_deref(),
            Some("Pépinière € 5")
        );
        let wide: Vec<u8> = [0xFF, 0xFE]
            .into_iter()
            .chain("Äste".encode_utf16().flat_map(u16::to_le_bytes))
            .collect();
        assert_eq!(decoded(&wide).as_deref(), Some("Äste"));
        assert_eq!(decoded(b"PK\x03\x04\x00\x00"), None);
        assert_eq!(decoded(b"").as_deref(), Some(""));
    }

    #[test]
    fn a_cell_of_two_lines_holds_no_return() {
        let table = cells("a,b\r\n\"one\r\ntwo\",3\r\n");
        assert_eq!(
            table.rows[1],
            (2, vec!["one\ntwo".to_owned(), "3".to_owned()])
        );
    }

    fn rows(text: &str) -> Vec<Vec<String>> {
        cells(text).rows.into_iter().map(|(_, row)| row).collect()
    }

    #[test]
    fn comma_semicolon_and_tab_stand_between_cells() {
        for text in ["a,b\n1,2\n", "a;b\r\n1;2", "a\tb\n1\t2\n\n"] {
            assert_eq!(rows(text), [["a", "b"], ["1", "2"]], "{text:?}");
        }
    }

    #[test]
    fn a_decimal_comma_beside_semicolons_stays_a_decimal_comma() {
        assert_eq!(
            rows("when;warm\n2026-10-05;9,5\n"),
            [["when", "warm"], ["2026-10-05", "9,5"]]
        );
    }

    #[test]
    fn quotes_hold_commas_lines_and_quotes() {
        assert_eq!(
            rows("a,b\n\"x, \"\"y\"\"\nz\",2\n"),
            [["a", "b"], ["x, \"y\"\nz", "2"]]
        );
        let lines: Vec<usize> = cells("a,b\n\"x\nz\",2\n3,4")
            .rows
            .iter()
            .map(|row| row.0)
            .collect();
        assert_eq!(lines, [1, 2, 4]);
    }

    #[test]
    fn any_text_gives_rows() {
        assert_eq!(rows(""), Vec::<Vec<String>>::new());
        assert_eq!(rows("\u{feff}a\n"), [["a"]]);
        assert_eq!(rows("\"never ends, x\n"), [["never ends, x"]]);
    }
}
