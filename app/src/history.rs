//! Undo and redo for a recipe that is being edited.

use std::collections::VecDeque;

use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

/// How many changes can be undone. Our own bound: more than an evening at the
/// table takes, and at a few kilobytes each no burden.
const MOST: usize = 200;

/// What was before and after the present state of something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Steps<T> {
    past: VecDeque<T>,
    future: Vec<T>,
    /// Whether a gesture is under way, all of which is one change.
    held: bool,
}

impl<T> Default for Steps<T> {
    fn default() -> Self {
        Self {
            past: VecDeque::new(),
            future: Vec::new(),
            held: false,
        }
    }
}

impl<T: PartialEq> Steps<T> {
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
        self.past.push_back(before);
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
        if self.held && self.past.back() == Some(present) {
            self.past.pop_back();
        }
        self.held = false;
    }

    /// The state before the present one, which can then be done again.
    pub fn undo(&mut self, present: T) -> Option<T> {
        let before = self.past.pop_back()?;
        self.future.push(present);
        Some(before)
    }

    /// The state that was undone last.
    pub fn redo(&mut self, present: T) -> Option<T> {
        let after = self.future.pop()?;
        self.past.push_back(present);
        Some(after)
    }
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
        self.step(Steps::undo);
    }

    /// Makes the change again that was taken back last.
    pub fn redo(self) {
        self.step(Steps::redo);
    }

    /// Whether there is a change to take back. Tracks.
    pub fn can_undo(self) -> bool {
        self.steps.with(|steps| !steps.past.is_empty())
    }

    /// Whether there is a change to make again. Tracks.
    pub fn can_redo(self) -> bool {
        self.steps.with(|steps| !steps.future.is_empty())
    }

    /// Forgets everything, because the recipe has come from elsewhere and
    /// going back would silently undo somebody else's work.
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
    use super::{MOST, Steps};

    #[test]
    fn what_is_undone_can_be_done_again() {
        let mut steps = Steps::default();
        steps.note(1);
        steps.note(2);
        assert_eq!(steps.undo(3), Some(2));
        assert_eq!(steps.undo(2), Some(1));
        assert_eq!(steps.undo(1), None);
        assert_eq!(steps.redo(1), Some(2));
        assert_eq!(steps.redo(2), Some(3));
        assert_eq!(steps.redo(3), None);
    }

    #[test]
    fn a_new_change_ends_what_could_be_done_again() {
        let mut steps = Steps::default();
        steps.note(1);
        assert_eq!(steps.undo(2), Some(1));
        steps.note(1);
        assert_eq!(steps.redo(7), None);
        assert_eq!(steps.undo(7), Some(1));
    }

    #[test]
    fn a_gesture_is_undone_at_once() {
        let mut steps = Steps::default();
        steps.hold(1);
        steps.note(1);
        steps.note(2);
        steps.release(&3);
        assert_eq!(steps.undo(3), Some(1));
        assert_eq!(steps.undo(1), None);
    }

    #[test]
    fn a_gesture_that_changes_nothing_leaves_no_trace() {
        let mut steps = Steps::default();
        steps.note(1);
        assert_eq!(steps.undo(2), Some(1));
        steps.hold(1);
        steps.release(&1);
        assert_eq!(steps.undo(1), None);
        assert_eq!(steps.redo(1), Some(2));
    }

    #[test]
    fn the_oldest_change_goes_first() {
        let mut steps = Steps::default();
        for state in 0..=MOST {
            steps.note(state);
        }
        let mut oldest = None;
        let mut present = MOST + 1;
        while let Some(before) = steps.undo(present) {
            oldest = Some(before);
            present = before;
        }
        assert_eq!(oldest, Some(1));
    }
}
