//! Where a face of the card is seen, with nothing lying on it.

use crate::card::Card;
use crate::problem::sentence;
use crate::recipe::{Face, Recipe};
use crate::show::{View, faces_shown};
use crate::words::{face_name, swung};

/// Where a face is first seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sight {
    /// From the front of the closed card.
    Front,
    /// From the back of the closed card.
    Back,
    /// In a later state of the opening, by its place, lying flat.
    Opened(usize),
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
                _ => Sight::Opened(number),
            });
        }
    }
    Some(match card.whole {
        Some(_) => Sight::Standing,
        None => Sight::Never,
    })
}

/// Where a face is first seen, in a sentence: "The outside of step is hidden
/// while the card is closed; it shows once front is opened."
pub fn sight_words(recipe: &Recipe, card: &Card, face: Face, sight: Sight) -> String {
    let name = face_name(recipe, face);
    let where_seen = match sight {
        Sight::Front => "shows on the front of the closed card".to_owned(),
        Sight::Back => "shows on the back of the closed card".to_owned(),
        Sight::Opened(number) => {
            let states = card.folded.as_ref().map_or(1, |folded| folded.states.len());
            let folded = card.folded.as_ref();
            let opened = folded.and_then(|folded| folded.states.get(number)?.opened.as_ref());
            let swung = opened.and_then(|opened| swung(recipe, card, opened));
            let moment = match swung {
                Some(swung) if number + 1 < states => format!("{swung} is opened"),
                _ => "the card is open".to_owned(),
            };
            format!("is hidden while the card is closed; it shows once {moment}")
        }
        Sight::Standing => {
            "is hidden while the card is closed; it shows as the card opens".to_owned()
        }
        Sight::Never => "never shows: something lies on it as far as the card opens".to_owned(),
    };
    format!("{}.", sentence(format!("{name} {where_seen}")))
}
