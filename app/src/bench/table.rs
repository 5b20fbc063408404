//! What all parts of the bench share: the steps, the place in them, and how
//! far each has come.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use foldwright_engine::card::{Card, Supplied, Tools, work_out};
use foldwright_engine::cut_plan::{CutPlan, Scraps};
use foldwright_engine::length::Length;
use foldwright_engine::paper::StockId;
use foldwright_engine::problem::{Problem, Weight};
use foldwright_engine::recipe::{EditError, Recipe, Spent, Supply};
use foldwright_engine::rescue::Done;
use foldwright_engine::steps::{Before, Step, StepKey, Trims, cut_by, planned_steps, steps_with};
use foldwright_words::ToldStep;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::{use_navigate, use_query_map};

use super::place::{Place, State, find, open, state};
use super::plan::{self, Cutting, keeping_scraps, planned};
use crate::history::History;
use crate::part::Edited;
use crate::spoken::speaker;
use crate::store::{Joined, Progress, Store, is_version, now, recipe_address, step_text};
use crate::sync::on_hand;

/// Offcuts smaller than that one way are not worth keeping. Our own choice: 1 1/2 in,
/// a narrow tag.
const KEPT: Length = Length::sixty_fourths(96);

/// Puts a step's name into the address, instead of what is there or after it.
type Goer = Box<dyn Fn(&str, bool) + Send + Sync>;

/// What is worked out before the steps are.
#[derive(Clone, Copy)]
pub(super) struct Laid {
    bare: Memo<Recipe>,
    card: Memo<Card>,
    progress: RwSignal<Progress>,
    scraps: Memo<Vec<Scraps>>,
    cutting: Cutting,
}

impl Laid {
    pub(super) fn new(recipe: RwSignal<Recipe>, id: &str) -> Self {
        let store = expect_context::<Store>();
        // What is added at the bench changes nothing in the card.
        let bare = Memo::new(move |_| {
            let mut recipe = recipe.get();
            recipe.notes.clear();
            recipe.photos.clear();
            recipe.runs.clear();
            recipe
        });
        let card = Memo::new(move |_| bare.with(|bare| work_out(bare, &store.settings().tools())));
        let progress = RwSignal::new(store.progress(id));
        let scraps = plan::scraps(bare, progress);
        Self {
            bare,
            card,
            progress,
            scraps,
            cutting: planned(bare, card, progress, scraps),
        }
    }

    /// Whether the steps can be told, and none that is begun is still looked for. Tracks.
    pub(super) fn is_known(self) -> bool {
        self.cutting.is_known.get()
    }
}

/// The table somebody works at.
#[derive(Clone, Copy)]
pub(super) struct Table {
    id: StoredValue<String>,
    store: Store,
    /// The recipe, and undo for it.
    pub(super) recipe: RwSignal<Recipe>,
    pub(super) history: History,
    /// The recipe without what stands beside its steps, which changes nothing in the card.
    pub(super) bare: Memo<Recipe>,
    pub(super) card: Memo<Card>,
    /// How the sheets are cut; `None` where each part is cut by itself.
    pub(super) plan: Memo<Option<Arc<CutPlan>>>,
    /// The scraps that it may use.
    scraps: Memo<Vec<Scraps>>,
    pub(super) steps: Memo<Vec<Step>>,
    /// The problems that keep the card from being made.
    pub(super) blocking: Memo<Vec<Problem>>,
    progress: RwSignal<Progress>,
    pub(super) place: Memo<Place>,
    /// The step at this place; none at the finish.
    pub(super) step: Memo<Option<Step>>,
    /// Whether the step asked for was gone.
    pub(super) changed: RwSignal<bool>,
    /// What came together and nobody has looked at yet.
    pub(super) joined: RwSignal<Option<Joined>>,
    go: StoredValue<Goer>,
}

impl Table {
    pub(super) fn here() -> Self {
        expect_context()
    }

