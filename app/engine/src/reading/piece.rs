//! The pieces of a list, with their scores, in exact lengths.

use super::line::{self, Along, Line, Said, Spotted};
use super::sense::{Form, Kind, Lie, Way};
use super::units::Units;
use super::{Meaning, Missed, OfLength, OfSize, Remark, Told};
use crate::length::Length;
use crate::paper::{ENVELOPES, Envelope, SheetSize};
use crate::plane::Size;
use crate::problem::{Spot, Trouble};
use crate::recipe::Fold;
use crate::sorted::InOrder as _;

/// The most layers a list may have. Our own bound.
const MOST_LAYERS: usize = 40;

/// The most scores of one piece. Our own bound.
const MOST_SCORES: usize = 60;

/// A score of a piece, and the line that tells it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Score {
    pub(super) line: usize,
    pub(super) at: Length,
    pub(super) fold: Option<Fold>,
    /// Whether it is measured from the other end.
    pub(super) is_from_end: bool,
}

/// A piece of the list.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Cut {
    pub(super) line: usize,
    pub(super) kind: Option<Kind>,
    pub(super) label: Option<String>,
    /// As it is written, the first number across, or as words say it lies.
    pub(super) size: Size,
    /// Whether words say how it lies.
    pub(super) is_fixed: bool,
    pub(super) form: Option<Form>,
    pub(super) count: u32,
    pub(super) spot: Option<Spot>,
    pub(super) along: Option<Along>,
    pub(super) scores: Vec<Score>,
    pub(super) every: Option<(usize, Length)>,
    pub(super) half: Option<usize>,
    pub(super) panels: Vec<(usize, Length)>,
}

impl Cut {
    /// Whether it is folded.
    pub(super) fn is_folded(&self) -> bool {
        !self.scores.is_empty()
            || self.every.is_some()
            || self.half.is_some()
            || self.panels.len() > 1
    }

    /// Whether it is round or oval.
    pub(super) fn is_round(&self) -> bool {
        matches!(self.form, Some(Form::Round | Form::Oval))
    }

    /// The longer and the shorter side.
    fn sides(&self) -> [Length; 2] {
        let Size { width, height } = self.size;
        [width.max(height), width.min(height)]
    }
}

/// Everything a list tells, in exact lengths.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct List {
    pub(super) cuts: Vec<Cut>,
    pub(super) finished: Option<(usize, Size)>,
    pub(super) envelope: Option<(usize, &'static Envelope)>,
    pub(super) sheet: Option<(usize, Size, Option<&'static SheetSize>)>,
    pub(super) border: Option<(usize, Length)>,
    pub(super) tent: bool,
    pub(super) way: Option<Way>,
}

/// Puts the lines together.
pub(super) fn gather(lines: &[Line], units: &Units, told: &mut Told) -> List {
    let mut list = List::default();
    let mut heading = None;
    for (number, line) in lines.iter().enumerate() {
        let headed = line.said.iter().find_map(|said| match said {
            Said::Heading(spot) => Some(*spot),
            _ => None,
        });
        heading = headed.or(heading);
        Gather {
            number,
            units,
            told: &mut *told,
            first: list.cuts.len(),
            of: None,
            heading,
        }
        .line(line, &mut list);
    }
    list
}

struct Gather<'a> {
    number: usize,
    units: &'a Units,
    told: &'a mut Told,
    /// The first piece of this line.
    first: usize,
    of: Option<Kind>,
    /// Where the list says that the pieces of this part of it go.
    heading: Option<Spot>,
}

