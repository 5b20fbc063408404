//! A shared recipe as a page that needs no script.

use foldwright_api::Shared;
use foldwright_engine::card::Tools;
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

use super::card::WholeCard;
use super::read::recipe;
use super::{NOT_OPENED, NOTHING_SHARED};
use crate::part::Mark;

/// The most panels and the most layers of a card that is written out, and the
/// most bytes of its page. Our own bounds: a card made in the app has no more
/// panels or layers, and one of half as many panels again takes seven times as
/// long.
const MOST_PANELS: usize = 200;
const MOST_LAYERS: usize = 200;
const MOST_BYTES: usize = 16 * 1024 * 1024;

/// A page written out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// Its title, as markup.
    pub title: String,
    /// What stands in place of the app until the app is there, as markup.
    pub body: String,
}

/// The page of what a link opens; `None` where that is no recipe this
/// Foldwright can show.
pub fn written(shared: &Shared) -> Option<Written> {
    let recipe = recipe(shared).ok()?;
    let name = recipe.name.clone();
    let strips = recipe.strips().map(|(_, strip)| strip.panels.len());
    if strips.sum::<usize>() > MOST_PANELS || recipe.layers.len() > MOST_LAYERS {
        return Some(too_large(&name));
    }
    let from = shared.from.clone();
    let whole = page(&name, move || view! { <Readable recipe from/> }.into_any());
    if whole.body.len() > MOST_BYTES {
        return Some(too_large(&name));
    }
    Some(whole)
}

/// The page of a card that is not written out.
fn too_large(name: &str) -> Written {
    let heading = name.to_owned();
    page(name, move || {
        view! {
            <section class="page message">
                <h1>{heading}</h1>
                <p>
                    "This card is too large to be written out here. With JavaScript switched on, \
                     this page shows it step by step."
                </p>
                <p><a class="button primary" href="/">"To Foldwright"</a></p>
            </section>
        }
        .into_any()
    })
}

/// The page of a link that opens nothing, whether it never did or no longer
/// does.
pub fn nothing_written() -> Written {
    told(NOTHING_SHARED, NOT_OPENED)
}

/// The page where it cannot be told what a link opens.
pub fn trouble_written() -> Written {
    told(
        "Not now",
        "The server cannot read what is shared at the moment. Open this page again in a while.",
    )
}

fn told(title: &'static str, words: &'static str) -> Written {
    page(title, move || {
        view! {
            <section class="page message">
                <h1>{title}</h1>
                <p>{words}</p>
                <p><a class="button primary" href="/">"To Foldwright"</a></p>
            </section>
        }
        .into_any()
    })
}

fn page(title: &str, inside: impl FnOnce() -> AnyView) -> Written {
    let title = format!("{title} · Foldwright");
    Owner::new().with(|| {
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

#[component]
fn Readable(recipe: Recipe, from: String) -> impl IntoView {
    let name = recipe.name.clone();
    let from = (!from.is_empty()).then(|| view! { <p class="quiet">"Shared by " {from} "."</p> });
    view! {
        <section class="page shared">
            <h1>{name}</h1>
            {from}
            <noscript>
                <p class="quiet">
                    "With JavaScript switched on, this page also shows the card in your own unit \
                     and on your own paper, and leads through the steps without a connection."
                </p>
            </noscript>
            <WholeCard recipe tools=Tools::default()/>
        </section>
    }
}

#[cfg(test)]
mod tests {
    use base64::Engine as _;
    use base64::prelude::BASE64_STANDARD;
    use foldwright_api::Shared;
    use foldwright_document::Document;
    use foldwright_engine::card::{Tools, work_out};
    use foldwright_engine::recipe::starters;
    use serde_json::Value;

    use super::{nothing_written, written};
    use crate::sync::merged::object;

    #[test]
    fn every_starter_is_written_out_without_styles_or_scripts() {
        for starter in starters() {
            let mut recipe = starter.recipe.clone();
            recipe.name = "Quay <script>alert(1)</script> & Mole".to_owned();
            recipe
                .notes
                .insert("gather".to_owned(), "<b>two</b> sheets".to_owned());
            let mut document = Document::new(7);
            let _ = document.write(&Value::Null, &object(&recipe));
            let shared = Shared {
                document: BASE64_STANDARD.encode(document.bytes()),
                from: "The \"Harbour\" <i>workshop".to_owned(),
            };
            let page = written(&shared).expect("a starter can be shown");
            assert!(page.title.contains("Quay &lt;script&gt;"), "{}", page.title);
            assert!(page.body.contains("Quay &lt;script&gt;"), "{}", page.body);
            assert!(page.body.contains("&lt;b&gt;two"));
            for never in ["<script", " style=", "<b>two</b>", "<i>"] {
                assert!(!page.body.contains(never), "{never} in {}", starter.id);
            }
            let strip = recipe.notation.with_unit(recipe.value(recipe.base.height));
            assert!(page.body.contains(&strip), "{strip} in {}", starter.id);
            let closed = work_out(&recipe, &Tools::default()).finished;
            let closed = recipe.notation.size(closed.width, closed.height);
            let told = page.body.to_lowercase();
            let told = told.matches(&format!("closed {closed}")).count();
            assert_eq!(told, 1, "closed {closed} in {}", starter.id);
        }
        assert!(nothing_written().body.contains("Nothing is shared here"));
    }
}
