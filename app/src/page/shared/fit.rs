//! The reader's unit, and the reader's paper.

use foldwright_engine::card::work_out;
use foldwright_engine::length::{Notation, Step, Unit};
use foldwright_engine::plane::Size;
use leptos::prelude::*;

use super::asked::Asked;
use crate::calculator::asking::offered;
use crate::part::{BeforeAfter, Changes, Choice, Clashes, SizeFields, TypedSize, heard};
use crate::shared::{Fitted, Stuck, Wanted, differences, fit, sheet, with_notes};
use crate::spoken::{speaker, speaker_without_recipe, texts};
use crate::store::Open;

/// What came of the last choice.
#[derive(Clone, Default, PartialEq)]
enum Said {
    /// A card, and what its reader should know of it.
    Fitted(Vec<String>),
    /// Something stands in its way.
    Stuck(Box<Stuck>),
    /// Nothing was chosen, or the choice taken back.
    #[default]
    Nothing,
}

/// Chooses a unit and a sheet. The card becomes the nearest one to the shared
/// one, and what differs is told.
#[component]
pub(super) fn FitIt(asked: Asked, open: Open) -> impl IntoView {
    let said = RwSignal::new(Said::default());
    let shared = Memo::new(move |_| asked.guest.get().map(|guest| guest.shared));
    let notation = Memo::new(move |_| open.recipe.with(|recipe| recipe.notation));
    // Another sheet than that of the shared card.
    let paper = Memo::new(move |_| {
        let now = open.recipe.with(sheet);
        let then = shared.with(|shared| shared.as_ref().and_then(sheet));
        now.filter(|_| now != then)
    });
    let take = move |result: Result<Fitted, Box<Stuck>>| match result {
        Ok(Fitted { recipe, notes }) => {
            let Some(shared) = shared.get_untracked() else {
                return;
            };
            let before = open.recipe.get_untracked();
            let mut recipe = with_notes(recipe, &before, &shared);
            recipe.copies = before.copies;
            open.history.edit(|present| *present = recipe);
            said.set(Said::Fitted(notes));
        }
        Err(stuck) => said.set(Said::Stuck(stuck)),
    };
    let choose = move |unit: Unit, paper: Option<Size>| {
        let Some(shared) = shared.get_untracked() else {
            return;
        };
        let wanted = Wanted {
            notation: notation_for(unit, untrack(|| asked.store.settings().notation)),
            sheet: paper,
        };
        take(fit(&shared, wanted));
    };
    let unit = Signal::derive(move || notation.get().unit());
    let units = || {
        vec![
            (Unit::Inch, texts().settings.inches.to_owned()),
            (Unit::Millimetre, texts().settings.millimetres.to_owned()),
        ]
    };
    let take_unit = move |unit| choose(unit, paper.get_untracked());
    let take_paper = move |paper| choose(untrack(|| unit.get()), paper);
    view! {
        <section class="shared-fit" aria-label=texts().shared.your_unit_and_paper>
            <h2>{texts().shared.on_your_paper}</h2>
            <Choice titled=true label=texts().shared.measured_in options=units chosen=unit choose=take_unit/>
            <Sheets asked paper choose=take_paper/>
            <AnotherSize asked choose=move |size| take_paper(Some(size))/>
            <div aria-live="polite">
                {move || {
                    match said.get() {
                        Said::Nothing => ().into_any(),
                        Said::Fitted(notes) => {
                            let notes = notes.into_iter().map(|words| view! { <p class="callout">{words}</p> });
                            notes.collect_view().into_any()
                        }
                        Said::Stuck(stuck) => {
                            let leave = move || said.set(Said::Nothing);
                            view! { <NotSo stuck take leave/> }.into_any()
                        }
                    }
                }}
                <Different asked open/>
            </div>
        </section>
    }
}

