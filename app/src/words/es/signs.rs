//! Signs of trouble: what each is called, and what to do first. Culture comes before a product.

/// A sign's name and the first answer to it.
fn row(key: &str) -> Option<(&'static str, &'static str)> {
    Some(match key {
        "black_spots" => (
            "Manchas negras",
            "Apártala y hazle la prueba antes de dividirla. Las manchas viejas nunca se curan: juzga por las hojas nuevas.",
        ),
        "soft_rot" => (
            "Podredumbre blanda y húmeda",
            "Corta dos centímetros dentro del tejido sano con una hoja de corte limpia, deja secar el corte, que no caiga agua en las hojas. Después, limpia manos y hoja de corte.",
        ),
        "black_rot" => (
            "Podredumbre negra desde la base",
            "No riegues más. Corta bien por debajo de lo negro, deja secar, apártala de donde gotean otras.",
        ),
        "leaf_spots" => (
            "Manchas en las hojas",
            "Quita las peores hojas, que pasen secas la noche, da más aire.",
        ),
        "scale" => (
            "Cochinilla de escudo",
            "Quita las vainas secas, cepilla la cochinilla, apártala. Un solo tratamiento nunca llega a los huevos.",
        ),
        "soft_scale" => (
            "Bultos pardos, pegajosos",
            "Quítalos con un paño, y aleja las hormigas: los llevan de una a otra.",
        ),
        "mealybug" => (
            "Cochinilla algodonosa",
            "Apártala y quita con un paño lo que se ve. Mira también bajo las vainas y en el sustrato.",
        ),
        "mites" => ("Ácaros", "Lava el envés con agua y sube la humedad."),
        "false_mites" => (
            "Hojas picadas y bronceadas",
            "Lava el envés. No hay telaraña que buscar: usa una lupa.",
        ),
        "aphids" => (
            "Pulgones",
            "Quítalos con agua de varas y capullos. Mira a las vecinas.",
        ),
        "thrips" => (
            "Trips",
            "Quita las peores flores y ciérralas en una bolsa. Cuelga una placa pegajosa para contar.",
        ),
        "slugs" => (
            "Babosas o caracoles",
            "Busca con una linterna de noche y recógelas. Las pequeñas viven en el sustrato: uno nuevo ayuda.",
        ),
        "streaks" => (
            "Rayas o mosaico",
            "Apártala y hazle la prueba. No cortes nada con su hoja de corte. No tiene cura.",
        ),
        "colour_break" => (
            "Color de flor roto",
            "Apártala y hazle la prueba. No cortes nada con su hoja de corte. No tiene cura.",
        ),
        "flecks" => (
            "Motas pálidas o muertas",
            "Apártala y busca ácaros planos con una lupa: lo llevan ellos.",
        ),
        "ring_spots" => (
            "Anillos en las hojas",
            "Apártala y busca trips y pulgones: lo llevan ellos.",
        ),
        "brown_spots" => (
            "Manchas pardas húmedas, borde amarillo",
            "Corta dentro del tejido sano, deja secar, nada de agua desde arriba.",
        ),
        "purple_ring" => (
            "Anillo morado en el rizoma",
            "Corta hasta que el corte salga limpio, con una hoja de corte limpia cada vez. Si el anillo llega a todo: tírala.",
        ),
        "root_rot" => (
            "Podredumbre parda y seca de raíz",
            "Sustrato nuevo, menos riegos. Corta las raíces muertas.",
        ),
        "collar_rot" => (
            "Podredumbre en la base, con bolitas",
            "Tira juntos planta, sustrato y maceta. No la sacudas dentro.",
        ),
        "sunken_spots" => (
            "Manchas hundidas en anillos",
            "Recorta la hoja, da más aire. Les sale a las que andan cortas de luz o de raíces.",
        ),
        "petal_spots" => (
            "Motas en los pétalos",
            "Quita las flores. De noche, más calor, menos humedad y aire en movimiento.",
        ),
        "sooty_mould" => (
            "Película negra en las hojas",
            "Crece sobre lo que sueltan los insectos chupadores: busca más arriba cochinillas y pulgones.",
        ),
        "mix_mould" => (
            "Manto blanco en el sustrato",
            "El sustrato se deshace y rechaza el agua: trasplántala.",
        ),
        "gnats" => (
            "Mosquitas del sustrato",
            "Tenla más seca. El sustrato viejo las alimenta: trasplántala.",
        ),
        "ants" => (
            "Hormigas",
            "Busca lo que cuidan: cochinillas, pulgones. El cebo, lejos de las macetas.",
        ),
        "chewed" => (
            "Flores o brotes roídos",
            "Recógelos a mano, temprano o con linterna. Corta el brote que esté perforado.",
        ),
        "burnt" => (
            "Marcas de sol, frío o sales",
            "Ahí no vive nada. Anota dónde estaba: la mitad de lo que parece enfermo es cultivo.",
        ),
        "root_loss" => (
            "Sin raíces, hojas plegadas",
            "Llévala a la mesa: fuera el sustrato viejo, fuera las raíces muertas. El agua no lo arregla.",
        ),
        "root_bound" => ("Raíces sin sitio", "Llévala a la mesa en su época."),
        _ => return None,
    })
}

/// What a sign of the vocabulary is called.
#[must_use]
pub fn name(key: &str) -> Option<&'static str> {
    row(key).map(|(name, _)| name)
}

/// What to do first.
#[must_use]
pub fn first(key: &str) -> Option<&'static str> {
    row(key).map(|(_, first)| first)
}

/// A part of the plant, by its key.
#[must_use]
pub fn part(key: &str) -> String {
    match key {
        "leaf" => "Hoja",
        "growth" => "Brote nuevo",
        "bulb" => "Bulbo",
        "rhizome" => "Rizoma",
        "root" => "Raíces",
        "base" => "Base",
        "spike" => "Vara",
        "flower" => "Flor",
        "mix" => "En el sustrato",
        other => other,
    }
    .to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use velamen_core::reference::signs::{PARTS, SIGNS};
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn every_sign_has_a_name_of_its_own_and_a_first_answer() {
        let names: std::collections::BTreeSet<_> =
            SIGNS.iter().filter_map(|row| name(row.key)).collect();
        assert_eq!(names.len(), SIGNS.len());
        assert!(SIGNS.iter().all(|row| first(row.key).is_some()));
        assert!(PARTS.iter().all(|key| part(key) != **key));
    }
}
