//! How many orders folded sheets have, against published counts.

use foldwright_engine::fold::{Orders, Stack, Undecided};

use crate::sheet::{Sheet, every_labelling, labelled};

pub(crate) fn count(stack: &Stack) -> Result<u64, Undecided> {
    Orders::stacked(stack).count()
}

/// The number of ways to fold a strip of n labelled stamps: On-Line
/// Encyclopedia of Integer Sequences, A000136. Counted with every crease free,
/// the strip lying aslant so that its corners are rounded.
#[test]
fn stamps() {
    let known = [1, 2, 6, 16, 50, 144, 462, 1392, 4536, 14060];
    for (stamps, expected) in (1..).zip(known) {
        let stack = Sheet::strip(&vec![25.0; stamps], 33.0).folded();
        assert_eq!(count(&stack), Ok(expected), "{stamps} stamps");
    }
}

/// The same over all labels of the creases.
#[test]
fn stamps_by_labels() {
    for (stamps, expected) in [(2, 2), (5, 50), (8, 1392)] {
        let stack = Sheet::strip(&vec![25.0; stamps], 0.0).folded();
        let all: Result<u64, _> = every_labelling(stamps - 1)
            .map(|labels| count(&labelled(&stack, &labels)))
            .sum();
        assert_eq!(all, Ok(expected), "{stamps} stamps");
    }
}

/// Orders of equal stamps with given labels: Hull, Ibrahim, Paltrowitz,
/// Ter-Saakov and Wang, arXiv 2503.23661 (2025), for a mountains followed by b
/// valleys, ab + b² - b + 1 where a > b + 1, and for blocks of two, a product of
/// two Catalan numbers.
#[test]
fn stamps_with_given_labels() {
    let strip = |labels: &str| {
        let stack = Sheet::strip(&vec![25.0; labels.len() + 1], 0.0).folded();
        count(&labelled(&stack, labels))
    };
    for (a, b, expected) in [(7, 5, 56), (8, 5, 61), (8, 6, 79), (9, 3, 34)] {
        let labels = "M".repeat(a) + &"V".repeat(b);
        assert_eq!(strip(&labels), Ok(expected), "{labels}");
    }
    for (blocks, expected) in (1..).zip([2, 4, 10, 25, 70, 196, 588]) {
        let labels: String = "MMVV".chars().cycle().take(2 * blocks).collect();
        assert_eq!(strip(&labels), Ok(expected), "{labels}");
    }
}

/// The number of ways to fold a 2 × n map: On-Line Encyclopedia of Integer
/// Sequences, A001415; in one count with every crease free, and as the sum over
/// all labels.
#[test]
fn maps_of_two_rows() {
    for (columns, expected) in (1..).zip([2, 8, 60, 320, 1980]) {
        let map = Sheet::map(&vec![20.0; columns], &[20.0, 20.0], 0.0).folded();
        assert_eq!(count(&map), Ok(expected), "2 x {columns}, creases free");
        let all: Result<u64, _> = every_labelling(map.hinges.len())
            .map(|labels| count(&labelled(&map, &labels)))
            .sum();
        assert_eq!(all, Ok(expected), "2 x {columns}, over all labels");
    }
}

/// The number of ways to fold a 3 × 3 map: On-Line Encyclopedia of Integer
/// Sequences, A001418 (from memory).
#[test]
fn a_square_map() {
    let map = Sheet::map(&[20.0; 3], &[20.0; 3], 18.0).folded();
    assert_eq!(count(&map), Ok(1368));
}

/// How many labelled strips with lengths from a few whole numbers fold, by
/// exhaustive search of layer orders in the setting of Arkin and others, "When
/// Can You Fold a Map?" (2004).
#[test]
fn labelled_strips_that_fold() {
    let cases: [(usize, &[u64]); 2] = [(2, &[8, 30, 110, 394, 1396]), (3, &[18, 98, 518, 2662])];
    for (longest, totals) in cases {
        for (panels, expected) in (2_u32..).zip(totals) {
            let mut total = 0;
            for number in 0..longest.pow(panels) {
                let lengths: Vec<f64> = (0..panels)
                    .map(|place| [20.0, 40.0, 60.0][number / longest.pow(place) % longest])
                    .collect();
                let stack = Sheet::strip(&lengths, 0.0).folded();
                for labels in every_labelling(stack.hinges.len()) {
                    let orders = Orders::stacked(&labelled(&stack, &labels));
                    let order = orders.first(&[]);
                    assert!(order.is_ok(), "{lengths:?} {labels}");
                    total += u64::from(order != Ok(None));
                }
            }
            assert_eq!(total, *expected, "{panels} panels to {longest}");
        }
    }
}
