//! A shared recipe as a page that needs no script.

use foldwright_api::Shared;
use foldwright_engine::card::Tools;
use foldwright_engine::recipe::Recipe;
use foldwright_print::Paper;
use foldwright_words::Language;
use leptos::prelude::*;

use super::card::WholeCard;
use super::read::recipe;
use crate::download::Download;
use crate::spoken::{speak, texts};
use crate::written::{Written, page};

/// The most panels and the most layers of a card that is written out, and the
/// most bytes of its page. Our own bounds: a card made in the app has no more
/// panels or layers, and one of half as many panels again takes seven times as
/// long.
const MOST_PANELS: usize = 200;
const MOST_LAYERS: usize = 200;
pub(super) const MOST_BYTES: usize = 16 * 1024 * 1024;

/// Whether a card is too large to be written out.
pub(super) fn is_too_large(recipe: &Recipe) -> bool {
    let strips = recipe.strips().map(|(_, strip)| strip.panels.len());
    strips.sum::<usize>() > MOST_PANELS || recipe.layers.len() > MOST_LAYERS
}

/// The page of what a link opens, in a language, for a reader who probably prints
/// on that paper; `None` where that is no recipe this Foldwright can show.
pub fn written(shared: &Shared, language: Language, paper: Paper) -> Option<Written> {
    speak(language);
    let recipe = recipe(shared).ok()?;
    let name = recipe.name.clone();
    if is_too_large(&recipe) {
        return Some(too_large(&name));
    }
    let from = shared.from.clone();
    let whole = page(&name, move || {
        view! { <Readable recipe from paper/> }.into_any()
    });
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
                    {texts().shared.too_large_here}
                </p>
                <p><a class="button primary" href="/">{texts().shared.to_foldwright}</a></p>
            </section>
        }
        .into_any()
    })
}

/// The page of a link that opens nothing, whether it never did or no longer
/// does.
pub fn nothing_written(language: Language) -> Written {
    speak(language);
    told(texts().shared.nothing_shared, texts().shared.not_opened)
}

/// The page where it cannot be told what a link opens.
pub fn trouble_written(language: Language) -> Written {
    speak(language);
    told(texts().shared.not_now, texts().shared.cannot_read_now)
}

fn told(title: &'static str, words: &'static str) -> Written {
    page(title, move || {
        view! {
            <section class="page message">
                <h1>{title}</h1>
                <p>{words}</p>
                <p><a class="button primary" href="/">{texts().shared.to_foldwright}</a></p>
            </section>
        }
        .into_any()
    })
}

