//! What a way of cutting takes: pots by size, mix and stone, minutes and room on the bench.
//!
//! Counted for the likely number of pieces. Pots are the smallest of the shelf with two years' room; a kind nobody
//! measured adds nothing to litres and ground, and is told.

use crate::event::{PieceClass, Way};
use crate::id::{LotId, MixId, PotId};
use crate::outlook::Span;
use crate::potting::Pot;
use crate::quantity::{Mass, Volume};
use crate::reference::labour::{Work, labour};
use crate::reference::taxa::{Group, row};
use crate::state::{Facts, Mix, State};
use crate::view::potting::{bill_of, last_of_class, shares_a_tray, usual_layers};

use super::known::Known;
use super::room::{pot_for, room_mm, width_um};
use super::ways::Choice;

/// Pieces without a lead that share one tray (common practice, no source).
pub(super) const IN_A_TRAY: u32 = 12;
/// Room across that each of them takes there (common practice, no source).
const SHARED_MM: u32 = 45;
/// What the keys of all moss begin with.
const MOSS: &str = "sphagnum";
/// Litres a pot holds that nobody measured, for the time it takes to strip.
const UNMEASURED_POT_UL: i64 = 2_000_000;

/// So many pots of one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PotNeed {
    /// What goes in; `None` for plants that stay whole.
    pub class: Option<PieceClass>,
    /// `None` where the shelf has no kind for it.
    pub pot: Option<PotId>,
    pub name: String,
    pub stands: u32,
    /// Whether pieces share it.
    pub tray: bool,
    /// Room one piece needs, in millimetres; nothing for what shares a tray.
    pub room_mm: u32,
    /// The widest pot of the shelf is narrower than that.
    pub narrow: bool,
    pub mix: Option<MixId>,
    pub mix_volume: Volume,
    pub stone: Volume,
    pub stone_mass: Mass,
    /// Ground it takes pot against pot, in square millimetres; `None` where its width is not known.
    pub ground_mm2: Option<u64>,
}

/// All it takes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Needs {
    pub pots: Vec<PotNeed>,
    pub mix: Volume,
    pub stone: Volume,
    pub stone_mass: Mass,
    pub labels: u32,
    /// Minutes at the bench.
    pub minutes: Span,
    /// Square centimetres of bench, rim against rim, and those the old pots leave.
    pub bench_cm2: u64,
    pub freed_cm2: u64,
    pub unmeasured: u32,
}

/// What a way takes.
#[must_use]
pub fn needs(state: &State, known: &Known, choice: &Choice) -> Needs {
    let facts = state.facts();
    let mut pots: Vec<PotNeed> = Vec::new();
    if choice.whole > 0 {
        pots.push(whole(facts, known, choice));
    }
    let (large, small) = choice.sizes.unwrap_or_else(|| {
        let row = known.row().pieces;
        let few = row.flowering.unwrap_or(row.starter);
        (u32::from(few.1), u32::from(row.starter.0))
    });
    for (class, span) in choice.pieces.iter().filter(|(class, _)| class.is_kept()) {
        let growths = growths_of(*class, large, small);
        if span.middle > 0 {
            pots.push(pieces(facts, known, *class, span.middle, growths));
        }
    }
    let sum = |of: fn(&PotNeed) -> i64| pots.iter().map(of).fold(0, i64::saturating_add);
    let ground = pots.iter().filter_map(|need| need.ground_mm2);
    let unmeasured = pots.iter().filter(|need| need.ground_mm2.is_none());
    let stands = pots.iter().map(|need| need.stands);
    Needs {
        mix: Volume::from_ul(sum(|need| need.mix_volume.ul())),
        stone: Volume::from_ul(sum(|need| need.stone.ul())),
        stone_mass: Mass::from_mg(sum(|need| need.stone_mass.mg())),
        labels: stands.fold(0, u32::saturating_add),
        minutes: minutes(facts, known, choice),
        bench_cm2: ground.fold(0, u64::saturating_add).div_ceil(100),
        freed_cm2: freed(facts, known, choice),
        unmeasured: unmeasured.fold(0, |sum, need| sum.saturating_add(need.stands)),
        pots,
    }
}

fn growths_of(class: PieceClass, large: u32, small: u32) -> u32 {
    match class {
        PieceClass::Flowering => large,
        PieceClass::Starter => small,
        _ => 1,
    }
}

