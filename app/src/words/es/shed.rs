//! The Shed: places, pots, mixes, protocols, this phone; and the grower's own tasks.

use velamen_core::event::{Cover, PieceClass, Shade};
use velamen_core::reference::taxa::Habit;
use velamen_core::season::Warmth;
use velamen_core::task::Trigger;
use velamen_core::view::protocol::EditEffect;

use velamen_core::quantity::Unit;

use super::format::{counted, length, sign};
use super::trade;

pub const PLACES: &str = "Lugares";
pub const PLACES_HINT: &str = "En el orden en que los recorres.";
pub const POTS: &str = "Macetas";
pub const MIXES: &str = "Sustratos";
pub const PROTOCOLS: &str = "Protocolos";
pub const PHONE: &str = "Este teléfono";
pub const ADD_PLACE: &str = "Añadir este lugar";
pub const PLACE_NAME: &str = "Nombre del lugar";
pub const PLACE_ADDED: &str = "lugar añadido";
pub const AREA: &str = "Superficie de las bancadas";
pub const AREA_HINT: &str = "Para pulverizar por superficie.";
pub const KEEP_AREA: &str = "Guardar la superficie";
pub const NO_AREA: &str = "Escribe una superficie: 12; 12,5 m²; 130 ft².";
pub const RENAME: &str = "Guardar este nombre";
pub const EARLIER: &str = "Antes en el recorrido";
pub const LATER: &str = "Después en el recorrido";
pub const RETIRE: &str = "Ya no se usa";
pub const WARMTH: &str = "Calor";
pub const COVER: &str = "Cubierta";
pub const ROOFED: &str = "Bajo techo";
pub const OPEN_TO_RAIN: &str = "Abierto a la lluvia";
pub const CHANGED: &str = "Cambiado.";
pub const POT_NAME: &str = "Cómo la llamas";
pub const TOP: &str = "Ancho arriba";
pub const BASE: &str = "Ancho en la base";
pub const HEIGHT: &str = "Altura";
pub const INSIDE: &str = "Medido por dentro, como 17 cm, 170 mm o 17,5 cm.";
pub const SHAPE: &str = "Su forma";
pub const ROUND_POT: &str = "Redonda";
pub const SQUARE_POT: &str = "Cuadrada";
pub const BY_WATER: &str = "Por el agua que cabe";
pub const HOLDS: &str = "Agua que cabe";
pub const HOLDS_HINT: &str =
    "Tapa los agujeros y llénala hasta el borde: un litro de agua pesa un kilo.";
pub const BRIMFUL: &str = "hasta el borde";
pub const LIGHT_HERE: &str = "Luz";
pub const MIX_PARTS: &str = "Qué lleva, por volumen";
pub const MIX_PARTS_HINT: &str = "Toca lo que entra; las partes suman 100 %. Puede quedar vacío.";
pub const PARTS_INERT: &str = "no se pudre";
pub const NURSERY: &str = "El vivero";
pub const NURSERY_NAME: &str = "Nombre del vivero";
pub const POISONS: &str = "Teléfono de toxicología";
pub const POISONS_HINT: &str =
    "A quién llamar tras un contacto con un producto. La etiqueta puede dar uno.";
pub const KEEP_NURSERY: &str = "Guardar esto";
pub const TASK_ON: &str = "Otro día";
pub const TASK_REPEAT: &str = "Otra vez";
pub const TASK_ONCE: &str = "Una vez";
pub const TASK_WEEKLY: &str = "Cada semana";
pub const TASK_FORTNIGHTLY: &str = "Cada dos semanas";
pub const TASK_MONTHLY: &str = "Cada 30 días";
pub const TASK_WHERE: &str = "Dónde";
pub const TASK_NOWHERE: &str = "En ningún sitio en particular";
pub const TASK_LOT: &str = "Para un lote";
pub const TASK_LOT_HINT: &str = "Nombre o código; puede quedar vacío.";
pub const WINDOW: &str = "Primer y último día";
pub const FIRST_DAY: &str = "No antes del día";
pub const LAST_DAY: &str = "Atrasado tras el día";
pub const SOURCE: &str = "De dónde vienen estos días";
pub const DISCARD: &str = "Dejarlo como estaba";
pub const CHANGE_IT: &str = "Cambiarlo";
pub const KEEP_CHANGE: &str = "Guardar este cambio";
pub const AS_POTTED: &str =
    "De ahora en adelante. Lo que ya está en maceta guarda lo que se anotó entonces.";
