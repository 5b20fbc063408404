//! Choosing a line, a panel or a layer in the figure.

use foldwright_engine::card::Card;
use foldwright_engine::draw::{Spot, Target};
use foldwright_engine::faces::Part;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::seen::fallen;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast as _;
use leptos::{ev, web_sys};

use super::desk::{Desk, after_frames};
use super::handle::percent;
use super::picture::Picture;
use crate::spoken::{aloud, speaker, texts};

/// How near to a line, in pixels, a tap chooses it: half of what a thumb needs.
const REACH: f64 = 22.0;

/// Where what was chosen is worked on.
pub(super) fn place_of(target: Target) -> Place {
    match target {
        Target::Line(line) => Place::of_line(line),
        Target::Fallen { of, part } => Place::Fallen { of, part },
        Target::Part(Part::Face(face)) => Place::Panel(face.panel),
        Target::Part(Part::Layer(layer) | Part::LayerBack(layer)) => Place::Layer(layer),
    }
}

/// The last tap on the figure: where on it, in pixels, and what it chose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Tapped {
    at: [f64; 2],
    place: Place,
}

/// Turns to what lies under a tap on the figure, and with another tap there to what
/// lies beneath that. Buttons on it have their own work to do.
pub(super) fn tap(
    desk: Desk,
    picture: Memo<Picture>,
    last: StoredValue<Option<Tapped>>,
    event: &ev::MouseEvent,
) {
    let on = |target: Option<web_sys::EventTarget>| target?.dyn_into::<web_sys::Element>().ok();
    let button = on(event.target()).map(|it| it.closest("button").ok().flatten().is_some());
    let (Some(sheet), Some(false)) = (on(event.current_target()), button) else {
        return;
    };
    let rect = sheet.get_bounding_client_rect();
    if rect.width() <= 0.0 {
        return;
    }
    let at = [
        f64::from(event.client_x()) - rect.left(),
        f64::from(event.client_y()) - rect.top(),
    ];
    let hits = picture.with_untracked(|picture| {
        let scale = picture.size[0] / rect.width();
        let [right, down] = at.map(|at| at * scale);
        let drawing = &picture.drawing;
        drawing.hits(
            [drawing.low[0] + right, drawing.high[1] - down],
            REACH * scale,
        )
    });
    let mut places: Vec<Place> = hits.into_iter().map(place_of).collect();
    places.dedup();
    let again = last.get_value().filter(|last| {
        let off = (at[0] - last.at[0]).hypot(at[1] - last.at[1]);
        off <= REACH && desk.chosen.get_untracked() == Some(last.place)
    });
    let chosen = again.and_then(|last| places.iter().position(|place| *place == last.place));
    // Beneath the last one is the first again.
    let next = chosen.map_or(0, |at| (at + 1) % places.len());
    let place = places.into_iter().nth(next);
    last.set_value(place.map(|place| Tapped { at, place }));
    match place {
        Some(place) => desk.go(place),
        None => desk.chosen.set(None),
    }
}

/// What is chosen, outlined on the figure.
#[component]
pub(super) fn Chosen(picture: Memo<Picture>) -> impl IntoView {
    let desk = Desk::here();
    let path = move || {
        let chosen = desk.chosen.get()?;
        let is_chosen = |target| place_of(target) == chosen;
        let path = picture.with(|picture| picture.drawing.outline_of(is_chosen));
        (!path.is_empty()).then_some(path)
    };
    view! { <path class="chosen" d=path></path> }
}