    pub(super) fn new(recipe: RwSignal<Recipe>, id: String, laid: Laid) -> Self {
        let store = expect_context::<Store>();
        let history = use_context::<History>().unwrap_or_else(|| History::of(recipe));
        let Laid {
            bare,
            card,
            progress,
            scraps,
            cutting: Cutting { plan, .. },
        } = laid;
        let trims = Memo::new(move |_| progress.with(Progress::known_trims));
        let steps = Memo::new(move |_| {
            bare.with(|bare| {
                card.with(|card| {
                    let plan = plan.get();
                    trims.with(|trims| work(bare, card, plan.as_deref(), trims))
                })
            })
        });
        let blocking = Memo::new(move |_| {
            card.with(|card| {
                let all = card.problems.iter();
                all.filter(|problem| problem.weight == Weight::Stop)
                    .cloned()
                    .collect()
            })
        });
        let query = use_query_map();
        let asked = Memo::new(move |_| query.with(|query| query.get("step")));
        let found = Memo::new(move |_| {
            let asked = asked.get();
            steps.with(|steps| {
                progress.with(|progress| find(&keys(steps), asked.as_deref(), progress))
            })
        });
        let place = Memo::new(move |_| found.get().place);
        let step = Memo::new(move |_| match place.get() {
            Place::At(number) => steps.with(|steps| steps.get(number).cloned()),
            Place::Finish => None,
        });
        let table = Self {
            go: StoredValue::new(goer(&id)),
            id: StoredValue::new(id),
            store,
            recipe,
            history,
            bare,
            card,
            plan,
            scraps,
            steps,
            blocking,
            progress,
            place,
            step,
            changed: RwSignal::new(false),
            joined: RwSignal::new(None),
        };
        Effect::new(move || {
            store.track_bench();
            table.recipe.track();
            table.joined.set(table.id.with_value(|id| store.joined(id)));
        });
        // Somebody goes on with the same cards in another tab or on another
        // device: what they have done is done. This place stays.
        Effect::new(move |before: Option<()>| {
            store.track_bench();
            if before.is_some() {
                let kept = table.id.with_value(|id| store.progress(id));
                let is_same = |own: &Progress| {
                    own.done == kept.done && own.trims == kept.trims && own.run == kept.run
                };
                if !table.progress.with_untracked(is_same) {
                    table.progress.update(|own| {
                        own.done = kept.done;
                        own.trims = kept.trims;
                        own.run = kept.run;
                    });
                }
            }
        });
        // The address and the progress follow the place, so that a reload
        // comes back to it.
        Effect::new(move || {
            let found = found.get();
            let key = step_text(table.key_at(found.place));
            if found.changed {
                table.changed.set(true);
            }
            if asked.get().as_deref() != Some(&*key) {
                table.go.with_value(|go| go(&key, true));
            }
            if table
                .progress
                .with_untracked(|progress| progress.step != key)
            {
                table.keep(|progress, keys| open(progress, keys, found.place));
            }
        });
        table
    }

    /// Whether the step at this place came out another way when the recipe was
    /// brought together, and nobody has looked yet. Tracks.
    pub(super) fn is_to_be_looked_at(self, concerned: Memo<BTreeSet<StepKey>>) -> bool {
        self.step.with(|step| {
            let key = step.as_ref().map(|step| &step.key);
            key.is_some_and(|key| concerned.with(|concerned| concerned.contains(key)))
        })
    }

    /// The steps that came out another way when the recipe was brought together
    /// and nobody has looked yet.
    pub(super) fn concerned(self) -> Memo<BTreeSet<StepKey>> {
        Memo::new(move |_| {
            let Some(joined) = self.joined.get() else {
                return BTreeSet::new();
            };
            let before = joined.before().map(|before| {
                let card = work_out(&before, &self.store.settings().tools());
                // What is cut as before is cut by the same plan.
                let same = self.card.with(|now| now.cut_list == card.cut_list)
                    && self.bare.with(|now| now.copies == before.copies);
                let plan = self.plan.get().filter(|_| same);
                let trims = self.progress.with(Progress::known_trims);
                work(&before, &card, plan.as_deref(), &trims)
            });
            self.steps.with(|steps| {
                let other = |step: &&Step| {
                    let before = before.iter().flatten();
                    !before.into_iter().any(|before| before == *step)
                };
                let steps = steps.iter().filter(other);
                steps.map(|step| step.key).collect()
            })
        })
    }

