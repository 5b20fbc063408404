//! Folding strips flat, against published results and an independent search.

use std::collections::HashSet;

use foldwright_engine::fold::{Orders, Stuck, Undecided, stack_of};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::Fold;

/// Reads "MVV".
fn folds(labels: &str) -> Vec<Fold> {
    labels
        .chars()
        .map(|label| {
            if label == 'M' {
                Fold::Mountain
            } else {
                Fold::Valley
            }
        })
        .collect()
}

fn millimetres(lengths: &[i64]) -> Vec<Length> {
    lengths.iter().map(|length| Length::mm(*length)).collect()
}

fn every_labelling(creases: usize) -> impl Iterator<Item = String> {
    (0..1_usize << creases).map(move |bits| {
        (0..creases)
            .map(|crease| if bits >> crease & 1 == 0 { 'M' } else { 'V' })
            .collect()
    })
}

/// Where each panel begins and ends along the folded line.
fn ends(lengths: &[i64]) -> Vec<(i64, i64)> {
    let mut at = 0;
    lengths
        .iter()
        .enumerate()
        .map(|(place, length)| {
            let from = at;
            at += if place % 2 == 0 { *length } else { -length };
            (from, at)
        })
        .collect()
}

/// Whether an order of layers (each panel's height, panel 0 with side A up)
/// keeps every label and passes no paper through a crease. Written from the
/// definitions, without the code under test.
fn allowed(ends: &[(i64, i64)], labels: &str, height: &[usize]) -> bool {
    let between = |k: usize, i: usize, j: usize| (height[i] < height[k]) != (height[j] < height[k]);
    for (crease, label) in labels.chars().enumerate() {
        let at = ends[crease].1;
        // On every second panel side B is up, and what is a valley from side A
        // then folds the other way.
        let next_above = (label == 'V') == (crease % 2 == 0);
        if (height[crease + 1] > height[crease]) != next_above {
            return false;
        }
        for (k, (from, to)) in ends.iter().enumerate() {
            let (low, high) = (*from.min(to), *from.max(to));
            if low < at && at < high && between(k, crease, crease + 1) {
                return false;
            }
        }
        for other in 0..crease {
            let left = |c: usize| ends[c].0 < ends[c].1;
            let crossing =
                between(other, crease, crease + 1) != between(other + 1, crease, crease + 1);
            let apart = other + 1 == crease || ends[other].1 != at || left(other) != left(crease);
            if !apart && crossing {
                return false;
            }
        }
    }
    true
}

/// Every order of the panels' heights.
fn every_height(panels: usize) -> Vec<Vec<usize>> {
    let mut all = vec![vec![]];
    for panel in 0..panels {
        all = all
            .into_iter()
            .flat_map(|order: Vec<usize>| {
                (0..=panel).map(move |slot| {
                    let mut next = order.clone();
                    next.insert(slot, panel);
                    next
                })
            })
            .collect();
    }
    all.into_iter()
        .map(|order| {
            let mut height = vec![0; panels];
            for (layer, panel) in order.into_iter().enumerate() {
                height[panel] = layer;
            }
            height
        })
        .collect()
}

/// All strips of `panels` lengths from {1, 2, 3}.
fn every_strip(panels: u32) -> impl Iterator<Item = Vec<i64>> {
    (0..3_i64.pow(panels)).map(move |number| {
        (0..panels)
            .map(|place| number / 3_i64.pow(place) % 3 + 1)
            .collect()
    })
}

fn foldable(lengths: &[i64]) -> Vec<String> {
    every_labelling(lengths.len() - 1)
        .filter(|labels| stack_of(&millimetres(lengths), &folds(labels)).is_ok())
        .collect()
}

