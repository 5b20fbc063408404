//! What is drawn true to scale: parts, the ruler to measure by, and how lines look.

use foldwright_engine::draw::{Drawing, Fill, Ink, Mark, Role, Spot};
use foldwright_engine::length::{Length, Unit};
use foldwright_engine::plane::{Point, Polygon, Turn};
use foldwright_engine::recipe::Fold;
use foldwright_engine::template::Template;
use foldwright_words::Taken;

use crate::tiles::{Join, Tiles, Window};

/// White round a part, in millimetres, so that its edge is seen whole.
const RIM: f64 = 0.6;

/// How long the arms of a cross are at a join, and how far letters are from it.
const ARM: f64 = 4.0;
const ASIDE: f64 = 3.4;

/// Arrows are so long, in millimetres; a panel narrower than twice that has none.
const ARROW: f64 = 12.0;

fn spot<F>(at: Point<F>) -> Spot {
    [at.x.as_mm_f64(), at.y.as_mm_f64()]
}

fn corners<F>(polygon: &Polygon<F>) -> Vec<Spot> {
    polygon.corners.iter().map(|at| spot(*at)).collect()
}

fn line(from: Spot, to: Spot, ink: Ink) -> Mark {
    Mark::Line {
        from,
        to,
        ink,
        line: None,
    }
}

fn label(at: Spot, words: &str) -> Mark {
    Mark::Text {
        at,
        words: words.to_owned(),
        role: Role::Label,
    }
}

fn windowed(marks: Vec<Mark>, Window { low, high }: Window) -> Drawing {
    Drawing {
        low,
        high,
        left: low[0],
        marks,
    }
}

/// All of a part with its rim, in millimetres.
pub(crate) fn whole(template: &Template) -> Window {
    let size = template.size;
    Window {
        low: [-RIM; 2],
        high: [size.width, size.height].map(|side| side.as_mm_f64() + RIM),
    }
}

/// What of a part is seen through a window, in millimetres: glue below, then
/// creases, then cuts, and the joins to the pages beside it.
pub(crate) fn leaf(template: &Template, window: Window, joins: &[Join], texts: &Taken) -> Drawing {
    let mut marks = Vec::new();
    for glue in &template.glue {
        let outlines: Vec<_> = glue.outlines.iter().map(corners).collect();
        marks.push(Mark::Area {
            outlines: outlines.clone(),
            fill: Fill::Glue,
            edged: false,
            part: None,
        });
        let ink = Ink::Laid;
        marks.extend(outlines.into_iter().map(|corners| {
            let next = corners.iter().cycle().skip(1);
            let sides = corners.iter().zip(next);
            let lines = sides.map(|(from, to)| [*from, *to]).collect();
            Mark::Lines { lines, ink }
        }));
    }
    arrows(template, texts, &mut marks);
    marks.extend(template.folds.iter().map(|(fold, course)| {
        let ink = match fold {
            Fold::Mountain => Ink::Mountain,
            Fold::Valley => Ink::Valley,
        };
        line(spot(course.from), spot(course.to), ink)
    }));
    let cuts = template.cuts.iter();
    marks.extend(cuts.map(|course| line(spot(course.from), spot(course.to), Ink::Cut)));
    marks.extend(template.edges.iter().map(|edge| Mark::Outline {
        corners: corners(edge),
        ink: Ink::Cut,
    }));
    for join in joins.iter().filter(|join| window.holds(join.middle())) {
        joined(join, &mut marks);
    }
    // Words would be moved into sight.
    marks.retain(|mark| match mark {
        Mark::Text { at, .. } => window.holds(*at),
        _ => true,
    });
    windowed(marks, window)
}

/// A join: its line, a cross at each quarter of it, and its letter on both sides.
fn joined(join: &Join, marks: &mut Vec<Mark>) {
    let at = |share: f64| [0, 1].map(|i| join.from[i] + (join.to[i] - join.from[i]) * share);
    marks.push(line(join.from, join.to, Ink::Hidden));
    let mut lines = Vec::new();
    for share in [0.25, 0.75] {
        let [x, y] = at(share);
        lines.push([[x - ARM, y], [x + ARM, y]]);
        lines.push([[x, y - ARM], [x, y + ARM]]);
    }
    marks.push(Mark::Lines {
        lines,
        ink: Ink::Ruler,
    });
    let [x, y] = join.middle();
    let is_upright = (join.from[0] - join.to[0]).abs() < ASIDE;
    let away = if is_upright {
        [ASIDE, 0.0]
    } else {
        [0.0, ASIDE]
    };
    for side in [-1.0, 1.0] {
        let there = [x + side * away[0], y + side * away[1]];
        marks.push(label(there, &join.letter));
    }
}

