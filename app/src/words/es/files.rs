//! The book as a file: handing over and taking in.

use chrono::NaiveDate;
use velamen_core::exchange::album::AlbumFault;
use velamen_core::exchange::envelope::{EnvelopeFault, Unfit};
use velamen_core::exchange::lack::{Other, Urgency};
use velamen_core::exchange::{FileFault, Plan};
use velamen_core::limits::{PASSPHRASE_CHARS_MAX, PASSPHRASE_CHARS_MIN};

use super::format::{counted, many};
use super::stock::grouped;
use super::trouble;
use crate::storage::StorageError;

pub const HAND_OVER: &str = "Entregar";
pub const TAKE_IN: &str = "Recibir";

pub const WHAT: &str = "Qué va en el archivo";
pub const WHOLE: &str = "El libro entero";
pub const UNDER_PASSPHRASE: &str = "Con frase de paso";
pub const UNDER_PASSPHRASE_HINT: &str =
    "Sin ella nadie lee el archivo, y si se olvida nadie la vuelve a encontrar.";
pub const PASSPHRASE: &str = "Frase de paso";
pub const PASSPHRASE_HINT: &str = "Cuatro palabras o más que no uses en otro sitio.";
pub const OPEN_IT: &str = "Abrir el archivo";
pub const CLOSED: &str = "Este archivo lleva una frase de paso.";
pub const TRIED: &str = "Esa frase de paso no abre el archivo. Escríbela otra vez; si es la buena, el archivo cambió por el camino: pídelo de nuevo.";
pub const ON: &str = "sí";
pub const OFF: &str = "no";
pub const TAKING_IN: &str = "Recibiendo";
pub const STAY_OUT: &str = "Estos archivos se quedan fuera";
pub const PHOTOGRAPHS: &str = "Fotos";
pub const PHOTOGRAPHS_HINT: &str =
    "Viajan aparte del libro, en un ZIP. Recíbelo como un archivo del libro, y después de él.";
pub const COUNTING: &str = "Contando";
pub const PHONES: &str = "Teléfonos del libro";
pub const THIS_PHONE: &str = "este teléfono";
pub const OFF_THE_BOOK: &str = "fuera del libro";
pub const TAKE_OFF: &str = "Sacarlo del libro";
pub const TAKE_OFF_HINT: &str = "Para un teléfono perdido, vendido o roto. Lo que anotó se queda. Por lo que anote desde ahora se preguntará. Todavía tiene el libro como estaba; una frase de paso que conociera no debe usarse más.";
pub const TAKEN_OFF: &str = "Sacado del libro.";
pub const KEEP_IT: &str = "Dejarlo";
pub const SAVE_RESCUE: &str = "Guardar lo que se lea";
pub const REBUILD: &str = "Rehacer el libro con ello";
pub const RESCUE_HINT: &str = "Algo se ha dañado en la memoria propia del teléfono. Primero guarda en un archivo lo que se pueda leer. Luego el libro se puede rehacer con él, aquí o en otro teléfono. Lo que tenga un archivo entregado antes se puede recibir después.";

pub const PLACES: &str = "Otras maneras";

pub const FINGERPRINT: &str = "Huella del libro";
pub const FINGERPRINT_HINT: &str =
    "Dos teléfonos que muestran las mismas ocho letras tienen el mismo libro.";

fn entries(count: usize) -> String {
    let number = grouped(i64::try_from(count).unwrap_or(i64::MAX));
    let word = if count == 1 { "entrada" } else { "entradas" };
    format!("{number} {word}")
}

fn photographs(count: usize) -> String {
    many(count, "foto", "fotos")
}

/// Name of a file: plain text, so that any phone passes it on. `to` is the phone that lacks what is in it.
#[must_use]
pub fn file_name(today: NaiveDate, to: Option<&str>, closed: bool) -> String {
    let to = to.map(|to| format!("-para-{to}")).unwrap_or_default();
    let closed = if closed { "-frase-de-paso" } else { "" };
    format!("libro-vivero-{today}{to}{closed}.txt")
}

/// Name of a ZIP of photographs.
#[must_use]
pub fn album_name(today: NaiveDate, number: usize, of: usize) -> String {
    if of > 1 {
        format!("fotos-vivero-{today}-{number}-de-{of}.zip")
    } else {
        format!("fotos-vivero-{today}.zip")
    }
}

/// Name of what could be read of a damaged book.
#[must_use]
pub fn rescue_name(today: NaiveDate) -> String {
    format!("libro-vivero-{today}-rescatado.txt")
}

#[must_use]
pub fn not_written() -> String {
    "El archivo no se pudo escribir. Prueba con «Compartir», o libera espacio en el teléfono."
        .to_owned()
}

