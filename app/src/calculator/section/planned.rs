//! The plan of cuts: what it takes, what is known of better ones, and how long they are
//! looked for.

use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;

use super::needed::Needed;
use crate::planning::{MOST_ROUNDS, Seen};

/// How far planning has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stands {
    Looking,
    /// It can go on.
    Resting,
    Ended,
}

impl Stands {
    fn of(seen: &Seen) -> Self {
        if !seen.is_last {
            Self::Looking
        } else if seen.is_done || seen.looked >= MOST_ROUNDS {
            Self::Ended
        } else {
            Self::Resting
        }
    }
}

/// What the plan that is shown takes, while better ones are looked for and after.
#[component]
pub(super) fn Planned(say: &'static dyn ClassTongue, needed: Needed) -> impl IntoView {
    let takes = Memo::new(move |_| needed.seen.with(|seen| seen.as_ref()?.takes));
    let stands = Memo::new(move |_| needed.seen.with(|seen| seen.as_ref().map(Stands::of)));
    let told = move || {
        let takes = takes.get()?;
        let words = OfClass::Planned {
            sheets: takes.sheets,
            cuts: takes.cuts,
            settings: takes.settings,
        };
        let bound = if takes.at_least < takes.sheets {
            needed.told(say, OfClass::AtLeast(takes.at_least))
        } else {
            say.texts().no_fewer_sheets.to_owned()
        };
        Some(view! { <p class="plan-takes">{needed.told(say, words)} " " {bound}</p> })
    };
    let state = move || match stands.get()? {
        Stands::Looking => Some(say.texts().looking),
        Stands::Resting => None,
        Stands::Ended => Some(say.texts().no_better),
    };
    // One button in one place, so that it keeps the focus.
    let act = move || match stands.get()? {
        Stands::Looking => Some(say.texts().keep_plan),
        Stands::Resting => Some(say.texts().look_longer),
        Stands::Ended => None,
    };
    let press = move |_| match stands.get_untracked() {
        Some(Stands::Looking) => needed.keep_plan(),
        Some(Stands::Resting) => needed.look_longer(),
        Some(Stands::Ended) | None => {}
    };
    view! {
        <div class="plan" data-looking=move || (stands.get() == Some(Stands::Looking)).to_string()>
            {told}
            <p class="quiet" role="status">{state}</p>
            <div class="actions">
                <Show when=move || act().is_some()>
                    <button type="button" class="button" on:click=press>{act}</button>
                </Show>
            </div>
        </div>
    }
}
