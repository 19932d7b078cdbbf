//! What a new book begins with: an identity by chance, and pots and mixes named in the grower's language.

use velamen_core::code::Prefix;
use velamen_core::command::OpenBook;
use velamen_core::event::MixShare;
use velamen_core::id::Dev;
use velamen_core::reference::{media, pots};
use velamen_core::season::Hemisphere;

use super::Ledger;
use crate::words::start;

impl Ledger {
    /// What a new book of this phone is opened with.
    #[must_use]
    pub fn opening(self, nursery: String, hemisphere: Hemisphere) -> OpenBook {
        let chance = self.chance();
        OpenBook {
            book: Dev(chance),
            nursery,
            hemisphere,
            latitude_cdeg: None,
            demo: false,
            prefix: Prefix::pick(chance.rotate_left(32)),
            phone_name: String::new(),
            pots: pots::POTS
                .iter()
                .map(|row| (start::pot_name(row.top_mm), row.pot()))
                .collect(),
            mixes: mixes(),
        }
    }
}

/// Mixes of one component to begin with; the grower's own follow.
fn mixes() -> Vec<(String, Vec<MixShare>, u16)> {
    let rows = [
        ("bark_coarse", start::COARSE_BARK),
        ("bark_medium", start::MEDIUM_BARK),
        ("sphagnum_long", start::MOSS),
    ];
    rows.into_iter()
        .map(|(key, name)| {
            let life = media::component(key)
                .and_then(|row| row.life_months)
                .map_or(0, |(least, _)| least);
            (
                name.to_owned(),
                vec![MixShare {
                    component: key.to_owned(),
                    permille: 1_000,
                }],
                life,
            )
        })
        .collect()
}
