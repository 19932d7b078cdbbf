//! What codes hold, against the tables of ISO/IEC 18004 as two libraries have them, and what is drawn read by the module
//! that reads.

use crate::sheet::{Row, check_each};
use qrcodegen::{Mask, QrCode, QrCodeEcc, QrSegment, Version};

fn level(row: &Row) -> Result<QrCodeEcc, String> {
    match row.text("ecc") {
        "L" => Ok(QrCodeEcc::Low),
        "M" => Ok(QrCodeEcc::Medium),
        "Q" => Ok(QrCodeEcc::Quartile),
        "H" => Ok(QrCodeEcc::High),
        other => Err(format!("no level {other}")),
    }
}

/// A code of this version and level out of so many characters of a kind.
fn made(row: &Row, column: &str, more: usize) -> Result<Option<QrCode>, String> {
    let number = |column: &str| {
        row.text(column)
            .parse::<usize>()
            .map_err(|why| why.to_string())
    };
    let count = number(column)? + more;
    let segment = match column {
        "numeric" => QrSegment::make_numeric(&"7".repeat(count)),
        "alphanumeric" => QrSegment::make_alphanumeric(&"K".repeat(count)),
        _ => QrSegment::make_bytes(&vec![b'k'; count]),
    };
    let version = u8::try_from(number("version")?).map_err(|why| why.to_string())?;
    let version = Version::new(version);
    let mask = Some(Mask::new(0));
    let code =
        QrCode::encode_segments_advanced(&[segment], level(row)?, version, version, mask, false);
    Ok(code.ok())
}

#[test]
fn codes_hold_what_the_standard_says_and_not_one_character_more() {
    check_each("g_qr_capacity.csv", |row| {
        for column in ["numeric", "alphanumeric", "bytes"] {
            let Some(code) = made(row, column, 0)? else {
                return Err(format!("{column}: what the table says does not fit"));
            };
            if code.size().to_string() != row.text("modules") {
                return Err(format!("{} modules", code.size()));
            }
            if made(row, column, 1)?.is_some() {
                return Err(format!("{column}: one more fits"));
            }
        }
        Ok(())
    });
}

/// The drawn path as dots, six a module, the way a camera that holds still sees it.
fn dots(drawn: &velamen_paperwork::Drawn) -> (usize, Vec<u8>) {
    let quiet = usize::try_from(velamen_paperwork::QUIET).expect("a count");
    let modules = usize::try_from(drawn.side).expect("a count") + 2 * quiet;
    let side = modules * 6;
    let mut rgba = vec![255_u8; side * side * 4];
    for run in drawn.path.split('M').skip(1) {
        let (from, rest) = run.split_once('h').expect("a run");
        let (x, y) = from.split_once(' ').expect("a place");
        let length: usize = rest
            .split_once('v')
            .expect("a length")
            .0
            .parse()
            .expect("a number");
        let at = |text: &str| text.parse::<usize>().expect("a number") + quiet;
        let (x, y) = (at(x), at(y));
        for row in y * 6..(y + 1) * 6 {
            for column in x * 6..(x + length) * 6 {
                let dot = (row * side + column) * 4;
                rgba[dot..dot + 3].fill(20);
            }
        }
    }
    (side, rgba)
}

#[test]
fn every_length_of_link_is_drawn_and_read_back() {
    for host in 0..60 {
        let text = format!(
            "https://{}.example/#/lot/4z7k0qwertyab-{}-0",
            "n".repeat(host + 1),
            host * 37 + 1
        );
        let drawn =
            velamen_paperwork::draw(&text, velamen_paperwork::On::Label).expect("a link fits");
        let (side, rgba) = dots(&drawn);
        assert_eq!(velamen_paperwork::read(side, side, &rgba), Some(text));
    }
}
