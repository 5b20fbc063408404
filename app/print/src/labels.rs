//! Labels on pages: equal ones beside and below each other, so that they are trimmed
//! from edge to edge.

use crate::compose::HAIR;
use crate::flow::{FOOT, Item, MARGIN, OnPage, Whole, height, highest, put_below, together};
use crate::paper::{MM, Paper};

/// White between a line and what is written, in points. (Own choice.)
const PAD: f32 = 4.0 * MM;

/// So far lines go on past the outermost labels, so that they are seen in a trimmer.
const PAST: f32 = 4.0 * MM;

/// How thick a line is, in points.
const LINE: f32 = 0.5;

/// Between what stands above labels and the first of them.
const BELOW_HEAD: f32 = 6.0 * MM;

/// What names a label that goes on takes less than this.
const AGAIN: f32 = 8.0 * MM;

/// Where labels lie on pages.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Grid {
    paper: Paper,
    columns: u8,
}

impl Grid {
    /// Two beside each other, or one where it would not have room on a page so;
    /// `label` is one in a width.
    pub(crate) fn of(paper: Paper, label: impl FnOnce(f32) -> Vec<Whole>) -> Self {
        let grid = Self { paper, columns: 2 };
        let has_room = height(&label(grid.width()), true) <= grid.room();
        let columns = if has_room { 2 } else { 1 };
        Self { paper, columns }
    }

    /// From a line to the next.
    fn step(self) -> f32 {
        (self.paper.size()[0] - 2.0 * MARGIN) / f32::from(self.columns)
    }

    /// How wide what is written may be.
    pub(crate) fn width(self) -> f32 {
        self.step() - 2.0 * PAD
    }

    /// How high it may be.
    fn room(self) -> f32 {
        highest(self.paper) - 2.0 * PAD
    }

    /// A label in as many as it takes where it has no room on a page; `again` names it
    /// on those that follow.
    pub(crate) fn parted(
        self,
        label: Vec<Whole>,
        mut again: impl FnMut() -> Vec<Whole>,
    ) -> Vec<Vec<Whole>> {
        let mut cells: Vec<Vec<Whole>> = vec![Vec::new()];
        for group in together(label, self.room() - AGAIN) {
            let filled = cells.last().map_or(0.0, |cell| height(cell, true));
            if filled > 0.0 && filled + height(&group, false) > self.room() {
                cells.push(again());
            }
            if let Some(cell) = cells.last_mut() {
                cell.extend(group);
            }
        }
        cells
    }

    /// All labels on pages, below what stands above the first of them.
    pub(crate) fn pages(self, head: Vec<Whole>, cells: Vec<Vec<Whole>>) -> Vec<OnPage> {
        let all = cells.iter().map(|cell| height(cell, true));
        let tall = all.fold(0.0, f32::max) + 2.0 * PAD;
        let bottom = self.paper.size()[1] - MARGIN - FOOT;
        let mut page = OnPage::new();
        let mut top = put_below(&mut page, head, [MARGIN, MARGIN]) + BELOW_HEAD;
        let mut done = Vec::new();
        let mut cells = cells.into_iter().peekable();
        while cells.peek().is_some() {
            let (from, mut rows) = (top, 0_u8);
            while cells.peek().is_some() && top + tall <= bottom + LINE {
                for column in 0..self.columns {
                    let left = MARGIN + f32::from(column) * self.step() + PAD;
                    put_below(
                        &mut page,
                        cells.next().unwrap_or_default(),
                        [left, top + PAD],
                    );
                }
                top += tall;
                rows += 1;
            }
            self.lines(&mut page, from, rows, tall);
            done.push(std::mem::take(&mut page));
            top = MARGIN;
        }
        done
    }

    fn lines(self, page: &mut OnPage, top: f32, rows: u8, tall: f32) {
        if rows == 0 {
            return;
        }
        let (wide, high) = (self.paper.size()[0], f32::from(rows) * tall);
        let line = |at, size| Item::Fill {
            at,
            size,
            colour: HAIR,
        };
        page.extend((0..=rows).map(|row| {
            let down = top + f32::from(row) * tall;
            let long = wide - 2.0 * (MARGIN - PAST);
            line([MARGIN - PAST, down - LINE / 2.0], [long, LINE])
        }));
        page.extend((0..=self.columns).map(|column| {
            let left = MARGIN + f32::from(column) * self.step();
            let long = high + 2.0 * PAST;
            line([left - LINE / 2.0, top - PAST], [LINE, long])
        }));
    }
}
