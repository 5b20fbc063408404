//! Whether the pieces fit their paper, and the card an envelope.

use crate::face::Reading;
use crate::laid::LaidOut;
use crate::length::Length;
use crate::paper::{ClearanceRule, Envelope, EnvelopeFit, THICK, envelopes_taking, why_not};
use crate::pattern::LineId;
use crate::plane::Size;
use crate::print::PrintAdvice;
use crate::problem::{Place, Problem, Weight};
use crate::recipe::{Face, Recipe};
use crate::score::Chart;
use crate::words::{face_name, turn_words};

/// Pieces without paper, larger than their paper, or with faces that cannot be
/// upright.
pub(crate) fn paper(
    recipe: &Recipe,
    laid: &LaidOut,
    print: Option<&PrintAdvice>,
    readings: &[Reading],
) -> Vec<Problem> {
    let mut problems = Vec::new();
    match print {
        None => problems.push(no_paper(Place::Paper, &recipe.name)),
        Some(print) => {
            let mut fitting = print.lays.iter().filter(|report| report.per_sheet > 0);
            if !fitting.clone().any(|report| report.lay == print.lay) {
                problems.push(too_large(recipe, laid, fitting.next().is_some()));
            }
            problems.extend(not_upright(recipe, print, readings));
            if print.is_across_grain() && !laid.base.creases.is_empty() {
                let folds = "The folds run across the grain of the paper.";
                problems.push(across_the_grain(Place::Paper, folds.to_owned()));
            }
        }
    }
    for layer in &laid.layers {
        let name = recipe
            .layer(layer.id)
            .map_or("a layer", |layer| layer.name.as_str());
        let Some(stock) = recipe.stock(layer.stock) else {
            problems.push(no_paper(Place::Layer(layer.id), name));
            continue;
        };
        let size = layer.at.size();
        let within = |size: Size| size.width <= stock.width && size.height <= stock.height;
        if !within(size) && !within(size.turned()) {
            problems.push(Problem {
                place: Place::Layer(layer.id),
                weight: Weight::Stop,
                what: format!("{name} is larger than its paper."),
                why: format!(
                    "It measures {}, and {} only {}.",
                    recipe.notation.size(size.width, size.height),
                    stock.name,
                    recipe.notation.size(stock.width, stock.height)
                ),
                remedy: "Choose larger paper, or make it smaller.".to_owned(),
            });
        }
    }
    problems
}

/// The faces of a strip that cannot be upright, or not together.
pub(crate) fn not_upright(
    recipe: &Recipe,
    print: &PrintAdvice,
    readings: &[Reading],
) -> impl Iterator<Item = Problem> {
    let conflicts = print.conflicts.iter();
    let conflicts = conflicts.map(|(a, b)| conflict(recipe, *a, *b));
    let slanting = print.slants.iter();
    conflicts.chain(slanting.filter_map(|face| slanted(recipe, print, readings, *face)))
}

pub(super) fn across_the_grain(place: Place, what: String) -> Problem {
    Problem {
        place,
        weight: Weight::Note,
        what,
        why: "Card folded across its grain may crack (printers' guides).".to_owned(),
        remedy: "Lay the strip the other way if print and size allow it; otherwise score it well."
            .to_owned(),
    }
}

fn no_paper(place: Place, name: &str) -> Problem {
    Problem {
        place,
        weight: Weight::Stop,
        what: format!("There is no paper for {name}."),
        why: "Its paper is no longer part of the recipe.".to_owned(),
        remedy: "Choose a paper for it.".to_owned(),
    }
}

fn too_large(recipe: &Recipe, laid: &LaidOut, turned_fits: bool) -> Problem {
    let stock = recipe.stock(laid.base.stock);
    let paper = stock.map_or_else(String::new, |stock| {
        format!(
            "{} measures {}.",
            stock.name,
            recipe.notation.size(stock.width, stock.height)
        )
    });
    let size = laid.base.size;
    let strip = recipe.notation.size(size.width, size.height);
    Problem {
        place: Place::Paper,
        weight: Weight::Stop,
        what: format!("The strip of {strip} does not fit its paper as it must lie."),
        why: paper,
        remedy: if turned_fits {
            "Turn it, if the print may lie on its side, or choose larger paper.".to_owned()
        } else {
            "Choose larger paper, or make the strip smaller.".to_owned()
        },
    }
}

/// That the print of a face runs at a slant, and how near the lay brings it.
fn slanted(
    recipe: &Recipe,
    print: &PrintAdvice,
    readings: &[Reading],
    face: Face,
) -> Option<Problem> {
    let (_, strip, _) = recipe.strip_with(face.panel)?;
    let reading = readings.iter().find(|reading| reading.face == face)?;
    let stock = recipe.stock(strip.stock)?;
    let turned = print.lay.turned(stock, face.side, &reading.place)?;
    let report = print.lays.iter().find(|report| report.lay == print.lay)?;
    Some(Problem {
        place: Place::Face(face),
        weight: Weight::Warning,
        what: format!(
            "The print on {} {}.",
            face_name(recipe, face),
            turn_words(turned)
        ),
        why: "Its panel lies at a slant in the card, and paper is cut straight along the print."
            .to_owned(),
        remedy: if report.nearest.contains(&face) {
            "No other way to lay the paper comes nearer. Choose a print that reads every way, or \
             cover it."
        } else {
            "Another way to lay the paper comes nearer; what else must be upright rules it out, \
             or your own choice."
        }
        .to_owned(),
    })
}

