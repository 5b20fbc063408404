//! Cutting windows, corners and edges of a strip: the base, or a piece glued in.

use std::collections::BTreeSet;

use super::edit::Edited;
use super::naming::{Called, counted, first_free};
use super::{
    Added, Anchor, Bend, Change, Cut, Cutout, CutoutId, EdgeForm, EdgeSide, EditError, MOST_BENDS,
    MOST_WAVES, Naming, New, Outline, Owner, PanelId, Placing, Recipe, Role, Strip, Which, Window,
};
use crate::length::{Length, Unit};

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

impl Recipe {
    /// Cuts a window in the middle of a panel, about half as wide and as high.
    pub fn add_window(&mut self, panel: PanelId, naming: &dyn Naming) -> Edited<Added<CutoutId>> {
        self.whole(|recipe| {
            let (_, strip, _) = recipe.strip_with(panel).ok_or(EditError::NoPanel)?;
            let (_, ground) = recipe.panel(panel).ok_or(EditError::NoPanel)?;
            let (width, height) = (ground.width, strip.height);
            let size = [width, height].map(|of| recipe.marked_part(recipe.value(of), 2));
            let (id, name) = recipe.new_cutout(New::Window, naming)?;
            let called = Called {
                naming,
                part: Owner::Cutout(id),
                name: &name,
            };
            let mut measure = |is, value| recipe.shape_measure(called, is, value);
            let window = Window {
                width: measure(Role::Width, size[0])?,
                height: measure(Role::Height, size[1])?,
                left: measure(Role::Left, Length::ZERO)?,
                bottom: measure(Role::Bottom, Length::ZERO)?,
                place: Placing::At(Anchor::Centre),
                outline: Outline::Straight,
            };
            recipe.add_cutout(id, name, panel, Cut::Window(window))
        })
    }

    /// Rounds the free corners of a panel at the strip's end, by 1/4 in or 6 mm.
    pub fn add_corners(&mut self, panel: PanelId, naming: &dyn Naming) -> Edited<Added<CutoutId>> {
        self.whole(|recipe| {
            let (id, name) = recipe.new_cutout(New::Corners, naming)?;
            let called = Called {
                naming,
                part: Owner::Cutout(id),
                name: &name,
            };
            let usual = recipe.usual_depth();
            let radius = recipe.shape_measure(called, Role::Radius, usual)?;
            let which = Which::Both;
            recipe.add_cutout(id, name, panel, Cut::Corners { radius, which })
        })
    }

    /// Shapes an edge of a panel, 1/4 in or 6 mm deep.
    pub fn add_edge(
        &mut self,
        panel: PanelId,
        side: EdgeSide,
        naming: &dyn Naming,
    ) -> Edited<Added<CutoutId>> {
        self.whole(|recipe| {
            let (id, name) = recipe.new_cutout(New::Edge, naming)?;
            let called = Called {
                naming,
                part: Owner::Cutout(id),
                name: &name,
            };
            let usual = recipe.usual_depth();
            let depth = recipe.shape_measure(called, Role::Depth, usual)?;
            let form = EdgeForm::Arch;
            recipe.add_cutout(id, name, panel, Cut::Edge { side, form, depth })
        })
    }

