//! The pot of a batch in section, to scale, with what goes into it.

use leptos::prelude::*;
use velamen_core::draft::BatchDraft;
use velamen_core::event::PieceClass;
use velamen_core::potting::parts::is_fine;
use velamen_core::potting::{Bill, Pot};
use velamen_core::view::potting;

use crate::screens::clump::Bench;
use crate::ui::PlainAction;
use crate::ui::drawing::{Layer, LayerKind, PotSection};
use crate::words::{drain, format, rejection, repot as words};

/// Step of the stone layer, in micrometres.
const STONE_STEP_UM: i64 = 5_000;

/// The pot in section, with litres and kilograms; stone by steps of five millimetres.
pub(super) fn section(bench: Bench, now: Memo<BatchDraft>, class: PieceClass) -> impl IntoView {
    let drawn = move || {
        let batch = now.get();
        let pot = batch.pot?;
        let (form, bill, mix, fine) = bench.ledger.look(|state, _| {
            let facts = state.facts();
            let form = facts.pots.get(&pot).and_then(|pot| pot.form.get().copied());
            let mix = batch.mix.and_then(|mix| facts.mixes.get(&mix));
            let fine = mix.is_some_and(|mix| is_fine(&mix.shares.or_default()));
            let mix = mix.map(|mix| mix.name.or_default());
            (
                form,
                potting::bill_of(facts, pot, &batch.layers, batch.stands),
                mix.unwrap_or_default(),
                fine && batch.layers.stone.um() > 0,
            )
        });
        Some(match bill {
            Err(fault) => {
                view! { <p class="warn" role="alert">{rejection::pot(&fault)}</p> }.into_any()
            }
            Ok(None) => ().into_any(),
            Ok(Some(bill)) => {
                let warning = fine.then(|| view! { <p class="warn">{drain::FINE_OVER_STONE}</p> });
                view! { {drawing(form?, &batch, &bill, &mix)} {warning} }.into_any()
            }
        })
    };
    let stone = move |by: i64| {
        Callback::new(move |()| {
            bench.change(|draft| {
                let layers = &mut draft.batches.entry(class).or_default().layers;
                let um = layers.stone.um().saturating_add(by).max(0);
                layers.stone = velamen_core::quantity::Length::from_um(um);
            });
        })
    };
    let wet = move || {
        let place = now.with(|batch| batch.place)?;
        let wet = bench
            .ledger
            .follow(|state, _| potting::wet(state.facts(), place))?;
        Some(view! { <p class="edge">{words::wet(wet)}</p> })
    };
    view! {
        {drawn}
        {wet}
        <div class="form pair">
            <PlainAction label=words::LESS_STONE.to_owned() on_press=stone(-STONE_STEP_UM) />
            <PlainAction label=words::MORE_STONE.to_owned() on_press=stone(STONE_STEP_UM) />
        </div>
    }
}

fn drawing(form: Pot, batch: &BatchDraft, bill: &Bill, mix: &str) -> impl IntoView {
    let (top, base, height) = match form {
        Pot::Round { top, base, height } | Pot::Square { top, base, height } => (top, base, height),
        Pot::Holds { .. } => return ().into_any(),
    };
    let mm = |um: i64| u32::try_from((um + 500) / 1_000).unwrap_or(0);
    let mix_um = height.um() - batch.layers.stone.um() - batch.layers.headspace.um();
    let layers = vec![
        Layer {
            kind: LayerKind::Stone,
            depth_mm: mm(batch.layers.stone.um()),
            value: format::litres(bill.one.stone),
            words: format!(
                "{}, {}",
                words::STONE_LABEL,
                format::whole_millimetres(batch.layers.stone.um())
            ),
        },
        Layer {
            kind: LayerKind::Mix,
            depth_mm: mm(mix_um),
            value: format::litres(bill.one.mix),
            words: mix.to_lowercase(),
        },
        Layer {
            kind: LayerKind::Headspace,
            depth_mm: mm(batch.layers.headspace.um()),
            value: format::whole_millimetres(batch.layers.headspace.um()),
            words: words::HEADSPACE.to_owned(),
        },
    ];
    let text = format!(
        "{} {}, {} {}",
        format::litres(bill.one.stone),
        words::STONE_LABEL,
        format::litres(bill.one.mix),
        mix
    );
    view! {
        <PotSection
            top_mm=mm(top.um())
            base_mm=mm(base.um())
            height_mm=mm(height.um())
            layers
            width_words=format::millimetres(top.um())
            text
        />
        <dl class="sums">
            <div><dt>{words::MIX_LABEL}</dt><dd>{format::litres(bill.mix)}</dd></div>
            <div><dt>{words::STONE_LABEL}</dt><dd>{format::litres(bill.stone)} " · " {format::kilograms(bill.stone_mass)}</dd></div>
        </dl>
    }
    .into_any()
}