/// That a file cannot be put under a passphrase.
#[must_use]
pub fn not_closed() -> String {
    "Este navegador no pudo poner la frase de paso al archivo. No se ha escrito nada.".to_owned()
}

/// That a file under a passphrase cannot be opened.
#[must_use]
pub fn no_ciphers() -> String {
    "Este navegador no puede abrir un archivo con frase de paso. Abre el programa en una dirección que empiece por https.".to_owned()
}

/// That this browser prints nothing.
#[must_use]
pub fn not_printed() -> String {
    "Este navegador no puede imprimir. Guarda la tabla e imprímela.".to_owned()
}

#[must_use]
pub fn not_shared() -> String {
    "El teléfono no pasó el archivo. Usa «Guardar como archivo» en su lugar.".to_owned()
}

/// What is in the file: the whole book, or so many entries.
#[must_use]
pub fn handed_over(part: Option<usize>) -> String {
    match part {
        None => "En el archivo va el libro entero.".to_owned(),
        Some(count) => format!("En el archivo: {}.", entries(count)),
    }
}

#[must_use]
pub fn album_saved(count: usize) -> String {
    format!("En el ZIP: {}.", photographs(count))
}

#[must_use]
pub fn unreadable() -> String {
    "El teléfono no pudo leer este archivo. Elígelo otra vez, o pídelo de nuevo.".to_owned()
}

#[must_use]
pub fn no_table() -> String {
    "Esto no es una tabla de texto. En la hoja de cálculo, guárdala como CSV y elige ese archivo."
        .to_owned()
}

#[must_use]
pub fn too_large(most_bytes: u32) -> String {
    format!(
        "Este archivo pasa de {} MB. Guárdalo por partes, o quita columnas.",
        most_bytes >> 20
    )
}

/// A packed file that becomes far more than a book does.
#[must_use]
pub fn bomb() -> String {
    "Al descomprimirse, este archivo se hace mucho mayor que un libro. No se ha tocado.".to_owned()
}

#[must_use]
pub fn badly_packed() -> String {
    "Este archivo va comprimido y se dañó por el camino, o acaba antes de tiempo. No se ha recibido nada; pídelo de nuevo.".to_owned()
}

#[must_use]
pub fn cannot_unpack() -> String {
    "Este navegador no puede descomprimir el archivo. Pídelo con «Compartir», que no lo comprime."
        .to_owned()
}

#[must_use]
pub fn too_many_files(most: usize) -> String {
    format!("Elige como mucho {most} archivos a la vez.")
}

/// Why every file stays out: one sentence for one file, a line a file for several.
#[must_use]
pub fn all_refused(refused: &[(String, String)]) -> String {
    match refused {
        [] => fault(&FileFault::Empty),
        [(_, why)] => why.clone(),
        several => several
            .iter()
            .map(|(name, why)| refused_file(name, why))
            .collect::<Vec<_>>()
            .join("\n"),
    }
}

/// One file that stays out.
#[must_use]
pub fn refused_file(name: &str, why: &str) -> String {
    format!("\u{2068}{name}\u{2069}: {why}")
}

#[must_use]
pub fn taken_in(count: usize, photos: usize) -> String {
    match (count, photos) {
        (0, 1..) => format!("Recibido: {}.", photographs(photos)),
        (_, 0) => format!("Recibido: {}.", entries(count)),
        _ => format!("Recibido: {}, {}.", entries(count), photographs(photos)),
    }
}

/// That photographs stopped coming in.
#[must_use]
pub fn photos_stopped(error: &StorageError) -> String {
    format!(
        "No se guardaron todas las fotos. {} Después, recibe el ZIP otra vez.",
        trouble::why(error)
    )
}

/// What was saved of a damaged book.
#[must_use]
pub fn rescued(lines: usize, lost_rows: usize) -> String {
    format!("Guardado: {}. {}", entries(lines), lost(lost_rows))
}

/// What a book was built from.
#[must_use]
pub fn rebuilt(lines: usize, lost_rows: usize) -> String {
    format!(
        "El libro se ha rehecho con {}. {} Recibe un archivo entregado antes, o uno de otro teléfono.",
        entries(lines),
        lost(lost_rows)
    )
}

fn lost(rows: usize) -> String {
    match rows {
        0 => "Se pudieron leer todas las filas.".to_owned(),
        rows => format!("Sin poder leer: {}.", many(rows, "fila", "filas")),
    }
}

/// That entries of this phone are missing, and it goes on under another name.
#[must_use]
pub fn torn() -> String {
    "Falta una entrada de este teléfono, y otras posteriores la esperan. Recibe un archivo entregado antes, o uno de otro teléfono.".to_owned()
}

