//! What stands on the shelf, what it costs, and how it is kept on record.

use velamen_core::command::{Command, MeasureTraits, ProductTraits};
use velamen_core::event::{
    ActiveCopy, BookSet, Event, Held, LabelUse, MeasureKind, Pack, PriceOf, PriceSet, RecordRule,
    UsedWhy,
};
use velamen_core::id::{ContainerId, ProductId};
use velamen_core::limits;
use velamen_core::quantity::{Amount, Volume};
use velamen_core::reference::actives::CodeList;
use velamen_core::rejection::Input;
use velamen_core::rotation::{CodeRule, RotationRules};
use velamen_tests::Phone;

use super::{Edge, bench, each, held, hold, many, most, of, product, range, row};

fn bottle(phone: &mut Phone, product: ProductId) -> ContainerId {
    match phone.act(held(product, Held::Ul(1_000_000))).events[0] {
        Event::ContainerSet(ref set) => set.container,
        ref other => panic!("{other:?}"),
    }
}

#[test]
fn what_stands_on_the_shelf() {
    let (mut phone, _, _) = bench();
    let thirty = product(&mut phone);
    let container = bottle(&mut phone, thirty);
    let label = |change: &dyn Fn(&mut ProductTraits)| {
        let mut traits = ProductTraits::default();
        change(&mut traits);
        Command::SetProduct {
            product: Some(thirty),
            traits,
        }
    };
    let used = |at| LabelUse {
        key: format!("use-{at}"),
        ..LabelUse::default()
    };
    let active = |at: i64, codes| ActiveCopy {
        name: format!("active {at}"),
        content_mg: None,
        content_typed: String::new(),
        codes,
    };
    let measure = |figure| Command::SetMeasure {
        measure: None,
        traits: MeasureTraits {
            kind: Some(MeasureKind::Jug),
            least: Some(figure),
            most: Some(figure),
            graduation: Some(figure),
            ..MeasureTraits::default()
        },
    };
    let count = |ul| Command::CountContainer {
        container,
        left: Amount::Volume(Volume::from_ul(ul)),
    };
    let take = |ul| Command::UseFromContainer {
        container,
        amount: Amount::Volume(Volume::from_ul(ul)),
        why: UsedWhy::default(),
        note: String::new(),
    };
    let holds = |least| range(Input::Container, least, limits::CONTAINER_MAX / 1_000_000);
    let measures = range(Input::Measure, 1, limits::MEASURE_MAX / 1_000);
    let actives = many(Input::Text, limits::ACTIVES_MAX);
    let rows = vec![
        row(
            "USES_MAX",
            most(limits::USES_MAX),
            many(Input::Text, limits::USES_MAX),
            |uses| label(&|it| it.uses = Some(each(uses, used))),
        ),
        row(
            "SOAK_S_MAX, on a label",
            most(limits::SOAK_S_MAX),
            range(Input::Soak, 0, limits::SOAK_S_MAX / 60),
            |s| {
                label(&|it| {
                    it.uses = Some(vec![LabelUse {
                        soak_s: Some(of(s)),
                        ..used(0)
                    }]);
                })
            },
        ),
        row(
            "ACTIVES_MAX",
            most(limits::ACTIVES_MAX),
            actives.clone(),
            |many| label(&|it| it.actives = Some(each(many, |at| active(at, Vec::new())))),
        ),
        row(
            "ACTIVES_MAX, codes",
            most(limits::ACTIVES_MAX),
            actives,
            |many| {
                let codes = each(many, |at| format!("FRAC {at}"));
                label(&|it| it.actives = Some(vec![active(0, codes.clone())]))
            },
        ),
        row(
            "MEASURE_MAX",
            most(limits::MEASURE_MAX),
            measures.clone(),
            measure,
        ),
        row("a measure's least", Edge::Least(1), measures, measure),
        row(
            "CONTAINER_MAX",
            most(limits::CONTAINER_MAX),
            holds(1),
            |ul| held(thirty, Held::Ul(ul)),
        ),
        row(
            "CONTAINER_MAX, weighed",
            most(limits::CONTAINER_MAX),
            holds(1),
            |mg| held(thirty, Held::Mg(mg)),
        ),
        row("a container's least", Edge::Least(1), holds(1), |ul| {
            held(thirty, Held::Ul(ul))
        }),
        row(
            "CONTAINER_MAX, counted",
            most(limits::CONTAINER_MAX),
            holds(0),
            count,
        ),
        row("counted, the least", Edge::Least(0), holds(0), count),
        row(
            "CONTAINER_MAX, used",
            most(limits::CONTAINER_MAX),
            holds(1),
            take,
        ),
        row("used, the least", Edge::Least(1), holds(1), take),
    ];
    hold(&phone, rows);
}

#[test]
fn what_is_bought_and_how_it_is_kept_on_record() {
    let (phone, _, _) = bench();
    let price = |pack, cents| {
        Command::SetPrice(PriceSet {
            of: PriceOf::Stone,
            pack,
            cents,
        })
    };
    let cents = range(Input::Price, 0, limits::PRICE_CENTS_MAX / 100);
    let pieces = range(Input::Size, 0, limits::PACK_PIECES_MAX);
    let amount = range(Input::Size, 0, limits::CONTAINER_MAX / 1_000_000);
    let rule = |at: i64| CodeRule {
        list: CodeList::Frac,
        code: format!("{at}"),
        in_a_row: None,
        per_year: None,
        together_days: None,
        breaks_no_run: false,
    };
    let rows = vec![
        row(
            "PRICE_CENTS_MAX",
            most(limits::PRICE_CENTS_MAX),
            cents.clone(),
            |it| price(None, Some(it)),
        ),
        row("a price's least", Edge::Least(-1), cents, |it| {
            price(None, Some(it))
        }),
        row(
            "PACK_PIECES_MAX",
            most(limits::PACK_PIECES_MAX),
            pieces.clone(),
            |it| price(Some(Pack::Pieces(it)), None),
        ),
        row("a pack's least", Edge::Least(0), pieces, |it| {
            price(Some(Pack::Pieces(it)), None)
        }),
        row(
            "CONTAINER_MAX, bought",
            most(limits::CONTAINER_MAX),
            amount.clone(),
            |it| price(Some(Pack::Ul(it)), None),
        ),
        row(
            "CONTAINER_MAX, bought by weight",
            most(limits::CONTAINER_MAX),
            amount,
            |it| price(Some(Pack::Mg(it)), None),
        ),
        row(
            "ROTATION_ROWS_MAX",
            most(limits::ROTATION_ROWS_MAX),
            many(Input::Code, limits::ROTATION_ROWS_MAX),
            |rows| {
                Command::SetRotation(RotationRules {
                    rows: each(rows, rule),
                })
            },
        ),
        row(
            "KEEP_MONTHS_MAX",
            most(limits::KEEP_MONTHS_MAX),
            range(Input::KeepMonths, 0, limits::KEEP_MONTHS_MAX),
            |months| {
                let record = RecordRule {
                    keep_months: Some(of(months)),
                    ..RecordRule::default()
                };
                Command::SetBook(BookSet {
                    record: Some(record),
                    ..BookSet::default()
                })
            },
        ),
    ];
    hold(&phone, rows);
}
