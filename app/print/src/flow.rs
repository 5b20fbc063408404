//! What stands on a sheet, put on pages in columns.
//!
//! All is made of pieces that are never cut: lines of text, rows of figures.
//! Those that belong together stay together where a column has room for them, and
//! are parted where it has not, so that nothing is ever left out.

use std::sync::Arc;

use foldwright_engine::draw::Drawing;
use foldwright_engine::paper::Colour;

use crate::code::Code;
use crate::paper::{MM, Paper};
use crate::tags::PartId;
use crate::text::Line;

/// The edge of a page that stays white, in points. (Common practice: printers
/// need 3 to 6 mm; hands a little more.)
pub(crate) const MARGIN: f32 = 14.0 * MM;

/// How often the height of columns is halved until they end alike: to a tenth of a
/// point.
const HALVINGS: u32 = 13;

/// By how much what just has room may be too high for being added up, in points.
const ROUNDING: f32 = 0.01;

/// Between two columns.
const GUTTER: f32 = 8.0 * MM;

/// Below what is on a page, room for its foot.
pub(crate) const FOOT: f32 = 7.0 * MM;

/// Something drawn, by its place in the piece: to the right and down, in points.
#[derive(Debug, Clone)]
pub(crate) enum Item {
    /// A line of text, which begins there on its base line.
    Line {
        at: [f32; 2],
        line: Line,
        of: PartId,
    },
    /// A drawing that fills this, at the left of it.
    Figure {
        at: [f32; 2],
        size: [f32; 2],
        drawing: Arc<Drawing>,
        of: PartId,
    },
    /// A drawing true to scale, of which what lies within its frame is seen.
    Leaf {
        at: [f32; 2],
        drawing: Arc<Drawing>,
        of: PartId,
    },
    /// A square code, so wide with the white round it.
    Code {
        at: [f32; 2],
        wide: f32,
        code: Code,
        of: PartId,
    },
    /// The same as something that is read already.
    Again(Box<Self>),
    /// Where the page is cut apart.
    Cut { from: [f32; 2], to: [f32; 2] },
    /// A filled rectangle, which means nothing.
    Fill {
        at: [f32; 2],
        size: [f32; 2],
        colour: Colour,
    },
}

/// What is never cut.
#[derive(Debug, Clone, Default)]
pub(crate) struct Whole {
    /// White above it, but not at the head of a column.
    pub(crate) above: f32,
    pub(crate) height: f32,
    /// Whether it stays with what follows.
    pub(crate) keeps: bool,
    pub(crate) items: Vec<Item>,
}

/// Something drawn on a page, its place that of the page.
pub(crate) type OnPage = Vec<Item>;

/// Pages as they fill.
#[derive(Debug)]
pub(crate) struct Pages {
    paper: Paper,
    pub(crate) in_order: Vec<OnPage>,
    /// How far down the last page is filled.
    filled: f32,
}

/// How wide a column is where there are so many on a page.
pub(crate) fn column(paper: Paper, columns: u8) -> f32 {
    let [width, _] = paper.size();
    let columns = f32::from(columns);
    (width - 2.0 * MARGIN - (columns - 1.0) * GUTTER) / columns
}

/// How high a column is at most.
pub(crate) fn highest(paper: Paper) -> f32 {
    let [_, height] = paper.size();
    height - 2.0 * MARGIN - FOOT
}

/// Where the foot of a page stands: its left end, its right end and its base line.
pub(crate) fn foot(paper: Paper) -> [f32; 3] {
    let [width, height] = paper.size();
    [MARGIN, width - MARGIN, height - MARGIN]
}

impl Pages {
    pub(crate) fn new(paper: Paper) -> Self {
        Self {
            paper,
            in_order: vec![Vec::new()],
            filled: MARGIN,
        }
    }

