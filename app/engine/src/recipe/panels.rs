//! Changes to the panels and scores of a strip: the base, or a piece glued in.

use std::collections::BTreeSet;

use super::edit::Edited;
use super::line::MOST_NAMES;
use super::naming::first_free;
use super::{
    Added, Change, EditError, Fold, Holds, Is, MeasureOf, Naming, New, Owner, Panel, PanelId,
    Recipe, Relation, Role, Seat, Stacked, StripId, Term,
};
use crate::length::Length;

impl Recipe {
    /// Moves the score after the panel at `index` along a strip to a distance
    /// from the strip's start. The panels beside it take it up.
    pub fn move_score(&mut self, of: StripId, index: usize, to: Length) -> Edited<Vec<Change>> {
        let panels = &self.strip(of).ok_or(EditError::NoPiece)?.panels;
        let (Some(before), Some(beside)) = (panels.get(..=index), panels.get(index + 1)) else {
            return Err(EditError::NoScore);
        };
        let moved = Relation {
            holds: Holds::Must,
            left: before
                .iter()
                .map(|panel| Term {
                    times: 1,
                    of: panel.width,
                })
                .collect(),
            is: Is::Equal,
            right: Vec::new(),
            plus: to,
        };
        let mut yielding = vec![beside.width];
        yielding.extend(before.last().map(|panel| panel.width));
        self.carrying_lines(|recipe| Ok(recipe.settle(&[], &[moved], &yielding)?))
    }

    /// Folds a score the other way. No measure moves.
    pub fn flip(&mut self, of: StripId, index: usize) -> Edited<Vec<Change>> {
        let strip = self.strip_mut(of).ok_or(EditError::NoPiece)?;
        let fold = strip.folds.get_mut(index).ok_or(EditError::NoScore)?;
        *fold = fold.flipped();
        Ok(Vec::new())
    }

    /// Adds a panel behind the one at `after`, as wide as that one where no
    /// width is given, folded against the score before it. The strip grows.
    pub fn add_panel(
        &mut self,
        of: StripId,
        after: usize,
        width: Option<Length>,
        naming: &dyn Naming,
    ) -> Edited<Added<PanelId>> {
        self.whole(|recipe| {
            let id = recipe.new_panel_id()?;
            let strip = recipe.strip(of).ok_or(EditError::NoPiece)?;
            let beside = strip.panels.get(after).ok_or(EditError::NoPanel)?;
            let (beside, length) = (beside.width, strip.length);
            let taken: BTreeSet<_> = strip.panels.iter().map(|panel| &*panel.name).collect();
            let numbers = strip.panels.len() + 1..;
            let names = numbers.map(|number| naming.name(New::Panel(number)));
            let name = first_free(names, |name| taken.contains(name))?;
            let value = width.unwrap_or_else(|| recipe.value(beside));
            let index = recipe.measures.iter().position(|held| held.id == beside);
            let index = index.map_or(recipe.measures.len(), |index| index + 1);
            let measure = match of.piece().and_then(|id| recipe.piece(id)) {
                Some(piece) => naming.name(New::WidthOn(&piece.name, &name)),
                None => naming.name(New::Measure(&name, Role::Width)),
            };
            let of_panel = MeasureOf {
                part: Owner::Panel(id),
                is: Role::Width,
            };
            let width = recipe.add_measure(index, &measure, Some(of_panel), value)?;
            let lines = recipe.lines_making_room(of, after, value);
            let strip = recipe.strip_mut(of).ok_or(EditError::NoPiece)?;
            let folds = &mut strip.folds;
            let neighbour = after
                .checked_sub(1)
                .and_then(|before| folds.get(before))
                .or_else(|| folds.get(after));
            let fold = neighbour.map_or(Fold::Valley, |fold| fold.flipped());
            folds.insert(after.min(folds.len()), fold);
            strip.panels.insert(after + 1, Panel { id, name, width });
            let mut asked = recipe.follow(of, lines);
            asked.push((width, value));
            let changes = recipe.settle(&asked, &[], &[length])?;
            Ok(Added { id, changes })
        })
    }

    /// Takes a panel away with the score beside it, what lies or is glued on
    /// it, the lines within it, and the relations that speak of it. The strip
    /// shrinks. Where the
    /// card rested on it, it rests on the next one.
    pub fn remove_panel(&mut self, id: PanelId) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let (of, strip, index) = recipe.strip_with(id).ok_or(EditError::NoPanel)?;
            if strip.panels.len() == 1 {
                return Err(EditError::LastPanel);
            }
            let length = strip.length;
            let lines = recipe.lines_closing_up(of, index);
            let strip = recipe.strip_mut(of).ok_or(EditError::NoPanel)?;
            strip.panels.remove(index);
            let score = index.min(strip.folds.len().saturating_sub(1));
            if score < strip.folds.len() {
                strip.folds.remove(score);
            }
            let next = strip.panels.get(index).or(strip.panels.last());
            let next = next.map(|panel| panel.id);
            recipe.forget_panels(&[id]);
            if recipe.base.rests.strip_panel() == id
                && let Some(next) = next
            {
                recipe.base.rests = next;
            }
            let asked = recipe.follow(of, lines);
            recipe.drop_measures_gone(&before);
            Ok(recipe.settle(&asked, &[], &[length])?)
        })
    }

    /// Calls a panel something else, and its width after it.
    pub fn rename_panel(
        &mut self,
        id: PanelId,
        name: &str,
        naming: &dyn Naming,
    ) -> Edited<Vec<Change>> {
        let (of, _, index) = self.strip_with(id).ok_or(EditError::NoPanel)?;
        let strip = self.strip_mut(of).ok_or(EditError::NoPanel)?;
        let panel = strip.panels.get_mut(index).ok_or(EditError::NoPanel)?;
        name.clone_into(&mut panel.name);
        let id = panel.id;
        self.rename_measures(Owner::Panel(id), naming);
        Ok(Vec::new())
    }

    /// Takes away what lies on panels that are gone, or speaks of them.
    pub(super) fn forget_panels(&mut self, gone: &[PanelId]) {
        let is_gone = |id: PanelId| gone.contains(&id.strip_panel());
        self.drop_layers(|seat| matches!(seat, Seat::Face(face) if is_gone(face.panel)));
        for piece in &mut self.pieces {
            let joins = &mut piece.joins;
            joins.retain(|join| !is_gone(join.panel) && !is_gone(join.on.panel));
        }
        let pieces = self.pieces.iter_mut().map(|piece| &mut piece.strip);
        for strip in std::iter::once(&mut self.base.strip).chain(pieces) {
            strip.cutouts.retain(|it| !is_gone(it.panel));
            strip.keep = strip.keep.filter(|keep| !is_gone(keep.panel));
        }
        self.base.on_top.retain(|answer| {
            let mut sheets = answer.sheets().into_iter();
            !sheets.any(|sheet| matches!(sheet, Stacked::Panel(panel) if is_gone(panel)))
        });
        self.upright.retain(|face| !is_gone(face.panel));
    }

    /// A name for another panel.
    pub(super) fn new_panel_id(&self) -> Edited<PanelId> {
        let panels = self.strips().flat_map(|(_, strip)| &strip.panels);
        let used = panels.map(|panel| panel.id.0);
        self.ids.fresh(used, MOST_NAMES).map(PanelId)
    }
}
