//! The card opened as a whole, where its creases only move together.

use std::collections::BTreeSet;
use std::f64::consts::PI;
use std::sync::{Arc, OnceLock};

use super::Card;
use crate::fold::Folded;
use crate::laid::LaidOut;
use crate::length::Length;
use crate::motion::{Assembly, Bond, Facet, Finding, Hinge, Lay, Opening, Pose, Sense};
use crate::pattern::Angle;
use crate::plane::{PieceFrame, Placement, Point, Polygon};
use crate::problem::{self, OpeningFinding, Place, Problem};
use crate::recipe::{Fold, PieceId, Recipe};

/// How the card opens as a whole. Two are the same where their parts are.
#[derive(Debug, Clone)]
pub struct WholeOpening {
    assembly: Assembly,
    opening: Arc<Opening>,
    looks: Arc<OnceLock<Vec<Pose>>>,
    /// How far its main fold opens, in degrees, where that is not all the way.
    pub stops_at: Option<f64>,
}

/// Within which angle a crease is flat, in radians (0.6°): nothing that paper
/// shows.
const FLAT: f64 = 0.01;

/// How many poses tell the room an opening takes, after the first.
const LOOKS: u32 = 12;

impl PartialEq for WholeOpening {
    fn eq(&self, other: &Self) -> bool {
        self.assembly == other.assembly
    }
}

impl WholeOpening {
    /// Where every panel lies at a share of the opening, from 0 closed to 1 as
    /// far as it goes; panels by their index in the piece, in millimetres in
    /// the frame of the card.
    pub fn pose_at(&self, share: f64) -> Pose {
        self.opening.pose_at(share)
    }

    /// Poses in equal steps from closed to the end. They are found once, when
    /// they are first asked for.
    pub(crate) fn looks(&self) -> &[Pose] {
        self.looks
            .get_or_init(|| self.opening.poses(LOOKS).collect())
    }
}

/// How the card opens where some of its creases cannot open by themselves.
#[derive(Default)]
pub(super) struct Opens {
    /// As a whole; `None` where it opens fold by fold, or not at all.
    pub(super) whole: Option<WholeOpening>,
    /// Whether something holds it shut.
    pub(super) is_stuck: bool,
    /// What is in the way.
    pub(super) problems: Vec<Problem>,
}

/// Opens the card as a whole where some of its creases cannot open by
/// themselves, and says what is in the way.
pub(super) fn open(recipe: &Recipe, laid: &LaidOut, folded: &Folded) -> Opens {
    let needed = folded.opens_together();
    let Some(assembly) = needed.then(|| assembly(recipe, laid, folded)).flatten() else {
        return Opens::default();
    };
    let (opening, findings) = match Opening::of(&assembly) {
        Ok(opening) => {
            let findings = opening.findings.clone();
            (Some(opening), findings)
        }
        Err(findings) => (None, findings),
    };
    // That glue holds what lies still on one page is no fault.
    let held = |finding: &&Finding| match finding {
        Finding::Locked { hinge, .. } => folded.held.contains(hinge),
        _ => false,
    };
    let said = findings
        .iter()
        .filter(|finding| !held(finding))
        .filter_map(|finding| problem(recipe, laid, folded, finding));
    let problems = said.collect();
    let stops_early = |finding: &Finding| match finding {
        Finding::Jam { hinge, .. } => *hinge == assembly.main,
        Finding::Locked { .. } | Finding::Unclosed { .. } => !held(&finding),
        Finding::Contradiction { .. } => true,
        _ => false,
    };
    let degrees = opening.as_ref().map_or(0.0, Opening::degrees);
    let early = findings.iter().any(stops_early);
    let is_stuck = opening.is_none() || (early && degrees <= 0.0);
    let whole = opening.filter(|_| !is_stuck).map(|opening| WholeOpening {
        assembly,
        opening: Arc::new(opening),
        looks: Arc::default(),
        stops_at: early.then_some(degrees),
    });
    Opens {
        whole,
        is_stuck,
        problems,
    }
}

/// The card opened with all its creases at once, whether or not they could
/// open one after another; `None` where it does not fold, has no crease, or does
/// not come to lie open so.
pub fn all_together(recipe: &Recipe, card: &Card) -> Option<WholeOpening> {
    if card.whole.is_some() {
        return card.whole.clone();
    }
    let folded = card.folded.as_ref().filter(|folded| !folded.stops)?;
    let assembly = assembly(recipe, &card.laid, folded)?;
    let opening = Opening::of(&assembly).ok()?;
    let goes_through = |finding: &Finding| matches!(finding, Finding::Collision { .. });
    let open = opening.pose_at(1.0);
    let lies_open = open.angles.iter().all(|angle| angle.abs() < FLAT);
    let is_free = lies_open && !opening.findings.iter().any(goes_through);
    is_free.then(|| WholeOpening {
        assembly,
        opening: Arc::new(opening),
        looks: Arc::default(),
        stops_at: None,
    })
}

