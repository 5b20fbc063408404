//! Scoring and folding.

use std::sync::Arc;

use super::seen::Bare;
use super::{
    Along, Caption, Instruction, Kind, Label, Point, Seen, Step, StepKey, Title, Tool, Value,
};
use super::{between_passes, how_to_lay, score_label};
use crate::card::Card;
use crate::care::Hazard;
use crate::draw::Moment;
use crate::fold::Opened;
use crate::paper::Body;
use crate::pattern::{LineId, LineKind};
use crate::recipe::{Fold, Line, Recipe, StripId};
use crate::score::Chart;

/// Scoring the base and the pieces glued in: a step a pass.
pub(super) fn scores(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let charts = card.charts();
    let passes = charts.flat_map(|(of, chart)| passes(recipe, card, of, chart));
    passes.collect()
}

fn passes(recipe: &Recipe, card: &Card, of: StripId, chart: &Chart) -> Vec<Step> {
    let mut steps = Vec::new();
    let passes = &chart.passes;
    for (number, pass) in passes.iter().enumerate() {
        let up = (passes.len() > 1).then_some(pass.up);
        let title = Title::Score { of, up };
        let mut step = Step::new(StepKey::Score(of, number), Kind::Score, title, recipe);
        step.does.push(Instruction::MeasureFromFence(of));
        if let Some(before) = number.checked_sub(1).and_then(|before| passes.get(before)) {
            step.does.push(between_passes(of, before, pass));
        }
        step.does.extend(how_to_lay(recipe, card, of, pass));
        for (letter, mark) in pass.marks.iter().enumerate() {
            step.does.push(Instruction::ScoreAt(mark.exact));
            step.lettered(letter, score_label(of, mark), mark.exact);
        }
        let caption = Caption::SideUp(of, pass.up);
        step.picture(caption, Seen::AtBoard(of, pass.clone()));
        step.tools = vec![Tool::ScoringBoard, Tool::BoneFolder];
        steps.push(step);
    }
    steps
}

/// Scoring the creases that do not run across the strip: a step a crease.
pub(super) fn creases(recipe: &Recipe) -> Vec<Step> {
    let creases = lines(recipe).filter_map(|(of, line)| match line.kind {
        LineKind::Crease(fold) => Some((of, line, fold)),
        LineKind::Cut => None,
    });
    creases
        .map(|(of, line, fold)| {
            let id = LineId::of_line(line.id);
            let key = StepKey::ScoreLine(line.id);
            let mut step = Step::new(key, Kind::Score, Title::ScoreLine(id), recipe);
            ends(recipe, line, &mut step);
            step.does = vec![
                Instruction::MeasureFlat(of),
                Instruction::ScoreBetween(id),
                Instruction::Becomes(id, of, fold),
            ];
            step.flat(of, Seen::AtLine(of, line.id));
            step.tools = vec![Tool::Ruler, Tool::BoneFolder];
            step
        })
        .collect()
}

/// Cutting along the lines within the strip: a step a cut.
pub(super) fn cuts(recipe: &Recipe) -> Vec<Step> {
    let cuts = lines(recipe).filter(|(_, line)| line.kind == LineKind::Cut);
    cuts.map(|(of, line)| {
        let id = LineId::of_line(line.id);
        let key = StepKey::CutLine(line.id);
        let mut step = Step::new(key, Kind::Cut, Title::CutLine(id), recipe);
        ends(recipe, line, &mut step);
        step.does = vec![Instruction::MeasureFlat(of), Instruction::CutBetween(id)];
        step.flat(of, Seen::AtLine(of, line.id));
        step.tools = vec![Tool::Ruler, Tool::CraftKnife, Tool::CuttingMat];
        step.care = vec![Hazard::Knife];
        step
    })
    .collect()
}

/// The creases and cuts besides the scores, with the piece they are on.
fn lines(recipe: &Recipe) -> impl Iterator<Item = (StripId, &Line)> {
    let strips = recipe.strips();
    strips.flat_map(|(of, strip)| strip.lines.iter().map(move |line| (of, line)))
}

