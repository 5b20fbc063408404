//! A handle at a corner of the sheet.

use foldwright_photo::Spot;
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::Placed;
use crate::spoken::language;

/// How far a press of an arrow key moves a corner, as a share of the picture's longer
/// side; a quarter of that with the shift key. (Own choice.)
const PRESS: f64 = 0.004;

/// A drag from where it began.
#[derive(Clone, Copy)]
struct Pull {
    pointer: Spot,
    from: Placed,
    /// How many pixels of the picture one of the page is.
    scale: f64,
}

/// Where a corner of the sheet is; it is dragged, or moved with the arrow keys.
#[component]
pub(super) fn Handle(
    number: usize,
    placed: RwSignal<Placed>,
    held: RwSignal<Option<usize>>,
) -> impl IntoView {
    let texts = language().photos();
    let names = [
        texts.upper_left,
        texts.upper_right,
        texts.lower_right,
        texts.lower_left,
    ];
    let handle = NodeRef::<html::Button>::new();
    let pull = StoredValue::new(None::<Pull>);
    let begin = move |event: ev::PointerEvent| {
        let Some(handle) = handle.get_untracked().filter(|_| event.button() == 0) else {
            return;
        };
        let picture = handle.parent_element();
        let width = picture.map_or(0.0, |it| it.get_bounding_client_rect().width());
        if width <= 0.0 {
            return;
        }
        // Without it the drag ends where the pointer leaves the handle.
        let _ = handle.set_pointer_capture(event.pointer_id());
        let from = placed.get_untracked();
        pull.set_value(Some(Pull {
            pointer: pointer(&event),
            from,
            scale: from.size()[0] / width,
        }));
        held.set(Some(number));
    };
    let go_on = move |event: ev::PointerEvent| {
        if let Some(pull) = pull.get_value() {
            let to = pointer(&event);
            let by = [0, 1].map(|i| (to[i] - pull.pointer[i]) * pull.scale);
            placed.set(pull.from.moved(number, by));
        }
    };
    let let_go = move || {
        pull.set_value(None);
        // Another corner may be held by the time this one loses the focus.
        if held.get_untracked() == Some(number) {
            held.set(None);
        }
    };
    let press = move |event: ev::KeyboardEvent| {
        let way = match event.key().as_str() {
            "ArrowLeft" => [-1.0, 0.0],
            "ArrowRight" => [1.0, 0.0],
            "ArrowUp" => [0.0, -1.0],
            "ArrowDown" => [0.0, 1.0],
            _ => return,
        };
        event.prevent_default();
        let share = if event.shift_key() {
            PRESS / 4.0
        } else {
            PRESS
        };
        placed.update(|placed| {
            let [width, height] = placed.size();
            let step = share * width.max(height);
            *placed = placed.moved(number, way.map(|part| part * step));
        });
        held.set(Some(number));
    };
    let share = move |axis: usize| {
        let placed = placed.get();
        let at = placed.corners.0.get(number).copied().unwrap_or_default();
        format!("{}%", 100.0 * at[axis] / placed.size()[axis])
    };
    view! {
        <button
            type="button"
            class="photo-handle"
            node_ref=handle
            aria-label=names.get(number).copied()
            aria-description=texts.moved_by_keys
            style:left=move || share(0)
            style:top=move || share(1)
            on:pointerdown=begin
            on:pointermove=go_on
            on:pointerup=move |_| let_go()
            on:pointercancel=move |_| let_go()
            on:keydown=press
            on:blur=move |_| let_go()
        ></button>
    }
}

fn pointer(event: &ev::PointerEvent) -> Spot {
    [f64::from(event.client_x()), f64::from(event.client_y())]
}
