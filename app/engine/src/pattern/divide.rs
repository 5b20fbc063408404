//! Dividing a pattern into panels, creases between them, and what goes round.

use std::cmp::Reverse;

use super::border::{Border, edges_of, is_inside, twice_area};
use super::net::{Net, Source};
use super::ring::rings;
use super::web::Web;
use super::{Facet, Fault, Hinge, LineKind, MOST_LINES, Opening, Pattern, Slit, Vertex};
use crate::plane::{PieceFrame, Point, Polygon};
use crate::sorted::InOrder as _;

/// A pattern divided along its lines.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Divided {
    /// The panels, by their corners farthest left (the lowest of these first),
    /// so that a panel keeps its place while others change.
    pub facets: Vec<Facet>,
    /// The creases between them, in the order of the lines and along each.
    pub hinges: Vec<Hinge>,
    /// The points within the paper where creases meet.
    pub vertices: Vec<Vertex>,
    /// The holes and cuts at which creases end.
    pub openings: Vec<Opening>,
    /// What is wrong with the lines. The rest is as though what is wrong had
    /// not been drawn.
    pub faults: Vec<Fault>,
}

/// Divides a pattern into panels. Takes any input: what cannot be divided is
/// left out and reported.
pub fn divide(pattern: &Pattern) -> Divided {
    let mut faults = Vec::new();
    if pattern.lines.len() > MOST_LINES {
        faults.push(Fault::TooMany);
    } else if let Some(border) = Border::of(pattern, &mut faults)
        && let Some(net) = Net::of(pattern, &border, &mut faults)
    {
        faults.extend(net.crossings(pattern));
        return Division::of(pattern, &net).finish(faults);
    }
    Divided {
        faults,
        ..Divided::default()
    }
}

/// A net with the panel on the left of each way.
struct Division<'a> {
    pattern: &'a Pattern,
    net: &'a Net,
    left: Vec<Option<usize>>,
    facets: Vec<Facet>,
}

impl<'a> Division<'a> {
    fn of(pattern: &'a Pattern, net: &'a Net) -> Self {
        let left = panels_left(net);
        let mut division = Self {
            pattern,
            net,
            left,
            facets: Vec::new(),
        };
        division.outline();
        division
    }

    fn parts(&self, edge: usize) -> bool {
        self.left[edge * 2] != self.left[edge * 2 + 1]
    }

    /// Gives every panel its outline and holes, walked along the edges that
    /// part it from something else, and puts the panels in order.
    fn outline(&mut self) {
        let web = Web::of(self.net, &|edge| self.parts(edge));
        let count = self.left.iter().flatten().max().map_or(0, |last| last + 1);
        let mut outlines: Vec<Vec<Point<PieceFrame>>> = vec![Vec::new(); count];
        let mut holes: Vec<Vec<Polygon<PieceFrame>>> = vec![Vec::new(); count];
        for contour in web.contours() {
            let Some(facet) = contour.first().and_then(|way| self.left[*way]) else {
                continue;
            };
            let mut corners = web.points(&contour);
            if twice_area(&corners) > 0 {
                outlines[facet] = from_lowest(corners);
            } else {
                corners.reverse();
                holes[facet].push(Polygon {
                    corners: from_lowest(corners),
                });
            }
        }
        let mut order: Vec<_> = (0..count).collect();
        order.put_in_order_by(|a, b| outlines[*a].cmp(&outlines[*b]));
        let mut index = vec![0; count];
        for (now, before) in order.iter().enumerate() {
            index[*before] = now;
        }
        for left in self.left.iter_mut().flatten() {
            *left = index[*left];
        }
        for before in order {
            let mut holes = std::mem::take(&mut holes[before]);
            holes.put_in_order_by(|a, b| a.corners.cmp(&b.corners));
            self.facets.push(Facet {
                outline: Polygon {
                    corners: std::mem::take(&mut outlines[before]),
                },
                holes,
                slits: Vec::new(),
            });
        }
    }

    fn finish(mut self, mut faults: Vec<Fault>) -> Divided {
        let mut hinges = Vec::new();
        let mut hinge_of = vec![None; self.net.edges.len()];
        let mut idle = vec![false; self.net.edges.len()];
        for (number, edge) in self.net.edges.iter().enumerate() {
            let Source::Line(index) = edge.source else {
                continue;
            };
            let (Some(line), Some(left), Some(right)) = (
                self.pattern.lines.get(index),
                self.left[number * 2],
                self.left[number * 2 + 1],
            ) else {
                continue;
            };
            let course = self.net.course(edge);
            match line.kind {
                LineKind::Cut if left == right => self.facets[left].slits.push(Slit {
                    line: line.id,
                    course,
                }),
                LineKind::Cut => {}
                LineKind::Crease(_) if left == right => idle[number] = true,
                LineKind::Crease(fold) => {
                    hinge_of[number] = Some(hinges.len());
                    hinges.push(Hinge {
                        line: line.id,
                        fold,
                        folded: true,
                        course,
                        axis: line.course(),
                        left,
                        right,
                    });
                }
            }
        }
        faults.extend(self.idle_creases(&idle));
        faults.extend(loose(&self.facets, &hinges));
        let web = Web::of(self.net, &|edge| !idle[edge]);
        let (vertices, openings) = rings(self.net, &web, &hinge_of);
        Divided {
            facets: self.facets,
            hinges,
            vertices,
            openings,
            faults,
        }
    }

