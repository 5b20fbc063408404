//! Where a face of the card is seen, with nothing lying on it.

use crate::card::Card;
use crate::faces::{View, faces_shown};
use crate::recipe::{Face, PanelId};

/// Where a face is first seen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sight {
    /// From the front of the closed card.
    Front,
    /// From the back of the closed card.
    Back,
    /// Once the card is open.
    Open,
    /// On the way to that, once these panels are opened.
    Opened(Vec<PanelId>),
    /// As the card opens, its creases moving together.
    Standing,
    /// Nowhere: as far as the card opens, something lies on it.
    Never,
}

/// The faces that show of the closed card, from its front or from its back.
pub fn seen_closed(card: &Card) -> Vec<Face> {
    let folded = card.folded.as_ref();
    let closed = folded.and_then(|folded| folded.states.first());
    let views = [View::Front, View::Back];
    let seen = closed.map(|closed| views.map(|view| faces_shown(closed, view, |_| true)));
    seen.into_iter().flatten().flatten().collect()
}

/// Where a face is first seen; nothing where the card does not fold.
pub fn sight(card: &Card, face: Face) -> Option<Sight> {
    let folded = card.folded.as_ref()?;
    for (number, state) in folded.states.iter().enumerate() {
        let shows = |view| !faces_shown(state, view, |asked| asked == face).is_empty();
        let together = state.opened.as_ref().is_some_and(|opened| opened.together);
        let front = shows(View::Front);
        if front || shows(View::Back) {
            return Some(match (number, front) {
                (0, true) => Sight::Front,
                (0, false) => Sight::Back,
                // What turns with everything else is seen on the way.
                _ if together => Sight::Standing,
                _ if number + 1 == folded.states.len() => Sight::Open,
                _ => {
                    let opened = state.opened.as_ref();
                    let swung = opened.map(|opened| opened.swung(&card.laid));
                    let swung = swung.filter(|panels| !panels.is_empty());
                    swung.map_or(Sight::Open, Sight::Opened)
                }
            });
        }
    }
    Some(match card.whole {
        Some(_) => Sight::Standing,
        None => Sight::Never,
    })
}
