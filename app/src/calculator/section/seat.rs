//! Where something goes: each side by where it is seen, with a picture of that, and by
//! its panel.

use foldwright_engine::card::Card;
use foldwright_engine::draw::{Target, Written, state, svg};
use foldwright_engine::faces::{Part, View};
use foldwright_engine::recipe::{Face, LayerId, Recipe, Seat, Side};
use foldwright_engine::sight::Seen;
use foldwright_words::sentence;
use leptos::html;
use leptos::prelude::*;

use super::super::desk::Desk;
use crate::album::address;
use crate::part::heard;
use crate::spoken::{language, speaker};

/// More than this are offered without pictures, which take longer to draw than a
/// choice may wait for. Our own bound: what most starting folds have, with layers.
const MANY: usize = 24;

/// A side, or a layer, that something can be put on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Offered {
    /// Which one it is.
    pub(super) seat: Seat,
    /// Where it is seen; nothing where the card does not fold.
    seen: Option<String>,
    /// What it is called.
    called: String,
    /// The state in which it is first seen, and from where.
    at: Option<(usize, View)>,
}

impl Offered {
    /// The face, where it is one.
    pub(super) const fn face(&self) -> Option<Face> {
        match self.seat {
            Seat::Face(face) => Some(face),
            Seat::Layer(_) => None,
        }
    }
}

/// Everything that something can be put on: the sides of the panels as they are seen one
/// after the other, and the layers before `before`. Tracks.
pub(super) fn seats(desk: Desk, before: Option<LayerId>) -> Vec<Offered> {
    desk.recipe.with(|recipe| {
        desk.card.with(|card| {
            desk.sights
                .with(|sights| seats_of(recipe, card, sights, before))
        })
    })
}

fn seats_of(
    recipe: &Recipe,
    card: &Card,
    sights: &[Seen],
    before: Option<LayerId>,
) -> Vec<Offered> {
    let say = speaker(recipe);
    let offered = |seat: Seat, seen: Option<&Seen>, called: String| Offered {
        seat,
        seen: seen.map(|seen| language().sights().seen(&say, &seen.sight)),
        called,
        at: seen.and_then(|seen| seen.at),
    };
    let face =
        |face: Face, seen: Option<&Seen>| offered(Seat::Face(face), seen, sentence(say.face(face)));
    let mut all: Vec<_> = sights.iter().map(|it| face(it.face, Some(it))).collect();
    if all.is_empty() {
        let panels = card.laid.panels.iter();
        let faces = panels.flat_map(|panel| {
            [Side::B, Side::A].map(|side| Face {
                panel: panel.id,
                side,
            })
        });
        all.extend(faces.map(|it| face(it, None)));
    }
    let layers = recipe.layers.iter();
    let layers = layers.take_while(|layer| Some(layer.id) != before);
    all.extend(layers.map(|layer| {
        let laid = card.laid.layer(layer.id);
        let seen = laid.and_then(|laid| sights.iter().find(|seen| seen.face == laid.face));
        offered(Seat::Layer(layer.id), seen, sentence(layer.name.clone()))
    }));
    all
}

/// A labelled choice of where something goes: what holds, and with a tap all there is to
/// choose from.
#[component]
pub(super) fn SeatChoice(
    /// What is chosen here.
    label: &'static str,
    /// What no other pictures on the page are called: letters and digits.
    #[prop(into)]
    name: String,
    /// What there is to choose from.
    #[prop(into)]
    options: Signal<Vec<Offered>>,
    /// The one that holds.
    #[prop(into)]
    chosen: Signal<Option<Seat>>,
    /// What to do when another one is taken.
    choose: impl Fn(Seat) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let head = NodeRef::<html::Button>::new();
    let name = StoredValue::new(name);
    let now = move || {
        options.with(|all| {
            let now = all.iter().find(|it| Some(it.seat) == chosen.get())?;
            Some(view! { <Side offered=now.clone() name=name.get_value()/> })
        })
    };
    let take = move |seat: Seat| {
        open.set(false);
        if let Some(head) = head.get_untracked() {
            // Fails only for what is not on the page.
            let _ = head.focus();
        }
        if Some(seat) != chosen.get_untracked() {
            choose(seat);
        }
    };
    let all = move || {
        let all = options.get();
        let is_pictured = all.len() <= MANY;
        let one = |(place, offered): (usize, Offered)| {
            let seat = offered.seat;
            let name = is_pictured.then(|| name.with_value(|name| format!("{name}of{place}")));
            view! {
                <li>
                    <button
                        type="button"
                        class="side"
                        aria-pressed=move || if chosen.get() == Some(seat) { "true" } else { "false" }
                        on:click=move |_| take(seat)
                    >
                        <Side offered name=name.unwrap_or_default()/>
                    </button>
                </li>
            }
        };
        all.into_iter().enumerate().map(one).collect_view()
    };
    view! {
        <fieldset class="sides">
            <legend>{label}</legend>
            <button
                type="button"
                class="side now"
                node_ref=head
                aria-expanded=move || if open.get() { "true" } else { "false" }
                on:click=move |_| open.update(|open| *open = !*open)
            >
                {now}
            </button>
            <Show when=move || open.get()>
                <ul>{all}</ul>
            </Show>
        </fieldset>
    }
}

/// Where it is seen, and what it is called; with a picture, unless that has no name.
#[component]
fn Side(offered: Offered, name: String) -> impl IntoView {
    let desk = Desk::here();
    let pictured = untrack(|| {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let at = offered.at.filter(|_| !name.is_empty())?;
                Some(pictured(recipe, card, offered.seat, at, &name))
            })
        })
    });
    let Offered { seen, called, .. } = offered;
    view! {
        {pictured
            .map(|(drawn, outline)| {
                view! {
                    <svg class="side-picture" viewBox=drawn.view_box.clone() aria-hidden="true" focusable="false">
                        <g inner_html=drawn.inside()></g>
                        <path class="chosen" d=outline></path>
                    </svg>
                }
            })}
        <span>
            {seen.map(|seen| view! { <b>{heard(seen)}</b> " " })}
            <span class="quiet">{heard(called)}</span>
        </span>
    }
}

/// The card where the side is first seen, and the outline of what of it shows.
fn pictured(
    recipe: &Recipe,
    card: &Card,
    seat: Seat,
    (number, view): (usize, View),
    name: &str,
) -> (Written, String) {
    let drawing = state(recipe, card, number, view);
    let is_on = |layer: LayerId, face: Face| {
        let laid = card.laid.layer(layer);
        laid.is_some_and(|laid| laid.face == face)
    };
    let outline = drawing.outline_of(|target| match (target, seat) {
        (Target::Part(Part::Face(shown)), Seat::Face(face)) => shown == face,
        (Target::Part(Part::Layer(shown)), Seat::Face(face)) => is_on(shown, face),
        (Target::Part(Part::Layer(shown)), Seat::Layer(layer)) => shown == layer,
        _ => false,
    });
    (svg(&drawing, name, &address), outline)
}