/// The pot for so many pieces of a class that nobody potted before: the smallest of the shelf with room for one of them,
/// and for those that share a tray with room for all that go into one.
#[must_use]
pub fn first_pot(facts: &Facts, group: Group, class: PieceClass, plants: u32) -> Option<PotId> {
    if shares_a_tray(class) {
        let across = plants.clamp(1, IN_A_TRAY).saturating_sub(1).isqrt() + 1;
        return pot_for(facts, across.saturating_mul(SHARED_MM)).map(|(pot, _)| pot);
    }
    let row = row(group).pieces;
    let few = row.flowering.unwrap_or(row.starter);
    let growths = growths_of(class, u32::from(few.1), u32::from(row.starter.0));
    pot_for(facts, piece_room(group, class, growths)).map(|(pot, _)| pot)
}

/// The mix for them: pieces without roots of their own go into moss, where the shelf has a mix of it; `None` for others.
#[must_use]
pub fn first_mix(facts: &Facts, class: PieceClass) -> Option<MixId> {
    if !matches!(class, PieceClass::BrokenShoot | PieceClass::Keiki) {
        return None;
    }
    let of_moss = |mix: &Mix| {
        let shares = mix.shares.or_default().into_iter();
        let moss = shares.filter(|share| share.component.starts_with(MOSS));
        moss.map(|share| u32::from(share.permille)).sum::<u32>() >= 500
    };
    let in_use = |mix: &Mix| !mix.retired.or_default();
    let mut mixes = facts.mixes.iter();
    mixes
        .find(|(_, mix)| in_use(mix) && of_moss(mix))
        .map(|(id, _)| *id)
}

/// A plant that stays whole: one pot each, wide enough for all of it; where it stays as it was and only loses
/// offshoots, the pot it has.
fn whole(facts: &Facts, known: &Known, choice: &Choice) -> PotNeed {
    if choice.way != Way::KeepWhole {
        return PotNeed {
            stands: 0,
            ground_mm2: Some(0),
            ..need(facts, None, None, None, 0, 0)
        };
    }
    let each = |span: Span| span.middle.div_ceil(known.wholes.max(1));
    let room = if known.divides() {
        room_mm(known.group, each(known.growths()), each(known.leads()))
    } else {
        next_room(facts, known)
    };
    let pot = pot_for(facts, room);
    let mix = last_mix(facts, known);
    PotNeed {
        narrow: pot.is_some_and(|(_, fits)| !fits),
        ..need(
            facts,
            None,
            pot.map(|(pot, _)| pot),
            mix,
            choice.whole,
            room,
        )
    }
}

/// A plant of one stem wants its pot, or the next.
fn next_room(facts: &Facts, known: &Known) -> u32 {
    let widths = known.lots.iter().filter_map(|lot| pot_of(facts, *lot));
    let widest = widths.filter_map(|(_, form)| width_um(&form)).max();
    let mm = widest.unwrap_or(90_000) / 1_000;
    u32::try_from(mm).unwrap_or(90)
}

fn pieces(facts: &Facts, known: &Known, class: PieceClass, plants: u32, growths: u32) -> PotNeed {
    let last = last_of_class(facts, class);
    let mix = last
        .and_then(|last| last.mix)
        .or_else(|| last_mix(facts, known));
    if shares_a_tray(class) {
        let pot = last.and_then(|last| last.pot);
        let stands = plants.div_ceil(IN_A_TRAY);
        return PotNeed {
            tray: true,
            ..need(facts, Some(class), pot, mix, stands, 0)
        };
    }
    let room = piece_room(known.group, class, growths);
    let pot = pot_for(facts, room);
    PotNeed {
        narrow: pot.is_some_and(|(_, fits)| !fits),
        ..need(
            facts,
            Some(class),
            pot.map(|(pot, _)| pot),
            mix,
            plants,
            room,
        )
    }
}

/// Room for one piece, in millimetres.
fn piece_room(group: Group, class: PieceClass, growths: u32) -> u32 {
    if class == PieceClass::Keiki {
        // An offshoot or a top stands in the smallest pot its roots go into (common practice, no source).
        80
    } else {
        room_mm(group, growths, 1)
    }
}

fn last_mix(facts: &Facts, known: &Known) -> Option<MixId> {
    let of_lot = |lot: &LotId| facts.lots.get(lot)?.potted.as_ref()?.potting.mix;
    let in_use = |mix: &MixId| {
        facts
            .mixes
            .get(mix)
            .is_some_and(|mix| !mix.retired.or_default())
    };
    known
        .lots
        .iter()
        .filter_map(of_lot)
        .find(in_use)
        .or_else(|| facts.mixes.keys().copied().find(in_use))
}

