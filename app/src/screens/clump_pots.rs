//! Step two at the bench: one class after another into pots, with litres, kilograms, place and the code for the label.

use leptos::prelude::*;
use velamen_core::cut;
use velamen_core::decide::next_code;
use velamen_core::draft::{self, BatchDraft, BenchDraft, BenchStep};
use velamen_core::event::PieceClass;
use velamen_core::reference::taxa::Group;
use velamen_core::view::repot::ClassLine;
use velamen_core::view::{places, potting, shed, treat, wash};

use crate::frame::{notices, room_bar};
use crate::ledger::Act;
use crate::route::Route;
use crate::screens::bath::{Wanted, to_a_bath};
use crate::screens::clump::{Bench, draft_key};
use crate::screens::clump_section::section;
use crate::screens::first_repot::{Step, first_step};
use crate::screens::lot_parts::Refusal;
use crate::screens::reentry::ClumpBound;
use crate::ui::{Choice, Choices, ChoicesLook, MainAction, PlainAction, Screen, Stake, Stepper};
use crate::words::{bath, clean as cleaning, rejection, repot as words, trade};

/// The line of the class whose turn it is.
fn turn(bench: Bench) -> Option<ClassLine> {
    let view = bench.view()?;
    let lines = || view.classes.iter().filter(|line| line.class.is_kept());
    let bare: Vec<PieceClass> = lines()
        .filter(|line| line.bare > 0)
        .map(|line| line.class)
        .collect();
    let class = bench.draft.with(|draft| draft.turn(&bare))?;
    lines().find(|line| line.class == class).cloned()
}

pub(super) fn pots(bench: Bench) -> impl IntoView {
    // What is left of a class is a batch of its own, with a code of its own.
    let now = Memo::new(move |_| turn(bench).map(|line| (line.class, line.bare)));
    move || match now.get() {
        Some((class, bare)) => {
            prepare(bench, class, u32::try_from(bare).unwrap_or(0));
            batch(bench, class).into_any()
        }
        None => {
            bench.change(|draft| draft.step = BenchStep::Labels);
            ().into_any()
        }
    }
}

/// Sets a batch up: a pot each (or one tray), what the class went into last, a code of its own. One that is set up
/// keeps its choices and loses only pieces that are no longer there.
fn prepare(bench: Bench, class: PieceClass, bare: u32) {
    let known = bench
        .draft
        .with_untracked(|draft| draft.batches.get(&class).cloned());
    match known.filter(|batch| batch.code.is_some()) {
        None => {
            let batch = first_batch(bench, class, bare);
            bench.change(|draft| {
                draft.batches.insert(class, batch);
            });
        }
        Some(batch) if batch.plants > bare => bench.change(|draft| {
            draft.batches.entry(class).or_default().set_plants(bare);
        }),
        Some(_) => {}
    }
}

