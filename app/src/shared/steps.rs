//! All steps of a card, one below the other.

use std::collections::BTreeSet;

use foldwright_engine::card::Card;
use foldwright_engine::draw::Drawing;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::steps::steps;
use foldwright_words::ToldStep;
use leptos::prelude::*;

use super::card::drawn;
use crate::album::address;
use crate::part::{heard, told};
use crate::spoken::{language, speaker, texts};

/// Every step with its numbers, its pictures, its cautions, and the maker's note and
/// photograph.
#[component]
pub(super) fn AllSteps(
    /// The recipe.
    recipe: Recipe,
    /// The same worked out.
    card: Card,
) -> impl IntoView {
    let say = speaker(&recipe).with_exact();
    let mut met = BTreeSet::new();
    let steps = steps(&recipe, &card).into_iter().enumerate();
    let steps = steps.map(|(number, step)| {
        // A caution is told in full where it is first needed.
        let cautions = say.cautions(&step.care, &mut met).into_iter();
        let cautions: Vec<_> = cautions
            .map(|(title, words)| {
                let words = words.map(|words| format!(": {words}"));
                view! { <p class="callout warning"><b>{title}</b> {words}</p> }
            })
            .collect();
        let note = recipe.notes.get(&step.key.to_string());
        let note =
            note.map(|note| view! { <p class="card-note"><b>{texts().shared.note}</b> " " {note.clone()}</p> });
        let photo = recipe.photos.get(&step.key.to_string()).copied();
        // It may come later.
        let photo = move || {
            let alt = language().pictures().of_step_shared;
            let from = photo.and_then(address);
            from.map(|from| view! { <img class="step-photo" src=from alt=alt loading="lazy"/> })
        };
        let beside = view! { {note} {photo} };
        let drawings = step.pictures.iter();
        let drawings = drawings.map(|it| it.drawing(&recipe, &card)).collect();
        one_step(number, say.step(&step), drawings, cautions, beside)
    });
    view! { <ol class="card-steps">{steps.collect_view()}</ol> }
}

fn one_step(
    number: usize,
    step: ToldStep,
    drawings: Vec<Drawing>,
    cautions: impl IntoView + 'static,
    beside: impl IntoView + 'static,
) -> impl IntoView {
    let figures: Vec<_> = step
        .figures
        .iter()
        .map(|figure| view! { <div><dt>{figure.label.clone()}</dt><dd>{told(figure.whole())}</dd></div> })
        .collect();
    let figures = (!figures.is_empty()).then(|| view! { <dl class="card-measures">{figures}</dl> });
    let does: Vec<_> = step
        .does
        .into_iter()
        .map(|words| view! { <p>{told(words)}</p> })
        .collect();
    let pictures: Vec<_> = step
        .captions
        .into_iter()
        .zip(drawings)
        .enumerate()
        .map(|(place, (caption, drawing))| {
            let drawn = drawn(drawing, format!("step-{number}-{place}"), caption.clone());
            view! {
                <figure class="card-drawing">
                    {drawn}
                    <figcaption>{caption}</figcaption>
                </figure>
            }
        })
        .collect();
    let tools = (!step.tools.is_empty()).then(|| {
        view! { <p class="quiet">{texts().bench.have_ready} " " {step.tools.join(", ")}</p> }
    });
    view! {
        <li class="card-step">
            <h3>{step.kind} ": " {heard(step.title)}</h3>
            {cautions}
            {figures}
            {does}
            {tools}
            {beside}
            <div class="card-drawings">{pictures}</div>
        </li>
    }
}
