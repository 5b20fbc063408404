//! Layers: where they lie, what shows of them, where glue may go.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod strips;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::faces::{Part, View, pile, readings, shown};
use foldwright_engine::fold::fold;
use foldwright_engine::glue::{Edges, Gluing, glue};
use foldwright_engine::laid::lay_out;
use foldwright_engine::length::Length;
use foldwright_engine::paper::StockSide;
use foldwright_engine::pattern::LineId;
use foldwright_engine::plane::{CardFrame, Rect, Size};
use foldwright_engine::problem::{Finding, GlueFinding, Past, Problem};
use foldwright_engine::recipe::{
    Anchor, Bond, Face, Layer, LayerId, Measure, MeasureId, Outline, PanelId, Placing, Recipe,
    Runs, Seat, Side,
};
use foldwright_engine::thickness::thickest;
use proptest::prelude::{any, prop_assert_eq, proptest};
use strips::strip;

fn eighths(count: i64) -> Length {
    Length::sixty_fourths(count * 8)
}

fn size(width: i64, height: i64) -> Size {
    Size {
        width: eighths(width),
        height: eighths(height),
    }
}

/// A 5 1/2 × 12 in strip scored at 1 3/4, 4 3/4 and 7 3/4 in.
fn accordion() -> Recipe {
    strip(
        &[14, 24, 24, 34].map(eighths),
        eighths(44),
        "VMV",
        3,
        Runs::Across,
    )
}

fn measure(recipe: &mut Recipe, id: u32, value: Length) -> MeasureId {
    let name = format!("measure {id}");
    recipe
        .measures
        .push(Measure::new(MeasureId(id), name, value));
    MeasureId(id)
}

fn put_on(
    recipe: &mut Recipe,
    on: Seat,
    size: Size,
    left: Length,
    bottom: Length,
    place: Placing,
) -> LayerId {
    let number = u32::try_from(recipe.layers.len()).expect("a test has few layers");
    let base = 200 + 10 * number;
    let layer = Layer {
        id: LayerId(number),
        name: format!("layer {number}"),
        stock: recipe.base.stock,
        shows: StockSide::Face,
        on,
        width: measure(recipe, base, size.width),
        height: measure(recipe, base + 1, size.height),
        left: measure(recipe, base + 2, left),
        bottom: measure(recipe, base + 3, bottom),
        place,
        outline: Outline::Straight,
        bond: Bond::Safe,
        turn: None,
        cut_at: None,
        focal: false,
    };
    recipe.layers.push(layer);
    LayerId(number)
}

fn face(panel: u32, side: Side) -> Seat {
    Seat::Face(Face {
        panel: PanelId(panel),
        side,
    })
}

fn glued(recipe: &Recipe) -> (Vec<Gluing>, Vec<Problem>) {
    let folded = fold(recipe, &lay_out(recipe)).expect("the card folds");
    glue(
        recipe,
        &lay_out(recipe),
        &folded,
        &readings(&lay_out(recipe), &folded),
    )
}

fn settled(recipe: &mut Recipe) {
    let height = recipe.base.height;
    let now = recipe.value(height);
    recipe
        .settle(&[(height, now)], &[], &[])
        .expect("the layers fit");
}

/// Common practice: the 4 1/4 × 5 1/2 in back panel takes mats of 4 × 5 1/4
/// and 3 3/4 × 5 in with borders of 1/8 in.
#[test]
fn mats_with_even_borders() {
    let mut recipe = accordion();
    let border = measure(&mut recipe, 900, eighths(1));
    let any = size(8, 8);
    let zero = Length::ZERO;
    let back = put_on(
        &mut recipe,
        face(3, Side::A),
        any,
        zero,
        zero,
        Placing::Border(border),
    );
    put_on(
        &mut recipe,
        Seat::Layer(back),
        any,
        zero,
        zero,
        Placing::Border(border),
    );
    settled(&mut recipe);
    let laid = lay_out(&recipe);
    let sizes: Vec<_> = laid.layers.iter().map(|layer| layer.at.size()).collect();
    assert_eq!(sizes, [size(32, 42), size(30, 40)]);
    assert_eq!(laid.layers[1].at.low.x, eighths(2));
    let (_, problems) = glued(&recipe);
    assert_eq!(problems, []);
    // Glue stays 3 mm from every edge, and so covers 95.6 × 127.35 and 89.25 × 121 mm.
    let square = i128::from(Length::microns(10).units()).pow(2);
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(card.adhesive(), (9560 * 12_735 + 8925 * 12_100) * square);
    // Once round both: twice each side.
    let sides = [9560, 12_735, 8925, 12_100].into_iter().sum::<i64>();
    assert_eq!(card.glue_run(), Length::microns(10) * (2 * sides));
}

