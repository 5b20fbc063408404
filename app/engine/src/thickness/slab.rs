//! The thickest place, looked for slab by slab.
//!
//! A slab is what lies between two heights. What all its papers make where they
//! may lie on each other is never less than the thickest place in it, and what
//! lies on a line through its middle is never more. The slab that may hold most
//! is halved until no other may hold more than what was found.

use std::cmp::Ordering;
use std::collections::BinaryHeap;
use std::rc::Rc;

use super::Thickest;
use crate::length::Length;
use crate::plane::{CardFrame, Point, SAME_WITHIN};
use crate::sorted::InOrder as _;

/// Something of the pile.
pub(super) struct Paper {
    pub(super) contours: Vec<Vec<Point<CardFrame>>>,
    pub(super) caliper: Length,
}

/// Calipers and papers that lie on each other.
type Load = (Length, usize);

/// An edge of a paper, its lower end first, in units.
struct Edge {
    low: [f64; 2],
    high: [f64; 2],
    paper: usize,
}

impl Edge {
    /// How far to the right it passes a height; beyond its ends, where it ends.
    fn at(&self, height: f64) -> f64 {
        let share = (height - self.low[1]) / (self.high[1] - self.low[1]);
        self.low[0] + (self.high[0] - self.low[0]) * share.clamp(0.0, 1.0)
    }
}

/// What lies between two heights.
struct Slab {
    low: f64,
    high: f64,
    /// The edges that reach into it.
    edges: Rc<[usize]>,
    /// No place in it holds more.
    most: Load,
    /// Left end of where it may hold that.
    left: f64,
}

impl PartialEq for Slab {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for Slab {}
impl PartialOrd for Slab {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Slab {
    fn cmp(&self, other: &Self) -> Ordering {
        let low = || other.low.total_cmp(&self.low);
        self.most.cmp(&other.most).then_with(low)
    }
}

/// The search for the thickest place of some papers.
struct Search<'a> {
    papers: &'a [Paper],
    edges: Vec<Edge>,
    /// Every height at which an edge ends.
    heights: Vec<f64>,
    found: Option<(Load, [f64; 2])>,
    /// How many edges were looked at.
    looks: usize,
}

/// The thickest place, or what none is thicker than once so many edges were
/// looked at.
pub(super) fn search(papers: &[Paper], most_looks: usize) -> Option<Thickest> {
    let mut search = Search::of(papers);
    let (low, high) = search.heights.first().zip(search.heights.last())?;
    let all: Vec<usize> = (0..search.edges.len()).collect();
    let mut slabs: BinaryHeap<Slab> = BinaryHeap::new();
    slabs.extend(search.slab(*low, *high, &all));
    while let Some(slab) = slabs.pop() {
        if !search.holds_more(slab.most) {
            break;
        }
        if search.looks > most_looks {
            search.found = Some((slab.most, [slab.left, slab.low]));
            break;
        }
        if let Some(middle) = search.middle(&slab) {
            for (low, high) in [(slab.low, middle), (middle, slab.high)] {
                slabs.extend(search.slab(low, high, &slab.edges));
            }
        }
    }
    let ((thickness, sheets), at) = search.found?;
    let [x, y] = at.map(Length::near_units);
    Some(Thickest {
        thickness,
        sheets,
        at: Point::new(x, y),
    })
}

impl<'a> Search<'a> {
    fn of(papers: &'a [Paper]) -> Self {
        let mut edges = Vec::new();
        for (number, paper) in papers.iter().enumerate() {
            for contour in &paper.contours {
                for (a, b) in contour.iter().zip(contour.iter().cycle().skip(1)) {
                    let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
                    // Level edges bound nothing to the left or right.
                    if low.y < high.y {
                        edges.push(Edge {
                            low: [low.x.as_units_f64(), low.y.as_units_f64()],
                            high: [high.x.as_units_f64(), high.y.as_units_f64()],
                            paper: number,
                        });
                    }
                }
            }
        }
        let ends = edges.iter().flat_map(|edge| [edge.low[1], edge.high[1]]);
        let mut heights: Vec<f64> = ends.collect();
        heights.put_in_order_by(f64::total_cmp);
        heights.dedup();
        Self {
            papers,
            edges,
            heights,
            found: None,
            looks: 0,
        }
    }