/// What the reader opens: the crease between the panel on the table and the
/// largest one beside it.
pub(super) fn main_fold(laid: &LaidOut, root: usize) -> Option<usize> {
    let of_root = |hinge: &usize| {
        let hinge = &laid.hinges[*hinge];
        [hinge.left, hinge.right].contains(&root)
    };
    let beside = |hinge: &usize| {
        let hinge = &laid.hinges[*hinge];
        let panel = laid.panels.get(hinge.across(root));
        panel.map_or(0, |panel| panel.facet.twice_area())
    };
    (0..laid.hinges.len()).filter(of_root).max_by_key(beside)
}

fn assembly(recipe: &Recipe, laid: &LaidOut, folded: &Folded) -> Option<Assembly> {
    let root = laid.index_of(recipe.base.rests)?;
    let at = |at: Point<PieceFrame>| [at.x.as_mm_f64(), at.y.as_mm_f64()];
    let ring = |polygon: &Polygon<PieceFrame>| polygon.corners.iter().map(|it| at(*it)).collect();
    let main = main_fold(laid, root)?;
    let facets = laid.panels.iter().map(|panel| Facet {
        corners: ring(&panel.facet.outline),
        holes: panel.facet.holes.iter().map(ring).collect(),
    });
    let hinges = laid.hinges.iter().map(|hinge| Hinge {
        facets: [hinge.left, hinge.right],
        axis: [at(hinge.course.from), at(hinge.course.to)],
        sense: match hinge.fold {
            Fold::Valley => Sense::Valley,
            Fold::Mountain => Sense::Mountain,
        },
        folded: hinge.folded,
    });
    let glued = folded.glued.iter().map(|glued| Bond {
        on: glued.on,
        part: glued.part,
        lay: lay(&glued.place),
    });
    // What glue holds shut is one stiff body.
    let held = folded.held.iter().filter_map(|hinge| {
        let hinge = laid.hinges.get(*hinge)?;
        let over: Placement<PieceFrame, PieceFrame> = Placement::over(&hinge.axis)?;
        let flat = Placement::unmoved();
        Some(Bond {
            on: hinge.left,
            part: hinge.right,
            lay: lay(if hinge.folded { &over } else { &flat }),
        })
    });
    let place = folded.states.first()?.poses.get(root)?.place;
    Some(Assembly {
        facets: facets.collect(),
        hinges: hinges.collect(),
        bonds: glued.chain(held).collect(),
        root,
        table: lay(&place),
        main,
    })
}

pub(crate) fn lay<F>(place: &Placement<PieceFrame, F>) -> Lay {
    let (cos, sin) = place.turn.cos_sin();
    Lay {
        mirrored: place.mirrored,
        turn: sin.atan2(cos),
        shift: [place.shift.x.as_mm_f64(), place.shift.y.as_mm_f64()],
    }
}

/// The first piece that is glued down in several places.
fn glued_across(recipe: &Recipe, folded: &Folded) -> Option<PieceId> {
    let mut pieces = recipe.pieces.iter().map(|piece| piece.id);
    pieces.find(|piece| {
        let joined = folded.glued.iter().filter(|it| it.join.0 == *piece);
        joined.count() > 1
    })
}

/// What was found, as a problem; nothing for what is none to the maker.
fn problem(recipe: &Recipe, laid: &LaidOut, folded: &Folded, finding: &Finding) -> Option<Problem> {
    let line = |hinge: usize| Some(laid.hinges.get(hinge)?.line);
    let panel = |facet: usize| Some(laid.panels.get(facet)?.id);
    let stop = |place, found| Some(Problem::stop(place, problem::Finding::Opening(found)));
    let opened = |angle: f64| Angle::from_radians(PI - angle);
    match finding {
        Finding::Locked { hinge, .. } => {
            let line = line(*hinge)?;
            let glued = glued_across(recipe, folded);
            stop(Place::of_line(line), OpeningFinding::Locked { line, glued })
        }
        Finding::Jam { hinge, angle, .. } => {
            let (line, opened) = (line(*hinge)?, opened(*angle));
            stop(Place::of_line(line), OpeningFinding::Jam { line, opened })
        }
        Finding::Unclosed { hinges, gap } => {
            let hinges = hinges.iter().filter_map(|hinge| laid.hinges.get(*hinge));
            let round: BTreeSet<usize> =
                hinges.flat_map(|hinge| [hinge.left, hinge.right]).collect();
            let panels = round.into_iter().filter_map(panel).collect();
            let gap = Length::near_mm(*gap);
            stop(Place::Recipe, OpeningFinding::Unclosed { panels, gap })
        }
        Finding::Collision { facets, angle, .. } => {
            let panels = [panel(facets[0])?, panel(facets[1])?];
            let opened = opened(*angle);
            stop(
                Place::Panel(panels[0]),
                OpeningFinding::Collision { panels, opened },
            )
        }
        Finding::TooCoupled { .. } => {
            let found = problem::Finding::Opening(OpeningFinding::TooCoupled);
            Some(Problem::warning(Place::Recipe, found))
        }
        Finding::Malformed(_)
        | Finding::Contradiction { .. }
        | Finding::Loose { .. }
        | Finding::Free { .. } => None,
    }
}
