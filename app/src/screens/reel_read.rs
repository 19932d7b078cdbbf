//! Squares on another phone's screen, read with the camera; then what they would bring, as with a file.

use leptos::prelude::*;
use velamen_core::exchange::reel::{Joining, Met, SoFar};

use super::files::arrived;
use super::photographs::back_to_files;
use super::through::{Through, ThroughWords};
use crate::frame::{notices, room_bar};
use crate::ledger::{Arrival, Ledger, Phase, Seen};
use crate::route::Route;
use crate::ui::{PlainAction, Progress, Screen};
use crate::words::{labels::find, reel as words};

/// The screen.
#[component]
pub fn ReadReel() -> impl IntoView {
    let ledger = Ledger::here();
    let arrival = RwSignal::new(Arrival::Nothing);
    let passphrase = RwSignal::new(String::new());
    let said = RwSignal::new(String::new());
    let beside = RwSignal::new(None::<&'static str>);
    let far = RwSignal::new(None::<SoFar>);
    let whole = RwSignal::new(false);
    let joining = StoredValue::new(Joining::default());
    let awake = StoredValue::new_local(Some(ledger.keep_awake()));
    on_cleanup(move || drop(awake.try_update_value(Option::take)));
    let saw = Callback::new(move |seen: Seen| {
        let text = match seen {
            Seen::Nothing => return false,
            Seen::CannotRead => {
                said.try_set(words::CANNOT_READ.to_owned());
                return true;
            }
            Seen::Text(text) => text,
        };
        let met = joining.try_update_value(|joining| (joining.meet(&text), joining.so_far()));
        let Some((met, so_far)) = met else {
            return true;
        };
        far.try_set(so_far);
        beside.try_set(match &met {
            Met::Foreign => Some(words::FOREIGN),
            Met::Newer => Some(words::NEWER),
            Met::Damaged => Some(words::DAMAGED),
            Met::New | Met::Known | Met::Whole(_) => None,
        });
        let Met::Whole(file) = met else {
            return false;
        };
        whole.try_set(true);
        ledger.look_at_reel(&file, arrival);
        true
    });
    let again = Callback::new(move |()| {
        arrival.set(Arrival::Nothing);
        whole.set(false);
    });
    let words_for = ThroughWords {
        looking: words::LOOKING,
        refused: words::REFUSED,
        missing: words::MISSING,
    };
    let camera = move || {
        if whole.get() {
            let refused = move || {
                let refused = arrival.with(|arrival| matches!(arrival, Arrival::Fault(_)));
                refused.then(|| view! { <PlainAction label=find::AGAIN on_press=again /> })
            };
            view! { <div class="form">{arrived(ledger, arrival, passphrase)} {refused}</div> }
                .into_any()
        } else {
            view! { <Through words_for said saw /> }.into_any()
        }
    };
    let progress = move || {
        let beside = beside
            .get()
            .map(|words| view! { <p class="edge">{words}</p> });
        let far = far.get().filter(|_| !whole.get()).map(|far| {
            let pct = far
                .read
                .saturating_mul(100)
                .checked_div(far.of)
                .unwrap_or(0);
            let pct = u32::try_from(pct).unwrap_or(0);
            view! {
                <div class="form">
                    <Progress label=words::READING pct words=words::read(far.read, far.of) />
                    <p>{words::missing(&far.missing)}</p>
                </div>
            }
        });
        view! { {beside} {far} }
    };
    let bar = move || (ledger.phase() == Phase::Ready).then(|| room_bar(Route::Book));
    view! {
        <Screen title=words::READ back=back_to_files notice=notices rooms=bar>
            {camera}
            <div aria-live="polite">{progress}</div>
        </Screen>
    }
}
