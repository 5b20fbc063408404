//! Numbers: each can be tapped, which opens an editor for it.

use foldwright_engine::length::{Length, Unit, ceil, floor, read};
use foldwright_engine::recipe::MeasureId;
use foldwright_words::sentence;
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::desk::Desk;
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
        let pinned = |recipe: &foldwright_engine::recipe::Recipe| {
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
            // A field that is not in the page yet cannot be focused; it is.
            let _ = field.focus();
            field.select();
        }
    });

    let set = move |length: Length| {
        if desk.edit(Some(measure), |recipe| recipe.set(measure, length)) {
            typed.set(untrack(|| exact(value())));
        }
    };
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        if let Ok(length) = understood.get_untracked() {
            set(length);
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
    let append = move |what: &'static str, joined: bool| {
        typed.update(|typed| {
            if joined && !typed.is_empty() && !typed.ends_with(' ') {
                typed.push(' ');
            }
            typed.push_str(what);
        });
        if let Some(field) = field.get_untracked() {
            let _ = field.focus();
        }
    };
    // A keypad for numbers has neither fractions nor units.
    let keys = move || {
        let fractions: &[_] = match unit() {
            Unit::Inch => &["1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"],
            Unit::Millimetre => &[],
        };
        fractions
            .iter()
            .chain(&["in", "mm", "cm"])
            .map(|key| {
                view! {
                    <button type="button" class="key" on:click=move |_| append(key, true)>
                        {*key}
                    </button>
                }
            })
            .collect_view()
    };
    view! {
        <form class="number-editor" on:submit=submit>
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
                        inputmode="decimal"
                        autocomplete="off"
                        enterkeyhint="done"
                        aria-label=texts().desk.length
                        aria-invalid=move || if wrong().is_some() { "true" } else { "false" }
                        aria-describedby="number-reads"
                        prop:value=typed
                        on:input=move |event| typed.set(event_target_value(&event))
                    />
                </LessOrMore>
            </div>
            <div id="number-reads" class="number-reads" aria-live="polite">
                {move || match wrong() {
                    Some(wrong) => view! { <p class="wrong">{wrong}</p> }.into_any(),
                    None => view! { <p>{reads}</p> }.into_any(),
                }}
            </div>
            <div class="keys" role="group" aria-label=texts().desk.fractions_and_units>
                {keys}
                <button type="button" class="key" on:click=move |_| {
                    typed.set(String::new());
                    append("", false);
                }>
                    {texts().desk.clear}
                </button>
            </div>
            <label class="check">
                <input type="checkbox" prop:checked=pinned on:change=pin/>
                <span>{texts().desk.pinned}</span>
            </label>
            <Ties measure/>
            <Said/>
            <div class="actions">
                <button type="submit" class="button primary" disabled=move || wrong().is_some()>
                    {texts().desk.set}
                </button>
                <button type="button" class="button" on:click=move |_| desk.editor_open.set(false)>
                    {texts().desk.done}
                </button>
            </div>
        </form>
    }
}
