//! Something is seen, and a photograph of it is taken first.

use velamen_core::apply::{ApplyDraft, ApplyStep};
use velamen_core::command::Command;
use velamen_core::event::{AgentClass, Event, PhotoRef, SeenOn, photo::digests_in};
use velamen_core::finding_draft::FindingDraft;
use velamen_core::limits;
use velamen_core::rejection::{Input, Rejection};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::view::book::row_of;
use velamen_core::view::finding::{Proposal, finding};
use velamen_tests::Phone;

use crate::scene::nursery;

fn photo(n: usize) -> PhotoRef {
    PhotoRef::of(&n.to_be_bytes(), "image/jpeg").expect("a small photograph")
}

fn spots(phone: &mut Phone, photos: Vec<PhotoRef>) -> Command {
    let bench = phone.place("Rain bench", Warmth::Cool);
    let lot = phone.lot("Dendrobium kingianum", 4, bench);
    let draft = FindingDraft {
        photos,
        ..FindingDraft::default()
    };
    Command::RecordFinding(draft.finding(SeenOn::Lot(lot), Some("leaf_spots")))
}

#[test]
fn a_finding_names_its_photographs_and_so_does_its_line() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let photos = vec![photo(1), photo(2)];
    let command = spots(&mut phone, photos.clone());
    let decision = phone.act(command);
    let row = row_of(&phone.state, decision.entry).expect("the entry is in the book");
    let names: Vec<&str> = photos.iter().map(|photo| photo.sha256.as_str()).collect();
    assert_eq!(row.events[0].photos(), names);
    assert_eq!(digests_in(&decision.line).collect::<Vec<_>>(), names);
}

#[test]
fn more_photographs_than_a_finding_takes_are_refused() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let many = (0..=limits::PHOTOS_MAX).map(photo).collect();
    let command = spots(&mut phone, many);
    let most = u64::try_from(limits::PHOTOS_MAX).expect("a small number");
    let input = Input::Photo;
    assert_eq!(phone.refusal(command), Rejection::TooMany { input, most });
}

#[test]
fn a_pest_seen_on_a_bench_proposes_to_treat_the_bench_and_not_an_empty_one() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let seen = |phone: &mut Phone, on| {
        let record = FindingDraft::default().finding(SeenOn::Place(on), Some("thrips"));
        match phone.act(Command::RecordFinding(record)).events.first() {
            Some(Event::Found(found)) => found.finding,
            other => panic!("{other:?}"),
        }
    };
    let proposed = |phone: &Phone, id| {
        let view = finding(&phone.state, id).unwrap();
        view.proposals.into_iter().find_map(|it| match it {
            Proposal::TreatPlace { place, against } => Some((place, against)),
            _ => None,
        })
    };
    let before = seen(&mut phone, bench);
    assert_eq!(proposed(&phone, before), None, "nothing stands there");
    let lots = [
        phone.lot("Cymbidium lowianum", 3, bench),
        phone.lot("Vanda coerulea", 2, bench),
    ];
    let id = seen(&mut phone, bench);
    assert_eq!(proposed(&phone, id), Some((bench, AgentClass::Insect)));
    // Taken up, the whole bench is chosen against what was seen; what is in hand keeps its own answers.
    let mut draft = ApplyDraft::default();
    draft.take_up(bench, id, AgentClass::Insect);
    assert_eq!(draft.in_place(&phone.state), lots);
    assert_eq!(
        (draft.mixing.finding, draft.mixing.against),
        (Some(id), Some(AgentClass::Insect))
    );
    let other = phone.place("The other", Warmth::Cool);
    let mut in_hand = ApplyDraft::default();
    in_hand.switch_place(other);
    in_hand.take_up(bench, id, AgentClass::Insect);
    assert_eq!((in_hand.place, in_hand.mixing.finding), (Some(other), None));
    let mut doing = ApplyDraft {
        step: ApplyStep::Work,
        ..ApplyDraft::default()
    };
    doing.take_up(bench, id, AgentClass::Insect);
    assert_eq!(doing.place, None);
}
