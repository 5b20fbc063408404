//! The search itself, in turns: in the worker, or on the page where there is none.

use std::cell::Cell;
use std::rc::Rc;

use foldwright_cutting::class::Class;
use foldwright_cutting::{Planner, Progress};
use foldwright_engine::cut_plan::CutPlan;
use serde::{Deserialize, Serialize};
use wasm_bindgen_futures::spawn_local;

use super::{Asked, Goal, Seen, Takes};
use crate::beside;
use crate::turns::Turn;

/// The work of a round. Our own bound; with another, cards that are being cut lose their
/// plan.
const WORK: u64 = 100_000;

/// What a page asks of its worker; nothing asks it to look no longer.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct Order {
    /// Which one it is, of those of the page.
    pub(super) number: u32,
    pub(super) asked: Asked,
    pub(super) goal: Goal,
}

/// What a worker says of an order; nothing says that it is there.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct Answer {
    /// Of which order.
    pub(super) number: u32,
    pub(super) seen: Seen,
}

/// The first plan; `None` where each part is cut by itself.
pub(super) fn first(asked: &Asked) -> Option<CutPlan> {
    let class = asked.0.as_ref()?;
    class.told(Planner::new(&class.job).plan())
}

/// A plan that becomes better, round by round.
struct Work<'a> {
    class: &'a Class,
    planner: Planner,
    goal: &'a Goal,
    /// After how many rounds the best plan was there.
    best: u32,
    looked: u32,
    is_done: bool,
    /// Whether the best plan is one that was looked for.
    is_found: bool,
}

impl<'a> Work<'a> {
    fn new(class: &'a Class, goal: &'a Goal) -> Self {
        let mut work = Self {
            planner: Planner::new(&class.job),
            class,
            goal,
            best: 0,
            looked: 0,
            is_done: false,
            is_found: false,
        };
        work.look_at_it();
        work
    }

    fn is_over(&self) -> bool {
        self.is_done || self.is_found || self.looked >= self.goal.rounds
    }

    /// Works for one more round; whether the plan is a better one.
    fn go_on(&mut self) -> bool {
        // Whole rounds, so that the same plan comes out on any device.
        let came = self.planner.improve(WORK, || false);
        self.looked += 1;
        self.is_done = came == Progress::Done;
        if came == Progress::Better {
            self.best = self.looked;
            self.look_at_it();
        }
        came == Progress::Better
    }

    fn look_at_it(&mut self) {
        if !self.goal.numbers.is_empty() {
            let plan = self.class.told(self.planner.plan());
            let number = plan.map(|plan| plan.number());
            self.is_found = number.is_some_and(|number| self.goal.numbers.contains(&number));
        }
    }

    fn seen(&self) -> Seen {
        let plan = self.planner.plan();
        let sequence = plan.sequence();
        Seen {
            plan: self.class.told(plan),
            takes: Some(Takes {
                sheets: plan.cost(),
                cuts: sequence.cuts(),
                settings: sequence.settings().len(),
                at_least: self.planner.bound().cost,
            }),
            rounds: self.best,
            looked: self.looked,
            is_done: self.is_done,
            is_last: self.is_over(),
        }
    }
}

/// Looks for better plans in turns for as long as they are `wanted`. The first one is
/// told at once, the best so far at the end of a turn that found a better one, and the
/// best of all at the end, said to be the last.
pub(super) async fn search(
    asked: &Asked,
    goal: &Goal,
    wanted: impl Fn() -> bool,
    told: impl Fn(Seen),
) {
    let Some(class) = &asked.0 else {
        told(Seen {
            plan: None,
            takes: None,
            rounds: 0,
            looked: goal.rounds,
            is_done: true,
            is_last: true,
        });
        return;
    };
    let mut work = Work::new(class, goal);
    told(work.seen());
    let mut turn = Turn::begin();
    let mut is_better = false;
    while !work.is_over() {
        if turn.is_over() && is_better {
            told(work.seen());
            is_better = false;
        }
        turn.or_next().await;
        if !wanted() {
            return;
        }
        is_better |= work.go_on();
        if work.is_over() {
            told(work.seen());
        }
    }
}

