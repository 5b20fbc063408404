//! Changes to the pieces glued in.

use std::collections::{BTreeMap, BTreeSet};

use super::edit::Edited;
use super::naming::{Called, first_free};
use super::tie::Axis;
use super::{
    Added, Change, EditError, End, Face, Fold, Join, Mark, MeasureOf, Naming, New, Owner, Panel,
    PanelId, Piece, PieceId, Recipe, Role, Seat, Side, Strip, StripId,
};
use crate::length::{Length, Unit};
use crate::pattern::LineId;
use crate::plane::{PieceFrame, Point, Rect, Size};

impl Recipe {
    /// Adds a piece of two panels, a tab and what hangs on it, that lies shut in
    /// a rectangle of what carries it, its tab glued to a face there.
    pub(crate) fn add_piece_in(
        &mut self,
        on: Face,
        room: Rect<PieceFrame>,
        naming: &dyn Naming,
    ) -> Edited<Added<PieceId>> {
        self.whole(|recipe| {
            let used = recipe.pieces.iter().map(|piece| piece.id.0);
            let id = PieceId(recipe.ids.fresh(used, u32::MAX)?);
            let (of, _, _) = recipe.strip_with(on.panel).ok_or(EditError::NoPanel)?;
            // The usual width of a tab for glue: 1/2 in or 12 mm (common
            // practice).
            let usual = match recipe.notation.unit() {
                Unit::Inch => Length::sixty_fourths(32),
                Unit::Millimetre => Length::mm(12),
            };
            let Size {
                width: wide,
                height: high,
            } = room.size();
            let tab = usual.min(wide);
            // Seen from its side A the flap lies to the left of the crease it
            // hangs by; where it lies turned over, to the right.
            let at = match on.side {
                Side::A => room.high.x,
                Side::B => room.low.x,
            };
            let stock = recipe.other_stock(Seat::Face(on));
            let taken: BTreeSet<_> = recipe.pieces.iter().map(|piece| &*piece.name).collect();
            let names = (1..).map(|number| naming.name(New::Piece(number)));
            let name = first_free(names, |name| taken.contains(name))?;
            let called = Called {
                naming,
                part: Owner::Piece(id),
                name: &name,
            };
            let first = recipe.new_panel_id()?;
            let mut panels = Vec::new();
            for (new, id, width) in [
                (New::Tab, first, tab),
                (New::Flap, PanelId(first.0 + 1), wide),
            ] {
                let panel = naming.name(new);
                let measure = naming.name(New::WidthOn(&name, &panel));
                let of = MeasureOf {
                    part: Owner::Panel(id),
                    is: Role::Width,
                };
                let end = recipe.measures.len();
                panels.push(Panel {
                    id,
                    width: recipe.add_measure(end, &measure, Some(of), width)?,
                    name: panel,
                });
            }
            let mut measure = |is, value: Length| {
                let end = recipe.measures.len();
                recipe.add_part_measure(end, called, is, value)
            };
            let length = measure(Role::Length, tab + wide)?;
            let height = measure(Role::Height, high)?;
            let strip = Strip {
                stock,
                length,
                height,
                panels,
                folds: vec![Fold::Valley],
                lines: Vec::new(),
                cutouts: Vec::new(),
                keep: None,
                cut_at: None,
            };
            recipe.pieces.push(Piece {
                id,
                name: name.clone(),
                strip,
                flat: BTreeSet::new(),
                joins: Vec::new(),
                lay: None,
            });
            let mark = |end| move |direction| Role::Mark(end, direction);
            let low = Point::new(at, room.low.y);
            let from = recipe.new_corner(of, called, mark(End::From), low)?;
            let high = Point::new(at, room.high.y);
            let to = recipe.new_corner(of, called, mark(End::To), high)?;
            let piece = recipe.piece_mut(id)?;
            piece.joins.push(Join {
                panel: first,
                on,
                at: Some(Mark {
                    shows: Side::A,
                    from,
                    to,
                }),
            });
            let changes = recipe.settle(&[], &[], &[])?;
            Ok(Added { id, changes })
        })
    }

