//! The lines of the drawings of handwork: side views and one from above, 288 units wide.

use crate::ui::drawing::sketch::{Lines, Sketch};
use crate::words::cards as words;

pub(super) const SPIKE: Sketch = Sketch {
    high: 190,
    lines: &[
        Lines {
            class: "d-hair",
            d: "M10 170H278",
        },
        Lines {
            class: "d-wash",
            d: "M76 100C49 56 37 41 18 42C35 50 67 64 84 100Z",
        },
        Lines {
            class: "d-wash",
            d: "M80 100C68 42 70 20 64 22C70 33 86 50 88 100Z",
        },
        Lines {
            class: "d-wash",
            d: "M130 104C139 52 162 33 174 34C163 44 157 60 138 104Z",
        },
        Lines {
            class: "d-wash",
            d: "M134 104C155 74 190 63 212 64C191 70 173 82 142 104Z",
        },
        Lines {
            class: "d-paper",
            d: "M68 168C59 138 73 102 82 102C91 102 105 138 96 168Z",
        },
        Lines {
            class: "d-paper",
            d: "M122 168C113 140 127 106 136 106C145 106 159 140 150 168Z",
        },
        Lines {
            class: "d-thick",
            d: "M109 168C112 120 132 60 186 26",
        },
        Lines {
            class: "d-line",
            d: "M140 74q12 2 14 12M156 52q13 0 16 10M172 36q12 0 16 8M186 26q8 -2 14 3",
        },
        Lines {
            class: "d-bark",
            d: "M152 90a5 5 0 1 0 10 0a5 5 0 1 0 -10 0Z",
        },
        Lines {
            class: "d-bark",
            d: "M170 66a5 5 0 1 0 10 0a5 5 0 1 0 -10 0Z",
        },
        Lines {
            class: "d-bark",
            d: "M186 48a5 5 0 1 0 10 0a5 5 0 1 0 -10 0Z",
        },
        Lines {
            class: "d-bark",
            d: "M198 31a5 5 0 1 0 10 0a5 5 0 1 0 -10 0Z",
        },
        Lines {
            class: "d-dash",
            d: "M88 152L134 145",
        },
    ],
    notes: &[
        (170, 158, "start", words::CUT_HERE),
        (286, 128, "end", words::SPENT),
    ],
};

pub(super) const LEAF: Sketch = Sketch {
    high: 200,
    lines: &[
        Lines {
            class: "d-hair",
            d: "M10 178H278",
        },
        Lines {
            class: "d-wash",
            d: "M140 112C120 78 84 52 40 44C70 74 108 96 138 122Z",
        },
        Lines {
            class: "d-wash",
            d: "M148 112C168 78 204 52 248 44C218 74 180 96 150 122Z",
        },
        Lines {
            class: "d-dash",
            d: "M144 14V104",
        },
        Lines {
            class: "d-paper",
            d: "M121 176C112 146 135 110 144 110C153 110 176 146 167 176Z",
        },
        Lines {
            class: "d-root",
            d: "M114 164a6 6 0 1 0 12 0a6 6 0 1 0 -12 0Z",
        },
        Lines {
            class: "d-root",
            d: "M162 164a6 6 0 1 0 12 0a6 6 0 1 0 -12 0Z",
        },
        Lines {
            class: "d-thick",
            d: "M62 92L36 112M44.9 110.6L36 112L39.6 103.8",
        },
        Lines {
            class: "d-thick",
            d: "M226 92L252 112M248.4 103.8L252 112L243.1 110.6",
        },
    ],
    notes: &[
        (152, 26, "start", words::SPLIT),
        (186, 170, "start", words::EYES),
        (8, 136, "start", words::SIDEWAYS),
    ],
};

pub(super) const ROOTS: Sketch = Sketch {
    high: 200,
    lines: &[
        Lines {
            class: "d-paper",
            d: "M123 62C114 40 135 12 144 12C153 12 174 40 165 62Z",
        },
        Lines {
            class: "d-paper",
            d: "M124 62C112 96 96 120 92 150C91 157 100 158 102 151C106 124 124 98 136 66Z",
        },
        Lines {
            class: "d-root",
            d: "M92 150C90 166 100 168 102 151Z",
        },
        Lines {
            class: "d-paper",
            d: "M138 64C138 100 132 128 130 160C130 167 139 167 140 160C142 128 148 100 150 66Z",
        },
        Lines {
            class: "d-root",
            d: "M130 160C128 176 140 178 140 160Z",
        },
        Lines {
            class: "d-bark",
            d: "M152 64C166 92 178 112 184 140L188 138C184 112 174 90 160 64Z",
        },
        Lines {
            class: "d-bark",
            d: "M160 62C184 84 206 96 222 124L226 121C210 94 190 80 166 60Z",
        },
        Lines {
            class: "d-dash",
            d: "M150 84L178 70",
        },
    ],
    notes: &[
        (8, 180, "start", words::WHITE),
        (190, 160, "start", words::HOLLOW),
        (184, 74, "start", words::OFF_HERE),
    ],
};

