//! Numbers that merely followed from what somebody decided.

use leptos::prelude::*;

use super::heard;
use crate::spoken::first;

/// How many followed, which opens and tells each; nothing where there are none.
#[component]
pub(crate) fn Followed(
    /// One line for each number.
    lines: Vec<String>,
) -> impl IntoView {
    (!lines.is_empty()).then(|| {
        let summary = first().numbers_follow(lines.len());
        let lines = lines.into_iter();
        let lines = lines.map(|line| view! { <li>{heard(line)}</li> });
        view! {
            <details class="one-thing followed">
                <summary>{summary}</summary>
                // Many of them are scrolled, by keyboard too.
                <ul tabindex="0">{lines.collect_view()}</ul>
            </details>
        }
    })
}
