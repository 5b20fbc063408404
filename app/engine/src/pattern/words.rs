//! Faults and misfits in the maker's words.

use super::{Angle, Fault, Line, LineId, LineKind, Misfit, Pattern, TOUCHES_WITHIN};
use crate::length::{Length, Notation, Step, nearest};
use crate::plane::{PieceFrame, Point, Segment};
use crate::problem::{Place, Problem, Weight};
use crate::recipe::Fold;

/// Up to here it helps to say by how much to turn a crease: beyond, the
/// creases were meant to lie differently altogether.
const SMALL_TURN: Angle = Angle::thousandths(15_000);

/// What is wrong with a pattern, lengths written as in the recipe. Places are
/// told from the lower left corner of the piece, its inside up.
pub fn problems(
    pattern: &Pattern,
    faults: &[Fault],
    misfits: &[Misfit],
    notation: Notation,
) -> Vec<Problem> {
    let words = Words { pattern, notation };
    // That mountains and valleys do not count up where two creases cross is
    // said by the crossing.
    let said = |misfit: &&Misfit| {
        let crossing = |fault: &Fault| {
            matches!(fault, Fault::Crossing { .. }) && fault.at() == Some(misfit.at())
        };
        matches!(misfit, Misfit::Folds { .. }) && faults.iter().any(crossing)
    };
    let misfits = misfits.iter().filter(|misfit| !said(misfit));
    // Where creases meet, one of them leads there.
    let through = |at| {
        let meets = |line: &&Line| Segment::new(line.from, line.to).off(at) <= TOUCHES_WITHIN;
        let line = pattern.lines.iter().find(meets);
        line.map_or(Place::Recipe, |line| Place::of_line(line.id))
    };
    let misfits = misfits.map(|misfit| Problem {
        place: through(misfit.at()),
        ..words.misfit(misfit)
    });
    let faults = faults.iter().map(|fault| Problem {
        place: fault.line().map_or(Place::Recipe, Place::of_line),
        ..words.fault(fault)
    });
    faults.chain(misfits).map(Problem::capitalised).collect()
}

struct Words<'a> {
    pattern: &'a Pattern,
    notation: Notation,
}

fn stop(what: String, why: impl Into<String>, remedy: impl Into<String>) -> Problem {
    Problem {
        place: Place::Recipe,
        weight: Weight::Stop,
        what,
        why: why.into(),
        remedy: remedy.into(),
    }
}

