//! Water in a tub, by litres or by its measured sides, as typed.
//!
//! Nothing typed is ever changed here; a bare number is litres or centimetres, because the boxes say so.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::limits::TUB_UL_MAX;
use crate::potting::{PottingRejection, Tub};
use crate::quantity::{Length, QuantityError, Volume, parse_length, parse_volume};

/// How the water is measured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TubShape {
    /// By marks or a bucket: litres.
    #[default]
    Litres,
    Rectangle,
    Round,
    /// A box whose sides taper.
    TaperedRectangle,
    /// A bucket whose side tapers.
    TaperedRound,
}

impl TubShape {
    pub const ALL: [Self; 5] = [
        Self::Litres,
        Self::Rectangle,
        Self::Round,
        Self::TaperedRectangle,
        Self::TaperedRound,
    ];

    /// The measures this shape wants, inside, in the order they are taken.
    #[must_use]
    pub const fn sides(self) -> &'static [Side] {
        match self {
            Self::Litres => &[],
            Self::Rectangle => &[Side::Length, Side::Width, Side::Water],
            Self::Round => &[Side::Across, Side::Water],
            Self::TaperedRectangle => &[
                Side::Length,
                Side::Width,
                Side::BaseLength,
                Side::BaseWidth,
                Side::Height,
                Side::Water,
            ],
            Self::TaperedRound => &[Side::Across, Side::BaseAcross, Side::Height, Side::Water],
        }
    }
}

/// A measure of a tub.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// At the top, where it tapers.
    Length,
    Width,
    Across,
    BaseLength,
    BaseWidth,
    BaseAcross,
    Height,
    /// How high the water stands.
    Water,
}

/// What is wrong with a tub.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TubFault {
    /// Nothing typed for the litres, or for a side.
    Missing(Option<Side>),
    Unreadable(Option<Side>, QuantityError),
    Impossible(PottingRejection),
    /// No water.
    Empty,
    TooMuch,
}

/// A tub as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct TubDraft {
    #[serde(default)]
    pub shape: TubShape,
    #[serde(default)]
    pub litres: String,
    #[serde(default)]
    pub sides: BTreeMap<Side, String>,
}

impl TubDraft {
    /// The water in it.
    ///
    /// # Errors
    /// What is missing, unreadable or impossible.
    pub fn water(&self) -> Result<Volume, TubFault> {
        let water = match self.shape {
            TubShape::Litres => typed(&self.litres, "L", parse_volume, None)?,
            shape => {
                let side = |side| self.side(side);
                let tub = match shape {
                    TubShape::Litres | TubShape::Rectangle => {
                        let (length, width) = (side(Side::Length)?, side(Side::Width)?);
                        Tub::Rectangle {
                            length,
                            width,
                            height: side(Side::Water)?,
                        }
                    }
                    TubShape::Round => Tub::Cylinder {
                        top: side(Side::Across)?,
                        base: side(Side::Across)?,
                        height: side(Side::Water)?,
                    },
                    TubShape::TaperedRectangle => Tub::Tapered {
                        top_length: side(Side::Length)?,
                        top_width: side(Side::Width)?,
                        base_length: side(Side::BaseLength)?,
                        base_width: side(Side::BaseWidth)?,
                        height: side(Side::Height)?,
                    },
                    TubShape::TaperedRound => Tub::Cylinder {
                        top: side(Side::Across)?,
                        base: side(Side::BaseAcross)?,
                        height: side(Side::Height)?,
                    },
                };
                let water = side(Side::Water)?;
                if water == Length::ZERO {
                    return Err(TubFault::Empty);
                }
                tub.filled_to(water).map_err(TubFault::Impossible)?
            }
        };
        if water == Volume::ZERO {
            return Err(TubFault::Empty);
        }
        if water.ul() > TUB_UL_MAX {
            return Err(TubFault::TooMuch);
        }
        Ok(water)
    }

    fn side(&self, side: Side) -> Result<Length, TubFault> {
        let text = self.sides.get(&side).map_or("", String::as_str);
        typed(text, "cm", parse_length, Some(side))
    }
}

/// An amount as typed; a number alone has the unit the box shows.
fn typed<T, U>(
    text: &str,
    unit: &str,
    parse: impl Fn(&str) -> Result<(T, U), QuantityError>,
    side: Option<Side>,
) -> Result<T, TubFault> {
    if text.trim().is_empty() {
        return Err(TubFault::Missing(side));
    }
    let read = match parse(text) {
        Err(QuantityError::NoUnit { .. }) => parse(&format!("{} {unit}", text.trim())),
        read => read,
    };
    read.map(|(amount, _)| amount)
        .map_err(|fault| TubFault::Unreadable(side, fault))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn litres(text: &str) -> Result<i64, TubFault> {
        let tub = TubDraft {
            litres: text.to_owned(),
            ..TubDraft::default()
        };
        tub.water().map(Volume::ul)
    }

    #[test]
    fn a_bare_number_is_litres_and_any_unit_of_volume_is_taken() {
        assert_eq!(litres("20"), Ok(20_000_000));
        assert_eq!(litres(" 7,5 "), Ok(7_500_000));
        assert_eq!(litres("5 US gal"), Ok(18_927_059));
    }

    #[test]
    fn a_tub_of_nothing_or_of_a_lake_is_refused_with_its_reason() {
        assert_eq!(litres(""), Err(TubFault::Missing(None)));
        assert_eq!(litres("0"), Err(TubFault::Empty));
        assert_eq!(litres("10000"), Err(TubFault::TooMuch));
        assert!(matches!(
            litres("5 kg"),
            Err(TubFault::Unreadable(None, QuantityError::WrongUnit { .. }))
        ));
        assert!(matches!(
            litres("-3"),
            Err(TubFault::Unreadable(None, QuantityError::Negative))
        ));
    }

    #[test]
    fn a_box_by_its_sides_counts_only_up_to_the_water() {
        let mut tub = TubDraft {
            shape: TubShape::Rectangle,
            ..TubDraft::default()
        };
        for (side, text) in [(Side::Length, "60"), (Side::Width, "400 mm")] {
            tub.sides.insert(side, text.to_owned());
        }
        assert_eq!(tub.water(), Err(TubFault::Missing(Some(Side::Water))));
        tub.sides.insert(Side::Water, "10".to_owned());
        assert_eq!(tub.water().map(Volume::ul), Ok(24_000_000));
    }

    #[test]
    fn a_tapered_bucket_wants_its_height_and_refuses_water_above_it() {
        let mut tub = TubDraft {
            shape: TubShape::TaperedRound,
            ..TubDraft::default()
        };
        for (side, text) in [
            (Side::Across, "17"),
            (Side::BaseAcross, "12"),
            (Side::Height, "13"),
            (Side::Water, "13"),
        ] {
            tub.sides.insert(side, text.to_owned());
        }
        assert_eq!(tub.water().map(|water| water.ul() / 1_000), Ok(2_167));
        tub.sides.insert(Side::Water, "14".to_owned());
        assert_eq!(
            tub.water(),
            Err(TubFault::Impossible(PottingRejection::DeeperThanTub))
        );
    }
}
