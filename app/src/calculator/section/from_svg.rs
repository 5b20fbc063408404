//! A layer of an outline in an SVG file.

use foldwright_engine::length::{Length, read as read_length};
use foldwright_engine::recipe::{MOST_TRACED, Seat, Untraced};
use foldwright_outline::{Drawing, Found, LARGEST, LeftOut, Refusal, Unfit, read};
use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::wasm_bindgen::JsCast as _;
use web_sys::{File, HtmlInputElement};

use super::super::desk::Desk;
use crate::part::taking::canvas::bytes;
use crate::part::{Sheet, Typed, heard};
use crate::spoken::{language, misread, naming, texts};

/// How many units a small drawing is wide and high.
const SIDE: f64 = 100.0;

/// The way to a layer from a file: the file is chosen, then one of its outlines.
#[component]
pub(super) fn FromSvg(
    /// What the layer is put on.
    seat: Memo<Option<Seat>>,
) -> impl IntoView {
    let words = language().outlines();
    let drawing = RwSignal::new(None::<Drawing>);
    let refused = RwSignal::new(Vec::<String>::new());
    let open = RwSignal::new(false);
    let chosen = move |event: ev::Event| {
        let input = event
            .target()
            .and_then(|it| it.dyn_into::<HtmlInputElement>().ok());
        let Some(input) = input else { return };
        let Some(file) = input.files().and_then(|files| files.item(0)) else {
            return;
        };
        // So that the same file can be chosen again.
        input.set_value("");
        refused.set(Vec::new());
        spawn_local(async move {
            match outlines_in(&file).await {
                Ok(found) => {
                    drawing.set(Some(found));
                    open.set(true);
                }
                Err(why) => refused.set(why),
            }
        });
    };
    view! {
        <div class="actions">
            <label class="button file">
                <span>{words.from_svg}</span>
                <input type="file" accept=".svg,image/svg+xml" class="visually-hidden" on:change=chosen/>
            </label>
        </div>
        <div role="alert">
            {move || {
                let lines = refused.get().into_iter();
                lines.map(|line| view! { <p class="said refusal">{line}</p> }).collect_view()
            }}
        </div>
        <Sheet open title=words.from_svg>
            {move || drawing.get().map(|drawing| view! { <Choosing drawing seat open/> })}
        </Sheet>
    }
}

/// The outlines in a file, or why there are none.
async fn outlines_in(file: &File) -> Result<Drawing, Vec<String>> {
    let words = language().outlines();
    let too_large = words.too_large(LARGEST / 1_000_000);
    #[expect(clippy::cast_precision_loss, reason = "a few million")]
    if file.size() > LARGEST as f64 {
        return Err(vec![too_large]);
    }
    let text = bytes(file)
        .await
        .and_then(|bytes| String::from_utf8(bytes).ok());
    let Some(text) = text else {
        return Err(vec![words.no_svg.to_owned()]);
    };
    read(&text).map_err(|(why, left_out)| {
        let why = match why {
            Refusal::TooLarge => too_large,
            Refusal::NoSvg => words.no_svg.to_owned(),
            Refusal::TooMuch => words.too_much.to_owned(),
            Refusal::NoFrame => words.no_frame.to_owned(),
            Refusal::NoOutline => words.no_outline.to_owned(),
        };
        let left_out = left_out.into_iter().map(|(what, count)| left(what, count));
        std::iter::once(why).chain(left_out).collect()
    })
}

/// What was left out, in words.
fn left(what: LeftOut, count: usize) -> String {
    let words = language().outlines();
    match what {
        LeftOut::Text => words.texts_left(count),
        LeftOut::Picture => words.pictures(count),
        LeftOut::Open => words.open(count),
        LeftOut::Hidden => words.hidden(count),
        LeftOut::Unread => words.unread(count),
        LeftOut::Missing => words.missing(count),
        LeftOut::Other => words.others(count),
        LeftOut::Styled => words.styled(count),
        LeftOut::Clipped => words.clipped(count),
        LeftOut::Huge => words.huge(count),
        LeftOut::Smaller => words.smaller(count),
    }
}

/// Why an outline can't be taken, in words.
fn unfit(why: Unfit) -> String {
    let words = language().outlines();
    match why {
        Unfit::Size => words.no_size.to_owned(),
        Unfit::Outline(Untraced::Empty) => words.empty.to_owned(),
        Unfit::Outline(Untraced::Crossed) => words.crossed.to_owned(),
        Unfit::Outline(Untraced::TooFine(_)) => words.too_fine(MOST_TRACED),
    }
}

/// What a maker has chosen of a drawing.
#[derive(Clone, Copy)]
struct Chosen {
    desk: Desk,
    outlines: StoredValue<Vec<Found>>,
    which: RwSignal<usize>,
    /// How wide it is to be; nothing where neither the file nor the maker tells.
    width: RwSignal<Option<Length>>,
    with_holes: RwSignal<bool>,
    wrong: RwSignal<Option<String>>,
}

impl Chosen {
    fn of(outlines: Vec<Found>) -> Self {
        let width = outlines.first().and_then(Found::size);
        Self {
            desk: Desk::here(),
            outlines: StoredValue::new(outlines),
            which: RwSignal::new(0),
            width: RwSignal::new(width.map(|size| size.width)),
            with_holes: RwSignal::new(true),
            wrong: RwSignal::new(None),
        }
    }

