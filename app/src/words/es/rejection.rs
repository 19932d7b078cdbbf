//! Why the book refuses, in the grower's words: what is wrong, and what to do.

use velamen_core::name::NameFault;
use velamen_core::potting::PottingRejection;
use velamen_core::quantity::QuantityError;
use velamen_core::rejection::{Caution, Input, Rejection};
use velamen_core::task::ProtocolFault;
use velamen_core::text::TextFault;

use super::format::{full_day, short_day};
use super::trade;

fn input(input: Input) -> &'static str {
    match input {
        Input::Nursery => "el nombre del vivero",
        Input::Name => "el nombre",
        Input::Code => "el código",
        Input::Plants => "el número de plantas",
        Input::Pots => "el número de macetas",
        Input::Pieces => "el número de piezas",
        Input::Note => "la nota",
        Input::Text => "el texto",
        Input::Date => "el día",
        Input::Latitude => "la latitud",
        Input::Walk => "el orden en el recorrido",
        Input::Tray => "la marca de bandeja",
        Input::Pot => "la maceta",
        Input::Mix => "el sustrato",
        Input::Rate => "la cantidad",
        Input::Photo => "las fotos",
        Input::Good => "lo bueno que fue",
        Input::Person => "la persona",
        Input::Soak => "los minutos de remojo",
        Input::Active => "la materia activa",
        Input::Threshold => "la parte de plantas, de cada cien",
        Input::Severity => "lo grave que es",
        Input::Test => "lo que dijo la prueba",
        Input::KeepMonths => "los meses que se guarda un registro",
        Input::Stone => "los litros de piedra",
        Input::Strength => "la concentración",
        Input::Tools => "el número de herramientas",
        Input::Measure => "el medidor",
        Input::Coordinates => "los grados de latitud o longitud",
        Input::Water => "el agua de la cubeta",
        Input::Container => "lo que cabe en un envase",
        Input::Days => "los días entre medias",
        Input::Nitrogen => "el nitrógeno, en mg por litro",
        Input::Injector => "el ajuste del inyector",
        Input::Ec => "la conductividad, en µS/cm",
        Input::Feed => "los abonos",
        Input::Lots => "los lotes",
        Input::Price => "el precio",
        Input::Size => "el tamaño, en piezas, litros o kilos",
        Input::Money => "el signo o la palabra de tu moneda",
    }
}

fn text(fault: &TextFault, field: &str) -> String {
    match fault {
        TextFault::TooLong { max, found } => {
            format!("Acorta {field}: tiene {found} caracteres, y caben {max}.")
        }
        TextFault::ControlCharacter { at } => {
            format!(
                "Escribe otra vez {field}: el carácter {} no se puede guardar.",
                at + 1
            )
        }
    }
}

/// The unit of a range, where the name of what is typed does not say it.
fn unit(input: Input) -> &'static str {
    match input {
        Input::Measure => " mL o g",
        Input::Container => " L o kg",
        Input::Water => " L",
        _ => "",
    }
}

