//! Something is seen, and a photograph of it is taken first.

use velamen_core::command::Command;
use velamen_core::event::{PhotoRef, SeenOn, photo::digests_in};
use velamen_core::finding_draft::FindingDraft;
use velamen_core::limits;
use velamen_core::rejection::{Input, Rejection};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::view::book::row_of;
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
