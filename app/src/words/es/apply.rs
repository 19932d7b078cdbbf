//! Drench, spray, swab and dust: their own words. The cautions are common practice, no source, unless a label or local
//! rule says more.

use velamen_core::apply::{ApplyFault, Drench, WaterFault};
use velamen_core::event::{Airing, Method};
use velamen_core::quantity::{QuantityError, Volume};

use super::format::{self, counted, in_litres};
use super::{mixing, trade, treat};

pub const ANOTHER_WAY: &str = "Otra forma";
pub const HOW: &str = "¿Cómo?";
pub const WHAT: &str = "Qué se trata";
pub const WHOLE_PLACE: &str = "Un lugar entero";
pub const LEAVE_OUT: &str = "Toca lo que queda fuera.";
pub const NEXT: &str = "Ahora: el envase";
pub const BACK_TO_WHAT: &str = "Cambiar lo que se trata";
pub const GIVE_UP: &str = "Dejar este tratamiento";
pub const BEGIN: &str = "Todo así: empezar";
pub const DONE: &str = "Ya está hecho";
pub const NOT_DONE: &str = "No se hizo nada";
pub const RECORDED: &str = "tratamiento";
pub const HOW_MUCH: &str = "Cuánto";
pub const BY_AREA: &str = "Por la superficie del lugar";
pub const PER_M2: &str = "Mililitros por metro cuadrado";
pub const PER_M2_HINT: &str =
    "Como dice la etiqueta. En blanco cuentan 150 mL, para plantas muy juntas (de memoria).";
pub const PER_POT: &str = "Mililitros por maceta";
pub const PER_POT_HINT: &str = "Como dice la etiqueta. En blanco cuenta la octava parte de la maceta, sobre sustrato húmedo, sin que escurra nada (práctica común, sin fuente).";
pub const CUP: &str = "Mililitros en el vaso";
pub const CUP_HINT: &str = "En blanco cuentan 100 mL.";
pub const NEAT: &str = "Tal como está en el envase";
pub const GRAMS: &str = "Gramos de polvo";
pub const AIRING: &str = "Ventilar después";
pub const AIRING_WHY: &str = "Tras una nebulización o una niebla, o donde la etiqueta pida protección respiratoria, un invernadero cerrado se ventila antes de que entre nadie. Un cultivador prudente ventila tras toda pulverización bajo techo.";
pub const AIRING_CALLED_FOR: &str = "La etiqueta pide ventilar.";
pub const NOT_CALLED_FOR: &str = "No se pide: gota gruesa, la etiqueta no dice nada";
pub const IN_HAND: &str = "Tratamiento en curso";
pub const YES: &str = "sí";
pub const NO: &str = "no";
pub const ANOTHER_IN_HAND: &str = "Hay otro tratamiento en marcha: termínalo o déjalo primero.";
pub const HANDS_OFF: &str = "Lo tratado no se toca antes de esa hora.";

/// The label of the box for so much water.
#[must_use]
pub fn litres() -> &'static str {
    in_litres("Litros preparados", "Galones preparados")
}

/// A way of treating, as a heading.
#[must_use]
pub fn method(method: Method) -> &'static str {
    match method {
        Method::Bath => "Baño",
        Method::Plunge => "Inmersión",
        Method::Drench => "Riego dirigido",
        Method::Spray => "Pulverización hasta goteo",
        Method::Swab => "Toque con torunda o pincel",
        Method::DustCut => "Espolvoreo de cortes",
    }
}

/// What it is, in a line.
#[must_use]
pub fn method_hint(method: Method) -> &'static str {
    match method {
        Method::Bath | Method::Plunge => "piezas o macetas lavadas, en una cubeta",
        Method::Drench => "vertido en cada maceta",
        Method::Spray => "todas las hojas, también el envés, hasta que empiece a gotear",
        Method::Swab => "solo sobre la plaga o la mancha",
        Method::DustCut => "solo sobre el corte, lejos de las raíces",
    }
}

