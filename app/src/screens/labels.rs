//! Labels to be printed: which lots, how many of each, on what; and the printing, page by page.

use std::sync::Arc;

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::id::LotId;
use velamen_core::label_sheet::{
    LABELS_MAX, LabelOf, LabelText, LabelsDraft, Pick, Printed, Sheet, SheetFault, label_texts,
};
use velamen_core::papers::{Passport, PassportFault, PassportForm, passport};
use velamen_core::state::State;
use velamen_core::view::book::place_called;
use velamen_core::view::labels::{all, divisions, labels_of};
use velamen_core::view::places;
use velamen_core::view::stock::stock;

use super::label_face::{Face, compose, divided, dress, face};
use super::label_sheet::{LABELS, OnTheLabel, SheetForm};
use super::lot_parts::nothing_called;
use crate::frame::{notices, room_bar};
use crate::ledger::{Drawn, Dress, Ledger, ToldKind};
use crate::route::Route;
use crate::screens::names::lot as called;
use crate::ui::{
    Field, Glyph, MainAction, PlainAction, PlainLink, Progress, Screen, Slat, Stepper, TopBack,
};
use crate::words::{format, labels as words, papers, rooms, stock as stock_words, trade};

/// Key of the mark that says whose label was printed.
const PRINTED: &str = "labels_printed";
/// Lots offered, divisions offered, lots whose number can be changed.
const OFFERED: usize = 6;
const DIVISIONS: usize = 5;
const COUNTED: usize = 60;
/// Lots whose codes are drawn at a time, and labels laid out before a tap is heard again.
const BATCH: usize = 25;
const AT_ONCE: u32 = 50;

/// A page of labels.
#[derive(Clone)]
struct Page {
    number: u32,
    /// Places left free at its beginning.
    free: u32,
    faces: Vec<Arc<Face>>,
}

/// How far the printing has come.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Going {
    done: u32,
    of: u32,
}

/// Puts things on the list, in place of what was there, and goes to it.
pub(super) fn print_labels_of(ledger: Ledger, things: &[LabelOf]) {
    let picks = with_labels(ledger, things);
    ledger.change_draft::<LabelsDraft>(LABELS, |draft| draft.picks = picks);
    Route::Labels.go();
}

/// What a label leads to.
fn leads_to(of: LabelOf) -> Route {
    match of {
        LabelOf::Lot(lot) => Route::Lot(lot),
        LabelOf::Place(place) => Route::Place(place),
        LabelOf::Clump(clump) => Route::Clump(clump),
    }
}

/// What a label is for, in words.
fn thing_called(state: &State, of: LabelOf) -> String {
    match of {
        LabelOf::Lot(lot) => called(state, lot),
        LabelOf::Place(place) => place_called(state, place),
        LabelOf::Clump(clump) => {
            let opened = state.facts().clumps.get(&clump);
            let opened = opened.and_then(|clump| clump.opened.as_ref());
            opened.map_or_else(String::new, |opened| {
                words::tray_of(opened.tray, &trade::name_plain(&opened.name))
            })
        }
    }
}

fn with_labels(ledger: Ledger, things: &[LabelOf]) -> Vec<Pick> {
    ledger.look(|state, _| {
        let things = things.iter();
        things
            .map(|of| Pick {
                of: *of,
                labels: of.lot().map_or(1, |lot| labels_of(state, lot)),
            })
            .collect()
    })
}

/// The way from a lot's page to its label and its papers.
#[component]
pub fn LotPaperKeys(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let print = Callback::new(move |()| print_labels_of(ledger, &[LabelOf::Lot(lot)]));
    view! {
        <div class="form">
            <PlainAction label=words::PRINT_ONE.to_owned() glyph=Glyph::Tag on_press=print />
            <PlainLink href=Route::LotPapers(lot).href() label=papers::lot::LINK glyph=Glyph::Book />
        </div>
    }
}

