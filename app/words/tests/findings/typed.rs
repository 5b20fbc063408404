//! What is said of what a maker types: changes that are refused, and lengths.

use foldwright_engine::length::ReadProblem;
use foldwright_engine::recipe::{Clash, EditError, Parts, Recipe};

use super::{broken, mm};

fn clashes(recipe: &Recipe) -> Vec<Clash> {
    let ids: Vec<_> = recipe.measures.iter().map(|it| it.id).collect();
    let relations: Vec<_> = broken(recipe).collect();
    let between = |relations: usize, pinned: usize| Clash::Relations {
        relations: broken(recipe).take(relations).collect(),
        pinned: ids[..pinned].to_vec(),
    };
    every!(Clash:
        Clash::Relations { .. } => [
            between(0, 0),
            between(1, 0),
            between(1, 1),
            between(relations.len(), 2),
        ],
        Clash::NotPositive { .. } => [Clash::NotPositive { measure: ids[0], value: mm(-10) }],
        Clash::TooLong(_) => [Clash::TooLong(ids[0])],
        Clash::TooTangled => [Clash::TooTangled],
    )
}

/// Every reason why a change is not made.
pub(crate) fn refusals(recipe: &Recipe) -> Vec<EditError> {
    let clashes = clashes(recipe).into_iter().map(EditError::Clash);
    let many = Parts::ALL.into_iter().map(EditError::TooMany);
    let all = every!(EditError:
        EditError::Clash(_) => [EditError::Clash(Clash::TooTangled)],
        EditError::NoMeasure => [EditError::NoMeasure],
        EditError::NoScore => [EditError::NoScore],
        EditError::NoPanel => [EditError::NoPanel],
        EditError::NoLine => [EditError::NoLine],
        EditError::OffPaper => [EditError::OffPaper],
        EditError::NoLength => [EditError::NoLength],
        EditError::NoCutout => [EditError::NoCutout],
        EditError::NoLayer => [EditError::NoLayer],
        EditError::LastPanel => [EditError::LastPanel],
        EditError::NoPiece => [EditError::NoPiece],
        EditError::Upward => [EditError::Upward],
        EditError::NoRelation => [EditError::NoRelation],
        EditError::Limits => [EditError::Limits],
        EditError::NoRoom => [EditError::NoRoom],
        EditError::NoFit => [EditError::NoFit],
        EditError::TooMany(_) => [EditError::TooMany(Parts::Panels)],
        EditError::Full => [EditError::Full],
    );
    clashes.chain(many).chain(all).collect()
}

/// Everything that is wrong with a typed length.
pub(crate) fn misread() -> Vec<ReadProblem> {
    every!(ReadProblem:
        ReadProblem::Empty => [ReadProblem::Empty],
        ReadProblem::NumberMissing => [ReadProblem::NumberMissing],
        ReadProblem::Rounded => [ReadProblem::Rounded],
        ReadProblem::Strange(_) => [ReadProblem::Strange('$')],
        ReadProblem::Misplaced => [ReadProblem::Misplaced],
        ReadProblem::UnknownUnit(_) => [ReadProblem::UnknownUnit("parsecs".to_owned())],
        ReadProblem::TwoNumbers => [ReadProblem::TwoNumbers],
        ReadProblem::TwoDecimalMarks => [ReadProblem::TwoDecimalMarks],
        ReadProblem::DenominatorMissing => [ReadProblem::DenominatorMissing],
        ReadProblem::ZeroDenominator => [ReadProblem::ZeroDenominator],
        ReadProblem::DecimalInFraction => [ReadProblem::DecimalInFraction],
        ReadProblem::TooManyDigits => [ReadProblem::TooManyDigits],
        ReadProblem::TooManyInches => [ReadProblem::TooManyInches],
        ReadProblem::TooLong => [ReadProblem::TooLong],
    )
}
