//! Another sheet, another envelope, another size, another unit.

use foldwright_engine::card::closed_size;
use foldwright_engine::length::{Length, Unit};
use foldwright_engine::paper::ENVELOPES;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::refit::Keep;
use leptos::prelude::*;

use super::super::asking::{Tapped, offered};
use super::super::desk::Desk;
use super::super::field::LengthField;
use super::super::pull_down::Pick;
use super::holds::Holding;
use super::refitted::Refitted;
use crate::part::{Choice, heard, told};
use crate::spoken::{speaker, speaker_without_recipe, texts};

/// What there is, and the card that comes of it.
#[component]
pub(crate) fn Refit() -> impl IntoView {
    view! {
        <h2>{texts().resize.make_it_fit}</h2>
        <p class="quiet">
            {texts().resize.tap_what_you_have}
        </p>
        <Designed/>
        <Sheets/>
        <Others/>
        <Refitted/>
        <Holding/>
    }
}

/// That the card was fitted, and what it was designed like.
#[component]
fn Designed() -> impl IntoView {
    let desk = Desk::here();
    let size = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            recipe.is_fitted().then(|| {
                let size = closed_size(&recipe.as_designed());
                speaker(recipe).with_exact().short_size(size)
            })
        })
    });
    move || {
        size.get().map(|size| {
            view! {
                <p>{told(texts().resize.was_resized(&size))}</p>
                <div class="actions">
                    <button
                        type="button"
                        class="button"
                        on:click=move |_| desk.change(|recipe| *recipe = recipe.as_designed())
                    >
                        {texts().resize.back_to_designed}
                    </button>
                    <button
                        type="button"
                        class="button"
                        on:click=move |_| desk.change(Recipe::take_for_design)
                    >
                        {texts().resize.design_as_now}
                    </button>
                </div>
            }
        })
    }
}

/// The sheets to tap.
#[component]
fn Sheets() -> impl IntoView {
    let desk = Desk::here();
    let chosen = Memo::new(move |_| desk.asking.with(|asking| asking.sheet));
    let tap = move |tapped: Tapped| {
        desk.asking.update(|asking| {
            asking.sheet = (asking.sheet != Some(tapped)).then_some(tapped);
            asking.keep = None;
            asking.freed.clear();
        });
    };
    let one = move |tapped: Tapped, name: String| {
        let pressed = move || {
            if chosen.get() == Some(tapped) {
                "true"
            } else {
                "false"
            }
        };
        view! {
            <button type="button" class="button chip" aria-pressed=pressed on:click=move |_| tap(tapped)>
                {name}
            </button>
        }
    };
    let own = move || {
        desk.recipe.with(|recipe| {
            let base = recipe.base.stock;
            let others = recipe.stocks.iter().filter(|stock| stock.id != base);
            others
                .map(|stock| one(Tapped::Own(stock.id), stock.name.clone()))
                .collect_view()
        })
    };
    let say = untrack(|| speaker_without_recipe(desk.notation()));
    let known = offered().map(|(size, sheet)| one(Tapped::Size(size), say.sheet(sheet)));
    let typed = Memo::new(move |_| match chosen.get() {
        Some(Tapped::Size(size)) => Some(size),
        _ => None,
    });
    let side = move |height: bool| {
        Signal::derive(move || {
            let stock = desk.recipe.with(|recipe| {
                recipe.stock(recipe.base.stock).map(|stock| Size {
                    width: stock.width,
                    height: stock.height,
                })
            });
            let size = typed.get().or(stock).unwrap_or_default();
            if height { size.height } else { size.width }
        })
    };
    let (width, height) = (side(false), side(true));
    let set = move |size: Size| {
        desk.asking.update(|asking| {
            asking.sheet = Some(Tapped::Size(size));
            asking.freed.clear();
        });
    };
    let share = Signal::derive(move || {
        let keep = desk.asking.with(|asking| asking.keep);
        keep.unwrap_or(Keep::Share)
    });
    let name = move || {
        let size = typed.get()?;
        Some(desk.recipe.with(|recipe| speaker(recipe).sheet_of(size)))
    };
    view! {
        <h3>{texts().resize.sheet}</h3>
        <div class="chips" role="group" aria-label=texts().resize.sheet>{known.collect_view()}</div>
        <div class="chips" role="group" aria-label=texts().resize.paper_of_recipe>{own}</div>
        <Show when=move || chosen.get().is_some()>
            <div class="field">
                <span>{texts().resize.how_much_of_it}</span>
                <Choice
                    label=texts().resize.how_much_of_sheet
                    options=|| vec![
                        (Keep::Share, texts().resize.as_large_a_part),
                        (Keep::Count, texts().resize.as_many_cards),
                        (Keep::Card, texts().resize.same_card),
                    ]
                    chosen=share
                    choose=move |keep| desk.asking.update(|asking| asking.keep = Some(keep))
                />
            </div>
        </Show>
        <details class="typed">
            <summary>{texts().resize.another_size} {move || name().map(|name| heard(format!(": {name}")))}</summary>
            <div class="fields">
                <LengthField
                    label=texts().resize.width
                    length=width
                    set=move |width| set(Size { width, height: untrack(|| height.get()) })
                    positive=true
                />
                <LengthField
                    label=texts().resize.height
                    length=height
                    set=move |height| set(Size { width: untrack(|| width.get()), height })
                    positive=true
                />
            </div>
        </details>
    }
}

