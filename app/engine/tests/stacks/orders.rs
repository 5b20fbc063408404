//! Orders of sheets that meet, cross and are glued; conflicts and questions.

use foldwright_engine::fold::{About, Bond, Core, Facet, Hinge, Orders, Stack};
use foldwright_engine::recipe::Fold;

use crate::counts::count;
use crate::sheet::{Sheet, Spot, labelled, point, region};

fn loose(corners: &[Spot]) -> Facet {
    Facet {
        area: region(corners),
        mirrored: false,
    }
}

fn square(left: f64, low: f64, width: f64, height: f64) -> Vec<Spot> {
    let (right, high) = (left + width, low + height);
    vec![[left, low], [right, low], [right, high], [left, high]]
}

fn hinge(a: usize, b: usize, from: Spot, to: Spot, fold: Option<Fold>) -> Hinge {
    Hinge {
        a,
        b,
        from: point(from),
        to: point(to),
        fold,
    }
}

/// Three loose bars that overlap two by two: where all three meet, "in front
/// of" is transitive and there are 3! orders; laid in a triangle they never all
/// meet and may overlap in a ring, so there are 2³.
#[test]
fn bars_in_a_ring() {
    let meeting = [
        square(0.0, 0.0, 30.0, 10.0),
        square(10.0, -10.0, 10.0, 30.0),
        vec![[0.0, -2.0], [2.0, -4.0], [30.0, 12.0], [28.0, 14.0]],
    ];
    let ring = [
        square(0.0, 0.0, 60.0, 5.0),
        vec![[0.0, -5.0], [5.0, -5.0], [40.0, 55.0], [35.0, 55.0]],
        vec![[60.0, -5.0], [55.0, -5.0], [20.0, 55.0], [25.0, 55.0]],
    ];
    let orders = |bars: &[Vec<Spot>]| {
        Orders::stacked(&Stack {
            facets: bars.iter().map(|corners| loose(corners)).collect(),
            ..Stack::default()
        })
    };
    assert_eq!(orders(&meeting).count(), Ok(6));
    let ring = orders(&ring);
    assert_eq!(ring.count(), Ok(8));
    let turning = ring.first(&[(0, 1), (1, 2), (2, 0)]);
    let Ok(Some(order)) = turning else {
        panic!("the bars can lie in a ring");
    };
    assert_eq!(order.in_front(0, 1), Some(true));
    assert_eq!(order.in_front(2, 1), Some(false));
    assert_eq!(order.lined_up(), None);
    assert_eq!(order.lined_up_among(&[0, 1]), Some(vec![1, 0]));
    let straight = ring.first(&[(0, 1), (1, 2), (0, 2)]);
    let lined_up = straight.map(|order| order.and_then(|order| order.lined_up()));
    assert_eq!(lined_up, Ok(Some(vec![2, 1, 0])));
}

/// Two sheets with a crease each at one place, both lying open, pass each other
/// only as wholes; so do a creased sheet and one that reaches across.
#[test]
fn open_creases() {
    let (left, right) = (square(0.0, 0.0, 20.0, 30.0), square(20.0, 0.0, 20.0, 30.0));
    let crease = |a, b| hinge(a, b, [20.0, 0.0], [20.0, 30.0], Some(Fold::Valley));
    let two_sheets = Stack {
        facets: [&left, &right, &right, &left].map(|at| loose(at)).into(),
        hinges: vec![crease(0, 1), crease(2, 3)],
        bonds: Vec::new(),
    };
    assert_eq!(count(&two_sheets), Ok(2));
    let across = Stack {
        facets: [&left, &right, &square(5.0, 5.0, 30.0, 9.0)]
            .map(|at| loose(at))
            .into(),
        hinges: vec![crease(0, 1)],
        bonds: Vec::new(),
    };
    assert_eq!(count(&across), Ok(2));
    // Half a hair past the crease is not across.
    let beside = Stack {
        facets: [&left, &right, &square(5.0, 5.0, 15.002, 9.0)]
            .map(|at| loose(at))
            .into(),
        ..across
    };
    assert_eq!(count(&beside), Ok(2));
    assert_eq!(Orders::stacked(&beside).choices(), [(0, 2)]);
}

