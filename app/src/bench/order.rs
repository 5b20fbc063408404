//! Changing the order of the steps, and steps of the maker's own between them.

use foldwright_engine::recipe::{OwnStep, OwnStepId, Recipe};
use foldwright_engine::steps::{StepKey, Way, back_to_usual, moved, named};
use foldwright_words::OrderTexts;
use leptos::prelude::*;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast as _;

use super::own::OwnStepForm;
use super::place::Place;
use super::table::Table;
use crate::part::{Icon, Symbol, told};
use crate::spoken::{aloud, first, language, speaker};

/// The form that is open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// For a new step.
    New,
    /// For one that is there.
    Of(OwnStepId),
}

/// Whether the order is being changed, and what came of it.
#[derive(Clone, Copy)]
pub(super) struct Reorder {
    pub(super) table: Table,
    pub(super) is_on: RwSignal<bool>,
    form: RwSignal<Option<Form>>,
    /// What was said last, and of which step.
    said: RwSignal<Option<(Option<StepKey>, String)>>,
    /// What was before the last change.
    before: RwSignal<Option<(Vec<OwnStep>, Vec<String>)>>,
}

impl Reorder {
    pub(super) fn new(table: Table) -> Self {
        Self {
            table,
            is_on: RwSignal::new(false),
            form: RwSignal::new(None),
            said: RwSignal::new(None),
            before: RwSignal::new(None),
        }
    }

    /// Moves a step past its neighbour, or says why it stays.
    fn shift(self, step: StepKey, way: Way) {
        let table = self.table;
        let texts = language().ordering();
        match moved(&table.before(), &table.keys_now(), step, way) {
            Ok(keys) => {
                let place = keys.iter().position(|key| *key == step);
                self.change(|recipe| recipe.order = named(&keys));
                let place = place.unwrap_or_default().saturating_add(1);
                self.say(None, texts.now_at(&untrack(|| self.title(step)), place));
                focus(button_id(step, way));
            }
            Err(Some(stays)) => {
                let [then, first] =
                    [stays.then, stays.first].map(|key| untrack(|| self.title(key)));
                let stays_there = texts.stays(&then, &first);
                let why = texts.why(stays.because);
                self.say(Some(step), format!("{stays_there} {why}"));
            }
            Err(None) => {}
        }
    }

    /// Adds a step of the maker's own behind the present one.
    pub(super) fn add(self, text: &str, each: bool) {
        let table = self.table;
        let mut keys = table.keys_now();
        let behind = match table.place.get_untracked() {
            Place::At(number) => keys.len().min(number.saturating_add(1)),
            Place::Finish => keys.len(),
        };
        let added = self.change(|recipe| {
            let added = recipe.add_own_step(text, each);
            added.inspect(|id| {
                keys.insert(behind, StepKey::Own(*id));
                recipe.order = named(&keys);
            })
        });
        match added {
            Ok(id) => {
                let step = StepKey::Own(id);
                self.form.set(None);
                self.is_on.set(true);
                let place = behind.saturating_add(1);
                let now_at = language()
                    .ordering()
                    .now_at(&untrack(|| self.title(step)), place);
                self.say(None, now_at);
                focus(button_id(step, Way::Later));
            }
            Err(error) => {
                let refused = table
                    .bare
                    .with_untracked(|recipe| speaker(recipe).refused(&error));
                self.say(None, refused);
            }
        }
    }

    /// Says a step of the maker's own in other words.
    pub(super) fn reword(self, id: OwnStepId, text: &str, each: bool) {
        self.change(|recipe| recipe.change_own_step(id, text, each));
        self.form.set(None);
        focus(own_id(id));
    }

    /// Takes a step of the maker's own away.
    pub(super) fn remove(self, id: OwnStepId) {
        self.change(|recipe| recipe.remove_own_step(id));
        self.form.set(None);
        self.say(None, language().ordering().removed.to_owned());
        focus(ADD.to_owned());
    }

    /// Puts the steps back into their usual order.
    fn back_to_usual(self) {
        let table = self.table;
        let usual = back_to_usual(&table.keys_now(), &untrack(|| table.usual_keys()));
        self.change(|recipe| recipe.order = usual);
        self.say(None, language().ordering().back_in_usual.to_owned());
        focus(CHANGE.to_owned());
    }

    /// Takes the last change back.
    fn take_back(self) {
        if let Some((own_steps, order)) = self.before.get_untracked() {
            self.table.history.edit(|recipe| {
                recipe.own_steps = own_steps;
                recipe.order = order;
            });
            self.before.set(None);
            self.say(None, language().ordering().taken_back.to_owned());
            focus(CHANGE.to_owned());
        }
    }

    fn change<T>(self, change: impl FnOnce(&mut Recipe) -> T) -> T {
        let of = |recipe: &Recipe| (recipe.own_steps.clone(), recipe.order.clone());
        let before = self.table.recipe.with_untracked(of);
        let done = self.table.history.edit(change);
        if self.table.recipe.with_untracked(of) != before {
            self.before.set(Some(before));
        }
        done
    }

    fn say(self, of: Option<StepKey>, text: String) {
        self.said.set(Some((of, text)));
    }

    /// What a step is called. Tracks.
    fn title(self, key: StepKey) -> String {
        let steps = self.table.steps;
        let title = steps.with(|steps| {
            let step = steps.iter().find(|step| step.key == key);
            step.map(|step| step.title)
        });
        let title = title.map(|title| self.table.bare.with(|recipe| speaker(recipe).title(&title)));
        title.unwrap_or_default()
    }

