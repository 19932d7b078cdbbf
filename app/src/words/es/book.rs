//! Entries as sentences.

use velamen_core::event::{
    BookSet, ClosedHow, Event, GainWhy, Method, PlaceSet, Source, SplitWhy, TaskAnswer, Treated,
    TreatedPart, WithdrawWhy,
};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::season::Hemisphere;
use velamen_core::view::book_sieve::Kind;

use super::format::{counted, full_day, litres};
use super::{apart, clean, climate, measure, shed, task, trade};

pub const HAND_OVER: &str = "Entregar o recibir";
pub const SHED: &str = "El Almacén";
pub const MORE: &str = "Ver anteriores";
/// The key at the end of what is drawn of the list.
pub const MORE_ROWS: &str = "Más de estas";
pub const AMENDED: &str = "corregida";
pub const LOCKED: &str =
    "La escribió una versión más nueva. Se conserva, y se verá tras una actualización.";
pub const KEPT: &str = "El navegador ha prometido conservar el libro.";
pub const NOT_KEPT: &str = "El navegador puede borrar el libro si falta espacio. Pon el programa en la pantalla de inicio y entrega a menudo.";
pub const FILES: &str = "Entregar, recibir";
pub const HAND_OVER_HINT: &str = "En un archivo, sin las fotos. Sin frase de paso, lo puede leer cualquiera que tenga el archivo.";
pub const SAVE: &str = "Guardar como archivo";
pub const SHARE: &str = "Compartir";
pub const TAKE_IN_HINT: &str = "Archivos de otros teléfonos de este vivero, varios a la vez si quieres. Primero ves lo que traerían.";
pub const CHOOSE_FILE: &str = "Elegir un archivo";
pub const CHOOSE_FILES: &str = "Elegir archivos";
pub const READING: &str = "Leyendo el archivo";
pub const TAKE_IN: &str = "Recibirlo";

pub const LOOK_FOR: &str = "Buscar";
pub const WHICH_LOT: &str = "Un lote, por nombre o código";
pub const AT_PLACE: &str = "En un lugar";
pub const AT_PLACE_HINT: &str = "Lo que se hizo allí, y a los lotes que ahora están allí.";
pub const ANY_PLACE: &str = "En cualquiera";
pub const KIND: &str = "Qué pasó";
pub const ANY_KIND: &str = "Todo";
pub const SLIPS: &str = "Ver deslices";
pub const SLIPS_HINT: &str = "Lo que se deshizo al momento, y cómo se deshizo.";
pub const NARROWED: &str = "Solo se ve una parte.";
pub const SHOW_ALL: &str = "Ver todo";
pub const NOTHING_FOUND: &str = "En el libro no hay nada así.";

/// A kind of event, as a choice.
#[must_use]
pub fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Lots => "Lotes y recuentos",
        Kind::Potting => "Trasplantes",
        Kind::Water => "Riego y abono",
        Kind::Treated => "Tratamientos",
        Kind::Seen => "Visto",
        Kind::Work => "Tareas",
        Kind::Shed => "Almacén y vivero",
        Kind::PutRight => "Correcciones",
    }
}

/// When and by which phone something was recorded.
#[must_use]
pub fn recorded(minute: &str, phone: &str) -> String {
    if phone.is_empty() {
        minute.to_owned()
    } else {
        format!("{minute} · {phone}")
    }
}

/// What an entry says beyond the sentences shown.
#[must_use]
pub fn more_said(count: usize) -> String {
    format!("y {count} más")
}

