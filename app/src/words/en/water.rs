//! Water and feed: what is looked at, who gets none, what goes into a can.

use chrono::NaiveDate;
use velamen_core::event::{Fed, FeedSet, Nitrogen, WaterHow, Watered};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::quantity::{Amount, Volume};
use velamen_core::season::{Season, Warmth};
use velamen_core::view::water::{Bench, BenchState, FeedState, Got};
use velamen_core::water::{By, Factor, Hold, Last, LotWater, Rhythm, RhythmFrom, Stand};
use velamen_core::water_draft::{BoxFault, WaterBox};

use velamen_core::quantity::Unit;

use super::format::{
    celsius, counted, days_ago, fixed, litres_exact, measured, near_day, pot_width, rain, sign,
};

pub const OPEN: &str = "Water";
pub const TITLE: &str = "Water and feed";
pub const HINT: &str = "When to look and lift a pot. Whether it is dry only the hand knows.";
pub const WATERED_ALL: &str = "All watered";
pub const WATERED: &str = "Watered";
pub const EXCEPTIONS: &str = "Exceptions, days";
pub const FEED: &str = "Feed";
pub const FEED_IT: &str = "Feed this bench";
pub const NO_BENCH: &str = "No plants to water";
pub const NO_BENCH_HINT: &str = "Benches show here once plants stand on them.";
pub const WHO: &str = "Who gets it";
pub const WHO_HINT: &str =
    "Marked plants get some. Tap to leave one out, or to take one along that is held.";
pub const HOW: &str = "How";
pub const FLUSH: &str = "Until it runs through";
pub const FLUSH_HINT: &str = "Plain water that takes old salts along.";
pub const OWN_DAYS: &str = "Your own days between looks";
pub const OWN_DAYS_HINT: &str =
    "Goes before every figure here. Empty or 0 leaves it to what is usual.";
pub const OWN_FEED_DAYS: &str = "Your own days between feeds";
pub const KEEP_DAYS: &str = "Keep the days";
pub const NOT_DAYS: &str = "Type whole days, such as 4.";
pub const PRACTICE: &str =
    "These days are common practice, no source: a beginning, until you set your own.";
pub const WHICH: &str = "Which feed";
pub const NO_FEED: &str = "Without a label";
pub const FEEDS: &str = "Feeds";
pub const FEEDS_HINT: &str =
    "What the label says of nitrogen, so that a can is measured by what the plants get.";
pub const ANOTHER: &str = "Another feed";
pub const ADD: &str = "Add the feed";
pub const ADDED: &str = "the feed";
pub const NAME: &str = "What you call it";
pub const NPK: &str = "The three figures";
pub const NPK_HINT: &str = "As they stand on it, such as 20-10-20.";
pub const MEASURED_BY: &str = "Measured out";
pub const WEIGHED: &str = "Weighed";
pub const BY_VOLUME: &str = "By volume";
pub const NITROGEN: &str = "Nitrogen, N";
pub const NITROGEN_HINT: &str = "The first of the three figures. A liquid whose label gives only per cent of weight is weighed.";
pub const PER_CENT: &str = "%";
pub const GRAMS_A_LITRE: &str = "g a litre";
pub const LABEL_EC: &str = "Conductivity, if the label says";
pub const LABEL_EC_HINT: &str = "What 1 g or 1 mL in a litre adds.";
pub const EC_UNIT: &str = "mS/cm";
pub const PPM: &str = "Nitrogen wanted";
pub const PPM_UNIT: &str = "mg/L (ppm)";
pub const INTO: &str = "Into";
pub const A_CAN: &str = "A can";
pub const AN_INJECTOR: &str = "Stock of an injector";
pub const CAN: &str = "The can is made up to";
pub const STOCK: &str = "The stock is made up to";
pub const TIMES: &str = "The injector is set to 1 to";
pub const TIMES_HINT: &str = "1:100 makes a litre of stock a hundred litres.";
pub const EC: &str = "Conductivity as measured";
pub const WATER_EC: &str = "Conductivity of the water alone";
pub const FED: &str = "Fed";
pub const MAY_NOT_DISSOLVE: &str =
    "So much may not dissolve in the stock: make up more stock, or set the injector lower.";
