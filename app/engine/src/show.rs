//! What shows of a card from the front and from the back.

use crate::fold::State;
use crate::plane::{CardFrame, Region};
use crate::recipe::{Face, Side};

/// From where the card is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum View {
    /// At the front, as the card lies on the table.
    Front,
    /// At the back, the card turned over like a page. Regions stay in the
    /// frame of the front: a drawing mirrors them.
    Back,
}

/// A face and the part of it that shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// The face.
    pub face: Face,
    /// What shows of it.
    pub region: Region<CardFrame>,
}

/// Every face that shows from one view, the nearest first.
pub fn shown(state: &State, view: View) -> Vec<Shown> {
    let nearest_first: Vec<usize> = match view {
        View::Front => state.order.iter().rev().copied().collect(),
        View::Back => state.order.clone(),
    };
    let mut hidden = Region::default();
    let mut all = Vec::new();
    for pose in nearest_first
        .iter()
        .filter_map(|place| state.poses.get(*place))
    {
        let covers = Region::from(pose.covers);
        let region = covers.minus(&hidden);
        // A mirrored panel turns its outside to the front.
        let side = if pose.place.mirrored == (view == View::Front) {
            Side::B
        } else {
            Side::A
        };
        if !region.is_empty() {
            hidden = hidden.and(&covers);
            all.push(Shown {
                face: Face {
                    panel: pose.panel,
                    side,
                },
                region,
            });
        }
    }
    all
}