    /// The names of the steps as they are taken now. Tracks nothing.
    pub(super) fn keys_now(self) -> Vec<StepKey> {
        self.steps.with_untracked(|steps| keys(steps))
    }

    /// The names of the steps as they are usually taken. Tracks.
    pub(super) fn usual_keys(self) -> Vec<StepKey> {
        let mut usual = self.bare.get();
        usual.order.clear();
        let trims = self.progress.with(Progress::known_trims);
        let plan = self.plan.get();
        let steps = self
            .card
            .with(|card| work(&usual, card, plan.as_deref(), &trims));
        keys(&steps)
    }

    /// Which steps have to come before which. Tracks nothing.
    pub(super) fn before(self) -> Before {
        let plan = self.plan.get_untracked();
        self.bare.with_untracked(|bare| {
            self.card.with_untracked(|card| {
                self.steps
                    .with_untracked(|steps| Before::of(bare, card, plan.as_deref(), steps))
            })
        })
    }

    /// Somebody has looked at what came together.
    pub(super) fn look(self) {
        self.id.with_value(|id| self.store.look_at_joined(id));
    }

    /// A step in the reader's language. Tracks the recipe.
    pub(super) fn told(self, step: &Step) -> ToldStep {
        self.bare
            .with(|recipe| speaker(recipe).with_exact().step(step))
    }

    /// Goes to a place.
    pub(super) fn go_to(self, place: Place) {
        if place != self.place.get_untracked() {
            self.changed.set(false);
            let key = step_text(self.key_at(place));
            self.go.with_value(|go| go(&key, false));
        }
    }

    /// Goes on. A step that is done once is done by that; a batch is counted.
    pub(super) fn go_on(self) {
        let Place::At(number) = self.place.get_untracked() else {
            return;
        };
        if self.times() == 1 {
            self.set_done(1);
        }
        let last = self.steps.with_untracked(Vec::len) == number.saturating_add(1);
        self.go_to(if last {
            Place::Finish
        } else {
            Place::At(number.saturating_add(1))
        });
    }

    /// Goes back; nowhere from the first step.
    pub(super) fn go_back(self) {
        let number = match self.place.get_untracked() {
            Place::At(number) => number,
            Place::Finish => self.steps.with_untracked(Vec::len),
        };
        if let Some(before) = number.checked_sub(1) {
            self.go_to(Place::At(before));
        }
    }

    /// How often the step at this place is done for all cards. Tracks nothing.
    fn times(self) -> u32 {
        self.step
            .with_untracked(|step| step.as_ref().map_or(1, |step| step.times))
    }

    /// For how many cards the step at this place is done. Tracks.
    pub(super) fn done(self) -> u32 {
        self.step.with(|step| {
            let Some(step) = step else { return 0 };
            let done = self.progress.with(|progress| progress.done_at(step.key));
            done.unwrap_or(0).min(step.times)
        })
    }

    /// For how many cards a step is done. Tracks.
    pub(super) fn done_of(self, key: StepKey) -> u32 {
        self.progress
            .with(|progress| progress.done_at(key).unwrap_or(0))
    }

    /// Notes for how many cards the step at this place is done. What others
    /// have done meanwhile counts besides.
    pub(super) fn set_done(self, done: u32) {
        let step = self.step.get_untracked();
        if let Some(Step { key, times, .. }) = step {
            let more = i64::from(done) - i64::from(untrack(|| self.done()));
            let made = self.settings_before(key).filter(|_| done > 0);
            self.keep(|progress, _| {
                for key in made.iter().flatten() {
                    progress.done.insert(key.to_string(), 1);
                }
                let count = progress.done.entry(key.to_string()).or_insert(0);
                let sum = i64::from((*count).min(times)).saturating_add(more);
                *count = u32::try_from(sum.max(0)).unwrap_or(times).min(times);
            });
        }
    }

