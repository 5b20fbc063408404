//! A walk along a line, token by token: what its words make of what follows.

use std::ops::Range;

use super::line::{Along, Line, Piece, Said, Spotted};
use super::sense::{Form, Kind, Lie, Sense, Way};
use super::token::{Placed, Token, firmer, is_label};
use super::told::Missed;
use crate::problem::{Hand, Spot, Where};
use crate::recipe::Fold;

/// What the numbers to come are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum About {
    Nothing,
    Scores,
    Panels,
    Border,
    Envelope,
    Finished,
}

/// What a word before says of the number or the piece to come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Next {
    Anything,
    /// Behind "from": the sheet.
    Sheet,
    /// Behind "on": what carries it.
    Seat,
    /// Behind "every": a distance.
    Distance,
    /// Behind "fits": an envelope.
    Envelope,
}

/// A walk along a line.
pub(super) struct Walk<'a> {
    pub(super) placed: &'a [Placed],
    pub(super) index: usize,
    pub(super) about: About,
    /// A word stood between that may have changed the subject.
    pub(super) astray: bool,
    pub(super) next: Next,
    pub(super) kind: Option<Kind>,
    pub(super) label: Option<String>,
    pub(super) count: Option<u32>,
    pub(super) spot: Option<Spot>,
    pub(super) form: Option<Form>,
    pub(super) lie: Option<Lie>,
    fold: Option<Fold>,
    scores: bool,
    /// No comma stands between the last piece and here.
    pub(super) is_fresh: bool,
    pub(super) line: Line,
}

impl<'a> Walk<'a> {
    /// The beginning of a walk.
    pub(super) fn along(placed: &'a [Placed]) -> Self {
        Self {
            placed,
            index: 0,
            about: About::Nothing,
            astray: false,
            next: Next::Anything,
            kind: None,
            label: None,
            count: None,
            spot: None,
            form: None,
            lie: None,
            fold: None,
            scores: placed
                .iter()
                .any(|it| matches!(it.sense(), Some(Sense::Score | Sense::Folded))),
            is_fresh: false,
            line: Line::default(),
        }
    }

