//! Where the figures come from: every built-in figure's origin by table, and the cautions nobody printed.

use leptos::prelude::*;
use velamen_core::view::origins::{Origin, Table, origins};

use crate::frame::{home_notices, room_bar};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Screen, Slat};
use crate::words::{origins as words, repot};

/// The screen.
#[component]
pub fn Origins() -> impl IntoView {
    let tables = Table::ALL.map(table).collect_view();
    let cautions = [repot::SAFETY, repot::CLEAN_HINT, repot::HOW_TO]
        .map(|caution| view! { <li>{caution}</li> })
        .collect_view();
    view! {
        <Screen title=words::TITLE back=back_to_shed notice=home_notices rooms=|| room_bar(Route::Book)>
            <p class="edge">{words::HINT}</p>
            {tables}
            <Slat name=words::CAUTIONS />
            <div class="form">
                <p>{words::CAUTIONS_HINT}</p>
                <ul class="cautions">{cautions}</ul>
                <p>{words::CHEMISTRY}</p>
            </div>
        </Screen>
    }
}

fn table(table: Table) -> impl IntoView {
    let rows = origins(table).into_iter().map(origin).collect_view();
    view! {
        <details class="more-of-it">
            <summary>{words::table(table)}</summary>
            <dl class="origins">{rows}</dl>
        </details>
    }
}

fn origin(origin: Origin) -> impl IntoView {
    let of: Vec<String> = origin.rows.iter().map(words::row).collect();
    view! {
        <div>
            <dt>{of.join("; ")}</dt>
            <dd>{origin.source}</dd>
        </div>
    }
}
