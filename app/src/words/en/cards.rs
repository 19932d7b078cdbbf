//! Handwork at the bench in words: what is done, how, and why there. The drawings stand in `screens/cards_drawn.rs`.

pub use crate::words::parts::Card as Words;

pub const TITLE: &str = "How the hands do it";
pub const LINK: &str = "How the hands do it";
pub const ORIGIN: &str = "Common practice of growers, no source, unless one is named. What the plant in front of you shows comes first.";
pub const CARE: &str = "Cut away from the hand that holds. A clean blade and clean gloves for every clump; sap carries viruses.";

pub const CUT_HERE: &str = "cut here";
pub const SPENT: &str = "flowers over";
pub const SPLIT: &str = "split";
pub const EYES: &str = "eyes";
pub const SIDEWAYS: &str = "peel sideways";
pub const WHITE: &str = "white, firm: stays";
pub const HOLLOW: &str = "brown, hollow";
pub const OFF_HERE: &str = "off here";
pub const FEW_ROOTS: &str = "few roots";
pub const OLDEST: &str = "oldest at the rim";
pub const LEAD_ROOM: &str = "room to grow";
pub const BACK_BULBS: &str = "back-bulbs";
pub const WITH_LEAD: &str = "bulbs with the lead";
pub const EYE: &str = "eye stays above";
pub const MIX: &str = "coarse mix";

pub const SPIKE: Words = Words {
    title: "A spent spike comes off low",
    seen: "Two bulbs with a stem between them whose flowers are over; a broken line crosses the stem near its foot.",
    steps: &[
        "When the last flower hangs, follow the stem down to where it leaves the bulb.",
        "Cut two or three centimetres above that, so that the blade stays clear of the bulb and its eyes.",
        "The stump dries and pulls out by itself a few weeks later.",
    ],
};
pub const CUT: Words = Words {
    title: "Where a clump is cut",
    seen: "Bulbs in a row on one rhizome; a broken line between the leafless ones at the back and those with leaves and the lead.",
    steps: &[
        "Pull the clump apart by hand along its rhizomes first; most of it comes without a blade.",
        "Cut only the rhizome, between two bulbs, straight down.",
        "Leave the piece that is to flower its lead and at least the bulbs its group needs; the bench says how many.",
    ],
};
pub const ROOTS: Words = Words {
    title: "Dead roots off, living ones stay",
    seen: "Roots under a bulb: two white ones with green tips, two brown ones with a broken line across their beginning.",
    steps: &[
        "Press each root: white and firm lives, brown and hollow is dead, whatever its length.",
        "Cut dead ones at the rhizome. A thread left of one root shows where new ones may stand; it does no harm.",
        "Leave living ones long. They break less if they are wetted first.",
    ],
};
pub const LEAF: Words = Words {
    title: "An old leaf, without hurting the eyes",
    seen: "A bulb with a leaf split along its middle; arrows show the halves peeled to both sides; an eye at each side of the bulb's foot.",
    steps: &[
        "Split the yellow leaf along its middle from the tip down to the bulb.",
        "Peel one half sideways and round the bulb, then the other, the opposite way.",
        "Pulled straight down it would take the eyes at the foot with it: next year's growths.",
    ],
};
pub const SHORT: Words = Words {
    title: "A shoot with few roots",
    seen: "A shoot with four leaves and two short roots; a broken line crosses the leaves at about two thirds of their length.",
    steps: &[
        "Few roots cannot keep all its leaves: take about a third off each, with a clean blade.",
        "Let the cuts dry. Keep it shaded and the air moist until roots show; water little.",
    ],
};
pub const WAY: Words = Words {
    title: "Which way it grows",
    seen: "A pot from above: three bulbs in a row from the rim, the oldest touching it, and the green lead pointing across the pot.",
    steps: &[
        "Set the oldest bulb against the rim, the lead towards the open side.",
        "Leave room for about two years of growth and no more; a pot too large stays wet.",
        "The rhizome lies on the mix, never under it.",
    ],
};
pub const BACK: Words = Words {
    title: "A back-bulb, set for an offshoot",
    seen: "A bulb standing half in the mix, with an eye just above it from which a shoot comes.",
    steps: &[
        "A firm bulb is alive, a soft or hollow one is dead.",
        "Stand it in coarse mix to a third, its eye above. Shade, moist air, mix barely moist.",
        "It is potted for good when both shoot and root show: three to six months in a cymbidium.",
    ],
};