/// Lists worked out by exhaustive search of layer orders, for the setting of
/// Arkin and others, "When Can You Fold a Map?" (2004).
#[test]
fn labelled_examples() {
    let cases: [(&[i64], &str); 8] = [
        (&[1, 1], "M V"),
        (&[2, 1, 2], "MV VM"),
        (&[3, 1, 2], "MV VM"),
        (&[2, 1, 1, 2], "MMV MVM MVV VMM VMV VVM"),
        (&[10, 3, 4, 10], "MVM MVV VMM VMV"),
        (&[2, 1, 1, 1, 2], "MMVV MVMV MVVM VMMV VMVM VVMM"),
        (&[5, 2, 4, 1, 3], "MVMV MVVM VMMV VMVM"),
        (&[3, 2, 1, 2, 3], "MMVM MMVV MVMM MVMV VMVM VMVV VVMM VVMV"),
    ];
    for (lengths, expected) in cases {
        let found: HashSet<String> = foldable(lengths).into_iter().collect();
        let expected: HashSet<String> = expected.split(' ').map(str::to_owned).collect();
        assert_eq!(found, expected, "{lengths:?}");
    }
    assert_eq!(foldable(&[1, 2, 3, 2, 1]).len(), 16);
    assert_eq!(foldable(&[4, 3, 2, 1, 1]).len(), 16);
}

/// The number of strips with lengths from {1, 2, 3} that fold, by exhaustive
/// search; and our own search agrees on every single one and finds each order
/// handed out to be allowed.
#[test]
fn totals_and_an_independent_search() {
    for (panels, expected) in [(2, 18), (3, 98), (4, 518), (5, 2662), (6, 13506)] {
        let heights = every_height(panels as usize);
        let mut total = 0;
        for lengths in every_strip(panels) {
            let ends = ends(&lengths);
            for labels in every_labelling(lengths.len() - 1) {
                match stack_of(&millimetres(&lengths), &folds(&labels)) {
                    Ok(order) => {
                        total += 1;
                        let mut height = vec![usize::MAX; lengths.len()];
                        for (layer, panel) in order.iter().enumerate() {
                            height[*panel] = layer;
                        }
                        assert!(
                            allowed(&ends, &labels, &height),
                            "{lengths:?} {labels}: {order:?} is not allowed"
                        );
                    }
                    Err(_) => assert!(
                        !heights.iter().any(|height| allowed(&ends, &labels, height)),
                        "{lengths:?} {labels} folds after all"
                    ),
                }
            }
        }
        assert_eq!(total, expected, "strips of {panels} panels");
    }
}

/// Card folds as printers' folding guides size them: a letter fold closes with
/// the short panel last in, a roll with ever shorter panels.
#[test]
fn card_folds() {
    let roll = [276_i64, 276, 270, 266].map(Length::sixty_fourths);
    let mixed = [270_i64, 276, 266, 276].map(Length::sixty_fourths);
    assert!(stack_of(&millimetres(&[100, 100, 97]), &folds("VV")).is_ok());
    assert!(stack_of(&millimetres(&[50, 100, 50]), &folds("VV")).is_ok());
    assert!(stack_of(&roll, &folds("VVV")).is_ok());
    assert!(stack_of(&mixed, &folds("VVV")).is_err());
    assert_eq!(
        stack_of(&millimetres(&[100, 97, 100]), &folds("VV")),
        Err(Stuck {
            before: 0,
            trapped: (1, 1),
            after: 2,
            fold: Fold::Valley,
        })
    );
}

/// Common practice: a strip scored at 1 3/4, 4 3/4 and 7 3/4 in, folded as an
/// accordion, lies panel on panel. An accordion folds for any lengths.
#[test]
fn accordion() {
    let strip = [112, 192, 192, 272].map(Length::sixty_fourths);
    assert_eq!(stack_of(&strip, &folds("VMV")), Ok(vec![0, 1, 2, 3]));
    assert_eq!(stack_of(&strip, &folds("MVM")), Ok(vec![3, 2, 1, 0]));
}

#[test]
fn a_strip_of_nothing_and_of_one() {
    assert_eq!(stack_of(&[], &[]), Ok(vec![]));
    assert_eq!(stack_of(&[Length::mm(5)], &[]), Ok(vec![0]));
}

/// Long strips neither take long nor nest too deep.
#[test]
fn a_long_strip() {
    let panels = 100_000;
    let lengths = vec![Length::mm(10); panels];
    let alternating: Vec<Fold> = (0..panels - 1)
        .map(|crease| {
            if crease % 2 == 0 {
                Fold::Valley
            } else {
                Fold::Mountain
            }
        })
        .collect();
    let order = stack_of(&lengths, &alternating).expect("an accordion always folds");
    assert_eq!(order, (0..panels).collect::<Vec<_>>());
}

