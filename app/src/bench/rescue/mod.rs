//! What can be done when something came out different.

mod different;
mod measured;
mod offers;
mod taken;
mod which;

use foldwright_engine::rescue::{Miscut, Rescue};
use foldwright_engine::steps::{Kind, Step, StepKey};
use leptos::html;
use leptos::prelude::*;

use super::table::Table;
use crate::part::{Sheet, told};
use crate::spoken::texts;
pub(super) use different::CameOutDifferent;
use measured::Measured;
use offers::Offers;
use taken::BackToPlan;
use which::Which;

/// The sheet in which a miscut is told and answered.
#[derive(Clone, Copy)]
pub(super) struct Rescuing {
    open: RwSignal<bool>,
    /// The lasting name of the step that came out different; none while it has
    /// to be chosen.
    key: RwSignal<Option<StepKey>>,
    /// What was told, and what can be done about it.
    found: RwSignal<Option<(Miscut, Rescue)>>,
}

impl Rescuing {
    pub(super) fn new() -> Self {
        Self {
            open: RwSignal::new(false),
            key: RwSignal::new(None),
            found: RwSignal::new(None),
        }
    }

    fn here() -> Self {
        expect_context()
    }

    /// Asks what was measured at a step, or first which one.
    fn ask(self, key: Option<StepKey>) {
        self.found.set(None);
        self.key.set(key);
        self.open.set(true);
    }
}

/// The sheet itself. It stands beside the step, so that a finger on it turns
/// no steps.
#[component]
pub(super) fn RescueSheet() -> impl IntoView {
    let rescuing = Rescuing::here();
    let title = move || {
        if rescuing.found.with(Option::is_some) {
            texts().rescue.what_can_be_saved
        } else if rescuing.key.with(Option::is_some) {
            texts().rescue.what_measured
        } else {
            texts().rescue.what_came_out
        }
    };
    view! {
        <Sheet open=rescuing.open title=Signal::derive(move || title().to_owned())>
            <div class="rescue">
                {move || {
                    let found = rescuing.found.get();
                    let key = rescuing.key.get();
                    match (found, key) {
                        (Some((miscut, rescue)), _) => view! { <Offers miscut rescue/> }.into_any(),
                        (None, Some(key)) => view! { <BackToPlan/> <Measured key/> }.into_any(),
                        (None, None) => view! { <BackToPlan/> <Which/> }.into_any(),
                    }
                }}
            </div>
        </Sheet>
    }
}

/// The first sentence of what the sheet shows. It takes the focus when it comes
/// up, so that a screen reader goes on from there.
#[component]
fn Lead(#[prop(into)] words: String) -> impl IntoView {
    let lead = NodeRef::<html::P>::new();
    lead.on_load(|lead| {
        request_animation_frame(move || {
            // Fails only for an element that is no longer in the page.
            let _ = lead.focus();
        });
    });
    view! { <p class="rescue-lead" node_ref=lead tabindex="-1">{told(words)}</p> }
}

/// Whether one part is cut or scored at a step; at a setting several are.
fn is_of_a_part(step: &Step) -> bool {
    let is_setting = matches!(step.key, StepKey::CutAt { .. });
    matches!(step.kind, Kind::Cut | Kind::Score) && !is_setting
}

/// Whether the work has come to the step of this number, or past it, or to a
/// setting at which its part is cut.
fn is_reached(table: Table, number: usize, here: Option<usize>) -> bool {
    table.steps.with(|steps| {
        let come_to = |number: usize, step: &Step| {
            let begun = table.state(step) != super::place::State::Open;
            begun || here.is_none_or(|here| number <= here)
        };
        let Some(step) = steps.get(number) else {
            return false;
        };
        let plan = table.plan.get();
        let gives = |setting: usize| match (step.key, &plan) {
            (StepKey::Cut(part), Some(plan)) => {
                let setting = plan.settings.get(setting);
                setting.is_some_and(|setting| setting.gives(part))
            }
            _ => false,
        };
        let mut before = steps.iter().enumerate();
        come_to(number, step)
            || before.any(|(number, at)| match at.key {
                StepKey::CutAt { setting, .. } => gives(setting) && come_to(number, at),
                _ => false,
            })
    })
}
