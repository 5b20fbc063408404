//! What contradictions teach.

use super::{Clash, Reason, Search};
use crate::fold::stack::rules::Answer;

impl Search<'_> {
    /// The answers that an answer was found from.
    pub(super) fn grounds(&self, answer: Answer, reason: Reason, into: &mut Vec<Answer>) {
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

    /// Works out what a clash teaches: of the answers it rests on, the last
    /// single one at this depth, and all from before. Goes back to where that
    /// settles the last one, and settles it.
    pub(super) fn learn(&mut self, clash: Clash) {
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
}
