//! Events of what stands around: places, pots, mixes, products, and what the grower knows better than the tables.
//!
//! The first such event of an id brings it into the book. Each field that is there is a change; two phones that change
//! the same field without knowing of each other raise a question, and nothing is lost.

use serde::{Deserialize, Serialize};

use crate::id::{MixId, PlaceId, PotId, ProductId, Subject};
use crate::potting::Pot;
use crate::reference::taxa::Group;
use crate::season::{Warmth, Window};

use super::care::{ActiveCopy, AgentClass, Method};
use super::is_default;

/// Whether a place is under a roof.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cover {
    #[default]
    Roofed,
    OpenToRain,
}

/// How much light a place gets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Shade {
    Bright,
    #[default]
    Medium,
    Deep,
}

/// Where a place lies, in hundred-thousandths of a degree: about a metre. North and east are positive.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "(i32, i32)", into = "(i32, i32)")]
pub struct Coordinates {
    pub north_e5: i32,
    pub east_e5: i32,
}

impl From<(i32, i32)> for Coordinates {
    fn from((north_e5, east_e5): (i32, i32)) -> Self {
        Self { north_e5, east_e5 }
    }
}

impl From<Coordinates> for (i32, i32) {
    fn from(at: Coordinates) -> Self {
        (at.north_e5, at.east_e5)
    }
}

impl Coordinates {
    /// Whether it lies on the earth.
    #[must_use]
    pub const fn is_sound(self) -> bool {
        self.north_e5.unsigned_abs() <= 9_000_000 && self.east_e5.unsigned_abs() <= 18_000_000
    }

    /// As typed or copied from a map: `40.41678, -3.70379`.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let (north, east) = text.split_once(',')?;
        let at = Self {
            north_e5: degrees(north)?,
            east_e5: degrees(east)?,
        };
        at.is_sound().then_some(at)
    }
}

/// Degrees with a point, in hundred-thousandths; further digits are left out.
fn degrees(text: &str) -> Option<i32> {
    let text = text.trim();
    let (sign, digits) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (-1, rest),
        None => (1, text),
    };
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    if !part.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let part: String = part.chars().chain("00000".chars()).take(5).collect();
    let whole: i32 = whole.parse().ok().filter(|whole| *whole >= 0)?;
    let e5 = whole
        .checked_mul(100_000)?
        .checked_add(part.parse().ok()?)?;
    Some(sign * e5)
}

impl std::fmt::Display for Coordinates {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let one = |e5: i32| {
            let sign = if e5 < 0 { "-" } else { "" };
            let e5 = e5.unsigned_abs();
            format!("{sign}{}.{:05}", e5 / 100_000, e5 % 100_000)
        };
        write!(f, "{}, {}", one(self.north_e5), one(self.east_e5))
    }
}

/// A place on the walk.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlaceSet {
    pub place: PlaceId,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Order on the walk; gaps are left for places to come.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub walk: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cover: Option<Cover>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shade: Option<Shade>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub warmth: Option<Warmth>,
    /// Bench area in square centimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub area_cm2: Option<u32>,
    /// Share of plants with a sign, in thousandths, from which the grower acts here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub act_permille: Option<u16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub coordinates: Option<Coordinates>,
    /// The grower's own days between waterings and between feeds; 0 leaves it to what is usual.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub water_days: Option<u16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub feed_days: Option<u16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub retired: Option<bool>,
}

/// A kind of pot or tray.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PotSet {
    pub pot: PotId,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub form: Option<Pot>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub retired: Option<bool>,
}

/// A share of a mix by volume before mixing, in thousandths.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MixShare {
    /// Key of the component in the table of media, or the grower's own word.
    pub component: String,
    pub permille: u16,
}

/// A potting mix.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MixSet {
    pub mix: MixId,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shares: Option<Vec<MixShare>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub life_months: Option<u16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub retired: Option<bool>,
}

/// One use a label allows. What is not typed yet is still missing.
///
/// A rate for one way of applying is none for another: a use names its ways.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LabelUse {
    /// What this use is called within its product; never given to another use.
    pub key: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub methods: Vec<Method>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub against: Vec<AgentClass>,
    /// The label's rate as typed; the lowest where it gives two.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub rate_typed: String,
    /// The highest rate, where the label gives two.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub most_typed: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub soak_s: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub interval_days: Option<u16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most_per_year: Option<u16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reentry_h: Option<u32>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub gear: String,
    /// pH of the water, in tenths.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ph_least: Option<u8>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ph_most: Option<u8>,
    /// What it must not meet, as the label says.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub never_with: String,
    /// Products the label allows in one tank with it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub mix_with: Vec<ProductId>,
    /// It allows emptied pots in the same bath as the plants.
    #[serde(default, skip_serializing_if = "is_default")]
    pub pots_too: bool,
    /// It calls for airing after it: a mist, a fog, or a respirator asked for.
    #[serde(default, skip_serializing_if = "is_default")]
    pub airing: bool,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A product as its label says; what is not typed yet is still missing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ProductSet {
    pub product: ProductId,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label_name: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub registration: Option<String>,
    /// Code of the formulation as the trade writes it: EC, SC, WG.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub formulation: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub actives: Option<Vec<ActiveCopy>>,
    /// What the label allows, use by use, once it is typed out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub uses: Option<Vec<LabelUse>>,
    /// Label rate as typed, with its unit, before the uses are told apart.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rate_typed: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reentry_h: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label_photo: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub retired: Option<bool>,
}

/// What the grower knows of a group of plants in this nursery, before any table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GroupSet {
    /// Key of the group in the table of plant groups.
    pub group: Group,
    /// Own repot windows as they are here, not shifted by hemisphere.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub repot_windows: Option<Vec<Window>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flowering_windows: Option<Vec<Window>>,
    /// Whether this group gets the light strength of protocols.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub light: Option<bool>,
    /// The grower's own days between waterings of this group; 0 leaves it to what is usual.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub water_days: Option<u16>,
}

impl PlaceSet {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Place(self.place)]
    }
}

impl PotSet {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Pot(self.pot)]
    }
}

impl MixSet {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Mix(self.mix)]
    }
}

impl ProductSet {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Product(self.product)]
    }
}

impl GroupSet {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Book]
    }
}
