//! Words for where a place lies.

pub const WHERE: &str = "Dónde está";
pub const WHERE_HINT: &str = "Latitud y longitud, como las da un mapa: 40.41678, -3.70379. Solo para los registros que lo piden.";
pub const NOT_DEGREES: &str =
    "Escribe dos números en grados con punto decimal y una coma entre ellos: 40.41678, -3.70379.";
