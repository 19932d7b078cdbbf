//! Photographs in a ZIP of their own, beside the book: each is a file named after the SHA-256 of its bytes, stored and not
//! packed, because photographs are packed already.
//!
//! Only as much of the ZIP format as that needs, so that any program for ZIPs opens what is written here. Reading goes by
//! the directory at the end, a photograph at a time; what a photograph holds is believed only when its bytes have the
//! digest it is named after.

use sha2::{Digest, Sha256};

use crate::limits::{ALBUM_BYTES_MAX, ALBUM_PHOTOS_MAX, PHOTO_BYTES_MAX};

/// How photographs end; they are all of one type.
const ENDING: &str = ".jpg";
const LOCAL: u32 = 0x0403_4b50;
const CENTRAL: u32 = 0x0201_4b50;
const END: u32 = 0x0605_4b50;
const LOCAL_BYTES: usize = 30;
const CENTRAL_BYTES: usize = 46;
const END_BYTES: usize = 22;
/// Version of the format that is asked for, and the first of January 1980: a photograph's day stands in the book.
const VERSION: u16 = 10;
const DAY: u16 = 0x21;

/// How many bytes of a file's end hold where its directory is: a comment may follow it.
pub const END_BYTES_MAX: usize = END_BYTES + 0xffff;

/// Why a ZIP holds no photographs for the book.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AlbumFault {
    /// It is no ZIP, or ends early.
    NotWhole,
    /// Another program packed it anew.
    PackedAnew,
    TooMany {
        most: usize,
    },
    TooLarge {
        most_bytes: usize,
    },
}

/// A photograph in the directory.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    pub sha256: String,
    pub bytes: usize,
    /// Where its own head begins.
    at: usize,
}

impl Item {
    /// Where its head lies in the file.
    #[must_use]
    pub fn head(&self) -> (usize, usize) {
        (self.at, self.at.saturating_add(LOCAL_BYTES))
    }

    /// Where its bytes lie, by its head.
    #[must_use]
    pub fn body(&self, head: &[u8]) -> Option<(usize, usize)> {
        if u32_at(head, 0)? != LOCAL {
            return None;
        }
        let (name, extra) = (u16_at(head, 26)?, u16_at(head, 28)?);
        let from = self.at.checked_add(LOCAL_BYTES)?;
        let from = from.checked_add(usize::from(name))?;
        let from = from.checked_add(usize::from(extra))?;
        Some((from, from.checked_add(self.bytes)?))
    }

    /// Whether these are its bytes.
    #[must_use]
    pub fn is(&self, bytes: &[u8]) -> bool {
        let digest = Sha256::digest(bytes);
        let name: String = digest.iter().map(|byte| format!("{byte:02x}")).collect();
        name == self.sha256
    }
}

/// A directory, and how many of its files are no photographs of this program.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Directory {
    pub items: Vec<Item>,
    pub others: usize,
}

/// Where the directory lies, by the end of a file of so many bytes.
///
/// # Errors
/// [`AlbumFault`].
pub fn directory_at(end: &[u8], file_bytes: usize) -> Result<(usize, usize), AlbumFault> {
    if file_bytes > ALBUM_BYTES_MAX {
        return Err(AlbumFault::TooLarge {
            most_bytes: ALBUM_BYTES_MAX,
        });
    }
    let last = end.len().checked_sub(END_BYTES);
    let found = (0..=last.ok_or(AlbumFault::NotWhole)?)
        .rev()
        .find(|at| u32_at(end, *at) == Some(END));
    let record = found.and_then(|at| end.get(at..));
    let place = record.and_then(|record| {
        let bytes = usize::try_from(u32_at(record, 12)?).ok()?;
        let from = usize::try_from(u32_at(record, 16)?).ok()?;
        let to = from.checked_add(bytes)?;
        (to <= file_bytes).then_some((from, to))
    });
    place.ok_or(AlbumFault::NotWhole)
}

