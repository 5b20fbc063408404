//! A side of a paper as it was photographed: the photograph is taken or chosen, its
//! corners are dragged onto those of the sheet, and what it shows is laid flat.

mod camera;
mod canvas;
mod confirming;
mod cornering;
mod handle;
mod placed;
mod source;
mod taking;

use std::sync::Arc;

use foldwright_engine::paper::{SideLook, StockSide};
use foldwright_photo::{Pixels, Told};
use leptos::prelude::*;

pub(super) use self::canvas::bytes;
use self::confirming::Confirming;
use self::cornering::Cornering;
use self::placed::Placed;
use self::source::Source;
use self::taking::Taking;
use super::stock::Edited;
use crate::album::address;
use crate::part::Sheet;
use crate::spoken::language;

/// How far the maker has come.
#[derive(Clone)]
enum Stage {
    /// A picture is taken or chosen.
    Taking,
    /// Its corners are dragged to those of the sheet.
    Corners(Source, Placed),
    /// What was laid flat is looked at.
    Flat(Source, Placed, Flat),
}

/// A side of a sheet laid flat, with what it tells.
#[derive(Clone)]
struct Flat {
    pixels: Arc<Pixels>,
    told: Told,
}

/// What a photograph is taken of.
#[derive(Clone, Copy)]
struct Subject {
    stock: Edited,
    side: StockSide,
    stage: RwSignal<Stage>,
    open: RwSignal<bool>,
}

impl Subject {
    fn look(self) -> Option<SideLook> {
        self.stock.read(|stock| stock.side(self.side))
    }

    fn change(self, change: impl FnOnce(&mut SideLook)) {
        self.stock.change(|stock| match self.side {
            StockSide::Face => change(&mut stock.face),
            StockSide::Back => change(&mut stock.back),
        });
    }

    /// Width and height of the sheet, in millimetres. Tracks nothing.
    fn sheet(self) -> [f64; 2] {
        let size = untrack(|| self.stock.read(foldwright_engine::paper::Stock::size));
        let size = size.unwrap_or_default();
        [size.width, size.height].map(foldwright_engine::length::Length::as_mm_f64)
    }

    /// Takes over what was found.
    fn take(self, found: SideLook) {
        self.change(|look| *look = found);
        self.open.set(false);
    }
}

/// The photograph of a side of a paper, and how another one is taken.
#[component]
pub(super) fn PhotoOf(stock: Edited, side: StockSide) -> impl IntoView {
    let subject = Subject {
        stock,
        side,
        stage: RwSignal::new(Stage::Taking),
        open: RwSignal::new(false),
    };
    let texts = language().photos();
    let title = match side {
        StockSide::Face => texts.of_face,
        StockSide::Back => texts.of_back,
    };
    let photo = Memo::new(move |_| subject.look().and_then(|look| look.photo));
    let open = move |_| {
        subject.stage.set(Stage::Taking);
        subject.open.set(true);
    };
    let shown = move || {
        let photo = photo.get()?;
        let picture = address(photo).map(|from| view! { <img src=from alt=title/> });
        Some(view! {
            <div class="photo-kept">
                {picture}
                <span class="quiet">{texts.as_photographed}</span>
            </div>
        })
    };
    view! {
        <div class="field photo-of" role="group" aria-label=title>
            <span>{title}</span>
            {shown}
            <div class="actions">
                <button type="button" class="button" aria-haspopup="dialog" on:click=open>
                    {move || if photo.get().is_some() { texts.another } else { texts.add }}
                </button>
                <Show when=move || photo.get().is_some()>
                    <button type="button" class="button quiet" on:click=move |_| subject.change(|look| look.photo = None)>
                        {texts.take_off}
                    </button>
                </Show>
            </div>
        </div>
        <Sheet open=subject.open title>
            {move || match subject.stage.get() {
                Stage::Taking => view! { <Taking subject/> }.into_any(),
                Stage::Corners(source, placed) => view! { <Cornering subject source placed/> }.into_any(),
                Stage::Flat(source, placed, flat) => {
                    view! { <Confirming subject source placed flat/> }.into_any()
                }
            }}
        </Sheet>
    }
}