    /// Puts pieces below all that is there, in so many columns.
    pub(crate) fn put(&mut self, pieces: Vec<Whole>, columns: u8) {
        let groups = together(pieces, highest(self.paper));
        let [_, height] = self.paper.size();
        let bottom = height - MARGIN - FOOT;
        let top = self.filled + if self.is_empty() { 0.0 } else { 5.0 * MM };
        let places = fill(&groups, top, bottom, columns);
        // The columns of the last page end alike.
        let last = places.iter().map(|place| place.page).max().unwrap_or(0);
        let (on_last, before): (Vec<_>, Vec<_>) = groups
            .into_iter()
            .zip(&places)
            .partition(|(_, place)| place.page == last);
        let first_page = self.in_order.len() - 1;
        for (group, place) in before {
            self.set(group, *place, first_page);
        }
        let on_last: Vec<_> = on_last.into_iter().map(|(group, _)| group).collect();
        let top = if last == 0 { top } else { MARGIN };
        let evened = even(&on_last, top, bottom, columns);
        for (group, place) in on_last.into_iter().zip(evened) {
            let page = place.page + last;
            self.set(group, Place { page, ..place }, first_page);
        }
    }

    fn is_empty(&self) -> bool {
        self.in_order.len() == 1 && self.in_order.iter().all(Vec::is_empty)
    }

    fn set(&mut self, group: Vec<Whole>, place: Place, first_page: usize) {
        let page = first_page + place.page;
        while self.in_order.len() <= page {
            self.in_order.push(Vec::new());
            self.filled = MARGIN;
        }
        let Some(on_page) = self.in_order.get_mut(page) else {
            return;
        };
        let mut down = place.down;
        for (number, piece) in group.into_iter().enumerate() {
            if number > 0 || !place.is_head {
                down += piece.above;
            }
            let left = MARGIN + f32::from(place.column) * (column(self.paper, place.of) + GUTTER);
            for item in piece.items {
                on_page.push(item.moved([left, down]));
            }
            down += piece.height;
        }
        self.filled = self.filled.max(down);
    }
}

/// Puts pieces below each other on a page from a place on; where they end.
pub(crate) fn put_below(page: &mut OnPage, pieces: Vec<Whole>, [left, top]: [f32; 2]) -> f32 {
    let mut down = top;
    for (number, piece) in pieces.into_iter().enumerate() {
        if number > 0 {
            down += piece.above;
        }
        let items = piece.items.into_iter();
        page.extend(items.map(|it| it.moved([left, down])));
        down += piece.height;
    }
    down
}

impl Item {
    pub(crate) fn moved(mut self, by: [f32; 2]) -> Self {
        let places = match &mut self {
            Self::Again(item) => return Self::Again(Box::new(item.as_ref().clone().moved(by))),
            Self::Line { at, .. }
            | Self::Figure { at, .. }
            | Self::Leaf { at, .. }
            | Self::Code { at, .. }
            | Self::Fill { at, .. } => vec![at],
            Self::Cut { from, to } => vec![from, to],
        };
        for at in places {
            *at = [at[0] + by[0], at[1] + by[1]];
        }
        self
    }
}

/// Where a group of pieces is put.
#[derive(Debug, Clone, Copy)]
struct Place {
    page: usize,
    column: u8,
    /// How many columns there are.
    of: u8,
    down: f32,
    /// Whether it is the first of its column.
    is_head: bool,
}

/// The pieces that stay together, none of them more than has room in a column.
pub(crate) fn together(pieces: Vec<Whole>, highest: f32) -> Vec<Vec<Whole>> {
    let mut groups: Vec<Vec<Whole>> = Vec::new();
    let mut goes_on = false;
    for piece in pieces {
        let keeps = piece.keeps;
        let more = piece.above + piece.height;
        match groups.last_mut() {
            Some(group) if goes_on && height(group, true) + more <= highest => group.push(piece),
            _ => groups.push(vec![piece]),
        }
        goes_on = keeps;
    }
    groups
}

/// The height of a group under others, or at the head of a column.
pub(crate) fn height(group: &[Whole], is_head: bool) -> f32 {
    let above = group.first().map_or(0.0, |first| first.above);
    let whole: f32 = group.iter().map(|piece| piece.above + piece.height).sum();
    if is_head { whole - above } else { whole }
}

impl Place {
    /// The head of the next column, where those of the first page begin at `top`.
    fn next(self, top: f32) -> Self {
        let (page, column) = if self.column + 1 < self.of {
            (self.page, self.column + 1)
        } else {
            (self.page + 1, 0)
        };
        Self {
            page,
            column,
            down: if page == 0 { top } else { MARGIN },
            is_head: true,
            ..self
        }
    }
}

