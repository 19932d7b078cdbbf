//! A paper that goes with a lot: how its name stands in the convention on trade in endangered species, how it was raised,
//! and where it comes from, as far back as the book knows.

use std::collections::BTreeSet;

use leptos::prelude::*;
use velamen_core::event::Source;
use velamen_core::id::LotId;
use velamen_core::papers::{
    Appendix, Listing, SourceCode, listing, operator_number, proposed_code,
};
use velamen_core::state::{Born, State};
use velamen_core::time::Moment;
use velamen_core::view::{lot_label, shed};

use super::lot_parts::one_of;
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::names;
use crate::ui::{MainAction, Screen, TopBack};
use crate::words::papers::lot as words;
use crate::words::{format, papers, rooms, stock, trade};

/// Lots of a lineage that are printed.
const LINES: usize = 40;

/// What stands on it.
#[derive(Clone, PartialEq)]
struct Paper {
    name: Vec<(String, bool)>,
    rows: Vec<(&'static str, String)>,
    listed: Option<Listing>,
    proposed: Option<SourceCode>,
    lineage: Vec<String>,
    foot: Vec<(&'static str, String)>,
}

fn paper(state: &State, now: &Moment, id: LotId) -> Option<Paper> {
    let facts = state.facts();
    facts.lots.get(&id)?;
    let label = lot_label(facts, id);
    let listed = listing(&label.name);
    let code = label.code.map(|code| code.to_string()).unwrap_or_default();
    let nursery = shed::nursery(state).name;
    let foot = [
        (words::NURSERY, nursery),
        (papers::OPERATOR, operator_number(facts)),
        (words::DAY, format::full_day(now.today)),
    ];
    Some(Paper {
        name: trade::name_runs(&label.name),
        rows: vec![
            (words::CODE, code),
            (
                words::PLANTS,
                trade::plants_in_pots(label.plants, label.stands),
            ),
        ],
        listed,
        proposed: listed.and_then(|listed| proposed_code(facts, id, listed)),
        lineage: lineage(state, id),
        foot: foot
            .into_iter()
            .filter(|(_, said)| !said.is_empty())
            .collect(),
    })
}

/// A line for every lot it may come from, the nearest first, each once.
fn lineage(state: &State, id: LotId) -> Vec<String> {
    let facts = state.facts();
    let mut seen = BTreeSet::from([id]);
    let mut open = vec![id];
    let mut lines = Vec::new();
    while let Some(lot) = open.pop() {
        let Some(known) = facts.lots.get(&lot) else {
            continue;
        };
        let on = known.born_on.map(format::full_day).unwrap_or_default();
        let (said, before): (String, Vec<LotId>) = match &known.born {
            Some(Born::Received {
                source,
                from,
                outside_ref,
            }) => {
                let from = if *source == Source::Here {
                    ""
                } else {
                    from.as_str()
                };
                let how = stock::came(*source, from, &on);
                (words::received(&how, outside_ref), Vec::new())
            }
            Some(Born::Potted { parents, .. }) => {
                let named = parents.iter().map(|parent| names::lot(state, *parent));
                let named = named.collect::<Vec<_>>().join(", ");
                (words::divided(&on, &named), parents.clone())
            }
            Some(Born::Split { from }) => {
                (words::split(&on, &names::lot(state, *from)), vec![*from])
            }
            None => continue,
        };
        if lines.len() >= LINES {
            break;
        }
        lines.push(format!("{}: {said}", names::lot(state, lot)));
        open.extend(before.into_iter().filter(|parent| seen.insert(*parent)));
    }
    lines
}

/// The screen.
#[component]
pub fn LotPapers(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(move |state, now| paper(state, now, lot));
    // What the grower says of this paper; kept while it is printed, for the book does not know it.
    let said = RwSignal::new(None::<Option<SourceCode>>);
    let proposed =
        Memo::new(move |_| shown.with(|paper| paper.as_ref().and_then(|paper| paper.proposed)));
    let code = Signal::derive(move || said.get().unwrap_or_else(|| proposed.get()));
    let actions = move || {
        let print = Callback::new(move |()| ledger.print());
        view! { <MainAction label=words::PRINT.to_owned() on_press=print /> }
    };
    let mut options = vec![(None, words::NOT_SAID.to_owned())];
    options.extend(SourceCode::ALL.map(|code| (Some(code), words::source_code(code).to_owned())));
    let body = move || {
        let Some(paper) = shown.get() else {
            return view! { <p class="edge">{words::GONE}</p> }.into_any();
        };
        let appendix = paper
            .listed
            .as_ref()
            .map_or(words::NO_GENUS, words::appendix);
        let hints = paper.listed.map(hints).unwrap_or_default();
        let list = |rows: Vec<(&'static str, String)>| {
            let rows = rows.into_iter();
            rows.map(|(name, said)| view! { <dt>{name}</dt> <dd>{said}</dd> })
                .collect_view()
        };
        let source = move || code.get().map_or(words::NOT_SAID, words::source_code);
        let lines = paper
            .lineage
            .into_iter()
            .map(|line| view! { <li>{line}</li> });
        view! {
            <article class="paper">
                <h2><crate::ui::PlantNameRuns runs=paper.name /></h2>
                <dl>
                    {list(paper.rows)}
                    <dt>{words::APPENDIX}</dt>
                    <dd>{appendix}</dd>
                    <dt>{words::SOURCE}</dt>
                    <dd>{source}</dd>
                </dl>
                {hints.into_iter().map(|hint| view! { <p>{hint}</p> }).collect_view()}
                <h3>{words::COMES_FROM}</h3>
                <ul>{lines.collect_view()}</ul>
                <dl>{list(paper.foot)}</dl>
                <p>{words::NO_PERMIT}</p>
            </article>
        }
        .into_any()
    };
    view! {
        <Screen
            title=words::TITLE
            back=move || view! { <TopBack href=Route::Lot(lot).href() label=rooms::back_to(stock::LOT) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <div class="form not-printed">
                {one_of(words::WHICH, options, code, move |code| said.set(Some(code)))}
                {move || (said.get().is_none() && proposed.get().is_some()).then(|| view! { <p class="soft">{words::FROM_BOOK}</p> })}
            </div>
            {body}
        </Screen>
    }
}

/// What is to be known about how a name is listed.
fn hints(listed: Listing) -> Vec<String> {
    let mut hints = vec![words::read_in(listed.source)];
    if listed.hybrid {
        hints.push(words::HYBRID.to_owned());
    }
    if listed.first_if_ancestor {
        hints.push(words::IF_ANCESTOR.to_owned());
    }
    if listed.hybrid && listed.appendix == Appendix::First {
        hints.push(words::FIRST_HYBRID.to_owned());
    }
    hints.push(words::LOOK_UP.to_owned());
    hints
}