fn first_batch(bench: Bench, class: PieceClass, plants: u32) -> BatchDraft {
    let batches = bench.draft.with_untracked(|draft| draft.batches.clone());
    let own = batches.get(&class).cloned();
    let other = own.or_else(|| batches.values().next_back().cloned());
    let other = other.unwrap_or_default();
    let reserved: Vec<_> = untrack(|| bench.ledger.drafts_under("bench-"))
        .iter()
        .filter_map(|(_, text)| draft::read::<BenchDraft>(text))
        .flat_map(|draft| draft.reserved().collect::<Vec<_>>())
        .collect();
    let (place, group) = bench.view.with_untracked(|view| {
        let view = view.as_ref();
        let group = view.map(|view| view.name.plant_group());
        (
            view.and_then(|view| view.place),
            group.unwrap_or(Group::Other),
        )
    });
    bench.ledger.look(|state, at| {
        let pots = shed::pots(state);
        let last = potting::last_of_class(state.facts(), class);
        let pot = last
            .and_then(|last| last.pot)
            .or_else(|| cut::first_pot(state.facts(), group, class, plants))
            .or(other.pot)
            .or_else(|| pots.first().map(|row| row.pot));
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
            mix: last
                .and_then(|last| last.mix)
                .or_else(|| cut::first_mix(state.facts(), class))
                .or(other.mix)
                .or_else(|| shed::mixes(state).first().map(|row| row.mix)),
            place: last.and_then(|last| last.place).or(other.place).or(place),
            code: next_code(state, at, &reserved).ok(),
            written: false,
        }
    })
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
                let mut left = bench.draft.get_untracked();
                // The code is in the book; what is left of the class gets another.
                left.batches.entry(class).or_default().code = None;
                left.later.retain(|later| *later != class);
                ledger.act(
                    Act::new(command, said)
                        .leaves_draft(draft_key(bench.clump), &left)
                        .otherwise(move |no| error.set(rejection::say(&no))),
                );
            }
        }
    });
    let later = Callback::new(move |()| bench.change(|draft| draft.put_off(class)));
    // What the key would write down, beside it: the choice itself lies farther down.
    let into = Memo::new(move |_| {
        let batch = now.get();
        ledger.follow(move |state, _| {
            let facts = state.facts();
            let pot = batch.pot.and_then(|pot| facts.pots.get(&pot));
            let mix = batch.mix.and_then(|mix| facts.mixes.get(&mix));
            let names = [
                pot.map(|pot| pot.name.or_default()),
                mix.map(|mix| mix.name.or_default()),
            ];
            let names: Vec<String> = names.into_iter().flatten().collect();
            names.join(" · ")
        })
    });
    let actions = move || {
        view! {
            <p class="beside-keys">{into}</p>
            <PlainAction label=words::LATER.to_owned() on_press=later />
            <MainAction label=words::POTTED.to_owned() on_press=pot busy=ledger.busy() />
        }
    };
    let count_label = if potting::shares_a_tray(class) {
        words::TRAYS
    } else {
        words::POTS
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
            {first_step(ledger, Step::Pots(class))}
            <div class="edge-error"><Refusal words=error /></div>
            <ClumpBound clump=bench.clump />
            {bath_offer(bench)}
            {move || now.with(|batch| batch.code).map(|code| view! {
                <p class="code-line"><span class="soft">{words::WRITE}</span> <Stake name=Vec::new() code=code.to_string() large=true /></p>
            })}
            <div class="steppers">
                <Stepper
                    label=words::PLANTS_NOW
                    count=plants
                    on_count=Callback::new(move |count: i64| change(&|batch| batch.set_plants(u32::try_from(count).unwrap_or(0))))
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
            {section(bench, now, class)}
            <CleanPots bench now />
            <ChosenPot bench class now />
            <p class="edge soft">{words::HOW_TO}</p>
            <div class="form">
                <PlainAction label=words::BACK_TO_PIECES.to_owned() on_press=count_again />
            </div>
        </Screen>
    }
}

/// What was seen at the bench may want a bath before the pots; pieces that had one are not asked about again.
fn bath_offer(bench: Bench) -> impl IntoView {
    let wanted = bench
        .ledger
        .ask(move |state, _| treat::bath_wanted(state, bench.clump));
    let go = Callback::new(move |()| {
        let wanted = wanted.get_untracked();
        let wanted = Wanted {
            lots: Vec::new(),
            pieces: wanted.pieces,
            finding: wanted.finding,
            against: wanted.against,
        };
        to_a_bath(bench.ledger, wanted);
    });
    move || {
        let wanted = wanted.get();
        let seen = (!wanted.signs.is_empty() && !wanted.pieces.is_empty()).then(|| {
            let signs: Vec<String> = wanted
                .signs
                .iter()
                .map(|key| trade::sign(key).to_lowercase())
                .collect();
            view! { <p>{words::seen(&signs.join(", "))}</p> }
        });
        (!wanted.pieces.is_empty()).then(|| {
            view! {
                <div class="form">
                    {seen}
                    <PlainAction label=bath::BATH.to_owned() on_press=go />
                </div>
            }
        })
    }
}

/// How many clean pots of the kind are counted; never in the way.
#[component]
fn CleanPots(bench: Bench, now: Memo<BatchDraft>) -> impl IntoView {
    let counted = Memo::new(move |_| {
        let batch = now.get();
        let pot = batch.pot?;
        bench.ledger.follow(|state, _| {
            let clean = wash::clean_pots(state, pot)?;
            let name = state.facts().pots.get(&pot)?.name.or_default();
            Some((clean, batch.stands, name))
        })
    });
    move || {
        counted.get().map(|(clean, stands, name)| {
            if clean < i64::from(stands) {
                view! { <p class="warn">{cleaning::only_clean(clean, &name)}</p> }.into_any()
            } else {
                view! { <p class="edge soft">{cleaning::clean_left(clean)}</p> }.into_any()
            }
        })
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
