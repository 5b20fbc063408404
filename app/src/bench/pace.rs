//! How long each kind of work takes this maker, and so how long is left.

use std::collections::BTreeMap;

use foldwright_engine::pace::{Session, session};
use foldwright_engine::steps::{Kind, StepKey};
use leptos::ev;
use leptos::prelude::*;

use super::clock::steady;
use super::table::Table;
use crate::spoken::language;
use crate::store::{Pace, Store};

/// Who passes over a step sooner has not worked at it, in milliseconds. Our own bound.
const LEAST: u64 = 5000;

/// How long the maker took before, kept up while the bench is open.
#[derive(Clone, Copy)]
pub(super) struct Paced(RwSignal<Pace>);

/// The step that is worked at, and how long it has been.
#[derive(Debug)]
struct Present {
    key: StepKey,
    kind: Kind,
    /// For how many cards it was done when its time began.
    done: u32,
    /// How long it was in sight since then, in milliseconds.
    spent: u64,
}

/// Measures by a count that never goes back, while steps are in sight.
#[derive(Debug, Default)]
struct Watch {
    present: Option<Present>,
    /// Since when the present step is in sight.
    since: Option<u64>,
    /// What was spent at steps that were left before they were done.
    left: BTreeMap<StepKey, u64>,
}

impl Watch {
    /// Looks at what is so now, and tells what one card took at the step until now in
    /// tenths of a second, where it was done for more of them since.
    fn look(
        &mut self,
        now: u64,
        is_seen: bool,
        here: Option<(StepKey, Kind)>,
        done: impl Fn(StepKey) -> u32,
    ) -> Option<(Kind, u32)> {
        let mut took = None;
        if let Some(present) = &mut self.present {
            let since = self.since.take().unwrap_or(now);
            present.spent = present.spent.saturating_add(now.saturating_sub(since));
            let done = done(present.key);
            let more = done.saturating_sub(present.done);
            if more > 0 {
                let each = present.spent / 100 / u64::from(more);
                // How long glue takes is for its maker to say.
                if present.spent >= LEAST && present.kind != Kind::Dry {
                    took = u32::try_from(each).ok().map(|each| (present.kind, each));
                }
                present.spent = 0;
            }
            present.done = done;
        }
        let is_other = self.present.as_ref().map(|it| it.key) != here.map(|(key, _)| key);
        if is_other {
            if let Some(present) = self.present.take() {
                self.left.insert(present.key, present.spent);
            }
            self.present = here.map(|(key, kind)| Present {
                key,
                kind,
                done: done(key),
                spent: self.left.remove(&key).unwrap_or(0),
            });
        }
        self.since = is_seen.then_some(now);
        took
    }
}

impl Paced {
    pub(super) fn here() -> Self {
        expect_context()
    }

    /// Measures for as long as the bench is open, whenever a step and the page are in
    /// sight.
    pub(super) fn begin(table: Table, is_task: Memo<bool>) -> Self {
        let store = expect_context::<Store>();
        let paced = Self(RwSignal::new(store.pace()));
        let is_seen = RwSignal::new(!document().hidden());
        let hidden = window_event_listener(ev::visibilitychange, move |_| {
            is_seen.set(!document().hidden());
        });
        on_cleanup(move || hidden.remove());
        let watch = StoredValue::new(Watch::default());
        Effect::new(move || {
            let here = table.step.with(|step| {
                let step = step.as_ref().filter(|_| is_task.get());
                step.map(|step| (step.key, step.kind))
            });
            let is_seen = is_seen.get();
            let done = |key| table.done_of(key);
            let took = watch.try_update_value(|watch| watch.look(steady(), is_seen, here, done));
            if let Some((kind, tenths)) = took.flatten() {
                // Another tab may have kept some meanwhile.
                let mut pace = store.pace();
                pace.add(kind, tenths);
                store.set_pace(&pace);
                paced.0.set(pace);
            }
        });
        paced
    }
}

/// How long what is left takes, once that can be told.
#[component]
pub(super) fn HowLong() -> impl IntoView {
    let table = Table::here();
    let paced = Paced::here();
    let told = Memo::new(move |_| {
        paced.0.with(|pace| {
            table.steps.with(|steps| {
                let left = steps.iter().map(|step| {
                    let done = table.done_of(step.key);
                    (step, step.times.saturating_sub(done))
                });
                session(left, |kind| pace.of(kind))
            })
        })
    });
    let is_begun = move || {
        table
            .steps
            .with(|steps| steps.iter().any(|step| table.done_of(step.key) > 0))
    };
    let words = move || {
        let Session { least, most, dries } = told.get()?;
        let texts = language().pace();
        let words = if is_begun() {
            texts.still(least, most)
        } else {
            let cards = table.bare.with(|recipe| recipe.copies);
            texts.takes(least, most, cards)
        };
        let drying = dries.then(|| view! { " " {texts.drying} });
        Some(view! { <p class="how-long"><b>{words}</b> " " {texts.learnt} {drying}</p> })
    };
    view! { {words} }
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use foldwright_engine::part::Part;
    use foldwright_engine::recipe::StripId;
    use foldwright_engine::steps::{Kind, StepKey};

    use super::Watch;

    const CUT: (StepKey, Kind) = (StepKey::Cut(Part::Strip(StripId::Base)), Kind::Cut);
    const SCORE: (StepKey, Kind) = (StepKey::Score(StripId::Base, 0), Kind::Score);
    const DRY: (StepKey, Kind) = (StepKey::Dry, Kind::Dry);

    #[test]
    fn what_is_in_sight_is_measured_for_each_card() {
        let cut = Cell::new(0);
        let done = |key| if key == CUT.0 { cut.get() } else { 0 };
        let mut watch = Watch::default();
        assert_eq!(watch.look(1000, true, Some(CUT), done), None);
        // 20 s in sight, 500 s out of sight, 10 s in sight: four cards.
        assert_eq!(watch.look(21_000, false, Some(CUT), done), None);
        assert_eq!(watch.look(521_000, true, Some(CUT), done), None);
        cut.set(4);
        let took = watch.look(531_000, true, Some(CUT), done);
        assert_eq!(took, Some((Kind::Cut, 75)));
        // Left for another step and come back to, 8 and 4 s for two more; the step that
        // was only passed over tells nothing.
        assert_eq!(watch.look(539_000, true, Some(SCORE), done), None);
        assert_eq!(watch.look(541_000, true, Some(CUT), done), None);
        cut.set(6);
        // Going on, both come at once.
        let took = watch.look(545_000, true, Some(SCORE), done);
        assert_eq!(took, Some((Kind::Cut, 60)));
    }

    #[test]
    fn what_is_passed_over_or_dries_is_not_measured() {
        let count = Cell::new(0);
        let done = |_| count.get();
        let mut watch = Watch::default();
        for (here, now) in [(CUT, 0), (CUT, 4999), (DRY, 5000), (DRY, 900_000)] {
            count.set(count.get() + 1);
            assert_eq!(
                watch.look(now, true, Some(here), done),
                None,
                "{here:?} {now}"
            );
        }
        // A count that is put right downwards is no work either.
        count.set(0);
        assert_eq!(watch.look(990_000, true, Some(CUT), done), None);
        assert_eq!(watch.look(999_000, true, None, done), None);
    }
}
