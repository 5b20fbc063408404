//! What is cut out of the strip: windows in its panels, rounded corners, shaped
//! edges.

use serde::{Deserialize, Serialize};

use super::{Bend, MeasureId, Outline, PanelId, Placing, Recipe, Relation, Strip};
use crate::length::Length;
use crate::plane::{PieceFrame, Point, Rect, Size};

/// Names something cut out for as long as it exists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct CutoutId(pub u32);

/// Something cut out of a panel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cutout {
    /// Its lasting name.
    pub id: CutoutId,
    /// What the maker calls it.
    pub name: String,
    /// The panel it is cut out of, by whose left edge and foot it is measured
    /// on the flat strip, seen from side A.
    pub panel: PanelId,
    /// What is cut.
    pub cut: Cut,
}

/// What is cut out of a panel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cut {
    /// A window.
    Window(Window),
    /// Corners at the strip's end, rounded.
    Corners {
        /// The radius.
        radius: MeasureId,
        /// Which of the two.
        which: Which,
    },
    /// An edge that is not straight.
    Edge {
        /// Which edge.
        side: EdgeSide,
        /// How it runs.
        form: EdgeForm,
        /// How far it goes in at most from where it was.
        depth: MeasureId,
    },
}

/// A window in a panel, as a rectangle with an outline in it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Window {
    /// Its width along the strip.
    pub width: MeasureId,
    /// Its height across the strip.
    pub height: MeasureId,
    /// How far it begins from the left edge of the panel.
    pub left: MeasureId,
    /// How far it begins above the lower edge.
    pub bottom: MeasureId,
    /// How the maker places it.
    pub place: Placing,
    /// Its outline.
    #[serde(default, skip_serializing_if = "Outline::is_straight")]
    pub outline: Outline,
}

/// Which corners of an end are rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Which {
    /// The upper and the lower one.
    #[default]
    Both,
    /// The upper one.
    Upper,
    /// The lower one.
    Lower,
}

/// An edge of a panel, on the flat strip seen from side A.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[expect(missing_docs, reason = "the names are the four edges")]
pub enum EdgeSide {
    Left,
    Right,
    Top,
    Bottom,
}

/// How an edge runs that is not straight.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum EdgeForm {
    /// In one arc, farthest out in its middle.
    Arch,
    /// In one arc, farthest in at its middle.
    Hollow,
    /// In so many arcs, each farthest out in its middle.
    Scallops(u8),
    /// To so many points.
    Points(u8),
    /// Corner by corner from the lower or left end to the other: `x` along the
    /// edge, and `y` inwards in thousandths of the depth.
    Cut(Vec<Bend>),
}

/// The most scallops or points of an edge. Our own bound.
pub const MOST_WAVES: u8 = 30;

impl Cut {
    /// The measures it is drawn by.
    pub(crate) fn measures(&self) -> impl Iterator<Item = MeasureId> + use<> {
        let (own, border) = match self {
            Self::Window(window) => (
                vec![window.width, window.height, window.left, window.bottom],
                window.place.border(),
            ),
            Self::Corners { radius, .. } => (vec![*radius], None),
            Self::Edge { depth, .. } => (vec![*depth], None),
        };
        let outline = self.window().and_then(|window| window.outline.measure());
        own.into_iter().chain(border).chain(outline)
    }

    /// The measures that can't be nothing or less.
    pub(super) fn sizes(&self) -> impl Iterator<Item = MeasureId> + use<> {
        let own = match self {
            Self::Window(window) => [Some(window.width), Some(window.height)],
            Self::Corners { radius, .. } => [Some(*radius), None],
            Self::Edge { depth, .. } => [Some(*depth), None],
        };
        let outline = self.window().and_then(|window| window.outline.measure());
        own.into_iter().flatten().chain(outline)
    }

    /// The window, where it is one.
    pub const fn window(&self) -> Option<&Window> {
        match self {
            Self::Window(window) => Some(window),
            Self::Corners { .. } | Self::Edge { .. } => None,
        }
    }

    /// The same, to be changed.
    pub(super) const fn window_mut(&mut self) -> Option<&mut Window> {
        match self {
            Self::Window(window) => Some(window),
            Self::Corners { .. } | Self::Edge { .. } => None,
        }
    }

    /// How many scallops or points an edge has.
    pub(super) const fn waves(&self) -> Option<u8> {
        match self {
            Self::Edge {
                form: EdgeForm::Scallops(count) | EdgeForm::Points(count),
                ..
            } => Some(*count),
            Self::Window(_) | Self::Corners { .. } | Self::Edge { .. } => None,
        }
    }

    /// Corners told one by one; none where there are none.
    pub(super) fn bends(&self) -> &[Bend] {
        match self {
            Self::Window(Window {
                outline: Outline::Cut(bends),
                ..
            })
            | Self::Edge {
                form: EdgeForm::Cut(bends),
                ..
            } => bends,
            Self::Window(_) | Self::Corners { .. } | Self::Edge { .. } => &[],
        }
    }
}

impl Cutout {
    /// The relations that keep it in its place; none while its panel is
    /// missing, which the layout reports.
    pub(crate) fn keeps(&self, strip: &Strip) -> Vec<Relation> {
        let panel = strip.index_of(self.panel);
        let panel = panel.and_then(|index| strip.panels.get(index));
        let (Some(window), Some(panel)) = (self.cut.window(), panel) else {
            return Vec::new();
        };
        window.place.keeps(
            (window.left, window.width),
            (window.bottom, window.height),
            (panel.width, strip.height),
        )
    }

    /// The distances that follow from its size where it is held in the middle.
    pub(crate) fn centred(&self) -> impl Iterator<Item = MeasureId> {
        let window = self.cut.window().into_iter();
        window.flat_map(|window| window.place.centred(window.left, window.bottom))
    }
}

impl Strip {
    /// Whether a panel has an edge of its own there, which no score bounds.
    pub fn is_free(&self, panel: PanelId, side: EdgeSide) -> bool {
        let ends = [self.panels.first(), self.panels.last()];
        let [first, last] = ends.map(|end| end.map(|end| end.id) == Some(panel));
        match side {
            EdgeSide::Left => first,
            EdgeSide::Right => last,
            EdgeSide::Top | EdgeSide::Bottom => true,
        }
    }
}

impl Recipe {
    /// Everything that is cut out, with the strip it is cut out of.
    pub fn cutouts(&self) -> impl Iterator<Item = (&Strip, &Cutout)> {
        let strips = self.strips();
        strips.flat_map(|(_, strip)| strip.cutouts.iter().map(move |it| (strip, it)))
    }

    /// The rectangle of a window on the flat strip, seen from side A; `None`
    /// where there is no such window, or no panel of it.
    pub fn window_on_strip(&self, id: CutoutId) -> Option<Rect<PieceFrame>> {
        let (strip, cutout) = self.cutouts().find(|(_, cutout)| cutout.id == id)?;
        let window = cutout.cut.window()?;
        let before = strip.panels.iter().take(strip.index_of(cutout.panel)?);
        let start: Length = before.map(|panel| self.value(panel.width)).sum();
        let low = Point::new(start + self.value(window.left), self.value(window.bottom));
        let size = Size {
            width: self.value(window.width),
            height: self.value(window.height),
        };
        Some(Rect::at(low, size))
    }

    /// What is cut out under that name.
    pub fn cutout(&self, id: CutoutId) -> Option<&Cutout> {
        let (_, cutout) = self.cutouts().find(|(_, cutout)| cutout.id == id)?;
        Some(cutout)
    }
}
