//! Small maps counted a second way: every way to say which of two facets is in
//! front, looked at place by place. Written from the definitions, without the
//! code under test.

use crate::counts::count;
use crate::sheet::{Sheet, every_labelling, labelled};

/// A folded map whose lengths are whole steps of 10 mm, as ranges of steps.
struct Folded {
    /// First and last step across and up, for each panel.
    panels: Vec<[(i32, i32); 2]>,
    mirrored: Vec<bool>,
    creases: Vec<Crease>,
}

/// The panels, whether the crease stands upright, and where: its own place, and
/// the range it runs along.
type Crease = (usize, usize, bool, i32, (i32, i32));

/// Folds stretches of these lengths to and fro.
fn to_and_fro(lengths: &[i32]) -> Vec<(i32, i32)> {
    let mut at = 0;
    let ends = lengths.iter().enumerate().map(|(place, length)| {
        let from = at;
        at += if place % 2 == 0 { *length } else { -length };
        (from.min(at), from.max(at))
    });
    ends.collect()
}

fn fold_map(widths: &[i32], heights: &[i32]) -> Folded {
    let (across, up) = (to_and_fro(widths), to_and_fro(heights));
    // Where each stretch ends, the next one begins.
    let turn = |spans: &[(i32, i32)], place: usize| {
        let (low, high) = spans[place];
        if place.is_multiple_of(2) { high } else { low }
    };
    let mut map = Folded {
        panels: Vec::new(),
        mirrored: Vec::new(),
        creases: Vec::new(),
    };
    let name = |column: usize, row: usize| column * heights.len() + row;
    for column in 0..widths.len() {
        for row in 0..heights.len() {
            map.panels.push([across[column], up[row]]);
            map.mirrored.push((column + row) % 2 == 1);
            if column > 0 {
                let panels = (name(column - 1, row), name(column, row));
                let at = turn(&across, column - 1);
                map.creases.push((panels.0, panels.1, true, at, up[row]));
            }
            if row > 0 {
                let panels = (name(column, row - 1), name(column, row));
                let at = turn(&up, row - 1);
                map.creases
                    .push((panels.0, panels.1, false, at, across[column]));
            }
        }
    }
    map
}

impl Folded {
    fn covers(&self, panel: usize, [x, y]: [i32; 2]) -> bool {
        let [across, up] = self.panels[panel];
        (across.0..across.1).contains(&x) && (up.0..up.1).contains(&y)
    }

    fn here(&self, place: [i32; 2]) -> Vec<usize> {
        let panels = 0..self.panels.len();
        panels.filter(|panel| self.covers(*panel, place)).collect()
    }

    /// The creases along the edge between a step and the next, right or up, with
    /// which of the two steps their panels lie on.
    fn creases_between(&self, low: [i32; 2], upright: bool) -> Vec<(usize, usize, bool)> {
        let [x, y] = low;
        let (at, along) = if upright { (x + 1, y) } else { (y + 1, x) };
        let there = self.creases.iter().filter(|(_, _, stands, place, range)| {
            *stands == upright && *place == at && (range.0..range.1).contains(&along)
        });
        there
            .map(|(a, b, ..)| (*a, *b, self.covers(*a, low)))
            .collect()
    }

    /// Whether a way to say what is in front is one of paper: over each place a
    /// pile, and across each edge nothing passes through a crease.
    fn allowed(&self, labels: &[char], in_front: &dyn Fn(usize, usize) -> bool) -> bool {
        let named =
            self.creases.iter().zip(labels).all(|((a, b, ..), label)| {
                in_front(*b, *a) == ((*label == 'V') != self.mirrored[*a])
            });
        let between = |k: usize, a: usize, b: usize| in_front(k, a) != in_front(k, b);
        let steps = -9..9;
        let places = steps
            .clone()
            .flat_map(|x| steps.clone().map(move |y| [x, y]));
        named
            && places.into_iter().all(|low| {
                let here = self.here(low);
                let is_pile = here.iter().all(|a| {
                    here.iter().all(|b| {
                        here.iter().all(|c| {
                            let apart = a == b || b == c || a == c;
                            apart || !(in_front(*a, *b) && in_front(*b, *c) && in_front(*c, *a))
                        })
                    })
                });
                is_pile
                    && [true, false].into_iter().all(|upright| {
                        let next = if upright {
                            [low[0] + 1, low[1]]
                        } else {
                            [low[0], low[1] + 1]
                        };
                        let creases = self.creases_between(low, upright);
                        let across = here.iter().filter(|panel| self.covers(**panel, next));
                        let mut across = across.flat_map(|k| creases.iter().map(move |c| (k, c)));
                        let one_sided = across.all(|(k, (a, b, _))| !between(*k, *a, *b));
                        one_sided
                            && creases.iter().all(|(a, b, side)| {
                                creases.iter().all(|(c, d, other)| {
                                    a == c
                                        || side != other
                                        || between(*c, *a, *b) == between(*d, *a, *b)
                                })
                            })
                    })
            })
    }

    fn count(&self, labels: &str) -> u64 {
        let labels: Vec<char> = labels.chars().collect();
        let panels = self.panels.len();
        let overlap = |a: usize, b: usize| {
            (0..2).all(|axis| {
                let (one, other) = (self.panels[a][axis], self.panels[b][axis]);
                one.0 < other.1 && other.0 < one.1
            })
        };
        let pairs: Vec<(usize, usize)> = (0..panels)
            .flat_map(|b| (0..b).map(move |a| (a, b)))
            .filter(|(a, b)| overlap(*a, *b))
            .collect();
        let ways = (0..1_u64 << pairs.len()).filter(|bits| {
            let in_front = |a: usize, b: usize| {
                let pair = pairs.iter().position(|pair| *pair == (a.min(b), a.max(b)));
                pair.is_some_and(|pair| (bits >> pair & 1 == 1) == (a < b))
            };
            self.allowed(&labels, &in_front)
        });
        ways.count() as u64
    }
}

fn agree(widths: &[i32], heights: &[i32]) {
    let lengths = |steps: &[i32]| steps.iter().map(|step| f64::from(*step) * 10.0).collect();
    let (wide, high): (Vec<f64>, Vec<f64>) = (lengths(widths), lengths(heights));
    let stack = Sheet::map(&wide, &high, 0.0).folded();
    let by_hand = fold_map(widths, heights);
    for labels in every_labelling(stack.hinges.len()) {
        let found = count(&labelled(&stack, &labels));
        let expected = Ok(by_hand.count(&labels));
        assert_eq!(found, expected, "{widths:?} x {heights:?} {labels}");
    }
}

#[test]
fn maps_of_four_panels() {
    for number in 0..81 {
        let step = |place: u32| number / 3_i32.pow(place) % 3 + 1;
        agree(&[step(0), step(1)], &[step(2), step(3)]);
    }
}

#[test]
fn strips_of_four_panels() {
    for number in 0..81 {
        let step = |place: u32| number / 3_i32.pow(place) % 3 + 1;
        agree(&[step(0), step(1), step(2), step(3)], &[2]);
    }
}
