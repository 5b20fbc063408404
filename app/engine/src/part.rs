//! What is cut from a sheet, and its lasting name.

use crate::recipe::{LayerId, PieceId, Recipe};
use crate::words::piece_name;

/// Something cut from a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// The base, or a piece glued in.
    Strip(Option<PieceId>),
    /// A layer.
    Layer(LayerId),
}

impl Part {
    /// What the maker calls it.
    pub fn name(self, recipe: &Recipe) -> String {
        match self {
            Self::Strip(of) => piece_name(recipe, of).to_owned(),
            Self::Layer(id) => {
                let layer = recipe.layer(id);
                layer
                    .map_or("a missing layer", |layer| &layer.name)
                    .to_owned()
            }
        }
    }

    /// The same within a sentence: "the mat". A name that brings its own
    /// article or begins with a capital or a number stays as it is.
    pub fn named(self, recipe: &Recipe) -> String {
        let name = self.name(recipe);
        let article = ["the ", "a ", "an "].iter().any(|it| name.starts_with(it));
        if article || !name.starts_with(char::is_lowercase) {
            name
        } else {
            format!("the {name}")
        }
    }

    /// The lasting name of the step it is cut in.
    pub fn cut_key(self) -> String {
        self.key("cut")
    }

    /// The lasting name of the step it is trimmed in once it is cut.
    pub fn trim_key(self) -> String {
        self.key("trim")
    }

    fn key(self, what: &str) -> String {
        match self {
            Self::Strip(None) => format!("{what}-strip"),
            Self::Strip(Some(id)) => format!("{what}-piece-{}", id.0),
            Self::Layer(id) => format!("{what}-layer-{}", id.0),
        }
    }
}

/// Everything cut from a sheet, in the order of the work.
pub fn parts(recipe: &Recipe) -> impl Iterator<Item = Part> + '_ {
    let strips = recipe.strips().map(|(of, _)| Part::Strip(of));
    strips.chain(recipe.layers.iter().map(|layer| Part::Layer(layer.id)))
}