/// Looks for plans in a worker for the page that started it: the last that was asked
/// for, and no other.
pub(crate) fn serve() {
    let present = Rc::new(Cell::new(0_u32));
    beside::serve(move |order| {
        let mine = present.get().wrapping_add(1);
        present.set(mine);
        let text = order.and_then(|order| order.as_string());
        let order: Option<Order> = text.and_then(|text| serde_json::from_str(&text).ok());
        let present = Rc::clone(&present);
        spawn_local(async move {
            let Some(Order {
                number,
                asked,
                goal,
            }) = order
            else {
                return;
            };
            let answer = |seen| {
                if let Ok(text) = serde_json::to_string(&Answer { number, seen }) {
                    beside::say(&text);
                }
            };
            search(&asked, &goal, || present.get() == mine, answer).await;
        });
    });
}

#[cfg(test)]
mod tests {
    use foldwright_cutting::class::Class;
    use foldwright_engine::card::{Tools, work_out};
    use foldwright_engine::recipe::starters;

    use super::super::{Asked, Goal, MOST_ROUNDS, ROUNDS, Seen};
    use super::{Answer, Order, Work, first};

    /// So many cards of each starting fold, as far as they can be planned.
    fn classes(cards: u32) -> impl Iterator<Item = Asked> {
        let recipes = starters().iter().map(|starter| starter.recipe.clone());
        recipes.map(move |recipe| {
            let card = work_out(&recipe, &Tools::default());
            Asked::of(&recipe, &card, cards, &[])
        })
    }

    fn class(asked: &Asked) -> &Class {
        asked.0.as_ref().expect("it can be planned")
    }

    fn found(asked: &Asked, goal: &Goal) -> Vec<Seen> {
        let mut work = Work::new(class(asked), goal);
        let mut seen = vec![work.seen()];
        while !work.is_over() {
            if work.go_on() || work.is_over() {
                seen.push(work.seen());
            }
        }
        seen
    }

    /// What is kept of a plan is the number of its rounds, or its own number in the names
    /// of steps: by either, another device comes to the same.
    #[test]
    fn a_plan_is_found_again_by_its_rounds_and_by_its_number() {
        for asked in classes(24) {
            for seen in found(&asked, &Goal::rounds(ROUNDS)) {
                let again = found(&asked, &Goal::rounds(seen.rounds));
                let again = again.last().expect("a plan");
                assert_eq!((&again.plan, again.rounds), (&seen.plan, seen.rounds));
                assert!(again.is_last && again.is_of(seen.rounds));
                let Some(plan) = &seen.plan else { continue };
                let by_number = Goal {
                    rounds: MOST_ROUNDS,
                    numbers: vec![7, plan.number()],
                };
                let by_number = found(&asked, &by_number);
                let last = by_number.last().expect("a plan");
                assert_eq!(last.plan.as_ref(), Some(plan));
                assert!(last.is_last && last.rounds <= seen.rounds);
            }
        }
    }

    /// Nothing is told that is worse than what was, and no bound is more than the plan.
    #[test]
    fn plans_become_better_and_keep_to_what_is_proven() {
        for asked in classes(60) {
            let seen = found(&asked, &Goal::rounds(ROUNDS));
            assert_eq!(seen[0].plan, first(&asked));
            let takes = seen.iter().filter_map(|seen| seen.takes);
            let takes: Vec<_> = takes.collect();
            assert!(takes.windows(2).all(|two| two[1].sheets <= two[0].sheets));
            assert!(takes.iter().all(|takes| takes.at_least <= takes.sheets));
        }
    }

    #[test]
    fn orders_and_answers_come_as_they_went() {
        for asked in classes(3) {
            let seen = found(&asked, &Goal::rounds(ROUNDS)).pop().expect("a plan");
            let answer = Answer { number: 7, seen };
            let text = serde_json::to_string(&answer).expect("a text");
            let read: Answer = serde_json::from_str(&text).expect("an answer");
            assert_eq!((read.number, read.seen), (7, answer.seen));
            let order = Order {
                number: 8,
                asked,
                goal: Goal::rounds(ROUNDS),
            };
            let text = serde_json::to_string(&order).expect("a text");
            let read: Order = serde_json::from_str(&text).expect("an order");
            assert_eq!((read.asked, read.goal), (order.asked, order.goal));
        }
    }
}
