//! Labels, passports and lists, from what happened in the greenhouse.

use velamen_core::command::{Command, ReceiveLot};
use velamen_core::event::{
    AgentClass, BookSet, LossCause, PieceClass, ProductCopy, Source, TreatedPart,
};
use velamen_core::label_sheet::{LabelOf, label_texts};
use velamen_core::lists::{List, Table};
use velamen_core::papers::{
    Passport, PassportFault, PassportForm, SourceCode, listing, passport, proposed_code,
};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_tests::{Phone, day, named, treatment};

use crate::scene::{divide, nursery};

fn list(phone: &Phone, list: List) -> Table {
    list.table(&phone.state, &phone.moment())
}

/// The cells of a column, as they stand in the file.
fn column(table: &Table, name: &str) -> Vec<String> {
    let text = table.csv();
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let at = reader
        .headers()
        .unwrap()
        .iter()
        .position(|column| column == name)
        .unwrap();
    reader
        .records()
        .map(|row| row.unwrap()[at].to_owned())
        .collect()
}

fn operator(phone: &mut Phone, number: &str) {
    phone.act(Command::SetBook(BookSet {
        operator_number: Some(number.to_owned()),
        ..BookSet::default()
    }));
}

fn lose(
    phone: &mut Phone,
    lot: velamen_core::id::LotId,
    plants: u32,
    cause: LossCause,
    note: &str,
) {
    phone.act(Command::LoseFromLot {
        lot,
        plants,
        stands: plants,
        cause,
        note: note.to_owned(),
    });
}

#[test]
fn a_label_warns_of_a_treatment_while_it_binds_and_not_after() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium Winter Window 'Slow Bell'", 4, bench);
    let label =
        |phone: &Phone| label_texts(&phone.state, &[LabelOf::Lot(lot)], phone.now_ms).remove(0);
    assert_eq!(label(&phone).caution, None);
    assert_eq!(
        label(&phone).name.plain(),
        "Cymbidium Winter Window 'Slow Bell'"
    );
    let product = ProductCopy {
        label_name: "copper soap".to_owned(),
        ..ProductCopy::default()
    };
    let parts = vec![TreatedPart::Lot { lot, plants: 4 }];
    let mut dip = treatment(parts, AgentClass::Fungus, product);
    dip.until_ms = Some(phone.now_ms + 24 * 3_600_000);
    dip.gear = "nitrile gloves".to_owned();
    phone.act(Command::RecordTreatment(dip));
    let caution = label(&phone).caution.expect("it binds");
    assert_eq!(
        (caution.on, caution.gear.as_str()),
        (day("2027-03-01"), "nitrile gloves")
    );
    phone.on("2027-03-03");
    assert_eq!(label(&phone).caution, None);
}

#[test]
fn a_passport_is_printed_only_with_a_number_and_holds_its_four_elements() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 4, bench);
    let unnamed = phone.lot("", 1, bench);
    let of =
        |phone: &Phone, lot, form, origin: &str| passport(phone.state.facts(), lot, form, origin);
    assert_eq!(
        of(&phone, lot, PassportForm::Eu, "NL"),
        Err(PassportFault::NoOperator)
    );
    operator(&mut phone, "123456");
    assert_eq!(
        of(&phone, lot, PassportForm::Eu, "NL"),
        Err(PassportFault::OperatorForm)
    );
    let uk = of(&phone, lot, PassportForm::Uk, "").unwrap();
    assert_eq!((uk.operator.as_str(), uk.origin.as_str()), ("123456", "GB"));
    operator(&mut phone, "NL-123456");
    let code = *phone.state.facts().lots[&lot].code.get().unwrap();
    let expected = Passport {
        form: PassportForm::Eu,
        name: phone.state.facts().lots[&lot].name.or_default(),
        operator: "NL-123456".to_owned(),
        code,
        origin: "NL".to_owned(),
    };
    assert_eq!(of(&phone, lot, PassportForm::Eu, " "), Ok(expected));
    assert_eq!(
        of(&phone, lot, PassportForm::Eu, "th").unwrap().origin,
        "TH"
    );
    assert_eq!(
        of(&phone, lot, PassportForm::Eu, "Thailand")
            .unwrap()
            .origin,
        "Thailand"
    );
    assert_eq!(
        of(&phone, unnamed, PassportForm::Eu, ""),
        Err(PassportFault::NoName)
    );
    let long = "n".repeat(61);
    assert_eq!(
        of(&phone, lot, PassportForm::Eu, &long),
        Err(PassportFault::OriginTooLong)
    );
}

