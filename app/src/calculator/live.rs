//! The drawn part of the figure, of which only what changes is touched: a
//! browser is quicker to move what it has than to take in something new.

use foldwright_engine::draw::Element;
use leptos::prelude::*;
use leptos::{svg, web_sys};

use super::picture::Picture;

/// The picture's elements, kept in step with it.
#[component]
pub(super) fn Live(picture: Memo<Picture>) -> impl IntoView {
    let group = NodeRef::<svg::G>::new();
    Effect::new(move |before: Option<Vec<Element>>| {
        let now = picture.with(|picture| picture.drawn.elements.clone());
        if let Some(group) = group.get() {
            update(&group, &before.unwrap_or_default(), &now);
        }
        now
    });
    view! { <g node_ref=group></g> }
}

/// Makes the children of a node, which are those written `before`, those
/// written `now`.
fn update(parent: &web_sys::Element, before: &[Element], now: &[Element]) {
    let mut child = parent.first_element_child();
    for (place, now) in now.iter().enumerate() {
        let next = child
            .as_ref()
            .and_then(web_sys::Element::next_element_sibling);
        match (&child, before.get(place)) {
            (Some(_), Some(before)) if before == now => {}
            (Some(child), Some(before)) if alike(before, now) => change(child, before, now),
            (Some(child), _) => child.set_outer_html(&now.to_string()),
            (None, _) => {
                // It fails only outside a document.
                let _ = parent.insert_adjacent_html("beforeend", &now.to_string());
            }
        }
        child = next;
    }
    while let Some(left) = child {
        child = left.next_element_sibling();
        left.remove();
    }
}

/// Whether one element becomes the other by other values alone.
fn alike(one: &Element, other: &Element) -> bool {
    let names = |element: &Element| {
        let names = element.attributes.iter().map(|(name, _)| *name);
        names.collect::<Vec<_>>()
    };
    one.name == other.name && names(one) == names(other)
}

fn change(node: &web_sys::Element, before: &Element, now: &Element) {
    for (old, (name, value)) in before.attributes.iter().zip(&now.attributes) {
        if old.1 != *value {
            // It fails only for names that are none.
            let _ = node.set_attribute(name, value);
        }
    }
    if before.inside != now.inside {
        update(node, &before.inside, &now.inside);
    }
    if before.text != now.text {
        node.set_text_content(Some(&now.text));
    }
}
