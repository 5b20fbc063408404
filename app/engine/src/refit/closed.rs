//! The closed card, with its outermost corners as sums of measures.
//!
//! Folding carries a panel by reflections. Over creases along the edges, and at
//! half a right angle to them, the distances of its corners are whole numbers of
//! measures, whatever these are; over others they are nearly sums, and told for
//! the card as it is now. Either way the card is folded anew with what was
//! found, so that a sum decides nothing by itself.

use std::collections::{BTreeMap, BTreeSet};

use super::flat::{Flat, corner};
use super::form::{At, Form};
use crate::card::{ROUNDED, Shut, ends};
use crate::faces::layer_cover;
use crate::fold::{Pose, lying_shut};
use crate::laid::{LaidLayer, LaidOut, lay_out};
use crate::length::Length;
use crate::plane::{Bearing, CardFrame, FaceFrame, PieceFrame, Placement, Point, Rect, Size};
use crate::recipe::{Face, Layer, LayerId, MeasureId, Placing, Recipe, Seat};
use crate::sorted::InOrder as _;

/// A direction in which the closed card is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Axis {
    /// Its width.
    Across,
    /// Its height.
    Up,
}

impl Axis {
    pub(super) const BOTH: [Self; 2] = [Self::Across, Self::Up];

    /// That side of a size.
    pub(super) const fn of(self, size: Size) -> Length {
        match self {
            Self::Across => size.width,
            Self::Up => size.height,
        }
    }

    const fn of_point(self, at: Point<CardFrame>) -> Length {
        match self {
            Self::Across => at.x,
            Self::Up => at.y,
        }
    }

    fn of_at(self, at: &At) -> &Form {
        match self {
            Self::Across => &at.x,
            Self::Up => &at.y,
        }
    }
}

/// Places of corners along one direction, with the sums that tell them.
type Corners = BTreeMap<Form, Length>;

/// How the faces that carry layers are read: whether the piece is seen mirrored
/// there, and turned how. Other lengths leave that as it is, or else the card
/// that was found turns out to close otherwise in the end.
#[derive(Default)]
pub(super) struct Seen(BTreeMap<Face, (bool, Bearing)>);

impl Seen {
    pub(super) fn of(recipe: &Recipe) -> Self {
        if recipe.layers.is_empty() {
            return Self(BTreeMap::new());
        }
        let readings = Shut::of(recipe).readings;
        let seen = readings
            .iter()
            .map(|it| (it.face, (it.place.mirrored, it.place.turn)));
        Self(seen.collect())
    }
}

/// A card closed.
pub(super) struct Closed {
    across: Corners,
    up: Corners,
}

impl Closed {
    /// Folds a card; `None` where its panels do not come together.
    pub(super) fn of(recipe: &Recipe, seen: &Seen) -> Option<Self> {
        let laid = lay_out(recipe);
        let (root, poses) = lying_shut(recipe, &laid)?;
        let folding = Folding {
            recipe,
            laid: &laid,
            origin: poses.get(root)?.place.shift,
            poses,
            flats: recipe
                .strips()
                .map(|(_, strip)| Flat::of(recipe, strip))
                .collect(),
        };
        let shifts = folding.shifts(root);
        let mut closed = Self {
            across: Corners::new(),
            up: Corners::new(),
        };
        folding.panels(&shifts, &mut closed);
        folding.layers(seen, &shifts, &mut closed);
        closed.leave_out();
        Some(closed)
    }

    const fn corners(&self, axis: Axis) -> &Corners {
        match axis {
            Axis::Across => &self.across,
            Axis::Up => &self.up,
        }
    }

    fn add(&mut self, axis: Axis, form: &Form, at: Length, recipe: &Recipe) {
        let corners = match axis {
            Axis::Across => &mut self.across,
            Axis::Up => &mut self.up,
        };
        corners.insert(form.clone().through(at, recipe), at);
    }

