//! A flat piece as vertices, edges between them and faces, each face one walk along
//! its edges.

use std::collections::BTreeMap;

use foldwright_engine::card::Card;
use foldwright_engine::laid::Piece;
use foldwright_engine::length::Length;
use foldwright_engine::pattern::{Facet, Hinge, TOUCHES_WITHIN};
use foldwright_engine::plane::{PieceFrame, Point, Polygon, Segment};
use foldwright_engine::recipe::Fold;

/// What an edge is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Is {
    /// The border of the paper.
    Border,
    /// A crease that is shut in the closed card.
    Crease(Fold),
    /// A crease that lies flat there.
    Flat,
    /// A cut with paper on both sides.
    Cut,
    /// No line of the paper: what joins a hole, or a cut within a panel, to the rest
    /// of its border, so that the border is one walk.
    Join,
}

/// An edge from one vertex to another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Edge {
    pub(crate) ends: [usize; 2],
    /// The panels at its left and its right; the same at both where it ends within
    /// one.
    pub(crate) sides: [Option<usize>; 2],
    pub(crate) is: Is,
}

/// A piece in vertices, edges and faces.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Mesh {
    pub(crate) vertices: Vec<Point<PieceFrame>>,
    pub(crate) edges: Vec<Edge>,
    /// The vertices round each face, anticlockwise, with the panel it is.
    pub(crate) faces: Vec<(usize, Vec<usize>)>,
}

impl Mesh {
    /// The panels of a piece that make the card; what falls off is left out.
    pub(crate) fn of(card: &Card, piece: &Piece) -> Self {
        let panels = card.laid.panels_of(piece);
        let facets: Vec<&Facet> = panels.iter().map(|panel| &panel.facet).collect();
        let first = piece.panels.start;
        let hinges = card.laid.hinges.iter();
        let hinges: Vec<&Hinge> = hinges
            .filter(|hinge| piece.panels.contains(&hinge.left))
            .collect();
        let mut mesh = Self::default();
        let borders = mesh.borders(&facets);
        mesh.edges = mesh.joined(&borders, &hinges, first);
        for facet in 0..facets.len() {
            mesh.join_up(facet);
        }
        mesh.walk();
        mesh
    }

    fn vertex(&mut self, at: Point<PieceFrame>) -> usize {
        let touches = |it: &Point<PieceFrame>| {
            (it.x - at.x).abs() <= TOUCHES_WITHIN && (it.y - at.y).abs() <= TOUCHES_WITHIN
        };
        let known = self.vertices.iter().position(touches);
        known.unwrap_or_else(|| {
            self.vertices.push(at);
            self.vertices.len() - 1
        })
    }

    /// The borders and the cuts of all panels from vertex to vertex, each with the
    /// panel at its left.
    fn borders(&mut self, facets: &[&Facet]) -> Vec<([usize; 2], usize)> {
        let mut courses = Vec::new();
        for (number, facet) in facets.iter().enumerate() {
            courses.extend(facet.outline.sides().map(|side| (side, number)));
            // Holes are anticlockwise, with the paper at their right.
            let holes = facet.holes.iter().flat_map(Polygon::sides);
            courses.extend(holes.map(|side| (Segment::new(side.to, side.from), number)));
            for slit in &facet.slits {
                let back = Segment::new(slit.course.to, slit.course.from);
                courses.extend([(slit.course, number), (back, number)]);
            }
        }
        let ends: Vec<_> = courses
            .iter()
            .map(|(course, facet)| ([self.vertex(course.from), self.vertex(course.to)], *facet))
            .collect();
        let mut borders = Vec::new();
        for (ends, facet) in ends {
            let stops = self.along(ends);
            let steps = stops.iter().zip(stops.iter().skip(1));
            borders.extend(steps.map(|(from, to)| ([*from, *to], facet)));
        }
        borders
    }

    fn at(&self, vertex: usize) -> Point<PieceFrame> {
        let at = self.vertices.get(vertex).copied();
        at.unwrap_or(Point::new(Length::ZERO, Length::ZERO))
    }

    /// The vertices on a straight line from one vertex to another, in their order.
    fn along(&self, [from, to]: [usize; 2]) -> Vec<usize> {
        let course = Segment::new(self.at(from), self.at(to));
        let on = (0..self.vertices.len())
            .filter(|it| *it == from || *it == to || is_on(&course, self.at(*it)));
        let mut stops: Vec<_> = on.collect();
        stops.sort_by_key(|it| dot(&course, self.at(*it)));
        stops
    }

    /// Edges with what lies at both sides of each.
    fn joined(
        &self,
        borders: &[([usize; 2], usize)],
        hinges: &[&Hinge],
        first: usize,
    ) -> Vec<Edge> {
        let mut sides: BTreeMap<[usize; 2], [Option<usize>; 2]> = BTreeMap::new();
        for (ends, facet) in borders {
            let [from, to] = *ends;
            if from < to {
                sides.entry([from, to]).or_default()[0] = Some(*facet);
            } else {
                sides.entry([to, from]).or_default()[1] = Some(*facet);
            }
        }
        let edges = sides.into_iter().map(|(ends, sides)| {
            let course = ends.map(|end| self.at(end));
            let is = match sides {
                [Some(left), Some(right)] => {
                    let mut hinges = hinges.iter();
                    let hinge = hinges.find(|hinge| {
                        let pair = [hinge.left - first, hinge.right - first];
                        (pair == [left, right] || pair == [right, left])
                            && course.iter().all(|at| touches(&hinge.course, *at))
                    });
                    match hinge {
                        Some(hinge) if hinge.folded => Is::Crease(hinge.fold),
                        Some(_) => Is::Flat,
                        None => Is::Cut,
                    }
                }
                _ => Is::Border,
            };
            Edge { ends, sides, is }
        });
        edges.collect()
    }

