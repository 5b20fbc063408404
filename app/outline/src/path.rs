//! Path data (SVG 2, §9.3) as curves.

use kurbo::{Arc, BezPath, PathEl, Point, SvgArc, Vec2};
use svgtypes::{PathParser, PathSegment};

use crate::frame::sound;

/// How far a curve may lie from an arc it stands for, of the arc's radius.
const ARC_WITHIN: f64 = 1e-6;

/// Where a path has come to.
struct Pen {
    path: BezPath,
    /// Where this part of it began.
    start: Point,
    at: Point,
    /// The control point that a smooth curve goes on from, of a cubic or a quadratic one.
    cubic: Option<Point>,
    quadratic: Option<Point>,
    /// Whether a part is begun.
    is_down: bool,
}

/// Path data as curves; `None` where some of it can't be read.
pub(crate) fn path(data: &str) -> Option<BezPath> {
    let zero = Point::ZERO;
    let mut pen = Pen {
        path: BezPath::new(),
        start: zero,
        at: zero,
        cubic: None,
        quadratic: None,
        is_down: false,
    };
    for segment in PathParser::from(data) {
        pen.draw(segment.ok()?)?;
    }
    Some(pen.path)
}

impl Pen {
    fn point(&self, abs: bool, x: f64, y: f64) -> Option<Point> {
        let from = if abs { Vec2::ZERO } else { self.at.to_vec2() };
        let at = Point::new(x, y) + from;
        (sound(at.x).is_some() && sound(at.y).is_some()).then_some(at)
    }

    /// What is drawn after a part was closed begins where that began.
    fn put_down(&mut self) {
        if !self.is_down {
            self.path.move_to(self.at);
            self.is_down = true;
        }
    }

    fn draw(&mut self, segment: PathSegment) -> Option<()> {
        let reflected = |by: Option<Point>, at: Point| by.map_or(at, |by| at + (at - by));
        let (cubic, quadratic) = (self.cubic.take(), self.quadratic.take());
        match segment {
            PathSegment::MoveTo { abs, x, y } => {
                self.at = self.point(abs, x, y)?;
                self.start = self.at;
                self.is_down = false;
                self.put_down();
            }
            PathSegment::LineTo { abs, x, y } => self.line(self.point(abs, x, y)?),
            PathSegment::HorizontalLineTo { abs, x } => {
                let y = if abs { self.at.y } else { 0.0 };
                self.line(self.point(abs, x, y)?);
            }
            PathSegment::VerticalLineTo { abs, y } => {
                let x = if abs { self.at.x } else { 0.0 };
                self.line(self.point(abs, x, y)?);
            }
            #[rustfmt::skip]
            PathSegment::CurveTo { abs, x1, y1, x2, y2, x, y } => {
                let first = self.point(abs, x1, y1)?;
                self.curve(first, self.point(abs, x2, y2)?, self.point(abs, x, y)?);
            }
            PathSegment::SmoothCurveTo { abs, x2, y2, x, y } => {
                let first = reflected(cubic, self.at);
                self.curve(first, self.point(abs, x2, y2)?, self.point(abs, x, y)?);
            }
            PathSegment::Quadratic { abs, x1, y1, x, y } => {
                self.bend(self.point(abs, x1, y1)?, self.point(abs, x, y)?);
            }
            PathSegment::SmoothQuadratic { abs, x, y } => {
                self.bend(reflected(quadratic, self.at), self.point(abs, x, y)?);
            }
            #[rustfmt::skip]
            PathSegment::EllipticalArc { abs, rx, ry, x_axis_rotation, large_arc, sweep, x, y } => {
                let to = self.point(abs, x, y)?;
                self.put_down();
                arc(&mut self.path, SvgArc {
                    from: self.at,
                    to,
                    radii: Vec2::new(sound(rx)?, sound(ry)?),
                    x_rotation: sound(x_axis_rotation)?.to_radians(),
                    large_arc,
                    sweep,
                });
                self.at = to;
            }
            PathSegment::ClosePath { .. } => {
                if self.is_down {
                    self.path.close_path();
                }
                self.at = self.start;
                self.is_down = false;
            }
        }
        Some(())
    }

    fn line(&mut self, to: Point) {
        self.put_down();
        self.path.line_to(to);
        self.at = to;
    }

    fn curve(&mut self, first: Point, second: Point, to: Point) {
        self.put_down();
        self.path.curve_to(first, second, to);
        self.cubic = Some(second);
        self.at = to;
    }

    fn bend(&mut self, by: Point, to: Point) {
        self.put_down();
        self.path.quad_to(by, to);
        self.quadratic = Some(by);
        self.at = to;
    }
}

/// Draws an arc to its end; a line where it is none (SVG 2, §9.5).
pub(crate) fn arc(path: &mut BezPath, of: SvgArc) {
    // Nearer than a drawing tells apart, and safe from numbers too small to divide by.
    let is_point = of.from.distance(of.to) < 1e-12;
    let drawn = path.elements().len();
    if let Some(arc) = Arc::from_svg_arc(&of).filter(|_| !is_point) {
        let within = arc.radii.x.max(arc.radii.y) * ARC_WITHIN;
        arc.to_cubic_beziers(within, |first, second, to| {
            path.curve_to(first, second, to);
        });
    }
    match path
        .elements_mut()
        .get_mut(drawn..)
        .and_then(<[_]>::last_mut)
    {
        // What was worked out by sines ends where it was told to.
        Some(PathEl::CurveTo(_, _, end)) => *end = of.to,
        _ => path.line_to(of.to),
    }
}
