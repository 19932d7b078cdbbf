//! What a person asks the book to record: imperative, and it may be refused.

use chrono::NaiveDate;

use crate::climate::Reading;
use crate::code::{LotCode, Prefix};
use crate::event::*;
use crate::id::*;
use crate::name::PlantName;
use crate::potting::Pot;
use crate::quantity::{Amount, Volume};
use crate::quarantine::Terms;
use crate::season::Hemisphere;
use crate::task::Protocol;
use crate::task::derive::Task;

/// A command. One command gives one entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Command {
    OpenBook(OpenBook),
    /// This phone joins a book that was taken in from a file.
    JoinPhone {
        prefix: Prefix,
        name: String,
    },
    SetBook(BookSet),
    /// A new place when `place` is `None`; else a change of one.
    SetPlace {
        place: Option<PlaceId>,
        name: Option<String>,
        walk: Option<u32>,
        about: PlaceTraits,
    },
    SetPot {
        pot: Option<PotId>,
        name: Option<String>,
        form: Option<Pot>,
        retired: Option<bool>,
    },
    SetMix {
        mix: Option<MixId>,
        name: Option<String>,
        shares: Option<Vec<MixShare>>,
        life_months: Option<u16>,
        retired: Option<bool>,
    },
    /// A new measure when `measure` is `None`; else a change of one.
    SetMeasure {
        measure: Option<MeasureId>,
        traits: MeasureTraits,
    },
    SetProduct {
        product: Option<ProductId>,
        traits: ProductTraits,
    },
    /// A new container when `container` is `None`; else a change of one.
    SetContainer {
        container: Option<ContainerId>,
        traits: ContainerTraits,
    },
    /// Somebody looked how much is left.
    CountContainer {
        container: ContainerId,
        left: Amount,
    },
    /// Something left it without treating a plant.
    UseFromContainer {
        container: ContainerId,
        amount: Amount,
        why: UsedWhy,
        note: String,
    },
    SetGroup(GroupSet),
    /// A new feed when `feed` is `None`; else a change of one.
    SetFeed {
        feed: Option<FeedId>,
        traits: FeedTraits,
    },
    Water(Water),
    Feed(Feed),
    /// The whole table by which runs of one mode of action are judged.
    SetRotation(crate::rotation::RotationRules),
    SetPrice(PriceSet),
    ReceiveLot(ReceiveLot),
    SplitLot {
        from: LotId,
        plants: u32,
        stands: u32,
        place: Option<PlaceId>,
        why: SplitWhy,
    },
    NameLot {
        lot: LotId,
        name: PlantName,
    },
    RecodeLot {
        lot: LotId,
        code: Option<LotCode>,
    },
    MoveLot {
        lot: LotId,
        to: PlaceId,
    },
    CountLot {
        lot: LotId,
        plants: u32,
        stands: u32,
    },
    LoseFromLot {
        lot: LotId,
        plants: u32,
        stands: u32,
        cause: LossCause,
        note: String,
    },
    SellFromLot {
        lot: LotId,
        plants: u32,
        stands: u32,
        to: String,
        price_cents: Option<i64>,
        note: String,
    },
    ReserveInLot {
        lot: LotId,
        plants: u32,
        to: String,
        until_on: Option<NaiveDate>,
        note: String,
    },
    ReleaseInLot {
        lot: LotId,
        reserved: EntryRef,
        plants: u32,
    },
    SellReserved {
        lot: LotId,
        reserved: EntryRef,
        plants: u32,
        stands: u32,
        price_cents: Option<i64>,
        note: String,
    },
    GainInLot {
        lot: LotId,
        plants: u32,
        stands: u32,
        why: GainWhy,
        note: String,
    },
    RepotLot {
        lot: LotId,
        stands: u32,
        potting: Potting,
        class: Option<PieceClass>,
    },
    /// Tools and gloves are clean; how many tools alternate, where more than one.
    ConfirmHygiene {
        tool_change: ToolChange,
        tools: Option<u8>,
    },
    Sanitise(Sanitise),
    /// Pots and stone went from one stage to another.
    MoveMaterials {
        moved: Vec<Material>,
        from: Stage,
        to: Stage,
        apart: Option<Subject>,
        note: String,
    },
    /// What lots, or a clump on the bench, are meant to become; nothing drops the plan.
    PlanDivision {
        lots: Vec<LotId>,
        clump: Option<ClumpId>,
        plan: Option<CutPlan>,
    },
    OpenDivision(OpenDivision),
    /// Pieces counted off a clump: the change since the last time, by class.
    TakePieces {
        clump: ClumpId,
        pieces: Vec<CountedPieces>,
    },
    PotPieces {
        clump: ClumpId,
        batches: Vec<Batch>,
    },
    CloseDivision {
        clump: ClumpId,
        how: ClosedHow,
        dirty_pots: u32,
        note: String,
    },
    RecordTreatment(RecordTreatment),
    /// A bath was filled up at its original strength.
    TopUpBath {
        bath: TreatmentId,
        water: Volume,
        amount: Amount,
        container: Option<ContainerId>,
    },
    /// The tub is empty.
    EndBath {
        bath: TreatmentId,
        left: Option<Volume>,
        disposal: String,
    },
    RecordFinding(RecordFinding),
    EnterQuarantine(EnterQuarantine),
    /// Early only with a reason.
    ReleaseQuarantine {
        lot: LotId,
        early: String,
    },
    RecordTest(RecordTest),
    /// What is to become of lots at risk by another.
    FollowTrace {
        source: LotId,
        lots: Vec<LotId>,
        answer: TraceAnswer,
    },
    Observe {
        lots: Vec<LotId>,
        what: Sight,
        good: Option<u8>,
        note: String,
    },
    /// The same answer for several occurrences: a row of the Round is one tap.
    DecideTasks {
        tasks: Vec<Task>,
        answer: TaskAnswer,
        why: String,
    },
    NoteTask {
        task: Option<NoteTaskId>,
        text: String,
        due_on: NaiveDate,
        repeat_days: Option<u32>,
        lot: Option<LotId>,
        place: Option<PlaceId>,
    },
    /// Looks for a pest's next generations, on days that follow the warmth of the house.
    LookByGeneration {
        finding: FindingId,
        text: String,
    },
    AdoptProtocol {
        protocol: Option<ProtocolId>,
        content: Protocol,
    },
    /// Minimum and maximum of a house, a day at a time.
    ReadClimate {
        place: PlaceId,
        days: Vec<(NaiveDate, Reading)>,
    },
    /// Takes another phone off the book.
    TakeOffPhone {
        dev: Dev,
        note: String,
    },
    CorrectClock {
        dev: Dev,
        from_seq: u32,
        to_seq: u32,
        shift_ms: i64,
    },
    Amend {
        target: EntryRef,
        index: u16,
        event: Event,
        why: String,
    },
    /// Refused while other entries rest on the targets, unless `with_dependents`.
    Withdraw {
        targets: Vec<EntryRef>,
        with_dependents: bool,
        why: WithdrawWhy,
        note: String,
    },
    Settle {
        subject: Subject,
        anomaly: String,
        note: String,
    },
    /// It happened on another civil day.
    OnDay {
        on: NaiveDate,
        command: Box<Command>,
    },
    /// It comes from another program, where it has a name of its own; kept with a lot or a task that is brought in.
    FromOutside {
        outside_ref: String,
        command: Box<Command>,
    },
    /// Several at once, in one entry, all or none.
    Together(Vec<Command>),
}

