//! The figure: the strip flat, the card closed, and the card on its way open.

use foldwright_engine::card::{Card, all_together};
use foldwright_engine::draw::{as_it_stands, document};
use foldwright_engine::faces::View;
use foldwright_engine::problem::{Place, Weight};
use foldwright_engine::recipe::{PieceId, Side, StripId};
use foldwright_engine::refit::between_marks;
use foldwright_engine::seen::{flat_seen, state_seen};
use foldwright_engine::stage::stage;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::desk::{Desk, Section, after_frames};
use super::handle::{NumberSpotButton, ScoreHandle};
use super::layer_grips::LayerGrips;
use super::line_end::EndHandle;
use super::live::Live;
use super::opening::{Opening, Opens, all_at_once, tenths};
use super::pick::{Chosen, Parts, tap};
use super::picture::{Found, Look, Picture, looked_at};
use super::turning::{OPENING, Turner, Turning};
use super::window::WindowHandle;
use crate::album::written_out;
use crate::part::{Choice, Icon, Symbol, Ticks, download, told};
use crate::spoken::{aloud, speaker, texts};
use crate::store::file_name;

/// What kind of look is chosen; the rest of it is remembered beside.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Flat,
    Closed,
    Opening,
    Standing,
}

impl Kind {
    /// Whether the card can be turned about.
    fn is_in_space(self) -> bool {
        matches!(self, Self::Opening | Self::Standing)
    }
}

/// The live figure with the ways to look at it.
#[component]
pub(super) fn Figure() -> impl IntoView {
    let desk = Desk::here();
    let kind = RwSignal::new(Kind::Flat);
    let up = RwSignal::new(Side::A);
    let view = RwSignal::new(View::Front);
    let opens = Opens::new();
    // A piece whose particulars are open is what is drawn flat.
    let shown = Memo::new(move |_| {
        let piece = desk.piece.get();
        let open = desk.section.get() == Section::Pieces;
        let there = |id: &PieceId| desk.recipe.with(|recipe| recipe.piece(*id).is_some());
        let shown = piece.filter(|id| open && there(id));
        shown.map_or(StripId::Base, StripId::Piece)
    });
    let found = found(desk, kind, opens);
    let turning = Turning::new(Signal::derive(move || {
        found.with(|found| found.as_ref().map_or(OPENING, Found::direction))
    }));
    let look = Memo::new(move |_| match kind.get() {
        Kind::Flat => Look::Flat(shown.get(), up.get()),
        Kind::Closed => Look::Closed(view.get()),
        Kind::Opening if found.with(|found| matches!(found, Some(Found::Opens(_)))) => {
            Look::Together(opens.share.get(), turning.from.get())
        }
        Kind::Opening => Look::Opening(opens.steps.get(), turning.from.get()),
        Kind::Standing => Look::Standing(turning.from.get()),
    });
    let tapped = StoredValue::new(None);
    let moving = Signal::derive(move || kind.get().is_in_space());
    // Where the print must be upright, it is good to see which way it runs.
    let heads = Memo::new(move |_| desk.section.get() == Section::Print && !moving.get());
    let picture = Memo::new(move |_| {
        let (look, heads) = (look.get(), heads.get());
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                found.with(|found| Picture::of((recipe, card), look, heads, found.as_ref()))
            })
        })
    });
    // What is up, in a word or two, for the caption and for those who cannot
    // see the figure.
    let seen = move || match look.get() {
        Look::Flat(StripId::Base, Side::A) => texts().desk.inside_up,
        Look::Flat(StripId::Base, Side::B) => texts().desk.outside_up,
        Look::Flat(StripId::Piece(_), Side::A) => texts().desk.piece_front_up,
        Look::Flat(StripId::Piece(_), Side::B) => texts().desk.piece_back_up,
        Look::Closed(View::Front) => texts().desk.from_the_front,
        Look::Closed(View::Back) => texts().desk.from_the_back,
        Look::Opening(..) | Look::Together(..) => texts().desk.opening,
        Look::Standing(_) => texts().desk.standing,
    };
    let in_words = in_words(desk, look, found);
    let any = Signal::derive(move || desk.recipe.with(|recipe| !between_marks(recipe).is_empty()));
    view! {
        <div class="figure">
            <div class="stage on-table">
                <div
                    class="drawn"
                    style=("--ratio", move || picture.with(Picture::ratio).to_string())
                    class:turnable=moving
                    style=("--near", move || turning.near().to_string())
                    on:pointerdown=move |event| if moving.get_untracked() { turning.take(&event) }
                    on:pointermove=move |event| turning.pull(&event)
                    on:pointerup=move |event| turning.let_go(&event)
                    on:pointercancel=move |event| turning.let_go(&event)
                    on:touchmove=move |event| turning.hold_page(&event)
                    on:click=move |event| if !turning.was_pulled() { tap(desk, picture, tapped, &event) }
                >
                    <svg
                        role="img"
                        aria-label=move || aloud(&format!("{}. {}", seen(), in_words.get()))
                        viewBox=move || picture.with(|picture| picture.drawn.view_box.clone())
                    >
                        <Live picture/>
                        <Chosen picture/>
                    </svg>
                    <Parts picture moving/>
                    <Handles picture look found turning/>
                </div>
                <div class="caption">
                    <p aria-live="polite">{seen}</p>
                    <TurnOver kind up view turning/>
                    <Save look heads found/>
                    <ProblemCount/>
                </div>
            </div>
            <Show when=move || kind.get() == Kind::Standing fallback=|| view! { <Facts/> }>
                <Footing found/>
            </Show>
            <Ticks any/>
            <Looks kind turning/>
            <Show when=move || kind.get() == Kind::Opening>
                <Opening opens found/>
            </Show>
            <Show when=move || moving.get()>
                <Turner turning/>
            </Show>
        </div>
    }
}

