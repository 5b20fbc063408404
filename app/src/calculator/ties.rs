//! What else holds a number: its limits, and the rules it is in with others.

use foldwright_engine::length::{Length, nearest, read};
use foldwright_engine::recipe::MeasureId;
use leptos::prelude::*;

use super::desk::Desk;
use super::pull_down::Pick;
use crate::part::{Typed, heard, told};
use crate::spoken::{aloud, misread, speaker, texts};

/// The limits of a measure and a way to tie it to another.
#[component]
pub(super) fn Ties(measure: MeasureId) -> impl IntoView {
    let desk = Desk::here();
    let limits = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let held = recipe.measure(measure);
            held.map_or((None, None), |held| (held.least, held.most))
        })
    });
    let others = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let others = recipe.measures.iter().filter(|it| it.id != measure);
            std::iter::once((None, texts().desk.choose_one.to_owned()))
                .chain(others.map(|it| {
                    let value = recipe.notation.with_unit(it.value);
                    (Some(it.id), format!("{}, {value}", it.name))
                }))
                .collect::<Vec<_>>()
        })
    });
    let other = RwSignal::new(None::<MeasureId>);
    let apart = move || {
        let other = other.get()?;
        desk.recipe.with(|recipe| {
            let apart = recipe.value(measure) - recipe.value(other);
            let written = recipe.notation.with_unit(apart.abs());
            Some(match apart {
                Length::ZERO => texts().desk.keep_equal.to_owned(),
                _ if apart.is_negative() => texts().desk.keep_shorter(&written),
                _ => texts().desk.keep_longer(&written),
            })
        })
    };
    let differs = move || {
        other.get().is_some_and(|other| {
            desk.recipe
                .with(|recipe| recipe.value(measure) != recipe.value(other))
        })
    };
    let tie = move |equal: bool| {
        let Some(to) = other.get_untracked() else {
            return;
        };
        let tied = desk.edit(None, |recipe| {
            if equal {
                recipe.tie_equal(measure, to)
            } else {
                recipe.tie_apart(measure, to)
            }
        });
        if tied {
            other.set(None);
        }
    };
    let set_least = move |least| {
        let (_, most) = limits.get_untracked();
        desk.edit(None, |recipe| recipe.limit(measure, least, most));
    };
    let set_most = move |most| {
        let (least, _) = limits.get_untracked();
        desk.edit(None, |recipe| recipe.limit(measure, least, most));
    };
    view! {
        <Rules measures=Signal::stored(vec![measure]) open=true/>
        <details class="typed">
            <summary>{texts().desk.limits_and_ties}</summary>
            <div class="fields">
                <Limit label=texts().desk.at_least limit=Signal::derive(move || limits.get().0) set=set_least/>
                <Limit label=texts().desk.at_most limit=Signal::derive(move || limits.get().1) set=set_most/>
                <Pick label=texts().desk.tie_to options=others chosen=other choose=move |id| other.set(id)/>
            </div>
            <Show when=move || other.get().is_some()>
                <div class="actions">
                    <button type="button" class="button" on:click=move |_| tie(false)>{move || apart().map(heard)}</button>
                    <Show when=differs>
                        <button type="button" class="button" on:click=move |_| tie(true)>{texts().desk.make_equal}</button>
                    </Show>
                </div>
            </Show>
        </details>
    }
}

/// The rules that some numbers are in, each with a button that takes it away;
/// nothing where there are none.
#[component]
pub(super) fn Rules(
    /// The numbers.
    #[prop(into)]
    measures: Signal<Vec<MeasureId>>,
    /// Whether they are shown without being asked for.
    #[prop(optional)]
    open: bool,
) -> impl IntoView {
    let desk = Desk::here();
    let rules = Memo::new(move |_| {
        let measures = measures.get();
        desk.recipe.with(|recipe| {
            let places = recipe.ties_of(&measures).into_iter();
            let say = speaker(recipe).with_exact();
            places
                .filter_map(|place| Some((place, say.rule(recipe.relations.get(place)?))))
                .collect::<Vec<_>>()
        })
    });
    let one = move |(place, words): (usize, String)| {
        let label = aloud(&texts().desk.remove_rule(&words));
        view! {
            <li class="rule">
                <span>{told(words)}</span>
                <button
                    type="button"
                    class="button quiet"
                    aria-label=label
                    on:click=move |_| {
                        desk.edit(None, |recipe| recipe.untie(place));
                    }
                >
                    {texts().desk.remove}
                </button>
            </li>
        }
    };
    view! {
        <Show when=move || !rules.with(Vec::is_empty)>
            <details class="typed" open=open>
                <summary>{move || texts().desk.rules_kept_count(rules.with(Vec::len))}</summary>
                <ul class="rules">
                    <For each=move || rules.get() key=Clone::clone children=one/>
                </ul>
            </details>
        </Show>
    }
}

/// A limit; empty where there is none.
#[component]
fn Limit(
    label: &'static str,
    #[prop(into)] limit: Signal<Option<Length>>,
    set: impl Fn(Option<Length>) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let desk = Desk::here();
    let take = move |typed: &str| {
        if typed.trim().is_empty() {
            set(None);
            return Ok(());
        }
        let unit = untrack(|| desk.notation().unit());
        set(Some(read(typed, unit).map_err(|error| misread(&error))?));
        Ok(())
    };
    let kept = Signal::derive(move || {
        let limit = limit.get();
        limit.map_or_else(String::new, |limit| desk.notation().exact(limit))
    });
    // What is typed may be off the marks of the ruler, and in another unit.
    let nearest_mark = move || {
        let limit = limit.get()?;
        desk.recipe.with(|recipe| {
            let is_on_mark = nearest(limit, recipe.notation.step).is_exact();
            (!is_on_mark).then(|| told(speaker(recipe).short_length(limit)))
        })
    };
    view! {
        <Typed label kept take placeholder=texts().desk.no_limit>
            <span class="quiet">{nearest_mark}</span>
        </Typed>
    }
}
