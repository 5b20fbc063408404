//! Numbers: each can be tapped, which opens an editor for it.

use foldwright_engine::length::{Length, ceil, floor, read};
use foldwright_engine::recipe::{MeasureId, Recipe};
use foldwright_words::sentence;
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::desk::Desk;
use super::keypad::Keypad;
use super::said::Said;
use super::ties::Ties;
use crate::part::{LessOrMore, Sheet, heard, told};
use crate::spoken::{aloud, misread, speaker, texts};

/// A measure as a button that opens its editor.
#[component]
pub(super) fn Number(
    /// The measure.
    #[prop(into)]
    measure: Signal<MeasureId>,
    /// What it is called here, such as "Width".
    #[prop(into)]
    label: String,
) -> impl IntoView {
    let desk = Desk::here();
    let value = move || {
        let measure = measure.get();
        desk.recipe
            .with(|recipe| heard(recipe.notation.with_unit(recipe.value(measure))))
    };
    let pinned = move || {
        let measure = measure.get();
        let pinned = |recipe: &Recipe| {
            recipe
                .measure(measure)
                .is_some_and(|measure| measure.pinned)
        };
        desk.recipe
            .with(pinned)
            .then(|| view! { <span class="pin">{texts().desk.is_pinned}</span> })
    };
    view! {
        <button type="button" class="number-button" on:click=move |_| desk.ask(measure.get_untracked())>
            <span class="number-label">{label}</span>
            <span class="number-value">{value}</span>
            {pinned}
        </button>
    }
}

/// The editor of the measure that was tapped.
#[component]
pub(super) fn NumberEditor() -> impl IntoView {
    let desk = Desk::here();
    let title = Signal::derive(move || {
        let measure = desk.measure.get();
        desk.recipe.with(|recipe| {
            let measure = measure.and_then(|id| recipe.measure(id));
            measure.map_or_else(String::new, |measure| sentence(measure.name.clone()))
        })
    });
    view! {
        <Sheet open=desk.editor_open title>
            {move || desk.measure.get().map(|measure| view! { <Editor measure/> })}
        </Sheet>
    }
}

/// What is typed into the editor, and the card as it was before: what is typed is
/// shown in the figure at once, each time from there, so that nothing is left of a
/// number that was only on the way to another.
#[derive(Clone, Copy)]
struct Trying {
    desk: Desk,
    measure: MeasureId,
    before: StoredValue<Recipe>,
    /// What it came to by the last number that was taken.
    now: StoredValue<Recipe>,
}

impl Trying {
    fn begin(desk: Desk, measure: MeasureId) -> Self {
        desk.history.hold();
        let recipe = desk.recipe.get_untracked();
        Self {
            desk,
            measure,
            before: StoredValue::new(recipe.clone()),
            now: StoredValue::new(recipe),
        }
    }

    /// Sets the measure; whether that goes. What else was changed meanwhile, here or
    /// on another device, stays.
    fn set(self, length: Length) -> bool {
        let present = self.desk.recipe.get_untracked();
        if self.now.with_value(|now| *now != present) {
            self.before.set_value(present);
        }
        let before = self.before.get_value();
        let done = self.desk.edit(Some(self.measure), |recipe| {
            *recipe = before;
            recipe.set(self.measure, length)
        });
        self.now.set_value(self.desk.recipe.get_untracked());
        done
    }

    /// Has the card as it was before, where nothing else was changed meanwhile.
    fn take_back(self) {
        let present = self.desk.recipe.get_untracked();
        let before = self.before.get_value();
        if present != before && self.now.with_value(|now| *now == present) {
            self.now.set_value(before.clone());
            self.desk.change(|recipe| *recipe = before);
        }
    }
}

#[component]
fn Editor(measure: MeasureId) -> impl IntoView {
    let desk = Desk::here();
    let unit = move || desk.notation().unit();
    let exact = move |length: Length| desk.notation().exact(length);
    let value = move || desk.recipe.with(|recipe| recipe.value(measure));
    let typed = RwSignal::new(untrack(|| exact(value())));
    let understood = Memo::new(move |_| read(&typed.get(), unit()));
    let field = NodeRef::<html::Input>::new();
    Effect::new(move || {
        if let Some(field) = field.get() {
            // It has no text before the next frame, and what is not there can't be
            // chosen.
            request_animation_frame(move || {
                // A field that is not in the page cannot be focused; then it is gone.
                let _ = field.focus();
                field.select();
            });
        }
    });

    let trying = Trying::begin(desk, measure);
    on_cleanup(move || desk.history.release());
    let take = move |now: String| {
        typed.set(now);
        match understood.get_untracked() {
            Ok(length) if length != untrack(value) => drop(trying.set(length)),
            Ok(_) => {}
            // What it began with was never meant.
            Err(_) => trying.take_back(),
        }
    };
    let set = move |length: Length| {
        if trying.set(length) {
            typed.set(untrack(|| exact(value())));
        }
    };
    let step = move || untrack(|| desk.notation().step);
    let step_by = move |up: bool| {
        let now = untrack(value);
        set(if up {
            floor(now, step()).at + step().length()
        } else {
            ceil(now, step()).at - step().length()
        });
    };
    let step_words = move || {
        let notation = desk.notation();
        notation.step.words(notation.decimal)
    };

    let wrong = move || understood.get().err().map(|wrong| misread(&wrong));
    let reads = move || {
        let length = understood.get().ok()?;
        let read = desk
            .recipe
            .with(|recipe| speaker(recipe).with_exact().short_length(length));
        Some(told(format!("= {read}")))
    };
    let pinned = move || {
        desk.recipe
            .with(|recipe| recipe.measure(measure).is_some_and(|held| held.pinned))
    };
    let pin = move |event: ev::Event| {
        let pinned = event_target_checked(&event);
        desk.change(|recipe| drop(recipe.pin(measure, pinned)));
    };
    let close = move |event: ev::SubmitEvent| {
        event.prevent_default();
        if wrong().is_none() {
            desk.editor_open.set(false);
        }
    };
    view! {
        <form class="number-editor" on:submit=close>
            <div class="number-line">
                <LessOrMore
                    less=Signal::derive(move || aloud(&texts().desk.less(&step_words())))
                    more=Signal::derive(move || aloud(&texts().desk.more(&step_words())))
                    button="button step"
                    is_least=Signal::stored(false)
                    is_most=Signal::stored(false)
                    by=step_by
                >
                    <input
                        node_ref=field
                        class="number-field"
                        data-unfinished="submit"
                        // The keys below have what the phone's own lack.
                        inputmode="none"
                        autocomplete="off"
                        enterkeyhint="done"
                        aria-label=texts().desk.length
                        aria-invalid=move || if wrong().is_some() { "true" } else { "false" }
                        aria-describedby="number-reads"
                        prop:value=typed
                        on:input=move |event| take(event_target_value(&event))
                    />
                </LessOrMore>
            </div>
            <div id="number-reads" class="number-reads" aria-live="polite">
                {move || match wrong() {
                    Some(wrong) => view! { <p class="wrong">{wrong}</p> }.into_any(),
                    None => view! { <p>{reads}</p> }.into_any(),
                }}
            </div>
            <Keypad field typed take/>
            <Said/>
            <label class="check">
                <input type="checkbox" prop:checked=pinned on:change=pin/>
                <span>{texts().desk.pinned}</span>
            </label>
            <Ties measure/>
            <div class="actions">
                <button type="submit" class="button primary" disabled=move || wrong().is_some()>
                    {texts().desk.done}
                </button>
            </div>
        </form>
    }
}