impl Gather<'_> {
    fn line(mut self, line: &Line, list: &mut List) {
        // A line may tell its scores before its piece.
        for said in &line.said {
            if let Said::Piece(piece) = said
                && let Some(cut) = self.piece(piece)
            {
                if list.cuts.len() > MOST_LAYERS {
                    self.told.trouble(self.number, Trouble::TooMany);
                    continue;
                }
                list.cuts.push(cut);
            }
        }
        let mut own = self.first;
        for (index, said) in line.said.iter().enumerate() {
            match said {
                Said::Piece(_) => own += 1,
                Said::Of(kind) => self.of = Some(*kind),
                other => {
                    let at = self.whose(list, own);
                    self.say(other, stated(&line.said, index), at, list);
                }
            }
        }
    }

    /// A piece, laid as words say it lies.
    fn piece(&mut self, piece: &line::Piece) -> Option<Cut> {
        let even = piece.size[0] == piece.size[1];
        let size = match piece.form {
            Some(Form::Round) if even => {
                let [side, _] = piece.size;
                let length = self.units.length(self.number, side, None);
                let length = self.check(side, length, OfLength::Diameter)?;
                Size {
                    width: length,
                    height: length,
                }
            }
            Some(Form::Round) => self.size(piece.size, OfSize::Round)?,
            Some(Form::Oval) => self.size(piece.size, OfSize::Oval)?,
            Some(Form::Square) => self.size(piece.size, OfSize::Square)?,
            None => self.size(piece.size, OfSize::Piece)?,
        };
        let is_wide = size.width > size.height;
        let turns = match piece.lie {
            Some(Lie::Turned) => true,
            Some(Lie::Upright) => is_wide,
            Some(Lie::Wide) => !is_wide,
            None => false,
        };
        Some(Cut {
            line: self.number,
            kind: piece.kind,
            label: piece.label.clone(),
            size: if turns { size.turned() } else { size },
            is_fixed: piece.is_fixed || piece.lie.is_some(),
            form: piece.form,
            count: piece.count,
            spot: piece.spot.or(self.heading),
            along: None,
            scores: Vec::new(),
            every: None,
            half: None,
            panels: Vec::new(),
        })
    }

    /// The piece that a score belongs to: the one before it in its line, the
    /// one behind it, the one spoken of, or the last one that may be folded.
    fn whose(&self, list: &List, own: usize) -> Option<usize> {
        if list.cuts.len() > self.first {
            return Some(own.saturating_sub(1).max(self.first));
        }
        let latest = |fits: &dyn Fn(&Cut) -> bool| list.cuts.iter().rposition(fits);
        let spoken = self
            .of
            .and_then(|kind| latest(&|cut| cut.kind == Some(kind)));
        let flat = |cut: &Cut| matches!(cut.kind, Some(Kind::Mat | Kind::Focal | Kind::Insert));
        let based = |cut: &Cut| {
            matches!(cut.kind, Some(Kind::Base | Kind::Card | Kind::Strip)) || cut.is_folded()
        };
        spoken
            .or_else(|| latest(&based))
            .or_else(|| latest(&|cut| !flat(cut)))
            .or_else(|| list.cuts.len().checked_sub(1))
    }

    /// Takes what a line says; a number without a unit is in that of the one
    /// beside it.
    fn say(&mut self, said: &Said, beside: Option<Spotted>, whose: Option<usize>, list: &mut List) {
        let line = self.number;
        let one = |gather: &mut Self, spotted: Spotted, what: OfLength| {
            let length = gather.units.length(line, spotted, beside);
            gather.check(spotted, length, what)
        };
        match said {
            Said::Piece(_) | Said::Of(_) => {}
            Said::Heading(spot) => {
                self.told.remark(line, Remark::Heading(*spot));
            }
            Said::Tent => list.tent = true,
            Said::Way(way, at) => {
                self.told.understand(line, at.clone(), Meaning::Way(*way));
                list.way.get_or_insert(*way);
            }
            Said::FromEnd => {
                let scores = self.cut(whose, list).map(|cut| cut.scores.iter_mut());
                for score in scores.into_iter().flatten().filter(|it| it.line == line) {
                    score.is_from_end = true;
                }
            }
            Said::Finished(_)
            | Said::Envelope(..)
            | Said::EnvelopeSize(_)
            | Said::Sheet(..)
            | Said::SheetSize(_) => self.say_of_card(said, list),
            Said::Border(spotted) => {
                if let Some(length) = one(self, *spotted, OfLength::Border) {
                    list.border.get_or_insert((line, length));
                }
            }
            Said::Score(spotted, fold) => {
                if let Some(at) = one(self, *spotted, OfLength::Score(*fold))
                    && let Some(cut) = self.cut(whose, list)
                    && cut.scores.len() < MOST_SCORES
                {
                    cut.scores.push(Score {
                        line,
                        at,
                        fold: *fold,
                        is_from_end: false,
                    });
                }
            }
            Said::Every(spotted) => {
                if let Some(at) = one(self, *spotted, OfLength::Every)
                    && let Some(cut) = self.cut(whose, list)
                {
                    cut.every = Some((line, at));
                }
            }
            Said::Half(at) => {
                self.told.understand(line, at.clone(), Meaning::Half);
                if let Some(cut) = self.cut(whose, list) {
                    cut.half = Some(line);
                }
            }
            Said::Along(along) => {
                if let Some(cut) = whose.and_then(|at| list.cuts.get_mut(at)) {
                    cut.along = Some(*along);
                }
            }
            Said::Panel(spotted) => {
                if let Some(width) = one(self, *spotted, OfLength::Panel)
                    && let Some(cut) = self.cut(whose, list)
                    && cut.panels.len() < MOST_SCORES
                {
                    cut.panels.push((line, width));
                }
            }
        }
    }

    /// What a line says of the whole card: how large it closes, its envelope, the
    /// sheet it is cut from.
    fn say_of_card(&mut self, said: &Said, list: &mut List) {
        let line = self.number;
        match said {
            Said::Finished(size) => {
                list.finished = self.size(*size, OfSize::Closed).map(|size| (line, size));
            }
            Said::Envelope(envelope, at) => {
                self.told
                    .understand(line, at.clone(), Meaning::Envelope(envelope));
                list.envelope = Some((line, envelope));
            }
            Said::EnvelopeSize(size) => {
                if let Some(size) = self.size(*size, OfSize::Envelope) {
                    let (long, short) = (size.width.max(size.height), size.width.min(size.height));
                    let known = ENVELOPES
                        .iter()
                        .find(|it| (it.length, it.height) == (long, short));
                    match known {
                        Some(envelope) => list.envelope = Some((line, envelope)),
                        None => self.told.trouble(line, Trouble::NoEnvelope(size)),
                    }
                }
            }
            Said::Sheet(sheet, at) => {
                self.told
                    .understand(line, at.clone(), Meaning::CutFrom(sheet));
                let size = Size {
                    width: sheet.width,
                    height: sheet.height,
                };
                list.sheet.get_or_insert((line, size, Some(sheet)));
            }
            Said::SheetSize(size) => {
                if let Some(size) = self.size(*size, OfSize::Sheet) {
                    list.sheet.get_or_insert((line, size, None));
                }
            }
            _ => {}
        }
    }

    fn cut<'b>(&mut self, whose: Option<usize>, list: &'b mut List) -> Option<&'b mut Cut> {
        if whose.is_none() {
            self.told.trouble(self.number, Trouble::NoPiece);
        }
        whose.and_then(|at| list.cuts.get_mut(at))
    }

    fn size(&mut self, [a, b]: [Spotted; 2], what: OfSize) -> Option<Size> {
        let at = a.from.min(b.from)..a.to.max(b.to);
        let width = self.units.length(self.number, a, Some(b));
        let height = self.units.length(self.number, b, Some(a));
        match (width, height) {
            (Some(width), Some(height)) if width > Length::ZERO && height > Length::ZERO => {
                let size = Size { width, height };
                self.told
                    .understand(self.number, at, Meaning::Size(what, size));
                Some(size)
            }
            (Some(_), Some(_)) => {
                self.told.unread(self.number, at, Missed::Nothing);
                None
            }
            _ => {
                self.told.unread(self.number, at, Missed::TooLong);
                None
            }
        }
    }

    fn check(
        &mut self,
        spotted: Spotted,
        length: Option<Length>,
        what: OfLength,
    ) -> Option<Length> {
        match length {
            Some(length) if length > Length::ZERO => {
                self.told
                    .understand(self.number, spotted.at(), Meaning::Length(what, length));
                Some(length)
            }
            Some(_) => {
                self.told.unread(self.number, spotted.at(), Missed::Nothing);
                None
            }
            None => {
                self.told.unread(self.number, spotted.at(), Missed::TooLong);
                None
            }
        }
    }
}