pub const STRONG: &str = "That is strong for orchids.";
pub const CHLORINE: &str = "Never into a tub or can that held chlorine: with acid or ammonium feed it gives off poison gas. The label comes first.";
pub const FLUSH_DUE: &str = "Several feeds since plain water ran through: flush first.";
pub const NO_MORE: &str = "No longer used";
pub const CHANGE: &str = "Keep the change";
pub const OF_LOT: &str = "Water";
pub const NOTHING_YET: &str = "No water on record yet.";
pub const UNDER_COVER: &str = "Put under cover";
pub const THE_BENCH: &str = "Water and feed here";

/// How water comes.
#[must_use]
pub fn how(how: WaterHow) -> &'static str {
    match how {
        WaterHow::Hose => "Hose",
        WaterHow::Can => "Can",
        WaterHow::Overhead => "From above",
        WaterHow::Dipped => "Dipped",
        WaterHow::Drip => "Drip",
        WaterHow::Rain => "The rain did it",
    }
}

fn lots(count: usize) -> String {
    counted(i64::try_from(count).unwrap_or(i64::MAX), "lot", "lots")
}

/// What a bench asks for: "Look and lift a pot: 5 of 12 lots".
#[must_use]
pub fn bench(bench: &Bench) -> String {
    match bench.state {
        BenchState::Late { .. } | BenchState::Look if bench.look == bench.lots => {
            "Look and lift a pot".to_owned()
        }
        BenchState::Late { .. } | BenchState::Look => {
            format!(
                "Look and lift a pot: {} of {}",
                bench.look,
                lots(bench.lots)
            )
        }
        BenchState::Later { .. } => "Not yet to be looked at".to_owned(),
        BenchState::Nothing => "Nothing to water here".to_owned(),
    }
}

/// Its state for a screen reader.
#[must_use]
pub fn state(state: BenchState) -> String {
    match state {
        BenchState::Late { days } => format!("{} past the usual", counted(days, "day", "days")),
        BenchState::Look => "due today".to_owned(),
        BenchState::Later { days } => format!("in {}", counted(days, "day", "days")),
        BenchState::Nothing => "nothing".to_owned(),
    }
}

/// What the last water was: "watered yesterday", "12 mm of rain on Tuesday".
#[must_use]
pub fn last(last: Last, today: NaiveDate) -> String {
    let when = days_ago(last.on, today);
    match last.by {
        By::Water | By::First => format!("watered {when}"),
        By::Feed { ppm: Some(ppm) } => format!("fed {when}, {ppm} mg/L of nitrogen"),
        By::Feed { ppm: None } => format!("fed {when}"),
        By::Rain { um } => format!("{} of rain {when}", millimetres(um)),
    }
}

fn millimetres(um: u32) -> String {
    format!("{} {}", rain(um), sign(Unit::Millimetre))
}

/// Why a bench stands as it does.
#[must_use]
pub fn why(bench: &Bench, rained_at: Option<&str>, today: NaiveDate) -> String {
    let usual = match bench.days {
        (0, 0) => None,
        (a, b) if a == b => Some(format!("every {}", counted(i64::from(a), "day", "days"))),
        (a, b) => Some(format!("every {a} to {b} days")),
    };
    let last = match bench.last {
        Some(it) => last(it, today),
        None => "nothing on record".to_owned(),
    };
    let first = match bench.first {
        0 => None,
        count => Some(format!("first water for {}", lots(count))),
    };
    let rest = match bench.look_at_rest {
        0 => None,
        _ => Some("at rest: look for shrivelling".to_owned()),
    };
    let gauge = bench.rained.zip(rained_at);
    let rained = gauge.map(|(rain, at)| {
        let when = days_ago(rain.on, today);
        format!("{} of rain {when}, read at {at}", millimetres(rain.um))
    });
    let parts = [Some(last), usual, first, rest, rained];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(" · ")
}