    /// Leaves out corners whose sums only hold now, unless they are outermost and
    /// no other is there.
    fn leave_out(&mut self) {
        for corners in [&mut self.across, &mut self.up] {
            let Some((first, last)) = ends(corners.values().copied()) else {
                continue;
            };
            let known: BTreeSet<_> = corners
                .iter()
                .filter(|(form, _)| form.is_exact())
                .map(|(_, at)| *at)
                .collect();
            let is_known =
                |end: Length| known.range(end - ROUNDED..=end + ROUNDED).next().is_some();
            let outermost = [first, last].map(|end| (end, is_known(end)));
            corners.retain(|form, at| {
                let mut outermost = outermost.iter();
                form.is_exact()
                    || outermost.any(|(end, known)| !known && (*end - *at).abs() <= ROUNDED)
            });
        }
    }

    /// How far it reaches.
    pub(super) fn extent(&self, axis: Axis) -> Length {
        let ends = ends(self.corners(axis).values().copied());
        ends.map_or(Length::ZERO, |(first, last)| last - first)
    }

    /// Its width and height.
    pub(super) fn size(&self) -> Size {
        Size {
            width: self.extent(Axis::Across),
            height: self.extent(Axis::Up),
        }
    }

    /// From one of its outermost corners to another.
    pub(super) fn widest(&self, axis: Axis) -> Form {
        let corners = self.corners(axis);
        let low = corners.iter().min_by_key(|(_, at)| **at);
        let high = corners.iter().max_by_key(|(_, at)| **at);
        low.zip(high)
            .map(|((low, _), (high, _))| high.minus(low))
            .unwrap_or_default()
    }

    /// Its corners from the first to the last; where two are told by measures
    /// that are the same, only one. `instead` says by which a measure may be
    /// replaced.
    pub(super) fn in_order(
        &self,
        axis: Axis,
        instead: &BTreeMap<MeasureId, MeasureId>,
    ) -> Vec<&Form> {
        let mut single: BTreeMap<Form, (Length, &Form)> = BTreeMap::new();
        for (form, at) in self.corners(axis) {
            single.entry(form.with(instead)).or_insert((*at, form));
        }
        let mut in_order: Vec<_> = single.into_values().collect();
        in_order.put_in_order_by_key(|(at, _)| *at);
        in_order.into_iter().map(|(_, form)| form).collect()
    }
}

/// A card while its corners are gathered. Places are told from where the panel
/// at rest has its origin.
struct Folding<'a> {
    recipe: &'a Recipe,
    laid: &'a LaidOut,
    poses: Vec<Pose>,
    origin: Point<CardFrame>,
    /// The strips, the base first.
    flats: Vec<Flat>,
}

