//! How many parts of a kind a recipe can have.

use super::{Recipe, Strip};

/// A kind of part, of which a recipe can have only so many.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names say which")]
pub enum Parts {
    Measures,
    Relations,
    /// Measures in one relation.
    Terms,
    Papers,
    Panels,
    /// The maker's answers about what lies on top.
    Answers,
    Lines,
    /// Windows, corners and edges.
    Cutouts,
    Pieces,
    Joins,
    Layers,
    /// What is not paper.
    Supplies,
    /// Faces whose print must be upright.
    Upright,
    /// What stands beside the steps, written or photographed, and runs in the log: so
    /// many of each.
    Notes,
    /// Steps of the maker's own.
    OwnSteps,
    /// Steps whose order the maker chose.
    Ordered,
}

/// So many of anything were allowed before the limits went by what they are
/// limits of. A recipe kept from then stays what it is.
const MOST_BEFORE: usize = 500;

/// So many devices may each add as much as one can, before they hear of each
/// other. Our own bound.
const TOGETHER: usize = 16;

impl Parts {
    /// Every kind.
    pub const ALL: [Self; 16] = [
        Self::Measures,
        Self::Relations,
        Self::Terms,
        Self::Papers,
        Self::Panels,
        Self::Answers,
        Self::Lines,
        Self::Cutouts,
        Self::Pieces,
        Self::Joins,
        Self::Layers,
        Self::Supplies,
        Self::Upright,
        Self::Notes,
        Self::OwnSteps,
        Self::Ordered,
    ];

    /// The most a recipe can have. Our own bounds: each by itself is more than a
    /// person would fold. How long a change of cards as large as panels and
    /// layers may be takes is measured (`figures edit_large_ms`).
    pub const fn most(self) -> usize {
        match self {
            Self::Measures => 1500,
            Self::Relations => 400,
            Self::Layers => 200,
            Self::Terms | Self::Panels | Self::Lines => 120,
            Self::Papers
            | Self::Answers
            | Self::Cutouts
            | Self::Supplies
            | Self::Upright
            | Self::OwnSteps => 60,
            Self::Pieces => 24,
            Self::Joins => 48,
            Self::Notes => 500,
            Self::Ordered => 2000,
        }
    }

    /// The most in a recipe that is kept already: none is lost for a limit that
    /// came later, or that several have come to together.
    pub(super) fn most_kept(self) -> usize {
        self.most().saturating_mul(TOGETHER).max(MOST_BEFORE)
    }

    /// How many a recipe has.
    pub fn of(self, recipe: &Recipe) -> usize {
        let count = |of: fn(&Strip) -> usize| recipe.strips().map(|(_, strip)| of(strip)).sum();
        match self {
            Self::Measures => recipe.measures.len(),
            Self::Relations => recipe.relations.len(),
            Self::Terms => {
                let relations = recipe.relations.iter();
                let terms = relations.map(|held| held.left.len() + held.right.len());
                terms.max().unwrap_or(0)
            }
            Self::Papers => recipe.stocks.len(),
            Self::Panels => count(|strip| strip.panels.len()),
            Self::Answers => recipe.base.on_top.len(),
            Self::Lines => count(|strip| strip.lines.len()),
            Self::Cutouts => count(|strip| strip.cutouts.len()),
            Self::Pieces => recipe.pieces.len(),
            Self::Joins => recipe.pieces.iter().map(|piece| piece.joins.len()).sum(),
            Self::Layers => recipe.layers.len(),
            Self::Supplies => recipe.supplies.len(),
            Self::Upright => recipe.upright.len(),
            Self::Notes => {
                let of_each = [recipe.notes.len(), recipe.photos.len(), recipe.runs.len()];
                of_each.into_iter().max().unwrap_or(0)
            }
            Self::OwnSteps => recipe.own_steps.len(),
            Self::Ordered => recipe.order.len(),
        }
    }
}
