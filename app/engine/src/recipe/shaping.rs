//! Giving layers and windows outlines, and cutting windows, corners and edges.

use std::collections::BTreeSet;

use super::edit::{Edited, fresh};
use super::{
    Added, Anchor, Bend, Change, Cut, Cutout, CutoutId, EdgeForm, EdgeSide, EditError, LayerId,
    MOST_BENDS, MOST_WAVES, MeasureId, Outline, PanelId, Place, Recipe, Which, Window,
};
use crate::length::{Length, Unit, nearest};

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

/// A kind of edge, for a choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names are those of the forms")]
pub enum EdgeKind {
    Arch,
    Hollow,
    Scallops,
    Points,
    Cut,
}

impl Outline {
    /// Its kind.
    pub const fn kind(&self) -> OutlineKind {
        match self {
            Self::Straight => OutlineKind::Straight,
            Self::Rounded(_) => OutlineKind::Rounded,
            Self::Round => OutlineKind::Round,
            Self::Arched(_) => OutlineKind::Arched,
            Self::Cut(_) => OutlineKind::Cut,
            Self::Follows => OutlineKind::Follows,
        }
    }
}

impl EdgeForm {
    /// Its kind.
    pub const fn kind(&self) -> EdgeKind {
        match self {
            Self::Arch => EdgeKind::Arch,
            Self::Hollow => EdgeKind::Hollow,
            Self::Scallops(_) => EdgeKind::Scallops,
            Self::Points(_) => EdgeKind::Points,
            Self::Cut(_) => EdgeKind::Cut,
        }
    }

