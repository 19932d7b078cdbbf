//! The month to come on the Round: the minutes its open work asks for, day by day, against the minutes there are.

use leptos::prelude::*;
use velamen_core::plan::{LoadDay, load};

use super::day_plan::minutes_there_are;
use crate::ledger::Ledger;
use crate::ui::drawing::month::{Column, Columns};
use crate::ui::{PlainAction, Slat};
use crate::words::{day, format, round as words};

/// Days over the line that are named.
const NAMED: usize = 4;

/// Shut until it is asked for: the whole month is worked out only then.
#[component]
pub fn Month() -> impl IntoView {
    let open = RwSignal::new(false);
    let show = Callback::new(move |()| open.set(true));
    move || {
        if open.get() {
            view! { <Drawn /> }.into_any()
        } else {
            view! { <div class="form"><PlainAction label=words::MONTH_SHOW.to_owned() on_press=show /></div> }
                .into_any()
        }
    }
}

#[component]
fn Drawn() -> impl IntoView {
    let ledger = Ledger::here();
    let days = ledger.ask(|state, at| load(state, at.today));
    let room = minutes_there_are(ledger);
    move || {
        let (days, room, today) = (days.get(), room.get(), ledger.today());
        let over: Vec<LoadDay> = days
            .iter()
            .filter(|day| day.tenths.div_ceil(10) > room)
            .cloned()
            .collect();
        let said = |day: &LoadDay| (format::near_day(day.on, today), day::minutes(day.tenths));
        let named: Vec<(String, String)> = over.iter().take(NAMED).map(said).collect();
        let busy: Vec<(String, String)> =
            days.iter().filter(|day| day.tenths > 0).map(said).collect();
        let late = days.first().map_or(0, |day| day.late);
        let columns = days.iter().map(|day| Column {
            words: format::short_day(day.on, today),
            amount: day.tenths.div_ceil(10),
            number: day::minutes(day.tenths),
        });
        view! {
            <section>
                <Slat name=words::MONTH />
                <Columns
                    columns=columns.collect()
                    line=room
                    line_word=words::month_line(room)
                    text=words::month_text(&busy)
                />
                <p class="edge">{words::month_over(&named, over.len(), room)}</p>
                {(late > 0).then(|| view! { <p class="edge soft">{words::month_late(late)}</p> })}
                <p class="edge soft">{words::MONTH_HOW}</p>
            </section>
        }
    }
}
