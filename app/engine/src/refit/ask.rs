//! From a recipe and a wish to all that has to hold.

use std::borrow::Cow;
use std::cell::{OnceCell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::closed::{Axis, Closed, Seen};
use super::form::Form;
use super::model::{Held, Model};
use super::units::in_unit_of;
use super::{Cause, Keep, Wish};
use crate::card::{Card, Tools, closed_size, work_out};
use crate::cut_list::layer_runs;
use crate::length::{Length, Notation, floor, nearest};
use crate::paper::Stock;
use crate::part::Part;
use crate::plane::Size;
use crate::program::Work;
use crate::recipe::{Holds, Lay, Layer, MeasureId, Recipe, StripId};

/// How many marks of a sheet may be left over where strips use it up: a mark
/// for each panel, but no more than this. Our own bound.
const MOST_OVER: i64 = 12;

/// How many numbers of a tableau can be gone over while a card is folded.
/// Measured.
pub(super) const FOLD: usize = 10_000;

/// Which way things lie where both ways have to be tried.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lie {
    /// The strip's length runs across the sheet.
    across: bool,
    /// The card's width lies along the envelope's longer side.
    upright: bool,
}

/// How far the closed card may reach.
#[derive(Debug, Clone, Copy)]
pub(super) struct Room {
    pub(super) cause: Cause,
    pub(super) axis: Axis,
    /// The least it has to.
    pub(super) least: Option<Length>,
    /// The most it may.
    pub(super) most: Length,
}

/// A wish for a recipe.
pub(super) struct Asked<'a> {
    /// The card as it is, with what the program gave it in the unit asked for.
    pub(super) recipe: Cow<'a, Recipe>,
    /// The card to stay near to: as it was designed, or as it lies on the table.
    pub(super) start: Recipe,
    pub(super) wish: &'a Wish,
    pub(super) notation: Notation,
    /// By how much the closed card may be off the finished size asked for.
    pub(super) slack: Size,
    /// The most the card may measure in its envelope, longer side first.
    room: Option<Size>,
    /// How its faces are read, where something is asked of the closed card.
    pub(super) seen: Seen,
    /// The card worked out, once something asks for it.
    card: OnceCell<Card>,
    /// The cards folded so far, by the values of their measures.
    folded: RefCell<BTreeMap<Vec<i128>, Option<Rc<Closed>>>>,
}

impl<'a> Asked<'a> {
    pub(super) fn of(recipe: &'a Recipe, wish: &'a Wish) -> Self {
        let room = wish.envelope.map(|(envelope, rule)| Size {
            width: envelope.length - rule.length,
            height: envelope.height - rule.height,
        });
        let is_asked = room.is_some() || wish.finished.is_some();
        let notation = wish.notation.unwrap_or(recipe.notation);
        let recipe = in_unit_of(recipe, notation);
        let start = if wish.between {
            Recipe::clone(&recipe)
        } else {
            recipe.as_designed()
        };
        Self {
            start,
            wish,
            notation,
            slack: Size::default(),
            room,
            seen: if is_asked {
                Seen::of(&recipe)
            } else {
                Seen::default()
            },
            card: OnceCell::new(),
            folded: RefCell::default(),
            recipe,
        }
    }

    /// The ways to try, the present one first.
    pub(super) fn lies(&self) -> Vec<Lie> {
        let upright: &[bool] = match self.room {
            Some(_) => &[true, false],
            None => &[true],
        };
        let ways = self.ways();
        let ways = ways.iter();
        ways.flat_map(|across| {
            upright.iter().map(|upright| Lie {
                across: *across,
                upright: *upright,
            })
        })
        .collect()
    }

