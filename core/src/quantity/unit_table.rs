//! The table of units. Factors are written as the chain of definitions they come from, so each can be checked by eye.

use super::Ratio;
use super::unit::{Dimension, Unit, UnitDef};

/// The international inch, 25.4 mm exactly.
const INCH_UM: i128 = 25_400;
/// A cubic inch in nanolitres: 25.4 mm cubed.
const CUBIC_INCH_NL: i128 = 16_387_064;
/// The international pound, 0.45359237 kg exactly, in micrograms.
const POUND_UG: i128 = 453_592_370;

const SI: &str = "SI Brochure, exact by definition";
const HB44: &str =
    "NIST Handbook 44 Appendix C: US gallon 231 cubic inches, bushel 2150.42 cubic inches, exact";
const INCH: &str = "international yard and pound agreement 1959: inch 25.4 mm, exact by definition";
const LB: &str =
    "international yard and pound agreement 1959: pound 0.45359237 kg, exact by definition";
const WM: &str = "Weights and Measures Act 1985 (UK): gallon 4.54609 L, exact by definition";
const KITCHEN: &str = "common practice, no source: metric kitchen measure";
const SPOON_15: &str = "common practice, no source: tablespoon of 15 mL in Britain and New Zealand";
const SPOON_20: &str = "common practice, no source: tablespoon of 20 mL in Australia";
const FAHRENHEIT: &str =
    "NIST SP 811 Appendix B.8: degrees Celsius are (degrees Fahrenheit - 32) / 1.8, exact";
const PSI: &str = "NIST SP 811 Appendix B: pound-force with 9.80665 m/s2 on a square inch, exact";
const FOOT_CANDLE: &str = "NIST SP 811 Appendix B: one lumen on a square foot, exact";

const US: &str = "us|american";
const IMPERIAL: &str = "imp|imperial|uk|british";
const METRIC: &str = "metric|au|aus|australian|nz|uk|british";
const GALLON: &str = "gal|gals|gallon|gallons";
const QUART: &str = "qt|qts|quart|quarts";
const PINT: &str = "pt|pts|pint|pints";
const CUP: &str = "cup|cups";
/// A bare ounce is listed here and under mass: on a label it may be either.
const FLUID_OUNCE: &str = "fl oz|floz|fl ozs|fluid ounce|fluid ounces|oz fl|oz|ounce|ounces";
const TABLESPOON: &str = "tbsp|tbs|tblsp|tbsps|tablespoon|tablespoons";
const TEASPOON: &str = "tsp|tsps|teaspoon|teaspoons";

/// A row of a volume that is nobody's in particular, starts at zero and is defined by the SI; the methods below say otherwise.
const fn row(
    unit: Unit,
    wire: &'static str,
    symbol: &'static str,
    names: &'static str,
    factor: Ratio,
) -> UnitDef {
    UnitDef {
        unit,
        wire,
        symbol,
        names,
        marks: "",
        dimension: Dimension::Volume,
        factor,
        offset: Ratio::ZERO,
        source: SI,
    }
}

impl UnitDef {
    const fn of(self, dimension: Dimension) -> Self {
        Self { dimension, ..self }
    }

    const fn source(self, source: &'static str) -> Self {
        Self { source, ..self }
    }

    const fn whose(self, marks: &'static str) -> Self {
        Self { marks, ..self }
    }

    const fn zero_at(self, offset: Ratio) -> Self {
        Self { offset, ..self }
    }
}

/// The litre's row, named so that a look-up is total.
pub(super) const LITRE: UnitDef = row(
    Unit::Litre,
    "litre",
    "L",
    "l|lt|ltr|litre|litres|liter|liters|litro|litros|dm3",
    Ratio::of(1_000_000, 1),
);

