//! Where the faces of the card are seen, with nothing lying on them, and which of
//! them show the white back of their paper.

use std::collections::BTreeMap;

use crate::card::Card;
use crate::faces::{View, areas_shown};
use crate::fold::{Folded, State};
use crate::paper::StockId;
use crate::part::Part;
use crate::recipe::{Face, PanelId, Placing, Recipe, Seat, Side};
use crate::sorted::InOrder as _;

/// The share of a face that is to show at least where it is said to be seen, as one of so
/// many: less is the gap between two leaves, or an edge that peeps out. (Own choice.)
const SEEN: i128 = 20;

/// Where a face is first seen: more of it than an edge, unless no more ever shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sight {
    /// From the front of the closed card.
    Front,
    /// From the back of the closed card.
    Back,
    /// On the way to the open card.
    Opened {
        /// At which opening, the first of which is 1.
        opening: usize,
        /// The panels that are opened then.
        panels: Vec<PanelId>,
    },
    /// Once the card is fully open, from there.
    Open(View),
    /// As the card opens, its creases moving together.
    Standing,
    /// Nowhere: as far as the card opens, something lies on it.
    Never,
}

/// A face and where it is first seen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Seen {
    /// The face.
    pub face: Face,
    /// Where it is first seen.
    pub sight: Sight,
    /// The state in which that is, by its index in the order of opening, and from
    /// where; nothing where no state that lies flat shows it.
    pub at: Option<(usize, View)>,
}

/// Where every face of every panel is first seen, in the order in which they are seen:
/// what is seen of the closed card comes first, what is never seen last. Of those that are
/// seen together each panel comes in its order, its outside before its inside. Nothing where
/// the card does not fold.
pub fn sights(card: &Card) -> Vec<Seen> {
    let Some(folded) = &card.folded else {
        return Vec::new();
    };
    let mut first: BTreeMap<Face, (usize, View)> = BTreeMap::new();
    let mut edges: BTreeMap<Face, (usize, View)> = BTreeMap::new();
    for (number, state) in folded.states.iter().enumerate() {
        for view in [View::Front, View::Back] {
            if first.len() >= 2 * state.poses.len() {
                break;
            }
            let shown = areas_shown(state, view, |face| !first.contains_key(&face));
            for (face, [shows, whole]) in shown {
                let is_seen = shows * SEEN >= whole;
                let seen = if is_seen { &mut first } else { &mut edges };
                seen.entry(face).or_insert((number, view));
            }
        }
    }
    let panels = card.laid.panels.iter();
    let faces = panels.flat_map(|panel| {
        [Side::B, Side::A].map(|side| Face {
            panel: panel.id,
            side,
        })
    });
    let mut seen: Vec<Seen> = faces
        .map(|face| {
            let at = first.get(&face).or(edges.get(&face)).copied();
            let sight = match at.and_then(|at| Some((at, folded.states.get(at.0)?))) {
                Some((at, state)) => sight(card, folded, at, state),
                None if card.whole.is_some() => Sight::Standing,
                None => Sight::Never,
            };
            Seen { face, sight, at }
        })
        .collect();
    seen.put_in_order_by_key(|seen| match seen.at {
        Some((state, view)) => (state, view == View::Back),
        None => (usize::MAX, false),
    });
    seen
}

fn sight(card: &Card, folded: &Folded, at: (usize, View), state: &State) -> Sight {
    let opened = state.opened.as_ref();
    match at {
        (0, View::Front) => Sight::Front,
        (0, View::Back) => Sight::Back,
        // What turns with everything else is seen on the way.
        _ if opened.is_some_and(|opened| opened.together) => Sight::Standing,
        (number, view) if number + 1 == folded.states.len() => Sight::Open(view),
        (opening, _) => Sight::Opened {
            opening,
            panels: opened.map_or_else(Vec::new, |opened| opened.swung(&card.laid)),
        },
    }
}

/// The faces that are seen and show the white back of their paper, with that paper.
/// One with a layer on it that leaves an even border is not among them: what shows of it
/// is meant to.
pub fn white_backs(recipe: &Recipe, card: &Card, sights: &[Seen]) -> Vec<(Face, StockId)> {
    let seen = sights.iter().filter(|seen| seen.sight != Sight::Never);
    seen.filter_map(|seen| {
        let face = seen.face;
        let (of, strip, _) = recipe.strip_with(face.panel)?;
        let stock = recipe.stock(strip.stock)?;
        let lay = card.lies(Part::Strip(of))?.lay;
        let is_matted = recipe
            .layers
            .iter()
            .any(|layer| layer.on == Seat::Face(face) && matches!(layer.place, Placing::Border(_)));
        let shows_it = stock.white_back() == Some(lay.stock_side(face.side));
        (shows_it && !is_matted).then_some((face, stock.id))
    })
    .collect()
}
