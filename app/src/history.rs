//! Undo and redo for a recipe that is being edited.

use std::cell::Cell;
use std::collections::VecDeque;

use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

/// How many changes can be undone. Our own bound: more than an evening at the
/// table takes, and at a few kilobytes each no burden.
const MOST: usize = 200;

/// How many times something may come from elsewhere and what was before can
/// still be undone. Our own bound, as each keeps two states.
const MOST_CAME: usize = 40;

/// Takes what came from elsewhere along: given what the present state was
/// before, what it became, and a state of one's own, that one as it would be
/// with it.
pub type Carry<T> = fn(&T, &T, &T) -> Option<T>;

/// What was before and after the present state of something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Steps<T> {
    /// The states, each with how often something had come by then.
    past: VecDeque<(usize, T)>,
    future: Vec<(usize, T)>,
    /// What came from elsewhere: the state before and after.
    came: VecDeque<(T, T)>,
    /// How often something came that is no longer kept.
    forgotten: usize,
    /// Whether a gesture is under way, all of which is one change.
    held: bool,
}

impl<T> Default for Steps<T> {
    fn default() -> Self {
        Self {
            past: VecDeque::new(),
            future: Vec::new(),
            came: VecDeque::new(),
            forgotten: 0,
            held: false,
        }
    }
}

impl<T: PartialEq + Clone> Steps<T> {
    /// Notes that `before` has become something else. During a gesture only
    /// the state before it counts.
    pub fn note(&mut self, before: T) {
        self.future.clear();
        if self.held {
            return;
        }
        if self.past.len() == MOST {
            self.past.pop_front();
        }
        self.past.push_back((self.now(), before));
    }

    /// Notes that `before` has become `after` by somebody else's doing, which
    /// is not undone.
    pub fn arrived(&mut self, before: T, after: T) {
        if self.past.is_empty() && self.future.is_empty() {
            return;
        }
        self.came.push_back((before, after));
        if self.came.len() > MOST_CAME {
            self.came.pop_front();
            self.forgotten += 1;
            let forgotten = self.forgotten;
            self.past.retain(|(came, _)| *came >= forgotten);
            self.future.retain(|(came, _)| *came >= forgotten);
        }
    }

    /// Begins a gesture on the present state: all changes until its end are
    /// undone together.
    pub fn hold(&mut self, present: T) {
        if !self.held {
            let future = std::mem::take(&mut self.future);
            self.note(present);
            self.future = future;
            self.held = true;
        }
    }

    /// Ends a gesture. One that changed nothing leaves no trace.
    pub fn release(&mut self, present: &T) {
        if self.held && self.past.back().is_some_and(|(_, state)| state == present) {
            self.past.pop_back();
        }
        self.held = false;
    }

    /// The state before the present one, which can then be done again.
    pub fn undo(&mut self, present: T, carry: Carry<T>) -> Option<T> {
        while let Some((came, state)) = self.past.pop_back() {
            if let Some(before) = self.carried(came, state, carry)
                && before != present
            {
                self.future.push((self.now(), present));
                return Some(before);
            }
        }
        None
    }

    /// The state that was undone last.
    pub fn redo(&mut self, present: T, carry: Carry<T>) -> Option<T> {
        while let Some((came, state)) = self.future.pop() {
            if let Some(after) = self.carried(came, state, carry)
                && after != present
            {
                self.past.push_back((self.now(), present));
                return Some(after);
            }
        }
        None
    }

    /// How often something has come.
    fn now(&self) -> usize {
        self.forgotten + self.came.len()
    }

    /// A state with all that has come since.
    fn carried(&self, came: usize, state: T, carry: Carry<T>) -> Option<T> {
        let since = self.came.iter().skip(came.checked_sub(self.forgotten)?);
        since
            .into_iter()
            .try_fold(state, |state, (before, after)| carry(before, after, &state))
    }
}

thread_local! {
    static CARRIED_BY: Cell<Option<Carry<Recipe>>> = const { Cell::new(None) };
}

/// Names what takes along what came from elsewhere, which the one who syncs brings.
/// Until then a state before something came cannot be gone back to.
pub(crate) fn carried_by(carry: Carry<Recipe>) {
    CARRIED_BY.set(Some(carry));
}

fn carry(before: &Recipe, theirs: &Recipe, mine: &Recipe) -> Option<Recipe> {
    CARRIED_BY.get()?(before, theirs, mine)
}

/// Undo and redo for the recipe in a signal. Whoever edits a recipe does it
/// through here; found by [`use_context`] under any page that shows a recipe.
#[derive(Clone, Copy)]
pub struct History {
    recipe: RwSignal<Recipe>,
    steps: RwSignal<Steps<Recipe>>,
}

impl History {
    /// A history that starts with what the signal holds now.
    pub fn of(recipe: RwSignal<Recipe>) -> Self {
        Self {
            recipe,
            steps: RwSignal::default(),
        }
    }

    /// Changes the recipe. One call is one change to undo, unless a gesture is
    /// under way. A call that changes nothing leaves no trace and wakes nobody.
    pub fn edit<T>(self, change: impl FnOnce(&mut Recipe) -> T) -> T {
        let before = self.recipe.get_untracked();
        let mut after = before.clone();
        let result = change(&mut after);
        if after != before {
            self.steps.update(|steps| steps.note(before));
            self.recipe.set(after);
        }
        result
    }

    /// Whether the page that shows the recipe is still there.
    pub(crate) fn is_here(self) -> bool {
        self.recipe.try_with_untracked(|_| ()).is_some()
    }

