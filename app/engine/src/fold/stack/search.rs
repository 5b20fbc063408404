//! The search for answers that keep every rule.
//!
//! Answers are followed as far as they force others. Where nothing is forced
//! one is tried; where that contradicts, what contradicted is worked out, kept
//! as a rule of its own (a lesson), and the search goes back to where the
//! lesson would have helped (conflict-driven learning).

use super::bits::{Bits, ones};
use super::rules::{Answer, Part, Rules};

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

    /// In how many ways the pairs can be answered.
    pub(super) fn count(&mut self) -> Result<u64, Undecided> {
        if !self.settle() {
            return Ok(0);
        }
        let mut count: u64 = 1;
        for group in self.groups() {
            count = count.saturating_mul(self.count_among(&group)?);
        }
        Ok(count)
    }

    /// Counts the answers to some pairs that nothing ties to the other open
    /// ones.
    fn count_among(&mut self, pairs: &[usize]) -> Result<u64, Undecided> {
        let mut count = 0;
        // For each tried answer whether its opposite was tried before.
        let mut turned: Vec<bool> = Vec::new();
        loop {
            let clash = self.follow().is_some();
            if self.steps == 0 {
                return Err(Undecided);
            }
            if !clash {
                if let Some(pair) = pairs.iter().find(|pair| self.known[**pair].is_none()) {
                    turned.push(false);
                    self.try_out(Answer {
                        pair: *pair,
                        first: true,
                    });
                    continue;
                }
                count += 1;
            }
            loop {
                let (Some(both), Some(at)) = (turned.pop(), self.tries.last()) else {
                    return Ok(count);
                };
                let tried = self.trail[*at];
                self.back_to(self.tries.len() - 1);
                if !both {
                    turned.push(true);
                    self.try_out(tried.opposite());
                    break;
                }
            }
        }
    }

    /// The open pairs, parted into groups that no rule ties together.
    fn groups(&self) -> Vec<Vec<usize>> {
        let rules = self.rules;
        let mut leader: Vec<usize> = (0..rules.pairs.len()).collect();
        let open = |pair: usize| self.known[pair].is_none();
        for rule in &rules.parities {
            tie(&mut leader, rule.pairs.iter().copied().filter(|p| open(*p)));
        }
        for (pair, (a, b)) in rules.pairs.iter().enumerate() {
            for third in rules.thirds(pair).iter() {
                let sides = [rules.answer(*a, third), rules.answer(*b, third)];
                let tied = sides.into_iter().flatten().map(|answer| answer.pair);
                tie(
                    &mut leader,
                    std::iter::once(pair).chain(tied).filter(|p| open(*p)),
                );
            }
        }
        let mut groups: Vec<Vec<usize>> = vec![Vec::new(); rules.pairs.len()];
        for pair in self.asked.iter().filter(|pair| open(**pair)) {
            groups[found(&mut leader, *pair)].push(*pair);
        }
        groups.retain(|group| !group.is_empty());
        groups
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

    /// The answers that an answer was found from.
    fn grounds(&self, answer: Answer, reason: Reason, into: &mut Vec<Answer>) {
        match reason {
            Reason::Given => {}
            Reason::Parity(rule) => {
                let others = self.rules.parities[rule].pairs.iter();
                let others = others.filter(|pair| **pair != answer.pair);
                into.extend(others.filter_map(|pair| {
                    let first = self.known[*pair]?;
                    Some(Answer { pair: *pair, first })
                }));
            }
            Reason::Between(third) => {
                let (front, back) = self.rules.facets_of(answer);
                into.extend(self.rules.answer(front, third));
                into.extend(self.rules.answer(third, back));
            }
            Reason::Lesson(lesson) => {
                let others = self.lessons[lesson]
                    .iter()
                    .filter(|other| **other != answer);
                into.extend(others.map(|other| other.opposite()));
            }
        }
    }

    /// Finds all that the answers force.
    fn follow(&mut self) -> Option<Clash> {
        while let Some(answer) = self.trail.get(self.followed).copied() {
            if self.steps == 0 {
                return None;
            }
            self.steps -= 1;
            self.followed += 1;
            let clash = self
                .follow_facets(answer)
                .or_else(|| self.follow_parities(answer))
                .or_else(|| self.follow_lessons(answer));
            if clash.is_some() {
                return clash;
            }
        }
        None
    }

    /// What is behind the one behind is behind the one in front.
    fn follow_facets(&mut self, answer: Answer) -> Option<Clash> {
        let rules = self.rules;
        let (front, back) = rules.facets_of(answer);
        for (at, thirds) in rules.thirds(answer.pair).words().iter().enumerate() {
            let farther = thirds & self.behind[back].words()[at] & !self.behind[front].words()[at];
            for third in ones(at, farther) {
                let follows = rules.answer(front, third)?;
                let clash = self.find(follows, Reason::Between(back));
                if clash.is_some() {
                    return clash;
                }
            }
            let nearer = thirds & self.before[front].words()[at] & !self.before[back].words()[at];
            for third in ones(at, nearer) {
                let follows = rules.answer(third, back)?;
                let clash = self.find(follows, Reason::Between(front));
                if clash.is_some() {
                    return clash;
                }
            }
        }
        None
    }

    fn follow_parities(&mut self, answer: Answer) -> Option<Clash> {
        let rules = self.rules;
        for at in &rules.parities_of[answer.pair] {
            let rule = &rules.parities[*at];
            let mut odd = rule.odd;
            let mut open = None;
            let mut several = false;
            for pair in &rule.pairs {
                match self.known[*pair] {
                    Some(first) => odd ^= first,
                    None => several |= open.replace(*pair).is_some(),
                }
            }
            // Where none is open, the answer at hand must be as the others say.
            let pair = open.unwrap_or(answer.pair);
            let first = if open.is_some() {
                odd
            } else {
                odd ^ answer.first
            };
            if !several {
                let clash = self.find(Answer { pair, first }, Reason::Parity(*at));
                if clash.is_some() {
                    return clash;
                }
            }
        }
        None
    }

    fn follow_lessons(&mut self, answer: Answer) -> Option<Clash> {
        let wrong = answer.opposite();
        let mut watching = std::mem::take(&mut self.watching[wrong.index()]);
        let mut clash = None;
        let mut at = 0;
        while let Some(lesson) = watching.get(at).copied() {
            // The first two answers of a lesson are watched.
            let answers = &mut self.lessons[lesson];
            if answers[0] == wrong {
                answers.swap(0, 1);
            }
            let other = answers[0];
            let known = &self.known;
            let holds = |answer: &Answer| known[answer.pair].map(|first| first == answer.first);
            if holds(&other) != Some(true) {
                let fresh = (2..answers.len()).find(|at| holds(&answers[*at]) != Some(false));
                if let Some(fresh) = fresh {
                    answers.swap(1, fresh);
                    self.watching[answers[1].index()].push(lesson);
                    watching.swap_remove(at);
                    continue;
                }
                clash = self.find(other, Reason::Lesson(lesson));
                if clash.is_some() {
                    break;
                }
            }
            at += 1;
        }
        self.watching[wrong.index()] = watching;
        clash
    }

    /// Works out what a clash teaches: of the answers it rests on, the last
    /// single one at this depth, and all from before. Goes back to where that
    /// settles the last one, and settles it.
    fn learn(&mut self, clash: Clash) {
        let depth = self.tries.len();
        let mut lesson: Vec<Answer> = Vec::new();
        let mut grounds = clash;
        let mut open = 0;
        let mut at = self.trail.len();
        let last = loop {
            for ground in grounds.drain(..) {
                let known_at = self.depth[ground.pair];
                if known_at > 0 && !self.seen[ground.pair] {
                    self.seen[ground.pair] = true;
                    if known_at == depth {
                        open += 1;
                    } else {
                        lesson.push(ground.opposite());
                    }
                }
            }
            let resting = self.trail[..at].iter().rposition(|a| self.seen[a.pair]);
            let Some(found) = resting else {
                // A clash always rests on something tried.
                self.hopeless = true;
                return;
            };
            at = found;
            let answer = self.trail[at];
            self.seen[answer.pair] = false;
            open -= 1;
            if open == 0 {
                break answer;
            }
            self.grounds(answer, self.reasons[answer.pair], &mut grounds);
        };
        for answer in &lesson {
            self.seen[answer.pair] = false;
        }
        lesson.sort_by_key(|answer| std::cmp::Reverse(self.depth[answer.pair]));
        let back = lesson.first().map_or(0, |answer| self.depth[answer.pair]);
        self.back_to(back);
        let learnt = last.opposite();
        let reason = if lesson.is_empty() {
            Reason::Given
        } else {
            lesson.insert(0, learnt);
            for answer in &lesson[..2] {
                self.watching[answer.index()].push(self.lessons.len());
            }
            self.lessons.push(lesson);
            Reason::Lesson(self.lessons.len() - 1)
        };
        self.find(learnt, reason);
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

/// Puts pairs into one group.
fn tie(leader: &mut [usize], pairs: impl Iterator<Item = usize>) {
    let mut group = None;
    for pair in pairs {
        let mine = found(leader, pair);
        match group {
            None => group = Some(mine),
            Some(theirs) => leader[mine] = theirs,
        }
    }
}

/// The pair that stands for the group of one.
fn found(leader: &mut [usize], of: usize) -> usize {
    let mut pair = of;
    while leader[pair] != pair {
        leader[pair] = leader[leader[pair]];
        pair = leader[pair];
    }
    pair
}
