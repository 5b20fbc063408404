//! The way of one block from closed to open: start, follow, stop.
//!
//! The closed card is flat, where every loop is singular and several motions
//! branch off. So the way begins a few degrees open, at angles found from many
//! guesses, is followed back to make sure that it comes from the closed card,
//! and then followed on, as far as the loops close and no crease bends back.

use std::f64::consts::PI;

use super::blocks::Block;
use super::closure::Closure;
use super::linkage::{GIVE, Linkage};

/// Main angle at which the way begins, in radians (2°): open enough that a
/// wrong motion misses by many times what the solver leaves. A card that jams
/// before is as good as locked.
const START: f64 = PI / 90.0;

/// Largest gap, in millimetres, at which loops are found closed, beside what
/// they miss by in the closed card: above what solving leaves, and a fifth of
/// what paper gives, so that a jam is told to within a degree. (Own choice.)
const SETTLED: f64 = 0.002;

/// Longest step of the driver, in radians (3°): short enough that the angles
/// between are nearly straight.
const STEP: f64 = PI / 60.0;

/// Shortest step of the driver, in radians (0.002°): a jam is located to this.
const FINEST: f64 = PI / 90_000.0;

/// How far past its end a crease may bend, in radians (0.06°): nothing that
/// paper shows.
const SLACK: f64 = 1e-3;

/// Largest difference between an angle foreseen and found, in radians (20°);
/// more is another motion.
const JUMP: f64 = PI / 9.0;

/// How near its end a crease is straight where the loops stop closing, in
/// radians (6°): angles change ever faster there.
const STRAIGHT: f64 = 0.1;

/// Guesses at the first angles.
const GUESSES: usize = 32;
/// Motions that are followed before the farthest is taken.
const BRANCHES: usize = 4;
/// Rounds of the solver for a guess, along the way, and for a pose between.
const SEARCH: u32 = 80;
const FOLLOW: u32 = 40;
const BETWEEN: u32 = 12;

/// Most joints that move each other; more would take too long. The most
/// coupled of pop-ups have some thirty. (Own choice.)
pub(super) const MOST_COUPLED: usize = 96;

/// The angles of a block's joints, in its order, the driver first.
type Knot = Vec<f64>;

/// Why a way ends.
#[derive(Debug, PartialEq)]
pub(super) enum End {
    /// Fully open.
    Open,
    /// The loops do not close, or the joint at this index in the block would
    /// have to bend back.
    Jam(Option<usize>),
    /// It never moves; the joint at this index in the block would have to bend
    /// the other way.
    Locked(Option<usize>),
    /// These loops miss in the closed card already.
    Unclosed(Vec<(Vec<usize>, f64)>),
    /// More joints than are solved.
    TooCoupled,
}

/// The way of a block.
#[derive(Debug)]
pub(super) struct Way {
    pub knots: Vec<Knot>,
    pub end: End,
    /// Which joints the driver does not determine, by index in the block.
    pub free: Vec<bool>,
}

impl Way {
    fn still(end: End, joints: usize) -> Self {
        Self {
            knots: vec![vec![0.0; joints]],
            end,
            free: vec![false; joints],
        }
    }

    /// How far the driver opens, in radians.
    pub(super) fn reach(&self) -> f64 {
        self.knots.last().map_or(0.0, |knot| knot[0])
    }

    /// Sets the angles of the block where its driver is open by `share` of its
    /// whole movement; the gap left in its loops, in millimetres.
    pub(super) fn pose(&self, closure: &mut Closure, share: f64) -> f64 {
        let at = share * self.reach();
        let after = self.knots.partition_point(|knot| knot[0] < at);
        let last = self.knots.len() - 1;
        let next = &self.knots[after.min(last)];
        let before = &self.knots[after.min(last).saturating_sub(1)];
        let span = next[0] - before[0];
        // Exactly on a knot there is nothing to solve: the flat states at the
        // two ends stay exact.
        let part = if span > 0.0 {
            ((at - before[0]) / span).min(1.0)
        } else {
            1.0
        };
        let between: Knot = before
            .iter()
            .zip(next)
            .map(|(a, b)| a + (b - a) * part)
            .collect();
        closure.set(&between);
        if part < 1.0 {
            closure.close(BETWEEN)
        } else {
            closure.gap()
        }
    }
}