    /// Takes a piece away, with what lies on it and what is glued to it alone.
    pub fn remove_piece(&mut self, id: PieceId) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let piece = recipe.piece(id).ok_or(EditError::NoPiece)?;
            let panels: Vec<_> = piece.strip.panels.iter().map(|panel| panel.id).collect();
            let before = recipe.part_measures().collect();
            recipe.pieces.retain(|piece| piece.id != id);
            recipe.forget_panels(&panels);
            recipe.drop_measures_gone(&before);
            Ok(Vec::new())
        })
    }

    /// The same with nothing glued in.
    #[must_use]
    pub fn without_pieces(&self) -> Self {
        let mut bare = self.clone();
        for piece in &self.pieces {
            // What is there can be taken away.
            let _ = bare.remove_piece(piece.id);
        }
        bare
    }

    /// Calls a piece something else, and its measures after it.
    pub fn rename_piece(
        &mut self,
        id: PieceId,
        name: &str,
        naming: &dyn Naming,
    ) -> Edited<Vec<Change>> {
        name.clone_into(&mut self.piece_mut(id)?.name);
        self.rename_measures(Owner::Piece(id), naming);
        Ok(Vec::new())
    }

    /// Lets a crease of a piece lie flat in the closed card, or shuts it there.
    pub fn rest_flat(&mut self, id: PieceId, crease: LineId, flat: bool) -> Edited<Vec<Change>> {
        let piece = self.piece_mut(id)?;
        if flat {
            piece.flat.insert(crease);
        } else {
            piece.flat.remove(&crease);
        }
        Ok(Vec::new())
    }

    /// Glues another panel of a piece to a face, where it comes to lie.
    pub fn add_join(&mut self, id: PieceId, panel: PanelId, on: Face) -> Edited<Vec<Change>> {
        let join = Join {
            panel,
            on,
            at: None,
        };
        self.sound(id, join)?;
        self.whole(|recipe| {
            recipe.piece_mut(id)?.joins.push(join);
            Ok(Vec::new())
        })
    }

    /// Glues another panel, or to another face, at one of a piece's joins.
    pub fn change_join(
        &mut self,
        id: PieceId,
        number: usize,
        panel: PanelId,
        on: Face,
    ) -> Edited<Vec<Change>> {
        let had = self.join(id, number)?;
        let join = Join { panel, on, ..had };
        self.sound(id, join)?;
        *self.join_mut(id, number)? = join;
        Ok(Vec::new())
    }

    /// Shows the other side of a piece where it is laid along a line.
    pub fn turn_join(&mut self, id: PieceId, number: usize) -> Edited<Vec<Change>> {
        let join = self.join_mut(id, number)?;
        let mark = join.at.as_mut().ok_or(EditError::NoPiece)?;
        mark.shows = mark.shows.other();
        Ok(Vec::new())
    }

    /// Lays a join of a piece along a line on what carries it.
    pub fn lay_join(
        &mut self,
        id: PieceId,
        number: usize,
        from: Point<PieceFrame>,
        to: Point<PieceFrame>,
        naming: &dyn Naming,
    ) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let join = recipe.join(id, number)?;
            let (of, ..) = recipe.strip_with(join.on.panel).ok_or(EditError::NoPanel)?;
            let name = recipe.piece(id).ok_or(EditError::NoPiece)?.name.clone();
            let called = Called {
                naming,
                part: Owner::Piece(id),
                name: &name,
            };
            let role = |end| {
                move |direction| match number {
                    0 => Role::Mark(end, direction),
                    number => Role::MarkAt(number + 1, end, direction),
                }
            };
            let mark = Mark {
                shows: join.at.map_or(Side::A, |mark| mark.shows),
                from: recipe.new_corner(of, called, role(End::From), from)?,
                to: recipe.new_corner(of, called, role(End::To), to)?,
            };
            recipe.join_mut(id, number)?.at = Some(mark);
            recipe.drop_measures_gone(&before);
            Ok(recipe.settle(&[], &[], &[])?)
        })
    }

    /// Moves a point of the line a join is laid along: its beginning with the
    /// whole line, for there the piece lies, and the point it runs towards alone.
    /// A point is tied to what it comes to lie on, and to what it lay on no more.
    pub fn move_mark(
        &mut self,
        id: PieceId,
        number: usize,
        end: End,
        to: Point<PieceFrame>,
    ) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let join = recipe.join(id, number)?;
            let mark = join.at.ok_or(EditError::NoPiece)?;
            let (of, ..) = recipe.strip_with(join.on.panel).ok_or(EditError::NoPanel)?;
            let (from, towards) = (recipe.corner(mark.from), recipe.corner(mark.to));
            let carried = Point::new(towards.x + to.x - from.x, towards.y + to.y - from.y);
            let points = match end {
                End::From => vec![(mark.from, to), (mark.to, carried)],
                End::To => vec![(mark.to, to)],
            };
            let mut asked = BTreeMap::new();
            for (corner, at) in points {
                for (axis, measure, value) in [(Axis::X, corner.x, at.x), (Axis::Y, corner.y, at.y)]
                {
                    if recipe.value(measure) != value {
                        asked.entry(measure).or_insert((axis, value, at));
                    }
                }
            }
            for measure in asked.keys() {
                recipe.loosen(of, *measure);
            }
            let values: Vec<_> = asked
                .iter()
                .map(|(id, (_, value, _))| (*id, *value))
                .collect();
            let changes = recipe.settle(&values, &[], &[])?;
            for (measure, (axis, _, at)) in asked {
                let tie = recipe.tie_of(of, None, axis, measure, at);
                recipe.relations.extend(tie);
            }
            Ok(changes)
        })
    }

    /// Glues a join of a piece wherever it comes to lie. The first join of a
    /// piece needs its line.
    pub fn free_join(&mut self, id: PieceId, number: usize) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            recipe.join_mut(id, number)?.at = None;
            recipe.drop_measures_gone(&before);
            Ok(Vec::new())
        })
    }

    /// Glues a piece at one place less.
    pub fn remove_join(&mut self, id: PieceId, number: usize) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            recipe.join(id, number)?;
            let before = recipe.part_measures().collect();
            recipe.piece_mut(id)?.joins.remove(number);
            recipe.drop_measures_gone(&before);
            Ok(Vec::new())
        })
    }

    fn piece_mut(&mut self, id: PieceId) -> Edited<&mut Piece> {
        let piece = self.pieces.iter_mut().find(|piece| piece.id == id);
        piece.ok_or(EditError::NoPiece)
    }

    fn join(&self, id: PieceId, number: usize) -> Edited<Join> {
        let join = self.piece(id).and_then(|piece| piece.joins.get(number));
        join.copied().ok_or(EditError::NoPiece)
    }

    fn join_mut(&mut self, id: PieceId, number: usize) -> Edited<&mut Join> {
        let join = self.piece_mut(id)?.joins.get_mut(number);
        join.ok_or(EditError::NoPiece)
    }

    /// Whether a piece can be glued so: by a panel of its own, to the base or to
    /// a piece before it.
    fn sound(&self, id: PieceId, join: Join) -> Edited<()> {
        let (of, ..) = self.strip_with(join.panel).ok_or(EditError::NoPanel)?;
        let (carrier, ..) = self.strip_with(join.on.panel).ok_or(EditError::NoPanel)?;
        if of != StripId::Piece(id) {
            return Err(EditError::NoPanel);
        }
        let place = |of: PieceId| self.pieces.iter().position(|piece| piece.id == of);
        match carrier {
            StripId::Piece(carrier) if place(carrier) >= place(id) => Err(EditError::Upward),
            StripId::Base | StripId::Piece(_) => Ok(()),
        }
    }
}
