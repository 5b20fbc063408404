//! What reaches past what should hold it.

use crate::length::Length;
use crate::pattern::LineId;
use crate::plane::{Edge, FaceFrame, Rect, Size};
use crate::recipe::{Face, LayerId, PanelId};

/// What reaches past what should hold it, in its card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReachFinding {
    /// What reaches, and how far.
    pub reach: Reach,
    /// The face a layer lies on, perhaps through others; `None` for a panel.
    pub on: Option<Face>,
    /// The size of the closed card with all that sticks out.
    pub finished: Size,
}

/// What reaches past what should hold it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reach {
    /// What reaches.
    pub of: Reacher,
    /// What it reaches past.
    pub past: Past,
    /// Past which edges and by how much; none where it reaches only past a
    /// slanting or shaped edge.
    pub edges: Vec<(Edge, Length)>,
    /// The farthest that any part of it lies past.
    pub most: Length,
    /// The creases it lies across on the open piece; where folds shut over it,
    /// only those.
    pub across: Vec<LineId>,
    /// The largest it can be and fit, held as it is: of a layer as its reader
    /// sees it, of a panel along its strip and across it. `None` where nothing
    /// would be left.
    pub fits: Option<Size>,
    /// Whether what it reaches past is a rectangle; otherwise `fits` is found in
    /// steps of the maker's ruler.
    pub in_rectangle: bool,
    /// Where a layer of that size lies on its face.
    pub at: Option<Rect<FaceFrame>>,
}

/// What reaches past something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Reacher {
    /// A layer. Its edges are named as the reader of its face sees them.
    Layer(LayerId),
    /// A panel of a piece glued in. Its edges are named as they lie in the
    /// closed card, seen from the front.
    Panel(PanelId),
}

/// What is reached past, the gravest last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Past {
    /// The panel that carries a layer, while the closed card holds it.
    Panel,
    /// The closed card: it sticks out.
    Card,
    /// A fold that shuts over it, or panels it would have to pass through for
    /// the card to close.
    Fold,
}