/// Common practice: a focal piece of 4 × 2 1/2 in on a mat of 4 1/4 × 2 3/4
/// sits on the front panel of 1 3/4 in and overhangs; the mat may be glued on
/// that panel only. Glued further it is refused.
#[test]
fn an_overhanging_focal_piece() {
    let mut recipe = accordion();
    let zero = Length::ZERO;
    let mat = put_on(
        &mut recipe,
        face(0, Side::B),
        size(34, 22),
        zero,
        eighths(11),
        Placing::Distances,
    );
    let focal = put_on(
        &mut recipe,
        Seat::Layer(mat),
        size(32, 20),
        zero,
        zero,
        Placing::At(Anchor::Centre),
    );
    settled(&mut recipe);
    recipe.glue_margin = eighths(1);
    let (gluings, problems) = glued(&recipe);
    assert_eq!(problems, []);
    let on_mat = &gluings[0];
    let safe = on_mat.safe.as_ref().expect("the front panel carries glue");
    // Seen from the back, the panel lies at the right.
    assert_eq!(
        on_mat.edges(safe),
        Edges {
            left: eighths(34 - 14 + 1),
            right: eighths(1),
            top: eighths(1),
            bottom: eighths(1),
        }
    );
    // The focal piece is carried by the mat, wherever that reaches.
    let on_focal = &gluings[1];
    assert_eq!(
        on_focal
            .safe
            .as_ref()
            .and_then(|safe| Some(safe.bounds()?.size())),
        Some(size(30, 18))
    );

    recipe.layers[0].bond = Bond::Within {
        left: eighths(1),
        right: eighths(1),
        top: eighths(1),
        bottom: eighths(1),
    };
    let (gluings, problems) = glued(&recipe);
    assert!(gluings[0].refused);
    let said = problems.iter().map(|problem| problem.finding.clone());
    let layer = recipe.layers[0].id;
    let ties = |other| Finding::Glue {
        layer,
        is: GlueFinding::Ties {
            carrier: PanelId(0),
            other: PanelId(other),
        },
    };
    assert_eq!(said.collect::<Vec<_>>(), [ties(1), ties(3)]);

    // In front of everything, the focal piece and its mat show whole.
    let folded = fold(&recipe, &lay_out(&recipe)).expect("the card folds");
    let laid = lay_out(&recipe);
    let readings = readings(&laid, &folded);
    let front = shown(&folded.states[0], View::Front, &laid.layers, &readings);
    assert_eq!(front[0].part, Part::Layer(focal));
    assert_eq!(
        front[0].region.bounds().map(|at| at.size()),
        Some(size(32, 20))
    );
    // Thickest where four panels and both layers lie.
    let pile = pile(&folded.states[0], View::Front, &laid.layers, &readings);
    let thickest = thickest(&recipe, &laid, &pile).expect("there is paper");
    assert_eq!(thickest.sheets, 6);
    assert_eq!(thickest.thickness, recipe.stocks[0].caliper * 6);
}

/// Glue across a score that folds is refused, with the score named; and so is a
/// layer that stands in a fold.
#[test]
fn glue_across_a_score() {
    let mut recipe = strip(&[Length::mm(100); 2], Length::mm(100), "V", 1, Runs::Across);
    let spread = Size {
        width: Length::mm(120),
        height: Length::mm(60),
    };
    put_on(
        &mut recipe,
        face(1, Side::A),
        spread,
        Length::mm(-60),
        Length::mm(20),
        Placing::Distances,
    );
    recipe.layers[0].bond = Bond::Within {
        left: Length::mm(10),
        right: Length::mm(10),
        top: Length::mm(10),
        bottom: Length::mm(10),
    };
    let (gluings, problems) = glued(&recipe);
    assert!(gluings[0].refused);
    let across = GlueFinding::Across(LineId::of_score(0));
    assert!(
        problems.iter().any(|problem| {
            matches!(&problem.finding, Finding::Glue { is, .. } if *is == across)
        })
    );
    let card = work_out(&recipe, &Tools::default());
    let mut problems = card.problems.iter();
    assert!(problems.any(|problem| {
        let reach = problem.reach();
        reach.is_some_and(|it| it.past == Past::Fold && it.across == [LineId::of_score(0)])
    }));
}

