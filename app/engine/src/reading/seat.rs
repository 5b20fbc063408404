//! Where the flat pieces of a list lie.

use super::piece::{Cut, List};
use super::sense::{Kind, Spot};
use super::shape::{Form, Shape};
use super::told::{Told, Trouble};
use crate::length::Length;
use crate::plane::Size;
use crate::recipe::Side;

/// The widest border that is one: 3/4 in. Our own bound.
const WIDEST: Length = Length::sixty_fourths(48);

/// What a layer lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum On {
    /// A face of the panel at this place.
    Face(usize, Side),
    /// The layer at this place.
    Layer(usize),
}

/// A layer in its place.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Seated {
    pub(super) name: String,
    pub(super) kind: Option<Kind>,
    /// As its reader sees it.
    pub(super) size: Size,
    pub(super) on: On,
    /// The even border it leaves.
    pub(super) border: Option<Length>,
    /// Whether another place of another size would leave an even border too.
    pub(super) doubtful: bool,
    /// Whether it is as large as what it lies on.
    pub(super) whole: bool,
}

/// A place a layer may lie on.
struct Place {
    on: On,
    size: Size,
    taken: bool,
    /// The place beneath, where it is a layer.
    under: Option<usize>,
}

/// Puts every piece but the base on something.
pub(super) fn seat(
    list: &List,
    base: Option<usize>,
    shape: &Shape,
    told: &mut Told,
) -> Vec<Seated> {
    let bases = base
        .and_then(|at| list.cuts.get(at))
        .map_or(1, |cut| cut.count.max(1));
    let mut places = faces(shape);
    let mut layers: Vec<Seated> = Vec::new();
    for (at, cut) in list.cuts.iter().enumerate() {
        if Some(at) == base {
            continue;
        }
        if cut.is_folded() {
            told.trouble(cut.line, Trouble::SecondFolded);
            continue;
        }
        // As many for each card as there are cards in the list.
        let each = if cut.count.is_multiple_of(bases) {
            cut.count / bases
        } else {
            cut.count
        };
        let each = each.max(1);
        for done in 0..each {
            if layers.len() >= MOST {
                told.trouble(cut.line, Trouble::TooMany);
                break;
            }
            let Some(found) = choose(&places, cut, each - done) else {
                told.trouble(cut.line, Trouble::TooLarge(cut.size));
                break;
            };
            let name = name(cut, &layers);
            let Some(place) = places.get_mut(found.place) else {
                continue;
            };
            place.taken = true;
            let seated = Seated {
                name,
                kind: cut.kind,
                size: found.size,
                on: place.on,
                border: found.border,
                doubtful: found.doubtful,
                whole: found.size == place.size,
            };
            let place = Place {
                on: On::Layer(layers.len()),
                size: found.size,
                taken: false,
                under: Some(found.place),
            };
            places.push(place);
            layers.push(seated);
        }
    }
    layers
}

/// The most layers that are put on. Our own bound.
const MOST: usize = 60;

/// The faces of the panels, in the order they are usually covered.
fn faces(shape: &Shape) -> Vec<Place> {
    let count = shape.widths.len();
    let front = shape.front();
    let outside = [front].into_iter().chain(match shape.form {
        Form::Gate { .. } => Some(2),
        _ => None,
    });
    let outside = outside.map(|at| On::Face(at, Side::B));
    let inside = (0..count).rev().map(|at| On::Face(at, Side::A));
    let back = std::iter::once(On::Face(shape.rests(), Side::B)).filter(|_| count > 1);
    outside
        .chain(inside)
        .chain(back)
        .filter_map(|on| {
            let On::Face(at, _) = on else { return None };
            Some(Place {
                on,
                size: shape.panel(at)?,
                taken: false,
                under: None,
            })
        })
        .collect()
}

struct Found {
    place: usize,
    size: Size,
    border: Option<Length>,
    doubtful: bool,
}

