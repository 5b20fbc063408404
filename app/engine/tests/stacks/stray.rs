//! Stacks that no sheet of paper makes: the engine says something about each,
//! and soon.

use foldwright_engine::fold::{About, Bond, Facet, Hinge, Orders, Stack};
use foldwright_engine::length::Length;
use foldwright_engine::plane::{CardFrame, Point, Polygon, Region};
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
        prop_assert_eq!(none, matches!(orders.conflict(), Ok(Some(_))));
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
}
