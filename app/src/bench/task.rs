//! One step: what it is, its numbers, its pictures, and what to do.

use foldwright_engine::steps::StepKey;
use foldwright_words::{ToldFigure, ToldStep};
use leptos::html;
use leptos::prelude::*;

use super::batch::{Copies, Counter};
use super::caution::Cautions;
use super::clock::ClockForStep;
use super::note::Note;
use super::numbers::ChangeNumber;
use super::pace::HowLong;
use super::pictures::Pictures;
use super::place::Place;
use super::rescue::CameOutDifferent;
use super::said::Said;
use super::short::Short;
use super::table::Table;
use super::turn::Swipe;
use crate::part::{OwnPhoto, PhotoOf, Ticks, heard, told};
use crate::spoken::{runs, texts};

/// The step at this place.
#[component]
pub(super) fn Task() -> impl IntoView {
    let table = Table::here();
    let key = table.key();
    let step = Said::here().step;
    let figures = Memo::new(move |_| step.with(|step| step.figures.clone()));
    let does = Memo::new(move |_| step.with(|step| step.does.clone()));
    let tools = Memo::new(move |_| step.with(|step| step.tools.clone()));
    let said = move |what: fn(&ToldStep) -> &String| step.with(|step| what(step).clone());
    let heading = NodeRef::<html::H1>::new();
    focus_on_change(key, heading);
    let swipe = Swipe::new(table);
    let photo = Memo::new(move |_| key.get().map(|key| PhotoOf::Step(key.to_string())));
    view! {
        <article
            class="task"
            on:pointerdown=move |event| swipe.down(&event)
            on:pointerup=move |event| swipe.up(&event)
            on:pointercancel=move |_| swipe.cancel()
        >
            <header class="task-head">
                <p class="task-kind">{move || said(|step| &step.kind)}</p>
                <h1 node_ref=heading tabindex="-1">{move || heard(said(|step| &step.title))}</h1>
                <Show when=move || table.changed.get()>
                    <p class="callout warning" role="status">
                        {texts().bench.step_is_gone}
                    </p>
                </Show>
            </header>
            <div class="task-see">
                <Numbers figures/>
                <Cautions/>
                <Pictures/>
            </div>
            <div class="task-do">
                <div class="task-words">
                    {move || does.get().into_iter().map(|words| view! { <p>{told(words)}</p> }).collect_view()}
                </div>
                <Show when=move || tools.with(|tools| !tools.is_empty())>
                    <p class="task-tools">
                        <strong>{texts().bench.have_ready}</strong> " "
                        {move || tools.with(|tools| tools.join(", "))}
                    </p>
                </Show>
                <Show when=move || table.place.get() == Place::At(0)>
                    <Copies/>
                    <HowLong/>
                    <Short/>
                </Show>
                <Counter/>
                <ClockForStep/>
                <CameOutDifferent/>
                <ChangeNumber/>
                // A setting belongs to so many cards: what stands beside it would be lost
                // with them.
                <Show when=move || !matches!(key.get(), Some(StepKey::CutAt { .. }))>
                    <Note key/>
                    <OwnPhoto of=photo edited=table.edited()/>
                </Show>
            </div>
        </article>
    }
}

/// After each change of step its heading takes the focus, and the page begins
/// at its top. The first step is left as the browser shows it.
fn focus_on_change(key: Memo<Option<StepKey>>, heading: NodeRef<html::H1>) {
    Effect::new(move |before: Option<Option<StepKey>>| {
        let now = key.get();
        if before.is_some_and(|before| before != now) {
            request_animation_frame(move || {
                window().scroll_to_with_x_and_y(0.0, 0.0);
                if let Some(heading) = heading.try_get_untracked().flatten() {
                    // Fails only for an element that is no longer in the page.
                    let _ = heading.focus();
                }
            });
        }
        now
    });
}

/// As many letters as one length has at most: "12¹³⁄₁₆⁺ in".
const SHORT: usize = 11;

/// The step's numbers, to be read at arm's length.
#[component]
fn Numbers(figures: Memo<Vec<ToldFigure>>) -> impl IntoView {
    let rows = move || {
        let rows = figures.get().into_iter().map(|figure| {
            // A length stays on one line; two of them may go on two.
            let seen = runs(&figure.whole()).into_iter();
            let letters: usize = seen.map(|run| run.shown.chars().count()).sum();
            let short = letters <= SHORT;
            view! {
                <div class="big-number" class:short=short>
                    <dt>{figure.label}</dt>
                    <dd>{told(figure.number)}"\u{a0}"<span class="big-unit">{figure.unit}</span></dd>
                </div>
            }
        });
        rows.collect_view()
    };
    let any = Signal::derive(move || figures.with(|all| all.iter().any(ToldFigure::is_rounded)));
    view! {
        <Show when=move || figures.with(|figures| !figures.is_empty())>
            <dl class="big-numbers">{rows}</dl>
            <Ticks any/>
        </Show>
    }
}
