//! How the program comes onto the home screen, in words. The drawings stand in `screens/install_drawn.rs`.

pub use crate::words::parts::Card as Words;

pub const LINK: &str = "Put it on the home screen";

pub const ANDROID: Words = Words {
    title: "A phone with Android",
    seen: "Two phones: on the first, three dots at the top and a list of which one line is marked; on the second, the sign of the program among others.",
    steps: &[
        "Tap the three dots beside the address.",
        "Tap \"Add to home screen\" or \"Install app\", and agree.",
        "From now on open it by its sign: it has the whole glass, and works without a network.",
    ],
};

pub const IOS: Words = Words {
    title: "An iPhone or iPad",
    seen: "Two phones: on the first, a box with an arrow out of it at the foot and a list of which one line is marked; on the second, the sign of the program among others.",
    steps: &[
        "Tap the box with the arrow, at the foot or at the top.",
        "Go down the list to \"Add to Home Screen\", then \"Add\". Is it not there? Open the address in the phone's own browser.",
        "Open the book there and nowhere else: the home screen keeps a book of its own. One begun before comes along as a file.",
    ],
};

pub const DESKTOP: Words = Words {
    title: "A computer",
    seen: "A window with an address; at the end of the address a screen with an arrow into it, and below it a question with one key marked.",
    steps: &[
        "Click the screen with the arrow at the end of the address, or look for \"Install\" in the browser's menu.",
        "Agree. It opens in a window of its own, and stands among the other programs.",
        "A browser without that keeps the program all the same: a bookmark is enough.",
    ],
};
