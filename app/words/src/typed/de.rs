//! A typed length that can't be read, in German.

use foldwright_engine::length::ReadProblem;
use foldwright_gathered::gathered;

/// What is wrong, and what to do.
#[gathered]
pub(crate) fn told(problem: &ReadProblem) -> String {
    match problem {
        ReadProblem::Empty => {
            "Hier steht keine Länge. Gib eine ein, etwa 95 mm, 9,5 cm oder 3 3/4."
        }
        ReadProblem::NumberMissing => {
            "Hier fehlt eine Zahl. Gib sie ein, oder nimm weg, was davor steht."
        }
        ReadProblem::Strange(what) => {
            return format!(
                "„{what}“ gehört in keine Länge. Gib eine ein, etwa 95 mm, 9,5 cm oder 3 3/4."
            );
        }
        ReadProblem::Rounded => {
            "Diese Zahl ist gerundet. Gib die genaue ein, ohne das Zeichen daneben."
        }
        ReadProblem::Misplaced => {
            "Das gehört nicht hierher. Gib eine Länge ein, etwa 95 mm, 9,5 cm oder 3 3/4."
        }
        ReadProblem::UnknownUnit(word) => {
            return format!("„{word}“ ist keine Längeneinheit. Nimm mm, cm, m, Zoll oder ft.");
        }
        ReadProblem::TwoNumbers => {
            "Zwei Zahlen stehen nebeneinander. Setz + oder − dazwischen; Tausender ohne Lücke."
        }
        ReadProblem::TwoDecimalMarks => {
            "Diese Zahl hat zwei Dezimalzeichen. Setz nur eines, und keines für Tausender."
        }
        ReadProblem::DenominatorMissing => {
            "Unter dem Bruchstrich steht nichts. Schreib den Bruch zu Ende, etwa 3/4."
        }
        ReadProblem::ZeroDenominator => "Unter dem Bruchstrich steht 0. Schreib eine andere Zahl.",
        ReadProblem::DecimalInFraction => {
            "Ein Bruch hat ganze Zahlen. Schreib ihn als Dezimalzahl, etwa 3,75."
        }
        ReadProblem::TooManyDigits => {
            "Diese Zahl hat zu viele Stellen. Lass weg, was kein Lineal zeigt."
        }
        ReadProblem::TooManyInches => {
            "Nach Fuß kommen weniger als 12 Zoll. Gib nur Zoll an, oder mehr Fuß."
        }
        ReadProblem::TooLong => "Das ist länger als 10 m (393 in). Prüf die Einheit.",
    }
    .to_owned()
}
