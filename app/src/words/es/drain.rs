//! A drain test, in words.

use velamen_core::potting::{DrainFault, Drained};

pub const TITLE: &str = "Una prueba de drenaje propia";
pub const HOW: &str = "Forra una maceta para que no pierda agua y llénala de sustrato mojado la víspera. Echa agua hasta que quede a ras del borde y apunta cuánta ha entrado. Deja que escurra quince minutos en una jarra y mide lo que ha salido.";
pub const MIX: &str = "Sustrato en la maceta";
pub const WENT_IN: &str = "Agua que entró, si se midió";
pub const RAN_OUT: &str = "Agua que salió";
pub const UNREADABLE: &str = "Escribe cantidades como 1 L o 250 mL.";
pub const TARGETS: &str = "Aire que buscan los cultivadores, de cada 100: Vanda y Cattleya, 50 o más; Cymbidium, Zygopetalum y orquídeas zapatilla, de 30 a 40; musgo para bulbos traseros, de 25 a 35 (práctica común, sin fuente).";
pub const CLIMATE: &str = "Donde le llueve encima o el aire pasa del 80 %: corteza de un grado más gruesa, o de 10 a 20 de cada 100 más de lo que no se pudre. Donde es seco, cálido y ventoso: un grado más fina, o lo mismo de fibra de coco o musgo. Las macetas de barro piden más o menos un grado más fino que las de plástico (práctica común, sin fuente).";
pub const FINE_OVER_STONE: &str = "Un sustrato fino sobre piedra sigue mojado por abajo: la piedra quita sitio a las raíces y no drena nada. Aquí, menos piedra, y el peso de otra manera.";

/// What the test says.
#[must_use]
pub fn drained(it: Drained) -> String {
    let hundredths = |permille: u32| (permille + 5) / 10;
    let air = format!(
        "Tras escurrir, de cada 100: aire, {}",
        hundredths(it.air_permille)
    );
    match (it.water_permille, it.pores_permille) {
        (Some(water), Some(pores)) => format!(
            "{air}; agua, {}; espacio de poros, {}.",
            hundredths(water),
            hundredths(pores)
        ),
        _ => format!("{air}."),
    }
}

/// What is wrong.
#[must_use]
pub fn fault(fault: DrainFault) -> &'static str {
    match fault {
        DrainFault::NotAboveZero => "Tiene que haber algo de sustrato y algo de agua.",
        DrainFault::MoreOutThanIn => "Ha salido más de lo que entró: ¿estaba ya mojado?",
        DrainFault::MoreThanMix => "Más agua que sustrato cabe en la maceta: mira las cantidades.",
    }
}
