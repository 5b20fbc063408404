//! Everything that is wrong, the gravest first.

use foldwright_engine::problem::{Place, Problem, Weight};
use leptos::prelude::*;

use super::super::desk::Desk;

/// All problems of the card.
#[component]
pub(in super::super) fn Problems() -> impl IntoView {
    let desk = Desk::here();
    view! { <ProblemList which=move |_: &Problem| true/>
        <Show when=move || desk.card.with(|card| card.problems.is_empty())>
            <p class="quiet">"Nothing is wrong with this card."</p>
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
        Weight::Stop => ("problem stop", "Cannot be made so"),
        Weight::Warning => ("problem warning", "Will disappoint"),
        Weight::Note => ("problem note", "Good to know"),
    };
    let place = problem.place;
    let leads = (!here && place != Place::Recipe).then(|| {
        view! {
            <button type="button" class="button" on:click=move |_| desk.go(place)>
                "Show where"
            </button>
        }
    });
    view! {
        <li class=class>
            <p class="problem-weight">{weight}</p>
            <p class="problem-what">{problem.what}</p>
            <p>{problem.why}</p>
            <p>{problem.remedy}</p>
            {leads}
        </li>
    }
}