/// What is found of the card for the look at it, while it is looked at so.
fn found(desk: Desk, kind: RwSignal<Kind>, opens: Opens) -> Memo<Option<Found>> {
    Memo::new(move |_| {
        let kind = kind.get();
        let together = kind == Kind::Opening && opens.together.get();
        desk.recipe.with(|recipe| {
            desk.card.with(|card| match kind {
                Kind::Standing => as_it_stands(recipe, card).map(Found::Stands),
                Kind::Opening if together => all_together(recipe, card).map(Found::Opens),
                _ => None,
            })
        })
    })
}

/// What is looked at.
#[component]
fn Looks(kind: RwSignal<Kind>, turning: Turning) -> impl IntoView {
    view! {
        <div class="looks">
            <Choice
                label=texts().desk.what_to_look_at
                options=|| vec![
                    (Kind::Flat, texts().desk.flat),
                    (Kind::Closed, texts().desk.closed),
                    (Kind::Opening, texts().desk.opening),
                    (Kind::Standing, texts().desk.standing),
                ]
                chosen=kind
                choose=move |chosen| {
                    turning.as_at_first();
                    kind.set(chosen);
                }
            />
        </div>
    }
}

/// Shows the other side, or a card in space from where it was looked at first.
#[component]
fn TurnOver(
    kind: RwSignal<Kind>,
    up: RwSignal<Side>,
    view: RwSignal<View>,
    turning: Turning,
) -> impl IntoView {
    let moving = move || kind.get().is_in_space();
    let turn_over = move |_| match kind.get_untracked() {
        Kind::Flat => up.update(|up| *up = up.other()),
        Kind::Closed => view.update(|view| {
            *view = match view {
                View::Front => View::Back,
                View::Back => View::Front,
            };
        }),
        Kind::Opening | Kind::Standing => turning.as_at_first(),
    };
    view! {
        <button
            type="button"
            class="button in-caption"
            disabled=move || moving() && turning.is_as_at_first()
            on:click=turn_over
        >
            {move || if moving() { texts().desk.as_at_first } else { texts().desk.turn_over }}
        </button>
    }
}

/// The drawing in words. It follows the figure right after its frame, and while
/// the card moves only from state to state.
fn in_words(desk: Desk, look: Memo<Look>, found: Memo<Option<Found>>) -> RwSignal<String> {
    let state = Memo::new(move |_| match look.get() {
        Look::Opening(opened, _) => (Look::Opening(opened.floor(), None), opened.fract() > 0.0),
        Look::Together(share, _) => (Look::Together(tenths(share), None), false),
        Look::Standing(_) => (Look::Standing(None), false),
        look => (look, false),
    });
    let now = move || {
        let (look, between) = state.try_get_untracked()?;
        desk.recipe.try_with_untracked(|recipe| {
            let say = speaker(recipe);
            let lies = |card: &Card, number, view| {
                state_seen(card, number, view).map_or_else(String::new, |seen| say.state(&seen))
            };
            desk.card.try_with_untracked(|card| match look {
                Look::Flat(of, up) => {
                    let seen = flat_seen(recipe, card, of, up);
                    seen.map_or_else(String::new, |seen| say.flat(&seen))
                }
                Look::Closed(view) => lies(card, 0, view),
                Look::Standing(_) => found.with_untracked(|found| {
                    let stands = found.as_ref().and_then(Found::stands);
                    stands.map_or_else(String::new, |stands| say.stands(stands))
                }),
                Look::Together(share, _) => all_at_once(share),
                Look::Opening(opened, _) => {
                    let half = if between { 0.5 } else { 0.0 };
                    let name = say.stage(&stage(card, opened + half));
                    #[expect(
                        clippy::cast_possible_truncation,
                        clippy::cast_sign_loss,
                        reason = "it is a whole number of scores"
                    )]
                    let number = opened as usize;
                    let seen = lies(card, number, View::Front);
                    format!("{name}. {seen}")
                }
            })
        })?
    };
    let told = RwSignal::new(now().unwrap_or_default());
    after_frames(
        move || {
            state.track();
            desk.recipe.track();
            desk.card.track();
        },
        move || {
            // The page may be gone by now.
            if let Some(now) = now() {
                told.try_set(now);
            }
        },
    );
    told
}

