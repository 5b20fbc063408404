//! What the numbers of a line are: sizes, how many, sides of squares, diameters,
//! scores.

use super::line::{Pair, Piece, Said, Spotted};
use super::sense::{Aside, Axis, Form, Kind, Sense};
use super::token::{Placed, Token, firmer, written_unit};
use super::told::Missed;
use super::walk::{About, Next, Walk};
use crate::length::Figure;

/// The most pieces of one kind that a bare number counts. Our own bound.
const MOST_COUNTED: u32 = 99;

/// A number that says how many: whole and without a unit.
fn counted(figure: Figure) -> Option<u32> {
    let bare = figure.unit.is_none().then(|| figure.whole()).flatten();
    bare.filter(|count| (1..=MOST_COUNTED).contains(count))
}

impl Walk<'_> {
    /// A number, and what belongs to it.
    pub(super) fn number(&mut self, figure: Figure, here: &Placed) {
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
            from: here.at.start,
            to: here.at.end,
        };
        if let Some(count) = counted(figure)
            && self.is_count()
        {
            self.set_count(count, one);
            return;
        }
        if let Some((form, ahead)) = self.side_of(one) {
            self.form = Some(form);
            self.index += ahead;
            self.sized([one, one]);
            return;
        }
        if self.sense_ahead(1) == Some(Sense::Border) {
            self.line.said.push(Said::Border(one));
            self.index += 1;
            return;
        }
        if self.astray {
            self.left(one.at(), Missed::Alone);
            return;
        }
        match self.about {
            About::Scores if self.next == Next::Distance => {
                self.line.said.push(Said::Every(one));
            }
            About::Scores => self.line.said.push(Said::Score(one, self.fold())),
            About::Panels => self.line.said.push(Said::Panel(one)),
            About::Border => {
                self.about = About::Nothing;
                self.line.said.push(Said::Border(one));
            }
            About::Nothing | About::Envelope | About::Finished => {
                self.left(one.at(), Missed::Alone);
            }
        }
        self.next = Next::Anything;
    }

    /// A number that is no measure, unless an envelope is called by it.
    pub(super) fn aside(&mut self, aside: Aside, figure: Figure, here: &Placed) {
        if aside != Aside::Numbering || !self.numbered(figure, here) {
            self.left(here.at.clone(), Missed::Aside(aside));
        }
    }

    /// Whether the whole number here says how many pieces: "2 @", "2 x mat",
    /// "2 pcs", "(2)", "2 mats", "x2", "cut 2", "Stück: 2".
    fn is_count(&self) -> bool {
        let next = self.sense_ahead(1);
        let mark = |it: Option<&Placed>| it.and_then(Placed::mark);
        let figure = |by| self.ahead(by).is_some_and(|it| it.figure().is_some());
        let free = self.about != About::Scores || self.astray;
        let sized = figure(2) && self.sense_ahead(3) == Some(Sense::By);
        let marked = mark(self.ahead(1)) == Some('@') && sized;
        let named = free
            && match next {
                Some(Sense::Piece(_)) => self.form.is_none() || self.number_follows(),
                Some(Sense::Pieces | Sense::Shapes(_)) => true,
                // "2 round labels 70 mm"
                Some(Sense::Shape(_)) => self.number_follows(),
                _ => false,
            };
        let times = next == Some(Sense::By)
            && match self.ahead(2).map(|it| &it.token) {
                None | Some(Token::Word(..)) => true,
                Some(Token::Mark(mark)) => matches!(mark, ')' | ',' | ';' | '.'),
                Some(_) => false,
            };
        // A size takes its "by" with it.
        let timed = self.sense_before(1) == Some(Sense::By);
        let in_brackets = mark(self.ahead(1)) == Some(')') && mark(self.before(1)) == Some('(');
        let opens_size = figure(1)
            && self.sense_ahead(2) == Some(Sense::By)
            && self
                .ahead(0)
                .and_then(Placed::figure)
                .is_some_and(|it| it.stop.is_none());
        let before = match mark(self.before(1)) {
            Some(':' | '=') => self.sense_before(2),
            _ => self.sense_before(1),
        };
        let told = matches!(before, Some(Sense::Cut | Sense::Pieces));
        marked || named || times || timed || in_brackets || opens_size || told
    }

    /// Whether another number stands further on in the line.
    fn number_follows(&self) -> bool {
        let rest = self.placed.get(self.index + 1..).unwrap_or_default();
        rest.iter().any(|it| it.figure().is_some())
    }

    /// So many of the piece before or behind.
    fn set_count(&mut self, count: u32, at: Spotted) {
        self.line.counts.push((at.at(), count));
        let is_free = self.count.is_none();
        match self.piece_before() {
            Some(piece) if is_free && piece.count == 1 => piece.count = count,
            _ => self.count = Some(count),
        }
        let mark = self.ahead(1).and_then(Placed::mark);
        if self.sense_ahead(1) == Some(Sense::By) || mark == Some('@') {
            self.index += 1;
        }
    }

    /// The square or the round piece of which one number here tells all, and
    /// how far ahead the word for it stands; not at all where it stood before.
    fn side_of(&self, one: Spotted) -> Option<(Form, usize)> {
        let between = |by: usize| {
            matches!(
                self.sense_ahead(by),
                Some(Sense::Filler | Sense::At | Sense::From)
            )
        };
        let behind = (1..=MOST_BETWEEN).find_map(|by| match self.sense_ahead(by)? {
            Sense::Shape(form) if (1..by).all(between) => Some((form, by)),
            _ => None,
        });
        if let Some((_, by)) = behind
            && self.sense_ahead(by + 1) == Some(Sense::Corners)
        {
            return None;
        }
        let measured = written_unit(one.figure).is_some();
        let before = self.form.filter(|_| measured || !self.astray);
        behind
            .or_else(|| before.map(|form| (form, 0)))
            .filter(|(form, _)| *form != Form::Oval)
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
        let plain = |it: Spotted| counted(it.figure).filter(|count| *count <= 50);
        let measured = |it: Spotted| it.figure.unit.is_some() || it.figure.whole().is_none();
        // As in "x2" and "2x", where a gap sets them apart from the size.
        let at = |by| self.ahead(by).map_or(0..0, |it| it.at.clone());
        let last_apart = at(3).end == c.from && b.to < at(3).start && at(1).start > a.to;
        let first_apart = a.to == at(1).start && at(1).end < b.from && at(3).end < c.from;
        let first =
            plain(a).filter(|_| first_apart || measured(c) || (measured(b) && plain(c).is_none()));
        let last = plain(c)
            .filter(|_| last_apart || b.figure.unit.is_some() || measured(a) && measured(b));
        if let Some(count) = first.filter(|_| last.is_none() || !last_apart) {
            self.count = Some(count);
            self.line.counts.push((a.at(), count));
            self.index += 2;
            self.size(0);
        } else if let Some(count) = last {
            self.count = Some(count);
            self.line.counts.push((c.at(), count));
            self.size(2);
        } else {
            self.left(a.from..c.to, Missed::Three);
            self.index += 4;
        }
    }

    /// A size that begins here; `more` tokens behind it belong to it too.
    fn size(&mut self, more: usize) {
        let (Some(a), Some(b)) = (self.spotted(0), self.spotted(2)) else {
            return;
        };
        let axes = [self.ahead(0), self.ahead(2)].map(|it| it.and_then(|it| it.axis));
        self.index += 2 + more;
        let bare = a.figure.unit.is_none() && b.figure.unit.is_none();
        if let Some(Sense::Behind(aside)) = self.sense_ahead(1).filter(|_| bare) {
            self.left(a.from..b.to, Missed::Aside(aside));
            return;
        }
        let before = self.line.said.len();
        match axes {
            [Some(Axis::Height), _] | [_, Some(Axis::Width)]
                if axes != [Some(Axis::Length), Some(Axis::Width)] =>
            {
                self.sized([b, a]);
            }
            _ => self.sized([a, b]),
        }
        let told = axes.contains(&Some(Axis::Height)) || axes == [Some(Axis::Width), None];
        if let Some(Said::Piece(piece)) = self.line.said.get_mut(before) {
            piece.is_fixed = told;
        }
    }

    /// What is of this size.
    fn sized(&mut self, size: Pair) {
        let enveloped = (1..=MOST_BETWEEN).any(|by| {
            self.sense_ahead(by) == Some(Sense::Envelope)
                && (1..by).all(|by| {
                    matches!(
                        self.sense_ahead(by),
                        Some(Sense::Filler | Sense::Shape(Form::Square))
                    )
                })
        });
        // "12 x 12 sheet" behind "from".
        let said = if self.next == Next::Sheet {
            self.next = Next::Anything;
            Said::SheetSize(size)
        } else if self.about == About::Envelope || self.next == Next::Envelope || enveloped {
            self.subject(About::Nothing);
            Said::EnvelopeSize(size)
        } else if self.about == About::Finished {
            self.about = About::Nothing;
            Said::Finished(size)
        } else {
            Said::Piece(self.told_piece(size))
        };
        self.form = None;
        self.astray = false;
        self.is_fresh = matches!(said, Said::Piece(_));
        self.line.said.push(said);
        if self.about == About::Border {
            self.about = About::Nothing;
        }
    }

    /// A piece of a size, with what is told of it before and behind.
    fn told_piece(&mut self, size: Pair) -> Piece {
        // What kind of piece it is may stand behind it: "4 x 5 1/4 mat".
        let mut kind = self.kind.take();
        let mut form = self.form;
        for by in 1..=MOST_BETWEEN {
            match self.sense_ahead(by) {
                Some(Sense::Piece(other)) if !self.piece_follows(by) => {
                    kind = Some(firmer(kind, other));
                }
                Some(Sense::Shape(other))
                    if self.sense_ahead(by + 1) != Some(Sense::Corners)
                        && !self.piece_follows(by) =>
                {
                    form = form.or(Some(other));
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
        let is_round = matches!(form, Some(Form::Round | Form::Oval));
        Piece {
            kind: kind.or(is_round.then_some(Kind::Focal)),
            label: self.label.take(),
            size,
            count: self.count.take().unwrap_or(1),
            spot: self.spot.take(),
            form,
            lie: self.lie.take(),
            is_fixed: false,
        }
    }

    /// Whether the word so far ahead has a size of its own behind it.
    fn piece_follows(&self, by: usize) -> bool {
        (by + 1..=by + MOST_BETWEEN).any(|by| {
            self.ahead(by).is_some_and(|it| it.figure().is_some())
                && self.sense_ahead(by + 1) == Some(Sense::By)
        })
    }
}

/// The words that tell of a size stand no farther from it. Our own bound.
const MOST_BETWEEN: usize = 3;
