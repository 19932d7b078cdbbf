//! Step two at the bench: one class after another into pots, with litres, kilograms, place and the code for the label.

use leptos::prelude::*;
use velamen_core::decide::next_code;
use velamen_core::draft::{self, BatchDraft, BenchDraft, BenchStep};
use velamen_core::event::PieceClass;
use velamen_core::potting::{Bill, Pot};
use velamen_core::view::repot::ClassLine;
use velamen_core::view::{places, potting, shed};

use crate::frame::{notices, room_bar};
use crate::ledger::Act;
use crate::route::Route;
use crate::screens::clump::Bench;
use crate::ui::drawing::{Layer, LayerKind, PotSection};
use crate::ui::{Choice, Choices, ChoicesLook, MainAction, PlainAction, Screen, Stake, Stepper};
use crate::words::{format, rejection, repot as words, trade};

/// Step of the stone layer, in micrometres.
const STONE_STEP_UM: i64 = 5_000;

/// The class whose turn it is: the first kept one with bare pieces that was not put off.
fn turn(bench: Bench) -> Option<ClassLine> {
    let view = bench.view()?;
    let later = bench.draft.with(|draft| draft.later.clone());
    let bare = || {
        view.classes
            .iter()
            .filter(|line| line.class.is_kept() && line.bare > 0)
    };
    bare()
        .find(|line| !later.contains(&line.class))
        .or_else(|| bare().next())
        .cloned()
}

pub(super) fn pots(bench: Bench) -> impl IntoView {
    let class = Memo::new(move |_| turn(bench).map(|line| line.class));
    move || match class.get() {
        Some(class) => {
            prepare(bench, class);
            batch(bench, class).into_any()
        }
        None => {
            bench.change(|draft| draft.step = BenchStep::Labels);
            ().into_any()
        }
    }
}

/// Sets a batch up the first time: a pot each (or one tray), last used pot and mix, the clump's place, a code of its own.
fn prepare(bench: Bench, class: PieceClass) {
    let known = bench
        .draft
        .with_untracked(|draft| draft.batches.get(&class).cloned());
    if known.as_ref().is_some_and(|batch| batch.code.is_some()) {
        return;
    }
    let bare = bench.view.with_untracked(|view| {
        let line = view
            .as_ref()?
            .classes
            .iter()
            .find(|line| line.class == class)?;
        Some(u32::try_from(line.bare).unwrap_or(0))
    });
    let plants = bare.unwrap_or(0);
    let other = bench
        .draft
        .with_untracked(|draft| draft.batches.values().next_back().cloned())
        .unwrap_or_default();
    let drafts = bench.ledger.drafts_under("bench-");
    let reserved: Vec<_> = drafts
        .iter()
        .filter_map(|(_, text)| draft::read::<BenchDraft>(text))
        .flat_map(|draft| draft.reserved().collect::<Vec<_>>())
        .collect();
    let place = bench
        .view
        .with_untracked(|view| view.as_ref().and_then(|view| view.place));
    let batch = bench.ledger.look(|state, at| {
        let pots = shed::pots(state);
        let pot = other.pot.or_else(|| pots.first().map(|row| row.pot));
        let form = pots
            .iter()
            .find(|row| Some(row.pot) == pot)
            .and_then(|row| row.form);
        BatchDraft {
            plants,
            stands: if potting::shares_a_tray(class) {
                1
            } else {
                plants
            },
            pot,
            layers: form
                .map(|form| potting::usual_layers(&form))
                .unwrap_or_default(),
            mix: other
                .mix
                .or_else(|| shed::mixes(state).first().map(|row| row.mix)),
            place: other.place.or(place),
            code: next_code(state, at, &reserved).ok(),
            written: false,
        }
    });
    bench.change(|draft| {
        draft.batches.insert(class, batch);
    });
}

