//! The outline of a layer or a window within its width and height.

use foldwright_engine::recipe::{Bend, Die, Outline, OutlineKind, Shaped};
use leptos::prelude::*;

use super::super::choice::Pick;
use super::super::desk::Desk;
use super::super::number::Number;
use super::bends::BendList;

const KINDS: [(OutlineKind, &str); 6] = [
    (OutlineKind::Straight, "Rectangle"),
    (OutlineKind::Rounded, "Rounded corners"),
    (OutlineKind::Round, "Round or oval"),
    (OutlineKind::Arched, "Arched top"),
    (OutlineKind::Cut, "Die-cut"),
    (OutlineKind::Follows, "Like what carries it"),
];

/// Which outline it has, and the numbers of that outline.
#[component]
pub(super) fn OutlineChoice(of: Shaped) -> impl IntoView {
    let desk = Desk::here();
    let outline = Memo::new(move |_| {
        desk.recipe
            .with(|recipe| recipe.outline(of).cloned().unwrap_or_default())
    });
    let kinds = KINDS.into_iter().filter(|(kind, _)| {
        // Nothing carries a window.
        *kind != OutlineKind::Follows || matches!(of, Shaped::Layer(_))
    });
    let options: Vec<_> = kinds.map(|(kind, word)| (kind, word.to_owned())).collect();
    let chosen = Signal::derive(move || outline.with(Outline::kind));
    let choose = move |kind| {
        desk.edit(None, |recipe| recipe.shape(of, kind));
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
                view! { <div class="numbers"><Number measure label="Radius"/></div> }.into_any()
            }
            OutlineKind::Arched => {
                view! { <div class="numbers"><Number measure label="Rise"/></div> }.into_any()
            }
            OutlineKind::Cut => view! { <DieCut of outline/> }.into_any(),
        }
    };
    view! {
        <div class="fields outline">
            <Pick label="Outline" options=Signal::stored(options) chosen choose/>
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
    let set = move |bends: Vec<Bend>| {
        desk.edit(None, |recipe| recipe.cut_shape(of, bends));
    };
    let options = Signal::derive(move || {
        let changed = bends.with(|bends| Die::ALL.iter().all(|die| die.bends() != *bends));
        let own = changed.then(|| (None, "Corners of its own".to_owned()));
        let dies = Die::ALL.into_iter();
        own.into_iter()
            .chain(dies.map(|die| (Some(die), die.word().to_owned())))
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
            <Pick label="Start from" options chosen choose/>
        </div>
        <details class="bends">
            <summary>"Corner by corner"</summary>
            <p class="quiet">
                "In parts of a hundred of the width and the height, anticlockwise. The bend leads \
                 to the next corner: 0 is straight, 50 half a circle outwards, −50 inwards."
            </p>
            <BendList bends set labels=["Across", "Up", "Bend"] closed=true/>
        </details>
    }
}
