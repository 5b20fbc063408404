//! Changes a maker makes to a recipe. Each is made whole or not at all.

use std::collections::BTreeSet;

use super::naming::{Called, counted, first_free};
use super::{
    Anchor, Bond, Change, Clash, Face, Layer, LayerId, Measure, MeasureId, MeasureOf, Naming, New,
    Outline, Owner, Parts, Placing, Recipe, Role, Seat, Stacked, shortened,
};
use crate::length::{Length, Unit, nearest};
use crate::paper::{StockId, StockSide};

/// What was added, and what moved to make room for it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Added<Id> {
    /// The name of what was added.
    pub id: Id,
    /// What moved.
    pub changes: Vec<Change>,
}

/// What kind of layer to add, which settles how it starts out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LayerKind {
    /// Glued on with an even border.
    Mat,
    /// Centred, about half as large as what it lies on, to be seen first.
    Focal,
    /// Slipped in with an even border, not glued.
    Insert,
}

/// How wide the border of a mat is, and how far glue stays from edges and creases,
/// to start with: 1/8 in or 3 mm (common practice).
pub(crate) const fn usual_margin(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::sixty_fourths(8),
        Unit::Millimetre => Length::mm(3),
    }
}

/// Why a change was not made. The recipe is as it was.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum EditError {
    /// The measures can't follow.
    Clash(Clash),
    /// The recipe has no such measure.
    NoMeasure,
    /// The strip has no such score.
    NoScore,
    /// The strip has no such panel.
    NoPanel,
    /// The strip has no such line.
    NoLine,
    /// A line would begin or end beside the paper.
    OffPaper,
    /// A line would end where it begins.
    NoLength,
    /// The strip has no such window, corners or edge.
    NoCutout,
    /// The recipe has no such layer, or none to put this on.
    NoLayer,
    /// The strip has only this panel.
    LastPanel,
    /// The recipe has no such piece, or the piece no such join.
    NoPiece,
    /// What is glued on it, or on what is glued on it, would carry itself.
    Upward,
    /// The recipe has no such relation.
    NoRelation,
    /// The least a measure may be is more than the most.
    Limits,
    /// No panel can be made shorter by what its fold asks for.
    NoRoom,
    /// What sticks out can't be made to fit without moving what is held.
    NoFit,
    /// The recipe has as many of something as it can have.
    TooMany(Parts),
    /// No name is left for another part.
    Full,
}

impl From<Clash> for EditError {
    fn from(clash: Clash) -> Self {
        Self::Clash(clash)
    }
}

pub(super) type Edited<T> = Result<T, EditError>;

impl Recipe {
    /// Gives a measure a value; what depends on it follows. What is moved by it
    /// keeps its size, and is placed by its distances afterwards.
    pub fn set(&mut self, measure: MeasureId, value: Length) -> Edited<Vec<Change>> {
        let now = self.measure(measure).ok_or(EditError::NoMeasure)?.value;
        self.with_design(measure, value, |recipe| {
            recipe.whole(|recipe| {
                if value != now {
                    recipe.let_move(measure);
                }
                let mut asked = recipe.carried_ends(measure, value);
                asked.push((measure, value));
                recipe.carrying_lines(|recipe| {
                    // An end that something else holds stays where it is.
                    let carried = recipe.settle(&asked, &[], &[]);
                    Ok(carried.or_else(|_| recipe.settle(&[(measure, value)], &[], &[]))?)
                })
            })
        })
    }

    /// Holds a measure still, or lets it move again. Nothing moves now.
    pub fn pin(&mut self, measure: MeasureId, pinned: bool) -> Edited<Vec<Change>> {
        self.measures
            .iter_mut()
            .find(|held| held.id == measure)
            .ok_or(EditError::NoMeasure)?
            .pinned = pinned;
        Ok(Vec::new())
    }

