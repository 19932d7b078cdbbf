//! Before the cut: what a clump may become, side by side, and whether to touch it at all.

use leptos::prelude::*;
use velamen_core::cut_draft::{CutDraft, CutWhat};
use velamen_core::draft::OpeningDraft;
use velamen_core::event::{PieceClass, RoughSize, Way};
use velamen_core::id::{ClumpId, LotId};
use velamen_core::limits::PIECES_MAX;
use velamen_core::outlook::Span;
use velamen_core::view::cut::{BeforeCut, WayView, before_cut, chosen};

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::lot_parts::{Refusal, one_of};
use crate::screens::open_clump::OPENING;
use crate::ui::{DayField, MainAction, PlainAction, Screen, Slat, Stepper, TopBack};
use crate::words::{cut as words, format, rejection, repot as counting, rooms, trade};

/// What is looked at: a lot, a clump on the bench, or what is being chosen for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Before {
    Lot(LotId),
    Clump(ClumpId),
    Opening,
}

impl Before {
    fn key(self) -> String {
        match self {
            Self::Lot(lot) => format!("cut-{lot}"),
            Self::Clump(clump) => format!("cut-{clump}"),
            Self::Opening => "cut-opening".to_owned(),
        }
    }

    fn back(self) -> Route {
        match self {
            Self::Lot(lot) => Route::Lot(lot),
            Self::Clump(clump) => Route::Clump(clump),
            Self::Opening => Route::OpenClump,
        }
    }

    fn back_words(self) -> String {
        rooms::back_to(match self {
            Self::Lot(_) => words::THE_LOT,
            Self::Clump(_) => words::THE_CLUMP,
            Self::Opening => words::THE_BENCH,
        })
    }
}

/// What the parts of the screen share.
#[derive(Clone, Copy)]
struct Cut {
    ledger: Ledger,
    before: Before,
    opening: Memo<OpeningDraft>,
    draft: Memo<CutDraft>,
}

impl Cut {
    fn what(self) -> CutWhat {
        match self.before {
            Before::Lot(lot) => CutWhat::Lots(vec![lot]),
            Before::Clump(clump) => CutWhat::Clump(clump),
            Before::Opening => CutWhat::Opening(self.opening.get()),
        }
    }

    fn change(self, how: impl FnOnce(&mut CutDraft)) {
        self.ledger.change_draft(&self.before.key(), how);
    }

    /// Keeps what is chosen, or drops what was kept.
    fn keep(self, drop: bool, error: RwSignal<String>) {
        let what = untrack(|| self.what());
        let draft = self.draft.get_untracked();
        let plan = self.ledger.look(|state, _| chosen(state, &what, &draft));
        let plan = plan.filter(|_| !drop);
        let key = self.before.key();
        let said = if drop { words::DROPPED } else { words::PLANNED };
        match what.keep(plan.clone()) {
            Some(command) => {
                let before = self.before;
                let act = Act::new(command, said).ends_draft(key);
                self.ledger.act(
                    act.then(move |_| before.back().replace())
                        .otherwise(move |no| error.set(rejection::say(&no))),
                );
            }
            None => {
                self.ledger
                    .change_draft(OPENING, |opening: &mut OpeningDraft| opening.plan = plan);
                self.ledger.drop_draft(&key);
                self.before.back().replace();
            }
        }
    }
}

