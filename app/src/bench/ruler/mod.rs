//! A ruler on the screen, as true as somebody has set it with a card.

mod scale;

use std::fmt::Write as _;

use leptos::ev;
use leptos::prelude::*;
use web_sys::wasm_bindgen::JsValue;
use web_sys::wasm_bindgen::prelude::Closure;

use super::aids::AtHand;
use super::table::Table;
use crate::by_name::{of, of_browser, set};
use crate::part::{LessOrMore, heard};
use crate::spoken::{aloud, language};
use crate::store::Screen;
use scale::{BY, CARD_HEIGHT, CARD_WIDTH, NARROWEST, Shown, Standing, WIDEST, marks, pixels};

/// How high the strip is, its longest marks, and its numbers above its foot, in CSS
/// pixels.
const HEIGHT: f64 = 64.0;
const LONGEST: f64 = 36.0;
const FOOT: f64 = 8.0;

/// What stands beside the strip, in CSS pixels: the edges of the sheet it is in.
const BESIDE: f64 = 56.0;
/// How wide the sheet is at most.
const SHEET: f64 = 560.0;

/// What the outline shows before anybody has moved it, in CSS pixels: a card where 96 of
/// them are an inch (CSS Values 4), which few screens are true to.
const BEFORE: f64 = 204.0;

/// The ruler, or the way to it.
#[component]
pub(super) fn Ruler() -> impl IntoView {
    let hand = AtHand::here();
    let texts = language().beside();
    let shown = shown();
    let screen = hand.of(|aids| aids.screen);
    let is_setting = RwSignal::new(false);
    let standing = Memo::new(move |_| Standing::of(screen.get(), shown.get()));
    let words = move || match standing.get() {
        Standing::NotSet => texts.ruler_not_set,
        Standing::SetAgain => texts.ruler_set_again,
        Standing::Enlarged => texts.ruler_zoomed,
        Standing::Set(_) => texts.ruler_is_set,
    };
    let strip = move || match standing.get() {
        Standing::Set(card) => Some(view! { <Strip card/> }),
        _ => None,
    };
    view! {
        <Show
            when=move || !is_setting.get()
            fallback=move || view! { <Setting shown is_setting/> }
        >
            {strip}
            <p role="status">{words}</p>
            <button type="button" class="button" on:click=move |_| is_setting.set(true)>
                {texts.set_the_ruler}
            </button>
        </Show>
    }
}

/// The strip with its marks, on a screen on which a card is so many CSS pixels wide.
#[component]
fn Strip(card: f64) -> impl IntoView {
    let table = Table::here();
    let notation = table.recipe.with_untracked(|recipe| recipe.notation);
    let (end, marks) = marks(notation.step, card, room());
    let wide = pixels(end, card);
    let mut path = String::new();
    let mut numbers = String::new();
    for mark in &marks {
        // Writing to a text does not fail.
        let _ = write!(path, "M{:.2} 0v{:.1}", mark.at, LONGEST * mark.height);
        if let Some(number) = mark.number {
            let anchor = match mark.at {
                at if at < 1.0 => "start",
                at if at > wide - 1.0 => "end",
                _ => "middle",
            };
            let (at, foot) = (mark.at, HEIGHT - FOOT);
            let _ = write!(
                numbers,
                r#"<text x="{at:.2}" y="{foot}" text-anchor="{anchor}">{number}</text>"#
            );
        }
    }
    let told = language().beside().ruler_of(&notation.with_unit(end));
    view! {
        <svg
            class="screen-ruler"
            role="img"
            aria-label=aloud(&told)
            width=format!("{wide:.2}")
            height=HEIGHT.to_string()
        >
            <path d=path></path>
            <g inner_html=numbers></g>
        </svg>
    }
}

/// The outline that is brought to the size of a card.
#[component]
fn Setting(
    /// How the screen is shown.
    shown: RwSignal<Shown>,
    /// Whether it is being set.
    is_setting: RwSignal<bool>,
) -> impl IntoView {
    let hand = AtHand::here();
    let texts = language().beside();
    let before = hand.aids().screen.map_or(BEFORE, |screen| screen.card);
    let card = RwSignal::new(before.clamp(NARROWEST, WIDEST));
    let fits = move |_| {
        let screen = Screen {
            card: card.get_untracked(),
            ratio: shown.get_untracked().ratio,
        };
        hand.change(|aids| aids.screen = Some(screen));
        is_setting.set(false);
    };
    let slid = move |event: ev::Event| {
        if let Ok(wide) = event_target_value(&event).parse::<f64>() {
            card.set(wide.clamp(NARROWEST, WIDEST));
        }
    };
    let by = move |more: bool| {
        let step = if more { BY } else { -BY };
        card.update(|card| *card = (*card + step).clamp(NARROWEST, WIDEST));
    };
    let is_enlarged = move || shown.get().is_enlarged();
    let wide = move || format!("{:.2}", pixels(CARD_WIDTH, card.get()));
    let high = move || format!("{:.2}", pixels(CARD_HEIGHT, card.get()));
    view! {
        <p>{heard(texts.lay_a_card)}</p>
        <div class="card-outline">
            <svg role="img" aria-label=texts.card_outline width=wide height=high>
                <rect width="100%" height="100%" rx=move || format!("{:.2}", card.get() * CORNER)></rect>
            </svg>
        </div>
        <div class="card-slider">
            <LessOrMore
                less=texts.narrower
                more=texts.wider
                button="count-button"
                is_least=Signal::derive(move || card.get() <= NARROWEST)
                is_most=Signal::derive(move || card.get() >= WIDEST)
                by
            >
                <input
                    type="range"
                    aria-label=texts.how_wide
                    min=NARROWEST.to_string()
                    max=WIDEST.to_string()
                    step=BY.to_string()
                    prop:value=move || card.get().to_string()
                    on:input=slid
                />
            </LessOrMore>
        </div>
        <Show when=is_enlarged>
            <p role="status">{texts.ruler_zoomed}</p>
        </Show>
        <button
            type="button"
            class="button primary bench-way"
            disabled=is_enlarged
            on:click=fits
        >
            {texts.it_fits}
        </button>
    }
}

/// The corners of a card of the size ID-1 are round by about 3.18 mm (ISO/IEC 7810, from
/// memory), in parts of its width.
const CORNER: f64 = 3.18 / 53.98;

/// How the screen is shown, for as long as this is looked at.
fn shown() -> RwSignal<Shown> {
    let shown = RwSignal::new(now());
    let resized = window_event_listener(ev::resize, move |_| shown.set(now()));
    let enlarged = Closure::<dyn FnMut()>::new(move || {
        shown.try_set(now());
    });
    if let Some(view) = of_browser("visualViewport") {
        set(&view, "onresize", enlarged.as_ref());
    }
    let _held = StoredValue::new_local(enlarged);
    on_cleanup(move || {
        resized.remove();
        if let Some(view) = of_browser("visualViewport") {
            set(&view, "onresize", &JsValue::NULL);
        }
    });
    shown
}

fn now() -> Shown {
    let view = of_browser("visualViewport");
    let enlarged = view.and_then(|view| of(&view, "scale")?.as_f64());
    Shown {
        ratio: window().device_pixel_ratio(),
        enlarged: enlarged.unwrap_or(1.0),
    }
}

/// How much room the strip has, in CSS pixels.
fn room() -> f64 {
    let wide = window().inner_width().ok().and_then(|wide| wide.as_f64());
    wide.unwrap_or(SHEET).min(SHEET) - BESIDE
}
