//! What met what, and when: read from the entries once, then asked by the search.
//!
//! A blade that was disinfected with what reaches both viruses, as strong and as long as was published, ends the run. A
//! blade is followed from clump to clump in the order of entries, by its mark, or by the phone at the bench where it has
//! none. A change of tools that is only confirmed does not end the run within the next twenty, because what cleans a blade
//! for most things does not rid it of a virus; it ends a longer one.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::{ClosedHow, Event, Method, Object, PieceClass, TreatedPart};
use crate::id::{ClumpId, Dev, LotId, PlaceId, Subject, TreatmentId};
use crate::reference::virus::NEXT_PLANTS;
use crate::state::{MaterialKind, State};
use crate::time::Stamp;

use super::stuff::{Emptied, Stuff};
use super::went::Fillings;
use super::{Node, Step, Why};

/// Clumps a blade that was never changed is followed to at most.
pub const LONGEST_RUN: usize = 60;

/// Costs of ties: one is a plant of the same plants, seven is no more than a neighbour.
const CLOSE: u16 = 1;
const SHARED: u16 = 2;
const CHANGED: u16 = 3;
/// Washed pots and stone; disinfected ones cost as much more as a changed blade.
const REUSED: u16 = 3;
const NEIGHBOUR: u16 = 7;
/// Every so many clumps on the blade add one.
const WEARS_OFF: u16 = 4;

#[derive(Clone, Debug)]
struct Cut {
    clump: ClumpId,
    order: Stamp,
    on: NaiveDate,
    lots: Vec<LotId>,
    blade: (Dev, String),
    /// Whether the blade was confirmed to be a clean one for this clump.
    changed: bool,
    /// Whether it was disinfected before with what reaches both viruses.
    free: bool,
    put_back: bool,
}

/// What was done to the blades at a bench since the clump before.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
enum Blades {
    #[default]
    AsTheyWere,
    /// Changed for clean ones, as confirmed.
    Changed,
    /// Disinfected with what reaches both viruses, as strong and as long as that takes.
    FreeOfVirus,
}

fn blades_after(event: &Event) -> Option<Blades> {
    match event {
        Event::HygieneConfirmed(_) => Some(Blades::Changed),
        Event::Sanitised(it) if it.what == Object::Tools => {
            Some(if it.reached_viruses() && it.cleaned_first {
                Blades::FreeOfVirus
            } else {
                Blades::Changed
            })
        }
        _ => None,
    }
}

#[derive(Clone, Debug)]
struct Child {
    lot: LotId,
    class: PieceClass,
    order: Stamp,
    on: NaiveDate,
}

#[derive(Clone, Debug)]
struct Dip {
    order: Stamp,
    on: NaiveDate,
    parts: Vec<TreatedPart>,
}

/// A tie from something that has it.
#[derive(Clone, Debug)]
pub(super) struct Tie {
    pub(super) step: Step,
    pub(super) cost: u16,
    pub(super) since: Option<Stamp>,
}

/// What met what.
#[derive(Clone, Debug, Default)]
pub struct Ties {
    cuts: Vec<Cut>,
    cut_at: BTreeMap<ClumpId, usize>,
    children: BTreeMap<ClumpId, Vec<Child>>,
    born_of: BTreeMap<LotId, (ClumpId, NaiveDate)>,
    parts: BTreeMap<LotId, Vec<(LotId, Stamp, NaiveDate)>>,
    whole: BTreeMap<LotId, (LotId, Stamp, NaiveDate)>,
    dips: BTreeMap<TreatmentId, Vec<Dip>>,
    bath_of: BTreeMap<TreatmentId, TreatmentId>,
    stands: BTreeMap<LotId, PlaceId>,
    pub(super) stuff: Stuff,
    pub(super) fillings: Fillings,
    today: Option<NaiveDate>,
}