#[component]
fn Readable(recipe: Recipe, from: String, paper: Paper) -> impl IntoView {
    let files = Download::all_for(paper).map(|file| {
        // Who asks for the same address with this gets the file.
        let there = format!("?{}", file.query());
        let label = file.label();
        view! { <a class="button" href=there type=file.media_type() rel="nofollow">{label}</a> }
    });
    let files = files.collect_view();
    let name = recipe.name.clone();
    let from = (!from.is_empty()).then(|| {
        view! { <p class="quiet">{texts().shared.shared_by(&from)}</p> }
    });
    view! {
        <section class="page shared">
            <h1>{name}</h1>
            {from}
            <noscript>
                <p class="quiet">
                    {texts().shared.with_javascript}
                </p>
            </noscript>
            <p class="shared-ways">{files}</p>
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
    use foldwright_engine::length::Length;
    use foldwright_engine::recipe::{Takes, starters};
    use foldwright_print::Paper;
    use foldwright_words::Language;
    use serde_json::Value;

    use super::{nothing_written, trouble_written, written};
    use crate::sync::merged::object;

    /// The text of a page without its markup.
    fn seen(html: &str) -> String {
        let mut is_markup = false;
        let mut text = String::new();
        for letter in html.chars() {
            match letter {
                '<' => is_markup = true,
                '>' => is_markup = false,
                letter if !is_markup => text.push(letter),
                _ => {}
            }
        }
        text
    }

    #[test]
    fn every_starter_is_written_out_without_styles_or_scripts() {
        for starter in starters() {
            let mut recipe = starter.recipe.clone();
            recipe.name = "Quay <script>alert(1)</script> & Mole".to_owned();
            recipe
                .notes
                .insert("gather".to_owned(), "<b>two</b> sheets".to_owned());
            let added = recipe.add_supply("pearl gems", Takes::Count(3));
            added.expect("there is room");
            let added = recipe.add_own_step("Ink <i>the</i> edges", false);
            added.expect("there is room");
            let mut document = Document::new(7);
            let _ = document.write(&Value::Null, &object(&recipe));
            let shared = Shared {
                document: BASE64_STANDARD.encode(document.bytes()),
                from: "The \"Harbour\" <i>workshop".to_owned(),
            };
            let page =
                written(&shared, Language::English, Paper::A4).expect("a starter can be shown");
            assert!(page.title.contains("Quay &lt;script&gt;"), "{}", page.title);
            assert!(page.body.contains("Quay &lt;script&gt;"), "{}", page.body);
            assert!(page.body.contains("&lt;b&gt;two"));
            for never in ["<script", " style=", "<b>two</b>", "<i>"] {
                assert!(!page.body.contains(never), "{never} in {}", starter.id);
            }
            let strip = recipe.notation.with_unit(recipe.value(recipe.base.height));
            let seen = seen(&page.body);
            assert!(seen.contains(&strip), "{strip} in {}", starter.id);
            assert!(seen.contains("pearl gems3"), "{}", starter.id);
            assert!(
                seen.contains("Your own step: Ink &lt;i&gt;the"),
                "{}",
                starter.id
            );
            let closed = work_out(&recipe, &Tools::default()).finished;
            let closed = recipe.notation.size(closed.width, closed.height);
            let told = seen.to_lowercase();
            let told = told.matches(&format!("closed {closed}")).count();
            assert_eq!(told, 1, "closed {closed} in {}", starter.id);
        }
        let nothing = nothing_written(Language::English);
        assert!(nothing.body.contains("Nothing is shared here"));
    }

    /// A length between the marks is a button that needs no script: it opens the
    /// exact length beside it, and each opens its own.
    #[test]
    fn rounded_lengths_open_the_exact_ones() {
        let mut recipe = starters()[0].recipe.clone();
        let width = recipe.base.panels[0].width;
        // 3 3/4 in is 95.25 mm.
        recipe
            .set(width, Length::mm(95))
            .expect("the strip has room for it");
        let mut document = Document::new(7);
        let _ = document.write(&Value::Null, &object(&recipe));
        let shared = Shared {
            document: BASE64_STANDARD.encode(document.bytes()),
            from: String::new(),
        };
        let page = written(&shared, Language::English, Paper::A4).expect("a starter can be shown");
        assert!(page.body.contains(">3¾⁻\u{a0}in<"), "{}", page.body);
        assert!(
            page.body
                .contains("a little under three and three quarters inches")
        );
        assert!(seen(&page.body).contains("exactly 95\u{a0}mm"));
        let opens: Vec<_> = page.body.split("popovertarget=\"").skip(1).collect();
        assert!(opens.len() > 2, "{}", opens.len());
        for (number, button) in opens.into_iter().enumerate() {
            assert!(button.starts_with(&format!("exact-{number}\"")));
            let id = format!("id=\"exact-{number}\"");
            assert_eq!(page.body.matches(&id).count(), 1, "{id}");
        }
        for mark in ['\u{FFF9}', '\u{FFFA}', '\u{FFFB}'] {
            assert!(!page.body.contains(mark));
        }
    }

    /// What the program says is in the language asked for, what the maker wrote is
    /// as they wrote it.
    #[test]
    fn a_page_is_written_in_the_language_asked_for() {
        let mut recipe = starters()[0].recipe.clone();
        recipe.name = "Quay wall".to_owned();
        recipe
            .notes
            .insert("gather".to_owned(), "Grey card.".to_owned());
        let mut document = Document::new(7);
        let _ = document.write(&Value::Null, &object(&recipe));
        let shared = Shared {
            document: BASE64_STANDARD.encode(document.bytes()),
            from: "Harbour".to_owned(),
        };
        let [english, german] = Language::ALL.map(|language| {
            let page = written(&shared, language, Paper::A4).expect("a starter can be shown");
            assert!(page.title.contains("Quay wall") && page.body.contains("Grey card."));
            page.body
        });
        assert!(english.contains("Step by step") && english.contains("Shared by Harbour."));
        assert!(german.contains("Schritt für Schritt") && german.contains("Geteilt von Harbour."));
        for word in ["Step by step", "Shared by", "What to cut", "Weight"] {
            assert!(!german.contains(word), "{word}");
        }
        // What is on the reader's paper comes first.
        let letter = written(&shared, Language::English, Paper::Letter);
        let letter = letter.expect("a starter can be shown").body;
        for (page, first, then) in [(&english, "a4", "letter"), (&letter, "letter", "a4")] {
            for kind in ["sheet", "template"] {
                let at = |name| page.find(&format!("href=\"?{kind}={name}\""));
                assert!(at(first).is_some() && at(first) < at(then), "{first}");
            }
        }
        assert!(english.contains("Sheet to print (A4)"));
        assert!(german.contains("Blatt zum Drucken (Letter)"));
        // The next one is not written in the language of the last.
        assert_eq!(
            written(&shared, Language::English, Paper::A4).map(|page| page.body),
            Some(english)
        );
        for language in Language::ALL {
            let nothing = nothing_written(language);
            let trouble = trouble_written(language);
            assert_ne!(nothing, trouble);
        }
        assert_ne!(
            nothing_written(Language::English),
            nothing_written(Language::German)
        );
    }
}