/// The screen.
#[component]
pub fn Labels() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<LabelsDraft>(LABELS);
    let sheet: Memo<Result<(Sheet, u32), SheetFault>> =
        Memo::new(move |_| draft.with(|draft| draft.sheet.read()));
    let labels = Memo::new(move |_| draft.with(LabelsDraft::labels));
    let pages = RwSignal::new(Vec::<Page>::new());
    let going = RwSignal::new(None::<Going>);
    let wrong = RwSignal::new(String::new());
    Effect::new(move |_| {
        draft.track();
        wrong.set(String::new());
    });
    let can = Memo::new(move |_| {
        let (count, form) = (labels.get(), draft.with(|draft| draft.passport));
        let passport_ok = form == PassportForm::None
            || draft.with(|draft| {
                ledger.follow(|state, _| {
                    velamen_core::papers::passport_terms(state.facts(), form, &draft.origin).is_ok()
                })
            });
        (1..=LABELS_MAX).contains(&count)
            && sheet.get().is_ok()
            && passport_ok
            && going.get().is_none()
    });
    let print = Callback::new(move |()| {
        wrong.set(String::new());
        spawn_local(print_all(ledger, pages, going, wrong));
    });
    let actions = move || {
        let label = Signal::derive(move || words::print(labels.get()));
        let disabled = Signal::derive(move || !can.get());
        let busy = Signal::derive(move || going.get().is_some());
        view! { <MainAction label on_press=print disabled busy /> }
    };
    let progress = move || {
        going.get().is_some().then(|| {
            let of = move |get: fn(Going) -> u32| going.get().map_or(0, get);
            let pct = Signal::derive(move || of(|at| at.done.saturating_mul(100) / at.of.max(1)));
            let said = Signal::derive(move || words::done(of(|at| at.done), of(|at| at.of)));
            view! {
                <div class="edge">
                    <Progress label=words::PRINTING pct words=said>
                        <button type="button" class="quiet" on:click=move |_| going.set(None)>{words::STOP}</button>
                    </Progress>
                </div>
            }
        })
    };
    let side = move || {
        let sheet = sheet.get().ok().filter(|_| labels.get() > 0);
        sheet.map(|(sheet, start)| words::pages(labels.get(), sheet.pages(labels.get(), start)))
    };
    view! {
        <Screen
            title=words::TITLE
            side
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            {progress}
            {move || (labels.get() > LABELS_MAX).then(|| view! { <p class="warn">{words::TOO_MANY}</p> })}
            {move || (!wrong.with(String::is_empty)).then(|| view! { <p class="warn">{wrong.get()}</p> })}
            <Slat name=words::WHICH note="" />
            <Which />
            <Slat name=words::PREVIEW note="" />
            <Preview sheet />
            <Slat name=words::SHEET note="" />
            <SheetForm />
            <Slat name=words::ON_IT note="" />
            <OnTheLabel />
            <div class="print-sheets" aria-hidden="true">
                <For each=move || pages.get() key=|page| page.number children=page_of />
            </div>
        </Screen>
    }
}

fn page_of(page: Page) -> impl IntoView {
    let free = (0..page.free).map(|_| view! { <div></div> }).collect_view();
    let faces = page.faces.iter().map(face).collect_view();
    view! { <div class="print-page" data-page=page.number>{free} {faces}</div> }
}

