//! Why the book refuses a command: the fact, as data. The words are the screens'.

use chrono::NaiveDate;

use crate::climate::ReadingFault;
use crate::code::LotCode;
use crate::event::{PieceClass, Stage};
use crate::id::{ContainerId, EntryRef, LotId, PlaceId, PotId, Subject};
use crate::name::NameFault;
use crate::potting::PottingRejection;
use crate::quantity::{Amount, QuantityError};
use crate::task::ProtocolFault;
use crate::text::TextFault;

/// A field a refusal points at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Input {
    Nursery,
    Name,
    Code,
    Plants,
    Pots,
    Pieces,
    Note,
    Text,
    Date,
    Latitude,
    Walk,
    Tray,
    Pot,
    Mix,
    Rate,
    Photo,
    Good,
    Person,
    Soak,
    Active,
    KeepMonths,
    Stone,
    Strength,
    Tools,
    Measure,
    Container,
    Water,
    Coordinates,
    Threshold,
    Severity,
    Test,
    Days,
    Nitrogen,
    Injector,
    Ec,
    Feed,
    Lots,
    Price,
    Size,
    Money,
}

/// Why not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Rejection {
    /// There is no book yet.
    NoBook,
    BookAlreadyOpen,
    /// This phone has not joined the book.
    PhoneNotJoined,
    /// The subject is not in the book.
    NotInTheBook {
        subject: Subject,
    },
    /// Something about it was written by a newer version.
    NeedsNewerVersion {
        subject: Subject,
    },
    Missing {
        input: Input,
    },
    BadText {
        input: Input,
        fault: TextFault,
    },
    BadName(NameFault),
    BadPot(PottingRejection),
    /// A label's rate that cannot be read.
    BadRate(QuantityError),
    TooMany {
        input: Input,
        most: u64,
    },
    OutOfRange {
        input: Input,
        least: i64,
        most: i64,
    },
    DayOutOfRange {
        first: NaiveDate,
        last: NaiveDate,
    },
    NothingToDo,
    /// The lot holds fewer.
    MoreThanThereAre {
        lot: LotId,
        plants: i64,
        stands: i64,
    },
    /// Fewer are free: the others are kept for somebody.
    MoreThanFree {
        lot: LotId,
        free: i64,
        reserved: i64,
    },
    /// It was sold or let go already.
    NotReserved,
    /// The lot is on the bench in another clump.
    AllOnTheBench {
        lot: LotId,
    },
    LotTwice {
        lot: LotId,
    },
    ClumpClosed,
    MorePottedThanPieces {
        class: PieceClass,
        taken: u64,
        potted: u64,
    },
    FewerThanPotted {
        class: PieceClass,
        potted: u64,
    },
    /// Kept pieces still lie bare.
    PiecesBare {
        pieces: u64,
    },
    /// Something was cut already: the lots cannot go back as they came.
    AlreadyCut,
    CodeTaken {
        code: LotCode,
        lot: LotId,
    },
    NoCodesLeft,
    TrayInUse {
        tray: u32,
    },
    /// Fewer pots, or less stone in microlitres, stand at that stage.
    FewerThere {
        stage: Stage,
        left: i64,
        stone: bool,
    },
    /// It came of plants suspected of a virus, and no more of it went through heat that reaches it.
    KeptApart {
        freed: i64,
        stone: bool,
    },
    Reading(ReadingFault),
    Protocol(ProtocolFault),
    /// The occurrence is not open.
    TaskNotOpen,
    PutOffToThePast {
        today: NaiveDate,
    },
    NotTheSameEvent,
    AlreadyWithdrawn {
        entry: EntryRef,
    },
    /// Lots stand in the place whose beginning would go.
    PlaceInUse {
        place: PlaceId,
        lots: usize,
    },
    OthersRestOnIt {
        entries: Vec<EntryRef>,
    },
    MoreAffectedThanLookedAt {
        affected: u32,
        looked_at: u32,
    },
    /// Between the least and the most of a measure there is no mark.
    NoMarkBetween,
    /// The lot is in quarantine: it stays where it is, and stays alone.
    InQuarantine {
        lot: LotId,
        since_on: NaiveDate,
    },
    NotInQuarantine {
        lot: LotId,
    },
    /// Something is still waited for; it may come out early, with a reason.
    QuarantineHolds {
        lot: LotId,
    },
    MorePooledThanPlants {
        pooled: u32,
        plants: i64,
    },
    /// A container filled by weight is counted in grams, one filled by volume in millilitres.
    OtherUnit {
        weighs: bool,
    },
    /// The bath was emptied already.
    BathOver,
    EntryTooLarge,
}

/// Something to think about that does not refuse.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Caution {
    /// More pieces than bulbs were counted: a broken shoot has no bulb, but look again.
    MorePiecesThanBulbs { pieces: u64, bulbs: u64 },
    /// Outside the window the plant and house like.
    OutsideWindow {
        lot: LotId,
        next_opening: Option<NaiveDate>,
    },
    /// Fewer clean pots of that kind are counted than are potted into now.
    FewCleanPots { pot: PotId, clean: i64, wanted: u32 },
    /// The day lies more than a month back.
    LongAgo { on: NaiveDate },
    /// A virus was found in it or in what it comes from.
    Suspect { lot: LotId },
    /// More was taken from a container than was reckoned to be in it.
    MoreThanHeld {
        container: ContainerId,
        left: Amount,
    },
    /// The container was past its date.
    Expired {
        container: ContainerId,
        on: NaiveDate,
    },
    /// It comes out of quarantine before all holds.
    OutEarly { lot: LotId },
}
