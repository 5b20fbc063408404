//! The figure as it is written into the page, with where its numbers and
//! scores lie.

use std::sync::Arc;

use foldwright_engine::card::{Card, WholeOpening};
use foldwright_engine::draw::{
    self, Colouring, Direction, Drawing, FirstLook, Mark, Moment, Role, Written, svg,
};
use foldwright_engine::faces::View;
use foldwright_engine::pattern::LineId;
use foldwright_engine::posed::Stands;
use foldwright_engine::recipe::{CutoutId, DrawnLineId, End, MeasureId, Recipe, Side, StripId};

use super::turning::OPENING;
use crate::album::address;

/// What of the card is looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Look {
    /// The base, or a piece glued in, before it is folded, one side up.
    Flat(StripId, Side),
    /// The folded card from one side.
    Closed(View),
    /// The card partly open on its table, and from where, unless it is looked at from
    /// where it is seen best.
    Standing(Option<Direction>),
    /// The card on its way open: how many scores are done, and from where, unless it
    /// is looked at as at first.
    Opening(f64, Option<Direction>),
    /// The card opened with all its scores at once, by a share of that, and from where.
    Together(f64, Option<Direction>),
}

/// What takes a while to find, and is kept while the card is only turned.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Found {
    /// How the card stands.
    Stands(FirstLook),
    /// How it opens with all its scores at once.
    Opens(WholeOpening),
}

impl Found {
    /// From where it is looked at first.
    pub(super) fn direction(&self) -> Direction {
        match self {
            Self::Stands(look) => look.direction,
            Self::Opens(_) => OPENING,
        }
    }

    /// Whether the card stands, where that was found.
    pub(super) fn stands(&self) -> Option<Stands> {
        match self {
            Self::Stands(look) => Some(look.stands),
            Self::Opens(_) => None,
        }
    }
}

impl Look {
    /// Whether lengths are not seen as long as they are.
    pub(super) fn is_aslant(self) -> bool {
        matches!(
            self,
            Self::Opening(_, Some(_)) | Self::Together(..) | Self::Standing(_)
        )
    }
}

/// A number of the figure, at shares of its width and height from the left and
/// the top.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct NumberSpot {
    pub(super) measure: MeasureId,
    pub(super) left: f64,
    pub(super) top: f64,
}

/// An end of a line of the figure, or its middle, in shares of the figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct EndSpot {
    pub(super) line: DrawnLineId,
    /// One of its ends, or none for the line as a whole, held by its middle.
    pub(super) end: Option<End>,
    /// Whether the ends leave no room between them, and which way is aside.
    pub(super) aside: Option<[f64; 2]>,
    pub(super) left: f64,
    pub(super) top: f64,
}

/// A score of the figure, from top to bottom, in shares of the figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ScoreSpot {
    pub(super) score: LineId,
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) height: f64,
}

/// The middle of a window of the figure, in shares of the figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct WindowSpot {
    pub(super) window: CutoutId,
    pub(super) left: f64,
    pub(super) top: f64,
}

/// A drawing written out.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Picture {
    /// Written out; shared with the page, which keeps what it shows.
    pub(super) drawn: Arc<Written>,
    /// What is drawn, to be chosen from.
    pub(super) drawing: Drawing,
    /// Width and height in millimetres.
    pub(super) size: [f64; 2],
    pub(super) numbers: Vec<NumberSpot>,
    pub(super) scores: Vec<ScoreSpot>,
    pub(super) ends: Vec<EndSpot>,
    pub(super) windows: Vec<WindowSpot>,
    /// Whether the strip is drawn with its outside up.
    pub(super) turned: bool,
}

/// The share of the figure's width a line takes at least that has room for a
/// third handle between its ends.
const ROOM: f64 = 0.36;

/// How far the ruler runs on past the figure, as a share of its longer side:
/// past the edge of most screens.
const BEYOND: f64 = 1.0;

