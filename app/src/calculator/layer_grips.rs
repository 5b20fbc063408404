//! The layer that is chosen, taken hold of in the figure: moved by its middle,
//! stretched by its corners, and turned by a quarter.

use foldwright_engine::draw::{Held, held_closed, held_flat, held_standing};
use foldwright_engine::length::Length;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::LayerId;
use leptos::prelude::*;

use super::desk::Desk;
use super::grip::Grip;
use super::handle::{from_mm, percent};
use super::picture::{Found, Look, Picture};
use super::turning::Turning;
use crate::spoken::{aloud, language, texts};

/// The layer under the grips.
#[derive(Clone, Copy)]
struct InHand {
    desk: Desk,
    picture: Memo<Picture>,
    look: Memo<Look>,
    held: Memo<Option<Held>>,
    turning: Turning,
}

/// What of it is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum By {
    Middle,
    /// A corner, by its place in [`Held::corners`].
    Corner(usize),
}

impl InHand {
    /// What is called how, where it lies, and how it is moved. Tracks.
    fn name(self, by: By) -> Option<String> {
        let held = self.held.get()?;
        let texts_of = language().sights();
        self.desk.recipe.with(|recipe| {
            let name = &recipe.layer(held.layer)?.name;
            let written = |length| recipe.notation.with_unit(length);
            let [left, bottom, width, height] = held.lies().map(written);
            let said = match by {
                By::Middle => texts().desk.window_handle(name, &left, &bottom),
                By::Corner(0) => texts_of.lower_left_of(name, &width, &height),
                By::Corner(1) => texts_of.lower_right_of(name, &width, &height),
                By::Corner(2) => texts_of.upper_right_of(name, &width, &height),
                By::Corner(_) => texts_of.upper_left_of(name, &width, &height),
            };
            Some(aloud(&said))
        })
    }

    /// Where it is shown, in shares of the figure. Tracks.
    fn spot(self, by: By) -> Option<[f64; 2]> {
        let held = self.held.get()?;
        let at = match by {
            By::Middle => held.middle(),
            By::Corner(number) => *held.corners().get(number)?,
        };
        Some(self.picture.with(|picture| picture.share(at)))
    }

    /// Moves or stretches it from how it lay.
    fn move_by(self, was: Held, by: By, way: [Length; 2], reach: Length) {
        // Grips count up on the piece, which may lie turned over.
        let turned = self.picture.with_untracked(|picture| picture.turned);
        let [right, up] = way.map(Length::as_mm_f64);
        let way = [right, if turned { -up } else { up }];
        // Keys, which catch on nothing, go along its edges.
        let way = if reach == Length::ZERO {
            was.way_along(way)
        } else {
            was.way(way)
        };
        let way = way.map(from_mm);
        let step = untrack(|| self.desk.notation().step);
        let Some(now) = self.held.get_untracked() else {
            return;
        };
        let to = match by {
            By::Middle => was.moved(way, step, reach),
            By::Corner(number) => was.stretched(number, way, step, reach),
        };
        if now.lies() != to {
            self.put(now, to);
        }
    }

    fn put(self, held: Held, to: [Length; 4]) {
        if self.look.get_untracked().is_aslant() {
            // What is seen best changes with what is moved.
            self.turning.stay();
        }
        self.desk
            .edit(None, |recipe| recipe.put_layer(held.layer, to));
    }
}

/// The grips of the layer that is chosen, where the figure shows enough of its front.
#[component]
pub(super) fn LayerGrips(
    picture: Memo<Picture>,
    look: Memo<Look>,
    found: Memo<Option<Found>>,
    turning: Turning,
) -> impl IntoView {
    let desk = Desk::here();
    let held = Memo::new(move |_| {
        let Some(Place::Layer(layer)) = desk.chosen.get() else {
            return None;
        };
        desk.recipe.with(|recipe| {
            desk.card.with(|card| match look.get() {
                Look::Flat(of, up) => held_flat(recipe, card, (of, up), layer),
                Look::Closed(view) => held_closed(recipe, card, view, layer),
                Look::Standing(from) => found.with(|found| match found {
                    Some(Found::Stands(stands)) => {
                        let seen = (&stands.posed, from.unwrap_or(stands.direction));
                        held_standing(recipe, card, seen, layer)
                    }
                    _ => None,
                }),
                Look::Opening(..) | Look::Together(..) => None,
            })
        })
    });
    let in_hand = InHand {
        desk,
        picture,
        look,
        held,
        turning,
    };
    let layer = Memo::new(move |_| held.get().map(|held| held.layer));
    let grip = move |by: By| {
        view! {
            <Grip
                picture
                class=match by {
                    By::Middle => "layer-grip",
                    By::Corner(_) => "layer-grip corner",
                }
                spot=Signal::derive(move || in_hand.spot(by))
                name=Signal::derive(move || in_hand.name(by))
                held=move || held.get()
                move_by=move |was, way, reach| in_hand.move_by(was, by, way, reach)
            />
        }
    };
    move || {
        let layer = layer.get()?;
        let corners = [0, 1, 2, 3].map(|number| grip(By::Corner(number)));
        Some(view! {
            {grip(By::Middle)}
            {corners}
            <Turn in_hand layer/>
        })
    }
}

/// Turns the layer by a quarter.
#[component]
fn Turn(in_hand: InHand, layer: LayerId) -> impl IntoView {
    let spot = move || in_hand.spot(By::Middle);
    let name = move || {
        in_hand.desk.recipe.with(|recipe| {
            let layer = recipe.layer(layer)?;
            Some(language().sights().turn_a_quarter(&layer.name))
        })
    };
    view! {
        <button
            type="button"
            class="layer-turn"
            aria-label=name
            style:left=move || spot().map(|[left, _]| percent(left))
            style:top=move || spot().map(|[_, top]| percent(top))
            on:click=move |_| {
                if let Some(held) = in_hand.held.get_untracked() {
                    in_hand.put(held, held.turned());
                }
            }
        >
            <span aria-hidden="true">"↻"</span>
        </button>
    }
}
