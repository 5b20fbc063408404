//! What one line says, before it is known in which unit.

use std::ops::Range;

use super::sense::{Aside, Kind, Sense, Spot};
use super::token::{Placed, Token, firmer, is_label};
use crate::length::Figure;
use crate::paper::{ENVELOPES, Envelope, SHEETS, SheetSize};
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

/// A size as it is written.
pub(super) type Pair = [Spotted; 2];

/// Which side of a piece scores are measured along.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Along {
    Long,
    Short,
}

/// Something a line says.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Said {
    /// A piece of a size.
    Piece {
        kind: Option<Kind>,
        label: Option<String>,
        size: Pair,
        count: u32,
        spot: Option<Spot>,
    },
    /// A score so far from the edge.
    Score(Spotted, Option<Fold>),
    /// A score every so far.
    Every(Spotted),
    /// A score in the middle.
    Half(Range<usize>),
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
}

/// Why something was not read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Left {
    /// It is a number of another kind.
    Aside(Aside),
    /// Nothing says what it measures.
    Alone,
    /// A size of three numbers.
    Three,
    /// It is no length.
    Odd(String),
    /// Words that tell no measure.
    Words,
}

/// What one line says, and what was left.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Line {
    pub(super) said: Vec<Said>,
    /// How many pieces, where a number says so.
    pub(super) counts: Vec<(Range<usize>, u32)>,
    pub(super) left: Vec<(Range<usize>, Left)>,
}

/// What the numbers to come are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum About {
    Nothing,
    Scores,
    Panels,
    Border,
    Envelope,
    Finished,
}

/// What a word before says of the number or the piece to come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Next {
    Anything,
    /// Behind "from": the sheet.
    Sheet,
    /// Behind "on": what carries it.
    Seat,
    /// Behind "every": a distance.
    Distance,
}

struct Walk<'a> {
    placed: &'a [Placed],
    place: usize,
    about: About,
    /// A word stood between that may have changed the subject.
    astray: bool,
    next: Next,
    kind: Option<Kind>,
    label: Option<String>,
    count: Option<u32>,
    spot: Option<Spot>,
    fold: Option<Fold>,
    scores: bool,
    line: Line,
}

/// Reads a line.
pub(super) fn line(placed: &[Placed]) -> Line {
    let mut walk = Walk {
        placed,
        place: 0,
        about: About::Nothing,
        astray: false,
        next: Next::Anything,
        kind: None,
        label: None,
        count: None,
        spot: None,
        fold: None,
        scores: placed
            .iter()
            .any(|it| matches!(it.sense(), Some(Sense::Score | Sense::Folded))),
        line: Line::default(),
    };
    while let Some(here) = placed.get(walk.place) {
        match &here.token {
            Token::Number(figure) => walk.number(*figure, here.at.clone()),
            Token::Aside(aside) => walk.left(here.at.clone(), Left::Aside(*aside)),
            Token::Odd(why) => walk.left(here.at.clone(), Left::Odd(why.clone())),
            Token::Word(word, _) => walk.word(word, here),
            Token::Mark(mark) => walk.mark(*mark, here),
        }
        walk.place += 1;
    }
    walk.end()
}

