//! The nursery as a plan: where work is late, due and held, in the order of the walk.

use leptos::prelude::*;
use velamen_core::view::nursery::{House, nursery};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::drawing::{Plan, PlanBench, PlanHouse};
use crate::ui::{Glyph, Lesson, Screen, TopBack};
use crate::words::{map as words, rooms, round};

fn drawn(houses: Vec<House>) -> Vec<PlanHouse> {
    houses
        .into_iter()
        .map(|house| {
            let benches = house.benches.into_iter().map(|bench| {
                let name = if bench.place.is_some() {
                    bench.name
                } else {
                    round::NO_PLACE.to_owned()
                };
                let whole = words::in_house(&house.name, &name);
                PlanBench {
                    href: bench.place.map_or(Route::Stock, Route::Place).href(),
                    label: words::bench(
                        &whole,
                        bench.lots,
                        bench.plants,
                        [bench.late, bench.due, bench.held],
                    ),
                    stands: words::stands(bench.lots),
                    late: bench.late,
                    due: bench.due,
                    held: bench.held,
                    loose: bench.place.is_none(),
                    name,
                }
            });
            PlanHouse {
                benches: benches.collect(),
                name: house.name,
            }
        })
        .collect()
}

/// The plan itself, with what its marks mean.
#[component]
pub fn PlanOfToday() -> impl IntoView {
    let ledger = Ledger::here();
    let houses = ledger.ask(|state, at| nursery(state, at.today));
    move || {
        let houses = houses.get();
        let benches = || houses.iter().flat_map(|house| &house.benches);
        if houses.is_empty() {
            return view! { <Lesson glyph=Glyph::Round title=words::NONE words=words::NONE_HINT /> }
                .into_any();
        }
        let with = |count: fn(&velamen_core::view::nursery::Bench) -> usize| {
            benches().filter(|bench| count(bench) > 0).count()
        };
        let text = words::whole(
            benches().count(),
            [
                with(|bench| bench.late),
                with(|bench| bench.due),
                with(|bench| bench.held),
            ],
        );
        view! {
            <p class="edge soft">{words::HOW}</p>
            <Plan houses=drawn(houses) text />
        }
        .into_any()
    }
}

/// The screen.
#[component]
pub fn Map() -> impl IntoView {
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Round.href() label=rooms::back_to(rooms::ROUND) /> }
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            <PlanOfToday />
        </Screen>
    }
}