/// Reads the directory.
///
/// # Errors
/// [`AlbumFault`].
pub fn directory(bytes: &[u8]) -> Result<Directory, AlbumFault> {
    let mut found = Directory::default();
    let mut at = 0_usize;
    while at < bytes.len() {
        let row = bytes.get(at..).unwrap_or_default();
        let next = read_row(row, &mut found)?;
        at = at.saturating_add(next);
        if found.items.len() > ALBUM_PHOTOS_MAX {
            return Err(AlbumFault::TooMany {
                most: ALBUM_PHOTOS_MAX,
            });
        }
    }
    Ok(found)
}

/// Reads one row; answers its length.
fn read_row(row: &[u8], found: &mut Directory) -> Result<usize, AlbumFault> {
    let whole = AlbumFault::NotWhole;
    if u32_at(row, 0) != Some(CENTRAL) {
        return Err(whole);
    }
    let word = |at| u16_at(row, at).map(usize::from).ok_or(whole);
    let long = |at| {
        let value = u32_at(row, at).and_then(|value| usize::try_from(value).ok());
        value.ok_or(whole)
    };
    let name_bytes = word(28)?;
    let name = row.get(CENTRAL_BYTES..CENTRAL_BYTES.saturating_add(name_bytes));
    let name = std::str::from_utf8(name.ok_or(whole)?).unwrap_or_default();
    let length = [CENTRAL_BYTES, name_bytes, word(30)?, word(32)?];
    let length = length.into_iter().fold(0_usize, usize::saturating_add);
    let Some(sha256) = digest_of(name) else {
        found.others = found.others.saturating_add(1);
        return Ok(length);
    };
    let bytes = long(24)?;
    if word(10)? != 0 || long(20)? != bytes {
        return Err(AlbumFault::PackedAnew);
    }
    let most = usize::try_from(PHOTO_BYTES_MAX).unwrap_or(usize::MAX);
    if bytes > most {
        found.others = found.others.saturating_add(1);
        return Ok(length);
    }
    found.items.push(Item {
        sha256: sha256.to_owned(),
        bytes,
        at: long(42)?,
    });
    Ok(length)
}

/// The digest a file is named after, in whatever folder it lies.
fn digest_of(name: &str) -> Option<&str> {
    let name = name.rsplit(['/', '\\']).next()?;
    let digest = name.strip_suffix(ENDING)?;
    let hex = |letter: char| matches!(letter, '0'..='9' | 'a'..='f');
    (digest.len() == 64 && digest.chars().all(hex)).then_some(digest)
}

/// A ZIP being written: the caller puts head, photograph, head, photograph and the end one after the other.
#[derive(Clone, Debug, Default)]
pub struct Album {
    rows: Vec<u8>,
    count: u16,
    at: usize,
}

impl Album {
    /// What goes before a photograph's bytes; `None` when it no longer fits.
    pub fn head(&mut self, sha256: &str, bytes: &[u8]) -> Option<Vec<u8>> {
        let name = format!("{sha256}{ENDING}");
        let start = u32::try_from(self.at).ok()?;
        let grown = self.at.checked_add(bytes.len())?.checked_add(LOCAL_BYTES)?;
        let grown = grown.checked_add(name.len())?;
        if usize::from(self.count) >= ALBUM_PHOTOS_MAX || grown > ALBUM_BYTES_MAX {
            return None;
        }
        let common = common(&name, bytes)?;
        let mut head = LOCAL.to_le_bytes().to_vec();
        head.extend(&common);
        head.extend(name.as_bytes());
        self.rows.extend(CENTRAL.to_le_bytes());
        self.rows.extend(VERSION.to_le_bytes());
        self.rows.extend(&common);
        // Comment, disk and both kinds of attributes: none.
        self.rows.extend([0; 10]);
        self.rows.extend(start.to_le_bytes());
        self.rows.extend(name.as_bytes());
        self.count = self.count.checked_add(1)?;
        self.at = grown;
        Some(head)
    }