    fn choose(self, index: usize) {
        let size = self
            .outlines
            .with_value(|all| all.get(index).and_then(Found::size));
        self.which.set(index);
        self.wrong.set(None);
        if let Some(size) = size {
            self.width.set(Some(size.width));
        }
    }

    /// Takes a width that is typed, or says what is wrong with it.
    fn take_width(self, typed: &str) -> Result<(), String> {
        let unit = untrack(|| self.desk.notation().unit());
        match read_length(typed, unit) {
            Ok(length) if length > Length::ZERO => {
                self.width.set(Some(length));
                self.wrong.set(None);
                Ok(())
            }
            Ok(_) => Err(texts().desk.above_zero.to_owned()),
            Err(error) => Err(misread(&error)),
        }
    }

    /// Makes a layer of it; `false` where it can't be cut, which is said.
    fn add(self, on: Seat) -> bool {
        let traced = self.outlines.with_value(|all| {
            let found = all.get(self.which.get_untracked())?;
            let width = self.width.get_untracked()?;
            Some(found.traced(width, self.with_holes.get_untracked()))
        });
        let (traced, size) = match traced {
            Some(Ok(traced)) => traced,
            Some(Err(why)) => {
                self.wrong.set(Some(unfit(why)));
                return false;
            }
            None => return false,
        };
        let mut fresh = None;
        self.desk.edit(None, |recipe| {
            let added = recipe.add_traced(on, traced, size, naming())?;
            fresh = Some(added.id);
            Ok(added.changes)
        });
        if fresh.is_some() {
            self.desk.layer.set(fresh);
        }
        true
    }
}

/// The outlines of a drawing, of which one becomes a layer.
#[component]
fn Choosing(
    /// What was read.
    drawing: Drawing,
    /// What the layer is put on.
    seat: Memo<Option<Seat>>,
    /// Whether it is still asked.
    open: RwSignal<bool>,
) -> impl IntoView {
    let words = language().outlines();
    let Drawing { outlines, left_out } = drawing;
    let is_untold = outlines.iter().all(|found| found.size().is_none());
    let chosen = Chosen::of(outlines);
    let kept = Signal::derive(move || {
        let width = chosen.width.get();
        width.map_or_else(String::new, |width| chosen.desk.notation().exact(width))
    });
    let has_holes = Memo::new(move |_| {
        let index = chosen.which.get();
        chosen
            .outlines
            .with_value(|all| all.get(index).is_some_and(|found| found.holes() > 0))
    });
    let add = move |_| {
        if seat.get_untracked().is_some_and(|on| chosen.add(on)) {
            open.set(false);
        }
    };
    let left_out = (!left_out.is_empty()).then(|| {
        let lines = left_out.into_iter().map(|(what, count)| left(what, count));
        view! {
            <h3>{words.left_out}</h3>
            <ul class="quiet">{lines.map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
        }
    });
    view! {
        <p>{words.about}</p>
        <Pictures chosen/>
        {is_untold.then(|| view! { <p>{words.untold}</p> })}
        <div class="fields">
            <Typed label=words.width kept take=move |typed| chosen.take_width(typed)/>
        </div>
        <Show when=move || has_holes.get()>
            <label class="check">
                <input
                    type="checkbox"
                    prop:checked=chosen.with_holes
                    on:change=move |event| {
                        chosen.with_holes.set(event_target_checked(&event));
                        chosen.wrong.set(None);
                    }
                />
                <span>{words.with_holes}</span>
            </label>
        </Show>
        <div role="alert">
            {move || chosen.wrong.get().map(|why| view! { <p class="said refusal">{why}</p> })}
        </div>
        <div class="actions">
            <button
                type="button"
                class="button primary"
                disabled=move || chosen.width.with(Option::is_none)
                on:click=add
            >
                {words.add}
            </button>
        </div>
        {left_out}
    }
}

/// Each outline as a small drawing, of which one is chosen.
#[component]
fn Pictures(chosen: Chosen) -> impl IntoView {
    let words = language().outlines();
    let view_box = format!("-2 -2 {0} {0}", SIDE + 4.0);
    let one = move |(index, found): (usize, &Found)| {
        let called = match found.size() {
            Some(size) => {
                let written = |side| untrack(|| chosen.desk.written(side));
                words.one_of_size(index + 1, &written(size.width), &written(size.height))
            }
            None => words.one(index + 1),
        };
        let holes = (found.holes() > 0).then(|| words.holes(found.holes()));
        let is_pressed = move || {
            if chosen.which.get() == index {
                "true"
            } else {
                "false"
            }
        };
        view! {
            <button
                type="button"
                class="outline-found"
                aria-pressed=is_pressed
                on:click=move |_| chosen.choose(index)
            >
                <svg viewBox=view_box.clone() aria-hidden="true">
                    <path d=found.picture(SIDE) fill-rule="evenodd"/>
                </svg>
                <span>{heard(called)}</span>
                {holes.map(|holes| view! { <span class="quiet">{holes}</span> })}
            </button>
        }
    };
    let pictures = chosen
        .outlines
        .with_value(|all| all.iter().enumerate().map(one).collect_view());
    view! {
        <div class="outlines-found" role="group" aria-label=words.which>{pictures}</div>
    }
}
