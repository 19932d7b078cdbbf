//! A bath's own words. The cautions are common practice, no source, unless a label or local rule says more.

use velamen_core::bath::{BathFault, Side, TubFault, TubShape};
use velamen_core::event::Method;
use velamen_core::potting::PottingRejection;
use velamen_core::quantity::{Amount, QuantityError};

use super::format::{self, counted, in_litres};
use super::mixing;

pub const MAKE: &str = "Preparar un baño";
pub const IN_HAND: &str = "Baños en curso";
pub const BOTTLE: &str = "El envase";
pub const WHICH: &str = "¿Qué envase?";
pub const ANOTHER: &str = "Otro envase";
pub const CHANGE: &str = "Coger otro envase";
pub const NAME: &str = "Nombre en la etiqueta";
pub const RATE: &str = "La dosis de la etiqueta";
pub const RATE_HINT: &str = "Con las dos unidades: 12,5 mL/10 L, 2 g/L";
pub const RATE_LATER: &str = "Se puede añadir después; hasta entonces no se puede medir nada.";
pub const PHOTO: &str = "Foto de la etiqueta";
pub const PHOTO_HINT: &str = "El resto se puede escribir después a partir de ella.";
pub const TO_THE_SHELF: &str = "Poner en el estante";
pub const ON_THE_SHELF: &str = "envase en el estante";
pub const REASON: &str = "Por qué se hace de todos modos";
pub const SOAK: &str = "Minutos dentro";
pub const SOAK_OF_LABEL: &str = "Como dice su etiqueta.";
pub const SOAK_OWN: &str = "Tuyos: no se escribió ningún tiempo de la etiqueta.";
pub const REENTRY: &str = "Horas hasta tocar sin guantes";
pub const REENTRY_HINT: &str = "Plazo de reentrada o de manipulación de la etiqueta.";
pub const REENTRY_MISSING: &str =
    "Aún no se ha escrito de la etiqueta: hasta entonces no se puede dar ninguna hora.";
pub const WATER: &str = "Agua en la cubeta";
pub const MEASURED_BY: &str = "Se mide por";
pub const SAFETY_FIRST: &str = "Seguridad, luego mezclar";
pub const MEASURE: &str = "Medir";
pub const LAW: &str = "La etiqueta es la ley y manda sobre este programa.";
pub const HALF_FULL: &str = "Con la mitad de agua, la mitad.";
pub const BEFORE: &str = "Antes de abrirlo";
pub const CHANGE_MIX: &str = "Cambiar la mezcla";
pub const BATHED: &str = "ya con baño";
pub const MIXED: &str = "Todo así: mezclado";
pub const PUT_IN: &str = "Lo que entra";
pub const HEALTHY_FIRST: &str = "Primero las piezas sanas, las manchadas al final. Nada con sospecha de virus entra en un baño compartido.";
pub const OTHER_LOTS: &str = "Un lote del libro";
pub const DELAY: &str = "Empieza";
pub const LAST_IN: &str = "Entra la última pieza";
pub const NEXT_IN: &str = "La misma mezcla recibe las piezas siguientes.";
pub const IN_THE_TUB: &str = "En la cubeta";
pub const MINUTE_MORE: &str = "+1 min";
pub const NOT_IN: &str = "No entró nada";
pub const OUT: &str = "Sacar ya";
pub const OUT_WORD: &str = "Fuera";
pub const INTO_CALENDAR: &str = "Aviso en el calendario";

/// The label of the box for so much water.
#[must_use]
pub fn litres() -> &'static str {
    in_litres("Litros", "Galones")
}

/// What a calendar says when the time is up.
#[must_use]
pub fn out_of(product: &str) -> String {
    if product.is_empty() {
        "Sacar del baño".to_owned()
    } else {
        format!("Sacar del baño: {product}")
    }
}