    /// What goes at the end.
    #[must_use]
    pub fn end(mut self) -> Option<Vec<u8>> {
        let bytes = u32::try_from(self.rows.len()).ok()?;
        let at = u32::try_from(self.at).ok()?;
        self.rows.extend(END.to_le_bytes());
        self.rows.extend([0; 4]);
        self.rows.extend(self.count.to_le_bytes());
        self.rows.extend(self.count.to_le_bytes());
        self.rows.extend(bytes.to_le_bytes());
        self.rows.extend(at.to_le_bytes());
        self.rows.extend([0; 2]);
        Some(self.rows)
    }

    #[must_use]
    pub fn len(&self) -> usize {
        usize::from(self.count)
    }

    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.count == 0
    }
}

/// What both heads of a file share, from the version to the length of what else there is.
fn common(name: &str, bytes: &[u8]) -> Option<Vec<u8>> {
    let length = u32::try_from(bytes.len()).ok()?;
    let mut common = VERSION.to_le_bytes().to_vec();
    // No flags, stored, midnight.
    common.extend([0; 6]);
    common.extend(DAY.to_le_bytes());
    common.extend(check_sum(bytes).to_le_bytes());
    common.extend(length.to_le_bytes());
    common.extend(length.to_le_bytes());
    common.extend(u16::try_from(name.len()).ok()?.to_le_bytes());
    common.extend([0; 2]);
    Some(common)
}

/// CRC-32 as in ZIP.
fn check_sum(bytes: &[u8]) -> u32 {
    const TABLE: [u32; 256] = table();
    let step = |sum: u32, byte: &u8| {
        let at = usize::from(sum.to_le_bytes()[0] ^ byte);
        TABLE.get(at).copied().unwrap_or(0) ^ (sum >> 8)
    };
    !bytes.iter().fold(u32::MAX, step)
}

#[allow(
    clippy::indexing_slicing,
    clippy::cast_possible_truncation,
    reason = "worked out while compiling: a wrong place would not compile"
)]
const fn table() -> [u32; 256] {
    let mut table = [0; 256];
    let mut at = 0;
    while at < 256 {
        let mut sum = at as u32;
        let mut bit = 0;
        while bit < 8 {
            sum = if sum & 1 == 1 {
                0xedb8_8320 ^ (sum >> 1)
            } else {
                sum >> 1
            };
            bit += 1;
        }
        table[at] = sum;
        at += 1;
    }
    table
}

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    let two = bytes.get(at..at.checked_add(2)?)?;
    Some(u16::from_le_bytes(two.try_into().ok()?))
}