/// One row per unit, in the order of the enum.
pub(super) const UNITS: &[UnitDef] = &[
    row(
        Unit::Microlitre,
        "microlitre",
        "µL",
        "µl|ul|microlitre|microliter|microlitres|microliters",
        Ratio::of(1, 1),
    ),
    row(
        Unit::Millilitre,
        "millilitre",
        "mL",
        "ml|cc|cm3|millilitre|millilitres|milliliter|milliliters|mililitro|mililitros|cubic centimetre|cubic centimeter",
        Ratio::of(1_000, 1),
    ),
    LITRE,
    row(
        Unit::CubicMetre,
        "cubic_metre",
        "m³",
        "m3|cubic metre|cubic metres|cubic meter|cubic meters|cu m",
        Ratio::of(1_000_000_000, 1),
    ),
    row(
        Unit::UsGallon,
        "us_gallon",
        "US gal",
        GALLON,
        Ratio::of(231 * CUBIC_INCH_NL, 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::UsQuart,
        "us_quart",
        "US qt",
        QUART,
        Ratio::of(231 * CUBIC_INCH_NL, 4 * 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::UsPint,
        "us_pint",
        "US pt",
        PINT,
        Ratio::of(231 * CUBIC_INCH_NL, 8 * 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::UsCup,
        "us_cup",
        "US cup",
        CUP,
        Ratio::of(231 * CUBIC_INCH_NL, 16 * 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::UsFluidOunce,
        "us_fluid_ounce",
        "US fl oz",
        FLUID_OUNCE,
        Ratio::of(231 * CUBIC_INCH_NL, 128 * 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::UsTablespoon,
        "us_tablespoon",
        "US tbsp",
        TABLESPOON,
        Ratio::of(231 * CUBIC_INCH_NL, 256 * 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::UsTeaspoon,
        "us_teaspoon",
        "US tsp",
        TEASPOON,
        Ratio::of(231 * CUBIC_INCH_NL, 768 * 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::UsDryGallon,
        "us_dry_gallon",
        "US dry gal",
        "dry gal|dry gals|dry gallon|dry gallons|gal dry|gals dry|gallon dry|gallons dry",
        Ratio::of(215_042 * CUBIC_INCH_NL, 8 * 100 * 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::UsDryQuart,
        "us_dry_quart",
        "US dry qt",
        "dry qt|dry qts|dry quart|dry quarts|qt dry|qts dry|quart dry|quarts dry",
        Ratio::of(215_042 * CUBIC_INCH_NL, 32 * 100 * 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::UsDryPint,
        "us_dry_pint",
        "US dry pt",
        "dry pt|dry pts|dry pint|dry pints|pt dry|pts dry|pint dry|pints dry",
        Ratio::of(215_042 * CUBIC_INCH_NL, 64 * 100 * 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::UsBushel,
        "us_bushel",
        "US bu",
        "bu|bushel|bushels",
        Ratio::of(215_042 * CUBIC_INCH_NL, 100 * 1_000),
    )
    .whose(US)
    .source(HB44),
    row(
        Unit::ImperialGallon,
        "imperial_gallon",
        "imp gal",
        GALLON,
        Ratio::of(4_546_090, 1),
    )
    .whose(IMPERIAL)
    .source(WM),
    row(
        Unit::ImperialQuart,
        "imperial_quart",
        "imp qt",
        QUART,
        Ratio::of(4_546_090, 4),
    )
    .whose(IMPERIAL)
    .source(WM),
    row(
        Unit::ImperialPint,
        "imperial_pint",
        "imp pt",
        PINT,
        Ratio::of(4_546_090, 8),
    )
    .whose(IMPERIAL)
    .source(WM),
    row(
        Unit::ImperialFluidOunce,
        "imperial_fluid_ounce",
        "imp fl oz",
        FLUID_OUNCE,
        Ratio::of(4_546_090, 160),
    )
    .whose(IMPERIAL)
    .source(WM),
    row(
        Unit::MetricCup,
        "metric_cup",
        "metric cup",
        CUP,
        Ratio::of(250_000, 1),
    )
    .whose(METRIC)
    .source(KITCHEN),
    row(
        Unit::MetricTablespoon,
        "metric_tablespoon",
        "metric tbsp",
        TABLESPOON,
        Ratio::of(15_000, 1),
    )
    .whose("metric|nz|uk|british")
    .source(SPOON_15),
    row(
        Unit::AustralianTablespoon,
        "australian_tablespoon",
        "AU tbsp",
        TABLESPOON,
        Ratio::of(20_000, 1),
    )
    .whose("au|aus|australian")
    .source(SPOON_20),
    row(
        Unit::MetricTeaspoon,
        "metric_teaspoon",
        "metric tsp",
        TEASPOON,
        Ratio::of(5_000, 1),
    )
    .whose(METRIC)
    .source(KITCHEN),
    row(
        Unit::CubicInch,
        "cubic_inch",
        "in³",
        "in3|cu in|cubic inch|cubic inches",
        Ratio::of(CUBIC_INCH_NL, 1_000),
    )
    .source(INCH),
    row(
        Unit::CubicFoot,
        "cubic_foot",
        "ft³",
        "ft3|cu ft|cubic foot|cubic feet",
        Ratio::of(1_728 * CUBIC_INCH_NL, 1_000),
    )
    .source(INCH),
    row(
        Unit::CubicYard,
        "cubic_yard",
        "yd³",
        "yd3|cu yd|cubic yard|cubic yards",
        Ratio::of(46_656 * CUBIC_INCH_NL, 1_000),
    )
    .source(INCH),
    row(
        Unit::Milligram,
        "milligram",
        "mg",
        "mg|milligram|milligrams|miligramo|miligramos",
        Ratio::of(1, 1),
    )
    .of(Dimension::Mass),
    row(
        Unit::Gram,
        "gram",
        "g",
        "g|gram|grams|gramme|grammes|gramo|gramos",
        Ratio::of(1_000, 1),
    )
    .of(Dimension::Mass),
    row(
        Unit::Kilogram,
        "kilogram",
        "kg",
        "kg|kgs|kilo|kilos|kilogram|kilograms|kilogramo|kilogramos",
        Ratio::of(1_000_000, 1),
    )
    .of(Dimension::Mass),
    row(
        Unit::OunceAvoirdupois,
        "ounce_avoirdupois",
        "oz wt",
        "oz wt|wt oz|oz av|oz avdp|oz weight|dry oz|oz|ounce|ounces",
        Ratio::of(POUND_UG, 16 * 1_000),
    )
    .of(Dimension::Mass)
    .source(LB),
    row(
        Unit::Pound,
        "pound",
        "lb",
        "lb|lbs|pound|pounds",
        Ratio::of(POUND_UG, 1_000),
    )
    .of(Dimension::Mass)
    .source(LB),
    row(
        Unit::Grain,
        "grain",
        "grain",
        "grain|grains",
        Ratio::of(POUND_UG, 7_000 * 1_000),
    )
    .of(Dimension::Mass)
    .source(LB),
    row(
        Unit::UsShortTon,
        "us_short_ton",
        "short ton",
        "short ton|short tons",
        Ratio::of(2_000 * POUND_UG, 1_000),
    )
    .of(Dimension::Mass)
    .whose(US)
    .source(HB44),
    row(
        Unit::Micrometre,
        "micrometre",
        "µm",
        "µm|um|micrometre|micrometer",
        Ratio::of(1, 1),
    )
    .of(Dimension::Length),
    row(
        Unit::Millimetre,
        "millimetre",
        "mm",
        "mm|millimetre|millimetres|millimeter|millimeters",
        Ratio::of(1_000, 1),
    )
    .of(Dimension::Length),
    row(
        Unit::Centimetre,
        "centimetre",
        "cm",
        "cm|centimetre|centimetres|centimeter|centimeters",
        Ratio::of(10_000, 1),
    )
    .of(Dimension::Length),
    row(
        Unit::Metre,
        "metre",
        "m",
        "m|metre|metres|meter|meters",
        Ratio::of(1_000_000, 1),
    )
    .of(Dimension::Length),
    row(
        Unit::Inch,
        "inch",
        "in",
        "in|ins|inch|inches|\"|″",
        Ratio::of(INCH_UM, 1),
    )
    .of(Dimension::Length)
    .source(INCH),
    row(
        Unit::Foot,
        "foot",
        "ft",
        "ft|foot|feet",
        Ratio::of(12 * INCH_UM, 1),
    )
    .of(Dimension::Length)
    .source(INCH),
    row(
        Unit::Yard,
        "yard",
        "yd",
        "yd|yds|yard|yards",
        Ratio::of(36 * INCH_UM, 1),
    )
    .of(Dimension::Length)
    .source(INCH),
    row(
        Unit::SquareMillimetre,
        "square_millimetre",
        "mm²",
        "mm2|sq mm|square millimetre|square millimeter",
        Ratio::of(1, 1),
    )
    .of(Dimension::Area),
    row(
        Unit::SquareCentimetre,
        "square_centimetre",
        "cm²",
        "cm2|sq cm|square centimetre|square centimeter",
        Ratio::of(100, 1),
    )
    .of(Dimension::Area),
    row(
        Unit::SquareMetre,
        "square_metre",
        "m²",
        "m2|sq m|sqm|square metre|square metres|square meter|square meters",
        Ratio::of(1_000_000, 1),
    )
    .of(Dimension::Area),
    row(
        Unit::Hectare,
        "hectare",
        "ha",
        "ha|hectare|hectares",
        Ratio::of(10_000_000_000, 1),
    )
    .of(Dimension::Area),
    row(
        Unit::SquareFoot,
        "square_foot",
        "ft²",
        "ft2|sq ft|sqft|square foot|square feet",
        Ratio::of(144 * INCH_UM * INCH_UM, 1_000_000),
    )
    .of(Dimension::Area)
    .source(INCH),
    row(
        Unit::SquareYard,
        "square_yard",
        "yd²",
        "yd2|sq yd|square yard|square yards",
        Ratio::of(1_296 * INCH_UM * INCH_UM, 1_000_000),
    )
    .of(Dimension::Area)
    .source(INCH),
    row(
        Unit::AcreInternational,
        "acre_international",
        "acre",
        "acre|acres|ac",
        Ratio::of(4_840 * 1_296 * INCH_UM * INCH_UM, 1_000_000),
    )
    .of(Dimension::Area)
    .source(INCH),
    row(
        Unit::DegreeCelsius,
        "degree_celsius",
        "°C",
        "°c|° c|c|℃|deg c|celsius|degrees celsius",
        Ratio::of(1_000, 1),
    )
    .of(Dimension::Temperature),
    row(
        Unit::DegreeFahrenheit,
        "degree_fahrenheit",
        "°F",
        "°f|° f|f|℉|deg f|fahrenheit|degrees fahrenheit",
        Ratio::of(5_000, 9),
    )
    .of(Dimension::Temperature)
    .zero_at(Ratio::of(-160_000, 9))
    .source(FAHRENHEIT),
    row(
        Unit::Kelvin,
        "kelvin",
        "K",
        "k|kelvin|kelvins",
        Ratio::of(1_000, 1),
    )
    .of(Dimension::Temperature)
    .zero_at(Ratio::whole(-273_150)),
    row(Unit::Pascal, "pascal", "Pa", "pa|pascal", Ratio::of(1, 1)).of(Dimension::Pressure),
    row(
        Unit::Kilopascal,
        "kilopascal",
        "kPa",
        "kpa|kilopascal",
        Ratio::of(1_000, 1),
    )
    .of(Dimension::Pressure),
    row(
        Unit::Millibar,
        "millibar",
        "mbar",
        "mbar|millibar|hpa",
        Ratio::of(100, 1),
    )
    .of(Dimension::Pressure),
    row(
        Unit::Psi,
        "psi",
        "psi",
        "psi",
        Ratio::of(8_896_443_230_521, 1_290_320_000),
    )
    .of(Dimension::Pressure)
    .source(PSI),
    row(Unit::Lux, "lux", "lx", "lx|lux", Ratio::of(1, 1)).of(Dimension::Illuminance),
    row(
        Unit::FootCandle,
        "foot_candle",
        "fc",
        "fc|foot candle|foot candles|footcandle|footcandles",
        Ratio::of(1_000_000_000_000, 144 * INCH_UM * INCH_UM),
    )
    .of(Dimension::Illuminance)
    .source(FOOT_CANDLE),
    row(
        Unit::MicrosiemensPerCm,
        "microsiemens_per_cm",
        "µS/cm",
        "µs/cm|us/cm",
        Ratio::of(1, 1),
    )
    .of(Dimension::Conductivity),
    row(
        Unit::MillisiemensPerCm,
        "millisiemens_per_cm",
        "mS/cm",
        "ms/cm|ds/m",
        Ratio::of(1_000, 1),
    )
    .of(Dimension::Conductivity),
];
