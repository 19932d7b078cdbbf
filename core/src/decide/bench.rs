//! Commands at the bench: a clump opened, pieces off it, into pots, and done.

use crate::clean;
use crate::command::{Batch, CountedPieces, OpenDivision};
use crate::event::*;
use crate::id::{ClumpId, LotId, Subject};
use crate::limits;
use crate::quarantine::clump_is_suspect;
use crate::rejection::{Caution, Input, Rejection};
use crate::season::snap;
use crate::state::Clump;
use crate::task::derive;

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn confirm_hygiene(&mut self, tool_change: ToolChange, tools: Option<u8>) -> Done {
        Self::tools_hold(tools)?;
        self.push(HygieneConfirmed { tool_change, tools });
        Ok(())
    }

    /// Tools that alternate are several, and not more than lie in one bath.
    pub(super) fn tools_hold(tools: Option<u8>) -> Done {
        let most = limits::TOOLS_MAX;
        if tools.is_some_and(|tools| !(2..=most).contains(&tools)) {
            return Err(Rejection::OutOfRange {
                input: Input::Tools,
                least: 2,
                most: i64::from(most),
            });
        }
        Ok(())
    }

    pub(super) fn open_division(&mut self, open: OpenDivision) -> Done {
        if open.lots.is_empty() && open.unbooked_pots == 0 {
            return Err(Rejection::Missing { input: Input::Pots });
        }
        if open.lots.len() > limits::CLUMP_LOTS_MAX {
            return Err(Rejection::TooMany {
                input: Input::Pots,
                most: limits::CLUMP_LOTS_MAX as u64,
            });
        }
        Self::tray_holds(open.tray, open.unbooked_pots)?;
        let in_use = |clump: &Clump| {
            clump
                .opened
                .as_ref()
                .is_some_and(|opened| opened.tray == open.tray)
        };
        if self
            .state
            .facts()
            .open_clumps()
            .any(|(_, clump)| in_use(clump))
        {
            return Err(Rejection::TrayInUse { tray: open.tray });
        }
        for (at, opened) in open.lots.iter().enumerate() {
            if open
                .lots
                .iter()
                .skip(at + 1)
                .any(|other| other.lot == opened.lot)
            {
                return Err(Rejection::LotTwice { lot: opened.lot });
            }
            let lot = self.lot(opened.lot)?;
            if lot.plants <= 0 && !lot.on_bench.is_empty() {
                return Err(Rejection::AllOnTheBench { lot: opened.lot });
            }
            if opened.plants == 0 {
                return Err(Rejection::Missing {
                    input: Input::Plants,
                });
            }
            self.holds(opened.lot, opened.plants, opened.stands)?;
            if open.lots.len() > 1 || open.unbooked_pots > 0 {
                self.is_free(opened.lot)?;
            }
            let windows = derive::repot_windows(self.state.facts(), self.lot(opened.lot)?);
            let snapped = snap(self.on, &windows);
            if snapped.moved {
                let next_opening = Some(snapped.date);
                self.cautions.push(Caution::OutsideWindow {
                    lot: opened.lot,
                    next_opening,
                });
            }
        }
        self.place_is_known(open.place)?;
        let tool = clean::next_tool(self.state, self.at, open.same_tool);
        let clump = ClumpId(self.thing());
        let event = DivisionOpened {
            clump,
            tray: open.tray,
            lots: open.lots,
            unbooked_pots: open.unbooked_pots,
            name: Self::plant_name(open.name)?,
            place: open.place,
            leads: open.leads,
            bulbs: open.bulbs,
            tool: tool.mark,
            cut_before: tool.cut_before,
            plan: self.cut_plan(open.plan)?,
        };
        self.push(event);
        Ok(())
    }

    /// A clump lies under a tag, with pots within the limits.
    pub(super) fn tray_holds(tray: u32, unbooked_pots: u32) -> Done {
        if unbooked_pots > limits::PIECES_MAX {
            return Err(Rejection::TooMany {
                input: Input::Pots,
                most: u64::from(limits::PIECES_MAX),
            });
        }
        if tray == 0 {
            return Err(Rejection::Missing { input: Input::Tray });
        }
        Ok(())
    }

    pub(super) fn open_clump(&self, id: ClumpId) -> Result<&Clump, Rejection> {
        let clump = self
            .state
            .facts()
            .clumps
            .get(&id)
            .filter(|clump| clump.opened.is_some());
        let clump = clump.ok_or(Rejection::NotInTheBook {
            subject: Subject::Clump(id),
        })?;
        if clump.is_open() {
            Ok(clump)
        } else {
            Err(Rejection::ClumpClosed)
        }
    }

    pub(super) fn take_pieces(&mut self, id: ClumpId, pieces: &[CountedPieces]) -> Done {
        let clump = self.open_clump(id)?.clone();
        let mut bulbs: u64 = 0;
        let mut counted = false;
        let mut all: u64 = 0;
        for class in PieceClass::ALL {
            let change: i64 = pieces
                .iter()
                .filter(|piece| piece.class == class)
                .map(|piece| i64::from(piece.plants))
                .sum();
            let change = change.saturating_add(self.just_taken(id, class));
            let taken = i64::try_from(clump.taken_of(class))
                .unwrap_or(i64::MAX)
                .saturating_add(change);
            let potted = clump.potted_of(class);
            let taken =
                u64::try_from(taken).map_err(|_| Rejection::FewerThanPotted { class, potted })?;
            Self::pieces_hold(class, taken, potted)?;
            all = all.saturating_add(taken);
            let known = clump.taken.get(&class).and_then(|taken| taken.bulbs);
            let new = pieces
                .iter()
                .filter(|piece| piece.class == class)
                .filter_map(|piece| piece.bulbs);
            let new: u64 = new
                .map(|bulbs| {
                    counted = true;
                    u64::from(bulbs)
                })
                .sum();
            counted |= known.is_some();
            bulbs = bulbs.saturating_add(known.unwrap_or(0)).saturating_add(new);
        }
        if counted && all > bulbs {
            self.cautions
                .push(Caution::MorePiecesThanBulbs { pieces: all, bulbs });
        }
        for piece in pieces
            .iter()
            .filter(|piece| piece.plants != 0 || piece.bulbs.is_some())
        {
            self.push(PiecesTaken {
                clump: id,
                class: piece.class,
                plants: piece.plants,
                bulbs: piece.bulbs,
            });
        }
        Ok(())
    }

    /// Pieces of a class off one clump: within the limit, and no fewer than are potted.
    pub(super) fn pieces_hold(class: PieceClass, taken: u64, potted: u64) -> Done {
        if taken > u64::from(limits::PIECES_MAX) {
            return Err(Rejection::TooMany {
                input: Input::Pieces,
                most: u64::from(limits::PIECES_MAX),
            });
        }
        if taken < potted {
            return Err(Rejection::FewerThanPotted { class, potted });
        }
        Ok(())
    }

    /// Pieces of a class that come off a clump in this entry.
    fn just_taken(&self, id: ClumpId, class: PieceClass) -> i64 {
        let taken = self.events.iter().map(|event| match event {
            Event::PiecesTaken(event) if event.clump == id && event.class == class => {
                i64::from(event.plants)
            }
            _ => 0,
        });
        taken.sum()
    }

    /// Pieces of a class off a clump, with what this entry has taken so far.
    fn taken_so_far(&self, id: ClumpId, clump: &Clump, class: PieceClass) -> u64 {
        let taken = i64::try_from(clump.taken_of(class)).unwrap_or(i64::MAX);
        u64::try_from(taken.saturating_add(self.just_taken(id, class))).unwrap_or(0)
    }

    pub(super) fn pot_pieces(&mut self, id: ClumpId, batches: Vec<Batch>) -> Done {
        let clump = self.open_clump(id)?.clone();
        let parents = clump.parents();
        let name = clump
            .opened
            .as_ref()
            .map(|opened| opened.name.clone())
            .unwrap_or_default();
        for class in PieceClass::ALL {
            let of_class = || batches.iter().filter(|batch| batch.class == class);
            let now: u64 = of_class().map(|batch| u64::from(batch.plants)).sum();
            let taken = self.taken_so_far(id, &clump, class);
            let potted = clump.potted_of(class).saturating_add(now);
            if now > 0 && potted > taken {
                return Err(Rejection::MorePottedThanPieces {
                    class,
                    taken,
                    potted,
                });
            }
        }
        let mut drawn: Vec<(Potting, u32)> = Vec::new();
        for batch in batches {
            if batch.plants == 0 || !batch.class.is_kept() {
                return Err(Rejection::Missing {
                    input: Input::Pieces,
                });
            }
            Self::number(Input::Pots, batch.stands)?;
            if batch.stands == 0 && batch.with.is_none() {
                return Err(Rejection::Missing { input: Input::Pots });
            }
            self.place_is_known(batch.place)?;
            if let Some(host) = batch.with {
                self.lot(host)?;
            }
            self.pieces_stay_apart(&parents, batch.with, batch.place)?;
            let lot = LotId(self.thing());
            let event = PiecesPotted {
                clump: id,
                class: batch.class,
                lot,
                code: self.code(batch.code)?,
                name: match batch.name {
                    Some(name) => Self::plant_name(name)?,
                    None => name.clone(),
                },
                parents: parents.clone(),
                plants: batch.plants,
                stands: batch.stands,
                with: batch.with,
                potting: self.potted_now(batch.potting)?,
                place: batch.place,
            };
            drawn.push((event.potting.clone(), event.stands));
            self.push(event);
        }
        for (potting, stands) in drawn {
            self.draw_clean(&potting, stands);
        }
        Ok(())
    }

    pub(super) fn close_division(
        &mut self,
        id: ClumpId,
        how: ClosedHow,
        dirty_pots: u32,
        note: String,
    ) -> Done {
        let clump = self.open_clump(id)?;
        let in_this_entry: u64 = self
            .events
            .iter()
            .map(|event| match event {
                Event::PiecesPotted(event) if event.clump == id => u64::from(event.plants),
                _ => 0,
            })
            .sum();
        match how {
            ClosedHow::Done => {
                let pieces = clump.bare().saturating_sub(in_this_entry);
                if pieces > 0 {
                    return Err(Rejection::PiecesBare { pieces });
                }
            }
            ClosedHow::PutBack => {
                // Pieces counted by mistake and counted back leave the clump whole.
                let cut = PieceClass::ALL
                    .into_iter()
                    .any(|class| self.taken_so_far(id, clump, class) > 0);
                if cut || !clump.lots.is_empty() {
                    return Err(Rejection::AlreadyCut);
                }
            }
        }
        Self::number(Input::Pots, dirty_pots)?;
        let lots = clump.parents();
        let took_min = clump.opened.as_ref().and_then(|opened| {
            u32::try_from(self.at.now_ms.saturating_sub(opened.at_ms) / 60_000).ok()
        });
        let note = Self::note(&note)?;
        let emptied = self.emptied_of(clump, dirty_pots);
        self.push(DivisionClosed {
            clump: id,
            lots,
            how,
            dirty_pots,
            took_min,
            note,
        });
        if how == ClosedHow::Done {
            let suspect = clump_is_suspect(self.state.facts(), id);
            self.empty(emptied, suspect.then_some(Subject::Clump(id)));
        }
        Ok(())
    }
}
