//! The flat pieces, in English.

use foldwright_engine::problem::{CutoutFinding, LaidFinding, OutlineFinding};
use foldwright_engine::recipe::CutoutId;
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::en as nouns;

#[gathered]
pub(crate) fn laid(names: &Names<'_>, found: LaidFinding) -> Told {
    match found {
        LaidFinding::NoPlace(id) => Told::new(
            format!("{} has no place in the card.", nouns::piece(names, id)),
            "It has no first glue place.",
            "Choose a panel and where it goes.",
        ),
        LaidFinding::NoJoin { piece, part, on } => Told::new(
            format!("{} can't be glued there.", nouns::piece(names, piece)),
            format!(
                "{} or {} is not there, or the line to glue along has no length.",
                nouns::panel(names, part),
                nouns::panel(names, on)
            ),
            "Choose other panels, or another line.",
        ),
        LaidFinding::OnNothing(id) => {
            let layer = nouns::layer(names, id);
            Told::new(
                format!("{layer} lies on nothing."),
                format!("What carried {layer} is gone, or is put on later."),
                format!("Put {layer} on a panel or on a layer before it, or take it off."),
            )
        }
        LaidFinding::Falls { of, parts } => {
            let strip = nouns::strip(names, of);
            let (what, remedy) = match parts {
                1 => (
                    format!("The cuts part {strip}: 1 part falls off."),
                    "Confirm that, or tap the other part in the flat figure to keep it instead.",
                ),
                more => (
                    format!("The cuts part {strip}: {more} parts fall off."),
                    "Confirm that, or tap another part in the flat figure to keep it instead.",
                ),
            };
            Told::new(
                what,
                "The largest part that creases hold together is taken for what you keep.",
                remedy,
            )
        }
    }
}

#[gathered]
pub(crate) fn outline(names: &Names<'_>, found: OutlineFinding) -> Told {
    match found {
        OutlineFinding::TooRound(of) => {
            let name = nouns::shaped(names, of);
            Told::new(
                format!("There is no room to round {name} so far."),
                "Two rounded corners of a side meet in its middle; more than that is left out.",
                format!("Give a smaller radius or rise, or make {name} larger."),
            )
        }
        OutlineFinding::Crossed(of) => {
            let name = nouns::shaped(names, of);
            Told::new(
                format!("The outline of {name} crosses itself."),
                "A rectangle is drawn until its corners follow each other once round.",
                "Move the corners, or start again from a ready outline.",
            )
        }
        OutlineFinding::NoRoom(id) => {
            let layer = nouns::layer(names, id);
            Told::new(
                format!("The border leaves nothing of {layer}."),
                format!("The border is at least half as wide as what carries {layer}."),
                format!("Make the border narrower, or place {layer} by its own size."),
            )
        }
    }
}

#[gathered]
pub(crate) fn cutout(names: &Names<'_>, cutout: CutoutId, found: CutoutFinding) -> Told {
    let name = nouns::cutout(names, cutout);
    let not_cut = |why: &str| {
        Told::new(
            format!("{name} can't be cut there."),
            why,
            format!("Move {name}, choose another panel, or remove {name}."),
        )
    };
    let apart = |what: String| {
        Told::new(
            what,
            "Nothing would hold the rest together, so this is not cut.",
            format!("Make {name} smaller, or move {name} away from the edges."),
        )
    };
    match found {
        CutoutFinding::NoPanel => not_cut("The panel to cut it out of is gone."),
        CutoutFinding::Beside => not_cut("All of it would lie beside the paper."),
        CutoutFinding::TooManyCorners => {
            not_cut("The paper would have more corners than can be worked on.")
        }
        CutoutFinding::NoFreeCorner => {
            not_cut("The panel has scores on both sides, so none of its corners is free.")
        }
        CutoutFinding::AtScore => {
            not_cut("The panel ends there at a score, not at an edge of its own.")
        }
        CutoutFinding::LeavesNothing => apart(format!("{name} would leave nothing of the paper.")),
        CutoutFinding::Parts => apart(format!("{name} would cut the paper in two.")),
    }
}