/// Follows a block from closed to open.
pub(super) fn way(linkage: &Linkage, block: &Block) -> Way {
    let joints = block.joints.len();
    let driver = &linkage.joints[block.joints[0]];
    if block.loops.is_empty() {
        // A crease alone opens flat; one that is flat already stays.
        let mut way = Way::still(End::Open, joints);
        if driver.folded {
            way.knots.push(vec![PI]);
        }
        return way;
    }
    if joints > MOST_COUPLED {
        return Way::still(End::TooCoupled, joints);
    }
    let mut closure = Closure::new(linkage, block);
    let missed = closure.misses(GIVE);
    if !missed.is_empty() {
        return Way::still(End::Unclosed(missed), joints);
    }
    let mut found: Vec<Knot> = Vec::new();
    let mut best = Way::still(End::Locked(None), joints);
    let mut guess = Guesses::new(joints);
    for _ in 0..GUESSES {
        let first = match guess.next_start(&mut closure) {
            Ok(first) => first,
            Err(blamed) => {
                if let End::Locked(known) = &mut best.end {
                    *known = known.or(blamed);
                }
                continue;
            }
        };
        let known = |other: &Knot| distance(other, &first) < STEP / 30.0;
        if found.iter().any(known) {
            continue;
        }
        found.push(first.clone());
        if let Some(beginning) = back(&mut closure, &first) {
            let (knots, end) = follow(&mut closure, beginning);
            let way = Way {
                knots,
                end,
                ..Way::still(End::Open, joints)
            };
            if way.reach() > best.reach() {
                best = way;
            }
        }
        if best.end == End::Open || found.len() >= BRANCHES {
            break;
        }
    }
    // Flat ends and dead points blur the count; they do not fall on both.
    let moving = best.knots.len() - 1;
    for third in [moving / 3, moving * 2 / 3] {
        if third > 0 {
            closure.held.fill(false);
            closure.set(&best.knots[third]);
            let free = closure.undetermined();
            best.free
                .iter_mut()
                .zip(free)
                .for_each(|(all, here)| *all |= here);
        }
    }
    best
}

/// Guesses at the angles a few degrees open.
struct Guesses {
    joints: usize,
    made: usize,
    seed: u64,
}

impl Guesses {
    fn new(joints: usize) -> Self {
        Self {
            joints,
            made: 0,
            seed: 0x9E37_79B9_7F4A_7C15,
        }
    }

    /// A factor from 1/8 to 4, the logarithm even (a linear congruential
    /// generator; its constants by Knuth, MMIX).
    fn factor(&mut self) -> f64 {
        self.seed = self
            .seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let [.., high] = self.seed.to_be_bytes().map(f64::from);
        let [first, second, ..] = self.seed.to_be_bytes().map(f64::from);
        let even = (first + (second + high / 256.0) / 256.0) / 256.0;
        (even * 5.0 - 3.0).exp2()
    }

    /// The next guess, closed. The error, when it does not close with every
    /// crease on its own side, names the crease in the way, if any.
    fn next_start(&mut self, closure: &mut Closure) -> Result<Knot, Option<usize>> {
        let mut knot = vec![START; self.joints];
        // The first guess opens all alike, which also decides what a crease
        // that nothing drives does.
        if self.made > 0 {
            for angle in knot.iter_mut().skip(1) {
                *angle = START * self.factor();
            }
        }
        self.made += 1;
        closure.held.fill(false);
        closure.set(&knot);
        settle(closure, SEARCH)?;
        Ok(closure.angles())
    }
}

fn distance(a: &[f64], b: &[f64]) -> f64 {
    a.iter()
        .zip(b)
        .fold(0.0, |most, (a, b)| most.max((a - b).abs()))
}

