//! The dense form of a line in a file: what follows from the line before it and from its own events is left out.
//!
//! A line is `[ms, "about", rest, events]`: milliseconds since the line before; what it is about, as letters with the
//! place of each thing among those its events name (`"l0 c1"`); what differs from the line before, or 0; the events as
//! they stand. Number and hash of the line before are counted on. Invariant: a line is written so only if exactly its
//! bytes come back; every other one (the first of a phone, one after a gap, one of an unknown form) stands as it is.
//! Nothing here reads an event, so lines of newer versions are as dense.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::entry::{Header, LineDigest, LineHash, Marks, read_header};
use crate::id::Subject;
use crate::time::Stamp;

/// What a line says otherwise than the one before it.
#[derive(Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Rest {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    order: Option<Stamp>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    off_min: Option<i16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    on: Option<NaiveDate>,
    #[serde(default, skip_serializing_if = "Marks::is_empty")]
    seen: Marks,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    needs: Option<u16>,
}

/// Goes through the lines of a file in their order, writing or reading.
#[derive(Debug, Default)]
pub(super) struct Dense {
    /// The line before, and its hash.
    before: Option<(Header, LineHash)>,
    digest: LineDigest,
}

/// What stands between the header of a line and its events.
const EVENTS: &str = ",\"events\":";
/// A header takes about so much: a line has its room from the first.
const HEADER_BYTES: usize = 400;
/// Letters of a phone's name, and the least a thing's name has after it: `-1-0`.
const DEV_LETTERS: usize = 13;
const THING_LEAST: usize = DEV_LETTERS + 4;

impl Dense {
    /// A line as it stands in the file.
    pub(super) fn line(&mut self, line: &str) -> String {
        let header = read_header(line).ok();
        let dense = header
            .as_ref()
            .and_then(|header| self.pack(header, line))
            .filter(|text| self.rebuilt(text).is_some_and(|(_, whole)| whole == line));
        self.follow(header, line);
        dense.unwrap_or_else(|| line.to_owned())
    }

    /// The line gone through last, where it is one, with its hash.
    pub(super) fn before(&self) -> Option<&(Header, LineHash)> {
        self.before.as_ref()
    }

    /// The line that stands so in the file; `None` where nothing can stand so.
    pub(super) fn whole(&mut self, text: &str) -> Option<String> {
        if !text.starts_with('[') {
            self.follow(read_header(text).ok(), text);
            return Some(text.to_owned());
        }
        let (header, line) = self.rebuilt(text)?;
        self.follow(Some(header), &line);
        Some(line)
    }

    /// Its digest, whatever it is.
    pub(super) const fn digest(&self) -> &LineDigest {
        &self.digest
    }

    fn follow(&mut self, header: Option<Header>, line: &str) {
        self.digest = LineDigest::of(line);
        self.before = header.map(|header| (header, self.digest.hash()));
    }

    fn pack(&self, header: &Header, line: &str) -> Option<String> {
        let (before, hash) = self.before.as_ref()?;
        let follows = before.dev == header.dev && header.prev == *hash;
        if !follows || before.seq.checked_add(1) != Some(header.seq) {
            return None;
        }
        let (_, events) = line.split_once(EVENTS)?;
        let events = events.strip_suffix('}')?;
        let named = things(events);
        let about: Vec<String> = header
            .about
            .iter()
            .map(|subject| {
                let text = subject.to_string();
                let short = text.get(..1).zip(text.get(1..)).and_then(|(letter, id)| {
                    let at = named.iter().position(|one| *one == id)?;
                    Some(format!("{letter}{at}"))
                });
                short.unwrap_or(text)
            })
            .collect();
        let rest = Rest {
            order: (header.order != implied(header.at_ms)).then_some(header.order),
            off_min: (header.off_min != before.off_min).then_some(header.off_min),
            on: (header.on != before.on).then_some(header.on),
            seen: header.seen.clone(),
            needs: (header.needs != before.needs).then_some(header.needs),
        };
        let rest = if rest == Rest::default() {
            "0".to_owned()
        } else {
            serde_json::to_string(&rest).ok()?
        };
        let ms = header.at_ms.checked_sub(before.at_ms)?;
        Some(format!("[{ms},\"{}\",{rest},{events}]", about.join(" ")))
    }

    fn rebuilt(&self, text: &str) -> Option<(Header, String)> {
        let (before, hash) = self.before.as_ref()?;
        let inside = text.strip_prefix('[')?.strip_suffix(']')?;
        let (ms, inside) = inside.split_once(",\"")?;
        let (about, inside) = inside.split_once("\",")?;
        let (rest, events) = match inside.strip_prefix("0,") {
            Some(events) => (Rest::default(), events),
            None => {
                let mut read = serde_json::Deserializer::from_str(inside).into_iter::<Rest>();
                let rest = read.next()?.ok()?;
                (rest, inside.get(read.byte_offset()..)?.strip_prefix(',')?)
            }
        };
        let named = things(events);
        let about: Option<Vec<_>> = about
            .split_terminator(' ')
            .map(|short| {
                let at = short
                    .get(1..)
                    .and_then(|digits| digits.parse::<usize>().ok());
                match (at.and_then(|at| named.get(at)), short.chars().next()) {
                    (Some(id), Some(letter)) => Subject::of_letter(letter, id).ok(),
                    _ => short.parse().ok(),
                }
            })
            .collect();
        let at_ms = before.at_ms.checked_add(ms.parse().ok()?)?;
        let header = Header {
            dev: before.dev,
            seq: before.seq.checked_add(1)?,
            prev: *hash,
            order: rest.order.unwrap_or(implied(at_ms)),
            at_ms,
            off_min: rest.off_min.unwrap_or(before.off_min),
            on: rest.on.unwrap_or(before.on),
            seen: rest.seen,
            about: about?,
            needs: rest.needs.unwrap_or(before.needs),
        };
        let mut line = Vec::with_capacity(events.len().saturating_add(HEADER_BYTES));
        serde_json::to_writer(&mut line, &header).ok()?;
        line.pop();
        line.extend_from_slice(EVENTS.as_bytes());
        line.extend_from_slice(events.as_bytes());
        line.push(b'}');
        Some((header, String::from_utf8(line).ok()?))
    }
}

