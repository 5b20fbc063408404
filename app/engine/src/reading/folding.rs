//! How the panels of a list may fold, as far as their widths and the list's words
//! tell.

use super::piece::Panels;
use super::sense::Way;
use super::shape::{Form, MOST_SHORTER, Shape};
use crate::length::Length;
use crate::recipe::Fold;

/// The widest gap between the leaves of a gate: 1/4 in (common practice).
pub(super) const WIDEST_GAP: Length = Length::sixty_fourths(16);

/// A way of folding, and why it is proposed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Likely {
    pub(super) shape: Shape,
    pub(super) why: &'static str,
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
type Guess = (Form, Vec<Fold>, usize, &'static str);

use Fold::{Mountain as M, Valley as V};

fn guesses(widths: &[Length]) -> Vec<Guess> {
    match *widths {
        [] | [_] => vec![(Form::Flat, vec![], 0, "There is no score.")],
        [first, last] => two(first, last),
        [first, middle, last] => three(first, middle, last),
        _ => more(widths),
    }
}

fn two(first: Length, last: Length) -> Vec<Guess> {
    let book = (
        Form::Book,
        vec![V],
        1,
        "The card opens like a book, its fold on the left.",
    );
    if first - last <= MOST_SHORTER {
        return vec![book];
    }
    vec![
        (
            Form::Flap,
            vec![V],
            0,
            "The wide panel stays as the back, the narrow one closes over it.",
        ),
        book,
    ]
}

fn three(first: Length, middle: Length, last: Length) -> Vec<Guess> {
    let gap = middle - first - last;
    let meets = !gap.is_negative() && gap <= WIDEST_GAP;
    let shorter = |inner: Length, other: Length| {
        inner < middle && middle - inner <= MOST_SHORTER && other >= middle
    };
    let gate = |why| (Form::Gate { gap }, vec![V, V], 1, why);
    let zigzag = |why| (Form::Zigzag, vec![V, M], 1, why);
    let last_in = |why| (Form::LastIn, vec![V, V], 1, why);
    let first_in = |why| (Form::FirstIn, vec![V, V], 1, why);
    if meets && first == last {
        return vec![gate("Both leaves together are as wide as the middle.")];
    }
    if shorter(last, first) {
        return vec![last_in(ALLOWANCE)];
    }
    if shorter(first, last) {
        return vec![first_in(ALLOWANCE)];
    }
    if meets {
        return vec![
            gate("Both leaves together are as wide as the middle."),
            zigzag(TO_AND_FRO),
        ];
    }
    let wide = |panel: Length, other: Length| panel - other > MOST_SHORTER;
    if wide(last, middle) && first <= middle {
        return vec![
            (Form::BackOver, vec![M, V], 2, BACK_OVER),
            (Form::FrontIn, vec![V, V], 2, FRONT_IN),
        ];
    }
    if wide(first, middle) && last <= middle {
        return vec![
            (Form::BackOverFirst, vec![V, M], 0, BACK_OVER),
            (Form::FrontInFirst, vec![V, V], 0, FRONT_IN),
        ];
    }
    if wide(middle, first) && wide(middle, last) {
        let why = "The widest panel is in the middle.";
        let leaves = if gap.is_negative() {
            (Form::Leaves, vec![V, V], 1, why)
        } else {
            gate(why)
        };
        return vec![leaves, zigzag(TO_AND_FRO)];
    }
    if wide(middle, last) {
        return vec![
            last_in("The last panel is the narrowest and lies inside."),
            zigzag("The last panel goes behind the middle."),
        ];
    }
    if wide(middle, first) {
        return vec![
            first_in("The first panel is the narrowest and lies inside."),
            (
                Form::BackOver,
                vec![M, V],
                2,
                "The narrow first panel lies on the front.",
            ),
        ];
    }
    if wide(first, last) || wide(last, first) {
        return vec![
            zigzag(TO_AND_FRO),
            (Form::ZigzagBack, vec![M, V], 2, TO_AND_FRO),
        ];
    }
    vec![
        zigzag("The panels are equal, as in a Z-fold (common practice)."),
        last_in("As a letter is folded; the panel inside then has to be a little shorter."),
    ]
}

const ALLOWANCE: &str = "One panel is shorter by an allowance, so it lies inside.";
const TO_AND_FRO: &str = "Panels of any width can be folded to and fro.";
const BACK_OVER: &str =
    "The largest panel stays as the back, and half of it shows beside the front.";
const FRONT_IN: &str = "The largest panel stays as the back, and the end panel lies between.";

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
        (Form::Zigzag, alternating(V), rests, why)
    };
    let double = |why| (Form::DoubleParallel, vec![V, V, M], 1, why);
    let roll = |why| (Form::Roll, vec![V; count - 1], 1, why);
    let shorter = |long: Length, short: Length| long > short && long - short <= MOST_SHORTER;
    let rolled = widths
        .windows(2)
        .skip(1)
        .all(|pair| matches!(pair, [a, b] if shorter(*a, *b)));
    match *widths {
        [first, second, third, last]
            if third == last && first >= second && shorter(second, third) =>
        {
            vec![double(
                "Two panels are shorter by an allowance, so they lie inside.",
            )]
        }
        [first, second, ..] if first >= second && rolled => {
            vec![roll("Each panel is a little shorter than the one before.")]
        }
        [_, _, _, _] if equal => vec![
            zigzag("The panels are equal, as in an accordion (common practice)."),
            double("Equal panels; the two inside then have to be a little shorter."),
        ],
        _ if is_odd => vec![
            zigzag("An odd number of panels: the last one turns its inside to the back."),
            (
                Form::ZigzagBack,
                alternating(M),
                count - 1,
                "An odd number of panels: the first one turns its inside to the front.",
            ),
        ],
        _ => vec![zigzag("Panels in a row, folded to and fro.")],
    }
}

/// The folds the list tells, the others to and fro.
fn told(panels: &Panels) -> Guess {
    let folds = panels.folds.iter().enumerate().map(|(place, told)| {
        told.unwrap_or(match place % 2 {
            0 => V,
            _ => M,
        })
    });
    let rests = match panels.widths.len() {
        count @ 4.. if count % 2 == 1 => count - 2,
        count @ 4.. => count - 1,
        count => count.saturating_sub(1).min(1),
    };
    let why = "The list says how its scores fold.";
    (Form::Told, folds.collect(), rests, why)
}
