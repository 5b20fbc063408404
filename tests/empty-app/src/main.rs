//! An app with nothing in it but a router and one server function.

use leptos::prelude::*;
use leptos_router::components::{Route, Router, Routes};
use leptos_router::path;

/// Asks the server for a greeting.
#[server(endpoint = "greeting")]
async fn greeting() -> Result<String, ServerFnError> {
    Ok(String::from("Good day"))
}

#[component]
fn Empty() -> impl IntoView {
    let answer = LocalResource::new(greeting);
    view! {
        <Router>
            <main data-ready="true">
                <Routes fallback=|| "Nothing here">
                    <Route path=path!("/*any") view=move || answer.get().and_then(Result::ok) />
                </Routes>
            </main>
        </Router>
    }
}

fn main() {
    leptos::mount::mount_to_body(Empty);
}
