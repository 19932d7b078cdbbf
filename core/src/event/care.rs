//! Events of care: treatments, findings, what was observed, what was decided about a task.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::id::{
    ClumpId, ContainerId, EntryRef, FindingId, LotId, NoteTaskId, PlaceId, ProductId, ProtocolId,
    Subject, TreatmentId,
};
use crate::task::{Protocol, TaskKind};

use super::is_default;
use super::lot::PieceClass;

/// How a product meets the plants.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Method {
    Bath,
    Plunge,
    Drench,
    Spray,
    Swab,
    DustCut,
}

/// What a treatment is against.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AgentClass {
    Fungus,
    WaterMould,
    Bacterium,
    Insect,
    Mite,
    Mollusc,
    Virus,
    /// Culture, weather, age: no living agent.
    Culture,
    Unknown,
}

impl AgentClass {
    pub const ALL: [Self; 9] = [
        Self::Fungus,
        Self::WaterMould,
        Self::Bacterium,
        Self::Insect,
        Self::Mite,
        Self::Mollusc,
        Self::Virus,
        Self::Culture,
        Self::Unknown,
    ];
}

/// Whether a treatment answers something seen or forestalls it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Aim {
    #[default]
    Curing,
    Preventing,
}

/// How a closed house is aired after a spray before anybody goes in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Airing {
    Fans,
    /// Roof and side vents open, no fan.
    Vents,
    /// Left shut, then opened.
    Shut,
}

/// One active ingredient with its content and mode-of-action codes, copied from the label.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ActiveCopy {
    pub name: String,
    /// Content in milligrams per litre or per kilogram of product.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub content_mg: Option<i64>,
    /// As typed, with its unit.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub content_typed: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub codes: Vec<String>,
}

/// What the label said when the product was used: a later edit of the product never rewrites this.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ProductCopy {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<ProductId>,
    pub label_name: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub registration: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub actives: Vec<ActiveCopy>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub rate_typed: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub batch: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reentry_h: Option<u32>,
    /// The container it was taken from: what was measured for this use is no longer in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub container: Option<ContainerId>,
}

/// What was treated: a lot or part of it, or pieces of a clump that have no lot yet.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum TreatedPart {
    Lot {
        lot: LotId,
        plants: u32,
    },
    Pieces {
        clump: ClumpId,
        class: PieceClass,
        plants: u32,
    },
}

impl TreatedPart {
    #[must_use]
    pub const fn plants(&self) -> u32 {
        match self {
            Self::Lot { plants, .. } | Self::Pieces { plants, .. } => *plants,
        }
    }
}

/// A treatment was carried out. Carries the superset of what records are asked to hold.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Treated {
    pub treatment: TreatmentId,
    pub method: Method,
    pub parts: Vec<TreatedPart>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    pub against: AgentClass,
    #[serde(default, skip_serializing_if = "is_default")]
    pub aim: Aim,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub finding: Option<FindingId>,
    pub product: ProductCopy,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub water_ul: Option<i64>,
    /// Product measured into the water: microlitres or milligrams, one of the two.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_ul: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_mg: Option<i64>,
    /// Nothing was measured anew: it went into the mixture made for this earlier treatment.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub same_mix_as: Option<TreatmentId>,
    /// Mixed into the same tank as the product of this treatment.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tank_with: Option<TreatmentId>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub started_ms: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ended_ms: Option<i64>,
    /// Soak wanted, and counted from the last piece in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub soak_s: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub soaked_s: Option<u32>,
    /// Emptied pots that lay in the bath with the plants: soaked in fungicide, and no cleaner for it.
    #[serde(default, skip_serializing_if = "is_default")]
    pub pots: u32,
    /// The time of soaking is the grower's own: the label gives none.
    #[serde(default, skip_serializing_if = "is_default")]
    pub soak_own: bool,
    /// Nobody goes near before this instant, as shown then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until_ms: Option<i64>,
    /// How the house was to be aired, where that is asked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub airing: Option<Airing>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub person: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub licence: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub gear: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub weather: String,
    /// Code of the plant, and its growth stage, where a rule of records asks for them.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub plant_code: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub growth_stage: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub disposal: String,
    /// Why it was gone on with against a caution.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub reason: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Where something was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SeenOn {
    Lot(LotId),
    Clump(ClumpId),
    Place(PlaceId),
}

