//! Before the cut: the ways side by side, each with what it takes and what it would bring, and whether to repot at all.

use chrono::NaiveDate;

use crate::cut::{
    Against, Choice, Known, Needs, RepotNow, against, choice, choices, needs, repot_now,
};
use crate::cut_draft::{CutDraft, CutWhat};
use crate::event::{CutPlan, Way};
use crate::outlook::{Ahead, Span, ahead, spans, windows_of};
use crate::state::{Facts, State};

/// One way with all that follows from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayView {
    pub choice: Choice,
    pub needs: Needs,
    pub ahead: Ahead,
}

/// What the screen before the cut shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BeforeCut {
    pub known: Known,
    /// Growths there may be, by all that was said.
    pub growths: Span,
    pub leads: Span,
    pub ways: Vec<WayView>,
    /// What speaks against what is chosen.
    pub against: Vec<Against>,
    /// For lots of the book.
    pub repot: Vec<RepotNow>,
    /// The plan that is kept.
    pub kept: Option<CutPlan>,
}

/// What is known of what is planned for, with what was said of it since.
#[must_use]
pub fn known(state: &State, what: &CutWhat, draft: &CutDraft) -> Option<Known> {
    let mut known = what.known(state)?;
    known.leads = draft.leads.or(known.leads);
    known.growths = draft.growths;
    known.size = draft.size;
    Some(known)
}

/// The screen before the cut; `None` where there is nothing to cut.
#[must_use]
pub fn before_cut(
    state: &State,
    what: &CutWhat,
    draft: &CutDraft,
    today: NaiveDate,
) -> Option<BeforeCut> {
    let known = known(state, what, draft)?;
    let mut all = choices(&known);
    if draft.way == Some(Way::Own) {
        all.push(own(&known, draft));
    }
    let windows = windows_of(state, &known.lots, known.group);
    let on = draft.by_on.unwrap_or(today).max(today);
    let ways: Vec<WayView> = all
        .into_iter()
        .map(|choice| WayView {
            needs: needs(state, &known, &choice),
            ahead: ahead(
                state,
                known.group,
                &windows,
                &choice.pieces,
                choice.whole,
                on,
            ),
            choice,
        })
        .collect();
    let chosen = draft.way.and_then(|way| {
        let of = ways.iter().find(|it| it.choice.way == way)?;
        Some(of.choice.plan(&known))
    });
    Some(BeforeCut {
        growths: known.growths(),
        leads: known.leads(),
        against: chosen.map_or_else(Vec::new, |plan| against(&known, &plan)),
        repot: known
            .lots
            .iter()
            .filter_map(|lot| repot_now(state, *lot, today))
            .collect(),
        kept: what.kept(state.facts()),
        ways,
        known,
    })
}

/// What the draft would keep; `None` where no way is chosen or nothing would come of it.
#[must_use]
pub fn chosen(state: &State, what: &CutWhat, draft: &CutDraft) -> Option<CutPlan> {
    let known = known(state, what, draft)?;
    let choice = match draft.way? {
        Way::Own => own(&known, draft),
        way => choice(&known, way),
    };
    let plan = CutPlan {
        by_on: draft.by_on,
        ..choice.plan(&known)
    };
    (plan.whole > 0 || !plan.pieces.is_empty()).then_some(plan)
}

fn own(known: &Known, draft: &CutDraft) -> Choice {
    let exact = |count: u32| Span {
        low: count,
        middle: count,
        high: count,
    };
    let rows = draft.own.iter().filter(|(_, count)| **count > 0);
    Choice {
        pieces: rows.map(|(class, count)| (*class, exact(*count))).collect(),
        ..choice(known, Way::Own)
    }
}

/// A kept plan as a choice, for what it takes.
#[must_use]
pub fn of_plan(plan: &CutPlan) -> Choice {
    Choice {
        way: plan.way,
        pieces: spans(plan),
        whole: plan.whole,
        sizes: None,
    }
}

/// The plan kept for a set of lots, where they are the very lots it was made for.
#[must_use]
pub fn plan_of_lots(facts: &Facts, lots: &[crate::id::LotId]) -> Option<CutPlan> {
    let first = facts.lots.get(lots.first()?)?.plan.as_ref()?;
    let same = first.lots.len() == lots.len() && lots.iter().all(|lot| first.lots.contains(lot));
    same.then(|| first.plan.clone())
}
