//! One label as it is printed: the code on one side, the words fitted beside it, or a passport in its frame.

use std::sync::Arc;

use leptos::prelude::*;
use velamen_core::label_sheet::{
    Block, EDGE_UM, LabelOf, LabelText, LabelsDraft, QUIET_MODULES, Room, Sheet, Word, fit,
    name_words, room,
};
use velamen_core::papers::{Passport, PassportForm};

use crate::ledger::{Drawn, Faced, Ledger};
use crate::words::{labels as words, papers};

/// Room a passport's frame takes of the words: its lines and its heading, micrometres.
const FRAME_UM: u32 = 1_600;
const HEADING_UM: u32 = 4_200;
/// The flag with the gap after it, and the sizes its words may have.
const FLAG_UM: u32 = 6_900;
const HEADING_SIZES: [u32; 8] = [2_400, 2_300, 2_200, 2_100, 2_000, 1_900, 1_800, 1_700];

/// A line of words in one size.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Line {
    size: u32,
    words: Vec<Vec<Faced>>,
}

/// A label ready to be printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Face {
    drawn: Option<Drawn>,
    over: bool,
    lines: Vec<Line>,
    /// Lines within the frame come first.
    framed: usize,
    form: PassportForm,
    /// Size of a passport's heading.
    heading: u32,
}

/// Words that go together, with the sizes they may have.
struct Part {
    words: Vec<Vec<Faced>>,
    largest: u32,
    least: u32,
    one_line_least: u32,
}

impl Part {
    fn name(words: Vec<Vec<Faced>>) -> Self {
        Self {
            words,
            largest: 3_600,
            least: 1_700,
            one_line_least: 2_600,
        }
    }

    /// A bench is read from the path: as large as there is room.
    fn place(name: &str) -> Self {
        let words = name.split(' ').map(|word| vec![faced(word, false, true)]);
        Self {
            words: words.collect(),
            largest: 6_000,
            least: 1_700,
            one_line_least: 3_600,
        }
    }

    fn code(code: &str) -> Self {
        Self {
            words: vec![vec![faced(code, false, true)]],
            largest: 3_800,
            least: 2_400,
            one_line_least: 2_400,
        }
    }

    fn small(text: &str) -> Self {
        let words = text.split(' ').map(|word| vec![faced(word, false, false)]);
        Self {
            words: words.collect(),
            largest: 2_400,
            least: 1_700,
            one_line_least: 1_700,
        }
    }
}

fn faced(text: &str, italic: bool, bold: bool) -> Faced {
    Faced {
        text: text.to_owned(),
        italic,
        bold,
    }
}

fn of_word(word: Vec<Word>) -> Vec<Faced> {
    let parts = word.into_iter();
    parts
        .map(|part| faced(&part.text, part.italic, false))
        .collect()
}

fn of_name(text: &LabelText) -> Vec<Vec<Faced>> {
    let name: Vec<Vec<Faced>> = name_words(&text.name).into_iter().map(of_word).collect();
    if name.is_empty() {
        vec![vec![faced(words::UNNAMED, false, false)]]
    } else {
        name
    }
}

/// How a label of this sheet is divided, for a code that was drawn.
pub(super) fn divided(sheet: &Sheet, drawn: Option<&Drawn>) -> Room {
    room(sheet.label, drawn.map(|drawn| drawn.side))
}

