//! The folds to start from: the page of the app, and the same as the server writes
//! it out before the app is there.

use foldwright_engine::recipe::{Does, FoldGroup, Starter, starters};
use leptos::prelude::*;

use crate::part::heard;
use crate::spoken::{first, language, texts};

/// A fold to choose from.
pub(crate) struct Tile {
    pub(crate) view: AnyView,
    /// What it is found by besides what it does.
    pub(crate) told_by: String,
}

/// What is looked for.
#[derive(Clone, Copy)]
struct Sought {
    words: RwSignal<String>,
    does: RwSignal<Vec<Does>>,
}

impl Sought {
    /// Whether a fold told so goes with it. Tracks.
    fn takes(self, starter: &Starter, told: &str) -> bool {
        let does = |does: &Does| starter.does.contains(does);
        self.does.with(|wanted| wanted.iter().all(does))
            && self.words.with(|words| {
                as_found(words)
                    .split_whitespace()
                    .all(|word| told.contains(word))
            })
    }
}

/// A text as it is looked for and found: 12 × 12, 12 x 12 and 12x12 are the same.
fn as_found(text: &str) -> String {
    let text = text.to_lowercase().replace('×', "x");
    text.replace('\u{a0}', " ").replace(" x ", "x")
}

/// The page, with a tile for each fold.
#[component]
pub(crate) fn Folds(tile: fn(&'static Starter) -> Tile) -> impl IntoView {
    let say = language().choosing();
    let sought = Sought {
        words: RwSignal::new(String::new()),
        does: RwSignal::new(Vec::new()),
    };
    let mut all = Vec::new();
    let groups = FoldGroup::ALL.map(|group| {
        let mine = starters().iter().filter(|starter| starter.group == group);
        let (tiles, shown): (Vec<_>, Vec<_>) = mine
            .map(|starter| {
                let Tile { view, told_by } = tile(starter);
                let also = language().also_called(&starter.id);
                let told = as_found(&format!("{told_by} {also} {}", say.group(group)));
                let shown = Memo::new(move |_| sought.takes(starter, &told));
                let view = view! {
                    <li class="tile" hidden=move || !shown.get()>{view}</li>
                };
                (view, shown)
            })
            .unzip();
        all.extend(shown.iter().copied());
        view! {
            <section hidden=move || !shown.iter().any(|shown| shown.get())>
                <h2>{say.group(group)}</h2>
                <ul class="tiles starters">{tiles}</ul>
            </section>
        }
    });
    let count = Memo::new(move |_| all.iter().filter(|shown| shown.get()).count());
    view! {
        <section class="page">
            <h1>{first().choose_fold}</h1>
            <p class="lead">
                {texts().begin.pick_one}
            </p>
            <p class="lead">
                <a href="/list" class="button">{texts().begin.or_type}</a>
            </p>
            <Find sought count/>
            {groups.into_iter().collect_view()}
        </section>
    }
}

/// Narrows the folds down by words and by what they do.
#[component]
fn Find(sought: Sought, count: Memo<usize>) -> impl IntoView {
    let say = language().choosing();
    let chip = move |does: Does| {
        let is_pressed = move || sought.does.with(|wanted| wanted.contains(&does));
        let press = move |_| {
            sought.does.update(|wanted| {
                if wanted.contains(&does) {
                    wanted.retain(|other| *other != does);
                } else {
                    wanted.push(does);
                }
            });
        };
        view! {
            <button
                type="button"
                class="button chip"
                aria-pressed=move || if is_pressed() { "true" } else { "false" }
                on:click=press
            >
                {say.does(does)}
            </button>
        }
    };
    let is_narrowed = move || {
        !sought.does.with(Vec::is_empty) || !sought.words.with(|words| words.trim().is_empty())
    };
    let show_all = move |_| {
        sought.words.set(String::new());
        sought.does.set(Vec::new());
    };
    view! {
        <div class="find-fold" role="search">
            <label class="field">
                <span>{say.find}</span>
                <input
                    type="search"
                    autocomplete="off"
                    maxlength="60"
                    placeholder=say.find_by
                    prop:value=sought.words
                    on:input=move |event| sought.words.set(event_target_value(&event))
                />
            </label>
            <div class="chips" role="group" aria-label=say.what_it_does>
                {Does::ALL.map(chip).into_iter().collect_view()}
            </div>
            <p role="status" class="quiet">
                {move || is_narrowed().then(|| heard(say.so_many(count.get())))}
            </p>
            <Show when=is_narrowed>
                <button type="button" class="button quiet" on:click=show_all>{say.show_all}</button>
            </Show>
        </div>
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

    use super::{FoldWords, Folds, Tile};
    use crate::album::address;
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

    fn tile(starter: &'static Starter) -> Tile {
        // In which unit its reader measures is only known in the browser.
        let recipe = starting(starter, starter.recipe.notation);
        let card = work_out(&recipe, &Tools::default());
        let drawn = svg(&told_apart(&recipe, &card), &starter.id, &address);
        let view = view! {
            <button class="tile-link" data-starter=starter.id.as_str()>
                <span class="tile-figure">
                    <Pictured drawn=drawn class="in-space"/>
                </span>
                <FoldWords name=recipe.name about=recipe.about size="\u{a0}".into_any()/>
            </button>
        }
        .into_any();
        // Nothing is looked for before the app is there.
        let told_by = String::new();
        Tile { view, told_by }
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