fn u32_at(bytes: &[u8], at: usize) -> Option<u32> {
    let four = bytes.get(at..at.checked_add(4)?)?;
    Some(u32::from_le_bytes(four.try_into().ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::event::PhotoRef;

    fn named(bytes: &[u8]) -> String {
        PhotoRef::of(bytes, "image/jpeg").unwrap().sha256
    }

    fn written(photos: &[&[u8]]) -> Vec<u8> {
        let mut album = Album::default();
        let mut file = Vec::new();
        for bytes in photos {
            file.extend(album.head(&named(bytes), bytes).unwrap());
            file.extend(*bytes);
        }
        file.extend(album.end().unwrap());
        file
    }

    /// Every photograph of a file, by its own directory.
    fn read(file: &[u8]) -> Result<Vec<Vec<u8>>, AlbumFault> {
        let tail = file.len().saturating_sub(END_BYTES_MAX);
        let (from, to) = directory_at(&file[tail..], file.len())?;
        let found = directory(&file[from..to])?;
        let mut photos = Vec::new();
        for item in &found.items {
            let (from, to) = item.head();
            let head = file.get(from..to).ok_or(AlbumFault::NotWhole)?;
            let (from, to) = item.body(head).ok_or(AlbumFault::NotWhole)?;
            let bytes = file.get(from..to).ok_or(AlbumFault::NotWhole)?;
            if item.is(bytes) {
                photos.push(bytes.to_vec());
            }
        }
        Ok(photos)
    }

    #[test]
    fn the_check_sum_is_the_usual_one() {
        // The check value of this CRC, as catalogues of CRCs give it.
        assert_eq!(check_sum(b"123456789"), 0xcbf4_3926);
        assert_eq!(check_sum(b""), 0);
    }

    #[test]
    fn what_is_written_is_read_again() {
        let photos: [&[u8]; 3] = [b"leaf", b"", &[9; 70_000]];
        assert_eq!(read(&written(&photos)).unwrap(), photos);
        assert_eq!(read(&written(&[])).unwrap(), Vec::<Vec<u8>>::new());
    }

    #[test]
    fn a_cut_or_altered_file_gives_no_photograph_that_is_not_what_it_is_named_after() {
        let photos: [&[u8]; 2] = [b"leaf spots", b"pot 4"];
        let file = written(&photos);
        for at in 0..file.len() {
            if let Ok(found) = read(&file[..at]) {
                assert!(found.iter().all(|it| photos.contains(&it.as_slice())));
            }
            for bit in 0..8 {
                let mut other = file.clone();
                other[at] ^= 1 << bit;
                if let Ok(found) = read(&other) {
                    assert!(
                        found.iter().all(|it| photos.contains(&it.as_slice())),
                        "{at}"
                    );
                }
            }
        }
        for cut in [0, 1, END_BYTES - 1, file.len() - 1] {
            assert_eq!(read(&file[..cut]), Err(AlbumFault::NotWhole));
        }
    }

    #[test]
    fn other_files_in_it_are_counted_and_one_packed_anew_is_told() {
        let mut file = written(&[b"leaf"]);
        let name = named(b"leaf");
        let text = |file: &[u8], what: &[u8]| {
            let found = file.windows(what.len()).rposition(|it| it == what);
            found.unwrap()
        };
        let at = text(&file, name.as_bytes());
        let method = at - CENTRAL_BYTES + 10;
        let mut packed = file.clone();
        packed[method] = 8;
        assert_eq!(read(&packed), Err(AlbumFault::PackedAnew));
        file[at] = b'x';
        let (from, to) = directory_at(&file, file.len()).unwrap();
        let found = directory(&file[from..to]).unwrap();
        assert_eq!((found.items.len(), found.others), (0, 1));
    }

    #[test]
    fn an_album_has_its_most_of_photographs_and_bytes() {
        let mut album = Album::default();
        for _ in 0..ALBUM_PHOTOS_MAX {
            assert!(album.head(&named(b"a"), b"a").is_some());
        }
        assert!(album.head(&named(b"a"), b"a").is_none());
        assert_eq!(album.len(), ALBUM_PHOTOS_MAX);
        let end = album.end().unwrap();
        let rows = &end[..end.len() - END_BYTES];
        assert_eq!(directory(rows).unwrap().items.len(), ALBUM_PHOTOS_MAX);
        let row = &rows[..rows.len() / ALBUM_PHOTOS_MAX];
        let most = ALBUM_PHOTOS_MAX;
        assert_eq!(
            directory(&[rows, row].concat()),
            Err(AlbumFault::TooMany { most })
        );
        // A photograph of more than one ever has is none of this program's.
        for (bytes, fits) in [
            (PHOTO_BYTES_MAX - 1, 1),
            (PHOTO_BYTES_MAX, 1),
            (PHOTO_BYTES_MAX + 1, 0),
        ] {
            let mut row = row.to_vec();
            for at in [20, 24] {
                row[at..at + 4].copy_from_slice(&bytes.to_le_bytes());
            }
            let found = directory(&row).unwrap();
            assert_eq!(
                (found.items.len(), found.others),
                (fits, 1 - fits),
                "{bytes}"
            );
        }
        let end = Album::default().end().unwrap();
        for (bytes, fits) in [
            (ALBUM_BYTES_MAX - 1, true),
            (ALBUM_BYTES_MAX, true),
            (ALBUM_BYTES_MAX + 1, false),
        ] {
            assert_eq!(directory_at(&end, bytes).is_ok(), fits);
        }
        let name = named(b"b");
        let beside = LOCAL_BYTES + name.len() + ENDING.len();
        for (bytes, fits) in [(0, true), (1, false)] {
            let mut album = Album {
                at: ALBUM_BYTES_MAX - beside,
                ..Album::default()
            };
            assert_eq!(album.head(&name, &vec![0; bytes]).is_some(), fits);
        }
    }
}
