use proptest::prelude::*;

use super::*;
use crate::event::MeasureKind;
use crate::id::{Dev, EntryRef, ThingId};
use crate::measure::{MeasureDraft, SIZES, water_for};
use crate::quantity::{Rate, Volume, parse_rate};

fn measure(n: u16, kind: MeasureKind, [least, most, graduation]: [i64; 3]) -> Measure {
    let entry = EntryRef {
        dev: Dev(1),
        seq: 1,
    };
    Measure {
        id: MeasureId(ThingId { entry, n }),
        kind,
        least,
        most,
        graduation,
    }
}

fn syringe(n: u16, least: i64, most: i64, graduation: i64) -> Measure {
    measure(n, MeasureKind::Syringe, [least, most, graduation])
}

/// A dose of so many microlitres, of a label with one rate.
fn dose(ul: i64) -> Dose {
    Dose {
        exact: Ratio::whole(i128::from(ul)),
        weighed: false,
        least: None,
        most: Ratio::whole(i128::from(ul)),
    }
}

fn between(least: i64, ul: i64, most: i64) -> Dose {
    Dose {
        least: Some(Ratio::whole(i128::from(least))),
        most: Ratio::whole(i128::from(most)),
        ..dose(ul)
    }
}

fn fills(plan: &Plan) -> Vec<(u16, u32, i64)> {
    let fills = plan.fills.iter();
    fills
        .map(|fill| (fill.measure.0.n, fill.times, fill.each))
        .collect()
}

#[test]
fn a_small_syringe_is_filled_to_the_top_and_once_more_for_the_rest() {
    let shelf = [syringe(5, 500, 5_000, 200)];
    let plan = plan(&shelf, &dose(23_540)).expect("a plan");
    assert_eq!(fills(&plan), [(5, 4, 5_000), (5, 1, 3_400)]);
    assert_eq!((plan.total, plan.off_permille), (23_400, -6));
    assert!(!plan.exact && !plan.below_least);
}

#[test]
fn a_large_measure_takes_most_of_it_and_a_fine_one_the_rest() {
    let shelf = [
        syringe(1, 100, 1_000, 10),
        syringe(60, 6_000, 60_000, 1_000),
    ];
    let plan = plan(&shelf, &dose(40_500)).expect("a plan");
    assert_eq!(fills(&plan), [(60, 1, 40_000), (1, 1, 500)]);
    assert!(plan.exact);
}

#[test]
fn half_a_per_cent_is_not_worth_a_second_syringe() {
    let shelf = [
        syringe(1, 100, 1_000, 10),
        measure(9, MeasureKind::Cylinder, [10_000, 100_000, 1_000]),
    ];
    let plan = plan(&shelf, &dose(80_300)).expect("a plan");
    assert_eq!(fills(&plan), [(9, 1, 80_000)]);
    assert_eq!(plan.off_permille, -4);
}

#[test]
fn what_is_left_for_the_last_fill_is_never_less_than_the_measure_reads_well() {
    let shelf = [measure(9, MeasureKind::Cylinder, [10_000, 100_000, 1_000])];
    let plan = plan(&shelf, &dose(105_000)).expect("a plan");
    assert_eq!(fills(&plan), [(9, 1, 95_000), (9, 1, 10_000)]);
}

#[test]
fn a_label_with_one_rate_is_never_gone_over_and_one_with_two_never_left_below() {
    let shelf = [syringe(5, 500, 5_000, 200)];
    let one = plan(&shelf, &dose(4_790)).expect("a plan");
    assert_eq!((one.total, one.in_range_permille), (4_600, None));
    let two = plan(&shelf, &between(4_790, 4_790, 9_580)).expect("a plan");
    assert_eq!((two.total, two.below_least), (4_800, false));
    assert_eq!(two.in_range_permille, Some(2));
    // No mark lies between the two: the nearest below is named, and said to be below.
    let narrow = plan(&shelf, &between(4_650, 4_700, 4_750)).expect("a plan");
    assert_eq!((narrow.total, narrow.below_least), (4_600, true));
}

#[test]
fn a_spoon_is_whole_spoons() {
    let shelf = [measure(7, MeasureKind::Spoon, [5_000, 5_000, 5_000])];
    let plan = plan(&shelf, &dose(15_100)).expect("a plan");
    assert_eq!(fills(&plan), [(7, 3, 5_000)]);
}

#[test]
fn a_powder_wants_a_scale_and_a_liquid_never_goes_on_one() {
    let scale = measure(3, MeasureKind::Scale, [200, 200_000, 10]);
    let powder = Dose {
        weighed: true,
        ..dose(14_286)
    };
    let on_a_scale = plan(&[scale], &powder).expect("a plan");
    assert_eq!(fills(&on_a_scale), [(3, 1, 14_280)]);
    assert_eq!(
        plan(&[syringe(5, 500, 5_000, 200)], &powder),
        Err(NoPlan::NoScale)
    );
    assert_eq!(plan(&[scale], &dose(2_000)), Err(NoPlan::OnlyScales));
    assert_eq!(plan(&[], &powder), Err(NoPlan::NoMeasures));
}

