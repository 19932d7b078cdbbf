//! What the book asks, in words: what does not agree, who said what, and what can be answered.

use velamen_core::id::{ContainerId, Dev, LotId};
use velamen_core::state::{Anomaly, FieldKey};

use super::format::counted;
use super::trade;

pub const QUESTIONS: &str = "Preguntas";
pub const HINT: &str =
    "Donde los teléfonos se contradicen, el libro pregunta. Nada se resuelve en silencio.";
pub const NONE: &str = "Sin preguntas. El libro concuerda consigo mismo.";
pub const RIGHT_AS_IT_IS: &str = "Está bien como está";
pub const THIS_ONE: &str = "Esta es la buena";
pub const SETTLED: &str = "Resuelto.";
pub const SAID_AGAIN: &str = "Dicho otra vez; la pregunta está respondida.";
pub const CLOCK_SET: &str = "Sus horas están corregidas.";
pub const NOT_JOINED: &str = "Este teléfono se copió de otro, o se quitó del libro, y no se ha unido al libro con un nombre propio. Hasta que lo haga, no se puede anotar nada en él.";
pub const JOIN: &str = "Unirse al libro";
pub const JOINED: &str = "Unido. Los códigos de este teléfono empiezan ahora por letras propias.";
const HOUR_MS: i64 = 3_600_000;
pub const COUNTS_NOW: &str = "es lo que cuenta ahora";

/// A question in words.
#[must_use]
pub fn question(
    anomaly: &Anomaly,
    lot: &dyn Fn(LotId) -> String,
    phone: &dyn Fn(Dev) -> String,
    product: &dyn Fn(ContainerId) -> String,
) -> String {
    match anomaly {
        Anomaly::Overdrawn { lot: id, plants, stands } => format!(
            "De {} salió más de lo que había: el libro llega a {} en {}. Cuenta lo que hay.",
            lot(*id),
            trade::plants(*plants),
            trade::pots(*stands)
        ),
        Anomaly::ReservedTooMany {
            lot: id,
            plants,
            reserved,
            ..
        } => format!(
            "De {} hay {reserved} guardadas para alguien, pero solo están {plants}. Deja libres algunas en la página del lote.",
            lot(*id)
        ),
        Anomaly::CountCrossed { lot: id, .. } => format!(
            "{}: un recuento y un cambio no sabían uno del otro. ¿El cambio fue antes o después del recuento? Si dudas, cuenta otra vez.",
            lot(*id)
        ),
        Anomaly::Disputed { field, .. } => {
            format!("Dos teléfonos dijeron cosas distintas sobre {}. ¿Cuál es la buena?", field_name(*field))
        }
        Anomaly::PottedMoreThanTaken { class, taken, potted, .. } => format!(
            "{}: en maceta, {potted}; pero de la mata salieron {taken}.",
            trade::class(*class)
        ),
        Anomaly::CodeTwice { code, lots } => format!(
            "El código {code} está en {} lotes. Dale a uno de ellos otro código y una etiqueta nueva.",
            lots.len()
        ),
        Anomaly::PrefixTwice { prefix, phones } => format!(
            "{} códigos que empiezan por {prefix}. Mira las etiquetas de los lotes nuevos: un código puede estar dos veces.",
            counted(i64::try_from(phones.len()).unwrap_or(i64::MAX), "teléfono da", "teléfonos dan")
        ),
        Anomaly::RestsOnWithdrawn { .. } => {
            "Una entrada se apoya en algo que se retiró. Retírala también, o restablece aquello en que se apoya.".to_owned()
        }
        Anomaly::ContainerOverdrawn { container, .. } => {
            super::containers::overdrawn(&product(*container))
        }
        Anomaly::ClockAstray {
            dev,
            from_seq,
            to_seq,
            off_ms,
        } => {
            let these = if from_seq == to_seq {
                "esta entrada"
            } else {
                "estas entradas, de la primera a la última"
            };
            format!(
                "El reloj {} iba {} al escribir {these}. Pon en hora su reloj; el orden de las entradas queda como está.",
                of(&phone(*dev)),
                clock_off(*off_ms)
            )
        }
        Anomaly::WroteAfterLeaving { dev, .. } => format!(
            "Después de quitar del libro {}, ese teléfono siguió escribiendo. Si fuiste tú o alguien tuyo, está bien como está; si no, retira lo que escribió.",
            phone(*dev)
        ),
        Anomaly::PhoneCopied { .. } => {
            "Un teléfono se copió junto con su libro, y los dos siguieron escribiendo. Los dos se conservan, cada uno con un nombre propio.".to_owned()
        }
    }
}

