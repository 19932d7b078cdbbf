//! The first repot, led step by step.

pub use crate::words::parts::Led;

pub const TITLE: &str = "The first clump";
pub const OFFER: &str = "Be led through it on a clump of your own: at each step, what the hands do and what the book asks.";
pub const BEGIN: &str = "Lead me through";
pub const NOT_NOW: &str = "Not now";
pub const SHOW: &str = "Show how";
pub const PUT_AWAY: &str = "Go on without help";

pub const BARE: Led = Led {
    hands: "Pieces lie bare: into their pots with them, before the next clump.",
    asks: "\"Pot them\" below goes on where you stopped.",
};
pub const GO_ON: Led = Led {
    hands: "A clump is on the bench already: finish it before the next one.",
    asks: "\"Go on\" below leads back to where you stopped.",
};
pub const CLEAN: Led = Led {
    hands: "Wipe blades, gloves and table, and let the alcohol dry.",
    asks: "The book asks how often you take a clean blade. A key below says it for today.",
};
pub const BRING: Led = Led {
    hands: "Choose a clump that fills its pot, and lift it with two hands if it is wet.",
    asks: "Then \"A clump to the bench\": the book asks which plant it was.",
};
pub const OPEN: Led = Led {
    hands: "Spent spikes and old leaves off, the pot off, and the tray tag beside the clump.",
    asks: "The book asks for the lot, or how many pots grew together if it was never booked.",
};
pub const PIECES: Led = Led {
    hands: "Pull the clump apart by hand; cut only the rhizome between two bulbs. Dead roots off.",
    asks: "The book asks how many pieces there are of each kind. A tap for each, as it comes off.",
};
pub const POTS: Led = Led {
    hands: "Stone first. The oldest end against the rim, damp mix around the roots, the rhizome on top.",
    asks: "The book asks how many pieces, which pot and mix, and where they go. Write the code on the label.",
};
pub const BACK_BULBS: Led = Led {
    hands: "Back-bulbs share a tray: a third deep in coarse mix, the eye above it.",
    asks: "The book asks how many pieces and trays, and where they go. Write the code on the label.",
};
pub const LABELS: Led = Led {
    hands: "A label into every pot. Shade, and no water until the Round says so.",
    asks: "The book asks which labels are written. \"Done\" ends the clump; what comes next is on the Round.",
};