/// The number that states the unit of a row of scores or of panels: in "panels
/// 20, 45, 20 mm" the last one speaks for all, as in a size.
fn stated(said: &[Said], index: usize) -> Option<Spotted> {
    let one = said.get(index)?;
    let in_row = |other: &Said| match (one, other) {
        (Said::Score(..), Said::Score(spotted, _)) | (Said::Panel(_), Said::Panel(spotted)) => {
            Some(*spotted)
        }
        _ => None,
    };
    let (before, after) = said.split_at(index);
    let before = before.iter().rev().map_while(in_row);
    let after = after.iter().skip(1).map_while(in_row);
    after.chain(before).find(|it| it.figure.unit.is_some())
}

/// The panels of a piece along one of its sides.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Panels {
    /// The side they follow each other along.
    pub(super) length: Length,
    /// The other side.
    pub(super) height: Length,
    /// Their widths.
    pub(super) widths: Vec<Length>,
    /// The folds as they are told.
    pub(super) folds: Vec<Option<Fold>>,
    /// Whether they follow each other from top to bottom.
    pub(super) is_down: bool,
}

/// The panels of the piece that is folded, and what contradicts in it.
pub(super) fn panels(cut: &Cut, told: &mut Told) -> Panels {
    let [long, short] = cut.sides();
    let chosen = match cut.along {
        Some(Along::Long) => [long, long],
        Some(Along::Short) => [short, short],
        None => [long, short],
    };
    // A card that nothing folds lies as it is written.
    let length = if cut.is_folded() {
        side(cut, chosen)
    } else {
        cut.size.width
    };
    let other = if length == long { short } else { long };
    let mut marks: Vec<(Length, Option<Fold>)> = Vec::new();
    let mut put = |line: usize, at: Length, fold: Option<Fold>, told: &mut Told| {
        if at >= length {
            told.trouble(line, Trouble::Beyond { at, length });
        } else if marks.iter().any(|(mark, _)| *mark == at) {
            told.trouble(line, Trouble::Twice(at));
        } else if marks.len() < MOST_SCORES {
            marks.push((at, fold));
        }
    };
    for score in &cut.scores {
        let at = if score.is_from_end && score.at < length {
            length - score.at
        } else {
            score.at
        };
        put(score.line, at, score.fold, told);
    }
    if let Some((line, every)) = cut.every {
        let mut at = every;
        let mut count = 0;
        while at < length && count < MOST_SCORES {
            put(line, at, None, told);
            at += every;
            count += 1;
        }
    }
    if let Some(line) = cut.half
        && marks_are_free(cut)
        && let Some((half, _)) = length.div_rem(2)
    {
        put(line, half, None, told);
    }
    if cut.panels.len() > 1 {
        let sum: Length = cut.panels.iter().map(|(_, width)| *width).sum();
        let line = cut.panels.last().map_or(cut.line, |(line, _)| *line);
        if sum == length {
            let mut at = Length::ZERO;
            for (line, width) in cut.panels.iter().take(cut.panels.len() - 1) {
                at += *width;
                // The same scores may be told as well.
                if !cut.scores.iter().any(|score| score.at == at) {
                    put(*line, at, None, told);
                }
            }
        } else {
            told.trouble(line, Trouble::Sum { sum, length });
        }
    }
    marks.put_in_order_by_key(|(at, _)| *at);
    let ends = marks.iter().map(|(at, _)| *at).chain([length]);
    let starts = std::iter::once(Length::ZERO).chain(marks.iter().map(|(at, _)| *at));
    Panels {
        length,
        height: other,
        widths: ends.zip(starts).map(|(end, start)| end - start).collect(),
        folds: marks.into_iter().map(|(_, fold)| fold).collect(),
        is_down: cut.is_fixed && cut.size.height == length && cut.size.width != length,
    }
}