/// The refusal as a sentence.
#[must_use]
pub fn say(no: &Rejection) -> String {
    match no {
        Rejection::NoBook => "Aún no hay ningún libro en este teléfono.".to_owned(),
        Rejection::BookAlreadyOpen => "Ya hay un libro en este teléfono.".to_owned(),
        Rejection::PhoneNotJoined => {
            "Este teléfono aún no se ha unido al libro. Únelo en el Almacén, en «Este teléfono»."
                .to_owned()
        }
        Rejection::NotInTheBook { .. } => {
            "El libro no conoce eso. Puede que se haya retirado.".to_owned()
        }
        Rejection::NeedsNewerVersion { .. } => {
            "Una versión más nueva escribió sobre esto. Actualiza primero el programa en este teléfono."
                .to_owned()
        }
        Rejection::Missing { input: field } => format!("Indica {}.", input(*field)),
        Rejection::BadText {
            input: field,
            fault,
        } => text(fault, input(*field)),
        Rejection::BadName(fault) => name(fault),
        Rejection::BadPot(fault) => pot(fault),
        Rejection::BadRate(fault) => super::treat::rate_fault(fault),
        Rejection::TooMany { input: field, most } => {
            format!("Demasiado: para {}, el máximo es {most}.", input(*field))
        }
        Rejection::OutOfRange {
            input: field,
            least,
            most,
        } => {
            format!("Para {}, elige de {least} a {most}{}.", input(*field), unit(*field))
        }
        Rejection::DayOutOfRange { first, last } => {
            format!(
                "Elige un día entre el {} y el {}.",
                full_day(*first),
                full_day(*last)
            )
        }
        Rejection::NothingToDo => "Nada cambiaría.".to_owned(),
        Rejection::MoreThanThereAre { plants, stands, .. } => {
            format!(
                "Solo hay {}.",
                trade::plants_in_pots(*plants, *stands)
            )
        }
        Rejection::MoreThanFree { free, reserved, .. } => format!(
            "Libres solo hay {free}: {reserved} están guardadas para alguien. Vende esas desde donde están guardadas, o deja libres algunas."
        ),
        Rejection::NotReserved => "Ya no están guardadas: se vendieron o quedaron libres.".to_owned(),
        Rejection::AllOnTheBench { .. } => "Todo este lote está ya en la mesa.".to_owned(),
        Rejection::LotTwice { .. } => "Ese lote está elegido dos veces.".to_owned(),
        Rejection::ClumpClosed => "Esta mata ya está terminada.".to_owned(),
        Rejection::MorePottedThanPieces {
            class,
            taken,
            potted,
        } => format!(
            "{}: irían a maceta {potted}, pero salieron {taken}. Cuenta antes otra vez las piezas.",
            trade::class(*class)
        ),
        Rejection::FewerThanPotted { class, potted } => {
            format!("{}: ya hay {potted} en maceta.", trade::class(*class))
        }
        Rejection::PiecesBare { pieces } => format!(
            "Aún sin maceta: {}. Pon en maceta lo que queda, o cuéntalo como tirado.",
            trade::pieces(i64::try_from(*pieces).unwrap_or(i64::MAX))
        ),
        Rejection::AlreadyCut => {
            "Ya se contaron piezas: no puede volver entera.".to_owned()
        }
        Rejection::CodeTaken { code, .. } => format!("El código {code} está en otro lote."),
        Rejection::NoCodesLeft => "A este teléfono no le quedan códigos.".to_owned(),
        Rejection::TrayInUse { tray } => {
            format!("La marca de bandeja {tray} está junto a otra mata. Toma otra marca.")
        }
        Rejection::FewerThere { stage, left, stone } => super::clean::fewer(*stage, *left, *stone),
        Rejection::KeptApart { freed, stone } => super::virus::kept_apart(*freed, *stone),
        Rejection::Reading(fault) => super::climate::fault(fault),
        Rejection::Protocol(fault) => protocol(fault),
        Rejection::TaskNotOpen => "Eso ya se decidió.".to_owned(),
        Rejection::PutOffToThePast { .. } => "Elige un día posterior a hoy.".to_owned(),
        Rejection::NotTheSameEvent => "Una corrección tiene que quedarse en el mismo lote.".to_owned(),
        Rejection::AlreadyWithdrawn { .. } => "Eso ya se retiró.".to_owned(),
        Rejection::PlaceInUse { lots, .. } => format!(
            "Aquí hay {}. Vacía antes el lugar, o di en el Almacén que ya no se usa.",
            super::format::counted(
                i64::try_from(*lots).unwrap_or(i64::MAX),
                "lote",
                "lotes"
            )
        ),
        Rejection::OthersRestOnIt { entries } if entries.len() == 1 => {
            "Una entrada posterior se apoya en esta. Retíralas juntas, o déjala.".to_owned()
        }
        Rejection::OthersRestOnIt { entries } => format!(
            "{} entradas posteriores se apoyan en esta. Retíralas juntas, o déjala.",
            entries.len()
        ),
        Rejection::MoreAffectedThanLookedAt {
            affected,
            looked_at,
        } => {
            format!("No puede haber {affected} afectadas si se miraron {looked_at}.")
        }
        Rejection::NoMarkBetween => {
            "Entre el mínimo y el máximo no hay ninguna marca. Mira otra vez las tres cifras."
                .to_owned()
        }
        Rejection::InQuarantine { since_on, .. } => format!(
            "Está en cuarentena desde el {}: se queda donde está, y solo. Sácalo antes.",
            full_day(*since_on)
        ),
        Rejection::NotInQuarantine { .. } => "No está en cuarentena.".to_owned(),
        Rejection::QuarantineHolds { .. } => {
            "Aún no se cumple todo. Escribe por qué sale antes de tiempo.".to_owned()
        }
        Rejection::MorePooledThanPlants { pooled, plants } => {
            format!("No puede haber {pooled} plantas en la muestra: el lote tiene {plants}.")
        }
        Rejection::BathOver => super::bath_life::OVER.to_owned(),
        Rejection::OtherUnit { weighs } => super::containers::other_unit(*weighs).to_owned(),
        Rejection::EntryTooLarge => "Demasiado de una vez. Hazlo en dos partes.".to_owned(),
    }
}

fn name(fault: &NameFault) -> String {
    match fault {
        NameFault::Text { fault, .. } => text(fault, "el nombre"),
        NameFault::EmptyPart { .. } => "Una parte del nombre está vacía.".to_owned(),
        NameFault::TooManyRanks { .. } => "El nombre tiene demasiadas partes.".to_owned(),
        NameFault::FormulaTooDeep => {
            "El cruce tiene demasiadas generaciones para un solo nombre.".to_owned()
        }
    }
}

