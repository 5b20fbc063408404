//! What was measured.

use foldwright_engine::length::{Length, ceil, floor, read};
use foldwright_engine::rescue::{
    About, CannotBe, Miscut, Plan, Planned, Rescue, rescue, spoiled, work,
};
use foldwright_engine::steps::StepKey;
use leptos::ev;
use leptos::prelude::*;

use super::{Lead, Rescuing};
use crate::bench::table::Table;
use crate::part::{LessOrMore, heard, told};
use crate::spoken::{aloud, language, misread, speaker, speaker_without_recipe, texts};

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
    key: StepKey,
) -> impl IntoView {
    let table = Table::here();
    let rescuing = Rescuing::here();
    let notation = table.recipe.with_untracked(|recipe| recipe.notation);
    let work = untrack(|| {
        table
            .recipe
            .with(|recipe| table.card.with(|card| work(recipe, card, key)))
    });
    let Some(work) = work else {
        let words = speaker_without_recipe(notation).cannot_be(CannotBe::NoStep);
        return view! { <p class="callout warning">{words}</p> }.into_any();
    };
    let copies = table.recipe.with_untracked(|recipe| recipe.copies);
    let scores = matches!(work.about, About::Scores(..)) && work.planned.len() > 1;
    let fields: Vec<Field> = work
        .planned
        .iter()
        .map(|planned| Field {
            typed: RwSignal::new(notation.exact(planned.length)),
            planned: *planned,
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
            Err(wrong) => return refused.set(Some(misread(&wrong))),
        };
        let miscut = Miscut {
            key,
            about,
            measured,
            cards: cards.get_untracked(),
        };
        match found(table, &miscut) {
            Ok(found) if found.offers.is_empty() => {
                refused.set(Some(texts().rescue.as_planned.to_owned()));
            }
            Ok(found) => {
                refused.set(None);
                rescuing.found.set(Some((miscut, found)));
            }
            Err(cannot) => {
                let words = speaker_without_recipe(notation).cannot_be(cannot);
                refused.set(Some(words.to_owned()));
            }
        }
    };
    let spoil = move |_| {
        let again = with_plan(table, |plan| spoiled(plan, key, cards.get_untracked()));
        if let Some((miscut, offer)) = again {
            let rescue = Rescue {
                offers: vec![offer],
                not_kept: None,
            };
            rescuing.found.set(Some((miscut, rescue)));
        }
    };
    let rows = fields.into_iter().map(|field| {
        view! { <OneLength field may_be_open=scores from_stop={matches!(about, About::Scores(..))}/> }
    });
    view! {
        <form class="measured" on:submit=submit>
            <Lead words=texts().rescue.set_to_measured/>
            {rows.collect_view()}
            <Show when=move || { copies > 1 }>
                <HowMany cards copies/>
            </Show>
            <p class="wrong" role="alert">{refused}</p>
            <button type="submit" class="button primary bench-way">{texts().rescue.see_what}</button>
            <button type="button" class="button bench-way" on:click=spoil>{language().beside().spoiled}</button>
        </form>
    }
    .into_any()
}

/// What can be done, by the plan as it stands.
fn found(table: Table, miscut: &Miscut) -> Result<Rescue, CannotBe> {
    with_plan(table, |plan| rescue(plan, miscut))
}

/// What comes of the plan as it stands.
fn with_plan<T>(table: Table, what: impl FnOnce(&Plan<'_>) -> T) -> T {
    let progress = table.progress_now();
    let tools = table.tools();
    let (done, trims) = (table.done_and_cut(), progress.known_trims());
    table.recipe.with_untracked(|recipe| {
        what(&Plan {
            recipe,
            tools: &tools,
            done: &done,
            trims: &trims,
            at: table.key_here(),
        })
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
    let label = table
        .bare
        .with_untracked(|recipe| speaker(recipe).label(&planned.label));
    let hint = {
        let planned = speaker_without_recipe(notation)
            .with_exact()
            .short_length(planned.length);
        if from_stop {
            texts().rescue.planned_from_fence(&planned)
        } else {
            texts().rescue.planned(&planned)
        }
    };
    let wrong = move || made.get() && read(&typed.get(), unit).is_err();
    let set = move |length: Length| typed.set(notation.exact(length));
    let now = move || read(&typed.get_untracked(), unit).unwrap_or(planned.length);
    let step_by = move |up: bool| {
        set(if up {
            floor(now(), step).at + step.length()
        } else {
            ceil(now(), step).at - step.length()
        });
    };
    let is_open = Signal::derive(move || !made.get());
    let less_words = aloud(&texts().rescue.less(&label, &step_words));
    let more_words = aloud(&texts().rescue.more(&label, &step_words));
    let open_words = aloud(&texts().rescue.is_made(&label));
    view! {
        <fieldset class="measure">
            <legend><b class="measure-name">{heard(&label)}</b>", "{told(hint)}</legend>
            <Show when=move || may_be_open>
                <label class="check">
                    <input
                        type="checkbox"
                        aria-label=open_words.clone()
                        prop:checked=made
                        on:change=move |event| made.set(event_target_checked(&event))
                    />
                    <span>{texts().rescue.made_already}</span>
                </label>
            </Show>
            <div class="number-line">
                <LessOrMore
                    less=less_words
                    more=more_words
                    button="button step"
                    is_least=is_open
                    is_most=is_open
                    by=step_by
                >
                    <input
                        class="number-field"
                        data-unfinished="submit"
                        inputmode="text"
                        autocomplete="off"
                        aria-label=aloud(&texts().rescue.as_measured(&label))
                        aria-invalid=move || if wrong() { "true" } else { "false" }
                        disabled=is_open
                        prop:value=typed
                        on:input=move |event| typed.set(event_target_value(&event))
                    />
                </LessOrMore>
            </div>
        </fieldset>
    }
}

/// How many pieces of a batch came out like this.
#[component]
fn HowMany(cards: RwSignal<u32>, copies: u32) -> impl IntoView {
    let by = move |more: bool| {
        cards.update(|cards| {
            *cards = if more {
                cards.saturating_add(1).min(copies)
            } else {
                cards.saturating_sub(1).max(1)
            };
        });
    };
    view! {
        <div class="count" role="group" aria-label=texts().rescue.how_many_so>
            <p class="count-label">{texts().rescue.how_many_so}</p>
            <div class="count-row">
                <LessOrMore
                    less=texts().rescue.one_fewer
                    more=texts().rescue.one_more
                    button="count-button"
                    is_least=Signal::derive(move || cards.get() == 1)
                    is_most=Signal::derive(move || cards.get() >= copies)
                    by
                >
                    <output class="count-now" aria-live="polite">
                        {cards}<span class="count-of">{format!(" {}", texts().bench.of(copies))}</span>
                    </output>
                </LessOrMore>
            </div>
        </div>
    }
}
