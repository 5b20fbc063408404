//! The drawn part of the figure, of which only what changes is drawn again.

use leptos::prelude::*;
use leptos::svg;

use super::picture::Picture;

/// Each mark of the picture in a group of its own. A browser lays out and
/// paints only the groups that are written again.
#[component]
pub(super) fn Live(picture: Memo<Picture>) -> impl IntoView {
    let whole = NodeRef::<svg::G>::new();
    Effect::new(move |before: Option<Vec<String>>| {
        let now = picture.with(|picture| picture.drawn.marks.clone());
        let Some(whole) = whole.get() else {
            return Vec::new();
        };
        let before = before.unwrap_or_default();
        let mut group = whole.first_element_child();
        for (place, mark) in now.iter().enumerate() {
            match &group {
                Some(group) if before.get(place) != Some(mark) => group.set_inner_html(mark),
                Some(_) => {}
                None => {
                    let written = format!("<g>{mark}</g>");
                    // It fails only outside a document.
                    let _ = whole.insert_adjacent_html("beforeend", &written);
                }
            }
            group = group.and_then(|group| group.next_element_sibling());
        }
        while let Some(left) = group {
            group = left.next_element_sibling();
            left.remove();
        }
        now
    });
    view! { <g node_ref=whole></g> }
}