pub const OUT_ON_TIME: &str = "Salió a tiempo";
pub const RINGS: &str = "Suena mientras esta página esté abierta. Ninguna página puede sonar con el teléfono bloqueado: pon también un temporizador de cocina.";
pub const CLOCK_BEHIND: &str = "El reloj del teléfono está en una hora anterior al comienzo de este remojo, así que no puede decir cuánto llevan dentro las piezas. Mira otro reloj y luego sácalas.";
pub const CLOCK_MOVED: &str =
    "El reloj del teléfono se atrasó durante el remojo; se conservó el tiempo que quedaba.";
pub const TAKEN_OUT: &str = "baño";
pub const DRYING: &str = "En la mesa de secado";
pub const DRIPS: &str = "Lo que gotea de ellas es baño gastado: recógelo, con los guantes puestos.";
pub const TO_THE_POTS: &str = "A las macetas";
pub const EMPTY_TUB: &str = "Vaciar la cubeta";
pub const TUB_EMPTY: &str = "cubeta vacía";
pub const EMPTY_TITLE: &str = "La cubeta";
pub const EMPTY_HOW: &str = "Nuevo cada día. El baño gastado va adonde permitan su etiqueta y las normas locales: nunca a un desagüe, una acequia o un estanque. Enjuaga tres veces la cubeta y los medidores.";
pub const EMPTIED: &str = "Está vacía";
pub const GIVE_UP: &str = "Dejar este baño";
pub const KEEP: &str = "Conservarlo";
pub const TABLE_AND_TUB: &str = "Mesa de secado y cubeta";
pub const BOUND: &str = "No tocar hasta";
pub const BATH: &str = "Antes, un baño";
pub const SAME_MIX: &str = "La mezcla de un baño anterior; no se midió nada de nuevo.";

/// Cautions before a bottle is opened, in the order they are seen to.
pub const CAUTIONS: [&str; 5] = [
    "Guantes hasta el codo, gafas de protección cerradas, delantal. Algunos concentrados queman los ojos y llevan disolvente: lee la etiqueta.",
    "Al aire libre o con una puerta ancha abierta. Una mascarilla de polvo no para ningún vapor.",
    "Cubeta y medidores enjuagados; en la cubeta no queda nada que la etiqueta prohíba junto al producto.",
    "Niños, animales de casa, estanques y abejas, lejos; ningún medidor vuelve a la cocina.",
    "Piezas con pinzas o cesta, con los guantes puestos todo el tiempo.",
];

/// An amount to measure and its unit: "25" and "mL".
#[must_use]
pub fn amount(amount: Amount) -> (String, &'static str) {
    match amount {
        Amount::Volume(volume) => format::measured(volume.ul(), "mL", "L"),
        Amount::Mass(mass) => format::measured(mass.mg(), "g", "kg"),
    }
}

/// "mL, y agua hasta 20 L".
#[must_use]
pub fn into_water(unit: &str, litres: &str) -> String {
    format!("{unit}, y agua hasta {litres}")
}

/// "12,5 mL/10 L, para 20 L."
#[must_use]
pub fn how(rate: &str, litres: &str) -> String {
    format!("{rate}, para {litres}.")
}

/// "Cobre: 500 mg en cada litro de baño."
#[must_use]
pub fn active(name: &str, mg: i64) -> String {
    format!("{name}: {mg} mg en cada litro de baño.")
}

/// "En la etiqueta: de 2 g/L a 3 g/L. En blanco cuenta la más baja."
#[must_use]
pub fn label_range(least: &str, most: &str) -> String {
    if least == most {
        format!("En la etiqueta: {least}. En blanco cuenta esa.")
    } else {
        format!("En la etiqueta: de {least} a {most}. En blanco cuenta la más baja.")
    }
}

#[must_use]
pub fn shape(shape: TubShape) -> &'static str {
    match shape {
        TubShape::Litres => litres(),
        TubShape::Rectangle => "Caja",
        TubShape::Round => "Redonda",
        TubShape::TaperedRectangle => "Caja que se estrecha",
        TubShape::TaperedRound => "Redonda que se estrecha",
    }
}

