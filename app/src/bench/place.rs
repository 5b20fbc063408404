//! Where in the work somebody is, by the lasting names of the steps.

use foldwright_engine::steps::StepKey;

use crate::store::{FINISH, Progress, step_text};

/// A place in the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    /// At the step of this number.
    At(usize),
    /// After the last step.
    Finish,
}

/// A place, and whether it is another than the one asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Found {
    pub(super) place: Place,
    /// The step asked for is no longer part of the work.
    pub(super) changed: bool,
}

/// The place of the step asked for, or where the work was left. If that step
/// is gone, the last one that was begun before it.
pub(super) fn find(keys: &[StepKey], asked: Option<&str>, progress: &Progress) -> Found {
    let wanted = asked.unwrap_or(&progress.step);
    let place = if wanted == FINISH {
        Some(Place::Finish)
    } else {
        let wanted = StepKey::of_text(wanted);
        let place = keys.iter().position(|key| Some(*key) == wanted);
        place.map(Place::At)
    };
    Found {
        place: place.unwrap_or_else(|| Place::At(last_begun(keys, progress))),
        changed: place.is_none() && !wanted.is_empty(),
    }
}

fn last_begun(keys: &[StepKey], progress: &Progress) -> usize {
    keys.iter()
        .rposition(|key| progress.done_at(*key).is_some())
        .unwrap_or(0)
}

/// How far one step has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum State {
    /// Not yet done for any card.
    Open,
    /// Done for some cards of the batch.
    Begun(u32),
    /// Done for all.
    Done,
}

/// How far the step of this name has come, which is done so many times.
pub(super) fn state(key: StepKey, times: u32, progress: &Progress) -> State {
    match progress.done_at(key) {
        None | Some(0) => State::Open,
        Some(done) if done < times => State::Begun(done),
        Some(_) => State::Done,
    }
}

/// Notes that the step asked for is open now. Steps begun after it and not
/// done for any card no longer count as begun.
pub(super) fn open(progress: &mut Progress, keys: &[StepKey], place: Place) {
    let number = match place {
        Place::At(number) => number,
        Place::Finish => keys.len(),
    };
    for key in keys.iter().skip(number.saturating_add(1)) {
        if progress.done_at(*key) == Some(0) {
            progress.done.remove(&key.to_string());
        }
    }
    let key = keys.get(number).copied();
    progress.step = step_text(key);
    if let Some(key) = key {
        progress.done.entry(key.to_string()).or_insert(0);
    }
}

#[cfg(test)]
mod tests {
    use foldwright_engine::part::Part;
    use foldwright_engine::recipe::{LayerId, StripId};
    use foldwright_engine::steps::StepKey;

    use super::{FINISH, Found, Place, State, find, open, state};
    use crate::store::Progress;

    const CUT: StepKey = StepKey::Cut(Part::Strip(StripId::Base));
    const SCORE: StepKey = StepKey::Score(StripId::Base, 0);
    const KEYS: [StepKey; 4] = [StepKey::Gather, CUT, SCORE, StepKey::Envelope];

    fn at(number: usize, changed: bool) -> Found {
        Found {
            place: Place::At(number),
            changed,
        }
    }

    #[test]
    fn begins_at_the_first_step_and_goes_on_where_it_was_left() {
        let mut progress = Progress::default();
        assert_eq!(find(&KEYS, None, &progress), at(0, false));
        open(&mut progress, &KEYS, Place::At(2));
        assert_eq!(find(&KEYS, None, &progress), at(2, false));
        assert_eq!(find(&KEYS, Some("cut-strip"), &progress), at(1, false));
        open(&mut progress, &KEYS, Place::Finish);
        assert_eq!(find(&KEYS, None, &progress).place, Place::Finish);
        assert_eq!(find(&KEYS, Some(FINISH), &progress).place, Place::Finish);
    }

    #[test]
    fn a_new_step_before_it_does_not_move_the_place() {
        let mut progress = Progress::default();
        open(&mut progress, &KEYS, Place::At(2));
        let layer = StepKey::Cut(Part::Layer(LayerId(1)));
        let more = [StepKey::Gather, CUT, layer, SCORE, StepKey::Envelope];
        assert_eq!(find(&more, None, &progress), at(3, false));
    }

    #[test]
    fn a_step_that_is_gone_leads_to_the_nearest_before_it() {
        let mut progress = Progress::default();
        for number in 0..4 {
            open(&mut progress, &KEYS, Place::At(number));
        }
        // Looked ahead, and back again.
        open(&mut progress, &KEYS, Place::At(2));
        let fewer = [StepKey::Gather, CUT, StepKey::Envelope];
        assert_eq!(find(&fewer, None, &progress), at(1, true));
        assert_eq!(find(&fewer, Some("score-0"), &progress), at(1, true));
        assert_eq!(find(&[CUT], Some("no-step"), &progress), at(0, true));
    }

    #[test]
    fn a_step_is_done_when_it_is_done_for_every_card() {
        let mut progress = Progress::default();
        assert_eq!(state(SCORE, 3, &progress), State::Open);
        open(&mut progress, &KEYS, Place::At(2));
        assert_eq!(state(SCORE, 3, &progress), State::Open);
        progress.done.insert("score-0".to_owned(), 2);
        assert_eq!(state(SCORE, 3, &progress), State::Begun(2));
        assert_eq!(state(SCORE, 2, &progress), State::Done);
        assert_eq!(state(SCORE, 1, &progress), State::Done);
    }
}