impl Folding<'_> {
    /// Where a point of the piece of a panel lies on that.
    fn flat(&self, panel: usize, point: Point<PieceFrame>) -> At {
        let piece = self
            .laid
            .all_pieces()
            .position(|it| it.panels.contains(&panel));
        let flat = piece.and_then(|piece| self.flats.get(piece));
        flat.map(|flat| flat.at(point)).unwrap_or_default()
    }

    /// The panel in its place, unless it stands up.
    fn lying(&self, panel: usize) -> Option<&Pose> {
        self.poses.get(panel).filter(|pose| !pose.stands)
    }

    /// Where each panel's piece has its origin in the closed card.
    fn shifts(&self, root: usize) -> Vec<Option<At>> {
        let mut shifts: Vec<Option<At>> = vec![None; self.laid.panels.len()];
        let mut waiting = vec![(root, At::default())];
        while let Some((panel, shift)) = waiting.pop() {
            match shifts.get_mut(panel) {
                Some(known) if known.is_none() => *known = Some(shift.clone()),
                _ => continue,
            }
            let Some(pose) = self.lying(panel) else {
                continue;
            };
            let carried = |by: &At| by.turned(pose.place.mirrored, pose.place.turn).plus(&shift);
            for hinge in &self.laid.hinges {
                if ![hinge.left, hinge.right].contains(&panel) {
                    continue;
                }
                let beyond = hinge.across(panel);
                if !hinge.folded {
                    waiting.push((beyond, shift.clone()));
                } else if let Some(over) = Placement::<PieceFrame, _>::over(&hinge.axis) {
                    let from = self.flat(panel, hinge.axis.from);
                    let by = from.minus(&from.turned(over.mirrored, over.turn));
                    waiting.push((beyond, carried(&by)));
                }
            }
            for bond in self.laid.bonds.iter().filter(|bond| bond.on == panel) {
                waiting.extend(self.glued(bond).map(|by| (bond.part, carried(&by))));
            }
        }
        shifts
    }

    /// Where a piece that is laid along a line has its origin on what carries
    /// it.
    fn glued(&self, bond: &crate::laid::Bond) -> Option<At> {
        let place = bond.place.filter(|_| bond.join.1 == 0)?;
        let join = self.recipe.piece(bond.join.0)?.joins.first()?;
        let crease = self.laid.crease_of(bond.part)?;
        let begin = self.flat(bond.part, crease.from);
        Some(corner(join.at?.from).minus(&begin.turned(place.mirrored, place.turn)))
    }

    /// Adds the corners of the panels.
    fn panels(&self, shifts: &[Option<At>], closed: &mut Closed) {
        for (number, panel) in self.laid.panels.iter().enumerate() {
            let Some(pose) = self.lying(number) else {
                continue;
            };
            for point in &panel.facet.outline.corners {
                let form = Self::in_card(number, pose, shifts, &self.flat(number, *point));
                let at = pose.place.point(*point);
                for axis in Axis::BOTH {
                    let at = axis.of_point(at) - axis.of_point(self.origin);
                    closed.add(axis, axis.of_at(&form), at, self.recipe);
                }
            }
        }
    }

    /// Where a point of a panel's piece lies in the closed card.
    fn in_card(panel: usize, pose: &Pose, shifts: &[Option<At>], flat: &At) -> At {
        let shift = shifts.get(panel).cloned().flatten().unwrap_or_default();
        flat.turned(pose.place.mirrored, pose.place.turn)
            .plus(&shift)
    }

    /// Adds the corners of the layers.
    fn layers(&self, seen: &Seen, shifts: &[Option<At>], closed: &mut Closed) {
        let mut boxes: BTreeMap<LayerId, Box> = BTreeMap::new();
        for laid in &self.laid.layers {
            let found = || {
                let layer = self.recipe.layer(laid.id)?;
                let number = self.laid.index_of(laid.face.panel)?;
                let (mirrored, turn) = seen.0.get(&laid.face)?;
                let face = self.face(number, *mirrored, *turn)?;
                Some((layer, number, face, self.lying(number)?))
            };
            let Some((layer, number, face, pose)) = found() else {
                continue;
            };
            let seat = match layer.on {
                Seat::Layer(id) => boxes.get(&id).cloned(),
                Seat::Face(_) => None,
            };
            let own = Box::of(layer, &seat.unwrap_or_else(|| face.whole()));
            let forms = own.corners().map(|at| {
                let flat = face.back(&at);
                Self::in_card(number, pose, shifts, &flat)
            });
            let place = face.place.back().then(&pose.place);
            self.layer(laid, layer, &face, &place, &forms, closed);
            boxes.insert(laid.id, own);
        }
    }

    /// Adds how far a layer reaches that has these corners.
    fn layer(
        &self,
        laid: &LaidLayer,
        layer: &Layer,
        face: &FaceSeen,
        place: &Placement<FaceFrame, CardFrame>,
        forms: &[At; 4],
        closed: &mut Closed,
    ) {
        // What takes the shape of what carries it is laid out only where faces
        // are read; it reaches no farther than its border lets it.
        let at = match layer.place {
            Placing::Border(border) if layer.follows() => {
                face.size.inset(self.recipe.value(border))
            }
            _ => Some(laid.at),
        };
        let Some(at) = at else { return };
        let corners = at.corners().map(|at| place.point(at));
        let cover: Rect<CardFrame> = if layer.follows() {
            place.rect(&at)
        } else {
            layer_cover(laid, place).within
        };
        for axis in Axis::BOTH {
            let along = || corners.iter().zip(forms);
            let low = along().min_by_key(|(at, _)| axis.of_point(**at));
            let high = along().max_by_key(|(at, _)| axis.of_point(**at));
            for (found, end) in [(low, cover.low), (high, cover.high)] {
                if let Some((_, form)) = found {
                    let at = axis.of_point(end) - axis.of_point(self.origin);
                    closed.add(axis, axis.of_at(form), at, self.recipe);
                }
            }
        }
    }

    /// A face as its reader sees it.
    fn face(&self, number: usize, mirrored: bool, turn: Bearing) -> Option<FaceSeen> {
        let corners = &self.laid.panels.get(number)?.facet.outline.corners;
        let none = Point::new(Length::ZERO, Length::ZERO);
        let turned = Placement::<PieceFrame, FaceFrame>::at_bearing(mirrored, turn, none);
        let seen = |point: &&Point<PieceFrame>| turned.point(**point);
        let left = corners.iter().min_by_key(|at| seen(at).x)?;
        let right = corners.iter().max_by_key(|at| seen(at).x)?;
        let lower = corners.iter().min_by_key(|at| seen(at).y)?;
        let upper = corners.iter().max_by_key(|at| seen(at).y)?;
        let form = |point: &Point<PieceFrame>| self.flat(number, *point).turned(mirrored, turn);
        let low = Point::<FaceFrame>::new(seen(&left).x, seen(&lower).y);
        let high = Point::new(seen(&right).x, seen(&upper).y);
        Some(FaceSeen {
            low: At {
                x: form(left).x,
                y: form(lower).y,
            },
            high: At {
                x: form(right).x,
                y: form(upper).y,
            },
            size: Rect::at(none, Rect::spanning(low, high).size()),
            place: Placement::at_bearing(mirrored, turn, Point::new(-low.x, -low.y)),
        })
    }
}

