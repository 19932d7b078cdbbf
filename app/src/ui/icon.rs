//! Our own icons, drawn as paths on a 24-unit square with one round-ended line.
//!
//! Invariant: an icon never speaks alone. It is hidden from screen readers; the word beside it,
//! or the button's label, carries the meaning.

use leptos::prelude::*;

/// What an icon shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Glyph {
    /// A root tip on its way: the Round.
    Round,
    /// A pot with hands under it: Repot.
    Repot,
    /// A tub with drops going in: Treat.
    Treat,
    /// A label: Stock.
    Stock,
    /// A bound book: Book.
    Book,
    /// Water.
    Drop,
    /// Look.
    Magnifier,
    /// An empty pot.
    Pot,
    /// Divide.
    Scissors,
    /// Done.
    Check,
    /// One more.
    Plus,
    /// One less.
    Minus,
    /// To where one came from.
    Back,
    /// On to the next.
    Onward,
    /// Take care.
    Warning,
    /// Refused or closed.
    Cross,
    /// Take it back.
    Undo,
    /// Picture or scan.
    Camera,
    /// A flower spike.
    Spike,
    /// An open flower.
    Flower,
    /// Drainage stone.
    Stone,
    /// A tray tag.
    Tag,
    /// A product.
    Bottle,
    /// A wait.
    Clock,
    /// Help.
    Help,
    /// On paper.
    Print,
    /// Thrown away.
    Bin,
    /// Day temperature or light.
    Sun,
    /// Night.
    Moon,
    /// Min and max.
    Thermometer,
    /// Wipe one digit.
    Erase,
    /// A note in words.
    Note,
    /// It rings.
    Ring,
    /// A pseudobulb with its lead.
    Bulb,
    /// Feed.
    Feed,
    /// A file handed over.
    HandOver,
    /// The glass locked.
    Lock,
}