    /// An edge of a kind to start from.
    pub fn of(kind: EdgeKind) -> Self {
        let bend = |x, y| Bend { x, y, bow: 0 };
        match kind {
            EdgeKind::Arch => Self::Arch,
            EdgeKind::Hollow => Self::Hollow,
            EdgeKind::Scallops => Self::Scallops(6),
            EdgeKind::Points => Self::Points(5),
            EdgeKind::Cut => Self::Cut(vec![bend(0, 1000), bend(500, 0), bend(1000, 600)]),
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

    /// What makers call it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tag => "Tag",
            Self::Ticket => "Hollow corners",
            Self::Hexagon => "Hexagon",
            Self::Heart => "Heart",
            Self::Star => "Star",
            Self::Scallops => "Scallops all round",
        }
    }

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
            Shaped::Window(id) => {
                let cutouts = self.base.cutouts.iter_mut();
                let window = cutouts.filter(|cutout| cutout.id == id).find_map(|cutout| {
                    match &mut cutout.cut {
                        Cut::Window(window) => Some(window),
                        Cut::Corners { .. } | Cut::Edge { .. } => None,
                    }
                });
                Ok(&mut window.ok_or(EditError::NoCutout)?.outline)
            }
        }
    }

    /// Gives a layer or a window an outline of a kind, to start from: corners
    /// rounded by an eighth of the smaller side, an arch that rises by a
    /// quarter of the width, the corners of a tag.
    pub fn shape(&mut self, of: Shaped, kind: OutlineKind) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let (width, height, name) = recipe.outlined(of).ok_or(EditError::NoLayer)?;
            let (width, height) = (recipe.value(width), recipe.value(height));
            let outline = match kind {
                OutlineKind::Straight => Outline::Straight,
                OutlineKind::Rounded => {
                    let radius = recipe.marked_part(width.min(height), 8);
                    Outline::Rounded(recipe.shape_measure(format!("{name} radius"), radius)?)
                }
                OutlineKind::Round => Outline::Round,
                OutlineKind::Arched => {
                    let rise = recipe.marked_part(width, 4);
                    Outline::Arched(recipe.shape_measure(format!("{name} rise"), rise)?)
                }
                OutlineKind::Cut => Outline::Cut(Die::Tag.bends()),
                OutlineKind::Follows => Outline::Follows,
            };
            if let (OutlineKind::Follows, Shaped::Layer(id)) = (kind, of) {
                let is_even = recipe
                    .layer(id)
                    .is_some_and(|layer| matches!(layer.place, Place::Border(_)));
                if !is_even {
                    let border = recipe.add_border(&name)?;
                    let layer = recipe.layers.iter_mut().find(|layer| layer.id == id);
                    layer.ok_or(EditError::NoLayer)?.place = Place::Border(border);
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

    /// Cuts a window in the middle of a panel, about half as wide and as high.
    pub fn add_window(&mut self, panel: PanelId) -> Edited<Added<CutoutId>> {
        self.whole(|recipe| {
            let (_, ground) = recipe.panel(panel).ok_or(EditError::NoPanel)?;
            let (width, height) = (ground.width, recipe.base.height);
            let size = [width, height].map(|of| recipe.marked_part(recipe.value(of), 2));
            let name = recipe.cutout_name("window")?;
            let mut measure =
                |what: &str, value| recipe.shape_measure(format!("{name} {what}"), value);
            let window = Window {
                width: measure("width", size[0])?,
                height: measure("height", size[1])?,
                left: measure("from the left", Length::ZERO)?,
                bottom: measure("from below", Length::ZERO)?,
                place: Place::At(Anchor::Centre),
                outline: Outline::Straight,
            };
            recipe.add_cutout(name, panel, Cut::Window(window))
        })
    }

    /// Rounds the free corners of a panel at the strip's end, by 1/4 in or 6 mm.
    pub fn add_corners(&mut self, panel: PanelId) -> Edited<Added<CutoutId>> {
        self.whole(|recipe| {
            let name = recipe.cutout_name("corners")?;
            let usual = recipe.usual_depth();
            let radius = recipe.shape_measure(format!("{name} radius"), usual)?;
            let which = Which::Both;
            recipe.add_cutout(name, panel, Cut::Corners { radius, which })
        })
    }

    /// Shapes an edge of a panel, 1/4 in or 6 mm deep.
    pub fn add_edge(&mut self, panel: PanelId, side: EdgeSide) -> Edited<Added<CutoutId>> {
        self.whole(|recipe| {
            let name = recipe.cutout_name("edge")?;
            let usual = recipe.usual_depth();
            let depth = recipe.shape_measure(format!("{name} depth"), usual)?;
            let form = EdgeForm::Arch;
            recipe.add_cutout(name, panel, Cut::Edge { side, form, depth })
        })
    }

    /// Changes what is cut out, but for its measures.
    pub fn recut(&mut self, id: CutoutId, change: impl FnOnce(&mut Cutout)) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let cutout = recipe.base.cutouts.iter_mut().find(|it| it.id == id);
            let cutout = cutout.ok_or(EditError::NoCutout)?;
            change(cutout);
            let waves = cutout.cut.waves().unwrap_or(1);
            if !(1..=MOST_WAVES).contains(&waves) || cutout.cut.bends().len() > MOST_BENDS {
                return Err(EditError::Full);
            }
            recipe.drop_measures_gone(&before);
            Ok(recipe.settle(&[], &[], &[])?)
        })
    }

    /// Holds a window another way: by an even border of its own where `place`
    /// asks for none, else as told.
    pub fn place_window(&mut self, id: CutoutId, place: Option<Place>) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let name = recipe.cutout(id).ok_or(EditError::NoCutout)?.name.clone();
            let place = match place {
                Some(place) => place,
                None => Place::Border(recipe.add_border(&name)?),
            };
            let cutouts = recipe.base.cutouts.iter_mut();
            let window = cutouts
                .filter(|it| it.id == id)
                .find_map(|it| match &mut it.cut {
                    Cut::Window(window) => Some(window),
                    Cut::Corners { .. } | Cut::Edge { .. } => None,
                });
            let window = window.ok_or(EditError::NoCutout)?;
            window.place = place;
            let mut yielding = vec![window.left, window.bottom];
            if matches!(place, Place::Border(_)) {
                yielding.extend([window.width, window.height]);
            }
            recipe.drop_measures_gone(&before);
            Ok(recipe.settle(&[], &[], &yielding)?)
        })
    }

    /// Moves a window so far along the strip and up. It is then held by its
    /// distances.
    pub fn move_window(&mut self, id: CutoutId, by: (Length, Length)) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let cutout = recipe.cutout(id).ok_or(EditError::NoCutout)?;
            let window = cutout.cut.window().ok_or(EditError::NoCutout)?;
            let (left, bottom) = (window.left, window.bottom);
            let at = (recipe.value(left) + by.0, recipe.value(bottom) + by.1);
            recipe.place_window(id, Some(Place::Distances))?;
            Ok(recipe.settle(&[(left, at.0), (bottom, at.1)], &[], &[])?)
        })
    }

    /// Calls something that is cut out something else, and its measures after
    /// it.
    pub fn rename_cutout(&mut self, id: CutoutId, name: &str) -> Edited<Vec<Change>> {
        let cutout = self.base.cutouts.iter_mut().find(|it| it.id == id);
        let cutout = cutout.ok_or(EditError::NoCutout)?;
        let before = std::mem::replace(&mut cutout.name, name.to_owned());
        let measures: Vec<_> = cutout.cut.measures().collect();
        self.rename_measures(&measures, &before, name);
        Ok(Vec::new())
    }

    /// Leaves something uncut again.
    pub fn remove_cutout(&mut self, id: CutoutId) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            recipe.cutout(id).ok_or(EditError::NoCutout)?;
            let before = recipe.part_measures().collect();
            recipe.base.cutouts.retain(|it| it.id != id);
            recipe.drop_measures_gone(&before);
            Ok(Vec::new())
        })
    }

    fn add_cutout(&mut self, name: String, panel: PanelId, cut: Cut) -> Edited<Added<CutoutId>> {
        self.panel(panel).ok_or(EditError::NoPanel)?;
        let id = CutoutId(fresh(self.base.cutouts.iter().map(|it| it.id.0))?);
        let panel = panel.strip_panel();
        self.base.cutouts.push(Cutout {
            id,
            name,
            panel,
            cut,
        });
        let changes = self.settle(&[], &[], &[])?;
        Ok(Added { id, changes })
    }

    fn cutout_name(&self, word: &str) -> Edited<String> {
        let taken: BTreeSet<_> = self.base.cutouts.iter().map(|it| &it.name).collect();
        std::iter::once(word.to_owned())
            .chain((2..=u32::MAX).map(|number| format!("{word} {number}")))
            .find(|name| !taken.contains(name))
            .ok_or(EditError::Full)
    }

    fn shape_measure(&mut self, name: String, value: Length) -> Edited<MeasureId> {
        self.add_measure(self.measures.len(), name, value)
    }

    /// How deep an edge is cut or a corner rounded to start with.
    fn usual_depth(&self) -> Length {
        match self.notation.unit() {
            Unit::Inch => Length::sixty_fourths(16),
            Unit::Millimetre => Length::mm(6),
        }
    }

    /// One of so many equal parts of a length, on a mark where it reaches one.
    fn marked_part(&self, of: Length, parts: i64) -> Length {
        let part = super::part(of, 1, parts);
        match nearest(part, self.notation.step).at {
            Length::ZERO => part,
            marked => marked,
        }
    }
}
