//! The room each fold asks for what is folded inside it, and whether it has it.
//!
//! What a fold wraps is exact: the panels that lie between its two in the
//! closed card, and the layers on them and on the faces that fold onto each
//! other. How much room that asks for is a rule, chosen from those that are
//! published ([`FoldInRule`]); by some of them it follows from the thickness of
//! what is wrapped.

use crate::faces::{Lying, Part, Reading, View, pile};
use crate::fold::{Cover, Folded, State};
use crate::laid::LaidOut;
use crate::length::Length;
use crate::paper::{Body, FoldInRule};
use crate::pattern::{Hinge, LineId};
use crate::plane::{CardFrame, Point, SAME_WITHIN, Segment};
use crate::problem::{Contents, Cramped, Finding, Place, Problem};
use crate::recipe::{PanelId, Recipe};
use crate::sorted::InOrder as _;
use crate::thickness::thickest;

/// What a fold wraps in the closed card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wrap {
    /// The crease; of one that is broken the stretch that asks for most.
    pub line: LineId,
    /// The panels that fold onto each other there.
    pub panels: [PanelId; 2],
    /// The most sheets of paper that lie between them over one place.
    pub sheets: usize,
    /// How thick these are.
    pub thickness: Length,
    /// How much room that asks for, exactly.
    pub asked: Length,
    /// What lies inside and how near it comes to the fold, nearest first.
    pub inside: Vec<Inside>,
}

/// Something folded inside.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Inside {
    /// What it is.
    pub what: Contents,
    /// How far it stays from the fold.
    pub gap: Length,
}

impl Wrap {
    /// What comes nearer to the fold than it has room for.
    pub fn cramped(&self) -> impl Iterator<Item = &Inside> {
        self.inside.iter().filter(|it| it.gap < self.asked)
    }

    /// Whether panels are folded inside, and not just layers.
    pub fn holds_panels(&self) -> bool {
        let mut inside = self.inside.iter();
        inside.any(|it| matches!(it.what, Contents::Panel(_)))
    }

    /// What is cramped, as problems.
    pub(crate) fn problems(&self) -> impl Iterator<Item = Problem> {
        self.cramped().map(|inside| {
            let found = Finding::Room(Cramped {
                what: inside.what,
                gap: inside.gap,
                asked: self.asked,
                between: self.panels,
            });
            match inside.what {
                Contents::Panel(id) => Problem::warning(Place::Panel(id), found),
                Contents::Layer(id) => Problem::note(Place::Layer(id), found),
            }
        })
    }
}

/// What every fold wraps that wraps anything, in the order of the creases.
pub fn wraps(recipe: &Recipe, laid: &LaidOut, folded: &Folded, readings: &[Reading]) -> Vec<Wrap> {
    let (Some(closed), Some(rule)) = (
        folded.states.first(),
        FoldInRule::by_id(&recipe.folding_in.rule),
    ) else {
        return Vec::new();
    };
    let bench = Bench {
        recipe,
        laid,
        folded,
        closed,
        rule,
        lying: pile(closed, View::Front, &laid.layers, readings),
    };
    let mut found: Vec<Wrap> = Vec::new();
    for hinge in laid.hinges.iter().filter(|hinge| hinge.folded) {
        let Some(wrap) = bench.wrap(hinge) else {
            continue;
        };
        match found.iter_mut().find(|known| known.line == wrap.line) {
            Some(known) => known.join(wrap),
            None => found.push(wrap),
        }
    }
    found
}

impl Wrap {
    /// Takes in another stretch of the same crease.
    fn join(&mut self, other: Self) {
        let mut inside = std::mem::take(&mut self.inside);
        for more in other.inside.iter().copied() {
            match inside.iter_mut().find(|known| known.what == more.what) {
                Some(known) => known.gap = known.gap.min(more.gap),
                None => inside.push(more),
            }
        }
        if other.asked > self.asked {
            *self = other;
        }
        inside.put_in_order_by_key(|it| it.gap);
        self.inside = inside;
    }
}

/// The closed card with all that bears on its folds.
struct Bench<'a> {
    recipe: &'a Recipe,
    laid: &'a LaidOut,
    folded: &'a Folded,
    closed: &'a State,
    rule: &'static FoldInRule,
    lying: Vec<Lying>,
}

