//! How long may be what a maker writes.

use super::Recipe;

/// The longest text, in characters: a page of notes. Our own bound.
pub const MOST_TEXT: usize = 4000;

/// The text, or as much of its beginning as is not too long.
pub fn shortened(text: &str) -> &str {
    begun(text, MOST_TEXT)
}

impl Recipe {
    /// Adds something to the end of the recipe's name, which gives way where
    /// both together would be too long.
    pub fn add_to_name(&mut self, end: &str) {
        let end = shortened(end);
        let begun = begun(&self.name, MOST_TEXT - end.chars().count());
        self.name = format!("{begun}{end}");
    }
}

fn begun(text: &str, most: usize) -> &str {
    let end = text.char_indices().nth(most);
    end.map_or(text, |(end, _)| &text[..end])
}