fn conflict(recipe: &Recipe, a: Face, b: Face) -> Problem {
    let (first, second) = (face_name(recipe, a), face_name(recipe, b));
    let why = if a.side == b.side {
        "Both are the same side of the paper, and folding turns one of them round."
    } else {
        "They are the two sides of the paper, and their prints stand the other way round to each \
         other than the card needs."
    };
    Problem {
        place: Place::Face(b),
        weight: Weight::Warning,
        what: format!("The print cannot be upright on {first} and on {second}."),
        why: why.to_owned(),
        remedy: "Mark only the one that matters more, or cover the other with a mat.".to_owned(),
    }
}

/// That a card is so thick that an envelope it fits by the rules may be tight.
pub(crate) fn thick(recipe: &Recipe, thickness: Length) -> Option<Problem> {
    (thickness >= THICK).then(|| Problem {
        place: Place::Envelope,
        weight: Weight::Note,
        what: format!(
            "The card is {} thick at its thickest place.",
            recipe.notation.with_unit(thickness)
        ),
        why: "Printers ask for a larger envelope for a thick card and name no size (newsletters, \
              envelope specifications; from 3 mm on is common practice). Many posts take a letter \
              up to 5 mm thick, the United States up to 1/4 in (their published limits)."
            .to_owned(),
        remedy: "Try one in its envelope before you make many, and check with your post office."
            .to_owned(),
    })
}

/// The envelopes that take the card, and what is wrong with the chosen one.
pub(crate) fn envelopes(recipe: &Recipe, finished: Size) -> (Vec<EnvelopeFit>, Vec<Problem>) {
    let Some(rule) = ClearanceRule::by_id(&recipe.posting.rule) else {
        let unknown = Problem {
            place: Place::Envelope,
            weight: Weight::Warning,
            what: "The recipe's clearance rule is unknown.".to_owned(),
            why: "It may come from a newer Foldwright.".to_owned(),
            remedy: "Choose a clearance rule.".to_owned(),
        };
        return (Vec::new(), vec![unknown]);
    };
    let card = (finished.width, finished.height);
    let fits = envelopes_taking(card, rule);
    let mut problems = Vec::new();
    if let Some(id) = &recipe.posting.envelope {
        match Envelope::by_id(id) {
            Some(envelope) => {
                if let Some(misfit) = why_not(envelope, card, rule) {
                    problems.push(Problem {
                        place: Place::Envelope,
                        weight: Weight::Warning,
                        what: format!("The card does not go into {} by your rule.", envelope.name),
                        why: misfit.words(recipe.notation),
                        remedy: "Choose another envelope or rule, or make the card smaller."
                            .to_owned(),
                    });
                }
            }
            None => problems.push(Problem {
                place: Place::Envelope,
                weight: Weight::Warning,
                what: "The chosen envelope is unknown.".to_owned(),
                why: "It may come from a newer Foldwright.".to_owned(),
                remedy: "Choose an envelope.".to_owned(),
            }),
        }
    } else if fits.is_empty() {
        problems.push(Problem {
            place: Place::Envelope,
            weight: Weight::Note,
            what: "No standard envelope takes the card by your rule.".to_owned(),
            why: format!(
                "It measures {}.",
                recipe.notation.size(finished.width, finished.height)
            ),
            remedy: "Choose another rule, make the card smaller, or make an envelope for it."
                .to_owned(),
        });
    }
    (fits, problems)
}

/// Scores that land between two marks of the maker's step.
pub(crate) fn between_marks(recipe: &Recipe, chart: &Chart) -> Vec<Problem> {
    chart
        .passes
        .iter()
        .flat_map(|pass| &pass.marks)
        .filter(|mark| !mark.mark.is_exact())
        .map(|mark| Problem {
            place: Place::Score(LineId::of_score(mark.score)),
            weight: Weight::Note,
            what: format!(
                "A score falls between two marks, at {}.",
                recipe.notation.with_unit(mark.exact)
            ),
            why: format!(
                "Your ruler has a mark every {}.",
                recipe.notation.with_unit(recipe.notation.step.length())
            ),
            remedy: "Set it by eye beside the nearest mark, or move the score onto a mark."
                .to_owned(),
        })
        .collect()
}

/// Parts of which a recipe kept from before has more than one can have now.
pub(crate) fn too_many(recipe: &Recipe) -> impl Iterator<Item = Problem> {
    recipe.too_many().map(|(parts, number)| {
        let (most, word) = (parts.most(), parts.word());
        Problem {
            place: Place::Recipe,
            weight: Weight::Note,
            what: format!("The recipe has {number} {word}; {most} are the most it can have now."),
            why: "It was made before there was this limit. All of it is kept, but each change may \
                  take a while."
                .to_owned(),
            remedy: format!("Remove some {word}, or make two recipes of it."),
        }
    })
}
