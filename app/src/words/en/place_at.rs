//! Words for where a place lies.

pub const WHERE: &str = "Where it lies";
pub const WHERE_HINT: &str =
    "Latitude and longitude, as a map gives them: 40.41678, -3.70379. Only for records that ask.";
pub const NOT_DEGREES: &str =
    "Type two numbers in degrees with a comma between: 40.41678, -3.70379.";