/// What must not be done yet, and on a bench open to rain what to do about it.
#[must_use]
pub fn held(until: &str, open_to_rain: bool) -> String {
    if open_to_rain {
        format!("{UNDER_COVER}. No water before {until}")
    } else {
        format!("No water before {until}")
    }
}

/// What was treated is not touched yet.
#[must_use]
pub fn hands_off(until: &str) -> String {
    format!("Hands off until {until}")
}

/// "Rot seen yesterday: no water before it is looked at again".
#[must_use]
pub fn kept_dry(seen_on: NaiveDate, today: NaiveDate) -> String {
    format!(
        "Rot seen {}: no water before it is looked at again",
        days_ago(seen_on, today)
    )
}

/// "At rest until 31 January: dry or nearly so".
#[must_use]
pub fn rest(until: Option<NaiveDate>, today: NaiveDate) -> String {
    match until {
        Some(until) => format!("At rest until {}: dry or nearly so", near_day(until, today)),
        None => "At rest: dry or nearly so".to_owned(),
    }
}

/// How a lot stands, in a line.
#[must_use]
pub fn lot(water: &LotWater, no_feed: Option<Hold>, feeding: bool, today: NaiveDate) -> String {
    if let Some(Hold::NoFeedBefore(until)) = no_feed.filter(|_| feeding) {
        return format!("No feed before {}", near_day(until, today));
    }
    let stands = match water.stand {
        Stand::Held(Hold::NoWaterBefore(until)) => held(&near_day(until, today), false),
        Stand::Held(Hold::KeptDry(seen_on)) => kept_dry(seen_on, today),
        Stand::Held(Hold::Rest(until)) => rest(until, today),
        Stand::Held(Hold::NoFeedBefore(until)) => {
            format!("No feed before {}", near_day(until, today))
        }
        Stand::Look { .. } if water.is_first => "First water may be given".to_owned(),
        Stand::Look { late: 0 } => "Look today".to_owned(),
        Stand::Look { late } => format!("Look: {} past the usual", counted(late, "day", "days")),
        Stand::Later { days } => format!("Look in {}", counted(days, "day", "days")),
    };
    match water.last {
        Some(it) => format!("{stands} · {}", last(it, today)),
        None => stands,
    }
}

/// What the days rest on.
#[must_use]
pub fn rhythm(rhythm: &Rhythm) -> String {
    let days = counted(i64::from(rhythm.days), "day", "days");
    match &rhythm.from {
        RhythmFrom::OwnBench => format!("Every {days}: your own for this bench."),
        RhythmFrom::OwnGroup => format!("Every {days}: your own for this group of plants."),
        RhythmFrom::Usual { days: usual, by } => {
            let usual = counted(i64::from(*usual), "day", "days");
            let by: Vec<String> = by.iter().map(factor).collect();
            if by.is_empty() {
                format!("About every {days}, as is usual for the group.")
            } else {
                format!(
                    "About every {days}: {usual} for the group, {}.",
                    by.join(", ")
                )
            }
        }
    }
}

fn factor(factor: &Factor) -> String {
    let more = if factor.percent() > 100 {
        "later"
    } else {
        "sooner"
    };
    match factor {
        Factor::Pot { mm, .. } => format!("{more} for a {} pot", pot_width(*mm)),
        Factor::Mix { .. } => format!("{more} for the mix"),
        Factor::Read { mean, .. } => format!("{more} at {} in the house", celsius(mean.mc)),
        Factor::Season { season, .. } => format!("{more} in {}", self::season(*season)),
        Factor::House { warmth, .. } => format!("{more} in {}", house(*warmth)),
    }
}

const fn season(season: Season) -> &'static str {
    match season {
        Season::Spring => "spring",
        Season::Summer => "summer",
        Season::Autumn => "autumn",
        Season::Winter => "winter",
    }
}

const fn house(warmth: Warmth) -> &'static str {
    match warmth {
        Warmth::Cool => "a cool house",
        Warmth::Intermediate => "an intermediate house",
        Warmth::Warm => "a warm house",
    }
}