fn batch(bench: Bench, class: PieceClass) -> impl IntoView {
    let ledger = bench.ledger;
    let now = Memo::new(move |_| {
        bench
            .draft
            .with(|draft| draft.batches.get(&class).cloned().unwrap_or_default())
    });
    let change = move |how: &dyn Fn(&mut BatchDraft)| {
        bench.change(|draft| how(draft.batches.entry(class).or_default()))
    };
    let bare =
        Memo::new(move |_| turn(bench).map_or(0, |line| i64::try_from(line.bare).unwrap_or(0)));
    let error = RwSignal::new(String::new());
    let pot = Callback::new(move |()| {
        let batch = now.get_untracked();
        let command = ledger.look(|state, _| {
            bench
                .draft
                .get_untracked()
                .pot(state, bench.clump, class, batch.plants, None)
        });
        match command {
            Err(fault) => error.set(rejection::pot(&fault)),
            Ok(command) => {
                let said = words::potted(trade::class(class), batch.plants);
                let then = move |_| {
                    bench.change(|draft| {
                        // What is left of the class later becomes a lot with a code of its own.
                        draft.batches.entry(class).or_default().code = None;
                        draft.later.retain(|later| *later != class);
                    });
                };
                ledger.act(
                    Act::new(command, said)
                        .then(then)
                        .otherwise(move |no| error.set(rejection::say(&no))),
                );
            }
        }
    });
    let later = Callback::new(move |()| bench.change(|draft| draft.put_off(class)));
    let actions = move || {
        view! {
            <PlainAction label=words::LATER.to_owned() on_press=later />
            <MainAction label=words::POTTED.to_owned() on_press=pot busy=ledger.busy() />
        }
    };
    let count_label = if potting::shares_a_tray(class) {
        words::TRAYS
    } else {
        words::POTS
    };
    let problem = move || {
        let error = error.get();
        (!error.is_empty()).then(|| view! { <p class="warn" role="alert">{error}</p> })
    };
    let over =
        Signal::derive(move || format!("{} · {}", trade::class(class), trade::pieces(bare.get())));
    let count_again = Callback::new(move |()| bench.change(|draft| draft.step = BenchStep::Pieces));
    let plants = Signal::derive(move || i64::from(now.with(|batch| batch.plants)).min(bare.get()));
    let stands = Signal::derive(move || i64::from(now.with(|batch| batch.stands)));
    view! {
        <Screen
            title=bench.name()
            over
            back=move || bench.back()
            side=move || bench.tag()
            actions
            notice=notices
            rooms=|| room_bar(Route::Repot)
        >
            {problem}
            {move || now.with(|batch| batch.code).map(|code| view! {
                <p class="code-line"><span class="soft">{words::WRITE}</span> <Stake name=Vec::new() code=code.to_string() large=true /></p>
            })}
            <div class="steppers">
                <Stepper
                    label=words::PLANTS_NOW
                    count=plants
                    on_count=Callback::new(move |count: i64| change(&|batch| {
                        let plants = u32::try_from(count).unwrap_or(0);
                        if batch.stands == batch.plants {
                            batch.stands = plants;
                        }
                        batch.plants = plants;
                    }))
                    less_label=words::one_less(words::PLANTS_NOW)
                    more_label=words::one_more(words::PLANTS_NOW)
                    min=1
                    max=bare.get_untracked()
                />
                <Stepper
                    label=count_label
                    count=stands
                    on_count=Callback::new(move |count: i64| change(&|batch| batch.stands = u32::try_from(count).unwrap_or(0)))
                    less_label=words::one_less(count_label)
                    more_label=words::one_more(count_label)
                    min=1
                    max=2_000
                />
            </div>
            <Section bench now class />
            <ChosenPot bench class now />
            <p class="edge soft">{words::HOW_TO}</p>
            <div class="form">
                <PlainAction label=words::BACK_TO_PIECES.to_owned() on_press=count_again />
            </div>
        </Screen>
    }
}