/// Which lots, and how many labels of each.
#[component]
pub fn Which() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<LabelsDraft>(LABELS);
    let change = move |how: Box<dyn FnOnce(&mut LabelsDraft)>| ledger.change_draft(LABELS, how);
    let search = Signal::derive(move || draft.with(|draft| draft.search.clone()));
    let on_search = Callback::new(move |typed| change(Box::new(move |draft| draft.search = typed)));
    let printed = ledger.draft::<Printed>(PRINTED);
    let offered = Memo::new(move |_| {
        let draft = draft.get();
        if draft.search.trim().is_empty() {
            return (Vec::new(), false);
        }
        ledger.follow(|state, _| {
            let found = stock(state, &draft.search, OFFERED).rows;
            let nothing = found.is_empty();
            let found = found.into_iter().map(|row| row.label.lot);
            let left =
                found.filter(|lot| !draft.picks.iter().any(|pick| pick.of == LabelOf::Lot(*lot)));
            let left = left.map(|lot| (lot, called(state, lot)));
            (left.collect::<Vec<_>>(), nothing)
        })
    });
    let offers = move || {
        let rows = offered.get().0.into_iter().map(|(lot, name)| {
            let add = move |_| {
                let labels = ledger.look(|state, _| labels_of(state, lot));
                change(Box::new(move |draft| {
                    draft.add(LabelOf::Lot(lot), labels);
                    draft.search.clear();
                }));
            };
            view! { <button type="button" class="choose" aria-pressed="false" on:click=add>{name}</button> }
        });
        rows.collect_view()
    };
    let take = move |only_unprinted: bool| {
        Callback::new(move |()| {
            let printed = printed.get_untracked();
            let lots = ledger.look(|state, _| all(state));
            change(Box::new(move |draft| {
                for (lot, labels) in lots {
                    let wanted = !only_unprinted || printed.of(lot).is_none();
                    if wanted && draft.labels() < LABELS_MAX {
                        draft.add(LabelOf::Lot(lot), labels);
                    }
                }
            }));
        })
    };
    let done = ledger.ask(|state, at| {
        let rows = divisions(state, DIVISIONS).into_iter();
        rows.map(|row| {
            let on = format::near_day(row.closed_on, at.today);
            let lots = row.lots.iter().copied().map(LabelOf::Lot);
            (
                words::division(row.tray, &on, row.lots.len()),
                lots.collect(),
            )
        })
        .collect::<Vec<_>>()
    });
    let standing = ledger.ask(|state, _| {
        let places = places(state.facts()).into_iter();
        let places = places.map(|place| (place.name, vec![LabelOf::Place(place.place)]));
        let trays = state.facts().open_clumps();
        let trays = trays.map(|(clump, _)| {
            let of = LabelOf::Clump(clump);
            (thing_called(state, of), vec![of])
        });
        (places.collect::<Groups>(), trays.collect::<Groups>())
    });
    let from_divisions = move || groups(ledger, words::FROM_DIVISION, done.get());
    let places = move || {
        groups(
            ledger,
            words::PLACES,
            standing.with(|(places, _)| places.clone()),
        )
    };
    let trays = move || {
        groups(
            ledger,
            words::TRAYS,
            standing.with(|(_, trays)| trays.clone()),
        )
    };
    let things = Memo::new(move |_| {
        draft.with(|draft| draft.picks.iter().map(|pick| pick.of).collect::<Vec<_>>())
    });
    let chosen = move || {
        let count = things.with(Vec::len);
        (count > 0).then(|| {
            let none = move |_| change(Box::new(|draft| draft.picks.clear()));
            view! {
                <p class="edge split">
                    <span class="strong">{words::things(count)}</span>
                    <button type="button" class="quiet" on:click=none>{words::NO_LOTS}</button>
                </p>
                <details class="more-of-it">
                    <summary>{words::HOW_MANY}</summary>
                    {move || things.get().into_iter().take(COUNTED).map(|of| view! { <OfOne of /> }).collect_view()}
                </details>
            }
        })
    };
    view! {
        {chosen}
        <div class="form">
            <Field label=words::SEARCH hint=stock_words::SEARCH_HINT value=search on_input=on_search max_chars=200 />
        </div>
        {nothing_called(Signal::derive(move || offered.with(|(_, nothing)| *nothing)))}
        {offers}
        <div class="form">
            <PlainAction label=words::NOT_PRINTED.to_owned() on_press=take(true) />
            <PlainAction label=words::ALL.to_owned() on_press=take(false) />
        </div>
        {from_divisions}
        {places}
        {trays}
    }
}

/// Things whose labels are put on the list by one tap, under what they are called together.
type Groups = Vec<(String, Vec<LabelOf>)>;

/// A fold of keys, each of which puts labels on the list.
fn groups(ledger: Ledger, title: &'static str, rows: Groups) -> impl IntoView {
    (!rows.is_empty()).then(|| {
        let keys = rows.into_iter().map(|(name, things)| {
            let add = move |_| {
                let picks = with_labels(ledger, &things);
                ledger.change_draft::<LabelsDraft>(LABELS, |draft| {
                    for pick in picks {
                        draft.add(pick.of, pick.labels);
                    }
                });
            };
            view! { <button type="button" class="pick" on:click=add>{name}</button> }
        });
        view! {
            <details class="more-of-it">
                <summary>{title}</summary>
                {keys.collect_view()}
            </details>
        }
    })
}