/// One event as a sentence, with lots and places as the caller calls them.
#[must_use]
pub fn event(
    event: &Event,
    lots: &dyn Fn(LotId) -> String,
    places: &dyn Fn(PlaceId) -> String,
) -> String {
    let number =
        |plants: u32, stands: u32| trade::plants_in_pots(i64::from(plants), i64::from(stands));
    match event {
        Event::BookOpened(it) => format!("Se abrió el libro de {}.", it.nursery),
        Event::BookSet(it) => book_set(it),
        Event::PhoneJoined(it) => format!(
            "Se unió un teléfono; sus códigos empiezan por {}.",
            it.prefix
        ),
        Event::PhoneLeft(it) if it.note.is_empty() => "Se quitó un teléfono del libro.".to_owned(),
        Event::PhoneLeft(it) => format!("Se quitó un teléfono del libro: {}.", it.note),
        Event::PlaceSet(it) => place_set(it, places),
        Event::PotSet(it) => match (&it.name, it.retired) {
            (_, Some(true)) => "Una maceta ya no se usa.".to_owned(),
            (Some(name), _) => format!("Maceta: {name}."),
            (None, _) => "Se volvió a medir una maceta.".to_owned(),
        },
        Event::MixSet(it) => match (&it.name, it.retired) {
            (_, Some(true)) => "Un sustrato ya no se usa.".to_owned(),
            (Some(name), _) => format!("Sustrato: {name}."),
            (None, _) => "Se cambió un sustrato.".to_owned(),
        },
        Event::ClimateRead(it) => {
            let day = it.read_on.map(|on| format!(" el {}", full_day(on)));
            let (place, said) = (places(it.place), climate::reading(&it.reading()));
            format!("{place}: {said}{}.", day.unwrap_or_default())
        }
        Event::MeasureSet(it) => measure::set(it),
        Event::ProductSet(it) => super::product::set(it),
        Event::ContainerSet(it) => super::containers::set(it),
        Event::ContainerCounted(it) => super::containers::counted_again(it),
        Event::ContainerUsed(it) => super::containers::used(it),
        Event::BathTopped(it) => super::bath_life::topped(it),
        Event::BathEnded(_) => super::bath_life::ENDED.to_owned(),
        Event::FeedSet(it) => super::water::feed_set(it),
        Event::Watered(it) => super::water::watered(it, lots, places),
        Event::Fed(it) => super::water::fed(it, lots, places),
        Event::GroupSet(_) => "Se cambiaron las épocas de un grupo de plantas.".to_owned(),
        Event::PriceSet(it) => super::prices::set(it),
        Event::RotationSet(_) => "Se cambiaron las reglas para alternar productos.".to_owned(),
        Event::LotReceived(it) => format!(
            "{}: {}, {}.",
            lots(it.lot),
            number(it.plants, it.stands),
            source(it.source)
        ),
        Event::LotSplit(it) => format!(
            "{}: se separa de {}, {}, {}.",
            lots(it.lot),
            lots(it.from),
            number(it.plants, it.stands),
            split(it.why)
        ),
        Event::LotNamed(it) => format!(
            "{}: ahora se llama {}.",
            lots(it.lot),
            trade::name_plain(&it.name)
        ),
        Event::LotCoded(it) => format!("{}: recibe el código {}.", lots(it.lot), it.code),
        Event::Moved(it) => format!("{}: pasa a {}.", lots(it.lot), places(it.to)),
        Event::Counted(it) => format!(
            "{}: recuento, {} (el libro decía {}).",
            lots(it.lot),
            number(it.plants, it.stands),
            trade::plants_in_pots(it.believed_plants, it.believed_stands)
        ),
        Event::Lost(it) => {
            format!(
                "{}: bajas, {}, {}.",
                lots(it.lot),
                number(it.plants, it.stands),
                trade::cause(it.cause).to_lowercase()
            )
        }
        Event::Sold(it) if it.to.is_empty() => {
            format!("{}: venta, {}.", lots(it.lot), number(it.plants, it.stands))
        }
        Event::Sold(it) => format!(
            "{}: venta, {}, a {}.",
            lots(it.lot),
            number(it.plants, it.stands),
            it.to
        ),
        Event::Reserved(it) => {
            let plants = trade::plants(i64::from(it.plants));
            let until = it.until_on.map(|on| format!(", hasta el {}", full_day(on)));
            let until = until.unwrap_or_default();
            if it.to.is_empty() {
                format!("{}: guardar {plants}{until}.", lots(it.lot))
            } else {
                format!("{}: guardar {plants} para {}{until}.", lots(it.lot), it.to)
            }
        }
        Event::Released(it) => format!(
            "{}: {} sin guardar ya.",
            lots(it.lot),
            trade::plants(i64::from(it.plants))
        ),
        Event::Gained(it) => format!(
            "{}: {} más, {}.",
            lots(it.lot),
            number(it.plants, it.stands),
            gain(it.why)
        ),
        Event::Repotted(it) => format!(
            "{}: cambio de maceta, {}.",
            lots(it.lot),
            in_pot(i64::from(it.stands), &it.potting.pot_name)
        ),
        Event::DivisionPlanned(it) => {
            let of: Vec<String> = it.lots.iter().map(|lot| lots(*lot)).collect();
            super::cut::planned(it, &of.join(", "))
        }
        Event::DivisionOpened(it) => {
            let from: Vec<String> = it.lots.iter().map(|opened| lots(opened.lot)).collect();
            let from = if from.is_empty() {
                trade::name_plain(&it.name)
            } else {
                from.join(", ")
            };
            let pots = trade::pots(i64::try_from(it.pots()).unwrap_or(0));
            format!(
                "A la mesa con la marca de bandeja {}: {from}, {pots}.",
                it.tray
            )
        }
        Event::PiecesTaken(it) if it.plants == 0 => {
            let bulbs = i64::from(it.bulbs.unwrap_or(0));
            format!("{}.", counted(bulbs, "bulbo contado", "bulbos contados"))
        }
        Event::PiecesTaken(it) => {
            let came = if it.plants == 1 { "salió" } else { "salieron" };
            format!(
                "{}: {came} {}.",
                trade::class(it.class),
                trade::pieces(i64::from(it.plants))
            )
        }
        Event::PiecesPotted(it) => {
            let mix = velamen_core::quantity::Volume::from_ul(it.potting.mix_ul);
            let mix = if it.potting.mix_ul > 0 {
                format!(", {} de sustrato", litres(mix))
            } else {
                String::new()
            };
            let pot = in_pot(i64::from(it.stands), &it.potting.pot_name);
            format!(
                "{}: {} en maceta como {}, {pot}{mix}.",
                trade::class(it.class),
                it.plants,
                it.code
            )
        }
        Event::DivisionClosed(it) => match it.how {
            ClosedHow::Done => format!(
                "Una mata terminada; {} por lavar.",
                trade::pots(i64::from(it.dirty_pots))
            ),
            ClosedHow::PutBack => "Una mata se devolvió entera.".to_owned(),
        },
        Event::HygieneConfirmed(_) => "Herramientas y guantes limpios.".to_owned(),
        Event::Sanitised(it) => clean::sanitised(it),
        Event::MaterialsMoved(it) => clean::moved(it),
        Event::Treated(it) => treated(it, lots),
        Event::Found(it) => match it.on {
            velamen_core::event::SeenOn::Lot(lot) => {
                format!("{}: {}.", lots(lot), trade::sign(&it.sign).to_lowercase())
            }
            velamen_core::event::SeenOn::Place(place) => format!(
                "{}: {}.",
                places(place),
                trade::sign(&it.sign).to_lowercase()
            ),
            velamen_core::event::SeenOn::Clump(_) => {
                format!("En la mesa: {}.", trade::sign(&it.sign).to_lowercase())
            }
        },
        Event::QuarantineEntered(it) => format!(
            "{}: entra en cuarentena, {}.",
            lots(it.lot),
            apart::lowered(&apart::why(it.why, None))
        ),
        Event::QuarantineReleased(it) => {
            let early = if it.early.is_empty() {
                ""
            } else {
                ", antes de tiempo"
            };
            format!("{}: sale de la cuarentena{early}.", lots(it.lot))
        }
        Event::VirusTested(it) => {
            let (virus, said) = (apart::virus(it.virus), apart::result(it.result));
            format!(
                "{}: prueba de {}, {}.",
                lots(it.lot),
                apart::lowered(virus),
                said.to_lowercase()
            )
        }
        Event::Observed(it) => format!(
            "{}: {}.",
            lots(it.lot),
            trade::sight(it.what).to_lowercase()
        ),
        Event::TaskDecided(it) => {
            let what = task::kind(it.kind);
            let of = match it.task.subject {
                velamen_core::id::Subject::Lot(lot) => format!("{}: ", lots(lot)),
                _ => String::new(),
            };
            let became = match it.answer {
                TaskAnswer::Done { outcome } => task::done(what, it.kind, outcome, &it.why)
                    .unwrap_or_else(|| task::then(what, "hecho")),
                TaskAnswer::PutOff { to } => {
                    let put_off = format!("aplazado al {}", full_day(to));
                    let put_off = task::then(what, &put_off);
                    if it.why.is_empty() {
                        put_off
                    } else {
                        format!("{put_off}: {}", it.why)
                    }
                }
                TaskAnswer::NotNeeded => task::then(what, "no hace falta"),
            };
            format!("{of}{became}.")
        }
        Event::TaskNoted(it) => format!("Para hacer el {}: {}.", full_day(it.due_on), it.text),
        Event::ProtocolAdopted(it) => format!(
            "Protocolo «{}», revisión {}.",
            protocol(&it.content.key),
            it.revision
        ),
        Event::ClockCorrected(_) => "Se puso en hora el reloj de un teléfono.".to_owned(),
        Event::Amended(it) => format!("Corregido: {}", self::event(&it.event, lots, places)),
        Event::Withdrawn(it) => match it.why {
            WithdrawWhy::Restored => "Se restableció una entrada.".to_owned(),
            WithdrawWhy::Undone => "Deshecho.".to_owned(),
            WithdrawWhy::Mistake | WithdrawWhy::Twice => "Se retiró una entrada.".to_owned(),
        },
        Event::Settled(_) => "Se resolvió una pregunta: está bien como está.".to_owned(),
    }
}