/// Pot, mix and place as chips.
#[component]
fn ChosenPot(bench: Bench, class: PieceClass, now: Memo<BatchDraft>) -> impl IntoView {
    let (pots, mixes, here) = bench
        .ledger
        .look(|state, _| (shed::pots(state), shed::mixes(state), places(state.facts())));
    let key = |id: Option<String>| id.unwrap_or_default();
    let chips = |rows: Vec<(String, String)>| -> Vec<Choice> {
        rows.into_iter()
            .map(|(key, label)| Choice {
                key,
                label,
                hint: None,
            })
            .collect()
    };
    let forms: Vec<_> = pots.iter().map(|row| (row.pot, row.form)).collect();
    let choose_pot = Callback::new(move |chosen: String| {
        let Ok(pot) = chosen.parse() else { return };
        let form = forms
            .iter()
            .find(|(known, _)| *known == pot)
            .and_then(|(_, form)| *form);
        bench.change(|draft| {
            let batch = draft.batches.entry(class).or_default();
            batch.pot = Some(pot);
            batch.layers = form
                .map(|form| potting::usual_layers(&form))
                .unwrap_or_default();
        });
    });
    let choose_mix = Callback::new(move |chosen: String| {
        bench.change(|draft| draft.batches.entry(class).or_default().mix = chosen.parse().ok());
    });
    let choose_place = Callback::new(move |chosen: String| {
        bench.change(|draft| draft.batches.entry(class).or_default().place = chosen.parse().ok());
    });
    let pot_rows = chips(
        pots.into_iter()
            .map(|row| (row.pot.to_string(), row.name))
            .collect(),
    );
    let mix_rows = chips(
        mixes
            .into_iter()
            .map(|row| (row.mix.to_string(), row.name))
            .collect(),
    );
    let place_rows = chips(
        here.into_iter()
            .map(|row| (row.place.to_string(), row.name))
            .collect(),
    );
    let places_known = !place_rows.is_empty();
    view! {
        <div class="form">
            <Choices
                legend=words::POT_KIND
                choices=pot_rows
                chosen=Signal::derive(move || key(now.with(|batch| batch.pot.map(|pot| pot.to_string()))))
                on_choose=choose_pot
                look=ChoicesLook::Chips
            />
            <Choices
                legend=words::MIX
                choices=mix_rows
                chosen=Signal::derive(move || key(now.with(|batch| batch.mix.map(|mix| mix.to_string()))))
                on_choose=choose_mix
                look=ChoicesLook::Chips
            />
            {places_known.then(|| view! {
                <Choices
                    legend=words::PLACE
                    choices=place_rows
                    chosen=Signal::derive(move || key(now.with(|batch| batch.place.map(|place| place.to_string()))))
                    on_choose=choose_place
                    look=ChoicesLook::Chips
                />
            })}
        </div>
    }
}

/// The pot in section, with litres and kilograms; stone by steps of five millimetres.
#[component]
fn Section(bench: Bench, now: Memo<BatchDraft>, class: PieceClass) -> impl IntoView {
    let drawn = move || {
        let batch = now.get();
        let pot = batch.pot?;
        let (form, bill, mix) = bench.ledger.look(|state, _| {
            let facts = state.facts();
            let form = facts.pots.get(&pot).and_then(|pot| pot.form.get().copied());
            let mix = batch
                .mix
                .and_then(|mix| facts.mixes.get(&mix))
                .map(|mix| mix.name.or_default());
            (
                form,
                potting::bill_of(facts, pot, &batch.layers, batch.stands),
                mix.unwrap_or_default(),
            )
        });
        Some(match bill {
            Err(fault) => {
                view! { <p class="warn" role="alert">{rejection::pot(&fault)}</p> }.into_any()
            }
            Ok(None) => ().into_any(),
            Ok(Some(bill)) => section(form?, &batch, &bill, &mix).into_any(),
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
    view! {
        {drawn}
        <div class="form pair">
            <PlainAction label=words::LESS_STONE.to_owned() on_press=stone(-STONE_STEP_UM) />
            <PlainAction label=words::MORE_STONE.to_owned() on_press=stone(STONE_STEP_UM) />
        </div>
    }
}

fn section(form: Pot, batch: &BatchDraft, bill: &Bill, mix: &str) -> impl IntoView {
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
                format::millimetres(batch.layers.stone.um())
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
            value: format::millimetres(batch.layers.headspace.um()),
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