    /// The settings of the plan at which a part is cut: whoever counts its pieces
    /// has made them. Tracks nothing.
    fn settings_before(self, key: StepKey) -> Option<Vec<StepKey>> {
        let StepKey::Cut(part) = key else {
            return None;
        };
        let plan = self.plan.get_untracked()?;
        let number = plan.number();
        let settings = 0..plan.ready_after(part)?;
        let settings = settings.map(|setting| StepKey::CutAt {
            plan: number,
            setting,
        });
        Some(settings.collect())
    }

    /// For how many cards each step is done, and each part cut, whether its pieces
    /// are counted or not. Tracks nothing.
    pub(super) fn done_and_cut(self) -> Done {
        let mut done = self.progress.with_untracked(Progress::known_done);
        if let Some(plan) = self.plan.get_untracked() {
            let copies = self.bare.with_untracked(|recipe| recipe.copies);
            let made = |key| done.get(&key).is_some_and(|done| *done > 0);
            for part in cut_by(&plan, made) {
                done.insert(StepKey::Cut(part), copies);
            }
        }
        done
    }

    /// Makes another number of cards. What is cut stays cut, and what is wanted
    /// besides is cut part by part.
    pub(super) fn set_copies(self, copies: u32) {
        if self.bare.with_untracked(|recipe| recipe.copies) == copies {
            return;
        }
        let cut: Vec<_> = self.done_and_cut().into_iter().collect();
        self.keep(|progress, _| {
            for (key, done) in &cut {
                if matches!(key, StepKey::Cut(_)) {
                    progress.done.insert(key.to_string(), *done);
                }
            }
        });
        self.history.edit(|recipe| recipe.copies = copies);
    }

    /// How many sheets of each paper the cards take; `None` where a part does not
    /// fit its sheet. Tracks.
    pub(super) fn sheets(self) -> BTreeMap<StockId, Option<i64>> {
        let copies = self.bare.with(|recipe| recipe.copies);
        self.card.with(|card| match self.plan.get() {
            Some(plan) => plan.sheets_of(&card.cut_list, copies),
            None => card.cut_list.sheets(copies),
        })
    }

    /// What the cards take that is not paper, as far as it is counted, with how much of it
    /// is on hand. Tracks.
    pub(super) fn supplies(self, counts: &BTreeMap<String, i64>) -> Vec<(Supply, Supplied)> {
        self.recipe.with(|recipe| {
            let supplies = recipe.supplies.iter();
            let counted = supplies.filter_map(|it| Some((it.clone(), on_hand(counts, it)?)));
            counted.collect()
        })
    }

    /// The scraps that the cards are cut from, and those that are left over and
    /// worth keeping. Tracks.
    pub(super) fn used_and_left(self) -> [Vec<Scraps>; 2] {
        self.plan.with(|plan| {
            let plan = plan.as_ref();
            let used = plan.map(|plan| plan.scraps.clone());
            let left = plan.map(|plan| plan.offcuts(KEPT));
            [used, left].map(Option::unwrap_or_default)
        })
    }

    /// How far a step has come. Tracks.
    pub(super) fn state(self, step: &Step) -> State {
        self.progress
            .with(|progress| state(step.key, step.times, progress))
    }