/// "de un teléfono", "del teléfono B".
fn of(phone: &str) -> String {
    phone
        .strip_prefix("el ")
        .map_or_else(|| format!("de {phone}"), |rest| format!("del {rest}"))
}

/// "cerca de 106 días adelantado", "cerca de 5 horas atrasado".
fn clock_off(off_ms: i64) -> String {
    let way = if off_ms > 0 { "adelantado" } else { "atrasado" };
    format!("{} {way}", about(off_ms))
}

/// A span as a person says it: hours up to two days, then days.
fn about(span_ms: i64) -> String {
    let hours = span_ms.saturating_abs().saturating_add(HOUR_MS / 2) / HOUR_MS;
    let said = if hours < 48 {
        counted(hours, "hora", "horas")
    } else {
        counted((hours + 12) / 24, "día", "días")
    };
    format!("cerca de {said}")
}

/// A phone by the beginning of its codes.
#[must_use]
pub fn phone_called(prefix: &str) -> String {
    if prefix.is_empty() {
        "un teléfono".to_owned()
    } else {
        format!("el teléfono {prefix}")
    }
}

/// The key that sets the times of a run of entries right.
#[must_use]
pub fn shift_clock(shift_ms: i64) -> String {
    if shift_ms < 0 {
        format!("Restar {} a sus horas", about(shift_ms))
    } else {
        format!("Sumar {} a sus horas", about(shift_ms))
    }
}

/// The key that gives a lot another code.
#[must_use]
pub fn another_code(lot: &str, place: &str) -> String {
    if place.is_empty() {
        format!("Otro código para {lot}")
    } else {
        format!("Otro código para {lot}, {place}")
    }
}

/// What is said once a lot has another code.
#[must_use]
pub fn recoded(code: &str) -> String {
    format!("Escribe {code} en su etiqueta.")
}

fn field_name(field: FieldKey) -> &'static str {
    match field {
        FieldKey::Name => "un nombre",
        FieldKey::Code => "un código",
        FieldKey::Place => "dónde está un lote",
        FieldKey::Walk => "el orden del recorrido",
        FieldKey::Nursery => "el nombre del vivero",
        FieldKey::Hemisphere => "el lado del ecuador",
        FieldKey::Latitude => "la latitud",
        FieldKey::Warmth => "el calor de un invernadero",
        FieldKey::Form => "las medidas de una maceta",
        FieldKey::Shares => "lo que lleva un sustrato",
        FieldKey::Rate => "una dosis",
        FieldKey::Uses => "lo que permite una etiqueta",
        FieldKey::Reentry => "las horas hasta la reentrada",
        FieldKey::Actives => "las materias activas de un producto",
        FieldKey::Registration => "el número de registro de un producto",
        FieldKey::Formulation => "la formulación de un producto",
        FieldKey::Protocol => "un protocolo",
        FieldKey::Windows => "las épocas de un grupo",
        FieldKey::Marks => "las marcas de un medidor",
        FieldKey::Batch => "la partida de un envase",
        FieldKey::Expiry => "hasta cuándo vale un envase",
        FieldKey::Held => "lo que cabe en un envase",
        FieldKey::OpenBag => "el saco de sustrato que está en uso",
        FieldKey::OpenLoad => "la carga de piedra que está en uso",
        FieldKey::WaterDays => "los días entre riegos",
        FieldKey::FeedDays => "los días entre abonados",
        FieldKey::Nitrogen => "el nitrógeno de un abono",
        FieldKey::Price => "lo que cuesta algo",
        FieldKey::Money => "el signo de tu moneda",
        FieldKey::Reading => "la mínima y la máxima de un invernadero",
    }
}

/// The key that leads to a lot.
#[must_use]
pub fn open_lot(name: &str) -> String {
    format!("Abrir {name}")
}
