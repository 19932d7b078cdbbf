//! From a command to an entry, or a refusal.
//!
//! [`decide`] reads the state and the moment, and changes nothing. What it returns is the line to store; once that is
//! on disk, `State::take` makes it count. One command gives one entry.

mod again;
mod amend;
mod bath;
mod bench;
mod care;
mod clean;
mod climate;
mod containers;
mod cut;
mod lots;
mod measures;
mod prices;
mod quarantine;
mod record;
mod reserve;
mod rotation;
mod shelf;
mod water;

use chrono::NaiveDate;

use crate::code::{COUNTER_MAX, LotCode};
use crate::command::Command;
use crate::entry::{self, Header};
use crate::event::{Event, Potting, VOCABULARY};
use crate::id::{EntryRef, LotId, Subject, ThingId};
use crate::limits;
use crate::rejection::{Caution, Input, Rejection};
use crate::state::{Lot, State};
use crate::text::{Lines, check_text};
use crate::time::{Moment, plus_days};

/// What a command comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Decision {
    /// The entry's stored form.
    pub line: String,
    pub entry: EntryRef,
    pub events: Vec<Event>,
    pub cautions: Vec<Caution>,
}

/// Decides a command.
///
/// # Errors
/// A [`Rejection`] that states the fact in the way.
pub fn decide(state: &State, at: &Moment, command: Command) -> Result<Decision, Rejection> {
    let (seq, prev, seen) = state.log().next_of(at.dev);
    let mut desk = Desk {
        state,
        at,
        on: at.today,
        entry: EntryRef { dev: at.dev, seq },
        events: Vec::new(),
        cautions: Vec::new(),
        things: 0,
        codes: Vec::new(),
        outside_ref: String::new(),
    };
    desk.carry_out(command)?;
    if desk.events.is_empty() {
        return Err(Rejection::NothingToDo);
    }
    let Desk {
        events,
        cautions,
        on,
        entry,
        ..
    } = desk;
    let mut about: Vec<Subject> = Vec::new();
    for subject in events.iter().flat_map(Event::subjects) {
        if !about.contains(&subject) {
            about.push(subject);
        }
    }
    for subject in &about {
        if state.facts().locked.contains_key(subject) {
            return Err(Rejection::NeedsNewerVersion { subject: *subject });
        }
    }
    let header = Header {
        dev: entry.dev,
        seq,
        prev,
        order: state.log().latest().next(at.now_ms),
        at_ms: at.now_ms,
        off_min: at.off_min,
        on,
        seen,
        about,
        needs: VOCABULARY,
    };
    let line = entry::write_line(&header, &events).map_err(|_| Rejection::EntryTooLarge)?;
    Ok(Decision {
        line,
        entry,
        events,
        cautions,
    })
}

/// Where a command is worked out: the state as it is, and the events so far.
struct Desk<'a> {
    state: &'a State,
    at: &'a Moment,
    on: NaiveDate,
    entry: EntryRef,
    events: Vec<Event>,
    cautions: Vec<Caution>,
    things: u16,
    codes: Vec<LotCode>,
    /// What another program calls the thing that is brought in.
    outside_ref: String,
}

type Done = Result<(), Rejection>;