/// A folded sheet and an open one with a crease at the same place: the open one
/// does not reach into the fold from beyond.
#[test]
fn a_fold_and_an_open_crease() {
    let (left, right) = (square(0.0, 0.0, 20.0, 30.0), square(20.0, 0.0, 20.0, 30.0));
    let mirrored = Facet {
        mirrored: true,
        ..loose(&left)
    };
    let crease = |a, b| hinge(a, b, [20.0, 0.0], [20.0, 30.0], Some(Fold::Valley));
    let stack = Stack {
        facets: vec![loose(&left), mirrored, loose(&left), loose(&right)],
        hinges: vec![crease(0, 1), crease(2, 3)],
        bonds: Vec::new(),
    };
    let orders = Orders::stacked(&stack);
    assert_eq!(orders.count(), Ok(2));
    assert_eq!(orders.first(&[(1, 2), (2, 0)]), Ok(None));
    // Cut along the crease, the left half slips in.
    let cut = Stack {
        hinges: vec![crease(0, 1)],
        ..stack
    };
    assert_eq!(count(&cut), Ok(3));
}

/// Nothing slips between two facets where they are glued, and beside the glue
/// it does.
#[test]
fn glue() {
    let panel = square(0.0, 0.0, 40.0, 60.0);
    let mat = square(3.0, 3.0, 34.0, 54.0);
    let stack = |loose_one: &[Spot], glue: &[Spot]| Stack {
        facets: [&panel[..], &mat[..], loose_one].map(loose).into(),
        hinges: Vec::new(),
        bonds: vec![Bond {
            front: 1,
            back: 0,
            glue: region(glue),
        }],
    };
    let card = square(10.0, 10.0, 20.0, 20.0);
    assert_eq!(count(&stack(&card, &mat)), Ok(2));
    assert_eq!(count(&stack(&card, &square(5.0, 40.0, 20.0, 10.0))), Ok(3));
    assert_eq!(count(&stack(&card, &[])), Ok(3));
}

/// A bond that asks for the opposite of what the folds do: they and the bond are
/// named, and what lies apart is not.
#[test]
fn a_bond_in_the_way() {
    let mut stack = Sheet::strip(&[40.0, 40.0, 40.0, 40.0], 0.0).folded();
    stack = labelled(&stack, "VMV");
    assert_eq!(count(&stack), Ok(1));
    stack.bonds.push(Bond {
        front: 0,
        back: 2,
        glue: region(&square(5.0, 5.0, 10.0, 10.0)),
    });
    let core = Core {
        facets: vec![0, 1, 2],
        hinges: vec![0, 1],
        bonds: vec![0],
    };
    assert_eq!(Orders::stacked(&stack).core(), Ok(Some(core)));
    assert_eq!(Orders::stacked(&stack).first(&[]), Ok(None));
    assert_eq!(
        Orders::stacked(&stack).question(&[], About::Everything),
        Ok(None)
    );
}

/// A panel too long to fold in between, as printers' folding guides warn of the
/// letter fold; the panels beside it are not to blame.
#[test]
fn a_strip_in_conflict() {
    let strip = Sheet::strip(&[80.0, 80.0, 100.0, 97.0, 100.0, 60.0], 20.0).folded();
    let core = Orders::stacked(&labelled(&strip, "MVVVM")).core();
    let blamed = Core {
        facets: vec![2, 3, 4],
        hinges: vec![2, 3],
        bonds: Vec::new(),
    };
    assert_eq!(core, Ok(Some(blamed)));
    let letter = Sheet::strip(&[100.0, 100.0, 97.0], 0.0).folded();
    assert_eq!(Orders::stacked(&labelled(&letter, "VV")).core(), Ok(None));
}

