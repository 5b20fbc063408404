//! Making what reaches too far as large as fits.

use super::Shut;
use super::room::changes;
use crate::length::Length;
use crate::plane::{CardFrame, Edge, FaceFrame, Point};
use crate::problem::{Reach, Reacher};
use crate::recipe::{Change, EditError, LayerId, MeasureId, PanelId, Placing, Recipe};
use crate::sorted::InOrder as _;

/// Makes a layer, or a panel of a piece glued in, as large as fits in what it
/// reaches past. The strip keeps its measures. Of the ways to do it the first
/// is taken that leaves it reaching past less: a layer keeps being held as it
/// is, or else goes by its distances; a panel shrinks, or else its piece moves.
/// Made whole or not at all.
///
/// Refused where it reaches past nothing, or where what the recipe holds to
/// leaves no such way.
pub fn make_fit(recipe: &mut Recipe, of: Reacher) -> Result<Vec<Change>, EditError> {
    let shut = Shut::of(recipe);
    let reach = reaching(&shut, recipe, of).ok_or(EditError::NoFit)?;
    let ways = match of {
        Reacher::Layer(id) => of_layer(recipe, &shut, id, &reach),
        Reacher::Panel(id) => of_panel(recipe, &shut, id, &reach),
    };
    let fits = |after: &Recipe| {
        let left = reaching(&Shut::of(after), after, of);
        left.is_none_or(|left| left.past < reach.past)
    };
    let fitted = ways.into_iter().find(fits).ok_or(EditError::NoFit)?;
    let moved = changes(recipe, &fitted);
    *recipe = fitted;
    Ok(moved)
}

fn reaching(shut: &Shut, recipe: &Recipe, of: Reacher) -> Option<Reach> {
    let reaches = shut.reaches(recipe);
    reaches.into_iter().find(|reach| reach.of == of)
}

type Asked = Vec<(MeasureId, Length)>;

/// The recipe with these measures as asked, and those of its strips as they
/// are; `None` where that cannot be.
fn asked(recipe: &Recipe, asked: &Asked, yielding: &[MeasureId]) -> Option<Recipe> {
    let strips = recipe.strips().flat_map(|(_, strip)| {
        let widths = strip.panels.iter().map(|panel| panel.width);
        widths.chain([strip.length, strip.height])
    });
    let kept = strips
        .filter(|id| !yielding.contains(id) && asked.iter().all(|(other, _)| other != id))
        .map(|id| (id, recipe.value(id)));
    let all: Asked = asked.iter().copied().chain(kept).collect();
    let mut after = recipe.clone();
    after.settle(&all, &[], yielding).ok()?;
    Some(after)
}

fn of_layer(recipe: &Recipe, shut: &Shut, id: LayerId, reach: &Reach) -> Vec<Recipe> {
    let found = recipe.layer(id).zip(shut.laid.layer(id)).zip(reach.at);
    let Some(((layer, placed), to)) = found else {
        return Vec::new();
    };
    let size = to.size();
    let sizes = [(layer.width, size.width), (layer.height, size.height)];
    let by = Point::<FaceFrame>::new(to.low.x - placed.at.low.x, to.low.y - placed.at.low.y);
    let distances = [
        (layer.left, recipe.value(layer.left) + by.x),
        (layer.bottom, recipe.value(layer.bottom) + by.y),
    ];
    let all: Asked = sizes.into_iter().chain(distances).collect();
    let as_held = match layer.place {
        Placing::Border(border) => vec![(border, recipe.value(border) + by.x)],
        Placing::At(_) => sizes.to_vec(),
        Placing::Distances => all.clone(),
    };
    let mut freed = recipe.clone();
    if freed.place_layer(id, Placing::Distances).is_err() {
        freed = recipe.clone();
    }
    let ways = [asked(recipe, &as_held, &[]), asked(&freed, &all, &[])];
    // What is cut to the size of a panel may share its measure.
    let keeps_strips = |after: &Recipe| {
        recipe.strips().all(|(_, strip)| {
            let widths = strip.panels.iter().map(|panel| panel.width);
            widths
                .chain([strip.length, strip.height])
                .all(|id| recipe.value(id) == after.value(id))
        })
    };
    ways.into_iter().flatten().filter(keeps_strips).collect()
}

fn of_panel(recipe: &Recipe, shut: &Shut, id: PanelId, reach: &Reach) -> Vec<Recipe> {
    let shrunk = || {
        let (of, strip, index) = recipe.strip_with(id)?;
        let panel = strip.panels.get(index)?;
        let laid = shut.laid.panels.get(shut.laid.index_of(id)?)?;
        let now = laid.facet.outline.bounds()?.size();
        let to = reach.fits?;
        let less = [
            (panel.width, now.width - to.width),
            (strip.height, now.height - to.height),
        ];
        let less = less.into_iter().filter(|(_, less)| *less > Length::ZERO);
        let less: Asked = less
            .map(|(id, less)| (id, recipe.value(id) - less))
            .collect();
        let moved = moved(recipe, shut, of.piece()?, reach);
        let both = moved.as_ref().map(|moved| {
            let all = less.iter().chain(moved);
            all.copied().collect::<Asked>()
        });
        let ways = [Some(less), both, moved].into_iter().flatten();
        Some(
            ways.filter_map(|way| asked(recipe, &way, &[strip.length]))
                .collect(),
        )
    };
    shrunk().unwrap_or_default()
}

/// The line a piece is laid along, moved back by what a panel reaches past.
fn moved(recipe: &Recipe, shut: &Shut, of: crate::recipe::PieceId, reach: &Reach) -> Option<Asked> {
    let join = recipe.piece(of)?.joins.first()?;
    let mark = join.at?;
    let closed = shut.folded.as_ref()?.states.first()?;
    let carrier = closed.poses.get(shut.laid.index_of(join.on.panel)?)?;
    let back = carrier.place.back();
    let zero = Point::<CardFrame>::new(Length::ZERO, Length::ZERO);
    let by = reach.edges.iter().fold(zero, |at, (edge, by)| match edge {
        Edge::Left => Point::new(at.x + *by, at.y),
        Edge::Right => Point::new(at.x - *by, at.y),
        Edge::Top => Point::new(at.x, at.y - *by),
        Edge::Bottom => Point::new(at.x, at.y + *by),
    });
    let (from, to) = (back.point(zero), back.point(by));
    let (x, y) = (to.x - from.x, to.y - from.y);
    let corners = [mark.from, mark.to].into_iter();
    let asked = corners.flat_map(|corner| [(corner.x, x), (corner.y, y)]);
    let asked = asked.filter(|(_, by)| *by != Length::ZERO);
    let mut all: Asked = asked.map(|(id, by)| (id, recipe.value(id) + by)).collect();
    all.put_in_order();
    all.dedup();
    (!all.is_empty()).then_some(all)
}