    /// Looks at a slab; nothing where none of it can hold more than was found
    /// already.
    fn slab(&mut self, low: f64, high: f64, edges: &[usize]) -> Option<Slab> {
        let within = |edge: &&usize| {
            let edge = self.edges.get(**edge);
            edge.is_some_and(|edge| edge.low[1] < high && edge.high[1] > low)
        };
        let edges: Rc<[usize]> = edges.iter().filter(within).copied().collect();
        self.looks += edges.len();
        let (mut on_line, mut stretches) = (Vec::new(), Vec::new());
        let middle = f64::midpoint(low, high);
        for edge in edges.iter().filter_map(|edge| self.edges.get(*edge)) {
            let ends = [
                edge.at(low.max(edge.low[1])),
                edge.at(high.min(edge.high[1])),
            ];
            stretches.push((edge.paper, ends));
            if edge.low[1] <= middle && middle < edge.high[1] {
                on_line.push((edge.at(middle), edge.paper, ends));
            }
        }
        on_line.put_in_order_by(|a, b| a.0.total_cmp(&b.0));
        let mut inside = vec![false; self.papers.len()];
        let line = on_line.iter().map(|(at, paper, _)| {
            let inside = inside.get_mut(*paper);
            let begins = inside.is_some_and(|inside| {
                *inside = !*inside;
                *inside
            });
            (*at, *paper, begins)
        });
        let (load, left) = self.heaviest(line);
        if self.holds_more(load) {
            self.found = Some((load, [left, low]));
        }
        // Where edges neither end nor cross, the line tells all.
        if self.ends_between(low, high).is_empty() && in_order(&on_line) {
            return None;
        }
        let (most, left) = self.heaviest(whole_stretches(stretches).into_iter());
        self.holds_more(most).then_some(Slab {
            low,
            high,
            edges,
            most,
            left,
        })
    }

    /// Whether it is more than what was found.
    fn holds_more(&self, load: Load) -> bool {
        load > self.found.map(|(found, _)| found).unwrap_or_default()
    }

    /// The heights between two others at which edges end.
    fn ends_between(&self, low: f64, high: f64) -> &[f64] {
        let from = self.heights.partition_point(|height| *height <= low);
        let to = self.heights.partition_point(|height| *height < high);
        self.heights.get(from..to).unwrap_or_default()
    }

    /// Where to part a slab; nothing where it is thinner than any place counts.
    fn middle(&self, slab: &Slab) -> Option<f64> {
        let ends = self.ends_between(slab.low, slab.high);
        match ends.get(ends.len() / 2) {
            Some(end) => Some(*end),
            None if slab.high - slab.low > 1.0 => Some(f64::midpoint(slab.low, slab.high)),
            None => None,
        }
    }

    /// The most that lies between two of the places where papers begin and end,
    /// from left to right, and where it begins. What is narrower than a line
    /// is no place.
    fn heaviest(&self, places: impl Iterator<Item = (f64, usize, bool)>) -> (Load, f64) {
        let mut now: Load = (Length::ZERO, 0);
        let mut most = (now, 0.0);
        let mut begin = 0.0;
        for (at, paper, begins) in places {
            if now > most.0 && at - begin > SAME_WITHIN.as_units_f64() {
                most = (now, begin);
            }
            let caliper = self.papers.get(paper).map_or(Length::ZERO, |it| it.caliper);
            if begins {
                now = (now.0 + caliper, now.1 + 1);
            } else {
                now = (now.0 - caliper, now.1.saturating_sub(1));
            }
            begin = at;
        }
        most
    }
}

/// From where to where each paper may reach, as places where papers begin and
/// end from left to right.
fn whole_stretches(mut stretches: Vec<(usize, [f64; 2])>) -> Vec<(f64, usize, bool)> {
    stretches.put_in_order_by_key(|(paper, _)| *paper);
    let papers = stretches.chunk_by(|a, b| a.0 == b.0);
    let ends = papers.filter_map(|of_paper| {
        let (paper, _) = of_paper.first()?;
        let ends = of_paper.iter().flat_map(|(_, ends)| ends);
        let from = ends.clone().copied().fold(f64::INFINITY, f64::min);
        let to = ends.copied().fold(f64::NEG_INFINITY, f64::max);
        Some([(from, *paper, true), (to, *paper, false)])
    });
    let mut places: Vec<_> = ends.flatten().collect();
    places.put_in_order_by(|a, b| a.0.total_cmp(&b.0));
    places
}

/// Whether edges that pass a line from left to right pass both ends of their
/// slab so, as far as a line is wide.
fn in_order(edges: &[(f64, usize, [f64; 2])]) -> bool {
    let mut farthest = [f64::NEG_INFINITY; 2];
    edges.iter().all(|(_, _, ends)| {
        let behind = (0..2).any(|i| ends[i] < farthest[i] - SAME_WITHIN.as_units_f64());
        farthest = [0, 1].map(|i| farthest[i].max(ends[i]));
        !behind
    })
}

#[cfg(test)]
mod tests {
    use super::{Paper, search};
    use crate::length::Length;
    use crate::plane::{CardFrame, Point, Region};