/// What clashes, with the buttons that let go of it. The card stays as it is
/// until one is tapped.
#[component]
fn NotSo(
    stuck: Box<Stuck>,
    take: impl Fn(Result<Fitted, Box<Stuck>>) + Copy + Send + 'static,
    leave: impl Fn() + 'static,
) -> impl IntoView {
    let Stuck {
        clash,
        loosened,
        wish,
        ..
    } = (*stuck).clone();
    let free = move |frees| take((*stuck).clone().without(frees));
    view! {
        <div class="refitted">
            <Clashes clash recipe=loosened wish papers=false free/>
            <button type="button" class="button" on:click=move |_| leave()>{texts().resize.leave_as_it_is}</button>
        </div>
    }
}

/// The reader's notation where that is in the unit, otherwise whole
/// millimetres or sixteenths.
fn notation_for(unit: Unit, settings: Notation) -> Notation {
    if settings.unit() == unit {
        return settings;
    }
    let step = match unit {
        Unit::Inch => Step::Sixteenth,
        Unit::Millimetre => Step::Millimetre,
    };
    Notation { step, ..settings }
}

/// The sheets to tap: the usual ones, and the reader's scraps.
#[component]
fn Sheets(
    asked: Asked,
    /// The sheet that is chosen; none for that of the shared card.
    paper: Memo<Option<Size>>,
    choose: impl Fn(Option<Size>) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let notation = untrack(|| asked.store.settings().notation);
    let say = speaker_without_recipe(notation);
    let mut sheets = vec![(None, texts().shared.as_shared.to_owned())];
    sheets.extend(offered().map(|(size, sheet)| (Some(size), say.sheet(sheet))));
    for scrap in asked.store.scraps() {
        let name = texts()
            .shared
            .scrap(&notation.size(scrap.width, scrap.height));
        sheets.push((Some(scrap), name));
    }
    let chips = sheets.into_iter().map(|(size, name)| {
        let pressed = move || if paper.get() == size { "true" } else { "false" };
        view! {
            <button type="button" class="button chip" aria-pressed=pressed on:click=move |_| choose(size)>
                {heard(name)}
            </button>
        }
    });
    view! { <div class="chips" role="group" aria-label=texts().shared.your_sheet>{chips.collect_view()}</div> }
}

/// A sheet of any size, typed.
#[component]
fn AnotherSize(
    asked: Asked,
    choose: impl Fn(Size) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let unit = Signal::derive(move || asked.store.settings().unit());
    let typed = TypedSize::default();
    let size = Memo::new(move |_| typed.size(unit.get()));
    let take = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if let Some(size) = size.get_untracked() {
            choose(size);
        }
    };
    view! {
        <details class="typed">
            <summary>{texts().resize.another_size}</summary>
            <form on:submit=take>
                <p class="quiet">{texts().shared.measured_upright}</p>
                <SizeFields typed unit of=texts().shared.the_sheet/>
                <button class="button" disabled=move || size.with(Option::is_none)>{texts().shared.use_this_sheet}</button>
            </form>
        </details>
    }
}

/// How the reader's version differs from the shared card.
#[component]
fn Different(asked: Asked, open: Open) -> impl IntoView {
    move || {
        let shared = asked
            .guest
            .with(|guest| Some(guest.as_ref()?.shared.clone()))?;
        let version = open.recipe.get();
        let changes = differences(&shared, &version);
        let (then, now) = (sheet(&shared), sheet(&version));
        let paper = now.filter(|_| now != then).map(|now| {
            let name = speaker(&version).sheet_of(now);
            view! { <p>{texts().shared.base_cut_from(&name)}</p> }
        });
        (!changes.is_empty()).then(|| {
            let tools = asked.store.settings().tools();
            let count = texts().shared.lengths_differ(changes.len());
            let [before, after] = [shared, version].map(|recipe| {
                let card = work_out(&recipe, &tools);
                (recipe, card)
            });
            view! {
                {paper}
                <details class="typed">
                    <summary>{count}</summary>
                    <BeforeAfter before after name="shared"/>
                    <Changes changes/>
                </details>
            }
        })
    }
}