/// The feed of a bench in a line.
#[must_use]
pub fn feed(bench: &Bench, today: NaiveDate) -> String {
    let feed = &bench.feed;
    let last = feed
        .last_on
        .map(|on| format!("last {}", days_ago(on, today)));
    let every = format!("every {}", counted(i64::from(feed.days), "day", "days"));
    let weak =
        (feed.weak > 0).then(|| format!("the weakest for {}, divided lately", lots(feed.weak)));
    let flush = feed.flush_due.then(|| "flush first".to_owned());
    let parts = [last, Some(every), weak, flush];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(" · ")
}

/// Whether a bench is to be fed, as a row of its own.
#[must_use]
pub const fn feed_is_due(state: FeedState) -> bool {
    matches!(state, FeedState::Due { .. })
}

/// Why the feed begins where it does.
#[must_use]
pub fn ppm_hint(weak: usize, last: Option<u32>) -> String {
    match (weak, last) {
        (0, None) => "100 is usual, common practice, no source.".to_owned(),
        (0, Some(last)) => format!("Last time {last} here."),
        (weak, _) => format!(
            "{} divided lately: the weakest, 50, common practice, no source. Or leave them out and feed the others as usual.",
            lots(weak)
        ),
    }
}

/// What is measured out: figure and unit.
#[must_use]
pub fn amount(amount: Amount) -> (String, &'static str) {
    match amount {
        Amount::Mass(mass) => measured(mass.mg(), "g", "kg"),
        Amount::Volume(volume) => measured(volume.ul(), "mL", "L"),
    }
}

/// "g, made up to 10 L".
#[must_use]
pub fn made_up(unit: &str, to: Volume) -> String {
    format!("{unit}, made up to {}", litres_exact(to))
}

/// How far it reaches.
#[must_use]
pub fn reaches(volume: Volume) -> String {
    format!("Enough for {} at the plants.", litres_exact(volume))
}

/// The conductivity to be expected.
#[must_use]
pub fn expected(us_cm: u32, with_water: bool) -> String {
    let of = if with_water {
        "water and feed together"
    } else {
        "on top of the water's own"
    };
    format!("Expect about {} {EC_UNIT}, {of}.", ec(us_cm))
}

/// Microsiemens as they are read off: "0.85".
#[must_use]
pub fn ec(us_cm: u32) -> String {
    fixed(i64::from(us_cm / 10), 2)
}

/// What a box wants.
#[must_use]
pub fn fault(fault: BoxFault) -> String {
    let name = |of: WaterBox| match of {
        WaterBox::Nitrogen => "the nitrogen wanted",
        WaterBox::Litres => "the litres",
        WaterBox::Times => "the setting of the injector",
        WaterBox::Ec => "the conductivity",
        WaterBox::WaterEc => "the conductivity of the water",
        WaterBox::Name => "what you call it",
        WaterBox::Content => "the nitrogen of the label",
    };
    match fault {
        BoxFault::Missing(of) => format!("Fill in {}.", name(of)),
        BoxFault::NotANumber(of) => {
            format!("Type {} as a number, such as 12 or 0.8.", name(of))
        }
    }
}

/// A feed of the shelf: "20 % N" or "70 g N a litre".
#[must_use]
pub fn nitrogen(nitrogen: Nitrogen) -> String {
    if nitrogen.by_litre {
        let (figure, unit) = measured(nitrogen.mg, "g", "kg");
        format!("{figure} {unit} N a litre")
    } else {
        let (figure, _) = measured(nitrogen.mg / 10, "", "");
        format!("{figure} % N")
    }
}

/// What is said once a bench got it.
#[must_use]
pub fn said(done: &str, place: &str, left_out: usize) -> String {
    match left_out {
        0 => format!("{done}: {place}."),
        count => format!("{done}: {place}, without {}.", lots(count)),
    }
}

/// How many get it.
#[must_use]
pub fn getting(given: usize, all: usize) -> String {
    format!("{given} of {}", lots(all))
}