    /// Joins all that borders a panel by edges within it, each the shortest that
    /// crosses nothing.
    fn join_up(&mut self, facet: usize) {
        loop {
            let own = self
                .edges
                .iter()
                .filter(|it| it.sides.contains(&Some(facet)));
            let own: Vec<Edge> = own.copied().collect();
            let reached = reached(&own);
            let all = own.iter().flat_map(|edge| edge.ends);
            let (here, there): (Vec<_>, Vec<_>) = all.partition(|it| reached.contains(it));
            let mut ways: Vec<_> = here
                .iter()
                .flat_map(|from| there.iter().map(move |to| [*from, *to]))
                .collect();
            ways.sort_by_key(|[from, to]| {
                let course = Segment::new(self.at(*from), self.at(*to));
                (dot(&course, course.to), *from, *to)
            });
            let free = ways.into_iter().find(|way| !self.crosses(*way, &own));
            let Some([from, to]) = free else { return };
            self.edges.push(Edge {
                ends: [from, to],
                sides: [Some(facet); 2],
                is: Is::Join,
            });
        }
    }

    /// Whether a straight way between two vertices meets edges but at its ends.
    fn crosses(&self, [from, to]: [usize; 2], edges: &[Edge]) -> bool {
        let way = Segment::new(self.at(from), self.at(to));
        edges.iter().any(|edge| {
            let course = Segment::new(self.at(edge.ends[0]), self.at(edge.ends[1]));
            let passes = edge
                .ends
                .iter()
                .any(|end| *end != from && *end != to && is_on(&way, self.at(*end)));
            let apart = |of: &Segment<PieceFrame>, it: &Segment<PieceFrame>| {
                turn(of, it.from).signum() * turn(of, it.to).signum() < 0
            };
            passes || apart(&way, &course) && apart(&course, &way)
        })
    }

    /// Walks round every face with the paper at the left.
    fn walk(&mut self) {
        // Each edge both ways: way `2e` along it, way `2e + 1` back.
        let end = |way: usize| self.edges[way / 2].ends[1 - way % 2];
        let start = |way: usize| self.edges[way / 2].ends[way % 2];
        let side = |way: usize| self.edges[way / 2].sides[way % 2];
        let mut leaving: Vec<Vec<usize>> = vec![Vec::new(); self.vertices.len()];
        for way in 0..self.edges.len() * 2 {
            leaving[start(way)].push(way);
        }
        for (vertex, ways) in leaving.iter_mut().enumerate() {
            let at = self.vertices[vertex];
            ways.sort_by(|a, b| {
                let angle = |way: &usize| {
                    let to = self.vertices[end(*way)];
                    (to.y - at.y).as_mm_f64().atan2((to.x - at.x).as_mm_f64())
                };
                angle(a).total_cmp(&angle(b))
            });
        }
        // At each vertex on to the next way clockwise.
        let next = |way: usize| {
            let ways = &leaving[end(way)];
            let index = ways
                .iter()
                .position(|it| *it == way ^ 1)
                .unwrap_or_default();
            ways[(index + ways.len() - 1) % ways.len()]
        };
        let mut walked = vec![false; self.edges.len() * 2];
        let mut faces = Vec::new();
        for begin in 0..walked.len() {
            let Some(facet) = side(begin) else { continue };
            if walked[begin] {
                continue;
            }
            let mut round = Vec::new();
            let mut way = begin;
            while !std::mem::replace(&mut walked[way], true) {
                round.push(start(way));
                way = next(way);
            }
            faces.push((facet, round));
        }
        faces.sort_by_key(|(facet, _)| *facet);
        self.faces = faces;
    }
}

/// The vertices that edges join to the first of them.
fn reached(edges: &[Edge]) -> Vec<usize> {
    let mut reached: Vec<usize> = edges.first().map(|edge| edge.ends[0]).into_iter().collect();
    let mut grew = true;
    while grew {
        grew = false;
        for edge in edges {
            let [from, to] = edge.ends.map(|end| reached.contains(&end));
            if from != to {
                reached.push(edge.ends[usize::from(from)]);
                grew = true;
            }
        }
    }
    reached
}

fn units(length: Length) -> i128 {
    i128::from(length.units())
}

/// How far along a line a point is, times the length of the line, in square units.
fn dot(of: &Segment<PieceFrame>, at: Point<PieceFrame>) -> i128 {
    units(of.to.x - of.from.x) * units(at.x - of.from.x)
        + units(of.to.y - of.from.y) * units(at.y - of.from.y)
}

/// Twice the area of the triangle from a line to a point: more than nothing at the
/// left of the line.
fn turn(of: &Segment<PieceFrame>, at: Point<PieceFrame>) -> i128 {
    units(of.to.x - of.from.x) * units(at.y - of.from.y)
        - units(of.to.y - of.from.y) * units(at.x - of.from.x)
}

/// Whether a point lies on a line or so near that it counts as on it, its ends
/// included.
fn touches(of: &Segment<PieceFrame>, at: Point<PieceFrame>) -> bool {
    let square = dot(of, of.to);
    let far = units(TOUCHES_WITHIN) * 2;
    let near_end = [of.from, of.to]
        .into_iter()
        .any(|end| units(end.x - at.x).abs() <= far && units(end.y - at.y).abs() <= far);
    let beside = turn(of, at);
    let is_between = (0..=square).contains(&dot(of, at));
    near_end || is_between && beside * beside <= far * far * square
}

/// The same between its ends.
fn is_on(of: &Segment<PieceFrame>, at: Point<PieceFrame>) -> bool {
    let square = dot(of, of.to);
    let along = dot(of, at);
    0 < along && along < square && touches(of, at)
}
