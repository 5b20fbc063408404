//! Which part of its sheet something is cut from: it is dragged there in the picture of
//! the sheet, or its place is typed.

use foldwright_engine::cut_list::Blank;
use foldwright_engine::draw::{Drawing, part_on_sheet};
use foldwright_engine::length::{Length, nearest};
use foldwright_engine::paper::Stock;
use foldwright_engine::part::{Part, parts};
use foldwright_engine::plane::{Point, Rect, SheetFrame};
use foldwright_engine::recipe::{Lay, StripId};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::field::LengthField;
use super::super::grip::Grip;
use super::super::picture::Picture;
use super::super::pull_down::Pick;
use crate::spoken::{aloud, language, speaker};

/// The part that is looked at.
#[derive(Clone, Copy)]
struct Cut {
    desk: Desk,
    part: Memo<Part>,
}

/// Where it lies on its sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Lies {
    takes: Rect<SheetFrame>,
    lay: Lay,
    /// Whether the maker put it there.
    is_chosen: bool,
    /// How high the sheet is, and how far its lower left corner may go.
    height: Length,
    most: Point<SheetFrame>,
}

impl Lies {
    fn of(blank: &Blank, stock: &Stock) -> Option<Self> {
        let takes = blank.takes(stock)?;
        let size = takes.size();
        Some(Self {
            takes,
            lay: blank.lies.as_ref()?.lay,
            is_chosen: blank.at.is_some(),
            height: stock.height,
            most: Point::new(stock.width - size.width, stock.height - size.height),
        })
    }

    /// From the left and from the upper edge of the sheet.
    fn off_edges(&self) -> [Length; 2] {
        [self.takes.low.x, self.height - self.takes.high.y]
    }
}

impl Cut {
    /// Where it lies; `None` where it has no paper, or none that is large enough. Tracks.
    fn lies(self) -> Option<Lies> {
        let part = self.part.get();
        self.desk
            .recipe
            .with(|recipe| {
                self.desk.card.with(|card| {
                    let blank = card.cut_list.of(part)?;
                    Lies::of(blank, recipe.stock(blank.stock)?)
                })
            })
            .filter(|lies| lies.most.x >= Length::ZERO && lies.most.y >= Length::ZERO)
    }

    /// Moves its lower left corner there, though never past an edge of the sheet.
    fn move_to(self, to: Point<SheetFrame>) {
        let Some(lies) = untrack(|| self.lies()) else {
            return;
        };
        let within = |at: Length, most: Length| at.min(most).max(Length::ZERO);
        let to = Point::new(within(to.x, lies.most.x), within(to.y, lies.most.y));
        if to != lies.takes.low || !lies.is_chosen {
            let part = self.part.get_untracked();
            self.desk
                .change(|recipe| part.cut_from(recipe, Some((to, lies.lay))));
        }
    }

    /// Moves it from where it was, on the marks of the maker's ruler as they are
    /// measured from the left and the upper edge.
    fn move_by(self, was: Lies, by: [Length; 2]) {
        let step = untrack(|| self.desk.notation().step);
        let [left, top] = was.off_edges();
        let marked = |length| nearest(length, step).at;
        let (left, top) = (marked(left + by[0]), marked(top - by[1]));
        self.move_to(Point::new(left, was.most.y - top));
    }

    /// What it is called, where it lies, and how it is moved. Tracks.
    fn name(self) -> Option<String> {
        let [left, top] = self.lies()?.off_edges();
        self.desk.recipe.with(|recipe| {
            let part = speaker(recipe).part(self.part.get());
            let written = |length| recipe.notation.with_unit(length);
            let name = language()
                .photos()
                .place_of(&part, &written(left), &written(top));
            Some(aloud(&name))
        })
    }
}