/// Puts a label together; `None` where what belongs on it does not fit.
pub(super) fn compose(
    ledger: Ledger,
    sheet: &Sheet,
    draft: &LabelsDraft,
    text: &LabelText,
    passport: Option<&Passport>,
    drawn: Option<Drawn>,
) -> Option<Face> {
    let room = divided(sheet, drawn.as_ref());
    let (mut across, mut down) = (room.words.across, room.words.down);
    let mut parts = Vec::new();
    let mut heading = 0;
    if let Some(passport) = passport {
        let mut name = vec![vec![faced("A", false, true)]];
        name.extend(name_words(&passport.name).into_iter().map(of_word));
        parts.push(Part::name(name));
        let element = |letter: &str, said: &str| {
            vec![
                faced(letter, false, true),
                faced(&format!("\u{a0}{said}"), false, letter == "C"),
            ]
        };
        parts.push(Part {
            words: vec![
                element("B", &passport.operator),
                element("C", &passport.code.to_string()),
                element("D", &passport.origin),
            ],
            ..Part::small("")
        });
        across = across.saturating_sub(FRAME_UM);
        heading = heading_size(ledger, passport.form, across)?;
        down = down.saturating_sub(FRAME_UM + HEADING_UM);
    } else {
        parts.push(match text.of {
            LabelOf::Place(_) => Part::place(&text.place),
            LabelOf::Lot(_) | LabelOf::Clump(_) => Part::name(of_name(text)),
        });
        let tag = text.tray.map(words::tray);
        let code = text.code.map(|code| code.to_string()).or(tag);
        if let Some(code) = code {
            parts.push(Part::code(&code));
        }
    }
    let framed_parts = passport.map_or(0, |_| parts.len());
    let day = text.on.filter(|_| !draft.no_day);
    let pot = Some(text.pot.as_str()).filter(|_| !draft.no_pot);
    let small = words::on_label(text.potted, text.tray.is_some(), day, pot);
    let caution = text.caution.as_ref().filter(|_| !draft.no_caution);
    let caution = caution.map(words::caution).unwrap_or_default();
    let small = [small, caution].into_iter().filter(|text| !text.is_empty());
    parts.extend(small.map(|text| Part::small(&text)));
    let blocks: Vec<Block> = parts.iter().map(|part| block(ledger, part)).collect();
    let space = ledger.width_of(&faced("\u{a0}", false, false));
    let fitted = fit(&blocks, space, across, down)?;
    let mut lines = Vec::new();
    let mut framed = 0;
    for (at, (fitted, part)) in fitted.into_iter().zip(parts).enumerate() {
        for (from, to) in fitted.lines {
            let words = part.words.get(from..to).unwrap_or_default().to_vec();
            let size = fitted.size;
            lines.push(Line { size, words });
        }
        if at + 1 == framed_parts {
            framed = lines.len();
        }
    }
    Some(Face {
        drawn: drawn.filter(|_| room.code.is_some()),
        over: room.over,
        lines,
        framed,
        form: passport.map(|it| it.form).unwrap_or_default(),
        heading,
    })
}

/// The largest size at which a passport's heading fits beside its flag.
fn heading_size(ledger: Ledger, form: PassportForm, across: u32) -> Option<u32> {
    let flag = if form == PassportForm::Eu { FLAG_UM } else { 0 };
    let across = u64::from(across.saturating_sub(flag));
    let width = u64::from(ledger.width_of(&faced(papers::heading(form), false, true)));
    let mut sizes = HEADING_SIZES.into_iter();
    sizes.find(|size| width.saturating_mul(u64::from(*size)) <= across.saturating_mul(1_000))
}

fn block(ledger: Ledger, part: &Part) -> Block {
    let width = |word: &Vec<Faced>| {
        let parts = word.iter().map(|part| ledger.width_of(part));
        parts.fold(0, u32::saturating_add)
    };
    Block {
        words: part.words.iter().map(width).collect(),
        largest: part.largest,
        least: part.least,
        one_line_least: part.one_line_least,
    }
}

/// "63.5mm", for a style.
fn mm(um: u32) -> String {
    format!("{}.{:03}mm", um / 1_000, um % 1_000)
}

