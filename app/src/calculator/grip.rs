//! A round grip in the figure: what it holds is dragged, or moved with the arrow
//! keys.

use foldwright_engine::length::Length;
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::desk::Desk;
use super::handle::{from_mm, percent};
use super::picture::Picture;

/// A drag from where it began.
#[derive(Clone, Copy)]
struct Pull<T> {
    /// The pointer, in pixels from the left and the top of the page.
    pointer: [f64; 2],
    /// What is held, as it lay then.
    held: T,
    /// Millimetres in a pixel.
    scale: f64,
}

/// A grip. All of a drag is one change.
#[component]
pub(super) fn Grip<T>(
    /// The picture it is in.
    picture: Memo<Picture>,
    /// What its looks go by, besides those of every grip.
    #[prop(into)]
    class: Signal<&'static str>,
    /// Where it lies, in shares of the figure from the left and the top.
    #[prop(into)]
    spot: Signal<Option<[f64; 2]>>,
    /// How far beside that it stands.
    #[prop(optional, into)]
    aside: Signal<Option<String>>,
    /// What it is called, where it lies, and how it is moved.
    #[prop(into)]
    name: Signal<Option<String>>,
    /// What it holds, as that lies now.
    held: impl Fn() -> Option<T> + Copy + Send + Sync + 'static,
    /// Moves it so far right and up from where it lay, and onto what is within
    /// a reach.
    move_by: impl Fn(T, [Length; 2], Length) + Copy + Send + Sync + 'static,
) -> impl IntoView
where
    T: Copy + Send + Sync + 'static,
{
    let desk = Desk::here();
    let handle = NodeRef::<html::Button>::new();
    let pull = StoredValue::new(None::<Pull<T>>);
    // -1 where the strip lies turned over, its upper edge below.
    let up = move || picture.with_untracked(|picture| if picture.turned { -1.0 } else { 1.0 });
    let begin = move |event: ev::PointerEvent| {
        let (Some(handle), Some(held)) = (handle.get_untracked(), untrack(held)) else {
            return;
        };
        let sheet = handle.parent_element();
        let width = sheet.map_or(0.0, |sheet| sheet.get_bounding_client_rect().width());
        if event.button() != 0 || width <= 0.0 {
            return;
        }
        // A drag beside it turns the card.
        event.stop_propagation();
        // Without it the drag ends where the pointer leaves the handle.
        let _ = handle.set_pointer_capture(event.pointer_id());
        desk.history.hold();
        pull.set_value(Some(Pull {
            pointer: [f64::from(event.client_x()), f64::from(event.client_y())],
            held,
            scale: picture.with_untracked(|picture| picture.size[0]) / width,
        }));
    };
    let drag = move |event: ev::PointerEvent| {
        let Some(pull) = pull.get_value() else { return };
        let right = f64::from(event.client_x()) - pull.pointer[0];
        let down = f64::from(event.client_y()) - pull.pointer[1];
        let by = [right, -down * up()].map(|pixels| from_mm(pixels * pull.scale));
        // A finger's breadth of the figure, as it would be on the paper.
        move_by(pull.held, by, from_mm(8.0 * pull.scale));
    };
    let finish = move || {
        if pull.try_update_value(Option::take).flatten().is_some() {
            desk.history.release();
        }
    };
    let key = move |event: ev::KeyboardEvent| {
        let (x, y) = match event.key().as_str() {
            "ArrowRight" => (1, 0),
            "ArrowLeft" => (-1, 0),
            "ArrowUp" => (0, 1),
            "ArrowDown" => (0, -1),
            _ => return,
        };
        let Some(now) = untrack(held) else {
            return;
        };
        event.prevent_default();
        let step = untrack(|| desk.notation().step).length();
        let y = if up() < 0.0 { -y } else { y };
        move_by(now, [step * x, step * y], Length::ZERO);
    };
    // A handle that goes in the middle of a drag must not leave it open.
    on_cleanup(finish);
    view! {
        <button
            node_ref=handle
            type="button"
            class=move || format!("line-end {}", class.get())
            aria-label=name
            style:left=move || spot.get().map(|[left, _]| percent(left))
            style:top=move || spot.get().map(|[_, top]| percent(top))
            style:translate=aside
            on:pointerdown=begin
            on:pointermove=drag
            on:pointerup=move |_| finish()
            on:pointercancel=move |_| finish()
            on:keydown=key
        ></button>
    }
}
