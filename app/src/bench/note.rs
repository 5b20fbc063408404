//! The maker's own note beside a step.

use foldwright_engine::recipe::MOST_TEXT;
use leptos::prelude::*;

use super::table::Table;

/// A field for a note. It is kept in the recipe while it is typed; one visit
/// to the field is one change to undo.
#[component]
pub(super) fn Note(
    /// The step's lasting name.
    key: Memo<String>,
) -> impl IntoView {
    let table = Table::here();
    let note = move || {
        let key = key.get();
        table
            .recipe
            .with(|recipe| recipe.notes.get(&key).cloned().unwrap_or_default())
    };
    let write = move |text: String| {
        let key = key.get_untracked();
        table.history.edit(|recipe| {
            if text.is_empty() {
                recipe.notes.remove(&key);
            } else {
                recipe.notes.insert(key, text);
            }
        });
    };
    view! {
        <label class="field note">
            <span>"Your note for this step"</span>
            <textarea
                rows="2"
                maxlength=MOST_TEXT
                prop:value=note
                on:focus=move |_| table.history.hold()
                on:input=move |event| write(event_target_value(&event))
                on:blur=move |_| table.history.release()
            ></textarea>
        </label>
        <p class="quiet" role="status">
            {move || room(note().chars().count())}
        </p>
    }
}

/// How many characters a note has room for, once that is worth a word.
fn room(written: usize) -> Option<String> {
    let left = MOST_TEXT.saturating_sub(written);
    (left <= MOST_TEXT / 10).then(|| format!("Room for {left} more of {MOST_TEXT} characters."))
}