/// The order of most entries: the phone's own clock, and nothing else in that millisecond.
fn implied(at_ms: i64) -> Stamp {
    Stamp {
        ms: at_ms,
        count: 0,
    }
}

/// Every text that reads as the name of a thing, in the order they are first named.
fn things(events: &str) -> Vec<&str> {
    let mut named: Vec<&str> = Vec::new();
    let mut from = 0;
    let quotes = events.bytes().enumerate().filter(|(_, byte)| *byte == b'"');
    for (quote, _) in quotes {
        let text = events.get(from..quote).unwrap_or_default();
        from = quote.saturating_add(1);
        // Most texts are told by one letter.
        if text.len() < THING_LEAST || text.as_bytes().get(DEV_LETTERS) != Some(&b'-') {
            continue;
        }
        let mut parts = text.split('-');
        let is_thing = parts.next().is_some_and(|dev| dev.len() == DEV_LETTERS)
            && parts
                .by_ref()
                .take(2)
                .filter(|part| is_number(part))
                .count()
                == 2
            && parts.next().is_none();
        if is_thing && !named.contains(&text) {
            named.push(text);
        }
    }
    named
}

fn is_number(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    const FIRST: &str = r#"{"dev":"0000000000007","seq":4,"prev":9,"order":[1000,0],"at_ms":1000,"off_min":60,"on":"2027-03-11","about":["l0000000000007-3-0"],"needs":1,"events":[{"a":1}]}"#;

    fn next(seq: u32, prev: LineHash, tail: &str) -> String {
        format!(
            r#"{{"dev":"0000000000007","seq":{seq},"prev":{},"order":[2500,0],"at_ms":2500,"off_min":60,"on":"2027-03-11",{tail}}}"#,
            prev.0
        )
    }

    const TAIL: &str = r#""about":["book","l0000000000007-3-0","c0000000000007-5-12"],"needs":1,"events":[{"x":{"clump":"0000000000007-5-12","lot":"0000000000007-3-0","note":"a \"b\", [c]"}}]"#;

    fn both(lines: &[&str]) -> Vec<String> {
        let (mut out, mut back) = (Dense::default(), Dense::default());
        let texts: Vec<String> = lines.iter().map(|line| out.line(line)).collect();
        for (text, line) in texts.iter().zip(lines) {
            assert_eq!(back.whole(text).as_deref(), Some(*line));
        }
        texts
    }

    #[test]
    fn a_line_that_follows_is_short_and_comes_back_byte_for_byte() {
        let line = next(5, LineHash::of(FIRST), TAIL);
        let texts = both(&[FIRST, &line]);
        assert_eq!(texts[0], FIRST);
        assert!(
            texts[1].starts_with(r#"[1500,"book l1 c0",0,[{"x""#),
            "{}",
            texts[1]
        );
    }

    #[test]
    fn what_does_not_follow_stands_as_it_is() {
        let sound = LineHash::of(FIRST);
        for line in [
            next(6, sound, TAIL),
            next(5, LineHash(1), TAIL),
            next(5, sound, TAIL).replace("\"needs\"", " \"needs\""),
            next(5, sound, TAIL).replace("0000000000007\",\"seq\"", "0000000000008\",\"seq\""),
            "not a line".to_owned(),
        ] {
            let texts = both(&[FIRST, &line, FIRST]);
            assert_eq!(texts[1], line);
            assert_eq!(texts[2], FIRST);
        }
    }

    #[test]
    fn what_differs_is_told_and_stays_dense() {
        let line = next(5, LineHash::of(FIRST), TAIL)
            .replace("\"off_min\":60", "\"off_min\":120")
            .replace("2027-03-11", "2027-03-09")
            .replace("[2500,0]", "[2600,3]")
            .replace("\"about\"", "\"seen\":{\"0000000000008\":[3,77]},\"about\"")
            .replace("\"needs\":1", "\"needs\":2");
        let texts = both(&[FIRST, &line]);
        assert!(texts[1].starts_with("[1500,"), "{}", texts[1]);
    }

    #[test]
    fn damaged_dense_lines_never_read_as_what_was_written_and_never_panic() {
        let mut out = Dense::default();
        out.line(FIRST);
        let line = next(5, LineHash::of(FIRST), TAIL);
        let dense = out.line(&line);
        for cut in 0..dense.len() {
            let mut back = Dense::default();
            back.whole(FIRST).unwrap();
            if let Some(text) = dense.get(..cut) {
                assert_ne!(back.whole(text).as_deref(), Some(&*line), "{text}");
            }
        }
        assert_eq!(
            Dense::default().whole(&dense),
            None,
            "nothing stands before it"
        );
        let mut back = Dense::default();
        back.whole(FIRST).unwrap();
        for text in [
            "[]",
            "[,\"\",0,]",
            "[9e99,\"\",0,[]]",
            "[1,\"l99999999999999999999\",0,[]]",
            "[9223372036854775807,\"\",0,[]]",
        ] {
            assert_eq!(back.whole(text), None, "{text}");
        }
    }
}
