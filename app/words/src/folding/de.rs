//! How the card folds shut and opens, in German.

use foldwright_engine::problem::{FoldingFinding, OpeningFinding, Unclosed};
use foldwright_engine::recipe::{Fold, PanelId};
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};

#[gathered]
pub(crate) fn shut(names: &Names<'_>, found: &FoldingFinding) -> Told {
    let panel = |id| nouns::panel(names, id);
    match found {
        FoldingFinding::NoPanel => Told::new(
            "Es gibt nichts zu falzen.",
            "Der Kartenrohling hat kein Feld, das auf dem Tisch liegen könnte.",
            "Gib Länge und Höhe an, oder entferne Linien, die ihn zerschneiden.",
        ),
        FoldingFinding::Trapped {
            panels: [first, last],
            between: [before, after],
            fold,
        } => {
            let (before, after) = (panel(*before), panel(*after));
            let why = match (first == last, fold) {
                (true, Fold::Mountain) => format!(
                    "{} ist kürzer als {before} und {after}; beide Falze daneben sind Bergfalze.",
                    panel(*first)
                ),
                (true, Fold::Valley) => format!(
                    "{} ist kürzer als {before} und {after}; beide Falze daneben sind Talfalze.",
                    panel(*first)
                ),
                (false, Fold::Mountain) => format!(
                    "{} bis {} sind kürzer als {before} und {after}. Alle Falze dort sind \
                     Bergfalze.",
                    panel(*first),
                    panel(*last)
                ),
                (false, Fold::Valley) => format!(
                    "{} bis {} sind kürzer als {before} und {after}. Alle Falze dort sind \
                     Talfalze.",
                    panel(*first),
                    panel(*last)
                ),
            };
            Told::new(
                "Der Kartenrohling lässt sich nicht flach falten.",
                format!("{why} {before} und {after} müssten einander durchdringen."),
                format!(
                    "Kehr eine Rille neben {} um, oder kürze {before} oder {after}.",
                    panel(*first)
                ),
            )
        }
        FoldingFinding::NoOrder(panels) => Told::new(
            "Die Karte lässt sich nicht flach falten.",
            no_order(names, panels),
            "Kehr eine Falzlinie dazwischen um, versetz sie, oder schneide weg, was stört.",
        ),
        FoldingFinding::Undecided => Told::new(
            "Ob die Karte sich flach falten lässt, war nicht herauszufinden.",
            UNDECIDED,
            "Falze weniger Felder über eine Stelle.",
        ),
        FoldingFinding::OtherOrder => Told::new(
            "So, wie gewählt, können die Felder nicht aufeinander liegen.",
            "Die Falzlinien lassen diese Reihenfolge nicht zu.",
            "Wähl neu, welches Feld oben liegt.",
        ),
        FoldingFinding::LeftOut { pieces, why } => {
            let called: Vec<_> = pieces.iter().map(|id| nouns::piece(names, *id)).collect();
            let all = nouns::list(&called);
            Told::new(
                format!("Mit {all} schließt die Karte nicht."),
                match why {
                    Unclosed::NoOrder(panels) => no_order(names, panels),
                    Unclosed::Undecided => UNDECIDED.to_owned(),
                    Unclosed::Misfits => {
                        format!("Die Falzlinien von {all} kommen nicht zusammen.")
                    }
                },
                match pieces.len() {
                    1 => format!(
                        "Versetz {all} auf dem Feld, mach {all} kleiner, oder kleb es auf ein \
                         anderes. Bis dahin ist die Karte ohne {all} gezeichnet."
                    ),
                    _ => "Versetz diese Teile, mach sie kleiner, oder kleb sie auf andere Felder. \
                          Bis dahin ist die Karte ohne sie gezeichnet."
                        .to_owned(),
                },
            )
        }
    }
}

const UNDECIDED: &str = "So viele Felder liegen übereinander, dass die Suche abgebrochen wurde.";

#[gathered]
fn no_order(names: &Names<'_>, panels: &[PanelId]) -> String {
    format!(
        "{} können in keiner Reihenfolge aufeinander liegen. Papier ginge durch Papier.",
        nouns::panels(names, panels)
    )
}

#[gathered]
pub(crate) fn open(names: &Names<'_>, found: &OpeningFinding) -> Told {
    let panel = |id| nouns::panel(names, id);
    match found {
        OpeningFinding::Locked {
            line,
            glued: Some(piece),
        } => {
            let piece = nouns::piece(names, *piece);
            Told::new(
                format!(
                    "{} kann sich nicht öffnen.",
                    nouns::line(names, *line, Case::Nominative)
                ),
                format!(
                    "{piece} klebt an zwei Stellen und hält zu, was sich dazwischen öffnen soll."
                ),
                format!(
                    "Kleb {piece} nur an einer Stelle, oder lass die Falzlinien darin mitdrehen."
                ),
            )
        }
        OpeningFinding::Locked { line, glued: None } => Told::new(
            format!(
                "{} kann sich nicht öffnen.",
                nouns::line(names, *line, Case::Nominative)
            ),
            "Die Falzlinien, die sich mitbewegen, halten in jeder Richtung dagegen.",
            "Kehr eine von ihnen um, oder versetz sie.",
        ),
        OpeningFinding::Jam { line, opened } => Told::new(
            format!(
                "Die Karte öffnet sich an {} bis {} und nicht weiter.",
                nouns::line(names, *line, Case::Dative),
                names.degrees(*opened)
            ),
            "Dort ist das Papier zwischen den Falzlinien gespannt.",
            "Mach länger, was sich herausfaltet, oder kleb es näher an den Falz.",
        ),
        OpeningFinding::Unclosed { panels, gap } => Told::new(
            "Die Karte schließt nicht flach.",
            format!(
                "Gegenüberliegende Seiten weichen um {} ab, rund um {}.",
                names.length(*gap),
                nouns::panels(names, panels)
            ),
            "Gib gegenüberliegenden Längen oder Winkeln dieselbe Summe.",
        ),
        OpeningFinding::Collision {
            panels: [a, b],
            opened,
        } => Told::new(
            format!(
                "{} und {} stoßen zusammen, wenn die Karte {} offen ist.",
                panel(*a),
                panel(*b),
                names.degrees(*opened)
            ),
            "Papier kann nicht durch Papier.",
            "Mach eines kleiner, versetz es, oder schneide einen Schlitz zum Durchstecken.",
        ),
        OpeningFinding::TooCoupled => Told::new(
            "Ob die Karte sich öffnen lässt, war nicht zu berechnen.",
            "Zu viele Falzlinien bewegen einander.",
            "Probier es zuerst mit Schmierpapier.",
        ),
        OpeningFinding::PastThePages {
            panel: id,
            by,
            finished,
        } => Told::new(
            format!(
                "{} ragt {} über die Innenseiten der geschlossenen Karte hinaus.",
                panel(*id),
                names.length(*by)
            ),
            format!(
                "Damit misst die geschlossene Karte {}.",
                names.short_size(*finished)
            ),
            "Rück die Falzlinien näher an den Falz, oder mach die Innenseiten größer.",
        ),
    }
}