impl Bench<'_> {
    /// What a hinge wraps; `None` where nothing lies between its panels.
    fn wrap(&self, hinge: &Hinge) -> Option<Wrap> {
        let (a, b) = (hinge.left, hinge.right);
        let (front, back) = if self.closed.is_over(a, b) {
            (a, b)
        } else {
            (b, a)
        };
        let poses = (self.closed.poses.get(front)?, self.closed.poses.get(back)?);
        let own_face = |panel: usize| {
            let lying = self.lying.iter();
            let mut faces = lying.enumerate();
            faces.find_map(|(index, it)| {
                (it.panel == panel && matches!(it.part, Part::Face(_))).then_some(index)
            })
        };
        let (upper, lower) = (own_face(front)?, own_face(back)?);
        let within = poses.0.covers.common(&poses.1.covers)?;
        let between: Vec<Lying> = self
            .lying
            .iter()
            .enumerate()
            .filter(|(index, it)| {
                if it.panel == front {
                    *index > upper
                } else if it.panel == back {
                    *index < lower
                } else {
                    self.closed.is_over(front, it.panel) && self.closed.is_over(it.panel, back)
                }
            })
            .filter(|(_, it)| it.cover.within.common(&within).is_some())
            .map(|(_, it)| it.clone())
            .collect();
        let most = thickest(self.recipe, self.laid, &between)?;
        let stock = self.laid.piece_with(front)?.stock;
        let stock = self.recipe.stock(stock)?;
        let radius = most.thickness.half_down() + stock.caliper;
        let asked = if self.rule.is_by_thickness() {
            self.rule.allowance(Body::of(stock.weight), radius)
        } else {
            self.recipe.value(self.recipe.folding_in.allowance)
        };
        let place = poses.0.place;
        let crease = Segment::new(place.point(hinge.course.from), place.point(hinge.course.to));
        let name = |panel: usize| Some(self.laid.panels.get(panel)?.id);
        let mut inside: Vec<Inside> = between
            .iter()
            .filter_map(|it| self.inside(hinge, &crease, it))
            .collect();
        inside.put_in_order_by_key(|it| it.gap);
        Some(Wrap {
            line: hinge.line,
            panels: [name(a)?, name(b)?],
            sheets: most.sheets,
            thickness: most.thickness,
            asked,
            inside,
        })
    }

    /// How near something comes to a fold; `None` where it hangs together with
    /// it, and so has to reach it.
    fn inside(&self, hinge: &Hinge, crease: &Segment<CardFrame>, lying: &Lying) -> Option<Inside> {
        let what = match lying.part {
            Part::Face(face) => {
                let panel = self.laid.panels.get(lying.panel)?;
                let hangs = |at| hinge.course.is_near(at, SAME_WITHIN);
                if panel.facet.corners().any(hangs) || self.spans(lying.panel, hinge) {
                    return None;
                }
                Contents::Panel(face.panel)
            }
            Part::Layer(id) | Part::LayerBack(id) => {
                if self.crosses(crease, hinge, &lying.cover) {
                    return None;
                }
                Contents::Layer(id)
            }
        };
        let gap = gap(crease, &lying.cover);
        Some(Inside { what, gap })
    }

    /// Whether a panel belongs to a piece that is glued to both panels of a
    /// fold, and so moves with it.
    fn spans(&self, panel: usize, hinge: &Hinge) -> bool {
        let piece = self.laid.piece_with(panel);
        let piece = piece.and_then(|piece| piece.of.piece());
        let glued_to = |on: usize| {
            let mut glued = self.folded.glued.iter();
            glued.any(|it| it.on == on && Some(it.join.0) == piece)
        };
        [hinge.left, hinge.right].into_iter().all(glued_to)
    }

    /// Whether a layer reaches past the fold, which is said where its glue is.
    fn crosses(&self, crease: &Segment<CardFrame>, hinge: &Hinge, cover: &Cover) -> bool {
        let Some(pose) = self.closed.poses.get(hinge.left) else {
            return false;
        };
        let middle = |cover: &Cover| Segment::new(cover.within.low, cover.within.high).middle();
        let paper = crease.side_of(middle(&pose.area()));
        corners(cover)
            .into_iter()
            .flatten()
            .any(|at| crease.side_of(at) == paper.reverse() && !crease.is_in_line(at, SAME_WITHIN))
    }
}

fn corners(cover: &Cover) -> Vec<Vec<Point<CardFrame>>> {
    match &cover.shape {
        None => vec![cover.within.corners().to_vec()],
        Some(shape) => shape.contours().collect(),
    }
}

/// How far what is covered stays from a crease.
fn gap(crease: &Segment<CardFrame>, cover: &Cover) -> Length {
    corners(cover)
        .iter()
        .flat_map(|contour| {
            let next = contour.iter().cycle().skip(1);
            let edges = contour.iter().zip(next);
            edges.map(|(from, to)| crease.apart(&Segment::new(*from, *to)))
        })
        .min()
        .unwrap_or_default()
}
