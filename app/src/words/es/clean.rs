//! The wash's own words. Cautions are common practice, no source, unless the list of origins names one.

use velamen_core::clean::{CleanFault, DilutionFault, Tool};
use velamen_core::event::{DivisionOpened, Material, MaterialsMoved, Object, Sanitised, Stage};
use velamen_core::quantity::{Amount, Mass, QuantityError, Volume};
use velamen_core::reference::sanitizers::{self, Agent, Mind, Reach};

use super::apart::lowered;
use super::format::{self, counted, decimal, litres};
use super::{bath, trade};

pub const WASH: &str = "El lavado";
pub const EMPTY: &str = "Aquí no hay nada.";
pub const LESSON: &str = "Las macetas y la piedra que vacía un trasplante llegan aquí solas. También se pueden poner nuevas.";
pub const DISINFECT: &str = "Desinfectar";
pub const DISINFECT_STONE: &str = "Desinfectar piedra";
pub const ADD: &str = "Poner macetas o piedra";
pub const PUT_IN: &str = "Poner";
pub const WHICH: &str = "Qué";
pub const STONE: &str = "Piedra";
pub const OTHER_POT: &str = "Otra maceta";
pub const POT_NAME: &str = "Qué clase de maceta";
pub const HOW: &str = "Estado";
pub const NEW: &str = "sin estrenar";
pub const FOUND_DIRTY: &str = "con uso, sin lavar";
pub const HOW_MANY: &str = "Cuántas";
pub const NOTHING_SAID: &str = "Di cuánto entra.";
pub const HOW_MUCH: &str = "Mililitros de piedra";
pub const THROW: &str = "Tirar";
pub const NOT_THERE: &str = "No están ahí";
pub const AGAIN: &str = "Sucio otra vez";
pub const LEAVE: &str = "Dejarlo";
pub const IN_HAND: &str = "Baños de limpieza";
pub const CLEAN_ELSE: &str = "Herramientas, bancada, cubeta";
pub const NEVER: &str = "Cloro: con qué no se junta nunca";
pub const ON_RECORD: &str = "Desinfectado hace poco";
pub const APART_HINT: &str = "Se sospecha un virus. Sus macetas y su piedra se quedan en una caja aparte: la piedra, al horno o hervida; las macetas, a la basura.";
pub const GLOVES: &str = "Los guantes se cambian, no se desinfectan: un par para cada mata, y uno para cada planta donde se sospeche un virus.";
pub const WITH: &str = "Con";
pub const WHAT: &str = "Qué se limpia";
pub const STOCK: &str = "Concentración del envase";
pub const STOCK_HINT: &str = "Cloro activo, como lo dice el envase: 5,25 %, 48 g/L";
pub const STOCK_HINT_OTHER: &str = "Como lo dice el envase: 96 %";
pub const STRENGTH: &str = "Concentración deseada, si no es la habitual";
pub const SUSPECT: &str = "Se sospecha un virus";
pub const CONTACT: &str = "Minutos dentro";
pub const WATER: &str = "El baño";
pub const MEASURE: &str = "Medir";
pub const BY_LABEL: &str = "Mézclalo como dice su etiqueta.";
pub const MADE: &str = "Preparado";
pub const HEATED: &str = "Listo";
pub const TAKE_ALL_IN: &str = "Entra lo último";
pub const CLEANED_FIRST: &str = "Antes cepillado y enjuagado";
pub const CLEANED_HINT: &str = "La suciedad y el jabón gastan el desinfectante.";
pub const NO_WASHED: &str = "No hay nada lavado. Primero lava: cepillo, agua, enjuagar.";
pub const LOOKS_DIRTY: &str = "Se ve sucio";
pub const MAKE_ANEW: &str = "Prepararlo de nuevo";
pub const THROW_OUT: &str = "Tirarlo";
pub const GIVE_UP: &str = "Dejarlo";
pub const LIES: &str = "En el desinfectante";
pub const OUT: &str = "Sacar y enjuagar";
pub const TAKEN_OUT: &str = "desinfectado";
pub const NOT_IN: &str = "No entró nada";
pub const TOO_SHORT: &str = "Salió demasiado pronto: anotado, pero se queda con lo lavado.";
pub const LABEL_LAW: &str = "La etiqueta del envase y las normas locales van primero. Esta lista dice lo que es habitual, no lo que está permitido.";
pub const ORIGIN: &str = "Las fuentes están en el Almacén, en «De dónde salen las cifras».";
pub const TOOLS_NOW: &str = "Herramientas por turno";
pub const ONE_TOOL: &str = "Una";
pub const TWO_TOOLS: &str = "Dos";
pub const THREE_TOOLS: &str = "Tres";
pub const TURN_HINT: &str = "Una está en el baño de herramientas mientras otra corta.";
pub const SAME_TOOL: &str = "Sin cambiar de herramienta desde la última mata";
pub const CUT_ORDER: &str = "Cortado hoy, en este orden";
pub const SUSPECTED: &str = "sospecha de virus";

