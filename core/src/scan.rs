//! Reads a line that stands in the very form in which this program writes lines: one pass, nothing read twice.
//!
//! Invariant: what is read so is what the general reader reads of the same bytes. Whatever stands in any other form (more
//! fields, another order, spaces, news of other phones) is left to that reader, and so is every line whose events are not
//! exactly one list at its end: only there is it told what is not a line at all.

use std::str::FromStr;

use chrono::NaiveDate;

use crate::entry::{Header, LineHash, Marks};
use crate::id::Subject;
use crate::time::Stamp;

/// The header of such a line, and the text of its events.
pub(crate) fn header(line: &str) -> Option<(Header, &str)> {
    let mut scan = Scan { rest: line };
    scan.eat("{\"dev\":\"")?;
    let dev = scan.up_to('"')?.parse().ok()?;
    scan.eat(",\"seq\":")?;
    let seq = scan.number()?;
    scan.eat(",\"prev\":")?;
    let prev = LineHash(scan.number()?);
    scan.eat(",\"order\":[")?;
    let ms = scan.number()?;
    scan.eat(",")?;
    let count = scan.number()?;
    scan.eat("],\"at_ms\":")?;
    let at_ms = scan.number()?;
    scan.eat(",\"off_min\":")?;
    let off_min = scan.number()?;
    scan.eat(",\"on\":\"")?;
    let on = day(scan.up_to('"')?)?;
    scan.eat(",\"about\":[")?;
    // As many as there are: a vector that grows takes room for four.
    let named = scan.rest.split_once(']')?.0.split(',').count();
    let mut about: Vec<Subject> = Vec::with_capacity(named);
    while scan.eat("]").is_none() {
        if !about.is_empty() {
            scan.eat(",")?;
        }
        scan.eat("\"")?;
        about.push(scan.up_to('"')?.parse().ok()?);
    }
    scan.eat(",\"needs\":")?;
    let needs = scan.number()?;
    scan.eat(",\"events\":")?;
    let events = scan.rest.strip_suffix('}')?;
    let header = Header {
        dev,
        seq,
        prev,
        order: Stamp { ms, count },
        at_ms,
        off_min,
        on,
        seen: Marks::new(),
        about,
        needs,
    };
    Some((header, events))
}

struct Scan<'a> {
    rest: &'a str,
}

impl<'a> Scan<'a> {
    fn eat(&mut self, text: &str) -> Option<()> {
        self.rest = self.rest.strip_prefix(text)?;
        Some(())
    }

    /// The text before a letter, which is passed over. No name or day holds one that would have to be escaped.
    fn up_to(&mut self, letter: char) -> Option<&'a str> {
        let (text, rest) = self.rest.split_once(letter)?;
        self.rest = rest;
        Some(text)
    }

    /// A whole number in the one form it is written in.
    fn number<T: FromStr>(&mut self) -> Option<T> {
        let minus = usize::from(self.rest.starts_with('-'));
        let digits = self.rest.get(minus..)?;
        let count = digits.bytes().take_while(u8::is_ascii_digit).count();
        let (text, rest) = self.rest.split_at_checked(minus.checked_add(count)?)?;
        if digits.starts_with('0') && (count > 1 || minus > 0) {
            return None;
        }
        self.rest = rest;
        text.parse().ok()
    }
}

/// A day as it is written, `2027-03-11`.
fn day(text: &str) -> Option<NaiveDate> {
    let plain = text.len() == 10
        && text.bytes().enumerate().all(|(at, byte)| match at {
            4 | 7 => byte == b'-',
            _ => byte.is_ascii_digit(),
        });
    let part = |from: usize, to: usize| text.get(from..to)?.parse::<u32>().ok();
    let year = i32::try_from(part(0, 4)?).ok()?;
    plain
        .then(|| NaiveDate::from_ymd_opt(year, part(5, 7)?, part(8, 10)?))
        .flatten()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::read_header;

    const LINE: &str = r#"{"dev":"0000000000007","seq":4,"prev":9,"order":[1000,0],"at_ms":1000,"off_min":-60,"on":"2027-03-11","about":["l0000000000007-3-0","book"],"needs":1,"events":[{"a":"},\"events\":["}]}"#;

    #[test]
    fn a_plain_line_reads_as_the_general_reader_reads_it() {
        let (read, events) = header(LINE).unwrap();
        assert_eq!(Ok(read), read_header(LINE));
        assert_eq!(events, r#"[{"a":"},\"events\":["}]"#);
        let bare = LINE.replace(r#"["l0000000000007-3-0","book"]"#, "[]");
        assert_eq!(Ok(header(&bare).unwrap().0), read_header(&bare));
    }

    #[test]
    fn a_line_changed_at_any_byte_reads_alike_or_not_at_all() {
        for at in 0..LINE.len() {
            for put in ["", "0", "-", "\"", "}", " ", "9", "a", ","] {
                let (Some(before), Some(after)) = (LINE.get(..at), LINE.get(at + 1..)) else {
                    continue;
                };
                let changed = format!("{before}{put}{after}");
                if let (Some((read, _)), Ok(known)) = (header(&changed), read_header(&changed)) {
                    assert_eq!(read, known, "{changed}");
                }
            }
        }
    }

    #[test]
    fn other_forms_are_left_to_the_general_reader() {
        for other in [
            LINE.replace("\"seq\":4", "\"seq\": 4"),
            LINE.replace("\"seq\":4", "\"seq\":04"),
            LINE.replace("\"seq\":4", "\"seq\":4294967296"),
            LINE.replace("-60", "-0"),
            LINE.replace("2027-03-11", "2027-3-11"),
            LINE.replace("2027-03-11", "+027-03-11"),
            LINE.replace("2027-03-11", "2027-02-30"),
            LINE.replace(",\"about\"", ",\"seen\":{},\"about\""),
            LINE.replace(",\"needs\"", ",\"more\":1,\"needs\""),
            LINE.replace("\"book\"]", "\"book\",]"),
        ] {
            assert_eq!(header(&other), None, "{other}");
        }
    }
}
