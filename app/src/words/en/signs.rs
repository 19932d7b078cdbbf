//! Signs of trouble: what each is called, and what to do first. Culture comes before a product.

/// A sign's name and the first answer to it.
fn row(key: &str) -> Option<(&'static str, &'static str)> {
    Some(match key {
        "black_spots" => (
            "Black spots",
            "Set it apart and test before it is divided. Old spots never heal: judge by the new leaves.",
        ),
        "soft_rot" => (
            "Soft, wet rot",
            "Cut two centimetres into sound tissue with a clean blade, let the cut dry, keep water off the leaves. Clean hands and blade after it.",
        ),
        "black_rot" => (
            "Black rot from the base",
            "Stop watering. Cut well below the black, let it dry, set it apart from the drip of others.",
        ),
        "leaf_spots" => (
            "Leaf spots",
            "Take off the worst leaves, keep leaves dry overnight, give more air.",
        ),
        "scale" => (
            "Scale",
            "Strip the dry sheaths, brush the scale off, set it apart. One treatment never reaches the eggs.",
        ),
        "soft_scale" => (
            "Brown domes, sticky",
            "Wipe them off, and keep ants away: they carry them about.",
        ),
        "mealybug" => (
            "Mealybug",
            "Set it apart and wipe off what is seen. Look under sheaths and in the mix as well.",
        ),
        "mites" => (
            "Mites",
            "Wash the undersides with water and raise the humidity.",
        ),
        "false_mites" => (
            "Pitted, bronzed leaves",
            "Wash the undersides. There is no web to look for: use a lens.",
        ),
        "aphids" => (
            "Aphids",
            "Wash them off spikes and buds with water. Look at the neighbours.",
        ),
        "thrips" => (
            "Thrips",
            "Take off the worst flowers and close them in a bag. Hang a sticky card to count by.",
        ),
        "slugs" => (
            "Slugs or snails",
            "Look by lamplight and pick them off. Small ones live in the mix: fresh mix helps.",
        ),
        "streaks" => (
            "Streaks or mosaic",
            "Set it apart and test it. Cut nothing with its blade. There is no cure.",
        ),
        "colour_break" => (
            "Broken flower colour",
            "Set it apart and test it. Cut nothing with its blade. There is no cure.",
        ),
        "flecks" => (
            "Pale or dead flecks",
            "Set it apart and look for flat mites with a lens: they carry it.",
        ),
        "ring_spots" => (
            "Rings on leaves",
            "Set it apart and look for thrips and aphids: they carry it.",
        ),
        "brown_spots" => (
            "Wet brown spots, yellow rim",
            "Cut into sound tissue, let it dry, no water from above.",
        ),
        "purple_ring" => (
            "Purple ring in the rhizome",
            "Cut back until the cut is clean, a clean blade for each cut. A ring all through: throw it away.",
        ),
        "root_rot" => (
            "Brown, dry root rot",
            "Fresh mix, fewer waterings. Cut dead roots away.",
        ),
        "collar_rot" => (
            "Rot at the base, small seeds",
            "Throw away plant, mix and pot together. Do not shake it out indoors.",
        ),
        "sunken_spots" => (
            "Sunken spots in rings",
            "Cut the leaf back, give more air. It comes to plants that are short of light or roots.",
        ),
        "petal_spots" => (
            "Specks on petals",
            "Take off the flowers. Warmer, drier and moving air at night.",
        ),
        "sooty_mould" => (
            "Black film on leaves",
            "It grows on what sucking insects drop: look for scale, mealybug and aphids above it.",
        ),
        "mix_mould" => (
            "White mat in the mix",
            "The mix is breaking down and sheds water: repot it.",
        ),
        "gnats" => (
            "Small flies from the mix",
            "Keep it drier. Old mix feeds them: repot it.",
        ),
        "ants" => (
            "Ants",
            "Look for what they tend: scale, mealybug, aphids. Bait away from the pots.",
        ),
        "chewed" => (
            "Chewed flowers or growths",
            "Pick them off by hand, early or by lamplight. Cut away a growth that is bored.",
        ),
        "burnt" => (
            "Sun, cold or salt marks",
            "Nothing lives in it. Write down where it stood: half of what looks ill is culture.",
        ),
        "root_loss" => (
            "Roots gone, leaves pleated",
            "Bring it to the bench: out of the old mix, dead roots off. Water will not mend it.",
        ),
        "root_bound" => ("Root-bound", "Bring it to the bench in its season."),
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
        "leaf" => "Leaf",
        "growth" => "New growth",
        "bulb" => "Bulb",
        "rhizome" => "Rhizome",
        "root" => "Roots",
        "base" => "Base",
        "spike" => "Spike",
        "flower" => "Flower",
        "mix" => "In the mix",
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
