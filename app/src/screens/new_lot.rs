//! A new lot: a name as typed, how many, where; everything else may be unknown.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::command::{Command, PlaceTraits, ReceiveLot};
use velamen_core::decide::next_code;
use velamen_core::event::{Event, PieceClass};
use velamen_core::id::PlaceId;
use velamen_core::name::PlantName;
use velamen_core::season::add_months;
use velamen_core::view::places;

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{
    Choice, Choices, ChoicesLook, Field, MainAction, PlainAction, Screen, Stake, Stepper, TopBack,
};
use crate::words::{rejection, repot, rooms, stock as words, told, trade};

const DRAFT: &str = "new_lot";

/// What was typed so far.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct LotDraft {
    #[serde(default)]
    name: String,
    #[serde(default)]
    plants: Option<u32>,
    #[serde(default)]
    stands: Option<u32>,
    #[serde(default)]
    place: Option<PlaceId>,
    #[serde(default)]
    new_place: String,
    #[serde(default)]
    class: Option<PieceClass>,
    /// Months since it was potted.
    #[serde(default)]
    potted_months: Option<i32>,
}

impl LotDraft {
    fn plants(&self) -> u32 {
        self.plants.unwrap_or(1)
    }

    fn stands(&self) -> u32 {
        self.stands.unwrap_or_else(|| self.plants())
    }
}

/// The screen.
#[component]
pub fn NewLot() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<LotDraft>(DRAFT);
    let error = RwSignal::new(String::new());
    let change = move |how: &dyn Fn(&mut LotDraft)| {
        error.set(String::new());
        ledger.change_draft(DRAFT, |draft: &mut LotDraft| how(draft));
    };
    let add = Callback::new(move |()| {
        let typed = draft.get_untracked();
        let today = ledger.moment().today;
        let potted_on = typed
            .potted_months
            .and_then(|months| add_months(today, -months));
        let command = Command::ReceiveLot(ReceiveLot {
            name: PlantName::from_typed(&typed.name),
            plants: typed.plants(),
            stands: typed.stands(),
            place: typed.place,
            class: typed.class,
            potted_on,
            ..ReceiveLot::default()
        });
        let act = Act::new(command, told::done(words::ADDED)).ends_draft(DRAFT);
        ledger.act(
            act.then(|decision| {
                if let Some(Event::LotReceived(received)) = decision.events.first() {
                    Route::Lot(received.lot).replace();
                }
            })
            .otherwise(move |no| error.set(rejection::say(&no))),
        );
    });
    let code = ledger.ask(|state, at| next_code(state, at, &[]).ok().map(|code| code.to_string()));
    let printed = move || view! { <Stake name=trade::name_runs(&PlantName::from_typed(&draft.get().name)) code=code.get().unwrap_or_default() /> };
    let stepper = move |label: &'static str, count: Signal<i64>, on_count: Callback<i64>| {
        view! {
            <Stepper
                label
                count
                on_count
                less_label=repot::one_less(label)
                more_label=repot::one_more(label)
                five_label=repot::FIVE
                min=1
                max=100_000
            />
        }
    };
    let number = |count: i64| u32::try_from(count).ok();
    let chip = |key: String, label: &str| Choice {
        key,
        label: label.to_owned(),
        hint: None,
    };
    let kept = PieceClass::ALL.into_iter().filter(|class| class.is_kept());
    let kinds: Vec<Choice> = kept
        .map(|class| chip(format!("{class:?}"), trade::class(class)))
        .collect();
    let potted = [
        chip(String::new(), words::NOT_KNOWN),
        chip("0".to_owned(), words::THIS_MONTH),
        chip("12".to_owned(), words::A_YEAR_AGO),
        chip("24".to_owned(), words::TWO_YEARS_AGO),
        chip("36".to_owned(), words::LONGER_AGO),
    ];
    let actions = move || view! { <MainAction label=words::ADD_THIS.to_owned() on_press=add busy=ledger.busy() /> };
    view! {
        <Screen
            title=words::ADD_LOT
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <div class="form">
                <Field
                    label=words::NAME
                    value=Signal::derive(move || draft.get().name)
                    on_input=Callback::new(move |text: String| change(&|draft| draft.name.clone_from(&text)))
                    error
                    max_chars=400
                />
                <p>{printed}</p>
            </div>
            {stepper(
                words::PLANTS,
                Signal::derive(move || i64::from(draft.get().plants())),
                Callback::new(move |count| change(&|draft| draft.plants = number(count))),
            )}
            {stepper(
                words::POTS,
                Signal::derive(move || i64::from(draft.get().stands())),
                Callback::new(move |count| change(&|draft| draft.stands = number(count))),
            )}
            <WhereTo draft />
            <div class="form">
                <Choices
                    legend=words::POTTED
                    choices=potted.to_vec()
                    chosen=Signal::derive(move || draft.get().potted_months.map(|months| months.to_string()).unwrap_or_default())
                    on_choose=Callback::new(move |key: String| change(&|draft| draft.potted_months = key.parse().ok()))
                    look=ChoicesLook::Chips
                />
                <Choices
                    legend=words::CLASS
                    choices=kinds
                    chosen=Signal::derive(move || draft.get().class.map(|class| format!("{class:?}")).unwrap_or_default())
                    on_choose=Callback::new(move |key: String| {
                        let class = PieceClass::ALL.into_iter().find(|class| format!("{class:?}") == key);
                        change(&|draft| draft.class = class);
                    })
                    look=ChoicesLook::Chips
                />
            </div>
        </Screen>
    }
}