/// The sheet something is cut from, and where on it that is.
#[component]
pub(super) fn OnSheet() -> impl IntoView {
    let desk = Desk::here();
    let texts = language().photos();
    let wanted = RwSignal::new(Part::Strip(StripId::Base));
    let all = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let say = speaker(recipe);
            let all = parts(recipe).map(|part| (part, say.part(part)));
            all.collect::<Vec<_>>()
        })
    });
    // What was looked at may have been taken out.
    let part = Memo::new(move |_| {
        let wanted = wanted.get();
        let is_there = all.with(|all| all.iter().any(|(part, _)| *part == wanted));
        if is_there {
            wanted
        } else {
            Part::Strip(StripId::Base)
        }
    });
    let cut = Cut { desk, part };
    let lies = Memo::new(move |_| cut.lies());
    let is_chosen = move || lies.get().is_some_and(|lies| lies.is_chosen);
    let edge = move |number: usize| {
        let edges = lies.get().map(|lies| lies.off_edges());
        edges
            .and_then(|edges| edges.get(number).copied())
            .unwrap_or_default()
    };
    let put = move |place: &dyn Fn(&Lies) -> Point<SheetFrame>| {
        if let Some(lies) = lies.get_untracked() {
            cut.move_to(place(&lies));
        }
    };
    view! {
        <Show when=move || all.with(|all| all.len() > 1)>
            <div class="fields">
                <Pick label=texts.what_is_cut options=all chosen=part choose=move |part| wanted.set(part)/>
            </div>
        </Show>
        <Sheet cut lies/>
        <Show when=move || lies.with(Option::is_some)>
            <details class="typed">
                <summary>{texts.which_part}</summary>
                <p class="quiet">{texts.about_part}</p>
                <div class="fields">
                    <LengthField
                        label=texts.from_left
                        length=Signal::derive(move || edge(0))
                        set=move |left| put(&|lies| Point::new(left, lies.takes.low.y))
                    />
                    <LengthField
                        label=texts.from_top
                        length=Signal::derive(move || edge(1))
                        set=move |top| put(&|lies| Point::new(lies.takes.low.x, lies.most.y - top))
                    />
                </div>
                <Show when=is_chosen>
                    <button
                        type="button"
                        class="button quiet"
                        on:click=move |_| desk.change(|recipe| part.get_untracked().cut_from(recipe, None))
                    >
                        {texts.from_anywhere}
                    </button>
                </Show>
            </details>
        </Show>
    }
}

/// The picture of the sheet, in which the part is taken hold of.
#[component]
fn Sheet(cut: Cut, lies: Memo<Option<Lies>>) -> impl IntoView {
    let picture = Memo::new(move |_| {
        let part = cut.part.get();
        let drawing = cut
            .desk
            .recipe
            .with(|recipe| cut.desk.card.with(|card| part_on_sheet(recipe, card, part)));
        Picture::written(drawing.unwrap_or_else(Drawing::empty), "sheet")
    });
    let spot = Signal::derive(move || {
        let takes = lies.get()?.takes;
        let middle = [
            f64::midpoint(takes.low.x.as_mm_f64(), takes.high.x.as_mm_f64()),
            f64::midpoint(takes.low.y.as_mm_f64(), takes.high.y.as_mm_f64()),
        ];
        Some(picture.with(|picture| picture.share(middle)))
    });
    let ratio = move || picture.with(|picture| (picture.size[0] / picture.size[1]).to_string());
    view! {
        <div class="sheet-figure" style=("--ratio", ratio)>
            <svg aria-hidden="true" focusable="false" viewBox=move || picture.with(|picture| picture.drawn.view_box.clone())>
                <g inner_html=move || picture.with(|picture| picture.drawn.inside())></g>
            </svg>
            <Show when=move || spot.get().is_some()>
                <Grip
                    picture
                    class="sheet-grip"
                    spot
                    name=Signal::derive(move || cut.name())
                    held=move || lies.get()
                    move_by=move |was, by, _| cut.move_by(was, by)
                />
            </Show>
        </div>
    }
}