/// Where a line runs, by its ends.
fn ends(recipe: &Recipe, line: &Line, step: &mut Step) {
    let ends = [(Point::First, line.from), (Point::Second, line.to)];
    for (letter, (point, corner)) in ends.into_iter().enumerate() {
        let at = recipe.corner(corner);
        step.lettered(letter, Label::PointFromLeft(point), at.x);
        step.lettered(letter, Label::PointFromBottom(point), at.y);
    }
}

/// Folding the base: a step a crease, in the order the card closes, before anything is
/// glued on.
pub(super) fn folds(recipe: &Recipe, card: &Card, bare: Option<&Arc<Bare>>) -> Vec<Step> {
    let (recipe, card) = bare.map_or((recipe, card), |bare| (&bare.recipe, &bare.card));
    let folding = |moment| Seen::Folding(bare.cloned(), moment);
    let Some(folded) = &card.folded else {
        return Vec::new();
    };
    let mut steps: Vec<Step> = Vec::new();
    let mut folded_along = Vec::new();
    // The card closes in the order it opens, backwards.
    for (before, state) in folded.states.iter().enumerate().skip(1).rev() {
        let Some(opened) = &state.opened else {
            continue;
        };
        let along = match opened.line.score() {
            _ if opened.together => Along::Together,
            Some(score) => Along::Score(score),
            None => Along::Line(opened.line),
        };
        // Parts of one line may fold one after another.
        folded_along.push(along);
        let time = folded_along.iter().filter(|it| **it == along).count();
        let key = StepKey::Fold(along, time);
        let mut step = if opened.together {
            together(recipe, card, opened, key)
        } else {
            fold_over(recipe, card, opened, key)
        };
        let halfway = Moment {
            state: before - 1,
            part: 0.45,
        };
        step.picture(Caption::OnTheWay, folding(halfway));
        let folded_up = Moment {
            state: before - 1,
            part: 0.0,
        };
        step.picture(Caption::Folded, folding(folded_up));
        step.tools = vec![Tool::BoneFolder];
        if let Some(stock) = recipe.stock(card.laid.base.stock)
            && Body::of(stock.weight) == Body::Cover
        {
            step.does.push(Instruction::HeavyPaper);
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
fn fold_over(recipe: &Recipe, card: &Card, opened: &Opened, key: StepKey) -> Step {
    let lines = lines_of(card, &opened.hinges);
    let more = lines.len().saturating_sub(1);
    let line = opened.line;
    let mut step = Step::new(key, Kind::Fold, Title::Fold { line, more }, recipe);
    let crease = line.score().and_then(|score| {
        let crease = card.laid.base.creases.get(score)?;
        Some(crease.from.x)
    });
    match (&lines[..], crease) {
        ([(_, fold)], Some(at)) => step.length(Label::FoldInside(*fold), at),
        ([(_, fold)], None) => step.figure(Label::SeenInside, Value::Fold(*fold)),
        (lines, _) => {
            for (line, fold) in lines {
                step.figure(Label::LineInside(*line), Value::Fold(*fold));
            }
        }
    }
    step.does.push(Instruction::Find(line));
    let rests = recipe.base.rests;
    if more > 0 {
        step.does.push(Instruction::OneLine);
    }
    step.does.push(match (opened.towards_front, more > 0) {
        (true, false) => Instruction::FoldOver(rests),
        (false, false) => Instruction::FoldUnder,
        (true, true) => Instruction::FoldAllOver(rests),
        (false, true) => Instruction::FoldAllUnder,
    });
    step.does.push(Instruction::PressFold);
    step
}

/// Folds that only close with each other.
fn together(recipe: &Recipe, card: &Card, opened: &Opened, key: StepKey) -> Step {
    let mut step = Step::new(key, Kind::Fold, Title::Close, recipe);
    for (line, fold) in lines_of(card, &opened.hinges) {
        step.figure(Label::Line(line), Value::Fold(fold));
    }
    step.does = vec![
        Instruction::StartEach,
        Instruction::CloseSlowly,
        Instruction::PressShut,
    ];
    step
}
