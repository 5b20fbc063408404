//! What is told beside each line: what was read, what was not, what is wrong.

use std::ops::Range;

use super::MOST_LINES;
use super::sense::{Aside, Way};
use crate::length::{Length, Odd, Written};
use crate::paper::{Envelope, SheetSize};
use crate::plane::Size;
use crate::problem::{Finding, Place, Problem, Spot, Trouble};
use crate::recipe::{Fold, LayerId, PanelId, Seat};
use crate::sorted::InOrder as _;

/// A part of a line that was understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Understood {
    /// Where it stands, in bytes from the start of its line.
    pub at: Range<usize>,
    /// What it was read as.
    pub is: Meaning,
}

/// What a part of a line was read as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meaning {
    /// The name of the recipe.
    Name,
    /// So many pieces.
    Pieces(u32),
    /// A way of folding.
    Way(Way),
    /// A score in the middle.
    Half,
    /// An envelope, by name.
    Envelope(&'static Envelope),
    /// The sheet the base is cut from, by name.
    CutFrom(&'static SheetSize),
    /// A length of something.
    Length(OfLength, Length),
    /// The size of something.
    Size(OfSize, Size),
}

/// What a length of a list belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OfLength {
    /// The diameter of a circle.
    Diameter,
    /// A border.
    Border,
    /// A score so far from the edge, and how it folds where the list says.
    Score(Option<Fold>),
    /// Scores every so far.
    Every,
    /// The width of a panel.
    Panel,
}

/// What a size of a list belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OfSize {
    /// A piece.
    Piece,
    /// A piece with a round outline.
    Round,
    /// An oval.
    Oval,
    /// A square.
    Square,
    /// The closed card.
    Closed,
    /// An envelope.
    Envelope,
    /// The sheet the base is cut from.
    Sheet,
}

/// How a line was read where it leaves that open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remark {
    /// Its numbers are in the unit that was stated before it.
    Carried(Written),
    /// Its numbers are in this unit, since they would be unlikely in the one
    /// stated before it.
    Likelier {
        /// The unit they are in.
        unit: Written,
        /// The one stated before.
        than: Written,
        /// Why they are not in that.
        why: Unlikely,
    },
    /// What follows goes there.
    Heading(Spot),
    /// Where a piece lies.
    Seated {
        /// The layer it is in the folding that is taken.
        layer: LayerId,
        /// What it lies on there.
        on: Seat,
        /// Which way round.
        lies: WayRound,
        /// Why there.
        why: SeatedFor,
    },
}

/// Why numbers are not likely in a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unlikely {
    /// They would be too large.
    Large,
    /// They would be too small.
    Small,
}

/// Which way round a piece lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WayRound {
    /// As its size is written.
    AsWritten,
    /// As other words of the list say.
    AsSaid,
    /// Turned a quarter.
    Turned,
}

/// Why a piece lies where it lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeatedFor {
    /// It leaves an even border.
    Border(Length),
    /// It is as large as what it lies on.
    Whole,
    /// It is as wide as the closed card.
    Width,
    /// It is as high as the closed card.
    Height,
    /// It lies in the middle of the closed card, glued to this panel only.
    Across(PanelId),
    /// It fits no other way round.
    OnlySo,
    /// It fits.
    Fits,
}

/// A part of a line that was not read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unread {
    /// Where it stands, in bytes from the start of its line.
    pub at: Range<usize>,
    /// Why.
    pub why: Missed,
    /// Whether it has a number in it, and so may be a measure that was missed.
    pub is_number: bool,
}

/// Why something was not read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Missed {
    /// It is a number of another kind.
    Aside(Aside),
    /// Nothing says what it measures.
    Alone,
    /// A size of three numbers.
    Three,
    /// It is no length.
    Odd(Odd),
    /// Words that tell no measure.
    Words,
    /// It measures nothing, or less.
    Nothing,
    /// It is longer than a length may be.
    TooLong,
    /// The rest of a line that is too long to be looked at whole.
    Rest,
}

