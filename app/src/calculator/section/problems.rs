//! Everything that is wrong, the gravest first.

use foldwright_engine::card::make_fit;
use foldwright_engine::problem::{Place, Problem, Reacher, Weight};
use leptos::prelude::*;

use super::super::desk::Desk;
use crate::part::{heard, told};
use crate::spoken::{speaker, texts};

/// All problems of the card.
#[component]
pub(in super::super) fn Problems() -> impl IntoView {
    let desk = Desk::here();
    view! { <ProblemList which=move |_: &Problem| true/>
        <Show when=move || desk.card.with(|card| card.problems.is_empty())>
            <p class="quiet">{texts().resize.nothing_wrong}</p>
        </Show>
    }
}

/// The problems of one place, such as a layer.
#[component]
pub(super) fn ProblemList(
    /// Which problems to show.
    which: impl Fn(&Problem) -> bool + Copy + Send + Sync + 'static,
    /// Whether they are shown where they lie, so that nothing leads there.
    #[prop(optional)]
    here: bool,
) -> impl IntoView {
    let desk = Desk::here();
    let problems = Memo::new(move |_| {
        desk.card.with(|card| {
            let which = card.problems.iter().filter(|problem| which(problem));
            which.cloned().collect::<Vec<_>>()
        })
    });
    move || {
        let problems = problems.get();
        (!problems.is_empty()).then(|| {
            let items = problems
                .into_iter()
                .map(|problem| view! { <OneProblem problem here/> });
            view! { <ul class="problems">{items.collect_view()}</ul> }
        })
    }
}

#[component]
fn OneProblem(problem: Problem, here: bool) -> impl IntoView {
    let desk = Desk::here();
    let (class, weight) = match problem.weight {
        Weight::Stop => ("problem stop", texts().resize.cannot_be_made),
        Weight::Warning => ("problem warning", texts().resize.wont_turn_out),
        Weight::Note => ("problem note", texts().resize.good_to_know),
    };
    let place = problem.place;
    let leads = (!here && place != Place::Recipe).then(|| {
        view! {
            <button type="button" class="button" on:click=move |_| desk.go(place)>
                {texts().resize.show_where}
            </button>
        }
    });
    let is = desk
        .recipe
        .with_untracked(|recipe| speaker(recipe).with_exact().problem(&problem));
    let fit = fit(desk, &problem).map(|(of, words)| {
        view! {
            <button
                type="button"
                class="button"
                on:click=move |_| {
                    desk.edit(None, |recipe| make_fit(recipe, of));
                }
            >
                {heard(words)}
            </button>
        }
    });
    let ways = (fit.is_some() || leads.is_some())
        .then(|| view! { <div class="actions">{fit} {leads}</div> });
    view! {
        <li class=class>
            <p class="problem-weight">{weight}</p>
            <p class="problem-what">{told(is.what)}</p>
            <p>{told(is.why)}</p>
            <p>{told(is.remedy)}</p>
            {ways}
        </li>
    }
}

/// What can be made to fit where it reaches too far, and how that is offered;
/// nothing where it cannot.
fn fit(desk: Desk, problem: &Problem) -> Option<(Reacher, String)> {
    desk.recipe.with_untracked(|recipe| {
        let reach = problem.reach()?;
        // Only what works is offered.
        make_fit(&mut recipe.clone(), reach.of).ok()?;
        Some((reach.of, speaker(recipe).make_fit(reach)))
    })
}
