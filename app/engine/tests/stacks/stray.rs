//! Stacks that no sheet of paper makes: the engine says something about each,
//! and soon.

use foldwright_engine::fold::{About, Bond, Core, Facet, Hinge, Orders, Stack, Undecided};
use foldwright_engine::length::Length;
use foldwright_engine::plane::{CardFrame, Point, Polygon, Rect, Region};
use foldwright_engine::recipe::Fold;
use proptest::collection::vec;
use proptest::prelude::*;

/// Few different places, so that much coincides; and the ends of the table.
fn stray_length() -> impl Strategy<Value = Length> {
    prop_oneof![
        8 => (0..6_i64).prop_map(|step| Length::mm(10 * step)),
        2 => (0..3_i64).prop_map(Length::from_units),
        1 => Just(Length::LIMIT),
        1 => Just(-Length::LIMIT),
    ]
}

fn stray_point() -> impl Strategy<Value = Point<CardFrame>> {
    (stray_length(), stray_length()).prop_map(|(x, y)| Point::new(x, y))
}

fn stray_region() -> impl Strategy<Value = Region<CardFrame>> {
    vec(stray_point(), 0..7).prop_map(|corners| Region::from(&Polygon { corners }))
}

fn stray_facet() -> impl Strategy<Value = Facet> {
    (stray_region(), any::<bool>()).prop_map(|(area, mirrored)| Facet { area, mirrored })
}

fn stray_hinge() -> impl Strategy<Value = Hinge> {
    let fold = prop_oneof![
        Just(None),
        Just(Some(Fold::Mountain)),
        Just(Some(Fold::Valley))
    ];
    (0..9_usize, 0..9_usize, stray_point(), stray_point(), fold).prop_map(
        |(a, b, from, to, fold)| Hinge {
            a,
            b,
            from,
            to,
            fold,
        },
    )
}

fn stray_bond() -> impl Strategy<Value = Bond> {
    (0..9_usize, 0..9_usize, stray_region()).prop_map(|(front, back, glue)| Bond {
        front,
        back,
        glue,
    })
}

fn stray_stack() -> impl Strategy<Value = Stack> {
    (
        vec(stray_facet(), 0..8),
        vec(stray_hinge(), 0..10),
        vec(stray_bond(), 0..4),
    )
        .prop_map(|(facets, hinges, bonds)| Stack {
            facets,
            hinges,
            bonds,
        })
}

/// More than is ever stacked is not decided, at once.
#[test]
fn too_much() {
    let square = |mm: i64| {
        let low = Point::new(Length::ZERO, Length::ZERO);
        let high = Point::new(Length::mm(mm), Length::mm(mm));
        Region::from(Rect::spanning(low, high))
    };
    let facet = |area| Facet {
        area,
        mirrored: false,
    };
    let facets = (1..2000).map(|mm| facet(square(mm))).collect();
    let orders = Orders::stacked(&Stack {
        facets,
        ..Stack::default()
    });
    assert_eq!(orders.count(), Err(Undecided));
    assert_eq!(orders.first(&[]), Err(Undecided));
    assert_eq!(orders.question(&[], About::Outside), Err(Undecided));
    assert_eq!(orders.core(), Err(Undecided));
    assert!(orders.choices().is_empty());
    // Of 40 loose cards there are more orders than can be counted one by one,
    // but one is found.
    let loose = Orders::stacked(&Stack {
        facets: (1..=40).map(|_| facet(square(50))).collect(),
        ..Stack::default()
    });
    assert_eq!(loose.count(), Err(Undecided));
    let order = loose.first(&[(39, 0)]);
    assert!(
        order.is_ok_and(|order| order.is_some_and(|order| order.in_front(39, 0) == Some(true)))
    );
}

/// The stack with nothing but some facets and joints in it.
fn only(stack: &Stack, facets: &[usize], hinges: &[usize], bonds: &[usize]) -> Stack {
    let facet = |(at, facet): (usize, &Facet)| Facet {
        area: if facets.contains(&at) {
            facet.area.clone()
        } else {
            Region::default()
        },
        ..*facet
    };
    Stack {
        facets: stack.facets.iter().enumerate().map(facet).collect(),
        hinges: hinges.iter().map(|at| stack.hinges[*at]).collect(),
        bonds: bonds.iter().map(|at| stack.bonds[*at].clone()).collect(),
    }
}

fn without(all: &[usize], one: usize) -> Vec<usize> {
    all.iter().copied().filter(|at| *at != one).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// The answers about any stack agree with each other.
    #[test]
    fn answers_agree(stack in stray_stack(), wanted in vec((0..9_usize, 0..9_usize), 0..3)) {
        let orders = Orders::stacked(&stack);
        let (count, first) = (orders.count(), orders.first(&[]));
        prop_assert!(first.is_ok() && count.is_ok());
        let none = first == Ok(None);
        let several = count.is_ok_and(|count| count > 1);
        prop_assert_eq!(none, count == Ok(0));
        prop_assert_eq!(none, matches!(orders.core(), Ok(Some(_))));
        let question = orders.question(&[], About::Everything);
        prop_assert_eq!(question.is_ok_and(|asked| asked.is_some()), several);
        prop_assert_eq!(orders.choices().is_empty(), !several);
        if let Ok(Some(order)) = orders.first(&wanted) {
            for (front, back) in wanted {
                prop_assert_ne!(order.in_front(front, back), Some(false));
            }
            for pile in orders.piles() {
                prop_assert!(order.lined_up_among(&pile).is_some());
            }
        }
    }

    /// Preferences are kept as they are by asking for an order anew with each.
    #[test]
    fn preferences_are_kept_in_turn(
        stack in stray_stack(),
        wanted in vec((0..9_usize, 0..9_usize), 0..2),
        preferred in vec((0..9_usize, 0..9_usize), 0..9),
    ) {
        let orders = Orders::stacked(&stack);
        let overlap = |(a, b): &(usize, usize)| {
            let order = orders.first(&[(*a, *b)]).ok().flatten();
            let other = orders.first(&[(*b, *a)]).ok().flatten();
            order.or(other).is_some_and(|order| order.in_front(*a, *b).is_some())
        };
        let mut kept = wanted.clone();
        for way in preferred.iter().filter(|way| overlap(way)) {
            kept.push(*way);
            if orders.first(&kept) == Ok(None) {
                kept.pop();
            }
        }
        prop_assert_eq!(orders.preferring(&wanted, &preferred), Ok(kept.split_off(wanted.len())));
    }

    /// A core is enough to leave no order, and nothing of it can be
    /// missed.
    #[test]
    fn blame_is_least(stack in stray_stack()) {
        let Ok(Some(blame)) = Orders::stacked(&stack).core() else {
            return Ok(());
        };
        let Core { facets, hinges, bonds } = &blame;
        let folds = |facets: &[usize], hinges: &[usize], bonds: &[usize]| {
            let part = Orders::stacked(&only(&stack, facets, hinges, bonds));
            part.first(&[]).map(|order| order.is_some())
        };
        prop_assert_eq!(folds(facets, hinges, bonds), Ok(false));
        for facet in facets {
            prop_assert_eq!(folds(&without(facets, *facet), hinges, bonds), Ok(true));
        }
        for hinge in hinges {
            prop_assert_eq!(folds(facets, &without(hinges, *hinge), bonds), Ok(true));
        }
        for bond in bonds {
            prop_assert_eq!(folds(facets, hinges, &without(bonds, *bond)), Ok(true));
        }
    }
}