/// A line of the list, and what became of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadLine {
    /// The line as it is typed.
    pub text: String,
    /// What was understood, from left to right.
    pub understood: Vec<Understood>,
    /// What was not, from left to right.
    pub unread: Vec<Unread>,
    /// How it was read where the line itself leaves that open: the unit, the
    /// place of a piece and which way round it lies.
    pub remarks: Vec<Remark>,
    /// What contradicts itself or another line.
    pub problems: Vec<Problem>,
}

/// Everything told so far.
#[derive(Clone, Default)]
pub(super) struct Told {
    understood: Vec<(usize, Understood)>,
    unread: Vec<(usize, Unread)>,
    troubles: Vec<(usize, Trouble)>,
    remarks: Vec<(usize, Remark)>,
    /// Every length that was read.
    pub(super) lengths: Vec<Length>,
}

impl Told {
    pub(super) fn understand(&mut self, line: usize, at: Range<usize>, is: Meaning) {
        match is {
            Meaning::Length(_, length) => self.lengths.push(length),
            Meaning::Size(_, size) => self.lengths.extend([size.width, size.height]),
            _ => {}
        }
        self.understood.push((line, Understood { at, is }));
    }

    pub(super) fn unread(&mut self, line: usize, at: Range<usize>, why: Missed) {
        let unread = Unread {
            at,
            why,
            is_number: true,
        };
        self.unread.push((line, unread));
    }

    /// What the lines themselves could not make anything of.
    pub(super) fn left(&mut self, line: usize, left: Vec<(Range<usize>, Missed)>) {
        for (at, why) in left {
            let is_words = why == Missed::Words;
            // Words beside each other are told as one.
            if is_words
                && let Some((of, last)) = self.unread.last_mut()
                && *of == line
                && !last.is_number
                && last.at.end + 1 >= at.start
            {
                last.at.end = at.end;
                continue;
            }
            let unread = Unread {
                at,
                why,
                is_number: !is_words,
            };
            self.unread.push((line, unread));
        }
    }

    /// How something was read that the line leaves open.
    pub(super) fn remark(&mut self, line: usize, remark: Remark) {
        let remark = (line, remark);
        if !self.remarks.contains(&remark) {
            self.remarks.push(remark);
        }
    }

    pub(super) fn trouble(&mut self, line: usize, trouble: Trouble) {
        let known = (line, trouble);
        if !self.troubles.contains(&known) {
            self.troubles.push(known);
        }
    }

    /// The lines with all that is told beside them.
    pub(super) fn lines(self, text: &str) -> Vec<ReadLine> {
        let mut lines: Vec<ReadLine> = text
            .lines()
            .take(MOST_LINES + 1)
            .map(|text| ReadLine {
                text: text.to_owned(),
                understood: Vec::new(),
                unread: Vec::new(),
                remarks: Vec::new(),
                problems: Vec::new(),
            })
            .collect();
        for (line, understood) in self.understood {
            if let Some(line) = lines.get_mut(line) {
                line.understood.push(understood);
            }
        }
        for (line, unread) in self.unread {
            if let Some(line) = lines.get_mut(line) {
                line.unread.push(unread);
            }
        }
        for (line, remark) in self.remarks {
            if let Some(line) = lines.get_mut(line) {
                line.remarks.push(remark);
            }
        }
        for (line, trouble) in self.troubles {
            if let Some(line) = lines.get_mut(line) {
                line.problems.push(trouble.problem());
            }
        }
        for line in &mut lines {
            line.understood.put_in_order_by_key(|it| it.at.start);
            line.unread.put_in_order_by_key(|it| it.at.start);
        }
        lines
    }
}

impl Trouble {
    fn problem(self) -> Problem {
        let found = Finding::List(self);
        match self {
            Self::Beyond { .. } | Self::Sum { .. } | Self::NoPiece | Self::TooLong => {
                Problem::stop(Place::Recipe, found)
            }
            Self::Twice(_) | Self::NoEnvelope(_) => Problem::note(Place::Recipe, found),
            Self::Finished { .. }
            | Self::Tight(_)
            | Self::TooLarge(_)
            | Self::NotThere(..)
            | Self::NoBase
            | Self::Border { .. }
            | Self::SecondFolded
            | Self::Sheet(_)
            | Self::TooMany => Problem::warning(Place::Recipe, found),
        }
    }
}
