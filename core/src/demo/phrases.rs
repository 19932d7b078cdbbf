//! What the example says in words: how its places, products and people are called, its tasks and its reasons.
//!
//! They come from outside, as every sentence of the program does, so that the example speaks the language of the phone
//! it is made on. Each is a field: a language that leaves one out does not compile. The first language stands here,
//! for the checks as well; plants have their Latin names in all of them.

/// The phrases of one language.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Phrases {
    /// What the second phone is called.
    pub second_phone: &'static str,
    /// The places, in walking order: two benches of the cool house, bench and shelf of the intermediate one, the bench
    /// in the rain, the place apart.
    pub places: [&'static str; 6],
    /// What stands on the shelf, by its label and by what acts in it: copper, sulphur, phosphonate, soap.
    pub products: [(&'static str, &'static str); 4],
    /// Who takes plants.
    pub buyers: [&'static str; 4],
    /// Tasks of the grower's own.
    pub look_for_labels: &'static str,
    pub wash_pots: &'static str,
    pub order_bark: &'static str,
    pub bath_for_spots: &'static str,
    /// Why the first feed was put off.
    pub weather: &'static str,
    /// Why a sale was withdrawn, and why a loss was put right.
    pub another_pot: &'static str,
    pub behind_the_post: &'static str,
    /// Of the three pots: what was seen, and why they were put off to the morning.
    pub grown_together: &'static str,
    pub splitting: &'static str,
}

/// The first language.
pub const ENGLISH: Phrases = Phrases {
    second_phone: "Bench phone",
    places: [
        "Cool house, left bench",
        "Cool house, right bench",
        "Intermediate house, bench",
        "Intermediate house, shelf",
        "Rain bench",
        "Apart, by the door",
    ],
    products: [
        ("Example copper powder 50", "copper hydroxide"),
        ("Example sulphur powder 80", "sulphur"),
        ("Example phosphonate liquid 40", "potassium phosphonate"),
        ("Example soft soap", "fatty acids, potassium salts"),
    ],
    buyers: [
        "Visitor at the gate",
        "Market stall",
        "Sent by post",
        "Swap table",
    ],
    look_for_labels: "Look for missing labels",
    wash_pots: "Wash the pots under the bench",
    order_bark: "Order coarse bark",
    bath_for_spots: "Bath for the pots with leaf spots",
    weather: "Not before the weather turns",
    another_pot: "Another pot was meant",
    behind_the_post: "The other one was behind the post",
    grown_together: "Three pots have grown together",
    splitting: "The pots are splitting: they cannot wait for their season",
};