/// Gear and air before bleach is opened, in the order they are seen to.
pub const CAUTIONS: [&str; 4] = [
    "Guantes, gafas de protección cerradas y delantal; una puerta o una ventana del techo abierta.",
    "La lejía al agua, nunca el agua a la lejía. Mide, y luego agua hasta la marca.",
    "Nunca junto a vinagre u otro ácido, amoniaco, abono, alcohol, peróxido ni ningún producto que quede en la cubeta: gas.",
    "Nunca en un pulverizador con aluminio o latón. Come el acero: enjuaga las hojas de corte.",
];

/// What chlorine never meets, one a line.
pub const NEVER_WITH: [&str; 6] = [
    "ácidos: vinagre, limpiador ácido, abono ácido: gas cloro",
    "amoniaco, urea o abono amoniacal, limpiadores con amoniaco: gas tóxico",
    "alcohol o acetona: vapores irritantes",
    "peróxido o ácido peracético: gas, y se pierden los dos",
    "peroximonosulfato, que es una sal ácida: gas cloro",
    "cualquier plaguicida que quede en cubeta o medidor: antes, enjuagar tres veces",
];
pub const FLAME: &str =
    "Una llama no se acerca nunca al alcohol: ni tras mojar en alcohol, ni junto a su cubeta.";

#[must_use]
pub fn object(object: Object) -> &'static str {
    match object {
        Object::Tools => "Herramientas",
        Object::Gloves => "Guantes",
        Object::Pots => "Macetas",
        Object::Stone => "Piedra",
        Object::Bench => "Bancada",
        Object::Tub => "Cubeta",
    }
}

#[must_use]
pub fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::Uncounted => "Sin contar",
        Stage::New => "Sin estrenar",
        Stage::InUse => "Con plantas",
        Stage::Dirty => "Sucio",
        Stage::Washed => "Lavado",
        Stage::Disinfected => "Desinfectado, secándose",
        Stage::Clean => "Seco y limpio",
        Stage::Discarded => "Desechado",
    }
}

/// The same of pots or stone in a sentence: one, or several.
fn state(at: Stage, several: bool) -> &'static str {
    match (at, several) {
        (Stage::Uncounted, _) => "sin contar",
        (Stage::New, _) => "sin estrenar",
        (Stage::InUse, _) => "con plantas",
        (Stage::Dirty, false) => "sucia",
        (Stage::Dirty, true) => "sucias",
        (Stage::Washed, false) => "lavada",
        (Stage::Washed, true) => "lavadas",
        (Stage::Disinfected, false) => "desinfectada, secándose",
        (Stage::Disinfected, true) => "desinfectadas, secándose",
        (Stage::Clean, false) => "seca y limpia",
        (Stage::Clean, true) => "secas y limpias",
        (Stage::Discarded, false) => "desechada",
        (Stage::Discarded, true) => "desechadas",
    }
}

/// Whether words of these stand in the plural.
fn several(of: &[Material]) -> bool {
    match of {
        [one] => !one.is_stone() && one.pots != 1,
        _ => true,
    }
}