pub const ADD_POT: &str = "Añadir esta maceta";
pub const POT_ADDED: &str = "maceta añadida";
pub const MIX_NAME: &str = "Nombre del sustrato";
pub const MIX_LIFE: &str = "Meses hasta que se deshace";
pub const ADD_MIX: &str = "Añadir este sustrato";
pub const MIX_ADDED: &str = "sustrato añadido";
pub const DAYS_AFTER: &str = "Días después";
pub const ON: &str = "sí";
pub const OFF: &str = "no";
pub const IN_USE: &str = "En uso";
pub const FOR_TOUGH: &str = "Para plantas resistentes";
pub const TOUGH_SAME: &str = "Los mismos días";
pub const TOUGH_LEFT_OUT: &str = "Se omite";
pub const TOUGH_OTHER: &str = "Días propios";
pub const TOUGH_DAYS: &str = "Días después, resistentes";
pub const TOUGH_FIRST: &str = "No antes del día, resistentes";
pub const TOUGH_LAST: &str = "Atrasado tras el día, resistentes";
pub const KEEP: &str = "Guardar estos días";
pub const KEPT: &str = "Guardado. Lo decidido, decidido queda; nada pasa a antes de hoy.";
pub const THEME: &str = "Claro u oscuro";
pub const AS_PHONE: &str = "Como el teléfono";
pub const LIGHT: &str = "Claro";
pub const DARK: &str = "Oscuro";
pub const HAND: &str = "Mano";
pub const RIGHT: &str = "Derecha";
pub const LEFT: &str = "Izquierda";
pub const BENCH_SIZE: &str = "Teclas grandes para manos mojadas";
pub const BENCH_SIZE_HINT: &str = "También en una pantalla grande con ratón.";
pub const AT_THE_BENCH: &str = "En la mesa de trabajo";
pub const STAY_AWAKE: &str = "La pantalla sigue encendida";
pub const STAY_AWAKE_HINT: &str = "Mientras esto está abierto. Gasta batería.";
pub const LOCK_KEY: &str = "Un cierre en cada pantalla";
pub const LOCK_KEY_HINT: &str = "Arriba, contra las gotas y en el bolsillo.";
pub const QUIET: &str = "Sin tonos";
pub const QUIET_HINT: &str = "El final de un baño suena igualmente.";
pub const LOCK_NOW: &str = "Cerrar el cristal";
pub const LOCKED: &str = "Cerrado contra las gotas";
pub const LOCKED_HINT: &str =
    "Seca el cristal. Luego pasa un dedo por 1, 2 y 3, o tócalos uno tras otro.";
pub const CODES: &str = "Los códigos de este teléfono empiezan por";
pub const TASK: &str = "Una tarea";
pub const TASK_TEXT: &str = "Qué hay que hacer";
pub const TASK_DAY: &str = "Cuándo";
pub const TODAY: &str = "Hoy";
pub const TOMORROW: &str = "Mañana";
pub const IN_A_WEEK: &str = "En una semana";
pub const IN_A_MONTH: &str = "En un mes";
pub const TASK_PAST: &str = "Ese día ya pasó. ¿Anotarlo de todos modos?";
pub const TASK_ANYWAY: &str = "Anotarlo de todos modos";
pub const ADD_TASK: &str = "Añadir esta tarea";
pub const TASK_ADDED: &str = "tarea añadida";