impl Words<'_> {
    /// To the nearest mark: places only point.
    fn mark(&self, length: Length) -> Length {
        nearest(length, self.notation.step).at
    }

    /// "2 in from the left and 1 in up".
    fn place(&self, at: Point<PieceFrame>) -> String {
        let number = |length| self.notation.with_unit(self.mark(length));
        format!("{} from the left and {} up", number(at.x), number(at.y))
    }

    /// "between (0; 1) in and (2; 1) in".
    fn part(&self, of: &Segment<PieceFrame>) -> String {
        format!("between {} and {}", self.pair(of.from), self.pair(of.to))
    }

    fn pair(&self, at: Point<PieceFrame>) -> String {
        let number = |length| self.notation.plain(self.mark(length));
        let unit = self.notation.unit().words();
        format!("({}; {}) {unit}", number(at.x), number(at.y))
    }

    /// "the mountain from (0; 1) in to (2; 1) in".
    fn line(&self, id: LineId) -> String {
        let Some(line) = self.pattern.line(id) else {
            return "a missing line".to_owned();
        };
        let kind = match line.kind {
            LineKind::Crease(Fold::Mountain) => "mountain",
            LineKind::Crease(Fold::Valley) => "valley",
            LineKind::Cut => "cut",
        };
        format!(
            "the {kind} from {} to {}",
            self.pair(line.from),
            self.pair(line.to)
        )
    }

    fn fault(&self, fault: &Fault) -> Problem {
        match fault {
            Fault::TooMany => stop(
                "the piece has too many lines.".to_owned(),
                "Its corners, lines and crossings are more than can be worked on.",
                "Take some lines away.",
            ),
            Fault::TooFar { at } => stop(
                format!("a corner or an end lies at {}.", self.place(*at)),
                format!(
                    "Nothing may lie farther than {} from the corner.",
                    self.notation.with_unit(Length::LIMIT)
                ),
                "Move it nearer.",
            ),
            Fault::Outline { at } => stop(
                format!("the edge of the piece meets itself {}.", self.place(*at)),
                "Such an edge can't be cut out as one piece.",
                "Move the corners so that the edge runs once round the piece.",
            ),
            Fault::Hole { hole, at } => stop(
                format!("hole {} does not fit {}.", hole + 1, self.place(*at)),
                "A hole must lie within the piece and meet neither itself, another hole nor the edge.",
                "Move the hole or its corners.",
            ),
            Fault::NoLength { at, .. } => stop(
                format!("a line has no length {}.", self.place(*at)),
                "Both its ends are the same point.",
                "Move one end, or take the line away.",
            ),
            Fault::Outside { line, part } => stop(
                format!("{} leaves the paper {}.", self.line(*line), self.part(part)),
                "There is nothing to crease or cut there.",
                "End it at the edge.",
            ),
            Fault::AlongEdge { line, part } => stop(
                format!(
                    "{} runs along the edge {}.",
                    self.line(*line),
                    self.part(part)
                ),
                "The paper ends there already.",
                "Move it into the piece, or take it away.",
            ),
            Fault::Overlap { lines, part } => stop(
                format!(
                    "{} and {} lie on each other {}.",
                    self.line(lines[0]),
                    self.line(lines[1]),
                    self.part(part)
                ),
                "The paper can only do one thing there.",
                "Take one of them away, or shorten it.",
            ),
            Fault::Crossing { lines, at } => stop(
                format!(
                    "{} and {} cross {}.",
                    self.line(lines[0]),
                    self.line(lines[1]),
                    self.place(*at)
                ),
                "Folded along one, the other meets itself, so one of its halves must fold the other way.",
                "Break one of them where they cross and flip one half.",
            ),
            Fault::Dangles { line, end } => stop(
                format!(
                    "{} ends within a panel, {}.",
                    self.line(*line),
                    self.place(*end)
                ),
                "Paper folds along a crease only from edge to edge, or as far as other creases.",
                "Lead it to an edge, a cut or another crease.",
            ),
            Fault::SamePanel { line, part } => stop(
                format!(
                    "{} has one panel on both sides {}.",
                    self.line(*line),
                    self.part(part)
                ),
                "A panel is flat, so it can't be folded onto itself.",
                "Add the crease that divides it on the other side too, or take this one away.",
            ),
            Fault::Loose { at, .. } => stop(
                format!("the part with a corner {} is cut loose.", self.place(*at)),
                "No crease joins it to the rest of the piece.",
                "Shorten a cut, or make that part a piece of its own.",
            ),
        }
    }

    fn misfit(&self, misfit: &Misfit) -> Problem {
        let mark = self.notation.decimal;
        match misfit {
            Misfit::OddCreases { at, count } => stop(
                format!(
                    "the {count} creases that meet {} do not fold flat.",
                    self.place(*at)
                ),
                "Every crease turns the paper over, so an odd number brings it back the wrong way up.",
                "Add a crease from there, or take one away.",
            ),
            Misfit::Angles { at, sums, gap } => {
                let off = sums[0].off(Angle::thousandths(180_000));
                stop(
                    format!(
                        "the creases that meet {} do not fold flat.",
                        self.place(*at)
                    ),
                    format!(
                        "Every second angle between them must make 180° in all, but they make {} \
                         and {}; the panels miss each other by {}.",
                        sums[0].words(mark),
                        sums[1].words(mark),
                        self.gap(*gap)
                    ),
                    if off <= SMALL_TURN {
                        format!(
                            "Turn one of these creases by {}, or move the point.",
                            off.words(mark)
                        )
                    } else {
                        "Move the point, or the other ends of these creases.".to_owned()
                    },
                )
            }
            Misfit::Folds {
                at,
                mountains,
                valleys,
            } => stop(
                format!(
                    "the creases that meet {} do not fold flat.",
                    self.place(*at)
                ),
                format!(
                    "Mountains and valleys that meet in a point must differ by two, but there are \
                     {mountains} and {valleys}."
                ),
                "Flip one of these creases.",
            ),
            Misfit::Opening {
                at,
                is_hole,
                turned_over,
                gap,
            } => stop(
                format!(
                    "the panels round the {} with a corner {} do not fold flat.",
                    if *is_hole { "hole" } else { "cut" },
                    self.place(*at)
                ),
                if *turned_over {
                    "An odd number of creases ends at it, so they come round the wrong way up."
                        .to_owned()
                } else {
                    format!(
                        "Folded once round it they miss each other by {}.",
                        self.gap(*gap)
                    )
                },
                "Move a crease that ends there, or lead a cut from there to the edge.",
            ),
            Misfit::Drift { line, gap, .. } => stop(
                format!(
                    "the panels along {} do not meet when folded.",
                    self.line(*line)
                ),
                format!(
                    "Small misses at many points add up; here they make {}.",
                    self.gap(*gap)
                ),
                "Place the points where creases meet more exactly.",
            ),
        }
    }

    /// Whole marks where there are any, otherwise millimetres.
    fn gap(&self, gap: Length) -> String {
        if gap >= self.notation.step.length() {
            return self.notation.with_unit(self.mark(gap));
        }
        let step = Step::TenthMillimetre;
        let tenths = nearest(gap, step).at;
        let decimal = self.notation.decimal;
        let told = if tenths == Length::ZERO { gap } else { tenths };
        Notation { step, decimal }.with_unit(told)
    }
}