    /// Begins a gesture, such as dragging a score: the edits until
    /// [`Self::release`] are undone together.
    pub fn hold(self) {
        let present = self.recipe.get_untracked();
        self.steps.update(|steps| steps.hold(present));
    }

    /// Ends a gesture.
    pub fn release(self) {
        let present = self.recipe.get_untracked();
        self.steps.update(|steps| steps.release(&present));
    }

    /// Takes the last change back.
    pub fn undo(self) {
        self.step(|steps, present| steps.undo(present, carry));
    }

    /// Makes the change again that was taken back last.
    pub fn redo(self) {
        self.step(|steps, present| steps.redo(present, carry));
    }

    /// Whether there is a change to take back. Tracks.
    pub fn can_undo(self) -> bool {
        self.steps.with(|steps| !steps.past.is_empty())
    }

    /// Whether there is a change to make again. Tracks.
    pub fn can_redo(self) -> bool {
        self.steps.with(|steps| !steps.future.is_empty())
    }

    /// Notes that the recipe has become another by somebody else's doing, and
    /// shows it. Undo leaves that as it is.
    pub fn arrived(self, theirs: Recipe) {
        let before = self.recipe.get_untracked();
        self.steps
            .update(|steps| steps.arrived(before, theirs.clone()));
        self.recipe.set(theirs);
    }

    /// Forgets everything, because another recipe has taken the place of this
    /// one.
    pub fn forget(self) {
        self.steps.set(Steps::default());
    }

    fn step(self, which: impl FnOnce(&mut Steps<Recipe>, Recipe) -> Option<Recipe>) {
        let present = self.recipe.get_untracked();
        let mut found = None;
        self.steps.update(|steps| found = which(steps, present));
        if let Some(found) = found {
            self.recipe.set(found);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{MOST, MOST_CAME, Steps};

    /// Nothing has come from elsewhere.
    #[expect(
        clippy::trivially_copy_pass_by_ref,
        reason = "states are passed as the larger ones are"
    )]
    fn alone(_: &usize, _: &usize, _: &usize) -> Option<usize> {
        None
    }

    /// What comes adds to a number; 13 can't be added to.
    #[expect(
        clippy::trivially_copy_pass_by_ref,
        reason = "states are passed as the larger ones are"
    )]
    fn adds(before: &usize, after: &usize, own: &usize) -> Option<usize> {
        (*own != 13).then(|| own + after - before)
    }

    #[test]
    fn what_is_undone_can_be_done_again() {
        let mut steps = Steps::default();
        steps.note(1);
        steps.note(2);
        assert_eq!(steps.undo(3, alone), Some(2));
        assert_eq!(steps.undo(2, alone), Some(1));
        assert_eq!(steps.undo(1, alone), None);
        assert_eq!(steps.redo(1, alone), Some(2));
        assert_eq!(steps.redo(2, alone), Some(3));
        assert_eq!(steps.redo(3, alone), None);
    }

    #[test]
    fn a_new_change_ends_what_could_be_done_again() {
        let mut steps = Steps::default();
        steps.note(1);
        assert_eq!(steps.undo(2, alone), Some(1));
        steps.note(1);
        assert_eq!(steps.redo(7, alone), None);
        assert_eq!(steps.undo(7, alone), Some(1));
    }

    #[test]
    fn a_gesture_is_undone_at_once() {
        let mut steps = Steps::default();
        steps.hold(1);
        steps.note(1);
        steps.note(2);
        steps.release(&3);
        assert_eq!(steps.undo(3, alone), Some(1));
        assert_eq!(steps.undo(1, alone), None);
    }

    #[test]
    fn a_gesture_that_changes_nothing_leaves_no_trace() {
        let mut steps = Steps::default();
        steps.note(1);
        assert_eq!(steps.undo(2, alone), Some(1));
        steps.hold(1);
        steps.release(&1);
        assert_eq!(steps.undo(1, alone), None);
        assert_eq!(steps.redo(1, alone), Some(2));
    }

    #[test]
    fn the_oldest_change_goes_first() {
        let mut steps = Steps::default();
        for state in 0..=MOST {
            steps.note(state);
        }
        let mut oldest = None;
        let mut present = MOST + 1;
        while let Some(before) = steps.undo(present, alone) {
            oldest = Some(before);
            present = before;
        }
        assert_eq!(oldest, Some(1));
    }

    #[test]
    fn what_came_from_elsewhere_is_not_undone() {
        let mut steps = Steps::default();
        steps.note(1);
        // 2 was made here; somebody adds 10, and 13 is made of that.
        steps.arrived(2, 12);
        steps.note(12);
        steps.arrived(14, 114);
        assert_eq!(steps.undo(114, adds), Some(112));
        assert_eq!(steps.undo(112, adds), Some(111));
        assert_eq!(steps.undo(111, adds), None);
        steps.arrived(111, 1111);
        assert_eq!(steps.redo(1111, adds), Some(1112));
        assert_eq!(steps.redo(1112, adds), Some(1114));
    }

    #[test]
    fn what_can_no_longer_be_undone_is_passed_over() {
        let mut steps = Steps::default();
        steps.note(1);
        steps.note(13);
        steps.arrived(2, 12);
        assert_eq!(steps.undo(12, adds), Some(11));
        // Undoing what somebody else has changed since changes nothing.
        let mut steps = Steps::default();
        steps.note(1);
        steps.note(2);
        steps.arrived(3, 4);
        assert_eq!(steps.undo(3, adds), Some(2));
        let mut steps = Steps::default();
        steps.note(1);
        for _ in 0..=MOST_CAME {
            steps.arrived(2, 12);
        }
        assert_eq!(steps.undo(5, adds), None);
    }
}
