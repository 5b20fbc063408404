//! No starting fold holds a value between the marks it was begun on.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

use std::collections::BTreeSet;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step, Unit, nearest};
use foldwright_engine::paper::SheetSize;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Recipe, Starter, starters};
use foldwright_engine::refit::{Keep, Sheet, Wish, between_marks, onto_marks, refit};

/// The sheets makers most often stand before.
const SHEETS: [&str; 6] = [
    "na-letter",
    "iso-a4",
    "trade-12x12-in",
    "trade-8x8-in",
    "trade-6x6-in",
    "trade-300-mm",
];

fn notations() -> impl Iterator<Item = Notation> {
    let units = [Unit::Inch, Unit::Millimetre].into_iter();
    let steps = units.flat_map(Step::all_for);
    steps.map(|step| Notation {
        step: *step,
        decimal: DecimalMark::Point,
    })
}

fn starter(id: &str) -> &'static Starter {
    starters()
        .iter()
        .find(|it| it.id == id)
        .expect("it is there")
}

fn worked_out(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

/// What lies between marks, in words.
fn between(recipe: &Recipe) -> Vec<String> {
    let off = between_marks(recipe).into_iter();
    off.filter_map(|id| recipe.measure(id))
        .map(|it| format!("{} {}", it.name, recipe.notation.with_unit(it.value)))
        .collect()
}

/// Everything that is held equal is exactly so.
fn assert_exact(recipe: &Recipe, what: &str) {
    assert_eq!(between(recipe), [""; 0], "{what}");
    assert_eq!(recipe.broken(), [], "{what}");
    for (_, strip) in recipe.strips() {
        let panels = strip.panels.iter().map(|panel| recipe.value(panel.width));
        assert_eq!(panels.sum::<Length>(), recipe.value(strip.length), "{what}");
    }
}

#[test]
fn every_starting_fold_is_on_its_marks() {
    for notation in notations() {
        for starter in starters() {
            let recipe = starter.recipe_in(notation);
            let what = format!("{} {:?}", starter.id, notation.step);
            assert_eq!(recipe.notation, notation);
            assert_exact(&recipe, &what);
            assert_eq!(recipe.check(), [], "{what}");
            // The closed card shows no trace of what was rounded on the way.
            let size = worked_out(&recipe).finished;
            for side in [size.width, size.height] {
                assert!(nearest(side, notation.step).is_exact(), "{what}: {size:?}");
            }
        }
    }
}

/// What starting folds hold, and the room they leave round glue, is our own and
/// round in the maker's unit: on marks that most rulers have.
#[test]
fn limits_and_glue_margins_are_round() {
    for (step, margin) in [
        (Step::Sixteenth, Length::sixty_fourths(8)),
        (Step::HalfMillimetre, Length::mm(3)),
    ] {
        let decimal = DecimalMark::Point;
        for starter in starters() {
            let recipe = starter.recipe_in(Notation { step, decimal });
            assert_eq!(recipe.glue_margin, margin, "{}", starter.id);
            for relation in &recipe.relations {
                let plus = nearest(relation.plus, step);
                assert!(plus.is_exact(), "{}: {relation:?}", starter.id);
            }
        }
    }
}

/// The rule that a panel folded in is shorter by 1/16 in (1.5 mm) at least is
/// kept where the marks are coarser than that.
#[test]
fn an_allowance_goes_up_to_its_mark() {
    for notation in notations() {
        for starter in starters() {
            let recipe = starter.recipe_in(notation);
            let allowance = |of: &Recipe| of.value(of.folding_in.allowance);
            let asked = match notation.unit() {
                Unit::Inch => allowance(&starter.recipe),
                Unit::Millimetre => {
                    let id = starter.recipe.folding_in.allowance;
                    let mut metric = starter.metric.measures.iter();
                    metric.find(|it| it.0 == id).expect("it is given").1
                }
            };
            let least = allowance(&recipe);
            assert!(
                least >= asked && least - asked < notation.step.length(),
                "{} {:?}",
                starter.id,
                notation.step
            );
        }
    }
}

/// Taken to another sheet, another unit, or other marks, it is on them again.
#[test]
fn every_starting_fold_stays_on_marks_on_every_usual_sheet() {
    let coarse = [Step::Sixteenth, Step::Millimetre].map(|step| Notation {
        step,
        decimal: DecimalMark::Point,
    });
    let mut fitted = 0;
    for notation in coarse {
        for starter in starters() {
            let recipe = starter.recipe_in(notation);
            for id in SHEETS {
                let sheet = SheetSize::by_id(id).expect("it is in the table");
                let wish = Wish {
                    sheet: Some(Sheet {
                        stock: recipe.base.stock,
                        size: Size {
                            width: sheet.width,
                            height: sheet.height,
                        },
                        keep: Keep::Share,
                    }),
                    ..Wish::default()
                };
                // Some do not go onto the smallest pads, and say so.
                if let Ok(refit) = refit(&recipe, &wish) {
                    assert_exact(&refit.recipe, &format!("{} on {id}", starter.id));
                    assert_eq!(refit.off_marks, []);
                    fitted += 1;
                }
            }
            for other in notations() {
                let mut switched = recipe.clone();
                switched.notation = other;
                let what = format!("{} to {:?}", starter.id, other.step);
                let refit = onto_marks(&switched).expect(&what);
                assert_exact(&refit.recipe, &what);
            }
        }
    }
    assert!(fitted > 350, "{fitted}");
}

/// A6 (105 × 148 mm, ISO 216) goes into C6 (114 × 162 mm, ISO 269), also with
/// what folds aslant in it: the beak was 105.00001 mm wide and did not. On thin
/// paper, so that thickness asks for no room.
#[test]
fn what_closes_to_a6_goes_into_c6() {
    let notation = Notation {
        step: Step::HalfMillimetre,
        decimal: DecimalMark::Point,
    };
    let a6 = Size {
        width: Length::mm(105),
        height: Length::mm(148),
    };
    for id in ["book", "beak", "v-fold", "corner", "pointed", "slanted"] {
        let mut recipe = starter(id).recipe_in(notation);
        for stock in &mut recipe.stocks {
            stock.caliper = Length::microns(100);
        }
        let card = worked_out(&recipe);
        assert_eq!(card.finished, a6, "{id}");
        let mut fits = card.envelopes.iter();
        assert!(fits.any(|fit| fit.envelope.id == "iso-c6"), "{id}");
    }
}

/// Worked by hand: a letter fold on Letter paper with marks of 1/8 in. Three
/// panels of 3 5/8 in, one of them 1/8 in shorter, take 10 3/4 in; of 3 3/4 in
/// they would take 11 1/8 in, which the sheet does not give.
#[test]
fn a_letter_fold_on_coarse_marks_still_fits_its_sheet() {
    let recipe = starter("letter").recipe_in(Notation {
        step: Step::Eighth,
        decimal: DecimalMark::Point,
    });
    let eighth = Length::sixty_fourths(8);
    let panels = recipe.base.panels.iter();
    let widths: BTreeSet<_> = panels.map(|panel| recipe.value(panel.width)).collect();
    assert_eq!(widths, BTreeSet::from([eighth * 28, eighth * 29]));
    assert_eq!(recipe.value(recipe.base.length), eighth * 86);
}

/// A fold begun in millimetres is cut from sheets that are sold in them.
#[test]
fn metric_folds_are_cut_from_metric_paper() {
    for notation in notations().filter(|it| it.unit() == Unit::Millimetre) {
        for starter in starters() {
            let recipe = starter.recipe_in(notation);
            for stock in &recipe.stocks {
                assert!(stock.is_round_in(Unit::Millimetre), "{}", stock.name);
                assert!(!stock.name.contains("12 × 12"), "{}", stock.name);
            }
            assert!(recipe.stock(recipe.base.stock).is_some());
        }
    }
}