    /// Puts a layer on a face or on another layer, cut from another paper than
    /// what it lies on where the recipe has one.
    pub fn add_layer(
        &mut self,
        on: Seat,
        kind: LayerKind,
        naming: &dyn Naming,
    ) -> Edited<Added<LayerId>> {
        self.whole(|recipe| {
            let whole = match on {
                Seat::Face(face) => Seat::Face(Face {
                    panel: face.panel.strip_panel(),
                    ..face
                }),
                Seat::Layer(_) => on,
            };
            let (seat_width, seat_height) = recipe.seat_size(whole).ok_or(EditError::NoLayer)?;
            // Borders and anchors go by a panel's measures, which its parts do
            // not have; an even border follows their edges.
            let is_shaped = recipe.is_shaped(on);
            let is_part = is_shaped && matches!(on, Seat::Face(_));
            let used = recipe.layers.iter().map(|layer| layer.id.0);
            let id = LayerId(recipe.ids.fresh(used, u32::MAX)?);
            let taken: BTreeSet<_> = recipe.layers.iter().map(|layer| &*layer.name).collect();
            let names = counted(naming, New::Layer(kind));
            let name = first_free(names, |name| taken.contains(name))?;
            let called = Called {
                naming,
                part: Owner::Layer(id),
                name: &name,
            };
            let place = match kind {
                LayerKind::Mat | LayerKind::Insert => {
                    Placing::Border(recipe.add_border(called, &[])?)
                }
                LayerKind::Focal if is_part => Placing::Distances,
                LayerKind::Focal => Placing::At(Anchor::Centre),
            };
            let half = |seat| {
                let half = recipe.value(seat).half_down();
                match nearest(half, recipe.notation.step).at {
                    Length::ZERO => half,
                    marked => marked,
                }
            };
            let (width, height) = (half(seat_width), half(seat_height));
            let mut measure = |is, value| {
                let end = recipe.measures.len();
                recipe.add_part_measure(end, called, is, value)
            };
            let layer = Layer {
                id,
                width: measure(Role::Width, width)?,
                height: measure(Role::Height, height)?,
                left: measure(Role::Left, Length::ZERO)?,
                bottom: measure(Role::Bottom, Length::ZERO)?,
                stock: recipe.other_stock(on),
                shows: StockSide::Face,
                on,
                place,
                outline: match kind {
                    LayerKind::Mat | LayerKind::Insert if is_shaped => Outline::Follows,
                    LayerKind::Mat | LayerKind::Insert | LayerKind::Focal => Outline::Straight,
                },
                bond: match kind {
                    LayerKind::Insert => Bond::Loose,
                    LayerKind::Mat | LayerKind::Focal => Bond::Safe,
                },
                turn: None,
                cut_at: None,
                focal: kind == LayerKind::Focal,
                name,
            };
            let added: Vec<_> = layer.measures().collect();
            recipe.layers.push(layer);
            let changes =
                recipe.beside_design(&added, |recipe| Ok(recipe.settle(&[], &[], &[])?))?;
            Ok(Added { id, changes })
        })
    }

    /// Calls a layer something else, and its measures after it.
    pub fn rename_layer(
        &mut self,
        id: LayerId,
        name: &str,
        naming: &dyn Naming,
    ) -> Edited<Vec<Change>> {
        let layer = self.layers.iter_mut().find(|layer| layer.id == id);
        let layer = layer.ok_or(EditError::NoLayer)?;
        name.clone_into(&mut layer.name);
        self.rename_measures(Owner::Layer(id), naming);
        Ok(Vec::new())
    }

