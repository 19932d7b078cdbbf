//! A reel: a small file as squares that one phone shows one after the other and another reads with its camera, where
//! there is no other way between them.
//!
//! A camera meets squares in any order, some of them often and some of them late. So every square says which one of how
//! many it is and of which file, and carries a check of its own; repeats, gaps and squares of anything else do no harm.
//! Nothing comes out before all of them are there and the whole is what was shown. What comes out is a file, and is
//! judged like one that was chosen.

use sha2::{Digest, Sha256};

use super::base45::{base45, from_base45};
use crate::limits::{REEL_BYTES_MAX, REEL_PART_BYTES, REEL_PARTS_MAX};

/// What every square begins with, before the version of its form.
const BEGINNING: &str = "VELAMEN";
const FORMAT: &str = "1";
/// Bytes of the digest that tells one file from another, and of the check of one square.
const WHOLE_BYTES: usize = 8;
const CHECK_BYTES: usize = 4;
/// Files that may be begun at once: beyond that the one met longest ago is forgotten.
const BEGUN_MAX: usize = 4;

/// Why there are no squares.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReelFault {
    Empty,
    /// More bytes than somebody would hold a camera for.
    TooLarge,
}

/// The texts of the squares, in their order. All of them are of about one size.
///
/// # Errors
/// [`ReelFault`].
pub fn squares(file: &[u8]) -> Result<Vec<String>, ReelFault> {
    if file.is_empty() {
        return Err(ReelFault::Empty);
    }
    if file.len() > REEL_BYTES_MAX {
        return Err(ReelFault::TooLarge);
    }
    let of = file.len().div_ceil(REEL_PART_BYTES);
    let size = file.len().div_ceil(of);
    let parts: Vec<&[u8]> = file.chunks(size).collect();
    let whole = whole_of(file);
    let texts = (1..).zip(&parts).map(|(number, part)| {
        let head = head(number, parts.len(), &whole);
        let check = check_of(&head, part);
        format!("{head}{check}/{}", base45(part))
    });
    Ok(texts.collect())
}

fn head(number: usize, of: usize, whole: &str) -> String {
    format!("{BEGINNING}{FORMAT}/{number}/{of}/{whole}/")
}

fn whole_of(file: &[u8]) -> String {
    hex_of(&Sha256::digest(file), WHOLE_BYTES)
}

fn check_of(head: &str, part: &[u8]) -> String {
    let mut hash = Sha256::new();
    hash.update(head.as_bytes());
    hash.update(part);
    hex_of(&hash.finalize(), CHECK_BYTES)
}

/// The first bytes in capitals, which a square holds in fewer dots.
fn hex_of(bytes: &[u8], count: usize) -> String {
    let some = bytes.iter().take(count);
    some.map(|byte| format!("{byte:02X}")).collect()
}

/// What a square that was read comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Met {
    /// One that was missing.
    New,
    /// One that is here already.
    Known,
    /// The last one that was missing, and the file.
    Whole(Vec<u8>),
    /// Not one of a reel.
    Foreign,
    /// One of a reel, in a form that a newer version shows.
    Newer,
    /// One of a reel that is not as it was made.
    Damaged,
}

/// How far a reel was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SoFar {
    pub read: usize,
    pub of: usize,
    /// Numbers of those that are missing.
    pub missing: Vec<usize>,
}

/// Squares put together again.
#[derive(Clone, Debug, Default)]
pub struct Joining {
    /// The one met last stands last.
    begun: Vec<Begun>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct Begun {
    whole: String,
    parts: Vec<Option<Vec<u8>>>,
}

/// A square as it was read.
struct Square<'a> {
    /// From 0.
    at: usize,
    of: usize,
    whole: &'a str,
    part: Vec<u8>,
}

impl Joining {
    /// Takes a square. Once a file was whole it is forgotten here.
    pub fn meet(&mut self, text: &str) -> Met {
        let square = match read(text) {
            Ok(square) => square,
            Err(met) => return met,
        };
        let known = self.begun.iter().position(|begun| begun.is_of(&square));
        let mut begun = match known {
            Some(at) => self.begun.remove(at),
            None => Begun {
                whole: square.whole.to_owned(),
                parts: vec![None; square.of],
            },
        };
        let met = begun.take(square);
        if !matches!(met, Met::Whole(_)) {
            if self.begun.len() == BEGUN_MAX {
                self.begun.remove(0);
            }
            self.begun.push(begun);
        }
        met
    }