/// How long the words of a passphrase have to be.
#[must_use]
pub fn unfit(unfit: Unfit) -> String {
    match unfit {
        Unfit::Short => format!("Demasiado corta: al menos {PASSPHRASE_CHARS_MIN} letras."),
        Unfit::Long => format!("Demasiado larga: {PASSPHRASE_CHARS_MAX} letras como mucho."),
    }
}

/// Why a file under a passphrase is refused.
#[must_use]
pub fn envelope_fault(told: EnvelopeFault) -> String {
    match told {
        EnvelopeFault::NotOne => fault(&FileFault::NotABook),
        EnvelopeFault::NewerFormat => fault(&FileFault::NewerFormat { format: 0 }),
        EnvelopeFault::Absurd => "Este archivo pide abrirse de una manera que este programa no sigue. No se ha recibido nada; pídelo de nuevo.".to_owned(),
        EnvelopeFault::TooLarge => fault(&FileFault::TooLarge {
            most_bytes: velamen_core::limits::FILE_BYTES_MAX,
        }),
        EnvelopeFault::Damaged { line } => format!(
            "Este archivo cambió o se cortó por el camino, en la línea {line}. No se ha recibido nada; pídelo de nuevo."
        ),
    }
}

/// Why a ZIP is refused.
#[must_use]
pub fn album_fault(fault: AlbumFault) -> String {
    match fault {
        AlbumFault::NotWhole => {
            "Este ZIP acaba antes de tiempo o se dañó por el camino. Pídelo de nuevo.".to_owned()
        }
        AlbumFault::PackedAnew => {
            "Otro programa volvió a comprimir este ZIP. Pide el que escribió este programa."
                .to_owned()
        }
        AlbumFault::TooMany { most } => {
            format!("Este ZIP trae más de {most} fotos.")
        }
        AlbumFault::TooLarge { most_bytes } => {
            format!(
                "Este ZIP es demasiado grande: puede tener hasta {} MB.",
                most_bytes >> 20
            )
        }
    }
}

#[must_use]
pub fn no_photographs() -> String {
    "Este ZIP no trae fotos de este programa.".to_owned()
}

/// How the photographs of the book stand on this phone.
#[must_use]
pub fn photographs_here(here: usize, missing: usize) -> String {
    match (here, missing) {
        (0, 0) => "El libro no habla de ninguna foto.".to_owned(),
        (here, 0) => format!(
            "{} del libro, y no falta ninguna en este teléfono.",
            photographs(here)
        ),
        (here, missing) => format!(
            "{} del libro en este teléfono; por llegar de otro teléfono: {missing}.",
            photographs(here)
        ),
    }
}

/// The key that saves one part of the photographs.
#[must_use]
pub fn save_photographs(number: usize, of: usize) -> String {
    if of > 1 {
        format!("Guardar fotos, {number} de {of}")
    } else {
        "Guardar las fotos".to_owned()
    }
}

/// What another phone lacks, as a choice.
#[must_use]
pub fn lacking(other: &Other) -> String {
    let phone = match (&other.name, other.prefix) {
        (name, _) if !name.is_empty() => name.clone(),
        (_, Some(prefix)) => format!("el teléfono {prefix}"),
        _ => "otro teléfono".to_owned(),
    };
    format!("Solo lo que falta en {phone}")
}

/// The same in a number.
#[must_use]
pub fn lacking_count(count: usize) -> String {
    match count {
        0 => "Nada, que se sepa aquí".to_owned(),
        count => format!("{}, que se sepa aquí", entries(count)),
    }
}

/// What another phone lacks, as a sentence.
#[must_use]
pub fn lacks(count: usize) -> String {
    match count {
        0 => "Lo tiene todo, que se sepa aquí.".to_owned(),
        count => format!("Le falta, que se sepa aquí: {}.", entries(count)),
    }
}

/// Another phone by its name, or by the beginning of its codes.
#[must_use]
pub fn phone(other: &Other) -> String {
    match (&other.name, other.prefix) {
        (name, _) if !name.is_empty() => name.clone(),
        (_, Some(prefix)) => format!("teléfono {prefix}"),
        _ => "un teléfono".to_owned(),
    }
}