#[test]
fn a_dose_too_small_for_every_measure_says_how_much_water_would_do() {
    let shelf = [syringe(5, 500, 5_000, 200)];
    // 0.078125 mL in each litre, in 2 L of water: under every mark.
    let rate = parse_rate("1 US fl oz per 100 US gal").expect("a rate");
    let water = Volume::from_ul(2_000_000);
    let small = Dose::of(&rate, &rate, None, water).expect("a dose");
    assert_eq!(
        plan(&shelf, &small),
        Err(NoPlan::TooCoarse { nearest: None })
    );
    let more = water_for(&shelf, &small, water).expect("a volume");
    // The first mark is 0.6 mL: 7.68 L of it at 0.078125 mL/L.
    assert_eq!(more, Volume::from_ul(7_680_000));
    let enough = Dose::of(&rate, &rate, None, more).expect("a dose");
    assert!(plan(&shelf, &enough).is_ok());
}

#[test]
fn twenty_fills_are_the_most() {
    let shelf = [syringe(1, 100, 1_000, 10)];
    assert!(plan(&shelf, &dose(20_000)).is_ok());
    assert_eq!(plan(&shelf, &dose(21_500)), Err(NoPlan::TooOften));
}

#[test]
fn the_ready_made_sizes_can_all_be_read() {
    for (n, size) in (0..).zip(SIZES) {
        let one = measure(n, size.kind, [size.least, size.most, size.graduation]);
        assert!(one.is_sound(), "{size:?}");
        assert_eq!(one.last(), size.most, "{size:?}");
        assert_eq!(one.first(), size.least, "{size:?}");
    }
}

#[test]
fn a_measure_is_typed_with_or_without_its_unit() {
    let typed = MeasureDraft {
        most: "5".to_owned(),
        graduation: "0,2 mL".to_owned(),
        ..MeasureDraft::default()
    };
    let traits = typed.traits().expect("figures");
    assert_eq!(
        (traits.least, traits.most, traits.graduation),
        (Some(200), Some(5_000), Some(200))
    );
    let scale = MeasureDraft {
        kind: MeasureKind::Scale,
        most: "500".to_owned(),
        graduation: "0.1".to_owned(),
        least: "2 g".to_owned(),
        ..MeasureDraft::default()
    };
    let traits = scale.traits().expect("figures");
    assert_eq!((traits.most, traits.graduation), (Some(500_000), Some(100)));
}

/// Measures as they are made: a least of at most a quarter of the most, or a spoon.
fn shelf() -> impl Strategy<Value = Vec<Measure>> {
    let one = (1_i64..=500, 4_i64..=100, 1_i64..=25, any::<bool>());
    prop::collection::vec(one, 1..5).prop_map(|all| {
        (0_u16..)
            .zip(all)
            .map(|(n, (graduation, marks, least, spoon))| {
                let most = graduation * marks;
                if spoon {
                    measure(n, MeasureKind::Spoon, [most, most, most])
                } else {
                    syringe(
                        n,
                        (graduation * least).min(most / 4).max(1),
                        most,
                        graduation,
                    )
                }
            })
            .collect()
    })
}

fn exact(num: i64, den: i64) -> Ratio {
    Ratio::new(i128::from(num), i128::from(den)).expect("a fraction")
}

fn magnitude(ratio: Ratio) -> Ratio {
    if ratio.is_negative() {
        Ratio::ZERO.checked_sub(ratio).expect("in range")
    } else {
        ratio
    }
}

