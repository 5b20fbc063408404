//! The log of a recipe: the cards that were made by it.

use foldwright_engine::recipe::{Recipe, Run, RunId, Spent};
use leptos::html;
use leptos::prelude::*;

use super::{Edited, OwnPhoto, PhotoOf, day, told};
use crate::album::address;
use crate::notice::{Notice, Notices};
use crate::spoken::{first, language, speaker};

/// As many letters as the line of a run has at most. (Own choice.)
const LINE: u32 = 200;

/// Every run, the one finished last first.
#[component]
pub(crate) fn Runs(
    /// Of which recipe.
    edited: Edited,
    /// Whether the newest is open.
    open: bool,
) -> impl IntoView {
    let texts = language().pictures();
    let heading = NodeRef::<html::H2>::new();
    let runs = Memo::new(move |_| edited.recipe.with(newest_first));
    let is_newest = move |id| open && runs.with_untracked(|runs| runs.first() == Some(&id));
    view! {
        <section class="runs">
            <h2 node_ref=heading tabindex="-1">{texts.log}</h2>
            <Show when=move || runs.with(Vec::is_empty)>
                <p class="quiet">{texts.no_runs}</p>
            </Show>
            <ul class="runs-list">
                <For
                    each=move || runs.get()
                    key=|id| *id
                    children=move |id| view! { <OneRun edited id open=is_newest(id) heading/> }
                />
            </ul>
        </section>
    }
}

fn newest_first(recipe: &Recipe) -> Vec<RunId> {
    let mut runs: Vec<_> = recipe.runs.iter().map(|run| run.id).collect();
    runs.sort_unstable_by(|one, other| other.cmp(one));
    runs
}

/// One run: what it was at a glance, and the rest once that is asked for.
#[component]
fn OneRun(edited: Edited, id: RunId, open: bool, heading: NodeRef<html::H2>) -> impl IntoView {
    let texts = language().pictures();
    let notices = expect_context::<Notices>();
    // A row on its way out has nothing to show any more.
    let run = Memo::new(move |_| edited.recipe.with(|recipe| recipe.run(id).cloned()));
    let text = move || {
        run.with(|run| {
            run.as_ref()
                .map_or_else(String::new, |run| run.text.clone())
        })
    };
    let photo = Memo::new(move |_| run.with(|run| run.as_ref().and_then(|run| run.photo)));
    let cards = move || run.with(|run| run.as_ref().map(|run| texts.cards(run.cards)));
    let spent = move || {
        run.with(|run| {
            let spent = run.iter().flat_map(|run| &run.spent);
            edited.recipe.with(|recipe| {
                let lines = spent.map(|spent| line(recipe, spent));
                lines
                    .map(|line| view! { <li>{told(line)}</li> })
                    .collect_view()
            })
        })
    };
    let of = Memo::new(move |_| Some(PhotoOf::Run(id)));
    let remove = move |_| {
        let Some(gone) = run.get_untracked() else {
            return;
        };
        let undo = edited.later(move |recipe| recipe.put_back_run(Run::clone(&gone)));
        edited.history.edit(|recipe| recipe.remove_run(id));
        notices.show(Notice::plain(texts.run_is_off).with(first().undo, undo));
        // Its row goes, and the focus must not be lost with it.
        if let Some(heading) = heading.get_untracked() {
            // Fails only for an element that is no longer in the page.
            let _ = heading.focus();
        }
    };
    let small = move || {
        let from = photo.get().and_then(address);
        from.map(|from| view! { <img class="run-small" src=from alt="" loading="lazy"/> })
    };
    view! {
        <li>
            <details class="run" open=open>
                <summary>
                    {small}
                    <span class="run-told">
                        <b>{day(id.0)}</b>
                        <span>{cards}</span>
                        <span class="quiet run-text">{text}</span>
                    </span>
                </summary>
                <ul class="run-spent">{spent}</ul>
                <label class="field">
                    <span>{texts.line}</span>
                    <input
                        type="text"
                        maxlength=LINE
                        prop:value=text
                        on:focus=move |_| edited.history.hold()
                        on:input=move |event| {
                            let typed = event_target_value(&event);
                            edited.history.edit(|recipe| recipe.write_run(id, &typed));
                        }
                        on:blur=move |_| edited.history.release()
                    />
                </label>
                <OwnPhoto of edited/>
                <button type="button" class="button quiet" on:click=remove>{texts.remove_run}</button>
            </details>
        </li>
    }
}

/// What a run took of a paper, in words.
fn line(recipe: &Recipe, spent: &Spent) -> String {
    let texts = language().pictures();
    let size = spent.size.map(|size| speaker(recipe).short_size(size));
    match (size, spent.left) {
        (None, _) => texts.sheets(spent.count, &spent.paper),
        (Some(size), false) => texts.scraps(spent.count, &spent.paper, &size),
        (Some(size), true) => texts.offcuts(spent.count, &spent.paper, &size),
    }
}

#[cfg(test)]
mod tests {
    use foldwright_engine::recipe::starters;

    use super::newest_first;

    #[test]
    fn the_run_finished_last_comes_first() {
        let mut recipe = starters()[0].recipe.clone();
        let days = [5, 9, 7].map(|at| recipe.finish_run(at, 1, Vec::new()).expect("there is room"));
        assert_eq!(newest_first(&recipe), [days[1], days[2], days[0]]);
    }
}