    /// Whether the base may run across its sheet, along it, or both, the present
    /// way first. Once it is cut, either is the same.
    pub(super) fn ways(&self) -> Vec<bool> {
        if self.wish.cut.contains(&Part::Strip(StripId::Base)) {
            return vec![true];
        }
        let may = self.runs(StripId::Base, self.recipe.lay);
        let stock = self.recipe.stock(self.recipe.base.stock);
        let first = stock.is_none_or(|stock| Self::laid(&self.start, stock).0);
        let ways = [first, !first].into_iter();
        ways.filter(|across| may.contains(across)).collect()
    }

    /// Whether a strip may run across its sheet, along it, or both: as the maker
    /// chose, and where it is printed, as makes most faces upright.
    fn runs(&self, of: StripId, chosen: Option<Lay>) -> Vec<bool> {
        if let Some(lay) = chosen {
            return vec![lay.runs_across()];
        }
        let stock = self.recipe.strip(of);
        let stock = stock.and_then(|strip| self.recipe.stock(strip.stock));
        let Some(stock) = stock else {
            return vec![true];
        };
        let is_marked = self.recipe.upright.iter().any(|face| {
            let on = self.recipe.strip_with(face.panel);
            on.is_some_and(|(on, ..)| on == of)
        });
        if !stock.has_direction() || !is_marked {
            return vec![true, false];
        }
        let card = self
            .card
            .get_or_init(|| work_out(&self.recipe, &Tools::default()));
        // Turned over, a plain back would count as upright, and the print be
        // gone.
        let lies = card.lies(Part::Strip(of)).into_iter();
        let lays = lies.flat_map(|lies| {
            let reports = lies.lays.iter();
            reports.filter(|it| it.lay.outside == lies.lay.outside)
        });
        let lays: Vec<_> = lays.collect();
        let best = lays.iter().map(|report| report.upright.len()).max();
        let best = lays.iter().filter(|it| Some(it.upright.len()) == best);
        let best: Vec<_> = best.map(|report| report.lay.runs_across()).collect();
        let ways = [true, false].into_iter();
        ways.filter(|across| best.contains(across)).collect()
    }

    /// Whether the strip of a card runs across a sheet, and how many lie beside
    /// and above each other: the way that gives most.
    fn laid(recipe: &Recipe, stock: &Stock) -> (bool, [i64; 2]) {
        let base = &recipe.base;
        let strip = Size {
            width: recipe.value(base.length),
            height: recipe.value(base.height),
        };
        let across = stock.rows(strip);
        let [along_width, along_height] = stock.rows(strip.turned());
        let along = [along_height, along_width];
        if along[0].saturating_mul(along[1]) > across[0].saturating_mul(across[1]) {
            (false, along)
        } else {
            (true, across)
        }
    }

    /// All that has to hold with things lying one way.
    pub(super) fn model(&self, lie: Lie) -> Model {
        let recipe = &*self.recipe;
        let mut model = Model::of(&self.start, self.notation.step.length());
        if self.wish.between {
            for (grid, measure) in model.ruler.iter_mut().zip(&self.start.measures) {
                *grid = grid.through(measure.value);
            }
        }
        self.pins(&mut model);
        for (index, made) in self.wish.made.iter().enumerate() {
            let held = model.relation(Cause::Made(index), made);
            model.hard.push(held);
        }
        self.limits(&mut model);
        for (of, strip) in recipe.strips() {
            let sum = model.relation(Cause::Strip(of), &strip.sum());
            model.hard.push(sum);
        }
        for layer in &recipe.layers {
            for kept in layer.keeps(recipe) {
                let kept = model.relation(Cause::Layer(layer.id), &kept);
                model.hard.push(kept);
            }
        }
        for (strip, cutout) in recipe.cutouts() {
            for kept in cutout.keeps(strip) {
                let kept = model.relation(Cause::Window(cutout.id), &kept);
                model.hard.push(kept);
            }
        }
        self.sheets(&mut model, lie);
        for (index, relation) in recipe.relations.iter().enumerate() {
            let held = model.relation(Cause::Relation(index), relation);
            match relation.holds {
                Holds::Must => model.hard.push(held),
                Holds::Should => model.soft.push(held),
            }
        }
        self.overlaps(&mut model);
        model
            .hard
            .retain(|held| !held.terms.is_empty() || !held.by(&[]));
        let layers = recipe.layers.iter().flat_map(Layer::centred);
        let cutouts = recipe.cutouts().flat_map(|(_, it)| it.centred());
        let centred = layers.chain(cutouts);
        model.centred = centred.filter_map(|id| model.index_of(id)).collect();
        model.grids = model.marks(&model.hard);
        model
    }