/// Everything a new book starts with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenBook {
    /// Random identity of the book.
    pub book: Dev,
    pub nursery: String,
    pub hemisphere: Hemisphere,
    pub latitude_cdeg: Option<i32>,
    pub demo: bool,
    pub prefix: Prefix,
    pub phone_name: String,
    /// Pots and mixes it begins with, named in the grower's language.
    pub pots: Vec<(String, Pot)>,
    pub mixes: Vec<(String, Vec<MixShare>, u16)>,
}

/// What may be said of a place beside its name and order; each field that is there is a change.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PlaceTraits {
    pub cover: Option<Cover>,
    pub shade: Option<Shade>,
    pub warmth: Option<crate::season::Warmth>,
    pub area_cm2: Option<u32>,
    pub act_permille: Option<u16>,
    pub coordinates: Option<Coordinates>,
    /// Own days between waterings and feeds; 0 leaves it to what is usual.
    pub water_days: Option<u16>,
    pub feed_days: Option<u16>,
    pub retired: Option<bool>,
}

/// What may be said of a measure; each field that is there is a change. Amounts in microlitres, milligrams on a scale.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct MeasureTraits {
    pub name: Option<String>,
    pub kind: Option<MeasureKind>,
    pub least: Option<i64>,
    pub most: Option<i64>,
    pub graduation: Option<i64>,
    pub retired: Option<bool>,
}

