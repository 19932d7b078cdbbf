//! Every stated maximum in one place. Beyond a limit there is a clear refusal, never a cut or a crash.

/// Characters of a short text: a name, a batch, a person.
pub const TEXT_CHARS_MAX: usize = 200;
/// Characters of a note.
pub const NOTE_CHARS_MAX: usize = 4_000;
/// Plants in one event.
pub const PLANTS_MAX: u32 = 100_000;
/// Booked lots that may have grown into one clump.
pub const CLUMP_LOTS_MAX: usize = 20;
/// Pieces of one class off one clump.
pub const PIECES_MAX: u32 = 2_000;
/// Events in one entry.
pub const EVENTS_MAX: usize = 2_000;
/// Rows of a stock list taken in at once.
pub const LISTED_ROWS_MAX: usize = 5_000;
/// Bytes of one line of the book.
pub const LINE_BYTES_MAX: usize = 1 << 20;
/// Entries of one book: twenty phones that each write 130 a day for a year reach it.
pub const BOOK_ENTRIES_MAX: usize = 1_000_000;
/// Bytes of a file taken in, unpacked; its lines, digests and blank ones among them; files looked at in one go.
pub const FILE_BYTES_MAX: usize = 256 << 20;
pub const FILE_LINES_MAX: usize = 1_100_000;
pub const FILES_MAX: usize = 50;
/// How many times its own size a packed file may become. A book becomes ten times, made-up bombs a thousand times. The
/// first bytes are free, since a short text packs better than a long one.
pub const EXPANSION_MAX: usize = 200;
pub const EXPANSION_FREE_BYTES: usize = 1 << 20;
/// Shared folder: files of phones in it.
pub const FOLDER_FILES_MAX: usize = 64;
/// A file under a passphrase: characters of the passphrase, rounds of its hashing, bytes under one seal.
pub const PASSPHRASE_CHARS_MIN: usize = 10;
pub const PASSPHRASE_CHARS_MAX: usize = 200;
pub const ROUNDS_MIN: u32 = 100_000;
pub const ROUNDS_MAX: u32 = 5_000_000;
pub const CHUNK_BYTES_MIN: usize = 1 << 10;
pub const CHUNK_BYTES_MAX: usize = 1 << 20;
/// A file as squares on a screen: its bytes, those of one square, and how many squares there are then. Longer than half a
/// minute nobody holds a camera still, and of smaller modules the slower reader misses too many.
pub const REEL_BYTES_MAX: usize = 8 << 10;
pub const REEL_PART_BYTES: usize = 240;
pub const REEL_PARTS_MAX: usize = 35;
/// Photographs in one ZIP, and its bytes.
pub const ALBUM_PHOTOS_MAX: usize = 2_000;
pub const ALBUM_BYTES_MAX: usize = 200 << 20;
/// Months a record is kept: a century.
pub const KEEP_MONTHS_MAX: u16 = 1_200;
/// Photographs of one finding.
pub const PHOTOS_MAX: usize = 6;
/// Bytes of a picture that is read, bytes of the photograph made of it, and its longer side.
pub const PHOTO_SOURCE_BYTES_MAX: u32 = 40 << 20;
pub const PHOTO_BYTES_MAX: u32 = 2 << 20;
pub const PHOTO_SIDE_PX_MAX: u32 = 1_600;
/// Steps of one protocol, and days a step may lie from its event.
pub const STEPS_MAX: usize = 60;
pub const OFFSET_DAYS_MAX: i32 = 3_660;
/// Civil days the book accepts: nothing before the first, nothing later than this many days ahead.
pub const FIRST_YEAR: i32 = 1950;
pub const AHEAD_DAYS_MAX: i64 = 3_660;
/// A phone's clock this far from the order of entries is asked about.
pub const CLOCK_ASTRAY_MS: i64 = 24 * 3_600_000;
/// No clock that is right stands before this program was there: 1 November 2025.
pub const CLOCK_FIRST_MS: i64 = 1_761_955_200_000;
/// Entries of one block in a file, under one digest.
pub const BLOCK_LINES: usize = 256;
/// What a thermometer in a house may have shown, in thousandths of a degree Celsius.
pub const AIR_MC_MIN: i32 = -40_000;
pub const AIR_MC_MAX: i32 = 55_000;
/// Rain of one day in thousandths of a millimetre: two metres.
pub const RAIN_UM_MAX: u32 = 2_000_000;
/// Days of readings in one entry: two years of a logger.
pub const READINGS_MAX: usize = 800;
/// Tools that alternate at one bench, and kinds of pot in one move.
pub const TOOLS_MAX: u8 = 6;
pub const MOVED_MAX: usize = 60;
/// Days the weather may move a step by.
pub const WEATHER_DAYS_MAX: i32 = 60;
/// Uses on one label, and active ingredients in one product.
pub const USES_MAX: usize = 20;
pub const ACTIVES_MAX: usize = 12;
/// Measures on the shelf, and the most one may hold: 20 L, or 20 kg on a scale.
pub const MEASURES_MAX: usize = 40;
pub const MEASURE_MAX: i64 = 20_000_000;
/// Containers on the shelf, and the most one may hold: 1 000 L, or 1 000 kg.
pub const CONTAINERS_MAX: usize = 200;
pub const CONTAINER_MAX: i64 = 1_000_000_000;
/// Seconds plants may lie in a bath: two days.
pub const SOAK_S_MAX: u32 = 48 * 3_600;
/// Microlitres of water in one tub: two cubic metres.
pub const TUB_UL_MAX: i64 = 2_000_000_000;
/// Own days between waterings or feeds.
pub const OWN_DAYS_MAX: u16 = 120;
/// Lots named in one watering, and feeds on the shelf.
pub const WATERED_LOTS_MAX: usize = 2_000;
pub const FEEDS_MAX: usize = 40;
/// Nitrogen in milligrams a litre, how many times an injector thins, and conductivity in microsiemens a centimetre.
pub const FEED_PPM_MAX: u32 = 2_000;
pub const INJECTOR_MAX: u32 = 1_000;
pub const EC_US_CM_MAX: u32 = 20_000;
/// A price in hundredths: a hundred million of the nursery's money. What one pack holds: pieces, and microlitres or
/// milligrams (see containers).
pub const PRICE_CENTS_MAX: i64 = 10_000_000_000;
pub const PACK_PIECES_MAX: i64 = 1_000_000;
/// Rows of the table of rotation.
pub const ROTATION_ROWS_MAX: usize = 100;
/// Days a stay in quarantine may be set to: five years.
pub const QUARANTINE_DAYS_MAX: u16 = 1_830;
