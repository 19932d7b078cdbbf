//! Prices, and plants kept for somebody, let go and sold.

use velamen_core::command::Command;
use velamen_core::event::{BookSet, Pack, PriceOf, PriceSet};
use velamen_core::id::{LotId, PotId, ProductId};
use velamen_core::state::State;
use velamen_tests::day;

pub(crate) fn prices(pot: PotId, product: ProductId) -> Vec<Command> {
    let set = |of, pack, cents| Command::SetPrice(PriceSet { of, pack, cents });
    vec![
        Command::SetBook(BookSet {
            money: Some("crowns".to_owned()),
            ..BookSet::default()
        }),
        set(PriceOf::Pot(pot), Some(Pack::Pieces(50)), Some(1_250)),
        set(
            PriceOf::Part("bark_coarse".to_owned()),
            Some(Pack::Ul(60_000_000)),
            Some(1_480),
        ),
        set(PriceOf::Product(product), Some(Pack::Mg(250_000)), None),
        set(PriceOf::Hour, None, Some(1_800)),
        set(PriceOf::BenchMonth, None, Some(365)),
        set(PriceOf::Stone, Some(Pack::Ul(0)), Some(-1)),
        set(PriceOf::Label, None, Some(2)),
    ]
}

pub(crate) fn kept(lot: LotId) -> Command {
    Command::ReserveInLot {
        lot,
        plants: 1,
        to: "Ana, order 7".to_owned(),
        until_on: Some(day("2027-05-03")),
        note: "the one with two spikes".to_owned(),
    }
}

/// What was kept is sold to whom it was kept for, or let go.
pub(crate) fn after(state: &State, lot: LotId, name: &str) -> Vec<Command> {
    let kept = state.facts().lots.get(&lot);
    let kept = kept.and_then(|lot| lot.reserved.keys().next().copied());
    let command = match (name, kept) {
        ("released", Some(reserved)) => Some(Command::ReleaseInLot {
            lot,
            reserved,
            plants: 1,
        }),
        ("reserved", Some(reserved)) => Some(Command::SellReserved {
            lot,
            reserved,
            plants: 1,
            stands: 1,
            price_cents: Some(2_400),
            note: String::new(),
        }),
        _ => None,
    };
    command.into_iter().collect()
}
