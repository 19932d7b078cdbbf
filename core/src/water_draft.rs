//! A bench being watered or fed, and a feed's label being typed.
//!
//! Invariants: who was picked out stays picked out, whatever the phone does; figures stay as they were typed until they
//! are kept; a figure that cannot be read is named by its box.

use serde::{Deserialize, Serialize};

use crate::climate::milli_of;
use crate::command::{Command, Drinkers, Feed, FeedTraits, Water};
use crate::event::{Nitrogen, WaterHow};
use crate::id::{FeedId, LotId, PlaceId};
use crate::quantity::{Decimal, QuantityError, Ratio, Volume, parse_volume};

/// A box of these forms.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaterBox {
    Nitrogen,
    Litres,
    Times,
    Ec,
    WaterEc,
    Name,
    Content,
}

/// What is wrong in a box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoxFault {
    Missing(WaterBox),
    NotANumber(WaterBox),
}

/// Watering or feeding a bench.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct WateringDraft {
    #[serde(default)]
    pub version: u16,
    /// Picked out, and taken along although they are held or rest.
    #[serde(default)]
    pub except: Vec<LotId>,
    #[serde(default)]
    pub also: Vec<LotId>,
    #[serde(default)]
    pub how: WaterHow,
    #[serde(default)]
    pub flush: bool,
    #[serde(default)]
    pub feed: Option<FeedId>,
    /// As typed; `None` is what is usual.
    #[serde(default)]
    pub ppm: Option<String>,
    #[serde(default)]
    pub injector: bool,
    #[serde(default)]
    pub litres: Option<String>,
    #[serde(default)]
    pub times: Option<String>,
    #[serde(default)]
    pub ec: String,
    #[serde(default)]
    pub water_ec: String,
}

/// Figures of a feed that is given, read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct FeedFigures {
    pub ppm: Option<u32>,
    pub water: Option<Volume>,
    pub times: Option<u32>,
    pub ec_us_cm: Option<u32>,
    pub water_ec_us_cm: Option<u32>,
}

/// Litres usually mixed at once, and times an injector usually makes of its stock, until something is typed.
pub const CAN_LITRES: &str = "10";
pub const INJECTOR_TIMES: &str = "100";

fn whole(of: WaterBox, text: &str) -> Result<Option<u32>, BoxFault> {
    match text.trim() {
        "" => Ok(None),
        text => text.parse().map(Some).map_err(|_| BoxFault::NotANumber(of)),
    }
}

/// Typed in millisiemens, kept in microsiemens.
fn conductivity(of: WaterBox, text: &str) -> Result<Option<u32>, BoxFault> {
    match text.trim() {
        "" => Ok(None),
        text => milli_of(text)
            .and_then(|micro| u32::try_from(micro).ok())
            .map(Some)
            .ok_or(BoxFault::NotANumber(of)),
    }
}

/// What was typed, or what is usual where the box was not touched.
fn or<'a>(of: WaterBox, typed: Option<&'a String>, usual: &'a str) -> Result<&'a str, BoxFault> {
    match typed.map(|typed| typed.trim()) {
        None => Ok(usual),
        Some("") => Err(BoxFault::Missing(of)),
        Some(typed) => Ok(typed),
    }
}

impl WateringDraft {
    /// Turns a lot of the bench: left out or not; one that would be left out by itself, taken along or not.
    pub fn turn(&mut self, lot: LotId, held: bool) {
        let list = if held {
            &mut self.also
        } else {
            &mut self.except
        };
        match list.iter().position(|it| *it == lot) {
            Some(at) => drop(list.remove(at)),
            None => list.push(lot),
        }
    }

    /// Whether a lot gets some.
    #[must_use]
    pub fn gets(&self, lot: LotId, held: bool) -> bool {
        if held {
            self.also.contains(&lot)
        } else {
            !self.except.contains(&lot)
        }
    }

    /// Who gets it: of a place by exceptions, of lots without a place by name.
    fn who(&self, place: Option<PlaceId>, lots: &[(LotId, bool)]) -> Drinkers {
        let (mut except, mut given) = (Vec::new(), Vec::new());
        for (lot, held) in lots {
            if self.gets(*lot, *held) {
                given.push(*lot);
            } else {
                // Whom only this screen holds, as what was treated, the book would not leave out by itself.
                except.push(*lot);
            }
        }
        Drinkers {
            place,
            except,
            also: self.also.clone(),
            lots: if place.is_none() { given } else { Vec::new() },
        }
    }

