//! Starts the app in the browser.

fn main() {
    leptos::mount::mount_to_body(foldwright_app::App);
}
