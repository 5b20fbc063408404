//! The stages of the opening.

use crate::card::Card;
use crate::fold::{Opened, State};
use crate::recipe::PanelId;

/// A stage of the opening.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stage {
    /// The card does not fold flat.
    NotFlat,
    /// It is closed.
    Closed,
    /// It is closed, and something holds it shut.
    HeldShut,
    /// It has no fold.
    NoFold,
    /// It is open, and something stands up in it.
    Open,
    /// It lies flat.
    Flat,
    /// It is as far open as it goes.
    Stopped(Stop),
    /// Something is on its way.
    Opening(Swung),
    /// Something has opened.
    Opened {
        /// What.
        swung: Swung,
        /// Whether the card opens no further.
        stops: bool,
    },
}

/// How far a card opens that does not open all the way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stop {
    /// To an angle, in whole degrees.
    Degrees(u16),
    /// Flat, and still not as far as it should.
    AsFarAsItGoes,
}

/// What swings when creases open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Swung {
    /// All of the card.
    Card,
    /// The panels beside the creases that turn.
    Panels(Vec<PanelId>),
}

/// The stage of the opening when so many scores are opened.
pub fn stage(card: &Card, opened: f64) -> Stage {
    let states = card.folded.as_ref().map(|folded| &folded.states[..]);
    let Some(states) = states else {
        return Stage::NotFlat;
    };
    let last = states.len().saturating_sub(1);
    let reached = |number: usize| f64::from(u32::try_from(number).unwrap_or(u32::MAX)) <= opened;
    let number = (1..=last).take_while(|number| reached(*number)).count();
    let between = !reached(number) || opened.fract() > 0.0;
    let stops = card.folded.as_ref().is_some_and(|folded| folded.stops);
    if number == last && !stops {
        if let Some(stop) = stop(card) {
            return Stage::Stopped(stop);
        }
        let stands = states.last().is_some_and(State::stands);
        return match (last, stands) {
            (0, _) => Stage::NoFold,
            (_, true) => Stage::Open,
            (_, false) => Stage::Flat,
        };
    }
    let opening = number + usize::from(between && number < last);
    if opening == 0 {
        return if number == last {
            Stage::HeldShut
        } else {
            Stage::Closed
        };
    }
    let opened = states.get(opening).and_then(|state| state.opened.as_ref());
    let swung = opened.map_or(Swung::Panels(Vec::new()), |opened| swung(card, opened));
    if between && number < last {
        Stage::Opening(swung)
    } else {
        Stage::Opened {
            swung,
            stops: number == last,
        }
    }
}

/// How far a card opens that does not open all the way; `None` for the others.
pub(crate) fn stop(card: &Card) -> Option<Stop> {
    let degrees = card.whole.as_ref()?.stops_at?.round();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "it is rounded, and between nothing and half a turn"
    )]
    let whole = degrees as u16;
    Some(if degrees < 180.0 {
        Stop::Degrees(whole)
    } else {
        Stop::AsFarAsItGoes
    })
}

fn swung(card: &Card, opened: &Opened) -> Swung {
    if opened.together {
        Swung::Card
    } else {
        Swung::Panels(opened.swung(&card.laid))
    }
}
