//! The whole way from a recipe to its steps, for every starter.

use std::collections::HashSet;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{DecimalMark, Notation, Step as Ruler};
use foldwright_engine::part::Part;
use foldwright_engine::pattern::LineId;
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::{
    CutoutId, DrawnLineId, LayerId, OwnStepId, PanelId, PieceId, Recipe, StripId, starters,
};
use foldwright_engine::steps::{Along, Instruction, Kind, Step, StepKey, steps};

const INCHES: Notation = Notation {
    step: Ruler::Sixteenth,
    decimal: DecimalMark::Point,
};
const MILLIMETRES: Notation = Notation {
    step: Ruler::Millimetre,
    decimal: DecimalMark::Comma,
};

fn every_starter() -> Vec<(Recipe, Card, Vec<Step>)> {
    starters()
        .iter()
        .flat_map(|starter| [INCHES, MILLIMETRES].map(|notation| starter.recipe_in(notation)))
        .map(|recipe| {
            let card = work_out(&recipe, &Tools::default());
            let steps = steps(&recipe, &card);
            (recipe, card, steps)
        })
        .collect()
}

/// What we offer to start from can be made as it stands.
#[test]
fn starters_have_nothing_wrong() {
    for (recipe, card, _) in every_starter() {
        let wrong: Vec<_> = card
            .problems
            .iter()
            .filter(|problem| problem.weight > Weight::Note)
            .collect();
        assert!(
            wrong.is_empty(),
            "{} in {:?}: {wrong:#?}",
            recipe.name,
            recipe.notation.step
        );
    }
}

/// The work runs in its order, each kind of work in one go, each step with a
/// name of its own.
#[test]
fn steps_run_in_order() {
    for (recipe, _, steps) in every_starter() {
        let kinds: Vec<Kind> = steps.iter().map(|step| step.kind).collect();
        let mut sorted = kinds.clone();
        sorted.sort();
        assert_eq!(kinds, sorted, "{}", recipe.name);
        let keys: HashSet<_> = steps.iter().map(|step| &step.key).collect();
        assert_eq!(keys.len(), steps.len(), "{}", recipe.name);
        let of_base = |step: &&Step| matches!(step.key, StepKey::Fold(..));
        let folds = steps.iter().filter(of_base).count();
        if recipe.base.lines.is_empty() {
            assert_eq!(folds, recipe.base.folds.len(), "{}", recipe.name);
        } else {
            assert!(folds >= 1, "{}", recipe.name);
        }
        for step in &steps {
            assert!(!step.does.is_empty(), "{step:?}");
        }
    }
}

/// Blades come with a caution (customary care of workshops and schools).
#[test]
fn cutting_comes_with_a_caution() {
    for (_, _, steps) in every_starter() {
        for step in steps.iter().filter(|step| step.kind == Kind::Cut) {
            assert!(!step.care.is_empty(), "{:?}", step.title);
        }
    }
}

/// A batch counts its sheets and says how often each step is done.
#[test]
fn a_batch_counts() {
    for starter in starters() {
        let mut recipe = starter.recipe_in(INCHES);
        recipe.copies = 24;
        let card = work_out(&recipe, &Tools::default());
        let steps = steps(&recipe, &card);
        assert!(steps.iter().skip(1).all(|step| step.times == 24));
        for blank in &card.cut_list.blanks {
            assert!(blank.per_sheet() > 0, "{} fits its sheet", recipe.name);
        }
    }
}

/// What is measured is measured from somewhere, and that is said first.
#[test]
fn where_to_measure_from_comes_first() {
    for (recipe, _, steps) in every_starter() {
        let measured = |step: &&Step| match step.kind {
            Kind::Cut | Kind::Score | Kind::Insert => true,
            // A piece that is laid in by closing the card has no measures.
            Kind::Glue => !step.figures.is_empty(),
            Kind::Gather | Kind::Fold | Kind::Decorate | Kind::Dry | Kind::Envelope | Kind::Own => {
                false
            }
        };
        for step in steps.iter().filter(measured) {
            let says = matches!(
                step.does.first(),
                Some(
                    Instruction::MeasureFromCorner(_)
                        | Instruction::MeasureFlat(_)
                        | Instruction::MeasureRadius(_)
                        | Instruction::MeasureDepth(..)
                        | Instruction::MeasureFromFence(_)
                        | Instruction::MeasureSeat(_)
                        | Instruction::MeasureCarrier(_)
                )
            );
            assert!(says, "{}: {:?}", recipe.name, step.does);
        }
    }
}

/// Notes and progress are kept by these names, in browsers, in documents and in
/// files: none may ever change.
#[test]
fn the_names_of_steps_stay_what_they_are() {
    let (piece, layer, line) = (PieceId(7), LayerId(12), DrawnLineId(3));
    for (key, name) in [
        (StepKey::Gather, "gather"),
        (
            StepKey::CutAt {
                plan: 4_294_967_295,
                setting: 2,
            },
            "cut-at-4294967295-2",
        ),
        (StepKey::Cut(Part::Strip(StripId::Base)), "cut-strip"),
        (
            StepKey::Cut(Part::Strip(StripId::Piece(piece))),
            "cut-piece-7",
        ),
        (StepKey::Cut(Part::Layer(layer)), "cut-layer-12"),
        (StepKey::Trim(Part::Strip(StripId::Base)), "trim-strip"),
        (
            StepKey::Trim(Part::Strip(StripId::Piece(piece))),
            "trim-piece-7",
        ),
        (StepKey::Trim(Part::Layer(layer)), "trim-layer-12"),
        (StepKey::CutOut(CutoutId(4)), "cut-out-4"),
        (StepKey::CutLine(line), "cut-line-3"),
        (StepKey::Score(StripId::Base, 0), "score-0"),
        (StepKey::Score(StripId::Piece(piece), 1), "score-piece-7-1"),
        (StepKey::ScoreLine(line), "score-line-3"),
        (StepKey::FoldPiece(piece), "fold-piece-7"),
        (StepKey::Fold(Along::Score(0), 1), "fold-0"),
        (StepKey::Fold(Along::Line(LineId(3)), 1), "fold-line-3"),
        (StepKey::Fold(Along::Line(LineId(3)), 2), "fold-line-3-2"),
        (StepKey::Fold(Along::Together, 1), "fold-together"),
        (StepKey::Decorate(layer), "decorate-layer-12"),
        (StepKey::PutOn(layer), "put-on-layer-12"),
        (StepKey::GlueIn(piece, PanelId(9)), "glue-piece-7-9"),
        (StepKey::Dry, "dry"),
        (StepKey::Envelope, "envelope"),
        (StepKey::Own(OwnStepId(5)), "own-5"),
    ] {
        assert_eq!(key.to_string(), name);
        assert_eq!(StepKey::of_text(name), Some(key));
    }
}

/// What another release may have kept, or somebody typed into an address.
#[test]
fn what_is_no_name_of_a_step_is_read_as_none() {
    for text in [
        "",
        "finish",
        "Gather",
        "cut",
        "cut-",
        "cut-strip-1",
        "cut-at-7",
        "cut-at-07-0",
        "cut-at-4294967296-0",
        "cut-layer",
        "cut-layer-x",
        "cut-layer-012",
        "cut-layer-+1",
        "cut-layer--1",
        "cut-layer-4294967296",
        "score",
        "score-piece-7",
        "fold-0-1",
        "fold-0-0",
        "fold-0-2-3",
        "glue-piece-7",
        "envelope ",
        "own",
        "own-05",
    ] {
        assert_eq!(StepKey::of_text(text), None, "{text}");
    }
}
