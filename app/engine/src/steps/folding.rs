//! Scoring and folding.

use super::{Kind, Step, piece_key, side_up};
use crate::card::{Card, Tools, work_out};
use crate::care::Hazard;
use crate::draw::{Moment, opening};
use crate::fold::Opened;
use crate::paper::Body;
use crate::pattern::{LineId, LineKind};
use crate::recipe::{Fold, Line, PieceId, Recipe, Side};
use crate::score::Chart;
use crate::words::{
    between_passes, fold_words, how_to_lay, line_name, piece_name, score_line, side_word,
};

/// Scoring the base and the pieces glued in: a step a pass.
pub(super) fn scores(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let pieces = card.pieces.iter();
    let pieces = pieces.map(|work| (Some(work.of), &work.chart));
    std::iter::once((None, &card.chart))
        .chain(pieces)
        .flat_map(|(of, chart)| passes(recipe, card, of, chart))
        .collect()
}

fn passes(recipe: &Recipe, card: &Card, of: Option<PieceId>, chart: &Chart) -> Vec<Step> {
    let mut steps = Vec::new();
    let passes = &chart.passes;
    let name = piece_name(recipe, of);
    for (number, pass) in passes.iter().enumerate() {
        let side = side_word(of, pass.up);
        let title = match (passes.len(), of) {
            (1, _) => format!("Score {name}"),
            (_, None) => format!("Score, {side} up"),
            (_, Some(_)) => format!("Score {name}, {side} up"),
        };
        let key = match of {
            None => format!("score-{number}"),
            Some(id) => format!("{}-{number}", piece_key("score", id)),
        };
        let mut step = Step::new(key, Kind::Score, title, recipe);
        if let Some(before) = number.checked_sub(1).and_then(|before| passes.get(before)) {
            step.does.push(between_passes(before, pass));
        }
        step.does.push(how_to_lay(recipe, card, of, pass));
        for mark in &pass.marks {
            step.does.push(score_line(recipe, mark));
            step.figure(fold_words(mark), recipe.notation.with_unit(mark.exact));
        }
        let (caption, drawing) = side_up(recipe, card, of, pass.up);
        step.picture(caption, drawing);
        step.tools = vec!["scoring board", "bone folder"];
        steps.push(step);
    }
    steps
}

/// Scoring the creases that do not run across the strip: a step a crease.
pub(super) fn creases(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let creases = lines(recipe).filter_map(|(of, line)| match line.kind {
        LineKind::Crease(fold) => Some((of, line, fold)),
        LineKind::Cut => None,
    });
    creases
        .map(|(of, line, fold)| {
            let side = side_word(of, Side::A);
            let title = format!("Score {}", line.name);
            let key = format!("score-line-{}", line.id.0);
            let mut step = Step::new(key, Kind::Score, title, recipe);
            ends(recipe, line, &mut step);
            step.does.push(format!(
                "Mark both ends on the {side}, lay a ruler along them and score between the \
                 marks. It becomes a {}, seen from the {side}.",
                fold.word()
            ));
            let (caption, drawing) = side_up(recipe, card, of, Side::A);
            step.picture(caption, drawing);
            step.tools = vec!["ruler", "bone folder"];
            step
        })
        .collect()
}

/// Cutting along the lines within the strip: a step a cut.
pub(super) fn cuts(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let cuts = lines(recipe).filter(|(_, line)| line.kind == LineKind::Cut);
    cuts.map(|(of, line)| {
        let side = side_word(of, Side::A);
        let title = format!("Cut {}", line.name);
        let key = format!("cut-line-{}", line.id.0);
        let mut step = Step::new(key, Kind::Cut, title, recipe);
        ends(recipe, line, &mut step);
        step.does.push(format!(
            "Mark both ends on the {side} and cut from one to the other along a ruler, on a \
             cutting mat."
        ));
        let (caption, drawing) = side_up(recipe, card, of, Side::A);
        step.picture(caption, drawing);
        step.tools = vec!["ruler", "craft knife", "cutting mat"];
        step.care = vec![Hazard::Knife];
        step
    })
    .collect()
}

/// The creases and cuts besides the scores, with the piece they are on.
fn lines(recipe: &Recipe) -> impl Iterator<Item = (Option<PieceId>, &Line)> {
    let strips = recipe.strips();
    strips.flat_map(|(of, strip)| strip.lines.iter().map(move |line| (of, line)))
}

/// Where a line runs, by its ends.
fn ends(recipe: &Recipe, line: &Line, step: &mut Step) {
    for (word, corner) in [("start", line.from), ("end", line.to)] {
        let at = recipe.corner(corner);
        step.figure(
            format!("{word}, from the left"),
            recipe.notation.with_unit(at.x),
        );
        step.figure(
            format!("{word}, from below"),
            recipe.notation.with_unit(at.y),
        );
    }
}

