//! Every limit that a command meets: one below it and the limit itself are taken, one above is refused with its reason.
//!
//! A folder of them: by what is done, and those that no command meets: files, lists, clocks and work in hand.

mod amended;
mod bench;
mod beside;
mod days;
mod shelf;
mod water;

use std::fmt::Debug;

use velamen_core::command::{Command, ContainerTraits, FeedTraits, ProductTraits};
use velamen_core::decide::Decision;
use velamen_core::event::{Event, Held, Nitrogen};
use velamen_core::id::{LotId, PlaceId, ProductId};
use velamen_core::rejection::{Input, Rejection};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_tests::Phone;

use crate::scene::nursery;

/// Where a figure ends.
#[derive(Clone, Copy)]
enum Edge {
    Most(i64),
    Least(i64),
}

/// A limit: where it lies, what is refused beyond it, and the command that asks for a figure.
struct Row<'a> {
    limit: &'static str,
    edge: Edge,
    why: Rejection,
    asks: Box<dyn Fn(i64) -> Command + 'a>,
}

fn row<'a>(
    limit: &'static str,
    edge: Edge,
    why: Rejection,
    asks: impl Fn(i64) -> Command + 'a,
) -> Row<'a> {
    let asks = Box::new(asks);
    Row {
        limit,
        edge,
        why,
        asks,
    }
}

fn hold(phone: &Phone, rows: Vec<Row<'_>>) {
    for row in rows {
        let (within, beyond) = match row.edge {
            Edge::Most(most) => ([most - 1, most], most + 1),
            Edge::Least(least) => ([least, least + 1], least - 1),
        };
        for figure in within {
            let told = phone.decide((row.asks)(figure)).map(|_| ());
            assert_eq!(told, Ok(()), "{}: {figure}", row.limit);
        }
        let told = phone.decide((row.asks)(beyond)).map(|_| ());
        assert_eq!(told, Err(row.why), "{}: {beyond}", row.limit);
    }
}

/// A figure in another type.
fn of<From: TryInto<To, Error: Debug>, To>(figure: From) -> To {
    figure.try_into().unwrap()
}

fn most<T: TryInto<i64, Error: Debug>>(limit: T) -> Edge {
    Edge::Most(of(limit))
}

fn many<T: TryInto<u64, Error: Debug>>(input: Input, limit: T) -> Rejection {
    let most = of(limit);
    Rejection::TooMany { input, most }
}

fn range<T: TryInto<i64, Error: Debug>>(input: Input, least: i64, limit: T) -> Rejection {
    let most = of(limit);
    Rejection::OutOfRange { input, least, most }
}

fn bench() -> (Phone, PlaceId, LotId) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 10, bench);
    (phone, bench, lot)
}

/// As many of something as a figure says, each made of its number.
fn each<T>(figure: i64, make: impl Fn(i64) -> T) -> Vec<T> {
    (0..figure).map(make).collect()
}

fn product(phone: &mut Phone) -> ProductId {
    let traits = ProductTraits {
        label_name: Some("Thirty".to_owned()),
        ..ProductTraits::default()
    };
    let product = None;
    match phone.act(Command::SetProduct { product, traits }).events[0] {
        Event::ProductSet(ref set) => set.product,
        ref other => panic!("{other:?}"),
    }
}

fn held(product: ProductId, held: Held) -> Command {
    Command::SetContainer {
        container: None,
        traits: ContainerTraits {
            product: Some(product),
            held: Some(held),
            ..ContainerTraits::default()
        },
    }
}

fn feed() -> Command {
    let traits = FeedTraits {
        name: Some("growing feed".to_owned()),
        nitrogen: Some(Nitrogen {
            mg: 200_000,
            by_litre: false,
        }),
        ..FeedTraits::default()
    };
    Command::SetFeed { feed: None, traits }
}

/// The lots that came in with one entry.
fn received(came: &Decision) -> Vec<LotId> {
    let lots = came.events.iter().filter_map(|event| match event {
        Event::LotReceived(it) => Some(it.lot),
        _ => None,
    });
    lots.collect()
}
