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
    /// While the card stands open: it never lies flat to be seen.
    Standing,
    /// Nowhere: as far as the card opens, something lies on it.
    Never,
}

impl Sight {
    /// Whether it is seen of the closed card.
    pub const fn is_closed(self) -> bool {
        matches!(self, Self::Front | Self::Back)
    }
}

/// Where each face of every panel is first seen; nothing where the card does
/// not fold.
pub fn sights(card: &Card) -> Vec<(Face, Sight)> {
    let Some(folded) = &card.folded else {
        return Vec::new();
    };
    let mut found: Vec<(Face, Sight)> = Vec::new();
    let mut add = |faces: Vec<Face>, sight: Sight| {
        for face in faces {
            if found.iter().all(|(known, _)| *known != face) {
                found.push((face, sight));
            }
        }
    };
    for (number, state) in folded.states.iter().enumerate() {
        let together = state.opened.as_ref().is_some_and(|opened| opened.together);
        for view in [View::Front, View::Back] {
            let sight = match (number, view) {
                (0, View::Front) => Sight::Front,
                (0, View::Back) => Sight::Back,
                // What turns with everything else is seen on the way.
                _ if together => Sight::Standing,
                _ => Sight::Opened(number),
            };
            add(faces_shown(state, view), sight);
        }
    }
    let rest = if card.whole.is_some() {
        Sight::Standing
    } else {
        Sight::Never
    };
    let panels = card.laid.panels.iter();
    let all = panels.flat_map(|panel| {
        [crate::recipe::Side::A, crate::recipe::Side::B].map(|side| Face {
            panel: panel.id,
            side,
        })
    });
    add(all.collect(), rest);
    found
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