/// Questions come one by one until nothing is left to ask, and every answer to
/// one can be kept with those before.
#[test]
fn questions() {
    for (labels, about) in [
        ("VV", About::Outside),
        ("VVVVVV", About::Outside),
        ("VVVVVV", About::Everything),
        ("MMVVMMVV", About::Everything),
    ] {
        let strip = Sheet::strip(&vec![50.0; labels.len() + 1], 0.0).folded();
        let orders = Orders::stacked(&labelled(&strip, labels));
        for always_first in [true, false] {
            let mut answered = Vec::new();
            while let Ok(Some((a, b))) = orders.question(&answered, about) {
                for answer in [(a, b), (b, a)] {
                    let mut with = answered.clone();
                    with.push(answer);
                    let order = orders.first(&with);
                    assert!(matches!(order, Ok(Some(_))), "{labels} {with:?}");
                }
                answered.push(if always_first { (a, b) } else { (b, a) });
            }
            assert_eq!(orders.question(&answered, about), Ok(None));
            // With so few questions no pair was asked about in vain.
            assert!(answered.len() < labels.len(), "{labels} {answered:?}");
            if about == About::Everything {
                let choices = orders.choices();
                for (a, b) in choices {
                    let open = [(a, b), (b, a)].map(|answer| {
                        let mut with = answered.clone();
                        with.push(answer);
                        matches!(orders.first(&with), Ok(Some(_)))
                    });
                    assert!(open[0] != open[1], "{labels} {answered:?}: {a}, {b}");
                }
            }
        }
    }
    let letter = Sheet::strip(&[50.0; 3], 0.0).folded();
    let letter = Orders::stacked(&labelled(&letter, "VV"));
    assert_eq!(letter.question(&[], About::Outside), Ok(Some((0, 2))));
    assert_eq!(letter.question(&[(2, 0)], About::Everything), Ok(None));
}

/// Two cards held between two panels: which of them is nearer the front does
/// not show from outside.
#[test]
fn what_does_not_show_is_not_asked() {
    let panel = square(0.0, 0.0, 100.0, 100.0);
    let (one, two) = (
        square(10.0, 10.0, 50.0, 50.0),
        square(40.0, 40.0, 50.0, 50.0),
    );
    let bond = |front, back, low| Bond {
        front,
        back,
        glue: region(&square(low, low, 5.0, 5.0)),
    };
    let orders = Orders::stacked(&Stack {
        facets: [&panel, &one, &two, &panel].map(|at| loose(at)).into(),
        hinges: Vec::new(),
        bonds: vec![
            bond(0, 1, 12.0),
            bond(1, 3, 12.0),
            bond(0, 2, 80.0),
            bond(2, 3, 80.0),
        ],
    });
    assert_eq!(orders.choices(), [(1, 2)]);
    assert_eq!(orders.question(&[], About::Outside), Ok(None));
    assert_eq!(orders.question(&[], About::Everything), Ok(Some((1, 2))));
    let piles = [vec![0, 3], vec![0, 1, 3], vec![0, 2, 3], vec![0, 1, 2, 3]];
    let mut found = orders.piles();
    found.sort_by_key(|pile| (pile.len(), pile.clone()));
    assert_eq!(found, piles);
}

/// A card in a window does not lie on its frame, and a ribbon across both does.
#[test]
fn a_window() {
    let frame =
        region(&square(0.0, 0.0, 60.0, 60.0)).minus(&region(&square(20.0, 20.0, 20.0, 20.0)));
    let frame = Facet {
        area: frame,
        mirrored: false,
    };
    let card = loose(&square(22.0, 22.0, 16.0, 16.0));
    let ribbon = loose(&square(10.0, 28.0, 40.0, 4.0));
    let orders = Orders::stacked(&Stack {
        facets: vec![frame, card, ribbon],
        ..Stack::default()
    });
    assert_eq!(orders.count(), Ok(4));
    assert_eq!(orders.choices(), [(0, 2), (1, 2)]);
    let order = orders.first(&[(0, 2), (2, 1)]);
    let Ok(Some(order)) = order else {
        panic!("a ribbon can be threaded: {order:?}");
    };
    assert_eq!(order.in_front(0, 1), None);
    assert_eq!(order.in_front_of(1).collect::<Vec<_>>(), [2]);
    assert_eq!(order.lined_up(), Some(vec![1, 2, 0]));
}
