//! What shows of a card from the front and from the back.

use crate::face::{Reading, side_seen};
use crate::fold::{Pose, State};
use crate::laid::LaidLayer;
use crate::plane::{CardFrame, Rect, Region};
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

/// Everything in a state of the card from the nearest to the farthest, with
/// all that it covers, seen or not.
pub fn pile(
    state: &State,
    view: View,
    layers: &[LaidLayer],
    readings: &[Reading],
) -> Vec<(Part, Rect<CardFrame>)> {
    let mut parts = Vec::new();
    for pose in nearest_first(state, view) {
        let near = Face {
            panel: pose.panel,
            side: side_seen(pose.place.mirrored, view),
        };
        let far = Face {
            side: near.side.other(),
            ..near
        };
        let on = |face: Face| {
            let place = readings
                .iter()
                .find(|reading| reading.face == face)
                .and_then(|reading| reading.in_card(state));
            layers
                .iter()
                .filter(move |layer| layer.face == face)
                .filter_map(move |layer| Some((layer.id, place?.rect(&layer.at))))
                .collect::<Vec<_>>()
        };
        let in_front = on(near);
        let behind = on(far);
        parts.extend(
            in_front
                .into_iter()
                .rev()
                .map(|(id, at)| (Part::Layer(id), at)),
        );
        parts.push((Part::Face(near), pose.covers));
        parts.extend(behind.into_iter().map(|(id, at)| (Part::LayerBack(id), at)));
    }
    parts
}

/// What shows, the nearest first.
pub fn shown(state: &State, view: View, layers: &[LaidLayer], readings: &[Reading]) -> Vec<Shown> {
    let mut hidden = Hidden::default();
    pile(state, view, layers, readings)
        .into_iter()
        .filter_map(|(part, covers)| {
            let region = hidden.rest_of(covers)?;
            Some(Shown { part, region })
        })
        .collect()
}

/// The faces that show when nothing is glued on, the nearest first.
pub(crate) fn faces_shown(state: &State, view: View) -> Vec<Face> {
    shown(state, view, &[], &[])
        .into_iter()
        .filter_map(|shown| match shown.part {
            Part::Face(face) => Some(face),
            Part::Layer(_) | Part::LayerBack(_) => None,
        })
        .collect()
}

fn nearest_first(state: &State, view: View) -> Vec<Pose> {
    let mut places = state.order.clone();
    if view == View::Front {
        places.reverse();
    }
    places
        .into_iter()
        .filter_map(|place| state.poses.get(place).copied())
        .collect()
}

/// What nearer parts hide.
#[derive(Default)]
struct Hidden {
    region: Region<CardFrame>,
    whole: Vec<Rect<CardFrame>>,
}

impl Hidden {
    /// What of a part still shows, after which it hides what lies behind it.
    fn rest_of(&mut self, covers: Rect<CardFrame>) -> Option<Region<CardFrame>> {
        let within = |outer: &Rect<CardFrame>| outer.common(&covers) == Some(covers);
        if covers.is_empty() || self.whole.iter().any(within) {
            return None;
        }
        let part = Region::from(covers);
        let apart = self.whole.iter().all(|near| near.common(&covers).is_none());
        let rest = if apart {
            part.clone()
        } else {
            part.minus(&self.region)
        };
        self.region = self.region.and(&part);
        self.whole.push(covers);
        (!rest.is_empty()).then_some(rest)
    }
}