/// A face as its reader sees it.
struct FaceSeen {
    /// Its lower left corner before that is moved to the origin.
    low: At,
    /// Its upper right one.
    high: At,
    /// The smallest rectangle round it.
    size: Rect<FaceFrame>,
    /// From the flat piece to the face.
    place: Placement<PieceFrame, FaceFrame>,
}

impl FaceSeen {
    /// All of it.
    fn whole(&self) -> Box {
        Box {
            low: At::default(),
            high: self.high.minus(&self.low),
        }
    }

    /// Where a point of it lies on the flat piece.
    fn back(&self, at: &At) -> At {
        // A mirroring undoes itself with the turn after it; a turn alone does
        // not.
        let (mirrored, turn) = (self.place.mirrored, self.place.turn);
        let back = if mirrored { turn } else { turn.back() };
        at.plus(&self.low).turned(mirrored, back)
    }
}

/// A rectangle on a face.
#[derive(Clone)]
struct Box {
    low: At,
    high: At,
}

impl Box {
    /// That of a layer in the one of what carries it.
    fn of(layer: &Layer, seat: &Self) -> Self {
        let measures = |x: MeasureId, y: MeasureId| At {
            x: Form::of(x),
            y: Form::of(y),
        };
        match layer.place {
            Placing::Border(border) if layer.follows() => {
                let border = measures(border, border);
                Self {
                    low: seat.low.plus(&border),
                    high: seat.high.minus(&border),
                }
            }
            _ => {
                let low = seat.low.plus(&measures(layer.left, layer.bottom));
                Self {
                    high: low.plus(&measures(layer.width, layer.height)),
                    low,
                }
            }
        }
    }

    /// Its corners, anticlockwise from the lower left.
    fn corners(&self) -> [At; 4] {
        let at = |x: &At, y: &At| At {
            x: x.x.clone(),
            y: y.y.clone(),
        };
        let (low, high) = (&self.low, &self.high);
        [at(low, low), at(high, low), at(high, high), at(low, high)]
    }
}
