//! The record of treatments: which list of rules it is kept after, what is missing, and the record as files and on paper.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::event::{BookSet, RecordRule};
use velamen_core::id::EntryRef;
use velamen_core::record::{
    Field, Judged, PROFILES, Row, Rule, Standing, csv, json, judge, profile, rows, rule,
};
use velamen_core::state::State;

use super::lot_parts::{Refusal, one_of};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::names::sentence;
use crate::ui::{
    Field as TextField, Glyph, Keys, Lesson, PlainAction, Screen, Slat, Toggle, TopBack,
};
use crate::words::{format, record as words, rooms, treat};

/// Lines shown; the files hold all.
const SHOWN: usize = 200;

/// A line with what is said of it.
#[derive(Clone, PartialEq)]
struct Line {
    entry: EntryRef,
    standing: Standing,
    day: String,
    said: String,
    judged: Judged,
}

fn line(state: &State, row: &Row, rule: &Rule) -> Line {
    Line {
        entry: row.entry,
        standing: row.standing,
        day: format::full_day(row.on),
        said: sentence(state, &row.treated.clone().into()),
        judged: judge(row, rule),
    }
}

/// The screen.
#[component]
pub fn RecordLog() -> impl IntoView {
    let ledger = Ledger::here();
    let lines = ledger.ask(|state, _| {
        let rule = rule(state.facts());
        let newest = rows(state).into_iter().rev();
        newest
            .map(|row| line(state, &row, &rule))
            .collect::<Vec<_>>()
    });
    let counting = move |complete: bool| {
        lines.with(|lines| {
            let counts = lines
                .iter()
                .filter(|line| line.standing == Standing::Counts);
            counts
                .filter(|line| !complete || line.judged.missing.is_empty())
                .count()
        })
    };
    let side = move || {
        let all = counting(false);
        (all > 0).then(|| view! { <p class="figure">{words::figure(counting(true), all)}</p> })
    };
    let list = move || {
        let lines = lines.get();
        if lines.is_empty() {
            return view! { <Lesson glyph=Glyph::Treat title=words::EMPTY words=treat::LAW /> }
                .into_any();
        }
        let shown = lines.into_iter().take(SHOWN).map(shown_line);
        shown.collect_view().into_any()
    };
    view! {
        <Screen
            title=words::TITLE
            side
            back=|| view! { <TopBack href=Route::Treat.href() label=rooms::back_to(rooms::TREAT) /> }
            notice=notices
            rooms=|| room_bar(Route::Treat)
        >
            {list}
            <Files />
            <Slat name=words::RULE note="" />
            <RuleChoice />
        </Screen>
    }
}

fn shown_line(line: Line) -> impl IntoView {
    let href = Route::Entry(line.entry).href();
    match line.standing {
        Standing::Counts => {
            let complete = line.judged.missing.is_empty();
            view! {
                <a class="entry" href=href>
                    <span class="soft">{line.day}</span>
                    <span>{line.said}</span>
                    <span class:strong=!complete>{words::judged(&line.judged)}</span>
                    <span class="soft">{words::kept_until(line.judged.keep_until)}</span>
                </a>
            }
            .into_any()
        }
        Standing::Replaced | Standing::Withdrawn(_) => view! {
            <a class="entry" href=href>
                <span class="soft">{line.day}</span>
                <span class="out">{line.said}</span>
            </a>
        }
        .into_any(),
    }
}

