//! What shows of a card from the front and from the back.

use super::{Reading, near_and_far};
use crate::fold::{Cover, State};
use crate::laid::LaidLayer;
use crate::plane::{Area, CardFrame, FaceFrame, Placement, Rect, Region};
use crate::recipe::{Face, LayerId};

/// From where the card is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum View {
    /// At the front, as the card lies on the table.
    Front,
    /// At the back, the card turned over like a page. Regions stay in the
    /// frame of the front: a drawing mirrors them.
    Back,
}

/// Something that can show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Part {
    /// A face of a panel.
    Face(Face),
    /// A layer, from its front.
    Layer(LayerId),
    /// A layer, from its back, where it reaches past what carries it.
    LayerBack(LayerId),
}

/// A part and what shows of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// What shows.
    pub part: Part,
    /// Where it shows.
    pub region: Region<CardFrame>,
}

/// Something that lies in a state of the card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lying {
    /// What lies there.
    pub part: Part,
    /// All that it covers, seen or not.
    pub cover: Cover,
    /// The panel it is, or is glued to, by index among the panels.
    pub(crate) panel: usize,
}

/// Everything in a state of the card from the nearest to the farthest.
pub fn pile(state: &State, view: View, layers: &[LaidLayer], readings: &[Reading]) -> Vec<Lying> {
    let mut all = Vec::new();
    let places = state.order.iter().copied();
    let nearest_first: Vec<usize> = match view {
        View::Front => places.rev().collect(),
        View::Back => places.collect(),
    };
    for panel in nearest_first {
        let Some(pose) = state.poses.get(panel).filter(|pose| !pose.stands) else {
            continue;
        };
        let [near, far] = near_and_far(pose, view);
        let on = |face: Face, part: fn(LayerId) -> Part| {
            let place = readings
                .iter()
                .find(|reading| reading.face == face)
                .and_then(|reading| reading.in_card(state));
            layers
                .iter()
                .filter(move |layer| layer.face == face)
                .filter_map(move |layer| {
                    Some(Lying {
                        part: part(layer.id),
                        cover: layer_cover(layer, &place?),
                        panel,
                    })
                })
                .collect::<Vec<_>>()
        };
        all.extend(on(near, Part::Layer).into_iter().rev());
        all.push(Lying {
            part: Part::Face(near),
            cover: pose.area(),
            panel,
        });
        all.extend(on(far, Part::LayerBack));
    }
    all
}

/// What a layer covers whose face lies in the card so.
pub(crate) fn layer_cover(layer: &LaidLayer, place: &Placement<FaceFrame, CardFrame>) -> Cover {
    match &layer.shape {
        None if place.turn.quarter().is_some() => Cover::whole(place.rect(&layer.at)),
        None => Cover::shaped(Region::from(&place.polygon(&layer.at.into()))),
        Some(shape) => Cover::shaped(place.region(shape)),
    }
}

/// What shows, the nearest first.
pub fn shown(state: &State, view: View, layers: &[LaidLayer], readings: &[Reading]) -> Vec<Shown> {
    let pile = pile(state, view, layers, readings);
    if !state.is_in_line() {
        return shown_in_rings(state, view, &pile);
    }
    let mut hidden = Hidden::default();
    pile.iter()
        .filter_map(|lying| {
            let region = hidden.rest_of(&lying.cover)?;
            Some(Shown {
                part: lying.part,
                region,
            })
        })
        .collect()
}

/// What shows where panels overlap in a ring.
fn shown_in_rings(state: &State, view: View, pile: &[Lying]) -> Vec<Shown> {
    let parts = pile.iter().enumerate();
    parts
        .filter_map(|(index, lying)| {
            let region = rest_in_rings(state, view, pile, index, lying);
            (!region.is_empty()).then_some(Shown {
                part: lying.part,
                region,
            })
        })
        .collect()
}

/// What no part of a panel over its own, and nothing nearer on its own, hides of
/// a part.
fn rest_in_rings(
    state: &State,
    view: View,
    pile: &[Lying],
    index: usize,
    lying: &Lying,
) -> Region<CardFrame> {
    let nearer = |other: usize, this: usize| match view {
        View::Front => state.is_over(other, this),
        View::Back => state.is_over(this, other),
    };
    let mut region = lying.cover.region();
    for (at, other) in pile.iter().enumerate() {
        let hides = if other.panel == lying.panel {
            at < index
        } else {
            nearer(other.panel, lying.panel)
        };
        if hides && other.cover.within.common(&lying.cover.within).is_some() {
            region = region.minus(&other.cover.region());
        }
    }
    region
}

