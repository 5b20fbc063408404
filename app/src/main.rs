//! Starts the app in the browser, or in a worker of it what is done there.

use leptos::mount::{mount_to, mount_to_body};
use leptos::prelude::document;
use leptos::wasm_bindgen::JsCast as _;
use leptos::web_sys::HtmlElement;

fn main() {
    // `public/beside.js` starts it once more where there is no page.
    if leptos::web_sys::window().is_none() {
        return foldwright_app::work_beside();
    }
    let place = document()
        .get_element_by_id("app")
        .and_then(|element| element.dyn_into::<HtmlElement>().ok());
    match place {
        Some(place) => {
            let place = foldwright_app::stand_in(place);
            mount_to(place, foldwright_app::App).forget();
        }
        None => mount_to_body(foldwright_app::App),
    }
}