    /// The command that waters; lots of the bench with whether each is held.
    #[must_use]
    pub fn water(&self, place: Option<PlaceId>, lots: &[(LotId, bool)]) -> Command {
        Command::Water(Water {
            who: self.who(place, lots),
            how: self.how,
            flush: self.flush,
            note: String::new(),
        })
    }

    /// The figures as typed, with what is usual where nothing was.
    ///
    /// # Errors
    /// The box that cannot be read.
    pub fn figures(&self, usual_ppm: u32) -> Result<FeedFigures, BoxFault> {
        let usual = usual_ppm.to_string();
        let ppm = or(WaterBox::Nitrogen, self.ppm.as_ref(), &usual)?;
        let ppm = whole(WaterBox::Nitrogen, ppm)?;
        let litres = or(WaterBox::Litres, self.litres.as_ref(), CAN_LITRES)?;
        let unread = BoxFault::NotANumber(WaterBox::Litres);
        // A number alone is litres, because the box says so.
        let water = match parse_volume(litres) {
            Err(QuantityError::NoUnit { .. }) => parse_volume(&format!("{} L", litres.trim())),
            read => read,
        };
        let (water, _) = water.map_err(|_| unread)?;
        let times = if self.injector {
            let times = or(WaterBox::Times, self.times.as_ref(), INJECTOR_TIMES)?;
            whole(WaterBox::Times, times)?
        } else {
            None
        };
        Ok(FeedFigures {
            ppm,
            water: Some(water),
            times,
            ec_us_cm: conductivity(WaterBox::Ec, &self.ec)?,
            water_ec_us_cm: conductivity(WaterBox::WaterEc, &self.water_ec)?,
        })
    }

    /// The command that feeds.
    ///
    /// # Errors
    /// The box that cannot be read.
    pub fn feeding(
        &self,
        place: Option<PlaceId>,
        lots: &[(LotId, bool)],
        usual_ppm: u32,
    ) -> Result<Command, BoxFault> {
        let figures = self.figures(usual_ppm)?;
        Ok(Command::Feed(Feed {
            who: self.who(place, lots),
            how: self.how,
            feed: self.feed,
            nitrogen_ppm: figures.ppm,
            water_ul: figures.water.map(Volume::ul),
            injector: figures.times,
            ec_us_cm: figures.ec_us_cm,
            water_ec_us_cm: figures.water_ec_us_cm,
            note: String::new(),
        }))
    }
}

/// A feed's label being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct FeedDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub name: String,
    #[serde(default)]
    pub npk: String,
    /// Per cent of a feed that is weighed, grams in a litre of one that is measured.
    #[serde(default)]
    pub nitrogen: String,
    #[serde(default)]
    pub by_litre: bool,
    #[serde(default)]
    pub ec: String,
}

impl crate::draft::Versioned for FeedDraft {
    fn touch(&mut self) {
        self.version = crate::draft::DRAFT_VERSION;
    }
}

impl FeedDraft {
    /// What is on the shelf already, as it would be typed.
    #[must_use]
    pub fn of(row: &crate::view::water::FeedRow) -> Self {
        let by_litre = row.nitrogen.is_some_and(|it| it.by_litre);
        let places = if by_litre { 3 } else { 4 };
        let nitrogen = row.nitrogen.and_then(|it| Decimal::new(it.mg, places));
        Self {
            version: crate::draft::DRAFT_VERSION,
            name: row.name.clone(),
            npk: row.npk_typed.clone(),
            nitrogen: nitrogen.map_or_else(String::new, trimmed),
            by_litre,
            ec: match row.ec_us_cm {
                0 => String::new(),
                ec => Decimal::new(i64::from(ec), 3).map_or_else(String::new, trimmed),
            },
        }
    }

