//! Messages at the edge of the screen, with what can be done about them.

use std::sync::Arc;

use leptos::either::Either;
use leptos::prelude::*;

use crate::part::{Followed, Icon, Symbol, heard};
use crate::spoken::first;

/// The most notices shown at a time; the oldest plain one makes room.
const MOST: usize = 3;

/// How grave a notice is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// It tells what was done.
    Plain,
    /// Something needs the maker's attention.
    Warning,
}

/// One message.
#[derive(Clone)]
pub struct Notice {
    tone: Tone,
    text: String,
    about: &'static str,
    /// The numbers that followed from what it tells.
    followed: Vec<String>,
    action: Option<Action>,
}

/// What can be done about a message.
#[derive(Clone)]
enum Action {
    // Not a `Callback`: that would go with the dialog that raised the notice.
    Act(&'static str, Arc<dyn Fn() + Send + Sync>),
    Go(&'static str, String),
}

impl Notice {
    /// Tells what was done.
    pub fn plain(text: impl Into<String>) -> Self {
        Self {
            tone: Tone::Plain,
            text: text.into(),
            about: "",
            followed: Vec::new(),
            action: None,
        }
    }

    /// Asks for attention. A later warning about the same thing replaces it.
    pub fn warning(about: &'static str, text: impl Into<String>) -> Self {
        Self {
            tone: Tone::Warning,
            about,
            ..Self::plain(text)
        }
    }

    /// Tells what followed from it, a line each, for those who open that.
    #[must_use]
    pub fn with_followed(self, followed: Vec<String>) -> Self {
        Self { followed, ..self }
    }

    /// Offers something to do about it, after which the notice goes.
    #[must_use]
    pub fn with(mut self, label: &'static str, act: impl Fn() + Send + Sync + 'static) -> Self {
        self.action = Some(Action::Act(label, Arc::new(act)));
        self
    }

    /// Offers a place in the app to go to, after which the notice goes.
    #[must_use]
    pub fn with_link(mut self, label: &'static str, address: String) -> Self {
        self.action = Some(Action::Go(label, address));
        self
    }
}

/// All present messages; found by [`use_context`] everywhere in the app.
#[derive(Clone, Copy)]
pub struct Notices {
    shown: RwSignal<Vec<(u32, Notice)>>,
    next: StoredValue<u32>,
}

impl Notices {
    pub(crate) fn new() -> Self {
        Self {
            shown: RwSignal::default(),
            next: StoredValue::new(0),
        }
    }

    /// Shows a message until it is closed or makes room for others.
    pub fn show(self, notice: Notice) {
        let number = self.next.get_value();
        self.next.set_value(number.wrapping_add(1));
        self.shown.update(|shown| {
            if !notice.about.is_empty() {
                shown.retain(|(_, other)| other.about != notice.about);
            }
            shown.push((number, notice));
            if shown.len() > MOST {
                let plain = shown
                    .iter()
                    .position(|(_, notice)| notice.tone == Tone::Plain);
                shown.remove(plain.unwrap_or(0));
            }
        });
    }

    /// Takes away the warning about something that is well again.
    pub fn settle(self, about: &str) {
        let worried = self
            .shown
            .with_untracked(|shown| shown.iter().any(|(_, notice)| notice.about == about));
        if worried {
            self.shown
                .update(|shown| shown.retain(|(_, notice)| notice.about != about));
        }
    }

    fn close(self, number: u32) {
        self.shown
            .update(|shown| shown.retain(|(other, _)| *other != number));
    }
}

/// Where the messages appear.
#[component]
pub(crate) fn NoticeBoard() -> impl IntoView {
    let notices = expect_context::<Notices>();
    view! {
        <div class="notices" role="region" aria-label=first().messages aria-live="polite">
            <For
                each=move || notices.shown.get()
                key=|(number, _)| *number
                children=move |(number, notice)| view! { <OneNotice notice number/> }
            />
        </div>
    }
}

#[component]
fn OneNotice(notice: Notice, number: u32) -> impl IntoView {
    let notices = expect_context::<Notices>();
    let action = notice.action.map(|action| match action {
        Action::Act(label, act) => Either::Left(view! {
            <button
                class="button quiet"
                on:click=move |_| {
                    notices.close(number);
                    act();
                }
            >
                {label}
            </button>
        }),
        Action::Go(label, address) => Either::Right(view! {
            <a class="button quiet" href=address on:click=move |_| notices.close(number)>
                {label}
            </a>
        }),
    });
    view! {
        <div class="notice" class:warning=notice.tone == Tone::Warning>
            <p>{heard(notice.text)}</p>
            <Followed lines=notice.followed/>
            {action}
            <button
                class="button icon"
                aria-label=first().close_message
                on:click=move |_| notices.close(number)
            >
                <Icon symbol=Symbol::Close/>
            </button>
        </div>
    }
}
