//! The second stage: the corners of the sheet.

use std::sync::Arc;

use foldwright_photo::{Askew, Flattening, Pixels, tell};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::handle::Handle;
use super::{Flat, Placed, Source, Stage, Subject};
use crate::spoken::language;
use crate::turns::Turn;

/// How much of the picture's width the loupe shows. (Own choice.)
const LOUPE: f64 = 0.12;

/// How many rows are laid flat at once.
const ROWS: u32 = 8;

/// Lays a sheet flat in turns, so that the page stays alive.
async fn laid_flat(photo: &Pixels, flattening: &Flattening) -> Option<Flat> {
    let [width, height] = flattening.size();
    let mut bytes = Vec::with_capacity(width as usize * height as usize * 4);
    let mut turn = Turn::begin();
    for row in (0..height).step_by(ROWS as usize) {
        bytes.extend(flattening.rows(photo, row..row.saturating_add(ROWS)));
        turn.or_next().await;
    }
    let pixels = Pixels::new(width, height, bytes)?;
    let told = tell(&pixels);
    Some(Flat {
        pixels: Arc::new(pixels),
        told,
    })
}

/// The picture with a handle at each corner of the sheet.
#[component]
pub(super) fn Cornering(subject: Subject, source: Source, placed: Placed) -> impl IntoView {
    let texts = language().photos();
    let placed = RwSignal::new(placed);
    let held = RwSignal::new(None::<usize>);
    let working = RwSignal::new(false);
    let why_not = Memo::new(move |_| placed.with(|placed| placed.as_taken().check().err()));
    let picture = StoredValue::new(source.clone());
    let lay_flat = move |_| {
        let now = placed.get_untracked();
        let Ok(flattening) = Flattening::new(&now.as_taken(), subject.sheet()) else {
            return;
        };
        let source = picture.get_value();
        working.set(true);
        spawn_local(async move {
            let flat = laid_flat(&source.pixels, &flattening).await;
            // The sheet may have been closed meanwhile.
            let is_here = working.try_set(false).is_none();
            if let Some(flat) = flat.filter(|_| is_here) {
                subject.stage.set(Stage::Flat(source, now, flat));
            }
        });
    };
    view! {
        <p>{texts.about_corners}</p>
        <div class="photo-picture" style=("--ratio", move || {
            let [width, height] = placed.with(Placed::size);
            (width / height).to_string()
        })>
            <svg viewBox=move || {
                let [width, height] = placed.with(Placed::size);
                format!("0 0 {width} {height}")
            } aria-hidden="true">
                <Taken source=source.clone() placed/>
                <polygon class="photo-outline" points=move || outline(&placed.get())/>
            </svg>
            {[0, 1, 2, 3].map(|number| view! { <Handle number placed held/> })}
            <Show when=move || held.get().is_some()>
                <Loupe source=picture.get_value() placed held/>
            </Show>
        </div>
        {move || why_not.get().map(|why| {
            let words = match why {
                Askew::Crossed => texts.crossed,
                Askew::Small => texts.too_small,
            };
            view! { <p class="said refusal" role="alert">{words}</p> }
        })}
        <div class="actions">
            <button
                type="button"
                class="button primary"
                disabled=move || why_not.get().is_some() || working.get()
                on:click=lay_flat
            >
                {move || if working.get() { texts.working } else { texts.lay_flat }}
            </button>
            <button type="button" class="button" on:click=move |_| placed.update(|placed| *placed = placed.turned())>
                {texts.turn}
            </button>
            <button type="button" class="button quiet" on:click=move |_| subject.stage.set(Stage::Taking)>
                {texts.another_picture}
            </button>
        </div>
    }
}

fn outline(placed: &Placed) -> String {
    placed.corners.0.map(|[x, y]| format!("{x},{y}")).join(" ")
}

/// The picture as it is looked at.
#[component]
fn Taken(source: Source, placed: RwSignal<Placed>) -> impl IntoView {
    let [width, height] = source.size();
    view! {
        <image
            href=source.address()
            width=width
            height=height
            transform=move || placed.with(Placed::transform)
        />
    }
}

/// What lies round the corner that is held, nearer, away from the finger.
#[component]
fn Loupe(source: Source, placed: RwSignal<Placed>, held: RwSignal<Option<usize>>) -> impl IntoView {
    let at = move || {
        let placed = placed.get();
        let number = held.get().unwrap_or_default();
        placed.corners.0.get(number).copied().unwrap_or_default()
    };
    let view_box = move || {
        let [x, y] = at();
        let reach = LOUPE / 2.0 * placed.with(Placed::size)[0];
        format!(
            "{} {} {} {}",
            x - reach,
            y - reach,
            2.0 * reach,
            2.0 * reach
        )
    };
    // On the side where the finger is not.
    let class = move || {
        if at()[0] > placed.with(Placed::size)[0] / 2.0 {
            "photo-loupe"
        } else {
            "photo-loupe at-right"
        }
    };
    view! {
        <svg class=class viewBox=view_box aria-hidden="true">
            <Taken source placed/>
            <polygon class="photo-outline" points=move || outline(&placed.get())/>
        </svg>
    }
}
