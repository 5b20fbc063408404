//! The search for answers that keep every rule.
//!
//! Answers are followed as far as they force others. Where nothing is forced
//! one is tried; where that contradicts, what contradicted is worked out, kept
//! as a rule of its own (a lesson), and the search goes back to where the
//! lesson would have helped (conflict-driven learning).

mod count;
mod follow;
mod learn;

use super::rules::{Answer, Part, Rules};
use crate::fold::bits::Bits;

/// Answers followed before a search gives up: about a second on a phone. (Our
/// own choice.)
pub(super) const MOST_STEPS: u64 = 4_000_000;

/// The search gave up before it knew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Undecided;

/// Why an answer was given.
#[derive(Debug, Clone, Copy)]
enum Reason {
    /// It was given, or tried.
    Given,
    /// The rest of a parity.
    Parity(usize),
    /// The facet that lies between the two.
    Between(usize),
    /// All else in a lesson is wrong.
    Lesson(usize),
}

/// Answers that contradict each other.
type Clash = Vec<Answer>;

/// A search while it is under way.
pub(super) struct Search<'a> {
    rules: &'a Rules,
    /// Pairs that are asked about.
    asked: Vec<usize>,
    known: Vec<Option<bool>>,
    /// For each facet those known to lie behind it, and those in front.
    behind: Vec<Bits>,
    before: Vec<Bits>,
    /// Answers in the order they were found, and how many have been followed.
    trail: Vec<Answer>,
    followed: usize,
    /// Where on the trail each tried answer stands.
    tries: Vec<usize>,
    /// For each pair, how many were tried before it was answered, and why it
    /// was answered so.
    depth: Vec<usize>,
    reasons: Vec<Reason>,
    /// At least one of each lesson's answers holds.
    lessons: Vec<Vec<Answer>>,
    /// For each answer the lessons to look at when it turns out wrong.
    watching: Vec<Vec<usize>>,
    /// How each pair was answered last, to be tried first.
    leaning: Vec<bool>,
    /// No asked pair before this place is open.
    answered: usize,
    /// For working out lessons: pairs seen.
    seen: Vec<bool>,
    /// The rules contradict each other.
    hopeless: bool,
    /// Steps left.
    pub(super) steps: u64,
}

impl<'a> Search<'a> {
    /// Asks about every pair.
    pub(super) fn new(rules: &'a Rules) -> Self {
        Self::asking(rules, (0..rules.pairs.len()).collect())
    }

    /// Asks only about pairs within a part, whose rules are given.
    pub(super) fn within(rules: &'a Rules, part: &Part) -> Self {
        let pairs = 0..rules.pairs.len();
        Self::asking(
            rules,
            pairs.filter(|pair| rules.is_in(*pair, part)).collect(),
        )
    }

    fn asking(rules: &'a Rules, asked: Vec<usize>) -> Self {
        let pairs = rules.pairs.len();
        let mut search = Self {
            rules,
            asked,
            known: vec![None; pairs],
            behind: vec![Bits::below(rules.facets); rules.facets],
            before: vec![Bits::below(rules.facets); rules.facets],
            trail: Vec::with_capacity(pairs),
            followed: 0,
            tries: Vec::new(),
            depth: vec![0; pairs],
            reasons: vec![Reason::Given; pairs],
            lessons: Vec::new(),
            watching: vec![Vec::new(); pairs * 2],
            leaning: vec![true; pairs],
            answered: 0,
            seen: vec![false; pairs],
            hopeless: false,
            steps: MOST_STEPS,
        };
        for fact in rules.facts() {
            search.give(fact);
        }
        search
    }

    /// Gives an answer for good.
    pub(super) fn give(&mut self, answer: Answer) {
        self.back_to(0);
        self.hopeless |= self.find(answer, Reason::Given).is_some();
    }

    /// Follows what is given for good; whether it holds together.
    pub(super) fn settle(&mut self) -> bool {
        self.back_to(0);
        self.hopeless |= self.follow().is_some();
        !self.hopeless
    }

    /// How many more pairs an answer settles by itself; `None` where it leads
    /// to a contradiction.
    pub(super) fn settles(&mut self, answer: Answer) -> Option<usize> {
        let before = self.trail.len();
        self.try_out(answer);
        let clash = self.follow();
        let settled = self.trail.len() - before;
        self.back_to(0);
        clash.is_none().then_some(settled)
    }

    /// Whether there are answers to all pairs with these among them; they can
    /// then be read.
    pub(super) fn solve(&mut self, wanted: &[Answer]) -> Result<bool, Undecided> {
        self.back_to(0);
        while !self.hopeless {
            if let Some(clash) = self.follow() {
                if self.tries.is_empty() {
                    self.hopeless = true;
                } else {
                    self.learn(clash);
                }
            } else if self.steps == 0 {
                return Err(Undecided);
            } else if let Some(answer) = wanted.get(self.tries.len()) {
                match self.holds(*answer) {
                    Some(true) => self.tries.push(self.trail.len()),
                    Some(false) => return Ok(false),
                    None => self.try_out(*answer),
                }
            } else if let Some(pair) = self.next_open() {
                let first = self.leaning[pair];
                self.try_out(Answer { pair, first });
            } else {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Whether an answer holds; `None` while its pair is open.
    pub(super) fn holds(&self, answer: Answer) -> Option<bool> {
        self.known[answer.pair].map(|first| first == answer.first)
    }

    /// For each pair whether its first facet is in front, where known.
    pub(super) fn answers(&self) -> Vec<Option<bool>> {
        self.known.clone()
    }

    /// For each facet those behind it.
    pub(super) fn all_behind(&self) -> &[Bits] {
        &self.behind
    }

    fn next_open(&mut self) -> Option<usize> {
        let open = |pair: &usize| self.known[*pair].is_none();
        self.answered += self.asked[self.answered..].iter().position(open)?;
        self.asked.get(self.answered).copied()
    }

    fn try_out(&mut self, answer: Answer) {
        self.tries.push(self.trail.len());
        // The pair is open, so this cannot clash.
        self.find(answer, Reason::Given);
    }

    /// Notes an answer; a clash where the opposite is known.
    fn find(&mut self, answer: Answer, reason: Reason) -> Option<Clash> {
        match self.holds(answer) {
            Some(true) => None,
            Some(false) => {
                let mut clash = vec![answer.opposite()];
                self.grounds(answer, reason, &mut clash);
                Some(clash)
            }
            None => {
                let (front, back) = self.rules.facets_of(answer);
                self.behind[front].add(back);
                self.before[back].add(front);
                self.known[answer.pair] = Some(answer.first);
                self.depth[answer.pair] = self.tries.len();
                self.reasons[answer.pair] = reason;
                self.trail.push(answer);
                None
            }
        }
    }

    /// Takes back all answers found since that many were tried.
    fn back_to(&mut self, tries: usize) {
        let Some(from) = self.tries.get(tries).copied() else {
            return;
        };
        for answer in self.trail.drain(from..) {
            let (front, back) = self.rules.facets_of(answer);
            self.behind[front].drop(back);
            self.before[back].drop(front);
            self.known[answer.pair] = None;
            self.leaning[answer.pair] = answer.first;
        }
        self.tries.truncate(tries);
        self.followed = from;
        self.answered = 0;
    }
}
