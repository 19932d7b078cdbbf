//! The month to come: minutes a day, worked out by hand.

use velamen_core::command::Command;
use velamen_core::plan::{LOAD_DAYS, OWN_TENTHS, WALK_TENTHS, load};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_tests::{Phone, day};

use crate::scene::nursery;

fn note(phone: &mut Phone, due_on: &str, place: Option<velamen_core::id::PlaceId>) {
    phone.act(Command::NoteTask {
        task: None,
        text: "sweep".to_owned(),
        due_on: day(due_on),
        repeat_days: None,
        lot: None,
        place,
    });
}

#[test]
fn late_work_counts_today_a_walk_once_a_day_and_what_lies_beyond_a_month_not_at_all() {
    let (mut phone, house) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let other = phone.place("Other house", Warmth::Cool);
    note(&mut phone, "2027-03-02", Some(house));
    note(&mut phone, "2027-03-05", Some(house));
    note(&mut phone, "2027-03-10", Some(house));
    note(&mut phone, "2027-03-10", Some(house));
    note(&mut phone, "2027-03-10", Some(other));
    note(&mut phone, "2027-04-03", Some(house));
    note(&mut phone, "2027-04-04", Some(house));
    phone.on("2027-03-05");
    let days = load(&phone.state, phone.today);
    assert_eq!(days.len(), LOAD_DAYS);
    assert_eq!(days[0].on, day("2027-03-05"));
    // One late, one due; both in one house: one walk.
    assert_eq!((days[0].tasks, days[0].late), (2, 1));
    assert_eq!(days[0].tenths, 2 * OWN_TENTHS + WALK_TENTHS);
    assert_eq!((days[5].tasks, days[5].late), (3, 0));
    assert_eq!(days[5].tenths, 3 * OWN_TENTHS + 2 * WALK_TENTHS);
    assert_eq!(days[29].on, day("2027-04-03"));
    assert_eq!(days[29].tasks, 1);
    let all: u32 = days.iter().map(|day| day.tasks).sum();
    assert_eq!(all, 6);
}
