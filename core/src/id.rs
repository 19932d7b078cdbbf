//! Identity: phones, entries, and the things entries speak of.
//!
//! A phone is a random 64-bit [`Dev`]. Its entries are numbered without gaps from 1. A thing (a lot, a place, a clump
//! in work) is named after the entry that brought it into the book and the thing's number within that entry, so no two
//! phones can ever name two things alike and nobody has to hand out numbers. The codes people write on labels are
//! separate (see `code`): a clash there is a question to the grower, never a fault in the book.
//!
//! Text forms, fixed for ever: a phone is 13 characters of Crockford's base 32 in lower case; an entry `phone-seq`; a
//! thing `phone-seq-n`; a subject puts one letter before it.

use std::fmt;
use std::str::FromStr;

use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use sha2::{Digest, Sha256};

/// A phone that writes in the book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Dev(pub u64);

/// One entry: the phone that wrote it and its number there, from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryRef {
    pub dev: Dev,
    pub seq: u32,
}

/// A thing the book speaks of: the entry that named it first, and its number in that entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ThingId {
    pub entry: EntryRef,
    pub n: u16,
}

/// Text that is not an id of the kind expected.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not an id")]
pub struct NotAnId;

const ALPHABET: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";
const DEV_CHARS: usize = 13;

/// The value of a letter of the alphabet, which leaves out what is mistaken for another.
const fn digit_of(letter: u8) -> Option<u8> {
    Some(match letter {
        b'0'..=b'9' => letter - b'0',
        b'a'..=b'h' => letter - b'a' + 10,
        b'j' | b'k' => letter - b'j' + 18,
        b'm' | b'n' => letter - b'm' + 20,
        b'p'..=b't' => letter - b'p' + 22,
        b'v'..=b'z' => letter - b'v' + 27,
        _ => return None,
    })
}

impl fmt::Display for Dev {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut letters = [b'0'; DEV_CHARS];
        for (place, letter) in letters.iter_mut().rev().enumerate() {
            let digit = usize::try_from((self.0 >> (5 * place)) & 31).ok();
            if let Some(known) = digit.and_then(|at| ALPHABET.get(at)) {
                *letter = *known;
            }
        }
        // They are letters and digits.
        f.write_str(std::str::from_utf8(&letters).unwrap_or_default())
    }
}

impl FromStr for Dev {
    type Err = NotAnId;

    fn from_str(text: &str) -> Result<Self, NotAnId> {
        if text.len() != DEV_CHARS {
            return Err(NotAnId);
        }
        let mut value: u64 = 0;
        for byte in text.bytes() {
            let digit = u64::from(digit_of(byte).ok_or(NotAnId)?);
            // Thirteen letters are 65 bits: the first is one of the lower half.
            value = value.checked_mul(32).ok_or(NotAnId)? + digit;
        }
        Ok(Dev(value))
    }
}

impl Dev {
    /// The phone under which the later branch of a forked numbering is kept (a phone copied with its book).
    ///
    /// Depends on nothing but the name and the first line that differs, so that every phone finds the same one.
    #[must_use]
    pub fn of_branch(self, first_line: &str) -> Self {
        let mut hash = Sha256::new();
        hash.update(self.to_string());
        hash.update(b"\n");
        hash.update(first_line);
        let digest = hash.finalize();
        Self(
            digest
                .iter()
                .take(8)
                .fold(0, |value, byte| (value << 8) | u64::from(*byte)),
        )
    }
}

impl fmt::Display for EntryRef {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}", self.dev, self.seq)
    }
}

impl FromStr for EntryRef {
    type Err = NotAnId;

    fn from_str(text: &str) -> Result<Self, NotAnId> {
        let (dev, seq) = text.split_once('-').ok_or(NotAnId)?;
        Ok(Self {
            dev: dev.parse()?,
            seq: whole_number(seq)?,
        })
    }
}

impl fmt::Display for ThingId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}", self.entry, self.n)
    }
}

impl FromStr for ThingId {
    type Err = NotAnId;

