//! Giving layers and windows outlines.

use super::edit::Edited;
use super::naming::Called;
use super::{
    Bend, Change, CutoutId, EditError, LayerId, MOST_BENDS, MeasureId, Naming, Outline, Placing,
    Recipe, Role,
};
use crate::length::{Length, nearest};

/// What has an outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Shaped {
    /// A layer.
    Layer(LayerId),
    /// A window.
    Window(CutoutId),
}

/// A kind of outline, for a choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names are those of the outlines")]
pub enum OutlineKind {
    Straight,
    Rounded,
    Round,
    Arched,
    Cut,
    Follows,
}

/// An outline to start from, cut with a die.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Die {
    /// A rectangle whose upper corners are cut off.
    Tag,
    /// A rectangle with a hollow at each corner.
    Ticket,
    /// Six equal corners.
    Hexagon,
    /// Two arcs and a point.
    Heart,
    /// Five points.
    Star,
    /// Scallops all round.
    Scallops,
}

impl Outline {
    /// Its kind.
    pub const fn kind(&self) -> OutlineKind {
        match self {
            Self::Straight => OutlineKind::Straight,
            Self::Rounded(_) => OutlineKind::Rounded,
            Self::Round => OutlineKind::Round,
            Self::Arched(_) => OutlineKind::Arched,
            Self::Cut(_) | Self::Traced(_) => OutlineKind::Cut,
            Self::Follows => OutlineKind::Follows,
        }
    }
}

impl Die {
    /// Every die.
    pub const ALL: [Self; 6] = [
        Self::Tag,
        Self::Ticket,
        Self::Hexagon,
        Self::Heart,
        Self::Star,
        Self::Scallops,
    ];

    /// Its corners.
    pub fn bends(self) -> Vec<Bend> {
        let corners: &[(u16, u16, i16)] = match self {
            Self::Tag => &[
                (0, 0, 0),
                (1000, 0, 0),
                (1000, 820, 0),
                (760, 1000, 0),
                (240, 1000, 0),
                (0, 820, 0),
            ],
            Self::Ticket => &[
                (120, 0, 0),
                (880, 0, -207),
                (1000, 120, 0),
                (1000, 880, -207),
                (880, 1000, 0),
                (120, 1000, -207),
                (0, 880, 0),
                (0, 120, -207),
            ],
            Self::Hexagon => &[
                (250, 0, 0),
                (750, 0, 0),
                (1000, 500, 0),
                (750, 1000, 0),
                (250, 1000, 0),
                (0, 500, 0),
            ],
            Self::Heart => &[
                (500, 0, 60),
                (970, 740, 380),
                (500, 850, 380),
                (30, 740, 60),
            ],
            Self::Star => &[
                (191, 0, 0),
                (500, 237, 0),
                (809, 0, 0),
                (691, 383, 0),
                (1000, 618, 0),
                (618, 618, 0),
                (500, 1000, 0),
                (382, 618, 0),
                (0, 618, 0),
                (309, 383, 0),
            ],
            Self::Scallops => &[
                (500, 54, 300),
                (723, 114, 300),
                (886, 277, 300),
                (946, 500, 300),
                (886, 723, 300),
                (723, 886, 300),
                (500, 946, 300),
                (277, 886, 300),
                (114, 723, 300),
                (54, 500, 300),
                (114, 277, 300),
                (277, 114, 300),
            ],
        };
        let corners = corners.iter();
        corners
            .map(|(x, y, bow)| Bend {
                x: *x,
                y: *y,
                bow: *bow,
            })
            .collect()
    }
}

impl Recipe {
    /// The outline of a layer or a window.
    pub fn outline(&self, of: Shaped) -> Option<&Outline> {
        match of {
            Shaped::Layer(id) => Some(&self.layer(id)?.outline),
            Shaped::Window(id) => Some(&self.cutout(id)?.cut.window()?.outline),
        }
    }

    /// The width, the height and the name of what has an outline.
    fn outlined(&self, of: Shaped) -> Option<(MeasureId, MeasureId, String)> {
        match of {
            Shaped::Layer(id) => {
                let layer = self.layer(id)?;
                Some((layer.width, layer.height, layer.name.clone()))
            }
            Shaped::Window(id) => {
                let cutout = self.cutout(id)?;
                let window = cutout.cut.window()?;
                Some((window.width, window.height, cutout.name.clone()))
            }
        }
    }

    fn outline_mut(&mut self, of: Shaped) -> Edited<&mut Outline> {
        match of {
            Shaped::Layer(id) => {
                let layer = self.layers.iter_mut().find(|layer| layer.id == id);
                Ok(&mut layer.ok_or(EditError::NoLayer)?.outline)
            }
            Shaped::Window(id) => Ok(&mut self.window_mut(id)?.outline),
        }
    }

    /// Gives a layer or a window an outline of a kind, to start from: corners
    /// rounded by an eighth of the smaller side, an arch that rises by a
    /// quarter of the width, the corners of a tag.
    pub fn shape(
        &mut self,
        of: Shaped,
        kind: OutlineKind,
        naming: &dyn Naming,
    ) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let (width, height, name) = recipe.outlined(of).ok_or(EditError::NoLayer)?;
            let (width, height) = (recipe.value(width), recipe.value(height));
            let called = Called {
                naming,
                part: of.into(),
                name: &name,
            };
            let outline = match kind {
                OutlineKind::Straight => Outline::Straight,
                OutlineKind::Rounded => {
                    let radius = recipe.marked_part(width.min(height), 8);
                    Outline::Rounded(recipe.shape_measure(called, Role::Radius, radius)?)
                }
                OutlineKind::Round => Outline::Round,
                OutlineKind::Arched => {
                    let rise = recipe.marked_part(width, 4);
                    Outline::Arched(recipe.shape_measure(called, Role::Rise, rise)?)
                }
                OutlineKind::Cut => Outline::Cut(Die::Tag.bends()),
                OutlineKind::Follows => Outline::Follows,
            };
            if let (OutlineKind::Follows, Shaped::Layer(id)) = (kind, of) {
                let layer = recipe.layer(id).ok_or(EditError::NoLayer)?;
                if !matches!(layer.place, Placing::Border(_)) {
                    let own: Vec<_> = layer.measures().collect();
                    let border = recipe.add_border(called, &own)?;
                    let layer = recipe.layers.iter_mut().find(|layer| layer.id == id);
                    layer.ok_or(EditError::NoLayer)?.place = Placing::Border(border);
                }
            }
            *recipe.outline_mut(of)? = outline;
            recipe.drop_measures_gone(&before);
            Ok(recipe.settle(&[], &[], &[])?)
        })
    }

    /// Gives a layer or a window an outline corner by corner.
    pub fn cut_shape(&mut self, of: Shaped, bends: Vec<Bend>) -> Edited<Vec<Change>> {
        if bends.len() > MOST_BENDS {
            return Err(EditError::Full);
        }
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            *recipe.outline_mut(of)? = Outline::Cut(bends);
            recipe.drop_measures_gone(&before);
            Ok(Vec::new())
        })
    }

    pub(super) fn shape_measure(
        &mut self,
        of: Called<'_>,
        is: Role,
        value: Length,
    ) -> Edited<MeasureId> {
        self.add_part_measure(self.measures.len(), of, is, value)
    }

    /// One of so many equal parts of a length, on a mark where it reaches one.
    pub(super) fn marked_part(&self, of: Length, parts: i64) -> Length {
        let part = super::part(of, 1, parts);
        match nearest(part, self.notation.step).at {
            Length::ZERO => part,
            marked => marked,
        }
    }
}
