//! A pot in section, to scale: stone, mix, headspace, each with its number beside it.
//!
//! Invariants: widths and depths keep their true ratio. Layers are given from the floor up and
//! drawn no higher than the rim. Stones and bark are texture, not a count.

use super::{WIDE, n};
use leptos::prelude::*;
use std::fmt::Write;

const POT_MAX_WIDE: f64 = 150.0;
const POT_MAX_HIGH: f64 = 160.0;
const RIM_Y: f64 = 46.0;
const NOTE_X: f64 = 168.0;
const NOTE_HIGH: f64 = 42.0;

/// What a layer is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LayerKind {
    /// Drainage and ballast stone.
    Stone,
    /// Potting mix.
    Mix,
    /// Free room under the rim.
    Headspace,
}

/// One layer with its words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layer {
    /// What it is made of.
    pub kind: LayerKind,
    /// How deep.
    pub depth_mm: u32,
    /// The figure at it, such as "1.44 L".
    pub value: String,
    /// What it is, such as "coarse bark".
    pub words: String,
}

/// The pot's shape on the drawing: a trapezoid, in units.
#[derive(Clone, Copy, Debug)]
struct Outline {
    middle: f64,
    top_half: f64,
    base_half: f64,
    high: f64,
    scale: f64,
}

impl Outline {
    fn new(top_mm: u32, base_mm: u32, height_mm: u32) -> Self {
        let (top, base, high) = (
            f64::from(top_mm.max(1)),
            f64::from(base_mm),
            f64::from(height_mm.max(1)),
        );
        let scale = (POT_MAX_WIDE / top.max(base)).min(POT_MAX_HIGH / high);
        Self {
            middle: POT_MAX_WIDE / 2.0 + 2.0,
            top_half: top * scale / 2.0,
            base_half: base * scale / 2.0,
            high: high * scale,
            scale,
        }
    }

    fn floor_y(&self) -> f64 {
        RIM_Y + self.high
    }

    /// Half the inner width at `y`.
    fn half_at(&self, y: f64) -> f64 {
        let up = ((self.floor_y() - y) / self.high).clamp(0.0, 1.0);
        self.base_half + (self.top_half - self.base_half) * up
    }

    fn wall(&self) -> String {
        format!(
            "M{} {}L{} {}H{}L{} {}",
            n(self.middle - self.top_half),
            n(RIM_Y),
            n(self.middle - self.base_half),
            n(self.floor_y()),
            n(self.middle + self.base_half),
            n(self.middle + self.top_half),
            n(RIM_Y),
        )
    }

    /// A layer's own shape between two heights.
    fn band(&self, top: f64, bottom: f64) -> String {
        let (up, low) = (self.half_at(top), self.half_at(bottom));
        format!(
            "M{} {}H{}L{} {}H{}Z",
            n(self.middle - up),
            n(top),
            n(self.middle + up),
            n(self.middle + low),
            n(bottom),
            n(self.middle - low),
        )
    }
}

/// Top and bottom of each layer on the drawing, floor up, none above the rim.
fn bands(outline: &Outline, layers: &[Layer]) -> Vec<(f64, f64)> {
    let mut bottom = outline.floor_y();
    layers
        .iter()
        .map(|layer| {
            let top = (bottom - f64::from(layer.depth_mm) * outline.scale).max(RIM_Y);
            let band = (top, bottom);
            bottom = top;
            band
        })
        .collect()
}

/// Notes at their layer's middle, pushed apart so that none covers another. Floor up.
fn note_places(bands: &[(f64, f64)]) -> Vec<f64> {
    let mut below = f64::INFINITY;
    let mut places: Vec<f64> = bands
        .iter()
        .map(|(top, bottom)| {
            let y = ((top + bottom) / 2.0).min(below - NOTE_HIGH);
            below = y;
            y
        })
        .collect();
    // The topmost note may have been pushed over the edge: move all down by the same amount.
    let short = places.last().map_or(0.0, |top| (16.0 - top).max(0.0));
    for place in &mut places {
        *place += short;
    }
    places
}

/// Rounded stones in offset rows, inside the band.
fn stones(outline: &Outline, top: f64, bottom: f64) -> String {
    let mut path = String::new();
    let mut y = bottom - 5.0;
    let mut row = 0_u32;
    while y > top + 3.0 {
        let half = outline.half_at(y) - 7.5;
        let mut x = outline.middle - half + if row.is_multiple_of(2) { 0.0 } else { 6.5 };
        while x <= outline.middle + half {
            let _ = write!(
                path,
                "M{} {}a5.4 4 0 1 0 10.8 0a5.4 4 0 1 0-10.8 0Z",
                n(x - 5.4),
                n(y)
            );
            x += 13.0;
        }
        y -= 9.6;
        row += 1;
    }
    path
}

/// Flat chips of bark, each turned a little, inside the band.
fn chips(outline: &Outline, top: f64, bottom: f64) -> String {
    let mut path = String::new();
    let mut y = bottom - 6.0;
    let mut row = 0_i32;
    while y > top + 4.0 {
        let half = outline.half_at(y) - 8.0;
        let mut x = outline.middle - half + f64::from(row % 3) * 4.0;
        let mut column = 0_i32;
        while x <= outline.middle + half {
            let turn = f64::from((row * 5 + column * 3) % 5 - 2);
            let long = 8.0 + f64::from((row + column * 2) % 3);
            let _ = write!(
                path,
                "M{} {}l{} {}l1.2 3.8l{} {}Z",
                n(x - long / 2.0),
                n(y - 2.0 - turn / 2.0),
                n(long),
                n(turn),
                n(-long - 0.6),
                n(-turn + 0.4),
            );
            x += 13.5;
            column += 1;
        }
        y -= 8.2;
        row += 1;
    }
    path
}

