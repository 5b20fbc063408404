//! The card in space: at any moment of its opening, and as it stands on a table.
//!
//! Lengths are millimetres and in floating point, as in [`motion`](crate::motion):
//! where a card stands follows from turns by any angle.

mod balance;
mod leaves;
mod settle;
mod swing;

pub use balance::{Footing, Stands};
pub use settle::{Standing, set_down};

use crate::card::{Card, WholeOpening, lay_in_plane};
use crate::fold::{Folded, State};
use crate::motion::Rigid;

/// Part of the way from one state of the card to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// The state left behind, by its index in the order of opening.
    pub state: usize,
    /// How much of the next score's opening is done, 0 to 1.
    pub part: f64,
}

impl Moment {
    /// The moment at a share of the whole opening: 0 is closed, 1 is flat.
    pub fn at(share: f64, folded: &Folded) -> Self {
        let steps = folded.states.len().saturating_sub(1);
        let way = share.clamp(0.0, 1.0) * f64::from(u32::try_from(steps).unwrap_or(u32::MAX));
        let state = folded
            .states
            .iter()
            .enumerate()
            .map(|(number, _)| number)
            .take_while(|number| f64::from(u32::try_from(*number).unwrap_or(u32::MAX)) <= way)
            .last()
            .unwrap_or(0);
        let part = way - f64::from(u32::try_from(state).unwrap_or(u32::MAX));
        Self { state, part }
    }
}

/// The panels that swing about a crease at a moment, by their index among all, and
/// where they are; none where nothing swings by itself.
pub(crate) fn swinging(card: &Card, moment: Moment) -> Vec<(usize, Rigid)> {
    let states = card
        .folded
        .as_ref()
        .map_or(&[][..], |folded| &folded.states);
    let (Some(now), Some(next)) = (states.get(moment.state), states.get(moment.state + 1)) else {
        return Vec::new();
    };
    if moment.part <= 0.0 {
        return Vec::new();
    }
    let Some(swing) = swing::swing(card, now, next, moment.part) else {
        return Vec::new();
    };
    let moved = next.opened.iter().flat_map(|opened| &opened.moved);
    let placed = moved.filter_map(|number| {
        let pose = now.poses.get(*number).filter(|pose| !pose.stands)?;
        let place = lay_in_plane(&pose.place).in_space();
        Some((*number, swing.after(&place)))
    });
    placed.collect()
}

/// Where every panel of a card is in space.
#[derive(Debug, Clone, PartialEq)]
pub struct Posed {
    /// The panels by their index among all, from the flat piece to the card, which
    /// lies on the table with its front up. `None` for what hangs on nothing.
    pub panels: Vec<Option<Rigid>>,
    /// The state in which panels that touch lie on each other as they do here,
    /// by its index in the order of opening.
    pub touching: usize,
}

impl Posed {
    /// The card at a moment of its opening fold by fold; `None` where it does not
    /// fold or has no such moment.
    pub fn at(card: &Card, moment: Moment) -> Option<Self> {
        let folded = card.folded.as_ref()?;
        let now = folded.states.get(moment.state)?;
        let together = |state: &State| state.opened.as_ref().is_some_and(|it| it.together);
        // Where it stands up, or opens no further, it does not lie as its last
        // state has it.
        let ends_in_space = |whole: &WholeOpening| now.stands() || whole.stops_at.is_some();
        if let Some(whole) = &card.whole {
            if together(now) && ends_in_space(whole) {
                return Some(Self::of_whole(whole, 1.0));
            }
            let next = folded.states.get(moment.state + 1);
            if moment.part > 0.0 && next.is_some_and(together) {
                return Some(Self::of_whole(whole, moment.part));
            }
        }
        let lying = now.poses.iter();
        let mut panels: Vec<Option<Rigid>> = lying
            .map(|pose| (!pose.stands).then(|| lay_in_plane(&pose.place).in_space()))
            .collect();
        for (number, place) in swinging(card, moment) {
            if let Some(panel) = panels.get_mut(number) {
                *panel = Some(place);
            }
        }
        Some(Self {
            panels,
            touching: moment.state,
        })
    }

    /// The card at a share of its opening as a whole, from 0 closed to 1 as far as
    /// it goes.
    pub fn of_whole(whole: &WholeOpening, share: f64) -> Self {
        Self {
            panels: whole.pose_at(share).facets.into_iter().map(Some).collect(),
            touching: 0,
        }
    }

    /// All of it moved.
    #[must_use]
    pub fn moved(&self, by: &Rigid) -> Self {
        let panels = self.panels.iter();
        Self {
            panels: panels
                .map(|place| Some(by.after(place.as_ref()?)))
                .collect(),
            touching: self.touching,
        }
    }
}
