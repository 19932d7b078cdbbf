//! Commands on the nursery, its places and what stands on the shelf.

use crate::code::Prefix;
use crate::command::{OpenBook, PlaceTraits, ProductTraits};
use crate::event::*;
use crate::id::{Dev, MixId, PlaceId, PotId, ProductId, ProtocolId, Subject};
use crate::limits;
use crate::name::PlantName;
use crate::potting::Pot;
use crate::quantity::parse_rate;
use crate::reference::protocols;
use crate::rejection::{Input, Rejection};
use crate::task::{Protocol, ProtocolFault, Step};

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn open_book(&mut self, open: OpenBook) -> Done {
        if self.state.facts().book.book.is_some() || !self.state.log().is_empty() {
            return Err(Rejection::BookAlreadyOpen);
        }
        let nursery = Self::needed(Input::Nursery, &open.nursery)?;
        Self::latitude(open.latitude_cdeg)?;
        let phone_name = Self::short(Input::Name, &open.phone_name)?;
        self.push(BookOpened {
            book: open.book,
            nursery,
            hemisphere: open.hemisphere,
            latitude_cdeg: open.latitude_cdeg,
            demo: open.demo,
        });
        self.push(PhoneJoined {
            dev: self.at.dev,
            prefix: open.prefix,
            name: phone_name,
        });
        for content in protocols::built_in() {
            let protocol = ProtocolId(self.thing());
            self.push(ProtocolAdopted {
                protocol,
                revision: 1,
                content,
            });
        }
        for (name, form) in open.pots {
            self.set_pot(None, Some(name), Some(form), None)?;
        }
        for (name, shares, life_months) in open.mixes {
            self.set_mix(None, Some(name), Some(shares), Some(life_months), None)?;
        }
        Ok(())
    }

    pub(super) fn join_phone(&mut self, prefix: Prefix, name: String) -> Done {
        let name = Self::short(Input::Name, &name)?;
        self.push(PhoneJoined {
            dev: self.at.dev,
            prefix,
            name,
        });
        Ok(())
    }

    pub(super) fn take_off_phone(&mut self, dev: Dev, note: String) -> Done {
        let subject = Subject::Phone(dev);
        let known = self.state.facts().phones.get(&dev);
        let known = known.ok_or(Rejection::NotInTheBook { subject })?;
        // A phone does not take itself off: what it writes next would be off the book.
        if known.has_left() || dev == self.at.dev {
            return Err(Rejection::NothingToDo);
        }
        let note = Self::short(Input::Text, &note)?;
        self.push(PhoneLeft { dev, note });
        Ok(())
    }

    pub(super) fn set_book(&mut self, change: BookSet) -> Done {
        self.book_holds(&change)?;
        if change == BookSet::default() {
            return Err(Rejection::NothingToDo);
        }
        self.push(change);
        Ok(())
    }

    /// What is set of the nursery is within the limits.
    pub(super) fn book_holds(&self, change: &BookSet) -> Done {
        Self::latitude(change.latitude_cdeg)?;
        if let Some(nursery) = &change.nursery {
            Self::needed(Input::Nursery, nursery)?;
        }
        for text in [&change.poisons_number, &change.operator_number]
            .into_iter()
            .flatten()
        {
            Self::short(Input::Text, text)?;
        }
        if let Some(open) = &change.mix_open {
            Self::short(Input::Mix, &open.batch)?;
            if !self.state.facts().mixes.contains_key(&open.mix) {
                return Err(Rejection::NotInTheBook {
                    subject: Subject::Mix(open.mix),
                });
            }
        }
        if let Some(load) = &change.stone_open {
            Self::short(Input::Stone, load)?;
        }
        if let Some(money) = &change.money {
            Self::short(Input::Money, money)?;
        }
        if let Some(rule) = &change.record {
            for text in rule.more.iter().chain([&rule.profile]) {
                Self::short(Input::Text, text)?;
            }
            if rule.more.len() > crate::record::Field::ALL.len()
                || rule
                    .keep_months
                    .is_some_and(|months| months > limits::KEEP_MONTHS_MAX)
            {
                return Err(Rejection::OutOfRange {
                    input: Input::KeepMonths,
                    least: 0,
                    most: i64::from(limits::KEEP_MONTHS_MAX),
                });
            }
        }
        Ok(())
    }

    pub(super) fn latitude(latitude_cdeg: Option<i32>) -> Done {
        match latitude_cdeg {
            Some(cdeg) if !(-9_000..=9_000).contains(&cdeg) => Err(Rejection::OutOfRange {
                input: Input::Latitude,
                least: -90,
                most: 90,
            }),
            _ => Ok(()),
        }
    }

    pub(super) fn set_place(
        &mut self,
        place: Option<PlaceId>,
        name: Option<String>,
        walk: Option<u32>,
        about: PlaceTraits,
    ) -> Done {
        let name = name
            .map(|name| Self::needed(Input::Name, &name))
            .transpose()?;
        let (place, walk) = match place {
            Some(id) => {
                self.place_is_known(Some(id))?;
                (id, walk)
            }
            None if name.is_none() => return Err(Rejection::Missing { input: Input::Name }),
            None => (
                PlaceId(self.thing()),
                Some(walk.unwrap_or_else(|| self.end_of_the_walk())),
            ),
        };
        let PlaceTraits {
            cover,
            shade,
            warmth,
            area_cm2,
            act_permille,
            coordinates,
            water_days,
            feed_days,
            retired,
        } = about;
        let set = PlaceSet {
            place,
            name,
            walk,
            cover,
            shade,
            warmth,
            area_cm2,
            act_permille,
            coordinates,
            water_days,
            feed_days,
            retired,
        };
        Self::place_holds(&set)?;
        self.push(set);
        Ok(())
    }

    /// What is set of a place is within the limits.
    pub(super) fn place_holds(set: &PlaceSet) -> Done {
        if let Some(name) = &set.name {
            Self::needed(Input::Name, name)?;
        }
        if set.walk.is_some_and(|walk| walk > 1_000_000) {
            return Err(Rejection::OutOfRange {
                input: Input::Walk,
                least: 0,
                most: 1_000_000,
            });
        }
        for days in [set.water_days, set.feed_days].into_iter().flatten() {
            Self::own_days(days)?;
        }
        if set.coordinates.is_some_and(|at| !at.is_sound()) {
            return Err(Rejection::OutOfRange {
                input: Input::Coordinates,
                least: -180,
                most: 180,
            });
        }
        if set.act_permille.is_some_and(|share| share > 1_000) {
            return Err(Rejection::OutOfRange {
                input: Input::Threshold,
                least: 0,
                most: 100,
            });
        }
        Ok(())
    }

    /// A place at the end of the walk, with room left for places in between.
    fn end_of_the_walk(&self) -> u32 {
        let known = self
            .state
            .facts()
            .places
            .values()
            .filter_map(|place| place.walk.get().copied());
        let new = self.events.iter().filter_map(|event| match event {
            Event::PlaceSet(set) => set.walk,
            _ => None,
        });
        known.chain(new).max().unwrap_or(0).saturating_add(10)
    }

    pub(super) fn set_pot(
        &mut self,
        pot: Option<PotId>,
        name: Option<String>,
        form: Option<Pot>,
        retired: Option<bool>,
    ) -> Done {
        let name = name
            .map(|name| Self::needed(Input::Name, &name))
            .transpose()?;
        if let Some(form) = form {
            form.check().map_err(Rejection::BadPot)?;
        }
        let pot = match pot {
            Some(id) if self.state.facts().pots.contains_key(&id) => id,
            Some(id) => {
                return Err(Rejection::NotInTheBook {
                    subject: Subject::Pot(id),
                });
            }
            None if name.is_none() || form.is_none() => {
                return Err(Rejection::Missing { input: Input::Pot });
            }
            None => PotId(self.thing()),
        };
        self.push(PotSet {
            pot,
            name,
            form,
            retired,
        });
        Ok(())
    }

    pub(super) fn set_mix(
        &mut self,
        mix: Option<MixId>,
        name: Option<String>,
        shares: Option<Vec<MixShare>>,
        life_months: Option<u16>,
        retired: Option<bool>,
    ) -> Done {
        let name = name
            .map(|name| Self::needed(Input::Name, &name))
            .transpose()?;
        shares.as_deref().map_or(Ok(()), Self::shares_hold)?;
        let mix = match mix {
            Some(id) if self.state.facts().mixes.contains_key(&id) => id,
            Some(id) => {
                return Err(Rejection::NotInTheBook {
                    subject: Subject::Mix(id),
                });
            }
            None if name.is_none() => return Err(Rejection::Missing { input: Input::Mix }),
            None => MixId(self.thing()),
        };
        self.push(MixSet {
            mix,
            name,
            shares,
            life_months,
            retired,
        });
        Ok(())
    }

    /// The parts of a mix come to the whole, or nobody said them.
    pub(super) fn shares_hold(shares: &[MixShare]) -> Done {
        for share in shares {
            Self::needed(Input::Mix, &share.component)?;
        }
        let sum: u32 = shares.iter().map(|share| u32::from(share.permille)).sum();
        if !shares.is_empty() && sum != 1000 {
            return Err(Rejection::OutOfRange {
                input: Input::Mix,
                least: 1000,
                most: 1000,
            });
        }
        Ok(())
    }

    pub(super) fn set_product(
        &mut self,
        product: Option<ProductId>,
        traits: ProductTraits,
    ) -> Done {
        let label_name = traits
            .label_name
            .map(|name| Self::needed(Input::Name, &name))
            .transpose()?;
        let product = match product {
            Some(id) if self.state.facts().products.contains_key(&id) => id,
            Some(id) => {
                return Err(Rejection::NotInTheBook {
                    subject: Subject::Product(id),
                });
            }
            None if label_name.is_none() => return Err(Rejection::Missing { input: Input::Name }),
            None => ProductId(self.thing()),
        };
        let registration = traits
            .registration
            .map(|text| Self::short(Input::Text, &text))
            .transpose()?;
        let rate_typed = traits
            .rate_typed
            .map(|text| Self::label_rate(&text))
            .transpose()?;
        let formulation = traits
            .formulation
            .map(|text| Self::short(Input::Text, &text))
            .transpose()?;
        let uses = traits.uses.map(Self::label_uses).transpose()?;
        traits
            .actives
            .as_deref()
            .map_or(Ok(()), Self::actives_hold)?;
        self.push(ProductSet {
            product,
            label_name,
            registration,
            formulation,
            actives: traits.actives,
            uses,
            rate_typed,
            reentry_h: traits.reentry_h,
            label_photo: traits.label_photo,
            retired: traits.retired,
        });
        Ok(())
    }

    fn actives_hold(actives: &[ActiveCopy]) -> Done {
        Self::at_most(Input::Text, actives.len(), limits::ACTIVES_MAX)?;
        for active in actives {
            Self::needed(Input::Active, &active.name)?;
            Self::short(Input::Text, &active.content_typed)?;
            Self::at_most(Input::Text, active.codes.len(), limits::ACTIVES_MAX)?;
            for code in &active.codes {
                Self::short(Input::Text, code)?;
            }
        }
        Ok(())
    }

    /// What is set of a product is within the limits.
    pub(super) fn product_holds(set: &ProductSet) -> Done {
        if let Some(name) = &set.label_name {
            Self::needed(Input::Name, name)?;
        }
        for text in [&set.registration, &set.formulation].into_iter().flatten() {
            Self::short(Input::Text, text)?;
        }
        if let Some(rate) = &set.rate_typed {
            Self::label_rate(rate)?;
        }
        if let Some(uses) = &set.uses {
            Self::label_uses(uses.clone())?;
        }
        set.actives.as_deref().map_or(Ok(()), Self::actives_hold)
    }

    /// A label's rate: nothing yet, or one that can be read.
    fn label_rate(text: &str) -> Result<String, Rejection> {
        let text = Self::short(Input::Rate, text)?;
        if !text.is_empty() {
            parse_rate(&text).map_err(Rejection::BadRate)?;
        }
        Ok(text)
    }

    fn label_uses(uses: Vec<LabelUse>) -> Result<Vec<LabelUse>, Rejection> {
        Self::at_most(Input::Text, uses.len(), limits::USES_MAX)?;
        let mut checked: Vec<LabelUse> = Vec::new();
        for one in uses {
            let key = Self::needed(Input::Text, &one.key)?;
            if checked.iter().any(|other| other.key == key) {
                return Err(Rejection::NothingToDo);
            }
            if one.soak_s.is_some_and(|s| s > limits::SOAK_S_MAX) {
                return Err(Rejection::OutOfRange {
                    input: Input::Soak,
                    least: 0,
                    most: i64::from(limits::SOAK_S_MAX / 60),
                });
            }
            checked.push(LabelUse {
                key,
                rate_typed: Self::label_rate(&one.rate_typed)?,
                most_typed: Self::label_rate(&one.most_typed)?,
                gear: Self::note(&one.gear)?,
                never_with: Self::note(&one.never_with)?,
                note: Self::note(&one.note)?,
                ..one
            });
        }
        Ok(checked)
    }

    /// Room on the shelf for one more beside those that are there.
    pub(super) fn one_more(input: Input, here: usize, most: usize) -> Done {
        Self::at_most(input, here.saturating_add(1), most)
    }

    fn at_most(input: Input, found: usize, most: usize) -> Done {
        if found > most {
            let most = u64::try_from(most).unwrap_or(u64::MAX);
            return Err(Rejection::TooMany { input, most });
        }
        Ok(())
    }

    pub(super) fn set_group(&mut self, change: GroupSet) -> Done {
        change.water_days.map_or(Ok(()), Self::own_days)?;
        self.push(change);
        Ok(())
    }

    pub(super) fn adopt_protocol(
        &mut self,
        protocol: Option<ProtocolId>,
        content: Protocol,
    ) -> Done {
        Self::protocol_holds(&content)?;
        let (protocol, revision) = match protocol {
            Some(id) => {
                let known = self.state.facts().protocols.get(&id);
                let known = known.ok_or(Rejection::NotInTheBook {
                    subject: Subject::Protocol(id),
                })?;
                if known
                    .current()
                    .is_some_and(|current| current.content == content)
                {
                    return Err(Rejection::NothingToDo);
                }
                let revisions = known.revisions.iter();
                let before = revisions.flat_map(|revision| &revision.content.steps);
                let other = |step: &&Step| {
                    let now = content.step(&step.key);
                    now.is_some_and(|now| now.kind != step.kind)
                };
                if let Some(step) = before.into_iter().find(other) {
                    return Err(Rejection::Protocol(ProtocolFault::KeyUsedBefore {
                        step: step.key.clone(),
                    }));
                }
                (
                    id,
                    known
                        .current()
                        .map_or(1, |current| current.revision.saturating_add(1)),
                )
            }
            None => (ProtocolId(self.thing()), 1),
        };
        self.push(ProtocolAdopted {
            protocol,
            revision,
            content,
        });
        Ok(())
    }

    /// A protocol is sound and its words are short.
    pub(super) fn protocol_holds(content: &Protocol) -> Done {
        content.check().map_err(Rejection::Protocol)?;
        let keys = content.steps.iter().map(|step| &step.key);
        for text in keys.chain([&content.key, &content.source]) {
            Self::short(Input::Text, text)?;
        }
        Ok(())
    }

    pub(super) fn plant_name(name: PlantName) -> Result<PlantName, Rejection> {
        match name.faults().into_iter().next() {
            None => Ok(name),
            Some(fault) => Err(Rejection::BadName(fault)),
        }
    }
}
