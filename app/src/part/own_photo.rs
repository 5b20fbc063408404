//! A photograph of what somebody made: added, looked at, replaced and removed.

use foldwright_engine::paper::PhotoId;
use foldwright_engine::recipe::{Recipe, RunId};
use foldwright_photo::LARGEST;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::taking::canvas::file;
use super::taking::{Taken, Taking, keep_file};
use super::{Edited, Sheet};
use crate::album::{NotKept, address};
use crate::notice::{Notice, Notices};
use crate::spoken::{first, language};

/// What a photograph is of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum PhotoOf {
    /// A step, by its lasting name.
    Step(String),
    /// Cards that were made.
    Run(RunId),
}

impl PhotoOf {
    fn label(&self) -> &'static str {
        let texts = language().pictures();
        match self {
            Self::Step(_) => texts.of_step,
            Self::Run(_) => texts.of_run,
        }
    }

    /// How it is best taken.
    fn about(&self) -> &'static str {
        let texts = language().pictures();
        match self {
            Self::Step(_) => texts.about_step,
            Self::Run(_) => texts.about_run,
        }
    }

    fn read(&self, recipe: &Recipe) -> Option<PhotoId> {
        match self {
            Self::Step(step) => recipe.photos.get(step).copied(),
            Self::Run(run) => recipe.run(*run)?.photo,
        }
    }

    fn put(&self, recipe: &mut Recipe, photo: Option<PhotoId>) {
        match (self, photo) {
            (Self::Step(step), Some(photo)) => drop(recipe.photos.insert(step.clone(), photo)),
            (Self::Step(step), None) => drop(recipe.photos.remove(step)),
            (Self::Run(run), photo) => recipe.picture_run(*run, photo),
        }
    }
}

/// The photograph, where there is one, and what can be done with it. What it replaces,
/// and what is removed, can be had back.
#[component]
pub(crate) fn OwnPhoto(
    /// What it is of; of nothing there is none.
    of: Memo<Option<PhotoOf>>,
    /// In which recipe.
    edited: Edited,
) -> impl IntoView {
    let texts = language().pictures();
    let notices = expect_context::<Notices>();
    let label = move || of.with(|of| of.as_ref().map_or("", PhotoOf::label));
    let photo = Memo::new(move |_| {
        of.with(|of| {
            let of = of.as_ref()?;
            edited.recipe.with(|recipe| of.read(recipe))
        })
    });
    let put = move |new: Option<PhotoId>| {
        let Some(of) = of.get_untracked() else {
            return;
        };
        let before = photo.get_untracked();
        edited.history.edit(|recipe| of.put(recipe, new));
        if before.is_none() || before == new {
            return;
        }
        let words = match new {
            Some(_) => texts.is_another,
            None => texts.is_off,
        };
        let undo = edited.later(move |recipe| {
            // Another may have come meanwhile, which stays.
            if of.read(recipe) == new {
                of.put(recipe, before);
            }
        });
        notices.show(Notice::plain(words).with(first().undo, undo));
    };
    let [asked, large, keeping] = [(); 3].map(|()| RwSignal::new(false));
    let refused = RwSignal::new(None::<&'static str>);
    let take = Callback::new(move |taken: Taken| {
        refused.set(None);
        keeping.set(true);
        spawn_local(async move {
            let kept = match file(&taken.canvas).await {
                Some(file) => keep_file(&file).await.map_err(NotKept::words),
                None => Err(texts.not_read),
            };
            // What asked for it may have been closed meanwhile.
            if keeping.try_set(false).is_some() || !asked.get_untracked() {
                return;
            }
            match kept {
                Ok(photo) => {
                    put(Some(photo));
                    asked.set(false);
                }
                Err(why) => refused.set(Some(why)),
            }
        });
    });
    let ask = move |_| {
        refused.set(None);
        asked.set(true);
    };
    let add = NodeRef::<html::Button>::new();
    let take_off = move |_| {
        put(None);
        // Its button goes, and the focus must not be lost with it.
        if let Some(add) = add.get_untracked() {
            // Fails only for an element that is no longer in the page.
            let _ = add.focus();
        }
    };
    view! {
        <div class="own-photo" role="group" aria-label=label>
            <p class="own-photo-label">{label}</p>
            <Shown photo label=Signal::derive(label) large/>
            <div class="actions">
                <button type="button" class="button" node_ref=add aria-haspopup="dialog" on:click=ask>
                    {move || if photo.get().is_some() { texts.another } else { texts.add }}
                </button>
                <Show when=move || photo.get().is_some()>
                    <button type="button" class="button quiet" on:click=take_off>{texts.take_off}</button>
                </Show>
            </div>
        </div>
        <Sheet open=asked title=Signal::derive(move || label().to_owned())>
            <Taking about=of.with(|of| of.as_ref().map_or("", PhotoOf::about)) most=LARGEST refused take/>
            <p class="quiet" role="status">{move || keeping.get().then_some(texts.keeping)}</p>
        </Sheet>
        <Sheet open=large title=Signal::derive(move || label().to_owned())>
            {move || {
                let from = photo.get().and_then(address);
                from.map(|from| view! { <img class="photo-large" src=from alt=label/> })
            }}
        </Sheet>
    }
}

/// The photograph as far as it is here, and the way to see it large.
#[component]
fn Shown(
    photo: Memo<Option<PhotoId>>,
    label: Signal<&'static str>,
    large: RwSignal<bool>,
) -> impl IntoView {
    let texts = language().pictures();
    move || {
        let seen = address(photo.get()?).map(|from| {
            view! {
                <button
                    type="button"
                    class="own-photo-look"
                    aria-label=texts.look
                    aria-haspopup="dialog"
                    on:click=move |_| large.set(true)
                >
                    <img src=from alt=label.get() draggable="false"/>
                </button>
            }
        });
        let missing = seen.is_none();
        let missing =
            missing.then(|| view! { <p class="quiet own-photo-missing">{texts.not_here}</p> });
        Some(view! { {seen} {missing} })
    }
}