/// A key of the lock, for a screen reader.
#[must_use]
pub fn unlock_key(key: u8) -> String {
    format!("Abrir: {key} de 3")
}

/// Warmth of a house by its nights.
#[must_use]
pub fn warmth(warmth: Warmth) -> &'static str {
    match warmth {
        Warmth::Cool => "Noches frescas",
        Warmth::Intermediate => "Noches templadas",
        Warmth::Warm => "Noches cálidas",
    }
}

/// "del día 3 al día 10".
#[must_use]
pub fn timing(from: i32, until: i32) -> String {
    format!("del día {from} al día {until}")
}

/// Which lots a step is for: "Para florecer, Plantones; con bulbos". Empty for all.
#[must_use]
pub fn only_for(classes: &[PieceClass], habits: &[Habit]) -> String {
    let classes: Vec<&str> = classes.iter().map(|one| trade::class(*one)).collect();
    let habits: Vec<&str> = habits.iter().map(|one| habit(*one)).collect();
    let parts = [classes.join(", "), habits.join(", ")];
    let said: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    said.join("; ")
}

/// How a plant grows, as a step asks for it.
fn habit(habit: Habit) -> &'static str {
    match habit {
        Habit::Bulbs => "con bulbos",
        Habit::Canes => "con cañas",
        Habit::Growths => "sin bulbos",
        Habit::Monopodial => "de un solo tallo",
    }
}

/// A pot's inside measures, in micrometres as kept: "Redonda, 170 / 120 / 130 mm".
#[must_use]
pub fn pot_measures(square: bool, [top, base, height]: [i64; 3]) -> String {
    let shape = shape(square);
    format!(
        "{shape}, {} / {} / {} {}",
        length(top),
        length(base),
        length(height),
        sign(Unit::Millimetre)
    )
}

/// Roof or rain.
#[must_use]
pub fn cover(cover: Cover) -> &'static str {
    match cover {
        Cover::Roofed => ROOFED,
        Cover::OpenToRain => OPEN_TO_RAIN,
    }
}

/// How light a place is.
#[must_use]
pub fn shade(shade: Shade) -> &'static str {
    match shade {
        Shade::Bright => "Mucha luz",
        Shade::Medium => "Luz media",
        Shade::Deep => "Sombra densa",
    }
}

/// What sets a protocol going.
#[must_use]
pub fn trigger(trigger: Trigger) -> &'static str {
    match trigger {
        Trigger::Divided => "Cuando se ponen piezas en maceta",
        Trigger::Repotted => "Cuando un lote cambia de maceta",
        Trigger::Treated => "Cuando se trata un lote",
        Trigger::Received => "Cuando llega un lote",
        Trigger::Standing => "Para lotes que ya están en sus macetas",
        Trigger::WantsBench => "Cuando una planta pide mesa",
        Trigger::Found => "Cuando se halla algo",
    }
}

/// "6 de 9 pasos en uso".
#[must_use]
pub fn steps_in_use(on: usize, all: usize) -> String {
    format!("{on} de {} en uso", steps(all))
}

fn steps(count: usize) -> String {
    counted(i64::try_from(count).unwrap_or(i64::MAX), "paso", "pasos")
}

fn tasks(count: usize, (one, many): (&str, &str)) -> String {
    let count = i64::try_from(count).unwrap_or(i64::MAX);
    let what = if count == 1 { one } else { many };
    format!(
        "{} {what}",
        counted(count, "tarea abierta", "tareas abiertas")
    )
}

/// What keeping an edited protocol would do.
#[must_use]
pub fn effect(effect: EditEffect) -> String {
    if effect.is_nothing() {
        return "Ninguna tarea abierta se mueve.".to_owned();
    }
    let said = [
        (effect.moved, ("se movería", "se moverían")),
        (effect.opened, ("se abriría", "se abrirían")),
        (effect.dropped, ("desaparecería", "desaparecerían")),
    ];
    let said: Vec<String> = said
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, what)| tasks(count, what))
        .collect();
    format!("{}.", said.join(", "))
}