    /// How far the one met last was read; nothing before the first square.
    #[must_use]
    pub fn so_far(&self) -> Option<SoFar> {
        let begun = self.begun.last()?;
        let numbered = (1..).zip(&begun.parts);
        let missing = numbered.filter_map(|(number, part)| part.is_none().then_some(number));
        let missing: Vec<usize> = missing.collect();
        let of = begun.parts.len();
        Some(SoFar {
            read: of.saturating_sub(missing.len()),
            of,
            missing,
        })
    }
}

impl Begun {
    fn is_of(&self, square: &Square<'_>) -> bool {
        self.whole == square.whole && self.parts.len() == square.of
    }

    fn take(&mut self, square: Square<'_>) -> Met {
        let Some(place) = self.parts.get_mut(square.at) else {
            return Met::Damaged;
        };
        match place {
            Some(part) if *part == square.part => return Met::Known,
            // Both pass their check and one of them is wrong: neither is believed.
            Some(_) => {
                *place = None;
                return Met::Damaged;
            }
            None => *place = Some(square.part),
        }
        let Some(parts) = self.parts.iter().map(Option::as_deref).collect() else {
            return Met::New;
        };
        let parts: Vec<&[u8]> = parts;
        let file = parts.concat();
        if whole_of(&file) == self.whole && file.len() <= REEL_BYTES_MAX {
            Met::Whole(file)
        } else {
            // One of them is wrong and passes its check: nobody can say which.
            self.parts.fill(None);
            Met::Damaged
        }
    }
}

fn read(text: &str) -> Result<Square<'_>, Met> {
    let after = text.strip_prefix(BEGINNING).ok_or(Met::Foreign)?;
    let (format, rest) = after.split_once('/').ok_or(Met::Foreign)?;
    if format != FORMAT {
        let newer = !format.is_empty() && format.bytes().all(|digit| digit.is_ascii_digit());
        return Err(if newer { Met::Newer } else { Met::Foreign });
    }
    of_form_1(text, rest).ok_or(Met::Damaged)
}

