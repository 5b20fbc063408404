//! A photograph of what somebody made: added, looked at, replaced and removed.

use foldwright_engine::paper::PhotoId;
use foldwright_photo::LARGEST;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::Sheet;
use super::taking::canvas::file;
use super::taking::{Taken, Taking, keep_file};
use crate::album::{NotKept, address};
use crate::spoken::language;

/// The photograph, where there is one, and what can be done with it.
#[component]
pub(crate) fn OwnPhoto(
    /// What it is called.
    label: &'static str,
    /// How it is best taken.
    about: &'static str,
    /// Which it is.
    photo: Memo<Option<PhotoId>>,
    /// Puts another one in its place, or none.
    put: Callback<Option<PhotoId>>,
) -> impl IntoView {
    let texts = language().pictures();
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
                    put.run(Some(photo));
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
        put.run(None);
        // Its button goes, and the focus must not be lost with it.
        if let Some(add) = add.get_untracked() {
            // Fails only for an element that is no longer in the page.
            let _ = add.focus();
        }
    };
    let shown = move || {
        let seen = address(photo.get()?).map(|from| {
            view! {
                <button
                    type="button"
                    class="own-photo-look"
                    aria-label=texts.look
                    aria-haspopup="dialog"
                    on:click=move |_| large.set(true)
                >
                    <img src=from alt=label draggable="false"/>
                </button>
            }
        });
        let missing = seen.is_none();
        let missing =
            missing.then(|| view! { <p class="quiet own-photo-missing">{texts.not_here}</p> });
        Some(view! { {seen} {missing} })
    };
    view! {
        <div class="own-photo" role="group" aria-label=label>
            <p class="own-photo-label">{label}</p>
            {shown}
            <div class="actions">
                <button type="button" class="button" node_ref=add aria-haspopup="dialog" on:click=ask>
                    {move || if photo.get().is_some() { texts.another } else { texts.add }}
                </button>
                <Show when=move || photo.get().is_some()>
                    <button type="button" class="button quiet" on:click=take_off>{texts.take_off}</button>
                </Show>
            </div>
        </div>
        <Sheet open=asked title=label>
            <Taking about most=LARGEST refused take/>
            <p class="quiet" role="status">{move || keeping.get().then_some(texts.keeping)}</p>
        </Sheet>
        <Sheet open=large title=label>
            {move || {
                let from = photo.get().and_then(address);
                from.map(|from| view! { <img class="photo-large" src=from alt=label/> })
            }}
        </Sheet>
    }
}