/// Cautions before a bottle is opened, by way.
#[must_use]
pub fn cautions(method: Method) -> [&'static str; 5] {
    let gear = "Guantes hasta el codo, gafas de protección cerradas, delantal y lo demás que pida la etiqueta. Algunos concentrados queman los ojos y llevan disolvente.";
    let away =
        "Niños, animales de casa, estanques y abejas, lejos; nadie más dentro del invernadero.";
    match method {
        Method::Spray => [
            gear,
            "Una mascarilla de polvo no para ningún vapor: la etiqueta dice qué protección respiratoria.",
            "Con el fresco del día, sin sol, con las plantas regadas el día antes; no sobre flores abiertas ni capullos. Aceite y jabón, no por encima de 30 °C.",
            "Puertas cerradas y señalizadas antes de la primera gota. Depósito y boquilla enjuagados; nada de lejía en un depósito de aluminio o latón.",
            away,
        ],
        Method::Drench => [
            gear,
            "Al aire libre o con una puerta ancha abierta.",
            "Sobre sustrato húmedo, no sobre raíces secas. Lo que escurre se recoge: es producto gastado.",
            "Regadera y medidores enjuagados; ningún medidor vuelve a la cocina.",
            away,
        ],
        Method::Swab => [
            gear,
            "Al aire libre o con una puerta ancha abierta. El alcohol arde: ni llama ni calefactor cerca.",
            "Primero tres plantas, y una revisión a la semana. No sobre flores abiertas ni al sol.",
            "Una torunda nueva para cada planta: la torunda lleva savia de una a otra.",
            away,
        ],
        Method::DustCut => [
            gear,
            "Sin viento; mascarilla contra el polvo como diga la etiqueta. El azufre quema los ojos.",
            "Solo sobre el corte seco: el polvo en las raíces las reseca.",
            "Un pincel nuevo para cada mata: el pincel lleva savia de una a otra.",
            away,
        ],
        Method::Bath | Method::Plunge => super::bath::CAUTIONS,
    }
}

/// A way of airing.
#[must_use]
pub fn airing(how: Airing) -> String {
    let hours = velamen_core::reference::airing::hours(how);
    match how {
        Airing::Fans => format!("Ventiladores en marcha, {hours} h"),
        Airing::Vents => format!("Ventanas abiertas, sin ventilador, {hours} h"),
        Airing::Shut => format!("Cerrado {hours} h, y luego abierto"),
    }
}

/// "12 plantas de 3 lotes".
#[must_use]
pub fn chosen(plants: i64, lots: usize) -> String {
    let lots = i64::try_from(lots).unwrap_or(i64::MAX);
    format!(
        "{} de {}",
        trade::plants(plants),
        counted(lots, "lote", "lotes")
    )
}

/// "24 macetas, unos 80 mL en cada una: 1,92 L en total."
#[must_use]
pub fn drenched(all: &Drench) -> String {
    let pots = i64::from(all.pots.saturating_sub(all.unknown)).max(1);
    let each = all.water.ul() / pots;
    let (figure, unit) = format::measured(each, "mL", "L");
    format!(
        "{}, unos {figure} {unit} en cada una: {} en total.",
        trade::pots(i64::from(all.pots)),
        format::litres_exact(all.water)
    )
}

/// "Para 4 m² hacen falta 0,6 L."
#[must_use]
pub fn on_area(square_metres: &str, water: Volume) -> String {
    format!(
        "Para {square_metres} m² hacen falta {}.",
        format::litres_exact(water)
    )
}

/// "Pulverización hasta goteo".
#[must_use]
pub fn in_hand(method: Option<Method>) -> String {
    method.map_or_else(|| HOW.to_owned(), |of| self::method(of).to_owned())
}

fn water(fault: &WaterFault, method: Option<Method>) -> String {
    match fault {
        WaterFault::Missing => match method {
            Some(Method::DustCut) => "Pesa el polvo: escribe los gramos.".to_owned(),
            _ => "Escribe los litros que se preparan.".to_owned(),
        },
        WaterFault::Unreadable(QuantityError::AmbiguousUnit { .. }) => {
            "¿De qué país es el galón, la pinta o la onza? Escribe US o imp delante, o usa litros."
                .to_owned()
        }
        WaterFault::Unreadable(_) => match method {
            Some(Method::DustCut) => "Escribe el polvo como peso: 2 g.".to_owned(),
            _ => "Escribe el agua como cantidad: 2 L, 500 mL.".to_owned(),
        },
        WaterFault::Nothing => "Tiene que ser más de cero.".to_owned(),
        WaterFault::TooMuch => "2 000 litros es lo máximo de una vez.".to_owned(),
        WaterFault::NoPotVolume { pots } => format!(
            "¿Cuánto va en una maceta? El tamaño de {} no está en el libro.",
            trade::pots(i64::from(*pots))
        ),
        WaterFault::NoArea => {
            "La superficie de ese lugar no está en el libro: escríbela en el Almacén, o escribe los litros."
                .to_owned()
        }
    }
}

