//! What is known of the two viruses orchids carry most, and what follows for tests.
//!
//! There is no cure, plants without a sign carry both, and neither has a known insect: blades, hands, pots and dripping
//! water do. One early test that finds nothing is not an all-clear.

use crate::event::Virus;

/// Days after an exposure on which a test says something: the first leaves, and the slow one of the two.
pub const RETEST_DAYS: [u16; 2] = [30, 240];

/// Plants cut next with the same blade that are looked at in any case.
pub const NEXT_PLANTS: usize = 20;

/// One virus.
#[derive(Clone, Copy, Debug)]
pub struct VirusRow {
    pub virus: Virus,
    /// Heat at which sap loses it in ten minutes, in degrees Celsius, from and to.
    pub heat_c: (u16, u16),
    /// Days it keeps in sap at room temperature, at least.
    pub sap_days: u16,
    /// Days until all of a plant may carry it.
    pub systemic_days: u16,
    pub source: &'static str,
}

const HU: &str = "Hu and others, Plant Disease 78 (1994); Wisler, How to Control Orchid Viruses (1989), from memory";

/// Both.
pub const VIRUSES: [VirusRow; 2] = [
    VirusRow {
        virus: Virus::Cymmv,
        heat_c: (60, 70),
        sap_days: 25,
        systemic_days: 20,
        source: HU,
    },
    VirusRow {
        virus: Virus::Orsv,
        heat_c: (92, 94),
        sap_days: 90,
        systemic_days: 210,
        source: HU,
    },
];