/// "Fold in half" beside told scores says no more than they do.
fn marks_are_free(cut: &Cut) -> bool {
    cut.scores.is_empty() && cut.panels.len() < 2
}

/// The side that scores are measured along: one they lie within, then one they
/// part evenly, then the longer one.
fn side(cut: &Cut, sides: [Length; 2]) -> Length {
    let sum: Length = cut.panels.iter().map(|(_, width)| *width).sum();
    if cut.panels.len() > 1
        && let Some(side) = sides.iter().find(|side| **side == sum)
    {
        return *side;
    }
    let mut marks: Vec<Length> = cut.scores.iter().map(|score| score.at).collect();
    marks.put_in_order();
    let [long, short] = sides;
    let within = marks.iter().all(|at| *at < short);
    if marks.is_empty() || !within || evenness(&marks, short) <= evenness(&marks, long) {
        long
    } else {
        short
    }
}

/// How many pairs of panels have the same width, a gate's leaves counting as
/// one with its middle.
fn evenness(marks: &[Length], length: Length) -> usize {
    let ends = marks.iter().copied().chain([length]);
    let starts = std::iter::once(Length::ZERO).chain(marks.iter().copied());
    let widths: Vec<Length> = ends.zip(starts).map(|(end, start)| end - start).collect();
    let same = |(at, width): (usize, &Length)| {
        widths
            .iter()
            .skip(at + 1)
            .filter(|other| *other == width)
            .count()
    };
    widths.iter().enumerate().map(same).sum()
}
