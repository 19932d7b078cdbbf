//! Air, warmth and day length, held against FAO-56, two other families of formulas and the sky as two libraries see it.

use crate::sheet::{Row, check_each, check_each_given, within};
use chrono::{Datelike, NaiveDate};
use velamen_core::climate::{Chill, Daylight, daylight, fine};

fn day(text: &str) -> NaiveDate {
    text.parse()
        .unwrap_or_else(|_| panic!("{text:?} is not a day"))
}

/// A number in a cell that may be empty.
fn maybe(row: &Row, column: &str) -> Option<f64> {
    let text = row.text(column);
    (!text.is_empty()).then(|| row.number(column))
}

/// A number inside a small JSON object in a cell.
fn input(row: &Row, name: &str) -> f64 {
    let inputs: serde_json::Value =
        serde_json::from_str(row.text("inputs_json")).expect("inputs as JSON");
    inputs[name].as_f64().expect("a number")
}

#[test]
fn saturation_pressure_is_fao_56_table_by_table() {
    check_each("c_svp_table.csv", |row| {
        let ours = fine::saturation_kpa(row.number("T_C"));
        if format!("{ours:.3}") == row.text("e0_kPa_3dp") {
            within(ours, row.number("e0_kPa"), 1e-8)
        } else {
            Err(format!("{ours} against {}", row.text("e0_kPa_3dp")))
        }
    });
}

#[test]
fn deficit_and_dew_point_are_fao_56_and_near_the_engineers_and_the_meteorologists() {
    check_each("c_vpd_grid.csv", |row| {
        let (t, humidity) = (row.number("T_C"), row.number("RH_pct") / 100.0);
        let saturation = fine::saturation_kpa(t);
        let deficit = saturation * (1.0 - humidity);
        within(saturation, row.number("fao_es_kPa"), 1e-5)?;
        within(deficit, row.number("fao_vpd_kPa"), 1e-5)?;
        let dew_point = fine::dew_point_c(t, humidity).ok_or("no dew point")?;
        within(dew_point, row.number("fao_tdew_C"), 1e-4)?;
        // Below freezing the engineers' tables are over ice.
        if t > 0.0 && dew_point >= 0.0 {
            within(saturation, row.number("ash_es_kPa"), 0.001_13 * saturation)?;
            within(deficit, row.number("ash_vpd_kPa"), 0.009_75)?;
            within(dew_point, row.number("ash_tdew_C"), 0.015)?;
            within(deficit, row.number("metpy_vpd_kPa"), 0.041_5)?;
            within(dew_point, row.number("metpy_tdew_C"), 0.146)?;
        }
        Ok(())
    });
}

/// Pressure of the air and wet bulbs are not worked out here.
const TAKEN: [&str; 5] = [
    "e0(Tmin)",
    "e0(Tmax)",
    "mean es",
    "ea from RHmax,RHmin",
    "VPD",
];

#[test]
fn the_examples_of_fao_56_come_out_as_printed() {
    let printed = |value: f64, digits: usize| format!("{value:.digits$}");
    assert_eq!(printed(fine::saturation_kpa(24.5), 3), "3.075");
    assert_eq!(printed(fine::mean_saturation_kpa(15.0, 24.5), 2), "2.39");
    assert_eq!(printed(fine::actual_kpa(18.0, 25.0, 0.54, 0.82), 2), "1.70");
    let takes = |row: &Row| {
        let quantity = row.text("quantity");
        quantity.starts_with("e0(T)") || TAKEN.contains(&quantity)
    };
    check_each_given("c_fao56_worked.csv", takes, |row| {
        let ours = match row.text("quantity") {
            "mean es" => fine::mean_saturation_kpa(input(row, "Tmin"), input(row, "Tmax")),
            "ea from RHmax,RHmin" | "VPD" => {
                let (min, max) = (input(row, "Tmin"), input(row, "Tmax"));
                let (dry, moist) = (input(row, "RHmin") / 100.0, input(row, "RHmax") / 100.0);
                let actual = fine::actual_kpa(min, max, dry, moist);
                if row.text("quantity") == "VPD" {
                    fine::mean_saturation_kpa(min, max) - actual
                } else {
                    actual
                }
            }
            _ => fine::saturation_kpa(input(row, "T")),
        };
        within(ours, row.number("recomputed"), 1e-6)
    });
}