/// What a look at the card shows. Arrows show which way the print runs where
/// `heads` is asked for; what it stands or opens by was `found` before.
pub(super) fn looked_at(
    (recipe, card): (&Recipe, &Card),
    look: Look,
    heads: bool,
    found: Option<&Found>,
) -> Drawing {
    let drawing = match (look, found) {
        (Look::Standing(from), Some(Found::Stands(stands))) => {
            let seen = (from.unwrap_or(stands.direction), Colouring::Paper);
            draw::on_table(recipe, card, &stands.posed, seen)
        }
        (Look::Together(share, from), Some(Found::Opens(whole))) => {
            let from = from.unwrap_or(OPENING);
            draw::opening_together(recipe, card, (whole, share), from)
        }
        (Look::Standing(_) | Look::Together(..), _) => draw::state(recipe, card, 0, View::Front),
        (Look::Flat(of, up), _) => draw::flat(recipe, card, of, up),
        (Look::Closed(view), _) => draw::state(recipe, card, 0, view),
        (Look::Opening(steps, from), _) => {
            let moment = card.folded.as_ref().map(|folded| {
                let all = folded.states.len().saturating_sub(1).max(1);
                let all = u32::try_from(all).unwrap_or(u32::MAX);
                Moment::at(steps / f64::from(all), folded)
            });
            let moment = moment.unwrap_or(Moment {
                state: 0,
                part: 0.0,
            });
            match from {
                Some(from) => draw::opening_from(recipe, card, moment, from),
                None => draw::opening(recipe, card, moment),
            }
        }
    };
    if heads { drawing.with_heads() } else { drawing }
}

impl Picture {
    /// What a look at the card shows, on a table where a ruler lies.
    pub(super) fn of(of: (&Recipe, &Card), look: Look, heads: bool, found: Option<&Found>) -> Self {
        let drawing = looked_at(of, look, heads, found);
        let [width, height] = drawing.size();
        let beyond = BEYOND * width.max(height);
        // What lies aslant cannot be measured.
        let drawing = if look.is_aslant() {
            drawing
        } else {
            drawing.with_ruler(of.0.notation, beyond)
        };
        Self {
            turned: matches!(look, Look::Flat(_, Side::B)),
            ..Self::written(drawing, "figure")
        }
    }

    /// Where a place of the drawing lies, in shares of the figure from the left and the
    /// top.
    pub(super) fn share(&self, at: [f64; 2]) -> [f64; 2] {
        share(&self.drawing, at)
    }

    /// Writes a drawing out under a name no other one on the page has.
    pub(super) fn written(drawing: Drawing, name: &str) -> Self {
        let drawn = svg(&drawing, name, &address);
        let size = drawing.size();
        let left = |x: f64| share(&drawing, [x, 0.0])[0];
        let top = |y: f64| share(&drawing, [0.0, y])[1];
        let mut numbers = Vec::new();
        let mut scores = Vec::new();
        let mut ends = Vec::new();
        let mut windows = Vec::new();
        for mark in &drawing.marks {
            match mark {
                Mark::Text {
                    at,
                    role: Role::Number(measure),
                    ..
                } => numbers.push(NumberSpot {
                    measure: *measure,
                    left: left(at[0]),
                    top: top(at[1]),
                }),
                Mark::Grip { at, window } => windows.push(WindowSpot {
                    window: *window,
                    left: left(at[0]),
                    top: top(at[1]),
                }),
                Mark::Line {
                    from,
                    to,
                    line: Some(id),
                    ..
                } => match id.line() {
                    None => scores.push(ScoreSpot {
                        score: *id,
                        left: left(from[0]),
                        top: top(from[1].max(to[1])),
                        height: (from[1] - to[1]).abs() / size[1],
                    }),
                    Some(line) => {
                        let middle = [0, 1].map(|i| f64::midpoint(from[i], to[i]));
                        let way = [0, 1].map(|i| (to[i] - from[i]) / size[0]);
                        let long = way[0].hypot(way[1]);
                        let is_short = long < ROOM && long > 0.0;
                        let aside = is_short.then(|| [way[1] / long, way[0] / long]);
                        for (end, aside, at) in [
                            (None, aside, &middle),
                            (Some(End::From), None, from),
                            (Some(End::To), None, to),
                        ] {
                            ends.push(EndSpot {
                                line,
                                end,
                                aside,
                                left: left(at[0]),
                                top: top(at[1]),
                            });
                        }
                    }
                },
                _ => {}
            }
        }
        Self {
            drawn: Arc::new(drawn),
            drawing,
            size,
            numbers,
            scores,
            ends,
            windows,
            turned: false,
        }
    }

    /// Width over height.
    pub(super) fn ratio(&self) -> f64 {
        self.size[0] / self.size[1]
    }
}

fn share(drawing: &Drawing, [x, y]: [f64; 2]) -> [f64; 2] {
    let [width, height] = drawing.size();
    [(x - drawing.low[0]) / width, (drawing.high[1] - y) / height]
}