/// How many labels of one thing; none takes it out.
#[component]
pub fn OfOne(of: LabelOf) -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<LabelsDraft>(LABELS);
    let printed = ledger.draft::<Printed>(PRINTED);
    let count = Signal::derive(move || {
        let found = draft.with(|draft| draft.picks.iter().find(|pick| pick.of == of).copied());
        found.map_or(0, |pick| i64::from(pick.labels))
    });
    let on_count = Callback::new(move |count: i64| {
        let labels = u32::try_from(count).unwrap_or(0);
        ledger.change_draft::<LabelsDraft>(LABELS, |draft| match labels {
            0 => draft.switch(of, 0),
            labels => draft.count(of, labels),
        });
    });
    let label = ledger.look(|state, _| thing_called(state, of));
    let hint = Signal::derive(move || {
        let on = printed.with(|printed| printed.of(of.lot()?));
        on.map(|on| words::printed_on(&format::near_day(on, ledger.today())))
            .unwrap_or_default()
    });
    view! {
        <Stepper
            label=label.clone()
            hint
            count
            on_count
            less_label=stock_words::less_of(&label)
            more_label=stock_words::more_of(&label)
            max=i64::from(LABELS_MAX)
        />
    }
}

/// The first label, as large as it is printed.
#[component]
pub fn Preview(sheet: Memo<Result<(Sheet, u32), SheetFault>>) -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<LabelsDraft>(LABELS);
    let first = Memo::new(move |_| draft.with(|draft| draft.picks.first().map(|pick| pick.of)));
    let drawn = RwSignal::new(None::<Drawn>);
    Effect::new(move |_| {
        if let Some(of) = first.get() {
            let link = ledger.link(&leads_to(of).href());
            spawn_local(async move {
                let codes = ledger.draw_codes(&[link]).await;
                drawn.try_set(codes.and_then(|codes| codes.into_iter().next()));
            });
        }
    });
    let worn = StoredValue::new_local(None::<Dress>);
    Effect::new(move |_| {
        if let Ok((sheet, _)) = sheet.get() {
            let css = drawn.with(|drawn| dress(&sheet, &divided(&sheet, drawn.as_ref())));
            worn.set_value(None);
            worn.set_value(Dress::put_on(&css));
        }
    });
    let label = move || {
        // Of the draft alone: followed beside what is worked out from it, a change may be missed.
        let (draft, drawn) = (draft.get(), drawn.get());
        let first = draft.picks.first().map(|pick| pick.of);
        let (Ok((sheet, _)), Some(of)) = (draft.sheet.read(), first) else {
            return view! { <p class="edge soft">{words::NOTHING_YET}</p> }.into_any();
        };
        let too_small = drawn.is_some() && divided(&sheet, drawn.as_ref()).code.is_none();
        let composed = ledger.follow(|state, at| {
            let text = label_texts(state, &[of], at.now_ms).into_iter().next()?;
            let passport = of_passport(state.facts(), of, &draft).ok().flatten();
            Some((text, passport))
        });
        let shown = composed.map(|(text, passport)| {
            let made = compose(ledger, &sheet, &draft, &text, passport.as_ref(), drawn);
            match made {
                Some(made) => {
                    view! { <div class="print-preview">{face(&Arc::new(made))}</div> }.into_any()
                }
                None => {
                    view! { <p class="warn">{words::too_long(&[code_of(&text)])}</p> }.into_any()
                }
            }
        });
        view! {
            {shown}
            {too_small.then(|| view! { <p class="edge soft">{words::NO_CODE_HERE}</p> })}
        }
        .into_any()
    };
    view! { <div>{label}</div> }
}

fn of_passport(
    facts: &velamen_core::state::Facts,
    of: LabelOf,
    draft: &LabelsDraft,
) -> Result<Option<Passport>, PassportFault> {
    match (draft.passport, of) {
        (PassportForm::None, _) | (_, LabelOf::Place(_) | LabelOf::Clump(_)) => Ok(None),
        (form, LabelOf::Lot(lot)) => passport(facts, lot, form, &draft.origin).map(Some),
    }
}

fn code_of(text: &LabelText) -> String {
    match (text.code, text.tray) {
        (Some(code), _) => code.to_string(),
        (None, Some(tray)) => words::tray(tray),
        (None, None) if text.place.is_empty() => trade::name_plain(&text.name),
        (None, None) => text.place.clone(),
    }
}