    /// The creases that divide nothing: those that hang from the rest by one
    /// end, and those that lead round something.
    fn idle_creases(&self, idle: &[bool]) -> Vec<Fault> {
        let edges = &self.net.edges;
        let mut degree = vec![0_usize; self.net.knots.len()];
        for edge in edges {
            degree[edge.from] += 1;
            degree[edge.to] += 1;
        }
        let ends: Vec<bool> = degree.iter().map(|count| *count == 1).collect();
        let mut hanging = vec![false; edges.len()];
        let mut waiting: Vec<usize> = (0..edges.len()).rev().collect();
        while let Some(number) = waiting.pop() {
            let edge = edges[number];
            if !hanging[number] && (degree[edge.from] == 1 || degree[edge.to] == 1) {
                hanging[number] = true;
                degree[edge.from] -= 1;
                degree[edge.to] -= 1;
                let touching = |at: &usize| {
                    let other = edges[*at];
                    let ends = [other.from, other.to];
                    ends.contains(&edge.from) || ends.contains(&edge.to)
                };
                waiting.extend((0..edges.len()).filter(touching));
            }
        }
        let mut faults: Vec<Fault> = Vec::new();
        for (index, line) in self.pattern.lines.iter().enumerate() {
            let own = || {
                (0..edges.len()).filter(|at| idle[*at] && edges[*at].source == Source::Line(index))
            };
            let loose = own()
                .filter(|at| hanging[*at])
                .flat_map(|at| [edges[at].to, edges[at].from]);
            let loose: Vec<_> = loose.collect();
            let end = loose.iter().find(|knot| ends[**knot]).or(loose.first());
            faults.extend(end.map(|knot| Fault::Dangles {
                line: line.id,
                end: self.net.knots[*knot],
            }));
            faults.extend(own().filter(|at| !hanging[*at]).map(|at| Fault::SamePanel {
                line: line.id,
                part: self.net.course(&edges[at]),
            }));
        }
        faults
    }
}

/// For each way of a net the panel to its left, numbered as found; `None` off
/// the paper.
fn panels_left(net: &Net) -> Vec<Option<usize>> {
    let web = Web::of(net, &|_| true);
    let mut left = vec![None; net.edges.len() * 2];
    let mut outer: Vec<(i128, Vec<Point<PieceFrame>>)> = Vec::new();
    let mut inner = Vec::new();
    for contour in web.contours() {
        // The paper lies to the left of the border only.
        let off_paper = |way: &usize| net.edges[*way / 2].source.is_border() && *way % 2 == 1;
        if contour.iter().any(off_paper) {
            continue;
        }
        let corners = web.points(&contour);
        let area = twice_area(&corners);
        if area > 0 {
            for way in contour {
                left[way] = Some(outer.len());
            }
            outer.push((area, corners));
        } else {
            inner.push((contour, corners));
        }
    }
    for (contour, corners) in inner {
        let Some(at) = corners.first() else { continue };
        let around = outer.iter().enumerate().filter(|(_, (_, outline))| {
            // Those that share a point hang together, side by side.
            if outline.contains(at) {
                return false;
            }
            is_inside(edges_of(outline), *at, *at)
        });
        let nearest = around.min_by_key(|(_, (area, _))| *area);
        for way in contour {
            left[way] = nearest.map(|(facet, _)| facet);
        }
    }
    left
}

/// The same closed chain from its corner farthest left, the lowest of these.
fn from_lowest(mut corners: Vec<Point<PieceFrame>>) -> Vec<Point<PieceFrame>> {
    let lowest = corners.iter().enumerate().min_by_key(|(_, at)| **at);
    let index = lowest.map_or(0, |(index, _)| index);
    corners.rotate_left(index);
    corners
}

/// The parts that no crease joins to the largest part.
fn loose(facets: &[Facet], hinges: &[Hinge]) -> Vec<Fault> {
    let mut part: Vec<usize> = (0..facets.len()).collect();
    for hinge in hinges {
        let (kept, gone) = (part[hinge.left], part[hinge.right]);
        for of in part.iter_mut().filter(|of| **of == gone) {
            *of = kept;
        }
    }
    let mut area = vec![0; facets.len()];
    for (facet, of) in facets.iter().zip(&part) {
        area[*of] += facet.twice_area();
    }
    let largest = (0..facets.len()).max_by_key(|of| (area[*of], Reverse(*of)));
    let mut reported = vec![false; facets.len()];
    let mut faults = Vec::new();
    for (number, facet) in facets.iter().enumerate() {
        let of = part[number];
        if Some(of) == largest || std::mem::replace(&mut reported[of], true) {
            continue;
        }
        let at = facet.outline.corners.first();
        faults.extend(at.map(|at| Fault::Loose {
            facet: number,
            at: *at,
        }));
    }
    faults
}