/// The screen.
#[component]
pub fn BeforeTheCut(before: Before) -> impl IntoView {
    let ledger = Ledger::here();
    let cut = Cut {
        ledger,
        before,
        opening: ledger.draft::<OpeningDraft>(OPENING),
        draft: ledger.draft_at::<CutDraft>(before.key()),
    };
    begin(cut);
    let view = Memo::new(move |_| {
        let (what, draft) = (cut.what(), cut.draft.get());
        ledger.follow(|state, at| before_cut(state, &what, &draft, at.today))
    });
    let error = RwSignal::new(String::new());
    let name = Signal::derive(move || {
        view.with(|view| {
            let view = view.as_ref();
            view.map(|view| trade::name_plain(&view.known.name))
                .unwrap_or_default()
        })
    });
    let nothing = Signal::derive(move || {
        let (what, draft) = (cut.what(), cut.draft.get());
        ledger.follow(|state, _| chosen(state, &what, &draft).is_none())
    });
    let kept =
        Memo::new(move |_| view.with(|view| view.as_ref().is_some_and(|view| view.kept.is_some())));
    let keep = Callback::new(move |()| cut.keep(false, error));
    let drop = Callback::new(move |()| cut.keep(true, error));
    let actions = move || {
        view! {
            {move || kept.get().then(|| view! {
                <PlainAction label=words::DROP.to_owned() on_press=drop busy=ledger.busy() />
            })}
            <MainAction label=words::PLAN_IT.to_owned() on_press=keep busy=ledger.busy() disabled=nothing />
        }
    };
    let some = Memo::new(move |_| view.with(Option::is_some));
    let body = move || {
        if !some.get() {
            return view! { <p class="edge">{words::NOTHING}</p> }.into_any();
        }
        view! {
            {move || view.get().map(|view| said(ledger, &view))}
            <Seen cut view />
            <section>
                <Slat name=words::SIDE_BY_SIDE note=words::SIDE_NOTE />
                {move || view.get().map(|view| table(&view.ways))}
            </section>
            <Wanted cut view />
            <p class="edge soft">{words::ORIGIN}</p>
        }
        .into_any()
    };
    view! {
        <Screen
            title=words::TITLE
            over=name
            back=move || view! { <TopBack href=before.back().href() label=before.back_words() /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Repot)
        >
            <div class="edge-error"><Refusal words=error /></div>
            {body}
        </Screen>
    }
}

/// A kept plan is thought over again where it was left.
fn begin(cut: Cut) {
    let fresh = cut
        .ledger
        .peek_draft::<CutDraft>(&cut.before.key())
        .is_none();
    let what = untrack(|| cut.what());
    let kept = cut.ledger.look(|state, _| what.kept(state.facts()));
    if let (true, Some(plan)) = (fresh, kept) {
        cut.ledger
            .keep_draft(&cut.before.key(), &CutDraft::of(&plan));
    }
}

/// What lies there, what is planned of it, and whether to repot it now.
fn said(ledger: Ledger, view: &BeforeCut) -> impl IntoView + use<> {
    let today = ledger.today();
    let known = &view.known;
    let kept = view
        .kept
        .as_ref()
        .map(|plan| view! { <p class="edge strong">{words::plan(plan)}</p> });
    let rows = view.repot.iter().map(|it| {
        let reasons = words::reasons(it, today);
        let reasons = (!reasons.is_empty()).then(|| view! { <span class="soft">{reasons}</span> });
        view! { <div class="entry"><strong>{words::due(it, today)}</strong>{reasons}</div> }
    });
    let rows = rows.collect_view();
    let asked = (!view.repot.is_empty()).then(|| view! { <Slat name=words::REPOT_NOW note="" /> });
    let stem = (!known.divides()).then(|| view! { <p class="edge">{words::ONE_STEM}</p> });
    view! {
        <p class="edge">{words::there(known.wholes, known.pots)}</p>
        {kept}
        {asked}
        {rows}
        {stem}
    }
}