    fn from_str(text: &str) -> Result<Self, NotAnId> {
        let (entry, n) = text.rsplit_once('-').ok_or(NotAnId)?;
        Ok(Self {
            entry: entry.parse()?,
            n: whole_number(n)?,
        })
    }
}

/// Plain digits without sign or leading zero, so that every id has exactly one text form.
fn whole_number<T: FromStr>(text: &str) -> Result<T, NotAnId> {
    let plain = text == "0" || (!text.starts_with('0') && text.bytes().all(|b| b.is_ascii_digit()));
    if plain {
        text.parse().map_err(|_| NotAnId)
    } else {
        Err(NotAnId)
    }
}

macro_rules! as_text {
    ($($type:ty),+) => {$(
        impl Serialize for $type {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }
        impl<'de> Deserialize<'de> for $type {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = <std::borrow::Cow<'de, str>>::deserialize(deserializer)?;
                text.parse().map_err(|_| D::Error::custom(concat!("not a ", stringify!($type))))
            }
        }
    )+};
}

macro_rules! things {
    ($($(#[$doc:meta])* $name:ident),+ $(,)?) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub ThingId);

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.fmt(f)
            }
        }
        impl FromStr for $name {
            type Err = NotAnId;
            fn from_str(text: &str) -> Result<Self, NotAnId> {
                text.parse().map(Self)
            }
        }
        as_text!($name);
    )+};
}

things! {
    /// A lot: plants of one name and history, counted together.
    LotId,
    /// A place on the walk.
    PlaceId,
    /// A clump in work on the bench, from the first cut to the last label.
    ClumpId,
    /// A kind of pot.
    PotId,
    /// A potting mix.
    MixId,
    /// A measure on the shelf: a syringe, a scale.
    MeasureId,
    /// A feed, as its label says.
    FeedId,
    /// A product on the shelf, as its label says.
    ProductId,
    /// A container of a product: a bottle, a jar, a bag.
    ContainerId,
    /// One treatment carried out.
    TreatmentId,
    /// One finding.
    FindingId,
    /// A protocol.
    ProtocolId,
    /// A task the grower wrote down.
    NoteTaskId,
}

as_text!(Dev, EntryRef, ThingId, Subject);

/// What an entry is about: the things whose facts it changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// The nursery itself: name, hemisphere, latitude.
    Book,
    Phone(Dev),
    Lot(LotId),
    Place(PlaceId),
    Clump(ClumpId),
    Pot(PotId),
    Mix(MixId),
    Measure(MeasureId),
    Feed(FeedId),
    Product(ProductId),
    Container(ContainerId),
    Treatment(TreatmentId),
    Finding(FindingId),
    Protocol(ProtocolId),
    NoteTask(NoteTaskId),
    /// Another entry: what a correction is about, beside the things that entry spoke of.
    Entry(EntryRef),
}

impl Subject {
    /// The thing meant, where the subject is one that an entry brought into the book.
    #[must_use]
    pub fn thing(self) -> Option<ThingId> {
        match self {
            Self::Book | Self::Phone(_) | Self::Entry(_) => None,
            Self::Lot(LotId(id))
            | Self::Place(PlaceId(id))
            | Self::Clump(ClumpId(id))
            | Self::Pot(PotId(id))
            | Self::Mix(MixId(id))
            | Self::Measure(MeasureId(id))
            | Self::Feed(FeedId(id))
            | Self::Product(ProductId(id))
            | Self::Container(ContainerId(id))
            | Self::Treatment(TreatmentId(id))
            | Self::Finding(FindingId(id))
            | Self::Protocol(ProtocolId(id))
            | Self::NoteTask(NoteTaskId(id)) => Some(id),
        }
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Book => write!(f, "book"),
            Self::Phone(dev) => write!(f, "d{dev}"),
            Self::Lot(id) => write!(f, "l{id}"),
            Self::Place(id) => write!(f, "p{id}"),
            Self::Clump(id) => write!(f, "c{id}"),
            Self::Pot(id) => write!(f, "o{id}"),
            Self::Mix(id) => write!(f, "m{id}"),
            Self::Measure(id) => write!(f, "g{id}"),
            Self::Feed(id) => write!(f, "a{id}"),
            Self::Product(id) => write!(f, "r{id}"),
            Self::Container(id) => write!(f, "k{id}"),
            Self::Treatment(id) => write!(f, "t{id}"),
            Self::Finding(id) => write!(f, "f{id}"),
            Self::Protocol(id) => write!(f, "s{id}"),
            Self::NoteTask(id) => write!(f, "n{id}"),
            Self::Entry(id) => write!(f, "e{id}"),
        }
    }
}