#[test]
fn a_source_code_is_proposed_only_where_the_book_knows_how_plants_were_raised() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let mut raised = |name: &str, source: Source| {
        phone.receive(ReceiveLot {
            place: Some(bench),
            plants: 2,
            stands: 2,
            source,
            ..named(name)
        })
    };
    let bought = raised("Cymbidium lowianum", Source::Bought);
    let flask = raised("Paphiopedilum rothschildianum", Source::Flask);
    let hybrid = raised("Paphiopedilum Maudiae", Source::Flask);
    let seed = raised("Cymbidium lowianum", Source::Seed);
    let here = raised("Cymbidium lowianum", Source::Here);
    let division = divide(&mut phone, here, &[(PieceClass::Starter, 3)], bench)[0];
    let code = |lot| {
        let facts = phone.state.facts();
        let listed = listing(&facts.lots[&lot].name.or_default()).unwrap();
        proposed_code(facts, lot, listed)
    };
    assert_eq!(code(bought), None);
    assert_eq!(code(here), None);
    assert_eq!(code(flask), Some(SourceCode::D));
    assert_eq!(code(hybrid), None, "A or D: the authority says");
    assert_eq!(code(seed), Some(SourceCode::A));
    assert_eq!(code(division), Some(SourceCode::A));
}

#[test]
fn a_table_reads_back_in_another_reader_and_holds_no_formula() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium \"Odd, Name\"", 4, bench);
    lose(
        &mut phone,
        lot,
        1,
        LossCause::Rot,
        "=HYPERLINK(\"x\"), two\nlines",
    );
    lose(&mut phone, lot, 1, LossCause::Missing, "+1");
    let losses = list(&phone, List::Losses);
    assert_eq!(column(&losses, "cause"), ["rot", "missing"]);
    assert_eq!(
        column(&losses, "note"),
        ["'=HYPERLINK(\"x\"), two\nlines", "'+1"]
    );
    let stock = list(&phone, List::Stock);
    let name = phone.state.facts().lots[&lot].name.or_default().plain();
    assert_eq!(column(&stock, "name"), [name]);
    assert_eq!(column(&stock, "plants"), ["2"]);
    assert!(stock.csv().lines().count() >= 2 && stock.csv().contains("\r\n"));
    for table in [losses, stock] {
        let width = table.columns.len();
        assert!(table.rows.iter().all(|row| row.len() == width));
    }
}

#[test]
fn a_division_is_told_with_what_lived_after_so_many_days() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let into = [(PieceClass::Starter, 6), (PieceClass::BackBulb, 10)];
    let lots = divide(&mut phone, lot, &into, bench);
    phone.on("2027-03-21");
    lose(&mut phone, lots[1], 2, LossCause::Rot, "");
    lose(&mut phone, lots[0], 1, LossCause::Missing, "");
    phone.on("2027-04-20");
    phone.act(Command::SellFromLot {
        lot: lots[0],
        plants: 2,
        stands: 2,
        to: String::new(),
        price_cents: None,
        note: String::new(),
    });
    lose(&mut phone, lots[1], 1, LossCause::NoShoot, "");
    let yields = list(&phone, List::Yields);
    let one = |name: &str| column(&yields, name).remove(0);
    assert_eq!(
        (one("starter"), one("back_bulb"), one("potted")),
        ("6".into(), "10".into(), "16".into())
    );
    assert_eq!(
        (one("alive_30_days"), one("alive_90_days")),
        ("14".into(), String::new())
    );
    assert_eq!(
        (one("in_stock"), one("sold"), one("lost")),
        ("10".into(), "2".into(), "3".into())
    );
    phone.on("2027-06-01");
    let yields = list(&phone, List::Yields);
    assert_eq!(column(&yields, "alive_90_days"), ["13"]);
    assert_eq!(column(&yields, "alive_365_days"), [""]);
    let width = yields.columns.len();
    assert!(yields.rows.iter().all(|row| row.len() == width));
}