    /// Whether the steps of the work are in another order than the usual one. Tracks.
    fn is_other(self) -> bool {
        let works = |keys: Vec<StepKey>| -> Vec<StepKey> {
            let works = keys.into_iter();
            works
                .filter(|key| !matches!(key, StepKey::Own(_)))
                .collect()
        };
        let now = self
            .table
            .steps
            .with(|steps| steps.iter().map(|step| step.key).collect());
        self.table.bare.with(|recipe| !recipe.order.is_empty())
            && works(now) != works(self.table.usual_keys())
    }
}

/// The button that begins changing the order, and the one that adds a step.
const CHANGE: &str = "order-change";
const ADD: &str = "order-add";

fn button_id(step: StepKey, way: Way) -> String {
    match way {
        Way::Earlier => format!("order-{step}-earlier"),
        Way::Later => format!("order-{step}-later"),
    }
}

fn own_id(id: OwnStepId) -> String {
    format!("order-own-{}-words", id.0)
}

/// Gives the focus to something that is there once the page has followed.
pub(super) fn focus(id: String) {
    request_animation_frame(move || {
        let found = document().get_element_by_id(&id);
        if let Some(found) = found.and_then(|it| it.dyn_into::<HtmlElement>().ok()) {
            // Fails only for an element that is no longer in the page.
            let _ = found.focus();
        }
    });
}

/// What can be done about the order, above the list.
#[component]
pub(super) fn OrderWays(reorder: Reorder) -> impl IntoView {
    let texts = language().ordering();
    let is_on = reorder.is_on;
    let is_other = Memo::new(move |_| is_on.get() && reorder.is_other());
    let toggle = move |_| {
        is_on.update(|on| *on = !*on);
        reorder.said.set(None);
        reorder.form.set(None);
    };
    let words = move || {
        if is_on.get() {
            texts.leave_order
        } else {
            texts.change_order
        }
    };
    let said = move || {
        let said = reorder.said.get().map(|(_, said)| said);
        said.map(|said| aloud(&said))
    };
    view! {
        <div class="actions">
            <button id=CHANGE type="button" class="button" on:click=toggle>{words}</button>
            <button
                id=ADD
                type="button"
                class="button"
                aria-expanded=move || if reorder.form.get() == Some(Form::New) { "true" } else { "false" }
                on:click=move |_| {
                    reorder.form.update(|form| *form = form.is_none().then_some(Form::New));
                    focus(super::own::FIELD.to_owned());
                }
            >
                {texts.add_own}
            </button>
            <Show when=move || is_other.get()>
                <button type="button" class="button" on:click=move |_| reorder.back_to_usual()>
                    {texts.usual_order}
                </button>
            </Show>
            <Show when=move || reorder.before.with(Option::is_some)>
                <button type="button" class="button" on:click=move |_| reorder.take_back()>
                    {first().undo}
                </button>
            </Show>
        </div>
        <Show when=move || is_on.get()>
            <p class="quiet">{texts.about_order}</p>
        </Show>
        <p class="visually-hidden" aria-live="polite">{said}</p>
        {move || reorder.form.get().map(|of| view! { <OwnStepForm reorder of/> })}
    }
}

/// What can be done about the place of one step, beside it.
#[component]
pub(super) fn Moves(reorder: Reorder, step: StepKey, place: usize) -> impl IntoView {
    let texts = language().ordering();
    // The words of a step of one's own may become others.
    let title = Memo::new(move |_| reorder.title(step));
    let named = move |words: fn(&OrderTexts, &str) -> String| {
        move || title.with(|title| aloud(&words(texts, title)))
    };
    let is_last = reorder.table.steps.with_untracked(Vec::len) == place.saturating_add(1);
    let own = match step {
        StepKey::Own(id) => Some(view! {
            <button
                id=own_id(id)
                type="button"
                class="step-move"
                aria-label=named(OrderTexts::change_own)
                on:click=move |_| {
                    reorder.form.set(Some(Form::Of(id)));
                    focus(super::own::FIELD.to_owned());
                }
            >
                <Icon symbol=Symbol::More/>
            </button>
        }),
        _ => None,
    };
    view! {
        {own}
        <button
            id=button_id(step, Way::Earlier)
            type="button"
            class="step-move"
            aria-label=named(OrderTexts::earlier)
            disabled=place == 0
            on:click=move |_| reorder.shift(step, Way::Earlier)
        >
            <Icon symbol=Symbol::Back/>
        </button>
        // One that was moved to the end keeps the focus.
        <button
            id=button_id(step, Way::Later)
            type="button"
            class="step-move"
            aria-label=named(OrderTexts::later)
            aria-disabled=if is_last { "true" } else { "false" }
            on:click=move |_| reorder.shift(step, Way::Later)
        >
            <Icon symbol=Symbol::Next/>
        </button>
    }
}

/// Why a step stays, under it.
#[component]
pub(super) fn WhyItStays(reorder: Reorder, step: StepKey) -> impl IntoView {
    move || {
        let said = reorder.said.get();
        let said = said.filter(|(of, _)| *of == Some(step));
        said.map(|(_, said)| view! { <p class="callout step-stays">{told(said)}</p> })
    }
}