    /// Numbers from a seed (Marsaglia's xorshift).
    struct Numbers(u64);

    impl Numbers {
        fn below(&mut self, most: u32) -> u32 {
            self.0 ^= self.0 << 13;
            self.0 ^= self.0 >> 7;
            self.0 ^= self.0 << 17;
            u32::try_from(self.0 % u64::from(most)).expect("below a small number")
        }

        /// A regular polygon somewhere, turned somehow, with a hole in it now
        /// and then.
        fn paper(&mut self, corners: u32) -> Region<CardFrame> {
            let [x, y] = [self.below(60), self.below(60)].map(f64::from);
            let turn = f64::from(self.below(360));
            let outer = 10.0 + f64::from(self.below(30));
            let ring = |reach: f64| {
                let corner = |number: u32| {
                    let angle = turn + f64::from(number) / f64::from(corners) * 360.0;
                    let (sin, cos) = angle.to_radians().sin_cos();
                    let at = [x + reach * cos, y + reach * sin];
                    let [x, y] = at.map(|mm| Length::near_units(mm * Length::mm(1).as_units_f64()));
                    Point::new(x, y)
                };
                Region::from(&crate::plane::Polygon {
                    corners: (0..corners).map(corner).collect(),
                })
            };
            match self.below(3) {
                0 => ring(outer).minus(&ring(outer * 0.6)),
                _ => ring(outer),
            }
        }
    }

    fn paper(region: &Region<CardFrame>, caliper: i64) -> Paper {
        Paper {
            contours: region.contours().collect(),
            caliper: Length::microns(caliper),
        }
    }

    /// The thickest place by laying exact areas over each other: what lies
    /// under each choice of papers, as long as there is any.
    fn by_areas(papers: &[(Region<CardFrame>, i64)], under: Option<&Region<CardFrame>>) -> i64 {
        let Some(((region, caliper), rest)) = papers.split_first() else {
            return 0;
        };
        let both = under.map_or_else(|| region.clone(), |under| under.common(region));
        let with = if both.is_empty() {
            0
        } else {
            caliper + by_areas(rest, Some(&both))
        };
        with.max(by_areas(rest, under))
    }

    #[test]
    fn it_is_as_thick_as_exact_areas_say() {
        for seed in 1..=150_u64 {
            println!("seed {seed}");
            let mut numbers = Numbers(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15));
            let count = 2 + numbers.below(6);
            let pile: Vec<_> = (0..count)
                .map(|_| {
                    let corners = 3 + numbers.below(9);
                    (numbers.paper(corners), 100 + i64::from(numbers.below(200)))
                })
                .collect();
            let papers: Vec<_> = pile.iter().map(|(region, it)| paper(region, *it)).collect();
            let found = search(&papers, usize::MAX).expect("there is paper");
            let exact = Length::microns(by_areas(&pile, None));
            assert_eq!(found.thickness, exact);
            let few = search(&papers, 20).expect("there is paper");
            assert!(few.thickness >= exact, "never told thinner than it is");
        }
    }

    /// Many round papers with round holes, each turned a little, cross each
    /// other in hundreds of thousands of places.
    #[test]
    fn a_nasty_pile_is_bounded() {
        let mut numbers = Numbers(5);
        let papers: Vec<_> = (0..120).map(|_| paper(&numbers.paper(96), 250)).collect();
        let found = search(&papers, super::super::MOST_LOOKS).expect("there is paper");
        assert!((30..=120).contains(&found.sheets), "{}", found.sheets);
        assert_eq!(
            Some(found.thickness),
            i64::try_from(found.sheets)
                .ok()
                .map(|sheets| Length::microns(250 * sheets))
        );
    }
}
