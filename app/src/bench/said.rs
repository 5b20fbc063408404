//! What is said at a step, worked out once for eyes and ears.

use std::collections::BTreeSet;

use foldwright_engine::care::Hazard;
use foldwright_words::{Caution, ToldFigure, ToldStep};
use leptos::prelude::*;

use super::table::Table;
use crate::spoken::{speaker, texts, voiced};

/// A caution, and whether it was met at a step before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Met {
    pub(super) caution: Caution,
    pub(super) is_known: bool,
}

/// What is said at the step at this place.
#[derive(Clone, Copy)]
pub(super) struct Said {
    /// The step itself; nothing at the finish.
    pub(super) step: Memo<ToldStep>,
    /// What to be careful with.
    pub(super) cautions: Memo<Vec<Met>>,
}

/// What was met before, and what is met now.
#[derive(Default)]
struct Hazards {
    before: BTreeSet<Hazard>,
    now: Vec<Hazard>,
}

impl Said {
    pub(super) fn here() -> Self {
        expect_context()
    }

    pub(super) fn new(table: Table) -> Self {
        let step = Memo::new(move |_| {
            let step = table.step.get();
            step.map(|step| table.told(&step)).unwrap_or_default()
        });
        let care = Memo::new(move |_| {
            table
                .step
                .with(|step| step.as_ref().map(|step| (step.key, step.care.clone())))
        });
        let hazards = StoredValue::new(Hazards::default());
        let cautions = Memo::new(move |_| {
            let care = care.get().map(|(_, care)| care).unwrap_or_default();
            hazards.update_value(|met| {
                met.before.extend(met.now.drain(..));
                met.now.clone_from(&care);
            });
            let met = care.into_iter().map(|hazard| Met {
                caution: table
                    .bare
                    .with_untracked(|recipe| speaker(recipe).caution(hazard)),
                is_known: hazards.with_value(|met| met.before.contains(&hazard)),
            });
            met.collect()
        });
        Self { step, cautions }
    }

    /// The same for a voice, in the order in which a screen reader comes upon it: a
    /// part for each breath. Tracks nothing.
    pub(super) fn for_a_voice(self) -> Vec<String> {
        let ToldStep {
            kind,
            title,
            does,
            figures,
            tools,
            captions: _,
        } = self.step.get_untracked();
        let figures = figures.iter().map(of_figure);
        let cautions = self
            .cautions
            .get_untracked()
            .into_iter()
            .flat_map(of_caution);
        let tools = (!tools.is_empty()).then(|| {
            let tools = tools.join(", ");
            format!("{} {tools}", texts().bench.have_ready)
        });
        let all = [kind, title].into_iter().chain(figures).chain(cautions);
        all.chain(does)
            .chain(tools)
            .map(|text| voiced(&text))
            .collect()
    }
}

/// What a number is, and the number.
fn of_figure(figure: &ToldFigure) -> String {
    format!("{}: {}", figure.label, figure.whole())
}

/// A caution: all of it where it is new, as it stands open then.
fn of_caution(met: Met) -> Vec<String> {
    let Caution {
        title,
        words,
        defers,
    } = met.caution;
    let all = if met.is_known {
        vec![title]
    } else {
        vec![title, words, defers]
    };
    all.into_iter().map(str::to_owned).collect()
}