/// What the key says that moves a pile on: "Lavado: 12 macetas".
#[must_use]
pub fn on_to(to: Stage, material: &Material) -> String {
    format!("{}: {}", stage(to), amount(material))
}

/// "12 macetas", "4,5 L de piedra".
#[must_use]
pub fn amount(material: &Material) -> String {
    if material.is_stone() {
        format!("{} de piedra", litres(Volume::from_ul(material.stone_ul)))
    } else {
        trade::pots(i64::from(material.pots))
    }
}

/// A figure alone: "12", "4,5 L".
#[must_use]
pub fn figure(material: &Material) -> String {
    if material.is_stone() {
        litres(Volume::from_ul(material.stone_ul))
    } else {
        material.pots.to_string()
    }
}

/// The kind of a pile.
#[must_use]
pub fn kind(material: &Material, name: &str) -> String {
    match (material.is_stone(), name) {
        (true, _) => STONE.to_owned(),
        (false, "") => "Macetas, clase sin anotar".to_owned(),
        (false, name) => name.to_owned(),
    }
}

/// "Sucio · bandeja 3".
#[must_use]
pub fn where_it_is(at: Stage, from: &str) -> String {
    if from.is_empty() {
        stage(at).to_owned()
    } else {
        format!("{} · {from}", stage(at))
    }
}

/// "Apartado: bandeja 3".
#[must_use]
pub fn apart(of: &str) -> String {
    format!("Apartado: {of}")
}

#[must_use]
pub fn tray(number: u32, day: &str) -> String {
    format!("bandeja {number}, {day}")
}

#[must_use]
pub fn among(trays: &str) -> String {
    format!(
        "Ahora se sospecha un virus en lo que salió de: {trays}. Sus macetas y su piedra entraron antes entre las demás."
    )
}

/// What washing saved.
#[must_use]
pub fn saved(pots: u64, stone: Option<Volume>) -> Option<String> {
    let pots = (pots > 0).then(|| trade::pots(i64::try_from(pots).unwrap_or(i64::MAX)));
    let stone = stone.map(|stone| format!("{} de piedra", litres(stone)));
    let both: Vec<String> = [pots, stone].into_iter().flatten().collect();
    (!both.is_empty()).then(|| format!("Lavado y vuelto a usar hasta ahora: {}.", both.join(" y ")))
}

#[must_use]
pub fn fewer(at: Stage, left: i64, stone: bool) -> String {
    let several = !stone && left != 1;
    let left = if stone {
        litres(Volume::from_ul(left))
    } else {
        trade::pots(left)
    };
    format!("Ahí solo hay {left}: {}.", state(at, several))
}

#[must_use]
pub fn few(clean: i64, wanted: u32) -> String {
    format!(
        "En la cuenta solo hay {}; hacen falta {wanted}.",
        clean_pots(clean)
    )
}

fn clean_pots(clean: i64) -> String {
    counted(clean, "maceta limpia", "macetas limpias")
}

/// "En la cuenta solo hay 4 macetas limpias: 13 cm."
#[must_use]
pub fn only_clean(clean: i64, pot: &str) -> String {
    format!("En la cuenta solo hay {}: {pot}.", clean_pots(clean))
}

#[must_use]
pub fn clean_left(clean: i64) -> String {
    format!("En la cuenta del lavado hay {}.", clean_pots(clean))
}

/// An agent by its key; the grower's own word stands as typed.
#[must_use]
pub fn agent(key: &str) -> String {
    match key {
        "chlorine" => "Cloro (lejía)",
        "chlorine_powder" => "Cloro en polvo",
        "peroxymonosulfate" => "Sal de peroximonosulfato",
        "trisodium_phosphate" => "Fosfato trisódico",
        "quaternary_ammonium" => "Amonio cuaternario",
        "peroxide" => "Peróxido o peracético",
        "alcohol" => "Alcohol, 70 %",
        "milk" => "Leche desnatada",
        "flame" => "Llama",
        "pasteurised" => "Calor húmedo, 60 °C",
        "steam" => "Vapor, de 82 a 93 °C",
        "boiled" => "Hervido desde frío",
        "oven" => "Horno, de 150 a 180 °C",
        own => own,
    }
    .to_owned()
}

