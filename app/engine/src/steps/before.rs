//! Which steps have to come before which, and why.
//!
//! What is said here of two steps is said of these two alone: what follows over a third
//! is not repeated, but holds in every order that keeps to all of it.

use super::{Kind, Step, StepKey};
use crate::card::Card;
use crate::cut_plan::CutPlan;
use crate::part::Part;
use crate::plane::{FaceFrame, Rect};
use crate::recipe::{Face, LayerId, PieceId, Recipe, Seat, StripId};

/// Why a step comes before another. Each is common practice at the table, or follows
/// from how the steps are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Because {
    /// Paper and tools are taken out before anything else.
    Ready,
    /// A plan's setting cuts what has come off at those before it.
    PlanRuns,
    /// The pieces come off at that setting.
    ComesOff,
    /// What is worked on has been cut and trimmed.
    CutFirst,
    /// How paper is turned for a pass is told from how it lay in the one before.
    PassesRun,
    /// What is cut or scored in paper is, while it still lies flat.
    WhileFlat,
    /// What is cut or scored in paper is, before anything is glued on it.
    Unburdened,
    /// The card closes in that order.
    FoldsRun,
    /// A layer is glued on once what carries it is folded: its place is measured there,
    /// and a fold that is pressed shifts fresh glue.
    Folded,
    /// What is glued in closes with what carries it: both are folded by then.
    FoldedFirst,
    /// A layer is decorated while it lies by itself.
    Decorated,
    /// What lies under something is put on before it.
    LiesUnder,
    /// What belongs on a piece is put on while the piece can still be reached.
    OnPiece,
    /// A piece covers what lies on the side it is glued to.
    UnderPiece,
    /// Pieces are glued in in the order of the recipe.
    PiecesRun,
    /// All glue dries in one go.
    Dries,
    /// The finished card is tried in its envelope.
    Finished,
}

/// What a step does, as far as others depend on it.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Work {
    Gather,
    /// A setting of the plan.
    Setting(usize),
    /// Cutting a part, after so many settings.
    Cut(Part, usize),
    Trim(Part),
    /// Cutting or scoring a strip that lies flat; in which pass.
    Flat(StripId, Option<usize>),
    FoldPiece(PieceId),
    /// Folding the base, in which turn.
    Fold(usize),
    Decorate(LayerId),
    PutOn(Laid),
    GlueIn(Joined),
    Dry,
    Envelope,
    Own,
}

/// A layer that is put on.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Laid {
    id: LayerId,
    on: Seat,
    /// Its index among the layers.
    index: usize,
    is_glued: bool,
    /// The strip that carries it, perhaps through other layers.
    strip: StripId,
    face: Face,
    at: Rect<FaceFrame>,
}

/// A panel of a piece that is glued in.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Joined {
    piece: PieceId,
    /// Its turn among all that are glued in.
    turn: usize,
    on: Face,
    /// The strip it is glued to.
    strip: StripId,
}

/// Which of some steps have to come before which.
#[derive(Debug, Clone)]
pub struct Before {
    works: Vec<(StepKey, Work)>,
    /// What each layer lies on, for layers that lie on layers.
    under: Vec<(LayerId, LayerId)>,
}

