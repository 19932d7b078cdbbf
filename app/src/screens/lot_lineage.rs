//! Where a lot comes from and what came of it, drawn and as stakes that lead there.

use leptos::prelude::*;
use velamen_core::state::Born;
use velamen_core::view::LotLabel;
use velamen_core::view::lot::LotView;

use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::drawing::{Child, ChildKind, Lineage, Parent};
use crate::ui::{PlainLink, Slat, Stake};
use crate::words::{cost, format, line, stock as words, trade};

/// Stakes drawn on one side at most; the list under the drawing holds all.
const DRAWN: usize = 6;

/// The section of a lot's origin.
#[component]
pub fn ComesFrom(view: LotView) -> impl IntoView {
    let today = Ledger::here().today();
    let on = view
        .born_on
        .map(|on| format::short_day(on, today))
        .unwrap_or_default();
    let came = match &view.born {
        Some(Born::Received { source, from, .. }) => Some(words::came(*source, from, &on)),
        _ => None,
    };
    let drawing = view.lineage.clump.is_some().then(|| drawing(&view, &on));
    let lot = view.label.lot;
    let lineage = view.lineage;
    let unsure = words::parents_unsure(lineage.parents.len(), lineage.unbooked_pots);
    let nothing = came.is_none() && drawing.is_none() && lineage.split_from.is_none();
    let known = !(nothing && lineage.parts.is_empty() && lineage.children.is_empty());
    known.then(|| {
        view! {
            <section>
                <Slat name=words::COMES_FROM note="" />
                {came.map(|came| view! { <p class="edge">{came}</p> })}
                {drawing}
                {unsure.map(|unsure| view! { <p class="edge strong">{unsure}</p> })}
                {stakes(words::PARENTS, lineage.parents)}
                {stakes(words::SPLIT_FROM, lineage.split_from.into_iter().collect())}
                {stakes(words::SIBLINGS, lineage.siblings)}
                {stakes(words::PARTS, lineage.parts)}
                {stakes(words::CHILDREN, lineage.children)}
                <div class="form">
                    <PlainLink href=Route::LotLine(lot).href() label=line::LINK />
                    <PlainLink href=Route::LotCost(lot).href() label=cost::LINK />
                </div>
            </section>
        }
    })
}

fn code(label: &LotLabel) -> String {
    label.code.map(|code| code.to_string()).unwrap_or_default()
}

fn drawing(view: &LotView, on: &str) -> impl IntoView + use<> {
    let lineage = &view.lineage;
    let tag = lineage
        .tray
        .map(|tray| tray.to_string())
        .unwrap_or_default();
    let mut parents: Vec<Parent> = lineage
        .parents
        .iter()
        .take(DRAWN)
        .map(|parent| Parent {
            code: code(parent),
            words: String::new(),
        })
        .collect();
    if lineage.unbooked_pots > 0 {
        let pots = trade::pots(i64::from(lineage.unbooked_pots));
        parents.push(Parent {
            code: words::NO_LABEL.to_owned(),
            words: pots,
        });
    }
    let here = Child {
        kind: ChildKind::Here,
        code: code(&view.label),
        words: trade::plants_in_pots(view.label.plants, view.label.stands),
    };
    let siblings = lineage.siblings.iter().take(DRAWN).map(|label| Child {
        kind: ChildKind::Lot,
        code: code(label),
        words: trade::plants_in_pots(label.plants, label.stands),
    });
    let gone = (lineage.thrown > 0).then(|| Child {
        kind: ChildKind::Gone,
        code: lineage.thrown.to_string(),
        words: words::THROWN.to_owned(),
    });
    let children_of: Vec<Child> = [here].into_iter().chain(siblings).chain(gone).collect();
    let codes: Vec<String> = lineage.parents.iter().map(code).collect();
    let text = words::lineage_sentence(&codes, &tag, lineage.siblings.len());
    view! { <Lineage parents tag tag_words=on.to_owned() children_of text /> }
}

fn stakes(title: &'static str, lots: Vec<LotLabel>) -> impl IntoView {
    (!lots.is_empty()).then(|| {
        let links = lots
            .into_iter()
            .map(|label| {
                view! {
                    <a class="lot-row" href=Route::Lot(label.lot).href()>
                        <Stake
                            name=trade::name_runs(&label.name)
                            code=code(&label)
                            count=trade::plants_in_pots(label.plants, label.stands)
                        />
                    </a>
                }
            })
            .collect_view();
        view! { <h3 class="edge">{title}</h3> {links} }
    })
}
