//! One entry: what it says beside its sentence, taking it back, putting it right.

use velamen_core::event::{Event, WithdrawWhy};

use super::format::{counted, full_day};
use super::{apart, seen, signs, treat};

pub const ENTRY: &str = "Una entrada";
pub const NOW: &str = "Como se lee ahora";
pub const FIRST: &str = "Como se anotó al principio";
pub const CORRECT: &str = "Corregir esto";
pub const CORRECTION: &str = "Corregirla";
pub const KEEP: &str = "Guardar la corrección";
pub const CORRECTED: &str = "Corregida. La primera redacción sigue legible.";
pub const CORRECT_HINT: &str =
    "El día no se puede corregir. Si fue otro día, retira la entrada y anótala de nuevo.";
pub const WHY: &str = "Por qué";
pub const WHY_HINT: &str = "Unas palabras para más tarde, como «contado otra vez».";
pub const NAME: &str = "Nombre de la planta";
pub const PLANTS: &str = "Plantas";
pub const POTS: &str = "Macetas";
pub const PLACE: &str = "Lugar";
pub const NOT_SAID: &str = "Sin decir";
pub const NOTE: &str = "Nota";
pub const TAKE_BACK: &str = "Retirar la entrada";
pub const WITHDRAW: &str = "Retirarla";
pub const MISTAKE: &str = "Un error";
pub const TWICE: &str = "Anotada dos veces";
pub const RESTORE: &str = "Restablecerla";
pub const WITHDREW: &str = "Retirada. Se queda en el Libro, tachada.";
pub const RESTORED: &str = "Restablecida.";
pub const WITHDRAW_HINT: &str =
    "No se sobrescribe nada: una entrada retirada sigue legible y ya no cuenta.";
pub const RESTS: &str = "Estas se apoyan en ella";
pub const OPENS_THE_BOOK: &str = "Con esta entrada empieza el libro. No se puede retirar.";

/// The key that withdraws an entry with all that rests on it.
#[must_use]
pub fn withdraw_all(others: usize) -> String {
    let others = i64::try_from(others).unwrap_or(i64::MAX);
    format!(
        "Retirarla con {}",
        counted(others, "entrada posterior", "entradas posteriores")
    )
}

/// Why an entry no longer counts.
#[must_use]
pub fn withdrawn(why: WithdrawWhy) -> &'static str {
    match why {
        WithdrawWhy::Undone => "Deshecha al momento",
        WithdrawWhy::Mistake => "Retirada: un error",
        WithdrawWhy::Twice => "Retirada: anotada dos veces",
        WithdrawWhy::Restored => "Retirada de nuevo",
    }
}

/// What else an event says: notes, reasons, what the label said.
#[must_use]
pub fn beside(event: &Event) -> Vec<String> {
    let mut said: Vec<Option<String>> = Vec::new();
    let text = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    match event {
        Event::LotReceived(it) => said.extend([
            text(&it.from).map(|from| format!("De: {from}.")),
            text(&it.outside_ref).map(|number| format!("Número de origen: {number}.")),
            it.potted_on
                .map(|on| format!("Último trasplante: {}.", full_day(on))),
            text(&it.note),
        ]),
        Event::Lost(it) => said.push(text(&it.note)),
        Event::Sold(it) => said.extend([
            text(&it.passport).map(|passport| format!("Pasaporte fitosanitario {passport}.")),
            text(&it.note),
        ]),
        Event::Gained(it) => said.push(text(&it.note)),
        Event::Reserved(it) => said.push(text(&it.note)),
        Event::DivisionClosed(it) => said.push(text(&it.note)),
        Event::Treated(it) => said.extend([
            Some(treat::against(it.against, it.aim)),
            treat::mixed(it),
            treat::soaked(it),
            treat::in_one_tank(it),
            treat::aired(it),
            super::bath_life::pots(it.pots),
            text(&it.product.rate_typed).map(|rate| format!("Dosis según la etiqueta: {rate}.")),
            it.product.reentry_h.map(treat::reentry),
            text(&it.gear).map(|gear| format!("Equipo: {gear}.")),
            text(&it.person).map(|person| format!("Hecho por {person}.")),
            text(&it.reason),
            text(&it.note),
        ]),
        Event::Sanitised(it) => said.extend([super::clean::mixed(it), text(&it.note)]),
        Event::BathEnded(it) => said.push(super::bath_life::ended_with(it)),
        Event::MaterialsMoved(it) => said.push(text(&it.note)),
        Event::Watered(it) => said.push(text(&it.note)),
        Event::Fed(it) => {
            said.extend(super::water::fed_beside(it));
            said.push(text(&it.note));
        }
        Event::ContainerUsed(it) => said.push(text(&it.note)),
        Event::DivisionOpened(it) => said.extend([
            super::clean::cut_with(it),
            it.plan
                .as_ref()
                .map(|plan| format!("Previsto: {}.", super::cut::plan(plan))),
        ]),
        Event::Found(it) => said.extend([
            text(&signs::part(&it.part)),
            seen::of_looked_at(it.affected, it.looked_at),
            it.severity.map(seen::how_bad),
            text(&it.note),
        ]),
        Event::QuarantineEntered(it) => said.extend([
            it.until_on
                .map(|on| format!("Hasta el {} como mínimo.", full_day(on))),
            text(&it.note),
        ]),
        Event::QuarantineReleased(it) => said.push(text(&it.early)),
        Event::VirusTested(it) => said.extend([
            Some(format!(
                "{}, {}.",
                apart::method(it.method),
                apart::tissue(it.tissue).to_lowercase()
            )),
            (it.pooled > 1).then(|| format!("{} plantas juntas.", it.pooled)),
            text(&it.laboratory),
            text(&it.note),
        ]),
        Event::Observed(it) => said.push(text(&it.note)),
        Event::TaskDecided(it) => said.push(text(&it.why)),
        Event::Amended(it) => said.push(text(&it.why)),
        Event::Withdrawn(it) => said.push(text(&it.note)),
        Event::Settled(it) => said.push(text(&it.note)),
        Event::ProtocolAdopted(it) => said.push(text(&it.content.source)),
        Event::BookOpened(_)
        | Event::DivisionPlanned(_)
        | Event::BookSet(_)
        | Event::PhoneJoined(_)
        | Event::PhoneLeft(_)
        | Event::PlaceSet(_)
        | Event::ClimateRead(_)
        | Event::PotSet(_)
        | Event::MixSet(_)
        | Event::MeasureSet(_)
        | Event::FeedSet(_)
        | Event::ProductSet(_)
        | Event::ContainerSet(_)
        | Event::BathTopped(_)
        | Event::ContainerCounted(_)
        | Event::GroupSet(_)
        | Event::RotationSet(_)
        | Event::PriceSet(_)
        | Event::Released(_)
        | Event::LotSplit(_)
        | Event::LotNamed(_)
        | Event::LotCoded(_)
        | Event::Moved(_)
        | Event::Counted(_)
        | Event::Repotted(_)
        | Event::PiecesTaken(_)
        | Event::PiecesPotted(_)
        | Event::HygieneConfirmed(_)
        | Event::TaskNoted(_)
        | Event::ClockCorrected(_) => {}
    }
    said.into_iter().flatten().collect()
}