/// What can be seen from outside.
#[component]
fn Seen(cut: Cut, view: Memo<Option<BeforeCut>>) -> impl IntoView {
    let known = move || view.get().map(|view| view.known);
    let divides = Memo::new(move |_| known().is_none_or(|known| known.divides()));
    let unit = Memo::new(move |_| {
        known()
            .map(|known| words::growths_roughly(known.row().pieces.unit))
            .unwrap_or_default()
    });
    let row = move |label: &'static str, leads: bool| {
        let count = Signal::derive(move || {
            cut.draft.with(|draft| {
                i64::from(if leads { draft.leads } else { draft.growths }.unwrap_or(0))
            })
        });
        let set = Callback::new(move |count: i64| {
            let count = u32::try_from(count).ok().filter(|count| *count > 0);
            cut.change(|draft| {
                if leads {
                    draft.leads = count;
                } else {
                    draft.growths = count;
                }
            });
        });
        let hint = Signal::derive(move || {
            if count.get() == 0 {
                words::NOT_SEEN.to_owned()
            } else {
                String::new()
            }
        });
        view! {
            <Stepper
                label
                hint
                count
                on_count=set
                less_label=counting::one_less(label)
                more_label=counting::one_more(label)
                five_label=counting::FIVE
                max=i64::from(PIECES_MAX)
            />
        }
    };
    let guessed = Memo::new(move |_| {
        cut.draft
            .with(|draft| draft.leads.is_some() || draft.growths.is_some())
    });
    let sizes = move || {
        (divides.get() && !guessed.get()).then(|| {
            let sizes = [RoughSize::Small, RoughSize::Middling, RoughSize::Large];
            let options = sizes.map(|size| (size, words::size(size).to_owned()));
            let now = Signal::derive(move || cut.draft.with(|draft| draft.size));
            view! {
                <div class="form">
                    {one_of(words::SIZE, options.to_vec(), now, move |size| cut.change(|draft| draft.size = size))}
                </div>
            }
        })
    };
    let rows = move || {
        if divides.get() {
            view! { {row(words::LEADS, true)} {row(unit.get(), false)} }.into_any()
        } else {
            row(words::OFFSHOOTS_SEEN, true).into_any()
        }
    };
    let taken = move || {
        let view = view.get()?;
        view.known.divides().then(|| {
            let unit = view.known.row().pieces.unit;
            view! { <p class="edge soft">{words::reckoned(view.growths, view.leads, unit)}</p> }
        })
    };
    view! {
        <section>
            <Slat name=words::KNOWN note=words::KNOWN_NOTE />
            <div class="steppers">{rows}</div>
            {sizes}
            {taken}
        </section>
    }
}

/// A cell: the likely figure, its range under it.
fn cell(figure: String, range: Option<String>) -> AnyView {
    let range = range.map(|range| view! { <span class="soft">{range}</span> });
    view! { <td><strong>{figure}</strong>{range}</td> }.into_any()
}

fn span_cell(span: Span) -> AnyView {
    if span.high == 0 {
        return cell(words::NONE.to_owned(), None);
    }
    cell(span.middle.to_string(), words::range(span))
}

/// All ways in columns, one row for each thing that is asked of them.
fn table(ways: &[WayView]) -> impl IntoView + use<> {
    let wide = ways.len().to_string();
    let heads = ways
        .iter()
        .map(|way| view! { <th scope="col">{words::way(way.choice.way)}</th> });
    let heads = heads.collect_view();
    let row = |head: String, of: &dyn Fn(&WayView) -> AnyView| {
        let cells: Vec<AnyView> = ways.iter().map(of).collect();
        view! {
            <tr class="ways-head"><th scope="rowgroup" colspan=wide.clone()>{head}</th></tr>
            <tr>{cells}</tr>
        }
        .into_any()
    };
    let text = |it: String| cell(it, None);
    let mut rows: Vec<AnyView> = Vec::new();
    for class in PieceClass::ALL {
        if ways.iter().any(|way| way.choice.of(class).high > 0) {
            rows.push(row(trade::class(class).to_owned(), &|way| {
                span_cell(way.choice.of(class))
            }));
        }
    }
    rows.push(row(words::WHOLE.to_owned(), &|way| {
        let whole = way.choice.whole;
        span_cell(Span {
            low: whole,
            middle: whole,
            high: whole,
        })
    }));
    let months = ways.first().map_or(0, |way| way.ahead.seasons.len());
    for at in 0..months {
        let season = |way: &WayView| way.ahead.seasons.get(at).copied();
        let head = ways.first().and_then(season);
        if let Some(head) = head {
            rows.push(row(words::flowers_in(head.month), &|way| {
                span_cell(season(way).map(|it| it.in_flower).unwrap_or_default())
            }));
        }
    }
    // Every second year says it: one, three and five.
    for at in [0_usize, 2, 4] {
        let sale = |way: &WayView| way.ahead.saleable.get(at).copied();
        if let Some((years, _)) = ways.first().and_then(sale) {
            rows.push(row(words::saleable_in(years), &|way| {
                span_cell(sale(way).map(|(_, span)| span).unwrap_or_default())
            }));
        }
    }
    rows.push(row(words::POTS.to_owned(), &|way| {
        let pots = way.needs.pots.iter().filter(|need| need.stands > 0);
        let pots: Vec<AnyView> = pots
            .map(|need| view! { <span class="ways-line">{words::pots(need)}</span> }.into_any())
            .collect();
        if pots.is_empty() {
            return cell(words::NONE.to_owned(), None);
        }
        view! { <td>{pots}</td> }.into_any()
    }));
    rows.push(row(words::MIX.to_owned(), &|way| {
        text(words::mix(&way.needs))
    }));
    rows.push(row(words::STONE.to_owned(), &|way| {
        text(words::stone(&way.needs))
    }));
    rows.push(row(words::MINUTES.to_owned(), &|way| {
        span_cell(way.needs.minutes)
    }));
    rows.push(row(words::BENCH.to_owned(), &|way| {
        text(format::square_metres(way.needs.bench_cm2))
    }));
    view! {
        <table class="ways">
            <thead><tr>{heads}</tr></thead>
            <tbody>{rows}</tbody>
        </table>
    }
}