/// Which list of rules, and what is asked for beyond it.
#[component]
fn RuleChoice() -> impl IntoView {
    let ledger = Ledger::here();
    let chosen = ledger.ask(|state, _| {
        let chosen = state.facts().book.record.get().cloned();
        (chosen.unwrap_or_default(), rule(state.facts()))
    });
    let set = move |change: &dyn Fn(&mut RecordRule)| {
        let (mut rule, _) = chosen.get_untracked();
        change(&mut rule);
        let command = Command::SetBook(BookSet {
            record: Some(rule),
            ..BookSet::default()
        });
        ledger.act(Act::new(command, words::CHANGED));
    };
    let options: Vec<(&'static str, String)> = PROFILES
        .iter()
        .map(|profile| (profile.key, words::profile(profile.key).to_owned()))
        .collect();
    let key = Signal::derive(move || chosen.with(|(_, rule)| rule.profile));
    let says = move || {
        chosen.with(|(_, rule)| {
            let table = profile(rule.profile);
            let asks = words::asks(&rule.fields, rule.made_within_h, rule.keep_months);
            view! {
                <p>{asks}</p>
                <p class="soft">{words::source(table.source, table.as_of)}</p>
            }
        })
    };
    let fields = move || {
        let of_table = profile(key.get()).fields;
        Field::ALL
            .into_iter()
            .map(|field| {
                let on = Signal::derive(move || {
                    chosen.with(|(_, rule)| rule.fields.contains(&field))
                });
                let switch = Callback::new(move |on: bool| {
                    set(&|rule| {
                        rule.more.retain(|key| key != field.key());
                        rule.less.retain(|key| key != field.key());
                        let in_table = of_table.contains(&field);
                        if on && !in_table {
                            rule.more.push(field.key().to_owned());
                        }
                        if !on && in_table {
                            rule.less.push(field.key().to_owned());
                        }
                    });
                });
                view! { <Toggle label=words::field(field) on on_switch=switch on_word=treat::YES off_word=treat::NO /> }
            })
            .collect_view()
    };
    let hours = RwSignal::new(None::<String>);
    let months = RwSignal::new(None::<String>);
    let error = RwSignal::new(String::new());
    let own = move |typed: RwSignal<Option<String>>, now: fn(&RecordRule) -> Option<u32>| {
        Signal::derive(move || {
            typed.get().unwrap_or_else(|| {
                let now = chosen.with(|(rule, _)| now(rule));
                now.map(|now| now.to_string()).unwrap_or_default()
            })
        })
    };
    let hours_shown = own(hours, |rule| rule.made_within_h);
    let months_shown = own(months, |rule| rule.keep_months.map(u32::from));
    let keep_times = Callback::new(move |()| {
        let (hours_typed, months_typed) =
            (hours_shown.get_untracked(), months_shown.get_untracked());
        let (Ok(within), Ok(keep)) = (whole::<u32>(&hours_typed), whole::<u16>(&months_typed))
        else {
            error.set(words::NOT_A_NUMBER.to_owned());
            return;
        };
        set(&|rule| {
            rule.made_within_h = within;
            rule.keep_months = keep;
        });
    });
    let box_of = move |label: &'static str,
                       unit: &'static str,
                       typed: RwSignal<Option<String>>,
                       value: Signal<String>| {
        let on_input = Callback::new(move |text: String| {
            error.set(String::new());
            typed.set(Some(text));
        });
        view! { <TextField label value on_input unit keys=Keys::Digits max_chars=6 /> }
    };
    view! {
        <div class="form">
            <p class="strong">{words::NO_LAW}</p>
            {one_of(words::RULE, options, key, move |profile: &'static str| {
                set(&|rule| profile.clone_into(&mut rule.profile));
            })}
            {says}
        </div>
        <details class="more-of-it">
            <summary>{words::EDIT}</summary>
            <div class="form">
                <p class="soft">{words::EDIT_HINT}</p>
                {fields}
                {box_of(words::WITHIN, "h", hours, hours_shown)}
                {box_of(words::KEEP, words::MONTHS, months, months_shown)}
                <Refusal words=error />
                <PlainAction label=words::EDIT_NUMBERS.to_owned() on_press=keep_times busy=ledger.busy() />
            </div>
        </details>
    }
}

/// A whole number as typed; nothing where the box is empty.
fn whole<T: std::str::FromStr>(text: &str) -> Result<Option<T>, T::Err> {
    match text.trim() {
        "" => Ok(None),
        text => text.parse().map(Some),
    }
}

/// The record as a table, as JSON, on paper.
#[component]
fn Files() -> impl IntoView {
    let ledger = Ledger::here();
    let save =
        move |ending: &'static str, media: &'static str, write: fn(&[Row], &Rule) -> String| {
            Callback::new(move |()| {
                let (text, lines, today) = ledger.look(|state, at| {
                    let lines = rows(state);
                    (write(&lines, &rule(state.facts())), lines.len(), at.today)
                });
                let name = words::file_name(today, ending);
                ledger.save_text(&name, media, &text, words::written(lines));
            })
        };
    view! {
        <div class="form">
            <PlainAction label=words::TABLE.to_owned() on_press=save("csv", words::CSV_TYPE, csv) />
            <PlainAction label=words::JSON.to_owned() on_press=save("json", words::JSON_TYPE, json) />
            <PlainAction label=words::PRINT.to_owned() on_press=Callback::new(move |()| ledger.print()) />
        </div>
    }
}