impl Walk<'_> {
    fn ahead(&self, by: usize) -> Option<&Placed> {
        self.placed.get(self.place + by)
    }

    fn spotted(&self, by: usize) -> Option<Spotted> {
        let it = self.ahead(by)?;
        Some(Spotted {
            figure: it.figure()?,
            from: it.at.start,
            to: it.at.end,
        })
    }

    fn sense_ahead(&self, by: usize) -> Option<Sense> {
        self.ahead(by).and_then(Placed::sense)
    }

    fn left(&mut self, at: Range<usize>, why: Left) {
        self.line.left.push((at, why));
    }

    /// A number, and what belongs to it.
    fn number(&mut self, figure: Figure, at: Range<usize>) {
        let by = |by| self.sense_ahead(by) == Some(Sense::By);
        if by(1) && self.spotted(2).is_some() {
            if by(3) && self.spotted(4).is_some() {
                self.three();
            } else {
                self.size(0);
            }
            return;
        }
        let one = Spotted {
            figure,
            from: at.start,
            to: at.end,
        };
        let next = self.sense_ahead(1);
        // So many pieces: "2 @", "2 x mat", "2 pcs", "(2)", "2 mats".
        if let Some(count) = figure.whole().filter(|count| (1..=99).contains(count))
            && figure.unit.is_none()
        {
            let sized = self.ahead(2).is_some_and(|it| it.figure().is_some())
                && matches!(self.sense_ahead(3), Some(Sense::By));
            let marked = matches!(self.ahead(1).map(|it| &it.token), Some(Token::Mark('@')));
            let named = matches!(next, Some(Sense::Piece(_) | Sense::Pieces))
                && (self.about != About::Scores || self.astray);
            let times = next == Some(Sense::By)
                && matches!(self.ahead(2).map(|it| &it.token), Some(Token::Word(..)));
            let in_brackets = matches!(self.ahead(1).map(|it| &it.token), Some(Token::Mark(')')))
                && matches!(
                    self.placed
                        .get(self.place.wrapping_sub(1))
                        .map(|it| &it.token),
                    Some(Token::Mark('('))
                );
            let opens_size = self.ahead(1).is_some_and(|it| it.figure().is_some())
                && self.sense_ahead(2) == Some(Sense::By)
                && figure.stop.is_none();
            if (marked && sized) || named || times || in_brackets || opens_size {
                self.set_count(count, at);
                if times || marked {
                    self.place += 1;
                }
                return;
            }
        }
        if next == Some(Sense::Border) {
            self.line.said.push(Said::Border(one));
            self.place += 1;
            return;
        }
        if self.astray {
            self.left(at, Left::Alone);
            return;
        }
        match self.about {
            About::Scores if self.next == Next::Distance => {
                self.line.said.push(Said::Every(one));
            }
            About::Scores => {
                let fold = self.fold;
                self.line.said.push(Said::Score(one, fold));
            }
            About::Panels => self.line.said.push(Said::Panel(one)),
            About::Border => {
                self.about = About::Nothing;
                self.line.said.push(Said::Border(one));
            }
            About::Nothing | About::Envelope | About::Finished => self.left(at, Left::Alone),
        }
        self.next = Next::Anything;
    }

    /// So many of the piece before or behind.
    fn set_count(&mut self, count: u32, at: Range<usize>) {
        self.line.counts.push((at, count));
        let behind = self.behind();
        match self.line.said.last_mut() {
            Some(Said::Piece { count: of, .. }) if self.count.is_none() && *of == 1 && behind => {
                *of = count;
            }
            _ => self.count = Some(count),
        }
    }

    /// Whether no piece follows in the line, so that a number speaks of the one
    /// before it.
    fn behind(&self) -> bool {
        let rest = self.placed.get(self.place..).unwrap_or_default();
        !rest.windows(2).any(
            |pair| matches!(pair, [a, b] if a.figure().is_some() && b.sense() == Some(Sense::By)),
        )
    }

    /// Three numbers with "by" between them: one of them may be how many.
    fn three(&mut self) {
        let Some([a, b, c]) = self
            .spotted(0)
            .zip(self.spotted(2))
            .zip(self.spotted(4))
            .map(|((a, b), c)| [a, b, c])
        else {
            return;
        };
        let bare = |it: Spotted| {
            it.figure
                .unit
                .is_none()
                .then(|| it.figure.whole())
                .flatten()
        };
        let plain = |it: Spotted| bare(it).filter(|count| (1..=50).contains(count));
        let measured = |it: Spotted| bare(it).is_none();
        if let Some(count) = plain(a).filter(|_| measured(c) || (measured(b) && plain(c).is_none()))
        {
            self.count = Some(count);
            self.line.counts.push((a.at(), count));
            self.place += 2;
            self.size(0);
        } else if let Some(count) =
            plain(c).filter(|_| b.figure.unit.is_some() || measured(a) && measured(b))
        {
            self.count = Some(count);
            self.line.counts.push((c.at(), count));
            self.size(2);
        } else {
            self.left(a.from..c.to, Left::Three);
            self.place += 4;
        }
    }

    /// A size that begins here; `more` tokens behind it belong to it too.
    fn size(&mut self, more: usize) {
        let (Some(a), Some(b)) = (self.spotted(0), self.spotted(2)) else {
            return;
        };
        self.place += 2 + more;
        let size = [a, b];
        let next = self.sense_ahead(1);
        let bare = a.figure.unit.is_none() && b.figure.unit.is_none();
        if let Some(Sense::Behind(aside)) = next.filter(|_| bare) {
            self.left(a.from..b.to, Left::Aside(aside));
            return;
        }
        // "12 x 12 sheet" behind "from".
        let said = if self.next == Next::Sheet {
            self.next = Next::Anything;
            Said::SheetSize(size)
        } else if self.about == About::Envelope || next == Some(Sense::Envelope) {
            self.about = About::Nothing;
            Said::EnvelopeSize(size)
        } else if self.about == About::Finished {
            self.about = About::Nothing;
            Said::Finished(size)
        } else {
            // What kind of piece it is may stand behind it: "4 x 5 1/4 mat".
            let mut kind = self.kind.take();
            for by in 1..=3 {
                match self.sense_ahead(by) {
                    Some(Sense::Piece(other)) if !self.piece_follows(by) => {
                        kind = Some(firmer(kind, other));
                    }
                    Some(Sense::Filler | Sense::Pieces) | None => {}
                    _ => break,
                }
                if self.ahead(by).is_some_and(|it| {
                    it.figure().is_some() || matches!(it.token, Token::Mark(',' | ';' | '.'))
                }) {
                    break;
                }
            }
            Said::Piece {
                kind,
                label: self.label.take(),
                size,
                count: self.count.take().unwrap_or(1),
                spot: self.spot.take(),
            }
        };
        self.astray = false;
        self.line.said.push(said);
        if self.about == About::Border {
            self.about = About::Nothing;
        }
    }

    /// Whether the kind of piece so far ahead has a size of its own behind it.
    fn piece_follows(&self, by: usize) -> bool {
        (by + 1..=by + 3).any(|by| {
            self.ahead(by).is_some_and(|it| it.figure().is_some())
                && self.sense_ahead(by + 1) == Some(Sense::By)
        })
    }

    fn mark(&mut self, mark: char, here: &Placed) {
        match mark {
            // A sentence ends here; the next one speaks of its own.
            ';' | '.' | '!' | '?' => self.astray = true,
            ',' | ':' | '(' | ')' | '@' | '&' | '+' | '–' | '—' | '-' | '•' | '*' | '/' | '"'
            | '“' | '”' | '„' | '\'' | '’' | '=' | '|' | '·' | '[' | ']' | '×' | '#' | '$'
            | '€' | '£' | '%' | '°' | '→' | '\u{2212}' => {}
            _ => self.left(here.at.clone(), Left::Words),
        }
    }

    fn word(&mut self, word: &str, here: &Placed) {
        if is_label(self.placed, self.place) && self.line.said.is_empty() {
            self.label = Some(word.to_uppercase());
            return;
        }
        if self.named(word, here) {
            return;
        }
        let Token::Word(_, sense) = here.token else {
            return;
        };
        match sense {
            Some(Sense::Piece(kind)) => self.piece(kind),
            Some(Sense::Score) => self.scores(),
            Some(Sense::Folded) => {
                let sized = self.ahead(1).is_some_and(|it| it.figure().is_some())
                    && self.sense_ahead(2) == Some(Sense::By);
                if sized || matches!(self.ahead(1).map(|it| &it.token), Some(Token::Mark(':'))) {
                    self.subject(About::Finished);
                } else {
                    self.scores();
                }
            }
            Some(Sense::Half) => self.half(here),
            Some(Sense::Many(2)) if self.is_after_in() => self.half(here),
            Some(Sense::Many(count)) => {
                let others = self.about != About::Scores || self.astray;
                if others && self.count.is_none() {
                    self.count = Some(count);
                }
            }
            Some(Sense::Every) => self.next = Next::Distance,
            Some(Sense::At) if self.about == About::Scores => self.astray = false,
            Some(Sense::From) => self.next = Next::Sheet,
            Some(Sense::On) => self.next = Next::Seat,
            Some(Sense::Long) => self.line.said.push(Said::Along(Along::Long)),
            Some(Sense::Short) => self.line.said.push(Said::Along(Along::Short)),
            Some(Sense::Mountain) => self.turn(Fold::Mountain),
            Some(Sense::Valley) => self.turn(Fold::Valley),
            Some(Sense::Panel) => self.subject(About::Panels),
            Some(Sense::Border) => self.subject(About::Border),
            Some(Sense::Finished) => self.subject(About::Finished),
            Some(Sense::Envelope) => self.subject(About::Envelope),
            Some(Sense::Spot(spot)) => self.spot(spot),
            Some(Sense::Tent) => self.line.said.push(Said::Tent),
            Some(
                Sense::By
                | Sense::At
                | Sense::And
                | Sense::Sheet
                | Sense::Pieces
                | Sense::Behind(_)
                | Sense::Before(_)
                | Sense::Filler,
            ) => {}
            None => {
                self.astray = true;
                self.left(here.at.clone(), Left::Words);
            }
        }
    }

    /// A sheet or an envelope by name: A4, Letter, C6.
    fn named(&mut self, word: &str, here: &Placed) -> bool {
        let about_envelope = self.about == About::Envelope
            || (1..=2).any(|by| self.sense_ahead(by) == Some(Sense::Envelope));
        let envelope = ENVELOPES.iter().find(|it| {
            let mut names = it.name.to_lowercase();
            names.truncate(names.find(' ').unwrap_or(names.len()));
            names == word
        });
        let sheet = SHEETS.iter().find(|it| it.name.to_lowercase() == word);
        let is_size = word.chars().any(|it| it.is_ascii_digit());
        match (envelope, sheet) {
            (Some(envelope), None) if is_size || about_envelope => {
                self.line
                    .said
                    .push(Said::Envelope(envelope, here.at.clone()));
            }
            (Some(envelope), _) if about_envelope => {
                self.line
                    .said
                    .push(Said::Envelope(envelope, here.at.clone()));
            }
            (_, Some(sheet)) if self.next == Next::Sheet || is_size => {
                self.next = Next::Anything;
                self.line.said.push(Said::Sheet(sheet, here.at.clone()));
            }
            _ => return false,
        }
        true
    }

    fn is_after_in(&self) -> bool {
        let before = self.place.checked_sub(1).and_then(|at| self.placed.get(at));
        matches!(before.map(|it| &it.token), Some(Token::Word(word, _)) if word == "in" || word == "en")
            || matches!(before, Some(it) if it.figure().is_some())
    }

    fn subject(&mut self, about: About) {
        self.about = about;
        self.astray = false;
        self.next = Next::Anything;
    }

    fn scores(&mut self) {
        self.subject(About::Scores);
        if let Some(kind) = self.kind
            && !self
                .line
                .said
                .iter()
                .any(|said| matches!(said, Said::Piece { .. }))
            && self.behind()
        {
            self.line.said.push(Said::Of(kind));
        }
    }

    fn half(&mut self, here: &Placed) {
        if self.scores {
            self.line.said.push(Said::Half(here.at.clone()));
        } else {
            self.left(here.at.clone(), Left::Words);
        }
    }

    fn turn(&mut self, fold: Fold) {
        self.fold = Some(fold);
        if self.about != About::Scores {
            self.subject(About::Scores);
        }
        self.astray = false;
    }

    fn spot(&mut self, spot: Spot) {
        self.next = Next::Anything;
        let behind = self.behind();
        match self.line.said.last_mut() {
            Some(Said::Piece { spot: of, .. }) if of.is_none() && behind => *of = Some(spot),
            _ => self.spot = Some(spot),
        }
    }

    fn piece(&mut self, kind: Kind) {
        if self.next == Next::Seat {
            self.next = Next::Anything;
            // "on the mat" tells where, not what.
            return;
        }
        let behind = self.behind();
        if behind && self.about == About::Scores && !self.astray {
            self.line.said.push(Said::Of(kind));
            return;
        }
        if behind && let Some(Said::Piece { kind: of, .. }) = self.line.said.last_mut() {
            if of.is_none() {
                *of = Some(kind);
            }
            return;
        }
        self.kind = Some(firmer(self.kind, kind));
        if self.about != About::Scores {
            self.subject(About::Nothing);
        }
    }

    fn end(mut self) -> Line {
        if let Some(kind) = self.kind
            && self.line.said.is_empty()
        {
            self.line.said.push(Said::Of(kind));
        }
        self.line
    }
}