pub(super) const SHORT: Sketch = Sketch {
    high: 200,
    lines: &[
        Lines {
            class: "d-hair",
            d: "M10 160H278",
        },
        Lines {
            class: "d-wash",
            d: "M140 150C132 110 96 70 56 50C84 84 118 116 132 152Z",
        },
        Lines {
            class: "d-wash",
            d: "M140 150C138 104 124 56 104 18C118 64 126 110 134 150Z",
        },
        Lines {
            class: "d-wash",
            d: "M148 150C150 104 164 56 184 18C170 64 162 110 154 150Z",
        },
        Lines {
            class: "d-wash",
            d: "M148 150C156 110 192 70 232 50C204 84 170 116 156 152Z",
        },
        Lines {
            class: "d-paper",
            d: "M130 160C130 146 136 138 144 138C152 138 158 146 158 160Z",
        },
        Lines {
            class: "d-paper",
            d: "M138 160C136 170 132 178 126 186L131 189C138 180 142 172 144 162Z",
        },
        Lines {
            class: "d-paper",
            d: "M146 160C148 170 154 178 160 184L164 180C158 174 153 168 152 160Z",
        },
        Lines {
            class: "d-dash",
            d: "M62 78C110 40 178 40 226 78",
        },
    ],
    notes: &[
        (112, 14, "middle", words::CUT_HERE),
        (172, 190, "start", words::FEW_ROOTS),
    ],
};

pub(super) const WAY: Sketch = Sketch {
    high: 200,
    lines: &[
        Lines {
            class: "d-bark",
            d: "M60 100a84 84 0 1 0 168 0a84 84 0 1 0 -168 0Z",
        },
        Lines {
            class: "d-paper",
            d: "M65 100a19 19 0 1 0 38 0a19 19 0 1 0 -38 0Z",
        },
        Lines {
            class: "d-paper",
            d: "M99 100a19 19 0 1 0 38 0a19 19 0 1 0 -38 0Z",
        },
        Lines {
            class: "d-paper",
            d: "M134 100a18 18 0 1 0 36 0a18 18 0 1 0 -36 0Z",
        },
        Lines {
            class: "d-root",
            d: "M172 100a9 9 0 1 0 18 0a9 9 0 1 0 -18 0Z",
        },
        Lines {
            class: "d-thick",
            d: "M193 100L220 100M212.1 95.7L220 100L212.1 104.3",
        },
        Lines {
            class: "d-line",
            d: "M84 79V52",
        },
    ],
    notes: &[
        (44, 34, "start", words::OLDEST),
        (144, 152, "middle", words::LEAD_ROOM),
    ],
};

pub(super) const CUT: Sketch = Sketch {
    high: 190,
    lines: &[
        Lines {
            class: "d-thick",
            d: "M30 166H240",
        },
        Lines {
            class: "d-bark",
            d: "M39 164C30 141 43 112 52 112C61 112 74 141 65 164Z",
        },
        Lines {
            class: "d-bark",
            d: "M79 164C70 139 83 108 92 108C101 108 114 139 105 164Z",
        },
        Lines {
            class: "d-paper",
            d: "M133 164C124 136 137 102 146 102C155 102 168 136 159 164Z",
        },
        Lines {
            class: "d-paper",
            d: "M171 164C162 136 175 102 184 102C193 102 206 136 197 164Z",
        },
        Lines {
            class: "d-wash",
            d: "M142 104C123 58 118 41 106 42C117 51 141 66 150 104Z",
        },
        Lines {
            class: "d-wash",
            d: "M180 104C183 48 201 29 208 30C201 40 201 56 188 104Z",
        },
        Lines {
            class: "d-root",
            d: "M219 164C216 144 224 137 229 130C235 140 237 150 234 164Z",
        },
        Lines {
            class: "d-dash",
            d: "M119 96V184",
        },
    ],
    notes: &[
        (8, 96, "start", words::BACK_BULBS),
        (150, 184, "start", words::WITH_LEAD),
    ],
};

pub(super) const BACK: Sketch = Sketch {
    high: 190,
    lines: &[
        Lines {
            class: "d-bark",
            d: "M40 118H248L232 186H56Z",
        },
        Lines {
            class: "d-paper",
            d: "M121 156C112 115 135 64 144 64C153 64 176 115 167 156Z",
        },
        Lines {
            class: "d-root",
            d: "M114 112a6 6 0 1 0 12 0a6 6 0 1 0 -12 0Z",
        },
        Lines {
            class: "d-green",
            d: "M116 108C100 98 98 84 104 72",
        },
        Lines {
            class: "d-line",
            d: "M40 118H248",
        },
    ],
    notes: &[
        (10, 56, "start", words::EYE),
        (182, 150, "start", words::MIX),
    ],
};
