//! The drawn part of the figure, of which only what changes is touched: a
//! browser is quicker to move what it has than to take in something new.

use std::sync::Arc;

use foldwright_engine::draw::{Element, Written};
use leptos::prelude::*;
use leptos::{svg, web_sys};

use super::picture::Picture;

/// The picture's elements, kept in step with it.
#[component]
pub(super) fn Live(picture: Memo<Picture>) -> impl IntoView {
    let group = NodeRef::<svg::G>::new();
    let shown = StoredValue::new_local(Vec::new());
    Effect::new(move |before: Option<Arc<Written>>| {
        let now = picture.with(|picture| Arc::clone(&picture.drawn));
        if let Some(group) = group.get() {
            let before = before.as_ref().map_or(&[][..], |before| &before.elements);
            shown.update_value(|shown| update(&group, shown, before, &now.elements));
        }
        now
    });
    view! { <g node_ref=group></g> }
}

/// Makes the `children` of a node, which are those written `before`, those
/// written `now`.
fn update(
    parent: &web_sys::Element,
    children: &mut Vec<web_sys::Element>,
    before: &[Element],
    now: &[Element],
) {
    let mut others = false;
    for (place, now) in now.iter().enumerate() {
        match (children.get(place), before.get(place)) {
            (Some(_), Some(before)) if before == now => {}
            (Some(child), Some(before)) if alike(before, now) => change(child, before, now),
            (Some(child), _) => {
                child.set_outer_html(&now.to_string());
                others = true;
            }
            (None, _) => {
                // It fails only outside a document.
                let _ = parent.insert_adjacent_html("beforeend", &now.to_string());
                others = true;
            }
        }
    }
    for left in children.iter().skip(now.len()) {
        left.remove();
        others = true;
    }
    if others {
        *children = children_of(parent);
    }
}

fn children_of(parent: &web_sys::Element) -> Vec<web_sys::Element> {
    let first = parent.first_element_child();
    std::iter::successors(first, web_sys::Element::next_element_sibling).collect()
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
        update(node, &mut children_of(node), &before.inside, &now.inside);
    }
    if before.text != now.text {
        node.set_text_content(Some(&now.text));
    }
}
