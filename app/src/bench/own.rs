//! The words of a step of the maker's own.

use foldwright_engine::recipe::MOST_OWN_STEP;
use leptos::prelude::*;

use super::order::{Form, Reorder};
use crate::part::Choice;
use crate::spoken::language;

/// Where its words are typed.
pub(super) const FIELD: &str = "own-step-words";

/// What to do and how often: of a new step, or of one that is there.
#[component]
pub(super) fn OwnStepForm(reorder: Reorder, of: Form) -> impl IntoView {
    let texts = language().ordering();
    let of = match of {
        Form::New => None,
        Form::Of(id) => Some(id),
    };
    let kept = of.and_then(|id| {
        reorder
            .table
            .recipe
            .with_untracked(|recipe| recipe.own_step(id).cloned())
    });
    let (words, each) = kept.map_or_else(Default::default, |step| (step.text, step.each));
    let words = RwSignal::new(words);
    let each = RwSignal::new(each);
    let is_empty = move || words.with(|words| words.trim().is_empty());
    let submit = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if is_empty() {
            return;
        }
        let (words, each) = (words.get_untracked(), each.get_untracked());
        match of {
            Some(id) => reorder.reword(id, &words, each),
            None => reorder.add(&words, each),
        }
    };
    let remove = of.map(|id| {
        view! {
            <button type="button" class="button" on:click=move |_| reorder.remove(id)>
                {texts.remove}
            </button>
        }
    });
    view! {
        <form class="own-step" on:submit=submit>
            <label class="field">
                <span>{texts.what_to_do}</span>
                <input
                    id=FIELD
                    type="text"
                    autocomplete="off"
                    data-unfinished="submit"
                    maxlength=MOST_OWN_STEP
                    prop:value=words
                    on:input=move |event| words.set(event_target_value(&event))
                />
            </label>
            <Choice
                titled=true
                label=texts.how_often
                options=move || vec![(false, texts.once), (true, texts.each_card)]
                chosen=each
                choose=move |chosen| each.set(chosen)
            />
            <div class="actions">
                <button type="submit" class="button primary" disabled=is_empty>
                    {if of.is_some() { texts.keep } else { texts.add }}
                </button>
                {remove}
            </div>
            {of.is_none().then(|| view! { <p class="quiet">{texts.about_own}</p> })}
        </form>
    }
}
