//! All steps of a card, one below the other.

use std::collections::BTreeSet;

use foldwright_engine::card::Card;
use foldwright_engine::draw::{Drawing, svg};
use foldwright_engine::recipe::Recipe;
use foldwright_engine::steps::{Step, steps};
use leptos::prelude::*;

/// Every step with its numbers, its pictures, its cautions and the maker's
/// note.
#[component]
pub(super) fn AllSteps(
    /// The recipe.
    recipe: Recipe,
    /// The same worked out.
    card: Card,
) -> impl IntoView {
    let mut met = BTreeSet::new();
    let steps = steps(&recipe, &card).into_iter().enumerate();
    let steps = steps.map(|(number, step)| {
        // A caution is told in full where it is first needed.
        let cautions: Vec<_> = step
            .care
            .iter()
            .map(|hazard| {
                let caution = hazard.caution();
                let words = met
                    .insert(*hazard)
                    .then(|| format!(": {} {}", caution.words, caution.defers));
                view! { <p class="callout warning"><b>{caution.title}</b> {words}</p> }
            })
            .collect();
        let note = recipe.notes.get(&step.key);
        let note =
            note.map(|note| view! { <p class="card-note"><b>"Note: "</b> {note.clone()}</p> });
        let pictures = step.pictures.iter();
        let pictures = pictures.map(|it| (it.caption.clone(), it.drawing(&recipe, &card)));
        one_step(number, pictures.collect(), step, cautions, note)
    });
    view! { <ol class="card-steps">{steps.collect_view()}</ol> }
}

fn one_step(
    number: usize,
    pictures: Vec<(String, Drawing)>,
    step: Step,
    cautions: impl IntoView + 'static,
    note: impl IntoView + 'static,
) -> impl IntoView {
    let figures: Vec<_> = step
        .figures
        .into_iter()
        .map(|figure| view! { <div><dt>{figure.label}</dt><dd>{figure.value}</dd></div> })
        .collect();
    let figures = (!figures.is_empty()).then(|| view! { <dl class="card-measures">{figures}</dl> });
    let does: Vec<_> = step
        .does
        .into_iter()
        .map(|words| view! { <p>{words}</p> })
        .collect();
    let pictures: Vec<_> = pictures
        .into_iter()
        .enumerate()
        .map(|(place, (caption, drawing))| {
            let drawn = svg(&drawing, &format!("step-{number}-{place}"));
            view! {
                <figure class="card-drawing">
                    <svg role="img" aria-label=caption.clone() viewBox=drawn.view_box.clone()>
                        <g inner_html=drawn.inside()></g>
                    </svg>
                    <figcaption>{caption}</figcaption>
                </figure>
            }
        })
        .collect();
    let tools = (!step.tools.is_empty()).then(|| {
        view! { <p class="quiet">"At hand: " {step.tools.join(", ")}</p> }
    });
    view! {
        <li class="card-step">
            <h3>{step.kind.word()} ": " {step.title}</h3>
            {cautions}
            {figures}
            {does}
            {tools}
            {note}
            <div class="card-drawings">{pictures}</div>
        </li>
    }
}