/// What an agent reaches and what not, in one line.
#[must_use]
pub fn reaches(agent: &Agent) -> String {
    let of = [
        ("hongos", agent.reaches.fungi),
        ("bacterias", agent.reaches.bacteria),
        ("esporas", agent.reaches.spores),
        ("ORSV", agent.reaches.orsv),
        ("CymMV", agent.reaches.cymmv),
    ];
    let named = |wanted: Reach| {
        let names = of.iter().filter(|(_, reach)| *reach == wanted);
        names.map(|(name, _)| *name).collect::<Vec<_>>().join(", ")
    };
    let parts = [
        ("alcanza", named(Reach::Yes)),
        ("en parte", named(Reach::Partly)),
        ("no alcanza", named(Reach::No)),
        ("nadie sabe si alcanza", named(Reach::Unknown)),
    ];
    let said = parts.iter().filter(|(_, names)| !names.is_empty());
    let said: Vec<String> = said
        .map(|(word, names)| format!("{word} {names}"))
        .collect();
    let mut line = said.join("; ");
    if let Some(first) = line.get_mut(0..1) {
        first.make_ascii_uppercase();
    }
    format!("{line}.")
}

/// What to mind with an agent.
#[must_use]
pub fn mind(mind: Mind) -> &'static str {
    match mind {
        Mind::IntoWater => "Al agua, nunca el agua a él.",
        Mind::Ventilate => "Una puerta o una ventana del techo abierta.",
        Mind::NeverWithAcid => "Nunca junto a ácido, amoniaco, alcohol u otro desinfectante.",
        Mind::NoAluminiumOrBrass => "No en un pulverizador con aluminio o latón.",
        Mind::CorrodesSteel => "Come el acero: enjuagar y secar.",
        Mind::Caustic => "Cáustico: guantes y gafas cerradas.",
        Mind::Flammable => "Arde: ni calefactor ni chispa.",
        Mind::FlameAwayFromAlcohol => FLAME,
        Mind::Burns => "Caliente: guantes, gafas cerradas, pinzas.",
        Mind::DryStoneOnly => "Solo piedra limpia y seca: la mojada revienta.",
        Mind::FromCold => "Desde frío y solo piedra densa: la demás revienta. Gafas cerradas.",
        Mind::SoftensPlastic => "El plástico se ablanda: solo barro, piedra y acero.",
        Mind::Fades => "Se pierde deprisa: nuevo cada vez.",
    }
}

/// "mL, y luego agua hasta 10 L"; a powder says grams.
#[must_use]
pub fn into_bath(unit: &str, bath: &str) -> String {
    format!("{unit}, y luego agua hasta {bath}")
}

#[must_use]
pub fn measured(amount: Amount) -> (String, &'static str) {
    bath::amount(amount)
}

/// "0,5 % (5000 ppm)".
#[must_use]
pub fn strength(ppm: u32) -> String {
    format!("{} % ({ppm} ppm)", percent(ppm))
}

/// Parts per million as per cent: "5,25".
#[must_use]
pub fn percent(ppm: u32) -> String {
    decimal(i64::from(ppm), 4)
}

#[must_use]
pub fn usual(ppm: u32) -> String {
    format!("Habitual: {}.", strength(ppm))
}

#[must_use]
pub fn good_until(clock: &str) -> String {
    format!("Sirve hasta las {clock}.")
}

#[must_use]
pub fn too_old(clock: &str) -> String {
    format!("Ya no sirve desde las {clock}: tíralo y prepáralo de nuevo.")
}

pub const DIRTY_SPENT: &str = "Está sucio, así que está gastado: tíralo y prepáralo de nuevo.";

#[must_use]
pub fn batches(batches: u32) -> String {
    match batches {
        0 => "aún sin usar".to_owned(),
        batches => format!(
            "{} hasta ahora",
            counted(i64::from(batches), "tanda", "tandas")
        ),
    }
}

