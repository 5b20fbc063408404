//! What is told beside each line: what was read, what was not, what is wrong.

use std::ops::Range;

use super::line::{Left, Spot};
use super::sense::Aside;
use crate::length::{Length, Notation};
use crate::plane::Size;
use crate::problem::{Place, Problem, Weight};

/// A part of a line that was understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Understood {
    /// Where it stands, in bytes from the start of its line.
    pub at: Range<usize>,
    /// What it was read as.
    pub words: String,
}

/// A part of a line that was not read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unread {
    /// Where it stands, in bytes from the start of its line.
    pub at: Range<usize>,
    /// Why, in a sentence.
    pub why: String,
    /// Whether it has a number in it, and so may be a measure that was missed.
    pub is_number: bool,
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
    /// place of a piece and which way round it lies, each in a sentence.
    pub remarks: Vec<String>,
    /// What contradicts itself or another line.
    pub problems: Vec<Problem>,
}

/// What contradicts in a list.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Trouble {
    /// A score beyond the edge of its piece.
    Beyond { at: Length, length: Length },
    /// The same score twice.
    Twice(Length),
    /// Panels that do not make up their piece.
    Sum { sum: Length, length: Length },
    /// A score without a piece.
    NoPiece,
    /// A closed card that is not as the list says.
    Finished { told: Size, is: Size },
    /// An envelope of no known size.
    NoEnvelope(Size),
    /// An envelope the card does not go into with room round it.
    Tight(&'static str),
    /// A layer larger than every panel.
    TooLarge(Size),
    /// A layer that does not fit where the list says it goes.
    NotThere(Size, Spot),
    /// Round pieces and none that can be folded.
    NoBase,
    /// A border that no layer has.
    Border { told: Length, is: Length },
    /// A second piece with scores.
    SecondFolded,
    /// A base larger than the sheet it is cut from.
    Sheet(Size),
    /// More pieces than can be worked with.
    TooMany,
}

