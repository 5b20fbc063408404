//! What stands in the page until the app has something to show: an empty outline,
//! what the server has written, or what was seen here the last time. The last two
//! stay until a page of the app takes their place.

use std::cell::RefCell;

use leptos::prelude::document;
use web_sys::wasm_bindgen::JsCast as _;
use web_sys::{Element, HtmlElement};

/// What is shown, and what takes its place.
struct StandIn {
    shown: HtmlElement,
    app: HtmlElement,
}

thread_local! {
    static STAND_IN: RefCell<Option<StandIn>> = const { RefCell::new(None) };
}

/// Where the app is mounted: in `place`, where there is nothing but an outline, or
/// else beside the page, until [`take_place`] puts it there.
pub fn stand_in(place: HtmlElement) -> HtmlElement {
    let outline = place.query_selector(":scope > .starting").ok().flatten();
    if outline.is_none() && place.has_child_nodes() {
        let app = document().create_element("div").ok();
        if let Some(app) = app.and_then(|app| app.dyn_into::<HtmlElement>().ok()) {
            app.set_id(&place.id());
            let shown = place;
            let stand_in = StandIn {
                shown,
                app: app.clone(),
            };
            STAND_IN.set(Some(stand_in));
            return app;
        }
    }
    place.set_text_content(None);
    place
}

/// Puts the app into the page, where something else is shown in its place.
pub(crate) fn take_place() {
    let Some(StandIn { shown, app }) = STAND_IN.take() else {
        return;
    };
    let has_focus = focused().is_some_and(|focused| shown.contains(Some(&focused)));
    // Fails only where a script has taken the place away.
    let _ = shown.replace_with_with_node_1(&app);
    if has_focus {
        crate::shell::announce_page();
    }
}

fn focused() -> Option<Element> {
    document().active_element()
}
