//! The third stage: what was laid flat, and what it tells of colour and print.

use foldwright_engine::paper::{Colour, SideLook};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{Flat, Placed, Source, Stage, Subject};
use crate::calculator::pull_down::Pick;
use crate::calculator::section::stock::prints;
use crate::part::taking::canvas::{file, paint};
use crate::part::taking::keep_file;
use crate::spoken::language;
use crate::turns::idle;

/// The flat sheet, which is kept, or only its colour and print.
#[component]
pub(super) fn Confirming(
    subject: Subject,
    source: Source,
    placed: Placed,
    flat: Flat,
) -> impl IntoView {
    let texts = language().photos();
    let colour = RwSignal::new(flat.told.colour);
    let print = RwSignal::new(flat.told.print);
    let made = RwSignal::new_local(None::<web_sys::Blob>);
    let refused = RwSignal::new(None::<&'static str>);
    let keeping = RwSignal::new(false);
    let sheet = StoredValue::new(flat.pixels);
    let picture = NodeRef::<html::Canvas>::new();
    picture.on_load(move |canvas| {
        let painted = sheet.with_value(|pixels| paint(pixels, &canvas));
        // It is there to be looked at while its file is made.
        spawn_local(async move {
            idle().await;
            let file = match painted {
                Some(()) => file(&canvas).await,
                None => None,
            };
            if file.is_none() {
                refused.try_set(Some(language().pictures().not_read));
            }
            made.try_set(file);
        });
    });
    let suggested = move |photo| SideLook {
        photo,
        ..SideLook::new(colour.get_untracked(), print.get_untracked())
    };
    let show = move |_| {
        let Some(file) = made.get_untracked() else {
            return;
        };
        keeping.set(true);
        spawn_local(async move {
            let kept = keep_file(&file).await;
            if keeping.try_set(false).is_some() {
                return;
            }
            match kept {
                Ok(photo) => subject.take(suggested(Some(photo))),
                Err(why) => refused.set(Some(why.words())),
            }
        });
    };
    let tap = move |event: ev::MouseEvent| {
        let Some(picture) = picture.get_untracked() else {
            return;
        };
        let rect = picture.get_bounding_client_rect();
        let share = [
            (f64::from(event.client_x()) - rect.left()) / rect.width(),
            (f64::from(event.client_y()) - rect.top()) / rect.height(),
        ];
        colour.set(sheet.with_value(|pixels| pixels.round(share)));
    };
    view! {
        <p>{texts.about_flat}</p>
        {move || refused.get().map(|words| view! { <p class="said refusal" role="alert">{words}</p> })}
        <div class="photo-flat">
            <canvas node_ref=picture role="img" aria-label=texts.flat on:click=tap></canvas>
        </div>
        <div class="fields">
            <label class="field">
                <span>{texts.colour}</span>
                <input
                    type="color"
                    prop:value=move || colour.get().to_string()
                    on:change=move |event| {
                        if let Ok(typed) = event_target_value(&event).parse::<Colour>() {
                            colour.set(typed);
                        }
                    }
                />
            </label>
            <Pick label=texts.print options=Signal::stored(prints()) chosen=print choose=move |taken| print.set(taken)/>
        </div>
        <div class="actions">
            <button
                type="button"
                class="button primary"
                disabled=move || keeping.get() || made.with(Option::is_none)
                on:click=show
            >
                {texts.keep}
            </button>
            <button type="button" class="button" on:click=move |_| subject.take(suggested(None))>
                {texts.only_colour}
            </button>
            <button
                type="button"
                class="button quiet"
                on:click=move |_| subject.stage.set(Stage::Corners(source.clone(), placed))
            >
                {texts.corners_again}
            </button>
        </div>
    }
}
