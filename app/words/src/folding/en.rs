//! How the card folds shut and opens, in English.

use foldwright_engine::problem::{FoldingFinding, OpeningFinding, Unclosed};
use foldwright_engine::recipe::{Fold, PanelId};
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::en as nouns;
use crate::told::sentence;

#[gathered]
pub(crate) fn shut(names: &Names<'_>, found: &FoldingFinding) -> Told {
    let panel = |id| nouns::panel(names, id);
    match found {
        FoldingFinding::NoPanel => Told::new(
            "There is nothing to fold.",
            "The card base has no panel that could rest on the table.",
            "Give its length and its height, or remove lines that cut it to pieces.",
        ),
        FoldingFinding::Trapped {
            panels: [first, last],
            between: [before, after],
            fold,
        } => {
            let (before, after) = (panel(*before), panel(*after));
            let why = match (first == last, fold) {
                (true, Fold::Mountain) => format!(
                    "{} is shorter than {before} and {after}, and both folds beside it are \
                     mountains.",
                    panel(*first)
                ),
                (true, Fold::Valley) => format!(
                    "{} is shorter than {before} and {after}, and both folds beside it are valleys.",
                    panel(*first)
                ),
                (false, Fold::Mountain) => format!(
                    "{} to {} are shorter than {before} and {after}. All folds there are \
                     mountains.",
                    panel(*first),
                    panel(*last)
                ),
                (false, Fold::Valley) => format!(
                    "{} to {} are shorter than {before} and {after}. All folds there are valleys.",
                    panel(*first),
                    panel(*last)
                ),
            };
            let through = format!("{before} and {after} would have to pass through each other.");
            Told::new(
                "The card base does not fold flat.",
                format!("{why} {}", sentence(through)),
                format!(
                    "Flip one of the scores beside {}, or make {before} or {after} shorter.",
                    panel(*first)
                ),
            )
        }
        FoldingFinding::NoOrder(panels) => Told::new(
            "The card does not fold flat.",
            no_order(names, panels),
            "Flip or move a crease between them, or cut away what is in the way.",
        ),
        FoldingFinding::Undecided => Told::new(
            "Whether the card folds flat could not be found out.",
            UNDECIDED,
            "Fold fewer panels over one place.",
        ),
        FoldingFinding::OtherOrder => Told::new(
            "The panels can't lie on each other as you chose.",
            "The creases leave no such order.",
            "Choose again which panel lies on top.",
        ),
        FoldingFinding::LeftOut { pieces, why } => {
            let called: Vec<_> = pieces.iter().map(|id| nouns::piece(names, *id)).collect();
            let all = nouns::list(&called);
            Told::new(
                format!("The card does not close with {all}."),
                match why {
                    Unclosed::NoOrder(panels) => no_order(names, panels),
                    Unclosed::Undecided => UNDECIDED.to_owned(),
                    Unclosed::Misfits => format!("The creases of {all} do not come together."),
                },
                match pieces.len() {
                    1 => format!(
                        "Move {all} within its panel, make it smaller, or glue it to another one. \
                         Until then the closed card is shown without it."
                    ),
                    _ => {
                        "Move them within their panels, make them smaller, or glue them elsewhere. \
                          Until then the closed card is shown without them."
                            .to_owned()
                    }
                },
            )
        }
    }
}

const UNDECIDED: &str = "So many panels lie over each other that the search was given up.";

#[gathered]
fn no_order(names: &Names<'_>, panels: &[PanelId]) -> String {
    format!(
        "{} can't lie on each other in any order. Paper would pass through paper.",
        nouns::panels(names, panels)
    )
}

#[gathered]
pub(crate) fn open(names: &Names<'_>, found: &OpeningFinding) -> Told {
    let line = |id| nouns::line(names, id);
    let panel = |id| nouns::panel(names, id);
    match found {
        OpeningFinding::Locked {
            line: id,
            glued: Some(piece),
        } => {
            let piece = nouns::piece(names, *piece);
            Told::new(
                format!("{} can't open.", line(*id)),
                format!("{piece} is glued down in two places, and holds it shut between them."),
                format!("Glue {piece} in one place only, or let its creases turn with the fold."),
            )
        }
        OpeningFinding::Locked {
            line: id,
            glued: None,
        } => Told::new(
            format!("{} can't open.", line(*id)),
            "The creases that move with it hold it in every direction.",
            "Flip one of them, or move it.",
        ),
        OpeningFinding::Jam { line: id, opened } => Told::new(
            format!(
                "The card opens to {} at {} and no further.",
                names.degrees(*opened),
                line(*id)
            ),
            "There the paper between the creases is stretched straight.",
            "Make what folds out of the card longer, or glue it nearer to the fold.",
        ),
        OpeningFinding::Unclosed { panels, gap } => Told::new(
            "The card does not close flat.",
            format!(
                "Opposite sides differ by {} round {}.",
                names.length(*gap),
                nouns::panels(names, panels)
            ),
            "Make opposite lengths, or angles, add up to the same.",
        ),
        OpeningFinding::Collision {
            panels: [a, b],
            opened,
        } => Told::new(
            format!(
                "{} and {} run into each other when the card is {} open.",
                panel(*a),
                panel(*b),
                names.degrees(*opened)
            ),
            "Paper can't pass through paper.",
            "Make one of them smaller, move it, or cut a slit for it to pass through.",
        ),
        OpeningFinding::TooCoupled => Told::new(
            "Whether the card opens could not be worked out.",
            "Too many creases move each other to follow them all.",
            "Try it in scrap paper first.",
        ),
        OpeningFinding::PastThePages {
            panel: id,
            by,
            finished,
        } => Told::new(
            format!(
                "{} reaches {} past the pages of the closed card.",
                panel(*id),
                names.length(*by)
            ),
            format!(
                "It sticks out between them; with it the closed card measures {}.",
                names.short_size(*finished)
            ),
            "Move its creases nearer to the fold, or make the pages larger.",
        ),
    }
}
