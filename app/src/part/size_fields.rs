//! The size of a sheet, typed.

use foldwright_engine::length::{Length, Notation, Unit, read};
use foldwright_engine::plane::Size;
use leptos::prelude::*;

use crate::spoken::{misread, texts};

/// The size of a sheet as it is typed.
#[derive(Clone, Copy, Default)]
pub struct TypedSize {
    /// Across, with the print upright.
    pub width: RwSignal<String>,
    /// Up, with the print upright.
    pub height: RwSignal<String>,
}

impl TypedSize {
    /// Types a size.
    pub fn set(self, size: Size, notation: Notation) {
        self.width.set(notation.exact(size.width));
        self.height.set(notation.exact(size.height));
    }

    /// The size, once both sides are there; a number without a unit is in
    /// `unit`. Tracks.
    pub fn size(self, unit: Unit) -> Option<Size> {
        let side = |typed: RwSignal<String>| {
            let length = typed.with(|typed| read(typed, unit).ok())?;
            (length > Length::ZERO).then_some(length)
        };
        Some(Size {
            width: side(self.width)?,
            height: side(self.height)?,
        })
    }
}

/// A field for each side. What is wrong with one stands below it.
#[component]
pub fn SizeFields(
    /// What is typed.
    typed: TypedSize,
    /// The unit of numbers without one.
    #[prop(into)]
    unit: Signal<Unit>,
    /// Of what it is the size, such as "The scrap".
    of: &'static str,
) -> impl IntoView {
    let examples = move || match unit.get() {
        Unit::Inch => (
            texts().parts.such_as_wide_inches,
            texts().parts.such_as_high_inches,
        ),
        Unit::Millimetre => (texts().parts.such_as_wide_mm, texts().parts.such_as_high_mm),
    };
    let side =
        move |label: &'static str, typed: RwSignal<String>, example: Signal<&'static str>| {
            let wrong = move || wrong_with(&typed.read(), unit.get());
            view! {
                <label class="field">
                    <span>{label}</span>
                    <input
                        type="text"
                        data-unfinished="submit"
                        autocomplete="off"
                        enterkeyhint="done"
                        placeholder=example
                        aria-invalid=move || if wrong().is_some() { "true" } else { "false" }
                        prop:value=typed
                        on:input=move |event| typed.set(event_target_value(&event))
                    />
                    <span class="wrong" aria-live="polite">{wrong}</span>
                </label>
            }
        };
    view! {
        <div class="size-fields" role="group" aria-label=of>
            {side(texts().parts.width, typed.width, Signal::derive(move || examples().0))}
            <span class="size-times" aria-hidden="true">"×"</span>
            {side(texts().parts.height, typed.height, Signal::derive(move || examples().1))}
        </div>
    }
}

/// What is wrong with a side; nothing where it is not there yet.
fn wrong_with(typed: &str, unit: Unit) -> Option<String> {
    if typed.trim().is_empty() {
        return None;
    }
    match read(typed, unit) {
        Err(wrong) => Some(misread(&wrong)),
        Ok(length) if length <= Length::ZERO => Some(texts().parts.above_zero.to_owned()),
        Ok(_) => None,
    }
}