    /// Changes what is cut out, but for its measures.
    pub fn recut(&mut self, id: CutoutId, change: impl FnOnce(&mut Cutout)) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let cutout = recipe.cutout_mut(id)?;
            change(cutout);
            let waves = cutout.cut.waves().unwrap_or(1);
            if !(1..=MOST_WAVES).contains(&waves) || cutout.cut.bends().len() > MOST_BENDS {
                return Err(EditError::Full);
            }
            recipe.drop_measures_gone(&before);
            Ok(recipe.settle(&[], &[], &[])?)
        })
    }

    /// Holds a window by an even border of its own.
    pub fn border_window(&mut self, id: CutoutId, naming: &dyn Naming) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let cutout = recipe.cutout(id).ok_or(EditError::NoCutout)?;
            let own: Vec<_> = cutout.cut.measures().collect();
            let name = cutout.name.clone();
            let called = Called {
                naming,
                part: Owner::Cutout(id),
                name: &name,
            };
            let border = recipe.add_border(called, &own)?;
            recipe.place_window(id, Placing::Border(border))
        })
    }

    /// Holds a window another way.
    pub fn place_window(&mut self, id: CutoutId, place: Placing) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let window = recipe.window_mut(id)?;
            window.place = place;
            let mut yielding = vec![window.left, window.bottom];
            if matches!(place, Placing::Border(_)) {
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
            recipe.place_window(id, Placing::Distances)?;
            Ok(recipe.settle(&[(left, at.0), (bottom, at.1)], &[], &[])?)
        })
    }

    /// Calls something that is cut out something else, and its measures after
    /// it.
    pub fn rename_cutout(
        &mut self,
        id: CutoutId,
        name: &str,
        naming: &dyn Naming,
    ) -> Edited<Vec<Change>> {
        name.clone_into(&mut self.cutout_mut(id)?.name);
        self.rename_measures(Owner::Cutout(id), naming);
        Ok(Vec::new())
    }

    /// Leaves something uncut again.
    pub fn remove_cutout(&mut self, id: CutoutId) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            recipe.cutout(id).ok_or(EditError::NoCutout)?;
            let before = recipe.part_measures().collect();
            for strip in recipe.strips_mut() {
                strip.cutouts.retain(|it| it.id != id);
            }
            recipe.drop_measures_gone(&before);
            Ok(Vec::new())
        })
    }

    fn add_cutout(
        &mut self,
        id: CutoutId,
        name: String,
        panel: PanelId,
        cut: Cut,
    ) -> Edited<Added<CutoutId>> {
        let (of, _, _) = self.strip_with(panel).ok_or(EditError::NoPanel)?;
        let panel = panel.strip_panel();
        let strip = self.strip_mut(of).ok_or(EditError::NoPanel)?;
        strip.cutouts.push(Cutout {
            id,
            name,
            panel,
            cut,
        });
        let changes = self.settle(&[], &[], &[])?;
        Ok(Added { id, changes })
    }

    /// The lasting name of another cutout, and what it is called.
    fn new_cutout(&self, new: New<'_>, naming: &dyn Naming) -> Edited<(CutoutId, String)> {
        let used = self.cutouts().map(|(_, it)| it.id.0);
        let id = CutoutId(self.ids.fresh(used, u32::MAX)?);
        let taken: BTreeSet<_> = self.cutouts().map(|(_, it)| &*it.name).collect();
        let name = first_free(counted(naming, new), |name| taken.contains(name))?;
        Ok((id, name))
    }

    fn cutout_mut(&mut self, id: CutoutId) -> Edited<&mut Cutout> {
        let cutouts = self.strips_mut().flat_map(|strip| &mut strip.cutouts);
        let mut named = cutouts.filter(|it| it.id == id);
        named.next().ok_or(EditError::NoCutout)
    }

    pub(super) fn window_mut(&mut self, id: CutoutId) -> Edited<&mut Window> {
        let window = self.cutout_mut(id)?.cut.window_mut();
        window.ok_or(EditError::NoCutout)
    }

    pub(super) fn strips_mut(&mut self) -> impl Iterator<Item = &mut Strip> {
        let pieces = self.pieces.iter_mut().map(|piece| &mut piece.strip);
        std::iter::once(&mut self.base.strip).chain(pieces)
    }

    /// How deep an edge is cut or a corner rounded to start with.
    fn usual_depth(&self) -> Length {
        match self.notation.unit() {
            Unit::Inch => Length::sixty_fourths(16),
            Unit::Millimetre => Length::mm(6),
        }
    }
}