/// The widest stretch of a side between the creases that cross it straight.
fn widest(template: &Template, side: usize) -> [f64; 2] {
    let end = [template.size.width, template.size.height].map(Length::as_mm_f64);
    let courses = template.folds.iter();
    let courses = courses.map(|(_, course)| [spot(course.from), spot(course.to)]);
    let straight = courses.filter(|[from, to]| (from[side] - to[side]).abs() < f64::EPSILON);
    let mut stops: Vec<f64> = straight.map(|[from, _]| from[side]).collect();
    stops.extend([0.0, end[side]]);
    stops.sort_by(f64::total_cmp);
    let spans = stops.iter().zip(stops.iter().skip(1));
    let widest = spans.max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
    widest.map_or([0.0; 2], |(low, high)| [*low, *high])
}

/// Arrows that tell how the print and the grain run, in the middle of the widest
/// panel, where there is room.
fn arrows(template: &Template, texts: &Taken, marks: &mut Vec<Mark>) {
    let [across, up] = [0, 1].map(|side| widest(template, side));
    if (across[1] - across[0]).min(up[1] - up[0]) < 2.0 * ARROW {
        return;
    }
    let middle = [across, up].map(|[low, high]| f64::midpoint(low, high));
    let both = template.head.is_some() && template.grain_upright.is_some();
    let aside = if both { ARROW / 2.0 } else { 0.0 };
    if let Some((head, both_ways)) = template.head {
        let way = match head {
            Turn::None => [0.0, 1.0],
            Turn::Left => [-1.0, 0.0],
            Turn::Half => [0.0, -1.0],
            Turn::Right => [1.0, 0.0],
        };
        let at = [middle[0] - aside, middle[1]];
        arrow(at, way, both_ways, texts.print_arrow, marks);
    }
    if let Some(is_upright) = template.grain_upright {
        let way = if is_upright { [0.0, 1.0] } else { [1.0, 0.0] };
        let at = [middle[0] + aside, middle[1]];
        arrow(at, way, true, texts.grain_arrow, marks);
    }
}

/// An arrow with its name below it, drawn as dimensions are, so that nobody takes
/// it for a cut.
fn arrow(at: Spot, way: Spot, both_ways: bool, name: &str, marks: &mut Vec<Mark>) {
    let half = ARROW * 0.4;
    let end = |side: f64| [at[0] + side * half * way[0], at[1] + side * half * way[1]];
    let (foot, head) = (end(-1.0), end(1.0));
    let mut lines = vec![[foot, head]];
    let mut barbs = |tip: Spot, side: f64| {
        for across in [-0.6, 0.6] {
            let back = [
                tip[0] - side * 2.0 * way[0] + across * 2.0 * way[1],
                tip[1] - side * 2.0 * way[1] + across * 2.0 * way[0],
            ];
            lines.push([tip, back]);
        }
    };
    barbs(head, 1.0);
    if both_ways {
        barbs(foot, -1.0);
    }
    marks.push(Mark::Lines {
        lines,
        ink: Ink::Dimension,
    });
    let below = foot[1].min(head[1]) - 3.0;
    marks.push(label([at[0], below], name));
}

/// The length of the ruler to measure by, in the unit that the recipe counts in.
pub(crate) const fn ruler_length(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(4),
        Unit::Millimetre => Length::mm(100),
    }
}

