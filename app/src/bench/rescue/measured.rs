//! What was measured.

use foldwright_engine::length::{Length, ceil, floor, read};
use foldwright_engine::rescue::{About, CannotBe, Miscut, Plan, Planned, Rescue, rescue, work};
use leptos::ev;
use leptos::prelude::*;

use super::{Lead, Rescuing};
use crate::bench::table::Table;

/// One length, as it is typed.
#[derive(Clone)]
struct Field {
    planned: Planned,
    typed: RwSignal<String>,
    /// Whether it is made; a score may be yet to come.
    made: RwSignal<bool>,
}

/// Asks for what was measured at a step.
#[component]
pub(super) fn Measured(
    /// The step's lasting name.
    key: String,
) -> impl IntoView {
    let table = Table::here();
    let rescuing = Rescuing::here();
    let work = untrack(|| {
        table
            .recipe
            .with(|recipe| table.card.with(|card| work(recipe, card, &key)))
    });
    let Some(work) = work else {
        return view! { <p class="callout warning">"This step is no longer part of the recipe."</p> }
            .into_any();
    };
    let notation = table.recipe.with_untracked(|recipe| recipe.notation);
    let copies = table.recipe.with_untracked(|recipe| recipe.copies);
    let scores = matches!(work.about, About::Scores(..)) && work.planned.len() > 1;
    let fields: Vec<Field> = work
        .planned
        .iter()
        .map(|planned| Field {
            typed: RwSignal::new(notation.exact(planned.length)),
            planned: planned.clone(),
            made: RwSignal::new(true),
        })
        .collect();
    let cards = RwSignal::new(1_u32);
    let refused = RwSignal::new(None::<String>);
    let about = work.about;
    let all = fields.clone();
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let measured: Result<Vec<_>, _> = all
            .iter()
            .map(|field| {
                if field.made.get_untracked() {
                    read(&field.typed.get_untracked(), notation.unit()).map(Some)
                } else {
                    Ok(None)
                }
            })
            .collect();
        let measured = match measured {
            Ok(measured) => measured,
            Err(wrong) => return refused.set(Some(wrong.to_string())),
        };
        let miscut = Miscut {
            key: key.clone(),
            about,
            measured,
            cards: cards.get_untracked(),
        };
        match found(table, &miscut) {
            Ok(found) if found.offers.is_empty() => {
                refused.set(Some(
                    "That is as planned. Nothing has to change.".to_owned(),
                ));
            }
            Ok(found) => {
                refused.set(None);
                rescuing.found.set(Some((miscut, found)));
            }
            Err(cannot) => refused.set(Some(cannot.words().to_owned())),
        }
    };
    let rows = fields.into_iter().map(|field| {
        view! { <OneLength field may_be_open=scores from_stop={matches!(about, About::Scores(..))}/> }
    });
    view! {
        <form class="measured" on:submit=submit>
            <Lead words="Set each length to what you measured."/>
            {rows.collect_view()}
            <Show when=move || { copies > 1 }>
                <HowMany cards copies/>
            </Show>
            <p class="wrong" role="alert">{refused}</p>
            <button type="submit" class="button primary bench-way">"See what can be saved"</button>
        </form>
    }
    .into_any()
}

/// What can be done, by the plan as it stands.
fn found(table: Table, miscut: &Miscut) -> Result<Rescue, CannotBe> {
    let progress = table.progress_now();
    let tools = table.tools();
    let at = table.key_here();
    table.recipe.with_untracked(|recipe| {
        let plan = Plan {
            recipe,
            tools: &tools,
            done: &progress.done,
            trims: &progress.trims,
            at: &at,
        };
        rescue(&plan, miscut)
    })
}

#[component]
fn OneLength(
    field: Field,
    /// Whether it may be yet to come.
    may_be_open: bool,
    /// Whether it is measured from the fence.
    from_stop: bool,
) -> impl IntoView {
    let table = Table::here();
    let notation = table.recipe.with_untracked(|recipe| recipe.notation);
    let Field {
        planned,
        typed,
        made,
    } = field;
    let unit = notation.unit();
    let step = notation.step;
    let step_words = step.words(notation.decimal);
    let label = planned.label.clone();
    let hint = {
        let planned = notation.exact(planned.length);
        if from_stop {
            format!("planned {planned} from the fence")
        } else {
            format!("planned {planned}")
        }
    };
    let wrong = move || made.get() && read(&typed.get(), unit).is_err();
    let set = move |length: Length| typed.set(notation.exact(length));
    let now = move || read(&typed.get_untracked(), unit).unwrap_or(planned.length);
    let less = move |_| set(ceil(now(), step).at - step.length());
    let more = move |_| set(floor(now(), step).at + step.length());
    let less_words = format!("{label}: {step_words} less");
    let more_words = format!("{label}: {step_words} more");
    let open_words = format!("{label}: made already");
    view! {
        <fieldset class="measure">
            <legend><b class="measure-name">{label.clone()}</b>", "{hint}</legend>
            <Show when=move || may_be_open>
                <label class="check">
                    <input
                        type="checkbox"
                        aria-label=open_words.clone()
                        prop:checked=made
                        on:change=move |event| made.set(event_target_checked(&event))
                    />
                    <span>"Made already"</span>
                </label>
            </Show>
            <div class="number-line">
                <button type="button" class="button step" aria-label=less_words disabled=move || !made.get() on:click=less>"−"</button>
                <input
                    class="number-field"
                    data-unfinished="submit"
                    inputmode="text"
                    autocomplete="off"
                    aria-label=format!("{label}, as measured")
                    aria-invalid=move || if wrong() { "true" } else { "false" }
                    disabled=move || !made.get()
                    prop:value=typed
                    on:input=move |event| typed.set(event_target_value(&event))
                />
                <button type="button" class="button step" aria-label=more_words disabled=move || !made.get() on:click=more>"+"</button>
            </div>
        </fieldset>
    }
}

/// How many pieces of a batch came out like this.
#[component]
fn HowMany(cards: RwSignal<u32>, copies: u32) -> impl IntoView {
    view! {
        <div class="count" role="group" aria-label="How many came out like this">
            <p class="count-label">"How many came out like this"</p>
            <div class="count-row">
                <button
                    type="button"
                    class="count-button"
                    aria-label="One fewer"
                    disabled=move || cards.get() == 1
                    on:click=move |_| cards.update(|cards| *cards = cards.saturating_sub(1).max(1))
                >
                    "−"
                </button>
                <output class="count-now" aria-live="polite">
                    {cards}<span class="count-of">{format!(" of {copies}")}</span>
                </output>
                <button
                    type="button"
                    class="count-button"
                    aria-label="One more"
                    disabled=move || { cards.get() >= copies }
                    on:click=move |_| cards.update(|cards| *cards = cards.saturating_add(1).min(copies))
                >
                    "+"
                </button>
            </div>
        </div>
    }
}