/// "3 benches to water".
#[must_use]
pub fn open(benches: usize) -> String {
    match benches {
        0 => OPEN.to_owned(),
        count => format!("{OPEN} ({count})"),
    }
}

/// What a lot got, for its page.
#[must_use]
pub fn got(got: &Got) -> String {
    let how = how(got.how).to_lowercase();
    match (got.fed, got.flush) {
        (Some(Some(ppm)), _) => format!("Fed, {ppm} mg/L of nitrogen, {how}"),
        (Some(None), _) => format!("Fed, {how}"),
        (None, true) => format!("Flushed, {how}"),
        (None, false) => format!("Watered, {how}"),
    }
}

fn where_or_who(
    place: Option<PlaceId>,
    named: &[LotId],
    except: usize,
    lots_called: &dyn Fn(LotId) -> String,
    places: &dyn Fn(PlaceId) -> String,
) -> String {
    let what = match place {
        Some(place) => places(place),
        None => {
            let named: Vec<String> = named.iter().map(|lot| lots_called(*lot)).collect();
            named.join(", ")
        }
    };
    match except {
        0 => what,
        count => format!("{what} without {}", lots(count)),
    }
}

/// A watering as a sentence of the Book.
#[must_use]
pub fn watered(
    it: &Watered,
    lots: &dyn Fn(LotId) -> String,
    places: &dyn Fn(PlaceId) -> String,
) -> String {
    let done = match (it.how, it.flush) {
        (WaterHow::Rain, _) => "Watered by the rain",
        (_, true) => "Flushed with plain water",
        (_, false) => "Watered",
    };
    let who = where_or_who(it.place, &it.lots, it.except.len(), lots, places);
    format!("{done}: {who}.")
}

/// A feed that was given, as a sentence of the Book.
#[must_use]
pub fn fed(it: &Fed, lots: &dyn Fn(LotId) -> String, places: &dyn Fn(PlaceId) -> String) -> String {
    let who = where_or_who(it.place, &it.lots, it.except.len(), lots, places);
    let ppm = it
        .nitrogen_ppm
        .map(|ppm| format!(", {ppm} mg/L of nitrogen"));
    let with = if it.feed.name.is_empty() {
        String::new()
    } else {
        format!(" with {}", it.feed.name)
    };
    format!("Fed{with}: {who}{}.", ppm.unwrap_or_default())
}

/// What else is on record of it: what was measured, and conductivity.
#[must_use]
pub fn fed_beside(it: &Fed) -> Vec<Option<String>> {
    let measured = Amount::Mass;
    let mass = it.amount_mg.map(velamen_core::quantity::Mass::from_mg);
    let volume = it.amount_ul.map(Volume::from_ul).map(Amount::Volume);
    let amount = mass.map(measured).or(volume);
    let measured = amount.zip(it.water_ul).map(|(amount, ul)| {
        let (figure, unit) = self::amount(amount);
        let made_up = made_up(unit, Volume::from_ul(ul));
        match it.injector {
            Some(times) => format!("{figure} {made_up} of stock, 1:{times}."),
            None => format!("{figure} {made_up}."),
        }
    });
    let ec = it
        .ec_us_cm
        .map(|us_cm| format!("{} {EC_UNIT} measured.", ec(us_cm)));
    let water = it
        .water_ec_us_cm
        .map(|us_cm| format!("The water alone {} {EC_UNIT}.", self::ec(us_cm)));
    vec![measured, ec, water]
}

/// A feed put on the shelf, as a sentence of the Book.
#[must_use]
pub fn feed_set(it: &FeedSet) -> String {
    match (&it.name, it.retired) {
        (_, Some(true)) => "A feed is no longer used.".to_owned(),
        (Some(name), _) => match it.nitrogen {
            Some(content) => format!("Feed: {name}, {}.", nitrogen(content)),
            None => format!("Feed: {name}."),
        },
        (None, _) => "A feed was changed.".to_owned(),
    }
}