impl Ties {
    /// Reads the book.
    #[must_use]
    pub fn of(state: &State) -> Self {
        let mut ties = Self::default();
        let mut clean: BTreeMap<Dev, Blades> = BTreeMap::new();
        for entry in state.log().in_order() {
            ties.today = ties.today.max(Some(entry.header.on));
            for fact in state.log().facts(entry.id) {
                let dev = entry.id.dev;
                let (order, on) = (entry.header.order, entry.header.on);
                if let Some(state) = blades_after(fact.event) {
                    let before = clean.entry(dev).or_default();
                    *before = state.max(*before);
                }
                if let Event::DivisionOpened(_) = fact.event {
                    let before = clean.remove(&dev).unwrap_or_default();
                    ties.note_cut(fact.event, dev, order, on, before);
                } else {
                    ties.note(fact.event, order, on);
                }
                ties.stuff.note(&fact);
                let bath_of = &ties.bath_of;
                ties.fillings.note(&fact, |it| {
                    let first = it.same_mix_as.unwrap_or(it.treatment);
                    bath_of.get(&first).copied().unwrap_or(first)
                });
            }
        }
        let stocked = state
            .facts()
            .live_lots()
            .filter(|(_, lot)| lot.is_stocked());
        ties.stands = stocked
            .filter_map(|(id, lot)| Some((id, *lot.place.get()?)))
            .collect();
        ties
    }

    fn note_cut(&mut self, event: &Event, dev: Dev, order: Stamp, on: NaiveDate, before: Blades) {
        let Event::DivisionOpened(event) = event else {
            return;
        };
        self.cut_at.insert(event.clump, self.cuts.len());
        self.cuts.push(Cut {
            clump: event.clump,
            order,
            on,
            lots: event.lots.iter().map(|opened| opened.lot).collect(),
            blade: (dev, event.tool.clone()),
            changed: before > Blades::AsTheyWere || event.cut_before == Some(0),
            // With several tools nobody knows which one lay in the bath.
            free: before == Blades::FreeOfVirus && event.tool.is_empty(),
            put_back: false,
        });
    }

    fn note(&mut self, event: &Event, order: Stamp, on: NaiveDate) {
        match event {
            Event::DivisionClosed(event) if event.how == ClosedHow::PutBack => {
                let cut = self.cut_at.get(&event.clump).copied();
                if let Some(cut) = cut.and_then(|at| self.cuts.get_mut(at)) {
                    cut.put_back = true;
                }
            }
            Event::PiecesPotted(event) => {
                self.born_of.insert(event.lot, (event.clump, on));
                self.children.entry(event.clump).or_default().push(Child {
                    lot: event.lot,
                    class: event.class,
                    order,
                    on,
                });
            }
            Event::LotSplit(event) => {
                let part = (event.lot, order, on);
                self.parts.entry(event.from).or_default().push(part);
                self.whole.insert(event.lot, (event.from, order, on));
            }
            Event::Treated(event) => {
                let first = event.same_mix_as.unwrap_or(event.treatment);
                let root = self.bath_of.get(&first).copied().unwrap_or(first);
                self.bath_of.insert(event.treatment, root);
                // What is sprayed or poured carries nothing from plant to plant; a tub does.
                if matches!(event.method, Method::Bath | Method::Plunge) {
                    self.dips.entry(root).or_default().push(Dip {
                        order,
                        on,
                        parts: event.parts.clone(),
                    });
                }
            }
            _ => {}
        }
    }

    /// Ties from a thing that has it since then. `first` is the suspect lot itself.
    pub(super) fn leading_from(&self, node: &Node, since: Option<Stamp>, first: bool) -> Vec<Tie> {
        match node {
            Node::Lot(lot) => {
                let mut ties = self.of_lot(*lot, since);
                if first {
                    ties.extend(self.neighbours(*lot));
                }
                ties
            }
            Node::Cut(clump) => self.of_cut(*clump, since),
            Node::Bath(bath) => self.of_bath(*bath, since),
            Node::Emptied(batch) => self.of_emptied(batch),
        }
    }