/// Why a file is refused, and what to do.
#[must_use]
pub fn fault(fault: &FileFault) -> String {
    match fault {
        FileFault::Empty => "Este archivo está vacío. Pídelo de nuevo.".to_owned(),
        FileFault::TooLarge { most_bytes } => {
            format!("Este archivo es demasiado grande: un libro puede tener hasta {} MB.", most_bytes >> 20)
        }
        FileFault::TooManyLines { most } => {
            format!("Este archivo tiene más de {most} líneas, más que cualquier libro. No se ha tocado.")
        }
        FileFault::TooManyEntries { most } => {
            format!("Con este archivo el libro pasaría de {most} entradas. No se ha recibido nada.")
        }
        FileFault::OnlyAPart => "Este archivo trae solo lo que faltaba en otro teléfono, y este teléfono aún no tiene libro. Pide primero el libro entero.".to_owned(),
        FileFault::NotABook => "Este archivo no es un libro de este programa. Elige otro.".to_owned(),
        FileFault::NewerFormat { .. } => {
            "Este archivo lo escribió una versión más nueva del programa. Actualiza el programa en este teléfono y recíbelo después.".to_owned()
        }
        FileFault::CutOff { arrived, announced } => format!(
            "Este archivo acaba antes de tiempo: han llegado {arrived} de {announced} entradas. No se ha recibido nada; pídelo de nuevo."
        ),
        FileFault::Damaged { from_line, to_line } => format!(
            "Este archivo se dañó por el camino, entre las líneas {from_line} y {to_line}. No se ha recibido nada; pídelo de nuevo."
        ),
        FileFault::Altered { entry } => format!(
            "La entrada {} de un teléfono se alteró después de escrita. No se ha recibido nada.",
            entry.seq
        ),
        FileFault::OtherBook { nursery } => {
            format!("Este es el libro de otro vivero, \u{2068}{nursery}\u{2069}. Dos libros no se mezclan nunca.")
        }
        FileFault::Demo => "El ejemplo y los libros de verdad van aparte.".to_owned(),
    }
}

/// What taking files in would do, line by line.
#[must_use]
pub fn plan(plan: &Plan, asks: usize, photos: usize, photos_known: usize) -> Vec<String> {
    let mut lines = Vec::new();
    if plan.by.is_some() {
        lines.push(many(plan.new.len(), "entrada nueva", "entradas nuevas"));
        lines.push(many(
            plan.known,
            "entrada ya conocida",
            "entradas ya conocidas",
        ));
    }
    if photos + photos_known > 0 {
        lines.push(many(photos, "foto nueva", "fotos nuevas"));
        lines.push(many(
            photos_known,
            "foto que ya está aquí",
            "fotos que ya están aquí",
        ));
    }
    if asks > 0 {
        lines.push(format!(
            "{} por responder después: los teléfonos se contradicen",
            many(asks, "pregunta", "preguntas")
        ));
    }
    if plan.example {
        lines.push("El ejemplo: queda aparte de un libro de verdad".to_owned());
    }
    if plan.new_phones > 0 {
        lines.push(counted(
            i64::try_from(plan.new_phones).unwrap_or(0),
            "teléfono nuevo",
            "teléfonos nuevos",
        ));
    }
    if plan.waiting > 0 {
        lines.push(many(
            plan.waiting,
            "entrada espera a otras anteriores que faltan",
            "entradas esperan a otras anteriores que faltan",
        ));
    }
    if plan.newer > 0 {
        lines.push(many(
            plan.newer,
            "entrada de una versión más nueva: se guarda y se verá al actualizar",
            "entradas de una versión más nueva: se guardan y se verán al actualizar",
        ));
    }
    if plan.from_the_future > 0 {
        lines.push(many(
            plan.from_the_future,
            "entrada con fecha posterior al reloj de este teléfono",
            "entradas con fecha posterior al reloj de este teléfono",
        ));
    }
    if plan.copied_phone {
        lines.push(
            "Se copió un teléfono con su libro y los dos siguieron escribiendo; se guardan ambos."
                .to_owned(),
        );
    }
    lines
}

pub const SAVED_HERE: &str = "Guardado en este teléfono. Está a salvo cuando esté en otro sitio.";
pub const LIES_ELSEWHERE: &str = "Ya está en otro sitio";

/// How safe the book is.
#[must_use]
pub fn safety(days: Option<i64>) -> String {
    match days {
        None => "Nunca entregado. Si se pierde este teléfono, se pierde el libro.".to_owned(),
        Some(0) => "Entregado hoy.".to_owned(),
        Some(1) => "Entregado ayer.".to_owned(),
        Some(days) => format!("Entregado por última vez hace {days} días."),
    }
}

/// What would be lost with this phone.
#[must_use]
pub fn at_stake(count: usize, urgency: Urgency) -> String {
    match urgency {
        Urgency::Nothing => "Con este teléfono no se perdería nada.".to_owned(),
        Urgency::Some => format!("{} solo en este teléfono.", entries(count)),
        Urgency::Much => format!(
            "{} solo en este teléfono: entrega el libro hoy.",
            entries(count)
        ),
    }
}
