//! Will it fall over: a plant of this height and weight in this pot, and the stone that would hold it.

use leptos::prelude::*;
use velamen_core::potting::{HOLDS_CDEG, Pot, default_stone};
use velamen_core::quantity::{Length, Mass};
use velamen_core::view::potting::standing;

use crate::ui::Stepper;
use crate::words::{format, shed as words, stock};

/// What is asked first: a plant as they often come to the bench.
const HIGH_CM: i64 = 40;
const WEIGHT_G: i64 = 400;

#[component]
pub fn FallsOver(form: Pot) -> impl IntoView {
    if matches!(form, Pot::Holds { .. }) {
        return ().into_any();
    }
    let high_cm = RwSignal::new(HIGH_CM);
    let weight_g = RwSignal::new(WEIGHT_G);
    let cm = move || Length::from_mm(u32::try_from(high_cm.get() * 10).unwrap_or(0));
    let grams = move || Mass::from_mg(weight_g.get().saturating_mul(1_000));
    let told = move || {
        let stone = default_stone(&form);
        let plain = standing(form, Length::ZERO, cm(), grams());
        let with = standing(form, stone, cm(), grams());
        let (Some(plain_cdeg), Some(with_cdeg)) = (plain.tips_at_cdeg(), with.tips_at_cdeg())
        else {
            return ().into_any();
        };
        let holds = with_cdeg >= HOLDS_CDEG;
        let advice = if plain_cdeg >= HOLDS_CDEG {
            words::HOLDS_BARE.to_owned()
        } else {
            match plain.stone_to_hold() {
                Some(stone) => words::stone_holds(&format::whole_millimetres(stone.um())),
                None => words::WIDER_POT.to_owned(),
            }
        };
        view! {
            <p>{words::tips_at(plain_cdeg)}</p>
            <p>{words::tips_at_with(with_cdeg, &format::whole_millimetres(stone.um()))}</p>
            <p class:strong=!holds>{advice}</p>
        }
        .into_any()
    };
    view! {
        <details class="more-of-it">
            <summary>{words::FALLS_OVER}</summary>
            <Stepper
                label=words::PLANT_HIGH
                count=high_cm
                on_count=Callback::new(move |count| high_cm.set(count))
                less_label=stock::less_of(words::PLANT_HIGH)
                more_label=stock::more_of(words::PLANT_HIGH)
                min=5
                max=300
                by=5
            />
            <Stepper
                label=words::PLANT_WEIGHT
                count=weight_g
                on_count=Callback::new(move |count| weight_g.set(count))
                less_label=stock::less_of(words::PLANT_WEIGHT)
                more_label=stock::more_of(words::PLANT_WEIGHT)
                min=50
                max=20_000
                by=50
            />
            <div class="form">
                {told}
                <p class="soft">{words::FALLS_HOW}</p>
            </div>
        </details>
    }
    .into_any()
}
