//! Where the points of a flat strip lie, as sums of its measures.

use super::form::{At, Form};
use crate::length::Length;
use crate::plane::{PieceFrame, Point, Segment};
use crate::recipe::{Corner, Recipe, Strip};

/// How far a corner of a panel may lie from what bounds it: crossings of lines
/// are rounded to units, and no two lines of a card lie so near.
const NEAR: Length = Length::from_units(8);

/// A crease or a cut with the sums its ends lie at.
struct Course {
    line: Segment<PieceFrame>,
    from: At,
    to: At,
}

impl Course {
    fn of(recipe: &Recipe, from: Corner, to: Corner) -> Self {
        Self {
            line: Segment::new(recipe.corner(from), recipe.corner(to)),
            from: corner(from),
            to: corner(to),
        }
    }

    /// From end to end, in units.
    fn step(&self) -> (f64, f64) {
        let (from, to) = (self.line.from, self.line.to);
        ((to.x - from.x).as_mm_f64(), (to.y - from.y).as_mm_f64())
    }
}

/// A corner as the recipe tells it.
pub(super) fn corner(at: Corner) -> At {
    At {
        x: Form::of(at.x),
        y: Form::of(at.y),
    }
}

/// What a strip is divided by.
pub(super) struct Flat {
    /// The upright edges and the scores, from the left.
    upright: Vec<(Length, Form)>,
    /// The lower and the upper edge.
    level: [(Length, Form); 2],
    /// The creases and cuts besides.
    lines: Vec<Course>,
}

/// The sum at a length, if one lies there.
fn there(sums: &[(Length, Form)], at: Length) -> Option<Form> {
    let near = sums.iter().find(|(length, _)| (*length - at).abs() <= NEAR);
    near.map(|(_, form)| form.clone())
}

/// The sum that lies nearest.
fn nearest(sums: &[(Length, Form)], at: Length) -> Form {
    let nearest = sums.iter().min_by_key(|(length, _)| (*length - at).abs());
    nearest.map(|(_, form)| form.clone()).unwrap_or_default()
}

impl Flat {
    pub(super) fn of(recipe: &Recipe, strip: &Strip) -> Self {
        let mut upright = vec![(Length::ZERO, Form::default())];
        let (mut at, mut sum) = (Length::ZERO, Form::default());
        for panel in &strip.panels {
            at += recipe.value(panel.width);
            sum = sum.plus(&Form::of(panel.width));
            upright.push((at, sum.clone()));
        }
        let height = (recipe.value(strip.height), Form::of(strip.height));
        let lines = strip.lines.iter();
        Self {
            upright,
            level: [(Length::ZERO, Form::default()), height],
            lines: lines
                .map(|line| Course::of(recipe, line.from, line.to))
                .collect(),
        }
    }

    /// Where a corner of a panel lies: on the strip's edges, its scores and its
    /// lines, two of which meet there. What is cut out of a strip rounds or shapes
    /// its edges; a corner that comes of that is taken to keep its distance from
    /// the nearest edge or score.
    pub(super) fn at(&self, point: Point<PieceFrame>) -> At {
        // An edge is one whatever the measure is called by which a line ends
        // there.
        let x = there(&self.upright, point.x);
        let y = there(&self.level, point.y);
        if let (Some(x), Some(y)) = (&x, &y) {
            let (x, y) = (x.clone(), y.clone());
            return At { x, y };
        }
        let through: Vec<_> = self
            .lines
            .iter()
            .filter(|course| course.line.is_near(point, NEAR))
            .collect();
        let ends = || {
            let ends = through
                .iter()
                .flat_map(|it| [(it.line.from, &it.from), (it.line.to, &it.to)]);
            ends.filter(|(end, _)| *end == point).map(|(_, at)| at)
        };
        let upright = || {
            let mut upright = through.iter().filter(|it| it.line.from.x == it.line.to.x);
            upright.next().map(|it| &it.from)
        };
        let level = || {
            let mut level = through.iter().filter(|it| it.line.from.y == it.line.to.y);
            level.next().map(|it| &it.from)
        };
        let x = x.or_else(|| Some(ends().next().or_else(upright)?.x.clone()));
        let y = y.or_else(|| Some(ends().next().or_else(level)?.y.clone()));
        let mut slanting = through.iter().filter(|it| {
            let (x, y) = it.step();
            x.abs() > 0.0 && y.abs() > 0.0
        });
        match (x, y, slanting.next(), slanting.next()) {
            (Some(x), Some(y), ..) => At { x, y },
            (Some(x), None, Some(slant), _) => {
                let (along, up) = slant.step();
                let rise = x.minus(&slant.from.x).times(up / along);
                At {
                    y: slant.from.y.plus(&rise),
                    x,
                }
            }
            (None, Some(y), Some(slant), _) => {
                let (along, up) = slant.step();
                let way = y.minus(&slant.from.y).times(along / up);
                At {
                    x: slant.from.x.plus(&way),
                    y,
                }
            }
            (None, None, Some(a), Some(b)) => crossing(a, b),
            (x, y, ..) => At {
                x: x.unwrap_or_else(|| nearest(&self.upright, point.x)),
                y: y.unwrap_or_else(|| nearest(&self.level, point.y)),
            },
        }
    }
}

/// Where two lines cross that run as they do now.
fn crossing(a: &Course, b: &Course) -> At {
    let ((ax, ay), (bx, by)) = (a.step(), b.step());
    let under = ax * by - ay * bx;
    let part = |over: f64| if under.abs() > 0.0 { over / under } else { 0.0 };
    // From the start of the first line along it, as far as the other is away.
    let apart = b.from.minus(&a.from);
    let along = |step: f64| {
        let across = apart.x.times(part(by * step));
        across.minus(&apart.y.times(part(bx * step)))
    };
    At {
        x: a.from.x.plus(&along(ax)),
        y: a.from.y.plus(&along(ay)),
    }
}
