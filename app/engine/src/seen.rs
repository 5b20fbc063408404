//! What a drawing shows, for those who cannot see it.

use crate::card::Card;
use crate::faces::{Part, View, shown};
use crate::length::Length;
use crate::pattern::{Facet, LineId, LineKind};
use crate::plane::{Size, bounds};
use crate::recipe::{LayerId, PanelId, Recipe, Side, StripId};
use crate::stage::{Stop, stop};

/// A third of a length, from the left or from the bottom.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names are the three thirds")]
pub enum Third {
    First,
    Middle,
    Last,
}

/// A part that falls off, by its size and in which third of the flat piece its
/// middle is, seen from side A.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fallen {
    /// How large it is.
    pub size: Size,
    /// From the left.
    pub across: Third,
    /// From the bottom.
    pub up: Third,
}

/// The base, or a piece glued in, flat with one side up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FlatSeen {
    /// Whose it is.
    pub of: StripId,
    /// How large it is.
    pub size: Size,
    /// Its panels from the left, seen from side A, with their widths.
    pub panels: Vec<(PanelId, Length)>,
    /// Its scores, creases and cuts, which fold as the side that is up shows.
    pub lines: Vec<(LineId, LineKind)>,
    /// What falls off it.
    pub fallen: Vec<Fallen>,
    /// What lies on the side that is up, with its size.
    pub on: Vec<(LayerId, Size)>,
}

/// A state of the folded card from one side.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StateSeen {
    /// The card does not fold flat.
    NotFlat,
    /// It opens as far as it goes, which is no state that lies flat.
    Stopped(Stop),
    /// It lies there.
    Lies {
        /// How large it is.
        size: Size,
        /// What shows of it from the nearest to the farthest, with its size
        /// where it has one.
        parts: Vec<(Part, Option<Size>)>,
        /// The panels that stand up.
        standing: Vec<PanelId>,
    },
}

/// A part that falls off. `None` where there is no such part.
pub fn fallen(card: &Card, of: StripId, part: usize) -> Option<Fallen> {
    let piece = card.laid.piece(of)?;
    let corners = piece.fallen.get(part)?.iter();
    let corners: Vec<_> = corners.flat_map(Facet::corners).collect();
    let within = bounds(&corners)?;
    let third = |low: Length, high: Length, whole: Length| {
        let middle = (low + high) * 3;
        if middle < whole * 2 {
            Third::First
        } else if middle <= whole * 4 {
            Third::Middle
        } else {
            Third::Last
        }
    };
    Some(Fallen {
        size: within.size(),
        across: third(within.low.x, within.high.x, piece.size.width),
        up: third(within.low.y, within.high.y, piece.size.height),
    })
}

/// The base, or a piece glued in, flat with one side up. `None` where there is
/// no such piece.
pub fn flat_seen(recipe: &Recipe, card: &Card, of: StripId, up: Side) -> Option<FlatSeen> {
    let (piece, strip) = (card.laid.piece(of)?, recipe.strip(of)?);
    let panels = strip.panels.iter();
    let panels = panels.map(|panel| (panel.id, recipe.value(panel.width)));
    let turned = |kind: LineKind| match (kind, up) {
        (LineKind::Crease(fold), Side::B) => LineKind::Crease(fold.flipped()),
        (kind, _) => kind,
    };
    let scores = strip.folds.iter().zip(&strip.panels).enumerate();
    let scores = scores.map(|(index, (fold, panel))| {
        let line = LineId::of_strip_score(of, index, panel.id);
        (line, LineKind::Crease(*fold))
    });
    let lines = strip.lines.iter();
    let lines = lines.map(|line| (LineId::of_line(line.id), line.kind));
    let lines = scores.chain(lines);
    let on = card.laid.layers.iter().filter(|layer| {
        let index = card.laid.index_of(layer.face.panel);
        layer.face.side == up && index.is_some_and(|index| piece.panels.contains(&index))
    });
    Some(FlatSeen {
        of,
        size: piece.size,
        panels: panels.collect(),
        lines: lines.map(|(line, kind)| (line, turned(kind))).collect(),
        fallen: (0..piece.fallen.len())
            .filter_map(|part| fallen(card, of, part))
            .collect(),
        on: on.map(|layer| (layer.id, layer.at.size())).collect(),
    })
}

/// A state of the folded card from one side. `None` where there is no such
/// state.
pub fn state_seen(card: &Card, number: usize, view: View) -> Option<StateSeen> {
    let Some(folded) = &card.folded else {
        return Some(StateSeen::NotFlat);
    };
    let state = folded.states.get(number)?;
    let together = state.opened.as_ref().is_some_and(|opened| opened.together);
    if let (true, Some(stop)) = (together, stop(card)) {
        return Some(StateSeen::Stopped(stop));
    }
    let parts = shown(state, view, &card.laid.layers, &card.readings);
    let parts = parts.iter().map(|shown| {
        let size = match shown.part {
            Part::Face(face) => {
                let panel = card.laid.index_of(face.panel);
                let panel = panel.and_then(|index| card.laid.panels.get(index));
                let bounds = panel.and_then(|panel| panel.facet.outline.bounds());
                bounds.map(|bounds| bounds.size())
            }
            Part::Layer(id) | Part::LayerBack(id) => {
                card.laid.layer(id).map(|layer| layer.at.size())
            }
        };
        let size = size.filter(|size| size.width > Length::ZERO);
        (shown.part, size)
    });
    let standing = state.poses.iter().filter(|pose| pose.stands);
    Some(StateSeen::Lies {
        size: state.size(),
        parts: parts.collect(),
        standing: standing.map(|pose| pose.panel).collect(),
    })
}