/// A layer too narrow for the margin has no place for glue, and says so; a
/// loose insert needs none.
#[test]
fn no_place_for_glue() {
    let mut recipe = strip(&[Length::mm(100); 2], Length::mm(100), "V", 1, Runs::Across);
    let ribbon = Size {
        width: Length::mm(80),
        height: Length::mm(5),
    };
    put_on(
        &mut recipe,
        face(1, Side::A),
        ribbon,
        Length::mm(10),
        Length::mm(10),
        Placing::Distances,
    );
    let (gluings, problems) = glued(&recipe);
    assert_eq!(gluings[0].safe, None);
    assert_eq!(problems.len(), 1);
    recipe.layers[0].bond = Bond::Loose;
    assert_eq!(glued(&recipe).1, []);
}

/// What shows of each part of a pile, found by asking every cell between the
/// parts' edges which part lies nearest.
fn by_cells(pile: &[(Part, Rect<CardFrame>)]) -> Vec<(Part, i128)> {
    let mut xs: Vec<_> = pile
        .iter()
        .flat_map(|(_, at)| [at.low.x, at.high.x])
        .collect();
    let mut ys: Vec<_> = pile
        .iter()
        .flat_map(|(_, at)| [at.low.y, at.high.y])
        .collect();
    xs.sort();
    ys.sort();
    let mut areas: Vec<(Part, i128)> = pile.iter().map(|(part, _)| (*part, 0)).collect();
    for x in xs.windows(2) {
        for y in ys.windows(2) {
            let nearest = pile.iter().position(|(_, at)| {
                at.low.x <= x[0] && x[1] <= at.high.x && at.low.y <= y[0] && y[1] <= at.high.y
            });
            if let Some(nearest) = nearest {
                areas[nearest].1 +=
                    i128::from((x[1] - x[0]).units()) * i128::from((y[1] - y[0]).units());
            }
        }
    }
    areas.retain(|(_, area)| *area > 0);
    areas
}

proptest! {
    /// Whatever is put where, what shows is what a cell by cell search finds,
    /// in every state and from both views.
    #[test]
    fn what_shows_is_what_lies_nearest(
        places in proptest::collection::vec(
            (0_u32..4, any::<bool>(), -20_i64..40, -20_i64..60, 1_i64..60, 1_i64..60),
            0..5,
        ),
        runs in any::<bool>(),
    ) {
        let runs = if runs { Runs::Across } else { Runs::Down };
        let widths = [14, 24, 24, 34].map(eighths);
        let mut recipe = strip(&widths, eighths(44), "VMV", 3, runs);
        for (panel, outside, left, bottom, width, height) in places {
            let side = if outside { Side::B } else { Side::A };
            let on = face(panel, side);
            let spot = (eighths(left), eighths(bottom));
            put_on(&mut recipe, on, size(width, height), spot.0, spot.1, Placing::Distances);
        }
        let folded = fold(&recipe, &lay_out(&recipe)).expect("an accordion folds");
        let laid = lay_out(&recipe);
        let readings = readings(&laid, &folded);
        for state in &folded.states {
            for view in [View::Front, View::Back] {
                let found: Vec<_> = shown(state, view, &laid.layers, &readings)
                    .into_iter()
                    .map(|shown| (shown.part, shown.region.area()))
                    .collect();
                let pile = pile(state, view, &laid.layers, &readings);
                let covers: Vec<_> = pile.iter().map(|lying| (lying.part, lying.cover.within)).collect();
                prop_assert_eq!(found, by_cells(&covers));
            }
        }
    }
}