/// What may be said of a product; each field that is there is a change.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ProductTraits {
    pub label_name: Option<String>,
    pub registration: Option<String>,
    pub formulation: Option<String>,
    pub actives: Option<Vec<ActiveCopy>>,
    pub uses: Option<Vec<LabelUse>>,
    pub rate_typed: Option<String>,
    pub reentry_h: Option<u32>,
    pub label_photo: Option<String>,
    pub retired: Option<bool>,
}

/// What may be said of a feed; each field that is there is a change.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FeedTraits {
    pub name: Option<String>,
    pub npk_typed: Option<String>,
    pub nitrogen: Option<Nitrogen>,
    pub ec_us_cm: Option<u32>,
    pub retired: Option<bool>,
}

/// Who gets water: a place but for some, or lots by themselves.
///
/// Plants of the place that are held, or that rest, are left out by themselves unless they are named in `also`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Drinkers {
    pub place: Option<PlaceId>,
    pub except: Vec<LotId>,
    pub also: Vec<LotId>,
    pub lots: Vec<LotId>,
}

/// Plants watered.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Water {
    pub who: Drinkers,
    pub how: WaterHow,
    pub flush: bool,
    pub note: String,
}

/// Plants fed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Feed {
    pub who: Drinkers,
    pub how: WaterHow,
    /// The feed of the shelf; `None` where what was given has no label here.
    pub feed: Option<FeedId>,
    pub nitrogen_ppm: Option<u32>,
    pub water_ul: Option<i64>,
    pub injector: Option<u32>,
    pub ec_us_cm: Option<u32>,
    pub water_ec_us_cm: Option<u32>,
    pub note: String,
}

/// What may be said of a container; each field that is there is a change.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ContainerTraits {
    /// Of which product it is; said once, when it comes.
    pub product: Option<ProductId>,
    pub batch: Option<String>,
    pub opened_on: Option<NaiveDate>,
    pub expires_on: Option<NaiveDate>,
    pub held: Option<Held>,
    /// What is in it now, where that is not all it held.
    pub left: Option<Amount>,
    pub retired: Option<bool>,
}

/// A lot that comes into the book. Without a code the phone's next one is taken.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ReceiveLot {
    pub code: Option<LotCode>,
    pub name: PlantName,
    pub plants: u32,
    pub stands: u32,
    pub place: Option<PlaceId>,
    pub class: Option<PieceClass>,
    pub source: Source,
    pub from: String,
    pub outside_ref: String,
    pub potted_on: Option<NaiveDate>,
    pub potting: Potting,
    pub note: String,
}

/// A clump that comes to the bench.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OpenDivision {
    pub tray: u32,
    pub lots: Vec<OpenedLot>,
    pub unbooked_pots: u32,
    pub name: PlantName,
    pub place: Option<PlaceId>,
    pub leads: Option<u32>,
    pub bulbs: Option<u32>,
    /// The tool was not changed after the last clump.
    pub same_tool: bool,
    /// What it is meant to become.
    pub plan: Option<CutPlan>,
}