/// Where each group goes, of columns that begin at `top` of the first page and
/// end at `bottom`. What has no room in a whole column has been parted before.
fn fill(groups: &[Vec<Whole>], top: f32, bottom: f32, columns: u8) -> Vec<Place> {
    let mut place = Place {
        page: 0,
        column: 0,
        of: columns,
        down: top,
        is_head: true,
    };
    let mut places = Vec::with_capacity(groups.len());
    for group in groups {
        while place.down + height(group, place.is_head) > bottom + ROUNDING
            && !(place.is_head && place.page > 0)
        {
            place = place.next(top);
        }
        places.push(place);
        place.down += height(group, place.is_head);
        place.is_head = false;
    }
    places
}

/// The same on a page that has room for all, in columns that end as high as they
/// can.
fn even(groups: &[Vec<Whole>], top: f32, bottom: f32, columns: u8) -> Vec<Place> {
    let (mut low, mut high) = (top, bottom);
    for _ in 0..HALVINGS {
        let middle = f32::midpoint(low, high);
        let places = fill(groups, top, middle, columns);
        let fits = places.iter().all(|place| place.page == 0);
        if fits {
            high = middle;
        } else {
            low = middle;
        }
    }
    fill(groups, top, high, columns)
}

#[cfg(test)]
mod tests {
    use super::{Item, MARGIN, Pages, Whole, foot, highest};
    use crate::paper::Paper;

    fn piece(height: f32, keeps: bool) -> Whole {
        Whole {
            above: 10.0,
            height,
            keeps,
            items: vec![Item::Fill {
                at: [0.0, 0.0],
                size: [10.0, height],
                colour: foldwright_engine::paper::Colour::rgb(0),
            }],
        }
    }

    /// Of each page, where each piece begins and ends.
    fn put(pieces: Vec<Whole>, columns: u8) -> Vec<Vec<[f32; 3]>> {
        let mut pages = Pages::new(Paper::A4);
        pages.put(pieces, columns);
        let pages = pages.in_order.into_iter().map(|page| {
            let fills = page.into_iter().map(|item| match item {
                Item::Fill { at, size, .. } => [at[0], at[1], at[1] + size[1]],
                _ => [0.0; 3],
            });
            fills.collect()
        });
        pages.collect()
    }

    #[test]
    fn nothing_is_lost_and_nothing_lies_below_the_foot() {
        let [_, _, foot] = foot(Paper::A4);
        for columns in [1, 2] {
            for high in [3.0, 47.0, highest(Paper::A4)] {
                let pieces = (0..90).map(|number| piece(high, number % 3 != 0));
                let pages = put(pieces.collect(), columns);
                assert_eq!(pages.iter().flatten().count(), 90);
                assert!(pages.iter().all(|page| !page.is_empty()));
                let places = pages.iter().flatten();
                for [_, from, to] in places {
                    assert!(*from >= MARGIN && *to < foot, "{from} to {to}");
                }
            }
        }
    }

    #[test]
    fn what_belongs_together_stays_together_where_it_can() {
        let high = highest(Paper::A4);
        let pages = put(
            vec![
                piece(high * 0.7, false),
                piece(high * 0.2, true),
                piece(high * 0.2, false),
            ],
            1,
        );
        assert_eq!(pages.iter().map(Vec::len).collect::<Vec<_>>(), [1, 2]);
        // More than a column is parted.
        let pages = put(vec![piece(high * 0.7, true), piece(high * 0.7, false)], 1);
        assert_eq!(pages.iter().map(Vec::len).collect::<Vec<_>>(), [1, 1]);
    }

    #[test]
    fn the_columns_of_the_last_page_end_alike() {
        let pages = put((0..8).map(|_| piece(20.0, false)).collect(), 2);
        let [page] = &pages[..] else {
            panic!("{} pages", pages.len());
        };
        let left = page.iter().filter(|[x, ..]| *x < 100.0).count();
        assert_eq!([left, page.len()], [4, 8]);
    }
}
