//! The app's symbols, drawn with one pen.

use leptos::prelude::*;

/// What a symbol means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Symbol {
    /// All recipes.
    Recipes,
    /// Something new.
    Add,
    /// Settings.
    Settings,
    /// More to do with this.
    More,
    /// Close or take away.
    Close,
    /// Back to where one came from.
    Back,
    /// On to the next.
    Next,
    /// Take a change back.
    Undo,
    /// Make it again.
    Redo,
    /// Look for something.
    Search,
    /// The bench.
    Bench,
}

impl Symbol {
    /// The strokes, on a square of 24.
    const fn strokes(self) -> &'static str {
        match self {
            Self::Recipes => "M4 6.5 9 4v13.5L4 20zM9 4l6 2.5V20l-6-2.5M15 6.5 20 4v13.5L15 20",
            Self::Add => "M12 5v14M5 12h14",
            Self::Settings => {
                "M4 7h9M17 7h3M4 17h3M11 17h9M15 4.8a2.2 2.2 0 1 0 0 4.4 2.2 2.2 0 0 0 0-4.4M9 \
                 14.8a2.2 2.2 0 1 0 0 4.4 2.2 2.2 0 0 0 0-4.4"
            }
            Self::More => "M5 12h.01M12 12h.01M19 12h.01",
            Self::Close => "M6 6l12 12M18 6 6 18",
            Self::Back => "M15 5l-7 7 7 7",
            Self::Next => "M9 5l7 7-7 7",
            Self::Undo => "M9 5 4 10l5 5M4 10h10a6 6 0 0 1 0 12",
            Self::Redo => "M15 5l5 5-5 5M20 10H10a6 6 0 0 0 0 12",
            Self::Search => "M10.5 4a6.5 6.5 0 1 0 0 13 6.5 6.5 0 0 0 0-13M15.5 15.5 20 20",
            Self::Bench => "M3 9h18M5 9v10M19 9v10M8 5h8v4H8z",
        }
    }
}

/// A symbol beside or instead of words. It says nothing by itself: the button
/// or link around it carries the name.
#[component]
pub fn Icon(
    /// Which one.
    symbol: Symbol,
) -> impl IntoView {
    view! {
        <svg class="symbol" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
            <path d=symbol.strokes()></path>
        </svg>
    }
}