/// The place a piece goes to: where it leaves an even border, the narrowest
/// first; else where it is as large as its place; else where it fits.
///
/// `alike` pieces of the size are still to be placed; they keep one border
/// where there are places enough.
fn choose(places: &[Place], cut: &Cut, alike: u32) -> Option<Found> {
    let open = places
        .iter()
        .enumerate()
        .filter(|(_, place)| !place.taken && matches(place.on, cut.spot, places));
    let open: Vec<(usize, &Place)> = open.collect();
    let ways = [cut.size, cut.size.turned()];
    let mut even: Vec<(Length, usize, Size)> = Vec::new();
    for (at, place) in &open {
        for size in ways {
            if let Some(border) = border(size, place.size) {
                even.push((border, *at, size));
                break;
            }
        }
    }
    let enough = |border: Length| {
        let count = even.iter().filter(|(other, ..)| *other == border).count();
        u32::try_from(count).is_ok_and(|count| count >= alike)
    };
    let best = even
        .iter()
        .min_by_key(|(border, at, _)| (!enough(*border), *border, *at));
    if let Some((border, place, size)) = best {
        let below = |at: &usize| places.get(*at).and_then(|place| place.under);
        let beneath: Vec<Size> = std::iter::successors(Some(*place), below)
            .take(places.len())
            .filter_map(|at| places.get(at).map(|place| place.size))
            .collect();
        // Places like those beneath it say the same.
        let doubtful = even.iter().any(|(other, at, _)| {
            other != border
                && places
                    .get(*at)
                    .is_some_and(|it| !beneath.contains(&it.size))
        });
        return Some(Found {
            place: *place,
            size: *size,
            border: Some(*border),
            doubtful,
        });
    }
    let faces = open
        .iter()
        .filter(|(_, place)| matches!(place.on, On::Face(..)));
    let whole = faces.into_iter().find_map(|(at, place)| {
        let size = ways.into_iter().find(|size| *size == place.size)?;
        Some((*at, size))
    });
    // A small piece goes on top of what is there on the front already.
    let mut fitting = open.iter().filter_map(|(at, place)| {
        let size = ways.into_iter().find(|size| {
            size.width <= place.size.width
                && size.height <= place.size.height
                && *size != place.size
        })?;
        Some((matches!(place.on, On::Layer(_)), *at, size))
    });
    let first = fitting.next();
    let last = fitting.rfind(|(is_layer, ..)| *is_layer);
    let (place, size) = whole.or_else(|| {
        let (_, at, size) = last.or(first)?;
        Some((at, size))
    })?;
    Some(Found {
        place,
        size,
        border: None,
        doubtful: false,
    })
}

/// The even border a size leaves on another.
fn border(size: Size, on: Size) -> Option<Length> {
    let (across, up) = (on.width - size.width, on.height - size.height);
    let (half, rest) = across.div_rem(2)?;
    (across == up && rest == Length::ZERO && half > Length::ZERO && half <= WIDEST).then_some(half)
}

/// Whether a place is where the list says the layer goes.
fn matches(on: On, spot: Option<Spot>, places: &[Place]) -> bool {
    let Some(spot) = spot else { return true };
    match on {
        On::Layer(_) => false,
        On::Face(at, Side::A) => spot == Spot::Inside && at < places.len(),
        On::Face(_, Side::B) if spot == Spot::Front => {
            matches!(places.first(), Some(first) if first.on == on)
                || places.get(1).is_some_and(|second| second.on == on)
        }
        On::Face(at, Side::B) => {
            spot == Spot::Back
                && places
                    .iter()
                    .rev()
                    .find(|place| matches!(place.on, On::Face(_, Side::B)))
                    .is_some_and(|last| last.on == On::Face(at, Side::B))
        }
    }
}

/// What a layer is called: as in the list, with a number where another is
/// called so.
fn name(cut: &Cut, layers: &[Seated]) -> String {
    let word = match (&cut.label, cut.kind) {
        (Some(label), _) => label.as_str(),
        (None, Some(Kind::Focal)) => "focal piece",
        (None, Some(Kind::Insert)) => "insert",
        (None, _) => "mat",
    };
    let taken = |name: &str| layers.iter().any(|layer| layer.name == name);
    if !taken(word) {
        return word.to_owned();
    }
    (2..=layers.len() + 2)
        .map(|number| format!("{word} {number}"))
        .find(|name| !taken(name))
        .unwrap_or_else(|| word.to_owned())
}
