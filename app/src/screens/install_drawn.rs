//! The lines of the drawings that show how the program comes onto the home screen, 288 units wide. No browser's own
//! look is drawn: only where things lie.

use crate::ui::drawing::sketch::{Lines, Sketch};

const fn lines(class: &'static str, d: &'static str) -> Lines {
    Lines { class, d }
}

/// Signs of other programs, and ours among them, on the second phone.
const HOME: Lines = lines(
    "d-stone",
    "M180 30h20v20h-20ZM210 30h20v20h-20ZM240 30h20v20h-20ZM180 66h20v20h-20ZM240 66h20v20h-20ZM180 102h20v20h-20ZM210 102h20v20h-20Z",
);
const OURS: Lines = lines("d-paper", "M206 62h28v28h-28Z");
const OURS_ROOT: Lines = lines("d-green", "M211 84c3-10 8-11 10-6s4 3 6-3 2-4 3-6");
const PHONES: Lines = lines("d-paper", "M22 8H130V192H22ZM166 8H274V192H166Z");

pub(super) const ANDROID: Sketch = Sketch {
    high: 200,
    lines: &[
        PHONES,
        lines("d-line", "M32 16H104V32H32Z"),
        lines(
            "d-ink",
            "M116 17a1.500 1.500 0 1 0 3 0a1.500 1.500 0 1 0 -3 0ZM116 24a1.500 1.500 0 1 0 3 0a1.500 1.500 0 1 0 -3 0ZM116 31a1.500 1.500 0 1 0 3 0a1.500 1.500 0 1 0 -3 0Z",
        ),
        lines(
            "d-hair",
            "M22 40H130M32 58H60M32 74H54M32 164H120M32 178H104",
        ),
        lines("d-paper", "M62 46H126V146H62Z"),
        lines("d-hair", "M70 60H112M70 76H118M70 116H116M70 132H108"),
        lines("d-wash", "M64 86H124V106H64Z"),
        lines("d-line", "M72 96h8M76 92v8M86 96H116"),
        HOME,
        OURS,
        OURS_ROOT,
    ],
    notes: &[
        (136, 29, "start", "1"),
        (136, 101, "start", "2"),
        (220, 148, "middle", "3"),
    ],
};

pub(super) const IOS: Sketch = Sketch {
    high: 200,
    lines: &[
        PHONES,
        lines("d-hair", "M32 30H120M32 46H110M22 170H130"),
        lines("d-line", "M66 178v9h20v-9M76 184v-12M71 176l5-5l5 5"),
        lines("d-paper", "M26 62H126V166H26Z"),
        lines("d-hair", "M34 78H112M34 94H118M34 110H104M34 150H116"),
        lines("d-wash", "M28 120H124V140H28Z"),
        lines(
            "d-line",
            "M36 130H92M106 124h12v12h-12ZM112 127v6M109 130h6",
        ),
        HOME,
        OURS,
        OURS_ROOT,
    ],
    notes: &[
        (136, 187, "start", "1"),
        (136, 135, "start", "2"),
        (220, 148, "middle", "3"),
    ],
};

pub(super) const DESKTOP: Sketch = Sketch {
    high: 176,
    lines: &[
        lines("d-paper", "M14 10H274V140H14Z"),
        lines(
            "d-hair",
            "M14 40H274M26 58H120M26 74H140M26 90H104M26 106H132",
        ),
        lines("d-line", "M50 16H238V34H50Z"),
        lines("d-wash", "M214 18H236V32H214Z"),
        lines(
            "d-line",
            "M219 20h12v7h-12ZM221 30h8M225 18.500v5M223 22l2 2l2-2",
        ),
        lines("d-paper", "M158 54H262V106H158Z"),
        lines("d-hair", "M168 68H240M168 80H224"),
        lines("d-wash", "M212 86H254V100H212Z"),
        lines("d-line", "M222 93H244"),
        lines("d-line", "M14 158H274"),
        lines("d-stone", "M104 146h18v18h-18ZM160 146h18v18h-18Z"),
        lines("d-paper", "M130 144h22v22h-22Z"),
        lines("d-green", "M134 161c2-8 6-9 8-5s3 2 5-2 1-3 2-5"),
    ],
    notes: &[
        (244, 30, "start", "1"),
        (200, 98, "end", "2"),
        (141, 138, "middle", "3"),
    ],
};
