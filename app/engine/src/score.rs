//! The score chart: which side up, what at the stop, and the marks in order.
//!
//! A score pressed from above leaves its bump underneath. The bump belongs
//! inside the fold (printers' folding guides), so a mountain is scored with its
//! own side up and a valley from the other. With both kinds on a strip the
//! sheet then has to be turned over; scoring everything with one side up saves
//! that, at the price of bumps outside some folds.

use crate::laid::Piece;
use crate::length::{Length, Mark, Step, nearest};
use crate::paper::Stock;
use crate::plane::Turn;
use crate::recipe::{Fold, Lay, Scoring, Side};
use crate::sorted::InOrder as _;

/// The end of the strip that lies against the stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AtStop {
    /// The edge of the first panel.
    First,
    /// The edge of the last panel: the strip turned round.
    Last,
}

/// One score to make.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ScoreMark {
    /// The score, by its index along the strip.
    pub score: usize,
    /// How far from the stop, exactly.
    pub exact: Length,
    /// The nearest mark of the maker's ruler or board, and what is left over.
    pub mark: Mark,
    /// How it folds, seen from the side that is up.
    pub fold: Fold,
    /// Whether its bump comes to lie inside the fold.
    pub bump_inside: bool,
}

/// Scores made without moving the strip otherwise than along the board.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pass {
    /// The side that is up.
    pub up: Side,
    /// What lies against the stop.
    pub at_stop: AtStop,
    /// Where the print that is up has its head as the strip lies on the board,
    /// the stop at the left; `None` where it has no direction.
    pub head: Option<Turn>,
    /// The scores from the stop outwards.
    pub marks: Vec<ScoreMark>,
}

/// All passes in order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chart {
    /// The passes.
    pub passes: Vec<Pass>,
    /// How often the strip is turned over between them.
    pub turns_over: usize,
    /// How often it is turned round between them.
    pub turns_round: usize,
}

/// The chart for a strip on a board that reaches `board` from its stop.
///
/// A strip is scored from its first panel's edge as far as the board reaches,
/// and the rest from the other end; what no end reaches is measured past the
/// board by hand and stays with the first panel at the stop.
pub fn chart(
    base: &Piece,
    scoring: Scoring,
    step: Step,
    board: Length,
    print: Option<(&Stock, Lay)>,
) -> Chart {
    let up_for = |fold| match (scoring, fold) {
        (Scoring::OnePass(side), _) => side,
        (Scoring::Crispest, Fold::Mountain) => Side::A,
        (Scoring::Crispest, Fold::Valley) => Side::B,
    };
    let mut passes: Vec<Pass> = Vec::new();
    for (score, crease) in base.creases.iter().enumerate() {
        let from_first = crease.from.x;
        let from_last = base.size.width - from_first;
        let (at_stop, exact) = if from_first <= board || from_last > board {
            (AtStop::First, from_first)
        } else {
            (AtStop::Last, from_last)
        };
        let up = up_for(crease.fold);
        let mark = ScoreMark {
            score,
            exact,
            mark: nearest(exact, step),
            fold: match up {
                Side::A => crease.fold,
                Side::B => crease.fold.flipped(),
            },
            bump_inside: (crease.fold == Fold::Mountain) == (up == Side::A),
        };
        match passes
            .iter_mut()
            .find(|pass| pass.up == up && pass.at_stop == at_stop)
        {
            Some(pass) => pass.marks.push(mark),
            None => passes.push(Pass {
                up,
                at_stop,
                head: print.and_then(|(stock, lay)| head(stock, lay, up, at_stop)),
                marks: vec![mark],
            }),
        }
    }
    for pass in &mut passes {
        pass.marks.put_in_order_by_key(|mark| mark.exact);
    }
    let passes = fewest_turns(passes);
    let turned = |between: fn(&Pass, &Pass) -> bool| {
        passes
            .windows(2)
            .filter(|two| between(&two[0], &two[1]))
            .count()
    };
    Chart {
        turns_over: turned(|a, b| a.up != b.up),
        turns_round: turned(|a, b| a.at_stop != b.at_stop),
        passes,
    }
}

/// One side wholly before the other; the second side begins with the end that
/// the first one left at the stop.
fn fewest_turns(passes: Vec<Pass>) -> Vec<Pass> {
    let (mut inside, mut outside): (Vec<_>, Vec<_>) =
        passes.into_iter().partition(|pass| pass.up == Side::A);
    inside.put_in_order_by_key(|pass| pass.at_stop);
    let left_at_stop = inside.last().map_or(AtStop::First, |pass| pass.at_stop);
    outside.put_in_order_by_key(|pass| pass.at_stop != left_at_stop);
    inside.append(&mut outside);
    inside
}

fn head(stock: &Stock, lay: Lay, up: Side, at_stop: AtStop) -> Option<Turn> {
    let head = lay.head_on_board(stock, up)?;
    Some(match at_stop {
        AtStop::First => head,
        AtStop::Last => head.then(Turn::Half),
    })
}
