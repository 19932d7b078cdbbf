//! The codes on labels: drawn as the path of an SVG, and read out of a picture from the camera.
//!
//! A module of its own, fetched only when a label is printed or a code is read, because what reads a code weighs more
//! than most rooms do. It knows no lot and no label: a text goes in and comes out.

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

/// Light modules that ISO/IEC 18004 asks for around a code.
pub const QUIET: i32 = 4;

/// A code as drawn: modules along a side, without the quiet zone, and the path of the dark ones, one unit a module.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawn {
    pub side: i32,
    pub path: String,
}

/// Where a code will be looked at, and so how much of it may be unreadable.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// A label in a greenhouse, with dirt on it: a quarter (level Q).
    Label,
    /// A clean screen, and the next picture is a moment away: 15 of 100 (level M), for larger modules.
    Screen,
}

/// Draws a text; nothing if it is longer than any code holds. More may be unreadable where there is room for it anyway.
#[must_use]
pub fn draw(text: &str, on: On) -> Option<Drawn> {
    let segments = QrSegment::make_segments(text);
    let level = match on {
        On::Label => QrCodeEcc::Quartile,
        On::Screen => QrCodeEcc::Medium,
    };
    let code =
        QrCode::encode_segments_advanced(&segments, level, Version::MIN, Version::MAX, None, true)
            .ok()?;
    Some(Drawn {
        side: code.size(),
        path: path(&code),
    })
}

/// Runs of dark modules, row by row.
fn path(code: &QrCode) -> String {
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let from = x;
            while x < code.size() && code.get_module(x, y) {
                x += 1;
            }
            let run = x - from;
            if run > 0 {
                path.push_str(&format!("M{from} {y}h{run}v1h-{run}z"));
            } else {
                x += 1;
            }
        }
    }
    path
}

/// Reads the first code in a picture of red, green, blue and opacity; nothing where there is none, or none that is
/// whole.
#[must_use]
pub fn read(width: usize, height: usize, rgba: &[u8]) -> Option<String> {
    if width == 0 || height == 0 || rgba.len() != width.checked_mul(height)?.checked_mul(4)? {
        return None;
    }
    let at = |x: usize, y: usize| {
        let from = (y * width + x) * 4;
        match rgba.get(from..from + 3) {
            Some([red, green, blue]) => grey(*red, *green, *blue),
            _ => u8::MAX,
        }
    };
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(width, height, at);
    let grids = picture.detect_grids();
    grids
        .into_iter()
        .find_map(|grid| grid.decode().ok())
        .map(|(_, text)| text)
}

/// Brightness, by the weights of ITU-R BT.601.
fn grey(red: u8, green: u8, blue: u8) -> u8 {
    let sum = 299 * u32::from(red) + 587 * u32::from(green) + 114 * u32::from(blue);
    u8::try_from(sum / 1000).unwrap_or(u8::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A code as a camera sees it: `scale` dots a module, inside a light border.
    fn photographed(code: &QrCode, scale: usize) -> (usize, Vec<u8>) {
        let border = 4 * scale;
        let side = usize::try_from(code.size()).unwrap() * scale + 2 * border;
        let mut dots = Vec::with_capacity(side * side * 4);
        for y in 0..side {
            for x in 0..side {
                let module = |at: usize| i32::try_from(at / scale).unwrap() - 4;
                let dark = code.get_module(module(x), module(y));
                let tone = if dark { 30 } else { 220 };
                dots.extend([tone, tone, tone, 255]);
            }
        }
        (side, dots)
    }

    #[test]
    fn what_is_drawn_is_read_back() {
        for text in [
            "A",
            "https://nursery.example/book/#/lot/4z7k0qwertyab-57-0",
            "http://localhost:8080/#/lot/0000000000001-1234567-12",
        ] {
            let code = QrCode::encode_text(text, QrCodeEcc::Medium).unwrap();
            let (side, dots) = photographed(&code, 4);
            assert_eq!(read(side, side, &dots).as_deref(), Some(text));
        }
    }

    #[test]
    fn a_path_covers_the_dark_modules_and_no_others() {
        let drawn = draw(
            "https://nursery.example/#/lot/4z7k0qwertyab-57-0",
            On::Label,
        )
        .unwrap();
        let side = usize::try_from(drawn.side).unwrap();
        let mut dark = vec![false; side * side];
        for run in drawn.path.split('M').skip(1) {
            let (from, rest) = run.split_once('h').unwrap();
            let (x, y) = from.split_once(' ').unwrap();
            let length: usize = rest.split_once('v').unwrap().0.parse().unwrap();
            let begin = y.parse::<usize>().unwrap() * side + x.parse::<usize>().unwrap();
            for module in &mut dark[begin..begin + length] {
                assert!(!*module, "drawn twice");
                *module = true;
            }
        }
        let code = QrCode::encode_segments_advanced(
            &QrSegment::make_segments("https://nursery.example/#/lot/4z7k0qwertyab-57-0"),
            QrCodeEcc::Quartile,
            Version::MIN,
            Version::MAX,
            None,
            true,
        )
        .unwrap();
        for (at, module) in dark.into_iter().enumerate() {
            let (x, y) = (
                i32::try_from(at % side).unwrap(),
                i32::try_from(at / side).unwrap(),
            );
            assert_eq!(module, code.get_module(x, y), "{x} {y}");
        }
    }

    #[test]
    fn a_picture_without_a_code_or_cut_short_says_nothing() {
        assert_eq!(read(10, 10, &[200; 400]), None);
        assert_eq!(read(10, 10, &[200; 399]), None);
        assert_eq!(read(0, 0, &[]), None);
        assert_eq!(read(usize::MAX, 4, &[]), None);
    }

    #[test]
    fn a_text_that_no_code_holds_is_not_drawn() {
        assert!(draw(&"é".repeat(1_500), On::Label).is_none());
    }
}