impl Glyph {
    /// The drawing as one SVG path.
    pub const fn path(self) -> &'static str {
        match self {
            Self::Round => "M3 19c2-8 6-9 8-5s5 3 6-2 2-6 4-7M17.5 4.5 21 5l-1 3.4",
            Self::Repot => "M6 8h12l-1.6 9H7.6zM9.5 8c0-3 1-5 2.5-5s2.5 2 2.5 5M4 21h16",
            Self::Treat => "M3 12h18l-2 8H5zM8 3v5M12 5v4M16 3v5",
            Self::Stock => "M3 7h12l6 5-6 5H3zM7 12h6",
            Self::Book => "M5 4h14v16H5zM9 4v16M12.5 9h3.5M12.5 13h3.5",
            Self::Drop => "M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z",
            Self::Magnifier => "M17 10.5a6.5 6.5 0 1 1-13 0 6.5 6.5 0 0 1 13 0zM15.3 15.3 21 21",
            Self::Pot => "M4 6h16v3h-1.2L17 20H7L5.2 9H4z",
            Self::Scissors => {
                "M20 4 8.6 15.4M20 20 8.6 8.6M9 6.5a2.75 2.75 0 1 1-5.5 0 2.75 2.75 0 0 1 5.5 0zM9 17.5a2.75 2.75 0 1 1-5.5 0 2.75 2.75 0 0 1 5.5 0z"
            }
            Self::Check => "M4 12.5l5.2 5.5L20 6.5",
            Self::Plus => "M12 4v16M4 12h16",
            Self::Minus => "M4 12h16",
            Self::Back => "M11 5l-7 7 7 7M4 12h17",
            Self::Onward => "M9 5l7 7-7 7",
            Self::Warning => "M12 3 2.5 20.5h19zM12 10v4.5M12 17.6v.1",
            Self::Cross => "M5 5l14 14M19 5 5 19",
            Self::Undo => "M8 4 3.5 8.5 8 13M3.5 8.5H14a6 6 0 0 1 0 12H8",
            Self::Camera => {
                "M3 7.5h4.5L9 5h6l1.5 2.5H21V19H3zM15.5 13a3.5 3.5 0 1 1-7 0 3.5 3.5 0 0 1 7 0z"
            }
            Self::Spike => {
                "M6 21C7 12 10 6 19 4M9 12.5c-3 0-4-2-4-4 3 0 4 2 4 4zM12 8.6c3 1 5 0 6-2M7.4 16c3 .6 5-.4 6-2.4"
            }
            Self::Flower => {
                "M12 10.5C9 8 9.5 4.5 12 3c2.5 1.5 3 5 0 7.500zM12 10.500c-4-.5-6.5 1-7.5 4 3 1.2 6-.2 7.5-4zM12 10.500c4-.5 6.5 1 7.5 4-3 1.2-6-.2-7.5-4zM12 12c-3 3-2.5 6.5 0 9 2.5-2.5 3-6 0-9z"
            }
            Self::Stone => {
                "M4 15c-1-4 2-7 6-7 5 0 9 2 10 6 0 3-3 4.5-8 4.5-4 0-7.5-.8-8-3.500zM9 11.500c1.5-.6 3-.6 4.5-.2"
            }
            Self::Tag => "M3 7h18v10H3zM8.5 12a1.8 1.8 0 1 1-3.6 0 1.8 1.8 0 0 1 3.6 0zM12.5 12H18",
            Self::Bottle => "M10 3h4v4l3 3v11H7V10l3-3zM7 13h10M7 17h10",
            Self::Clock => "M21 12a9 9 0 1 1-18 0 9 9 0 0 1 18 0zM12 7v5.500l3.5 2",
            Self::Help => "M8 9a4 4 0 1 1 5.6 3.700c-1.1.5-1.6 1.2-1.6 2.800M12 19.400v.1",
            Self::Print => "M7 9V3h10v6M7 17H3V9h18v8h-4M7 14h10v7H7z",
            Self::Bin => "M4 6h16M9 6V3.500h6V6M6 6l1 15h10l1-15M10 10.500v6M14 10.500v6",
            Self::Sun => {
                "M16 12a4 4 0 1 1-8 0 4 4 0 0 1 8 0zM12 2.500v2.500M12 19v2.500M2.5 12H5M19 12h2.500M5.3 5.3 7 7M17 17l1.7 1.700M18.7 5.3 17 7M7 17l-1.7 1.7"
            }
            Self::Moon => "M19.5 14.500A8 8 0 0 1 9.5 4.500a8 8 0 1 0 10 10z",
            Self::Thermometer => "M10 14V5a2 2 0 0 1 4 0v9a4 4 0 1 1-4 0zM12 9v8",
            Self::Erase => "M8.5 5H21v14H8.500L2.5 12zM11.5 9.500l5.5 5M17 9.500l-5.5 5",
            Self::Note => "M5 3.500h14v17H5zM8.5 8.500h7M8.5 12.500h7M8.5 16.500h4",
            Self::Ring => {
                "M5 17.500h14c-2-2-2-4-2-7a5 5 0 0 0-10 0c0 3 0 5-2 7zM10 20.500h4M12 3v2"
            }
            Self::Bulb => {
                "M8 20c-3-1-4-4-3.5-7S7 7 8.5 7s3 3 3.5 6-1 6-4 7zM8.5 7C9 4.5 11 3 14 3M14 20c0-6 1-9 5.5-10.500M14 20h-6"
            }
            Self::Feed => {
                "M12 21V11M12 11C7.5 11 5.5 8.5 5.5 4.500c4.5 0 6.5 2.5 6.5 6.500zM12 15c0-3.5 2-6 6.5-6 0 4-2 6-6.5 6zM7 21h10"
            }
            Self::HandOver => "M12 14V3M8 7l4-4 4 4M4 12v9h16v-9",
            Self::Lock => "M5 11h14v10H5zM8 11V7.500a4 4 0 0 1 8 0V11M12 14.500v3",
        }
    }
}

/// One icon, in the colour of the text around it.
#[component]
pub fn Icon(
    /// What it shows.
    glyph: Glyph,
) -> impl IntoView {
    view! {
        <svg class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
            <path d=glyph.path() />
        </svg>
    }
}
