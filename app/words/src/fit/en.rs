//! Paper, print, marks, envelope and glued panels, in English.

use foldwright_engine::length::Length;
use foldwright_engine::paper::{Misfit, StockId};
use foldwright_engine::part::Part;
use foldwright_engine::plane::{Bearing, Size, Turn};
use foldwright_engine::problem::{FitFinding, JoinFinding};
use foldwright_engine::recipe::{Face, PanelId, PieceId};
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::en as nouns;

#[gathered]
pub(crate) fn told(names: &Names<'_>, found: FitFinding) -> Told {
    match found {
        FitFinding::NoPaper(of) => {
            let part = nouns::part(names, of);
            Told::new(
                format!("{part} has no paper."),
                "Its paper is no longer part of the recipe.",
                format!("Choose a paper for {part}."),
            )
        }
        FitFinding::TooLarge {
            of,
            size,
            stock,
            turned_fits,
        } => too_large(names, of, (size, stock), turned_fits),
        FitFinding::Moved(of) => Told::new(
            format!("{} is not cut where you chose.", nouns::part(names, of)),
            "That place is no longer on its sheet, and the nearest one was taken.",
            "Look at what it shows now, or choose another place on the sheet.",
        ),
        FitFinding::AcrossGrain(of) => Told::new(
            format!(
                "The folds of {} run across the grain of the paper.",
                nouns::strip(names, of)
            ),
            "Card folded across its grain may crack (printers' guides).",
            format!(
                "Lay {} the other way if print and size allow it; otherwise score the folds well.",
                nouns::strip(names, of)
            ),
        ),
        FitFinding::Slanted {
            face,
            turned,
            is_nearest,
        } => slanted(names, face, turned, is_nearest),
        FitFinding::NotBothUpright([a, b]) => Told::new(
            format!(
                "The print can't be upright on {} and on {}.",
                nouns::face(names, a),
                nouns::face(names, b)
            ),
            if a.side == b.side {
                "Both are the same side of the paper, and folding turns one of them round."
            } else {
                "They are the two sides of the paper, and one of its prints would stand the wrong \
                 way up."
            },
            "Mark only the one that matters more, or cover the other with a mat.",
        ),
        FitFinding::Thick(thickness) => Told::new(
            format!(
                "The card is {} thick at its thickest place.",
                names.tenths(thickness)
            ),
            "Printers take a larger envelope for a thick card and name no size (from 3 mm: common \
             practice). Many posts take letters up to 5 mm thick, the United States up to ¼\u{a0}in \
             (their published limits).",
            "Try one card in its envelope before you make many, and ask your post office.",
        ),
        FitFinding::UnknownRule => Told::new(
            "The recipe's clearance is unknown.",
            "It may come from a newer Foldwright.",
            "Choose a clearance for the envelope.",
        ),
        FitFinding::UnknownEnvelope => Told::new(
            "The chosen envelope is unknown.",
            "It may come from a newer Foldwright.",
            "Choose an envelope.",
        ),
        FitFinding::Tight(misfit) => Told::new(
            format!(
                "The card does not go into {} with your clearance.",
                nouns::envelope(misfit.envelope)
            ),
            lacking(names, misfit),
            "Choose another envelope or clearance, or make the card smaller.",
        ),
        FitFinding::NoEnvelope(size) => Told::new(
            "No standard envelope takes the card with your clearance.",
            format!("Closed, the card measures {}.", names.short_size(size)),
            "Choose another clearance, make the card smaller, or make an envelope for it.",
        ),
        FitFinding::BetweenMarks { at, .. } => Told::new(
            format!("The score at {} falls between two marks.", names.short(at)),
            format!(
                "Your ruler has a mark every {}.",
                names.length(names.step().length())
            ),
            "Set the score by eye beside the nearest mark, or move it onto a mark.",
        ),
    }
}