/// What can be chosen, as buttons for the keyboard and for those who cannot
/// see the figure; a finger chooses on the figure itself. The arrow keys go from
/// one to the next. While the card moves there are none.
#[component]
pub(super) fn Parts(picture: Memo<Picture>, moving: Signal<bool>) -> impl IntoView {
    let desk = Desk::here();
    let targets = RwSignal::new(found(picture, moving));
    // They are not seen, and so need not keep up with a drag.
    after_frames(
        move || {
            if !moving.get() {
                picture.track();
            }
        },
        move || {
            let now = found(picture, moving);
            if targets.try_with_untracked(|before| *before != now) == Some(true) {
                targets.try_set(now);
            }
        },
    );
    let first = Memo::new(move |_| targets.with(|all| all.first().map(|(target, _)| *target)));
    let in_turn = RwSignal::new(None::<Target>);
    let key = move |event: ev::KeyboardEvent| {
        let by = match event.key().as_str() {
            "ArrowRight" | "ArrowDown" => 1,
            "ArrowLeft" | "ArrowUp" => -1,
            _ => return,
        };
        event.prevent_default();
        let now = document().active_element();
        let Some(row) = now.as_ref().and_then(|now| now.parent_element()) else {
            return;
        };
        let next = now.and_then(|now| match by {
            1 => now.next_element_sibling().or(row.first_element_child()),
            _ => now.previous_element_sibling().or(row.last_element_child()),
        });
        if let Some(next) = next.and_then(|next| next.dyn_into::<web_sys::HtmlElement>().ok()) {
            // It fails only for what is not on the page.
            let _ = next.focus();
        }
    };
    let one = move |target: Target| {
        let at = move || {
            targets.with(|all| {
                let mut all = all.iter();
                all.find(|(other, _)| *other == target).map(|(_, at)| *at)
            })
        };
        let is_in_turn = move || {
            let kept = in_turn.get();
            let kept = kept.filter(|kept| targets.with(|all| all.iter().any(|it| it.0 == *kept)));
            kept.or(first.get()) == Some(target)
        };
        view! {
            <button
                type="button"
                class="part"
                tabindex=move || if is_in_turn() { "0" } else { "-1" }
                aria-label=move || {
                    desk.recipe.with(|recipe| desk.card.with(|card| name(recipe, card, target)))
                }
                aria-current=move || (desk.chosen.get() == Some(place_of(target))).then_some("true")
                style:left=move || at().map(|[left, _]| percent(left))
                style:top=move || at().map(|[_, top]| percent(top))
                on:focus=move |_| in_turn.set(Some(target))
                on:click=move |_| desk.go(place_of(target))
            ></button>
        }
    };
    view! {
        <div class="parts" role="group" aria-label=texts().desk.lines_and_parts on:keydown=key>
            <For
                each=move || targets.get()
                key=|(target, _)| *target
                children=move |(target, _)| one(target)
            />
        </div>
    }
}

/// What can be chosen, in shares of the figure from the left and the top.
/// Scores have handles of their own.
fn found(picture: Memo<Picture>, moving: Signal<bool>) -> Vec<(Target, Spot)> {
    // The page may be gone by now.
    if moving.try_get_untracked() != Some(false) {
        return Vec::new();
    }
    let found = picture.try_with_untracked(|picture| {
        let mut found: Vec<(Target, Spot)> = Vec::new();
        for (target, [x, y]) in picture.drawing.targets() {
            let is_score = matches!(target, Target::Line(line) if line.line().is_none());
            if !is_score && found.iter().all(|(other, _)| *other != target) {
                let left = (x - picture.drawing.low[0]) / picture.size[0];
                let top = (picture.drawing.high[1] - y) / picture.size[1];
                found.push((target, [left, top]));
            }
        }
        found
    });
    found.unwrap_or_default()
}

fn name(recipe: &Recipe, card: &Card, target: Target) -> String {
    let say = speaker(recipe);
    let name = match target {
        Target::Fallen { of, part } => {
            fallen(card, of, part).map_or_else(String::new, |fallen| say.falls_off(&fallen))
        }
        Target::Line(line) => say.line(line),
        Target::Part(Part::Face(face)) => say.face(face),
        Target::Part(Part::Layer(id)) => recipe
            .layer(id)
            .map_or_else(String::new, |layer| layer.name.clone()),
        Target::Part(Part::LayerBack(id)) => say.layer_back(id),
    };
    aloud(&name)
}

/// Brings a row into view, and the focus to it, when its place is turned to.
pub(super) fn brought(
    row: impl Fn() -> Option<web_sys::HtmlElement> + 'static,
    place: impl Fn() -> Place + 'static,
) {
    let desk = Desk::here();
    Effect::new(move || {
        if desk.sought.get() != Some(place()) {
            return;
        }
        let Some(row) = row() else { return };
        desk.sought.set(None);
        // It fails only for what is not on the page.
        let _ = row.focus();
        row.scroll_into_view();
    });
}