/// The envelope, the finished size and the unit.
#[component]
fn Others() -> impl IntoView {
    let desk = Desk::here();
    let envelopes: Vec<_> = std::iter::once((None, texts().resize.as_it_is.to_owned()))
        .chain(ENVELOPES.iter().map(|it| (Some(it.id), it.name.to_owned())))
        .collect();
    let envelope = Signal::derive(move || desk.asking.with(|asking| asking.envelope));
    let take = move |id| {
        desk.asking.update(|asking| {
            asking.envelope = id;
            asking.freed.clear();
        });
    };
    let now = move || desk.notation().unit();
    let other = move || match now() {
        Unit::Inch => (Unit::Millimetre, texts().resize.in_millimetres),
        Unit::Millimetre => (Unit::Inch, texts().resize.in_inches),
    };
    let across = move || {
        let wanted = desk.asking.with(|asking| asking.unit);
        wanted == Some(other().0)
    };
    let cross = move |_| {
        let (unit, _) = untrack(other);
        desk.asking.update(|asking| {
            asking.unit = (asking.unit != Some(unit)).then_some(unit);
            asking.step = None;
            asking.freed.clear();
        });
    };
    let closed = move |height: bool| {
        Signal::derive(move || {
            let asked = desk.asking.with(|asking| asking.finished);
            let size = asked.unwrap_or_else(|| desk.card.with(|card| card.finished));
            if height { size.height } else { size.width }
        })
    };
    let (width, height) = (closed(false), closed(true));
    let set = move |width: Length, height: Length| {
        desk.asking.update(|asking| {
            asking.finished = Some(Size { width, height });
            asking.freed.clear();
        });
    };
    view! {
        <h3>{texts().resize.envelope_unit_size}</h3>
        <div class="fields">
            <Pick label=texts().resize.to_go_into options=Signal::stored(envelopes) chosen=envelope choose=take/>
        </div>
        <div class="chips" role="group" aria-label=texts().resize.unit>
            <button
                type="button"
                class="button chip"
                aria-pressed=move || if across() { "true" } else { "false" }
                on:click=cross
            >
                {move || other().1}
            </button>
        </div>
        <details class="typed">
            <summary>{texts().resize.another_closed_size}</summary>
            <div class="fields">
                <LengthField label=texts().resize.closed_width length=width set=move |width| set(width, untrack(|| height.get())) positive=true/>
                <LengthField label=texts().resize.closed_height length=height set=move |height| set(untrack(|| width.get()), height) positive=true/>
            </div>
        </details>
    }
}