/// What is too large for its paper.
#[gathered]
fn too_large(
    names: &Names<'_>,
    of: Part,
    (size, stock): (Size, StockId),
    turned_fits: bool,
) -> Told {
    let part = nouns::part(names, of);
    let sheet = names
        .stock(stock)
        .map_or_else(Default::default, |(_, size)| size);
    Told::new(
        match of {
            Part::Layer(_) if !turned_fits => format!("{part} is larger than its paper."),
            Part::Strip(_) | Part::Layer(_) => {
                format!("{part} does not fit its paper as it must lie.")
            }
        },
        format!(
            "{part} measures {}. A sheet of {} measures {}.",
            names.short_size(size),
            nouns::stock(names, stock),
            names.short_size(sheet)
        ),
        if turned_fits {
            format!("Turn {part}, if the print may lie on its side, or choose larger paper.")
        } else {
            format!("Choose larger paper, or make {part} smaller.")
        },
    )
}

/// A print that does not stand upright.
#[gathered]
fn slanted(names: &Names<'_>, face: Face, turned: Bearing, is_nearest: bool) -> Told {
    let face = nouns::face(names, face);
    Told::new(
        match turned.looks_like() {
            Some(Turn::None) => format!("The print on {face} is almost upright."),
            Some(Turn::Left) => {
                format!("The print on {face} lies on its side, its head to the left.")
            }
            Some(Turn::Half) => format!("The print on {face} is upside down."),
            Some(Turn::Right) => {
                format!("The print on {face} lies on its side, its head to the right.")
            }
            None => match names.slant(turned) {
                (off, true) => {
                    format!("The print on {face} runs {off} to the left of upright.")
                }
                (off, false) => {
                    format!("The print on {face} runs {off} to the right of upright.")
                }
            },
        },
        "The panel lies at a slant in the card, and paper is cut straight along the print.",
        if is_nearest {
            "No other way to lay the paper comes nearer. Choose a print that reads every \
                     way, or cover it."
        } else {
            "Another way to lay the paper comes nearer. What else must be upright rules it \
                     out, or your own choice."
        },
    )
}

/// What an envelope lacks.
#[gathered]
pub(crate) fn lacking(names: &Names<'_>, misfit: Misfit) -> String {
    let name = nouns::envelope(misfit.envelope);
    let by = |length| names.length(length);
    match (misfit.lacking_length, misfit.lacking_height) {
        (length, Length::ZERO) => format!("{name} is {} too short for the card.", by(length)),
        (Length::ZERO, height) => format!("{name} is {} too low for the card.", by(height)),
        (length, height) => format!(
            "{name} is {} too short and {} too low for the card.",
            by(length),
            by(height)
        ),
    }
}

#[gathered]
pub(crate) fn join(
    names: &Names<'_>,
    (piece, part): (PieceId, PanelId),
    on: Face,
    found: &JoinFinding,
) -> Told {
    let piece = nouns::piece(names, piece);
    let (part, panel) = (nouns::panel(names, part), nouns::panel(names, on.panel));
    match found {
        JoinFinding::TurnedOver => Told::new(
            format!("{part} of {piece} lands on {panel} wrong side up."),
            "Folded as it is when the card is closed, its other side faces the glue.",
            "Flip one of its folds, or say that its other side shows.",
        ),
        JoinFinding::Misses(off) => Told::new(
            format!(
                "{part} of {piece} misses its place on {panel} by {}.",
                names.length(*off)
            ),
            "Folded and glued at its other place, it lands there when the card is closed.",
            "Move one of its places, make it fit, or glue this one where it lands.",
        ),
        JoinFinding::NoRoom { margin } => Told::new(
            format!("{part} of {piece} has no room for glue on {panel}."),
            format!(
                "Glue stays {} from every edge, which leaves nothing there.",
                names.length(*margin)
            ),
            format!("Move {piece}, or make it larger."),
        ),
        JoinFinding::Past { edges, most } => Told::new(
            format!(
                "{part} of {piece} reaches past {panel}: {}.",
                nouns::far(names, edges, *most)
            ),
            format!(
                "That is as you look at {}. Glue there would tie it to what lies beside it.",
                nouns::face(names, on)
            ),
            format!("Put glue only where it lies on {panel}."),
        ),
    }
}