fn book_set(it: &BookSet) -> String {
    let said = [
        it.nursery
            .as_ref()
            .map(|name| format!("el vivero se llama {name}")),
        it.hemisphere.map(|half| match half {
            Hemisphere::North => "al norte del ecuador".to_owned(),
            Hemisphere::South => "al sur del ecuador".to_owned(),
        }),
        it.latitude_cdeg.map(|_| "la latitud".to_owned()),
        it.poisons_number
            .as_ref()
            .map(|number| format!("teléfono de toxicología {number}")),
        it.operator_number
            .as_ref()
            .map(|number| format!("número de operador {number}")),
        it.record
            .as_ref()
            .map(|_| "lo que tiene que contener el registro de tratamientos".to_owned()),
        it.mix_open
            .as_ref()
            .map(|open| in_use("el saco de sustrato en uso", &open.batch)),
        it.stone_open
            .as_ref()
            .map(|load| in_use("la carga de piedra en uso", load)),
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    format!("Sobre el vivero: {}.", said.join(", "))
}

fn in_use(what: &str, batch: &str) -> String {
    if batch.is_empty() {
        format!("{what} ya no se anota")
    } else {
        format!("{what} es {batch}")
    }
}

fn place_set(it: &PlaceSet, places: &dyn Fn(PlaceId) -> String) -> String {
    if it.retired == Some(true) {
        return format!("{}: ya no se usa.", places(it.place));
    }
    let said = [
        it.warmth.map(|warmth| shed::warmth(warmth).to_lowercase()),
        it.cover.map(|cover| shed::cover(cover).to_lowercase()),
        it.shade.map(|shade| shed::shade(shade).to_lowercase()),
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    match (&it.name, said.is_empty()) {
        (Some(name), true) => format!("Lugar: {name}."),
        (Some(name), false) => format!("Lugar: {name}, {}.", said.join(", ")),
        (None, false) => format!("{}: {}.", places(it.place), said.join(", ")),
        (None, true) if it.walk.is_some() => {
            format!("{}: otro puesto en el recorrido.", places(it.place))
        }
        (None, true) => format!("{}: cambiado.", places(it.place)),
    }
}

fn treated(it: &Treated, lots: &dyn Fn(LotId) -> String) -> String {
    let parts: Vec<String> = it
        .parts
        .iter()
        .map(|part| match part {
            TreatedPart::Lot { lot, plants } => {
                format!("{}, {}", lots(*lot), trade::plants(i64::from(*plants)))
            }
            TreatedPart::Pieces { class, plants, .. } => format!(
                "{} en la mesa ({})",
                trade::pieces(i64::from(*plants)),
                trade::class(*class).to_lowercase()
            ),
        })
        .collect();
    let how = method(it.method);
    let product = &it.product.label_name;
    if parts.is_empty() {
        format!("{how} con {product}.")
    } else {
        format!("{how} con {product}: {}.", parts.join("; "))
    }
}

fn in_pot(stands: i64, pot: &str) -> String {
    if pot.is_empty() {
        trade::pots(stands)
    } else {
        format!("{} de {pot}", trade::pots(stands))
    }
}

fn source(source: Source) -> &'static str {
    match source {
        Source::Here => "ya estaba aquí",
        Source::Bought => "comprado",
        Source::Exchanged => "de intercambio",
        Source::Seed => "de semilla",
        Source::Flask => "de frasco",
    }
}

fn split(why: SplitWhy) -> &'static str {
    match why {
        SplitWhy::Moved => "por traslado",
        SplitWhy::Quarantined => "para apartarlo",
        SplitWhy::Ill => "por enfermedad",
        SplitWhy::Sorted => "por selección",
    }
}

fn gain(why: GainWhy) -> &'static str {
    match why {
        GainWhy::Offshoot => "por hijuelos",
        GainWhy::CameApart => "al separarse",
        GainWhy::Returned => "de vuelta",
        GainWhy::Found => "al encontrarse",
    }
}

/// How a product met the plants.
#[must_use]
pub fn method(method: Method) -> &'static str {
    match method {
        Method::Bath => "Baño",
        Method::Plunge => "Inmersión",
        Method::Drench => "Riego dirigido",
        Method::Spray => "Pulverización",
        Method::Swab => "Toque con torunda",
        Method::DustCut => "Espolvoreo de cortes",
    }
}

/// A built-in protocol's name; the grower's own stands as typed.
#[must_use]
pub fn protocol(key: &str) -> String {
    match key {
        "after_dividing" => "Tras dividir".to_owned(),
        "after_potting_on" => "Tras cambiar de maceta".to_owned(),
        "next_repot" => "Próximo trasplante de lo que está aquí".to_owned(),
        "after_treatment" => "Tras un tratamiento".to_owned(),
        "bring_to_the_bench" => "Llevar a la mesa".to_owned(),
        "after_finding" => "Tras un hallazgo".to_owned(),
        own => own.to_owned(),
    }
}
