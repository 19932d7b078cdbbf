//! The Shed: places, pots, mixes, protocols, this phone; and the grower's own tasks.

use velamen_core::event::{Cover, PieceClass, Shade};
use velamen_core::reference::taxa::Habit;
use velamen_core::season::Warmth;
use velamen_core::task::Trigger;
use velamen_core::view::protocol::EditEffect;

use velamen_core::quantity::Unit;

use super::format::{counted, length, sign};
use super::trade;

pub const PLACES: &str = "Places";
pub const PLACES_HINT: &str = "In the order you walk them.";
pub const POTS: &str = "Pots";
pub const MIXES: &str = "Mixes";
pub const PROTOCOLS: &str = "Protocols";
pub const PHONE: &str = "This phone";
pub const ADD_PLACE: &str = "Add this place";
pub const PLACE_NAME: &str = "Name of the place";
pub const PLACE_ADDED: &str = "place added";
pub const AREA: &str = "Area of the benches";
pub const AREA_HINT: &str = "For sprays by the area.";
pub const KEEP_AREA: &str = "Keep the area";
pub const NO_AREA: &str = "Type an area: 12, 12.5 m², 130 ft².";
pub const RENAME: &str = "Keep this name";
pub const EARLIER: &str = "Earlier on the walk";
pub const LATER: &str = "Later on the walk";
pub const RETIRE: &str = "No longer used";
pub const WARMTH: &str = "Warmth";
pub const COVER: &str = "Cover";
pub const ROOFED: &str = "Roofed";
pub const OPEN_TO_RAIN: &str = "Open to rain";
pub const CHANGED: &str = "Changed.";
pub const POT_NAME: &str = "What you call it";
pub const TOP: &str = "Across the top";
pub const BASE: &str = "Across the base";
pub const HEIGHT: &str = "Height";
pub const INSIDE: &str = "Measured inside, such as 17 cm, 170 mm or 17,5 cm.";
pub const SHAPE: &str = "Its shape";
pub const ROUND_POT: &str = "Round";
pub const SQUARE_POT: &str = "Square";
pub const BY_WATER: &str = "By the water it holds";
pub const HOLDS: &str = "Water it holds";
pub const HOLDS_HINT: &str =
    "Close the holes and fill it to the brim: a litre of water weighs a kilogram.";
pub const BRIMFUL: &str = "to the brim";
pub const LIGHT_HERE: &str = "Light";
pub const MIX_PARTS: &str = "What is in it, by volume";
pub const MIX_PARTS_HINT: &str = "Tap what goes in; the shares make 100 %. May be left empty.";
pub const PARTS_INERT: &str = "does not rot";
pub const NURSERY: &str = "The nursery";
pub const NURSERY_NAME: &str = "Name of the nursery";
pub const POISONS: &str = "Poisons number";
pub const POISONS_HINT: &str = "Whom to call after contact with a product. The label may name one.";
pub const KEEP_NURSERY: &str = "Keep this";
pub const TASK_ON: &str = "On another day";
pub const TASK_REPEAT: &str = "Again";
pub const TASK_ONCE: &str = "Once";
pub const TASK_WEEKLY: &str = "Every week";
pub const TASK_FORTNIGHTLY: &str = "Every two weeks";
pub const TASK_MONTHLY: &str = "Every 30 days";
pub const TASK_WHERE: &str = "Where";
pub const TASK_NOWHERE: &str = "Nowhere in particular";
pub const TASK_LOT: &str = "For a lot";
pub const TASK_LOT_HINT: &str = "Name or code; may be left empty.";
pub const WINDOW: &str = "First and last day";
pub const FIRST_DAY: &str = "Not before day";
pub const LAST_DAY: &str = "Late after day";
pub const SOURCE: &str = "Where these days come from";
pub const DISCARD: &str = "Leave it as it was";
pub const CHANGE_IT: &str = "Change it";
pub const KEEP_CHANGE: &str = "Keep this change";
pub const AS_POTTED: &str = "From now on. What is potted already keeps what was written down then.";
pub const ADD_POT: &str = "Add this pot";
pub const POT_ADDED: &str = "pot added";
pub const MIX_NAME: &str = "Name of the mix";
pub const MIX_LIFE: &str = "Months until it breaks down";
pub const ADD_MIX: &str = "Add this mix";
pub const MIX_ADDED: &str = "mix added";
pub const DAYS_AFTER: &str = "Days after";
pub const ON: &str = "on";
pub const OFF: &str = "off";
pub const IN_USE: &str = "In use";
pub const FOR_TOUGH: &str = "For tough kinds";
pub const TOUGH_SAME: &str = "The same days";
pub const TOUGH_LEFT_OUT: &str = "Left out";
pub const TOUGH_OTHER: &str = "Days of its own";
pub const TOUGH_DAYS: &str = "Days after, tough kinds";
pub const TOUGH_FIRST: &str = "Not before day, tough kinds";
pub const TOUGH_LAST: &str = "Late after day, tough kinds";
pub const KEEP: &str = "Keep these days";
pub const KEPT: &str = "Kept. What was decided stays decided; nothing moves to before today.";
pub const THEME: &str = "Light or dark";
pub const AS_PHONE: &str = "As the phone";
pub const LIGHT: &str = "Light";
pub const DARK: &str = "Dark";
pub const HAND: &str = "Hand";
pub const RIGHT: &str = "Right";
pub const LEFT: &str = "Left";
pub const BENCH_SIZE: &str = "Large keys for wet hands";
pub const BENCH_SIZE_HINT: &str = "On a large screen with a mouse too.";
pub const AT_THE_BENCH: &str = "At the bench";
pub const STAY_AWAKE: &str = "Screen stays on";
pub const STAY_AWAKE_HINT: &str = "While this is open. It costs battery.";
pub const LOCK_KEY: &str = "A lock on every screen";
pub const LOCK_KEY_HINT: &str = "At the top, against drips and in a pocket.";
pub const QUIET: &str = "No tones";
pub const QUIET_HINT: &str = "The end of a soak rings all the same.";
pub const LOCK_NOW: &str = "Lock the glass";
pub const LOCKED: &str = "Locked against drips";
pub const LOCKED_HINT: &str =
    "Wipe the glass. Then slide a finger over 1, 2 and 3, or tap them one after the other.";
