//! Where a new piece lies before the maker moves it.

use super::{Card, Tools, work_out};
use crate::laid::{LaidPanel, lay_out};
use crate::length::{Length, nearest};
use crate::plane::{PieceFrame, Point, Rect, Region, Size};
use crate::problem::Weight;
use crate::recipe::{Added, EditError, Face, Naming, PieceId, Recipe};

/// Parts of a panel's width and height, in sixteenths, that a new piece is given
/// there: half of them, or else what fits.
const SHARES: [i64; 7] = [8, 12, 6, 4, 3, 2, 1];

/// Where its middle is tried, in sixteenths of the panel: in the panel's middle,
/// or else around it.
const MIDDLES: [i64; 7] = [8, 6, 10, 4, 12, 3, 13];

/// How many places are tried until the card can be made with the piece there.
/// (Own choice: a tap still answers at once.)
const MOST_TRIED: usize = 24;

/// Adds a piece of two panels, a tab and what hangs on it, folded shut, its tab
/// glued to a face: about half as large as what is free there, and in its
/// middle, so that it keeps clear of the folds round it; elsewhere where the card
/// could not be made with it there.
pub fn add_piece(
    recipe: &mut Recipe,
    on: Face,
    naming: &dyn Naming,
) -> Result<Added<PieceId>, EditError> {
    let laid = lay_out(recipe);
    let index = laid.index_of(on.panel).ok_or(EditError::NoPanel)?;
    let panel = laid.panels.get(index).ok_or(EditError::NoPanel)?;
    let rooms = rooms_on(panel, recipe);
    let stops = |card: &Card| {
        let problems = card.problems.iter();
        problems.filter(|it| it.weight == Weight::Stop).count()
    };
    let before = stops(&work_out(recipe, &Tools::default()));
    let added = |room: Rect<PieceFrame>| {
        let mut with = recipe.clone();
        let added = with.add_piece_in(on, room, naming)?;
        Ok::<_, EditError>((with, added))
    };
    let mut tried = rooms
        .iter()
        .take(MOST_TRIED)
        .filter_map(|room| added(*room).ok());
    let made = tried.find(|(with, _)| stops(&work_out(with, &Tools::default())) <= before);
    // Where it fits nowhere the maker is told why.
    let first = rooms.first().ok_or(EditError::NoPanel)?;
    let (with, added) = made.map_or_else(|| added(*first), Ok)?;
    *recipe = with;
    Ok(added)
}

/// Rectangles on a panel, all of them paper, those with room for glue first.
fn rooms_on(panel: &LaidPanel, recipe: &Recipe) -> Vec<Rect<PieceFrame>> {
    let Some(whole) = panel.facet.outline.bounds() else {
        return Vec::new();
    };
    let size = whole.size();
    let holes = panel.facet.holes.iter();
    let paper = holes.fold(Region::from(&panel.facet.outline), |paper, hole| {
        paper.minus(&Region::from(hole))
    });
    let part = |of: Length, sixteenths: i64| Length::from_units(of.units() / 16 * sixteenths);
    let marked = |of: Length| {
        let marked = nearest(of, recipe.notation.step).at;
        if marked > Length::ZERO { marked } else { of }
    };
    let least = recipe.glue_margin * 2;
    let middles = MIDDLES
        .iter()
        .flat_map(|across| MIDDLES.iter().map(move |up| (*across, *up)));
    let rooms = SHARES.iter().flat_map(|share| {
        let size = Size {
            width: marked(part(size.width, *share)),
            height: marked(part(size.height, *share)),
        };
        middles.clone().map(move |(across, up)| {
            let low = |from: Length, whole: Length, middle: i64, own: Length| {
                from + part(whole, middle) - own.half_down()
            };
            let all = whole.size();
            let at = [
                low(whole.low.x, all.width, across, size.width),
                low(whole.low.y, all.height, up, size.height),
            ];
            let [x, y] = at.map(|at| nearest(at, recipe.notation.step).at);
            Rect::at(Point::new(x, y), size)
        })
    });
    let fits = |room: &Rect<PieceFrame>| Region::from(*room).minus(&paper).is_empty();
    let takes_glue = |room: &Rect<PieceFrame>| {
        let size = room.size();
        size.width > least && size.height > least
    };
    let all: Vec<_> = rooms.collect();
    let fitting = all.iter().copied().filter(fits);
    let (mut found, cramped): (Vec<_>, Vec<_>) = fitting.partition(takes_glue);
    found.extend(cramped);
    found.extend(all.first().filter(|_| found.is_empty()));
    found
}
