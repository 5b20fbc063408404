//! The maker's own note beside a step.

use foldwright_document::typed_into;
use foldwright_engine::recipe::MOST_TEXT;
use foldwright_engine::steps::StepKey;
use leptos::html;
use leptos::prelude::*;

use super::table::Table;
use crate::spoken::texts;

/// A field for a note. It is kept in the recipe while it is typed; one visit
/// to the field is one change to undo.
#[component]
pub(super) fn Note(
    /// The step's lasting name, by whose text notes are kept.
    key: Memo<Option<StepKey>>,
) -> impl IntoView {
    let table = Table::here();
    let kept = move || {
        let key = key.get()?.to_string();
        table.recipe.with(|recipe| recipe.notes.get(&key).cloned())
    };
    let note = move || kept().unwrap_or_default();
    // What the field held when it was last looked at.
    let held = StoredValue::new(String::new());
    let write = move |typed: String| {
        let Some(key) = key.get_untracked() else {
            return;
        };
        // What has come meanwhile and is not in the field yet stays.
        let text = typed_into(&untrack(note), &held.get_value(), &typed);
        held.set_value(typed);
        table.history.edit(|recipe| {
            if text.is_empty() {
                recipe.notes.remove(&key.to_string());
            } else {
                recipe.notes.insert(key.to_string(), text);
            }
        });
    };
    let field = NodeRef::<html::Textarea>::new();
    let composing = RwSignal::new(false);
    // What comes from elsewhere while somebody types is put in around what they
    // type; a letter that is still being composed is not disturbed.
    Effect::new(move || {
        let note = note();
        if let Some(field) = field.get()
            && !composing.get()
        {
            held.set_value(note.clone());
            if field.value() == note {
                return;
            }
            let at = [field.selection_start(), field.selection_end()];
            let before = field.value();
            field.set_value(&note);
            let [start, end] = at.map(|at| {
                let at = at.ok().flatten().unwrap_or_default();
                carried(&before, &note, at)
            });
            // Fails only for fields that have no selection.
            let _ = field.set_selection_range(start, end);
        }
    });
    view! {
        <label class="field note">
            <span>{texts().bench.your_note}</span>
            <textarea
                rows="2"
                maxlength=MOST_TEXT
                node_ref=field
                on:compositionstart=move |_| composing.set(true)
                on:compositionend=move |_| composing.set(false)
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

/// Where a place in a text is in what has become of it, both counted as
/// browsers do, in halves of letters in UTF-16.
fn carried(before: &str, after: &str, at: u32) -> u32 {
    let [before, after] = [before, after].map(|text| text.encode_utf16().collect::<Vec<_>>());
    let at = usize::try_from(at).unwrap_or(0).min(before.len());
    let alike = |(one, other): &(&u16, &u16)| one == other;
    let start = before.iter().zip(&after).take_while(alike).count();
    let rests = before
        .iter()
        .skip(start)
        .rev()
        .zip(after.iter().skip(start).rev());
    let end = rests.take_while(alike).count();
    let carried = if at <= start {
        at
    } else {
        let behind = (before.len() - at).min(end);
        after.len() - behind
    };
    u32::try_from(carried).unwrap_or(u32::MAX)
}

/// How many characters a note has room for, once that is worth a word.
fn room(written: usize) -> Option<String> {
    let left = MOST_TEXT.saturating_sub(written);
    (left <= MOST_TEXT / 10).then(|| texts().bench.room_for(left, MOST_TEXT))
}

#[cfg(test)]
mod tests {
    use super::carried;

    #[test]
    fn the_cursor_stays_where_it_was_in_the_words() {
        // Behind "card", with words put in before, behind, and around it.
        assert_eq!(carried("blue card", "navy blue card", 9), 14);
        assert_eq!(carried("blue card", "blue card, wide", 9), 9);
        assert_eq!(carried("blue card", "blue wide card", 4), 4);
        assert_eq!(carried("blue card", "blue wide card", 7), 12);
        assert_eq!(carried("Ä🙂 card", "für Ä🙂 card", 3), 7);
        assert_eq!(carried("blue", "", 2), 0);
    }
}