pub const CODES: &str = "Codes from this phone begin with";
pub const TASK: &str = "A task";
pub const TASK_TEXT: &str = "What is to be done";
pub const TASK_DAY: &str = "When";
pub const TODAY: &str = "Today";
pub const TOMORROW: &str = "Tomorrow";
pub const IN_A_WEEK: &str = "In a week";
pub const IN_A_MONTH: &str = "In a month";
pub const TASK_PAST: &str = "That day is past. Note it all the same?";
pub const TASK_ANYWAY: &str = "Note it all the same";
pub const ADD_TASK: &str = "Add this task";
pub const TASK_ADDED: &str = "task added";

/// A key of the lock, for a screen reader.
#[must_use]
pub fn unlock_key(key: u8) -> String {
    format!("Unlock: {key} of 3")
}

/// Warmth of a house by its nights.
#[must_use]
pub fn warmth(warmth: Warmth) -> &'static str {
    match warmth {
        Warmth::Cool => "Cool nights",
        Warmth::Intermediate => "Mild nights",
        Warmth::Warm => "Warm nights",
    }
}

/// "from day 3 to day 10".
#[must_use]
pub fn timing(from: i32, until: i32) -> String {
    format!("from day {from} to day {until}")
}

/// Which lots a step is for: "To flower, Starters; with bulbs". Empty for all.
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
        Habit::Bulbs => "with bulbs",
        Habit::Canes => "with canes",
        Habit::Growths => "without bulbs",
        Habit::Monopodial => "on one stem",
    }
}

/// A pot's inside measures, in micrometres as kept: "Round, 170 / 120 / 130 mm".
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
        Shade::Bright => "Bright",
        Shade::Medium => "Medium light",
        Shade::Deep => "Deep shade",
    }
}

/// What sets a protocol going.
#[must_use]
pub fn trigger(trigger: Trigger) -> &'static str {
    match trigger {
        Trigger::Divided => "When pieces were potted",
        Trigger::Repotted => "When a lot was potted on",
        Trigger::Treated => "When a lot was treated",
        Trigger::Received => "When a lot came",
        Trigger::Standing => "For lots already in their pots",
        Trigger::WantsBench => "When a plant wants the bench",
        Trigger::Found => "When something was found",
    }
}

/// "6 of 9 steps in use".
#[must_use]
pub fn steps_in_use(on: usize, all: usize) -> String {
    format!("{on} of {} in use", steps(all))
}