#[must_use]
pub fn side(side: Side) -> &'static str {
    match side {
        Side::Length => "Largo por dentro",
        Side::Width => "Ancho por dentro",
        Side::Across => "Diámetro por dentro",
        Side::BaseLength => "Largo en la base",
        Side::BaseWidth => "Ancho en la base",
        Side::BaseAcross => "Diámetro en la base",
        Side::Height => "Alto de la cubeta",
        Side::Water => "Altura del agua",
    }
}

/// "en 10 s", "ya".
#[must_use]
pub fn delay(seconds: u32) -> String {
    match seconds {
        0 => "ya".to_owned(),
        seconds => format!("en {seconds} s"),
    }
}

/// "4:12", or "1:04:12".
#[must_use]
pub fn digits(seconds: u32) -> String {
    let (hours, minutes, seconds) = (seconds / 3_600, seconds / 60 % 60, seconds % 60);
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}

#[must_use]
pub fn starts(seconds: u32) -> String {
    format!("Cuenta en {seconds} s: mete la última")
}

#[must_use]
pub fn out_at(clock: &str) -> String {
    format!("Sácalas a las {clock}")
}

/// "+1:45", el tiempo que ya pasó de más.
#[must_use]
pub fn overrun(since_s: u32) -> String {
    format!("+{}", digits(since_s))
}

/// "El tiempo acabó hace 12 minutos: sácalas".
#[must_use]
pub fn over(since_s: u32) -> String {
    match since_s {
        0..60 => "Se acabó el tiempo: sácalas".to_owned(),
        since_s => format!("El tiempo acabó hace {}: sácalas", minutes(since_s)),
    }
}

#[must_use]
pub fn minutes(seconds: u32) -> String {
    counted(i64::from(seconds / 60), "minuto", "minutos")
}

/// "Sacar ya · 17 min".
#[must_use]
pub fn lay(label: &str, seconds: u32) -> String {
    format!("{label} · {} min", seconds.saturating_add(30) / 60)
}

/// A bath in the line over the actions: "Baño: quedan 3:12".
#[must_use]
pub fn running(seconds: u32) -> String {
    format!("Baño: quedan {}", digits(seconds))
}

#[must_use]
pub fn to_take_out(since_s: u32) -> String {
    match since_s {
        0..60 => "Baño: sácalas ya".to_owned(),
        since_s => format!("Baño: sácalas, acabó hace {}", minutes(since_s)),
    }
}

#[must_use]
pub fn dips(dips: u32) -> String {
    match dips {
        0 => "aún sin usar".to_owned(),
        dips => format!(
            "{} hasta ahora",
            counted(i64::from(dips), "tanda sacada", "tandas sacadas")
        ),
    }
}

/// "fuera desde las 10:42".
#[must_use]
pub fn drying_since(clock: &str) -> String {
    format!("fuera desde las {clock}")
}

/// A time to wait for, in a sentence: "hasta las 14:10", "hasta el viernes 9:00".
pub(super) fn up_to(until: &str) -> String {
    if until.starts_with("1:") {
        format!("hasta la {until}")
    } else if until.starts_with(|first: char| first.is_ascii_digit()) {
        format!("hasta las {until}")
    } else {
        format!("hasta {until}")
    }
}

/// "Tratado con X. Espera hasta las 14:10, o sigue solo como permitan la etiqueta y la norma local, con el equipo de protección de la etiqueta."
#[must_use]
pub fn bound(label_name: &str, until: &str) -> String {
    format!(
        "Tratado con {label_name}. Espera {}, o sigue solo como permitan la etiqueta y la norma local, con el equipo de protección de la etiqueta.",
        up_to(until)
    )
}

/// What was seen at the bench is what the bath is for.
#[must_use]
pub fn seen(signs: &str) -> String {
    format!("Visto en la mesa: {signs}.")
}

/// "25 mL en 20 L."
#[must_use]
pub fn in_water(amount: &str, unit: &str, litres: &str) -> String {
    format!("{amount} {unit} en {litres}.")
}