#[derive(Clone)]
enum Words {
    Plain(String),
    Length(&'static str, Length),
    Size(&'static str, Size),
}

/// Everything told so far. Lengths are put into words at the end, when it is
/// known how the list writes them.
#[derive(Clone, Default)]
pub(super) struct Told {
    understood: Vec<(usize, Range<usize>, Words)>,
    unread: Vec<(usize, Unread)>,
    troubles: Vec<(usize, Trouble)>,
    remarks: Vec<(usize, String)>,
    /// Every length that was read.
    pub(super) lengths: Vec<Length>,
}

impl Told {
    pub(super) fn understand(&mut self, line: usize, at: Range<usize>, words: String) {
        self.understood.push((line, at, Words::Plain(words)));
    }

    pub(super) fn length(
        &mut self,
        line: usize,
        at: Range<usize>,
        what: &'static str,
        length: Length,
    ) {
        self.lengths.push(length);
        self.understood
            .push((line, at, Words::Length(what, length)));
    }

    pub(super) fn size(&mut self, line: usize, at: Range<usize>, what: &'static str, size: Size) {
        self.lengths.extend([size.width, size.height]);
        self.understood.push((line, at, Words::Size(what, size)));
    }

    pub(super) fn unread(&mut self, line: usize, at: Range<usize>, why: &str) {
        let unread = Unread {
            at,
            why: why.to_owned(),
            is_number: true,
        };
        self.unread.push((line, unread));
    }

    /// What the lines themselves could not make anything of.
    pub(super) fn left(&mut self, line: usize, left: Vec<(Range<usize>, Left)>) {
        for (at, why) in left {
            let is_words = why == Left::Words;
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
                why: why.words(),
                is_number: !is_words,
            };
            self.unread.push((line, unread));
        }
    }

    /// How something was read that the line leaves open, in a sentence.
    pub(super) fn remark(&mut self, line: usize, words: String) {
        let remark = (line, words);
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
    pub(super) fn lines(self, text: &str, notation: Notation) -> Vec<ReadLine> {
        let mut lines: Vec<ReadLine> = text
            .lines()
            .map(|text| ReadLine {
                text: text.to_owned(),
                understood: Vec::new(),
                unread: Vec::new(),
                remarks: Vec::new(),
                problems: Vec::new(),
            })
            .collect();
        for (line, at, words) in self.understood {
            let words = match words {
                Words::Plain(words) => words,
                Words::Length(what, length) => format!("{what} {}", notation.with_unit(length)),
                Words::Size(what, size) => {
                    format!("{what} {}", notation.size(size.width, size.height))
                }
            };
            if let Some(line) = lines.get_mut(line) {
                line.understood.push(Understood { at, words });
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
                line.problems.push(trouble.problem(notation));
            }
        }
        for line in &mut lines {
            line.understood.sort_by_key(|it| it.at.start);
            line.unread.sort_by_key(|it| it.at.start);
        }
        lines
    }
}

impl Left {
    fn words(&self) -> String {
        match self {
            Self::Aside(aside) => match aside {
                Aside::Price => "Taken for a price, not a measure.",
                Aside::Numbering => "Taken for a number in a sequence, not a measure.",
                Aside::Count => "Taken for how many, not a measure.",
                Aside::Weight => "Taken for a weight, not a measure.",
                Aside::Date => "Taken for a date, not a measure.",
                Aside::Time => "Taken for a time, not a measure.",
                Aside::Other => "This is not measured in inches or millimetres.",
            }
            .to_owned(),
            Self::Alone => "Nothing says what this number measures.".to_owned(),
            Self::Three => {
                "A size has two numbers. Write how many in front, such as 2 pcs 4 × 5.".to_owned()
            }
            Self::Odd(why) => why.clone(),
            Self::Words => "These words give no measure.".to_owned(),
        }
    }
}

impl Trouble {
    fn problem(self, notation: Notation) -> Problem {
        let length = |length| notation.with_unit(length);
        let size = |size: Size| notation.size(size.width, size.height);
        let (weight, what, why, remedy) = match self {
            Self::Beyond { at, length: of } => (
                Weight::Stop,
                format!("The score at {} is not on the piece.", length(at)),
                format!("The piece ends at {}.", length(of)),
                "Check the score and the size of the piece.",
            ),
            Self::Twice(at) => (
                Weight::Note,
                format!("The score at {} is told twice.", length(at)),
                "It is made once.".to_owned(),
                "Take one away if another was meant.",
            ),
            Self::Sum { sum, length: of } => (
                Weight::Stop,
                format!("The panels add up to {}.", length(sum)),
                format!("The piece is {} long.", length(of)),
                "Check the widths and the size of the piece.",
            ),
            Self::NoPiece => (
                Weight::Stop,
                "This score has no piece.".to_owned(),
                "No size stands in this line or before it.".to_owned(),
                "Give the size of the piece first.",
            ),
            Self::Finished { told, is } => (
                Weight::Warning,
                format!("The closed card comes to {}.", size(is)),
                format!("The list says {}.", size(told)),
                "Check the base and its scores.",
            ),
            Self::NoEnvelope(of) => (
                Weight::Note,
                format!("No usual envelope measures {}.", size(of)),
                "The recipe keeps envelopes by name.".to_owned(),
                "Choose one in the recipe.",
            ),
            Self::Tight(name) => (
                Weight::Warning,
                format!("The closed card has no room in envelope {name}."),
                "Every rule for the room round a card asks for more.".to_owned(),
                "Name a larger envelope, or check the base.",
            ),
            Self::TooLarge(of) => (
                Weight::Warning,
                format!("{} is larger than every panel.", size(of)),
                "It would lie across a fold or hang over.".to_owned(),
                "It is left out; check its size, or add it in the recipe.",
            ),
            Self::NotThere(of, spot) => (
                Weight::Warning,
                format!("{} does not fit where the list says.", size(of)),
                format!("The list says {}.", spot.words()),
                "Check its size, or move it in the recipe.",
            ),
            Self::NoBase => (
                Weight::Warning,
                "This round piece has no base to lie on.".to_owned(),
                "The list has no piece that can be folded.".to_owned(),
                "Give the size of the base in a line of its own.",
            ),
            Self::Border { told, is } => (
                Weight::Warning,
                format!("The border comes to {}.", length(is)),
                format!("The list says {}.", length(told)),
                "Check the mat and what it lies on.",
            ),
            Self::SecondFolded => (
                Weight::Warning,
                "This is a second piece with scores.".to_owned(),
                "A list makes one folded piece with flat ones on it.".to_owned(),
                "It is left out; add it in the recipe.",
            ),
            Self::Sheet(of) => (
                Weight::Warning,
                format!("The base is larger than a sheet of {}.", size(of)),
                "It cannot be cut from it either way round.".to_owned(),
                "Check the sheet and the base.",
            ),
            Self::TooMany => (
                Weight::Warning,
                "There are more pieces than one card has.".to_owned(),
                "The rest is left out.".to_owned(),
                "Put the pieces of one card in one list.",
            ),
        };
        Problem {
            place: Place::Recipe,
            weight,
            what,
            why,
            remedy: remedy.to_owned(),
        }
    }
}
