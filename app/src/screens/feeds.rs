//! The feeds on the shelf, and one of them as its label says.

use leptos::prelude::*;
use velamen_core::command::{Command, FeedTraits};
use velamen_core::id::FeedId;
use velamen_core::view::water::{FeedRow, feeds};
use velamen_core::water_draft::{BoxFault, FeedDraft, WaterBox};

use super::in_hand::InHand;
use super::lot_parts::{Refusal, one_of};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Field, Glyph, Keys, Lesson, MainAction, PlainAction, PlainLink, Screen, TopBack};
use crate::words::{rooms, shed, told, water as words};

/// The list.
#[component]
pub fn Feeds() -> impl IntoView {
    let shown = Ledger::here().ask(|state, _| feeds(state.facts()));
    let actions = || {
        view! { <PlainLink href=Route::FeedLabel(None).href() label=words::ANOTHER glyph=Glyph::Plus main=true /> }
    };
    let rows = move || {
        let rows = shown.get();
        if rows.is_empty() {
            return view! { <Lesson glyph=Glyph::Feed title=words::FEEDS words=words::FEEDS_HINT /> }
                .into_any();
        }
        let rows = rows.into_iter().map(|row| {
            let nitrogen = row.nitrogen.map(words::nitrogen).unwrap_or_default();
            view! {
                <a class="lot-row" href=Route::FeedLabel(Some(row.feed)).href()>
                    <bdi class="strong">{row.name}</bdi>
                    <span class="small soft">{row.npk_typed} " " {nitrogen}</span>
                </a>
            }
        });
        rows.collect_view().into_any()
    };
    view! {
        <Screen title=words::FEEDS back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            {rows}
        </Screen>
    }
}

type Hand = InHand<FeedDraft, WaterBox>;

/// A feed's label, new or of the shelf.
#[component]
pub fn FeedLabel(feed: Option<FeedId>) -> impl IntoView {
    let ledger = Ledger::here();
    let known = ledger.ask(move |state, _| {
        let rows = feeds(state.facts()).into_iter();
        rows.into_iter()
            .find(|row: &FeedRow| Some(row.feed) == feed)
    });
    let key = feed.map_or_else(|| "new_feed".to_owned(), |id| format!("feed-{id}"));
    let hand = Hand::new(ledger, key, move || {
        known.get().as_ref().map(FeedDraft::of).unwrap_or_default()
    });
    let keep = Callback::new(move |()| {
        let command = hand.shown.with_untracked(|draft| draft.command(feed));
        let command = command.map_err(|fault| {
            let (BoxFault::Missing(at) | BoxFault::NotANumber(at)) = fault;
            (Some(at), words::fault(fault))
        });
        let said = match feed {
            Some(_) => shed::CHANGED.to_owned(),
            None => told::done(words::ADDED),
        };
        // It was come to from the shelf or from a bench: back to where that was.
        hand.record(command, said, || {
            if let Ok(history) = window().history() {
                let _ = history.back();
            }
        });
    });
    let label = if feed.is_some() {
        words::CHANGE
    } else {
        words::ADD
    };
    let actions = move || {
        view! { <MainAction label=label.to_owned() on_press=keep busy=ledger.busy() /> }
    };
    let retire = feed.map(|feed| {
        let press = Callback::new(move |()| {
            let traits = FeedTraits {
                retired: Some(true),
                ..FeedTraits::default()
            };
            let command = Command::SetFeed {
                feed: Some(feed),
                traits,
            };
            ledger.act(Act::new(command, shed::CHANGED).then(|_| Route::Feeds.replace()));
        });
        view! { <PlainAction label=words::NO_MORE.to_owned() on_press=press busy=ledger.busy() /> }
    });
    let title = Signal::derive(move || {
        known
            .get()
            .map_or_else(|| words::ANOTHER.to_owned(), |row| row.name)
    });
    view! {
        <Screen
            title
            back=|| view! { <TopBack href=Route::Feeds.href() label=rooms::back_to(words::FEEDS) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            <div class="form">
                <Boxes hand />
                <Refusal words=hand.wrong(None) />
                {retire}
            </div>
        </Screen>
    }
}

#[component]
fn Boxes(hand: Hand) -> impl IntoView {
    let draft = hand.shown;
    let text = move |get: fn(&FeedDraft) -> &String| {
        Signal::derive(move || draft.with(|draft| get(draft).clone()))
    };
    let by_litre = Signal::derive(move || draft.with(|draft| draft.by_litre));
    let kinds = vec![
        (false, words::WEIGHED.to_owned()),
        (true, words::BY_VOLUME.to_owned()),
    ];
    let nitrogen = move || {
        let unit = if by_litre.get() {
            words::GRAMS_A_LITRE
        } else {
            words::PER_CENT
        };
        view! {
            <Field
                label=words::NITROGEN
                hint=words::NITROGEN_HINT
                value=text(|draft| &draft.nitrogen)
                on_input=Callback::new(move |typed| hand.change(|draft| draft.nitrogen = typed))
                error=hand.wrong(Some(WaterBox::Content))
                unit
                keys=Keys::Decimal
                max_chars=8
            />
        }
    };
    view! {
        <p class="soft">{words::FEEDS_HINT}</p>
        <Field
            label=words::NAME
            value=text(|draft| &draft.name)
            on_input=Callback::new(move |typed| hand.change(|draft| draft.name = typed))
            error=hand.wrong(Some(WaterBox::Name))
            max_chars=200
        />
        <Field
            label=words::NPK
            hint=words::NPK_HINT
            value=text(|draft| &draft.npk)
            on_input=Callback::new(move |typed| hand.change(|draft| draft.npk = typed))
            max_chars=40
        />
        {one_of(words::MEASURED_BY, kinds, by_litre, move |on| hand.change(|draft| draft.by_litre = on))}
        {nitrogen}
        <Field
            label=words::LABEL_EC
            hint=words::LABEL_EC_HINT
            value=text(|draft| &draft.ec)
            on_input=Callback::new(move |typed| hand.change(|draft| draft.ec = typed))
            error=hand.wrong(Some(WaterBox::Ec))
            unit=words::EC_UNIT
            keys=Keys::Decimal
            max_chars=6
        />
    }
}
