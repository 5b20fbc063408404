//! What is said of classes, of post and of envelopes made for cards, fetched where it
//! is needed.

use foldwright_words::ClassTongue;
use leptos::either::Either;
use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::part::NotHere;
use crate::spoken::class_tongue;

/// What needs these words, once they are here.
#[component]
pub(super) fn InClassWords(
    inside: impl Fn(&'static dyn ClassTongue) -> AnyView + Send + Sync + 'static,
) -> impl IntoView {
    let come = RwSignal::new(None::<Option<&'static dyn ClassTongue>>);
    let fetch = move || {
        come.set(None);
        spawn_local(async move {
            let words = class_tongue().await;
            // The tab may have been left.
            come.try_set(Some(words));
        });
    };
    fetch();
    move || match come.get() {
        None => None,
        Some(Some(say)) => Some(Either::Left(inside(say))),
        Some(None) => Some(Either::Right(view! { <NotHere again=fetch/> })),
    }
}