#[test]
fn degree_days_are_as_published_and_as_integrated() {
    // McMaster and Wilhelm 1997: 5 and -5 C over 0 C is nothing by the first of the two averages.
    within(fine::average_degree_days(-5.0, 5.0, 0.0, None), 0.0, 0.0).expect("nothing");
    // The two-threshold sine of 50 to 82 F between 55 and 90 F, and a day wholly above: Zalom and others 1983.
    within(
        fine::sine_degree_days(96.0, 110.0, 55.0, Some(90.0)),
        35.0,
        1e-9,
    )
    .expect("level");
    let takes = |row: &Row| matches!(row.text("method"), "sng_sine" | "avg_method1");
    check_each_given("d_degree_days.csv", takes, |row| {
        let (min, max) = (row.number("tmin"), row.number("tmax"));
        let (lower, upper) = (row.number("lower"), maybe(row, "upper"));
        let ours = match row.text("method") {
            "sng_sine" => fine::sine_degree_days(min, max, lower, upper),
            _ => fine::average_degree_days(min, max, lower, upper),
        };
        within(ours, row.number("recomputed"), 1e-6)
    });
}

#[test]
fn the_sine_s_degree_days_and_cold_hours_agree_with_adding_up_small_steps() {
    const STEPS: u32 = 20_000;
    for (min, max) in [(5.0, 15.0), (-3.0, 31.0), (12.0, 12.5), (18.0, 40.0)] {
        for (lower, upper) in [(10.0, None), (0.0, Some(30.0)), (13.0, Some(28.0))] {
            let (mut sum, mut below) = (0.0, 0u32);
            for step in 0..STEPS {
                let turn = std::f64::consts::TAU * (f64::from(step) + 0.5) / f64::from(STEPS);
                let t = f64::midpoint(min, max) + (max - min) / 2.0 * turn.sin();
                sum += t.min(upper.unwrap_or(f64::MAX)).max(lower) - lower;
                below += u32::from(t < lower);
            }
            let ours = fine::sine_degree_days(min, max, lower, upper);
            within(ours, sum / f64::from(STEPS), 1e-4).expect("the same sum");
            let part = fine::part_below(min, max, lower);
            within(part, f64::from(below) / f64::from(STEPS), 2e-4).expect("the same hours");
        }
    }
}

#[test]
fn chill_hours_fall_on_the_side_their_meaning_says() {
    check_each_given(
        "d_chill_weights.csv",
        |_| true,
        |row| {
            let t_mc = (row.number("T_C") * 1_000.0).round() as i32;
            for (chill, column) in [
                (Chill::Below7, "below_7p2_simple"),
                (Chill::From0To7, "chill_hour_0_to_7p2"),
                (Chill::Weighed, "utah_unit"),
            ] {
                within(
                    f64::from(chill.halves(t_mc)) / 2.0,
                    row.number(column),
                    1e-9,
                )
                .map_err(|why| format!("{column}: {why}"))?;
            }
            Ok(())
        },
    );
}

#[test]
fn day_length_is_fao_56_for_sums_and_the_sky_s_for_the_screen() {
    check_each("e_daylength.csv", |row| {
        let (lat, on) = (row.number("lat"), day(row.text("date")));
        within(
            fine::fao_day_h(lat, on.ordinal()),
            row.number("fao56_h"),
            6e-5,
        )?;
        let days = on.signed_duration_since(day("2000-01-01")).num_days();
        let seen = fine::seen_day_h(lat, i32::try_from(days).expect("near"));
        within(seen, row.number("noaa_h"), 0.02)?;
        within(seen, row.number("ephem_h"), 0.02)
    });
}

#[test]
fn sunrise_to_sunset_agrees_with_the_almanac_within_two_minutes() {
    check_each("e_sunrise_sunset.csv", |row| {
        let lat = (row.number("lat") * 100.0).round() as i32;
        let ours = daylight(lat, day(row.text("local_date")));
        match (row.text("state"), ours) {
            ("normal", Daylight::Minutes(minutes)) => {
                within(f64::from(minutes), row.number("daylength_h") * 60.0, 2.0)
            }
            ("midnight sun", Daylight::MidnightSun) | ("polar night", Daylight::PolarNight) => {
                Ok(())
            }
            (theirs, ours) => Err(format!("{ours:?} against {theirs}")),
        }
    });
}
