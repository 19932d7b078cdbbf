//! Commands of water and feed.
//!
//! A bench is watered as a whole: plants whose first water may not be given yet, and plants at rest, are left out by
//! themselves unless they are named. Whoever gets water whose first water was open has that task answered in the same entry.

use std::collections::BTreeSet;

use crate::command::{Drinkers, Feed, FeedTraits, Water};
use crate::event::{Event, Fed, FeedCopy, FeedSet, TaskAnswer, TaskDecided, Watered};
use crate::id::{FeedId, LotId, Subject};
use crate::limits;
use crate::quantity::{Amount, Volume};
use crate::rejection::{Input, Rejection};
use crate::task::TaskKind;
use crate::water::{
    self, MixedFor, firsts, hold, is_injector, is_sound, is_water, mixed, standing,
};

use super::{Desk, Done};

/// Who gets it, and who of the place does not.
struct Given {
    all: Vec<LotId>,
    except: Vec<LotId>,
    lots: Vec<LotId>,
}

impl Desk<'_> {
    pub(super) fn own_days(days: u16) -> Done {
        if days > limits::OWN_DAYS_MAX {
            return Err(Rejection::OutOfRange {
                input: Input::Days,
                least: 0,
                most: i64::from(limits::OWN_DAYS_MAX),
            });
        }
        Ok(())
    }

    pub(super) fn set_feed(&mut self, feed: Option<FeedId>, traits: FeedTraits) -> Done {
        let name = traits
            .name
            .map(|name| Self::needed(Input::Name, &name))
            .transpose()?;
        let npk_typed = traits
            .npk_typed
            .map(|text| Self::short(Input::Text, &text))
            .transpose()?;
        if let Some(nitrogen) = traits.nitrogen {
            is_sound(nitrogen).map_err(Rejection::BadRate)?;
        }
        Self::conductivity(traits.ec_us_cm)?;
        let known = &self.state.facts().feeds;
        let before = feed.and_then(|id| known.get(&id));
        let gone = before.is_none_or(|it| it.retired.or_default());
        if gone && (feed.is_none() || traits.retired == Some(false)) {
            let here = known.values().filter(|it| !it.retired.or_default());
            let new = |event: &&Event| matches!(event, Event::FeedSet(it) if !known.contains_key(&it.feed));
            let here = here.count() + self.events.iter().filter(new).count();
            Self::one_more(Input::Feed, here, limits::FEEDS_MAX)?;
        }
        let feed = match feed {
            Some(id) if known.contains_key(&id) => id,
            Some(id) => {
                return Err(Rejection::NotInTheBook {
                    subject: Subject::Feed(id),
                });
            }
            None if name.is_none() => return Err(Rejection::Missing { input: Input::Name }),
            None if traits.nitrogen.is_none() => {
                return Err(Rejection::Missing {
                    input: Input::Nitrogen,
                });
            }
            None => FeedId(self.thing()),
        };
        self.push(FeedSet {
            feed,
            name,
            npk_typed,
            nitrogen: traits.nitrogen,
            ec_us_cm: traits.ec_us_cm,
            retired: traits.retired,
        });
        Ok(())
    }

    pub(super) fn water(&mut self, water: Water) -> Done {
        let note = Self::note(&water.note)?;
        let place = water.who.place;
        let given = self.given(water.who, false)?;
        let all = given.all;
        self.push(Watered {
            place,
            except: given.except,
            lots: given.lots,
            how: water.how,
            flush: water.flush,
            note,
        });
        self.answer_firsts(&all, &[TaskKind::FirstWater]);
        Ok(())
    }

    pub(super) fn feed(&mut self, feed: Feed) -> Done {
        let note = Self::note(&feed.note)?;
        Self::conductivity(feed.ec_us_cm)?;
        Self::conductivity(feed.water_ec_us_cm)?;
        Self::made_up(feed.water_ul, feed.injector)?;
        let copy = match feed.feed {
            Some(id) => {
                let known = self.state.facts().feeds.get(&id);
                let known = known.ok_or(Rejection::NotInTheBook {
                    subject: Subject::Feed(id),
                })?;
                FeedCopy {
                    feed: Some(id),
                    name: known.name.or_default(),
                    nitrogen: known.nitrogen.get().copied(),
                }
            }
            None => FeedCopy::default(),
        };
        let measured = match (copy.nitrogen, feed.nitrogen_ppm, feed.water_ul) {
            (Some(nitrogen), Some(ppm), Some(ul)) => {
                let water = Volume::from_ul(ul);
                let into = match feed.injector {
                    Some(times) => MixedFor::Stock {
                        made_up_to: water,
                        times,
                    },
                    None => MixedFor::Can(water),
                };
                Some(mixed(nitrogen, ppm, into)?.amount)
            }
            (_, Some(ppm), _) => {
                Self::parts(ppm)?;
                None
            }
            _ => None,
        };
        let (amount_ul, amount_mg) = match measured {
            Some(Amount::Volume(volume)) => (Some(volume.ul()), None),
            Some(Amount::Mass(mass)) => (None, Some(mass.mg())),
            None => (None, None),
        };
        let place = feed.who.place;
        let given = self.given(feed.who, true)?;
        let all = given.all;
        self.push(Fed {
            place,
            except: given.except,
            lots: given.lots,
            how: feed.how,
            feed: copy,
            nitrogen_ppm: feed.nitrogen_ppm,
            water_ul: feed.water_ul,
            injector: feed.injector,
            amount_ul,
            amount_mg,
            ec_us_cm: feed.ec_us_cm,
            water_ec_us_cm: feed.water_ec_us_cm,
            note,
        });
        self.answer_firsts(&all, &[TaskKind::FirstWater, TaskKind::FirstFeed]);
        Ok(())
    }

    /// Who gets it: of a place all but what was picked out, what is held and what rests.
    fn given(&self, who: Drinkers, feeding: bool) -> Result<Given, Rejection> {
        let facts = self.state.facts();
        let most = limits::WATERED_LOTS_MAX;
        if who.lots.len().max(who.except.len()) > most {
            return Err(Rejection::TooMany {
                input: Input::Lots,
                most: u64::try_from(most).unwrap_or(u64::MAX),
            });
        }
        let mut lots: Vec<LotId> = Vec::new();
        for id in &who.lots {
            if self.lot(*id)?.plants > 0 && !lots.contains(id) {
                lots.push(*id);
            }
        }
        self.place_is_known(who.place)?;
        let Some(place) = who.place else {
            if lots.is_empty() {
                return Err(Rejection::NothingToDo);
            }
            return Ok(Given {
                all: lots.clone(),
                except: Vec::new(),
                lots,
            });
        };
        let picked: BTreeSet<LotId> = who.except.into_iter().collect();
        let firsts = firsts(self.state, self.on);
        let mut all = Vec::new();
        let mut except = Vec::new();
        for (id, lot) in standing(facts, Some(place)) {
            let first = firsts.get(&id).copied().unwrap_or_default();
            let held = hold(facts, lot, first, self.on, feeding).is_some();
            if picked.contains(&id) || held && !who.also.contains(&id) {
                except.push(id);
            } else {
                all.push(id);
            }
        }
        if all.is_empty() {
            return Err(Rejection::NothingToDo);
        }
        if except.len() > most {
            return Err(Rejection::TooMany {
                input: Input::Lots,
                most: u64::try_from(most).unwrap_or(u64::MAX),
            });
        }
        Ok(Given {
            all,
            except,
            lots: Vec::new(),
        })
    }

    /// First water, and first feed, of these lots are done with this.
    fn answer_firsts(&mut self, lots: &[LotId], kinds: &[TaskKind]) {
        let on = self.on;
        let waiting = firsts(self.state, self.on);
        for lot in lots.iter().filter(|lot| waiting.contains_key(lot)) {
            for task in self.state.tasks_of(*lot) {
                if kinds.contains(&task.kind) && task.anchor_on <= on {
                    self.push(TaskDecided {
                        task: task.key,
                        answer: TaskAnswer::Done { outcome: None },
                        kind: task.kind,
                        due_on: task.due_on,
                        revision: task.revision,
                        why: String::new(),
                    });
                }
            }
        }
    }

    fn parts(ppm: u32) -> Done {
        if (1..=limits::FEED_PPM_MAX).contains(&ppm) {
            return Ok(());
        }
        Err(Rejection::OutOfRange {
            input: Input::Nitrogen,
            least: 1,
            most: i64::from(limits::FEED_PPM_MAX),
        })
    }

    /// What it was made up to, and how it was thinned, whatever is known of the feed itself.
    fn made_up(water_ul: Option<i64>, injector: Option<u32>) -> Done {
        let water = water_ul.map(Volume::from_ul);
        water.map_or(Ok(()), is_water)?;
        injector.map_or(Ok(()), is_injector)
    }

    fn conductivity(us_cm: Option<u32>) -> Done {
        if us_cm.is_some_and(|us_cm| us_cm > limits::EC_US_CM_MAX) {
            return Err(Rejection::OutOfRange {
                input: Input::Ec,
                least: 0,
                most: i64::from(limits::EC_US_CM_MAX),
            });
        }
        Ok(())
    }

    /// Whether a watering put right afterwards can still be read.
    pub(super) fn watering_holds(&self, it: &Watered) -> Done {
        Self::note(&it.note).map(drop)
    }

    /// The same of a feed that was given.
    pub(super) fn fed_holds(&self, it: &Fed) -> Done {
        it.nitrogen_ppm.map_or(Ok(()), Self::parts)?;
        Self::conductivity(it.ec_us_cm)?;
        Self::conductivity(it.water_ec_us_cm)?;
        Self::made_up(it.water_ul, it.injector)?;
        Self::note(&it.note).map(drop)
    }

    /// And of a feed of the shelf.
    pub(super) fn feed_holds(&self, it: &FeedSet) -> Done {
        if let Some(name) = &it.name {
            Self::needed(Input::Name, name)?;
        }
        if let Some(nitrogen) = it.nitrogen {
            water::is_sound(nitrogen).map_err(Rejection::BadRate)?;
        }
        Self::conductivity(it.ec_us_cm)
    }
}