/// Three old bulbs against the rim and the lead with room before it.
fn plant(outline: &Outline, soil_y: f64) -> (String, String) {
    let left = outline.middle - outline.half_at(soil_y) + 12.0;
    let mut bulbs = String::new();
    for (step, high) in [(0.0, 26.0), (17.0, 31.0), (34.0, 36.0)] {
        let x = left + step;
        let _ = write!(
            bulbs,
            "M{} {}c-9 -6 -7 {} 0 {}c7 {} 9 {} 0 {}Z",
            n(x),
            n(soil_y + 4.0),
            n(-high * 0.7),
            n(-high),
            n(high * 0.3),
            n(high - 6.0),
            n(high),
        );
    }
    let x = left + 52.0;
    let leaves = format!(
        "M{x0} {y0}c2 -14 6 -22 15 -28M{x0} {y0}c0 -10 -1 -16 -4 -22",
        x0 = n(x),
        y0 = n(soil_y + 3.0)
    );
    (bulbs, leaves)
}

fn note(y: f64, wall_x: f64, layer_y: f64, value: String, words: String) -> impl IntoView {
    let lead = format!(
        "M{} {}L{} {}",
        n(wall_x + 3.0),
        n(layer_y),
        n(NOTE_X - 5.0),
        n(y)
    );
    view! {
        <path class="d-lead" d=lead />
        <text class="d-value" x=n(NOTE_X) y=n(y)>{value}</text>
        <text class="d-soft" x=n(NOTE_X) y=n(y + 17.0)>{words}</text>
    }
}

/// A pot in section with its layers.
#[component]
pub fn PotSection(
    /// Inner width at the rim.
    top_mm: u32,
    /// Inner width at the floor.
    base_mm: u32,
    /// Inner height.
    height_mm: u32,
    /// The layers from the floor up.
    layers: Vec<Layer>,
    /// The width over the rim in words, such as "17 cm".
    #[prop(into)]
    width_words: String,
    /// The whole drawing in a sentence.
    #[prop(into)]
    text: String,
) -> impl IntoView {
    let outline = Outline::new(top_mm, base_mm, height_mm);
    let bands = bands(&outline, &layers);
    let places = note_places(&bands);
    let lowest = places.first().copied().unwrap_or(0.0) + 24.0;
    let high = (outline.floor_y() + 6.0).max(lowest);
    let soil_y = layers
        .iter()
        .zip(&bands)
        .filter(|(layer, _)| layer.kind != LayerKind::Headspace)
        .map(|(_, (top, _))| *top)
        .next_back();
    let drawn = layers
        .into_iter()
        .zip(bands)
        .zip(places)
        .map(|((layer, (top, bottom)), place)| {
            let body = match layer.kind {
                LayerKind::Stone => Some(("d-stone", stones(&outline, top, bottom))),
                LayerKind::Mix => Some(("d-bark", chips(&outline, top, bottom))),
                LayerKind::Headspace => None,
            }
            .map(|(class, texture)| {
                view! {
                    <path class=class d=texture />
                    <path class="d-line" d=outline.band(top, bottom) />
                }
            });
            let middle = (top + bottom) / 2.0;
            let wall_x = outline.middle + outline.half_at(middle);
            view! { {body} {note(place, wall_x, middle, layer.value, layer.words)} }
        })
        .collect_view();
    let standing = soil_y.map(|y| {
        let (bulbs, leaves) = plant(&outline, y);
        view! { <path class="d-wash" d=bulbs /> <path class="d-green" d=leaves /> }
    });
    let (left, right) = (
        outline.middle - outline.top_half,
        outline.middle + outline.top_half,
    );
    let measure = format!("M{l} 24v10M{l} 29H{r}M{r} 24v10", l = n(left), r = n(right));
    view! {
        <figure class="drawing" tabindex="0" aria-label=text>
            <svg viewBox=format!("0 0 {WIDE} {}", n(high)) aria-hidden="true" focusable="false">
                <path class="d-lead" d=measure />
                <text class="d-value" x=n(outline.middle) y="19" text-anchor="middle">
                    {width_words}
                </text>
                {drawn} {standing} <path class="d-thick" d=outline.wall() />
            </svg>
        </figure>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn layer(kind: LayerKind, depth_mm: u32) -> Layer {
        Layer {
            kind,
            depth_mm,
            value: String::new(),
            words: String::new(),
        }
    }

    #[wasm_bindgen_test]
    fn layers_keep_their_true_ratio_and_stop_at_the_rim() {
        let outline = Outline::new(170, 120, 150);
        let drawn = bands(
            &outline,
            &[layer(LayerKind::Stone, 30), layer(LayerKind::Mix, 400)],
        );
        let [(stone_top, stone_low), (mix_top, _)] = drawn[..] else {
            panic!("two bands")
        };
        assert!(((stone_low - stone_top) / outline.high - 0.2).abs() < 1e-9);
        assert!((mix_top - RIM_Y).abs() < 1e-9);
    }

    #[wasm_bindgen_test]
    fn notes_of_thin_layers_do_not_cover_each_other() {
        let places = note_places(&[(190.0, 200.0), (186.0, 190.0), (60.0, 186.0)]);
        assert!(places[0] - places[1] >= NOTE_HIGH);
        assert!(places[1] - places[2] >= NOTE_HIGH);
    }

    #[wasm_bindgen_test]
    fn a_pot_of_no_size_still_draws() {
        let outline = Outline::new(0, 0, 0);
        assert!(outline.wall().starts_with('M'));
        assert!(outline.scale.is_finite());
    }
}
