//! Whole pots: layers, bills and weights worked by hand.

use velamen_core::potting::{Fill, Layers, Pot, bill, default_stone, watered_mass};
use velamen_core::quantity::{Length, Mass, Volume};
use velamen_core::reference::media::component;
use velamen_core::reference::pots::POTS;

const fn mm(mm: u32) -> Length {
    Length::from_mm(mm)
}

/// The 2 L pot of a UK retail pot guide: 17 cm across the top, 12 across the base, 13 high.
fn two_litre_pot() -> Pot {
    Pot::Round {
        top: mm(170),
        base: mm(120),
        height: mm(130),
    }
}

const LAYERS: Layers = Layers {
    stone: mm(30),
    headspace: mm(15),
};

fn filled(layers: Layers) -> Fill {
    two_litre_pot().fill(&layers).expect("a pot")
}

fn litres(volume: Volume) -> String {
    format!("{:.3}", volume.ul() as f64 / 1e6)
}

fn kilograms(mass: Option<Mass>) -> String {
    format!("{:.3}", mass.expect("in range").mg() as f64 / 1e6)
}

/// Gravel as the table has it: 1.39 kg/L, Pacific Bulb Society wiki.
fn gravel() -> (u32, u32) {
    let gravel = component("gravel").expect("a row");
    (gravel.dry_g_per_l_middle(), gravel.water_permille_middle())
}

#[test]
fn pots_of_a_printed_guide_hold_these_litres() {
    // Measures from a UK retail pot guide; litres by own arithmetic, V = pi h / 12 (D2 + D d + d2).
    let expected = [
        ("round_2_l", "2.1680"),
        ("round_9_cm", "0.3805"),
        ("round_1_l", "1.1490"),
        ("round_7_l", "7.6498"),
    ];
    for (key, printed) in expected {
        let row = POTS.iter().find(|row| row.key == key).expect("a row");
        let brimful = row.pot().brimful().expect("a pot").ul() as f64 / 1e6;
        assert_eq!(format!("{brimful:.4}"), printed, "{key}");
    }
}

#[test]
fn a_two_litre_pot_with_three_centimetres_of_stone() {
    // Own arithmetic from the same guide's measures; stone at 1.39 kg/L.
    let fill = filled(LAYERS);
    assert_eq!(litres(fill.stone), "0.373");
    assert_eq!(litres(fill.mix), "1.466");
    assert_eq!(litres(fill.headspace), "0.329");
    assert_eq!(litres(fill.brimful), "2.168");
    assert_eq!(kilograms(watered_mass(fill.stone, gravel().0, 0)), "0.518");
}

#[test]
fn stone_to_a_quarter_of_the_height_is_less_than_a_quarter_of_the_litres() {
    // Own arithmetic: the lowest slice of the cone is narrower; a quarter of the litres would be a third too much.
    let stone = default_stone(&two_litre_pot());
    assert_eq!(stone.um(), 32_500);
    let fill = filled(Layers {
        stone,
        headspace: mm(15),
    });
    assert_eq!(litres(fill.stone), "0.407");
    assert_eq!(kilograms(watered_mass(fill.stone, gravel().0, 0)), "0.566");
    let quarter = fill.brimful.ul() / 4;
    let too_much = quarter * 100 / fill.stone.ul();
    assert_eq!(too_much, 133);
}

#[test]
fn a_hundred_such_pots_that_settle_by_a_tenth() {
    // Own arithmetic: 100 x 1.466 L / 0.9 = 162.9 L. Multiplying by 1.1 would give 161.3 L, too little.
    let bill = bill(&two_litre_pot(), &LAYERS, 100, 100, gravel().0).expect("a bill");
    let tenths = |volume: Volume| format!("{:.1}", volume.ul() as f64 / 1e6);
    assert_eq!(tenths(bill.mix), "162.9");
    assert_eq!(tenths(bill.stone), "37.3");
    assert_eq!(format!("{:.1}", bill.stone_mass.mg() as f64 / 1e6), "51.8");
}

#[test]
fn a_square_pot_is_a_cut_off_pyramid() {
    // Own arithmetic: 9/3 (64 + 48 + 36) = 444 cm3.
    let pot = Pot::Square {
        top: mm(80),
        base: mm(60),
        height: mm(90),
    };
    assert_eq!(pot.brimful(), Ok(Volume::from_ul(444_000)));
}

#[test]
fn a_watered_pot_of_bark_on_gravel_weighs_about_a_kilogram() {
    // Own arithmetic: mix (0.21 + 0.15) kg/L, gravel (1.39 + 0.10) kg/L; Pacific Bulb Society wiki for both.
    let fill = filled(LAYERS);
    let bark = component("bark_seedling").expect("a row");
    let mix = watered_mass(
        fill.mix,
        bark.dry_g_per_l_middle(),
        bark.water_permille_middle(),
    );
    let stone = watered_mass(fill.stone, gravel().0, gravel().1);
    assert_eq!(kilograms(mix), "0.528");
    assert_eq!(kilograms(stone), "0.556");
    let together = mix
        .zip(stone)
        .and_then(|(mix, stone)| mix.checked_add(stone));
    // Added before rounding; the two rounded parts would make 1.084.
    assert_eq!(kilograms(together), "1.083");
}