#[must_use]
pub fn fault(fault: &BathFault) -> String {
    match fault {
        BathFault::Mix(fault) => mixing::fault(fault, Method::Bath),
        BathFault::NoSoak => "Di cuántos minutos están dentro.".to_owned(),
        BathFault::SoakTooLong => "Dos días es lo máximo que puede durar un remojo.".to_owned(),
        BathFault::Tub(fault) => tub(fault),
        BathFault::NothingIn => "Elige lo que entra: piezas de la mesa, o un lote.".to_owned(),
        BathFault::NotSoaking => "No hay nada dentro.".to_owned(),
        BathFault::VirusShared => "Se sospecha un virus en lo que elegiste: no entra en ningún baño que compartan otros. Dale uno nuevo para él solo, que se tira después.".to_owned(),
        BathFault::AfterVirus => "En este baño estuvo un sospechoso de virus: no entra nada más. Vacía la cubeta.".to_owned(),
    }
}

#[must_use]
pub fn tub(fault: &TubFault) -> String {
    match fault {
        TubFault::Missing(None) => "Escribe los litros de agua.".to_owned(),
        TubFault::Missing(Some(side)) => format!("Mide: {}.", self::side(*side).to_lowercase()),
        TubFault::Unreadable(None, fault) => volume(fault),
        TubFault::Unreadable(Some(side), fault) => {
            let side = self::side(*side);
            match fault {
                QuantityError::Negative => format!("{side}: tiene que ser más de cero."),
                _ => format!("{side}: escribe una longitud, como 60 cm o 24 in."),
            }
        }
        TubFault::Impossible(PottingRejection::DeeperThanTub) => {
            "El agua llega más alto que la cubeta.".to_owned()
        }
        TubFault::Impossible(_) => {
            "Cada medida de la cubeta tiene que ser más de cero, y ninguna de más de 5 m."
                .to_owned()
        }
        TubFault::Empty => "Aún no hay agua en ella.".to_owned(),
        TubFault::TooMuch => "2 000 litros es lo máximo para una cubeta.".to_owned(),
    }
}

fn volume(fault: &QuantityError) -> String {
    match fault {
        QuantityError::Negative | QuantityError::Zero => {
            "El agua tiene que ser más de cero.".to_owned()
        }
        QuantityError::AmbiguousUnit { .. } => {
            "¿De qué país es el galón o la pinta? Escribe US gal o imp gal, o usa litros."
                .to_owned()
        }
        QuantityError::TooLarge { .. } => "2 000 litros es lo máximo para una cubeta.".to_owned(),
        _ => "Escribe el agua como cantidad: 20 L, 5 US gal.".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_countdown_reads_like_a_clock() {
        assert_eq!(digits(252), "4:12");
        assert_eq!(digits(9), "0:09");
        assert_eq!(digits(3_852), "1:04:12");
    }

    #[wasm_bindgen_test]
    fn a_time_to_wait_for_is_an_hour_or_a_day() {
        assert_eq!(up_to("14:10"), "hasta las 14:10");
        assert_eq!(up_to("1:10"), "hasta la 1:10");
        assert_eq!(up_to("el viernes 9:00"), "hasta el viernes 9:00");
    }

    #[wasm_bindgen_test]
    fn an_amount_keeps_the_digits_a_measure_has() {
        use velamen_core::quantity::{Mass, Volume};
        let ml = |ul| amount(Amount::Volume(Volume::from_ul(ul)));
        assert_eq!(ml(12_500), ("12,5".to_owned(), "mL"));
        assert_eq!(ml(25_000), ("25".to_owned(), "mL"));
        assert_eq!(ml(312), ("0,312".to_owned(), "mL"));
        assert_eq!(ml(3_126), ("3,13".to_owned(), "mL"));
        assert_eq!(ml(1_250_000), ("1,25".to_owned(), "L"));
        assert_eq!(amount(Amount::Mass(Mass::from_mg(40_000))).1, "g");
    }
}
