//! Keys for lengths, as the maker's ruler has them: digits, halves to its finest
//! part, and units.

use foldwright_engine::length::{Length, Notation, Unit, read};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::desk::Desk;
use crate::part::heard;
use crate::spoken::{language, texts};

/// The parts that an inch is halved into, down to the maker's marks.
fn halvings(notation: Notation) -> Vec<Length> {
    match notation.unit() {
        Unit::Inch => [2, 4, 8, 16, 32, 64]
            .into_iter()
            .map(|part| Length::sixty_fourths(64 / part))
            .filter(|part| *part >= notation.step.length())
            .collect(),
        Unit::Millimetre => Vec::new(),
    }
}

/// Keys below a field of a length. A part of an inch is added to what stands there,
/// so that each mark of the ruler takes a few taps: 3, 1/2 and 1/4 are 3 3/4.
#[component]
pub(super) fn Keypad(
    field: NodeRef<html::Input>,
    typed: RwSignal<String>,
    /// Takes what is typed then.
    take: impl Fn(String) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let desk = Desk::here();
    // What is chosen in the field is written over, as by any keys.
    let write = move |what: &str| {
        let Some(field) = field.get_untracked() else {
            return;
        };
        let text = field.value();
        let length = u32::try_from(text.encode_utf16().count()).unwrap_or(u32::MAX);
        let place = |at: Option<u32>| at.unwrap_or(length).min(length);
        let from = place(field.selection_start().ok().flatten());
        let to = place(field.selection_end().ok().flatten());
        // What is taken away is chosen first: the letter before, where nothing is.
        let from = if what.is_empty() && from == to {
            from.saturating_sub(1)
        } else {
            from
        };
        let written = between(&text, 0, from) + what + &between(&text, to, length);
        let after = from.saturating_add(u32::try_from(what.len()).unwrap_or(0));
        field.set_value(&written);
        // It fails only for fields that hold no text.
        let _ = field.set_selection_range(after, after);
        take(written);
    };
    let add = move |part: Length| {
        let notation = desk.recipe.with_untracked(|recipe| recipe.notation);
        let now = typed.get_untracked();
        let now = if now.trim().is_empty() {
            Ok(Length::ZERO)
        } else {
            read(&now, notation.unit())
        };
        if let (Ok(now), Some(field)) = (now, field.get_untracked()) {
            let written = notation.exact(now + part);
            field.set_value(&written);
            field.select();
            take(written);
        }
    };
    // The field keeps its focus, and with it what is chosen there.
    let stay = |event: ev::MouseEvent| event.prevent_default();
    let key = move |what: String| {
        let words = what.clone();
        view! {
            <button type="button" class="key" on:mousedown=stay on:click=move |_| write(&what)>
                {words}
            </button>
        }
    };
    let digits = move || {
        let mark = desk.notation().decimal.as_str();
        let digits = ["7", "8", "9", "4", "5", "6", "1", "2", "3", mark, "0"];
        digits.map(String::from).map(key).into_iter().collect_view()
    };
    let parts = move || {
        let notation = desk.notation();
        let one = move |part: Length| {
            view! {
                <button type="button" class="key" on:mousedown=stay on:click=move |_| add(part)>
                    {heard(notation.plain(part))}
                </button>
            }
        };
        let parts = halvings(notation);
        (!parts.is_empty()).then(|| {
            let parts = parts.into_iter().map(one).collect_view();
            view! { <div class="keys-parts">{parts}</div> }
        })
    };
    view! {
        <div class="keypad" role="group" aria-label=texts().desk.fractions_and_units>
            <div class="keys-digits">
                {digits}
                <button
                    type="button"
                    class="key"
                    aria-label=language().unfolding().erase
                    on:mousedown=stay
                    on:click=move |_| write("")
                >
                    "⌫"
                </button>
            </div>
            {parts}
            <div class="keys-units">
                {["in", "mm", "cm"].map(|unit| key(format!(" {unit}"))).into_iter().collect_view()}
                <button
                    type="button"
                    class="key"
                    on:mousedown=stay
                    on:click=move |_| {
                        if let Some(field) = field.get_untracked() {
                            field.set_value("");
                        }
                        take(String::new());
                    }
                >
                    {texts().desk.clear}
                </button>
            </div>
        </div>
    }
}

/// What lies between two places of a text, counted in UTF-16 units as browsers do.
fn between(text: &str, from: u32, to: u32) -> String {
    let place = |at: u32| usize::try_from(at).unwrap_or(usize::MAX);
    let units = text.encode_utf16().take(place(to)).skip(place(from));
    String::from_utf16_lossy(&units.collect::<Vec<_>>())
}