/// A place of the walk, or a new one by its name.
#[component]
fn WhereTo(draft: Memo<LotDraft>) -> impl IntoView {
    let ledger = Ledger::here();
    let known = ledger.ask(|state, _| places(state.facts()));
    let error = RwSignal::new(String::new());
    let add = Callback::new(move |()| {
        let name = Some(draft.get_untracked().new_place);
        let command = Command::SetPlace {
            place: None,
            name,
            walk: None,
            about: PlaceTraits::default(),
        };
        let act = Act::new(command, told::done(crate::words::shed::PLACE_ADDED));
        ledger.act(
            act.then(move |decision| {
                if let Some(Event::PlaceSet(set)) = decision.events.first() {
                    let place = Some(set.place);
                    ledger.change_draft(DRAFT, move |draft: &mut LotDraft| {
                        draft.place = place;
                        draft.new_place.clear();
                    });
                }
            })
            .otherwise(move |no| error.set(rejection::say(&no))),
        );
    });
    let chips = move || {
        let choices: Vec<Choice> = known
            .get()
            .into_iter()
            .map(|place| Choice {
                key: place.place.to_string(),
                label: place.name,
                hint: None,
            })
            .collect();
        (!choices.is_empty()).then(|| view! {
            <Choices
                legend=words::PLACE
                choices
                chosen=Signal::derive(move || draft.get().place.map(|place| place.to_string()).unwrap_or_default())
                on_choose=Callback::new(move |key: String| {
                    ledger.change_draft(DRAFT, move |draft: &mut LotDraft| draft.place = key.parse().ok());
                })
                look=ChoicesLook::Chips
            />
        })
    };
    view! {
        <div class="form">
            {chips}
            <Field
                label=words::NEW_PLACE
                value=Signal::derive(move || draft.get().new_place)
                on_input=Callback::new(move |text: String| {
                    error.set(String::new());
                    ledger.change_draft(DRAFT, move |draft: &mut LotDraft| draft.new_place = text);
                })
                error
                max_chars=200
            />
            <PlainAction
                label=words::ADD_PLACE.to_owned()
                on_press=add
                busy=ledger.busy()
                disabled=Signal::derive(move || draft.get().new_place.trim().is_empty())
            />
        </div>
    }
}