    fn of_lot(&self, lot: LotId, since: Option<Stamp>) -> Vec<Tie> {
        let mut ties = Vec::new();
        for cut in self.cuts.iter().filter(|cut| cut.lots.contains(&lot)) {
            if since.is_none_or(|since| since < cut.order) {
                // It had it before it was cut, whenever that was.
                let since = since.or(Some(Stamp::default()));
                ties.push(tie(Why::WasCut, Node::Cut(cut.clump), cut.on, 0, since));
            }
        }
        if since.is_none()
            && let Some((clump, on)) = self.born_of.get(&lot)
        {
            ties.push(tie(Why::CameFrom, Node::Cut(*clump), *on, CLOSE, None));
        }
        for (part, order, on) in self.parts.get(&lot).into_iter().flatten() {
            if since <= Some(*order) {
                ties.push(tie(Why::Part, Node::Lot(*part), *on, CLOSE, since));
            }
        }
        if let Some((whole, order, on)) = self.whole.get(&lot)
            && since < Some(*order)
        {
            ties.push(tie(Why::Whole, Node::Lot(*whole), *on, CLOSE, since));
        }
        ties.extend(self.baths_with(
            since,
            |part| matches!(part, TreatedPart::Lot { lot: of, .. } if *of == lot),
        ));
        ties.extend(self.emptied(since, Subject::Lot(lot)));
        ties
    }

    /// The pots and stone that came off plants which had it.
    fn emptied(&self, since: Option<Stamp>, whose: Subject) -> Vec<Tie> {
        let off = self.stuff.off(whose, since);
        off.map(|(batch, trail)| {
            let since = Some(trail.order);
            let to = Node::Emptied(batch.clone());
            tie(Why::Emptied, to, trail.on, CLOSE, since)
        })
        .collect()
    }

    /// Plants that were potted into what may be of a batch.
    fn of_emptied(&self, batch: &Emptied) -> Vec<Tie> {
        let trail = self.stuff.trail(batch);
        let reuses = trail.into_iter().flat_map(|trail| &trail.reuses);
        reuses
            .map(|reuse| {
                let why = Why::UsedAgain {
                    stone: batch.kind == MaterialKind::Stone,
                    disinfected: reuse.disinfected,
                };
                let cost = if reuse.disinfected {
                    REUSED + CHANGED
                } else {
                    REUSED
                };
                let since = Some(reuse.order);
                tie(why, Node::Lot(reuse.lot), reuse.on, cost, since)
            })
            .collect()
    }

    /// The clumps a lot was cut in.
    pub(super) fn cut_in(&self, lot: LotId) -> impl Iterator<Item = ClumpId> {
        let cuts = self.cuts.iter();
        cuts.filter(move |cut| cut.lots.contains(&lot))
            .map(|cut| cut.clump)
    }

    fn of_cut(&self, clump: ClumpId, since: Option<Stamp>) -> Vec<Tie> {
        let Some((at, cut)) = self
            .cut_at
            .get(&clump)
            .and_then(|at| Some((*at, self.cuts.get(*at)?)))
        else {
            return Vec::new();
        };
        let mut ties = Vec::new();
        for lot in &cut.lots {
            // What it came from may have had it before; what merely lay beside it, from then on.
            let (cost, from) = match since {
                None => (CLOSE, None),
                Some(since) => (SHARED, Some(since.max(cut.order))),
            };
            ties.push(tie(Why::Together, Node::Lot(*lot), cut.on, cost, from));
        }
        for child in self.children.get(&clump).into_iter().flatten() {
            if since <= Some(child.order) {
                let from = Some(child.order);
                ties.push(tie(
                    Why::PottedFrom,
                    Node::Lot(child.lot),
                    child.on,
                    CLOSE,
                    from,
                ));
            }
        }
        ties.extend(self.baths_with(
            since,
            |part| matches!(part, TreatedPart::Pieces { clump: of, .. } if *of == clump),
        ));
        ties.extend(self.emptied(since, Subject::Clump(clump)));
        if !cut.put_back && since.is_none_or(|since| since < cut.order) {
            ties.extend(self.blade(at, cut));
        }
        ties
    }