    pub(super) fn ahead(&self, by: usize) -> Option<&'a Placed> {
        self.placed.get(self.index + by)
    }

    pub(super) fn before(&self, by: usize) -> Option<&'a Placed> {
        let index = self.index.checked_sub(by)?;
        self.placed.get(index)
    }

    pub(super) fn spotted(&self, by: usize) -> Option<Spotted> {
        let it = self.ahead(by)?;
        Some(Spotted {
            figure: it.figure()?,
            from: it.at.start,
            to: it.at.end,
        })
    }

    pub(super) fn sense_ahead(&self, by: usize) -> Option<Sense> {
        self.ahead(by).and_then(Placed::sense)
    }

    pub(super) fn sense_before(&self, by: usize) -> Option<Sense> {
        self.before(by).and_then(Placed::sense)
    }

    pub(super) fn left(&mut self, at: Range<usize>, why: Missed) {
        self.line.left.push((at, why));
    }

    /// The piece told last, where what stands here may belong to it: nothing
    /// stands between, or no other piece follows.
    pub(super) fn piece_before(&mut self) -> Option<&mut Piece> {
        let belongs = self.is_fresh || self.behind();
        match self.line.said.last_mut() {
            Some(Said::Piece(piece)) if belongs => Some(piece),
            _ => None,
        }
    }

    /// Whether no piece follows in the line, so that a number speaks of the one
    /// before it.
    pub(super) fn behind(&self) -> bool {
        let rest = self.placed.get(self.index..).unwrap_or_default();
        let sized = rest.windows(3).any(|three| {
            matches!(three, [a, by, b] if a.figure().is_some()
                && by.sense() == Some(Sense::By) && b.figure().is_some())
        });
        let is_shape = |it: &Placed| matches!(it.sense(), Some(Sense::Shape(_) | Sense::Shapes(_)));
        let shaped =
            rest.iter().any(is_shape) && rest.iter().skip(1).any(|it| it.figure().is_some());
        !sized && !shaped
    }

    pub(super) fn mark(&mut self, mark: char, here: &Placed) {
        match mark {
            // A sentence ends here; the next one speaks of its own.
            ';' | '.' | '!' | '?' => {
                self.astray = true;
                self.is_fresh = false;
                self.form = None;
            }
            ',' | '|' => self.is_fresh = false,
            '⌀' | '∅' => self.shape(Form::Round, here),
            ':' | '(' | ')' | '@' | '&' | '+' | '–' | '—' | '-' | '•' | '*' | '/' | '"' | '“'
            | '”' | '„' | '\'' | '’' | '=' | '·' | '[' | ']' | '×' | '✕' | '✖' | '⨯' | '#'
            | '$' | '€' | '£' | '%' | '°' | '→' | '\u{2212}' => {}
            _ => self.left(here.at.clone(), Missed::Words),
        }
    }

    pub(super) fn word(&mut self, word: &str, here: &Placed) {
        if is_label(self.placed, self.index) && self.line.said.is_empty() {
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
                if sized || self.ahead(1).and_then(Placed::mark) == Some(':') {
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
            Some(Sense::Fits) => self.next = Next::Envelope,
            Some(Sense::On) => self.next = Next::Seat,
            Some(Sense::Long) => self.line.said.push(Said::Along(Along::Long)),
            Some(Sense::Short) => self.line.said.push(Said::Along(Along::Short)),
            Some(Sense::Mountain) => self.turn(Fold::Mountain),
            Some(Sense::Valley) => self.turn(Fold::Valley),
            Some(Sense::Panel) => self.panel(),
            Some(Sense::Border) => self.subject(About::Border),
            Some(Sense::Finished) => self.subject(About::Finished),
            Some(Sense::Envelope) => self.subject(About::Envelope),
            Some(Sense::Spot(side)) => self.spot(side),
            Some(Sense::Hand(hand)) => self.hand(hand, here),
            Some(Sense::Extent(_)) => {
                if !self.is_near_spot() {
                    self.left(here.at.clone(), Missed::Words);
                }
            }
            Some(Sense::Shape(form) | Sense::Shapes(form)) => self.shape(form, here),
            Some(Sense::Lie(lie)) => match self.piece_before() {
                Some(piece) => piece.lie = Some(lie),
                None => self.lie = Some(lie),
            },
            Some(Sense::Way(way)) => self.way(way, word, here),
            Some(Sense::Tent) => self.line.said.push(Said::Tent),
            Some(
                Sense::By
                | Sense::At
                | Sense::And
                | Sense::Sheet
                | Sense::Pieces
                | Sense::Cut
                | Sense::Behind(_)
                | Sense::Before(_)
                | Sense::Filler,
            ) => {}
            Some(Sense::Corners) => self.left(here.at.clone(), Missed::Words),
            None => {
                self.astray = true;
                self.left(here.at.clone(), Missed::Words);
            }
        }
    }

    fn is_after_in(&self) -> bool {
        let before = self.before(1);
        matches!(before.map(|it| &it.token), Some(Token::Word(word, _)) if word == "in" || word == "en")
            || matches!(before, Some(it) if it.figure().is_some())
    }

    pub(super) fn subject(&mut self, about: About) {
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
                .any(|said| matches!(said, Said::Piece(_)))
            && self.behind()
        {
            self.line.said.push(Said::Of(kind));
        }
    }

    /// "panels 3, 6, 3"; "on the right panel" tells where.
    fn panel(&mut self) {
        let hand = matches!(
            self.sense_before(1),
            Some(Sense::Hand(_) | Sense::Extent(_) | Sense::Spot(_))
        );
        if !hand {
            self.subject(About::Panels);
        }
    }

    fn half(&mut self, here: &Placed) {
        if self.scores {
            self.line.said.push(Said::Half(here.at.clone()));
        } else {
            self.left(here.at.clone(), Missed::Words);
        }
    }

    fn turn(&mut self, fold: Fold) {
        self.fold = Some(fold);
        if self.about != About::Scores {
            self.subject(About::Scores);
        }
        self.astray = false;
    }

    /// How the score to come folds.
    pub(super) const fn fold(&self) -> Option<Fold> {
        self.fold
    }

    fn way(&mut self, way: Way, word: &str, here: &Placed) {
        self.line.said.push(Said::Way(way, here.at.clone()));
        if ["fold", "falz", "vouw"].iter().any(|it| word.ends_with(it)) {
            self.scores = true;
            self.scores();
        }
    }

    /// Senses that stand beside this index, a few tokens either way and no
    /// number between.
    fn near(&self) -> impl Iterator<Item = Sense> + use<'a> {
        let (placed, index) = (self.placed, self.index);
        let between = |it: &&Placed| it.figure().is_none();
        let after = placed.get(index + 1..).unwrap_or_default().iter();
        let before = placed.get(..index).unwrap_or_default().iter().rev();
        let after = after.take(MOST_APART).take_while(between);
        let before = before.take(MOST_APART).take_while(between);
        before.chain(after).filter_map(Placed::sense)
    }

    fn is_near_spot(&self) -> bool {
        self.near().any(|sense| matches!(sense, Sense::Spot(_)))
    }

    fn hand(&mut self, hand: Hand, here: &Placed) {
        if self.is_near_spot() {
            return;
        }
        let from_end = |it: Option<&Placed>| {
            it.is_some_and(|it| {
                it.sense() == Some(Sense::From)
                    || matches!(&it.token, Token::Word(word, _)
                        if matches!(word.as_str(), "von" | "vom" | "van" | "du" | "de" | "la"))
            })
        };
        match hand {
            Hand::Right
                if self.about == About::Scores
                    && (from_end(self.before(1)) || from_end(self.before(2))) =>
            {
                self.next = Next::Anything;
                self.line.said.push(Said::FromEnd);
            }
            Hand::Middle => self.half(here),
            Hand::Left | Hand::Right => {}
        }
    }

    fn spot(&mut self, side: Where) {
        self.next = Next::Anything;
        let mut spot = Spot {
            side,
            hand: None,
            extent: None,
        };
        for sense in self.near() {
            match sense {
                Sense::Hand(hand) => spot.hand = Some(hand),
                Sense::Extent(extent) => spot.extent = Some(extent),
                _ => {}
            }
        }
        match self.piece_before() {
            Some(piece) if piece.spot.is_none() => piece.spot = Some(spot),
            _ => self.spot = Some(spot),
        }
    }

    /// A word for an outline: of the piece before it, or of the one to come.
    fn shape(&mut self, form: Form, here: &Placed) {
        if self.sense_ahead(1) == Some(Sense::Corners) {
            self.left(here.at.clone(), Missed::Words);
            return;
        }
        if self.is_fresh && self.behind() {
            if let Some(piece) = self.piece_before()
                && piece.form.is_none()
            {
                piece.form = Some(form);
            }
            return;
        }
        let scored = self.about == About::Scores && !self.astray;
        if !scored || self.ahead(1).is_some_and(|it| it.figure().is_some()) {
            self.form = Some(form);
            self.subject(About::Nothing);
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
        if let Some(piece) = self.piece_before() {
            if piece.kind.is_none() {
                piece.kind = Some(kind);
            }
            return;
        }
        self.kind = Some(firmer(self.kind, kind));
        if self.about != About::Scores {
            self.subject(About::Nothing);
        }
    }

    /// Everything the line says.
    pub(super) fn end(mut self) -> Line {
        if self.line.said.is_empty() {
            if let Some(spot) = self.spot.filter(|_| self.line.left.is_empty()) {
                self.line.said.push(Said::Heading(spot));
            } else if let Some(kind) = self.kind {
                self.line.said.push(Said::Of(kind));
            }
        }
        self.line
    }
}

/// Words that tell of one another stand no farther apart. Our own bound.
const MOST_APART: usize = 3;
