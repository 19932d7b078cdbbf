//! Help, a page for each kind of screen: what it is for, how it is used, and what to take care of.

use crate::help::Topic;

pub use crate::words::parts::HelpPage as Page;

pub const LINK: &str = "Help with this screen";
pub const TITLE: &str = "Help";
pub const BACK: &str = "Back to where you were";
pub const CARE: &str = "Take care";
pub const MORE: &str = "Other pages of help";

/// The page about something.
#[must_use]
pub fn page(topic: Topic) -> Page {
    match topic {
        Topic::Start => Page {
            title: "Beginning",
            says: &[
                "Give the book your nursery's name and say which half of the world you are in: seasons follow from that.",
                "To look first, open the example. It is invented, has a place of its own on this phone, and goes without a trace.",
                "Is there a book on another phone? Hand it over there as a file and take it in here.",
                "After that: the benches as places, in the order you walk them, and the first plants. A list from a spreadsheet comes in at once.",
            ],
            care: &[
                "Everything stays on this phone. Hand the book over from time to time, or a lost phone is a lost book.",
            ],
        },
        Topic::Round => Page {
            title: "The Round",
            says: &[
                "What is late comes first, then what is due, then what is coming, in the order of your walk.",
                "One row is one kind of work at one place. Tap the key at its end when it is done; tap the row to leave some out, to put it off with a reason, or to say it is not needed.",
                "A hatched row is something not to do yet, such as no water before a day.",
                "Undo stays in reach for a few seconds; later, the Book withdraws any entry.",
                "\"What fits?\" chooses the work worth most in the minutes you have.",
                "\"Plan\" draws the benches in the order of your walk, with what is late, due and held on each.",
            ],
            care: &[
                "Work is never forgotten by being late: it stays until it is done, put off or said to be not needed.",
            ],
        },
        Topic::Seen => Page {
            title: "Something seen",
            says: &[
                "Say what you see and where on the plant; what it may be is only a guess and is called one.",
                "Count if you can: so many with it, of so many looked at. A line over the weeks grows from that.",
                "Then choose what follows: set apart, treat, look again, test. Nothing is done by itself.",
                "From a plant with a virus, the program follows blades, baths, pots and descent to those at risk.",
            ],
            care: &[
                "Set a suspect plant apart first, and wash hands before the next one.",
                "A picture and a sign are no diagnosis; where it matters, a laboratory is.",
            ],
        },
        Topic::Weather => Page {
            title: "Minimum and maximum",
            says: &[
                "Two numbers a house a day, from the thermometer that remembers them. A logger's file brings many days at once.",
                "From these come dryness of the air, cool nights and warmth added up; a day nobody read stays a gap.",
                "Cold puts first water off, warmth brings a pest's next generation nearer: the Round says so where it does.",
            ],
            care: &[],
        },
        Topic::Repot => Page {
            title: "Repot",
            says: &[
                "Confirm clean tools and gloves once a day. Then bring one or several lots, or a clump that was never booked, to the bench under a tray tag.",
                "Several clumps may lie open together. Each goes on at the tap where it was left, even after a flat battery.",
                "The order of cutting puts what is suspect last.",
                "\"How the hands do it\" shows the cuts.",
            ],
            care: &[
                "A fresh or flamed blade and clean gloves for every clump. Let a flamed blade cool, away from alcohol.",
                "Dry bark is dusty: wet it before you tip it, outdoors or with a mask.",
                "Lift full pots with a straight back, or with two people.",
            ],
        },
        Topic::Bench => Page {
            title: "A clump on the bench",
            says: &[
                "Count pieces by what becomes of them: large keys, one tap a piece, one less with the key beside.",
                "Spots on the leaves? \"Seen here\" puts it on record, and the pieces can go through a bath and come back.",
                "Choose a pot, stone and mix for each kind of piece: litres and kilograms follow. The label's code is there at once; write it by hand.",
                "Closing the clump sends what was emptied to the wash and the duties to the Round.",
            ],
            care: &["Label before you let go of a piece. Afterwards nobody knows."],
        },
        Topic::Treat => Page {
            title: "Treat",
            says: &[
                "Begin with the product and what it is against. The amount follows from the label's rate and your water.",
                "A bath, a drench, a spray, a swab or dust on a cut: each asks for its own amounts.",
                "What these plants had before stands as a strip of codes, with the reason where a change is due.",
                "A treatment already done is written down here as well. The record is judged after the rules you chose and completed later.",
            ],
            care: &[
                "The label and local law come before anything said here, and licensed practice before both where it is asked for.",
                "Gloves, eyes, air: what the label asks for, before the bottle is opened.",
            ],
        },
        Topic::Bath => Page {
            title: "A treatment in hand",
            says: &[
                "Measure what stands there in large figures; the fills of your own syringes and scales stand beside it.",
                "The soak counts from the last piece in, and goes on counting while the phone sleeps.",
                "One mixture takes several batches. Its age and the strength left are shown; topping up is at the first strength.",
                "At the end say where the rest went. \"Keep out until\" follows the label.",
            ],
            care: &[
                "Never above the label's highest rate; the program refuses it.",
                "What must never meet is looked for in tub, measures and on the plants. Read the label all the same.",
                "Something went wrong? The label's first aid and the poisons number first, the record later.",
            ],
        },
        Topic::Stock => Page {
            title: "Stock",
            says: &[
                "A lot is what shares one label: the same plant, potted alike, in one place.",
                "Find one by any part of its name, its place, its code or its old number; a slip of the finger is forgiven.",
                "\"What is to come\" counts what may flower or be sold, with ranges, from what this book has seen.",
                "At a wide window the stock is a table: tap the head of a column to order it, tick lots to move, answer or label them together.",
            ],
            care: &[],
        },
        Topic::Lot => Page {
            title: "A lot",
            says: &[
                "What is due, where it comes from, what was done, whether it is kept apart.",
                "Move, count, split, lose or sell under \"Change\". A count that differs is shown, never smoothed over.",
                "Plants can be kept for somebody, until a day or without one. Selling more than are free asks first.",
                "What a piece has cost is reckoned from the prices in the Shed, and says what is not in it.",
                "Its own dates of roots, flower and rest, once seen, go before any table.",
            ],
            care: &[
                "A lot in quarantine is not sold, moved or divided until days, looks and tests all hold.",
            ],
        },
        Topic::List => Page {
            title: "A list you have",
            says: &[
                "In the spreadsheet, save the sheet as CSV. One row is one lot.",
                "Say what each column holds; several columns may be parts of the name. Nothing else is needed but a name or a number.",
                "Every row that would not come in says why. Rows that are in the book already stay out.",
                "A month alone, or a year alone, will do for when it was potted: its first day is taken.",
            ],
            care: &[],
        },
        Topic::Book => Page {
            title: "The Book",
            says: &[
                "Every entry, newest first. Nothing is overwritten: a correction adds a line, a withdrawal keeps the old one readable.",
                "What two phones say differently is asked, with both sides in sight.",
            ],
            care: &[],
        },
        Topic::Files => Page {
            title: "Handing over and taking in",
            says: &[
                "A file is the whole book or a part of it. Send it any way you like.",
                "Taking in first shows what the file would bring; order, repeats and lost files do no harm.",
                "With no other way between two phones, a few entries go as squares from screen to camera.",
                "A new phone takes the file in and joins the book under a beginning of codes of its own.",
            ],
            care: &[
                "A file saved on the phone is lost with it: send it somewhere else, then tap \"It lies somewhere else now\". The Book says how long ago the last one was.",
            ],
        },
        Topic::Shed => Page {
            title: "The Shed",
            says: &[
                "Everything that is set up once: places, pots, mixes, measures, products, protocols, this phone.",
                "Protocols say which work follows what, after how many days, in which season. Before a change is kept you see what it would move.",
                "Something withdrawn from use is retired, not erased: old entries still name it.",
            ],
            care: &[],
        },
        Topic::Install => Page {
            title: "On the home screen",
            says: &[
                "It needs no shop: this page itself becomes the program, and stays on the phone with all its help.",
                "A next version is offered in the rooms, with a line on what is new, and comes in when you agree or when all its windows were closed. Nothing in hand is lost.",
            ],
            care: &[
                "Cleared browsing data takes the book along. Hand it over before you clean the phone up.",
            ],
        },
        Topic::Wash => Page {
            title: "The wash",
            says: &[
                "Pots and stone go from dirty to washed to disinfected to clean, and every step is counted.",
                "The disinfectant is reckoned from the strength on its bottle; the time counts from the last pot in.",
                "What came from a plant with a virus is kept apart; some of it is thrown away.",
            ],
            care: &[
                "Chlorine with an acid, ammonia or alcohol makes poison: never mix, never in one tub after another without rinsing.",
                "Hot stone bursts if it is wet, and burns. Goggles, and let it cool.",
            ],
        },
        Topic::Products => Page {
            title: "Products",
            says: &[
                "A product is written down as its label says, once: actives, rates, what each use is for and by which method.",
                "Each bottle has its batch, dates and what is left. More used than it held is said, and recorded all the same.",
                "The table of rotation says how often one way of acting may follow itself.",
            ],
            care: &[
                "Nothing here says that a product is permitted where you are. The label and the register do.",
            ],
        },
    }
}
