//! A shared folder in place of a server.

use super::format::counted;

pub const FOLDER: &str = "Una carpeta compartida";
pub const HINT: &str = "Una carpeta que un programa tuyo mantiene igual en varios aparatos, como una en la nube o en la red de casa. Cada teléfono escribe allí su propio archivo y lee los de los demás. Quien pueda leer la carpeta puede leer el libro.";
pub const UNAVAILABLE: &str =
    "Este navegador no deja que un programa guarde una carpeta. Entrega por archivo.";
pub const CHOOSE: &str = "Elegir una carpeta";
pub const ALLOW: &str = "Permitir la carpeta otra vez";
pub const LOOK_NOW: &str = "Mirar ahora";
pub const LEAVE: &str = "Dejar de usarla";
pub const LOOKING: &str = "Mirando en la carpeta";

fn number(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// Which folder is in use.
#[must_use]
pub fn in_use(name: &str) -> String {
    format!("El libro va al paso de la carpeta \u{2068}{name}\u{2069}.")
}

/// Which folder has to be allowed again.
#[must_use]
pub fn to_be_allowed(name: &str) -> String {
    format!(
        "El navegador quiere que se le pida permiso otra vez antes de abrir la carpeta \u{2068}{name}\u{2069}."
    )
}

/// When it was looked at, and how many phones write there.
#[must_use]
pub fn looked(clock: &str, phones: usize) -> String {
    format!(
        "Última mirada, {clock}: archivos de {}.",
        counted(number(phones), "teléfono", "teléfonos")
    )
}

#[must_use]
pub fn taken_in(count: usize) -> String {
    format!(
        "De la carpeta compartida: {}.",
        counted(number(count), "entrada", "entradas")
    )
}

/// Un archivo que es de otro libro: su nombre y por qué queda fuera.
#[must_use]
pub fn foreign(name: &str, why: &str) -> String {
    format!("\u{2068}{name}\u{2069} queda fuera. {why}")
}

#[must_use]
pub fn not_chosen() -> String {
    "El navegador no abrió la carpeta. Elige otra, o entrega por archivo.".to_owned()
}

#[must_use]
pub fn not_remembered() -> String {
    "El navegador no recuerda la carpeta. Habrá que elegirla de nuevo la próxima vez que se abra."
        .to_owned()
}

#[must_use]
pub fn not_there() -> String {
    "La carpeta no se puede leer. Quizá se movió o se quitó.".to_owned()
}

#[must_use]
pub fn not_written() -> String {
    "La carpeta no acepta el archivo de este teléfono. Quizá está llena o no deja escribir."
        .to_owned()
}

#[must_use]
pub fn too_many(most: usize) -> String {
    format!("En la carpeta hay archivos de más de {most} teléfonos. Saca los viejos.")
}

#[must_use]
pub fn unreadable(name: &str) -> String {
    format!("El archivo {name} no se puede leer ahora mismo.")
}

#[must_use]
pub fn damaged(name: &str) -> String {
    format!(
        "Una parte del archivo {name} está dañada. El teléfono que lo escribe lo arregla la próxima vez que mire."
    )
}