/// The style sheet of a sheet of labels: page, grid and label in millimetres.
pub(super) fn dress(sheet: &Sheet, room: &Room) -> String {
    let (page, label) = (sheet.page, sheet.label);
    // A tenth less than the page: a page that is exactly full would bring an empty one after it.
    let high = mm(page.down.saturating_sub(100));
    let code = mm(room.code.unwrap_or(0));
    format!(
        "@page{{size:{w} {h};margin:0}}.print-page{{width:{w};height:{high};padding:{top} 0 0 {left};\
         grid-template-columns:repeat({columns},{across});grid-auto-rows:{down};column-gap:{gap_x};row-gap:{gap_y}}}\
         .print-label{{width:{across};height:{down};padding:{edge};gap:{edge}}}.print-code{{width:{code};height:{code}}}",
        w = mm(page.across),
        h = mm(page.down),
        top = mm(sheet.margin.down),
        left = mm(sheet.margin.across),
        columns = sheet.columns,
        across = mm(label.across),
        down = mm(label.down),
        gap_x = mm(sheet.gap.across),
        gap_y = mm(sheet.gap.down),
        edge = mm(EDGE_UM),
    )
}

/// A label as it is shown and printed.
pub(super) fn face(face: &Arc<Face>) -> AnyView {
    let code = face.drawn.as_ref().map(|drawn| {
        let side = drawn.side.saturating_add(2 * QUIET_MODULES);
        let quiet = QUIET_MODULES;
        view! {
            <svg class="print-code" viewBox=format!("-{quiet} -{quiet} {side} {side}") shape-rendering="crispEdges" aria-hidden="true">
                <path d=drawn.path.clone() />
            </svg>
        }
    });
    let (framed, free) = face.lines.split_at(face.framed.min(face.lines.len()));
    let passport = (!framed.is_empty()).then(|| {
        let flag = (face.form == PassportForm::Eu).then(flag);
        view! {
            <div class="print-passport">
                <div class="print-heading" style:font-size=mm(face.heading)>{flag} <b>{papers::heading(face.form)}</b></div>
                {framed.iter().map(line).collect_view()}
            </div>
        }
    });
    view! {
        <div class="print-label" class:print-over=face.over translate="no">
            {code}
            <div class="print-words">{passport} {free.iter().map(line).collect_view()}</div>
        </div>
    }
    .into_any()
}

fn line(line: &Line) -> AnyView {
    let mut parts = Vec::new();
    for (at, word) in line.words.iter().enumerate() {
        if at > 0 {
            parts.push(view! { " " }.into_any());
        }
        for part in word {
            let text = part.text.clone();
            parts.push(match (part.italic, part.bold) {
                (true, _) => view! { <i lang="la">{text}</i> }.into_any(),
                (_, true) => view! { <b>{text}</b> }.into_any(),
                _ => text.into_any(),
            });
        }
    }
    view! { <p style:font-size=mm(line.size)>{parts}</p> }.into_any()
}

/// The union's flag in black and white: twelve stars in a ring, each upright.
fn flag() -> AnyView {
    /// Places of the hours of a clock around the middle of a flag of 30 by 20, at a third of its height.
    const RING: [(f32, f32); 12] = [
        (15.0, 3.33),
        (18.33, 4.23),
        (20.77, 6.67),
        (21.67, 10.0),
        (20.77, 13.33),
        (18.33, 15.77),
        (15.0, 16.67),
        (11.67, 15.77),
        (9.23, 13.33),
        (8.33, 10.0),
        (9.23, 6.67),
        (11.67, 4.23),
    ];
    let stars = RING.map(|(x, y)| {
        let place = format!("translate({x} {y})");
        view! { <path transform=place fill="#fff" d="M0-1.11L.25-.34L1.06-.34L.4.13L.65.9L0 .42L-.65.9L-.4.13L-1.06-.34L-.25-.34z" /> }
    });
    view! {
        <svg class="print-flag" viewBox="0 0 30 20" aria-hidden="true">
            <rect width="30" height="20" />
            {stars.into_iter().collect_view()}
        </svg>
    }
    .into_any()
}
