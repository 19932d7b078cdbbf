//! Check characters. The arithmetic of lot codes is that of the pure systems of ISO 7064; it is held against values of the
//! systems in that standard, and lot codes against the catch rate of their best.

use crate::sheet::{check_each, rows};
use velamen_core::code::{LotCode, Prefix, iso7064_check, iso7064_sum};

const MOD_37: &str = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*";

fn values(text: &str) -> Vec<u32> {
    let value = |c: char| MOD_37.find(c).expect("a character of MOD 37-2") as u32;
    text.chars().map(value).collect()
}

fn check_37_2(body: &str) -> char {
    let at = iso7064_check(values(body), 37, 2) as usize;
    MOD_37.chars().nth(at).expect("a value below 37")
}

/// Rows of systems lot codes have nothing to do with are reported as not run.
#[test]
fn check_characters_are_those_of_the_standard() {
    let Some(rows) = rows("i_check_chars.csv") else {
        return;
    };
    let mut checked = 0;
    for row in &rows {
        let full = row.text("full");
        let (sum, check) = match row.text("algorithm") {
            "ISO 7064 MOD 37-2" => (
                iso7064_sum(values(full), 37, 2),
                check_37_2(row.text("body")).to_string(),
            ),
            // Two check characters: only the whole is held against the sum.
            "ISO 7064 MOD 97-10" => (
                iso7064_sum(values(full), 97, 10),
                row.text("check").to_owned(),
            ),
            other => {
                println!("i_check_chars.csv: NOT RUN, {other} {full}");
                continue;
            }
        };
        assert_eq!((sum, check.as_str()), (1, row.text("check")), "{full}");
        println!("i_check_chars.csv: {full} holds, {}", row.text("source"));
        checked += 1;
    }
    println!(
        "i_check_chars.csv: {checked} of {} rows checked",
        rows.len()
    );
    assert!(
        checked > 0 || std::env::var_os("OUTSIDE_DIR").is_some(),
        "no row of a system in use"
    );
}

/// Of all single wrong characters and exchanged neighbours on some lot codes, the share refused, in percent.
fn caught() -> (f64, f64) {
    let all = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
    let (mut wrong, mut swapped) = ((0_u32, 0_u32), (0_u32, 0_u32));
    for prefix in Prefix::all() {
        for counter in [17, 118, 204, 1_009, 98_765, 120_406] {
            let code = prefix.code(counter).expect("in range");
            let written: Vec<char> = code.to_string().replace('-', "").chars().collect();
            let refused = |slip: &[char]| {
                let slip: String = slip.iter().collect();
                // A look-alike letter in a digit's place is read right; that is no other lot.
                u32::from(LotCode::parse(&slip).is_ok_and(|read| read != code)) ^ 1
            };
            for at in 0..written.len() {
                for other in all.chars().filter(|c| *c != written[at]) {
                    let mut slip = written.clone();
                    slip[at] = other;
                    wrong = (wrong.0 + 1, wrong.1 + refused(&slip));
                }
                if at + 1 < written.len() && written[at] != written[at + 1] {
                    let mut slip = written.clone();
                    slip.swap(at, at + 1);
                    swapped = (swapped.0 + 1, swapped.1 + refused(&slip));
                }
            }
        }
    }
    let percent = |(tried, refused): (u32, u32)| f64::from(refused) * 100.0 / f64::from(tried);
    (percent(wrong), percent(swapped))
}

#[test]
fn lot_codes_catch_what_the_best_systems_catch() {
    let (wrong, swapped) = caught();
    println!("lot codes: {wrong:.2} % of wrong characters, {swapped:.2} % of exchanged neighbours");
    check_each("i_check_power.csv", |row| {
        let theirs = (
            row.number("single_substitution_detected_pct"),
            row.number("adjacent_transposition_detected_pct"),
        );
        if wrong >= theirs.0 && swapped >= theirs.1 {
            Ok(())
        } else {
            Err(format!("{wrong} and {swapped} against {theirs:?}"))
        }
    });
}
