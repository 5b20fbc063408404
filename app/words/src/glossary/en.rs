//! The words of the trade, in English.

use super::{Explained, Group, Term};

#[expect(clippy::too_many_lines, reason = "an arm for each word")]
pub(super) const fn explained(term: Term) -> Explained {
    let (word, means) = match term {
        Term::Sheet => (
            "Sheet",
            "Paper as it is sold, before anything is cut from it.",
        ),
        Term::Base => (
            "Card base",
            "The folded piece that makes the card. Everything else is glued onto it.",
        ),
        Term::Panel => (
            "Panel",
            "A part of a piece between its folds, cuts and edges. A book card has two: front and back.",
        ),
        Term::FlatSize => (
            "Flat size",
            "The size of a piece before it is folded, as you cut it.",
        ),
        Term::FinishedSize => (
            "Closed size",
            "The size of the card when it is folded shut. The envelope goes by it.",
        ),
        Term::Score => (
            "Score",
            "A line pressed into the paper before it is folded, so that the fold comes clean and straight.",
        ),
        Term::Mountain => (
            "Mountain fold",
            "A fold whose ridge points at you, like a roof. It is drawn as dashes and dots.",
        ),
        Term::Valley => (
            "Valley fold",
            "A fold that sinks away from you, like a ditch. It is drawn as dashes.",
        ),
        Term::Layer => (
            "Layer",
            "A piece glued flat onto a panel, or onto another layer.",
        ),
        Term::Mat => (
            "Mat",
            "A layer a little smaller than what it lies on, so that an even border shows all round.",
        ),
        Term::Border => (
            "Border",
            "What shows of the panel around a mat: equally wide on all sides.",
        ),
        Term::FocalPiece => (
            "Focal piece",
            "The layer that is meant to be seen first: a picture, a greeting, a cut shape.",
        ),
        Term::Overhang => (
            "Overhang",
            "How far a layer reaches past the panel that carries it.",
        ),
        Term::Tab => (
            "Tab",
            "A narrow strip that takes the glue and is out of sight afterwards.",
        ),
        Term::Insert => (
            "Insert",
            "An inner sheet to write on, glued along one edge or laid in loose.",
        ),
        Term::PrintDirection => (
            "Print direction",
            "Which way “up” runs on printed paper. Where both sides are printed, their heads lie at the same edge or at opposite ones.",
        ),
        Term::Grain => (
            "Grain",
            "The direction in which most fibres of a paper lie. A fold along the grain is smoother than one across it.",
        ),
        Term::Weight => (
            "Weight",
            "What a square metre of a paper weighs, in g/m². Cardstock for a base has some 200 to 300.",
        ),
        Term::Caliper => (
            "Thickness",
            "How thick one sheet is. Thick paper takes up room in every fold.",
        ),
        Term::Trimmer => (
            "Trimmer",
            "A cutter that cuts straight through a sheet, from one edge to the other.",
        ),
        Term::Fence => (
            "Fence",
            "The stop that an edge of the paper lies against while you cut or score. Distances are measured from it.",
        ),
        Term::ScoringBoard => (
            "Scoring board",
            "A board with grooves at regular distances and a fence at one end.",
        ),
        Term::BoneFolder => (
            "Bone folder",
            "A smooth, blunt tool to press scores and to sharpen folds.",
        ),
        Term::Kit => (
            "Kit",
            "All cut pieces that one maker needs for a card, put together beforehand.",
        ),
        Term::Recipe => (
            "Recipe",
            "A card as Foldwright keeps it: its numbers, papers, folds and layers, and your notes.",
        ),
        Term::Bench => (
            "Bench",
            "Where Foldwright leads you through a card at the table, one step at a time.",
        ),
    };
    Explained { word, means }
}

pub(super) const fn about(group: Group) -> &'static str {
    match group {
        Group::Card => "The card",
        Group::Folds => "Its folds",
        Group::Layers => "What is glued on",
        Group::Paper => "Paper",
        Group::Tools => "Tools",
        Group::Making => "Making it",
    }
}
