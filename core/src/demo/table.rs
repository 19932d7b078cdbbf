//! What the example nursery has: places in walking order, plants, products. What they are called stands in the phrases.
//!
//! Species are real; what stands in quotes is invented, and so is everything else. Product names say what is in them
//! and belong to no maker; their rates are there to be seen, the label in the hand decides.

use crate::event::{AgentClass, Cover, LossCause, Method, Shade};
use crate::season::Warmth;

pub(super) const COOL_LEFT: usize = 0;
pub(super) const COOL_RIGHT: usize = 1;
pub(super) const MILD: usize = 2;
pub(super) const SHELF: usize = 3;
pub(super) const RAIN: usize = 4;
pub(super) const APART: usize = 5;

/// Nights, light, roof, square centimetres.
pub(super) const PLACES: [(Warmth, Shade, Cover, u32); 6] = [
    (Warmth::Cool, Shade::Bright, Cover::Roofed, 90_000),
    (Warmth::Cool, Shade::Medium, Cover::Roofed, 90_000),
    (Warmth::Intermediate, Shade::Medium, Cover::Roofed, 60_000),
    (Warmth::Intermediate, Shade::Deep, Cover::Roofed, 24_000),
    (Warmth::Cool, Shade::Bright, Cover::OpenToRain, 48_000),
    (Warmth::Intermediate, Shade::Medium, Cover::Roofed, 9_000),
];

/// Name as a grower types it, place, lots of it, most plants in one of them.
pub(super) const PLANTS: [(&str, usize, u32, u32); 30] = [
    ("Cymbidium lowianum", COOL_LEFT, 2, 6),
    ("Cymbidium tracyanum", COOL_LEFT, 2, 4),
    ("Cymbidium insigne", COOL_LEFT, 1, 5),
    ("Cymbidium iridioides 'Brass Gate'", COOL_LEFT, 2, 3),
    ("Cymbidium erythrostylum", COOL_LEFT, 1, 4),
    ("Cymbidium devonianum", RAIN, 2, 5),
    ("Cymbidium floribundum", RAIN, 2, 8),
    ("Zygopetalum maculatum", COOL_RIGHT, 2, 8),
    ("Zygopetalum crinitum", COOL_RIGHT, 2, 5),
    ("Zygopetalum maxillare 'Ink Pot'", MILD, 1, 4),
    ("Coelogyne cristata", COOL_RIGHT, 2, 6),
    ("Coelogyne flaccida", COOL_RIGHT, 1, 4),
    ("Coelogyne nitida", COOL_RIGHT, 1, 3),
    ("Coelogyne mooreana 'White Ladder'", COOL_RIGHT, 1, 3),
    ("Dendrobium kingianum", RAIN, 2, 10),
    ("Dendrobium speciosum", RAIN, 1, 4),
    ("Dendrobium nobile", MILD, 2, 6),
    ("Dendrobium moniliforme", COOL_LEFT, 1, 5),
    ("Dendrobium falcorostrum", COOL_LEFT, 1, 3),
    ("Paphiopedilum insigne", COOL_RIGHT, 2, 9),
    ("Paphiopedilum villosum", MILD, 1, 5),
    ("Paphiopedilum spicerianum", MILD, 1, 4),
    ("Paphiopedilum callosum", SHELF, 2, 6),
    ("Paphiopedilum concolor", SHELF, 1, 3),
    ("Cattleya intermedia", MILD, 2, 6),
    ("Cattleya loddigesii 'Tin Roof'", MILD, 1, 4),
    ("Cattleya purpurata", MILD, 2, 5),
    ("Sarcochilus hartmannii", COOL_RIGHT, 2, 9),
    ("Sarcochilus fitzgeraldii", COOL_RIGHT, 1, 5),
    ("Sarcochilus ceciliae", SHELF, 1, 4),
];

/// The lot of three pots that have grown together.
pub(super) const GROWN_TOGETHER: &str = "Cymbidium lowianum 'Three Buckets'";

/// Content as typed and in milligrams per kilogram or litre, its group by how it acts (FRAC, IRAC; from memory), rate,
/// hours until re-entry.
pub(super) const PRODUCTS: [(&str, i64, &str, &str, u32); 4] = [
    ("500 g/kg", 500_000, "FRAC M01", "2 g/L", 24),
    ("800 g/kg", 800_000, "FRAC M02", "3 g/L", 24),
    ("400 g/L", 400_000, "FRAC P07", "3 ml/L", 4),
    ("480 g/L", 480_000, "", "20 ml/L", 0),
];
pub(super) const COPPER: usize = 0;
pub(super) const SOAP: usize = 3;

/// What is seen now and then: sign, what is behind it, the product taken and how.
pub(super) const TROUBLES: [(&str, AgentClass, usize, Method); 5] = [
    ("scale", AgentClass::Insect, SOAP, Method::Swab),
    ("leaf_spots", AgentClass::Fungus, COPPER, Method::Bath),
    ("mealybug", AgentClass::Insect, SOAP, Method::Spray),
    ("black_rot", AgentClass::WaterMould, 2, Method::Drench),
    ("mites", AgentClass::Mite, 1, Method::Spray),
];

pub(super) const CAUSES: [LossCause; 5] = [
    LossCause::Rot,
    LossCause::Dried,
    LossCause::Broken,
    LossCause::Missing,
    LossCause::Rot,
];
