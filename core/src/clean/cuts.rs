//! The cut order: which tool cut which clump, and how many it had cut before since it was last clean.
//!
//! Tools are changed as was said once for the session; a clump cut with the same tool again is the exception. Where
//! nobody said that tools were clean, they are taken not to have been changed.

use chrono::NaiveDate;

use crate::event::ToolChange;
use crate::id::ClumpId;
use crate::quarantine::clump_is_suspect;
use crate::state::{Clump, ClumpOpened, State};
use crate::time::Moment;

/// The tool of a clump.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tool {
    /// Its number where several alternate; empty with one.
    pub mark: String,
    /// Clumps it cut since it was last clean; `None` where nobody said it was.
    pub cut_before: Option<u32>,
}

/// One clump in the cut order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cut {
    pub clump: ClumpId,
    pub tray: u32,
    pub tool: Tool,
    pub opened_ms: i64,
    pub off_min: i16,
    pub suspect: bool,
}

/// What was said of tools for today's session at this phone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Session {
    pub change: ToolChange,
    pub tools: u8,
}

/// Today's session on this phone; `None` until tools were said to be clean.
#[must_use]
pub fn session(state: &State, at: &Moment) -> Option<Session> {
    let book = &state.facts().book;
    let (on, change) = book.hygiene.get(&at.dev)?;
    (*on == at.today).then(|| Session {
        change: *change,
        tools: book.hygiene_tools.get(&at.dev).copied().unwrap_or(1).max(1),
    })
}

/// Clumps cut on a day, in the order they were opened; those put back uncut are left out.
#[must_use]
pub fn cut_order(state: &State, on: NaiveDate) -> Vec<Cut> {
    let facts = state.facts();
    let mut cuts: Vec<(_, Cut)> = opened_on(state, on)
        .map(|(clump, opened)| {
            let cut = Cut {
                clump,
                tray: opened.tray,
                tool: tool_of(opened),
                opened_ms: opened.at_ms,
                off_min: opened.off_min,
                suspect: clump_is_suspect(facts, clump),
            };
            ((opened.at_ms, opened.entry), cut)
        })
        .collect();
    cuts.sort_by_key(|(order, _)| *order);
    cuts.into_iter().map(|(_, cut)| cut).collect()
}

fn tool_of(opened: &ClumpOpened) -> Tool {
    Tool {
        mark: opened.tool.clone(),
        cut_before: opened.cut_before,
    }
}

fn opened_on(state: &State, on: NaiveDate) -> impl Iterator<Item = (ClumpId, &ClumpOpened)> {
    let cut = |clump: &Clump| {
        let put_back = clump
            .closed
            .as_ref()
            .is_some_and(|closed| closed.how == crate::event::ClosedHow::PutBack);
        !put_back
    };
    let clumps = state.facts().clumps.iter();
    clumps.filter_map(move |(id, clump)| {
        let opened = clump.opened.as_ref()?;
        (opened.on == on && cut(clump)).then_some((*id, opened))
    })
}

/// The clump this phone opened last today, and the tool that cut it.
#[must_use]
pub fn last_cut(state: &State, at: &Moment) -> Option<(u32, Tool)> {
    opened_on(state, at.today)
        .filter(|(_, opened)| opened.entry.dev == at.dev)
        .max_by_key(|(_, opened)| opened.entry)
        .map(|(_, opened)| (opened.tray, tool_of(opened)))
}

/// The tool the next clump is cut with; `same` where it was not changed after the last one.
#[must_use]
pub fn next_tool(state: &State, at: &Moment, same: bool) -> Tool {
    let session = session(state, at);
    let tools = session.map_or(1, |session| session.tools);
    let mark = |number: u32| {
        if tools > 1 {
            number.to_string()
        } else {
            String::new()
        }
    };
    let Some((_, last)) = last_cut(state, at) else {
        return Tool {
            mark: mark(1),
            cut_before: session.map(|_| 0),
        };
    };
    if same || session.is_none() {
        return Tool {
            cut_before: Some(last.cut_before.unwrap_or(0).saturating_add(1)),
            ..last
        };
    }
    let next = last.mark.parse::<u32>().unwrap_or(0) % u32::from(tools) + 1;
    Tool {
        mark: mark(next),
        cut_before: Some(0),
    }
}