/// The way that is wanted, and for numbers of one's own the numbers.
#[component]
fn Wanted(cut: Cut, view: Memo<Option<BeforeCut>>) -> impl IntoView {
    let divides =
        Memo::new(move |_| view.with(|view| view.as_ref().is_none_or(|view| view.known.divides())));
    let choices = move || {
        let ways: &[Way] = if divides.get() {
            &[Way::KeepWhole, Way::FewLarge, Way::ManySmall, Way::Own]
        } else {
            &[Way::KeepWhole, Way::Offshoots, Way::TopCut, Way::Own]
        };
        let options = ways
            .iter()
            .map(|way| (Some(*way), words::way(*way).to_owned()));
        let now = Signal::derive(move || cut.draft.with(|draft| draft.way));
        one_of(words::WHICH, options.collect(), now, move |way| {
            cut.change(|draft| draft.way = way)
        })
    };
    let own = Memo::new(move |_| cut.draft.with(|draft| draft.way == Some(Way::Own)));
    let numbers = move || {
        own.get().then(|| {
            let kept = PieceClass::ALL.into_iter().filter(|class| class.is_kept());
            let rows = kept.map(|class| {
                let label = trade::class(class);
                let count = Signal::derive(move || {
                    let own = cut.draft.with(|draft| draft.own.get(&class).copied());
                    i64::from(own.unwrap_or(0))
                });
                let set = Callback::new(move |count: i64| {
                    let count = u32::try_from(count).unwrap_or(0);
                    cut.change(|draft| {
                        draft.own.insert(class, count);
                    });
                });
                view! {
                    <Stepper
                        label
                        hint=trade::class_hint(class).to_owned()
                        count
                        on_count=set
                        less_label=counting::one_less(label)
                        more_label=counting::one_more(label)
                        max=i64::from(PIECES_MAX)
                    />
                }
            });
            view! { <div class="steppers">{rows.collect_view()}</div> }
        })
    };
    let warnings = move || {
        let against = view.get().map(|view| view.against).unwrap_or_default();
        let lines = against
            .iter()
            .map(|it| view! { <p class="warn">{words::against(it)}</p> });
        lines.collect_view()
    };
    let day = Signal::derive(move || {
        let on = cut.draft.with(|draft| draft.by_on);
        on.map(|on| on.to_string()).unwrap_or_default()
    });
    let later = matches!(cut.before, Before::Lot(_)).then(|| {
        let set = Callback::new(move |typed: String| cut.change(|draft| draft.set_day(&typed)));
        view! { <DayField label=words::WHEN value=day on_day=set /> }
    });
    view! {
        <section>
            <div class="form">{choices}</div>
            {numbers}
            {warnings}
            <div class="form">{later}</div>
        </section>
    }
}