impl SeenOn {
    pub(crate) fn subject(self) -> Subject {
        match self {
            Self::Lot(id) => Subject::Lot(id),
            Self::Clump(id) => Subject::Clump(id),
            Self::Place(id) => Subject::Place(id),
        }
    }
}

/// How soon a finding needs an answer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Urgency {
    Today,
    #[default]
    ThisWeek,
    Watch,
}

/// A photograph kept in the phone's own store under its hash.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoRef {
    pub sha256: String,
    pub bytes: u32,
    #[serde(rename = "type")]
    pub media_type: String,
}

/// Something was seen: of disease, pest or of the plant itself ("outgrown").
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Found {
    pub finding: FindingId,
    pub on: SeenOn,
    /// Key of the sign in the vocabulary of findings.
    pub sign: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub part: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub agent: Option<AgentClass>,
    /// `affected` of `looked_at` plants.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub affected: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub looked_at: Option<u32>,
    /// How bad the worst of them is, 1 (a trace) to 5 (dying).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub severity: Option<u8>,
    /// Where the lot stood then, so that what was seen stays with the place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub urgency: Urgency,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<PhotoRef>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// What a grower notices of a plant's own course.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sight {
    SpikeSeen,
    FirstOpen,
    FlowerOver,
    NewGrowth,
    RootTips,
    Outgrown,
    FallenOver,
    Resting,
}

impl Sight {
    pub const ALL: [Self; 8] = [
        Self::Outgrown,
        Self::FallenOver,
        Self::SpikeSeen,
        Self::FirstOpen,
        Self::FlowerOver,
        Self::NewGrowth,
        Self::RootTips,
        Self::Resting,
    ];
}

/// A plant's own course was observed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Observed {
    pub lot: LotId,
    pub what: Sight,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plants: Option<u32>,
    /// How good the flower was, 1 (poor) to 5 (best).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub good: Option<u8>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Which occurrence of which step, for which subject. Steps are named, never numbered.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TaskKey {
    /// The entry and event that set the task going.
    pub anchor: EntryRef,
    pub event: u16,
    pub subject: Subject,
    pub step: String,
    #[serde(default, skip_serializing_if = "is_default")]
    pub repeat: u16,
}

/// What came of looking, where a step asks for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    Well,
    NeedsMore,
}

/// What was decided about one occurrence.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum TaskAnswer {
    Done {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        outcome: Option<Outcome>,
    },
    PutOff {
        to: NaiveDate,
    },
    NotNeeded,
}

/// One occurrence of a task was decided; copies what it was, so that history reads the same after any edit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TaskDecided {
    pub task: TaskKey,
    pub answer: TaskAnswer,
    pub kind: TaskKind,
    pub due_on: NaiveDate,
    #[serde(default, skip_serializing_if = "is_default")]
    pub revision: u16,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
}

/// A task of the grower's own.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TaskNoted {
    pub task: NoteTaskId,
    pub text: String,
    pub due_on: NaiveDate,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub repeat_days: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lot: Option<LotId>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    /// A treatment that is to follow: with which product.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<ProductId>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub outside_ref: String,
    /// A look for a pest's next generation: its day follows the warmth of the house, and `due_on` is the table's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub generation: Option<GenerationLook>,
}

/// Which look after which finding, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GenerationLook {
    pub finding: FindingId,
    pub nth: u8,
}

/// A protocol was taken into the book, or a new revision of one.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ProtocolAdopted {
    pub protocol: ProtocolId,
    pub revision: u16,
    pub content: Protocol,
}

impl Treated {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        let parts = self.parts.iter().map(|part| match part {
            TreatedPart::Lot { lot, .. } => Subject::Lot(*lot),
            TreatedPart::Pieces { clump, .. } => Subject::Clump(*clump),
        });
        let place = self.place.map(Subject::Place);
        std::iter::once(Subject::Treatment(self.treatment))
            .chain(parts)
            .chain(place)
            .collect()
    }
}

impl Found {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Finding(self.finding), self.on.subject()]
    }
}

impl Observed {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Lot(self.lot)]
    }
}

impl TaskDecided {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![self.task.subject]
    }
}

impl TaskNoted {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::NoteTask(self.task)]
    }
}

impl ProtocolAdopted {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Protocol(self.protocol)]
    }
}
