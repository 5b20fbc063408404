//! The sections of the page whose code comes after it.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::desk::Section;
use crate::part::NotHere;

/// A section, to be shown where it is called.
type Show = fn() -> AnyView;

/// A section whose code the page does not bring along.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Later {
    Paper,
    Print,
    Layers,
    Refit,
    Envelope,
    Scores,
    Class,
}

impl Later {
    /// Those that are likely looked at first come first.
    const ALL: [Self; 7] = [
        Self::Paper,
        Self::Layers,
        Self::Refit,
        Self::Envelope,
        Self::Scores,
        Self::Class,
        Self::Print,
    ];

    /// `None` where the page brings the code of a section along.
    pub(super) const fn of(section: Section) -> Option<Self> {
        Some(match section {
            Section::Panels | Section::Pieces => return None,
            Section::Layers => Self::Layers,
            Section::Paper => Self::Paper,
            Section::Print => Self::Print,
            Section::Scores => Self::Scores,
            Section::Envelope => Self::Envelope,
            Section::Class => Self::Class,
            Section::Refit => Self::Refit,
        })
    }
}

/// The code of a section could not be fetched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Unfetched;

/// A section's code, fetched where it is not here yet.
#[cfg(feature = "csr")]
async fn code(of: Later) -> Result<Show, Unfetched> {
    let code = crate::fetched::section(of).await;
    code.map_err(|_| Unfetched)
}

/// The same where all of it is here.
#[cfg(not(feature = "csr"))]
fn code(of: Later) -> std::future::Ready<Result<Show, Unfetched>> {
    use super::section::{Class, Envelope, Layers, Paper, Print, Refit, Scores};

    let show: Show = match of {
        Later::Paper => || view! { <Paper/> }.into_any(),
        Later::Print => || view! { <Print/> }.into_any(),
        Later::Layers => || view! { <Layers/> }.into_any(),
        Later::Refit => || view! { <Refit/> }.into_any(),
        Later::Envelope => || view! { <Envelope/> }.into_any(),
        Later::Scores => || view! { <Scores/> }.into_any(),
        Later::Class => || view! { <Class/> }.into_any(),
    };
    std::future::ready(Ok(show))
}

/// Those sections, as far as their code is here.
#[derive(Clone, Copy)]
pub(super) struct Coming {
    come: RwSignal<Vec<(Later, Result<Show, Unfetched>)>>,
}

impl Coming {
    /// Fetches all of them, one after the other.
    pub(super) fn begin() -> Self {
        let coming = Self {
            come: RwSignal::new(Vec::new()),
        };
        spawn_local(async move {
            for later in Later::ALL {
                coming.fetch(later).await;
            }
        });
        coming
    }

    async fn fetch(self, later: Later) {
        let code = code(later).await;
        // The page may have been left.
        self.come.try_update(|come| {
            come.retain(|(which, _)| *which != later);
            come.push((later, code));
        });
    }

    /// Its code, or that it could not be fetched; `None` while it comes.
    fn code(self, of: Later) -> Option<Result<Show, Unfetched>> {
        let come = self.come.read();
        let mut come = come.iter().filter(|(which, _)| *which == of);
        come.next().map(|(_, code)| *code)
    }

    /// Whether a section is here; `None` while it comes. Tracks.
    pub(super) fn is_here(self, later: Later) -> Option<bool> {
        self.code(later).map(|code| code.is_ok())
    }

    /// What is shown of a section, which is fetched before all others now.
    pub(super) fn show(self, later: Later) -> AnyView {
        let fetch = move || spawn_local(async move { self.fetch(later).await });
        match untrack(|| self.code(later)) {
            Some(Ok(show)) => show(),
            Some(Err(Unfetched)) => view! { <NotHere again=fetch/> }.into_any(),
            None => {
                fetch();
                ().into_any()
            }
        }
    }
}