/// A component of a mix; one of the grower's own stands as typed.
#[must_use]
pub fn component(key: &str) -> String {
    let known = match key {
        "bark_seedling" => "Corteza para plántulas",
        "bark_small" => "Corteza fina",
        "bark_medium" => "Corteza mediana",
        "bark_coarse" => "Corteza gruesa",
        "bark_with_fines" => "Corteza con finos",
        "coir_chunk" => "Trozos de coco",
        "coir_fines" => "Fibra fina de coco",
        "sphagnum_long" => "Musgo esfagno de fibra larga",
        "perlite_coarse" => "Perlita gruesa",
        "pumice" => "Pómez",
        "lava" => "Lava",
        "gravel" => "Grava",
        "granite_grit" => "Gravilla de granito",
        "charcoal" => "Carbón vegetal",
        "expanded_clay" => "Arcilla expandida",
        own => own,
    };
    known.to_owned()
}

/// Particle size: "3 a 6 mm".
#[must_use]
pub fn grade(from_mm: u16, to_mm: u16) -> String {
    format!("{from_mm} a {to_mm} mm")
}

/// "18 a 24 meses", "24 meses".
#[must_use]
pub fn months(from: u16, to: u16) -> String {
    if from == to {
        counted(i64::from(from), "mes", "meses")
    } else {
        format!("{from} a {to} meses")
    }
}

/// "70 % de corteza mediana".
#[must_use]
pub fn share(percent: u16, component: &str) -> String {
    format!(
        "{percent} % de {}",
        self::component(component).to_lowercase()
    )
}

/// How far the shares make the whole.
#[must_use]
pub fn shares_total(percent: u32) -> String {
    match percent {
        100 => "Juntas, 100 %.".to_owned(),
        0..100 => format!("Juntas, {percent} %; falta un {} %.", 100 - percent),
        _ => format!("Juntas, {percent} %; sobra un {} %.", percent - 100),
    }
}

/// The pot in a sentence, for who cannot see its drawing.
#[must_use]
pub fn pot_text(top: &str, base: &str, height: &str, litres: &str) -> String {
    format!(
        "Una maceta de {top} de ancho arriba, {base} en la base y {height} de alto; caben {litres} hasta el borde."
    )
}

/// How the shape of a pot is called.
fn shape(square: bool) -> &'static str {
    if square { SQUARE_POT } else { ROUND_POT }
}

pub const FALLS_OVER: &str = "¿Se volcará?";
pub const PLANT_HIGH: &str = "Altura sobre el sustrato, cm";
pub const PLANT_WEIGHT: &str = "Peso de la planta, g";
pub const HOLDS_BARE: &str = "Aguanta sin piedra.";
pub const WIDER_POT: &str = "Ninguna capa de piedra en esta maceta la aguantaría: toma una más ancha o más pesada, o ponle tutor y cálzala.";
pub const FALLS_HOW: &str = "Una maceta de plástico, regada, con el peso de la planta a media altura. Veinte grados se toman por aguantar: práctica común, sin fuente. La piedra quita sitio a las raíces; bajo un sustrato fino retiene el agua arriba.";

/// How far it tips without stone.
#[must_use]
pub fn tips_at(cdeg: i32) -> String {
    format!("Sin piedra se vuelca al inclinarla {}.", degrees(cdeg))
}

/// How far it tips with the usual layer.
#[must_use]
pub fn tips_at_with(cdeg: i32, stone: &str) -> String {
    format!("Con {stone} de piedra, al inclinarla {}.", degrees(cdeg))
}

/// How much stone would hold it.
#[must_use]
pub fn stone_holds(stone: &str) -> String {
    format!("Con {stone} de piedra aguanta.")
}

fn degrees(cdeg: i32) -> String {
    format!("{} grados", (cdeg + 50) / 100)
}