/// Draws, fits and lays out all labels, then opens the phone's way of printing. Leaving the screen or stopping ends it;
/// nothing is noted before it was handed over.
async fn print_all(
    ledger: Ledger,
    pages: RwSignal<Vec<Page>>,
    going: RwSignal<Option<Going>>,
    wrong: RwSignal<String>,
) {
    let Some(draft) = ledger.peek_draft::<LabelsDraft>(LABELS) else {
        return;
    };
    let Ok((sheet, start)) = draft.sheet.read() else {
        return;
    };
    let of = draft.labels();
    going.set(Some(Going { done: 0, of }));
    pages.set(Vec::new());
    match lay_out(ledger, &draft, &sheet, start, pages, going).await {
        Ok(true) => {
            ledger.breathe().await;
            going.try_set(None);
            ledger.print();
            let lots = draft.picks.iter().filter_map(|pick| pick.of.lot());
            let lots: Vec<LotId> = lots.collect();
            let today = ledger.moment().today;
            ledger.change_draft::<Printed>(PRINTED, |printed| printed.note(&lots, today));
            ledger.say(words::handed(of), ToldKind::Done);
        }
        Ok(false) => {
            pages.try_set(Vec::new());
        }
        Err(said) => {
            going.try_set(None);
            pages.try_set(Vec::new());
            wrong.try_set(said);
        }
    }
}

/// Says how far it is and lets the page breathe; `false` when it was stopped or left.
async fn goes_on(ledger: Ledger, going: RwSignal<Option<Going>>, at: Going) -> bool {
    if going.try_get_untracked().flatten().is_none() {
        return false;
    }
    going.try_set(Some(at));
    ledger.breathe().await;
    true
}

/// `false` when it was stopped.
async fn lay_out(
    ledger: Ledger,
    draft: &LabelsDraft,
    sheet: &Sheet,
    start: u32,
    pages: RwSignal<Vec<Page>>,
    going: RwSignal<Option<Going>>,
) -> Result<bool, String> {
    let of = draft.labels();
    let places = sheet.places().max(1);
    let mut page = Page {
        number: 1,
        free: start.saturating_sub(1),
        faces: Vec::new(),
    };
    let mut too_long = Vec::new();
    let mut done = 0;
    for picks in draft.picks.chunks(BATCH) {
        for (made, labels) in made(ledger, draft, sheet, picks, &mut too_long).await? {
            for _ in 0..labels {
                page.faces.push(Arc::clone(&made));
                done += 1;
                let full = page
                    .free
                    .saturating_add(u32::try_from(page.faces.len()).unwrap_or(0));
                if full >= places {
                    let next = Page {
                        number: page.number.saturating_add(1),
                        free: 0,
                        faces: Vec::new(),
                    };
                    let full = std::mem::replace(&mut page, next);
                    pages.try_update(|pages| pages.push(full));
                }
                if done % AT_ONCE == 0 && !goes_on(ledger, going, Going { done, of }).await {
                    return Ok(false);
                }
            }
        }
        if !goes_on(ledger, going, Going { done, of }).await {
            return Ok(false);
        }
    }
    if !too_long.is_empty() {
        return Err(words::too_long(&too_long));
    }
    if !page.faces.is_empty() {
        pages.try_update(|pages| pages.push(page));
    }
    Ok(true)
}

/// The labels of some lots, with how many of each. What does not fit is named.
async fn made(
    ledger: Ledger,
    draft: &LabelsDraft,
    sheet: &Sheet,
    picks: &[Pick],
    too_long: &mut Vec<String>,
) -> Result<Vec<(Arc<Face>, u32)>, String> {
    let links: Vec<String> = picks
        .iter()
        .map(|pick| ledger.link(&leads_to(pick.of).href()))
        .collect();
    let codes = ledger.draw_codes(&links).await;
    let codes = codes.ok_or_else(|| words::CODES_AWAY.to_owned())?;
    let things: Vec<LabelOf> = picks.iter().map(|pick| pick.of).collect();
    let texts = ledger.look(|state, at| label_texts(state, &things, at.now_ms));
    let mut faces = Vec::new();
    for (pick, drawn) in picks.iter().zip(codes) {
        // What was withdrawn meanwhile has no label.
        let Some(text) = texts.iter().find(|text| text.of == pick.of) else {
            continue;
        };
        let passport = ledger.look(|state, _| of_passport(state.facts(), pick.of, draft));
        let passport = passport.map_err(|fault| papers::passport_fault(fault).to_owned())?;
        match compose(ledger, sheet, draft, text, passport.as_ref(), Some(drawn)) {
            Some(made) => faces.push((Arc::new(made), pick.labels)),
            None => too_long.push(code_of(text)),
        }
    }
    Ok(faces)
}