    /// Measures that may not move stay where they are, on a mark or not.
    fn pins(&self, model: &mut Model) {
        let asked = |id: MeasureId| self.wish.pinned.iter().any(|(asked, _)| *asked == id);
        let pinned = self.recipe.measures.iter();
        let pinned = pinned
            .filter(|measure| measure.pinned && !asked(measure.id))
            .map(|measure| (Cause::Pinned(measure.id), measure.id, measure.value));
        let wished = self.wish.pinned.iter();
        let wished = wished.map(|(id, value)| (Cause::Asked(*id), *id, *value));
        for (cause, id, value) in pinned.chain(wished) {
            if model.index_of(id).is_some() {
                let held = model.held(cause, [(1, id)], Some(value), Some(value));
                model.hard.push(held);
            }
        }
    }

    /// The limits of measures, the maker's and those of paper: a piece is
    /// something, and a distance stays on its side of the edge.
    fn limits(&self, model: &mut Model) {
        let sizes: BTreeSet<_> = self.recipe.sizes().collect();
        for measure in &self.start.measures {
            let id = measure.id;
            let something = if sizes.contains(&id) {
                Some(Length::from_units(1))
            } else {
                (!measure.value.is_negative()).then_some(Length::ZERO)
            };
            let limits = [
                (Cause::Something(id), something, None),
                (Cause::Least(id), measure.least, None),
                (Cause::Most(id), None, measure.most),
            ];
            for (cause, least, most) in limits {
                if least.is_some() || most.is_some() {
                    let held = model.held(cause, [(1, id)], least, most);
                    model.hard.push(held);
                }
            }
        }
    }

    /// Panels that overlap, as the leaves of a gate may, overlap by as much as now
    /// where that can be.
    fn overlaps(&self, model: &mut Model) {
        let strips = self.recipe.strips();
        let panels = strips.flat_map(|(_, strip)| &strip.panels);
        let panels: BTreeSet<_> = panels.map(|panel| panel.width).collect();
        let is_between_panels = |id: MeasureId| {
            self.recipe.relations.iter().any(|held| {
                let mut terms = held.terms();
                terms.any(|(_, of)| of == id) && held.terms().any(|(_, of)| panels.contains(&of))
            })
        };
        for measure in &self.start.measures {
            let id = measure.id;
            if measure.value.is_negative() && is_between_panels(id) {
                let now = Some(nearest(measure.value, self.notation.step).at);
                let mut stays = model.held(Cause::Something(id), [(1, id)], now, now);
                stays.told = false;
                model.soft.push(stays);
            }
        }
    }

