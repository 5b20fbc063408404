//! The card opened as a whole, where its creases only move together.

use std::sync::{Arc, OnceLock};

use crate::fold::Folded;
use crate::laid::LaidOut;
use crate::motion::{Assembly, Bond, Facet, Finding, Hinge, Lay, Opening, Pose, Sense};
use crate::plane::{PieceFrame, Placement, Point, Polygon};
use crate::problem::{Place, Problem, Weight};
use crate::recipe::{Fold, Recipe};
use crate::words::line_name;

/// How the card opens as a whole. Two are the same where their parts are.
#[derive(Debug, Clone)]
pub struct WholeOpening {
    assembly: Assembly,
    opening: Arc<Opening>,
    looks: Arc<OnceLock<Vec<Pose>>>,
    /// How far its main fold opens, in degrees, where that is not all the way.
    pub stops_at: Option<f64>,
}

/// How many poses tell the room an opening takes, after the first.
const LOOKS: u32 = 12;

impl PartialEq for WholeOpening {
    fn eq(&self, other: &Self) -> bool {
        self.assembly == other.assembly
    }
}

impl WholeOpening {
    /// Where every panel lies at a share of the opening, from 0 closed to 1 as
    /// far as it goes; panels by their place in the piece, in millimetres in
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
        .filter_map(|finding| words(recipe, laid, folded, finding));
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
    let root = laid.place_of(recipe.base.rests)?;
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

fn lay<F>(place: &Placement<PieceFrame, F>) -> Lay {
    let (cos, sin) = place.turn.cos_sin();
    Lay {
        mirrored: place.mirrored,
        turn: sin.atan2(cos),
        shift: [place.shift.x.as_mm_f64(), place.shift.y.as_mm_f64()],
    }
}

/// The first piece that is glued down in several places.
fn glued_across<'a>(recipe: &'a Recipe, folded: &Folded) -> Option<&'a str> {
    let mut pieces = recipe.pieces.iter();
    let piece = pieces.find(|piece| {
        let joined = folded.glued.iter().filter(|it| it.join.0 == piece.id);
        joined.count() > 1
    });
    piece.map(|piece| piece.name.as_str())
}

/// What was found, as a problem; nothing for what is none to the maker.
fn words(recipe: &Recipe, laid: &LaidOut, folded: &Folded, finding: &Finding) -> Option<Problem> {
    let place = |hinge: usize| Some(Place::of_line(laid.hinges.get(hinge)?.line));
    let crease = |hinge: usize| {
        let hinge = laid.hinges.get(hinge)?;
        Some(line_name(recipe, hinge.line))
    };
    let panel = |facet: usize| Some(recipe.panel_name(laid.panels.get(facet)?.id));
    let problem = |place, weight, what: String, why: &str, remedy: &str| {
        Some(Problem {
            place,
            weight,
            what,
            why: why.to_owned(),
            remedy: remedy.to_owned(),
        })
    };
    match finding {
        Finding::Locked { hinge, .. } => {
            let what = format!("the {} cannot open.", crease(*hinge)?);
            match glued_across(recipe, folded) {
                Some(name) => problem(
                    place(*hinge)?,
                    Weight::Stop,
                    what,
                    &format!("{name} is glued down in two places, and holds it shut between them."),
                    "Glue it in one place only, or lay its creases so that they turn with the fold.",
                ),
                None => problem(
                    place(*hinge)?,
                    Weight::Stop,
                    what,
                    "The creases that move with it hold it in every direction.",
                    "Flip one of them, or move it.",
                ),
            }
        }
        Finding::Jam { hinge, angle, .. } => problem(
            place(*hinge)?,
            Weight::Stop,
            format!(
                "The card opens to {:.0}° at the {} and no further.",
                180.0 - angle.to_degrees(),
                crease(*hinge)?
            ),
            "There the paper between the creases is stretched straight.",
            "Make what is folded out of the card longer, or what holds it nearer to the fold.",
        ),
        Finding::Unclosed { gap, .. } => problem(
            Place::Recipe,
            Weight::Stop,
            "The card does not close flat.".to_owned(),
            &format!("Round a ring of creases opposite lengths or angles miss by {gap:.2} mm."),
            "Make opposite lengths (or angles) add up equally.",
        ),
        Finding::Collision { facets, angle, .. } => problem(
            Place::Panel(laid.panels.get(facets[0])?.id),
            Weight::Stop,
            format!(
                "{} and {} run into each other when the card is {:.0}° open.",
                panel(facets[0])?,
                panel(facets[1])?,
                180.0 - angle.to_degrees()
            ),
            "Paper cannot pass through paper.",
            "Make one of them smaller or move it, or cut a slit for it to pass through.",
        ),
        Finding::TooCoupled { .. } => problem(
            Place::Recipe,
            Weight::Warning,
            "Whether the card opens could not be worked out.".to_owned(),
            "More creases move each other than can be followed.",
            "Try it in scrap paper first.",
        ),
        Finding::Malformed(_)
        | Finding::Contradiction { .. }
        | Finding::Loose { .. }
        | Finding::Free { .. } => None,
    }
}