fn steps(count: usize) -> String {
    counted(i64::try_from(count).unwrap_or(i64::MAX), "step", "steps")
}

fn tasks(count: usize) -> String {
    counted(
        i64::try_from(count).unwrap_or(i64::MAX),
        "open task",
        "open tasks",
    )
}

/// What keeping an edited protocol would do.
#[must_use]
pub fn effect(effect: EditEffect) -> String {
    if effect.is_nothing() {
        return "No open task moves.".to_owned();
    }
    let said = [
        (effect.moved, "would move"),
        (effect.opened, "would open"),
        (effect.dropped, "would fall away"),
    ];
    let said: Vec<String> = said
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, what)| format!("{} {what}", tasks(count)))
        .collect();
    format!("{}.", said.join(", "))
}

/// A component of a mix; one of the grower's own stands as typed.
#[must_use]
pub fn component(key: &str) -> String {
    let known = match key {
        "bark_seedling" => "Seedling bark",
        "bark_small" => "Small bark",
        "bark_medium" => "Medium bark",
        "bark_coarse" => "Coarse bark",
        "bark_with_fines" => "Bark with fines",
        "coir_chunk" => "Coconut husk chunks",
        "coir_fines" => "Coconut fines",
        "sphagnum_long" => "Long-fibre sphagnum",
        "perlite_coarse" => "Coarse perlite",
        "pumice" => "Pumice",
        "lava" => "Lava",
        "gravel" => "Gravel",
        "granite_grit" => "Granite grit",
        "charcoal" => "Charcoal",
        "expanded_clay" => "Expanded clay",
        own => own,
    };
    known.to_owned()
}

/// Particle size: "3 to 6 mm".
#[must_use]
pub fn grade(from_mm: u16, to_mm: u16) -> String {
    format!("{from_mm} to {to_mm} mm")
}

/// "18 to 24 months", "24 months".
#[must_use]
pub fn months(from: u16, to: u16) -> String {
    if from == to {
        counted(i64::from(from), "month", "months")
    } else {
        format!("{from} to {to} months")
    }
}

/// "70 % medium bark".
#[must_use]
pub fn share(percent: u16, component: &str) -> String {
    format!("{percent} % {}", self::component(component).to_lowercase())
}

/// How far the shares make the whole.
#[must_use]
pub fn shares_total(percent: u32) -> String {
    match percent {
        100 => "Together 100 %.".to_owned(),
        0..100 => format!("Together {percent} %; {} % missing.", 100 - percent),
        _ => format!("Together {percent} %; {} % too many.", percent - 100),
    }
}

/// The pot in a sentence, for who cannot see its drawing.
#[must_use]
pub fn pot_text(top: &str, base: &str, height: &str, litres: &str) -> String {
    format!(
        "A pot {top} across the top, {base} across the base, {height} high; it holds {litres} to the brim."
    )
}

/// How the shape of a pot is called.
fn shape(square: bool) -> &'static str {
    if square { SQUARE_POT } else { ROUND_POT }
}

pub const FALLS_OVER: &str = "Will it fall over?";
pub const PLANT_HIGH: &str = "Height above the mix, cm";
pub const PLANT_WEIGHT: &str = "Weight of the plant, g";
pub const HOLDS_BARE: &str = "It holds without stone.";
pub const WIDER_POT: &str = "No layer of stone in this pot would hold it: take a wider or heavier one, or stake and wedge it.";
pub const FALLS_HOW: &str = "A plastic pot, watered, the plant's weight at half its height. Twenty degrees is taken as holding: common practice, no source. Stone costs room for roots; under a fine mix it holds water up.";

/// How far it tips without stone.
#[must_use]
pub fn tips_at(cdeg: i32) -> String {
    format!("Without stone it falls when tilted by {}.", degrees(cdeg))
}

/// How far it tips with the usual layer.
#[must_use]
pub fn tips_at_with(cdeg: i32, stone: &str) -> String {
    format!("With {stone} of stone, by {}.", degrees(cdeg))
}

/// How much stone would hold it.
#[must_use]
pub fn stone_holds(stone: &str) -> String {
    format!("{stone} of stone hold it.")
}

fn degrees(cdeg: i32) -> String {
    format!("{} degrees", (cdeg + 50) / 100)
}