    /// Takes a layer away, and what lies on it.
    pub fn remove_layer(&mut self, id: LayerId) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            recipe.layer(id).ok_or(EditError::NoLayer)?;
            let before = recipe.part_measures().collect();
            recipe.layers.retain(|layer| layer.id != id);
            recipe.drop_layers(|seat| seat == Seat::Layer(id));
            recipe.drop_measures_gone(&before);
            Ok(Vec::new())
        })
    }

    /// Places a layer another way. Its distances follow, and under an even
    /// border its size.
    pub fn place_layer(&mut self, id: LayerId, place: Placing) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            if let Placing::Border(border) = place {
                recipe.measure(border).ok_or(EditError::NoMeasure)?;
            }
            recipe.place(id, place)
        })
    }

    /// Gives a layer an even border of its own, of the usual width.
    pub fn border_layer(&mut self, id: LayerId, naming: &dyn Naming) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let layer = recipe.layer(id).ok_or(EditError::NoLayer)?;
            let own: Vec<_> = layer.measures().collect();
            let name = layer.name.clone();
            let called = Called {
                naming,
                part: Owner::Layer(id),
                name: &name,
            };
            let border = recipe.add_border(called, &own)?;
            recipe.place(id, Placing::Border(border))
        })
    }

    fn place(&mut self, id: LayerId, place: Placing) -> Edited<Vec<Change>> {
        let before = self.part_measures().collect();
        let is_shaped = self.layer(id).is_some_and(|layer| self.is_shaped(layer.on));
        let layer = self.layers.iter_mut().find(|layer| layer.id == id);
        let layer = layer.ok_or(EditError::NoLayer)?;
        layer.place = place;
        // An even border follows edges that are not a rectangle; a size of its
        // own follows nothing.
        match (place, &layer.outline) {
            (Placing::Border(_), Outline::Straight) if is_shaped => {
                layer.outline = Outline::Follows;
            }
            (Placing::At(_) | Placing::Distances, Outline::Follows) => {
                layer.outline = Outline::Straight;
            }
            _ => {}
        }
        let mut yielding = vec![layer.left, layer.bottom];
        if matches!(place, Placing::Border(_)) {
            yielding.extend([layer.width, layer.height]);
        }
        self.drop_measures_gone(&before);
        Ok(self.settle(&[], &[], &yielding)?)
    }

    /// Makes a change that may add parts, where the recipe can have so many.
    pub fn adding(&mut self, change: impl FnOnce(&mut Self)) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            change(recipe);
            Ok(Vec::new())
        })
    }

    /// Makes a change to a copy and keeps it only where all of it worked and
    /// added no more parts than a recipe can have.
    pub(super) fn whole<T>(&mut self, change: impl FnOnce(&mut Self) -> Edited<T>) -> Edited<T> {
        let mut changed = self.clone();
        let done = change(&mut changed)?;
        let mut too_many = changed.too_many();
        if let Some((parts, _)) = too_many.find(|(parts, number)| *number > parts.of(self)) {
            return Err(EditError::TooMany(parts));
        }
        drop(too_many);
        *self = changed;
        Ok(done)
    }

    pub(super) fn add_measure(
        &mut self,
        index: usize,
        name: &str,
        of: Option<MeasureOf>,
        value: Length,
    ) -> Edited<MeasureId> {
        let used = self.measures.iter().map(|measure| measure.id.0);
        let id = MeasureId(self.ids.fresh(used, u32::MAX)?);
        let measure = Measure {
            of,
            ..Measure::new(id, shortened(name).to_owned(), value)
        };
        self.measures.insert(index, measure);
        Ok(id)
    }

    /// The usual border of a mat. It is firmer
    /// than the measures of what it goes round: when the panel changes, that
    /// follows, and the border stays.
    pub(super) fn add_border(&mut self, of: Called<'_>, round: &[MeasureId]) -> Edited<MeasureId> {
        let usual = usual_margin(self.notation.unit());
        let mut measures = self.measures.iter();
        let index = measures.position(|measure| round.contains(&measure.id));
        let index = index.unwrap_or(self.measures.len());
        self.add_part_measure(index, of, Role::Border, usual)
    }

    /// Whether what a layer lies on may be other than a rectangle.
    fn is_shaped(&self, on: Seat) -> bool {
        match on {
            Seat::Face(face) => {
                let panel = face.panel.strip_panel();
                self.strip_with(panel).is_some_and(|(_, strip, _)| {
                    !strip.lines.is_empty() || strip.cutouts.iter().any(|it| it.panel == panel)
                })
            }
            Seat::Layer(id) => self
                .layer(id)
                .is_some_and(|layer| !layer.outline.is_straight()),
        }
    }

    /// A paper that sets what is put on something off from that, in a sheet of
    /// the recipe's own unit where there is one.
    pub(super) fn other_stock(&self, on: Seat) -> StockId {
        let under = match on {
            Seat::Face(face) => {
                let strip = self.strip_with(face.panel);
                strip.map_or(self.base.stock, |(_, strip, _)| strip.stock)
            }
            Seat::Layer(id) => self.layer(id).map_or(self.base.stock, |layer| layer.stock),
        };
        let unit = self.notation.unit();
        let others = || self.stocks.iter().filter(|stock| stock.id != under);
        let other = others().find(|stock| stock.is_round_in(unit));
        other.or(others().next()).map_or(under, |stock| stock.id)
    }

    /// Takes away the layers on such a seat and all that lies on them.
    pub(super) fn drop_layers(&mut self, on: impl Fn(Seat) -> bool) {
        let mut gone = BTreeSet::new();
        loop {
            let before = self.layers.len();
            self.layers.retain(|layer| {
                let falls =
                    on(layer.on) || matches!(layer.on, Seat::Layer(id) if gone.contains(&id));
                if falls {
                    gone.insert(layer.id);
                }
                !falls
            });
            if self.layers.len() == before {
                break;
            }
        }
        self.forget_layers();
    }

    /// Takes away the answers that speak of layers that are gone.
    fn forget_layers(&mut self) {
        let there: BTreeSet<_> = self.layers.iter().map(|layer| layer.id).collect();
        self.base.on_top.retain(|answer| {
            let mut sheets = answer.sheets().into_iter();
            !sheets.any(|it| matches!(it, Stacked::Layer { layer } if !there.contains(&layer)))
        });
    }

    /// Takes away the measures that only parts now gone were made of, and the
    /// relations that speak of them.
    pub(super) fn drop_measures_gone(&mut self, before: &BTreeSet<MeasureId>) {
        let now: BTreeSet<_> = self.part_measures().collect();
        let gone: BTreeSet<_> = before.difference(&now).copied().collect();
        self.measures.retain(|measure| !gone.contains(&measure.id));
        self.relations
            .retain(|relation| !relation.terms().any(|(_, of)| gone.contains(&of)));
    }
}
