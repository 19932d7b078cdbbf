//! Work at the bench: a clump opened, cut, sorted into classes, potted, and closed; or potted on without a cut.

use crate::command::{Batch, Command, CountedPieces, OpenDivision};
use crate::event::{ClosedHow, Event, OpenedLot, PieceClass, ToolChange};
use crate::id::{ClumpId, LotId};
use crate::reference::taxa::Habit;
use crate::task::derive::{self, Task};
use crate::view::repot::next_tray;

use super::Nursery;

/// Lots done in one morning.
const IN_A_MORNING: usize = 4;

impl Nursery {
    /// Brings what wants the bench to it, a few lots a morning.
    pub(super) fn bench(&mut self, wanting: &[Task]) {
        let lots = wanting.iter().filter_map(|task| task.lot);
        let mut lots: Vec<LotId> = lots.filter(|lot| !self.left_alone.contains(lot)).collect();
        lots.dedup();
        lots.truncate(IN_A_MORNING);
        if lots.is_empty() {
            return;
        }
        self.wait(60);
        self.act(Command::ConfirmHygiene {
            tool_change: ToolChange::BetweenClumps,
            tools: None,
        });
        for lot in lots {
            self.wait(10);
            self.bring(lot);
        }
    }

    fn bring(&mut self, id: LotId) {
        let Some(lot) = self.state.facts().lots.get(&id) else {
            return;
        };
        let small = lot.class != Some(PieceClass::Flowering);
        let stays_whole = derive::group_row(lot).habit == Habit::Monopodial;
        let count = |number: i64| u32::try_from(number).unwrap_or(0);
        let (plants, stands) = (count(lot.plants), count(lot.stands));
        if small || stays_whole || self.chance.once_in(2) {
            let class = match lot.class {
                Some(PieceClass::Starter) | None => PieceClass::Flowering,
                Some(PieceClass::Flowering) => PieceClass::Flowering,
                Some(_) => PieceClass::Starter,
            };
            let potting = self.potting(stands, class == PieceClass::Starter);
            self.act(Command::RepotLot {
                lot: id,
                stands,
                potting,
                class: Some(class),
            });
        } else {
            let plants = plants.min(1 + self.chance.below(3));
            let stands = self.emptied(id, plants);
            let opened = OpenedLot {
                lot: id,
                plants,
                stands,
            };
            self.divide(opened);
        }
    }

    fn divide(&mut self, opened: OpenedLot) {
        let facts = self.state.facts();
        let Some(lot) = facts.lots.get(&opened.lot) else {
            return;
        };
        let (name, place) = (lot.name.or_default(), lot.place.get().copied());
        let with_bulbs = derive::group_row(lot).habit == Habit::Bulbs;
        let pots = opened.plants;
        let open = self.act(Command::OpenDivision(OpenDivision {
            tray: next_tray(&self.state),
            lots: vec![opened],
            name,
            place,
            ..OpenDivision::default()
        }));
        let clump = open.iter().find_map(|event| match event {
            Event::DivisionOpened(opened) => Some(opened.clump),
            _ => None,
        });
        let Some(clump) = clump else { return };
        let back_bulbs = if with_bulbs && self.chance.once_in(6) {
            2 + self.chance.below(4)
        } else {
            0
        };
        let kept = [
            (PieceClass::Flowering, pots),
            (PieceClass::Starter, self.chance.below(3)),
            (PieceClass::BackBulb, back_bulbs),
        ];
        self.wait(6);
        let thrown = (PieceClass::Thrown, self.chance.below(3));
        let taken = kept.into_iter().chain([thrown]);
        let pieces = taken
            .filter(|(_, plants)| *plants > 0)
            .map(|(class, plants)| CountedPieces {
                class,
                plants: i32::try_from(plants).unwrap_or(0),
                bulbs: None,
            });
        let pieces = pieces.collect();
        self.act(Command::TakePieces { clump, pieces });
        self.wait(12);
        self.pot(clump, kept, place);
        self.wait(2);
        self.act(Command::CloseDivision {
            clump,
            how: ClosedHow::Done,
            dirty_pots: pots,
            note: String::new(),
        });
    }

    fn pot(
        &mut self,
        clump: ClumpId,
        kept: [(PieceClass, u32); 3],
        place: Option<crate::id::PlaceId>,
    ) {
        let batches = kept.into_iter().filter(|(_, plants)| *plants > 0);
        let batches = batches.map(|(class, plants)| {
            let in_a_tray = class == PieceClass::BackBulb;
            let stands = if in_a_tray { 1 } else { plants };
            Batch {
                class,
                code: None,
                name: None,
                plants,
                stands,
                with: None,
                potting: self.potting(stands, class != PieceClass::Flowering),
                place,
            }
        });
        let batches = batches.collect();
        self.act(Command::PotPieces { clump, batches });
    }
}