proptest! {
    #[test]
    fn the_fills_add_up_on_the_marks_and_never_over_the_label(
        shelf in shelf(), num in 1_i64..=2_000_000, den in 1_i64..=999, over in 0_i64..=300,
    ) {
        let want = exact(num, den);
        let most = want.checked_mul(exact(1_000 + over, 1_000)).expect("in range");
        let wanted = Dose { exact: want, weighed: false, least: (over > 0).then_some(want), most };
        let found = match plan(&shelf, &wanted) {
            Ok(plan) => plan,
            Err(NoPlan::TooCoarse { nearest: Some(plan) }) => plan,
            Err(_) => return Ok(()),
        };
        let mut sum = 0;
        for fill in &found.fills {
            let used = shelf.iter().find(|one| one.id == fill.measure).expect("of the shelf");
            prop_assert!(fill.times > 0 && (used.least..=used.most).contains(&fill.each));
            prop_assert_eq!(fill.each % used.graduation, 0);
            sum += i64::from(fill.times) * fill.each;
        }
        prop_assert_eq!(sum, found.total);
        let total = exact(sum, 1);
        prop_assert!(total <= most, "{} over {:?}", sum, most);
        prop_assert_eq!(found.below_least, wanted.least.is_some_and(|least| total < least));
    }

    /// The finest measure that could do it alone sets the error: half a mark of it, or a whole one where the label
    /// forbids to go over or below, unless half a per cent of the dose is more than that.
    #[test]
    fn the_error_is_at_most_half_a_graduation_of_the_finest_measure_usable(
        shelf in shelf(), num in 1_i64..=2_000_000, den in 1_i64..=999, free in any::<bool>(),
    ) {
        let want = exact(num, den);
        let most = if free { want.checked_mul(exact(3, 1)).expect("in range") } else { want };
        let wanted = Dose { exact: want, weighed: false, least: None, most };
        let alone = shelf.iter().filter(|one| {
            want >= exact(one.first() + one.graduation, 1)
                && want < exact(one.last().saturating_mul(i64::from(MOST_FILLS) - 1), 1)
        });
        let Some(finest) = alone.map(|one| one.graduation).min() else { return Ok(()) };
        let found = match plan(&shelf, &wanted) {
            Ok(plan) | Err(NoPlan::TooCoarse { nearest: Some(plan) }) => plan,
            Err(none) => panic!("{none:?}"),
        };
        let off = magnitude(exact(found.total, 1).checked_sub(want).expect("in range"));
        let half = if free { exact(finest, 2) } else { exact(finest, 1) };
        let near = want.checked_mul(exact(5, 1_000)).expect("in range");
        prop_assert!(off <= half.max(near), "{off:?} of {want:?} with {finest}");
    }

    #[test]
    fn twice_the_dose_on_measures_twice_the_size_takes_the_same_fills(
        shelf in shelf(), ul in 1_i64..=2_000_000, times in 2_i64..=50,
    ) {
        let larger: Vec<Measure> = shelf
            .iter()
            .map(|one| Measure {
                least: one.first() * times,
                most: one.last() * times,
                graduation: one.graduation * times,
                ..*one
            })
            .collect();
        let small: Vec<Measure> = shelf
            .iter()
            .map(|one| Measure { least: one.first(), most: one.last(), ..*one })
            .collect();
        let before = plan(&small, &dose(ul));
        let after = plan(&larger, &dose(ul * times));
        match (before, after) {
            (Ok(before), Ok(after)) => {
                let grown: Vec<_> = fills(&before).into_iter().map(|(n, k, each)| (n, k, each * times)).collect();
                prop_assert_eq!(grown, fills(&after));
                prop_assert_eq!(before.off_permille, after.off_permille);
            }
            (Err(NoPlan::TooCoarse { .. }), Err(NoPlan::TooCoarse { .. })) => {}
            (before, after) => prop_assert_eq!(before, after),
        }
    }

    /// The same rate in another unit is the same dose, so the same fills.
    #[test]
    fn a_rate_in_other_units_takes_the_same_fills(shelf in shelf(), tenths in 1_u32..=5_000, litres in 1_i64..=200) {
        let water = Volume::from_ul(litres * 1_000_000);
        let by = |text: String| -> Rate { parse_rate(&text).expect("a rate") };
        let per_litre = by(format!("{}.{} mL/L", tenths / 1_000, format_args!("{:03}", tenths % 1_000)));
        let per_ten = by(format!("{}.{} mL per 10 L", tenths / 100, format_args!("{:02}", tenths % 100)));
        let one = Dose::of(&per_litre, &per_litre, None, water).expect("a dose");
        let other = Dose::of(&per_ten, &per_ten, None, water).expect("a dose");
        prop_assert_eq!(plan(&shelf, &one), plan(&shelf, &other));
    }

    /// The water that is told makes it fine enough, and nothing between what there is and ten millilitres less does.
    #[test]
    fn the_water_told_is_enough_and_the_least_that_is(
        shelf in shelf(), rate in 1_i64..=400, ml in 100_i64..=5_000, between in 0_i64..1_000,
    ) {
        let water = Volume::from_ul(ml * 1_000);
        let at = |ul: i64| {
            let exact = exact(rate, 100_000).checked_mul(exact(ul, 1)).expect("in range");
            Dose { exact, weighed: false, least: None, most: exact }
        };
        let there = at(water.ul());
        let Some(told) = water_for(&shelf, &there, water) else { return Ok(()) };
        prop_assert!(told >= water);
        prop_assert!(plan(&shelf, &at(told.ul())).is_ok());
        let room = told.ul() - 10_000 - water.ul();
        if room > 0 {
            let less = at(water.ul() + room * between / 1_000);
            let one_does = shelf.iter().any(|one| plan(std::slice::from_ref(one), &less).is_ok());
            prop_assert!(!one_does, "{:?} would do", less);
        }
    }
}