/// Those of the `asked` faces that show when nothing is glued on, the nearest
/// first.
pub(crate) fn faces_shown(state: &State, view: View, asked: impl Fn(Face) -> bool) -> Vec<Face> {
    let pile = pile(state, view, &[], &[]);
    let in_line = state.is_in_line();
    let shows = |index: usize, lying: &Lying| {
        if in_line {
            shows_under(&pile[..index], &lying.cover)
        } else {
            !rest_in_rings(state, view, &pile, index, lying).is_empty()
        }
    };
    let faces = pile.iter().enumerate();
    faces
        .filter_map(|(index, lying)| match lying.part {
            Part::Face(face) => (asked(face) && shows(index, lying)).then_some(face),
            Part::Layer(_) | Part::LayerBack(_) => None,
        })
        .collect()
}

/// How much of each of the `asked` faces shows when nothing is glued on, and how much of
/// it there is; of those that show at all.
pub(crate) fn areas_shown(
    state: &State,
    view: View,
    asked: impl Fn(Face) -> bool,
) -> Vec<(Face, [Area; 2])> {
    let pile = pile(state, view, &[], &[]);
    let in_line = state.is_in_line();
    let faces = pile.iter().enumerate();
    let faces = faces.filter_map(|(index, lying)| match lying.part {
        Part::Face(face) if asked(face) => {
            let rest = if in_line {
                rest_under(&pile[..index], &lying.cover)
            } else {
                rest_in_rings(state, view, &pile, index, lying)
            };
            Some((face, [rest.area(), lying.cover.region().area()]))
        }
        Part::Face(_) | Part::Layer(_) | Part::LayerBack(_) => None,
    });
    faces.filter(|(_, [shows, _])| *shows > 0).collect()
}

/// What of a part shows beside nearer ones.
fn rest_under(nearer: &[Lying], cover: &Cover) -> Region<CardFrame> {
    let mut over = Region::default();
    for near in nearer.iter().map(|lying| &lying.cover) {
        match near.within.common(&cover.within) {
            None => {}
            Some(common) if common == cover.within && near.shape.is_none() => {
                return Region::default();
            }
            Some(_) => over = over.and(&near.region()),
        }
    }
    cover.region().minus(&over)
}

/// Whether anything of a part shows beside nearer ones.
fn shows_under(nearer: &[Lying], cover: &Cover) -> bool {
    let within = cover.within;
    if within.is_empty() {
        return false;
    }
    let mut over: Vec<&Cover> = Vec::new();
    for near in nearer.iter().map(|lying| &lying.cover) {
        match near.within.common(&within) {
            None => {}
            Some(common) if common == within && near.shape.is_none() => return false,
            Some(_) => over.push(near),
        }
    }
    let part = cover.region();
    // What lies right over a part often hides all of it.
    let hides_all = |next: &&Cover| part.minus(&next.region()).is_empty();
    if over.last().is_some_and(hides_all) {
        return false;
    }
    let none = Region::default();
    let over = over.iter().fold(none, |all, near| all.and(&near.region()));
    over.is_empty() || !part.minus(&over).is_empty()
}

/// What nearer parts hide.
#[derive(Default)]
struct Hidden {
    region: Region<CardFrame>,
    /// The rectangles round the nearer parts, and whether a part is the whole
    /// of its own.
    within: Vec<(Rect<CardFrame>, bool)>,
}

impl Hidden {
    /// What of a part still shows, after which it hides what lies behind it.
    fn rest_of(&mut self, cover: &Cover) -> Option<Region<CardFrame>> {
        let covers = cover.within;
        let hides = |(outer, whole): &(Rect<CardFrame>, bool)| {
            *whole && outer.common(&covers) == Some(covers)
        };
        if covers.is_empty() || self.within.iter().any(hides) {
            return None;
        }
        let part = cover.region();
        let mut nearer = self.within.iter();
        let rest = if nearer.all(|(near, _)| near.common(&covers).is_none()) {
            part.clone()
        } else {
            part.minus(&self.region)
        };
        self.region = self.region.and(&part);
        self.within.push((covers, cover.shape.is_none()));
        (!rest.is_empty()).then_some(rest)
    }
}
