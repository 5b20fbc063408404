//! The app's symbols, drawn with one pen.

use leptos::prelude::*;

/// What a symbol means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Symbol {
    /// All recipes: a card, half open.
    Recipes,
    /// Something new.
    Add,
    /// Settings: a ruler.
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
    /// Keep it as a file.
    Save,
    /// The bench, a card standing on it.
    Bench,
    /// Read it aloud: a loudspeaker.
    Speaker,
    /// How things are set up: sliders.
    Aids,
}

impl Symbol {
    /// The strokes, on a square of 24.
    const fn strokes(self) -> &'static str {
        match self {
            Self::Recipes => "M8 3.5h12.5v14H8zM8 3.5l-4.5 3v14l4.5-3",
            Self::Add => "M12 5v14M5 12h14",
            Self::Settings => "M2.5 8h19v8.5h-19zM6.3 8v3M10.1 8v4.5M13.9 8v3M17.7 8v4.5",
            Self::More => "M5 12h.01M12 12h.01M19 12h.01",
            Self::Close => "M6 6l12 12M18 6 6 18",
            Self::Back => "M15 5l-7 7 7 7",
            Self::Next => "M9 5l7 7-7 7",
            Self::Undo => "M9 5 4 10l5 5M4 10h10a6 6 0 0 1 0 12",
            Self::Redo => "M15 5l5 5-5 5M20 10H10a6 6 0 0 0 0 12",
            Self::Search => "M10.5 4a6.5 6.5 0 1 0 0 13 6.5 6.5 0 0 0 0-13M15.5 15.5 20 20",
            Self::Save => "M12 4v11.5M7 10.5l5 5 5-5M4.5 20h15",
            Self::Speaker => {
                "M4 9.5v5h3.5l5 4.5V5l-5 4.5zM16 9a4 4 0 0 1 0 6M18.5 6.5a8 8 0 0 1 0 11"
            }
            Self::Aids => "M4 7h9.5M18.5 7H20M16 4.5v5M4 17h1.5M10.5 17H20M8 14.5v5",
            Self::Bench => "M2 14.5h20M5 14.5v6M19 14.5v6M6.5 14.5 10 5h8l-3.5 9.5M10 5l3 9.5",
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