/// What is in the way.
#[must_use]
pub fn fault(fault: &ApplyFault, method: Option<Method>) -> String {
    match fault {
        ApplyFault::NoMethod => "Di cómo se hace.".to_owned(),
        ApplyFault::NothingTreated => {
            "Elige lo que se trata: un lugar, un lote o piezas de la mesa.".to_owned()
        }
        ApplyFault::Mix(fault) => mixing::fault(fault, method.unwrap_or(Method::Bath)),
        ApplyFault::Water(fault) => water(fault, method),
        ApplyFault::AiringNotSaid => "Di cómo se ventila el invernadero.".to_owned(),
    }
}

pub mod notice {
    //! The paper on the door.

    pub const TITLE: &str = "Aviso para la puerta";
    pub const OPEN: &str = "Aviso para la puerta";
    pub const KEEP_OUT: &str = "No entrar";
    pub const HANDS_OFF: &str = "No tocar";
    pub const PRINT: &str = "Imprimirlo";
    pub const WHERE: &str = "Dónde";
    pub const WITH: &str = "Tratado con";
    pub const HOLDS: &str = "Contiene";
    pub const REGISTRATION: &str = "Registro";
    pub const DONE: &str = "Hecho";
    pub const AIRING: &str = "Ventilación";
    pub const GEAR: &str = "Equipo de protección de la etiqueta";
    pub const BY: &str = "Por";
    pub const NO_INTERVAL: &str =
        "No se escribió ningún plazo de la etiqueta. Léela antes de que entre nadie.";
    pub const OVER: &str = "Este plazo ha pasado. Quita el aviso antes de que entre nadie.";
    pub const MEANWHILE: &str = "Antes, solo como permitan la etiqueta y la norma local, con el equipo de protección de la etiqueta. Niños y animales, nunca.";
    pub const GONE: &str = "Ese tratamiento ya no está en el libro.";

    /// "hasta las 14:10 del 11 de marzo de 2027".
    #[must_use]
    pub fn until(clock: &str, day: &str) -> String {
        format!("hasta las {clock} del {day}")
    }
}

/// "Empezado a las 10:42."
#[must_use]
pub fn since(clock: &str) -> String {
    format!("Empezado a las {clock}.")
}

/// What the Round says of a place nobody goes into yet.
#[must_use]
pub fn place_bound(label: &str, until: &str) -> String {
    format!(
        "No entrar {}: {label}. Antes, solo como permitan la etiqueta y la norma local, con el equipo de protección de la etiqueta.",
        super::bath::up_to(until)
    )
}

/// What the Round says of plants nobody touches yet.
#[must_use]
pub fn lots_bound(label: &str, until: &str) -> String {
    format!("No tocar {}: {label}.", super::bath::up_to(until))
}

pub mod pair {
    //! Two products: in one tank, or one after the other.

    use chrono::NaiveDate;
    use velamen_core::event::AgentClass;

    use super::{format, treat};

    pub const TANK: &str = "Un segundo producto en el mismo tanque";
    pub const TANK_HINT: &str =
        "Solo donde lo permitan las dos etiquetas, como se escribió de ellas en el Almacén.";
    pub const ADD: &str = "Añadir un segundo producto";
    pub const ONLY_ONE: &str = "Un solo producto";
    pub const THEN: &str = "Otro tratamiento después de este";
    pub const THEN_HINT: &str = "Contra otra cosa: pasa a ser una tarea de la Ronda.";
    pub const THEN_WITH: &str = "Con";
    pub const DAYS: &str = "Días después de este";
    pub const DAYS_OWN: &str = "Tuyos: nada de lo que hay aquí pide un tiempo entre los dos.";
    pub const DAYS_ASKED: &str =
        "Tan separados como piden los dos; sus etiquetas pueden pedir más.";
    pub const TOO_SOON: &str = "Es antes de lo que piden los dos.";
    pub const NONE: &str = "Ninguno";

    /// The task on the Round.
    #[must_use]
    pub fn task(product: &str, against: Option<AgentClass>) -> String {
        match against {
            Some(against) => format!(
                "Tratar contra {}: {product}",
                treat::agent(against).to_lowercase()
            ),
            None => format!("Tratar con {product}"),
        }
    }

    /// "Toca el jueves."
    #[must_use]
    pub fn due(on: NaiveDate, today: NaiveDate) -> String {
        format!("Toca {}.", format::near_day(on, today))
    }

    /// "4 mL de Spinosad en la misma agua."
    #[must_use]
    pub fn also(figure: &str, unit: &str, product: &str) -> String {
        format!("{figure} {unit} de {product} en la misma agua.")
    }
}
