//! A group's year beside its table row: when it makes roots, when it rests, and how many cool nights set its buds.
//!
//! Windows stand as they fall in the north. All are starting figures: what was seen of a lot's own line beats them, a
//! grower's own windows beat both. A group that is not named here has no figure worth giving.

use crate::season::{Hemisphere, MonthDay, Window};

use super::taxa::Group;

/// When a group makes roots and when it rests.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Course {
    pub group: Group,
    /// New root tips; work at the roots is borne best.
    pub roots: &'static [Window],
    /// Kept dry or nearly so, and not fed.
    pub rest: &'static [Window],
}

/// Where the windows come from.
pub const COURSES_SOURCE: &str = "months of roots and of rest: common practice, no source";

const fn course(group: Group, roots: &'static [Window], rest: &'static [Window]) -> Course {
    Course { group, roots, rest }
}

const SPRING: &[Window] = &[Window::months(3, 5)];
const SPRING_AND_AUTUMN: &[Window] = &[Window::months(3, 5), Window::months(9, 10)];
const WINTER: &[Window] = &[Window::months(11, 1)];
const NONE: &[Window] = &[];

const COURSES: &[Course] = &[
    course(Group::Cymbidium, &[Window::months(3, 6)], NONE),
    course(Group::CymbidiumWarm, SPRING, NONE),
    course(Group::Cattleya, SPRING_AND_AUTUMN, NONE),
    course(Group::Laelia, SPRING, NONE),
    course(Group::DendrobiumNobile, SPRING, WINTER),
    course(Group::DendrobiumPhalaenopsis, SPRING, NONE),
    course(Group::DendrobiumSpeciosum, SPRING, WINTER),
    course(Group::Oncidium, SPRING_AND_AUTUMN, NONE),
    course(Group::OncidiumSummer, SPRING_AND_AUTUMN, NONE),
    course(
        Group::Odontoglossum,
        &[Window::months(2, 3), Window::months(9, 10)],
        NONE,
    ),
    course(Group::Zygopetalum, SPRING, NONE),
    course(Group::Coelogyne, SPRING, WINTER),
    course(Group::Lycaste, &[Window::months(3, 4)], WINTER),
    course(
        Group::Paphiopedilum,
        &[Window::months(3, 5), Window::months(10, 11)],
        NONE,
    ),
    course(Group::PaphiopedilumMottled, SPRING, NONE),
    course(Group::Phragmipedium, SPRING, NONE),
    course(Group::Masdevallia, &[Window::months(2, 3)], NONE),
    course(Group::Phalaenopsis, &[Window::months(4, 6)], NONE),
    course(Group::Vanda, &[Window::months(5, 6)], NONE),
    course(Group::Sarcochilus, &[Window::months(5, 6)], NONE),
];

fn windows(
    group: Group,
    hemisphere: Hemisphere,
    which: impl Fn(&Course) -> &'static [Window],
) -> Vec<Window> {
    let course = COURSES.iter().find(|course| course.group == group);
    let windows = course.map(which).unwrap_or_default().iter();
    windows.map(|window| window.seen_from(hemisphere)).collect()
}

/// When a group makes roots, as it falls in a hemisphere.
#[must_use]
pub fn root_windows(group: Group, hemisphere: Hemisphere) -> Vec<Window> {
    windows(group, hemisphere, |course| course.roots)
}

/// When a group rests, as it falls in a hemisphere.
#[must_use]
pub fn rest_windows(group: Group, hemisphere: Hemisphere) -> Vec<Window> {
    windows(group, hemisphere, |course| course.rest)
}

/// Cool nights that set a group's buds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BudNights {
    pub group: Group,
    /// A night counts below this, in thousandths of a degree Celsius.
    pub below_mc: i32,
    /// So many nights are enough, where a figure is known.
    pub enough: Option<u16>,
    /// Counted from this day on, as it falls in the north.
    pub from: Window,
    pub source: &'static str,
}

const BUD_NIGHTS: &[BudNights] = &[
    BudNights {
        group: Group::Cymbidium,
        below_mc: 14_000,
        enough: None,
        from: Window::months(8, 11),
        source: "nights of about 13 C from late summer start the spikes, counted up to a degree above: Cymbidium growers' pages, low authority",
    },
    BudNights {
        group: Group::DendrobiumNobile,
        below_mc: 15_500,
        enough: Some(21),
        from: Window::months(10, 1),
        source: "three weeks at 13 or 15 C are enough: trials on nobile Dendrobium, from memory; counted up to half a degree above",
    },
    BudNights {
        group: Group::Phalaenopsis,
        below_mc: 20_500,
        enough: Some(28),
        from: Window::months(9, 12),
        source: "four to five weeks of 25 C by day and 20 C by night: trials on Phalaenopsis, from memory; counted up to half a degree above",
    },
    BudNights {
        group: Group::Zygopetalum,
        below_mc: 11_000,
        enough: None,
        from: Window::months(8, 11),
        source: "lows of about 10 C start the growth that flowers, counted up to a degree above: growers' pages, low authority",
    },
];

/// Every row by its group, with where it comes from: roots and rest first, then cool nights.
pub fn sources() -> impl Iterator<Item = (Group, &'static str)> {
    let courses = COURSES.iter().map(|course| (course.group, COURSES_SOURCE));
    courses.chain(
        BUD_NIGHTS
            .iter()
            .map(|nights| (nights.group, nights.source)),
    )
}

/// The cool nights of a group, where a figure is worth giving.
#[must_use]
pub fn bud_nights(group: Group) -> Option<&'static BudNights> {
    BUD_NIGHTS.iter().find(|nights| nights.group == group)
}

impl BudNights {
    /// The day of the year counting starts on in a hemisphere.
    #[must_use]
    pub fn starts(&self, hemisphere: Hemisphere) -> MonthDay {
        self.from.seen_from(hemisphere).from
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_group_stands_once_and_windows_of_roots_and_rest_do_not_meet() {
        let mut seen = BTreeSet::new();
        for course in COURSES {
            assert!(seen.insert(course.group), "{:?} twice", course.group);
            for month in 1..=12 {
                let mid = chrono::NaiveDate::from_ymd_opt(2026, month, 15).unwrap();
                let open = |windows: &[Window]| windows.iter().any(|window| window.contains(mid));
                assert!(!(open(course.roots) && open(course.rest)));
            }
        }
    }

    #[test]
    fn winter_rest_is_may_to_july_south_of_the_line() {
        let south = rest_windows(Group::DendrobiumNobile, Hemisphere::South);
        assert_eq!(south, [Window::months(5, 7)]);
        assert_eq!(rest_windows(Group::Vanda, Hemisphere::South), []);
        assert_eq!(root_windows(Group::Other, Hemisphere::North), []);
    }

    #[test]
    fn cool_nights_count_from_late_summer_on_both_sides_of_the_line() {
        let nights = bud_nights(Group::Cymbidium).unwrap();
        assert_eq!(nights.starts(Hemisphere::North).month(), 8);
        assert_eq!(nights.starts(Hemisphere::South).month(), 2);
        assert!(bud_nights(Group::Vanda).is_none());
    }
}