/// Something disinfected, as it was carried out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sanitise {
    pub what: Object,
    pub materials: Vec<Material>,
    pub agent: String,
    pub strength_ppm: Option<u32>,
    pub stock_ppm: Option<u32>,
    pub bath_ul: Option<i64>,
    pub stock_ul: Option<i64>,
    pub stock_mg: Option<i64>,
    pub mixed_ms: Option<i64>,
    pub wanted_s: Option<u32>,
    pub contact_s: Option<u32>,
    pub started_ms: Option<i64>,
    pub ended_ms: Option<i64>,
    pub cleaned_first: bool,
    pub suspect_source: bool,
    pub apart: Option<Subject>,
    pub note: String,
}

/// Pieces of one class counted off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CountedPieces {
    pub class: PieceClass,
    pub plants: i32,
    pub bulbs: Option<u32>,
}

/// Pieces of one class that go into pots as one lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Batch {
    pub class: PieceClass,
    /// Reserved for the labels when the batch was set up; the next one when `None`.
    pub code: Option<LotCode>,
    pub name: Option<PlantName>,
    pub plants: u32,
    pub stands: u32,
    pub with: Option<LotId>,
    pub potting: Potting,
    pub place: Option<PlaceId>,
}

/// A treatment as it was carried out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordTreatment {
    /// As it will be stored; its `treatment` id is given by the book.
    pub treated: TreatedParts,
    pub method: Method,
    pub against: AgentClass,
    pub aim: Aim,
    pub product: ProductCopy,
    pub place: Option<PlaceId>,
    pub finding: Option<FindingId>,
    pub water_ul: Option<i64>,
    pub amount_ul: Option<i64>,
    pub amount_mg: Option<i64>,
    pub same_mix_as: Option<TreatmentId>,
    pub started_ms: Option<i64>,
    pub ended_ms: Option<i64>,
    pub soak_s: Option<u32>,
    pub soaked_s: Option<u32>,
    pub soak_own: bool,
    /// Emptied pots that lay in it with the plants.
    pub pots: u32,
    pub until_ms: Option<i64>,
    pub airing: Option<Airing>,
    /// A second product in the same tank: a record of its own, in the same entry.
    pub tank: Option<Box<TankPartner>>,
    /// What is to follow it.
    pub then: Option<NextTreatment>,
    pub person: String,
    pub licence: String,
    pub gear: String,
    pub reason: String,
    pub note: String,
}

/// The second product of one tank.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TankPartner {
    pub product: ProductCopy,
    pub against: AgentClass,
    pub aim: Aim,
    pub amount_ul: Option<i64>,
    pub amount_mg: Option<i64>,
    pub same_mix_as: Option<TreatmentId>,
    pub reason: String,
}

/// A treatment that is to follow, as a task of the grower's own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NextTreatment {
    /// As it stands on the Round.
    pub text: String,
    pub due_on: NaiveDate,
    /// What it is to be done with.
    pub product: Option<ProductId>,
}

/// The parts treated.
pub type TreatedParts = Vec<TreatedPart>;

/// Something seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordFinding {
    pub on: SeenOn,
    pub sign: String,
    pub part: String,
    pub agent: Option<AgentClass>,
    pub affected: Option<u32>,
    pub looked_at: Option<u32>,
    /// 1 (a trace) to 5 (dying).
    pub severity: Option<u8>,
    pub urgency: Urgency,
    pub photos: Vec<PhotoRef>,
    pub note: String,
}

/// Lots that go into quarantine.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct EnterQuarantine {
    pub lots: Vec<LotId>,
    pub why: QuarantineWhy,
    pub finding: Option<FindingId>,
    pub terms: Terms,
    /// Where they are put; from then on they stay there.
    pub place: Option<PlaceId>,
    pub note: String,
}

/// A test of a lot, for one virus or more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordTest {
    pub lot: LotId,
    pub method: TestMethod,
    pub results: Vec<(Virus, TestResult)>,
    pub tissue: Tissue,
    pub pooled: u32,
    pub laboratory: String,
    pub note: String,
}

/// What becomes of a lot that a trace found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TraceAnswer {
    /// Tests 30 and 240 days after it was exposed.
    Test,
    /// A look at it now.
    Look,
    /// Nothing, and why.
    Clear { why: String },
}
