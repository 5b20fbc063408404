//! The outline of a layer or a window within its width and height.

use foldwright_engine::recipe::{Bend, Die, Outline, OutlineKind, Shaped};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::number::Number;
use super::super::pull_down::Pick;
use super::bends::BendList;
use crate::spoken::{language, naming, speaker_without_recipe, texts};

fn kinds() -> [(OutlineKind, &'static str); 6] {
    let texts = &texts().shape;
    [
        (OutlineKind::Straight, texts.rectangle),
        (OutlineKind::Rounded, texts.rounded_corners),
        (OutlineKind::Round, texts.round_or_oval),
        (OutlineKind::Arched, texts.arched_top),
        (OutlineKind::Cut, texts.die_cut),
        (OutlineKind::Follows, texts.like_piece_under),
    ]
}

/// Which outline it has, and the numbers of that outline.
#[component]
pub(super) fn OutlineChoice(of: Shaped) -> impl IntoView {
    let desk = Desk::here();
    let outline = Memo::new(move |_| {
        desk.recipe
            .with(|recipe| recipe.outline(of).cloned().unwrap_or_default())
    });
    let kinds = kinds().into_iter().filter(|(kind, _)| {
        // Nothing carries a window.
        *kind != OutlineKind::Follows || matches!(of, Shaped::Layer(_))
    });
    let options: Vec<_> = kinds.map(|(kind, word)| (kind, word.to_owned())).collect();
    let chosen = Signal::derive(move || outline.with(Outline::kind));
    let choose = move |kind| {
        desk.edit(None, |recipe| recipe.shape(of, kind, naming()));
    };
    let kind = Memo::new(move |_| chosen.get());
    let more = move || {
        let measure = Signal::derive(move || {
            let base = desk.recipe.with(|recipe| recipe.base.length);
            outline.with(Outline::measure).unwrap_or(base)
        });
        match kind.get() {
            OutlineKind::Straight | OutlineKind::Round | OutlineKind::Follows => ().into_any(),
            OutlineKind::Rounded => {
                view! { <div class="numbers"><Number measure label=texts().shape.radius/></div> }
                    .into_any()
            }
            OutlineKind::Arched => {
                view! { <div class="numbers"><Number measure label=texts().shape.rise/></div> }
                    .into_any()
            }
            OutlineKind::Cut => view! { <DieCut of outline/> }.into_any(),
        }
    };
    view! {
        <div class="fields outline">
            <Pick label=texts().shape.outline options=Signal::stored(options) chosen choose/>
        </div>
        {more}
    }
}

/// The corners of a die-cut outline, and outlines to start from.
#[component]
fn DieCut(of: Shaped, outline: Memo<Outline>) -> impl IntoView {
    let desk = Desk::here();
    let bends = Signal::derive(move || {
        outline.with(|outline| match outline {
            Outline::Cut(bends) => bends.clone(),
            _ => Vec::new(),
        })
    });
    let is_traced = Memo::new(move |_| outline.with(|it| matches!(it, Outline::Traced(_))));
    let set = move |bends: Vec<Bend>| {
        desk.edit(None, |recipe| recipe.cut_shape(of, bends));
    };
    let options = Signal::derive(move || {
        let changed = bends.with(|bends| Die::ALL.iter().all(|die| die.bends() != *bends));
        let own = if is_traced.get() {
            language().outlines().from_a_file
        } else {
            texts().shape.corners_of_its_own
        };
        let own = changed.then(|| (None, own.to_owned()));
        let say = desk
            .recipe
            .with(|recipe| speaker_without_recipe(recipe.notation));
        let dies = Die::ALL.into_iter();
        own.into_iter()
            .chain(dies.map(|die| (Some(die), say.die(die))))
            .collect::<Vec<_>>()
    });
    let chosen = Signal::derive(move || {
        bends.with(|bends| Die::ALL.into_iter().find(|die| die.bends() == *bends))
    });
    let choose = move |die: Option<Die>| {
        if let Some(die) = die {
            set(die.bends());
        }
    };
    view! {
        <div class="fields">
            <Pick label=texts().shape.start_from options chosen choose/>
        </div>
        // An outline from a file has too many corners to be told one by one.
        <Show when=move || !is_traced.get()>
            <details class="bends">
                <summary>{texts().shape.corner_by_corner}</summary>
                <p class="quiet">
                    {texts().shape.percent_of_size}
                </p>
                <BendList bends set labels=[texts().shape.width, texts().shape.height, texts().shape.bend] closed=true/>
            </details>
        </Show>
    }
}
