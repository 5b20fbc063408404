//! How the panels of a list may fold, as far as their widths and the list's words
//! tell.

use super::piece::Panels;
use super::sense::Way;
use super::shape::{FoldForm, MOST_SHORTER, Shape};
use crate::length::Length;
use crate::recipe::Fold;

/// The widest gap between the leaves of a gate: 1/4 in (common practice).
pub(super) const WIDEST_GAP: Length = Length::sixty_fourths(16);

/// Why a way of folding may be meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Suggests {
    /// There is no score.
    NoScore,
    /// The card opens like a book.
    Book,
    /// The wide panel stays as the back, and the narrow one closes over it.
    WideBack,
    /// Both leaves together are as wide as the middle.
    LeavesMeet,
    /// One panel is shorter by an allowance, and lies inside.
    Allowance,
    /// Panels of any width can be folded to and fro.
    ToAndFro,
    /// The largest panel stays as the back, and half of it shows beside the front.
    BackOver,
    /// The largest panel stays as the back, and the end panel lies between.
    FrontIn,
    /// The widest panel is in the middle.
    WideMiddle,
    /// The last panel is the narrowest, and lies inside.
    NarrowLast,
    /// The last panel goes behind the middle.
    LastBehind,
    /// The first panel is the narrowest, and lies inside.
    NarrowFirst,
    /// The narrow first panel lies on the front.
    NarrowFront,
    /// Three equal panels, as in a Z-fold (common practice).
    EqualThree,
    /// As a letter is folded.
    Letter,
    /// Two panels are shorter by an allowance, and lie inside.
    TwoAllowances,
    /// Each panel is a little shorter than the one before.
    Shrinking,
    /// Equal panels, as in an accordion (common practice).
    EqualFour,
    /// Equal panels, of which two lie inside.
    EqualInner,
    /// An odd number of panels: the last one turns its inside to the back.
    OddLast,
    /// An odd number of panels: the first one turns its inside to the front.
    OddFirst,
    /// Panels in a row.
    Row,
    /// The list says how its scores fold.
    Told,
}

/// A way of folding, and why it is proposed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Likely {
    pub(super) shape: Shape,
    pub(super) why: Suggests,
}

/// The ways the panels may fold, the likeliest first; one where nothing is left
/// to a guess.
pub(super) fn foldings(panels: &Panels, way: Option<Way>, tent: bool) -> Vec<Likely> {
    let shaped = |(form, folds, rests, why): Guess| Likely {
        shape: Shape {
            length: panels.length,
            height: panels.height,
            widths: panels.widths.clone(),
            folds,
            form,
            rests,
            // Without a fold nothing runs across.
            tent: panels.is_down || tent && !panels.folds.is_empty(),
        },
        why,
    };
    let mut all = guesses(&panels.widths);
    // What the list tells of its folds outweighs what the widths suggest.
    all.retain(|(_, folds, ..)| {
        let mut both = folds.iter().zip(&panels.folds);
        both.all(|(fold, told)| told.is_none_or(|told| told == *fold))
    });
    let named = |(form, ..): &Guess| way.is_some() && form.way() == way;
    if all.iter().any(named) {
        all.retain(named);
    }
    if all.is_empty() {
        all.push(told(panels));
    }
    // Where every fold is told there is nothing to ask.
    let count = if panels.folds.iter().all(Option::is_some) {
        1
    } else {
        MOST_ASKED
    };
    all.into_iter().take(count).map(shaped).collect()
}

/// The most ways of folding to choose from. Our own bound.
const MOST_ASKED: usize = 3;

/// A form, its folds, the panel that rests, and why.
type Guess = (FoldForm, Vec<Fold>, usize, Suggests);

use Fold::{Mountain as M, Valley as V};

fn guesses(widths: &[Length]) -> Vec<Guess> {
    match *widths {
        [] | [_] => vec![(FoldForm::Flat, vec![], 0, Suggests::NoScore)],
        [first, last] => two(first, last),
        [first, middle, last] => three(first, middle, last),
        _ => more(widths),
    }
}

fn two(first: Length, last: Length) -> Vec<Guess> {
    let book = (FoldForm::Book, vec![V], 1, Suggests::Book);
    if first - last <= MOST_SHORTER {
        return vec![book];
    }
    vec![(FoldForm::Flap, vec![V], 0, Suggests::WideBack), book]
}

