//! The panels of a strip, the base or a piece glued in, with its scores.

use foldwright_engine::length::Length;
use foldwright_engine::pattern::LineId;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{Fold, PanelId, Recipe, StripId};
use foldwright_words::sentence;
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::field::NameField;
use super::super::number::Number;
use super::super::pick::brought;
use super::super::ties::Rules;
use super::rows::Rows;
use crate::part::{Choice, told};
use crate::spoken::{naming, speaker, texts};

/// The numbers that no part has for its own, such as the gap between two leaves or
/// the depth of a step, for the base or a piece glued in.
#[component]
pub(super) fn Shared(of: StripId) -> impl IntoView {
    let desk = Desk::here();
    let named = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let shared = recipe.shared_measures(of).into_iter();
            let named = shared.filter_map(|id| Some((id, recipe.measure(id)?.name.clone())));
            named.collect::<Vec<_>>()
        })
    });
    view! {
        <Show when=move || named.with(|named| !named.is_empty())>
            <h3>{texts().shape.measurements_of_fold}</h3>
            <div class="numbers">
                <For
                    each=move || named.get()
                    key=Clone::clone
                    children=move |(id, name)| {
                        view! { <Number measure=Signal::stored(id) label=sentence(name)/> }
                    }
                />
            </div>
        </Show>
    }
}

/// The panels in order, with the scores between them.
#[component]
pub(super) fn PanelRows(of: StripId) -> impl IntoView {
    let ids = move |recipe: &Recipe| {
        let panels = recipe.strip(of).map(|strip| &strip.panels[..]);
        let panels = panels.unwrap_or_default().iter();
        panels.map(|panel| panel.id).collect()
    };
    view! { <Rows class="panels" ids row=|id| view! { <PanelRow id/> }.into_any()/> }
}

/// One panel and the score after it.
#[component]
fn PanelRow(id: PanelId) -> impl IntoView {
    let desk = Desk::here();
    // The strip it is on, and its place along it.
    let place = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let at = recipe.strip_with(id);
            at.map_or((StripId::Base, 0), |(of, _, place)| (of, place))
        })
    });
    let name = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            recipe
                .panel(id)
                .map_or_else(String::new, |(_, panel)| panel.name.clone())
        })
    });
    // A row that is on its way out has no panel any more.
    let width = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let panel = recipe.panel(id);
            panel.map_or(recipe.base.length, |(_, panel)| panel.width)
        })
    });
    let only = move || {
        desk.recipe.with(|recipe| {
            let strip = recipe.strip_with(id);
            strip.is_none_or(|(_, strip, _)| strip.panels.len() == 1)
        })
    };
    let row = NodeRef::<html::Li>::new();
    // A part that lines make of a panel is worked on with the whole.
    brought(
        move || row.get().map(Into::into),
        move || match desk.sought.get() {
            Some(Place::Panel(sought)) if sought.strip_panel() == id => Place::Panel(sought),
            _ => Place::Panel(id),
        },
    );
    let add = move |_| {
        let (of, place) = place.get_untracked();
        desk.edit(None, |recipe| {
            recipe
                .add_panel(of, place, None, naming())
                .map(|added| added.changes)
        });
    };
    let remove = move |_| {
        desk.edit(None, |recipe| recipe.remove_panel(id));
    };
    let rename = move |name: String| {
        // Fails only for a part that is gone, and then there is nothing to name.
        desk.change(|recipe| drop(recipe.rename_panel(id, &name, naming())));
    };
    view! {
        <li node_ref=row class="panel brought" tabindex="-1">
            <div class="panel-line">
                <NameField label=texts().shape.panel name rename/>
                <Number measure=width label=texts().shape.width/>
            </div>
            <Rules measures=Signal::derive(move || vec![width.get()])/>
            <div class="actions">
                <button type="button" class="button quiet" aria-label=move || texts().shape.add_after(&name.get()) on:click=add>
                    {texts().shape.add_panel}
                </button>
                <button
                    type="button"
                    class="button quiet"
                    aria-label=move || texts().desk.remove_this(&name.get())
                    disabled=only
                    on:click=remove
                >
                    {texts().desk.remove}
                </button>
            </div>
            <ScoreRow id place/>
        </li>
    }
}

/// The score after a panel, where there is one.
#[component]
fn ScoreRow(id: PanelId, place: Memo<(StripId, usize)>) -> impl IntoView {
    let desk = Desk::here();
    let fold = Memo::new(move |_| {
        let (of, place) = place.get();
        desk.recipe
            .with(|recipe| recipe.strip(of)?.folds.get(place).copied())
    });
    let at = move || {
        let (of, place) = place.get();
        desk.card.with(|card| {
            let crease = card
                .laid
                .piece(of)
                .and_then(|piece| piece.creases.get(place));
            crease.map_or(Length::ZERO, |crease| crease.from.x)
        })
    };
    let flip = move |wanted: Fold| {
        let (of, place) = place.get_untracked();
        if fold.get_untracked() != Some(wanted) {
            // Fails only for a score that is gone.
            desk.change(|recipe| drop(recipe.flip(of, place)));
        }
    };
    let row = NodeRef::<html::Div>::new();
    brought(
        move || row.get().map(Into::into),
        move || {
            let (of, place) = place.get();
            Place::Score(LineId::of_strip_score(of, place, id))
        },
    );
    let chosen = Signal::derive(move || fold.get().unwrap_or(Fold::Valley));
    let from = move || match place.get().0 {
        StripId::Base => texts().shape.folds_from_inside,
        StripId::Piece(_) => texts().shape.folds_from_front,
    };
    view! {
        <Show when=move || fold.get().is_some()>
            <div node_ref=row class="score-line brought" tabindex="-1">
                <span>{texts().shape.score_at} " " <b>{move || desk.recipe.with(|recipe| told(speaker(recipe).with_exact().short_length(at())))}</b></span>
                <Choice
                    label=untrack(from)
                    options=|| vec![(Fold::Mountain, texts().shape.mountain), (Fold::Valley, texts().shape.valley)]
                    chosen
                    choose=flip
                />
            </div>
            <RestsFlat of=Signal::derive(move || place.get().0) crease=LineId::of_piece_score(id)/>
        </Show>
    }
}

/// Whether a crease of a piece lies flat while the card is closed.
#[component]
pub(super) fn RestsFlat(#[prop(into)] of: Signal<StripId>, crease: LineId) -> impl IntoView {
    let desk = Desk::here();
    let flat = move || {
        let of = of.get().piece()?;
        desk.recipe
            .with(|recipe| Some(recipe.piece(of)?.flat.contains(&crease)))
    };
    let set = move |event: ev::Event| {
        if let StripId::Piece(of) = of.get_untracked() {
            let flat = event_target_checked(&event);
            // Fails only for a piece that is gone.
            desk.change(|recipe| drop(recipe.rest_flat(of, crease, flat)));
        }
    };
    view! {
        <Show when=move || !of.get().is_base()>
            <label class="check">
                <input type="checkbox" prop:checked=move || flat() == Some(true) on:change=set/>
                <span>{texts().shape.lies_flat}</span>
            </label>
        </Show>
    }
}