    /// The pieces fit what they are cut from.
    fn sheets(&self, model: &mut Model, lie: Lie) {
        let to_cut = |part: Part| !self.wish.cut.contains(&part);
        let layers = self.recipe.layers.iter();
        let layers = layers.filter(|layer| to_cut(Part::Layer(layer.id)));
        let layers = layers.map(|layer| {
            let stock = self.recipe.stock(layer.stock);
            let runs = stock.map(|stock| layer_runs(layer, stock));
            let runs = runs.unwrap_or_default();
            (layer.stock, [layer.width, layer.height], runs)
        });
        let pieces = self.recipe.pieces.iter();
        let pieces = pieces.filter(|piece| to_cut(Part::Strip(StripId::Piece(piece.id))));
        let pieces = pieces.map(|piece| {
            let (id, strip) = (StripId::Piece(piece.id), &piece.strip);
            let runs = self.runs(id, piece.lay);
            (strip.stock, [strip.length, strip.height], runs)
        });
        for (stock, measures, runs) in layers.chain(pieces) {
            let size = measures.map(|id| self.recipe.value(id));
            let Some(stock) = self.recipe.stock(stock) else {
                continue;
            };
            let (cause, sides) = self.sides(stock);
            let turned = [sides[1], sides[0]];
            let ways = runs.iter();
            let ways = ways.map(|across| if *across { sides } else { turned });
            let fits = |sides: &[Length; 2]| size[0] <= sides[0] && size[1] <= sides[1];
            // Longer side to longer side.
            let suits = |sides: &[Length; 2]| (size[0] > size[1]) == (sides[0] > sides[1]);
            let fitting = ways.clone().find(fits);
            // What does not fit its own paper now is not asked to.
            let to_be = ways.clone().find(suits).or(ways.clone().next());
            let Some(sides) = fitting.or(to_be.filter(|_| cause == Cause::Sheet)) else {
                continue;
            };
            for (id, side) in measures.into_iter().zip(sides) {
                let held = model.held(cause, [(1, id)], None, Some(side));
                model.hard.push(held);
            }
        }
        let base = &self.recipe.base;
        let stock = self.recipe.stock(base.stock);
        let Some(stock) = stock.filter(|_| to_cut(Part::Strip(StripId::Base))) else {
            return;
        };
        let (cause, sides) = self.sides(stock);
        let sides = if lie.across {
            sides
        } else {
            [sides[1], sides[0]]
        };
        let now = Self::laid(&self.recipe, stock).1;
        if cause == Cause::Paper(stock.id) && (now[0] == 0 || now[1] == 0) {
            return;
        }
        let strip = [base.length, base.height];
        for (id, side) in strip.into_iter().zip(sides) {
            let held = model.held(cause, [(1, id)], None, Some(side));
            model.hard.push(held);
        }
        let keep = self.wish.sheet.filter(|sheet| sheet.stock == stock.id);
        let keep = keep.map_or(Keep::Card, |sheet| sheet.keep);
        // How much of its sheet the card was designed to take.
        let Some(stock) = self.start.stock(base.stock) else {
            return;
        };
        let (across, counts) = Self::laid(&self.start, stock);
        let before = if across {
            [stock.width, stock.height]
        } else {
            [stock.height, stock.width]
        };
        for index in 0..2 {
            let (id, count, side) = (strip[index], counts[index], sides[index]);
            if keep == Keep::Card || count == 0 {
                continue;
            }
            let kept = model.held(Cause::Kept, [(count, id)], None, Some(side));
            model.soft.push(kept);
            let left = before[index] - self.start.value(id) * count;
            let used_up = left < self.start.notation.step.length() * count;
            if keep == Keep::Share
                && used_up
                && let Some((part, _)) = side.div_rem(count)
            {
                // As much as can be: equal panels may leave some marks over.
                let step = self.notation.step;
                let most = floor(part, step).at;
                let panels = i64::try_from(self.recipe.base.panels.len()).unwrap_or(0);
                let over = panels.min(MOST_OVER);
                for left in 0..=over {
                    let least = most - step.length() * left;
                    let mut kept = model.held(Cause::Kept, [(1, id)], Some(least), None);
                    kept.told = left == over;
                    model.soft.push(kept);
                }
            }
        }
    }

    /// The sides of a paper, or of the sheet at hand in its place.
    fn sides(&self, stock: &Stock) -> (Cause, [Length; 2]) {
        match self.wish.sheet.filter(|sheet| sheet.stock == stock.id) {
            Some(sheet) => (Cause::Sheet, [sheet.size.width, sheet.size.height]),
            None => (Cause::Paper(stock.id), [stock.width, stock.height]),
        }
    }

