//! What answers force.

use super::{Clash, Reason, Search};
use crate::fold::bits::ones;
use crate::fold::stack::rules::Answer;

impl Search<'_> {
    /// Finds all that the answers force.
    pub(super) fn follow(&mut self) -> Option<Clash> {
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
        for (at, thirds) in rules.thirds(answer.pair).iter().enumerate() {
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
}