/// The ruler to measure by.
pub(crate) fn ruler(unit: Unit) -> Drawing {
    let (division, count, long) = match unit {
        Unit::Inch => (25.4 / 8.0, 32, [8, 4]),
        Unit::Millimetre => (1.0, 100, [10, 5]),
    };
    let mut lines = Vec::new();
    let mut marks = Vec::new();
    for number in 0..=count {
        let x = division * f64::from(number);
        let deep = match long.map(|every| number % every == 0) {
            [true, _] => 3.2,
            [_, true] => 2.4,
            _ => 1.4,
        };
        lines.push([[x, 0.0], [x, -deep]]);
        if number % long[0] == 0 {
            let shown = match unit {
                Unit::Inch => number / long[0],
                Unit::Millimetre => number,
            };
            marks.push(Mark::Text {
                at: [x, -5.0],
                words: shown.to_string(),
                role: Role::Graduation,
            });
        }
    }
    let end = division * f64::from(count);
    lines.push([[0.0, 0.0], [end, 0.0]]);
    marks.push(Mark::Lines {
        lines,
        ink: Ink::Ruler,
    });
    let window = Window {
        low: [-3.0, -6.8],
        high: [end + 3.0, 0.6],
    };
    windowed(marks, window)
}

/// How wide a sample of a line is, and all that belongs to it.
const SAMPLE: f64 = 14.0;
const COLUMN: f64 = 18.5;

/// How lines look, in four columns.
pub(crate) fn legend(texts: &Taken) -> Drawing {
    let mut marks = Vec::new();
    let names = [texts.cut, texts.mountain, texts.valley, texts.glue];
    let mut middle = COLUMN / 2.0;
    for (number, name) in names.into_iter().enumerate() {
        let [from, to] = [-SAMPLE / 2.0, SAMPLE / 2.0].map(|side| middle + side);
        let ink = match number {
            0 => Ink::Cut,
            1 => Ink::Mountain,
            2 => Ink::Valley,
            _ => Ink::Laid,
        };
        if ink == Ink::Laid {
            let outline = vec![[from, -1.4], [to, -1.4], [to, 0.0], [from, 0.0]];
            marks.push(Mark::Area {
                outlines: vec![outline.clone()],
                fill: Fill::Glue,
                edged: false,
                part: None,
            });
            let next = outline.iter().cycle().skip(1);
            let lines = outline.iter().zip(next);
            let lines = lines.map(|(from, to)| [*from, *to]).collect();
            marks.push(Mark::Lines { lines, ink });
        } else {
            marks.push(line([from, -0.7], [to, -0.7], ink));
        }
        marks.push(label([middle, -5.0], name));
        middle += COLUMN;
    }
    let window = Window {
        low: [0.0, -6.8],
        high: [4.0 * COLUMN, 0.6],
    };
    windowed(marks, window)
}

/// Where a page of a part lies in it.
pub(crate) fn map(template: &Template, tiles: &Tiles, this: usize) -> Drawing {
    let mut marks = Vec::new();
    let outline = |window: &Window| {
        let Window { low, high } = *window;
        vec![low, [high[0], low[1]], high, [low[0], high[1]]]
    };
    if let Some(window) = tiles.windows.get(this) {
        marks.push(Mark::Area {
            outlines: vec![outline(window)],
            fill: Fill::Waste,
            edged: false,
            part: None,
        });
    }
    marks.extend(tiles.windows.iter().map(|window| Mark::Outline {
        corners: outline(window),
        ink: Ink::Dimension,
    }));
    marks.extend(template.edges.iter().map(|edge| Mark::Outline {
        corners: corners(edge),
        ink: Ink::Edge,
    }));
    let few = tiles.windows.len() <= MOST_NUMBERS;
    for (number, window) in tiles.windows.iter().enumerate() {
        if few || number == this {
            let middle = [0, 1].map(|i| f64::midpoint(window.low[i], window.high[i]));
            marks.push(label(middle, &(number + 1).to_string()));
        }
    }
    let mut all = whole(template);
    for window in &tiles.windows {
        for i in [0, 1] {
            all.low[i] = all.low[i].min(window.low[i]);
            all.high[i] = all.high[i].max(window.high[i]);
        }
    }
    let more = (all.high[0] - all.low[0]).max(all.high[1] - all.low[1]) / 50.0;
    let window = Window {
        low: all.low.map(|side| side - more),
        high: all.high.map(|side| side + more),
    };
    windowed(marks, window)
}

/// A map of more pages than these has no room for all their numbers.
const MOST_NUMBERS: usize = 12;
