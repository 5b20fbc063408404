//! What one line says, before it is known in which unit.

use std::ops::Range;

use super::sense::{Form, Kind, Lie, Way};
use super::token::{Placed, Token};
use super::told::Missed;
use super::walk::Walk;
use crate::length::Figure;
use crate::paper::{Envelope, SheetSize};
use crate::problem::Spot;
use crate::recipe::Fold;

/// A number and where it stands in its line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spotted {
    pub(super) figure: Figure,
    pub(super) from: usize,
    pub(super) to: usize,
}

impl Spotted {
    pub(super) fn at(self) -> Range<usize> {
        self.from..self.to
    }
}

/// A size as it is written, across first.
pub(super) type Pair = [Spotted; 2];

/// Which side of a piece scores are measured along.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Along {
    Long,
    Short,
}

/// A piece as a line tells it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Piece {
    pub(super) kind: Option<Kind>,
    pub(super) label: Option<String>,
    pub(super) size: Pair,
    pub(super) count: u32,
    pub(super) spot: Option<Spot>,
    pub(super) form: Option<Form>,
    pub(super) lie: Option<Lie>,
    /// Whether words say which of its numbers is the width.
    pub(super) is_fixed: bool,
}

/// Something a line says.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Said {
    /// A piece of a size.
    Piece(Piece),
    /// A score so far from the edge.
    Score(Spotted, Option<Fold>),
    /// A score every so far.
    Every(Spotted),
    /// A score in the middle.
    Half(Range<usize>),
    /// The scores of the line are measured from the other end.
    FromEnd,
    /// Which side scores are measured along.
    Along(Along),
    /// A panel of a width.
    Panel(Spotted),
    /// A border.
    Border(Spotted),
    /// The closed card.
    Finished(Pair),
    /// The envelope, by name or by size.
    Envelope(&'static Envelope, Range<usize>),
    /// The envelope by its size.
    EnvelopeSize(Pair),
    /// What the base is cut from.
    Sheet(&'static SheetSize, Range<usize>),
    /// The same by its size.
    SheetSize(Pair),
    /// The piece that scores belong to.
    Of(Kind),
    /// The card stands like a tent.
    Tent,
    /// How the base folds, by name.
    Way(Way, Range<usize>),
    /// Where the pieces of the lines to come go.
    Heading(Spot),
}

/// What one line says, and what was left.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Line {
    pub(super) said: Vec<Said>,
    /// How many pieces, where a number says so.
    pub(super) counts: Vec<(Range<usize>, u32)>,
    pub(super) left: Vec<(Range<usize>, Missed)>,
}

/// Reads a line.
pub(super) fn line(placed: &[Placed]) -> Line {
    let mut walk = Walk::along(placed);
    while let Some(here) = placed.get(walk.index) {
        match &here.token {
            Token::Number(figure) => walk.number(*figure, here),
            Token::Aside(aside, figure) => walk.aside(*aside, *figure, here),
            Token::Odd(why) => walk.left(here.at.clone(), Missed::Odd(why.clone())),
            Token::Word(word, _) => walk.word(word, here),
            Token::Mark(mark) => walk.mark(*mark, here),
        }
        walk.index += 1;
    }
    walk.end()
}
