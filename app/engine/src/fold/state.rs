//! The card with some creases folded and the others open.

use super::over::Over;
use crate::laid::{LaidOut, LaidPanel};
use crate::pattern::LineId;
use crate::plane::{
    Area, CardFrame, PieceFrame, Placement, Point, Rect, Region, SAME_WITHIN, Size, bounds,
};
use crate::recipe::PanelId;
use crate::sorted::InOrder as _;

/// Where a panel lies in the card. A mirrored panel shows its side B to the
/// front.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pose {
    /// The panel.
    pub panel: PanelId,
    /// From the flat piece to the card.
    pub place: Placement<PieceFrame, CardFrame>,
    /// The smallest rectangle round the panel.
    pub covers: Rect<CardFrame>,
    /// What the panel covers; nothing where that is all of the rectangle.
    shape: Option<Region<CardFrame>>,
    /// Whether it does not lie flat in this state but stands up, or hangs on
    /// nothing. It covers nothing then, and its place means nothing.
    pub stands: bool,
}

impl Pose {
    pub(super) fn standing(panel: &LaidPanel) -> Self {
        Self {
            panel: panel.id,
            place: Placement::unmoved(),
            covers: Rect::default(),
            shape: Some(Region::default()),
            stands: true,
        }
    }

    pub(super) fn of(panel: &LaidPanel, place: Placement<PieceFrame, CardFrame>) -> Self {
        let outline = place.polygon(&panel.facet.outline);
        let covers = outline.bounds().unwrap_or_default();
        let is_rectangle = panel.facet.holes.is_empty() && outline.as_rectangle().is_some();
        let shape = (!is_rectangle).then(|| {
            let holes = panel.facet.holes.iter();
            holes.fold(Region::from(&outline), |shape, hole| {
                shape.minus(&Region::from(&place.polygon(hole)))
            })
        });
        Self {
            panel: panel.id,
            place,
            covers,
            shape,
            stands: false,
        }
    }

    /// What the panel covers.
    pub fn area(&self) -> Cover {
        Cover {
            within: self.covers,
            shape: self.shape.clone(),
        }
    }

    /// What both it and another one cover.
    pub(super) fn common(&self, other: &Self) -> Option<Cover> {
        let within = self.covers.common(&other.covers)?;
        if self.shape.is_none() && other.shape.is_none() {
            return Some(Cover::whole(within));
        }
        let shape = self.area().region().common(&other.area().region());
        Some(Cover::shaped(shape))
    }

    /// Whether it lies over or under another one, by more than a line.
    pub fn overlaps(&self, other: &Self) -> bool {
        let Some(within) = self.covers.common(&other.covers) else {
            return false;
        };
        let shape = self.common(other).and_then(|both| both.shape);
        shape.is_none_or(|shape| {
            let size = within.size();
            shape.area()
                > Area::from((size.width + size.height).units()) * Area::from(SAME_WITHIN.units())
        })
    }
}

/// Part of the card's plane: a rectangle, or a shape within one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cover {
    /// The smallest rectangle round it.
    pub within: Rect<CardFrame>,
    /// The shape, where it is not the whole rectangle.
    pub shape: Option<Region<CardFrame>>,
}

impl Cover {
    /// The whole of a rectangle.
    pub const fn whole(within: Rect<CardFrame>) -> Self {
        Self {
            within,
            shape: None,
        }
    }

    /// Some shape.
    pub fn shaped(shape: Region<CardFrame>) -> Self {
        Self {
            within: shape.bounds().unwrap_or_default(),
            shape: Some(shape),
        }
    }

    /// Its outlines, anticlockwise, and holes, clockwise.
    pub fn contours(&self) -> Vec<Vec<Point<CardFrame>>> {
        match &self.shape {
            None => vec![self.within.corners().to_vec()],
            Some(shape) => shape.contours().collect(),
        }
    }

    /// As a region.
    pub fn region(&self) -> Region<CardFrame> {
        self.shape
            .clone()
            .unwrap_or_else(|| Region::from(self.within))
    }
}