/// What is wrong with a typed amount.
#[must_use]
pub fn quantity(fault: &QuantityError) -> String {
    match fault {
        QuantityError::Empty => "Rellénalo, con su unidad: 17 cm, 170 mm.".to_owned(),
        QuantityError::NoUnit { .. } => "Añade la unidad: 17 cm, 170 mm.".to_owned(),
        QuantityError::Negative | QuantityError::Zero => "Tiene que ser más que nada.".to_owned(),
        QuantityError::TooLarge { .. } => "Eso es demasiado grande.".to_owned(),
        QuantityError::WrongUnit { .. } => {
            "Eso es otra clase de medida. Escribe una longitud: 17 cm, 170 mm.".to_owned()
        }
        _ => "Eso no es una medida. Escribe un número y su unidad: 17 cm, 170 mm.".to_owned(),
    }
}

/// What is wrong with a pot or its layers.
#[must_use]
pub fn pot(fault: &PottingRejection) -> String {
    match fault {
        PottingRejection::NotAboveZero(_) | PottingRejection::BelowZero(_) => {
            "Cada medida de la maceta tiene que ser más que nada.".to_owned()
        }
        PottingRejection::TooLarge(_) => {
            "Eso es mayor que cualquier maceta. Las medidas van en milímetros.".to_owned()
        }
        PottingRejection::BaseWiderThanTop => {
            "La base es más ancha que la boca. Cámbialas entre sí.".to_owned()
        }
        PottingRejection::LayersDeeperThanPot => {
            "La piedra y el hueco de arriba no dejan sitio al sustrato. Pon menos piedra."
                .to_owned()
        }
        PottingRejection::ShapeNotMeasured => {
            "Solo se sabe el agua que cabe. Mide boca, base y altura para usar una capa de piedra."
                .to_owned()
        }
        PottingRejection::DeeperThanTub => "Eso es más hondo que la cubeta.".to_owned(),
        PottingRejection::TooManyPots => {
            "Son más macetas de las que se pueden calcular de una vez.".to_owned()
        }
        PottingRejection::SettlesTooMuch => {
            "Un sustrato que pierde más de la mitad no es sustrato.".to_owned()
        }
        PottingRejection::OutOfRange => "La cantidad es demasiado grande para calcular.".to_owned(),
    }
}

fn protocol(fault: &ProtocolFault) -> String {
    match fault {
        ProtocolFault::NoSteps => "Un protocolo necesita al menos un paso.".to_owned(),
        ProtocolFault::TooManySteps { most } => {
            format!("Un protocolo puede tener {most} pasos.")
        }
        ProtocolFault::SameKeyTwice { .. } => "Dos pasos tienen el mismo nombre.".to_owned(),
        ProtocolFault::KeyUsedBefore { .. } => {
            "El nombre de un paso fue antes de otro trabajo. Añádelo como paso nuevo.".to_owned()
        }
        ProtocolFault::TooFar { most_days, .. } => {
            format!("Un paso puede estar a {most_days} días, no más.")
        }
        ProtocolFault::WindowTurned { .. } => {
            "El día tiene que estar entre el primero y el último de su plazo.".to_owned()
        }
        ProtocolFault::NeverEnds { .. } => {
            "Un paso que se repite necesita al menos un día entre medias, y un final.".to_owned()
        }
        ProtocolFault::EmptyRepeat { .. } => {
            "La última repetición tiene que ser después del primer día del paso.".to_owned()
        }
        ProtocolFault::NoSuchStep { .. } => {
            "Un paso espera a otro que no está en este protocolo.".to_owned()
        }
        ProtocolFault::Loop { .. } => {
            "Un paso se espera a sí mismo: no empezaría nunca.".to_owned()
        }
        ProtocolFault::BadWeather { most_days, .. } => format!(
            "El tiempo que hace puede mover un paso de 1 a {most_days} días, a una temperatura que pueda tener un invernadero."
        ),
        ProtocolFault::BadPriority { .. } => "Un paso va primero, segundo o tercero.".to_owned(),
    }
}

/// Something to think about.
#[must_use]
pub fn caution(caution: &Caution, today: chrono::NaiveDate) -> String {
    match caution {
        Caution::MorePiecesThanBulbs { pieces, bulbs } => format!(
            "{pieces} piezas y solo {bulbs} bulbos contados. Un brote roto no tiene bulbo; ¿está bien la cuenta?"
        ),
        Caution::OutsideWindow { next_opening, .. } => match next_opening {
            Some(opening) => format!(
                "Fuera de su época aquí; empieza el {}. Con el sustrato pasado, o si está enferma, se puede hacer ahora.",
                short_day(*opening, today)
            ),
            None => "Fuera de su época aquí.".to_owned(),
        },
        Caution::FewCleanPots { clean, wanted, .. } => super::clean::few(*clean, *wanted),
        Caution::Suspect { .. } => {
            "Se detectó un virus en él, o en aquello de lo que viene. Díselo a quien lo reciba."
                .to_owned()
        }
        Caution::OutEarly { .. } => "Sale antes de que se cumpla todo.".to_owned(),
        Caution::MoreThanHeld { left, .. } => super::containers::more_than_held(*left),
        Caution::Expired { on, .. } => super::containers::expired(*on),
        Caution::LongAgo { on } => format!("Eso es el {}.", full_day(*on)),
    }
}