fn orders(panels: usize, labels: &str) -> Result<u64, Undecided> {
    Orders::of(&vec![Length::mm(10); panels], &folds(labels)).count()
}

/// An order of a strip that keeps what is wanted, from the back to the front.
fn first(orders: &Orders, wanted: &[(usize, usize)]) -> Result<Option<Vec<usize>>, Undecided> {
    let order = orders.first(wanted)?;
    // A strip never overlaps in a ring: there is a line where there is an order.
    Ok(order.map(|order| order.lined_up().unwrap_or_default()))
}

/// The number of ways to fold a strip of n labelled stamps: On-Line
/// Encyclopedia of Integer Sequences, A000136.
#[test]
fn stamp_foldings() {
    for (panels, expected) in [1_u64, 2, 6, 16, 50, 144, 462, 1392, 4536]
        .into_iter()
        .enumerate()
    {
        let all: Result<u64, Undecided> = every_labelling(panels)
            .map(|labels| orders(panels + 1, &labels))
            .sum();
        assert_eq!(all, Ok(expected), "{} stamps", panels + 1);
    }
}

/// Orders of equal stamps with given labels: Hull, Ibrahim, Paltrowitz,
/// Ter-Saakov and Wang, arXiv 2503.23661 (2025), for runs of mountains followed
/// by valleys and for blocks of two; the others follow by a line of argument.
#[test]
fn foldings_with_given_labels() {
    for panels in 2..9 {
        let all_mountains = "M".repeat(panels - 1);
        assert_eq!(orders(panels, &all_mountains), Ok(panels as u64 - 1));
        let accordion: String = "MV".chars().cycle().take(panels - 1).collect();
        assert_eq!(orders(panels, &accordion), Ok(1));
    }
    for (a, b) in [(3_usize, 1_usize), (4, 1), (4, 2), (5, 2), (5, 3), (6, 2)] {
        let labels = "M".repeat(a) + &"V".repeat(b);
        assert_eq!(
            orders(labels.len() + 1, &labels),
            Ok((a * b + b * b - b + 1) as u64),
            "{labels}"
        );
    }
    for (blocks, expected) in (1..=5).zip([2, 4, 10, 25, 70]) {
        let labels: String = "MMVV".chars().cycle().take(2 * blocks).collect();
        assert_eq!(orders(labels.len() + 1, &labels), Ok(expected), "{labels}");
    }
}

/// There is an order exactly when the reduction finds one, and the one handed
/// out is allowed by the independent check.
#[test]
fn orders_and_reduction_agree() {
    for panels in 2..=5 {
        for lengths in every_strip(panels) {
            let ends = ends(&lengths);
            for labels in every_labelling(lengths.len() - 1) {
                let orders = Orders::of(&millimetres(&lengths), &folds(&labels));
                let first = first(&orders, &[]);
                let reduced = stack_of(&millimetres(&lengths), &folds(&labels));
                let folds = first.as_ref().map(Option::is_some);
                assert_eq!(folds, Ok(reduced.is_ok()), "{lengths:?} {labels}");
                if let Ok(Some(order)) = first {
                    let mut height = vec![usize::MAX; lengths.len()];
                    for (layer, panel) in order.iter().enumerate() {
                        height[*panel] = layer;
                    }
                    assert!(
                        allowed(&ends, &labels, &height),
                        "{lengths:?} {labels}: {order:?}"
                    );
                }
            }
        }
    }
}

/// In a letter fold of equal panels either outer panel can be the front; the
/// maker decides, and the order follows.
#[test]
fn a_choice() {
    let letter = Orders::of(&millimetres(&[100, 100, 100]), &folds("VV"));
    assert_eq!(letter.choices(), [(0, 2)]);
    assert_eq!(first(&letter, &[(0, 2)]), Ok(Some(vec![2, 0, 1])));
    assert_eq!(first(&letter, &[(2, 0)]), Ok(Some(vec![0, 2, 1])));
    assert_eq!(first(&letter, &[(0, 2), (2, 0)]), Ok(None));
}