/// Closes the loops, holding creases at their ends where that is possible.
/// The error names the crease in the way, by its index in the block, if any.
fn settle(closure: &mut Closure, rounds: u32) -> Result<(), Option<usize>> {
    closure.held.fill(false);
    let mut blamed = None;
    for _ in 0..closure.held.len() {
        let gap = closure.close(rounds);
        if gap.is_nan() || gap > closure.settled(SETTLED) {
            return Err(blamed);
        }
        let Some((index, end)) = closure.bent_back(SLACK) else {
            return Ok(());
        };
        blamed = Some(index);
        closure.held[index] = true;
        let mut angles = closure.angles();
        angles[index] = end;
        closure.set(&angles);
    }
    Err(blamed)
}

/// One step: from the last knots to where the driver is open by `at`.
fn advance(closure: &mut Closure, knots: &[Knot], at: f64) -> Result<Knot, Option<usize>> {
    let [.., before, last] = knots else {
        return Err(None);
    };
    let span = last[0] - before[0];
    let ahead = (at - last[0]) / span;
    let foreseen: Knot = before
        .iter()
        .zip(last)
        .map(|(a, b)| b + (b - a) * ahead)
        .collect();
    closure.set(&foreseen);
    settle(closure, FOLLOW)?;
    let knot = closure.angles();
    if distance(&knot, &foreseen) > JUMP {
        return Err(None);
    }
    Ok(knot)
}

/// Follows a start back towards the closed card: the knots from closed to the
/// start, or nothing when it does not come from there.
fn back(closure: &mut Closure, first: &Knot) -> Option<Vec<Knot>> {
    let closed = vec![0.0; first.len()];
    let mut knots = vec![closed.clone(), first.clone()];
    for _ in 0..3 {
        let at = knots[1][0] / 2.0;
        let knot = advance(closure, &knots[..2], at).ok()?;
        knots.insert(1, knot);
    }
    let opened = |knot: &Knot| distance(knot, &closed);
    // An eighth of the way in, an eighth of the angle is left; twice that
    // allows for curves.
    (opened(&knots[1]) <= opened(first) / 4.0).then_some(knots)
}

/// Follows the way on from its last knots.
fn follow(closure: &mut Closure, mut knots: Vec<Knot>) -> (Vec<Knot>, End) {
    let mut step = STEP;
    loop {
        let from = knots.last().map_or(PI, |knot| knot[0]);
        if from >= PI {
            flatten(closure, &mut knots);
            return (knots, End::Open);
        }
        let at = if from + step > PI - FINEST {
            PI
        } else {
            from + step
        };
        match advance(closure, &knots, at) {
            Ok(knot) => {
                knots.push(knot);
                step = (step * 1.5).min(STEP);
            }
            Err(_) if step > FINEST => step /= 2.0,
            Err(blamed) => {
                let blamed = blamed.or_else(|| straight(knots.last()?));
                return (knots, End::Jam(blamed));
            }
        }
    }
}

/// The crease that is stretched straight, by its index in the block.
fn straight(knot: &Knot) -> Option<usize> {
    let others = knot.iter().enumerate().skip(1);
    others
        .filter(|(_, angle)| **angle > PI - STRAIGHT)
        .max_by(|a, b| a.1.total_cmp(b.1))
        .map(|(index, _)| index)
}

/// Sets creases that end flat or shut to just that: where whole loops lie flat
/// the solver converges slowly and stays near.
fn flatten(closure: &mut Closure, knots: &mut [Knot]) {
    let Some(last) = knots.last_mut() else {
        return;
    };
    let mut ended = last.clone();
    closure.held.fill(false);
    for (angle, held) in ended.iter_mut().zip(&mut closure.held) {
        for end in [0.0, PI] {
            if (*angle - end).abs() < SLACK {
                *angle = end;
                *held = true;
            }
        }
    }
    closure.set(&ended);
    if closure.close(FOLLOW) <= closure.settled(SETTLED)
        && distance(&closure.angles(), last) < SLACK
    {
        *last = closure.angles();
    }
}