impl FromStr for Subject {
    type Err = NotAnId;

    fn from_str(text: &str) -> Result<Self, NotAnId> {
        if text == "book" {
            return Ok(Self::Book);
        }
        let mut letters = text.chars();
        let kind = letters.next().ok_or(NotAnId)?;
        Self::of_letter(kind, letters.as_str())
    }
}

impl Subject {
    /// The subject of a letter and an id.
    ///
    /// # Errors
    /// [`NotAnId`] for a letter that no subject has, or a text that is no id.
    pub fn of_letter(kind: char, id: &str) -> Result<Self, NotAnId> {
        Ok(match kind {
            'd' => Self::Phone(id.parse()?),
            'l' => Self::Lot(id.parse()?),
            'p' => Self::Place(id.parse()?),
            'c' => Self::Clump(id.parse()?),
            'o' => Self::Pot(id.parse()?),
            'm' => Self::Mix(id.parse()?),
            'g' => Self::Measure(id.parse()?),
            'a' => Self::Feed(id.parse()?),
            'r' => Self::Product(id.parse()?),
            'k' => Self::Container(id.parse()?),
            't' => Self::Treatment(id.parse()?),
            'f' => Self::Finding(id.parse()?),
            's' => Self::Protocol(id.parse()?),
            'n' => Self::NoteTask(id.parse()?),
            'e' => Self::Entry(id.parse()?),
            _ => return Err(NotAnId),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_have_one_text_form_and_read_back() {
        for dev in [Dev(0), Dev(1), Dev(u64::MAX), Dev(0x0123_4567_89ab_cdef)] {
            assert_eq!(dev.to_string().parse(), Ok(dev));
            let lot = LotId(ThingId {
                entry: EntryRef { dev, seq: 12 },
                n: 3,
            });
            assert_eq!(lot.to_string().parse(), Ok(lot));
            let subject = Subject::Lot(lot);
            assert_eq!(subject.to_string().parse(), Ok(subject));
        }
        assert_eq!("book".parse(), Ok(Subject::Book));
    }

    #[test]
    fn each_letter_has_the_value_of_its_place_and_no_other_has_one() {
        for byte in 0..=u8::MAX {
            let place = ALPHABET.iter().position(|letter| *letter == byte);
            assert_eq!(digit_of(byte).map(usize::from), place, "{byte}");
        }
        assert_eq!("g000000000000".parse::<Dev>(), Err(NotAnId));
        assert_eq!("fzzzzzzzzzzzz".parse(), Ok(Dev(u64::MAX)));
    }

    #[test]
    fn what_only_looks_like_an_id_is_refused() {
        for text in [
            "",
            "-",
            "0000000000000-",
            "0000000000000-01-0",
            "0000000000000-1-",
            "zzzzzzzzzzzzz-1-0",
            "0000000000000-+1-0",
        ] {
            assert_eq!(text.parse::<ThingId>(), Err(NotAnId), "{text}");
        }
        assert_eq!("x0000000000000-1-0".parse::<Subject>(), Err(NotAnId));
    }

    #[test]
    fn the_name_of_a_branch_depends_on_the_phone_and_the_line() {
        let a = Dev(5).of_branch("one");
        assert_eq!(a, Dev(5).of_branch("one"));
        assert_ne!(a, Dev(5).of_branch("two"));
        assert_ne!(a, Dev(6).of_branch("one"));
    }
}