/// What was opened to come to a state.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Opened {
    /// The creases, by index among all hinges.
    pub hinges: Vec<usize>,
    /// The line of the first of them.
    pub line: LineId,
    /// The panels that turned about them by index among all, the others lying
    /// still; none named where all opened together.
    pub moved: Vec<usize>,
    /// Whether the panels in front went, and not those behind.
    pub towards_front: bool,
    /// Whether all that was still closed opened together, because no crease
    /// could have opened without others.
    pub together: bool,
}

impl Opened {
    /// The panels beside the creases that turned about them.
    pub fn swung(&self, laid: &LaidOut) -> Vec<PanelId> {
        let hinges = self.hinges.iter();
        let hinges = hinges.filter_map(|hinge| laid.hinges.get(*hinge));
        let mut beside: Vec<usize> = hinges
            .flat_map(|hinge| [hinge.left, hinge.right])
            .filter(|panel| self.moved.contains(panel))
            .collect();
        beside.put_in_order();
        beside.dedup();
        let panels = beside.iter().filter_map(|panel| laid.panels.get(*panel));
        panels.map(|panel| panel.id).collect()
    }
}

/// The card with some folds closed and the others open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct State {
    /// What was opened last to come here; `None` while all are closed.
    pub opened: Option<Opened>,
    /// The panels of all pieces, in their order.
    pub poses: Vec<Pose>,
    /// Indices among the panels, from the one at the back to the one in front.
    /// Where panels overlap in a ring the order is only nearly so;
    /// [`Self::is_over`] tells each two apart.
    pub order: Vec<usize>,
    /// Which of each two panels that overlap lies in front.
    pub(super) over: Over,
}

impl State {
    /// Width and height of all panels together.
    pub fn size(&self) -> Size {
        let corners: Vec<_> = self
            .poses
            .iter()
            .filter(|pose| !pose.stands)
            .flat_map(|pose| pose.covers.corners())
            .collect();
        bounds(&corners).map_or_else(Size::default, |all| all.size())
    }

    /// Whether a panel stands up, or hangs on nothing.
    pub fn stands(&self) -> bool {
        self.poses.iter().any(|pose| pose.stands)
    }

    /// Whether a panel lies in front of another, somewhere.
    pub fn is_over(&self, front: usize, back: usize) -> bool {
        self.over.has(front, back)
    }

    /// Whether the order tells of every two panels which is in front.
    pub fn is_in_line(&self) -> bool {
        let mut height = vec![0; self.poses.len()];
        for (layer, panel) in self.order.iter().enumerate() {
            if let Some(height) = height.get_mut(*panel) {
                *height = layer;
            }
        }
        self.over
            .pairs()
            .all(|(front, back)| height.get(front) > height.get(back))
    }

    /// The score opened to come here, where it was one.
    pub fn score(&self) -> Option<usize> {
        self.opened.as_ref()?.line.score()
    }

    /// Whether panels in front were opened to come here.
    pub fn towards_front(&self) -> bool {
        self.opened
            .as_ref()
            .is_none_or(|opened| opened.towards_front)
    }
}

/// Lines panels up from back to front, as near to `wish`, which names each
/// once, as what overlaps allows. In a ring the nearest to the wish goes first.
pub(crate) fn lined_up(
    wish: &[usize],
    over: impl Iterator<Item = (usize, usize)> + Clone,
) -> Vec<usize> {
    let most = wish.iter().max().map_or(0, |most| most + 1);
    let mut wished = vec![None; most];
    for (height, panel) in wish.iter().enumerate() {
        wished[*panel] = Some(height);
    }
    let height = |panel: usize| wished.get(panel).copied().flatten();
    let over = over.filter(|(front, back)| height(*front).is_some() && height(*back).is_some());
    if over
        .clone()
        .all(|(front, back)| height(front) > height(back))
    {
        return wish.to_vec();
    }
    // How many are left behind each, and which lie in front of it.
    let mut hidden = vec![0_usize; most];
    let mut fronts = vec![Vec::new(); most];
    for (front, back) in over {
        hidden[front] += 1;
        fronts[back].push(front);
    }
    let mut left = wish.to_vec();
    let mut order = Vec::with_capacity(left.len());
    while !left.is_empty() {
        let lowest = left.iter().position(|panel| hidden[*panel] == 0);
        let panel = left.remove(lowest.unwrap_or(0));
        for front in &fronts[panel] {
            hidden[*front] -= 1;
        }
        order.push(panel);
    }
    order
}