fn three(first: Length, middle: Length, last: Length) -> Vec<Guess> {
    let gap = middle - first - last;
    let meets = !gap.is_negative() && gap <= WIDEST_GAP;
    let shorter = |inner: Length, other: Length| {
        inner < middle && middle - inner <= MOST_SHORTER && other >= middle
    };
    let gate = |why| (FoldForm::Gate { gap }, vec![V, V], 1, why);
    let zigzag = |why| (FoldForm::Zigzag, vec![V, M], 1, why);
    let last_in = |why| (FoldForm::LastIn, vec![V, V], 1, why);
    let first_in = |why| (FoldForm::FirstIn, vec![V, V], 1, why);
    if meets && first == last {
        return vec![gate(Suggests::LeavesMeet)];
    }
    if shorter(last, first) {
        return vec![last_in(Suggests::Allowance)];
    }
    if shorter(first, last) {
        return vec![first_in(Suggests::Allowance)];
    }
    if meets {
        return vec![gate(Suggests::LeavesMeet), zigzag(Suggests::ToAndFro)];
    }
    let wide = |panel: Length, other: Length| panel - other > MOST_SHORTER;
    if wide(last, middle) && first <= middle {
        return vec![
            (FoldForm::BackOver, vec![M, V], 2, Suggests::BackOver),
            (FoldForm::FrontIn, vec![V, V], 2, Suggests::FrontIn),
        ];
    }
    if wide(first, middle) && last <= middle {
        return vec![
            (FoldForm::BackOverFirst, vec![V, M], 0, Suggests::BackOver),
            (FoldForm::FrontInFirst, vec![V, V], 0, Suggests::FrontIn),
        ];
    }
    if wide(middle, first) && wide(middle, last) {
        let why = Suggests::WideMiddle;
        let leaves = if gap.is_negative() {
            (FoldForm::Leaves, vec![V, V], 1, why)
        } else {
            gate(why)
        };
        return vec![leaves, zigzag(Suggests::ToAndFro)];
    }
    if wide(middle, last) {
        return vec![last_in(Suggests::NarrowLast), zigzag(Suggests::LastBehind)];
    }
    if wide(middle, first) {
        return vec![
            first_in(Suggests::NarrowFirst),
            (FoldForm::BackOver, vec![M, V], 2, Suggests::NarrowFront),
        ];
    }
    if wide(first, last) || wide(last, first) {
        return vec![
            zigzag(Suggests::ToAndFro),
            (FoldForm::ZigzagBack, vec![M, V], 2, Suggests::ToAndFro),
        ];
    }
    vec![zigzag(Suggests::EqualThree), last_in(Suggests::Letter)]
}

/// Four panels or more.
fn more(widths: &[Length]) -> Vec<Guess> {
    let count = widths.len();
    let alternating = |first: Fold| {
        let flipped = first.flipped();
        let folds = [first, flipped].into_iter().cycle();
        folds.take(count - 1).collect::<Vec<_>>()
    };
    let is_odd = count % 2 == 1;
    let equal = widths
        .windows(2)
        .all(|pair| matches!(pair, [a, b] if a == b));
    let zigzag = |why| {
        let rests = if is_odd { count - 2 } else { count - 1 };
        (FoldForm::Zigzag, alternating(V), rests, why)
    };
    let double = |why| (FoldForm::DoubleParallel, vec![V, V, M], 1, why);
    let roll = |why| (FoldForm::Roll, vec![V; count - 1], 1, why);
    let shorter = |long: Length, short: Length| long > short && long - short <= MOST_SHORTER;
    let rolled = widths
        .windows(2)
        .skip(1)
        .all(|pair| matches!(pair, [a, b] if shorter(*a, *b)));
    match *widths {
        [first, second, third, last]
            if third == last && first >= second && shorter(second, third) =>
        {
            vec![double(Suggests::TwoAllowances)]
        }
        [first, second, ..] if first >= second && rolled => {
            vec![roll(Suggests::Shrinking)]
        }
        [_, _, _, _] if equal => vec![zigzag(Suggests::EqualFour), double(Suggests::EqualInner)],
        _ if is_odd => vec![
            zigzag(Suggests::OddLast),
            (
                FoldForm::ZigzagBack,
                alternating(M),
                count - 1,
                Suggests::OddFirst,
            ),
        ],
        _ => vec![zigzag(Suggests::Row)],
    }
}

/// The folds the list tells, the others to and fro.
fn told(panels: &Panels) -> Guess {
    let folds = panels.folds.iter().enumerate().map(|(index, told)| {
        told.unwrap_or(match index % 2 {
            0 => V,
            _ => M,
        })
    });
    let rests = match panels.widths.len() {
        count @ 4.. if count % 2 == 1 => count - 2,
        count @ 4.. => count - 1,
        count => count.saturating_sub(1).min(1),
    };
    let why = Suggests::Told;
    (FoldForm::Told, folds.collect(), rests, why)
}