    /// The clumps cut next with the blade that cut this one.
    fn blade(&self, at: usize, cut: &Cut) -> Vec<Tie> {
        let mut ties = Vec::new();
        let mut changed = false;
        let later = self.cuts.iter().skip(at + 1);
        let next = later.filter(|next| next.blade == cut.blade && !next.put_back);
        for (nth, next) in (1u16..).zip(next.take(LONGEST_RUN)) {
            if next.free {
                break;
            }
            changed |= next.changed;
            if usize::from(nth) > NEXT_PLANTS && changed {
                break;
            }
            let worn = SHARED + (nth - 1) / WEARS_OFF;
            let cost = if changed { worn + CHANGED } else { worn };
            let why = Why::SameBlade { nth, changed };
            ties.push(tie(
                why,
                Node::Cut(next.clump),
                next.on,
                cost,
                Some(next.order),
            ));
        }
        ties
    }

    fn baths_with(&self, since: Option<Stamp>, holds: impl Fn(&TreatedPart) -> bool) -> Vec<Tie> {
        let mut ties = Vec::new();
        for (bath, dips) in &self.dips {
            for dip in dips.iter().filter(|dip| since <= Some(dip.order)) {
                if dip.parts.iter().any(&holds) {
                    let since = Some(dip.order);
                    ties.push(tie(Why::IntoBath, Node::Bath(*bath), dip.on, CLOSE, since));
                }
            }
        }
        ties
    }

    fn of_bath(&self, bath: TreatmentId, since: Option<Stamp>) -> Vec<Tie> {
        let mut ties = Vec::new();
        let dips = self.dips.get(&bath).into_iter().flatten();
        for dip in dips.filter(|dip| since <= Some(dip.order)) {
            for (lot, order) in self.dipped(dip) {
                let since = Some(order.max(dip.order));
                ties.push(tie(Why::SameBath, Node::Lot(lot), dip.on, SHARED, since));
            }
        }
        ties
    }

    /// Lots that lay in a bath at one dip, and those that were potted from the pieces in it.
    fn dipped(&self, dip: &Dip) -> Vec<(LotId, Stamp)> {
        let mut lots = Vec::new();
        for part in &dip.parts {
            match part {
                TreatedPart::Lot { lot, .. } => lots.push((*lot, dip.order)),
                TreatedPart::Pieces { clump, class, .. } => {
                    lots.extend(self.potted_of(*clump, *class, dip.order));
                }
            }
        }
        lots
    }

    /// Lots potted from pieces of a class of a clump, from then on.
    pub(super) fn potted_of(
        &self,
        clump: ClumpId,
        class: PieceClass,
        since: Stamp,
    ) -> impl Iterator<Item = (LotId, Stamp)> {
        let potted = self.children.get(&clump).into_iter().flatten();
        let potted = potted.filter(move |child| child.class == class && child.order >= since);
        potted.map(|child| (child.lot, child.order))
    }

    fn neighbours(&self, lot: LotId) -> Vec<Tie> {
        let (Some(place), Some(today)) = (self.stands.get(&lot), self.today) else {
            return Vec::new();
        };
        let end = Stamp {
            ms: i64::MAX,
            count: u32::MAX,
        };
        let here = self
            .stands
            .iter()
            .filter(|(id, at)| **id != lot && *at == place);
        here.map(|(id, _)| {
            let why = Why::Neighbour { place: *place };
            tie(why, Node::Lot(*id), today, NEIGHBOUR, Some(end))
        })
        .collect()
    }
}

fn tie(why: Why, to: Node, on: NaiveDate, cost: u16, since: Option<Stamp>) -> Tie {
    Tie {
        step: Step { why, to, on },
        cost,
        since,
    }
}
