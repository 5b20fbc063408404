//! Pages that the server writes out, to stand where the app will.

use leptos::prelude::*;

use crate::part::{Mark, from_first};

/// A page written out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// Its title, as markup.
    pub title: String,
    /// What stands in place of the app until the app is there, as markup.
    pub body: String,
}

/// A page of that title with this inside. The language to speak is chosen before.
pub(crate) fn page(title: &str, inside: impl FnOnce() -> AnyView) -> Written {
    let title = format!("{title} · Foldwright");
    Owner::new().with(|| {
        from_first();
        let page = view! {
            <div class="frame written">
                <header class="top">
                    <a class="wordmark" href="/"><Mark/> "Foldwright"</a>
                </header>
                <main id="main">{inside()}</main>
            </div>
        };
        Written {
            title: view! { <title>{title}</title> }.to_html(),
            body: page.to_html(),
        }
    })
}