    /// How far the closed card has to reach, and how far it may.
    pub(super) fn rooms(&self, lie: Lie) -> Vec<Room> {
        let finished = self.wish.finished.into_iter().flat_map(|size| {
            Axis::BOTH.map(|axis| {
                let off = axis.of(self.slack);
                Room {
                    cause: Cause::Finished,
                    axis,
                    least: Some(axis.of(size) - off),
                    most: axis.of(size) + off,
                }
            })
        });
        let envelope = self.room.into_iter().flat_map(|room| {
            let room = if lie.upright { room } else { room.turned() };
            Axis::BOTH.map(|axis| Room {
                cause: Cause::Envelope,
                axis,
                least: None,
                most: axis.of(room),
            })
        });
        finished.chain(envelope).collect()
    }

    /// That the closed card reaches less far where it reaches too far with these
    /// values.
    pub(super) fn too_large(
        &self,
        model: &Model,
        values: &[i128],
        lie: Lie,
        work: &mut Work,
    ) -> Option<Held> {
        let rooms = self.rooms(lie);
        if rooms.is_empty() {
            return None;
        }
        let closed = self.closed(values, work)?;
        let large = rooms.iter().find(|it| closed.extent(it.axis) > it.most)?;
        let held = closed
            .widest(large.axis)
            .between(model, large.cause, None, Some(large.most));
        (!held.by(values)).then_some(held)
    }

    /// The direction along which the closed card does not reach as far as it has
    /// to with these values.
    pub(super) fn falls_short(&self, values: &[i128], lie: Lie, work: &mut Work) -> Option<Axis> {
        let rooms = self.rooms(lie);
        let closed = rooms.first().and_then(|_| self.closed(values, work))?;
        let short = |room: &&Room| {
            let least = self.least(room, &closed.widest(room.axis));
            least.is_some_and(|least| closed.extent(room.axis) < least)
        };
        rooms.iter().find(short).map(|room| room.axis)
    }

    /// That the closed card fills the room there is along a direction between two
    /// corners; nothing where it need not.
    pub(super) fn filling(&self, model: &Model, axis: Axis, span: &Form, lie: Lie) -> Option<Held> {
        let rooms = self.rooms(lie);
        let room = rooms
            .iter()
            .find(|it| it.axis == axis && it.least.is_some())?;
        Some(span.between(model, room.cause, self.least(room, span), Some(room.most)))
    }

    /// The least a room asks of a sum: less by a mark where creases at a slant
    /// make that no sum of marks.
    pub(super) fn least(&self, room: &Room, form: &Form) -> Option<Length> {
        let step = self.notation.step.length();
        let gives = if form.is_exact() { Length::ZERO } else { step };
        room.least.map(|least| least - gives)
    }

    /// Whether something is asked of the closed card, and it does not fold flat.
    pub(super) fn never_closes(&self) -> bool {
        let is_asked = self.room.is_some() || self.wish.finished.is_some();
        is_asked && closed_size(&self.recipe) == Size::default()
    }

    /// The closed card with these values; `None` where its panels do not come
    /// together.
    pub(super) fn closed(&self, values: &[i128], work: &mut Work) -> Option<Rc<Closed>> {
        if let Some(folded) = self.folded.borrow().get(values) {
            return folded.clone();
        }
        work.take(FOLD);
        let closed = Closed::of(&self.with(values), &self.seen).map(Rc::new);
        self.folded
            .borrow_mut()
            .insert(values.to_vec(), closed.clone());
        closed
    }

    /// The recipe with these values.
    fn with(&self, values: &[i128]) -> Recipe {
        let mut recipe = Recipe::clone(&self.recipe);
        for (measure, value) in recipe.measures.iter_mut().zip(values) {
            measure.value = Model::length(*value);
        }
        recipe
    }
}
