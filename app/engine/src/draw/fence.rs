//! A sheet or a strip against the fence of a trimmer, and what comes off it.

use super::sheet::corners;
use super::{Affine, Drawing, Fill, Ink, Mark, Role, Spot, millimetres};
use crate::cut_plan::{Load, Setting, Yield};
use crate::paper::{SideLook, Stock};
use crate::plane::Edge;
use crate::recipe::Recipe;

/// What is laid on the trimmer at a setting, the fence at the left: the edge
/// against it, every cut, how far the first one is from the fence, and over each
/// that comes off the letter of its number in [`Setting::kinds`]. What is left
/// over is shaded. `None` where there is no such load, or no paper of it.
pub fn at_fence(recipe: &Recipe, setting: &Setting, load: usize) -> Option<Drawing> {
    let load = setting.loads.get(load)?;
    let stock = recipe.stock(load.stock)?;
    let [reach, along] = [load.reach(), load.along()].map(millimetres);
    let fence = millimetres(setting.fence);
    // Letters and lengths stand beside the paper, whose colour may be any.
    let gap = reach.max(along) / 16.0;
    let kinds = setting.kinds();
    let (mut cuts, mut letters) = (Vec::new(), Vec::new());
    let mut marks = vec![paper(stock, load, [reach, along])];
    let mut from = 0.0;
    for (index, one) in load.yields().enumerate() {
        let is_cut = index < load.off.len();
        let to = if is_cut { from + fence } else { reach };
        if matches!(one, Yield::Offcut(_)) {
            marks.push(Mark::Area {
                outlines: vec![corners([from, 0.0], [to, along])],
                fill: Fill::Waste,
                edged: false,
                part: None,
            });
        }
        if is_cut {
            cuts.push(line([to, -gap], [to, along + gap], Ink::Cut));
        }
        let number = kinds.iter().position(|kind| *kind == (load.stock, one));
        letters.extend(number.map(|number| Mark::Text {
            at: [f64::midpoint(from, to), along + gap * 1.8],
            words: letter(number),
            role: Role::Label,
        }));
        from = to;
    }
    marks.extend(cuts);
    marks.extend(letters);
    marks.extend(the_fence(gap, along));
    marks.push(line([0.0, -gap], [fence, -gap], Ink::Dimension));
    for (at, length) in [
        ([fence / 2.0, -gap * 2.0], setting.fence),
        ([-gap * 2.6, along / 2.0], load.along()),
    ] {
        marks.push(Mark::Text {
            at,
            words: recipe.notation.plain(length),
            role: Role::Length,
        });
    }
    Some(Drawing::framed(marks, 0.04))
}

/// "A" for 0, "B" for 1, "AA" after "Z".
pub fn letter(number: usize) -> String {
    let mut letters = Vec::new();
    let mut left = number;
    loop {
        // Less than 26.
        let digit = u8::try_from(left % 26).unwrap_or_default();
        letters.push(char::from(b'A' + digit));
        match (left / 26).checked_sub(1) {
            Some(more) => left = more,
            None => return letters.iter().rev().collect(),
        }
    }
}

/// The paper as it lies, its print as well.
fn paper(stock: &Stock, load: &Load, [reach, along]: Spot) -> Mark {
    let place = match load.edge {
        Edge::Left | Edge::Right => Affine::UNMOVED,
        // Its lower edge comes to lie at the left.
        Edge::Top | Edge::Bottom => Affine {
            x: [0.0, -1.0],
            y: [1.0, 0.0],
            origin: [0.0, along],
        },
    };
    // Of a strip nobody knows which part of the sheet it shows.
    let photo = stock.face.photo.filter(|_| load.size == stock.size());
    let face = SideLook {
        photo,
        ..stock.face
    };
    let sheet = [stock.width, stock.height].map(millimetres);
    Mark::Area {
        outlines: vec![corners([0.0, 0.0], [reach, along])],
        fill: Fill::of_paper(face, sheet, place, 0.0),
        edged: true,
        part: None,
    }
}

/// As many short lines as a fence has at most: it is eighteen gaps long then.
const SHORT: u8 = 36;

/// A fence as drawings have what stands fast: a heavy line with short slanting
/// ones behind it.
pub(super) fn the_fence(gap: f64, along: f64) -> Vec<Mark> {
    let (low, high) = (-gap, along + gap);
    let short = (0..SHORT).map(|number| low + f64::from(number) * gap / 2.0);
    let short = short.take_while(|at| *at < high);
    let short = short.map(|at| line([0.0, at + gap / 2.0], [-gap / 2.0, at], Ink::Ruler));
    let heavy = line([0.0, low], [0.0, high], Ink::Section);
    std::iter::once(heavy).chain(short).collect()
}

pub(super) fn line(from: Spot, to: Spot, ink: Ink) -> Mark {
    Mark::Line {
        from,
        to,
        ink,
        line: None,
    }
}
