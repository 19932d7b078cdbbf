//! Whether a potted plant falls over, against layered pots integrated numerically and two textbook bodies.

use velamen_core::potting::{Layers, Pot, Standing};
use velamen_core::quantity::{Length, Mass};

use crate::sheet::{Row, check_each};

fn inputs(row: &Row) -> Result<serde_json::Value, String> {
    serde_json::from_str(row.text("inputs_json")).map_err(|why| why.to_string())
}

fn um(cm: f64) -> Length {
    Length::from_um((cm * 10_000.0).round() as i64)
}

fn of_plant(inputs: &serde_json::Value) -> Option<Standing> {
    let number = |name: &str| inputs[name].as_f64();
    let height = number("h")?;
    let fill = number("fill_fraction")?;
    let g_per_l = |name: &str| number(name).map(|per_ml| (per_ml * 1_000.0).round() as u32);
    let grams = |name: &str| number(name).map(|g| Mass::from_mg((g * 1_000.0).round() as i64));
    Some(Standing {
        pot: Pot::Round {
            top: um(2.0 * number("top_r")?),
            base: um(2.0 * number("bottom_r")?),
            height: um(height),
        },
        layers: Layers {
            stone: um(number("stone_fraction_of_height")? * height),
            headspace: um((1.0 - fill) * height),
        },
        stone_g_per_l: g_per_l("stone_g_per_mL")?,
        mix_g_per_l: g_per_l("media_g_per_mL")?,
        wall: grams("shell_g")?,
        plant: grams("plant_g")?,
        plant_middle: um(number("plant_com_above_base")?),
    })
}

/// A body of even weight: a pot full of one stuff, without wall or plant.
fn even(pot: Pot) -> Standing {
    Standing {
        pot,
        layers: Layers::default(),
        stone_g_per_l: 0,
        mix_g_per_l: 1_000,
        wall: Mass::from_mg(0),
        plant: Mass::from_mg(0),
        plant_middle: Length::ZERO,
    }
}

fn square(width_m: f64, height_m: f64) -> Standing {
    let side = um(100.0 * width_m);
    even(Pot::Square {
        top: side,
        base: side,
        height: um(100.0 * height_m),
    })
}

fn round(base_r_cm: f64, top_r_cm: f64, height_cm: f64) -> Standing {
    // What runs to a point is a hundredth of a millimetre wide there.
    let wide = |r: f64| um(2.0 * r).max(Length::from_um(10));
    even(Pot::Round {
        top: wide(top_r_cm),
        base: wide(base_r_cm),
        height: um(height_cm),
    })
}

fn refused(standing: Standing) -> Result<(), String> {
    match standing.tips_at_cdeg() {
        None => Ok(()),
        Some(cdeg) => Err(format!("{cdeg} hundredths for no pot")),
    }
}

fn near(ours: f64, theirs: f64, within: f64) -> Result<(), String> {
    if (ours - theirs).abs() <= within {
        Ok(())
    } else {
        Err(format!("{ours} against {theirs}"))
    }
}

#[test]
fn pots_tip_at_the_angle_the_integration_gives() {
    check_each("l_topple.csv", |row| {
        let inputs = inputs(row)?;
        let number = |name: &str| inputs[name].as_f64().ok_or(format!("no {name}"));
        let expected = row.number("expected");
        let angle = |standing: Standing| {
            let cdeg = standing.tips_at_cdeg().ok_or("no angle")?;
            Ok::<f64, String>(f64::from(cdeg) / 100.0)
        };
        match row.text("what") {
            "potted plant tip angle" => {
                let standing = of_plant(&inputs).ok_or("an input is missing")?;
                near(angle(standing)?, expected, 0.006)
            }
            "tip angle uniform box" => {
                let standing = square(number("width")?, number("height")?);
                near(angle(standing)?, expected, 0.006)
            }
            // Wider below than above is no pot: it is refused, not worked out.
            "uniform cone on its base" => refused(round(number("R")?, 0.0, number("h")?)),
            what if what.starts_with("frustum centroid")
                && number("top_r")? < number("bottom_r")? =>
            {
                refused(round(number("bottom_r")?, number("top_r")?, number("h")?))
            }
            // The middle of the weight, found back from the angle.
            what if what.starts_with("frustum centroid") => {
                let base = number("bottom_r")?;
                let tilt = angle(round(base, number("top_r")?, number("h")?))?;
                near(
                    base.max(0.0005) / tilt.to_radians().tan(),
                    expected,
                    expected * 0.002,
                )
            }
            // A box as wide as the push is strong tips at the angle of the push.
            what if what.starts_with("lateral acceleration") => near(
                angle(square(expected, 1.0))?,
                number("tip_angle_deg")?,
                0.006,
            ),
            other => Err(format!("{other}: not known")),
        }
    });
}
