//! Unit factors and temperatures.

use velamen_core::quantity::{Decimal, Ratio, Typed, Unit};

use crate::sheet::{check_each, close};

/// "473176473/125000" or "5" as an exact fraction.
pub(crate) fn fraction(text: &str) -> Result<Ratio, String> {
    let (num, den) = text.split_once('/').unwrap_or((text, "1"));
    let whole = |part: &str| {
        part.trim()
            .parse::<i128>()
            .map_err(|_| format!("{text} is no fraction"))
    };
    Ratio::new(whole(num)?, whole(den)?).ok_or_else(|| format!("{text} is no fraction"))
}

/// For comparing with printed decimals only.
pub(crate) fn float(ratio: Ratio) -> f64 {
    ratio.num() as f64 / ratio.den() as f64
}

/// The sheet writes two units by their symbol.
fn unit(name: &str) -> Result<Unit, String> {
    let wire = match name {
        "mL" => "millilitre",
        "g" => "gram",
        "mm" => "millimetre",
        "cm**2" => "square_centimetre",
        "Pa" => "pascal",
        "lx" => "lux",
        "uS/cm" => "microsiemens_per_cm",
        "mS_per_cm" => "millisiemens_per_cm",
        other => other,
    };
    Unit::from_wire(wire).ok_or_else(|| format!("no unit {name}"))
}

#[test]
fn every_factor_is_the_defined_fraction() {
    check_each("a_units_exact.csv", |row| {
        let (unit, base) = (unit(row.text("unit"))?, unit(row.text("base"))?);
        if unit.dimension() != base.dimension() {
            return Err(format!("{unit:?} and {base:?} measure different things"));
        }
        let ours = unit
            .def()
            .factor
            .checked_div(base.def().factor)
            .ok_or("out of range")?;
        let theirs = fraction(row.text("exact_fraction"))?;
        if ours != theirs {
            return Err(format!("{unit:?} is {ours:?}, expected {theirs:?}"));
        }
        close(float(ours), row.number("exact_value"), 1e-12)
    });
}

#[test]
fn every_temperature_converts_exactly_and_is_stored_to_the_thousandth() {
    check_each("a_temperature.csv", |row| {
        let typed = Typed::new(
            Decimal::parse(row.text("deg_F")).map_err(|why| format!("{why:?}"))?,
            Unit::DegreeFahrenheit,
        );
        let exact = typed.exact().ok_or("out of range")?;
        let expected = fraction(row.text("deg_C_fraction"))?
            .checked_mul(Ratio::whole(1_000))
            .ok_or("out of range")?;
        if exact != expected {
            return Err(format!("{exact:?} m°C, expected {expected:?}"));
        }
        let kelvin = exact
            .checked_div(Ratio::whole(1_000))
            .ok_or("out of range")?;
        let kelvin = float(
            kelvin
                .checked_add(Ratio::new(5_463, 20).ok_or("273.15")?)
                .ok_or("out of range")?,
        );
        if (kelvin - row.number("kelvin")).abs() > 1e-9 {
            return Err(format!("{kelvin} K"));
        }
        let stored = velamen_core::quantity::Temperature::from_typed(&typed)
            .map_err(|why| format!("{why:?}"))?;
        let off = (stored.mc() as f64 / 1_000.0 - row.number("deg_C")).abs();
        if off > 0.000_500_001 {
            Err(format!("stored {} m°C", stored.mc()))
        } else {
            Ok(())
        }
    });
}

#[test]
fn textbook_fahrenheit_readings_come_out_in_celsius() {
    // Own arithmetic, C = (F - 32) / 1.8, to one decimal.
    for (fahrenheit, celsius) in [
        (55, "12.8"),
        (60, "15.6"),
        (82, "27.8"),
        (180, "82.2"),
        (212, "100.0"),
    ] {
        let typed = Typed::new(Decimal::whole(fahrenheit), Unit::DegreeFahrenheit);
        let exact = float(typed.exact().expect("in range")) / 1_000.0;
        assert_eq!(format!("{exact:.1}"), celsius);
    }
}
