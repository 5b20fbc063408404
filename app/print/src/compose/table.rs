//! Tables: as wide as their columns ask for, and never parted after their first row.

use super::Composer;
use crate::paper::MM;
use crate::tags::Role;
use crate::text::Text;

/// Between the columns of a table, in points.
const BETWEEN: f32 = 3.5 * MM;

impl Composer<'_> {
    /// A table: what stands at the head of each column, and its rows, of which the
    /// first cell names the rest.
    pub(crate) fn table(&mut self, heads: &[&str], rows: &[Vec<String>]) {
        let table = self.part(Role::Table);
        let outer = self.within.replace(table);
        let head_style = self.manner.small.bold();
        let text = self.manner.text;
        let head: Vec<_> = heads.iter().map(|it| self.said(it, head_style)).collect();
        let body: Vec<Vec<_>> = rows
            .iter()
            .map(|row| {
                let cells = row.iter().enumerate();
                let cells = cells.map(|(number, cell)| {
                    let style = if number == 0 { text.bold() } else { text };
                    // A cell with nothing in it is no part of its row.
                    let cell = if cell.trim().is_empty() { "–" } else { cell };
                    self.said(cell, style)
                });
                cells.collect()
            })
            .collect();
        let widths = self.shares(&head, &body);
        self.row(&head, &widths, |_| Role::ColumnHead, 1.6 * MM);
        self.rule(0.8 * MM, 0.35);
        self.keep();
        for (number, row) in body.iter().enumerate() {
            let role = |cell| if cell == 0 { Role::RowHead } else { Role::Cell };
            self.row(row, &widths, role, self.manner.above_row);
            self.rule(0.9 * MM, 0.35);
            // A table is not parted after its first row, nor before its last.
            if number == 0 && number + 2 < body.len() || number + 2 == body.len() {
                self.keep();
            }
        }
        self.within = outer;
    }

    fn row(&mut self, cells: &[Text], widths: &[f32], role: impl Fn(usize) -> Role, above: f32) {
        let row = self.part(Role::Row);
        let outer = self.within.replace(row);
        let mut x = 0.0;
        let mut lines = Vec::new();
        for (number, (cell, width)) in cells.iter().zip(widths).enumerate() {
            let part = self.part(role(number));
            lines.push((x, part, cell.lines(*width)));
            x += width + BETWEEN;
        }
        self.within = outer;
        self.beside(lines, above);
    }

    /// How wide the columns of a table are: as wide as what stands in them; where
    /// there is too little room, the widest share what the others leave.
    fn shares(&self, head: &[Text], body: &[Vec<Text>]) -> Vec<f32> {
        let columns = head.len();
        let cells = |column: usize| {
            let body = body.iter().filter_map(move |row| row.get(column));
            head.get(column).into_iter().chain(body)
        };
        // Half a point more, so that rounding breaks no line.
        let needed = |column| cells(column).map(Text::width).fold(0.0, f32::max) + 0.5;
        let mut widths: Vec<f32> = (0..columns).map(needed).collect();
        #[expect(clippy::cast_precision_loss, reason = "a table has a few columns")]
        let room = self.width - BETWEEN * (columns as f32 - 1.0);
        let mut sorted = widths.clone();
        sorted.sort_by(f32::total_cmp);
        let (mut left, mut most) = (room, room);
        for (number, width) in sorted.iter().enumerate() {
            #[expect(clippy::cast_precision_loss, reason = "a table has a few columns")]
            let equal = left / (columns - number) as f32;
            most = equal;
            if *width > equal {
                break;
            }
            left -= width;
        }
        for width in &mut widths {
            *width = width.min(most.max(0.0));
        }
        let spare = room - widths.iter().sum::<f32>();
        // What names a row has the room that is left.
        if let Some(first) = widths.first_mut() {
            *first += spare.max(0.0);
        }
        widths
    }
}