/// What can be taken hold of in the figure.
#[component]
fn Handles(
    picture: Memo<Picture>,
    look: Memo<Look>,
    found: Memo<Option<Found>>,
    turning: Turning,
) -> impl IntoView {
    let desk = Desk::here();
    // Handles of many lines would lie on each other; the one in hand has them.
    let in_hand = Memo::new(move |_| {
        let line = match desk.chosen.get() {
            Some(Place::Line(line)) => Some(line),
            _ => None,
        };
        picture.with(|picture| {
            let ends = picture.ends.iter().enumerate();
            let ends = ends.filter(|(_, end)| Some(end.line) == line);
            ends.map(|(number, _)| number).collect::<Vec<_>>()
        })
    });
    let window_in_hand = Memo::new(move |_| {
        let cutout = desk.cutout.get();
        picture.with(|picture| {
            let mut windows = picture.windows.iter();
            windows.position(|window| Some(window.window) == cutout)
        })
    });
    view! {
        <For
            each=move || picture.with(|picture| 0..picture.numbers.len())
            key=|number| *number
            children=move |number| view! { <NumberSpotButton picture number/> }
        />
        <For
            each=move || picture.with(|picture| 0..picture.scores.len())
            key=|number| *number
            children=move |number| view! { <ScoreHandle picture number/> }
        />
        <For
            each=move || window_in_hand.get()
            key=|number| *number
            children=move |number| view! { <WindowHandle picture number/> }
        />
        <LayerGrips picture look found turning/>
        <For
            each=move || in_hand.get()
            key=|number| *number
            children=move |number| view! { <EndHandle picture number/> }
        />
    }
}

/// Keeps what is looked at as a drawing of its own, as large as the card.
#[component]
fn Save(look: Memo<Look>, heads: Memo<bool>, found: Memo<Option<Found>>) -> impl IntoView {
    let desk = Desk::here();
    let save = move |_| {
        let (look, heads) = (look.get_untracked(), heads.get_untracked());
        let recipe = desk.recipe.get_untracked();
        let drawing = desk.card.with_untracked(|card| {
            found.with_untracked(|found| looked_at((&recipe, card), look, heads, found.as_ref()))
        });
        // The ruler tells whether the drawing was printed as large as it is.
        let drawing = if look.is_aslant() {
            drawing
        } else {
            drawing.with_ruler(recipe.notation, 0.0)
        };
        spawn_local(async move {
            let photos = written_out(&recipe).await;
            let written = document(&drawing, &recipe.name, &|photo| photos.get(&photo).cloned());
            download(&file_name(&recipe.name, "svg"), &written);
        });
    };
    view! {
        <button
            type="button"
            class="button icon"
            aria-label=texts().desk.download_drawing
            on:click=save
        >
            <Icon symbol=Symbol::Save/>
        </button>
    }
}

/// How many problems there are; a tap shows them.
#[component]
fn ProblemCount() -> impl IntoView {
    let desk = Desk::here();
    let count = Memo::new(move |_| desk.card.with(|card| card.problems.len()));
    let grave = Memo::new(move |_| {
        desk.card.with(|card| {
            let gravest = card.problems.first();
            gravest.is_some_and(|gravest| gravest.weight > Weight::Note)
        })
    });
    view! {
        <button
            type="button"
            class="button in-caption problem-count"
            class:grave=grave
            aria-expanded=move || if desk.problems.get() { "true" } else { "false" }
            on:click=move |_| desk.problems.update(|shown| *shown = !*shown)
        >
            {move || texts().desk.problem_count(count.get())}
        </button>
    }
}

/// The closed card's size, thickness and mass.
#[component]
fn Facts() -> impl IntoView {
    let desk = Desk::here();
    view! {
        <p class="facts">
            {move || {
                let facts = desk.card.with(Card::facts);
                desk.recipe.with(|recipe| told(speaker(recipe).with_exact().figures(&facts)))
            }}
        </p>
    }
}

/// Whether the card stands by itself.
#[component]
fn Footing(found: Memo<Option<Found>>) -> impl IntoView {
    let desk = Desk::here();
    let words = move || {
        let stands = found.with(|found| found.as_ref().and_then(Found::stands))?;
        desk.recipe
            .with(|recipe| Some(told(speaker(recipe).with_exact().stands(stands))))
    };
    view! {
        <p class="facts" role="status">{words}</p>
    }
}