    /// Forgets how far the work has come, and returns what brings it back. The
    /// notes are the recipe's and stay.
    pub(super) fn begin_anew(self) -> impl Fn() + Send + Sync + 'static {
        let before = self.progress.get_untracked();
        self.keep(|progress, _| *progress = Progress::default());
        self.go_to(Place::At(0));
        let (store, id) = (self.store, self.id.get_value());
        move || {
            store.set_progress(&id, |progress| *progress = before.clone());
            // The bench may have been left meanwhile.
            if self.progress.try_set(before.clone()).is_none() {
                self.go_to(Place::Finish);
            }
        }
    }

    /// The recipe, for what is kept beside its card.
    pub(super) fn edited(self) -> Edited {
        Edited::new(self.recipe, self.history, self.store, self.id)
    }

    /// Keeps in the log that all is done, with what was booked; once for each run, and
    /// anew where more cards were made of it since. Tracks nothing.
    pub(super) fn log_run(self, spent: Vec<Spent>) -> Result<(), EditError> {
        let cards = self.recipe.with_untracked(|recipe| recipe.copies);
        let run = self.id.with_value(|id| self.store.progress(id).run);
        let Some(run) = run else {
            let logged = self
                .history
                .edit(|recipe| recipe.finish_run(now(), cards, spent));
            let run = logged?;
            self.keep(|progress, _| progress.run = Some(run));
            return Ok(());
        };
        let counted = |recipe: &Recipe| recipe.run(run).is_some_and(|run| run.cards != cards);
        if self.recipe.with_untracked(counted) {
            self.history
                .edit(|recipe| recipe.recount_run(run, cards, spent));
        }
        Ok(())
    }

    /// How far the work has come. Tracks nothing.
    pub(super) fn progress_now(self) -> Progress {
        self.progress.get_untracked()
    }

    /// What the maker works with. Tracks nothing.
    pub(super) fn tools(self) -> Tools {
        untrack(|| self.store.settings().tools())
    }

    /// The name of the step at this place; none at the finish.
    pub(super) fn key(self) -> Memo<Option<StepKey>> {
        Memo::new(move |_| self.step.with(|step| step.as_ref().map(|step| step.key)))
    }

    /// The name of the step at this place; none at the finish. Tracks nothing.
    pub(super) fn key_here(self) -> Option<StepKey> {
        self.key_at(self.place.get_untracked())
    }

    /// The recipe's name in the store.
    pub(super) fn id(self) -> String {
        self.id.get_value()
    }

    /// Goes on with another recipe, as far as it has come. The change of the
    /// recipe can be undone like any other.
    pub(super) fn go_on_with(self, recipe: Recipe, progress: &Progress) {
        self.history.edit(|present| *present = recipe);
        self.keep(|kept, _| {
            let run = kept.run;
            kept.clone_from(progress);
            // It is the same run.
            kept.run = kept.run.or(run);
        });
        self.changed.set(false);
        self.go.with_value(|go| go(&progress.step, false));
    }

    /// Whether the recipe is somebody else's, shared by link.
    pub(super) fn is_shared(self) -> bool {
        self.id.with_value(|id| is_version(id))
    }

    /// The address of the recipe.
    pub(super) fn recipe_address(self) -> String {
        self.id.with_value(|id| recipe_address(id))
    }

    fn key_at(self, place: Place) -> Option<StepKey> {
        let Place::At(number) = place else {
            return None;
        };
        self.steps
            .with_untracked(|steps| Some(steps.get(number)?.key))
    }

    fn keep(self, change: impl Fn(&mut Progress, &[StepKey])) {
        let scraps = self.scraps.get_untracked();
        self.steps.with_untracked(|steps| {
            let keys = keys(steps);
            let change = |progress: &mut Progress| {
                keeping_scraps(progress, &scraps, |progress| change(progress, &keys));
            };
            self.progress.update(change);
            self.id.with_value(|id| self.store.set_progress(id, change));
        });
    }
}

/// The steps of a card, cut by a plan or part by part.
fn work(recipe: &Recipe, card: &Card, plan: Option<&CutPlan>, trims: &Trims) -> Vec<Step> {
    match plan {
        Some(plan) => planned_steps(recipe, card, plan),
        None => steps_with(recipe, card, trims),
    }
}

fn keys(steps: &[Step]) -> Vec<StepKey> {
    steps.iter().map(|step| step.key).collect()
}

/// What changes the address of this recipe's bench.
fn goer(id: &str) -> Goer {
    let navigate = use_navigate();
    let bench = format!("/bench/{id}");
    Box::new(move |key, replace| {
        let options = NavigateOptions {
            replace,
            scroll: false,
            ..NavigateOptions::default()
        };
        navigate(&format!("{bench}?step={key}"), options);
    })
}