/// "Desinfectante: quedan 3:12".
#[must_use]
pub fn running(seconds: u32) -> String {
    format!("Desinfectante: quedan {}", bath::digits(seconds))
}

#[must_use]
pub fn to_take_out(since_s: u32) -> String {
    match since_s {
        0..60 => "Desinfectante: sácalo ya".to_owned(),
        since_s => format!("Desinfectante: acabó hace {}", bath::minutes(since_s)),
    }
}

/// What is done once it is out.
#[must_use]
pub fn rinses(rinses: u8, rinse: bool) -> &'static str {
    match (rinse, rinses) {
        (false, _) => "Sin enjuagar: deja que se seque.",
        (true, 3) => "Enjuaga tres veces, y a secar.",
        (true, 2) => "Enjuaga dos veces, y a secar al aire.",
        (true, _) => "Enjuaga, y a secar al aire.",
    }
}

#[must_use]
pub fn fault(fault: &CleanFault) -> String {
    match fault {
        CleanFault::NoAgent => "Elige con qué se desinfecta.".to_owned(),
        CleanFault::Dilution(fault) => dilution(fault),
        CleanFault::Bath(fault) => bath::tub(fault),
        CleanFault::NoContact => "Di cuántos minutos está dentro.".to_owned(),
        CleanFault::ContactTooLong => "Dos días es lo máximo.".to_owned(),
        CleanFault::NotCleanedFirst => {
            "Antes cepilla y enjuaga: la suciedad gasta el desinfectante.".to_owned()
        }
        CleanFault::NothingIn => "Elige lo que entra.".to_owned(),
        CleanFault::Spent => "La mezcla está gastada: prepárala de nuevo.".to_owned(),
        CleanFault::NotLying => "No hay nada dentro.".to_owned(),
    }
}

fn dilution(fault: &DilutionFault) -> String {
    match fault {
        DilutionFault::NoStock => {
            "Escribe la concentración del envase: sin ella no se puede medir nada.".to_owned()
        }
        DilutionFault::BadStock(QuantityError::AmbiguousNumber { .. }) => {
            "¿Esa coma separa decimales o millares? Escribe el decimal con un punto.".to_owned()
        }
        DilutionFault::BadStock(_) => {
            "Escribe una concentración, como 5,25 %, 48 g/L o 52500 ppm.".to_owned()
        }
        DilutionFault::OverWhole => "Nada pasa del 100 %.".to_owned(),
        DilutionFault::NoStrength => "Escribe la concentración deseada.".to_owned(),
        DilutionFault::Weaker {
            stock_ppm,
            wanted_ppm,
        } => format!(
            "El envase tiene {} %, y se quiere {} %. Usa uno más fuerte.",
            percent(*stock_ppm),
            percent(*wanted_ppm)
        ),
        DilutionFault::NoBath => "Aún no hay agua.".to_owned(),
        DilutionFault::TooMuch => "2 000 litros es lo máximo para una cubeta.".to_owned(),
    }
}

/// The next tool: "Herramienta 2, limpia", "Herramienta 2, ha cortado 1 mata desde que estuvo limpia".
#[must_use]
pub fn tool(tool: &Tool) -> String {
    let which = if tool.mark.is_empty() {
        "Herramienta".to_owned()
    } else {
        format!("Herramienta {}", tool.mark)
    };
    match tool.cut_before {
        None => format!("{which}: nadie dijo si está limpia"),
        Some(0) => format!("{which}, limpia"),
        Some(before) => format!(
            "{which}, ha cortado {} desde que estuvo limpia",
            counted(i64::from(before), "mata", "matas")
        ),
    }
}