impl Desk<'_> {
    fn carry_out(&mut self, command: Command) -> Done {
        if !matches!(
            command,
            Command::OpenBook(_)
                | Command::Together(_)
                | Command::OnDay { .. }
                | Command::FromOutside { .. }
        ) {
            self.book_is_open(matches!(command, Command::JoinPhone { .. }))?;
        }
        match command {
            Command::Together(commands) => commands
                .into_iter()
                .try_for_each(|command| self.carry_out(command)),
            Command::OnDay { on, command } => {
                self.on = self.day(on)?;
                if on < plus_days(self.at.today, -31) {
                    self.cautions.push(Caution::LongAgo { on });
                }
                self.carry_out(*command)
            }
            Command::FromOutside {
                outside_ref,
                command,
            } => {
                let own = std::mem::replace(
                    &mut self.outside_ref,
                    Self::short(Input::Text, &outside_ref)?,
                );
                self.carry_out(*command)?;
                self.outside_ref = own;
                Ok(())
            }
            Command::OpenBook(open) => self.open_book(open),
            Command::JoinPhone { prefix, name } => self.join_phone(prefix, name),
            Command::SetBook(change) => self.set_book(change),
            Command::SetPlace {
                place,
                name,
                walk,
                about,
            } => self.set_place(place, name, walk, about),
            Command::SetPot {
                pot,
                name,
                form,
                retired,
            } => self.set_pot(pot, name, form, retired),
            Command::SetMix {
                mix,
                name,
                shares,
                life_months,
                retired,
            } => self.set_mix(mix, name, shares, life_months, retired),
            Command::SetMeasure { measure, traits } => self.set_measure(measure, traits),
            Command::SetProduct { product, traits } => self.set_product(product, traits),
            Command::SetContainer { container, traits } => self.set_container(container, traits),
            Command::CountContainer { container, left } => self.count_container(container, left),
            Command::UseFromContainer {
                container,
                amount,
                why,
                note,
            } => self.use_from_container(container, amount, why, &note),
            Command::SetGroup(change) => self.set_group(change),
            Command::SetFeed { feed, traits } => self.set_feed(feed, traits),
            Command::Water(water) => self.water(water),
            Command::Feed(feed) => self.feed(feed),
            Command::SetRotation(rules) => self.set_rotation(rules),
            Command::AdoptProtocol { protocol, content } => self.adopt_protocol(protocol, content),
            Command::SetPrice(price) => self.set_price(price),
            Command::ReceiveLot(lot) => self.receive_lot(lot),
            Command::SplitLot {
                from,
                plants,
                stands,
                place,
                why,
            } => self.split_lot(from, plants, stands, place, why),
            Command::NameLot { lot, name } => self.name_lot(lot, name),
            Command::RecodeLot { lot, code } => self.recode_lot(lot, code),
            Command::MoveLot { lot, to } => self.move_lot(lot, to),
            Command::CountLot {
                lot,
                plants,
                stands,
            } => self.count_lot(lot, plants, stands),
            Command::LoseFromLot {
                lot,
                plants,
                stands,
                cause,
                note,
            } => self.lose(lot, plants, stands, cause, note),
            Command::SellFromLot {
                lot,
                plants,
                stands,
                to,
                price_cents,
                note,
            } => self.sell(lot, plants, stands, to, price_cents, note),
            kept @ (Command::ReserveInLot { .. }
            | Command::ReleaseInLot { .. }
            | Command::SellReserved { .. }) => self.keep_or_let_go(kept),
            Command::GainInLot {
                lot,
                plants,
                stands,
                why,
                note,
            } => self.gain(lot, plants, stands, why, note),
            Command::RepotLot {
                lot,
                stands,
                potting,
                class,
            } => self.repot_lot(lot, stands, potting, class),
            Command::ConfirmHygiene { tool_change, tools } => {
                self.confirm_hygiene(tool_change, tools)
            }
            Command::Sanitise(done) => self.sanitise(done),
            Command::MoveMaterials {
                moved,
                from,
                to,
                apart,
                note,
            } => self.move_materials(moved, (from, to), apart, note),
            Command::PlanDivision { lots, clump, plan } => self.plan_division(lots, clump, plan),
            Command::OpenDivision(open) => self.open_division(open),
            Command::TakePieces { clump, pieces } => self.take_pieces(clump, &pieces),
            Command::PotPieces { clump, batches } => self.pot_pieces(clump, batches),
            Command::CloseDivision {
                clump,
                how,
                dirty_pots,
                note,
            } => self.close_division(clump, how, dirty_pots, note),
            Command::RecordTreatment(treatment) => self.record_treatment(treatment),
            Command::TopUpBath {
                bath,
                water,
                amount,
                container,
            } => self.top_up_bath(bath, water, amount, container),
            Command::EndBath {
                bath,
                left,
                disposal,
            } => self.end_bath(bath, left, &disposal),
            Command::RecordFinding(finding) => self.record_finding(finding),
            Command::EnterQuarantine(enter) => self.enter_quarantine(enter),
            Command::ReleaseQuarantine { lot, early } => self.release_quarantine(lot, &early),
            Command::RecordTest(test) => self.record_test(test),
            Command::FollowTrace {
                source,
                lots,
                answer,
            } => self.follow_trace(source, &lots, &answer),
            Command::Observe {
                lots,
                what,
                good,
                note,
            } => self.observe(&lots, what, good, &note),
            Command::DecideTasks { tasks, answer, why } => self.decide_tasks(tasks, answer, &why),
            Command::NoteTask {
                task,
                text,
                due_on,
                repeat_days,
                lot,
                place,
            } => self.note_task(task, text, due_on, repeat_days, lot, place),
            Command::LookByGeneration { finding, text } => self.look_by_generation(finding, &text),
            Command::ReadClimate { place, days } => self.read_climate(place, days),
            Command::TakeOffPhone { dev, note } => self.take_off_phone(dev, note),
            Command::CorrectClock {
                dev,
                from_seq,
                to_seq,
                shift_ms,
            } => self.correct_clock(dev, from_seq, to_seq, shift_ms),
            Command::Amend {
                target,
                index,
                event,
                why,
            } => self.amend(target, index, event, why),
            Command::Withdraw {
                targets,
                with_dependents,
                why,
                note,
            } => self.withdraw(&targets, with_dependents, why, note),
            Command::Settle {
                subject,
                anomaly,
                note,
            } => self.settle(subject, anomaly, note),
        }
    }

    fn book_is_open(&self, joining: bool) -> Done {
        if self.state.facts().book.book.is_none() {
            return Err(Rejection::NoBook);
        }
        let phones = &self.state.facts().phones;
        let known = phones.get(&self.at.dev);
        let joined = known.is_some_and(|phone| !phone.has_left())
            || self
                .events
                .iter()
                .any(|event| matches!(event, Event::PhoneJoined(_)));
        if joined || joining {
            Ok(())
        } else {
            Err(Rejection::PhoneNotJoined)
        }
    }

    fn push(&mut self, event: impl Into<Event>) {
        self.events.push(event.into());
    }

    /// An id for a new thing of this entry.
    fn thing(&mut self) -> ThingId {
        let id = ThingId {
            entry: self.entry,
            n: self.things,
        };
        self.things = self.things.saturating_add(1);
        id
    }

    /// A day something may have happened on: not before the book's first year, not in the future.
    fn day(&self, on: NaiveDate) -> Result<NaiveDate, Rejection> {
        let first = NaiveDate::from_ymd_opt(limits::FIRST_YEAR, 1, 1).unwrap_or(NaiveDate::MIN);
        let last = self.at.today;
        if (first..=last).contains(&on) {
            Ok(on)
        } else {
            Err(Rejection::DayOutOfRange { first, last })
        }
    }

    /// A day something may be due on.
    fn day_ahead(&self, due_on: NaiveDate) -> Result<NaiveDate, Rejection> {
        let first = NaiveDate::from_ymd_opt(limits::FIRST_YEAR, 1, 1).unwrap_or(NaiveDate::MIN);
        let last = plus_days(self.at.today, limits::AHEAD_DAYS_MAX);
        if (first..=last).contains(&due_on) {
            Ok(due_on)
        } else {
            Err(Rejection::DayOutOfRange { first, last })
        }
    }

    fn lot(&self, id: LotId) -> Result<&Lot, Rejection> {
        let lot = self
            .state
            .facts()
            .lots
            .get(&id)
            .filter(|lot| lot.born.is_some());
        let lot = lot.map(|lot| &**lot);
        lot.ok_or(Rejection::NotInTheBook {
            subject: Subject::Lot(id),
        })
    }

    /// Plants and pots of a lot, with what this entry has changed so far.
    fn balance(&self, id: LotId) -> Result<(i64, i64), Rejection> {
        let lot = self.lot(id)?;
        let mut balance = (lot.plants, lot.stands);
        for event in &self.events {
            let (plants, stands) = match event {
                Event::Lost(event) if event.lot == id => {
                    (-i64::from(event.plants), -i64::from(event.stands))
                }
                Event::Sold(event) if event.lot == id => {
                    (-i64::from(event.plants), -i64::from(event.stands))
                }
                Event::Gained(event) if event.lot == id => {
                    (i64::from(event.plants), i64::from(event.stands))
                }
                Event::LotSplit(event) if event.from == id => {
                    (-i64::from(event.plants), -i64::from(event.stands))
                }
                Event::Counted(event) if event.lot == id => (
                    i64::from(event.plants) - balance.0,
                    i64::from(event.stands) - balance.1,
                ),
                Event::DivisionOpened(event) => {
                    let opened = event.lots.iter().filter(|opened| opened.lot == id);
                    opened.fold((0, 0), |sum, opened| {
                        (
                            sum.0 - i64::from(opened.plants),
                            sum.1 - i64::from(opened.stands),
                        )
                    })
                }
                _ => (0, 0),
            };
            balance = (balance.0 + plants, balance.1 + stands);
        }
        Ok(balance)
    }

    /// Checks that a lot holds at least so many.
    fn holds(&self, lot: LotId, plants: u32, stands: u32) -> Done {
        let balance = self.balance(lot)?;
        if i64::from(plants) > balance.0 || i64::from(stands) > balance.1 {
            return Err(Rejection::MoreThanThereAre {
                lot,
                plants: balance.0,
                stands: balance.1,
            });
        }
        Ok(())
    }

    /// A number of plants or pots within the limits.
    fn number(input: Input, number: u32) -> Done {
        let most = limits::PLANTS_MAX;
        if number > most {
            Err(Rejection::TooMany {
                input,
                most: u64::from(most),
            })
        } else {
            Ok(())
        }
    }

    /// A short text, trimmed.
    fn short(input: Input, text: &str) -> Result<String, Rejection> {
        check_text(text, limits::TEXT_CHARS_MAX, Lines::One)
            .map_err(|fault| Rejection::BadText { input, fault })?;
        Ok(text.trim().to_owned())
    }

    /// A short text that has to say something.
    fn needed(input: Input, text: &str) -> Result<String, Rejection> {
        let text = Self::short(input, text)?;
        if text.is_empty() {
            Err(Rejection::Missing { input })
        } else {
            Ok(text)
        }
    }

    /// What is copied about a potting: short texts, and amounts that are none.
    fn potting(&self, potting: Potting) -> Result<Potting, Rejection> {
        for (input, text) in [
            (Input::Pot, &potting.pot_name),
            (Input::Mix, &potting.mix_name),
            (Input::Mix, &potting.mix_batch),
            (Input::Mix, &potting.stone_batch),
        ] {
            Self::short(input, text)?;
        }
        if let Some(form) = potting
            .pot
            .and_then(|pot| self.state.facts().pots.get(&pot))
            .and_then(|pot| pot.form.get())
        {
            form.fill(&potting.layers).map_err(Rejection::BadPot)?;
        }
        Ok(potting)
    }

    /// What is potted here and now comes out of the open bag and the load in use, unless another is named.
    fn potted_now(&self, potting: Potting) -> Result<Potting, Rejection> {
        let mut potting = self.potting(potting)?;
        let book = &self.state.facts().book;
        let open = potting.mix.and_then(|mix| book.mix_open.get(&mix));
        if let Some(batch) = open.and_then(|open| open.get())
            && potting.mix_batch.is_empty()
        {
            potting.mix_batch.clone_from(batch);
        }
        if let Some(load) = book.stone_open.get()
            && potting.stone_batch.is_empty()
            && potting.stone_ul > 0
        {
            potting.stone_batch.clone_from(load);
        }
        Ok(potting)
    }

    fn note(text: &str) -> Result<String, Rejection> {
        check_text(text, limits::NOTE_CHARS_MAX, Lines::Many).map_err(|fault| {
            Rejection::BadText {
                input: Input::Note,
                fault,
            }
        })?;
        Ok(text.trim().to_owned())
    }

    /// The code asked for if it is free, or this phone's next one.
    fn code(&mut self, wanted: Option<LotCode>) -> Result<LotCode, Rejection> {
        let code = match wanted {
            Some(code) => code,
            None => next_code(self.state, self.at, &self.codes)?,
        };
        let taken = self.state.facts().lots_coded(code).next();
        if let Some(lot) = taken {
            return Err(Rejection::CodeTaken { code, lot });
        }
        if let Some(lot) = self.coded_here(code) {
            return Err(Rejection::CodeTaken { code, lot });
        }
        self.codes.push(code);
        Ok(code)
    }

    /// The lot of this entry that bears a code already.
    fn coded_here(&self, code: LotCode) -> Option<LotId> {
        self.events.iter().find_map(|event| match event {
            Event::LotReceived(event) if event.code == code => Some(event.lot),
            Event::PiecesPotted(event) if event.code == code => Some(event.lot),
            Event::LotSplit(event) if event.code == code => Some(event.lot),
            Event::LotCoded(event) if event.code == code => Some(event.lot),
            _ => None,
        })
    }
}

/// This phone's next code that no lot bears and that is not reserved for labels in `besides`.
///
/// # Errors
/// [`Rejection::PhoneNotJoined`] before it has a prefix; [`Rejection::NoCodesLeft`] at the end of the counter.
pub fn next_code(state: &State, at: &Moment, besides: &[LotCode]) -> Result<LotCode, Rejection> {
    let phone = state
        .facts()
        .phones
        .get(&at.dev)
        .ok_or(Rejection::PhoneNotJoined)?;
    let prefix = *phone.prefix.get().ok_or(Rejection::PhoneNotJoined)?;
    let besides = besides.iter().filter(|code| code.prefix() == prefix);
    let besides = besides.map(|code| code.counter()).max().unwrap_or(0);
    let highest = state.facts().last_counter(prefix).max(besides);
    let counter = highest
        .checked_add(1)
        .filter(|next| *next <= COUNTER_MAX)
        .ok_or(Rejection::NoCodesLeft)?;
    prefix.code(counter).ok_or(Rejection::NoCodesLeft)
}