impl Before {
    /// Of the steps of a card that is worked out, and cut by this plan.
    pub fn of(recipe: &Recipe, card: &Card, plan: Option<&CutPlan>, steps: &[Step]) -> Self {
        let mut folds = 0;
        let mut joins = 0;
        let mut work = |step: &Step| -> Option<Work> {
            Some(match step.key {
                StepKey::Gather => Work::Gather,
                StepKey::CutAt { setting, .. } => Work::Setting(setting),
                StepKey::Cut(part) => {
                    let after = plan.and_then(|plan| plan.ready_after(part));
                    Work::Cut(part, after.unwrap_or(0))
                }
                StepKey::Trim(part) => Work::Trim(part),
                StepKey::CutOut(id) => {
                    let mut strips = recipe.strips();
                    let of = strips
                        .find(|(_, strip)| strip.cutouts.iter().any(|cutout| cutout.id == id));
                    Work::Flat(of?.0, None)
                }
                StepKey::CutLine(id) | StepKey::ScoreLine(id) => {
                    let mut strips = recipe.strips();
                    let of = strips.find(|(_, strip)| strip.lines.iter().any(|line| line.id == id));
                    Work::Flat(of?.0, None)
                }
                StepKey::Score(of, pass) => Work::Flat(of, Some(pass)),
                StepKey::FoldPiece(id) => Work::FoldPiece(id),
                StepKey::Fold(..) => {
                    folds += 1;
                    Work::Fold(folds)
                }
                StepKey::Decorate(id) => Work::Decorate(id),
                StepKey::PutOn(id) => Work::PutOn(laid(recipe, card, id, step.kind)?),
                StepKey::GlueIn(piece, panel) => {
                    joins += 1;
                    let mut all = recipe.piece(piece)?.joins.iter();
                    let on = all.find(|join| join.panel == panel)?.on;
                    let (strip, ..) = recipe.strip_with(on.panel)?;
                    Work::GlueIn(Joined {
                        piece,
                        turn: joins,
                        on,
                        strip,
                    })
                }
                StepKey::Dry => Work::Dry,
                StepKey::Envelope => Work::Envelope,
                StepKey::Own(_) => Work::Own,
            })
        };
        let works = steps.iter().map(|step| {
            // What the recipe does not have depends on nothing.
            (step.key, work(step).unwrap_or(Work::Own))
        });
        let works = works.collect();
        let seats = recipe.layers.iter();
        let under = seats.filter_map(|layer| match layer.on {
            Seat::Layer(under) => Some((layer.id, under)),
            Seat::Face(_) => None,
        });
        Self {
            works,
            under: under.collect(),
        }
    }

    /// Why the one step has to come before the other; nothing where it need not, or
    /// where one of them is not there.
    pub fn why(&self, first: StepKey, then: StepKey) -> Option<Because> {
        let of = |key: StepKey| self.works.iter().position(|(of, _)| *of == key);
        self.why_at(of(first)?, of(then)?)
    }

    /// The same of two steps by their index in the usual order.
    pub(super) fn why_at(&self, first: usize, then: usize) -> Option<Because> {
        let (first, then) = (self.works.get(first)?.1, self.works.get(then)?.1);
        let is = |because: Because, so: bool| so.then_some(because);
        match (first, then) {
            (Work::Gather, Work::Gather) => None,
            (Work::Gather, _) => Some(Because::Ready),
            (Work::Own | Work::Envelope, _) | (_, Work::Own | Work::Gather) => None,
            (Work::Setting(one), Work::Setting(next)) => is(Because::PlanRuns, one < next),
            (Work::Setting(one), Work::Cut(_, after)) => is(Because::ComesOff, one < after),
            (Work::Cut(part, _), Work::Trim(trimmed)) => is(Because::CutFirst, part == trimmed),
            (_, Work::Envelope) => Some(Because::Finished),
            (Work::Cut(part, _) | Work::Trim(part), then) => {
                is(Because::CutFirst, takes(then, part))
            }
            (Work::Flat(of, Some(one)), Work::Flat(other, Some(next))) => {
                is(Because::PassesRun, of == other && one < next)
            }
            (Work::Flat(of, _), Work::Fold(_)) => is(Because::WhileFlat, of.is_base()),
            (Work::Flat(of, _), Work::FoldPiece(id)) => {
                is(Because::WhileFlat, of == StripId::Piece(id))
            }
            (Work::Flat(of, _), Work::PutOn(laid)) => is(Because::Unburdened, laid.strip == of),
            (Work::Flat(of, _), Work::GlueIn(joined)) => is(Because::Unburdened, joined.has(of)),
            (Work::Fold(one), Work::Fold(next)) => is(Because::FoldsRun, one < next),
            (Work::Fold(_), Work::PutOn(laid)) => is(Because::Folded, laid.strip.is_base()),
            (Work::Fold(_), Work::GlueIn(_)) => Some(Because::FoldedFirst),
            (Work::FoldPiece(id), Work::PutOn(laid)) => {
                is(Because::Folded, laid.strip == StripId::Piece(id))
            }
            (Work::FoldPiece(id), Work::GlueIn(joined)) => {
                is(Because::FoldedFirst, joined.has(StripId::Piece(id)))
            }
            (Work::Decorate(id), Work::PutOn(laid)) => is(Because::Decorated, laid.id == id),
            (Work::PutOn(one), Work::PutOn(other)) => {
                is(Because::LiesUnder, self.lies_under(&one, &other))
            }
            (Work::PutOn(laid), Work::GlueIn(joined)) => {
                if laid.strip == StripId::Piece(joined.piece) {
                    return Some(Because::OnPiece);
                }
                let panels = [laid.face, joined.on].map(|face| face.panel.strip_panel());
                let same = panels[0] == panels[1] && laid.face.side == joined.on.side;
                is(Because::UnderPiece, same)
            }
            (Work::GlueIn(one), Work::GlueIn(next)) => is(Because::PiecesRun, one.turn < next.turn),
            (Work::PutOn(laid), Work::Dry) => is(Because::Dries, laid.is_glued),
            (Work::GlueIn(_), Work::Dry) => Some(Because::Dries),
            _ => None,
        }
    }