#[must_use]
pub fn sanitised(it: &Sanitised) -> String {
    let mut said = format!("{}: {}", object(it.what), lowered(&agent(&it.agent)));
    if let Some(ppm) = it.strength_ppm {
        said.push_str(&format!(" al {} %", percent(ppm)));
    }
    if let Some(s) = it.contact_s {
        said.push_str(&match s {
            0..120 => format!(", {s} s"),
            s => format!(", {}", bath::minutes(s)),
        });
    }
    let what: Vec<String> = it.materials.iter().map(amount).collect();
    if !what.is_empty() {
        said.push_str(&format!(" ({})", what.join(", ")));
    }
    if !it.long_enough() {
        said.push_str(", menos tiempo del debido");
    }
    if it.misses_virus_on_blade() {
        said.push_str(", no cuenta como libre de virus");
    }
    if it.suspect_source {
        said.push_str(", con sospecha de virus");
    }
    format!("{said}.")
}

#[must_use]
pub fn moved(it: &MaterialsMoved) -> String {
    let several = several(&it.moved);
    let what: Vec<String> = it.moved.iter().map(amount).collect();
    let what = what.join(" y ");
    let said = match (it.from, it.to) {
        (Stage::InUse, Stage::Dirty) => format!("{what} al lavado"),
        (Stage::Clean, Stage::InUse) => format!("{what} de lo limpio"),
        (Stage::New, _) => format!("{what} sin estrenar"),
        (_, Stage::Discarded) => format!("{what} a la basura"),
        (Stage::Uncounted, to) => format!("{what} de más: {}", state(to, several)),
        (from, Stage::Uncounted) => format!("{what} de menos: {}", state(from, several)),
        (_, to) => format!("{what}: {}", state(to, several)),
    };
    if it.apart.is_some() {
        format!("{said}, aparte.")
    } else {
        format!("{said}.")
    }
}

/// What was measured for a mixture: "190 mL al 5,25 %, y agua hasta 2 L."
#[must_use]
pub fn mixed(it: &Sanitised) -> Option<String> {
    let bath = litres(Volume::from_ul(it.bath_ul?));
    let stock = match (it.stock_ul, it.stock_mg) {
        (Some(ul), _) => Amount::Volume(Volume::from_ul(ul)),
        (None, Some(mg)) => Amount::Mass(Mass::from_mg(mg)),
        (None, None) => return None,
    };
    let (figure, unit) = measured(stock);
    let from = it
        .stock_ppm
        .map(|ppm| format!(" al {} %", percent(ppm)))
        .unwrap_or_default();
    Some(format!("{figure} {unit}{from}, y agua hasta {bath}."))
}

/// The tool a clump was cut with, where it was said.
#[must_use]
pub fn cut_with(it: &DivisionOpened) -> Option<String> {
    it.cut_before.map(|before| {
        let tool = Tool {
            mark: it.tool.clone(),
            cut_before: Some(before),
        };
        format!("{}.", self::tool(&tool))
    })
}

/// Whether an agent's strength is typed from a bottle.
#[must_use]
pub fn stock_hint(agent: &Agent) -> &'static str {
    if agent.key.starts_with("chlorine") {
        STOCK_HINT
    } else {
        STOCK_HINT_OTHER
    }
}

/// Keys of the agents that serve an object, the usual one first.
#[must_use]
pub fn agents_for(object: Object) -> Vec<&'static str> {
    let Some(usual) = sanitizers::usual(object) else {
        return Vec::new();
    };
    usual.agent.iter().chain(usual.others).copied().collect()
}

/// "12:10" of an instant.
#[must_use]
pub fn clock(ms: i64, off_min: i16) -> String {
    format::clock(velamen_core::time::minute_of_day(ms, off_min))
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn strengths_read_as_on_a_bottle() {
        assert_eq!(strength(5_000), "0,5 % (5000 ppm)");
        assert_eq!(percent(52_500), "5,25");
        assert_eq!(percent(700_000), "70");
    }

    #[wasm_bindgen_test]
    fn every_agent_has_a_name_and_says_what_it_does_not_reach() {
        for row in sanitizers::AGENTS {
            assert!(!agent(row.key).contains('_'), "{}", row.key);
            assert!(reaches(row).ends_with('.'));
        }
        let alcohol = sanitizers::agent("alcohol").unwrap();
        assert_eq!(
            reaches(alcohol),
            "Alcanza hongos, bacterias; no alcanza esporas, ORSV, CymMV."
        );
    }
}
