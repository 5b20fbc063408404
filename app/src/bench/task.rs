//! One step: what it is, its numbers, its pictures, and what to do.

use foldwright_engine::steps::{Figure, Step};
use leptos::html;
use leptos::prelude::*;

use super::batch::{Copies, Counter};
use super::caution::Cautions;
use super::note::Note;
use super::pictures::Pictures;
use super::place::Place;
use super::rescue::CameOutDifferent;
use super::table::Table;
use super::turn::Swipe;

/// The step at this place.
#[component]
pub(super) fn Task() -> impl IntoView {
    let table = Table::here();
    let key = Memo::new(move |_| of(table, |step| step.key.clone()));
    let figures = Memo::new(move |_| of(table, |step| step.figures.clone()));
    let does = Memo::new(move |_| of(table, |step| step.does.clone()));
    let tools = Memo::new(move |_| of(table, |step| step.tools.clone()));
    let heading = NodeRef::<html::H1>::new();
    focus_on_change(key, heading);
    let swipe = Swipe::new(table);
    view! {
        <article
            class="task"
            on:pointerdown=move |event| swipe.down(&event)
            on:pointerup=move |event| swipe.up(&event)
            on:pointercancel=move |_| swipe.cancel()
        >
            <header class="task-head">
                <p class="task-kind">{move || of(table, |step| step.kind.word())}</p>
                <h1 node_ref=heading tabindex="-1">{move || of(table, |step| step.title.clone())}</h1>
                <Show when=move || table.changed.get()>
                    <p class="callout warning" role="status">
                        "The recipe has changed and the step you were at is gone. This is the \
                         nearest step before it."
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
                    {move || does.get().into_iter().map(|words| view! { <p>{words}</p> }).collect_view()}
                </div>
                <Show when=move || tools.with(|tools| !tools.is_empty())>
                    <p class="task-tools">
                        <strong>"At hand: "</strong>
                        {move || tools.with(|tools| tools.join(", "))}
                    </p>
                </Show>
                <Show when=move || table.place.get() == Place::At(0)>
                    <Copies/>
                </Show>
                <Counter/>
                <CameOutDifferent/>
                <Note key/>
            </div>
        </article>
    }
}

/// Something of the step at this place. Tracks.
fn of<T: Default>(table: Table, what: impl FnOnce(&Step) -> T) -> T {
    table
        .step
        .with(|step| step.as_ref().map(what).unwrap_or_default())
}

/// After each change of step its heading takes the focus, and the page begins
/// at its top. The first step is left as the browser shows it.
fn focus_on_change(key: Memo<String>, heading: NodeRef<html::H1>) {
    Effect::new(move |before: Option<String>| {
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

/// The step's numbers, to be read at arm's length.
/// As many letters as one length has at most: "12 13/16 in".
const SHORT: usize = 11;

#[component]
fn Numbers(figures: Memo<Vec<Figure>>) -> impl IntoView {
    let rows = move || {
        let rows = figures.get().into_iter().map(|figure| {
            let (number, unit) = number_and_unit(&figure.value);
            // A length stays on one line; two of them may go on two.
            let short = figure.value.chars().count() <= SHORT;
            view! {
                <div class="big-number" class:short=short>
                    <dt>{figure.label}</dt>
                    <dd>{number}" "<span class="big-unit">{unit}</span></dd>
                </div>
            }
        });
        rows.collect_view()
    };
    view! {
        <Show when=move || figures.with(|figures| !figures.is_empty())>
            <dl class="big-numbers">{rows}</dl>
        </Show>
    }
}

/// The number and its unit, which is written smaller. Lines break between two
/// lengths and never within one.
fn number_and_unit(value: &str) -> (String, String) {
    let is_unit = |unit: &str| unit.chars().all(char::is_alphabetic);
    let (number, unit) = value
        .rsplit_once(' ')
        .filter(|(_, unit)| is_unit(unit))
        .unwrap_or((value, ""));
    let mut number = number.replace(' ', "\u{a0}");
    for sign in ["×", "+", "−"] {
        number = number.replace(&format!("{sign}\u{a0}"), &format!("{sign} "));
    }
    (number, unit.to_owned())
}

#[cfg(test)]
mod tests {
    use super::number_and_unit;

    #[test]
    fn numbers_stand_apart_from_their_unit() {
        for (value, number, unit) in [
            ("8 1/2 in", "8\u{a0}1/2", "in"),
            ("105 mm", "105", "mm"),
            ("2 sheets", "2", "sheets"),
            ("4 1/4 × 5 1/2 in", "4\u{a0}1/4\u{a0}× 5\u{a0}1/2", "in"),
            ("1/8 in − 0.2 mm", "1/8\u{a0}in\u{a0}− 0.2", "mm"),
            ("too small", "too", "small"),
            ("7", "7", ""),
        ] {
            let expected = (number.to_owned(), unit.to_owned());
            assert_eq!(number_and_unit(value), expected);
        }
    }
}