/// Folding the base: a step a crease, in the order the card closes.
pub(super) fn folds(recipe: &Recipe, card: &Card) -> Vec<Step> {
    if recipe.pieces.is_empty() {
        return bare_folds(recipe, card);
    }
    // It is folded before anything is glued in.
    let bare = recipe.without_pieces();
    bare_folds(&bare, &work_out(&bare, &Tools::default()))
}

fn bare_folds(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let Some(folded) = &card.folded else {
        return Vec::new();
    };
    let mut steps: Vec<Step> = Vec::new();
    // The card closes in the order it opens, backwards.
    for (before, state) in folded.states.iter().enumerate().skip(1).rev() {
        let Some(opened) = &state.opened else {
            continue;
        };
        let mut step = if opened.together {
            together(recipe, card, opened)
        } else {
            fold_over(recipe, card, opened)
        };
        // Parts of one line may fold one after another.
        let known = |step: &Step| steps.iter().any(|other| other.key == step.key);
        let first = step.key.clone();
        for number in 2_usize.. {
            if !known(&step) {
                break;
            }
            step.key = format!("{first}-{number}");
        }
        let halfway = Moment {
            state: before - 1,
            part: 0.45,
        };
        step.picture("On the way", opening(recipe, card, halfway));
        let folded_up = Moment {
            state: before - 1,
            part: 0.0,
        };
        step.picture("Folded", opening(recipe, card, folded_up));
        step.tools = vec!["bone folder"];
        if let Some(stock) = recipe.stock(card.laid.base.stock)
            && Body::of(stock.weight) == Body::Cover
        {
            step.does
                .push("Heavy paper folds cleanly only along its score.".to_owned());
        }
        steps.push(step);
    }
    steps
}

/// The lines that some hinges lie on, and how each folds.
fn lines_of(card: &Card, hinges: &[usize]) -> Vec<(LineId, Fold)> {
    let mut found: Vec<(LineId, Fold)> = Vec::new();
    for hinge in hinges
        .iter()
        .filter_map(|hinge| card.laid.hinges.get(*hinge))
    {
        if found.iter().all(|(line, _)| *line != hinge.line) {
            found.push((hinge.line, hinge.fold));
        }
    }
    found
}

/// Folding along one crease, or along several that lie on one line by then.
fn fold_over(recipe: &Recipe, card: &Card, opened: &Opened) -> Step {
    let lines = lines_of(card, &opened.hinges);
    let score = opened.line.score();
    let crease = score.and_then(|score| {
        let crease = card.laid.base.creases.get(score)?;
        Some(recipe.notation.with_unit(crease.from.x))
    });
    let name = match &crease {
        Some(at) => format!("at {at}"),
        None => format!("the {}", line_name(recipe, opened.line)),
    };
    let key = match score {
        Some(score) => format!("fold-{score}"),
        None => format!("fold-line-{}", opened.line.0),
    };
    let title = match lines.len() {
        0 | 1 => format!("Fold {name}"),
        2 => format!("Fold {name} and one more crease at once"),
        more => format!("Fold {name} and {} more creases at once", more - 1),
    };
    let mut step = Step::new(key, Kind::Fold, title, recipe);
    match (&lines[..], crease) {
        ([(_, fold)], Some(at)) => {
            step.figure(format!("{}, seen from the inside", fold.word()), at);
        }
        ([(_, fold)], None) => step.figure("seen from the inside", fold.word()),
        (lines, _) => {
            for (line, fold) in lines {
                let label = format!("{}, seen from the inside", line_name(recipe, *line));
                step.figure(label, fold.word());
            }
        }
    }
    let rests = recipe.panel_name(recipe.base.rests);
    let way = match (opened.towards_front, lines.len() > 1) {
        (true, false) => format!("Fold it over along its score, with {rests} flat on the table."),
        (false, false) => "Turn the card over, fold it over along its score, and turn the card \
                           back."
            .to_owned(),
        (true, true) => format!(
            "These creases lie on one line now, layer on layer. Fold all layers over along it, \
             with {rests} flat on the table."
        ),
        (false, true) => "These creases lie on one line now, layer on layer. Turn the card over, \
                          fold all layers over along it, and turn the card back."
            .to_owned(),
    };
    step.does.push(way);
    step.does
        .push("Press the fold with the bone folder from its middle outwards.".to_owned());
    step
}

/// Folds that only close with each other.
fn together(recipe: &Recipe, card: &Card, opened: &Opened) -> Step {
    let mut step = Step::new("fold-together", Kind::Fold, "Close the card", recipe);
    for (line, fold) in lines_of(card, &opened.hinges) {
        step.figure(line_name(recipe, line), fold.word());
    }
    step.does = vec![
        "Bend each of these a little, the way it is named as seen from the inside.".to_owned(),
        "Then close the card slowly and help them along; they fold all at once.".to_owned(),
        "Press the folds with the bone folder once the card is shut.".to_owned(),
    ];
    step
}
