//! The folds to start from: the page of the app, and the same as the server writes
//! it out before the app is there.

use foldwright_engine::recipe::{Starter, starters};
use leptos::prelude::*;

use crate::spoken::{first, texts};

/// The page, with a tile for each fold.
#[component]
pub(crate) fn Folds(tile: fn(&'static Starter) -> AnyView) -> impl IntoView {
    let tiles = starters()
        .iter()
        .map(|starter| view! { <li class="tile">{tile(starter)}</li> });
    view! {
        <section class="page">
            <h1>{first().choose_fold}</h1>
            <p class="lead">
                {texts().begin.pick_one}
            </p>
            <p class="lead">
                <a href="/list" class="button">{texts().begin.or_type}</a>
            </p>
            <ul class="tiles starters">{tiles.collect_view()}</ul>
        </section>
    }
}

/// The words of a tile.
#[component]
pub(crate) fn FoldWords(
    name: String,
    about: String,
    /// Empty where it is not known yet, so that the tile is as high as it will be.
    size: AnyView,
) -> impl IntoView {
    view! {
        <span class="tile-text">
            <span class="tile-name">{name}</span>
            <span class="tile-about">{about}</span>
            <span class="tile-size">{size}</span>
        </span>
    }
}

#[cfg(feature = "ssr")]
pub use before::folds_written;

#[cfg(feature = "ssr")]
mod before {
    use foldwright_engine::card::{Tools, work_out};
    use foldwright_engine::draw::{svg, told_apart};
    use foldwright_engine::recipe::Starter;
    use foldwright_words::Language;
    use leptos::prelude::*;

    use super::{FoldWords, Folds};
    use crate::part::Pictured;
    use crate::spoken::{speak, starting, texts};
    use crate::written::{Written, page};

    /// The page of the folds in a language. What is tapped on it before the app is
    /// there is handed on to it.
    pub fn folds_written(language: Language) -> Written {
        speak(language);
        page(texts().list.new_recipe, || {
            view! { <div data-hands-on=""><Folds tile/></div> }.into_any()
        })
    }

    fn tile(starter: &'static Starter) -> AnyView {
        // In which unit its reader measures is only known in the browser.
        let recipe = starting(starter, starter.recipe.notation);
        let card = work_out(&recipe, &Tools::default());
        let drawn = svg(&told_apart(&recipe, &card), &starter.id);
        view! {
            <button class="tile-link" data-starter=starter.id.as_str()>
                <span class="tile-figure">
                    <Pictured drawn=drawn class="in-space"/>
                </span>
                <FoldWords name=recipe.name about=recipe.about size="\u{a0}".into_any()/>
            </button>
        }
        .into_any()
    }

    #[cfg(test)]
    mod tests {
        use foldwright_engine::recipe::starters;
        use foldwright_words::Language;

        use super::folds_written;

        #[test]
        fn every_fold_is_written_out_with_its_picture() {
            for language in Language::ALL {
                let page = folds_written(language);
                let count = |what: &str| page.body.matches(what).count();
                assert_eq!(count("data-starter="), starters().len());
                assert_eq!(count("class=\"in-space\""), starters().len());
                for never in ["<script", "style=\""] {
                    assert!(!page.body.contains(never), "{never}");
                }
            }
        }
    }
}