    /// The command that puts it on the shelf.
    ///
    /// # Errors
    /// The box that is empty or cannot be read.
    pub fn command(&self, feed: Option<FeedId>) -> Result<Command, BoxFault> {
        if self.name.trim().is_empty() {
            return Err(BoxFault::Missing(WaterBox::Name));
        }
        if self.nitrogen.trim().is_empty() {
            return Err(BoxFault::Missing(WaterBox::Content));
        }
        let unread = BoxFault::NotANumber(WaterBox::Content);
        let each = Ratio::whole(if self.by_litre { 1_000 } else { 10_000 });
        let value = Decimal::parse(&self.nitrogen).map_err(|_| unread)?;
        let mg = value.ratio().checked_mul(each).and_then(Ratio::round_i64);
        Ok(Command::SetFeed {
            feed,
            traits: FeedTraits {
                name: Some(self.name.trim().to_owned()),
                npk_typed: Some(self.npk.trim().to_owned()),
                nitrogen: Some(Nitrogen {
                    mg: mg.ok_or(unread)?,
                    by_litre: self.by_litre,
                }),
                ec_us_cm: Some(conductivity(WaterBox::Ec, &self.ec)?.unwrap_or(0)),
                retired: None,
            },
        })
    }
}

/// A figure without the zeros at its end.
fn trimmed(value: Decimal) -> String {
    let text = value.to_string();
    match text.split_once('.') {
        Some((whole, places)) => {
            let places = places.trim_end_matches('0');
            if places.is_empty() {
                whole.to_owned()
            } else {
                format!("{whole}.{places}")
            }
        }
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::id::{Dev, EntryRef, ThingId};

    fn lot(seq: u32) -> LotId {
        let entry = EntryRef { dev: Dev(1), seq };
        LotId(ThingId { entry, n: 0 })
    }

    #[test]
    fn a_lot_turned_twice_is_as_it_was() {
        let mut draft = WateringDraft::default();
        assert!(draft.gets(lot(1), false) && !draft.gets(lot(2), true));
        draft.turn(lot(1), false);
        draft.turn(lot(2), true);
        assert!(!draft.gets(lot(1), false) && draft.gets(lot(2), true));
        draft.turn(lot(1), false);
        draft.turn(lot(2), true);
        assert_eq!(draft, WateringDraft::default());
    }

    #[test]
    fn lots_without_a_place_are_named_and_those_of_a_place_are_not() {
        let mut draft = WateringDraft::default();
        draft.turn(lot(2), false);
        let lots = [(lot(1), false), (lot(2), false), (lot(3), true)];
        let Command::Water(water) = draft.water(None, &lots) else {
            panic!("water");
        };
        assert_eq!(water.who.lots, [lot(1)]);
        let place = PlaceId(lot(9).0);
        let Command::Water(water) = draft.water(Some(place), &lots) else {
            panic!("water");
        };
        let left_out = vec![lot(2), lot(3)];
        assert_eq!((water.who.lots.len(), water.who.except), (0, left_out));
    }

    #[test]
    fn figures_are_read_as_they_are_typed_and_a_box_that_is_not_is_named() {
        let mut draft = WateringDraft {
            litres: Some("7,5".to_owned()),
            ec: "0.85".to_owned(),
            injector: true,
            ..WateringDraft::default()
        };
        let read = draft.figures(100).unwrap();
        assert_eq!(read.water, Some(Volume::from_ul(7_500_000)));
        assert_eq!((read.ppm, read.times), (Some(100), Some(100)));
        assert_eq!(read.ec_us_cm, Some(850));
        draft.ppm = Some("many".to_owned());
        let fault = draft.figures(100);
        assert_eq!(fault, Err(BoxFault::NotANumber(WaterBox::Nitrogen)));
        // An emptied box is not filled with something else behind the back.
        draft.ppm = Some(String::new());
        let missing = draft.figures(100);
        assert_eq!(missing, Err(BoxFault::Missing(WaterBox::Nitrogen)));
    }

    #[test]
    fn a_label_in_per_cent_is_weighed_and_one_in_grams_a_litre_is_measured() {
        let mut draft = FeedDraft {
            name: "bloom".to_owned(),
            nitrogen: "12.5".to_owned(),
            ..FeedDraft::default()
        };
        let mg = |draft: &FeedDraft| match draft.command(None) {
            Ok(Command::SetFeed { traits, .. }) => traits.nitrogen,
            other => panic!("{other:?}"),
        };
        assert_eq!(mg(&draft).unwrap().mg, 125_000);
        draft.by_litre = true;
        assert_eq!(mg(&draft).unwrap().mg, 12_500);
        draft.nitrogen = String::new();
        let missing = draft.command(None);
        assert_eq!(missing, Err(BoxFault::Missing(WaterBox::Content)));
    }
}
