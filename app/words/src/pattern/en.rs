//! Creases and cuts, in English.

use foldwright_engine::length::Length;
use foldwright_engine::pattern::{Fault, Misfit};
use foldwright_engine::problem::PatternFinding;
use foldwright_engine::recipe::StripId;
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::en as nouns;

pub(crate) fn told(names: &Names<'_>, of: StripId, found: &PatternFinding) -> Told {
    match found {
        PatternFinding::Fault(found) => fault(names, of, found),
        PatternFinding::Misfit(found) => misfit(names, of, found),
    }
}

#[gathered]
fn fault(names: &Names<'_>, of: StripId, found: &Fault) -> Told {
    let line = |id| nouns::line(names, id);
    let spot = |at| nouns::spot(names, of, at);
    let middle = |part| nouns::middle(names, of, part);
    match found {
        Fault::TooMany => Told::new(
            format!("{} has too many creases and cuts.", nouns::strip(names, of)),
            "Its corners, lines and crossings are more than can be worked on.",
            "Remove some creases or cuts.",
        ),
        Fault::TooFar { at } => Told::new(
            format!("A corner or an end lies too far out: {}.", spot(*at)),
            format!(
                "Nothing may lie farther than {} from the corner.",
                names.length(Length::LIMIT)
            ),
            "Move it nearer.",
        ),
        Fault::Outline { at } => Told::new(
            format!("The edge of the paper meets itself {}.", spot(*at)),
            "Such an edge can't be cut out as one piece.",
            "Move the corners so that the edge runs once round.",
        ),
        Fault::Hole { hole, at } => Told::new(
            format!("Hole {} does not fit {}.", hole + 1, spot(*at)),
            "A hole lies within the paper and meets neither itself, another hole nor the edge.",
            "Move the hole or its corners.",
        ),
        Fault::NoLength { line: id, at } => Told::new(
            format!("{} has no length.", line(*id)),
            format!("Both its ends are the same point, {}.", spot(*at)),
            "Move one end, or remove the line.",
        ),
        Fault::Outside { line: id, part } => Told::new(
            format!("{} leaves the paper.", line(*id)),
            format!("There is nothing to crease or cut near {}.", middle(part)),
            "End it at the edge.",
        ),
        Fault::AlongEdge { line: id, part } => Told::new(
            format!("{} runs along the edge.", line(*id)),
            format!("The paper ends there already, near {}.", middle(part)),
            "Move it inwards, or remove it.",
        ),
        Fault::Overlap {
            lines: [a, b],
            part,
        } => Told::new(
            format!("{} and {} lie on each other.", line(*a), line(*b)),
            format!("The paper can only do one thing near {}.", middle(part)),
            "Remove one of them, or shorten it.",
        ),
        Fault::Crossing { lines: [a, b], at } => Told::new(
            format!("{} and {} cross.", line(*a), line(*b)),
            format!(
                "They cross {}. Folded along one, the other meets itself, so one half has to fold \
                 the other way.",
                spot(*at)
            ),
            "Break one of them where they cross and flip one half.",
        ),
        Fault::Dangles { line: id, end } => Told::new(
            format!("{} ends within a panel.", line(*id)),
            format!(
                "It ends {}. Paper folds along a crease only from edge to edge, or as far as other \
                 creases.",
                spot(*end)
            ),
            "Lead it to an edge, a cut or another crease.",
        ),
        Fault::SamePanel { line: id, part } => Told::new(
            format!("{} has one panel on both sides.", line(*id)),
            format!(
                "That is near {}. A panel is flat, so it can't be folded onto itself.",
                middle(part)
            ),
            "Add the crease that divides it on the other side too, or remove this one.",
        ),
        Fault::Loose { at, .. } => Told::new(
            format!("The part with a corner {} is cut loose.", spot(*at)),
            "No crease joins it to the rest.",
            "Shorten a cut, or make that part a piece of its own.",
        ),
    }
}

#[gathered]
fn misfit(names: &Names<'_>, of: StripId, found: &Misfit) -> Told {
    let spot = |at| nouns::spot(names, of, at);
    let not_flat = |at| format!("The creases that meet {} do not fold flat.", spot(at));
    match found {
        Misfit::OddCreases { at, count } => Told::new(
            format!(
                "The {count} creases that meet {} do not fold flat.",
                spot(*at)
            ),
            "Every crease turns the paper over, so an odd number brings it back wrong side up.",
            "Add a crease from there, or remove one.",
        ),
        Misfit::Angles { at, sums, gap } => Told::new(
            not_flat(*at),
            format!(
                "Every second angle must add up to 180°; here they make {} and {}. The panels miss \
                 each other by {}.",
                names.angle(sums[0]),
                names.angle(sums[1]),
                names.length(*gap)
            ),
            match found.small_turn() {
                Some(turn) => format!(
                    "Turn one of these creases by {}, or move the point.",
                    names.angle(turn)
                ),
                None => "Move the point, or the other ends of these creases.".to_owned(),
            },
        ),
        Misfit::Folds {
            at,
            mountains,
            valleys,
        } => Told::new(
            not_flat(*at),
            format!(
                "Mountains and valleys that meet must differ by two; here they are {mountains} and \
                 {valleys}."
            ),
            "Flip one of these creases.",
        ),
        Misfit::Opening {
            at,
            is_hole,
            turned_over,
            gap,
        } => Told::new(
            if *is_hole {
                format!("Panels round the hole {} do not fold flat.", spot(*at))
            } else {
                format!("Panels round the cut {} do not fold flat.", spot(*at))
            },
            if *turned_over {
                "An odd number of creases ends at it, so they come round wrong side up.".to_owned()
            } else {
                let gap = names.length(*gap);
                format!("Folded once round it they miss each other by {gap}.")
            },
            "Move a crease that ends there, or lead a cut from there to the edge.",
        ),
        Misfit::Drift { line, gap, .. } => Told::new(
            format!(
                "The panels along {} do not meet when folded.",
                nouns::line(names, *line)
            ),
            format!(
                "Small misses at many points add up; here they make {}.",
                names.length(*gap)
            ),
            "Place the points where creases meet more exactly.",
        ),
    }
}
