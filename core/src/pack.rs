//! Small values as few bytes, for caches that may be thrown away: never for anything that is kept or handed on.
//!
//! Whole numbers take as many bytes as they need, seven bits each; a text that came before is named by its number. Reading
//! never panics: what does not fit gives `None`, and the cache is not used.

use std::collections::BTreeMap;
use std::str::FromStr;

use chrono::{Datelike, NaiveDate};

use crate::id::{Dev, EntryRef, ThingId};

/// Bytes being written.
#[derive(Clone, Debug, Default)]
pub(crate) struct Packer {
    bytes: Vec<u8>,
    texts: BTreeMap<String, u64>,
    devs: BTreeMap<Dev, u64>,
}

impl Packer {
    pub(crate) fn done(self) -> Vec<u8> {
        self.bytes
    }

    pub(crate) fn num(&mut self, value: impl Into<u64>) {
        let mut left: u64 = value.into();
        while left >= 0x80 {
            self.bytes.push((left & 0x7f) as u8 | 0x80);
            left >>= 7;
        }
        self.bytes.push((left & 0x7f) as u8);
    }

    pub(crate) fn size(&mut self, value: usize) {
        self.num(u64::try_from(value).unwrap_or(u64::MAX));
    }

    /// A number of either sign, small ones short.
    pub(crate) fn int(&mut self, value: i64) {
        self.num(((value << 1) ^ (value >> 63)).cast_unsigned());
    }

    pub(crate) fn day(&mut self, day: NaiveDate) {
        self.int(i64::from(day.num_days_from_ce()));
    }

    /// A text that rarely comes twice.
    pub(crate) fn once(&mut self, text: &str) {
        self.size(text.len());
        self.bytes.extend_from_slice(text.as_bytes());
    }

    /// A text that comes again and again.
    pub(crate) fn text(&mut self, text: &str) {
        if let Some(number) = self.texts.get(text) {
            self.num(*number + 1);
        } else {
            self.num(0u64);
            self.once(text);
            let number = u64::try_from(self.texts.len()).unwrap_or(u64::MAX);
            self.texts.insert(text.to_owned(), number);
        }
    }

    pub(crate) fn entry(&mut self, entry: EntryRef) {
        if let Some(number) = self.devs.get(&entry.dev) {
            self.num(*number + 1);
        } else {
            self.num(0u64);
            self.num(entry.dev.0);
            let number = u64::try_from(self.devs.len()).unwrap_or(u64::MAX);
            self.devs.insert(entry.dev, number);
        }
        self.num(entry.seq);
    }

    pub(crate) fn thing(&mut self, thing: ThingId) {
        self.entry(thing.entry);
        self.num(thing.n);
    }

    pub(crate) fn maybe<T>(&mut self, value: Option<T>, write: impl FnOnce(&mut Self, T)) {
        self.num(u8::from(value.is_some()));
        if let Some(value) = value {
            write(self, value);
        }
    }
}

/// Bytes being read.
#[derive(Clone, Debug)]
pub(crate) struct Unpacker<'a> {
    bytes: &'a [u8],
    texts: Vec<&'a str>,
    devs: Vec<Dev>,
}

impl<'a> Unpacker<'a> {
    pub(crate) const fn new(bytes: &'a [u8]) -> Self {
        Self {
            bytes,
            texts: Vec::new(),
            devs: Vec::new(),
        }
    }

    pub(crate) const fn is_at_end(&self) -> bool {
        self.bytes.is_empty()
    }

    pub(crate) fn num(&mut self) -> Option<u64> {
        let mut value = 0u64;
        for place in 0..10u32 {
            let (first, rest) = self.bytes.split_first()?;
            self.bytes = rest;
            value |= u64::from(first & 0x7f).checked_shl(7 * place)?;
            if first & 0x80 == 0 {
                return Some(value);
            }
        }
        None
    }

    /// A number of a narrower kind.
    pub(crate) fn small<T: TryFrom<u64>>(&mut self) -> Option<T> {
        T::try_from(self.num()?).ok()
    }

    pub(crate) fn int(&mut self) -> Option<i64> {
        let value = self.num()?;
        Some((value >> 1).cast_signed() ^ -((value & 1).cast_signed()))
    }

    pub(crate) fn day(&mut self) -> Option<NaiveDate> {
        NaiveDate::from_num_days_from_ce_opt(i32::try_from(self.int()?).ok()?)
    }

    pub(crate) fn once(&mut self) -> Option<&'a str> {
        let length = self.small()?;
        let (text, rest) = self.bytes.split_at_checked(length)?;
        self.bytes = rest;
        std::str::from_utf8(text).ok()
    }

    pub(crate) fn text(&mut self) -> Option<&'a str> {
        match self.num()?.checked_sub(1) {
            Some(number) => self.texts.get(usize::try_from(number).ok()?).copied(),
            None => {
                let text = self.once()?;
                self.texts.push(text);
                Some(text)
            }
        }
    }

    pub(crate) fn parsed<T: FromStr>(&mut self) -> Option<T> {
        self.once()?.parse().ok()
    }

    pub(crate) fn entry(&mut self) -> Option<EntryRef> {
        let dev = match self.num()?.checked_sub(1) {
            Some(number) => *self.devs.get(usize::try_from(number).ok()?)?,
            None => {
                let dev = Dev(self.num()?);
                self.devs.push(dev);
                dev
            }
        };
        Some(EntryRef {
            dev,
            seq: self.small()?,
        })
    }

    pub(crate) fn thing(&mut self) -> Option<ThingId> {
        Some(ThingId {
            entry: self.entry()?,
            n: self.small()?,
        })
    }

    /// `Some(None)` where nothing was written.
    pub(crate) fn maybe<T>(
        &mut self,
        read: impl FnOnce(&mut Self) -> Option<T>,
    ) -> Option<Option<T>> {
        match self.num()? {
            0 => Some(None),
            1 => read(self).map(Some),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_packed_reads_back_and_half_of_it_does_not() {
        let entry = EntryRef {
            dev: Dev(u64::MAX),
            seq: 7,
        };
        let mut packer = Packer::default();
        for number in [0, 1, 127, 128, u64::MAX] {
            packer.num(number);
        }
        for number in [0, -1, 1, i64::MIN, i64::MAX] {
            packer.int(number);
        }
        for text in ["bark", "", "bark"] {
            packer.text(text);
        }
        packer.entry(entry);
        packer.thing(ThingId { entry, n: 3 });
        packer.maybe(Some("x"), Packer::once);
        packer.maybe(None, Packer::once);
        packer.day(NaiveDate::MIN);
        let bytes = packer.done();
        let mut reader = Unpacker::new(&bytes);
        for number in [0, 1, 127, 128, u64::MAX] {
            assert_eq!(reader.num(), Some(number));
        }
        for number in [0, -1, 1, i64::MIN, i64::MAX] {
            assert_eq!(reader.int(), Some(number));
        }
        for text in ["bark", "", "bark"] {
            assert_eq!(reader.text(), Some(text));
        }
        assert_eq!(reader.entry(), Some(entry));
        assert_eq!(reader.thing(), Some(ThingId { entry, n: 3 }));
        assert_eq!(reader.maybe(Unpacker::once), Some(Some("x")));
        assert_eq!(reader.maybe(Unpacker::once), Some(None));
        assert_eq!(reader.day(), Some(NaiveDate::MIN));
        assert!(reader.is_at_end());
        assert_eq!(reader.num(), None);
        assert_eq!(Unpacker::new(&[0x80; 11]).num(), None);
        assert_eq!(Unpacker::new(&[9, 1]).once(), None);
    }
}