fn of_form_1<'a>(text: &str, rest: &'a str) -> Option<Square<'a>> {
    let mut fields = rest.splitn(5, '/');
    let number: usize = fields.next()?.parse().ok()?;
    let of: usize = fields.next()?.parse().ok()?;
    let whole = fields.next()?;
    let (check, part) = (fields.next()?, fields.next()?);
    let part = from_base45(part)?;
    let head = head(number, of, whole);
    let fits = whole.len() == 2 * WHOLE_BYTES
        && of <= REEL_PARTS_MAX
        && (1..=of).contains(&number)
        && (1..=REEL_PART_BYTES).contains(&part.len())
        && text.starts_with(&head)
        && check == check_of(&head, &part);
    fits.then(|| Square {
        at: number.saturating_sub(1),
        of,
        whole,
        part,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn file(bytes: usize, seed: u8) -> Vec<u8> {
        let mut all = Vec::with_capacity(bytes);
        let mut last = u32::from(seed) + 1;
        for _ in 0..bytes {
            last = last.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            all.push(u8::try_from(last >> 24).unwrap());
        }
        all
    }

    #[test]
    fn a_square_says_what_it_is_in_characters_a_square_holds_densely() {
        let texts = squares(b"ietf!").unwrap();
        // The first bytes of SHA-256 over the file, and over head and part, as sha256sum has them.
        assert_eq!(texts, ["VELAMEN1/1/1/80C723848424957C/B2079C9F/QED8WEX0"]);
    }

    #[test]
    fn squares_have_their_most_and_the_file_too() {
        for (bytes, parts) in [
            (1, 1),
            (REEL_PART_BYTES - 1, 1),
            (REEL_PART_BYTES, 1),
            (REEL_PART_BYTES + 1, 2),
            (REEL_BYTES_MAX - 1, REEL_PARTS_MAX),
            (REEL_BYTES_MAX, REEL_PARTS_MAX),
        ] {
            let texts = squares(&file(bytes, 1)).unwrap();
            assert_eq!(texts.len(), parts, "{bytes}");
            let mut joining = Joining::default();
            let met: Vec<Met> = texts.iter().map(|text| joining.meet(text)).collect();
            assert_eq!(met.last(), Some(&Met::Whole(file(bytes, 1))));
        }
        let told = squares(&file(REEL_BYTES_MAX + 1, 1));
        assert_eq!(told, Err(ReelFault::TooLarge));
        assert_eq!(squares(&[]), Err(ReelFault::Empty));
    }

    /// A square as somebody else might make it: its check is right.
    fn made(number: usize, of: usize, whole: &str, part: &[u8]) -> String {
        let head = head(number, of, whole);
        format!("{head}{}/{}", check_of(&head, part), base45(part))
    }

    #[test]
    fn a_square_of_more_than_there_may_be_is_refused() {
        let whole = whole_of(b"x");
        let told = |number, of, bytes: usize| {
            let text = made(number, of, &whole, &vec![7; bytes]);
            Joining::default().meet(&text)
        };
        for (of, fits) in [
            (REEL_PARTS_MAX - 1, true),
            (REEL_PARTS_MAX, true),
            (REEL_PARTS_MAX + 1, false),
            (usize::MAX, false),
        ] {
            assert_eq!(told(1, of, 1) == Met::New, fits, "{of}");
            assert_eq!(told(of, of, 1) == Met::New, fits, "{of}");
        }
        for (bytes, fits) in [
            (0, false),
            (REEL_PART_BYTES - 1, true),
            (REEL_PART_BYTES, true),
            (REEL_PART_BYTES + 1, false),
        ] {
            assert_eq!(told(1, 2, bytes) == Met::New, fits, "{bytes}");
        }
        assert_eq!(told(0, 2, 1), Met::Damaged);
        assert_eq!(told(3, 2, 1), Met::Damaged);
        assert_eq!(told(1, 0, 1), Met::Damaged);
    }

    #[test]
    fn more_bytes_than_a_reel_may_have_never_come_out() {
        let big = file(REEL_PARTS_MAX * REEL_PART_BYTES, 3);
        assert!(big.len() > REEL_BYTES_MAX);
        let whole = whole_of(&big);
        let mut joining = Joining::default();
        let parts = (1..).zip(big.chunks(REEL_PART_BYTES));
        let met: Vec<Met> = parts
            .map(|(number, part)| joining.meet(&made(number, REEL_PARTS_MAX, &whole, part)))
            .collect();
        assert_eq!(met.last(), Some(&Met::Damaged));
        assert_eq!(joining.so_far().map(|far| far.read), Some(0));
    }

    #[test]
    fn what_is_not_one_of_a_reel_is_told_from_what_was_damaged_and_what_is_newer() {
        let mut joining = Joining::default();
        for foreign in [
            "",
            "VELAMEN",
            "VELAMEN1",
            "velamen1/1/1/",
            "VELAMEN/1/1/",
            "VELAMENA/1/1/",
            "https://nursery.example/#/lot/4z7k0qwertyab-57-0",
        ] {
            assert_eq!(joining.meet(foreign), Met::Foreign, "{foreign:?}");
        }
        assert_eq!(joining.meet("VELAMEN2/1/1/whatever"), Met::Newer);
        let text = squares(b"moss").unwrap().concat();
        for at in 9..text.len() {
            let cut = text.get(..at).unwrap();
            assert_eq!(joining.meet(cut), Met::Damaged, "{cut:?}");
            let mut flipped = text.clone().into_bytes();
            flipped[at] = if flipped[at] == b'0' { b'1' } else { b'0' };
            let flipped = String::from_utf8(flipped).unwrap();
            assert_eq!(joining.meet(&flipped), Met::Damaged, "{flipped:?}");
        }
        for odd in [
            text.replace("/1/1/", "/01/1/"),
            text.replace("/1/1/", "/+1/1/"),
            text.to_lowercase().replace("velamen", "VELAMEN"),
        ] {
            assert_eq!(joining.meet(&odd), Met::Damaged, "{odd:?}");
        }
        assert_eq!(joining.so_far(), None);
        assert_eq!(joining.meet(&text), Met::Whole(b"moss".to_vec()));
    }

    #[test]
    fn two_that_claim_one_place_are_both_read_again() {
        let texts = squares(&file(460, 1)).unwrap();
        let whole = whole_of(&file(460, 1));
        let mut joining = Joining::default();
        assert_eq!(joining.meet(&made(1, 2, &whole, b"lies")), Met::New);
        assert_eq!(joining.meet(&texts[0]), Met::Damaged);
        assert_eq!(joining.meet(&texts[0]), Met::New);
        assert_eq!(joining.meet(&texts[1]), Met::Whole(file(460, 1)));

        // A wrong one that is met alone is found out at the end.
        assert_eq!(joining.meet(&made(1, 2, &whole, b"lies")), Met::New);
        assert_eq!(joining.meet(&texts[1]), Met::Damaged);
        assert_eq!(joining.meet(&texts[0]), Met::New);
        assert_eq!(joining.meet(&texts[1]), Met::Whole(file(460, 1)));
    }

    #[test]
    fn how_far_it_is_and_what_is_missing_is_told() {
        let texts = squares(&file(REEL_PART_BYTES * 3, 1)).unwrap();
        let mut joining = Joining::default();
        assert_eq!(joining.so_far(), None);
        joining.meet(&texts[1]);
        let far = SoFar {
            read: 1,
            of: 3,
            missing: vec![1, 3],
        };
        assert_eq!(joining.so_far(), Some(far.clone()));
        // Another that is begun is told while it is the one that was met last.
        joining.meet(&squares(&file(REEL_PART_BYTES * 2, 2)).unwrap()[0]);
        assert_eq!(joining.so_far().map(|far| far.of), Some(2));
        joining.meet(&texts[1]);
        assert_eq!(joining.so_far(), Some(far));
    }

    #[test]
    fn no_more_are_begun_than_there_is_room_for() {
        let mut joining = Joining::default();
        let first = squares(&file(460, 0)).unwrap();
        joining.meet(&first[0]);
        for seed in 1..=u8::try_from(BEGUN_MAX).unwrap() {
            joining.meet(&squares(&file(460, seed)).unwrap()[0]);
        }
        assert_eq!(joining.begun.len(), BEGUN_MAX);
        assert_eq!(joining.meet(&first[0]), Met::New, "it was forgotten");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]
        /// Several files in one stream: each of their squares at least once, repeated and in any order, with strange
        /// and damaged ones among them. Every file comes out as it was.
        #[test]
        fn in_any_order_with_repeats_and_strangers_each_file_comes_out(
            files in proptest::collection::vec(
                proptest::collection::vec(any::<u8>(), 1..3_000), 1..=BEGUN_MAX,
            ),
            order in proptest::collection::vec(any::<u32>(), 200),
            spoiled in proptest::collection::vec((any::<u32>(), any::<u32>(), 32u8..127), 0..20),
            lost in any::<u32>(),
        ) {
            let texts: Vec<String> = files.iter().flat_map(|file| squares(file).unwrap()).collect();
            let pick = |from: u32, of: usize| usize::try_from(from).unwrap() % of;
            let mut stream: Vec<String> = order.iter().map(|at| texts[pick(*at, texts.len())].clone()).collect();
            for (which, at, letter) in spoiled {
                let mut bytes = texts[pick(which, texts.len())].clone().into_bytes();
                let at = pick(at, bytes.len());
                bytes[at] = letter;
                stream.insert(pick(which, stream.len()), String::from_utf8(bytes).unwrap());
            }
            stream.insert(pick(lost, stream.len()), "https://nursery.example/#/lot/1".to_owned());
            stream.extend(texts.clone());
            let mut joining = Joining::default();
            let mut out = Vec::new();
            for text in &stream {
                if let Met::Whole(file) = joining.meet(text) {
                    prop_assert!(files.contains(&file));
                    out.push(file);
                }
            }
            for file in &files {
                prop_assert!(out.contains(file));
            }

            // With one of its squares lost, a file does not come out.
            let one = squares(&files[0]).unwrap();
            let lost = pick(lost, one.len());
            let mut joining = Joining::default();
            for (at, text) in one.iter().enumerate().chain(one.iter().enumerate()) {
                if at != lost {
                    prop_assert!(!matches!(joining.meet(text), Met::Whole(_)));
                }
            }
            let missing = joining.so_far().map(|far| far.missing);
            if one.len() > 1 {
                prop_assert_eq!(missing, Some(vec![lost + 1]));
            }
        }

        #[test]
        fn any_text_is_met_without_harm(text in "(VELAMEN[0-9]{0,2}/?)?[0-9A-Z/$%*+.: -]{0,60}", other in ".{0,60}") {
            let mut joining = Joining::default();
            let _ = joining.meet(&text);
            let _ = joining.meet(&other);
        }
    }
}