    /// Whether a layer lies under another: it carries it, or both lie at one place of a
    /// side and it is the earlier in the recipe.
    fn lies_under(&self, one: &Laid, other: &Laid) -> bool {
        if self.carries(one.id, other.id) {
            return true;
        }
        let overlap = || {
            one.at
                .common(&other.at)
                .is_some_and(|both| !both.is_empty())
        };
        let earlier = one.index < other.index && one.face == other.face;
        earlier && overlap() && !self.carries(other.id, one.id)
    }

    /// Whether a layer carries another, perhaps through more.
    fn carries(&self, one: LayerId, other: LayerId) -> bool {
        let below = |id: &LayerId| {
            let mut under = self.under.iter();
            under
                .find(|(upper, _)| upper == id)
                .map(|(_, lower)| *lower)
        };
        let down = std::iter::successors(below(&other), below);
        // Where layers carry each other in a circle, the way down has no end.
        down.take(self.under.len()).any(|id| id == one)
    }
}

/// Whether a part has to be there for that.
fn takes(work: Work, part: Part) -> bool {
    match work {
        Work::Flat(of, _) => part == Part::Strip(of),
        Work::FoldPiece(id) => part == Part::Strip(StripId::Piece(id)),
        Work::Fold(_) => part == Part::Strip(StripId::Base),
        Work::Decorate(id) => part == Part::Layer(id),
        Work::PutOn(laid) => {
            let on = match laid.on {
                Seat::Layer(id) => Part::Layer(id),
                Seat::Face(_) => Part::Strip(laid.strip),
            };
            part == Part::Layer(laid.id) || part == on
        }
        Work::GlueIn(joined) => match part {
            Part::Strip(of) => joined.has(of),
            Part::Layer(_) => false,
        },
        Work::Gather
        | Work::Setting(_)
        | Work::Cut(..)
        | Work::Trim(_)
        | Work::Dry
        | Work::Envelope
        | Work::Own => false,
    }
}

impl Joined {
    /// Whether it joins that strip to another.
    fn has(&self, strip: StripId) -> bool {
        strip == self.strip || strip == StripId::Piece(self.piece)
    }
}

fn laid(recipe: &Recipe, card: &Card, id: LayerId, kind: Kind) -> Option<Laid> {
    let mut layers = card.laid.layers.iter();
    let index = layers.position(|laid| laid.id == id)?;
    let laid = card.laid.layers.get(index)?;
    let (strip, ..) = recipe.strip_with(laid.face.panel)?;
    Some(Laid {
        id,
        on: recipe.layer(id)?.on,
        index,
        is_glued: kind == Kind::Glue,
        strip,
        face: laid.face,
        at: laid.at,
    })
}
