//! A typed length that can't be read, in English.

use foldwright_engine::length::ReadProblem;
use foldwright_gathered::gathered;

/// What is wrong, and what to do.
#[gathered]
pub(crate) fn told(problem: &ReadProblem) -> String {
    match problem {
        ReadProblem::Empty => "There is no length here. Type one, such as 3 3/4, 3.75 in or 95 mm.",
        ReadProblem::NumberMissing => {
            "A number is missing. Type it, or take away what stands before it."
        }
        ReadProblem::Strange(what) => {
            return format!(
                "“{what}” has no place in a length. Type one such as 3 3/4, 3.75 in or 95 mm."
            );
        }
        ReadProblem::Rounded => {
            "This number is rounded. Type the exact one, without the sign beside it."
        }
        ReadProblem::Misplaced => {
            "This has no place here. Type a length such as 3 3/4, 3.75 in or 95 mm."
        }
        ReadProblem::UnknownUnit(word) => {
            return format!("“{word}” is not a unit of length. Use in, mm, cm, m or ft.");
        }
        ReadProblem::TwoNumbers => {
            "Two numbers stand side by side. Put + or − between them, and leave no gap in thousands."
        }
        ReadProblem::TwoDecimalMarks => {
            "This number has two decimal marks. Use one, and none for thousands."
        }
        ReadProblem::DenominatorMissing => {
            "This fraction has nothing under the bar. Finish it, as in 3/4."
        }
        ReadProblem::ZeroDenominator => {
            "This fraction has 0 under the bar. Put another number there."
        }
        ReadProblem::DecimalInFraction => {
            "A fraction has whole numbers. Write it as a decimal number, such as 3.75."
        }
        ReadProblem::TooManyDigits => {
            "This number has too many digits. Leave out those that no ruler shows."
        }
        ReadProblem::TooManyInches => {
            "After feet come fewer than 12 inches. Give the inches alone, or more feet."
        }
        ReadProblem::TooLong => "This is longer than 10 m (393 in). Check the unit.",
    }
    .to_owned()
}