fn need(
    facts: &Facts,
    class: Option<PieceClass>,
    pot: Option<PotId>,
    mix: Option<MixId>,
    stands: u32,
    room_mm: u32,
) -> PotNeed {
    let known = pot.and_then(|pot| facts.pots.get(&pot));
    let form = known.and_then(|pot| pot.form.get()).copied();
    let bill = pot.zip(form).and_then(|(pot, form)| {
        bill_of(facts, pot, &usual_layers(&form), stands)
            .ok()
            .flatten()
    });
    PotNeed {
        class,
        pot,
        name: known.map(|pot| pot.name.or_default()).unwrap_or_default(),
        stands,
        tray: false,
        room_mm,
        narrow: false,
        mix,
        mix_volume: bill.map_or(Volume::ZERO, |bill| bill.mix),
        stone: bill.map_or(Volume::ZERO, |bill| bill.stone),
        stone_mass: bill.map_or(Mass::ZERO, |bill| bill.stone_mass),
        ground_mm2: form.and_then(|form| ground_mm2(&form, stands)),
    }
}

/// The square ground of so many pots, rim against rim.
#[must_use]
pub(super) fn ground_mm2(form: &Pot, stands: u32) -> Option<u64> {
    let mm = u64::try_from(width_um(form)?).ok()?.div_ceil(1_000);
    Some(mm.saturating_mul(mm).saturating_mul(u64::from(stands)))
}

/// The ground the old pots leave; nothing where a plant stays in its pot.
fn freed(facts: &Facts, known: &Known, choice: &Choice) -> u64 {
    if matches!(choice.way, Way::Offshoots | Way::TopCut) {
        return 0;
    }
    let of_lot = |lot: &LotId| {
        let (_, form) = pot_of(facts, *lot)?;
        let stands = facts.lots.get(lot)?.stands;
        ground_mm2(&form, u32::try_from(stands).ok()?)
    };
    let ground = known.lots.iter().filter_map(of_lot);
    ground.fold(0, u64::saturating_add) / 100
}

/// The pot a lot stands in.
#[must_use]
pub(super) fn pot_of(facts: &Facts, lot: LotId) -> Option<(PotId, Pot)> {
    let pot = facts.lots.get(&lot)?.potted.as_ref()?.potting.pot?;
    Some((pot, *facts.pots.get(&pot)?.form.get()?))
}

/// Minutes from the knife to the last label, by the table of labour.
fn minutes(facts: &Facts, known: &Known, choice: &Choice) -> Span {
    let old = known.lots.iter().filter_map(|lot| pot_of(facts, *lot));
    let old = old.filter_map(|(_, form)| form.brimful().ok()).next();
    let old_ul = old.map_or(UNMEASURED_POT_UL, Volume::ul);
    let litres_tenth = u64::try_from(old_ul / 100_000)
        .unwrap_or(0)
        .saturating_mul(u64::from(known.pots));
    let kept: Vec<(PieceClass, u32)> = choice
        .pieces
        .iter()
        .filter(|(class, _)| class.is_kept())
        .map(|(class, span)| (*class, span.middle))
        .collect();
    let count = |tray: bool| -> u64 {
        kept.iter()
            .filter(|(class, _)| shares_a_tray(*class) == tray)
            .map(|(_, pieces)| u64::from(*pieces))
            .sum()
    };
    let (single, trayed) = (count(false), count(true));
    let wholes = u64::from(choice.whole);
    let cut = !kept.is_empty();
    let repotted = if choice.way == Way::KeepWhole {
        wholes
    } else {
        0
    };
    let cut_pots = match choice.way {
        Way::KeepWhole => 0,
        Way::Offshoots | Way::TopCut => 0,
        _ => u64::from(known.pots),
    };
    let stripped = match choice.way {
        Way::Offshoots => 0,
        _ => litres_tenth,
    };
    // Amounts in tenths, because litres are.
    let work = [
        (Work::StripLitre, stripped),
        (Work::DividePot, cut_pots.saturating_mul(10)),
        (
            Work::CleanPiece,
            single.saturating_add(trayed).saturating_mul(10),
        ),
        (
            Work::ToolChange,
            if cut { u64::from(known.wholes) * 10 } else { 0 },
        ),
        (
            Work::PotPiece,
            single.saturating_add(repotted).saturating_mul(10),
        ),
        (Work::SetInMoss, trayed.saturating_mul(10)),
        (
            Work::Label,
            single
                .saturating_add(trayed.div_ceil(u64::from(IN_A_TRAY)))
                .saturating_mul(10),
        ),
    ];
    let sum = |of: fn(crate::reference::labour::LabourRow) -> u32| {
        let hundredths = work
            .iter()
            .map(|(work, amount)| u64::from(of(labour(*work))).saturating_mul(*amount));
        let all: u64 = hundredths.fold(0, u64::saturating_add);
        u32::try_from(all.div_ceil(100)).unwrap_or(u32::MAX)
    };
    Span {
        low: sum(|row| row.low),
        middle: sum(|row| row.tenths),
        high: sum(|row| row.high),
    }
}
